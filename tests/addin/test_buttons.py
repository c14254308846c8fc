"""The buttons, pressed through the real xlwings API on an engine over openpyxl, plain and hostile."""

import io
from datetime import date
from pathlib import Path

import pytest
import xlwings as xw
from openpyxl import load_workbook

from addin import worksheet
from addin.door import FileDoor
from addin.estimating import OURS, work
from addin.excel import buttons
from addin.last_issue import items_then
from addin.result_json import result
from addin.sheets import FINDINGS_SHEET
from tests.issued import Engine, IssuedBook
from tests.xlwings_engine import installed


@pytest.fixture(params=[False, True], ids=["plain", "hostile"], autouse=True)
def app(request):
    with installed(hostile=request.param) as running:
        yield running


@pytest.fixture
def house(demo_survey, tmp_path) -> Path:
    """The demo survey in a folder of its own, with a sheet of the user's that looks at our price."""
    path = tmp_path / "house.xlsx"
    book = load_workbook(demo_survey)
    mine = book.create_sheet("Mine")
    mine["A1"], mine["B1"] = "twice the price", "=2*bill_total"
    book.save(path)
    return path


def opened(path: Path) -> xw.Book:
    return xw.Book(str(path))


def shown(book: xw.Book) -> list[list[object]]:
    """What stands on the sheet of findings."""
    rows: list[list[object]] = book.sheets[FINDINGS_SHEET].used_range.options(ndim=2).value
    return rows


def spoiled(path: Path, sheet: str, cell: str, value: object) -> None:
    book = load_workbook(path)
    book[sheet][cell] = value
    book.save(path)


def test_check_lists_every_fault_with_its_cell(house, app):
    spoiled(house, "Walls", "E5", 9)
    spoiled(house, "Walls", "F6", "tall")
    book = opened(house)
    assert buttons.check_survey(book).startswith("2 faults to mend first")
    rows = shown(book)
    assert rows[0][0] == "Findings of plinthbook: 2 faults to mend, 0 doubtful entries"
    assert [row[1] for row in rows[3:]] == ["Walls!E5", "Walls!F6"]
    assert app.said == ["2 faults to mend first; they are listed on the sheet Findings. Nothing was changed."]


def test_check_of_a_clean_survey_says_so_without_a_message_box(house, app):
    book = opened(house)
    assert buttons.check_survey(book) == ""
    assert shown(book)[0][0] == "Findings of plinthbook: 0 faults to mend, 0 doubtful entries"
    assert app.said == []


def test_estimate_here_puts_every_sheet_of_ours_into_the_file_and_keeps_the_users(house):
    before = house.read_bytes()
    said = buttons.estimate_here(opened(house))
    assert said.startswith("Entries with a unit of their own are numbers now: ")
    book = load_workbook(house)
    assert set(OURS) <= set(book.sheetnames)
    assert book["Mine"]["B1"].value == "=2*bill_total"
    kept = [path for path in house.parent.iterdir() if path != house]
    assert len(kept) == 1
    assert "house before" in kept[0].name
    # The open workbook was saved first, by openpyxl: what is kept is that file, cell by cell the one before.
    assert load_workbook(kept[0])["Walls"]["E5"].value == load_workbook(io.BytesIO(before))["Walls"]["E5"].value


def test_the_same_estimate_comes_out_as_of_the_file(house, demo):
    buttons.estimate_here(opened(house))
    assert result(work(FileDoor(house)))["bill"] == result(demo)["bill"]
    assert Engine(IssuedBook(house)).named("bill_total") == result(demo)["bill"]["total"]
    assert IssuedBook(house).cached["Mine"]["B1"].value == 2 * result(demo)["bill"]["total"]


def test_entries_that_were_not_saved_yet_count(house, demo):
    book = opened(house)
    rate = book.sheets["Rates"]["D4"]
    rate.value = rate.options(numbers=float).value and 2 * float(rate.value)
    buttons.estimate_here(book)
    assert result(work(FileDoor(house)))["bill"]["total"] > result(demo)["bill"]["total"]


def test_the_workbook_is_open_again_afterwards_on_the_sheet_it_was_on(house, app):
    book = opened(house)
    book.sheets["Mine"].activate()
    buttons.estimate_here(book)
    assert [open_book.name for open_book in app.books] == ["house.xlsx"]
    assert xw.Book("house.xlsx").sheets.active.name == "Mine"
    assert "Offer" in [sheet.name for sheet in xw.Book("house.xlsx").sheets]


def test_faults_leave_the_file_and_the_open_workbook_as_they_were(house, app):
    spoiled(house, "Walls", "E5", 9)
    before = house.read_bytes()
    assert "Nothing was changed" in buttons.estimate_here(opened(house))
    assert house.read_bytes() == before
    assert [open_book.name for open_book in app.books] == ["house.xlsx"]


