"""Kinds of number: the same formula gives a result, a live formula or a dimension check.

Covers   what a formula of calc may use besides + - * / **: ceil, maximum, minimum, sqrt, cosine, where, ratio, rounded,
         rounded_up_to, total, counted, weighted_total, picked, comparison of texts, look-up by name, and
         results frozen at issue.
         Three kinds pass through: float (the result), Traced (the value and where it came from), and any
         quantity with `m_as` (value and unit; this module does not import the units library).
Not      how a traced number is written into a cell or a sentence.
Signs    none of its own.
Units    those of its arguments.
Sources  rounding is half up on 15 significant digits, as spreadsheets do (ECMA-376 leaves it to the application;
         checked against two engines in the tests).

A traced number is an immutable node `value, op, args`. It knows no cell; identity decides which cell it lives in, so
what is shown must be computed once and passed on. Asking it for a decision raises FrozenBranch.
"""

import math
from collections.abc import Callable, Iterable, Sequence
from decimal import ROUND_HALF_UP, Decimal
from typing import Any, Protocol, TypeGuard

from calc.errors import FrozenBranch


class Number(Protocol):
    """What a formula may do with a number of any kind. `math.sqrt`, `max`, `round` and `int` are not among it."""

    def __add__(self, other: Any, /) -> "Number": ...
    def __radd__(self, other: Any, /) -> "Number": ...
    def __sub__(self, other: Any, /) -> "Number": ...
    def __rsub__(self, other: Any, /) -> "Number": ...
    def __mul__(self, other: Any, /) -> "Number": ...
    def __rmul__(self, other: Any, /) -> "Number": ...
    def __truediv__(self, other: Any, /) -> "Number": ...
    def __rtruediv__(self, other: Any, /) -> "Number": ...
    def __pow__(self, other: int, /) -> "Number": ...
    def __le__(self, other: Any, /) -> Any: ...
    def __lt__(self, other: Any, /) -> Any: ...
    def __ge__(self, other: Any, /) -> Any: ...
    def __gt__(self, other: Any, /) -> Any: ...


Truth = Any
"""A bool, or a traced number that stands for one."""


class Traced:
    """A number (or truth) that remembers the operation and the nodes it came from."""

    __slots__ = ("args", "op", "value")
    __array_ufunc__ = None  # a numpy array must not swallow a node element by element

    def __init__(self, value: float, op: str, args: tuple[Any, ...] = ()) -> None:
        self.value, self.op, self.args = value, op, args

    def __repr__(self) -> str:
        return f"Traced({self.value!r}, {self.op!r})"

    def __add__(self, other: Any) -> Any:
        return _binary("add", self, other, lambda a, b: a + b)

    def __radd__(self, other: Any) -> Any:
        return _binary("add", other, self, lambda a, b: a + b)

    def __sub__(self, other: Any) -> Any:
        return _binary("subtract", self, other, lambda a, b: a - b)

    def __rsub__(self, other: Any) -> Any:
        return _binary("subtract", other, self, lambda a, b: a - b)

    def __mul__(self, other: Any) -> Any:
        return _binary("multiply", self, other, lambda a, b: a * b)

    def __rmul__(self, other: Any) -> Any:
        return _binary("multiply", other, self, lambda a, b: a * b)

    def __truediv__(self, other: Any) -> Any:
        return _binary("divide", self, other, lambda a, b: a / b)

    def __rtruediv__(self, other: Any) -> Any:
        return _binary("divide", other, self, lambda a, b: a / b)

    def __pow__(self, exponent: int) -> Any:
        if not isinstance(exponent, int):
            return NotImplemented
        return Traced(self.value**exponent, "power", (self, literal(exponent)))

    def __neg__(self) -> Any:
        return 0 - self  # a sheet reads -x^2 as (-x)^2, so no formula has a unary minus

    def __le__(self, other: Any) -> Any:
        return _binary("at most", self, other, lambda a, b: a <= b)

    def __lt__(self, other: Any) -> Any:
        return _binary("less than", self, other, lambda a, b: a < b)

    def __ge__(self, other: Any) -> Any:
        return _binary("at least", self, other, lambda a, b: a >= b)

    def __gt__(self, other: Any) -> Any:
        return _binary("more than", self, other, lambda a, b: a > b)

    def __bool__(self) -> bool:
        raise FrozenBranch("a traced number was asked for a decision: use where(), both(), either(), maximum()")

    def __eq__(self, other: object) -> bool:
        if self is other:
            return True
        raise FrozenBranch("a traced number was compared with ==: use at_most both ways, or same() for texts")

    __hash__ = object.__hash__

    def __format__(self, spec: str) -> str:
        raise FrozenBranch("a traced number was put into a sentence: use value_of() where freezing it is meant")

    def __str__(self) -> str:
        return f"{self}"


