"""How far to raise: from road, flood, local rule and the floor as it is.

Covers   needed plinth, the rise, what governs, and whether a rise asked for falls short.
Not      whether house and ground can take it (ground, and the checks).
Signs    heights above the ground beside the house.
Units    m.
Sources  rules of the needed plinth are common practice, no source; the clearances are entries.
"""

from dataclasses import dataclass

from calc.fields import note, quantity
from calc.number import Filed, Number, Text, Truth, either, maximum, ratio, same, total, where, word_where
from calc.survey import Entered, Job, Reading


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ReadingRow:
    """One level reading, with what it counts for."""

    what: Text = note("what was read")
    level: Number = quantity("m", "above the datum")
    plinth: Number = quantity("No", "1 for a floor or plinth top")
    ground: Number = quantity("No", "1 for ground")
    road: Number = quantity("No", "1 for road")
    flood: Number = quantity("No", "1 for a flood mark")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Levels:
    """The levels and the rise that follows."""

    plinth: Number = quantity("m", "floor above ground as it is")
    road: Number = quantity("m", "road above ground")
    flood: Number = quantity("m", "flood mark above ground")
    road_known: Truth = note("whether the road was levelled")
    flood_known: Truth = note("whether a flood mark was levelled")
    plinth_known: Truth = note("whether the floor was levelled")
    by_road: Number = quantity("m", "plinth the road calls for; 0 where it is not known")
    by_flood: Number = quantity("m", "plinth the flood calls for; 0 where it is not known")
    by_rule: Number = quantity("m", "plinth the local rule calls for")
    needed: Number = quantity("m", "plinth needed")
    least_rise: Number = quantity("m", "rise that reaches it")
    rise: Number = quantity("m", "rise worked with: what the owner asks for, else the least rise")
    raised: Number = quantity("m", "floor above ground after the raise")
    governed_by: Text = note("road, flood, local rule or owner")


def reading_rows(readings: tuple[Reading, ...]) -> tuple[ReadingRow, ...]:
    """Each reading with what it counts for; flood marks are read on the same datum as the rest."""
    rows = []
    for reading in readings:
        floor = either(same(reading.what, "floor"), same(reading.what, "plinth top"))
        rows.append(ReadingRow(
            what=reading.what, level=reading.level, plinth=where(floor, 1, 0),
            ground=where(same(reading.what, "ground"), 1, 0), road=where(same(reading.what, "road"), 1, 0),
            flood=where(same(reading.what, "flood mark"), 1, 0),
        ))  # fmt: skip
    return tuple(rows)


def levels_of(job: Job, rows: tuple[ReadingRow, ...]) -> Levels:
    """Needed plinth and rise.

    Args:
        job: the Job entries
        rows: the readings; used where Job leaves a level open
    """
    whats = [row.what for row in rows]
    filed = Filed(whats, [row.level for row in rows])
    ground, grounds = filed.total("ground"), total([row.ground for row in rows])
    floor, floors = filed.total("floor") + filed.total("plinth top"), total([row.plinth for row in rows])
    roads, floods = total([row.road for row in rows]), total([row.flood for row in rows])

    def above_ground(entered: Entered, summed: Number, count: Number) -> tuple[Number, Truth]:
        height = ratio(summed, count, 0) - ratio(ground, grounds, 0)
        measured = where(count > 0, where(grounds > 0, 1, 0), 0)
        return where(entered.given, entered.value, where(measured > 0, height, 0)), either(entered.given, measured > 0)

    plinth, plinth_known = above_ground(job.plinth, floor, floors)
    road, road_known = above_ground(job.road, filed.total("road"), roads)
    flood, flood_known = above_ground(job.flood, filed.total("flood mark"), floods)
    by_road = where(road_known, road + job.plinth_above_road + job.road_build_up, 0)
    by_flood = where(flood_known, flood + job.freeboard, 0)
    needed = maximum(by_road, by_flood, job.least_plinth)
    least_rise = maximum(needed - plinth, 0)
    rise = where(job.rise.given, job.rise.value, least_rise)
    by_levels = word_where(by_road >= needed, "road", word_where(by_flood >= needed, "flood", "local rule"))
    return Levels(
        plinth=plinth, road=road, flood=flood, road_known=road_known, flood_known=flood_known,
        plinth_known=plinth_known, by_road=by_road, by_flood=by_flood, by_rule=job.least_plinth, needed=needed,
        least_rise=least_rise, rise=rise, raised=plinth + rise,
        governed_by=word_where(job.rise.given, "owner", by_levels),
    )  # fmt: skip
