"""The lists on the sheet: every jack, then every carrier beam, in as many columns as are needed.

Covers   what each row says, how wide the columns are, where rows stand; the writer that puts shapes on paper.
Not      what else is on the sheet (band).
"""

from collections.abc import Sequence
from dataclasses import dataclass

from addin.drawing.house import MM, House, size_of
from addin.drawing.shapes import BLACK, GREY, Label, Place, Shape, Sheet, Stroke, text_width
from calc.jack_plan_rows import MemberPlan, PlannedJack

TEXT, ROW = 1.7, 3.2
"""Height of capitals and of a row [mm of paper]."""

GAP = 3.0
"""Between two columns of a list [mm of paper]."""

HEADS = (("Jack", "Under", "From", "Off", "Reaction", "Base", "Circuit"),
         ("", "", "start", "line", "soft/stiff", "", ""), ("", "", "mm", "mm", "kN", "mm", ""))  # fmt: skip
"""The lines at the head of the list of jacks; Off only where a jack stands beside its wall."""

_OFF = 3
_BEAMS = (("", ""), ("", ""), ("Under", "Carrier beams and lifting system"))
"""The same lines where a column begins with carrier beams."""


class Writer:
    """Puts shapes at places of the paper."""

    def __init__(self, sheet: Sheet, left: float, right: float) -> None:
        self.sheet, self.left, self.right = sheet, left, right
        self.shapes: list[Shape] = []

    def text(self, across: float, up: float, text: str, height: float = TEXT, bold: bool = False) -> None:
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Lists:
    """Rows of both lists and the widths of their columns."""

    heads: tuple[tuple[str, ...], ...]
    jacks: tuple[tuple[str, ...], ...]
    beams: tuple[tuple[str, str], ...]
    widths: tuple[float, ...]

    @property
    def width(self) -> float:
        """Of one column of rows."""
        return sum(self.widths)

    def columns(self, rows: int) -> int:
        """Columns needed when each has room for some rows; 0 where there is none."""
        room = rows - len(self.heads)
        return -(-(len(self.jacks) + 1 + len(self.beams)) // room) if room > 0 else 0

    def write(self, writer: Writer, top: float, columns: int) -> None:
        """Put the rows on paper, from the top down, as many in each column."""
        body = [*(("jack", row) for row in self.jacks), ("head", _BEAMS[-1]), *(("beam", row) for row in self.beams)]
        each = -(-len(body) // columns)
        for column in range(columns):
            left = writer.left + column * (self.width + GAP)
            part = body[column * each : (column + 1) * each]
            heads = {"jack": self.heads, "head": (("",),) * len(HEADS)}.get(part[0][0] if part else "head", _BEAMS)
            for order, (kind, row) in enumerate((*(("head", head) for head in heads), *part)):
                self._row(writer, kind, row, left, top - ROW * (order + 0.5))

    def _row(self, writer: Writer, kind: str, row: Sequence[str], left: float, middle: float) -> None:
        widths = self.widths if len(row) == len(self.widths) else (_mark_width(self.beams), self.width)
        place = left
        for cell, width in zip(row, widths, strict=False):
            if cell:
                writer.text(place + 0.8, middle, cell, TEXT, bold=kind == "head")
            place += width
        head = kind == "head"
        writer.line((left, middle - ROW / 2), (left + self.width, middle - ROW / 2), width=0.25 if head else 0.09,
                    tone=BLACK if head else GREY)  # fmt: skip


def lists_of(house: House) -> Lists:
    """The lists of a house."""
    off = any(jack.kind == "wall" and abs(jack.across) * MM >= 1 for jack in house.plan.jacks)
    heads, jacks = ([tuple(cell for n, cell in enumerate(row) if off or n != _OFF) for row in rows]
                    for rows in (HEADS, [_cells(jack, house) for jack in house.plan.jacks]))  # fmt: skip
    beams = tuple((member.name, _beam(member)) for member in house.plan.members if member.jacks)
    widths = [
        max(text_width(row[n], TEXT, row in heads) for row in (*heads, *jacks)) + 2.2 for n in range(len(heads[0]))
    ]
    long = max([text_width(_BEAMS[-1][1], TEXT, True), *(text_width(text, TEXT) for _, text in beams)])
    widths[-1] += max(0.0, _mark_width(beams) + long + 2.0 - sum(widths))
    return Lists(heads=tuple(heads), jacks=tuple(jacks), beams=beams, widths=tuple(widths))


def _mark_width(beams: Sequence[tuple[str, str]]) -> float:
    return max([text_width(_BEAMS[-1][0], TEXT, True), *(text_width(name, TEXT) for name, _ in beams)]) + 2.2


def _cells(jack: PlannedJack, house: House) -> tuple[str, ...]:
    column = next((box for name, box in house.columns if name == jack.member and jack.kind != "wall"), None)
    start, beside = f"{jack.at * MM:.0f}", ""
    if column is not None:
        east, north = ((column[0][axis] + column[2][axis]) / 2 for axis in (0, 1))
        start = _offset(jack.x * MM - east, jack.y * MM - north)
    elif abs(jack.across) * MM >= 1:
        beside = f"{abs(jack.across) * MM:.0f} {'L' if jack.across > 0 else 'R'}"
    base = next(size_of(base) for base in house.bases if jack in base.jacks)
    return (jack.name, jack.member, start, beside, f"{jack.soft:.1f}/{jack.stiff:.1f}", base, jack.circuit or "single")


def _offset(east: float, north: float) -> str:
    """Off the middle of a column, in words.

    >>> _offset(-450.0, 0.2), _offset(300.0, 120.0)
    ('450 W', '300 E 120 N')
    """
    parts = [f"{abs(run):.0f} {words[run < 0]}" for run, words in ((east, "EW"), (north, "NS")) if abs(run) >= 1]
    return " ".join(parts) or "0"


def _beam(member: MemberPlan) -> str:
    beam = f"{member.side_by_side} x {member.section}, " if member.kind == "wall" else ""
    return f"{beam}{member.system}{'' if member.chosen else ' *'}"
