"""What everything else hangs on: names, grid, closing tapes, levels.

Covers   names used twice, kept back or misspelt, grid lines without or at the same offset, tapes against the grid,
         levels and the rise that follows from them.
Not      one cell's meaning (entries), rooms and walls.
Signs    levels above the ground beside the house.
Units    m.
Sources  1 % or 50 mm of a closing tape, 1 m between readings of one kind: common practice, no source.
"""

import math
import re
from dataclasses import fields
from itertools import pairwise

from addin.cross_house import Findings, House, cell_of, metres, name_of, number_of
from addin.entries import folded, shown, split_point
from addin.problems import CellRef
from addin.reader import Reading, Row
from calc.allowances import Allowances
from calc.levels import levels_of, reading_rows
from calc.number import text_of, value_of
from calc.own_loads import FREE
from calc.plan_rows import TOLERANCE
from calc.survey import GridLine, GridPoint
from calc.take_down_rows import NOT_SURVEYED

TAPE_SHARE, TAPE_GAP = 0.01, 0.05
"""A tape may differ from the grid by this share and by this much [m], whichever is less."""

FAR_READING = 1.0
"""Two readings of one kind this far apart [m] are more likely a misread staff than a slope."""

_ROUNDING = 1e-9
_NAMED = ("Walls", "Beams", "Columns", "Rooms")
_KEPT_BACK = {folded(FREE), folded(NOT_SURVEYED)}
_PLAIN_LINE = re.compile("([A-Z]+|[0-9]+)", re.IGNORECASE)


def check_names(reading: Reading, found: Findings) -> None:
    """Names of walls, beams, columns and rooms: loads are handed from one to the other by name."""
    seen: dict[str, CellRef] = {}
    for title in _NAMED:
        for row in reading.tables[title]:
            name, where = name_of(row), row["name"].where
            if folded(name) in _KEPT_BACK:
                found.fault("NAME-RESERVED", where, "the name", shown(name), "the results use it for what has no name",
                            "Choose another name, such as W1.")  # fmt: skip
            earlier = seen.setdefault(folded(name), where)
            if earlier is not where:
                found.fault("NAME-TWICE", where, "the name", shown(name),
                            f"{earlier} has it already, and loads go from one to the other by name",
                            "Give one of them another name.")  # fmt: skip
    for row in reading.tables["Rooms"]:
        floor = f"{name_of(row)} floor"
        if row["floor"].value == "suspended" and folded(floor) in seen:
            found.fault("NAME-TWICE", seen[folded(floor)], "the name", shown(floor),
                        f"the suspended floor of room {name_of(row)} goes by it", "Choose another name.")  # fmt: skip


def check_spellings(reading: Reading, found: Findings) -> None:
    """Allowances are asked for by name, capitals and all; the reader lets a name typed in other capitals pass."""
    names = {folded(field.name): field.name for field in fields(Allowances)}
    for row in reading.tables["Allowances"]:
        wanted = names.get(folded(name_of(row)))
        if wanted and wanted != name_of(row):
            found.fault("NAME-SPELLING", row["name"].where, "the name", shown(name_of(row)),
                        "the calculation asks for it in its own spelling", f"Type {wanted}.")  # fmt: skip


def check_grid(house: House, found: Findings) -> None:
    """Two lines at least each way, every line with a place of its own."""
    rows = {name_of(row): row for row in house.table("Grid")}
    for what, example, lines in (
        ("letter", "B", house.survey.letters), ("number", "2", house.survey.numbers),
    ):  # fmt: skip
        if len(lines) < 2:
            last = house.table("Grid")[-1]
            found.fault("GRID-TOO-FEW", cell_of(last, "name"), f"the number of {what} lines", str(len(lines)),
                        "a house needs two each way", f"Add a row for line {example} with its offset.")  # fmt: skip
        without = _without_place([rows[text_of(line.name)] for line in lines], what, found)
        placed = [line for line in lines if text_of(line.name) not in without]
        _check_same(placed, rows, found)
        _check_order(placed, rows, found)
        _check_clear(lines, rows, found)


