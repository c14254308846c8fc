"""How a worksheet function is declared, called and fails: the machinery behind addin/functions.

Covers   arguments with their unit, single cells and whole ranges, blanks, text with a unit, currency decimals, error
         cells; a true error value for every failure, with its reason kept.
Not      any function (functions), any arithmetic (calc), the spreadsheet program itself.
Rules    a failure is an error value, never a text that SUM would pass over and never a number; an error cell that comes
         in goes out as the same error.
"""

import math
from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from addin import units
from addin.caches import XlError
from addin.surveying import CALC_UNIT
from calc.errors import CalcError

ERRORS = ("#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A", "#SPILL!", "#CALC!")
VALUE, NUMBER = XlError("#VALUE!"), XlError("#NUM!")

Block = Sequence[Sequence[Any]]


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a function failed: for the list of what went wrong."""

    function: str
    argument: str
    reason: str


went_wrong: deque[Reason] = deque(maxlen=200)
"""The last failures, newest last; the list a button shows."""


class BadArgument(ValueError):  # noqa: N818 - one argument's answer, caught in `call`
    """An argument that cannot be taken, with the error value it gives."""

    def __init__(self, error: XlError, argument: str, reason: str) -> None:
        super().__init__(reason)
        self.error, self.argument, self.reason = error, argument, reason


@dataclass(frozen=True, slots=True, kw_only=True)
class Argument:
    """One argument: its unit as typed, what it is, what a blank stands for."""

    name: str
    unit: str
    doc: str
    default: float | None = None
    whole_range: bool = False
    """Whether it takes a whole range as one list of numbers, blanks left out."""
    text: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Function:
    """A worksheet function: calc's function behind a name, arguments in the units of the sheet."""

    name: str
    category: str
    help: str
    arguments: tuple[Argument, ...]
    gives: str
    """Unit of the result, empty for text."""
    act: Callable[..., Any]
    """Takes numbers in calc's units; gives one in the unit of `gives` as calc has it."""


def call(function: Function, *values: Any) -> Any:
    """What the cell shows: a result, a block of results, or an error value.

    A single number, a row, a column or a block may stand for any argument; blocks of one shape are worked through cell
    by cell, single values are used for every cell.
    """
    given = [*values, *([None] * (len(function.arguments) - len(values)))]
    blocks = [_block(value) for value, arg in zip(given, function.arguments, strict=True) if not arg.whole_range]
    shapes = {(len(block), len(block[0])) for block in blocks if block is not None}
    shapes.discard((1, 1))
    if len(shapes) > 1:
        return _fail(function, BadArgument(VALUE, "", f"ranges of different size: {sorted(shapes)}"))
    if not shapes:
        return _one(function, [_single(value, arg) for value, arg in zip(given, function.arguments, strict=True)])
    rows, columns = shapes.pop()
    return [
        [_one(function, [_picked(v, arg, row, column) for v, arg in zip(given, function.arguments, strict=True)])
         for column in range(columns)]
        for row in range(rows)
    ]  # fmt: skip


def _block(value: Any) -> Block | None:
    if not isinstance(value, (list, tuple)):
        return None
    return value if value and isinstance(value[0], (list, tuple)) else [list(value)]


def _single(value: Any, argument: Argument) -> Any:
    block = None if argument.whole_range else _block(value)
    return value if block is None else block[0][0]


def _picked(value: Any, argument: Argument, row: int, column: int) -> Any:
    block = None if argument.whole_range else _block(value)
    if block is None:
        return value
    return block[0][0] if (len(block), len(block[0])) == (1, 1) else block[row][column]


def _one(function: Function, values: Sequence[Any]) -> Any:
    try:
        numbers = [_taken(value, argument) for value, argument in zip(values, function.arguments, strict=True)]
        result = function.act(*numbers)
    except BadArgument as bad:
        return _fail(function, bad)
    except (CalcError, ZeroDivisionError, OverflowError, ValueError) as reason:
        return _fail(function, BadArgument(NUMBER, "", str(reason)))
    if isinstance(result, str):
        return result
    number = float(result)
    if not math.isfinite(number):
        return _fail(function, BadArgument(NUMBER, "", "the result is no finite number"))
    return units.convert(number, CALC_UNIT.get(function.gives, function.gives), function.gives)


def _fail(function: Function, bad: BadArgument) -> XlError:
    went_wrong.append(Reason(function.name, bad.argument, bad.reason))
    return bad.error


def _taken(value: Any, argument: Argument) -> Any:
    if argument.whole_range:
        block = _block(value) or [[value]]
        return [_number(cell, argument) for row in block for cell in row if not _is_blank(cell)]
    if argument.text:
        return _text(value, argument)
    return _number(value, argument)


def _is_blank(value: Any) -> bool:
    return value is None or (isinstance(value, str) and not value.strip())


def _text(value: Any, argument: Argument) -> str:
    if _is_blank(value):
        raise BadArgument(VALUE, argument.name, f"{argument.name} is blank")
    if str(value) in ERRORS:
        raise BadArgument(XlError(str(value)), argument.name, f"{argument.name} is an error cell")
    return str(int(value)) if isinstance(value, float) and value.is_integer() else str(value)


def _number(value: Any, argument: Argument) -> float:
    """An argument in calc's unit. A text may carry its own unit; money may come as a decimal."""
    unit = CALC_UNIT.get(argument.unit, argument.unit)
    if _is_blank(value):
        if argument.default is None:
            raise BadArgument(VALUE, argument.name, f"{argument.name} is blank")
        return units.convert(argument.default, argument.unit, unit)
    if isinstance(value, (bool, date)):
        raise BadArgument(VALUE, argument.name, f"{argument.name} is {value}, not a number")
    if isinstance(value, str):
        if value in ERRORS:
            raise BadArgument(XlError(value), argument.name, f"{argument.name} is an error cell")
        try:
            value = units.read_number(value, argument.unit).value
        except units.NotUnderstood as reason:
            raise BadArgument(VALUE, argument.name, str(reason)) from None
    if not isinstance(value, (int, float, Decimal)) or not math.isfinite(value):
        raise BadArgument(VALUE, argument.name, f"{argument.name} is no number")
    if value < 0:
        raise BadArgument(NUMBER, argument.name, f"{argument.name} is {value}, and nothing here is less than 0")
    return units.convert(float(value), argument.unit, unit)
