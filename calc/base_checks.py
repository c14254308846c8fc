"""Checks of where jack bases stand: on old footings, beside a later dig, near tanks, wells and sumps.

Covers   bases within the old footing they stand on, pressure under it with all jacks at work and in states that pass,
         bases beside a later dig, voids near the house.
Not      sizes of bases (jack_bases), strips (base_strips), old footings that lie off the wall's centre line: none is
         surveyed.
Signs    load and pressure positive downward; off the centre line of the wall either way positive.
Units    m, kN, kN/m2.
Sources  as in base_places.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from calc.base_places import borne_across, clear_of_void, footing_spread, spread_pressure, within_footing
from calc.bases import PadRow
from calc.carrier_rows import Lender
from calc.checks import CORRECT, PRACTICE, CheckRow, check
from calc.fields import note, quantity
from calc.jack_on_bases import NO_LAYOUT, BasesOfPlan, bases_of_plan
from calc.jack_plan_rows import JackPlan
from calc.jack_state_rows import JackLimits
from calc.jacks import JackRow
from calc.member_rules import BaseRules
from calc.number import Name, Number, Text, maximum, minimum, same, text_of, where
from calc.survey import Job, SiteThing, Survey
from calc.take_down_rows import BaseRow

VOIDS = ("septic tank", "well", "sump")
"""Kinds of thing near the house that are hollow."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OldFootingRow:
    """An old footing that jack bases stand on; nothing where they do not."""

    name: Name = note("wall")
    stands_on: Text = note("what its bases stand on")
    on: Number = quantity("No", "1 where bases stand on it, else 0")
    at_work_plan: Number = quantity("kN", "greatest on one base in the plan, all at work; 0 without a layout")
    at_work: Number = quantity("kN", "on one base, all at work")
    worst_plan: Number = quantity("kN", "greatest on one base in the plan, any state; 0 without a layout")
    worst: Number = quantity("kN", "on one base, uneven or in a state that passes")
    off: Number = quantity("m", "centre of the base off the centre line; 0 under the wall")
    side: Number = quantity("m", "of the base")
    narrowest: Number = quantity("m", "least width across the wall in the plan, strips included")
    across: Number = quantity("m", "width of the base across the wall, at its narrowest")
    widest: Number = quantity("m", "greatest width across the wall in the plan, strips included")
    edge: Number = quantity("m", "outer edge of the widest base off the centre line")
    apart_plan: Number = quantity("m", "least spacing of jacks of one line in the plan; 0 without a layout")
    spacing: Number = quantity("m", "of the jacks, at its least")
    width: Number = quantity("m", "of the old footing")
    half: Number = quantity("m", "of that width")
    thickness: Number = quantity("m", "of the old footing")
    spread: Number = quantity("m", "of a base through the footing, across the wall")
    along: Number = quantity("m", "length of the footing that one base presses on")
    borne: Number = quantity("m", "width of the footing that one base presses on")
    below: Number = quantity("kN/m", "plinth and footing that stay")
    level: Number = quantity("kN/m2", "under the old footing, all at work")
    pressure: Number = quantity("kN/m2", "under the old footing, uneven or in a state that passes")


def old_footing_rows(
    survey: Survey, bases: Sequence[BaseRow], jacks: Sequence[JackRow], pads: Sequence[PadRow], plan: JackPlan,
    like: Lender, rules: BaseRules,
) -> tuple[OldFootingRow, ...]:  # fmt: skip
    """Every ground wall that is lifted, as if its bases stood on its old footing.

    Args:
        survey: what bases stand on
        bases: ground walls at the cut level
        jacks: their jacks
        pads: their jack bases
        plan: where the jacks stand and what they carry, on floats
        like: numbers of the run
        rules: figures of the code
    """
    on = {text_of(wall.name): wall.stands_on for wall in survey.walls}
    laid, counted = {text_of(pad.name): pad for pad in pads}, {text_of(row.name): row for row in jacks}
    planned: Mapping[str, BasesOfPlan] = {
        member.name: bases_of_plan(member, plan.jacks_of(member.name)) for member in plan.members
    }
    return tuple(
        _old_footing(base, on[base.name], laid[base.name], counted[base.name], planned.get(base.name, NO_LAYOUT), like,
                     rules)
        for base in bases if base.kind == "wall"
    )  # fmt: skip


def _old_footing(
    base: BaseRow, on: Text, pad: PadRow, jack: JackRow, laid: BasesOfPlan, like: Lender, rules: BaseRules
) -> OldFootingRow:
    below, width, thickness = base.stays / base.length, base.width, base.footing_thickness
    at_work_plan, worst_plan = like.lent(laid.at_work, 1, 0), like.lent(laid.worst, 1, 0)
    off, narrowest, widest, apart = (
        like.lent(value, 0, 1) for value in (laid.off, laid.narrowest, laid.widest, laid.apart)
    )
    at_work = where(at_work_plan > 0, at_work_plan, jack.mean)
    worst = maximum(pad.load, worst_plan)
    # Strips are narrower or wider than the pads; either way the worse of the two counts.
    across = where(narrowest > 0, minimum(pad.side, narrowest), pad.side)
    spacing = where(apart > 0, apart, where(jack.spacing > 0, jack.spacing, base.length))
    half, spread = width / 2, footing_spread(across, thickness, rules)
    along, borne = minimum(spacing, spread), borne_across(spread, across, off, half)
    return OldFootingRow(
        name=Name(base.name), stands_on=on,
        on=where(same(on, "old footing"), where(pad.count > 0, 1, 0), 0),
        at_work_plan=at_work_plan, at_work=at_work, worst_plan=worst_plan, worst=worst, off=off, side=pad.side,
        narrowest=narrowest, across=across, widest=widest, edge=off + maximum(pad.side, widest) / 2,
        apart_plan=apart, spacing=spacing, width=width, half=half, thickness=thickness, spread=spread, along=along,
        borne=borne, below=below, level=spread_pressure(at_work, along, borne, below, width),
        pressure=spread_pressure(worst, along, borne, below, width),
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
        yield from _on_old_footing(row, limits, passes)
        beside = where(same(row.stands_on, "beside later dig"), 1, 0)
        yield check(name="Bases beside a later dig, not designed", state="later dig", where_=row.name, demand=beside,
                    capacity=beside * 0, unit="No",
                    source=f"{PRACTICE}: the engineer sets depth and distance, clear of 45 degrees")  # fmt: skip
    for thing in survey.site:
        if thing.kind in VOIDS:
            yield _void(thing, limits.widest_base, job, rules)


def _on_old_footing(row: OldFootingRow, limits: JackLimits, passes: Text) -> Iterable[CheckRow]:
    """Bases within the footing; pressure that lasts and pressure that passes, each against its own limit."""
    name, source = "Old footing under jack bases", "bearing pressure on Job"
    inside = within_footing(row.on * row.edge, row.half)
    yield check(name=inside.name, state="on all jacks", where_=row.name, demand=inside.demand,
                capacity=inside.capacity, unit="m", source=inside.clause)  # fmt: skip
    yield check(name=name, state="on all jacks", where_=row.name, demand=row.on * row.level,
                capacity=limits.pressure, unit="kN/m2", passes=passes, source=source)  # fmt: skip
    yield check(name=name, state="uneven, one lost or re-seating", where_=row.name, demand=row.on * row.pressure,
                capacity=limits.passing, unit="kN/m2", passes=passes,
                source=f"{source}, times soil_temporary")  # fmt: skip


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
