"""The sheet Lift log: recalculated by two engines with what was typed, followed live, carried over, never lost."""

import json
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner
from openpyxl import load_workbook
from openpyxl.utils import get_column_letter

from addin.cli import main
from addin.door import FileDoor, Raw
from addin.estimating import issue_of, work
from addin.formulas import CannotRender, Homes, Renderer, Spot
from addin.kinds import Cell, Floats, Tracing
from addin.layout import FIRST_ROW, JOB
from addin.lift_log import (
    FIRST_STAGE,
    FIRST_STATION,
    HEAD_ROW,
    ITEM_ROW,
    ITEMS,
    LOG_SHEET,
    STATION_HEAD,
    VERDICT_ROW,
    earlier_log,
    worked_log,
)
from addin.lift_log_sheet import NO_LOG, STALE_HOLD
from addin.result_json import result
from addin.surveying import build_allowances
from calc.number import counted, entry, picked, text_of, weighted_total
from tests.engines import libreoffice, libreoffice_values
from tests.issued import Engine, IssuedBook, differences

DAY = date(2026, 1, 31)
WITHIN, CORRECT, STOP, BLANK = "within the limits set", "correct it", "STOP", "not measured: STOP"
AT = {"day": date(2026, 2, 3), "hour": "09:30", "load": 1500.0, "widening": 0.1, "lean": 0.5, "wind": 3.0,
      "water": "none", "gap": 6.0, "people_out": "yes", "signed": "foreman"}  # fmt: skip
RISES = (0.0, 5.0, 100.0, 200.0)
"""Of the four stages that are typed [mm]; the house of the demo has twelve."""


def typed(log, **changed):
    """Four stages at which all is well; `changed` moves the fourth: by mark of a station or key of a row."""
    found = {}
    for stage, rise in zip(log.stages, RISES, strict=False):
        found |= {(key, stage): value for key, value in AT.items()}
        found |= {(station.name, stage): rise for station in log.stations}
    last = log.stages[len(RISES) - 1]
    for row, value in changed.items():
        found[row, last] = value
    return {place: value for place, value in found.items() if value is not None}


def marks(log, *stations):
    return [log.stations[at].name for at in stations]


def issued(demo, folder, name="log.xlsx", **changed):
    log = replace(demo.log, typed=typed(demo.log, **changed))
    path = folder / name
    path.write_bytes(issue_of(replace(demo, log=log), DAY))
    return IssuedBook(path)


@pytest.fixture(scope="module")
def bent(demo, tmp_path_factory) -> IssuedBook:
    """The demo house at 200 mm with the fifth jack of its first wall 3.5 mm high."""
    (name,) = marks(demo.log, 4)
    return issued(demo, tmp_path_factory.mktemp("log"), **{name: 203.5})


def column(stage):
    return get_column_letter(FIRST_STAGE + stage)


def station_verdicts(book, log):
    sheet = book.cached[LOG_SHEET]
    return {station.name: sheet.cell(log.row(at), 2).value for at, station in enumerate(log.stations)}


def neighbours(log, name):
    at = next(order for order, station in enumerate(log.stations) if station.name == name)
    return {log.stations[b if a == at else a].name for a, b in log.pairs if at in (a, b)}


# ------------------------------------------------------------------------------------------ what it shows


def test_every_formula_agrees_with_ironcalc(bent):
    assert differences(bent, Engine(bent).at) == []


@libreoffice
def test_every_formula_agrees_with_libreoffice_on_a_copy_without_caches(bent):
    assert differences(bent, libreoffice_values(bent.path.read_bytes()).get) == []


def test_one_bent_jack_stops_there_and_beside_and_nowhere_else(bent, demo):
    (name,) = marks(demo.log, 4)
    found = station_verdicts(bent, demo.log)
    assert {mark for mark, words in found.items() if words == STOP} == {name, *neighbours(demo.log, name)}
    assert {words for words in found.values() if words != STOP} == {WITHIN}


def test_each_stage_has_its_verdict_and_the_last_one_read_is_looked_at(bent):
    sheet = bent.cached[LOG_SHEET]
    shown = [sheet.cell(VERDICT_ROW, FIRST_STAGE + at).value for at in range(6)]
    assert shown == [WITHIN, WITHIN, WITHIN, STOP, BLANK, BLANK]
    assert bent.cache(bent.named("log_stage")) == 4
    assert (sheet["B5"].value, sheet.cell(VERDICT_ROW, 2).value) == (STOP, STOP)


