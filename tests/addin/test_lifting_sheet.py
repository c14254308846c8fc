"""The sheets of the lift: what each reader finds, what is live, what is said where something is not known."""

import json

import pytest

from addin.door import FileDoor
from addin.estimating import work
from addin.layout import FIRST_ROW, JOB
from addin.lifting_sheet import LIFT_WORKINGS_SHEET, LIFTING_SHEET
from addin.result_json import result
from addin.sheets import TABS
from addin.survey_book import survey_bytes
from calc.wind import NO_WIND_KNOWN
from tests.addin.test_what_if import rows_of
from tests.issued import Engine


def cell_of(key):
    return "Job", f"B{FIRST_ROW + [column.key for column in JOB].index(key)}"


def label_value(sheet, label):
    return next(row[1].value for row in sheet.iter_rows(max_col=2) if row[0].value == label)


def titles(sheet):
    return [cell.value for (cell,) in sheet.iter_rows(max_col=1) if cell.style == "pb subtitle"]


def test_the_sheet_stands_after_the_jacks_and_says_that_nothing_is_released(demo_book):
    assert TABS.index(LIFTING_SHEET) == TABS.index("Jacks") + 1
    for title in (LIFTING_SHEET, LIFT_WORKINGS_SHEET):
        assert demo_book.cached[title]["A3"].value.startswith("NOT RELEASED FOR LIFTING")


def test_what_each_reader_looks_for_comes_in_that_order(demo_book):
    found = titles(demo_book.book[LIFTING_SHEET])
    wanted = ["In short", "Correct it, stop it", "Preload: the house is loaded onto its jacks before it moves",
              "Hold points", "Ties to cut before breakaway", "Checks of the lift"]  # fmt: skip
    assert found[: len(wanted)] == wanted


def test_what_is_short_is_what_was_found(demo, demo_book):
    sheet, lifting = demo_book.cached[LIFTING_SHEET], demo.found.lifting
    assert label_value(sheet, "Jacks in use") == lifting.jacks
    assert label_value(sheet, "Working days of the lift") == pytest.approx(lifting.time.whole)
    assert label_value(sheet, "Checks of the lift") == lifting.verdict
    assert label_value(sheet, "Most wind to work in, gusts") == pytest.approx(lifting.working)


def test_every_check_of_the_lift_stands_on_both_sheets_with_demand_and_capacity(demo, demo_book):
    names = [row.name for row in demo.found.lifting.checks]
    for title in (LIFTING_SHEET, "Checks"):
        there = {row[0].value for row in demo_book.cached[title].iter_rows(max_col=1)}
        assert [name for name in names if name not in there] == []


def test_a_lift_made_higher_in_the_workbook_asks_for_bracing_live(demo_book):
    engine = Engine(demo_book)
    assert engine.named("lift_verdict") == "within the limits set"
    engine.change(cell_of("rise"), 1.3)
    assert engine.named("lift_verdict") == "STOP"
    assert engine.named("lift_stops") == 2  # braces in both directions


def test_an_instrument_that_cannot_see_the_stop_stops_the_lift_live(demo_book):
    engine = Engine(demo_book)
    engine.change(cell_of("instrument"), "water tube")
    assert engine.named("lift_verdict") == "STOP"
    assert engine.named("lift_stops") == 1


def test_a_wind_taken_out_in_the_workbook_is_said_live_and_gives_no_plain_pass(demo_book):
    engine = Engine(demo_book)
    row = next(r[0].row for r in demo_book.book[LIFTING_SHEET].iter_rows(max_col=1)
               if r[0].value == "The house is looked at for")  # fmt: skip
    engine.change(cell_of("wind_speed"), "unknown")
    assert "NOT KNOWN" in engine.at((LIFTING_SHEET, f"B{row}"))
    assert engine.named("lift_wind") <= 10


@pytest.fixture(scope="module")
def without_wind(demo, tmp_path_factory):
    tables, job = rows_of(demo)
    job.pop("wind_speed"), job.pop("terrain")
    path = tmp_path_factory.mktemp("no wind") / "survey.xlsx"
    path.write_bytes(survey_bytes(tables, job, examples=False))
    return work(FileDoor(path))


def test_an_unknown_wind_is_a_hold_and_keeps_the_release_shut(without_wind):
    assert {"Wind of the place"} <= set(result(without_wind)["release"]["missing"])
    held = " ".join(str(hold) for hold in without_wind.holds)
    assert "basic wind speed is blank" in held
    assert "terrain is blank" in held
    assert NO_WIND_KNOWN in {str(row.verdict) for row in without_wind.found.lifting.checks}


def test_the_result_as_data_has_the_lift_with_its_units(demo):
    found = result(demo)["lifting"]
    json.dumps(found, allow_nan=False)
    assert found["strokes"]["call_m"] == pytest.approx(0.001)
    assert set(found["stability"]) == {"along letters", "along numbers"}
    assert len(found["stations"]) == found["jacks"]
    assert found["wind"]["known"] is True
    assert {"verdict", "rise_m", "days", "movement", "preload", "hold_points", "ties"} <= set(found)


def test_another_spacing_makes_the_stations_out_of_date_and_says_so(demo_book):
    engine = Engine(demo_book)
    assert engine.named("results_changed") == 0
    engine.change(cell_of("closest_spacing"), 0.45)
    assert engine.named("results_changed") > 0
