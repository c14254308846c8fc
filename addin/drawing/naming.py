"""The texts on the plan and where each stands: figures of dimensions, marks of jacks and walls, sizes of bases.

Covers   what is written, what it must stay off, the order in which places are given away.
Not      how a place is chosen (labels).
"""

from collections.abc import Iterator, Sequence

from addin.drawing.chains import FIGURES, Chain, figures, lines_of
from addin.drawing.house import JACK, House, WallOnPlan, place_of, size_of, wall_lines
from addin.drawing.labels import Placer, Spot, around
from addin.drawing.shapes import (
    Dimension,
    Label,
    Shape,
    Stroke,
    plus,
    square,
    text_width,
    times,
)

_MARKED = 1.4 * JACK
"""No symbol reaches farther from the place of its jack [mm of paper]."""


def texts(house: House, chains: Sequence[Chain], placer: Placer) -> Iterator[Shape]:
    """Every text of the plan in its place, with its leader; dimensions with their figures.

    Args:
        house: what stands where
        chains: its dimensions
        placer: the sheet, with nothing on it that is not told here or before

    Raises:
        NoRoom: the sheet is too small
    """
    scale = placer.sheet.scale
    _keep_off(house, chains, placer)
    for wall in house.walls:
        yield from _warned(house, wall, placer)
    dimensions = [dimension for chain in chains for dimension in chain.dimensions]
    for dimension in sorted(dimensions, key=lambda d: text_width(d.text.text, FIGURES) * scale - d.measure):
        spot = placer.put(figures(dimension, scale))
        yield Dimension(layer="dimensions", start=dimension.start, end=dimension.end, line=dimension.line,
                        turn=dimension.turn, text=spot.label)  # fmt: skip
        yield from _leader(spot, "dimensions")
    for jack in house.plan.jacks:
        label = Label(layer="jacks", text=jack.name, at=(0.0, 0.0), height=1.8)
        yield from _named(placer.put(around(label, place_of(jack), _MARKED, scale)))
    yield from _names(house, placer)


def _warned(house: House, wall: WallOnPlan, placer: Placer) -> Iterator[Shape]:
    member = next((m for m in house.plan.members if m.name == wall.name), None)
    if member is not None and not member.jacks:
        label = Label(layer="text", text=f"{wall.name}: NO JACK PLAN", at=(0.0, 0.0), height=2.2, bold=True)
        yield from _named(placer.put(_beside(label, wall, placer.sheet.scale)))


def _names(house: House, placer: Placer) -> Iterator[Shape]:
    scale = placer.sheet.scale
    unplanned = {member.name for member in house.plan.members if not member.jacks}
    for wall in (wall for wall in house.walls if wall.name not in unplanned):
        label = Label(layer="text", text=wall.name, at=(0.0, 0.0), height=2.6, bold=True)
        yield from _named(placer.put(_beside(label, wall, scale)))
    for name, box in house.columns:
        label = Label(layer="text", text=name, at=(0.0, 0.0), height=2.4, bold=True)
        yield from _named(placer.put(around(label, times(plus(box[0], box[2]), 0.5), 3.0, scale)))
    label = Label(layer="text", text="centre of what is lifted", at=(0.0, 0.0), height=1.8)
    yield from _named(placer.put(around(label, house.centre, 3.5, scale)))
    for base in house.bases:
        if size_of(base) != house.usual_base:
            label = Label(layer="bases", text=size_of(base), at=(0.0, 0.0), height=1.5)
            spots = (spot for corner in base.box for spot in around(label, corner, 0.3, scale))
            yield from _named(placer.put(spots))


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
    placer.keep_off((wall.box(begin, end) for wall in house.walls for _, begin, end in wall.pieces if end > begin), 6.0)
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
