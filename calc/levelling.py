"""Levelling a settled house: how far each station is lifted, and in what order of small strokes.

Covers   the target plane that asks for the least lifting and lowers nothing, lift of every station, strokes call by
         call so that no neighbours come further apart than the house had them and the stop difference, a common rise.
Not      cracks that close or open, forces in jacks while one corner is worked, readings during the work (movement).
Signs    levels and lifts are positive upward; x east, y north.
Units    m; slopes are ratios.
Sources  geometry. Least lifting is a linear programme in three unknowns, so its answer rests on three stations or on
         the slope allowed. Calls no greater than the stop difference are common practice, no source.

In every call each station goes the same part of its own way, so that the house turns back as it settled: what
neighbours differ by never grows from call to call. Within a call they are stroked one after the other, those with the
longest strokes first, and the difference is looked at after every stroke.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, product

from calc.errors import DomainError, require
from calc.fields import note, quantity

TOLERANCE = 1e-9
"""A difference of level that is rounding [m]."""

Row = tuple[float, float, float, float]  # a, b, c, d of a*height + b*slope_x + c*slope_y = d


@dataclass(frozen=True, slots=True, kw_only=True)
class SettledStation:
    """One station as surveyed."""

    name: str = note("station")
    x: float = quantity("m", "east")
    y: float = quantity("m", "north")
    level: float = quantity("m", "of the same course of the house at this station, above a datum")


@dataclass(frozen=True, slots=True, kw_only=True)
class TargetPlane:
    """Where the stations are lifted to."""

    height: float = quantity("m", "at the origin of x and y, above the datum of the levels")
    slope_x: float = quantity("-", "rise for each metre east")
    slope_y: float = quantity("-", "rise for each metre north")

    def at(self, x: float, y: float) -> float:
        """Height at a place [m].

        Args:
            x: east [m]
            y: north [m]
        """
        return self.height + self.slope_x * x + self.slope_y * y


@dataclass(frozen=True, slots=True, kw_only=True)
class StrokeRules:
    """How the house is moved."""

    call: float = quantity("m", "greatest stroke of one station in one call")
    step: float = quantity("m", "strokes are multiples of this, the last one excepted: what can be read at a jack")
    stop_difference: float = quantity("m", "what neighbours may come further apart than the house had them")


@dataclass(frozen=True, slots=True, kw_only=True)
class StationLift:
    """How far one station is lifted."""

    name: str = note("station")
    lift: float = quantity("m", "up to the target plane")


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """One stroke of one station."""

    call: int = note("number of the call, from 1")
    name: str = note("station")
    stroke: float = quantity("m", "up")
    lifted: float = quantity("m", "up since the start, this stroke included")


@dataclass(frozen=True, slots=True, kw_only=True)
class Levelling:
    """The whole work of levelling, and the common rise after it."""

    plane: TargetPlane
    lifts: tuple[StationLift, ...]
    strokes: tuple[Stroke, ...]
    total: float = quantity("m", "all lifts added up")
    calls: int = note("calls until the house is level")
    excess: float = quantity("m", "most that neighbours ever came further apart than the house had them")
    longest: float = quantity("m", "longest stroke")
    rise_calls: int = note("calls of the common rise after it, every station alike")
    rise_stroke: float = quantity("m", "stroke of every station in each of these")


def least_plane(stations: Sequence[SettledStation], slope: float) -> TargetPlane:
    """The plane through or above every station that asks for the least lifting in all.

    With no slope allowed it is level with the highest station. Where some tilt may stay, a slope saves lifting.

    Args:
        stations: as surveyed
        slope: greatest the plane may have along x and along y [-]

    Raises:
        DomainError: no station, a place or level that is no number, a slope less than 0, or of 1 and more

    >>> house = [SettledStation(name=n, x=x, y=y, level=z) for n, x, y, z in
    ...          (("S1", 0.0, 0.0, 1.000), ("S2", 8.0, 0.0, 0.984), ("S3", 8.0, 6.0, 0.984), ("S4", 0.0, 6.0, 1.000))]
    >>> least_plane(house, 0.0).at(8.0, 0.0), round(least_plane(house, 0.001).at(8.0, 0.0), 6)
    (1.0, 0.992)
    """
    require("number of stations", len(stations), "No", "be at least", 1)
    require("slope", slope, "-", "be at least", 0.0)
    require("slope", slope, "-", "be less than", 1.0)
    for station in stations:
        for what, number in (("x", station.x), ("y", station.y), ("level", station.level)):
            require(f"{what} of {station.name}", abs(number), "m", "be less than", math.inf)
    middle = [math.fsum(values) / len(stations) for values in zip(*((s.x, s.y) for s in stations), strict=True)]
    # Seen from the middle the height of the plane there is what is to be least.
    rows: list[Row] = [(1.0, s.x - middle[0], s.y - middle[1], s.level) for s in stations]
    working = [max(rows, key=lambda row: row[3])]
    while True:
        height, east, north = _least_of(working, slope)
        lowest = max(rows, key=lambda row: row[3] - height - row[1] * east - row[2] * north)
        if lowest in working or lowest[3] - height - lowest[1] * east - lowest[2] * north <= TOLERANCE / 100:
            break
        working.append(lowest)
    height -= east * middle[0] + north * middle[1]
    return TargetPlane(height=height, slope_x=east, slope_y=north)


def _least_of(rows: Sequence[Row], slope: float) -> tuple[float, float, float]:
    """Lowest plane over a few stations: every corner of what is allowed is tried."""
    sides: list[Row] = [(0.0, b, c, d) for b, c in ((1.0, 0.0), (0.0, 1.0)) for d in (slope, 0.0, -slope)]
    corners = [
        (max(d - b * east - c * north for _, b, c, d in rows), east, north)
        for east, north in product((slope, -slope), repeat=2)
    ]
    for three in combinations([*rows, *sides], 3):
        corner = _meeting(*three)
        if corner and max(abs(corner[1]), abs(corner[2])) <= slope * (1 + TOLERANCE) and _over(corner, rows):
            corners.append(corner)
    least = min(height for height, _, _ in corners) + TOLERANCE / 100
    # Of equally low planes the flattest.
    return min((c for c in corners if c[0] <= least), key=lambda corner: math.hypot(corner[1], corner[2]))


def _over(corner: tuple[float, float, float], rows: Sequence[Row]) -> bool:
    """Whether a plane lies on or over some stations."""
    height, east, north = corner
    return all(height + b * east + c * north >= d - TOLERANCE / 100 for _, b, c, d in rows)


def _meeting(one: Row, two: Row, three: Row) -> tuple[float, float, float] | None:
    """The plane that three conditions fix, by Cramer's rule; None where they do not fix one."""
    columns = list(zip(one, two, three, strict=True))
    whole = _determinant(columns[0], columns[1], columns[2])
    size = math.prod(math.hypot(*row[:3]) for row in (one, two, three))
    if abs(whole) <= 1e-12 * size:
        return None
    right = columns[3]
    return (
        _determinant(right, columns[1], columns[2]) / whole,
        _determinant(columns[0], right, columns[2]) / whole,
        _determinant(columns[0], columns[1], right) / whole,
    )


