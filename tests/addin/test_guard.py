"""addin.guard: hostile workbooks are refused before anything loads them, honest ones pass.

Each hostile kind was first given to the reader without the guard, with 20 s and 3 GB. What hung or flooded it, or would
at a few times the size, is refused, and so is what no spreadsheet program writes; the rest is among the harmless.
"""

import io
import os
import re
import stat
import time

import openpyxl
import pytest
import xlsxwriter
from click.testing import CliRunner

from addin import guard_parts
from addin.cli import main
from addin.door import FileDoor
from addin.files import CannotRead, check_is_workbook
from addin.reader import read_survey
from tests.hostile import HARMLESS, HOSTILE, SURVEY, altered, into_sheet, links, merges, rows, strings


def at(tmp_path, data: bytes):
    path = tmp_path / "house.xlsx"
    path.write_bytes(data)
    return path


def one_sentence(path, text: str) -> bool:
    return text.startswith(str(path)) and text.endswith(".") and "\n" not in text and len(text) < len(str(path)) + 200


@pytest.mark.parametrize("name", sorted(HOSTILE))
def test_a_hostile_file_is_refused_in_one_sentence_and_at_once(tmp_path, name):
    path = at(tmp_path, HOSTILE[name].build())
    began = time.process_time()  # of this process: another one that works beside it does not count
    with pytest.raises(CannotRead, match=re.escape(HOSTILE[name].words)) as caught:
        check_is_workbook(path)
    assert time.process_time() - began < 1
    assert one_sentence(path, str(caught.value))


@pytest.mark.parametrize("command", ["check", "estimate"])
@pytest.mark.parametrize("name", sorted(HOSTILE))
def test_the_command_line_refuses_it_without_a_traceback_and_writes_nothing(tmp_path, name, command):
    path = at(tmp_path, HOSTILE[name].build())
    result = CliRunner().invoke(main, [command, str(path)])
    assert isinstance(result.exception, SystemExit)
    assert result.exit_code == 2
    assert one_sentence(path, result.output.removesuffix("\n"))
    assert [beside.name for beside in tmp_path.iterdir()] == ["house.xlsx"]


@pytest.mark.parametrize("name", sorted(HARMLESS))
def test_what_harms_nobody_passes_and_is_read_or_refused_in_a_sentence(tmp_path, name):
    path = at(tmp_path, HARMLESS[name]())
    check_is_workbook(path)
    began = time.process_time()
    try:
        assert read_survey(FileDoor(path).sheets()).job
    except CannotRead as refusal:
        assert one_sentence(path, str(refusal))  # noqa: PT017 - either is right
    assert time.process_time() - began < 20


def test_the_limits_stand_where_they_say(tmp_path):
    for passes, refused in [
        (into_sheet(merges(4, "A1:ALL200")), into_sheet(merges(6, "A1:ALL200"))),
        (into_sheet(links(4, "A1:ALL200")), into_sheet(links(6, "A1:ALL200"))),
        (
            rows(f'<row r="99"><c r="A99"><f>{"1" * 59_000}</f></c></row>'),
            rows(f'<row r="99"><c r="A99"><f>{"1" * 61_000}</f></c></row>'),
        ),
        (strings(f"<si><t>{'1' * 390_000}</t></si>"), strings(f"<si><t>{'1' * 410_000}</t></si>")),
    ]:
        check_is_workbook(at(tmp_path, passes))
        with pytest.raises(CannotRead):
            check_is_workbook(at(tmp_path, refused))


def test_merges_and_links_on_one_sheet_are_looked_up_in_each_other(tmp_path, monkeypatch):
    monkeypatch.setattr(guard_parts, "MOST_LOOKUPS", 10_000)
    check_is_workbook(at(tmp_path, into_sheet(merges(100, "A1:B1") + links(100, "A1"))))
    with pytest.raises(CannotRead, match="too many merged cells and links"):
        check_is_workbook(at(tmp_path, into_sheet(merges(100, "A1:B1") + links(101, "A1"))))


def test_a_shared_text_is_counted_as_often_as_it_is_used(tmp_path, monkeypatch):
    monkeypatch.setattr(guard_parts, "MOST_SHARED_TEXT", 5_000)
    long = f"<si><t>{'a' * 1000}</t></si><si><t>b</t></si>"
    used = '<row r="{0}"><c r="A{0}" t="s"><v>{1}</v></c></row>'
    check_is_workbook(at(tmp_path, strings(long, "".join(used.format(n, 0) for n in range(100, 104)))))
    check_is_workbook(at(tmp_path, strings(long, "".join(used.format(n, 1) for n in range(100, 190)))))
    with pytest.raises(CannotRead, match="share a text that is too long"):
        check_is_workbook(at(tmp_path, strings(long, "".join(used.format(n, 0) for n in range(100, 106)))))


# ------------------------------------------------------------------------------------------ no files


