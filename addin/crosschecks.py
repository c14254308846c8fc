"""What no single cell shows: rows of the survey held against one another, every fault located.

Covers   the order of the checks, what each needs to be sound before it looks, the order the problems are told in.
Not      one cell's meaning (entries, reader); the checks themselves (cross_allowances, cross_frame, cross_rooms,
         cross_stations, cross_walls, cross_plan, cross_parts); what is unknown (holds).
Signs    none.
Units    none.
Sources  none.
"""

import re
from collections.abc import Iterable

from addin.cross_allowances import check_allowances, check_stroke
from addin.cross_frame import check_grid, check_levels, check_names, check_spellings, check_tapes
from addin.cross_house import Findings, house_of
from addin.cross_parts import check_attached, check_footings
from addin.cross_plan import check_plan, check_storeys
from addin.cross_rooms import check_rooms
from addin.cross_stations import check_stations
from addin.cross_walls import check_lines, check_openings
from addin.entries import folded
from addin.holds import unknowns as unknowns  # part of what this module offers
from addin.layout import SURVEY_TITLES
from addin.problems import Problem
from addin.reader import Reading

_GRID_BROKEN = {"GRID-SAME", "GRID-NO-OFFSET"}
"""Then every distance is wrong, and no geometry is looked at."""

_PLAN_BROKEN = {
    *_GRID_BROKEN, "NAME-TWICE", "NAME-RESERVED", "ROOM-SHAPE", "ROOM-OUTLINE", "ROOM-OVERLAP", "WALL-POINT",
    "BEAM-POINT", "STOREY-GAP",
}  # fmt: skip
"""Then who carries whom cannot be worked out, or would repeat what was said."""

_ORDER = {folded(title): place for place, title in enumerate(SURVEY_TITLES)}


def cross_check(reading: Reading) -> tuple[list[Problem], list[Problem]]:
    """Faults and warnings of a survey whose cells all read.

    Args:
        reading: a survey without faults

    Returns:
        Faults, then warnings, each in the order of the workbook's sheets and rows.
    """
    found = Findings()
    check_allowances(reading, found)
    check_stroke(reading, found)
    if found.faults:
        # Any geometry would rest on a figure that cannot be used.
        return _sorted(found.faults), []
    check_names(reading, found)
    check_spellings(reading, found)
    if "NAME-SPELLING" in found.codes:
        return _sorted(found.faults), []
    house = house_of(reading)
    check_grid(house, found)
    check_levels(house, found)
    check_storeys(house, found)
    check_footings(house, found)
    whole = not found.codes & _GRID_BROKEN
    members = check_lines(house, found) if whole else {}
    if whole:
        check_tapes(house, found)
        check_stations(house, found)
        check_rooms(house, found)
    check_openings(house, members, found)
    check_attached(house, members, found)
    if not found.codes & _PLAN_BROKEN:
        check_plan(house, found)
    return _sorted(found.faults), _sorted(found.warnings)


def _sorted(problems: Iterable[Problem]) -> list[Problem]:
    def place(problem: Problem) -> tuple[int, int]:
        row = re.search("[0-9]+", problem.where.cell)
        return _ORDER.get(folded(problem.where.sheet), len(_ORDER)), int(row[0]) if row else 0

    return sorted(problems, key=place)
