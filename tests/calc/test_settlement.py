"""calc.settlement: stations, lifts and distortion of small houses, by hand."""

from dataclasses import replace

import pytest

from calc.checks import CORRECT, STOP, WITHIN
from calc.levels import levels_of, reading_rows
from calc.settlement import TO_ENGINEER, settlement_of
from calc.stations import course_of, neighbours_of, station_readings
from calc.survey import Reading
from tests.houses import ALLOWANCES, entered, four_walls, house, job, point, wall

# 8 x 6 m, from A1 3 mm down for each metre east and 1 mm for each metre north: B1 24, A2 6 and B2 30 mm down.
TILTED = {"A1": 10.000, "B1": 9.976, "A2": 9.994, "B2": 9.970}
LEVEL = dict.fromkeys(TILTED, 10.0)


def read(levels, what="plinth top"):
    return [Reading(what=what, level=level, point=point(name)) for name, level in levels.items()]


def settled(levels, *, allow=ALLOWANCES, readings=(), walls=None, **entries):
    """A house of 8 x 6 m with its stations read."""
    walls = four_walls(("A1", "B1", "B2", "A2")) if walls is None else walls
    survey = house({"A": 0, "B": 8}, {"1": 0, "2": 6}, walls=walls, readings=[*read(levels), *readings],
                   job=job(**entries))  # fmt: skip
    return settlement_of(survey, levels_of(survey.job, reading_rows(survey.readings)), allow)


def lifts(found):
    return {str(row.name): row.lift for row in found.lifts}


def verdicts(found):
    return {row.name: row.verdict for row in found.checks}


# ------------------------------------------------------------------------------------------ lifts


def test_a_house_tilted_as_a_plane_is_lifted_to_its_highest_corner():
    found = settled(TILTED)
    assert lifts(found) == pytest.approx({"A1": 0, "B1": 0.024, "A2": 0.006, "B2": 0.030}, abs=1e-12)
    (now,) = found.house
    assert (now.total, now.mean, now.greatest, now.spread) == pytest.approx((0.060, 0.015, 0.030, 0.030))
    assert (now.stations, now.settled) == (4, 1)


def test_its_tilt_is_that_of_the_plane_and_it_has_no_distortion():
    found = settled(TILTED)
    (now,) = found.house
    assert now.tilt == pytest.approx((0.003**2 + 0.001**2) ** 0.5)
    assert now.tilt_in == pytest.approx(1 / 0.0031622777, rel=1e-5)
    assert [pair.bend for pair in found.pairs] == pytest.approx([0] * 4, abs=1e-12)
    assert {pair.one_in for pair in found.pairs} == {0}
    assert {pair.verdict for pair in found.pairs} == {WITHIN}


def test_a_slope_that_may_stay_saves_lifting():
    # 1 mm/m each way stays, so that the target is 8 and 6 mm lower at B1 and A2, and 14 mm at B2.
    found = settled(TILTED, allow=replace(ALLOWANCES, slope_left=0.001))
    assert lifts(found) == pytest.approx({"A1": 0, "B1": 0.016, "A2": 0, "B2": 0.016}, abs=1e-9)
    assert found.house[0].tilt_left == pytest.approx(0.001 * 2**0.5)


def test_what_levelling_raises_the_floor_by_is_not_raised_again():
    assert settled(TILTED, rise=entered(0.9)).house[0].rise == pytest.approx(0.9 - 0.015)
    assert settled(TILTED, rise=entered(0.01)).house[0].rise == 0


def test_a_house_level_within_the_spread_needs_no_strokes():
    # A millimetre is the spread that counts as level.
    at, over = (settled({**LEVEL, "B2": 10.0 - spread}) for spread in (0.001, 0.0011))
    assert (at.house[0].settled, at.counts, at.strokes, at.why_not) == (0, (), (), "")
    assert verdicts(at)["Strokes found that keep neighbours together"] == WITHIN
    assert (over.house[0].settled, len(over.strokes)) == (1, 1)
    assert at.house[0].rise == pytest.approx(0.9)


# ------------------------------------------------------------------------------------------ strokes


def test_strokes_add_up_to_the_lift_of_each_station_and_keep_neighbours_together():
    found = settled(TILTED)
    made = dict.fromkeys(TILTED, 0.0)
    for stroke in found.strokes:
        made[stroke.name] += stroke.stroke
    assert made == pytest.approx(lifts(found), abs=1e-9)
    (counts,) = found.counts
    assert (counts.calls, counts.strokes) == (15, len(found.strokes))  # 30 mm by 2 mm
    assert counts.excess <= found.house[0].difference == 0.002
    assert verdicts(found)["Neighbours apart on the way, stroke by stroke"] == WITHIN


@pytest.mark.parametrize(("mortar", "masonry"), [("lime", "Brick masonry"), ("cement 1:6", "Rubble masonry")])
def test_one_weak_wall_halves_the_call_of_the_whole_house(mortar, masonry):
    walls = four_walls(("A1", "B1", "B2", "A2"))
    walls[2] = replace(walls[2], mortar=mortar, masonry=masonry)
    found = settled(TILTED, walls=walls)
    assert (found.house[0].difference, found.house[0].call) == (0.001, 0.001)
    assert found.counts[0].calls == 30
    assert {str(row.name): row.difference for row in found.walls}["W3"] == 0.001


