"""calc.packing and cribs: crushing, stiffness, courses, re-seating, cribs by hand."""

from dataclasses import replace
from math import nan, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.cribs import crib, crib_check, sway_moment, width_for_sway
from calc.errors import DomainError
from calc.packing import (
    allowed_stress,
    column_compliance,
    courses,
    oil_compliance,
    packing_criterion,
    partner_packs,
    point_stiffness,
    reseating,
    shims,
    shortening,
    soil_compliance,
)
from tests.members import PACKING, TIMBER

GROUP_B = TIMBER["Structural timber group B, inside"]  # 2500 kN/m2 dry
UNKNOWN = TIMBER["Packing of unknown kind, used and wet"]  # 1000 kN/m2, printed wet


# ------------------------------------------------------------------------------------------ crushing


def test_wet_timber_loses_a_third_and_what_was_printed_wet_loses_nothing_more():
    assert allowed_stress(GROUP_B, 0, PACKING) == pytest.approx(2500.0)
    assert allowed_stress(GROUP_B, 1, PACKING) == pytest.approx(2500.0 * 0.67)
    assert allowed_stress(UNKNOWN, 1, PACKING) == allowed_stress(UNKNOWN, 0, PACKING) == pytest.approx(1000.0)


@pytest.mark.parametrize(("load", "holds"), [(39.9, 1), (40.0, 1), (40.1, 0)])
def test_packing_is_crushed_just_above_its_stress_times_its_contact(load, holds):
    # 0.2 x 0.2 m at 1000 kN/m2
    row = packing_criterion(load, 0.04, allowed_stress(UNKNOWN, 1, PACKING), UNKNOWN.source)
    assert (row.capacity, row.holds) == (pytest.approx(40.0), holds)
    assert row.clause == UNKNOWN.source


# ------------------------------------------------------------------------------------------ stiffness


def test_a_metre_of_packing_at_one_newton_per_mm2_shortens_by_two_and_a_half_to_five_millimetres():
    # common practice, no source: 1 N/mm2 on 1.0 m, moduli of 200 and 400 N/mm2
    found = [shortening(40.0, 1.0, modulus, 0.04) for modulus in (400e3, 200e3)]
    assert found == pytest.approx([0.0025, 0.005])


def test_springs_in_series_add_up_by_hand():
    # packing 0.3 / (3e5 x 0.04) = 25e-6, oil 0.1 / (1.4e6 x 3848 mm2) = 18.56e-6, soil 1 / (4e4 x 0.36) = 69.4e-6 m/kN
    piston = pi * 0.07**2 / 4
    parts = (column_compliance(0.3, 3e5, 0.04), oil_compliance(0.1, piston, PACKING), 2e-6, soil_compliance(4e4, 0.6))
    assert parts == pytest.approx((25e-6, 0.1 / (1.4e6 * piston), 2e-6, 1 / 14400.0))
    point = point_stiffness(*parts)
    assert point.compliance == pytest.approx(25e-6 + 18.561e-6 + 2e-6 + 69.444e-6, rel=1e-4)
    assert point.stiffness == pytest.approx(1 / point.compliance)
    assert (point.packing, point.jack, point.base, point.soil) == parts


def test_the_softest_part_governs_and_each_is_of_the_usual_order():
    # common practice, no source: packing 20 to 100 kN/mm, base on medium soil 5 to 20 kN/mm, jack on its nut over 200
    packing, soil = 1 / column_compliance(0.3, 3e5, 0.04), 1 / soil_compliance(4e4, 0.6)
    nut = 1 / column_compliance(0.3, 2e8, pi * 0.07**2 / 4)
    assert 20e3 < packing < 100e3
    assert 5e3 < soil < 20e3
    assert nut > 200e3
    assert point_stiffness(1 / packing, 1 / nut, 0.0, 1 / soil).stiffness < soil


# ------------------------------------------------------------------------------------------ courses and strokes


@pytest.mark.parametrize(
    ("height", "course", "whole", "rest"),
    [
        pytest.param(0.9, 0.075, 12, 0.0, id="just fits"),
        pytest.param(0.3, 0.1, 3, 0.0, id="just fits, with noise in the last digit"),
        pytest.param(0.95, 0.1, 9, 0.05, id="half a plank left"),
        pytest.param(0.953, 0.1, 9, 0.06, id="shims rounded up to their step"),
        pytest.param(0.05, 0.1, 0, 0.05, id="lower than a plank"),
        pytest.param(0.0, 0.1, 0, 0.0, id="nothing"),
    ],
)
def test_courses_fill_a_height_and_shims_the_rest(height, course, whole, rest):
    assert courses(height, course) == whole
    assert shims(height, course, 0.01) == pytest.approx(rest)


@given(st.integers(0, 300), st.integers(2, 20))
def test_courses_and_shims_reach_the_height_and_no_course_more(height_cm, course_cm):
    height, course = height_cm / 100, course_cm / 100
    whole, rest = courses(height, course), shims(height, course, 0.01)
    assert whole * course <= height + 1e-9
    assert height - 1e-9 <= whole * course + rest < height + course


def test_a_rise_is_strokes_less_reserve_and_seating():
    # 150 - 20 - 10 = 120 mm a stroke: 0.9 m in 8 strokes, 7 re-seatings; of 40 jacks one in 4: 10 packs of 0.09 m2
    found = reseating(0.9, 0.15, 40, 0.09, PACKING)
    assert (found.net_stroke, found.strokes, found.reseatings) == pytest.approx((0.12, 8, 7))
    assert (found.partner_packs, found.volume) == pytest.approx((10, 10 * 0.09 * 0.9))


