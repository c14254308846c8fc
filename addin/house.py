"""A whole survey worked through from ranges of a sheet: what a worksheet function shows while one types.

Covers   survey sheets handed over as blocks of values; loads, jacks, bases and pressures by wall, quantities and
         amounts by item, and the state of the survey.
Not      how a worksheet function is declared (functions), any figure (calc).
Units    of the answers: kN, kN/m, m, kPa, No, the unit of the item, money.
Rules    a block is known by the title in its first cell. Nothing is shown of a survey with faults but their number and
         the first of them. A share typed in per cent cannot be told from a small one here, and is refused.
"""

import functools
from collections.abc import Callable, Collection, Sequence
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from addin.door import Made, Place, Raw, SheetRead
from addin.estimating import Faulty, Worked, work
from addin.guard import CannotRead
from addin.layout import FIRST_ROW, JOB, JOB_TITLES, SHEET, SURVEY_TITLES, Column
from calc.number import text_of

Block = tuple[tuple[Any, ...], ...]

ROWS = 500
"""Rows of an answer: those after the last wall or item are empty, so that it fits any range it is put into."""

WALL_COLUMNS = ("Wall", "Load in the lift (kN)", "Greatest (kN/m)", "Jacks by load (No)", "Jacks by spacing (No)",
                "Jacks (No)", "Spacing (m)", "Base side (m)", "Pressure after (kPa)")  # fmt: skip
ITEM_COLUMNS = ("Code", "Quantity", "Rate", "Amount")

_ERRORS = frozenset({"#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A"})
_DAY_0 = date(1899, 12, 30)
_PERCENT = "%"


class RangesDoor:
    """Survey sheets as ranges of values; nothing can be put into them."""

    keeps_rows = False

    def __init__(self, blocks: Sequence[Block]) -> None:
        self._blocks = blocks

    def sheets(self, passed_over: Collection[str] = (), whole: Collection[str] | None = None) -> tuple[SheetRead, ...]:
        """One sheet for each block."""
        del passed_over, whole  # only survey sheets are handed over, and all of them wanted
        return tuple(_sheet(block) for block in self._blocks)

    def put(self, made: Made) -> None:
        """Nothing can be put into ranges."""
        raise NotImplementedError(f"a function changes no sheet; {len(made.data)} bytes not written")


def answer(what: str, blocks: Sequence[Block]) -> list[list[Any]]:
    """`walls`, `items` or `state` of the survey in the blocks, as rows of one width.

    Raises:
        CannotRead: there is no block, one is no survey sheet, or the survey has faults
        KeyError: no such answer
    """
    return ANSWERS[what](_worked(tuple(blocks)))


@functools.lru_cache(maxsize=4)
def _worked(blocks: tuple[Block, ...]) -> Worked | Faulty:
    """Worked through once for all the functions that ask about the same entries."""
    try:
        return work(RangesDoor(blocks))
    except Faulty as faulty:
        return faulty


def _whole(found: Worked | Faulty) -> Worked:
    if isinstance(found, Faulty):
        raise CannotRead(f"{len(found.faults)} faults to mend, first: {found.faults[0]}")
    return found


def _walls(found: Worked | Faulty) -> list[list[Any]]:
    result = _whole(found).found
    greatest = {text_of(row.name): row.greatest for row in result.greatest}
    jacks = {text_of(row.name): row for row in result.jacks}
    sides = {text_of(row.name): row.side for row in result.pads}
    after = {text_of(row.name): row.after for row in result.pressures}
    rows = []
    for base in result.taken.bases:
        if base.kind == "wall":
            name = text_of(base.name)
            jack = jacks[name]
            rows.append([name, base.lifted, greatest[name], jack.by_load, jack.by_spacing, jack.count, jack.spacing,
                         sides[name], after.get(name, "")])  # fmt: skip
    return _padded(rows, len(WALL_COLUMNS))


def _items(found: Worked | Faulty) -> list[list[Any]]:
    bill = _whole(found).found.bill
    rows = [[text_of(item.code), item.quantity, item.rate, item.amount] for item in bill]
    return _padded(rows, len(ITEM_COLUMNS))


def _state(found: Worked | Faulty) -> list[list[Any]]:
    if isinstance(found, Faulty):
        return [[f"{len(found.faults)} faults to mend, first: {found.faults[0]}"]]
    return [[f"No faults, {len(found.warnings)} doubtful entries. Budget only: nothing here is for lifting."]]


ANSWERS: dict[str, Callable[[Worked | Faulty], list[list[Any]]]] = {"walls": _walls, "items": _items, "state": _state}
"""What may be asked."""


def _padded(rows: list[list[Any]], width: int) -> list[list[Any]]:
    return rows + [[""] * width for _ in range(ROWS - len(rows))]


def _sheet(block: Block) -> SheetRead:
    title = str(block[0][0] if block and block[0] else "").partition(":")[0].strip()
    known = next((t for t in SURVEY_TITLES if t.casefold() == title.casefold()), None)
    if known is None:
        raise CannotRead(f"a range begins with {title!r}, which is no survey sheet; take it from A1 of the sheet")
    cells: dict[Place, Raw] = {}
    for row, values in enumerate(block, start=1):
        for column, value in enumerate(values, start=1):
            if value is not None and value != "":
                cells[row, column] = _raw(value, _column(known, row, column, block))
    return SheetRead(title=known, cells=cells)


def _column(title: str, row: int, column: int, block: Block) -> Column | None:
    """The layout's column of a cell: by its place, for a template's sheets stand as they were made."""
    if row < FIRST_ROW:
        return None
    if title == "Job":
        label = str(block[row - 1][0])
        is_value = column == JOB_TITLES.index("Value") + 1
        return next((entry for entry in JOB if entry.title == label and is_value), None)
    columns = SHEET[title].columns
    return columns[column - 1] if column <= len(columns) else None


def _raw(value: Any, column: Column | None) -> Raw:
    if isinstance(value, str) and value in _ERRORS:
        return Raw(value=value, kind="error")
    if isinstance(value, Decimal):
        value = float(value)
    if column is not None and isinstance(value, (int, float)) and not isinstance(value, bool):
        if column.kind == "date" and 20_000 < value < 80_000:
            return Raw(value=_DAY_0 + timedelta(days=int(value)))
        if column.unit == _PERCENT and 0 < value < 1:
            raise CannotRead(
                f"{column.title} is {value:g}: type it as a plain number, such as {100 * value:g}, and not in per cent"
            )
    return Raw(value=value)
