"""calc.beam_on_jacks: against an independent calculation, another program, and statics."""

import math

import numpy as np
import pytest
from hypothesis import given, settings

from calc.beam_loads import beam_load, from_line_load
from calc.beam_on_jacks import along_beam, beam_on_jacks
from calc.errors import DomainError
from calc.line_loads import LineLoad
from tests.calc.beams import CASES, beams, load_beside_a_jack, loaded, solved, yields
from tests.pynite_beams import pynite_reactions

DIGITS = 1e-9  # of the greatest figure: the independent figures have ten digits
BESIDE = 1e-8  # where their method loses digits


@pytest.mark.parametrize("case", CASES, ids=range(len(CASES)))
def test_reactions_and_moments_are_those_of_an_independent_calculation(case):
    found = solved(case)
    within = BESIDE if load_beside_a_jack(case) else DIGITS
    assert found.reactions == pytest.approx(case["R"], rel=0, abs=within * max(np.abs(case["R"])))
    assert found.moments[1:-1] == pytest.approx(case["Msup"], rel=0, abs=within * max(np.abs(case["Msup"])))


@pytest.mark.parametrize("case", CASES, ids=range(len(CASES)))
def test_reactions_are_those_of_another_program(case):
    # Its own accuracy: springs and imposed settlements cost it some digits, a load beside a jack more.
    compliance = np.broadcast_to(yields(case), (len(case["x"]),))
    theirs = pynite_reactions(case["L"], case["segs"], case["pts"], case["x"], case["EI"], compliance, case["settle"])
    assert solved(case).reactions == pytest.approx(theirs, rel=0, abs=1e-7 * max(np.abs(theirs)))


def test_the_cases_hold_what_they_should():
    assert len(CASES) == 16
    assert {case["k"] is None for case in CASES} == {True, False}
    assert any(any(case["settle"]) for case in CASES)


@given(beams())
@settings(max_examples=80, deadline=None)
def test_every_beam_is_in_equilibrium(beam):
    size = np.abs(beam.reactions).max() * beam.load.length
    assert beam.reactions.sum() == pytest.approx(beam.load.total, abs=1e-9 * size)
    assert beam.reactions @ beam.positions == pytest.approx(beam.load.moment, abs=1e-9 * size)


@given(beams())
@settings(max_examples=80, deadline=None)
def test_sensitivity_is_symmetric_takes_no_rigid_movement_and_gives_no_energy(beam):
    answer = beam.sensitivity
    size = np.abs(answer).max()
    assert np.abs(answer - answer.T).max() <= 1e-9 * size
    assert np.abs(answer.sum(axis=1)).max() <= 1e-9 * size
    assert np.abs(answer @ beam.positions).max() <= 1e-9 * size * beam.load.length
    assert np.linalg.eigvalsh((answer + answer.T) / 2).max() <= 1e-9 * size


@given(beams(least=3))
@settings(max_examples=40, deadline=None)
def test_sensitivity_tells_what_a_moved_base_does(beam):
    moved = np.zeros(len(beam.positions))
    moved[1] = 0.0017
    again = beam_on_jacks(beam.load, beam.positions, beam.stiffness, beam.compliance, beam.settlement + moved)
    size = np.abs(beam.sensitivity).max() * 0.0017 + np.abs(beam.reactions).max()
    assert again.reactions == pytest.approx(beam.reactions + beam.sensitivity @ moved, rel=0, abs=1e-9 * size)


def test_a_middle_support_that_settles_loses_six_ei_over_the_span_cubed():
    load = beam_load(3.0, [(0.0, 3.0, 20.0)])
    level = beam_on_jacks(load, [0.0, 1.5, 3.0], 4600.0)
    sunk = beam_on_jacks(load, [0.0, 1.5, 3.0], 4600.0, settlement=[0.0, 0.0004, 0.0])
    lost = 6 * 4600.0 * 0.0004 / 1.5**3
    assert sunk.reactions - level.reactions == pytest.approx([lost / 2, -lost, lost / 2], rel=1e-12)