def test_a_reading_that_is_half_a_metre_off_is_no_settlement_and_a_stop():
    found = settled({**LEVEL, "B2": 9.4})
    assert found.strokes == ()
    assert found.why_not == "highest less lowest station is 0.6 m; it must be at most 0.5 m"
    assert verdicts(found)["Strokes found that keep neighbours together"] == STOP


# ------------------------------------------------------------------------------------------ as it stands


@pytest.mark.parametrize(
    ("down", "long", "short"),
    [
        (
            0.012,
            WITHIN,
            WITHIN,
        ),  # a quarter of it off the plane each: 6 mm apart, 1/1000 of 6 m
        (0.016, WITHIN, CORRECT),  # 8 mm: 1/1000 of 8 m, 1/750 of 6 m
        (0.020, CORRECT, CORRECT),  # 10 mm: 1/800 and 1/600
        (0.028, CORRECT, TO_ENGINEER),  # 14 mm: 1/571 and 1/429
    ],
)
def test_a_corner_that_went_down_bends_the_house_by_half_of_it(down, long, short):
    found = settled({**LEVEL, "B2": 10.0 - down})
    assert [pair.bend for pair in found.pairs] == pytest.approx([down / 2] * 4)
    told = {str(pair.line): pair.verdict for pair in found.pairs}
    assert told == {"1": long, "2": long, "A": short, "B": short}
    assert found.house[0].distortion == pytest.approx(down / 2 / 6)
    by_limit = {WITHIN: (WITHIN, WITHIN), CORRECT: (CORRECT, WITHIN), TO_ENGINEER: (CORRECT, CORRECT)}[short]
    checks = verdicts(found)
    told = (checks[f"Distortion between neighbours, {limit}"] for limit in ("alarm", "stop"))
    assert tuple(told) == by_limit


@pytest.mark.parametrize(
    ("east", "verdict"), [(0.002, WITHIN), (0.0021, CORRECT), (0.0033, CORRECT), (0.0034, TO_ENGINEER)]
)
def test_tilt_is_held_against_alarm_and_stop(east, verdict):
    found = settled({**LEVEL, "B1": 10 - 8 * east, "B2": 10 - 8 * east})
    assert found.house[0].tilt_verdict == verdict
    assert verdicts(found)["Tilt of the house, stop"] == (CORRECT if verdict == TO_ENGINEER else WITHIN)


# ------------------------------------------------------------------------------------------ who is a station


def test_readings_away_from_grid_points_are_no_stations():
    found = settled(TILTED, readings=[Reading(what="plinth top", level=9.5), *read({"A1": 9.2}, "ground")])
    assert [str(row.name) for row in found.stations] == ["A1", "B1", "A2", "B2"]


def test_of_two_courses_the_one_read_at_more_points_counts_and_of_one_point_the_first():
    few = read({"A1": 10.02, "B1": 10.0}, "floor")
    assert course_of([*few, *read(TILTED)]) == "plinth top"
    assert course_of([*read(TILTED, "floor"), *read({"A1": 9.8})]) == "floor"
    assert course_of([*few, *read({"A1": 9.8, "B2": 9.7})]) == "plinth top"
    twice = [*read(TILTED), *read({"B1": 9.9})]
    assert [reading.level for reading in station_readings(twice)] == [*TILTED.values()]


@pytest.mark.parametrize("names", [(), ("A1",), ("A1", "B2"), ("A1", "B1")])
def test_fewer_than_three_stations_say_nothing_of_the_tilt(names):
    found = settled({name: TILTED[name] for name in names})
    assert (found.known, found.house, found.lifts, found.checks) == (0, (), (), ())
    assert len(found.stations) == len(names)


def test_three_stations_in_one_line_say_nothing_of_the_tilt():
    survey = house({"A": 0, "B": 3, "C": 8}, {"1": 0, "2": 6}, walls=[wall("W1", "A1", "C1")],
                   readings=read({"A1": 10.0, "B1": 9.99, "C1": 9.97}))  # fmt: skip
    assert settlement_of(survey, levels_of(survey.job, ()), ALLOWANCES).known == 0


def test_neighbours_are_the_next_stations_along_each_line_with_a_ground_wall():
    # Walls along 1 and B; line 2 has a wall upstairs only, A and C have none.
    walls = [wall("W1", "A1", "C1"), wall("W2", "B1", "B2"), wall("U1", "A2", "C2", storey=2)]
    survey = house({"A": 0, "B": 3, "C": 8}, {"1": 0, "2": 6}, walls=walls)
    points = [point(name) for name in ("C1", "A1", "B2", "B1", "C2", "A2")]
    found = [(str(one), str(other), line) for one, other, line in neighbours_of(points, survey)]
    assert found == [("B1", "B2", "B"), ("A1", "B1", "1"), ("B1", "C1", "1")]


def test_a_station_that_is_left_out_between_two_does_not_part_them():
    survey = house({"A": 0, "B": 3, "C": 8}, {"1": 0}, walls=[wall("W1", "A1", "C1")])
    (pair,) = neighbours_of([point("C1"), point("A1")], survey)
    assert (str(pair[0]), str(pair[1])) == ("A1", "C1")
