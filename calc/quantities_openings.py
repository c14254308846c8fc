"""Openings as the measurement needs them, and the walls taken down and rebuilt.

Covers   which openings are blocked, strutted or lead outside; what each takes off brickwork and plaster of its wall.
Not      the measured lines themselves (quantities_lines).
Signs    what is taken off is positive here.
Units    in each field.
Sources  the rules of measure.

Reveals are two jambs and a soffit, and a sill where it is a window. Only walls that were marked taken down and rebuilt
at issue get rows; how many were marked since is counted (Workings.unmeasured), so that a sheet can say so.
"""

from collections.abc import Callable, Iterable, Sequence

from calc.allowances import Allowances
from calc.measure import brickwork_deduction, plaster_deduction, reveal_run
from calc.number import Filed, Name, at_issue, either, same, text_of, value_of, where
from calc.outlines import Point
from calc.own_rows import OwnLoads
from calc.quantities_rows import OpeningMeasure, RebuiltWall

REBUILT = "taken down and rebuilt"


def opening_rows(
    own: OwnLoads, faces_out: Callable[[str, Point], bool], goes_up: Filed, built: Filed, allow: Allowances
) -> Iterable[OpeningMeasure]:
    """Every opening.

    Args:
        own: own loads
        faces_out: whether a place in a wall has the outside behind it
        goes_up: 1 for a ground wall that is lifted [No]
        built: 1 for a ground wall that new masonry comes under [No]
        allow: the allowances
    """
    plastered = Filed([wall.name for wall in own.walls], [wall.plastered for wall in own.walls])
    for row in own.openings:
        goes, blocked = goes_up.total(row.wall), row.blocked > 0
        leads_out = faces_out(text_of(row.wall), (value_of(row.x), value_of(row.y)))
        outer = at_issue(1.0 if leads_out else 0.0, row.x, row.y)
        faces = plastered.at(row.wall)
        sill = where(same(row.kind, "window"), row.width, 0)
        yield OpeningMeasure(
            wall=row.wall, kind=row.kind, area=row.area, faces=faces, goes_up=goes, blocks=where(blocked, goes, 0),
            struts=where(either(blocked, same(row.kind, "vent")), 0, goes), outer=outer,
            ways_in=where(same(row.kind, "door"), outer, 0) * built.total(row.wall),
            brickwork_out=brickwork_deduction(row.area, allow.brickwork_no_deduction),
            plaster_out=plaster_deduction(row.area, faces, allow.plaster_no_deduction,
                                          allow.plaster_one_face),
            reveals=reveal_run(row.area, row.width + 2 * row.height + sill, allow.plaster_one_face),
        )  # fmt: skip


def rebuilt_walls(own: OwnLoads, openings: Sequence[OpeningMeasure]) -> Iterable[RebuiltWall]:
    """Every wall marked taken down and rebuilt at issue.

    Args:
        own: own loads
        openings: every opening
    """
    names = [row.wall for row in openings]
    brickwork = Filed(names, [row.brickwork_out for row in openings])
    plaster = Filed(names, [row.plaster_out for row in openings])
    reveals = Filed(names, [row.reveals for row in openings])
    for wall in own.walls:
        if text_of(wall.at_lift).casefold() != REBUILT:
            continue
        name = Name(text_of(wall.name))
        yield RebuiltWall(
            name=name, number=wall.rebuilt, net=wall.length - wall.deducted,
            thickness=wall.thickness, height=wall.height, plastered=wall.plastered,
            brickwork_out=brickwork.total(name) / wall.height, plaster_out=plaster.total(name) / wall.height,
            reveals=reveals.total(name),
        )  # fmt: skip