def test_a_long_beam_on_many_springs_bears_as_on_an_elastic_bed():
    # A point on an endless beam on a bed of k per metre: pressure under it P beta / 2, beta^4 = k / (4 EI).
    spring, spacing, stiffness = 500.0, 0.02, 2000.0
    beta = (spring / spacing / (4 * stiffness)) ** 0.25
    places = 0.01 + spacing * np.arange(601)
    load = beam_load(12.02, points=[(float(places[300]), 50.0)])
    middle = beam_on_jacks(load, places, stiffness, 1 / spring).reactions[300]
    assert middle / spacing == pytest.approx(50.0 * beta / 2, rel=2e-5)  # springs 20 mm apart are not quite a bed


def test_load_right_beside_a_jack_costs_no_digits():
    # 0.01 mm from the middle jack; as the load on the jack to the fifth digit, and in equilibrium to the last.
    near = beam_on_jacks(beam_load(3.1, points=[(1.30001, 40.0)]), [0.0, 1.3, 3.1], 17600.0)
    assert near.reactions == pytest.approx([0.0, 40.0, 0.0], abs=1e-3)
    assert near.reactions.sum() == pytest.approx(40.0, rel=1e-13)


def test_a_beam_on_two_jacks_is_held_by_statics_alone():
    beam = beam_on_jacks(beam_load(5.0, [(0.0, 5.0, 8.0)], [(4.6, 10.0)]), [0.5, 4.1], 17600.0, 1e-4, [0.001, 0.0])
    right = (40 * (2.5 - 0.5) + 10 * 4.1) / 3.6
    assert beam.reactions == pytest.approx([50 - right, right], rel=1e-12)
    assert not beam.sensitivity.any()
    assert beam.movements == pytest.approx([0.001 + 1e-4 * (50 - right), 1e-4 * right], rel=1e-12)


# ------------------------------------------------------------------------------------------ along the beam


def sampled(beam, places):
    """Moment and shear left of each place, from the forces left of it; the ends of pieces do not matter here."""
    load, moments, shears = beam.load, [], []
    for at in places:
        moment = shear = 0.0
        for force, where in [*zip(beam.reactions, beam.positions, strict=True),
                             *zip(-load.loads, load.places, strict=True)]:  # fmt: skip
            if where < at:
                moment, shear = moment + force * (at - where), shear + force
        for start, end, first, last in zip(load.edges, load.edges[1:], load.first, load.last, strict=False):
            far = min(end, at)
            if far > start:
                there = first + (last - first) * (far - start) / (end - start)
                part = (first + there) / 2 * (far - start)
                centre = start + (far - start) * (first + 2 * there) / (3 * (first + there)) if part else start
                moment, shear = moment - part * (at - centre), shear - part
        moments.append(moment)
        shears.append(shear)
    return np.array(moments), np.array(shears)


@given(beams())
@settings(max_examples=40, deadline=None)
def test_no_sample_along_a_beam_exceeds_the_extremes_found(beam):
    found = along_beam(beam)
    moments, shears = sampled(beam, np.linspace(0.0, beam.load.length, 400))
    size = 1e-9 * (np.abs(moments).max() + np.abs(beam.reactions).max() * beam.load.length)
    assert moments.max() <= found.sagging + size
    assert -moments.min() <= found.hogging + size
    assert np.abs(shears).max() <= found.shear + size


@given(beams())
@settings(max_examples=40, deadline=None)
def test_the_extremes_are_there_where_they_are_said_to_be(beam):
    found = along_beam(beam)
    moments, _ = sampled(beam, [found.sagging_at, found.hogging_at])
    size = 1e-9 * (np.abs(beam.reactions).max() * beam.load.length + 1)
    if found.sagging > size:
        assert moments[0] == pytest.approx(found.sagging, abs=size)
    if found.hogging > size:
        assert -moments[1] == pytest.approx(found.hogging, abs=size)
    beside, shears = found.shear_at + np.array([-1e-7, 1e-7]), None
    _, shears = sampled(beam, beside)
    assert np.abs(shears).max() == pytest.approx(found.shear, abs=1e-4 * (found.shear + 1))


def test_extremes_under_a_straight_load_are_found_between_its_ends():
    # 0 to 12 kN/m over 3 m on two jacks: reactions 6 and 12; shear 6 - 2 x^2 is nil at sqrt 3, moment 6 x - 2 x^3 / 3
    wall = LineLoad()
    wall.ramp(0.0, 3.0, 0.0, 12.0)
    found = along_beam(beam_on_jacks(from_line_load(wall, 3.0), [0.0, 3.0], 1e4))
    assert found.sagging_at == pytest.approx(math.sqrt(3), rel=1e-12)
    assert found.sagging == pytest.approx(6 * 3**0.5 - 2 * 3**1.5 / 3, rel=1e-12)
    assert (found.shear, found.shear_at, found.hogging) == pytest.approx((12.0, 3.0, 0.0), abs=1e-12)


