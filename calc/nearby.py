"""Things on plan found by place, so that a house of a thousand walls is not compared wall by wall.

Covers   boxes filed in square cells; what may lie near a place, in the order it was filed.
Not      whether it does: the caller measures.
Units    m.
"""

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from typing import Generic, TypeVar

from calc.outlines import Point

Thing = TypeVar("Thing")

CELL = 4.0
"""Side of a cell [m]: about a room."""


class Nearby(Generic[Thing]):
    """Things filed by the box around their points.

    >>> walls = Nearby([([(0.0, 0.0), (6.0, 0.0)], "south"), ([(0.0, 9.0), (6.0, 9.0)], "north")])
    >>> walls.near([(5.0, 0.1)], 0.2)
    ['south']
    """

    def __init__(self, things: Iterable[tuple[Sequence[Point], Thing]]) -> None:
        self._things: list[tuple[tuple[float, float, float, float], Thing]] = []
        self._cells: dict[tuple[int, int], list[int]] = defaultdict(list)
        for order, (points, thing) in enumerate(things):
            box = _box(points, 0.0)
            self._things.append((box, thing))
            for cell in _cells(box):
                self._cells[cell].append(order)

    def near(self, points: Sequence[Point], reach: float) -> list[Thing]:
        """Things whose box lies within `reach` of the box around some points.

        Args:
            points: one or more places [m]
            reach: distance along either axis [m]
        """
        box = _box(points, reach)
        found = {order for cell in _cells(box) for order in self._cells.get(cell, ())}
        return [self._things[order][1] for order in sorted(found) if _meet(box, self._things[order][0])]


def _box(points: Sequence[Point], reach: float) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs) - reach, min(ys) - reach, max(xs) + reach, max(ys) + reach


def _cells(box: tuple[float, float, float, float]) -> Iterator[tuple[int, int]]:
    left, low, right, high = (math.floor(side / CELL) for side in box)
    for column in range(left, right + 1):
        for row in range(low, high + 1):
            yield column, row


def _meet(one: tuple[float, float, float, float], other: tuple[float, float, float, float]) -> bool:
    return one[0] <= other[2] and other[0] <= one[2] and one[1] <= other[3] and other[1] <= one[3]
