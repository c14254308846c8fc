"""addin.result_book: a tiny page built by hand, recalculated, edited and poisoned."""

import io
from dataclasses import dataclass
from datetime import datetime
from types import SimpleNamespace
from typing import Any

import pytest
from openpyxl import Workbook, load_workbook

from addin.caches import CannotCache, inject
from addin.formulas import CannotRender
from addin.guarding import draw_kept
from addin.kinds import Cell, Floats, Tracing
from addin.layout import SHEET, TABLES
from addin.result_book import KEPT_SHEET, Listing, Notes, Page, ResultBook, Show, Table, show
from addin.styles import Styles
from addin.survey_book import add_survey_sheets
from addin.surveying import Issued, IssuedRow
from calc.fields import note, quantity
from calc.number import Filed, Name, Number, Text, at_issue, total, value_of, where, word_where
from tests.engines import IronCalc, cached, differences, libreoffice, libreoffice_values

STAMP = datetime(2026, 1, 31)
WALLS = (("W1", 230.0, 3.15), ("W2", 345.0, 2.85), ("W3", 115.0, 3.0))
OPENINGS = (("W2", 1.2), ("W1", 0.9), ("W2", 0.6))
OUT = "OUT OF DATE"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WallRow:
    """One wall of the tiny page."""

    name: Text = note("of the wall")
    thickness: Number = quantity("m", "of the masonry")
    height: Number = quantity("m", "floor to soffit")
    section: Number = quantity("m2", "thickness x height")
    widths: Number = quantity("m", "of its openings")
    slender: Text = note("in words")
    plan: Number = quantity("No", "worked out at issue")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sums:
    """What the walls add up to."""

    section: Number = quantity("m2", "of all walls")
    mean: Number = quantity("m2", "of one wall")
    plan: Number = quantity("No", "of all walls")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OpeningRow:
    """One opening of the tiny page."""

    wall: Text = note("it is in")
    width: Number = quantity("m", "clear")


def records(kind: Any) -> tuple[tuple[WallRow, ...], tuple[OpeningRow, ...], Sums]:
    """The rows in a kind of number; every live figure comes from the survey sheets Walls and Openings."""

    def at(sheet: str, row: int, key: str) -> Cell:
        return Cell(sheet, row, next(i for i, c in enumerate(SHEET[sheet].columns, start=1) if c.key == key))

    openings = tuple(
        OpeningRow(wall=kind.text(wall, at("Openings", row, "wall")),
                   width=kind.number(width, at("Openings", row, "width"), "m", "m"))
        for row, (wall, width) in enumerate(OPENINGS, start=4)
    )  # fmt: skip
    filed = Filed([row.wall for row in openings], [row.width for row in openings])
    walls = []
    for row, (name, thickness, height) in enumerate(WALLS, start=4):
        thick = kind.number(thickness, at("Walls", row, "thickness"), "mm", "m")
        high = kind.number(height, at("Walls", row, "height"), "m", "m")
        section, key = thick * high, Name(name)
        walls.append(WallRow(
            name=key, thickness=thick, height=high, section=section, widths=filed.total(key),
            slender=word_where(high > 12 * thick, "slender", "stout"),
            plan=at_issue(round(value_of(section) * 10), section),
        ))  # fmt: skip
    whole = total(row.section for row in walls)
    sums = Sums(section=whole, mean=whole / 2, plan=where(whole > 1, total(row.plan for row in walls), 0))
    return tuple(walls), openings, sums


class Tiny:
    """The workbook of the tiny page."""

    def __init__(self) -> None:
        self.walls, self.openings, self.sums = records(Tracing())
        book = Workbook()
        book.worksheets[0].title = "Contents"
        self.results = ResultBook(book=book, styles=Styles(book))
        self.page = Page(title="Tiny page", heading="Tiny", help="of a test", warning="a test", blocks=(
            Table(title="Walls", records=self.walls, note="all of them", shows=show(
                "name thickness height section widths slender plan", section=Show(attr="section", total=True))),
            Table(title="Beams", records=(), shows=show("name section", section=Show(attr="section", total=True))),
            Listing(title="Sums", record=self.sums, shows=show(
                "section mean plan", section=Show(attr="section", name="all"))),
            Notes(title="Notes", lines=("One.", "Two.")),
        ))  # fmt: skip
        self.results.place(self.page)
        self.results.keep_inputs()
        self.results.draw(self.page)
        rows = {
            "Walls": [dict(zip(("name", "thickness", "height"), wall, strict=True)) for wall in WALLS],
            "Openings": [dict(zip(("wall", "width"), opening, strict=True)) for opening in OPENINGS],
        }
        tables = {t.title: () for t in TABLES} | {
            title: tuple(IssuedRow(number=n, values=values, entries={}) for n, values in enumerate(given, start=4))
            for title, given in rows.items()
        }
        draw_kept(self.results, Issued(job={}, tables=tables), SimpleNamespace(letters=(), numbers=(), readings=()))
        add_survey_sheets(book, self.results.styles, rows=rows)
        self.data = self.results.content(STAMP)
        self.book = load_workbook(io.BytesIO(self.data))
        self.sheet = self.book["Tiny page"]

    def find(self, text: str) -> int:
        """The row whose first cell holds a text."""
        return next(row for row in range(1, 60) if self.sheet.cell(row, 1).value == text)


