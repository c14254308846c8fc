"""calc.ground: pressure under a wall as it stands, trenched, on jacks and raised. By hand, per metre of wall."""

from dataclasses import replace

import pytest

from calc.bases import pad_rows
from calc.ground import fill_load, footing_pressure, new_masonry_load, pressure_rows
from calc.jacks import jack_rows
from calc.levels import levels_of
from tests.houses import ALLOWANCES, entered, footing, house, job, room, wall, worked

LETTERS = {"A": 0.0, "B": 4.0, "C": 7.0}
NUMBERS = {"1": 0.0, "2": 3.0}


def pressures(survey):
    found = worked(survey)
    jacks = jack_rows(found.taken.bases, found.own.members, 80.0, survey.job, ALLOWANCES)
    pads = pad_rows(jacks, 120.0, ALLOWANCES)
    rows = pressure_rows(found.taken.bases, found.taken.footings, found.own, pads, RAISED, 120.0, ALLOWANCES)
    return {row.name: row for row in rows}


RAISED = replace(levels_of(job(), ()), rise=0.8, plinth=0.4)


def two_rooms(floor="on soil", **parts):
    walls = [wall(name, a, b, plastered=0, thickness=0.2, height=3.0) for name, a, b in (
        ("S", "A1", "C1"), ("E", "C1", "C2"), ("N", "A2", "C2"), ("W", "A1", "A2"), ("M", "B1", "B2"))]  # fmt: skip
    rooms = [room("R", "A1 B2", above="none", floor=floor), room("Q", "B1 C2", above="none", floor=floor)]
    return house(LETTERS, NUMBERS, walls=walls, rooms=rooms, footings=[footing("S E N W M")], **parts)


def test_pressure_is_load_over_width_and_each_new_load_has_its_own_figure():
    assert footing_pressure(45.0, 0.75) == pytest.approx(60.0)
    # 0.23 x (0.8 - 0.15) x 19 + 0.23 x 0.15 x 25 = 2.8405 + 0.8625
    assert new_masonry_load(0.8, 0.23, 19.0, 0.15, 25.0) == pytest.approx(3.703)
    assert new_masonry_load(0.1, 0.23, 19.0, 0.15, 25.0) == pytest.approx(0.8625)  # a rise thinner than its band
    # one side: (0.75 - 0.35) / 2 = 0.2 m of fill 0.8 m deep at 18
    assert fill_load(1, 0.75, 0.35, 0.8, 18.0) == pytest.approx(2.88)


def test_an_outer_wall_gets_fill_on_one_side_and_an_inner_wall_on_both():
    rows = pressures(two_rooms())
    assert {name: row.sides for name, row in rows.items()} == pytest.approx({"S": 1, "E": 1, "N": 1, "W": 1, "M": 2})


def test_the_pressures_of_an_outer_wall_follow_from_its_loads_per_metre():
    row = pressures(two_rooms())["S"]
    # wall 0.2 x 3 x 19 = 11.4; plinth 0.35 x 0.6 x 19 = 3.99; footing 0.75 x 0.2 x 24 = 3.6; all on 0.75 m
    assert row.before == pytest.approx((11.4 + 3.99 + 3.6) / 0.75)
    assert row.trenched == pytest.approx(row.before)  # nothing imposed, nothing blocked
    assert row.after == pytest.approx((11.4 + 3.99 + 3.6 + 3.703 + 2.88) / 0.75)


def test_a_suspended_ground_floor_does_not_count_a_filled_side_twice():
    rows = pressures(two_rooms(floor="suspended"))
    assert {name: row.sides for name, row in rows.items()} == pytest.approx({"S": 1, "E": 1, "N": 1, "W": 1, "M": 2})


def test_what_is_cut_off_below_the_floor_is_moved_from_what_stays_to_what_is_lifted_and_the_sum_stays():
    level, deep = (pressures(two_rooms(job=job(cut_level=entered(cut))))["S"] for cut in (0.0, -0.15))
    band = 0.35 * 0.15 * 19.0
    assert deep.line_service == pytest.approx(level.line_service + band)
    assert deep.line_below == pytest.approx(level.line_below - band)
    assert deep.before == pytest.approx(level.before)
