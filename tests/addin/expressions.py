"""Random expressions over everything a formula of calc may use, made once and run in any kind of number.

Covers   recipes (an expression as nested tuples), the entries they draw on, running a recipe on floats, traced numbers
         or quantities, and refusing recipes whose result hangs on the sixteenth digit.
Not      writing them into a workbook (test_formulas).

A recipe is refused where engines may part from Python without either being wrong: a difference that cancels almost
wholly, a comparison or a rounding that is almost a tie. Exact ties have tables of their own in test_number.
"""

import math
import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from addin.kinds import Cell, Kind
from calc.number import (
    Filed,
    Traced,
    both,
    ceil,
    cosine,
    counted,
    either,
    maximum,
    minimum,
    product,
    ratio,
    rounded,
    rounded_up_to,
    same,
    sqrt,
    total,
    weighted_total,
    where,
    within,
    word_where,
)

SHEET, FIRST_ROW, ROWS = "Survey entries", 2, 24
NAMES = ("W1", "W2", "w1", "Hall", "HALL", "B-3", "it's", "W 9")
KINDS = ("door", "window", "vent", "")
MASONRY = ("Brick", "brick", 'Stone, 15" thick', "Window")
Recipe = tuple[Any, ...]


@dataclass(frozen=True, slots=True)
class Entries:
    """The survey of the random expressions in one kind of number, column by column."""

    numbers: Sequence[Any]
    """As the cells have them."""
    lengths: Sequence[Any]
    """Entered in mm, handed out in m."""
    given: Sequence[Any]
    """Whether the third column holds a number."""
    optional: Sequence[Any]
    names: Sequence[Any]
    kinds: Sequence[Any]
    """Texts, some blank."""
    filled: Sequence[Any]
    """The same texts, a blank standing for `door`."""
    filed: Filed
    filed_masonry: Filed


def cells() -> list[tuple[float, float, float | None, str, str, str]]:
    """The rows of the sheet: number, length in mm, optional number, name, kind, masonry."""
    rng = random.Random(11)
    return [
        (rng.choice((0.0, 1.0, round(rng.uniform(-5, 20), 2), round(rng.uniform(0.01, 2), 3))),
         float(rng.randrange(10, 9000)), None if row % 3 == 0 else round(rng.uniform(-3, 9), 2),
         NAMES[row % len(NAMES)], KINDS[row % len(KINDS)], rng.choice(MASONRY))
        for row in range(ROWS)
    ]  # fmt: skip


def entries(kind: Kind) -> Entries:
    """The survey in a kind of number."""
    rows = list(enumerate(cells(), start=FIRST_ROW))
    numbers = [kind.number(row[0], Cell(SHEET, at, 1), "-", "-") for at, row in rows]
    names = [kind.text(row[3], Cell(SHEET, at, 4)) for at, row in rows]
    kinds = [kind.text(row[4], Cell(SHEET, at, 5)) for at, row in rows]
    return Entries(
        numbers=numbers,
        lengths=[kind.number(row[1], Cell(SHEET, at, 2), "mm", "m") for at, row in rows],
        given=[kind.given(row[2], Cell(SHEET, at, 3)) for at, row in rows],
        optional=[kind.number_or(row[2], Cell(SHEET, at, 3), "-", "-", numbers[1]) for at, row in rows],
        names=names, kinds=kinds, filled=[kind.text_or(row[4], Cell(SHEET, at, 5), "door") for at, row in rows],
        filed=Filed(names, numbers),
        filed_masonry=Filed(names, [kind.text(row[5], Cell(SHEET, at, 6)) for at, row in rows]),
    )  # fmt: skip


def recipe(rng: random.Random, depth: int) -> Recipe:
    """A random expression that gives a number."""
    if depth == 0 or rng.random() < 0.1:
        if rng.random() < 0.12:
            return ("constant", rng.choice((0, 1, 2, 4)))
        return (rng.choice(("numbers", "lengths", "optional", "numbers")), rng.randrange(ROWS))
    deeper = depth - 1
    verb = rng.choice((*"+-*/+-*/", "negative", "power", "ceil", "rounded", "up to", "maximum", "minimum", "sqrt",
                       "cosine", "where", "ratio", "total", "run", "at", "by name", "product",
                       "counted", "squares"))  # fmt: skip
    if verb in ("power", "rounded"):
        return (verb, recipe(rng, deeper), rng.choice((2, 3, -1) if verb == "power" else (0, 2, 9)))
    if verb in ("maximum", "minimum", "total", "product"):
        return (verb, *(recipe(rng, deeper) for _ in range(rng.choice((1, 2, 3)))))
    if verb in ("at", "by name", "run", "counted", "squares"):
        return (verb, rng.randrange(ROWS), rng.randrange(ROWS))
    if verb == "where":
        return (verb, truth(rng, deeper), recipe(rng, deeper), recipe(rng, deeper))
    count = {"negative": 1, "ceil": 1, "sqrt": 1, "cosine": 1, "ratio": 3}.get(verb, 2)
    return (verb, *(recipe(rng, deeper) for _ in range(count)))


def truth(rng: random.Random, depth: int) -> Recipe:
    """A random expression that gives yes or no."""
    if depth <= 0:
        return ("given", rng.randrange(ROWS))
    verb = rng.choice(("<=", "<", ">=", ">", "within", "same", "same", "both", "either", "given"))
    if verb in ("both", "either"):
        return (verb, truth(rng, depth - 1), truth(rng, depth - 1))
    if verb == "same":
        return (verb, rng.choice((("kinds", rng.randrange(ROWS)), text(rng, depth - 1))), text(rng, depth - 1))
    if verb == "given":
        return (verb, rng.randrange(ROWS))
    return (verb, recipe(rng, depth - 1), recipe(rng, depth - 1))