class TracedText:
    """A text of the survey that remembers its cell, or one fetched by name."""

    __slots__ = ("args", "op", "value")

    def __init__(self, value: str, op: str, args: tuple[Any, ...] = ()) -> None:
        self.value, self.op, self.args = value, op, args

    def __repr__(self) -> str:
        return f"TracedText({self.value!r}, {self.op!r})"

    def __bool__(self) -> bool:
        raise FrozenBranch("a traced text was asked for a decision: use same()")

    def __eq__(self, other: object) -> bool:
        if self is other:
            return True
        raise FrozenBranch("a traced text was compared with ==: use same()")

    __hash__ = object.__hash__

    def __format__(self, spec: str) -> str:
        raise FrozenBranch("a traced text was put into a sentence: use text_of() where freezing it is meant")

    def __str__(self) -> str:
        return f"{self}"


class Name(str):
    """A name fixed by the plan. Each is an object of its own, so that identity can tell two equal names apart."""

    __slots__ = ()


Text = str | TracedText


def literal(value: float) -> Traced:
    """A constant inside a formula. Only 0, 1, 2 and 4 are allowed to reach a cell; a test holds to that."""
    return Traced(value, "literal")


def entry(value: float, source: object) -> Traced:
    """A number that stands in a cell: `source` says which, and means nothing here."""
    return Traced(value, "entry", (source,))


def value_of(number: Any) -> float:
    """The plain float of a number of any kind: the one door out of a formula.

    Each use is a frozen decision, a solver or a message. A quantity gives its magnitude; inside calc every quantity
    is in m, kN and days.

    >>> value_of(literal(2) * 3)
    6.0
    """
    if isinstance(number, Traced):
        return float(number.value)
    if hasattr(number, "m_as"):
        return float(number.magnitude)
    return float(number)


def text_of(text: Text) -> str:
    """The plain text of a text of any kind."""
    return text.value if isinstance(text, TracedText) else str(text)


def _is_traced(values: Iterable[Any]) -> bool:
    return any(isinstance(value, (Traced, TracedText)) for value in values)


def _is_quantity(value: Any) -> TypeGuard[Any]:
    return hasattr(value, "m_as")


def _lift(value: Any) -> Traced:
    if isinstance(value, Traced):
        return value
    if _is_quantity(value):  # it would ride along inside a node without a word
        raise FrozenBranch("a traced number met a quantity: a run has one kind of number")
    if not isinstance(value, (int, float)):
        raise TypeError(f"{value!r} is no number")
    return literal(value)


def _sum(values: Iterable[Any]) -> Any:
    """One addition after the other from 0.0: the builtin sum compensates in newer Pythons, and the kinds would part."""
    result: Any = 0.0
    for value in values:
        result = result + value
    return result


def _binary(op: str, a: Any, b: Any, act: Callable[[float, float], float]) -> Any:
    for other in (a, b):
        if not isinstance(other, (Traced, int, float)) and not _is_quantity(other):
            return NotImplemented
    a, b = _lift(a), _lift(b)
    return Traced(act(a.value, b.value), op, (a, b))


def half_up(value: float, places: int) -> float:
    """`value` rounded half away from zero on its 15 significant digits, as spreadsheets do.

    >>> half_up(1.005, 2), half_up(-2.5, 0)
    (1.01, -3.0)
    """
    digits = Decimal(f"{value:.15g}")
    # What ends before that place is left alone: to fill it up with zeros could take more digits than Decimal has.
    if digits.is_finite() and int(digits.as_tuple().exponent) < -places:
        digits = digits.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)
    return float(digits) + 0.0  # a sheet has no -0


