"""The plan: who meets, carries and stands on whom, fixed when the workbook is issued.

Covers   meetings of walls, sides of slabs and who carries them, what upper walls and columns stand on, supports of
         beams, footings. Worked out on floats from names and the order of grid lines.
Not      any weight (loads, profiles) and any live number: the plan is an argument of the formulas.
Signs    x along letters, y along numbers; distances along a member from its From point.
Units    m.
Sources  conventions of this project: centre lines; a tee deducts half the through wall, a crossing one square in all.
"""

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from calc.nearby import Nearby
from calc.number import Name, text_of, value_of
from calc.outlines import Point, contains
from calc.survey import Beam, Column, GridPoint, Room, Survey, Wall

TOLERANCE = 0.005
"""Two places nearer than this are one [m]: a survey is taped to 5 mm at best."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """One end or middle of a wall that runs into another: the wall loses `halves` half thicknesses of the other."""

    wall: Name
    other: Name
    kind: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """A straight member on the plan: a wall or a beam."""

    name: str
    kind: str
    storey: int
    start: Point
    end: Point
    half: float
    from_point: GridPoint
    to_point: GridPoint

    @property
    def length(self) -> float:
        """Length [m]."""
        return math.dist(self.start, self.end)

    def along(self, point: Point) -> float:
        """Distance of the foot of `point` from the start [m]."""
        (x1, y1), (x2, y2) = self.start, self.end
        return ((point[0] - x1) * (x2 - x1) + (point[1] - y1) * (y2 - y1)) / self.length

    def off(self, point: Point) -> float:
        """Distance of `point` from the centre line, either side [m]."""
        (x1, y1), (x2, y2) = self.start, self.end
        return abs((point[0] - x1) * (y2 - y1) - (point[1] - y1) * (x2 - x1)) / self.length

    def at(self, distance: float) -> Point:
        """The point at a distance from the start."""
        share = distance / self.length
        return (
            self.start[0] + (self.end[0] - self.start[0]) * share,
            self.start[1] + (self.end[1] - self.start[1]) * share,
        )

    def parallel(self, start: Point, end: Point) -> bool:
        """Whether the line from `start` to `end` runs the same way or the opposite."""
        ux, uy = self.end[0] - self.start[0], self.end[1] - self.start[1]
        vx, vy = end[0] - start[0], end[1] - start[1]
        return abs(ux * vy - uy * vx) <= TOLERANCE * math.hypot(ux, uy)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One stretch of one side of a slab, with one carrier or none."""

    panel: Name
    edge: int
    start: GridPoint
    end: GridPoint
    carrier: Name
    carrier_kind: str
    """wall, beam, or empty for a free side."""
    on_line: bool
    """Whether the side lies on the carrier's centre line."""
    outside: bool
    """Whether no other slab lies on the far side, so that the slab reaches to the outer face."""
    corners: int
    """Outer corners at its ends, inner corners counting -1."""
    wall: Name
    """The wall along it, which a beam over it may relieve of the slab; empty where there is none."""
    wall_on_line: bool
    """Whether the side lies on that wall's centre line."""
    turn: int = 0
    """1 where the outline turns outward at its end, -1 where it turns inward, 0 where the side goes on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """One slab, roof or suspended floor."""

    name: Name
    room: Name
    kind: str
    """slab, pitched roof, floor (a suspended ground floor) or none (open to the sky)."""
    storey: int
    points: tuple[GridPoint, ...]
    outline: tuple[Point, ...]
    span: str
    pieces: tuple[Piece, ...]
    closed: str
    """two way or one way where a closed formula shares it, else empty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """A stretch of an upper member that stands on a lower one: distances along the upper one [m]."""

    upper: Name
    lower: Name
    lower_kind: str
    """wall, beam, column or slab."""
    start: float
    end: float
    full: bool
    """Whether all of the upper member stands here."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rest:
    """A beam's support: a column, wall or beam at a distance along it [m]; or a wall under its whole length."""

    beam: Name
    support: Name
    support_kind: str
    at: float
    whole: bool
    point: GridPoint | None = None
    """The grid point of the support, where it is one: then its place stays live."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Something the plan cannot make sense of, for the reader to locate."""

    code: str
    member: str
    found: str
    where: tuple[GridPoint, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Everything that is fixed at issue about who carries whom."""

    storeys: tuple[int, ...]
    members: dict[str, Member]
    columns: dict[str, tuple[int, Point]]
    meetings: tuple[Meeting, ...]
    panels: tuple[Panel, ...]
    stands: tuple[Stand, ...]
    rests: tuple[Rest, ...]
    beam_ranks: dict[str, int]
    """0 for a beam that carries no other beam of its storey, 1 for one that carries those, and so on."""
    troubles: tuple[Trouble, ...]


def plan_of(survey: Survey) -> Plan:
    """The plan of a surveyed house; what does not fit comes back as `troubles`, never as an exception."""
    xs = {text_of(line.name): value_of(line.offset) for line in survey.letters}
    ys = {text_of(line.name): value_of(line.offset) for line in survey.numbers}

    def place(point: GridPoint) -> Point:
        return xs[point.letter], ys[point.number]

    straight: tuple[Wall | Beam, ...] = (*survey.walls, *survey.beams)
    members = {text_of(m.name): _member(m, place(m.start), place(m.end)) for m in straight}
    low = {text_of(beam.name) for beam in survey.beams if beam.plinth_beam == "yes"}
    # At the ceiling of a storey nothing rests or stands on a plinth beam, which lies a storey lower.
    high = {name: member for name, member in members.items() if name not in low}
    columns = {text_of(c.name): (c.storey, place(c.point)) for c in survey.columns}
    troubles: list[Trouble] = []
    panels = _panels(survey, members, xs, ys, troubles)
    rests = _rests(survey, members, columns, low, troubles)
    return Plan(
        storeys=tuple(sorted({wall.storey for wall in survey.walls} | {c.storey for c in survey.columns})),
        members=members,
        columns=columns,
        meetings=tuple(_meetings([m for m in members.values() if m.kind == "wall"])),
        panels=panels,
        stands=tuple(_stands(survey, high, columns, panels, troubles)),
        rests=rests,
        beam_ranks=_ranks(survey.beams, rests, troubles),
        troubles=tuple(troubles),
    )


def _member(item: Wall | Beam, start: Point, end: Point) -> Member:
    wall = isinstance(item, Wall)
    breadth = item.thickness if isinstance(item, Wall) else item.breadth
    return Member(name=text_of(item.name), kind="wall" if wall else "beam", storey=item.storey, start=start, end=end,
                  half=value_of(breadth) / 2, from_point=item.start, to_point=item.end)  # fmt: skip


# ---------------------------------------------------------------------------------------------- meetings of walls


def _meetings(walls: Sequence[Member]) -> Iterable[Meeting]:
    storeys = {wall.storey for wall in walls}
    filed = {s: Nearby(((w.start, w.end), w) for w in walls if w.storey == s) for s in storeys}
    for wall in walls:
        near = filed[wall.storey].near((wall.start, wall.end), TOLERANCE)
        for other in near:
            if other is wall or wall.parallel(other.start, other.end):
                continue
            kind = _meeting_kind(wall, other, near)
            if kind:
                yield Meeting(wall=Name(wall.name), other=Name(other.name), kind=kind)


def _meeting_kind(wall: Member, other: Member, walls: Sequence[Member]) -> str:
    """Which meeting: tee where `wall` ends on `other`, crossing where each passes through the other, else empty.

    `walls` are those near `wall`.
    """
    for end in (wall.start, wall.end):
        if other.off(end) > TOLERANCE or not -TOLERANCE <= other.along(end) <= other.length + TOLERANCE:
            continue
        if TOLERANCE < other.along(end) < other.length - TOLERANCE:
            return "tee"
        # Two walls in line that meet here make one through wall for a third that ends here; the first of them is it.
        here = [w for w in walls if min(math.dist(w.start, end), math.dist(w.end, end)) <= TOLERANCE]
        line = [w for w in here if w.parallel(other.start, other.end)]
        mine = [w for w in here if w.parallel(wall.start, wall.end)]
        if len(line) > 1 and line[0] is other and (len(mine) == 1 or walls.index(other) < walls.index(mine[0])):
            return "tee"
        return ""
    crossing = _crossing(wall, other)
    if crossing is None:
        return ""
    inside = TOLERANCE < wall.along(crossing) < wall.length - TOLERANCE
    return "crossing" if inside and TOLERANCE < other.along(crossing) < other.length - TOLERANCE else ""


def _crossing(a: Member, b: Member) -> Point | None:
    (x1, y1), (x2, y2), (x3, y3), (x4, y4) = a.start, a.end, b.start, b.end
    det = (x2 - x1) * (y4 - y3) - (y2 - y1) * (x4 - x3)
    if abs(det) < TOLERANCE**2:
        return None
    s = ((x3 - x1) * (y4 - y3) - (y3 - y1) * (x4 - x3)) / det
    return x1 + s * (x2 - x1), y1 + s * (y2 - y1)


# ---------------------------------------------------------------------------------------------- slabs and their sides


def _panels(
    survey: Survey,
    members: dict[str, Member],
    xs: dict[str, float],
    ys: dict[str, float],
    troubles: list[Trouble],
) -> tuple[Panel, ...]:
    wanted: list[tuple[Room, str]] = [(room, room.above) for room in survey.rooms]
    wanted += [(room, "floor") for room in survey.rooms if room.storey == 1 and room.floor == "suspended"]
    slab_beams = {text_of(b.name) for b in survey.beams if b.carries_slab == "yes" and b.plinth_beam != "yes"}
    plinth_beams = {text_of(b.name) for b in survey.beams if b.plinth_beam == "yes"}
    outlines = {text_of(r.name): tuple((xs[p.letter], ys[p.number]) for p in r.outline) for r in survey.rooms}
    # A beam under the slab takes it before the wall below.
    in_order = sorted(members.values(), key=lambda m: m.kind != "beam")
    levels = {(room.storey, kind == "floor") for room, kind in wanted}
    carriers = {
        (storey, floor): Nearby(((m.start, m.end), m) for m in in_order if m.storey == storey
                                and (m.kind == "wall" or m.name in (plinth_beams if floor else slab_beams)))
        for storey, floor in levels
    }  # fmt: skip
    slabs = {
        (storey, floor): Nearby((outlines[text_of(r.name)], outlines[text_of(r.name)]) for r, k in wanted
                                if r.storey == storey and (k == "floor") == floor and k != "none")
        for storey, floor in levels
    }  # fmt: skip
    widest = max((m.half for m in members.values()), default=0.0)
    panels = []
    for room, kind in wanted:
        name, outline = text_of(room.name), outlines[text_of(room.name)]
        level = (room.storey, kind == "floor")
        held = carriers[level].near(outline, widest + TOLERANCE)
        others = [other for other in slabs[level].near(outline, TOLERANCE) if other is not outline]
        label = Name(f"{name} floor" if kind == "floor" else name)
        pieces: list[Piece] = []
        for edge in range(len(outline)):
            pieces += _pieces_of_edge(label, room.outline, outline, edge, held, others, xs, ys)
        span = "auto" if kind == "floor" else room.span
        panel = Panel(name=label, room=Name(name), kind=kind, storey=room.storey, points=room.outline, outline=outline,
                      span=span, pieces=tuple(pieces), closed=_closed(outline, pieces, span, kind))  # fmt: skip
        troubles += _free_side_troubles(panel)
        panels.append(panel)
    return tuple(_with_corners(panels, xs, ys))


def _pieces_of_edge(
    panel: Name,
    points: tuple[GridPoint, ...],
    outline: tuple[Point, ...],
    edge: int,
    carriers: Sequence[Member],
    others: Sequence[tuple[Point, ...]],
    xs: dict[str, float],
    ys: dict[str, float],
) -> list[Piece]:
    first, last = points[edge], points[(edge + 1) % len(points)]
    a, b = outline[edge], outline[(edge + 1) % len(outline)]
    side = Member(name="", kind="side", storey=0, start=a, end=b, half=0.0, from_point=first, to_point=last)
    near = [m for m in carriers if m.parallel(a, b) and m.off(side.at(side.length / 2)) <= m.half + TOLERANCE]
    stops = {0.0: first, side.length: last}
    for letter, number, point in _stops_on(side, near, others, xs, ys):
        distance = side.along(point)
        if all(abs(distance - known) > TOLERANCE for known in stops) and 0 < distance < side.length:
            stops[distance] = GridPoint(letter, number)
    distances = sorted(stops)
    pieces: list[Piece] = []
    after = outline[(edge + 2) % len(outline)]
    bend = (b[0] - a[0]) * (after[1] - b[1]) - (b[1] - a[1]) * (after[0] - b[0])
    for start, end in pairwise(distances):
        middle = side.at((start + end) / 2)
        # A wall reaches past its end point to the outer face of the wall it meets: the slab over that corner is held.
        found = [m for m in near if -m.half - TOLERANCE <= m.along(middle) <= m.length + m.half + TOLERANCE]
        carrier = min(found, key=lambda m: (m.kind != "beam", m.off(middle)), default=None)
        wall = min((m for m in found if m.kind == "wall"), key=lambda m: m.off(middle), default=None)
        on_line = carrier is not None and carrier.off(middle) <= TOLERANCE
        outside = on_line and not any(_touches(middle, a, b, other) for other in others)
        piece = Piece(panel=panel, edge=edge, start=stops[start], end=stops[end],
                      carrier=Name(carrier.name if carrier else ""), carrier_kind=carrier.kind if carrier else "",
                      on_line=on_line, outside=outside, corners=0, wall=Name(wall.name if wall else ""),
                      wall_on_line=wall is not None and wall.off(middle) <= TOLERANCE)  # fmt: skip
        last_piece = pieces[-1] if pieces else None
        if last_piece and all(
            getattr(last_piece, key) == getattr(piece, key) for key in ("carrier", "outside", "wall")
        ):
            piece = replace(piece, start=pieces.pop().start)
        pieces.append(piece)
    turn = 0 if abs(bend) <= TOLERANCE**2 else 1 if bend > 0 else -1
    return [*pieces[:-1], replace(pieces[-1], turn=turn)]


def _stops_on(
    side: Member,
    near: Sequence[Member],
    others: Sequence[tuple[Point, ...]],
    xs: dict[str, float],
    ys: dict[str, float],
) -> Iterable[tuple[str, str, Point]]:
    """Grid points on a side where its carrier or its neighbour may change: ends of members, corners of other slabs."""
    first, last = side.from_point, side.to_point
    corners = {point for outline in others for point in outline}
    if first.number == last.number:
        y = ys[first.number]
        wanted = {m.from_point.letter for m in near} | {m.to_point.letter for m in near}
        wanted |= {letter for letter, x in xs.items() if any(math.dist((x, y), c) <= TOLERANCE for c in corners)}
        yield from ((letter, first.number, (xs[letter], y)) for letter in sorted(wanted, key=xs.__getitem__))
    elif first.letter == last.letter:
        x = xs[first.letter]
        wanted = {m.from_point.number for m in near} | {m.to_point.number for m in near}
        wanted |= {number for number, y in ys.items() if any(math.dist((x, y), c) <= TOLERANCE for c in corners)}
        yield from ((first.letter, number, (x, ys[number])) for number in sorted(wanted, key=ys.__getitem__))
    else:
        points = [(m.from_point, m.start) for m in near] + [(m.to_point, m.end) for m in near]
        yield from ((g.letter, g.number, p) for g, p in points if side.off(p) <= TOLERANCE)


def _touches(middle: Point, a: Point, b: Point, outline: tuple[Point, ...]) -> bool:
    """Whether another outline has a side along this line that passes `middle`."""
    for start, end in zip(outline, (*outline[1:], outline[0]), strict=True):
        other = Member(name="", kind="side", storey=0, start=start, end=end, half=0.0,
                       from_point=GridPoint("", ""), to_point=GridPoint("", ""))  # fmt: skip
        on = other.length > TOLERANCE and other.parallel(a, b) and other.off(middle) <= TOLERANCE
        if on and 0 <= other.along(middle) <= other.length:
            return True
    return False


def is_rectangle(outline: Sequence[Point]) -> bool:
    """Whether an outline is a rectangle along the axes."""
    if len(outline) != 4:
        return False
    sides = list(zip(outline, (*outline[1:], outline[0]), strict=True))
    return all((abs(a[0] - b[0]) <= 1e-9) != (abs(a[1] - b[1]) <= 1e-9) for a, b in sides)


def _closed(outline: tuple[Point, ...], pieces: Sequence[Piece], span: str, kind: str) -> str:
    """Which closed formula shares the panel, if any: rectangles whose bearing sides have one carrier each."""
    if not is_rectangle(outline) or len(pieces) != 4:
        return ""
    held = [bool(piece.carrier) for piece in pieces]
    if span.startswith("auto"):
        if not all(held):
            return ""
        return "one way" if kind == "pitched roof" else "two way"
    bearing = bearing_edges(outline, span)
    return "one way" if all(held[edge] for edge in bearing) else ""


def bearing_edges(outline: Sequence[Point], span: str) -> list[int]:
    """The sides of a rectangle that a one-way span bears on; by itself it spans the short way."""
    lengths = [math.dist(outline[i], outline[(i + 1) % 4]) for i in range(4)]
    if span == "along letters":
        return [i for i in range(4) if abs(outline[i][0] - outline[(i + 1) % 4][0]) <= 1e-9]
    if span == "along numbers":
        return [i for i in range(4) if abs(outline[i][1] - outline[(i + 1) % 4][1]) <= 1e-9]
    return [0, 2] if lengths[0] >= lengths[1] else [1, 3]


def _free_side_troubles(panel: Panel) -> Iterable[Trouble]:
    if panel.kind == "none":
        return
    if panel.span != "auto":
        if not any(piece.carrier for piece in panel.pieces):
            yield Trouble(code="NO-SUPPORT", member=text_of(panel.room), found="no wall or beam along any side")
        return
    for piece in panel.pieces:
        if not piece.carrier:
            found = f"neither a wall nor a beam along {piece.start} to {piece.end}"
            yield Trouble(code="FREE-EDGE", member=text_of(panel.room), found=found, where=(piece.start, piece.end))


def _with_corners(panels: Sequence[Panel], xs: dict[str, float], ys: dict[str, float]) -> Iterable[Panel]:
    """Count the outer and inner corners of the house at the ends of each outside piece."""
    ends: dict[tuple[int, bool, float, float], list[tuple[Piece, Point, Point]]] = defaultdict(list)

    def place(point: GridPoint) -> Point:
        return xs[point.letter], ys[point.number]

    def key(panel: Panel, point: Point) -> tuple[int, bool, float, float]:
        return panel.storey, panel.kind == "floor", round(point[0], 3), round(point[1], 3)

    for panel in panels:
        for piece in panel.pieces:
            if not piece.outside:
                continue
            a, b = place(piece.start), place(piece.end)
            away = ((b[0] - a[0]), (b[1] - a[1]))
            outward = (away[1], -away[0])  # outlines run anticlockwise
            ends[key(panel, a)].append((piece, away, outward))
            ends[key(panel, b)].append((piece, (-away[0], -away[1]), outward))
    for panel in panels:
        pieces = []
        for piece in panel.pieces:
            corners = 0
            if piece.outside:
                for point in (place(piece.start), place(piece.end)):
                    corners += _corner_sign(piece, ends[key(panel, point)])
            pieces.append(replace(piece, corners=corners))
        yield replace(panel, pieces=tuple(pieces))


def _corner_sign(piece: Piece, here: Sequence[tuple[Piece, Point, Point]]) -> int:
    away = next(direction for other, direction, _ in here if other is piece)
    for other, _, outward in here:
        across = outward[0] * away[0] + outward[1] * away[1]
        if other is not piece and abs(across) > TOLERANCE:
            return -1 if across > 0 else 1
    return 0


# ---------------------------------------------------------------------------------------------- what stands on what


def _stands(
    survey: Survey,
    members: dict[str, Member],
    columns: dict[str, tuple[int, Point]],
    panels: Sequence[Panel],
    troubles: list[Trouble],
) -> Iterable[Stand]:
    for wall in survey.walls:
        if wall.storey > 1:
            yield from _stands_of_wall(members[text_of(wall.name)], members, panels, troubles)
    for column in survey.columns:
        if column.storey > 1:
            yield from _stand_of_column(text_of(column.name), columns, members, panels, troubles)


def _stands_of_wall(
    upper: Member, members: dict[str, Member], panels: Sequence[Panel], troubles: list[Trouble]
) -> Iterable[Stand]:
    name, gaps, middle = Name(upper.name), [(0.0, upper.length)], upper.at(upper.length / 2)
    under = [m for m in members.values()
             if m.storey == upper.storey - 1 and m.parallel(upper.start, upper.end)
             and m.off(middle) <= max(m.half, upper.half) + TOLERANCE]  # fmt: skip
    for lower in sorted(under, key=lambda m: (m.kind == "beam", m.off(middle))):
        low, high = sorted((upper.along(lower.start), upper.along(lower.end)))
        for start, end in list(gaps):
            # What is left beside it within the tolerance of the survey stands on it too, or it would stand nowhere.
            a = max(start, low) if low - start > TOLERANCE else start
            b = min(end, high) if end - high > TOLERANCE else end
            if min(end, high) - max(start, low) > TOLERANCE:
                gaps.remove((start, end))
                gaps += [gap for gap in ((start, a), (b, end)) if gap[1] > gap[0]]
                yield Stand(upper=name, lower=Name(lower.name), lower_kind=lower.kind, start=a, end=b,
                            full=(a, b) == (0.0, upper.length))  # fmt: skip
    for gap in sorted(gaps):
        for start, end, panel in _panels_under(upper, *gap, panels):
            if panel is None:
                found = f"nothing under it from {start:.2f} to {end:.2f} m"
                troubles.append(Trouble(code="HANGS", member=upper.name, found=found))
            else:
                yield Stand(upper=name, lower=panel.name, lower_kind="slab", start=start, end=end,
                            full=(start, end) == (0.0, upper.length))  # fmt: skip


def _panels_under(
    upper: Member, start: float, end: float, panels: Sequence[Panel]
) -> Iterable[tuple[float, float, Panel | None]]:
    """A stretch of an upper member, cut where it passes from one slab to the next or to none."""
    stops = [start]
    for at in sorted(_borders_on(upper, panels)):
        if stops[-1] + TOLERANCE < at < end - TOLERANCE:
            stops.append(at)
    found: list[tuple[float, float, Panel | None]] = []
    for a, b in zip(stops, [*stops[1:], end], strict=True):
        panel = _panel_under(upper.at((a + b) / 2), upper.storey - 1, panels)
        if found and found[-1][2] is panel:
            a = found.pop()[0]
        found.append((a, b, panel))
    return found


def _borders_on(upper: Member, panels: Sequence[Panel]) -> Iterable[float]:
    """Where an upper member passes over a side of a slab below it."""
    for panel in panels:
        if panel.storey != upper.storey - 1 or panel.kind != "slab":
            continue
        for a, b in zip(panel.outline, (*panel.outline[1:], panel.outline[0]), strict=True):
            side = replace(upper, name="", start=a, end=b)
            crossing = None if side.length <= TOLERANCE or upper.parallel(a, b) else _crossing(upper, side)
            if crossing is not None and -TOLERANCE <= side.along(crossing) <= side.length + TOLERANCE:
                yield upper.along(crossing)


def _panel_under(point: Point, storey: int, panels: Sequence[Panel]) -> Panel | None:
    under = (p for p in panels if p.storey == storey and p.kind == "slab" and contains(p.outline, point))
    return next(under, None)


def _stand_of_column(
    name: str,
    columns: dict[str, tuple[int, Point]],
    members: dict[str, Member],
    panels: Sequence[Panel],
    troubles: list[Trouble],
) -> Iterable[Stand]:
    storey, point = columns[name]
    for other, (level, place) in columns.items():
        if level == storey - 1 and math.dist(place, point) <= 2 * TOLERANCE:
            yield Stand(upper=Name(name), lower=Name(other), lower_kind="column", start=0.0, end=0.0, full=True)
            return
    for kind in ("wall", "beam"):
        for lower in members.values():
            on = lower.storey == storey - 1 and lower.kind == kind and lower.off(point) <= lower.half + TOLERANCE
            if on and -TOLERANCE <= lower.along(point) <= lower.length + TOLERANCE:
                yield Stand(upper=Name(name), lower=Name(lower.name), lower_kind=kind, start=0.0, end=0.0, full=True)
                return
    panel = _panel_under(point, storey - 1, panels)
    if panel is None:
        troubles.append(Trouble(code="HANGS", member=name, found="nothing under it"))
    else:
        yield Stand(upper=Name(name), lower=panel.name, lower_kind="slab", start=0.0, end=0.0, full=True)


# ---------------------------------------------------------------------------------------------- supports of beams


def _rests(
    survey: Survey,
    members: dict[str, Member],
    columns: dict[str, tuple[int, Point]],
    low: set[str],
    troubles: list[Trouble],
) -> tuple[Rest, ...]:
    rests: list[Rest] = []
    points = {text_of(c.name): c.point for c in survey.columns}
    for beam in survey.beams:
        member = members[text_of(beam.name)]
        level = {name: m for name, m in members.items() if m.kind == "wall" or (name in low) == (member.name in low)}
        found = [r for r in _possible_rests(member, level, columns, points)
                 if not beam.bears_on or text_of(r.support) in beam.bears_on]  # fmt: skip
        named = {text_of(r.support) for r in found}
        troubles += [Trouble(code="BEARS-NOT", member=member.name, found=f"bearing on {missing}, which it misses")
                     for missing in beam.bears_on if missing not in named]  # fmt: skip
        whole = [r for r in found if r.whole]
        posts = _nearest_kept([r for r in found if not r.whole])
        chosen = posts if [r for r in posts if r.support_kind == "column"] or not whole else whole[:1]
        if not chosen:
            troubles.append(Trouble(code="NO-BEARING", member=member.name, found="nothing to bear on"))
        elif len(chosen) == 1 and not chosen[0].whole:
            troubles.append(Trouble(code="ONE-BEARING", member=member.name, found="only one thing to bear on"))
        rests += chosen
    return tuple(rests)


def _possible_rests(
    beam: Member,
    members: dict[str, Member],
    columns: dict[str, tuple[int, Point]],
    points: dict[str, GridPoint],
) -> Iterable[Rest]:
    name = Name(beam.name)
    for column, (storey, point) in columns.items():
        reach = beam.along(point)
        under = storey == beam.storey and beam.off(point) <= beam.half + TOLERANCE
        if under and -TOLERANCE <= reach <= beam.length + TOLERANCE:
            yield Rest(beam=name, support=Name(column), support_kind="column", at=reach,
                       whole=False, point=points[column])  # fmt: skip
    for other in members.values():
        if other.storey != beam.storey or other.name == beam.name:
            continue
        if other.parallel(beam.start, beam.end):
            low, high = sorted((other.along(beam.start), other.along(beam.end)))
            under = other.kind == "wall" and other.off(beam.at(beam.length / 2)) <= other.half + TOLERANCE
            if under and low >= -TOLERANCE and high <= other.length + TOLERANCE:
                yield Rest(beam=name, support=Name(other.name), support_kind="wall", at=0.0, whole=True)
            elif under:
                yield from _rests_in_line(beam, other)
            continue
        crossing = _crossing(beam, other)
        if crossing is None:
            continue
        on_beam = -other.half - TOLERANCE <= beam.along(crossing) <= beam.length + other.half + TOLERANCE
        on_other = -beam.half - TOLERANCE <= other.along(crossing) <= other.length + beam.half + TOLERANCE
        if on_beam and on_other and (other.kind == "wall" or _beam_ends_on(beam, crossing)):
            reach = min(max(beam.along(crossing), 0.0), beam.length)
            yield Rest(beam=name, support=Name(other.name), support_kind=other.kind, at=reach, whole=False)


def _rests_in_line(beam: Member, wall: Member) -> Iterable[Rest]:
    """Supports on a wall that a beam goes on from in the same line: the ends of what the two have in common."""
    first, last = sorted((beam.along(wall.start), beam.along(wall.end)))
    ends = max(first, 0.0), min(last, beam.length)
    if ends[1] - ends[0] >= -TOLERANCE:
        for at in ends if ends[1] - ends[0] > TOLERANCE else ends[:1]:
            reach = min(max(at, 0.0), beam.length)
            yield Rest(beam=Name(beam.name), support=Name(wall.name), support_kind="wall", at=reach, whole=False)


def _beam_ends_on(beam: Member, crossing: Point) -> bool:
    """A beam rests on another beam only at its own end: where two cross, the one that ends is the one carried."""
    return min(math.dist(beam.start, crossing), math.dist(beam.end, crossing)) <= TOLERANCE


def _nearest_kept(rests: Sequence[Rest]) -> list[Rest]:
    """One support at each place, a column before a wall before a beam, in order along the beam."""
    order = {"column": 0, "wall": 1, "beam": 2}
    kept: list[Rest] = []
    for rest in sorted(rests, key=lambda r: order[r.support_kind]):
        if all(abs(rest.at - other.at) > 0.1 for other in kept):
            kept.append(rest)
    return sorted(kept, key=lambda r: r.at)


def _ranks(beams: Sequence[Beam], rests: Sequence[Rest], troubles: list[Trouble]) -> dict[str, int]:
    carried = defaultdict(list)
    for rest in rests:
        if rest.support_kind == "beam":
            carried[text_of(rest.support)].append(text_of(rest.beam))
    ranks: dict[str, int] = {}

    def rank(name: str, seen: tuple[str, ...]) -> int:
        if name in seen:
            troubles.append(Trouble(code="BEAM-RING", member=name, found="carried by a beam that it carries itself"))
            return 0
        if name not in ranks:
            ranks[name] = max((rank(other, (*seen, name)) + 1 for other in carried[name]), default=0)
        return ranks[name]

    for beam in beams:
        rank(text_of(beam.name), ())
    return ranks


def column_points(columns: Sequence[Column]) -> dict[str, GridPoint]:
    """Where each column stands."""
    return {text_of(column.name): column.point for column in columns}
