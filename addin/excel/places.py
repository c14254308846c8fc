"""The computer an add-in is set up on, and where its files go there.

Covers   Windows and macOS, one user at a time: add-in, settings, AppleScript, libraries, the record of what was put.
Not      writing any of it (setup), judging it (doctor). No other system has a spreadsheet program that runs the add-in.
Rules    Everything comes from the Machine: nothing here asks the running Python, so that any computer can be played.
Sources  GetConfigFilePath, XLPyLoadDLL and ExecuteMac in xlwings_custom_addin.bas of the pinned xlwings, with
         PROJECT_NAME "plinthbook"; `addin` and `runpython` in xlwings/cli.py.
"""

import os
import re
import subprocess
import sys
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from importlib.metadata import requires, version
from pathlib import Path, PureWindowsPath

WINDOWS, MACOS = "win32", "darwin"
ADDIN_NAME = "plinthbook.xlam"

_MAC_EXCEL = "Library/Containers/com.microsoft.Excel"
_MAC_SCRIPTS = "Library/Application Scripts/com.microsoft.Excel"
_MAC_STARTUP = "Library/Group Containers/UBF8T346G9.Office/User Content.localized/Startup.localized/Excel"


class CannotSetUp(OSError):  # noqa: N818 - named like CannotRead
    """The add-in cannot be set up or taken away here. str() is one plain sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Machine:
    """Everything that setting up depends on."""

    platform: str
    """As sys.platform says it."""
    environment: Mapping[str, str]
    interpreter: str
    """The Python that the spreadsheet is to start; empty if it does not know itself."""
    base: str
    """Where that Python comes from, when it is a virtual environment."""
    xlwings_folder: Path
    xlwings_version: str
    pinned: str
    """The version of xlwings whose macros the add-in carries."""
    encoding: str
    """In which the macros read the settings."""
    quarantined: Callable[[Path], bool | None]
    """Whether a file carries the mark of something downloaded; None where that cannot be seen."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """Where the files go on one machine."""

    addin: Path
    settings: Path
    record: Path
    script: Path | None
    """The AppleScript, on macOS only."""
    needed: Path
    """A folder that only the system or Excel itself may make."""


def this_machine() -> Machine:
    """The computer this runs on."""
    windows = sys.platform == WINDOWS
    folder = Path(os.path.dirname(_spec_of_xlwings()))
    return Machine(
        platform=sys.platform, environment=dict(os.environ), interpreter=sys.executable or "", base=sys.base_prefix,
        xlwings_folder=folder, xlwings_version=version("xlwings"), pinned=_pinned(),
        # Basic reads a file in the code page of the system, whatever Python has been told to use.
        encoding="mbcs" if windows else "utf-8", quarantined=_has_stream if windows else _has_attribute,
    )  # fmt: skip


def places(machine: Machine) -> Places:
    """Where the files go.

    Raises:
        CannotSetUp: on another system, or when the folder of the user is not known
    """
    if machine.platform == WINDOWS:
        user, data = _folder(machine, "USERPROFILE"), _folder(machine, "APPDATA")
        return Places(
            addin=data / "Microsoft" / "Excel" / "XLSTART" / ADDIN_NAME,
            settings=user / ".plinthbook" / "plinthbook.conf",
            record=user / ".plinthbook" / "installed.json",
            script=None,
            needed=data,
        )
    if machine.platform == MACOS:
        home = _folder(machine, "HOME")
        return Places(
            addin=home / _MAC_STARTUP / ADDIN_NAME,
            settings=home / _MAC_EXCEL / "Data" / "plinthbook.conf",
            record=home / "Library" / "Application Support" / "plinthbook" / "installed.json",
            script=home / _MAC_SCRIPTS / script_name(machine.pinned),
            needed=home / _MAC_EXCEL / "Data",
        )
    raise CannotSetUp(
        "The add-in needs Excel for Windows or macOS; here use the command line on .xlsx files (plinthbook check, "
        "plinthbook estimate) and open the workbooks in any spreadsheet program, for they calculate by themselves."
    )


def script_name(xlwings_version: str) -> str:
    """The AppleScript that the macros of one version of xlwings ask for."""
    return f"xlwings-{xlwings_version}.applescript"


def library_names(xlwings_version: str) -> tuple[str, str]:
    """The libraries that 64-bit and 32-bit Excel load; the bits are those of Excel, not of Python."""
    return f"xlwings64-{xlwings_version}.dll", f"xlwings32-{xlwings_version}.dll"


def library_folders(machine: Machine) -> tuple[Path, Path]:
    """Where the macros look for the library: beside the Python, and one folder up as a virtual environment has it."""
    beside = Path(machine.interpreter).parent
    return beside, beside.parent


def is_absolute(machine: Machine) -> bool:
    """Whether the path of the Python says where it is from any folder."""
    return Path(machine.interpreter).is_absolute() or PureWindowsPath(machine.interpreter).is_absolute()


def from_the_store(machine: Machine) -> bool:
    """Whether the Python, or the one behind a virtual environment, came from the Microsoft Store.

    What such a Python writes below AppData goes to a private copy that Excel never sees.
    """
    paths = (machine.interpreter, machine.base)
    return machine.platform == WINDOWS and any("windowsapps" in _parts(path) for path in paths)


def synced(machine: Machine) -> bool:
    """Whether the Python lies in a folder that OneDrive keeps in step, and may take off the disk."""
    parts = _parts(machine.interpreter)
    return any(part == "onedrive" or part.startswith(("onedrive ", "onedrive-")) for part in parts)


def _parts(path: str) -> list[str]:
    return re.split(r"[\\/]", path.casefold())


def _folder(machine: Machine, name: str) -> Path:
    place = machine.environment.get(name, "")
    if not Path(place).is_absolute():
        raise CannotSetUp(f"The environment does not say in {name} where your own folder is, so nothing can be set up.")
    return Path(place)


def _spec_of_xlwings() -> str:
    # Importing it starts the talk with Excel; its folder is known without.
    from importlib.util import find_spec

    spec = find_spec("xlwings")
    return (spec.origin or "") if spec else ""


def _pinned() -> str:
    """The version of xlwings that this project asks for, exactly."""
    for requirement in requires("plinthbook") or ():
        found = re.fullmatch(r"xlwings\s*==\s*([0-9.]+)", requirement)
        if found:
            return found[1]
    raise CannotSetUp("This installation does not say which xlwings it needs; install plinthbook again.")


def _has_stream(path: Path) -> bool | None:
    """Windows keeps the mark in a stream beside the content."""
    try:
        with open(f"{path}:Zone.Identifier", "rb") as stream:
            zone = re.search(rb"ZoneId=([0-9])", stream.read(4096))
    except FileNotFoundError:
        return False
    except OSError:
        return None
    return zone is not None and int(zone[1]) >= 3


def _has_attribute(path: Path) -> bool | None:
    """The system's own command is asked: Python reads such attributes on Linux only."""
    with suppress(OSError, subprocess.TimeoutExpired):
        asked = subprocess.run(["/usr/bin/xattr", str(path)], capture_output=True, timeout=10, check=False)
        if asked.returncode == 0:
            return b"com.apple.quarantine" in asked.stdout.split()
    return None
