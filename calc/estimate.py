"""The whole chain on one survey: from levels to the priced bill and its checks.

Covers   the order of the steps; what each step hands to the next.
Not      any formula of its own.
Signs    as in each step.
Units    as in each step.
Sources  none of its own.

`prepare` works on floats and fixes what no formula can say: the plan, and who gets how much. `estimate` then runs the
formulas on the same survey in any kind of number.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from calc.allowances import Allowances
from calc.base_checks import base_checks
from calc.bases import PadRow, pad_rows
from calc.changes import ItemChange, as_issued, changes_since
from calc.checks import CheckRow, CheckRules, Found, GreatestRow, check_rules, checks_of, stops_of
from calc.fields import quantity
from calc.ground import ColumnPressureRow, PressureRow, column_pressure_rows, pressure_rows
from calc.jack_on_bases import base_load
from calc.jack_plan import plan_jacks
from calc.jack_plan_rows import JackPlan
from calc.jack_supports import PlanBasis
from calc.jacks import JackRow, JackTotals, PlannedCount, jack_rows, jack_totals, usable_load
from calc.levels import Levels, ReadingRow, levels_of, reading_rows
from calc.lift_kit import kit_checks
from calc.lifting import ToLift, lifting_of
from calc.lifting_rows import Lifting
from calc.lifting_stations import stations_by_count, stations_of
from calc.member_rules import MemberRules
from calc.number import Filed, Name, Number, Text, at_issue, total, value_of
from calc.own_loads import PieceFractions, own_loads
from calc.plan import plan_of
from calc.plan_checks import plan_checks
from calc.plan_inputs import house_inputs, member_inputs
from calc.plan_rows import Plan
from calc.plan_view import PlanView, plan_view
from calc.planned import PlanRows, plan_rows
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

FOLLOW_UP = ("R01", "R02")
"""Items whose quantity is the masonry that follows the house up: new masonry under the walls, and the band in it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Prepared:
    """What is fixed at issue: who carries whom, and the shares no formula gives."""

    plan: Plan
    fractions: PieceFractions
    sharing: Sharing
    jacks: JackPlan | None = None
    basis: PlanBasis | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Estimate:
    """Everything found, in one kind of number."""

    readings: tuple[ReadingRow, ...]
    levels: Levels
    taken: TakeDown
    greatest: tuple[GreatestRow, ...]
    jacks: tuple[JackRow, ...]
    jack_totals: JackTotals
    planned: PlanRows | None
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
    lifting: Lifting
    settlement: Settlement
    rules: CheckRules
    checks: tuple[CheckRow, ...]
    stops: Number = quantity("No", "checks that say STOP")
    release: Release
    view: PlanView


def prepare(survey: Survey, allowances: Allowances, basis: PlanBasis | None = None) -> Prepared:
    """The plan and the shares of a house, and with tables and rules its jack plan, from its survey as floats."""
    plan = plan_of(survey)
    fractions = piece_fractions(plan, survey)
    own = own_loads(survey, plan, fractions, allowances)
    sharing = sharing_of(survey, plan, own)
    jacks = None
    if basis is not None:
        taken = take_down(survey, plan, own, sharing, allowances)
        rise = value_of(levels_of(survey.job, reading_rows(survey.readings)).rise)
        jacks = plan_jacks(survey, plan, sharing, own, taken.bases, rise, basis, allowances)
    return Prepared(plan=plan, fractions=fractions, sharing=sharing, jacks=jacks, basis=basis)


