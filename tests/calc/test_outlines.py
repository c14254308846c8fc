"""calc.outlines: slabs shared among their edges. Figures by hand, from an independent calculation, and shapely's."""

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import affinity

from calc.errors import DomainError
from calc.outlines import (
    OutlineError,
    contains,
    counter_clockwise,
    is_convex,
    is_right_angled,
    nearest_edge_shares,
    one_way_shares,
    polygon_area,
    polygon_centroid,
    polygons_overlap_area,
)

CLOSE = 1e-9  # the project's aim for a slab: what goes in comes out, relative to 1 m2 or the slab's size
QUICK = settings(max_examples=60, deadline=None, derandomize=True)

L_ROOM = ((0.0, 0.0), (6.0, 0.0), (6.0, 3.0), (3.5, 3.0), (3.5, 5.0), (0.0, 5.0))
T_ROOM = ((0.0, 0.0), (7.0, 0.0), (7.0, 4.0), (5.0, 4.0), (5.0, 6.0), (2.0, 6.0), (2.0, 4.0), (0.0, 4.0))
U_ROOM = ((0.0, 0.0), (9.0, 0.0), (9.0, 5.0), (6.0, 5.0), (6.0, 2.0), (3.0, 2.0), (3.0, 5.0), (0.0, 5.0))
PENTAGON = ((0.0, 0.0), (5.0, 0.0), (6.0, 3.0), (3.0, 5.0), (0.0, 4.0))
RECTANGLE = ((0.0, 0.0), (4.0, 0.0), (4.0, 5.5), (0.0, 5.5))


def areas(shares):
    return {share.edge: share.area for share in shares}


def integral(depths):
    return sum((b - a) * (here + there) / 2 for (a, here), (b, there) in pairwise(depths))


def assert_conserved(outline, supported, shares):
    size = polygon_area(outline)
    assert [share.edge for share in shares] == [k for k, carries in enumerate(supported) if carries]
    assert math.fsum(share.area for share in shares) == pytest.approx(size, rel=CLOSE)
    for axis, middle in enumerate(shapely.Polygon(outline).centroid.coords[0]):
        moment = math.fsum(share.area * share.centroid[axis] for share in shares)
        assert moment == pytest.approx(size * middle, rel=CLOSE, abs=CLOSE * size)
    for share in shares:
        start, end = outline[share.edge], outline[(share.edge + 1) % len(outline)]
        places = [place for place, _ in share.depths]
        assert (places[0], places[-1]) == (0.0, math.dist(start, end))
        assert places == sorted(places)
        assert min(depth for _, depth in share.depths) >= 0.0
        assert integral(share.depths) == pytest.approx(share.area, rel=CLOSE, abs=CLOSE * size)


# ------------------------------------------------------------------- random outlines


@st.composite
def marked(draw, outline):
    """The outline, some sides split by a corner in the straight, either way round, and some of its sides free."""
    corners = []
    for k, corner in enumerate(outline):
        after = outline[(k + 1) % len(outline)]
        corners.append(corner)
        if draw(st.integers(0, 5)) == 0:
            t = draw(st.sampled_from([0.25, 0.5, 0.7]))
            corners.append((corner[0] + t * (after[0] - corner[0]), corner[1] + t * (after[1] - corner[1])))
    if draw(st.booleans()):
        corners.reverse()
    supported = draw(st.lists(st.booleans(), min_size=len(corners), max_size=len(corners)).filter(any))
    return tuple(corners), supported


@st.composite
def convex_outlines(draw):
    place = st.integers(0, 60).map(lambda tenth: tenth / 10)
    hull = shapely.MultiPoint(draw(st.lists(st.tuples(place, place), min_size=3, max_size=10))).convex_hull
    assume(hull.geom_type == "Polygon" and hull.area > 0.5)
    return list(hull.exterior.coords)[:-1]


