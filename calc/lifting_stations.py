"""Jack stations of the lift: those of the jack plan, or where it has no layout a count spread evenly.

Covers   the plan's jacks as stations; without them places along each wall between its end jacks, beside each column
         along x; passes of a re-seating in which no neighbours are released, round corners too.
Not      where a plan puts its jacks (jack_plan); a count looks at no openings, junctions and shared corners.
Signs    x east, y north.
Units    m, kN.
Sources  none of its own; without a plan the mean load of a wall stands for each of its jacks.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations
from math import dist

from calc.allowances import Allowances
from calc.jack_plan_rows import JackPlan
from calc.jacks import JackRow
from calc.lifting_rows import JackStation
from calc.number import Filed, Name, Number, at_issue, fixed, value_of
from calc.own_rows import MemberRow
from calc.reseating import release_passes
from calc.survey import Job

Place = tuple[float, float]


def stations_of(plan: JackPlan | None, counted: Sequence[JackStation], job: Job) -> tuple[JackStation, ...]:
    """The jacks of the plan; under a wall or column without a layout those of the first answer.

    Args:
        plan: where every jack stands; none where none was made
        counted: a station for every jack of the first answer
        job: the Job entries
    """
    if plan is None:
        return tuple(counted)
    laid_out = {member.name for member in plan.members if member.states}
    length, force = job.widest_spacing, job.jack_rating
    planned = [
        JackStation(
            name=Name(jack.name), member=Name(jack.member),
            x=fixed(jack.x, length, length), y=fixed(jack.y, length, length),
            force=fixed(jack.soft, force, force), release=fixed(jack.release, length),
        )
        for jack in plan.jacks
    ]  # fmt: skip
    return (*planned, *(station for station in counted if str(station.member) not in laid_out))


def stations_by_count(
    jacks: Sequence[JackRow], members: Sequence[MemberRow], job: Job, allow: Allowances, every: Number
) -> tuple[JackStation, ...]:
    """A station for every jack of the first answer, with what each rests on, so that a later edit flags it.

    Args:
        jacks: the first answer for each wall and column
        members: where they are
        job: the Job entries
        allow: the allowances
        every: one jack of so many is released at a time [No]
    """
    where = {str(member.name): member for member in members}
    places = {str(row.name): _places(row, where[str(row.name)], job, allow) for row in jacks}
    passes = _passes(places, value_of(job.widest_spacing), int(value_of(every)))
    means = Filed([row.name for row in jacks], [row.mean for row in jacks])
    return tuple(
        station
        for row in jacks
        for station in _stations(row, where[str(row.name)], places[str(row.name)], passes, means, job, allow)
    )


def _places(row: JackRow, member: MemberRow, job: Job, allow: Allowances) -> list[Place]:
    """Where the jacks of one wall or column stand."""
    count = round(value_of(row.count))
    x, y, dx, dy, length = (value_of(getattr(member, key)) for key in ("x_start", "y_start", "dx", "dy", "length"))
    if row.kind != "wall":
        step = value_of(job.closest_spacing)
        return [(x + (order - (count - 1) / 2) * step, y) for order in range(count)]
    end = min(value_of(allow.end_distance), length / 2)
    step = (length - 2 * end) / (count - 1) if count > 1 else 0.0
    along = [end + order * step if count > 1 else length / 2 for order in range(count)]
    return [(x + dx * at / length, y + dy * at / length) for at in along]


def _passes(places: dict[str, list[Place]], near: float, every: int) -> dict[str, int]:
    """The pass of each jack; jacks of two members nearer than the widest spacing are neighbours."""
    lines = [[_mark(name, order) for order in range(len(found))] for name, found in places.items()]
    corners = [
        (_mark(one, a), _mark(other, b))
        for (one, here), (other, there) in combinations(places.items(), 2)
        for a, first in enumerate(here)
        for b, second in enumerate(there)
        if dist(first, second) <= near
    ]
    return release_passes(lines, corners, every)


def _mark(name: str, order: int) -> str:
    return f"{name}-{order + 1}"


def _stations(
    row: JackRow, member: MemberRow, places: Sequence[Place], passes: dict[str, int], means: Filed, job: Job,
    allow: Allowances,
) -> Iterator[JackStation]:  # fmt: skip
    inputs = (row.count, member.x_start, member.y_start, member.dx, member.dy, member.length, allow.end_distance,
              job.closest_spacing)  # fmt: skip
    for order, (x, y) in enumerate(places):
        name, under = _mark(str(row.name), order), Name(row.name)
        yield JackStation(
            name=Name(name), member=under, x=at_issue(x, *inputs, like=member.x_start),
            y=at_issue(y, *inputs, like=member.y_start), force=means.at(under),
            release=fixed(passes[name], row.count),
        )  # fmt: skip
