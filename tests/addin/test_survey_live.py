"""The live survey: what it shows beside the entries, and that the reader sees the same survey with or without it."""

import io
import re

import pytest
from openpyxl import load_workbook
from openpyxl.utils import get_column_letter

from addin.demo import demo_job, demo_rows
from addin.door import FileDoor
from addin.estimating import work
from addin.functions import FUNCTIONS
from addin.layout import FIRST_ROW, HEADER_ROW, JOB, LIVE_MARK, SHEET, TABLES
from addin.reader import read_survey
from addin.result_json import result
from addin.survey_book import TEMPLATE as SURVEY
from addin.survey_live import LIVE, LIVE_ROWS, NAMES, NOTE, TEMPLATE, live_bytes
from addin.survey_live_house import LIVE_SHEET
from tests.addin.live_formulas import Live
from tests.addin.test_survey_book import canonical_parts
from tests.engines import libreoffice, libreoffice_values


def filled(template, rows=None, job=None):
    """A template with entries typed in, as a spreadsheet program without the add-in leaves it when it saves."""
    book = load_workbook(template)
    for row, column in enumerate(JOB, start=FIRST_ROW):
        book["Job"].cell(row, 2).value = (job or {}).get(column.key)
    for sheet in TABLES:
        page, given = book[sheet.title], (rows or {}).get(sheet.title, [])
        shipped = {page.cell(row, 1).value: row for row in range(FIRST_ROW, page.max_row + 1)} if sheet.shipped else {}
        for order, values in enumerate(given, start=FIRST_ROW):
            row = shipped[values["name"]] if sheet.shipped else order
            for number, column in enumerate(sheet.columns, start=1):
                value = values.get(column.key)
                if value is not None or not sheet.shipped:
                    page.cell(row, number).value = ", ".join(value) if isinstance(value, tuple) else value
    content = io.BytesIO()
    book.save(content)
    return content.getvalue()


@pytest.fixture(scope="module")
def demo_live():
    return Live(load_workbook(io.BytesIO(filled(TEMPLATE, demo_rows(), demo_job()))))


@pytest.fixture(scope="module")
def both(tmp_path_factory):
    """The demo house in the blank survey and in the live one, as files."""
    paths = {}
    for name, template in (("plain", SURVEY), ("live", TEMPLATE)):
        paths[name] = tmp_path_factory.mktemp(name) / "survey.xlsx"
        paths[name].write_bytes(filled(template, demo_rows(), demo_job()))
    return paths


def letters(title):
    first = len(SHEET[title].columns) + 2
    return {column.title: get_column_letter(number) for number, column in enumerate(LIVE[title], start=first)}


def shown(live, title, column):
    """What a column shows beside each named row."""
    page, letter = live.book[title], letters(title)[column]
    return {page.cell(row, 1).value: live.value(title, f"{letter}{row}") for row in range(FIRST_ROW, FIRST_ROW + 60)
            if page.cell(row, 1).value}  # fmt: skip


# ---------------------------------------------------------------------------------------------- the file


def test_the_committed_live_survey_is_what_the_code_builds():
    built, committed = canonical_parts(live_bytes()), canonical_parts(TEMPLATE.read_bytes())
    assert [name for name in built | committed if built.get(name) != committed.get(name)] == []


def test_it_is_the_blank_survey_with_columns_beside_it():
    plain, live = load_workbook(SURVEY), load_workbook(TEMPLATE)
    assert [title for title in live.sheetnames if title != LIVE_SHEET] == plain.sheetnames
    for page in plain:
        for row in page.iter_rows():
            for cell in row:
                assert live[page.title][cell.coordinate].value == cell.value
    for title in LIVE:
        assert all(live[title].cell(row, len(SHEET[title].columns) + 1).value is None for row in range(1, 110))


@pytest.mark.parametrize("title", LIVE)
def test_our_columns_are_marked_greyed_locked_and_stand_under_one_note(title):
    page, first = load_workbook(TEMPLATE)[title], len(SHEET[title].columns) + 2
    assert page.cell(HEADER_ROW - 1, first).value == NOTE
    for number, column in enumerate(LIVE[title], start=first):
        assert page.cell(HEADER_ROW, number).value.startswith(LIVE_MARK)
        for row in (FIRST_ROW, FIRST_ROW + LIVE_ROWS - 1):
            cell = page.cell(row, number)
            assert cell.style.startswith("pb computed") == bool(column.formula)
            assert cell.protection.locked == bool(column.formula)


