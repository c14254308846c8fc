"""calc.base_checks: bases on old footings in the house of a plan, by hand."""

from dataclasses import replace
from itertools import pairwise

import pytest

from calc.base_checks import base_checks, old_footing_rows
from calc.base_places import borne_across, within_footing
from calc.bases import PadRow
from calc.carrier_rows import Lender
from calc.jack_on_bases import NO_LAYOUT, bases_of_plan
from calc.jack_state_rows import jack_limits
from calc.jacks import jack_rows
from calc.number import Name
from tests.houses import ALLOWANCES, BASIS, RULES, entered, footing, four_walls, house, job, planned, room, worked

LIKE = Lender(length=0.2, force=200.0, mass=37.3)


def box(**changes):
    """One room; every base stands on the old footing, 0.6 m wide and 0.2 m thick."""
    walls = four_walls(["A1", "B1", "B2", "A2"], stands_on="old footing", **changes)
    feet = [footing("W1 W2 W3 W4", width=0.6, plinth_height=0.5)]
    return house({"A": 0.0, "B": 4.1}, {"1": 0.0, "2": 3.7}, walls=walls, footings=feet, rooms=[room("R", "A1 B2")],
                 job=job(bearing=entered(150.0)))  # fmt: skip


def rows_and_checks(survey, side, load=30.0):
    """W1 on bases of one side, each made for one load."""
    found, plan = worked(survey), planned(survey)
    jacks = jack_rows(found.taken.bases, found.own.members, 80.0, survey.job, ALLOWANCES)
    pads = [
        PadRow(name=jack.name, kind=jack.kind, count=jack.count, load=load, allowable=150.0, side=side, thickness=0.2,
               pressure=load / side**2)
        for jack in jacks
    ]  # fmt: skip
    flat = replace(plan, jacks=tuple(replace(jack, base_side=side, base_length=side) for jack in plan.jacks))
    rows = old_footing_rows(survey, found.taken.bases, jacks, pads, flat, LIKE, RULES.bases)
    limits = jack_limits(80.0, survey.job, BASIS.soft_timber, pads, ALLOWANCES)
    checks = [one for one in base_checks(survey, rows, limits, "within the limits set", RULES.bases)
              if one.where == "W1"]  # fmt: skip
    return rows[0], checks, plan


def verdict(checks, name, state=""):
    return next(one for one in checks if one.name == name and state in one.state)


def test_a_base_wider_than_the_old_footing_stops():
    _, checks, _ = rows_and_checks(box(), 0.75)
    found = verdict(checks, "Base within the old footing")
    # Half of 0.75 m is beyond half of 0.60 m.
    assert (found.demand, found.capacity, found.verdict) == (0.375, 0.3, "STOP")


def test_a_base_as_wide_as_the_old_footing_is_within_it():
    _, checks, _ = rows_and_checks(box(), 0.6)
    assert verdict(checks, "Base within the old footing").verdict == "within the limits set"


def test_bases_of_twin_beams_beside_the_old_footing_stop():
    _, checks, _ = rows_and_checks(box(system="twin beams and needles"), 0.5)
    found = verdict(checks, "Base within the old footing")
    # Half the wall and 0.3 m beside it: 0.415 m, and half of the base.
    assert found.demand == pytest.approx(0.415 + 0.25)
    assert found.verdict == "STOP"


def test_the_least_spacing_of_the_plan_counts_and_not_the_mean():
    row, _, plan = rows_and_checks(box(), 0.5)
    at = [jack.at for jack in plan.jacks_of("W1")]
    assert row.spacing == min(there - here for here, there in pairwise(at))
    two = [replace(plan.jacks_of("W1")[k], at=place) for k, place in enumerate((0.4, 1.5, 2.1))]
    assert bases_of_plan(plan.members[0], two).apart == pytest.approx(0.6)


def test_twin_beams_have_their_spacing_along_one_line():
    plan = planned(box(system="twin beams and needles"))
    laid = bases_of_plan(plan.members[0], plan.jacks_of("W1"))
    assert laid.apart >= 0.5
    assert laid.off == pytest.approx(0.415)


def test_pressure_that_lasts_has_a_limit_of_its_own():
    row, checks, plan = rows_and_checks(box(), 0.4)
    states = {state.state: state.jack for state in plan.members[0].states}
    # Through 0.2 m of footing: 0.4 + 2 x 0.577 x 0.2 = 0.6308 m along, and across no more than its 0.6 m.
    area = 0.6308 * 0.6
    level = verdict(checks, "Old footing under jack bases", "on all jacks")
    assert level.demand == pytest.approx(states["all at work"] / area + row.below / 0.6)
    assert level.capacity == 150.0
    worst = verdict(checks, "Old footing under jack bases", "one lost")
    assert worst.demand == pytest.approx(max(30.0, *states.values()) / area + row.below / 0.6)
    assert worst.capacity == 150.0 * ALLOWANCES.soil_temporary


def test_a_wall_without_a_layout_is_taken_by_its_count():
    survey = box()
    found, plan = worked(survey), planned(survey)
    jacks = jack_rows(found.taken.bases, found.own.members, 80.0, survey.job, ALLOWANCES)
    pads = [PadRow(name=Name("W1"), kind="wall", count=4, load=30.0, allowable=150.0, side=0.5, thickness=0.2,
                   pressure=120.0)]  # fmt: skip
    bare = replace(plan, members=(replace(plan.members[0], states=()),), jacks=())
    row = old_footing_rows(survey, found.taken.bases[:1], jacks, pads, bare, LIKE, RULES.bases)[0]
    assert (row.spacing, row.at_work, row.worst) == (jacks[0].spacing, jacks[0].mean, 30.0)


def test_a_strip_narrower_than_the_pads_spreads_less_and_a_wider_one_reaches_further():
    found, plan = worked(box()), planned(box())
    jacks = jack_rows(found.taken.bases, found.own.members, 80.0, job(), ALLOWANCES)
    pads = [PadRow(name=Name("W1"), kind="wall", count=4, load=30.0, allowable=150.0, side=0.5, thickness=0.2,
                   pressure=120.0)]  # fmt: skip
    of_one = plan.jacks_of("W1")
    sides = (0.3, 0.8, *(0.5 for _ in of_one[2:]))
    laid = replace(plan, jacks=tuple(replace(jack, base_side=side) for jack, side in zip(of_one, sides, strict=True)))
    row = old_footing_rows(box(), found.taken.bases[:1], jacks, pads, laid, LIKE, RULES.bases)[0]
    # 0.3 + 2 x 0.577 x 0.2 of spread; the edge of the widest at 0.4 m.
    assert row.borne == pytest.approx(0.5308)
    assert row.edge == pytest.approx(0.4)


def test_a_base_beside_the_wall_presses_evenly_on_what_lies_under_it():
    # 0.415 m off the centre of a footing 1.3 m wide: 0.235 m remain outside, so 0.47 m; spread 0.63 m.
    assert borne_across(0.63, 0.4, 0.415, 0.65) == pytest.approx(0.47)
    # Two lines 0.2 m off the centre share it there: 0.4 m each.
    assert borne_across(0.63, 0.4, 0.2, 0.65) == pytest.approx(0.4)
    assert within_footing(0.615, 0.65).holds == 1


def test_a_wall_without_a_layout_has_no_bases_of_a_plan():
    member = replace(planned(box()).members[0], states=())
    assert bases_of_plan(member, ()) is NO_LAYOUT
