"""The Plan sheet: the ground storey to scale, a chart that follows the cells.

Covers   one series for each stroke and each mark of calc's plan and one for the jacks of each circuit; how walls,
         doors, windows, columns, jacks and the centre of load look; the page.
Not      where anything stands (calc.plan_view, shown on Plan data).
Rules    told apart by weight, gap and shape, not by colour: it reads in black and white. Both axes run over one sheet
         that is as wide as it is high, so that a metre is as long across as up.
"""

from collections.abc import Iterator, Sequence
from typing import Any

from openpyxl.chart import Reference, ScatterChart, Series
from openpyxl.chart.data_source import StrRef
from openpyxl.chart.label import DataLabel, DataLabelList
from openpyxl.chart.layout import Layout, ManualLayout
from openpyxl.chart.marker import Marker
from openpyxl.chart.series import SeriesLabel
from openpyxl.chart.shapes import GraphicalProperties
from openpyxl.chart.text import RichText
from openpyxl.chart.text import Text as ChartText
from openpyxl.descriptors import Typed
from openpyxl.drawing.line import LineEndProperties, LineProperties
from openpyxl.drawing.text import CharacterProperties, Paragraph, ParagraphProperties, RegularTextRun
from openpyxl.utils import get_column_letter

from addin.drawing.shapes import BLACK, GREY, WHITE, symbols_of
from addin.formulas import Spot, quote
from addin.plan_labels import sides_of
from addin.result_book import STALE_FORMULA, ResultBook
from addin.sheets import PLAN_DATA_SHEET, WHAT
from addin.styles import protect, set_page
from calc.plan_view import PlanJack, PlanMark, PlanStroke, PlanView

SIDE = 20.0
"""Of the chart [cm]: it fills the width of an upright A4 page."""

_POINT = 12_700
"""Of a line's width, in the units of the file."""

_STROKES = {"wall": 3.5, "window": 0.75, "vent": 0.75, "scale bar": 2.0, "north": 1.5}
"""Width [pt]: a window is a thin line in its wall, a door a gap."""

_BESIDE = {"line": "ctr", "wall across": "t", "wall up": "r", "column": "b", "centre": "b", "north": "t"}
"""Where the name of a mark stands."""

_MARKS = {
    "north": "none",
    "line": "none",
    "wall across": "none",
    "wall up": "none",
    "column": "square",
    "centre": "x",
}
_JACKS = {"circle": "circle", "triangle": "triangle", "diamond": "diamond", "square": "square", "plus": "plus",
          "star": "star", "bar": "dash"}  # fmt: skip
"""The symbols of the drawing as a chart has them."""

_TONES = {BLACK: ("black", "000000"), GREY: ("dark grey", "4D4D4D"), WHITE: ("grey", "8C8C8C")}
"""Not every program draws the edge of a symbol, so none is white here."""

_TEXT, _NAME_TEXT = 6, 10
"""Size of the mark of a jack and of other names [pt]."""

_PALE = "C8C8C8"
"""Walls under jacks."""

_PICTURE_ROWS = range(9, 48)
"""Rows that the picture lies over, each of the height _ROW, so that what is under it stays under it."""

_ROW = 15.0
_LEGEND = (
    "Heavy line: wall on its centre line. Thin line: window or vent. Gap: door. Black square: column. X: centre of "
    "what is lifted. Letters and numbers: grid lines. The bar above is as long as stated here.",
    "To scale as printed and on the screen, as long as the picture is not stretched by one of its edges.",
)


def draw_plan(results: ResultBook, view: PlanView, heading: Any) -> None:
    """Draw the sheet; the page Plan data must have been placed."""
    sheet, put = results.book.create_sheet("Plan"), results.styles.put
    put(sheet["A1"], "Plan of the ground storey", "pb title")
    put(sheet["A2"], WHAT["Plan"], "pb help")
    results.write(sheet, Spot("Plan", 3, 1), heading, "pb warning")
    results.styles.give(sheet["A4"], "pb warning")
    sheet["A4"] = STALE_FORMULA
    results.values["Plan", "A4"] = ""
    put(sheet["A5"], "Scale bar (m)", "pb label")
    sheet.merge_cells("A5:B5")
    results.write(sheet, Spot("Plan", 5, 3), view.frame.bar, "pb computed", "0")
    for row, text in enumerate(_LEGEND, start=6):
        put(sheet.cell(row, 1), text, "pb text")
        sheet.merge_cells(start_row=row, end_row=row, start_column=1, end_column=8)
        sheet.row_dimensions[row].height = 28
    for column in "ABCDEFGH":
        sheet.column_dimensions[column].width = 10.5
    sheet.add_chart(_chart(results, view), "A9")
    for row in _PICTURE_ROWS:
        sheet.row_dimensions[row].height = _ROW
    for row, text in enumerate(_circuit_words(view), start=_PICTURE_ROWS.stop):
        put(sheet.cell(row, 1), text, "pb text")
        sheet.merge_cells(start_row=row, end_row=row, start_column=1, end_column=8)
    set_page(sheet, portrait=True, one_page=True)
    protect(sheet)


