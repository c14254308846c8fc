"""Weight of walls, openings, lintels and beams, and the lines they stand on.

Covers   masonry and plaster net of openings, frames, lintels, windows blocked for the lift; lengths between grid
         points, offsets of grid lines taped by clear sizes; what a wall carries with given shares of slab.
Not      what rests on a wall (slabs, take_down) and where jacks stand.
Signs    weight positive downward.
Units    m, m2, kN, kN/m2, kN/m3.
Sources  statics; conventions of this project: openings deduct masonry and plaster and add their frame; reveals are
         left out.
"""

from collections.abc import Sequence

from calc.number import Number, Truth, sqrt, total, where


def half_wall(thickness: Number) -> Number:
    """What a wall on a grid line takes up to either side of it [m].

    Args:
        thickness: of the wall [m]

    >>> half_wall(0.23)
    0.115
    """
    return thickness / 2


def line_offset(before: Number, half_before: Number, clear: Number, half: Number) -> Number:
    """Offset of a grid line that was taped by the clear size from the line before [m].

    Args:
        before: offset of the line before [m]
        half_before: half of the wall on that line [m]
        clear: between the faces of the two walls [m]
        half: half of the wall on this line [m]

    >>> round(line_offset(0.0, 0.115, 3.175, 0.0575), 4)
    3.3475
    """
    return before + half_before + clear + half


def line_length(x_start: Number, y_start: Number, x_end: Number, y_end: Number) -> Number:
    """Length between two grid points.

    Args:
        x_start: of the From point [m]
        y_start: of the From point [m]
        x_end: of the To point [m]
        y_end: of the To point [m]

    >>> line_length(0.0, 0.0, 3.0, 4.0)
    5.0
    """
    return sqrt((x_end - x_start) ** 2 + (y_end - y_start) ** 2)


def surface_weight(
    thickness: Number, unit_weight: Number, plastered: Number, plaster_thickness: Number, plaster_unit_weight: Number
) -> Number:
    """Weight of one square metre of plastered wall [kN/m2].

    Args:
        thickness: masonry without plaster [m]
        unit_weight: of the masonry [kN/m3]
        plastered: number of plastered faces [No]
        plaster_thickness: on one face [m]
        plaster_unit_weight: of the plaster [kN/m3]

    >>> round(surface_weight(0.23, 19.0, 2, 0.012, 20.4), 4)
    4.8596
    """
    return thickness * unit_weight + plastered * plaster_thickness * plaster_unit_weight


def wall_weight(length: Number, deducted: Number, height: Number, surface: Number) -> Number:
    """Weight of a wall before openings [kN].

    Args:
        length: between its end points on the centre line [m]
        deducted: half thicknesses lost to walls it meets [m]
        height: floor to soffit [m]
        surface: weight of one square metre [kN/m2]

    >>> round(wall_weight(8.77, 0.345, 3.15, 4.8596), 3)
    128.968
    """
    return (length - deducted) * height * surface


def net_wall_weight(length: Number, height: Number, openings: Number, surface: Number) -> Number:
    """Weight of a wall net of its openings, frames and lintels left out [kN].

    Args:
        length: of the wall [m]
        height: floor to soffit [m]
        openings: area of all openings [m2]
        surface: weight of one square metre [kN/m2]

    >>> net_wall_weight(4.0, 3.0, 2.0, 5.0)
    50.0
    """
    return wall_weight(length, 0 * length, height, surface) - openings * surface


def wall_load(own: Number, areas: Sequence[Number], loads: Sequence[Number]) -> Number:
    """Load of a wall: its own weight and its share of each slab on it [kN].

    Args:
        own: weight of the wall and of what stands on it [kN]
        areas: of each slab, the part the wall carries [m2]
        loads: of each slab, in the same order [kN/m2]

    >>> wall_load(60.0, [3.61, 2.0], [6.625, 4.0])
    91.91625
    """
    return own + total([area * load for area, load in zip(areas, loads, strict=True)])


def line_load(load: Number, length: Number) -> Number:
    """Load of each metre of a wall [kN/m].

    Args:
        load: on the wall [kN]
        length: of the wall [m]

    >>> line_load(91.0, 3.5)
    26.0
    """
    return load / length


def wall_stress(load: Number, length: Number, thickness: Number) -> Number:
    """Stress on a wall section [kN/m2].

    Args:
        load: on the wall [kN]
        length: of the wall [m]
        thickness: of the wall [m]

    >>> round(wall_stress(216.973, 8.77, 0.23), 2)
    107.57
    """
    return load / (length * thickness)


def opening_area(width: Number, height: Number) -> Number:
    """Area of an opening [m2].

    Args:
        width: clear width [m]
        height: clear height [m]

    >>> opening_area(1.2, 1.35)
    1.62
    """
    return width * height


def lintel_length(width: Number, bearing: Number) -> Number:
    """Length of the lintel over an opening [m].

    Args:
        width: of the opening [m]
        bearing: at each end [m]

    >>> round(lintel_length(1.2, 0.15), 3)
    1.5
    """
    return width + 2 * bearing


def lintel_extra(length: Number, depth: Number, thickness: Number, concrete: Number, masonry: Number) -> Number:
    """Weight that a concrete lintel adds to the masonry it replaces [kN].

    Args:
        length: of the lintel [m]
        depth: of the lintel [m]
        thickness: of the wall [m]
        concrete: unit weight of reinforced concrete [kN/m3]
        masonry: unit weight of the wall [kN/m3]

    >>> round(lintel_extra(1.5, 0.15, 0.23, 25.0, 19.0), 4)
    0.3105
    """
    return length * depth * thickness * (concrete - masonry)


def blocked_area(area: Number, ground_storey: Truth, window: Truth, told: Truth, told_not: Truth) -> Number:
    """Area of an opening that is blocked with brickwork for the lift [m2].

    Windows of the ground storey are, unless the survey says no; other openings only where it says yes.

    Args:
        area: of the opening [m2]
        ground_storey: whether its wall stands in the lowest storey
        window: whether it is a window
        told: whether the survey says to block it up
        told_not: whether the survey says not to

    >>> blocked_area(1.44, True, True, False, False), blocked_area(2.1, True, False, False, False)
    (1.44, 0)
    """
    return where(ground_storey, where(window, where(told_not, 0, area), where(told, area, 0)), 0)


def prism_weight(length: Number, breadth: Number, depth: Number, unit_weight: Number) -> Number:
    """Weight of a straight prism: a beam, column, footing or plinth [kN].

    Args:
        length: length or height [m]
        breadth: breadth [m]
        depth: depth [m]
        unit_weight: unit weight [kN/m3]

    >>> prism_weight(2.4, 0.35, 0.35, 19.0)
    5.586
    """
    return length * breadth * depth * unit_weight
