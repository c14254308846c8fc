"""A settled house from its survey to the sheet Levelling, its data and its warnings: the demo, down at one side."""

from dataclasses import replace
from datetime import date

import pytest

from addin.demo import demo_job, demo_rows
from addin.door import FileDoor
from addin.estimating import issue_of, item_texts, work
from addin.kinds import Quantities
from addin.layout import FIRST_ROW, SHEET, column_letter
from addin.levelling_sheet import LEVELLING_SHEET
from addin.result_json import result
from addin.survey_book import survey_bytes
from addin.surveying import build_allowances, build_rules, build_survey, grid_point
from calc.estimate import estimate
from calc.survey import GridLine
from tests.addin import test_issue as lints
from tests.calc.test_dimensions import _fits, numbers_of
from tests.issued import Engine, IssuedBook, differences

DAY = date(2026, 1, 31)
# 4 mm down for each metre east of A (0, 6.3 and 9.73 m) and level north.
EAST = {"A2": 10.0, "A5": 10.0, "E2": 10 - 0.004 * 9.73, "E5": 10 - 0.004 * 9.73, "D3": 10 - 0.004 * 6.3}


def survey(levels, reason="levelling", **named):
    """The demo's survey with readings of the plinth top at grid points, and its path."""
    job, rows = demo_job(), demo_rows()
    job["reason"] = reason
    read = [{"point": named.get(at, at), "what": "plinth top", "level": level} for at, level in levels.items()]
    rows["Levels"] = [*rows["Levels"], *read]
    return survey_bytes(rows, job, examples=False)


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("settled")


def worked(folder, data):
    path = folder / "survey.xlsx"
    path.write_bytes(data)
    return work(FileDoor(path))


def issued(folder, found, name):
    path = folder / name
    path.write_bytes(issue_of(found, DAY))
    return IssuedBook(path)


@pytest.fixture(scope="module")
def settled(folder):
    return worked(folder, survey(EAST, E5="top of plinth e5"))


@pytest.fixture(scope="module")
def book(folder, settled):
    return issued(folder, settled, "settled.xlsx")


def texts(book, title=LEVELLING_SHEET):
    return [str(cell.value) for row in book.cached[title].iter_rows() for cell in row if cell.value is not None]


def lift_cell(book, station):
    """The cell that shows the lift of a station."""
    sheet = book.cached[LEVELLING_SHEET]
    row = next(cell.row for cell in sheet["A"] if cell.value == station and sheet.cell(cell.row, 8).value is not None)
    return LEVELLING_SHEET, f"H{row}"


def level_cell(settled, index, key="level"):
    first = len(settled.rows.tables["Levels"]) - len(EAST)
    return "Levels", f"{column_letter(SHEET['Levels'], key)}{FIRST_ROW + first + index}"


# ------------------------------------------------------------------------------------------ figures


def test_the_demo_that_tilted_east_is_lifted_by_its_slope(settled):
    lifts = {str(row.name): row.lift for row in settled.found.settlement.lifts}
    by_hand = {"A2": 0, "A5": 0, "E2": 0.03892, "E5": 0.03892, "D3": 0.0252}
    assert lifts == pytest.approx(by_hand, abs=1e-9)
    assert settled.found.settlement.house[0].tilt == pytest.approx(0.004, rel=1e-4)  # E is taped in feet


def test_data_and_workbook_say_the_same(settled, book):
    data = result(settled)["levelling"]
    assert data["stations"]["D3"] == pytest.approx(
        {"x_m": 6.3, "y_m": 5.5, "level_m": 9.9748, "target_m": 10.0, "lift_m": 0.0252}
    )
    assert data["total_lift_m"] == pytest.approx(book.cache(book.named("levelling_total")))
    assert data["greatest_lift_m"] == pytest.approx(book.cache(book.named("levelling_greatest")))
    assert data["calls"] == data["strokes"][-1]["call"] == len({stroke["call"] for stroke in data["strokes"]})
    assert {(pair["one"], pair["other"]) for pair in data["neighbours"]} == {("A2", "A5"), ("E2", "E5"), ("A2", "E2"),
                                                                            ("A5", "E5")}  # fmt: skip


def test_every_field_of_a_settled_house_has_the_dimension_it_states(settled):
    kind = Quantities()
    allowances = build_allowances(settled.rows, kind)
    found = estimate(build_survey(settled.rows, kind, allowances), settled.prepared, allowances, item_texts(),
                     build_rules(settled.rows, kind))  # fmt: skip
    # Strokes are a solver's floats, written as they are.
    checked = list(numbers_of(replace(found.settlement, strokes=())))
    assert len(checked) > 80
    assert [f"{path}: {value} is not in {unit}" for path, value, unit in checked if not _fits(value, unit)] == []


def test_every_formula_of_a_settled_house_agrees_with_an_engine(book):
    assert differences(book, Engine(book).at) == []


@pytest.mark.parametrize(
    "lint",
    [
        lints.test_no_formula_cell_shows_an_error,
        lints.test_formulas_are_short,
        lints.test_formulas_hold_no_constant_but_0_1_2_and_4,
        lints.test_no_formula_has_a_unary_minus,
        lints.test_only_functions_of_2010_are_used,
        lints.test_formulas_are_alike_along_each_column,
        lints.test_every_sheet_prints_on_a4_with_page_numbers,
    ],
)
def test_a_settled_house_keeps_the_rules_of_every_formula(book, lint):
    lint(book)


