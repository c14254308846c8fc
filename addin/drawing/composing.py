"""The drawing of a jack plan put together: paper and scale chosen, plan in the middle of what the band leaves.

Covers   the choice of paper and scale, grid bubbles, the place of the plan on its sheet.
Not      what each part looks like (house, chains, naming, band), how a file is written (dxf, picture).
Rules    the first of PAPERS that takes everything without one text over another, and most marks beside their jacks.
         1:50 on A4 or A3 is liked best.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from addin.drawing.band import Band, Title, TooLong, band
from addin.drawing.chains import Chain, chains, drawn_chain
from addin.drawing.house import House, drawn, house_of
from addin.drawing.labels import NoRoom, Placer
from addin.drawing.naming import texts
from addin.drawing.shapes import (
    GREY,
    LAYERS,
    Label,
    Place,
    Ring,
    Shape,
    Sheet,
    Stroke,
    bounds,
    minus,
    plus,
    square,
    times,
)
from calc.jack_plan_rows import JackPlan
from calc.plan_view import PlanView
from calc.survey import Survey

_SIZES = {"A4": (297, 210), "A3": (420, 297), "A2": (594, 420), "A1": (841, 594), "A0": (1189, 841)}
PAPERS = tuple(
    Sheet(paper=name, width=_SIZES[name][0], height=_SIZES[name][1], scale=scale)
    for name, scale in (("A4", 50), ("A3", 50), ("A3", 100), ("A2", 50), ("A2", 100), ("A1", 50), ("A1", 100),
                        ("A1", 200), ("A0", 200))
)  # fmt: skip
"""Papers on their long side, each with a scale, the best first."""

_BUBBLE = 3.0
"""Radius of the circle round the name of a grid line [mm of paper]."""

_FAR, _ALWAYS = 0.05, 2
"""More marks than this share and number that stand off their jacks, by leaders, ask for a larger scale."""

_ROOM = 3.0
"""For texts round the plan [mm of paper]."""


class CannotDraw(Exception):  # noqa: N818 - one plain sentence for the estimator
    """No paper takes the drawing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A drawing, ready to be written."""

    sheet: Sheet
    shapes: tuple[Shape, ...]
    title: Title

    def on(self, layer: str) -> tuple[Shape, ...]:
        """The shapes of one layer."""
        return tuple(shape for shape in self.shapes if shape.layer == layer)


def drawing_of(plan: JackPlan, view: PlanView, survey: Survey, title: Title) -> Drawing:
    """The dimensioned drawing of a jack plan.

    Args:
        plan: where every jack stands
        view: where walls and openings are, worked out on floats
        survey: the entries on floats
        title: what the sheet says about the job

    Raises:
        CannotDraw: the house is too large for every paper
    """
    house = house_of(plan, view, survey)
    for crowded in (False, True):
        for paper in PAPERS:
            try:
                return _on(paper, house, title, crowded)
            except (NoRoom, TooLong):
                continue
    last = PAPERS[-1]
    raise CannotDraw(f"The jack plan does not fit on {last.paper} at 1:{last.scale:.0f}; no drawing was made.")


def _on(paper: Sheet, house: House, title: Title, crowded: bool) -> Drawing:
    """The drawing on one paper.

    Raises:
        NoRoom: the plan or a text of it finds no room, or it is crowded and must not be
        TooLong: the lists find none
    """
    left = band(house, title, paper)
    lines = chains(house, paper.scale)
    bubbles = tuple(_bubbles(house, lines, paper.scale))
    sheet = _placed(paper, left, _extent(house, lines, bubbles))
    around = band(house, title, sheet)
    low, high = sheet.at(around.left + 1, around.low + 1), sheet.at(around.right - 1, around.top - 1)
    placer = Placer(sheet, (*low, *high))
    for shape in bubbles:
        if isinstance(shape, Ring):
            placer.keep_off([square(shape.middle, shape.radius)])
        elif isinstance(shape, Stroke):
            placer.keep_off_line(shape.points, 1.0)
    named = texts(house, lines, placer)
    far = sum(isinstance(shape, Stroke) and shape.layer == "jacks" for shape in named)
    if not crowded and far > _ALWAYS + _FAR * len(house.plan.jacks):
        raise NoRoom
    shapes = (*drawn(house, sheet.scale), *(shape for chain in lines for shape in drawn_chain(chain, sheet.scale)),
              *bubbles, *named, *around.shapes)  # fmt: skip
    return Drawing(sheet=sheet, title=title, shapes=tuple(sorted(shapes, key=lambda shape: LAYERS.index(shape.layer))))


def _extent(house: House, lines: Sequence[Chain], bubbles: Sequence[Shape]) -> tuple[float, float, float, float]:
    points: list[Place] = [*house.corners, *(corner for chain in lines for corner in chain.band)]
    for shape in bubbles:
        if isinstance(shape, Ring):
            points += [plus(shape.middle, (side, side)) for side in (-shape.radius, shape.radius)]
    return bounds(points)


def _placed(paper: Sheet, left: Band, extent: tuple[float, float, float, float]) -> Sheet:
    """The sheet laid over the house so that the plan stands in the middle of the room for it."""
    room = left.right - left.left - 2 * _ROOM, left.top - left.low - 2 * _ROOM
    size = (extent[2] - extent[0]) / paper.scale, (extent[3] - extent[1]) / paper.scale
    if size[0] > room[0] or size[1] > room[1]:
        raise NoRoom
    middle = (extent[0] + extent[2]) / 2, (extent[1] + extent[3]) / 2
    on_paper = (left.left + left.right) / 2, (left.low + left.top) / 2
    return replace(paper, corner=minus(middle, times(on_paper, paper.scale)))


def _bubbles(house: House, lines: Sequence[Chain], scale: float) -> Iterator[Shape]:
    """The names of grid lines below and to the left of everything, in a second row where lines are close."""
    west, south, _, _ = bounds((*house.corners, *(corner for chain in lines for corner in chain.band)))
    for named, along in ((house.letters, (1.0, 0.0)), (house.numbers, (0.0, 1.0))):
        begin = south if along[0] else west
        ends: list[float] = []
        for name, offset in sorted(named, key=lambda line: line[1]):
            row = next((n for n, end in enumerate(ends) if offset - end > (2 * _BUBBLE + 0.6) * scale), len(ends))
            ends[row : row + 1] = [offset]
            low = begin - (3.0 + _BUBBLE + row * (2 * _BUBBLE + 0.8)) * scale
            # A letter stands at an x, a number at a y.
            middle, top, foot = ((offset, up) if along[0] else (up, offset)
                                 for up in (low, low + _BUBBLE * scale, begin - scale))  # fmt: skip
            yield Stroke(layer="grid", points=(top, foot), width=0.13, tone=GREY)
            yield Ring(layer="grid", middle=middle, radius=_BUBBLE * scale)
            yield Label(layer="grid", text=name, at=middle, height=2.2)
