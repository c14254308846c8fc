"""The whole chain on one survey: from levels to the priced bill and its checks.

Covers   the order of the steps; what each step hands to the next.
Not      any formula of its own.
Signs    as in each step.
Units    as in each step.
Sources  none of its own.

`prepare` works on floats and fixes what no formula can say: the plan, and who gets how much. `estimate` then runs the
formulas on the same survey in any kind of number.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from calc.allowances import Allowances
from calc.bases import PadRow, pad_rows
from calc.changes import ItemChange, as_issued, changes_since
from calc.checks import CheckRow, CheckRules, Found, GreatestRow, check_rules, checks_of, stops_of
from calc.fields import quantity
from calc.ground import ColumnPressureRow, PressureRow, column_pressure_rows, pressure_rows
from calc.jacks import JackRow, JackTotals, jack_rows, jack_totals, usable_load
from calc.levels import Levels, ReadingRow, levels_of, reading_rows
from calc.number import Filed, Name, Number, at_issue, total, value_of
from calc.own_loads import PieceFractions, own_loads
from calc.plan import plan_of
from calc.plan_rows import Plan
from calc.plan_view import PlanView, plan_view
from calc.prices import BillItem, BillTotals, StageSum, bill_items, bill_totals, stage_sums
from calc.quantities import ItemText, MeasuredLine, WorkItem, measurement, work_items
from calc.quantities_rows import Workings
from calc.release import Release, release_of
from calc.settlement import settlement_of
from calc.settlement_rows import Settlement
from calc.sharing import Sharing, piece_fractions, sharing_of
from calc.survey import Survey
from calc.take_down import take_down
from calc.take_down_rows import TakeDown


@dataclass(frozen=True, slots=True, kw_only=True)
class Prepared:
    """What is fixed at issue: who carries whom, and the shares no formula gives."""

    plan: Plan
    fractions: PieceFractions
    sharing: Sharing


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Estimate:
    """Everything found, in one kind of number."""

    readings: tuple[ReadingRow, ...]
    levels: Levels
    taken: TakeDown
    greatest: tuple[GreatestRow, ...]
    jacks: tuple[JackRow, ...]
    jack_totals: JackTotals
    pads: tuple[PadRow, ...]
    pressures: tuple[PressureRow, ...]
    column_pressures: tuple[ColumnPressureRow, ...]
    work: Workings
    lines: tuple[MeasuredLine, ...]
    items: tuple[WorkItem, ...]
    bill: tuple[BillItem, ...]
    since: tuple[ItemChange, ...]
    stages: tuple[StageSum, ...]
    totals: BillTotals
    settlement: Settlement
    rules: CheckRules
    checks: tuple[CheckRow, ...]
    stops: Number = quantity("No", "checks that say STOP")
    release: Release
    view: PlanView


def prepare(survey: Survey, allowances: Allowances) -> Prepared:
    """The plan and the shares of a house, from its survey as floats."""
    plan = plan_of(survey)
    fractions = piece_fractions(plan, survey)
    own = own_loads(survey, plan, fractions, allowances)
    return Prepared(plan=plan, fractions=fractions, sharing=sharing_of(survey, plan, own))


def estimate(survey: Survey, prepared: Prepared, allowances: Allowances, texts: Sequence[ItemText]) -> Estimate:
    """Every result, in the kind of number of the survey.

    Args:
        survey: the entries
        prepared: what is fixed at issue
        allowances: figures for what was not surveyed
        texts: the items of work
    """
    plan, job = prepared.plan, survey.job
    readings = reading_rows(survey.readings)
    levels = levels_of(job, readings)
    own = own_loads(survey, plan, prepared.fractions, allowances)
    taken = take_down(survey, plan, own, prepared.sharing, allowances)
    usable = usable_load(job.jack_rating, job.share)
    jacks = tuple(jack_rows(taken.bases, own.members, usable, job, allowances))
    ground_plan = total([room.area for room in own.rooms if room.storey == 1])
    jacks_in_all = jack_totals(jacks, ground_plan, usable, allowances)
    greatest = tuple(_greatest(taken, prepared, jacks))
    pads = tuple(pad_rows(jacks, job.bearing.value, allowances))
    pressures = tuple(pressure_rows(taken.bases, taken.footings, own, pads, levels, job.bearing.value, allowances))
    under_columns = tuple(column_pressure_rows(taken.bases, taken.footings, own, levels, job.bearing.value))
    measures = measurement(survey, plan, own, taken.bases, jacks, pads, levels, allowances)
    lines = measures.lines
    items = work_items(lines, texts)
    bill = bill_items(items, survey)
    totals = bill_totals(bill, job, taken.house.floor_area)
    rules = check_rules(job)
    found = Found(
        levels=levels, taken=taken, jacks=jacks, jack_totals=jacks_in_all, greatest=greatest, pads=pads,
        pressures=pressures, column_pressures=under_columns, trench=measures.work.figures.inside_depth,
        price_per_area=totals.per_floor_area,
    )  # fmt: skip
    settlement = settlement_of(survey, levels, allowances)
    checks = (*checks_of(job, found, rules, allowances), *settlement.checks)
    stops = stops_of(checks)
    return Estimate(
        readings=readings,
        levels=levels,
        taken=taken,
        greatest=greatest,
        jacks=jacks,
        jack_totals=jacks_in_all,
        pads=pads,
        pressures=pressures,
        column_pressures=under_columns,
        work=measures.work,
        lines=lines,
        items=items,
        bill=bill,
        since=changes_since(bill, as_issued(bill)),
        stages=stage_sums(bill, job),
        totals=totals,
        settlement=settlement,
        rules=rules,
        checks=checks,
        stops=stops,
        release=release_of(survey, taken.bases, levels, stops, settlement.known),
        view=plan_view(survey, own, taken.house),
    )


def _greatest(taken: TakeDown, prepared: Prepared, jacks: Sequence[JackRow]) -> list[GreatestRow]:
    spacings = Filed([jack.name for jack in jacks], [jack.spacing for jack in jacks])
    rows = []
    for base in taken.bases:
        if base.kind != "wall":
            continue
        load = prepared.sharing.profiles[base.name]["lifted"]
        band = value_of(base.cut_band) * value_of(base.goes_up) / value_of(base.length)
        greatest = at_issue(load.greatest() + band, base.lifted, base.cut_band, base.length, like=base.line_lifted)
        spacing = spacings.at(base.name)
        heaviest = load.heaviest_stretch(value_of(spacing)) + band * value_of(spacing)
        stretch = at_issue(heaviest, base.lifted, base.cut_band, base.length, spacing, like=base.lifted)
        rows.append(GreatestRow(name=Name(base.name), greatest=greatest, stretch=stretch))
    return rows