def text(rng: random.Random, depth: int) -> Recipe:
    """A random expression that gives a text, not a blank entry: a sheet makes 0 of a blank that is handed on."""
    verb = rng.choice(("filled", "names", "word", "masonry at", "words where"))
    if verb == "words where" and depth > 0:
        return (verb, truth(rng, depth - 1), text(rng, depth - 1), text(rng, depth - 1))
    if verb in ("word", "words where"):
        return ("word", rng.choice(('12" wall', "window", "DOOR", "w1")))
    return (verb, rng.randrange(ROWS))


class Unsteady(ArithmeticError):  # noqa: N818 - not a fault, a recipe to pass over
    """The result hangs on the last digits, or there is none."""


class Runner:
    """Runs recipes on one kind of number; `parts` keeps the nodes of PRODUCT, which need cells."""

    def __init__(self, given: Entries) -> None:
        self.given = given
        self.products: list[Any] = []

    def __call__(self, made: Recipe) -> Any:
        """The result of a recipe.

        Raises:
            ArithmeticError: a division by zero, the root of a negative number
        """
        verb, *args = made
        given = self.given
        if verb in ("numbers", "lengths", "optional", "given", "names", "kinds", "filled"):
            return getattr(given, verb)[args[0]]
        if verb in ("constant", "word"):
            return args[0]
        if verb == "at":
            return given.filed.at(given.names[args[0]])
        if verb == "masonry at":
            return given.filed_masonry.at(given.names[args[0]])
        if verb == "by name":
            return given.filed.total(given.names[args[0]])
        if verb == "run":
            low, high = sorted(args)
            return total(given.numbers[low : high + 1])
        if verb == "counted":
            low, high = sorted(args)
            return counted(given.given[low : high + 1])
        if verb == "squares":
            low, high = sorted(args)
            return weighted_total(given.numbers[low : high + 1], given.numbers[low : high + 1])
        if verb in ("power", "rounded"):
            value = self(args[0])
            return value ** args[1] if verb == "power" else rounded(value, args[1])
        values = [self(arg) for arg in args]
        if verb == "product":
            result = product(*([values[0], None, *values[1:]] if len(values) > 2 else values))
            self.products.append(result)
            return result
        return _VERBS[verb](*values)


_VERBS = {
    "+": lambda a, b: a + b, "-": lambda a, b: a - b, "*": lambda a, b: a * b, "/": lambda a, b: a / b,
    "negative": lambda a: -a, "<=": lambda a, b: a <= b, "<": lambda a, b: a < b, ">=": lambda a, b: a >= b,
    ">": lambda a, b: a > b, "within": within, "same": same, "both": both, "either": either, "words where": word_where,
    "ceil": ceil, "up to": rounded_up_to, "maximum": maximum, "minimum": minimum, "sqrt": sqrt, "cosine": cosine,
    "where": where, "ratio": ratio, "total": lambda *terms: total(terms),
}  # fmt: skip


def check_steady(node: Any) -> None:
    """Refuse a traced result that engines may see differently in the last digits.

    Raises:
        Unsteady: an almost whole cancellation, an almost tie, or a number out of all measure
    """
    for part in parts(node):
        values = [float(arg.value) for arg in part.args if isinstance(arg, Traced)]
        result, largest = float(part.value), max(map(abs, values), default=0.0)
        if part.op in ("add", "subtract", "total") and result != 0 and abs(result) < 1e-3 * largest:
            raise Unsteady(part.op)
        if part.op in ("add", "subtract") and result == 0 and largest != 0:
            raise Unsteady(part.op)
        if part.op in ("at most", "less than", "at least", "more than") and abs(values[0] - values[1]) < 1e-6 * largest:
            raise Unsteady(part.op)
        if part.op in ("rounded", "ceil"):
            scaled = abs(values[0]) * 10.0 ** (part.args[1] if part.op == "rounded" else 9)
            if abs(scaled % 1 - 0.5) < 1e-3 or scaled > 1e12:
                raise Unsteady(part.op)
        if part.op == "ceil" and 0 < abs(values[0] - round(values[0])) < 1e-6:
            raise Unsteady(part.op)
        if not math.isfinite(result) or (result != 0 and not 1e-9 < abs(result) < 1e9):
            raise Unsteady(part.op)


def parts(node: Any) -> Iterator[Traced]:
    """A traced number and every number it came from."""
    if isinstance(node, Traced):
        yield node
    for arg in getattr(node, "args", ()):
        if hasattr(arg, "args"):
            yield from parts(arg)


def steady(seed: int, count: int, given: Entries, *, depth: int = 4) -> Iterator[tuple[Recipe, Any, list[Any]]]:
    """Recipes with their traced result and the products in it, as many as wanted, each one steady and traced."""
    rng = random.Random(seed)
    while count:
        made = rng.choice((recipe, recipe, recipe, truth, text))(rng, depth)
        runner = Runner(given)
        try:
            node = runner(made)
            check_steady(node)
        except (ArithmeticError, ValueError):
            continue
        if hasattr(node, "args"):
            count -= 1
            yield made, node, runner.products
