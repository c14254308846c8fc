"""calc.movement: the plane by hand, tilt apart from distortion, and every verdict a station can get."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.errors import DomainError
from calc.movement import MovementLimits, movement_of, station_verdict, stop_difference
from calc.number import Name, literal, text_of, value_of
from calc.survey import Entered
from calc.tilt import StationReading, plane_of, station_rows
from tests.steering import KINDS, as_float, as_quantity, as_traced, in_kind, numbers_of, wrong_dimensions

LIMITS = MovementLimits(alarm=1 / 1000, stop=1 / 500, difference=0.002, tilt_alarm=1 / 500, tilt_stop=1 / 300)
# A house 6 x 4 m, six stations along the long sides 3 m apart, unlike in both directions.
PLACES = {"S1": (0.0, 0.0), "S2": (3.0, 0.0), "S3": (6.0, 0.0), "S4": (6.0, 4.0), "S5": (3.0, 4.0), "S6": (0.0, 4.0)}
PAIRS = tuple((Name(a), Name(b)) for a, b in
              (("S1", "S2"), ("S2", "S3"), ("S3", "S4"), ("S4", "S5"), ("S5", "S6"), ("S6", "S1")))  # fmt: skip


def readings(num=as_float, **risen):
    found = []
    for name, (x, y) in PLACES.items():
        value, is_read = risen.get(name, 0.1), risen.get(name, 0.1) is not None
        read = literal(is_read) if num is as_traced else is_read
        found.append(StationReading(name=Name(name), x=num(x, "m"), y=num(y, "m"),
                                    risen=Entered(value=num(value or 0.0, "m"), given=read)))  # fmt: skip
    return found


def moved(**risen):
    return movement_of(readings(**risen), PAIRS, LIMITS)


def verdicts(found):
    return {str(row.name): text_of(row.verdict) for row in found.verdicts}


def test_a_house_that_rises_level_is_within_the_limits_set():
    found = moved()
    assert (found.verdict, found.tilt.verdict, found.stops, found.corrects) == ("within the limits set",) * 2 + (0, 0)
    assert set(verdicts(found).values()) == {"within the limits set"}


def test_a_house_that_tilts_as_a_whole_is_not_out_of_shape():
    # 4 mm for each metre east, 1 mm north: over 1/300 as a tilt, yet every wall keeps its shape.
    found = moved(**{name: 0.1 + 0.004 * x + 0.001 * y for name, (x, y) in PLACES.items()})
    assert found.plane.slope_x == pytest.approx(0.004)
    assert found.plane.slope_y == pytest.approx(0.001)
    assert max(abs(row.residual) for row in found.stations) < 1e-15
    assert set(verdicts(found).values()) == {"within the limits set"}
    assert (found.tilt.verdict, found.verdict, found.stops) == ("STOP", "STOP", 1)
    # What has risen does differ: 12 mm between S1 and S2.
    assert found.pairs[0].difference == pytest.approx(-0.012)


@pytest.mark.parametrize(("slope", "words", "stops", "corrects"), [
    (1 / 501, "within the limits set", 0, 0), (1 / 499, "correct it", 0, 1),
    (1 / 301, "correct it", 0, 1), (1 / 299, "STOP", 1, 1),
])  # fmt: skip
def test_the_tilt_has_an_alarm_and_a_stop_of_its_own(slope, words, stops, corrects):
    found = moved(**{name: 0.1 + slope * x for name, (x, _) in PLACES.items()})
    assert (found.tilt.verdict, found.stops, found.corrects) == (words, stops, corrects)
    assert found.verdict == words


def test_one_station_left_behind_bends_the_wall_to_both_sides():
    # S2 stays 6 mm low. Middle (3, 2), mean -1; x is even about it, so no slope east. North: sum of y r over the
    # middle is (-2)(-5) + (-2)(1)2 + 2(1)3 = 12 and sum of y2 is 24: 0.5 mm a metre. The plane at S2 is -1 - 1 = -2,
    # at S1 and S3 too: residuals -4 at S2, +2 at S1 and S3, 0 north of them.
    found = moved(S2=0.1 - 0.006)
    assert found.plane.slope_x == pytest.approx(0.0, abs=1e-15)
    assert found.plane.slope_y == pytest.approx(0.0005)
    residuals = [row.residual for row in found.stations]
    assert residuals == pytest.approx([0.002, -0.004, 0.002, 0.0, 0.0, 0.0], abs=1e-12)
    # 6 mm over 3 m is 1/500, but the fixed 2 mm governs, so work stops at S1, S2 and S3.
    assert found.pairs[0].distortion == pytest.approx(1 / 500)
    assert found.pairs[0].stop == pytest.approx(0.002)
    assert verdicts(found) == {"S1": "STOP", "S2": "STOP", "S3": "STOP", "S4": "correct it",
                               "S5": "within the limits set", "S6": "correct it"}  # fmt: skip
    assert found.stops == 3
    assert found.verdict == "STOP"


@pytest.mark.parametrize(("low", "words"), [(0.0009, "within the limits set"), (0.0011, "correct it"),
                                            (0.0019, "correct it"), (0.0021, "STOP")])  # fmt: skip
def test_alarm_and_stop_on_either_side_where_the_fixed_difference_governs(low, words):
    assert verdicts(moved(S2=0.1 - low))["S2"] == words


@pytest.mark.parametrize(("low", "words"), [(0.00119, "within the limits set"), (0.00121, "correct it"),
                                            (0.00239, "correct it"), (0.00241, "STOP")])  # fmt: skip
def test_alarm_and_stop_on_either_side_where_the_distortion_governs(low, words):
    # Stations 1.2 m apart in a row of three, a fourth far off to make a plane; 1/500 is 2.4 mm, the difference is 9 mm.
    places = (("A", 0.0, 0.0, 0.0), ("B", 1.2, 0.0, low), ("C", 2.4, 0.0, 0.0), ("D", 1.2, 90.0, low / 3))
    read = [StationReading(name=Name(n), x=x, y=y, risen=Entered(value=-z, given=True)) for n, x, y, z in places]
    pairs = ((Name("A"), Name("B")), (Name("B"), Name("C")), (Name("C"), Name("D")))
    found = movement_of(read, pairs, replace(LIMITS, difference=0.009))
    assert found.pairs[0].bend == pytest.approx(low)
    assert verdicts(found)["B"] == words


def test_a_reading_that_is_missing_stops_there_and_beside_and_does_not_count_in_the_plane():
    found = moved(S3=None, S1=0.100)
    assert verdicts(found) == {"S1": "within the limits set", "S2": "neighbour not measured: STOP",
                               "S3": "not measured: STOP", "S4": "neighbour not measured: STOP",
                               "S5": "within the limits set", "S6": "within the limits set"}  # fmt: skip
    assert (found.plane.read, found.stops, found.verdict) == (5, 3, "STOP")
    assert found.plane.risen == pytest.approx(0.1)
    assert found.stations[2].residual == 0


def test_a_tilt_seen_on_one_wall_only_is_not_known():
    # Three stations along the south wall read, none on the north wall.
    found = moved(S4=None, S5=None, S6=None, S3=0.106, S2=0.103)
    assert found.plane.known == 0
    assert (found.plane.slope_x, found.plane.slope_y) == pytest.approx((0.001, 0.0))
    assert (found.tilt.verdict, found.verdict) == ("not measured: STOP", "STOP")
    assert found.pairs[0].bend == pytest.approx(0.0, abs=1e-12)
    # Steeper than the alarm, and still not known: nothing to correct, but to measure.
    steep = moved(S4=None, S5=None, S6=None, S3=0.115, S2=0.1075)
    assert (steep.tilt.over_alarm, steep.corrects, steep.tilt.verdict) == (0, 0, "not measured: STOP")


def test_nothing_read_at_all_is_a_stop_everywhere():
    found = moved(**dict.fromkeys(PLACES))
    assert set(verdicts(found).values()) == {"not measured: STOP"}
    assert (found.stops, found.verdict) == (7, "STOP")  # six stations and the tilt


def test_a_station_compared_with_nothing_is_refused():
    rows = station_rows(readings(), plane_of(readings()))
    with pytest.raises(DomainError, match="number of neighbours of S1 is 0 No; it must be at least 1"):
        station_verdict(rows[0], ())


@pytest.mark.parametrize(("masonry", "mortar", "expected"), [
    ("Brick masonry", "cement 1:6", 2.0), ("Brick masonry", "cement lime", 2.0), ("Brick masonry", "Lime", 1.0),
    ("Brick masonry", "mud", 1.0), ("Brick masonry", "unknown", 1.0), ("Rubble masonry", "cement 1:4", 1.0),
    ("Dry rubble masonry", "cement 1:4", 1.0), ("Mud masonry", "cement 1:4", 1.0),
])  # fmt: skip
def test_the_stop_difference_is_halved_for_weak_masonry(masonry, mortar, expected):
    assert stop_difference(2.0, masonry, mortar) == expected


COORDINATE = st.floats(-20, 20).map(lambda value: round(value, 2))
SHIFT = st.floats(-0.01, 0.01).map(lambda value: round(value, 5))


@settings(max_examples=150, deadline=None, derandomize=True)
@given(st.lists(st.tuples(COORDINATE, COORDINATE, SHIFT), min_size=3, max_size=12, unique_by=lambda p: p[:2]))
def test_no_plane_fits_better_and_residuals_balance(points):
    read = [StationReading(name=Name(str(k)), x=x, y=y, risen=Entered(value=z, given=True))
            for k, (x, y, z) in enumerate(points)]  # fmt: skip
    plane = plane_of(read)
    if plane.spread < 1e-6:
        return
    rows = station_rows(read, plane)
    size = sum(abs(z) for _, _, z in points) + 1e-12
    assert abs(sum(row.residual for row in rows)) <= 1e-9 * size
    for axis in ("x", "y"):
        assert abs(sum(row.residual * getattr(r, axis) for row, r in zip(rows, read, strict=True))) <= 1e-6 * size
    best = sum(row.residual**2 for row in rows)
    for changed in (
        {"slope_x": plane.slope_x + 1e-4},
        {"slope_y": plane.slope_y - 1e-4},
        {"risen": plane.risen + 1e-4},
    ):
        assert sum(row.residual**2 for row in station_rows(read, replace(plane, **changed))) >= best


RISEN = {"S1": 0.1, "S2": 0.0985, "S3": 0.104, "S4": None, "S5": 0.099, "S6": 0.1}


def in_each_kind():
    return [movement_of(readings(num, **RISEN), PAIRS, in_kind(LIMITS, num)) for num in KINDS]


def test_each_kind_of_number_gives_the_same_movement():
    one, *others = in_each_kind()
    expected = [(name, value_of(value)) for name, value, _ in numbers_of(one)]
    for other in others:
        assert [(name, value_of(value)) for name, value, _ in numbers_of(other)] == expected
        assert [text_of(row.verdict) for row in other.verdicts] == [row.verdict for row in one.verdicts]
        assert (text_of(other.verdict), text_of(other.tilt.verdict)) == (one.verdict, one.tilt.verdict)


def test_every_number_has_the_dimension_it_states():
    found = movement_of(readings(as_quantity, **RISEN), PAIRS, in_kind(LIMITS, as_quantity))
    assert wrong_dimensions(found) == []
