"""calc.carrier_beams and carrier_sections: each limit state by hand on one section, and what must never happen."""

from dataclasses import replace
from math import pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.carrier_beams import (
    bending_beside_shear,
    bending_resistance,
    carrier_check,
    deflection_limit,
    even_load_demand,
    lateral_slenderness,
    shear_resistance,
    web_bearing,
    web_buckling,
)
from calc.carrier_sections import filling_area, flange_modulus, torsion_constant
from tests.members import SECTION, STEEL, beam, demand

MB = SECTION["MB 250"]  # 250 x 125, web 6.9, flange 12.5, root 13, d 194.1 mm; Zpx 465.71, Zex 410.5 cm3; Iyy 334.5 cm4
STRESS = 250e3 / 1.1  # kN/m2

# Worked out apart from this program, fy 250, gamma m0 1.1, plate of 100 mm at the end of a beam:
# bending, shear, web bearing, web buckling in kN m and kN, rounded to 0.1.
APART = {
    "MB 150": (25.1, 94.5, 154.4, 142.2),
    "MB 200": (57.7, 149.6, 200.1, 179.1),
    "MB 250": (105.8, 226.3, 256.8, 235.5),
    "MB 300": (148.1, 295.2, 283.0, 254.1),
    "MB 350": (202.2, 372.0, 313.9, 273.2),
    "MB 400": (267.3, 467.1, 354.0, 308.0),
    "MB 450": (348.5, 555.0, 386.7, 323.5),
    "MB 500": (471.5, 669.2, 430.0, 363.8),
}


@pytest.mark.parametrize("name", APART)
def test_strengths_are_those_worked_out_apart(name):
    section = SECTION[name]
    found = (bending_resistance(section, 0.0, STEEL), shear_resistance(section, STEEL),
             web_bearing(section, 0.1, 1, STEEL), web_buckling(section, 0.1, 1, STEEL))  # fmt: skip
    assert found == pytest.approx(APART[name], abs=0.0501)


def test_a_jack_under_the_middle_of_a_beam_spreads_to_both_sides():
    # bearing (150 + 2 x 2.5 x (12.5 + 13)) x 6.9 x 250 / 1.1; buckling on 150 + 250 mm, at an end on 100 + 125 mm
    assert web_bearing(MB, 0.15, 2, STEEL) == pytest.approx((0.15 + 0.1275) * 0.0069 * STRESS)
    ratio = web_buckling(MB, 0.15, 2, STEEL) / web_buckling(MB, 0.1, 1, STEEL)
    assert ratio == pytest.approx((0.15 + 0.25) / (0.1 + 0.125))


def test_the_critical_moment_is_that_of_warping_and_torsion_by_hand():
    # It = (2 x 125 x 12.5^3 + 225 x 6.9^3) / 3 = 187 398 mm4; Iw = 334.5e4 x 237.5^2 / 4; G = E / 2.6; L = 1.2 x 3 m
    torsion = (2 * 125 * 12.5**3 + 225 * 6.9**3) / 3
    assert torsion_constant(MB, STEEL) == pytest.approx(torsion * 1e-12)
    youngs, length, weak = 2e5, 3600.0, 334.5e4  # N/mm2, mm, mm4
    warping = weak * 237.5**2 / 4
    critical = pi**2 * youngs * weak / length**2 * (youngs / 2.6 * torsion + pi**2 * youngs * warping / length**2)
    expected = sqrt(465.71e3 * 250 / sqrt(critical))  # N mm
    assert lateral_slenderness(MB, 3.0, STEEL) == pytest.approx(expected)
    assert 0.5 < expected < 1.5  # where buckling takes a good part


def test_a_beam_held_all_along_does_not_buckle_sideways_and_a_long_one_does():
    held, near, far = (bending_resistance(MB, length, STEEL) for length in (0.0, 0.3, 6.0))
    assert held == near == pytest.approx(465.71e-6 * STRESS)  # 0.3 m is within the plateau
    assert far < held / 2


def test_the_plastic_moment_is_capped_at_1_2_times_the_elastic_one():
    stocky = replace(MB, zpx=1.3 * MB.zex)
    assert bending_resistance(stocky, 0.0, STEEL) == pytest.approx(1.2 * 410.5e-6 * STRESS)


def test_bending_falls_only_beside_high_shear():
    # 60 % of 100 kN is the limit: 100 there, 100 - (2 x 0.8 - 1)^2 x (100 - 60) = 85.6 at 80 kN
    assert bending_beside_shear(100.0, 60.0, 60.0, 100.0, 0.6) == 100.0
    assert bending_beside_shear(100.0, 60.0, 80.0, 100.0, 0.6) == pytest.approx(85.6)
    # Beyond the shear strength the flanges are left; the shear itself fails.
    assert bending_beside_shear(100.0, 60.0, 300.0, 100.0, 0.6) == pytest.approx(60.0)
    # A beam so slender that it buckles below the strength of its flanges loses nothing more.
    assert bending_beside_shear(50.0, 60.0, 90.0, 100.0, 0.6) == 50.0


