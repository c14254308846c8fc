"""The VBA functions that stand in for the worksheet functions, written from their declarations.

Covers   one wrapper for each of FUNCTIONS, with optional arguments; the help texts of the function wizard; names that
         VBA or a cell would take for something else.
Not      how values pass to Python and back (PlinthCalls.bas), what the functions do (addin/functions).
Rules    a wrapper gives a true error value for every failure; `python -m addin.macros.wrappers` writes the module again
         after a change of a declaration, and a test compares it with the committed text.
Sources  [MS-VBAL] VBA Language Specification 3.3.5.2, reserved identifiers; limits of the host as published: 255
         characters in a description or the help of an argument, 24 continued lines, 1023 characters in a line.
"""

import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from addin.files import write_atomically
from addin.functions import FUNCTIONS
from addin.worksheet import Function

MODULE = "PlinthFunctions"
PREFIX = "PLINTH_"
MOST_DESCRIPTION = 255
MOST_CONTINUED = 24
MOST_LINE = 1023
MOST_NAME = 31
VALUE_ERROR = 2015

_WORDS = """
    abs addressof and any array as attribute boolean byref byte byval call case cbool cbyte ccur cdate cdbl cdec
    cdecl cint circle clng clnglng clngptr close const csng cstr currency cvar cverr date debug decimal declare
    defbool defbyte defcur defdate defdbl defdec defint deflng deflnglng deflngptr defobj defsng defstr defvar dim
    do doevents double each else elseif empty end endif enum eqv erase event exit false fix for friend function get
    global gosub goto if imp implements in input inputb int integer is lbound len lenb let like lineinput lock long
    longlong longptr loop lset me mod new next not nothing null on open option optional or paramarray preserve print
    private pset public put raiseevent redim rem resume return rset scale seek select set sgn shared single spc
    static step stop string sub tab then to true type typeof ubound unlock until variant wend while with withevents
    write xor
"""
KEYWORDS = frozenset(_WORDS.split())
"""Words that VBA keeps for itself, in small letters."""

_OWN_WORDS = frozenset({"failed", "isarray"})
_PROCEDURE = re.compile("plinth[a-z]+").fullmatch
"""Names a wrapper uses itself, and the look of those of our other modules."""

_CELL = re.compile(r"[a-z]{1,3}[0-9]{1,7}|r[0-9]*c[0-9]*|[rc][0-9]*", re.IGNORECASE)


# ------------------------------------------------------------------------------------------ names


def name_faults(names: Iterable[str]) -> list[str]:
    """What is wrong with names of worksheet functions, in words; nothing if all will do.

    >>> name_faults(["PLINTH_JACKS", "LVL2"])
    ['LVL2 does not begin with PLINTH_', 'LVL2 looks like a cell']
    """
    faults, seen = [], set[str]()
    for name in names:
        if not name.startswith(PREFIX):
            faults.append(f"{name} does not begin with {PREFIX}")
        if _CELL.fullmatch(name):
            faults.append(f"{name} looks like a cell")
        faults += _word_faults(name)
        if name.upper() in seen:
            faults.append(f"{name} is there twice")
        seen.add(name.upper())
    return faults


def argument_faults(function: Function) -> list[str]:
    """What is wrong with the arguments of a function, in words; nothing if all will do."""
    faults, seen = [], {function.name.casefold()}
    for argument in function.arguments:
        where = f"{argument.name} of {function.name}"
        faults += [f"{fault} (argument of {function.name})" for fault in _word_faults(argument.name)]
        if argument.name.casefold() in _OWN_WORDS or _PROCEDURE(argument.name.casefold()):
            faults.append(f"{where} is a word of the wrapper")
        if argument.name.casefold() in seen:
            faults.append(f"{where} is there twice; VBA does not tell capitals apart")
        seen.add(argument.name.casefold())
    return faults


def _word_faults(name: str) -> Iterator[str]:
    if name.casefold() in KEYWORDS:
        yield f"{name} is a word of VBA"
    if not re.fullmatch(r"[A-Za-z][A-Za-z0-9_]*", name):
        yield f"{name} is not made of letters, digits and _"
    if len(name) > MOST_NAME:
        yield f"{name} is longer than {MOST_NAME} characters"


