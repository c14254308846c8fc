"""Levels read while a house goes up: tilt of the whole apart from distortion, and a verdict for every station.

Covers   distortion between neighbours off the plane of the whole (tilt), the difference at which work stops, verdicts
         in words for stations, tilt and house; a reading that is missing stops the lift.
Not      which stations are neighbours (an argument), cracks, loads of jacks, error of the instrument.
Signs    risen is positive upward; x east, y north.
Units    m; slopes and distortions are ratios.
Sources  a tilt of the whole does not crack a wall, distortion does: statics. Limits of tilt,
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
    either,
    maximum,
    minimum,
    ratio,
    same,
    sqrt,
    total,
    where,
    within,
    word_where,
)
from calc.tilt import Plane, StationReading, StationRow, plane_of, station_rows

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
class PairRow:
    """Two neighbours."""

    one: Name = note("station")
    other: Name = note("its neighbour")
    measured: Number = quantity("No", "1 where both were read, else 0")
    east: Number = quantity("m", "of the first, seen from the other")
    north: Number = quantity("m", "of the first, seen from the other")
    distance: Number = quantity("m", "between them on plan")
    difference: Number = quantity("m", "difference of what they have risen, tilt and all")
    off: Number = quantity("m", "difference of what they lie off the plane")
    bend: Number = quantity("m", "the same, always positive")
    distortion: Number = quantity("-", "bend over distance")
    alarm: Number = quantity("m", "bend that is corrected")
    stop: Number = quantity("m", "bend that stops the lift")
    share: Number = quantity("-", "bend over the bend that stops the lift")
    corrects: Number = quantity("No", "1 where the bend is over the alarm")
    stops: Number = quantity("No", "1 where the bend is over the stop")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StationVerdict:
    """What is to be done at one station."""

    name: Name = note("station")
    bend: Number = quantity("m", "greatest bend to a neighbour")
    distortion: Number = quantity("-", "greatest distortion to a neighbour")
    share: Number = quantity("-", "greatest bend over the bend that stops the lift there")
    unread: Number = quantity("No", "neighbours that were not read")
    over_stop: Number = quantity("No", "neighbours it is bent from by more than the stop")
    over_alarm: Number = quantity("No", "neighbours it is bent from by more than the alarm")
    moved: Text = note("verdict on its movement alone")
    seen: Text = note("the same, its neighbours looked at")
    stops: Number = quantity("No", "1 where work stops here, else 0")
    verdict: Text = note("in words")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TiltVerdict:
    """What is to be done about the tilt of the whole house."""

    over_stop: Number = quantity("No", "1 where it is over the stop")
    over_alarm: Number = quantity("No", "1 where it is known and over the alarm")
    seen: Text = note("verdict, were it known")
    stops: Number = quantity("No", "1 where it stops the lift or is not known")
    verdict: Text = note("in words")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Movement:
    """The whole house at one reading."""

    plane: Plane
    stations: tuple[StationRow, ...]
    pairs: tuple[PairRow, ...]
    verdicts: tuple[StationVerdict, ...]
    tilt: TiltVerdict
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
    return where(is_weak(masonry, mortar), plain / 2, plain)


def is_weak(masonry: Text, mortar: Text) -> Truth:
    """Whether a wall takes half the difference only: rubble, mud, or mortar of mud or lime or not known.

    Args:
        masonry: kind of masonry
        mortar: mortar of the wall

    >>> is_weak("Brick masonry", "unknown")
    True
    """
    return either(*(same(masonry, word) for word in WEAK_MASONRY), *(same(mortar, word) for word in WEAK_MORTAR))


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
        one=one.name, other=other.name, measured=measured, east=east, north=north, distance=distance,
        difference=difference, off=off, bend=bend,
        distortion=ratio(bend, distance, 0), alarm=alarm, stop=stop, share=ratio(bend, stop, 0),
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
        name=row.name, bend=most, distortion=maximum(0, *(pair.distortion for pair in mine)),
        share=maximum(0, *(pair.share for pair in mine)), unread=unread,
        over_stop=stopped, over_alarm=corrected, moved=moved, seen=seen,
        stops=where(either(stopped > 0, unread > 0, row.measured <= 0), 1, 0),
        verdict=word_where(row.measured > 0, seen, NOT_MEASURED),
    )  # fmt: skip


def tilt_verdict(plane: Plane, limits: MovementLimits) -> TiltVerdict:
    """Verdict on the tilt of the whole house; with fewer than three stations out of one line it is not known."""
    over_stop = where(within(plane.tilt, limits.tilt_stop), 0, 1)
    over_alarm = where(within(plane.tilt, limits.tilt_alarm), 0, 1) * plane.known
    seen = word_where(over_stop > 0, STOP, word_where(over_alarm > 0, CORRECT, WITHIN))
    return TiltVerdict(
        over_stop=over_stop, over_alarm=over_alarm, seen=seen,
        stops=where(either(plane.known <= 0, over_stop > 0), 1, 0),
        verdict=word_where(plane.known > 0, seen, NOT_MEASURED),
    )  # fmt: skip


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
    tilt = tilt_verdict(plane, limits)
    stops = total([row.stops for row in verdicts]) + tilt.stops
    corrects = total([pair.corrects for pair in pairs]) + tilt.over_alarm
    return Movement(
        plane=plane, stations=rows, pairs=pairs, verdicts=verdicts, tilt=tilt,
        stops=stops, corrects=corrects,
        verdict=word_where(stops > 0, STOP, word_where(corrects > 0, CORRECT, WITHIN)),
    )  # fmt: skip
