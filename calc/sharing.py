"""Who gets how much: slabs, upper walls and beams handed down place by place, on floats.

Covers   shares of slabs without a closed formula, what upper members pass to lower ones, what beams pass to their
         supports, and the load along every member: even pieces, ramps and points.
Not      the live totals (take_down): they use the fractions found here.
Signs    load positive downward; distances from a member's From point.
Units    m, kN, kN/m.
Sources  45 degree lines (outlines); lever rule for what stands on a slab and for beams, each span hinged.
"""

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from calc.line_loads import LineLoad
from calc.number import Name, rounded, text_of, value_of
from calc.outlines import EdgeShare, Point, nearest_edge_shares, one_way_shares
from calc.own_loads import PieceFractions
from calc.own_rows import OpeningRow, OwnLoads, ShareRow
from calc.plan_rows import Member, Panel, Plan, Rest, Stand
from calc.plan_slabs import bearing_edges, is_rectangle
from calc.survey import GridPoint, Survey

MEASURES = ("dead", "imposed", "lifted")


@dataclass(frozen=True, slots=True, kw_only=True)
class Passed:
    """What part of an upper member's load one lower member gets."""

    upper: Name
    lower: Name
    through: str
    """The slab it goes through, or empty."""
    full: bool
    """Whether all of it comes here directly: then the fraction is 1 and stays so."""
    dead: float
    imposed: float
    lifted: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """What part of a beam's load one support draws."""

    rest: Rest
    even: bool
    """Whether the beam carries one even load: then the part follows from distances alone."""
    dead: float
    imposed: float
    lifted: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sharing:
    """Everything handed down, and the load along each member."""

    passed: tuple[Passed, ...]
    drawn: tuple[Drawn, ...]
    profiles: dict[str, dict[str, LineLoad]]
    column_loads: dict[str, dict[str, float]] = field(default_factory=dict)


def piece_points(survey: Survey, panel: Panel) -> tuple[Point, ...]:
    """The start of each piece of a panel, in order: its outline with every piece a side of its own."""
    xs = {text_of(line.name): value_of(line.offset) for line in survey.letters}
    ys = {text_of(line.name): value_of(line.offset) for line in survey.numbers}

    def place(point: GridPoint) -> Point:
        return xs[point.letter], ys[point.number]

    return tuple(place(piece.start) for piece in panel.pieces)


