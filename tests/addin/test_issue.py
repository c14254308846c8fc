"""The issued workbook of the demo house: formulas against two engines, and the lints its formulas are held to."""

import io
import math
import re
import shutil
from collections import defaultdict
from dataclasses import replace
from datetime import date

import pytest
from openpyxl import load_workbook
from openpyxl.utils.cell import column_index_from_string

from addin.demo import demo_job, demo_rows
from addin.door import FileDoor
from addin.estimating import Worked, issue_of, item_texts, work
from addin.formulas import LONGEST
from addin.issue import Issue, _issued_places, _place, issue_bytes
from addin.kinds import Tracing
from addin.layout import SURVEY_TITLES
from addin.problems import CellRef, Problem
from addin.result_book import ResultBook
from addin.result_json import result
from addin.sheets import TABS
from addin.survey_book import survey_bytes
from addin.surveying import build_allowances, build_rules, build_survey
from calc.checks import IF_CONFIRMED
from calc.estimate import estimate
from calc.number import Filed, Traced, TracedText
from tests.engines import libreoffice, libreoffice_values
from tests.issued import Engine, IssuedBook, differences

DAY = date(2026, 1, 31)


def test_every_formula_agrees_with_ironcalc(demo_book):
    assert sum(1 for _ in demo_book.formulas()) > 5000
    assert differences(demo_book, Engine(demo_book).at) == []


@libreoffice
def test_every_formula_agrees_with_libreoffice_on_a_copy_without_caches(demo_book):
    results = libreoffice_values(demo_book.path.read_bytes())
    assert differences(demo_book, results.get) == []


def test_a_wrong_cache_is_found(demo_book):
    engine = Engine(demo_book)
    wrong = demo_book.named("house_lifted")
    poisoned = differences(demo_book, lambda cell: 1.0 if cell == wrong else engine.at(cell))
    assert len(poisoned) == 1
    assert poisoned[0].startswith(f"{wrong[0]}!{wrong[1]}")


def test_no_formula_cell_shows_an_error(demo_book):
    shown = [(cell, demo_book.cache(cell)) for cell, _ in demo_book.formulas()]
    assert [cell for cell, value in shown if isinstance(value, str) and value.startswith("#")] == []


def test_formulas_are_short(demo_book):
    long = [f"{cell}: {len(f)}: {f}" for cell, f in _calculated(demo_book) if len(f) > LONGEST]
    assert long == []


def test_formulas_hold_no_constant_but_0_1_2_and_4(demo_book):
    strange = []
    for cell, formula in _calculated(demo_book):
        for number in _constants(formula):
            converts = _CONVERSION.fullmatch(formula)
            if number not in {"0", "1", "2", "4"} and not converts:
                strange.append(f"{cell}: {number} in {formula}")
    assert strange == []


_CELL = r"(?:[A-Za-z]+|'[A-Za-z ]+')!\$?[A-Z]+\$?[0-9]+"
_BLANK = r"(?:IF\([^()]*(?:\([^()]*\))?,(?:[a-z_]+|0),NA\(\)\)|0)"
_CONVERSION = re.compile(
    rf"=(?:IF\(ISNUMBER\({_CELL}\),)?{_CELL}/(?:1000|100)(?:,{_BLANK}\))?|=(?:{_CELL}|[a-z_]+)\*1000"
)
"""Cells that do nothing but convert an entry from its column's unit, or take what a blank stands for; m in mm."""


def _constants(formula: str) -> list[str]:
    """Numbers in a formula, texts and references left out, and the places of ROUND."""
    bare = re.sub(r'"[^"]*"', "", formula)
    bare = re.sub(r",(?:9|2|0)\)", ")", bare) if "ROUND(" in bare else bare
    return re.findall(r"(?<![A-Za-z$0-9_.'!])\d+(?:\.\d+)?(?![A-Za-z0-9_!'])", bare)


