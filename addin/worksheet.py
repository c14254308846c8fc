"""How a worksheet function is declared, called and fails: the machinery behind addin/functions.

Covers   arguments with their unit and limits, single cells, blocks and whole ranges, blanks, text with a unit, currency
         decimals, error cells; a true error value for every failure, with its reason kept.
Not      any function (functions), any arithmetic (calc), the spreadsheet program itself.
Rules    a failure is an error value, never a text that SUM would pass over and never a number; an error cell that comes
         in goes out as the same error; a bad cell of a block spoils its own result and no other.
"""

import math
from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any, Literal

from addin import units
from addin.caches import XlError
from addin.entries import clean
from addin.surveying import CALC_UNIT
from calc.errors import CalcError

ERRORS = ("#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A", "#GETTING_DATA", "#SPILL!", "#CONNECT!",
          "#BLOCKED!", "#UNKNOWN!", "#FIELD!", "#CALC!")  # fmt: skip
VALUE, NUMBER, NOT_THERE = XlError("#VALUE!"), XlError("#NUM!"), XlError("#N/A")

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
    """One argument: its unit as typed, what it is, its limits, what a blank stands for."""

    name: str
    unit: str
    doc: str
    default: float | str | None = None
    least: float | None = 0.0
    """In `unit`; None where any number will do, as for a level."""
    most: float | None = None
    takes: Literal["cell", "range", "column", "sheet"] = "cell"
    """A cell, or a block worked through cell by cell; or a whole range: a list without its blanks; or a whole range
    whose cells keep their places, looked up by the function: a blank is None, what cannot be taken its BadArgument; or
    a survey sheet from its first cell on, which arrives as rows just as they are."""
    text: bool = False
    may_be_blank: bool = False
    """Whether a blank cell arrives as None, because the function has an answer to it."""

    @property
    def optional(self) -> bool:
        """Whether it may be left out."""
        return self.default is not None or self.may_be_blank or self.takes in ("range", "sheet")

    @property
    def help(self) -> str:
        """What the function wizard says of it."""
        unit = f" [{self.unit}]" if self.unit else ""
        blank = f"; blank: {self.default:.10g}" if isinstance(self.default, (int, float)) else ""
        return f"{self.doc}{unit}{blank or (f'; blank: {self.default}' if self.default else '')}"


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
    """Takes numbers in calc's units; gives one in the unit of `gives` as calc has it, or a tuple of them: a row; or a
    list of rows of texts and numbers that are to be shown as they are."""
    signed: bool = False
    """Whether the result may be less than 0."""


def call(function: Function, *values: Any) -> Any:
    """What the cell shows: a result, a block of results, or an error value.

    A single number, a row, a column or a block may stand for any argument; blocks of one shape are worked through cell
    by cell, single values are used for every cell.
    """
    given = [*values, *([None] * (len(function.arguments) - len(values)))]
    blocks = [_block(value) for value, arg in zip(given, function.arguments, strict=True) if arg.takes == "cell"]
    shapes = {(len(block), len(block[0])) for block in blocks if block is not None}
    shapes.discard((1, 1))
    if len(shapes) > 1:
        return _fail(function, BadArgument(VALUE, "", f"ranges of different size: {sorted(shapes)}"))
    if not shapes:
        return _one(function, [_picked(v, arg, 0, 0) for v, arg in zip(given, function.arguments, strict=True)])
    rows, columns = shapes.pop()
    found = [
        [_one(function, [_picked(v, arg, row, column) for v, arg in zip(given, function.arguments, strict=True)])
         for column in range(columns)]
        for row in range(rows)
    ]  # fmt: skip
    if any(isinstance(cell, list) for row in found for cell in row):
        return _fail(function, BadArgument(VALUE, "", "it gives a row, and takes no range where a cell is meant"))
    return found


def taken(cell: Any) -> Any:
    """A cell of a column that is needed now: its content, or its error."""
    if isinstance(cell, BadArgument):
        raise cell
    return cell


def _block(value: Any) -> Block | None:
    if not isinstance(value, (list, tuple)):
        return None
    return value if value and isinstance(value[0], (list, tuple)) else [list(value) or [None]]


