"""First-answer forces of a carrier beam against equal continuous spans under even load.

Hicks, Civil Engineering Formulas, Table 2.1 p. 50, read: coefficients of w L and w L2, printed as fractions.
"""

import pytest

from calc.carrier_beams import even_load_demand
from tests.members import STEEL

# spans: greatest reaction / w L, greatest support moment / w L2
PRINTED = {
    2: (10 / 8, 1 / 8),
    3: (11 / 10, 1 / 10),
    4: (32 / 28, 3 / 28),
    5: (43 / 38, 4 / 38),
    6: (118 / 104, 11 / 104),
    7: (161 / 142, 15 / 142),
}
LOAD, SPAN = 24.0, 1.2  # kN/m, m


def test_the_first_answer_is_the_printed_one_of_two_spans():
    first = even_load_demand(LOAD, SPAN, 1.0, 0.15, STEEL)
    reaction, moment = PRINTED[2]
    assert (first.reaction, first.moment) == pytest.approx((reaction * LOAD * SPAN, moment * LOAD * SPAN**2))
    # Half of the middle reaction is on either side of it.
    assert first.shear == pytest.approx(reaction / 2 * LOAD * SPAN)


@pytest.mark.parametrize("spans", PRINTED)
def test_no_number_of_equal_spans_asks_for_more_than_the_first_answer(spans):
    first = even_load_demand(LOAD, SPAN, 1.0, 0.15, STEEL)
    reaction, moment = PRINTED[spans]
    assert reaction * LOAD * SPAN <= first.reaction * (1 + 1e-12)
    assert moment * LOAD * SPAN**2 <= first.moment * (1 + 1e-12)


def test_the_deflection_of_a_single_span_is_5_w_l4_over_384_ei():
    # Lecture notes on IS 800:2007, read.
    first = even_load_demand(LOAD, SPAN, 1.0, 0.15, STEEL)
    assert first.deflection_load == pytest.approx(5 * LOAD * SPAN**4 / 384)