def _chart(results: ResultBook, view: PlanView) -> ScatterChart:
    chart: Any = ScatterChart()
    chart.style, chart.scatterStyle, chart.legend, chart.title = None, "lineMarker", None, None
    chart.width = chart.height = SIDE
    chart.roundedCorners = False
    chart.layout = Layout(manualLayout=ManualLayout(layoutTarget="inner", xMode="edge", yMode="edge", x=0.01, y=0.01,
                                                    w=0.98, h=0.98))  # fmt: skip
    for axis in (chart.x_axis, chart.y_axis):
        axis.scaling.min, axis.scaling.max = -0.5, 0.5
        axis.delete, axis.majorGridlines = True, None
    for stroke in (*view.pieces, *view.legend):
        ink = _PALE if view.jacks and stroke in view.pieces else "000000"
        chart.series.append(_stroke(results, stroke, ink))
    for mark in view.marks:
        chart.series.append(_mark(results, mark))
    point = 2.54 / 72 / SIDE
    sides = sides_of(view.jacks, view.marks, _BESIDE, point, (_TEXT, _NAME_TEXT))
    for circuit, (symbol, tone) in symbols_of(jack.circuit for jack in view.jacks).items():
        there = [(jack, side) for jack, side in zip(view.jacks, sides, strict=True) if jack.circuit == circuit]
        chart.series.append(_jacks(results, there, symbol, tone))
    return chart


def _circuit_words(view: PlanView) -> Iterator[str]:
    """What each shape under the picture means, and that jacks do not follow the entries."""
    for circuit, (symbol, tone) in symbols_of(jack.circuit for jack in view.jacks).items():
        count = sum(jack.circuit == circuit for jack in view.jacks)
        on = f"jack on circuit {circuit}" if circuit else "jack on no circuit"
        yield f"{symbol.capitalize()}, {_TONES[tone][0]}: {on}, {count} in all."
    if view.jacks:
        yield "Jacks stand where the plan put them when this workbook was issued; they do not follow later entries."


def _jacks(results: ResultBook, there: Sequence[tuple[PlanJack, str]], symbol: str, tone: float) -> Any:
    """The jacks of one circuit; their marks are texts of the chart, fixed at issue like the jacks themselves."""
    jacks = [jack for jack, _ in there]
    across, up = (_column(results, [getattr(jack, axis) for jack in jacks]) for axis in ("across", "up"))
    series: Any = Series(up, across)
    series.tx = SeriesLabel(v=f"circuit {jacks[0].circuit}" if jacks[0].circuit else "jacks")
    series.smooth = False
    series.graphicalProperties = GraphicalProperties(ln=LineProperties(noFill=True))
    shape: Any = _JACKS[symbol]
    series.marker = Marker(symbol=shape, size=9)
    series.marker.graphicalProperties = GraphicalProperties(solidFill=_TONES[tone][1],
                                                            ln=LineProperties(solidFill="000000"))  # fmt: skip
    labels = [_TextLabel(jack.name, idx=order, dLblPos=side, showVal=True, showSerName=False, showCatName=False,
                         showLegendKey=False) for order, (jack, side) in enumerate(there)]  # fmt: skip
    series.dLbls = DataLabelList(dLbl=labels)
    series.dLbls.showVal = series.dLbls.showSerName = False
    series.dLbls.showCatName = series.dLbls.showLegendKey = False
    return series


