"""calc.jack_bases, base_places and base_strips: sizes by hand, both sides of each limit."""

from dataclasses import replace
from math import nan, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.base_places import clear_of_dig, clear_of_void, fits_trench, old_footing_pressure
from calc.base_strips import bulbs_overlap, edge_pressure, laid_bases, runs
from calc.bases import pad_side
from calc.errors import DomainError
from calc.jack_bases import (
    bar_area,
    base_moment,
    moment_depth,
    plain_base,
    punching_depth,
    punching_stress,
    reinforced_base,
    shear_depth,
    spread_thickness,
)
from tests.houses import ALLOWANCES
from tests.members import BASES

PLATE = 0.2


def plain(reaction=32.0, allowable=100.0, plate=PLATE, uneven=1.25):
    return plain_base(reaction, uneven, allowable, plate, 1.5, BASES, ALLOWANCES)


def reinforced(reaction=32.0, allowable=100.0, plate=PLATE, uneven=1.25):
    return reinforced_base(reaction, uneven, allowable, plate, 1.5, BASES, ALLOWANCES)


def test_a_base_takes_the_uneven_share_and_the_next_step_up():
    # 32 x 1.25 = 40 kN / 100 -> 0.632 -> 0.65 m; 40 / 0.4225 = 94.7 kN/m2
    base = plain()
    assert (base.load, base.side, base.pressure) == pytest.approx((40.0, 0.65, 40 / 0.65**2))
    assert base.holds == 1
    assert plain(uneven=1.0, reaction=40.0).side == base.side


def test_plain_concrete_is_as_thick_as_the_load_spreads_by_hand():
    # 0.9 root (100 x 0.0947 / 20 + 1) = 1.0925 to 1; projection 0.225 m -> 0.2458 -> 0.25 m
    pressure = 40 / 0.65**2
    slope = 0.9 * sqrt(100 * pressure / 20e3 + 1)
    assert spread_thickness(0.65, PLATE, pressure, BASES) == pytest.approx(0.225 * slope)
    base = plain()
    assert base.thickness == pytest.approx(0.25)
    assert (base.bars, len(base.criteria)) == (0, 4)
    # Of its thickness the 50 mm next to the ground do not count against punching.
    punching = next(row for row in base.criteria if row.name == "Punching of the base")
    assert punching.demand == pytest.approx(punching_depth(0.65, PLATE, 1.5 * pressure, BASES) + 0.05)
    assert punching.capacity == base.thickness


def test_a_base_no_wider_than_its_plate_needs_no_more_than_the_least_thickness():
    base = plain(reaction=3.0)
    assert base.side == pytest.approx(0.2)
    assert base.thickness == pytest.approx(ALLOWANCES.base_thickness_least)


def test_a_depth_that_just_does_not_punch_is_in_equilibrium_at_its_perimeter():
    side, plate, pressure = 1.1, 0.2, 240.0
    depth = punching_depth(side, plate, pressure, BASES)
    outside = pressure * (side**2 - (plate + depth) ** 2)
    assert outside == pytest.approx(4 * (plate + depth) * depth * punching_stress(BASES))
    assert punching_depth(0.15, 0.2, pressure, BASES) == pytest.approx(0.0)  # all of it under the plate


def test_one_way_shear_is_in_equilibrium_at_its_depth_off_the_plate():
    depth = shear_depth(1.1, 0.2, 240.0, BASES)
    assert 240.0 * (0.45 - depth) == pytest.approx(280.0 * depth)


def test_bars_balance_the_moment_they_are_made_for():
    moment = base_moment(1.1, 0.2, 240.0)
    assert moment == pytest.approx(240.0 * 1.1 * 0.45**2 / 2)
    depth = 0.19
    bars = bar_area(moment, 1.1, depth, 0.25, BASES)
    lever = depth * (1 - bars * 415e3 / (1.1 * depth * 20e3))
    assert 0.87 * 415e3 * bars * lever == pytest.approx(moment)


