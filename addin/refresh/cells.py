"""Where the cells of a sheet stand in its bytes, so that one can be changed and every other byte stays.

Covers   rows, cells, formulas and results of one sheet part, each with its place in the bytes; applying changes.
Not      what the changes are (grafting, freshening).
Rules    The part is parsed, never searched; its bytes are never written out by a serialiser. Texts of the sheet are
         kept as they stand in it: a shared text is a number here.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any
from xml.parsers import expat
from xml.sax.saxutils import escape, quoteattr

from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import coordinate_to_tuple, range_boundaries

from addin.refresh.package import MAIN, CannotRefresh

Rect = tuple[int, int, int, int]
"""First row, first column, last row, last column."""
Place = tuple[int, int]
"""Row, column."""

_TAG = re.compile(rb"<(?:[^\"'>]|\"[^\"]*\"|'[^']*')*>")
_ENCODING = re.compile(rb"^(?:\xef\xbb\xbf)?<\?xml[^>]*encoding=[\"']([^\"']*)[\"']")
_PREFIX = re.compile(rb"<((?:[^\s:/>]+:)?)")


@dataclass(slots=True, kw_only=True)
class Piece:
    """One element in the bytes of a part."""

    start: int
    inside: int
    """Where its start tag ends."""
    end: int = 0
    attributes: dict[str, str]
    text: str = ""

    def empty(self, data: bytes) -> bool:
        """Whether it is one tag that closes itself."""
        return data[self.inside - 2 : self.inside] == b"/>"


@dataclass(slots=True, kw_only=True)
class CellPiece(Piece):
    """One cell in the bytes of a part."""

    formula: Piece | None = None
    value: Piece | None = None
    written: str | None = None
    """Text that stands in the cell itself."""

    @property
    def kind(self) -> str:
        """Its type as the file has it."""
        return self.attributes.get("t", "n")


@dataclass(slots=True)
class SheetCells:
    """All cells of one sheet part."""

    data: bytes
    prefix: bytes = b""
    rows: dict[int, Piece] = field(default_factory=dict)
    cells: dict[Place, CellPiece] = field(default_factory=dict)
    merged: list[Rect] = field(default_factory=list)
    sheet_data: Piece | None = None
    dimension: Piece | None = None

    @classmethod
    def of(cls, data: bytes) -> "SheetCells":
        """Every cell of a sheet part.

        Raises:
            CannotRefresh: the part is written in an encoding other than UTF-8
        """
        encoding = _ENCODING.match(data)
        if data[:2] in (b"\xff\xfe", b"\xfe\xff") or (encoding and encoding[1].upper() not in (b"UTF-8", b"US-ASCII")):
            raise CannotRefresh("One of its sheets is written in an unusual encoding; open it in a spreadsheet "
                                "program, save it as .xlsx and refresh that.")  # fmt: skip
        found = cls(data)
        _Reader(found).read()
        return found


class _Reader:
    """One pass over a sheet part."""

    def __init__(self, found: SheetCells) -> None:
        self._found = found
        self._row = self._column = 0
        self._open: list[Piece | None] = []
        self._cell: CellPiece | None = None
        self._text: list[str] | None = None
        self._parser = expat.ParserCreate(namespace_separator=" ")
        self._parser.buffer_text = True
        self._parser.StartElementHandler = self._start
        self._parser.EndElementHandler = self._end
        self._parser.CharacterDataHandler = self._characters
        self._steps: dict[str, Any] = {f"{MAIN} {tag}": step for tag, step in (
            ("dimension", self._dimension), ("sheetData", self._sheet_data), ("row", self._start_row),
            ("c", self._start_cell), ("f", self._start_formula), ("v", self._start_value), ("t", self._start_text),
            ("mergeCell", self._merge),
        )}  # fmt: skip

    def read(self) -> None:
        """Fill in what was found."""
        self._parser.Parse(self._found.data, True)

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        step = self._steps.get(name)
        self._open.append(step(attributes) if step else None)

    def _end(self, name: str) -> None:
        piece = self._open.pop()
        if piece is None:
            return
        data, at = self._found.data, self._parser.CurrentByteIndex
        piece.end = piece.inside if piece.empty(data) else data.index(b">", at) + 1
        if self._text is not None and name.endswith((" f", " v", " t")):
            piece.text = "".join(self._text)
            if name.endswith(" t") and self._cell is not None:
                self._cell.written = (self._cell.written or "") + piece.text
            self._text = None
        elif isinstance(piece, CellPiece):
            self._cell = None

    def _characters(self, text: str) -> None:
        if self._text is not None:
            self._text.append(text)

    def _bounds(self) -> tuple[int, int]:
        start = self._parser.CurrentByteIndex
        tag = _TAG.match(self._found.data, start)
        if tag is None:
            raise CannotRefresh("One of its sheets is damaged.")
        return start, tag.end()

    def _piece(self, attributes: dict[str, str]) -> Piece:
        start, inside = self._bounds()
        return Piece(start=start, inside=inside, attributes=attributes)

    def _dimension(self, attributes: dict[str, str]) -> Piece:
        self._found.dimension = self._piece(attributes)
        return self._found.dimension

    def _sheet_data(self, attributes: dict[str, str]) -> Piece:
        piece = self._found.sheet_data = self._piece(attributes)
        prefix = _PREFIX.match(self._found.data, piece.start)
        self._found.prefix = prefix[1] if prefix else b""
        return piece

    def _start_row(self, attributes: dict[str, str]) -> Piece:
        self._row = int(attributes.get("r", self._row + 1))
        self._column = 0
        piece = self._found.rows[self._row] = self._piece(attributes)
        return piece

    def _start_cell(self, attributes: dict[str, str]) -> Piece:
        if "r" in attributes:
            self._row, self._column = coordinate_to_tuple(attributes["r"])
        else:
            self._column += 1  # a cell without an address stands behind the one before it
        start, inside = self._bounds()
        self._cell = CellPiece(start=start, inside=inside, attributes=attributes)
        self._found.cells[self._row, self._column] = self._cell
        return self._cell

    def _start_formula(self, attributes: dict[str, str]) -> Piece | None:
        return self._within(attributes, "formula")

    def _start_value(self, attributes: dict[str, str]) -> Piece | None:
        return self._within(attributes, "value")

    def _within(self, attributes: dict[str, str], name: str) -> Piece | None:
        if self._cell is None:
            return None
        piece = self._piece(attributes)
        setattr(self._cell, name, piece)
        self._text = []
        return piece

    def _start_text(self, attributes: dict[str, str]) -> Piece | None:
        if self._cell is None:
            return None
        self._text = []
        return self._piece(attributes)

    def _merge(self, attributes: dict[str, str]) -> None:
        self._found.merged.append(rect(attributes.get("ref", "A1")))


@dataclass(frozen=True, slots=True)
class Change:
    """Bytes in place of others."""

    start: int
    end: int
    data: bytes


def applied(data: bytes, changes: list[Change]) -> bytes:
    """The part with its changes; those at one place in the order they are given.

    >>> applied(b"abcd", [Change(1, 2, b"X"), Change(4, 4, b"e"), Change(4, 4, b"f")])
    b'aXcdef'
    """
    out, at = [], 0
    for change in sorted(changes, key=lambda change: (change.start, change.end)):
        if change.start < at:
            raise ValueError("two changes at one place")
        out += [data[at : change.start], change.data]
        at = change.end
    return b"".join([*out, data[at:]])


def start_tag(prefix: bytes, name: str, attributes: Mapping[str, str]) -> bytes:
    """A start tag of the spreadsheet vocabulary.

    >>> start_tag(b"x:", "c", {"r": "A1"})
    b'<x:c r="A1">'
    """
    written = "".join(f" {key}={quoteattr(value)}" for key, value in attributes.items())
    return b"<%s%s%s>" % (prefix, name.encode(), written.encode())


def element(prefix: bytes, name: str, text: str) -> bytes:
    """An element that holds a text."""
    kept = {"xml:space": "preserve"} if name == "t" and text != text.strip() else {}
    return start_tag(prefix, name, kept) + escape(text).encode() + b"</%s%s>" % (prefix, name.encode())


def retagged(tag: bytes, values: Mapping[str, str | None]) -> bytes:
    """A start tag with some attributes changed, added or (None) taken out; every other byte stays.

    >>> retagged(b'<c r="B7" s="3"  t="s">', {"t": "str", "s": None})
    b'<c r="B7"  t="str">'
    """
    for name, value in values.items():
        pattern = re.compile(rb"(\s+)%s\s*=\s*(?:\"[^\"]*\"|'[^']*')" % re.escape(name.encode()))
        written = b"" if value is None else b"%s=%s" % (name.encode(), quoteattr(value).encode())
        found = pattern.search(tag)
        if found:
            tag = tag[: found.start()] + (found[1] + written if written else b"") + tag[found.end() :]
        elif written:
            end = len(tag) - (2 if tag.endswith(b"/>") else 1)
            tag = tag[:end].rstrip() + b" " + written + tag[end:]
    return tag


def rect(reference: str) -> Rect:
    """The corners of a range.

    >>> rect("B2:$D$7")
    (2, 2, 7, 4)
    """
    left, top, right, bottom = range_boundaries(reference)
    return int(top or 1), int(left or 1), int(bottom or 1_048_576), int(right or 16_384)


def inside(place: Place, area: Rect) -> bool:
    """Whether a cell lies in a range."""
    return area[0] <= place[0] <= area[2] and area[1] <= place[1] <= area[3]


def cells_of(area: Rect) -> Iterator[Place]:
    """The cells of a range, row by row."""
    for row in range(area[0], area[2] + 1):
        for column in range(area[1], area[3] + 1):
            yield row, column


def address(place: Place) -> str:
    """A cell as it is written.

    >>> address((7, 2))
    'B7'
    """
    return f"{get_column_letter(place[1])}{place[0]}"
