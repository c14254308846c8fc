"""What is fixed at issue, and whether it still holds: the sheet that compares then with now.

Covers   inputs of every result worked out at issue; names and order the plan rests on; rows added or taken away.
Not      the results themselves.
Rules    every flag is live; a harmless edit raises none.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from openpyxl.utils import get_column_letter
from openpyxl.workbook.defined_name import DefinedName

from addin.formulas import Spot, quote
from addin.layout import EXAMPLE_MARK, FIRST_ROW, SHEET
from addin.result_book import KEPT_FIRST_ROW, KEPT_SHEET, ResultBook
from addin.styles import protect, set_page
from addin.surveying import Issued, cell_text
from calc.number import text_of, value_of
from calc.stations import COURSES, station_readings
from calc.survey import GridLine, Survey

PLAN_COLUMNS = {
    "Grid": ("name",),
    "Rooms": ("name", "storey", "corner", "opposite", "outline", "above", "span", "floor"),
    "Walls": ("name", "storey", "start", "end", "masonry", "mortar", "at_lift", "system"),
    "Openings": ("wall", "kind", "block_up"),
    "Beams": ("name", "storey", "start", "end", "carries_slab", "bears_on", "plinth_beam"),
    "Columns": ("name", "storey", "point", "system"),
    "Attached": ("name", "on"),
    "Footings": ("members",),
    "Kit": ("name", "type", "size", "rating", "number"),
}
"""Entries the plan rests on: who meets, carries and stands on whom, and how each wall is lifted."""

COUNTED = ("Grid", "Rooms", "Walls", "Openings", "Beams", "Columns", "Attached", "Footings", "Levels", "Condition",
           "Kit")  # fmt: skip
LAST_ROW = 400
"""Rows looked at for entries added after issue."""


@dataclass(frozen=True, slots=True)
class _Guard:
    sheet: str
    cell: str
    what: str
    now: str
    then: Any
    same: str
    """Formula part that compares columns D and E of its row, `{d}` and `{e}`."""


def draw_kept(results: ResultBook, rows: Issued, survey: Survey) -> None:
    """Draw the sheet and name its two counts, which every sheet's head looks at."""
    sheet = results.book.create_sheet(KEPT_SHEET)
    put = results.styles.put
    put(sheet["A1"], "Worked out at issue", "pb title")
    put(sheet["A2"], "Results no formula can give were worked out for the entries kept here. Where an entry "
                     "has changed "
        "since, the result beside it says OUT OF DATE.", "pb help")  # fmt: skip
    headers = ("Sheet", "Row or cell", "What", "Now", "At issue", "Changed")
    guards = list(_guards(rows, survey, results))
    last_kept = max(KEPT_FIRST_ROW + len(results.kept) - 1, KEPT_FIRST_ROW)
    first_guard = last_kept + 4
    last_guard = first_guard + len(guards) - 1
    for row, label, name, first, last in (
        (4, "Inputs of worked-out results that have changed", "results_changed", KEPT_FIRST_ROW, last_kept),
        (5, "Entries of the plan that have changed", "plan_changed", first_guard, last_guard),
    ):
        put(sheet.cell(row, 1), label, "pb label")
        sheet.merge_cells(start_row=row, end_row=row, start_column=1, end_column=3)
        results.styles.give(sheet.cell(row, 4), "pb computed", "0")
        sheet.cell(row, 4).value = f"=SUM(F{first}:F{last})"
        results.values[KEPT_SHEET, f"D{row}"] = 0
        results.book.defined_names[name] = DefinedName(name, attr_text=f"{quote(KEPT_SHEET)}!$D${row}")
    for top in (KEPT_FIRST_ROW - 1, first_guard - 1):
        for column, header in enumerate(headers, start=1):
            put(sheet.cell(top, column), header, "pb header")
    for row, kept in enumerate(results.kept, start=KEPT_FIRST_ROW):
        for column, text in enumerate((kept.sheet, kept.row, kept.what), start=1):
            put(sheet.cell(row, column), text, "pb computed text")
        spot = Spot(KEPT_SHEET, row, 4)
        results.write(sheet, spot, kept.node, "pb computed", "0.000000")
        put(sheet.cell(row, 5), kept.node.value, "pb issued", "0.000000")
        results.styles.give(sheet.cell(row, 6), "pb computed", "0")
        sheet.cell(row, 6).value = f"=IF(ISNUMBER(D{row}),IF(ROUND(D{row}-E{row},9)=0,0,1),1)"
        results.values[KEPT_SHEET, f"F{row}"] = 0
    for row, guard in enumerate(guards, start=first_guard):
        for column, text in enumerate((guard.sheet, guard.cell, guard.what), start=1):
            put(sheet.cell(row, column), text, "pb computed text")
        results.styles.give(sheet.cell(row, 4), "pb computed text")
        sheet.cell(row, 4).value = guard.now
        results.values[KEPT_SHEET, f"D{row}"] = guard.then
        put(sheet.cell(row, 5), guard.then, "pb computed text")
        results.styles.give(sheet.cell(row, 6), "pb computed", "0")
        sheet.cell(row, 6).value = "=" + guard.same.format(d=f"D{row}", e=f"E{row}")
        results.values[KEPT_SHEET, f"F{row}"] = 0
    for letter, width in zip("ABCDEF", (14, 12, 40, 22, 22, 10), strict=True):
        sheet.column_dimensions[letter].width = width
    sheet.freeze_panes = "A6"
    set_page(sheet, repeat_rows="1:2", portrait=True)
    protect(sheet)


