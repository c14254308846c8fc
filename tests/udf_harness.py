"""The real conversion between spreadsheet and Python, without Windows: xlwings.udfs over stand-ins for pywin32.

Covers   stand-ins for the modules of pywin32, so that the real xlwings._xlwindows and xlwings.udfs load; ranges and
         values as a macro hands them over; a call through the real call_udf.
Not      marshalling between processes, the DLL, macros, the spreadsheet program.
Rules    `install` changes sys.modules for good. Only a process of its own may call it: tests/addin/test_udfs.py starts
         one. It goes before the import of addin.excel.udfs.
"""

import ctypes
import datetime as dt
import os
import sys
import types
from collections.abc import Callable, Sequence
from decimal import Decimal
from typing import Any
from unittest import mock

MISSING = -2147352572
"""An argument that was left out, as a macro hands it over."""

CODES = {"#DIV/0!": -2146826281, "#N/A": -2146826246, "#NAME?": -2146826259, "#NULL!": -2146826288,
         "#NUM!": -2146826252, "#REF!": -2146826265, "#VALUE!": -2146826273}  # fmt: skip
"""Error cells, as a macro hands them over."""

_RANGE_IID = "{00020846-0000-0000-C000-000000000046}"
_DAY_0 = dt.datetime(1899, 12, 30)


class _Stand(types.ModuleType):
    """A module that has every name that is asked of it."""

    def __getattr__(self, name: str) -> Any:
        if name.startswith("__"):
            raise AttributeError(name)
        value = type(name, (), {}) if name[0].isupper() else mock.MagicMock(name=f"{self.__name__}.{name}")
        setattr(self, name, value)
        return value


def _refuse(given: object) -> None:
    """What unwrapping does with a value that is no wrapped object of Python."""
    raise ValueError(f"{given!r} is not wrapped")


def install() -> types.ModuleType:
    """Load the Windows half of xlwings and give back xlwings with its real decorators."""
    if "addin.excel.udfs" in sys.modules:
        raise RuntimeError("addin.excel.udfs was imported before the harness: its decorators did nothing")
    names = ("pywintypes pythoncom win32api win32con win32event win32gui win32process win32timezone win32com "
             "win32com.client win32com.client.dynamic win32com.server win32com.server.dispatcher "
             "win32com.server.policy win32com.server.util")  # fmt: skip
    for name in names.split():
        sys.modules[name] = _Stand(name)
    for name in names.split():
        parent, _, child = name.rpartition(".")
        if parent:
            setattr(sys.modules[parent], child, sys.modules[name])
    # Nothing here is a raw interface pointer; a class of its own makes sure of it.
    sys.modules["pythoncom"].__dict__.update(__file__="", IID_IDispatch=0, TypeIIDs=[type("PyIDispatch", (), {})])
    sys.modules["pywintypes"].__dict__.update(
        IID=str, TimeType=dt.datetime, com_error=type("com_error", (OSError,), {})
    )
    sys.modules["win32process"].GetWindowThreadProcessId = lambda _: (1, 1)  # type: ignore[attr-defined]
    sys.modules["win32com.client"].__dict__["Dispatch"] = lambda given, **_: given
    sys.modules["win32com.server.util"].__dict__["unwrap"] = _refuse
    import xlwings

    with (mock.patch.object(ctypes, "oledll", mock.MagicMock(), create=True),
          mock.patch.object(ctypes, "windll", mock.MagicMock(), create=True),
          mock.patch.object(ctypes, "PyDLL", mock.MagicMock()),
          mock.patch.object(os, "chdir"), mock.patch("atexit.register", lambda act, *_, **__: act)):  # fmt: skip
        import xlwings._xlwindows as windows
        import xlwings.com_server
        import xlwings.udfs as udfs
    xlwings.engines.add(xlwings.Engine(impl=windows.engine))
    xlwings.func, xlwings.arg, xlwings.ret, xlwings._xlwindows = udfs.xlfunc, udfs.xlarg, udfs.xlret, windows
    return xlwings


class FakeRange:
    """A range as it arrives by COM: one cell, or rows of cells, read by the property Value."""

    def __init__(self, cells: Any) -> None:
        self.Value = cells
        rows = cells if isinstance(cells, tuple) else ((cells,),)
        self.Row = self.Column = 1
        self.Rows, self.Columns = _Count(len(rows)), _Count(len(rows[0]))
        self.Worksheet = _Some(Parent=_Some(Application=_Some(Hwnd=1)))
        self._oleobj_ = _Some(GetTypeInfo=lambda: _Some(GetTypeAttr=lambda: _Some(iid=_RANGE_IID)))


class _Some(types.SimpleNamespace):
    """An object with what it was given."""


class _Count(_Some):
    def __init__(self, count: int) -> None:
        super().__init__(Count=count)


def call(name: str, *args: Any) -> Any:
    """Call one of the functions as the macro does: what XLPy.CallUDF gives back, by the real server and call_udf."""
    from xlwings.com_server import XLPython

    return XLPython().CallUDF("addin.excel.udfs", name, args, None, FakeRange(None))


# ---------------------------------------------------------------------------------------------- how values cross over


def _each(value: Any, act: Callable[[Any], Any]) -> Any:
    """Rows and cells as tuples, as COM hands over arrays; one cell alone is no array."""
    if not isinstance(value, (list, tuple)):
        return act(value)
    rows = value if value and isinstance(value[0], (list, tuple)) else [value]
    found = tuple(tuple(act(cell) for cell in row) for row in rows)
    return found[0][0] if (len(found), len(found[0])) == (1, 1) else found


def _plain(cell: Any) -> Any:
    """A cell by Value2: every number a float, a date its day number, an error its code."""
    if isinstance(cell, str) and cell in CODES:
        return CODES[cell]
    if isinstance(cell, dt.date):
        return float((dt.datetime(cell.year, cell.month, cell.day) - _DAY_0).days)
    return float(cell) if isinstance(cell, (int, float, Decimal)) and not isinstance(cell, bool) else cell


def _formatted(cell: Any) -> Any:
    """A cell by Value, its numbers formatted as currency: a decimal of four places, a date a date with a time."""
    if isinstance(cell, dt.date):
        return dt.datetime(cell.year, cell.month, cell.day)
    plain = _plain(cell)
    return Decimal(repr(plain)).quantize(Decimal("0.0001")) if isinstance(plain, float) else plain


def by_value2(*values: Any) -> tuple[Any, ...]:
    """Arguments as our macro hands them over."""
    return tuple(_each(value, _plain) for value in values)


def by_range(*values: Any) -> tuple[Any, ...]:
    """Arguments as ranges of cells formatted as currency: what xlwings' own macro hands over, at its worst."""
    return tuple(FakeRange(_each(value, _formatted)) for value in values)


def left_out(values: Sequence[Any], count: int) -> tuple[Any, ...]:
    """Arguments up to `count`, those that are not given left out."""
    return (*values, *[MISSING] * (count - len(values)))
