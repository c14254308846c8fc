"""The entries of the sheet Lift log: where they stand, read back from an issued workbook, carried into the next one.

Covers   rows and columns of the sheet; what was typed there; whether a new plan still has a place for all of it; the
         entries in any kind of number.
Not      verdicts (calc.lift_log), drawing the sheet (lift_log_sheet).
Rules    What was typed on the day of the lift is never lost: it is carried over entire, or nothing is written.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from openpyxl.utils import get_column_letter

from addin.door import Raw, SheetRead, content_of, sheets_in
from addin.files import CannotWrite
from addin.guard import CannotRead
from addin.kinds import Cell, Kind
from addin.layout import SURVEY_TITLES
from addin.sheets import TABS
from calc.allowances import Allowances
from calc.estimate import Estimate, Prepared
from calc.lift_log import DRY, PEOPLE_OUT, RAIN, WATER, LiftLog, StageEntries, lift_log, log_limits
from calc.log_stations import LogStation, Pair, at_one_place, log_stations, stage_rises, station_pairs, without_stations
from calc.number import Name, Text, value_of, where
from calc.survey import Entered, Survey

LOG_SHEET = "Lift log"
FEWEST_STATIONS = 2
MOST_READINGS = 8000
"""Readings the sheet is made for; a house with more is logged by parts, or in a program for it."""

MOVED = 0.01
"""How far a station may stand from where it stood and be the same one [m]: half a centimetre each way of taping."""


@dataclass(frozen=True, slots=True)
class Item:
    """A row of entries, one a stage."""

    key: str
    label: str
    unit: str = ""
    calc_unit: str = ""
    choices: tuple[str, ...] = ()


ITEMS = (
    Item("day", "Date"), Item("hour", "Hour"),
    Item("load", "Load on all jacks", "kN", "kN"), Item("widening", "Crack gauges", "mm", "m"),
    Item("lean", "Plumb in 1 m", "mm", "m"), Item("wind", "Wind", "m/s", "m/s"),
    Item("water", "Rain or water", choices=(DRY, RAIN, WATER)), Item("gap", "Follow-up gap", "mm", "m"),
    Item("people_out", "People out", choices=(PEOPLE_OUT, "no")), Item("signed", "Signed by"),
)  # fmt: skip
"""What is entered at each stage besides the readings, in the order of the rows."""

ASKED_CELL = Cell(LOG_SHEET, 5, 3)
HEAD_ROW, TARGET_ROW, HOLD_ROW, VERDICT_ROW = 6, 7, 8, 9
ITEM_ROW = {item.key: 10 + order for order, item in enumerate(ITEMS)}
FOUND_ROW = {key: 10 + len(ITEMS) + order for order, key in enumerate(("levels", "mean", "tilted", "bent", "stop"))}
"""Rows of what is worked out at each stage."""
STATION_HEAD = max(FOUND_ROW.values()) + 1
FIRST_STATION = STATION_HEAD + 1
FIRST_STAGE = 6
"""Column of the first stage."""
HEAD, STATION = "Stage", "Station"
"""What stands over the marks, by which the rows are found again."""

Typed = Mapping[tuple[str, str], Any]
"""(row, stage) -> what was typed; a row goes by its key in ITEMS, or by the mark of its station."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Log:
    """The log of a house: its stations and stages, and what was typed."""

    stations: tuple[LogStation, ...]
    pairs: tuple[Pair, ...]
    stages: tuple[str, ...]
    without: tuple[str, ...] = ()
    """Walls and columns without a station."""
    typed: Typed = field(default_factory=dict)
    asked: object = None
    """The stage to look at, as typed."""

    @property
    def drawn(self) -> bool:
        """Whether the sheet has a table: there are neighbours to compare, and not more than it is made for."""
        readings = len(self.stations) * len(self.stages)
        few_or_many = len(self.stations) < FEWEST_STATIONS or readings > MOST_READINGS
        return not few_or_many and not at_one_place(self.stations, self.pairs)

    def column(self, stage: int) -> int:
        """Column of a stage, counted from 0."""
        return FIRST_STAGE + stage

    def row(self, station: int) -> int:
        """Row of a station, counted from 0."""
        return FIRST_STATION + station