def test_a_tilted_plane_is_told_as_tilt_and_no_jack_is_out(demo, tmp_path):
    # 2.5 mm for each metre east: over 1/500, under 1/300.
    tilted = {station.name: 200 + 2.5 * station.x for station in demo.log.stations}
    book = issued(demo, tmp_path, **tilted)
    sheet = book.cached[LOG_SHEET]
    assert set(station_verdicts(book, demo.log).values()) == {WITHIN}
    rows = {sheet.cell(row, 1).value: row for row in range(HEAD_ROW, STATION_HEAD)}
    assert sheet.cell(rows["Tilt in 1 m"], FIRST_STAGE + 3).value == pytest.approx(2.5)
    assert sheet.cell(rows["Tilt in 1 m"], 2).value == CORRECT
    assert sheet.cell(rows["Greatest bend"], FIRST_STAGE + 3).value == pytest.approx(0.0, abs=1e-9)
    assert sheet["B5"].value == CORRECT


def test_an_empty_reading_stops_at_the_jack_beside_it_and_at_the_stage(demo, tmp_path):
    (name,) = marks(demo.log, 7)
    book = issued(demo, tmp_path, **{name: None})
    found = station_verdicts(book, demo.log)
    assert found[name] == BLANK
    assert {found[mark] for mark in neighbours(demo.log, name)} == {"neighbour not measured: STOP"}
    assert sum(words != WITHIN for words in found.values()) == 1 + len(neighbours(demo.log, name))
    assert book.cached[LOG_SHEET]["B5"].value == BLANK


def test_nothing_typed_is_not_measured_everywhere(demo_book, demo):
    assert set(station_verdicts(demo_book, demo.log).values()) == {BLANK}
    assert demo_book.cached[LOG_SHEET]["B5"].value == BLANK


def test_the_sheet_says_what_the_program_says(demo, bent):
    log = replace(demo.log, typed=typed(demo.log, **{marks(demo.log, 4)[0]: 203.5}))
    plain = worked_log(log, demo.survey, demo.found, build_allowances(demo.rows, Floats()), Floats())
    assert [text_of(row.verdict) for row in plain.movement.verdicts] == [*station_verdicts(bent, log).values()]
    told = result(replace(demo, log=log))["lift_log"]
    assert (told["looked_at"], told["verdict"], told["hold"]) == (4, STOP, STOP)
    assert told["stages"][3]["greatest_bend_over_stop"] > 3
    assert (told["stages"][4]["tilt"], told["stages"][4]["unread"]) == (None, len(log.stations))
    assert [s["name"] for s in told["stations"] if s["verdict"] == STOP] == [
        mark for mark, words in station_verdicts(bent, log).items() if words == STOP]  # fmt: skip


# ------------------------------------------------------------------------------------------ live


@pytest.fixture
def engine(bent):
    return Engine(bent)


def test_what_is_typed_is_followed_at_once(engine, demo):
    engine.change((LOG_SHEET, f"{column(3)}{demo.log.row(4)}"), 200.0)
    assert engine.at((LOG_SHEET, "B5")) == WITHIN
    engine.change((LOG_SHEET, f"{column(3)}{ITEM_ROW['gap']}"), 10.5)
    assert (engine.at((LOG_SHEET, "B5")), engine.at((LOG_SHEET, f"B{ITEM_ROW['gap']}"))) == (STOP, STOP)
    assert engine.at((LOG_SHEET, f"{column(2)}{VERDICT_ROW}")) == WITHIN


def test_text_in_place_of_a_number_is_not_measured(engine, demo):
    engine.change((LOG_SHEET, f"{column(3)}{demo.log.row(4)}"), "203 mm?")
    assert engine.at((LOG_SHEET, f"B{demo.log.row(4)}")) == BLANK
    assert engine.at((LOG_SHEET, f"{column(3)}{VERDICT_ROW}")) == BLANK
    engine.change((LOG_SHEET, f"{column(3)}{ITEM_ROW['load']}"), "no gauge")
    assert engine.at((LOG_SHEET, f"B{ITEM_ROW['load']}")) == BLANK


