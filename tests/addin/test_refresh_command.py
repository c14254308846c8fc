"""`plinthbook refresh` as a user runs it: what it prints, what it leaves, what it refuses."""

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner
from openpyxl import load_workbook
from openpyxl.comments import Comment
from openpyxl.workbook.defined_name import DefinedName

from addin.cli import main
from addin.layout import FIRST_ROW, JOB
from tests import user_books
from tests.issued import Engine, IssuedBook, differences
from tests.user_books import parts, sheet_parts


def run(*words: object):
    return CliRunner().invoke(main, [str(word) for word in words])


def edited(path: Path, *entries: tuple[str, str, object]) -> None:
    """Type into a workbook, as a program does that drops cached results: every one of ours is made anew anyway."""
    book = load_workbook(path)
    for sheet, cell, value in entries:
        book[sheet][cell] = value
    book.save(path)


@pytest.fixture
def house(demo_survey, tmp_path) -> Path:
    """The demo survey with a sheet, a note and a name of the user's."""
    path = tmp_path / "house.xlsx"
    book = load_workbook(demo_survey)
    mine = book.create_sheet("Mine", 0)
    mine["A1"], mine["B1"] = "a thousandth", "=bill_total/1000"
    book["Walls"]["E5"].comment = Comment("measured twice", "me")
    book.save(path)
    return path


def test_it_prints_the_ten_lines_and_where_the_earlier_file_is(house):
    before = house.read_bytes()
    done = run("refresh", house)
    assert done.exit_code == 0
    lines = done.output.splitlines()
    assert [line.split(":")[0] for line in lines] == [
        "Rise", "Weight", "Greatest load", "Jacks", "Price", "Per floor area", "Doubtful entries", "Checks", "Grade",
        "Workbook", "Earlier file", "Rewritten",
    ]  # fmt: skip
    kept = Path(lines[-2].partition(":")[2].strip())
    assert kept.name.startswith("house before ")
    assert kept.read_bytes() == before


def test_entries_with_a_unit_are_listed_with_what_they_became(house):
    done = run("refresh", house, "--json", house.with_name("r.json"))
    data = json.loads(house.with_name("r.json").read_text("utf-8"))
    assert "Walls!E14: 9 in, now 228.6" in data["refresh"]["rewritten"]
    assert f"{len(data['refresh']['rewritten'])} entries, as the plain values they stand for" in done.output
    assert run("refresh", house, "--json", house.with_name("r.json")).exit_code == 0
    assert json.loads(house.with_name("r.json").read_text("utf-8"))["refresh"]["rewritten"] == []


def test_a_formula_of_the_users_that_gives_text_is_never_written_over(house):
    run("refresh", house)
    content = house.read_bytes()
    part = sheet_parts(content)["Walls"]
    cell = re.search(rb'<c r="E5"( s="\d+")?[^>]*>.*?</c>', parts(content)[part])
    formula = b'<c r="E5"%s t="str"><f>9&amp;" in"</f><v>9 in</v></c>' % (cell[1] or b"")
    house.write_bytes(user_books.edited(content, part, cell[0], formula))
    before = house.read_bytes()
    done = run("refresh", house)
    assert done.exit_code == 2
    assert "Walls!E5 (Thickness) is a formula that gives '9 in'" in done.output
    assert house.read_bytes() == before


def test_an_entry_that_looks_at_results_is_told_when_it_has_followed_them(house):
    run("refresh", house)
    content = house.read_bytes()
    job = sheet_parts(content)["Job"]
    row = next(r for r, column in enumerate(JOB, start=FIRST_ROW) if column.key == "services")
    cell = re.search(rb'<c r="B%d"( s="\d+")?[^>]*>.*?</c>' % row, parts(content)[job])
    # 73 jacks at the issue; a narrower spacing makes them more, and the entry is read before that is known.
    formula = b'<c r="B%d"%s><f>ROUND(jack_count/10,0)</f><v>7</v></c>' % (row, cell[1] or b"")
    content = user_books.edited(content, job, cell[0], formula)
    spacing = next(r for r, column in enumerate(JOB, start=FIRST_ROW) if column.key == "widest_spacing")
    narrow = re.search(rb'<c r="B%d"( s="\d+")?[^>]*?(/>|>.*?</c>)' % spacing, parts(content)[job])
    typed = b'<c r="B%d"%s><v>0.6</v></c>' % (spacing, narrow[1] or b"")
    house.write_bytes(user_books.edited(content, job, narrow[0], typed))
    said = run("refresh", house).output
    told = rf"Refresh again:    1 entries look at results and have followed them: Job!B{row}: 7, now (\d+)"
    now = re.search(told, said)
    assert now
    assert int(now[1]) > 7


