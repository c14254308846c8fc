"""calc.jacks: the first answer, each way it can be governed. Walls of bare brick, weights by hand."""

import pytest

from calc.jacks import jack_rows, jack_totals, jacks_by_load, jacks_by_spacing, usable_load
from tests.houses import ALLOWANCES, column, house, wall, worked

LETTERS = {"A": 0.0, "B": 0.5, "C": 5.0}
NUMBERS = {"1": 0.0, "2": 4.0}


def rows(usable, *walls, **parts):
    survey = house(LETTERS, NUMBERS, walls=walls, **parts)
    found = worked(survey)
    return {r.name: r for r in jack_rows(found.taken.bases, found.own.members, usable, survey.job, ALLOWANCES)}


def brick(name, start, end, **changes):
    return wall(name, start, end, plastered=0, thickness=0.2, height=3.0, **changes)  # 11.4 kN/m


def test_spacing_governs_a_long_light_wall():
    row = rows(80.0, brick("W", "A1", "C1"))["W"]
    # 57 kN / 80 -> 1; (5.0 - 0.6) / 1.2 = 3.67 -> 4 spaces, 5 jacks 1.1 m apart, 11.4 kN each, 1.25 x that on a base
    assert (row.by_load, row.by_spacing, row.count, row.governed_by) == (1, 5, 5, "spacing")
    assert (row.spacing, row.mean, row.uneven) == pytest.approx((1.1, 11.4, 14.25))
    assert row.section == pytest.approx(1.0)


def test_load_governs_where_it_asks_for_as_many_or_more():
    row = rows(8.0, brick("W", "A1", "C1"))["W"]
    # 57 / 8 = 7.1 -> 8 jacks, 4.4 / 7 = 0.629 m apart
    assert (row.by_load, row.count, row.governed_by) == (8, 8, "load")
    assert row.spacing == pytest.approx(4.4 / 7)
    assert rows(12.0, brick("W", "A1", "C1"))["W"].governed_by == "load"  # 57 / 12 -> 5, as spacing


def test_the_least_number_governs_a_stub_shorter_than_both_end_distances():
    row = rows(80.0, brick("W", "A1", "B1"))["W"]
    # 0.5 m leave nothing between the end distances of 0.3 m: one place by spacing, two jacks all the same
    assert (row.by_load, row.by_spacing, row.count, row.governed_by) == (1, 1, 2, "least number")
    assert row.spacing == 0


def test_a_wall_that_stays_and_carries_nothing_gets_no_jack():
    row = rows(80.0, brick("W", "A1", "C1", at_lift="stays"), brick("V", "A2", "C2"))["W"]
    assert (row.lifted, row.count, row.mean) == (0, 0, 0)


def test_a_column_gets_the_least_number_or_what_its_load_asks_for():
    # 0.3 x 0.25 x 2.7 x 25 = 5.0625 kN
    found = rows(80.0, brick("W", "A1", "C1"), columns=[column("P", "A2")])["P"]
    assert (found.by_load, found.count, found.governed_by) == (1, 2, "spacing")
    assert rows(2.0, brick("W", "A1", "C1"), columns=[column("P", "A2")])["P"].count == 3


def test_a_load_of_just_so_many_jacks_needs_no_more():
    assert jacks_by_load(240.0, usable_load(200.0, 0.4)) == 3
    assert jacks_by_load(240.1, 80.0) == 4
    assert jacks_by_spacing(0.5, 0.3, 1.2) == 1
    assert jacks_by_spacing(4.2, 0.3, 1.2) == 4  # 3.6 m are just 3 spaces


def test_the_count_never_falls_when_the_load_rises():
    counts = [rows(usable, brick("W", "A1", "C1"))["W"].count for usable in (90.0, 30.0, 11.0, 7.5, 3.0)]
    assert counts == sorted(counts)


def test_totals_add_up_and_spares_are_a_share_but_not_fewer_than_the_least():
    found = rows(8.0, brick("W", "A1", "C1"), brick("V", "A1", "A2"))
    totals = jack_totals(list(found.values()), 20.0, 8.0, ALLOWANCES)
    # 8 jacks and 45.6 / 8 = 5.7 -> 6; 102.6 kN on 1.0 + 0.8 m2 of wall
    assert (totals.count, totals.by_load, totals.spares) == (14, 14, 4)
    assert totals.stress == pytest.approx(102.6 / 1.8)
    assert totals.per_section == pytest.approx(102.6 / 1.8 / 8.0)
    assert totals.per_plan == pytest.approx(0.7)
