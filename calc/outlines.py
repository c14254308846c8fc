"""Plan outlines: area, centroid, overlap, and how a slab's area is shared among the edges that carry it.

Covers   simple outlines, either way round; a slab shared by nearest edge (any convex or right-angled outline) or by
         strips running one way (any simple outline); overlap of any two simple outlines.
Not      curved edges, holes, edges of unequal fixity, the load itself (an area times its load is the caller's).
Signs    edge k runs from point k to point k + 1 as the caller wrote them, whichever way round the outline goes.
Units    m, m2.
Sources  45 degree sharing: IS 456:2000 cl. 24.5 (value from memory); geometry otherwise, see calc.skeletons.

Nearest edge means
  * right-angled outlines (rectangles too, at any angle on plan): the rules at the head of calc.skeletons;
  * other convex outlines: nearest by square distance to the line of each supported edge. A free edge attracts
    nothing, and the lines of its neighbours run on across it. Edges on one line (a side split between two walls) are
    parted at right angles to the line, half way between their facing ends.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from calc.errors import CalcError, require
from calc.fields import note, quantity
from calc.skeletons import Linear, Piece, clip, levels, nearest_pieces
from calc.skeletons import Point as Point  # part of what this module offers

_SAME = 1e-9  # two places closer than this share of the outline's size are one place
_ROUNDING = 1e-11  # the same for breakpoints that were computed from one another

_Slope = tuple[float, float, float, float]  # from distance, depth to distance, depth; distances ascending


class OutlineError(CalcError, ValueError):
    """An outline that encloses no clear area, or a slab that cannot be shared the way that was asked."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class EdgeShare:
    """What one supported edge carries of a slab.

    `depths` is how deep a strip of slab hangs on each place along the edge, as straight lines between breakpoints
    (distance from the edge's start [m], depth [m]); a jump is two breakpoints at one distance. It runs from end
    to end of the edge and its integral is `area`. Slab that lies past an end of the edge is turned back about that
    end, as a page is turned, and squeezed to the edge's length if longer: the end of the edge carries it.
    `centroid` is that of the slab where it really lies; the middle of the edge when the edge carries nothing.
    """

    edge: int = note("number of the edge in the caller's outline, from 0")
    area: float = quantity("m2", "plan area of slab the edge carries")
    centroid: tuple[float, float] = note("centre of that area on plan [m]")
    depths: tuple[Point, ...] = note("breakpoints (distance along the edge [m], depth of slab [m])")


# ---------------------------------------------------------------------------- the outline itself


def polygon_area(outline: Sequence[Point]) -> float:
    """Area enclosed by an outline given either way round [m2].

    Args:
        outline: corners in order, the first not repeated [m]

    Raises:
        DomainError: fewer than three points.

    >>> polygon_area([(0, 0), (0, 3), (4, 3), (4, 0)])
    12.0
    """
    require("number of points of the outline", len(outline), "No", "be at least", 3)
    return abs(_moments(outline)[0])


def polygon_centroid(outline: Sequence[Point]) -> Point:
    """Centre of the area enclosed by an outline.

    Args:
        outline: corners in order, the first not repeated [m]

    Raises:
        DomainError: fewer than three points, or no area.

    >>> polygon_centroid([(0, 0), (6, 0), (0, 3)])
    (2.0, 1.0)
    """
    require("area of the outline", polygon_area(outline), "m2", "be more than", 0.0)
    area, first_x, first_y = _moments(outline)
    return first_x / area, first_y / area


def counter_clockwise(outline: Sequence[Point]) -> tuple[tuple[Point, ...], tuple[int, ...]]:
    """The corners counter-clockwise, and for each edge of the result its number in the outline as given.

    Args:
        outline: corners in order, either way round [m]

    >>> counter_clockwise([(0, 0), (0, 3), (4, 3)])
    (((4, 3), (0, 3), (0, 0)), (1, 0, 2))
    """
    count = len(outline)
    if _moments(outline)[0] >= 0:
        return tuple(outline), tuple(range(count))
    return tuple(reversed(outline)), tuple((count - 2 - k) % count for k in range(count))


