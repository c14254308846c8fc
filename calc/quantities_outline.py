"""The outside of the house on plan: which stretches of wall and open side face outward, and how they turn.

Covers   the outline round all ground rooms on centre lines, edge by edge, with its corners. Worked out on floats, as
         part of what is fixed at issue; lengths are worked out live from the grid points named here.
Not      any dimension that is measured (quantities_workings).
Signs    the outline runs anticlockwise, the house on its left; a turn of 1 is an outer corner, -1 an inner one.
Units    m.
Sources  none; plane geometry.

The outline is what is left of all sides of all rooms once every stretch that two rooms share has cancelled. A side
drawn along the face of its wall, and not on its centre line, is taken as on the centre line.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from calc.number import Name, text_of, value_of
from calc.outlines import Point
from calc.own_loads import FREE
from calc.plan_rows import TOLERANCE, Panel, Plan
from calc.survey import GridPoint, Survey

_OPEN = Name(FREE)
_SAME = 1e-9
"""Rounding noise of a distance [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OutsideEdge:
    """One straight stretch of the outline with one wall or none."""

    wall: Name
    room: Name
    start: GridPoint
    end: GridPoint
    before: Name = _OPEN
    """Wall of the edge before it."""
    after: Name = _OPEN
    """Wall of the edge after it."""
    turn_start: int = 0
    turn_end: int = 0


def ground_panels(survey: Survey, plan: Plan) -> tuple[Panel, ...]:
    """The outlines of the ground rooms, each once: a suspended floor has a panel of its own besides its room's."""
    rooms = {text_of(room.name) for room in survey.rooms if room.storey == 1}
    return tuple(panel for panel in plan.panels if panel.name in rooms and panel.kind != "floor")


def outside_edges(survey: Survey, plan: Plan) -> tuple[OutsideEdge, ...]:
    """The outline of the ground storey.

    Args:
        survey: the entries
        plan: who carries whom
    """
    xs = {text_of(line.name): value_of(line.offset) for line in survey.letters}
    ys = {text_of(line.name): value_of(line.offset) for line in survey.numbers}
    runs = [run for panel in ground_panels(survey, plan) for run in _runs(panel, plan)]
    outline = _Outline(xs, ys, runs)
    halves = {name: member.half for name, member in plan.members.items() if member.kind == "wall"}
    edges: list[OutsideEdge] = []
    for loop in outline.loops():
        kept = [edge for edge in loop if outline.length(edge) > halves.get(edge.wall, 0.0) + TOLERANCE]
        edges += outline.with_turns(outline.merged(kept))
    return tuple(edges)


def beside(start: Point, end: Point, point: Point, near: float) -> bool:
    """Whether a point lies within `near` of a straight line from `start` to `end`.

    Args:
        start: of the line [m]
        end: of the line [m]
        point: place on plan [m]
        near: greatest distance [m]

    >>> beside((0, 0), (4, 0), (4.3, 0.4), 0.5), beside((0, 0), (4, 0), (4.3, 0.4), 0.49)
    (True, False)
    """
    length = math.dist(start, end)
    along = ((point[0] - start[0]) * (end[0] - start[0]) + (point[1] - start[1]) * (end[1] - start[1])) / length
    share = min(max(along / length, 0.0), 1.0)
    foot = (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)
    return math.dist(foot, point) <= near + _SAME


def _runs(panel: Panel, plan: Plan) -> Iterable[OutsideEdge]:
    """The sides of a room, moved onto the centre lines of the walls they lie against."""
    moved: dict[GridPoint, GridPoint] = {}
    for piece in panel.pieces:
        if not piece.wall or piece.wall_on_line:
            continue
        wall = plan.members[piece.wall]
        for point in (piece.start, piece.end):
            here = moved.get(point, point)
            if wall.from_point.number == wall.to_point.number:
                moved[point] = replace(here, number=wall.from_point.number)
            elif wall.from_point.letter == wall.to_point.letter:
                moved[point] = replace(here, letter=wall.from_point.letter)
    for piece in panel.pieces:
        name = Name(piece.wall or FREE)
        yield OutsideEdge(wall=name, room=panel.room, start=moved.get(piece.start, piece.start),
                          end=moved.get(piece.end, piece.end))  # fmt: skip


class _Outline:
    """Sides of rooms cut at each other's ends; those that run both ways cancel."""

    def __init__(self, xs: dict[str, float], ys: dict[str, float], runs: Sequence[OutsideEdge]) -> None:
        self.xs, self.ys = xs, ys
        self.points: list[GridPoint] = []
        for point in (point for run in runs for point in (run.start, run.end)):
            self._index(point)
        self.edges: dict[tuple[int, int], OutsideEdge] = {}
        for run in runs:
            for part in self._cut(run):
                ends = self._index(part.start), self._index(part.end)
                if self.edges.pop((ends[1], ends[0]), None) is None and ends[0] != ends[1]:
                    self.edges[ends] = part

    def place(self, point: GridPoint) -> Point:
        return self.xs[point.letter], self.ys[point.number]

    def length(self, edge: OutsideEdge) -> float:
        return math.dist(self.place(edge.start), self.place(edge.end))

    def _index(self, point: GridPoint) -> int:
        """Its number among the points seen so far; two grid points within the tolerance are one."""
        here = self.place(point)
        for index, known in enumerate(self.points):
            if math.dist(self.place(known), here) <= TOLERANCE:
                return index
        self.points.append(point)
        return len(self.points) - 1

    def _cut(self, run: OutsideEdge) -> Iterable[OutsideEdge]:
        (x1, y1), (x2, y2), length = self.place(run.start), self.place(run.end), self.length(run)
        if length <= TOLERANCE:
            return
        stops = {0.0: run.start, length: run.end}
        for point in self.points:
            x, y = self.place(point)
            along = ((x - x1) * (x2 - x1) + (y - y1) * (y2 - y1)) / length
            off = abs((x - x1) * (y2 - y1) - (y - y1) * (x2 - x1)) / length
            if off <= TOLERANCE < along < length - TOLERANCE:
                stops[along] = point
        order = sorted(stops)
        for low, high in pairwise(order):
            yield replace(run, start=stops[low], end=stops[high])

    def loops(self) -> Iterable[list[OutsideEdge]]:
        """What is left, in closed loops."""
        left = dict(self.edges)
        while left:
            ends = next(iter(left))
            loop = [left.pop(ends)]
            while ends[1] != self._index(loop[0].start):
                following = next((key for key in left if key[0] == ends[1]), None)
                if following is None:
                    break
                ends = following
                loop.append(left.pop(ends))
            yield loop

    def _direction(self, edge: OutsideEdge) -> Point:
        (x1, y1), (x2, y2), length = self.place(edge.start), self.place(edge.end), self.length(edge)
        return (x2 - x1) / length, (y2 - y1) / length

    def _turn(self, one: OutsideEdge, other: OutsideEdge) -> int:
        (ux, uy), (vx, vy) = self._direction(one), self._direction(other)
        bend = ux * vy - uy * vx
        return 0 if abs(bend) <= TOLERANCE else 1 if bend > 0 else -1

    def merged(self, loop: Sequence[OutsideEdge]) -> list[OutsideEdge]:
        """Neighbours in line along the same wall and room made one."""
        result: list[OutsideEdge] = []
        for edge in loop:
            if result and self._goes_on(result[-1], edge):
                edge = replace(result.pop(), end=edge.end)
            result.append(edge)
        if len(result) > 1 and self._goes_on(result[-1], result[0]):
            result[0] = replace(result[0], start=result.pop().start)
        return result

    def _goes_on(self, one: OutsideEdge, other: OutsideEdge) -> bool:
        joined = self._index(one.end) == self._index(other.start)
        return joined and (one.wall, one.room) == (other.wall, other.room) and self._turn(one, other) == 0

    def with_turns(self, loop: Sequence[OutsideEdge]) -> Iterable[OutsideEdge]:
        """Each edge with its neighbours and the turns to them."""
        for order, edge in enumerate(loop):
            before, after = loop[order - 1], loop[(order + 1) % len(loop)]
            yield replace(edge, before=Name(before.wall), after=Name(after.wall), turn_start=self._turn(before, edge),
                          turn_end=self._turn(edge, after))  # fmt: skip
