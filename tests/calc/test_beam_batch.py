"""calc.beam_batch: every figure against the solver of one beam, which gets there another way."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.beam_batch import batch, grid_of, lost_greatest, lost_reactions, uneven_greatest
from calc.beam_cases import one_lost, uneven
from calc.beam_loads import beam_load
from calc.beam_on_jacks import beam_on_jacks
from calc.errors import DomainError

SEARCH = 1e-9  # of the greatest figure; prefix integrals lose some digits on a long wall
STEP = 0.1


def wall(seed, length):
    draw = np.random.default_rng(seed)
    cuts = np.sort(draw.uniform(0, length, 3))
    pieces = [(a, b, draw.uniform(0, 60)) for a, b in zip([0, *cuts], [*cuts, length], strict=True)]
    return beam_load(length, [(0.0, length, 5.0), *pieces], [(draw.uniform(0, length), draw.uniform(0, 40))] * 2)


@given(st.integers(0, 10**6), st.integers(2, 12), st.sampled_from([0.0, 5e-5, 2e-4]), st.booleans())
@settings(max_examples=60, deadline=None)
def test_a_batch_is_its_layouts_one_by_one(seed, jacks, compliance, varied):
    draw = np.random.default_rng(seed)
    layouts = draw.integers(0, 4) + np.cumsum(draw.integers(3, 12, (jacks, 5)), axis=0)
    length = float(STEP * layouts.max()) + 0.27
    load = wall(seed, length)
    yields = compliance * (draw.uniform(0.5, 1.5, int(length / STEP) + 1) if varied else 1.0)
    found = batch(grid_of(load, STEP, 12, 17600.0, yields), layouts)
    for order in range(layouts.shape[1]):
        places = layouts[:, order]
        own = np.broadcast_to(yields, (int(length / STEP) + 1,))[places]
        alone = beam_on_jacks(load, STEP * places, 17600.0, own)
        size, answer = np.abs(alone.reactions).max() + load.total, np.abs(alone.sensitivity).max()
        assert found.reactions[:, order] == pytest.approx(alone.reactions, rel=0, abs=SEARCH * size)
        assert found.sensitivity[:, :, order] == pytest.approx(alone.sensitivity, rel=0, abs=SEARCH * answer)
        if jacks > 2:
            lost = one_lost(alone)
            assert lost_reactions(found)[:, :, order] == pytest.approx(lost, rel=0, abs=SEARCH * np.abs(lost).max())
            assert lost_greatest(found)[:, order] == pytest.approx(lost.max(axis=1), abs=SEARCH * np.abs(lost).max())
        greatest = uneven(alone, 0.002)[1]
        assert uneven_greatest(found, 0.002)[:, order] == pytest.approx(greatest, rel=SEARCH, abs=SEARCH * answer)


def test_halves_of_a_span_add_up_to_it_and_split_in_the_middle():
    grid = grid_of(beam_load(3.0, [(0.0, 1.0, 4.0), (1.0, 3.0, 10.0)]), 0.5, 6, 1e4, 0.0)
    # From 0.5 to 2.5: middle at 1.5; left of it 0.5 x 4 + 0.5 x 10, right of it 1.0 x 10
    assert (grid.left_half[1, 4], grid.right_half[1, 4]) == pytest.approx((7.0, 10.0), rel=1e-12)
    assert grid.left[1, 4] + grid.right[1, 4] == pytest.approx(17.0, rel=1e-12)


def test_a_wall_that_does_not_end_on_the_grid_keeps_all_of_its_load():
    load = beam_load(3.07, [(0.0, 3.07, 10.0)])
    grid = grid_of(load, 0.1, 20, 1e4, 1e-4)
    assert grid.places == 31
    assert batch(grid, np.array([[2], [15], [29]])).reactions.sum() == pytest.approx(30.7, rel=1e-12)


def test_two_jacks_cannot_lose_one_in_a_batch_either():
    grid = grid_of(beam_load(3.0, [(0.0, 3.0, 10.0)]), 0.5, 6, 1e4, 0.0)
    with pytest.raises(DomainError, match="number of jacks"):
        lost_greatest(batch(grid, np.array([[0], [6]])))


@pytest.mark.parametrize(("step", "stiffness", "quantity"), [
    (0.0, 1e4, "step of the grid"), (0.1, 0.0, "bending stiffness"),
])  # fmt: skip
def test_limits_of_a_grid(step, stiffness, quantity):
    with pytest.raises(DomainError, match=quantity):
        grid_of(beam_load(3.0), step, 6, stiffness, 0.0)
