"""A survey that stays where it is: whether formulas can point at its cells, and which of them have to change.

Covers   sheets, headings and rows as the layout has them; cells that the reader understood and a formula would
         not.
Not      writing those cells (the doors), faults of the survey (reader).
Rules    a cell that a formula can use as it stands is left alone, and so is everything the reader passes over.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from openpyxl.utils import get_column_letter

from addin.door import Door, Raw, SheetRead
from addin.files import CannotWrite
from addin.layout import FIRST_ROW, HEADER_ROW, JOB, JOB_TITLES, SHEET, SURVEY_TITLES, TABLES, Column
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Mended:
    """A survey cell that has to hold, as a plain value, what was read from it."""

    sheet: str
    cell: str
    stood: object
    """None where nothing stood."""
    stands: float | str | date

    def __str__(self) -> str:
        return f"{self.sheet}!{self.cell}: {self.stood}, now {_plainly(self.stands)}"


def cells_to_mend(sheets: Sequence[SheetRead], rows: Issued) -> tuple[Mended, ...]:
    """Cells that do not hold, as a plain value, what was read from them.

    Raises:
        CannotWrite: a number is shown in per cent, and would mean another number without that; or a formula gives a
            text where a number is read from it, and would be lost
    """
    there = {sheet.title: sheet.cells for sheet in sheets}
    found = []
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
        if raw.formula:
            raise CannotWrite(
                f"{title}!{address} ({column.title}) is a formula that gives {raw.value!r}, which others cannot use. "
                f"Let it give {_plainly(wanted)}, in the column's own unit and spelling."
            )
        found.append(Mended(sheet=title, cell=address, stood=raw.value, stands=wanted))
    return tuple(found)


def formulas_moved(before: Sequence[SheetRead], door: Door) -> tuple[str, ...]:
    """Entries that are formulas and say something else now than when they were read: they look at our results."""
    live = {
        (sheet.title, place): raw
        for sheet in before if sheet.title in SURVEY_TITLES
        for place, raw in sheet.cells.items() if raw.formula and _is_entry(sheet.title, place[1])
    }  # fmt: skip
    if not live:
        return ()
    after = {sheet.title: sheet.cells for sheet in door.sheets(whole=SURVEY_TITLES)}
    return tuple(
        f"{title}!{get_column_letter(column)}{row}: {raw.value}, now {now.value}"
        for (title, (row, column)), raw in live.items()
        if (now := after[title].get((row, column), _BLANK)).value != raw.value
    )


def _is_entry(title: str, column: int) -> bool:
    return column == JOB_VALUE_COLUMN if title == "Job" else column <= len(SHEET[title].columns)


def _plainly(value: float | str | date) -> str:
    return f"{value:.10g}" if isinstance(value, (int, float)) else str(value)


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
