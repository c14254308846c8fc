"""Measures the program and prints one table. Not a test: machines are noisy, so only ratios of one run mean anything.

Run: python -m tests.benchmarks.run
"""

import io
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from datetime import date
from itertools import pairwise
from pathlib import Path
from statistics import median

import xlsxwriter
from openpyxl import load_workbook

from addin import estimating, tables
from addin.demo import demo_bytes
from addin.door import FileDoor
from addin.excel import udfs
from addin.issue import Issue, issue_bytes
from addin.kinds import Floats, Tracing
from addin.survey_book import survey_bytes
from addin.surveying import build_allowances, build_rules, build_survey
from calc.estimate import estimate, prepare

DAY = date(2026, 1, 31)


def timed(action: Callable[[], object], runs: int = 5) -> tuple[float, float]:
    """Least and median seconds of several runs."""
    seconds = []
    for _ in range(runs):
        start = time.perf_counter()
        action()
        seconds.append(time.perf_counter() - start)
    return min(seconds), median(seconds)


def block(side: int) -> bytes:
    """A survey of `side` times `side` rooms: 2 side (side + 1) walls."""
    letters = [f"{chr(65 + i // 26)}{chr(65 + i % 26)}" for i in range(side + 1)]
    numbers = [str(i + 1) for i in range(side + 1)]
    grid = [{"name": name, "offset": 3.1 * i} for i, name in enumerate(letters)]
    grid += [{"name": name, "offset": 3.7 * i} for i, name in enumerate(numbers)]
    common = {"storey": 1, "thickness": 230, "height": 3.0}
    walls: list[dict[str, object]] = []
    walls += [{"name": f"H{a}{n}", "start": f"{a}{n}", "end": f"{b}{n}", **common}
              for a, b in pairwise(letters) for n in numbers]  # fmt: skip
    walls += [{"name": f"V{a}{n}", "start": f"{a}{n}", "end": f"{a}{m}", **common}
              for a in letters for n, m in pairwise(numbers)]  # fmt: skip
    openings = [{"wall": w["name"], "kind": "window", "from_start": 0.8, "width": 1.2, "height": 1.2, "sill": 0.9}
                for w in walls if str(w["name"])[0] == "H"]  # fmt: skip
    rooms = [{"name": f"R{a}{n}", "storey": 1, "corner": f"{a}{n}", "opposite": f"{b}{m}"}
             for a, b in pairwise(letters) for n, m in pairwise(numbers)]  # fmt: skip
    rates = [{"name": text.code, "rate": 100} for text in estimating.item_texts()]
    job = {"job_name": "block", "survey_date": DAY, "reason": "flooding", "rise": 0.9, "bearing": 150}
    rows = {"Grid": grid, "Walls": walls, "Rooms": rooms, "Openings": openings, "Rates": rates}
    return survey_bytes(rows, job, examples=False)


def same_cells(content: bytes) -> Callable[[], bytes]:
    """The same cells written by XlsxWriter, with one format for each named style."""
    book, values = load_workbook(io.BytesIO(content)), load_workbook(io.BytesIO(content), data_only=True)
    cells = [
        (sheet.title, [(c.row - 1, c.column - 1, c.value, values[sheet.title][c.coordinate].value, c.style, c.data_type)
                       for row in sheet.iter_rows() for c in row if c.value is not None or c.has_style])
        for sheet in book
    ]  # fmt: skip

    def write() -> bytes:
        stream = io.BytesIO()
        out = xlsxwriter.Workbook(stream, {"in_memory": True})
        formats: dict[str, object] = {}
        for title, rows in cells:
            sheet = out.add_worksheet(title)
            for row, column, value, result, style, kind in rows:
                shape = formats.setdefault(style, out.add_format({"border": 1}))
                if kind == "f":
                    sheet.write_formula(row, column, value, shape, result or 0)
                elif value is None:
                    sheet.write_blank(row, column, None, shape)
                else:
                    sheet.write(row, column, str(value) if kind == "s" else value, shape)
        out.close()
        return stream.getvalue()

    return write


