"""Walls of a jack plan: each placed with its carrier beam, the carrier beams of all of them chosen together.

Covers   rules of placing for a wall, its supports, the sections of the job, the records of wall and jacks.
Not      columns (jack_columns), what jacks of several members share (jack_plan).
Signs    as in jack_plan_rows.
Units    m, kN, kN m2.
Sources  as in the modules it calls.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from calc.beam_choice import worst_check
from calc.carrier_sections import CarrierSection
from calc.errors import NoLayout
from calc.jack_lines import PLINTH_BEAM, GroundLine, plinth_beam_along
from calc.jack_on_bases import on_bases
from calc.jack_plan_rows import MemberPlan, MemberState, PlannedJack
from calc.jack_sections import demands_of, job_sections
from calc.jack_supports import PlanCase, Yield, beam_stiffness, carrier_of, yields
from calc.jack_walls import Placed, jack_lines_of, place_wall, wall_states, widest_of
from calc.number import text_of, value_of
from calc.placing_rules import PlacingRules


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Wall:
    """One wall on its way to a plan."""

    line: GroundLine
    rules: PlacingRules
    support: Yield
    section: CarrierSection | None
    stiffness: float
    weight: float
    placed: Placed | None
    why_not: NoLayout | None


def planned_walls(lines: Sequence[GroundLine], case: PlanCase) -> list[tuple[MemberPlan, list[PlannedJack]]]:
    """Every wall with its jacks, in order; a wall without a layout says why and has none.

    Args:
        lines: walls of the ground storey that are lifted
        case: the house
    """
    trial = _trial(case)
    return [_finished(wall, case) for wall in _with_sections([_wall(line, trial, case) for line in lines], case)]


def _trial(case: PlanCase) -> CarrierSection:
    """The carrier beam to begin with: the one nearest to what is priced where no plan is made."""
    wanted = value_of(case.allow.carrier_beam_mass)
    return min(case.basis.sections, key=lambda section: abs(value_of(section.mass) - wanted))


def _rules(line: GroundLine, case: PlanCase) -> PlacingRules:
    allow, job = case.allow, case.survey.job
    widest = value_of(job.widest_spacing)
    difference = value_of(allow.movement_difference)
    if line.weak:
        widest, difference = min(widest, value_of(allow.widest_weak)), difference / 2
    closest = value_of(job.closest_spacing)
    # A wall that ends on this one brings its load by its own end jack, which stands near enough for both.
    return PlacingRules(
        usable=case.usable, rated=max(value_of(job.jack_rating), case.usable), widest=max(widest, closest),
        closest=closest, difference=difference, end_near=value_of(allow.end_near),
        end_far=max(value_of(allow.end_distance), value_of(allow.end_near)), junction_clear=line.clear,
        junction_reach=line.member.length, door_clear=value_of(allow.door_clear),
        jamb_reach=value_of(allow.jamb_reach), door_extra=value_of(allow.door_extra),
        even_within=value_of(allow.even_within), step=value_of(allow.placing_step),
    )  # fmt: skip


def _wall(line: GroundLine, section: CarrierSection, case: PlanCase) -> _Wall:
    rules = _rules(line, case)
    mean = line.even.total / max(line.even.length / rules.widest, 1.0) / jack_lines_of(line.system)
    bearing = value_of(case.survey.job.bearing.value)
    side = math.sqrt(min(mean, case.usable) * value_of(case.allow.uneven) / bearing)
    support = yields(case, side)
    beam = carrier_of(section, case.side_by_side, case.basis, case.allow)
    stiffness, weight = beam_stiffness(beam, case.basis.rules.steel), value_of(beam.weight)
    kept: CarrierSection | None = section
    if line.system == PLINTH_BEAM:
        kept, weight = None, 0.0
        stiffness = _plinth_beam(line, case)
    try:
        if not stiffness:
            raise NoLayout("the survey has jacks under the plinth beam, and no plinth beam along this wall",
                           ("the plinth beam entered on Beams", "another lifting system"))  # fmt: skip
        placed = place_wall(line, rules, stiffness, weight, support, case.allow)
    except NoLayout as why:
        return _Wall(line=line, rules=rules, support=support, section=kept, stiffness=stiffness, weight=weight,
                     placed=None, why_not=why)  # fmt: skip
    return _Wall(line=line, rules=rules, support=support, section=kept, stiffness=stiffness, weight=weight,
                 placed=placed, why_not=None)  # fmt: skip


def _plinth_beam(line: GroundLine, case: PlanCase) -> float:
    """Bending stiffness of the plinth beam along a wall; 0 where none was surveyed [kN m2]."""
    beam = plinth_beam_along(case.survey, case.plan, line.name)
    if beam is None:
        return 0.0
    return value_of(case.allow.plinth_beam_modulus) * value_of(beam.breadth) * value_of(beam.depth) ** 3 / 12


def _with_sections(walls: Sequence[_Wall], case: PlanCase) -> list[_Wall]:
    """Each wall with its carrier beam; a layout that does not hold on it is made anew, or the trial one stays."""
    holds = {wall.line.name: _holding(wall, case) for wall in walls if wall.placed and wall.section}
    lengths = {wall.line.name: case.side_by_side * wall.line.member.length for wall in walls}
    sections = {section.name: section for section in case.basis.sections}
    masses = {name: value_of(section.mass) for name, section in sections.items()}
    chosen = job_sections(holds, lengths, masses, _stored(case))
    found = []
    for wall in walls:
        section = sections.get(chosen.get(wall.line.name, ""))
        if section is None or wall.section is None or section is wall.section:
            found.append(wall)
            continue
        again = _wall(wall.line, section, case)
        found.append(again if again.placed and section.name in _holding(again, case) else wall)
    return found


def _holding(wall: _Wall, case: PlanCase) -> list[str]:
    """Names of the sections that are strong and stiff enough for a layout, in every state."""
    demands = list(demands_of(_states(wall, case), jack_lines_of(wall.line.system),
                              value_of(case.allow.jack_plate), case.basis.rules.steel))  # fmt: skip
    beams = [carrier_of(s, case.side_by_side, case.basis, case.allow) for s in case.basis.sections]
    return [beam.section.name for beam in beams if worst_check(beam, demands, case.basis.rules.steel).holds == 1]


def _states(wall: _Wall, case: PlanCase) -> tuple[MemberState, ...]:
    assert wall.placed
    return wall_states(
        wall.placed, wall.rules, jack_lines_of(wall.line.system),
        int(value_of(case.basis.rules.packing.reseat_interval)), int(value_of(case.allow.transfer_passes)),
    )  # fmt: skip


def _stored(case: PlanCase) -> dict[str, float]:
    found: dict[str, float] = {}
    known = {section.name for section in case.basis.sections}
    for item in case.survey.kit:
        name = text_of(item.name)
        if item.kind == "carrier beam" and name in known and item.length.given and item.number.given:
            found[name] = found.get(name, 0.0) + value_of(item.length.value) * value_of(item.number.value)
    return found


def _finished(wall: _Wall, case: PlanCase) -> tuple[MemberPlan, list[PlannedJack]]:
    line, lines = wall.line, jack_lines_of(wall.line.system)
    load = line.even.total + wall.weight * line.even.length
    section = wall.section.name if wall.section else "plinth beam"
    beams = case.side_by_side if wall.section else 1
    if wall.placed is None:
        assert wall.why_not
        return _unplanned(line, load, section, beams, wall.why_not), []
    placed, layout = wall.placed, wall.placed.layout
    across = [0.0] if lines == 1 else [
        side * (line.thickness / 2 + value_of(case.allow.side_distance)) for side in (1, -1)
    ]  # fmt: skip
    marks = [f"{line.name}.{order}" for order in range(1, lines * len(layout.positions) + 1)]
    jacks = [
        _wall_jack(line, placed, order, marks, side, lines, value_of(case.allow.weight_doubt))
        for order in range(len(layout.positions)) for side in range(lines)
    ]  # fmt: skip
    jacks = [_stood(jack, line, across[order % lines]) for order, jack in enumerate(jacks)]
    plan = placed.plan
    member = MemberPlan(
        name=line.name, kind="wall", system=line.system, chosen=line.chosen, length=line.member.length, load=load,
        lines=lines, jacks=tuple(marks), least=lines * len(plan.least.positions),
        lower_bound=lines * plan.lower_bound, proven=plan.proven, by_load=lines * plan.by_load,
        by_places=lines * plan.by_places, spread=layout.spread, even=plan.even, widest=widest_of(layout.positions),
        section=section, side_by_side=beams, states=_states(wall, case), why_not="",
        helps=(placed.note,) if placed.note else (),
    )  # fmt: skip
    bearing = value_of(case.survey.job.bearing.value)
    return member, on_bases(jacks, member.states, layout.positions, lines, bearing, case.basis, case.allow)


def _unplanned(line: GroundLine, load: float, section: str, beams: int, why: NoLayout) -> MemberPlan:
    return MemberPlan(
        name=line.name, kind="wall", system=line.system, chosen=line.chosen, length=line.member.length, load=load,
        lines=jack_lines_of(line.system), jacks=(), least=0, lower_bound=0, proven=False, by_load=0, by_places=0,
        spread=0.0, even=False, widest=0.0, section=section, side_by_side=beams, states=(), why_not=why.reason,
        helps=why.helps,
    )  # fmt: skip


def _wall_jack(
    line: GroundLine, placed: Placed, order: int, marks: Sequence[str], side: int, lines: int, doubt: float
) -> PlannedJack:
    layout = placed.layout
    return PlannedJack(
        name=marks[order * lines + side], member=line.name, kind="wall", at=layout.positions[order], across=0.0, x=0.0,
        y=0.0, soft=placed.soft[order], stiff=placed.stiff[order], tributary=layout.tributary[order] / doubt,
        one_lost=layout.one_lost[order],
        lost_with=marks[layout.lost_with[order] * lines + side], uneven=layout.uneven[order], use=layout.uses[order],
        governed_by=layout.governed_by[order], base_side=0.0, base_length=0.0, base_thickness=0.0,
        base_pressure=0.0, base="", circuit="", release=0,
    )  # fmt: skip


def _stood(jack: PlannedJack, line: GroundLine, across: float) -> PlannedJack:
    x, y = line.at(jack.at, across)
    return replace(jack, across=across, x=x, y=y)
