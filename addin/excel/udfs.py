"""The worksheet functions as the add-in's macros call them: one module-level function for each, through xlwings.

Covers   one Python function by each name of addin.functions, with the signature, options and help that xlwings reads;
         cells as a spreadsheet hands them over; the last place where an exception is caught.
Not      what a function gives (functions), how it reads and fails (worksheet), the macros that call this (macros).
Rules    each argument arrives as rows of cells; an error cell as its text. A result is a number, a text, or rows of
         them; an error is one of the texts in ERROR_NUMBERS, which the macro turns into a true error value. An argument
         that is left out means its default. Away from Windows xlwings' decorators do nothing, and this can be imported.

    XLPy.CallUDF("addin.excel.udfs", "PLINTH_WALL_WEIGHT", Array(...), ...)
"""

import inspect
from collections.abc import Callable, Sequence
from typing import Any

import xlwings as xw

from addin.caches import XlError
from addin.functions import FUNCTIONS
from addin.worksheet import ERRORS, VALUE, Argument, Function, Reason, call, went_wrong

ERROR_NUMBERS = dict(
    zip(ERRORS, (2000, 2007, 2015, 2023, 2029, 2036, 2042, 2043, 2045, 2046, 2047, 2048, 2049, 2050), strict=True)
)
"""Each error text, and the number by which a macro knows it."""

_BASE = -2146828288
"""An error value crosses over as this plus its number, a whole number; xlwings knows the older seven only."""
_ERROR_OF = {_BASE + number: text for text, number in ERROR_NUMBERS.items()}

Udf = Callable[..., Any]


def _udf(function: Function) -> Udf:
    """The function that xlwings calls for a worksheet function."""

    def answer(*blocks: Any) -> Any:
        try:
            return _shown(call(function, *(_cells(block) for block in blocks)))
        # A bug of ours must not show as a number, nor as a text that a sum passes over.
        except Exception as bug:
            went_wrong.append(Reason(function.name, "", f"{type(bug).__name__}: {bug}"))
            return str(VALUE)

    answer.__name__ = answer.__qualname__ = function.name
    answer.__doc__ = function.help
    answer.__annotations__ = {}
    answer.__signature__ = inspect.Signature(_parameters(function.arguments))  # type: ignore[attr-defined]
    udf: Udf = answer
    for argument in function.arguments:
        # Rows of cells whatever was given; an error as its text, for xlwings would make a blank of it.
        udf = xw.arg(argument.name, ndim=2, err_to_str=True, doc=argument.help)(udf)
    # Last, for each xw.arg sets the category back.
    return xw.func(category=function.category)(udf)


def _parameters(arguments: Sequence[Argument]) -> list[inspect.Parameter]:
    """Those at the end that may be left out have None, which is a blank cell; none before them may be left out."""
    first = max((at for at, argument in enumerate(arguments, start=1) if not argument.optional), default=0)
    kind = inspect.Parameter.POSITIONAL_OR_KEYWORD
    return [
        inspect.Parameter(argument.name, kind, default=None if at >= first else inspect.Parameter.empty)
        for at, argument in enumerate(arguments)
    ]


def _cells(block: Any) -> Any:
    """Rows of cells with every error as its text."""
    return [[_cell(cell) for cell in row] for row in block] if isinstance(block, list) else block


def _cell(cell: Any) -> Any:
    if type(cell) is not int or not _BASE <= cell < _BASE + 10_000:
        return cell
    return _ERROR_OF.get(cell, str(VALUE))


def _shown(result: Any) -> Any:
    """A result in plain types, which is all that crosses over; one row of one cell is that cell."""
    if not isinstance(result, list):
        return str(result) if isinstance(result, XlError) else result
    rows = [[_shown(cell) for cell in row] for row in result]
    return rows[0][0] if [len(row) for row in rows] == [1] else rows


UDFS: dict[str, Udf] = {name: _udf(function) for name, function in FUNCTIONS.items()}
"""Every function by name, as the module holds them too."""

globals().update(UDFS)