def panel_shares(panel: Panel, points: Sequence[Point]) -> tuple[EdgeShare, ...]:
    """What each carried piece of a panel gets, by the rule its span calls for."""
    held = [bool(piece.carrier) for piece in panel.pieces]
    if panel.span in ("along letters", "along numbers"):
        return one_way_shares(points, held, "x" if panel.span == "along letters" else "y")
    lengths = [((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5
               for a, b in zip(panel.outline, (*panel.outline[1:], panel.outline[0]), strict=True)]  # fmt: skip
    # Rounded as two_way_share rounds, or the two would part company on a slab just twice as long as wide.
    slender = is_rectangle(panel.outline) and rounded(max(lengths[:2]), 9) > rounded(2 * min(lengths[:2]), 9)
    if is_rectangle(panel.outline) and (slender or panel.kind == "pitched roof"):
        edges = bearing_edges(panel.outline, "auto")
        sides = [[h for h, piece in zip(held, panel.pieces, strict=True) if piece.edge == edge] for edge in edges]
        if all(all(side) for side in sides):
            along_x = abs(panel.outline[edges[0]][0] - panel.outline[edges[0] + 1][0]) <= 1e-9
            return one_way_shares(points, held, "x" if along_x else "y")
    return nearest_edge_shares(points, held)


def piece_fractions(plan: Plan, survey: Survey) -> PieceFractions:
    """For each panel without a closed formula, the fraction of its area that each piece gets."""
    fractions: PieceFractions = {}
    for panel in plan.panels:
        if not panel.closed and panel.kind != "none":
            shares = panel_shares(panel, piece_points(survey, panel))
            area = sum(share.area for share in shares)
            by_edge = {share.edge: share.area / area for share in shares}
            fractions[panel.name] = tuple(by_edge.get(i, 0.0) for i in range(len(panel.pieces)))
    return fractions


def sharing_of(survey: Survey, plan: Plan, own: OwnLoads) -> Sharing:
    """Hand every load down from the top storey to the lowest.

    Args:
        survey: the entries as floats
        plan: who carries whom
        own: own loads as floats
    """
    return _HandingDown(survey, plan, own).run()


class _HandingDown:
    def __init__(self, survey: Survey, plan: Plan, own: OwnLoads) -> None:
        self.survey, self.plan, self.own = survey, plan, own
        self.loads = {name: {measure: LineLoad() for measure in MEASURES} for name in plan.members}
        self.columns = {name: dict.fromkeys(MEASURES, 0.0) for name in plan.columns}
        self.passed: list[Passed] = []
        self.drawn: list[Drawn] = []
        self.openings: dict[str, list[OpeningRow]] = defaultdict(list)
        for opening in own.openings:
            self.openings[text_of(opening.wall).casefold()].append(opening)
        self.share_rows: dict[str, list[ShareRow]] = defaultdict(list)
        for share in own.shares:
            self.share_rows[share.panel].append(share)
        self.panel_rows = {row.panel: row for row in own.panels}
        self.slabs = [panel for panel in plan.panels if panel.kind != "none"]
        self.points = {panel.name: piece_points(survey, panel) for panel in self.slabs}
        self.shares = {panel.name: panel_shares(panel, self.points[panel.name]) for panel in self.slabs}

    def run(self) -> Sharing:
        self._own()
        levels = {self.plan.members[n].storey for n in self.plan.members} | set(self.plan.storeys)
        for storey in sorted(levels, reverse=True):
            for panel in (p for p in self.slabs if p.storey == storey):
                self._slab(panel)
            self._attached(storey)
            beams = [name for name, m in self.plan.members.items() if m.kind == "beam" and m.storey == storey]
            for name in sorted(beams, key=lambda n: self.plan.beam_ranks[n]):
                self._beam(self.plan.members[name])
            for stand in (s for s in self.plan.stands if self._storey(s.upper) == storey):
                self._stand(stand)
        self._to_jambs()
        return Sharing(passed=tuple(self.passed), drawn=tuple(self.drawn), profiles=self.loads,
                       column_loads=self.columns)  # fmt: skip

    def _to_jambs(self) -> None:
        """In the lift, load over an opening left open goes to its jambs; a blocked window bears evenly."""
        for name, member in self.plan.members.items():
            for row in self.openings[name.casefold()] if member.storey == 1 and member.kind == "wall" else ():
                if value_of(row.blocked) <= 0:
                    start = value_of(row.from_start)
                    self.loads[name]["lifted"] = self.loads[name]["lifted"].bridged(start, start + value_of(row.width))

    def _storey(self, name: str) -> int:
        return self.plan.members[name].storey if name in self.plan.members else self.plan.columns[name][0]

    def _own(self) -> None:
        for wall in self.own.walls:
            name, length = text_of(wall.name), value_of(wall.length)
            share = value_of(wall.goes_up)
            self.loads[name]["dead"].spread(value_of(wall.gross), 0.0, length)
            self.loads[name]["lifted"].spread(value_of(wall.gross) * share, 0.0, length)
            for row in self.openings[name.casefold()]:
                near, width, lintel = value_of(row.from_start), value_of(row.width), value_of(row.lintel)
                overhang = (value_of(row.lintel_length) - width) / 2
                ends = max(near - overhang, 0.0), min(near + width + overhang, length)
                for measure, change in (("dead", row.change), ("lifted", row.change_lift)):
                    part = 1.0 if measure == "dead" else share
                    self.loads[name][measure].spread((value_of(change) - lintel) * part, near, near + width)
                    self.loads[name][measure].spread(lintel * part, *ends)
        for beam in self.own.beams:
            for measure in ("dead", "lifted"):
                self.loads[text_of(beam.name)][measure].spread(value_of(beam.dead), 0.0, value_of(beam.length))
        for column in self.own.columns:
            for measure in ("dead", "lifted"):
                self.columns[text_of(column.name)][measure] += value_of(column.dead)

    # ------------------------------------------------------------------------------------------ slabs and things

    def _slab(self, panel: Panel) -> None:
        row, rows = self.panel_rows[panel.name], self.share_rows[panel.name]
        by_edge = {share.edge: share for share in self.shares[panel.name]}
        for order, (piece, share_row) in enumerate(zip(panel.pieces, rows, strict=True)):
            if not piece.carrier:
                continue
            for measure in MEASURES:
                intensity = value_of(getattr(row, measure))
                load = _depth_load(by_edge.get(order), intensity)
                load.spread(value_of(share_row.strip) * intensity, 0.0, value_of(share_row.length))
                self._give_line(piece.carrier, load, measure, self.points[panel.name][order],
                                self._next_point(panel, order))  # fmt: skip

    def _next_point(self, panel: Panel, order: int) -> Point:
        points = self.points[panel.name]
        return points[(order + 1) % len(points)]

    def _give_line(
        self, carrier: str, load: LineLoad, measure: str, start: Point, end: Point, factor: float = 1.0
    ) -> None:
        member = self.plan.members[carrier]
        origin = member.along(start)
        direction = 1.0 if member.along(end) >= origin else -1.0
        self.loads[carrier][measure].add_mapped(load, origin, direction, member.length, factor)

    def _attached(self, storey: int) -> None:
        for item, row in zip(self.survey.attached, self.own.attached, strict=True):
            on = text_of(row.on)
            if on in self.plan.members:
                member = self.plan.members[on]
                if member.storey == storey:
                    start = value_of(item.from_start.value) if item.from_start.given else 0.0
                    # What reaches past the end of its wall is a slip of the tape, and loads that end.
                    ends = min(start, member.length), min(start + value_of(row.length), member.length)
                    for measure in MEASURES:
                        self.loads[on][measure].spread(value_of(getattr(row, measure)), *ends)
            elif on in self.columns:
                if self.plan.columns[on][0] == storey:
                    for measure in MEASURES:
                        self.columns[on][measure] += value_of(getattr(row, measure))
            else:
                self._attached_on_slab(on, storey, row)

    def _attached_on_slab(self, on: str, storey: int, row: object) -> None:
        for panel in (p for p in self.slabs if p.storey == storey and p.name == on):
            shares = self.shares[panel.name]
            area = sum(share.area for share in shares)
            for share in shares:
                for measure in MEASURES:
                    load = _depth_load(share, value_of(getattr(row, measure)) / area)
                    start = self.points[panel.name][share.edge]
                    self._give_line(panel.pieces[share.edge].carrier, load, measure, start,
                                    self._next_point(panel, share.edge))  # fmt: skip

    # ------------------------------------------------------------------------------------------ beams and what stands

    def _beam(self, beam: Member) -> None:
        rests = [rest for rest in self.plan.rests if rest.beam == beam.name]
        loads = self.loads[beam.name]
        even = all(loads[measure].is_even(beam.length) for measure in MEASURES)
        if len(rests) == 1 and rests[0].whole:
            self.drawn.append(Drawn(rest=rests[0], even=True, dead=1.0, imposed=1.0, lifted=1.0))
            for measure in MEASURES:
                self._give_line(rests[0].support, loads[measure], measure, beam.start, beam.end)
            return
        places = [rest.at for rest in rests]
        drawn = {measure: loads[measure].shares_of(places) for measure in MEASURES}
        for order, rest in enumerate(rests):
            parts = {m: _part(drawn[m][order], loads[m].total) for m in MEASURES}
            self.drawn.append(Drawn(rest=rest, even=even, **parts))
            for measure in MEASURES:
                self._give_point(rest.support, beam.at(rest.at), measure, drawn[measure][order])

    def _give_point(self, lower: str, point: Point, measure: str, load: float) -> None:
        if lower in self.columns:
            self.columns[lower][measure] += load
        else:
            member = self.plan.members[lower]
            self.loads[lower][measure].point(min(max(member.along(point), 0.0), member.length), load)

    def _stand(self, stand: Stand) -> None:
        upper = self.plan.members.get(stand.upper)
        if upper is None:
            point = self.plan.columns[stand.upper][1]
            loads = {m: LineLoad(points=[(0.0, self.columns[stand.upper][m])]) for m in MEASURES}
            totals = self.columns[stand.upper]
            start = end = point
        else:
            loads = {m: self.loads[upper.name][m].part(stand.start, stand.end, upper.length) for m in MEASURES}
            totals = {m: self.loads[upper.name][m].total for m in MEASURES}
            start, end = upper.start, upper.end
        if stand.lower_kind == "slab":
            for lower, part in self._through_slab(stand, loads, start, end):
                self._note(stand, lower, stand.lower, {m: _part(part[m], totals[m]) for m in MEASURES}, full=False)
            return
        for measure in MEASURES:
            if upper is None or stand.lower in self.columns:
                self._give_point(stand.lower, start, measure, loads[measure].total)
            else:
                self._give_line(stand.lower, loads[measure], measure, start, end)
        self._note(stand, stand.lower, "", {m: _part(loads[m].total, totals[m]) for m in MEASURES}, full=stand.full)

    def _note(self, stand: Stand, lower: str, through: str, parts: dict[str, float], *, full: bool) -> None:
        if full:
            parts = dict.fromkeys(MEASURES, 1.0)
        self.passed.append(Passed(upper=Name(stand.upper), lower=Name(lower), through=through, full=full, **parts))

    def _through_slab(
        self, stand: Stand, loads: dict[str, LineLoad], start: Point, end: Point
    ) -> Iterable[tuple[str, dict[str, float]]]:
        """Lever rule from a wall or column that stands on a slab to the two carriers across the span."""
        panel = next(p for p in self.plan.panels if p.name == stand.lower)
        points, axis = self.points[panel.name], _span_axis(panel)
        length = math.dist(start, end)
        unit = ((end[0] - start[0]) / length, (end[1] - start[1]) / length) if length else (0.0, 0.0)

        def at(distance: float) -> Point:
            return start[0] + unit[0] * distance, start[1] + unit[1] * distance

        axis = _axis_with_two(panel, points, at((stand.start + stand.end) / 2), axis)
        across = length > 0 and abs(unit[axis]) <= 1e-6
        given: dict[str, dict[str, float]] = {}
        abreast = [(p[1 - axis] - start[1 - axis]) * unit[1 - axis] for p in points] if across else []
        for first, last in _stretches(stand, abreast):
            for measure in MEASURES:
                load = loads[measure].part(first, last, stand.end) if across else loads[measure]
                middle = (first + last) / 2
                if not across and load.total:  # along the span only the resultant's place counts
                    middle = load.moment / load.total
                place = at(middle)
                for order, factor, foot in _lever(panel, points, place, axis):
                    carrier = panel.pieces[order].carrier
                    given.setdefault(carrier, dict.fromkeys(MEASURES, 0.0))[measure] += load.total * factor
                    if across:
                        shift = (foot[0] - place[0], foot[1] - place[1])
                        moved = [(p[0] + shift[0], p[1] + shift[1]) for p in (start, end)]
                        self._give_line(carrier, load, measure, moved[0], moved[1], factor)
                    else:
                        self._give_point(carrier, foot, measure, load.total * factor)
        yield from given.items()


def _stretches(stand: Stand, abreast: Iterable[float]) -> list[tuple[float, float]]:
    """A stand cut abreast of each place where one carrier of the slab ends and the next begins."""
    stops = [stand.start, *sorted(at for at in abreast if stand.start < at < stand.end), stand.end]
    parts = [(a, b) for a, b in pairwise(stops) if b - a > 1e-9]
    return parts or [(stand.start, stand.end)]


def _part(share: float, whole: float) -> float:
    return share / whole if whole else 0.0


def _depth_load(share: EdgeShare | None, intensity: float) -> LineLoad:
    load = LineLoad()
    if share:
        for (a, first), (b, last) in pairwise(share.depths):
            load.ramp(a, b, first * intensity, last * intensity)
    return load


def _span_axis(panel: Panel) -> int:
    """0 where the panel spans along x, 1 along y: as stated, else the short way of its box."""
    if panel.span in ("along letters", "along numbers"):
        return 0 if panel.span == "along letters" else 1
    xs, ys = [p[0] for p in panel.outline], [p[1] for p in panel.outline]
    return 0 if max(xs) - min(xs) <= max(ys) - min(ys) else 1


def _axis_with_two(panel: Panel, points: Sequence[Point], place: Point, axis: int) -> int:
    """The axis of the span; the other one where only that has a carrier on either side of a place."""
    found = {way: len({foot for _, _, foot in _lever(panel, points, place, way)}) for way in (axis, 1 - axis)}
    return axis if found[axis] >= found[1 - axis] else 1 - axis


def _lever(panel: Panel, points: Sequence[Point], place: Point, axis: int) -> list[tuple[int, float, Point]]:
    """The carried pieces on either side of a place along an axis, the part each gets, and where it gets it.

    A place abreast of the joint of two pieces gives half to each: neither has a better claim.
    """
    sides: dict[int, tuple[float, list[int]]] = {}
    other = 1 - axis
    for order, piece in enumerate(panel.pieces):
        a, b = points[order], points[(order + 1) % len(points)]
        if not piece.carrier or abs(a[other] - b[other]) <= 1e-9:
            continue
        share = (place[other] - a[other]) / (b[other] - a[other])
        if -1e-9 <= share <= 1 + 1e-9:
            reach = a[axis] + share * (b[axis] - a[axis]) - place[axis]
            side = 1 if reach >= 0 else -1
            known, orders = sides.get(side, (math.inf * side, []))
            if abs(abs(reach) - abs(known)) <= 1e-9:
                orders.append(order)
            elif abs(reach) < abs(known):
                sides[side] = (reach, [order])
    if not sides:
        return [_nearest(panel, points, place)]
    if len(sides) == 1:
        parts = dict.fromkeys(sides, 1.0)
    else:
        span = sides[1][0] - sides[-1][0]
        parts = {1: -sides[-1][0] / span, -1: sides[1][0] / span}
    return [
        (order, parts[side] / len(orders), (place[0] + reach, place[1]) if axis == 0 else (place[0], place[1] + reach))
        for side, (reach, orders) in sides.items()
        for order in orders
    ]


def _nearest(panel: Panel, points: Sequence[Point], place: Point) -> tuple[int, float, Point]:
    """The carried piece nearest to a place that has none abreast along either axis."""
    feet: dict[int, Point] = {}
    for order, piece in enumerate(panel.pieces):
        (x1, y1), (x2, y2) = points[order], points[(order + 1) % len(points)]
        if piece.carrier:
            size = (x2 - x1) ** 2 + (y2 - y1) ** 2
            share = min(max(((place[0] - x1) * (x2 - x1) + (place[1] - y1) * (y2 - y1)) / size, 0.0), 1.0)
            feet[order] = (x1 + share * (x2 - x1), y1 + share * (y2 - y1))
    best = min(feet, key=lambda order: math.dist(feet[order], place))
    return best, 1.0, feet[best]
