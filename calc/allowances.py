"""The allowances: every figure used where nothing was surveyed, and every convention with a number in it.

Covers   one field for each row of the allowances table, so that a missing or extra row is found at once.
Not      their values: those stand in a table with a source for each, and the estimator may change them.
Units    in each field, the same as in the table.
"""

from dataclasses import dataclass

from calc.fields import quantity
from calc.number import Number


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Allowances:
    """Figures that stand in for what was not surveyed, and numbers of the conventions."""

    frame_weight: Number = quantity("kN/m2", "door or window frame and leaf, per m2 of opening")
    lintel_depth: Number = quantity("m", "depth of the lintel over an opening")
    lintel_bearing: Number = quantity("m", "bearing of a lintel at each end")
    block_up_thickness: Number = quantity("m", "brickwork that blocks a window for the lift")
    plaster_thickness: Number = quantity("m", "plaster on one face")
    plastered_faces: Number = quantity("No", "plastered faces of a wall")
    sill_height: Number = quantity("m", "sill of a window above floor")
    slab_thickness: Number = quantity("m", "slab over a room")
    finish_weight: Number = quantity("kN/m2", "finish on a slab")
    floor_finish_weight: Number = quantity("kN/m2", "finish on a suspended ground floor")
    roof_slope: Number = quantity("deg", "slope of a pitched roof")
    roof_slope_free: Number = quantity("deg", "slope up to which a roof carries its full imposed load")
    roof_slope_fall: Number = quantity("kN/m2/deg", "imposed load a roof loses with each degree beyond that")
    roof_imposed_least: Number = quantity("kN/m2", "least imposed load of a pitched roof")
    emptied_share: Number = quantity("-", "share of the imposed load that is there in the lift, house emptied")
    lived_in_share: Number = quantity("-", "share of the imposed load that is there in the lift, house lived in")
    plinth_thickness: Number = quantity("m", "plinth masonry")
    plinth_height: Number = quantity("m", "footing top to floor")
    footing_width: Number = quantity("m", "footing across the wall")
    footing_depth: Number = quantity("m", "underside of the footing below ground")
    footing_thickness: Number = quantity("m", "footing thickness")
    end_distance: Number = quantity("m", "first jack from the end of a wall")
    fewest_jacks: Number = quantity("No", "least number of jacks under one wall or column")
    uneven: Number = quantity("-", "greatest jack load over the mean, for bases")
    base_step: Number = quantity("m", "jack base sides are multiples of this")
    base_thickness_step: Number = quantity("m", "jack base thicknesses are multiples of this")
    base_thickness_least: Number = quantity("m", "least thickness of a jack base")
    jack_plate: Number = quantity("m", "side of the plate under a jack")
    spare_share: Number = quantity("-", "spare jacks for each jack in use")
    spare_least: Number = quantity("No", "least number of spare jacks")
    end_near: Number = quantity("m", "no jack nearer to the end of a wall")
    reach_beyond: Number = quantity("m", "a jack within this beyond the place that the jack of a wall met keeps free")
    tight_clear: Number = quantity(
        "m", "no jack nearer to the centre of a wall that meets, where a door leaves no other place"
    )
    door_clear: Number = quantity("m", "no jack nearer to a door left open")
    jamb_reach: Number = quantity("m", "a jack within this beside every jamb of a door left open")
    door_extra: Number = quantity("m", "spacing over one door may be its width and this")
    widest_weak: Number = quantity("m", "widest jack spacing in weak, lime or unknown mortar, and under rubble")
    level_difference: Number = quantity(
        "m", "level difference of neighbours that stops the lift, plain masonry; half for rubble, mud, lime or unknown"
    )
    even_within: Number = quantity("-", "tributary loads wanted within this of their mean")
    placing_step: Number = quantity("m", "jacks are set out in steps of this")
    weight_doubt: Number = quantity(
        "-", "design reaction over predicted reaction: the weight of a surveyed house is uncertain"
    )
    soil_temporary: Number = quantity(
        "-", "pressure allowed in a state that passes, one jack lost or uneven, over the safe bearing pressure"
    )
    subgrade_soft: Number = quantity("1/m", "subgrade modulus over safe bearing pressure, soft end")
    subgrade_stiff: Number = quantity("1/m", "subgrade modulus over safe bearing pressure, stiff end")
    packing_side: Number = quantity("m", "side of the packing over a jack, square")
    packing_least: Number = quantity("m", "least packing between jack and beam")
    piston_diameter: Number = quantity("m", "diameter of the piston of a jack")
    masonry_modulus: Number = quantity(
        "kN/m2", "modulus of elasticity of masonry, for the stiff end of wall and beam together"
    )
    plinth_beam_modulus: Number = quantity("kN/m2", "modulus of elasticity of an old plinth beam")
    plinth_beam_tension: Number = quantity(
        "kN/m2", "bending tension allowed in an old plinth beam whose steel is not known"
    )
    side_distance: Number = quantity("m", "jack line of twin beams or of a collar from the face of wall or column")
    beam_overhang: Number = quantity("m", "carrier beam beyond the end of its wall")
    pair_gap: Number = quantity("m", "gap between the flanges of two carrier beams side by side")
    base_clear: Number = quantity("m", "bases closer than this are laid as one strip")
    circuit_least: Number = quantity("-", "least share of the house on one circuit")
    circuit_edge: Number = quantity(
        "-", "centre of load from every edge between circuits, over half the width of the jacks"
    )
    circuit_light: Number = quantity("-", "a jack that draws less than this share of the mean keeps a valve of its own")
    circuit_off: Number = quantity("-", "force of a jack on a circuit off what it draws, over that, at most")
    transfer_passes: Number = quantity("No", "jacks come out in so many passes")
    pocket_width: Number = quantity("m", "clear width of a pocket cut through a wall")
    arch_rise: Number = quantity(
        "-", "rise of the arch that forms in masonry over a pocket or between jacks over its span"
    )
    masonry_permissible: Number = quantity("kN/m2", "stress allowed in the old masonry where it was not tested")
    bearing_share: Number = quantity("-", "stress allowed under a beam or needle over stress allowed in the masonry")
    new_masonry_permissible: Number = quantity("kN/m2", "stress allowed in the new masonry at full strength")
    early_share: Number = quantity("-", "share of its strength that new masonry has at seven days")
    early_age: Number = quantity("day", "age at which that share is there")
    full_age: Number = quantity("day", "age at which new masonry has its full strength")
    closing: Number = quantity("-", "closing of new masonry under its load over its height")
    joint_closing: Number = quantity("m", "closing of the pinned-up joint")
    transfer_distortion: Number = quantity(
        "-", "distortion between a wall that is let down and its neighbour that still stands on jacks"
    )
    needle_spacing: Number = quantity("m", "distance of needles through a wall on twin beams")
    needle_plate: Number = quantity("m", "length of wall a needle bears, its plate and packing included")
    collar_height: Number = quantity("m", "height of a concrete collar round a column")
    collar_shear: Number = quantity("kN/m2", "shear stress allowed between a collar and the roughened column")
    new_wall_thickness: Number = quantity("m", "masonry built between the old plinth and the raised wall")
    band_depth: Number = quantity("m", "reinforced concrete band in the new masonry")
    working_width: Number = quantity("m", "trench beside a wall for jacks and men")
    below_cut: Number = quantity("m", "depth of that trench below the cut level")
    pocket_spacing: Number = quantity("m", "distance between pockets cut for needles or beams")
    carrier_beam_mass: Number = quantity("kg/m", "carrier beam, one section")
    carrier_beams_side_by_side: Number = quantity("No", "sections side by side under a wall")
    prop_spacing: Number = quantity("m", "props under a slab, both ways")
    lift_unit: Number = quantity("m", "lifting is priced for each jack and each of these")
    floor_bed: Number = quantity("m", "concrete bed under a floor")
    gravel_bed: Number = quantity("m", "gravel or broken brick under the bed")
    stair_riser: Number = quantity("m", "riser of an outside step")
    apron_width: Number = quantity("m", "paved strip round the house")
    bulking: Number = quantity("-", "loose earth over the same earth in the ground")
    brickwork_no_deduction: Number = quantity("m2", "greatest opening that is not deducted from brickwork")
    plaster_no_deduction: Number = quantity("m2", "greatest opening that is not deducted from plaster")
    plaster_one_face: Number = quantity("m2", "greatest opening deducted from plaster on one face only")
    cheap_per_area: Number = quantity("money/m2", "usual price of a raise per m2 of floor, low end; 0: no band")
    dear_per_area: Number = quantity("money/m2", "usual price of a raise per m2 of floor, high end; 0: no band")
    jacks_per_area_low: Number = quantity("No/m2", "usual jacks per m2 of plan, low end")
    jacks_per_area_high: Number = quantity("No/m2", "usual jacks per m2 of plan, high end")
    balance_gap: Number = quantity("kN", "difference that counts as none when loads are added up two ways")
    rise_unbraced: Number = quantity("m", "rise beyond which towers are braced and the house is guided")
    rise_undesigned: Number = quantity("m", "rise beyond which an engineer designs the temporary works")
    lift_stage: Number = quantity("m", "rise from one stage of the lift log to the next")
    crack_widening: Number = quantity("m", "widening of a crack since before the lift that stops it")
    breakaway: Number = quantity("m", "first movement of the house, then a hold")
    packing_gap: Number = quantity("m", "greatest gap between packing or lock nut and what it follows")
    movement_alarm: Number = quantity("-", "difference of neighbours over their distance that is corrected: 1 in 1000")
    movement_stop: Number = quantity("-", "difference of neighbours over their distance that stops the lift: 1 in 500")
    tilt_alarm: Number = quantity("-", "tilt of the whole house that is corrected: 1 in 500")
    tilt_stop: Number = quantity("-", "tilt of the whole house that stops the lift: 1 in 300")
    load_stop_house: Number = quantity("-", "measured over predicted load of the house at which the lift stops")
    stop_work_wind: Number = quantity("m/s", "wind in gusts at which work stops whatever the sums say")
