"""The command line: exit status, what is printed, what is written, and what is left alone."""

import json
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner
from openpyxl import load_workbook

from addin.cli import main
from addin.demo import demo_job, demo_rows
from addin.excel.places import this_machine
from addin.excel.setup_cli import Setting
from addin.survey_book import survey_bytes


def run(*words: object):
    return CliRunner().invoke(main, [str(word) for word in words])


def changed(path: Path, job=None, **tables) -> Path:
    """The demo survey with some entries changed."""
    rows = demo_rows()
    for title, edit in tables.items():
        edit(rows[title])
    path.write_bytes(survey_bytes(rows, {**demo_job(), **(job or {})}, examples=False))
    return path


def test_demo_writes_survey_and_estimate_and_prints_ten_lines(tmp_path):
    out = tmp_path / "house.xlsx"
    done = run("demo", "-o", out)
    assert done.exit_code == 0
    labels = [line.split(":")[0] for line in done.output.splitlines()]
    assert labels == ["Survey of the demo house", "Rise", "Weight", "Greatest load", "Jacks", "Price", "Per floor area",
                      "Doubtful entries", "Checks", "Grade", "Workbook"]  # fmt: skip
    assert {path.name for path in tmp_path.iterdir()} == {"house.xlsx", "house-survey.xlsx"}


def test_the_grade_is_budget_and_says_what_is_missing(tmp_path):
    done = run("demo", "-o", tmp_path / "house.xlsx")
    assert "budget, not for lifting; missing: Bearing pressure from a test" in done.output


def test_estimate_writes_beside_the_survey_and_the_same_figures_as_data(tmp_path):
    survey = changed(tmp_path / "mill.xlsx")
    done = run("estimate", survey, "--json", tmp_path / "mill.json")
    assert done.exit_code == 0
    data = json.loads((tmp_path / "mill.json").read_text("utf-8"))
    book = load_workbook(tmp_path / "mill estimate.xlsx", data_only=True)
    sheet, cell = book.defined_names["bill_total"].attr_text.split("!")
    assert book[sheet.strip("'")][cell.replace("$", "")].value == data["bill"]["total"]
    assert set(data) >= {
        "job",
        "levels",
        "loads",
        "jacks",
        "bases",
        "ground",
        "release",
        "quantities",
        "bill",
        "checks",
        "faults",
        "warnings",
    }
    assert data["loads"]["balance_error"] == pytest.approx(0, abs=1e-6)


def test_a_check_that_says_stop_gives_status_1_and_the_workbook_all_the_same(tmp_path):
    survey = changed(tmp_path / "soft.xlsx", job={"bearing": 40})
    done = run("estimate", survey)
    assert done.exit_code == 1
    assert "say STOP: pressure under the footing" in done.output
    assert (tmp_path / "soft estimate.xlsx").exists()


def test_faults_are_listed_together_with_their_cells_and_nothing_is_written(tmp_path):
    def spoil(rows):
        rows[0]["thickness"] = 9
        rows[1]["height"] = "tall"

    survey = changed(tmp_path / "bad.xlsx", Walls=spoil)
    done = run("estimate", survey, "--json", tmp_path / "bad.json")
    assert done.exit_code == 2
    assert "Walls!E4" in done.output
    assert "Walls!F5" in done.output
    assert "Nothing was written" in done.output
    assert not (tmp_path / "bad estimate.xlsx").exists()
    assert len(json.loads((tmp_path / "bad.json").read_text("utf-8"))["faults"]) == 2


def test_geometry_faults_are_found_once_every_cell_reads(tmp_path):
    survey = changed(tmp_path / "bad.xlsx", Openings=lambda rows: rows[0].update(from_start=50))
    done = run("check", survey)
    assert done.exit_code == 2
    assert "OPENING-BEYOND" in done.output


def test_a_measured_item_without_a_rate_is_a_fault_at_its_cell(tmp_path):
    survey = changed(tmp_path / "bad.xlsx", Rates=lambda rows: rows[0].update(rate=None))
    done = run("estimate", survey)
    assert done.exit_code == 2
    assert "MISSING-RATE" in done.output
    assert "Rates!D" in done.output