def _determinant(a: Sequence[float], b: Sequence[float], c: Sequence[float]) -> float:
    return (a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0])
            + a[2] * (b[0] * c[1] - b[1] * c[0]))  # fmt: skip


def lifts_to(stations: Sequence[SettledStation], plane: TargetPlane) -> tuple[StationLift, ...]:
    """Lift of every station up to a plane.

    Raises:
        DomainError: a station would have to be lowered
    """
    found = []
    for station in stations:
        lift = plane.at(station.x, station.y) - station.level
        require(f"lift of {station.name}", lift, "m", "be at least", -TOLERANCE)
        found.append(StationLift(name=station.name, lift=max(lift, 0.0)))
    return tuple(found)


def levelling(
    stations: Sequence[SettledStation], plane: TargetPlane, neighbours: Sequence[tuple[str, str]],
    rules: StrokeRules, rise: float,
) -> Levelling:  # fmt: skip
    """Strokes that bring every station up to the plane, and the calls of a common rise after it.

    Args:
        stations: as surveyed
        plane: where they are lifted to
        neighbours: names of two stations side by side, each pair once
        rules: how the house is moved
        rise: common to all, once the house is level [m]

    Raises:
        DomainError: a station would have to be lowered, a rule that is not more than 0, a call less than a step, or no
            strokes of that step keep neighbours within the stop difference
    """
    require("step", rules.step, "m", "be more than", 0.0)
    require("call", rules.call, "m", "be at least", rules.step)
    require("stop difference", rules.stop_difference, "m", "be more than", 0.0)
    require("rise", rise, "m", "be at least", 0.0)
    lifts = lifts_to(stations, plane)
    known = {lift.name: lift.lift for lift in lifts}
    strokes, excess = _strokes_within(known, neighbours, rules)
    rise_calls = _calls(rise, rules.call)
    # Stations of the common rise go up one after the other too.
    require("call of the common rise", min(rules.call, rise), "m", "be at most", rules.stop_difference)
    return Levelling(
        plane=plane, lifts=lifts, strokes=strokes, total=math.fsum(known.values()),
        calls=max((stroke.call for stroke in strokes), default=0), excess=excess,
        longest=max((stroke.stroke for stroke in strokes), default=0.0),
        rise_calls=rise_calls, rise_stroke=rise / rise_calls if rise_calls else 0.0,
    )  # fmt: skip


