"""The workings of the measurement: lengths, areas and counts, from the survey, the plan and the first jack answer.

Covers   depths and heights, ground walls, rooms and their sides, the outside edge by edge, pillars.
Not      the measured lines themselves (quantities_lines).
Signs    levels up from the ground floor; turns as in quantities_rows.
Units    in each field.
Sources  geometry; conventions of this project.

Digging. The floor is the zero of levels, and the trench ends `below_cut` under the cut level. So inside it is
`below_cut - cut level` deep, measured from the floor, the old floor dug through with it. Outside the ground already
lies lower by the plinth, so it is that less the plinth, and never less than 0. Under a suspended floor the ground is
taken to lie as it does outside. Both faces of every wall on jacks are trenched, a neighbour's side excepted.
Corners. A trench w wide is measured along the face of its wall, between the walls it meets. Where two trenches meet in
an outer corner of a room they share w x w; where they meet round an inner corner that square is missing. Each of the
two takes half of the difference, so that nothing is dug twice. In a small room the shared square is no more than a
quarter of the floor, and all trenches together are no more than the floor: exact for every rectangle with all its walls
on jacks. Outside it is the same with the signs turned. A pit round a pillar may overlap a trench it stands near.
"""

from collections.abc import Callable, Iterable, Sequence

from calc.allowances import Allowances
from calc.jacks import JackRow
from calc.levels import Levels
from calc.number import (
    Filed,
    Name,
    Number,
    ceil,
    either,
    fixed,
    maximum,
    minimum,
    ratio,
    same,
    sqrt,
    text_of,
    total,
    value_of,
    where,
)
from calc.outlines import Point, contains
from calc.own_loads import FREE
from calc.own_rows import OwnLoads
from calc.plan_rows import TOLERANCE, Plan
from calc.quantities_openings import REBUILT, opening_rows, rebuilt_walls
from calc.quantities_outline import OutsideEdge, beside, ground_panels, outside_edges
from calc.quantities_rows import (
    ColumnMeasure,
    EdgeMeasure,
    Figures,
    LooseWall,
    RoomMeasure,
    SideMeasure,
    WallMeasure,
    Workings,
)
from calc.survey import Survey
from calc.take_down_rows import BaseRow
from calc.walls import line_length


def workings(
    survey: Survey,
    plan: Plan,
    own: OwnLoads,
    bases: Sequence[BaseRow],
    jacks: Sequence[JackRow],
    levels: Levels,
    allowances: Allowances,
) -> Workings:
    """Everything the measured lines are made from.

    Args:
        survey: the entries, in any kind of number
        plan: who carries whom
        own: own loads, in the same kind of number
        bases: ground walls and columns
        jacks: the first jack answer
        levels: the rise and the levels it follows from
        allowances: figures for what was not surveyed
    """
    return _Builder(survey, plan, own, bases, jacks, levels, allowances).build()


def figures_of(cut_level: Number, levels: Levels, allow: Allowances) -> Figures:
    """Depths and heights that hold for the whole house.

    Args:
        cut_level: of the cut relative to the floor, 0 or negative [m]
        levels: the rise and the levels it follows from
        allow: the allowances
    """
    rise = maximum(levels.rise, 0)
    inside = maximum(allow.below_cut - cut_level, 0)
    bed = minimum(allow.floor_bed, rise)
    gravel = minimum(allow.gravel_bed, rise - bed)
    return Figures(
        rise=rise, raised=where(rise > 0, 1, 0), inside_depth=inside,
        outside_depth=maximum(inside - levels.plinth, 0), masonry=maximum(rise - allow.band_depth, 0),
        band=minimum(allow.band_depth, rise), bed=bed, gravel=gravel, fill=maximum(rise - bed - gravel, 0),
        lifts=rise / allow.lift_unit, steps=ceil(rise / allow.stair_riser),
    )  # fmt: skip


