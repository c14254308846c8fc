Attribute VB_Name = "PlinthFunctions"
Option Explicit
' Written by addin/macros/wrappers.py from addin/functions.py; change those, not this.

Public Function PLINTH_WALL_WEIGHT(length_m, height_m, thickness_mm, Optional openings_m2, _
    Optional unit_weight_kN_m3, Optional plastered_faces)
    On Error GoTo failed
    PLINTH_WALL_WEIGHT = PlinthResult(PlinthCall("PLINTH_WALL_WEIGHT", Array(PlinthPlain(length_m), _
        PlinthPlain(height_m), PlinthPlain(thickness_mm), PlinthPlain(openings_m2), _
        PlinthPlain(unit_weight_kN_m3), PlinthPlain(plastered_faces))))
    Exit Function
failed:
    PLINTH_WALL_WEIGHT = CVErr(2015)
End Function

Public Function PLINTH_SLAB_SHARE(side_m, other_m)
    On Error GoTo failed
    PLINTH_SLAB_SHARE = PlinthResult(PlinthCall("PLINTH_SLAB_SHARE", Array(PlinthPlain(side_m), _
        PlinthPlain(other_m))))
    Exit Function
failed:
    PLINTH_SLAB_SHARE = CVErr(2015)
End Function

Public Function PLINTH_WALL_STRESS(load_kN, length_m, thickness_mm)
    On Error GoTo failed
    PLINTH_WALL_STRESS = PlinthResult(PlinthCall("PLINTH_WALL_STRESS", Array(PlinthPlain(load_kN), _
        PlinthPlain(length_m), PlinthPlain(thickness_mm))))
    Exit Function
failed:
    PLINTH_WALL_STRESS = CVErr(2015)
End Function

Public Function PLINTH_FOOTING_PRESSURE(line_load_kN_m, width_m)
    On Error GoTo failed
    PLINTH_FOOTING_PRESSURE = PlinthResult(PlinthCall("PLINTH_FOOTING_PRESSURE", Array(PlinthPlain(line_load_kN_m), _
        PlinthPlain(width_m))))
    Exit Function
failed:
    PLINTH_FOOTING_PRESSURE = CVErr(2015)
End Function

Public Function PLINTH_JACKS(load_kN, length_m, Optional rating_kN, Optional share_percent, Optional widest_m)
    On Error GoTo failed
    PLINTH_JACKS = PlinthResult(PlinthCall("PLINTH_JACKS", Array(PlinthPlain(load_kN), PlinthPlain(length_m), _
        PlinthPlain(rating_kN), PlinthPlain(share_percent), PlinthPlain(widest_m))))
    Exit Function
failed:
    PLINTH_JACKS = CVErr(2015)
End Function

Public Function PLINTH_JACK_SPACING(length_m, count)
    On Error GoTo failed
    PLINTH_JACK_SPACING = PlinthResult(PlinthCall("PLINTH_JACK_SPACING", Array(PlinthPlain(length_m), _
        PlinthPlain(count))))
    Exit Function
failed:
    PLINTH_JACK_SPACING = CVErr(2015)
End Function

Public Function PLINTH_BASE_SIDE(load_kN, allowable_kPa)
    On Error GoTo failed
    PLINTH_BASE_SIDE = PlinthResult(PlinthCall("PLINTH_BASE_SIDE", Array(PlinthPlain(load_kN), _
        PlinthPlain(allowable_kPa))))
    Exit Function
failed:
    PLINTH_BASE_SIDE = CVErr(2015)
End Function

Public Function PLINTH_MASONRY(length_m, thickness_mm, height_m, opening_areas_m2)
    On Error GoTo failed
    PLINTH_MASONRY = PlinthResult(PlinthCall("PLINTH_MASONRY", Array(PlinthPlain(length_m), _
        PlinthPlain(thickness_mm), PlinthPlain(height_m), PlinthPlain(opening_areas_m2))))
    Exit Function
failed:
    PLINTH_MASONRY = CVErr(2015)
End Function

Public Function PLINTH_PLASTER(length_m, height_m, Optional plastered_faces, Optional opening_areas_m2)
    On Error GoTo failed
    PLINTH_PLASTER = PlinthResult(PlinthCall("PLINTH_PLASTER", Array(PlinthPlain(length_m), _
        PlinthPlain(height_m), PlinthPlain(plastered_faces), PlinthPlain(opening_areas_m2))))
    Exit Function
failed:
    PLINTH_PLASTER = CVErr(2015)
End Function

Public Function PLINTH_DIGGING(length_m, width_m, depth_m)
    On Error GoTo failed
    PLINTH_DIGGING = PlinthResult(PlinthCall("PLINTH_DIGGING", Array(PlinthPlain(length_m), _
        PlinthPlain(width_m), PlinthPlain(depth_m))))
    Exit Function
failed:
    PLINTH_DIGGING = CVErr(2015)
End Function

