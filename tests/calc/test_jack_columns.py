"""Jacks at a column that is lifted unevenly, against every pattern of levels and by hand."""

from itertools import product

import numpy as np
import pytest

from calc.jack_columns import at_column

DIFFERENCE, COMPLIANCE = 0.002, 1e-4
"""Level difference of jacks [m], compliance of a support [m/kN]: half of one over the other is 10 kN."""


def on(count: int):
    return at_column(100.0 * count, count, (0.3, 0.4), 0.25, 0.5, True, DIFFERENCE, COMPLIANCE)


def greatest_by_brute_force(offsets) -> float:
    """A stiff collar on springs alike: equilibrium solved for every base half a difference up or down [kN]."""
    count, stiffness = len(offsets), 1 / COMPLIANCE
    arms = np.array([(1.0, x, y) for x, y in offsets])
    load = np.array([100.0 * count, 0.0, 0.0])
    worst = 0.0
    for signs in product((-1, 1), repeat=count):
        bases = DIFFERENCE / 2 * np.array(signs)
        # Forces k (base - collar) balance the load: collar sinks and tilts by three numbers.
        sunk = np.linalg.solve(stiffness * arms.T @ arms, load - stiffness * arms.T @ bases)
        worst = max(worst, float((stiffness * (arms @ sunk + bases)).max()))
    return worst


@pytest.mark.parametrize("count", [4, 6, 8])
def test_uneven_lifting_is_as_bad_as_the_worst_of_all_patterns_of_levels(count):
    found = on(count)
    assert found.uneven == pytest.approx(greatest_by_brute_force(found.offsets))


def test_six_and_eight_jacks_bind_more_than_four():
    # 10 kN times what a rigid collar cannot take up: 1 for four, 4/3 for six, 1.65 for eight.
    assert [on(count).uneven for count in (4, 6, 8)] == pytest.approx([110.0, 100 + 40 / 3, 116.5])


def test_two_jacks_share_by_balance_whatever_their_levels():
    assert on(2).uneven == pytest.approx(100.0)
