"""The buttons of the add-in: each takes the workbook it was pressed in, and none ends in a traceback.

Covers   check the survey, estimate here, a copy for the owner, compare with the last issue, what went wrong, about.
Not      reading and writing (open_book, findings), any figure (estimating and calc).
Rules    a button that fails leaves the workbook as it was and says why in one sentence. What it could not foresee is
         kept in the list of what went wrong, with its kind, and said as plainly.
"""

import functools
from collections.abc import Callable, Sequence
from datetime import date, datetime
from pathlib import Path

import xlwings as xw

from addin import worksheet
from addin.door import Made
from addin.estimating import Faulty, issue_of, made_of, work
from addin.excel.findings import Findings, show
from addin.excel.open_book import OpenDoor, local_file
from addin.excel.self_test import self_test
from addin.files import CannotWrite, write_atomically
from addin.guard import CannotRead
from addin.last_issue import changes_of
from addin.problems import Problem
from addin.refresh.door import InPlaceDoor

_PROBLEMS = (("", 10), ("Cell", 16), ("What", 26), ("Found", 26), ("But", 44), ("What to do", 44))
_REASONS = (("Function or button", 26), ("Argument", 20), ("Reason", 90))
_CHANGES = (("Item", 9), ("Work", 50), ("Unit", 8), ("Quantity then", 12), ("Quantity now", 12), ("Rate then", 12),
            ("Rate now", 12), ("Amount then", 14), ("Amount now", 14), ("Difference", 14))  # fmt: skip
_TESTS = (("Tried", 44), ("Answer", 12), ("What was found", 80))


def _button(act: Callable[[xw.Book], str]) -> Callable[..., str]:
    """A button: the workbook it was pressed in, and an answer in every case.

    The action gives back what is to be said; an empty text says nothing, since a sheet shows the answer.
    """

    @functools.wraps(act)
    def press(book: xw.Book | None = None) -> str:
        pressed = xw.Book.caller() if book is None else book
        try:
            said = act(pressed)
        except (CannotRead, CannotWrite) as reason:
            said = str(reason)
        except Faulty as faulty:
            said = _show_faults(pressed, faulty)
        except Exception as bug:
            worksheet.went_wrong.append(worksheet.Reason(act.__name__, "", f"{type(bug).__name__}: {bug}"))
            said = "Something went wrong that plinthbook did not foresee. Nothing was changed; see What went wrong."
        if said:
            pressed.app.alert(said, title="plinthbook")
        return said

    return press


@_button
def check_survey(book: xw.Book) -> str:
    """List everything wrong or doubtful in the survey."""
    _show_problems(book, (), work(_reading_only(book)).warnings)
    return ""


@_button
def estimate_here(book: xw.Book) -> str:
    """Work the survey through and bring the estimate into this workbook."""
    door = _door(book)
    local_file(book)
    made = made_of(work(door), date.today())
    door.put(made)
    if made.rewritten:
        return "Entries with a unit of their own are numbers now: " + "; ".join(made.rewritten[:8]) + "."
    return ""


@_button
def owner_copy(book: xw.Book) -> str:
    """Write the estimate as a workbook of its own beside this one, for the owner."""
    path = local_file(book)
    worked = work(_reading_only(book))
    target = _free(path.with_name(f"{path.stem} for the owner {date.today().isoformat()}.xlsx"))
    write_atomically(target, issue_of(worked, date.today()))
    return f"The copy for the owner is {target}."


@_button
def compare_issue(book: xw.Book) -> str:
    """Show what has changed in the bill since this workbook was issued."""
    worked = work(_reading_only(book))
    changes = changes_of(worked)
    if changes is None:
        return "This workbook holds no earlier issue to compare with. Press Estimate here first."
    rows = [
        (row.code, row.description, row.unit, row.quantity_then, row.quantity, row.rate_then, row.rate, row.amount_then,
         row.amount, row.difference)
        for row in changes.items
    ]  # fmt: skip
    heading = f"{len(rows)} items of the bill have changed since the last issue, works {changes.difference:+,.2f}"
    show(book, Findings(heading=heading, columns=_CHANGES, rows=rows))
    return ""


@_button
def went_wrong(book: xw.Book) -> str:
    """List why worksheet functions and buttons failed, the latest first."""
    rows = [(reason.function, reason.argument, reason.reason) for reason in reversed(worksheet.went_wrong)]
    heading = f"{len(rows)} failures since the program was started"
    show(book, Findings(heading=heading, columns=_REASONS, rows=rows or [("none", "", "")]))
    return ""


@_button
def about(book: xw.Book) -> str:
    """Show the versions, and try out everything the add-in needs."""
    tried = self_test(book)
    failed = sum(row.answer == "FAIL" for row in tried)
    heading = f"versions and self-test, {failed} of {len(tried)} failed"
    show(book, Findings(heading=heading, columns=_TESTS, rows=[(r.what, r.answer, r.found) for r in tried]))
    return ""


def _door(book: xw.Book) -> OpenDoor:
    return OpenDoor(book, _into_file)


def _into_file(path: Path, made: Made) -> None:
    InPlaceDoor(path, datetime.now()).put(made)


class _ReadingOnly(OpenDoor):
    """An open workbook whose survey may stand in any order: nothing is to be put into it."""

    keeps_rows = False


def _reading_only(book: xw.Book) -> OpenDoor:
    return _ReadingOnly(book, _into_file)


def _show_faults(book: xw.Book, faulty: Faulty) -> str:
    try:
        _show_problems(book, faulty.faults, faulty.warnings)
    except CannotWrite as reason:
        return str(reason)
    return f"{len(faulty.faults)} faults to mend first; they are listed on the sheet Findings. Nothing was changed."


def _show_problems(book: xw.Book, faults: Sequence[Problem], warnings: Sequence[Problem]) -> None:
    rows = [
        (kind, str(p.where), p.subject, p.found, p.rule, p.fix)
        for kind, found in (("Fault", faults), ("Doubtful", warnings))
        for p in found
    ]
    heading = f"{len(faults)} faults to mend, {len(warnings)} doubtful entries"
    show(book, Findings(heading=heading, columns=_PROBLEMS, rows=rows or [("none", "", "", "", "", "")]))


def _free(path: Path) -> Path:
    """A name beside `path` that no file has yet."""
    tried = path
    for number in range(2, 1000):
        if not tried.exists():
            return tried
        tried = path.with_name(f"{path.stem} {number}{path.suffix}")
    raise CannotWrite(f"There are too many copies beside {path}. Move some of them away.")