def test_no_formula_has_a_unary_minus(demo_book):
    assert [
        cell for cell, f in _calculated(demo_book) if re.search(r"(^=|[(,<>=*/^+-])-", re.sub(r'"[^"]*"', "", f))
    ] == []


def test_checks_that_say_stop_are_added_up_as_one_column(demo_book):
    """Cell by cell the sum of a large house would have more parts than a spreadsheet takes."""
    rows = {row[0].value: row for row in demo_book.book["Checks"].iter_rows(max_col=3)}
    assert re.fullmatch(r"=SUM\(\$?K\$?\d+:\$?K\$?\d+\)", rows["No check says STOP"][2].value)


def test_only_functions_of_2010_are_used(demo_book):
    used = {name for _, f in demo_book.formulas() for name in re.findall(r"([A-Z][A-Z0-9.]+)\(", f)}
    assert used <= {
        "ABS", "AND", "CEILING", "COS", "COUNT", "COUNTA", "COUNTIF", "EXACT", "IF", "INDEX", "ISNUMBER", "LEFT",
        "MATCH", "MAX", "MIN", "NA", "OR", "PRODUCT", "RADIANS", "ROUND", "ROW", "SQRT", "SUM", "SUMIFS", "SUMPRODUCT",
    }  # fmt: skip


def test_a_long_verdict_in_bold_has_the_lines_it_needs(demo_book):
    sheet = demo_book.cached["Checks"]
    column = max(cell.column for row in sheet.iter_rows() for cell in row if cell.value == "Verdict")
    long = [row[column - 1] for row in sheet.iter_rows() if row[column - 1].value == IF_CONFIRMED]
    assert long
    for cell in long:
        # Seen in print: 34 bold letters of 10 points in a column 38 wide, 13 points a line.
        lines = math.ceil(len(IF_CONFIRMED) / (sheet.column_dimensions[cell.column_letter].width * 34 / 38))
        assert sheet.row_dimensions[cell.row].height >= 13 * lines


def test_relations_go_by_name(demo_book):
    formulas = [f for _, f in demo_book.formulas()]
    assert sum("SUMIFS(" in f for f in formulas) > 300
    assert sum("INDEX(" in f and "MATCH(" in f for f in formulas) > 300


def test_formulas_are_alike_along_each_column(demo_book):
    """One relative form a column of a table, references apart; constants fixed at issue are no formulas."""
    forms: dict[tuple[str, str, str, int], set[str]] = defaultdict(set)
    example: dict[tuple[str, str, str, int], list[str]] = defaultdict(list)
    for (sheet, address), formula in _calculated(demo_book):
        letter, row = re.match(r"([A-Z]+)(\d+)", address).groups()
        table = _table_of(demo_book, sheet, int(row))
        if table is None:
            continue
        form = _relative(formula, int(row), column_index_from_string(letter))
        key = (sheet, table[1], letter, table[0])
        if form not in forms[key]:
            example[key].append(f"{address} {formula}")
        forms[key].add(form)
    mixed = [f"{key}: {example[key]}" for key, found in forms.items() if len(found) > 1 and not _known_mix(key[:3])]
    assert mixed == []


def _known_mix(key: tuple[str, str, str]) -> bool:
    """Columns that differ for a reason: they gather rows of different kinds, each pointing at its own home."""
    sheet, title, letter = key
    return any(sheet == s and title.startswith(t) and letter in letters for s, t, letters in MIXED)


