"""The one door to a workbook: its sheets as plain cells in, a finished estimate out.

Covers   what every way to a workbook must offer, and the two cells-level records all of them hand to the reader; the
         way through a file.
Not      the way through an open workbook (excel/open_book) and into a file of the user's (refresh/in_place); what the
         cells mean (reader).
Rules    a door never decides on a value: text stays text, an error is told apart from it, a formula counts by its last
         result. What is put goes in whole or not at all.
"""

import io
import os
import posixpath
import re
import warnings
import zipfile
import zlib
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Literal, Protocol
from xml.etree import ElementTree

from openpyxl import load_workbook
from openpyxl.utils.exceptions import InvalidFileException
from openpyxl.worksheet.worksheet import Worksheet

from addin.files import check_is_workbook, write_atomically
from addin.guard import CannotRead

Place = tuple[int, int]
"""Row and column, from 1."""

HEAD_ROWS = 20
"""Rows in which the headings of a sheet are looked for."""

_DAMAGED = (
    zipfile.BadZipFile, InvalidFileException, ElementTree.ParseError, SyntaxError, zlib.error, OSError, EOFError,
    MemoryError, KeyError, ValueError, IndexError, TypeError, AttributeError, OverflowError, RuntimeError,
)  # fmt: skip
"""What openpyxl has been seen to raise, or may, on a damaged file; SyntaxError is lxml's XMLSyntaxError."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Raw:
    """What stands in a cell, before anything is made of it."""

    value: object
    kind: Literal["value", "error", "no value"] = "value"
    """`no value` is a formula that no spreadsheet has worked out yet."""
    percent: bool = False
    """Shown with a % sign: 40 % is stored as 0.4."""
    formula: bool = False
    """The value is the last result of a formula."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SheetRead:
    """One sheet of a workbook: its title and the cells there are, in reading order."""

    title: str
    cells: Mapping[Place, Raw]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Made:
    """A finished estimate workbook, and which part of it belongs where in a workbook that is there already."""

    data: bytes
    """The whole workbook, an .xlsx."""
    replaced: tuple[str, ...] = ()
    """Titles of the sheets that are new as a whole."""
    grafts: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Survey sheet -> the cells on it that have to say something else than they do."""
    rewritten: tuple[str, ...] = ()
    """What of the user's is among them, in words: where, what stood there, what stands there now."""


class Door(Protocol):
    """A way to a workbook."""

    keeps_rows: bool
    """Whether the survey stays where it is in the workbook, or is written afresh."""

    def sheets(self, passed_over: Collection[str] = (), whole: Collection[str] | None = None) -> Sequence[SheetRead]:
        """Every sheet in order; one that holds no cells, such as a chart, is empty.

        Args:
            passed_over: titles of sheets whose cells nobody will look at; they may come out empty
            whole: titles of sheets that are wanted to the last row, of the others the first HEAD_ROWS will do; None
                for all

        Raises:
            CannotRead: one plain sentence
        """

    def put(self, made: Made) -> None:
        """Bring a finished estimate into the workbook, whole or not at all.

        Raises:
            CannotWrite: one plain sentence; the workbook is as it was
        """


class FileDoor:
    """A survey read from one file; its estimate written to another."""

    keeps_rows = False

    def __init__(self, source: str | os.PathLike[str], target: str | os.PathLike[str] | None = None) -> None:
        self.source, self.target = source, target

    def sheets(self, passed_over: Collection[str] = (), whole: Collection[str] | None = None) -> Sequence[SheetRead]:
        """Every sheet of the file."""
        return sheets_in(self.source, content_of(self.source), passed_over, whole)

    def put(self, made: Made) -> None:
        """Write the estimate to the target."""
        if self.target is None:
            raise ValueError("this door was opened for reading")
        write_atomically(Path(self.target), made.data)


def content_of(path: str | os.PathLike[str]) -> bytes:
    """What a workbook file holds, looked at before anything parses it.

    Raises:
        CannotRead: it is missing, is no workbook, has a password, or is hostile; one plain sentence
    """
    check_is_workbook(path)
    try:
        return Path(path).read_bytes()
    except OSError as reason:
        raise CannotRead(f"{path} cannot be read: {reason.strerror or reason}.") from reason


