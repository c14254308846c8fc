"""calc.levelling: the least plane against planes near it, lifts by hand, neighbours held together throughout."""

import itertools
import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.errors import DomainError
from calc.levelling import SettledStation, StrokeRules, TargetPlane, least_plane, levelling, lifts_to

RULES = StrokeRules(call=0.002, step=0.0005, stop_difference=0.002)


def station(name, x, y, level):
    return SettledStation(name=name, x=x, y=y, level=level)


# A house 8 x 6 m whose north-east corner went down by 31 mm and drew its neighbours along.
HOUSE = [station("S1", 0.0, 0.0, 10.000), station("S2", 4.0, 0.0, 9.998), station("S3", 8.0, 0.0, 9.989),
         station("S4", 8.0, 6.0, 9.969), station("S5", 4.0, 6.0, 9.987), station("S6", 0.0, 6.0, 9.999)]  # fmt: skip
PAIRS = (("S1", "S2"), ("S2", "S3"), ("S3", "S4"), ("S4", "S5"), ("S5", "S6"), ("S6", "S1"))


def level(stations=HOUSE, rules=RULES, rise=0.0, slope=0.0):
    return levelling(stations, least_plane(stations, slope), PAIRS, rules, rise)


# ------------------------------------------------------------------------------------------ the plane


def test_a_level_target_is_as_high_as_the_highest_station():
    found = level()
    assert [lift.lift for lift in found.lifts] == pytest.approx([0.0, 0.002, 0.011, 0.031, 0.013, 0.001])
    assert found.total == pytest.approx(0.058)


def test_a_slope_that_is_allowed_saves_lifting_and_lowers_nothing():
    flat, some, more = (level(slope=slope).total for slope in (0.0, 0.001, 0.01))
    assert flat > some > more > 0
    for slope in (0.001, 0.01):
        assert min(lift.lift for lift in level(slope=slope).lifts) >= 0


def test_a_house_that_tilted_as_a_whole_needs_no_lifting_where_that_tilt_may_stay():
    tilted = [replace(s, level=5.0 - 0.0015 * s.x + 0.0005 * s.y) for s in HOUSE]
    found = least_plane(tilted, 0.002)
    assert (found.slope_x, found.slope_y) == pytest.approx((-0.0015, 0.0005))
    assert sum(lift.lift for lift in lifts_to(tilted, found)) == pytest.approx(0.0, abs=1e-9)
    assert level(tilted, slope=0.002).calls == 0


def test_of_planes_equally_low_the_flattest_is_taken():
    # Stations in one row say nothing about the slope across it, and one station nothing at all.
    row = [station("S1", 0.0, 2.0, 1.0), station("S2", 4.0, 2.0, 0.99), station("S3", 8.0, 2.0, 0.98)]
    plane = least_plane(row, 0.01)
    assert (plane.slope_x, plane.slope_y) == pytest.approx((-0.0025, 0.0))
    alone = least_plane(row[:1], 0.01)
    assert (alone.height, alone.slope_x, alone.slope_y) == pytest.approx((1.0, 0.0, 0.0))


def above_at_middle(stations, east, north):
    """Height of the lowest plane of given slopes over all stations, at their middle: an oracle by definition."""
    x, y = (math.fsum(getattr(s, axis) for s in stations) / len(stations) for axis in ("x", "y"))
    return max(s.level - east * (s.x - x) - north * (s.y - y) for s in stations)


PLACE = st.integers(-40, 40).map(lambda k: k / 4)
LEVEL = st.integers(0, 60).map(lambda k: k / 1000)


