"""calc.circuits and circuit_balance: every grouping tried at small n, balance, margins by hand, circuits lost."""

import itertools
import math
import random
import re
import statistics
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.circuit_balance import centre_of, edge_distances, hull, least_width, nearest_balanced
from calc.circuit_search import EVEN_ENOUGH, PlacedJack
from calc.circuits import SteeringRules, circuits
from calc.errors import DomainError, NothingFits

RULES = SteeringRules(least_share=0.2, edge_distance=0.25)
LOOSE = SteeringRules(least_share=0.05, edge_distance=0.02)


def jack(name, x, y, load=40.0, piston=0.004):
    return PlacedJack(name=name, x=x, y=y, load=load, piston=piston)


def round_house(count, spread, seed, width=9.0, depth=7.0):
    """Jacks evenly set round a house, their loads apart by up to `spread`."""
    chance, around, found = random.Random(seed), 2 * (width + depth), []
    for k in range(count):
        along = (k + 0.3) * around / count
        if along < width:
            x, y = along, 0.0
        elif along < width + depth:
            x, y = width, along - width
        elif along < 2 * width + depth:
            x, y = 2 * width + depth - along, depth
        else:
            x, y = 0.0, around - along
        found.append(jack(f"J{k}", x, y, 40.0 * (1 + spread * chance.uniform(-1, 1))))
    return found


# ------------------------------------------------------------------------------------------ every grouping tried


def solved(places, load, centre):
    """Forces at three places by Cramer's rule: an oracle that shares nothing with calc."""

    def det(m):
        (a, b, c), (d, e, f), (g, h, i) = m
        return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)

    rows = [[1.0] * 3, [x for x, _ in places], [y for _, y in places]]
    right = [load, load * centre[0], load * centre[1]]
    whole = det(rows)
    return [det([[r if k == col else v for k, v in enumerate(row)] for row, r in zip(rows, right, strict=True)]) / whole
            for col in range(3)]  # fmt: skip


def every_grouping(jacks, rules):
    """Cost and least share of every way to cut the ring in three that keeps the rules."""
    load = sum(j.load for j in jacks)
    cx, cy = sum(j.x * j.load for j in jacks) / load, sum(j.y * j.load for j in jacks) / load
    ring = sorted(jacks, key=lambda j: math.atan2(j.y - cy, j.x - cx))
    asked = rules.edge_distance * least_width(hull([(j.x, j.y) for j in jacks])) / 2
    for a, b, c in itertools.combinations(range(len(ring)), 3):
        groups = [ring[a:b], ring[b:c], ring[c:] + ring[:a]]
        places = [(statistics.fmean(j.x for j in g), statistics.fmean(j.y for j in g)) for g in groups]
        if abs((places[1][0] - places[0][0]) * (places[2][1] - places[0][1])
               - (places[2][0] - places[0][0]) * (places[1][1] - places[0][1])) < 1e-9:  # fmt: skip
            continue
        share = min(solved(places, load, (cx, cy))) / load
        gap = min(distance_to_line(p, q, (cx, cy)) for p, q in itertools.combinations(places, 2))
        if share >= rules.least_share and gap >= asked:
            yield sum(len(g) * statistics.pvariance([j.load for j in g]) for g in groups), share


def distance_to_line(p, q, place):
    return abs((q[0] - p[0]) * (place[1] - p[1]) - (q[1] - p[1]) * (place[0] - p[0])) / math.dist(p, q)


@settings(max_examples=150, deadline=None, derandomize=True)
@given(st.integers(6, 13), st.sampled_from((0.0, 0.1, 0.3, 0.6)), st.integers(0, 10**6))
def test_no_grouping_of_neighbours_is_more_even(count, spread, seed):
    jacks = round_house(count, spread, seed)
    tried = list(every_grouping(jacks, LOOSE))
    if not tried:
        with pytest.raises(NothingFits):
            circuits(jacks, 3, LOOSE)
        return
    found = circuits(jacks, 3, LOOSE)
    least = min(cost for cost, _ in tried)
    assert found.spread**2 * count == pytest.approx(least, rel=1e-6, abs=1e-5)
    best_share = max(share for cost, share in tried if cost <= least + 1e-6)
    assert found.least_share >= min(best_share, EVEN_ENOUGH / 3) - 1e-9


