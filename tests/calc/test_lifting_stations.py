"""calc.lifting_stations: jacks spread evenly, named after what they lift, released with no neighbour."""

import math
from itertools import combinations, pairwise

import pytest

from calc.lifting_stations import stations_by_count, stations_of
from tests.houses import ALLOWANCES


@pytest.fixture(scope="module")
def stations(demo):
    """Those of the count, whether or not a plan places them."""
    return stations_by_count(demo.found.jacks, demo.found.taken.own.members, demo.survey.job, ALLOWANCES, 4)


def test_the_lift_takes_the_jacks_of_the_plan_where_it_has_a_layout(demo, stations):
    plan, found = demo.prepared.jacks, demo.found.lifting.stations
    assert [(s.name, s.x, s.y, s.force) for s in found[: len(plan.jacks)]] == [
        (jack.name, jack.x, jack.y, jack.soft) for jack in plan.jacks
    ]
    laid_out = {member.name for member in plan.members if member.states}
    assert {s.member for s in found[len(plan.jacks) :]} == {s.member for s in stations} - laid_out


def test_without_a_plan_the_lift_takes_the_count(demo, stations):
    assert stations_of(None, stations, demo.survey.job) == stations


def test_there_is_a_station_for_every_jack_of_the_count_under_its_own_name(demo, stations):
    assert len(stations) == demo.found.jack_totals.count
    names = [station.name for station in stations]
    assert len(set(names)) == len(names)
    assert all(station.name.startswith(f"{station.member}-") for station in stations)


def test_they_carry_together_what_is_lifted(demo, stations):
    assert sum(station.force for station in stations) == pytest.approx(demo.found.taken.house.lifted)


def test_jacks_of_a_wall_stand_evenly_between_its_end_distances(demo, stations):
    row = next(jack for jack in demo.found.jacks if jack.kind == "wall" and jack.count > 3)
    line = next(member for member in demo.found.taken.own.members if member.name == row.name)
    mine = [(s.x, s.y) for s in stations if s.member == row.name]
    start, end = (line.x_start, line.y_start), (line.x_start + line.dx, line.y_start + line.dy)
    assert math.dist(start, mine[0]) == pytest.approx(0.3)
    assert math.dist(end, mine[-1]) == pytest.approx(0.3)
    gaps = [math.dist(one, other) for one, other in pairwise(mine)]
    assert gaps == pytest.approx([row.spacing] * len(gaps))


def test_jacks_of_a_column_stand_either_side_of_it(demo, stations):
    column = next(jack for jack in demo.found.jacks if jack.kind == "column")
    place = next(member for member in demo.found.taken.own.members if member.name == column.name)
    mine = [s for s in stations if s.member == column.name]
    assert sum(s.x for s in mine) / len(mine) == pytest.approx(place.x_start)
    assert {s.y for s in mine} == {place.y_start}


def test_no_two_jacks_within_the_widest_spacing_are_released_together_unless_they_are_of_one_wall(demo, stations):
    near = demo.survey.job.widest_spacing
    together = [(one.name, other.name) for one, other in combinations(stations, 2)
                if one.release == other.release and one.member != other.member
                and math.dist((one.x, one.y), (other.x, other.y)) <= near]  # fmt: skip
    assert together == []
