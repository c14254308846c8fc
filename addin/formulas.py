"""A traced number as a spreadsheet formula.

Covers   where nodes live (homes), references in a fixed order of preference, and one rendering for each operation.
Not      what is placed where (tables, book), words and figures (wording).
Rules    identity decides which cell a node lives in; nothing newer than the functions of 2010; no unary minus; no
         constant but 0, 1, 2 and 4 (and the 9 places a comparison is rounded to), which the tests hold to.
"""

import math
from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from openpyxl.utils import get_column_letter, quote_sheetname

from addin.kinds import Cell
from addin.layout import FIRST_ROW, JOB, SHEET, UNKNOWN
from calc.number import Filed, Name, Traced, TracedText

LONGEST = 120
"""Characters of a formula an engineer still reads; a test holds the demo to it."""

LONGEST_WORD = 255
"""Characters of a text inside a formula; spreadsheets refuse more."""

MOST_ARGUMENTS = 255
"""Arguments of a function; spreadsheets refuse more."""

DEEPEST = 40
"""Nested operations without a cell of their own; more is a fault of the formula, not of the survey."""


class CannotRender(Exception):  # noqa: N818 - an error of the program: it names the cell and what to give a cell
    """A node cannot be written as a formula where it stands."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A cell, and the block (one table) it belongs to."""

    sheet: str
    row: int
    column: int
    block: int = 0

    @property
    def address(self) -> str:
        """Its address on its sheet."""
        return f"{get_column_letter(self.column)}{self.row}"


@dataclass(frozen=True, slots=True)
class Stretch:
    """A column that things are looked up in: its first cell, and how far below it each further one stands."""

    start: Spot
    steps: tuple[int, ...]


@dataclass(slots=True)
class Homes:
    """Which cells show which node. The first cell is the node's home; it holds the formula, the others point at it."""

    spots: dict[int, list[Spot]] = field(default_factory=lambda: defaultdict(list))
    by_row: dict[tuple[int, int, int], Spot] = field(default_factory=dict)
    """(node, block, row) -> the first cell of that row that shows the node."""
    names: dict[int, str] = field(default_factory=dict)
    kept: list[Any] = field(default_factory=list)
    """Nodes are kept alive: an id is only an identity while its object lives."""
    rows_in_block: dict[int, int] = field(default_factory=dict)
    constants: dict[tuple[str, int, int], float] = field(default_factory=dict)
    """Cells of tables that hold a plain number: part of a column that is looked things up in."""

    def place(self, node: Any, spot: Spot) -> bool:
        """Show a node in a cell; True where the cell becomes its home."""
        self.kept.append(node)
        first = id(node) not in self.spots and not _is_survey_entry(node)
        self.spots[id(node)].append(spot)
        self.by_row.setdefault((id(node), spot.block, spot.row), spot)
        return first

    def name(self, node: Any, name: str) -> None:
        """Give the cell of a node a name that formulas use."""
        self.kept.append(node)
        self.names.setdefault(id(node), name)

    def shows(self, node: Any, sheet: str, row: int, column: int) -> bool:
        """Whether a cell shows this node, or this plain number."""
        if not isinstance(node, (Traced, TracedText, Name)):
            return self.constants.get((sheet, row, column)) == node
        return any((spot.sheet, spot.row, spot.column) == (sheet, row, column) for spot in self.of(node))

    def row_after(self, node: Any, beside: Spot, row: int) -> int:
        """The row below `row` where the column of `beside` shows a node; the very next one for a plain number."""
        there = [spot.row for spot in self.of(node) if (spot.sheet, spot.column) == (beside.sheet, beside.column)]
        return min((found for found in there if found > row), default=row + 1)

    def of(self, node: Any) -> list[Spot]:
        """Every cell that shows a node, its survey cell first."""
        own = [_survey_spot(node)] if _is_survey_entry(node) else []
        return own + self.spots.get(id(node), [])


def _is_survey_entry(node: Any) -> bool:
    return isinstance(node, (Traced, TracedText)) and node.op == "entry"


