"""addin.caches: results beside formulas, read back by openpyxl and by a spreadsheet engine."""

import io
import re
import time
import zipfile
from datetime import UTC, date, datetime

import et_xmlfile
import ironcalc
import openpyxl
import pytest
from openpyxl.cell import _writer as cell_writer
from openpyxl.comments import Comment
from openpyxl.styles import Font
from openpyxl.worksheet.table import Table

from addin.caches import CannotCache, XlError, inject

STAMP = datetime(2026, 1, 31, 12, 30, 4)
BILL = "Bill & 'sum' <1>"
RESULTS = {
    (BILL, "B1"): 5.5,
    (BILL, "B2"): 12,
    (BILL, "B3"): "a<b & c>d",
    (BILL, "B4"): True,
    (BILL, "B5"): XlError("#N/A"),
    (BILL, "B6"): date(2026, 3, 1),
    (BILL, "B7"): "#N/A",
    (BILL, "B8"): "",
    (BILL, "B9"): " bell\x07 _x0041_ ₹ ",
    (BILL, "B10"): 1e21,
    (BILL, "B11"): datetime(2026, 3, 1, 6, 0),
    (BILL, "B12"): 7.0,
    ("Plain", "A2"): -0.1,
}


def book_bytes() -> bytes:
    """A book with a formula for each kind of result, a comment, a table, and styled empty cells."""
    book = openpyxl.Workbook()
    bill = book.active
    bill.title = BILL
    for row, formula in enumerate(
        ["=2+3.5", "=3*4", '="a<b & c>d"', "=1<2", "=NA()", "=DATE(2026,3,1)", '="#N/A"', '=""', '=" bell"', "=1E+21",
         "=DATE(2026,3,1)+0.25", "=IF(C1=\"\",7,C1)"],
        start=1,
    ):  # fmt: skip
        bill.cell(row, 2, formula)
    bill["B1"].font = bill["C1"].font = Font(bold=True)
    bill["B6"].number_format = bill["B11"].number_format = "yyyy-mm-dd"
    bill["A1"] = '<c r="B1"><f>9</f><v></v></c>'
    bill["A1"].comment = Comment("seen on site", "survey")
    plain = book.create_sheet("Plain")
    plain["A1"], plain["A2"] = "Amount", "=-0.1"
    plain.add_table(Table(displayName="amounts", ref="A1:A2"))
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


@pytest.fixture
def cached() -> bytes:
    return inject(book_bytes(), RESULTS, modified=STAMP)


def test_every_kind_of_result_is_read_back(cached):
    sheet = openpyxl.load_workbook(io.BytesIO(cached), data_only=True)[BILL]
    assert [sheet.cell(row, 2).value for row in range(1, 6)] == [5.5, 12, "a<b & c>d", True, "#N/A"]
    assert sheet["B5"].data_type == "e"
    assert sheet["B6"].value == datetime(2026, 3, 1)
    assert (sheet["B7"].value, sheet["B7"].data_type) == ("#N/A", "s")
    assert sheet["B10"].value == 1e21
    assert sheet["B11"].value == datetime(2026, 3, 1, 6, 0)
    assert sheet["B1"].font.bold


def test_formulas_texts_and_comments_stay_as_they_were(cached):
    before, after = (openpyxl.load_workbook(io.BytesIO(data)) for data in (book_bytes(), cached))
    for sheet in before:
        for row in sheet.iter_rows():
            for cell in row:
                assert after[sheet.title][cell.coordinate].value == cell.value, cell.coordinate
    assert after[BILL]["A1"].comment.text == "seen on site"


def test_control_characters_and_their_spelling_are_escaped(cached):
    part = zipfile.ZipFile(io.BytesIO(cached)).read("xl/worksheets/sheet1.xml").decode()
    assert "<v> bell_x0007_ _x005F_x0041_ ₹ </v>" in part


def test_an_engine_shows_the_results_and_computes_the_same(tmp_path, cached):
    path = tmp_path / "cached.xlsx"
    path.write_bytes(cached)
    shown = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
    before = {row: shown.get_cell_value(0, row, 2) for row in (1, 2, 3, 4, 5, 6, 12)}
    assert before == {1: 5.5, 2: 12.0, 3: "a<b & c>d", 4: True, 5: "#N/A", 6: 46082.0, 12: 7.0}
    shown.evaluate()
    assert {row: shown.get_cell_value(0, row, 2) for row in before} == before


