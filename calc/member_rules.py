"""Figures of the rules that members are checked by: one field for each row of the member rules table.

Covers   steel beams and their welds, packing and cribs, jack bases, jacks.
Not      their values: those stand in a table with a source and how it was read for each.
Units    in each field, the same as in the table.

A number such as the 0.9 of a printed formula is a row of that table too, so that no formula hides one.
"""

from dataclasses import dataclass

from calc.fields import quantity
from calc.number import Number


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SteelRules:
    """Rolled steel beams, their splices and welds."""

    yield_stress: Number = quantity("kN/m2", "yield stress of the beams, fy")
    ultimate_stress: Number = quantity("kN/m2", "ultimate stress of plate and weld, the smaller, fu")
    elastic_modulus: Number = quantity("kN/m2", "modulus of elasticity, E")
    poisson: Number = quantity("-", "Poisson's ratio")
    steel_weight: Number = quantity("kN/m3", "unit weight of steel")
    yield_factor: Number = quantity("-", "partial factor on yield, gamma m0")
    weld_factor: Number = quantity("-", "partial factor of welds made on site, gamma mw")
    load_factor: Number = quantity("-", "load factor on service reactions, moments and shears")
    accidental_factor: Number = quantity("-", "the same in accidental states: one jack lost, uneven")
    elastic_cap: Number = quantity("-", "plastic moment over elastic moment, at most")
    shear_yield: Number = quantity("-", "square of yield stress over yield stress in shear")
    low_shear: Number = quantity("-", "shear over its resistance up to which bending is not reduced")
    bearing_slope: Number = quantity("-", "along over across, spread of a reaction through the flange")
    web_strut: Number = quantity("-", "slenderness of the web as a strut over depth by thickness")
    pi: Number = quantity("-", "circumference over diameter")
    web_imperfection: Number = quantity("-", "imperfection factor of the web as a strut")
    lateral_imperfection: Number = quantity("-", "imperfection factor of a rolled beam that buckles sideways")
    plateau: Number = quantity("-", "slenderness up to which nothing buckles")
    top_load: Number = quantity("-", "effective length over distance of ties, load on the top flange")
    torsion_plate: Number = quantity("-", "length times thickness cubed over torsion constant of a thin plate")
    class_stress: Number = quantity("kN/m2", "yield stress at which the limits of plate slenderness are printed")
    flange_outstand: Number = quantity("-", "outstand over thickness of a plastic flange, at most")
    web_depth: Number = quantity("-", "depth over thickness of a web that does not buckle in shear, at most")
    deflection_span: Number = quantity("-", "span over deflection, at least")
    deflection_most: Number = quantity("m", "deflection between jacks under masonry, at most")
    moment_span: Number = quantity("-", "load times span over greatest moment, first answer")
    shear_share: Number = quantity("-", "greatest shear over load of a span, first answer")
    reaction_share: Number = quantity("-", "greatest reaction over load of a span, first answer")
    deflection_load: Number = quantity("-", "load times span cubed over stiffness and deflection, first answer")
    weld_throat: Number = quantity("-", "throat over size of a fillet weld")
    weld_run: Number = quantity("-", "length over size of a fillet weld, at least")
    splice_share: Number = quantity("-", "share of the section's bending and shear a splice carries, at least")
    stock_length: Number = quantity("m", "length beams are sold in")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PackingRules:
    """Timber packing and cribs."""

    wet_share: Number = quantity("-", "strength of wet timber across the grain over dry")
    packing_step: Number = quantity("m", "packing is shimmed in steps of this")
    stroke_reserve: Number = quantity("m", "stroke that is kept in hand")
    seating: Number = quantity("m", "stroke lost at each re-seating until the load is taken again")
    reseat_interval: Number = quantity("No", "one jack in so many is released at a time")
    reseat_alone: Number = quantity("No", "one in so many, or fewer jacks, are released without a pack at each")
    oil_modulus: Number = quantity("kN/m2", "bulk modulus of oil in its hose")
    crib_free: Number = quantity("-", "height over width of a crib without bracing, at most")
    crib_braced: Number = quantity("-", "height over width of a braced crib, at most")
    crib_tail: Number = quantity("-", "length a crib member passes its crossing over its own width")
    sway_share: Number = quantity("-", "notional sideways force at the jack head over the load")
    lean: Number = quantity("-", "height over lean out of plumb")
    head_offset: Number = quantity("m", "load off the centre of a jack head")
    kern: Number = quantity("-", "width over greatest offset of a load that keeps the whole base pressed")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BaseRules:
    """Jack bases of plain or reinforced concrete, and what they stand on."""

    concrete_grade: Number = quantity("kN/m2", "cube strength of the base when it is loaded, fck")
    bar_stress: Number = quantity("kN/m2", "yield stress of bars, fy")
    stress_unit: Number = quantity("kN/m2", "unit in which the code takes the root of a strength")
    spread_slope: Number = quantity("-", "factor of the slope of spread in plain concrete")
    spread_pressure: Number = quantity("-", "factor of pressure over strength in that slope")
    punching: Number = quantity("-", "punching stress over the root of strength")
    bearing: Number = quantity("-", "bearing stress over strength")
    one_way_shear: Number = quantity("kN/m2", "shear stress of lightly reinforced concrete")
    bar_share: Number = quantity("-", "design stress of bars over their yield stress")
    moment_limit: Number = quantity("-", "greatest moment over strength, width and depth squared")
    bars_least: Number = quantity("-", "least area of bars over area of concrete")
    cover_plain: Number = quantity("m", "concrete at the ground side that is not counted, plain base")
    cover_bars: Number = quantity("m", "from the ground side to the middle of the bars")
    masonry_spread: Number = quantity("-", "along over down, spread of a load in masonry")
    void_distance: Number = quantity("-", "distance from a tank, well or sump over its depth, at least")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class JackRules:
    """Jacks of any type."""

    share_fault: Number = quantity("-", "share of the rating beyond which no jack is used")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MemberRules:
    """All of them."""

    steel: SteelRules
    packing: PackingRules
    bases: BaseRules
    jacks: JackRules
