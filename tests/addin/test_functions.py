"""Worksheet functions: what a cell shows for numbers, ranges, blanks, texts, decimals and error cells."""

import keyword
import re
from datetime import date
from decimal import Decimal

import pytest

from addin.caches import XlError
from addin.functions import FUNCTIONS, worksheet
from addin.layout import JOB
from addin.worksheet import ERRORS, went_wrong
from tests.function_cases import CASES, CLEARS, GRID, HEIGHTS, NAMES, OF_WALL, OFFSETS, WALLS, WIDTHS, alike

VALUE, NUM, NA = XlError("#VALUE!"), XlError("#NUM!"), XlError("#N/A")

NO_NUMBERS = [True, date(2026, 1, 5), "tall", "3,15", float("nan"), float("inf"), Decimal("NaN")]

VBA_KEYWORDS = {
    "and", "any", "array", "as", "base", "binary", "boolean", "byref", "byte", "byval", "call", "case", "close",
    "const", "currency", "date", "debug", "declare", "dim", "do", "double", "each", "else", "empty", "end", "enum",
    "error", "event", "exit", "explicit", "false", "for", "friend", "function", "get", "global", "go", "goto", "if",
    "in", "input", "integer", "is", "let", "like", "line", "lock", "long", "loop", "me", "mid", "mod", "name", "new",
    "next", "not", "nothing", "null", "object", "on", "open", "option", "optional", "or", "print", "private",
    "property", "public", "put", "redim", "rem", "resume", "return", "seek", "select", "set", "single", "static",
    "step", "stop", "string", "sub", "then", "time", "to", "true", "type", "until", "variant", "wend", "while", "width",
    "with", "write", "xor",
}  # fmt: skip


def cells(takes, wanted=lambda _: True):
    """Every argument that takes cells this way: function and argument."""
    return [pytest.param(f, a, id=f"{f.name}-{a.name}") for f in FUNCTIONS.values() for a in f.arguments
            if a.takes == takes and wanted(a)]  # fmt: skip


def is_number(argument):
    return not argument.text


def by_hand(name):
    """The arguments of the first case of a function, one for each argument."""
    values = next(list(values) for case, values, _ in CASES if case == name)
    return values + [None] * (len(FUNCTIONS[name].arguments) - len(values))


def with_argument(function, argument, value):
    """A call of a function in which one argument is another one."""
    values = by_hand(function.name)
    values[function.arguments.index(argument)] = value
    return worksheet(function.name, *values)


@pytest.mark.parametrize(("name", "values", "expected"), CASES)
def test_a_function_gives_what_the_arithmetic_by_hand_gives(name, values, expected):
    found = worksheet(name, *values)
    assert alike(found, expected), found


def test_every_function_has_a_case_by_hand():
    # Those of a whole survey are held to the estimate, in test_house.
    assert {name for name, _, _ in CASES} == {name for name in FUNCTIONS if not name.startswith("PLINTH_HOUSE_")}


# ---------------------------------------------------------------------------------------------- any cell


@pytest.mark.parametrize(("function", "argument"), cells("cell"))
def test_an_error_cell_comes_out_as_the_same_error(function, argument):
    for error in ERRORS:
        found = with_argument(function, argument, error)
        assert found == error
        assert isinstance(found, XlError)


@pytest.mark.parametrize(("function", "argument"), cells("cell", is_number))
def test_what_is_no_number_is_a_true_error_with_its_reason(function, argument):
    for value in NO_NUMBERS:
        went_wrong.clear()
        found = with_argument(function, argument, value)
        assert isinstance(found, XlError), value
        assert (went_wrong[-1].function, went_wrong[-1].argument) == (function.name, argument.name)
        assert went_wrong[-1].reason


@pytest.mark.parametrize(("function", "argument"), cells("cell"))
def test_a_truth_or_a_date_is_no_text_and_no_number(function, argument):
    assert with_argument(function, argument, True) == VALUE
    assert with_argument(function, argument, date(2026, 1, 5)) == VALUE


