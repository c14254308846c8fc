"""How every workbook of the project looks: named styles, page set-up, protection, and the only way to write a cell.

Covers   one named style for each role of a cell, resolved once a workbook; text that can never become a formula;
         numbers that must be finite; A4 landscape pages with repeated headings; protection without a password.
Not      what stands where (survey_book and the sheets of the issued workbook), formulas (the workbook writer).
Sources  none; the colours are light, and each role is told by border, weight or slant too, so that it survives a
         black and white print.
"""

import math
import re
from array import array
from collections.abc import Sequence
from copy import copy
from datetime import date, datetime
from typing import Any, Literal

from openpyxl.cell.cell import Cell
from openpyxl.styles import Alignment, Border, Font, NamedStyle, PatternFill, Protection, Side
from openpyxl.workbook import Workbook
from openpyxl.worksheet.worksheet import Worksheet

INK = "1F2A36"
GREY = "6B6B6B"
LINE = "9AA3AD"
HEADING = "DCE3EA"
MUST = "C2CDD8"
ENTRY = "FFF9E3"
SHIPPED = "F1F6EC"
COMPUTED = "F4F4F4"
PASS, WARN, FAIL = "E3F1E1", "FFF0CC", "F9DAD7"

FONT = "Calibri"
LINE_HEIGHT = 13.2
"""Of a line of the usual size [pt]."""

LONGEST_TEXT = 32_767
"""Characters a cell holds; a spreadsheet cuts the rest without a word."""

_UNPRINTABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff\ud800-\udfff]")
_ESCAPED = re.compile("_(?=x[0-9A-Fa-f]{4}_)")
OPENS_FORMULA = ("=", "+", "-", "@", "\t", "\r", "'")


def _style(
    name: str,
    *,
    bold: bool = False,
    italic: bool = False,
    size: float = 10,
    colour: str = INK,
    fill: str = "",
    border: Literal["", "thin", "dotted", "medium"] = "",
    horizontal: Literal["", "center", "right"] = "",
    indent: int = 0,
    vertical: Literal["top", "center"] = "center",
    wrap: bool = False,
    number_format: str = "General",
    locked: bool = True,
) -> NamedStyle:
    style = NamedStyle(name=name)
    style.font = Font(name=FONT, size=size, bold=bold, italic=italic, color=colour)
    if fill:
        style.fill = PatternFill(fill_type="solid", fgColor=fill)
    if border:
        side = Side(style=border, color=LINE)
        style.border = Border(left=side, right=side, top=side, bottom=side)
    # An indent keeps text off the figure in the cell before it; only text set to the left takes one.
    aligned = "left" if indent else horizontal or None
    style.alignment = Alignment(horizontal=aligned, vertical=vertical, wrap_text=wrap, indent=indent)
    style.number_format = number_format
    style.protection = Protection(locked=locked)
    return style