@st.composite
def right_angled_outlines(draw, whole=False):
    """Any shape grown from the cells of a 5 by 5 grid with unequal (or whole) bays, without holes."""
    bays = st.just(1) if whole else st.sampled_from([0.6, 1.0, 1.15, 2.3, 3.0])
    xs, ys = ([sum(widths[:k]) for k in range(6)] for widths in (draw(st.tuples(*[bays] * 5)) for _ in range(2)))
    cells = {(2, 2)}
    for i, j in draw(st.lists(st.tuples(st.integers(0, 4), st.integers(0, 4)), min_size=2, max_size=18)):
        if {(i - 1, j), (i + 1, j), (i, j - 1), (i, j + 1)} & cells:
            cells.add((i, j))
    room = shapely.union_all([shapely.box(xs[i], ys[j], xs[i + 1], ys[j + 1]) for i, j in cells])
    assume(room.geom_type == "Polygon" and not room.interiors)
    corners = list(room.exterior.simplify(0).coords)[:-1]
    assume(len(set(corners)) == len(corners))
    return corners


@QUICK
@given(convex_outlines().flatmap(marked))
def test_a_convex_slab_comes_out_whole_whatever_edges_are_free(case):
    outline, supported = case
    assert_conserved(outline, supported, nearest_edge_shares(outline, supported))


@settings(QUICK, max_examples=150)
@given(right_angled_outlines().flatmap(marked))
def test_a_right_angled_slab_comes_out_whole_whatever_edges_are_free(case):
    outline, supported = case
    assert_conserved(outline, supported, nearest_edge_shares(outline, supported))


@QUICK
@given(right_angled_outlines().flatmap(marked), st.floats(0.05, 3.1))
def test_turning_a_right_angled_slab_on_plan_changes_no_share(case, angle):
    outline, supported = case
    rotated = affinity.rotate(shapely.Polygon(outline), angle, origin=(1, 2), use_radians=True)
    turned = list(rotated.exterior.coords)[:-1]
    expected = areas(nearest_edge_shares(outline, supported))
    assert areas(nearest_edge_shares(turned, supported)) == pytest.approx(expected, rel=1e-8, abs=1e-8)


@QUICK
@given(st.one_of(convex_outlines(), right_angled_outlines()).flatmap(marked))
def test_mirroring_a_slab_mirrors_its_shares(case):
    outline, supported = case
    mirrored = nearest_edge_shares([(-x, y) for x, y in outline], supported)
    for share, other in zip(nearest_edge_shares(outline, supported), mirrored, strict=True):
        assert other.area == pytest.approx(share.area, rel=CLOSE, abs=CLOSE)
        if share.area > 1e-6:
            assert other.centroid == pytest.approx((-share.centroid[0], share.centroid[1]), rel=1e-7, abs=1e-7)


@QUICK
@given(st.one_of(convex_outlines(), right_angled_outlines()).flatmap(marked), st.sampled_from("xy"))
def test_a_slab_spanning_one_way_comes_out_whole_or_is_refused(case, along):
    outline, supported = case
    try:
        shares = one_way_shares(outline, supported, along)
    except OutlineError as refused:
        assert not all(supported)
        assert "both are free" in str(refused)  # noqa: PT017 either outcome is right, each must be the right one
    else:
        assert_conserved(outline, supported, shares)


def skeleton_by_triangles(outline):
    """Areas by edge for whole coordinates: on them the dividing lines lie along the triangles labelled here.

    Half-metre squares cut by both diagonals; each triangle goes to the least of (larger offset, true distance,
    minus the square distance) from its centre. All edges are supported, so nothing need be seen or cut.
    """
    room = shapely.Polygon(outline)
    found = dict.fromkeys(range(len(outline)), 0.0)
    for i in range(10):
        for j in range(10):
            for turn_x, turn_y in ((1, 0), (-1, 0), (0, 1), (0, -1)):
                spot = (i / 2 + 0.25 + turn_x / 6, j / 2 + 0.25 + turn_y / 6)
                if not room.contains(shapely.Point(spot)):
                    continue
                ranks = []
                for k, start in enumerate(outline):
                    end = outline[(k + 1) % len(outline)]
                    offsets = [max(min(a, b) - p, p - max(a, b), 0.0) for a, b, p in zip(start, end, spot, strict=True)]
                    square = offsets[1] if start[1] == end[1] else offsets[0]
                    ranks.append((round(max(offsets), 9), round(math.hypot(*offsets), 9), -round(square, 9), k))
                found[min(ranks)[3]] += 1 / 16
    return found


@settings(QUICK, max_examples=40)
@given(right_angled_outlines(whole=True))
def test_right_angled_shares_are_those_of_the_skeleton_found_by_triangles(outline):
    found = areas(nearest_edge_shares(outline, [True] * len(outline)))
    assert found == pytest.approx(skeleton_by_triangles(outline), rel=CLOSE, abs=CLOSE)


