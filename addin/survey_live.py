"""The live survey: the blank survey with columns that show results of worksheet functions while entries are typed.

Covers   what stands beside Walls, Rooms and Rates, and from which cells; their headings, looks and empty results.
Not      the survey itself (survey_book), what the functions give (functions), reading it back: the reader passes over
         every column whose heading begins with LIVE_MARK.
Units    each heading states its own.
Rules    a row shows nothing until the cells it needs are filled; figures of Materials, Allowances and Job are taken
         from the sheets, so that a change there shows. Without the add-in a filled row shows #NAME?.

    python -m addin.survey_live    writes templates/survey-live.xlsx
"""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from openpyxl.utils import get_column_letter
from openpyxl.workbook import Workbook
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.worksheet import Worksheet

from addin.files import write_atomically
from addin.layout import EXAMPLE_MARK, FIRST_ROW, HEADER_ROW, JOB, LIVE_MARK, SHEET, column_letter
from addin.styles import LINE_HEIGHT, Styles, lines_needed
from addin.survey_book import LAST_ROW, survey_content, survey_workbook
from addin.survey_live_house import LIVE_SHEET, draw_house, looked_up

TEMPLATE = Path(__file__).resolve().parents[1] / "templates" / "survey-live.xlsx"

LIVE_ROWS = 100
"""Rows of a sheet that have formulas."""

NOTE = "Shown by the add-in; plinthbook passes over these columns"


@dataclass(frozen=True, slots=True, kw_only=True)
class Live:
    """A column beside the survey's own. `{Walls.height}` in its formula is the cell of that column in the same row."""

    title: str
    formula: str = ""
    """Without a formula it is open: something to try out is typed there."""
    unit: str = ""
    help: str
    width: float = 11
    number_format: str = "0.00"

    @property
    def header(self) -> str:
        """The heading as printed."""
        return f"{LIVE_MARK} {self.title}" + (f" ({self.unit})" if self.unit else "")


def _column(sheet: str, key: str) -> str:
    """The cells of a column of another sheet."""
    letter = column_letter(SHEET[sheet], key)
    return f"{sheet}!${letter}${FIRST_ROW}:${letter}${LAST_ROW}"


def _cell(sheet: str, key: str) -> str:
    """A cell of the same row, to be filled with the row's number."""
    return f"${column_letter(SHEET[sheet], key)}{{row}}"


def _job(key: str) -> str:
    """An entry of Job, or what a blank there stands for."""
    row = next(row for row, column in enumerate(JOB, start=FIRST_ROW) if column.key == key)
    return f'IF(Job!$B${row}="",Job!$D${row},Job!$B${row})'


def _allowance(key: str, times: str = "") -> str:
    return f'INDEX({_column("Allowances", "value")},MATCH("{key}",{_column("Allowances", "name")},0)){times}'


def _rise() -> str:
    row = next(row for row, column in enumerate(JOB, start=FIRST_ROW) if column.key == "rise")
    return f'IF(Job!$B${row}="",1,Job!$B${row})'


NAMES = {
    "live_faces": _allowance("plastered_faces"),
    "live_plaster": _allowance("plaster_thickness", "*1000"),
    "live_slab": _allowance("slab_thickness", "*1000"),
    "live_finish": _allowance("finish_weight"),
    "live_slope": _allowance("roof_slope"),
    "live_end": _allowance("end_distance"),
    "live_concrete": f"INDEX({_column('Materials', 'unit_weight')},"
    f'MATCH("Reinforced concrete",{_column("Materials", "name")},0))',
    "live_widest": _job("widest_spacing"),
    "live_coin": _job("smallest_coin"),
    "live_rise": _rise(),
}
"""Names of the live workbook: figures that stand elsewhere in it. The slab and the plaster are in mm."""

_GRID = ",".join(_column("Grid", key) for key in ("name", "offset", "clear", "wall"))
_W = {column.key: _cell("Walls", column.key) for column in SHEET["Walls"].columns}
_R = {column.key: _cell("Rooms", column.key) for column in SHEET["Rooms"].columns}
_P = {column.key: _cell("Rates", column.key) for column in SHEET["Rates"].columns}


def _own(sheet: str, order: int) -> str:
    """A cell of the same row in one of our own columns; one column is left free."""
    return f"${get_column_letter(len(SHEET[sheet].columns) + 2 + order)}{{row}}"


def _unless(blank: Iterable[str], formula: str) -> str:
    """A formula that shows nothing where one of these conditions holds."""
    return f'=IF(OR({",".join(blank)}),"",{formula})'