@pytest.mark.parametrize(("function", "argument"), cells("cell", is_number))
def test_a_number_below_its_lower_limit_is_refused_and_a_level_has_none(function, argument):
    if argument.least is None:
        assert not isinstance(with_argument(function, argument, -0.2), XlError)
    else:
        assert with_argument(function, argument, argument.least - 0.2) == NUM
    if argument.most is not None:
        assert with_argument(function, argument, argument.most + 0.2) == NUM
        assert not isinstance(with_argument(function, argument, argument.most), XlError)


TONNE = 9.80665
TYPED = {
    "m": ("9 ft", 9 * 0.3048), "mm": ("9 in", 228.6), "m2": ("90 sqft", 90 * 0.3048**2),
    "m3": ("2 brass", 200 * 0.3048**3), "kN": ("3 t", 3 * TONNE), "kN/m": ("3 t/m", 3 * TONNE),
    "kN/m2": ("0.2 t/m2", 0.2 * TONNE), "kN/m3": ("2 t/m3", 2 * TONNE), "kPa": ("12 t/m2", 12 * TONNE),
    "deg": ("20 deg", 20.0), "mm2": ("40 cm2", 4000.0),
    "kN m2": ("0.03 t m2", 0.03 * TONNE), "mm/kN": ("2 mm/t", 2 / TONNE), "%": ("40 %", 40.0),
    "No": ("2 nos", 2.0), "-": ("130 %", 1.3),
}  # fmt: skip
"""For each unit of an argument, a text with another unit and the same in the argument's own."""


@pytest.mark.parametrize(("function", "argument"), cells("cell", lambda a: a.unit in TYPED))
def test_a_number_with_a_unit_as_text_is_the_number(function, argument):
    typed, plain = TYPED[argument.unit]
    found = with_argument(function, argument, typed)
    assert not isinstance(found, XlError)
    assert alike(found, with_argument(function, argument, plain), rel=1e-9)


def test_every_unit_of_an_argument_is_typed_somewhere():
    used = {a.unit for f in FUNCTIONS.values() for a in f.arguments if is_number(a)}
    assert used - set(TYPED) == {"", "money"}


@pytest.mark.parametrize(("function", "argument"), cells("cell", is_number))
def test_a_currency_decimal_counts_as_its_number(function, argument):
    assert with_argument(function, argument, Decimal("2.0000")) == with_argument(function, argument, 2.0)


@pytest.mark.parametrize(("function", "argument"), cells("cell", lambda a: a.default is not None))
def test_a_blank_takes_its_default_where_there_is_one(function, argument):
    stated = with_argument(function, argument, argument.default)
    assert not isinstance(stated, XlError)
    for blank in (None, "", " "):
        assert with_argument(function, argument, blank) == stated


@pytest.mark.parametrize(("function", "argument"), cells("cell", lambda a: not a.optional))
def test_a_blank_without_default_is_an_error_with_its_reason(function, argument):
    for blank in (None, "", " "):
        went_wrong.clear()
        assert with_argument(function, argument, blank) == VALUE
        assert went_wrong[-1].reason == f"{argument.name} is blank"


# ---------------------------------------------------------------------------------------------- ranges


@pytest.mark.parametrize(("function", "argument"), cells("cell"))
def test_a_bad_row_of_a_range_spoils_only_itself(function, argument):
    good = by_hand(function.name)[function.arguments.index(argument)]
    alone = with_argument(function, argument, good)
    column = [[good], ["#DIV/0!"], [True], [date(2026, 1, 5)], [good]]
    found = with_argument(function, argument, column)
    if isinstance(alone, list):
        assert found == VALUE  # it gives a row, and a row of rows is no block
    else:
        assert found == [[alone], [XlError("#DIV/0!")], [VALUE], [VALUE], [alone]]


