"""The workings of the measurement, as rows: the lengths, areas and counts that measured lines are made from.

Covers   one record a row; each field is computed once and complete when made, because a workbook shows it as a column.
Not      how they are worked out (quantities_workings) and the measured lines (quantities_lines).
Signs    turns: 1 at an outer corner of a room or of the house, -1 at an inner one, 0 where a side goes straight on.
Units    in each field.
Sources  none of its own.
"""

from dataclasses import dataclass

from calc.fields import note, quantity
from calc.number import Name, Number, Text


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Figures:
    """Depths and heights that hold for the whole house."""

    rise: Number = quantity("m", "rise, not less than 0")
    raised: Number = quantity("No", "1 where the rise is more than 0")
    inside_depth: Number = quantity("m", "digging inside, below the floor")
    outside_depth: Number = quantity("m", "digging outside, below the ground beside the house")
    masonry: Number = quantity("m", "height of new masonry under the walls, without the band")
    band: Number = quantity("m", "depth of the band in it")
    bed: Number = quantity("m", "concrete bed under the new floor")
    gravel: Number = quantity("m", "gravel under the bed")
    fill: Number = quantity("m", "earth fill under the gravel")
    lifts: Number = quantity("No", "units of lift in the rise")
    steps: Number = quantity("No", "risers at each way in")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WallMeasure:
    """One ground wall."""

    name: Name = note("wall")
    count: Number = quantity("No", "jacks under it")
    up: Number = quantity("No", "1 where it stands on jacks, else 0")
    goes_up: Number = quantity("No", "1 where its own masonry is lifted, else 0")
    built: Number = quantity("No", "1 where new masonry comes under it, else 0")
    beside: Text = note("free, joint, shared, touching or unknown")
    reach: Number = quantity("No", "1 where its outside can be reached, 0 beside a neighbour")
    plastered: Number = quantity("No", "1 where it is plastered, else 0")
    finished: Number = quantity("No", "1 where new masonry under it is plastered, else 0")
    length: Number = quantity("m", "length")
    deducted: Number = quantity("m", "lost to walls it meets")
    net: Number = quantity("m", "length, net of the walls it meets")
    beams: Number = quantity("No", "carrier beams side by side, or on both sides")
    beam_mass: Number = quantity("kg/m", "of one of them")
    thickness: Number = quantity("m", "its thickness")
    new_thickness: Number = quantity("m", "thickness of new masonry under it")
    pockets: Number = quantity("No", "pockets cut for beams")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SideMeasure:
    """One piece of one side of a ground room, seen from inside."""

    room: Name = note("room")
    wall: Name = note("wall along it, or (free)")
    before: Name = note("wall along the piece before it, or (free)")
    after: Name = note("wall along the piece after it, or (free)")
    turn_start: Number = quantity("No", "turn at its start")
    turn_end: Number = quantity("No", "turn at its end")
    inset_start: Number = quantity(
        "No", "the same, where the wall there lies on the centre line and half of it is lost"
    )
    inset_end: Number = quantity("No", "the same at its end")
    length: Number = quantity("m", "on the centre line")
    half_start: Number = quantity("m", "half the wall at its start, less than 0 at an inner corner")
    half_end: Number = quantity("m", "half the wall at its end, likewise")
    clear: Number = quantity("m", "between the faces of the walls it meets")
    up: Number = quantity("No", "1 where its wall stands on jacks")
    up_start: Number = quantity("No", "where the wall before it does: 1, or -1 at an inner corner")
    up_end: Number = quantity("No", "where the wall after it does: 1, or -1 at an inner corner")
    corner: Number = quantity("m", "length of trench that two trenches share at a corner")
    cut: Number = quantity("m", "floor cut along it")
    trench: Number = quantity("m", "its trench, each shared corner counted once")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RoomMeasure:
    """One ground room."""

    room: Name = note("room")
    floor: str = note("on soil, suspended or tied to wall")
    clear: Number = quantity("m2", "between the walls")
    perimeter: Number = quantity("m", "round the room, between the walls")
    breadth: Number = quantity("m", "its breadth; of a room with more than four corners, of the rectangle of the same "
                               "area and perimeter")  # fmt: skip
    length: Number = quantity("m", "its length, likewise")
    cut: Number = quantity("m", "floor cut along walls that go up")
    trench: Number = quantity("m", "trench along those walls, no more than fills the room")
    depth: Number = quantity("m", "depth of that trench")
    slab: Number = quantity("No", "1 where a slab lies over it")
    props: Number = quantity("No", "props under that slab")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class EdgeMeasure:
    """One stretch of the outside of the house."""

    wall: Name = note("wall along it, or (free)")
    room: Name = note("room behind it")
    from_letter: Name = note("letter line it starts on")
    from_number: Name = note("number line it starts on")
    to_letter: Name = note("letter line it ends on")
    to_number: Name = note("number line it ends on")
    before: Name = note("wall of the stretch before it, or (free)")
    after: Name = note("wall of the stretch after it, or (free)")
    turn_start: Number = quantity("No", "turn at its start")
    turn_end: Number = quantity("No", "turn at its end")
    x_start: Number = quantity("m", "x of its start")
    y_start: Number = quantity("m", "y of its start")
    x_end: Number = quantity("m", "x of its end")
    y_end: Number = quantity("m", "y of its end")
    length: Number = quantity("m", "on the centre line")
    half_start: Number = quantity("m", "half the wall at its start, less than 0 at an inner corner")
    half_end: Number = quantity("m", "half the wall at its end, likewise")
    face: Number = quantity("m", "along the outer face")
    open: Number = quantity("No", "1 where no wall stands along it")
    open_start: Number = quantity("No", "1 where none stands along the stretch before it")
    open_end: Number = quantity("No", "1 where none stands along the stretch after it")
    reach: Number = quantity("No", "1 where it can be reached, 0 beside a neighbour")
    reach_start: Number = quantity("No", "where the stretch before it can be reached: 1, or -1 at an inner corner")
    reach_end: Number = quantity("No", "where the stretch after it can be reached: 1, or -1 at an inner corner")
    up: Number = quantity("No", "1 where its wall stands on jacks and can be reached")
    up_start: Number = quantity("No", "where the wall before it does: 1, or -1 at an inner corner")
    up_end: Number = quantity("No", "where the wall after it does: 1, or -1 at an inner corner")
    trench: Number = quantity("m", "its trench on the trench's centre line")
    apron: Number = quantity("m", "its apron on the apron's centre line")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LooseWall:
    """Wall length that bounds no room: trenched on both sides."""

    wall: Name = note("wall")
    inside: str = note("inside or outside")
    length: Number = quantity("m", "both faces together")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ColumnMeasure:
    """One ground column or pillar."""

    name: Name = note("column")
    place: str = note("in a wall, at the edge, inside or outside")
    count: Number = quantity("No", "jacks under it")
    up: Number = quantity("No", "1 where it stands on jacks, else 0")
    breadth: Number = quantity("m", "along x")
    depth: Number = quantity("m", "along y")
    pit_length: Number = quantity("m", "pit round it, along x")
    pit_breadth: Number = quantity("m", "pit round it, along y; at the edge of the house half of it")
    own_breadth: Number = quantity("m", "its own part of that pit, along y")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OpeningMeasure:
    """One opening."""

    wall: Text = note("wall")
    kind: Text = note("door, window or vent")
    area: Number = quantity("m2", "area")
    faces: Number = quantity("No", "plastered faces of its wall")
    goes_up: Number = quantity("No", "1 where its wall is a ground wall that is lifted")
    blocks: Number = quantity("No", "1 where it is blocked with brickwork")
    struts: Number = quantity("No", "1 where it is left open and strutted")
    outer: Number = quantity("No", "1 where it leads outside; worked out at issue")
    ways_in: Number = quantity("No", "1 for an outside door of a wall that goes up")
    brickwork_out: Number = quantity("m2", "taken off the brickwork of its wall")
    plaster_out: Number = quantity("m2", "taken off the plaster of its wall")
    reveals: Number = quantity("m", "reveals whose plaster is added")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RebuiltWall:
    """One wall, of any storey, that was marked taken down and rebuilt at issue."""

    name: Name = note("wall")
    number: Number = quantity("No", "1 while it still is")
    net: Number = quantity("m", "length, net of the walls it meets")
    thickness: Number = quantity("m", "thickness")
    height: Number = quantity("m", "floor to soffit")
    plastered: Number = quantity("No", "plastered faces")
    brickwork_out: Number = quantity("m", "openings taken off its brickwork, as a length of full height")
    plaster_out: Number = quantity("m", "openings taken off its plaster, as a length of full height")
    reveals: Number = quantity("m", "reveals whose plaster is added")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Workings:
    """Everything the measured lines are made from."""

    figures: Figures
    walls: tuple[WallMeasure, ...]
    sides: tuple[SideMeasure, ...]
    rooms: tuple[RoomMeasure, ...]
    edges: tuple[EdgeMeasure, ...]
    loose: tuple[LooseWall, ...]
    columns: tuple[ColumnMeasure, ...]
    openings: tuple[OpeningMeasure, ...]
    rebuilt: tuple[RebuiltWall, ...]
    unmeasured: Number = quantity("No", "walls marked taken down and rebuilt since the issue: they have no lines")
