"""Things attached and footings, each against what it belongs to.

Covers   one place for each thing, a weight or sizes to work it out from, a slab to stand on, an end within its wall;
         one footing for each ground wall, a cut above the footing, a plinth as thick as its wall.
Not      weights.
Signs    the cut level is negative below floor.
Units    m, mm in messages about thickness.
Sources  common practice, no source: the gap of 0.15 m between levels of plinth and footing that is worth a word.
"""

from collections.abc import Mapping

from addin.cross_house import Findings, House, cell_of, metres, name_of, number_of, storey_of
from addin.entries import shown
from addin.problems import CellRef
from addin.reader import Row
from calc.number import text_of, value_of
from calc.plan_rows import TOLERANCE, Member
from calc.survey import Footing

_ROUNDING = 1e-6
FOOTING_GAP = 0.15
"""Floor to footing top worked out two ways may differ by this [m]."""

_ON_AN_EDGE = ("parapet", "balcony", "sunshade", "hanging wall", "kitchen platform")


def check_attached(house: House, members: Mapping[str, Member], found: Findings) -> None:
    """Things that hang on, stand on or stick out.

    Args:
        house: the house
        members: walls and beams that have a length, by name; empty where the grid is faulty
        found: collects the problems
    """
    rooms = {name_of(row): row for row in house.table("Rooms")}
    long = {name_of(row) for title in ("Walls", "Beams") for row in house.table(title)}
    for row in house.table("Attached"):
        names = row["on"].value
        on = names[0] if isinstance(names, tuple) else str(names)
        if isinstance(names, tuple) and len(names) > 1:
            found.fault("ATTACHED-ONE", cell_of(row, "on"), f"the place of {name_of(row)}", shown(" ".join(names)),
                        "one row belongs to one wall, beam, column or room",
                        "Make a row for each of them, with its part of the weight.")  # fmt: skip
            continue
        _check_weight(row, on in long, found)
        if on in rooms:
            _check_room(row, rooms[on], found)
        if on not in long and row["kind"].value in _ON_AN_EDGE:
            found.warn("ATTACHED-EDGE", cell_of(row, "on"), f"{row['kind'].value} {name_of(row)}", f"on {on}",
                       "it hangs along a wall or a beam, and its load is spread over all of it otherwise",
                       "Name the wall or beam it hangs on.")  # fmt: skip
        if on in members:
            _check_end(row, members[on], found)


def _check_weight(row: Row, along: bool, found: Findings) -> None:
    """A weight, or a length, thickness and height to work it out from; along a wall a blank length is all of it."""
    if number_of(row, "weight") is not None:
        return
    wanted = {"length": "length", "thickness": "thickness", "size": "height or projection"}
    missing = [
        title for key, title in wanted.items()
        if not number_of(row, key) and not (key == "length" and along and row[key].blank)
    ]  # fmt: skip
    if missing:
        found.fault("ATTACHED-NO-WEIGHT", cell_of(row, "weight"), f"the weight of {name_of(row)}",
                    "unknown" if row["weight"].unknown else "blank",
                    f"it cannot be worked out without its {' and '.join(missing)}",
                    "Type a weight, or the sizes; a careful guess is better than nothing.")  # fmt: skip


OF_A_WALL = ("kitchen platform", "stair", "balcony", "sunshade")
"""Kinds that a room cannot carry: on a room stands what loads the slab over it."""


def _check_room(row: Row, room: Row, found: Findings) -> None:
    if row["kind"].value in OF_A_WALL:
        found.fault("ATTACHED-NOT-A-ROOM", cell_of(row, "on"), f"the place of {name_of(row)}", f"room {name_of(room)}",
                    f"a {row['kind'].value} hangs on or stands against a wall, and what is put on a room "
                    f"loads the slab "
                    "over it", "Name the wall or beam.")  # fmt: skip
        return
    if room["above"].value == "none":
        found.fault("ATTACHED-NO-SLAB", cell_of(row, "on"), f"the place of {name_of(row)}", f"room {name_of(room)}",
                    "nothing is over that room, and a thing on a room stands on the slab over it",
                    "Name the wall, beam or room it stands on, or say slab under Above on Rooms.")  # fmt: skip


