"""calc.bases: the pad under a jack, by hand."""

from dataclasses import replace

import pytest

from calc.bases import pad_rows, pad_side, pad_thickness
from calc.jacks import jack_rows
from tests.houses import ALLOWANCES, house, wall, worked


def test_a_pad_is_as_wide_as_its_pressure_asks_rounded_up_to_the_step():
    # sqrt(30 / 120) = 0.5 m just; a little more load takes the next step
    assert pad_side(30.0, 120.0, 0.05) == pytest.approx(0.5)
    assert pad_side(30.2, 120.0, 0.05) == pytest.approx(0.55)


def test_a_pad_is_as_thick_as_its_projection_but_not_thinner_than_the_least():
    # (0.9 - 0.2) / 2 = 0.35; (0.5 - 0.2) / 2 = 0.15 is the least itself; (0.56 - 0.2) / 2 = 0.18 -> 0.2
    assert pad_thickness(0.9, 0.2, 0.15, 0.05) == pytest.approx(0.35)
    assert pad_thickness(0.4, 0.2, 0.15, 0.05) == pytest.approx(0.15)
    assert pad_thickness(0.56, 0.2, 0.15, 0.05) == pytest.approx(0.2)


def pads(**changes):
    bare = {"plastered": 0, "thickness": 0.2, "height": 3.0}
    walls = [wall("W", "A1", "B1", **bare, **changes), wall("V", "A2", "B2", **bare)]
    survey = house({"A": 0.0, "B": 5.0}, {"1": 0.0, "2": 4.0}, walls=walls)
    found = worked(survey)
    return pad_rows(jack_rows(found.taken.bases, found.own.members, 80.0, survey.job, ALLOWANCES), 60.0, ALLOWANCES)[0]


def test_the_pads_of_a_wall_take_the_uneven_load_of_its_jacks():
    pad = pads()
    # 57 kN on 5 jacks, 1.25 x 11.4 = 14.25 kN; sqrt(14.25 / 60) = 0.487 -> 0.5 m; 14.25 / 0.25 = 57 kN/m2
    assert (pad.count, pad.load, pad.side, pad.pressure) == pytest.approx((5, 14.25, 0.5, 57.0))
    assert pad.thickness == pytest.approx(0.15)
    assert pad.pressure <= pad.allowable


def test_a_wall_without_jacks_has_no_pads_and_no_pressure():
    pad = pads(at_lift="stays")
    assert (pad.count, pad.load, pad.pressure) == (0, 0, 0)


def test_a_pad_of_another_step_is_a_multiple_of_it():
    assert pad_side(14.25, 60.0, replace(ALLOWANCES, base_step=0.15).base_step) == pytest.approx(0.6)