def rounded(number: Any, places: int) -> Any:
    """Half up to `places` decimals.

    >>> rounded(2.675, 2)
    2.68
    """
    if isinstance(number, Traced):
        return Traced(half_up(number.value, places), "rounded", (number, places))
    if _is_quantity(number):
        return number.__class__(half_up(number.magnitude, places), number.units)
    return half_up(number, places)


def ceil(number: Any) -> Any:
    """The next whole number up; a billionth too much is taken for rounding noise.

    >>> ceil((0.1 + 0.2) * 10), ceil(3.001)
    (3.0, 4.0)
    """
    if isinstance(number, Traced):
        return Traced(float(math.ceil(half_up(number.value, 9))), "ceil", (number,))
    if _is_quantity(number):
        return number.__class__(float(math.ceil(half_up(number.m_as(""), 9))), "")
    return float(math.ceil(half_up(number, 9)))


def rounded_up_to(number: Any, step: Any) -> Any:
    """`number` rounded up to a whole number of steps.

    >>> rounded_up_to(0.532, 0.05)
    0.55
    """
    return ceil(number / step) * step


def maximum(*numbers: Any) -> Any:
    """The greatest.

    >>> maximum(2, 7, 3)
    7
    """
    if _is_traced(numbers):
        nodes = tuple(map(_lift, numbers))
        return Traced(max(node.value for node in nodes), "maximum", nodes)
    return max(_with_units(numbers))


def minimum(*numbers: Any) -> Any:
    """The least.

    >>> minimum(2, 7, 3)
    2
    """
    if _is_traced(numbers):
        nodes = tuple(map(_lift, numbers))
        return Traced(min(node.value for node in nodes), "minimum", nodes)
    return min(_with_units(numbers))


def sqrt(number: Any) -> Any:
    """The square root.

    >>> sqrt(9.0)
    3.0
    """
    if isinstance(number, Traced):
        return Traced(math.sqrt(number.value), "sqrt", (number,))
    if _is_quantity(number):
        return number**0.5
    return math.sqrt(number)


def cosine(angle: Any) -> Any:
    """The cosine of an angle in degrees.

    >>> cosine(0.0)
    1.0
    """
    if isinstance(angle, Traced):
        return Traced(math.cos(math.radians(angle.value)), "cosine", (angle,))
    if _is_quantity(angle):
        return angle.__class__(math.cos(angle.m_as("radian")), "")
    return math.cos(math.radians(angle))


def _with_units(numbers: Sequence[Any]) -> Sequence[Any]:
    """Numbers one of which will be chosen: of one dimension, and a bare 0 in the unit of the others, or it is lost."""
    like = next((number for number in numbers if _is_quantity(number)), None)
    if like is None:
        return numbers
    zero = like * 0
    for number in numbers:
        zero + number  # the units library refuses another dimension
    return [number if _is_quantity(number) else zero + number for number in numbers]


def where(condition: Truth, then: Any, otherwise: Any) -> Any:
    """`then` if the condition holds, else `otherwise`; both are computed.

    >>> where(3 > 2, 10.0, 0.0)
    10.0
    """
    if _is_traced((condition, then, otherwise)):
        test = condition if isinstance(condition, Traced) else Traced(bool(condition), "literal")
        a, b = _lift(then), _lift(otherwise)
        return Traced(a.value if test.value else b.value, "where", (test, a, b))
    then, otherwise = _with_units((then, otherwise))
    return then if condition else otherwise


def ratio(part: Any, whole: Any, when_zero: Any) -> Any:
    """The part over the whole, or `when_zero` where the whole is 0. `where` cannot: it computes both branches.

    >>> ratio(1.0, 0.0, 0.0), ratio(1.0, 4.0, 0.0)
    (0.0, 0.25)
    """
    if _is_traced((part, whole, when_zero)):
        a, b, c = _lift(part), _lift(whole), _lift(when_zero)
        return Traced(c.value if b.value == 0 else a.value / b.value, "ratio", (a, b, c))
    if value_of(whole) != 0:
        return _with_units((part / whole, when_zero))[0]
    one = whole.__class__(1.0, whole.units) if _is_quantity(whole) else 1.0
    return _with_units((when_zero, part * 0 / one))[0]


