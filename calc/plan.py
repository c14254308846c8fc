"""The plan: who meets, carries and stands on whom, fixed when the workbook is issued.

Covers   meetings of walls, sides of slabs and who carries them, what upper walls and columns stand on, supports of
         beams, footings. Worked out on floats from names and the order of grid lines.
Not      any weight (loads, profiles) and any live number: the plan is an argument of the formulas.
Signs    x along letters, y along numbers; distances along a member from its From point.
Units    m.
Sources  conventions of this project: centre lines; a tee deducts half the through wall, a crossing one square in all.
"""

import math
from collections.abc import Iterable, Sequence

from calc.nearby import Nearby
from calc.number import Name, text_of, value_of
from calc.outlines import Point
from calc.plan_bearings import ranks_of, rests_of, stands_of
from calc.plan_rows import TOLERANCE, Meeting, Member, Plan, Trouble, crossing_point
from calc.plan_slabs import panels_of
from calc.survey import Beam, GridPoint, Survey, Wall


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
    panels = panels_of(survey, members, xs, ys, troubles)
    rests = rests_of(survey, members, columns, low, troubles)
    return Plan(
        storeys=tuple(sorted({wall.storey for wall in survey.walls} | {c.storey for c in survey.columns})),
        members=members,
        columns=columns,
        meetings=tuple(_meetings([m for m in members.values() if m.kind == "wall"])),
        panels=panels,
        stands=tuple(stands_of(survey, high, columns, panels, troubles)),
        rests=rests,
        beam_ranks=ranks_of(survey.beams, rests, troubles),
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
    crossing = crossing_point(wall, other)
    if crossing is None:
        return ""
    inside = TOLERANCE < wall.along(crossing) < wall.length - TOLERANCE
    return "crossing" if inside and TOLERANCE < other.along(crossing) < other.length - TOLERANCE else ""