@pytest.mark.parametrize(("rise", "reseatings"), [(0.12, 0), (0.121, 1), (0.24, 1), (0.0, 0)])
def test_a_rise_of_one_stroke_needs_no_reseating(rise, reseatings):
    assert reseating(rise, 0.15, 6, 0.09, PACKING).reseatings == reseatings


def test_a_stroke_that_its_reserve_uses_up_is_refused():
    with pytest.raises(DomainError) as caught:
        reseating(0.9, 0.03, 6, 0.09, PACKING)
    assert caught.value.quantity == "stroke less reserve and seating"
    with pytest.raises(DomainError):
        reseating(0.9, nan, 6, 0.09, PACKING)


def test_releasing_every_second_jack_takes_a_pack_at_each():
    assert partner_packs(10, PACKING) == 3  # one in 4, rounded up
    assert partner_packs(10, replace(PACKING, reseat_interval=2)) == 10
    assert partner_packs(10, replace(PACKING, reseat_interval=5)) == 2


# ------------------------------------------------------------------------------------------ cribs


def stack(height=0.9, width=0.6):
    return crib(0.1, 3, width, height, PACKING)


def check(load=60.0, wind=0.0, braced=0, stress=1000.0, **size):
    return crib_check(stack(**size), load, wind, stress, braced, PACKING, "a code")


def test_a_crib_is_counted_by_hand():
    found = stack(height=0.85)
    # 8.5 -> 9 layers of 3 members, 0.1 x 0.1 x (0.6 + 2 x 0.1); 9 contacts of 0.1 x 0.1
    assert (found.layers, found.member_length, found.contact) == pytest.approx((9, 0.8, 0.09))
    assert found.timber == pytest.approx(9 * 3 * 0.01 * 0.8)
    short = crib(0.1, 3, 0.6, 0.85, replace(PACKING, crib_tail=0.5))
    assert short.member_length == pytest.approx(0.7)


def test_sway_lean_and_offset_make_the_moment_by_hand():
    # 0.025 x 60 + 2 = 3.5 kN at 0.9 m, 60 x (0.005 + 0.009)
    found = check(wind=2.0)
    assert (found.sway, found.moment) == pytest.approx((3.5, 3.5 * 0.9 + 60 * 0.014))
    assert found.offset == pytest.approx(found.moment / 60)
    assert found.moment == pytest.approx(sway_moment(60.0, 3.5, 0.9, PACKING))


def test_each_criterion_of_a_crib_on_both_sides_of_its_limit():
    by_name = {row.name: row for row in check(load=90.0).criteria}
    assert by_name["Crib across the grain"].utilisation == pytest.approx(1.0)
    assert check(load=90.0).holds == 1
    assert check(load=90.1).holds == 0
    # 1.2 m on 0.6 m is just twice; braced it may be three times, 1.8 m
    height = "Height of the crib over its width"
    for braced, most in ((0, 1.2), (1, 1.8)):
        holds = [next(row.holds for row in check(height=h, braced=braced).criteria if row.name == height)
                 for h in (most - 0.01, most, most + 0.01)]  # fmt: skip
        assert holds == [1, 1, 0]
    # the resultant: 0.025 x h + 0.005 + h / 100 = 0.6 / 6 = 0.1 at h = 2.714 m
    third = "Resultant in the middle third"
    holds = [next(row.holds for row in check(height=h).criteria if row.name == third) for h in (2.71, 2.72)]
    assert holds == [1, 0]
    # three members of 0.1 m do not go into 0.25 m
    assert check(width=0.25).holds == 0


def test_wind_on_a_crib_without_load_fails_it():
    assert check(load=0.0).holds == 1
    blown = check(load=0.0, wind=1.0)
    assert (blown.holds, blown.offset) == (0, pytest.approx(0.3))  # at its edge


def test_a_crib_just_wide_enough_keeps_its_resultant_in_the_middle_third():
    width = width_for_sway(60.0, 0.025 * 60.0 + 2.0, 0.9, PACKING)
    rows = {row.name: row for row in check(wind=2.0, width=width).criteria}
    assert rows["Resultant in the middle third"].utilisation == pytest.approx(1.0)
    assert width_for_sway(0.0, 0.0, 0.9, PACKING) == 0


def test_a_crib_without_width_or_with_a_load_upward_is_refused():
    for wrong in ({"width": 0.0}, {"width": nan}, {"load": -1.0}, {"load": nan}):
        with pytest.raises(DomainError):
            check(**wrong)


loads = st.floats(0.1, 500.0)


@given(loads, st.floats(0.1, 3.0), st.floats(0.1, 3.0))
def test_a_higher_crib_is_never_less_used(load, one, other):
    low, high = (check(load=load, height=height) for height in sorted((one, other)))
    assert low.utilisation <= high.utilisation
    assert low.holds >= high.holds
    assert low.crib.timber <= high.crib.timber


@given(st.sampled_from(sorted(TIMBER)), st.floats(0.001, 0.2))
def test_wet_timber_never_carries_more_than_dry(name, area):
    dry, wet = (allowed_stress(TIMBER[name], is_wet, PACKING) * area for is_wet in (0, 1))
    assert wet <= dry


@given(st.floats(0.01, 2.0), st.floats(0.01, 2.0))
def test_a_higher_stack_is_never_stiffer(one, other):
    low, high = (point_stiffness(column_compliance(height, 3e5, 0.04), 1e-5, 0.0, 7e-5) for height in
                 sorted((one, other)))  # fmt: skip
    assert high.stiffness <= low.stiffness
