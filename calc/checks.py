"""Checks: a demand against a capacity, with the state of the house and where the capacity comes from.

Covers   equilibrium, filed sums, pressures in each state, counts of jacks, rise, sanity bands.
Not      jacks as placed, carrier beams, packing (plan_checks); stability on jacks (stability); strength of walls and
         columns: not worked out, and listed as such.
Signs    demand and capacity are both positive.
Units    in each row.
Sources  beside each check.

Verdicts say `within the limits set`, `correct it` or `STOP`; never that something is safe.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from calc.allowances import Allowances
from calc.bases import PadRow
from calc.fields import note, quantity
from calc.ground import ColumnPressureRow, PressureRow
from calc.jacks import JackRow, JackTotals
from calc.levels import Levels
from calc.number import Name, Number, Text, both, either, fixed, maximum, ratio, same, total, where, within, word_where
from calc.survey import Job
from calc.take_down_rows import TakeDown

WITHIN, CORRECT, STOP = "within the limits set", "correct it", "STOP"
IF_CONFIRMED = "within the limits set if the assumed pressure is confirmed"
PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CheckRow:
    """One limit state of one member in one state of the house."""

    name: str = note("what is checked")
    state: str = note("state of the house")
    where: Text = note("member")
    demand: Number = note("in `unit`")
    capacity: Number = note("in `unit`")
    unit: str = note("unit of both")
    utilisation: Number = quantity("-", "demand / capacity")
    holds: Number = quantity("No", "1 where the demand is no more than the capacity, else 0")
    verdict: Text = note("in words")
    stops: Number = quantity("No", "1 where it says STOP")
    source: str = note("where the capacity comes from")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CheckRules:
    """Words of verdicts that depend on what is known."""

    pressure_proven: Number = quantity("No", "1 where the bearing pressure comes from a test or inspected pits")
    pressure_holds: Text = note("verdict where a pressure is within the one allowed")


def check_rules(job: Job) -> CheckRules:
    """A pressure that is within an assumed one is no pass."""
    seen = either(same(job.bearing_from, "test"), same(job.bearing_from, "inspected pits"))
    proven = where(both(job.bearing.given, seen), 1, 0)
    return CheckRules(pressure_proven=proven, pressure_holds=word_where(proven > 0, WITHIN, IF_CONFIRMED))


def check(
    *, name: str, state: str, where_: Text, demand: Number, capacity: Number, unit: str, source: str,
    fails: str = STOP, passes: Text = WITHIN,
) -> CheckRow:  # fmt: skip
    """One check; a demand equal to the capacity passes.

    Args:
        name: what is checked
        state: state of the house
        where_: member
        demand: in `unit`
        capacity: in `unit`
        unit: unit of both
        source: where the capacity comes from
        fails: verdict where the demand is greater
        passes: verdict where it is not
    """
    holds = where(within(demand, capacity), 1, 0)
    return CheckRow(
        name=name, state=state, where=where_, demand=demand, capacity=capacity, unit=unit,
        utilisation=ratio(demand, capacity, 0), holds=holds, verdict=word_where(holds > 0, passes, fails),
        # A nought of its own has a cell, and the stops are one column to add up.
        stops=1 - holds if fails == STOP else fixed(0, holds), source=source,
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GreatestRow:
    """Greatest line load along one ground wall, worked out at issue."""

    name: Name = note("wall")
    greatest: Number = quantity("kN/m", "greatest load in the lift along the wall, points left out")
    stretch: Number = quantity("kN", "most on any stretch one spacing long, points included")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Found:
    """What the checks look at."""

    levels: Levels
    taken: TakeDown
    jacks: Sequence[JackRow]
    jack_totals: JackTotals
    greatest: Sequence[GreatestRow]
    pads: Sequence[PadRow]
    pressures: Sequence[PressureRow]
    column_pressures: Sequence[ColumnPressureRow]
    laid_out: frozenset[str] = note("walls and columns whose jacks are placed: the plan's own checks hold for these")
    trench: Number = quantity("m", "depth of the trench inside, below the floor")
    price_per_area: Number = quantity("money/m2", "total price per floor area")


def checks_of(job: Job, found: Found, rules: CheckRules, allow: Allowances) -> tuple[CheckRow, ...]:
    """Every check, in the order of the work.

    Args:
        job: the Job entries
        found: what was worked out
        rules: words that depend on what is known
        allow: the allowances
    """
    return (
        *_book_keeping(found.taken, allow),
        *_rise(found.levels, allow),
        *_jacks(found, job, allow),
        *_pressures(found, rules.pressure_holds),
        *_price(found.price_per_area, allow),
    )


def _book_keeping(taken: TakeDown, allow: Allowances) -> Iterable[CheckRow]:
    house = taken.house
    gaps = (
        ("What comes out at the ground is what went in", house.balance),
        ("The centre accounts for all that is lifted", house.centre_balance),
        *((f"{gap.what} all arrive", gap.gap) for gap in taken.filed_sums),
    )
    for name, gap in gaps:
        yield check(name=name, state="every state", where_="house", demand=maximum(gap, 0 - gap),
                    capacity=allow.balance_gap, unit="kN", source="statics")  # fmt: skip


def _rise(levels: Levels, allow: Allowances) -> Iterable[CheckRow]:
    yield check(name="Rise reaches the plinth that road, flood and rule call for", state="raised", where_="house",
                demand=levels.least_rise, capacity=levels.rise, unit="m", fails=CORRECT, source=PRACTICE)  # fmt: skip
    yield check(name="Rise without braced towers and guide frames", state="on jacks", where_="house",
                demand=levels.rise, capacity=allow.rise_unbraced, unit="m", fails=CORRECT, source=PRACTICE)  # fmt: skip
    yield check(name="Rise without temporary works designed by an engineer", state="on jacks", where_="house",
                demand=levels.rise, capacity=allow.rise_undesigned, unit="m", source=PRACTICE)  # fmt: skip


def _jacks(found: Found, job: Job, allow: Allowances) -> Iterable[CheckRow]:
    usable = "rating and share on Job"
    for row in found.jacks:
        yield check(name="Mean load of one jack", state="on all jacks", where_=row.name, demand=row.mean,
                    capacity=row.usable, unit="kN", source=usable)  # fmt: skip
        if row.kind == "wall" and row.name not in found.laid_out:
            yield check(name="Even spacing of that many jacks", state="on all jacks", where_=row.name,
                        demand=row.spacing, capacity=job.widest_spacing, unit="m",
                        source="widest spacing on Job")  # fmt: skip
            # A wall without jacks has no spacing to keep.
            closest = where(row.count > 0, job.closest_spacing, 0)
            yield check(name="Room between that many jacks", state="on all jacks", where_=row.name, demand=closest,
                        capacity=row.spacing, unit="m", source="closest spacing on Job")  # fmt: skip
    for stretch in (row for row in found.greatest if row.name not in found.laid_out):
        yield check(name="Heaviest stretch one spacing long, on one jack", state="on all jacks", where_=stretch.name,
                    demand=stretch.stretch, capacity=found.jack_totals.usable, unit="kN", source=usable)  # fmt: skip
    per_plan = found.jack_totals.per_plan
    yield check(name="Jacks per m2 of plan, usual most", state="on all jacks", where_="house", demand=per_plan,
                capacity=allow.jacks_per_area_high, unit="No/m2", fails=CORRECT, source=PRACTICE)  # fmt: skip
    yield check(name="Jacks per m2 of plan, usual least", state="on all jacks", where_="house",
                demand=allow.jacks_per_area_low, capacity=per_plan, unit="No/m2", fails=CORRECT,
                source=PRACTICE)  # fmt: skip


def _pressures(found: Found, passes: Text) -> Iterable[CheckRow]:
    source = "bearing pressure on Job"
    rows: list[PressureRow | ColumnPressureRow] = [*found.pressures, *found.column_pressures]
    for row in rows:
        for state, demand in (("as it stands", row.before), ("trenched", row.trenched), ("raised", row.after)):
            yield check(name="Pressure under the footing", state=state, where_=row.name, demand=demand,
                        capacity=row.allowable, unit="kN/m2", source=source, passes=passes)  # fmt: skip
        yield check(name="Trench no deeper than the footing's underside", state="trenched", where_=row.name,
                    demand=found.trench, capacity=row.underside, unit="m", source=PRACTICE)  # fmt: skip
    spacings = {row.name: row.spacing for row in found.jacks if row.kind == "wall"}
    for pad in found.pads:
        yield check(name="Pressure under a jack base", state="on all jacks, uneven", where_=pad.name,
                    demand=pad.pressure, capacity=pad.allowable, unit="kN/m2", source=source,
                    passes=passes)  # fmt: skip
        if pad.name in spacings and pad.name not in found.laid_out:
            yield check(name="Jack bases side by side", state="on all jacks", where_=pad.name,
                        demand=where(pad.count > 0, pad.side, 0), capacity=spacings[pad.name], unit="m", fails=CORRECT,
                        source="geometry; bases that touch become a strip")  # fmt: skip


def _price(per_area: Number, allow: Allowances) -> Iterable[CheckRow]:
    # A band of 0 is no band: then the demand is held against itself and says nothing.
    dear = where(allow.dear_per_area > 0, allow.dear_per_area, per_area)
    yield check(name="Price per m2 of floor, usual most", state="offer", where_="house", demand=per_area, capacity=dear,
                unit="money/m2", fails=CORRECT, source="band on Allowances")  # fmt: skip
    yield check(name="Price per m2 of floor, usual least", state="offer", where_="house", demand=allow.cheap_per_area,
                capacity=per_area, unit="money/m2", fails=CORRECT, source="band on Allowances")  # fmt: skip


def stops_of(rows: Sequence[CheckRow]) -> Number:
    """How many checks say STOP [No]."""
    return total([row.stops for row in rows])
