"""What keeps the add-in from working on a machine, as data.

Covers   Python, xlwings, the add-in file and its marks, settings, libraries (Windows), AppleScript (macOS), OneDrive.
Not      mending it (setup), printing it (setup_cli), anything inside Excel: it is not started, and what it has
         switched off by itself (Disabled Items, policies of a company) is not seen.
Rules    Each check says what was found and what to do. "could not look" is never read as all right.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from addin.excel.places import (
    MACOS,
    WINDOWS,
    CannotSetUp,
    Machine,
    Places,
    from_the_store,
    is_absolute,
    library_folders,
    library_names,
    places,
    script_name,
    synced,
)
from addin.excel.record import Record, read_record, sha256
from addin.excel.settings import INTERPRETER, expanded, found_settings, our_settings, read_text

RIGHT, NOTE, TO_DO, UNSEEN = "all right", "note", "to do", "could not look"
_AGAIN = "Quit Excel, then run: plinthbook addin install"


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One thing that was looked at."""

    name: str
    state: str
    """One of RIGHT, NOTE, TO_DO, UNSEEN."""
    found: str
    action: str
    """What to do; empty when nothing is."""


def examine(machine: Machine, addin: Callable[[], bytes]) -> tuple[Check, ...]:
    """Everything that can be seen from outside Excel; nothing is written.

    Args:
        machine: the computer
        addin: makes the bytes of the add-in, to compare the installed one with
    """
    try:
        where = places(machine)
    except CannotSetUp as reason:
        return (_unseen("System", f"{machine.platform}", str(reason)),)
    checks = [_system(machine), _python(machine), _store(machine), _xlwings(machine), _onedrive(machine)]
    checks += [*_addin(machine, where, addin), *_settings(machine, where)]
    if machine.platform == WINDOWS:
        wide, narrow = library_names(machine.pinned)
        checks += [_library(machine, wide, "64"), _library(machine, narrow, "32")]
    if machine.platform == MACOS:
        checks += [_spaces(machine), _script(machine, where)]
    return tuple(checks)


def exit_status(checks: tuple[Check, ...]) -> int:
    """0 all right, 1 something to do, 2 could not look."""
    states = {check.state for check in checks}
    return 1 if TO_DO in states else 2 if UNSEEN in states else 0


def _right(name: str, found: str) -> Check:
    return Check(name=name, state=RIGHT, found=found, action="")


def _to_do(name: str, found: str, action: str) -> Check:
    return Check(name=name, state=TO_DO, found=found, action=action)


def _unseen(name: str, found: str, action: str) -> Check:
    return Check(name=name, state=UNSEEN, found=found, action=action)


def _system(machine: Machine) -> Check:
    if machine.platform == WINDOWS:
        return _right("System", "Windows: buttons and worksheet functions")
    return _right("System", "macOS: buttons; worksheet functions exist on Windows only")


def _python(machine: Machine) -> Check:
    again = "Install plinthbook in a virtual environment with a Python from python.org, then set the add-in up again"
    if not is_absolute(machine):
        return _to_do("Python", f"{machine.interpreter or 'nothing'}, which is no full path", again)
    if not Path(machine.interpreter).is_file():
        return _to_do("Python", f"{machine.interpreter} does not exist", again)
    return _right("Python", machine.interpreter)


def _store(machine: Machine) -> Check:
    if from_the_store(machine):
        action = "Install Python from python.org and plinthbook with it: Excel does not see what this one writes"
        return _to_do("Origin of Python", f"Microsoft Store: {machine.base or machine.interpreter}", action)
    return _right("Origin of Python", machine.base or machine.interpreter)


def _xlwings(machine: Machine) -> Check:
    if machine.xlwings_version != machine.pinned:
        found = f"{machine.xlwings_version}, but the add-in is made for {machine.pinned}"
        return _to_do("xlwings", found, f"Run: pip install xlwings=={machine.pinned}")
    return _right("xlwings", machine.xlwings_version)


def _onedrive(machine: Machine) -> Check:
    if synced(machine):
        action = "Keep the environment in a folder that is not synced; OneDrive may take its files off the disk"
        return Check(name="OneDrive", state=NOTE, found=f"{machine.interpreter} is synced", action=action)
    return _right("OneDrive", "Python is not in a synced folder")


def _spaces(machine: Machine) -> Check:
    if " " in machine.interpreter:
        action = "Install plinthbook in a folder without spaces: the AppleScript of xlwings cannot call this one"
        return _to_do("Spaces in the path", machine.interpreter, action)
    return _right("Spaces in the path", "none")


