"""Writes the survey workbook: blank, as a paper form, or filled from given rows.

Covers   the opening sheet, Job, one sheet for each table of the layout, the help on every column, the drop-down
         lists; entry cells, examples, shipped rows, input checks, page set-up.
Not      what the columns are (layout), how a cell looks (styles), reading it back (reader).
Units    a number is written as given, in the unit its header states; text such as `9 in` is written as text.
Sources  of shipped figures: the column Source of Materials, Uses, Soils and Allowances.
"""

import io
from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime
from pathlib import Path

from openpyxl.utils import get_column_letter, quote_sheetname
from openpyxl.workbook import Workbook
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.hyperlink import Hyperlink
from openpyxl.worksheet.worksheet import Worksheet

from addin import tables
from addin.caches import Value as Result
from addin.caches import inject
from addin.files import write_atomically
from addin.layout import (
    FIRST_ROW,
    HEADER_ROW,
    JOB,
    JOB_TITLES,
    SHEET,
    TABLES,
    UNKNOWN,
    Column,
    Sheet,
)
from addin.styles import LINE_HEIGHT, SHIPPED, Styles, fit_row, lines_needed, protect, set_page

START_SHEET, HELP_SHEET, LISTS_SHEET = "Start here", "Help", "Lists"
LAST_ROW = 503
"""Input checks and drop-downs reach down to here: five hundred rows a sheet."""

EDITION = datetime(2026, 1, 1)
"""Date written into the file, so that the same survey gives the same bytes on any day."""

SPARE_ROWS = 4
"""Empty ruled rows under shipped rows."""

PAPER_HEIGHT, TALLEST_ROW = 20.0, 28.0
"""Of a ruled row as printed [pt], 7 mm: room for handwriting. A wide sheet is printed smaller and has higher rows."""

PAGE_CHARACTERS = 132
"""Width of an A4 landscape page at full size."""

FORM_HEAD = "Job ........................   Date ................   By ................"

Value = float | str | date | tuple[str, ...] | None
RowValues = Mapping[str, Value]

_ENTRY = {"number": "pb entry", "date": "pb entry date", "text": "pb entry wrapped"}
_OPEN = {"number": "pb open", "date": "pb open date"}

_UNIT_WORDS = {"No": "", "year": "", "day": "days", "litre": "litres"}
NO_LIMIT = 1e6
"""A higher limit only catches slips of the hand and is not worth reading."""

_JOB_WIDTHS = (32, 26, 13, 28, 72)
_IN_USE_WIDTHS = {"F": 14, "G": 12}

_START_WIDTHS = (18, 22, 36, 88)
_HELP_TITLES = ("Sheet", "Column", "Unit", "May hold", "A blank stands for", "Note")
_HELP_WIDTHS = (12, 24, 10, 50, 34, 52)

_HOW = (
    "A number is in the unit of its heading, or carries its own: 9 in, 230 mm, 10' 6\", 20 t, 40 cft. Headings and "
    "their units stay as they are.",
    "Where a thing was not seen or measured, type unknown (or ?). It is priced on the careful side, listed, and keeps "
    "the job from being released for lifting.",
    "A blank takes the value shown on Job, and for every other sheet on Help. Nothing else is assumed.",
    "A grid point is a letter line and a number line, such as B3. Walls, beams and tapes run between grid points.",
    "Several names or points in one cell are parted by spaces or commas: W1 W2 W3.",
    "Grey rows that begin with e.g. are examples and are passed over. Write over them or leave them.",
    "When the ruled rows are full, carry on below them.",
    "Printed as it stands, each sheet is a form to fill in on site.",
    "Headings are protected without a password, so that nothing is overwritten by mistake.",
)
_CELLS = (
    ("pb header must", "Heading", "This column must be filled in every row"),
    ("pb header", "Heading", "This column may stay blank"),
    ("pb entry", "", "Entries are typed here"),
    ("pb example", "e.g.", "An example, passed over when the workbook is read"),
)
_CAUTIONS = (
    "The figures prepare a decision and do not replace one. They rest on what this survey says and on the conventions "
    "shown on Allowances.",
    "Presumed bearing pressures and default weights serve a first price only. Ground, footings, masonry and steel are "
    "confirmed on site before any lifting.",
    "Approval rests with the licensed engineer and the local authority.",
)


