"""From what was read to what calc takes: the survey in any kind of number, and its rows as they will be issued.

Covers   order of the issued rows, defaults of blanks, conversion to calc's units, outlines from corners.
Not      reading cells (reader), geometry that makes no sense (crosschecks).
Units    column units in, calc units out.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields
from datetime import date
from typing import Any, TypeVar

from addin import units
from addin.entries import Entry, folded, split_point
from addin.kinds import Cell, Kind
from addin.layout import FIRST_ROW, JOB, SHEET, TABLES, Column, Sheet
from addin.reader import Reading
from addin.survey_book import cell_value, shipped_rows
from calc.allowances import Allowances
from calc.member_rules import BaseRules, JackRules, MemberRules, PackingRules, SteelRules
from calc.number import Text, either, same, text_of, value_of, where, word_where
from calc.outlines import contains, counter_clockwise
from calc.survey import (
    Attached,
    Beam,
    Crack,
    Entered,
    Footing,
    GridLine,
    GridPoint,
    Job,
    KitItem,
    Material,
    Opening,
    Rate,
    Room,
    SiteThing,
    Survey,
    Use,
    Wall,
)
from calc.survey import Column as ColumnRecord
from calc.survey import Reading as LevelReading
from calc.walls import half_wall, line_offset

Record = TypeVar("Record")

Value = float | str | date | tuple[str, ...] | None

JOB_VALUE_COLUMN, JOB_DEFAULT_COLUMN = 2, 4
"""Columns B and D of the Job sheet: the entry, and what a blank stands for."""

CALC_UNIT = {"mm": "m", "mm2": "m2", "%": "-", "litre": "m3", "kPa": "kN/m2", "mm/kN": "m/kN"}
"""Column units that calc does not use, and what it uses instead."""


@dataclass(frozen=True, slots=True, kw_only=True)
class IssuedRow:
    """One row of a survey sheet as it is issued: values in column units, blanks left out."""

    number: int
    values: Mapping[str, Value]
    entries: Mapping[str, Entry]
    """The entries it came from; empty for a published row the file did not have."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Issued:
    """The whole survey as it is issued: clean values, in the order and rows of the issued workbook."""

    job: Mapping[str, Value]
    tables: Mapping[str, tuple[IssuedRow, ...]]


def issued(reading: Reading, *, keep_rows: bool = False) -> Issued:
    """The rows of a survey as they will stand in the issued workbook.

    On a sheet with published rows those come first, with the user's changes, then the user's own. With `keep_rows` each
    row stays where the survey has it, and published rows that it lacks come after its last.
    """
    tables: dict[str, tuple[IssuedRow, ...]] = {}
    for sheet in TABLES:
        read = [(row.number, _values(row.entries), dict(row.entries)) for row in reading.tables[sheet.title]]
        shipped = {_folded(row): {k: v for k, v in row.items() if v != ""} for row in shipped_rows(sheet)}
        known = {_folded(values) for _, values, _ in read}
        missing: list[tuple[int, dict[str, Value], dict[str, Entry]]] = [
            (0, dict(row), {}) for name, row in shipped.items() if name not in known
        ]
        read = [(number, {**shipped.get(_folded(values), {}), **values}, entries) for number, values, entries in read]
        if keep_rows:
            after = max((number for number, _, _ in read), default=FIRST_ROW - 1) + 1
            placed = read + [(number, row, {}) for number, (_, row, _) in enumerate(missing, start=after)]
        else:
            order = {name: at for at, name in enumerate(shipped)}
            ordered = sorted([*missing, *read], key=lambda row: order.get(_folded(row[1]), len(order)))
            placed = [(number, row, entries) for number, (_, row, entries) in enumerate(ordered, start=FIRST_ROW)]
        tables[sheet.title] = tuple(
            IssuedRow(number=number, values=values, entries=entries) for number, values, entries in placed
        )
    return Issued(job=_values(reading.job), tables=tables)


def _folded(values: Mapping[str, Value]) -> str:
    return str(values.get("name", "")).casefold()


def _values(entries: Mapping[str, Entry]) -> dict[str, Value]:
    """Values of a row; an unknown is written as the word."""
    return {key: "unknown" if e.unknown else e.value for key, e in entries.items() if e.unknown or e.value is not None}


