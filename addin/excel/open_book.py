"""The way to a workbook that is open in the spreadsheet program, through xlwings' public API.

Covers   its survey sheets as plain cells, a block at a time; a finished estimate brought into its file.
Not      what the cells mean (reader), how the file is changed (refresh).
Rules    everything that can fail comes before the workbook is saved. The estimate goes into the file, not through the
         program: only so do protection, page set-up, charts and colour rules come with it. The workbook is saved and
         closed for that moment and opened again whatever happens. Money arrives as decimals cut to four places on
         Windows; a constant is then taken from its text, which is whole.
"""

import os
from collections.abc import Callable, Collection, Sequence
from decimal import Decimal
from pathlib import Path
from typing import Any

import xlwings as xw

from addin.door import HEAD_ROWS, Made, Place, Raw, SheetRead
from addin.files import CannotWrite
from addin.guard import CannotRead
from addin.guard_parts import MOST_CELLS

ERRORS = frozenset({"#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A"})


class OpenDoor:
    """A workbook open in the program."""

    keeps_rows = True

    def __init__(self, book: xw.Book, into_file: Callable[[Path, Made], object]) -> None:
        """`into_file` brings an estimate into the workbook's file, whole or not at all."""
        self.book, self._into_file = book, into_file

    def sheets(self, passed_over: Collection[str] = (), whole: Collection[str] | None = None) -> Sequence[SheetRead]:
        """Every sheet."""
        unwanted = {title.casefold() for title in passed_over}
        wanted = None if whole is None else {title.casefold() for title in whole}
        found = []
        for sheet in self.book.sheets:
            title = sheet.name.casefold()
            all_of_it = wanted is None or title in wanted
            cells = {} if title in unwanted else _cells(sheet, all_of_it=all_of_it)
            found.append(SheetRead(title=sheet.name, cells=cells))
        return tuple(found)

    def put(self, made: Made) -> None:
        """Save, bring the estimate into the file, open it again."""
        path, app, active = local_file(self.book), self.book.app, self.book.sheets.active.name
        self.book.save()
        self.book.close()
        try:
            self._into_file(path, made)
        finally:
            self.book = app.books.open(str(path))
            if active in [sheet.name for sheet in self.book.sheets]:
                self.book.sheets[active].activate()


def local_file(book: xw.Book) -> Path:
    """The file of an open workbook.

    Raises:
        CannotWrite: it was never saved, or is kept on a server
    """
    name = book.fullname
    if "://" in name:
        raise CannotWrite(f"{book.name} is kept on a server. Save a copy in a folder of this computer and use that.")
    if not os.path.isabs(name) or not os.path.exists(name):
        raise CannotWrite(f"{book.name} has never been saved. Save it first.")
    return Path(name)


def _cells(sheet: xw.Sheet, *, all_of_it: bool) -> dict[Place, Raw]:
    used = sheet.used_range
    rows, columns = used.shape
    if not all_of_it and rows > HEAD_ROWS:
        rows = HEAD_ROWS
        used = used[:rows, :]
    if rows * columns > MOST_CELLS:
        raise CannotRead(f"The sheet {sheet.name} has more than {MOST_CELLS} cells in use. Delete the empty rows.")
    block = used.options(ndim=2, err_to_str=True).value
    written = used.formula
    percents = _percents(used, block)
    cells = {}
    for down, row in enumerate(block):
        for across, value in enumerate(row):
            if value is None:
                continue
            place = (used.row + down, used.column + across)
            if isinstance(value, Decimal):
                value = _whole(value, _text_at(written, down, across))
            formula = _text_at(written, down, across).startswith("=")
            cells[place] = _raw(value, percent=place in percents, formula=formula)
    return cells


def _raw(value: Any, *, percent: bool, formula: bool) -> Raw:
    if isinstance(value, str) and value in ERRORS:
        return Raw(value=value, kind="error", formula=formula)
    return Raw(value=value, percent=percent and isinstance(value, (int, float)), formula=formula)


def _text_at(block: Any, down: int, across: int) -> str:
    """One cell of a block of formulas; a single cell comes as a text of its own."""
    return str(block) if isinstance(block, str) else str(block[down][across])


def _whole(value: Decimal, text: str) -> float:
    """A number of money with all its places, where the cell holds it as a constant."""
    try:
        exact = float(text)
    except ValueError:  # a formula
        return float(value)
    # The text must say the same number: in some places it may be written with a comma.
    return exact if abs(exact - float(value)) < 1e-4 else float(value)


def _percents(used: xw.Range, block: Sequence[Sequence[Any]]) -> set[Place]:
    """Places shown in per cent, looked for where there are numbers: for most columns that is one question."""
    found: set[Place] = set()
    for across in range(used.shape[1]):
        numbers = [down for down, row in enumerate(block) if isinstance(row[across], (int, float, Decimal))]
        if numbers:
            found |= _in_percent(used[numbers[0] : numbers[-1] + 1, across])
    return found


def _in_percent(column: xw.Range) -> set[Place]:
    """Cells of one format say so at once; mixed ones say nothing and are halved."""
    number_format, rows = column.number_format, column.shape[0]
    if isinstance(number_format, str):
        places = {(column.row + down, column.column) for down in range(rows)}
        return places if "%" in number_format else set()
    if rows == 1:
        return set()
    return _in_percent(column[: rows // 2, :]) | _in_percent(column[rows // 2 :, :])
