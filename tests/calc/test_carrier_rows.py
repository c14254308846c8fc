"""Rows of carrier beams and of jacks in every state, against the functions they are made of and figures by hand."""

from dataclasses import replace

import pytest

from calc.bases import PadRow
from calc.beam_choice import worst_check
from calc.carrier_rows import Lender, beam_order_row, beam_state_row, section_columns, section_row, tabled_section
from calc.jack_plan_rows import STATES, MemberState
from calc.jack_sections import demands_of, job_sections, load_factor
from calc.jack_state_rows import jack_limits, jack_state_row
from calc.jack_supports import carrier_of
from calc.number import Filed, Name
from tests.calc.test_lift_works import MB_200, PLAN, STEEL
from tests.houses import ALLOWANCES, BASIS, job

LIKE = Lender(length=0.2, force=200.0, mass=37.3)
COLUMNS = section_columns([section_row(MB_200, 0.2, "a table", STEEL)])
STATE = MemberState(state="all at work", jack=60.0, moment=22.0, shear=48.0, deflection_load=2.5, span=1.2)


def pad(side):
    return PadRow(name=Name("W1"), kind="wall", count=5, load=0.0, allowable=120.0, side=side, thickness=0.2,
                  pressure=0.0)  # fmt: skip


LIMITS = jack_limits(80.0, job(), BASIS.soft_timber, [pad(0.7), pad(1.0)], ALLOWANCES)


def sides(side):
    return Filed([Name("W1")], [side])


def row_of(state):
    return beam_state_row(PLAN, state, COLUMNS, LIKE, STEEL)


@pytest.mark.parametrize("word", STATES)
def test_a_row_says_what_the_check_of_the_same_beam_says(word):
    state = replace(STATE, state=word)
    row = row_of(state)
    found = worst_check(carrier_of(MB_200, 2, BASIS, ALLOWANCES), list(demands_of([state], 1, 0.2, STEEL)), STEEL)
    assert row.use == pytest.approx(found.utilisation)


def test_an_accident_has_the_smaller_load_factor():
    assert load_factor("all at work", STEEL) == 1.5
    assert load_factor("re-seating", STEEL) == 1.5
    assert load_factor("one lost", STEEL) == load_factor("uneven", STEEL) == 1.05


def test_a_beam_that_is_bent_too_far_stops():
    # Two MB 200 tied every 1.2 m: well under 2 x 57.7 kN m; 100 kN m x 1.5 is over it.
    assert row_of(STATE).verdict == "within the limits set"
    assert row_of(replace(STATE, moment=100.0)).verdict == "STOP"


def test_figures_of_a_section_keep_their_values_with_cells_of_their_own():
    found = tabled_section(MB_200, LIKE)
    assert (found.name, found.zpx, found.mass) == ("MB 200", MB_200.zpx, MB_200.mass)


def test_beams_to_buy_reach_beyond_the_wall_and_are_spliced_past_twelve_metres():
    short = beam_order_row(PLAN, 5.0, COLUMNS, LIKE, ALLOWANCES, STEEL)
    assert (short.run, short.pieces, short.splices) == (pytest.approx(5.3), 1, 0)
    assert short.mass == pytest.approx(2 * 5.3 * 25.4)
    long = beam_order_row(PLAN, 12.0, COLUMNS, LIKE, ALLOWANCES, STEEL)
    assert (long.pieces, long.splices) == (2, 2)


def test_a_jack_is_held_to_its_usable_load_at_work_and_to_its_rating_in_an_accident():
    at_work = jack_state_row(PLAN, replace(STATE, jack=81.0), sides(1.0), LIMITS)
    assert (at_work.limit, at_work.verdict) == (80.0, "STOP")
    lost = jack_state_row(PLAN, replace(STATE, state="one lost", jack=81.0), sides(1.0), LIMITS)
    assert (lost.limit, lost.verdict) == (200.0, "within the limits set")


def test_packing_and_ground_can_govern():
    # 1.0 N/mm2 on 0.4 m x 0.4 m bears 160 kN.
    crushed = jack_state_row(PLAN, replace(STATE, state="one lost", jack=161.0), sides(1.0), LIMITS)
    assert LIMITS.packing == pytest.approx(160.0)
    assert crushed.verdict == "STOP"
    # 60 kN on 0.7 m square is 122 kN/m2, 120 allowed at work and 180 in a state that passes.
    sunk = jack_state_row(PLAN, STATE, sides(0.7), LIMITS)
    assert sunk.pressure == pytest.approx(60.0 / 0.49)
    assert sunk.verdict == "STOP"
    passing = jack_state_row(PLAN, replace(STATE, state="uneven"), sides(0.7), LIMITS)
    assert passing.allowed == pytest.approx(180.0)
    assert passing.verdict == "within the limits set"


def test_two_sections_serve_a_job_where_that_saves_steel():
    holds = {"W1": ["A", "B"], "W2": ["B", "C"], "W3": ["C"]}
    lengths, masses = {"W1": 10.0, "W2": 5.0, "W3": 5.0}, {"A": 20.0, "B": 30.0, "C": 40.0}
    # A and C: 200 + 200 + 200; B and C: 300 + 150 + 200.
    assert job_sections(holds, lengths, masses, {}) == {"W1": "A", "W2": "C", "W3": "C"}
    # Enough of B in the store counts half.
    assert job_sections(holds, lengths, masses, {"B": 15.0}) == {"W1": "B", "W2": "B", "W3": "C"}


def test_a_wall_under_which_nothing_holds_gets_no_section():
    assert job_sections({"W1": ["A"], "W2": []}, {"W1": 1.0, "W2": 1.0}, {"A": 20.0}, {}) == {"W1": "A"}
