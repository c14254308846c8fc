"""What upper walls and columns stand on, and what beams rest on.

Covers   bearings of upper members on walls, beams, columns and slabs; supports of beams, and the order in which beams
         carry one another.
Not      how much each gets (sharing).
Signs    x along letters, y along numbers; distances along a member from its From point.
Units    m.
Sources  conventions of this project.
"""

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import replace

from calc.number import Name, text_of
from calc.outlines import Point, contains
from calc.plan_rows import TOLERANCE, Member, Panel, Rest, Stand, Trouble, crossing_point
from calc.survey import Beam, GridPoint, Survey


def stands_of(
    survey: Survey,
    members: dict[str, Member],
    columns: dict[str, tuple[int, Point]],
    panels: Sequence[Panel],
    troubles: list[Trouble],
) -> Iterable[Stand]:
    """Every stretch of an upper wall and every upper column, with what it stands on."""
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
            crossing = None if side.length <= TOLERANCE or upper.parallel(a, b) else crossing_point(upper, side)
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


def rests_of(
    survey: Survey,
    members: dict[str, Member],
    columns: dict[str, tuple[int, Point]],
    low: set[str],
    troubles: list[Trouble],
) -> tuple[Rest, ...]:
    """The supports of every beam, in order along it."""
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
        crossing = crossing_point(beam, other)
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


def ranks_of(beams: Sequence[Beam], rests: Sequence[Rest], troubles: list[Trouble]) -> dict[str, int]:
    """The order in which beams carry one another: 0 for a beam that carries none of its storey."""
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