def test_a_small_moment_gets_the_least_bars():
    assert bar_area(0.1, 0.8, 0.2, 0.26, BASES) == pytest.approx(0.0012 * 0.8 * 0.26)


def test_a_reinforced_base_is_thinner_than_a_plain_one_and_passes_what_it_is_made_for():
    thick, thin = plain(reaction=100.0), reinforced(reaction=100.0)
    assert thin.side == thick.side
    assert thin.thickness < thick.thickness
    assert (thin.holds, thick.holds) == (1, 1)
    assert thin.bars > 0
    depth = thin.thickness - 0.06
    moment = base_moment(thin.side, PLATE, 1.5 * thin.pressure)
    assert moment_depth(moment, thin.side, BASES) <= depth
    assert [row.capacity for row in thin.criteria[2:]] == pytest.approx([depth] * 3)
    assert thin.bars == pytest.approx(bar_area(moment, thin.side, depth, thin.thickness, BASES))
    assert {row.name for row in thin.criteria} > {"Punching of the base", "Bending of the base"}


def test_a_small_plate_under_a_big_load_fails_by_bearing_alone():
    # 1.5 x 250 = 375 kN on 0.1 x 0.1 m: 0.45 x 20e3 x 2 x 0.01 = 180 kN
    base = plain(reaction=200.0, plate=0.1)
    failing = [row.name for row in base.criteria if row.holds == 0]
    assert failing == ["Concrete under the plate"]
    assert base.utilisation == pytest.approx(375 / 180)


def test_a_base_without_load_is_one_step_wide_and_holds():
    base = plain(reaction=0.0)
    assert (base.side, base.pressure, base.holds) == (ALLOWANCES.base_step, 0, 1)
    assert reinforced(reaction=0.0).holds == 1


@pytest.mark.parametrize("wrong", [{"allowable": 0.0}, {"allowable": nan}, {"plate": 0.0}, {"reaction": -1.0}])
@pytest.mark.parametrize("made", [plain, reinforced])
def test_a_base_on_nothing_or_of_nothing_is_refused(made, wrong):
    with pytest.raises(DomainError):
        made(**wrong)


@given(st.floats(1.0, 200.0), st.floats(1.0, 200.0), st.floats(40.0, 400.0))
def test_a_heavier_load_never_gets_a_smaller_base(one, other, allowable):
    for made in (plain, reinforced):
        light, heavy = (made(reaction=reaction, allowable=allowable) for reaction in sorted((one, other)))
        assert light.side <= heavy.side
        assert light.pressure <= allowable * (1 + 1e-9)
        assert light.criteria[0].holds == heavy.criteria[0].holds == 1


@given(st.floats(5.0, 200.0), st.floats(40.0, 400.0))
def test_stronger_concrete_never_makes_a_base_thicker(reaction, allowable):
    strong = replace(BASES, concrete_grade=30e3)
    for made in (plain_base, reinforced_base):
        weak_base, strong_base = (made(reaction, 1.25, allowable, PLATE, 1.5, rules, ALLOWANCES)
                                  for rules in (BASES, strong))  # fmt: skip
        assert strong_base.thickness <= weak_base.thickness


# ------------------------------------------------------------------------------------------ old footings, digs, voids


def test_a_base_on_an_old_footing_spreads_through_it_by_hand():
    # 0.4 + 2 x 0.577 x 0.2 = 0.6308 m each way, footing 0.6 m wide: 40 / (0.6308 x 0.6) + 9 / 0.6
    found = old_footing_pressure(40.0, 0.4, 1.2, 0.6, 0.2, 9.0, BASES)
    assert found == pytest.approx(40 / (0.6308 * 0.6) + 15.0)
    # Jacks closer than the spread share the footing: 0.5 m each.
    assert old_footing_pressure(40.0, 0.4, 0.5, 0.6, 0.2, 9.0, BASES) == pytest.approx(40 / (0.5 * 0.6) + 15.0)
    # A wide footing is used only as far as the load spreads.
    assert old_footing_pressure(40.0, 0.4, 1.2, 1.5, 0.2, 9.0, BASES) == pytest.approx(40 / 0.6308**2 + 6.0)


