"""The add-in's functions: here as they are away from Windows, and over stand-ins for Windows in another process."""

import inspect
import re
import subprocess
import sys
from pathlib import Path

from addin.excel import udfs
from addin.functions import FUNCTIONS, worksheet
from addin.worksheet import ERRORS
from tests.function_cases import CASES

ROOT = Path(__file__).resolve().parents[2]


def test_the_real_conversion_passes_every_case_in_a_process_of_its_own():
    # The stand-ins for Windows stay in the process that loads them, so it must not be this one.
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "tests/addin/udf_cases.py"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=300, check=False)
    assert done.returncode == 0, done.stdout[-6000:] + done.stderr[-2000:]
    dots = sum(len(found[1]) for found in re.finditer(r"^(\.+)\s+\[", done.stdout, re.MULTILINE))
    assert dots > 3 * len(CASES)
    assert not {name for name in sys.modules if name.startswith(("win32", "pythoncom", "pywintypes"))}


def test_every_function_stands_in_the_module_by_its_name():
    assert {name for name in vars(udfs) if name.startswith("PLINTH_")} == set(FUNCTIONS)
    for name, function in FUNCTIONS.items():
        assert getattr(udfs, name).__name__ == name
        assert list(inspect.signature(getattr(udfs, name)).parameters) == [a.name for a in function.arguments]


def test_away_from_windows_a_function_can_be_called_with_rows_of_cells():
    assert udfs.PLINTH_WALL_STRESS([[200.0]], [[8.0]], [["9 in"]]) == worksheet("PLINTH_WALL_STRESS", 200, 8, "9 in")
    assert udfs.PLINTH_AMOUNT([[2.0]], [["#REF!"]], None) == "#REF!"


def test_every_error_has_the_number_by_which_a_macro_makes_it():
    assert list(udfs.ERROR_NUMBERS) == list(ERRORS)
    known = {
        "#NULL!": 2000,
        "#DIV/0!": 2007,
        "#VALUE!": 2015,
        "#REF!": 2023,
        "#NAME?": 2029,
        "#NUM!": 2036,
        "#N/A": 2042,
    }
    assert {error: udfs.ERROR_NUMBERS[error] for error in known} == known
