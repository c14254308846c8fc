"""What a formula rests on, read from its text.

Covers   cells, ranges, whole columns and rows, ranges over several sheets, names, tables; whether the engine at hand
         works the formula out as a spreadsheet program does.
Not      which cells change (dependents), the results (engine).
Rules    When in doubt a formula rests on more than it does, and is not trusted: a blank is better than a wrong figure.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from addin.refresh.cells import Rect, rect

_TRUSTED = """
ABS AND AVERAGE AVERAGEIF AVERAGEIFS CEILING CHOOSE COLUMN COLUMNS CONCATENATE COS COUNT COUNTA COUNTBLANK COUNTIF
COUNTIFS DATE DAY EDATE EOMONTH EXACT EXP FALSE FLOOR HLOOKUP IF IFERROR IFNA INDEX INT ISBLANK ISERROR ISNA ISNUMBER
ISTEXT LARGE LEFT LEN LN LOG10 LOOKUP LOWER MATCH MAX MID MIN MOD MONTH NOT NPV OR PI PMT POWER PRODUCT RANK REPT RIGHT
ROUND ROUNDDOWN ROUNDUP ROW ROWS SIGN SIN SMALL SQRT SUBSTITUTE SUM SUMIF SUMIFS SUMPRODUCT TAN TRIM TRUE UPPER VALUE
VLOOKUP WORKDAY YEAR
"""
TRUSTED = frozenset(_TRUSTED.split())
"""Functions that the engine works out as a second one does; a test holds each to that. TEXT is not among
them: it rounds halves the other way."""

_ON_TEXTS = frozenset(
    {"CONCATENATE", "EXACT", "LEFT", "LEN", "LOWER", "MID", "REPT", "RIGHT", "SUBSTITUTE", "TRIM", "UPPER", "VALUE"}
)
"""Functions that make a text of a number they are given; the engine writes more digits of it than others do."""

_COLUMN, _CELL = r"\$?[A-Za-z]{1,3}", r"\$?[A-Za-z]{1,3}\$?[0-9]{1,7}"
_WORD = r"[^\W\d][\w.\\?]*"
_TOKEN = re.compile(
    rf"""
      (?P<text>"(?:[^"]|"")*")
    | (?P<array>\{{[^}}]*\}})
    | (?P<error>\#(?:REF!|N/A|NAME\?|VALUE!|DIV/0!|NUM!|NULL!))
    | (?P<outside>'[^']*\[(?:[^']|'')*'!|\[[^\]]*\][^!'()+*/,;&=<>]*!)
    | (?:(?P<sheet>'(?:[^']|'')+'|[\w.]+(?::[\w.]+)?)!)?
      (?:
        (?P<area>(?:{_CELL}:{_CELL}|{_CELL}|{_COLUMN}:{_COLUMN}|\$?[0-9]+:\$?[0-9]+)(?![\w.(\[!:]))
      | (?P<table>{_WORD}\[(?:[^\[\]]|\[[^\]]*\])*\])
      | (?P<function>{_WORD}\()
      | (?P<name>{_WORD})
      )
    | (?P<number>[0-9.]+(?:[eE][+-]?[0-9]+)?)
    | (?P<space>\s+)
    | (?P<mark>.)
    """,
    re.VERBOSE | re.DOTALL,
)
_OPERANDS = frozenset({"area", "table", "name"})
_SPECIAL_PARTS = re.compile(r"#(?:All|Data|Headers|Totals)|@", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Area:
    """A range of one sheet; its title without regard to case."""

    sheet: str
    rect: Rect


@dataclass(frozen=True, slots=True, kw_only=True)
class Uses:
    """What a formula rests on."""

    areas: tuple[Area, ...]
    names: tuple[str, ...] = ()
    """Names and tables it mentions, without regard to case."""
    anywhere: bool = False
    """Whether it may look at any cell: the address is worked out."""
    trusted: bool = True
    """Whether the engine works it out as a spreadsheet program does."""
    joins: bool = False
    """Whether it may make texts of numbers."""
    compares: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """What formulas of one workbook can point at."""

    titles: Sequence[str]
    """Sheets in the order of their tabs, without regard to case."""
    names: Mapping[tuple[str, str], str]
    """(name, place of its sheet or "") -> what it stands for."""
    tables: Mapping[str, Area]

    def uses(self, formula: str, home: str) -> Uses:
        """What a formula on the sheet `home` rests on."""
        reading = _Reading(self, home)
        reading.read(formula)
        return Uses(areas=tuple(dict.fromkeys(reading.areas)), names=tuple(dict.fromkeys(reading.names)),
                    anywhere=reading.anywhere, trusted=reading.trusted, joins=reading.joins,
                    compares=reading.compares)  # fmt: skip

    def meaning(self, name: str, home: str) -> str | None:
        """What a name stands for on the sheet `home`: its own comes before that of the workbook."""
        place = str(self.titles.index(home)) if home in self.titles else ""
        return self.names.get((name, place), self.names.get((name, "")))


class _Reading:
    """One pass over a formula."""

    def __init__(self, outline: Outline, home: str) -> None:
        self._outline, self._home = outline, home
        self._inside_names: list[str] = []
        self.areas: list[Area] = []
        self.names: list[str] = []
        self.anywhere = False
        self.trusted = True
        self.joins = self.compares = False

    def read(self, formula: str) -> None:
        """Note everything the formula mentions."""
        brackets: list[bool] = []
        before, space = "", False
        for token in _TOKEN.finditer(formula):
            kind = token.lastgroup or ""
            self._note(token, kind)
            if kind == "function":
                brackets.append(True)
            elif kind == "mark":
                self._mark(token["mark"], brackets)
            # A blank between two ranges takes what they share.
            self.trusted &= not (space and kind in _OPERANDS and before in _OPERANDS)
            space = kind == "space"
            before = before if space else kind

    def _mark(self, mark: str, brackets: list[bool]) -> None:
        if mark == "(":
            brackets.append(False)
        elif mark == ")" and brackets:
            brackets.pop()
        elif mark == "," and not (brackets and brackets[-1]):
            self.trusted = False  # several ranges as one
        elif mark in ":#@[]{}!'":
            self.trusted = False
        self.joins |= mark == "&"
        self.compares |= mark in "=<>"

    def _note(self, token: "re.Match[str]", kind: str) -> None:
        if kind in ("array", "outside", "error"):
            self.trusted = False
        elif kind == "function":
            self._function(token["function"][:-1].upper())
        elif kind == "area":
            self.areas += [Area(title, rect(token["area"])) for title in self._sheets(token["sheet"])]
        elif kind == "table":
            name, _, part = token["table"].partition("[")
            self._table(name.casefold())
            self.trusted &= not _SPECIAL_PARTS.search(part.replace("[#This Row]", ""))
        elif kind == "name":
            self._name(token["name"].casefold(), token["sheet"])

    def _function(self, name: str) -> None:
        name = name.removeprefix("_XLFN.")
        self.anywhere |= name in ("INDIRECT", "OFFSET")
        self.joins |= name in _ON_TEXTS
        self.trusted &= name in TRUSTED

    def _sheets(self, written: str | None) -> Iterator[str]:
        if written is None:
            yield self._home
            return
        title = written.strip("'").replace("''", "'").casefold()
        first, between, last = title.partition(":")
        titles = list(self._outline.titles)
        if between and first in titles and last in titles:
            self.trusted = False
            ends = sorted((titles.index(first), titles.index(last)))
            yield from titles[ends[0] : ends[1] + 1]
            return
        self.trusted &= title in titles
        yield title

    def _table(self, name: str) -> None:
        self.names.append(name)
        if name in self._outline.tables:
            self.areas.append(self._outline.tables[name])
        else:
            self.trusted = False

    def _name(self, name: str, sheet: str | None) -> None:
        if name in ("true", "false") and sheet is None:
            return
        home = next(iter(self._sheets(sheet)))
        meaning = self._outline.meaning(name, home)
        if name in self._outline.tables or meaning is None:
            self.trusted = False
            self._table(name)
            return
        self.names.append(name)
        # A name of names of names ends at one that is being read already.
        if name in self._inside_names:
            self.trusted = False
            return
        found = _TOKEN.fullmatch(meaning.strip())
        self.trusted &= found is not None and found.lastgroup == "area" and sheet is None
        self._inside_names.append(name)
        self.read(meaning)
        self._inside_names.pop()
