"""Where texts go, so that none is printed over another.

Covers   texts that may stand in several places near what they name; a leader where they stand off.
Not      what is written.
Rules    Over another text or the mark of a jack: never. Over lines and fills: the less the better. What is placed first
         has the choice. A text that finds no free place raises: nothing is left out and nothing printed over.
"""

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from addin.drawing.shapes import Label, Place, Sheet, bounds, direction, dot, left_of, minus, plus, square, times

Box = tuple[Place, ...]


class NoRoom(Exception):  # noqa: N818 - it tells the choice of paper to take a larger one
    """A text finds no free place on this sheet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A place a text may take."""

    label: Label
    cost: float
    leader: tuple[Place, Place] | None = None


@dataclass(slots=True)
class _Thing:
    box: Box
    bounds: tuple[float, float, float, float]
    weight: float
    crossed: float
    """What a leader across it costs."""


class Placer:
    """The plan with what is on it already, cell by cell."""

    def __init__(self, sheet: Sheet, area: tuple[float, float, float, float]) -> None:
        self.sheet = sheet
        self.area = area
        """What texts may use, in mm of the house."""
        self._cell = 12.0 * sheet.scale
        self._cells: dict[tuple[int, int], list[_Thing]] = defaultdict(list)

    def copy(self) -> "Placer":
        """Another one with the same things on it."""
        other = Placer(self.sheet, self.area)
        other._cells = defaultdict(list, {key: list(things) for key, things in self._cells.items()})
        return other

    def keep_off(self, boxes: Iterable[Box], weight: float = math.inf, crossed: float | None = None) -> None:
        """Texts stay off these, at any price or at one, and so do leaders, most often at a smaller one."""
        for box in boxes:
            thing = _Thing(box, bounds(box), weight, weight / 4 if crossed is None else crossed)
            for key in self._keys(thing.bounds):
                self._cells[key].append(thing)

    def keep_off_line(self, points: Sequence[Place], weight: float) -> None:
        """Texts stay off a line."""
        self.keep_off((thin(a, b, 0.1 * self.sheet.scale) for a, b in pairwise(points)), weight)

    def put(self, spots: Iterable[Spot]) -> Spot:
        """The best of some places; it is taken then.

        Raises:
            NoRoom: none is free
        """
        best, least = None, math.inf
        for spot in sorted(spots, key=lambda each: each.cost):
            if spot.cost >= least:
                break
            cost = spot.cost + self._cost(spot, least - spot.cost)
            if cost < least:
                best, least = spot, cost
        if best is None:
            raise NoRoom
        self.keep_off([best.label.box(self.sheet.scale)])
        if best.leader:
            self.keep_off_line(best.leader, 8.0)
        return best

    def _cost(self, spot: Spot, most: float) -> float:
        box = spot.label.box(self.sheet.scale)
        limits = bounds(box)
        if not (limits[0] >= self.area[0] and limits[1] >= self.area[1]
                and limits[2] <= self.area[2] and limits[3] <= self.area[3]):  # fmt: skip
            return math.inf
        cost = 0.0
        for thing in self._near(limits):
            if not _apart(limits, thing.bounds) and overlap(box, thing.box):
                cost += thing.weight
                if cost >= most:
                    return math.inf
        return cost + (self._leader_cost(spot.leader) if spot.leader else 0.0)

    def _leader_cost(self, leader: tuple[Place, Place]) -> float:
        box = thin(*leader, 0.1 * self.sheet.scale)
        limits = bounds(box)
        return sum(thing.crossed for thing in self._near(limits)
                   if not _apart(limits, thing.bounds) and overlap(box, thing.box))  # fmt: skip

    def _near(self, limits: tuple[float, float, float, float]) -> Iterator[_Thing]:
        seen: set[int] = set()
        for key in self._keys(limits):
            for thing in self._cells.get(key, ()):
                if id(thing) not in seen:
                    seen.add(id(thing))
                    yield thing

    def _keys(self, limits: tuple[float, float, float, float]) -> Iterator[tuple[int, int]]:
        low_x, low_y, high_x, high_y = (math.floor(side / self._cell) for side in limits)
        return ((x, y) for x in range(low_x, high_x + 1) for y in range(low_y, high_y + 1))


def thin(start: Place, end: Place, half: float) -> Box:
    """A line as a box of this half width."""
    run = minus(end, start)
    length = math.hypot(*run)
    if not length:
        return square(start, half)
    side = times(left_of((run[0] / length, run[1] / length)), half)
    return (minus(start, side), minus(end, side), plus(end, side), plus(start, side))


def overlap(one: Box, other: Box) -> bool:
    """Whether two convex outlines share more than an edge.

    >>> overlap(square((0, 0), 1), square((2.2, 0), 1)), overlap(square((0, 0), 1), square((1.8, 0), 1))
    (False, True)
    """
    for box in (one, other):
        for a, b in zip(box, (*box[1:], box[0]), strict=True):
            across = left_of(minus(b, a))
            mine = [dot(point, across) for point in one]
            theirs = [dot(point, across) for point in other]
            if max(mine) <= min(theirs) or max(theirs) <= min(mine):
                return False
    return True


def around(label: Label, at: Place, radius: float, scale: float, favourite: Place = (0.0, 0.0)) -> Iterator[Spot]:
    """Places round a mark, nearer ones first; those that stand off get a leader.

    Args:
        label: the text
        at: what it names
        radius: of the mark [mm of paper]
        scale: millimetres of the house in one of paper
        favourite: the direction that is liked best
    """
    box = bounds(replace(label, at=(0.0, 0.0)).box(1.0))
    wide, high = (box[2] - box[0]) / 2, (box[3] - box[1]) / 2
    for ring, gap in enumerate((0.3, 0.9, 2.0, 4.0, 6.5, 9.0, 12.0, 16.0, 20.0, 26.0, 32.0)):
        turns = 8 if ring < 2 else 16
        for step in range(turns):
            way = direction(360 * step / turns)
            # As far as needed to clear the mark in this direction, whatever the width of the text.
            reach = (radius + gap + wide * abs(way[0]) + high * abs(way[1])) * scale
            middle = plus(at, times(way, reach))
            edge = plus(at, times(way, radius * scale))
            tip = plus(middle, times(way, -(wide * abs(way[0]) + high * abs(way[1])) * scale))
            cost = (0.0, 1.0, *range(6, 43, 3))[ring] - dot(way, favourite) + (0.6 if step % (turns // 4) else 0.0)
            yield Spot(label=replace(label, at=middle), cost=cost, leader=(edge, tip) if ring > 1 else None)


def _apart(one: tuple[float, float, float, float], other: tuple[float, float, float, float]) -> bool:
    return one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]
