Attribute VB_Name = "PlinthFunctions"
Option Explicit
' Written by addin/macros/wrappers.py from addin/functions.py; change those, not this.

Public Function PLINTH_WALL_WEIGHT(length_m, height_m, thickness_mm, Optional openings_m2, _
    Optional unit_weight_kN_m3, Optional plastered_faces, Optional plaster_mm)
    On Error GoTo failed
    PLINTH_WALL_WEIGHT = PlinthResult(PlinthCall("PLINTH_WALL_WEIGHT", Array(PlinthPlain(length_m), _
        PlinthPlain(height_m), PlinthPlain(thickness_mm), PlinthPlain(openings_m2), _
        PlinthPlain(unit_weight_kN_m3), PlinthPlain(plastered_faces), PlinthPlain(plaster_mm))))
    Exit Function
failed:
    PLINTH_WALL_WEIGHT = CVErr(2015)
End Function

Public Function PLINTH_WALL_LOAD(own_kN, slab_shares_m2, slab_loads_kN_m2)
    On Error GoTo failed
    PLINTH_WALL_LOAD = PlinthResult(PlinthCall("PLINTH_WALL_LOAD", Array(PlinthPlain(own_kN), _
        PlinthPlain(slab_shares_m2), PlinthPlain(slab_loads_kN_m2))))
    Exit Function
failed:
    PLINTH_WALL_LOAD = CVErr(2015)
End Function

Public Function PLINTH_LINE_LOAD(load_kN, length_m)
    On Error GoTo failed
    PLINTH_LINE_LOAD = PlinthResult(PlinthCall("PLINTH_LINE_LOAD", Array(PlinthPlain(load_kN), _
        PlinthPlain(length_m))))
    Exit Function
failed:
    PLINTH_LINE_LOAD = CVErr(2015)
End Function

Public Function PLINTH_WALL_STRESS(load_kN, length_m, thickness_mm)
    On Error GoTo failed
    PLINTH_WALL_STRESS = PlinthResult(PlinthCall("PLINTH_WALL_STRESS", Array(PlinthPlain(load_kN), _
        PlinthPlain(length_m), PlinthPlain(thickness_mm))))
    Exit Function
failed:
    PLINTH_WALL_STRESS = CVErr(2015)
End Function

Public Function PLINTH_BEAM_WEIGHT(length_m, breadth_mm, depth_mm, Optional unit_weight_kN_m3)
    On Error GoTo failed
    PLINTH_BEAM_WEIGHT = PlinthResult(PlinthCall("PLINTH_BEAM_WEIGHT", Array(PlinthPlain(length_m), _
        PlinthPlain(breadth_mm), PlinthPlain(depth_mm), PlinthPlain(unit_weight_kN_m3))))
    Exit Function
failed:
    PLINTH_BEAM_WEIGHT = CVErr(2015)
End Function

Public Function PLINTH_SLAB_SHARE(side_m, other_m)
    On Error GoTo failed
    PLINTH_SLAB_SHARE = PlinthResult(PlinthCall("PLINTH_SLAB_SHARE", Array(PlinthPlain(side_m), _
        PlinthPlain(other_m))))
    Exit Function
failed:
    PLINTH_SLAB_SHARE = CVErr(2015)
End Function

Public Function PLINTH_SLAB_SHARE_ONE_WAY(side_m, span_m)
    On Error GoTo failed
    PLINTH_SLAB_SHARE_ONE_WAY = PlinthResult(PlinthCall("PLINTH_SLAB_SHARE_ONE_WAY", Array(PlinthPlain(side_m), _
        PlinthPlain(span_m))))
    Exit Function
failed:
    PLINTH_SLAB_SHARE_ONE_WAY = CVErr(2015)
End Function

Public Function PLINTH_SLAB_LOAD(Optional slab_mm, Optional finish_kN_m2, Optional concrete_kN_m3)
    On Error GoTo failed
    PLINTH_SLAB_LOAD = PlinthResult(PlinthCall("PLINTH_SLAB_LOAD", Array(PlinthPlain(slab_mm), _
        PlinthPlain(finish_kN_m2), PlinthPlain(concrete_kN_m3))))
    Exit Function
failed:
    PLINTH_SLAB_LOAD = CVErr(2015)
End Function

Public Function PLINTH_SLAB_WEIGHT(area_m2, Optional slab_mm, Optional finish_kN_m2, Optional concrete_kN_m3)
    On Error GoTo failed
    PLINTH_SLAB_WEIGHT = PlinthResult(PlinthCall("PLINTH_SLAB_WEIGHT", Array(PlinthPlain(area_m2), _
        PlinthPlain(slab_mm), PlinthPlain(finish_kN_m2), PlinthPlain(concrete_kN_m3))))
    Exit Function
failed:
    PLINTH_SLAB_WEIGHT = CVErr(2015)
End Function

Public Function PLINTH_ROOF_LOAD(covering_kN_m2, Optional slope_deg)
    On Error GoTo failed
    PLINTH_ROOF_LOAD = PlinthResult(PlinthCall("PLINTH_ROOF_LOAD", Array(PlinthPlain(covering_kN_m2), _
        PlinthPlain(slope_deg))))
    Exit Function
failed:
    PLINTH_ROOF_LOAD = CVErr(2015)
End Function

Public Function PLINTH_ROOF_WEIGHT(area_m2, covering_kN_m2, Optional slope_deg)
    On Error GoTo failed
    PLINTH_ROOF_WEIGHT = PlinthResult(PlinthCall("PLINTH_ROOF_WEIGHT", Array(PlinthPlain(area_m2), _
        PlinthPlain(covering_kN_m2), PlinthPlain(slope_deg))))
    Exit Function
failed:
    PLINTH_ROOF_WEIGHT = CVErr(2015)
End Function

Public Function PLINTH_ROOF_IMPOSED(Optional slope_deg, Optional flat_kN_m2)
    On Error GoTo failed
    PLINTH_ROOF_IMPOSED = PlinthResult(PlinthCall("PLINTH_ROOF_IMPOSED", Array(PlinthPlain(slope_deg), _
        PlinthPlain(flat_kN_m2))))
    Exit Function
failed:
    PLINTH_ROOF_IMPOSED = CVErr(2015)
End Function

Public Function PLINTH_IMPOSED_LOAD(use_of_floor)
    On Error GoTo failed
    PLINTH_IMPOSED_LOAD = PlinthResult(PlinthCall("PLINTH_IMPOSED_LOAD", Array(PlinthPlain(use_of_floor))))
    Exit Function
failed:
    PLINTH_IMPOSED_LOAD = CVErr(2015)
End Function

Public Function PLINTH_UNIT_WEIGHT(material)
    On Error GoTo failed
    PLINTH_UNIT_WEIGHT = PlinthResult(PlinthCall("PLINTH_UNIT_WEIGHT", Array(PlinthPlain(material))))
    Exit Function
failed:
    PLINTH_UNIT_WEIGHT = CVErr(2015)
End Function

Public Function PLINTH_COVERING(covering)
    On Error GoTo failed
    PLINTH_COVERING = PlinthResult(PlinthCall("PLINTH_COVERING", Array(PlinthPlain(covering))))
    Exit Function
failed:
    PLINTH_COVERING = CVErr(2015)
End Function

Public Function PLINTH_BEARING(soil)
    On Error GoTo failed
    PLINTH_BEARING = PlinthResult(PlinthCall("PLINTH_BEARING", Array(PlinthPlain(soil))))
    Exit Function
failed:
    PLINTH_BEARING = CVErr(2015)
End Function

Public Function PLINTH_FOOTING_PRESSURE(line_load_kN_m, width_m)
    On Error GoTo failed
    PLINTH_FOOTING_PRESSURE = PlinthResult(PlinthCall("PLINTH_FOOTING_PRESSURE", Array(PlinthPlain(line_load_kN_m), _
        PlinthPlain(width_m))))
    Exit Function
failed:
    PLINTH_FOOTING_PRESSURE = CVErr(2015)
End Function

