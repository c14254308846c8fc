"""On which side of its jack each mark stands on the Plan sheet, so that it lies over no other as far as can be.

Covers   a choice among four sides for each jack, at issue; names of walls and columns, marks placed before, jacks.
Not      how anything looks (plan_sheet). A chart has no leader: in a crowd one mark may still touch another; the
         drawing of the jack plan is made so that none does.
Units    shares of the picture's side, as calc.plan_view.
"""

from collections.abc import Sequence

from calc.number import text_of, value_of
from calc.plan_view import PlanJack, PlanMark

Box = tuple[float, float, float, float]

SIDES = {"b": (0.0, -1.0), "t": (0.0, 1.0), "l": (-1.0, 0.0), "r": (1.0, 0.0), "ctr": (0.0, 0.0)}
"""Sides as the file names them, and where they lie."""

_DRAWN = ("column", "centre")
"""Marks that have a symbol beside their name."""

_FIRST = {"wall across": "btrl", "wall up": "lrtb", "column": "tblr"}
"""Sides in the order in which they are liked: away from the name of the wall or column first."""


def sides_of(
    jacks: Sequence[PlanJack], marks: Sequence[PlanMark], beside: dict[str, str], point: float,
    sizes: tuple[float, float],
) -> list[str]:  # fmt: skip
    """The side of each jack's mark, in their order.

    Args:
        jacks: on the picture
        marks: names that stand already
        beside: side of each kind of these
        point: a point of print as a share of the picture's side [-]
        sizes: of the text of a jack and of a name [pt]
    """
    taken = [_box(text_of(mark.name), _place(mark), beside[mark.kind], sizes[1] * point) for mark in marks]
    drawn = [*map(_place, jacks), *(_place(mark) for mark in marks if mark.kind in _DRAWN)]
    spots = [(x - 4 * point, y - 4 * point, x + 4 * point, y + 4 * point) for x, y in drawn]
    found = []
    for jack in jacks:
        boxes = [(side, _box(jack.name, _place(jack), side, sizes[0] * point)) for side in _FIRST[jack.kind]]
        side, box = min(boxes, key=lambda each: sum(_shared(each[1], other) for other in (*taken, *spots)))
        taken.append(box)
        found.append(side)
    return found


def _place(mark: PlanMark | PlanJack) -> tuple[float, float]:
    return value_of(mark.across), value_of(mark.up)


def _box(text: str, place: tuple[float, float], side: str, size: float) -> Box:
    """What a text takes up; letters are about three fifths as wide as the font is high."""
    half = (0.3 * size * len(text), 0.6 * size)
    off = 0.8 * size
    x, y = (at + way * (off + reach) for at, way, reach in zip(place, SIDES[side], half, strict=True))
    return x - half[0], y - half[1], x + half[0], y + half[1]


def _shared(one: Box, other: Box) -> float:
    """Area that two boxes share."""
    wide = min(one[2], other[2]) - max(one[0], other[0])
    high = min(one[3], other[3]) - max(one[1], other[1])
    return wide * high if wide > 0 and high > 0 else 0.0
