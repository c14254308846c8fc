"""calc.beam_choice and beam_splices: the lightest that passes, the store, splices and what is bought."""

from dataclasses import replace
from math import nan, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.beam_choice import NoCarrierFits, Stored, lightest_carrier, splice_place, stored_carrier, worst_check
from calc.beam_splices import beam_order, splice, weld_length, weld_strength
from calc.carrier_beams import carrier_check
from calc.errors import DomainError, NothingFits
from tests.members import SECTION, STEEL, beam, demand

SINGLES = [beam(name) for name in SECTION]
USUAL = [(demand(), 1.5)]


def test_the_lightest_that_passes_is_chosen_and_every_lighter_one_fails():
    chosen = lightest_carrier(reversed(SINGLES), USUAL, STEEL)
    assert chosen.holds == 1
    lighter = [one for one in SINGLES if one.mass < chosen.carrier.mass]
    assert lighter
    assert [carrier_check(one, demand(), 1.5, STEEL).holds for one in lighter] == [0] * len(lighter)


def test_a_light_pair_is_preferred_to_a_heavy_single():
    # 1.5 x 300 kN on one web asks for a deep beam; on two webs MB 150 does.
    stocky = [(demand(moment=20.0, reaction=300.0, deflection_load=4.0), 1.5)]
    single = lightest_carrier(SINGLES, stocky, STEEL)
    pair = lightest_carrier([*SINGLES, beam("MB 150", 2)], stocky, STEEL)
    assert pair.carrier.count == 2
    assert pair.carrier.mass < single.carrier.mass


def test_the_worst_of_several_states_decides():
    lost = (demand(reaction=230.0, moment=70.0), 1.05)
    check = worst_check(beam("MB 250"), [*USUAL, lost], STEEL)
    assert check.factor == 1.05
    assert check.demand is lost[0]


def test_where_nothing_is_strong_enough_the_nearest_and_its_weakness_are_named():
    with pytest.raises(NoCarrierFits) as caught:
        lightest_carrier(SINGLES, [(demand(reaction=900.0), 1.5)], STEEL)
    found = caught.value
    assert found.nearest.carrier.section.name == "MB 600"
    assert (found.worst.name, found.unit) == ("Web buckling above the jack", "kN")
    assert found.needed == pytest.approx(1350.0)
    assert found.best == pytest.approx(found.worst.capacity)
    assert str(found).startswith("no carrier beam listed is enough: the least used, 1 x MB 600, fails by web buckling")
    assert "needed 1350 kN, there is" in str(found)


def test_the_store_gives_what_passes_and_is_long_enough():
    stored = [Stored(carrier=beam("MB 400"), length=30.0), Stored(carrier=beam("MB 250"), length=6.0)]
    assert stored_carrier(stored, 5.9, USUAL, STEEL).carrier.section.name == "MB 250"
    assert stored_carrier(stored, 6.0, USUAL, STEEL).carrier.section.name == "MB 250"
    # Only the heavy one is there in 6.1 m.
    assert stored_carrier(stored, 6.1, USUAL, STEEL).carrier.section.name == "MB 400"


def test_a_store_that_is_too_short_or_too_weak_says_so():
    stored = [Stored(carrier=beam("MB 100"), length=8.0), Stored(carrier=beam("MB 400"), length=5.0)]
    with pytest.raises(NothingFits) as short:
        stored_carrier(stored, 8.1, USUAL, STEEL)
    assert (short.value.needed, short.value.best, short.value.unit) == (8.1, 8.0, "m")
    with pytest.raises(NoCarrierFits):
        stored_carrier(stored, 7.0, USUAL, STEEL)


@pytest.mark.parametrize(
    ("changes", "quantity"),
    [({"moment": nan}, "moment"), ({"shear": -1.0}, "shear"), ({"span": 0.0}, "span"), ({"bearing": nan}, "bearing")],
)
def test_a_demand_that_is_no_demand_is_refused(changes, quantity):
    with pytest.raises(DomainError) as caught:
        lightest_carrier(SINGLES, [(demand(**changes), 1.5)], STEEL)
    assert caught.value.quantity == quantity