def worksheet_call(calls: int = 1000) -> float:
    """Seconds one worksheet function takes in Python, by the way the add-in calls it; the spreadsheet's part is not."""
    cells = [[[value]] for value in (5.0, 3.0, "9 in", 2.1, None, 2.0)]
    return timed(lambda: [udfs.PLINTH_WALL_WEIGHT(*cells) for _ in range(calls)])[0] / calls


def lines() -> Iterator[tuple[str, str]]:
    """One line a measurement."""
    with tempfile.TemporaryDirectory() as folder:
        survey = Path(folder, "demo.xlsx")
        survey.write_bytes(demo_bytes())
        command = [sys.executable, "-m", "addin.cli", "estimate", str(survey), "-o", str(Path(folder, "out.xlsx"))]
        least, middle = timed(lambda: subprocess.run(command, capture_output=True, check=False))
        yield "estimate, whole process", f"{least:.2f} s least, {middle:.2f} s median"

        worked = estimating.work(FileDoor(survey))
        read = timed(lambda: estimating.read_faults(FileDoor(survey)))[0]
        yield "reading and cross-checking", f"{read * 1e3:.0f} ms"
        runs = {}
        for name, kind in (("floats", Floats()), ("traced", Tracing())):
            allowances = build_allowances(worked.rows, kind)
            entries = build_survey(worked.rows, kind, allowances)
            texts = estimating.item_texts()
            rules = build_rules(worked.rows, kind)
            runs[name] = timed(lambda e=entries, a=allowances, t=texts, r=rules:
                               estimate(e, worked.prepared, a, t, r), 9)[0]  # fmt: skip
            yield f"calculation, {name}", f"{runs[name] * 1e3:.1f} ms"
        yield "calculation, traced / floats", f"{runs['traced'] / runs['floats']:.1f} times"

        found = estimate(entries, worked.prepared, allowances, texts, rules)
        issue = Issue(rows=worked.rows, survey=entries, allowances=allowances, rules=rules, found=found, log=worked.log,
                      warnings=worked.warnings, holds=worked.holds, issued_on=DAY)  # fmt: skip
        ours, theirs = timed(lambda: issue_bytes(issue))[0], timed(same_cells(issue_bytes(issue)))[0]
        yield "writing the workbook", f"{ours * 1e3:.0f} ms"
        yield "the same cells by XlsxWriter", f"{theirs * 1e3:.0f} ms"
        yield "writing, ours / XlsxWriter", f"{ours / theirs:.2f} times"

        yield "worksheet function, one wall", f"{worksheet_call() * 1e3:.3f} ms"

        for side in (2, 7, 22):
            path = Path(folder, f"block-{side}.xlsx")
            path.write_bytes(block(side))
            started = time.perf_counter()
            house = estimating.work(FileDoor(path))
            worked_in = time.perf_counter() - started
            started = time.perf_counter()
            estimating.issue_of(house, DAY)
            issued_in = time.perf_counter() - started
            walls = len(house.survey.walls)
            kind, per_wall = Floats(), {}
            allowances = build_allowances(house.rows, kind)
            entries = build_survey(house.rows, kind, allowances)
            rules = build_rules(house.rows, kind)
            basis = tables.plan_basis(rules)
            for step, action in (("plan", lambda e=entries, a=allowances, b=basis: prepare(e, a, b)),
                                 ("formulas", lambda e=entries, a=allowances, h=house, t=texts, r=rules:
                                  estimate(e, h.prepared, a, t, r))):  # fmt: skip
                per_wall[step] = timed(action, 2)[0] / walls * 1e3
            yield (f"{walls} walls", f"{worked_in:.2f} s to work through, {issued_in:.2f} s to issue; ms a wall: "
                   f"{per_wall['plan']:.2f} plan, {per_wall['formulas']:.2f} formulas")  # fmt: skip


if __name__ == "__main__":
    for label, figure in lines():
        print(f"{label:<32}{figure}")
