"""The jack plan of a house: where every jack stands, what it carries, and how each wall came to its jacks.

Covers   the records a plan is made of: jacks, members with their carrier beams, states, circuits.
Not      how they are found (jack_plan, jack_plan_walls), strokes and stability (lifting).
Signs    x east, y north; along a wall from its From point, across it to the left positive; loads downward and
         reactions upward both positive.
Units    m, kN, kN m, kN/m2.
Sources  none of its own.

A plan is worked out on floats. A jack is named after what it lifts and counted from the From point, so that its name
does not change when something elsewhere does.
"""

from dataclasses import dataclass

from calc.circuits import Steering
from calc.fields import note, quantity

STATES = ("all at work", "one lost", "uneven", "re-seating", "transfer back")
"""States of a member on its jacks, in the order in which they are shown."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlannedJack:
    """One jack of the plan."""

    name: str = note("mark: what it lifts, and its order from the From point")
    member: str = note("wall or column it lifts")
    kind: str = note("wall or column")
    at: float = quantity("m", "along the wall from its From point; 0 at a column")
    across: float = quantity("m", "off the centre line, to the left of the wall's direction; 0 under the wall")
    x: float = quantity("m", "east")
    y: float = quantity("m", "north")
    soft: float = quantity("kN", "predicted reaction, all level, on soft supports")
    stiff: float = quantity("kN", "predicted reaction, all level, on stiff supports")
    tributary: float = quantity("kN", "load it draws by the lever rule")
    one_lost: float = quantity("kN", "greatest with any other jack lost, weight doubt included")
    lost_with: str = note("the jack that is lost then")
    uneven: float = quantity("kN", "greatest with uneven lifting, weight doubt included")
    use: float = quantity("-", "of its usable or rated load, in the case that governs")
    governed_by: str = note("level, one lost or uneven")
    base_side: float = quantity("m", "side of its base, across the wall where it is a strip")
    base_length: float = quantity("m", "along the wall: the strip's, else its side")
    base_thickness: float = quantity("m", "thickness of its base")
    base_pressure: float = quantity("kN/m2", "greatest under its base, all at work")
    base: str = note("own base, or the jacks it shares a strip with")
    circuit: str = note("circuit it is on; none where jacks are steered one by one")
    release: int = note("pass of a re-seating in which it is released, from 1")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MemberState:
    """One wall or column in one state; weight doubt included."""

    state: str = note("all at work, one lost, uneven, re-seating or transfer back")
    jack: float = quantity("kN", "greatest load of a jack")
    moment: float = quantity("kN m", "greatest in the carrier beams, either way, all beams together")
    shear: float = quantity("kN", "greatest in the carrier beams, all beams together")
    deflection_load: float = quantity("kN m3", "deflection between jacks times stiffness, all beams together")
    span: float = quantity("m", "greatest distance of jacks at work")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MemberPlan:
    """Jacks and carrier beam of one wall or column."""

    name: str = note("mark")
    kind: str = note("wall or column")
    system: str = note("lifting system the plan is made for")
    chosen: bool = note("whether the survey chose that system")
    length: float = quantity("m", "length of a wall")
    load: float = quantity("kN", "in the lift, own weight of the carrier beam included")
    lines: int = note("jack lines: 1 under the wall, 2 beside it")
    jacks: tuple[str, ...] = note("marks of its jacks")
    least: int = note("least number found; for information")
    lower_bound: int = note("no layout with fewer exists")
    proven: bool = note("whether the least number is the lower bound")
    by_load: int = note("jacks by load alone")
    by_places: int = note("jacks by the rules of placing alone")
    spread: float = quantity("-", "greatest distance of a tributary load from the mean, over the mean")
    even: bool = note("whether tributary loads are as even as wanted")
    widest: float = quantity("m", "widest spacing in the plan")
    section: str = note("carrier beam")
    side_by_side: int = note("beams side by side, or on both sides of the wall")
    states: tuple[MemberState, ...] = note("one a state; none where there is no plan")
    why_not: str = note("why there is no plan; empty where there is one")
    helps: tuple[str, ...] = note("what would leave a layout, where there is no plan")


@dataclass(frozen=True, slots=True, kw_only=True)
class MergedBase:
    """Bases that run into one another, poured as one."""

    jacks: tuple[str, ...] = note("marks of the jacks on it")
    overlap: float = quantity("m2", "that two of its bases both claim")
    area: float = quantity("m2", "of all of it, at least")
    level: float = quantity("kN", "on it, all at work")
    pressure: float = quantity("kN/m2", "mean under it, all at work and uneven")
    passing: float = quantity("kN/m2", "mean under it with the worst jack lost")

    @property
    def label(self) -> str:
        """Marks of its jacks."""
        return ", ".join(self.jacks)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class JackPlan:
    """The plan of the whole house."""

    members: tuple[MemberPlan, ...]
    jacks: tuple[PlannedJack, ...]
    kind: str = note("type of jack in use; empty where the kit does not tell")
    steering: Steering | None = note("circuits; none where jacks are steered one by one or no grouping keeps the rules")
    steering_why: str = note("why there are no circuits; empty where there are")
    close: tuple[tuple[str, str, float], ...] = note("jacks of different members nearer than the closest spacing [m]")
    merged: tuple[MergedBase, ...] = ()
    """Bases of different jack lines that run into one another."""
    hanging: tuple[tuple[str, float], ...] = ()
    """Walls that hang on a wall they meet when a jack is lost, and the most a jack of theirs carries [kN]."""

    def jacks_of(self, member: str) -> tuple[PlannedJack, ...]:
        """The jacks of one wall or column, in order."""
        return tuple(jack for jack in self.jacks if jack.member == member)
