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
    breakaway_rise: Number = quantity("m", "rise at which the stage breakaway is read")
    distortion_alarm: Number = quantity("-", "bend between neighbours over their distance that is corrected")
    distortion_stop: Number = quantity("-", "bend between neighbours over their distance that stops the lift")
    stop_difference: Number = quantity("m", "bend between neighbours that stops it, in sound masonry")
    tilt_alarm: Number = quantity("-", "tilt of the whole house, or out of plumb, that is corrected")
    tilt_stop: Number = quantity("-", "tilt of the whole house, or out of plumb, that stops the lift")
    load_stop: Number = quantity("-", "load on all jacks over what is predicted, that stops the lift")
    crack_widening: Number = quantity("m", "widening of a crack since before the lift that stops it")
    lift_wind: Number = quantity("m/s", "wind that stops the lift")
    follow_up_gap: Number = quantity("m", "gap between packing or lock nut and what it follows that stops the lift")
