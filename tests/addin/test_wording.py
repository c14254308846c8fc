"""addin.wording: how a result comes about, in words and in figures."""
# ruff: noqa: RUF001 - the sign of multiplication is meant

import pytest

from addin import formulas
from addin.kinds import Cell, Tracing
from addin.layout import SHEET
from addin.wording import Labels, figure, figures, words
from calc.number import (
    Filed,
    TracedText,
    at_issue,
    both,
    ceil,
    cosine,
    counted,
    either,
    entry,
    literal,
    maximum,
    minimum,
    picked,
    product,
    ratio,
    rounded,
    same,
    sqrt,
    total,
    weighted_total,
    where,
)
from tests.addin.expressions import parts

LENGTH, DEDUCTED, HEIGHT, SURFACE = literal(8.77), literal(0.345), literal(3.15), literal(4.8596)
SMALL = literal(-2.0)
KIND = TracedText("Door", "entry", (Cell("Openings", 4, 2),))
LABELS = Labels({id(LENGTH): "length", id(DEDUCTED): "deducted", id(HEIGHT): "height", id(SURFACE): "surface",
                 id(SMALL): "silt", id(KIND): "kind"})  # fmt: skip
WEIGHTS = [entry(19.0, Cell("Materials", 4, 2)), entry(25.0, Cell("Materials", 5, 2))]
FILED = Filed(["Brick", "Concrete"], WEIGHTS)
GIVEN_OR = Tracing().number_or(None, Cell("Job", 9, 2), "m", "m", HEIGHT)


def test_the_example_of_the_header_reads_as_it_says():
    node = (LENGTH - DEDUCTED) * HEIGHT * SURFACE
    assert words(node, LABELS) == "(length - deducted) × height × surface"
    assert figures(node, LABELS) == "(8.77 - 0.345) × 3.15 × 4.8596 = 128.97"


EXAMPLES = {
    "add": (LENGTH + HEIGHT, "length + height", "8.77 + 3.15 = 11.92"),
    "subtract a difference": (
        LENGTH - (HEIGHT - DEDUCTED),
        "length - (height - deducted)",
        "8.77 - (3.15 - 0.345) = 5.965",
    ),
    "add a difference": (LENGTH + (HEIGHT - DEDUCTED), "length + height - deducted", "8.77 + 3.15 - 0.345 = 11.575"),
    "divide by a product": (LENGTH / (HEIGHT * 2), "length / (height × 2)", "8.77 / (3.15 × 2) = 1.3921"),
    "power": ((LENGTH * 2) ** 2, "(length × 2)^2", "(8.77 × 2)^2 = 307.65"),
    "power of a power": ((LENGTH**2) ** 2, "(length^2)^2", "(8.77^2)^2 = 5915.6"),
    "a negative figure": (LENGTH - SMALL, "length - silt", "8.77 - (-2) = 10.77"),
    "the square of a negative figure": (SMALL**2, "silt^2", "(-2)^2 = 4"),
    "at most": (LENGTH <= HEIGHT, "length ≤ height", "8.77 ≤ 3.15 = no"),
    "less than": (HEIGHT < LENGTH, "height < length", "3.15 < 8.77 = yes"),
    "at least": (LENGTH >= HEIGHT, "length ≥ height", "8.77 ≥ 3.15 = yes"),
    "more than": (LENGTH > HEIGHT, "length > height", "8.77 > 3.15 = yes"),
    "ceil": (ceil(LENGTH / HEIGHT), "(length / height) rounded up", "(8.77 / 3.15) rounded up = 3"),
    "ceil inside": (
        ceil(LENGTH / HEIGHT) * 2,
        "((length / height) rounded up) × 2",
        "((8.77 / 3.15) rounded up) × 2 = 6",
    ),
    "rounded": (rounded(LENGTH, 1), "length rounded to 1 place", "8.77 rounded to 1 place = 8.8"),
    "rounded to whole": (rounded(LENGTH, 0), "length rounded", "8.77 rounded = 9"),
    "maximum": (maximum(LENGTH, HEIGHT, 0), "greatest of (length, height, 0)", "greatest of (8.77, 3.15, 0) = 8.77"),
    "minimum": (minimum(LENGTH - 1, HEIGHT), "least of (length - 1, height)", "least of (8.77 - 1, 3.15) = 3.15"),
    "sqrt": (sqrt(LENGTH + HEIGHT), "root of (length + height)", "root of (8.77 + 3.15) = 3.4525"),
    "cosine": (cosine(HEIGHT), "cos(height)", "cos(3.15) = 0.99849"),
    "where": (
        where(LENGTH > HEIGHT, LENGTH, 0),
        "length if length > height, else 0",
        "8.77 if 8.77 > 3.15, else 0 = 8.77",
    ),
    "where inside": (
        where(LENGTH > HEIGHT, LENGTH, 0) * 2,
        "(length if length > height, else 0) × 2",
        "(8.77 if 8.77 > 3.15, else 0) × 2 = 17.54",
    ),
    "where in where": (
        where(LENGTH > HEIGHT, where(HEIGHT > 4, 1, 2), 0),
        "(1 if height > 4, else 2) if length > height, else 0",
        "(1 if 3.15 > 4, else 2) if 8.77 > 3.15, else 0 = 2",
    ),
    "ratio": (ratio(LENGTH + 1, HEIGHT * 2, 0), "(length + 1) / (height × 2)", "(8.77 + 1) / (3.15 × 2) = 1.5508"),
    "same": (same(KIND, "window"), 'kind is "window"', '"Door" is "window" = no'),
    "both of either": (
        both(LENGTH > 1, either(HEIGHT > 1, HEIGHT < 0)),
        "length > 1 and (height > 1 or height < 0)",
        "8.77 > 1 and (3.15 > 1 or 3.15 < 0) = yes",
    ),
    "total of one": (total([LENGTH]) * 2, "(length) × 2", "(8.77) × 2 = 17.54"),
    "total": (total([LENGTH, HEIGHT]), "total of 2 figures", "total of 2 figures = 11.92"),
    "counted": (
        counted([Tracing().given(2.0, Cell("Job", 9, 2))]),
        "how many of 1 entries are given",
        "how many of 1 entries are given = 1",
    ),
    "weighted total": (
        weighted_total([LENGTH, HEIGHT], [SURFACE, LENGTH]),
        "sum of 2 products",
        "sum of 2 products = 70.244",
    ),
    "picked": (picked([LENGTH, HEIGHT], literal(2)), "that of 2, of 2", "that of 2, of 2 = 3.15"),
    "product": (product(LENGTH, None, HEIGHT), "length × height", "8.77 × 3.15 = 27.625"),
    "at": (2 * FILED.at("Brick"), '2 × unit weight of "Brick"', "2 × 19 = 38"),
    "total by name": (2 * FILED.total("Brick"), '2 × sum of unit weight of "Brick"', "2 × 19 = 38"),
    "total by name of an empty table": (LENGTH + Filed([], []).total(KIND), "length + 0", "8.77 + 0 = 8.77"),
    "given or": (GIVEN_OR, "Job entry, else height", "0, else 3.15 = 3.15"),
    "given": (Tracing().given(2.0, Cell("Job", 9, 2)), "Job entry is given", "2 is given = yes"),
    "at issue": (at_issue(0.5, LENGTH), "worked out at issue", "worked out at issue = 0.5"),
    "entry": (WEIGHTS[0], "unit weight", "19 = 19"),
    "literal": (literal(4), "4", "4 = 4"),
}


