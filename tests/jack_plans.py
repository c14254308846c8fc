"""Jack plans made by hand for the tests of drawings: two rooms on twelve jacks, and a row of jacks under any wall.

Covers   records of a plan with every field filled; no search and no solver.
Units    m, kN.
"""

from dataclasses import replace
from typing import Any

from calc.circuits import Circuit, Steering
from calc.jack_plan_rows import JackPlan, MemberPlan, PlannedJack
from calc.plan_view import PlanView, plan_view
from calc.survey import Survey
from tests.houses import house, opening, wall, worked


def jack(name: str, member: str, at: float, x: float, y: float, **changes: Any) -> PlannedJack:
    usual: dict[str, Any] = {
        "kind": "wall", "across": 0.0, "soft": 31.4, "stiff": 36.8, "tributary": 33.0, "one_lost": 61.0,
        "lost_with": "", "uneven": 44.0, "use": 0.46, "governed_by": "level", "base_side": 0.6,
        "base_length": 0.6, "base_thickness": 0.25, "base_pressure": 96.0, "base": "own base", "circuit": "C1",
        "release": 1,
    }  # fmt: skip
    return PlannedJack(name=name, member=member, at=at, x=x, y=y, **{**usual, **changes})


def member(name: str, jacks: tuple[str, ...], **changes: Any) -> MemberPlan:
    usual: dict[str, Any] = {
        "kind": "wall", "system": "beam through wall", "chosen": True, "length": 4.0, "load": 120.0, "lines": 1,
        "least": 2, "lower_bound": 2, "proven": True, "by_load": 2, "by_places": 2, "spread": 0.08, "even": True,
        "widest": 1.2, "section": "SECTION 150", "side_by_side": 2, "states": (), "why_not": "", "helps": (),
    }  # fmt: skip
    return MemberPlan(name=name, jacks=jacks, **{**usual, **changes})


def steering(jacks: list[PlannedJack]) -> Steering:
    names = list(dict.fromkeys(found.circuit for found in jacks))
    circuits = tuple(
        Circuit(name=name, jacks=tuple(j.name for j in jacks if j.circuit == name), x=0.0, y=0.0, tributary=132.0,
                force=130.0 + order, share=0.33, pressure=9000.0, deviation=0.1)
        for order, name in enumerate(names)
    )  # fmt: skip
    return Steering(circuits=circuits, lost=(), load=396.0, x=3.4, y=2.1, spread=2.0, least_share=0.3, margin=0.8,
                    residual=0.0, residual_moment=0.0)  # fmt: skip


def two_rooms(times: float = 1.0) -> tuple[Survey, PlanView, JackPlan]:
    """Two rooms side by side, 7.0 m by 4.2 m, a door and two windows, twelve jacks on three circuits, one strip.

    `times` stretches the house and the places of its jacks, not its openings and bases.
    """
    survey = house(
        {"A": 0, "B": 4 * times, "C": 7 * times}, {"1": 0, "2": 4.2 * times},
        walls=[wall("W1", "A1", "C1"), wall("W2", "C1", "C2"), wall("W3", "C2", "A2"), wall("W4", "A1", "A2"),
               wall("W5", "B1", "B2", thickness=0.115)],
        openings=[opening("W1", "door", 1.2, 0.9, 2.1), opening("W1", "window", 5.0, 1.2, 1.2),
                  opening("W3", "window", 1.0, 1.5, 1.2)],
    )  # fmt: skip
    found = worked(survey)
    places = (
        ("W1-1", 0.35, 0.35, 0.0, "C1"), ("W1-2", 2.6, 2.6, 0.0, "C1"), ("W1-3", 3.7, 3.7, 0.0, "C1"),
        ("W1-4", 6.65, 6.65, 0.0, "C2"), ("W2-1", 1.3, 7.0, 1.3, "C2"), ("W2-2", 2.9, 7.0, 2.9, "C2"),
        ("W3-1", 0.3, 6.7, 4.2, "C2"), ("W3-2", 3.0, 4.0, 4.2, "C3"), ("W3-3", 3.7, 3.3, 4.2, "C3"),
        ("W3-4", 6.65, 0.35, 4.2, "C3"), ("W4-1", 2.1, 0.0, 2.1, "C1"), ("W5-1", 2.05, 4.0, 2.05, "C3"),
    )  # fmt: skip
    other: dict[str, dict[str, Any]] = {
        "W3-1": {"base_side": 0.75, "base_length": 0.75},
        "W3-2": {"base_side": 0.9, "base_length": 1.6, "base": "strip with W3-3"},
        "W3-3": {"base_side": 0.9, "base_length": 1.6, "base": "strip with W3-2"},
    }  # fmt: skip
    jacks = [jack(name, name.partition("-")[0], at * times, x * times, y * times, circuit=circuit,
                  **other.get(name, {})) for name, at, x, y, circuit in places]  # fmt: skip
    members = tuple(member(name, tuple(j.name for j in jacks if j.member == name))
                    for name in ("W1", "W2", "W3", "W4", "W5"))  # fmt: skip
    plan = JackPlan(
        members=members, jacks=tuple(jacks), steering=steering(jacks), steering_why="", close=(), kind="plain hydraulic"
    )
    return survey, plan_view(survey, found.own, found.taken.house), plan


def jacks_along(survey: Survey, view: PlanView, spacing: float) -> JackPlan:
    """Jacks at about equal distances under every wall, two beside every column, on four circuits by quarters."""
    jacks: list[PlannedJack] = []
    lines = {str(piece.name): piece for piece in view.pieces}
    for name, line in lines.items():
        count = max(2, round(float(line.length) / spacing))
        for order in range(count):
            at = 0.3 + (float(line.length) - 0.6) * order / (count - 1)
            x, y = (float(start) + float(run) * at / float(line.length)
                    for start, run in ((line.x_wall, line.dx), (line.y_wall, line.dy)))  # fmt: skip
            jacks.append(jack(f"{name}-{order + 1}", name, at, x, y, soft=30.0 + order, stiff=37.25 + order))
    offsets = {str(line.name): float(line.offset) for line in (*survey.letters, *survey.numbers)}
    for column in survey.columns:
        if column.storey == 1:
            x, y = offsets[column.point.letter], offsets[column.point.number]
            jacks += [jack(f"{column.name}-{order}", str(column.name), 0.0, x + run, y, kind="column")
                      for order, run in ((1, -0.45), (2, 0.45))]  # fmt: skip
    middle = float(view.frame.x), float(view.frame.y)
    jacks = [_on_circuit(j, 1 + (j.x > middle[0]) + 2 * (j.y > middle[1])) for j in jacks]
    names = list(dict.fromkeys(j.member for j in jacks))
    members = tuple(member(name, tuple(j.name for j in jacks if j.member == name),
                           kind="wall" if name in lines else "column") for name in names)  # fmt: skip
    return JackPlan(
        members=members, jacks=tuple(jacks), steering=steering(jacks), steering_why="", close=(), kind="plain hydraulic"
    )


def _on_circuit(one: PlannedJack, number: int) -> PlannedJack:
    return replace(one, circuit=f"C{number}")
