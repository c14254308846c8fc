"""Balance of a house on circuits: forces that hold load and centre, and how far the centre lies inside them.

Covers   forces nearest to wished ones that balance, forces of three circuits, weighted centre, hull, distances to its
         edges, least width.
Not      who shares a circuit (circuits), stiffness.
Signs    x east, y north; loads downward and forces upward are both positive; a distance inside a hull is positive.
Units    m, m2, kN.
Sources  statics and plane geometry; the nearest forces are least squares with one equation for the load and one for
         its moment each way.
"""

import math
from collections.abc import Sequence
from itertools import pairwise

from calc.errors import require

Place = tuple[float, float]


def centre_of(weighted: Sequence[tuple[Place, float]]) -> Place:
    """Centre of weights on plan.

    Args:
        weighted: places [m] and their weights, of one kind

    >>> centre_of([((0.0, 0.0), 1.0), ((4.0, 2.0), 3.0)])
    (3.0, 1.5)
    """
    whole = math.fsum(weight for _, weight in weighted)
    return (
        math.fsum(x * weight for (x, _), weight in weighted) / whole,
        math.fsum(y * weight for (_, y), weight in weighted) / whole,
    )


def hull(places: Sequence[Place]) -> list[Place]:
    """Corners of the smallest convex outline round some places, anticlockwise; places in its sides are left out.

    Args:
        places: on plan [m]

    >>> hull([(0.0, 0.0), (2.0, 0.0), (1.0, 0.5), (2.0, 2.0), (1.0, 0.0)])
    [(0.0, 0.0), (2.0, 0.0), (2.0, 2.0)]
    """
    ordered = sorted(set(places))
    if len(ordered) < 3:
        return ordered
    return _half(ordered)[:-1] + _half(ordered[::-1])[:-1]


def _half(ordered: Sequence[Place]) -> list[Place]:
    corners: list[Place] = []
    for place in ordered:
        while len(corners) > 1 and _turn(corners[-2], corners[-1], place) <= 0.0:
            corners.pop()
        corners.append(place)
    return corners


def _turn(a: Place, b: Place, c: Place) -> float:
    """Twice the area of a triangle, positive anticlockwise."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def edge_distances(corners: Sequence[Place], place: Place) -> list[float]:
    """Distance of a place from each side of a convex outline, positive inside [m].

    An outline of one or two corners holds nothing: the distance to it is given as negative.

    Args:
        corners: anticlockwise [m]
        place: on plan [m]

    >>> edge_distances([(0.0, 0.0), (4.0, 0.0), (0.0, 3.0)], (1.0, 1.0))
    [1.0, 1.0, 1.0]
    """
    if len(corners) == 1:
        return [-math.dist(corners[0], place)]
    sides = list(pairwise([*corners, corners[0]]))
    if len(corners) == 2:
        first, last = corners
        return [-abs(_turn(first, last, place)) / math.dist(first, last)]
    return [_turn(a, b, place) / math.dist(a, b) for a, b in sides]


def least_width(corners: Sequence[Place]) -> float:
    """Least distance between two parallels that hold a convex outline [m].

    Args:
        corners: anticlockwise [m]

    >>> least_width([(0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (0.0, 4.0)])
    4.0
    """
    if len(corners) < 3:
        return 0.0
    sides = pairwise([*corners, corners[0]])
    return min(max(_turn(a, b, corner) for corner in corners) / math.dist(a, b) for a, b in sides)


def forces_on_three(places: Sequence[Place], load: float, centre: Place) -> list[float]:
    """Forces of three circuits that carry a load at its centre: statics alone says them [kN].

    Args:
        places: middle of the pistons of each circuit [m]
        load: to be carried [kN]
        centre: of the load [m]

    Raises:
        DomainError: not three places out of one line, or the load centre on or beyond a line between two of them

    >>> [round(force, 6) for force in forces_on_three([(0.0, 0.0), (6.0, 0.0), (0.0, 4.0)], 240.0, (2.0, 1.0))]
    [100.0, 80.0, 60.0]
    """
    require("number of circuits", len(places), "No", "be at least", 3)
    require("number of circuits", len(places), "No", "be at most", 3)
    corners = hull(places)
    require("width of the circuits on plan", least_width(corners), "m", "be more than", 0.0)
    inside = min(edge_distances(corners, centre))
    require("distance of the load centre inside the circuits", inside, "m", "be more than", 0.0)
    return nearest_balanced(places, [0.0] * 3, [1.0] * 3, load, centre)


def nearest_balanced(
    places: Sequence[Place], wished: Sequence[float], weights: Sequence[float], load: float, centre: Place
) -> list[float]:
    """Forces at some places that carry a load at its centre and lie nearest to wished ones [kN].

    Nearest is by the squares of the differences, each over its weight, so that a circuit of more pistons takes more of
    a difference. With three places the forces do not depend on wish or weight.

    Args:
        places: not in one line [m]
        wished: force at each [kN]
        weights: above 0, of one kind [-]
        load: to be carried [kN]
        centre: of the load [m]

    >>> nearest_balanced([(0.0, 0.0), (4.0, 0.0), (0.0, 4.0)], [0, 0, 0], [1.0, 1.0, 1.0], 80.0, (1.0, 2.0))
    [20.0, 20.0, 40.0]
    """
    whole = math.fsum(weights)
    middle = centre_of(list(zip(places, weights, strict=True)))
    off = [(x - middle[0], y - middle[1]) for x, y in places]
    xx, xy, yy = (
        math.fsum(weight * value for weight, value in zip(weights, values, strict=True))
        for values in ([x * x for x, _ in off], [x * y for x, y in off], [y * y for _, y in off])
    )
    lacks = load - math.fsum(wished)
    about_x = load * (centre[0] - middle[0]) - math.fsum(w * x for w, (x, _) in zip(wished, off, strict=True))
    about_y = load * (centre[1] - middle[1]) - math.fsum(w * y for w, (_, y) in zip(wished, off, strict=True))
    both = xx * yy - xy * xy
    rise, east, north = lacks / whole, (about_x * yy - about_y * xy) / both, (about_y * xx - about_x * xy) / both
    return [
        force + weight * (rise + east * x + north * y)
        for force, weight, (x, y) in zip(wished, weights, off, strict=True)
    ]
