"""Quick figures of the trade: common practice, no source."""

import math

import pytest

from calc.jacks import jacks_per_section, usable_load

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
