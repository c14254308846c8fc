"""Plane through the readings of a house: its tilt as a whole, and what each station lies off it.

Covers   least squares in closed form, every sum a field of its own so that a sheet can show it; stations not read.
Not      limits and verdicts (movement), error of the instrument.
Signs    risen is positive upward; x east, y north; a slope is positive where the house stands higher to the east or
         north.
Units    m; slopes are ratios.
Sources  least squares.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from calc.fields import note, quantity
from calc.number import Name, Number, ratio, rounded, sqrt, total, where
from calc.survey import Entered


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StationReading:
    """One station and how far it has risen."""

    name: Name = note("station")
    x: Number = quantity("m", "east")
    y: Number = quantity("m", "north")
    risen: Entered = note("how far it has risen, m; not given where nobody read it")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StationPart:
    """What one station puts into the plane; all 0 where it was not read."""

    name: Name = note("station")
    measured: Number = quantity("No", "1 where it was read, else 0")
    x: Number = quantity("m", "east")
    y: Number = quantity("m", "north")
    risen: Number = quantity("m", "as read")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StationOff:
    """One station from the middle of all that were read, and its products; all 0 where it was not read."""

    name: Name = note("station")
    east: Number = quantity("m", "east of the middle")
    north: Number = quantity("m", "north of the middle")
    up: Number = quantity("m", "risen more than the mean")
    xx: Number = quantity("m2", "east squared")
    xy: Number = quantity("m2", "east times north")
    yy: Number = quantity("m2", "north squared")
    xr: Number = quantity("m2", "east times up")
    yr: Number = quantity("m2", "north times up")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Spread:
    """How stations spread about their middle: whether a plane can be told from a line."""

    sum_xx: Number = quantity("m2", "sum of squares east of the middle")
    sum_xy: Number = quantity("m2", "sum of products east and north")
    sum_yy: Number = quantity("m2", "sum of squares north of the middle")
    whole: Number = quantity("m2", "sum of squares both ways")
    both_ways: Number = quantity("m4", "what the two directions are told apart by")
    spread: Number = quantity("-", "1 where stations spread alike both ways, 0 where all stand in one line")
    known: Number = quantity("No", "1 where they do not stand in one line, else 0")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Plane:
    """The plane that fits the readings best, and the sums it comes from; only stations that were read count."""

    parts: tuple[StationPart, ...]
    offs: tuple[StationOff, ...]
    read: Number = quantity("No", "stations that were read")
    x: Number = quantity("m", "their middle, east")
    y: Number = quantity("m", "their middle, north")
    risen: Number = quantity("m", "their mean rise")
    sum_xx: Number = quantity("m2", "sum of squares east of the middle")
    sum_xy: Number = quantity("m2", "sum of products east and north")
    sum_yy: Number = quantity("m2", "sum of squares north of the middle")
    sum_xr: Number = quantity("m2", "sum of products east and risen")
    sum_yr: Number = quantity("m2", "sum of products north and risen")
    whole: Number = quantity("m2", "sum of squares both ways")
    both_ways: Number = quantity("m4", "what the two directions are told apart by")
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


def plane_of(readings: Sequence[StationReading]) -> Plane:
    """Plane through the readings by least squares, in closed form so that a sheet can show every sum.

    Where all stations that were read stand in one line, the slope across that line is taken as none and `known` is 0.

    >>> level = [StationReading(name=Name(n), x=x, y=y, risen=Entered(value=0.1 + 0.002 * x, given=True))
    ...          for n, x, y in (("S1", 0.0, 0.0), ("S2", 6.0, 0.0), ("S3", 2.0, 5.0))]
    >>> plane = plane_of(level)
    >>> round(plane.slope_x, 6), round(abs(plane.slope_y), 6)
    (0.002, 0.0)
    """
    parts = tuple(_part(reading) for reading in readings)
    read = total([part.measured for part in parts])
    x, y = ratio(total([part.x for part in parts]), read, 0), ratio(total([part.y for part in parts]), read, 0)
    risen = ratio(total([part.risen for part in parts]), read, 0)
    offs = tuple(_off(part, x, y, risen) for part in parts)
    sum_xx, sum_xy, sum_yy = total([o.xx for o in offs]), total([o.xy for o in offs]), total([o.yy for o in offs])
    sum_xr, sum_yr = total([o.xr for o in offs]), total([o.yr for o in offs])
    spread = spread_of(sum_xx, sum_xy, sum_yy)
    slope_x, slope_y = slopes_of(spread, sum_xr, sum_yr)
    return Plane(
        parts=parts, offs=offs, read=read, x=x, y=y, risen=risen, sum_xx=sum_xx, sum_xy=sum_xy, sum_yy=sum_yy,
        sum_xr=sum_xr, sum_yr=sum_yr, whole=spread.whole, both_ways=spread.both_ways, spread=spread.spread,
        slope_x=slope_x, slope_y=slope_y, tilt=sqrt(slope_x * slope_x + slope_y * slope_y), known=spread.known,
    )  # fmt: skip


def spread_of(sum_xx: Number, sum_xy: Number, sum_yy: Number) -> Spread:
    """How stations spread, from their sums about their middle.

    Args:
        sum_xx: sum of squares east of the middle [m2]
        sum_xy: sum of products east and north [m2]
        sum_yy: sum of squares north of the middle [m2]
    """
    whole, both_ways = sum_xx + sum_yy, sum_xx * sum_yy - sum_xy * sum_xy
    spread = ratio(4 * both_ways, whole * whole, 0)
    return Spread(sum_xx=sum_xx, sum_xy=sum_xy, sum_yy=sum_yy, whole=whole, both_ways=both_ways, spread=spread,
                  known=where(rounded(spread, 9) > 0, 1, 0))  # fmt: skip


def slopes_of(spread: Spread, sum_xr: Number, sum_yr: Number) -> tuple[Number, Number]:
    """Slopes east and north of the plane; where all stations stand in one line, along that line [-].

    Args:
        spread: of the stations
        sum_xr: sum of products east and risen [m2]
        sum_yr: sum of products north and risen [m2]

    >>> slopes_of(spread_of(8.0, 0.0, 2.0), 0.016, 0.001)
    (0.002, 0.0005)
    """
    s = spread
    return (
        where(s.known > 0, ratio(sum_xr * s.sum_yy - sum_yr * s.sum_xy, s.both_ways, 0), ratio(sum_xr, s.whole, 0)),
        where(s.known > 0, ratio(sum_yr * s.sum_xx - sum_xr * s.sum_xy, s.both_ways, 0), ratio(sum_yr, s.whole, 0)),
    )


def _part(reading: StationReading) -> StationPart:
    measured = where(reading.risen.given, 1, 0)
    return StationPart(name=reading.name, measured=measured, x=reading.x * measured, y=reading.y * measured,
                       risen=reading.risen.value * measured)  # fmt: skip


def _off(part: StationPart, x: Number, y: Number, risen: Number) -> StationOff:
    east, north = part.x - x * part.measured, part.y - y * part.measured
    up = part.risen - risen * part.measured
    return StationOff(name=part.name, east=east, north=north, up=up, xx=east * east, xy=east * north, yy=north * north,
                      xr=east * up, yr=north * up)  # fmt: skip


def station_rows(readings: Sequence[StationReading], plane: Plane) -> tuple[StationRow, ...]:
    """Every station against the plane."""
    rows = []
    for reading, part in zip(readings, plane.parts, strict=True):
        on_plane = plane.risen + plane.slope_x * (reading.x - plane.x) + plane.slope_y * (reading.y - plane.y)
        residual = (part.risen - on_plane) * part.measured
        rows.append(StationRow(name=part.name, measured=part.measured, risen=part.risen, plane=on_plane,
                               residual=residual))  # fmt: skip
    return tuple(rows)