@given(st.floats(0.05, 1.0), st.floats(0.05, 1.0))
def test_a_thinner_old_footing_never_presses_less(one, other):
    thin, thick = (
        old_footing_pressure(40.0, 0.4, 1.2, 0.9, thickness, 9.0, BASES) for thickness in sorted((one, other))
    )
    assert thick <= thin


@pytest.mark.parametrize(("distance", "holds"), [(0.49, 0), (0.5, 1), (0.51, 1)])
def test_a_base_stays_outside_45_degrees_from_a_later_dig(distance, holds):
    # underside 0.8 m down, dig 1.3 m: half a metre below it
    assert clear_of_dig(0.8, distance, 1.3).holds == holds


def test_a_dig_no_deeper_than_the_base_may_come_up_to_it():
    assert clear_of_dig(0.8, 0.0, 0.8).holds == 1
    assert clear_of_dig(0.8, 0.0, 0.9).holds == 0


@pytest.mark.parametrize(("distance", "holds"), [(2.99, 0), (3.0, 1)])
def test_a_well_is_one_and_a_half_times_its_depth_away(distance, holds):
    assert clear_of_void(distance, 2.0, BASES).holds == holds


@pytest.mark.parametrize(("pack", "holds"), [(0.3, 1), (0.35, 0)])
def test_base_and_partner_pack_share_the_width_dug(pack, holds):
    assert fits_trench(0.6, pack, 0.9).holds == holds


# ------------------------------------------------------------------------------------------ strips


def test_bases_that_leave_less_than_the_gap_become_one():
    # gaps 0.4, 0.1, -0.05 m; with 0.1 m asked for, just 0.1 is clear
    sides, spacings = [0.6, 0.6, 0.6, 0.9], [1.0, 0.7, 0.7]
    assert runs(sides, spacings, 0.1) == ((0, 0), (1, 1), (2, 3))
    assert runs(sides, spacings, 0.11) == ((0, 0), (1, 3))
    assert runs(sides, spacings, 0.0) == ((0, 0), (1, 1), (2, 3))
    assert runs([0.6], [], 0.1) == ((0, 0),)


def test_a_big_base_reaches_over_a_small_neighbour_either_way():
    # the last, 2.4 m wide, overlaps the second and comes within 0.05 m of the first
    assert runs([0.5, 0.1, 2.4], [0.5, 1.0], 0.1) == ((0, 2),)
    assert runs([2.4, 0.1, 0.5], [1.0, 0.5], 0.1) == ((0, 2),)


def test_a_strip_is_as_long_as_its_bases_and_as_wide_as_its_edge_asks():
    alone, strip = laid_bases([0.6, 0.6, 0.8], [1.2, 0.5], [30.0, 30.0, 50.0], 100.0, 0.1, 0.05)
    assert (alone.first, alone.last, alone.length, alone.width) == (0, 0, pytest.approx(0.6), 0.6)
    assert alone.pressure == pytest.approx(30 / 0.36)
    # from 0.9 to 2.1: 1.2 m, 80 kN at (30 x 1.2 + 50 x 1.7) / 80 = 1.5125, middle 1.5, 12.5 mm off:
    # 80 / 1.2 x (1 + 6 x 0.0125 / 1.2) / 100 = 0.7083 -> 0.75 m
    assert (strip.first, strip.last, strip.load) == (1, 2, 80.0)
    assert (strip.length, strip.offset, strip.width) == pytest.approx((1.2, 0.0125, 0.75))
    assert strip.pressure == pytest.approx(80 / 1.2 / 0.75 * 1.0625)