def _without_place(rows: list[Row], what: str, found: Findings) -> set[str]:
    without = set()
    for before, row in pairwise(rows):
        if number_of(row, "offset") is None and number_of(row, "clear") is None:
            without.add(name_of(row))
            found.fault("GRID-NO-OFFSET", cell_of(row, "offset"), f"the place of line {name_of(row)}", "blank",
                        f"only the first {what} line may leave out both offset and clear size",
                        f"Type its offset, or the clear size from line {name_of(before)}.")  # fmt: skip
    return without


def _check_same(lines: list[GridLine], rows: dict[str, Row], found: Findings) -> None:
    for order, line in enumerate(lines):
        for other in lines[:order]:
            offset = value_of(line.offset)
            if abs(offset - value_of(other.offset)) <= TOLERANCE:
                name = text_of(line.name)
                key = "offset" if number_of(rows[name], "offset") is not None else "clear"
                found.fault("GRID-SAME", cell_of(rows[name], key), f"line {name}", f"at {metres(offset)}",
                            f"line {text_of(other.name)} is there already",
                            "Correct the offset, or take one of the lines out and use the other.")  # fmt: skip
                break


def _check_order(lines: list[GridLine], rows: dict[str, Row], found: Findings) -> None:
    """Lines with plain names go one way, A B C or 1 2 3; a line that turns back is likely a slip."""
    plain = [line for line in lines if _PLAIN_LINE.fullmatch(text_of(line.name))]
    plain.sort(key=lambda line: (len(text_of(line.name)), text_of(line.name).upper()))
    if len(plain) < 3:
        return
    offsets = [value_of(line.offset) for line in plain]
    way = 1 if offsets[-1] >= offsets[0] else -1
    for before, line in pairwise(plain):
        if way * (value_of(line.offset) - value_of(before.offset)) < 0:
            name = text_of(line.name)
            found.warn("GRID-ORDER", cell_of(rows[name], "offset"), f"line {name}",
                       f"at {metres(value_of(line.offset))}",
                       f"line {text_of(before.name)} is at {metres(value_of(before.offset))}, so the lines turn back",
                       "Check the offset; nothing needs doing if the lines run so.")  # fmt: skip
            return


def _check_clear(lines: tuple[GridLine, ...], rows: dict[str, Row], found: Findings) -> None:
    """Where a line has both an offset and a clear size, the offset counts and the clear size is a check."""
    for before, line in pairwise(lines):
        row = rows[text_of(line.name)]
        clear = number_of(row, "clear")
        if clear is None or number_of(row, "offset") is None:
            continue
        walls = [(number_of(r, "wall") or 0.0) / 2000 for r in (rows[text_of(before.name)], row)]
        left = abs(value_of(line.offset) - value_of(before.offset)) - sum(walls)
        if _out(clear, left):
            found.warn("GRID-CLEAR", cell_of(row, "clear"), f"the clear size before line {text_of(line.name)}",
                       metres(clear), f"the offsets leave {metres(left)} between the walls, and the offsets count",
                       "Measure again, or leave one of them blank.")  # fmt: skip


def _out(measured: float, drawn: float) -> bool:
    return abs(measured - drawn) > min(TAPE_SHARE * abs(drawn), TAPE_GAP) + _ROUNDING


def check_tapes(house: House, found: Findings) -> None:
    """Closing tapes against the grid."""
    for row in house.table("Tapes"):
        start, end = (GridPoint(*split_point(str(row[key].value))) for key in ("start", "end"))
        drawn, tape = math.dist(house.at(start), house.at(end)), number_of(row, "length") or 0.0
        if _out(tape, drawn):
            found.warn("TAPE", cell_of(row, "length"), f"the tape from {start} to {end}", metres(tape),
                       f"the grid makes it {metres(drawn)}, more than 1 % or 50 mm away",
                       "Measure again, or correct the offsets on Grid.")  # fmt: skip


