"""The Plan sheet of the issued demo house: every series is drawn from cells, and the cells follow the entries."""

import re
import zipfile
from datetime import date

import pytest
from lxml import etree

from addin.estimating import issue_of
from addin.plan_labels import sides_of
from addin.sheets import PLAN_DATA_SHEET
from calc.plan_view import PlanJack, PlanMark, plan_view
from tests.issued import Engine, IssuedBook
from tests.jack_plans import jacks_along

C = "{http://schemas.openxmlformats.org/drawingml/2006/chart}"


@pytest.fixture(scope="module")
def chart(demo_issue):
    with zipfile.ZipFile(demo_issue) as package:
        names = [name for name in package.namelist() if name.startswith("xl/charts/chart")]
        assert len(names) == 1
        return etree.fromstring(package.read(names[0]))


def cells_of(series, axis):
    return series.find(f"{C}{axis}/{C}numRef/{C}f").text


def test_there_is_a_series_for_each_piece_of_wall_each_mark_and_each_circuit(chart, demo):
    view = demo.found.view
    circuits = {jack.circuit for jack in view.jacks}
    assert len(chart.findall(f".//{C}ser")) == len(view.pieces) + len(view.legend) + len(view.marks) + len(circuits)


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


# ------------------------------------------------------------------------------------------ jacks


@pytest.fixture(scope="module")
def plan(demo):
    return jacks_along(demo.survey, demo.found.view, 1.1)


@pytest.fixture(scope="module")
def jack_book(demo, plan, tmp_path_factory):
    """The demo house issued with a jack plan."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(
            "calc.estimate.plan_view", lambda survey, own, house, _: plan_view(survey, own, house, plan.jacks)
        )
        data = issue_of(demo, date(2026, 1, 31))
    path = tmp_path_factory.mktemp("jacks") / "demo estimate.xlsx"
    path.write_bytes(data)
    return IssuedBook(path)


@pytest.fixture(scope="module")
def circuits(jack_book):
    with zipfile.ZipFile(jack_book.path) as package:
        root = etree.fromstring(package.read("xl/charts/chart1.xml"))
    named = {series.findtext(f"{C}tx/{C}v"): series for series in root.iter(f"{C}ser")}
    return {name: series for name, series in named.items() if name and name.startswith("circuit")}


def test_the_jacks_of_a_circuit_are_one_series_of_one_shape(circuits):
    shapes = {name: series.find(f"{C}marker/{C}symbol").get("val") for name, series in circuits.items()}
    assert shapes == {"circuit C1": "circle", "circuit C2": "triangle", "circuit C3": "diamond",
                      "circuit C4": "square"}  # fmt: skip


def test_every_jack_has_its_mark_and_its_place_in_cells(circuits, jack_book, plan):
    sheet = jack_book.cached[PLAN_DATA_SHEET]
    found = {}
    for series in circuits.values():
        names = [label.text for label in series.iter("{http://schemas.openxmlformats.org/drawingml/2006/main}t")]
        columns = [[row[0].value for row in sheet[cells_of(series, axis).partition("!")[2].replace("$", "")]]
                   for axis in ("xVal", "yVal")]  # fmt: skip
        found.update({name: place for name, *place in zip(names, *columns, strict=True)})
    assert set(found) == {jack.name for jack in plan.jacks}
    frame = {row[0].value: row[3].value for row in sheet.iter_rows(max_row=20)}
    first = plan.jacks[0]
    assert found[first.name][0] == pytest.approx((first.x - frame["X"]) / frame["Side"])


def test_jacks_stay_in_place_when_a_grid_line_moves_and_the_frame_with_it(jack_book, plan):
    engine = Engine(jack_book)
    data, cached = jack_book.book[PLAN_DATA_SHEET], jack_book.cached[PLAN_DATA_SHEET]
    row = next(r for r in range(1, 400) if cached.cell(r, 1).value == plan.jacks[0].name)
    assert not str(data.cell(row, 5).value).startswith("=")
    before = engine.at((PLAN_DATA_SHEET, f"G{row}"))
    grid = jack_book.book["Grid"]
    line = next(r for r in range(4, 30) if grid.cell(r, 1).value == "E")
    engine.change(("Grid", f"B{line}"), 12.5)
    assert engine.at((PLAN_DATA_SHEET, f"E{row}")) == pytest.approx(plan.jacks[0].x)
    assert engine.at((PLAN_DATA_SHEET, f"G{row}")) != before


def test_words_under_the_picture_say_what_each_shape_means(jack_book):
    texts = [str(cell.value) for (cell,) in jack_book.cached["Plan"].iter_rows(min_row=48, max_row=60, max_col=1)
             if cell.value]  # fmt: skip
    assert re.match(r"Circle, black: jack on circuit C1, \d+ in all\.", texts[0])
    assert texts[-1].startswith("Jacks stand where the plan put them when this workbook was issued")


def test_marks_of_jacks_keep_off_one_another_where_there_is_room():
    here = [PlanJack(name=f"W1-{n}", circuit="C1", member="W1", kind="wall across", x=0.0, y=0.0, across=across, up=0.0)
            for n, across in ((1, 0.0), (2, 0.02))]  # fmt: skip
    name = PlanMark(name="W1", kind="wall across", across=0.01, up=0.0)
    # Below there is room for one of them; the other goes to its own side of the pair.
    assert sides_of(here, [name], {"wall across": "t"}, 0.002, (6, 10)) == ["b", "r"]