def named_styles() -> tuple[NamedStyle, ...]:
    """One style for each role; fresh objects, since a style belongs to one workbook."""
    text: dict[str, Any] = {"number_format": "@", "indent": 1}
    entry: dict[str, Any] = {"fill": ENTRY, "border": "thin", "locked": False}
    return (
        _style("pb title", bold=True, size=14),
        _style("pb subtitle", bold=True, size=11),
        _style("pb help", italic=True, colour=GREY, vertical="top"),
        _style("pb unit", colour=GREY, indent=1),
        _style("pb text", wrap=True, vertical="top"),
        _style("pb link", wrap=True, vertical="top", colour="1F4E79"),
        _style("pb header", fill=HEADING, border="thin", horizontal="center", wrap=True),
        _style("pb header must", bold=True, fill=MUST, border="thin", horizontal="center", wrap=True),
        _style("pb label", border="thin", wrap=True, indent=1),
        _style("pb label must", bold=True, border="thin", wrap=True, indent=1),
        _style("pb note", border="thin", wrap=True, colour=GREY, indent=1),
        _style("pb entry", **entry, horizontal="right"),
        _style("pb entry text", **entry, **text),
        _style("pb entry wrapped", **entry, **text, wrap=True),
        _style("pb entry date", **entry, horizontal="right", number_format="yyyy-mm-dd"),
        _style("pb open", locked=False, horizontal="right"),
        _style("pb open text", **text, locked=False),
        _style("pb open date", locked=False, horizontal="right", number_format="yyyy-mm-dd"),
        _style("pb example", **text, italic=True, colour=GREY, border="dotted", locked=False),
        _style("pb example number", italic=True, colour=GREY, border="dotted", locked=False, horizontal="right"),
        _style("pb computed", fill=COMPUTED, border="thin", horizontal="right"),
        _style("pb computed text", fill=COMPUTED, border="thin", wrap=True, indent=1),
        _style("pb issued", border="dotted", italic=True, horizontal="right"),
        _style("pb how", italic=True, size=7, colour=GREY, border="thin", wrap=True, vertical="top"),
        _style("pb warning", bold=True, size=11, colour="8A1C12"),
        _style("pb total", bold=True, border="medium", horizontal="right"),
        _style("pb total text", bold=True, border="medium", wrap=True, indent=1),
        _style("pb pass", fill=PASS, border="thin", horizontal="center"),
        _style("pb warn", bold=True, fill=WARN, border="thin", horizontal="center"),
        _style("pb fail", bold=True, fill=FAIL, border="medium", horizontal="center"),
    )


class Styles:
    """The named styles of one workbook, each resolved once: giving a cell its style is then a copied array.

    >>> book = Workbook()
    >>> styles = Styles(book)
    >>> cell = styles.put(book.active["A1"], "=1+1", "pb entry text")
    >>> (cell.data_type, cell.value, cell.quotePrefix)
    ('s', '=1+1', True)
    """

    def __init__(self, book: Workbook) -> None:
        self._arrays: dict[tuple[str, str], array[int]] = {}
        scratch: Any = Cell(book.worksheets[0], row=1, column=1)
        for style in named_styles():
            book.add_named_style(style)
            scratch.style = style.name
            self._arrays[style.name, ""] = copy(scratch._style)
        self._scratch = scratch

    def give(self, cell: Any, style: str, number_format: str = "") -> Any:
        """Give a cell a named style, with another number format where one is named."""
        key = (style, number_format)
        if key not in self._arrays:
            self._scratch._style = copy(self._arrays[style, ""])
            self._scratch.number_format = number_format
            self._arrays[key] = copy(self._scratch._style)
        # A copy, because later changes to a cell's font or alignment are made in place in this array.
        cell._style = copy(self._arrays[key])
        return cell

    def give_column(self, sheet: Worksheet, letter: str, style: str, width: float) -> None:
        """Make `style` what empty cells of a column have, so that rows past the ruled ones stay open to entries."""
        column: Any = sheet.column_dimensions[letter]
        column.width = width
        column._style = copy(self._arrays[style, ""])

    def put(self, cell: Any, value: object, style: str, number_format: str = "") -> Any:
        """Write a value of any plain kind: text as text, a finite number, a date, or nothing.

        Raises:
            ValueError: the number is not finite.
            TypeError: the value is none of these kinds.
        """
        self.give(cell, style, number_format)
        if value is None or value == "":
            return cell
        if isinstance(value, str):
            return put_text(cell, value)
        if isinstance(value, bool):
            raise TypeError(f"{cell.coordinate}: write yes or no, not {value}")
        if isinstance(value, (int, float)):
            return put_number(cell, value)
        if isinstance(value, date):
            if isinstance(value, datetime) and value.tzinfo is not None:
                raise ValueError(f"{cell.coordinate}: {value} has a time zone, which a sheet cannot hold")
            # A date's default format would replace the one of the style.
            array_before = copy(cell._style)
            cell.value = value
            cell._style = array_before
            return cell
        raise TypeError(f"{cell.coordinate}: cannot write {type(value).__name__}")


