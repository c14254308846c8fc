"""Worksheet functions for what stands under the carrier beams, and for the lift: packing, cribs, bases, strokes, oil.

Covers   timber across the grain, shortening, yield of a support; cribs; concrete bases; net lift, strokes, courses;
         pressure of the oil; forces of three circuits.
Not      any arithmetic: that is calc's. Beams on jacks (functions_beams), counts and first bases (functions_jacks).
Rules    as in functions_loads. A check shows demand, capacity and clause beside its verdict. Timber not named is the
         weakest listed, and counts as wet.
Sources  defaults are those of Job, of Allowances, and of the member rules.
"""

from collections.abc import Sequence
from functools import cache
from typing import Any

from addin import tables, units
from addin.arguments import JACKS, RISE, allowance, declared, from_job, number, text
from addin.entries import folded
from addin.functions_beams import criteria_rows, down, in_order
from addin.worksheet import NOT_THERE, VALUE, BadArgument
from calc.allowances import Allowances
from calc.circuit_balance import forces_on_three
from calc.cribs import contact_area, crib, crib_capacity, crib_check, height_over_width
from calc.jack_bases import JackBase, plain_base
from calc.member_rules import BaseRules, PackingRules, SteelRules
from calc.packing import (
    Timber,
    allowed_stress,
    column_compliance,
    courses,
    packing_criterion,
    point_stiffness,
    shortening,
    soil_compliance,
)
from calc.strokes import net_lift, oil_pressure, stroke_count


@cache
def _packing() -> PackingRules:
    return tables.rules(PackingRules)


def _in_mm(rule: str) -> float:
    return units.convert(getattr(_packing(), rule), "m", "mm")


@cache
def _allowances() -> Allowances:
    return Allowances(**{row.key: row.value for row in tables.allowances()})


def _timber(name: str) -> Timber:
    for timber in tables.timbers():
        if folded(timber.name) == folded(name):
            return timber
    raise BadArgument(NOT_THERE, "timber", f"no timber is listed as {name}")


def _yes(word: str, argument: str) -> int:
    """1 for yes, 0 for no; unknown is for the function to take on the careful side."""
    answer = {"yes": 1, "no": 0}.get(word.casefold())
    if answer is None:
        raise BadArgument(VALUE, argument, f"{argument} is {word}; it must be yes or no")
    return answer


def _stress(timber: str, wet: str) -> Any:
    return allowed_stress(_timber(timber), _yes(wet, "wet"), _packing())


# ------------------------------------------------------------------------------------------ timber


def _packing_capacity(area: float, timber: str, wet: str) -> Any:
    return packing_criterion(0.0, area, _stress(timber, wet), _timber(timber).source).capacity


def _shortening(load: float, height: float, area: float, timber: str) -> Any:
    return shortening(load, height, _timber(timber).modulus, area)


def _support(height: float, area: float, subgrade: float, side: float, timber: str, jack: float, base: float) -> Any:
    packing = column_compliance(height, _timber(timber).modulus, area)
    return point_stiffness(packing, jack, base, soil_compliance(subgrade, side)).compliance


def _crib(
    load: float, member: float, per_layer: float, width: float, height: float, timber: str, wet: str, braced: str,
    wind: float,
) -> list[list[Any]]:  # fmt: skip
    stack = crib(member, per_layer, width, height, _packing())
    kind, stress = _timber(timber), _stress(timber, wet)
    return criteria_rows(
        crib_check(stack, load, wind, stress, _yes(braced, "braced"), _packing(), kind.source).criteria
    )


_KIND = text("timber", "a name of the timbers table", tables.timbers()[0].name)
_WET = text("wet", "yes where it lies in rain or in a wet trench, else no", "yes")
_LOAD = number("load_kN", "kN", "load at service, uneven share included")
_HEIGHT = number("height_m", "m", "height of the timber")
_CONTACT = number("contact_m2", "m2", "smallest contact of two pieces")
_MEMBER = number("member_m", "m", "side of a member")
_PER_LAYER = number("per_layer", "No", "members in a layer", least=1)
_CRIB_HEIGHT = number("height_m", "m", "height of the crib")
_CRIB_WIDTH = number("width_m", "m", "between the outer faces of its outer members")
_JACK_GIVE = number("jack_mm_kN", "mm/kN", "what the jack itself yields; 0 for a locked nut", 0)
_BASE_GIVE = number("base_mm_kN", "mm/kN", "what is packed under the jack; 0 where nothing is", 0)