@pytest.mark.parametrize("example", EXAMPLES)
def test_a_result_in_words_and_in_figures(example):
    node, in_words, in_figures = EXAMPLES[example]
    assert words(node, LABELS) == in_words
    assert figures(node, LABELS) == in_figures
    assert figures(node, LABELS).endswith(f" = {figure(node.value)}")


def test_every_operation_has_words():
    told = {part.op for node, _, _ in EXAMPLES.values() for part in parts(node)}
    known = {op for op in formulas._OPERATIONS if not op.startswith("text")} | set(formulas._INFIX) | {"literal"}
    assert known - told == set()


def test_a_label_ends_the_telling_except_at_the_top():
    part = LENGTH - DEDUCTED
    labels = Labels({**LABELS.by_id, id(part): "clear length"})
    assert words(part * HEIGHT, labels) == "clear length × height"
    assert words(part, labels) == "length - deducted"
    assert figures(part * HEIGHT, labels) == "8.425 × 3.15 = 26.539"


def test_an_entry_is_called_by_the_heading_of_its_column_unless_it_has_a_label():
    column = next(at for at, c in enumerate(SHEET["Walls"].columns, start=1) if c.key == "thickness")
    node = entry(230.0, Cell("Walls", 4, column))
    assert words(node / 1000, LABELS) == "thickness / 1000"
    assert words(node / 1000, Labels({id(node): "parapet"})) == "parapet / 1000"
    assert words(entry(1.0, Cell("Job", 4, 2)) * 2, LABELS) == "Job entry × 2"


def test_a_column_without_a_label_is_called_figure():
    filed = Filed(["W1"], [LENGTH * 2])
    assert words(1 + filed.at("W1"), LABELS) == '1 + figure of "W1"'


def test_plain_numbers_and_texts_are_told_as_they_are():
    assert words("road", LABELS) == '"road"'
    assert words(2.5, LABELS) == "2.5"
    assert figures(2.5, LABELS) == "2.5"
    assert figures("road", LABELS) == "road"


@pytest.mark.parametrize(("value", "shown"), [
    (0.0, "0"), (-0.0, "0"), (1.0, "1"), (100.0, "100"), (9999.94, "9999.9"), (9999.96, "10,000"), (10000.0, "10,000"),
    (-12345.6, "-12,346"), (1234567.0, "1,234,567"), (0.00001234567, "0.000012346"), (3, "3"),
    (True, "yes"), (False, "no"),
    ("road", "road"),
])  # fmt: skip
def test_a_figure_is_written_as_a_person_writes_it(value, shown):
    assert figure(value) == shown
