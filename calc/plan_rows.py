"""The rows of the plan: who meets, carries and stands on whom.

Covers   one record for each meeting, member, slab piece, bearing and support; floats and names only.
Not      how they are found (plan, plan_slabs, plan_bearings).
Signs    x along letters, y along numbers; distances along a member from its From point.
Units    m.
Sources  conventions of this project.
"""

import math
from dataclasses import dataclass

from calc.number import Name
from calc.outlines import Point
from calc.survey import GridPoint

TOLERANCE = 0.005
"""Two places nearer than this are one [m]: a survey is taped to 5 mm at best."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """One end or middle of a wall that runs into another: the wall loses `halves` half thicknesses of the other."""

    wall: Name
    other: Name
    kind: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """A straight member on the plan: a wall or a beam."""

    name: str
    kind: str
    storey: int
    start: Point
    end: Point
    half: float
    from_point: GridPoint
    to_point: GridPoint

    @property
    def length(self) -> float:
        """Length [m]."""
        return math.dist(self.start, self.end)

    def along(self, point: Point) -> float:
        """Distance of the foot of `point` from the start [m]."""
        (x1, y1), (x2, y2) = self.start, self.end
        return ((point[0] - x1) * (x2 - x1) + (point[1] - y1) * (y2 - y1)) / self.length

    def off(self, point: Point) -> float:
        """Distance of `point` from the centre line, either side [m]."""
        return abs(self._left(point))

    def at(self, distance: float) -> Point:
        """The point at a distance from the start."""
        share = distance / self.length
        return (
            self.start[0] + (self.end[0] - self.start[0]) * share,
            self.start[1] + (self.end[1] - self.start[1]) * share,
        )

    def parallel(self, start: Point, end: Point) -> bool:
        """Whether the line from `start` to `end` runs the same way or the opposite."""
        ux, uy = self.end[0] - self.start[0], self.end[1] - self.start[1]
        vx, vy = end[0] - start[0], end[1] - start[1]
        return abs(ux * vy - uy * vx) <= TOLERANCE * math.hypot(ux, uy)

    def crossing(self, other: "Member") -> float | None:
        """Where another member that is not parallel meets this one [m from the start], or None.

        Its end may stop at this one's face instead of its centre line.
        """
        if self.parallel(other.start, other.end):
            return None
        x1, y1 = self.along(other.start), self._left(other.start)
        x2, y2 = self.along(other.end), self._left(other.end)
        reach = self.half + TOLERANCE
        if min(y1, y2) > reach or max(y1, y2) < -reach:
            return None
        share = min(max(y1 / (y1 - y2), 0.0), 1.0)
        place = x1 + share * (x2 - x1)
        return place if -other.half - TOLERANCE <= place <= self.length + other.half + TOLERANCE else None

    def _left(self, point: Point) -> float:
        """Distance of `point` from the centre line, positive to the left of its direction [m]."""
        (x1, y1), (x2, y2) = self.start, self.end
        return ((x2 - x1) * (point[1] - y1) - (y2 - y1) * (point[0] - x1)) / self.length


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One stretch of one side of a slab, with one carrier or none."""

    panel: Name
    edge: int
    start: GridPoint
    end: GridPoint
    carrier: Name
    carrier_kind: str
    """wall, beam, or empty for a free side."""
    on_line: bool
    """Whether the side lies on the carrier's centre line."""
    outside: bool
    """Whether no other slab lies on the far side, so that the slab reaches to the outer face."""
    corners: int
    """Outer corners at its ends, inner corners counting -1."""
    wall: Name
    """The wall along it, which a beam over it may relieve of the slab; empty where there is none."""
    wall_on_line: bool
    """Whether the side lies on that wall's centre line."""
    turn: int = 0
    """1 where the outline turns outward at its end, -1 where it turns inward, 0 where the side goes on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """One slab, roof or suspended floor."""

    name: Name
    room: Name
    kind: str
    """slab, pitched roof, floor (a suspended ground floor) or none (open to the sky)."""
    storey: int
    points: tuple[GridPoint, ...]
    outline: tuple[Point, ...]
    span: str
    pieces: tuple[Piece, ...]
    closed: str
    """two way or one way where a closed formula shares it, else empty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """A stretch of an upper member that stands on a lower one: distances along the upper one [m]."""

    upper: Name
    lower: Name
    lower_kind: str
    """wall, beam, column or slab."""
    start: float
    end: float
    full: bool
    """Whether all of the upper member stands here."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rest:
    """A beam's support: a column, wall or beam at a distance along it [m]; or a wall under its whole length."""

    beam: Name
    support: Name
    support_kind: str
    at: float
    whole: bool
    point: GridPoint | None = None
    """The grid point of the support, where it is one: then its place stays live."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Something the plan cannot make sense of, for the reader to locate."""

    code: str
    member: str
    found: str
    where: tuple[GridPoint, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Everything that is fixed at issue about who carries whom."""

    storeys: tuple[int, ...]
    members: dict[str, Member]
    columns: dict[str, tuple[int, Point]]
    meetings: tuple[Meeting, ...]
    panels: tuple[Panel, ...]
    stands: tuple[Stand, ...]
    rests: tuple[Rest, ...]
    beam_ranks: dict[str, int]
    """0 for a beam that carries no other beam of its storey, 1 for one that carries those, and so on."""
    troubles: tuple[Trouble, ...]


def crossing_point(a: Member, b: Member) -> Point | None:
    """Where the lines of two members cross, or None where they run alike."""
    (x1, y1), (x2, y2), (x3, y3), (x4, y4) = a.start, a.end, b.start, b.end
    det = (x2 - x1) * (y4 - y3) - (y2 - y1) * (x4 - x3)
    if abs(det) < TOLERANCE**2:
        return None
    s = ((x3 - x1) * (y4 - y3) - (y3 - y1) * (x4 - x3)) / det
    return x1 + s * (x2 - x1), y1 + s * (y2 - y1)