def check_levels(house: House, found: Findings) -> None:
    """Where the rise comes from, and heights that contradict one another."""
    job, rise = house.reading.job, house.reading.job["rise"]
    levels = levels_of(house.survey.job, reading_rows(house.survey.readings))
    reason = job["reason"].value
    if rise.blank and not (levels.road_known or levels.flood_known or levels.plinth_known):
        found.fault("LEVELS-MISSING", rise.where, "the rise", "blank",
                    "neither plinth nor road nor flood is known, so none can be worked out",
                    "Give a Rise, or the levels it follows from: plinth, road or flood on Job, or readings with one of "
                    "ground on Levels.")  # fmt: skip
        return
    if rise.blank and not levels.plinth_known:
        found.warn("LEVELS-NO-PLINTH", job["plinth"].where, "the existing plinth", "not known",
                   "the rise is worked out as if the floor lay level with the ground",
                   "Give the plinth, or readings of floor and ground on Levels.")  # fmt: skip
    _check_ground(house, found)
    _check_readings(house, found)
    if value_of(levels.rise) <= 0 and reason != "levelling":
        found.warn("RISE-ZERO", rise.where, "the rise", "0", "then nothing is raised: the floor is at "
                   f"{metres(value_of(levels.plinth))} and {metres(value_of(levels.needed))} is needed",
                   "Check the levels and clearances, or type the rise the owner wants.")  # fmt: skip
    if not rise.blank and value_of(levels.rise) < value_of(levels.least_rise) - TOLERANCE:
        found.warn("RISE-SHORT", rise.where, "the rise", metres(value_of(levels.rise)),
                   f"the levels call for {metres(value_of(levels.least_rise))}: the floor would still lie below what "
                   f"the {text_of(levels.by_levels)} needs", "Ask the owner again, in writing.")  # fmt: skip
    plinth = value_of(levels.plinth)
    if levels.flood_known and levels.plinth_known and value_of(levels.flood) <= plinth and reason == "flooding":
        found.warn("FLOOD-LOW", job["flood"].where, "the flood mark", f"{metres(value_of(levels.flood))} above ground",
                   f"the floor lies higher, at {metres(plinth)}, and the reason is flooding",
                   "Check the mark and the plinth.")  # fmt: skip
    if (
        levels.road_known
        and levels.plinth_known
        and value_of(levels.road) < plinth
        and reason == ("road higher than plinth")
    ):
        found.warn("ROAD-LOW", job["road"].where, "the road", f"{metres(value_of(levels.road))} above ground",
                   f"the floor lies higher, at {metres(plinth)}, and the reason is a road higher than the plinth",
                   "Check the road and the plinth.")  # fmt: skip
    for known, height, key, what in (
        (levels.plinth_known, levels.plinth, "plinth", "the floor"),
        (levels.flood_known, levels.flood, "flood", "the flood mark"),
    ):
        if known and value_of(height) < 0:
            found.warn("LEVEL-BELOW-GROUND", job[key].where, what, f"{metres(-value_of(height))} below ground",
                       "it should lie above", "Check the readings on Levels and which way they count.")  # fmt: skip


def _check_ground(house: House, found: Findings) -> None:
    """Readings that count for nothing because the ground beside the house was not read."""
    rows, job = house.table("Levels"), house.reading.job
    if not rows or any(row["what"].value == "ground" for row in rows):
        return
    wanted = {"floor": "plinth", "plinth top": "plinth", "road": "road", "flood mark": "flood"}
    for row in rows:
        key = wanted.get(str(row["what"].value))
        if key and not isinstance(job[key].value, float):
            found.warn("LEVELS-NO-GROUND", cell_of(row, "what"), f"the reading of the {row['what'].value}",
                       "without one of the ground", f"the {key} counts above ground, so the reading is left out",
                       "Add readings of the ground beside the house.")  # fmt: skip
            return


def _check_readings(house: House, found: Findings) -> None:
    first: dict[str, float] = {}
    for row in house.table("Levels"):
        what, level = str(row["what"].value), number_of(row, "level") or 0.0
        earlier = first.setdefault(what, level)
        if abs(level - earlier) > FAR_READING:
            found.warn("LEVEL-FAR", cell_of(row, "level"), f"the level of {shown(str(row['point'].value))}",
                       f"{level:.3f} m", f"another {what} reads {earlier:.3f} m, and their mean is used",
                       "Check the reading; on a slope read the ground close to the house.")  # fmt: skip