def test_what_the_user_put_there_is_there_and_sees_the_new_price(house, demo):
    run("refresh", house)
    book = IssuedBook(house)
    assert book.book.sheetnames[0] == "Mine"
    assert book.book["Walls"]["E5"].comment.text == "measured twice"
    assert book.cached["Mine"]["B1"].value == pytest.approx(demo.found.totals.total / 1000)
    assert differences(book, Engine(book).at) == []


def test_a_second_time_nothing_is_written(house):
    run("refresh", house)
    before = {path: path.read_bytes() for path in house.parent.iterdir()}
    done = run("refresh", house)
    assert done.output.splitlines()[-1] == "Refresh:          nothing had changed, and nothing was written"
    assert {path: path.read_bytes() for path in house.parent.iterdir()} == before


def test_an_override_survives_and_its_effect_is_told(house, demo):
    run("refresh", house)
    row = next(r for r in range(4, 90) if load_workbook(house)["Rates"].cell(r, 1).value == "P01")
    old = load_workbook(house)["Rates"].cell(row, 4).value
    edited(house, ("Rates", f"D{row}", old + 500), ("Rates", f"E{row}", "by the new office"))
    done = run("refresh", house, "--json", house.with_name("r.json"))
    assert "Since last issue: 1 items changed, works +500.00 rupees" in done.output
    assert load_workbook(house)["Rates"].cell(row, 4).value == old + 500
    assert load_workbook(house)["Rates"].cell(row, 5).value == "by the new office"
    data = json.loads(house.with_name("r.json").read_text("utf-8"))
    assert data["refresh"]["changed"] is True
    assert [(i["code"], i["difference"]) for i in data["refresh"]["since_last_issue"]["items"]] == [("P01", 500.0)]
    assert data["bill"]["works"] == demo.found.totals.works + 500


def test_the_next_issue_starts_from_the_new_figures(house):
    run("refresh", house)
    edited(house, ("Mine", "A2", "a remark"))
    assert "Since last issue: 0 items changed" in run("refresh", house).output


def test_faults_are_listed_and_the_file_is_left_alone(house):
    edited(house, ("Walls", "E5", 9))
    before = house.read_bytes()
    done = run("refresh", house)
    assert done.exit_code == 2
    assert "Walls!E5" in done.output
    assert house.read_bytes() == before
    assert list(house.parent.iterdir()) == [house]


def _moved(book):
    book["Walls"].insert_cols(3)


def _taken_title(book):
    book.create_sheet("Offer")


def _taken_name(book):
    book.create_sheet("Offers made")["A1"] = "=1"
    book.defined_names["bill_total"] = DefinedName("bill_total", attr_text="'Offers made'!$A$1")


def _locked(book):
    book.security.lockStructure = True


@pytest.mark.parametrize(
    ("change", "said"),
    [(_moved, "should hold"), (_taken_title, "was not made by plinthbook"), (_taken_name, "bill_total"),
     (_locked, "structure of the workbook is protected")],
)  # fmt: skip
def test_what_would_be_lost_is_refused_in_one_line(house, change, said):
    book = load_workbook(house)
    change(book)
    book.save(house)
    before = house.read_bytes()
    done = run("refresh", house)
    assert done.exit_code == 2
    assert said in done.output
    assert done.output.count("\n") == 1
    assert house.read_bytes() == before
    assert list(house.parent.iterdir()) == [house]


def test_a_file_open_elsewhere_is_refused(house):
    house.with_name("~$house.xlsx").write_bytes(b"\x05Owner")
    done = run("refresh", house)
    assert done.exit_code == 2
    assert done.output.count("\n") == 1
    assert "open" in done.output


def test_a_missing_file_is_one_line(tmp_path):
    done = run("refresh", tmp_path / "none.xlsx")
    assert (done.exit_code, done.output.count("\n")) == (2, 1)


def test_the_data_is_never_written_over_the_workbook(house):
    before = house.read_bytes()
    done = run("refresh", house, "--json", house)
    assert done.exit_code == 2
    assert house.read_bytes() == before
