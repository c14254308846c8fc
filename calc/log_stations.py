"""Stations and stages of the lift log, and which stations are neighbours: along walls, round corners, between columns.

Covers   a station for each jack; the rises that are read; chains along walls, links where walls meet, links of columns
         that nothing stands between, and the shortest links that join what would be left apart.
Not      where jacks are best placed (jack_plan).
Signs    x east, y north; along a wall from its From point, across it to the left positive.
Units    m.
Sources  none of its own: distortion is looked for along walls and round corners, common practice, no source.
"""

import heapq
import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from calc.fields import note, quantity
from calc.jack_plan_rows import JackPlan
from calc.nearby import Nearby
from calc.number import ceil, value_of
from calc.plan_rows import TOLERANCE, Member, Plan

Pair = tuple[int, int]
"""Places of two neighbours in the list of stations, the lesser first."""

_CLOSEST = 8
"""Columns looked at round each column: no more than six can have nothing between."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LogStation:
    """One place at which the rise is read: a jack of the plan."""

    name: str = note("mark of the jack")
    member: str = note("wall or column it lifts")
    kind: str = note("wall or column")
    across: float = quantity("m", "off the centre line of the wall; 0 under it")
    x: float = quantity("m", "east")
    y: float = quantity("m", "north")


def log_stations(jacks: JackPlan) -> tuple[LogStation, ...]:
    """A station at every jack of the plan.

    Args:
        jacks: the plan
    """
    return tuple(LogStation(name=jack.name, member=jack.member, kind=jack.kind, across=jack.across, x=jack.x, y=jack.y)
                 for jack in jacks.jacks)  # fmt: skip


def without_stations(jacks: JackPlan) -> tuple[str, ...]:
    """Walls and columns that are lifted and have no jacks in the plan: nobody can read their rise.

    Args:
        jacks: the plan
    """
    return tuple(member.name for member in jacks.members if member.load > 0 and not member.jacks)


def stage_rises(rise: float, step: float) -> tuple[float, ...]:
    """Rises at which the lift is read and signed for after breakaway [m]; the last is the whole rise.

    Args:
        rise: of the house [m]
        step: from one stage to the next [m]

    >>> stage_rises(0.25, 0.1)
    (0.1, 0.2, 0.25)
    """
    count = max(1, round(value_of(ceil(rise / step))))
    return (*(order * step for order in range(1, count)), rise)


def station_pairs(stations: Sequence[LogStation], plan: Plan) -> tuple[Pair, ...]:
    """Stations that are compared with each other; each has a neighbour, and all hang together.

    Args:
        stations: in any order
        plan: walls and columns that they lift
    """
    lines = _lines(stations, plan)
    found = set(_along(lines)) | set(_where_walls_meet(stations, plan, lines)) | set(_columns(stations))
    # Two jacks at one place have no distortion: each is compared with others.
    return tuple(sorted(_joined(stations, {pair for pair in found if _distance(stations, *pair) < math.inf})))


def _pair(one: int, other: int) -> Pair:
    return (min(one, other), max(one, other))


def _distance(stations: Sequence[LogStation], one: int, other: int) -> float:
    """How far two stations are apart; no neighbours at all where they stand at one place."""
    apart = math.dist((stations[one].x, stations[one].y), (stations[other].x, stations[other].y))
    return apart if apart > TOLERANCE else math.inf


def at_one_place(stations: Sequence[LogStation], pairs: Sequence[Pair]) -> bool:
    """Whether neighbours stand at one place, because no others are there.

    Args:
        stations: in the order of the pairs
        pairs: neighbours among them
    """
    return any(_distance(stations, *pair) == math.inf for pair in pairs)


def _lines(stations: Sequence[LogStation], plan: Plan) -> dict[str, list[list[int]]]:
    """Member -> the stations of each of its jack lines, in order; a jack at a corner serves both its walls."""
    everywhere = Nearby((((s.x, s.y), (s.x, s.y)), at) for at, s in enumerate(stations))
    own: dict[str, list[int]] = defaultdict(list)
    for at, station in enumerate(stations):
        own[station.member].append(at)
    lines = {}
    for name, mine in own.items():
        member = plan.members.get(name)
        if member is None:
            lines[name] = [mine]
            continue
        groups: dict[float, list[int]] = defaultdict(list)
        for at in mine:
            groups[round(stations[at].across, 3)].append(at)
        if 0.0 in groups:
            near = everywhere.near((member.start, member.end), member.half + TOLERANCE)
            groups[0.0] += [at for at in near if at not in mine and _stands_on(stations[at], member)]
        lines[name] = [sorted(group, key=lambda at, m=member: m.along((stations[at].x, stations[at].y)))  # type: ignore[misc]
                       for group in groups.values()]  # fmt: skip
    return lines


def _stands_on(station: LogStation, member: Member) -> bool:
    """Whether a station of another wall stands under this one too: at a corner or a junction."""
    place, reach = (station.x, station.y), member.half + TOLERANCE
    return member.off(place) <= TOLERANCE and -reach <= member.along(place) <= member.length + reach


def _along(lines: dict[str, list[list[int]]]) -> Iterable[Pair]:
    for groups in lines.values():
        for line in groups:
            yield from (_pair(a, b) for a, b in pairwise(line))
        # Two lines beside a wall: each jack and the one across from it.
        for one, other in pairwise(groups):
            yield from (_pair(a, b) for a, b in zip(one, other, strict=False))


def _where_walls_meet(stations: Sequence[LogStation], plan: Plan, lines: dict[str, list[list[int]]]) -> Iterable[Pair]:
    """The stations on either side of each place where two walls meet."""
    walls = [plan.members[name] for name in lines if name in plan.members]
    filed = Nearby(((wall.start, wall.end), wall) for wall in walls)
    for wall in walls:
        for other in filed.near((wall.start, wall.end), wall.half + TOLERANCE):
            place = _meeting(wall, other) if wall.name < other.name else None
            if place is None:
                continue
            here, there = (_beside(stations, lines[w.name], w, place) for w in (wall, other))
            for a in here:
                yield from (_pair(a, b) for b in there[:1] if b != a)
            yield from (_pair(here[0], b) for b in there if b != here[0])


def _meeting(wall: Member, other: Member) -> tuple[float, float] | None:
    if wall.parallel(other.start, other.end):
        ends = [(a, b) for a in (wall.start, wall.end) for b in (other.start, other.end)]
        near = min(ends, key=lambda pair: math.dist(*pair))
        return near[0] if math.dist(*near) <= max(wall.half, other.half) + TOLERANCE else None
    at = wall.crossing(other)
    return None if at is None else wall.at(min(max(at, 0.0), wall.length))


def _beside(
    stations: Sequence[LogStation], groups: Sequence[list[int]], wall: Member, place: tuple[float, float]
) -> list[int]:
    """The last station before a place and the first after it on each line of a wall, the nearest first."""
    found, along = [], wall.along(place)
    for line in groups:
        before = [at for at in line if wall.along((stations[at].x, stations[at].y)) <= along]
        after = [at for at in line if wall.along((stations[at].x, stations[at].y)) > along]
        found += [*before[-1:], *after[:1]]
    return sorted(found, key=lambda at: math.dist((stations[at].x, stations[at].y), place))


def _columns(stations: Sequence[LogStation]) -> Iterable[Pair]:
    """Columns with no third one nearer to both than they are to each other, by their nearest stations."""
    own: dict[str, list[int]] = defaultdict(list)
    for at, station in enumerate(stations):
        if station.kind == "column":
            own[station.member].append(at)
    middle = {name: (sum(stations[a].x for a in mine) / len(mine), sum(stations[a].y for a in mine) / len(mine))
              for name, mine in own.items()}  # fmt: skip
    for name, place in middle.items():
        others = heapq.nsmallest(_CLOSEST, (o for o in middle if o != name), key=lambda o: math.dist(place, middle[o]))
        for other in others:
            apart = math.dist(place, middle[other]) - TOLERANCE
            if not any(max(math.dist(place, middle[c]), math.dist(middle[other], middle[c])) < apart for c in others
                       if c != other):  # fmt: skip
                ends = ((a, b) for a in own[name] for b in own[other])
                yield _pair(*min(ends, key=lambda pair: _distance(stations, *pair)))


def _joined(stations: Sequence[LogStation], pairs: set[Pair]) -> set[Pair]:
    """The pairs, and the shortest further ones until every station can be reached from every other."""
    group = list(range(len(stations)))
    members = {at: [at] for at in group}

    def unite(one: int, other: int) -> None:
        small, large = sorted((group[one], group[other]), key=lambda at: len(members[at]))
        if small != large:
            for at in members[small]:
                group[at] = large
            members[large] += members.pop(small)

    for pair in pairs:
        unite(*pair)
    while len(members) > 1:
        alone = min(members.values(), key=len)
        others = [at for at in range(len(stations)) if group[at] != group[alone[0]]]
        link = min(((a, b) for a in alone for b in others), key=lambda pair: _distance(stations, *pair))
        pairs = pairs | {_pair(*link)}
        unite(*link)
    return pairs
