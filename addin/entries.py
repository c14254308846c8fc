"""One cell of the survey, turned into an entry or a fault.

Covers   numbers with or without a unit, choices, names and references to names, grid points, dates, text; blanks,
         unknowns, error values and formulas without a value; limits of the column.
Not      finding the cell (reader), what a spelling of a unit means (units), geometry between rows.
Units    an entry's number is in its column's unit, as the header states it.
Sources  limits are those of the layout.
"""

import math
import re
import unicodedata
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from difflib import get_close_matches

from openpyxl.utils.escape import unescape

from addin.door import Raw
from addin.layout import SHEET, UNKNOWN, YES_NO, Column
from addin.problems import CellRef, Problem
from addin.units import NotUnderstood, in_typed_unit, read_number

Value = float | str | date | tuple[str, ...] | None

LONGEST_NAME = 40
LONGEST_SHIPPED_NAME = 80
"""Published soil names are sentences; they are picked from a list and never typed."""

EARLIEST, LATEST = date(1950, 1, 1), date(2100, 12, 31)

LETTER_LINE = re.compile("[A-Za-z]{1,2}'?")
NUMBER_LINE = re.compile("(?:0|[1-9][0-9]{0,2})(?:'|[A-Za-z])?")
_POINT = re.compile(f"({LETTER_LINE.pattern})[ -]?({NUMBER_LINE.pattern})")

_PRIME = re.compile("[\u2018\u2019\u2032\xb4`]")
# Joiners (200C, 200D) stay: several scripts cannot be written without them.
_CONTROL = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u200b\u200e\u200f\u2028-\u202e\u2060\ufeff\ufffe\uffff\ud800-\udfff]"
)
_JOINERS = "\u200c\u200d"
_NEVER_JOINED = re.compile("LATIN|FULLWIDTH|GREEK|CYRILLIC|COMBINING|MODIFIER")
# What a spreadsheet takes for a number, date or time when it compares: 1 and 01 would be one name, 1-2 a date.
_LOOKS_NUMBER = re.compile(r"[-+($]?\s*\.?[0-9][0-9.,:/\s-]*(?:e[-+]?[0-9]+)?\s*%?\)?|true|false", re.IGNORECASE)
_NUMBER_AND_UNIT = re.compile(r"[-+]?[0-9][0-9., /]*(?:[^\W\d]|[%°'\"])[^0-9]*(?:[23][^0-9]*){0,2}")

_TRY_UNITS = {
    "mm": ("in", "cm", "m"), "m": ("mm", "cm", "ft", "in"), "kN": ("t", "kg"), "kPa": ("t/m2", "N/mm2"),
    "kN/m2": ("kg/m2", "t/m2"), "kN/m3": ("kg/m3",), "N/mm2": ("kPa",), "mm2": ("cm2",), "m/s": ("km/h",),
}  # fmt: skip
"""Units tried on a number outside its limits, to say what may have been meant."""