def survey_bytes(
    rows: Mapping[str, Sequence[RowValues]] | None = None,
    job: RowValues | None = None,
    examples: bool = True,
) -> bytes:
    """The survey workbook as a file's content, the same bytes for the same rows.

    Args:
        rows: by sheet title, the rows to fill in, values by column key. On the sheets with shipped rows a row with a
            shipped name changes that row, any other is added.
        job: entries of the Job sheet by key
        examples: whether the grey example rows are shown

    Raises:
        KeyError: a sheet, column or entry is not in the layout.
        ValueError: a number is not finite.
    """
    book, _ = survey_workbook(rows, job, examples)
    return survey_content(book, {})


def survey_workbook(
    rows: Mapping[str, Sequence[RowValues]] | None = None,
    job: RowValues | None = None,
    examples: bool = True,
) -> tuple[Workbook, Styles]:
    """The survey workbook before it is a file, and its styles; arguments as for survey_bytes."""
    book = Workbook()
    book.properties.creator, book.properties.title = "plinthbook", "House raising survey"
    styles = Styles(book)
    start = book.worksheets[0]
    start.title = START_SHEET
    _draw_start(start, styles)
    add_survey_sheets(book, styles, rows=rows, job=job, examples=examples)
    return book, styles


def survey_content(book: Workbook, results: Mapping[tuple[str, str], Result]) -> bytes:
    """The file's content, with the result of each formula by sheet and cell, and the same date on any day."""
    content = io.BytesIO()
    book.save(content)
    return inject(content.getvalue(), results, modified=EDITION)


def add_survey_sheets(
    book: Workbook,
    styles: Styles,
    *,
    rows: Mapping[str, Sequence[RowValues]] | None = None,
    job: RowValues | None = None,
    examples: bool = False,
    places: Mapping[str, Sequence[int]] | None = None,
) -> None:
    """Append Job, every table, Help and the hidden lists to a workbook; arguments as for survey_bytes.

    With `places`, the row number of every given row by sheet title, the rows stand there; shipped rows are then among
    those given.
    """
    given = dict(rows or {})
    if strange := [title for title in given if title not in SHEET]:
        raise KeyError(f"no survey sheet is called {', '.join(strange)}")
    lists = book.create_sheet(LISTS_SHEET)
    names = _list_names(book, lists)
    _draw_job(book.create_sheet("Job"), styles, names, job or {})
    for sheet in TABLES:
        page = book.create_sheet(sheet.title)
        _draw_head(page, sheet, styles, names)
        if examples and sheet.columns[0].example:
            _draw_example(page, sheet, styles)
        if places is None:
            first = FIRST_ROW + bool(examples and sheet.columns[0].example)
            filled = dict(enumerate(_with_shipped(sheet, given.get(sheet.title, ())), start=first))
        else:
            first = FIRST_ROW
            filled = dict(zip(places[sheet.title], given.get(sheet.title, ()), strict=True))
        _draw_rows(page, sheet, styles, filled, first)
    _draw_help(book.create_sheet(HELP_SHEET), styles)
    book.move_sheet(lists, len(book.sheetnames))
    lists.sheet_state = "hidden"


def shipped_rows(sheet: Sheet) -> tuple[RowValues, ...]:
    """The published rows of a sheet, or none."""
    if sheet.title == "Materials":
        return tuple(
            {"name": m.name, "unit_weight": m.unit_weight, "source": f"{m.source} ({m.read})"}
            for m in tables.materials()
        )
    if sheet.title == "Uses":
        return tuple({"name": u.name, "imposed": u.imposed, "source": f"{u.source} ({u.read})"} for u in tables.uses())
    if sheet.title == "Soils":
        return tuple({"name": s.name, "bearing": s.bearing, "source": f"{s.source} ({s.read})"} for s in tables.soils())
    if sheet.title == "Allowances":
        return tuple(
            {"name": f.key, "description": f.description, "value": f.value, "value_unit": f.unit,
             "source": f"{f.source} ({f.read})" if isinstance(f, tables.MemberRule) else f.source}
            for f in tables.figures()
        )  # fmt: skip
    if sheet.title == "Rates":
        return tuple({"name": i.code, "description": i.description, "unit": i.unit} for i in tables.items())
    return ()


