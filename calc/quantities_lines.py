"""The measured lines of every item of work, stage by stage.

Covers   which lines each item has, and what their dimensions are.
Not      the workings they are made from (quantities_workings) and the texts of the items (a table).
Signs    quantities positive; a deduction is a line with a negative number.
Units    m, m2, m3, kg, No; each line in the unit of its item.
Sources  dimensions and deductions by the rules of measure; which items a raise needs is common practice, no source.

A line stands wherever an edit of the survey could give it a quantity, so doors have a blocking line of number 0: made a
window in the sheet, it counts. What lies below the floor (digging, masonry, pinning) runs through under doors.
Jack bases lie in the trench, so its refill is the digging less the bases. Earth that is carried out is measured loose.
Props stand in the ground storey only. The cut of the plaster is measured outside, where plinth and wall are plastered
in one; inside, the floor edge is cut. A verandah's open sides get a new plinth to hold the fill, measured on its centre
line, and one flight of steps; so does each outside door get a flight.
"""

from collections.abc import Iterable, Sequence

from calc.allowances import Allowances
from calc.bases import PadRow
from calc.measure import MeasuredLine, again, bulked, line, steel_line
from calc.number import Number, Text, either, rounded, same, text_of, value_of, where
from calc.own_loads import FREE
from calc.own_rows import OwnLoads
from calc.quantities_rows import EdgeMeasure, Workings
from calc.survey import Survey


def all_lines(
    survey: Survey, own: OwnLoads, pads: Sequence[PadRow], work: Workings, allow: Allowances
) -> tuple[MeasuredLine, ...]:
    """Every measured line, in the order of the stages.

    Args:
        survey: the entries
        own: own loads
        pads: jack bases
        work: what the lines are made from
        allow: the allowances
    """
    cuts = tuple(_cuts(work))
    blocks = tuple(_blocks(own, work))
    inside, outside = tuple(_digging_inside(work, allow)), tuple(_digging_outside(work, allow))
    bases = tuple(line("D03", _member(pad), pad.count, pad.side, pad.side, pad.thickness) for pad in pads)
    stations = tuple(_stations(work))
    return (
        *_tests(survey), *_services("S01", survey), *cuts, *_taken_down(work),
        *blocks, *_props(work), *_struts(own, work),
        *inside, *outside, *bases, *(again("D04", dug, bulked(dug.number, allow.bulking)) for dug in inside),
        *stations, *_pockets(work), *_carrier_beams(work), *_lifting(work),
        *_under_walls(work, allow), *_rebuilt(work),
        *_filled_trenches(inside, outside, bases), *_floors(work),
        *(again("M01", block, block.number) for block in blocks), *_grouting(survey),
        *(again("M03", station, station.number) for station in stations), *_plaster(cuts, work),
        *_services("O01", survey), *_steps(own, work), *_apron(work, allow),
    )  # fmt: skip


def _member(pad: PadRow) -> str:
    return f"wall {pad.name}" if pad.kind == "wall" else f"pillar {pad.name}"


def _open_sides(work: Workings) -> Iterable[EdgeMeasure]:
    """Sides without a wall whose floor is filled: a new plinth holds the fill there."""
    floors = {str(room.room): room.floor for room in work.rooms}
    return (edge for edge in work.edges if edge.wall == FREE and floors[str(edge.room)] != "suspended")


def _opening(order: int, kind: Text, wall: Text) -> str:
    return f"{text_of(kind)} in {text_of(wall)}, opening {order}"


# ---------------------------------------------------------------------------------------- 1, 2: tests, stripping out


def _tests(survey: Survey) -> Iterable[MeasuredLine]:
    yield line("P01", "the house", 1)
    for place in ("outside the house", "at an inner wall"):
        tested = either(same(survey.job.bearing_from, "test"), same(survey.job.bearing_from, "inspected pits"))
        yield line("P02", place, where(tested, 0, 1))


def _services(code: str, survey: Survey) -> Iterable[MeasuredLine]:
    yield line(code, "the house", survey.job.services)


def _cuts(work: Workings) -> Iterable[MeasuredLine]:
    """Plaster outside, floor edge inside."""
    plastered = {row.name: row.plastered for row in work.walls}
    for edge in work.edges:
        if edge.wall != FREE:
            yield line("S02", f"wall {edge.wall}, outside {edge.room}", edge.up * plastered[edge.wall], edge.face)
    for room in work.rooms:
        if room.floor != "suspended":
            yield line("S03", f"room {room.room}, along its walls", where(room.cut > 0, 1, 0), room.cut)