Public Function PLINTH_FILL(length_m, breadth_m, depth_m)
    On Error GoTo failed
    PLINTH_FILL = PlinthResult(PlinthCall("PLINTH_FILL", Array(PlinthPlain(length_m), PlinthPlain(breadth_m), _
        PlinthPlain(depth_m))))
    Exit Function
failed:
    PLINTH_FILL = CVErr(2015)
End Function

Public Function PLINTH_AMOUNT(quantity, rate, Optional coin)
    On Error GoTo failed
    PLINTH_AMOUNT = PlinthResult(PlinthCall("PLINTH_AMOUNT", Array(PlinthPlain(quantity), PlinthPlain(rate), _
        PlinthPlain(coin))))
    Exit Function
failed:
    PLINTH_AMOUNT = CVErr(2015)
End Function

Public Function PLINTH_CONVERT(typed, unit)
    On Error GoTo failed
    PLINTH_CONVERT = PlinthResult(PlinthCall("PLINTH_CONVERT", Array(PlinthPlain(typed), PlinthPlain(unit))))
    Exit Function
failed:
    PLINTH_CONVERT = CVErr(2015)
End Function

Public Function PLINTH_IN_WORDS(amount, grouping)
    On Error GoTo failed
    PLINTH_IN_WORDS = PlinthResult(PlinthCall("PLINTH_IN_WORDS", Array(PlinthPlain(amount), _
        PlinthPlain(grouping))))
    Exit Function
failed:
    PLINTH_IN_WORDS = CVErr(2015)
End Function

' Help that cannot be set is left out: the functions work without it.
Private Sub PlinthDescribe(ByVal named As String, ByVal help As String, ByVal group As String, ByVal notes As Variant)
    On Error Resume Next
    Application.MacroOptions Macro:="'" & ThisWorkbook.Name & "'!" & named, _
        Description:=help, Category:=group, ArgumentDescriptions:=notes
End Sub

Public Sub PlinthDescribeAll()
    PlinthDescribe "PLINTH_WALL_WEIGHT", "Weight of a plastered wall net of its openings, kN", "Plinth loads", Array("length, m", _
        "height, floor to soffit, m", "thickness without plaster, mm", "area of all openings, m2; left out: 0", _
        "unit weight of the masonry, kN/m3; left out: 18.85", "plastered faces, 0 to 2, No; left out: 2")
    PlinthDescribe "PLINTH_SLAB_SHARE", "Area of a rectangular slab that one side carries, m2", "Plinth loads", Array("length of that side, m", _
        "length of the sides at right angles to it, m")
    PlinthDescribe "PLINTH_WALL_STRESS", "Stress on a wall section, kPa", "Plinth loads", Array("load on the wall, kN", _
        "length, m", "thickness without plaster, mm")
    PlinthDescribe "PLINTH_FOOTING_PRESSURE", "Pressure under a strip footing, kPa", "Plinth loads", Array("all load along the wall, footing included, kN/m", _
        "width of the footing, m")
    PlinthDescribe "PLINTH_JACKS", "Jacks under a wall by load and spacing: a count, not a plan", "Plinth jacks", Array("load in the lift, kN", _
        "length, m", "rating of a jack, kN; left out: 200", "share of the rating used, %; left out: 40", _
        "widest spacing, m; left out: 1.2")
    PlinthDescribe "PLINTH_JACK_SPACING", "Spacing of that many jacks, evenly set, m", "Plinth jacks", Array("length, m", _
        "number of jacks, No")
    PlinthDescribe "PLINTH_BASE_SIDE", "Side of a square jack base, m", "Plinth jacks", Array("load the base is made for, kN", _
        "safe bearing pressure, kPa")
    PlinthDescribe "PLINTH_MASONRY", "Masonry of a wall, openings deducted by the rules, m3", "Plinth quantities", Array("length, m", _
        "thickness without plaster, mm", "height, floor to soffit, m", _
        "areas of the openings, one cell each, m2")
    PlinthDescribe "PLINTH_PLASTER", "Plaster of a wall, openings deducted by the rules, m2", "Plinth quantities", Array("length, m", _
        "height, floor to soffit, m", "plastered faces, 0 to 2, No; left out: 2", _
        "areas of the openings, one cell each, m2")
    PlinthDescribe "PLINTH_DIGGING", "Earth dug, as it lies in the ground, m3", "Plinth quantities", Array("length, m", _
        "width of the trench, m", "depth, m")
    PlinthDescribe "PLINTH_FILL", "Fill of a room, m3", "Plinth quantities", Array("length, m", _
        "breadth of the room, m", "depth of fill, m")
    PlinthDescribe "PLINTH_AMOUNT", "Quantity times rate, to the smallest coin", "Plinth money", Array("quantity in the unit of the item", _
        "for one unit, money", "smallest coin, money; left out: 1")
    PlinthDescribe "PLINTH_CONVERT", "What was typed with a unit, as a number in another unit", "Plinth quantities", Array("for example 10' 6""", _
        "for example mm")
    PlinthDescribe "PLINTH_IN_WORDS", "An amount in words, whole units", "Plinth money", Array("the amount, money", _
        "indian or international")
End Sub
