"""The walls of the ground storey as lines on which jacks are placed.

Covers   load along each wall that is lifted, doors, walls that meet it, how near to a meeting its jacks may stand, the
         lifting system in use, the side on which a second jack line lies.
Not      the placing itself (placing), the strength of anything.
Signs    along a wall from its From point; x east, y north; load positive downward.
Units    m, kN, kN/m, kN/m2.
Sources  common practice, no source.

Where two walls meet, each keeps its jacks so far from the meeting that two of them, one on each wall, stand no nearer
to each other than the closest spacing: half that spacing over the sine of half the angle between them. So a wall's
jacks do not depend on the jacks of any other wall, and stay where they are when something elsewhere changes.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from calc.allowances import Allowances
from calc.beam_loads import BeamLoad, from_line_load
from calc.fields import note, quantity
from calc.line_loads import LineLoad
from calc.movement import WEAK_MASONRY, WEAK_MORTAR
from calc.number import text_of, value_of
from calc.outlines import Point
from calc.own_rows import OpeningRow, OwnLoads
from calc.plan_rows import TOLERANCE, Member, Plan
from calc.sharing import Sharing
from calc.survey import Beam, Survey, Wall
from calc.take_down_rows import BaseRow

THREADED, TWIN, PLINTH_BEAM, COLLAR = (
    "beam through wall", "twin beams and needles", "under plinth beam", "collar or clamp"
)  # fmt: skip
"""Lifting systems."""

Ends = tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GroundLine:
    """One wall of the ground storey that is lifted."""

    name: str = note("mark")
    member: Member = note("where it runs")
    system: str = note("lifting system the plan is made for")
    chosen: bool = note("whether the survey chose it")
    thickness: float = quantity("m", "of the wall")
    height: float = quantity("m", "floor to soffit")
    weak: bool = note("rubble, or mud, lime or unknown mortar")
    even: BeamLoad = note("in the lift, blocked windows bearing evenly")
    jambs: BeamLoad | None = note("the same with nothing borne by what blocks the windows; none without such windows")
    doors: tuple[tuple[float, float], ...] = note("gaps left open, from and to [m]")
    meetings: tuple[float, ...] = note("centres of walls that meet it between its ends [m]")
    clear: float = quantity("m", "no jack nearer to these")
    ends: Ends = note("nearest and furthest place of the end jack from either end [m]")
    held: int = note("ends that meet another lifted wall")

    @property
    def direction(self) -> Point:
        """From the From point to the To point, of length 1."""
        (x1, y1), (x2, y2) = self.member.start, self.member.end
        return (x2 - x1) / self.member.length, (y2 - y1) / self.member.length

    def at(self, distance: float, across: float) -> Point:
        """A place along the wall and to its left, on plan [m]."""
        (x, y), (east, north) = self.member.at(distance), self.direction
        return x - across * north, y + across * east


def ground_lines(
    survey: Survey, plan: Plan, sharing: Sharing, own: OwnLoads, bases: Sequence[BaseRow], allow: Allowances
) -> tuple[GroundLine, ...]:
    """Every wall of the ground storey that is lifted, in the order of the survey.

    Args:
        survey: the entries as floats
        plan: who carries whom
        sharing: load along each member
        own: own loads as floats
        bases: ground walls and columns at the cut level
        allow: the allowances
    """
    lifted = {text_of(base.name): base for base in bases if base.kind == "wall" and value_of(base.lifted) > 0}
    walls = {text_of(wall.name): wall for wall in survey.walls if text_of(wall.name) in lifted}
    members = {name: plan.members[name] for name in walls}
    closest = value_of(survey.job.closest_spacing)
    openings: dict[str, list[OpeningRow]] = {name.casefold(): [] for name in walls}
    for row in own.openings:
        openings.get(text_of(row.wall).casefold(), []).append(row)
    return tuple(
        _line(wall, members, lifted[name], sharing.profiles[name]["lifted"], openings[name.casefold()], closest, allow)
        for name, wall in walls.items()
    )


def _line(
    wall: Wall, members: Mapping[str, Member], base: BaseRow, load: LineLoad, openings: Sequence[OpeningRow],
    closest: float, allow: Allowances,
) -> GroundLine:  # fmt: skip
    name = text_of(wall.name)
    member = members[name]
    length = member.length
    band = LineLoad()
    band.spread(value_of(base.cut_band) * value_of(base.goes_up), 0.0, length)
    blocked = [_gap(row, length) for row in openings if value_of(row.blocked) > 0]
    jambs = load
    for start, end in blocked:
        jambs = jambs.bridged(start, end)
    met = list(_meetings(member, [other for other in members.values() if other is not member], closest))
    if text_of(wall.system) == TWIN:
        # Its jacks stand beside the wall, where those of the other one may come right up to them.
        met = [(place, max(clear, closest)) for place, clear in met]
    between = [(place, clear) for place, clear in met if TOLERANCE < place < length - TOLERANCE]
    known = text_of(wall.system) in (THREADED, TWIN, PLINTH_BEAM)
    system = text_of(wall.system) if known else THREADED
    return GroundLine(
        name=name, member=member, system=system, chosen=known,
        thickness=value_of(wall.thickness), height=value_of(wall.height),
        weak=text_of(wall.masonry) in WEAK_MASONRY or text_of(wall.mortar) in WEAK_MORTAR,
        even=_added(load, band, length), jambs=_added(jambs, band, length) if blocked else None,
        # Jacks beside the wall may stand in front of a door; its jambs are held by needles.
        doors=() if system == TWIN else tuple(sorted(_gap(row, length) for row in openings if _is_door(row))),
        meetings=tuple(sorted(place for place, _ in between)), clear=max((clear for _, clear in between), default=0.0),
        ends=_ends(met, length, allow), held=sum(any(abs(place - end) <= TOLERANCE for place, _ in met)
                                                 for end in (0.0, length)),
    )  # fmt: skip


def _gap(row: OpeningRow, length: float) -> tuple[float, float]:
    start = value_of(row.from_start)
    return max(start, 0.0), min(start + value_of(row.width), length)


def _is_door(row: OpeningRow) -> bool:
    return text_of(row.kind) == "door" and value_of(row.blocked) <= 0


def _added(load: LineLoad, band: LineLoad, length: float) -> BeamLoad:
    return from_line_load(LineLoad([*load.ramps, *band.ramps], [*load.points, *band.points]), length)


def _ends(met: Iterable[tuple[float, float]], length: float, allow: Allowances) -> Ends:
    """Where a wall meets another at its end the jack keeps clear of that one's jacks; else it goes near the end."""
    usual, beyond = value_of(allow.end_distance), value_of(allow.reach_beyond)
    clear = [max((c for place, c in met if abs(place - end) <= TOLERANCE), default=0.0) for end in (0.0, length)]
    left, right = (max(value_of(allow.end_near), c) for c in clear)
    return (left, max(usual, left + beyond)), (right, max(usual, right + beyond))


