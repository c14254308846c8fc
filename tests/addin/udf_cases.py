"""The worksheet functions through the real conversion of xlwings. Run by test_udfs in a process of its own."""

import datetime as dt
import io
from decimal import Decimal
from types import SimpleNamespace

import pytest

from addin.functions import FUNCTIONS, worksheet
from addin.worksheet import ERRORS, went_wrong
from tests import udf_harness as harness
from tests.function_cases import CASES, GRID, alike

EXCEL_ONLY_NEWER = sorted(set(ERRORS) - set(harness.CODES))


@pytest.fixture(scope="module")
def udfs():
    """The module as Windows has it: real decorators, real converters."""
    harness.install()
    import addin.excel.udfs as module

    return module


pytestmark = pytest.mark.usefixtures("udfs")

BY_HAND = [name for name in FUNCTIONS if not name.startswith("PLINTH_HOUSE_")]
"""Functions of a whole survey have no case by hand; they are held to the estimate."""

FIRST = [next(case for case in CASES if case[0] == name) for name in BY_HAND]


def crossed(result):
    """A plain result as the macro gets it: one cell alone, one row alone, else rows; an error as its text."""
    if not isinstance(result, list):
        return result
    rows = [list(row) for row in result]
    return rows[0][0] if [len(row) for row in rows] == [1] else rows[0] if len(rows) == 1 else rows


def as_in_a_cell(name, values):
    return crossed(worksheet(name, *values))


def cell_arguments():
    return [pytest.param(name, values, order, id=f"{name}-{argument.name}") for name, values, _ in FIRST
            for order, argument in enumerate(FUNCTIONS[name].arguments)
            if argument.takes == "cell" and order < len(values) and values[order] is not None]  # fmt: skip


def changed(values, order, value):
    return [*values[:order], value, *values[order + 1 :]]


# ---------------------------------------------------------------------------------------------- every function


@pytest.mark.parametrize(("name", "values", "expected"), CASES)
def test_plain_values_with_the_rest_left_out_give_what_a_cell_shows(name, values, expected):
    found = harness.call(name, *harness.left_out(harness.by_value2(*values), len(FUNCTIONS[name].arguments)))
    assert found == as_in_a_cell(name, values)
    assert alike(found, crossed(expected), rel=1e-9)


@pytest.mark.parametrize(("name", "values", "expected"), CASES)
def test_ranges_formatted_as_currency_give_the_same(name, values, expected):
    found = harness.call(name, *harness.left_out(harness.by_range(*values), len(FUNCTIONS[name].arguments)))
    assert alike(found, crossed(expected), rel=1e-9)


@pytest.mark.parametrize(("name", "values", "expected"), CASES)
def test_blank_cells_mean_the_same_as_what_is_left_out(name, values, expected):
    count = len(FUNCTIONS[name].arguments)
    blank = harness.call(name, *harness.by_value2(*values), *[None] * (count - len(values)))
    assert blank == harness.call(name, *harness.left_out(harness.by_value2(*values), count))
    assert alike(blank, crossed(expected), rel=1e-9)


@pytest.mark.parametrize(("name", "values", "order"), cell_arguments())
def test_a_column_a_row_and_a_block_come_back_in_their_shape(name, values, order):
    good, alone = values[order], worksheet(name, *values)
    if isinstance(alone, list):
        assert harness.call(name, *harness.by_value2(*changed(values, order, [[good], [good]]))) == "#VALUE!"
        return
    shapes = {
        "column": ([[good], ["#N/A"], [good]], [[alone], ["#N/A"], [alone]]),
        "row": ([[good, None, good]], None),
        "block": ([[good, good], ["#REF!", good]], [[alone, alone], ["#REF!", alone]]),
    }
    for cells, expected in shapes.values():
        given = changed(values, order, cells)
        found = harness.call(name, *harness.by_value2(*given))
        assert found == as_in_a_cell(name, given)
        assert found == harness.call(name, *harness.by_value2(*given[:order]), harness.by_range(cells)[0],
                                     *harness.by_value2(*given[order + 1 :]))  # fmt: skip
        if expected is not None:
            assert found == expected


@pytest.mark.parametrize(("name", "values", "order"), cell_arguments())
def test_an_error_code_comes_out_as_the_same_error(name, values, order):
    for error in harness.CODES:
        assert harness.call(name, *harness.by_value2(*changed(values, order, error))) == error
        assert harness.call(name, *harness.by_range(*changed(values, order, error))) == error


@pytest.mark.parametrize(("name", "values", "order"), cell_arguments())
def test_an_error_newer_than_the_conversion_is_no_number(udfs, name, values, order):
    for error in EXCEL_ONLY_NEWER:
        code = -2146828288 + udfs.ERROR_NUMBERS[error]
        assert harness.call(name, *changed(harness.by_value2(*values), order, code)) == error


@pytest.mark.parametrize(("name", "values", "order"), cell_arguments())
def test_a_truth_and_a_date_are_no_numbers(name, values, order):
    for bad in (True, dt.date(2026, 1, 5)):
        assert harness.call(name, *harness.by_range(*changed(values, order, bad))) == "#VALUE!"