def _with_shipped(sheet: Sheet, given: Sequence[RowValues]) -> list[RowValues]:
    keys = {column.key for column in sheet.columns}
    if strange := sorted({key for row in given for key in row} - keys):
        raise KeyError(f"sheet {sheet.title} has no column {', '.join(strange)}")
    named = {row["name"]: row for row in shipped_rows(sheet)}
    if not named:
        return list(given)
    for row in given:
        named[row["name"]] = {**named.get(row["name"], {}), **row}
    return list(named.values())


def limits_text(column: Column) -> str:
    """What an entry may be, in a few words.

    >>> limits_text(SHEET["Walls"].columns[4])
    '50 to 1200 mm'
    """
    if column.kind == "number" and column.least is not None and column.most is not None:
        top = f" to {column.most:.10g}" if column.most < NO_LIMIT else " or more"
        text = f"{column.least:.10g}{top} {_UNIT_WORDS.get(column.unit, column.unit)}".strip()
    elif column.kind in ("choice", "names") and column.refers:
        some = "one or more names from" if column.kind == "names" else "a name from"
        text = f"{some} {', '.join(column.refers)}"
    elif column.choices:
        text = "; ".join(choice for choice in column.choices if choice != UNKNOWN)
    else:
        text = {
            "name": "a name of its own",
            "point": "a grid point, such as B3",
            "points": "grid points, in order",
            "date": "a date, such as 2026-01-31",
        }.get(column.kind, "")
    if column.unknown or UNKNOWN in column.choices:
        text += ("; or " if column.choices else ", or " if text else "") + UNKNOWN
    return text


def blank_text(column: Column) -> str:
    """What a blank stands for.

    >>> blank_text(SHEET["Walls"].columns[6])
    'Brick masonry'
    """
    if column.required:
        return "must be filled in"
    if isinstance(column.default, str) and column.default.startswith("="):
        return f"{column.default[1:]} on Allowances"
    if isinstance(column.default, str):
        return column.default or "nothing"
    if column.default is not None:
        return f"{column.default:.10g} {_UNIT_WORDS.get(column.unit, column.unit)}".strip()
    if column.help.startswith("Blank: "):
        return column.help.removeprefix("Blank: ")
    return UNKNOWN if column.unknown else "nothing"


def note_text(column: Column) -> str:
    """The column's help, unless the blank's meaning says it already."""
    return "" if column.help.startswith("Blank: ") and column.default is None else column.help


def _list_names(book: Workbook, lists: Worksheet) -> dict[tuple[str, ...], str]:
    """Write each different set of choices once on the hidden sheet, name it, and name the columns others refer to."""
    names: dict[tuple[str, ...], str] = {}
    columns = [("Job", column) for column in JOB]
    columns += [(sheet.title, column) for sheet in TABLES for column in sheet.columns]
    for title, column in columns:
        choices = _offered(column)
        if not choices or choices in names:
            continue
        names[choices] = name = f"choices_{title.lower()}_{column.key}"
        letter = get_column_letter(len([key for key in names if key[0] != "="]))
        lists[f"{letter}1"] = name
        for row, choice in enumerate(choices, start=2):
            lists[f"{letter}{row}"] = choice
        _name(book, name, f"{LISTS_SHEET}!${letter}$2:${letter}${len(choices) + 1}")
    for target in sorted({sheet for _, column in columns for sheet in column.refers}):
        names["=", target] = name = f"names_{target.lower()}"
        column_a = f"{quote_sheetname(target)}!$A${FIRST_ROW}"
        whole = f"{column_a}:$A${LAST_ROW}"
        # Ends at the last name: a list with blanks in it lets any entry pass.
        _name(book, name, f"{column_a}:INDEX({whole},MAX(1,COUNTA({whole})))")
    return names