# ------------------------------------------------------------------- figures


@pytest.mark.parametrize(
    ("outline", "free", "expected"),
    [
        pytest.param(RECTANGLE, (), (4.0, 7.0, 4.0, 7.0), id="rectangle"),
        pytest.param(RECTANGLE, (2, 3), (8.0, 14.0), id="two-edges-free"),
        pytest.param(
            PENTAGON,
            (2,),
            (7.046308314770801, 5.514089940802162, 6.790491103753522, 4.649110640673517),
            id="pentagon",
        ),
        pytest.param(L_ROOM, (), (6.8125, 2.25, 3.75, 3.4375, 3.0625, 5.6875), id="L"),
        pytest.param(T_ROOM, (), (10.0, 4.0, 3.875, 3.0, 2.25, 3.0, 3.875, 4.0), id="T"),
    ],
)
def test_areas_are_those_of_an_independent_calculation(outline, free, expected):
    shares = nearest_edge_shares(outline, [k not in free for k in range(len(outline))])
    assert [share.area for share in shares] == pytest.approx(expected, abs=CLOSE)


@pytest.mark.parametrize(
    ("outline", "free", "expected"),
    [
        pytest.param(
            RECTANGLE,
            (2, 3),
            ((1.3333333333333333, 1.3333333333333333), (2.380952380952381, 3.5595238095238093)),
            id="two-edges-free",
        ),
        pytest.param(
            PENTAGON,
            (2,),
            (
                (2.629619060296386, 0.9191379606400286),
                (4.705905066483251, 2.202600800515844),
                (2.491681040133515, 3.6929502494299133),
                (0.7748517734455861, 2.1081851067789192),
            ),
            id="pentagon",
        ),
    ],
)
def test_centroids_are_those_of_an_independent_calculation(outline, free, expected):
    shares = nearest_edge_shares(outline, [k not in free for k in range(len(outline))])
    for share, (x, y) in zip(shares, expected, strict=True):
        assert share.centroid == pytest.approx((x, y), abs=CLOSE)


def test_a_wall_that_ends_at_an_inner_corner_carries_only_the_slab_in_front_of_it():
    # L room, side 2 (y = 3) free: the slab is cut along y = 3. Above: 3.5 by 2, its lower side free, so the wall
    # x = 3.5 has depth 1.75 for 0.25 m and then 45 degrees. Below: 6 by 3 with its upper side free.
    shares = areas(nearest_edge_shares(L_ROOM, [True, True, False, True, True, True]))
    above = 1.75 * 0.25 + 1.75**2 / 2
    assert shares == pytest.approx({0: 9.0, 1: 4.5, 3: above, 4: 1.75**2, 5: above + 4.5}, abs=CLOSE)


def test_a_wall_across_the_void_of_a_u_carries_nothing_of_the_far_arm():
    # Side 5 (x = 3, the left arm's inner side) free: the left arm is cut off as 3 by 5 with its right side free.
    shares = areas(nearest_edge_shares(U_ROOM, [k != 5 for k in range(8)]))
    assert (shares[6], shares[7]) == pytest.approx((3 * 2.5 - 2.5**2 / 2, 2.5**2), abs=CLOSE)
    # With the whole void free nothing is cut, and the arms still do not reach across it.
    alone = areas(nearest_edge_shares(U_ROOM, [k not in (0, 2, 3, 4, 5, 6) for k in range(8)]))
    assert alone == pytest.approx({1: 36 / 2, 7: 36 / 2}, abs=CLOSE)


def test_a_part_without_support_of_its_own_is_carried_by_its_neighbours():
    # The cut along y = 3 would leave the lower arm on nothing.
    (share,) = nearest_edge_shares(L_ROOM, [k == 3 for k in range(6)])
    assert (share.edge, share.area) == (3, pytest.approx(6 * 3 + 3.5 * 2, abs=CLOSE))


def test_a_foot_without_support_hangs_on_the_ends_of_the_nearest_walls():
    # T room on the two sides of its stem alone: halves at x = 3.5, the far end of the foot to the wall beside it.
    left, right = sorted(nearest_edge_shares(T_ROOM, [k in (3, 5) for k in range(8)]), key=lambda share: share.centroid)
    assert (left.edge, right.edge) == (5, 3)
    assert (left.area, right.area) == pytest.approx((17.0, 17.0), abs=CLOSE)
    assert right.centroid[0] == pytest.approx((3.5 * 4 * 5.25 + 1.5 * 2 * 4.25) / 17, abs=CLOSE)


