"""Worksheet functions for carrier beams on jacks: reactions, one lost, uneven, places of jacks, check of the beam.

Covers   an even load on one wall without doors or cross walls; each answer of several rows spills downward.
Not      any arithmetic: that is calc's. The jack plan of a house: its loads are not even, and its walls meet.
Rules    as in functions_loads. A support only pushes. A check shows demand, capacity and clause beside its verdict.
Sources  defaults are those of Job, of Allowances and of the rules of placing.
"""

from collections.abc import Iterable, Sequence
from dataclasses import fields
from functools import cache
from typing import Any

from addin import tables, units
from addin.arguments import JACKS, RATING, SHARE, WIDEST, allowance, declared, number, text
from addin.entries import folded
from addin.worksheet import NOT_THERE, VALUE, Argument, BadArgument, taken
from calc.beam_cases import let_go, uneven, worst_lost
from calc.beam_choice import even_load_check, lightest_for_even_load
from calc.beam_loads import beam_load
from calc.beam_on_jacks import BeamOnJacks, beam_on_jacks
from calc.carrier_beams import CarrierCheck
from calc.carrier_sections import Carrier, CarrierSection, bending_stiffness, carrier
from calc.checks import STOP, WITHIN
from calc.criteria import Criterion
from calc.jacks import usable_load
from calc.member_rules import SteelRules
from calc.number import value_of
from calc.placing import place_jacks
from calc.placing_rules import PlacingRules, WallLine

MOST_JACKS, LONGEST_WALL = 200, 60.0
"""More jacks or metres than one wall has are a range taken by mistake; they would keep the spreadsheet waiting."""


def criteria_rows(criteria: Sequence[Criterion]) -> list[list[Any]]:
    """Checks as rows of a sheet: name, demand, capacity, unit, utilisation, verdict, clause."""
    return [
        [row.name, value_of(row.demand), value_of(row.capacity), row.unit, value_of(row.utilisation),
         WITHIN if value_of(row.holds) else STOP, row.clause]
        for row in criteria
    ]  # fmt: skip


def down(values: Iterable[float]) -> list[list[float]]:
    """Numbers below each other, as a cell spills them."""
    return [[float(value)] for value in values]


def in_order(cells: Sequence[Any], argument: str) -> list[float]:
    """The numbers of a range, blanks at its end left out; a blank between them would shift all that follow.

    Raises:
        BadArgument: a blank between numbers, no number at all, too many, or a cell that is none
    """
    last = max((at for at, cell in enumerate(cells, 1) if cell is not None), default=0)
    if not 0 < last <= MOST_JACKS or None in cells[:last]:
        reason = f"{argument} has a blank between its numbers, none at all, or more than {MOST_JACKS}"
        raise BadArgument(VALUE, argument, reason)
    return [taken(cell) for cell in cells[:last]]


# ------------------------------------------------------------------------------------------ on jacks


def _beam(line_load: float, length: float, positions: Sequence[Any], ei: float, compliance: float) -> BeamOnJacks:
    load = beam_load(length, [(0.0, length, line_load)])
    return beam_on_jacks(load, in_order(positions, "positions_m"), ei, compliance)


def _reactions(*beam: Any) -> list[list[float]]:
    return down(let_go(_beam(*beam)).reactions)


def _one_lost(*beam: Any) -> list[list[float]]:
    return down(worst_lost(_beam(*beam)))


def _uneven(*values: Any) -> list[list[float]]:
    *beam, difference = values
    return down(uneven(_beam(*beam), difference)[1])


def _usual(name: str) -> Any:
    """Default of a rule of placing."""
    return next(field.default for field in fields(PlacingRules) if field.name == name)


def _places(
    line_load: float, length: float, ei: float, compliance: float, rating: float, share: float, widest: float,
    difference: float,
) -> list[list[float]]:  # fmt: skip
    rules = PlacingRules(
        usable=value_of(usable_load(rating, share)), rated=rating, widest=widest, difference=difference
    )
    load = beam_load(length, [(0.0, length, line_load)])
    return down(place_jacks(WallLine(load=load, stiffness=ei, compliance=compliance), rules).recommended.positions)


_LINE_LOAD = number("line_load_kN_m", "kN/m", "even load of the wall in the lift, carrier beam included")
_EI = number("ei_kNm2", "kN m2", "bending stiffness of the carrier beam, as PLINTH_BEAM_STIFFNESS gives it")
_COMPLIANCE = number("compliance_mm_kN", "mm/kN", "what a support yields, as PLINTH_SUPPORT_COMPLIANCE gives it; 0: "
                     "rigid, which no jack on timber and soil is")  # fmt: skip
_DIFFERENCE = Argument(name="difference_mm", unit="mm", doc="greatest difference in level between jacks while lifting",
                       default=units.convert(_usual("difference"), "m", "mm"))  # fmt: skip