# ------------------------------------------------------------------------------------------ text


def functions_module(functions: Iterable[Function] = FUNCTIONS.values()) -> str:
    """The text of PlinthFunctions.bas.

    Raises:
        ValueError: a name will not do, or a text is longer than the host takes
    """
    functions = tuple(functions)
    faults = name_faults(f.name for f in functions) + [fault for f in functions for fault in argument_faults(f)]
    if faults:
        raise ValueError("; ".join(faults))
    parts = [_HEAD, *map(_wrapper, functions), _DESCRIBE, _describe_all(functions)]
    text = "\n".join(parts)
    _check_lines(text)
    return text


_HEAD = f"""Attribute VB_Name = "{MODULE}"
Option Explicit
' Written by addin/macros/wrappers.py from addin/functions.py; change those, not this.
"""

_DESCRIBE = """' Help that cannot be set is left out: the functions work without it.
Private Sub PlinthDescribe(ByVal named As String, ByVal help As String, ByVal group As String, ByVal notes As Variant)
    On Error Resume Next
    Application.MacroOptions Macro:="'" & ThisWorkbook.Name & "'!" & named, _
        Description:=help, Category:=group, ArgumentDescriptions:=notes
End Sub
"""


def _wrapper(function: Function) -> str:
    """One wrapper: plain values in, the answer or a true error value out."""
    name = function.name
    declared = list(_declared(function))
    plain = [f"PlinthPlain({argument.name})" for argument in function.arguments]
    lines = [
        *_continued(f"Public Function {name}(", declared, ")", "    "),
        "    On Error GoTo failed",
        *_continued(f'    {name} = PlinthResult(PlinthCall("{name}", Array(', plain, ")))", "        "),
        "    Exit Function",
        "failed:",
        f"    {name} = CVErr({VALUE_ERROR})",
        "End Function",
    ]
    return "\n".join(lines) + "\n"


def _declared(function: Function) -> Iterator[str]:
    """Arguments as VBA declares them: those at the end that may be left out, and none before, as Python has them."""
    first = max((at for at, argument in enumerate(function.arguments, 1) if not argument.optional), default=0)
    for at, argument in enumerate(function.arguments):
        yield f"Optional {argument.name}" if at >= first else argument.name


def _describe_all(functions: Iterable[Function]) -> str:
    """The Sub that gives every function its help in the function wizard."""
    lines = ["Public Sub PlinthDescribeAll()"]
    for function in functions:
        notes = [_quoted(argument.help) for argument in function.arguments]
        start = f'    PlinthDescribe "{function.name}", {_quoted(function.help)}, {_quoted(function.category)}, Array('
        lines += _continued(start, notes, ")", "        ")
    return "\n".join([*lines, "End Sub"]) + "\n"


def _continued(start: str, items: list[str], end: str, indent: str) -> list[str]:
    """`start item, item end`, broken after commas where a line would be long."""
    lines, line = [], start
    for at, item in enumerate(items):
        piece = item + (end if at == len(items) - 1 else ",")
        if len(line) + len(piece) > 110 and line != start:
            lines.append(f"{line} _")
            line = f"{indent}{piece}"
        else:
            line += piece if line == start else f" {piece}"
    if not items:
        line += end
    if len(lines) > MOST_CONTINUED:
        raise ValueError(f"{start.strip()} needs more than {MOST_CONTINUED} continued lines")
    return [*lines, line]


def _quoted(text: str) -> str:
    if len(text) > MOST_DESCRIPTION:
        raise ValueError(f"{text[:40]!r}... is longer than the {MOST_DESCRIPTION} characters a help text may have")
    doubled = text.replace('"', '""')
    return f'"{doubled}"'


def _check_lines(text: str) -> None:
    """Raise if a line cannot stand in VBA."""
    for line in text.splitlines():
        if len(line) > MOST_LINE or not line.isascii():
            raise ValueError(f"a line is longer than {MOST_LINE} characters or not plain ASCII: {line[:60]!r}")


def module_path() -> Path:
    """Where the committed text stands."""
    return Path(__file__).with_name(f"{MODULE}.bas")


if __name__ == "__main__":
    write_atomically(module_path(), functions_module().encode("ascii"))