class _Builder:
    """Columns that every row looks things up in are built once here and used by all rows."""

    def __init__(
        self,
        survey: Survey,
        plan: Plan,
        own: OwnLoads,
        bases: Sequence[BaseRow],
        jacks: Sequence[JackRow],
        levels: Levels,
        allow: Allowances,
    ) -> None:
        self.survey, self.plan, self.own, self.bases, self.allow = survey, plan, own, bases, allow
        self.figures = figures_of(survey.job.cut_level.value, levels, allow)
        marks = [row.name for row in jacks]
        self.counts = Filed(marks, [row.count for row in jacks])
        self.beams, self.masses = Filed(marks, [row.beams for row in jacks]), Filed(marks, [r.beam_mass for r in jacks])
        self.pocket_spacings = Filed(marks, [row.pocket_spacing for row in jacks])
        self.xs = Filed([line.name for line in survey.letters], [line.offset for line in survey.letters])
        self.ys = Filed([line.name for line in survey.numbers], [line.offset for line in survey.numbers])
        self.thicknesses = Filed([wall.name for wall in own.walls], [wall.thickness for wall in own.walls])
        self.width = allow.working_width
        self.frozen_edges = outside_edges(survey, plan)

    def build(self) -> Workings:
        walls = tuple(self._walls())
        names = [row.name for row in walls]
        self.ups = Filed(names, [row.up for row in walls])
        self.goes_up, self.built = Filed(names, [r.goes_up for r in walls]), Filed(names, [r.built for r in walls])
        self.reaches = Filed(names, [row.reach for row in walls])
        sides = tuple(self._sides())
        edges = tuple(self._edge(edge) for edge in self.frozen_edges)
        openings = tuple(opening_rows(self.own, self._faces_out(), self.goes_up, self.built, self.allow))
        rebuilt = tuple(rebuilt_walls(self.own, openings))
        known = {row.name for row in rebuilt}
        others = [wall for wall in self.own.walls if text_of(wall.name) not in known]
        return Workings(
            figures=self.figures, walls=walls, sides=sides, rooms=tuple(self._rooms(sides)), edges=edges,
            loose=tuple(self._loose(sides, edges)), columns=tuple(self._columns()), openings=openings, rebuilt=rebuilt,
            unmeasured=total([wall.rebuilt for wall in others]),
        )  # fmt: skip

    def _walls(self) -> Iterable[WallMeasure]:
        names = [wall.name for wall in self.own.walls]
        walls = self.own.walls
        lengths, deducted = Filed(names, [w.length for w in walls]), Filed(names, [w.deducted for w in walls])
        goes_up, faces = Filed(names, [w.goes_up for w in walls]), Filed(names, [w.plastered for w in walls])
        at_lift = Filed(names, [wall.at_lift for wall in walls])
        side = Filed([wall.name for wall in self.survey.walls], [wall.side for wall in self.survey.walls])
        for base in self.bases:
            if base.kind != "wall":
                continue
            name = Name(base.name)
            count = self.counts.at(name)
            up = where(count > 0, 1, 0)
            length, lost, beside = lengths.at(name), deducted.at(name), side.at(name)
            net = length - lost
            built, plastered = where(same(at_lift.at(name), REBUILT), 1, up), where(faces.at(name) > 0, 1, 0)
            thickness = self.thicknesses.at(name)
            yield WallMeasure(
                name=name, count=count, up=up, goes_up=goes_up.at(name),
                built=built, beside=beside, length=length, deducted=lost,
                reach=where(either(same(beside, "free"), same(beside, "unknown")), 1, 0),
                plastered=plastered, finished=built * plastered, net=net, thickness=thickness,
                new_thickness=maximum(self.allow.new_wall_thickness, thickness),
                beams=self.beams.at(name), beam_mass=self.masses.at(name),
                pockets=where(count > 0, ceil(net / self.pocket_spacings.at(name)), 0),
            )  # fmt: skip

    # ------------------------------------------------------------------------------------------ inside

    def _sides(self) -> Iterable[SideMeasure]:
        clear = Filed([row.panel for row in self.own.rooms], [row.clear for row in self.own.rooms])
        rows: dict[str, list[Number]] = {}
        for side in self.own.sides:
            rows.setdefault(side.panel, []).append(side.length)
        width = self.width
        for panel in ground_panels(self.survey, self.plan):
            pieces, room = panel.pieces, Name(panel.name)
            walls = [piece.wall or FREE for piece in pieces]
            inset = [piece.wall_on_line for piece in pieces]
            for order, piece in enumerate(pieces):
                last, following = order - 1, (order + 1) % len(pieces)
                wall, before, after = Name(walls[order]), Name(walls[last]), Name(walls[following])
                turns = (pieces[last].turn, piece.turn)
                # What the plan fixes gets a cell of its own, so that rows stay alike.
                turn_start, turn_end = (fixed(turn, self.width) for turn in turns)
                inset_start, inset_end = fixed(turns[0] * inset[last], self.width), fixed(turns[1] * inset[following],
                                                                                           self.width)  # fmt: skip
                half_start = inset_start * self.thicknesses.total(before) / 2
                half_end = inset_end * self.thicknesses.total(after) / 2
                length = rows[room][order]
                between = length - half_start - half_end
                up = self.ups.total(wall)
                up_start, up_end = turn_start * self.ups.total(before), turn_end * self.ups.total(after)
                corner = minimum(width, clear.at(room) / (4 * width))
                yield SideMeasure(
                    room=room, wall=wall, before=before, after=after, turn_start=turn_start, turn_end=turn_end,
                    inset_start=inset_start, inset_end=inset_end, length=length, half_start=half_start,
                    half_end=half_end, clear=between, up=up, up_start=up_start, up_end=up_end, corner=corner,
                    cut=up * between,
                    trench=up * (between - (up_start + up_end) * corner / 2),
                )  # fmt: skip

    def _rooms(self, sides: Sequence[SideMeasure]) -> Iterable[RoomMeasure]:
        names = [side.room for side in sides]
        around, cuts = Filed(names, [side.clear for side in sides]), Filed(names, [side.cut for side in sides])
        trenches = Filed(names, [side.trench for side in sides])
        slabs = {text_of(room.name): int(room.above == "slab") for room in self.survey.rooms}
        for row in self.own.rooms:
            if row.storey != 1:
                continue
            room = Name(row.panel)
            perimeter = around.total(room)
            # Length and breadth have half the perimeter as their sum and the floor as their product.
            root = sqrt(maximum(perimeter**2 / 4 - 4 * row.clear, 0)) / 2
            breadth = perimeter / 4 - root
            over = fixed(slabs[room], self.width)
            yield RoomMeasure(
                room=room, slab=over, floor=row.floor, clear=row.clear, perimeter=perimeter, breadth=breadth,
                length=ratio(row.clear, breadth, 0), cut=cuts.total(room),
                trench=minimum(row.clear / self.allow.working_width, trenches.total(room)),
                depth=self.figures.outside_depth if row.floor == "suspended" else self.figures.inside_depth,
                props=ceil(over * row.clear / self.allow.prop_spacing**2),
            )  # fmt: skip

    # ------------------------------------------------------------------------------------------ outside

    def _edge(self, edge: OutsideEdge) -> EdgeMeasure:
        names = (Name(edge.start.letter), Name(edge.start.number), Name(edge.end.letter), Name(edge.end.number))
        x1, y1, x2, y2 = self.xs.at(names[0]), self.ys.at(names[1]), self.xs.at(names[2]), self.ys.at(names[3])
        wall, before, after = Name(edge.wall), Name(edge.before), Name(edge.after)
        length = line_length(x1, y1, x2, y2)
        turn_start, turn_end = fixed(edge.turn_start, self.width), fixed(edge.turn_end, self.width)
        half_start = turn_start * self.thicknesses.total(before) / 2
        half_end = turn_end * self.thicknesses.total(after) / 2
        face = length + half_start + half_end
        # An open side, a verandah's front say, has no neighbour against it.
        is_open, open_start, open_end = (fixed(int(name == FREE), self.width) for name in (wall, before, after))
        reach = is_open + self.reaches.total(wall)
        reach_start = turn_start * (open_start + self.reaches.total(before))
        reach_end = turn_end * (open_end + self.reaches.total(after))
        up = self.ups.total(wall) * reach
        up_start, up_end = self.ups.total(before) * reach_start, self.ups.total(after) * reach_end
        return EdgeMeasure(
            wall=wall,
            room=Name(edge.room),
            from_letter=names[0],
            from_number=names[1],
            to_letter=names[2],
            to_number=names[3],
            before=before,
            after=after,
            turn_start=turn_start,
            turn_end=turn_end,
            x_start=x1,
            y_start=y1,
            x_end=x2,
            y_end=y2,
            length=length,
            half_start=half_start,
            half_end=half_end,
            face=face,
            open=is_open,
            open_start=open_start,
            open_end=open_end,
            reach=reach,
            reach_start=reach_start,
            reach_end=reach_end,
            up=up,
            up_start=up_start,
            up_end=up_end,
            trench=up * (face + (up_start + up_end) * self.allow.working_width / 2),
            apron=reach * (face + (reach_start + reach_end) * self.allow.apron_width / 2),
        )

    def _loose(self, sides: Sequence[SideMeasure], edges: Sequence[EdgeMeasure]) -> Iterable[LooseWall]:
        inside = Filed([row.wall for row in sides], [row.length for row in sides])
        outside = Filed([row.wall for row in edges], [row.length for row in edges])
        outlines = [panel.outline for panel in ground_panels(self.survey, self.plan)]
        for base in self.bases:
            if base.kind != "wall":
                continue
            wall, member = Name(base.name), self.plan.members[base.name]
            faces = maximum(2 * base.length - inside.total(wall) - outside.total(wall), 0)
            # Less than its own thickness on each face is a corner, not a length of wall.
            if value_of(faces) <= 4 * member.half + TOLERANCE:
                continue
            middle = member.at(member.length / 2)
            place = "inside" if any(contains(outline, middle) for outline in outlines) else "outside"
            yield LooseWall(wall=wall, inside=place, length=faces)

    # ------------------------------------------------------------------------------------------ pillars

    def _columns(self) -> Iterable[ColumnMeasure]:
        names = [row.name for row in self.own.columns]
        breadths = Filed(names, [row.breadth for row in self.own.columns])
        depths = Filed(names, [row.depth for row in self.own.columns])
        for base in self.bases:
            if base.kind != "column":
                continue
            name = Name(base.name)
            count, breadth, depth = self.counts.at(name), breadths.at(name), depths.at(name)
            place = self._place_of_column(name, max(value_of(breadth), value_of(depth)) / 2 + TOLERANCE)
            whole = depth + 2 * self.allow.working_width
            yield ColumnMeasure(
                name=name,
                place=place,
                count=count,
                up=where(count > 0, 1, 0),
                breadth=breadth,
                depth=depth,
                pit_length=breadth + 2 * self.allow.working_width,
                pit_breadth=whole / 2 if place == "at the edge" else whole,
                own_breadth=depth / 2 if place == "at the edge" else depth,
            )

    def _faces_out(self) -> Callable[[str, Point], bool]:
        """Whether a place in a wall has the outside behind it, on floats."""
        return lambda wall, place: any(
            edge.wall == wall and beside(self._at(edge, "start"), self._at(edge, "end"), place, TOLERANCE)
            for edge in self.frozen_edges
        )

    def _place_of_column(self, name: str, near: float) -> str:
        _, point = self.plan.columns[name]
        for member in self.plan.members.values():
            ground_wall = member.kind == "wall" and member.storey == 1
            if ground_wall and beside(member.start, member.end, point, near + member.half):
                return "in a wall"
        if any(beside(self._at(e, "start"), self._at(e, "end"), point, near) for e in self.frozen_edges):
            return "at the edge"
        outlines = (panel.outline for panel in ground_panels(self.survey, self.plan))
        return "inside" if any(contains(outline, point) for outline in outlines) else "outside"

    def _at(self, edge: OutsideEdge, end: str) -> Point:
        point = getattr(edge, end)
        return value_of(self.xs.at(point.letter)), value_of(self.ys.at(point.number))
