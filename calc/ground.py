"""Pressure under each wall before, trenched, during and after the raise.

Covers   strip footings of walls and pads of columns under gross service pressure.
Not      bearing capacity, settlement, eccentric load. Backfill over the old footing is left out.
Signs    pressure positive downward.
Units    m, kN/m, kN/m2, kN/m3.
Sources  load over area; conventions of this project.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from calc.allowances import Allowances
from calc.bases import PadRow
from calc.fields import note, quantity
from calc.number import Filed, Name, Number, maximum, ratio, text_of
from calc.own_rows import OwnLoads
from calc.take_down_rows import BaseRow, FootingRow


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PressureRow:
    """Pressure under one ground wall."""

    name: Name = note("wall")
    width: Number = quantity("m", "footing width")
    line_service: Number = quantity("kN/m", "service load at the cut level")
    line_lifted: Number = quantity("kN/m", "load in the lift")
    line_below: Number = quantity("kN/m", "plinth and footing below the cut")
    sides: Number = quantity("No", "sides that are filled")
    masonry: Number = quantity("kN/m3", "unit weight of the masonry")
    plinth: Number = quantity("m", "thickness of the plinth")
    new_wall: Number = quantity("kN/m", "new masonry and band")
    fill: Number = quantity("kN/m", "new fill over the footing")
    before: Number = quantity("kN/m2", "as it stands")
    trenched: Number = quantity("kN/m2", "trenched, before the jacks take the load")
    during: Number = quantity("kN/m2", "under the jack bases")
    after: Number = quantity("kN/m2", "raised and filled")
    allowable: Number = quantity("kN/m2", "allowable pressure")


def footing_pressure(line_load: Number, width: Number) -> Number:
    """Pressure under a strip footing [kN/m2].

    Args:
        line_load: all load along the wall, footing included [kN/m]
        width: of the footing [m]

    >>> footing_pressure(33.375, 0.75)
    44.5
    """
    return line_load / width


def new_masonry_load(rise: Number, thickness: Number, masonry: Number, band_depth: Number, concrete: Number) -> Number:
    """Weight of the masonry and band built under a raised wall [kN/m].

    Args:
        rise: of the house [m]
        thickness: of the new masonry [m]
        masonry: its unit weight [kN/m3]
        band_depth: of the concrete band in it [m]
        concrete: unit weight of the band [kN/m3]

    >>> round(new_masonry_load(0.9, 0.23, 19.0, 0.15, 25.0), 4)
    4.14
    """
    return thickness * maximum(rise - band_depth, 0) * masonry + thickness * band_depth * concrete


def fill_load(sides: Number, width: Number, plinth: Number, rise: Number, fill: Number) -> Number:
    """Weight of new fill over the footing beside the plinth [kN/m].

    Args:
        sides: filled sides of the wall [No]
        width: of the footing [m]
        plinth: thickness of the plinth [m]
        rise: depth of the fill [m]
        fill: unit weight of the fill [kN/m3]

    >>> round(fill_load(2, 0.75, 0.35, 0.9, 18.0), 3)
    6.48
    """
    return sides * (width - plinth) / 2 * rise * fill


def pressure_rows(
    bases: Sequence[BaseRow],
    footings: Sequence[FootingRow],
    own: OwnLoads,
    pads: Sequence[PadRow],
    rise: Number,
    allowable: Number,
    allow: Allowances,
) -> list[PressureRow]:
    """Pressure under every ground wall.

    Args:
        bases: ground walls and columns at the cut level
        footings: footings as surveyed or assumed
        own: own loads
        pads: jack bases
        rise: of the house [m]
        allowable: safe bearing pressure [kN/m2]
        allow: the allowances
    """
    widths = Filed([row.label for row in footings], [row.width for row in footings])
    # A suspended ground floor is a panel over the same room as its slab: its sides are not counted again.
    floors = {row.panel for row in own.panels if text_of(row.kind) == "floor"}
    room_sides = [side for side in own.sides if side.panel not in floors]
    inside = Filed([side.wall for side in room_sides], [side.length for side in room_sides])
    masonry = Filed([row.name for row in own.walls], [row.unit_weight for row in own.walls])
    under_pads = Filed([row.name for row in pads], [row.pressure for row in pads])
    rows = []
    for base in bases:
        if base.kind != "wall":
            continue
        width, below = widths.at(base.footing), base.stays / base.length
        sides = ratio(inside.total(base.name), base.length, 0)
        brickwork = masonry.at(base.name)
        new = new_masonry_load(rise, allow.new_wall_thickness, brickwork, allow.band_depth, own.weights.concrete)
        fill = fill_load(sides, width, base.plinth_thickness, rise, own.weights.fill)
        rows.append(PressureRow(
            name=base.name, width=width, line_service=base.line_service, line_lifted=base.line_lifted,
            line_below=below, sides=sides, masonry=brickwork, plinth=base.plinth_thickness, new_wall=new, fill=fill,
            before=footing_pressure(base.line_service + below, width),
            trenched=footing_pressure(base.line_lifted + below, width), during=under_pads.at(base.name),
            after=footing_pressure(base.line_service + below + new + fill, width), allowable=allowable,
        ))  # fmt: skip
    return rows