def is_convex(outline: Sequence[Point]) -> bool:
    """Whether a simple outline has no inner corner; corners in the middle of a straight side are allowed.

    Args:
        outline: corners in order, either way round [m]
    """
    sides = [_direction(*edge) for edge in _edges(counter_clockwise(outline)[0])]
    return all(_cross(before, after) >= -_SAME for before, after in _edges(sides))


def is_right_angled(outline: Sequence[Point]) -> bool:
    """Whether every side is parallel or square to every other, at any angle on plan.

    Args:
        outline: corners in order, either way round [m]
    """
    along = _longest_side(outline)
    sides = [_direction(*edge) for edge in _edges(outline)]
    return all(min(abs(_dot(side, along)), abs(_cross(side, along))) <= _SAME for side in sides)


def check_outline(outline: Sequence[Point]) -> None:
    """Refuse what is not the outline of one clear area.

    Args:
        outline: corners in order, the first not repeated [m]

    Raises:
        DomainError: fewer than three points, a coordinate that is no finite number, no area.
        OutlineError: a point repeated, the outline crossing or touching itself.
    """
    require("number of points of the outline", len(outline), "No", "be at least", 3)
    for point in outline:
        for value in point:
            require("coordinate of the outline", abs(value), "m", "be less than", math.inf)
    near = _SAME * _size(outline)
    require("area of the outline", polygon_area(outline), "m2", "be more than", near * _size(outline))
    edges = _edges(outline)
    for k, edge in enumerate(edges):  # all of them first: one corner told twice is the likeliest slip, so named as such
        if math.dist(*edge) <= near:
            raise OutlineError(f"points {k + 1} and {(k + 1) % len(edges) + 1} of the outline are the same place")
    for k, (start, end) in enumerate(edges):
        after = (k + 1) % len(edges)
        following = edges[after][1]
        if _distance(following, start, end) <= near or _distance(start, end, following) <= near:
            raise OutlineError(f"sides {k + 1} and {after + 1} of the outline run back on one another")
        for m in range(k + 2, len(edges) - (k == 0)):
            if _meet(*edges[k], *edges[m], near):
                raise OutlineError(f"sides {k + 1} and {m + 1} of the outline cross or touch")


def contains(outline: Sequence[Point], point: Point) -> bool:
    """Whether a point lies inside a simple outline or on it.

    Args:
        outline: corners in order, either way round [m]
        point: place on plan [m]

    >>> contains([(0, 0), (6, 0), (6, 3), (3.5, 3), (3.5, 5), (0, 5)], (5, 4))
    False
    """
    near = _SAME * _size(outline)
    inside = False
    for start, end in _edges(outline):
        if _distance(point, start, end) <= near:
            return True
        if (start[1] > point[1]) != (end[1] > point[1]):
            crossing = start[0] + (point[1] - start[1]) / (end[1] - start[1]) * (end[0] - start[0])
            inside ^= crossing > point[0]
    return inside


def polygons_overlap_area(first: Sequence[Point], second: Sequence[Point]) -> float:
    """Plan area two simple outlines have in common [m2].

    Args:
        first: corners in order, either way round [m]
        second: corners in order, either way round [m]

    Raises:
        DomainError, OutlineError: either is not the outline of one clear area, see check_outline.

    >>> polygons_overlap_area([(0, 0), (4, 0), (4, 3), (0, 3)], [(3, 1), (6, 1), (6, 9), (3, 9)])
    2.0
    """
    check_outline(first)
    check_outline(second)
    total = 0.0
    for tile in _convex_tiles(first):
        for other in _convex_tiles(second):
            common = list(tile)
            for start, end in _edges(other):
                a, b, c = _line(start, end)
                common = clip(common, (-a, -b, -c))
            total += abs(_moments(common)[0])
    return total


# ---------------------------------------------------------------------------- sharing among the edges


