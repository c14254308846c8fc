"""Rooms on plan: each an outline that can be roofed, none on top of another.

Covers   corners or outline, outlines that enclose no clear area, shapes no slab can be shared over, overlaps,
         upper rooms over nothing.
Not      who carries the slabs (cross_plan).
Signs    x along letters, y along numbers.
Units    m, m2.
Sources  the shapes are those of calc.outlines.
"""

from addin.cross_house import Findings, House, cell_of, name_of, storey_of
from addin.entries import shown, split_point
from addin.problems import CellRef
from addin.reader import Row
from calc.errors import CalcError, DomainError
from calc.nearby import Nearby
from calc.outlines import Point, check_outline, is_convex, is_right_angled, polygon_area, polygons_overlap_area
from calc.survey import GridPoint

LEAST_OVERLAP = 0.02
"""Overlaps below this are roundings of the grid [m2]."""

LEAST_OVERHANG = 0.05
"""An upper room may miss what is under it by this [m2] before it is worth saying."""

_TWO_CORNERS = "Type two corners across from each other, such as A1 and B3, or an outline such as A1 B1 B3 A3."


def check_rooms(house: House, found: Findings) -> None:
    """Every room, then each against the others of its storey and those under it."""
    outlines = {}
    for row in house.table("Rooms"):
        outline = _outline(house, row, found)
        if outline is not None:
            outlines[row.index] = outline
    rows = [row for row in house.table("Rooms") if row.index in outlines]
    _check_overlaps(rows, outlines, found)
    _check_over_nothing(rows, outlines, found)
    ground = [row for row in house.table("Rooms") if storey_of(row) == 1]
    if not ground:
        first = house.table("Rooms")[0]
        found.warn("STOREY-NO-ROOM", cell_of(first, "storey"), "the ground storey", "without a room",
                   "its floors and its floor area are left out", "Add its rooms, or correct the storeys.")  # fmt: skip


def _place(row: Row) -> CellRef:
    return cell_of(row, "corner" if row["outline"].value is None else "outline")


def _outline(house: House, row: Row, found: Findings) -> tuple[Point, ...] | None:
    """The corners in order; None where they make no outline, which has then been said."""
    corners, outline = (row["corner"].value, row["opposite"].value), row["outline"].value
    name = f"room {name_of(row)}"
    if outline is not None and corners != (None, None):
        found.fault("ROOM-SHAPE", cell_of(row, "outline"), name, "given by corners and by an outline",
                    "only one of them can count", "Clear the corners, or clear the outline.")  # fmt: skip
        return None
    if isinstance(outline, tuple):
        points = [GridPoint(*split_point(point)) for point in outline]
    elif None in corners:
        missing = "corner" if corners[0] is None else "opposite"
        what = "without corners or outline" if corners == (None, None) else "given by one corner"
        found.fault("ROOM-SHAPE", cell_of(row, missing), name, what, "its shape has to be known", _TWO_CORNERS)
        return None
    else:
        a, b = (GridPoint(*split_point(str(corner))) for corner in corners)
        points = [a, GridPoint(b.letter, a.number), b, GridPoint(a.letter, b.number)]
        if a.letter == b.letter or a.number == b.number:
            found.fault("ROOM-OUTLINE", cell_of(row, "opposite"), f"the opposite corner of {name}", shown(str(b)),
                        f"it lies on one line with {a}, so the room has no area",
                        "Type the corner across the room.")  # fmt: skip
            return None
    places = tuple(house.at(point) for point in points)
    return places if _is_sound(row, places, found) else None


def _is_sound(row: Row, outline: tuple[Point, ...], found: Findings) -> bool:
    name, where = f"the outline of room {name_of(row)}", _place(row)
    typed = row["outline"].value
    text = shown(" ".join(typed) if isinstance(typed, tuple) else f"{row['corner'].value} {row['opposite'].value}")
    try:
        check_outline(outline)
    except CalcError as refused:
        flat = "it encloses no area: its points lie on one line, or out of order"
        why = flat if isinstance(refused, DomainError) else str(refused)
        found.fault("ROOM-OUTLINE", where, name, text, why,
                    "Name the corners in order round the room, each once.")  # fmt: skip
        return False
    covered = row["above"].value != "none" and str(row["span"].value or "auto").startswith("auto")
    floored = row["floor"].value == "suspended" and storey_of(row) == 1
    if (covered or floored) and not is_convex(outline) and not is_right_angled(outline):
        found.fault("ROOM-OUTLINE", where, name, text,
                    "a slab with an inner corner and slanting sides cannot be shared out onto its walls",
                    "Part the room in two where the slab is parted, or choose the span of the slab.")  # fmt: skip
        return False
    return True


def _check_overlaps(rows: list[Row], outlines: dict[int, tuple[Point, ...]], found: Findings) -> None:
    filed = Nearby((outlines[row.index], order) for order, row in enumerate(rows))
    for order, row in enumerate(rows):
        for other in (rows[at] for at in filed.near(outlines[row.index], 0.0) if at < order):
            if storey_of(row) != storey_of(other):
                continue
            common = polygons_overlap_area(outlines[row.index], outlines[other.index])
            if common > LEAST_OVERLAP:
                found.fault("ROOM-OVERLAP", _place(row), f"room {name_of(row)}",
                            f"over {common:.2f} m2 of room {name_of(other)}",
                            "the slab there would be counted twice",
                            f"Correct the corners of {name_of(row)} or {name_of(other)}.")  # fmt: skip


def _check_over_nothing(rows: list[Row], outlines: dict[int, tuple[Point, ...]], found: Findings) -> None:
    filed = Nearby((outlines[row.index], row) for row in rows)
    for row in rows:
        storey, outline = storey_of(row), outlines[row.index]
        if storey == 1:
            continue
        near = [other for other in filed.near(outline, 0.0) if storey_of(other) == storey - 1]
        under = [other for other in near if other["above"].value in (None, "slab")]
        bare = polygon_area(outline) - sum(polygons_overlap_area(outline, outlines[o.index]) for o in under)
        if bare > LEAST_OVERHANG:
            found.warn("ROOM-OVER-NOTHING", _place(row), f"room {name_of(row)}",
                       f"over nothing for {bare:.2f} m2", "no room with a slab over it lies under that part",
                       "Check the corners; a slab that sticks out goes on Attached as a balcony.")  # fmt: skip
