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
from calc.levels import Levels
from calc.number import Filed, Name, Number, maximum, ratio, text_of
from calc.own_rows import OwnLoads
from calc.take_down_rows import BaseRow, FootingRow
from calc.walls import prism_weight


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
    new_thickness: Number = quantity("m", "thickness of the new masonry, no less than its wall's")
    new_wall: Number = quantity("kN/m", "new masonry and band")
    fill: Number = quantity("kN/m", "new fill over the footing")
    before: Number = quantity("kN/m2", "as it stands")
    trenched: Number = quantity("kN/m2", "trenched, before the jacks take the load")
    during: Number = quantity("kN/m2", "under the jack bases")
    after: Number = quantity("kN/m2", "raised and filled")
    allowable: Number = quantity("kN/m2", "allowable pressure")
    underside: Number = quantity("m", "underside of its footing below the floor")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ColumnPressureRow:
    """Pressure under the square footing of one ground column or pillar."""

    name: Name = note("column")
    width: Number = quantity("m", "side of its footing")
    service: Number = quantity("kN", "service load at the cut level")
    lifted: Number = quantity("kN", "load in the lift")
    below: Number = quantity("kN", "shaft and footing below the cut")
    breadth: Number = quantity("m", "along x")
    depth: Number = quantity("m", "along y")
    unit_weight: Number = quantity("kN/m3", "unit weight of the shaft")
    new_shaft: Number = quantity("kN", "shaft built under it")
    before: Number = quantity("kN/m2", "as it stands")
    trenched: Number = quantity("kN/m2", "trenched, before the jacks take the load")
    after: Number = quantity("kN/m2", "raised; fill over its footing left out")
    allowable: Number = quantity("kN/m2", "allowable pressure")
    underside: Number = quantity("m", "underside of its footing below the floor")


def pad_footing_pressure(load: Number, side: Number) -> Number:
    """Pressure under a square footing [kN/m2].

    Args:
        load: all load on it, the footing included [kN]
        side: of the footing [m]

    >>> round(pad_footing_pressure(54.3, 0.6), 2)
    150.83
    """
    return load / side**2


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
    levels: Levels,
    allowable: Number,
    allow: Allowances,
) -> list[PressureRow]:
    """Pressure under every ground wall.

    Args:
        bases: ground walls and columns at the cut level
        footings: footings as surveyed or assumed
        own: own loads
        pads: jack bases
        levels: rise and levels
        allowable: safe bearing pressure [kN/m2]
        allow: the allowances
    """
    rise = levels.rise
    depths = Filed([row.label for row in footings], [row.depth for row in footings])
    across = Filed([member.name for member in own.members], [member.across for member in own.members])
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
        thickness = maximum(allow.new_wall_thickness, across.at(base.name))
        new = new_masonry_load(rise, thickness, brickwork, allow.band_depth, own.weights.concrete)
        fill = fill_load(sides, width, base.plinth_thickness, rise, own.weights.fill)
        rows.append(PressureRow(
            name=base.name, width=width, line_service=base.line_service, line_lifted=base.line_lifted,
            line_below=below, sides=sides, masonry=brickwork, plinth=base.plinth_thickness, new_thickness=thickness,
            new_wall=new, fill=fill, underside=levels.plinth + depths.at(base.footing),
            before=footing_pressure(base.line_service + below, width),
            trenched=footing_pressure(base.line_lifted + below, width), during=under_pads.at(base.name),
            after=footing_pressure(base.line_service + below + new + fill, width), allowable=allowable,
        ))  # fmt: skip
    return rows


def column_pressure_rows(
    bases: Sequence[BaseRow], footings: Sequence[FootingRow], own: OwnLoads, levels: Levels, allowable: Number
) -> list[ColumnPressureRow]:
    """Pressure under every ground column.

    Args:
        bases: ground walls and columns at the cut level
        footings: footings as surveyed or assumed
        own: own loads
        levels: rise and levels
        allowable: safe bearing pressure [kN/m2]
    """
    labels = [row.label for row in footings]
    widths, depths = Filed(labels, [row.width for row in footings]), Filed(labels, [row.depth for row in footings])
    names = [row.name for row in own.columns]
    shafts = {key: Filed(names, [getattr(row, key) for row in own.columns])
              for key in ("breadth", "depth", "unit_weight")}  # fmt: skip
    rows = []
    for base in bases:
        if base.kind != "column":
            continue
        shaft = {key: column.at(base.name) for key, column in shafts.items()}
        new = prism_weight(levels.rise, shaft["breadth"], shaft["depth"], shaft["unit_weight"])
        width = widths.at(base.footing)
        rows.append(ColumnPressureRow(
            name=base.name, width=width, service=base.service, lifted=base.lifted, below=base.stays, new_shaft=new,
            before=pad_footing_pressure(base.service + base.stays, width),
            trenched=pad_footing_pressure(base.lifted + base.stays, width),
            after=pad_footing_pressure(base.service + base.stays + new, width), allowable=allowable,
            underside=levels.plinth + depths.at(base.footing), **shaft,
        ))  # fmt: skip
    return rows