def _check_end(row: Row, member: Member, found: Findings) -> None:
    start, length = number_of(row, "from_start") or 0.0, number_of(row, "length")
    end = max(start, member.length) if length is None else start + length
    if end <= member.length + TOLERANCE:
        return
    key = "length" if length is not None and start < member.length else "from_start"
    found.fault("ATTACHED-BEYOND", cell_of(row, key), name_of(row),
                f"from {metres(start)} to {metres(end)} along {member.name}",
                f"{member.name} ends at {metres(member.length)}",
                "Type its length, and measure from the From point to its near end.")  # fmt: skip


# ---------------------------------------------------------------------------------------------- footings


def check_footings(house: House, found: Findings) -> None:
    """Footings, the cut above them, and the walls on them."""
    walls = {text_of(wall.name): wall for wall in house.survey.walls}
    storeys = {name_of(row): storey_of(row) for title in ("Walls", "Columns") for row in house.table(title)}
    served: dict[str, CellRef] = {}
    for row, footing in zip(house.table("Footings"), house.survey.footings, strict=True):
        where = cell_of(row, "members")
        for name in footing.members:
            earlier = served.setdefault(name, where)
            if earlier is not where:
                found.fault("FOOTING-TWICE", where, f"the footing of {name}", "given here again",
                            f"{earlier} has it already", "Name each wall and column once.")  # fmt: skip
            if storeys[name] > 1:
                found.fault("FOOTING-UPPER", where, name, f"on storey {storeys[name]}",
                            "only what stands on storey 1 has a footing", "Take it out of this row.")  # fmt: skip
            elif name in walls and value_of(walls[name].thickness) > value_of(footing.plinth_thickness) + _ROUNDING:
                found.warn("PLINTH-THIN", cell_of(row, "plinth_thickness"), "the plinth",
                           f"{value_of(footing.plinth_thickness) * 1000:.0f} mm thick",
                           f"wall {name} on it is {value_of(walls[name].thickness) * 1000:.0f} mm",
                           "Measure both again; a plinth is as thick as its wall or thicker.")  # fmt: skip
        _check_sizes(house, row, footing, found)
        _check_cut(house, cell_of(row, "plinth_height"), f"the plinth of {shown(text_of(footing.label))}",
                   value_of(footing.plinth_height), found)  # fmt: skip
    if any(storey == 1 and name not in served for name, storey in storeys.items()):
        _check_cut(house, house.reading.job["cut_level"].where, "the plinth where no footing was surveyed",
                   value_of(house.allowances.plinth_height), found)  # fmt: skip


def _check_cut(house: House, where: CellRef, what: str, height: float, found: Findings) -> None:
    cut = -value_of(house.survey.job.cut_level.value)
    if cut > height + _ROUNDING:
        found.fault("CUT-BELOW-FOOTING", where, what, f"{metres(height)} high from footing top to floor",
                    f"the cut is {metres(cut)} below floor, under the top of the footing",
                    "Raise the cut level on Job, or correct the plinth height.")  # fmt: skip


def _check_sizes(house: House, row: Row, footing: Footing, found: Findings) -> None:
    width, plinth = value_of(footing.width), value_of(footing.plinth_thickness)
    if width < plinth - _ROUNDING:
        found.warn("FOOTING-NARROW", cell_of(row, "width"), "the footing", f"{metres(width)} wide",
                   f"the plinth on it is {plinth * 1000:.0f} mm thick", "Check both.")  # fmt: skip
    above = house.reading.job["plinth"].value
    asked = [number_of(row, key) for key in ("plinth_height", "depth", "thickness")]
    height, depth, thickness = asked
    if height is None or depth is None or thickness is None or not isinstance(above, float):
        return
    follows = above + depth - thickness
    if abs(height - follows) > FOOTING_GAP:
        found.warn("FOOTING-LEVELS", cell_of(row, "plinth_height"), "the plinth", f"{metres(height)} high from footing "
                   "top to floor", f"plinth above ground, depth to underside and thickness make it {metres(follows)}",
                   "Check which of them was measured from where.")  # fmt: skip