def test_every_formula_of_the_blank_form_has_an_empty_result_and_no_other():
    live, results = load_workbook(TEMPLATE), load_workbook(TEMPLATE, data_only=True)
    formulas = [(s.title, c.coordinate) for s in live for row in s.iter_rows() for c in row if c.data_type == "f"]
    of_house = [cell for cell in formulas if cell[0] == LIVE_SHEET]
    assert len(of_house) == 3  # its state, and two blocks
    assert len(formulas) == 3 + LIVE_ROWS * sum(bool(c.formula) for columns in LIVE.values() for c in columns)
    # An empty text; a formula without a result would have the type of a number.
    assert {(results[t][c].value, results[t][c].data_type) for t, c in formulas} <= {(None, "str"), ("", "str")}
    blank = Live(live)
    assert {blank.value(t, c) for t, c in formulas} == {""}


def test_every_function_named_exists_and_every_name_is_used():
    text = " ".join(column.formula for columns in LIVE.values() for column in columns)
    assert set(re.findall(r"PLINTH_\w+", text)) <= set(FUNCTIONS)
    assert set(re.findall(r"live_\w+", text)) == set(NAMES)


def test_no_name_of_the_workbook_looks_like_a_cell():
    assert not [name for name in NAMES if re.fullmatch(r"[A-Za-z]{1,3}[0-9]+", name)]


# ---------------------------------------------------------------------------------------------- what it shows


def test_each_wall_of_the_demo_shows_the_length_that_the_estimate_has(demo_live, demo):
    found = shown(demo_live, "Walls", "Length")
    assert found == pytest.approx({str(row.name): row.length for row in demo.found.taken.own.walls})


def test_each_wall_shows_its_weight_before_meetings_frames_and_lintels(demo_live, demo):
    own = demo.found.taken.own
    areas = {}
    for row in own.openings:
        areas[str(row.wall)] = areas.get(str(row.wall), 0) + row.area
    expected = {str(w.name): (w.length * w.height - areas.get(str(w.name), 0)) * w.surface for w in own.walls}
    assert shown(demo_live, "Walls", "Weight") == pytest.approx(expected)


def test_masonry_and_plaster_leave_small_openings_in(demo_live):
    # W3, 9.73 m by 3 m: two windows and two vents; a vent of 0.6 by 0.45 is not taken off the plaster.
    length = shown(demo_live, "Walls", "Length")["W3"]
    windows, vents = 1.2 * 1.05 + 1.5 * 1.35, 0.6 * 0.45 + 0.45 * 0.45
    assert shown(demo_live, "Walls", "Masonry")["W3"] == pytest.approx((3 * length - windows - vents) * 0.23)
    assert shown(demo_live, "Walls", "Plaster")["W3"] == pytest.approx(6 * length - windows)


def test_jacks_by_spacing_are_shown_for_walls_that_are_lifted(demo_live, demo):
    found = shown(demo_live, "Walls", "Jacks by spacing")
    by_spacing = {str(row.name): row.by_spacing for row in demo.found.jacks if row.kind == "wall"}
    assert {name: count for name, count in found.items() if count != ""} == pytest.approx(by_spacing)
    assert found["U1"] == ""


def test_load_jacks_and_base_of_each_wall_are_those_of_the_estimate(demo_live, demo):
    load, jacks, side = (shown(demo_live, "Walls", c) for c in ("Load in the lift", "Jacks", "Base side"))
    walls = [row for row in demo.found.taken.bases if row.kind == "wall"]
    assert {name: value for name, value in load.items() if value != ""} == pytest.approx(
        {str(row.name): row.lifted for row in walls}
    )
    counts = {str(row.name): row.count for row in demo.found.jacks if row.kind == "wall"}
    assert {name: value for name, value in jacks.items() if value != ""} == pytest.approx(counts)
    sides = {str(row.name): row.side for row in demo.found.pads}
    assert all(side[name] == pytest.approx(sides[name]) for name in counts)


