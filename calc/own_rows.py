"""The rows of own loads: geometry and weight of each surveyed part.

Covers   one record a row; each field is computed once and complete when made, because a workbook shows it as a column.
Not      how they are worked out (own_loads).
Signs    weight positive downward; x east, y north, z up from the ground floor.
Units    in each field.
Sources  none of its own.
"""

from dataclasses import dataclass

from calc.fields import note, quantity
from calc.number import Name, Number, Text


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StoreyRow:
    """One storey."""

    name: Name = note("storey, as a name")
    storey: int = note("its number")
    base: Number = quantity("m", "floor above the ground floor")
    wall_height: Number = quantity("m", "highest wall")
    ceiling: Number = quantity("m", "underside of its slab above the ground floor")
    slab: Number = quantity("m", "thickest slab over it")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MeetingRow:
    """One place where a wall runs into another."""

    wall: Name = note("wall")
    other: Name = note("wall it meets")
    kind: str = note("tee or crossing")
    other_thickness: Number = quantity("m", "thickness of the wall it meets")
    deducted: Number = quantity("m", "lost from its length")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LineRow:
    """Where a wall or beam runs."""

    name: Text = note("mark")
    from_letter: Name = note("letter line of its From point")
    from_number: Name = note("number line of its From point")
    to_letter: Name = note("letter line of its To point")
    to_number: Name = note("number line of its To point")
    x_start: Number = quantity("m", "x of the From point")
    y_start: Number = quantity("m", "y of the From point")
    x_end: Number = quantity("m", "x of the To point")
    y_end: Number = quantity("m", "y of the To point")
    dx: Number = quantity("m", "run east")
    dy: Number = quantity("m", "run north")
    length: Number = quantity("m", "length")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MemberRow:
    """Where one wall, beam, column or slab is, for what is attached to it, opened in it or stands under it."""

    name: Name = note("mark")
    kind: str = note("wall, beam, column or slab")
    storey: Name = note("its storey")
    x_start: Number = quantity("m", "x of its start, or of its middle")
    y_start: Number = quantity("m", "y of its start, or of its middle")
    dx: Number = quantity("m", "run east")
    dy: Number = quantity("m", "run north")
    length: Number = quantity("m", "length; of a column its side along x")
    across: Number = quantity("m", "thickness or breadth; of a column its side along y")
    unit_weight: Number = quantity("kN/m3", "unit weight")
    goes_up: Number = quantity("-", "1 where it is lifted, else 0")
    ceiling: Number = quantity("m", "underside of the slab of its storey")
    slab: Number = quantity("m", "thickness of that slab")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WallRow:
    """Own weight of one wall."""

    name: Text = note("mark")
    storey: int = note("storey")
    level: Name = note("its storey, as a name")
    length: Number = quantity("m", "on the centre line")
    deducted: Number = quantity("m", "lost to walls it meets")
    thickness: Number = quantity("m", "thickness")
    height: Number = quantity("m", "floor to soffit")
    masonry: Text = note("masonry")
    unit_weight: Number = quantity("kN/m3", "unit weight of masonry")
    plastered: Number = quantity("No", "plastered faces")
    surface: Number = quantity("kN/m2", "weight of one square metre")
    gross: Number = quantity("kN", "weight before openings")
    openings: Number = quantity("kN", "change by openings, frames and lintels")
    dead: Number = quantity("kN", "own weight")
    openings_lift: Number = quantity("kN", "change by openings as blocked for the lift")
    at_lift: Text = note("lifted, taken down and rebuilt, or stays")
    goes_up: Number = quantity("-", "1 where it is lifted, else 0")
    rebuilt: Number = quantity("No", "1 where it is taken down and rebuilt, else 0")
    lifted: Number = quantity("kN", "own weight lifted")
    base: Number = quantity("m", "its floor above the ground floor")
    x: Number = quantity("m", "x of its middle")
    y: Number = quantity("m", "y of its middle")
    z: Number = quantity("m", "z of its middle")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OpeningRow:
    """One opening and what it changes in the weight of its wall."""

    wall: Text = note("wall")
    kind: Text = note("door, window or vent")
    from_start: Number = quantity("m", "From point to near jamb")
    width: Number = quantity("m", "width")
    height: Number = quantity("m", "height")
    sill: Number = quantity("m", "sill above floor")
    told: Text = note("block up: yes, no or unknown")
    area: Number = quantity("m2", "area")
    surface: Number = quantity("kN/m2", "weight of one square metre of its wall")
    thickness: Number = quantity("m", "thickness of its wall")
    unit_weight: Number = quantity("kN/m3", "unit weight of its wall")
    frame: Number = quantity("kN", "frame and leaf")
    lintel_length: Number = quantity("m", "lintel length")
    lintel: Number = quantity("kN", "extra weight of the lintel")
    change: Number = quantity("kN", "change of the wall's weight")
    storey: Number = quantity("No", "storey of its wall")
    goes_up: Number = quantity("-", "1 where its wall is lifted, else 0")
    blocked: Number = quantity("m2", "area blocked for the lift")
    block_up: Number = quantity("kN", "weight of the brickwork that blocks it")
    frame_out: Number = quantity("kN", "frame taken out with it")
    change_lift: Number = quantity("kN", "change of the wall's weight in the lift")
    wall_length: Number = quantity("m", "length of its wall")
    along: Number = quantity("-", "where its middle is along the wall")
    x_wall: Number = quantity("m", "x of the wall's From point")
    y_wall: Number = quantity("m", "y of the wall's From point")
    dx: Number = quantity("m", "run of the wall east")
    dy: Number = quantity("m", "run of the wall north")
    base: Number = quantity("m", "floor of its storey")
    x: Number = quantity("m", "x of its middle")
    y: Number = quantity("m", "y of its middle")
    z: Number = quantity("m", "z of its middle")
    z_lintel: Number = quantity("m", "z of its lintel")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PanelRow:
    """One slab, roof or suspended floor."""

    panel: Name = note("panel")
    room: Name = note("room it belongs to")
    kind: Text = note("slab, pitched roof or floor")
    level: Name = note("its storey")
    area: Number = quantity("m2", "area on centre lines")
    thickness: Number = quantity("m", "slab thickness")
    finish: Number = quantity("kN/m2", "finish or covering")
    slope: Number = quantity("deg", "slope")
    dead: Number = quantity("kN/m2", "dead load on plan")
    use: Text = note("use of what stands on it")
    flat: Number = quantity("kN/m2", "imposed load of that use")
    imposed: Number = quantity("kN/m2", "imposed load on plan")
    lifted: Number = quantity("kN/m2", "load in the lift")
    x: Number = quantity("m", "x of its centroid")
    y: Number = quantity("m", "y of its centroid")
    base: Number = quantity("m", "floor of its storey")
    ceiling: Number = quantity("m", "height of the walls of its storey above the ground floor")
    own_soffit: Number = quantity("m", "its underside above its floor as entered, 0 where none was")
    soffit: Number = quantity("m", "its underside above the ground floor")
    z: Number = quantity("m", "z of its middle")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SideRow:
    """One piece of one side of a slab: geometry."""

    panel: Name = note("panel")
    from_letter: Name = note("letter line it starts on")
    from_number: Name = note("number line it starts on")
    to_letter: Name = note("letter line it ends on")
    to_number: Name = note("number line it ends on")
    x_start: Number = quantity("m", "x of its start")
    y_start: Number = quantity("m", "y of its start")
    x_end: Number = quantity("m", "x of its end")
    y_end: Number = quantity("m", "y of its end")
    length: Number = quantity("m", "length")
    wall: Name = note("wall on whose centre line it lies, or (free)")
    next_wall: Name = note("wall of the next piece, or (free)")
    turn: Number = quantity("No", "1 at an outer corner at its end, -1 at an inner one, 0 where it goes straight on")
    half: Number = quantity("m", "half the thickness of its wall")
    lost: Number = quantity("m2", "floor lost under its wall")
    corner: Number = quantity("m2", "counted twice at its corner")
    cross: Number = quantity("m2", "twice the area between it and the origin")
    cross_x: Number = quantity("m3", "moment of that area about y")
    cross_y: Number = quantity("m3", "moment of that area about x")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RoomRow:
    """Floor of one room."""

    room: Text = note("room")
    panel: Name = note("its outline")
    storey: int = note("storey")
    floor: str = note("on soil, suspended or tied to wall")
    area: Number = quantity("m2", "on centre lines")
    clear: Number = quantity("m2", "between the walls")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ShareRow:
    """One piece of one side of a slab: what it carries."""

    panel: Name = note("panel")
    carrier: Name = note("wall or beam, or (free)")
    how: Text = note("two way, one way, by outline or nothing")
    length: Number = quantity("m", "length of the piece")
    area: Number = quantity("m2", "area of the panel")
    other: Number = quantity("m", "panel area / length")
    fraction: Number = quantity("-", "share of the panel, worked out at issue; 0 where a formula gives it")
    by_45: Number = quantity("m2", "area by 45 degree lines")
    one_way: Number = quantity("m2", "area of a bearing side of a one-way slab")
    slender: Number = quantity("No", "1 where the panel is more than twice as long as wide, else 0")
    two_way: Number = quantity("m2", "area by 45 degree lines, one way where more than twice as long as wide")
    share: Number = quantity("m2", "area it carries")
    outside: Number = quantity("No", "1 where the slab runs to the carrier's outer face, else 0")
    breadth: Number = quantity("m", "breadth of the carrier there, else 0")
    corners: Number = quantity("No", "outer corners less inner corners at its ends")
    strip: Number = quantity("m2", "area beyond the centre line")
    loaded: Number = quantity("m2", "both together")
    dead: Number = quantity("kN", "dead load")
    imposed: Number = quantity("kN", "imposed load")
    lifted: Number = quantity("kN", "load in the lift")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamRow:
    """Own weight of one beam."""

    name: Text = note("mark")
    storey: int = note("storey")
    length: Number = quantity("m", "length")
    breadth: Number = quantity("m", "breadth")
    depth: Number = quantity("m", "depth below the slab")
    dead: Number = quantity("kN", "own weight")
    x: Number = quantity("m", "x of its middle")
    y: Number = quantity("m", "y of its middle")
    soffit: Number = quantity("m", "underside of the slab it carries; of a plinth beam its own middle")
    z: Number = quantity("m", "z of its middle")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ColumnRow:
    """Own weight of one column."""

    name: Text = note("mark")
    storey: int = note("storey")
    level: Name = note("its storey, as a name")
    letter: Name = note("letter line it stands on")
    number: Name = note("number line it stands on")
    breadth: Number = quantity("m", "along x")
    depth: Number = quantity("m", "along y")
    height: Number = quantity("m", "height")
    material: Text = note("material")
    unit_weight: Number = quantity("kN/m3", "unit weight")
    dead: Number = quantity("kN", "own weight")
    x: Number = quantity("m", "x")
    y: Number = quantity("m", "y")
    base: Number = quantity("m", "floor of its storey")
    z: Number = quantity("m", "z of its middle")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AttachedRow:
    """One thing attached."""

    name: Text = note("name")
    kind: Text = note("kind")
    on: Name = note("what it belongs to")
    material: Text = note("material")
    from_start: Number = quantity("m", "From point of its wall to its near end")
    member_length: Number = quantity("m", "length of its wall or beam, 0 where it hangs on none")
    length: Number = quantity("m", "length")
    thickness: Number = quantity("m", "thickness")
    size: Number = quantity("m", "height or projection")
    unit_weight: Number = quantity("kN/m3", "unit weight")
    plaster: Number = quantity("kN/m2", "plaster on both faces")
    dead: Number = quantity("kN", "weight without water")
    volume: Number = quantity("m3", "water it holds")
    water: Number = quantity("kN", "water in it")
    walked_on: Number = quantity("kN/m2", "imposed load where people go")
    people: Number = quantity("kN", "imposed load of people")
    imposed: Number = quantity("kN", "imposed load, water included")
    lifted: Number = quantity("kN", "load in the lift, drained")
    along: Number = quantity("-", "where its middle is along its wall")
    x_start: Number = quantity("m", "x of its wall's start, or of what it stands on")
    y_start: Number = quantity("m", "y of its wall's start, or of what it stands on")
    dx: Number = quantity("m", "run of its wall east")
    dy: Number = quantity("m", "run of its wall north")
    ceiling: Number = quantity("m", "underside of the slab of its storey")
    slab: Number = quantity("m", "thickness of that slab")
    x: Number = quantity("m", "x of its middle")
    y: Number = quantity("m", "y of its middle")
    z: Number = quantity("m", "z of its middle")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class UnitWeights:
    """Unit weights that the formulas use by name."""

    concrete: Number = quantity("kN/m3", "reinforced concrete")
    plain_concrete: Number = quantity("kN/m3", "plain concrete")
    plaster: Number = quantity("kN/m3", "cement plaster")
    brick: Number = quantity("kN/m3", "brick masonry")
    water: Number = quantity("kN/m3", "water")
    fill: Number = quantity("kN/m3", "compacted fill")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LiftShare:
    """How much of the imposed load is there in the lift."""

    imposed_share: Number = quantity("-", "share of the imposed load that is there in the lift")
    balcony: Number = quantity("kN/m2", "imposed load of a balcony")
    stair: Number = quantity("kN/m2", "imposed load of a stair")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OwnLoads:
    """All own loads of a house, in one kind of number."""

    weights: UnitWeights
    lift: LiftShare
    storeys: tuple[StoreyRow, ...]
    wall_lines: tuple[LineRow, ...]
    beam_lines: tuple[LineRow, ...]
    members: tuple[MemberRow, ...]
    meetings: tuple[MeetingRow, ...]
    walls: tuple[WallRow, ...]
    openings: tuple[OpeningRow, ...]
    sides: tuple[SideRow, ...]
    rooms: tuple[RoomRow, ...]
    panels: tuple[PanelRow, ...]
    shares: tuple[ShareRow, ...]
    beams: tuple[BeamRow, ...]
    columns: tuple[ColumnRow, ...]
    attached: tuple[AttachedRow, ...]