class _TextLabel(DataLabel):
    """A label of one point with a text of its own, which openpyxl does not know of."""

    tagname = "dLbl"
    # openpyxl writes what stands in the class itself, not what it inherits.
    _known: Any = DataLabel
    idx, dLblPos = _known.idx, _known.dLblPos  # noqa: N815 - the names of the file
    showLegendKey, showVal = _known.showLegendKey, _known.showVal  # noqa: N815
    showCatName, showSerName = _known.showCatName, _known.showSerName  # noqa: N815
    tx = Typed(expected_type=ChartText, allow_none=True)
    __elements__ = ("idx", "tx", "dLblPos", "showLegendKey", "showVal", "showCatName", "showSerName")

    def __init__(self, text: str, **given: Any) -> None:
        super().__init__(**given)
        look = CharacterProperties(sz=100 * _TEXT)
        self.tx = ChartText(rich=RichText(p=[Paragraph(pPr=ParagraphProperties(defRPr=look),
                                                       r=[RegularTextRun(rPr=look, t=text)])]))  # fmt: skip


def _column(results: ResultBook, nodes: Sequence[Any]) -> Reference:
    """The cells that show these nodes, one under the other."""
    ends = [next(spot for spot in results.homes.of(node) if spot.sheet == PLAN_DATA_SHEET)
            for node in (nodes[0], nodes[-1])]  # fmt: skip
    first, last = (f"${get_column_letter(spot.column)}${spot.row}" for spot in ends)
    return Reference(range_string=f"{quote(PLAN_DATA_SHEET)}!{first}:{last}")


def _stroke(results: ResultBook, stroke: PlanStroke, ink: str) -> Any:
    series = _series(results, (stroke.across_start, stroke.across_end), (stroke.up_start, stroke.up_end))
    series.marker = Marker(symbol="none")
    line = LineProperties(solidFill=ink, w=int(_STROKES[stroke.kind] * _POINT))
    if stroke.kind == "north":
        line.tailEnd = LineEndProperties(type="triangle", w="med", len="med")
    series.graphicalProperties = GraphicalProperties(ln=line)
    return series


def _mark(results: ResultBook, mark: PlanMark) -> Any:
    series = _series(results, (mark.across,), (mark.up,))
    symbol: Any = _MARKS[mark.kind]
    series.marker = Marker(symbol=symbol, size=9 if symbol != "none" else None)
    if symbol != "none":
        fill = "000000" if mark.kind == "column" else "7F7F7F"
        series.marker.graphicalProperties = GraphicalProperties(solidFill=fill)
    series.graphicalProperties = GraphicalProperties(ln=LineProperties(noFill=True))
    _label(results, series, mark.name, _BESIDE[mark.kind])
    return series


def _series(results: ResultBook, across: tuple[Any, ...], up: tuple[Any, ...]) -> Any:
    """A series over the cells that show these nodes, which stand side by side in one row."""
    series: Any = Series(_cells(results, up), _cells(results, across))
    series.smooth = False
    return series


def _cells(results: ResultBook, nodes: tuple[Any, ...]) -> Reference:
    """The cells of one row that show these nodes side by side; a node may stand in other cells too."""
    there = [{(s.row, s.column) for s in results.homes.of(node) if s.sheet == PLAN_DATA_SHEET} for node in nodes]
    for row, column in sorted(there[0]):
        if all((row, column + step) in places for step, places in enumerate(there)):
            letters = [get_column_letter(column + step) for step in (0, len(nodes) - 1)]
            return Reference(range_string=f"{quote(PLAN_DATA_SHEET)}!${letters[0]}${row}:${letters[1]}${row}")
    raise ValueError(f"{PLAN_DATA_SHEET}: the figures of a stroke do not stand side by side")


def _label(results: ResultBook, series: Any, name: Any, position: str) -> None:
    """The name beside the last point: of a live name, what its cell says."""
    spots = [spot for spot in results.homes.of(name) if spot.sheet == PLAN_DATA_SHEET]
    if spots:
        spot = spots[0]
        series.tx = SeriesLabel(strRef=StrRef(f"{quote(PLAN_DATA_SHEET)}!${get_column_letter(spot.column)}${spot.row}"))
    else:
        series.tx = SeriesLabel(v=str(name))
    series.dLbls = DataLabelList()
    series.dLbls.showSerName, series.dLbls.position = True, position
    series.dLbls.showVal = series.dLbls.showCatName = series.dLbls.showLegendKey = False
