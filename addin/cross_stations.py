"""Stations of a settled house: level readings at grid points that cannot be used, or are asked for and missing.

Covers   a house that is levelled without stations, a station read twice, a second course, a station beside no other.
Not      levels that decide the rise (cross_frame), how far each station is lifted (calc.settlement).
Signs    none.
Units    m.
Sources  none.
"""

from addin.cross_house import Findings, House, cell_of
from calc.levelling import SettledStation
from calc.number import text_of, value_of
from calc.stations import COURSES, course_of, neighbours_of, planes_of, station_readings


def check_stations(house: House, found: Findings) -> None:
    """Readings that count for no station, and stations that are too few for what the house is raised for."""
    readings = house.survey.readings
    stations = station_readings(readings)
    points = [reading.point for reading in stations if reading.point]
    read = [SettledStation(name=str(r.point), x=house.at(r.point)[0], y=house.at(r.point)[1], level=value_of(r.level))
            for r in stations if r.point]  # fmt: skip
    if planes_of(read, 0.0) is None:
        _check_reason(house, found)
        return
    beside = {point for one, other, _ in neighbours_of(points, house.survey) for point in (one, other)}
    for row, reading in zip(house.table("Levels"), readings, strict=True):
        if not reading.point or text_of(reading.what) not in COURSES:
            continue
        station, where = f"the station at {reading.point}", cell_of(row, "point")
        if text_of(reading.what) != course_of(readings):
            found.warn("STATION-COURSE", cell_of(row, "what"), station, f"read on the {text_of(reading.what)}",
                       f"most are read on the {course_of(readings)}, and one course is levelled",
                       "Read one course at every grid point, or give this reading another name.")  # fmt: skip
        elif reading not in stations:
            found.warn("STATION-TWICE", where, station, "read twice", "the first reading is used",
                       "Take one of them out.")  # fmt: skip
        elif reading.point not in beside:
            found.warn("STATION-ALONE", where, station, "beside no other station",
                       "distortion is looked at between stations on one grid line with a wall",
                       "Read the next grid points along its walls as well.")  # fmt: skip


def _check_reason(house: House, found: Findings) -> None:
    reason = house.reading.job["reason"]
    if reason.value == "levelling":
        found.warn("LEVELLING-NO-STATIONS", reason.where, "the reason", "levelling",
                   "no three stations out of one line are read, so nothing says how far each is lifted",
                   "On Levels, read floor or plinth top at the grid points, such as B3.")  # fmt: skip
