"""calc.wind and calc.wind_faces: wind between the rows of its tables, a wind nobody knows, faces by hand."""

import math

import pytest

from calc.wind import NO_WIND_KNOWN, share_between, wind_force, wind_of
from calc.wind_faces import faces_of, ridge_height
from tests.houses import ALLOWANCES, BLANK, attached, entered, house, job, room, wall, worked

TOP = 8.0
"""Top of the raised house above ground [m]: below the first row of the terrain factors."""


def wind(speed=39.0, terrain="scattered houses", top=TOP):
    given = BLANK if speed is None else entered(speed)
    return wind_of(job(wind_speed=given, terrain=terrain), top, ALLOWANCES)


@pytest.mark.parametrize(("value", "share"), [(9.0, 0.0), (10.0, 0.0), (12.0, 0.4), (15.0, 1.0), (99.0, 1.0)])
def test_a_share_between_two_rows_at_them_and_beyond(value, share):
    assert share_between(value, 10.0, 15.0) == pytest.approx(share)


@pytest.mark.parametrize(("speed", "factor"), [
    (33.0, 0.82), (36.0, (0.82 + 0.76) / 2), (39.0, 0.76), (45.5, (0.73 + 0.71) / 2), (55.0, 0.67), (80.0, 0.67),
    (20.0, 0.82),
])  # fmt: skip
def test_the_risk_factor_goes_in_a_straight_line_between_its_rows_and_stays_at_its_ends(speed, factor):
    assert wind(speed).risk == pytest.approx(factor)


@pytest.mark.parametrize(("terrain", "top", "factor"), [
    ("open", 8.0, 1.05), ("scattered houses", 8.0, 1.00), ("built up", 8.0, 0.91),
    ("open", 12.5, (1.05 + 1.09) / 2), ("built up", 17.5, (0.97 + 1.01) / 2), ("scattered houses", 40.0, 1.07),
])  # fmt: skip
def test_the_terrain_factor_of_each_terrain_and_height(terrain, top, factor):
    assert wind(terrain=terrain, top=top).terrain_factor == pytest.approx(factor)


def test_speed_and_pressure_by_hand():
    found = wind()
    # 39 x 0.76 x 1.00 = 29.64 m/s; 0.0006 x 29.64^2 = 0.5271 kN/m2.
    assert (found.design, found.checked) == (pytest.approx(29.64), pytest.approx(29.64))
    assert found.pressure == pytest.approx(0.0006 * 29.64**2)
    assert wind_force(found.pressure, 1.2, 30.0) == pytest.approx(0.0006 * 29.64**2 * 36.0)
    assert found.passes == "within the limits set"


def test_a_terrain_nobody_knows_counts_as_open_and_is_said():
    found = wind(terrain="unknown")
    assert found.terrain_factor == pytest.approx(1.05)
    assert found.terrain == "not known: taken as open"


def test_a_wind_nobody_knows_is_said_and_only_the_wind_that_stops_work_is_looked_at():
    found = wind(None)
    assert (found.known, found.design) == (0, 0)
    assert found.checked == ALLOWANCES.stop_work_wind
    assert found.pressure == pytest.approx(0.0006 * 10.0**2)
    assert "NOT KNOWN" in found.told
    assert found.passes == NO_WIND_KNOWN != "within the limits set"


# ------------------------------------------------------------------------------------------ faces

WALLS = [wall("W1", "A1", "B1"), wall("W2", "B1", "B2", thickness=0.35), wall("W3", "A2", "B2"), wall("W4", "A1", "A2")]
CUT, HEADS = -0.15, -0.40
"""Cut level, and jack heads 0.25 m lower [m]."""


def faces(rooms=(), walls=(), things=()):
    survey = house({"A": 0, "B": 6}, {"1": 0, "2": 4}, walls=[*WALLS, *walls], attached=things,
                   rooms=rooms or [room("Hall", "A1 B2")], job=job(cut_level=entered(CUT)))  # fmt: skip
    own = worked(survey).own
    return faces_of(survey.rooms, own, survey.job, ALLOWANCES)


def test_the_face_of_one_storey_by_hand():
    found = faces()
    # The thickest wall, 0.35 m, counts on every side: 6 + 0.35 by 4 + 0.35 m, from -0.15 to 3.0 + 0.12 m.
    assert found.area_x == pytest.approx(4.35 * 3.27)
    assert found.area_y == pytest.approx(6.35 * 3.27)
    assert (found.heads, found.top) == (pytest.approx(HEADS), pytest.approx(3.12))
    assert found.middle_x == pytest.approx((CUT + 3.12) / 2 - HEADS)


def test_a_parapet_counts_all_round_the_top_storey():
    parapet = attached("Parapet", "parapet", "W1", length=entered(2.0), size=0.8)
    shade = attached("Shade", "sunshade", "W1", length=entered(2.0), size=1.4)
    found = faces(things=[parapet, shade])
    assert found.parapet == pytest.approx(0.8)
    assert found.area_x == pytest.approx(4.35 * (3.27 + 0.8))


def test_a_pitched_roof_shows_its_ridge_over_the_smaller_width():
    found = faces(rooms=[room("Hall", "A1 B2", above="pitched roof", slope=30.0)])
    ridge = 4.35 / 2 * math.tan(math.radians(30.0))
    assert found.rooms[0].ridge == pytest.approx(ridge)
    assert found.top == pytest.approx(3.0 + ALLOWANCES.slab_thickness + ridge)
    assert ridge_height(6.0, 0.0) == 0


def test_a_smaller_storey_above_has_its_own_width_and_begins_at_its_floor():
    upper = [wall(f"U{k}", start, end, storey=2, height=2.5)
             for k, (start, end) in enumerate((("A1", "C1"), ("C1", "C2"), ("A2", "C2"), ("A1", "A2")))]  # fmt: skip
    survey = house({"A": 0, "C": 2.5, "B": 6}, {"1": 0, "2": 4}, walls=[*WALLS, wall("W5", "C1", "C2"), *upper],
                   rooms=[room("Hall", "A1 C2"), room("Bed", "C1 B2"), room("Loft", "A1 C2", storey=2)],
                   job=job(cut_level=entered(CUT)))  # fmt: skip
    first, second = faces_of(survey.rooms, worked(survey).own, survey.job, ALLOWANCES).storeys
    # Hall's thickest wall is 0.23 m, Bed's 0.35 m: from -0.115 to 6.175 m.
    assert first.along_x == pytest.approx(6.175 + 0.115)
    assert (second.bottom, second.top) == (pytest.approx(3.12), pytest.approx(3.12 + 2.5 + 0.12))
    assert second.along_x == pytest.approx(2.5 + 0.23)
    assert second.middle == pytest.approx((3.12 + 5.74) / 2 - HEADS)


def test_the_middle_of_two_storeys_is_weighed_by_their_faces():
    upper = [wall(f"U{k}", start, end, storey=2, height=2.5)
             for k, (start, end) in enumerate((("A1", "B1"), ("B1", "B2"), ("A2", "B2"), ("A1", "A2")))]  # fmt: skip
    found = faces(rooms=[room("Hall", "A1 B2"), room("Loft", "A1 B2", storey=2)], walls=upper)
    first, second = 4.35 * 3.27, 4.23 * 2.62  # the upper walls are 0.23 m
    middles = (CUT + 3.12) / 2 - HEADS, (3.12 + 5.74) / 2 - HEADS
    assert found.area_x == pytest.approx(first + second)
    assert found.middle_x == pytest.approx((first * middles[0] + second * middles[1]) / (first + second))
