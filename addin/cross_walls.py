"""Walls, beams, columns and openings on plan and in elevation.

Covers   members without length or on top of one another, ends that meet nothing, openings past the end or the top of
         their wall, over one another or in a junction, windows left open for the lift.
Not      who carries whom (cross_plan).
Signs    distances along a wall from its From point, heights above floor.
Units    m.
Sources  conventions of calc.plan.
"""

import math
from collections.abc import Mapping, Sequence

from addin.cross_house import Findings, House, cell_of, metres, name_of
from addin.reader import Row
from calc.nearby import Nearby
from calc.number import text_of, value_of
from calc.outlines import Point
from calc.plan_rows import TOLERANCE, Member
from calc.survey import Opening

_ROUNDING = 1e-6


def check_lines(house: House, found: Findings) -> dict[str, Member]:
    """Walls, beams and columns on plan; returns the walls and beams that have a length, by name."""
    sound: list[tuple[str, Row, Member]] = []
    for title, row, member in house.lines():
        if member.length > TOLERANCE:
            sound.append((title, row, member))
            continue
        code = "WALL-POINT" if title == "Walls" else "BEAM-POINT"
        found.fault(code, cell_of(row, "end"), f"the To point of {name_of(row)}", str(member.to_point),
                    "it starts there too, so it has no length", "Type the point at its other end.")  # fmt: skip
    for title in ("Walls", "Beams"):
        _check_overlaps([(row, member) for sheet, row, member in sound if sheet == title], title, found)
    _check_columns(house, found)
    columns = [(c.storey, house.at(c.point), max(value_of(c.breadth), value_of(c.depth)) / 2)
               for c in house.survey.columns]  # fmt: skip
    members = [member for _, _, member in sound]
    filed = Nearby(((member.start, member.end), member) for member in members)
    widest = max((member.half for member in members), default=0.0)
    for title, row, member in sound:
        if title == "Walls":
            near = filed.near((member.start, member.end), widest + TOLERANCE)
            company = any(m.kind == "wall" and m.storey == member.storey and m is not member for m in members)
            _check_ends(row, member, near, columns, company, found)
    return {member.name: member for member in members}


def _check_overlaps(lines: Sequence[tuple[Row, Member]], title: str, found: Findings) -> None:
    code, what = ("WALL-OVERLAP", "wall") if title == "Walls" else ("BEAM-OVERLAP", "beam")
    filed = Nearby(((member.start, member.end), order) for order, (_, member) in enumerate(lines))
    widest = max((member.half for _, member in lines), default=0.0)
    for order, (row, member) in enumerate(lines):
        near = filed.near((member.start, member.end), 2 * widest)
        for earlier, other in (lines[at] for at in near if at < order):
            if member.storey != other.storey or not other.parallel(member.start, member.end):
                continue
            if title == "Beams" and (row["plinth_beam"].value == "yes") != (earlier["plinth_beam"].value == "yes"):
                continue  # one at the plinth, one at the ceiling
            low, high = sorted((other.along(member.start), other.along(member.end)))
            run, apart = min(high, other.length) - max(low, 0.0), other.off(member.at(member.length / 2))
            if run <= TOLERANCE:
                continue
            if apart <= TOLERANCE:
                found.fault(code, cell_of(row, "start"), f"{what} {member.name}",
                            f"on {what} {other.name} for {metres(run)}", "its weight would be counted twice",
                            "Correct the points of one of them, or take one out.")  # fmt: skip
            elif apart < member.half + other.half - TOLERANCE:
                found.warn(code.replace("OVERLAP", "CLOSE"), cell_of(row, "start"), f"{what} {member.name}",
                           f"{metres(apart)} beside {what} {other.name}",
                           "with their thicknesses they run into one another",
                           "Check points and thicknesses.")  # fmt: skip


def _check_columns(house: House, found: Findings) -> None:
    pairs = list(zip(house.table("Columns"), house.survey.columns, strict=True))
    for order, (row, column) in enumerate(pairs):
        for _, other in pairs[:order]:
            if column.storey == other.storey and math.dist(house.at(column.point), house.at(other.point)) <= TOLERANCE:
                found.fault("COLUMN-SAME", cell_of(row, "point"), f"column {text_of(column.name)}",
                            f"at {column.point}", f"column {text_of(other.name)} of that storey stands there already",
                            "Correct the point or the storey, or take one out.")  # fmt: skip


def _distance(member: Member, point: Point) -> float:
    """From a point to the nearest place on a member [m]."""
    return math.dist(member.at(min(max(member.along(point), 0.0), member.length)), point)


