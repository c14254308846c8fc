"""calc.levels: what governs the rise. Heights by hand, all unequal."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.levels import levels_of, reading_rows
from calc.survey import Reading
from tests.houses import BLANK, entered, job

# freeboard 0.3, above road 0.45, build-up 0.15 (tests.houses.job)


def levels(readings=(), **entries):
    rows = reading_rows(tuple(Reading(what=what, level=level) for what, level in readings))
    return levels_of(job(**{"rise": BLANK, **entries}), rows)


def test_the_road_governs_where_it_calls_for_the_higher_plinth():
    found = levels(plinth=entered(0.35), road=entered(0.5), flood=entered(0.7))
    # road 0.5 + 0.45 + 0.15 = 1.1; flood 0.7 + 0.3 = 1.0
    assert (found.by_road, found.by_flood, found.needed) == pytest.approx((1.1, 1.0, 1.1))
    assert (found.rise, found.raised) == pytest.approx((0.75, 1.1))
    assert found.governed_by == "road"


def test_the_flood_governs_where_it_calls_for_the_higher_plinth():
    found = levels(plinth=entered(0.35), road=entered(0.5), flood=entered(0.9))
    assert (found.needed, found.rise) == pytest.approx((1.2, 0.85))
    assert found.governed_by == "flood"


def test_the_local_rule_governs_over_a_low_road_and_a_low_flood():
    found = levels(plinth=entered(0.35), road=entered(-0.2), flood=entered(0.1), least_plinth=0.6)
    # road -0.2 + 0.6 = 0.4; flood 0.4; rule 0.6
    assert (found.needed, found.rise) == pytest.approx((0.6, 0.25))
    assert found.governed_by == "local rule"


def test_the_owner_may_ask_for_less_and_what_governs_the_levels_is_still_said():
    found = levels(plinth=entered(0.35), road=entered(0.5), rise=entered(0.6))
    assert (found.least_rise, found.rise, found.raised) == pytest.approx((0.75, 0.6, 0.95))
    assert (found.governed_by, found.by_levels) == ("owner", "road")


def test_a_floor_that_is_high_enough_needs_no_rise():
    assert levels(plinth=entered(1.4), road=entered(0.5)).rise == 0


def test_where_nothing_is_known_nothing_is_called_for_and_no_road_is_blamed():
    found = levels()
    assert (found.needed, found.rise) == (0, 0)
    assert (found.road_known, found.flood_known, found.plinth_known) == (False, False, False)
    assert found.governed_by == "local rule"


def test_levels_come_from_the_mean_of_the_readings_where_job_leaves_them_open():
    found = levels([("bench mark", 10.0), ("ground", 9.6), ("ground", 9.7), ("floor", 9.98), ("plinth top", 10.02),
                    ("floor", 10.03), ("road", 10.1), ("flood mark", 10.45)])  # fmt: skip
    # ground 9.65; floor and plinth top (9.98 + 10.02 + 10.03) / 3 = 10.01; road 0.45 and flood 0.80 above ground
    assert (found.plinth, found.road, found.flood) == pytest.approx((0.36, 0.45, 0.8))
    assert (found.needed, found.rise) == pytest.approx((1.1, 0.74))
    assert found.governed_by == "flood"


def test_an_entry_on_job_goes_before_the_readings():
    found = levels([("ground", 9.6), ("road", 10.1)], road=entered(0.2), plinth=entered(0.3))
    assert (found.road, found.needed) == pytest.approx((0.2, 0.8))


def test_readings_without_ground_give_no_height_above_ground():
    found = levels([("floor", 10.0), ("road", 10.4)])
    assert (found.road_known, found.plinth_known) == (False, False)


heights = st.floats(-1.0, 3.0)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(heights, heights, heights, st.floats(0.0, 1.0))
def test_the_rise_never_falls_when_road_flood_or_rule_goes_up(road, flood, rule, more):
    lower = levels(plinth=entered(0.4), road=entered(road), flood=entered(flood), least_plinth=max(rule, 0.0))
    rule = max(rule, 0.0)
    for change in ({"road": entered(road + more)}, {"flood": entered(flood + more)}, {"least_plinth": rule + more}):
        entries = {"road": entered(road), "flood": entered(flood), "least_plinth": rule, **change}
        assert levels(plinth=entered(0.4), **entries).rise >= lower.rise


def test_of_several_flood_marks_and_roads_the_highest_counts():
    marks = (
        ("ground", 10.0),
        ("floor", 10.3),
        ("flood mark", 10.2),
        ("flood mark", 11.2),
        ("road", 9.9),
        ("road", 10.4),
    )
    readings = tuple(Reading(what=what, level=level) for what, level in marks)
    levels = levels_of(job(), reading_rows(readings))
    assert levels.flood == pytest.approx(1.2)
    assert levels.road == pytest.approx(0.4)
