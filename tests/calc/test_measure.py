"""Rules of measurement: booking of dimensions, limits of the deduction rules, lines."""

import pytest

from addin import units
from calc.measure import (
    again,
    booked,
    brickwork_deduction,
    bulked,
    line,
    plaster_deduction,
    reveal_run,
    steel_line,
)
from calc.number import Traced, entry, value_of

NONE, ONE_FACE, BRICK = 0.5, 3.0, 0.1
"""Limits of the plaster and brickwork rules [m2]."""


def test_a_dimension_is_booked_to_the_nearest_centimetre_and_a_half_goes_up():
    assert [booked(x) for x in (3.564, 3.565, 3.566, 0.115, 1.005)] == [3.56, 3.57, 3.57, 0.12, 1.01]


def test_a_line_multiplies_the_booked_dimensions_and_not_the_exact_ones():
    # 3.567 -> 3.57 and 0.904 -> 0.90: 2 x 3.57 x 0.90 x 0.60 = 3.8556 -> 3.86; unrounded it would be 3.87
    found = line("D01", "room Hall", 2, 3.567, 0.904, 0.6)
    assert (found.length, found.breadth, found.depth, found.quantity) == (3.57, 0.9, 0.6, 3.86)


def test_a_dimension_that_is_not_there_stays_away_and_multiplies_by_nothing():
    found = line("T01", "window in W1", 1, 1.2, None, 1.3)
    assert found.breadth is None
    assert found.quantity == 1.56


def test_a_deduction_is_a_line_with_a_negative_number():
    assert line("S04", "wall W1, its openings", -1, 0.6, 0.23, 3.0).quantity == -0.41  # 0.414


def test_the_same_dimensions_serve_another_item_without_being_worked_out_again():
    one = line("D01", "room Hall", entry(1.0, "A1"), entry(3.567, "A2"), entry(0.9, "A3"), entry(0.6, "A4"))
    other = again("F01", one, 0 - one.number)
    assert other.length is one.length
    assert value_of(other.quantity) == -1.93  # 3.57 x 0.9 x 0.6 = 1.9278


def test_steel_is_weighed_to_the_kilogram():
    # 2 x 4.09 m x 37.3 kg/m = 305.114
    assert steel_line("J03", "wall W4", 2, 4.085, 37.3).quantity == 305.0


@pytest.mark.parametrize(("area", "out"), [(0.0999, 0.0), (0.1, 0.0), (0.4 * 0.25, 0.0), (0.1001, 0.1001), (2.1, 2.1)])
def test_brickwork_loses_an_opening_only_beyond_the_limit(area, out):
    assert brickwork_deduction(area, BRICK) == out


@pytest.mark.parametrize(
    ("area", "faces", "out"),
    [(0.5, 2, 0.0), (0.5001, 2, 0.5001), (3.0, 2, 3.0), (3.0001, 2, 6.0002), (1.2, 1, 1.2), (4.0, 1, 4.0),
     (4.0, 0, 0.0), (1.2, 0, 0.0)],
)  # fmt: skip
def test_plaster_loses_nothing_then_one_face_then_every_plastered_face(area, faces, out):
    assert plaster_deduction(area, faces, NONE, ONE_FACE) == pytest.approx(out, rel=1e-12)


def test_reveals_are_added_only_where_both_faces_are_deducted():
    assert [reveal_run(area, 6.0, ONE_FACE) for area in (0.4, 3.0, 3.01)] == [0.0, 0.0, 6.0]


def test_rounding_noise_does_not_push_an_opening_over_its_limit():
    area = 0.1 + 0.2 + 0.2  # 0.5 in figures, a little more in binary
    assert plaster_deduction(area + 1e-12, 2, NONE, ONE_FACE) == 0


def test_earth_is_dug_in_the_ground_and_carried_loose():
    assert bulked(8.0, 1.25) == 10.0


def test_the_rules_give_the_same_traced_and_keep_their_unit():
    def traced(value):
        return entry(value, "cell")

    for area in (0.05, 0.5, 1.2, 3.0, 3.78):
        for rule, rest in ((brickwork_deduction, (BRICK,)), (plaster_deduction, (2.0, NONE, ONE_FACE))):
            plain = rule(area, *rest)
            live = rule(traced(area), *(traced(value) for value in rest))
            assert isinstance(live, Traced)
            assert live.value == plain
            parts = [units.quantity(value, "No" if value == 2.0 else "m2") for value in rest]
            measured = rule(units.quantity(area, "m2"), *parts)
            assert value_of(measured) == plain
            assert measured.check("[length] ** 2")


def test_a_line_of_quantities_has_the_unit_of_its_item():
    found = line("D01", "room Hall", units.quantity(2, "No"), *(units.quantity(v, "m") for v in (3.567, 0.9, 0.6)))
    assert found.quantity == units.quantity(3.86, "m3")
    mass = units.quantity(37.3, "kg/m")
    steel = steel_line("J03", "wall W4", units.quantity(2, "No"), units.quantity(4.085, "m"), mass)
    assert steel.quantity == units.quantity(305, "kg")
