"""The three kinds of number a survey can be handed to calc in.

Covers   plain floats; traced numbers that know their cell of the issued workbook; quantities with units.
Not      reading the entries (reader) and which entry becomes what (surveying).
Units    an entry is in its column's unit, what leaves here is in calc's unit.

A kind is an object, so that texts too are handed out in the kind of the run: a text that knows its cell makes traced
numbers out of floats wherever it is compared.
"""

from dataclasses import dataclass
from typing import Any, Protocol

from addin import units
from calc.number import Text, Traced, TracedText, Truth, entry, literal


@dataclass(frozen=True, slots=True, order=True)
class Cell:
    """A cell of the issued workbook; rows and columns count from 1."""

    sheet: str
    row: int
    column: int


@dataclass(frozen=True, slots=True)
class Default:
    """What a blank stands for: its value in the column's unit, or a number of calc, and the cell it stands in."""

    value: float
    source: Cell


class Kind(Protocol):
    """What the survey builder asks of a kind of number."""

    def number(self, value: float, source: Cell, unit: str, calc_unit: str) -> Any:
        """An entry that is there."""

    def number_or(self, value: float | None, source: Cell, unit: str, calc_unit: str, default: Any) -> Any:
        """An entry, or `default` (already in calc's unit) where it is blank or unknown."""

    def given(self, value: float | None, source: Cell) -> Truth:
        """Whether a number stands in the cell."""

    def text(self, value: str, source: Cell) -> Text:
        """A text that is there."""

    def text_or(self, value: str, source: Cell, default: Text) -> Text:
        """A text, or `default` where it is blank."""


class Floats:
    """Plain numbers."""

    def number(self, value: float, source: Cell, unit: str, calc_unit: str) -> float:  # noqa: ARG002
        """An entry that is there."""
        up, down = units.factor(unit, calc_unit)
        return value * up / down

    def number_or(self, value: float | None, source: Cell, unit: str, calc_unit: str, default: Any) -> Any:
        """An entry, or its default."""
        return default if value is None else self.number(value, source, unit, calc_unit)

    def given(self, value: float | None, source: Cell) -> bool:  # noqa: ARG002
        """Whether a number stands in the cell."""
        return value is not None

    def text(self, value: str, source: Cell) -> str:  # noqa: ARG002
        """A text that is there."""
        return value

    def text_or(self, value: str, source: Cell, default: Text) -> Text:  # noqa: ARG002
        """A text, or its default."""
        return value or default


class Tracing:
    """Numbers and texts that know the cell they stand in."""

    def number(self, value: float, source: Cell, unit: str, calc_unit: str) -> Traced:
        """An entry that is there."""
        return _converted(entry(value, source), unit, calc_unit)

    def number_or(self, value: float | None, source: Cell, unit: str, calc_unit: str, default: Any) -> Traced:
        """An entry, or its default where the cell holds no number."""
        leaf = entry(0.0 if value is None else value, source)
        there = _converted(leaf, unit, calc_unit)
        usual = default if isinstance(default, Traced) else literal(default)
        return Traced(usual.value if value is None else there.value, "given or", (leaf, there, usual))

    def given(self, value: float | None, source: Cell) -> Traced:
        """Whether a number stands in the cell."""
        return Traced(value is not None, "given", (entry(0.0 if value is None else value, source),))

    def text(self, value: str, source: Cell) -> TracedText:
        """A text that is there."""
        return TracedText(value, "entry", (source,))

    def text_or(self, value: str, source: Cell, default: Text) -> TracedText:
        """A text, or its default where the cell is empty."""
        leaf = TracedText(value, "entry", (source,))
        usual = default.value if isinstance(default, TracedText) else default
        return TracedText(value or usual, "text or", (leaf, default))


class Quantities:
    """Numbers with their unit, for the dimension checks of the tests."""

    def number(self, value: float, source: Cell, unit: str, calc_unit: str) -> Any:  # noqa: ARG002
        """An entry that is there."""
        up, down = units.factor(unit, calc_unit)
        return units.quantity(value * up / down, calc_unit)

    def number_or(self, value: float | None, source: Cell, unit: str, calc_unit: str, default: Any) -> Any:
        """An entry, or its default."""
        if value is not None:
            return self.number(value, source, unit, calc_unit)
        return default if hasattr(default, "m_as") else units.quantity(float(default), calc_unit)

    def given(self, value: float | None, source: Cell) -> bool:  # noqa: ARG002
        """Whether a number stands in the cell."""
        return value is not None

    def text(self, value: str, source: Cell) -> str:  # noqa: ARG002
        """A text that is there."""
        return value

    def text_or(self, value: str, source: Cell, default: Text) -> Text:  # noqa: ARG002
        """A text, or its default."""
        return value or default


def _converted(leaf: Traced, unit: str, calc_unit: str) -> Traced:
    up, down = units.factor(unit, calc_unit)
    node = leaf if up == 1 else leaf * up
    return node if down == 1 else node / down
