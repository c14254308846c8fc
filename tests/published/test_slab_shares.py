"""Slab shares against the 45 degree lines of IS 456:2000 cl. 24.5.

The clause: value from memory (nobody here has the page); it draws the slab's load to its beams by 45 degree lines from
the corners. The figures below follow from that drawing by school geometry, worked again here beside each check.
"""

from itertools import pairwise

import pytest

from calc.outlines import nearest_edge_shares

EXACT = 1e-12  # the same closed form, so only rounding is allowed


def slab(short, long):
    """Shares of a slab with all edges supported: one short edge, one long edge."""
    shares = nearest_edge_shares([(0.0, 0.0), (short, 0.0), (short, long), (0.0, long)], [True] * 4)
    return shares[0], shares[1]


def bending_moment_at_middle(depths, load):
    """Mid-span moment of a simply supported beam under depth x load, by the beam's own statics [kN m]."""
    length = depths[-1][0]
    left = moment = 0.0
    for (a, depth), (b, end_depth) in pairwise(depths):
        weight, first = (b - a) * (depth + end_depth) / 2, (b - a) ** 2 * (depth + 2 * end_depth) / 6
        centre = a + first / weight if weight else a
        left += load * weight * (length - centre) / length
        if b <= length / 2 + 1e-12:
            moment -= load * weight * (length / 2 - centre)
    return moment + left * length / 2


@pytest.mark.parametrize(("short", "long"), [(4.0, 6.0), (3.0, 3.3), (2.75, 5.5)])
def test_the_short_beam_takes_the_triangle_and_the_long_beam_the_trapezium(short, long):
    triangle, trapezium = slab(short, long)
    assert triangle.area == pytest.approx(short**2 / 4, rel=EXACT)
    assert trapezium.area == pytest.approx(short * (2 * long - short) / 4, rel=EXACT)
    assert triangle.depths == ((0.0, 0.0), (pytest.approx(short / 2), pytest.approx(short / 2)), (short, 0.0))
    assert trapezium.depths == (
        (0.0, 0.0),
        (pytest.approx(short / 2), pytest.approx(short / 2)),
        (pytest.approx(long - short / 2), pytest.approx(short / 2)),
        (long, 0.0),
    )


def test_a_slab_4_by_6_under_10_kn_per_m2_gives_40_and_80_kn():
    # short beam 10 x 4^2/4 = 40 kN; long beam 10 x 4(2 x 6 - 4)/4 = 80 kN; twice both = 240 = 10 x 24
    short_beam, long_beam = slab(4.0, 6.0)
    assert (10 * short_beam.area, 10 * long_beam.area) == pytest.approx((40.0, 80.0), rel=EXACT)
    # even loads with the same reactions: 40/4 = 10.0 and 80/6 = 13.33 kN/m
    assert 10 * short_beam.area / 4 == pytest.approx(10.0, rel=EXACT)
    assert 10 * long_beam.area / 6 == pytest.approx(13.33, abs=0.005)


def test_the_even_loads_of_the_same_moment_are_13_33_and_17_04_kn_per_m():
    # w lx/3 = 13.33 and (w lx/6)(3 - (lx/ly)^2) = 17.04 kN/m (formulas from memory, recomputed by the beam's statics);
    # the long beam's breakpoints are not at mid-span, so its middle is put in
    short_beam, long_beam = slab(4.0, 6.0)
    middle = [*long_beam.depths[:2], (3.0, 2.0), *long_beam.depths[2:]]
    assert 8 * bending_moment_at_middle(short_beam.depths, 10.0) / 4**2 == pytest.approx(13.33, abs=0.005)
    assert 8 * bending_moment_at_middle(middle, 10.0) / 6**2 == pytest.approx(17.04, abs=0.005)