def _no_row(name: str) -> tuple[str, str]:
    return f'{name}=""', f'LEFT({name},{len(EXAMPLE_MARK)})="{EXAMPLE_MARK}"'


def _unknown(cell: str, usual: str) -> str:
    """A cell, or what stands in for it where it is blank or not known."""
    return f'IF(OR({cell}="",{cell}="unknown",{cell}="?"),{usual},{cell})'


def _walls() -> tuple[Live, ...]:
    length = _own("Walls", 0)
    brick = next(column.default for column in SHEET["Walls"].columns if column.key == "masonry")
    kind = f'IF({_W["masonry"]}="","{brick}",{_W["masonry"]})'
    weight = f"INDEX({_column('Materials', 'unit_weight')},MATCH({kind},{_column('Materials', 'name')},0))"
    faces = f'IF({_W["plastered"]}="",live_faces,{_W["plastered"]})'
    ranges = ",".join(_column("Openings", key) for key in ("wall", "width", "height"))
    openings = f"{_W['name']},{ranges}"
    sized = (f'{length}=""', f'{_W["thickness"]}=""', f'{_W["height"]}=""')
    stays = f'AND({_W["at_lift"]}<>"",{_W["at_lift"]}<>"lifted")'
    return (
        Live(title="Length", unit="m", help="Between its grid points, on centre lines",
             formula=_unless((*_no_row(_W["name"]), f'{_W["start"]}=""', f'{_W["end"]}=""'),
                             f"PLINTH_WALL_LENGTH({_W['start']},{_W['end']},{_GRID})")),
        Live(title="Weight", unit="kN", help="Of its own, with plaster, openings taken off; what meeting walls take, "
             "frames and lintels are left to the estimate",
             formula=_unless(sized, f"PLINTH_WALL_WEIGHT({length},{_W['height']},{_W['thickness']},"
                             f"SUM(PLINTH_OPENINGS({openings})),{weight},{faces},live_plaster)")),
        Live(title="Masonry", unit="m3", help="Openings deducted by the rules of measurement, walls it meets not",
             formula=_unless(sized, f"PLINTH_WALL_MASONRY({length},{_W['thickness']},{_W['height']},{openings})")),
        Live(title="Plaster", unit="m2", help="Openings deducted by the rules of measurement, reveals left out",
             formula=_unless(sized, f"PLINTH_WALL_PLASTER({length},{_W['height']},{faces},{openings})")),
        Live(title="Jacks by spacing", unit="No", number_format="0",
             help="Walls of the ground storey that are lifted; by the widest spacing on Job. Load may call for more",
             formula=_unless((f'{length}=""', f'{_W["storey"]}&""<>"1"', stays),
                             f"PLINTH_JACKS_BY_SPACING({length},live_widest,live_end)")),
        *(
            Live(title=heading.partition(" (")[0], unit=heading.partition(" (")[2].rstrip(")"), number_format=shown,
                 help=f"Of the whole house worked through: see {LIVE_SHEET}. Walls of the ground storey only",
                 formula=_unless((*_no_row(_W["name"]), f'{_W["storey"]}&""<>"1"'), looked_up(_W["name"], heading)))
            for heading, shown in (("Load in the lift (kN)", "0.00"), ("Jacks (No)", "0"), ("Base side (m)", "0.00"))
        ),
    )  # fmt: skip


def _rooms() -> tuple[Live, ...]:
    area, corners = _own("Rooms", 0), f'AND({_R["outline"]}="",OR({_R["corner"]}="",{_R["opposite"]}=""))'
    finish, slope = _unknown(_R["finish"], "live_finish"), f'IF({_R["slope"]}="",live_slope,{_R["slope"]})'
    roof = f"PLINTH_ROOF_WEIGHT({area},{finish},{slope})"
    slab = f"PLINTH_SLAB_WEIGHT({area},{_unknown(_R['slab'], 'live_slab')},{finish},live_concrete)"
    return (
        Live(title="Area", unit="m2", help="From the corners or the outline, on centre lines", width=14,
             formula=_unless((*_no_row(_R["name"]), corners),
                             f"PLINTH_ROOM_AREA({_R['corner']},{_R['opposite']},{_R['outline']},{_GRID})")),
        Live(title="Slab or roof", unit="kN", help="Weight of the slab with its finish, or of the pitched roof, up to "
             "the centre lines of the walls", width=18,
             formula=_unless((f'{area}=""', f'{_R["above"]}="none"'),
                             f'IF({_R["above"]}="pitched roof",{roof},{slab})')),
        Live(title="Fill for the rise", unit="m3", width=20,
             help="Of the whole depth on centre lines, beds and walls not taken off; for the rise on Job, or for 1 m "
             "where that is blank",
             formula=_unless((f'{area}=""', f'{_R["storey"]}&""<>"1"', f'{_R["floor"]}="suspended"'),
                             f"PLINTH_FILL_OF_AREA({area},live_rise)")),
    )  # fmt: skip


