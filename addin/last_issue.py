"""The bill as a workbook was last issued, read back from its sheet Since issue.

Covers   the figures that sheet keeps, and what has changed against a bill worked out afresh.
Not      the comparison itself (calc.changes), drawing the sheet (sheets).
"""

from collections.abc import Sequence
from dataclasses import dataclass

from addin.door import SheetRead
from addin.estimating import Worked
from addin.sheets import LAST_ISSUE_SHEET
from calc.changes import ItemChange, ItemThen, changed, changes_since, difference_of
from calc.number import value_of

_CODE, _DESCRIPTION, _UNIT, _QUANTITY, _RATE, _AMOUNT = 1, 2, 3, 4, 6, 8
"""Columns of the sheet."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Changes:
    """Items whose quantity or rate is another one, and by how much the works are dearer."""

    items: tuple[ItemChange, ...]
    difference: float


def changes_of(worked: Worked) -> Changes | None:
    """What has changed since the last issue; None in a workbook that was never issued."""
    then = items_then(worked.sheets)
    if not then:
        return None
    rows = changes_since(worked.found.bill, then)
    return Changes(items=changed(rows), difference=value_of(difference_of(rows)))


def items_then(sheets: Sequence[SheetRead]) -> tuple[ItemThen, ...]:
    """Every item of the last issue; none where there was no issue."""
    cells = next((sheet.cells for sheet in sheets if sheet.title == LAST_ISSUE_SHEET), {})
    heading = next((row for (row, column), raw in cells.items() if column == _CODE and raw.value == "Code"), None)
    if heading is None:
        return ()
    found = []
    row = heading + 1
    while all(
        (raw := cells.get((row, column))) is not None and isinstance(raw.value, (int, float))
        for column in (_QUANTITY, _RATE, _AMOUNT)
    ):
        text = [
            str(cells[row, column].value) if (row, column) in cells else "" for column in (_CODE, _DESCRIPTION, _UNIT)
        ]
        quantity, rate, amount = (_number(cells[row, column].value) for column in (_QUANTITY, _RATE, _AMOUNT))
        found.append(
            ItemThen(code=text[0], description=text[1], unit=text[2], quantity=quantity, rate=rate, amount=amount)
        )
        row += 1
    return tuple(found)


def _number(value: object) -> float:
    assert isinstance(value, (int, float))
    return float(value)
