"""Worksheet functions of the jack plan: what they refuse, and that a figure and its check say the same."""

import math

import pytest

from addin.caches import XlError
from addin.functions import worksheet
from addin.worksheet import went_wrong

VALUE, NUM, NA = XlError("#VALUE!"), XlError("#NUM!"), XlError("#N/A")
ON_JACKS = ("PLINTH_JACK_REACTIONS", "PLINTH_JACKS_ONE_LOST", "PLINTH_JACKS_UNEVEN")
FOUR = [[0.3], [1.2], [2.0], [2.7]]


def refused(name, *values):
    """The error a function gives, and its reason."""
    went_wrong.clear()
    found = worksheet(name, *values)
    assert isinstance(found, XlError)
    return found, went_wrong[-1].reason


@pytest.mark.parametrize("name", ON_JACKS)
@pytest.mark.parametrize(
    ("places", "error"),
    [
        ([[0.3], [None], [1.2], [2.7]], VALUE),
        ([[None], [None]], VALUE),
        (None, VALUE),
        ([[0.3], ["tall"], [2.7]], VALUE),
        ([[0.3], ["#REF!"], [2.7]], XlError("#REF!")),
        ([[0.3], [True], [2.7]], VALUE),
        ([[0.3], [-1.2], [2.7]], NUM),
        ([[0.3], [2.7], [1.2]], NUM),
        ([[0.3], [1.2], [1.2], [2.7]], NUM),
        ([[0.3], [1.2], [3.1]], NUM),
        ([[0.3]], NUM),
        ([[0.001 * order] for order in range(201)], VALUE),
    ],
)
def test_places_that_are_no_row_of_jacks_are_refused_with_their_reason(name, places, error):
    found, reason = refused(name, 25, 3.0, places, 1e4, 0.1)
    assert found == error
    assert reason


@pytest.mark.parametrize("name", ON_JACKS)
@pytest.mark.parametrize(("order", "value"), [(0, 1e308), (1, 1e308), (3, 0), (3, 1e308), (4, 1e308)])
@pytest.mark.filterwarnings("ignore::RuntimeWarning")
def test_figures_beyond_any_beam_are_an_error_or_numbers_and_nothing_else(name, order, value):
    values = [25, 3.0, FOUR, 1e4, 0.1]
    values[order] = value
    found = worksheet(name, *values)
    assert isinstance(found, XlError) or all(math.isfinite(row[0]) for row in found)


def test_a_beam_that_tips_without_one_jack_is_an_error_that_names_it():
    # Of 0.2, 1.2 and 2.5 on 3.0 m the last one is lost: the middle of the load, 1.5, lies beyond 1.2.
    found, reason = refused("PLINTH_JACKS_ONE_LOST", 25, 3.0, [[0.2], [1.2], [2.5]], 1e4, 0.1)
    assert found == NUM
    assert reason == "with jack 3 lost, resultant of the load is 1.5 m; it must be at most 1.2 m"


def test_a_wall_that_no_layout_carries_is_an_error_that_says_what_would_help():
    found, reason = refused("PLINTH_JACK_PLACES", 250, 8.0, 10263.2, 0.1)
    assert found == NUM
    assert "What would help" in reason


def test_the_places_carry_no_more_than_the_usable_load_and_the_rating():
    places = worksheet("PLINTH_JACK_PLACES", 45, 7.3, 20526.4, 0.2, 200, 40, 1.1)
    beam = (45, 7.3, places, 20526.4, 0.2)
    for name, limit in zip(ON_JACKS, (80, 200, 200), strict=True):
        loads = [row[0] for row in worksheet(name, *beam)]
        assert len(loads) == len(places)
        assert max(loads) <= limit
    assert sum(row[0] for row in worksheet("PLINTH_JACK_REACTIONS", *beam)) == pytest.approx(45 * 7.3)


def test_a_wall_longer_than_any_house_is_refused_and_not_searched():
    assert refused("PLINTH_JACK_PLACES", 25, 60.1, 10263.2, 0.1)[0] == NUM


