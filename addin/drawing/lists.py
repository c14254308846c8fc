"""The list on the sheet: wall by wall its carrier beam and its jacks, in as many columns as are needed.

Covers   what each row says, how wide the columns are, where rows stand; the writer that puts shapes on paper.
Not      what else is on the sheet (band).
"""

from collections.abc import Sequence
from dataclasses import dataclass

from addin.drawing.house import MM, House, size_of
from addin.drawing.shapes import BLACK, GREY, Label, Place, Shape, Sheet, Stroke, text_width
from calc.jack_plan_rows import MemberPlan, PlannedJack

TEXT, ROW = 1.6, 3.2
"""Height of capitals and of a row [mm of paper]."""

GAP = 3.0
"""Between two columns of the list [mm of paper]."""

HEADS = (("Jack", "From", "Off", "Reaction", "Base", "Circuit"),
         ("", "start", "line", "soft/stiff", "", ""), ("", "mm", "mm", "kN", "mm", ""))  # fmt: skip
"""The lines at the head of the list; Off only where a jack stands beside its wall."""

_OFF = 2
_PAD = 2.0


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
    """Rows of the list and the widths of its columns."""

    heads: tuple[tuple[str, ...], ...]
    rows: tuple[tuple[str, ...], ...]
    """A row of one text opens a wall or column; its jacks follow."""
    widths: tuple[float, ...]

    @property
    def width(self) -> float:
        """Of one column of rows."""
        return sum(self.widths)

    def columns(self, rows: int) -> int:
        """Columns needed when each has room for some rows; 0 where there is none."""
        room = rows - len(self.heads)
        return -(-len(self.rows) // room) if room > 0 else 0

    def write(self, writer: Writer, top: float, columns: int) -> None:
        """Put the rows on paper, from the top down, as many in each column."""
        each = -(-len(self.rows) // columns)
        for column in range(columns):
            left = writer.left + column * (self.width + GAP)
            rows = (*self.heads, *self.rows[column * each : (column + 1) * each])
            for order, row in enumerate(rows):
                self._row(writer, row, left, top - ROW * (order + 0.5))

    def _row(self, writer: Writer, row: Sequence[str], left: float, middle: float) -> None:
        head = row in self.heads or len(row) == 1
        place = left
        for cell, width in zip(row, self.widths, strict=False):
            if cell:
                writer.text(place + 0.8, middle, cell, TEXT, bold=head)
            place += width
        writer.line((left, middle - ROW / 2), (left + self.width, middle - ROW / 2), width=0.25 if head else 0.09,
                    tone=BLACK if head else GREY)  # fmt: skip


def lists_of(house: House) -> Lists:
    """The list of a house."""
    off = any(jack.kind == "wall" and abs(jack.across) * MM >= 1 for jack in house.plan.jacks)
    heads = tuple(_kept(row, off) for row in HEADS)
    rows: list[tuple[str, ...]] = []
    for member in house.plan.members:
        rows.append((_member(member),))
        rows += [_kept(_cells(jack, house), off) for jack in house.plan.jacks_of(member.name)]
    full = [row for row in rows if len(row) > 1]
    widths = [max(text_width(row[n], TEXT, row in heads) for row in (*heads, *full)) + _PAD
              for n in range(len(heads[0]))]  # fmt: skip
    long = max((text_width(row[0], TEXT, True) for row in rows if len(row) == 1), default=0.0) + _PAD
    widths[-1] += max(0.0, long - sum(widths))
    return Lists(heads=heads, rows=tuple(rows), widths=tuple(widths))


def _kept(row: tuple[str, ...], off: bool) -> tuple[str, ...]:
    return tuple(cell for n, cell in enumerate(row) if off or n != _OFF)


def _cells(jack: PlannedJack, house: House) -> tuple[str, ...]:
    column = next((box for name, box in house.columns if name == jack.member and jack.kind != "wall"), None)
    start, beside = f"{jack.at * MM:.0f}", ""
    if column is not None:
        east, north = ((column[0][axis] + column[2][axis]) / 2 for axis in (0, 1))
        start = _offset(jack.x * MM - east, jack.y * MM - north)
    elif abs(jack.across) * MM >= 1:
        beside = f"{abs(jack.across) * MM:.0f} {'L' if jack.across > 0 else 'R'}"
    base = next(size_of(base) for base in house.bases if jack in base.jacks)
    return (jack.name, start, beside, f"{jack.soft:.1f}/{jack.stiff:.1f}", base, jack.circuit or "none")


def _offset(east: float, north: float) -> str:
    """Off the middle of a column, in words.

    >>> _offset(-450.0, 0.2), _offset(300.0, 120.0)
    ('450 W', '300 E 120 N')
    """
    parts = [f"{abs(run):.0f} {words[run < 0]}" for run, words in ((east, "EW"), (north, "NS")) if abs(run) >= 1]
    return " ".join(parts) or "0"


def _member(member: MemberPlan) -> str:
    """A wall or column with its carrier beams and lifting system."""
    beam = f"{member.side_by_side} x {member.section}, " if member.kind == "wall" else ""
    found = f"{beam}{member.system}{'' if member.chosen else ' *'}" if member.jacks else "NO JACK PLAN"
    return f"{member.name}: {found}"
