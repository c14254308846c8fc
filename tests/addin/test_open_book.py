"""An open workbook read through the real xlwings API, on an engine over openpyxl, plain and hostile."""

from datetime import date, datetime
from decimal import Decimal

import pytest
import xlwings as xw
from openpyxl import load_workbook

from addin.door import FileDoor
from addin.estimating import work
from addin.excel.findings import Findings, show
from addin.excel.open_book import OpenDoor, local_file
from addin.files import CannotWrite
from addin.guard import CannotRead
from addin.result_json import result
from addin.sheets import FINDINGS_SHEET
from tests.xlwings_engine import installed

FINDINGS = Findings(heading="two rows", columns=(("What", 20), ("Amount", 10)), rows=[("=1+1", 2.5), ("-", -3)])


def _never(*_: object) -> None:
    raise AssertionError("nothing was to be written")


@pytest.fixture(params=[False, True], ids=["plain", "hostile"], autouse=True)
def app(request):
    with installed(hostile=request.param) as running:
        yield running


@pytest.fixture
def money_survey(demo_survey, tmp_path):
    """The demo survey with its rates shown as money, one of them to five places, and one answer as an error."""
    path = tmp_path / "money.xlsx"
    book = load_workbook(demo_survey)
    for row in range(4, 60):
        book["Rates"].cell(row, 4).number_format = '[$-4009]"₹ "#,##0.00'
    book["Rates"]["D4"] = 3500.12345
    book.save(path)
    return path


def opened(path) -> OpenDoor:
    return OpenDoor(xw.Book(str(path)), _never)


def test_the_survey_sheets_come_out_cell_by_cell_as_from_the_file(demo_survey):
    files = {sheet.title: sheet.cells for sheet in FileDoor(demo_survey).sheets()}
    for sheet in opened(demo_survey).sheets():
        there = {place: raw for place, raw in files[sheet.title].items() if raw.value is not None}
        assert {place: (raw.value, raw.kind, raw.percent) for place, raw in sheet.cells.items()} == {
            place: (raw.value, raw.kind, raw.percent) for place, raw in there.items()
        }, sheet.title


def test_sheets_nobody_wants_are_not_read(demo_survey):
    door = opened(demo_survey)
    cells = {sheet.title: sheet.cells for sheet in door.sheets(passed_over=["help", "Rooms"])}
    assert (cells["Help"], cells["Rooms"]) == ({}, {})
    assert cells["Walls"]


def test_money_keeps_all_its_places(app, money_survey):
    rates = next(sheet.cells for sheet in opened(money_survey).sheets() if sheet.title == "Rates")
    assert rates[4, 4].value == 3500.12345
    if app.engine.hostile:
        assert isinstance(xw.Book(str(money_survey)).sheets["Rates"]["D4"].value, Decimal)


def test_the_same_estimate_comes_out_of_the_open_workbook_as_of_its_file(money_survey):
    assert result(work(opened(money_survey))) == result(work(FileDoor(money_survey)))


@pytest.mark.parametrize("error", ["#N/A", "#DIV/0!"])
def test_an_error_cell_is_an_error_and_never_a_blank(demo_survey, tmp_path, error):
    path = tmp_path / "error.xlsx"
    book = load_workbook(demo_survey)
    book["Walls"]["F5"] = error
    assert book["Walls"]["F5"].data_type == "e"
    book.save(path)
    walls = next(sheet.cells for sheet in opened(path).sheets() if sheet.title == "Walls")
    assert (walls[5, 6].kind, walls[5, 6].value) == ("error", error)


def test_per_cent_is_seen_in_a_column_of_mixed_formats(demo_survey, tmp_path):
    path = tmp_path / "percent.xlsx"
    book = load_workbook(demo_survey)
    row = next(row[1] for row in book["Job"].iter_rows() if row[0].value == "Overheads")
    row.value, row.number_format = 0.12, "0.0%"
    book.save(path)
    job = next(sheet.cells for sheet in opened(path).sheets() if sheet.title == "Job")
    assert [place for place, raw in job.items() if raw.percent] == [(row.row, 2)]
    assert (
        result(work(FileDoor(path)))["bill"]["total"]
        == result(work(_Free(xw.Book(str(path)), _never)))["bill"]["total"]
    )


class _Free(OpenDoor):
    keeps_rows = False


def test_dates_stay_dates(demo_survey):
    job = next(sheet.cells for sheet in opened(demo_survey).sheets() if sheet.title == "Job")
    assert any(isinstance(raw.value, (date, datetime)) for raw in job.values())


def test_a_sheet_too_large_to_read_is_refused(demo_survey, monkeypatch):
    monkeypatch.setattr("addin.excel.open_book.MOST_CELLS", 50)
    with pytest.raises(CannotRead, match="more than 50 cells"):
        opened(demo_survey).sheets()


def test_findings_are_written_as_one_block_and_texts_stay_texts(demo_survey, tmp_path):
    book = xw.Book(str(demo_survey))
    show(book, FINDINGS)
    sheet = book.sheets[FINDINGS_SHEET]
    assert sheet["A1:B5"].value == [
        ["Findings of plinthbook: two rows", None], [None, None], ["What", "Amount"], ["=1+1", 2.5], ["-", -3.0],
    ]  # fmt: skip
    book.save(str(tmp_path / "out.xlsx"))
    assert load_workbook(tmp_path / "out.xlsx")[FINDINGS_SHEET]["A4"].data_type == "s"


def test_earlier_findings_are_gone(demo_survey):
    book = xw.Book(str(demo_survey))
    show(book, Findings(heading="many", columns=(("What", 20),), rows=[("a",), ("b",), ("c",), ("d",)]))
    show(book, FINDINGS)
    assert book.sheets[FINDINGS_SHEET].used_range.shape == (5, 2)
    assert [sheet.name for sheet in book.sheets].count(FINDINGS_SHEET) == 1


def test_a_sheet_of_the_users_with_that_title_is_left_alone(demo_survey):
    book = xw.Book(str(demo_survey))
    book.sheets.add(FINDINGS_SHEET, after=book.sheets[-1])["A1"].value = "mine"
    with pytest.raises(CannotWrite, match="is not plinthbook's"):
        show(book, FINDINGS)
    assert book.sheets[FINDINGS_SHEET].used_range.value == "mine"


def test_a_workbook_without_a_file_is_refused(app):
    with pytest.raises(CannotWrite, match="never been saved"):
        local_file(xw.Book(impl=app.books.add()))


def test_a_workbook_on_a_server_is_refused(demo_survey):
    book = xw.Book(str(demo_survey))
    book.impl.fullname = "https://example.invalid/house.xlsx"
    with pytest.raises(CannotWrite, match="kept on a server"):
        local_file(book)