def test_whatever_is_blank_at_the_stage_looked_at_stops_it(engine):
    """The second stage is level, so nothing but the blank stops it."""
    engine.change((LOG_SHEET, "C5"), 2)
    assert engine.at((LOG_SHEET, "B5")) == WITHIN
    for item in ITEMS:
        cell, words = f"{column(1)}{ITEM_ROW[item.key]}", "not signed: STOP" if item.key == "signed" else BLANK
        before = engine.at((LOG_SHEET, cell))
        engine.change((LOG_SHEET, cell), "")
        assert engine.at((LOG_SHEET, f"B{ITEM_ROW[item.key]}")) == words, item.key
        assert engine.at((LOG_SHEET, "B5")) == words, item.key
        engine.change((LOG_SHEET, cell), before)
        assert engine.at((LOG_SHEET, "B5")) == WITHIN, item.key


def test_an_earlier_stage_can_be_looked_at(engine, demo):
    engine.change((LOG_SHEET, "C5"), 3)
    assert (engine.named("log_stage"), engine.at((LOG_SHEET, "B5"))) == (3, WITHIN)
    assert engine.at((LOG_SHEET, f"B{demo.log.row(4)}")) == WITHIN
    engine.change((LOG_SHEET, "C5"), 99)
    assert (engine.named("log_stage"), engine.at((LOG_SHEET, "B5"))) == (len(demo.log.stages), BLANK)


def test_out_of_date_with_the_plan_the_hold_point_says_stop(demo, tmp_path):
    engine = Engine(issued(demo, tmp_path))
    assert engine.at((LOG_SHEET, "B5")) == WITHIN
    grid = engine.book.book["Grid"]
    row = next(r for r in range(4, 30) if grid.cell(r, 1).value == "E")
    engine.change(("Grid", f"B{row}"), 12.5)
    assert engine.at((LOG_SHEET, "B5")) == STALE_HOLD
    assert str(engine.at((LOG_SHEET, "A4"))).startswith("OUT OF DATE")


def test_another_rise_makes_the_stages_out_of_date(demo, tmp_path):
    engine = Engine(issued(demo, tmp_path))
    row = next(r for r, item in enumerate(JOB, start=FIRST_ROW) if item.key == "rise")
    engine.change(("Job", f"B{row}"), 1.3)
    assert engine.at((LOG_SHEET, "B5")) == STALE_HOLD


# ------------------------------------------------------------------------------------------ as a sheet


def test_only_what_is_typed_is_open(demo_book, demo):
    sheet = demo_book.book[LOG_SHEET]
    last = FIRST_STAGE + len(demo.log.stages)
    rows = {*ITEM_ROW.values(), *range(FIRST_STATION, FIRST_STATION + len(demo.log.stations))}
    cells = {f"{get_column_letter(at)}{row}" for at in range(FIRST_STAGE, last) for row in rows} | {"C5"}
    assert {c.coordinate for row in sheet.iter_rows() for c in row if not c.protection.locked} == cells
    assert sheet.protection.sheet


def test_every_entry_is_checked_when_it_is_typed(demo_book, demo):
    sheet = demo_book.book[LOG_SHEET]
    checked = {str(area) for rule in sheet.data_validations.dataValidation for area in rule.sqref.ranges}
    first, last = column(0), column(len(demo.log.stages) - 1)
    free = {"hour", "signed"}
    wanted = {f"{first}{ITEM_ROW[item.key]}:{last}{ITEM_ROW[item.key]}" for item in ITEMS if item.key not in free}
    assert checked == wanted | {f"{first}{FIRST_STATION}:{last}{demo.log.row(len(demo.log.stations) - 1)}", "C5"}


def test_it_prints_on_a4_one_page_wide_with_its_warning_on_each_page(demo_book, demo):
    sheet = demo_book.book[LOG_SHEET]
    assert (sheet.page_setup.paperSize, sheet.page_setup.orientation) == (9, "landscape")
    assert (sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight) == (1, 0)
    assert sheet.print_title_rows == f"$1:${HEAD_ROW}"
    corner = f"${column(len(demo.log.stages) - 1)}${demo.log.row(len(demo.log.stations) - 1)}"
    assert sheet.print_area.endswith(f"$A$1:{corner}")
    assert demo_book.cached[LOG_SHEET]["A3"].value.startswith("NOT RELEASED FOR LIFTING")