Public Function PLINTH_PAD_PRESSURE(load_kN, side_m)
    On Error GoTo failed
    PLINTH_PAD_PRESSURE = PlinthResult(PlinthCall("PLINTH_PAD_PRESSURE", Array(PlinthPlain(load_kN), _
        PlinthPlain(side_m))))
    Exit Function
failed:
    PLINTH_PAD_PRESSURE = CVErr(2015)
End Function

Public Function PLINTH_NEW_MASONRY_LOAD(rise_m, Optional thickness_mm, Optional unit_weight_kN_m3, _
    Optional band_m, Optional concrete_kN_m3)
    On Error GoTo failed
    PLINTH_NEW_MASONRY_LOAD = PlinthResult(PlinthCall("PLINTH_NEW_MASONRY_LOAD", Array(PlinthPlain(rise_m), _
        PlinthPlain(thickness_mm), PlinthPlain(unit_weight_kN_m3), PlinthPlain(band_m), _
        PlinthPlain(concrete_kN_m3))))
    Exit Function
failed:
    PLINTH_NEW_MASONRY_LOAD = CVErr(2015)
End Function

Public Function PLINTH_FILL_LOAD(filled_sides, width_m, plinth_mm, rise_m, Optional fill_kN_m3)
    On Error GoTo failed
    PLINTH_FILL_LOAD = PlinthResult(PlinthCall("PLINTH_FILL_LOAD", Array(PlinthPlain(filled_sides), _
        PlinthPlain(width_m), PlinthPlain(plinth_mm), PlinthPlain(rise_m), PlinthPlain(fill_kN_m3))))
    Exit Function
failed:
    PLINTH_FILL_LOAD = CVErr(2015)
End Function

Public Function PLINTH_USABLE_LOAD(Optional rating_kN, Optional share_percent)
    On Error GoTo failed
    PLINTH_USABLE_LOAD = PlinthResult(PlinthCall("PLINTH_USABLE_LOAD", Array(PlinthPlain(rating_kN), _
        PlinthPlain(share_percent))))
    Exit Function
failed:
    PLINTH_USABLE_LOAD = CVErr(2015)
End Function

Public Function PLINTH_JACKS(load_kN, length_m, Optional rating_kN, Optional share_percent, Optional widest_m, _
    Optional end_m)
    On Error GoTo failed
    PLINTH_JACKS = PlinthResult(PlinthCall("PLINTH_JACKS", Array(PlinthPlain(load_kN), PlinthPlain(length_m), _
        PlinthPlain(rating_kN), PlinthPlain(share_percent), PlinthPlain(widest_m), PlinthPlain(end_m))))
    Exit Function
failed:
    PLINTH_JACKS = CVErr(2015)
End Function

Public Function PLINTH_JACKS_BY_LOAD(load_kN, Optional rating_kN, Optional share_percent)
    On Error GoTo failed
    PLINTH_JACKS_BY_LOAD = PlinthResult(PlinthCall("PLINTH_JACKS_BY_LOAD", Array(PlinthPlain(load_kN), _
        PlinthPlain(rating_kN), PlinthPlain(share_percent))))
    Exit Function
failed:
    PLINTH_JACKS_BY_LOAD = CVErr(2015)
End Function

Public Function PLINTH_JACKS_BY_SPACING(length_m, Optional widest_m, Optional end_m)
    On Error GoTo failed
    PLINTH_JACKS_BY_SPACING = PlinthResult(PlinthCall("PLINTH_JACKS_BY_SPACING", Array(PlinthPlain(length_m), _
        PlinthPlain(widest_m), PlinthPlain(end_m))))
    Exit Function
failed:
    PLINTH_JACKS_BY_SPACING = CVErr(2015)
End Function

Public Function PLINTH_JACK_SPACING(length_m, jack_count, Optional end_m)
    On Error GoTo failed
    PLINTH_JACK_SPACING = PlinthResult(PlinthCall("PLINTH_JACK_SPACING", Array(PlinthPlain(length_m), _
        PlinthPlain(jack_count), PlinthPlain(end_m))))
    Exit Function
failed:
    PLINTH_JACK_SPACING = CVErr(2015)
End Function

Public Function PLINTH_JACK_REACTIONS(line_load_kN_m, length_m, positions_m, ei_kNm2, compliance_mm_kN)
    On Error GoTo failed
    PLINTH_JACK_REACTIONS = PlinthResult(PlinthCall("PLINTH_JACK_REACTIONS", Array(PlinthPlain(line_load_kN_m), _
        PlinthPlain(length_m), PlinthPlain(positions_m), PlinthPlain(ei_kNm2), PlinthPlain(compliance_mm_kN))))
    Exit Function
failed:
    PLINTH_JACK_REACTIONS = CVErr(2015)
End Function

Public Function PLINTH_JACKS_ONE_LOST(line_load_kN_m, length_m, positions_m, ei_kNm2, compliance_mm_kN)
    On Error GoTo failed
    PLINTH_JACKS_ONE_LOST = PlinthResult(PlinthCall("PLINTH_JACKS_ONE_LOST", Array(PlinthPlain(line_load_kN_m), _
        PlinthPlain(length_m), PlinthPlain(positions_m), PlinthPlain(ei_kNm2), PlinthPlain(compliance_mm_kN))))
    Exit Function
failed:
    PLINTH_JACKS_ONE_LOST = CVErr(2015)
End Function

Public Function PLINTH_JACKS_UNEVEN(line_load_kN_m, length_m, positions_m, ei_kNm2, compliance_mm_kN, _
    Optional difference_mm)
    On Error GoTo failed
    PLINTH_JACKS_UNEVEN = PlinthResult(PlinthCall("PLINTH_JACKS_UNEVEN", Array(PlinthPlain(line_load_kN_m), _
        PlinthPlain(length_m), PlinthPlain(positions_m), PlinthPlain(ei_kNm2), PlinthPlain(compliance_mm_kN), _
        PlinthPlain(difference_mm))))
    Exit Function
failed:
    PLINTH_JACKS_UNEVEN = CVErr(2015)
End Function

Public Function PLINTH_JACK_PLACES(line_load_kN_m, length_m, ei_kNm2, compliance_mm_kN, Optional rating_kN, _
    Optional share_percent, Optional widest_m, Optional difference_mm)
    On Error GoTo failed
    PLINTH_JACK_PLACES = PlinthResult(PlinthCall("PLINTH_JACK_PLACES", Array(PlinthPlain(line_load_kN_m), _
        PlinthPlain(length_m), PlinthPlain(ei_kNm2), PlinthPlain(compliance_mm_kN), PlinthPlain(rating_kN), _
        PlinthPlain(share_percent), PlinthPlain(widest_m), PlinthPlain(difference_mm))))
    Exit Function
failed:
    PLINTH_JACK_PLACES = CVErr(2015)
End Function

Public Function PLINTH_BEAM_STIFFNESS(section, Optional beams)
    On Error GoTo failed
    PLINTH_BEAM_STIFFNESS = PlinthResult(PlinthCall("PLINTH_BEAM_STIFFNESS", Array(PlinthPlain(section), _
        PlinthPlain(beams))))
    Exit Function
failed:
    PLINTH_BEAM_STIFFNESS = CVErr(2015)
End Function

Public Function PLINTH_BEAM_CHECK(section, beams, line_load_kN_m, spacing_m, plate_m, Optional ties_m)
    On Error GoTo failed
    PLINTH_BEAM_CHECK = PlinthResult(PlinthCall("PLINTH_BEAM_CHECK", Array(PlinthPlain(section), _
        PlinthPlain(beams), PlinthPlain(line_load_kN_m), PlinthPlain(spacing_m), PlinthPlain(plate_m), _
        PlinthPlain(ties_m))))
    Exit Function
failed:
    PLINTH_BEAM_CHECK = CVErr(2015)
End Function

