"""The Plan sheet of the issued demo house: every series is drawn from cells, and the cells follow the entries."""

import re
import zipfile

import pytest
from lxml import etree

from addin.sheets import PLAN_DATA_SHEET
from tests.issued import Engine

C = "{http://schemas.openxmlformats.org/drawingml/2006/chart}"


@pytest.fixture(scope="module")
def chart(demo_issue):
    with zipfile.ZipFile(demo_issue) as package:
        names = [name for name in package.namelist() if name.startswith("xl/charts/chart")]
        assert len(names) == 1
        return etree.fromstring(package.read(names[0]))


def cells_of(series, axis):
    return series.find(f"{C}{axis}/{C}numRef/{C}f").text


def test_there_is_a_series_for_each_piece_of_wall_and_each_mark(chart, demo):
    view = demo.found.view
    assert len(chart.findall(f".//{C}ser")) == len(view.pieces) + len(view.legend) + len(view.marks)


def test_every_series_is_drawn_from_two_cells_of_one_row_that_hold_its_ends(chart, demo, demo_book):
    pieces = [*demo.found.view.pieces, *demo.found.view.legend]
    sheet = demo_book.cached[PLAN_DATA_SHEET]
    for series, piece in zip(chart.findall(f".//{C}ser"), pieces, strict=False):
        for axis, ends in (("xVal", (piece.across_start, piece.across_end)), ("yVal", (piece.up_start, piece.up_end))):
            area = cells_of(series, axis)
            assert area.startswith(f"'{PLAN_DATA_SHEET}'!$")
            row = sheet[area.partition("!")[2].replace("$", "")][0]
            assert [cell.value for cell in row] == pytest.approx(ends)


def test_names_are_those_of_the_cells(chart, demo_book):
    sheet = demo_book.cached[PLAN_DATA_SHEET]
    named = [ref.text for ref in chart.iterfind(f".//{C}ser/{C}tx/{C}strRef/{C}f")]
    shown = [sheet[ref.partition("!")[2].replace("$", "")].value for ref in named]
    assert {"W1", "W5", "P1", "A", "5"} <= set(shown)


def test_a_metre_is_as_long_across_as_up(chart):
    axes = chart.findall(f".//{C}valAx")
    assert len(axes) == 2
    for axis in axes:
        scale = axis.find(f"{C}scaling")
        assert [float(scale.find(f"{C}{end}").get("val")) for end in ("min", "max")] == [-0.5, 0.5]
        assert axis.find(f"{C}delete").get("val") == "1"


def test_a_grid_line_that_moves_moves_the_walls_on_it(demo_book):
    engine = Engine(demo_book)
    grid = demo_book.book["Grid"]
    row = next(r for r in range(4, 30) if grid.cell(r, 1).value == "E")
    data = demo_book.book[PLAN_DATA_SHEET]
    wall = next(r for r in range(1, 200) if data.cell(r, 1).value and demo_book.cached[PLAN_DATA_SHEET].cell(r, 1).value
                == "W2" and data.cell(r, 12).value)  # fmt: skip
    before = engine.at((PLAN_DATA_SHEET, f"E{wall}"))
    engine.change(("Grid", f"B{row}"), 12.5)
    assert engine.at((PLAN_DATA_SHEET, f"D{wall}")) == pytest.approx(12.5)
    assert before == engine.at((PLAN_DATA_SHEET, f"E{wall}"))


def test_the_sheet_says_what_it_is_not_for(demo_book):
    texts = [str(cell.value) for row in demo_book.cached["Plan"].iter_rows(max_row=8) for cell in row if cell.value]
    assert any(re.search("NOT FOR LIFTING", text) for text in texts)
