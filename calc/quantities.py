"""Quantities: the items of work of a raise, each from its measured lines.

Covers   the nine stages of work, the items, their quantities as the sum of their lines.
Not      the rules of measurement (measure), the workings (quantities_workings), prices (prices).
Signs    quantities positive; deductions are lines with a negative number.
Units    each item in its own unit: No, m, m2, m3, kg.
Sources  the rules of measure. Which items there are is a table of the project, common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from calc.allowances import Allowances
from calc.bases import PadRow
from calc.fields import note
from calc.jacks import JackRow
from calc.levels import Levels
from calc.measure import MeasuredLine
from calc.number import Filed, Name, Number
from calc.own_rows import OwnLoads
from calc.plan_rows import Plan
from calc.quantities_lines import all_lines
from calc.quantities_rows import Workings
from calc.quantities_workings import workings
from calc.survey import Survey
from calc.take_down_rows import BaseRow

__all__ = ["STAGES", "ItemText", "MeasuredLine", "Measurement", "WorkItem", "measurement", "work_items"]

STAGES = (
    "Preliminaries and tests",
    "Services off and stripping out",
    "Strengthening",
    "Digging and bases",
    "Jacks, beams and lifting",
    "Foundations and raised structure",
    "Filling and floors",
    "Removal and making good",
    "Services on and outside works",
)
"""Stages of work; stage 1 is the first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemText:
    """What the table of items says about one item of work."""

    code: str = note("stable code")
    description: str = note("as the bill prints it")
    stage: int = note("1 to 9")
    unit: str = note("of its quantity")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WorkItem:
    """One item of work and how much of it there is."""

    code: Name = note("stable code")
    description: str = note("as the bill prints it")
    stage: int = note("1 to 9")
    unit: str = note("of its quantity")
    quantity: Number = note("in that unit")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Measurement:
    """The workings and the lines made from them: a workbook shows both."""

    work: Workings
    lines: tuple[MeasuredLine, ...]


def measurement(
    survey: Survey,
    plan: Plan,
    own: OwnLoads,
    bases: Sequence[BaseRow],
    jacks: Sequence[JackRow],
    pads: Sequence[PadRow],
    levels: Levels,
    allowances: Allowances,
) -> Measurement:
    """The workings and all measured lines.

    Args:
        survey: the entries, in any kind of number
        plan: who carries whom
        own: own loads, in the same kind of number
        bases: ground walls and columns
        jacks: the first jack answer
        pads: jack bases
        levels: the rise and the levels it follows from
        allowances: figures for what was not surveyed
    """
    work = workings(survey, plan, own, bases, jacks, levels, allowances)
    return Measurement(work=work, lines=all_lines(survey, own, pads, work, allowances))


def work_items(lines: Sequence[MeasuredLine], texts: Sequence[ItemText]) -> tuple[WorkItem, ...]:
    """Every item of the table with its quantity.

    Args:
        lines: all measured lines
        texts: the table of items

    Raises:
        LookupError: a line's code is in no row of the table; its quantity would be lost
    """
    known = {text.code for text in texts}
    if strange := sorted({line.code for line in lines} - known):
        raise LookupError(f"measured, but not in the table of items: {', '.join(strange)}")
    by_code = Filed([line.code for line in lines], [line.quantity for line in lines])
    return tuple(
        WorkItem(code=code, description=text.description, stage=text.stage, unit=text.unit,
                 quantity=by_code.total(code))
        for text, code in ((text, Name(text.code)) for text in texts)
    )  # fmt: skip