def _name(book: Workbook, name: str, formula: str) -> None:
    book.defined_names[name] = DefinedName(name, attr_text=formula)


def _offered(column: Column) -> tuple[str, ...]:
    if not column.choices:
        return ()
    return column.choices if not column.unknown or UNKNOWN in column.choices else (*column.choices, UNKNOWN)


def _draw_job(sheet: Worksheet, styles: Styles, names: Mapping[tuple[str, ...], str], job: RowValues) -> None:
    if strange := set(job) - {column.key for column in JOB}:
        raise KeyError(f"Job has no entry {', '.join(sorted(strange))}")
    styles.put(sheet["A1"], "Job", "pb title")
    styles.put(sheet["A2"], "One line for each entry; what a blank stands for is beside it.", "pb help")
    for number, (title, width) in enumerate(zip(JOB_TITLES, _JOB_WIDTHS, strict=True), start=1):
        styles.put(sheet.cell(HEADER_ROW, number), title, "pb header")
        sheet.column_dimensions[get_column_letter(number)].width = width
    for row, column in enumerate(JOB, start=FIRST_ROW):
        styles.put(sheet.cell(row, 1), column.title, "pb label must" if column.required else "pb label")
        styles.put(sheet.cell(row, 2), cell_value(job.get(column.key)), _ENTRY.get(column.kind, "pb entry text"))
        styles.put(sheet.cell(row, 3), column.unit, "pb note")
        # A number, not a text: the issued workbook works with it where the entry is blank.
        usual = column.default if isinstance(column.default, (int, float)) else blank_text(column)
        styles.put(sheet.cell(row, 4), usual, "pb note")
        example = f"For example {column.example}" if column.example else ""
        limits = "" if column.kind == "date" else limits_text(column)
        note = ". ".join(part for part in (note_text(column), limits[:1].upper() + limits[1:], example) if part)
        styles.put(sheet.cell(row, 5), note, "pb note")
        fit_row(sheet, row, (column.title, blank_text(column), note), (_JOB_WIDTHS[0], *_JOB_WIDTHS[3:]))
        _check_input(sheet, column, f"B{row}", f"B{row}", names)
    # A refresh shows the entries in use here, and leaves the widths of the survey as they are.
    for letter, width in _IN_USE_WIDTHS.items():
        sheet.column_dimensions[letter].width = width
    sheet.freeze_panes = f"B{FIRST_ROW}"
    sheet.sheet_properties.tabColor = "33475B"
    set_page(sheet, repeat_rows=f"1:{HEADER_ROW}", form=FORM_HEAD)
    protect(sheet)


def _draw_head(page: Worksheet, sheet: Sheet, styles: Styles, names: Mapping[tuple[str, ...], str]) -> None:
    """All of a table but its rows: title, headings, columns, input checks, page."""
    styles.put(page["A1"], f"{sheet.title}: one row is one {sheet.row_is}", "pb title")
    styles.put(page["A2"], sheet.help, "pb help")
    for number, column in enumerate(sheet.columns, start=1):
        letter = get_column_letter(number)
        # The whole column is open, so rows past the ruled ones take entries too; the heading rows are locked again.
        styles.give_column(page, letter, _OPEN.get(column.kind, "pb open text"), column.width)
        for row in (1, 2):
            if number > 1:
                styles.give(page.cell(row, number), "pb help")
        style = "pb header must" if column.required else "pb header"
        styles.put(page.cell(HEADER_ROW, number), column.header, style)
        _check_input(page, column, f"{letter}{FIRST_ROW}", f"{letter}{LAST_ROW}", names)
    headers, widths = [column.header for column in sheet.columns], [column.width for column in sheet.columns]
    page.row_dimensions[HEADER_ROW].height = 6 + LINE_HEIGHT * lines_needed(headers, widths)
    page.freeze_panes = f"B{FIRST_ROW}"
    page.sheet_properties.tabColor = "33475B" if sheet.required else SHIPPED if sheet.shipped else "C2CDD8"
    set_page(page, repeat_rows=f"1:{HEADER_ROW}", form=FORM_HEAD)
    protect(page)