_LESS_MORE = {
    "thickness": ("thinner", "thicker"), "height": ("lower", "higher"), "width": ("narrower", "wider"),
    "breadth": ("narrower", "wider"), "length": ("shorter", "longer"), "depth": ("shallower", "deeper"),
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Entry:
    """One entry of the survey and the cell it came from."""

    key: str
    value: Value = None
    """Number in the column's unit, text, date, or several names or points; None: blank, unknown or not readable. A
    choice answered unknown has the value "unknown"."""
    unknown: bool = False
    """The answer was unknown, where that is an answer."""
    faulty: bool = False
    """A fault stands against this cell: the value is None and must not be used."""
    where: CellRef
    typed: str = ""
    """The original text where the number carried a unit, such as `9 in`."""

    @property
    def blank(self) -> bool:
        """Nothing was entered."""
        return self.value is None and not self.unknown and not self.faulty


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """The names and grid lines that entries may refer to, by folded spelling."""

    names: Mapping[str, Mapping[str, str]]
    """By sheet title: folded name -> the name as its own sheet spells it."""
    lines: Mapping[str, str] = field(default_factory=dict)
    """Folded grid line -> the line as the Grid sheet spells it."""


class Refused(Exception):  # noqa: N818 - an answer about one cell, caught in read_entry
    """An entry that cannot be taken, without its place."""

    def __init__(self, code: str, found: str, rule: str, fix: str) -> None:
        super().__init__(code, found, rule, fix)
        self.code, self.found, self.rule, self.fix = code, found, rule, fix


def clean(value: object) -> str:
    r"""A cell's value as text: no control characters, no spaces around it, numbers without a needless `.0`.

    >>> clean(1.0), clean(" W1\xa0"), clean(None)
    ('1', 'W1', '')
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, float):
        return f"{value:.15g}"
    return _CONTROL.sub("", unescape(str(value)).replace("\xa0", " ")).strip()


def folded(text: str) -> str:
    """The spelling by which names are compared: capitals and the number of spaces make no difference.

    >>> folded(" Bed  Room 1")
    'bed room 1'
    """
    return " ".join(text.split()).casefold()


def split_point(point: str) -> tuple[str, str]:
    """The letter line and the number line of a grid point.

    Raises:
        ValueError: not a letter line followed by a number line

    >>> split_point("B'12a")
    ("B'", '12a')
    """
    match = _POINT.fullmatch(_PRIME.sub("'", point.strip()))
    if not match:
        raise ValueError(f"{point!r} is not a grid point")
    return match[1], match[2]


def shown(text: str) -> str:
    """Text in quotes, cut to what a message can carry."""
    text = " ".join(text.split())
    return f"'{text}'" if len(text) <= 40 else f"'{text[:37]}...'"


def subject_of(column: Column) -> str:
    """The column's title inside a sentence: `thickness`, `N value`."""
    first, _, _ = column.title.partition(" ")
    return column.title if len(first) == 1 else column.title[0].lower() + column.title[1:]


def is_blank(raw: Raw) -> bool:
    """Nothing is there, or only spaces."""
    return raw.kind == "value" and clean(raw.value) == ""


def read_entry(column: Column, raw: Raw, where: CellRef, known: Known, faults: list[Problem]) -> Entry:
    """The entry in one cell. What is wrong with it is added to `faults`, and the entry is then None and flagged.

    Args:
        column: the column of the layout, or the entry of the Job sheet
        raw: what stands in the cell
        where: the cell, for messages
        known: names and grid lines that may be referred to
        faults: collects what is wrong
    """
    try:
        return _entry(column, raw, where, known)
    except Refused as refused:
        problem = Problem(code=refused.code, where=where, subject=subject_of(column), found=refused.found,
                          rule=refused.rule, fix=refused.fix)  # fmt: skip
        faults.append(problem)
        return Entry(key=column.key, where=where, faulty=True)


def _entry(column: Column, raw: Raw, where: CellRef, known: Known) -> Entry:
    text = clean(raw.value)
    if raw.kind == "error":
        raise Refused("CELL-ERROR", f"the error {text}", "an error is never read as a blank or a number",
                      "Mend the formula, or type the entry.")  # fmt: skip
    if raw.kind == "no value":
        raise Refused("FORMULA-WITHOUT-VALUE", "a formula that was never worked out", "only its result can be read",
                      "Open and save the workbook in a spreadsheet, or type the entry.")  # fmt: skip
    if text == "":
        if column.required:
            raise Refused("MISSING-ENTRY", "blank", "it must be filled in", _wanted(column))
        return Entry(key=column.key, where=where)
    if column.kind != "text" and folded(text) in (UNKNOWN, "?"):
        return _unknown(column, text, where)
    typed = ""
    value: Value
    if column.kind == "number":
        value, typed = _number(column, raw, text)
    elif column.kind == "date":
        value = _date(raw.value, text)
    elif column.kind == "choice":
        value = _choice(column, raw.value, text, known)
    elif column.kind == "names":
        value = _names(column, text, known)
    elif column.kind == "point":
        value = _point(_not_a_date(raw.value, text, "BAD-POINT"), known)
    elif column.kind == "points":
        value = _points(_not_a_date(raw.value, text, "BAD-POINT"), known)
    elif column.kind == "name":
        value = check_name(_not_a_date(raw.value, text, "BAD-NAME"), where.sheet)
    else:
        value = text
    return Entry(key=column.key, value=value, where=where, typed=typed)


def _wanted(column: Column) -> str:
    """What to type, as a sentence."""
    example = "2026-01-31" if column.kind == "date" else column.example.removeprefix("e.g. ")
    words = "; ".join(word for word in column.choices if word != UNKNOWN)
    parts = [f"Type one of: {words}" if words else f"Type it, for example {example}" if example else "Type it"]
    if column.unknown or UNKNOWN in column.choices:
        parts.append(UNKNOWN)
    return ", or ".join(parts) + "."


def _unknown(column: Column, text: str, where: CellRef) -> Entry:
    if not column.unknown and UNKNOWN not in column.choices:
        raise Refused("UNKNOWN-NOT-ALLOWED", shown(text), "this has to be known", _wanted(column))
    value = UNKNOWN if column.kind == "choice" else None
    return Entry(key=column.key, value=value, unknown=True, where=where)


def _number(column: Column, raw: Raw, text: str) -> tuple[float, str]:
    """The number in the column's unit, and the original text if it carried a unit."""
    value, unit_typed = raw.value, ""
    if isinstance(value, bool):
        raise Refused("NOT-A-NUMBER", shown(text), "a number is needed", _wanted(column))
    if isinstance(value, (date, datetime, time, timedelta)):
        raise Refused("NOT-A-NUMBER", f"a date or time ({text})", "a number is needed",
                      "Type the number again; a spreadsheet turns 1/2 into a date, so type 0.5.")  # fmt: skip
    if isinstance(value, (int, float)):
        number = _stored(column, value, raw.percent)
    else:
        try:
            read = read_number(text, column.unit)
        except NotUnderstood as problem:
            code = "UNIT" if _NUMBER_AND_UNIT.fullmatch(text) else "NOT-A-NUMBER"
            raise Refused(code, problem.found, problem.rule, problem.fix) from problem
        number, unit_typed = read.value, read.unit_typed
    if not math.isfinite(number):
        raise Refused("NOT-FINITE", "beyond any number", "a number is needed", _wanted(column))
    _check_limits(column, number, text, unit_typed)
    return number, text if unit_typed else ""


def _stored(column: Column, value: float, percent: bool) -> float:
    """A number cell. A percentage is stored as a hundredth of what is seen."""
    try:
        value = float(value)
    except OverflowError:  # a whole number of more than 308 digits
        return math.inf
    if not percent:
        return value
    if column.unit != "%":
        raise Refused("UNIT", f"'{value * 100:.10g} %'", f"the column is in {column.unit or 'plain numbers'}",
                      "Take the % sign off the cell's format and type the number.")  # fmt: skip
    # 0.07 * 100 is 7.000000000000001 in floats; the estimator typed 7.
    return float(f"{value * 100:.14g}")


def _check_limits(column: Column, number: float, text: str, unit_typed: str) -> None:
    """Whole numbers where things are counted, then the column's least and most."""
    if column.unit in ("No", "year") and number != int(number):
        raise Refused("NOT-WHOLE", shown(text), "it is counted in whole numbers", _wanted(column))
    if column.least is None or column.most is None or column.least <= number <= column.most:
        return
    limits = f"{column.least:.10g} to {column.most:.10g} {column.unit}".strip()
    here = f"{number:.6g} {column.unit}".strip()
    if number < 0 <= column.least:
        raise Refused("NEGATIVE", shown(text), f"the column takes {limits}, and nothing below 0",
                      _meant(column, number, unit_typed))  # fmt: skip
    less, more = _LESS_MORE.get(column.key, ("less", "more"))
    word = less if number < column.least else more
    if unit_typed:
        low, high = (in_typed_unit(limit, column.unit, unit_typed) for limit in (column.least, column.most))
        limits += f", which is {low:.4g} to {high:.4g} {unit_typed}"
        rule = f"that is {here}, {word} than any accepted ({limits})"
    else:
        in_unit = f"the column is in {column.unit}: " if column.unit else ""
        rule = f"{in_unit}{here} is {word} than any accepted ({limits})"
    raise Refused("OUT-OF-RANGE", shown(text), rule, _meant(column, number, unit_typed))


def _meant(column: Column, number: float, unit_typed: str) -> str:
    """What may have been meant by a number outside the limits, as a sentence."""

    def fits(value: float) -> bool:
        return column.least is not None and column.most is not None and column.least <= value <= column.most

    ideas = [column.example] if column.example else []
    if not ideas and isinstance(column.default, (int, float)):
        ideas.append(f"{column.default:.10g}")
    if fits(-number):
        ideas.append(f"{-number:.10g}")
    for unit in () if unit_typed else _TRY_UNITS.get(column.unit, ()):
        idea = f"{number:.10g} {unit}"
        # A number near the end of what a float holds may lie beyond it in another unit.
        with suppress(NotUnderstood):
            if fits(read_number(idea, column.unit).value):
                ideas.append(idea)
                break
    if not ideas:
        return f"Type a number from {column.least:.10g} to {column.most:.10g}."
    return f"Type {', or '.join(dict.fromkeys(ideas))}."


def _date(value: object, text: str) -> date:
    if isinstance(value, datetime):
        found = value.date()
    elif isinstance(value, date):
        found = value
    else:
        match = re.fullmatch("([0-9]{4})-([0-9]{1,2})-([0-9]{1,2})", text)
        try:
            if match is None or isinstance(value, (int, float)):
                raise ValueError(text)
            found = date(int(match[1]), int(match[2]), int(match[3]))
        except ValueError:
            raise Refused("BAD-DATE", shown(text), "a date is needed, year first",
                          "Type it as 2026-01-31, or as a date of the spreadsheet.") from None  # fmt: skip
    if not EARLIEST <= found <= LATEST:
        raise Refused("BAD-DATE", shown(found.isoformat()), f"the year must be {EARLIEST.year} to {LATEST.year}",
                      "Type it as 2026-01-31.")  # fmt: skip
    return found


def _not_a_date(value: object, text: str, code: str) -> str:
    """The text, unless the spreadsheet has made a date of it: MAR1 becomes the first of March."""
    if isinstance(value, (date, time, timedelta)):
        raise Refused(code, f"a date or time ({text})", "a spreadsheet turned the entry into a date",
                      "Format the cell as text and type it again, or choose another name.")  # fmt: skip
    return text


def _choice(column: Column, value: object, text: str, known: Known) -> str:
    """The choice as the layout spells it, or the name as its own sheet spells it."""
    if column.choices:
        offered = {folded(choice): choice for choice in column.choices}
        if set(YES_NO) <= set(column.choices):
            offered |= {"y": "yes", "n": "no"} | ({"true": "yes", "false": "no"} if isinstance(value, bool) else {})
        if folded(text) in offered:
            return offered[folded(text)]
        words = "; ".join(column.choices)
        fix = _closest(text, offered) or "Type one of them."
        raise Refused("NOT-A-CHOICE", shown(text), f"it must be one of: {words}", fix)
    return _known_name(column, text, known)


def _closest(text: str, offered: Mapping[str, str]) -> str:
    near = get_close_matches(folded(text), list(offered), n=1, cutoff=0.6)
    return f"Type {offered[near[0]]}, if that is meant." if near else ""


def _known_name(column: Column, text: str, known: Known) -> str:
    """A name that exactly one of the sheets referred to lists."""
    holders = [title for title in column.refers if folded(text) in known.names.get(title, {})]
    if len(holders) == 1:
        return known.names[holders[0]][folded(text)]
    if holders:
        raise Refused("AMBIGUOUS-NAME", shown(text), f"{' and '.join(holders)} both list it",
                      "Give one of them another name.")  # fmt: skip
    offered = {fold: name for title in column.refers for fold, name in known.names.get(title, {}).items()}
    sheets = " or ".join(column.refers)
    fix = _closest(text, offered) or f"Type a name that is listed there, or add it to {column.refers[0]}."
    raise Refused("UNKNOWN-NAME", shown(text), f"{sheets} has no such name", fix)


def _names(column: Column, text: str, known: Known) -> tuple[str, ...]:
    """Several names: parted by commas, or by spaces, where the longest run of words that is a name counts as one."""
    listed = {fold for title in column.refers for fold in known.names.get(title, {})}
    found: list[str] = []
    for piece in filter(None, (part.strip() for part in re.split("[,;\n]", text))):
        words = piece.split()
        while words:
            length = next((n for n in range(len(words), 1, -1) if folded(" ".join(words[:n])) in listed), 1)
            found.append(_known_name(column, " ".join(words[:length]), known))
            del words[:length]
    if not found:
        raise Refused("UNKNOWN-NAME", shown(text), "it holds no name", _wanted(column))
    if twice := next((name for name in found if found.count(name) > 1), None):
        raise Refused("DUPLICATE-NAME", shown(text), f"it has {twice} twice", "Name each once.")
    return tuple(found)


def _point(text: str, known: Known) -> str:
    """A grid point, its lines spelt as on the Grid sheet."""
    try:
        lines = split_point(text)
    except ValueError:
        raise Refused("BAD-POINT", shown(text), "a grid point is a letter line and a number line",
                      "Type one like B3.") from None  # fmt: skip
    missing = [line for line in lines if folded(line) not in known.lines]
    if missing:
        raise Refused("UNKNOWN-POINT", shown(text), f"Grid has no line {' and no line '.join(missing)}",
                      f"Correct the point, or add line {' and '.join(missing)} to Grid.")  # fmt: skip
    return "".join(known.lines[folded(line)] for line in lines)


def _points(text: str, known: Known) -> tuple[str, ...]:
    points = tuple(_point(part, known) for part in re.split(r"[\s,;-]+", text) if part)
    if len(points) < 3:
        raise Refused("BAD-POINT", shown(text), "an outline has three points or more", "Type one like A1 B1 B3 A3.")
    return points


def check_name(text: str, sheet: str) -> str:
    """A name that means the same to a reader and to a spreadsheet's lookups.

    Args:
        text: the name, cleaned
        sheet: title of the sheet it stands on; grid lines are letters or numbers and have a rule of their own

    Raises:
        Refused: the name could be taken for a number, a pattern or a comparison, holds what cannot be seen, or is
            too long
    """
    name = " ".join(text.split())
    if sheet == "Grid":
        line = _PRIME.sub("'", name)
        if LETTER_LINE.fullmatch(line) or NUMBER_LINE.fullmatch(line):
            return line
        raise Refused("BAD-NAME", shown(text), "a grid line is one or two letters, or a number, and perhaps a mark "
                      "after it", "Type one like A, AB, A', 1, 12 or 2a.")  # fmt: skip
    longest = LONGEST_SHIPPED_NAME if sheet in SHEET and SHEET[sheet].shipped else LONGEST_NAME
    if len(name) > longest:
        rule = f"a name has at most {longest} characters, not {len(name)}"
    elif unseen := _unseen(name):
        rule = f"it holds a character that cannot be seen (U+{ord(unseen):04X}), and another name may look the same"
    elif strange := re.search("[*?~]", name):
        rule = f"{strange[0]} stands for any text when a spreadsheet looks names up"
    elif name[0] in "=<>":
        rule = f"a name that begins with {name[0]} is taken for a comparison"
    elif _LOOKS_NUMBER.fullmatch(name):
        rule = "a name that looks like a number, a date or TRUE is taken for one, and 1 and 01 would be the same"
    elif sheet in _LISTED_TOGETHER and (strange := re.search("[,;]", name)):
        rule = f"{strange[0]} parts several names in one cell"
    else:
        return name
    raise Refused("BAD-NAME", shown(text), rule, "Choose a short name of letters and numbers, such as W1.")


def _unseen(name: str) -> str:
    """The first character of a name that cannot be seen, or nothing.

    A joiner is seen by what it does to the letter before it, in a script that has joined letters.
    """
    for before, sign in zip(" " + name, name, strict=False):
        joins = unicodedata.category(before)[0] in "LM" and not _NEVER_JOINED.match(unicodedata.name(before, ""))
        if unicodedata.category(sign) == "Cf" and not (sign in _JOINERS and joins):
            return sign
    return ""


_LISTED_TOGETHER = {title for sheet in SHEET.values() for column in sheet.columns if column.kind == "names"
                    for title in column.refers}  # fmt: skip