MIXED = (
    ("Centre", "Parts", "BCDE"),  # one row a part of the house, of whatever kind
    ("Centre", "What went in", "B"),
    ("Plan data", "Pieces of walls", "HI"),  # from jamb to jamb, and from the wall's ends
    ("Plan data", "Marks", "CD"),  # one row a mark, of whatever kind
    ("Checks", "Checks", "CDEGHIK"),  # one row a check, of whatever kind
    ("Checks", "What is asked for", "C"),
    ("Offer", "What must be answered", "B"),
    ("Measurement", "Measured lines", "CDEFG"),  # lines of different items; those in kg multiply by a mass
    ("Loads", "Storey", "LM"),  # the first and last support of a beam have a neighbour on one side only
    ("Loads", "Footings", "BCDEFGH"),  # the last row is the footing assumed where none was surveyed
    ("Loads", "Loads filed by name", "BC"),  # one row a relation
    ("Bill", "By stage", "G"),  # each stage sums its own run of items
    ("Lifting", "Correct it", "BC"),  # one row a limit, of whatever kind
    ("Lifting", "Preload", "BCD"),  # each hold has a share of its own
    ("Lifting", "Hold points", "BC"),  # one row a hold, of whatever kind
    ("Lifting", "Checks of the lift", "BCEF"),  # one row a check, of whatever kind
    ("Lift workings", "k2", "BCDE"),  # a table of allowances, each by its name
    ("Lift workings", "k1", "ABCD"),
    ("Lift workings", "Face of each storey", "BCDEFGH"),  # each storey has its own rooms; the first begins at the cut
    ("Lift workings", "Outer extent", "CDEFG"),  # each room has its own sides
    ("Own loads", "Storeys", "BCDE"),  # each storey has its own walls and slabs
    ("Own loads", "Beams", "I"),  # a beam's soffit is that of the slab it carries
    ("Geometry", "Letter lines", "E"),  # the first line has none before it
    ("Geometry", "Number lines", "E"),
    ("Geometry", "Rooms as entered", "FG"),  # what a blank stands for depends on what lies over the room
    ("Log workings", "Stages", "D"),  # preload is at no rise, breakaway at one of its own
    ("Log workings", "Neighbours", "CDEGH"),  # one row a pair of stations, wherever each has its row
    ("Log workings", "Stations and their neighbours", "BCDEFG"),  # as many as each has
    ("Log workings", "Things entered or found", "B"),  # one row a row of Log stages
    ("Geometry", "Members", "DEFGHIJ"),  # walls, beams, columns and slabs
)


def _table_of(book: IssuedBook, sheet: str, row: int) -> tuple[int, str] | None:
    """The header row and title of the table a row belongs to, or None outside tables."""
    if sheet in SURVEY_TITLES or sheet in ("At issue", "Contents"):
        return None
    page = book.book[sheet]
    for above in range(row, 0, -1):
        style = page.cell(above, 1).style
        if style == "pb header":
            title = next(page.cell(r, 1).value for r in range(above, 0, -1) if page.cell(r, 1).style == "pb subtitle")
            return above, title
        if style in ("pb total text", "pb label", "pb subtitle"):
            return None
    return None


def _relative(formula: str, row: int, column: int) -> str:
    def shift(match: re.Match[str]) -> str:
        dollar_c, letters, dollar_r, digits = match.groups()
        across = letters if dollar_c else f"C[{column_index_from_string(letters) - column}]"
        down = digits if dollar_r else f"R[{int(digits) - row}]"
        return f"{across}{down}"

    return re.sub(r"(?<![A-Za-z_])(\$?)([A-Z]{1,3})(\$?)(\d+)(?![A-Za-z0-9_(])", shift, formula)


def _calculated(book: IssuedBook):
    """Formulas of calc: the survey sheets' own and those of the guards left out, and totals under tables."""
    for cell, formula in book.formulas():
        guard = formula.startswith(("=IF(plan_changed", "=IF(SUMIFS('At issue'")) or formula.endswith('&""')
        if cell[0] in TABS and cell[0] not in ("At issue", "Contents") and not guard:
            yield cell, formula


def test_no_part_of_a_formula_is_written_out_twice(demo):
    """A node without a cell that is rendered more than once deserves a cell."""
    kept: list[ResultBook] = []
    original = ResultBook.__post_init__

    def spy(self: ResultBook) -> None:
        original(self)
        kept.append(self)

    ResultBook.__post_init__ = spy
    try:
        issue_bytes(_traced_issue(demo))
    finally:
        ResultBook.__post_init__ = original
    results = kept[0]
    nodes = _graph(results.homes.kept)
    twice = [nodes[key] for key, count in results.renderer.loose.items()
             if count > 1 and not results.homes.spots.get(key) and not _plain_test(nodes[key], results)]  # fmt: skip
    assert twice == []
    assert results.renderer.literals <= {0.0, 1.0, 2.0, 4.0, 100.0, 1000.0}


