"""The macros run: in pyOpenVBA with PlinthCall swapped, and behind a cell of LibreOffice.

PlinthCall, the callbacks and the help of the wizard end in Excel or xlwings; the swaps stand exactly there.
"""

import os
import shutil
import subprocess

import pytest
from pyopenvba.apps.excel import ExcelApplication

from addin.functions import FUNCTIONS
from addin.macros.vba_project import Kind, from_file
from addin.macros.xlam import macro_book, own_modules
from addin.worksheet import ERRORS
from tests.addin.macro_readers import BOOK_TYPE, committed, procedure, running, with_call_swapped
from tests.addin.test_macros_xlam import ACTIONS, callbacks

CODES = {"#NULL!": 2000, "#DIV/0!": 2007, "#VALUE!": 2015, "#REF!": 2023, "#NAME?": 2029, "#NUM!": 2036, "#N/A": 2042,
         "#GETTING_DATA": 2043, "#SPILL!": 2045, "#CONNECT!": 2046, "#BLOCKED!": 2047, "#UNKNOWN!": 2048,
         "#FIELD!": 2049, "#CALC!": 2050}  # fmt: skip
"""The numbers of error values, from the list of xlCVError and of later errors in the host's documentation."""

ECHO = "    PlinthCall = Answer(named, values)"


def error_code(app: ExcelApplication, expression: str) -> int:
    """The number of the error value that an expression gives."""
    assert app.evaluate(f"IsError({expression})") is True
    return int(str(app.evaluate(f"CStr({expression})")).removeprefix("Error "))


@pytest.fixture
def echoing(tmp_path):
    """A workbook whose PlinthCall hands its arguments to a function `Answer` of the test."""
    return lambda extra: running(tmp_path, with_call_swapped(ECHO), extra)


def test_every_error_text_becomes_the_error_value_of_its_own(echoing):
    app = echoing("Public Function Answer(a, b)\nEnd Function\n")
    assert set(CODES) == set(ERRORS)
    for text, code in CODES.items():
        assert error_code(app, f'PlinthResult("{text}")') == code


def test_what_is_no_error_text_is_shown_as_it_is(echoing):
    app = echoing("Public Function Answer(a, b)\nEnd Function\n")
    assert app.evaluate("PlinthResult(7.25)") == 7.25
    assert app.evaluate('PlinthResult("#N/A in the text")') == "#N/A in the text"
    assert app.evaluate("PlinthResult(True)") is True


ROW_AND_BLOCK = """
Public Function Answer(named, values)
    Dim block(1 To 3, 0 To 1)
    Answer = Array("#REF!", 2.5)
    If named = "PLINTH_BASE_SIDE" Then Exit Function
    block(1, 0) = 1: block(1, 1) = "#N/A": block(2, 0) = "#NUM!"
    block(2, 1) = 4: block(3, 0) = "five": block(3, 1) = 6
    Answer = block
End Function

Public Function Told(shown, down, across)
    Dim cell
    If across = 0 Then cell = shown(down) Else cell = shown(down, across - 1)
    If IsError(cell) Then Told = "error " & CStr(cell) Else Told = cell
End Function
"""


def test_errors_in_a_row_become_error_values_one_by_one(echoing):
    app = echoing(ROW_AND_BLOCK)
    told = [app.evaluate(f"Told(PLINTH_BASE_SIDE(1, 2), {at}, 0)") for at in (0, 1)]
    assert told == ["error Error 2023", 2.5]


def test_errors_in_a_block_become_error_values_one_by_one(echoing):
    app = echoing(ROW_AND_BLOCK)
    told = [[app.evaluate(f"Told(PLINTH_DIGGING(1, 2, 3), {down}, {across})") for across in (1, 2)]
            for down in (1, 2, 3)]  # fmt: skip
    assert told == [[1, "error Error 2042"], ["error Error 2036", 4], ["five", 6]]


def test_a_failure_on_the_way_to_python_is_a_true_value_error(echoing):
    app = echoing('Public Function Answer(named, values)\n    Err.Raise 53, , "no such file"\nEnd Function\n')
    assert error_code(app, "PLINTH_BASE_SIDE(33.9, 120)") == CODES["#VALUE!"]


PEEK = """
Public Function Answer(named, values)
    Dim at
    Answer = named
    For at = LBound(values) To UBound(values)
        If IsMissing(values(at)) Then Answer = Answer & "; left out" Else Answer = Answer & "; " & TypeName(values(at))
    Next
End Function

Public Function OfCells()
    OfCells = PLINTH_JACKS(Range("B1"), 2.5, , Range("B1:C3"))
End Function

Public Function OfTwoAreas()
    OfTwoAreas = PLINTH_JACKS(Range("B1:B2,C1:C2"), 2.5)
End Function
"""