def _calls(way: float, call: float) -> int:
    return math.ceil(way / call - TOLERANCE)


def _strokes_within(
    lifts: dict[str, float], neighbours: Sequence[tuple[str, str]], rules: StrokeRules
) -> tuple[tuple[Stroke, ...], float]:
    """The fewest calls whose strokes are no longer than a call and keep neighbours together."""
    most = max(lifts.values())
    fewest = _calls(most, rules.call)
    # Once no stroke is more than one step, further calls change nothing.
    last = max(fewest, 2 * _calls(most, rules.step) + 1)
    best = math.inf
    for calls in range(fewest, last + 1):
        strokes = tuple(_strokes(lifts, calls, rules.step))
        excess = _excess(lifts, strokes, neighbours)
        short = all(stroke.stroke <= rules.call + TOLERANCE for stroke in strokes)
        if short and excess <= rules.stop_difference + TOLERANCE:
            return strokes, excess
        best = min(best, excess)
    raise DomainError(
        "what strokes of this step put between neighbours", best, "m", "be at most", rules.stop_difference
    )


def _strokes(lifts: dict[str, float], calls: int, step: float) -> Iterator[Stroke]:
    """Every stroke in order: after each call a station has gone its part, to the nearest step."""
    lifted = dict.fromkeys(lifts, 0.0)
    for call in range(1, calls + 1):
        due = {name: lift if call == calls else min(math.floor(lift * call / calls / step + 0.5) * step, lift)
               for name, lift in lifts.items()}  # fmt: skip
        moving = [name for name in lifts if due[name] - lifted[name] > TOLERANCE]
        for name in sorted(moving, key=lambda name: lifted[name] - due[name]):
            yield Stroke(call=call, name=name, stroke=due[name] - lifted[name], lifted=due[name])
            lifted[name] = due[name]


def _excess(lifts: dict[str, float], strokes: Sequence[Stroke], neighbours: Sequence[tuple[str, str]]) -> float:
    """Most that two neighbours ever come further apart than they were, looked at after every stroke."""
    beside: dict[str, list[str]] = {name: [] for name in lifts}
    for one, other in neighbours:
        beside[one].append(other)
        beside[other].append(one)
    left, excess = dict(lifts), 0.0
    for stroke in strokes:
        left[stroke.name] = lifts[stroke.name] - stroke.lifted
        for other in beside[stroke.name]:
            apart, had = abs(left[stroke.name] - left[other]), abs(lifts[stroke.name] - lifts[other])
            excess = max(excess, apart - had)
    return excess