def test_mark_and_verdict_stay_in_sight(demo_book):
    assert demo_book.book[LOG_SHEET].freeze_panes == f"C{HEAD_ROW + 1}"


def test_out_of_date_is_grey_before_any_shade(demo_book):
    rules = [(rule.priority, rule) for area in demo_book.book[LOG_SHEET].conditional_formatting for rule in area.rules]
    first = min(rules, key=lambda pair: pair[0])[1]
    assert first.formula == ["plan_changed+results_changed>0"]
    assert first.stopIfTrue


def test_the_log_stays_light(demo_book):
    sheets = ("Lift log", "Log stages", "Log workings")
    assert sum(cell[0] in sheets for cell, _ in demo_book.formulas()) < 8000


def test_a_house_with_nothing_to_compare_says_so(demo, tmp_path):
    path = tmp_path / "one.xlsx"
    path.write_bytes(issue_of(replace(demo, log=replace(demo.log, stations=demo.log.stations[:1], pairs=())), DAY))
    book = IssuedBook(path)
    assert book.cached[LOG_SHEET]["A6"].value == NO_LOG
    assert differences(book, Engine(book).at) == []


# ------------------------------------------------------------------------------------------ never lost


def run(*words):
    return CliRunner().invoke(main, [str(word) for word in words])


def entries(path):
    return dict(earlier_log(FileDoor(path).sheets()).typed)


def change(path, *cells):
    book = load_workbook(path)
    for sheet, cell, value in cells:
        book[sheet][cell] = value
        if str(value).startswith("=") and " " in str(value):  # words, not a formula
            book[sheet][cell].data_type = "s"
    book.save(path)


@pytest.fixture
def filled(bent, tmp_path) -> Path:
    """The issued workbook with its log filled, as a program saves it that keeps no results."""
    path = tmp_path / "house.xlsx"
    path.write_bytes(bent.path.read_bytes())
    change(path, (LOG_SHEET, "C5", 3), (LOG_SHEET, f"{column(4)}{ITEM_ROW['signed']}", "=1+1 said the foreman"))
    return path


def test_a_refresh_carries_all_that_was_typed(filled, demo):
    before = entries(filled)
    assert len(before) > len(RISES) * len(demo.log.stations)
    assert run("refresh", filled).exit_code in (0, 1)
    assert entries(filled) == before
    book = IssuedBook(filled)
    assert (book.cached[LOG_SHEET]["C5"].value, book.cache(book.named("log_stage"))) == (3, 3)
    assert differences(book, Engine(book).at) == []
    again = filled.read_bytes()
    assert "nothing was written" in run("refresh", filled).output
    assert filled.read_bytes() == again


def test_an_issue_fed_back_in_carries_all_that_was_typed(filled):
    out = filled.with_name("next.xlsx")
    assert run("estimate", filled, "-o", out, "--json", filled.with_name("r.json")).exit_code in (0, 1)
    assert entries(out) == entries(filled)
    told = json.loads(filled.with_name("r.json").read_text("utf-8"))["lift_log"]
    assert (told["entries"], told["looked_at"], told["verdict"]) == (len(entries(filled)), 3, WITHIN)


def test_a_formula_in_the_log_is_carried_as_its_result(filled, demo):
    place, typed_there = (demo.log.row(2), FIRST_STAGE + 3), Raw(value=201.0, formula=True)
    sheets = [
        replace(sheet, cells={**sheet.cells, place: typed_there}) if sheet.title == LOG_SHEET else sheet
        for sheet in FileDoor(filled).sheets()
    ]
    assert earlier_log(sheets).typed[demo.log.stations[2].name, demo.log.stages[3]] == 201.0


def test_a_formula_in_the_log_that_nobody_has_worked_out_is_refused(filled, demo):
    cell = f"{column(3)}{demo.log.row(2)}"
    change(filled, (LOG_SHEET, cell, "=199+1"))
    done = run("refresh", filled)
    assert (done.exit_code, done.output.count("\n")) == (2, 1)
    assert f"{cell} has no mark beside it or no result" in done.output