def test_python_gets_plain_values_in_order_and_what_was_left_out_stays_left_out(echoing):
    app = echoing(PEEK)
    app.sheet(1).set_value("B1", 700.5)
    assert app.evaluate("OfCells()") == "PLINTH_JACKS; Double; Double; left out; Variant(); left out; left out"


def test_a_range_of_several_areas_is_an_error_not_its_first_area(echoing):
    assert error_code(echoing(PEEK), "OfTwoAreas()") == CODES["#VALUE!"]


@pytest.mark.parametrize("function", FUNCTIONS.values(), ids=lambda function: function.name)
def test_every_wrapper_runs_with_all_arguments_and_with_the_needed_ones_only(function, echoing):
    app = echoing(PEEK)
    count = len(function.arguments)
    needed = max((at for at, argument in enumerate(function.arguments, 1) if not argument.optional), default=0)
    for given in (count, needed):
        told = [function.name, *["Double"] * given, *["left out"] * (count - given)]
        assert app.evaluate(f"{function.name}({', '.join(['1.5'] * given)})") == "; ".join(told)


def test_each_button_runs_its_action(tmp_path):
    extra = "Public Sent As String\nPublic Sub RunPython(command)\n    Sent = command\nEnd Sub\n"
    app = running(tmp_path, own_modules(), extra)
    for name, action in zip(callbacks(), ACTIONS, strict=True):
        app.add_module(f'Attribute VB_Name = "Press{name}"\nSub Press{name}()\n    {name} Nothing\nEnd Sub\n')
        app.run(f"Press{name}")
        assert app.evaluate("Sent").endswith(f"b.{action}()")


def test_the_help_of_every_function_is_handed_over_once(tmp_path):
    text = committed("PlinthFunctions")
    head = procedure(text, "PlinthDescribe").splitlines()[0]
    swapped = f'{head}\n    Heard = Heard & named & UBound(notes) & ";"\nEnd Sub'
    text = text.replace(procedure(text, "PlinthDescribe"), swapped)
    calls, _, ribbon = own_modules()
    modules = [calls, from_file("PlinthFunctions", Kind.STANDARD, text), ribbon]
    app = running(tmp_path, modules, "Public Heard As String\n")
    app.run("PlinthDescribeAll")
    expected = [f"{function.name}{len(function.arguments) - 1};" for function in FUNCTIONS.values()]
    assert app.evaluate("Heard") == "".join(expected)


# ------------------------------------------------------------------------------------------ LibreOffice

ASK = """
import sys, time, uno
from com.sun.star.beans import PropertyValue
pipe, url = sys.argv[1:]
local = uno.getComponentContext()
resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
for _ in range(240):
    try:
        office = resolver.resolve(f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")
        break
    except Exception:
        time.sleep(0.25)
desktop = office.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", office)
said = PropertyValue("Hidden", 0, True, 0), PropertyValue("MacroExecutionMode", 0, 4, 0)
sheet = desktop.loadComponentFromURL(url, "_blank", 0, said).Sheets.getByIndex(0)
at = sheet.getCellRangeByName
at("A5").Value, at("B5").Value = 2, 3
at("C5").Formula = "=PLINTH_SLAB_SHARE(A5;B5)"
first = at("C5").Value
at("A5").Value = 4
print(first, at("C5").Value)
"""


@pytest.mark.libreoffice
def test_a_cell_of_libreoffice_calculates_by_our_macros_and_again_after_a_change(tmp_path):
    office, python = shutil.which("soffice"), "/usr/bin/python3"
    # The office's own Python has uno; the one that runs this test has not.
    bridge = subprocess.run([python, "-c", "import uno"], check=False, capture_output=True).returncode == 0
    if not (office and bridge):
        say = pytest.fail if os.environ.get("CI") == "true" and not office else pytest.skip
        say("LibreOffice or its bridge to Python is not installed")
    path = tmp_path / "book.xlsm"
    # LibreOffice gives nothing for Value2.
    modules = with_call_swapped("    PlinthCall = 10 * values(0) + values(1)", lambda t: t.replace(".Value2", ".Value"))
    path.write_bytes(macro_book(modules, BOOK_TYPE))
    pipe, profile = f"plinth{os.getpid()}", (tmp_path / "profile").as_uri()
    running_office = subprocess.Popen(
        [office, f"-env:UserInstallation={profile}", "--headless", "--norestore", f"--accept=pipe,name={pipe};urp;"],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True,
    )  # fmt: skip
    try:
        asked = subprocess.run([python, "-c", ASK, pipe, path.as_uri()], check=False, capture_output=True, text=True,
                               timeout=120)  # fmt: skip
    finally:
        os.killpg(running_office.pid, 9)
        running_office.wait()
    assert asked.stdout.split() == ["23.0", "43.0"], asked.stderr