def _picked(value: Any, argument: Argument, row: int, column: int) -> Any:
    block = _block(value) if argument.takes == "cell" else None
    if block is None:
        return value
    return block[0][0] if (len(block), len(block[0])) == (1, 1) else block[row][column]


def _one(function: Function, values: Sequence[Any]) -> Any:
    try:
        numbers = [_argument(value, argument) for value, argument in zip(values, function.arguments, strict=True)]
        result = function.act(*numbers)
        if isinstance(result, list):
            return [[_finite(cell) if isinstance(cell, float) else cell for cell in row] for row in result]
        if isinstance(result, tuple):
            return [[_shown(function, number) for number in result]]
        return result if isinstance(result, str) else _shown(function, result)
    except BadArgument as bad:
        return _fail(function, bad)
    except (CalcError, ZeroDivisionError, OverflowError, ValueError) as reason:
        return _fail(function, BadArgument(NUMBER, "", str(reason)))


def _shown(function: Function, result: Any) -> float:
    """A result in the unit it is shown in."""
    number = _finite(float(result))
    if number < 0 and not function.signed:
        raise BadArgument(NUMBER, "", f"the result is {number:g}: more is taken off than there is")
    return units.convert(number, CALC_UNIT.get(function.gives, function.gives), function.gives)


def _finite(number: float) -> float:
    if not math.isfinite(number):
        raise BadArgument(NUMBER, "", "the result is no finite number")
    return number


def _fail(function: Function, bad: BadArgument) -> XlError:
    went_wrong.append(Reason(function.name, bad.argument, bad.reason))
    return bad.error


def _argument(value: Any, argument: Argument) -> Any:
    if argument.takes == "cell":
        return _content(value, argument)
    if argument.takes == "sheet":
        return None if value is None else tuple(tuple(row) for row in _block(value) or [[value]])
    cells = [cell for row in _block(value) or [[value]] for cell in row]
    if argument.takes == "range":
        return [_content(cell, argument) for cell in cells if not _is_blank(cell)]
    return [_kept(cell, argument) for cell in cells]


def _kept(cell: Any, argument: Argument) -> Any:
    try:
        return None if _is_blank(cell) else _content(cell, argument)
    except BadArgument as bad:
        return bad


def _is_blank(value: Any) -> bool:
    return value is None or (isinstance(value, str) and not value.strip())


def _content(value: Any, argument: Argument) -> Any:
    """What one cell holds: a text, or a number in calc's unit."""
    if isinstance(value, str) and value in ERRORS:
        raise BadArgument(XlError(value), argument.name, f"{argument.name} is an error cell")
    if _is_blank(value):
        if argument.default is None and not argument.may_be_blank:
            raise BadArgument(VALUE, argument.name, f"{argument.name} is blank")
        value = argument.default
    if value is None:
        return None
    if isinstance(value, (bool, date)):
        raise BadArgument(VALUE, argument.name, f"{argument.name} is {value}, not a {_wanted(argument)}")
    return clean(value) if argument.text else _number(value, argument)


def _wanted(argument: Argument) -> str:
    return "text" if argument.text else "number"


def _number(value: Any, argument: Argument) -> float:
    """A number in calc's unit. A text may carry its own unit; money may come as a decimal."""
    if isinstance(value, str):
        try:
            value = units.read_number(value, argument.unit).value
        except units.NotUnderstood as reason:
            raise BadArgument(VALUE, argument.name, str(reason)) from None
    if not isinstance(value, (int, float, Decimal)) or not math.isfinite(value):
        raise BadArgument(VALUE, argument.name, f"{argument.name} is no number")
    for limit, breaks, words in ((argument.least, _less, "at least"), (argument.most, _more, "at most")):
        if limit is not None and breaks(value, limit):
            raise BadArgument(NUMBER, argument.name, f"{argument.name} is {value:g}; it must be {words} {limit:g}")
    return units.convert(float(value), argument.unit, CALC_UNIT.get(argument.unit, argument.unit))


def _less(value: Any, limit: float) -> bool:
    return bool(value < limit)


def _more(value: Any, limit: float) -> bool:
    return bool(value > limit)