def _survey_spot(node: Any) -> Spot:
    cell: Cell = node.args[0]
    return Spot(cell.sheet, cell.row, cell.column)


COMPARE, ADD, MULTIPLY, POWER, ATOM = 1, 2, 3, 4, 5
_INFIX = {
    "add": ("+", ADD), "subtract": ("-", ADD), "multiply": ("*", MULTIPLY), "divide": ("/", MULTIPLY),
    "power": ("^", POWER), "at most": ("<=", COMPARE), "less than": ("<", COMPARE), "at least": (">=", COMPARE),
    "more than": (">", COMPARE),
}  # fmt: skip


@dataclass(slots=True)
class Renderer:
    """Writes nodes as formulas; remembers what a lint wants to know."""

    homes: Homes
    literals: set[float] = field(default_factory=set)
    loose: dict[int, int] = field(default_factory=lambda: defaultdict(int))
    """Nodes without a cell, and how often each was written out."""
    columns: dict[int, tuple[Stretch, Stretch]] = field(default_factory=dict)
    """Where the names and values of each column things are looked up in stand."""

    def formula(self, node: Any, here: Spot) -> str:
        """The formula of the cell that is the home of `node`, with its equals sign."""
        return "=" + _Writing(self, here).body(node)[0]

    def reference(self, node: Any, here: Spot) -> str:
        """A formula that shows the home of `node`, by its name where it has one."""
        if id(node) in self.homes.names:
            return "=" + self.homes.names[id(node)]
        return "=" + _Writing(self, here).where(self.homes.of(node)[0])