_SAME_TEXT = "IF(EXACT({d},{e}),0,1)"
_SAME_NUMBER = "IF({d}={e},0,1)"


def _guards(rows: Issued, survey: Survey, results: ResultBook) -> Iterable[_Guard]:
    for title, keys in PLAN_COLUMNS.items():
        columns = {column.key: (order, column) for order, column in enumerate(SHEET[title].columns, start=1)}
        for row in rows.tables[title]:
            for key in keys:
                order, column = columns[key]
                cell = f"{get_column_letter(order)}{row.number}"
                value = row.values.get(key)
                then = f"{value:g}" if isinstance(value, float) else cell_text(value)
                yield _Guard(title, cell, column.title, f'={quote(title)}!{cell}&""', then, _SAME_TEXT)
    for title in COUNTED:
        area = f"{quote(title)}!$A${FIRST_ROW}:$A${LAST_ROW}"
        yield _Guard(
            title,
            "",
            "rows",
            f'=COUNTA({area})-COUNTIF({area},"{EXAMPLE_MARK}*")',
            len(rows.tables[title]),
            _SAME_NUMBER,
        )
    yield from _stations(rows, survey)
    for lines in (survey.letters, survey.numbers):
        yield from _order(lines, results)


def _stations(rows: Issued, survey: Survey) -> Iterable[_Guard]:
    """Where levels were read and on what, in a house with stations: a reading may become one, or be one no more."""
    columns = {column.key: (order, column) for order, column in enumerate(SHEET["Levels"].columns, start=1)}
    for row, reading in zip(rows.tables["Levels"], survey.readings, strict=True):
        if not station_readings(survey.readings) or not (reading.point or text_of(reading.what) in COURSES):
            continue
        for key in ("point", "what"):
            order, column = columns[key]
            cell = f"{get_column_letter(order)}{row.number}"
            then = cell_text(row.values.get(key))
            yield _Guard("Levels", cell, column.title, f'={quote("Levels")}!{cell}&""', then, _SAME_TEXT)


def _order(lines: tuple[GridLine, ...], results: ResultBook) -> Iterable[_Guard]:
    """Neighbouring lines still stand in the order the plan was worked out for."""
    ordered = sorted(lines, key=lambda line: value_of(line.offset))
    for before, after in pairwise(ordered):
        a, b = (results.homes.of(line.offset)[0] for line in (before, after))
        what = f"line {text_of(before.name)} before {text_of(after.name)}"
        formula = f"=IF({quote(a.sheet)}!{a.address}<{quote(b.sheet)}!{b.address},1,0)"
        yield _Guard("Grid", "", what, formula, 1, _SAME_NUMBER)
