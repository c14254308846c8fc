"""Levels read while a house goes up: tilt of the whole apart from distortion, and a verdict for every station.

Covers   least-squares plane through the readings, what each station lies off it, distortion between neighbours, the
         difference at which work stops, verdicts in words; a reading that is missing stops the lift.
Not      which stations are neighbours (an argument), cracks, loads of jacks, error of the instrument.
Signs    risen is positive upward; x east, y north; a slope is positive where the house stands higher to the east or
         north.
Units    m; slopes and distortions are ratios.
Sources  plane by least squares; a tilt of the whole does not crack a wall, distortion does: statics. Limits of tilt,
         alarm, stop and the difference at stop are arguments; their usual figures (1/1000, 1/500, 2 mm, half of it for
         rubble, mud and lime) are common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from calc.checks import CORRECT, STOP, WITHIN
from calc.errors import require
from calc.fields import note, quantity
from calc.number import (
    Name,
    Number,
    Text,
    Truth,
    both,
    either,
    maximum,
    minimum,
    ratio,
    rounded,
    same,
    sqrt,
    total,
    where,
    within,
    word_where,
)
from calc.survey import Entered

NOT_MEASURED, NEIGHBOUR_NOT_MEASURED = "not measured: STOP", "neighbour not measured: STOP"
WEAK_MASONRY = ("Rubble masonry", "Dry rubble masonry", "Mud masonry")
WEAK_MORTAR = ("mud", "lime", "unknown")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MovementLimits:
    """How far the house may move out of shape."""

    alarm: Number = quantity("-", "distortion between neighbours that is corrected before the next call")
    stop: Number = quantity("-", "distortion between neighbours that stops the lift")
    difference: Number = quantity("m", "difference between neighbours that stops the lift, however far apart they are")
    tilt_alarm: Number = quantity("-", "tilt of the whole house that is corrected before the next call")
    tilt_stop: Number = quantity("-", "tilt of the whole house that stops the lift")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StationReading:
    """One station and how far it has risen."""

    name: Name = note("station")
    x: Number = quantity("m", "east")
    y: Number = quantity("m", "north")
    risen: Entered = note("how far it has risen, m; not given where nobody read it")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Plane:
    """The plane that fits the readings best, and the sums it comes from; only stations that were read count."""

    read: Number = quantity("No", "stations that were read")
    x: Number = quantity("m", "their middle, east")
    y: Number = quantity("m", "their middle, north")
    risen: Number = quantity("m", "their mean rise")
    sum_xx: Number = quantity("m2", "sum of squares east of the middle")
    sum_xy: Number = quantity("m2", "sum of products east and north")
    sum_yy: Number = quantity("m2", "sum of squares north of the middle")
    sum_xr: Number = quantity("m2", "sum of products east and risen")
    sum_yr: Number = quantity("m2", "sum of products north and risen")
    spread: Number = quantity("-", "1 where stations spread alike both ways, 0 where all stand in one line")
    slope_x: Number = quantity("-", "rise for each metre east")
    slope_y: Number = quantity("-", "rise for each metre north")
    tilt: Number = quantity("-", "steepest slope")
    known: Number = quantity("No", "1 where three stations out of one line were read, else 0")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StationRow:
    """One station: what it lies off the plane."""

    name: Name = note("station")
    measured: Number = quantity("No", "1 where it was read, else 0")
    risen: Number = quantity("m", "as read; 0 where it was not")
    plane: Number = quantity("m", "rise of the plane there")
    residual: Number = quantity("m", "reading less plane; 0 where it was not read")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PairRow:
    """Two neighbours."""

    one: Name = note("station")
    other: Name = note("its neighbour")
    measured: Number = quantity("No", "1 where both were read, else 0")
    distance: Number = quantity("m", "between them on plan")
    difference: Number = quantity("m", "difference of what they have risen, tilt and all")
    bend: Number = quantity("m", "difference of what they lie off the plane, always positive")
    distortion: Number = quantity("-", "bend over distance")
    alarm: Number = quantity("m", "bend that is corrected")
    stop: Number = quantity("m", "bend that stops the lift")
    corrects: Number = quantity("No", "1 where the bend is over the alarm")
    stops: Number = quantity("No", "1 where the bend is over the stop")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StationVerdict:
    """What is to be done at one station."""

    name: Name = note("station")
    bend: Number = quantity("m", "greatest bend to a neighbour")
    distortion: Number = quantity("-", "greatest distortion to a neighbour")
    unread: Number = quantity("No", "neighbours that were not read")
    stops: Number = quantity("No", "1 where work stops here, else 0")
    verdict: Text = note("in words")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Movement:
    """The whole house at one reading."""

    plane: Plane
    stations: tuple[StationRow, ...]
    pairs: tuple[PairRow, ...]
    verdicts: tuple[StationVerdict, ...]
    tilt_verdict: Text = note("of the tilt of the whole")
    stops: Number = quantity("No", "stations that stop the lift, and the tilt where it does")
    corrects: Number = quantity("No", "pairs to be corrected, and the tilt where it is")
    verdict: Text = note("of the house")


def stop_difference(plain: Number, masonry: Text, mortar: Text) -> Number:
    """Difference between neighbours that stops the lift: half for rubble, and for mud, lime or unknown mortar [m].

    Args:
        plain: for plain masonry in cement mortar [m]
        masonry: kind of masonry
        mortar: mortar of the wall

    Source:
        Common practice, no source.

    >>> stop_difference(0.002, "Brick masonry", "cement 1:6"), stop_difference(0.002, "Brick masonry", "lime")
    (0.002, 0.001)
    """
    weak = either(*(same(masonry, word) for word in WEAK_MASONRY), *(same(mortar, word) for word in WEAK_MORTAR))
    return where(weak, plain / 2, plain)


def plane_of(readings: Sequence[StationReading]) -> Plane:
    """Plane through the readings by least squares, in closed form so that a sheet can show every sum.

    Where all stations that were read stand in one line, the slope across that line is taken as none and `known` is 0.

    >>> level = [StationReading(name=Name(n), x=x, y=y, risen=Entered(value=0.1 + 0.002 * x, given=True))
    ...          for n, x, y in (("S1", 0.0, 0.0), ("S2", 6.0, 0.0), ("S3", 2.0, 5.0))]
    >>> plane = plane_of(level)
    >>> round(plane.slope_x, 6), round(abs(plane.slope_y), 6)
    (0.002, 0.0)
    """
    counts = [where(reading.risen.given, 1, 0) for reading in readings]
    read = total(counts)

    def mean(values: Sequence[Number]) -> Number:
        return ratio(total([value * count for value, count in zip(values, counts, strict=True)]), read, 0)

    x, y = mean([reading.x for reading in readings]), mean([reading.y for reading in readings])
    risen = mean([reading.risen.value for reading in readings])
    off = [(r.x - x, r.y - y, r.risen.value - risen, count) for r, count in zip(readings, counts, strict=True)]
    sum_xx, sum_xy = total([a * a * count for a, _, _, count in off]), total([a * b * count for a, b, _, count in off])
    sum_yy = total([b * b * count for _, b, _, count in off])
    sum_xr, sum_yr = total([a * c * count for a, _, c, count in off]), total([b * c * count for _, b, c, count in off])
    whole, both_ways = sum_xx + sum_yy, sum_xx * sum_yy - sum_xy * sum_xy
    spread = ratio(4 * both_ways, whole * whole, 0)
    in_plane = rounded(spread, 9) > 0
    slope_x = where(in_plane, ratio(sum_xr * sum_yy - sum_yr * sum_xy, both_ways, 0), ratio(sum_xr, whole, 0))
    slope_y = where(in_plane, ratio(sum_yr * sum_xx - sum_xr * sum_xy, both_ways, 0), ratio(sum_yr, whole, 0))
    return Plane(
        read=read, x=x, y=y, risen=risen, sum_xx=sum_xx, sum_xy=sum_xy, sum_yy=sum_yy, sum_xr=sum_xr, sum_yr=sum_yr,
        spread=spread, slope_x=slope_x, slope_y=slope_y, tilt=sqrt(slope_x * slope_x + slope_y * slope_y),
        known=where(in_plane, 1, 0),
    )  # fmt: skip


def station_rows(readings: Sequence[StationReading], plane: Plane) -> tuple[StationRow, ...]:
    """Every station against the plane."""
    rows = []
    for reading in readings:
        measured = where(reading.risen.given, 1, 0)
        risen = reading.risen.value * measured
        on_plane = plane.risen + plane.slope_x * (reading.x - plane.x) + plane.slope_y * (reading.y - plane.y)
        rows.append(StationRow(name=reading.name, measured=measured, risen=risen, plane=on_plane,
                               residual=(risen - on_plane) * measured))  # fmt: skip
    return tuple(rows)


def pair_rows(
    readings: Sequence[StationReading],
    rows: Sequence[StationRow],
    neighbours: Sequence[tuple[Name, Name]],
    limits: MovementLimits,
) -> tuple[PairRow, ...]:
    """Every pair of neighbours.

    Args:
        readings: the stations as read
        rows: the same, against the plane
        neighbours: names of two stations side by side, each pair once
        limits: how far they may move
    """
    places, found = {str(r.name): r for r in readings}, {str(row.name): row for row in rows}
    return tuple(_pair(places[a], places[b], found[a], found[b], limits) for a, b in neighbours)


def _pair(
    one: StationReading, other: StationReading, row: StationRow, beside: StationRow, limits: MovementLimits
) -> PairRow:
    measured = row.measured * beside.measured
    east, north = one.x - other.x, one.y - other.y
    distance = sqrt(east * east + north * north)
    difference, off = (row.risen - beside.risen) * measured, (row.residual - beside.residual) * measured
    bend = maximum(off, 0 - off)
    stop = minimum(limits.stop * distance, limits.difference)
    # The alarm keeps its share of the stop where the fixed difference governs, or stations far apart had no warning.
    alarm = stop * limits.alarm / limits.stop
    return PairRow(
        one=one.name, other=other.name, measured=measured, distance=distance, difference=difference, bend=bend,
        distortion=ratio(bend, distance, 0), alarm=alarm, stop=stop,
        corrects=where(within(bend, alarm), 0, 1), stops=where(within(bend, stop), 0, 1),
    )  # fmt: skip


def station_verdict(row: StationRow, pairs: Sequence[PairRow]) -> StationVerdict:
    """Verdict for one station from the pairs it belongs to.

    Raises:
        DomainError: no neighbour is given; a station compared with nothing would pass
    """
    mine = [pair for pair in pairs if pair.one == row.name or pair.other == row.name]
    require(f"number of neighbours of {row.name}", len(mine), "No", "be at least", 1)
    most = maximum(0, *(pair.bend for pair in mine))
    unread = total([1 - pair.measured for pair in mine])
    stopped, corrected = total([pair.stops for pair in mine]), total([pair.corrects for pair in mine])
    moved = word_where(stopped > 0, STOP, word_where(corrected > 0, CORRECT, WITHIN))
    seen = word_where(unread > 0, NEIGHBOUR_NOT_MEASURED, moved)
    return StationVerdict(
        name=row.name, bend=most, distortion=maximum(0, *(pair.distortion for pair in mine)), unread=unread,
        stops=where(either(stopped > 0, unread > 0, row.measured <= 0), 1, 0),
        verdict=word_where(row.measured > 0, seen, NOT_MEASURED),
    )  # fmt: skip


def tilt_verdict(plane: Plane, limits: MovementLimits) -> Text:
    """Verdict on the tilt of the whole house; with fewer than three stations out of one line it is not known."""
    level = word_where(within(plane.tilt, limits.tilt_alarm), WITHIN, CORRECT)
    return word_where(plane.known > 0, word_where(_tilt_stops(plane, limits), STOP, level), NOT_MEASURED)


def _tilt_stops(plane: Plane, limits: MovementLimits) -> Truth:
    return where(within(plane.tilt, limits.tilt_stop), 0, 1) > 0


def movement_of(
    readings: Sequence[StationReading], neighbours: Sequence[tuple[Name, Name]], limits: MovementLimits
) -> Movement:
    """The whole house at one reading.

    Args:
        readings: every station, read or not
        neighbours: names of two stations side by side, each pair once
        limits: how far they may move
    """
    plane = plane_of(readings)
    rows = station_rows(readings, plane)
    pairs = pair_rows(readings, rows, neighbours, limits)
    verdicts = tuple(station_verdict(row, pairs) for row in rows)
    tilt_stops = where(either(plane.known <= 0, _tilt_stops(plane, limits)), 1, 0)
    over_alarm = where(within(plane.tilt, limits.tilt_alarm), 0, 1) > 0
    tilted = where(both(plane.known > 0, over_alarm), 1, 0)
    stops = total([row.stops for row in verdicts]) + tilt_stops
    corrects = total([pair.corrects for pair in pairs]) + tilted
    return Movement(
        plane=plane, stations=rows, pairs=pairs, verdicts=verdicts, tilt_verdict=tilt_verdict(plane, limits),
        stops=stops, corrects=corrects,
        verdict=word_where(stops > 0, STOP, word_where(corrects > 0, CORRECT, WITHIN)),
    )  # fmt: skip