def test_a_pair_in_high_shear_keeps_less_bending_by_hand():
    # 1.5 x 260 = 390 kN on 2 x 226.35: beta = (2 x 0.8615 - 1)^2; the web over the whole depth is 0.0069 x 0.25^2 / 4
    shear = 390 / (2 * shear_resistance(MB, STEEL))
    plain = 2 * bending_resistance(MB, 1.0, STEEL)
    flanges = 2 * (465.71e-6 - 0.0069 * 0.25**2 / 4) * STRESS
    check = carrier_check(beam("MB 250", 2), demand(shear=260.0), 1.5, STEEL)
    bending = next(row for row in check.criteria if row.name == "Bending")
    assert 0.6 < shear < 1
    assert bending.capacity == pytest.approx(plain - (2 * shear - 1) ** 2 * (plain - flanges))


def test_the_flanges_keep_the_plastic_modulus_less_the_web_over_the_whole_depth():
    assert flange_modulus(MB) == pytest.approx(465.71e-6 - 0.0069 * 0.25**2 / 4)


def test_deflection_is_limited_by_span_and_by_two_millimetres():
    # 0.8 m / 500 = 1.6 mm; 1.0 m just 2 mm; 1.4 m would be 2.8 mm
    assert [deflection_limit(span, STEEL) for span in (0.8, 1.0, 1.4)] == pytest.approx([0.0016, 0.002, 0.002])


def test_every_criterion_of_a_pair_by_hand():
    check = carrier_check(beam("MB 250", 2), demand(), 1.5, STEEL)
    rows = {row.name: row for row in check.criteria}
    assert len(rows) == len(check.criteria) == 7
    # moment 1.5 x 30 on 2 x strength at ties 1.0 m apart, shear 1.5 x 70 on 2 x 226.3, reaction 1.5 x 110
    bending = 2 * bending_resistance(MB, 1.0, STEEL)
    assert rows["Bending"].utilisation == pytest.approx(45.0 / bending)
    assert rows["Shear"].utilisation == pytest.approx(105.0 / (2 * 226.3), rel=1e-3)
    assert rows["Web bearing on the jack"].utilisation == pytest.approx(165.0 / (2 * (0.2775 * 0.0069 * STRESS)))
    assert rows["Web buckling above the jack"].demand == pytest.approx(165.0)
    # 12 kN m3 / (2e8 x 2 x 5131.6e-8) = 0.585 mm of 2 mm
    assert rows["Deflection between jacks"].demand == pytest.approx(12 / (2e8 * 2 * 5131.6e-8))
    assert rows["Outstand of the flange over its thickness"].demand == pytest.approx(125 / 2 / 12.5)
    assert rows["Depth of the web over its thickness"].demand == pytest.approx(194.1 / 6.9)
    # Stocky plates are used further by their limits, which says nothing about the load.
    most = rows["Deflection between jacks"].utilisation
    assert rows["Outstand of the flange over its thickness"].utilisation > most
    assert (check.holds, check.governed_by) == (1, "Deflection between jacks")
    assert check.utilisation == pytest.approx(most)


def test_a_flange_too_thin_for_its_plastic_moment_fails_and_says_so():
    thin = replace(MB, flange_thickness=0.006)  # 62.5 / 6 = 10.4 over 9.4
    check = carrier_check(replace(beam("MB 250", 2), section=thin), demand(moment=1.0), 1.5, STEEL)
    assert (check.holds, check.governed_by) == (0, "Outstand of the flange over its thickness")
    assert check.utilisation == pytest.approx(62.5 / 6 / 9.4)


def test_deflection_takes_no_load_factor_and_strength_takes_it_once():
    usual, lost = (carrier_check(beam("MB 250"), demand(), factor, STEEL) for factor in (1.5, 1.05))
    for once, other in zip(usual.criteria, lost.criteria, strict=True):
        factored = once.name in ("Bending", "Shear") or once.name.startswith("Web b")
        assert once.demand / other.demand == pytest.approx(1.5 / 1.05 if factored else 1.0)