def _graph(kept):
    """Every node that any shown node rests on, by identity."""
    nodes, waiting = {}, list(kept)
    while waiting:
        node = waiting.pop()
        if isinstance(node, Filed):
            waiting += [*node.values, *node.names]
        elif isinstance(node, (Traced, TracedText)) and id(node) not in nodes:
            nodes[id(node)] = node
            waiting += node.args
    return nodes


def _plain_test(node, results) -> bool:
    """A comparison of cells and constants, such as B5="window": a cell of its own would say less."""
    tests = ("same", "more than", "at most", "at least", "less than", "given")
    return isinstance(node, Traced) and node.op in tests and all(
        not isinstance(arg, (Traced, TracedText)) or arg.op in ("literal", "entry") or results.homes.spots.get(id(arg))
        for arg in node.args
    )  # fmt: skip


def _traced_issue(worked: Worked) -> Issue:
    kind = Tracing()
    allowances = build_allowances(worked.rows, kind)
    survey = build_survey(worked.rows, kind, allowances)
    rules = build_rules(worked.rows, kind)
    found = estimate(survey, worked.prepared, allowances, item_texts(), rules)
    return Issue(rows=worked.rows, survey=survey, allowances=allowances, rules=rules, found=found, log=worked.log,
                 warnings=worked.warnings, holds=worked.holds, issued_on=DAY)  # fmt: skip


def test_the_heaviest_wall_is_told_in_words_and_in_figures(demo, demo_book):
    """The same nodes as the formulas, twice more: the figures end in the value the formula's cell shows."""
    heaviest = max((b for b in demo.found.taken.bases if b.kind == "wall"), key=lambda base: base.lifted)
    page = demo_book.book["Followed through"]
    steps = {row[1].value: (row[2].value, row[3].value) for row in page.iter_rows(min_row=6, max_col=4) if row[0].value}
    assert heaviest.name in page["A1"].value
    assert len(steps) > 25
    words, figures = steps["Line lifted (kN/m)"]
    assert words == "lifted / length"
    assert figures == f"{heaviest.lifted:.5g} / {heaviest.length:.5g} = {heaviest.line_lifted:.5g}"
    assert all(" = " in told for _, told in steps.values())


def test_filed_sums_are_checked_live(demo_book):
    checks = [row[0].value for row in demo_book.cached["Checks"].iter_rows(max_col=1)]
    for what in ("Openings in walls", "Slab loads", "Attached things", "Loads of beams", "Loads from above"):
        assert f"{what} all arrive" in checks


def test_the_issue_is_the_same_to_the_byte(demo, demo_issue):
    assert issue_of(demo, DAY) == demo_issue.read_bytes()


def test_fed_back_in_it_gives_the_same_result(demo, demo_issue):
    again = work(FileDoor(demo_issue))
    assert result(again) == result(demo)


def test_fed_back_in_it_issues_the_same_results(demo_issue, tmp_path):
    """Entries typed with a unit are numbers now; every formula and result is the same."""
    path = tmp_path / "again.xlsx"
    path.write_bytes(issue_of(work(FileDoor(demo_issue)), DAY))
    first, second = IssuedBook(demo_issue), IssuedBook(path)
    assert dict(first.formulas()) == dict(second.formulas())
    assert all(first.cache(cell) == second.cache(cell) for cell, _ in first.formulas())


def test_entries_are_open_and_results_are_locked(demo_book):
    for (sheet, address), _ in demo_book.formulas():
        assert demo_book.book[sheet][address].protection.locked, f"{sheet}!{address}"
    for sheet in ("Walls", "Rates", "Allowances", "Job"):
        column = {"Walls": "E", "Rates": "D", "Allowances": "C", "Job": "B"}[sheet]
        assert not demo_book.book[sheet][f"{column}5"].protection.locked
    assert all(demo_book.book[title].protection.sheet for title in TABS)