def sheets_in(
    path: str | os.PathLike[str],
    content: bytes,
    passed_over: Collection[str] = (),
    whole: Collection[str] | None = None,
) -> tuple[SheetRead, ...]:
    """The sheets of a workbook from what its file holds; the last two arguments are those of a door.

    Raises:
        CannotRead: it is damaged; one plain sentence that names the file
    """
    unwanted = {title.casefold() for title in passed_over}
    wanted = None if whole is None else {title.casefold() for title in whole}

    def part(title: str, data: bytes) -> bytes:
        if title.casefold() in unwanted:
            return _EMPTY
        return data if wanted is None or title.casefold() in wanted else _head(data)

    try:
        cut = _with_parts(content, part)
        # Formulas are of interest only where one has no result.
        live = _with_parts(cut, lambda _, data: data if b"<f" in data or b":f" in data else _EMPTY)
        with warnings.catch_warnings():
            # About parts that are left out when such a file is saved again; it never is.
            warnings.simplefilter("ignore")
            values = load_workbook(io.BytesIO(cut), data_only=True, keep_links=False)
            formulas = load_workbook(io.BytesIO(live), keep_links=False)
    except _DAMAGED as reason:
        advice = "is damaged and cannot be read; open it in a spreadsheet and save it again."
        raise CannotRead(f"{path} {advice}") from reason
    pages = {page.title: page for page in values.worksheets}
    return tuple(
        SheetRead(title=title, cells=_cells(pages[title], formulas[title]) if title in pages else {})
        for title in values.sheetnames
    )


def _with_parts(content: bytes, changed: Callable[[str, bytes], bytes]) -> bytes:
    """A workbook with fewer cells on some sheets, by title and part: reading them all would take longest."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as source, zipfile.ZipFile(out, "w") as target:
        titles = _titles_by_part(source)
        for name in source.namelist():
            part = source.read(name)
            target.writestr(name, changed(titles[name], part) if name in titles else part)
    return out.getvalue()


def _head(part: bytes) -> bytes:
    """A sheet without its rows below HEAD_ROWS, and all of it where they are not written in the usual way."""
    end = part.find(b"</sheetData>")
    below = next((row for row in _ROW.finditer(part, 0, end) if int(row[1]) > HEAD_ROWS), None) if end > 0 else None
    return part[: below.start()] + part[end:] if below else part


_ROW = re.compile(rb'<row (?:[^>]*? )?r="([0-9]{1,7})"')
_EMPTY = b'<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData/></worksheet>'
_SHEET = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}sheet"
_RELATION = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"


def _titles_by_part(package: zipfile.ZipFile) -> dict[str, str]:
    """Part of each worksheet -> its title; nothing where the list of sheets is not where it usually is."""
    names = set(package.namelist())
    if not {"xl/workbook.xml", "xl/_rels/workbook.xml.rels"} <= names:
        return {}
    relations = ElementTree.fromstring(package.read("xl/_rels/workbook.xml.rels"))
    parts = {
        relation.get("Id"): posixpath.normpath(posixpath.join("/xl", relation.get("Target", ""))).lstrip("/")
        for relation in relations if relation.get("Type", "").endswith("/worksheet")
    }  # fmt: skip
    sheets = ElementTree.fromstring(package.read("xl/workbook.xml")).iter(_SHEET)
    return {parts[sheet.get(_RELATION)]: sheet.get("name", "") for sheet in sheets if sheet.get(_RELATION) in parts}


def _cells(page: Worksheet, twin: Worksheet) -> dict[Place, Raw]:
    """The cells there are. Walking rows instead would make every empty cell of a wide sheet."""
    there: Any = page
    written: Any = twin
    return {place: _raw(cell, written._cells.get(place)) for place, cell in sorted(there._cells.items())}


def _raw(cell: Any, twin: Any) -> Raw:
    """What stands in a cell. An empty one may be a formula whose result was never stored."""
    formula = twin is not None and twin.data_type == "f"
    if cell.data_type == "e":
        return Raw(value=cell.value, kind="error", formula=formula)
    # An empty text that a formula gave has the type str, and is a blank.
    if cell.value is None and cell.data_type != "str":
        return Raw(value=None, kind="no value" if formula else "value", formula=formula)
    percent = "%" in cell.number_format and isinstance(cell.value, (int, float))
    return Raw(value=cell.value, percent=percent, formula=formula)
