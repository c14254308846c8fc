"""calc.beam_loads: moments of loads, by hand."""

import math

import numpy as np
import pytest

from calc.beam_loads import beam_load, from_line_load, prefix_integrals, span_moments
from calc.errors import DomainError
from calc.line_loads import LineLoad

EXACT = 1e-12


def test_overlapping_pieces_become_one_load_side_by_side():
    load = beam_load(5.0, [(0.0, 3.0, 10.0), (2.0, 5.0, 4.0)])
    assert load.edges.tolist() == [0.0, 2.0, 3.0, 5.0]
    assert load.first.tolist() == load.last.tolist() == [10.0, 14.0, 4.0]
    assert (load.total, load.moment) == pytest.approx((42.0, 30 * 1.5 + 12 * 3.5), rel=EXACT)


def test_moments_of_a_straight_piece_are_those_of_its_integral():
    wall = LineLoad()
    wall.ramp(1.0, 3.0, 2.0, 8.0)  # q = 2 + 3 (x - 1)
    load = from_line_load(wall, 4.0)
    # about x = 1, u = x - 1 from 0 to 2: sum of (2 + 3 u) u^k = 2^(k+1) (2/(k+1) + 3 x 2/(k+2))
    expected = [2 ** (k + 1) * (2 / (k + 1) + 6 / (k + 2)) for k in range(4)]
    assert span_moments(load, np.array([0.0, 1.0, 4.0]))[:, 1] == pytest.approx(expected, rel=EXACT)
    # cut within the piece: from u = 0.5 on, measured from there, v = u - 0.5: (3.5 + 3 v) over 1.5
    expected = [1.5 ** (k + 1) * (3.5 / (k + 1) + 4.5 / (k + 2)) for k in range(4)]
    assert span_moments(load, np.array([0.0, 1.5, 4.0]))[:, 1] == pytest.approx(expected, rel=EXACT)


def test_a_point_on_a_stop_belongs_to_the_span_that_begins_there():
    load = beam_load(4.0, points=[(1.5, 6.0), (3.0, 2.0)])
    found = span_moments(load, np.array([0.0, 1.5, 4.0]))
    assert found.tolist() == [[0.0, 8.0], [0.0, 3.0], [0.0, 4.5], [0.0, 6.75]]


def test_a_point_on_the_far_end_belongs_to_the_last_span():
    assert span_moments(beam_load(4.0, points=[(4.0, 3.0)]), np.array([0.0, 1.0, 4.0]))[1].tolist() == [0.0, 9.0]


def test_prefix_integrals_grow_by_the_moments_of_each_span_about_the_beams_end():
    load = beam_load(7.0, [(0.5, 6.0, 11.0), (3.0, 7.0, 5.0)], [(2.2, 9.0), (6.5, 4.0)])
    stops = np.array([0.7, 2.0, 3.3, 6.6])
    found = prefix_integrals(load, stops)
    pieces, points = ((0.5, 6.0, 11.0), (3.0, 7.0, 5.0)), ((2.2, 9.0), (6.5, 4.0))
    for order, stop in enumerate(stops):
        for k in range(4):
            even = sum(q * (min(b, stop) ** (k + 1) - a ** (k + 1)) / (k + 1) for a, b, q in pieces if stop > a)
            single = sum(load * at**k for at, load in points if at < stop)
            assert found[k, order] == pytest.approx(even + single, rel=EXACT)


def test_the_load_of_a_wall_keeps_its_resultant():
    wall = LineLoad()
    wall.ramp(0.0, 6.0, 10.0, 22.0)
    wall.ramp(1.3, 4.4, 6.0, 0.0)
    wall.point(3.0, 8.0)
    wall.point(6.0, 2.0)
    bridged = wall.bridged(2.5, 3.9)
    load = from_line_load(bridged, 6.0)
    assert (load.total, load.moment) == pytest.approx((wall.total, wall.moment), rel=EXACT)


@pytest.mark.parametrize(("uniform", "points", "quantity"), [
    ([(0.0, 4.1, 3.0)], [], "end of a piece"),
    ([(-0.1, 4.0, 3.0)], [], "start of a piece"),
    ([(3.0, 2.0, 3.0)], [], "length of a piece"),
    ([(0.0, 4.0, math.nan)], [], "line load"),
    ([], [(4.1, 3.0)], "place of a point load"),
    ([], [(-0.1, 3.0)], "place of a point load"),
    ([], [(1.0, math.inf)], "point load"),
])  # fmt: skip
def test_a_load_off_the_beam_or_no_number_is_refused(uniform, points, quantity):
    with pytest.raises(DomainError) as caught:
        beam_load(4.0, uniform, points)
    assert caught.value.quantity == quantity


def test_a_beam_of_no_length_is_refused():
    with pytest.raises(DomainError, match="length is 0 m"):
        beam_load(0.0)