@dataclass(slots=True)
class _Writing:
    """One formula being written, for one cell."""

    renderer: Renderer
    here: Spot
    depth: int = 0

    def ref(self, node: Any) -> tuple[str, int]:
        """A node inside a formula: by name, by a cell of this row, by its home, or else written out."""
        homes = self.renderer.homes
        if id(node) in homes.names:
            return homes.names[id(node)], ATOM
        own = homes.by_row.get((id(node), self.here.block, self.here.row))
        if own and own != self.here:
            return own.address, ATOM
        spots = homes.of(node)
        if spots and spots[0] != self.here:
            return self.where(spots[0]), ATOM
        return self.body(node)

    def where(self, spot: Spot) -> str:
        """A cell as seen from here; the one row of a listing is fixed, a table's rows are relative."""
        fixed = spot.block and self.renderer.homes.rows_in_block.get(spot.block, 2) == 1
        letter = get_column_letter(spot.column)
        address = f"${letter}${spot.row}" if fixed else f"{letter}{spot.row}"
        return address if spot.sheet == self.here.sheet else f"{quote(spot.sheet)}!{address}"

    def body(self, node: Any) -> tuple[str, int]:
        """A node written out."""
        if isinstance(node, (str, TracedText)):
            return self._text(node)
        if not isinstance(node, Traced) or node.op == "literal":
            return self._literal(node.value if isinstance(node, Traced) else node)
        self.depth += 1
        if self.depth > DEEPEST:
            raise self.cannot("nested too deep; give its parts cells")
        if node.op not in ("entry", "given"):
            self.renderer.loose[id(node)] += 1
        try:
            if node.op in _INFIX:
                return self._infix(node)
            return _OPERATIONS[node.op](self, node), _LEVELS.get(node.op, ATOM)
        finally:
            self.depth -= 1

    def plain(self, node: Any) -> str:
        """A node as an argument, where no brackets are needed."""
        return self.ref(node)[0]

    def _literal(self, value: Any) -> tuple[str, int]:
        if isinstance(value, bool):
            return str(value).upper(), ATOM
        number = float(value)
        if not math.isfinite(number):
            raise self.cannot(f"{number} is not a number a cell can hold")
        self.renderer.literals.add(number)
        size = abs(number)
        text = str(int(size)) if size == int(size) and size < 1e15 else repr(size).upper()
        return (f"0-{text}", ADD) if number < 0 else (text, ATOM)  # never a unary minus: -2^2 is 4 in a sheet

    def _text(self, text: Any) -> tuple[str, int]:
        if isinstance(text, TracedText):
            operation = text.op if text.op == "entry" else f"text {text.op}"
            return _OPERATIONS[operation](self, text), ATOM
        if len(text) > LONGEST_WORD:
            raise self.cannot(f"a text of {len(text)} characters does not fit into a formula; give it a cell")
        return '"' + str(text).replace('"', '""') + '"', ATOM

    def cannot(self, why: str) -> CannotRender:
        """The error to raise, with the cell."""
        return CannotRender(f"{self.here.sheet}!{self.here.address}: {why}")

    def _infix(self, node: Traced) -> tuple[str, int]:
        sign, level = _INFIX[node.op]
        (left, left_level), (right, right_level) = self.ref(node.args[0]), self.ref(node.args[1])
        if left_level < level or (node.op == "power" and left_level == level):
            left = f"({left})"
        if right_level < level or (right_level == level and node.op in ("subtract", "divide")):
            right = f"({right})"
        return f"{left}{sign}{right}", level

    def filed(self, filed: Filed) -> tuple[str, str]:
        """The ranges of the names and of the values of a column things are looked up in, found once for each."""
        found = self.renderer.columns.get(id(filed))
        if found is None:
            found = self._side_by_side(filed)
            self.renderer.columns[id(filed)] = found
            self.renderer.homes.kept.append(filed)  # its id is its name only while it lives
        names, values = (self._range(stretch) for stretch in found)
        return names, values

    def _range(self, stretch: Stretch) -> str:
        start = stretch.start
        letter = get_column_letter(start.column)
        address = f"${letter}${start.row}:${letter}${start.row + stretch.steps[-1]}"
        return address if start.sheet == self.here.sheet else f"{quote(start.sheet)}!{address}"

    def _side_by_side(self, filed: Filed) -> tuple[Stretch, Stretch]:
        """Where the names and the values stand, row by row alike; names in the block of the values where they can."""
        for values in self._stretches(filed.values):
            alike = [names for names in self._stretches(filed.names) if names.steps == values.steps]
            alike.sort(key=lambda names: names.start.block != values.start.block)
            if alike:
                return alike[0], values
        raise self.cannot(f"a column it looks things up in stands in no table in order (first: {filed.values[0]!r}, "
                          f"{len(filed.values)} rows)")  # fmt: skip

    def _stretches(self, nodes: Sequence[Any]) -> list[Stretch]:
        """Every column that shows these nodes in order. Rows in between are a survey's own and hold nothing to find."""
        homes = self.renderer.homes
        known = next((step for step, node in enumerate(nodes) if isinstance(node, (Traced, TracedText, Name))), None)
        if known is None:  # any column with the same constants would do, the wrong one too
            raise self.cannot(f"a column of {len(nodes)} plain constants is looked up with a live key; trace one")
        found = []
        for spot in homes.of(nodes[known]):
            rows = list(range(spot.row - known, spot.row + 1))
            for node in nodes[known + 1 :]:
                rows.append(homes.row_after(node, spot, rows[-1]))
            if all(homes.shows(node, spot.sheet, row, spot.column) for node, row in zip(nodes, rows, strict=True)):
                start = replace(spot, row=rows[0])
                found.append(Stretch(start, tuple(row - rows[0] for row in rows)))
        return found

    def runs(self, nodes: Iterable[Any]) -> list[str]:
        """Cells of several nodes, neighbours in a column joined into ranges."""
        spots: list[Spot | str] = []
        homes = self.renderer.homes
        for node in nodes:
            places = homes.of(node)
            near = id(node) in homes.names or (id(node), self.here.block, self.here.row) in homes.by_row
            spots.append(places[0] if places and not near else self.plain(node))
        result: list[str] = []
        at = 0
        while at < len(spots):
            first = spots[at]
            if isinstance(first, str):
                result.append(first)
                at += 1
                continue
            end = at
            while end + 1 < len(spots) and self._follows(spots[end], spots[end + 1]):
                end += 1
            last = spots[end]
            text = self.where(first)
            if end > at and not isinstance(last, str):
                text += f":{self.where(last).rpartition('!')[2]}"
            result.append(text)
            at = end + 1
        return result

    @staticmethod
    def _follows(one: Spot | str, other: Spot | str) -> bool:
        if isinstance(one, str) or isinstance(other, str):
            return False
        return (one.sheet, one.column, one.row + 1) == (other.sheet, other.column, other.row)