class _Row:
    """One issued row, handing out its entries in a kind of number."""

    def __init__(self, sheet: Sheet, row: IssuedRow, kind: Kind, allowances: Allowances) -> None:
        self.sheet, self.row, self.kind, self.allowances = sheet, row, kind, allowances
        self._columns = {column.key: (order, column) for order, column in enumerate(sheet.columns, start=1)}

    def _at(self, key: str) -> tuple[Cell, Column, Value]:
        order, column = self._columns[key]
        return Cell(self.sheet.title, self.row.number, order), column, self.row.values.get(key)

    def allowance(self, key: str) -> Any:
        """An allowance."""
        return getattr(self.allowances, key)

    def number(self, key: str, default: Any = None) -> Any:
        """A number, or its default where it is blank or unknown."""
        cell, column, value = self._at(key)
        unit = CALC_UNIT.get(column.unit, column.unit)
        if default is not None:
            return self.kind.number_or(_number(value), cell, column.unit, unit, default)
        if column.required:
            assert isinstance(value, (int, float)), f"{self.sheet.title} {key} passed the reader without a number"
            return self.kind.number(value, cell, column.unit, unit)
        usual: Any = column.default or 0
        if isinstance(column.default, str):
            usual = self.allowance(column.default.removeprefix("="))
        elif column.default is not None and column.default != 0:
            raise TypeError(f"{self.sheet.title} {key}: the default of a column that calc uses stands on Allowances")
        return self.kind.number_or(_number(value), cell, column.unit, unit, usual)

    def cell_number(self, key: str) -> Any:
        """The number of a cell, 0 where it is empty, as a sheet takes it: so that a look-up finds the cell itself."""
        cell, column, value = self._at(key)
        return self.kind.number(_number(value) or 0.0, cell, column.unit, CALC_UNIT.get(column.unit, column.unit))

    def entered(self, key: str) -> Entered:
        """A number that may not have been given; an empty cell counts as 0."""
        cell, _, value = self._at(key)
        return Entered(value=self.cell_number(key), given=self.kind.given(_number(value), cell))

    def text(self, key: str, default: Text | None = None) -> Text:
        """A text, or its default where it is blank."""
        cell, column, value = self._at(key)
        usual = str(column.default or "") if default is None else default
        written = cell_text(value)
        return self.kind.text(written, cell) if column.required else self.kind.text_or(written, cell, usual)

    def plain(self, key: str) -> str:
        """A choice the plan depends on, fixed at issue."""
        _, column, value = self._at(key)
        return str(value) if value is not None else str(column.default or "")

    def names(self, key: str) -> tuple[str, ...]:
        """Several names."""
        value = self.row.values.get(key)
        return value if isinstance(value, tuple) else (str(value),) if value else ()

    def storey(self) -> int:
        """The storey, fixed at issue."""
        return int(_number(self.row.values["storey"]) or 1)

    def point(self, key: str) -> GridPoint:
        """A grid point, fixed at issue."""
        return GridPoint(*split_point(str(self.row.values[key])))


def cell_text(value: Value) -> str:
    """A value as its cell shows it."""
    shown = cell_value(value)
    return "" if shown is None else str(shown)


def _number(value: Value) -> float | None:
    return float(value) if isinstance(value, (int, float)) else None


def build_allowances(rows: Issued, kind: Kind) -> Allowances:
    """The allowances in a kind of number; each stands in calc's unit already."""
    return _of_allowances(Allowances, rows, kind)


def build_rules(rows: Issued, kind: Kind) -> MemberRules:
    """The figures of the rules members are checked by, in a kind of number; they stand on the same sheet."""
    return MemberRules(
        steel=_of_allowances(SteelRules, rows, kind), packing=_of_allowances(PackingRules, rows, kind),
        bases=_of_allowances(BaseRules, rows, kind), jacks=_of_allowances(JackRules, rows, kind),
    )  # fmt: skip


def _of_allowances(record: type[Record], rows: Issued, kind: Kind) -> Record:
    by_name = {row.values["name"]: row for row in rows.tables["Allowances"]}
    column = [c.key for c in SHEET["Allowances"].columns].index("value") + 1
    numbers = {}
    for field in fields(record):  # type: ignore[arg-type]  # a dataclass, as every record asked for is
        row = by_name[field.name]
        unit = field.metadata["unit"]
        value = _number(row.values["value"])
        assert value is not None, f"allowance {field.name} passed the reader without a number"
        numbers[field.name] = kind.number(value, Cell("Allowances", row.number, column), unit, unit)
    return record(**numbers)


