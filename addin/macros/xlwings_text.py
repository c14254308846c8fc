r"""The VBA of xlwings as it goes into the add-in: that of the installed package, and of one version with it.

Covers   the module xlwings (BSD-3, its licence stands at its top) and the class Dictionary (MIT, named at its top);
         the changes made to the first, each with its reason.
Not      our own modules; what xlwings does.
Rules    a change that does not find its line as often as it should stops the build: then xlwings has changed, and
         somebody has to look. No workbook that is opened may say which program runs or where code is taken from.

Where xlwings looks for settings, by its functions GetConfig and GetConfigFilePath, with PROJECT_NAME "plinthbook" and
with the changes below:

1. a sheet `plinthbook.conf` in the add-in itself; there is none;
2. the file of the user: `%USERPROFILE%\.plinthbook\plinthbook.conf` on Windows, and on macOS
   `$HOME/plinthbook.conf`, which inside the sandbox is
   `~/Library/Containers/com.microsoft.Excel/Data/plinthbook.conf`.

One setting a line, `"KEY","value"`. Two places are shut off: a sheet of that name in the open workbook, and a file
plinthbook.conf beside it. On macOS the script `xlwings-<version>.applescript` and the log `~/xlwings.log` keep xlwings'
own names.
"""

import re
from dataclasses import dataclass
from importlib.metadata import version
from importlib.util import find_spec
from pathlib import Path

PROJECT = "plinthbook"

_VERSIONS = re.compile(
    r"""^'Version: (\S+)|XLWINGS_VERSION As String = "([^"]+)"|xlwings(?:32|64)-([0-9.]+)\.dll""", re.MULTILINE
)


class NotOfOneVersion(ValueError):  # noqa: N818 - named for what is found, like CannotRead
    """The VBA of xlwings is not what this project was written for. str() is one plain sentence."""


@dataclass(frozen=True, slots=True)
class Change:
    """One change of xlwings' text: what is replaced, by what, how often it is there, and why."""

    pattern: str
    replacement: str
    times: int
    why: str


_FROM_A_CELL = '    If TypeName(Application.Caller) = "Range" Then Err.Raise 70 \' plinthbook: not from a cell'

CHANGES = (
    Change(r'(?<=^Public Const PROJECT_NAME As String = )"myaddin"$', f'"{PROJECT}"', 1, "settings of our own"),
    Change(
        r"^(#Const App = .*)$",
        r"\1\nOption Private Module",
        1,
        "its functions run programs and write files: no workbook should find them by name",
    ),
    Change(
        r"^(?:Public )?Function (?!RunPython\b|XLPy\b)",
        "Private Function ",
        33,
        "only these two are called from our modules",
    ),
    Change(
        r"^(Public Function RunPython\(.*|[ ]+Optional PYTHONPATH As String, Optional FrozenArgs.*"
        r"|Private Function SaveConfigToFile\(.*)$",
        rf"\1\n{_FROM_A_CELL}",
        3,
        "a formula of a workbook that came by mail must not run or write anything",
    ),
    Change(
        r"If SheetExists\(ActiveWorkbook, PROJECT_NAME & \"\.conf\"\) = True Then$",
        "If False Then ' plinthbook: the open workbook has no say",
        1,
        "a sheet of the open workbook could name the program to run",
    ),
    Change(
        r"If GetFullName\(ActiveWorkbook\) <> \"\" Then .*$",
        "If False Then ' plinthbook: what lies beside the workbook has no say",
        1,
        "so could a file that came with it; nor is its folder looked for, which fails for shared drives",
    ),
    Change(
        r'GetConfig\("ADD_WORKBOOK_TO_PYTHONPATH", "true"\)',
        'GetConfig("ADD_WORKBOOK_TO_PYTHONPATH", "false")',
        2,
        "no code is taken from the folder of the workbook",
    ),
    Change(
        r'GetConfig\("PYTHONPATH"\)',
        'GetConfig("PYTHONPATH", ThisWorkbook.Path)',
        4,
        "left empty it means the folder the program happens to be in; the add-in's own holds no code",
    ),
    Change(r'" -B -c ""import', '" -B -P -c ""import', 2, "nor from the folder the program happens to be in"),
)
"""What is changed in xlwings_custom_addin.bas, in this order."""


def xlwings_module() -> str:
    """The text of xlwings' module with our changes, lines ended by LF.

    Raises:
        NotOfOneVersion: it says another version than the installed package, or a line to change is not there
    """
    text = _installed("xlwings_custom_addin.bas")
    check_version(text, version("xlwings"))
    return changed(text)


def dictionary_class() -> str:
    """The text of the class Dictionary, which xlwings' module needs on macOS, as a .cls file, lines ended by LF."""
    return _installed("addin/Dictionary.cls")


def check_version(text: str, installed: str) -> None:
    """Raise unless each version that xlwings' VBA names is that of the installed package.

    Raises:
        NotOfOneVersion: with one sentence
    """
    named = {found for groups in _VERSIONS.findall(text) for found in groups if found}
    if named != {installed}:
        raise NotOfOneVersion(
            f"The macros of xlwings say version {', '.join(sorted(named)) or 'nothing'}, its Python package says "
            f"{installed}; install xlwings anew in one version and build the add-in again."
        )


def changed(text: str) -> str:
    """The text of xlwings with every change made.

    Raises:
        NotOfOneVersion: a line to change is there more or less often than it should be
    """
    for change in CHANGES:
        text, times = re.subn(change.pattern, change.replacement, text, flags=re.MULTILINE)
        if times != change.times:
            raise NotOfOneVersion(
                f"The macros of xlwings have changed: {change.pattern} is there {times} times and not {change.times}."
            )
    return text


def _installed(name: str) -> str:
    """A file of the installed package, found without importing it, lines ended by LF."""
    package = find_spec("xlwings")
    if package is None or package.origin is None:
        raise NotOfOneVersion("xlwings is not installed; install it and build the add-in again.")
    path = Path(package.origin).parent / name
    if not path.is_file():
        raise NotOfOneVersion(f"{path} is missing; install xlwings anew and build the add-in again.")
    return path.read_text("ascii")