def test_more_of_a_rating_than_the_survey_allows_places_no_jack():
    assert refused("PLINTH_JACK_PLACES", 25, 5.0, 10263.2, 0.1, 200, 61)[0] == NUM


@pytest.mark.parametrize("name", ["MC 250", "MB 249", "Moon dust"])
def test_a_channel_or_a_beam_that_is_not_listed_is_not_there(name):
    assert refused("PLINTH_BEAM_STIFFNESS", name)[0] == NA
    assert refused("PLINTH_BEAM_USE", name, 2, 60, 1.2, 0.2)[0] == NA


@pytest.mark.parametrize("beams", [0, 1.5, 3])
def test_carrier_beams_are_one_or_two(beams):
    assert refused("PLINTH_BEAM_USE", "MB 250", beams, 60, 1.2, 0.2)[0] == VALUE


def test_no_beam_is_strong_enough_is_an_error_with_the_nearest_one():
    found, reason = refused("PLINTH_LIGHTEST_BEAM", 6000, 3.2, 0.2)
    assert found == NUM
    assert "MB 600" in reason


def test_use_and_what_governs_are_those_of_the_check():
    beam = ("MB 200", 1, 130, 2.4, 0.1)
    rows = worksheet("PLINTH_BEAM_CHECK", *beam)
    most = max(rows, key=lambda row: row[4])
    assert worksheet("PLINTH_BEAM_USE", *beam) == most[4]
    assert worksheet("PLINTH_BEAM_GOVERNED_BY", *beam) == most[0]
    assert (most[4] > 1, most[5]) == (True, "STOP")


@pytest.mark.parametrize(
    ("name", "values"),
    [
        ("PLINTH_BEAM_CHECK", ("MB 250", 2, 60, 0, 0.2)),
        ("PLINTH_BEAM_CHECK", ("MB 250", 2, 60, 1.2, 0)),
        ("PLINTH_CRIB_CHECK", (80, 0.15, 3, 0, 1.5)),
        ("PLINTH_CRIB_LAYERS", (1.5, 0)),
        ("PLINTH_CRIB_SLENDERNESS", (1.5, 0)),
        ("PLINTH_PACKING_SHORTENING", (40, 0.9, 0)),
        ("PLINTH_SUPPORT_COMPLIANCE", (0.6, 0.04, 0, 0.75)),
        ("PLINTH_PLAIN_BASE_CHECK", (60, 0)),
        ("PLINTH_STROKES", (0.9, 25)),
        ("PLINTH_COURSES", (0.9, 0)),
        ("PLINTH_OIL_PRESSURE", (60, 0)),
    ],
)
def test_a_size_of_nothing_is_an_error_and_no_result(name, values):
    found, reason = refused(name, *values)
    assert found == NUM
    assert reason


@pytest.mark.parametrize(
    ("xs", "ys", "error"),
    [
        ([-2, 9, 1], [-2, -1], VALUE),
        ([-2, 9], [-2, -1], NUM),
        ([-2, 9, 1, 3], [-2, -1, 7, 0], NUM),
        ([-2, 0, 1], [-2, 0, 1], NUM),
        ([-2, 9, 1], [2, 3, 11], NUM),
        ([-2, "west", 1], [-2, -1, 7], VALUE),
    ],
)
def test_a_house_that_three_circuits_do_not_hold_is_an_error(xs, ys, error):
    assert refused("PLINTH_CIRCUIT_FORCES", 900, 2, 1.5, xs, ys)[0] == error


@pytest.mark.parametrize("word", ["unknown", "perhaps", "1"])
def test_wet_and_braced_are_yes_or_no(word):
    assert refused("PLINTH_PACKING_CAPACITY", 0.04, None, word)[0] == VALUE
    assert refused("PLINTH_CRIB_CHECK", 80, 0.15, 3, 0.75, 1.5, None, None, word)[0] == VALUE


def test_timber_that_no_table_lists_is_not_there():
    assert refused("PLINTH_PACKING_CAPACITY", 0.04, "Driftwood")[0] == NA
