"""A survey that stays where it is: rows with gaps and examples between them, and the few cells that have to change."""

from datetime import date
from pathlib import Path

import pytest
from openpyxl import load_workbook

from addin.demo import demo_job, demo_rows
from addin.door import FileDoor
from addin.estimating import Worked, issue_of, made_of, work
from addin.files import CannotWrite
from addin.result_json import result
from addin.survey_book import survey_bytes
from tests.issued import Engine, IssuedBook, differences

DAY = date(2026, 1, 31)


class Kept(FileDoor):
    """A file whose survey stays as it is."""

    keeps_rows = True


@pytest.fixture(scope="module")
def gapped(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo survey as an estimator fills it in: under the grey examples, rows left out here and there."""
    path = tmp_path_factory.mktemp("kept") / "survey.xlsx"
    path.write_bytes(survey_bytes(demo_rows(), demo_job(), examples=True))
    book = load_workbook(path)
    for title, row in (("Walls", 8), ("Walls", 12), ("Grid", 7), ("Rooms", 6), ("Rates", 20), ("Materials", 9)):
        book[title].insert_rows(row, 2)
    book.save(path)
    return path


@pytest.fixture(scope="module")
def kept(gapped: Path) -> Worked:
    """The gapped survey worked through where it stands."""
    return work(Kept(gapped))


@pytest.fixture(scope="module")
def issued_kept(kept: Worked, tmp_path_factory: pytest.TempPathFactory) -> IssuedBook:
    """Its estimate."""
    path = tmp_path_factory.mktemp("kept") / "estimate.xlsx"
    path.write_bytes(issue_of(kept, DAY))
    return IssuedBook(path)


def test_gaps_make_no_difference_to_the_result(kept, demo):
    found, plain = result(kept), result(demo)
    places = ("holds", "warnings")  # these name the cells, and the cells stand elsewhere
    assert {key: found[key] for key in found if key not in places} == {k: plain[k] for k in plain if k not in places}
    assert [hold["found"] for hold in found["holds"]] == [hold["found"] for hold in plain["holds"]]


def test_every_row_of_the_estimate_stands_where_the_survey_has_it(issued_kept, gapped):
    survey = load_workbook(gapped)
    for title in ("Walls", "Grid", "Rooms", "Rates", "Materials"):
        names = [[sheet[title].cell(row, 1).value for row in range(4, 60)] for sheet in (survey, issued_kept.book)]
        assert [None if name and name.startswith("e.g.") else name for name in names[0]] == names[1], title


def test_formulas_across_the_gaps_agree_with_ironcalc(issued_kept):
    assert differences(issued_kept, Engine(issued_kept).at) == []


def test_a_changed_entry_below_a_gap_changes_the_price(issued_kept):
    engine = Engine(issued_kept)
    before = engine.named("bill_total")
    rates = issued_kept.book["Rates"]
    last = max(row for row in range(4, 200) if isinstance(rates.cell(row, 4).value, (int, float)))
    engine.change(("Rates", f"D{last}"), rates.cell(last, 4).value * 2)
    assert engine.named("bill_total") > before


def test_a_row_added_in_a_gap_is_noticed(issued_kept):
    engine = Engine(issued_kept)
    assert engine.named("plan_changed") == 0
    engine.change(("Walls", "A8"), "W99")
    assert engine.named("plan_changed") > 0


def test_only_cells_that_a_formula_could_not_use_are_mended(kept):
    typed = {
        f"{entry.where}" for rows in kept.rows.tables.values() for row in rows for entry in row.entries.values()
        if entry.typed
    }  # fmt: skip
    grafts = {f"{title}!{cell}" for title, cells in made_of(kept, DAY).grafts.items() for cell in cells}
    assert typed
    assert {cell for cell in grafts if not cell.startswith("Job!")} == typed


def test_an_estimate_fed_back_in_needs_no_cell_mended(issued_kept):
    grafts = made_of(work(Kept(issued_kept.path)), DAY).grafts
    assert set(grafts) == {"Job"}
    assert all(cell[0] in "FG" for cell in grafts["Job"])


@pytest.mark.parametrize("change", ["column", "title row", "per cent", "line"])
def test_a_survey_out_of_order_is_refused_in_one_sentence(gapped, tmp_path, change):
    book = load_workbook(gapped)
    if change == "column":
        book["Walls"].insert_cols(2)
    elif change == "title row":
        book["Rooms"].insert_rows(1)
    elif change == "line":
        book["Job"].insert_rows(9)
    else:
        cell = next(row[1] for row in book["Job"].iter_rows() if row[0].value == "Overheads")
        cell.value, cell.number_format = 0.12, "0%"
    path = tmp_path / "moved.xlsx"
    book.save(path)
    with pytest.raises(CannotWrite) as refused:
        made_of(work(Kept(path)), DAY)
    assert "\n" not in str(refused.value)
    assert "the estimate command" in str(refused.value) or "plain number format" in str(refused.value)