@pytest.mark.parametrize(("function", "argument"), cells("range"))
def test_an_error_in_a_list_of_deductions_spoils_the_result(function, argument):
    for error in ERRORS:
        assert with_argument(function, argument, [[0.2], [error]]) == error


@pytest.mark.parametrize(("function", "argument"), cells("range"))
def test_what_is_no_number_in_a_list_of_deductions_is_no_0(function, argument):
    for value in NO_NUMBERS:
        assert with_argument(function, argument, [[0.2], [value]]) == VALUE


@pytest.mark.parametrize(("function", "argument"), cells("range"))
def test_blanks_in_a_list_of_deductions_are_passed_over_and_shape_makes_no_difference(function, argument):
    row = with_argument(function, argument, [0.6, 1.3])
    for same in ([[0.6], [None], [1.3]], [[0.6, ""], [" ", 1.3]], [[Decimal("0.6000"), 1.3]]):
        assert with_argument(function, argument, same) == row
    assert with_argument(function, argument, [[1.3]]) == with_argument(function, argument, 1.3)


@pytest.mark.parametrize(("function", "argument"), cells("range"))
def test_a_list_of_deductions_takes_units_as_text(function, argument):
    typed = {"m2": "13 sqft", "m3": "13 cft"}[argument.unit]
    known = {"m2": 13 * 0.3048**2, "m3": 13 * 0.3048**3}[argument.unit]
    expected = pytest.approx(with_argument(function, argument, [known]))
    assert with_argument(function, argument, [typed]) == expected


@pytest.mark.parametrize("bad", ["#REF!", True, date(2026, 1, 5), "tall", float("nan"), -1.0])
def test_a_bad_grid_offset_spoils_the_walls_on_it_and_those_taped_from_it(bad):
    error = {"#REF!": XlError("#REF!")}.get(str(bad), VALUE)
    offsets = [[bad], [None], [7.4], [-0.5], [3.5]]
    grid = (NAMES, offsets, CLEARS, WALLS)
    if bad == -1.0:  # a line may lie west of the origin
        assert worksheet("PLINTH_WALL_LENGTH", "A1", "C1", *grid) == pytest.approx(8.4)
        return
    assert worksheet("PLINTH_WALL_LENGTH", "A1", "C1", *grid) == error
    assert worksheet("PLINTH_WALL_LENGTH", "B1", "C1", *grid) == error
    assert worksheet("PLINTH_WALL_LENGTH", "C1", "C2", *grid) == pytest.approx(4.0)


def test_a_line_without_offset_or_clear_size_is_an_error_that_says_which():
    went_wrong.clear()
    assert worksheet("PLINTH_WALL_LENGTH", "A1", "B1", NAMES, OFFSETS) == VALUE
    assert went_wrong[-1].reason == "grid line B has neither an offset nor a clear size"


@pytest.mark.parametrize(("point", "error"), [("D1", NA), ("A7", NA), ("AB", VALUE), ("", VALUE), ("#N/A", NA)])
def test_a_point_off_the_grid_is_an_error(point, error):
    assert worksheet("PLINTH_WALL_LENGTH", "A1", point, *GRID) == error


def test_an_example_row_of_the_grid_is_no_line():
    names, offsets = [["e.g. A"], ["A"], ["C"], ["1"]], [[99.0], [0.0], [7.4], [0.0]]
    assert worksheet("PLINTH_WALL_LENGTH", "A1", "C1", names, offsets) == pytest.approx(7.4)


def test_grid_ranges_of_different_length_are_refused():
    assert worksheet("PLINTH_WALL_LENGTH", "A1", "C1", NAMES, OFFSETS[:3]) == VALUE


@pytest.mark.parametrize("outline", ["A1 C2", "A1 C1 A2 C2"])
def test_an_outline_that_encloses_nothing_or_crosses_itself_is_an_error(outline):
    assert isinstance(worksheet("PLINTH_ROOM_AREA", None, None, outline, *GRID), XlError)