def quote(sheet: str) -> str:
    """A sheet's title as a formula writes it."""
    return sheet if sheet.isalpha() else quote_sheetname(sheet)


# ---------------------------------------------------------------------------------------------- operations


def _call(function: str) -> Callable[[_Writing, Any], str]:
    return lambda w, node: f"{function}({','.join(w.plain(arg) for arg in node.args)})"


def _joined(function: str) -> Callable[[_Writing, Any], str]:
    def write(w: _Writing, node: Any) -> str:
        runs = w.runs(node.args)
        if len(runs) > MOST_ARGUMENTS:
            raise w.cannot(f"{function} of {len(runs)} scattered cells; give them one column")
        return f"{function}({','.join(runs)})"

    return write


def _entry(w: _Writing, node: Any) -> str:
    return w.where(_survey_spot(node))


def _ceil(w: _Writing, node: Any) -> str:
    return f"CEILING(ROUND({w.plain(node.args[0])},9),1)"


def _rounded(w: _Writing, node: Any) -> str:
    return f"ROUND({w.plain(node.args[0])},{node.args[1]})"


def _cosine(w: _Writing, node: Any) -> str:
    return f"COS(RADIANS({w.plain(node.args[0])}))"


def _ratio(w: _Writing, node: Any) -> str:
    part, (whole, level), zero = w.ref(node.args[0]), w.ref(node.args[1]), w.plain(node.args[2])
    top = f"({part[0]})" if part[1] < MULTIPLY else part[0]
    return f"IF({whole}=0,{zero},{top}/{whole if level > MULTIPLY else f'({whole})'})"


def _same(w: _Writing, node: Any) -> str:
    return f"{w.plain(node.args[0])}={w.plain(node.args[1])}"


def _given(w: _Writing, node: Any) -> str:
    # Asked of the entry itself: a cell that refers to a blank one shows the number 0.
    return f"ISNUMBER({w.where(_survey_spot(node.args[0]))})"


def _may_be_unknown(cell: Cell) -> bool:
    """Whether `unknown` is an answer there, and stands for the same as a blank."""
    columns = SHEET[cell.sheet].columns if cell.sheet in SHEET else ()
    at = cell.row - FIRST_ROW if cell.sheet == "Job" else cell.column - 1
    columns = JOB if cell.sheet == "Job" else columns
    return 0 <= at < len(columns) and columns[at].unknown


def _given_or(w: _Writing, node: Any) -> str:
    """Text with a unit is the program's to read: until the next issue it is an error, never taken for a blank."""
    leaf, there, usual = node.args
    cell = w.where(_survey_spot(leaf))
    blank = f'{cell}=""'
    if _may_be_unknown(leaf.args[0]):
        blank = f'OR({blank},{cell}="{UNKNOWN}")'
    instead = f"IF({blank},{w.plain(usual)},NA())"
    return f"IF(ISNUMBER({cell}),{w.plain(there)},{instead})"


def _text_or(w: _Writing, node: Any) -> str:
    leaf, usual = node.args
    cell = w.where(_survey_spot(leaf))
    return f'IF({cell}="",{w.plain(usual)},{cell})'


def _looked_up(w: _Writing, node: Any) -> str:
    filed, key = node.args
    names, values = w.filed(filed)
    return f"INDEX({values},MATCH({w.plain(key)},{names},0))"


def _summed_by_name(w: _Writing, node: Any) -> str:
    filed: Filed = node.args[0]
    if not filed.values:
        return w._literal(0)[0]
    names, values = w.filed(filed)
    return f"SUMIFS({values},{names},{w.plain(node.args[1])})"