_ON_JACKS = (
    _LINE_LOAD,
    number("length_m", "m", "length of the beam"),
    number("positions_m", "m", "jacks from the left end of the beam, in order", takes="column"),
    _EI,
    _COMPLIANCE,
)

ON_JACKS = (
    declared("PLINTH_JACK_REACTIONS", JACKS, "Load of each jack under a carrier beam, all at work and level, downward, "
             "kN. 0: the beam lifts off that jack", "kN", _reactions, *_ON_JACKS),
    declared("PLINTH_JACKS_ONE_LOST", JACKS, "Greatest load of each jack under a carrier beam when any other one is "
             "lost, downward, kN; compare it with the rating", "kN", _one_lost, *_ON_JACKS),
    declared("PLINTH_JACKS_UNEVEN", JACKS, "Greatest load of each jack under a carrier beam when jacks stand anywhere "
             "within a difference in level, downward, kN; compare it with the rating", "kN", _uneven, *_ON_JACKS,
             _DIFFERENCE),
    declared("PLINTH_JACK_PLACES", JACKS, "Places of the jacks under one wall without doors or cross walls, from its "
             "end, downward, m: one lost and uneven lifting held. Not the plan of a house", "m", _places, _LINE_LOAD,
             number("length_m", "m", "length of the wall", most=LONGEST_WALL), _EI, _COMPLIANCE, RATING, SHARE, WIDEST,
             _DIFFERENCE),
)  # fmt: skip

# ------------------------------------------------------------------------------------------ the beam itself


@cache
def _steel() -> SteelRules:
    return tables.rules(SteelRules)


def _section(name: str) -> CarrierSection:
    for section in tables.carrier_sections():
        if folded(section.name) == folded(name):
            return section
    raise BadArgument(NOT_THERE, "section", f"no beam is listed as {name}")


def _bare(section: CarrierSection, beams: float) -> Carrier:
    if beams not in (1, 2):
        raise BadArgument(VALUE, "beams", f"beams side by side are 1 or 2, not {beams:g}")
    return carrier(section, beams, 0.0, 0.0, 0.0, _steel())


def _check(
    section: str, beams: float, line_load: float, spacing: float, plate: float, ties: float | None
) -> CarrierCheck:
    held = spacing if ties is None else ties
    return even_load_check(_bare(_section(section), beams), line_load, spacing, held, plate, _steel())


def _lightest(line_load: float, spacing: float, plate: float, ties: float | None, beams: float) -> str:
    carriers = [_bare(section, beams) for section in tables.carrier_sections()]
    held = spacing if ties is None else ties
    return lightest_for_even_load(carriers, line_load, spacing, held, plate, _steel()).carrier.section.name


_SECTION = text("section", "such as MB 250")
_SPACING = number("spacing_m", "m", "widest spacing of the jacks")
_PLATE = number("plate_m", "m", "length of the plate on the jack head, along the beam")
_TIES = number("ties_m", "m", "distance of ties that hold the beam sideways; blank: the spacing", may_be_blank=True)
_BEAMS = number("beams", "No", "beams side by side, 1 or 2", allowance("carrier_beams_side_by_side"))
_BARE_LOAD = number("line_load_kN_m", "kN/m", "even load of the wall in the lift, carrier beam left out")
_BEAM = (_SECTION, number("beams", "No", "beams side by side, 1 or 2"), _BARE_LOAD, _SPACING, _PLATE, _TIES)

BEAMS = (
    declared("PLINTH_BEAM_STIFFNESS", JACKS, "Bending stiffness of a carrier beam, kN m2", "kN m2",
             lambda section, beams: bending_stiffness(_section(section), beams, _steel()), _SECTION, _BEAMS),
    declared("PLINTH_BEAM_CHECK", JACKS, "Carrier beam, all jacks at work: a row a limit state with demand, capacity, "
             "unit, utilisation, verdict, clause. A first answer: the plan checks one lost and uneven as well", "",
             lambda *beam: criteria_rows(_check(*beam).criteria), *_BEAM),
    declared("PLINTH_BEAM_USE", JACKS, "Utilisation of a carrier beam, all jacks at work; more than 1 is too much. A "
             "first answer: one jack lost and uneven lifting are not in it", "-",
             lambda *beam: _check(*beam).utilisation, *_BEAM),
    declared("PLINTH_BEAM_GOVERNED_BY", JACKS, "What governs a carrier beam, all jacks at work", "",
             lambda *beam: str(_check(*beam).governed_by), *_BEAM),
    declared("PLINTH_LIGHTEST_BEAM", JACKS, "Lightest listed carrier beam that passes with all jacks at work. A first "
             "answer: one jack lost and uneven lifting may ask for more", "", _lightest, _BARE_LOAD, _SPACING, _PLATE,
             _TIES, _BEAMS),
)  # fmt: skip