def put_text(cell: Cell, text: str) -> Cell:
    """Write text that stays text: never a formula, never an error value, also after the user edits the cell."""
    clean = _UNPRINTABLE.sub("", text)[:LONGEST_TEXT]
    # A literal _x000D_ would be read back as the character it names.
    cell.value = _ESCAPED.sub("_x005F_", clean)
    # Set after the value: assigning decides "formula" or "error" by looks.
    cell.data_type = "s"
    if clean[:1] in OPENS_FORMULA and clean:
        cell.quotePrefix = True
    return cell


def put_number(cell: Cell, value: float) -> Cell:
    """Write a number, which must be finite: a sheet shows NaN as a silent blank."""
    if not math.isfinite(value):
        raise ValueError(f"{cell.coordinate}: {value} is not a finite number")
    cell.value = value
    return cell


def set_page(
    sheet: Worksheet, *, repeat_rows: str = "", portrait: bool = False, one_page: bool = False, form: str = ""
) -> None:
    """A4, as wide as the page, headings repeated, the sheet's name above and page x of y below.

    Args:
        sheet: the sheet
        repeat_rows: rows printed on every page, such as `1:3`
        portrait: upright instead of landscape
        one_page: shrunk to a single page
        form: what a paper form leaves to fill in at the head of each page
    """
    sheet.page_setup.paperSize = 9  # A4
    sheet.page_setup.orientation = "portrait" if portrait else "landscape"
    sheet.page_setup.fitToWidth = 1
    sheet.page_setup.fitToHeight = 1 if one_page else 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True  # type: ignore[union-attr]  # openpyxl always makes one
    margins = sheet.page_margins
    margins.left = margins.right = 0.4
    margins.top, margins.bottom, margins.header, margins.footer = 0.7, 0.6, 0.3, 0.3
    sheet.print_options.horizontalCentered = True
    if repeat_rows:
        sheet.print_title_rows = repeat_rows
    header: Any = sheet.oddHeader
    header.left.text, header.right.text = "&A", form
    footer: Any = sheet.oddFooter
    footer.left.text, footer.right.text = "&F", "Page &P of &N"


def protect(sheet: Worksheet) -> None:
    """Lock what is not open, without a password; widths, formats and rows may still be changed."""
    guard = sheet.protection
    guard.sheet = True
    # In the file these flags name what is forbidden.
    guard.formatCells = guard.formatColumns = guard.formatRows = False
    guard.insertRows = guard.deleteRows = False
    guard.sort = guard.autoFilter = False


def fit_row(sheet: Worksheet, row: int, texts: Sequence[str], widths: Sequence[float]) -> None:
    """Make a row as high as its wrapped texts need. Not every program does so when it opens a file."""
    lines = lines_needed(texts, widths)
    if lines > 1:
        sheet.row_dimensions[row].height = LINE_HEIGHT * lines + 3


BOLD = 1.1
"""How much wider bold letters run."""


def lines_needed(texts: Sequence[str], widths: Sequence[float]) -> int:
    """Lines the tallest of some wrapped texts takes in columns of these widths, in characters.

    >>> lines_needed(["Plastered faces (No)"], [9])
    3
    """
    return max(_lines(text, width) for text, width in zip(texts, widths, strict=True))


def _lines(text: str, width: float) -> int:
    """Words set line by line; a word longer than the line is broken, as a sheet breaks it."""
    # Widths are counted in figures at 11 point; letters at 10 point are narrower. One is left for the indent.
    room = max(1, int(width * 1.2 - 1))
    lines = 0
    for paragraph in text.split("\n"):
        used, lines = 0, lines + 1
        for word in paragraph.split():
            if used and used + 1 + len(word) > room:
                lines, used = lines + 1, 0
            used += len(word) + (1 if used else 0)
            while used > room:
                lines, used = lines + 1, used - room
    return lines