def test_a_styled_empty_cell_is_a_blank_for_an_engine_and_not_a_zero(tmp_path, cached):
    path = tmp_path / "cached.xlsx"
    path.write_bytes(cached)
    engine = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
    engine.evaluate()
    assert engine.get_cell_value(0, 12, 2) == 7.0  # =IF(C1="",7,C1), C1 styled and empty


def test_results_shown_are_ours_until_the_engine_computes(tmp_path):
    path = tmp_path / "cached.xlsx"
    path.write_bytes(inject(book_bytes(), RESULTS | {(BILL, "B2"): 999}, modified=STAMP))
    engine = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
    assert engine.get_cell_value(0, 2, 2) == 999
    engine.evaluate()
    assert engine.get_cell_value(0, 2, 2) == 12


def test_two_runs_at_two_times_give_the_same_bytes(cached):
    time.sleep(2.1)  # zip dates have steps of two seconds
    again = inject(book_bytes(), RESULTS, modified=STAMP)
    assert again == cached


def test_dates_are_those_given(cached):
    package = zipfile.ZipFile(io.BytesIO(cached))
    assert {info.date_time for info in package.infolist()} == {(2026, 1, 31, 12, 30, 4)}
    stamps = re.findall(r"<dcterms:\w+[^>]*>([^<]*)<", package.read("docProps/core.xml").decode())
    assert stamps == ["2026-01-31T12:30:04Z"] * 2


def test_a_date_in_another_time_zone_is_turned_to_utc():
    moment = datetime(2026, 1, 31, 12, 30, 4, tzinfo=UTC).astimezone()
    assert inject(book_bytes(), RESULTS, modified=moment) == inject(book_bytes(), RESULTS, modified=STAMP)


def test_a_second_injection_changes_nothing(cached):
    assert inject(cached, RESULTS, modified=STAMP) == cached


def test_both_writers_of_openpyxl_are_understood(monkeypatch, cached):
    monkeypatch.setattr("openpyxl.worksheet._writer.write_cell", cell_writer.etree_write_cell)
    monkeypatch.setattr("openpyxl.worksheet._writer.xmlfile", et_xmlfile.xmlfile)
    other = book_bytes()
    assert b"<v />" in zipfile.ZipFile(io.BytesIO(other)).read("xl/worksheets/sheet1.xml")
    sheets = [
        openpyxl.load_workbook(io.BytesIO(data), data_only=True)[BILL]
        for data in (inject(other, RESULTS, modified=STAMP), cached)
    ]
    values = [[cell.value for cell in sheet["B"]] for sheet in sheets]
    assert values[0] == values[1]
    part = zipfile.ZipFile(io.BytesIO(inject(other, RESULTS, modified=STAMP))).read("xl/worksheets/sheet1.xml")
    assert b't="n"' not in part


def test_formulas_without_a_result_are_all_named():
    known = {where: value for where, value in RESULTS.items() if where[1] not in ("B2", "A2")}
    with pytest.raises(CannotCache, match=r"2 formulas have no result: .*!B2, Plain!A2"):
        inject(book_bytes(), known, modified=STAMP)


@pytest.mark.parametrize(
    ("value", "reason"),
    [
        (float("nan"), "not a number a cell can hold"),
        (float("inf"), "not a number a cell can hold"),
        ("x" * 32_768, "does not fit"),
        (XlError("#OOPS"), "not an error a spreadsheet knows"),
        (date(1900, 1, 1), "before March 1900"),
        (datetime(2026, 1, 1, tzinfo=UTC), "has a time zone"),
        ("\ud800", "surrogates"),
    ],
)
def test_a_result_no_cell_can_hold_is_refused_with_its_cell(value, reason):
    with pytest.raises(CannotCache, match=f"B1: .*{reason}"):
        inject(book_bytes(), RESULTS | {(BILL, "B1"): value}, modified=STAMP)


def test_a_file_of_another_writer_is_refused():
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(book_bytes())) as source, zipfile.ZipFile(out, "w") as target:
        for name in source.namelist():
            target.writestr(name, source.read(name).replace(b'<c r="B1"', b'<c  r="B1"'))
    with pytest.raises(CannotCache, match="not written as openpyxl"):
        inject(out.getvalue(), RESULTS, modified=STAMP)


def test_a_book_that_counts_from_1904_is_refused():
    book = openpyxl.Workbook()
    book.epoch = openpyxl.utils.datetime.CALENDAR_MAC_1904
    out = io.BytesIO()
    book.save(out)
    with pytest.raises(CannotCache, match="1904"):
        inject(out.getvalue(), {}, modified=STAMP)
