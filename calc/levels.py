"""How far to raise: from road, flood, local rule and the floor as it is.

Covers   needed plinth, the rise, what governs, and whether a rise asked for falls short.
Not      whether house and ground can take it (ground, and the checks).
Signs    heights above the ground beside the house.
Units    m.
Sources  rules of the needed plinth are common practice, no source; the clearances are entries.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from calc.fields import note, quantity
from calc.number import Filed, Number, Text, both, either, maximum, minimum, ratio, same, total, where, word_where
from calc.survey import Entered, Job, Reading


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ReadingRow:
    """One level reading, with what it counts for."""

    what: Text = note("what was read")
    level: Number = quantity("m", "above the datum")
    plinth: Number = quantity("No", "1 for a floor or plinth top")
    floor_level: Number = quantity("m", "its level where it is one")
    ground: Number = quantity("No", "1 for ground")
    road: Number = quantity("No", "1 for road")
    flood: Number = quantity("No", "1 for a flood mark")
    lowest: Number = quantity("m", "lowest of all readings")
    road_level: Number = quantity("m", "its level where it is road, else the lowest reading")
    flood_level: Number = quantity("m", "its level where it is a flood mark, else the lowest reading")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Means:
    """Levels above the datum, and how many readings each rests on; 0 where there is none.

    Ground and floor are means. Of several roads or flood marks the highest counts.
    """

    lowest: Number = quantity("m", "lowest of all readings")
    grounds: Number = quantity("No", "readings of ground")
    ground: Number = quantity("m", "mean ground")
    floors: Number = quantity("No", "readings of floor or plinth top")
    floor: Number = quantity("m", "mean floor")
    roads: Number = quantity("No", "readings of road")
    road: Number = quantity("m", "highest road")
    floods: Number = quantity("No", "flood marks")
    flood: Number = quantity("m", "highest flood mark")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Levels:
    """The levels and the rise that follows."""

    means: Means
    plinth: Number = quantity("m", "floor above ground as it is")
    road: Number = quantity("m", "road above ground")
    flood: Number = quantity("m", "flood mark above ground")
    plinth_known: Number = quantity("No", "1 where the floor was levelled, else 0")
    road_known: Number = quantity("No", "1 where the road was levelled, else 0")
    flood_known: Number = quantity("No", "1 where a flood mark was levelled, else 0")
    by_road_counts: Number = quantity("No", "1 where the road is known and calls for the needed plinth")
    by_flood_counts: Number = quantity("No", "1 where the flood is known and calls for it")
    by_road: Number = quantity("m", "plinth the road calls for; 0 where it is not known")
    by_flood: Number = quantity("m", "plinth the flood calls for; 0 where it is not known")
    by_rule: Number = quantity("m", "plinth the local rule calls for")
    needed: Number = quantity("m", "plinth needed")
    least_rise: Number = quantity("m", "rise that reaches it")
    rise: Number = quantity("m", "rise worked with: what the owner asks for, else the least rise")
    raised: Number = quantity("m", "floor above ground after the raise")
    by_levels: Text = note("what governs the needed plinth: road, flood or local rule")
    governed_by: Text = note("road, flood, local rule or owner")


def reading_rows(readings: tuple[Reading, ...]) -> tuple[ReadingRow, ...]:
    """Each reading with what it counts for; flood marks are read on the same datum as the rest."""
    levels = [reading.level for reading in readings]
    lowest = minimum(*levels) if len(levels) > 1 else levels[0] if levels else 0.0
    rows = []
    for reading in readings:
        is_floor = where(either(same(reading.what, "floor"), same(reading.what, "plinth top")), 1, 0)
        is_road, is_flood = (where(same(reading.what, word), 1, 0) for word in ("road", "flood mark"))
        rows.append(ReadingRow(
            what=reading.what, level=reading.level, plinth=is_floor, floor_level=is_floor * reading.level,
            ground=where(same(reading.what, "ground"), 1, 0), road=is_road, flood=is_flood, lowest=lowest,
            road_level=where(is_road > 0, reading.level, lowest),
            flood_level=where(is_flood > 0, reading.level, lowest),
        ))  # fmt: skip
    return tuple(rows)


def plinth_by_road(road: Number, clearance: Number, build_up: Number) -> Number:
    """Plinth above ground that the road calls for [m].

    Args:
        road: crown of the road above ground, less than 0 where it lies lower [m]
        clearance: wanted of the floor over the road [m]
        build_up: expected future rise of the road [m]

    >>> round(plinth_by_road(0.5, 0.45, 0.15), 3)
    1.1
    """
    return road + clearance + build_up


def plinth_by_flood(flood: Number, freeboard: Number) -> Number:
    """Plinth above ground that the flood calls for [m].

    Args:
        flood: highest flood mark above ground [m]
        freeboard: wanted above it [m]

    >>> round(plinth_by_flood(0.9, 0.3), 3)
    1.2
    """
    return flood + freeboard


def plinth_needed(by_road: Number, by_flood: Number, by_rule: Number) -> Number:
    """Plinth above ground that is needed: the highest that is called for [m].

    Args:
        by_road: that the road calls for, 0 where it is not known [m]
        by_flood: that the flood calls for, 0 where it is not known [m]
        by_rule: that the local rule calls for [m]

    >>> plinth_needed(1.1, 1.2, 0.45)
    1.2
    """
    return maximum(by_road, by_flood, by_rule)


def least_rise(needed: Number, plinth: Number) -> Number:
    """Rise that reaches the needed plinth; none where the floor is high enough [m].

    Args:
        needed: plinth above ground that is needed [m]
        plinth: floor above ground as it is [m]

    >>> round(least_rise(1.2, 0.35), 3), least_rise(0.45, 0.6)
    (0.85, 0)
    """
    return maximum(needed - plinth, 0)


def levels_of(job: Job, rows: tuple[ReadingRow, ...]) -> Levels:
    """Needed plinth and rise.

    Args:
        job: the Job entries
        rows: the readings; used where Job leaves a level open
    """
    means = _means(rows)

    def above_ground(entered: Entered, mean: Number, count: Number) -> Number:
        measured = where(both(count > 0, means.grounds > 0), mean - means.ground, 0)
        return where(entered.given, entered.value, measured)

    def known(entered: Entered, count: Number) -> Number:
        return where(either(entered.given, both(count > 0, means.grounds > 0)), 1, 0)

    plinth, plinth_known = above_ground(job.plinth, means.floor, means.floors), known(job.plinth, means.floors)
    road, road_known = above_ground(job.road, means.road, means.roads), known(job.road, means.roads)
    flood, flood_known = above_ground(job.flood, means.flood, means.floods), known(job.flood, means.floods)
    by_road = where(road_known > 0, plinth_by_road(road, job.plinth_above_road, job.road_build_up), 0)
    by_flood = where(flood_known > 0, plinth_by_flood(flood, job.freeboard), 0)
    needed = plinth_needed(by_road, by_flood, job.least_plinth)
    least = least_rise(needed, plinth)
    rise = where(job.rise.given, job.rise.value, least)
    by_road_counts = where(both(road_known > 0, by_road >= needed), 1, 0)
    by_flood_counts = where(both(flood_known > 0, by_flood >= needed), 1, 0)
    by_levels = word_where(by_road_counts > 0, "road", word_where(by_flood_counts > 0, "flood", "local rule"))
    return Levels(
        means=means, plinth=plinth, road=road, flood=flood, road_known=road_known, flood_known=flood_known,
        plinth_known=plinth_known, by_road_counts=by_road_counts, by_flood_counts=by_flood_counts,
        by_road=by_road, by_flood=by_flood, by_rule=job.least_plinth, needed=needed,
        least_rise=least, rise=rise, raised=plinth + rise,
        by_levels=by_levels, governed_by=word_where(job.rise.given, "owner", by_levels),
    )  # fmt: skip


def _means(rows: tuple[ReadingRow, ...]) -> Means:
    filed = Filed([row.what for row in rows], [row.level for row in rows])
    counts = {kind: total([getattr(row, kind) for row in rows]) for kind in ("ground", "plinth", "road", "flood")}
    return Means(
        lowest=rows[0].lowest if rows else 0.0,
        grounds=counts["ground"], ground=ratio(filed.total("ground"), counts["ground"], 0),
        floors=counts["plinth"],
        floor=ratio(total([row.floor_level for row in rows]), counts["plinth"], 0),
        roads=counts["road"], road=_highest([row.road_level for row in rows], counts["road"]),
        floods=counts["flood"], flood=_highest([row.flood_level for row in rows], counts["flood"]),
    )  # fmt: skip


def _highest(levels: Sequence[Number], count: Number) -> Number:
    """The highest of levels in which every other reading stands as the lowest; 0 where there is none that counts."""
    if not levels:
        return 0.0
    return where(count > 0, maximum(*levels) if len(levels) > 1 else levels[0], 0)