def _check_ends(
    row: Row,
    wall: Member,
    members: Sequence[Member],
    columns: Sequence[tuple[int, Point, float]],
    company: bool,
    found: Findings,
) -> None:
    """Free ends of a wall among the members near it; `company` is whether its storey has any other wall."""
    near = [m for m in members if m.storey == wall.storey and m is not wall]
    posts = [(place, half) for storey, place, half in columns if storey == wall.storey]
    free = []
    for key, end in (("start", wall.start), ("end", wall.end)):
        held = any(_distance(m, end) <= m.half + TOLERANCE for m in near)
        if not held and not any(math.dist(place, end) <= half + TOLERANCE for place, half in posts):
            free.append(key)
    touched = any(wall.crossing(m) is not None for m in near)
    touched = touched or any(_distance(wall, place) <= wall.half + half for place, half in posts)
    if len(free) == 2 and company and not touched:
        found.fault("WALL-ALONE", cell_of(row, "start"), f"wall {wall.name}", f"alone from {wall.from_point} to "
                    f"{wall.to_point}", "no wall, beam or column of its storey meets it",
                    "Check its points and its storey, and the points of its neighbours.")  # fmt: skip
        return
    for key in free if company else ():
        point = wall.from_point if key == "start" else wall.to_point
        found.warn("FREE-END", cell_of(row, key), f"the end of wall {wall.name} at {point}", "free",
                   "no wall, beam or column of its storey meets it there",
                   "Check the point; nothing needs doing if the wall ends so.")  # fmt: skip


# ---------------------------------------------------------------------------------------------- openings


def check_openings(house: House, members: Mapping[str, Member], found: Findings) -> None:
    """Openings against their wall and one another; walls without a length are passed over.

    Args:
        house: the house
        members: walls and beams that have a length, by name; empty where the grid is faulty
        found: collects the problems
    """
    walls = {text_of(wall.name): wall for wall in house.survey.walls}
    pairs = list(zip(house.table("Openings"), house.survey.openings, strict=True))
    for order, (row, opening) in enumerate(pairs):
        wall = walls[text_of(opening.wall)]
        top, height = value_of(opening.sill) + value_of(opening.height), value_of(wall.height)
        if top > height + _ROUNDING:
            what = f"the top of the {text_of(opening.kind)} in {wall.name}"
            found.fault("OPENING-HIGH", cell_of(row, "height"), what, f"{metres(top)} above floor",
                        f"the wall is {metres(height)} high",
                        "Correct its height or sill, or the height of the wall.")  # fmt: skip
        for other_row, other in pairs[:order]:
            _check_pair(row, opening, other_row, other, found)
        if text_of(opening.kind) == "window" and wall.storey == 1 and text_of(opening.block_up) == "no":
            found.warn("WINDOW-OPEN", cell_of(row, "block_up"), f"the window in {wall.name}", "left open for the lift",
                       "the load above it then goes to its jambs, which the even line load does not show",
                       "Block it up, or have the jambs looked at.")  # fmt: skip
        member = members.get(text_of(wall.name))
        if member is not None:
            _check_run(row, opening, member, members, found)


def _interval(opening: Opening) -> tuple[float, float]:
    start = value_of(opening.from_start)
    return start, start + value_of(opening.width)


def _check_pair(row: Row, opening: Opening, other_row: Row, other: Opening, found: Findings) -> None:
    if text_of(opening.wall) != text_of(other.wall):
        return
    (a, b), (c, d) = _interval(opening), _interval(other)
    low, other_low = value_of(opening.sill), value_of(other.sill)
    high, other_high = low + value_of(opening.height), other_low + value_of(other.height)
    across, upright = min(b, d) - max(a, c), min(high, other_high) - max(low, other_low)
    if across > _ROUNDING and upright > _ROUNDING:
        what = f"the {text_of(opening.kind)} in {text_of(opening.wall)}"
        found.fault("OPENING-OVERLAP", cell_of(row, "from_start"), what, f"from {metres(a)} to {metres(b)}",
                    f"row {other_row.number} has a {text_of(other.kind)} from {metres(c)} to {metres(d)}",
                    "Correct one of them, or take one out.")  # fmt: skip


def _check_run(row: Row, opening: Opening, wall: Member, members: Mapping[str, Member], found: Findings) -> None:
    start, end = _interval(opening)
    what = f"the {text_of(opening.kind)} in {wall.name}"
    if end > wall.length + TOLERANCE:
        key = "from_start" if start >= wall.length else "width"
        found.fault("OPENING-BEYOND", cell_of(row, key), what, f"from {metres(start)} to {metres(end)}",
                    f"the wall ends at {metres(wall.length)}",
                    "Measure from the wall's From point to the near jamb, and check the width.")  # fmt: skip
        return
    for other in members.values():
        if other.kind != "wall" or other.storey != wall.storey or other is wall:
            continue
        place = wall.crossing(other)
        if place is not None and min(end, place + other.half) - max(start, place - other.half) > 2 * TOLERANCE:
            found.warn("OPENING-AT-JUNCTION", cell_of(row, "from_start"), what,
                       f"from {metres(start)} to {metres(end)}", f"wall {other.name} meets the wall there, at "
                       f"{metres(place)}", "Measure again from the wall's From point.")  # fmt: skip
