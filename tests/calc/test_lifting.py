"""calc.lifting: a house of six jacks by hand; what each unsafe answer says; every formula in every kind of number."""

from dataclasses import replace

import pytest

from calc.checks import STOP, WITHIN
from calc.levels import levels_of, reading_rows
from calc.lifting import ToLift, lifting_of, outputs_of, stroke_habits
from calc.lifting_limits import hidden_by, stop_between
from calc.lifting_push import bracing_force
from calc.lifting_rows import JackStation
from calc.number import Name
from calc.wind import NO_WIND_KNOWN
from tests.houses import ALLOWANCES, BLANK, RULES, entered, house, job, room, wall, worked

WALLS = [wall("W1", "A1", "B1"), wall("W2", "B1", "B2"), wall("W3", "A2", "B2"), wall("W4", "A1", "A2")]
FORCES = {(0.0, 0.0): 50.0, (3.0, 0.0): 60.0, (6.0, 0.0): 40.0, (0.0, 4.0): 45.0, (3.0, 4.0): 55.0, (6.0, 4.0): 35.0}
STATIONS = tuple(
    JackStation(name=Name(f"J{k}"), member=Name("W1"), x=x, y=y, force=force, release=float(k % 4 + 1))
    for k, ((x, y), force) in enumerate(FORCES.items())
)


def lift(stations=STATIONS, allow=ALLOWANCES, walls=WALLS, **changes):
    usual = {"cut_level": entered(-0.15), "instrument": "rod and rule at every jack with optical level"}
    survey = house({"A": 0, "B": 6}, {"1": 0, "2": 4}, walls=walls, rooms=[room("Hall", "A1 B2")],
                   job=job(**{**usual, **changes}))  # fmt: skip
    done = worked(survey)
    levels = levels_of(survey.job, reading_rows(()))
    return lifting_of(survey, ToLift(levels=levels, house=done.taken.house, own=done.own, stations=stations,
                                     usable=80.0, masonry=9.0), allow, RULES.packing)  # fmt: skip


def told(found, name):
    return {row.verdict for row in found.checks if row.name.startswith(name)}


# ------------------------------------------------------------------------------------------ preload, strokes


def test_preload_is_half_then_eight_tenths_then_all_of_house_and_mean_jack():
    found = lift()
    lifted = found.predicted
    assert [row.house for row in found.preload] == pytest.approx([lifted * 0.5, lifted * 0.8, lifted])
    assert [row.jack for row in found.preload] == pytest.approx([lifted / 6 * share for share in (0.5, 0.8, 1.0)])
    # Oil under the mean jack: force over 0.0038 m2.
    assert found.preload[2].pressure == pytest.approx(lifted / 6 / 0.0038)


def test_each_jack_has_its_own_holds_and_its_own_stop():
    row = lift().loads[1]
    assert (row.first, row.second, row.force, row.stop) == pytest.approx((30.0, 48.0, 60.0, 69.0))


def test_load_stops_are_of_the_house_and_of_the_most_loaded_jack():
    found = lift()
    assert found.stop_house == pytest.approx(1.10 * found.predicted)
    assert (found.most, found.stop_jack) == (60.0, pytest.approx(1.15 * 60.0))


def test_strokes_packing_and_days_follow_from_rise_and_stroke():
    found = lift()
    # 150 - 20 - 10 = 120 mm a stroke: 0.9 m is 8 of them, the last 60 mm; 12 courses of 75 mm; 450 calls of 2 mm.
    assert (found.plan.cycles, found.plan.last) == (8, pytest.approx(0.06))
    assert (found.plan.courses, found.plan.shims) == (12, pytest.approx(0.0))
    assert (found.plan.calls, found.plan.stages, found.plan.reseatings) == (450, 3, 42)
    # 6 / 8 stations; 450 / 150 calls; 42 / 200 releases; 9 / (0.75 x 3) m3; 3 stages at half a day.
    assert found.time.whole == pytest.approx(6 / 8 + 3 + 42 / 200 + 4 + 1.5)
    assert found.passes == 4


def test_the_first_movement_is_breakaway_and_no_more_than_the_rise():
    found = lift()
    assert (found.breakaway, found.breakaway_calls) == (0.005, 3)
    assert lift(rise=entered(0.003)).breakaway == 0.003


def test_hold_points_come_as_often_as_strokes_and_stages():
    times = {row.point: row.times for row in lift().holds}
    assert times == {"Breakaway": 1, "End of each stroke": 8, "End of each stage of masonry": 3, "Full rise": 1,
                     "Load back on masonry": 1}  # fmt: skip


# ------------------------------------------------------------------------------------------ movement


@pytest.mark.parametrize(("changes", "difference"), [
    ({}, 0.002), ({"mortar": "lime"}, 0.001), ({"masonry": "Rubble masonry"}, 0.001), ({"mortar": "unknown"}, 0.001),
    ({"mortar": "lime", "at_lift": "stays"}, 0.002),
])  # fmt: skip
def test_the_weakest_lifted_wall_sets_the_difference_and_the_call(changes, difference):
    found = lift(walls=[replace(WALLS[0], **changes), *WALLS[1:]])
    assert (found.limits.difference, found.limits.call) == (difference, difference)
    assert found.plan.call <= difference


def test_alarm_keeps_its_share_of_the_stop():
    limits = lift(widest_spacing=1.2).limits
    assert (limits.stop, limits.alarm) == (pytest.approx(0.002), pytest.approx(0.001))
    assert limits.closest == pytest.approx(0.5 * 0.002)
    assert stop_between(0.8, 0.002, 0.002) == pytest.approx(0.0016)


