"""What is looked at and signed while a house is lifted, in words: holds of the preload, hold points, ties to cut.

Covers   the words; the counts that stand beside them come from the lift.
Not      the record of the day itself: readings, gauges, who signed.
Signs    none.
Units    none.
Sources  common practice, no source.
"""

from collections.abc import Iterator, Sequence

from calc.lifting_rows import HoldPoint, Tie
from calc.number import Name, Number, fixed
from calc.strokes import StrokePlan

PRELOAD = (
    ("First hold", "Bases, packing and plates bear evenly; nothing sinks; oil tight; levels and cracks read"),
    ("Second hold", "Beams tight under the masonry; measured against predicted load of each jack; levels read again"),
    ("Third hold", "House carried and still on its seat: ties all cut and signed, people out, wind below the limit"),
)
"""The holds of the preload and what is looked at in each, before the load goes further."""

FIRST_LIFT = (
    "Even gap along every cut; no tie holds; levels at every station; new cracks; loads against prediction",
    "Engineer or foreman, in writing",
)
EACH_STROKE = (
    "Packs or nuts tight at every jack before one is released; none beside another released; load taken up again",
    "Foreman",
)
EACH_STAGE = (
    "Gap closed by masonry, packs tight, gap over packing within its limit, levels, plumb and cracks read, "
    "people out of the zone",
    "Foreman and owner's man; the stage above is not lifted before",
)
FULL_RISE = (
    "House level and plumb, packs tight, lock nuts down, bracing fixed; wind and rain of the coming days",
    "Engineer, before anyone works under the house on the new masonry",
)
TRANSFER = (
    "Masonry of age, pinned up; jacks let down in three passes or more, none beside another, 24 hours and levels "
    "between them",
    "Engineer, before anybody enters",
)

TIES = (
    ("Floor edges", "sawn free all round each room that stays behind"),
    ("Stairs and steps", "cut from the house, propped or taken down"),
    ("Water, waste and gas pipes", "shut off, cut, and capped on both sides"),
    ("Power, telephone and earth cables", "disconnected by the one who owns them; slack for the whole rise"),
    ("Hold-down rods, bars and bands", "looked for at every corner and column, and cut"),
    ("Plinth plaster and apron", "cut through all round at the cut level"),
    ("Gate, fence, compound wall, canopy", "freed from the house"),
    ("Walls of neighbours and joints", "a clear joint from the ground to the roof, seen from both sides"),
    ("Trees, vines, rain water pipes", "cut back or taken off"),
)
"""What may hold a house down, and how it is freed. One tie that holds cracks the wall it is built into."""


def ties() -> tuple[Tie, ...]:
    """The ties to cut before breakaway, each with room to sign on paper."""
    return tuple(Tie(what=what, how=how, signed="............") for what, how in TIES)


def hold_points(plan: StrokePlan, breakaway: Number, stroke: Number, stage: Number) -> tuple[HoldPoint, ...]:
    """Where work stops until somebody has looked and signed.

    Args:
        plan: strokes and stages of the lift
        breakaway: first movement [m]
        stroke: lift of one stroke that counts [m]
        stage: rise that is built up before the next is lifted [m]
    """
    one = fixed(1, plan.cycles, plan.cycles)
    rows: Sequence[tuple[str, Number, Number, tuple[str, str]]] = (
        ("Breakaway", breakaway, one, FIRST_LIFT),
        ("End of each stroke", stroke, plan.cycles, EACH_STROKE),
        ("End of each stage of masonry", stage, plan.stages, EACH_STAGE),
        ("Full rise", plan.rise, one, FULL_RISE),
        ("Load back on masonry", plan.rise, one, TRANSFER),
    )
    return tuple(_holds(rows))


def _holds(rows: Sequence[tuple[str, Number, Number, tuple[str, str]]]) -> Iterator[HoldPoint]:
    for point, every, times, (look, leave) in rows:
        yield HoldPoint(point=Name(point), every=every, times=times, look=look, leave=leave)
