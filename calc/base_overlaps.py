"""Jack bases of different jack lines that run into one another: they are poured as one base.

Covers   bases of walls that meet, of two jack lines of one wall, of one column; their area and mean pressure together.
Not      neighbours along one jack line (base_strips), edge pressure where the load is off the middle, strength of the
         concrete between them.
Signs    load and pressure positive downward.
Units    m, m2, kN, kN/m2.
Sources  geometry; statics of a rigid base under a central load.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from calc.fields import quantity
from calc.jack_plan_rows import MergedBase, PlannedJack
from calc.outlines import Point, polygons_overlap_area

_LEAST = 1e-6
"""Less of an overlap than this is two edges that touch [m2]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BaseOnGround:
    """One base, alone or a strip."""

    jacks: tuple[PlannedJack, ...]
    outline: tuple[Point, ...]
    area: float = quantity("m2", "on the ground")


def merged_bases(
    jacks: Sequence[PlannedJack], directions: Mapping[str, Point], uneven: float
) -> tuple[MergedBase, ...]:
    """Bases that overlap another of a different jack line, grouped.

    Args:
        jacks: of the house, with their bases
        directions: of each wall, a unit vector; columns stand square to the axes
        uneven: greatest load of a jack in uneven lifting over its even load [-]
    """
    bases = bases_on_ground(jacks, directions)
    groups, overlaps = list(range(len(bases))), [0.0] * len(bases)
    for one, other in combinations(range(len(bases)), 2):
        shared = _overlap(bases[one], bases[other])
        if shared > _LEAST:
            low, high = sorted((groups[one], groups[other]))
            groups = [low if group == high else group for group in groups]
            overlaps[one] += shared
    found = []
    for group in dict.fromkeys(groups):
        its = [order for order, mine in enumerate(groups) if mine == group]
        if len(its) > 1:
            found.append(_merged([bases[order] for order in its], sum(overlaps[order] for order in its), uneven))
    return tuple(found)


def bases_on_ground(jacks: Sequence[PlannedJack], directions: Mapping[str, Point]) -> tuple[BaseOnGround, ...]:
    """The bases of a plan, each a rectangle along its wall.

    Args:
        jacks: of the house
        directions: of each wall, a unit vector
    """
    groups: dict[tuple[str, str], list[PlannedJack]] = {}
    for jack in jacks:
        # The words of a strip name its first and last jack, so they tell it from every other.
        groups.setdefault((jack.member, jack.name if jack.base == "own base" else jack.base), []).append(jack)
    return tuple(_on_ground(its, directions.get(member, (1.0, 0.0))) for (member, _), its in groups.items())


def _on_ground(jacks: Sequence[PlannedJack], along: Point) -> BaseOnGround:
    first, last = jacks[0], jacks[-1]
    x, y = (first.x + last.x) / 2, (first.y + last.y) / 2
    length, width = first.base_length, first.base_side
    corners = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    return BaseOnGround(
        jacks=tuple(jacks), area=length * width,
        outline=tuple((x + along[0] * u * length / 2 - along[1] * v * width / 2,
                       y + along[1] * u * length / 2 + along[0] * v * width / 2) for u, v in corners),
    )  # fmt: skip


def _overlap(one: BaseOnGround, other: BaseOnGround) -> float:
    """Area both claim [m2]; bases far apart are not compared corner by corner."""
    for axis in (0, 1):
        here, there = [point[axis] for point in one.outline], [point[axis] for point in other.outline]
        if max(here) <= min(there) or max(there) <= min(here):
            return 0.0
    return polygons_overlap_area(one.outline, other.outline)


def _merged(bases: Sequence[BaseOnGround], overlap: float, uneven: float) -> MergedBase:
    """Where three bases overlap, ground counted off twice leaves the pressure a little high."""
    jacks = [jack for base in bases for jack in base.jacks]
    level = sum(max(jack.soft, jack.stiff) for jack in jacks)
    gain = max(jack.one_lost - max(jack.soft, jack.stiff) for jack in jacks)
    area = sum(base.area for base in bases) - overlap
    return MergedBase(
        jacks=tuple(jack.name for jack in jacks), overlap=overlap, area=area, level=level,
        pressure=level * uneven / area, passing=(level + max(gain, 0.0)) / area,
    )  # fmt: skip