def test_four_circuits_are_the_most_even_too():
    jacks = round_house(11, 0.4, 7)
    found = circuits(jacks, 4, LOOSE)
    cx, cy = found.x, found.y
    ring = sorted(jacks, key=lambda j: math.atan2(j.y - cy, j.x - cx))
    costs = []
    for cut in itertools.combinations(range(11), 4):
        groups = [ring[a:b] for a, b in itertools.pairwise(cut)] + [ring[cut[-1] :] + ring[: cut[0]]]
        costs.append(sum(len(g) * statistics.pvariance([j.load for j in g]) for g in groups))
    # Only groupings that keep the rules count, so the best of all is a lower bound; here it keeps them.
    assert found.spread**2 * 11 == pytest.approx(min(costs))


def test_jacks_alike_are_cut_into_equal_thirds():
    found = circuits(round_house(24, 0.0, 0), 3, RULES)
    assert [len(circuit.jacks) for circuit in found.circuits] == [8, 8, 8]
    assert found.spread == pytest.approx(0.0, abs=1e-5)


def test_every_jack_is_in_one_circuit():
    jacks = round_house(40, 0.3, 3)
    for count in (3, 4, 5):
        names = [name for circuit in circuits(jacks, count, LOOSE).circuits for name in circuit.jacks]
        assert sorted(names) == sorted(j.name for j in jacks)


# ------------------------------------------------------------------------------------------ forces and pressures


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.integers(3, 6), st.integers(8, 16), st.integers(0, 10**6))
def test_forces_hold_the_load_and_both_its_moments(count, jacks, seed):
    try:
        found = circuits(round_house(jacks, 0.3, seed), count, LOOSE)
    except NothingFits:
        return
    assert found.residual <= 1e-9 * found.load
    assert found.residual_moment <= 1e-9 * found.load
    for axis in ("x", "y"):
        moment = sum(c.force * getattr(c, axis) for c in found.circuits)
        assert moment == pytest.approx(found.load * getattr(found, axis), rel=1e-9)


def six():
    """Two jacks at each of three corners, all loads by hand: 40 kN at A, 40 at B, 70 at C."""
    places = (("A1", 0.0, 0.0, 20.0), ("A2", 0.2, 0.0, 20.0), ("B1", 5.8, 0.0, 20.0), ("B2", 6.0, 0.0, 20.0),
              ("C1", 2.9, 5.0, 35.0), ("C2", 3.1, 5.0, 35.0))  # fmt: skip
    return [jack(*place) for place in places]


def test_force_pressure_and_margin_of_three_pairs_by_hand():
    found = circuits(six(), 3, SteeringRules(least_share=0.25, edge_distance=0.25))
    # 150 kN at y = 350 / 150 = 2.333 m; middles A (0.1, 0), B (5.9, 0), C (3, 5).
    assert (found.load, found.x, found.y) == pytest.approx((150.0, 3.0, 350 / 150))
    by_first = {circuit.jacks[0][0]: circuit for circuit in found.circuits}
    assert by_first["C"].force == pytest.approx(70.0)
    assert (by_first["A"].force, by_first["B"].force) == pytest.approx((40.0, 40.0))
    assert by_first["C"].pressure == pytest.approx(70.0 / 0.008)  # 8750 kPa, 87.5 bar
    assert by_first["C"].share == pytest.approx(70 / 150)
    assert max(circuit.deviation for circuit in found.circuits) == pytest.approx(0.0, abs=1e-12)
    # Edge A-C runs 2.9 east and 5 north. Twice the triangle of A, C and the centre is 2.9 x 5 - 2.9 x 2.333 = 7.733 m2.
    assert found.margin == pytest.approx((2.9 * 5 - 2.9 * 350 / 150) / math.hypot(2.9, 5.0))