TIMBER = (
    declared("PLINTH_PACKING_CAPACITY", JACKS, "Load that timber packing carries across the grain, kN", "kN",
             _packing_capacity, _CONTACT, _KIND, _WET),
    declared("PLINTH_PACKING_SHORTENING", JACKS, "What packing shortens under a load, mm", "mm", _shortening, _LOAD,
             _HEIGHT, _CONTACT, _KIND),
    declared("PLINTH_SUPPORT_COMPLIANCE", JACKS, "What one support yields under each kN: packing, jack, soil, mm/kN",
             "mm/kN", _support, _HEIGHT, _CONTACT,
             number("subgrade_kN_m3", "kN/m3", "modulus of subgrade reaction of the soil, for a base of that size"),
             number("base_side_m", "m", "side of the jack base"), _KIND, _JACK_GIVE, _BASE_GIVE),
    declared("PLINTH_CRIB_CAPACITY", JACKS, "Load that a crib carries across the grain, kN; PLINTH_CRIB_CHECK says "
             "whether it stands", "kN",
             lambda member, per_layer, timber, wet: crib_capacity(contact_area(member, per_layer),
                                                                  _stress(timber, wet)),
             _MEMBER, _PER_LAYER, _KIND, _WET),
    declared("PLINTH_CRIB_LAYERS", JACKS, "Layers of a crib for a height", "No",
             lambda height, member: crib(member, 1.0, 1.0, height, _packing()).layers, _CRIB_HEIGHT, _MEMBER),
    declared("PLINTH_CRIB_SLENDERNESS", JACKS, "Height of a crib over its width", "-", height_over_width, _CRIB_HEIGHT,
             _CRIB_WIDTH),
    declared("PLINTH_CRIB_CHECK", JACKS, "Crib: a row a limit state with demand, capacity, unit, utilisation, verdict, "
             "clause", "", _crib, _LOAD, _MEMBER, _PER_LAYER, _CRIB_WIDTH, _CRIB_HEIGHT, _KIND, _WET,
             text("braced", "yes where it is braced both ways, else no", "no"),
             number("wind_kN", "kN", "sideways force of the wind at its head, beside the notional one", 0)),
)  # fmt: skip

# ------------------------------------------------------------------------------------------ bases


def _base(load: float, allowable: float, plate: float) -> JackBase:
    factor = tables.rules(SteelRules).load_factor
    # What it is made for has the unevenness in it.
    return plain_base(load, 1.0, allowable, plate, factor, tables.rules(BaseRules), _allowances())


_BASE = (
    number("load_kN", "kN", "load the base is made for, uneven share included"),
    number("allowable_kPa", "kPa", "safe bearing pressure"),
    number("plate_m", "m", "side of the plate under the jack", allowance("jack_plate")),
)

CONCRETE_BASES = (
    declared("PLINTH_PLAIN_BASE_THICKNESS", JACKS, "Thickness of a plain concrete jack base by spread and punching, m",
             "m", lambda *base: _base(*base).thickness, *_BASE),
    declared("PLINTH_PLAIN_BASE_CHECK", JACKS, "Plain concrete jack base: a row a limit state with demand, capacity, "
             "unit, utilisation, verdict, clause", "", lambda *base: criteria_rows(_base(*base).criteria), *_BASE),
)  # fmt: skip

# ------------------------------------------------------------------------------------------ the lift


def _strokes(rise: float, *stroke: float) -> Any:
    return stroke_count(rise, net_lift(*stroke))


def _circuit_forces(load: float, x: float, y: float, xs: Sequence[Any], ys: Sequence[Any]) -> list[list[float]]:
    east, north = in_order(xs, "xs_m"), in_order(ys, "ys_m")
    if len(east) != len(north):
        raise BadArgument(VALUE, "ys_m", "each circuit needs both its x and its y")
    return down(forces_on_three(list(zip(east, north, strict=True)), load, (x, y)))


_STROKE = (
    from_job("stroke_mm", "stroke", "stroke of the jack", most=True, least=20),
    number("clearance_mm", "mm", "stroke kept in hand at its end", _in_mm("stroke_reserve")),
    number("seating_mm", "mm", "stroke lost until packing and base have closed up", _in_mm("seating")),
)

STROKES = (
    declared("PLINTH_NET_LIFT", JACKS, "Lift of one stroke that counts, mm; 0: nothing is left", "mm", net_lift,
             *_STROKE),
    declared("PLINTH_STROKES", JACKS, "Strokes of each jack for a rise", "No", _strokes, RISE, *_STROKE),
    declared("PLINTH_COURSES", JACKS, "Whole courses of packing under a rise; what is left is shims", "No", courses,
             RISE, number("course_mm", "mm", "thickness of a course")),
    declared("PLINTH_OIL_PRESSURE", JACKS, "Pressure of the oil under a load, kPa; 100 kPa is 1 bar", "kPa",
             oil_pressure, number("load_kN", "kN", "load of the jack, or of all jacks of a circuit"),
             number("piston_mm2", "mm2", "area of its piston, or of all of them")),
    declared("PLINTH_CIRCUIT_FORCES", JACKS, "Force of each of three circuits that hold a house, downward, kN; an "
             "error where the load centre is not between them", "kN", _circuit_forces,
             number("load_kN", "kN", "load of the house in the lift"),
             number("centre_x_m", "m", "load centre, east", least=None),
             number("centre_y_m", "m", "load centre, north", least=None),
             number("xs_m", "m", "middle of the pistons of each circuit, east", least=None, takes="column"),
             number("ys_m", "m", "the same, north", least=None, takes="column")),
)  # fmt: skip
