"""Rows of a settled house: how it stands now, and how each station is lifted until it is level.

Covers   one record for each station, pair of neighbours, wall, plane and count of strokes.
Not      how they are found (settlement).
Signs    levels and lifts positive upward; x east, y north.
Units    m; slopes, tilts and distortions are ratios.
Sources  none of its own.
"""

from dataclasses import dataclass

from calc.checks import CheckRow
from calc.fields import note, quantity
from calc.levelling import Stroke
from calc.number import Name, Number, Text


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StationLevel:
    """One station: a level reading at a grid point."""

    name: Name = note("grid point")
    letter: Name = note("its letter line")
    number: Name = note("its number line")
    x: Number = quantity("m", "east")
    y: Number = quantity("m", "north")
    level: Number = quantity("m", "of the course, above the datum of the readings")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StationLift(StationLevel):
    """How far one station is lifted."""

    target: Number = quantity("m", "level it is lifted to")
    lift: Number = quantity("m", "lift up to the target plane")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Planes:
    """The plane the house lies in now, and the one it is lifted to; worked out at issue."""

    now_x: Number = quantity("-", "slope of the plane through the stations as they stand, rise for each metre east")
    now_y: Number = quantity("-", "the same for each metre north")
    height: Number = quantity("m", "target plane at the origin of the grid, above the datum")
    slope_x: Number = quantity("-", "slope of the target plane, rise for each metre east")
    slope_y: Number = quantity("-", "the same for each metre north")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StationPair:
    """Two neighbours as the house stands."""

    one: Name = note("station")
    other: Name = note("its neighbour")
    line: str = note("grid line")
    east: Number = quantity("m", "from the other to the one, east")
    north: Number = quantity("m", "the same, north")
    distance: Number = quantity("m", "between them")
    difference: Number = quantity("m", "difference of their levels, tilt and all")
    off: Number = quantity("m", "the same once the tilt of the whole is taken off")
    bend: Number = quantity("m", "the same, always positive")
    alarm: Number = quantity("m", "bend that is corrected")
    stop: Number = quantity("m", "bend that stops a lift")
    distortion: Number = quantity("-", "bend over distance")
    one_in: Number = quantity("-", "distance over bend: 1 in so many; 0 where there is no bend")
    verdict: Text = note("in words")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WallDifference:
    """One ground wall and what its neighbours may come apart while it is lifted."""

    name: Name = note("wall")
    masonry: Text = note("masonry")
    mortar: Text = note("mortar")
    weak: Number = quantity("No", "1 for rubble, and for mud, lime or unknown mortar")
    difference: Number = quantity("m", "difference between neighbours that stops the lift, half in weak masonry")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HouseNow:
    """The whole house as it stands, and the lifting it asks for."""

    course: str = note("what was read at the stations")
    stations: Number = quantity("No", "stations")
    spread: Number = quantity("m", "highest less lowest station")
    settled: Number = quantity("No", "1 where the spread is more than what counts as level")
    state: Text = note("in words")
    tilt: Number = quantity("-", "steepest slope of the plane through the stations")
    tilt_in: Number = quantity("-", "1 in so many; 0 where there is no tilt")
    tilt_alarm: Number = quantity("-", "tilt that is corrected")
    tilt_stop: Number = quantity("-", "tilt that stops a lift")
    tilt_over: Number = quantity("No", "1 where it is more than that")
    tilt_verdict: Text = note("in words")
    distortion: Number = quantity("-", "greatest distortion between neighbours")
    total: Number = quantity("m", "all lifts added up")
    mean: Number = quantity("m", "mean lift: what levelling alone raises the floor by")
    greatest: Number = quantity("m", "greatest lift")
    tilt_left: Number = quantity("-", "tilt of the target plane, which stays")
    rise: Number = quantity("m", "rise common to all stations once the house is level")
    difference: Number = quantity("m", "what neighbours may come further apart while it is levelled")
    call: Number = quantity("m", "greatest stroke of one station in one call")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StrokeCounts:
    """The strokes in short; worked out at issue."""

    calls: Number = quantity("No", "calls until the house is level")
    strokes: Number = quantity("No", "strokes of all stations")
    longest: Number = quantity("m", "longest stroke")
    excess: Number = quantity("m", "most that neighbours come further apart on the way than the house had them")
    rise_calls: Number = quantity("No", "calls of the common rise after it")
    rise_stroke: Number = quantity("m", "stroke of every station in each of these")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Settlement:
    """A settled house; without stations there is nothing in it, with too few of them no plane."""

    stations: tuple[StationLevel, ...] = note("all that were read")
    lifts: tuple[StationLift, ...] = note("the same; none where the plane is not known")
    pairs: tuple[StationPair, ...]
    walls: tuple[WallDifference, ...]
    planes: tuple[Planes, ...] = note("one; none where the plane is not known")
    house: tuple[HouseNow, ...] = note("one; none where the plane is not known")
    counts: tuple[StrokeCounts, ...] = note("one; none where the house is level, or no strokes keep it together")
    strokes: tuple[Stroke, ...] = note("in order, as at issue")
    why_not: str = note("why there are no strokes; empty where there are, or none are needed")
    checks: tuple[CheckRow, ...]
    known: int = note("1 where three stations or more out of one line were read, else 0")
