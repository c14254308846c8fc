"""Worksheet functions for jacks, their bases, and the rise that is needed.

Covers   usable load, jacks by load, by spacing and by both, spacing, spares, bases; needed plinth and rise.
Not      any arithmetic: that is calc's. A count is not a plan: where each jack stands is not said.
Rules    as in functions_loads. A road or a flood that is not known stays blank and calls for nothing.
"""

from typing import Any

from addin.arguments import (
    FLOOD,
    JACKS,
    LENGTH,
    RATING,
    ROAD,
    SHARE,
    WIDEST,
    allowance,
    declared,
    from_job,
    number,
)
from calc.bases import pad_side, pad_thickness
from calc.jacks import even_spacing, jack_count, jacks_by_load, jacks_by_spacing, usable_load
from calc.levels import least_rise, plinth_by_flood, plinth_by_road, plinth_needed


def _jacks(load: float, length: float, rating: float, share: float, widest: float, end: float) -> Any:
    by_load, by_spacing = jacks_by_load(load, usable_load(rating, share)), jacks_by_spacing(length, end, widest)
    return jack_count(load, by_load, by_spacing, allowance("fewest_jacks"))


def _needed(
    road: float | None, flood: float | None, above_road: float, build_up: float, freeboard: float, by_rule: float
) -> Any:
    by_road = 0.0 if road is None else plinth_by_road(road, above_road, build_up)
    by_flood = 0.0 if flood is None else plinth_by_flood(flood, freeboard)
    return plinth_needed(by_road, by_flood, by_rule)


def _base_thickness(side: float, plate: float) -> Any:
    return pad_thickness(side, plate, allowance("base_thickness_least"), allowance("base_thickness_step"))


_LIFTED = number("load_kN", "kN", "load in the lift")
_END = number("end_m", "m", "first jack from the end of the wall", allowance("end_distance"))
_CLEARANCES = (
    from_job("plinth_above_road_m", "plinth_above_road", "wanted of the floor over the road"),
    from_job("road_build_up_m", "road_build_up", "expected future rise of the road"),
    from_job("freeboard_m", "freeboard", "wanted above the flood mark"),
    from_job("least_plinth_m", "least_plinth", "least floor above ground by local rule"),
)

COUNTS = (
    declared("PLINTH_USABLE_LOAD", JACKS, "Load that one jack may be given, kN", "kN", usable_load, RATING, SHARE),
    declared("PLINTH_JACKS", JACKS, "Jacks under a wall by load and spacing: a count, not a plan", "No", _jacks,
             _LIFTED, LENGTH, RATING, SHARE, WIDEST, _END),
    declared("PLINTH_JACKS_BY_LOAD", JACKS, "Jacks so that none carries more than its usable load on the mean", "No",
             lambda load, rating, share: jacks_by_load(load, usable_load(rating, share)), _LIFTED, RATING, SHARE),
    declared("PLINTH_JACKS_BY_SPACING", JACKS, "Jacks so that neighbours are no further apart than the widest spacing",
             "No", lambda length, widest, end: jacks_by_spacing(length, end, widest), LENGTH, WIDEST, _END),
    declared("PLINTH_JACK_SPACING", JACKS, "Spacing of that many jacks, evenly set, m", "m",
             lambda length, count, end: even_spacing(length, end, count), LENGTH,
             number("jack_count", "No", "number of jacks", least=1), _END),
)  # fmt: skip

BASES = (
    declared("PLINTH_BASE_SIDE", JACKS, "Side of a square jack base, m", "m",
             lambda load, allowable: pad_side(load, allowable, allowance("base_step")),
             number("load_kN", "kN", "load the base is made for"),
             number("allowable_kPa", "kPa", "safe bearing pressure")),
    declared("PLINTH_BASE_THICKNESS", JACKS, "Thickness of a jack base whose load spreads at 45 degrees, m", "m",
             _base_thickness, number("side_m", "m", "side of the base"),
             number("plate_m", "m", "side of the plate under the jack", allowance("jack_plate"))),
)  # fmt: skip

LEVELS = (
    declared("PLINTH_NEEDED_PLINTH", JACKS, "Floor above ground that road, flood and local rule call for, m", "m",
             _needed, ROAD, FLOOD, *_CLEARANCES),
    declared("PLINTH_NEEDED_RISE", JACKS, "Rise that reaches the plinth that road, flood and rule call for, m", "m",
             lambda plinth, *rest: least_rise(_needed(*rest), plinth),
             number("plinth_m", "m", "existing floor above ground", least=None), ROAD, FLOOD, *_CLEARANCES),
)  # fmt: skip
