"""calc.beam_cases: jacks lost, uneven, let go, corrected; each against another way to the same figure."""

import itertools

import numpy as np
import pytest
from hypothesis import assume, given, settings

from calc.beam_cases import evening, let_go, lost_without_pull, one_lost, two_lost, uneven, uneven_moments, without
from calc.beam_loads import beam_load
from calc.beam_on_jacks import along_beam, beam_on_jacks
from calc.errors import DomainError, NothingFits
from tests.calc.beams import CASES, beams, solved

PRINTED = 1.5e-7  # of the greatest figure: one jack lost is printed to eight digits


def afresh(beam, gone):
    """Reactions without some of the jacks, solved afresh; those of the jacks gone are put in as zero."""
    out = np.zeros(len(beam.positions))
    out[[order for order in range(len(out)) if order not in gone]] = without(beam, *gone).reactions
    return out


@pytest.mark.parametrize("case", CASES, ids=range(len(CASES)))
def test_one_jack_lost_is_that_of_an_independent_calculation(case):
    lost = np.array(case["lost"])
    assert one_lost(solved(case)) == pytest.approx(lost, rel=0, abs=PRINTED * np.abs(lost).max())


@given(beams(least=3))
@settings(max_examples=60, deadline=None)
def test_one_jack_lost_is_the_beam_without_it(beam):
    lost = one_lost(beam)
    for gone in range(len(beam.positions)):
        again = afresh(beam, [gone])
        assert lost[:, gone] == pytest.approx(again, rel=0, abs=1e-9 * (np.abs(again).max() + beam.load.total))


@given(beams(least=4))
@settings(max_examples=40, deadline=None)
def test_two_jacks_lost_are_the_beam_without_them(beam):
    last = len(beam.positions) - 1
    for pair in ((0, 1), (1, last), (last - 1, 0)):
        again = afresh(beam, pair)
        # Two neighbours lost leave a long reach: the update divides small differences of great stiffness.
        assert two_lost(beam, *pair) == pytest.approx(again, rel=0, abs=1e-7 * (np.abs(again).max() + beam.load.total))


@given(beams(least=3))
@settings(max_examples=40, deadline=None)
def test_what_a_lost_jack_carried_is_carried_by_the_others(beam):
    lost = one_lost(beam)
    assert lost.sum(axis=0) == pytest.approx(np.full(len(lost), beam.load.total), rel=1e-8)


@given(beams(least=3, most=6))
@settings(max_examples=30, deadline=None)
def test_no_pattern_of_jacks_high_and_low_exceeds_the_uneven_envelope_and_one_reaches_it(beam):
    least, greatest = uneven(beam, 0.002)
    patterns = np.array(list(itertools.product((-0.001, 0.001), repeat=len(beam.positions))))
    found = beam.reactions + patterns @ beam.sensitivity.T
    size = np.abs(found).max()
    assert found.max(axis=0) == pytest.approx(greatest, rel=0, abs=1e-9 * size)
    assert found.min(axis=0) == pytest.approx(least, rel=0, abs=1e-9 * size)


@given(beams(least=3, most=5))
@settings(max_examples=20, deadline=None)
def test_no_pattern_exceeds_the_moments_of_uneven_jacks_and_hogging_is_reached(beam):
    sagging, hogging = uneven_moments(beam, 0.002)
    found = [
        along_beam(beam_on_jacks(beam.load, beam.positions, beam.stiffness, beam.compliance, beam.settlement + pattern))
        for pattern in np.array(list(itertools.product((-0.001, 0.001), repeat=len(beam.positions))))
    ]
    size = 1e-9 * max(sagging, hogging) + 1e-12
    assert max(one.sagging for one in found) <= sagging + size
    assert max(one.hogging for one in found) == pytest.approx(hogging, abs=size)


# ------------------------------------------------------------------------------------------ supports that let go


@given(beams(least=3))
@settings(max_examples=80, deadline=None)
def test_supports_push_or_are_left_behind_never_both(beam):
    middle = beam.load.moment / beam.load.total
    assume(beam.positions[0] < middle < beam.positions[-1])
    found = let_go(beam)
    # Independent of how it was found: the bases follow the beam by the gaps, and the beam is solved afresh.
    again = beam_on_jacks(
        beam.load, beam.positions, beam.stiffness, beam.compliance, beam.settlement - found.gaps
    ).reactions
    size = np.abs(beam.reactions).max()
    assert found.reactions.min() >= 0
    assert found.gaps.min() >= 0
    assert not (found.reactions * found.gaps).any()
    assert again == pytest.approx(found.reactions, rel=0, abs=1e-7 * size)


def test_a_beam_that_pulls_nowhere_keeps_its_reactions():
    beam = beam_on_jacks(beam_load(4.0, [(0.0, 4.0, 10.0)]), [0.3, 1.7, 3.8], 1e4, 1e-4)
    assert let_go(beam).reactions == pytest.approx(beam.reactions, rel=1e-12)
    assert not let_go(beam).gaps.any()