def same(text: Text, word: Text) -> Truth:
    """Whether two texts are the same, upper and lower case alike.

    >>> same("Window", "window")
    True
    """
    alike = text_of(text).casefold() == text_of(word).casefold()
    if _is_traced((text, word)):
        return Traced(alike, "same", (text, word))
    return alike


def word_where(condition: Truth, then: Text, otherwise: Text) -> Text:
    """`then` if the condition holds, else `otherwise`: the choice between two texts.

    >>> word_where(1 > 2, "road", "flood")
    'flood'
    """
    if _is_traced((condition, then, otherwise)):
        chosen = text_of(then) if _truth(condition) else text_of(otherwise)
        return TracedText(chosen, "where", (_lift(condition), then, otherwise))
    return then if condition else otherwise


def both(*truths: Truth) -> Truth:
    """Whether all hold."""
    if _is_traced(truths):
        return Traced(all(_truth(truth) for truth in truths), "both", tuple(map(_lift, truths)))
    return all(truths)


def either(*truths: Truth) -> Truth:
    """Whether any holds."""
    if _is_traced(truths):
        return Traced(any(_truth(truth) for truth in truths), "either", tuple(map(_lift, truths)))
    return any(truths)


def _truth(truth: Truth) -> bool:
    return bool(truth.value if isinstance(truth, Traced) else truth)


def within(demand: Any, capacity: Any) -> Truth:
    """Whether a demand is no more than a capacity, to nine decimals: the one comparison a verdict rests on.

    Engines and Python part over 0.1 + 0.2 <= 0.3, so the difference is rounded before it is compared.

    >>> within(0.1 + 0.2, 0.3), within(0.300001, 0.3)
    (True, False)
    """
    return rounded(demand - capacity, 9) <= 0


def total(numbers: Iterable[Any]) -> Any:
    """The sum of numbers of any kind; an empty sum is 0.

    >>> total([1.0, 2.0, 3.5])
    6.5
    """
    terms = tuple(numbers)
    if _is_traced(terms):
        nodes = tuple(map(_lift, terms))
        return Traced(_sum(node.value for node in nodes), "total", nodes)
    return _sum(terms)


def counted(truths: Sequence[Truth]) -> Any:
    """How many of several entries are given.

    >>> counted([True, False, True])
    2.0
    """
    if _is_traced(truths):
        nodes = tuple(map(_lift, truths))
        return Traced(float(sum(bool(node.value) for node in nodes)), "counted", nodes)
    return float(sum(bool(truth) for truth in truths))


def weighted_total(weights: Sequence[Any], numbers: Sequence[Any]) -> Any:
    """The sum of products, pair by pair; a workbook multiplies two columns without a cell for each product.

    >>> weighted_total([1.0, 2.0], [3.0, 4.0])
    11.0
    """
    if _is_traced(weights) or _is_traced(numbers):
        ones, others = tuple(map(_lift, weights)), tuple(map(_lift, numbers))
        result = _sum(one.value * other.value for one, other in zip(ones, others, strict=True))
        return Traced(result, "weighted total", (*ones, *others))
    return total(one * other for one, other in zip(weights, numbers, strict=True))


def picked(choices: Sequence[Any], order: Any) -> Any:
    """The one of several numbers or truths that stands at a place, from 1; a workbook looks along the row they fill.

    >>> picked([0.1, 0.2, 0.4], 3)
    0.4
    """
    chosen = choices[int(value_of(order)) - 1]
    if _is_traced(choices) or _is_traced((order,)):
        return Traced(_lift(chosen).value, "picked", (_lift(order), *map(_lift, choices)))
    return chosen