def build_survey(rows: Issued, kind: Kind, allowances: Allowances) -> Survey:
    """The survey in a kind of number. Only call it when no fault stands: it takes the reader's word for each entry."""
    letters, numbers = _grid(rows, kind, allowances)

    def each(title: str) -> Iterator[_Row]:
        return (_Row(SHEET[title], row, kind, allowances) for row in rows.tables[title])

    return Survey(
        job=_job(rows, kind), letters=letters, numbers=numbers,
        rooms=_rooms([*each("Rooms")], letters, numbers),
        walls=tuple(
            Wall(name=r.text("name"), storey=r.storey(), start=r.point("start"), end=r.point("end"),
                 thickness=r.number("thickness"), height=r.number("height"), level=r.number("storey"),
                 masonry=r.text("masonry"),
                 plastered=r.number("plastered"), at_lift=r.text("at_lift"), system=r.text("system"),
                 stands_on=r.text("stands_on"), side=r.text("side"), mortar=r.text("mortar"))
            for r in each("Walls")
        ),
        openings=tuple(
            Opening(wall=r.text("wall"), kind=r.text("kind"), from_start=r.number("from_start"),
                    width=r.number("width"), height=r.number("height"), sill=_sill(r),
                    block_up=r.text("block_up"))
            for r in each("Openings")
        ),
        beams=tuple(
            Beam(name=r.text("name"), storey=r.storey(), start=r.point("start"), end=r.point("end"),
                 breadth=r.number("breadth"), depth=r.number("depth"), carries_slab=r.plain("carries_slab"),
                 bears_on=r.names("bears_on"), plinth_beam=r.plain("plinth_beam"))
            for r in each("Beams")
        ),
        columns=tuple(
            ColumnRecord(name=r.text("name"), storey=r.storey(), point=r.point("point"), breadth=r.number("breadth"),
                         depth=r.number("depth"), height=r.number("height"), material=r.text("material"),
                         bars=r.entered("bars"), system=r.text("system"))
            for r in each("Columns")
        ),
        attached=tuple(_attached(r) for r in each("Attached")),
        footings=tuple(
            Footing(label=r.text("members"), members=r.names("members"),
                    plinth_thickness=r.number("plinth_thickness"), plinth_height=r.number("plinth_height"),
                    width=r.number("width"), depth=r.number("depth"), thickness=r.number("thickness"),
                    material=r.text("material"), seen=r.text("seen"))
            for r in each("Footings")
        ),
        readings=tuple(
            LevelReading(what=r.text("what"), level=r.number("level"),
                         point=grid_point(r.plain("point"), letters, numbers))
            for r in each("Levels")
        ),
        cracks=tuple(
            Crack(what=r.text("what"), where=r.plain("where"), length=r.number("length"), live=r.text("live"))
            for r in each("Condition")
        ),
        materials=tuple(Material(name=r.text("name"), unit_weight=r.number("unit_weight")) for r in each("Materials")),
        uses=tuple(Use(name=r.text("name"), imposed=r.number("imposed")) for r in each("Uses")),
        kit=tuple(_kit(r) for r in each("Kit")),
        site=tuple(
            SiteThing(kind=r.plain("kind"), what=r.text("what"), distance=r.entered("distance"),
                      depth=r.entered("depth"))
            for r in each("Site")
        ),
        rates=tuple(Rate(code=r.text("name"), rate=r.cell_number("rate")) for r in each("Rates")),
    )  # fmt: skip


def _kit(row: _Row) -> KitItem:
    """One thing of the kit; the size of a beam is its length where it reads as one."""
    try:
        length = units.read_number(row.plain("size"), "m").value if row.plain("type") == "carrier beam" else 0.0
    except units.NotUnderstood:
        length = 0.0
    return KitItem(
        name=row.text("name"), kind=row.plain("type"), rating=row.entered("rating"), stroke=row.entered("stroke"),
        closed=row.entered("closed_height"), number=row.entered("number"),
        length=Entered(value=length, given=length > 0),
    )  # fmt: skip


def grid_point(typed: str, letters: Sequence[GridLine], numbers: Sequence[GridLine]) -> GridPoint | None:
    """The grid point at which a level was read: all of the entry or its last word, such as `top A1`; else None.

    Args:
        typed: the entry
        letters: the letter lines there are
        numbers: the number lines there are
    """
    known = [{folded(text_of(line.name)): text_of(line.name) for line in lines} for lines in (letters, numbers)]
    for word in (typed, *typed.split()[-1:]):
        try:
            letter, number = (folded(part) for part in split_point(word))
        except ValueError:
            continue
        if letter in known[0] and number in known[1]:
            return GridPoint(known[0][letter], known[1][number])
    return None


def _sill(row: _Row) -> Any:
    """A blank sill is a window's; a door goes down to the floor."""
    return row.number("sill", where(same(row.text("kind"), "door"), 0, row.allowance("sill_height")))


def _attached(row: _Row) -> Attached:
    kind = row.text("kind")
    upright = either(same(kind, "parapet"), same(kind, "hanging wall"))
    usual = word_where(upright, "Brick masonry", "Reinforced concrete")
    return Attached(
        name=row.text("name"), kind=kind, on=row.names("on")[0], from_start=row.entered("from_start"),
        length=row.entered("length"), thickness=row.number("thickness"), size=row.number("size"),
        weight=row.entered("weight"), water=row.number("water"), material=row.text("material", usual),
        support=row.text("support"),
    )  # fmt: skip


