"""The house on the drawing: walls as thick as they are, openings, columns, grid lines, bases, beams, jacks.

Covers   everything on plan that stands where the survey and the jack plan say, in mm of the house.
Not      dimensions (chains), texts (naming), the sheet round it (band).
Rules    nothing is rounded here; a wall is drawn along its centre line, and out to the faces of walls it meets.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from addin.drawing.labels import Box
from addin.drawing.shapes import (
    DARK,
    GREY,
    Area,
    Mark,
    Place,
    Shape,
    Stroke,
    bounds,
    dot,
    left_of,
    minus,
    plus,
    square,
    symbols_of,
    times,
    turned_box,
    upright,
)
from calc.jack_plan_rows import JackPlan, PlannedJack
from calc.number import text_of, value_of
from calc.plan_view import PlanPiece, PlanView
from calc.survey import Survey

MM = 1000.0
"""In a metre."""

JACK = 1.3
"""Radius of the mark of a jack [mm of paper]."""

OWN = "own base"
_NEAR = 1.0
"""Places this close are one [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WallOnPlan:
    """One wall of the ground storey, in mm."""

    name: str
    start: Place
    along: Place
    length: float
    thickness: float
    pieces: tuple[tuple[str, float, float], ...]
    """Kind, begin and end of each stretch of masonry, window or vent, in order; a door is what is left out."""

    @property
    def end(self) -> Place:
        """Its To point."""
        return plus(self.start, times(self.along, self.length))

    @property
    def turn(self) -> float:
        """Angle of a text along it."""
        return upright(self.along)

    def at(self, along: float, across: float = 0.0) -> Place:
        """A place given from its From point, to the left of its direction."""
        return plus(self.start, plus(times(self.along, along), times(left_of(self.along), across)))

    def box(self, begin: float, end: float, half: float | None = None) -> Box:
        """A stretch of it, anticlockwise."""
        side = self.thickness / 2 if half is None else half
        return self.at(begin, -side), self.at(end, -side), self.at(end, side), self.at(begin, side)


@dataclass(frozen=True, slots=True, kw_only=True)
class BaseOnPlan:
    """A base, or a strip under several jacks."""

    jacks: tuple[PlannedJack, ...]
    box: Box

    @property
    def strip(self) -> bool:
        """Whether it is under more than one jack."""
        return len(self.jacks) > 1


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """What stands where."""

    walls: tuple[WallOnPlan, ...]
    columns: tuple[tuple[str, Box], ...]
    letters: tuple[tuple[str, float], ...]
    numbers: tuple[tuple[str, float], ...]
    centre: Place
    plan: JackPlan
    bases: tuple[BaseOnPlan, ...]
    symbols: Mapping[str, tuple[str, float]]

    @property
    def masonry(self) -> tuple[Box, ...]:
        """Stretches of wall, out to the faces of the walls they meet."""
        return tuple(wall.box(begin, end) for wall in self.walls for begin, end in self._stretches(wall))

    @property
    def usual_base(self) -> str:
        """The size that most bases of one jack have, of those as many the first; empty where there are none."""
        sizes = [size_of(base) for base in self.bases if not base.strip]
        return max(sizes, key=sizes.count, default="")

    @property
    def corners(self) -> tuple[Place, ...]:
        """Corners of everything that stands on the ground."""
        boxes = (*self.masonry, *(box for _, box in self.columns), *(base.box for base in self.bases))
        return tuple(corner for box in boxes for corner in box) or ((0.0, 0.0), (MM, MM))

    def _stretches(self, wall: WallOnPlan) -> Iterator[tuple[float, float]]:
        for kind, begin, end in wall.pieces:
            if kind != "wall" or end - begin < _NEAR:
                continue
            first = begin - self._reach(wall, wall.start) if begin < _NEAR else begin
            last = end + self._reach(wall, wall.end) if end > wall.length - _NEAR else end
            yield first, last

    def _reach(self, wall: WallOnPlan, place: Place) -> float:
        """How far a wall goes on beyond its end, into a wall that crosses its line there."""
        halves = [other.thickness / 2 for other in self.walls
                  if other is not wall and abs(dot(other.along, left_of(wall.along))) > 0.5
                  and -_NEAR <= dot(minus(place, other.start), other.along) <= other.length + _NEAR
                  and abs(dot(minus(place, other.start), left_of(other.along))) < _NEAR]  # fmt: skip
        return max(halves, default=0.0)


def house_of(plan: JackPlan, view: PlanView, survey: Survey) -> House:
    """The house and its jacks in mm, from the survey on floats."""
    walls = tuple(_walls(view, survey))
    letters, numbers = ({text_of(line.name): value_of(line.offset) * MM for line in lines}
                        for lines in (survey.letters, survey.numbers))  # fmt: skip
    columns = tuple(
        (text_of(c.name), turned_box((letters[c.point.letter], numbers[c.point.number]), -value_of(c.breadth) * MM / 2,
                                     value_of(c.breadth) * MM / 2, -value_of(c.depth) * MM / 2,
                                     value_of(c.depth) * MM / 2, 0.0))
        for c in survey.columns if c.storey == 1
    )  # fmt: skip
    centre = next(mark for mark in view.marks if mark.kind == "centre")
    side = value_of(view.frame.side)
    middle = (value_of(view.frame.x) + value_of(centre.across) * side,
              value_of(view.frame.y) + value_of(centre.up) * side)  # fmt: skip
    known = {wall.name: wall.along for wall in walls}
    named = [circuit.name for circuit in plan.steering.circuits] if plan.steering else []
    return House(
        walls=walls, columns=columns, letters=tuple(letters.items()), numbers=tuple(numbers.items()),
        centre=times(middle, MM), plan=plan, bases=tuple(_bases(plan.jacks, known)),
        symbols=symbols_of([*named, *(jack.circuit for jack in plan.jacks)]),
    )  # fmt: skip


def place_of(jack: PlannedJack) -> Place:
    """Where a jack stands, in mm."""
    return jack.x * MM, jack.y * MM


def size_of(base: BaseOnPlan) -> str:
    """Size of a base in mm: along the wall, across it, thickness."""
    long, side, thick = (max(getattr(jack, name) for jack in base.jacks) * MM
                         for name in ("base_length", "base_side", "base_thickness"))  # fmt: skip
    return f"{'strip ' if base.strip else ''}{long:.0f}x{side:.0f}x{thick:.0f}"


def drawn(house: House, scale: float) -> Iterator[Shape]:
    """The shapes of the house, without texts.

    Args:
        house: what stands where
        scale: millimetres of the house in one of paper
    """
    yield from _grid(house, scale)
    yield from (Area(layer="walls", points=box) for box in house.masonry)
    yield from _faces(house)
    for wall in house.walls:
        yield from _openings(wall)
    for _, box in house.columns:
        yield Area(layer="columns", points=box, tone=DARK)
        yield Stroke(layer="columns", points=box, closed=True)
    yield from _beams(house)
    for base in house.bases:
        yield Stroke(layer="bases", points=base.box, closed=True, width=0.25, dashes="dashed", tone=DARK)
    for jack in house.plan.jacks:
        kind, tone = house.symbols[jack.circuit]
        yield Mark(layer="jacks", name=jack.name, middle=place_of(jack), symbol=kind, tone=tone, radius=JACK * scale)
    yield from _centre(house.centre, 2.4 * scale)


def _walls(view: PlanView, survey: Survey) -> Iterator[WallOnPlan]:
    thick = {text_of(wall.name): value_of(wall.thickness) * MM for wall in survey.walls if wall.storey == 1}
    pieces: dict[str, list[PlanPiece]] = {}
    for piece in view.pieces:
        pieces.setdefault(text_of(piece.name), []).append(piece)
    for name, parts in pieces.items():
        first = parts[0]
        length = value_of(first.length)
        yield WallOnPlan(
            name=name, start=(value_of(first.x_wall) * MM, value_of(first.y_wall) * MM), thickness=thick[name],
            along=(value_of(first.dx) / length, value_of(first.dy) / length), length=length * MM,
            pieces=tuple((part.kind, value_of(part.begins) * MM, value_of(part.ends) * MM) for part in parts),
        )  # fmt: skip


def _bases(jacks: Sequence[PlannedJack], along: Mapping[str, Place]) -> Iterator[BaseOnPlan]:
    for group in _sharing(jacks):
        way = along.get(group[0].member, (1.0, 0.0))
        if len(group) > 1:
            run = minus(place_of(group[-1]), place_of(group[0]))
            length = dot(run, run) ** 0.5
            way = times(run, 1 / length) if length > _NEAR else way
        half, over = (max(getattr(jack, name) for jack in group) * MM / 2 for name in ("base_side", "base_length"))
        across = left_of(way)
        # Bases of one run have one side, so a strip reaches as far beyond its first jack as beyond its last.
        middle = times(plus(place_of(group[0]), place_of(group[-1])), 0.5)
        first, last = (plus(middle, times(way, end * over)) for end in (-1, 1))
        yield BaseOnPlan(jacks=tuple(group), box=tuple(
            plus(place, times(across, side * half)) for place, side in ((first, -1), (last, -1), (last, 1), (first, 1))
        ))  # fmt: skip


def _sharing(jacks: Sequence[PlannedJack]) -> list[list[PlannedJack]]:
    """Jacks that stand on one base, in the order of the plan: each names those it shares with."""
    names = {jack.name for jack in jacks}
    leader = {name: name for name in names}

    def first_of(name: str) -> str:
        while leader[name] != name:
            name = leader[name]
        return name

    for jack in jacks:
        for other in names.intersection(re.split(r"[,;\s]+", jack.base)) if jack.base != OWN else ():
            leader[first_of(other)] = first_of(jack.name)
    groups: dict[str, list[PlannedJack]] = {}
    for jack in jacks:
        groups.setdefault(first_of(jack.name), []).append(jack)
    return list(groups.values())


def _grid(house: House, scale: float) -> Iterator[Shape]:
    west, south, east, north = bounds(house.corners)
    over = 3 * scale
    for _, x in house.letters:
        yield Stroke(layer="grid", points=((x, south - over), (x, north + over)), dashes="dash-dot", tone=GREY,
                     width=0.13)  # fmt: skip
    for _, y in house.numbers:
        yield Stroke(layer="grid", points=((west - over, y), (east + over, y)), dashes="dash-dot", tone=GREY,
                     width=0.13)  # fmt: skip


def _faces(house: House) -> Iterator[Shape]:
    """Outlines of the masonry as one body: what lies inside another stretch is not drawn."""
    boxes = house.masonry
    for order, box in enumerate(boxes):
        others = [other for place, other in enumerate(boxes) if place != order]
        for a, b in zip(box, (*box[1:], box[0]), strict=True):
            for begin, end in outside(a, b, others):
                yield Stroke(layer="walls", points=(begin, end), width=0.35)


def outside(a: Place, b: Place, boxes: Iterable[Box]) -> Iterator[tuple[Place, Place]]:
    """The parts of a line that lie in none of some convex boxes, given anticlockwise; along an edge is outside.

    >>> list(outside((0, 0), (4, 0), [((1, -1), (2, -1), (2, 1), (1, 1))]))
    [((0.0, 0.0), (1.0, 0.0)), ((2.0, 0.0), (4.0, 0.0))]
    """
    run = minus(b, a)
    hidden = sorted(part for box in boxes if (part := _inside(a, run, box)))
    free, last = [], 0.0
    for begin, end in hidden:
        free.append((last, begin))
        last = max(last, end)
    for begin, end in (*free, (last, 1.0)):
        if (end - begin) * dot(run, run) ** 0.5 > _NEAR / 10:
            yield plus(a, times(run, begin)), plus(a, times(run, end))


def _inside(a: Place, run: Place, box: Box) -> tuple[float, float] | None:
    begin, end = 0.0, 1.0
    for one, other in zip(box, (*box[1:], box[0]), strict=True):
        inward = left_of(minus(other, one))
        gap, rate = dot(minus(a, one), inward), dot(run, inward)
        size = dot(inward, inward) ** 0.5
        if abs(rate) < 1e-9 * size:
            if gap <= 1e-6 * size:
                return None
        elif rate > 0:
            begin = max(begin, -gap / rate)
        else:
            end = min(end, -gap / rate)
    return (begin, end) if end > begin else None


def _openings(wall: WallOnPlan) -> Iterator[Shape]:
    half = wall.thickness / 2
    for kind, begin, end in wall.pieces:
        if kind == "wall" or end - begin < _NEAR:
            continue
        for across in (-half, -half / 4, half / 4, half) if kind == "window" else (-half, half):
            yield Stroke(layer="openings", points=(wall.at(begin, across), wall.at(end, across)),
                         dashes="" if kind == "window" else "dashed")  # fmt: skip
        for place in (begin, end):
            yield Stroke(layer="openings", points=(wall.at(place, -half), wall.at(place, half)))
    for (_, _, begin), (_, end, _) in pairwise(wall.pieces):
        if end - begin > _NEAR:  # a door: its swing is not surveyed, its threshold is where it is
            yield Stroke(layer="openings", points=(wall.at(begin), wall.at(end)), width=0.13, dashes="dashed",
                         tone=GREY)  # fmt: skip


def wall_lines(house: House, wall: WallOnPlan) -> list[float]:
    """Jack lines of a wall, to the left of its direction."""
    return sorted({round(jack.across * MM, 3) for jack in house.plan.jacks_of(wall.name)})


def _beams(house: House) -> Iterator[Shape]:
    """A line for each jack line of a wall, from end to end; sizes are in the list of carrier beams."""
    for wall in house.walls:
        for across in wall_lines(house, wall):
            yield Stroke(layer="beams", points=(wall.at(0.0, across), wall.at(wall.length, across)), width=0.5,
                         dashes="dash-dot", tone=DARK)  # fmt: skip


def _centre(middle: Place, radius: float) -> Iterator[Shape]:
    """A cross in a square: no circuit has this mark."""
    box = square(middle, radius)
    yield Stroke(layer="text", points=box, closed=True, width=0.35)
    yield Stroke(layer="text", points=(box[0], box[2]), width=0.35)
    yield Stroke(layer="text", points=(box[1], box[3]), width=0.35)