def _draw_example(page: Worksheet, sheet: Sheet, styles: Styles) -> None:
    for number, column in enumerate(sheet.columns, start=1):
        style = "pb example number" if column.kind == "number" else "pb example"
        styles.put(page.cell(FIRST_ROW, number), column.example, style)


def _draw_rows(page: Worksheet, sheet: Sheet, styles: Styles, rows: Mapping[int, RowValues], first: int) -> None:
    """Rows by number, and empty ruled ones from `first` on where there is none."""
    kinds = [(column.key, _ENTRY.get(column.kind, "pb entry text")) for column in sheet.columns]
    if sheet.shipped:
        kinds = [(key, "pb entry wrapped" if style == "pb entry text" else style) for key, style in kinds]
    for row, values in rows.items():
        for number, (key, style) in enumerate(kinds, start=1):
            styles.put(page.cell(row, number), cell_value(values.get(key)), style)
        if sheet.shipped:
            fit_row(page, row, [str(values.get(key) or "") for key, _ in kinds], [c.width for c in sheet.columns])
    scale = min(1.0, PAGE_CHARACTERS / sum(column.width for column in sheet.columns))
    end = max(rows, default=first - 1) + 1
    last = max(first + sheet.paper_rows, end + SPARE_ROWS if sheet.shipped else end)
    for row in range(first, last):
        if row in rows:
            continue
        page.row_dimensions[row].height = min(TALLEST_ROW, PAPER_HEIGHT / scale)
        for number, (_, style) in enumerate(kinds, start=1):
            styles.give(page.cell(row, number), style)


def cell_value(value: Value) -> float | str | date | None:
    """A value as its cell holds it; several names in one cell are parted by commas where one has a space in it."""
    if not isinstance(value, tuple):
        return value
    return (", " if any(" " in part for part in value) else " ").join(value)


def _check_input(page: Worksheet, column: Column, first: str, last: str, names: Mapping[tuple[str, ...], str]) -> None:
    """Input message and check of one column. A number is held to its limits; text with a unit always passes."""
    check = DataValidation(allow_blank=True)
    limits = limits_text(column)
    name = names.get(_offered(column)) or (names.get(("=", *column.refers)) if column.kind == "choice" else None)
    if name:
        check.type, check.formula1 = "list", f"={name}"
        # Names may be entered later than they are used, so a strange one is only questioned.
        check.errorStyle = "warning" if column.refers else "stop"
    elif column.kind == "number" and column.least is not None:
        check.type = "custom"
        # A share typed as 5% is stored as 0.05, which a formula would take for a twentieth of one per cent.
        whole = f",OR({first}=0,{first}>=1)" if column.unit == "%" else ""
        check.formula1 = f"=OR(ISTEXT({first}),AND({first}>={column.least:.10g},{first}<={column.most:.10g}{whole}))"
    elif column.kind == "date":
        check.type, check.formula1 = "custom", f"=OR(ISTEXT({first}),{first}>=DATE(1950,1,1))"
    elif column.kind == "name":
        absolute = f"$A${FIRST_ROW}:$A${LAST_ROW}"
        check.type, check.formula1, check.errorStyle = "custom", f"=COUNTIF({absolute},{first})=1", "warning"
        limits = "a name not used on this sheet yet"
    parts = [note_text(column), limits[:1].upper() + limits[1:]]
    parts.append("" if column.required else f"Blank: {blank_text(column)}")
    check.showInputMessage, check.showErrorMessage = True, check.type is not None
    check.promptTitle = check.errorTitle = column.header[:32]
    check.prompt = _fit(". ".join(part.rstrip(".") for part in parts if part) + ".", 255)
    with_unit = " Or type the number with its unit, as text." if column.kind == "number" and column.unit else ""
    check.error = _fit(f"Wanted: {limits}.{with_unit}", 225)
    check.add(f"{first}:{last}" if last != first else first)
    page.add_data_validation(check)


def _fit(text: str, most: int) -> str:
    """A spreadsheet refuses a file with a longer message."""
    return text if len(text) <= most else text[: most - 3] + "..."


