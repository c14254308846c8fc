"""Our sheets regenerated inside a workbook of the user's, everything else left as it is.

in_place     a file refreshed where it lies, the earlier one kept beside it: `refresh_file`
merging      the order of the steps: `merge`
package      the zip, its parts and what points at what
book         the list of sheets, and the names
styles       our looks in the user's list
carrying     our sheets with what hangs on them
keeping      what the user has put onto our sheets
cells        where cells stand in the bytes of a sheet
grafting     single cells put into a sheet that stays the user's
freshening   results of the user's formulas that look at ours: `freshened`
contents     what the cells of a whole workbook say
references   what a formula rests on
dependents   which formulas change when our cells do
engine       formulas worked out by a spreadsheet engine
charting     points that charts of the user's keep
"""
