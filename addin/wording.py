"""A traced number in words and in figures: how a result came about, for the engineer who checks it.

Covers   one line in words (`(length - deducted) x height x surface`), one in figures (`(8.77 - 0.345) x ... = 128.97`).
Not      formulas for cells (formulas).
Rules    a node with a label is named by it; what has none is written out; figures are shown to five digits; brackets
         stand wherever a part could be read with its neighbour, round phrases and negative figures too.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from addin.formulas import ADD, ATOM, COMPARE, MULTIPLY, POWER
from addin.layout import SHEET
from calc.number import Filed, Traced, TracedText, text_of

TIMES = " × "  # noqa: RUF001 - the sign a person writes, not the letter

_SIGNS = {
    "add": (" + ", ADD), "subtract": (" - ", ADD), "multiply": (TIMES, MULTIPLY), "divide": (" / ", MULTIPLY),
    "power": ("^", POWER), "at most": (" ≤ ", COMPARE), "less than": (" < ", COMPARE),
    "at least": (" ≥ ", COMPARE), "more than": (" > ", COMPARE),
}  # fmt: skip

MOST_TOLD = 8
"""Figures of which the greatest or least is taken that are still told one by one."""

PHRASE = 0
"""How tightly a phrase such as `a if b, else c` binds: less than any sign."""

Leaf = Callable[[Any], str | None]


@dataclass(frozen=True, slots=True)
class Labels:
    """What nodes are called: by the headings of the columns they stand in, or by their names."""

    by_id: Mapping[int, str]

    def of(self, node: Any) -> str | None:
        """The label of a node, or None."""
        return self.by_id.get(id(node)) or _entry_label(node)


def _entry_label(node: Any) -> str | None:
    """An entry of the survey is called by the heading of its column."""
    if not isinstance(node, (Traced, TracedText)) or node.op != "entry":
        return None
    cell = node.args[0]
    if cell.sheet in SHEET:
        return SHEET[cell.sheet].columns[cell.column - 1].title.lower()
    return f"{cell.sheet} entry"


def words(node: Any, labels: Labels) -> str:
    """How a result comes about, in words."""
    return _told(node, labels, labels.of, top=True)[0]


def figures(node: Any, labels: Labels) -> str:
    """How a result comes about, in figures, with the result."""
    if not isinstance(node, Traced):
        return figure(node)

    def leaf(part: Any) -> str | None:
        if isinstance(part, TracedText):
            return f'"{part.value}"'
        known = labels.of(part) is not None or part.op in _SHOWN_BY_VALUE
        return figure(part.value) if known else None

    return f"{_told(node, labels, leaf, top=True)[0]} = {figure(node.value)}"


_SHOWN_BY_VALUE = ("literal", "at", "total by name")
"""What is one figure on paper, whether or not it has a label."""


def figure(value: Any) -> str:
    """A number as a person writes it: five digits, no needless zeros.

    >>> figure(128.967), figure(0.23), figure(1234567.0), figure(0.0000125), figure(True)
    ('128.97', '0.23', '1,234,567', '0.0000125', 'yes')
    """
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value
    rounded = Decimal(f"{value:.5g}")
    if abs(rounded) >= 10000:
        return f"{value:,.0f}"
    return f"{rounded.normalize() + 0:f}"  # + 0: no -0


def _told(node: Any, labels: Labels, leaf: Leaf, *, top: bool = False) -> tuple[str, int]:
    """A node and how tightly it binds."""
    if isinstance(node, (str, TracedText)):
        called = leaf(node) if isinstance(node, TracedText) else labels.of(node)
        return called or f'"{text_of(node)}"', ATOM
    if not isinstance(node, Traced):
        return figure(node), ATOM
    if not top and (called := leaf(node)):
        return called, ATOM
    if node.op not in _SIGNS:
        return _phrase(node, labels, leaf)
    sign, level = _SIGNS[node.op]
    left_least = level + 1 if node.op == "power" else level
    right_least = level + 1 if node.op in ("subtract", "divide") else level
    left, right = (_bound(_told(arg, labels, leaf), least)
                   for arg, least in zip(node.args, (left_least, right_least), strict=True))  # fmt: skip
    return f"{left}{sign}{right}", level


def _bound(told: tuple[str, int], least: int) -> str:
    """A part in brackets unless it binds tightly enough; a negative figure always has them."""
    text, level = told
    return f"({text})" if level < least or text.startswith("-") else text


def _phrase(node: Traced, labels: Labels, leaf: Leaf) -> tuple[str, int]:
    def part(arg: Any, least: int = COMPARE) -> str:
        return _bound(_told(arg, labels, leaf), least)

    args = node.args
    match node.op:
        case "literal" | "entry":
            return leaf(node) or figure(node.value), ATOM
        case "at" | "total by name":
            return _filed_phrase(node, labels, leaf), ATOM
        case "where":
            return f"{part(args[1])} if {part(args[0])}, else {part(args[2])}", PHRASE
        case "ratio":
            return f"{part(args[0], MULTIPLY)} / {part(args[1], POWER)}", MULTIPLY
        case "same":
            return f"{part(args[0])} is {part(args[1])}", COMPARE
        case "given or":
            return f"{part(args[1])}, else {part(args[2])}", PHRASE
        case "given":
            return f"{part(args[0])} is given", COMPARE
        case "rounded":
            places = f" to {args[1]} place{'s'[: args[1] != 1]}" if args[1] else ""
            return f"{part(args[0], POWER)} rounded{places}", PHRASE
        case "ceil":
            return f"{part(args[0], POWER)} rounded up", PHRASE
        case "at issue":
            return "worked out at issue", PHRASE
        case "product":
            return TIMES.join(part(arg, MULTIPLY) for arg in args if arg is not None), MULTIPLY
        case "total":
            return (part(args[0]), PHRASE) if len(args) == 1 else (f"total of {len(args)} figures", PHRASE)
        case "maximum" | "minimum" if len(args) > MOST_TOLD:
            return f"{_NAMES[node.op]}{len(args)} figures", PHRASE
        case "counted":
            return f"how many of {len(args)} entries are given", PHRASE
        case "weighted total":
            return f"sum of {len(args) // 2} products", PHRASE
        case "picked":
            return f"that of {part(args[0])}, of {len(args) - 1}", PHRASE
        case "both" | "either":
            return (" and " if node.op == "both" else " or ").join(map(part, args)), PHRASE
        case _:
            return f"{_NAMES[node.op]}({', '.join(_told(arg, labels, leaf)[0] for arg in args)})", ATOM


_NAMES = {"maximum": "greatest of ", "minimum": "least of ", "sqrt": "root of ", "cosine": "cos"}


def _filed_phrase(node: Traced, labels: Labels, leaf: Leaf) -> str:
    filed: Filed = node.args[0]
    if not filed.values:
        return "0"
    column = labels.of(filed.values[0]) or "figure"
    key = _told(node.args[1], labels, leaf)[0]
    return f"{column} of {key}" if node.op == "at" else f"sum of {column} of {key}"