def _other_plan(path):
    row = next(r for r, item in enumerate(JOB, start=FIRST_ROW) if item.key == "widest_spacing")
    change(path, ("Job", f"B{row}", 0.8))


def _other_rise(path):
    row = next(r for r, item in enumerate(JOB, start=FIRST_ROW) if item.key == "rise")
    change(path, ("Job", f"B{row}", 0.15))


def _row_without_mark(path):
    change(path, (LOG_SHEET, f"{column(3)}200", 201.0))


@pytest.mark.parametrize(
    ("act", "said"),
    [(_other_plan, "stands elsewhere"), (_other_rise, "is gone"), (_row_without_mark, "has no mark beside it")],
)
def test_a_log_made_for_another_plan_is_refused_in_one_line(filled, act, said):
    act(filled)
    before = {path: path.read_bytes() for path in filled.parent.iterdir()}
    done = run("refresh", filled)
    assert (done.exit_code, done.output.count("\n")) == (2, 1)
    assert "Lift log holds" in done.output
    assert said in done.output
    assert {path: path.read_bytes() for path in filled.parent.iterdir()} == before


@pytest.mark.parametrize("command", ["estimate", "check"])
def test_so_do_the_other_commands_that_read_it(filled, command):
    _row_without_mark(filled)
    done = run(command, filled)
    assert (done.exit_code, done.output.count("\n")) == (2, 1)
    assert list(filled.parent.iterdir()) == [filled]


def test_with_the_log_empty_another_plan_is_issued(demo, demo_issue, tmp_path):
    path = tmp_path / "house.xlsx"
    path.write_bytes(demo_issue.read_bytes())
    _other_plan(path)
    assert run("refresh", path).exit_code in (0, 1)
    assert work(FileDoor(path)).log.stations != demo.log.stations


def test_an_estimate_is_never_written_over_a_filled_log(demo_survey, filled):
    before = filled.read_bytes()
    done = run("estimate", demo_survey, "-o", filled)
    assert (done.exit_code, done.output.count("\n")) == (2, 1)
    assert "which would be lost" in done.output
    assert filled.read_bytes() == before


def test_an_estimate_is_written_over_an_empty_log(demo_survey, demo_issue, tmp_path):
    out = tmp_path / "out.xlsx"
    out.write_bytes(demo_issue.read_bytes())
    assert run("estimate", demo_survey, "-o", out).exit_code in (0, 1)


# ------------------------------------------------------------------------------------------ the verbs as formulas


def cells(row, *columns):
    return [entry(float(at), Cell("Walls", row, at)) for at in columns]


def test_what_is_picked_stands_in_one_row_and_a_blank_is_asked_of_its_own_cell():
    order, row = entry(2.0, Cell("Job", 4, 2)), cells(5, 3, 4, 5)
    homes = Homes()
    given = [Tracing().given(None, Cell("Walls", 5, at)) for at in (3, 4, 5)]
    here = Spot("Loads", 9, 9, 1)
    assert Renderer(homes).formula(picked(row, order), here) == "=INDEX(Walls!C5:E5,Job!B4)"
    homes.place(given[1].args[0], Spot("Loads", 9, 3, 1))
    assert Renderer(homes).formula(picked(given, order), here) == "=ISNUMBER(INDEX(Walls!C5:E5,Job!B4))"
    with pytest.raises(CannotRender, match="side by side in one row"):
        Renderer(homes).formula(picked([row[0], row[2]], order), here)


def test_what_is_counted_or_multiplied_stands_in_one_column():
    column_of = [entry(1.0, Cell("Walls", row, 3)) for row in (4, 5, 6)]
    given = [Tracing().given(1.0, Cell("Walls", row, 4)) for row in (4, 5, 6)]
    here, homes = Spot("Loads", 9, 9, 1), Homes()
    assert Renderer(homes).formula(counted(given), here) == "=COUNT(Walls!D4:D6)"
    assert Renderer(homes).formula(weighted_total(column_of, column_of), here) == "=SUMPRODUCT(Walls!C4:C6,Walls!C4:C6)"
    with pytest.raises(CannotRender, match="below each other in one column"):
        Renderer(homes).formula(weighted_total([column_of[0], column_of[2]], column_of[:2]), here)
    with pytest.raises(CannotRender, match="only entries are counted"):
        Renderer(homes).formula(counted([column_of[0] > 0]), here)
