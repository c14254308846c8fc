"""From a survey file to everything found: read, cross-check, compute in floats and in traced numbers.

Covers   the one path that command line, buttons and tests share; faults on the way.
Not      drawing the workbook (issue), printing (cli).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from addin import tables
from addin.crosschecks import cross_check, unknowns
from addin.door import Door, Made, SheetRead
from addin.issue import Issue, in_use_cells, issue_bytes
from addin.keeping import cells_to_mend, check_places
from addin.kinds import Floats, Tracing
from addin.layout import SHEET, SURVEY_TITLES, column_letter
from addin.lift_log import LOG_SHEET, Log, log_of
from addin.problems import CellRef, Problem
from addin.reader import Reading, read_survey
from addin.sheets import FINDINGS_SHEET, LAST_ISSUE_SHEET, TABS
from addin.survey_book import HELP_SHEET, LISTS_SHEET
from addin.surveying import Issued, build_allowances, build_rules, build_survey, issued
from calc.estimate import Estimate, Prepared, estimate, prepare
from calc.prices import missing_rates
from calc.quantities import ItemText
from calc.survey import Survey

OURS = tuple(title for title in TABS if title not in SURVEY_TITLES)
"""Sheets of an issued workbook, passed over when it is read again as a survey."""


PASSED_OVER = tuple(title for title in (*OURS, FINDINGS_SHEET) if title not in (LAST_ISSUE_SHEET, LOG_SHEET))
"""Those whose cells nobody looks at."""


WHOLE = (*SURVEY_TITLES, LAST_ISSUE_SHEET, LOG_SHEET)
"""Those that are read to the last row. Of a sheet of the user's own the headings tell whether it is meant to be one."""


class Faulty(Exception):  # noqa: N818 - it carries the estimator's faults, not an error of the program
    """A survey that cannot be worked with until its faults are mended."""

    def __init__(self, faults: Sequence[Problem], warnings: Sequence[Problem]) -> None:
        super().__init__(f"{len(faults)} faults")
        self.faults, self.warnings = tuple(faults), tuple(warnings)


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """A survey worked through in plain numbers."""

    sheets: Sequence[SheetRead]
    reading: Reading
    rows: Issued
    survey: Survey
    prepared: Prepared
    found: Estimate
    log: Log
    warnings: tuple[Problem, ...]
    holds: tuple[Problem, ...]


def read_faults(door: Door) -> tuple[Reading, tuple[Problem, ...], tuple[Problem, ...]]:
    """A survey as read, all its faults and all its warnings; geometry is looked at once every cell reads.

    Raises:
        CannotRead: there is no workbook that can be read
    """
    return _faults(door.sheets(PASSED_OVER, WHOLE))


def _faults(sheets: Sequence[SheetRead]) -> tuple[Reading, tuple[Problem, ...], tuple[Problem, ...]]:
    reading = read_survey(sheets, ours=(*OURS, FINDINGS_SHEET))
    if reading.faults:
        return reading, reading.faults, reading.warnings
    faults, warnings = cross_check(reading)
    return reading, tuple(faults), (*reading.warnings, *warnings)


def work(door: Door, *, planned: bool = True) -> Worked:
    """Read a survey and work it through.

    Args:
        door: the way to its workbook
        planned: whether jacks are placed; without a plan they are counted by load and spacing alone

    Raises:
        CannotRead: there is no workbook that can be read
        CannotWrite: the survey should stay as it is, and formulas could not point at it; or what was typed into the
            lift log has no place in the new one
        Faulty: faults stand
    """
    sheets = door.sheets(PASSED_OVER, WHOLE)
    reading, faults, warnings = _faults(sheets)
    if faults:
        raise Faulty(faults, warnings)
    if door.keeps_rows:
        check_places(reading, sheets)
    rows = issued(reading, keep_rows=door.keeps_rows)
    allowances, rules = build_allowances(rows, Floats()), build_rules(rows, Floats())
    survey = build_survey(rows, Floats(), allowances)
    prepared = prepare(survey, allowances, tables.plan_basis(rules) if planned else None)
    found = estimate(survey, prepared, allowances, item_texts(), rules)
    if without := missing_rates(found.items, survey):
        raise Faulty([_missing_rate(code, rows) for code in without], warnings)
    return Worked(sheets=sheets, reading=reading, rows=rows, survey=survey, prepared=prepared, found=found,
                  log=log_of(prepared, found, allowances, sheets), warnings=warnings,
                  holds=tuple(unknowns(reading)))  # fmt: skip


def issue_of(worked: Worked, issued_on: date) -> bytes:
    """The issued workbook of a survey that was worked through."""
    kind = Tracing()
    allowances, rules = build_allowances(worked.rows, kind), build_rules(worked.rows, kind)
    survey = build_survey(worked.rows, kind, allowances)
    found = estimate(survey, worked.prepared, allowances, item_texts(), rules)
    return issue_bytes(Issue(
        rows=worked.rows, survey=survey, allowances=allowances, rules=rules, found=found, log=worked.log,
        warnings=worked.warnings, holds=worked.holds, issued_on=issued_on,
    ))  # fmt: skip


def made_of(worked: Worked, issued_on: date) -> Made:
    """The issued workbook of a survey that was worked through, and what of it goes where in the survey's own."""
    there = {sheet.title for sheet in worked.sheets}
    mended = cells_to_mend(worked.sheets, worked.rows)
    grafts: dict[str, list[str]] = {}
    for cell in mended:
        grafts.setdefault(cell.sheet, []).append(cell.cell)
    if "Job" in there:
        grafts.setdefault("Job", []).extend(in_use_cells())
    survey = (*SURVEY_TITLES, HELP_SHEET, LISTS_SHEET)
    return Made(
        data=issue_of(worked, issued_on),
        replaced=(*OURS, *(title for title in survey if title not in there)),
        grafts={title: tuple(cells) for title, cells in grafts.items()},
        rewritten=tuple(str(cell) for cell in mended if cell.stood is not None),
    )


def item_texts() -> tuple[ItemText, ...]:
    """The items of work that calc may measure."""
    return tuple(
        ItemText(code=i.code, description=i.description, stage=int(i.stage), unit=i.unit) for i in tables.items()
    )


def _missing_rate(code: str, rows: Issued) -> Problem:
    row = next((r for r in rows.tables["Rates"] if r.values.get("name") == code), None)
    number = row.number if row else ""
    entry = row.entries.get("rate") if row else None
    where = entry.where if entry else CellRef("Rates", f"{column_letter(SHEET['Rates'], 'rate')}{number}")
    rate = row.values.get("rate") if row else None
    found = f"{rate:.10g}" if isinstance(rate, (int, float)) else "blank"
    return Problem(code="MISSING-RATE", where=where, subject=f"the rate of {code}", found=found,
                   rule="this item is measured and every measured item needs a rate",
                   fix=f"Enter what one {row.values.get('unit') if row else 'unit'} costs.")  # fmt: skip
