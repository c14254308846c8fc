"""Jacks at one column: on either side of its collar or clamp.

Covers   how many, where, what each carries with all at work, one lost, uneven.
Not      the collar or clamp itself, ties between feet, the column's own strength.
Signs    x east, y north; load downward and reactions upward positive.
Units    m, kN, kN/m.
Sources  statics of a stiff collar on springs alike; jacks in pairs on either side: common practice, no source.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from calc.fields import note, quantity
from calc.jack_lines import COLLAR, GroundLine
from calc.jack_on_bases import on_bases
from calc.jack_plan_rows import STATES, MemberPlan, MemberState, PlannedJack
from calc.jack_supports import PlanCase, yields
from calc.number import ceil, text_of, value_of
from calc.outlines import Point
from calc.plan_rows import TOLERANCE
from calc.survey import Column


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AtColumn:
    """Jacks at one column."""

    offsets: tuple[Point, ...] = note("of the jacks from the middle of the column, east and north [m]")
    level: float = quantity("kN", "load of each, weight doubt included")
    one_lost: float = quantity("kN", "greatest with any other one lost, weight doubt included")
    uneven: float = quantity("kN", "greatest with uneven lifting, weight doubt included")


def jacks_at_column(load: float, usable: float) -> int:
    """Jacks at one column: pairs, so that the collar does not turn [No].

    Args:
        load: weight doubt included [kN]
        usable: load of one jack [kN]

    >>> jacks_at_column(60.0, 80.0), jacks_at_column(170.0, 80.0)
    (2, 4)
    """
    return 2 * max(1, int(ceil(load / usable / 2)))


def at_column(
    load: float, count: int, sides: tuple[float, float], distance: float, apart: float, along_x: bool,
    difference: float, compliance: float,
) -> AtColumn:  # fmt: skip
    """The jacks at one column.

    With two jacks the forces follow from balance, whatever the level. With more, a stiff collar on springs alike takes
    up what a rigid movement can of their levels, and the rest bends the springs: for levels anywhere within half a
    difference up or down each jack takes the sign that is worst for it. With one of two lost the other is taken to
    carry all, whatever the packing beside the lost one holds. With more, a lost one doubles what is on others at most.

    Args:
        load: of the column, weight doubt included [kN]
        count: jacks, even [No]
        sides: of the column along x and y [m]
        distance: of the jacks from its face [m]
        apart: of jacks on the same side [m]
        along_x: whether a single pair stands east and west of it
        difference: greatest level difference [m]
        compliance: of the stiffest support [m/kN]

    >>> at_column(120.0, 2, (0.3, 0.4), 0.25, 0.5, True, 0.002, 1e-4).offsets
    ((-0.4, 0.0), (0.4, 0.0))
    """
    far = [(-(sides[0] / 2 + distance), 0.0), (sides[0] / 2 + distance, 0.0)]
    side = [(0.0, -(sides[1] / 2 + distance)), (0.0, sides[1] / 2 + distance)]
    if count == 2:
        offsets = far if along_x else side
    elif count == 4:
        offsets = [*far, *side]
    else:
        offsets = [*_row(far[0][0], count // 2, apart), *_row(far[1][0], count // 2, apart)]
    level = load / count
    return AtColumn(
        offsets=tuple(offsets), level=level, one_lost=load if count == 2 else 2 * level,
        uneven=level + difference / 2 / compliance * _restraint(offsets),
    )  # fmt: skip


def _restraint(offsets: Sequence[Point]) -> float:
    """Greatest change of the force of any jack, over stiffness times the greatest movement of any base [-].

    What is left of movements u when the rigid movement nearest to them is taken off is (1 - P) u.

    >>> four = [(-0.4, 0.0), (0.4, 0.0), (0.0, -0.4), (0.0, 0.4)]
    >>> round(_restraint(four[:2]), 9), round(_restraint(four), 9)
    (0.0, 1.0)
    """
    rigid = np.array([(1.0, x, y) for x, y in offsets])
    left = np.eye(len(offsets)) - rigid @ np.linalg.pinv(rigid)
    return float(np.abs(left).sum(axis=1).max())


def _row(x: float, count: int, apart: float) -> Sequence[Point]:
    return [(x, (order - (count - 1) / 2) * apart) for order in range(count)]


def planned_column(
    column: Column, load: float, lines: Sequence[GroundLine], case: PlanCase
) -> tuple[MemberPlan, list[PlannedJack]]:
    """One column with its jacks.

    Args:
        column: as surveyed, on floats
        load: in the lift [kN]
        lines: walls that are lifted, whose own jacks are in the way
        case: the house
    """
    name, allow, job = text_of(column.name), case.allow, case.survey.job
    doubt, bearing = value_of(allow.weight_doubt), value_of(job.bearing.value)
    count = jacks_at_column(doubt * load, case.usable)
    support = yields(case, math.sqrt(load / count * value_of(allow.uneven) / bearing))
    _, (x, y) = case.plan.columns[name]
    found = at_column(
        doubt * load, count, (value_of(column.breadth), value_of(column.depth)), value_of(allow.side_distance),
        value_of(job.closest_spacing), not any(_runs_east(line, (x, y)) for line in lines),
        value_of(allow.movement_difference), support.stiff,
    )  # fmt: skip
    marks = tuple(f"{name}.{order}" for order in range(1, count + 1))
    rated = max(value_of(job.jack_rating), case.usable)
    uses = {"level": found.level / case.usable, "one lost": found.one_lost / rated, "uneven": found.uneven / rated}
    governed = max(uses, key=lambda state: uses[state])
    jacks = [
        PlannedJack(
            name=mark, member=name, kind="column", at=0.0, across=0.0, x=x + east, y=y + north, soft=load / count,
            stiff=load / count, tributary=load / count, one_lost=found.one_lost, lost_with=marks[order - 1],
            uneven=found.uneven, use=uses[governed], governed_by=governed, base_side=0.0, base_length=0.0,
            base_thickness=0.0, base_pressure=0.0, base="", circuit="", release=0,
        )
        for order, (mark, (east, north)) in enumerate(zip(marks, found.offsets, strict=True))
    ]  # fmt: skip
    # A jack that is released stands for one that is lost.
    worst = (found.level, found.one_lost, found.uneven, found.one_lost, found.one_lost)
    states = tuple(
        MemberState(state=state, jack=jack, moment=0.0, shear=0.0, deflection_load=0.0, span=0.0)
        for state, jack in zip(STATES, worst, strict=True)
    )
    member = MemberPlan(
        name=name, kind="column", system=COLLAR, chosen=text_of(column.system) == COLLAR, length=0.0, load=load,
        lines=1, jacks=marks, least=count, lower_bound=count, proven=True,
        by_load=math.ceil(doubt * load / case.usable - 1e-9), by_places=2, spread=0.0, even=True, widest=0.0,
        section="collar or clamp", side_by_side=1, states=states, why_not="",
        helps=("two jacks: with one lost its packing takes over",) if count == 2 else (),
    )  # fmt: skip
    return member, on_bases(jacks, states, [0.0] * count, count, bearing, case.basis, allow)


def _runs_east(line: GroundLine, place: Point) -> bool:
    """Whether a wall runs east or west through the column: its own jacks stand there."""
    member = line.member
    return (
        abs(member.start[1] - member.end[1]) <= TOLERANCE and member.off(place) <= TOLERANCE
        and -TOLERANCE <= member.along(place) <= member.length + TOLERANCE
    )  # fmt: skip
