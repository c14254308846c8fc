"""The survey workbook, declared: every sheet, column, unit, choice, limit and default.

Covers   what the blank survey shows, what the reader accepts and where the issued workbook writes each entry.
Not      how it is drawn (survey_book), read (reader) or computed (calc).
Units    each number column has the unit its header states; `least` and `most` are in that unit.
Sources  limits are plausibility limits set by this project; defaults are common practice, no source, unless said.
"""

from dataclasses import dataclass
from typing import Literal

Kind = Literal["name", "text", "number", "choice", "point", "points", "names", "date"]

UNKNOWN = "unknown"
YES_NO = ("yes", "no")

HEADER_ROW = 3
"""Row of the column headers on every survey sheet: row 1 is the title, row 2 the line of help."""

EXAMPLE_MARK = "e.g."
"""A row whose first cell starts with this is an example in grey; the reader passes over it. No example answers a
question that holds back the release: written over in part, it must not answer for the house."""

LIVE_MARK = "live:"
"""A column whose heading starts with this is shown by the add-in while entries are typed; the reader passes over it."""

FIRST_ROW = HEADER_ROW + 1
"""First row of entries. In the blank survey the examples stand here."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column of a survey sheet, or one entry of the Job sheet."""

    key: str
    title: str
    kind: Kind
    unit: str = ""
    choices: tuple[str, ...] = ()
    required: bool = False
    unknown: bool = False
    least: float | None = None
    most: float | None = None
    default: str | float | None = None
    """What a blank stands for: a number in `unit`, a choice word, or the key of an allowance written `=key`."""
    refers: tuple[str, ...] = ()
    """Sheets whose first column must hold this name."""
    example: str = ""
    help: str = ""
    width: float = 12

    @property
    def header(self) -> str:
        """The header as printed: the title with its unit."""
        return f"{self.title} ({self.unit})" if self.unit else self.title


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One survey sheet: one row is one `row_is`."""

    title: str
    row_is: str
    help: str
    columns: tuple[Column, ...]
    required: bool = False
    shipped: bool = False
    """Rows come from the published tables or the item list; the user may change them and add more."""
    paper_rows: int = 14
    """Empty ruled rows on the printed form."""


# One column or entry is a line or two, to be read as a table.
# fmt: off


def _name(title: str, **more: object) -> Column:
    return Column(key="name", title=title, kind="name", required=True, **more)  # type: ignore[arg-type]


MASONRY = ("Brick masonry", "Concrete block masonry", "Aerated block masonry", "Dressed stone masonry",
           "Rubble masonry", "Laterite masonry", "Mud masonry")
MORTARS = ("cement 1:4", "cement 1:6", "cement lime", "lime", "mud", UNKNOWN)
REASONS = ("flooding", "road higher than plinth", "new storey below", "basement below", "new foundation", "levelling")
CONSTRUCTIONS = ("brick walls", "block walls", "stone walls", "concrete frame", "timber frame")
SYSTEMS = ("beam through wall", "twin beams and needles", "under plinth beam", "collar or clamp", UNKNOWN)
STANDS_ON = ("old footing", "new pad", "strip", "beside later dig", UNKNOWN)
BEARING_FROM = ("test", "inspected pits", "soil name", UNKNOWN)

JOB: tuple[Column, ...] = (
    Column(key="job_name", title="Job name", kind="text", required=True, example="House at the bend", width=30),
    Column(key="client", title="Client", kind="text", default="", help="Shown on the offer"),
    Column(key="place", title="Place", kind="text", default=""),
    Column(key="survey_date", title="Survey date", kind="date", required=True, help="2026-01-31 or a date cell"),
    Column(key="reason", title="Reason", kind="choice", choices=REASONS, required=True),
    Column(key="rise", title="Rise", kind="number", unit="m", least=0, most=4,
           help="Blank: the least rise that the levels below call for"),
    Column(key="cut_level", title="Cut level", kind="number", unit="m", least=-1.5, most=0, default=-0.15, unknown=True,
           help="Below floor, negative: masonry under it stays, above it is lifted"),
    Column(key="plinth", title="Existing plinth above ground", kind="number", unit="m", least=0, most=3, unknown=True,
           help="Blank: from the Levels sheet"),
    Column(key="road", title="Road above ground", kind="number", unit="m", least=-2, most=5, unknown=True),
    Column(key="flood", title="Flood above ground", kind="number", unit="m", least=0, most=6, unknown=True),
    Column(key="freeboard", title="Freeboard", kind="number", unit="m", least=0, most=2, default=0.3,
           help="Above the flood mark"),
    Column(key="plinth_above_road", title="Plinth above road", kind="number", unit="m", least=0, most=2, default=0.45,
           help="Clearance wanted over the crown of the road"),
    Column(key="least_plinth", title="Least plinth by local rule", kind="number", unit="m", least=0, most=2,
           default=0.45, help="Above ground; ask the local authority"),
    Column(key="road_build_up", title="Future road build-up", kind="number", unit="m", least=0, most=2, default=0.15),
    Column(key="construction", title="Construction", kind="choice", choices=CONSTRUCTIONS, default="brick walls"),
    Column(key="year_built", title="Year built", kind="number", unit="year", least=1800, most=2100, unknown=True),
    Column(key="condition", title="Condition", kind="choice", choices=("sound", "fair", "poor"), unknown=True,
           default=UNKNOWN),
    Column(key="empty", title="House empty during lifting", kind="choice", choices=YES_NO, unknown=True,
           default=UNKNOWN, help="Unknown counts as lived in"),
    Column(key="wind_speed", title="Basic wind speed", kind="number", unit="m/s", least=20, most=80, unknown=True),
    Column(key="terrain", title="Terrain", kind="choice", choices=("open", "scattered houses", "built up"),
           unknown=True, default=UNKNOWN),
    Column(key="jack_rating", title="Jack rating", kind="number", unit="kN", least=10, most=2000, default=200),
    Column(key="share", title="Share of rating used", kind="number", unit="%", least=5, most=60, default=40,
           help="40 by hand, 50 with gauges and lock nuts; over 60 is refused"),
    Column(key="stroke", title="Jack stroke", kind="number", unit="mm", least=20, most=600, default=150),
    Column(key="widest_spacing", title="Widest jack spacing", kind="number", unit="m", least=0.4, most=3, default=1.2,
           help="1.2 in sound cement mortar, 0.9 in weak or lime"),
    Column(key="closest_spacing", title="Closest jack spacing", kind="number", unit="m", least=0.2, most=2,
           default=0.5),
    Column(key="bearing", title="Safe bearing pressure", kind="number", unit="kPa", least=20, most=3500, unknown=True,
           default=50, help="Unknown: 50 is used for pricing only and the release stays shut"),
    Column(key="bearing_from", title="Bearing pressure from", kind="choice", choices=BEARING_FROM, default=UNKNOWN),
    Column(key="instrument", title="Levelling instrument", kind="choice",
           choices=("rod and rule at every jack with optical level", "optical level", "water tube", UNKNOWN),
           default=UNKNOWN),
    Column(key="beams_left_in", title="Carrier beams left in", kind="choice", choices=YES_NO, unknown=True,
           default=UNKNOWN, help="Unknown is priced as bought and left in"),
    Column(key="beams_known", title="Beams and bands looked for", kind="choice", choices=YES_NO, unknown=True,
           default=UNKNOWN, help="Plinth beams, lintel bands and hidden columns, by opening up where in doubt"),
    Column(key="transfer_age", title="Age of new masonry at transfer", kind="number", unit="day", least=7, most=90,
           unknown=True, default=14, help="7 at least, 14 in cold or wet weather"),
    Column(key="neighbours", title="Neighbours' consent", kind="choice",
           choices=("given", "not needed", "not given"), unknown=True, default=UNKNOWN),
    Column(key="services", title="Services to disconnect", kind="number", unit="No", least=0, most=30, default=4,
           help="Water, power, waste water, telephone and so on, each counted once"),
    Column(key="currency", title="Currency", kind="text", default="money", example="rupees"),
    Column(key="smallest_coin", title="Smallest coin", kind="number", unit="money", least=0.01, most=100, default=1,
           help="Amounts in the bill are rounded to it"),
    Column(key="overheads", title="Overheads", kind="number", unit="%", least=0, most=60, default=10),
    Column(key="profit", title="Profit", kind="number", unit="%", least=0, most=60, default=10),
    Column(key="contingency", title="Contingency", kind="number", unit="%", least=0, most=60, default=10),
    Column(key="tax", title="Tax", kind="number", unit="%", least=0, most=60, default=0),
    Column(key="rebuild_rate", title="Rebuild rate", kind="number", unit="money/m2", least=0, most=1e7, unknown=True),
    Column(key="rent", title="Rent", kind="number", unit="money/month", least=0, most=1e8, unknown=True),
    Column(key="price_date", title="Price date", kind="date", help="Day the rates were asked for"),
    Column(key="engineer", title="Engineer", kind="text", default=""),
    Column(key="licence", title="Licence", kind="text", default=""),
    Column(key="release_date", title="Release date", kind="date"),
)

_SITE = Sheet(
    title="Site", row_is="thing near the house", help="Tanks, wells, sumps, trees, lines, neighbours, access, water, "
    "power: whatever the work must pass or use.",
    columns=(
        Column(key="kind", title="Kind", kind="choice", required=True, example="e.g. septic tank", width=24,
               choices=("septic tank", "well", "sump", "tree", "overhead line", "buried line", "neighbour",
                        "gate width", "machine reach", "stacking room", "water", "power", "other")),
        Column(key="what", title="What", kind="text", example="behind the kitchen", width=30),
        Column(key="distance", title="Distance", kind="number", unit="m", least=0, most=200, unknown=True,
               example="2.5"),
        Column(key="depth", title="Depth", kind="number", unit="m", least=0, most=50, unknown=True, example="1.8"),
        Column(key="note", title="Note", kind="text", width=40),
    ))

_LEVELS = Sheet(
    title="Levels", row_is="reading", help="Heights above any one datum, higher is more; used where Job leaves plinth, "
    "road or flood blank.",
    columns=(
        Column(key="point", title="Point", kind="text", required=True, example="e.g. gate"),
        Column(key="what", title="What", kind="choice", required=True, example="road", width=16,
               choices=("bench mark", "floor", "plinth top", "ground", "road", "flood mark")),
        Column(key="level", title="Level", kind="number", unit="m", required=True, least=-500, most=9000,
               example="10.35"),
        Column(key="note", title="Note", kind="text", width=40),
    ))

_GRID = Sheet(
    title="Grid", row_is="grid line", required=True, help="Letters run along x (east), numbers along y (north). Give "
    "each line's offset, or the clear size from the line before and the wall thickness on each line.",
    columns=(
        _name("Line", example="e.g. A"),
        Column(key="offset", title="Offset", kind="number", unit="m", least=-200, most=200, example="0"),
        Column(key="clear", title="Clear from line before", kind="number", unit="m", least=0, most=100),
        Column(key="wall", title="Wall on this line", kind="number", unit="mm", least=0, most=1200),
        Column(key="note", title="Note", kind="text", width=40),
    ))

_TAPES = Sheet(
    title="Tapes", row_is="closing check", help="Overall and diagonal tapes between two grid points: more than 1 % or "
    "50 mm out is a doubtful entry.",
    columns=(
        Column(key="start", title="From", kind="point", required=True, example="e.g. A1"),
        Column(key="end", title="To", kind="point", required=True, example="D4"),
        Column(key="length", title="Tape", kind="number", unit="m", required=True, least=0.1, most=300,
               example="11.08"),
    ))

_ROOMS = Sheet(
    title="Rooms", row_is="room", required=True, help="Corners on grid points; any other shape as an Outline, points "
    "in order. Slab, roof and finish are those above the room.",
    columns=(
        _name("Room", example="e.g. Kitchen", width=16),
        Column(key="storey", title="Storey", kind="number", unit="No", required=True, least=1, most=6, example="1",
               help="1 is the ground floor"),
        Column(key="corner", title="Corner", kind="point", example="A1"),
        Column(key="opposite", title="Opposite corner", kind="point", example="B3", width=16),
        Column(key="outline", title="Outline", kind="points", example="", width=26,
               help="For example A1 B1 B2 C2 C3 A3, in place of the two corners"),
        Column(key="use", title="Use", kind="choice", refers=("Uses",), default="Dwelling room", example="Kitchen",
               width=18),
        Column(key="above", title="Above", kind="choice", choices=("slab", "pitched roof", "none"), default="slab",
               example="slab"),
        Column(key="slab", title="Slab", kind="number", unit="mm", least=50, most=400, default="=slab_thickness",
               unknown=True, example="125"),
        Column(key="soffit", title="Soffit", kind="number", unit="m", least=0.3, most=8,
               help="Underside of the slab above floor where it is not the height of the walls"),
        Column(key="span", title="Span", kind="choice", choices=("auto", "along letters", "along numbers",
               "auto, free edges"), default="auto", example="auto", width=14,
               help="auto: onto all walls by 45 degree lines, one way where twice as long as wide; free edges: a side "
               "with neither wall nor beam is meant so"),
        Column(key="finish", title="Finish or covering", kind="number", unit="kN/m2", least=0, most=10,
               default="=finish_weight", unknown=True, example="1.5", width=16,
               help="On the slab; for a pitched roof its covering and timbers per m2 of slope"),
        Column(key="slope", title="Roof slope", kind="number", unit="deg", least=0, most=60, default="=roof_slope",
               help="Pitched roofs only"),
        Column(key="carries", title="On the slab", kind="choice", refers=("Uses",), width=20,
               help="Blank: the use of the room over it, or a roof with access"),
        Column(key="floor", title="Floor", kind="choice", choices=("on soil", "suspended", "tied to wall"),
               default="on soil", example="on soil", help="Storey 1 only; on soil stays behind"),
    ))

_WALLS = Sheet(
    title="Walls", row_is="straight wall", required=True, paper_rows=18, help="On centre lines between grid points. "
    "Height floor to soffit. Thickness without plaster.",
    columns=(
        _name("Wall", example="e.g. W1", width=8),
        Column(key="storey", title="Storey", kind="number", unit="No", required=True, least=1, most=6, example="1",
               width=8),
        Column(key="start", title="From", kind="point", required=True, example="A1", width=8),
        Column(key="end", title="To", kind="point", required=True, example="C1", width=8),
        Column(key="thickness", title="Thickness", kind="number", unit="mm", required=True, least=50, most=1200,
               example="230"),
        Column(key="height", title="Height", kind="number", unit="m", required=True, least=0.3, most=8,
               example="3.0"),
        Column(key="masonry", title="Masonry", kind="choice", refers=("Materials",), default="Brick masonry",
               example="Brick masonry", width=18),
        Column(key="mortar", title="Mortar", kind="choice", choices=MORTARS, default=UNKNOWN, example=UNKNOWN),
        Column(key="plastered", title="Plastered faces", kind="number", unit="No", least=0, most=2,
               default="=plastered_faces", example="2", width=9),
        Column(key="at_lift", title="At lift", kind="choice", choices=("lifted", "taken down and rebuilt", "stays"),
               default="lifted", example="lifted"),
        Column(key="side", title="Side", kind="choice", choices=("free", "joint", "shared", "touching", UNKNOWN),
               default=UNKNOWN, example=UNKNOWN, width=10),
        Column(key="system", title="Lifting system", kind="choice", choices=SYSTEMS, default=UNKNOWN, width=18,
               example=UNKNOWN),
        Column(key="stands_on", title="Bases stand on", kind="choice", choices=STANDS_ON, default=UNKNOWN, width=14,
               example=UNKNOWN),
    ))

_OPENINGS = Sheet(
    title="Openings", row_is="opening", paper_rows=20, help="From start: from the wall's From point to the near jamb.",
    columns=(
        Column(key="wall", title="Wall", kind="choice", required=True, refers=("Walls",), example="e.g. W1", width=8),
        Column(key="kind", title="Kind", kind="choice", required=True, choices=("door", "window", "vent"),
               example="window"),
        Column(key="from_start", title="From start", kind="number", unit="m", required=True, least=0, most=100,
               example="0.9"),
        Column(key="width", title="Width", kind="number", unit="m", required=True, least=0.1, most=8, example="1.2"),
        Column(key="height", title="Height", kind="number", unit="m", required=True, least=0.1, most=5, example="1.2"),
        Column(key="sill", title="Sill", kind="number", unit="m", least=0, most=4, default="=sill_height",
               example="0.9", help="Above floor; 0 for a door"),
        Column(key="block_up", title="Block up", kind="choice", choices=(*YES_NO, UNKNOWN), default=UNKNOWN,
               example=UNKNOWN, help="Unknown: windows of the lowest storey are blocked, doors are not"),
    ))

_BEAMS = Sheet(
    title="Beams", row_is="beam", help="Beams under slabs, edge beams, plinth beams. Depth is below the slab.",
    columns=(
        _name("Beam", example="e.g. B1", width=8),
        Column(key="storey", title="Storey", kind="number", unit="No", required=True, least=1, most=6, example="1",
               width=8),
        Column(key="start", title="From", kind="point", required=True, example="A1", width=8),
        Column(key="end", title="To", kind="point", required=True, example="C1", width=8),
        Column(key="breadth", title="Breadth", kind="number", unit="mm", required=True, least=50, most=1000,
               example="230"),
        Column(key="depth", title="Depth", kind="number", unit="mm", required=True, least=50, most=1500,
               example="300"),
        Column(key="carries_slab", title="Carries slab", kind="choice", choices=YES_NO, default="yes", example="yes"),
        Column(key="bears_on", title="Bears on", kind="names", refers=("Walls", "Columns", "Beams"), width=20,
               example="C1 C2", help="Blank: the columns and walls under its ends and along it"),
        Column(key="plinth_beam", title="Plinth beam", kind="choice", choices=(*YES_NO, UNKNOWN), default="no",
               example="no"),
    ))

_COLUMNS = Sheet(
    title="Columns", row_is="column or pillar", help="Columns of a frame and masonry pillars.",
    columns=(
        _name("Column", example="e.g. C1", width=8),
        Column(key="storey", title="Storey", kind="number", unit="No", required=True, least=1, most=6, example="1",
               width=8),
        Column(key="point", title="Point", kind="point", required=True, example="A1", width=8),
        Column(key="breadth", title="Breadth", kind="number", unit="mm", required=True, least=100, most=1500,
               example="230"),
        Column(key="depth", title="Depth", kind="number", unit="mm", required=True, least=100, most=1500,
               example="230"),
        Column(key="height", title="Height", kind="number", unit="m", required=True, least=0.3, most=8,
               example="2.7", help="Floor to underside of the beam or slab on it"),
        Column(key="material", title="Material", kind="choice", refers=("Materials",), default="Reinforced concrete",
               example="Reinforced concrete", width=18),
        Column(key="concrete", title="Concrete", kind="text", default=UNKNOWN, example="M20"),
        Column(key="bars", title="Bars", kind="number", unit="mm2", least=0, most=50000, unknown=True,
               help="Area of all main bars"),
        Column(key="system", title="Lifting system", kind="choice", choices=SYSTEMS, default=UNKNOWN, width=18,
               example=UNKNOWN),
    ))

_ATTACHED = Sheet(
    title="Attached", row_is="thing that hangs on, stands on or sticks out", help="Parapets, balconies, sunshades, "
    "stairs, tanks, platforms. Give a weight, or sizes to work it out from.",
    columns=(
        _name("Item", example="e.g. P1", width=14),
        Column(key="kind", title="Kind", kind="choice", required=True, example="parapet", width=18,
               choices=("parapet", "balcony", "sunshade", "stair", "water tank", "kitchen platform", "hanging wall",
                        "other")),
        Column(key="on", title="Wall or room", kind="names", required=True,
               refers=("Walls", "Beams", "Columns", "Rooms"),
               example="W1", width=14),
        Column(key="from_start", title="From start", kind="number", unit="m", least=0, most=100,
               help="From the wall's From point to the near end; blank: along the whole length"),
        Column(key="length", title="Length", kind="number", unit="m", least=0, most=100,
               help="Blank: from From start to the wall's end"),
        Column(key="thickness", title="Thickness", kind="number", unit="mm", least=0, most=1000, example="115"),
        Column(key="size", title="Height or projection", kind="number", unit="m", least=0, most=10, example="0.9",
               width=14),
        Column(key="weight", title="Weight", kind="number", unit="kN", least=0, most=2000, unknown=True,
               help="Blank: from the sizes and the material"),
        Column(key="water", title="Water", kind="number", unit="litre", least=0, most=50000,
               help="Drained for the lift"),
        Column(key="material", title="Material", kind="choice", refers=("Materials",), width=18,
               help="Blank: brick for a parapet or hanging wall, reinforced concrete for the rest"),
        Column(key="support", title="Support while lifting", kind="choice", width=18, default=UNKNOWN,
               choices=("none", "temporary wall", "props", "taken off", UNKNOWN)),
    ))

_FOOTINGS = Sheet(
    title="Footings", row_is="footing of some walls or columns", help="One row may serve several walls. What was not "
    "seen in a pit holds back the release.",
    columns=(
        Column(key="members", title="For", kind="names", required=True, refers=("Walls", "Columns"), width=24,
               example="e.g. W1 W2 W3"),
        Column(key="plinth_thickness", title="Plinth thickness", kind="number", unit="mm", least=100, most=1500,
               default="=plinth_thickness", unknown=True, example="350"),
        Column(key="plinth_height", title="Plinth height", kind="number", unit="m", least=0, most=4,
               default="=plinth_height", unknown=True, example="0.6", help="Footing top to floor"),
        Column(key="steps", title="Steps", kind="number", unit="No", least=0, most=6, default=0, unknown=True,
               example="1"),
        Column(key="width", title="Width", kind="number", unit="m", least=0.2, most=6, default="=footing_width",
               unknown=True, example="0.75"),
        Column(key="depth", title="Depth to underside", kind="number", unit="m", least=0.1, most=6,
               default="=footing_depth", unknown=True, example="0.9", help="Below ground"),
        Column(key="thickness", title="Thickness", kind="number", unit="m", least=0.05, most=2,
               default="=footing_thickness", unknown=True, example="0.2"),
        Column(key="material", title="Material", kind="choice", refers=("Materials",), default="Plain concrete",
               example="Plain concrete", width=18),
        Column(key="seen", title="Seen in pit", kind="choice", choices=(*YES_NO, UNKNOWN), default=UNKNOWN,
               example=UNKNOWN),
    ))

_GROUND = Sheet(
    title="Ground", row_is="soil layer or pit", help="Trial pits and borings, layer by layer. Unknown is an answer.",
    columns=(
        Column(key="where", title="Where", kind="text", required=True, example="e.g. pit 1, outside", width=20),
        Column(key="depth", title="Depth", kind="number", unit="m", least=0, most=60, unknown=True, example="1.2",
               help="To the bottom of the layer"),
        Column(key="soil", title="Soil", kind="choice", refers=("Soils",), unknown=True, width=28),
        Column(key="cohesion", title="c", kind="number", unit="kPa", least=0, most=500, unknown=True),
        Column(key="friction", title="phi", kind="number", unit="deg", least=0, most=50, unknown=True),
        Column(key="unit_weight", title="Unit weight", kind="number", unit="kN/m3", least=8, most=25, unknown=True,
               example="18"),
        Column(key="water_depth", title="Water depth", kind="number", unit="m", least=0, most=60, unknown=True),
        Column(key="n_value", title="N value", kind="number", unit="No", least=0, most=100, unknown=True),
    ))

_CONDITION = Sheet(
    title="Condition", row_is="crack, tilt, damp patch or test", help="Everything seen before work starts; photographs "
    "are kept with the job.",
    columns=(
        Column(key="what", title="What", kind="choice", required=True, example="e.g. crack", width=16,
               choices=("crack", "tilt", "damp patch", "spalling", "test")),
        Column(key="where", title="Where", kind="text", example="W2, over the window", width=26),
        Column(key="size", title="Size or result", kind="number", least=0, most=100000, unknown=True, example="2"),
        Column(key="size_unit", title="Unit", kind="text", example="mm", width=10),
        Column(key="length", title="Length", kind="number", unit="m", least=0, most=50, example="1.5",
               help="Of a crack"),
        Column(key="live", title="Live or old", kind="choice", choices=("live", "old", UNKNOWN), default=UNKNOWN,
               example="old"),
        Column(key="method", title="Method", kind="text", width=18),
        Column(key="date", title="Date", kind="date"),
    ))

_MATERIALS = Sheet(
    title="Materials", row_is="material", shipped=True, paper_rows=0, help="Published defaults; change a figure where "
    "you know better. Names are used on the other sheets.",
    columns=(
        _name("Material", width=30),
        Column(key="unit_weight", title="Unit weight", kind="number", unit="kN/m3", required=True, least=1, most=80),
        Column(key="strength", title="Strength", kind="number", unit="N/mm2", least=0, most=500, unknown=True,
               help="Of the unit or the concrete"),
        Column(key="source", title="Source", kind="text", width=60),
    ))

_USES = Sheet(
    title="Uses", row_is="use of a floor or roof", shipped=True, paper_rows=0, help="Imposed loads by use; published "
    "defaults, open to change.",
    columns=(
        _name("Use", width=36),
        Column(key="imposed", title="Imposed load", kind="number", unit="kN/m2", required=True, least=0, most=20),
        Column(key="source", title="Source", kind="text", width=60),
    ))

_SOILS = Sheet(
    title="Soils", row_is="soil name", shipped=True, paper_rows=0, help="Presumed safe bearing pressures for a first "
    "budget; no substitute for a test.",
    columns=(
        _name("Soil", width=44),
        Column(key="bearing", title="Presumed bearing", kind="number", unit="kPa", required=True, least=10, most=5000),
        Column(key="source", title="Source", kind="text", width=60),
    ))

_ALLOWANCES = Sheet(
    title="Allowances", row_is="allowance", shipped=True, paper_rows=0, help="Every figure used where nothing was "
    "surveyed, and every convention with a number in it. Change one and the whole estimate follows.",
    columns=(
        _name("Allowance", width=24),
        Column(key="description", title="What it is", kind="text", width=60),
        Column(key="value", title="Value", kind="number", required=True, least=-1000, most=1e9),
        Column(key="value_unit", title="Unit", kind="text", width=10),
        Column(key="source", title="Source", kind="text", width=50),
    ))

_KIT = Sheet(
    title="Kit", row_is="thing owned or hired", help="Jacks by type, carrier beams, packing, props and cribs in the "
    "store or on hire.",
    columns=(
        _name("Item", example="e.g. J20", width=12),
        Column(key="type", title="Type", kind="choice", required=True, example="jack with lock nut", width=22,
               choices=("screw jack", "plain hydraulic jack", "jack with lock nut", "jack set on one pump",
                        "carrier beam", "packing", "prop", "crib")),
        Column(key="size", title="Size", kind="text", width=16),
        Column(key="rating", title="Rating", kind="number", unit="kN", least=0, most=5000, unknown=True, example="200"),
        Column(key="stroke", title="Stroke", kind="number", unit="mm", least=0, most=1000, unknown=True, example="150"),
        Column(key="closed_height", title="Closed height", kind="number", unit="mm", least=0, most=2000, unknown=True,
               example="280"),
        Column(key="number", title="In store", kind="number", unit="No", least=0, most=2000, unknown=True,
               example="40"),
        Column(key="hire", title="Hire", kind="number", unit="money/day", least=0, most=1e7),
        Column(key="last_test", title="Last test", kind="date"),
    ))

_RATES = Sheet(
    title="Rates", row_is="item of work", shipped=True, paper_rows=0, help="One rate for each item of work, in the "
    "job's currency. An item that is measured and has no rate is a fault.",
    columns=(
        Column(key="name", title="Code", kind="name", required=True, width=8),
        Column(key="description", title="Description", kind="text", width=64),
        Column(key="unit", title="Unit", kind="text", required=True, width=10),
        Column(key="rate", title="Rate", kind="number", unit="money", least=0, most=1e9, width=14),
        Column(key="note", title="Note", kind="text", width=30),
    ))

_CREW = Sheet(
    title="Crew", row_is="output rate", help="What one gang does in a day, for the programme.",
    columns=(
        _name("Activity", example="e.g. digging inside", width=28),
        Column(key="gang", title="Gang", kind="text", example="4 labourers", width=28),
        Column(key="output", title="Output per day", kind="number", least=0, most=1e6, example="8"),
        Column(key="output_unit", title="Unit", kind="text", example="m3"),
    ))

TABLES: tuple[Sheet, ...] = (
    _SITE, _LEVELS, _GRID, _TAPES, _ROOMS, _WALLS, _OPENINGS, _BEAMS, _COLUMNS, _ATTACHED, _FOOTINGS, _GROUND,
    _CONDITION, _MATERIALS, _USES, _SOILS, _ALLOWANCES, _KIT, _RATES, _CREW,
)
"""Every survey sheet but Job, in workbook order."""

JOB_TITLES = ("Entry", "Value", "Unit", "If left blank", "Note")
"""Headers of the Job sheet, one row an entry; column B is the entry, column D what a blank stands for."""

# fmt: on

SHEET = {sheet.title: sheet for sheet in TABLES}
SURVEY_TITLES = ("Job", *SHEET)


def column_letter(sheet: Sheet, key: str) -> str:
    """The spreadsheet column of `key` on `sheet`.

    >>> column_letter(SHEET["Walls"], "thickness")
    'E'
    """
    return chr(ord("A") + [column.key for column in sheet.columns].index(key))