Public Function PLINTH_BEAM_USE(section, beams, line_load_kN_m, spacing_m, plate_m, Optional ties_m)
    On Error GoTo failed
    PLINTH_BEAM_USE = PlinthResult(PlinthCall("PLINTH_BEAM_USE", Array(PlinthPlain(section), _
        PlinthPlain(beams), PlinthPlain(line_load_kN_m), PlinthPlain(spacing_m), PlinthPlain(plate_m), _
        PlinthPlain(ties_m))))
    Exit Function
failed:
    PLINTH_BEAM_USE = CVErr(2015)
End Function

Public Function PLINTH_BEAM_GOVERNED_BY(section, beams, line_load_kN_m, spacing_m, plate_m, Optional ties_m)
    On Error GoTo failed
    PLINTH_BEAM_GOVERNED_BY = PlinthResult(PlinthCall("PLINTH_BEAM_GOVERNED_BY", Array(PlinthPlain(section), _
        PlinthPlain(beams), PlinthPlain(line_load_kN_m), PlinthPlain(spacing_m), PlinthPlain(plate_m), _
        PlinthPlain(ties_m))))
    Exit Function
failed:
    PLINTH_BEAM_GOVERNED_BY = CVErr(2015)
End Function

Public Function PLINTH_LIGHTEST_BEAM(line_load_kN_m, spacing_m, plate_m, Optional ties_m, Optional beams)
    On Error GoTo failed
    PLINTH_LIGHTEST_BEAM = PlinthResult(PlinthCall("PLINTH_LIGHTEST_BEAM", Array(PlinthPlain(line_load_kN_m), _
        PlinthPlain(spacing_m), PlinthPlain(plate_m), PlinthPlain(ties_m), PlinthPlain(beams))))
    Exit Function
failed:
    PLINTH_LIGHTEST_BEAM = CVErr(2015)
End Function

Public Function PLINTH_PACKING_CAPACITY(contact_m2, Optional timber, Optional wet)
    On Error GoTo failed
    PLINTH_PACKING_CAPACITY = PlinthResult(PlinthCall("PLINTH_PACKING_CAPACITY", Array(PlinthPlain(contact_m2), _
        PlinthPlain(timber), PlinthPlain(wet))))
    Exit Function
failed:
    PLINTH_PACKING_CAPACITY = CVErr(2015)
End Function

Public Function PLINTH_PACKING_SHORTENING(load_kN, height_m, contact_m2, Optional timber)
    On Error GoTo failed
    PLINTH_PACKING_SHORTENING = PlinthResult(PlinthCall("PLINTH_PACKING_SHORTENING", Array(PlinthPlain(load_kN), _
        PlinthPlain(height_m), PlinthPlain(contact_m2), PlinthPlain(timber))))
    Exit Function
failed:
    PLINTH_PACKING_SHORTENING = CVErr(2015)
End Function

Public Function PLINTH_SUPPORT_COMPLIANCE(height_m, contact_m2, subgrade_kN_m3, base_side_m, Optional timber, _
    Optional jack_mm_kN, Optional base_mm_kN)
    On Error GoTo failed
    PLINTH_SUPPORT_COMPLIANCE = PlinthResult(PlinthCall("PLINTH_SUPPORT_COMPLIANCE", Array(PlinthPlain(height_m), _
        PlinthPlain(contact_m2), PlinthPlain(subgrade_kN_m3), PlinthPlain(base_side_m), PlinthPlain(timber), _
        PlinthPlain(jack_mm_kN), PlinthPlain(base_mm_kN))))
    Exit Function
failed:
    PLINTH_SUPPORT_COMPLIANCE = CVErr(2015)
End Function

Public Function PLINTH_CRIB_CAPACITY(member_m, per_layer, Optional timber, Optional wet)
    On Error GoTo failed
    PLINTH_CRIB_CAPACITY = PlinthResult(PlinthCall("PLINTH_CRIB_CAPACITY", Array(PlinthPlain(member_m), _
        PlinthPlain(per_layer), PlinthPlain(timber), PlinthPlain(wet))))
    Exit Function
failed:
    PLINTH_CRIB_CAPACITY = CVErr(2015)
End Function

Public Function PLINTH_CRIB_LAYERS(height_m, member_m)
    On Error GoTo failed
    PLINTH_CRIB_LAYERS = PlinthResult(PlinthCall("PLINTH_CRIB_LAYERS", Array(PlinthPlain(height_m), _
        PlinthPlain(member_m))))
    Exit Function
failed:
    PLINTH_CRIB_LAYERS = CVErr(2015)
End Function

Public Function PLINTH_CRIB_SLENDERNESS(height_m, width_m)
    On Error GoTo failed
    PLINTH_CRIB_SLENDERNESS = PlinthResult(PlinthCall("PLINTH_CRIB_SLENDERNESS", Array(PlinthPlain(height_m), _
        PlinthPlain(width_m))))
    Exit Function
failed:
    PLINTH_CRIB_SLENDERNESS = CVErr(2015)
End Function

Public Function PLINTH_CRIB_CHECK(load_kN, member_m, per_layer, width_m, height_m, Optional timber, _
    Optional wet, Optional braced, Optional wind_kN)
    On Error GoTo failed
    PLINTH_CRIB_CHECK = PlinthResult(PlinthCall("PLINTH_CRIB_CHECK", Array(PlinthPlain(load_kN), _
        PlinthPlain(member_m), PlinthPlain(per_layer), PlinthPlain(width_m), PlinthPlain(height_m), _
        PlinthPlain(timber), PlinthPlain(wet), PlinthPlain(braced), PlinthPlain(wind_kN))))
    Exit Function
failed:
    PLINTH_CRIB_CHECK = CVErr(2015)
End Function

Public Function PLINTH_BASE_SIDE(load_kN, allowable_kPa)
    On Error GoTo failed
    PLINTH_BASE_SIDE = PlinthResult(PlinthCall("PLINTH_BASE_SIDE", Array(PlinthPlain(load_kN), _
        PlinthPlain(allowable_kPa))))
    Exit Function
failed:
    PLINTH_BASE_SIDE = CVErr(2015)
End Function

Public Function PLINTH_BASE_THICKNESS(side_m, Optional plate_m)
    On Error GoTo failed
    PLINTH_BASE_THICKNESS = PlinthResult(PlinthCall("PLINTH_BASE_THICKNESS", Array(PlinthPlain(side_m), _
        PlinthPlain(plate_m))))
    Exit Function
failed:
    PLINTH_BASE_THICKNESS = CVErr(2015)
End Function

Public Function PLINTH_PLAIN_BASE_THICKNESS(load_kN, allowable_kPa, Optional plate_m)
    On Error GoTo failed
    PLINTH_PLAIN_BASE_THICKNESS = PlinthResult(PlinthCall("PLINTH_PLAIN_BASE_THICKNESS", Array(PlinthPlain(load_kN), _
        PlinthPlain(allowable_kPa), PlinthPlain(plate_m))))
    Exit Function
failed:
    PLINTH_PLAIN_BASE_THICKNESS = CVErr(2015)
End Function

Public Function PLINTH_PLAIN_BASE_CHECK(load_kN, allowable_kPa, Optional plate_m)
    On Error GoTo failed
    PLINTH_PLAIN_BASE_CHECK = PlinthResult(PlinthCall("PLINTH_PLAIN_BASE_CHECK", Array(PlinthPlain(load_kN), _
        PlinthPlain(allowable_kPa), PlinthPlain(plate_m))))
    Exit Function
failed:
    PLINTH_PLAIN_BASE_CHECK = CVErr(2015)
End Function

Public Function PLINTH_NET_LIFT(Optional stroke_mm, Optional clearance_mm, Optional seating_mm)
    On Error GoTo failed
    PLINTH_NET_LIFT = PlinthResult(PlinthCall("PLINTH_NET_LIFT", Array(PlinthPlain(stroke_mm), _
        PlinthPlain(clearance_mm), PlinthPlain(seating_mm))))
    Exit Function
failed:
    PLINTH_NET_LIFT = CVErr(2015)
End Function

