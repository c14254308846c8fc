"""Worksheet functions: what a cell shows for numbers, ranges, blanks, texts, decimals and error cells."""

import keyword
import re
from datetime import date
from decimal import Decimal

import pytest

from addin.caches import XlError
from addin.functions import FUNCTIONS, worksheet
from addin.worksheet import went_wrong

BRICK, PLASTER = 18.85, 20.4
SURFACE = 0.23 * BRICK + 2 * 0.012 * PLASTER


@pytest.mark.parametrize(
    ("name", "values", "expected"),
    [
        ("PLINTH_WALL_WEIGHT", (5.0, 3.0, 230, 2.1), (15.0 - 2.1) * SURFACE),
        ("PLINTH_SLAB_SHARE", (3.8, 4.6), 3.8**2 / 4),
        ("PLINTH_WALL_STRESS", (200, 8.0, 230), 200 / (8.0 * 0.23)),
        ("PLINTH_FOOTING_PRESSURE", (33.375, 0.75), 44.5),
        ("PLINTH_JACKS", (216.973, 8.77), 8),
        ("PLINTH_JACKS", (700, 2.0), 9),
        ("PLINTH_JACK_SPACING", (8.77, 8), 8.17 / 7),
        ("PLINTH_BASE_SIDE", (33.902, 120), 0.55),
        ("PLINTH_MASONRY", (5.0, 230, 3.0, [[0.1, 0.12], [2.1, None]]), (15.0 - 0.12 - 2.1) * 0.23),
        ("PLINTH_PLASTER", (5.0, 3.0, 2, [0.48, 1.2, 3.78]), 30.0 - 1.2 - 2 * 3.78),
        ("PLINTH_DIGGING", (8.0, 0.9, 0.75), 5.4),
        ("PLINTH_FILL", (4.0, 3.0, 0.78), 9.36),
        ("PLINTH_AMOUNT", (12.67, 560), 7095),
        ("PLINTH_AMOUNT", (2, 10.26, 0.05), 20.5),
    ],
)
def test_a_function_gives_what_the_arithmetic_by_hand_gives(name, values, expected):
    assert worksheet(name, *values) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("typed", "unit", "expected"),
    [("10' 6\"", "mm", 3200.4), ("9 in", "mm", 228.6), ("58 t/m2", "kPa", 58 * 9.80665), ("3 brass", "m3", 8.49505)],
)
def test_what_was_typed_with_a_unit_becomes_a_number(typed, unit, expected):
    assert worksheet("PLINTH_CONVERT", typed, unit) == pytest.approx(expected, rel=1e-6)


def test_amounts_in_words_count_in_lakh_or_in_thousands():
    assert worksheet("PLINTH_IN_WORDS", 707_778, "Indian").startswith("seven lakh")
    assert worksheet("PLINTH_IN_WORDS", 707_778, "international").startswith("seven hundred")
    assert worksheet("PLINTH_IN_WORDS", 1, "roman") == XlError("#VALUE!")


def test_a_range_gives_a_block_of_the_same_shape_and_single_cells_serve_every_row():
    found = worksheet("PLINTH_BASE_SIDE", [[10.0, 20.0], [30.0, 40.0]], 100)
    alone = [[worksheet("PLINTH_BASE_SIDE", load, 100) for load in row] for row in ((10, 20), (30, 40))]
    assert found == alone


def test_a_bad_row_of_a_range_spoils_only_itself():
    found = worksheet("PLINTH_FOOTING_PRESSURE", [[30.0], ["#DIV/0!"], [None], [60.0]], 0.75)
    assert found == [[pytest.approx(40.0)], [XlError("#DIV/0!")], [XlError("#VALUE!")], [pytest.approx(80.0)]]


def test_ranges_of_different_size_are_refused():
    assert worksheet("PLINTH_FOOTING_PRESSURE", [[1.0], [2.0]], [[1.0, 2.0]]) == XlError("#VALUE!")


@pytest.mark.parametrize("error", ["#N/A", "#REF!", "#DIV/0!"])
def test_an_error_cell_comes_out_as_the_same_error(error):
    found = worksheet("PLINTH_AMOUNT", 2, error)
    assert found == error
    assert isinstance(found, XlError)


@pytest.mark.parametrize("value", [None, "", "  ", True, date(2026, 1, 5), "tall", "3,15", float("nan"), float("inf")])
def test_what_is_no_number_is_a_true_error_with_its_reason(value):
    went_wrong.clear()
    found = worksheet("PLINTH_WALL_STRESS", value, 8.0, 230)
    assert isinstance(found, XlError)
    assert went_wrong[-1].function == "PLINTH_WALL_STRESS"
    assert "load_kN" in went_wrong[-1].reason or went_wrong[-1].argument == "load_kN"


def test_nothing_is_less_than_0():
    assert worksheet("PLINTH_AMOUNT", -2, 10) == XlError("#NUM!")


def test_a_division_by_nothing_is_an_error_value():
    assert worksheet("PLINTH_FOOTING_PRESSURE", 30, 0) == XlError("#NUM!")


def test_money_that_arrives_as_a_decimal_counts_as_its_number():
    assert worksheet("PLINTH_AMOUNT", Decimal("3.0000"), Decimal("12.5000")) == 38


def test_an_argument_may_carry_its_own_unit():
    assert worksheet("PLINTH_WALL_STRESS", "20 t", "10 ft", "9 in") == pytest.approx(20 * 9.80665 / (3.048 * 0.2286))


def test_a_blank_takes_its_default_where_there_is_one():
    assert worksheet("PLINTH_JACKS", 700, 2.0, None, None, None) == worksheet("PLINTH_JACKS", 700, 2.0, 200, 40, 1.2)


@pytest.mark.parametrize("name", FUNCTIONS)
def test_a_name_looks_like_no_cell_and_no_keyword(name):
    assert re.fullmatch(r"PLINTH_[A-Z_]+", name)
    assert len(name) <= 31
    assert not keyword.iskeyword(name.lower())


@pytest.mark.parametrize("function", FUNCTIONS.values(), ids=lambda f: f.name)
def test_help_fits_the_function_wizard_and_names_a_unit_for_each_number(function):
    assert 0 < len(function.help) <= 255
    for argument in function.arguments:
        assert argument.doc
        assert re.fullmatch(r"[a-z][A-Za-z0-9_]*", argument.name)


def test_the_list_of_what_went_wrong_keeps_the_last_ones_only():
    for _ in range(300):
        worksheet("PLINTH_AMOUNT", None, 1)
    assert len(went_wrong) == 200


def test_a_wall_of_the_demo_weighs_in_a_cell_what_the_estimate_says(demo):
    wall = next(w for w in demo.found.taken.own.walls if w.openings == 0 and w.plastered == 2)
    alone = worksheet("PLINTH_WALL_WEIGHT", wall.length - wall.deducted, wall.height, wall.thickness * 1000)
    assert alone == pytest.approx(wall.gross)
