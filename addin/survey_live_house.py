"""The sheet of the live survey that works the whole house through as it is typed.

Covers   the state of the survey in words; a block of every wall and a block of every item, each one array formula; how
         the columns beside Walls and Rates look their figures up in them.
Not      those columns (survey_live), what the functions give (functions_house).
Rules    the blocks are worked out once for the sheet, whatever looks into them; before the first wall is named they are
         empty. A survey with faults shows errors in them, and the first fault in words above.
"""

from collections.abc import Iterable

from openpyxl.utils import get_column_letter, quote_sheetname
from openpyxl.workbook import Workbook
from openpyxl.worksheet.formula import ArrayFormula
from openpyxl.worksheet.worksheet import Worksheet

from addin.house import ITEM_COLUMNS, WALL_COLUMNS
from addin.layout import EXAMPLE_MARK, FIRST_ROW, JOB, JOB_TITLES, SHEET, SURVEY_TITLES
from addin.styles import LINE_HEIGHT, Styles, lines_needed, protect, set_page
from addin.survey_book import shipped_rows

LIVE_SHEET = "Live house"
ROWS = 100
"""Rows of each block, and rows of the sheets that are filled in by hand."""
SPARE = 40
"""Rows handed over below the shipped ones of a sheet."""

_HEAD_ROW, _TOP = 6, 7
_WALLS, _ITEMS = 1, len(WALL_COLUMNS) + 2
"""Columns where the two blocks begin; one column is free between them."""
_WIDTHS = (10, 12, 11, 10, 11, 9, 10, 10, 12, 3, 9, 12, 12, 14)


def looked_up(name: str, heading: str) -> str:
    """What the block says of a name under one of its headings; an error where it says nothing."""
    first, headings = (_WALLS, WALL_COLUMNS) if heading in WALL_COLUMNS else (_ITEMS, ITEM_COLUMNS)
    column = get_column_letter(first + headings.index(heading))
    names = get_column_letter(first)
    sheet = quote_sheetname(LIVE_SHEET)
    areas = [f"{sheet}!${letter}${_TOP}:${letter}${_TOP + ROWS - 1}" for letter in (column, names)]
    return f"INDEX({areas[0]},MATCH({name},{areas[1]},0))"


def draw_house(book: Workbook, styles: Styles) -> Iterable[str]:
    """Add the sheet after the survey's own; gives the cells that hold a formula."""
    sheet = book.create_sheet(LIVE_SHEET, book.sheetnames.index(SURVEY_TITLES[-1]) + 1)
    put = styles.put
    put(sheet["A1"], "The whole house as the survey has it", "pb title")
    put(sheet["A2"], "Shown by the add-in while entries are typed; plinthbook passes over this sheet. A count and a "
                     "weight, not a jack plan: nothing here is for lifting.", "pb help")  # fmt: skip
    styles.give(sheet["A3"], "pb warning")
    sheet["A3"] = _formula("PLINTH_HOUSE_STATE")
    yield "A3"
    for first, title, headings, function in (
        (_WALLS, "Walls", WALL_COLUMNS, "PLINTH_HOUSE_WALLS"),
        (_ITEMS, "Items of work", ITEM_COLUMNS, "PLINTH_HOUSE_ITEMS"),
    ):
        put(sheet.cell(_HEAD_ROW - 1, first), title, "pb subtitle")
        yield _draw_block(sheet, styles, first, headings, function)
    sheet.row_dimensions[_HEAD_ROW].height = 6 + LINE_HEIGHT * lines_needed((*WALL_COLUMNS, "", *ITEM_COLUMNS), _WIDTHS)
    for number, width in enumerate(_WIDTHS, start=1):
        sheet.column_dimensions[get_column_letter(number)].width = width
    sheet.freeze_panes = f"B{_TOP}"
    set_page(sheet, repeat_rows=f"1:{_HEAD_ROW}")
    protect(sheet)


def _draw_block(sheet: Worksheet, styles: Styles, first: int, headings: tuple[str, ...], function: str) -> str:
    """One array formula over a block of cells; gives the cell that holds it."""
    for number, heading in enumerate(headings, start=first):
        styles.put(sheet.cell(_HEAD_ROW, number), heading, "pb header")
        for row in range(_TOP, _TOP + ROWS):
            text = number == first
            styles.give(sheet.cell(row, number), "pb computed text" if text else "pb computed", "" if text else "0.00")
    start = f"{get_column_letter(first)}{_TOP}"
    area = f"{start}:{get_column_letter(first + len(headings) - 1)}{_TOP + ROWS - 1}"
    sheet[start] = ArrayFormula(area, _formula(function))
    return start


def _formula(function: str) -> str:
    first, second = (f"Walls!$A${row}" for row in (FIRST_ROW, FIRST_ROW + 1))
    example = f'LEFT({first},{len(EXAMPLE_MARK)})="{EXAMPLE_MARK}"'
    return f'=IF(AND(OR({first}="",{example}),{second}=""),"",{function}({",".join(map(_area, SURVEY_TITLES))}))'


def _area(title: str) -> str:
    """A survey sheet from its first cell on."""
    if title == "Job":
        return f"Job!$A$1:${get_column_letter(len(JOB_TITLES))}${FIRST_ROW + len(JOB) - 1}"
    shipped = len(shipped_rows(SHEET[title]))
    last = FIRST_ROW + (shipped + SPARE if shipped else ROWS)
    return f"{title}!$A$1:${get_column_letter(len(SHEET[title].columns))}${last}"
