"""Weight of slabs and roofs, and the share of each side.

Covers   closed formulas for rectangles: 45 degree lines, one way where twice as long as wide or stated; outer strips;
         imposed load of pitched roofs.
Not      other outlines and free sides (outlines works out their shares).
Signs    weight positive downward.
Units    m, m2, kN/m2, deg.
Sources  IS 456:2000 cl. 24.5 (45 degree lines), value from memory, geometry worked out again in the tests;
         IS 875 (Part 2):1987 Table 2 (imposed load of sloping roofs), value from memory.
"""

from calc.number import Number, Truth, cosine, maximum, minimum, rounded, where


def side_share(side: Number, other: Number) -> Number:
    """Area of a rectangular slab that one side carries by 45 degree lines [m2].

    Args:
        side: length of that side [m]
        other: length of the sides at right angles to it [m]

    >>> side_share(3.8, 4.6), side_share(4.6, 3.8)
    (3.61, 5.13)
    """
    return where(side <= other, side**2 / 4, other / 2 * (side - other / 2))


def slender(side: Number, other: Number) -> Number:
    """1 where a rectangle is more than twice as long as wide, so that it spans one way, else 0 [No].

    Args:
        side: length of one side [m]
        other: length of the sides at right angles to it [m]

    >>> slender(2.0, 4.0), slender(2.0, 4.1)
    (0, 1)
    """
    # `other` may be an area over a length: without rounding its last digit would decide on a slab just twice as long.
    return where(rounded(maximum(side, other) - 2 * minimum(side, other), 9) > 0, 1, 0)


def chosen_share(is_slender: Number, on_long_side: Truth, by_45: Number, one_way: Number) -> Number:
    """The share of one side of a rectangle held on all sides [m2].

    Args:
        is_slender: 1 where it spans one way, else 0 [No]
        on_long_side: whether the side is one of the longer two
        by_45: its share by 45 degree lines [m2]
        one_way: its share as a bearing side [m2]
    """
    return where(is_slender > 0, where(on_long_side, one_way, 0), by_45)


def two_way_share(side: Number, other: Number) -> Number:
    """Area that one side carries: 45 degree lines, or one way where the slab is more than twice as long as wide [m2].

    Args:
        side: length of that side [m]
        other: length of the sides at right angles to it [m]

    >>> two_way_share(2.0, 5.0), two_way_share(5.0, 2.0)
    (0, 5.0)
    """
    return chosen_share(slender(side, other), side >= other, side_share(side, other), one_way_share(side, other))


def one_way_share(side: Number, span: Number) -> Number:
    """Area that a bearing side of a one-way slab carries [m2].

    Args:
        side: length of the bearing side [m]
        span: span between the two bearing sides [m]

    >>> one_way_share(9.0, 1.5)
    6.75
    """
    return side * span / 2


def outer_strip(length: Number, thickness: Number, corners: Number) -> Number:
    """Area of slab between the centre line of a wall and its outer face [m2].

    Each outer corner adds half of the square over the corner, each inner corner takes half of it away.

    Args:
        length: of the piece along the centre line [m]
        thickness: of the wall or beam [m]
        corners: outer corners less inner corners at its ends [No]

    >>> round(outer_strip(8.77, 0.23, 2), 6)
    1.021775
    """
    return thickness / 2 * (length + corners * thickness / 4)


def slab_dead(thickness: Number, unit_weight: Number, finish: Number) -> Number:
    """Weight of a slab and its finish [kN/m2].

    Args:
        thickness: of the slab [m]
        unit_weight: of reinforced concrete [kN/m3]
        finish: on the slab [kN/m2]

    >>> slab_dead(0.125, 25.0, 1.5)
    4.625
    """
    return thickness * unit_weight + finish


def load_on(area: Number, load: Number) -> Number:
    """Load of an area [kN].

    Args:
        area: on plan [m2]
        load: on each m2 of plan [kN/m2]

    >>> load_on(12.5, 4.625)
    57.8125
    """
    return area * load


def roof_dead(covering: Number, slope: Number) -> Number:
    """Weight of a pitched roof on plan [kN/m2].

    Args:
        covering: covering and timbers per m2 of slope [kN/m2]
        slope: of the roof [deg]

    >>> round(roof_dead(0.64, 30.0), 4)
    0.739
    """
    return covering / cosine(slope)


def roof_imposed(flat: Number, slope: Number, free: Number, fall: Number, least: Number) -> Number:
    """Imposed load of a pitched roof on plan [kN/m2].

    Args:
        flat: of the same roof laid flat [kN/m2]
        slope: of the roof [deg]
        free: slope up to which nothing is taken off [deg]
        fall: taken off for each degree beyond that [kN/m2/deg]
        least: never less than this [kN/m2]

    Source:
        IS 875 (Part 2):1987 Table 2: 0.75 - 0.02 (a - 10), not less than 0.40 kN/m2; value from memory.

    >>> round(roof_imposed(0.75, 20.0, 10.0, 0.02, 0.40), 4)
    0.55
    """
    return maximum(least, flat - fall * maximum(0, slope - free))