@pytest.mark.parametrize(("instrument", "verdict"), [
    ("rod and rule at every jack with optical level", WITHIN), ("optical level", STOP), ("water tube", STOP),
    ("unknown", STOP),
])  # fmt: skip
def test_an_instrument_that_cannot_see_the_stop_stops_the_lift(instrument, verdict):
    found = lift(instrument=instrument)
    assert told(found, "Levelling instrument") == {verdict}
    assert found.limits.sees.startswith("it sees") == (verdict == WITHIN)
    assert found.limits.blind == hidden_by(found.limits.error)


# ------------------------------------------------------------------------------------------ wind and push


def test_the_push_of_one_direction_by_hand():
    found = lift()
    row = found.directions[0]
    wind = found.wind.pressure * 1.2 * found.faces.area_x
    assert row.wind == pytest.approx(wind)
    assert row.push == pytest.approx(1.4 * (wind + 0.025 * found.predicted))
    assert row.grip == pytest.approx(0.9 * row.house.dead * 0.1)
    assert row.house.dead <= found.predicted


def test_a_wind_nobody_knows_never_gives_a_plain_pass():
    found = lift(wind_speed=BLANK)
    assert found.wind.checked == ALLOWANCES.stop_work_wind
    assert found.working <= ALLOWANCES.stop_work_wind
    assert found.verdict == NO_WIND_KNOWN
    assert told(found, "Overturning") == {NO_WIND_KNOWN}


def test_a_strong_wind_calls_for_bracing_and_stops_until_it_is_designed():
    slippery = replace(ALLOWANCES, head_friction=0.03)
    found = lift(allow=slippery)
    row = found.directions[1]
    assert row.bracing == pytest.approx(row.push - row.grip)
    assert told(found, "Guides and braces take the push, along numbers") == {STOP}
    assert told(found, "Sliding on the jack heads, along numbers") == {STOP}
    designed = lift(allow=replace(slippery, guided_force=500.0))
    assert told(designed, "Guides and braces") == told(designed, "Sliding") == {WITHIN}


def test_work_stops_in_less_wind_where_the_sums_say_so():
    # Jacks in a narrow row hold little: 0.2 m either side of the middle, along numbers.
    narrow = tuple(replace(s, y=1.8 if s.y == 0 else 2.2) for s in STATIONS)
    found = lift(narrow)
    assert 0 < found.working < ALLOWANCES.stop_work_wind
    by_share = found.directions[1].stability.wind_share * found.wind.checked
    assert found.working == pytest.approx(by_share)
    assert told(found, "Resultant within the middle of the jacks, along numbers") == {STOP}


@pytest.mark.parametrize(("rise", "high", "designed"), [(1.2, 0, 0), (1.21, 1, 0), (1.5, 1, 0), (1.51, 1, 1)])
def test_high_lifts_on_either_side_of_their_limits(rise, high, designed):
    found = lift(rise=entered(rise))
    assert (found.high.high, found.high.designed) == (high, designed)
    # A high lift is braced for the whole push, however much friction there is.
    braced = told(found, "Guides and braces")
    assert braced == ({STOP} if high else {WITHIN})
    assert found.high.height_most == (3 if high else 2)


def test_bracing_takes_what_friction_leaves_and_all_of_it_in_a_high_lift():
    assert bracing_force(90.0, 60.0, 0) == 30.0
    assert bracing_force(50.0, 60.0, 0) == 0
    assert bracing_force(50.0, 60.0, 1) == 50.0


@pytest.mark.parametrize("reason", ["new storey below", "basement below"])
def test_a_storey_or_basement_below_is_designed_by_an_engineer(reason):
    found = lift(reason=reason)
    assert told(found, "No storey or basement below") == {STOP}
    assert found.high.temporary_works.startswith("TO BE DESIGNED")


def test_packing_higher_than_twice_its_width_stops():
    found = lift(allow=replace(ALLOWANCES, crib_width=0.44))
    assert found.high.height == pytest.approx(0.9 / 0.44)
    assert told(found, "Height of packing") == {STOP}


@pytest.mark.parametrize("count", [0, 1, 2])
def test_fewer_than_three_jacks_hold_no_house(count):
    found = lift(STATIONS[:count])
    assert told(found, "Jacks that can hold a house") == {STOP}
    assert found.verdict == STOP
    assert len(found.directions) == (2 if count == 2 else 0)


def test_a_stroke_that_seating_uses_up_says_stop_and_never_divides_by_nothing():
    assert told(lift(stroke=0.0325), "Stroke leaves a call") == {WITHIN}
    assert told(lift(stroke=0.0315), "Stroke leaves a call") == {STOP}


def test_a_jack_that_would_stop_beyond_its_rating_is_told():
    heavy = (replace(STATIONS[0], force=180.0), *STATIONS[1:])
    assert told(lift(heavy), "Load at which a jack stops") == {STOP}  # 1.15 x 180 = 207 of 200 kN


def test_every_check_of_the_lift_says_where_its_capacity_comes_from(demo):
    assert [row.name for row in demo.found.lifting.checks if not row.source] == []
    assert set(demo.found.lifting.checks) <= set(demo.found.checks)


def test_habits_and_outputs_come_from_the_allowances():
    habits = stroke_habits(job(), 0.001, replace(ALLOWANCES, packing_course=0.1), RULES.packing)
    assert (habits.course, habits.call, habits.stroke) == (0.1, 0.001, 0.15)
    assert outputs_of(replace(ALLOWANCES, masons=5.0)).masons == 5.0
