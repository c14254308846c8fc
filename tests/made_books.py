"""Small workbooks in the place of an issued one: as openpyxl writes them, with results, with our marks.

Covers   two result sheets, one survey sheet; what a test asks for besides.
Not      estimates: the figures mean nothing.
"""

import io
from collections.abc import Callable
from datetime import datetime
from typing import Any

from openpyxl import Workbook
from openpyxl.chart import BarChart, Reference
from openpyxl.comments import Comment
from openpyxl.formatting.rule import FormulaRule
from openpyxl.styles import Border, Font, NamedStyle, PatternFill, Side
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.table import Table

from addin.caches import inject
from addin.marks import mark

OURS = ("Offer", "Bill")
ALL = (*OURS, "Job")


def made_book(
    *,
    rise: float = 1.2,
    chart: bool = False,
    table: bool = False,
    note: bool = False,
    title_colour: str = "1F2A36",
    more: Callable[[Any], None] | None = None,
) -> bytes:
    """A made workbook: Offer and Bill are results, Job is a survey sheet.

    Args:
        rise: the entry everything rests on
        chart: whether Bill has a chart
        table: whether Bill has a table
        note: whether Offer has a note on a cell
        title_colour: colour of titles
        more: adds whatever a test needs before it is marked
    """
    book = Workbook()
    book.remove(book.worksheets[0])
    title = NamedStyle("pb title", font=Font(name="Calibri", bold=True, size=14, color=title_colour))
    figure = NamedStyle("pb figure", font=Font(name="Calibri", size=10), number_format="0.000",
                        border=Border(top=Side(style="thin", color="9AA3AD")))  # fmt: skip
    values: dict[tuple[str, str], Any] = {}
    for name in ALL:
        book.create_sheet(name)["A1"] = name
        book[name]["A1"].style = title
        book[name].print_title_rows = "1:1"
    for cell, formula, value in (("B3", "=Job!B2*2", rise * 2), ("B4", "=bill_total", rise * 30)):
        book["Offer"][cell], values["Offer", cell] = formula, value
        book["Offer"][cell].style = figure
    for row in (2, 3, 4):
        book["Bill"].cell(row, 1, f"item {row}")
        cell = book["Bill"].cell(row, 2, f"=Job!$B$2*{row + 7}-{row}*0")
        cell.number_format, values["Bill", cell.coordinate] = "[$-4009]#,##0.00", rise * (row + 7)
    book["Bill"]["B6"], values["Bill", "B6"] = "=SUM(B2:B4)", rise * 30
    rule = FormulaRule(formula=["$B2>10"], fill=PatternFill(bgColor="F9DAD7", fill_type="solid"))
    book["Bill"].conditional_formatting.add("B2:B4", rule)
    book["Job"]["B2"], book["Job"]["C2"] = rise, "=B2"
    values["Job", "C2"] = rise
    book["Job"]["C2"].style = figure
    for name, cell in (("bill_total", "Bill!$B$6"), ("rise_in_use", "Job!$C$2")):
        book.defined_names[name] = DefinedName(name, attr_text=cell)
    if chart:
        bars = BarChart()
        bars.add_data(Reference(book["Bill"], min_col=2, min_row=2, max_row=4))
        book["Bill"].add_chart(bars, "D2")
    if table:
        _add_table(book)
    if note:
        book["Offer"]["B3"].comment = Comment("twice the rise", "plinthbook")
    if more is not None:
        more(book)
    mark(book, OURS)
    stream = io.BytesIO()
    book.save(stream)
    return inject(stream.getvalue(), values, modified=datetime(2026, 1, 31))


def _add_table(book: Any) -> None:
    for row, line in enumerate((("Stage", "Days"), ("raise", 4), ("close", 9)), start=10):
        for column, value in enumerate(line, start=1):
            book["Bill"].cell(row, column, value)
    book["Bill"].add_table(Table(displayName="Stages", ref="A10:B12"))