def test_an_end_jack_let_go_leaves_the_lever_of_the_two_others():
    # 30 kN on the overhang, 0.5 m left of the first jack; the third would pull, so the two others do as a lever would
    beam = beam_on_jacks(beam_load(6.0, [(0.5, 4.5, 12.0)], [(0.5, 30.0)]), [1.0, 2.0, 5.5], 17600.0)
    found = let_go(beam_on_jacks(beam_load(6.0, points=[(1.2, 30.0)]), [1.0, 2.0, 5.5], 17600.0))
    assert found.reactions == pytest.approx([24.0, 6.0, 0.0], rel=1e-12)
    assert found.gaps[2] > 0
    assert let_go(beam).reactions.sum() == pytest.approx(78.0, rel=1e-12)


def test_a_load_beyond_the_jacks_tips_the_beam():
    beam = beam_on_jacks(beam_load(4.0, points=[(0.2, 10.0)]), [0.5, 2.0, 4.0], 1e4)
    with pytest.raises(DomainError, match=r"resultant of the load is 0\.2 m; it must be at least 0\.5 m"):
        let_go(beam)


def test_with_an_end_jack_lost_the_resultant_must_still_lie_within():
    beam = beam_on_jacks(beam_load(4.0, points=[(0.9, 10.0)]), [0.5, 1.0, 4.0], 1e4)
    assert let_go(beam).reactions[0] > 0
    with pytest.raises(DomainError, match="resultant of the load"):
        lost_without_pull(beam, 0)


@given(beams(least=4, most=7))
@settings(max_examples=30, deadline=None)
def test_one_lost_without_pull_is_the_beam_without_that_jack_let_go(beam):
    middle = beam.load.moment / beam.load.total
    assume(beam.positions[1] < middle < beam.positions[-2])
    for gone in range(len(beam.positions)):
        left = [order for order in range(len(beam.positions)) if order != gone]
        fresh = beam_on_jacks(
            beam.load, beam.positions[left], beam.stiffness, beam.compliance[left], beam.settlement[left]
        )
        found = lost_without_pull(beam, gone)
        assert found[left] == pytest.approx(let_go(fresh).reactions, rel=0, abs=1e-6 * np.abs(fresh.reactions).max())


# ------------------------------------------------------------------------------------------ corrections


@given(beams(least=3))
@settings(max_examples=60, deadline=None)
def test_evening_brings_all_reactions_within_and_no_smaller_movement_does(beam):
    mean = beam.load.total / len(beam.positions)
    try:
        moved = evening(beam, 0.5 * mean, 1.4 * mean)
    except NothingFits:
        assume(False)
    found = beam.reactions + beam.sensitivity @ moved
    size = np.abs(beam.reactions).max() + mean
    assert found.min() >= 0.5 * mean - 1e-7 * size
    assert found.max() <= 1.4 * mean + 1e-7 * size
    # Optimal: any other movement that keeps within the limits reached lies behind the plane across the one found.
    active = [row * sign for row, value in zip(beam.sensitivity, found, strict=True)
              for sign, limit in ((1, 0.5 * mean), (-1, 1.4 * mean)) if abs(value - limit) < 1e-6 * size]  # fmt: skip
    if np.abs(moved).max() > 1e-12:
        scale = np.abs(beam.sensitivity).max()
        pushes, *_ = np.linalg.lstsq(np.array(active).T / scale, moved, rcond=1e-12)
        assert np.array(active).T @ pushes / scale == pytest.approx(moved, rel=0, abs=1e-6 * np.abs(moved).max())


def test_evening_moves_nothing_where_nothing_is_wanted():
    beam = beam_on_jacks(beam_load(4.0, [(0.0, 4.0, 10.0)]), [0.3, 1.7, 3.8], 1e4, 1e-4)
    assert not evening(beam, 0.0, 40.0).any()


def test_evening_says_when_the_load_is_too_much_for_the_limits():
    beam = beam_on_jacks(beam_load(4.0, [(0.0, 4.0, 10.0)]), [0.0, 2.0, 4.0], 1e4)
    assert evening(beam, 0.0, 13.4).shape == (3,)
    with pytest.raises(NothingFits, match=r"no set of movements reaches 13\.3 kN"):
        evening(beam, 0.0, 13.3)  # three times that is less than the 40 kN there are


@pytest.mark.parametrize("refused", [
    lambda beam: one_lost(beam),
    lambda beam: two_lost(beam, 0, 1),
])  # fmt: skip
def test_two_jacks_cannot_lose_one(refused):
    with pytest.raises(DomainError, match="number of jacks is 2 No"):
        refused(beam_on_jacks(beam_load(4.0, [(0.0, 4.0, 10.0)]), [0.0, 4.0], 1e4))


def test_limits_of_the_cases_are_asked_for():
    beam = beam_on_jacks(beam_load(4.0, [(0.0, 4.0, 10.0)]), [0.0, 1.0, 2.0, 4.0], 1e4)
    with pytest.raises(DomainError, match="distance in order"):
        two_lost(beam, 2, 2)
    with pytest.raises(DomainError, match="level difference"):
        uneven(beam, -0.001)
    with pytest.raises(DomainError, match="level difference"):
        uneven_moments(beam, float("nan"))
    with pytest.raises(DomainError, match="greatest reaction"):
        evening(beam, 5.0, 4.0)
