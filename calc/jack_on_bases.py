"""The bases under the jacks of one wall or column.

Covers   one size of base for a member, neighbours that run into each other on a strip; what all bases of a wall have
         in common for the ground under them.
Not      a strength of concrete (jack_bases), what bases stand on or near (base_places).
Signs    load and pressure positive downward.
Units    m, kN, kN/m2.
Sources  as in jack_bases and base_strips.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from calc.allowances import Allowances
from calc.base_strips import LaidBase, laid_bases
from calc.fields import quantity
from calc.jack_bases import plain_base
from calc.jack_plan_rows import MemberPlan, MemberState, PlannedJack
from calc.jack_supports import PlanBasis
from calc.number import value_of


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BasesOfPlan:
    """Bases of one wall as the plan lays them, on floats; noughts where it has no layout."""

    at_work: float = quantity("kN", "greatest on one, all at work, weight doubt included")
    worst: float = quantity("kN", "greatest on one, any state")
    off: float = quantity("m", "furthest centre off the centre line of the wall")
    apart: float = quantity("m", "least spacing on one jack line; length of the wall where a line has one jack")
    narrowest: float = quantity("m", "least width across the wall, strips included")
    widest: float = quantity("m", "greatest width across the wall, strips included")


NO_LAYOUT = BasesOfPlan(at_work=0.0, worst=0.0, off=0.0, apart=0.0, narrowest=0.0, widest=0.0)
"""A wall whose jacks are not placed: its count stands for it."""


def on_bases(
    jacks: Sequence[PlannedJack], states: Sequence[MemberState], positions: Sequence[float], lines: int,
    bearing: float, basis: PlanBasis, allow: Allowances,
) -> list[PlannedJack]:  # fmt: skip
    """Jacks of one member with their bases; along a wall neighbours that overlap stand on a strip.

    Args:
        jacks: of one wall in order, side by side jacks next to each other, or of one column
        states: of that wall or column
        positions: along the wall [m]
        lines: jack lines
        bearing: safe bearing pressure [kN/m2]
        basis: tables and rules
        allow: the allowances
    """
    base = plain_base(base_load(jacks, states, allow), 1.0, bearing, value_of(allow.jack_plate),
                      value_of(basis.rules.steel.load_factor), basis.rules.bases, allow)  # fmt: skip
    side, thickness = round(value_of(base.side), 9), round(value_of(base.thickness), 9)
    spacings = [there - here for here, there in pairwise(positions)]
    if jacks[0].kind == "column" or not spacings:
        return [
            replace(jack, base_side=side, base_length=side, base_thickness=thickness, base="own base",
                    base_pressure=max(jack.soft, jack.stiff) / side**2)
            for jack in jacks
        ]  # fmt: skip
    found = list(jacks)
    for row in range(lines):
        its = list(range(row, len(jacks), lines))
        for laid in _strips([jacks[k] for k in its], side, spacings, bearing, allow):
            for order in range(laid.first, laid.last + 1):
                found[its[order]] = replace(
                    jacks[its[order]], base_side=round(laid.width, 9), base_length=round(laid.length, 9),
                    base_thickness=thickness, base_pressure=laid.pressure,
                    base=_shared(laid, [jacks[k].name for k in its]),
                )  # fmt: skip
    return found


def _strips(
    jacks: Sequence[PlannedJack], side: float, spacings: Sequence[float], bearing: float, allow: Allowances
) -> list[LaidBase]:
    """Bases of one jack line, wide enough for all jacks at work, uneven, and for each with another lost."""
    level = [max(jack.soft, jack.stiff) for jack in jacks]
    passing = value_of(allow.soil_temporary)
    asked = [[load * value_of(allow.uneven) for load in level]]
    asked += [
        [(jack.one_lost if other is jack else load) / passing for other, load in zip(jacks, level, strict=True)]
        for jack in jacks
    ]
    sides, clear, step = [side] * len(jacks), value_of(allow.base_clear), value_of(allow.base_step)
    cases = [laid_bases(sides, spacings, loads, bearing, clear, step) for loads in asked]
    at_work = laid_bases(sides, spacings, level, bearing, clear, step)
    found = []
    for order, laid in enumerate(at_work):
        # The plate of a jack wants concrete on both its sides, however wide the ground asks the strip to be.
        width = max(value_of(allow.jack_plate) + 2 * step, *(case[order].width for case in cases))
        width = side if laid.first == laid.last else width
        found.append(replace(laid, width=width, pressure=laid.pressure * laid.width / width))
    return found


def base_load(jacks: Sequence[PlannedJack], states: Sequence[MemberState], allow: Allowances) -> float:
    """Load the bases of a member are made for: uneven with all at work, and what a state that passes asks of them [kN].

    Args:
        jacks: of the member
        states: of the member
        allow: the allowances
    """
    level = max(max(jack.soft, jack.stiff) for jack in jacks) * value_of(allow.uneven)
    return max(level, max(state.jack for state in states) / value_of(allow.soil_temporary))


def bases_of_plan(member: MemberPlan, jacks: Sequence[PlannedJack]) -> BasesOfPlan:
    """What the plan says of the bases of one wall; noughts where it has no layout.

    Args:
        member: the wall
        jacks: its jacks
    """
    if not (member.states and jacks):
        return NO_LAYOUT
    places = sorted({round(jack.at, 9) for jack in jacks})
    # Jacks side by side stand at one place along the wall, so places of either line are places of both.
    gaps = [there - here for here, there in pairwise(places)]
    return BasesOfPlan(
        at_work=max(state.jack for state in member.states if state.state == "all at work"),
        worst=max(state.jack for state in member.states), off=max(abs(jack.across) for jack in jacks),
        # A single jack has no neighbour; the footing spreads it as far as it reaches.
        apart=min(gaps, default=member.length), narrowest=min(jack.base_side for jack in jacks),
        widest=max(jack.base_side for jack in jacks),
    )  # fmt: skip


def _shared(laid: LaidBase, names: Sequence[str]) -> str:
    if laid.first == laid.last:
        return "own base"
    return f"strip under {names[laid.first]} to {names[laid.last]}"
