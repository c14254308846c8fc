"""The command line the macros build, run in a process of its own as the spreadsheet program runs it.

What is tried: the module path, what importing it brings along, that the button finds the workbook by its name. Not
tried: how the macros put the command line together.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from openpyxl import load_workbook

from addin.sheets import FINDINGS_SHEET

ROOT = Path(__file__).parents[2]

PROGRAM = """
# Stands in for the spreadsheet program: there before our code is, with the workbook open; saves when all is done.
import atexit, os, sys
sys.path.insert(0, os.environ["ENGINE_ROOT"])
import xlwings
from tests.xlwings_engine import Engine
engine = Engine()
xlwings.engines.add(xlwings.Engine(impl=engine))
xlwings.engines.active = xlwings.engines["openpyxl"]
xlwings.Book(os.environ["OPEN_BOOK"])
sys.path.remove(os.environ["ENGINE_ROOT"])
atexit.register(lambda: [book.save() for book in engine.apps.app.books])
"""


@pytest.fixture
def pressed(tmp_path, demo_survey):
    """Press a button of the ribbon on the demo survey; gives the process and the workbook it left."""
    book = tmp_path / "my house.xlsx"
    book.write_bytes(demo_survey.read_bytes())
    (tmp_path / "program").mkdir()
    (tmp_path / "program" / "sitecustomize.py").write_text(PROGRAM)

    def press(command: str) -> tuple[subprocess.CompletedProcess[str], Path]:
        python = (
            "import xlwings.utils;"
            f"xlwings.utils.prepare_sys_path('false;{book};/addins/plinthbook.xlam;;;;{ROOT}');{command} "
        )
        environment = {**os.environ, "PYTHONPATH": str(tmp_path / "program"), "ENGINE_ROOT": str(ROOT),
                       "OPEN_BOOK": str(book)}  # fmt: skip
        run = subprocess.run(
            [sys.executable, "-B", "-c", python, f"--wb={book.name}", "--from_xl=1", "--app=/program"],
            cwd=tmp_path, env=environment, capture_output=True, text=True, timeout=120, check=False,
        )  # fmt: skip
        return run, book

    return press


def test_check_survey_runs_as_the_ribbon_runs_it(pressed):
    run, book = pressed("import addin.excel.buttons as b; b.check_survey()")
    assert (run.returncode, run.stdout, run.stderr) == (0, "", "")
    assert load_workbook(book)[FINDINGS_SHEET]["A1"].value.startswith("Findings of plinthbook: 0 faults")


def test_estimate_here_runs_as_the_ribbon_runs_it(pressed):
    run, book = pressed("import addin.excel.buttons as b; b.estimate_here()")
    assert (run.returncode, run.stderr) == (0, "")
    assert "Offer" in load_workbook(book).sheetnames
    assert len([path for path in book.parent.iterdir() if path.suffix == ".xlsx"]) == 2


def test_a_workbook_that_is_not_open_is_not_taken_for_the_one_that_is(pressed):
    run, _ = pressed("import sys; sys.argv[1] = '--wb=other.xlsx'; import addin.excel.buttons as b; b.check_survey()")
    assert run.returncode != 0