def test_an_empty_list_or_no_demand_or_no_factor_is_refused():
    for carriers, demands in (([], USUAL), (SINGLES, []), (SINGLES, [(demand(), 0.0)])):
        with pytest.raises(DomainError):
            lightest_carrier(carriers, demands, STEEL)
    with pytest.raises(DomainError):
        stored_carrier([], 1.0, USUAL, STEEL)


@given(st.floats(1.0, 300.0), st.floats(1.0, 300.0))
def test_a_greater_moment_never_makes_the_choice_lighter(one, other):
    masses = [lightest_carrier(SINGLES, [(demand(moment=moment), 1.5)], STEEL).carrier.mass
              for moment in sorted((one, other))]  # fmt: skip
    assert masses[0] <= masses[1]


# ------------------------------------------------------------------------------------------ splices


def test_a_splice_stands_where_the_moment_is_least_within_its_stretch():
    places, moments = [0.0, 0.3, 0.6, 0.9, 1.2], [0.0, -2.0, 1.0, -1.0, 5.0]
    assert splice_place(places, moments, 0.2, 1.2) == (0.6, 1.0)  # of equals the first; 0.0 lies outside
    assert splice_place(places, moments, 0.0, 1.2) == (0.0, 0.0)
    assert splice_place(places, moments, 1.2, 1.2) == (1.2, 5.0)


def test_a_splice_without_a_place_or_with_lists_that_differ_is_refused():
    with pytest.raises(DomainError) as caught:
        splice_place([0.0, 1.0], [1.0, 2.0], 0.2, 0.8)
    assert caught.value.quantity == "number of places in the stretch"
    for moments in ([1.0], [1.0, 2.0, 3.0]):
        with pytest.raises(DomainError):
            splice_place([0.0, 1.0], moments, 0.0, 1.0)


def test_a_weld_is_as_long_as_its_force_asks_and_two_sizes_more():
    # 0.7 x 6 mm x 410 / (root 3 x 1.5) = 662.8 N/mm; 200 kN -> 301.8 + 2 x 6 = 313.8 mm
    strength = 0.7 * 6 * 410 / (sqrt(3) * 1.5)
    assert weld_strength(0.006, STEEL) == pytest.approx(strength)  # N/mm is kN/m
    assert weld_length(200.0, 0.006, STEEL) == pytest.approx(0.2 / strength * 1000 + 0.012)
    # A small force still gets a run of 4 sizes.
    assert weld_length(1.0, 0.006, STEEL) == pytest.approx(0.024 + 0.012)


def test_a_splice_carries_what_is_there_when_that_is_more_than_half_the_section():
    # moment 80 + 120 x 0.1 = 92 kN m over 0.25 m: 368 kN in each flange
    made = splice(80.0, 120.0, 100.0, 200.0, 0.25, 0.1, 0.006, STEEL)
    assert (made.moment, made.shear, made.flange_force) == pytest.approx((92.0, 120.0, 368.0))
    assert made.flange_plate == pytest.approx(368.0 * 1.1 / 250e3)
    assert made.flange_weld == pytest.approx(weld_length(368.0, 0.006, STEEL))
    assert made.web_weld == pytest.approx(weld_length(120.0, 0.006, STEEL))


def test_a_splice_at_no_moment_is_made_for_half_the_section_all_the_same():
    made = splice(0.0, 0.0, 100.0, 200.0, 0.25, 0.1, 0.006, STEEL)
    # 0.5 x 100 + 0.5 x 200 x 0.1 = 60 kN m
    assert (made.moment, made.shear) == pytest.approx((60.0, 100.0))


@pytest.mark.parametrize(("length", "pieces"), [(11.4, 1), (11.41, 2), (23.4, 2), (23.5, 3)])
def test_beams_are_bought_in_pieces_no_longer_than_they_are_sold(length, pieces):
    # 0.3 m over either end, sold in 12 m
    order = beam_order(2, 37.3, length, 0.3, STEEL)
    assert (order.pieces, order.splices) == (pieces, 2 * (pieces - 1))
    assert order.run == pytest.approx(length + 0.6)
    assert order.length == pytest.approx(2 * (length + 0.6))
    assert order.mass == pytest.approx(2 * (length + 0.6) * 37.3)


def test_welds_made_in_a_shop_are_shorter():
    shop = replace(STEEL, weld_factor=1.25)
    assert weld_length(200.0, 0.006, shop) < weld_length(200.0, 0.006, STEEL)