@pytest.fixture(scope="module")
def tiny() -> Tiny:
    return Tiny()


FIRST = 10
"""Row of the first wall: block at row 6 with a note, a line of headers and a line that says how."""


def test_the_first_wall_stands_where_the_tests_look_for_it(tiny):
    assert tiny.sheet.cell(FIRST, 1).value == "W1"
    headers = [tiny.sheet.cell(FIRST - 2, column).value for column in range(1, 9)]
    assert headers == ["Name", "Thickness (m)", "Height (m)", "Section (m2)", "Widths (m)", "Slender", "Plan (No)",
                       "Still holds"]  # fmt: skip


def test_each_cell_holds_the_formula_of_its_field(tiny):
    formulas = [tiny.sheet.cell(FIRST + 1, column).value for column in range(2, 8)]
    assert formulas == [
        "=Walls!E5/1000", "=Walls!F5", "=B11*C11", "=SUMIFS(Openings!$D$4:$D$6,Openings!$A$4:$A$6,A11)",
        '=IF(C11>12*B11,"slender","stout")', 10,
    ]  # fmt: skip


def test_cached_results_are_what_ironcalc_finds(tiny):
    caches = cached(tiny.data)
    assert len(caches) > 25
    assert differences(caches, IronCalc(tiny.data).values(caches)) == []


@libreoffice
def test_cached_results_are_what_libreoffice_finds_without_them(tiny):
    assert differences(cached(tiny.data), libreoffice_values(tiny.data)) == []


def test_cached_results_are_the_figures_of_the_float_run(tiny):
    walls, _, sums = records(Floats())
    caches = cached(tiny.data)
    for row, wall in enumerate(walls, start=FIRST):
        shown = [caches["Tiny page", f"{letter}{row}"] for letter in "BCDEF"]
        assert shown == [wall.thickness, wall.height, wall.section, wall.widths, wall.slender]
        assert tiny.sheet[f"G{row}"].value == wall.plan
    top = tiny.find("Sums") + 1
    assert [caches["Tiny page", f"B{row}"] for row in range(top, top + 3)] == [sums.section, sums.mean, sums.plan]


def test_a_poisoned_cache_is_found(tiny):
    wrong = dict(tiny.results.values)
    wrong["Tiny page", f"D{FIRST}"] *= 1 + 1e-9
    wrong["Tiny page", f"F{FIRST}"] = "stout"
    stream = io.BytesIO()
    tiny.results.book.save(stream)
    poisoned = inject(stream.getvalue(), wrong, modified=STAMP)
    caches = cached(poisoned)
    found = differences(caches, IronCalc(poisoned).values(caches))
    assert [text.partition(":")[0] for text in found] == [f"Tiny page!D{FIRST}", f"Tiny page!F{FIRST}"]


@libreoffice
def test_a_poisoned_cache_does_not_reach_libreoffice(tiny):
    poisoned = dict(tiny.results.values)
    poisoned["Tiny page", f"D{FIRST}"] = 999.0
    stream = io.BytesIO()
    tiny.results.book.save(stream)
    data = inject(stream.getvalue(), poisoned, modified=STAMP)
    caches = cached(data)
    assert [x.partition(":")[0] for x in differences(caches, libreoffice_values(data))] == [f"Tiny page!D{FIRST}"]


def test_a_formula_without_a_result_is_never_written(tiny):
    lacking = {cell: value for cell, value in tiny.results.values.items() if cell != ("Tiny page", f"D{FIRST}")}
    stream = io.BytesIO()
    tiny.results.book.save(stream)
    with pytest.raises(CannotCache, match=f"Tiny page!D{FIRST}"):
        inject(stream.getvalue(), lacking, modified=STAMP)


def test_the_totals_row_adds_its_column_and_follows_an_edit(tiny):
    total_row = FIRST + len(WALLS)
    assert tiny.sheet.cell(total_row, 1).value == "Total"
    assert tiny.sheet.cell(total_row, 4).value == f"=SUM(D{FIRST}:D{total_row - 1})"
    assert [tiny.sheet.cell(total_row, column).value for column in (2, 3, 5, 6, 7)] == [None] * 5
    engine = IronCalc(tiny.data)
    before = engine.value("Tiny page", f"D{total_row}")
    engine.enter("Walls", "F4", 4.15)
    assert engine.value("Tiny page", f"D{total_row}") == pytest.approx(before + 0.23, rel=1e-12)