def test_quantities_of_the_survey_are_shown_beside_the_rates(demo_live, demo):
    quantity, amount = (shown(demo_live, "Rates", f"{c} in the survey") for c in ("Quantity", "Amount"))
    assert quantity == pytest.approx({str(item.code): item.quantity for item in demo.found.bill})
    assert sum(amount.values()) == pytest.approx(demo.found.totals.works)


def test_a_fault_is_said_in_words_and_shows_as_errors_not_as_old_figures():
    rows = demo_rows()
    rows["Walls"] = [{**rows["Walls"][0], "thickness": 9}, *rows["Walls"][1:]]
    live = Live(load_workbook(io.BytesIO(filled(TEMPLATE, rows, demo_job()))))
    assert live.value(LIVE_SHEET, "A3").startswith("1 faults to mend, first: Walls!E4")
    assert set(shown(live, "Walls", "Load in the lift").values()) == {"#N/A", ""}


def test_each_room_shows_the_area_that_the_estimate_has(demo_live, demo):
    found = shown(demo_live, "Rooms", "Area")
    assert found == pytest.approx({str(row.room): row.area for row in demo.found.taken.own.rooms})


def test_each_room_shows_the_weight_of_its_slab(demo_live, demo):
    expected = {str(row.room): row.area * row.dead for row in demo.found.taken.own.panels if str(row.kind) == "slab"}
    assert shown(demo_live, "Rooms", "Slab or roof") == pytest.approx(expected)


def test_fill_is_shown_for_one_metre_or_for_the_rise_on_job(demo_live):
    area, fill = shown(demo_live, "Rooms", "Area"), shown(demo_live, "Rooms", "Fill for the rise")
    assert fill["Kitchen"] == pytest.approx(area["Kitchen"])
    assert fill["Study"] == ""
    asked = Live(load_workbook(io.BytesIO(filled(TEMPLATE, demo_rows(), {**demo_job(), "rise": "3 ft"}))))
    assert shown(asked, "Rooms", "Fill for the rise")["Kitchen"] == pytest.approx(0.9144 * area["Kitchen"])


def test_rates_are_read_out_and_a_tried_quantity_is_priced(demo_live):
    assert shown(demo_live, "Rates", "Rate in words")["R04"] == "twelve thousand, five hundred"
    column = letters("Rates")
    rows = {demo_live.book["Rates"].cell(row, 1).value: row for row in range(FIRST_ROW, FIRST_ROW + 40)}
    for typed, code, amount in ((2.5, "R01", 16250), ("3 brass", "F02", round(3 * 2.8316846592 * 445))):
        demo_live.book["Rates"][f"{column['Try a quantity']}{rows[code]}"].value = typed
        assert demo_live.value("Rates", f"{column['Amount']}{rows[code]}") == amount
    assert shown(demo_live, "Rates", "Amount")["P01"] == ""


GRID = [{"name": n, "offset": o} for n, o in (("A", 0), ("B", 4), ("1", 0), ("2", 3.2))]


def test_a_row_shows_nothing_until_what_it_needs_is_there_and_an_error_where_it_is_wrong():
    walls = [
        {"name": "W1", "storey": 1, "start": "A1"},
        {"name": "W2", "storey": 1, "start": "A1", "end": "B1"},
        {"name": "W3", "storey": 1, "start": "A1", "end": "C1", "thickness": 230, "height": 3},
        {"name": "W4", "storey": 1, "start": "A1", "end": "B1", "thickness": "9 in", "height": 3, "masonry": "Moon"},
        {"name": "W5", "storey": "1", "start": "B1", "end": "B2", "thickness": "9 in", "height": 3, "at_lift": "stays"},
    ]
    live = Live(load_workbook(io.BytesIO(filled(TEMPLATE, {"Grid": GRID, "Walls": walls}))))
    assert shown(live, "Walls", "Length") == {"W1": "", "W2": 4.0, "W3": "#N/A", "W4": 4.0, "W5": 3.2}
    assert [shown(live, "Walls", "Weight")[w] for w in ("W1", "W2", "W3", "W4")] == ["", "", "#N/A", "#N/A"]
    assert shown(live, "Walls", "Masonry")["W4"] == pytest.approx(12 * 0.2286)
    assert [shown(live, "Walls", "Jacks by spacing")[w] for w in ("W2", "W5")] == [4, ""]  # 3.4 / 1.2: 3 gaps