def _meetings(member: Member, others: Sequence[Member], closest: float) -> Iterable[tuple[float, float]]:
    """Where other walls meet this one along it, and how far its jacks keep from there [m]."""
    for other in others:
        place, there = member.crossing(other), other.crossing(member)
        if place is None or there is None:
            yield from _going_on(member, other, closest)
            continue
        # A wall that stops at this one's face, or passes its end by half its thickness, meets it at the end.
        ended, other_ended = _at_end(place, member, other), _at_end(there, other, member)
        yield _snapped(place, member, other), clear_of_meeting(closest, _angle(member, ended, other, other_ended))


def _going_on(member: Member, other: Member, closest: float) -> Iterable[tuple[float, float]]:
    """A wall that goes on in the same line."""
    for end, place in ((member.start, 0.0), (member.end, member.length)):
        if any(math.dist(end, far) <= TOLERANCE for far in (other.start, other.end)) and member.parallel(
            other.start, other.end
        ):
            yield place, clear_of_meeting(closest, math.pi)


def _at_end(place: float, member: Member, other: Member) -> int:
    """-1 at the From end, 1 at the To end, 0 between."""
    reach = other.half + TOLERANCE
    return -1 if place <= reach else 1 if place >= member.length - reach else 0


def _snapped(place: float, member: Member, other: Member) -> float:
    return {-1: 0.0, 0: place, 1: member.length}[_at_end(place, member, other)]


def _angle(member: Member, ended: int, other: Member, other_ended: int) -> float:
    """Angle between the two walls as they leave the meeting; the sharper one where either goes through."""
    ways = [
        (end * (m.start[0] - m.end[0]), end * (m.start[1] - m.end[1]))
        for m, end in ((member, ended or 1), (other, other_ended or 1))
    ]
    (ax, ay), (bx, by) = ways
    cosine = (ax * bx + ay * by) / (math.hypot(ax, ay) * math.hypot(bx, by))
    if not (ended and other_ended):
        cosine = abs(cosine)
    return math.acos(min(max(cosine, -1.0), 1.0))


def clear_of_meeting(closest: float, angle: float) -> float:
    """How far the jacks of two walls keep from where they meet, to stand the closest spacing apart [m].

    Args:
        closest: closest spacing of two jacks [m]
        angle: between the walls, at most half a turn [rad]

    >>> round(clear_of_meeting(0.5, math.pi / 2), 3), round(clear_of_meeting(0.5, math.pi), 3)
    (0.354, 0.25)
    """
    return closest / 2 / math.sin(angle / 2)


def plinth_beam_along(survey: Survey, plan: Plan, wall: str) -> Beam | None:
    """The plinth beam along a wall; none where none was surveyed.

    Args:
        survey: the entries
        plan: who carries whom
        wall: its mark
    """
    line = plan.members[wall]
    for beam in survey.beams:
        member = plan.members.get(text_of(beam.name))
        if beam.plinth_beam != "yes" or member is None or not line.parallel(member.start, member.end):
            continue
        if all(line.off(end) <= line.half + TOLERANCE for end in (member.start, member.end)):
            return beam
    return None
