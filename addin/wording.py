"""A traced number in words and in figures: how a result came about, for the engineer who checks it.

Covers   one line in words (`(length - deducted) x height x surface`), one in figures (`(8.77 - 0.345) x ... = 128.97`).
Not      formulas for cells (formulas).
Rules    a node with a label is named by it; what has none is written out; figures are shown to five digits.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from addin.formulas import ADD, ATOM, COMPARE, MULTIPLY, POWER
from addin.layout import SHEET
from calc.number import Filed, Traced, TracedText, text_of

_SIGNS = {
    "add": (" + ", ADD), "subtract": (" - ", ADD), "multiply": (" × ", MULTIPLY), "divide": (" / ", MULTIPLY),
    "power": ("^", POWER), "at most": (" ≤ ", COMPARE), "less than": (" < ", COMPARE),
    "at least": (" ≥ ", COMPARE), "more than": (" > ", COMPARE),
}  # fmt: skip

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
        known = labels.of(part) is not None or part.op == "literal"
        return figure(part.value) if known else None

    return f"{_told(node, labels, leaf, top=True)[0]} = {figure(node.value)}"


def figure(value: Any) -> str:
    """A number as a person writes it: five digits, no needless zeros.

    >>> figure(128.967), figure(0.23), figure(1234567.0), figure(True)
    ('128.97', '0.23', '1,234,567', 'yes')
    """
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value
    if abs(value) >= 10000:
        return f"{value:,.0f}"
    return f"{value:.5g}"


def _told(node: Any, labels: Labels, leaf: Leaf, *, top: bool = False) -> tuple[str, int]:
    if isinstance(node, (str, TracedText)):
        return (labels.of(node) or f'"{text_of(node)}"'), ATOM
    if not isinstance(node, Traced):
        return figure(node), ATOM
    if not top and (called := leaf(node)):
        return called, ATOM
    if node.op in _SIGNS:
        sign, level = _SIGNS[node.op]
        (left, a), (right, b) = (_told(arg, labels, leaf) for arg in node.args)
        left = f"({left})" if a < level else left
        right = f"({right})" if b < level or (b == level and node.op in ("subtract", "divide")) else right
        return f"{left}{sign}{right}", level
    return _phrase(node, labels, leaf), ATOM


def _phrase(node: Traced, labels: Labels, leaf: Leaf) -> str:
    def part(arg: Any) -> str:
        return _told(arg, labels, leaf)[0]

    args = node.args
    match node.op:
        case "literal" | "entry":
            return labels.of(node) or figure(node.value)
        case "at" | "total by name":
            return _filed_phrase(node, labels, leaf)
        case "where":
            return f"{part(args[1])} if {part(args[0])}, else {part(args[2])}"
        case "ratio":
            return f"{part(args[0])} / {part(args[1])}"
        case "same":
            return f"{part(args[0])} is {part(args[1])}"
        case "given or":
            return f"{part(args[1])}, else {part(args[2])}"
        case "given":
            return f"{part(args[0])} is given"
        case "rounded":
            return f"{part(args[0])} rounded to {args[1]} places" if args[1] else f"{part(args[0])} rounded"
        case "ceil":
            return f"{part(args[0])} rounded up"
        case "at issue":
            return "worked out at issue"
        case "product":
            return " × ".join(part(arg) for arg in args if arg is not None)
        case "total":
            return part(args[0]) if len(args) == 1 else f"total of {len(args)} figures"
        case _:
            joiner = " and " if node.op == "both" else " or " if node.op == "either" else ", "
            inner = joiner.join(part(arg) for arg in args)
            return inner if node.op in ("both", "either") else f"{_NAMES[node.op]}({inner})"


_NAMES = {"maximum": "greatest of ", "minimum": "least of ", "sqrt": "root of ", "cosine": "cos"}


def _filed_phrase(node: Traced, labels: Labels, leaf: Leaf) -> str:
    filed: Filed = node.args[0]
    key = _told(node.args[1], labels, leaf)[0]
    if not filed.values:
        return "0"
    column = labels.of(filed.values[0]) or "figure"
    if labels.of is not leaf:  # in figures: the value itself
        return figure(node.value)
    return f"{column} of {key}" if node.op == "at" else f"sum of {column} of {key}"
