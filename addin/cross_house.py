"""What the cross-checks look at and what they find: the house in plain numbers beside the rows it came from.

Covers   the survey as floats without its rooms, places of grid points, members on plan, a collector of problems.
Not      any check.
Signs    x along letters, y along numbers.
Units    m inside; messages in the unit of the column they speak of.
Sources  none.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from addin.kinds import Floats
from addin.problems import CellRef, Problem
from addin.reader import Reading, Row
from addin.surveying import Issued, build_allowances, build_survey, issued
from calc.allowances import Allowances
from calc.number import text_of, value_of
from calc.outlines import Point
from calc.plan_rows import Member
from calc.survey import Beam, GridPoint, Survey, Wall


class Findings:
    """Faults and warnings, in the order they were found."""

    def __init__(self) -> None:
        self.faults: list[Problem] = []
        self.warnings: list[Problem] = []

    @property
    def codes(self) -> set[str]:
        """Codes of the faults found so far."""
        return {problem.code for problem in self.faults}

    def fault(self, code: str, where: CellRef, subject: str, found: str, rule: str, fix: str) -> None:
        """Note something that must be mended before any result."""
        self.faults.append(Problem(code=code, where=where, subject=subject, found=found, rule=rule, fix=fix))

    def warn(self, code: str, where: CellRef, subject: str, found: str, rule: str, fix: str) -> None:
        """Note something doubtful, which travels with the result."""
        self.warnings.append(Problem(code=code, where=where, subject=subject, found=found, rule=rule, fix=fix))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class House:
    """A survey without cell faults, as floats."""

    reading: Reading
    rows: Issued
    allowances: Allowances
    survey: Survey
    """Without its rooms: their outlines are only built once each is known to be one."""
    xs: Mapping[str, float]
    ys: Mapping[str, float]

    def table(self, title: str) -> tuple[Row, ...]:
        """The rows of a sheet as read."""
        return self.reading.tables[title]

    def at(self, point: GridPoint) -> Point:
        """Where a grid point lies [m]."""
        return self.xs[point.letter], self.ys[point.number]

    def lines(self) -> Iterator[tuple[str, Row, Member]]:
        """Every wall and beam: its sheet, its row and itself on plan, zero lengths included."""
        sheets: dict[str, tuple[Wall | Beam, ...]] = {"Walls": self.survey.walls, "Beams": self.survey.beams}
        for title, items in sheets.items():
            for row, item in zip(self.table(title), items, strict=True):
                yield title, row, self._member(item)

    def _member(self, item: Wall | Beam) -> Member:
        wall = isinstance(item, Wall)
        breadth = item.thickness if isinstance(item, Wall) else item.breadth
        return Member(name=text_of(item.name), kind="wall" if wall else "beam", storey=item.storey,
                      start=self.at(item.start), end=self.at(item.end), half=value_of(breadth) / 2,
                      from_point=item.start, to_point=item.end)  # fmt: skip


def house_of(reading: Reading) -> House:
    """The house of a reading that has no faults."""
    rows = issued(reading)
    allowances = build_allowances(rows, Floats())
    survey = build_survey(replace(rows, tables={**rows.tables, "Rooms": ()}), Floats(), allowances)
    return House(
        reading=reading, rows=rows, allowances=allowances, survey=survey,
        xs={text_of(line.name): value_of(line.offset) for line in survey.letters},
        ys={text_of(line.name): value_of(line.offset) for line in survey.numbers},
    )  # fmt: skip


def cell_of(row: Row, key: str) -> CellRef:
    """The cell of an entry; that of the row's first column where the file has no such column."""
    where = row[key].where
    return where if where.cell else next(iter(row.entries.values())).where


def name_of(row: Row) -> str:
    """The name a row goes by."""
    return str(row["name"].value)


def number_of(row: Row, key: str) -> float | None:
    """A number as entered, in its column's unit; None where it is blank or unknown."""
    value = row[key].value
    return value if isinstance(value, float) else None


def storey_of(row: Row) -> int:
    """The storey of a row."""
    return int(number_of(row, "storey") or 1)


def metres(length: float) -> str:
    """A length as messages show it.

    >>> metres(1.2)
    '1.20 m'
    """
    return f"{length:.2f} m"