def _grid(rows: Issued, kind: Kind, allowances: Allowances) -> tuple[tuple[GridLine, ...], tuple[GridLine, ...]]:
    """Letter lines and number lines. A blank offset follows from the line before, the clear size and the walls."""
    lines: dict[bool, list[GridLine]] = {True: [], False: []}
    for issued_row in rows.tables["Grid"]:
        row = _Row(SHEET["Grid"], issued_row, kind, allowances)
        letter = str(issued_row.values["name"])[0].isalpha()
        wall, clear = row.cell_number("wall"), row.cell_number("clear")
        half = half_wall(wall)
        before = lines[letter][-1] if lines[letter] else None
        usual = line_offset(before.offset, before.half, clear, half) if before else half * 0
        lines[letter].append(
            GridLine(name=row.text("name"), wall=wall, half=half, clear=clear, offset=row.number("offset", usual))
        )
    return tuple(lines[True]), tuple(lines[False])


def _rooms(rows: Sequence[_Row], letters: Sequence[GridLine], numbers: Sequence[GridLine]) -> tuple[Room, ...]:
    xs = {text_of(line.name): value_of(line.offset) for line in letters}
    ys = {text_of(line.name): value_of(line.offset) for line in numbers}
    outlines = [_outline(row, xs, ys) for row in rows]
    places = [tuple((xs[p.letter], ys[p.number]) for p in outline) for outline in outlines]
    centres = [_inside(place) for place in places]
    rooms = []
    for row, outline, centre in zip(rows, outlines, centres, strict=True):
        over = [
            other.text("use") for other, place in zip(rows, places, strict=True)
            if other.storey() == row.storey() + 1 and contains(place, centre)
        ]  # fmt: skip
        pitched = row.plain("above") == "pitched roof"
        usual = "Pitched roof" if pitched else over[0] if over else "Roof with access"
        rooms.append(Room(
            name=row.text("name"), storey=row.storey(), outline=outline, use=row.text("use"),
            above=row.plain("above"), slab_thickness=row.number("slab"), soffit=row.cell_number("soffit"),
            finish=row.number("finish"), slope=row.number("slope"), span=row.plain("span"),
            carries=row.text("carries", usual), floor=row.plain("floor"),
        ))  # fmt: skip
    return tuple(rooms)


def _outline(row: _Row, xs: Mapping[str, float], ys: Mapping[str, float]) -> tuple[GridPoint, ...]:
    """Corners in order, anticlockwise."""
    named = row.names("outline")
    if named:
        points = [GridPoint(*split_point(name)) for name in named]
    else:
        a, b = row.point("corner"), row.point("opposite")
        points = [a, GridPoint(b.letter, a.number), b, GridPoint(a.letter, b.number)]
    places = tuple((xs[p.letter], ys[p.number]) for p in points)
    turned, _ = counter_clockwise(places)
    return tuple(points) if turned == places else tuple(reversed(points))


def _inside(outline: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """A point well inside: the middle of the largest triangle at a corner that lies inside."""
    best, place = -1.0, outline[0]
    for at, (x, y) in enumerate(outline):
        (x1, y1), (x2, y2) = outline[at - 1], outline[(at + 1) % len(outline)]
        size = (x - x1) * (y2 - y) - (y - y1) * (x2 - x)
        middle = ((x + x1 + x2) / 3, (y + y1 + y2) / 3)
        if size > best and contains(outline, middle):
            best, place = size, middle
    return place


def _job(rows: Issued, kind: Kind) -> Job:
    numbers: dict[str, Any] = {}
    wanted = {field.name: field for field in fields(Job)}
    for number, column in enumerate(JOB, start=FIRST_ROW):
        if column.key not in wanted:
            continue
        cell, value = Cell("Job", number, JOB_VALUE_COLUMN), rows.job.get(column.key)
        unit = CALC_UNIT.get(column.unit, column.unit)
        if column.kind == "date":
            dated = 1.0 if value is not None else None
            numbers[column.key] = Entered(value=dated or 0.0, given=kind.given(dated, cell))
        elif column.kind != "number":
            text = "" if value is None else str(value)
            usual = str(column.default or "")
            live = wanted[column.key].type is not str
            numbers[column.key] = kind.text_or(text, cell, usual) if live else text or usual
        if column.kind != "number":
            continue
        usual_number: Any = 0
        if isinstance(column.default, (int, float)):
            beside = Cell("Job", number, JOB_DEFAULT_COLUMN)
            usual_number = kind.number(float(column.default), beside, column.unit, unit)
        there = kind.number_or(_number(value), cell, column.unit, unit, usual_number)
        entered = wanted[column.key].type is Entered
        numbers[column.key] = Entered(value=there, given=kind.given(_number(value), cell)) if entered else there
    return Job(**numbers)