def product(*numbers: Any) -> Any:
    """The product of those numbers that are there; None stands for a dimension a measured line does not have.

    >>> product(2, 3.5, None, 0.5)
    3.5
    """
    if _is_traced(numbers):
        nodes = tuple(number if number is None else _lift(number) for number in numbers)
        return Traced(product(*(node if node is None else node.value for node in nodes)), "product", nodes)
    result: Any = 1
    for number in numbers:
        result = result if number is None else result * number
    return result


class Filed:
    """A column of values filed under names: looked up (`at`) or summed (`total`) by name.

    Build each column once for all rows and pass it on: a workbook shows it as one column, and the look-up as a
    reference to that column.

    >>> areas = Filed(["W1", "W2", "W1"], [1.0, 2.0, 4.0])
    >>> areas.total("W1"), areas.at("W2"), areas.total("W9")
    (5.0, 2.0, 0.0)
    """

    __slots__ = ("_rows", "_sums", "_traced", "names", "values")

    def __init__(self, names: Sequence[Text], values: Sequence[Any]) -> None:
        self.names, self.values = tuple(names), tuple(values)
        if len(self.names) != len(self.values):
            raise ValueError(f"{len(self.names)} names for {len(self.values)} values")
        self._traced = _is_traced(self.values) or _is_traced(self.names)
        self._rows: dict[str, int] = {}
        self._sums: dict[str, list[Any]] = {}
        for row, (name, value) in enumerate(zip(self.names, self.values, strict=True)):
            key = text_of(name).casefold()
            self._rows.setdefault(key, row)
            self._sums.setdefault(key, []).append(value)

    def at(self, name: Text) -> Any:
        """The value filed first under `name`; KeyError when there is none."""
        value = self.values[self._rows[text_of(name).casefold()]]
        if not self._is_live(name):
            return value
        if isinstance(value, (TracedText, str)):
            return TracedText(text_of(value), "at", (self, name))
        return Traced(_lift(value).value, "at", (self, name))

    def total(self, name: Text) -> Any:
        """The sum of all values filed under `name`; 0 when there is none."""
        terms = self._sums.get(text_of(name).casefold(), [])
        if self._is_live(name):
            return Traced(_sum(_lift(term).value for term in terms), "total by name", (self, name))
        if not terms and self.values and _is_quantity(self.values[0]):
            return self.values[0] * 0  # an empty sum keeps the unit of its column, or area - 0 m would pass
        return total(terms)

    def _is_live(self, name: Text) -> bool:
        """Whether a look-up can change with an entry: of the values, of the names, or of the name looked up."""
        return self._traced or isinstance(name, TracedText)


def fixed(value: Any, like: Any, unit_of: Any = None) -> Any:
    """A number or text that the plan has fixed, as an object of its own: a workbook gives it a cell.

    A bare constant would be written into each formula, and rows that differ in it would no longer be alike.
    `like` tells the kind of number of the run; under a dimension check the number has the unit of `unit_of`.

    >>> fixed(-1, 3.0), fixed("two way", 3.0)
    (-1, 'two way')
    """
    if _is_quantity(unit_of):
        return unit_of.__class__(value, unit_of.units)
    if not isinstance(like, (Traced, TracedText)):
        return value
    return TracedText(value, "literal") if isinstance(value, str) else literal(value)


def at_issue(value: float, *inputs: Any, like: Any = 1.0) -> Any:
    """A result no formula can express, frozen when the workbook is issued, with the inputs it was worked out for.

    The workbook writes the value, keeps a copy of each input, and says so when an input has changed since.
    `like` lends its unit to the value under a dimension check.

    Raises:
        FrozenBranch: the value is itself traced, or an input is a text, which no flag compares

    >>> at_issue(0.5, 3.0, 6.0)
    0.5
    """
    if _is_traced((value,)) or any(isinstance(node, TracedText) for node in inputs):
        raise FrozenBranch("at_issue takes a plain value and numbers: a text it rests on belongs to the plan")
    if _is_traced(inputs):
        return Traced(value, "at issue", tuple(node for node in map(_lift, inputs) if node.op != "literal"))
    if _is_quantity(like):
        return like.__class__(value, like.units)
    return value
