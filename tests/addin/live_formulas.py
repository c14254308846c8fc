"""Works out the formulas of the live survey as a spreadsheet with the add-in would: a small part of their language.

Covers   IF, OR, AND, LEFT, SUM, INDEX, MATCH, ISNUMBER, our own functions through the module the add-in calls;
         comparisons, & and *; cells, ranges, defined names. An error passes through whatever takes it.
Not      anything else: a formula with another function or sign fails the test that runs it.
"""

from collections.abc import Callable
from typing import Any

from openpyxl import Workbook
from openpyxl.formula import Tokenizer
from openpyxl.formula.tokenizer import Token
from openpyxl.utils.cell import coordinate_to_tuple
from openpyxl.worksheet.formula import ArrayFormula

from addin.excel import udfs

_STEPS = (("=", "<>"), ("&",), ("*",))
"""Signs that join two operands, the loosest first."""


class Live:
    """A live survey with entries; `value` is what a cell shows."""

    def __init__(self, book: Workbook) -> None:
        self.book = book
        self.blocks: dict[tuple[str, str], ArrayFormula] = {}
        """Cell -> the array formula it belongs to."""
        self.worked: dict[int, Any] = {}
        for page in book:
            for content in page.array_formulae:
                array = page[content].value
                for row in page[array.ref]:
                    self.blocks |= {(page.title, cell.coordinate): array for cell in row}

    def value(self, sheet: str, cell: str) -> Any:
        """What a cell shows: its entry, or the result of its formula."""
        if (sheet, cell) in self.blocks:
            return self.part(sheet, cell, self.blocks[sheet, cell])
        content = self.book[sheet][cell].value
        if isinstance(content, str) and content.startswith("="):
            return self.formula(content, sheet)
        return content

    def part(self, sheet: str, cell: str, array: ArrayFormula) -> Any:
        """A cell's part of an array formula: one value serves all; beyond a block there is #N/A."""
        if id(array) not in self.worked:
            self.worked[id(array)] = self.formula(array.text, sheet)
        block = self.worked[id(array)]
        if not isinstance(block, list):
            return block
        (row, column), (top, left) = coordinate_to_tuple(cell), coordinate_to_tuple(array.ref.partition(":")[0])
        down, across = row - top, column - left
        return block[down][across] if down < len(block) and across < len(block[0]) else "#N/A"

    def formula(self, text: str, sheet: str = "") -> Any:
        """The result of a formula."""
        return _Reading(self, sheet, [t for t in Tokenizer(text).items if t.type != Token.WSPACE]).result()

    def operand(self, name: str, sheet: str) -> Any:
        """A cell, a range as rows, or a defined name."""
        if name in self.book.defined_names:
            return self.formula("=" + self.book.defined_names[name].attr_text)
        sheet, _, place = name.rpartition("!") if "!" in name else (sheet, "", name)
        sheet = sheet.strip("'")
        place = place.replace("$", "")
        if ":" not in place:
            return self.value(sheet, place)
        return [[self.value(sheet, cell.coordinate) for cell in row] for row in self.book[sheet][place]]


class _Reading:
    """One formula, read from left to right; what IF does not choose is never worked out."""

    def __init__(self, live: Live, sheet: str, tokens: list[Token]) -> None:
        self.live, self.sheet, self.tokens, self.at = live, sheet, tokens, 0

    def result(self) -> Any:
        act = self.joined(0)
        assert self.at == len(self.tokens), f"not understood: {self.tokens[self.at :]}"
        return act()

    def joined(self, step: int) -> Callable[[], Any]:
        if step == len(_STEPS):
            return self.single()
        left = self.joined(step + 1)
        while self.at < len(self.tokens) and self.tokens[self.at].value in _STEPS[step]:
            sign = self.tokens[self.at].value
            self.at += 1
            left = _join(sign, left, self.joined(step + 1))
        return left

    def single(self) -> Callable[[], Any]:
        token = self.tokens[self.at]
        self.at += 1
        if token.type == Token.OPERAND:
            return self.constant(token)
        assert (token.type, token.subtype) == (Token.FUNC, Token.OPEN), token.value
        arguments = []
        while self.tokens[self.at].subtype != Token.CLOSE:
            if self.tokens[self.at].type == Token.SEP:
                self.at += 1
            arguments.append(self.joined(0))
        self.at += 1
        return lambda: _called(token.value.rstrip("("), arguments)

    def constant(self, token: Token) -> Callable[[], Any]:
        if token.subtype == Token.NUMBER:
            return lambda: float(token.value)
        if token.subtype == Token.TEXT:
            return lambda: token.value[1:-1].replace('""', '"')
        return lambda: self.live.operand(token.value, self.sheet)


def _join(sign: str, left: Callable[[], Any], right: Callable[[], Any]) -> Callable[[], Any]:
    def act() -> Any:
        one, other = left(), right()
        for side in (one, other):
            if _is_error(side):
                return side
        if sign == "*":
            return one * other
        if sign == "&":
            return _text(one) + _text(other)
        same = _compared(one) == _compared(other)
        return same if sign == "=" else not same

    return act


def _called(name: str, arguments: list[Callable[[], Any]]) -> Any:
    if name == "IF":
        chosen = arguments[0]()
        return chosen if _is_error(chosen) else arguments[1]() if chosen else arguments[2]()
    values = [argument() for argument in arguments]
    if name.startswith("PLINTH_"):
        return getattr(udfs, name)(*(value if isinstance(value, list) else [[value]] for value in values))
    if name == "MATCH":
        names = [_compared(row[0]) for row in values[1]]
        wanted = _compared(values[0])
        return names.index(wanted) + 1 if wanted in names else "#N/A"
    for value in values:
        if _is_error(value):
            return value
    acts: dict[str, Callable[..., Any]] = {
        "OR": lambda *given: any(given),
        "AND": lambda *given: all(given),
        "LEFT": lambda text, count: _text(text)[: int(count)],
        "SUM": lambda block: sum(cell for row in _rows(block) for cell in row if not isinstance(cell, str)),
        "INDEX": lambda block, row: block[int(row) - 1][0],
        "ISNUMBER": lambda value: isinstance(value, (int, float)),
    }
    return acts[name](*values)


def _rows(block: Any) -> list[list[Any]]:
    return block if isinstance(block, list) else [[block]]


def _is_error(value: Any) -> bool:
    return isinstance(value, str) and value in udfs.ERROR_NUMBERS


def _text(value: Any) -> str:
    return "" if value is None else f"{value:.15g}" if isinstance(value, float) else str(value)


def _compared(value: Any) -> Any:
    """As a sheet compares: a blank is an empty text, capitals make no difference, a text is never a number."""
    return "" if value is None else value.casefold() if isinstance(value, str) else value