@settings(max_examples=120, deadline=None, derandomize=True)
@given(st.lists(st.tuples(PLACE, PLACE, LEVEL), min_size=1, max_size=14), st.sampled_from((0.0, 0.0005, 0.002, 0.02)))
def test_no_plane_near_the_least_one_asks_for_less(points, slope):
    # The height at the middle is convex in the slopes, so what is least nearby is least of all.
    stations = [station(f"S{k}", x, y, z) for k, (x, y, z) in enumerate(points)]
    plane = least_plane(stations, slope)
    assert max(abs(plane.slope_x), abs(plane.slope_y)) <= slope * (1 + 1e-9)
    assert all(plane.at(s.x, s.y) >= s.level - 1e-10 for s in stations)
    least = above_at_middle(stations, plane.slope_x, plane.slope_y)
    for size, (east, north) in itertools.product(
        (slope, slope / 50), itertools.product((-1, -0.3, 0, 0.3, 1), repeat=2)
    ):
        other = [min(max(s + size * way, -slope), slope)
                 for s, way in ((plane.slope_x, east), (plane.slope_y, north))]  # fmt: skip
        assert above_at_middle(stations, *other) >= least - 1e-9


def test_a_station_above_the_target_is_refused():
    low = TargetPlane(height=9.995, slope_x=0.0, slope_y=0.0)
    with pytest.raises(DomainError, match=r"lift of S1 is -0.005 m; it must be at least"):
        levelling(HOUSE, low, PAIRS, RULES, 0.0)


# ------------------------------------------------------------------------------------------ the strokes


def played(stations, found, pairs):
    """The strokes carried out one by one on the surveyed levels: most that neighbours grew apart."""
    off = {s.name: found.plane.at(s.x, s.y) - s.level for s in stations}
    had = {pair: abs(off[pair[0]] - off[pair[1]]) for pair in pairs}
    worst = 0.0
    for stroke in found.strokes:
        assert stroke.stroke > 0
        off[stroke.name] -= stroke.stroke
        worst = max(worst, *(abs(off[a] - off[b]) - had[a, b] for a, b in pairs))
    assert max(map(abs, off.values()), default=0.0) < 1e-9, "every station ends on the plane"
    return worst


def test_a_settled_corner_comes_up_in_calls_no_greater_than_allowed():
    found = level()
    assert played(HOUSE, found, PAIRS) == pytest.approx(found.excess, abs=1e-12)
    assert found.excess <= RULES.stop_difference
    assert found.longest <= RULES.call + 1e-12
    # 31 mm by 2 mm is 16 calls at least.
    assert found.calls == 16
    assert [stroke.call for stroke in found.strokes] == sorted(stroke.call for stroke in found.strokes)


def test_each_station_is_stroked_once_a_call_and_whole_steps_but_for_its_last():
    found = level()
    for call, strokes in itertools.groupby(found.strokes, key=lambda stroke: stroke.call):
        names = [stroke.name for stroke in strokes]
        assert len(set(names)) == len(names)
        if call < found.calls:
            sizes = [stroke.stroke / RULES.step for stroke in found.strokes if stroke.call == call]
            assert all(abs(size - round(size)) < 1e-6 for size in sizes)


def test_in_a_call_the_longest_strokes_come_first():
    for _, strokes in itertools.groupby(level().strokes, key=lambda stroke: stroke.call):
        sizes = [round(stroke.stroke, 9) for stroke in strokes]
        assert sizes == sorted(sizes, reverse=True)


def test_after_each_call_a_station_has_gone_its_part_to_the_nearest_step():
    found = level()
    for lift in found.lifts:
        own = {stroke.call: stroke.lifted for stroke in found.strokes if stroke.name == lift.name}
        lifted = 0.0
        for call in range(1, found.calls):
            lifted = own.get(call, lifted)
            assert abs(lifted - lift.lift * call / found.calls) <= RULES.step / 2 + 1e-9


def test_a_rest_that_would_make_the_last_stroke_longer_than_a_call_makes_one_call_more():
    # 3.2 mm in four calls of whole millimetres would end with 1.2 mm.
    row = [station("S1", 0.0, 0.0, 1.0), station("S2", 4.0, 0.0, 0.9968)]
    rules = StrokeRules(call=0.001, step=0.001, stop_difference=0.002)
    found = levelling(row, least_plane(row, 0.0), (("S1", "S2"),), rules, 0.0)
    assert (found.calls, round(found.longest, 9)) == (5, 0.001)


