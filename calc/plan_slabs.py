"""Slabs on plan: their sides, cut where the carrier or the neighbour changes, and who carries each piece.

Covers   sides of slabs, roofs and floors; outer and inner corners of the house; which closed formula fits.
Not      the shares themselves (slabs, outlines).
Signs    x along letters, y along numbers; distances along a member from its From point.
Units    m.
Sources  conventions of this project.
"""

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

from calc.nearby import Nearby
from calc.number import Name, text_of
from calc.outlines import Point
from calc.plan_rows import TOLERANCE, Member, Panel, Piece, Trouble
from calc.survey import GridPoint, Room, Survey


def panels_of(
    survey: Survey,
    members: dict[str, Member],
    xs: dict[str, float],
    ys: dict[str, float],
    troubles: list[Trouble],
) -> tuple[Panel, ...]:
    """Every slab, roof, suspended floor and open room, with the pieces of its sides.

    Args:
        survey: the entries as floats
        members: walls and beams by name
        xs: place of each letter line [m]
        ys: place of each number line [m]
        troubles: what does not fit is added here
    """
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