def test_check_says_that_nothing_is_wrong(tmp_path):
    done = run("check", changed(tmp_path / "good.xlsx"), "--json")
    assert done.exit_code == 0
    assert json.loads(done.output)["faults"] == []


@pytest.mark.parametrize("command", ["check", "estimate"])
@pytest.mark.parametrize("content", [None, b"", b"not a workbook", bytes.fromhex("d0cf11e0a1b11ae1")])
def test_a_file_that_is_no_workbook_gives_one_plain_line_and_status_2(tmp_path, command, content):
    path = tmp_path / "x.xlsx"
    if content is not None:
        path.write_bytes(content)
    done = run(command, path)
    assert done.exit_code == 2
    assert len(done.output.strip().splitlines()) == 1
    assert "Traceback" not in done.output


def test_a_blank_survey_asks_for_what_must_be_filled(tmp_path):
    assert run("survey", tmp_path / "new.xlsx").exit_code == 0
    done = run("check", tmp_path / "new.xlsx")
    assert done.exit_code == 2
    assert "Job!B4" in done.output


def test_survey_leaves_an_existing_file_alone(tmp_path):
    path = tmp_path / "mine.xlsx"
    path.write_bytes(b"mine")
    assert run("survey", path).exit_code == 2
    assert path.read_bytes() == b"mine"


def test_estimate_never_writes_over_its_survey(tmp_path):
    survey = changed(tmp_path / "mill.xlsx")
    before = survey.read_bytes()
    assert run("estimate", survey, "-o", survey).exit_code == 2
    assert survey.read_bytes() == before


def test_a_folder_that_is_not_there_gives_one_plain_line(tmp_path):
    done = run("demo", "-o", tmp_path / "nowhere" / "house.xlsx")
    assert done.exit_code == 2
    assert "Traceback" not in done.output


def test_help_names_every_command_and_the_exit_status():
    done = run("--help")
    for word in ("demo", "survey", "check", "estimate", "Exit status"):
        assert word in done.output


def test_it_runs_as_a_program(tmp_path):
    command = [sys.executable, "-m", "addin.cli", "demo", "-o", str(tmp_path / "house.xlsx")]
    done = subprocess.run(command, capture_output=True, text=True, check=False, env={**os.environ, "PYTHONUTF8": "1"})
    assert done.returncode == 0, done.stderr
    assert done.stdout.count("\n") == 11


def files_in(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir() if path.is_file()}


def refused(folder: Path, *words: object) -> str:
    """Run it; it must say one plain line, give status 2, and leave every file as it was."""
    before = files_in(folder)
    done = run(*words)
    assert (done.exit_code, done.stdout) == (2, "")
    assert files_in(folder) == before
    (line,) = done.stderr.splitlines()
    assert line.endswith((".", "-o.", "--json."))
    return line


FAULTY = {"Walls": lambda rows: rows[0].update(thickness=9)}


@pytest.mark.parametrize("faults", [{}, FAULTY], ids=["sound", "faulty"])
def test_survey_estimate_and_data_must_be_three_files(tmp_path, monkeypatch, faults):
    monkeypatch.chdir(tmp_path)
    survey = changed(Path("mill.xlsx"), **faults)
    (tmp_path / "link.xlsx").symlink_to(tmp_path / "mill.xlsx")
    os.link(survey, "second name.xlsx")
    monkeypatch.setattr("addin.cli.work", lambda _: pytest.fail("the work began"))
    for other in ("mill.xlsx", tmp_path / "mill.xlsx", "link.xlsx", "second name.xlsx"):
        assert "is the survey itself" in refused(tmp_path, "estimate", survey, "--json", other)
        assert "is the survey itself" in refused(tmp_path, "estimate", survey, "-o", other)
    for output, data in (("out.xlsx", tmp_path / "out.xlsx"), ("out.xlsx", "./out.xlsx")):
        assert "is the estimate itself" in refused(tmp_path, "estimate", survey, "-o", output, "--json", data)
    assert "is the estimate itself" in refused(tmp_path, "estimate", survey, "--json", "mill estimate.xlsx")