def _addin(machine: Machine, where: Places, addin: Callable[[], bytes]) -> Iterator[Check]:
    """The add-in file: there, of this version, not held, not marked."""
    try:
        record = read_record(where.record)
        present = where.addin.read_bytes()
    except FileNotFoundError:
        removed = record is not None
        found = "was installed and is gone; a virus scanner may have taken it" if removed else "not installed"
        yield _to_do("Add-in", f"{found}: {where.addin}", _AGAIN)
        return
    except CannotSetUp as reason:
        yield _to_do("Add-in", str(reason), _AGAIN)
        return
    except OSError as reason:
        yield _unseen("Add-in", f"{where.addin}: {reason.strerror or reason}", "Look whether the file is yours")
        return
    yield _version(machine, where, present, record, addin)
    yield _lock(where)
    yield _mark(machine, where)


def _version(
    machine: Machine, where: Places, present: bytes, record: Record | None, addin: Callable[[], bytes]
) -> Check:
    # The same bytes have the same macros in them, so this is also the version that the macros say.
    if present == addin():
        return _right("Add-in", f"this version, macros of xlwings {machine.pinned}: {where.addin}")
    if record and sha256(present) in {put.sha256 for put in record.puts}:
        found = f"put there by plinthbook {record.version} with macros of xlwings {record.xlwings}"
        return _to_do("Add-in", f"{found}: {where.addin}", _AGAIN)
    return _to_do("Add-in", f"another version, or changed since: {where.addin}", _AGAIN)


def _lock(where: Places) -> Check:
    try:
        with where.addin.open("r+b"):
            pass
    except PermissionError:
        found, action = "held by another program or not yours", "Nothing if Excel is open; quit it before an upgrade"
        return Check(name="Add-in in use", state=NOTE, found=found, action=action)
    except OSError as reason:
        return _unseen("Add-in in use", str(reason.strerror or reason), "Look whether the file can be opened")
    return _right("Add-in in use", "no")


def _mark(machine: Machine, where: Places) -> Check:
    marked = machine.quarantined(where.addin)
    if marked is None:
        return _unseen("Mark of a download", "cannot be read here", "If its macros are blocked, install again")
    if marked:
        return _to_do("Mark of a download", "the add-in carries it, so its macros are blocked", _AGAIN)
    return _right("Mark of a download", "none")


def _settings(machine: Machine, where: Places) -> Iterator[Check]:
    """The settings, key by key, as the macros read them."""
    try:
        found = found_settings(read_text(where.settings.read_bytes(), machine))
        ours = our_settings(machine)
    except FileNotFoundError:
        yield _to_do("Settings", f"not there: {where.settings}", _AGAIN)
        return
    except CannotSetUp as reason:
        yield _to_do("Settings", str(reason), "Install plinthbook elsewhere, then set the add-in up again")
        return
    except OSError as reason:
        yield _unseen("Settings", f"{where.settings}: {reason.strerror or reason}", "Look whether the file is yours")
        return
    for key, value in ours.items():
        name, present = f"Setting {key}", found.get(key)
        shown = "not there, or a line above it is broken" if present is None else present
        wanted = machine.interpreter if key == INTERPRETER[machine.platform] else value
        if present is not None and expanded(present, machine).casefold() == wanted.casefold():
            yield _right(name, shown)
        else:
            yield _to_do(name, f"{shown}; it must be {wanted}", _AGAIN)


def _library(machine: Machine, wanted: str, bits: str) -> Check:
    name = f"Library for {bits}-bit Excel"
    folders = library_folders(machine)
    for folder in folders:
        if (folder / wanted).is_file():
            return _right(name, str(folder / wanted))
    others = [path.name for folder in folders for path in sorted(folder.glob(f"xlwings{bits}-*.dll"))]
    action = f"Run: pip install --force-reinstall xlwings=={machine.pinned} (a virus scanner may have taken it)"
    found = f"only {', '.join(others)}, but the macros ask for {wanted}" if others else f"no {wanted}"
    return _to_do(name, f"{found} in {folders[0]} or one folder up", action)


def _script(machine: Machine, where: Places) -> Check:
    place = where.script or where.needed / script_name(machine.pinned)
    try:
        same = place.read_bytes() == (machine.xlwings_folder / place.name).read_bytes()
    except FileNotFoundError:
        others = sorted(path.name for path in place.parent.glob("xlwings-*.applescript"))
        found = f"only {', '.join(others)}, but the macros ask for {place.name}" if others else f"no {place.name}"
        return _to_do("AppleScript", f"{found} in {place.parent}", _AGAIN)
    except OSError as reason:
        return _unseen("AppleScript", f"{place}: {reason.strerror or reason}", "Look whether the file is yours")
    if not same:
        return _to_do("AppleScript", f"changed since, or of another version: {place}", _AGAIN)
    return _right("AppleScript", str(place))
