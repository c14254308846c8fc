"""Masonry, needles, collars and old plinth beams of a jack plan, each by hand."""

from dataclasses import replace

import pytest

from addin.units import quantity, same_dimension
from calc.jack_plan_rows import MemberPlan
from calc.jack_sections import needle_section
from calc.lift_works import (
    arch_thrust,
    collar_row,
    masonry_limits,
    masonry_row,
    needle_row,
    plinth_beam_row,
    strength_at,
)
from tests.houses import ALLOWANCES, BASIS, RULES

PLAN = MemberPlan(
    name="W1", kind="wall", system="beam through wall", chosen=True, length=5.0, load=150.0, lines=1, jacks=(), least=5,
    lower_bound=5, proven=True, by_load=2, by_places=5, spread=0.0, even=True, widest=1.1, section="MB 200",
    side_by_side=2, states=(), why_not="", helps=(),
)  # fmt: skip
STEEL = RULES.steel
MB_200 = next(section for section in BASIS.sections if section.name == "MB 200")


def limits(age=14.0, **changes):
    return masonry_limits(1.0, age, replace(ALLOWANCES, **changes))


def masonry(age=14.0, **changes):
    allow = replace(ALLOWANCES, new_wall_thickness=0.3, **changes)
    return masonry_row(PLAN, 150.0, 5.0, 0.25, 1.1, limits(age, **changes), allow)


def test_the_arch_over_a_pocket_pushes_by_its_span_squared():
    # w s2 / 8 r: 40 x 0.4 x 0.4 / (8 x 0.24)
    assert arch_thrust(40.0, 0.4, 0.24) == pytest.approx(6.4 / 1.92)


def test_new_masonry_grows_from_half_at_seven_days_to_full_at_twenty_eight():
    ages = {6.9: 0.0, 7.0: 0.5, 14.0: 0.5 + 0.5 * 7 / 21, 28.0: 1.0, 60.0: 1.0}
    for age, share in ages.items():
        assert strength_at(age, ALLOWANCES) == pytest.approx(share)


def test_masonry_is_stressed_by_the_load_with_its_doubt():
    row = masonry()
    # 1.1 x 150 kN over 5 m.
    assert row.line_load == pytest.approx(33.0)
    # Arch over 0.3 m rises 0.18 m: thrust 33 x 0.09 / 1.44, on 0.25 m x 0.18 m.
    assert row.arch_stress == pytest.approx(33.0 * 0.09 / 1.44 / 0.045)
    assert row.on_beam == pytest.approx(33.0 / 0.25)
    assert row.new_stress == pytest.approx(33.0 / 0.3)
    assert limits().new == pytest.approx(440.0 * (0.5 + 0.5 / 3))
    # 0.75 mm a metre of new masonry and 1 mm of joint, against 1/500 of the spacing.
    assert limits().closing == pytest.approx(0.00175)
    assert row.closing_most == pytest.approx(0.0022)
    assert row.verdict == "within the limits set"


def test_masonry_that_is_too_young_or_too_weak_stops():
    assert masonry(age=6.0).verdict == "STOP"
    # 33 / 0.25 = 132 kN/m2 on the beam, 1.5 x 80 allowed.
    assert masonry(masonry_permissible=80.0).verdict == "STOP"
    assert masonry(masonry_permissible=90.0).verdict == "within the limits set"


def test_a_needle_spans_between_the_beams_and_bears_the_wall_on_its_middle():
    row = needle_row(PLAN, 150.0, 5.0, 0.25, MB_200, limits(), ALLOWANCES, STEEL)
    # 1.1 x 30 kN/m x 0.6 m; between the beams 0.25 + 2 x 0.3; P (2 L - t) / 8.
    assert row.load == pytest.approx(19.8)
    assert row.span == pytest.approx(0.85)
    assert row.moment == pytest.approx(19.8 * (1.7 - 0.25) / 8)
    assert row.shear == pytest.approx(9.9)
    # Plastic moment over 1.1 and the load factor of 1.5: 253.86 cm3 of 250 N/mm2.
    assert row.bending == pytest.approx(253.86e-6 * 250e3 / 1.1 / 1.5)
    assert row.bearing == pytest.approx(19.8 / (0.4 * 0.25))


def test_the_needle_is_the_lightest_section_that_holds():
    light = needle_section(150.0, 5.0, 0.25, BASIS.sections, ALLOWANCES, STEEL)
    heavy = needle_section(1500.0, 5.0, 0.25, BASIS.sections, ALLOWANCES, STEEL)
    # 3.59 kN m x 1.5 = 5.4; MB 100 has 58.65 cm3 x 250 / 1.1 = 13.3 kN m.
    assert light == "MB 100"
    assert heavy != "MB 100"


def test_a_collar_holds_by_shear_round_its_column():
    row = collar_row(replace(PLAN, name="C1"), 180.0, 0.3, 0.25, ALLOWANCES)
    # 1.1 x 180 over a girth of 1.1 m and 0.45 m of height.
    assert row.stress == pytest.approx(198.0 / (1.1 * 0.45))
    assert row.verdict == "STOP"
    taller = collar_row(replace(PLAN, name="C1"), 180.0, 0.3, 0.25, replace(ALLOWANCES, collar_height=0.65))
    assert taller.verdict == "within the limits set"


def test_an_old_plinth_beam_of_unknown_steel_stops_until_an_engineer_allows_a_stress():
    row = plinth_beam_row("W1", 6.0, 0.23, 0.35, ALLOWANCES)
    assert row.stress == pytest.approx(6.0 / (0.23 * 0.35**2 / 6))
    assert (row.use, row.verdict) == (2, "STOP")
    allowed = plinth_beam_row("W1", 6.0, 0.23, 0.35, replace(ALLOWANCES, plinth_beam_tension=1500.0))
    assert allowed.verdict == "within the limits set"


def test_an_old_plinth_beam_keeps_its_dimensions():
    allow = replace(ALLOWANCES, plinth_beam_tension=quantity(1500.0, "kN/m2"))
    row = plinth_beam_row("W1", quantity(6.0, "kN m"), quantity(0.23, "m"), quantity(0.35, "m"), allow)
    assert same_dimension(row.stress, "kN/m2")
    assert same_dimension(row.modulus, "m3")
