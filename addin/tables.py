"""The published tables and project lists that ship as templates/data/*.csv, read into frozen rows.

Covers   finding the file in the installed package or the source tree, checking every cell, one record per row.
Not      what a figure is used for (calc), conversion to the units calc works in (addin.units), the survey's own copy.
Signs    as printed.
Units    each header states its unit in square brackets and must be the unit of the record's field: rows stay in the
         unit their source prints (steel sections in mm, cm2, cm3, cm4).
Sources  in the `source` column of every row; `read` says whether anybody saw the page.
"""

import csv
import io
import math
import re
from dataclasses import MISSING, Field, dataclass, fields
from functools import cache
from importlib.resources import files
from typing import Any, TypeVar

from addin.units import factor
from calc.carrier_sections import CarrierSection
from calc.fields import note, quantity, unit_of
from calc.jack_supports import PlanBasis
from calc.jack_types import JackType
from calc.member_rules import MemberRules
from calc.packing import Timber

READ_MARKS = ("read", "second hand", "memory", "common practice")
"""How far a figure can be trusted: page read, quoted by another, from memory, trade habit without a source."""

Row = dict[str, str | float | None]
Record = TypeVar("Record")

_SOURCE = "code or book, edition, table or clause"
_READ = "one of READ_MARKS"
_HEADER = re.compile(r"(\w+)(?: \[(.+)\])?")


