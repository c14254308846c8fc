"""How the jacks of a house are steered: on circuits of one pressure each, or one by one.

Covers   the type of jack in use, which jacks are too lightly loaded for a common pressure, circuits of the others.
Not      the search for circuits (circuits, circuit_search, circuit_bands).
Signs    as in circuits.
Units    m, kN, m2.
Sources  common practice, no source: few circuits where loads are even, more where they are not.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from calc.allowances import Allowances
from calc.circuit_search import PlacedJack
from calc.circuits import Steering, SteeringRules, banded_circuits
from calc.errors import CalcError
from calc.jack_plan_rows import PlannedJack
from calc.jack_supports import piston_area
from calc.jack_types import JackType
from calc.number import value_of
from calc.survey import KitItem

BANDS = (1, 2, 3)
"""Load bands tried in each of three zones: the first whose jacks carry nearly what they draw, else the nearest."""

TYPES = {
    "screw jack": "screw",
    "plain hydraulic jack": "plain hydraulic",
    "jack with lock nut": "hydraulic with lock nut",
    "jack set on one pump": "unified set on one pump",
}
"""Kinds of jack in the kit, and their type."""


def jack_type_in_use(kit: Sequence[KitItem], rating: float, types: Sequence[JackType]) -> JackType | None:
    """The type of jack of which most are there, of those that reach the rating; none where there is no such jack.

    Args:
        kit: things owned or hired
        rating: of the jacks of the job [kN]
        types: of jacks
    """
    numbers = {
        kind: sum(value_of(item.number.value) for item in kit
                  if item.kind == kind and item.rating.given and value_of(item.rating.value) >= rating - 1e-9)
        for kind in TYPES
    }  # fmt: skip
    most = max(numbers, key=lambda kind: numbers[kind])
    return next((kind for kind in types if kind.name == TYPES[most]), None) if numbers[most] > 0 else None


def steered(jacks: Sequence[PlannedJack], kind: JackType | None, allow: Allowances) -> tuple[Steering | None, str]:
    """The circuits of a plan, or why each jack is steered by itself.

    A jack that draws much less than the mean would be lifted off by a pressure that suits the others: it keeps a valve
    of its own.

    Args:
        jacks: of the plan
        kind: type of the jacks in use; none where it is not known
        allow: the allowances
    """
    if kind is None:
        return None, "no jacks of that rating in the kit, so their type is not known: each is steered by itself"
    if not kind.circuits:
        return None, f"jacks of the type {kind.name} work on no common pressure: each is steered by itself"
    if not jacks:
        return None, "no jacks are placed"
    mean = sum(jack.tributary for jack in jacks) / len(jacks)
    area = piston_area(allow)
    together = [PlacedJack(name=jack.name, x=jack.x, y=jack.y, load=jack.tributary, piston=area)
                for jack in jacks if jack.tributary >= value_of(allow.circuit_light) * mean]  # fmt: skip
    rules = SteeringRules(least_share=value_of(allow.circuit_least), edge_distance=value_of(allow.circuit_edge))
    best: Steering | None = None
    why = ""
    for bands in BANDS:
        try:
            found = banded_circuits(together, bands, rules)
        except CalcError as error:
            why = why or f"no grouping keeps the rules: {error}"
            break
        if best is None or deviation(found) < deviation(best):
            best = found
        if deviation(best) <= value_of(allow.even_within):
            break
    return (_with_lines(best, jacks), "") if best else (None, why)


def _with_lines(steering: Steering, jacks: Sequence[PlannedJack]) -> Steering:
    """The house stands without a circuit only where no jack line loses more than one jack and none is left bare.

    Balance of the house as one body says nothing of a wall that hangs in the air: the states of a member know one lost
    jack, no more. Elsewhere packing or lock nuts take the load of the circuit over at once.
    """
    line_of = {jack.name: (jack.member, jack.across if jack.kind == "wall" else 0.0) for jack in jacks}
    number = Counter(line_of.values())
    lost = []
    for circuit, without in zip(steering.circuits, steering.lost, strict=True):
        gone = Counter(line_of[name] for name in circuit.jacks)
        bare = tuple(
            dict.fromkeys(
                member
                for member, across in gone
                if gone[member, across] > 1 or gone[member, across] == number[member, across]
            )
        )
        if bare and without.stands:
            without = replace(without, stands=False, to_packing=circuit.force,
                              on_one_jack=circuit.force / len(circuit.jacks))  # fmt: skip
        lost.append(replace(without, bare=bare))
    return replace(steering, lost=tuple(lost))


def deviation(steering: Steering) -> float:
    """Greatest difference of the force of a jack from what it draws, over that [-].

    Args:
        steering: circuits of a house
    """
    return max(circuit.deviation for circuit in steering.circuits)
