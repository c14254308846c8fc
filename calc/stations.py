"""Stations of a settled house, worked out at issue on floats: who is one, who is beside whom, planes and strokes.

Covers   level readings at grid points, one course and each point once; the next station along each grid line with a
         wall; both planes; strokes, or why there are none.
Not      lifts, tilt, distortion and verdicts, which follow live (settlement).
Signs    levels and lifts positive upward; x east, y north.
Units    m; slopes are ratios.
Sources  none of its own.
"""

from collections.abc import Sequence
from itertools import pairwise

from calc.errors import DomainError, require
from calc.levelling import Levelling, SettledStation, StrokeRules, TargetPlane, least_plane, levelling
from calc.number import Name, text_of, value_of
from calc.survey import Entered, GridPoint, Reading, Survey
from calc.tilt import Plane, StationReading, plane_of

COURSES = ("plinth top", "floor")
"""What is read at a station; of courses read at as many grid points the first counts, for a floor may have been laid
anew."""


def course_of(readings: Sequence[Reading]) -> str:
    """The course read at most grid points.

    Args:
        readings: all of them
    """
    counted = [text_of(reading.what) for reading in readings if reading.point]
    return max(COURSES, key=counted.count)


def station_readings(readings: Sequence[Reading]) -> tuple[Reading, ...]:
    """The readings that are stations: one course, each grid point once, the first reading of it.

    Args:
        readings: all of them
    """
    course, first = course_of(readings), dict[str, Reading]()
    for reading in readings:
        if reading.point and text_of(reading.what) == course:
            first.setdefault(str(reading.point), reading)
    return tuple(first.values())


def neighbours_of(points: Sequence[GridPoint], survey: Survey) -> tuple[tuple[GridPoint, GridPoint, str], ...]:
    """Stations side by side: the next one along each grid line that carries a ground wall, with the line's name.

    Args:
        points: of the stations, each once
        survey: for its grid and its walls
    """
    ground = [wall for wall in survey.walls if wall.storey == 1]
    found = []
    for lines, along, across in ((survey.letters, "letter", "number"), (survey.numbers, "number", "letter")):
        offsets = {text_of(line.name): value_of(line.offset) for line in (*survey.letters, *survey.numbers)}
        for line in lines:
            name = text_of(line.name)
            if not any(getattr(wall.start, along) == getattr(wall.end, along) == name for wall in ground):
                continue
            on = [point for point in points if getattr(point, along) == name]
            on.sort(key=lambda point: offsets[getattr(point, across)])
            found += [(one, other, name) for one, other in pairwise(on)]
    return tuple(found)


def planes_of(stations: Sequence[SettledStation], slope: float) -> tuple[Plane, TargetPlane] | None:
    """The plane the stations lie in and the one they are lifted to; None unless three of them are out of one line.

    Args:
        stations: as surveyed
        slope: that may stay, each way [-]
    """
    fitted = plane_of([
        StationReading(name=Name(s.name), x=s.x, y=s.y, risen=Entered(value=s.level, given=True)) for s in stations
    ])  # fmt: skip
    if len(stations) < 3 or value_of(fitted.known) <= 0:
        return None
    return fitted, least_plane(stations, slope)


def strokes_of(
    stations: Sequence[SettledStation], target: TargetPlane, neighbours: Sequence[tuple[str, str]],
    rules: StrokeRules, rise: float, most: float,
) -> Levelling | str:  # fmt: skip
    """The strokes that level a house, or why there are none.

    Args:
        stations: as surveyed
        target: plane they are lifted to
        neighbours: names of two stations side by side, each pair once
        rules: how the house is moved
        rise: common to all, once the house is level [m]
        most: highest less lowest station beyond which a reading was taken wrong [m]
    """
    levels = [station.level for station in stations]
    try:
        # More would be as many calls as nobody makes.
        require("highest less lowest station", max(levels) - min(levels), "m", "be at most", most)
        return levelling(stations, target, neighbours, rules, rise)
    except DomainError as broken:
        return str(broken)
