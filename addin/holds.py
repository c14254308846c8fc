"""What nobody knew: entries answered unknown, and blanks that must be answered before a lift.

Covers   every unknown in the survey; blanks of the entries a release asks for; ground walls and columns without a
         footing. One item for a column of a sheet, naming its rows.
Not      whether an answer is good enough, which is worked out live (calc.release).
Signs    none.
Units    none.
Sources  common practice, no source: the list of what is asked for before lifting.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from addin.cross_house import cell_of, name_of, number_of, storey_of
from addin.entries import Entry, subject_of
from addin.layout import JOB, TABLES, UNKNOWN, Column, Sheet
from addin.problems import CellRef, Problem
from addin.reader import Reading, Row
from addin.survey_book import blank_text

ASKED_OF_JOB = ("cut_level", "bearing", "bearing_from", "empty", "wind_speed", "terrain", "instrument",
                "beams_left_in", "beams_known", "transfer_age", "engineer", "licence", "release_date")  # fmt: skip
"""Entries of Job that hold back the release while they are blank."""

ASKED = {
    "Walls": ("system", "stands_on", "mortar"),
    "Columns": ("system", "bars"),
    "Footings": ("plinth_thickness", "plinth_height", "width", "depth", "thickness", "seen"),
}
"""Columns that hold back the release while they are blank, for what stands on storey 1."""

NAMES_SHOWN = 8
"""More rows than this are counted and not named."""

_BEFORE_LIFTING = "it must be answered before lifting"


def unknowns(reading: Reading) -> list[Problem]:
    """Everything that is unknown or left open, as items that hold back the release.

    Args:
        reading: a survey without faults
    """
    return [*_of_job(reading), *_of_tables(reading), *_without_footing(reading)]


def _hold(where: CellRef, subject: str, found: str, rule: str, fix: str) -> Problem:
    return Problem(code="HOLD", where=where, subject=subject, found=found, rule=rule, fix=fix)


def _of_job(reading: Reading) -> Iterator[Problem]:
    beside = any(row["side"].value in ("shared", "touching", UNKNOWN) for row in reading.tables["Walls"])
    asked = {*ASKED_OF_JOB, *(("neighbours",) if beside else ())}
    for column in JOB:
        entry = reading.job[column.key]
        if entry.unknown or (entry.blank and column.key in asked):
            where = entry.where if entry.where.cell else CellRef("Job", "")
            rule = _BEFORE_LIFTING if column.key in asked else _stand_in(column)
            yield _hold(where, subject_of(column), _answer([entry]), rule, _fix(column))


def _of_tables(reading: Reading) -> Iterator[Problem]:
    for sheet in TABLES:
        for column in sheet.columns:
            open_rows = [row for row in reading.tables[sheet.title] if _is_open(sheet, column, row)]
            if not open_rows:
                continue
            asked = column.key in ASKED.get(sheet.title, ())
            names = _listed(dict.fromkeys(_label(sheet, row) for row in open_rows))
            rule = _BEFORE_LIFTING if asked else _stand_in(column)
            yield _hold(cell_of(open_rows[0], column.key), f"{subject_of(column)} of {names}",
                        _answer([row[column.key] for row in open_rows]), rule, _fix(column))  # fmt: skip


def _is_open(sheet: Sheet, column: Column, row: Row) -> bool:
    entry = row[column.key]
    if column.kind == "text":
        return entry.value is not None and str(entry.value).casefold() in (UNKNOWN, "?")
    if entry.unknown:
        return True
    if not entry.blank or column.key not in ASKED.get(sheet.title, ()):
        return False
    if sheet.title == "Columns" and column.key == "bars":
        return storey_of(row) == 1 and row["material"].value in (None, "Reinforced concrete")
    return sheet.title == "Footings" or storey_of(row) == 1


def _without_footing(reading: Reading) -> Iterator[Problem]:
    served: set[str] = set()
    for row in reading.tables["Footings"]:
        names = row["members"].value
        served.update(names if isinstance(names, tuple) else ())
    bare = [
        name_of(row) for title in ("Walls", "Columns") for row in reading.tables[title]
        if storey_of(row) == 1 and name_of(row) not in served
    ]  # fmt: skip
    if bare:
        yield _hold(CellRef("Footings", ""), f"footing of {_listed(bare)}", "not surveyed", _BEFORE_LIFTING,
                    "Open a pit at each kind of footing and add its row.")  # fmt: skip


def _label(sheet: Sheet, row: Row) -> str:
    first = row[sheet.columns[0].key].value
    label = " ".join(first) if isinstance(first, tuple) else str(first)
    depth = number_of(row, "depth") if sheet.title == "Ground" else None
    return f"{label} to {depth:.2g} m" if depth is not None else label


def _listed(names: Iterable[str]) -> str:
    """Names one after the other, the last ones counted where there are many.

    >>> _listed(["W1", "W2"])
    'W1, W2'
    """
    known = list(names)
    rest = len(known) - NAMES_SHOWN
    return ", ".join(known[:NAMES_SHOWN]) + (f" and {rest} more" if rest > 0 else "")


def _answer(entries: Sequence[Entry]) -> str:
    """How they were answered: unknown, blank, or some of each."""
    kinds: dict[str, int] = defaultdict(int)
    for entry in entries:
        kinds["blank" if entry.blank else UNKNOWN] += 1
    return " or ".join(kinds)


def _stand_in(column: Column) -> str:
    usual = blank_text(column)
    return "nothing stands in for it" if usual in (UNKNOWN, "nothing") else f"it is priced with {usual}"


def _fix(column: Column) -> str:
    words = "; ".join(word for word in column.choices if word != UNKNOWN)
    if words:
        return f"Choose one of: {words}."
    if column.kind in ("date", "text"):
        return "Enter the date." if column.kind == "date" else "Enter it."
    return "Look or measure, and enter it."
