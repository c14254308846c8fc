"""Our sheets regenerated inside a workbook of the user's, everything else left as it is.

merging      the order of the steps: `merge`
package      the zip, its parts and what points at what
book         the list of sheets, and the names
styles       our looks in the user's list
carrying     our sheets with what hangs on them
cells        where cells stand in the bytes of a sheet
grafting     single cells put into a sheet that stays the user's
"""
