"""An issued workbook as tests look at it: formulas, cached results, an engine that recalculates, names."""

import math
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from openpyxl import load_workbook

from tests.engines import IronCalc

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


class Engine(IronCalc):
    """The workbook in an independent engine; entries may be changed."""

    def __init__(self, book: IssuedBook) -> None:
        super().__init__(book.path.read_bytes())
        self.book = book

    def at(self, cell: Cell) -> Any:
        """The result of a cell."""
        return self.value(*cell)

    def named(self, name: str) -> Any:
        """The result of a named cell."""
        return self.value(*self.book.named(name))

    def change(self, cell: Cell, value: object) -> None:
        """Type into a cell and recalculate."""
        self.enter(*cell, value)


def differences(book: IssuedBook, results: Any) -> list[str]:
    """`Sheet!Cell: formula: cached / recalculated` of every formula cell where the two part."""
    found = []
    for cell, formula in book.formulas():
        cached, recalculated = book.cache(cell), results(cell)
        if not same_value(cached, recalculated):
            found.append(f"{cell[0]}!{cell[1]}: {formula}: cached {cached!r} / recalculated {recalculated!r}")
    return found
