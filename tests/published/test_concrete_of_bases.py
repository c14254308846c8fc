"""Concrete of jack bases against IS 456:2000 and its design aids, in the printed N/mm2 and %.

Punching  0.25 root fck as used in Shah and Kale, RCC Theory and Design, Ex. 11.1 and 19.9, read.
Bending   SP 16 for M20 and Fe 415, from memory: moment over b d2 in N/mm2, steel in % to three decimals.
"""

from dataclasses import replace

import pytest

from calc.jack_bases import bar_area, bearing_capacity, moment_depth, punching_stress
from tests.members import BASES


@pytest.mark.parametrize(("grade", "printed"), [(15, 0.968), (20, 1.118), (25, 1.25), (30, 1.369)])
def test_punching_stress_is_a_quarter_of_the_root_of_the_grade(grade, printed):
    found = punching_stress(replace(BASES, concrete_grade=grade * 1000.0))
    assert found / 1000 == pytest.approx(printed, abs=5e-4)


@pytest.mark.parametrize(("over_bd2", "printed_percent"), [(0.50, 0.143), (1.00, 0.295), (2.76, 0.955)])
def test_bars_for_a_moment_are_the_printed_percentage(over_bd2, printed_percent):
    # Tolerance 0.003: the code's formula has rounded coefficients, which shows most at the limit of 2.76.
    side, depth = 1.0, 0.4
    bars = bar_area(over_bd2 * 1000 * side * depth**2, side, depth, 0.46, BASES)
    assert 100 * bars / (side * depth) == pytest.approx(printed_percent, abs=3e-3)


def test_the_greatest_moment_of_a_section_with_bars_in_tension_only_is_2_76_for_m20_and_fe415():
    # SP 16 Table D, from memory.
    assert 2.76 * 1000 * 0.8 * moment_depth(50.0, 0.8, BASES) ** 2 == pytest.approx(50.0)


@pytest.mark.parametrize(
    ("side", "plate", "thickness", "root"),
    [
        pytest.param(0.8, 0.2, 1.0, 2.0, id="root limited to 2"),
        pytest.param(0.3, 0.2, 1.0, 1.5, id="limited by the base"),
        pytest.param(0.8, 0.2, 0.03, 1.6, id="limited by the spread of 1 in 2"),
        pytest.param(0.2, 0.2, 0.3, 1.0, id="no larger than the plate"),
    ],
)
def test_bearing_is_0_45_fck_times_the_root_of_the_areas(side, plate, thickness, root):
    # IS 456:2000 cl. 34.4, from memory.
    found = bearing_capacity(side, plate, thickness, BASES)
    assert found == pytest.approx(0.45 * 20_000 * root * plate**2)
