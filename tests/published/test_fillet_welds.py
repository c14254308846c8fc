"""Fillet welds of E250 plate against Indian textbooks: design stress on the throat, N/mm2, from memory.

189.4 for shop welds (partial factor 1.25) and 157.8 for site welds (1.5): printed to one decimal.
"""

from dataclasses import replace

import pytest

from calc.beam_splices import weld_strength
from tests.members import STEEL


@pytest.mark.parametrize(("factor", "printed"), [(1.25, 189.4), (1.5, 157.8)])
def test_the_stress_on_the_throat_is_the_printed_one(factor, printed):
    strength = weld_strength(0.006, replace(STEEL, weld_factor=factor))
    assert strength / (0.7 * 0.006) / 1000 == pytest.approx(printed, abs=0.05)


def test_welds_of_a_splice_count_as_made_on_site():
    assert STEEL.weld_factor == 1.5
