"""What the calculations raise. They know quantities and rules, never sheets or cells.

CalcError
  DomainError (ValueError)       a number outside what the physics or the source allows
  NothingFits (LookupError)      no row of a table is big enough; says what was needed and the best there is
  NoLayout (LookupError)         no layout of jacks under a wall keeps the rules; says which rule and what would help
  FrozenBranch (TypeError)       a decision was asked of a number that must stay live
"""

import operator
from collections.abc import Callable

_RULES: dict[str, Callable[[float, float], bool]] = {
    "be more than": operator.gt,
    "be at least": operator.ge,
    "be less than": operator.lt,
    "be at most": operator.le,
}


class CalcError(Exception):
    """Base of every error raised on purpose in calc."""


class DomainError(CalcError, ValueError):
    """A value breaks a limit. The parts are kept so that the limit can be restated in the user's unit."""

    def __init__(self, quantity: str, value: float, unit: str, must: str, limit: float) -> None:
        super().__init__(quantity, value, unit, must, limit)
        self.quantity, self.value, self.unit, self.must, self.limit = quantity, value, unit, must, limit

    def __str__(self) -> str:
        return f"{self.quantity} is {self.value:g} {self.unit}; it must {self.must} {self.limit:g} {self.unit}"


class NothingFits(CalcError, LookupError):  # noqa: N818 - says what it found, as the trade would
    """No entry in a table reaches what is needed."""

    def __init__(self, what: str, needed: float, best: float, unit: str) -> None:
        super().__init__(what, needed, best, unit)
        self.what, self.needed, self.best, self.unit = what, needed, best, unit

    def __str__(self) -> str:
        return f"no {self.what} reaches {self.needed:g} {self.unit}; the largest listed is {self.best:g} {self.unit}"


class NoLayout(CalcError, LookupError):  # noqa: N818 - says what it found, as the trade would
    """No layout of jacks under one wall keeps every rule."""

    def __init__(self, reason: str, helps: tuple[str, ...]) -> None:
        super().__init__(reason, helps)
        self.reason, self.helps = reason, helps

    def __str__(self) -> str:
        return f"{self.reason}. What would help: {'; '.join(self.helps) or 'nothing tried here'}"


class FrozenBranch(CalcError, TypeError):  # noqa: N818 - names what went wrong
    """A Python decision was asked of a traced number: it would freeze one branch into the workbook unseen."""


def require(quantity: str, value: float, unit: str, must: str, limit: float) -> None:
    """Raise DomainError unless `value` satisfies `must limit`.

    >>> require("width", 0.75, "m", "be more than", 0.0)
    """
    # Ask "does it satisfy", never "does it violate": NaN violates nothing and would pass.
    if not _RULES[must](value, limit):
        raise DomainError(quantity, value, unit, must, limit)
