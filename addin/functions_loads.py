"""Worksheet functions for loads and pressures: walls, slabs, roofs, footings.

Covers   weight, load and stress of walls; weight of slabs, roofs, beams; imposed load and published figures by name;
         share of a slab; pressure under footings, weight of what a raise adds to them.
Not      any arithmetic: that is calc's. How arguments are read is addin/worksheet's.
Rules    names begin with PLINTH_ and look like no cell; units stand in the argument names.
"""

from collections.abc import Sequence
from typing import Any

from addin import tables
from addin.arguments import (
    AREA,
    CONCRETE,
    FACES,
    FINISH,
    HEIGHT,
    LENGTH,
    LOAD,
    LOADS,
    MASONRY,
    RISE,
    SLAB,
    SLOPE,
    THICKNESS,
    allowance,
    declared,
    in_mm,
    material,
    named,
    number,
    text,
)
from addin.worksheet import VALUE, BadArgument, taken
from calc.ground import fill_load, footing_pressure, new_masonry_load, pad_footing_pressure
from calc.slabs import load_on, one_way_share, roof_dead, roof_imposed, slab_dead, two_way_share
from calc.walls import line_load, net_wall_weight, prism_weight, surface_weight, wall_load, wall_stress


def _wall_weight(
    length: float, height: float, thickness: float, openings: float, weight: float, faces: float, plaster: float
) -> Any:
    surface = surface_weight(thickness, weight, faces, plaster, material("Cement plaster"))
    return net_wall_weight(length, height, openings, surface)


def _wall_load(own: float, areas: Sequence[Any], loads: Sequence[Any]) -> Any:
    """The shares and the loads stand in pairs: half a pair is no load of 0, and is refused."""
    pairs = [(area, load) for area, load in zip(areas, loads, strict=False) if not (area is None and load is None)]
    if len(areas) != len(loads) or any(None in pair for pair in pairs):
        raise BadArgument(VALUE, "slab_loads_kN_m2", "each share of a slab needs its load beside it")
    return wall_load(own, [taken(area) for area, _ in pairs], [taken(load) for _, load in pairs])


def _roof_imposed(slope: float, flat: float) -> Any:
    limits = (allowance(key) for key in ("roof_slope_free", "roof_slope_fall", "roof_imposed_least"))
    return roof_imposed(flat, slope, *limits)


_uses = named(((row.name, row.imposed) for row in tables.uses()), "use")
_coverings = named(((row.name, row.weight) for row in tables.coverings()), "covering")
_soils = named(((row.name, row.bearing) for row in tables.soils()), "soil")
_COVERING = number("covering_kN_m2", "kN/m2", "covering and timbers for each m2 of slope")
_PLASTER = number("plaster_mm", "mm", "plaster on one face", in_mm("plaster_thickness"))

WALLS = (
    declared("PLINTH_WALL_WEIGHT", LOADS, "Weight of a plastered wall net of its openings, kN", "kN", _wall_weight,
             LENGTH, HEIGHT, THICKNESS, number("openings_m2", "m2", "area of all openings", 0), MASONRY, FACES,
             _PLASTER),
    declared("PLINTH_WALL_LOAD", LOADS, "Load of a wall: its own weight and its shares of slabs, kN", "kN", _wall_load,
             number("own_kN", "kN", "weight of the wall and of what stands on it"),
             number("slab_shares_m2", "m2", "its share of each slab, one cell each", takes="column"),
             number("slab_loads_kN_m2", "kN/m2", "load of each slab, in the same order", takes="column")),
    declared("PLINTH_LINE_LOAD", LOADS, "Load of each metre of a wall, kN/m", "kN/m", line_load, LOAD, LENGTH),
    declared("PLINTH_WALL_STRESS", LOADS, "Stress on a wall section, kPa", "kPa", wall_stress,
             number("load_kN", "kN", "load on the wall"), LENGTH, THICKNESS),
    declared("PLINTH_BEAM_WEIGHT", LOADS, "Weight of a beam, column, plinth or footing, kN", "kN", prism_weight,
             LENGTH, number("breadth_mm", "mm", "breadth"), number("depth_mm", "mm", "depth"),
             number("unit_weight_kN_m3", "kN/m3", "unit weight", material("Reinforced concrete"))),
)  # fmt: skip