def test_a_bigger_piston_takes_more_of_its_circuit():
    places = (("A1", 0.0, 0.0, 24.0, 0.006), ("A2", 0.2, 0.0, 20.0, 0.004), ("B1", 5.8, 0.0, 30.0, 0.004),
              ("B2", 6.0, 0.0, 30.0, 0.004), ("C1", 2.9, 5.0, 35.0, 0.004), ("C2", 3.1, 5.0, 35.0, 0.004))  # fmt: skip
    found = circuits([jack(*place) for place in places], 3, LOOSE)
    side = next(circuit for circuit in found.circuits if "A1" in circuit.jacks)
    assert side.jacks == ("A1", "A2")
    # Middle of the pistons: (0 x 6 + 0.2 x 4) / 10.
    assert side.x == pytest.approx(0.08)
    # A1 carries 6/10 of it, A2 4/10; the even share of A1 is 26.4, of A2 17.6, each 2.4 off.
    assert side.deviation == pytest.approx(max(abs(0.6 * side.force / 24 - 1), abs(0.4 * side.force / 20 - 1)))
    assert found.spread == pytest.approx(math.sqrt((2.4**2 + 2.4**2) / 6))
    lost = next(lost for lost in found.lost if lost.name == side.name)
    assert lost.on_one_jack == pytest.approx(0.6 * side.force)


def test_forces_of_more_than_three_places_are_the_nearest_that_balance():
    places, wished, weights = [(0.0, 0.0), (6.0, 0.5), (5.5, 4.0), (0.5, 5.0)], [10.0, 30.0, 20.0, 25.0], [2, 1, 3, 1]
    load, centre = 90.0, (3.1, 2.2)
    found = nearest_balanced(places, wished, weights, load, centre)

    def far(forces):
        return sum((f - w) ** 2 / a for f, w, a in zip(forces, wished, weights, strict=True))

    assert sum(found) == pytest.approx(load)
    # The one way forces can change and still balance: the null space, by minors of the 3 x 4 matrix.
    rows = [[1.0] * 4, [x for x, _ in places], [y for _, y in places]]
    way = []
    for leave in range(4):
        (a, b, c), (d, e, f), (g, h, i) = [[v for k, v in enumerate(row) if k != leave] for row in rows]
        way.append((-1) ** leave * (a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)))
    for step in (1e-3, -1e-3):
        moved = [force + step * w for force, w in zip(found, way, strict=True)]
        assert far(moved) > far(found)


# ------------------------------------------------------------------------------------------ one circuit lost


def test_without_one_of_three_the_house_comes_down_on_its_packing():
    found = circuits(six(), 3, RULES)
    for lost, circuit in zip(found.lost, found.circuits, strict=True):
        assert (lost.name, lost.stands) == (circuit.name, False)
        assert lost.margin <= 0
        assert lost.to_packing == pytest.approx(circuit.force)
        assert lost.on_one_jack == pytest.approx(circuit.force / 2)
        assert lost.greatest_rise == 1


def pentagon():
    return [jack(f"{c}{k}", 5 * math.cos(2 * math.pi * c / 5 + 0.01 * k), 5 * math.sin(2 * math.pi * c / 5 + 0.01 * k))
             for c in range(5) for k in range(3)]  # fmt: skip


def test_others_that_hold_the_house_with_less_margin_than_asked_do_not_count_as_standing():
    # A pentagon of 5 m radius; without one corner the centre is 5 cos 72 = 1.545 m inside, half the width is 4.52 m.
    found = circuits(pentagon(), 5, SteeringRules(least_share=0.1, edge_distance=0.4))
    assert all(lost.margin == pytest.approx(5 * math.cos(math.radians(72)), abs=0.02) for lost in found.lost)
    assert all(not lost.stands and lost.to_packing > 0 for lost in found.lost)


def test_of_five_circuits_one_may_go_and_the_others_take_more():
    jacks = pentagon()
    found = circuits(jacks, 5, SteeringRules(least_share=0.1, edge_distance=0.1))
    assert [circuit.share for circuit in found.circuits] == pytest.approx([0.2] * 5)
    for lost in found.lost:
        assert lost.stands
        assert lost.to_packing == 0
        # The four that are left carry a quarter each in the mean; the two beside the gap more.
        assert lost.greatest_force > found.load / 4
        assert lost.greatest_rise == pytest.approx(lost.greatest_force / (found.load / 5))


