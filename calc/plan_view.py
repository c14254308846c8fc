"""The plan of the ground storey as a picture to scale: where every stroke and mark stands on a square sheet.

Covers   walls, openings, columns, grid lines, the centre of what is lifted, jacks of a jack plan, a scale bar, north.
Not      how strokes look (addin), upper storeys, rooms, where jacks go (jack_plan).
Signs    x east, y north; on the picture across to the right and up, 0 in its middle.
Units    m in the house; on the picture a share of its side, from -1/2 to 1/2.
Sources  none: the choice of what is shown is this project's.

The house fills four fifths of the sheet; the rest holds the names of the grid lines, the bar and north. Everything
follows the entries, so a wall that is moved moves on the picture too. Jacks stand where the plan has put them at issue.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from calc.fields import note, quantity
from calc.jack_plan_rows import PlannedJack
from calc.number import Filed, Name, Number, Text, ceil, fixed, maximum, minimum, text_of, value_of
from calc.own_loads import storey_name
from calc.own_rows import LineRow, OwnLoads, WallRow
from calc.survey import GridLine, Survey
from calc.take_down_rows import HouseTotals

GROUND = storey_name(1)
EDGE = 32
"""Marks in the margin stand this part of the sheet from its edge, clear of jacks beside a column at a corner."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlanFrame:
    """The sheet: what part of the world it shows, and where the marks in its margin stand."""

    west: Number = quantity("m", "least x of the letter lines")
    east: Number = quantity("m", "greatest x of the letter lines")
    south: Number = quantity("m", "least y of the number lines")
    north: Number = quantity("m", "greatest y of the number lines")
    x: Number = quantity("m", "x of the middle of the sheet")
    y: Number = quantity("m", "y of the middle of the sheet")
    size: Number = quantity("m", "the greater side of the house")
    side: Number = quantity("m", "side of the sheet in the house")
    margin: Number = quantity("-", "marks above and to the right, from the middle")
    far_margin: Number = quantity("-", "marks below and to the left, from the middle")
    north_start: Number = quantity("-", "where the line that points north begins, above the middle")
    bar: Number = quantity("m", "length of the scale bar, whole metres")
    bar_end: Number = quantity("-", "where the scale bar ends, to the right of the middle")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlanOpening:
    """One opening of a ground wall."""

    wall: Text = note("wall")
    kind: str = note("door, window or vent")
    near: Number = quantity("m", "near jamb, from the wall's From point")
    width: Number = quantity("m", "width")
    far: Number = quantity("m", "far jamb, from the wall's From point")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlanStroke:
    """A straight line on the picture."""

    name: Text = note("what it is")
    kind: str = note("wall, window, vent, scale bar or north")
    across_start: Number = quantity("-", "where it begins, to the right of the middle")
    across_end: Number = quantity("-", "where it ends, to the right of the middle")
    up_start: Number = quantity("-", "where it begins, above the middle")
    up_end: Number = quantity("-", "where it ends, above the middle")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlanPiece(PlanStroke):
    """A stretch of a wall."""

    length: Number = quantity("m", "length of its wall")
    x_wall: Number = quantity("m", "x of the wall's From point")
    y_wall: Number = quantity("m", "y of the wall's From point")
    dx: Number = quantity("m", "run of the wall east")
    dy: Number = quantity("m", "run of the wall north")
    begins: Number = quantity("m", "where it begins, from the wall's From point")
    ends: Number = quantity("m", "where it ends, from the wall's From point")
    start_share: Number = quantity("-", "where it begins, of the wall's length")
    end_share: Number = quantity("-", "where it ends, of the wall's length")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlanMark:
    """A named point on the picture."""

    name: Text = note("what is written beside it")
    kind: str = note("line, wall across, wall up, column, centre or north")
    across: Number = quantity("-", "to the right of the middle")
    up: Number = quantity("-", "above the middle")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlanJack:
    """One jack on the picture."""

    name: str = note("mark")
    circuit: str = note("circuit it is on; none where jacks are steered one by one")
    member: str = note("wall or column it lifts")
    kind: str = note("under a wall across, a wall up, or at a column")
    x: Number = quantity("m", "east, as planned at issue")
    y: Number = quantity("m", "north, as planned at issue")
    across: Number = quantity("-", "to the right of the middle")
    up: Number = quantity("-", "above the middle")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlanView:
    """The whole picture."""

    frame: PlanFrame
    openings: tuple[PlanOpening, ...]
    pieces: tuple[PlanPiece, ...]
    legend: tuple[PlanStroke, ...]
    marks: tuple[PlanMark, ...]
    jacks: tuple[PlanJack, ...]


