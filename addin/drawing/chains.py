"""Chains of dimensions: along every wall from its From point to each jack, round the grid, off the middle of a column.

Covers   where each chain runs, the distances in it, where a number may stand that does not fit its distance.
Not      where jacks stand (house), the choice among places of a text (labels).
Rules    a chain begins at the wall's From point, which a dot marks, and ends at its To point. It runs on the side of
         the wall where it crosses least.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, product

from addin.drawing.house import JACK, MM, House, WallOnPlan, place_of
from addin.drawing.labels import Box, Spot, overlap
from addin.drawing.shapes import (
    BLACK,
    Area,
    Dimension,
    Label,
    Place,
    Shape,
    bounds,
    direction,
    dot,
    left_of,
    minus,
    plus,
    square,
    symbol,
    text_width,
    times,
    upright,
)
from calc.jack_plan_rows import PlannedJack

FIGURES = 1.7
"""Height of the figures of a dimension [mm of paper]."""

_STEP = 5.5
"""From one line of dimensions to the next [mm of paper]."""

OFF = 2.0
"""Gap between what is measured and the stroke that leads to its dimension [mm of paper]."""

_SHIFTS = (0.0, 3.0, -3.0, 6.0, -6.0, 9.0, -9.0, 13.0, -13.0)
"""How far along figures stand off their distance [mm of paper]."""

_SAME = 0.5
"""Places along a wall closer than this are one [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """Dimensions one after the other on one line, their figures not placed yet."""

    of: str
    dimensions: tuple[Dimension, ...]
    band: Box
    """The strip of the drawing it needs."""
    origin: Place | None = None
    """Where it begins, at the From point."""


def chains(house: House, scale: float) -> tuple[Chain, ...]:
    """All chains of a house.

    Args:
        house: what stands where
        scale: millimetres of the house in one of paper
    """
    found: list[Chain] = []
    for wall in sorted(house.walls, key=lambda wall: -wall.length):
        if jacks := house.plan.jacks_of(wall.name):
            found.append(min(_along(wall, jacks, scale), key=lambda chain: _burden(chain, house, found, scale)))
    for name, box in house.columns:
        middle = times(plus(box[0], box[2]), 0.5)
        found.extend(_off_column(name, middle, house.plan.jacks_of(name), scale))
    low = bounds((*house.corners, *(corner for chain in found for corner in chain.band)))
    found.append(_grid(tuple(x for _, x in house.letters), 0.0, low[1] - _STEP * scale, scale))
    found.append(_grid(tuple(y for _, y in house.numbers), 90.0, low[0] - _STEP * scale, scale))
    return tuple(chain for chain in found if chain.dimensions)


def drawn_chain(chain: Chain, scale: float) -> Iterator[Shape]:
    """The dot where a chain begins; its dimensions come with their figures."""
    if chain.origin:
        yield Area(layer="dimensions", points=symbol("circle", chain.origin, 0.8 * scale), tone=BLACK)


def lines_of(dimension: Dimension, scale: float) -> tuple[tuple[Place, Place], ...]:
    """The strokes of a dimension: its line first, then the two that lead to it, which stay off what is measured."""
    feet = dimension.feet()
    strokes = [feet]
    for place, foot in zip((dimension.start, dimension.end), feet, strict=True):
        run = minus(foot, place)
        length = math.hypot(*run)
        if length > OFF * scale:
            way = times(run, 1 / length)
            strokes.append((plus(place, times(way, OFF * scale)), plus(foot, times(way, scale))))
    return tuple(strokes)


def figures(dimension: Dimension, scale: float) -> Iterator[Spot]:
    """Places for the figures of a dimension: on its line or under it where they fit, else off it with a leader."""
    start, end = dimension.feet()
    along = direction(dimension.turn)
    up = left_of(along)
    middle = times(plus(start, end), 0.5)
    room = _room(dimension, scale)
    for side in (1, -1):
        for share in (0.0, 0.25, -0.25, 0.5, -0.5) if room >= 0 else ():
            at = plus(middle, plus(times(up, side * 1.4 * scale), times(along, share * room * scale)))
            yield Spot(label=replace(dimension.text, at=at), cost=abs(share) + (0.5 if side < 0 else 0.0))
        for level, shift, part in product(range(1, 10), _SHIFTS, (0.0, 0.25, -0.25)):
            at = plus(middle, plus(times(up, side * (1.4 + 2.6 * level) * scale), times(along, shift * scale)))
            foot = plus(at, times(up, -side * 1.1 * scale))
            cost = 3.0 * level + (0.5 if side < 0 else 0.0) + abs(shift) / 6 + abs(part)
            begin = plus(middle, times(along, part * math.dist(start, end)))
            yield Spot(label=replace(dimension.text, at=at), cost=cost, leader=(begin, foot))


def fits(dimension: Dimension, scale: float) -> bool:
    """Whether the figures of a dimension fit on its line."""
    return _room(dimension, scale) >= 0


def _room(dimension: Dimension, scale: float) -> float:
    return dimension.measure / scale - text_width(dimension.text.text, FIGURES) - 0.6


def _along(wall: WallOnPlan, jacks: Sequence[PlannedJack], scale: float) -> Iterator[Chain]:
    """The chain of a wall on either side of it, nearer and farther."""
    clear = max(wall.thickness / 2, *(abs(jack.across) * MM + jack.base_side * MM / 2 for jack in jacks),
                *(abs(jack.across) * MM + JACK * scale for jack in jacks))  # fmt: skip
    places = [0.0]
    for place in sorted([*(jack.at * MM for jack in jacks), wall.length]):
        if place - places[-1] > _SAME:
            places.append(place)
    for side in (1.0, -1.0):
        for step in range(4):
            off = side * (clear + (2.0 + _STEP * step) * scale)
            dimensions = tuple(_dimension(wall.at(a), wall.at(b), wall.at(a, off), wall.turn)
                               for a, b in pairwise(places))  # fmt: skip
            yield Chain(of=wall.name, dimensions=dimensions, band=_band(dimensions, 2.6 * scale),
                        origin=wall.at(0.0, off))  # fmt: skip


def _off_column(name: str, middle: Place, jacks: Sequence[PlannedJack], scale: float) -> Iterator[Chain]:
    for jack in jacks:
        run = minus(place_of(jack), middle)
        if math.hypot(*run) <= _SAME:
            continue
        turn = upright(run)
        line = plus(place_of(jack), times(left_of(direction(turn)), (JACK + 1.5) * scale))
        dimensions = (_dimension(middle, place_of(jack), line, turn),)
        yield Chain(of=name, dimensions=dimensions, band=_band(dimensions, 2.6 * scale))


def _grid(offsets: tuple[float, ...], turn: float, place: float, scale: float) -> Chain:
    dimensions = []
    for a, b in pairwise(sorted(offsets)):
        if b - a > _SAME:
            start, end = ((a, place), (b, place)) if turn == 0.0 else ((place, a), (place, b))
            dimensions.append(_dimension(start, end, start, turn))
    return Chain(of="grid", dimensions=tuple(dimensions), band=_band(dimensions, 2.6 * scale) if dimensions else ())


def _dimension(start: Place, end: Place, line: Place, turn: float) -> Dimension:
    along = direction(turn)
    if dot(minus(end, start), along) < 0:
        start, end = end, start
    text = Label(
        layer="dimensions", text=f"{abs(dot(minus(end, start), along)):.0f}", at=line, height=FIGURES, turn=turn
    )
    return Dimension(layer="dimensions", start=start, end=end, line=line, turn=turn, text=text)


def _band(dimensions: Sequence[Dimension], high: float) -> Box:
    feet = [foot for dimension in dimensions for foot in dimension.feet()]
    along = direction(dimensions[0].turn)
    up = left_of(along)
    first, last = min(feet, key=lambda foot: dot(foot, along)), max(feet, key=lambda foot: dot(foot, along))
    low, top = times(up, -high / 4), times(up, high)
    return plus(first, low), plus(last, low), plus(last, top), plus(first, top)


def _burden(chain: Chain, house: House, before: Sequence[Chain], scale: float) -> float:
    """What a chain runs across, other chains above all, and how far off its wall it is."""
    marks = [square(place_of(jack), JACK * scale) for jack in house.plan.jacks if jack.member != chain.of]
    first = chain.dimensions[0]
    beside = [other.band for other in before if other.dimensions[0].turn == first.turn]
    weights = ((40.0, beside), (3.0, [other.band for other in before]), (2.0, house.masonry), (4.0, marks),
               (1.0, [base.box for base in house.bases]), (3.0, [box for _, box in house.columns]))  # fmt: skip
    across = sum(weight * overlap(chain.band, box) for weight, boxes in weights for box in boxes)
    return across + 0.5 * math.dist(first.start, first.feet()[0]) / scale