@pytest.mark.parametrize("command", ["check", "estimate"])
def test_a_folder_a_pipe_and_nothing_at_all_are_told_apart_on_the_command_line(tmp_path, command):
    os.mkfifo(tmp_path / "pipe.xlsx")
    (tmp_path / "folder.xlsx").mkdir()
    for name, words in [("pipe.xlsx", "not a regular file"), ("folder.xlsx", "is a folder"), ("no.xlsx", "not exist")]:
        result = CliRunner().invoke(main, [command, str(tmp_path / name)])
        assert result.exit_code == 2
        assert words in result.output
        assert result.output.count("\n") == 1


def test_a_device_is_never_opened(tmp_path, monkeypatch):
    path = at(tmp_path, SURVEY)
    about = path.stat()
    fields = list(about)
    fields[0] = stat.S_IFCHR | 0o666
    monkeypatch.setattr(type(path), "stat", lambda *_, **__: os.stat_result(fields))
    monkeypatch.setattr(type(path), "open", lambda *_, **__: pytest.fail("opened"))
    with pytest.raises(CannotRead, match="is not a regular file"):
        check_is_workbook(path)


# ------------------------------------------------------------------------------------------ honest files


def rich() -> bytes:
    """Everything a user of a spreadsheet program may put into a workbook, over whole columns where that can be."""
    out = io.BytesIO()
    book = xlsxwriter.Workbook(out)
    sheet = book.add_worksheet("Own")
    for row in range(200):
        sheet.write_row(row, 0, [f"wall {row}", row, row / 7])
        sheet.write_formula(row, 3, f"=B{row + 1}*2", None, row * 2)
    sheet.add_table("F1:H20", {"columns": [{"header": name} for name in ("one", "two", "three")]})
    sheet.data_validation("J1:J1048576", {"validate": "list", "source": ["yes", "no"]})
    sheet.conditional_format("A1:XFD1048576", {"type": "cell", "criteria": ">", "value": 9, "format": book.add_format({"bold": True})})  # fmt: skip  # noqa: E501
    sheet.conditional_format("B1:B1048576", {"type": "data_bar"})
    sheet.autofilter("A1:D200")
    sheet.set_column("A:XFD", 12)
    sheet.freeze_panes(1, 1)
    sheet.repeat_rows(0)
    sheet.merge_range("A210:H212", "merged")
    sheet.write_url("A215", "https://example.com", string="a link")
    sheet.write_comment("B2", "seen on site")
    sheet.write_rich_string("A216", "half ", book.add_format({"bold": True}), "bold")
    sheet.write_array_formula("A217:A219", "{=B1:B3*2}")
    sheet.insert_textbox("K2", "a box")
    sheet.set_header("&L&F&C&A&RPage &P of &N")
    sheet.protect()
    book.define_name("WholeColumn", "=Own!$A:$A")
    book.define_name("WholeRow", "=Own!$1:$1")
    chart = book.add_chart({"type": "column"})
    chart.add_series({"categories": "=Own!$A$1:$A$200", "values": "=Own!$B$1:$B$200"})
    sheet.insert_chart("K10", chart)
    line = book.add_chart({"type": "line"})
    line.add_series({"values": "=Own!$C$1:$C$200", "trendline": {"type": "linear"}})
    sheet.insert_chart("K30", line)
    sparks = book.add_worksheet("Sparks")
    sparks.add_sparkline("A1", {"range": "Own!B1:B50"})
    book.add_worksheet("Hidden").hide()
    pie = book.add_chart({"type": "pie"})
    pie.add_series({"values": "=Own!$B$1:$B$9"})
    book.add_chartsheet("Chart").set_chart(pie)
    book.set_properties({"title": "Own", "company": "-"})
    book.set_custom_property("Checked", True)
    book.close()
    return out.getvalue()


def saved_again() -> bytes:
    """The blank survey as openpyxl saves it."""
    out = io.BytesIO()
    openpyxl.load_workbook(io.BytesIO(SURVEY)).save(out)
    return out.getvalue()


@pytest.mark.parametrize("build", [rich, saved_again, lambda: SURVEY, lambda: altered({})])
def test_an_honest_workbook_passes(tmp_path, build):
    check_is_workbook(at(tmp_path, build()))


def test_the_demo_survey_and_its_estimate_pass(demo_survey, demo_issue):
    check_is_workbook(demo_survey)
    check_is_workbook(demo_issue)


def test_a_large_workbook_passes_in_about_the_time_of_a_blink(tmp_path):
    out = io.BytesIO()
    book = xlsxwriter.Workbook(out)
    for _ in range(6):
        sheet = book.add_worksheet()
        for row in range(1000):
            for column in range(10):
                number = (row * 10 + column) * 2654435761 % 4294967296
                if column % 3:
                    sheet.write_number(row, column, number / 977)
                else:
                    sheet.write_string(row, column, f"wall {number:x}")
    book.close()
    path = at(tmp_path, out.getvalue())
    began = time.process_time()
    check_is_workbook(path)
    assert time.process_time() - began < 2
