"""calc.strokes: a lift of 0.95 m by hand, edges of every count, and re-seating that never releases neighbours."""

import itertools
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.errors import DomainError
from calc.strokes import (
    Outputs,
    StrokeHabits,
    last_alone,
    lift_time,
    oil_plan,
    oil_pressure,
    preload_steps,
    release_pass,
    release_passes,
    released_at_once,
    stroke_plan,
    whole_steps,
)

HABITS = StrokeHabits(stroke=0.150, clearance=0.020, seating=0.005, course=0.100, gap=0.010, masonry_stage=0.300,
                      release_every=4, call=0.002, oil_in_hand=1.2)  # fmt: skip
OUTPUTS = Outputs(stations=8.0, reseatings=20.0, calls=100.0, masonry=0.75, gangs=2.0, masons=3.0, hold=1.0)


def test_a_lift_of_950_mm_by_hand():
    plan = stroke_plan(0.95, 24.0, HABITS)
    # 150 - 20 - 5 = 125 mm a stroke: 7.6, so 8 strokes, the last of 950 - 7 x 125 = 75 mm.
    assert (plan.net, plan.cycles, plan.last) == (pytest.approx(0.125), 8, pytest.approx(0.075))
    # Nine full courses and 50 mm of shims; a follow-up each 10 mm; 4 stages of 300 mm; 475 calls of 2 mm.
    assert (plan.courses, plan.shims) == (9, pytest.approx(0.05))
    assert (plan.follow_ups, plan.stages, plan.calls) == (95, 4, 475)
    # Between 8 strokes each of 24 jacks is released 7 times, 6 at a time in 4 passes.
    assert (plan.reseatings, plan.passes, plan.released) == (168, 4, 6)


def test_a_rise_of_nine_tenths_is_450_calls_at_2_mm():
    assert stroke_plan(0.9, 24.0, HABITS).calls == 450


@pytest.mark.parametrize(("rise", "cycles", "last"), [
    (0.125, 1, 0.125), (0.126, 2, 0.001), (0.250, 2, 0.125), (0.001, 1, 0.001), (0.0, 0, 0.0),
])  # fmt: skip
def test_strokes_at_and_past_a_full_stroke(rise, cycles, last):
    plan = stroke_plan(rise, 10.0, HABITS)
    assert (plan.cycles, plan.last) == (cycles, pytest.approx(last))
    assert plan.reseatings == 10 * max(cycles - 1, 0)


def test_all_calls_are_alike_and_none_is_greater_than_allowed():
    plan = stroke_plan(0.0991, 10.0, HABITS)
    assert plan.calls == 50
    assert plan.call == pytest.approx(0.0991 / 50)
    assert plan.call <= HABITS.call
    assert stroke_plan(0.0, 10.0, HABITS).call == 0


@settings(max_examples=200, deadline=None, derandomize=True)
@given(st.integers(1, 3000), st.integers(20, 300))
def test_packing_and_strokes_fill_the_rise_and_not_one_fewer_does(rise_mm, course_mm):
    rise, habits = rise_mm / 1000, replace(HABITS, course=course_mm / 1000)
    plan = stroke_plan(rise, 12.0, habits)
    assert plan.courses == rise_mm // course_mm
    assert plan.shims == pytest.approx(rise - plan.courses * habits.course, abs=1e-12)
    assert plan.cycles == -(-rise_mm // 125)
    assert (plan.cycles - 1) * plan.net + plan.last == pytest.approx(rise)


def test_a_stroke_that_leaves_nothing_is_refused():
    with pytest.raises(DomainError, match="what clearance and seating leave of a stroke is 0 m"):
        stroke_plan(0.9, 24.0, replace(HABITS, stroke=0.025))
    with pytest.raises(DomainError, match="what clearance and seating leave of a stroke is 0 m"):
        stroke_plan(0.9, 24.0, replace(HABITS, stroke=0.010))


@pytest.mark.parametrize(("count", "every"), [*itertools.product(range(3, 61), (2, 3, 4, 5))])
def test_no_two_neighbours_of_a_ring_are_released_together_and_each_is_released_once(count, every):
    alone = last_alone(count, every)
    passes = [int(release_pass(order, count, every, alone)) for order in range(count)]
    assert all(passes[k] != passes[k - 1] for k in range(count))
    assert set(passes) == set(range(1, int(release_passes(count, every, alone)) + 1))
    assert max(passes.count(number) for number in passes) == released_at_once(count, every, alone)


def test_a_single_jack_is_released_in_one_pass():
    assert last_alone(1, 4) == 0
    assert (release_pass(0, 1, 4, 0), release_passes(1, 4, 0), released_at_once(1, 4, 0)) == (1, 1, 1)


def test_full_steps_of_a_way_do_not_trip_over_rounding():
    assert whole_steps(0.1 + 0.2, 0.1) == 3
    assert whole_steps(0.3 - 1e-6, 0.1) == 2
    assert whole_steps(0.0, 0.1) == 0


def test_preload_is_taken_up_in_steps():
    steps = preload_steps(57.3, 0.003848, (0.5, 0.8, 1.0))
    assert [step.load for step in steps] == pytest.approx([28.65, 45.84, 57.3])
    assert [step.pressure for step in steps] == pytest.approx([28.65 / 0.003848, 45.84 / 0.003848, 57.3 / 0.003848])
    # A piston of 70 mm under 100 kN has 26.0 N/mm2.
    assert oil_pressure(100.0, 0.003848451) / 1000 == pytest.approx(25.985, abs=0.001)


def test_oil_and_pump_by_hand():
    plan = stroke_plan(0.95, 24.0, HABITS)
    oil = oil_plan(plan, 24.0, 0.004, 0.48, HABITS)
    # 24 x 0.004 m2 = 0.096 m2; 0.95 m and 8 seatings of 5 mm is 0.99 m: 95.04 litres; full 0.15 m: 14.4 litres.
    assert oil.volume == pytest.approx(0.09504)
    assert oil.filled == pytest.approx(0.0144)
    assert oil.tank == pytest.approx(0.01728)
    assert oil.pumping == pytest.approx(0.198)  # 0.48 m3 a day is 1 litre a minute for 8 hours


def test_days_of_the_lift_by_hand():
    plan = stroke_plan(0.95, 24.0, HABITS)
    oil = oil_plan(plan, 24.0, 0.004, 0.48, HABITS)
    time = lift_time(plan, oil, 24.0, 27.0, OUTPUTS)
    # 24 / (8 x 2); 475 / 100; 168 / (20 x 2); 27 / (0.75 x 3); 4 stages of a day.
    assert (time.set_up, time.lifting, time.reseating, time.masonry, time.holds) == pytest.approx(
        (1.5, 4.75, 4.2, 12.0, 4.0))  # fmt: skip
    assert time.whole == pytest.approx(26.45)


def test_a_slow_pump_sets_the_pace():
    plan = stroke_plan(0.95, 24.0, HABITS)
    slow = oil_plan(plan, 24.0, 0.004, 0.01, HABITS)
    assert lift_time(plan, slow, 24.0, 27.0, OUTPUTS).lifting == pytest.approx(9.504)