Public Function PLINTH_STROKES(rise_m, Optional stroke_mm, Optional clearance_mm, Optional seating_mm)
    On Error GoTo failed
    PLINTH_STROKES = PlinthResult(PlinthCall("PLINTH_STROKES", Array(PlinthPlain(rise_m), _
        PlinthPlain(stroke_mm), PlinthPlain(clearance_mm), PlinthPlain(seating_mm))))
    Exit Function
failed:
    PLINTH_STROKES = CVErr(2015)
End Function

Public Function PLINTH_COURSES(rise_m, course_mm)
    On Error GoTo failed
    PLINTH_COURSES = PlinthResult(PlinthCall("PLINTH_COURSES", Array(PlinthPlain(rise_m), _
        PlinthPlain(course_mm))))
    Exit Function
failed:
    PLINTH_COURSES = CVErr(2015)
End Function

Public Function PLINTH_OIL_PRESSURE(load_kN, piston_mm2)
    On Error GoTo failed
    PLINTH_OIL_PRESSURE = PlinthResult(PlinthCall("PLINTH_OIL_PRESSURE", Array(PlinthPlain(load_kN), _
        PlinthPlain(piston_mm2))))
    Exit Function
failed:
    PLINTH_OIL_PRESSURE = CVErr(2015)
End Function

Public Function PLINTH_CIRCUIT_FORCES(load_kN, centre_x_m, centre_y_m, xs_m, ys_m)
    On Error GoTo failed
    PLINTH_CIRCUIT_FORCES = PlinthResult(PlinthCall("PLINTH_CIRCUIT_FORCES", Array(PlinthPlain(load_kN), _
        PlinthPlain(centre_x_m), PlinthPlain(centre_y_m), PlinthPlain(xs_m), PlinthPlain(ys_m))))
    Exit Function
failed:
    PLINTH_CIRCUIT_FORCES = CVErr(2015)
End Function

Public Function PLINTH_NEEDED_PLINTH(Optional road_m, Optional flood_m, Optional plinth_above_road_m, _
    Optional road_build_up_m, Optional freeboard_m, Optional least_plinth_m)
    On Error GoTo failed
    PLINTH_NEEDED_PLINTH = PlinthResult(PlinthCall("PLINTH_NEEDED_PLINTH", Array(PlinthPlain(road_m), _
        PlinthPlain(flood_m), PlinthPlain(plinth_above_road_m), PlinthPlain(road_build_up_m), _
        PlinthPlain(freeboard_m), PlinthPlain(least_plinth_m))))
    Exit Function
failed:
    PLINTH_NEEDED_PLINTH = CVErr(2015)
End Function

Public Function PLINTH_NEEDED_RISE(plinth_m, Optional road_m, Optional flood_m, Optional plinth_above_road_m, _
    Optional road_build_up_m, Optional freeboard_m, Optional least_plinth_m)
    On Error GoTo failed
    PLINTH_NEEDED_RISE = PlinthResult(PlinthCall("PLINTH_NEEDED_RISE", Array(PlinthPlain(plinth_m), _
        PlinthPlain(road_m), PlinthPlain(flood_m), PlinthPlain(plinth_above_road_m), _
        PlinthPlain(road_build_up_m), PlinthPlain(freeboard_m), PlinthPlain(least_plinth_m))))
    Exit Function
failed:
    PLINTH_NEEDED_RISE = CVErr(2015)
End Function

Public Function PLINTH_WALL_LENGTH(from_point, to_point, line_names, line_offsets_m, Optional clear_m, _
    Optional line_walls_mm)
    On Error GoTo failed
    PLINTH_WALL_LENGTH = PlinthResult(PlinthCall("PLINTH_WALL_LENGTH", Array(PlinthPlain(from_point), _
        PlinthPlain(to_point), PlinthPlain(line_names), PlinthPlain(line_offsets_m), PlinthPlain(clear_m), _
        PlinthPlain(line_walls_mm))))
    Exit Function
failed:
    PLINTH_WALL_LENGTH = CVErr(2015)
End Function

Public Function PLINTH_ROOM_AREA(corner, opposite_corner, outline, line_names, line_offsets_m, _
    Optional clear_m, Optional line_walls_mm)
    On Error GoTo failed
    PLINTH_ROOM_AREA = PlinthResult(PlinthCall("PLINTH_ROOM_AREA", Array(PlinthPlain(corner), _
        PlinthPlain(opposite_corner), PlinthPlain(outline), PlinthPlain(line_names), _
        PlinthPlain(line_offsets_m), PlinthPlain(clear_m), PlinthPlain(line_walls_mm))))
    Exit Function
failed:
    PLINTH_ROOM_AREA = CVErr(2015)
End Function

Public Function PLINTH_OPENINGS(wall, opening_walls, widths_m, heights_m)
    On Error GoTo failed
    PLINTH_OPENINGS = PlinthResult(PlinthCall("PLINTH_OPENINGS", Array(PlinthPlain(wall), _
        PlinthPlain(opening_walls), PlinthPlain(widths_m), PlinthPlain(heights_m))))
    Exit Function
failed:
    PLINTH_OPENINGS = CVErr(2015)
End Function

Public Function PLINTH_WALL_MASONRY(length_m, thickness_mm, height_m, wall, opening_walls, widths_m, heights_m)
    On Error GoTo failed
    PLINTH_WALL_MASONRY = PlinthResult(PlinthCall("PLINTH_WALL_MASONRY", Array(PlinthPlain(length_m), _
        PlinthPlain(thickness_mm), PlinthPlain(height_m), PlinthPlain(wall), PlinthPlain(opening_walls), _
        PlinthPlain(widths_m), PlinthPlain(heights_m))))
    Exit Function
failed:
    PLINTH_WALL_MASONRY = CVErr(2015)
End Function

Public Function PLINTH_WALL_PLASTER(length_m, height_m, plastered_faces, wall, opening_walls, widths_m, _
    heights_m)
    On Error GoTo failed
    PLINTH_WALL_PLASTER = PlinthResult(PlinthCall("PLINTH_WALL_PLASTER", Array(PlinthPlain(length_m), _
        PlinthPlain(height_m), PlinthPlain(plastered_faces), PlinthPlain(wall), PlinthPlain(opening_walls), _
        PlinthPlain(widths_m), PlinthPlain(heights_m))))
    Exit Function
failed:
    PLINTH_WALL_PLASTER = CVErr(2015)
End Function

Public Function PLINTH_MASONRY(length_m, thickness_mm, height_m, Optional opening_areas_m2)
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

Public Function PLINTH_DIGGING(length_m, width_m, depth_m, Optional deducted_m3)
    On Error GoTo failed
    PLINTH_DIGGING = PlinthResult(PlinthCall("PLINTH_DIGGING", Array(PlinthPlain(length_m), _
        PlinthPlain(width_m), PlinthPlain(depth_m), PlinthPlain(deducted_m3))))
    Exit Function
failed:
    PLINTH_DIGGING = CVErr(2015)
End Function

Public Function PLINTH_LOOSE_EARTH(volume_m3, Optional bulking)
    On Error GoTo failed
    PLINTH_LOOSE_EARTH = PlinthResult(PlinthCall("PLINTH_LOOSE_EARTH", Array(PlinthPlain(volume_m3), _
        PlinthPlain(bulking))))
    Exit Function
failed:
    PLINTH_LOOSE_EARTH = CVErr(2015)
End Function

Public Function PLINTH_FILL(length_m, breadth_m, depth_m, Optional deducted_m3)
    On Error GoTo failed
    PLINTH_FILL = PlinthResult(PlinthCall("PLINTH_FILL", Array(PlinthPlain(length_m), PlinthPlain(breadth_m), _
        PlinthPlain(depth_m), PlinthPlain(deducted_m3))))
    Exit Function
failed:
    PLINTH_FILL = CVErr(2015)
End Function

Public Function PLINTH_FILL_OF_AREA(area_m2, depth_m)
    On Error GoTo failed
    PLINTH_FILL_OF_AREA = PlinthResult(PlinthCall("PLINTH_FILL_OF_AREA", Array(PlinthPlain(area_m2), _
        PlinthPlain(depth_m))))
    Exit Function