def nearest_edge_shares(outline: Sequence[Point], supported: Sequence[bool]) -> tuple[EdgeShare, ...]:
    """Share a slab among its supported edges, each spot going to the nearest; the module docstring says nearest how.

    Args:
        outline: corners in order, either way round; convex or right-angled [m]
        supported: for each edge of the outline, whether something carries the slab along it

    Returns:
        The supported edges only, in the outline's order; their areas sum to that of the outline.

    Raises:
        DomainError: fewer than three points, a coordinate that is no finite number, no area.
        OutlineError: self-crossing, no supported edge, neither convex nor right-angled.

    Source:
        IS 456:2000 cl. 24.5 for rectangles (45 degree lines; value from memory).

    >>> [share.area for share in nearest_edge_shares([(0, 0), (4, 0), (4, 6), (0, 6)], [True] * 4)]
    [4.0, 8.0, 4.0, 8.0]
    """
    _check_supports(outline, supported)
    points, numbers = counter_clockwise(outline)
    carried = [bool(supported[number]) for number in numbers]
    if is_right_angled(points):
        pieces = _right_angled_pieces(points, carried)
    elif is_convex(points):
        pieces = _convex_pieces(points, carried)
    else:
        raise OutlineError("the outline is neither convex nor right-angled; divide it into parts that are")
    own: dict[int, list[list[Point]]] = {number: [] for number in range(len(outline)) if supported[number]}
    for edge, piece in pieces:
        if len(piece) > 2:
            own[numbers[edge]].append(piece)
    return tuple(_share(outline, edge, parts, _square_slopes(outline, edge, parts)) for edge, parts in own.items())


def one_way_shares(
    outline: Sequence[Point], supported: Sequence[bool], along: Literal["x", "y"]
) -> tuple[EdgeShare, ...]:
    """Share a slab that spans one way: each strip of it is halved between the two edges it runs to.

    A strip that meets a free edge goes whole to its other edge. Edges parallel to the span carry nothing. Depth is
    measured along the span and turned to the length of the edge, so it never runs past the edge's ends.

    Args:
        outline: corners in order, either way round; any simple outline [m]
        supported: for each edge of the outline, whether something carries the slab along it
        along: the axis the span runs along

    Returns:
        The supported edges only, in the outline's order; their areas sum to that of the outline.

    Raises:
        DomainError: fewer than three points, a coordinate that is no finite number, no area.
        OutlineError: self-crossing, no supported edge, or a strip with both edges free.

    >>> [share.area for share in one_way_shares([(0, 0), (4, 0), (4, 6), (0, 6)], [True] * 4, "x")]
    [0.0, 12.0, 0.0, 12.0]
    """
    _check_supports(outline, supported)
    if along not in ("x", "y"):
        raise OutlineError(f"the span runs along 'x' or 'y', not {along!r}")
    own: dict[int, list[tuple[list[Point], _Slope]]] = {k: [] for k in range(len(outline)) if supported[k]}
    turned = [(x, y) if along == "x" else (y, x) for x, y in outline]
    for edge, strip, slope in _strips(turned, supported):
        own[edge].append((strip if along == "x" else [(y, x) for x, y in strip], slope))
    return tuple(
        _share(outline, edge, [strip for strip, _ in parts], [slope for _, slope in parts])
        for edge, parts in own.items()
    )


def _check_supports(outline: Sequence[Point], supported: Sequence[bool]) -> None:
    check_outline(outline)
    if len(supported) != len(outline):
        raise OutlineError(f"{len(supported)} edges are marked supported or free, but the outline has {len(outline)}")
    if not any(supported):
        raise OutlineError("no edge of the slab is supported")


def _right_angled_pieces(points: Sequence[Point], supported: Sequence[bool]) -> list[Piece]:
    """The pieces of calc.skeletons, worked out with the sides turned to the axes and turned back."""
    (c, s), (left, low) = _longest_side(points), points[0]
    turned = [(c * (x - left) + s * (y - low), c * (y - low) - s * (x - left)) for x, y in points]
    return [
        (edge, [(left + c * x - s * y, low + s * x + c * y) for x, y in piece])
        for edge, piece in nearest_pieces(turned, supported, _SAME * _size(points))
    ]