def plan_view(survey: Survey, own: OwnLoads, house: HouseTotals, jacks: Sequence[PlannedJack] = ()) -> PlanView:
    """The plan of the ground storey.

    Args:
        survey: the entries
        own: parts of the house and where they are
        house: for the centre of what is lifted
        jacks: of a jack plan, where there is one
    """
    frame = _frame(survey.letters, survey.numbers)
    ground = [(line, wall) for line, wall in zip(own.wall_lines, own.walls, strict=True) if wall.storey == 1]
    openings = tuple(_openings([wall for _, wall in ground], own))
    return PlanView(
        frame=frame, openings=openings, pieces=tuple(_pieces(frame, [line for line, _ in ground], openings)),
        legend=tuple(_legend(frame)),
        marks=(*_lines(frame, survey), *_names(frame, ground), *_columns(frame, own),
               _mark(frame, Name("centre of load"), "centre", house.x, house.y),
               PlanMark(name=Name("N"), kind="north", across=frame.margin, up=frame.margin)),
        jacks=tuple(_jacks(frame, [line for line, _ in ground], jacks)),
    )  # fmt: skip


def _frame(letters: Sequence[GridLine], numbers: Sequence[GridLine]) -> PlanFrame:
    xs, ys = [line.offset for line in letters], [line.offset for line in numbers]
    west, east, south, north = minimum(*xs), maximum(*xs), minimum(*ys), maximum(*ys)
    size = maximum(east - west, north - south)
    side = size + size / 4
    margin = fixed(1 / 2 - 1 / EDGE, side)
    far_margin = 0 - margin
    metre = fixed(1.0, side, side)
    bar = ceil(side / 4 / metre) * metre
    return PlanFrame(
        west=west, east=east, south=south, north=north, x=(west + east) / 2, y=(south + north) / 2, size=size,
        side=side, margin=margin, far_margin=far_margin, north_start=margin - margin / 4, bar=bar,
        bar_end=far_margin + bar / side,
    )  # fmt: skip


def _openings(walls: Sequence[WallRow], own: OwnLoads) -> Iterator[PlanOpening]:
    """Wall by wall, in order along each."""
    for wall in walls:
        there = [row for row in own.openings if text_of(row.wall) == text_of(wall.name)]
        for row in sorted(there, key=lambda row: value_of(row.from_start)):
            yield PlanOpening(wall=wall.name, kind=text_of(row.kind), near=row.from_start, width=row.width,
                              far=row.from_start + row.width)  # fmt: skip


def _pieces(frame: PlanFrame, lines: Sequence[LineRow], openings: Sequence[PlanOpening]) -> Iterator[PlanPiece]:
    """Walls in pieces between their openings, and a piece for each window and vent; a door is what is left open.

    Nothing lies over anything else, for programs differ in which of two strokes they draw last.
    """
    names = [line.name for line in lines]
    filed = {key: Filed(names, [getattr(line, key) for line in lines])
             for key in ("length", "x_start", "y_start", "dx", "dy")}  # fmt: skip
    for line in lines:
        begins = fixed(0.0, line.length, line.length)
        for opening in openings:
            if text_of(opening.wall) != text_of(line.name):
                continue
            yield _piece(frame, line.name, "wall", filed, begins, opening.near)
            if opening.kind != "door":
                yield _piece(frame, line.name, opening.kind, filed, opening.near, opening.far)
            begins = opening.far
        yield _piece(frame, line.name, "wall", filed, begins, line.length)