failed:
    PLINTH_FILL_OF_AREA = CVErr(2015)
End Function

Public Function PLINTH_BOOKED(length_m)
    On Error GoTo failed
    PLINTH_BOOKED = PlinthResult(PlinthCall("PLINTH_BOOKED", Array(PlinthPlain(length_m))))
    Exit Function
failed:
    PLINTH_BOOKED = CVErr(2015)
End Function

Public Function PLINTH_STEEL(section, length_m, Optional pieces)
    On Error GoTo failed
    PLINTH_STEEL = PlinthResult(PlinthCall("PLINTH_STEEL", Array(PlinthPlain(section), PlinthPlain(length_m), _
        PlinthPlain(pieces))))
    Exit Function
failed:
    PLINTH_STEEL = CVErr(2015)
End Function

Public Function PLINTH_CONVERT(typed, in_unit)
    On Error GoTo failed
    PLINTH_CONVERT = PlinthResult(PlinthCall("PLINTH_CONVERT", Array(PlinthPlain(typed), _
        PlinthPlain(in_unit))))
    Exit Function
failed:
    PLINTH_CONVERT = CVErr(2015)
End Function

Public Function PLINTH_AMOUNT(quantity, rate, Optional coin)
    On Error GoTo failed
    PLINTH_AMOUNT = PlinthResult(PlinthCall("PLINTH_AMOUNT", Array(PlinthPlain(quantity), PlinthPlain(rate), _
        PlinthPlain(coin))))
    Exit Function
failed:
    PLINTH_AMOUNT = CVErr(2015)
End Function

Public Function PLINTH_TO_COIN(amount, Optional coin)
    On Error GoTo failed
    PLINTH_TO_COIN = PlinthResult(PlinthCall("PLINTH_TO_COIN", Array(PlinthPlain(amount), PlinthPlain(coin))))
    Exit Function
failed:
    PLINTH_TO_COIN = CVErr(2015)
End Function

Public Function PLINTH_IN_WORDS(amount, Optional grouping)
    On Error GoTo failed
    PLINTH_IN_WORDS = PlinthResult(PlinthCall("PLINTH_IN_WORDS", Array(PlinthPlain(amount), _
        PlinthPlain(grouping))))
    Exit Function
failed:
    PLINTH_IN_WORDS = CVErr(2015)
End Function

Public Function PLINTH_HOUSE_STATE(Optional job, Optional site, Optional levels, Optional grid, Optional tapes, _
    Optional rooms, Optional walls, Optional openings, Optional beams, Optional columns, Optional attached, _
    Optional footings, Optional ground, Optional condition, Optional materials, Optional uses, Optional soils, _
    Optional allowances, Optional kit, Optional rates, Optional crew)
    On Error GoTo failed
    PLINTH_HOUSE_STATE = PlinthResult(PlinthCall("PLINTH_HOUSE_STATE", Array(PlinthPlain(job), _
        PlinthPlain(site), PlinthPlain(levels), PlinthPlain(grid), PlinthPlain(tapes), PlinthPlain(rooms), _
        PlinthPlain(walls), PlinthPlain(openings), PlinthPlain(beams), PlinthPlain(columns), _
        PlinthPlain(attached), PlinthPlain(footings), PlinthPlain(ground), PlinthPlain(condition), _
        PlinthPlain(materials), PlinthPlain(uses), PlinthPlain(soils), PlinthPlain(allowances), _
        PlinthPlain(kit), PlinthPlain(rates), PlinthPlain(crew))))
    Exit Function
failed:
    PLINTH_HOUSE_STATE = CVErr(2015)
End Function

Public Function PLINTH_HOUSE_WALLS(Optional job, Optional site, Optional levels, Optional grid, Optional tapes, _
    Optional rooms, Optional walls, Optional openings, Optional beams, Optional columns, Optional attached, _
    Optional footings, Optional ground, Optional condition, Optional materials, Optional uses, Optional soils, _
    Optional allowances, Optional kit, Optional rates, Optional crew)
    On Error GoTo failed
    PLINTH_HOUSE_WALLS = PlinthResult(PlinthCall("PLINTH_HOUSE_WALLS", Array(PlinthPlain(job), _
        PlinthPlain(site), PlinthPlain(levels), PlinthPlain(grid), PlinthPlain(tapes), PlinthPlain(rooms), _
        PlinthPlain(walls), PlinthPlain(openings), PlinthPlain(beams), PlinthPlain(columns), _
        PlinthPlain(attached), PlinthPlain(footings), PlinthPlain(ground), PlinthPlain(condition), _
        PlinthPlain(materials), PlinthPlain(uses), PlinthPlain(soils), PlinthPlain(allowances), _
        PlinthPlain(kit), PlinthPlain(rates), PlinthPlain(crew))))
    Exit Function
failed:
    PLINTH_HOUSE_WALLS = CVErr(2015)
End Function

Public Function PLINTH_HOUSE_ITEMS(Optional job, Optional site, Optional levels, Optional grid, Optional tapes, _
    Optional rooms, Optional walls, Optional openings, Optional beams, Optional columns, Optional attached, _
    Optional footings, Optional ground, Optional condition, Optional materials, Optional uses, Optional soils, _
    Optional allowances, Optional kit, Optional rates, Optional crew)
    On Error GoTo failed
    PLINTH_HOUSE_ITEMS = PlinthResult(PlinthCall("PLINTH_HOUSE_ITEMS", Array(PlinthPlain(job), _
        PlinthPlain(site), PlinthPlain(levels), PlinthPlain(grid), PlinthPlain(tapes), PlinthPlain(rooms), _
        PlinthPlain(walls), PlinthPlain(openings), PlinthPlain(beams), PlinthPlain(columns), _
        PlinthPlain(attached), PlinthPlain(footings), PlinthPlain(ground), PlinthPlain(condition), _
        PlinthPlain(materials), PlinthPlain(uses), PlinthPlain(soils), PlinthPlain(allowances), _
        PlinthPlain(kit), PlinthPlain(rates), PlinthPlain(crew))))
    Exit Function
failed:
    PLINTH_HOUSE_ITEMS = CVErr(2015)
End Function

' Help that cannot be set is left out: the functions work without it.
Private Sub PlinthDescribe(ByVal named As String, ByVal help As String, ByVal group As String, ByVal notes As Variant)
    On Error Resume Next
    Application.MacroOptions Macro:="'" & ThisWorkbook.Name & "'!" & named, _
        Description:=help, Category:=group, ArgumentDescriptions:=notes
End Sub