def test_a_room_without_corners_is_an_error():
    assert worksheet("PLINTH_ROOM_AREA", "A1", None, None, *GRID) == VALUE


def test_a_bad_opening_spoils_its_own_wall_only():
    widths = [[1.2], ["wide"], ["2 ft"], [None]]
    assert worksheet("PLINTH_OPENINGS", "W2", OF_WALL, widths, HEIGHTS) == VALUE
    assert worksheet("PLINTH_OPENINGS", "W1", OF_WALL, widths, HEIGHTS)[0][0] == pytest.approx(1.62)


def test_an_opening_without_a_size_is_no_opening_of_0():
    assert worksheet("PLINTH_OPENINGS", "W2", OF_WALL, [[1.2], [None], [0.6], [None]], HEIGHTS) == VALUE
    assert worksheet("PLINTH_OPENINGS", "W2", OF_WALL, WIDTHS[:2], HEIGHTS) == VALUE


@pytest.mark.parametrize("loads", [[[6.6]], [[6.6], [None]], [[6.6], ["#N/A"]]])
def test_a_share_of_a_slab_without_its_load_is_no_load_of_0(loads):
    assert worksheet("PLINTH_WALL_LOAD", 60, [[3.6], [2.0]], loads) in (VALUE, NA)


def test_a_range_gives_a_block_of_the_same_shape_and_single_cells_serve_every_row():
    found = worksheet("PLINTH_BASE_SIDE", [[10.0, 20.0], [30.0, 40.0]], 100)
    alone = [[worksheet("PLINTH_BASE_SIDE", load, 100) for load in row] for row in ((10, 20), (30, 40))]
    assert found == alone


def test_ranges_of_different_size_are_refused():
    assert worksheet("PLINTH_FOOTING_PRESSURE", [[1.0], [2.0]], [[1.0, 2.0]]) == VALUE


# ---------------------------------------------------------------------------------------------- results


def test_a_division_by_nothing_is_an_error_value():
    assert worksheet("PLINTH_FOOTING_PRESSURE", 30, 0) == NUM


@pytest.mark.parametrize(
    ("name", "values"),
    [
        ("PLINTH_WALL_WEIGHT", (5.0, 3.0, 230, 15.1)),
        ("PLINTH_MASONRY", (5.0, 230, 3.0, [15.1])),
        ("PLINTH_PLASTER", (5.0, 3.0, 1, [15.1])),
        ("PLINTH_DIGGING", (2.0, 0.9, 0.5, [0.95])),
        ("PLINTH_FILL_LOAD", (2, 0.3, 350, 0.9)),
    ],
)
def test_more_taken_off_than_there_is_is_an_error_and_no_negative_quantity(name, values):
    went_wrong.clear()
    assert worksheet(name, *values) == NUM
    assert "more is taken off than there is" in went_wrong[-1].reason


def test_a_name_that_no_table_lists_is_not_there():
    for name in ("PLINTH_IMPOSED_LOAD", "PLINTH_UNIT_WEIGHT", "PLINTH_COVERING", "PLINTH_BEARING"):
        assert worksheet(name, "Moon dust") == NA
    assert worksheet("PLINTH_STEEL", "MB 249", 3.0) == NA


def test_an_argument_may_carry_its_own_unit():
    assert worksheet("PLINTH_WALL_STRESS", "20 t", "10 ft", "9 in") == pytest.approx(20 * 9.80665 / (3.048 * 0.2286))


@pytest.mark.parametrize(("typed", "unit"), [("tall", "m"), ("3 m", "kN"), ("3", "cubit")])
def test_what_cannot_be_converted_is_an_error(typed, unit):
    assert worksheet("PLINTH_CONVERT", typed, unit) == VALUE


def test_amounts_in_words_count_in_lakh_or_in_thousands():
    assert worksheet("PLINTH_IN_WORDS", 707_778, "international").startswith("seven hundred")
    assert worksheet("PLINTH_IN_WORDS", 1, "roman") == VALUE


