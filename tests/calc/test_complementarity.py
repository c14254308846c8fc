"""calc.complementarity: small sets by hand, generated ones by what they must satisfy."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.complementarity import complementary
from calc.errors import NothingFits


@given(st.integers(0, 2**32 - 1), st.integers(1, 9), st.integers(1, 9))
@settings(max_examples=100, deadline=None)
def test_each_pair_is_complementary(seed, pairs, rank):
    draw = np.random.default_rng(seed)
    root = draw.normal(size=(pairs, rank))
    matrix = root @ root.T
    # A constant that some z can answer, so that there is a solution however low the rank.
    constant = draw.uniform(0, 1, pairs) * draw.integers(0, 2, pairs) - matrix @ draw.uniform(0, 2, pairs)
    z = complementary(matrix, constant)
    w = matrix @ z + constant
    size = np.abs(constant).max() + 1
    assert z.min() >= 0
    assert w.min() >= -1e-7 * size
    assert np.abs(w * z).max() <= 1e-6 * size * (1 + z.max())


def test_a_pair_whose_own_entry_is_nothing_changes_sides_with_another():
    # w0 = z1 - 1, w1 = z0 + ... : only together can they be answered, z1 = 1 with w1 = 0
    z = complementary(np.array([[1.0, -1.0], [-1.0, 1.0]]), np.array([-1.0, 1.0]))
    assert z[0] - z[1] == pytest.approx(1.0)


def test_what_no_movement_can_answer_is_said():
    with pytest.raises(NothingFits):
        complementary(np.array([[1.0, -1.0], [-1.0, 1.0]]), np.array([-1.0, -1.0]))