def _convex_pieces(points: Sequence[Point], supported: Sequence[bool]) -> list[Piece]:
    """A convex slab clipped, for each supported edge, by the half planes in which that edge is the nearer."""
    edges = _edges(points)
    carried = [k for k, bears in enumerate(supported) if bears]
    near = _SAME * _size(points)
    pieces: list[Piece] = []
    for edge in carried:
        part = list(points)
        for other in carried:
            if other != edge:
                first, second = sorted((edge, other))
                a, b, c = _between(*edges[first], *edges[second], near)
                part = clip(part, (a, b, c) if edge == first else (-a, -b, -c))
        pieces.append((edge, part))
    return pieces


def _between(start: Point, end: Point, other_start: Point, other_end: Point, near: float) -> Linear:
    """The linear function that is at most zero where the first of two edges is the nearer."""
    one, two = _line(start, end), _line(other_start, other_end)
    if max(abs(_at(one, other_start)), abs(_at(one, other_end))) > near:
        return (one[0] - two[0], one[1] - two[1], one[2] - two[2])
    # One line: the distances are equal everywhere, so part them at right angles, half way between the facing ends.
    along = _direction(start, end)
    place, end_place, other_place, other_end_place = (_dot(along, p) for p in (start, end, other_start, other_end))
    if other_place >= place:
        return (along[0], along[1], -(end_place + other_place) / 2)
    return (-along[0], -along[1], (place + other_end_place) / 2)


@dataclass(frozen=True, slots=True)
class _Crossing:
    """Where the low and the high side of a strip along x meet one edge."""

    edge: int
    low: Point
    high: Point
    low_distance: float  # along the edge from its start [m]
    high_distance: float
    rise: float  # of the edge across the span, per metre of its length

    def carries(self, other: "_Crossing", share: float) -> tuple[int, list[Point], _Slope]:
        """The part of the strip from this edge to `share` of the way to the other, and its depths along the edge."""
        low, high = (
            (mine[0] + share * (far[0] - mine[0]), mine[1])
            for mine, far in ((self.low, other.low), (self.high, other.high))
        )
        ends = sorted(
            (
                (self.low_distance, self.rise * abs(low[0] - self.low[0])),
                (self.high_distance, self.rise * abs(high[0] - self.high[0])),
            )
        )
        return self.edge, [self.low, low, high, self.high], (*ends[0], *ends[1])


def _strips(points: Sequence[Point], supported: Sequence[bool]) -> Iterator[tuple[int, list[Point], _Slope]]:
    """A simple outline in strips along x between the levels of its corners: edge, what it carries, depths along it."""
    heights, row_of = levels([y for _, y in points], _SAME * _size(points))
    for row, (low, high) in enumerate(pairwise(heights)):
        met: list[_Crossing] = []
        for k, ((x, _), (end_x, _)) in enumerate(_edges(points)):
            start_row, end_row = row_of[k], row_of[(k + 1) % len(points)]
            if min(start_row, end_row) <= row < max(start_row, end_row):
                start, rise = heights[start_row], heights[end_row] - heights[start_row]
                length = math.hypot(end_x - x, rise)
                t, u = (low - start) / rise, (high - start) / rise
                ends = (x + t * (end_x - x), low), (x + u * (end_x - x), high)
                met.append(_Crossing(k, *ends, t * length, u * length, abs(rise) / length))
        met.sort(key=lambda crossing: crossing.low[0] + crossing.high[0])
        for left, right in zip(met[::2], met[1::2], strict=True):
            if not (supported[left.edge] or supported[right.edge]):
                raise OutlineError(f"the slab spans between sides {left.edge + 1} and {right.edge + 1}; both are free")
            both = supported[left.edge] and supported[right.edge]
            if supported[left.edge]:
                yield left.carries(right, 0.5 if both else 1.0)
            if supported[right.edge]:
                yield right.carries(left, 0.5 if both else 1.0)