def test_defaults_of_arguments_are_those_of_the_blank_survey():
    usual = {column.key: column.default for column in JOB}
    defaults = {a.name: a.default for f in FUNCTIONS.values() for a in f.arguments}
    named = {"rating_kN": "jack_rating", "share_percent": "share", "widest_m": "widest_spacing",
             "coin": "smallest_coin", "freeboard_m": "freeboard", "least_plinth_m": "least_plinth",
             "plinth_above_road_m": "plinth_above_road", "road_build_up_m": "road_build_up"}  # fmt: skip
    assert {name: defaults[name] for name in named} == {name: usual[key] for name, key in named.items()}


def test_more_of_a_jack_than_the_survey_allows_is_refused():
    assert worksheet("PLINTH_USABLE_LOAD", 200, 60) == pytest.approx(120)
    assert worksheet("PLINTH_USABLE_LOAD", 200, 61) == NUM


# ---------------------------------------------------------------------------------------------- names and help


@pytest.mark.parametrize("name", FUNCTIONS)
def test_a_name_looks_like_no_cell_and_no_keyword(name):
    assert re.fullmatch(r"PLINTH_[A-Z_]+", name)
    assert len(name) <= 31
    assert not keyword.iskeyword(name.lower())


@pytest.mark.parametrize("function", FUNCTIONS.values(), ids=lambda f: f.name)
def test_help_fits_the_function_wizard_and_argument_names_are_words_of_the_macro_language(function):
    assert 0 < len(function.help) <= 255
    names = [argument.name for argument in function.arguments]
    assert len({name.casefold() for name in names}) == len(names)
    for argument in function.arguments:
        assert argument.doc
        assert len(argument.help) <= 255
        assert re.fullmatch(r"[a-z][A-Za-z0-9_]*", argument.name)
        assert argument.name.lower() not in VBA_KEYWORDS
        assert not keyword.iskeyword(argument.name)
        # A name like a1 or rc would be read as a cell.
        assert not re.fullmatch(r"[a-z]{1,3}[0-9]{1,7}|r[0-9]*c[0-9]*", argument.name.lower())


@pytest.mark.parametrize("function", FUNCTIONS.values(), ids=lambda f: f.name)
def test_each_number_has_its_unit_in_its_name(function):
    endings = {"m": "_m", "mm": "_mm", "m2": "_m2", "mm2": "_mm2", "m3": "_m3", "kN": "_kN", "kN/m": "_kN_m",
               "kN/m2": "_kN_m2", "kN/m3": "_kN_m3", "kN m2": "_kNm2", "mm/kN": "_mm_kN", "kPa": "_kPa",
               "deg": "_deg", "%": "_percent"}  # fmt: skip
    for argument in function.arguments:
        if argument.unit in endings:
            assert argument.name.endswith(endings[argument.unit])
        else:
            assert argument.unit in ("", "No", "-", "money")


def test_the_list_of_what_went_wrong_keeps_the_last_ones_only():
    for _ in range(300):
        worksheet("PLINTH_AMOUNT", None, 1)
    assert len(went_wrong) == 200


def test_a_wall_of_the_demo_weighs_in_a_cell_what_the_estimate_says(demo):
    wall = next(w for w in demo.found.taken.own.walls if w.openings == 0 and w.plastered == 2)
    alone = worksheet("PLINTH_WALL_WEIGHT", wall.length - wall.deducted, wall.height, wall.thickness * 1000)
    assert alone == pytest.approx(wall.gross)


def test_the_demo_needs_in_a_cell_the_rise_that_the_estimate_says(demo):
    levels = demo.found.levels
    rise = worksheet("PLINTH_NEEDED_RISE", levels.plinth, levels.road, levels.flood)
    assert rise == pytest.approx(levels.least_rise)
    assert rise > 0.3
