"""Own loads: geometry and weight of every surveyed part before anything is passed down.

Covers   grid, walls, openings, slabs and their pieces, beams, columns, things attached; dead, imposed and lifted.
Not      what a part carries from above (take_down).
Signs    weight positive downward; x east, y north, z up from the ground floor.
Units    in each field.
Sources  the formulas of walls and slabs.

Dead and imposed are the service state. Lifted is what hangs on the jacks: windows blocked, their frames out, tanks
drained, only a share of the imposed load there, and nothing of what stays behind.
"""

from collections.abc import Iterable, Sequence
from calc.allowances import Allowances
from calc.number import Filed, Name, Number, at_issue, either, maximum, ratio, same, text_of, where
from calc.own_rows import (
    AttachedRow,
    BeamRow,
    ColumnRow,
    LiftShare,
    LineRow,
    MeetingRow,
    OpeningRow,
    OwnLoads,
    PanelRow,
    RoomRow,
    ShareRow,
    SideRow,
    StoreyRow,
    UnitWeights,
    WallRow,
)
from calc.plan import Panel, Piece, Plan, bearing_edges
from calc.slabs import one_way_share, outer_strip, roof_dead, roof_imposed, slab_dead, two_way_share
from calc.survey import Attached, Beam, Column, Opening, Survey, Wall
from calc.walls import (
    blocked_area,
    line_length,
    lintel_extra,
    lintel_length,
    prism_weight,
    surface_weight,
    wall_weight,
)


FREE = "(free)"
"""Stands where a wall or carrier would be named and there is none; no survey may use it as a name."""

PieceFractions = dict[str, tuple[float, ...]]
"""For each panel that no closed formula shares: the fraction of its area that each of its pieces carries."""


def own_loads(survey: Survey, plan: Plan, fractions: PieceFractions, allowances: Allowances) -> OwnLoads:
    """Geometry and own loads of every part.

    Args:
        survey: the entries, in any kind of number
        plan: who carries whom
        fractions: shares of the panels that have no closed formula
        allowances: figures for what was not surveyed
    """
    return _Builder(survey, plan, fractions, allowances).build()


