"""Spreadsheet engines for tests: a workbook's bytes recalculated by programs that share nothing with this project.

Covers   ironcalc (load, evaluate, type into a cell, read), LibreOffice on a copy without cached results, comparison of
         two sets of results. Values are what a cell shows: float, bool, str, XlError, or None for an empty cell.
Not      what the results ought to be.

Why LibreOffice gets a copy without caches: it trusts a cached result and computes from it, so a wrong one stays.
"""

import functools
import io
import os
import re
import shutil
import subprocess
import tempfile
import zipfile
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

import ironcalc
import pytest
from openpyxl import load_workbook
from openpyxl.utils.cell import coordinate_to_tuple

from addin.caches import XlError

Cell = tuple[str, str]
Value = float | bool | str | None

CLOSE = 1e-12
"""Relative. A spreadsheet reckons in the same doubles as Python and in the same order, but a formula sheds brackets it
does not need: a*(b/c) becomes a*b/c, and the sixteenth digit may differ, once for each operation. A wrong formula shows
in the first few digits."""

_EMPTY_NUMBER = re.compile(rb'(<c r="\w+"(?: s="\d+")?) t="(?:n|inlineStr)" ?(/>|></c>)')
_FORMULA = re.compile(
    rb'(<c r="[A-Z]+[0-9]+"(?: s="[0-9]+")?)(?: t="\w+")?>(<f(?: [^>]*)?(?:/>|>[^<]*</f>))(?:<v ?/>|<v>[^<]*</v>)</c>'
)


class IronCalc:
    """A workbook open in ironcalc, recalculated after each entry."""

    def __init__(self, data: bytes) -> None:
        with tempfile.TemporaryDirectory() as folder:  # it loads from a path only
            path = Path(folder) / "book.xlsx"
            path.write_bytes(_for_ironcalc(data))
            self.model = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
        self.sheets = {sheet["name"]: at for at, sheet in enumerate(self.model.get_worksheets_properties())}
        self.model.evaluate()

    def value(self, sheet: str, cell: str) -> Value:
        """What a cell shows."""
        place = (self.sheets[sheet], *coordinate_to_tuple(cell))
        value = self.model.get_cell_value(*place)
        return XlError(value) if self.model.get_cell_type(*place) == ironcalc.CellType.ErrorValue else value

    def values(self, cells: Iterable[Cell]) -> dict[Cell, Value]:
        """What several cells show."""
        return {cell: self.value(*cell) for cell in cells}

    def enter(self, sheet: str, cell: str, typed: object) -> None:
        """Type something into a cell and recalculate."""
        self.model.set_user_input(self.sheets[sheet], *coordinate_to_tuple(cell), str(typed))
        self.model.evaluate()


def _for_ironcalc(data: bytes) -> bytes:
    """Without what only an office program forgives: absolute paths of comments, empty cells that say number."""
    return _rewritten(data, lambda part: _EMPTY_NUMBER.sub(rb"\1\2", part))


def without_caches(data: bytes) -> bytes:
    """A copy whose formulas have no cached results."""
    return _rewritten(data, lambda part: _FORMULA.sub(rb"\1>\2</c>", part))


def _rewritten(data: bytes, act: Any) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as source, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as target:
        for name in source.namelist():
            part = source.read(name)
            if name.startswith("xl/worksheets/_rels/"):
                part = part.replace(b'Target="/xl/', b'Target="../')
            elif name.startswith("xl/worksheets/"):
                part = act(part)
            target.writestr(name, part)
    return out.getvalue()


libreoffice = pytest.mark.libreoffice
"""Marks a test that calls `libreoffice_values`: `-m "not libreoffice"` leaves the slow ones out."""


def libreoffice_values(data: bytes) -> dict[Cell, Value]:
    """What LibreOffice makes of every cell of a copy without cached results.

    Skips the test where LibreOffice is not installed; fails it there when the environment says CI=true.
    """
    program = shutil.which("soffice")
    if program is None and os.environ.get("CI") == "true":
        pytest.fail("LibreOffice is not installed, and CI must not pass without the second engine")
    if program is None:
        pytest.skip("LibreOffice is not installed")
    with tempfile.TemporaryDirectory() as folder:
        path, out = Path(folder) / "book.xlsx", Path(folder) / "out"
        path.write_bytes(without_caches(data))
        command = [program, f"-env:UserInstallation={_profile().as_uri()}", "--headless", "--convert-to",
                   "xlsx:Calc MS Excel 2007 XML", "--outdir", str(out), str(path)]  # fmt: skip
        done = subprocess.run(command, check=False, capture_output=True, text=True, timeout=240)
        if not (out / path.name).exists():
            pytest.fail(f"LibreOffice wrote nothing: {done.stdout} {done.stderr}")
        return shown(load_workbook(out / path.name, data_only=True))


@functools.cache
def _profile() -> Path:
    """A profile of our own: a running office would take the call and lose it. It lives as long as the test run."""
    folder = tempfile.TemporaryDirectory(prefix="plinthbook-office-")
    _KEPT.append(folder)
    return Path(folder.name)


_KEPT: list[tempfile.TemporaryDirectory[str]] = []


def shown(book: Any) -> dict[Cell, Value]:
    """Every cell of a workbook that was loaded with its results."""
    result: dict[Cell, Value] = {}
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                result[sheet.title, cell.coordinate] = XlError(cell.value) if cell.data_type == "e" else cell.value
    return result


def cached(data: bytes) -> dict[Cell, Value]:
    """The cached result of every formula."""
    book = load_workbook(io.BytesIO(data))
    results = shown(load_workbook(io.BytesIO(data), data_only=True))
    formulas = [(s.title, c.coordinate) for s in book for row in s.iter_rows() for c in row if c.data_type == "f"]
    return {cell: results[cell] for cell in formulas}


def differences(expected: Mapping[Cell, Value], found: Mapping[Cell, Value], close: float = CLOSE) -> list[str]:
    """Every cell that was expected and is not there or shows something else, in words."""
    return [
        f"{sheet}!{cell}: expected {value!r}, found {found.get((sheet, cell))!r}"
        for (sheet, cell), value in expected.items()
        if not alike(value, found.get((sheet, cell)), close)
    ]


def alike(one: Value, other: Value, close: float = CLOSE) -> bool:
    """Whether two results are the same: numbers closely, truths and errors in kind, an empty text like nothing."""
    if isinstance(one, XlError) or isinstance(other, XlError):
        return type(one) is type(other) and one == other
    if isinstance(one, bool) or isinstance(other, bool):
        return one is other
    if isinstance(one, (int, float)) and isinstance(other, (int, float)):
        return abs(one - other) <= close * max(abs(one), abs(other))
    return (one or "") == (other or "") and isinstance(one, (str, type(None))) and isinstance(other, (str, type(None)))
