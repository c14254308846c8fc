"""Checks of where jack bases stand: on old footings, beside a later dig, near tanks, wells and sumps.

Covers   pressure under an old footing that carries jack bases, bases beside a later dig, voids near the house.
Not      sizes of bases (jack_bases), strips (base_strips).
Signs    load and pressure positive downward.
Units    m, kN, kN/m2.
Sources  as in base_places.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from calc.base_places import clear_of_void, footing_spread, spread_pressure
from calc.bases import PadRow
from calc.checks import CORRECT, PRACTICE, CheckRow, check
from calc.fields import note, quantity
from calc.jack_state_rows import JackLimits
from calc.jacks import JackRow
from calc.member_rules import BaseRules
from calc.number import Name, Number, Text, maximum, same, text_of, where
from calc.survey import Job, SiteThing, Survey
from calc.take_down_rows import BaseRow

VOIDS = ("septic tank", "well", "sump")
"""Kinds of thing near the house that are hollow."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OldFootingRow:
    """An old footing that jack bases stand on; nothing where they do not."""

    name: Name = note("wall")
    stands_on: Text = note("what its bases stand on")
    load: Number = quantity("kN", "one base is made for")
    side: Number = quantity("m", "of the base")
    spacing: Number = quantity("m", "of the jacks")
    width: Number = quantity("m", "of the old footing")
    thickness: Number = quantity("m", "of the old footing")
    spread: Number = quantity("m", "of a base through the footing")
    below: Number = quantity("kN/m", "plinth and footing that stay")
    pressure: Number = quantity("kN/m2", "under the old footing, one base after the other")
    counts: Number = quantity("kN/m2", "the same where bases stand on it, else 0")


def old_footing_rows(
    survey: Survey, bases: Sequence[BaseRow], jacks: Sequence[JackRow], pads: Sequence[PadRow], rules: BaseRules
) -> tuple[OldFootingRow, ...]:
    """Every ground wall that is lifted, as if its bases stood on its old footing.

    Args:
        survey: what bases stand on
        bases: ground walls at the cut level
        jacks: their jacks
        pads: their jack bases
        rules: figures of the code
    """
    on = {text_of(wall.name): wall.stands_on for wall in survey.walls}
    laid, spaced = {text_of(pad.name): pad for pad in pads}, {text_of(row.name): row.spacing for row in jacks}
    return tuple(_old_footing(base, on[base.name], laid[base.name], spaced[base.name], rules)
                 for base in bases if base.kind == "wall")  # fmt: skip


def _old_footing(base: BaseRow, on: Text, pad: PadRow, spacing: Number, rules: BaseRules) -> OldFootingRow:
    below, width, thickness = base.stays / base.length, base.width, base.footing_thickness
    # A single jack has no neighbour; the footing spreads it as far as it reaches.
    apart = where(spacing > 0, spacing, base.length)
    spread = footing_spread(pad.side, thickness, rules)
    pressure = spread_pressure(pad.load, spread, apart, width, below)
    return OldFootingRow(
        name=Name(base.name), stands_on=on, load=pad.load, side=pad.side, spacing=apart, width=width,
        thickness=thickness, spread=spread, below=below, pressure=pressure,
        counts=where(same(on, "old footing"), where(pad.count > 0, pressure, 0), 0),
    )  # fmt: skip


def base_checks(
    survey: Survey, rows: Sequence[OldFootingRow], limits: JackLimits, passes: Text, rules: BaseRules,
) -> Iterable[CheckRow]:  # fmt: skip
    """Where jack bases stand.

    Args:
        survey: walls, site, bearing pressure
        rows: old footings
        limits: pressure in a state that passes, the widest base
        passes: verdict where a pressure is within the one allowed
        rules: figures of the code
    """
    job = survey.job
    for row in rows:
        yield check(name="Old footing under jack bases", state="on all jacks, uneven", where_=row.name,
                    demand=row.counts, capacity=limits.passing, unit="kN/m2", passes=passes,
                    source="bearing pressure on Job, times soil_temporary")  # fmt: skip
        beside = where(same(row.stands_on, "beside later dig"), 1, 0)
        yield check(name="Bases beside a later dig, not designed", state="later dig", where_=row.name, demand=beside,
                    capacity=beside * 0, unit="No",
                    source=f"{PRACTICE}: the engineer sets depth and distance, clear of 45 degrees")  # fmt: skip
    for thing in survey.site:
        if thing.kind in VOIDS:
            yield _void(thing, limits.widest_base, job, rules)


def _void(thing: SiteThing, widest: Number, job: Job, rules: BaseRules) -> CheckRow:
    """A void whose depth or distance nobody knows is near."""
    far, deep = thing.distance.given, thing.depth.given
    clear = clear_of_void(maximum(thing.distance.value - widest, 0), thing.depth.value, rules)
    return check(
        name=f"Jack bases clear of a {thing.kind}: empty, fill or bridge it first", state="on all jacks",
        where_=thing.what, fails=CORRECT,
        demand=where(far, where(deep, clear.demand, job.widest_spacing), job.widest_spacing),
        capacity=where(far, where(deep, clear.capacity, 0), 0), unit="m", source=PRACTICE,
    )  # fmt: skip