def _product(w: _Writing, node: Any) -> str:
    """The cells of a measured line from the first to the last of its dimensions; those it does not have are empty."""
    row = (w.here.sheet, w.here.row)
    columns = [
        (order, {spot.column for spot in w.renderer.homes.of(arg) if (spot.sheet, spot.row) == row})
        for order, arg in enumerate(node.args)
        if arg is not None
    ]
    first_order, firsts = columns[0]
    for start in sorted(column - first_order for column in firsts):
        end = start + len(node.args) - 1
        beside = all(start + order in found for order, found in columns)
        if beside and start > 0 and not start <= w.here.column <= end:
            return f"PRODUCT({get_column_letter(start)}{w.here.row}:{get_column_letter(end)}{w.here.row})"
    raise w.cannot("the dimensions of a measured line stand side by side in its row")


def _counted(w: _Writing, node: Any) -> str:
    return f"COUNT({_column(w, _leaves(w, node.args))})"


def _leaves(w: _Writing, nodes: Sequence[Any]) -> list[Any]:
    """The entries that several nodes ask whether they are given."""
    if any(node.op != "given" for node in nodes):
        raise w.cannot("only entries are counted, and picked by whether they are given")
    return [node.args[0] for node in nodes]


def _weighted_total(w: _Writing, node: Any) -> str:
    half = len(node.args) // 2
    return f"SUMPRODUCT({_column(w, node.args[:half])},{_column(w, node.args[half:])})"


def _column(w: _Writing, nodes: Sequence[Any]) -> str:
    """The homes of several nodes, which stand below each other: a cell elsewhere that shows a blank one shows 0."""
    return _area(w, nodes, "below each other in one column", down=1)


def _area(w: _Writing, nodes: Sequence[Any], where: str, *, down: int = 0, along: int = 0) -> str:
    spots = [places[0] for places in map(w.renderer.homes.of, nodes) if places]
    starts = {(s.sheet, s.row - down * step, s.column - along * step) for step, s in enumerate(spots)}
    if len(spots) != len(nodes) or len(starts) != 1:
        raise w.cannot(f"what is counted, multiplied or picked stands {where}")
    return f"{w.where(spots[0])}:{w.where(spots[-1]).rpartition('!')[2]}"


def _picked(w: _Writing, node: Any) -> str:
    """One cell of a row. Whether an entry is given is asked of its own cell: one that refers to it would show 0."""
    order, choices = node.args[0], node.args[1:]
    asked = choices[0].op == "given"
    area = _area(w, _leaves(w, choices) if asked else choices, "side by side in one row", along=1)
    found = f"INDEX({area},{w.plain(order)})"
    return f"ISNUMBER({found})" if asked else found


def _at_issue(w: _Writing, _node: Any) -> str:
    raise w.cannot("a result worked out at issue needs a cell of its own")


_OPERATIONS: dict[str, Callable[[_Writing, Any], str]] = {
    "entry": _entry,
    "ceil": _ceil,
    "rounded": _rounded,
    "maximum": _joined("MAX"),
    "minimum": _joined("MIN"),
    "total": _joined("SUM"),
    "sqrt": _call("SQRT"),
    "cosine": _cosine,
    "where": _call("IF"),
    "ratio": _ratio,
    "same": _same,
    "both": _call("AND"),
    "either": _call("OR"),
    "given": _given,
    "given or": _given_or,
    "at": _looked_up,
    "total by name": _summed_by_name,
    "product": _product,
    "counted": _counted,
    "weighted total": _weighted_total,
    "picked": _picked,
    "at issue": _at_issue,
    "text literal": lambda w, node: w._text(node.value)[0],
    "text text or": _text_or,
    "text where": _call("IF"),
    "text at": _looked_up,
}

_LEVELS = {"same": COMPARE}
"""How tightly an operation binds that is neither an infix of _INFIX nor a function with its own brackets."""
