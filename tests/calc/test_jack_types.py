"""calc.jack_types and criteria: whether a jack fits, what it takes, and how a criterion is read."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.criteria import all_hold, criterion, governing, most_used
from calc.jack_types import jack_fit, operators, packs_while_holding, share_criteria, stroke_criterion
from tests.members import JACK, JACKS, PACKING

SCREW, PLAIN, NUT, SET = (JACK[name] for name in (
    "screw", "plain hydraulic", "hydraulic with lock nut", "unified set on one pump"))  # fmt: skip


def test_what_each_type_can_do_is_told_in_the_table():
    assert [jack.circuits for jack in (SCREW, PLAIN, NUT, SET)] == [0, 0, 1, 1]
    assert [jack.holds for jack in (SCREW, PLAIN, NUT, SET)] == [1, 0, 1, 0]
    assert len(JACK) == 4
    assert all(jack.stroke < jack.closed for jack in JACK.values())


@pytest.mark.parametrize(("room", "slack", "dig"), [(0.7, 0.08, 0.0), (0.62, 0.0, 0.0), (0.5, 0.0, 0.12)])
def test_a_jack_that_does_not_fit_is_dug_for(room, slack, dig):
    # base 0.2 + packing 0.05 + lock-nut jack closed 0.3 + plates 0.07 = 0.62 m
    fit = jack_fit(NUT, 0.2, 0.05, 0.07, room)
    assert fit.stack == pytest.approx(0.62)
    assert (fit.slack, fit.extra_dig) == pytest.approx((slack, dig))


@given(st.floats(0.0, 2.0), st.floats(0.0, 2.0))
def test_less_room_never_means_less_digging(one, other):
    small, large = (jack_fit(SCREW, 0.2, 0.05, 0.05, room) for room in sorted((one, other)))
    assert small.extra_dig >= large.extra_dig


@pytest.mark.parametrize(("jacks", "people"), [(4, 1), (5, 2), (14, 4)])
def test_one_operator_serves_four_screw_jacks(jacks, people):
    assert operators(jacks, SCREW) == people


@pytest.mark.parametrize(
    ("share", "holds"), [(0.4, [1, 1]), (0.41, [0, 1]), (0.6, [0, 1]), (0.61, [0, 0])]
)  # the usual share of a screw jack, then the fault
def test_a_share_is_held_against_the_type_and_against_the_fault(share, holds):
    assert [row.holds for row in share_criteria(share, SCREW, JACKS)] == holds


@pytest.mark.parametrize(("call", "holds"), [(0.12, 1), (0.121, 0)])
def test_a_call_leaves_reserve_and_seating_in_the_stroke(call, holds):
    assert stroke_criterion(call, NUT, PACKING).holds == holds  # 150 - 20 - 10 mm


def test_jacks_that_do_not_hold_by_themselves_have_a_pack_beside_them():
    assert [packs_while_holding(9, jack) for jack in (SCREW, PLAIN, NUT, SET)] == [0, 9, 0, 9]


def test_a_demand_equal_to_its_capacity_holds_and_nothing_to_hold_with_does_not():
    assert [criterion("a", demand, 0.3, "kN", "x").holds for demand in (0.1 + 0.2, 0.300001)] == [1, 0]
    nothing, idle = criterion("a", 1.0, 0.0, "kN", "x"), criterion("a", 0.0, 0.0, "kN", "x")
    assert (nothing.holds, nothing.utilisation) == (0, 2)
    assert (idle.holds, idle.utilisation) == (1, 0)


def test_a_figure_that_is_no_number_never_holds():
    assert criterion("a", nan, 1.0, "kN", "x").holds == 0
    assert criterion("a", 1.0, nan, "kN", "x").holds == 0


def test_the_most_used_governs_and_one_failure_fails_all():
    rows = [criterion("a", 1.0, 2.0, "kN", "x"), criterion("b", 4.0, 3.0, "m", "x"), criterion("c", 8.0, 6.0, "m", "x")]
    assert (most_used(rows), all_hold(rows), governing(rows)) == (pytest.approx(4 / 3), 0, "b")
    with pytest.raises((TypeError, ValueError)):
        most_used([])