def test_an_inner_corner_turns_its_slab_back_onto_the_end_of_the_wall():
    # L room, wall 3 from (3.5, 3) to (3.5, 5). In front of it: depth 1.75, then from 0.25 m on 45 degrees to its end.
    # Past its start, at u m: from the 45 degree line (u) to the middle (1.75), from u = 1.25 to the lower wall (3 - u).
    share = nearest_edge_shares(L_ROOM, [True] * 6)[3]
    expected = (
        (0.0, 1.75 + 1.75),
        (0.25, 1.75 + (1.75 - 0.25)),
        (1.25, 0.75 + (1.75 - 1.25)),
        (1.5, 0.5 + (3 - 1.5 - 1.5)),
        (2.0, 0.0),
    )
    assert [place for point in share.depths for place in point] == pytest.approx(
        [place for point in expected for place in point], abs=CLOSE
    )


def test_slab_that_sees_no_support_goes_to_the_supports_of_the_slab_beside_it():
    # A Z: foot 3 by 1, stem 1 by 3, head 4 by 1; only the ends x = 0 of the foot and x = 6 of the head carry.
    # The stem sees neither. From its spots the larger offset is 2 to 3 m to the foot's end and 3 to 4 m to the head's.
    zed = [(0.0, 0.0), (3.0, 0.0), (3.0, 4.0), (6.0, 4.0), (6.0, 5.0), (2.0, 5.0), (2.0, 1.0), (0.0, 1.0)]
    shares = nearest_edge_shares(zed, [k in (3, 7) for k in range(8)])
    assert areas(shares) == pytest.approx({3: 4 * 1, 7: 3 * 1 + 1 * 3}, abs=CLOSE)
    assert shares[1].depths == ((0.0, pytest.approx(6.0)), (1.0, pytest.approx(6.0)))


@pytest.mark.parametrize("cut", [0.5, 2.0, 3.5])
def test_a_side_split_between_two_walls_is_parted_square_to_it(cut):
    # 6 by 4: the side y = 0 carries 45 degrees to depth 2 at both ends; the split parts that trapezium at x = cut.
    first, second = nearest_edge_shares([(0.0, 0.0), (cut, 0.0), (6.0, 0.0), (6.0, 4.0), (0.0, 4.0)], [True] * 5)[:2]
    before = cut**2 / 2 if cut <= 2 else 2 + 2 * (cut - 2)
    assert (first.area, second.area) == pytest.approx((before, 8 - before), abs=CLOSE)


def test_a_split_slanting_side_is_parted_square_to_it():
    # Right triangle 3, 4, 5: incircle radius 1, so the long side's share is a triangle 5 by 1, peak 3 m from (0, 4).
    shares = nearest_edge_shares([(0.0, 0.0), (3.0, 0.0), (1.8, 1.6), (0.0, 4.0)], [True] * 4)
    assert [share.area for share in shares] == pytest.approx((1.5, 2 * 1 / 2, 3 * 1 / 2, 2.0), abs=CLOSE)
    assert shares[1].depths == ((0.0, 0.0), (pytest.approx(2.0), pytest.approx(1.0)))


@pytest.mark.parametrize(("short", "long"), [(3.0, 3.0), (2.7, 4.15), (1.2, 9.0)])
def test_a_rectangle_has_its_closed_form(short, long):
    outline = [(1.5, -2.0), (1.5 + long, -2.0), (1.5 + long, -2.0 + short), (1.5, -2.0 + short)]
    lower, right, *_ = nearest_edge_shares(outline, [True] * 4)
    assert right.area == pytest.approx(short**2 / 4, rel=1e-12)
    assert lower.area == pytest.approx(short * long / 2 - short**2 / 4, rel=1e-12)
    assert right.depths == ((0.0, 0.0), (pytest.approx(short / 2), pytest.approx(short / 2)), (short, 0.0))


