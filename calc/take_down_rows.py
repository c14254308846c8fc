"""The rows of the take-down: what each part passes down and what each wall, beam and column carries.

Covers   one record a row; each field is computed once and complete when made, because a workbook shows it as a column.
Not      how they are worked out (take_down).
Signs    weight positive downward.
Units    in each field.
Sources  none of its own.
"""

from dataclasses import dataclass

from calc.centre import CentreRow
from calc.fields import note, quantity
from calc.number import Name, Number, Text
from calc.own_rows import OwnLoads

NOT_SURVEYED = Name("not surveyed")
"""Label of the assumed footing."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AttachedPart:
    """What one carrier gets of one attached thing."""

    item: Text = note("attached thing")
    carrier: Name = note("wall, beam or column")
    fraction: Number = quantity("-", "part of it; of a thing on a slab worked out at issue")
    dead: Number = quantity("kN", "dead load")
    imposed: Number = quantity("kN", "imposed load")
    lifted: Number = quantity("kN", "load in the lift")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PassedRow:
    """What one lower member gets of one upper member."""

    upper: Name = note("upper wall or column")
    lower: Name = note("what it stands on")
    through: str = note("the slab it goes through, if any")
    upper_dead: Number = quantity("kN", "dead load of the upper member")
    upper_imposed: Number = quantity("kN", "imposed load of the upper member")
    upper_lifted: Number = quantity("kN", "load of the upper member in the lift")
    fraction_dead: Number = quantity("-", "part of its dead load")
    fraction_imposed: Number = quantity("-", "part of its imposed load")
    fraction_lifted: Number = quantity("-", "part of its load in the lift")
    dead: Number = quantity("kN", "dead load passed")
    imposed: Number = quantity("kN", "imposed load passed")
    lifted: Number = quantity("kN", "load in the lift passed")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DrawnRow:
    """What one support draws from one beam."""

    beam: Name = note("beam")
    support: Name = note("column, wall or beam")
    letter: Name = note("letter line the support stands on; - where none")
    number: Name = note("number line the support stands on; - where none")
    x_beam: Number = quantity("m", "x of the beam's start")
    y_beam: Number = quantity("m", "y of the beam's start")
    dx: Number = quantity("m", "run of the beam east")
    dy: Number = quantity("m", "run of the beam north")
    x: Number = quantity("m", "x of the support; where a wall or beam crosses, worked out at issue")
    y: Number = quantity("m", "y of the support, likewise")
    at: Number = quantity("m", "distance along the beam")
    start: Number = quantity("m", "start of the length it carries")
    end: Number = quantity("m", "end of the length it carries")
    beam_length: Number = quantity("m", "length of the beam")
    beam_dead: Number = quantity("kN", "dead load of the beam")
    beam_imposed: Number = quantity("kN", "imposed load of the beam")
    beam_lifted: Number = quantity("kN", "load of the beam in the lift")
    fraction_dead: Number = quantity("-", "part of its dead load")
    fraction_imposed: Number = quantity("-", "part of its imposed load")
    fraction_lifted: Number = quantity("-", "part of its load in the lift")
    dead: Number = quantity("kN", "dead load drawn")
    imposed: Number = quantity("kN", "imposed load drawn")
    lifted: Number = quantity("kN", "load in the lift drawn")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MemberTotal:
    """Everything one wall, beam or column carries at its foot."""

    name: Text = note("mark")
    kind: str = note("wall, beam or column")
    own: Number = quantity("kN", "own weight")
    slabs: Number = quantity("kN", "dead load of slabs and roofs")
    attached: Number = quantity("kN", "weight of attached things")
    beams: Number = quantity("kN", "dead load of beams")
    above: Number = quantity("kN", "dead load from above")
    dead: Number = quantity("kN", "dead load")
    slabs_imposed: Number = quantity("kN", "imposed load of slabs and roofs")
    attached_imposed: Number = quantity("kN", "imposed load of attached things")
    beams_imposed: Number = quantity("kN", "imposed load of beams")
    above_imposed: Number = quantity("kN", "imposed load from above")
    imposed: Number = quantity("kN", "imposed load")
    service: Number = quantity("kN", "dead and imposed")
    own_lifted: Number = quantity("kN", "own weight lifted")
    slabs_lifted: Number = quantity("kN", "slabs and roofs in the lift")
    attached_lifted: Number = quantity("kN", "attached things in the lift")
    beams_lifted: Number = quantity("kN", "beams in the lift")
    above_lifted: Number = quantity("kN", "from above in the lift")
    lifted: Number = quantity("kN", "load in the lift")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StoreyBlock:
    """One storey of the take-down: beams in the order they carry each other, then walls and columns."""

    storey: int
    beams: tuple[tuple[MemberTotal, ...], ...]
    drawn: tuple[tuple[DrawnRow, ...], ...]
    walls: tuple[MemberTotal, ...]
    columns: tuple[MemberTotal, ...]
    passed: tuple[PassedRow, ...]
    """What this storey passes to the one below."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FootingRow:
    """A footing as surveyed, or the one assumed where none was."""

    label: Text = note("walls and columns it serves")
    plinth_thickness: Number = quantity("m", "plinth masonry")
    plinth_height: Number = quantity("m", "footing top to floor")
    width: Number = quantity("m", "across the wall")
    depth: Number = quantity("m", "underside below ground")
    thickness: Number = quantity("m", "thickness")
    material: Text = note("material")
    unit_weight: Number = quantity("kN/m3", "unit weight")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BaseRow:
    """One ground wall or column at the cut level."""

    name: Name = note("mark")
    kind: str = note("wall or column")
    member: Text = note("the same, as shown")
    footing: Name = note("its footing")
    length: Number = quantity("m", "length")
    footing_plinth: Number = quantity("m", "plinth masonry of its footing")
    plinth_thickness: Number = quantity("m", "plinth masonry; of a pillar its own side")
    plinth_left: Number = quantity("m", "height of plinth below the cut")
    cut_band: Number = quantity("kN", "plinth masonry between the cut and the floor")
    goes_up: Number = quantity("-", "1 where it is lifted, else 0")
    dead: Number = quantity("kN", "dead load at the cut level")
    imposed: Number = quantity("kN", "imposed load")
    service: Number = quantity("kN", "dead and imposed")
    lifted: Number = quantity("kN", "load in the lift")
    line_service: Number = quantity("kN/m", "service load along the wall; the whole load of a column per metre of side")
    line_lifted: Number = quantity("kN/m", "load in the lift along the wall")
    width: Number = quantity("m", "footing width")
    footing_thickness: Number = quantity("m", "footing thickness")
    masonry: Number = quantity("kN/m3", "unit weight of the plinth")
    footing_unit_weight: Number = quantity("kN/m3", "unit weight of the footing")
    plinth_height: Number = quantity("m", "footing top to floor")
    plinth: Number = quantity("kN", "plinth that stays")
    footing_weight: Number = quantity("kN", "footing that stays")
    stays: Number = quantity("kN", "all that stays")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HouseTotals:
    """The house as a whole."""

    dead: Number = quantity("kN", "dead load above the cut level")
    imposed: Number = quantity("kN", "imposed load")
    service: Number = quantity("kN", "dead and imposed")
    lifted: Number = quantity("kN", "load on the jacks")
    stays: Number = quantity("kN", "plinth and footings below the cut level")
    went_in: Number = quantity("kN", "service load of every part, added up before anything is passed down")
    balance: Number = quantity("kN", "what comes out at the ground less what went in")
    lifted_parts: Number = quantity("kN", "what is lifted, added up part by part")
    centre_balance: Number = quantity("kN", "what the centre is worked out from less what is lifted")
    x: Number = quantity("m", "centre of what is lifted, east")
    y: Number = quantity("m", "centre of what is lifted, north")
    z: Number = quantity("m", "centre of what is lifted, above the ground floor")
    floor_area: Number = quantity("m2", "floor area on centre lines, all storeys")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WentIn:
    """One kind of load, added up before anything is passed down."""

    what: str = note("kind of load")
    load: Number = quantity("kN", "all of it")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FiledSum:
    """Loads filed under names, against what was found under those names: a name that fits nothing shows here."""

    what: str = note("what is filed")
    filed: Number = quantity("kN", "all that is filed")
    found: Number = quantity("kN", "all that was looked up")
    gap: Number = quantity("kN", "filed less found")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TakeDown:
    """The whole take-down."""

    own: OwnLoads
    parts: tuple[AttachedPart, ...]
    blocks: tuple[StoreyBlock, ...]
    footings: tuple[FootingRow, ...]
    bases: tuple[BaseRow, ...]
    house: HouseTotals
    centre: tuple[CentreRow, ...]
    went_in: tuple[WentIn, ...]
    filed_sums: tuple[FiledSum, ...]
