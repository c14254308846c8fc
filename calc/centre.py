"""Centre of what is lifted, from the place and load of every part.

Covers   one row a part, with its moments about the origin of the grid and the ground floor.
Not      how supports share the load.
Signs    x east, y north, z up from the ground floor.
Units    m, kN, kN m.
Sources  statics.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol

from calc.fields import note, quantity
from calc.number import Filed, Name, Number, text_of
from calc.own_rows import ColumnRow, OwnLoads, WallRow
from calc.plan_rows import Plan


class Base(Protocol):
    """What is needed of a ground wall or column: its name, kind and the plinth lifted with it."""

    @property
    def name(self) -> Name: ...  # noqa: D102
    @property
    def kind(self) -> str: ...  # noqa: D102
    @property
    def goes_up(self) -> Number: ...  # noqa: D102
    @property
    def cut_band(self) -> Number: ...  # noqa: D102


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CentreRow:
    """One part of what is lifted."""

    what: str = note("part")
    lifted: Number = quantity("kN", "load in the lift")
    x: Number = quantity("m", "east")
    y: Number = quantity("m", "north")
    z: Number = quantity("m", "above the ground floor")
    moment_x: Number = quantity("kN m", "load times x")
    moment_y: Number = quantity("kN m", "load times y")
    moment_z: Number = quantity("kN m", "load times z")


def centre_rows(plan: Plan, own: OwnLoads, bases: Sequence[Base], cut_level: Number) -> Iterable[CentreRow]:
    """Every part of what is lifted, with its place.

    Args:
        plan: who carries whom
        own: own loads
        bases: ground walls and columns
        cut_level: relative to floor [m]
    """
    for wall in own.walls:
        yield _row(f"wall {text_of(wall.name)}, before openings", wall.gross * wall.goes_up, wall.x, wall.y, wall.z)
    for opening in own.openings:
        up, name = opening.goes_up, text_of(opening.wall)
        rest = (opening.change_lift - opening.lintel) * up
        yield _row(f"{text_of(opening.kind)} in {name}", rest, opening.x, opening.y, opening.z)
        yield _row(f"lintel in {name}", opening.lintel * up, opening.x, opening.y, opening.z_lintel)
    for panel in own.panels:
        yield _row(f"{text_of(panel.kind)} of {panel.panel}", panel.area * panel.lifted, panel.x, panel.y, panel.z)
    yield from _strips(plan, own)
    for beam in own.beams:
        yield _row(f"beam {text_of(beam.name)}", beam.dead, beam.x, beam.y, beam.z)
    for column in own.columns:
        yield _row(f"column {text_of(column.name)}", column.dead, column.x, column.y, column.z)
    for item in own.attached:
        yield _row(text_of(item.name), item.lifted, item.x, item.y, item.z)
    places = {"wall": _places(own.walls), "column": _places(own.columns)}
    for base in bases:
        name, (xs, ys) = Name(base.name), places[base.kind]
        yield _row(
            f"plinth lifted under {base.name}", base.cut_band * base.goes_up, xs.at(name), ys.at(name), cut_level / 2
        )


def _places(rows: Sequence[WallRow] | Sequence[ColumnRow]) -> tuple[Filed, Filed]:
    names = [row.name for row in rows]
    return Filed(names, [row.x for row in rows]), Filed(names, [row.y for row in rows])


def _strips(plan: Plan, own: OwnLoads) -> Iterable[CentreRow]:
    panels = {row.panel: row for row in own.panels}
    pieces = [piece for panel in plan.panels for piece in panel.pieces]
    for piece, side, share in zip(pieces, own.sides, own.shares, strict=True):
        if piece.outside and share.panel in panels:
            row = panels[share.panel]
            yield _row(f"edge of {share.panel} on {share.carrier}", share.strip * row.lifted,
                       (side.x_start + side.x_end) / 2, (side.y_start + side.y_end) / 2, row.z)  # fmt: skip


def _row(what: str, lifted: Number, x: Number, y: Number, z: Number) -> CentreRow:
    return CentreRow(what=what, lifted=lifted, x=x, y=y, z=z, moment_x=lifted * x, moment_y=lifted * y,
                     moment_z=lifted * z)  # fmt: skip
