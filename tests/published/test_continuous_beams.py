"""Reactions and moments of equal spans under an even load against a handbook table.

Civil Engineering Formulas, Table 2.1, Uniformly Loaded Continuous Beams over Equal Spans (p. 50 of the print, read on a
page of a library's online copy): shear on each side of a support as a fraction of w l, moment over each support as a
fraction of w l2. Typed as printed for 3 to 8 supports; the table gives half of each symmetrical beam. Fractions are
exact; the moments within spans are printed to four places, one of them cut off and not rounded (0.03407 as 0.0340).
"""

import numpy as np
import pytest

from calc.beam_loads import beam_load
from calc.beam_on_jacks import along_beam, beam_on_jacks

EXACT = 1e-12  # the table's fractions are exact, so only rounding is allowed
LAST_DIGIT = 1e-4  # of w l2

SHEARS = {
    3: ([(0, 3), (5, 5)], 8),
    4: ([(0, 4), (6, 5)], 10),
    5: ([(0, 11), (17, 15), (13, 13)], 28),
    6: ([(0, 15), (23, 20), (18, 19)], 38),
    7: ([(0, 41), (63, 55), (49, 51), (53, 53)], 104),
    8: ([(0, 56), (86, 75), (67, 70), (72, 71)], 142),
}
"""By number of supports: shear left and right of each support from end to middle, over the figure after them."""

MOMENTS = {
    3: ([0, 1], 8), 4: ([0, 1], 10), 5: ([0, 3, 2], 28), 6: ([0, 4, 3], 38), 7: ([0, 11, 8, 9], 104),
    8: ([0, 15, 11, 12], 142),
}  # fmt: skip

WITHIN_SPANS = {
    3: [0.0703], 4: [0.080, 0.025], 5: [0.0772, 0.0364], 6: [0.0779, 0.0332, 0.0461], 7: [0.0777, 0.0340, 0.0433],
    8: [0.0778, 0.0338, 0.0440, 0.0405],
}  # fmt: skip
"""Greatest moment within each span from the end to the middle."""

LOAD, SPAN = 7.0, 1.3


def equal_spans(supports):
    length = (supports - 1) * SPAN
    return beam_on_jacks(beam_load(length, [(0.0, length, LOAD)]), SPAN * np.arange(supports), 9160.0)


@pytest.mark.parametrize("supports", SHEARS)
def test_reactions_are_the_printed_shears_of_both_sides(supports):
    sides, whole = SHEARS[supports]
    printed = [(left + right) / whole * LOAD * SPAN for left, right in sides]
    found = equal_spans(supports).reactions
    assert found[: len(printed)] == pytest.approx(printed, rel=EXACT)
    assert found[::-1][: len(printed)] == pytest.approx(printed, rel=EXACT)


@pytest.mark.parametrize("supports", MOMENTS)
def test_moments_over_supports_are_the_printed_ones(supports):
    parts, whole = MOMENTS[supports]
    printed = [-part / whole * LOAD * SPAN**2 for part in parts]
    assert equal_spans(supports).moments[: len(printed)] == pytest.approx(printed, rel=EXACT, abs=1e-12)


@pytest.mark.parametrize("supports", WITHIN_SPANS)
def test_greatest_moments_within_spans_are_the_printed_ones(supports):
    found = along_beam(equal_spans(supports)).span_sagging / (LOAD * SPAN**2)
    printed = WITHIN_SPANS[supports]
    assert found[: len(printed)] == pytest.approx(printed, abs=LAST_DIGIT)