def estimate(
    survey: Survey, prepared: Prepared, allowances: Allowances, texts: Sequence[ItemText],
    rules: MemberRules,
) -> Estimate:  # fmt: skip
    """Every result, in the kind of number of the survey.

    Args:
        survey: the entries
        prepared: what is fixed at issue
        allowances: figures for what was not surveyed
        texts: the items of work
        rules: figures members are checked by, in the same kind of number
    """
    plan, job = prepared.plan, survey.job
    readings = reading_rows(survey.readings)
    levels = levels_of(job, readings)
    own = own_loads(survey, plan, prepared.fractions, allowances)
    taken = take_down(survey, plan, own, prepared.sharing, allowances)
    usable = usable_load(job.jack_rating, job.share)
    counts = _planned_counts(survey, prepared, taken, allowances)
    jacks = tuple(jack_rows(taken.bases, own.members, usable, job, allowances, counts))
    ground_plan = total([room.area for room in own.rooms if room.storey == 1])
    rests_on = house_inputs(survey, levels.rise, allowances, rules) if prepared.jacks else ()
    jacks_in_all = jack_totals(jacks, ground_plan, usable, allowances, rests_on)
    greatest = tuple(_greatest(taken, prepared, jacks))
    pads = tuple(pad_rows(jacks, job.bearing.value, allowances))
    planned = None
    if prepared.jacks and prepared.basis:
        planned = plan_rows(prepared.jacks, survey, plan, taken.bases, jacks, pads, levels.rise,
                            jacks_in_all, prepared.basis, rules, allowances)  # fmt: skip
    pressures = tuple(pressure_rows(taken.bases, taken.footings, own, pads, levels, job.bearing.value, allowances))
    under_columns = tuple(column_pressure_rows(taken.bases, taken.footings, own, levels, job.bearing.value))
    measures = measurement(survey, plan, own, taken.bases, jacks, pads, levels, allowances)
    lines = measures.lines
    items = work_items(lines, texts)
    bill = bill_items(items, survey)
    totals = bill_totals(bill, job, taken.house.floor_area)
    check_words = check_rules(job)
    found = Found(
        levels=levels, taken=taken, jacks=jacks, jack_totals=jacks_in_all, greatest=greatest, pads=pads,
        pressures=pressures, column_pressures=under_columns, trench=measures.work.figures.inside_depth,
        price_per_area=totals.per_floor_area, laid_out=frozenset(counts),
    )  # fmt: skip
    masonry = total([item.quantity for item in items if item.code in FOLLOW_UP])
    lifting = lifting_of(survey, ToLift(
        levels=levels, house=taken.house, own=own, usable=usable, masonry=masonry,
        stations=stations_of(
            prepared.jacks,
            stations_by_count(jacks, own.members, job, allowances, rules.packing.reseat_interval), job,
        ),
    ), allowances, rules.packing)  # fmt: skip
    settlement = settlement_of(survey, levels, allowances)
    checks = (
        *checks_of(job, found, check_words, allowances),
        *_plan_checks(planned, prepared, survey, check_words.pressure_holds, rules, allowances),
        *lifting.checks, *settlement.checks,
    )  # fmt: skip
    stops = stops_of(checks)
    return Estimate(
        readings=readings,
        levels=levels,
        taken=taken,
        greatest=greatest,
        jacks=jacks,
        jack_totals=jacks_in_all,
        planned=planned,
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
        lifting=lifting,
        settlement=settlement,
        rules=check_words,
        checks=checks,
        stops=stops,
        release=release_of(
            survey,
            taken.bases,
            levels,
            stops,
            _unplaced(prepared),
            settlement.known,
            int(planned is not None and planned.kit is not None),
        ),
        view=plan_view(survey, own, taken.house, prepared.jacks.jacks if prepared.jacks else ()),
    )


def _planned_counts(
    survey: Survey, prepared: Prepared, taken: TakeDown, allow: Allowances
) -> Mapping[str, PlannedCount]:
    """What the jack plan says of each wall and column it has a layout for."""
    if prepared.jacks is None:
        return {}
    inputs = member_inputs(survey, taken.bases)
    masses = {one.name: value_of(one.mass) for one in prepared.basis.sections} if prepared.basis else {}
    return {
        member.name: PlannedCount(
            count=len(member.jacks), lines=member.lines, inputs=inputs[member.name],
            base_load=base_load(prepared.jacks.jacks_of(member.name), member.states, allow),
            base_thickness=prepared.jacks.jacks_of(member.name)[0].base_thickness,
            beams=member.side_by_side if member.section in masses else 0, beam_mass=masses.get(member.section, 0.0),
        )
        for member in prepared.jacks.members if member.states
    }  # fmt: skip


def _plan_checks(
    planned: PlanRows | None, prepared: Prepared, survey: Survey, passes: Text, rules: MemberRules,
    allow: Allowances,
) -> Iterable[CheckRow]:  # fmt: skip
    if planned is None or prepared.basis is None:
        return
    yield from plan_checks(planned, survey.job, prepared.basis.soft_timber, allow)
    if planned.kit is not None:
        yield from kit_checks(planned.kit, survey.job, rules)
    yield from base_checks(survey, planned.old_footings, planned.limits, passes, rules.bases)


def _unplaced(prepared: Prepared) -> float:
    """Walls and columns without a layout of jacks; 1 without a plan."""
    return float(sum(not member.states for member in prepared.jacks.members)) if prepared.jacks else 1.0


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