def _piece(
    frame: PlanFrame, name: Text, kind: str, filed: Mapping[str, Filed], begins: Number, ends: Number
) -> PlanPiece:
    """A stretch of a wall, from one distance along it to another."""
    length, x, y, dx, dy = (filed[key].at(name) for key in ("length", "x_start", "y_start", "dx", "dy"))
    near, far = begins / length, ends / length
    return PlanPiece(
        name=name, kind=kind, length=length, x_wall=x, y_wall=y, dx=dx, dy=dy, begins=begins, ends=ends,
        start_share=near, end_share=far, across_start=(x + dx * near - frame.x) / frame.side,
        across_end=(x + dx * far - frame.x) / frame.side, up_start=(y + dy * near - frame.y) / frame.side,
        up_end=(y + dy * far - frame.y) / frame.side,
    )  # fmt: skip


def _legend(frame: PlanFrame) -> Iterator[PlanStroke]:
    """The scale bar above the house to the left, north to the right."""
    yield PlanStroke(name="scale bar", kind="scale bar", across_start=frame.far_margin, across_end=frame.bar_end,
                     up_start=frame.margin, up_end=frame.margin)  # fmt: skip
    yield PlanStroke(name="north", kind="north", across_start=frame.margin, across_end=frame.margin,
                     up_start=frame.north_start, up_end=frame.margin)  # fmt: skip


def _mark(frame: PlanFrame, name: Text, kind: str, x: Number, y: Number) -> PlanMark:
    return PlanMark(name=name, kind=kind, across=(x - frame.x) / frame.side, up=(y - frame.y) / frame.side)


def _lines(frame: PlanFrame, survey: Survey) -> Iterator[PlanMark]:
    """Letters along the lower edge, numbers along the left one."""
    for letter in survey.letters:
        yield PlanMark(name=letter.name, kind="line", across=(letter.offset - frame.x) / frame.side,
                       up=frame.far_margin)  # fmt: skip
    for number in survey.numbers:
        yield PlanMark(name=number.name, kind="line", across=frame.far_margin,
                       up=(number.offset - frame.y) / frame.side)  # fmt: skip


def _names(frame: PlanFrame, ground: Sequence[tuple[LineRow, WallRow]]) -> Iterator[PlanMark]:
    for line, wall in ground:
        yield _mark(frame, wall.name, _lies(line), wall.x, wall.y)


def _lies(line: LineRow) -> str:
    flat = value_of(line.dx) ** 2 >= value_of(line.dy) ** 2
    return "wall across" if flat else "wall up"


def _jacks(frame: PlanFrame, lines: Sequence[LineRow], jacks: Sequence[PlannedJack]) -> Iterator[PlanJack]:
    """Circuit by circuit, so that those of one stand in rows one under the other."""
    kinds = {text_of(line.name): _lies(line) for line in lines}
    for circuit in dict.fromkeys(jack.circuit for jack in jacks):
        for jack in jacks:
            if jack.circuit != circuit:
                continue
            x, y = fixed(jack.x, frame.side, frame.side), fixed(jack.y, frame.side, frame.side)
            yield PlanJack(name=jack.name, circuit=circuit, member=jack.member, x=x, y=y,
                           kind=kinds.get(jack.member, "column"), across=(x - frame.x) / frame.side,
                           up=(y - frame.y) / frame.side)  # fmt: skip


def _columns(frame: PlanFrame, own: OwnLoads) -> Iterator[PlanMark]:
    for row in own.members:
        if row.kind == "column" and row.storey == GROUND:
            yield _mark(frame, row.name, "column", row.x_start, row.y_start)
