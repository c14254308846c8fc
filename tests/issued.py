"""An issued workbook as tests look at it: formulas, cached results, an engine that recalculates, names."""

import math
import os
import re
import shutil
import subprocess
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import ironcalc
import pytest
from openpyxl import load_workbook
from openpyxl.utils.cell import column_index_from_string, coordinate_from_string
from openpyxl.workbook import Workbook

Cell = tuple[str, str]
CLOSE = 1e-11
"""Relative: both engines and Python add the same doubles, in an order that may differ in the last digits."""


def same_value(one: Any, other: Any) -> bool:
    """Whether two results are the same: numbers to eleven digits, an empty text like an empty cell."""
    if isinstance(one, bool) or isinstance(other, bool):
        return bool(one) == bool(other) and type(one) is type(other)
    if isinstance(one, (int, float)) and isinstance(other, (int, float)):
        return math.isclose(one, other, rel_tol=CLOSE, abs_tol=1e-9)
    return (one or "") == (other or "")


class IssuedBook:
    """A workbook with its formulas, its cached results and its defined names."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.book = load_workbook(path)
        self.cached = load_workbook(path, data_only=True)
        self.order = {title: index for index, title in enumerate(self.book.sheetnames)}

    def formulas(self) -> Iterator[tuple[Cell, str]]:
        """Every formula cell."""
        for sheet in self.book:
            for row in sheet.iter_rows():
                for cell in row:
                    if cell.data_type == "f":
                        yield (sheet.title, cell.coordinate), cell.value

    def cache(self, cell: Cell) -> Any:
        """The cached result of a cell."""
        return self.cached[cell[0]][cell[1]].value

    def named(self, name: str) -> Cell:
        """The cell a defined name points at."""
        sheet, address = self.book.defined_names[name].attr_text.rsplit("!", 1)
        return sheet.strip("'"), address.replace("$", "")


class Engine:
    """The workbook in an independent engine, recalculated; entries may be changed."""

    def __init__(self, book: IssuedBook) -> None:
        self.book = book
        self.model = ironcalc.load_from_xlsx(str(book.path), "en", "UTC", "en")
        self.model.evaluate()

    def value(self, cell: Cell) -> Any:
        """The result of a cell."""
        letters, row = coordinate_from_string(cell[1])
        return self.model.get_cell_value(self.book.order[cell[0]], row, column_index_from_string(letters))

    def named(self, name: str) -> Any:
        """The result of a named cell."""
        return self.value(self.book.named(name))

    def change(self, cell: Cell, value: object) -> None:
        """Type into a cell and recalculate."""
        letters, row = coordinate_from_string(cell[1])
        self.model.set_user_input(self.book.order[cell[0]], row, column_index_from_string(letters), str(value))
        self.model.evaluate()


def differences(book: IssuedBook, results: Any) -> list[str]:
    """`Sheet!Cell: formula: cached / recalculated` of every formula cell where the two part."""
    found = []
    for cell, formula in book.formulas():
        cached, recalculated = book.cache(cell), results(cell)
        if not same_value(cached, recalculated):
            found.append(f"{cell[0]}!{cell[1]}: {formula}: cached {cached!r} / recalculated {recalculated!r}")
    return found


needs_libreoffice = pytest.mark.skipif(
    shutil.which("soffice") is None and not os.environ.get("CI"), reason="LibreOffice is not installed"
)
"""Skips where LibreOffice is missing, but never in CI: there the test fails."""

_CACHE = re.compile(rb"(<f[ >/](?:[^<]|<(?!/f>))*?(?:</f>|/>))<v>[^<]*</v>")


def recalculated_by_libreoffice(path: Path, folder: Path) -> Workbook:
    """The results LibreOffice finds on a copy without cached results; with them it would trust the caches."""
    bare = folder / "bare.xlsx"
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(bare, "w", zipfile.ZIP_DEFLATED) as target:
        for info in source.infolist():
            data = source.read(info)
            if info.filename.startswith("xl/worksheets/sheet"):
                data = _CACHE.sub(rb"\1", data)
            target.writestr(info.filename, data)
    out = folder / "recalculated"
    command = ["soffice", f"-env:UserInstallation=file://{folder}/profile", "--headless", "--convert-to",
               "xlsx:Calc MS Excel 2007 XML", "--outdir", str(out), str(bare)]  # fmt: skip
    subprocess.run(command, check=True, capture_output=True, timeout=240)
    return load_workbook(out / "bare.xlsx", data_only=True)