def test_figures_changed_on_the_sheets_show():
    rows = {
        "Grid": GRID,
        "Walls": [{"name": "W1", "storey": 1, "start": "A1", "end": "B1", "thickness": 200, "height": 3}],
        "Rooms": [{"name": "R1", "storey": 1, "corner": "A1", "opposite": "B2", "slab": "unknown"},
                  {"name": "R2", "storey": 1, "corner": "A1", "opposite": "B2", "above": "pitched roof", "slope": 0,
                   "finish": 0.7},
                  {"name": "R3", "storey": 1, "corner": "A1", "opposite": "B2", "above": "none"}],
        "Materials": [{"name": "Brick masonry", "unit_weight": 20}, {"name": "Reinforced concrete", "unit_weight": 24}],
        "Allowances": [{"name": "plastered_faces", "value": 1}, {"name": "plaster_thickness", "value": 0.02},
                       {"name": "slab_thickness", "value": 0.1}, {"name": "finish_weight", "value": 2},
                       {"name": "end_distance", "value": 0.5}],
    }  # fmt: skip
    live = Live(load_workbook(io.BytesIO(filled(TEMPLATE, rows, {"widest_spacing": 0.7}))))
    assert shown(live, "Walls", "Weight")["W1"] == pytest.approx(12 * (0.2 * 20 + 0.02 * 20.4))
    assert shown(live, "Walls", "Plaster")["W1"] == pytest.approx(12)
    assert shown(live, "Walls", "Jacks by spacing")["W1"] == 6  # 3.0 / 0.7: 5 gaps
    assert shown(live, "Rooms", "Slab or roof") == {"R1": pytest.approx(12.8 * 4.4), "R2": pytest.approx(12.8 * 0.7),
                                                    "R3": ""}  # fmt: skip


# ---------------------------------------------------------------------------------------------- reading it


def read(path):
    return read_survey(FileDoor(path).sheets())


def worked(path):
    return work(FileDoor(path))


def plainly(entries):
    return {key: (entry.value, entry.unknown, entry.faulty, str(entry.where)) for key, entry in entries.items()}


def test_the_reader_sees_the_same_survey_and_warns_of_nothing_more(both):
    plain, live = read(both["plain"]), read(both["live"])
    assert (live.faults, live.warnings) == (plain.faults, plain.warnings)
    assert plainly(live.job) == plainly(plain.job)
    for title, rows in plain.tables.items():
        assert [(row.number, plainly(row.entries)) for row in live.tables[title]] == [
            (row.number, plainly(row.entries)) for row in rows
        ]
    assert len(live.tables["Walls"]) == len(demo_rows()["Walls"])


def test_the_estimate_is_the_same(both):
    found = [result(worked(both[name])) for name in ("plain", "live")]
    assert found[0] == found[1]


def test_a_heading_without_the_mark_is_still_warned_about(tmp_path):
    book = load_workbook(io.BytesIO(filled(TEMPLATE, demo_rows(), demo_job())))
    book["Walls"].cell(HEADER_ROW, 16).value = "Weight (kN)"
    book.save(tmp_path / "survey.xlsx")
    assert [w.code for w in read(tmp_path / "survey.xlsx").warnings] == ["UNKNOWN-COLUMN"]


@libreoffice
def test_another_program_opens_it_and_shows_nothing_beside_empty_rows():
    """It does not know our functions; as long as a row is empty it must not need them."""
    shown = libreoffice_values(live_bytes())
    book = load_workbook(TEMPLATE)
    formulas = [(s.title, c.coordinate) for s in book for row in s.iter_rows() for c in row if c.data_type == "f"]
    assert len(formulas) > LIVE_ROWS
    assert {shown.get(cell) or "" for cell in formulas} == {""}