def _rates() -> tuple[Live, ...]:
    tried = _own("Rates", 1)
    quantity = f"IF(ISNUMBER({tried}),{tried},PLINTH_CONVERT({tried},{_P['unit']}))"
    return (
        Live(title="Rate in words", help="A nought too many is easier heard than seen", width=44, number_format="@",
             formula=_unless((f'{_P["rate"]}=""',), f"PLINTH_IN_WORDS({_P['rate']})")),
        Live(title="Try a quantity", help="In the unit of the item, or text with its own unit: 3 brass", width=12),
        Live(title="Amount", unit="money", help="Of the quantity tried, to the smallest coin of Job", width=14,
             number_format="#,##0.00",
             formula=_unless((f'{_P["rate"]}=""', f'{tried}=""'),
                             f"PLINTH_AMOUNT({quantity},{_P['rate']},live_coin)")),
        *(
            Live(title=f"{heading} in the survey", unit=unit, width=14, number_format="#,##0.00",
                 help=f"Of the whole house worked through: see {LIVE_SHEET}",
                 formula=_unless((f'{_P["rate"]}=""',), looked_up(_P["name"], heading)))
            for heading, unit in (("Quantity", ""), ("Amount", "money"))
        ),
    )  # fmt: skip


LIVE: dict[str, tuple[Live, ...]] = {"Walls": _walls(), "Rooms": _rooms(), "Rates": _rates()}
"""Our columns by sheet, in order; one column is left free before them."""


def live_bytes() -> bytes:
    """The live survey as a file's content, the same bytes every time; every formula's result is empty."""
    book, styles = survey_workbook()
    results: dict[tuple[str, str], str] = {}
    for name, formula in NAMES.items():
        book.defined_names[name] = DefinedName(name, attr_text=formula)
    for title, columns in LIVE.items():
        results |= {(title, cell): "" for cell in _draw(book, styles, title, columns)}
    results |= {(LIVE_SHEET, cell): "" for cell in draw_house(book, styles)}
    return survey_content(book, results)


def _draw(book: Workbook, styles: Styles, title: str, columns: tuple[Live, ...]) -> Iterable[str]:
    """Draw our columns on one sheet; gives the cells that hold a formula."""
    page, first = book[title], len(SHEET[title].columns) + 2
    styles.put(page.cell(HEADER_ROW - 1, first), NOTE, "pb help")
    page.column_dimensions[get_column_letter(first - 1)].width = 3
    for number, column in enumerate(columns, start=first):
        letter = get_column_letter(number)
        page.column_dimensions[letter].width = column.width
        styles.put(page.cell(HEADER_ROW, number), column.header, "pb header")
        _say(page, column, f"{letter}{FIRST_ROW}:{letter}{FIRST_ROW + LIVE_ROWS - 1}")
        for row in range(FIRST_ROW, FIRST_ROW + LIVE_ROWS):
            cell = page.cell(row, number)
            if not column.formula:
                styles.give(cell, "pb entry")
                continue
            style = "pb computed text" if column.number_format == "@" else "pb computed"
            styles.give(cell, style, "" if column.number_format == "@" else column.number_format)
            cell.value = column.formula.format(row=row)
            yield cell.coordinate
    height = 6 + LINE_HEIGHT * lines_needed([c.header for c in columns], [c.width for c in columns])
    page.row_dimensions[HEADER_ROW].height = max(height, page.row_dimensions[HEADER_ROW].height or 0)


def _say(page: Worksheet, column: Live, cells: str) -> None:
    """What the column shows, beside a cell of it that is chosen."""
    message = DataValidation(allow_blank=True, showInputMessage=True, showErrorMessage=False)
    message.promptTitle, message.prompt = column.title[:32], f"{column.help}."
    message.add(cells)
    page.add_data_validation(message)


def main() -> None:
    """Write the live survey that ships with the program."""
    write_atomically(TEMPLATE, live_bytes())


if __name__ == "__main__":
    main()
