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
from typing import Any

from calc.allowances import Allowances
from calc.number import Filed, Name, Number, at_issue, either, fixed, maximum, ratio, same, text_of, where
from calc.own_rows import (
    AttachedRow,
    BeamRow,
    ColumnRow,
    LiftShare,
    LineRow,
    MeetingRow,
    MemberRow,
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
from calc.plan_rows import Panel, Piece, Plan
from calc.plan_slabs import bearing_edges
from calc.slabs import (
    chosen_share,
    one_way_share,
    outer_strip,
    roof_dead,
    roof_imposed,
    side_share,
    slab_dead,
    slender,
)
from calc.survey import Attached, Beam, Column, Opening, Survey, Wall
from calc.walls import (
    blocked_area,
    line_length,
    lintel_extra,
    lintel_length,
    opening_area,
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


def storey_name(storey: int) -> Name:
    """What a storey is called where things are looked up by it; a bare number would be no safe key."""
    return Name(f"storey {storey}")


def _filed(rows: Sequence[Any], key: str, value: str) -> Filed:
    return Filed([getattr(row, key) for row in rows], [getattr(row, value) for row in rows])


class _Builder:
    """Columns that every row looks things up in are built once here and used by all rows."""

    def __init__(self, survey: Survey, plan: Plan, fractions: PieceFractions, allowances: Allowances) -> None:
        self.survey, self.plan, self.fractions, self.allow = survey, plan, fractions, allowances
        self.like = survey.letters[0].offset
        self.xs, self.ys = _filed(survey.letters, "name", "offset"), _filed(survey.numbers, "name", "offset")
        self.slabs_of_plan = [panel for panel in plan.panels if panel.kind != "none"]
        weights = _filed(survey.materials, "name", "unit_weight")
        self.weights = weights
        self.by_name = UnitWeights(
            concrete=weights.at("Reinforced concrete"), plain_concrete=weights.at("Plain concrete"),
            plaster=weights.at("Cement plaster"), brick=weights.at("Brick masonry"), water=weights.at("Water"),
            fill=weights.at("Compacted fill"),
        )  # fmt: skip
        self.concrete, self.plaster, self.brick = self.by_name.concrete, self.by_name.plaster, self.by_name.brick
        self.imposed = _filed(survey.uses, "name", "imposed")
        self.lift = LiftShare(
            imposed_share=where(same(survey.job.empty, "yes"), allowances.emptied_share, allowances.lived_in_share),
            balcony=self.imposed.at("Balcony"), stair=self.imposed.at("Corridor or stair"),
        )  # fmt: skip

    def build(self) -> OwnLoads:
        survey = self.survey
        storeys = self._storeys()
        self.bases, self.ceilings = _filed(storeys, "name", "base"), _filed(storeys, "name", "ceiling")
        self.slab_over = _filed(storeys, "name", "slab")
        wall_lines = tuple(self._line(wall) for wall in survey.walls)
        beam_lines = tuple(self._line(beam) for beam in survey.beams)
        self.line_of = {text_of(row.name): row for row in (*wall_lines, *beam_lines)}
        self.thicknesses = _filed(survey.walls, "name", "thickness")
        meetings = self._meetings()
        openings, walls = self._walls(wall_lines, meetings)
        sides = tuple(self._sides())
        rooms, panels = self._rooms(sides), self._panels(sides)
        beams = tuple(self._beam(beam, panels) for beam in survey.beams)
        columns = tuple(self._column(column) for column in survey.columns)
        members = tuple(self._members(walls, beams, columns, panels))
        return OwnLoads(
            weights=self.by_name, lift=self.lift, storeys=storeys, wall_lines=wall_lines, beam_lines=beam_lines,
            members=members, meetings=meetings, walls=walls, openings=openings, sides=sides, rooms=rooms,
            panels=panels, shares=tuple(self._shares(sides, panels, members)), beams=beams, columns=columns,
            attached=tuple(self._attached(members)),
        )  # fmt: skip

    # ------------------------------------------------------------------------------------------ geometry

    def _storeys(self) -> tuple[StoreyRow, ...]:
        rows: list[StoreyRow] = []
        for storey in self.plan.storeys:
            heights = [wall.height for wall in self.survey.walls if wall.storey == storey]
            heights += [column.height for column in self.survey.columns if column.storey == storey and not heights]
            slabs = [r.slab_thickness for r in self.survey.rooms if r.storey == storey and r.above == "slab"]
            # The ground floor is the zero of heights; the next floor lies on the slab below.
            base = rows[-1].ceiling + rows[-1].slab if rows else fixed(0.0, self.like, self.like)
            height = maximum(*heights) if len(heights) > 1 else heights[0]
            slab = maximum(*slabs) if len(slabs) > 1 else slabs[0] if slabs else self.allow.slab_thickness
            rows.append(StoreyRow(name=storey_name(storey), storey=storey, base=base, wall_height=height,
                                  ceiling=base + height, slab=slab))  # fmt: skip
        return tuple(rows)

    def _line(self, item: Wall | Beam) -> LineRow:
        letters, numbers = (
            (Name(item.start.letter), Name(item.end.letter)),
            (Name(item.start.number), Name(item.end.number)),
        )
        x1, x2, y1, y2 = self.xs.at(letters[0]), self.xs.at(letters[1]), self.ys.at(numbers[0]), self.ys.at(numbers[1])
        return LineRow(name=item.name, from_letter=letters[0], from_number=numbers[0], to_letter=letters[1],
                       to_number=numbers[1], x_start=x1, y_start=y1, x_end=x2, y_end=y2, dx=x2 - x1, dy=y2 - y1,
                       length=line_length(x1, y1, x2, y2))  # fmt: skip

    def _meetings(self) -> tuple[MeetingRow, ...]:
        rows = []
        for meeting in self.plan.meetings:
            other = self.thicknesses.at(meeting.other)
            rows.append(MeetingRow(wall=meeting.wall, other=meeting.other, kind=meeting.kind, other_thickness=other,
                                   deducted=other / 2))  # fmt: skip
        return tuple(rows)

    def _members(
        self,
        walls: Sequence[WallRow],
        beams: Sequence[BeamRow],
        columns: Sequence[ColumnRow],
        panels: Sequence[PanelRow],
    ) -> Iterable[MemberRow]:
        nowhere, lifted = fixed(0.0, self.like, self.like), fixed(1, self.like)
        for wall in walls:
            yield self._member(wall.name, "wall", wall.storey, self.line_of[text_of(wall.name)], wall.thickness,
                               wall.unit_weight, wall.goes_up)  # fmt: skip
        for beam in beams:
            yield self._member(beam.name, "beam", beam.storey, self.line_of[text_of(beam.name)], beam.breadth,
                               self.concrete, lifted)  # fmt: skip
        for column in columns:
            yield MemberRow(
                name=Name(text_of(column.name)), kind="column", storey=column.level, x_start=column.x, y_start=column.y,
                dx=nowhere, dy=nowhere, length=column.breadth, across=column.depth, unit_weight=column.unit_weight,
                goes_up=lifted,
                **self._heights(column.level),
            )  # fmt: skip
        for panel in panels:
            yield MemberRow(
                name=Name(panel.panel), kind="slab", storey=panel.level, x_start=panel.x, y_start=panel.y, dx=nowhere,
                dy=nowhere, length=nowhere, across=nowhere, unit_weight=self.concrete, goes_up=lifted,
                **self._heights(panel.level),
            )  # fmt: skip

    def _member(
        self, name: Any, kind: str, storey: int, line: LineRow, across: Number, weight: Number, goes_up: Number
    ) -> MemberRow:
        level = storey_name(storey)
        return MemberRow(name=Name(text_of(name)), kind=kind, storey=level, x_start=line.x_start, y_start=line.y_start,
                         dx=line.dx, dy=line.dy, length=line.length, across=across, unit_weight=weight, goes_up=goes_up,
                         **self._heights(level))  # fmt: skip

    def _heights(self, level: Name) -> dict[str, Number]:
        return {"ceiling": self.ceilings.at(level), "slab": self.slab_over.at(level)}

    # ------------------------------------------------------------------------------------------ walls

    def _walls(
        self, lines: Sequence[LineRow], meetings: Sequence[MeetingRow]
    ) -> tuple[tuple[OpeningRow, ...], tuple[WallRow, ...]]:
        survey, allow = self.survey, self.allow
        names = [wall.name for wall in survey.walls]
        masonry = [self.weights.at(wall.masonry) for wall in survey.walls]
        surfaces = [
            surface_weight(wall.thickness, weight, wall.plastered, allow.plaster_thickness, self.plaster)
            for wall, weight in zip(survey.walls, masonry, strict=True)
        ]
        levels = [storey_name(wall.storey) for wall in survey.walls]
        goes_up = [where(same(wall.at_lift, "lifted"), 1, 0) for wall in survey.walls]
        self.of_wall = {
            "surface": Filed(names, surfaces), "masonry": Filed(names, masonry),
            "storey": Filed(names, [wall.level for wall in survey.walls]), "goes_up": Filed(names, goes_up),
            "base": Filed(names, [self.bases.at(level) for level in levels]),
            **{key: _filed(lines, "name", key) for key in ("length", "x_start", "y_start", "dx", "dy")},
        }  # fmt: skip
        openings = tuple(self._opening(opening) for opening in survey.openings)
        change, change_lift = _filed(openings, "wall", "change"), _filed(openings, "wall", "change_lift")
        deducted = _filed(meetings, "wall", "deducted")
        bases = self.of_wall["base"].values
        rows = []
        for order, (wall, line) in enumerate(zip(survey.walls, lines, strict=True)):
            lost = deducted.total(wall.name)
            gross = wall_weight(line.length, lost, wall.height, surfaces[order])
            opened, opened_lift = change.total(wall.name), change_lift.total(wall.name)
            rows.append(WallRow(
                name=wall.name, storey=wall.storey, level=levels[order], length=line.length, deducted=lost,
                thickness=wall.thickness, height=wall.height, masonry=wall.masonry, unit_weight=masonry[order],
                plastered=wall.plastered, surface=surfaces[order], gross=gross, openings=opened, dead=gross + opened,
                openings_lift=opened_lift, at_lift=wall.at_lift, goes_up=goes_up[order],
                rebuilt=where(same(wall.at_lift, "taken down and rebuilt"), 1, 0),
                lifted=(gross + opened_lift) * goes_up[order], base=bases[order], x=(line.x_start + line.x_end) / 2,
                y=(line.y_start + line.y_end) / 2, z=bases[order] + wall.height / 2,
            ))  # fmt: skip
        return openings, tuple(rows)

    def _opening(self, opening: Opening) -> OpeningRow:
        allow, wall = self.allow, opening.wall
        found = {key: column.at(wall) for key, column in self.of_wall.items()}
        thickness, masonry = self.thicknesses.at(wall), found["masonry"]
        area = opening_area(opening.width, opening.height)
        frame = where(same(opening.kind, "vent"), 0, area * allow.frame_weight)
        run = lintel_length(opening.width, allow.lintel_bearing)
        lintel = lintel_extra(run, allow.lintel_depth, thickness, self.concrete, masonry)
        change = frame + lintel - area * found["surface"]
        told = opening.block_up
        blocked = blocked_area(
            area, found["storey"] <= 1, same(opening.kind, "window"), same(told, "yes"), same(told, "no")
        )
        block_up = blocked * allow.block_up_thickness * self.brick
        frame_out = where(blocked > 0, frame, 0)
        along = ratio(opening.from_start + opening.width / 2, found["length"], 0)
        return OpeningRow(
            wall=wall, kind=opening.kind, from_start=opening.from_start, width=opening.width, height=opening.height,
            sill=opening.sill, told=told, area=area, surface=found["surface"], thickness=thickness,
            unit_weight=masonry, frame=frame, lintel_length=run, lintel=lintel, change=change,
            storey=found["storey"], goes_up=found["goes_up"], blocked=blocked, block_up=block_up, frame_out=frame_out,
            change_lift=change + block_up - frame_out, wall_length=found["length"], along=along,
            x_wall=found["x_start"], y_wall=found["y_start"], dx=found["dx"], dy=found["dy"], base=found["base"],
            x=found["x_start"] + found["dx"] * along, y=found["y_start"] + found["dy"] * along,
            z=found["base"] + opening.sill + opening.height / 2,
            z_lintel=found["base"] + opening.sill + opening.height + allow.lintel_depth / 2,
        )  # fmt: skip

    # ------------------------------------------------------------------------------------------ rooms and slabs

    def _sides(self) -> Iterable[SideRow]:
        for panel in self.plan.panels:
            walls = [Name(p.wall if p.wall_on_line else FREE) for p in panel.pieces]
            for order, piece in enumerate(panel.pieces):
                yield self._side(panel, piece, walls[order], Name(walls[(order + 1) % len(walls)]))

    def _side(self, panel: Panel, piece: Piece, wall: Name, next_wall: Name) -> SideRow:
        names = (Name(piece.start.letter), Name(piece.start.number), Name(piece.end.letter), Name(piece.end.number))
        x1, y1, x2, y2 = self.xs.at(names[0]), self.ys.at(names[1]), self.xs.at(names[2]), self.ys.at(names[3])
        length, half = line_length(x1, y1, x2, y2), self.thicknesses.total(wall) / 2
        cross, turn = x1 * y2 - x2 * y1, fixed(piece.turn, self.like)
        return SideRow(panel=Name(panel.name), from_letter=names[0], from_number=names[1], to_letter=names[2],
                       to_number=names[3], x_start=x1, y_start=y1, x_end=x2, y_end=y2, length=length, wall=wall,
                       next_wall=next_wall, turn=turn, half=half, lost=length * half,
                       corner=turn * half * self.thicknesses.total(next_wall) / 2, cross=cross,
                       cross_x=(x1 + x2) * cross, cross_y=(y1 + y2) * cross)  # fmt: skip

    def _rooms(self, sides: Sequence[SideRow]) -> tuple[RoomRow, ...]:
        cross, lost, corner = (_filed(sides, "panel", key) for key in ("cross", "lost", "corner"))
        rows = []
        for room in self.survey.rooms:
            name = Name(text_of(room.name))
            area = cross.total(name) / 2
            rows.append(RoomRow(room=room.name, panel=name, storey=room.storey, floor=room.floor, area=area,
                                clear=area - lost.total(name) + corner.total(name)))  # fmt: skip
        return tuple(rows)

    def _panels(self, sides: Sequence[SideRow]) -> tuple[PanelRow, ...]:
        columns = {key: _filed(sides, "panel", key) for key in ("cross", "cross_x", "cross_y")}
        rooms = self.survey.rooms
        keys = ("slab_thickness", "finish", "slope", "carries", "use", "soffit")
        of_room = {key: _filed(rooms, "name", key) for key in keys}
        return tuple(self._panel(panel, columns, of_room) for panel in self.slabs_of_plan)

    def _panel(self, panel: Panel, columns: dict[str, Filed], of_room: dict[str, Filed]) -> PanelRow:
        allow, name, room, kind = self.allow, Name(panel.name), Name(panel.room), fixed(panel.kind, self.like)
        level = storey_name(panel.storey)
        floor, pitched = same(kind, "floor"), same(kind, "pitched roof")
        area = columns["cross"].total(name) / 2
        thickness = where(floor, allow.slab_thickness, of_room["slab_thickness"].at(room))
        finish = where(floor, allow.floor_finish_weight, of_room["finish"].at(room))
        slope = of_room["slope"].at(room)
        use = of_room["use" if panel.kind == "floor" else "carries"].at(room)
        flat = self.imposed.at(use)
        dead = where(pitched, roof_dead(finish, slope), slab_dead(thickness, self.concrete, finish))
        sloped = roof_imposed(flat, slope, allow.roof_slope_free, allow.roof_slope_fall, allow.roof_imposed_least)
        imposed = where(pitched, sloped, flat)
        base, ceiling, own = self.bases.at(level), self.ceilings.at(level), of_room["soffit"].at(room)
        soffit = where(own > 0, base + own, ceiling)
        return PanelRow(
            panel=name, room=room, kind=kind, level=level, area=area, thickness=thickness, finish=finish, slope=slope,
            dead=dead, use=use, flat=flat, imposed=imposed, lifted=dead + imposed * self.lift.imposed_share,
            # A centroid divides by three times the cross sum, which is six times the area.
            x=columns["cross_x"].total(name) / (2 * area + 4 * area),
            y=columns["cross_y"].total(name) / (2 * area + 4 * area),
            base=base, ceiling=ceiling, own_soffit=own, soffit=soffit,
            z=where(floor, base - thickness / 2, soffit + thickness / 2),
        )  # fmt: skip

    def _shares(
        self, sides: Sequence[SideRow], panels: Sequence[PanelRow], members: Sequence[MemberRow]
    ) -> Iterable[ShareRow]:
        areas, dead, imposed, lifted = (_filed(panels, "panel", k) for k in ("area", "dead", "imposed", "lifted"))
        across = _filed(members, "name", "across")
        pieces = [(panel, piece, order) for panel in self.plan.panels for order, piece in enumerate(panel.pieces)]
        for side, (panel, piece, order) in zip(sides, pieces, strict=True):
            name, carrier, how = Name(panel.name), Name(piece.carrier or FREE), _how(panel, piece)
            shown, area = fixed(how, self.like), areas.total(name)
            other = area / side.length
            worked_out = how == "by outline"
            fraction = (
                at_issue(self.fractions[panel.name][order], side.length, area) if worked_out
                else fixed(0.0, self.like)
            )  # fmt: skip
            by_45, one_way = side_share(side.length, other), one_way_share(side.length, other)
            is_slender = slender(side.length, other)
            two_way = chosen_share(is_slender, side.length >= other, by_45, one_way)
            share = where(same(shown, "two way"), two_way, where(same(shown, "one way"), one_way, fraction * area))
            outside, corners = fixed(int(piece.outside), self.like), fixed(piece.corners, self.like)
            breadth = across.total(carrier) * outside
            strip = outer_strip(side.length, breadth, corners)
            loaded = share + strip
            yield ShareRow(
                panel=name,
                carrier=carrier,
                how=shown,
                length=side.length,
                area=area,
                other=other,
                fraction=fraction,
                by_45=by_45,
                one_way=one_way,
                slender=is_slender,
                two_way=two_way,
                share=share,
                outside=outside,
                breadth=breadth,
                corners=corners,
                strip=strip,
                loaded=loaded,
                dead=loaded * dead.total(name),
                imposed=loaded * imposed.total(name),
                lifted=loaded * lifted.total(name),
            )

    # ------------------------------------------------------------------------------------------ beams, columns, things

    def _beam(self, beam: Beam, panels: Sequence[PanelRow]) -> BeamRow:
        line, level = self.line_of[text_of(beam.name)], storey_name(beam.storey)
        carried = {p.name for p in self.slabs_of_plan if any(piece.carrier == text_of(beam.name) for piece in p.pieces)}
        over = [row.soffit for row in panels if row.panel in carried]
        if beam.plinth_beam == "yes":
            soffit = self.bases.at(level) + beam.depth / 2
        else:
            soffit = over[0] if over else self.ceilings.at(level)
        return BeamRow(name=beam.name, storey=beam.storey, length=line.length, breadth=beam.breadth, depth=beam.depth,
                       dead=prism_weight(line.length, beam.breadth, beam.depth, self.concrete),
                       x=(line.x_start + line.x_end) / 2, y=(line.y_start + line.y_end) / 2, soffit=soffit,
                       z=soffit - beam.depth / 2)  # fmt: skip

    def _column(self, column: Column) -> ColumnRow:
        letter, number, level = Name(column.point.letter), Name(column.point.number), storey_name(column.storey)
        weight, base = self.weights.at(column.material), self.bases.at(level)
        return ColumnRow(name=column.name, storey=column.storey, level=level, letter=letter, number=number,
                         breadth=column.breadth, depth=column.depth, height=column.height, material=column.material,
                         unit_weight=weight, dead=prism_weight(column.height, column.breadth, column.depth, weight),
                         x=self.xs.at(letter), y=self.ys.at(number), base=base, z=base + column.height / 2)  # fmt: skip

    def _attached(self, members: Sequence[MemberRow]) -> Iterable[AttachedRow]:
        keys = ("length", "x_start", "y_start", "dx", "dy", "ceiling", "slab")
        of_member = {key: _filed(members, "name", key) for key in keys}
        straight = {row.name for row in members if row.kind in ("wall", "beam")}
        for item in self.survey.attached:
            yield self._thing(item, of_member, straight)

    def _thing(self, item: Attached, of_member: dict[str, Filed], straight: set[Name]) -> AttachedRow:
        on = Name(text_of(item.on))
        found = {key: column.at(on) for key, column in of_member.items()}
        weight = self.weights.at(item.material)
        upright = either(same(item.kind, "parapet"), same(item.kind, "hanging wall"))
        plaster = where(upright, 2 * self.allow.plaster_thickness * self.plaster, 0)
        # A column's side is no length that things run along.
        member_length = found["length"] if on in straight else fixed(0.0, self.like, self.like)
        start = item.from_start.value
        length = where(item.length.given, item.length.value, member_length - start)
        dead = where(item.weight.given, item.weight.value, length * item.size * (item.thickness * weight + plaster))
        water = item.water * self.by_name.water
        stair = where(same(item.kind, "stair"), self.lift.stair, 0)
        walked_on = where(same(item.kind, "balcony"), self.lift.balcony, stair)
        people = walked_on * length * item.size
        along = ratio(start + length / 2, member_length, 0)
        on_top = either(same(item.kind, "parapet"), same(item.kind, "water tank"))
        return AttachedRow(
            name=item.name, kind=item.kind, on=on, material=item.material, from_start=start,
            member_length=member_length, length=length, thickness=item.thickness, size=item.size, unit_weight=weight,
            plaster=plaster, dead=dead, volume=item.water, water=water, walked_on=walked_on, people=people,
            imposed=water + people,
            lifted=where(same(item.support, "taken off"), 0, dead + people * self.lift.imposed_share),
            along=along, x_start=found["x_start"], y_start=found["y_start"], dx=found["dx"], dy=found["dy"],
            ceiling=found["ceiling"], slab=found["slab"], x=found["x_start"] + found["dx"] * along,
            y=found["y_start"] + found["dy"] * along,
            z=found["ceiling"] + where(on_top, found["slab"] + item.size / 2, 0),
        )  # fmt: skip


def _how(panel: Panel, piece: Piece) -> str:
    if not piece.carrier or panel.kind == "none":
        return "nothing"
    if panel.closed == "one way":
        return "one way" if piece.edge in bearing_edges(panel.outline, panel.span) else "nothing"
    return panel.closed or "by outline"
