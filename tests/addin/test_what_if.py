"""What-ifs: one entry changed in the issued workbook and recalculated, against a new run on the changed survey."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from openpyxl import load_workbook

from addin.door import FileDoor
from addin.estimating import Worked, issue_of, work
from addin.layout import FIRST_ROW, JOB, SHEET, column_letter
from addin.survey_book import survey_bytes
from tests.engines import libreoffice, libreoffice_values
from tests.issued import Engine, IssuedBook, same_value

DAY = date(2026, 1, 31)
OUTCOMES = (
    "house_dead",
    "house_imposed",
    "house_lifted",
    "house_stays",
    "jack_count",
    "needed_plinth",
    "rise_in_use",
    "bill_works",
    "bill_total",
    "price_per_floor_area",
    "open_answers",
    "floor_area",
)


def rows_of(worked: Worked) -> tuple[dict[str, list[dict[str, object]]], dict[str, object]]:
    """The survey of a worked job as rows that can be changed and written again."""
    tables = {title: [dict(row.values) for row in rows] for title, rows in worked.rows.tables.items()}
    return tables, dict(worked.rows.job)


def job_cell(key: str) -> tuple[str, str]:
    return "Job", f"B{FIRST_ROW + [column.key for column in JOB].index(key)}"


def table_cell(title: str, index: int, key: str) -> tuple[str, str]:
    return title, f"{column_letter(SHEET[title], key)}{FIRST_ROW + index}"


def index_of(worked: Worked, title: str, **wanted: object) -> int:
    rows = worked.rows.tables[title]
    return next(i for i, row in enumerate(rows) if all(row.values.get(k) == v for k, v in wanted.items()))


def _blocked_window(worked: Worked) -> int:
    """A window that is blocked because it is one, not because the survey says so."""
    openings = zip(worked.rows.tables["Openings"], worked.found.taken.own.openings, strict=True)
    return next(
        i for i, (row, found) in enumerate(openings) if found.blocked > 0 and row.values.get("block_up") != "yes"
    )


EDITS: dict[str, Callable[[Worked], tuple[str, int | None, str, object]]] = {
    "rise": lambda _: ("Job", None, "rise", 1.15),
    "jack rating": lambda _: ("Job", None, "jack_rating", 100),
    "share of rating in per cent": lambda _: ("Job", None, "share", 8),
    "widest spacing": lambda _: ("Job", None, "widest_spacing", 0.9),
    "bearing pressure": lambda _: ("Job", None, "bearing", 80),
    "house lived in": lambda _: ("Job", None, "empty", "no"),
    "cut level": lambda _: ("Job", None, "cut_level", -0.3),
    "overheads": lambda _: ("Job", None, "overheads", 14),
    "a rate": lambda w: ("Rates", index_of(w, "Rates", name="R01"), "rate", 9876.5),
    "a wall's thickness": lambda _: ("Walls", 0, "thickness", 345),
    "a wall's height": lambda _: ("Walls", 1, "height", 3.3),
    "a wall's masonry": lambda _: ("Walls", 2, "masonry", "Aerated block masonry"),
    "a unit weight": lambda w: ("Materials", index_of(w, "Materials", name="Brick masonry"), "unit_weight", 20.5),
    "an imposed load": lambda w: ("Uses", index_of(w, "Uses", name="Roof with access"), "imposed", 2.25),
    "an allowance": lambda w: ("Allowances", index_of(w, "Allowances", name="frame_weight"), "value", 0.45),
    "an opening's width": lambda _: ("Openings", 0, "width", 0.75),
    "an opening's kind": lambda w: ("Openings", _blocked_window(w), "kind", "door"),
    "a slab": lambda _: ("Rooms", 0, "slab", 150),
    "a footing": lambda _: ("Footings", 0, "width", 1.05),
    "a level reading": lambda w: ("Levels", index_of(w, "Levels", what="flood mark"), "level", 101.9),
}  # fmt: skip


@pytest.mark.parametrize("what", EDITS)
def test_an_edit_in_the_workbook_gives_what_a_new_run_gives(what, demo, counted_book, tmp_path):
    """Jacks counted, not placed: what a plan adds is worked out at issue, and an edit flags it instead."""
    title, index, key, value = EDITS[what](demo)
    engine = Engine(counted_book)
    before = {name: engine.named(name) for name in OUTCOMES}
    engine.change(job_cell(key) if index is None else table_cell(title, index, key), value)
    there = {name: engine.named(name) for name in OUTCOMES}

    tables, job = rows_of(demo)
    if index is None:
        job[key] = value
    else:
        tables[title][index][key] = value
    again = _issued(tables, job, tmp_path)
    here = {name: again.cache(again.named(name)) for name in OUTCOMES}

    # A result worked out at issue stays as it was, and says so: then the count of open answers may be behind.
    compared = [name for name in OUTCOMES if name != "open_answers" or engine.named("results_changed") == 0]
    assert {name: (there[name], here[name]) for name in compared if not same_value(there[name], here[name])} == {}
    assert any(not same_value(before[name], there[name]) for name in OUTCOMES), "the edit moved nothing"


def _issued(tables, job, folder: Path) -> IssuedBook:
    survey, out = folder / "changed.xlsx", folder / "changed estimate.xlsx"
    survey.write_bytes(survey_bytes(tables, job, examples=False))
    out.write_bytes(issue_of(work(FileDoor(survey), planned=False), DAY))
    return IssuedBook(out)


@pytest.fixture(scope="module")
def counted_book(demo_survey: Path, tmp_path_factory: pytest.TempPathFactory) -> IssuedBook:
    """The demo house issued without a jack plan."""
    path = tmp_path_factory.mktemp("counted") / "demo estimate.xlsx"
    path.write_bytes(issue_of(work(FileDoor(demo_survey), planned=False), DAY))
    return IssuedBook(path)


def _last_letter(worked: Worked) -> int:
    return max(i for i, row in enumerate(worked.rows.tables["Grid"]) if str(row.values["name"])[0].isalpha())


@libreoffice
def test_edits_made_in_the_workbook_follow_in_libreoffice_too(demo, counted_book, tmp_path):
    edits = ["rise", "a rate", "a wall's thickness", "jack rating", "a unit weight"]
    edited = tmp_path / "edited.xlsx"
    book = load_workbook(counted_book.path)
    tables, job = rows_of(demo)
    for what in edits:
        title, index, key, value = EDITS[what](demo)
        sheet, address = job_cell(key) if index is None else table_cell(title, index, key)
        book[sheet][address].value = value
        (job if index is None else tables[title][index])[key] = value
    book.save(edited)
    there = libreoffice_values(edited.read_bytes())
    again = _issued(tables, job, tmp_path)
    for name in OUTCOMES:
        sheet, address = again.named(name)
        assert same_value(there[sheet, address], again.cache((sheet, address))), name


PLAN_EDITS: dict[str, Callable[[Worked], tuple[tuple[str, str], object]]] = {
    "a wall renamed": lambda _: (table_cell("Walls", 0, "name"), "W99"),
    "a wall moved": lambda _: (table_cell("Walls", 0, "end"), "A1"),
    "a room's span": lambda _: (table_cell("Rooms", 0, "span"), "along letters"),
    "an opening moved to another wall": lambda _: (table_cell("Openings", 0, "wall"), "W2"),
    "a grid line moved past the next": lambda w: (table_cell("Grid", _last_letter(w), "offset"), -50),
    "a wall added": lambda w: (table_cell("Walls", len(w.rows.tables["Walls"]), "name"), "W88"),
}


@pytest.mark.parametrize("what", PLAN_EDITS)
def test_an_edit_of_the_plan_is_flagged(what, demo, demo_book):
    engine = Engine(demo_book)
    cell, value = PLAN_EDITS[what](demo)
    engine.change(cell, value)
    assert engine.named("plan_changed") >= 1
    assert engine.value("Offer", "A4").startswith("OUT OF DATE")


@pytest.mark.parametrize("what", ["a rate", "overheads", "a footing"])
def test_a_harmless_edit_raises_no_flag(what, demo, demo_book):
    engine = Engine(demo_book)
    title, index, key, value = EDITS[what](demo)
    engine.change(job_cell(key) if index is None else table_cell(title, index, key), value)
    assert engine.named("plan_changed") == 0
    assert engine.named("results_changed") == 0
    assert engine.value("Offer", "A4") == ""


def test_a_result_worked_out_at_issue_is_flagged_in_its_own_row_only(demo_book):
    engine = Engine(demo_book)
    engine.change(table_cell("Walls", 0, "thickness"), 345)
    page = demo_book.book["Loads"]
    flags = {}
    for row in page.iter_rows():
        for cell in row:
            if isinstance(cell.value, str) and cell.value.startswith("=IF(SUMIFS('At issue'"):
                flags[page.cell(cell.row, 1).value, cell.row] = engine.value("Loads", cell.coordinate)
    assert "OUT OF DATE" in flags.values()
    assert "yes" in flags.values()


def test_a_moved_grid_line_changes_lengths_live(demo, demo_book):
    engine = Engine(demo_book)
    before = engine.named("floor_area")
    engine.change(table_cell("Grid", _last_letter(demo), "offset"), demo.survey.letters[-1].offset + 0.1)
    assert engine.named("floor_area") > before
    assert engine.named("plan_changed") == 0


@pytest.mark.parametrize(("title", "key", "typed"), [("Job", "rise", "4 ft"), ("Rooms", "slab", "7 in"),
                                                     ("Footings", "width", "3 ft"), ("Job", "tax", "5%")])  # fmt: skip
def test_text_typed_for_a_number_is_an_error_and_never_the_default(demo_book, title, key, typed):
    engine = Engine(demo_book)
    if title == "Job":
        cell = f"B{next(r for r, column in enumerate(JOB, start=FIRST_ROW) if column.key == key)}"
    else:
        cell = f"{column_letter(SHEET[title], key)}{FIRST_ROW}"
    engine.change((title, cell), f"'{typed}")
    assert engine.at((title, cell)) == typed
    spoiled = {where[0] for where, _ in demo_book.formulas() if engine.at(where) == "#N/A"}
    assert {"Job": "Job", "Rooms": "Own loads", "Footings": "Ground check"}[title] in spoiled


def test_unknown_still_stands_for_the_default(demo_book):
    engine = Engine(demo_book)
    engine.change(("Footings", f"E{FIRST_ROW}"), "unknown")
    assert not isinstance(engine.named("bill_total"), str)