def test_every_sheet_prints_on_a4_with_page_numbers(demo_book):
    for title in TABS:
        sheet = demo_book.book[title]
        assert sheet.page_setup.paperSize == 9
        assert "&P" in sheet.oddFooter.right.text


def test_text_of_the_survey_never_becomes_a_formula(tmp_path, demo_survey):
    path = tmp_path / "hostile.xlsx"
    shutil.copy(demo_survey, path)
    book = load_workbook(path)
    for row in book["Job"].iter_rows(min_row=4, max_col=2):
        if row[0].value in ("Client", "Place"):
            row[1].value, row[1].data_type = "=1+1", "s"
    book.save(path)
    out = tmp_path / "out.xlsx"
    out.write_bytes(issue_of(work(FileDoor(path)), DAY))
    issued = load_workbook(out)
    texts = [c for row in issued["Job"].iter_rows(min_row=4, max_col=2) for c in row if c.value == "=1+1"]
    assert len(texts) == 2
    assert {cell.data_type for cell in texts} == {"s"}


def test_what_was_typed_with_a_unit_is_kept_as_a_note(demo_book):
    notes = [
        c.comment.text
        for s in demo_book.book
        if s.title in SURVEY_TITLES
        for r in s.iter_rows()
        for c in r
        if c.comment
    ]
    assert len(notes) >= 3
    assert all(note.startswith("Typed in the survey: ") for note in notes)


def test_the_offer_and_the_jacks_say_that_nothing_is_released(demo_book):
    assert demo_book.cached["Offer"]["A3"].value.startswith("BUDGET, NOT FOR LIFTING")
    assert demo_book.cached["Jacks"]["A3"].value.startswith("NOT RELEASED FOR LIFTING")


def test_main_entries_and_results_have_names(demo_book):
    for name in ("rise_in_use", "jack_rating", "frame_weight", "bill_total", "house_lifted", "jack_count", "grade"):
        assert demo_book.named(name)


@pytest.mark.parametrize("title", TABS)
def test_every_result_sheet_is_listed_on_the_opening_sheet(demo_book, title):
    listed = {row[0].value for row in demo_book.book["Contents"].iter_rows(min_row=7, max_col=1)}
    assert title == "Contents" or title in listed


def test_the_basis_names_cells_of_this_workbook_and_not_of_the_survey(tmp_path):
    """The example rows of the survey are dropped, so every row of the house moves up by one."""
    path = tmp_path / "with examples.xlsx"
    path.write_bytes(survey_bytes(demo_rows(), demo_job(), examples=True))
    worked = work(FileDoor(path))
    book = load_workbook(io.BytesIO(issue_of(worked, DAY)))
    basis = {(row[0].value, row[1].value) for row in book["Basis"].iter_rows(max_col=2) if row[0].value}
    holds = [hold for hold in worked.holds if hold.where.sheet != "Job" and "unknown" in hold.found]
    assert {hold.where.sheet for hold in holds} >= {"Walls"}
    for hold in holds:
        text = f"{hold.subject}: {hold.found}. {hold.fix}"
        (label,) = [place for place, said in basis if said == text]
        sheet, cell = label.split("!")
        assert label != str(hold.where)
        assert book[sheet][cell].value == "unknown", label


def test_what_was_passed_over_is_named_by_its_cell_of_the_survey(demo):
    """Such as a changed example row: in the issued workbook another row stands there."""
    passed_over = Problem(code="EXAMPLE-CHANGED", where=CellRef("Walls", "A300"), subject="", found="", rule="", fix="")
    of_job = replace(passed_over, where=CellRef("Job", "B5"))
    places = _issued_places(demo.rows)
    assert [_place(problem, places) for problem in (passed_over, of_job)] == ["Walls!A300 of the survey", "Job!B5"]