def test_an_overhang_hogs_over_its_jack():
    found = along_beam(beam_on_jacks(beam_load(4.0, [(0.0, 4.0, 9.0)], [(4.0, 2.0)]), [0.7, 3.0], 1e4))
    assert found.hogging == pytest.approx(9 / 2 + 2, rel=1e-12)  # 1 m beyond the right jack, a point on its end
    assert found.hogging_at == 3.0
    assert found.span_sagging == pytest.approx([found.sagging])


def test_deflections_in_mid_span_are_five_wl4_over_384_ei_and_the_points_share():
    even = along_beam(beam_on_jacks(beam_load(2.4, [(0.0, 2.4, 15.0)]), [0.0, 2.4], 9160.0))
    assert even.mid_movements == pytest.approx([5 * 15 * 2.4**4 / (384 * 9160)], rel=1e-12)
    point = along_beam(beam_on_jacks(beam_load(2.4, points=[(1.8, 30.0)]), [0.0, 2.4], 9160.0))
    # 0.6 m from the nearer jack: P a (3 l^2 - 4 a^2) / 48 EI
    assert point.mid_movements == pytest.approx([30 * 0.6 * (3 * 2.4**2 - 4 * 0.6**2) / (48 * 9160)], rel=1e-12)


def test_mid_span_deflection_of_a_continuous_beam_counts_what_its_supports_do():
    # Two equal spans: 1/185 is the greatest, 1/192 in the middle; and the line from jack to jack comes on top.
    load = beam_load(4.0, [(0.0, 4.0, 10.0)])
    level = along_beam(beam_on_jacks(load, [0.0, 2.0, 4.0], 1e4))
    assert level.mid_movements == pytest.approx([10 * 16 / (192 * 1e4)] * 2, rel=1e-12)
    tilted = along_beam(beam_on_jacks(load, [0.0, 2.0, 4.0], 1e4, settlement=[0.0, 0.002, 0.004]))
    assert tilted.mid_movements - level.mid_movements == pytest.approx([0.001, 0.003], rel=1e-9)


# ------------------------------------------------------------------------------------------ limits

GOOD = beam_load(4.0, [(0.0, 4.0, 10.0)])


@pytest.mark.parametrize(("changes", "quantity", "limit"), [
    ({"positions": [2.0]}, "number of jacks", 2),
    ({"positions": [-0.001, 3.0]}, "first jack", 0.0),
    ({"positions": [0.0, 4.001]}, "last jack", 4.0),
    ({"positions": [0.0, 2.0, 2.0]}, "distance of neighbouring jacks", 0.0),
    ({"positions": [0.0, math.nan, 4.0]}, "distance of neighbouring jacks", 0.0),
    ({"stiffness": 0.0}, "bending stiffness", 0.0),
    ({"stiffness": math.inf}, "bending stiffness", math.inf),
    ({"compliance": -1e-9}, "compliance of a support", 0.0),
    ({"compliance": [0.0, math.nan, 0.0]}, "compliance of a support", 0.0),
    ({"compliance": [0.0, 0.0]}, "number of figures for compliance", 3),
    ({"settlement": [0.0] * 4}, "number of figures for settlement", 3),
    ({"settlement": math.inf}, "settlement of a base", math.inf),
])  # fmt: skip
def test_what_is_no_beam_on_jacks_is_refused(changes, quantity, limit):
    entries = {"load": GOOD, "positions": [0.0, 2.0, 4.0], "stiffness": 1e4, **changes}
    with pytest.raises(DomainError) as caught:
        beam_on_jacks(**entries)
    assert (caught.value.quantity, caught.value.limit) == (quantity, limit)


def test_jacks_on_both_ends_and_rigid_supports_are_allowed():
    assert beam_on_jacks(GOOD, [0.0, 4.0], 1e-3, 0.0).reactions == pytest.approx([20.0, 20.0])


def test_the_case_with_points_near_a_jack_is_there():
    assert any(load_beside_a_jack(case) for case in CASES)
    assert loaded(CASES[0]).total == pytest.approx(sum(CASES[0]["R"]))