Public Sub PlinthDescribeAll()
    PlinthDescribe "PLINTH_WALL_WEIGHT", "Weight of a plastered wall net of its openings, kN", "Plinth loads", Array("length [m]", _
        "height, floor to soffit [m]", "thickness without plaster [mm]", "area of all openings [m2]; blank: 0", _
        "unit weight of the masonry [kN/m3]; blank: 18.85", "plastered faces, 0 to 2 [No]; blank: 2", _
        "plaster on one face [mm]; blank: 12")
    PlinthDescribe "PLINTH_WALL_LOAD", "Load of a wall: its own weight and its shares of slabs, kN", "Plinth loads", Array("weight of the wall and of what stands on it [kN]", _
        "its share of each slab, one cell each [m2]", "load of each slab, in the same order [kN/m2]")
    PlinthDescribe "PLINTH_LINE_LOAD", "Load of each metre of a wall, kN/m", "Plinth loads", Array("load [kN]", _
        "length [m]")
    PlinthDescribe "PLINTH_WALL_STRESS", "Stress on a wall section, kPa", "Plinth loads", Array("load on the wall [kN]", _
        "length [m]", "thickness without plaster [mm]")
    PlinthDescribe "PLINTH_BEAM_WEIGHT", "Weight of a beam, column, plinth or footing, kN", "Plinth loads", Array("length [m]", _
        "breadth [mm]", "depth [mm]", "unit weight [kN/m3]; blank: 25")
    PlinthDescribe "PLINTH_SLAB_SHARE", "Area of a rectangular slab that one side carries: 45 degree lines, one way where more than twice as long as wide, m2", "Plinth loads", Array("length of that side [m]", _
        "length of the sides at right angles to it [m]")
    PlinthDescribe "PLINTH_SLAB_SHARE_ONE_WAY", "Area that a bearing side of a one-way slab carries, m2", "Plinth loads", Array("length of the bearing side [m]", _
        "span between the two bearing sides [m]")
    PlinthDescribe "PLINTH_SLAB_LOAD", "Weight of a slab and its finish on each m2, kN/m2", "Plinth loads", Array("thickness of the slab [mm]; blank: 125", _
        "finish on the slab [kN/m2]; blank: 1.5", "unit weight of the concrete [kN/m3]; blank: 25")
    PlinthDescribe "PLINTH_SLAB_WEIGHT", "Weight of a slab and its finish, kN", "Plinth loads", Array("area on plan [m2]", _
        "thickness of the slab [mm]; blank: 125", "finish on the slab [kN/m2]; blank: 1.5", _
        "unit weight of the concrete [kN/m3]; blank: 25")
    PlinthDescribe "PLINTH_ROOF_LOAD", "Weight of a pitched roof on each m2 of plan, kN/m2", "Plinth loads", Array("covering and timbers for each m2 of slope [kN/m2]", _
        "slope of the roof [deg]; blank: 25")
    PlinthDescribe "PLINTH_ROOF_WEIGHT", "Weight of a pitched roof over an area on plan, kN", "Plinth loads", Array("area on plan [m2]", _
        "covering and timbers for each m2 of slope [kN/m2]", "slope of the roof [deg]; blank: 25")
    PlinthDescribe "PLINTH_ROOF_IMPOSED", "Imposed load of a pitched roof on each m2 of plan, kN/m2", "Plinth loads", Array("slope of the roof [deg]; blank: 25", _
        "of the same roof laid flat [kN/m2]; blank: 0.75")
    PlinthDescribe "PLINTH_IMPOSED_LOAD", "Published imposed load of a use, kN/m2", "Plinth loads", Array("a name of the Uses sheet, such as Dwelling room")
    PlinthDescribe "PLINTH_UNIT_WEIGHT", "Published unit weight of a material, kN/m3", "Plinth loads", Array("a name of the Materials sheet, such as Brick masonry")
    PlinthDescribe "PLINTH_COVERING", "Published weight of a roof covering, floor finish or ceiling, kN/m2", "Plinth loads", Array("such as Mangalore tiles with battens")
    PlinthDescribe "PLINTH_BEARING", "Presumed safe bearing pressure of a soil, for a first price only, kPa", "Plinth loads", Array("a name of the Soils sheet")
    PlinthDescribe "PLINTH_FOOTING_PRESSURE", "Pressure under a strip footing, kPa", "Plinth loads", Array("all load along the wall, footing included [kN/m]", _
        "width of the footing [m]")
    PlinthDescribe "PLINTH_PAD_PRESSURE", "Pressure under a square footing or jack base, kPa", "Plinth loads", Array("all load on it [kN]", _
        "its side [m]")
    PlinthDescribe "PLINTH_NEW_MASONRY_LOAD", "Weight of the masonry and band built under a raised wall, kN/m", "Plinth loads", Array("rise of the house [m]", _
        "of the new masonry [mm]; blank: 230", "unit weight of the masonry [kN/m3]; blank: 18.85", _
        "depth of the concrete band in it [m]; blank: 0.15", "unit weight of the concrete [kN/m3]; blank: 25")
    PlinthDescribe "PLINTH_FILL_LOAD", "Weight of new fill on a footing beside its plinth, kN/m", "Plinth loads", Array("sides of the wall that are filled, 0 to 2 [No]", _
        "width of the footing [m]", "thickness of the plinth [mm]", "rise of the house [m]", _
        "unit weight of the fill [kN/m3]; blank: 18")
    PlinthDescribe "PLINTH_USABLE_LOAD", "Load that one jack may be given, kN", "Plinth jacks", Array("rating of a jack [kN]; blank: 200", _
        "share of the rating used [%]; blank: 40")
    PlinthDescribe "PLINTH_JACKS", "Jacks under a wall by load and spacing: a count, not a plan", "Plinth jacks", Array("load in the lift [kN]", _
        "length [m]", "rating of a jack [kN]; blank: 200", "share of the rating used [%]; blank: 40", _
        "widest spacing of jacks [m]; blank: 1.2", "first jack from the end of the wall [m]; blank: 0.3")
    PlinthDescribe "PLINTH_JACKS_BY_LOAD", "Jacks so that none carries more than its usable load on the mean", "Plinth jacks", Array("load in the lift [kN]", _
        "rating of a jack [kN]; blank: 200", "share of the rating used [%]; blank: 40")
    PlinthDescribe "PLINTH_JACKS_BY_SPACING", "Jacks so that neighbours are no further apart than the widest spacing", "Plinth jacks", Array("length [m]", _
        "widest spacing of jacks [m]; blank: 1.2", "first jack from the end of the wall [m]; blank: 0.3")
    PlinthDescribe "PLINTH_JACK_SPACING", "Spacing of that many jacks, evenly set, m", "Plinth jacks", Array("length [m]", _
        "number of jacks [No]", "first jack from the end of the wall [m]; blank: 0.3")
    PlinthDescribe "PLINTH_JACK_REACTIONS", "Load of each jack under a carrier beam, all at work and level, downward, kN. 0: the beam lifts off that jack", "Plinth jacks", Array("even load of the wall in the lift, carrier beam included [kN/m]", _
        "length of the beam [m]", "jacks from the left end of the beam, in order [m]", _
        "bending stiffness of the carrier beam, as PLINTH_BEAM_STIFFNESS gives it [kN m2]", _
        "what a support yields, as PLINTH_SUPPORT_COMPLIANCE gives it; 0: rigid, which no jack on timber and soil is [mm/kN]")
    PlinthDescribe "PLINTH_JACKS_ONE_LOST", "Greatest load of each jack under a carrier beam when any other one is lost, downward, kN; compare it with the rating", "Plinth jacks", Array("even load of the wall in the lift, carrier beam included [kN/m]", _
        "length of the beam [m]", "jacks from the left end of the beam, in order [m]", _
        "bending stiffness of the carrier beam, as PLINTH_BEAM_STIFFNESS gives it [kN m2]", _
        "what a support yields, as PLINTH_SUPPORT_COMPLIANCE gives it; 0: rigid, which no jack on timber and soil is [mm/kN]")
    PlinthDescribe "PLINTH_JACKS_UNEVEN", "Greatest load of each jack under a carrier beam when jacks stand anywhere within a difference in level, downward, kN; compare it with the rating", "Plinth jacks", Array("even load of the wall in the lift, carrier beam included [kN/m]", _
        "length of the beam [m]", "jacks from the left end of the beam, in order [m]", _
        "bending stiffness of the carrier beam, as PLINTH_BEAM_STIFFNESS gives it [kN m2]", _
        "what a support yields, as PLINTH_SUPPORT_COMPLIANCE gives it; 0: rigid, which no jack on timber and soil is [mm/kN]", _
        "greatest difference in level between jacks while lifting [mm]; blank: 2")
    PlinthDescribe "PLINTH_JACK_PLACES", "Places of the jacks under one wall without doors or cross walls, from its end, downward, m: one lost and uneven lifting held. Not the plan of a house", "Plinth jacks", Array("even load of the wall in the lift, carrier beam included [kN/m]", _
        "length of the wall [m]", _
        "bending stiffness of the carrier beam, as PLINTH_BEAM_STIFFNESS gives it [kN m2]", _
        "what a support yields, as PLINTH_SUPPORT_COMPLIANCE gives it; 0: rigid, which no jack on timber and soil is [mm/kN]", _
        "rating of a jack [kN]; blank: 200", "share of the rating used [%]; blank: 40", _
        "widest spacing of jacks [m]; blank: 1.2", _
        "greatest difference in level between jacks while lifting [mm]; blank: 2")
    PlinthDescribe "PLINTH_BEAM_STIFFNESS", "Bending stiffness of a carrier beam, kN m2", "Plinth jacks", Array("such as MB 250", _
        "beams side by side, 1 or 2 [No]; blank: 2")
    PlinthDescribe "PLINTH_BEAM_CHECK", "Carrier beam, all jacks at work: a row a limit state with demand, capacity, unit, utilisation, verdict, clause. A first answer: the plan checks one lost and uneven as well", "Plinth jacks", Array("such as MB 250", _
        "beams side by side, 1 or 2 [No]", "even load of the wall in the lift, carrier beam left out [kN/m]", _
        "widest spacing of the jacks [m]", "length of the plate on the jack head, along the beam [m]", _
        "distance of ties that hold the beam sideways; blank: the spacing [m]")
    PlinthDescribe "PLINTH_BEAM_USE", "Utilisation of a carrier beam, all jacks at work; more than 1 is too much. A first answer: one jack lost and uneven lifting are not in it", "Plinth jacks", Array("such as MB 250", _
        "beams side by side, 1 or 2 [No]", "even load of the wall in the lift, carrier beam left out [kN/m]", _
        "widest spacing of the jacks [m]", "length of the plate on the jack head, along the beam [m]", _
        "distance of ties that hold the beam sideways; blank: the spacing [m]")
    PlinthDescribe "PLINTH_BEAM_GOVERNED_BY", "What governs a carrier beam, all jacks at work", "Plinth jacks", Array("such as MB 250", _
        "beams side by side, 1 or 2 [No]", "even load of the wall in the lift, carrier beam left out [kN/m]", _
        "widest spacing of the jacks [m]", "length of the plate on the jack head, along the beam [m]", _
        "distance of ties that hold the beam sideways; blank: the spacing [m]")
    PlinthDescribe "PLINTH_LIGHTEST_BEAM", "Lightest listed carrier beam that passes with all jacks at work. A first answer: one jack lost and uneven lifting may ask for more", "Plinth jacks", Array("even load of the wall in the lift, carrier beam left out [kN/m]", _
        "widest spacing of the jacks [m]", "length of the plate on the jack head, along the beam [m]", _
        "distance of ties that hold the beam sideways; blank: the spacing [m]", _
        "beams side by side, 1 or 2 [No]; blank: 2")
    PlinthDescribe "PLINTH_PACKING_CAPACITY", "Load that timber packing carries across the grain, kN", "Plinth jacks", Array("smallest contact of two pieces [m2]", _
        "a name of the timbers table; blank: Packing of unknown kind, used and wet", _
        "yes where it lies in rain or in a wet trench, else no; blank: yes")
    PlinthDescribe "PLINTH_PACKING_SHORTENING", "What packing shortens under a load, mm", "Plinth jacks", Array("load at service, uneven share included [kN]", _
        "height of the timber [m]", "smallest contact of two pieces [m2]", _
        "a name of the timbers table; blank: Packing of unknown kind, used and wet")
    PlinthDescribe "PLINTH_SUPPORT_COMPLIANCE", "What one support yields under each kN: packing, jack, soil, mm/kN", "Plinth jacks", Array("height of the timber [m]", _
        "smallest contact of two pieces [m2]", _
        "modulus of subgrade reaction of the soil, for a base of that size [kN/m3]", _
        "side of the jack base [m]", _
        "a name of the timbers table; blank: Packing of unknown kind, used and wet", _
        "what the jack itself yields; 0 for a locked nut [mm/kN]; blank: 0", _
        "what is packed under the jack; 0 where nothing is [mm/kN]; blank: 0")
    PlinthDescribe "PLINTH_CRIB_CAPACITY", "Load that a crib carries across the grain, kN; PLINTH_CRIB_CHECK says whether it stands", "Plinth jacks", Array("side of a member [m]", _
        "members in a layer [No]", "a name of the timbers table; blank: Packing of unknown kind, used and wet", _
        "yes where it lies in rain or in a wet trench, else no; blank: yes")
    PlinthDescribe "PLINTH_CRIB_LAYERS", "Layers of a crib for a height", "Plinth jacks", Array("height of the crib [m]", _
        "side of a member [m]")
    PlinthDescribe "PLINTH_CRIB_SLENDERNESS", "Height of a crib over its width", "Plinth jacks", Array("height of the crib [m]", _
        "between the outer faces of its outer members [m]")
    PlinthDescribe "PLINTH_CRIB_CHECK", "Crib: a row a limit state with demand, capacity, unit, utilisation, verdict, clause", "Plinth jacks", Array("load at service, uneven share included [kN]", _
        "side of a member [m]", "members in a layer [No]", "between the outer faces of its outer members [m]", _
        "height of the crib [m]", "a name of the timbers table; blank: Packing of unknown kind, used and wet", _
        "yes where it lies in rain or in a wet trench, else no; blank: yes", _
        "yes where it is braced both ways, else no; blank: no", _
        "sideways force of the wind at its head, beside the notional one [kN]; blank: 0")
    PlinthDescribe "PLINTH_BASE_SIDE", "Side of a square jack base, m", "Plinth jacks", Array("load the base is made for [kN]", _
        "safe bearing pressure [kPa]")
    PlinthDescribe "PLINTH_BASE_THICKNESS", "Thickness of a jack base whose load spreads at 45 degrees, m", "Plinth jacks", Array("side of the base [m]", _
        "side of the plate under the jack [m]; blank: 0.2")
    PlinthDescribe "PLINTH_PLAIN_BASE_THICKNESS", "Thickness of a plain concrete jack base by spread and punching, m", "Plinth jacks", Array("load the base is made for, uneven share included [kN]", _
        "safe bearing pressure [kPa]", "side of the plate under the jack [m]; blank: 0.2")
    PlinthDescribe "PLINTH_PLAIN_BASE_CHECK", "Plain concrete jack base: a row a limit state with demand, capacity, unit, utilisation, verdict, clause", "Plinth jacks", Array("load the base is made for, uneven share included [kN]", _
        "safe bearing pressure [kPa]", "side of the plate under the jack [m]; blank: 0.2")
    PlinthDescribe "PLINTH_NET_LIFT", "Lift of one stroke that counts, mm; 0: nothing is left", "Plinth jacks", Array("stroke of the jack [mm]; blank: 150", _
        "stroke kept in hand at its end [mm]; blank: 20", _
        "stroke lost until packing and base have closed up [mm]; blank: 10")
    PlinthDescribe "PLINTH_STROKES", "Strokes of each jack for a rise", "Plinth jacks", Array("rise of the house [m]", _
        "stroke of the jack [mm]; blank: 150", "stroke kept in hand at its end [mm]; blank: 20", _
        "stroke lost until packing and base have closed up [mm]; blank: 10")
    PlinthDescribe "PLINTH_COURSES", "Whole courses of packing under a rise; what is left is shims", "Plinth jacks", Array("rise of the house [m]", _
        "thickness of a course [mm]")
    PlinthDescribe "PLINTH_OIL_PRESSURE", "Pressure of the oil under a load, kPa; 100 kPa is 1 bar", "Plinth jacks", Array("load of the jack, or of all jacks of a circuit [kN]", _
        "area of its piston, or of all of them [mm2]")
    PlinthDescribe "PLINTH_CIRCUIT_FORCES", "Force of each of three circuits that hold a house, downward, kN; an error where the load centre is not between them", "Plinth jacks", Array("load of the house in the lift [kN]", _
        "load centre, east [m]", "load centre, north [m]", "middle of the pistons of each circuit, east [m]", _
        "the same, north [m]")
    PlinthDescribe "PLINTH_NEEDED_PLINTH", "Floor above ground that road, flood and local rule call for, m", "Plinth jacks", Array("road above ground, less than 0 where it is lower [m]", _
        "highest flood mark above ground [m]", "wanted of the floor over the road [m]; blank: 0.45", _
        "expected future rise of the road [m]; blank: 0.15", "wanted above the flood mark [m]; blank: 0.3", _
        "least floor above ground by local rule [m]; blank: 0.45")
    PlinthDescribe "PLINTH_NEEDED_RISE", "Rise that reaches the plinth that road, flood and rule call for, m", "Plinth jacks", Array("existing floor above ground [m]", _
        "road above ground, less than 0 where it is lower [m]", "highest flood mark above ground [m]", _
        "wanted of the floor over the road [m]; blank: 0.45", _
        "expected future rise of the road [m]; blank: 0.15", "wanted above the flood mark [m]; blank: 0.3", _
        "least floor above ground by local rule [m]; blank: 0.45")
    PlinthDescribe "PLINTH_WALL_LENGTH", "Length between two grid points on centre lines, m", "Plinth quantities", Array("grid point where the wall begins, such as A1", _
        "grid point where it ends, such as C1", "names of all grid lines, in the order of Grid", _
        "their offsets; a blank follows from the clear size [m]", "clear sizes from the line before [m]", _
        "walls on the lines [mm]")
    PlinthDescribe "PLINTH_ROOM_AREA", "Area of a room on centre lines, from two corners or its outline, m2", "Plinth quantities", Array("grid point; blank where an outline is given", _
        "grid point; blank where an outline is given", "grid points in order, such as A1 B1 B2 A2", _
        "names of all grid lines, in the order of Grid", _
        "their offsets; a blank follows from the clear size [m]", "clear sizes from the line before [m]", _
        "walls on the lines [mm]")
    PlinthDescribe "PLINTH_OPENINGS", "Areas of the openings of one wall, side by side, m2", "Plinth quantities", Array("name of the wall", _
        "walls of all openings", "their clear widths [m]", "their clear heights [m]")
    PlinthDescribe "PLINTH_WALL_MASONRY", "Masonry of a named wall, its openings deducted by the rules, m3", "Plinth quantities", Array("length [m]", _
        "thickness without plaster [mm]", "height, floor to soffit [m]", "name of the wall", _
        "walls of all openings", "their clear widths [m]", "their clear heights [m]")
    PlinthDescribe "PLINTH_WALL_PLASTER", "Plaster of a named wall, its openings deducted by the rules, m2", "Plinth quantities", Array("length [m]", _
        "height, floor to soffit [m]", "plastered faces, 0 to 2 [No]; blank: 2", "name of the wall", _
        "walls of all openings", "their clear widths [m]", "their clear heights [m]")
    PlinthDescribe "PLINTH_MASONRY", "Masonry of a wall, openings deducted by the rules, m3", "Plinth quantities", Array("length [m]", _
        "thickness without plaster [mm]", "height, floor to soffit [m]", _
        "areas of the openings, one cell each [m2]")
    PlinthDescribe "PLINTH_PLASTER", "Plaster of a wall, openings deducted by the rules, m2", "Plinth quantities", Array("length [m]", _
        "height, floor to soffit [m]", "plastered faces, 0 to 2 [No]; blank: 2", _
        "areas of the openings, one cell each [m2]")
    PlinthDescribe "PLINTH_DIGGING", "Earth dug, as it lies in the ground, m3", "Plinth quantities", Array("length [m]", _
        "width of the trench [m]", "depth [m]", "volumes that are taken off, one cell each [m3]")
    PlinthDescribe "PLINTH_LOOSE_EARTH", "Earth as it is carried off, m3", "Plinth quantities", Array("as it lies in the ground [m3]", _
        "loose over in the ground [-]; blank: 1.25")
    PlinthDescribe "PLINTH_FILL", "Fill of a rectangular room, m3", "Plinth quantities", Array("length [m]", _
        "breadth of the room [m]", "depth of fill [m]", "volumes that are taken off, one cell each [m3]")
    PlinthDescribe "PLINTH_FILL_OF_AREA", "Fill, gravel or concrete spread over an area, m3", "Plinth quantities", Array("area on plan [m2]", _
        "depth of the layer [m]")
    PlinthDescribe "PLINTH_BOOKED", "A dimension as it is booked, to the nearest 0.01 m", "Plinth quantities", Array("length [m]")
    PlinthDescribe "PLINTH_STEEL", "Weight of rolled steel by section, to the nearest kilogram", "Plinth quantities", Array("such as MB 250", _
        "length of one piece [m]", "pieces [No]; blank: 1")
    PlinthDescribe "PLINTH_CONVERT", "What was typed with a unit, as a number in another unit", "Plinth quantities", Array("for example 10' 6""", _
        "for example mm")
    PlinthDescribe "PLINTH_AMOUNT", "Quantity times rate, to the smallest coin", "Plinth money", Array("quantity in the unit of the item", _
        "for one unit [money]", "smallest coin [money]; blank: 1")
    PlinthDescribe "PLINTH_TO_COIN", "An amount rounded to the smallest coin", "Plinth money", Array("the amount [money]", _
        "smallest coin [money]; blank: 1")
    PlinthDescribe "PLINTH_IN_WORDS", "An amount in words", "Plinth money", Array("the amount [money]", _
        "indian (lakh, crore) or international; blank: indian")
    PlinthDescribe "PLINTH_HOUSE_STATE", "Whether the survey in these sheets can be worked through, in words", "Plinth loads", Array("the sheet Job, from A1 on", _
        "the sheet Site, from A1 on", "the sheet Levels, from A1 on", "the sheet Grid, from A1 on", _
        "the sheet Tapes, from A1 on", "the sheet Rooms, from A1 on", "the sheet Walls, from A1 on", _
        "the sheet Openings, from A1 on", "the sheet Beams, from A1 on", "the sheet Columns, from A1 on", _
        "the sheet Attached, from A1 on", "the sheet Footings, from A1 on", "the sheet Ground, from A1 on", _
        "the sheet Condition, from A1 on", "the sheet Materials, from A1 on", "the sheet Uses, from A1 on", _
        "the sheet Soils, from A1 on", "the sheet Allowances, from A1 on", "the sheet Kit, from A1 on", _
        "the sheet Rates, from A1 on", "the sheet Crew, from A1 on")
    PlinthDescribe "PLINTH_HOUSE_WALLS", "Each wall: load in the lift (kN), greatest (kN/m), jacks by load, by spacing and counted, their spacing (m), base side (m), pressure after (kPa). Not a jack plan", "Plinth loads", Array("the sheet Job, from A1 on", _
        "the sheet Site, from A1 on", "the sheet Levels, from A1 on", "the sheet Grid, from A1 on", _
        "the sheet Tapes, from A1 on", "the sheet Rooms, from A1 on", "the sheet Walls, from A1 on", _
        "the sheet Openings, from A1 on", "the sheet Beams, from A1 on", "the sheet Columns, from A1 on", _
        "the sheet Attached, from A1 on", "the sheet Footings, from A1 on", "the sheet Ground, from A1 on", _
        "the sheet Condition, from A1 on", "the sheet Materials, from A1 on", "the sheet Uses, from A1 on", _
        "the sheet Soils, from A1 on", "the sheet Allowances, from A1 on", "the sheet Kit, from A1 on", _
        "the sheet Rates, from A1 on", "the sheet Crew, from A1 on")
    PlinthDescribe "PLINTH_HOUSE_ITEMS", "Each item of work: code, quantity, rate, amount", "Plinth money", Array("the sheet Job, from A1 on", _
        "the sheet Site, from A1 on", "the sheet Levels, from A1 on", "the sheet Grid, from A1 on", _
        "the sheet Tapes, from A1 on", "the sheet Rooms, from A1 on", "the sheet Walls, from A1 on", _
        "the sheet Openings, from A1 on", "the sheet Beams, from A1 on", "the sheet Columns, from A1 on", _
        "the sheet Attached, from A1 on", "the sheet Footings, from A1 on", "the sheet Ground, from A1 on", _
        "the sheet Condition, from A1 on", "the sheet Materials, from A1 on", "the sheet Uses, from A1 on", _
        "the sheet Soils, from A1 on", "the sheet Allowances, from A1 on", "the sheet Kit, from A1 on", _
        "the sheet Rates, from A1 on", "the sheet Crew, from A1 on")
End Sub