def test_an_empty_table_says_so_and_has_no_headers_and_no_total(tiny):
    below = [tiny.sheet.cell(row, 1).value for row in range(tiny.find("Beams") + 1, tiny.find("Sums"))]
    assert "none surveyed; add rows to the survey, then refresh" in below
    assert "Total" not in below
    assert "Name" not in below


def test_a_relation_follows_an_entry_that_moves(tiny):
    engine = IronCalc(tiny.data)
    engine.enter("Openings", "A4", "W3")
    assert [engine.value("Tiny page", f"E{FIRST + i}") for i in range(3)] == [0.9, 0.6, 1.2]


# ------------------------------------------------------------------------------------------ out of date


def flags(engine: IronCalc) -> list[Any]:
    return [engine.value("Tiny page", f"H{row}") for row in range(FIRST, FIRST + len(WALLS))]


def counts(engine: IronCalc) -> tuple[Any, Any]:
    """Inputs of worked-out results that changed, entries of the plan that changed."""
    return engine.value(KEPT_SHEET, "D4"), engine.value(KEPT_SHEET, "D5")


def test_a_changed_input_flags_the_result_of_its_row_and_no_other(tiny):
    engine = IronCalc(tiny.data)
    assert flags(engine) == ["yes"] * 3
    assert counts(engine) == (0, 0)
    assert not engine.value("Tiny page", "A4")
    engine.enter("Walls", "E5", 230)
    assert flags(engine) == ["yes", OUT, "yes"]
    assert counts(engine) == (1, 0)
    assert str(engine.value("Tiny page", "A4")).startswith(OUT)


def test_the_old_entry_typed_back_clears_the_flag(tiny):
    engine = IronCalc(tiny.data)
    engine.enter("Walls", "E5", 230)
    engine.enter("Walls", "E5", 345)
    assert flags(engine) == ["yes"] * 3
    assert counts(engine) == (0, 0)


@pytest.mark.parametrize(("cell", "typed"), [
    (("Openings", "D4"), 1.5), (("Walls", "E5"), 345.0), (("Walls", "K5"), "joint"),
])  # fmt: skip
def test_an_entry_no_worked_out_result_rests_on_raises_no_flag(tiny, cell, typed):
    engine = IronCalc(tiny.data)
    engine.enter(*cell, typed)
    assert flags(engine) == ["yes"] * 3
    assert counts(engine) == (0, 0)


def test_a_renamed_wall_and_an_added_opening_are_changes_of_the_plan(tiny):
    engine = IronCalc(tiny.data)
    engine.enter("Walls", "A4", "W9")
    engine.enter("Openings", "A7", "W2")
    assert counts(engine)[1] == 2
    assert str(engine.value("Tiny page", "A4")).startswith(OUT)


def test_each_kept_input_says_what_it_is_and_what_it_was(tiny):
    sheet = tiny.book[KEPT_SHEET]
    kept = [[sheet.cell(row, column).value for column in (1, 2, 3, 4)] for row in range(8, 8 + len(WALLS))]
    assert kept == [["Tiny page", FIRST + i, "Plan: section", f"='Tiny page'!D{FIRST + i}"] for i in range(3)]
    then = [sheet.cell(row, 5).value for row in range(8, 11)]
    assert then == pytest.approx([value_of(row.section) for row in tiny.walls], rel=1e-15)  # a file keeps 16 digits


# ------------------------------------------------------------------------------------------ names, words, refusals


def test_a_named_line_of_a_listing_has_a_defined_name_that_formulas_use(tiny):
    row = tiny.find("Sums") + 1
    assert tiny.book.defined_names["all"].attr_text == f"'Tiny page'!$B${row}"
    assert tiny.sheet.cell(row, 2).value == f"=SUM(D{FIRST}:D{FIRST + 2})"
    assert tiny.sheet.cell(row + 1, 2).value == "=all/2"


def test_the_line_that_says_how_is_in_the_words_of_the_headings(tiny):
    how = [tiny.sheet.cell(FIRST - 1, column).value or "" for column in range(2, 8)]
    assert how[0] == "thickness / 1000"
    assert how[1] == "from the survey"
    assert how[2] == "thickness × height"  # noqa: RUF001
    assert how[5] == "worked out at issue"


def test_the_same_book_gives_the_same_bytes(tiny):
    assert Tiny().data == tiny.data


def test_a_look_up_in_a_column_shown_nowhere_is_refused():
    book = Workbook()
    results = ResultBook(book=book, styles=Styles(book))
    hidden = Filed([Name("W1")], [Tracing().number(230.0, Cell("Walls", 4, 5), "mm", "m")])
    listing = Listing(title="Bad", record=OpeningRow(wall="W1", width=hidden.at("W1")), shows=show("wall width"))
    page = Page(title="Bad", heading="Bad", help="", blocks=(listing,))
    results.place(page)
    with pytest.raises(CannotRender, match="Bad!B"):
        results.draw(page)