def _taken_down(work: Workings) -> Iterable[MeasuredLine]:
    for wall in work.rebuilt:
        yield line("S04", f"wall {wall.name}", wall.number, wall.net, wall.thickness, wall.height)
        yield line("S04", f"wall {wall.name}, its openings", 0 - wall.number, wall.brickwork_out, wall.thickness,
                   wall.height)  # fmt: skip


# ---------------------------------------------------------------------------------------- 3: strengthening


def _blocks(own: OwnLoads, work: Workings) -> Iterable[MeasuredLine]:
    for order, (row, opening) in enumerate(zip(own.openings, work.openings, strict=True), start=1):
        yield line("T01", _opening(order, row.kind, row.wall), opening.blocks, row.width, None, row.height)


def _props(work: Workings) -> Iterable[MeasuredLine]:
    for room in work.rooms:
        if value_of(room.slab):
            yield line("T02", f"room {room.room}", room.props)


def _struts(own: OwnLoads, work: Workings) -> Iterable[MeasuredLine]:
    for order, (row, opening) in enumerate(zip(own.openings, work.openings, strict=True), start=1):
        yield line("T03", _opening(order, row.kind, row.wall), opening.struts)


# ---------------------------------------------------------------------------------------- 4: digging


def _digging_inside(work: Workings, allow: Allowances) -> Iterable[MeasuredLine]:
    width, figures = allow.working_width, work.figures
    for room in work.rooms:
        dug = where(room.trench > 0, 1, 0)
        yield line("D01", f"room {room.room}, along its walls", dug, room.trench, width, room.depth)
    ups = {row.name: row.up for row in work.walls}
    for wall in work.loose:
        if wall.inside == "inside":
            yield line("D01", f"wall {wall.wall}, both sides", ups[wall.wall], wall.length, width, figures.inside_depth)
    yield from _pits("D01", ("inside", "at the edge"), figures.inside_depth, work)


def _digging_outside(work: Workings, allow: Allowances) -> Iterable[MeasuredLine]:
    width, figures = allow.working_width, work.figures
    for edge in work.edges:
        if edge.wall != FREE:
            yield line("D02", f"wall {edge.wall}, outside {edge.room}", edge.up, edge.trench, width,
                       figures.outside_depth)  # fmt: skip
    ups = {row.name: row.up for row in work.walls}
    for wall in work.loose:
        if wall.inside == "outside":
            yield line("D02", f"wall {wall.wall}, both sides", ups[wall.wall], wall.length, width,
                       figures.outside_depth)  # fmt: skip
    yield from _pits("D02", ("outside", "at the edge"), figures.outside_depth, work)


def _pits(code: str, places: Sequence[str], depth: Number, work: Workings) -> Iterable[MeasuredLine]:
    """Pits round pillars that stand in no wall; at the edge of the house half of each is inside and half outside."""
    for pillar in work.columns:
        if pillar.place in places:
            yield line(code, f"pillar {pillar.name}", pillar.up, pillar.pit_length, pillar.pit_breadth, depth)
            yield line(code, f"pillar {pillar.name} itself", 0 - pillar.up, pillar.breadth, pillar.own_breadth, depth)


# ---------------------------------------------------------------------------------------- 5: jacks, beams, lifting


def _stations(work: Workings) -> Iterable[MeasuredLine]:
    for wall in work.walls:
        yield line("J01", f"wall {wall.name}", wall.count)
    for pillar in work.columns:
        yield line("J01", f"pillar {pillar.name}", pillar.count)


def _pockets(work: Workings) -> Iterable[MeasuredLine]:
    for wall in work.walls:
        yield line("J02", f"wall {wall.name}", wall.pockets)


def _carrier_beams(work: Workings) -> Iterable[MeasuredLine]:
    for wall in work.walls:
        yield steel_line("J03", f"wall {wall.name}", wall.up * wall.beams, wall.net, wall.beam_mass)


def _lifting(work: Workings) -> Iterable[MeasuredLine]:
    for wall in work.walls:
        yield line("J04", f"wall {wall.name}", rounded(wall.count * work.figures.lifts, 2))
    for pillar in work.columns:
        yield line("J04", f"pillar {pillar.name}", rounded(pillar.count * work.figures.lifts, 2))


# ---------------------------------------------------------------------------------------- 6: raised structure


