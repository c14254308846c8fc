"""calc.log_stations: who is next to whom among the jacks, by hand on small plans; stages up to the rise."""

import random
from dataclasses import replace

import pytest

from calc.log_stations import (
    LogStation,
    at_one_place,
    log_stations,
    stage_rises,
    station_pairs,
    without_stations,
)
from calc.plan_rows import Member, Plan
from calc.survey import GridPoint

NOWHERE = GridPoint("A", "1")


def member(name, start, end, half=0.115):
    return Member(name=name, kind="wall", storey=1, start=start, end=end, half=half, from_point=NOWHERE,
                  to_point=NOWHERE)  # fmt: skip


def plan(*walls, columns=None):
    return Plan(storeys=(1,), members={wall.name: wall for wall in walls}, columns=columns or {}, meetings=(),
                panels=(), stands=(), rests=(), beam_ranks={}, troubles=())  # fmt: skip


def on(wall, *distances, across=0.0):
    (x1, y1), (x2, y2) = wall.start, wall.end
    ux, uy = (x2 - x1) / wall.length, (y2 - y1) / wall.length
    return [LogStation(name=f"{wall.name}/{order}{'b' if across else ''}", member=wall.name, kind="wall", across=across,
                       x=x1 + ux * at - uy * across, y=y1 + uy * at + ux * across)
            for order, at in enumerate(distances, start=1)]  # fmt: skip


def named(stations, of):
    return {tuple(sorted((stations[a].name, stations[b].name))) for a, b in station_pairs(stations, of)}


SOUTH, EAST = member("S", (0.0, 0.0), (5.0, 0.0)), member("E", (5.0, 0.0), (5.0, 4.0))


def test_jacks_are_neighbours_along_their_wall_and_round_the_corner():
    stations = [*on(SOUTH, 0.3, 2.4, 4.7), *on(EAST, 0.4, 3.6)]
    assert named(stations, plan(SOUTH, EAST)) == {("S/1", "S/2"), ("S/2", "S/3"), ("E/1", "S/3"), ("E/1", "E/2")}


def test_the_order_in_which_jacks_are_given_makes_no_difference():
    stations = [*on(SOUTH, 0.3, 2.4, 4.7), *on(EAST, 0.4, 3.6)]
    mixed = random.Random(4).sample(stations, len(stations))
    assert named(mixed, plan(SOUTH, EAST)) == named(stations, plan(SOUTH, EAST))


def test_a_wall_that_ends_on_another_is_next_to_the_jacks_on_both_sides():
    stem = member("T", (2.0, 0.0), (2.0, 3.0))
    stations = [*on(SOUTH, 0.3, 1.5, 2.6, 4.7), *on(stem, 0.5, 2.7)]
    assert {pair for pair in named(stations, plan(SOUTH, stem)) if "T/1" in pair} == {
        ("S/2", "T/1"), ("S/3", "T/1"), ("T/1", "T/2")}  # fmt: skip


def test_one_jack_at_a_corner_serves_both_walls():
    stations = [*on(SOUTH, 0.3, 2.4, 5.0), *on(EAST, 1.2, 3.6)]
    assert named(stations, plan(SOUTH, EAST)) == {("S/1", "S/2"), ("S/2", "S/3"), ("E/1", "S/3"), ("E/1", "E/2")}


def test_two_lines_beside_a_wall_are_compared_along_and_across():
    stations = [*on(SOUTH, 1.0, 3.0, across=0.4), *on(SOUTH, 1.0, 3.0)]
    stations[2:] = on(SOUTH, 1.0, 3.0, across=-0.4)
    pairs = station_pairs(stations, plan(SOUTH))
    assert pairs == ((0, 1), (0, 2), (1, 3), (2, 3))


def test_columns_are_compared_with_those_that_nothing_stands_between():
    # A grid of 2 by 3 columns, 4 m by 3 m apart: five sides along x and y... no diagonal, none past the middle one.
    columns = {f"C{i}{j}": (1, (4.0 * i, 3.0 * j)) for i in range(2) for j in range(3)}
    stations = [LogStation(name=name, member=name, kind="column", across=0.0, x=x, y=y)
                for name, (_, (x, y)) in columns.items()]  # fmt: skip
    assert named(stations, plan(columns=columns)) == {
        ("C00", "C01"), ("C01", "C02"), ("C10", "C11"), ("C11", "C12"), ("C00", "C10"), ("C01", "C11"),
        ("C02", "C12")}  # fmt: skip


def test_walls_that_touch_nothing_are_joined_by_the_shortest_way():
    apart = member("N", (0.0, 9.0), (5.0, 9.0))
    stations = [*on(SOUTH, 0.3, 4.7), *on(apart, 0.8, 4.6)]
    assert named(stations, plan(SOUTH, apart)) == {("S/1", "S/2"), ("N/1", "N/2"), ("N/2", "S/2")}


def test_two_jacks_at_one_place_are_compared_with_others():
    twice = [*on(SOUTH, 0.3, 2.4, 4.7), LogStation(name="X", member="X", kind="column", across=0.0, x=2.4, y=0.0)]
    found = named(twice, plan(SOUTH, columns={"X": (1, (2.4, 0.0))}))
    assert ("S/2", "X") not in found
    assert any("X" in pair for pair in found)
    assert not at_one_place(twice, station_pairs(twice, plan(SOUTH, columns={"X": (1, (2.4, 0.0))})))
    both = [twice[1], twice[3]]
    assert at_one_place(both, station_pairs(both, plan(SOUTH, columns={"X": (1, (2.4, 0.0))})))


@pytest.mark.parametrize("seed", range(6))
def test_every_jack_can_be_reached_from_every_other(seed):
    rng = random.Random(seed)
    walls = [member(f"W{order}", (rng.uniform(0, 9), rng.uniform(0, 9)), (rng.uniform(0, 9), rng.uniform(0, 9)))
             for order in range(5)]  # fmt: skip
    stations = [s for wall in walls for s in on(wall, *(wall.length * part for part in (0.1, 0.45, 0.9)))]
    reached, pairs = {0}, station_pairs(stations, plan(*walls))
    for _ in stations:
        reached |= {a for pair in pairs for a in pair if reached & set(pair)}
    assert reached == set(range(len(stations)))


def test_every_jack_of_the_plan_is_a_station_and_a_wall_without_jacks_is_named(demo):
    plan_of_jacks = demo.prepared.jacks
    assert [station.name for station in log_stations(plan_of_jacks)] == [jack.name for jack in plan_of_jacks.jacks]
    none = replace(plan_of_jacks.members[1], jacks=())
    lacking = replace(plan_of_jacks, members=(plan_of_jacks.members[0], none))
    assert without_stations(lacking) == (none.name,)


def test_the_last_stage_is_the_whole_rise_and_none_is_longer_than_a_step():
    assert stage_rises(0.95, 0.1) == pytest.approx((0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95))
    assert stage_rises(0.3, 0.1) == pytest.approx((0.1, 0.2, 0.3))
    assert stage_rises(0.05, 0.1) == (0.05,)