def test_edge_pressure_is_twice_the_mean_where_one_edge_is_about_to_lift():
    assert edge_pressure(60.0, 1.2, 0.5, 0.2) == pytest.approx(2 * 100.0)
    assert edge_pressure(60.0, 1.2, 0.5, 0.18) == pytest.approx(1.9 * 100.0)  # 1 + 6 x 0.15, all of it pressed
    # beyond: 2 x 60 / (3 x 0.5 x (0.6 - 0.4)) = 400
    assert edge_pressure(60.0, 1.2, 0.5, -0.4) == pytest.approx(400.0)
    with pytest.raises(DomainError):
        edge_pressure(60.0, 1.2, 0.5, 0.6)


def test_a_strip_without_load_is_one_step_wide():
    (strip,) = laid_bases([0.6, 0.6], [0.5], [0.0, 0.0], 100.0, 0.1, 0.05)
    assert (strip.width, strip.pressure, strip.offset) == (0.05, 0.0, 0.0)
    # However small, a load has its place: (0.1 x 0 + 0.3 x 0.5) / 0.4 = 0.375, middle 0.25
    (light,) = laid_bases([0.6, 0.6], [0.5], [0.1, 0.3], 100.0, 0.1, 0.05)
    assert light.offset == pytest.approx(0.125)


@pytest.mark.parametrize(
    ("sides", "spacings", "loads", "allowable"),
    [
        pytest.param([], [], [], 100.0, id="no base"),
        pytest.param([0.6, 0.6], [], [1.0, 1.0], 100.0, id="no spacing"),
        pytest.param([0.6], [1.0], [1.0], 100.0, id="a spacing too many"),
        pytest.param([0.6, nan], [1.0], [1.0, 1.0], 100.0, id="a side that is no number"),
        pytest.param([0.6, 0.6], [0.0], [1.0, 1.0], 100.0, id="two jacks in one place"),
        pytest.param([0.6, 0.6], [1.0], [1.0], 100.0, id="a load missing"),
        pytest.param([0.6, 0.6], [1.0], [1.0, -1.0], 100.0, id="a load upward"),
        pytest.param([0.6, 0.6], [1.0], [1.0, 1.0], 0.0, id="no bearing"),
    ],
)
def test_bases_that_make_no_sense_are_refused(sides, spacings, loads, allowable):
    with pytest.raises(DomainError):
        laid_bases(sides, spacings, loads, allowable, 0.1, 0.05)


@given(st.lists(st.tuples(st.floats(0.4, 2.0), st.floats(5.0, 80.0)), min_size=1, max_size=12), st.floats(50.0, 300.0))
def test_every_jack_stands_on_one_base_and_no_base_presses_too_hard_or_touches_another(jacks, allowable):
    loads = [load for _, load in jacks]
    spacings = [spacing for spacing, _ in jacks[1:]]
    sides = [pad_side(load, allowable, 0.05) for load in loads]
    laid = laid_bases(sides, spacings, loads, allowable, 0.1, 0.05)
    assert [jack for base in laid for jack in range(base.first, base.last + 1)] == list(range(len(loads)))
    assert sum(base.load for base in laid) == pytest.approx(sum(loads))
    assert all(base.pressure <= allowable * (1 + 1e-9) for base in laid)
    places = [sum(spacings[:order]) for order in range(len(loads))]
    middles = [sum(places[j] * loads[j] for j in range(b.first, b.last + 1)) / b.load - b.offset for b in laid]
    for left, right, a, b in zip(laid, laid[1:], middles, middles[1:], strict=False):
        assert b - a - (left.length + right.length) / 2 >= 0.1 - 1e-6


def test_ground_is_pressed_by_both_when_centres_are_closer_than_twice_the_side():
    assert bulbs_overlap(0.6, 1.19)
    assert not bulbs_overlap(0.6, 1.2)