def test_the_demo_writes_three_files_too(tmp_path):
    out = tmp_path / "house.xlsx"
    assert "is the estimate itself" in refused(tmp_path, "demo", "-o", out, "--json", out)
    assert "is the survey itself" in refused(tmp_path, "demo", "-o", out, "--json", tmp_path / "house-survey.xlsx")


@pytest.mark.parametrize("command", ["demo", "estimate"])
@pytest.mark.parametrize("option", ["-o", "--json"])
@pytest.mark.parametrize(
    ("place", "said"), [("no/x", "does not exist"), ("folder", "is a folder"), ("pipe", "is not a regular file")]
)
def test_a_place_that_cannot_be_written_is_told_before_the_work(tmp_path, monkeypatch, command, option, place, said):
    (tmp_path / "folder").mkdir()
    os.mkfifo(tmp_path / "pipe")
    words = ["demo"] if command == "demo" else ["estimate", changed(tmp_path / "mill.xlsx")]
    if (command, option) == ("demo", "--json"):
        words += ["-o", tmp_path / "house.xlsx"]
    monkeypatch.setattr("addin.cli.work", lambda _: pytest.fail("the work began"))
    assert said in refused(tmp_path, *words, option, tmp_path / place)


def test_a_pipe_in_place_of_the_survey_is_told_and_not_waited_for(tmp_path):
    os.mkfifo(tmp_path / "pipe.xlsx")
    for command in ("check", "estimate"):
        assert "is not a regular file" in refused(tmp_path, command, tmp_path / "pipe.xlsx")


def test_a_folder_in_place_of_a_file_is_told(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert refused(tmp_path, "demo", "-o", ".") == ". is a folder, not a file."
    assert refused(tmp_path, "estimate", ".") == ". is a folder, not a file."


def test_the_demo_leaves_a_survey_alone_that_is_not_its_own(tmp_path):
    survey = tmp_path / "house-survey.xlsx"
    survey.write_bytes(b"my own house")
    assert "is not the survey of the demo house" in refused(tmp_path, "demo", "-o", tmp_path / "house.xlsx")
    survey.unlink()
    os.mkfifo(survey)
    assert "is not the survey of the demo house" in refused(tmp_path, "demo", "-o", tmp_path / "house.xlsx")


def test_the_demo_runs_again_in_the_same_folder(tmp_path):
    words = ("demo", "-o", tmp_path / "house.xlsx", "--json", tmp_path / "house.json")
    assert run(*words).exit_code == 0
    before = files_in(tmp_path)
    assert run(*words).exit_code == 0
    assert files_in(tmp_path) == before
    assert set(before) == {"house.xlsx", "house.json", "house-survey.xlsx"}


@pytest.mark.parametrize(("rate", "found"), [(None, "blank"), (0, "0")])
def test_a_rate_of_0_is_not_called_blank(tmp_path, rate, found):
    done = run("check", changed(tmp_path / "bad.xlsx", Rates=lambda rows: rows[0].update(rate=rate)))
    assert done.exit_code == 2
    assert f"is {found}, but this item is measured" in done.output


def test_help_lists_a_command_a_line():
    lines = [line.strip() for line in run("--help").output.splitlines()]
    for command in ("demo", "survey", "check", "estimate", "refresh", "addin install"):
        assert sum(line.startswith(f"plinthbook {command}") for line in lines) == 1
    assert "\\b" not in run("--help").output


def test_the_live_survey_is_written_when_asked_for(tmp_path):
    assert run("survey", tmp_path / "live.xlsx", "--live").exit_code == 0
    assert "Live house" in load_workbook(tmp_path / "live.xlsx").sheetnames
    assert run("survey", tmp_path / "plain.xlsx").exit_code == 0
    assert "Live house" not in load_workbook(tmp_path / "plain.xlsx").sheetnames


def test_on_a_system_without_the_program_the_add_in_says_what_works_instead():
    linux = Setting(machine=replace(this_machine(), platform="linux"), addin=lambda: b"")
    for command in ("install", "remove", "doctor"):
        done = CliRunner().invoke(main, ["addin", command], obj=linux)
        assert done.exit_code == 2
        assert done.output.count("\n") == 1
        assert "plinthbook estimate" in done.output
