"""Cached results beside the formulas of a finished workbook, so that a viewer without an engine shows numbers.

Covers   one pass over the bytes of an .xlsx that openpyxl has just made: results, blanks, comment paths, dates.
Not      computing the results (calc), other programs' files, formulas that spill over several cells.
Rules    This is the last step: openpyxl drops every cached result when it loads and saves a workbook. Identical
         input gives identical bytes: the clock of the machine does not show.
"""

import io
import math
import re
import zipfile
from collections.abc import Mapping
from datetime import UTC, date, datetime, timedelta
from functools import partial
from numbers import Real
from typing import cast
from xml.etree import ElementTree

# Safe on openpyxl's output only: both of its writers escape ">" in the text of a formula.
_FORMULA_CELL = re.compile(
    rb'<c r="([A-Z]+[0-9]+)"( s="[0-9]+")?(?: t="\w+")?>(<f(?: [^>]*)?(?:/>|>[^<]*</f>))<v ?(?:/>|>[^<]*</v>)</c>'
)
_FORMULA = re.compile(rb"<f[ >/]")
# A styled empty cell says t="n"; some engines take that for the number 0.
_EMPTY_CELL = re.compile(rb'(<c r="[A-Z]+[0-9]+"(?: s="[0-9]+")?) t="(?:n|inlineStr)" ?(/>|></c>)')
_STAMP = re.compile(rb"(<dcterms:(created|modified)\b[^>]*>)[^<]*(</dcterms:\2>)")
_ESCAPED = re.compile("[\x00-\x08\x0b-\x1f\ufffe\uffff]|_(?=x[0-9A-Fa-f]{4}_)")
_MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
_RELATION = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"
_ERRORS = frozenset({"#N/A", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#NULL!"})
_LONGEST_TEXT = 32_767
_DAY_0 = datetime(1899, 12, 30)
_FIRST_SAFE_DAY = datetime(1900, 3, 1)
"""Serial numbers before it are one off, for spreadsheets believe in 29 February 1900."""


class XlError(str):
    """An error a formula results in, such as #N/A. The plain text "#N/A" stays text."""

    __slots__ = ()


Value = Real | float | int | str | bool | date | datetime | XlError
"""A formula's result."""


class CannotCache(ValueError):  # noqa: N818 - named like CannotRead and CannotWrite
    """A result is missing or cannot stand in a cell; an error of the program, never of the estimator."""


def inject(data: bytes, values: Mapping[tuple[str, str], Value], *, modified: datetime) -> bytes:
    """The workbook with the result of every formula, and with `modified` as its only date.

    Args:
        data: an .xlsx as openpyxl writes it
        values: (sheet title, cell) -> result; results for cells without a formula are passed over
        modified: date shown as created and modified, and that of every part; without a time zone, taken as UTC

    Raises:
        CannotCache: a formula without a result, a result no cell can hold, or a file that openpyxl did not write
    """
    if modified.tzinfo is not None:
        modified = modified.astimezone(UTC)
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as source, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as target:
        titles = _titles_by_part(source)
        missing: list[str] = []
        for name in source.namelist():
            part = source.read(name)
            if name in titles:
                part = _with_results(part, titles[name], values, missing)
            elif name.startswith("xl/worksheets/_rels/"):
                # Engines other than the office programs look for an absolute path inside the folder, and fail.
                part = part.replace(b'Target="/xl/', b'Target="../')
            elif name == "docProps/core.xml":
                part = _STAMP.sub(rb"\g<1>%sZ\g<3>" % modified.strftime("%Y-%m-%dT%H:%M:%S").encode(), part)
            target.writestr(_part_info(name, modified), part)
    if missing:
        raise CannotCache(f"{len(missing)} formulas have no result: {', '.join(missing[:10])}")
    return out.getvalue()


def _part_info(name: str, modified: datetime) -> zipfile.ZipInfo:
    """The zip entry of a part, with nothing in it that depends on the machine or the hour."""
    info = zipfile.ZipInfo(name, modified.timetuple()[:6])
    info.compress_type, info.create_system, info.external_attr = zipfile.ZIP_DEFLATED, 0, 0
    return info


def _titles_by_part(source: zipfile.ZipFile) -> dict[str, str]:
    """Part name of each worksheet -> its title."""
    book = ElementTree.fromstring(source.read("xl/workbook.xml"))
    settings = book.find(f"{_MAIN}workbookPr")
    if settings is not None and settings.get("date1904") in ("1", "true"):
        raise CannotCache("the workbook counts its days from 1904, and results are counted from 1900")
    relations = ElementTree.fromstring(source.read("xl/_rels/workbook.xml.rels"))
    parts = {relation.get("Id"): relation.get("Target", "") for relation in relations}
    return {
        parts[sheet.get(_RELATION)].removeprefix("/"): sheet.get("name", "") for sheet in book.iter(f"{_MAIN}sheet")
    }


def _with_results(part: bytes, title: str, values: Mapping[tuple[str, str], Value], missing: list[str]) -> bytes:
    """A worksheet part with its results; cells without one are added to `missing`."""
    part, found = _FORMULA_CELL.subn(partial(_filled, title, values, missing), part)
    if found != len(_FORMULA.findall(part)):
        raise CannotCache(f"sheet {title!r} has formulas that are not written as openpyxl writes them")
    return _EMPTY_CELL.sub(rb"\1\2", part)


def _filled(title: str, values: Mapping[tuple[str, str], Value], missing: list[str], cell: "re.Match[bytes]") -> bytes:
    where = cell[1].decode()
    value = values.get((title, where))
    if value is None:
        missing.append(f"{title}!{where}")
        return cell[0]
    try:
        kind, text = encoded(value)
        result = text.encode()
    except ValueError as reason:
        raise CannotCache(f"{title}!{where}: {reason}") from reason
    type_ = b' t="%s"' % kind.encode() if kind else b""
    return b'<c r="%s"%s%s>%s<v>%s</v></c>' % (cell[1], cell[2] or b"", type_, cell[3], result)


def encoded(value: Value) -> tuple[str, str]:
    """Cell type ("" for a number) and text of a result, as the file format has them.

    >>> encoded(2.5), encoded(4.0), encoded(True), encoded("a<b"), encoded(XlError("#N/A"))
    (('', '2.5'), ('', '4'), ('b', '1'), ('str', 'a&lt;b'), ('e', '#N/A'))
    """
    if isinstance(value, XlError):
        if value not in _ERRORS:
            raise ValueError(f"{str(value)!r} is not an error a spreadsheet knows")
        return "e", str(value)
    if isinstance(value, bool):
        return "b", "1" if value else "0"
    if isinstance(value, str):
        if len(value) > _LONGEST_TEXT:
            raise ValueError(f"a text of {len(value)} characters does not fit into a cell")
        text = _ESCAPED.sub(lambda found: f"_x{ord(found[0]):04X}_" if found[0] not in "\t\n" else found[0], value)
        return "str", text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return "", _number(_serial(value) if isinstance(value, date) else float(cast(float, value)))


def _number(number: float) -> str:
    if not math.isfinite(number):
        raise ValueError(f"{number} is not a number a cell can hold")
    return str(int(number)) if number == int(number) and abs(number) < 1e15 else repr(number)


def _serial(day: date) -> float:
    """A date as the day number of a spreadsheet."""
    moment = day if isinstance(day, datetime) else datetime(day.year, day.month, day.day)
    if moment.tzinfo is not None or moment < _FIRST_SAFE_DAY:
        raise ValueError(f"{day} has a time zone or lies before March 1900")
    return (moment - _DAY_0) / timedelta(days=1)