def _draw_start(page: Worksheet, styles: Styles) -> None:
    for letter, width in zip("ABCD", _START_WIDTHS, strict=True):
        page.column_dimensions[letter].width = width
    styles.put(page["A1"], "House raising survey", "pb title")
    styles.put(
        page["A2"],
        "Fill in the sheets in this order. Job, Grid, Rooms and Walls are enough for a first price.",
        "pb help",
    )
    for number, title in enumerate(("Sheet", "Fill in", "One row is", "What it is for"), start=1):
        styles.put(page.cell(HEADER_ROW, number), title, "pb header")
    row = FIRST_ROW
    for title, fill, row_is, what in _contents():
        must = fill == "must be filled in"
        styles.put(page.cell(row, 1), title, "pb label must" if must else "pb label")
        page.cell(row, 1).hyperlink = Hyperlink(ref=f"A{row}", location=f"{quote_sheetname(title)}!A1")
        fit_row(page, row, (row_is, what), _START_WIDTHS[2:])
        for number, text in enumerate((fill, row_is, what), start=2):
            styles.put(page.cell(row, number), text, "pb label must" if must and number == 2 else "pb label")
        row += 1
    row = _draw_block(page, styles, row + 1, "How to fill in", _HOW)
    styles.put(page.cell(row, 1), "Cells", "pb subtitle")
    for style, sample, meaning in _CELLS:
        row += 1
        styles.put(page.cell(row, 1), sample, style)
        styles.put(page.cell(row, 2), meaning, "pb open text")
    _draw_block(page, styles, row + 2, "Cautions", _CAUTIONS)
    set_page(page, one_page=True)
    protect(page)


def _contents() -> Iterable[tuple[str, str, str, str]]:
    yield "Job", "must be filled in", "entry", "The job, its reason, levels, jacks, ground, money and names."
    for sheet in TABLES:
        open_to_change = "shipped, may be changed" if sheet.shipped else "where it applies"
        fill = "must be filled in" if sheet.required else open_to_change
        yield sheet.title, "rates to be filled in" if sheet.title == "Rates" else fill, sheet.row_is, sheet.help
    yield HELP_SHEET, "nothing", "column", "Every column: what it may hold and what a blank stands for."


def _draw_block(page: Worksheet, styles: Styles, row: int, title: str, lines: Sequence[str]) -> int:
    """A heading and lines under it across all columns; returns the row after a gap."""
    styles.put(page.cell(row, 1), title, "pb subtitle")
    for line in lines:
        row += 1
        page.merge_cells(start_row=row, end_row=row, start_column=1, end_column=4)
        styles.put(page.cell(row, 1), line, "pb text")
        # A merged cell does not grow with its text.
        page.row_dimensions[row].height = 2 + LINE_HEIGHT * lines_needed([line], [sum(_START_WIDTHS)])
    return row + 2


def _draw_help(page: Worksheet, styles: Styles) -> None:
    styles.put(page["A1"], "Help: every column of every sheet", "pb title")
    styles.put(page["A2"], "The Job sheet has its help beside each entry.", "pb help")
    for number, (title, width) in enumerate(zip(_HELP_TITLES, _HELP_WIDTHS, strict=True), start=1):
        page.column_dimensions[get_column_letter(number)].width = width
        styles.put(page.cell(HEADER_ROW, number), title, "pb header")
    row = FIRST_ROW
    for sheet in TABLES:
        for column in sheet.columns:
            texts = (sheet.title, column.title, column.unit, limits_text(column), blank_text(column), note_text(column))
            fit_row(page, row, texts, _HELP_WIDTHS)
            for number, text in enumerate(texts, start=1):
                must = column.required and number == 2
                styles.put(page.cell(row, number), text, "pb label must" if must else "pb label")
            row += 1
    page.freeze_panes = f"C{FIRST_ROW}"
    set_page(page, repeat_rows=f"{HEADER_ROW}:{HEADER_ROW}")
    protect(page)


TEMPLATE = Path(__file__).resolve().parents[1] / "templates" / "survey.xlsx"


def main() -> None:
    """Write the blank survey that ships with the program."""
    write_atomically(TEMPLATE, survey_bytes())


if __name__ == "__main__":
    main()