# ---------------------------------------------------------------------------- depth along an edge


def _share(outline: Sequence[Point], edge: int, parts: Sequence[Sequence[Point]], slopes: list[_Slope]) -> EdgeShare:
    start, end = _edges(outline)[edge]
    area = first_x = first_y = 0.0
    for part in parts:
        signed, part_x, part_y = _moments(part)
        sign = math.copysign(1.0, signed)
        area, first_x, first_y = area + abs(signed), first_x + sign * part_x, first_y + sign * part_y
    centroid = (first_x / area, first_y / area) if area else ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    return EdgeShare(edge=edge, area=area, centroid=centroid, depths=_depths(slopes, math.dist(start, end)))


def _square_slopes(outline: Sequence[Point], edge: int, parts: Sequence[Sequence[Point]]) -> list[_Slope]:
    """The sides of the parts as signed depths along the edge: far sides count, near sides are taken off."""
    start, end = _edges(outline)[edge]
    along = _direction(start, end)
    slopes: list[_Slope] = []
    for part in parts:
        sign = math.copysign(1.0, _moments(part)[0])
        places = [(x - start[0], y - start[1]) for x, y in part]
        turned = [(_dot(along, place), sign * _cross(along, place)) for place in places]
        for (here, depth), (there, far) in _edges(turned):
            if here < there:
                slopes.append((here, -depth, there, -far))
            elif there < here:
                slopes.append((there, far, here, depth))
    return slopes


def _turned_back(slopes: Sequence[_Slope], length: float) -> list[_Slope]:
    """The slopes within 0 and `length`, what lies past an end turned back about it (see EdgeShare)."""
    before = max([0.0, *(-slope[0] for slope in slopes)])
    after = max([0.0, *(slope[2] - length for slope in slopes)])
    if before == after == 0.0:
        return list(slopes)
    squeeze, squeeze_after = max(1.0, before / length), max(1.0, after / length)
    found: list[_Slope] = []
    for slope in slopes:
        for place, depth, end, end_depth in _cut_at(slope, (0.0, length)):
            if end <= 0.0:
                found.append((-end / squeeze, end_depth * squeeze, -place / squeeze, depth * squeeze))
            elif place >= length:
                near, far = length - (place - length) / squeeze_after, length - (end - length) / squeeze_after
                found.append((far, end_depth * squeeze_after, near, depth * squeeze_after))
            else:
                found.append((place, depth, end, end_depth))
    return found


def _cut_at(slope: _Slope, places: Sequence[float]) -> Iterator[_Slope]:
    for place in places:
        if slope[0] < place < slope[2]:
            depth = _depth_at(slope, place)
            yield (slope[0], slope[1], place, depth)
            slope = (place, depth, slope[2], slope[3])
    yield slope


def _depth_at(slope: _Slope, place: float) -> float:
    return slope[1] + (slope[3] - slope[1]) * (place - slope[0]) / (slope[2] - slope[0])


def _depths(slopes: Sequence[_Slope], length: float) -> tuple[Point, ...]:
    """Sum of the slopes as breakpoints from end to end of the edge, without those that say nothing new."""
    inside = _turned_back(slopes, length)
    ends = [0.0, length, *(s[0] for s in inside), *(s[2] for s in inside)]
    places, index = levels(ends, _ROUNDING * length)
    places[0], places[-1] = 0.0, length
    starts, stops = index[2 : 2 + len(inside)], index[2 + len(inside) :]
    sums = [[0.0, 0.0] for _ in places[1:]]
    for slope, first, last in zip(inside, starts, stops, strict=True):
        for k in range(first, last):
            sums[k][0] += _depth_at(slope, places[k])
            sums[k][1] += _depth_at(slope, places[k + 1])
    rounding = _ROUNDING * max((abs(depth) for slope in inside for depth in (slope[1], slope[3])), default=0.0)
    found: list[Point] = []
    for (place, end), (depth, end_depth) in zip(pairwise(places), sums, strict=True):
        for point in ((place, depth), (end, end_depth)):
            _add_breakpoint(found, (point[0], 0.0 if abs(point[1]) <= rounding else point[1]), rounding)
    return tuple(found)