class TableError(ValueError):
    """A table that ships with the program is damaged or missing; names the file and the line."""

    def __init__(self, name: str, line: int, message: str) -> None:
        super().__init__(name, line, message)
        self.name, self.line, self.message = name, line, message

    def __str__(self) -> str:
        return f"templates/data/{self.name}.csv, line {self.line}: {self.message}"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Material:
    """A material and what it weighs."""

    name: str = note("as the survey's Materials sheet lists it")
    unit_weight: float = quantity("kN/m3", "in place, joints included")
    source: str = note(_SOURCE)
    read: str = note(_READ)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Use:
    """A use of a floor or roof and the load it brings."""

    name: str = note("as the survey's Uses sheet lists it")
    imposed: float = quantity("kN/m2", "uniform imposed load on plan")
    source: str = note(_SOURCE)
    read: str = note(_READ)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Soil:
    """A soil or rock by name and the pressure presumed safe on it."""

    name: str = note("as the survey's Soils sheet lists it")
    bearing: float = quantity("kPa", "presumed safe bearing pressure, for a first budget only")
    source: str = note(_SOURCE)
    read: str = note(_READ)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Covering:
    """A roof covering, floor finish or ceiling by area."""

    name: str = note("with its thickness where that sets the weight")
    part: str = note("roof, floor or ceiling")
    weight: float = quantity("kN/m2", "on a roof per area of slope, else per area of plan")
    source: str = note(_SOURCE)
    read: str = note(_READ)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Section:
    """A rolled steel section, in the units steel tables print. None: the edition that was read does not give it."""

    name: str = note("designation")
    shape: str = note("beam or channel")
    mass: float = quantity("kg/m", "mass per length")
    area: float | None = quantity("cm2", "cross-section", default=None)
    depth: float = quantity("mm", "overall, h")
    width: float = quantity("mm", "of the flange, b")
    web_thickness: float = quantity("mm", "tw")
    flange_thickness: float = quantity("mm", "mean of a tapered flange, tf")
    root_radius: float | None = quantity("mm", "between web and flange, R", default=None)
    depth_between_fillets: float | None = quantity("mm", "straight part of the web, d", default=None)
    ixx: float = quantity("cm4", "second moment about the strong axis")
    iyy: float | None = quantity("cm4", "second moment about the weak axis", default=None)
    zex: float = quantity("cm3", "elastic modulus about the strong axis")
    zpx: float | None = quantity("cm3", "plastic modulus about the strong axis", default=None)
    edition: str = note("edition whose row this is: editions print different rows under one designation")
    source: str = note(_SOURCE)
    read: str = note(_READ)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Consumption:
    """What one unit of work uses of one resource: material, labour or plant."""

    what: str = note("the work")
    unit: str = note("of the work: m3 or m2")
    resource: str = note("what is used")
    amount: float = note("in `resource_unit` for each `unit` of the work")
    resource_unit: str = note("kg, m3, No or day (of 8 hours)")
    source: str = note(_SOURCE)
    read: str = note(_READ)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Allowance:
    """A figure used where nothing was surveyed, or a convention with a number in it."""

    key: str = note("name by which the program asks for it")
    description: str = note("what it is, for the Allowances sheet")
    value: float = note("in `unit`")
    unit: str = note("of the value; - is a ratio, No a count")
    least: float = note("smallest value the calculation takes, in `unit`")
    most: float = note("greatest value the calculation takes, in `unit`")
    source: str = note("where it comes from, common practice included")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MemberRule:
    """A figure of a rule that beams, packing, bases or jacks are checked by."""

    key: str = note("name by which the program asks for it")
    description: str = note("what it is")
    value: float = note("in `unit`")
    unit: str = note("of the value; - is a ratio, No a count")
    least: float = note("smallest value the calculation takes, in `unit`")
    most: float = note("greatest value the calculation takes, in `unit`")
    source: str = note(_SOURCE)
    read: str = note(_READ)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Item:
    """An item of work that may be measured and priced."""

    code: str = note("stable code")
    description: str = note("as the bill prints it")
    stage: str = note("stage of work it belongs to")
    unit: str = note("of its quantity")
    gang_note: str = note("the gang or plant it takes, for the programme; may be blank", default="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumption:
    """A convention or assumption, printed on the Basis sheet."""

    topic: str = note("what it is about")
    statement: str = note("one or two sentences")
    source: str = note("where it comes from")


_RECORDS: dict[str, tuple[type[Any], tuple[str, ...]]] = {
    "materials": (Material, ("name",)),
    "uses": (Use, ("name",)),
    "soils": (Soil, ("name",)),
    "coverings": (Covering, ("name",)),
    "sections": (Section, ("name",)),
    "consumption": (Consumption, ("what", "unit", "resource")),
    "allowances": (Allowance, ("key",)),
    "items": (Item, ("code",)),
    "assumptions": (Assumption, ("statement",)),
    "member_rules": (MemberRule, ("key",)),
    "timbers": (Timber, ("name",)),
    "jack_types": (JackType, ("name",)),
}
"""Each table's record, and the columns that together may not repeat."""


def load(name: str) -> tuple[Row, ...]:
    """The rows of one table, in file order, figures as floats.

    Args:
        name: one of the tables, without folder or ending

    Raises:
        KeyError: no table of that name is known.
        TableError: the file is missing or a cell of it is faulty.

    >>> load("uses")[0]["imposed"]
    2.0
    """
    if name not in _RECORDS:
        raise KeyError(f"no table is called {name!r}; there are {', '.join(_RECORDS)}")
    path = files("templates") / "data" / f"{name}.csv"
    try:
        text = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        raise TableError(name, 0, "the file is missing; install the program again") from None
    return parse(name, text)


def parse(name: str, text: str) -> tuple[Row, ...]:
    """The rows of `text`, the content of the table called `name`.

    Raises:
        TableError: a column is missing, unknown or in another unit, a figure is not a number, a cell that must be
            filled is blank, a key is there twice, or a `read` mark is unknown.
    """
    record, key = _RECORDS[name]
    lines = csv.reader(io.StringIO(text, newline=""), strict=True)
    rows: list[Row] = []
    seen: dict[tuple[str, ...], int] = {}
    try:
        columns = _columns(name, record, next(lines, []))
        for cells in lines:
            if len(cells) != len(columns):
                raise TableError(name, lines.line_num, f"{len(cells)} cells, but there are {len(columns)} columns")
            row = {c.name: _value(name, lines.line_num, c, cell) for c, cell in zip(columns, cells, strict=True)}
            identity = tuple(str(row[part]) for part in key)
            if identity in seen:
                raise TableError(name, lines.line_num, f"{', '.join(identity)} stands on line {seen[identity]} already")
            seen[identity] = lines.line_num
            rows.append(row)
    except csv.Error as error:
        raise TableError(name, lines.line_num, f"not readable as comma-separated values: {error}") from error
    if not rows:
        raise TableError(name, lines.line_num, "no rows")
    return tuple(rows)


def _columns(name: str, record: type[Any], header: list[str]) -> list[Field[Any]]:
    """The record's fields in the order the header names them."""
    wanted = {field.name: field for field in fields(record)}
    columns = []
    for title in header:
        match = _HEADER.fullmatch(title)
        field = wanted.pop(match[1], None) if match else None
        if match is None or field is None:
            raise TableError(name, 1, f"column {title!r} is not known, or is there twice")
        unit = field.metadata.get("unit")
        if match[2] != unit:
            raise TableError(name, 1, f"column {title!r} must be in {unit or 'no unit'}")
        columns.append(field)
    if wanted:
        raise TableError(name, 1, f"column {', '.join(wanted)} is missing")
    return columns


def _value(name: str, line: int, field: Field[Any], cell: str) -> str | float | None:
    """One cell as its field wants it."""
    text = cell.strip()
    if not text:
        if field.default is MISSING:
            raise TableError(name, line, f"{field.name} is blank")
        blank: str | None = field.default
        return blank
    if field.type is str:
        if field.name == "read" and text not in READ_MARKS:
            raise TableError(name, line, f"read is {text!r}, but must be one of {', '.join(READ_MARKS)}")
        return text
    try:
        number = float(text)
    except ValueError:
        number = math.nan
    if not math.isfinite(number):
        raise TableError(name, line, f"{field.name} is {text!r}, but must be a number")
    return number


def _records(record: type[Record], name: str) -> tuple[Record, ...]:
    return tuple(record(**row) for row in load(name))


@cache
def materials() -> tuple[Material, ...]:
    """Materials and their unit weights, the survey's names among them."""
    return _records(Material, "materials")


@cache
def uses() -> tuple[Use, ...]:
    """Uses of floors and roofs and their imposed loads."""
    return _records(Use, "uses")


@cache
def soils() -> tuple[Soil, ...]:
    """Soils and rocks and their presumed safe bearing pressures."""
    return _records(Soil, "soils")


@cache
def coverings() -> tuple[Covering, ...]:
    """Roof coverings, floor finishes and ceilings by area."""
    return _records(Covering, "coverings")


@cache
def sections() -> tuple[Section, ...]:
    """Rolled steel beams and channels, lightest first within a shape."""
    return _records(Section, "sections")


@cache
def consumption() -> tuple[Consumption, ...]:
    """Materials, labour and plant that a unit of work uses."""
    return _records(Consumption, "consumption")


@cache
def allowances() -> tuple[Allowance, ...]:
    """Figures used where nothing was surveyed, and conventions with a number in them."""
    return _records(Allowance, "allowances")


@cache
def items() -> tuple[Item, ...]:
    """The items of work that may be measured and priced, in the bill's order."""
    return _records(Item, "items")


@cache
def assumptions() -> tuple[Assumption, ...]:
    """Conventions and assumptions of the estimate."""
    return _records(Assumption, "assumptions")


@cache
def member_rules() -> tuple[MemberRule, ...]:
    """Figures of the rules that beams, packing, bases and jacks are checked by."""
    return _records(MemberRule, "member_rules")


@cache
def figures() -> tuple[Allowance | MemberRule, ...]:
    """Every row of the Allowances sheet: allowances, then figures of the rules members are checked by."""
    return (*allowances(), *member_rules())


@cache
def timbers() -> tuple[Timber, ...]:
    """Timbers for packing and cribs, across the grain."""
    return _records(Timber, "timbers")


@cache
def jack_types() -> tuple[JackType, ...]:
    """Types of jack, as defaults for the kit."""
    return _records(JackType, "jack_types")


def rules(record: type[Record]) -> Record:
    """A record of calc.member_rules filled from the table.

    Args:
        record: SteelRules, PackingRules, BaseRules or JackRules

    Raises:
        TableError: a row is missing or in another unit
    """
    rows = {row.key: row for row in member_rules()}
    for field in fields(record):  # type: ignore[arg-type]  # a dataclass, as all of calc.member_rules are
        row = rows.get(field.name)
        if row is None or row.unit != field.metadata["unit"]:
            raise TableError("member_rules", 0, f"{field.name} is missing, or not in {field.metadata['unit']}")
    return record(**{field.name: rows[field.name].value for field in fields(record)})  # type: ignore[arg-type]


@cache
def carrier_sections() -> tuple[CarrierSection, ...]:
    """The rolled beams of the section table in the units of calc; channels are no carrier beams."""
    return tuple(_carrier_section(row) for row in sections() if row.shape == "beam")


def plan_basis(rules: MemberRules) -> PlanBasis:
    """Tables and rules a jack plan is worked out with; the first two timbers are the soft and the stiff end.

    Args:
        rules: figures members are checked by, as floats
    """
    soft, stiff, *_ = timbers()
    return PlanBasis(
        rules=rules, sections=carrier_sections(), section_sources={row.name: row.edition for row in sections()},
        soft_timber=soft, stiff_timber=stiff, jack_types=jack_types(),
    )  # fmt: skip


def _carrier_section(row: Section) -> CarrierSection:
    values: dict[str, Any] = {"name": row.name}
    for field in fields(CarrierSection):
        if field.name == "name":
            continue
        value = getattr(row, field.name)
        if value is None:
            raise TableError("sections", 0, f"{row.name} has no {field.name}, and a carrier beam needs it")
        up, down = factor(unit_of(row, field.name), field.metadata["unit"])
        values[field.name] = value * up / down
    return CarrierSection(**values)