# ---------------------------------------------------------------------------------------------- what crosses over


def test_an_error_would_be_a_blank_if_it_did_not_arrive_as_text(udfs):
    argument = udfs.PLINTH_AMOUNT.__xlfunc__["argmap"]["coin"]["options"]
    assert harness.call("PLINTH_AMOUNT", 2.0, 10.26, harness.CODES["#N/A"]) == "#N/A"
    argument["err_to_str"] = False
    try:
        # The blank takes the coin's default, and the error is lost: what the option is for.
        assert harness.call("PLINTH_AMOUNT", 2.0, 10.26, harness.CODES["#N/A"]) == 21.0
    finally:
        argument["err_to_str"] = True


def test_every_argument_arrives_as_rows_with_errors_as_text(udfs):
    for name, function in FUNCTIONS.items():
        arguments = getattr(udfs, name).__xlfunc__["args"]
        assert [a["name"] for a in arguments] == [a.name for a in function.arguments]
        assert all(a["options"] == {"ndim": 2, "err_to_str": True} for a in arguments)


def test_help_and_category_are_there_for_the_function_wizard(udfs):
    for name, function in FUNCTIONS.items():
        info = getattr(udfs, name).__xlfunc__
        assert (info["category"], info["ret"]["doc"]) == (function.category, function.help)
        assert [a["doc"] for a in info["args"]] == [a.help for a in function.arguments]
        assert not info["volatile"]


def test_what_may_be_left_out_stands_at_the_end(udfs):
    for name, function in FUNCTIONS.items():
        optional = ["optional" in a for a in getattr(udfs, name).__xlfunc__["args"]]
        assert optional == sorted(optional)
        assert all(a.optional for a, may in zip(function.arguments, optional, strict=True) if may)


def test_a_date_by_value2_is_its_day_number():
    # A date that is no date any more cannot be told from a number.
    day = dt.date(2026, 1, 5)
    assert harness.call("PLINTH_BOOKED", *harness.by_value2(day)) == 46027.0


def test_plain_types_only_cross_over():
    def kinds(value):
        return set().union(*(kinds(v) for v in value)) if isinstance(value, list) else {type(value)}

    found = [harness.call(name, *harness.by_range(*values)) for name, values, _ in FIRST]
    found.append(harness.call("PLINTH_AMOUNT", Decimal("2.0000"), Decimal("10.2600"), harness.CODES["#N/A"]))
    found.append(harness.call("PLINTH_BASE_SIDE", ((10.0, -2146826246), ("x", None)), 100.0))
    assert kinds(found) == {float, str}


def test_a_failure_is_never_a_blank_nor_a_none():
    for name, values, _ in FIRST:
        for order in range(len(values)):
            for bad in (True, "tall", -2146826246, object()):
                found = harness.call(name, *changed(harness.by_value2(*values), order, bad))
                cells = found if isinstance(found, list) else [found]
                assert "" not in cells
                assert None not in cells


def test_a_bug_of_ours_is_an_error_value_and_its_kind_is_kept(udfs, monkeypatch):
    def broken(*_):
        raise KeyError("lost")

    monkeypatch.setattr(udfs, "call", broken)
    went_wrong.clear()
    assert harness.call("PLINTH_AMOUNT", 2.0, 10.0) == "#VALUE!"
    assert (went_wrong[-1].function, went_wrong[-1].reason) == ("PLINTH_AMOUNT", "KeyError: 'lost'")


def test_more_arguments_than_there_are_is_an_error_value():
    assert harness.call("PLINTH_USABLE_LOAD", 200.0, 40.0, 1.0) == "#VALUE!"


def test_an_array_of_one_dimension_from_a_macro_is_a_row():
    assert harness.call("PLINTH_LINE_LOAD", (10.0, 20.0), 2.0) == [5.0, 10.0]
    # PLINTH_OPENINGS inside PLINTH_MASONRY hands over such a row.
    assert harness.call("PLINTH_MASONRY", 5.0, 230.0, 3.0, (0.12, 2.1)) == pytest.approx((15 - 2.22) * 0.23)


def test_whole_grid_ranges_may_come_as_ranges_or_as_values():
    values = ("A1", "C2", *GRID)
    assert harness.call("PLINTH_WALL_LENGTH", *harness.by_range(*values)) == harness.call(
        "PLINTH_WALL_LENGTH", *harness.by_value2(*values)
    )


def test_the_real_writer_of_macros_takes_every_function(udfs):
    from xlwings.udfs import generate_vba_wrapper

    text = io.StringIO()
    generate_vba_wrapper("addin.excel.udfs", udfs, text, SimpleNamespace(Name="plinthbook.xlam"))
    heads = [line for line in text.getvalue().splitlines() if line.startswith("Function ")]
    assert {head.split("(")[0].removeprefix("Function ") for head in heads} == set(FUNCTIONS)
    assert "Function PLINTH_AMOUNT(quantity, rate, Optional coin)" in heads
