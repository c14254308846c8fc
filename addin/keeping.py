"""A survey that stays where it is: whether formulas can point at its cells, and which of them have to change.

Covers   sheets, headings and rows as the layout has them; cells that the reader understood and a formula would
         not.
Not      writing those cells (the doors), faults of the survey (reader).
Rules    a cell that a formula can use as it stands is left alone, and so is everything the reader passes over.
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime

from openpyxl.utils import get_column_letter

from addin.door import Raw, SheetRead
from addin.files import CannotWrite
from addin.layout import FIRST_ROW, HEADER_ROW, JOB, JOB_TITLES, SHEET, TABLES, Column
from addin.reader import Reading
from addin.survey_book import Value, blank_text, cell_value
from addin.surveying import JOB_DEFAULT_COLUMN, JOB_VALUE_COLUMN, Issued

_BLANK = Raw(value=None)
_ORDER = (
    "Put the sheet's headings and lines back in their usual order, or make a workbook of its own with the estimate "
    "command."
)


def check_places(reading: Reading, sheets: Sequence[SheetRead]) -> None:
    """Raise unless every entry of a survey stands where the layout has it.

    Raises:
        CannotWrite: one sentence with the cell and what to do
    """
    there = {sheet.title: sheet.cells for sheet in sheets}
    for title, heading in (("Job", JOB_TITLES[0]), *((sheet.title, sheet.columns[0].title) for sheet in TABLES)):
        if title in there and not str(there[title].get((HEADER_ROW, 1), _BLANK).value).strip().startswith(heading):
            raise CannotWrite(
                f"The survey cannot stay as it is: the headings of {title} should be in row {HEADER_ROW}. {_ORDER}"
            )
    for line, column in enumerate(JOB, start=FIRST_ROW):
        _check_place("Job", f"{get_column_letter(JOB_VALUE_COLUMN)}{line}", reading.job[column.key].where, column)
    for sheet in TABLES:
        for row in reading.tables[sheet.title]:
            for order, column in enumerate(sheet.columns, start=1):
                wanted = f"{get_column_letter(order)}{row.number}"
                _check_place(sheet.title, wanted, row.entries[column.key].where, column)


def _check_place(title: str, wanted: str, where: object, column: Column) -> None:
    if str(where) == f"{title}!{wanted}":
        return
    stands = f"it is at {where}" if "!" in str(where) else "it is not there"
    raise CannotWrite(
        f"The survey cannot stay as it is: {title}!{wanted} should hold {column.title}, and {stands}. {_ORDER}"
    )


def cells_to_mend(sheets: Sequence[SheetRead], rows: Issued) -> Mapping[str, tuple[str, ...]]:
    """Sheet title -> cells that do not hold, as a plain value, what was read from them.

    Raises:
        CannotWrite: a number is shown in per cent, and would mean another number without that
    """
    there = {sheet.title: sheet.cells for sheet in sheets}
    found: dict[str, list[str]] = {}
    for title, row, order, column, wanted in _wanted(rows):
        if title not in there:
            continue
        raw = there[title].get((row, order), _BLANK)
        address = f"{get_column_letter(order)}{row}"
        if _same(raw, wanted):
            continue
        if raw.percent:
            raise CannotWrite(
                f"{title}!{address} ({column.title}) is shown in per cent. Give the cell a plain number format and "
                f"type {wanted:g}, so that formulas can use it."
            )
        found.setdefault(title, []).append(address)
    return {title: tuple(cells) for title, cells in found.items()}


def _wanted(rows: Issued) -> Iterator[tuple[str, int, int, Column, float | str | date]]:
    """Every cell that formulas may look at, and what it has to hold."""
    for row, column in enumerate(JOB, start=FIRST_ROW):
        if (value := cell_value(rows.job.get(column.key))) not in (None, ""):
            yield "Job", row, JOB_VALUE_COLUMN, column, value
        usual: Value = column.default if isinstance(column.default, (int, float)) else blank_text(column)
        if usual:
            yield "Job", row, JOB_DEFAULT_COLUMN, column, cell_value(usual) or ""
    for title, issued_rows in rows.tables.items():
        for issued_row in issued_rows:
            for order, column in enumerate(SHEET[title].columns, start=1):
                if (value := cell_value(issued_row.values.get(column.key))) not in (None, ""):
                    yield title, issued_row.number, order, column, value


def _same(raw: Raw, wanted: float | str | date) -> bool:
    value = raw.value
    if raw.kind != "value" or value is None or isinstance(value, bool):
        return False
    if isinstance(wanted, date):
        return (value.date() if isinstance(value, datetime) else value) == wanted
    if isinstance(wanted, str):
        return isinstance(value, str) and value == wanted
    return isinstance(value, (int, float)) and not raw.percent and float(value) == float(wanted)