def test_a_refusal_while_putting_opens_the_workbook_again_as_it_was(house, app, monkeypatch):
    def refuse(*_args: object, **_more: object) -> None:
        raise buttons.CannotWrite("The disk is full.")

    book = opened(house)
    monkeypatch.setattr("addin.refresh.door.refresh_file", refuse)
    assert buttons.estimate_here(book) == "The disk is full."
    assert [open_book.name for open_book in app.books] == ["house.xlsx"]
    assert "Offer" not in load_workbook(house).sheetnames
    assert app.said == ["The disk is full."]


def test_an_error_nobody_foresaw_is_one_sentence_and_is_kept(house, app, monkeypatch):
    def fail(*_: object) -> None:
        raise RuntimeError("out of joint")

    worksheet.went_wrong.clear()
    monkeypatch.setattr(buttons, "made_of", fail)
    before = house.read_bytes()
    said = buttons.estimate_here(opened(house))
    assert "did not foresee" in said
    assert "\n" not in said
    assert house.read_bytes() == before
    assert worksheet.went_wrong[-1].reason == "RuntimeError: out of joint"
    assert app.said == [said]


def test_the_copy_for_the_owner_stands_beside_and_is_whole(house, demo):
    said = buttons.owner_copy(opened(house))
    copy = house.with_name(f"house for the owner {date.today().isoformat()}.xlsx")
    assert str(copy) in said
    assert result(work(FileDoor(copy)))["bill"] == result(demo)["bill"]
    assert "Mine" not in load_workbook(copy).sheetnames


def test_a_second_copy_gets_a_name_of_its_own(house):
    first, second = buttons.owner_copy(opened(house)), buttons.owner_copy(opened(house))
    assert first != second
    assert second.endswith("2.xlsx.")


def test_compare_shows_the_items_whose_rate_was_changed(house, demo):
    buttons.estimate_here(opened(house))
    code = str(demo.found.bill[0].code)
    rates = load_workbook(house)["Rates"]
    row = next(r for r in range(4, 90) if rates.cell(r, 1).value == code)
    old = rates.cell(row, 4).value
    book = xw.Book("house.xlsx")
    book.sheets["Rates"].range((row, 4)).value = old + 100
    assert buttons.compare_issue(book) == ""
    rows = shown(book)
    assert "1 items of the bill have changed" in rows[0][0]
    assert rows[3][0] == code
    assert (float(rows[3][5]), float(rows[3][6])) == (old, old + 100)
    assert float(rows[3][9]) == pytest.approx(100 * float(demo.found.bill[0].quantity), abs=1)


def test_compare_without_an_earlier_issue_says_what_to_do(house):
    assert "Press Estimate here first" in buttons.compare_issue(opened(house))


def test_the_bill_of_the_last_issue_is_read_back_whole(house, demo):
    buttons.estimate_here(opened(house))
    then = items_then(FileDoor(house).sheets())
    assert [item.code for item in then] == [str(item.code) for item in demo.found.bill]
    for old, item in zip(then, demo.found.bill, strict=True):
        # A file keeps fifteen digits of a number.
        assert (old.quantity, old.rate, old.amount) == pytest.approx((item.quantity, item.rate, item.amount), rel=1e-14)


def test_what_went_wrong_shows_the_latest_first(house):
    worksheet.went_wrong.clear()
    worksheet.went_wrong.extend(
        [worksheet.Reason("PLINTH_A", "load_kN", "it is blank"), worksheet.Reason("PLINTH_B", "", "=2 is no number")]
    )
    book = opened(house)
    buttons.went_wrong(book)
    assert [row[:3] for row in shown(book)[3:]] == [
        ["PLINTH_B", None, "=2 is no number"], ["PLINTH_A", "load_kN", "it is blank"],
    ]  # fmt: skip


def test_the_self_test_passes_here_and_says_the_versions(house):
    book = opened(house)
    buttons.about(book)
    rows = shown(book)
    assert "0 of 8 failed" in rows[0][0]
    assert {row[1] for row in rows[3:]} == {"PASS"}
    assert any(xw.__version__ in str(row[2]) for row in rows[3:])


def test_the_self_test_fails_where_a_function_gives_another_figure(house, monkeypatch):
    monkeypatch.setattr("addin.excel.self_test.worksheet", lambda *_: 0.8)
    book = opened(house)
    buttons.about(book)
    failed = [row for row in shown(book)[3:] if row[1] == "FAIL"]
    assert [row[2] for row in failed] == ["0.8 in place of 0.75", "'0.8' in place of '#N/A'"]


@pytest.mark.parametrize(
    "press",
    [buttons.check_survey, buttons.estimate_here, buttons.owner_copy, buttons.compare_issue, buttons.went_wrong,
     buttons.about],
)  # fmt: skip
def test_a_workbook_that_is_no_survey_gets_an_answer_from_every_button(press, app):
    said = press(xw.Book(impl=app.books.add()))
    assert "\n" not in said
    assert "did not foresee" not in said


def test_pressed_from_the_ribbon_a_button_finds_its_workbook(house):
    book = opened(house)
    book.set_mock_caller()
    assert buttons.check_survey() == ""
    assert shown(book)[0][0].startswith("Findings")
