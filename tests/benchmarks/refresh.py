"""How long a refresh takes, part by part, and the guard: run by hand, `python -m tests.benchmarks.refresh`."""

import io
import math
import re
import statistics
import tempfile
import time
from collections.abc import Callable, Iterator
from datetime import date, datetime
from pathlib import Path

import xlsxwriter
from openpyxl import load_workbook

from addin.demo import demo_bytes
from addin.door import FileDoor
from addin.estimating import made_of, work
from addin.guard import check_package
from addin.refresh.door import InPlaceDoor
from addin.refresh.merging import merge
from tests.user_books import edited, parts, sheet_parts, user_book

DAY, NOW = date(2026, 1, 31), datetime(2026, 1, 31, 14, 12)


def office_workbook(folder: Path, sheets: int) -> Path:
    """The demo survey and estimate inside a workbook of an office with many sheets, one of which looks at the price."""
    survey = folder / "survey.xlsx"
    survey.write_bytes(demo_bytes())
    made = made_of(work(FileDoor(survey)), DAY)
    titles = load_workbook(io.BytesIO(made.data), read_only=True).sheetnames

    def look(book: xlsxwriter.Workbook) -> None:
        book.add_worksheet("Price").write_formula("A1", "=bill_total*2", None, 0)

    path = folder / f"office {sheets}.xlsx"
    path.write_bytes(merge(user_book(sheets=sheets, more=look), made.data, titles))
    return path


def refreshed(path: Path) -> tuple[float, float, float]:
    """Seconds for reading and working through, making, merging and writing; after an entry has been changed."""
    content = path.read_bytes()
    rates = sheet_parts(content)["Rates"]
    rate = re.search(rb'<c r="D4"[^>]*><v>[0-9.]+</v>', parts(content)[rates])
    assert rate is not None
    path.write_bytes(edited(content, rates, rate[0], re.sub(rb"<v>[0-9.]+</v>", b"<v>4321</v>", rate[0])))
    door = InPlaceDoor(path, NOW)
    marks = [time.perf_counter()]
    worked = work(door)
    marks.append(time.perf_counter())
    made = made_of(worked, DAY)
    marks.append(time.perf_counter())
    door.put(made)
    marks.append(time.perf_counter())
    path.write_bytes(content)
    a, b, c, d = marks
    return b - a, c - b, d - c


def large(path: Path) -> None:
    """A workbook of a hundred thousand cells that all differ, about a megabyte."""
    book = xlsxwriter.Workbook(str(path))
    sheet = book.add_worksheet()
    for row in range(10_000):
        sheet.write_row(row, 0, [math.sin(10 * row + column) for column in range(10)])
    book.close()


def least(act: Callable[[], object], times: int = 5) -> float:
    """The least of some runs [s]."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        act()
        taken.append(time.perf_counter() - start)
    return min(taken)


def lines() -> Iterator[tuple[str, str]]:
    """One line a measurement."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for label, sheets in (("refresh, demo", 0), ("refresh, 50 sheets more", 50)):
            path = office_workbook(folder, sheets)
            runs = [refreshed(path) for _ in range(5)]
            steps = [min(run[step] for run in runs) for step in range(3)]
            total = statistics.median(sum(run) for run in runs)
            yield label, (f"{total:.2f} s median; least: {steps[0]:.2f} read and worked, {steps[1]:.2f} made, "
                          f"{steps[2]:.2f} merged and written")  # fmt: skip
        path = folder / "large.xlsx"
        large(path)
        yield "guard", f"{least(lambda: check_package(path)) * 1e3:.0f} ms for {path.stat().st_size / 1e6:.1f} MB"


if __name__ == "__main__":
    for label, figure in lines():
        print(f"{label:<32}{figure}")