def test_no_part_of_a_formula_of_a_settled_house_is_written_out_twice(settled):
    lints.test_no_part_of_a_formula_is_written_out_twice(settled)


# ------------------------------------------------------------------------------------------ what holds at issue


def test_nothing_is_out_of_date_when_it_is_issued(book):
    assert "OUT OF DATE" not in " ".join(texts(book))
    assert (Engine(book).named("results_changed"), Engine(book).named("plan_changed")) == (0, 0)


def test_a_level_that_changes_makes_planes_and_strokes_out_of_date(settled, book):
    engine, cell = Engine(book), lift_cell(book, "E2")
    engine.change(level_cell(settled, list(EAST).index("E2")), 9.95)
    assert engine.at(cell) == pytest.approx(0.05)  # the lift follows the level, the plane is as it was
    assert engine.named("results_changed") > 0
    assert str(engine.at((LEVELLING_SHEET, "A4"))).startswith("OUT OF DATE")
    flags = [engine.at((LEVELLING_SHEET, spot.coordinate)) for row in book.cached[LEVELLING_SHEET].iter_rows()
             for spot in row if spot.value == "yes"]  # fmt: skip
    assert flags == ["OUT OF DATE"] * 2


@pytest.mark.parametrize(("key", "value"), [("point", "D2"), ("what", "floor")])
def test_a_station_that_moves_or_is_another_course_makes_the_plan_out_of_date(settled, book, key, value):
    engine = Engine(book)
    engine.change(level_cell(settled, list(EAST).index("D3"), key), value)
    assert engine.named("plan_changed") == 1


def test_a_slope_that_may_stay_is_an_allowance_and_makes_it_out_of_date(book):
    engine = Engine(book)
    engine.change(book.named("slope_left"), 0.001)
    assert engine.named("results_changed") == 1


# ------------------------------------------------------------------------------------------ what is said


def test_the_sheet_says_how_the_house_stands_and_names_no_one_as_out_of_danger(book):
    said = " ".join(texts(book))
    assert "settled: level it before the common rise" in said
    assert "NOT RELEASED FOR LIFTING" in said
    assert "licensed engineer" in said
    assert " safe" not in said


def test_without_stations_the_sheet_says_what_to_enter(folder):
    found = worked(folder, survey({}, reason="flooding"))
    assert "read the plinth top or the floor at the corners" in " ".join(texts(issued(folder, found, "none.xlsx")))
    assert result(found)["levelling"] == {"known": False, "stations": {}}
    assert not [row for row in found.found.checks if row.state == "levelling"]


def test_too_few_stations_are_shown_and_asked_to_be_more(folder):
    book = issued(folder, worked(folder, survey({"A2": 10.0, "E2": 9.98})), "few.xlsx")
    assert {"Stations read so far", "A2", "E2"} <= set(texts(book))


def missing(found):
    return {row.what for row in found.found.release.requirements if row.answer == "missing"}


@pytest.mark.parametrize("levels", [{}, {"A2": 10.0}, {"A2": 10.0, "E2": 9.98}])
def test_levelling_without_stations_is_doubtful_and_holds_the_release(folder, levels):
    found = worked(folder, survey(levels))
    assert [p.code for p in found.warnings] == ["LEVELLING-NO-STATIONS"]
    assert "Grid points levelled where the house is to be levelled" in missing(found)


def test_levelling_with_stations_is_neither(settled):
    assert "LEVELLING-NO-STATIONS" not in {p.code for p in settled.warnings}
    assert "Grid points levelled where the house is to be levelled" not in missing(settled)


def test_a_station_beside_no_other_is_doubtful(settled):
    (alone,) = settled.warnings
    assert (alone.code, alone.subject) == ("STATION-ALONE", "the station at D3")


def test_a_second_reading_and_a_second_course_are_doubtful_and_left_out(folder):
    job, rows = demo_job(), demo_rows()
    read = [{"point": at, "what": "plinth top", "level": level} for at, level in EAST.items()]
    again = [{"point": "pt A2", "what": "plinth top", "level": 9.9}, {"point": "E2", "what": "floor", "level": 9.97}]
    rows["Levels"] = [*rows["Levels"], *read, *again]
    found = worked(folder, survey_bytes(rows, job, examples=False))
    codes = [p.code for p in found.warnings]
    assert codes == ["STATION-ALONE", "STATION-TWICE", "STATION-COURSE"]
    assert len(found.found.settlement.lifts) == len(EAST)


LETTERS = tuple(GridLine(name=name, offset=0.0) for name in ("A", "B"))
NUMBERS = tuple(GridLine(name=name, offset=0.0) for name in ("1", "12", "2'"))


@pytest.mark.parametrize(
    ("typed", "point"),
    [
        ("A1", "A1"), ("a12", "A12"), ("A 1", "A1"), ("pt B1", "B1"), ("top of plinth b12", "B12"), ("B2'", "B2'"),
        ("Bed 1", None), ("Kitchen", None), ("C1", None), ("A3", None), ("1", None), ("A1 corner", None), ("", None),
    ],
)  # fmt: skip
def test_a_station_is_a_grid_point_alone_or_as_the_last_word(typed, point):
    found = grid_point(typed, LETTERS, NUMBERS)
    assert (str(found) if found else None) == point