class _Builder:
    """Columns that every row looks things up in are built once here and used by all rows."""

    def __init__(self, survey: Survey, plan: Plan, fractions: PieceFractions, allowances: Allowances) -> None:
        self.survey, self.plan, self.fractions, self.allow = survey, plan, fractions, allowances
        self.xs = Filed([line.name for line in survey.letters], [line.offset for line in survey.letters])
        self.ys = Filed([line.name for line in survey.numbers], [line.offset for line in survey.numbers])
        self.slabs_of_plan = [panel for panel in plan.panels if panel.kind != "none"]
        weights = Filed([m.name for m in survey.materials], [m.unit_weight for m in survey.materials])
        self.weights = weights
        self.by_name = UnitWeights(
            concrete=weights.at("Reinforced concrete"), plain_concrete=weights.at("Plain concrete"),
            plaster=weights.at("Cement plaster"), brick=weights.at("Brick masonry"), water=weights.at("Water"),
            fill=weights.at("Compacted fill"),
        )  # fmt: skip
        self.concrete, self.plaster, self.brick = self.by_name.concrete, self.by_name.plaster, self.by_name.brick
        self.imposed = Filed([u.name for u in survey.uses], [u.imposed for u in survey.uses])
        self.lift = LiftShare(
            imposed_share=where(same(survey.job.empty, "yes"), allowances.emptied_share, allowances.lived_in_share),
            balcony=self.imposed.at("Balcony"), stair=self.imposed.at("Corridor or stair"),
        )  # fmt: skip
        self.imposed_share = self.lift.imposed_share

    def build(self) -> OwnLoads:
        survey = self.survey
        storeys = self._storeys()
        self.bases = {row.storey: row.base for row in storeys}
        self.slabs = {row.storey: row.slab for row in storeys}
        self.ceilings = {row.storey: row.base + row.wall_height for row in storeys}
        self.soffits = {
            text_of(r.name): where(r.soffit.given, self.bases[r.storey] + r.soffit.value, self.ceilings[r.storey])
            for r in survey.rooms
        }
        wall_lines = tuple(self._line(wall) for wall in survey.walls)
        beam_lines = tuple(self._line(beam) for beam in survey.beams)
        self.line_of = {text_of(row.name): row for row in (*wall_lines, *beam_lines)}
        meetings = self._meetings()
        self.deducted = Filed([m.wall for m in meetings], [m.deducted for m in meetings])
        names = [wall.name for wall in survey.walls]
        self.wall_storeys = Filed(names, [wall.level for wall in survey.walls])
        self.thicknesses = Filed(names, [wall.thickness for wall in survey.walls])
        masonry = [self.weights.at(wall.masonry) for wall in survey.walls]
        surfaces = [
            surface_weight(wall.thickness, weight, wall.plastered, self.allow.plaster_thickness, self.plaster)
            for wall, weight in zip(survey.walls, masonry, strict=True)
        ]
        self.surfaces, self.masonry = Filed(names, surfaces), Filed(names, masonry)
        self.wall_bases = Filed(names, [self.bases[wall.storey] for wall in survey.walls])
        openings = tuple(self._opening(opening) for opening in survey.openings)
        walls = self._walls(openings, surfaces, masonry)
        sides = tuple(self._sides())
        panels = self._panels(sides)
        self.panel_rows = panels
        return OwnLoads(
            weights=self.by_name,
            lift=self.lift,
            storeys=storeys,
            wall_lines=wall_lines,
            beam_lines=beam_lines,
            meetings=meetings,
            walls=walls,
            openings=openings,
            sides=sides,
            rooms=self._rooms(sides),
            panels=panels,
            shares=self._shares(sides, panels),
            beams=tuple(self._beam(beam) for beam in survey.beams),
            columns=tuple(self._column(column) for column in survey.columns),
            attached=tuple(self._attached(item) for item in survey.attached),
        )

    def _storeys(self) -> tuple[StoreyRow, ...]:
        rows: list[StoreyRow] = []
        base: Number = self.allow.plinth_height * 0  # the ground floor is the zero of heights
        for storey in self.plan.storeys:
            heights = [wall.height for wall in self.survey.walls if wall.storey == storey]
            heights += [column.height for column in self.survey.columns if column.storey == storey and not heights]
            slabs = [r.slab_thickness for r in self.survey.rooms if r.storey == storey and r.above == "slab"]
            row = StoreyRow(
                storey=storey,
                base=base,
                wall_height=maximum(*heights) if len(heights) > 1 else heights[0],
                slab=maximum(*slabs) if len(slabs) > 1 else slabs[0] if slabs else self.allow.slab_thickness,
            )
            rows.append(row)
            base = row.base + row.wall_height + row.slab
        return tuple(rows)

    def _line(self, item: Wall | Beam) -> LineRow:
        letters, numbers = (Name(item.start.letter), Name(item.end.letter)), (Name(item.start.number), Name(item.end.number))
        x1, x2, y1, y2 = self.xs.at(letters[0]), self.xs.at(letters[1]), self.ys.at(numbers[0]), self.ys.at(numbers[1])
        return LineRow(name=item.name, from_letter=letters[0], from_number=numbers[0], to_letter=letters[1],
                       to_number=numbers[1], x_start=x1, y_start=y1, x_end=x2, y_end=y2,
                       length=line_length(x1, y1, x2, y2))  # fmt: skip

    def _meetings(self) -> tuple[MeetingRow, ...]:
        thicknesses = Filed([w.name for w in self.survey.walls], [w.thickness for w in self.survey.walls])
        rows = []
        for meeting in self.plan.meetings:
            other = thicknesses.at(meeting.other)
            rows.append(MeetingRow(wall=meeting.wall, other=meeting.other, kind=meeting.kind, other_thickness=other,
                                   deducted=other / 2))  # fmt: skip
        return tuple(rows)

    def _opening(self, opening: Opening) -> OpeningRow:
        allow, wall = self.allow, opening.wall
        line = self.line_of[text_of(wall)]
        area = opening.width * opening.height
        surface, thickness, masonry = self.surfaces.at(wall), self.thicknesses.at(wall), self.masonry.at(wall)
        frame = where(same(opening.kind, "vent"), 0, area * allow.frame_weight)
        run = lintel_length(opening.width, allow.lintel_bearing)
        lintel = lintel_extra(run, allow.lintel_depth, thickness, self.concrete, masonry)
        change = frame + lintel - area * surface
        storey = self.wall_storeys.at(wall)
        blocked = blocked_area(
            area,
            storey <= 1,
            same(opening.kind, "window"),
            same(opening.block_up, "yes"),
            same(opening.block_up, "no"),
        )
        block_up = blocked * allow.block_up_thickness * self.brick
        frame_out = where(blocked > 0, frame, 0)
        along = ratio(opening.from_start + opening.width / 2, line.length, 0)
        base = self.wall_bases.at(wall)
        return OpeningRow(
            wall=wall,
            kind=opening.kind,
            from_start=opening.from_start,
            width=opening.width,
            height=opening.height,
            sill=opening.sill,
            area=area,
            surface=surface,
            thickness=thickness,
            unit_weight=masonry,
            frame=frame,
            lintel_length=run,
            lintel=lintel,
            change=change,
            storey=storey,
            blocked=blocked,
            block_up=block_up,
            frame_out=frame_out,
            change_lift=change + block_up - frame_out,
            x=line.x_start + (line.x_end - line.x_start) * along,
            y=line.y_start + (line.y_end - line.y_start) * along,
            z=base + opening.sill + opening.height / 2,
            z_lintel=base + opening.sill + opening.height + allow.lintel_depth / 2,
        )

    def _walls(
        self, openings: Sequence[OpeningRow], surfaces: Sequence[Number], masonry: Sequence[Number]
    ) -> tuple[WallRow, ...]:
        names = [row.wall for row in openings]
        change = Filed(names, [row.change for row in openings])
        change_lift = Filed(names, [row.change_lift for row in openings])
        rows = []
        for wall, surface, weight in zip(self.survey.walls, surfaces, masonry, strict=True):
            line = self.line_of[text_of(wall.name)]
            deducted = self.deducted.total(wall.name)
            gross = wall_weight(line.length, deducted, wall.height, surface)
            opened, opened_lift = change.total(wall.name), change_lift.total(wall.name)
            base = self.bases[wall.storey]
            goes_up = where(same(wall.at_lift, "lifted"), 1, 0)
            rows.append(WallRow(
                name=wall.name, storey=wall.storey, length=line.length, deducted=deducted, thickness=wall.thickness,
                height=wall.height, masonry=wall.masonry, unit_weight=weight, plastered=wall.plastered, surface=surface,
                gross=gross, openings=opened, dead=gross + opened, openings_lift=opened_lift, at_lift=wall.at_lift,
                goes_up=goes_up, lifted=(gross + opened_lift) * goes_up, base=base,
                x=(line.x_start + line.x_end) / 2, y=(line.y_start + line.y_end) / 2, z=base + wall.height / 2,
            ))  # fmt: skip
        return tuple(rows)

    def _sides(self) -> Iterable[SideRow]:
        for panel in self.plan.panels:
            walls = [Name(p.carrier if p.on_line and p.carrier_kind == "wall" else FREE) for p in panel.pieces]
            for order, piece in enumerate(panel.pieces):
                yield self._side(panel, piece, walls[order], Name(walls[(order + 1) % len(walls)]))

    def _side(self, panel: Panel, piece: Piece, wall: Name, next_wall: Name) -> SideRow:
        names = (Name(piece.start.letter), Name(piece.start.number), Name(piece.end.letter), Name(piece.end.number))
        x1, y1, x2, y2 = self.xs.at(names[0]), self.ys.at(names[1]), self.xs.at(names[2]), self.ys.at(names[3])
        length, half = line_length(x1, y1, x2, y2), self.thicknesses.total(wall) / 2
        cross = x1 * y2 - x2 * y1
        return SideRow(panel=Name(panel.name), from_letter=names[0], from_number=names[1], to_letter=names[2],
                       to_number=names[3], x_start=x1, y_start=y1, x_end=x2, y_end=y2, length=length, wall=wall,
                       next_wall=next_wall, turn=piece.turn, half=half, lost=length * half,
                       corner=piece.turn * half * self.thicknesses.total(next_wall) / 2, cross=cross,
                       cross_x=(x1 + x2) * cross, cross_y=(y1 + y2) * cross)  # fmt: skip

    def _rooms(self, sides: Sequence[SideRow]) -> tuple[RoomRow, ...]:
        names = [side.panel for side in sides]
        cross, lost = Filed(names, [s.cross for s in sides]), Filed(names, [s.lost for s in sides])
        corner = Filed(names, [s.corner for s in sides])
        rows = []
        for room in self.survey.rooms:
            name = Name(text_of(room.name))
            area = cross.total(name) / 2
            rows.append(RoomRow(room=room.name, panel=name, storey=room.storey, floor=room.floor, area=area,
                                clear=area - lost.total(name) + corner.total(name)))  # fmt: skip
        return tuple(rows)

    def _panels(self, sides: Sequence[SideRow]) -> tuple[PanelRow, ...]:
        names = [side.panel for side in sides]
        cross = Filed(names, [side.cross for side in sides])
        cross_x, cross_y = Filed(names, [s.cross_x for s in sides]), Filed(names, [s.cross_y for s in sides])
        rooms = {text_of(room.name): room for room in self.survey.rooms}
        rows = []
        for panel in self.slabs_of_plan:
            room, name = rooms[panel.room], Name(panel.name)
            doubled = cross.total(name)
            tripled = doubled + 2 * doubled  # the centroid divides by three times the cross sum; no 3 in a formula
            pitched = panel.kind == "pitched roof"
            floor = panel.kind == "floor"
            thickness = self.allow.slab_thickness if floor else room.slab_thickness
            finish = self.allow.floor_finish_weight if floor else room.finish
            use = room.use if floor else room.carries
            flat = self.imposed.at(use)
            dead = roof_dead(finish, room.slope) if pitched else slab_dead(thickness, self.concrete, finish)
            imposed = (
                roof_imposed(flat, room.slope, self.allow.roof_slope_free, self.allow.roof_slope_fall,
                             self.allow.roof_imposed_least)
                if pitched else flat
            )  # fmt: skip
            rows.append(PanelRow(
                panel=name, kind=panel.kind, area=doubled / 2, thickness=thickness, finish=finish, slope=room.slope,
                dead=dead, use=use, imposed=imposed, lifted=dead + imposed * self.imposed_share,
                x=cross_x.total(name) / tripled, y=cross_y.total(name) / tripled,
                z=self.bases[panel.storey] - thickness / 2 if floor else self.soffits[panel.name] + thickness / 2,
            ))  # fmt: skip
        return tuple(rows)

    def _shares(self, sides: Sequence[SideRow], panels: Sequence[PanelRow]) -> tuple[ShareRow, ...]:
        names = [row.panel for row in panels]
        areas, dead = Filed(names, [row.area for row in panels]), Filed(names, [row.dead for row in panels])
        imposed, lifted = Filed(names, [r.imposed for r in panels]), Filed(names, [r.lifted for r in panels])
        carriers = (*self.survey.walls, *self.survey.beams)
        breadths = {text_of(c.name): c.thickness if isinstance(c, Wall) else c.breadth for c in carriers}
        rows, at = [], 0
        for panel in self.plan.panels:
            for order, piece in enumerate(panel.pieces):
                side, name = sides[at], Name(panel.name)
                at += 1
                if panel.kind == "none":
                    continue
                how = _how(panel, piece)
                area = areas.at(name)
                other = area / side.length
                worked_out = 0.0 if how != "by outline" else self.fractions[panel.name][order]
                fraction = at_issue(worked_out, side.length, area) if how == "by outline" else worked_out
                share = where(
                    same(how, "two way"),
                    two_way_share(side.length, other),
                    where(same(how, "one way"), one_way_share(side.length, other), fraction * area),
                )
                breadth = breadths[piece.carrier] if piece.outside else 0 * side.length
                strip = outer_strip(side.length, breadth, piece.corners)
                loaded = share + strip
                rows.append(ShareRow(
                    panel=name, carrier=Name(piece.carrier or FREE), how=how, length=side.length, area=area, other=other,
                    fraction=fraction, share=share, breadth=breadth, corners=piece.corners, strip=strip,
                    dead=loaded * dead.at(name), imposed=loaded * imposed.at(name), lifted=loaded * lifted.at(name),
                ))  # fmt: skip
        return tuple(rows)

    def _beam(self, beam: Beam) -> BeamRow:
        line = self.line_of[text_of(beam.name)]
        return BeamRow(name=beam.name, storey=beam.storey, length=line.length, breadth=beam.breadth, depth=beam.depth,
                       dead=prism_weight(line.length, beam.breadth, beam.depth, self.concrete),
                       x=(line.x_start + line.x_end) / 2, y=(line.y_start + line.y_end) / 2,
                       z=self.bases[beam.storey] if beam.plinth_beam == "yes"
                       else self._soffit_over(beam) - beam.depth / 2)  # fmt: skip

    def _soffit_over(self, beam: Beam) -> Number:
        """Underside of a slab the beam carries, else of the storey's slab."""
        for panel in self.slabs_of_plan:
            if any(piece.carrier == text_of(beam.name) for piece in panel.pieces):
                return self.soffits[panel.name]
        return self.ceilings[beam.storey]

    def _column(self, column: Column) -> ColumnRow:
        letter, number = Name(column.point.letter), Name(column.point.number)
        weight = self.weights.at(column.material)
        return ColumnRow(name=column.name, storey=column.storey, letter=letter, number=number, breadth=column.breadth,
                         depth=column.depth, height=column.height, material=column.material, unit_weight=weight,
                         dead=prism_weight(column.height, column.breadth, column.depth, weight), x=self.xs.at(letter),
                         y=self.ys.at(number), z=self.bases[column.storey] + column.height / 2)  # fmt: skip

    def _attached(self, item: Attached) -> AttachedRow:
        on = Name(text_of(item.on))
        line = self.line_of.get(on)
        storey, x, y = self._place(on)
        weight = self.weights.at(item.material)
        upright = either(same(item.kind, "parapet"), same(item.kind, "hanging wall"))
        plaster = where(upright, 2 * self.allow.plaster_thickness * self.plaster, 0)
        length = where(item.length.given, item.length.value, line.length if line else 0)
        sized = length * item.size * (item.thickness * weight + plaster)
        dead = where(item.weight.given, item.weight.value, sized)
        water = item.water * self.by_name.water
        walked_on = where(
            same(item.kind, "balcony"),
            self.lift.balcony,
            where(same(item.kind, "stair"), self.lift.stair, 0),
        )
        people = walked_on * length * item.size
        if line:
            along = ratio(where(item.from_start.given, item.from_start.value, 0) + length / 2, line.length, 0)
            x = line.x_start + (line.x_end - line.x_start) * along
            y = line.y_start + (line.y_end - line.y_start) * along
        top = where(either(same(item.kind, "parapet"), same(item.kind, "water tank")),
                    self.slabs[storey] + item.size / 2, 0)  # fmt: skip
        return AttachedRow(
            name=item.name, kind=item.kind, on=on, material=item.material, length=length, thickness=item.thickness, size=item.size,
            unit_weight=weight, plaster=plaster, dead=dead, water=water, walked_on=walked_on, people=people,
            imposed=water + people,
            lifted=where(same(item.support, "taken off"), 0, dead + people * self.imposed_share),
            x=x, y=y, z=self.ceilings[storey] + top,
        )  # fmt: skip

    def _place(self, on: str) -> tuple[int, Number, Number]:
        """Storey and plan position of what an attached thing belongs to."""
        for panel in self.panel_rows:
            if panel.panel.casefold() == on.casefold():
                storey = next(p.storey for p in self.plan.panels if p.name == panel.panel)
                return storey, panel.x, panel.y
        for column in self.survey.columns:
            if text_of(column.name).casefold() == on.casefold():
                return column.storey, self.xs.at(column.point.letter), self.ys.at(column.point.number)
        member = self.plan.members[on]
        line = self.line_of[on]
        return member.storey, line.x_start, line.y_start


def _how(panel: Panel, piece: Piece) -> str:
    if not piece.carrier:
        return "nothing"
    if panel.closed == "one way":
        return "one way" if piece.edge in bearing_edges(panel.outline, panel.span) else "nothing"
    return panel.closed or "by outline"