def test_the_arms_of_symmetric_rooms_carry_the_same():
    for outline, pairs in ((T_ROOM, ((1, 7), (2, 6), (3, 5))), (U_ROOM, ((1, 7), (2, 6), (3, 5)))):
        shares = nearest_edge_shares(outline, [True] * 8)
        for left, right in pairs:
            assert shares[left].area == pytest.approx(shares[right].area, abs=CLOSE)
            length = shares[left].depths[-1][0]
            turned = [(length - place, depth) for place, depth in reversed(shares[right].depths)]
            for mine, other in zip(shares[left].depths, turned, strict=True):
                assert mine == pytest.approx(other, abs=CLOSE)


def test_depth_runs_from_the_callers_start_of_the_edge_whichever_way_round():
    # 6 by 2, the side x = 0 free: side y = 0 has 45 degrees at its x = 6 end only
    supported = [True, True, True, False]
    forward = nearest_edge_shares([(0.0, 0.0), (6.0, 0.0), (6.0, 2.0), (0.0, 2.0)], supported)[0]
    assert forward.depths == ((0.0, 1.0), (pytest.approx(5.0), 1.0), (6.0, 0.0))
    backward = nearest_edge_shares([(6.0, 0.0), (0.0, 0.0), (0.0, 2.0), (6.0, 2.0)], [True, False, True, True])[0]
    assert backward.depths == ((0.0, 0.0), (pytest.approx(1.0), 1.0), (6.0, 1.0))


def test_slab_past_the_end_of_an_edge_is_turned_back_and_squeezed():
    # 1 m of the 5 m side y = 0 and the whole opposite side carry 5 by 2. The stub carries 1 m depth in front of it
    # and past its end, where max(x - 1, y) < 2 - y, 1 m of depth for 1 m and then 45 degrees: 2 m squeezed to 1 m.
    stub = nearest_edge_shares(
        [(0.0, 0.0), (1.0, 0.0), (5.0, 0.0), (5.0, 2.0), (0.0, 2.0)], [True, False, False, True, False]
    )[0]
    assert stub.area == pytest.approx(1 * 1 + 1 * 1 + 1 * 1 / 2, abs=CLOSE)
    assert stub.depths == ((0.0, 1.0), (pytest.approx(0.5), pytest.approx(1 + 2 * 1)), (1.0, pytest.approx(1 + 2 * 1)))


# ------------------------------------------------------------------- one way


def test_strips_are_halved_or_go_whole_to_the_only_wall():
    outline = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)]
    assert areas(one_way_shares(outline, [True] * 4, "x")) == {0: 0.0, 1: 6.0, 2: 0.0, 3: 6.0}
    assert areas(one_way_shares(outline, [True] * 4, "y")) == {0: 6.0, 1: 0.0, 2: 6.0, 3: 0.0}
    assert areas(one_way_shares(outline, [True, False, True, True], "x")) == {0: 0.0, 2: 0.0, 3: 12.0}


def test_strips_of_an_l_meet_the_wall_of_their_own_arm():
    # along x: 3 m of strips 6 m long, then 2 m of strips 3.5 m long
    shares = areas(one_way_shares(L_ROOM, [True] * 6, "x"))
    assert shares == pytest.approx({0: 0, 1: 9.0, 2: 0, 3: 3.5, 4: 0, 5: 12.5}, abs=CLOSE)


def test_a_slanting_wall_takes_its_strips_along_its_own_length():
    # Trapezium 6 m and 3 m long, 4 m across; its slanting side is 5 m: depth along it is half the strip x 4/5.
    outline = [(0.0, 0.0), (6.0, 0.0), (3.0, 4.0), (0.0, 4.0)]
    share = one_way_shares(outline, [False, True, False, True], "x")[0]
    assert share.area == pytest.approx((6 + 3) / 2 * 4 / 2, abs=CLOSE)
    assert share.depths == ((0.0, pytest.approx(3 * 0.8)), (5.0, pytest.approx(1.5 * 0.8)))


def test_a_strip_between_two_free_edges_is_refused_with_their_numbers():
    with pytest.raises(OutlineError, match="sides 4 and 2; both are free"):
        one_way_shares(RECTANGLE, [True, False, True, False], "x")


def test_a_span_along_anything_but_an_axis_is_refused():
    with pytest.raises(OutlineError, match="'z'"):
        one_way_shares(RECTANGLE, [True] * 4, "z")


# ------------------------------------------------------------------- outlines


