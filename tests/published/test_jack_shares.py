"""Shares of the rating against 29 CFR 1926.705(d), read: lift-slab jacks must support 2.5 times the load lifted.

The rule is written for lift-slab work and is a benchmark here; the shares themselves are common practice, no source.
"""

import pytest

from tests.members import JACK, JACKS


@pytest.mark.parametrize("name", ["screw", "plain hydraulic"])
def test_jacks_worked_by_hand_keep_to_the_lift_slab_rule(name):
    assert JACK[name].share == pytest.approx(1 / 2.5)


@pytest.mark.parametrize("name", ["hydraulic with lock nut", "unified set on one pump"])
def test_jacks_with_gauges_may_be_used_to_a_half(name):
    assert JACK[name].share == pytest.approx(0.5)


def test_no_type_reaches_the_share_at_which_a_jack_is_overloaded():
    assert max(jack.share for jack in JACK.values()) < JACKS.share_fault == pytest.approx(0.6)