def test_of_four_circuits_a_corner_lost_leaves_the_centre_on_an_edge():
    corners = [(0.0, 0.0), (8.0, 0.0), (8.0, 6.0), (0.0, 6.0)]
    jacks = [jack(f"{c}{k}", x + 0.1 * k, y) for c, (x, y) in enumerate(corners) for k in (-1, 1)]
    found = circuits(jacks, 4, RULES)
    assert all(not lost.stands for lost in found.lost)
    assert all(lost.margin == pytest.approx(0.0, abs=1e-9) for lost in found.lost)
    assert sum(lost.to_packing for lost in found.lost) == pytest.approx(found.load)


# ------------------------------------------------------------------------------------------ refusals


def test_two_circuits_cannot_hold_a_house_level():
    with pytest.raises(DomainError, match="number of circuits is 2 No; it must be at least 3 No"):
        circuits(six(), 2, RULES)


def test_fewer_jacks_than_circuits_are_refused():
    with pytest.raises(DomainError, match="number of jacks is 3 No; it must be at least 4 No"):
        circuits(six()[:3], 4, RULES)


@pytest.mark.parametrize("slope", [0.0, 0.7])
def test_jacks_in_one_line_are_refused(slope):
    row = [jack(f"J{k}", k * 1.1, slope * k * 1.1, 30.0 + k) for k in range(7)]
    with pytest.raises(DomainError, match="width of the jacks on plan"):
        circuits(row, 3, RULES)


@pytest.mark.parametrize(("change", "words"), [
    ({"load": 0.0}, "load of A1 is 0 kN; it must be more than 0"), ({"load": math.nan}, "load of A1 is nan"),
    ({"piston": 0.0}, "piston of A1 is 0 m2; it must be more than 0"),
])  # fmt: skip
def test_a_jack_without_load_or_piston_is_refused(change, words):
    first, *rest = six()
    with pytest.raises(DomainError, match=re.escape(words)):
        circuits([replace(first, **change), *rest], 3, RULES)


def test_where_no_grouping_keeps_the_share_it_says_the_best_there_is():
    with pytest.raises(NothingFits, match="grouping into 3 circuits") as caught:
        circuits(six(), 3, SteeringRules(least_share=0.3, edge_distance=0.25))
    assert caught.value.best == pytest.approx(40 / 150)
    with pytest.raises(NothingFits):
        circuits(six(), 3, SteeringRules(least_share=0.1, edge_distance=0.9))


# ------------------------------------------------------------------------------------------ plane geometry


def test_hull_width_and_distances():
    corners = hull([(0.0, 0.0), (3.0, 0.0), (6.0, 0.0), (6.0, 4.0), (0.0, 4.0), (2.0, 2.0), (0.0, 2.0)])
    assert corners == [(0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (0.0, 4.0)]
    assert least_width(corners) == 4.0
    assert edge_distances(corners, (1.0, 1.5)) == [1.5, 5.0, 2.5, 1.0]
    assert min(edge_distances(corners, (7.0, 1.0))) == -1.0
    # Turned by a half right angle the width stays.
    turned = [((x - y) / math.sqrt(2), (x + y) / math.sqrt(2)) for x, y in corners]
    assert least_width(hull(turned)) == pytest.approx(4.0)


def test_two_corners_or_one_hold_nothing():
    assert edge_distances([(0.0, 0.0), (4.0, 0.0)], (2.0, 0.5)) == [-0.5]
    assert edge_distances([(0.0, 0.0)], (3.0, 4.0)) == [-5.0]
    assert least_width([(0.0, 0.0), (4.0, 0.0)]) == 0.0
    assert hull([(1.0, 1.0), (1.0, 1.0)]) == [(1.0, 1.0)]


def test_a_centre_goes_with_the_weights():
    assert centre_of([((1.0, 5.0), 2.0), ((4.0, 2.0), 1.0)]) == pytest.approx((2.0, 4.0))