def log_of(prepared: Prepared, found: Estimate, allowances: Allowances, sheets: Sequence[SheetRead]) -> Log:
    """The log for a plan, with what was typed into the one of the last issue.

    Args:
        prepared: the plan
        found: the results, in plain numbers
        allowances: in plain numbers
        sheets: the workbook that was read

    Raises:
        CannotWrite: entries of the last issue have no place in this log
    """
    stages = stage_names(value_of(found.levels.rise), value_of(allowances.lift_stage))
    stations = log_stations(prepared.jacks) if prepared.jacks else ()
    log = Log(stations=stations, pairs=station_pairs(stations, prepared.plan), stages=stages,
              without=without_stations(prepared.jacks) if prepared.jacks else ())  # fmt: skip
    earlier = earlier_log(sheets)
    if earlier is None or not (earlier.typed or earlier.stray):
        return log
    _check_place(earlier, log)
    return replace(log, typed=earlier.typed, asked=earlier.asked)


def stage_names(rise: float, step: float) -> tuple[str, ...]:
    """Names of the stages, each with its number.

    >>> stage_names(0.25, 0.1)
    ('1 Preload', '2 Breakaway', '3: 100 mm', '4: 200 mm', '5: 250 mm')
    """
    rises = (f"{order}: {1000 * rise:.0f} mm" for order, rise in enumerate(stage_rises(rise, step), start=3))
    return ("1 Preload", "2 Breakaway", *rises)


# ---------------------------------------------------------------------------------------------- read back


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class EarlierLog:
    """The log of an issued workbook as it was found."""

    places: Mapping[str, tuple[float, float]]
    typed: Typed
    asked: object
    stray: tuple[str, ...]
    """Cells with something typed that no mark stands beside, or whose formula has no result."""


def earlier_log(sheets: Sequence[SheetRead]) -> EarlierLog | None:
    """The log of the last issue; None where there is none."""
    cells = next((sheet.cells for sheet in sheets if sheet.title.casefold() == LOG_SHEET.casefold()), {})
    marks = {row: str(raw.value) for (row, column), raw in cells.items() if column == 1 and raw.value is not None}
    head = next((row for row, mark in marks.items() if mark == HEAD), None)
    first = next((row for row, mark in marks.items() if mark == STATION), None)
    if head is None or first is None:
        return None
    across = {column: str(raw.value) for (row, column), raw in cells.items() if row == head and column >= FIRST_STAGE}
    stages = {column: name for column, name in across.items() if name not in PLACE_HEADS}
    at = [next((c for c, name in across.items() if name == title), 0) for title in PLACE_HEADS]
    keys = {item.label: item.key for item in ITEMS}
    rows = {row: mark if row > first else keys[mark] for row, mark in marks.items() if row > first or mark in keys}
    typed = {(rows[row], stages[column]): raw.value for (row, column), raw in cells.items()
             if row in rows and column in stages and _is_typed(raw)}  # fmt: skip
    places = {rows[row]: (_number(cells.get((row, at[0]))), _number(cells.get((row, at[1]))))
              for row in rows if row > first}  # fmt: skip
    asked = cells.get((ASKED_CELL.row, ASKED_CELL.column))
    stray = tuple(f"{get_column_letter(column)}{row}" for (row, column), raw in cells.items()
                  if column in stages and row > head and row != first
                  and (raw.kind == "no value" if row in rows else _is_typed(raw) and not raw.formula))  # fmt: skip
    look_at = asked.value if asked and _is_typed(asked) else None
    return EarlierLog(places=places, typed=typed, asked=look_at, stray=stray)


PLACE_HEADS = ("East (m)", "North (m)")
"""Columns after the stages: where each station stands."""


def _is_typed(raw: Raw) -> bool:
    return raw.value is not None and str(raw.value).strip() != ""


def _number(raw: Raw | None) -> float:
    return float(raw.value) if raw and isinstance(raw.value, (int, float)) else float("nan")


def _check_place(earlier: EarlierLog, log: Log) -> None:
    """Raise unless all that was typed has its place in the new log, at jacks that stand where they stood."""
    stands = {station.name: (station.x, station.y) for station in log.stations}
    rows, stages = (dict.fromkeys(entry[part] for entry in earlier.typed) for part in (0, 1))
    lost = [f"{name} is gone" for name in {**earlier.places, **rows} if name not in stands and name not in ITEM_ROW]
    lost += [f"{name} stands elsewhere" for name, place in earlier.places.items()
             if name in stands and not _same_place(place, stands[name])]  # fmt: skip
    lost += [f"{name} is new" for name in stands if name not in earlier.places]
    lost += [f"stage {stage} is gone" for stage in stages if stage not in log.stages]
    lost += [f"{cell} has no mark beside it or no result" for cell in earlier.stray]
    if lost or not log.drawn:
        more = f" and {len(lost) - 3} more" if len(lost) > 3 else ""
        raise CannotWrite(
            f"Nothing was written: the sheet {LOG_SHEET} holds {len(earlier.typed)} entries made for another plan "
            f"({', '.join(lost[:3])}{more}). Keep a copy of the workbook as the record of that lift, clear the entries "
            f"of {LOG_SHEET}, and run this again."
        )


