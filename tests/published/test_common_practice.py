"""Quick figures of the trade: common practice, no source."""

import math

import pytest

from addin import tables
from calc.jacks import jacks_per_section, usable_load
from calc.lifting import outputs_of, stroke_habits
from calc.lifting_limits import hidden_by, stop_between
from calc.strokes import lift_time, oil_plan, stroke_plan
from tests.houses import ALLOWANCES, RULES, job

TONNE = 9.81  # kN


def test_58_tonnes_per_m2_over_jacks_of_20_tonnes_at_full_rating_are_3_jacks_per_m2_of_wall_section():
    # common practice, no source: 58 / 20 = 2.9, so 3
    found = jacks_per_section(58.0 * TONNE, usable_load(20.0 * TONNE, 1.0))
    assert found == pytest.approx(2.9)
    assert math.ceil(found) == 3


def test_the_same_walls_on_the_same_jacks_at_a_share_of_0_4_are_7_25_jacks_per_m2():
    # 58 / (20 x 0.4) = 7.25, shown as 7.3
    found = jacks_per_section(58.0 * TONNE, usable_load(20.0 * TONNE, 0.4))
    assert found == pytest.approx(7.25)


def test_the_demo_house_needs_the_usual_number_of_jacks_per_m2_of_plan(demo):
    # common practice, no source: 0.5 to 1.2 jacks per m2 of plan for a low masonry house
    assert 0.5 <= demo.found.jack_totals.per_plan <= 1.2


# ------------------------------------------------------------------------------------------ lifting

FIGURES = {row.key: row.value for row in tables.figures()}


def test_the_one_table_of_movement_and_load():
    assert (FIGURES["movement_alarm"], FIGURES["movement_stop"]) == (1 / 1000, 1 / 500)
    assert (FIGURES["movement_difference"], FIGURES["call_rise"]) == (0.002, 0.002)
    assert (FIGURES["load_stop_house"], FIGURES["load_stop_jack"]) == (1.10, 1.15)


def test_a_water_tube_of_2_mm_cannot_see_a_stop_of_2_4_mm_and_a_rod_of_1_mm_can():
    stop = stop_between(1.2, FIGURES["movement_stop"], 0.0025)
    assert stop == pytest.approx(0.0024)
    assert hidden_by(FIGURES["tube_error"]) > stop
    assert hidden_by(FIGURES["rod_error"]) < stop


def test_a_rise_of_nine_tenths_is_450_calls_at_2_mm():
    habits = stroke_habits(job(), FIGURES["call_rise"], ALLOWANCES, RULES.packing)
    assert stroke_plan(0.9, 45.0, habits).calls == 450


def test_a_house_of_45_jacks_rises_100_to_300_mm_a_day_by_hand_with_re_seating():
    # common practice, no source; days of calls and re-seating, stations and masonry left out
    plan = stroke_plan(0.9, 45.0, stroke_habits(job(), FIGURES["call_rise"], ALLOWANCES, RULES.packing))
    habits = stroke_habits(job(), 0.002, ALLOWANCES, RULES.packing)
    oil = oil_plan(plan, 45.0, FIGURES["jack_piston"], FIGURES["pump_flow"], habits)
    time = lift_time(plan, oil, 45.0, 0.0, outputs_of(ALLOWANCES))
    assert 0.1 <= 0.9 / (time.lifting + time.reseating) <= 0.3


def test_outputs_lie_in_their_usual_bands():
    assert 6 <= FIGURES["stations_a_day"] <= 10
    assert 0.6 <= FIGURES["masonry_a_day"] <= 0.9


def test_every_fourth_jack_is_released_and_cribs_are_no_higher_than_twice_their_width():
    assert (FIGURES["reseat_interval"], FIGURES["crib_free"]) == (4, 2)
