"""The sheet round the plan: heading, lists of jacks and carrier beams, legend, cautions, signature, title.

Covers   what stands in the band on the right and in the heading, as shapes; how wide the band must be.
Not      the plan itself (house, chains, naming), the choice of paper (composing).
Rules    the heading says NOT RELEASED FOR LIFTING unless the house is released. Nothing is left out for want of room: a
         band that is too long for its paper takes a larger one.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import zip_longest

from addin.drawing.house import JACK, MM, House
from addin.drawing.shapes import (
    BLACK,
    DARK,
    GREY,
    Area,
    Label,
    Mark,
    Place,
    Shape,
    Sheet,
    Stroke,
    symbol,
    text_width,
    turned_box,
    wrapped,
)
from calc.jack_plan_rows import MemberPlan, PlannedJack

MARGIN = 10.0
"""Round the sheet [mm of paper]."""

HEADING = 11.0
"""Height of the heading [mm of paper]."""

_TEXT, _ROW = 1.7, 3.4
"""Height of capitals and of a row in the lists [mm of paper]."""

_HEADS = 3
"""Lines of the head of the list of jacks."""

_LEAST = 92.0
"""Width of the band: what the title needs [mm of paper]."""

NOT_RELEASED = "NOT RELEASED FOR LIFTING"

_CAUTIONS = (
    "The figures prepare a decision and do not replace one. Reactions are predicted, not measured.",
    "Dimensions are along centre lines, from the From point of each wall, in millimetres. Check every one on site "
    "before anything is dug or cut; do not measure from the print.",
    "Ground, footings, masonry and mortar are confirmed at each base before it carries. No one is inside from the first "
    "cut until the load is back on masonry; nobody is under a load that stands on jacks alone.",
    "Approval rests with the licensed engineer and the local authority; local codes come before this drawing.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Title:
    """What the sheet says about the job."""

    job: str
    place: str
    issued_on: date
    released: bool
    open_answers: int
    engineer: str
    licence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """The shapes round the plan, and what they leave for it [mm of paper]."""

    shapes: tuple[Shape, ...]
    left: float
    right: float
    low: float
    top: float


class TooLong(Exception):  # noqa: N818 - it tells the choice of paper to take a larger one
    """The band does not fit on this paper."""


def heading_of(title: Title) -> str:
    """What stands across the top of the sheet."""
    if title.released:
        return f"Released for lifting by its engineer: {title.engineer}, licence {title.licence}"
    many = "answer" if title.open_answers == 1 else "answers"
    return f"{NOT_RELEASED}: {title.open_answers} {many} open; the sheet Checks of the estimate lists them"


def warnings_of(house: House) -> tuple[str, ...]:
    """What is wrong with the plan itself, first of all on the sheet."""
    plan = house.plan
    found = [f"STOP: no jack plan for {member.name}: {member.why_not or 'it has no jacks'}"
             for member in plan.members if not member.jacks]  # fmt: skip
    found += [f"STOP: jacks {one} and {other} are {apart * MM:.0f} mm apart, nearer than the closest spacing."
              for one, other, apart in plan.close]  # fmt: skip
    if plan.steering is None:
        found.append(f"No circuits: {plan.steering_why or 'jacks are steered one by one'}")
    if any(not member.chosen for member in plan.members):
        found.append("* The survey does not choose this lifting system; the usual one is taken.")
    return tuple(found)


def band(house: House, title: Title, sheet: Sheet) -> Band:
    """Everything round the plan on a sheet of paper.

    Args:
        house: for its lists
        title: for its words
        sheet: paper and scale

    Raises:
        TooLong: it does not fit
    """
    rows = _rows(house)
    widths = _widths(rows)
    for columns in range(1, 6):
        wide = max(_LEAST, columns * (sum(widths) + 3.0) - 3.0)
        left = sheet.width - MARGIN - wide
        writer = _Writer(sheet, left, sheet.width - MARGIN)
        low = _foot(writer, house, title)
        high = sheet.height - MARGIN - HEADING - 2.0 - low
        fit = int(high / _ROW)
        if fit > _HEADS and _columns_needed(rows, fit) <= columns:
            _lists(writer, rows, widths, sheet.height - MARGIN - HEADING - 2.0, fit)
            shapes = (*_frame(sheet, title, left), *writer.shapes)
            return Band(shapes=shapes, left=MARGIN, right=left - 3.0, low=MARGIN, top=sheet.height - MARGIN - HEADING)
    raise TooLong


# ------------------------------------------------------------------------------------------ writing on paper


class _Writer:
    """Puts shapes at places of the paper."""

    def __init__(self, sheet: Sheet, left: float, right: float) -> None:
        self.sheet, self.left, self.right = sheet, left, right
        self.shapes: list[Shape] = []

    def text(self, across: float, up: float, text: str, height: float = _TEXT, bold: bool = False) -> None:
        """A text that begins at a place."""
        self.shapes.append(Label(layer="sheet", text=text, at=self.sheet.at(across, up), height=height, across="left",
                                 bold=bold))  # fmt: skip

    def line(self, *points: Place, width: float = 0.18, dashes: str = "", tone: float = BLACK) -> None:
        """A stroke through places."""
        self.shapes.append(Stroke(layer="sheet", points=tuple(self.sheet.at(*p) for p in points), width=width,
                                  dashes=dashes, tone=tone))  # fmt: skip

    def box(self, left: float, low: float, right: float, top: float, width: float = 0.25) -> None:
        """A frame."""
        corners = tuple(self.sheet.at(*p) for p in ((left, low), (right, low), (right, top), (left, top)))
        self.shapes.append(Stroke(layer="sheet", points=corners, closed=True, width=width))


def _frame(sheet: Sheet, title: Title, left: float) -> Iterator[Shape]:
    writer = _Writer(sheet, MARGIN, sheet.width - MARGIN)
    top = sheet.height - MARGIN
    writer.box(MARGIN, MARGIN, sheet.width - MARGIN, top, width=0.5)
    writer.line((MARGIN, top - HEADING), (sheet.width - MARGIN, top - HEADING), width=0.5)
    writer.line((left - 1.5, MARGIN), (left - 1.5, top - HEADING), width=0.35)
    height = min(4.2, 4.2 * (sheet.width - 2 * MARGIN - 6) / text_width(heading_of(title), 4.2, True))
    writer.shapes.append(Label(layer="sheet", text=heading_of(title), at=sheet.at(sheet.width / 2, top - HEADING / 2),
                               height=height, bold=True))  # fmt: skip
    yield from writer.shapes


# ------------------------------------------------------------------------------------------ lists


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    cells: tuple[str, ...]
    head: bool = False


def _rows(house: House) -> list[_Row]:
    """The list of jacks and the list of carrier beams, one under the other."""
    off = any(jack.kind == "wall" and abs(jack.across) * MM >= 1 for jack in house.plan.jacks)
    heads = (("Jack", "Under", "From", "Off", "Reaction", "Base", "Circuit"),
             ("", "", "start", "line", "soft/stiff", "", ""), ("", "", "mm", "mm", "kN", "mm", ""))  # fmt: skip
    kept = [_Row(cells=tuple(cell for n, cell in enumerate(head) if off or n != 3), head=True) for head in heads]
    jacks = [_Row(cells=_jack_cells(jack, house, off)) for jack in house.plan.jacks]
    beams = [_Row(cells=(member.name, _beam(member), "", *(("",) if off else ()), "", "", ""))
             for member in house.plan.members if member.jacks]  # fmt: skip
    beam_head = _Row(cells=("Under", "Carrier beams and lifting system", *("" for _ in kept[0].cells[2:])), head=True)
    return [*kept, *jacks, beam_head, *beams]


def _jack_cells(jack: PlannedJack, house: House, off: bool) -> tuple[str, ...]:
    column = next((box for name, box in house.columns if name == jack.member and jack.kind != "wall"), None)
    start = f"{jack.at * MM:.0f}"
    if column is not None:
        start = _offset(jack.x * MM - (column[0][0] + column[2][0]) / 2, jack.y * MM - (column[0][1] + column[2][1]) / 2)
    side = f"{abs(jack.across) * MM:.0f} {'left' if jack.across > 0 else 'right'}"
    beside = side if column is None and abs(jack.across) * MM >= 1 else ""
    strip = any(base.strip and jack in base.jacks for base in house.bases)
    size = f"{jack.base_side * MM:.0f}"
    base = f"strip {size}x{jack.base_thickness * MM:.0f}" if strip else f"{size}x{size}x{jack.base_thickness * MM:.0f}"
    return (jack.name, jack.member, start, *((beside,) if off else ()), f"{jack.soft:.1f}/{jack.stiff:.1f}", base,
            jack.circuit or "single")  # fmt: skip


def _offset(east: float, north: float) -> str:
    """Off the middle of a column, in words.

    >>> _offset(-450.0, 0.2), _offset(300.0, 120.0)
    ('450 W', '300 E 120 N')
    """
    parts = [f"{abs(run):.0f} {words[run < 0]}" for run, words in ((east, "EW"), (north, "NS")) if abs(run) >= 1]
    return " ".join(parts) or "0"


def _beam(member: MemberPlan) -> str:
    return f"{member.side_by_side} x {member.section}, {member.system}{'' if member.chosen else ' *'}"


def _widths(rows: Sequence[_Row]) -> list[float]:
    """Of each column of the lists; texts of the second list reach over the columns after them."""
    first = rows[: next((n for n, row in enumerate(rows) if row.head and n >= _HEADS), len(rows))]
    widths = [max(text_width(row.cells[n], _TEXT, row.head) for row in first) + 2.0 for n in range(len(rows[0].cells))]
    rest = [max(text_width(row.cells[0], _TEXT), 8.0) + 2.0 + text_width(row.cells[1], _TEXT, row.head) + 1.0
            for row in rows[len(first):]]  # fmt: skip
    widths[-1] += max(0.0, max(rest, default=0.0) - sum(widths))
    return widths


def _columns_needed(rows: Sequence[_Row], fit: int) -> int:
    """Columns of the list when each begins with the lines of its head."""
    return -(-(len(rows) - _HEADS) // (fit - _HEADS))


def _lists(writer: _Writer, rows: Sequence[_Row], widths: Sequence[float], top: float, fit: int) -> None:
    head, body = rows[:_HEADS], rows[_HEADS:]
    columns = _columns_needed(rows, fit)
    each = -(-len(body) // columns)
    beams_begin = next((n for n, row in enumerate(body) if row.head), len(body))
    for column in range(columns):
        left = writer.left + column * (sum(widths) + 3.0)
        part = body[column * each : (column + 1) * each]
        # A column with carrier beams alone needs no head of jacks; it keeps the space, so that rows stay in line.
        heads = head if column * each < beams_begin else [_Row(cells=("",))] * _HEADS
        if column * each > beams_begin:
            heads = [*heads[1:], body[beams_begin]]
        for order, row in enumerate((*heads, *part)):
            _row(writer, row, left, top - _ROW * (order + 0.5), widths, order + column * each - _HEADS >= beams_begin)
        writer.line((left, top), (left + sum(widths), top), width=0.25)


def _row(writer: _Writer, row: _Row, left: float, middle: float, widths: Sequence[float], beam: bool) -> None:
    place = left
    for cell, width in zip_longest(row.cells, widths, fillvalue=""):
        if cell:
            writer.text(place + 0.8, middle, str(cell), bold=row.head)
        place += float(width or 0.0) if not (beam or row.cells[:1] == ("Under",)) else 10.0
    writer.line((left, middle - _ROW / 2), (left + sum(widths), middle - _ROW / 2), width=0.25 if row.head else 0.09,
                tone=BLACK if row.head else GREY)  # fmt: skip


# ------------------------------------------------------------------------------------------ foot of the band


def _foot(writer: _Writer, house: House, title: Title) -> float:
    """Title, signature, cautions and legend from below; gives back where they end."""
    low = _title(writer, title, MARGIN)
    low = _signature(writer, title, low)
    low = _words(writer, house, low)
    return _legend(writer, house, low)


def _title(writer: _Writer, title: Title, low: float) -> float:
    left, wide = writer.left + 1.5, writer.right - writer.left - 3.0
    paper = f"Scale 1:{writer.sheet.scale:.0f} on {writer.sheet.paper}"
    grade = "released for lifting" if title.released else f"budget, not for lifting; {title.open_answers} answers open"
    names = wrapped(title.job or "Job without a name", wide, 3.4, True)
    places = wrapped(title.place, wide, 2.0) if title.place else []
    up = low + 3.0
    for text, height in ((f"Issued {title.issued_on:%Y-%m-%d}. Sheet 1 of 1", 2.0),
                         (f"{paper}, dimensions in mm", 2.0), (f"Grade: {grade}", 2.0), ("Jack plan of the ground storey", 2.8)):  # fmt: skip
        writer.text(left, up, text, height, bold=height > 2.0)
        up += 4.2
    for text in reversed(places):
        writer.text(left, up, text, 2.0)
        up += 3.8
    up += 0.8
    for text in reversed(names):
        writer.text(left, up, text, 3.4, bold=True)
        up += 5.6
    return _ruled(writer, up - 1.0)


def _signature(writer: _Writer, title: Title, low: float) -> float:
    left, half = writer.left + 1.5, (writer.right - writer.left) / 2
    for across, up, label, given in (
        (left, low + 9.5, "Licensed engineer", title.engineer), (left + half, low + 9.5, "Licence", title.licence),
        (left, low + 3.0, "Signature", ""), (left + half, low + 3.0, "Date", ""),
    ):  # fmt: skip
        writer.text(across, up, label, 1.6)
        begin = across + text_width("Licensed engineer" if across == left else "Licence", 1.6) + 1.5
        writer.text(begin, up, given, 2.0)
        writer.line((begin, up - 1.6), (across + half - 4.0, up - 1.6))
    return _ruled(writer, low + 14.0)


def _words(writer: _Writer, house: House, low: float) -> float:
    wide = writer.right - writer.left - 3.0
    lines = [(line, True) for text in warnings_of(house) for line in wrapped(text, wide, 1.8, True)]
    lines += [(line, False) for text in _CAUTIONS for line in wrapped(text, wide, 1.6)]
    up = low + 2.4
    for text, bold in reversed(lines):
        writer.text(writer.left + 1.5, up, text, 1.8 if bold else 1.6, bold)
        up += 3.0
    return _ruled(writer, up - 0.4)


def _ruled(writer: _Writer, up: float) -> float:
    writer.line((writer.left - 1.5, up), (writer.right, up), width=0.35)
    return up


def _legend(writer: _Writer, house: House, low: float) -> float:
    """Symbols and lines in as many columns as there is room for, scale bar and north under them."""
    entries: list[tuple[str, str]] = [("circuit", name) for name in house.symbols]
    entries += [(kind, text) for kind, text in _KINDS.items() if kind != "beam" or house.plan.members]
    up = _scale_bar(writer, low)
    wide = max(text_width(_entry_text(kind, text, house), _TEXT) for kind, text in entries) + 10.0
    columns = max(1, int((writer.right - writer.left - 16.0) / wide))
    high = -(-len(entries) // columns)
    for order, (kind, text) in enumerate(entries):
        across, down = divmod(order, high)
        place = writer.left + 4.0 + across * wide, up + 2.5 + (high - 1 - down) * 4.0
        _sign(writer, kind, text, place, house)
        writer.text(place[0] + 4.5, place[1], _entry_text(kind, text, house))
    _north(writer, (writer.right - 7.0, low + 4.0))
    return _ruled(writer, max(up + high * 4.0 + 0.5, low + 24.0))


_KINDS = {
    "wall": "wall, with the gap of a door and the lines of a window",
    "base": "base or strip under a jack",
    "beam": "carrier beam",
    "from": "From point of the wall: its chain begins here",
    "centre": "centre of what is lifted",
}


def _entry_text(kind: str, text: str, house: House) -> str:
    if kind != "circuit":
        return text
    jacks = [jack for jack in house.plan.jacks if jack.circuit == text]
    force = next((c.force for c in house.plan.steering.circuits if c.name == text), None) if house.plan.steering else None
    name = f"circuit {text}" if text else "jack, steered by itself"
    return f"{name}: {len(jacks)} jacks" + (f", {force:.0f} kN" if force is not None else "")


def _sign(writer: _Writer, kind: str, text: str, place: Place, house: House) -> None:
    at, scale = writer.sheet.at(*place), writer.sheet.scale
    x, y = place
    if kind == "circuit":
        shape, tone = house.symbols[text]
        writer.shapes.append(Mark(layer="sheet", name="", middle=at, symbol=shape, tone=tone, radius=JACK * scale))
    elif kind == "wall":
        writer.shapes.append(Area(layer="sheet", points=turned_box(at, -3 * scale, 3 * scale, -scale, scale, 0.0)))
        writer.line((x - 3, y - 1), (x + 3, y - 1), width=0.35)
        writer.line((x - 3, y + 1), (x + 3, y + 1), width=0.35)
    elif kind == "base":
        corners = ((x - 1.4, y - 1.4), (x + 1.4, y - 1.4), (x + 1.4, y + 1.4), (x - 1.4, y + 1.4), (x - 1.4, y - 1.4))
        writer.line(*corners, width=0.25, dashes="dashed", tone=DARK)
    elif kind == "beam":
        writer.line((x - 3, y), (x + 3, y), width=0.5, dashes="dash-dot", tone=DARK)
    elif kind == "from":
        writer.shapes.append(Area(layer="sheet", points=symbol("circle", at, 0.8 * scale), tone=BLACK))
    else:
        writer.box(x - 1.4, y - 1.4, x + 1.4, y + 1.4)
        writer.line((x - 1.4, y - 1.4), (x + 1.4, y + 1.4))
        writer.line((x - 1.4, y + 1.4), (x + 1.4, y - 1.4))


def _scale_bar(writer: _Writer, low: float) -> float:
    """A bar of whole metres, in fields of one."""
    metre = MM / writer.sheet.scale
    metres = max(1, int((writer.right - writer.left - 30.0) / metre))
    left, up = writer.left + 3.0, low + 2.0
    for field in range(metres):
        ends = (left + field * metre, left + (field + 1) * metre)
        writer.box(ends[0], up, ends[1], up + 1.5, width=0.18)
        if field % 2 == 0:
            corners = ((ends[0], up), (ends[1], up), (ends[1], up + 1.5), (ends[0], up + 1.5))
            writer.shapes.append(Area(layer="sheet", points=tuple(writer.sheet.at(*p) for p in corners), tone=BLACK))
    writer.text(left - 0.5, up + 3.2, "0", 1.6)
    writer.text(left + metres * metre - 1.0, up + 3.2, f"{metres} m", 1.6)
    return up + 5.0


def _north(writer: _Writer, foot: Place) -> None:
    x, y = foot
    writer.line((x, y), (x, y + 14), width=0.35)
    writer.shapes.append(Area(layer="sheet", tone=BLACK, points=tuple(
        writer.sheet.at(*p) for p in ((x - 1.5, y + 9), (x + 1.5, y + 9), (x, y + 14)))))  # fmt: skip
    writer.text(x - 1.2, y + 16.5, "N", 2.6, bold=True)