def _same_place(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return all(abs(a - b) <= MOVED for a, b in zip(one, other, strict=True))


def check_not_lost(target: Any) -> None:
    """Raise where a file that is about to be written over holds entries of a lift.

    Args:
        target: where an estimate is to be written

    Raises:
        CannotWrite: its log holds entries; one sentence
    """
    try:
        others = [title for title in (*TABS, *SURVEY_TITLES) if title != LOG_SHEET]
        log = earlier_log(sheets_in(target, content_of(target), others, (LOG_SHEET,)))
    except CannotRead:  # missing, or no workbook: there is no log to lose
        return
    if log and (log.typed or log.stray):
        raise CannotWrite(
            f"{target} is left as it is: its sheet {LOG_SHEET} holds {len(log.typed)} entries, which would be lost. "
            f"Refresh that workbook, or give another name with -o."
        )


# ---------------------------------------------------------------------------------------------- in a kind of number


def worked_log(log: Log, survey: Survey, found: Estimate, allowances: Allowances, kind: Kind) -> LiftLog:
    """The verdicts of the log.

    Args:
        log: stations, stages and what was typed
        survey: the entries, in that kind of number
        found: the results, in that kind of number
        allowances: in that kind of number
        kind: floats, or numbers that know their cell
    """
    limits = log_limits(survey, found.taken.house.lifted, found.lifting.working, allowances)
    stages = tuple(_stage(log, at, kind) for at in range(len(log.stages)))
    asked = _plain(log.asked)
    entered = Entered(value=kind.number(asked or 0.0, ASKED_CELL, "No", "No"), given=kind.given(asked, ASKED_CELL))
    return lift_log(log.stations, log.pairs, stages, entered, limits, len(log.without))


def _stage(log: Log, at: int, kind: Kind) -> StageEntries:
    name, column = log.stages[at], log.column(at)

    def number(item: Item) -> Entered:
        return _entered(log.typed.get((item.key, name)), Cell(LOG_SHEET, ITEM_ROW[item.key], column), item, kind)

    def text(key: str) -> Text:
        return kind.text(_text(log.typed.get((key, name))), Cell(LOG_SHEET, ITEM_ROW[key], column))

    day = log.typed.get(("day", name))
    items = {item.key: item for item in ITEMS}
    return StageEntries(
        name=Name(name),
        day=kind.given(1.0 if isinstance(day, date) else _plain(day), Cell(LOG_SHEET, ITEM_ROW["day"], column)),
        hour=text("hour"), load=number(items["load"]), widening=number(items["widening"]), lean=number(items["lean"]),
        wind=number(items["wind"]), water=text("water"), gap=number(items["gap"]), people_out=text("people_out"),
        signed=text("signed"),
        risen=tuple(_entered(log.typed.get((station.name, name)), Cell(LOG_SHEET, log.row(order), column), RISEN, kind)
                    for order, station in enumerate(log.stations)),
    )  # fmt: skip


RISEN = Item("risen", "Risen", "mm", "m")


def _entered(typed: object, cell: Cell, item: Item, kind: Kind) -> Entered:
    """An entry that counts as 0 where no number was typed, so that a sum over all of them is one of those given."""
    value = _plain(typed)
    given = kind.given(value, cell)
    return Entered(value=where(given, kind.number(value or 0.0, cell, item.unit, item.calc_unit), 0), given=given)


def _plain(typed: object) -> float | None:
    return float(typed) if isinstance(typed, (int, float)) and not isinstance(typed, bool) else None


def _text(typed: object) -> str:
    return "" if typed is None else str(typed)


def entry_cells(log: Log) -> Iterator[tuple[Cell, str, object]]:
    """Every entry cell of the sheet with the key of its row and what was typed."""
    for at, stage in enumerate(log.stages):
        for item in ITEMS:
            yield Cell(LOG_SHEET, ITEM_ROW[item.key], log.column(at)), item.key, log.typed.get((item.key, stage))
        for order, station in enumerate(log.stations):
            yield Cell(LOG_SHEET, log.row(order), log.column(at)), RISEN.key, log.typed.get((station.name, stage))