@pytest.mark.parametrize(
    ("changes", "name"),
    [
        pytest.param({"moment": 80.0}, "Bending", id="bending"),
        pytest.param({"shear": 160.0}, "Shear", id="shear"),
        pytest.param({"reaction": 300.0}, "Web buckling above the jack", id="web"),
        pytest.param({"deflection_load": 25.0}, "Deflection between jacks", id="deflection"),
    ],
)
def test_each_demand_beyond_the_strength_fails_by_its_own_criterion(changes, name):
    check = carrier_check(beam("MB 250"), demand(**changes), 1.5, STEEL)
    assert check.holds == 0
    assert check.governed_by == name
    assert carrier_check(beam("MB 250"), demand(), 1.5, STEEL).holds == 1


@pytest.mark.parametrize(("moment", "holds"), [(0.999, 1), (1.0, 1), (1.001, 0)])
def test_a_moment_just_at_the_strength_holds_and_one_above_it_does_not(moment, holds):
    strength = bending_resistance(MB, 1.0, STEEL)
    check = carrier_check(beam("MB 250"), demand(moment=moment * strength / 1.5), 1.5, STEEL)
    assert next(row for row in check.criteria if row.name == "Bending").holds == holds


def test_a_stronger_steel_narrows_the_limits_of_its_plates():
    strong = replace(STEEL, yield_stress=350e3)
    rows = {row.name: row for row in carrier_check(beam("MB 250"), demand(), 1.5, strong).criteria}
    assert rows["Outstand of the flange over its thickness"].capacity == pytest.approx(9.4 * sqrt(250 / 350))
    assert rows["Depth of the web over its thickness"].capacity == pytest.approx(67 * sqrt(250 / 350))


def test_concrete_between_the_flanges_adds_weight_and_no_strength():
    bare, filled = beam("MB 250", 2, gap=0.05), beam("MB 250", 2, gap=0.05, filled=1)
    # between the webs 225 x (125 - 6.9 + 50) and the gap between two pairs of flanges 2 x 50 x 12.5 mm
    area = 0.225 * 0.1681 + 2 * 0.05 * 0.0125
    assert filling_area(MB, 2, 0.05) == pytest.approx(area)
    assert filled.weight - bare.weight == pytest.approx(area * 24.0)
    # Steel: the mass times standard gravity; the table prints the mass to 0.1 kg/m.
    assert bare.weight == pytest.approx(2 * 37.3 * 9.80665 / 1000, rel=3e-3)
    assert filled.mass == bare.mass == pytest.approx(74.6)
    uses = [carrier_check(it, demand(), 1.5, STEEL).utilisation for it in (bare, filled)]
    assert uses[0] == uses[1]


def test_a_single_beam_is_filled_on_both_sides_of_its_web():
    assert filling_area(MB, 1, 0.05) == filling_area(MB, 1, 0.0) == pytest.approx(0.225 * (0.125 - 0.0069))


def test_a_first_answer_grows_with_the_square_of_the_spacing():
    near, far = (even_load_demand(20.0, spacing, 1.0, 0.15, STEEL) for spacing in (0.6, 1.2))
    assert far.moment / near.moment == pytest.approx(4)
    assert far.reaction / near.reaction == pytest.approx(2)
    assert far.deflection_load / near.deflection_load == pytest.approx(16)
    # The worst reaction is that of an inner jack, to both sides of which the beam goes on.
    assert far.sides == 2


lengths = st.floats(0.0, 12.0)
names = st.sampled_from(sorted(SECTION))


@given(names, lengths, lengths)
def test_bending_strength_never_rises_with_the_distance_of_ties(name, one, other):
    short, long = sorted((one, other))
    section = SECTION[name]
    assert bending_resistance(section, long, STEEL) <= bending_resistance(section, short, STEEL) * (1 + 1e-12)


@given(names, st.floats(0.0, 0.5), st.floats(0.0, 0.5), st.sampled_from((1, 2)))
def test_web_strengths_never_fall_with_a_longer_plate(name, one, other, sides):
    short, long = sorted((one, other))
    for strength in (web_bearing, web_buckling):
        assert strength(SECTION[name], short, sides, STEEL) <= strength(SECTION[name], long, sides, STEEL)


@given(st.floats(0.0, 300.0), st.floats(0.0, 300.0))
def test_bending_strength_never_rises_with_shear(one, other):
    low, high = sorted((one, other))
    assert bending_beside_shear(90.0, 50.0, high, 150.0, 0.6) <= bending_beside_shear(90.0, 50.0, low, 150.0, 0.6)


@given(names, st.floats(0.1, 400.0), st.floats(0.1, 400.0))
def test_use_never_falls_when_a_demand_rises(name, one, other):
    low, high = sorted((one, other))
    for changed in ("moment", "shear", "reaction", "deflection_load"):
        uses = [carrier_check(beam(name), demand(**{changed: value}), 1.5, STEEL).utilisation for value in (low, high)]
        assert uses[0] <= uses[1]