@QUICK
@given(st.one_of(convex_outlines(), right_angled_outlines()), st.one_of(convex_outlines(), right_angled_outlines()))
def test_area_centroid_and_overlap_agree_with_shapely(first, second):
    one, other = shapely.Polygon(first), shapely.Polygon(second)
    assert polygon_area(first) == pytest.approx(one.area, rel=CLOSE)
    assert polygon_centroid(first) == pytest.approx(one.centroid.coords[0], rel=CLOSE)
    assert polygons_overlap_area(first, second) == pytest.approx(one.intersection(other).area, rel=CLOSE, abs=CLOSE)
    assert polygons_overlap_area(first, first[::-1]) == pytest.approx(one.area, rel=CLOSE)


@QUICK
@given(right_angled_outlines(), st.floats(-0.5, 12), st.floats(-0.5, 12))
def test_a_point_is_inside_where_shapely_says_so(outline, x, y):
    room, point = shapely.Polygon(outline), shapely.Point(x, y)
    assume(room.exterior.distance(point) > 1e-6)  # on the outline itself shapely goes by the last bit, not by 1e-9
    assert contains(outline, (x, y)) == room.contains(point)


def test_points_on_the_outline_count_as_inside():
    assert contains(L_ROOM, (3.5, 4.0))
    assert contains(L_ROOM, (6.0, 3.0))
    assert not contains(L_ROOM, (3.5001, 4.0))


def test_a_point_of_the_middle_of_a_straight_side_spoils_neither_shape():
    split = [(0.0, 0.0), (2.0, 0.0), (5.0, 0.0), (5.0, 3.0), (0.0, 3.0)]
    assert is_convex(split)
    assert is_right_angled(split)
    assert not is_convex(L_ROOM)
    assert is_right_angled(L_ROOM)
    assert is_convex(PENTAGON[::-1])
    assert not is_right_angled(PENTAGON)


def test_turning_an_outline_round_keeps_the_callers_edge_numbers():
    clockwise = [(0.0, 0.0), (0.0, 3.0), (4.0, 3.0), (4.0, 0.0)]
    points, numbers = counter_clockwise(clockwise)
    for k, number in enumerate(numbers):
        edge = {points[k], points[(k + 1) % 4]}
        assert edge == {clockwise[number], clockwise[(number + 1) % 4]}
    assert counter_clockwise(points) == (points, (0, 1, 2, 3))


@pytest.mark.parametrize(
    "outline",
    [
        pytest.param([(0, 0), (4, 0)], id="two-points"),
        pytest.param([(0, 0), (4, 0), (8, 0)], id="no-area"),
        pytest.param([(0, 0), (4, 0), (4, math.nan), (0, 3)], id="not-a-number"),
        pytest.param([(0, 0), (4, 0), (math.inf, 3), (0, 3)], id="endless"),
    ],
)
def test_numbers_that_make_no_outline_are_refused(outline):
    with pytest.raises(DomainError):
        nearest_edge_shares(outline, [True] * len(outline))


@pytest.mark.parametrize(
    ("outline", "said"),
    [
        pytest.param([(0, 0), (4, 0), (0, 3), (5, 3)], "cross or touch", id="bow-tie"),
        pytest.param([(0, 0), (4, 0), (4, 0), (4, 3), (0, 3)], "points 2 and 3 .* same place", id="point-twice"),
        pytest.param([(0, 0), (4, 0), (4, 3), (0, 3), (0, 0)], "points 5 and 1 .* same place", id="closed-twice"),
        pytest.param([(0, 0), (6, 0), (4, 0), (4, 3), (0, 3)], "sides 1 and 2 .* run back", id="spike"),
        pytest.param([(0, 0), (6, 0), (6, 4), (3, 0), (0, 4)], "sides 1 and 3 .* cross or touch", id="touching"),
        pytest.param([(0, 0), (6, 0), (6, 4), (3, 1), (0, 4)], "neither convex nor right-angled", id="arrowhead"),
    ],
)
def test_an_outline_that_cannot_be_shared_is_refused_in_words(outline, said):
    with pytest.raises(OutlineError, match=said):
        nearest_edge_shares(outline, [True] * len(outline))


def test_a_slab_on_nothing_is_refused():
    with pytest.raises(OutlineError, match="no edge of the slab is supported"):
        nearest_edge_shares(RECTANGLE, [False] * 4)
    with pytest.raises(OutlineError, match="3 edges are marked"):
        nearest_edge_shares(RECTANGLE, [True] * 3)