SLABS = (
    declared("PLINTH_SLAB_SHARE", LOADS, "Area of a rectangular slab that one side carries: 45 degree lines, one way "
             "where more than twice as long as wide, m2", "m2", two_way_share,
             number("side_m", "m", "length of that side"),
             number("other_m", "m", "length of the sides at right angles to it")),
    declared("PLINTH_SLAB_SHARE_ONE_WAY", LOADS, "Area that a bearing side of a one-way slab carries, m2", "m2",
             one_way_share, number("side_m", "m", "length of the bearing side"),
             number("span_m", "m", "span between the two bearing sides")),
    declared("PLINTH_SLAB_LOAD", LOADS, "Weight of a slab and its finish on each m2, kN/m2", "kN/m2",
             lambda slab, finish, concrete: slab_dead(slab, concrete, finish), SLAB, FINISH, CONCRETE),
    declared("PLINTH_SLAB_WEIGHT", LOADS, "Weight of a slab and its finish, kN", "kN",
             lambda area, slab, finish, concrete: load_on(area, slab_dead(slab, concrete, finish)), AREA, SLAB, FINISH,
             CONCRETE),
    declared("PLINTH_ROOF_LOAD", LOADS, "Weight of a pitched roof on each m2 of plan, kN/m2", "kN/m2", roof_dead,
             _COVERING, SLOPE),
    declared("PLINTH_ROOF_WEIGHT", LOADS, "Weight of a pitched roof over an area on plan, kN", "kN",
             lambda area, covering, slope: load_on(area, roof_dead(covering, slope)), AREA, _COVERING, SLOPE),
    declared("PLINTH_ROOF_IMPOSED", LOADS, "Imposed load of a pitched roof on each m2 of plan, kN/m2", "kN/m2",
             _roof_imposed, SLOPE, number("flat_kN_m2", "kN/m2", "of the same roof laid flat", _uses("Pitched roof"))),
)  # fmt: skip
FIGURES = (
    declared("PLINTH_IMPOSED_LOAD", LOADS, "Published imposed load of a use, kN/m2", "kN/m2", _uses,
             text("use_of_floor", "a name of the Uses sheet, such as Dwelling room")),
    declared("PLINTH_UNIT_WEIGHT", LOADS, "Published unit weight of a material, kN/m3", "kN/m3", material,
             text("material", "a name of the Materials sheet, such as Brick masonry")),
    declared("PLINTH_COVERING", LOADS, "Published weight of a roof covering, floor finish or ceiling, kN/m2", "kN/m2",
             _coverings, text("covering", "such as Mangalore tiles with battens")),
    declared("PLINTH_BEARING", LOADS, "Presumed safe bearing pressure of a soil, for a first price only, kPa", "kPa",
             _soils, text("soil", "a name of the Soils sheet")),
)  # fmt: skip

GROUND = (
    declared("PLINTH_FOOTING_PRESSURE", LOADS, "Pressure under a strip footing, kPa", "kPa", footing_pressure,
             number("line_load_kN_m", "kN/m", "all load along the wall, footing included"),
             number("width_m", "m", "width of the footing")),
    declared("PLINTH_PAD_PRESSURE", LOADS, "Pressure under a square footing or jack base, kPa", "kPa",
             pad_footing_pressure, number("load_kN", "kN", "all load on it"), number("side_m", "m", "its side")),
    declared("PLINTH_NEW_MASONRY_LOAD", LOADS, "Weight of the masonry and band built under a raised wall, kN/m", "kN/m",
             new_masonry_load, RISE,
             number("thickness_mm", "mm", "of the new masonry", in_mm("new_wall_thickness")), MASONRY,
             number("band_m", "m", "depth of the concrete band in it", allowance("band_depth")), CONCRETE),
    declared("PLINTH_FILL_LOAD", LOADS, "Weight of new fill on a footing beside its plinth, kN/m", "kN/m", fill_load,
             number("filled_sides", "No", "sides of the wall that are filled, 0 to 2", most=2),
             number("width_m", "m", "width of the footing"), number("plinth_mm", "mm", "thickness of the plinth"),
             RISE, number("fill_kN_m3", "kN/m3", "unit weight of the fill", material("Compacted fill"))),
)  # fmt: skip
