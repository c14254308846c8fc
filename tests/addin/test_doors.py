"""The three ways to a workbook compared: a file, an open workbook, a file of the user's changed in place."""

from datetime import date, datetime
from pathlib import Path

import pytest
import xlwings as xw
from openpyxl import load_workbook

from addin.demo import demo_job, demo_rows
from addin.door import HEAD_ROWS, Door, FileDoor
from addin.estimating import OURS, made_of, work
from addin.excel.open_book import OpenDoor
from addin.refresh.door import InPlaceDoor
from addin.result_json import result
from addin.survey_book import survey_bytes
from tests.issued import Engine, IssuedBook, differences, same_value
from tests.user_books import parts, rewritten, sheet_parts
from tests.xlwings_engine import installed

DAY, NOW = date(2026, 1, 31), datetime(2026, 1, 31, 14, 12)
WHERE_IT_STANDS = ("At issue", "Basis", "Contents")
"""Sheets that name cells of the survey, which stand elsewhere where a survey was written afresh."""


@pytest.fixture(scope="module")
def survey(tmp_path_factory) -> Path:
    """The demo survey under its grey examples, with an empty row, a typed unit and a sheet of the user's."""
    path = tmp_path_factory.mktemp("doors") / "house.xlsx"
    path.write_bytes(survey_bytes(demo_rows(), demo_job(), examples=True))
    book = load_workbook(path)
    book["Walls"].insert_rows(9)
    book["Walls"]["E5"] = "9 in"
    book.create_sheet("Mine")["A1"] = "=bill_total/1000"
    book.save(path)
    return path


@pytest.fixture(scope="module")
def ways(survey, tmp_path_factory) -> dict[str, tuple[dict[str, object], IssuedBook]]:
    """Way -> the result, and the workbook with the estimate."""
    found = {}
    with installed(hostile=True):
        for way in ("file", "open", "in place"):
            path = tmp_path_factory.mktemp(way) / "house.xlsx"
            path.write_bytes(survey.read_bytes())
            out = path.with_name("house estimate.xlsx") if way == "file" else path
            door: Door = {
                "file": lambda path=path, out=out: FileDoor(path, out),
                "open": lambda path=path: OpenDoor(xw.Book(str(path)), lambda p, made: InPlaceDoor(p, NOW).put(made)),
                "in place": lambda path=path: InPlaceDoor(path, NOW),
            }[way]()
            worked = work(door)
            door.put(made_of(worked, DAY))
            found[way] = (result(worked), IssuedBook(out))
    return found


@pytest.mark.parametrize("way", ["open", "in place"])
def test_every_figure_of_the_result_is_the_same(ways, way):
    file, other = ways["file"][0], ways[way][0]
    assert other == file


@pytest.mark.parametrize("way", ["open", "in place"])
def test_every_result_sheet_shows_the_same(ways, way):
    one, other = ways["file"][1].cached, ways[way][1].cached
    for title in OURS:
        if title in WHERE_IT_STANDS:
            continue
        cells = [[cell.value for row in book[title].iter_rows() for cell in row] for book in (one, other)]
        assert len(cells[0]) == len(cells[1]), title
        assert [pair for pair in zip(*cells, strict=True) if not same_value(*pair)] == [], title


def test_into_an_open_workbook_and_into_its_file_the_formulas_are_the_same(ways):
    assert dict(ways["open"][1].formulas()) == dict(ways["in place"][1].formulas())


@pytest.mark.parametrize("way", ["file", "open", "in place"])
def test_every_formula_agrees_with_ironcalc(ways, way):
    book = ways[way][1]
    assert differences(book, Engine(book).at) == []


@pytest.mark.parametrize("way", ["open", "in place"])
def test_the_users_sheet_has_a_fresh_result_and_the_typed_unit_is_a_number(ways, way):
    data, book = ways[way]
    assert book.cached["Mine"]["A1"].value == pytest.approx(data["bill"]["total"] / 1000)
    assert book.cached["Walls"]["E5"].value == pytest.approx(228.6)
    assert book.cached["Walls"]["A4"].value.startswith("e.g.")
    assert book.cached["Walls"]["A9"].value is None


@pytest.mark.parametrize("way", ["file", "open", "in place"])
def test_of_a_sheet_of_the_users_own_the_first_rows_are_read(survey, tmp_path, way):
    path = tmp_path / "house.xlsx"
    book = load_workbook(survey)
    for row in range(1, 60):
        book["Mine"].cell(row, 3).value = row
    book.save(path)
    with installed():
        door: Door = {
            "file": lambda: FileDoor(path),
            "open": lambda: OpenDoor(xw.Book(str(path)), lambda *_: None),
            "in place": lambda: InPlaceDoor(path, NOW),
        }[way]()
        cells = {sheet.title: sheet.cells for sheet in door.sheets(passed_over=["Help"], whole=["walls", "Rates"])}
    assert max(row for row, _ in cells["Mine"]) == HEAD_ROWS
    assert max(row for row, _ in cells["Rates"]) > HEAD_ROWS
    assert cells["Help"] == {}


def test_rows_written_in_an_unusual_way_are_all_read(survey, tmp_path):
    path = tmp_path / "house.xlsx"
    book = load_workbook(survey)
    for row in range(1, 60):
        book["Mine"].cell(row, 3).value = row
    book.save(path)
    content = path.read_bytes()
    part = sheet_parts(content)["Mine"]
    path.write_bytes(rewritten(content, {part: parts(content)[part].replace(b'<row r="', b'<row\n r = "')}))
    mine = next(sheet.cells for sheet in FileDoor(path).sheets(whole=["Walls"]) if sheet.title == "Mine")
    assert max(row for row, _ in mine) == 59
