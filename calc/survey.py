"""What was surveyed, as records the formulas take: every number already in m, kN, days or ratios.

Covers   one record for each row of the survey that the calculation uses, and the Job entries.
Not      reading, units, blanks (a blank arrives as its default, or as an Entered that says it was not given).
Signs    x east along letters, y north along numbers, heights up from the ground floor.
Units    in each field. A `Text` may be live; a `Name` or `str` is fixed by the plan.
Sources  none; these are entries.
"""

from dataclasses import dataclass

from calc.fields import note, quantity
from calc.number import Number, Text, Truth


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Entered:
    """A number that may have been left blank or unknown."""

    value: Number = note("the number, or what stands in for it when it was not given")
    given: Truth = note("whether it was given")


@dataclass(frozen=True, slots=True)
class GridPoint:
    """The crossing of a letter line and a number line."""

    letter: str
    number: str

    def __str__(self) -> str:
        return f"{self.letter}{self.number}"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GridLine:
    """One grid line: a letter stands at an x, a number at a y."""

    name: Text = note("letter or number")
    wall: Number = quantity("m", "wall on it, where lines are given by clear sizes", default=0.0)
    half: Number = quantity("m", "half of that wall", default=0.0)
    clear: Number = quantity("m", "clear size from the line before, likewise", default=0.0)
    offset: Number = quantity("m", "distance from the origin")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Room:
    """One room and what is over it."""

    name: Text = note("name")
    storey: int = note("1 is the ground floor")
    outline: tuple[GridPoint, ...] = note("corners in order, anticlockwise, three or more")
    use: Text = note("a use of the Uses table")
    above: str = note("slab, pitched roof or none")
    slab_thickness: Number = quantity("m", "of the slab over the room")
    soffit: Number = quantity("m", "underside of its slab above floor; 0: the height of the walls")
    finish: Number = quantity("kN/m2", "on the slab, or covering per m2 of slope of a pitched roof")
    slope: Number = quantity("deg", "of a pitched roof")
    span: str = note("auto, along letters, along numbers, or auto, free edges")
    carries: Text = note("the use of what stands on the slab")
    floor: str = note("on soil, suspended or tied to wall")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Wall:
    """One straight wall on a centre line."""

    name: Text = note("mark")
    storey: int = note("1 is the ground floor")
    start: GridPoint = note("From point")
    end: GridPoint = note("To point")
    thickness: Number = quantity("m", "without plaster")
    height: Number = quantity("m", "floor to soffit")
    level: Number = quantity("No", "its storey as entered")
    masonry: Text = note("a material")
    plastered: Number = quantity("No", "plastered faces")
    at_lift: Text = note("lifted, taken down and rebuilt, or stays")
    system: Text = note("lifting system, or unknown")
    stands_on: Text = note("what its bases stand on, or unknown")
    side: Text = note("free, joint, shared, touching or unknown")
    mortar: Text = note("mortar, or unknown")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Opening:
    """One opening in a wall."""

    wall: Text = note("the wall it is in")
    kind: Text = note("door, window or vent")
    from_start: Number = quantity("m", "from the wall's From point to the near jamb")
    width: Number = quantity("m", "clear width")
    height: Number = quantity("m", "clear height")
    sill: Number = quantity("m", "above floor")
    block_up: Text = note("yes, no or unknown")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Beam:
    """One beam under a slab, at an edge, or at the plinth."""

    name: Text = note("mark")
    storey: int = note("the storey whose ceiling it belongs to")
    start: GridPoint = note("From point")
    end: GridPoint = note("To point")
    breadth: Number = quantity("m", "breadth")
    depth: Number = quantity("m", "depth below the slab")
    carries_slab: str = note("yes or no")
    bears_on: tuple[str, ...] = note("named supports; empty: what lies under it")
    plinth_beam: str = note("yes, no or unknown")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Column:
    """One column or pillar."""

    name: Text = note("mark")
    storey: int = note("1 is the ground floor")
    point: GridPoint = note("where it stands")
    breadth: Number = quantity("m", "along x")
    depth: Number = quantity("m", "along y")
    height: Number = quantity("m", "floor to underside of what it carries")
    material: Text = note("a material")
    bars: Entered = note("area of all main bars, m2")
    system: Text = note("lifting system, or unknown")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Attached:
    """One thing that hangs on, stands on or sticks out of a wall, beam, column or room."""

    name: Text = note("name")
    kind: Text = note("parapet, balcony, sunshade, stair, water tank, kitchen platform, hanging wall or other")
    on: Text = note("the wall, beam, column or room it belongs to")
    from_start: Entered = note("from the wall's From point to its near end, m")
    length: Entered = note("length along the wall, m")
    thickness: Number = quantity("m", "thickness")
    size: Number = quantity("m", "height or projection")
    weight: Entered = note("weight without water, kN")
    water: Number = quantity("m3", "water it holds")
    material: Text = note("a material")
    support: Text = note("support while lifting, or unknown")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Footing:
    """The footing of some walls or columns."""

    label: Text = note("its entry in the survey")
    members: tuple[str, ...] = note("walls and columns on it")
    plinth_thickness: Number = quantity("m", "thickness of the plinth masonry")
    plinth_height: Number = quantity("m", "footing top to floor")
    width: Number = quantity("m", "across the wall")
    depth: Number = quantity("m", "of the underside below ground")
    thickness: Number = quantity("m", "thickness")
    material: Text = note("a material")
    seen: Text = note("seen in a pit: yes, no or unknown")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reading:
    """One level reading."""

    what: Text = note("bench mark, floor, plinth top, ground, road or flood mark")
    level: Number = quantity("m", "above any one datum")
    point: GridPoint | None = note("grid point it was read at; none where it was read elsewhere", default=None)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Crack:
    """One entry of the condition survey."""

    what: Text = note("crack, tilt, damp patch, spalling or test")
    where: str = note("where it is")
    length: Number = quantity("m", "length of a crack")
    live: Text = note("live, old or unknown")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Material:
    """One material."""

    name: Text = note("name")
    unit_weight: Number = quantity("kN/m3", "unit weight")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Use:
    """One use of a floor or roof."""

    name: Text = note("name")
    imposed: Number = quantity("kN/m2", "imposed load")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Rate:
    """The price of one unit of one item of work."""

    code: Text = note("item code")
    rate: Number = quantity("money", "per unit of the item")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SiteThing:
    """One thing near the house."""

    kind: str = note("septic tank, well, sump, tree, overhead line ...")
    what: Text = note("which one")
    distance: Entered = note("from the house, m")
    depth: Entered = note("depth, m")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class KitItem:
    """One thing owned or hired."""

    name: Text = note("name")
    kind: str = note("screw jack, plain hydraulic jack, jack with lock nut, jack set on one pump, carrier beam ...")
    rating: Entered = note("rated load, kN")
    stroke: Entered = note("of a jack, m")
    closed: Entered = note("height of a jack closed, m")
    number: Entered = note("in store, No")
    length: Entered = note("of one carrier beam, where its size is a length, m")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Job:
    """The Job entries the calculation uses."""

    reason: Text = note("why the house is raised")
    condition: Text = note("condition of the house: sound, fair, poor or unknown")
    rise: Entered = note("rise the owner asks for, m")
    cut_level: Entered = note("of the cut relative to floor, 0 or negative, m")
    plinth: Entered = note("existing floor above ground, m")
    road: Entered = note("crown of the road above ground, m")
    flood: Entered = note("flood mark above ground, m")
    freeboard: Number = quantity("m", "wanted above the flood mark")
    plinth_above_road: Number = quantity("m", "wanted above the road")
    least_plinth: Number = quantity("m", "least floor above ground by local rule")
    road_build_up: Number = quantity("m", "expected future rise of the road")
    empty: Text = note("house empty during lifting: yes, no or unknown")
    wind_speed: Entered = note("basic wind speed of the place, m/s")
    terrain: Text = note("open, scattered houses, built up or unknown")
    jack_rating: Number = quantity("kN", "rated load of one jack")
    share: Number = quantity("-", "share of the rating used")
    stroke: Number = quantity("m", "jack stroke")
    widest_spacing: Number = quantity("m", "greatest distance between neighbouring jacks")
    closest_spacing: Number = quantity("m", "least distance between neighbouring jacks")
    bearing: Entered = note("safe bearing pressure, kN/m2")
    bearing_from: Text = note("test, inspected pits, soil name or unknown")
    instrument: Text = note("levelling instrument")
    beams_left_in: Text = note("carrier beams left in: yes, no or unknown")
    beams_known: Text = note("whether beams and bands were looked for: yes, no or unknown")
    transfer_age: Entered = note("age of new masonry when the load comes back, day")
    neighbours: Text = note("neighbours' consent: given, not needed, not given or unknown")
    engineer: Text = note("name of the licensed engineer")
    licence: Text = note("the engineer's licence")
    release_date: Entered = note("day of the release")
    services: Number = quantity("No", "services to disconnect and connect again")
    smallest_coin: Number = quantity("money", "amounts are rounded to it")
    overheads: Number = quantity("-", "on the works")
    profit: Number = quantity("-", "on works and overheads")
    contingency: Number = quantity("-", "on works, overheads and profit")
    tax: Number = quantity("-", "on all of these")
    rebuild_rate: Entered = note("cost of a new house, money/m2")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Survey:
    """A whole survey, in one kind of number."""

    job: Job
    letters: tuple[GridLine, ...]
    numbers: tuple[GridLine, ...]
    rooms: tuple[Room, ...]
    walls: tuple[Wall, ...]
    openings: tuple[Opening, ...]
    beams: tuple[Beam, ...]
    columns: tuple[Column, ...]
    attached: tuple[Attached, ...]
    footings: tuple[Footing, ...]
    readings: tuple[Reading, ...]
    cracks: tuple[Crack, ...]
    materials: tuple[Material, ...]
    uses: tuple[Use, ...]
    rates: tuple[Rate, ...]
    kit: tuple[KitItem, ...] = ()
    site: tuple[SiteThing, ...] = ()