def _add_breakpoint(found: list[Point], point: Point, rounding: float) -> None:
    if found and found[-1][0] == point[0] and abs(found[-1][1] - point[1]) <= rounding:
        return
    if len(found) > 1 and found[-2][0] < found[-1][0] < point[0]:
        straight = _depth_at((*found[-2], *point), found[-1][0])
        if abs(straight - found[-1][1]) <= rounding:
            found.pop()
    found.append(point)


# ---------------------------------------------------------------------------- plane geometry


def _edges(points: Sequence[Point]) -> list[tuple[Point, Point]]:
    return list(pairwise((*points, points[0])))


def _dot(one: Point, other: Point) -> float:
    return one[0] * other[0] + one[1] * other[1]


def _cross(one: Point, other: Point) -> float:
    return one[0] * other[1] - one[1] * other[0]


def _at(line: Linear, point: Point) -> float:
    return line[0] * point[0] + line[1] * point[1] + line[2]


def _direction(start: Point, end: Point) -> Point:
    length = math.dist(start, end)
    return (end[0] - start[0]) / length, (end[1] - start[1]) / length


def _line(start: Point, end: Point) -> Linear:
    """Distance to the left of the line through two points."""
    along = _direction(start, end)
    return (-along[1], along[0], _cross(start, along))


def _longest_side(outline: Sequence[Point]) -> Point:
    return _direction(*max(_edges(outline), key=lambda edge: math.dist(*edge)))


def _size(outline: Sequence[Point]) -> float:
    xs, ys = zip(*outline, strict=True)
    return float(max(max(xs) - min(xs), max(ys) - min(ys)))


def _moments(polygon: Sequence[Point]) -> tuple[float, float, float]:
    """Signed area (counter-clockwise positive) and its first moments about the axes."""
    area = first_x = first_y = 0.0
    left, low = polygon[0] if polygon else (0.0, 0.0)
    for (x, y), (to_x, to_y) in pairwise([(x - left, y - low) for x, y in polygon]):
        double = x * to_y - to_x * y
        area, first_x, first_y = area + double / 2, first_x + double * (x + to_x) / 6, first_y + double * (y + to_y) / 6
    return area, first_x + area * left, first_y + area * low


def _distance(point: Point, start: Point, end: Point) -> float:
    """Distance from a point to the nearest place between two others."""
    side, reach = (end[0] - start[0], end[1] - start[1]), (point[0] - start[0], point[1] - start[1])
    square = _dot(side, side)
    t = min(1.0, max(0.0, _dot(reach, side) / square)) if square else 0.0
    return math.hypot(reach[0] - t * side[0], reach[1] - t * side[1])


def _meet(start: Point, end: Point, other_start: Point, other_end: Point, near: float) -> bool:
    """Whether two sides cross or come as close as `near`."""
    for axis in (0, 1):
        if max(start[axis], end[axis]) + near < min(other_start[axis], other_end[axis]):
            return False
        if max(other_start[axis], other_end[axis]) + near < min(start[axis], end[axis]):
            return False
    one, other = _line(start, end), _line(other_start, other_end)
    crossing = _at(one, other_start) * _at(one, other_end) < 0 and _at(other, start) * _at(other, end) < 0
    gaps = (
        _distance(start, other_start, other_end),
        _distance(end, other_start, other_end),
        _distance(other_start, start, end),
        _distance(other_end, start, end),
    )
    return crossing or min(gaps) <= near


def _convex_tiles(outline: Sequence[Point]) -> list[list[Point]]:
    """A simple outline in convex counter-clockwise tiles."""
    points, _ = counter_clockwise(outline)
    if is_convex(points):
        return [list(points)]
    tiles = [strip for _, strip, _ in _strips(points, [True] * len(points))]
    return [list(counter_clockwise(tile)[0]) for tile in tiles]
