"""The jack plan of the whole house, worked out on floats: members one by one, then what they share.

Covers   walls placed with their carrier beams, columns, marks, bases and strips, circuits, passes of a re-seating,
         jacks of different members that come too near.
Not      any formula a sheet could keep live: demands and layouts come out, checks are made from them (plan_checks).
Signs    as in jack_plan_rows.
Units    m, kN, kN/m2.
Sources  as in the modules it calls.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import combinations

from calc.allowances import Allowances
from calc.base_overlaps import merged_bases
from calc.jack_columns import planned_column
from calc.jack_lines import ground_lines
from calc.jack_plan_rows import JackPlan, PlannedJack
from calc.jack_plan_walls import planned_walls
from calc.jack_steering import jack_type_in_use, steered
from calc.jack_supports import PlanBasis, PlanCase
from calc.jack_walls import FEW, HELD
from calc.member_rules import PackingRules
from calc.number import text_of, value_of
from calc.own_rows import OwnLoads
from calc.plan_rows import TOLERANCE, Plan
from calc.reseating import release_passes
from calc.sharing import Sharing
from calc.survey import Survey
from calc.take_down_rows import BaseRow


def plan_jacks(
    survey: Survey, plan: Plan, sharing: Sharing, own: OwnLoads, bases: Sequence[BaseRow],
    rise: float, basis: PlanBasis, allow: Allowances,
) -> JackPlan:  # fmt: skip
    """The jack plan of a house.

    Args:
        survey: the entries as floats
        plan: who carries whom
        sharing: load along each member
        own: own loads as floats
        bases: ground walls and columns at the cut level
        rise: of the house [m]
        basis: tables and rules
        allow: the allowances
    """
    job = survey.job
    case = PlanCase(survey=survey, plan=plan, basis=basis, allow=allow, rise=max(rise, 0.0),
                    usable=value_of(job.jack_rating) * value_of(job.share),
                    side_by_side=int(value_of(allow.carrier_beams_side_by_side)))  # fmt: skip
    lines = ground_lines(survey, plan, sharing, own, bases, allow)
    planned = planned_walls(lines, case)
    loads = {text_of(base.name): value_of(base.lifted) for base in bases if base.kind == "column"}
    planned += [
        planned_column(column, loads[text_of(column.name)], lines, case)
        for column in survey.columns if loads.get(text_of(column.name), 0.0) > 0
    ]  # fmt: skip
    closest = value_of(job.closest_spacing)
    jacks = _released([jack for _, its in planned for jack in its], closest, basis.rules.packing)
    directions = {line.name: line.direction for line in lines}
    kind = jack_type_in_use(survey.kit, value_of(job.jack_rating), basis.jack_types)
    steering, why = steered(jacks, kind, allow)
    if steering:
        on = {name: circuit.name for circuit in steering.circuits for name in circuit.jacks}
        jacks = [replace(jack, circuit=on.get(jack.name, "")) for jack in jacks]
    hanging = tuple(
        (member.name, max(max(jack.soft, jack.stiff) for jack in its))
        for member, its in planned if not {HELD, FEW}.isdisjoint(member.helps)
    )  # fmt: skip
    return JackPlan(
        members=tuple(member for member, _ in planned), jacks=tuple(jacks), kind=kind.name if kind else "",
        steering=steering, steering_why=why, close=tuple(_close(jacks, closest)),
        hanging=hanging, merged=merged_bases(jacks, directions, value_of(allow.uneven)),
    )  # fmt: skip


def _released(jacks: Sequence[PlannedJack], closest: float, rules: PackingRules) -> list[PlannedJack]:
    """The pass of a re-seating in which each jack is released: none beside another, round corners too."""
    lines: dict[tuple[str, float], list[str]] = {}
    for jack in jacks:
        # Jacks on both sides of a wall are two lines; those of a column are one.
        lines.setdefault((jack.member, jack.across if jack.kind == "wall" else 0.0), []).append(jack.name)
    line_of = {name: line for line, names in lines.items() for name in names}
    corners = [
        (a.name, b.name) for a, b in combinations(jacks, 2) if line_of[a.name] != line_of[b.name]
        and (math.dist((a.x, a.y), (b.x, b.y)) <= 2 * closest or (a.member == b.member and a.at == b.at))
    ]  # fmt: skip
    passes = release_passes(list(lines.values()), corners, int(value_of(rules.reseat_interval)))
    return [replace(jack, release=passes[jack.name]) for jack in jacks]


def _close(jacks: Sequence[PlannedJack], closest: float) -> Iterable[tuple[str, str, float]]:
    for one, other in combinations(jacks, 2):
        apart = math.dist((one.x, one.y), (other.x, other.y))
        if one.member != other.member and apart < closest - TOLERANCE:
            yield one.name, other.name, apart