def _under_walls(work: Workings, allow: Allowances) -> Iterable[MeasuredLine]:
    figures, thickness = work.figures, allow.new_wall_thickness
    for code, depth in (("R01", figures.masonry), ("R02", figures.band)):
        for wall in work.walls:
            yield line(code, f"wall {wall.name}", wall.built, wall.net, wall.new_thickness, depth)
        for edge in _open_sides(work):
            yield line(code, f"open side of {edge.room}", figures.raised, edge.length, thickness, depth)
    for wall in work.walls:
        yield line("R03", f"wall {wall.name}", wall.up, wall.net)
    for pillar in work.columns:
        yield line("R04", f"pillar {pillar.name}", pillar.up, pillar.breadth, pillar.depth, figures.rise)


def _rebuilt(work: Workings) -> Iterable[MeasuredLine]:
    for wall in work.rebuilt:
        yield line("R05", f"wall {wall.name}", wall.number, wall.net, wall.thickness, wall.height)
        yield line("R05", f"wall {wall.name}, its openings", 0 - wall.number, wall.brickwork_out, wall.thickness,
                   wall.height)  # fmt: skip
    for wall in work.rebuilt:
        yield line("R06", f"wall {wall.name}", wall.number * wall.plastered, wall.net, None, wall.height)
        yield line("R06", f"wall {wall.name}, its openings", 0 - wall.number, wall.plaster_out, None, wall.height)
        yield line("R06", f"wall {wall.name}, reveals", wall.number * where(wall.plastered > 0, 1, 0), wall.reveals,
                   wall.thickness)  # fmt: skip


# ---------------------------------------------------------------------------------------- 7: filling and floors


def _filled_trenches(
    inside: Sequence[MeasuredLine], outside: Sequence[MeasuredLine], bases: Sequence[MeasuredLine]
) -> Iterable[MeasuredLine]:
    yield from (again("F01", dug, dug.number) for dug in (*inside, *outside))
    yield from (again("F01", base, 0 - base.number) for base in bases)


def _floors(work: Workings) -> Iterable[MeasuredLine]:
    """Fill, gravel, bed and finish of every floor that does not go up with its walls."""
    figures = work.figures
    rooms = [room for room in work.rooms if room.floor != "suspended"]
    for code, depth in (("F02", figures.fill), ("F03", figures.gravel), ("F04", figures.bed)):
        for room in rooms:
            yield line(code, f"room {room.room}", figures.raised, room.length, room.breadth, depth)
    for room in rooms:
        yield line("F05", f"room {room.room}", figures.raised, room.length, room.breadth)


# ---------------------------------------------------------------------------------------- 8, 9: making good, outside


def _grouting(survey: Survey) -> Iterable[MeasuredLine]:
    for order, crack in enumerate(survey.cracks, start=1):
        yield line("M02", f"{crack.where}, entry {order}", where(same(crack.what, "crack"), 1, 0), crack.length)


def _plaster(cuts: Sequence[MeasuredLine], work: Workings) -> Iterable[MeasuredLine]:
    """The band made good at the cut, and the new masonry plastered outside by its full height."""
    yield from (again("M04", cut, cut.number) for cut in cuts if cut.code == "S02")
    built = {row.name: row.finished for row in work.walls}
    for edge in work.edges:
        if edge.wall != FREE:
            yield line("M05", f"wall {edge.wall}, outside {edge.room}", built[edge.wall] * edge.reach, edge.face, None,
                       work.figures.rise)  # fmt: skip
    for edge in _open_sides(work):
        yield line("M05", f"open side of {edge.room}", work.figures.raised, edge.face, None, work.figures.rise)


def _steps(own: OwnLoads, work: Workings) -> Iterable[MeasuredLine]:
    for order, (row, opening) in enumerate(zip(own.openings, work.openings, strict=True), start=1):
        yield line("O02", _opening(order, row.kind, row.wall), opening.ways_in * work.figures.steps)
    for room in dict.fromkeys(str(edge.room) for edge in _open_sides(work)):
        yield line("O02", f"open side of {room}", work.figures.steps)


def _apron(work: Workings, allow: Allowances) -> Iterable[MeasuredLine]:
    for edge in work.edges:
        along = f"open side of {edge.room}" if edge.wall == FREE else f"wall {edge.wall}, outside {edge.room}"
        yield line("O03", along, where(edge.apron > 0, 1, 0), edge.apron, allow.apron_width)
