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
import warnings
import zipfile
import zlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Literal, Protocol
from xml.etree.ElementTree import ParseError

from openpyxl import load_workbook
from openpyxl.utils.exceptions import InvalidFileException
from openpyxl.workbook import Workbook
from openpyxl.worksheet.worksheet import Worksheet

from addin.files import check_is_workbook, write_atomically
from addin.guard import CannotRead

Place = tuple[int, int]
"""Row and column, from 1."""

_DAMAGED = (
    zipfile.BadZipFile, InvalidFileException, ParseError, SyntaxError, zlib.error, OSError, EOFError, MemoryError,
    KeyError, ValueError, IndexError, TypeError, AttributeError, OverflowError, RuntimeError,
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


class Door(Protocol):
    """A way to a workbook."""

    keeps_rows: bool
    """Whether the survey stays where it is in the workbook, or is written afresh."""

    def sheets(self) -> Sequence[SheetRead]:
        """Every sheet in order; one that holds no cells, such as a chart, is empty.

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

    def sheets(self) -> Sequence[SheetRead]:
        """Every sheet of the file."""
        return sheets_in(self.source, content_of(self.source))

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


def sheets_in(path: str | os.PathLike[str], content: bytes) -> tuple[SheetRead, ...]:
    """The sheets of a workbook from what its file holds.

    Raises:
        CannotRead: it is damaged; one plain sentence that names the file
    """
    return sheets_of(_loaded(path, content, values=True), _loaded(path, content, values=False))


def _loaded(path: str | os.PathLike[str], content: bytes, *, values: bool) -> Workbook:
    """The workbook, with the results of its formulas or with the formulas themselves."""
    try:
        with warnings.catch_warnings():
            # About parts that are left out when such a file is saved again; it never is.
            warnings.simplefilter("ignore")
            return load_workbook(io.BytesIO(content), data_only=values, keep_links=False)
    except _DAMAGED as reason:
        advice = "is damaged and cannot be read; open it in a spreadsheet and save it again."
        raise CannotRead(f"{path} {advice}") from reason


def sheets_of(values: Workbook, formulas: Workbook) -> tuple[SheetRead, ...]:
    """The sheets of a workbook loaded twice: with the results of its formulas, and with the formulas."""
    pages = {page.title: page for page in values.worksheets}
    return tuple(
        SheetRead(title=title, cells=_cells(pages[title], formulas[title]) if title in pages else {})
        for title in values.sheetnames
    )


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
