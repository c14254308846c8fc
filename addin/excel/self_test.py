"""What the add-in needs, tried out in the workbook that is open.

Covers   versions, worksheet functions, a block written and read back, the survey of this workbook, its file.
Not      what can only be seen from outside the program (doctor).
Rules    every line says PASS or FAIL and what was found.
"""

import platform
from collections.abc import Callable
from dataclasses import dataclass
from importlib.metadata import requires, version

import xlwings as xw

from addin.estimating import read_faults
from addin.excel.findings import Findings, show
from addin.excel.open_book import OpenDoor, local_file
from addin.files import CannotWrite
from addin.functions import worksheet
from addin.guard import CannotRead

_BLOCK = ((1.5, "=1+1", "9 in"), (-2.0, "-", "\u20b9 and \u0926"))
"""Numbers, and texts that a careless write would turn into a formula."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """One thing tried."""

    what: str
    answer: str
    found: str


def self_test(book: xw.Book) -> tuple[Tried, ...]:
    """Everything the add-in needs, each line on its own: one that fails does not stop the rest."""
    return tuple(
        _tried(what, trial)
        for what, trial in (
            ("plinthbook and Python", lambda: f"{version('plinthbook')}, Python {platform.python_version()}"),
            ("xlwings is the version the macros were made for", _xlwings),
            ("The spreadsheet program answers", lambda: f"{book.app.engine.name}, version {book.app.version}"),
            ("A worksheet function gives what it gives by hand", _function),
            ("A failing function gives an error, not a text", _error),
            ("A block is written and read back unchanged", lambda: _round_trip(book)),
            ("The survey of this workbook is read", lambda: _survey(book)),
            ("The workbook has a file of its own", lambda: str(local_file(book))),
        )
    )


def _tried(what: str, trial: Callable[[], str]) -> Tried:
    try:
        return Tried(what=what, answer="PASS", found=trial())
    except (_UnlikeError, CannotRead, CannotWrite) as reason:
        return Tried(what=what, answer="FAIL", found=str(reason))
    except Exception as bug:
        return Tried(what=what, answer="FAIL", found=f"{type(bug).__name__}: {bug}")


class _UnlikeError(AssertionError):
    """Something was found that is not what it should be."""


def _expect(found: object, wanted: object) -> str:
    if found != wanted:
        raise _UnlikeError(f"{found!r} in place of {wanted!r}")
    return str(found)


def _xlwings() -> str:
    pinned = next(line for line in requires("plinthbook") or () if line.startswith("xlwings"))
    return _expect(f"xlwings=={xw.__version__}", pinned.replace(" ", ""))


def _function() -> str:
    # 60 kN spread over 120 kPa: a square of 0.707 m, made in steps of 50 mm.
    return _expect(round(worksheet("PLINTH_BASE_SIDE", 60.0, 120.0), 6), 0.75)


def _error() -> str:
    return _expect(str(worksheet("PLINTH_BASE_SIDE", "#N/A", 120.0)), "#N/A")


def _round_trip(book: xw.Book) -> str:
    show(book, Findings(heading="self-test", columns=(("", 12), ("", 12), ("", 12)), rows=_BLOCK))
    read = book.sheets.active.range((4, 1), (3 + len(_BLOCK), 3)).options(ndim=2).value
    _expect([list(row) for row in read], [list(row) for row in _BLOCK])
    return f"{len(_BLOCK) * 3} cells"


def _survey(book: xw.Book) -> str:
    reading, faults, warnings = read_faults(OpenDoor(book, _never))
    walls = len(reading.tables["Walls"])
    return f"{walls} walls, {len(faults)} faults to mend, {len(warnings)} doubtful entries"


def _never(*_: object) -> None:
    raise AssertionError("a self-test writes no estimate")