def test_from_call_to_call_neighbours_come_together_to_within_a_step():
    found = level()
    off = {lift.name: lift.lift for lift in found.lifts}
    had = {pair: abs(off[pair[0]] - off[pair[1]]) for pair in PAIRS}
    for call, strokes in itertools.groupby(found.strokes, key=lambda stroke: stroke.call):
        for stroke in strokes:
            off[stroke.name] -= stroke.stroke
        for a, b in PAIRS:
            assert abs(off[a] - off[b]) <= had[a, b] * (1 - call / found.calls) + RULES.step + 1e-12


@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    st.lists(LEVEL, min_size=6, max_size=6), st.sampled_from((0.001, 0.002, 0.005)), st.sampled_from((0.0005, 0.001))
)
def test_whatever_has_settled_neighbours_keep_within_the_stop_difference(levels, call, step):
    stations = [replace(s, level=z) for s, z in zip(HOUSE, levels, strict=True)]
    rules = StrokeRules(call=call, step=step, stop_difference=0.002)
    found = level(stations, rules)
    assert played(stations, found, PAIRS) <= rules.stop_difference + 1e-9
    assert found.longest <= call + 1e-9


def test_where_a_call_is_longer_than_the_stop_difference_more_calls_are_made():
    # A row whose ends are up: the middle alone comes up 20 mm; 10 mm a call would be 2 calls.
    row = [station("S1", 0.0, 0.0, 1.0), station("S2", 4.0, 0.0, 0.98), station("S3", 8.0, 0.0, 0.98)]
    rules = StrokeRules(call=0.010, step=0.0005, stop_difference=0.003)
    found = levelling(row, least_plane(row, 0.0), (("S1", "S2"), ("S2", "S3")), rules, 0.0)
    # S2 and S3 rise together, one after the other, so a stroke may be 3 mm: 20 / 3 = 7 calls.
    assert (found.calls, found.excess) == (7, pytest.approx(0.003))


def test_a_step_greater_than_the_stop_difference_is_refused():
    row = [station("S1", 0.0, 0.0, 1.0), station("S2", 4.0, 0.0, 0.98), station("S3", 8.0, 0.0, 0.98)]
    rules = StrokeRules(call=0.005, step=0.005, stop_difference=0.003)
    with pytest.raises(DomainError, match=r"between neighbours is 0.005 m; it must be at most 0.003 m"):
        levelling(row, least_plane(row, 0.0), (("S1", "S2"), ("S2", "S3")), rules, 0.0)


def test_a_common_rise_follows_in_equal_calls():
    found = level(rise=0.901)
    assert (found.rise_calls, found.rise_stroke) == (451, pytest.approx(0.901 / 451))
    assert found.total == pytest.approx(0.058)  # the rise is not part of levelling
    assert (level().rise_calls, level().rise_stroke) == (0, 0.0)
    with pytest.raises(DomainError, match=r"call of the common rise is 0.005 m; it must be at most 0.002 m"):
        level(rules=replace(RULES, call=0.005), rise=0.9)


@pytest.mark.parametrize(("rules", "rise", "words"), [
    (replace(RULES, step=0.0), 0.0, "step is 0 m; it must be more than 0"),
    (replace(RULES, call=0.0004), 0.0, "call is 0.0004 m; it must be at least 0.0005"),
    (replace(RULES, stop_difference=0.0), 0.0, "stop difference is 0 m; it must be more than 0"),
    (RULES, -0.1, "rise is -0.1 m; it must be at least 0"),
])  # fmt: skip
def test_rules_that_make_no_sense_are_refused(rules, rise, words):
    with pytest.raises(DomainError, match=words):
        level(rules=rules, rise=rise)


def test_stations_that_are_no_numbers_and_slopes_out_of_range_are_refused():
    with pytest.raises(DomainError, match="number of stations is 0"):
        least_plane([], 0.0)
    with pytest.raises(DomainError, match="level of S1 is nan"):
        least_plane([replace(HOUSE[0], level=math.nan)], 0.0)
    with pytest.raises(DomainError, match=r"slope is -0.1"):
        least_plane(HOUSE, -0.1)
    with pytest.raises(DomainError, match=r"slope is 1 -; it must be less than 1"):
        least_plane(HOUSE, 1.0)
