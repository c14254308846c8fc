"""The texts on the plan and where each stands: figures of dimensions, marks of jacks and walls, sizes of bases.

Covers   what is written, what it must stay off, the order in which places are given away.
Not      how a place is chosen (labels).
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from addin.drawing.chains import FIGURES, Chain, figures, fits, lines_of
from addin.drawing.house import JACK, House, WallOnPlan, place_of, size_of, wall_lines
from addin.drawing.labels import Box, NoRoom, Placer, Spot, around
from addin.drawing.shapes import (
    Dimension,
    Label,
    Place,
    Shape,
    Stroke,
    plus,
    square,
    text_width,
    times,
)

_TRIES = 12

_MARKED = 1.4 * JACK
"""No symbol reaches farther from the place of its jack [mm of paper]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wanted:
    """A text that asks for a place."""

    spots: Callable[[], Iterable[Spot]]
    shown: Callable[[Spot], Iterable[Shape]]
    may_fail: bool = False
    """Whether it can be done without, because a list says it too."""


def texts(house: House, chains: Sequence[Chain], placer: Placer) -> list[Shape]:
    """Every text of the plan in its place, with its leader; dimensions with their figures.

    A text that finds no place goes first in another try, a few times over.

    Args:
        house: what stands where
        chains: its dimensions
        placer: the sheet, with nothing on it that is not told here or before

    Raises:
        NoRoom: the sheet is too small
    """
    _keep_off(house, chains, placer)
    wanted = _wanted(house, chains, placer.sheet.scale)
    for _ in range(_TRIES):
        shapes, failed = _tried(wanted, placer.copy())
        if failed is None:
            return shapes
        wanted.remove(failed)
        wanted.insert(0, failed)
    raise NoRoom


def _tried(wanted: Sequence[_Wanted], placer: Placer) -> tuple[list[Shape], _Wanted | None]:
    """The shapes of all texts, or the first that finds no place."""
    shapes: list[Shape] = []
    for want in wanted:
        try:
            shapes += want.shown(placer.put(want.spots()))
        except NoRoom:
            if not want.may_fail:
                return shapes, want
    return shapes, None


def _wanted(house: House, chains: Sequence[Chain], scale: float) -> list[_Wanted]:
    """All texts; those with the fewest places to choose from first."""
    dimensions = [dimension for chain in chains for dimension in chain.dimensions]
    dimensions.sort(key=lambda d: text_width(d.text.text, FIGURES) * scale - d.measure)
    fit = [d for d in dimensions if fits(d, scale)]
    return [
        *_unplanned(house, scale), *(_figures(d, scale) for d in fit), *_marks(house, scale),
        *(_figures(d, scale) for d in dimensions if d not in fit), *_names(house, scale), *_sizes(house, scale),
    ]  # fmt: skip


def _figures(dimension: Dimension, scale: float) -> _Wanted:
    def shown(spot: Spot) -> Iterator[Shape]:
        yield replace(dimension, text=spot.label)
        yield from _leader(spot, "dimensions")

    return _Wanted(spots=lambda: figures(dimension, scale), shown=shown)


def _unplanned(house: House, scale: float) -> Iterator[_Wanted]:
    missing = {member.name for member in house.plan.members if not member.jacks}
    for name in (wall.name for wall in house.walls if wall.name in missing):
        yield _wall(house, name, f"{name}: NO JACK PLAN", 2.2, scale)
    for name, box in house.columns:
        if name in missing:
            yield _around(f"{name}: NO JACK PLAN", 2.2, _middle(box), 3.0, scale, bold=True)


def _marks(house: House, scale: float) -> Iterator[_Wanted]:
    for jack in house.plan.jacks:
        yield _around(jack.name, 1.8, place_of(jack), _MARKED, scale, layer="jacks")


def _names(house: House, scale: float) -> Iterator[_Wanted]:
    missing = {member.name for member in house.plan.members if not member.jacks}
    for wall in house.walls:
        if wall.name not in missing:
            yield _wall(house, wall.name, wall.name, 2.6, scale)
    for name, box in house.columns:
        if name not in missing:
            yield _around(name, 2.4, _middle(box), 3.0, scale, bold=True)
    yield _around("centre of what is lifted", 1.8, house.centre, 3.5, scale)


def _sizes(house: House, scale: float) -> Iterator[_Wanted]:
    """Sizes of unusual bases, where there is room beside them."""
    for base in house.bases:
        if size_of(base) != house.usual_base:
            yield _size(size_of(base).removeprefix("strip "), base.box, scale)


def _size(text: str, box: Box, scale: float) -> _Wanted:
    label = Label(layer="bases", text=text, at=(0.0, 0.0), height=1.5)
    return _Wanted(
        spots=lambda: (spot for corner in box for spot in around(label, corner, 0.3, scale) if not spot.leader),
        shown=_named, may_fail=True,
    )  # fmt: skip


def _around(
    text: str, height: float, at: Place, radius: float, scale: float, layer: str = "text", bold: bool = False
) -> _Wanted:
    label = Label(layer=layer, text=text, at=(0.0, 0.0), height=height, bold=bold)
    return _Wanted(spots=lambda: around(label, at, radius, scale), shown=_named)


def _wall(house: House, name: str, text: str, height: float, scale: float) -> _Wanted:
    label = Label(layer="text", text=text, at=(0.0, 0.0), height=height, bold=True)
    wall = next(wall for wall in house.walls if wall.name == name)
    return _Wanted(spots=lambda: _beside(label, wall, scale), shown=_named)


def _middle(box: Box) -> Place:
    return times(plus(box[0], box[2]), 0.5)


def _beside(label: Label, wall: WallOnPlan, scale: float) -> Iterator[Spot]:
    """Places along a wall for its name, the middle first."""
    for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8):
        spots = around(label, wall.at(wall.length * share), wall.thickness / 2 / scale + 0.6, scale)
        for spot in spots:
            yield Spot(label=spot.label, cost=spot.cost + 4 * abs(share - 0.5), leader=spot.leader)


def _named(spot: Spot) -> Iterator[Shape]:
    yield spot.label
    yield from _leader(spot, spot.label.layer)


def _leader(spot: Spot, layer: str) -> Iterator[Shape]:
    if spot.leader:
        yield Stroke(layer=layer, points=spot.leader, width=0.13)


def _keep_off(house: House, chains: Sequence[Chain], placer: Placer) -> None:
    scale = placer.sheet.scale
    marks = [square(place_of(jack), 1.3 * JACK * scale) for jack in house.plan.jacks]
    centre = square(house.centre, 2.6 * scale)
    placer.keep_off([*marks, centre], crossed=20.0)
    placer.keep_off((wall.box(begin, end) for wall in house.walls for _, begin, end in wall.pieces if end > begin), 8.0)
    placer.keep_off((box for _, box in house.columns), 6.0)
    for base in house.bases:
        placer.keep_off_line((*base.box, base.box[0]), 1.5)
    for wall in house.walls:
        for across in wall_lines(house, wall):
            placer.keep_off_line((wall.at(0.0, across), wall.at(wall.length, across)), 1.0)
    for chain in chains:
        for dimension in chain.dimensions:
            line, *leading = lines_of(dimension, scale)
            placer.keep_off_line(line, 12.0)
            for stroke in leading:
                placer.keep_off_line(stroke, 2.0)
