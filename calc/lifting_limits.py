"""How far a house may move out of shape while it is lifted, and what its levelling instrument sees of that.

Covers   the difference between neighbours in the weakest lifted wall, the most rise of a call, the one table of
         movement and load, the error of the instrument against the stop.
Not      readings and verdicts on the day (movement), a house that is levelled (levelling).
Signs    differences, tilts and loads are positive.
Units    m, -, kN.
Sources  common practice, no source: 1/1000 and 1/500 between neighbours, 2 mm and half of it in weak masonry, 1.10
         of the house and 1.15 of a jack. Every one is an allowance.
"""

from collections.abc import Iterable, Sequence

from calc.allowances import Allowances
from calc.lifting_rows import Limits, MovementRow, WallLimit
from calc.movement import is_weak
from calc.number import Name, Number, Text, minimum, same, where, within, word_where
from calc.survey import Job, Wall

ROD = "rod and rule at every jack with optical level"


def stop_between(distance: Number, distortion: Number, difference: Number) -> Number:
    """Difference of two neighbours that stops the lift: by distortion, and never more than the fixed difference [m].

    Args:
        distance: of the two [m]
        distortion: that stops the lift [-]
        difference: that stops it, however far apart they are [m]

    Source:
        Common practice, no source.

    >>> stop_between(0.9, 0.002, 0.002), stop_between(1.2, 0.002, 0.002)
    (0.0018, 0.002)
    """
    return minimum(distance * distortion, difference)


def hidden_by(error: Number) -> Number:
    """Difference between neighbours that two readings can hide: both may be off, either way [m].

    Args:
        error: of one reading, either way [m]

    >>> hidden_by(0.001)
    0.002
    """
    return 2 * error


def limits_of(job: Job, walls: Sequence[Wall], stop_house: Number, stop_jack: Number, allow: Allowances) -> Limits:
    """Limits of movement of one house.

    Args:
        job: the Job entries
        walls: of every storey: an upper one bends with the wall it stands on
        stop_house: measured load of the house at which the lift stops [kN]
        stop_jack: measured load of the most loaded jack at which the lift stops [kN]
        allow: the allowances
    """
    rows = tuple(_wall(wall, allow.movement_difference) for wall in walls)
    # Without a wall the house stands on columns, and the difference of plain masonry holds.
    difference = minimum(allow.movement_difference, *(row.difference for row in rows))
    stop = stop_between(job.widest_spacing, allow.movement_stop, difference)
    alarm = stop * allow.movement_alarm / allow.movement_stop
    call, other = minimum(allow.call_rise, difference), other_error(job.instrument, allow)
    error = where(same(job.instrument, ROD), allow.rod_error, other)
    blind = hidden_by(error)
    sees = word_where(within(blind, stop), "it sees the stop", "STOP: it cannot see the stop; use a better one")
    table = tuple(_table(alarm, stop, call, stop_house, stop_jack, allow))
    return Limits(
        walls=rows, table=table, difference=difference, spacing=job.widest_spacing, stop=stop, alarm=alarm,
        closest=stop_between(job.closest_spacing, allow.movement_stop, difference), call=call, other=other, error=error,
        blind=blind, sees=sees,
    )  # fmt: skip


def other_error(instrument: Text, allow: Allowances) -> Number:
    """Error of one reading without a rod at every jack, either way; what nobody has named counts as a water tube [m].

    Args:
        instrument: as named on Job
        allow: the allowances

    Source:
        Common practice, no source.
    """
    return where(same(instrument, "optical level"), allow.level_error, allow.tube_error)


def _wall(wall: Wall, plain: Number) -> WallLimit:
    # A wall that stays, or is taken down, moves with nothing; the others bend.
    lifted = same(wall.at_lift, "lifted")
    weak = where(is_weak(wall.masonry, wall.mortar), 1, 0)
    return WallLimit(wall=wall.name, masonry=wall.masonry, mortar=wall.mortar, weak=weak,
                     difference=where(lifted, plain / (1 + weak), plain))  # fmt: skip


def _table(
    alarm: Number, stop: Number, call: Number, stop_house: Number, stop_jack: Number, allow: Allowances
) -> Iterable[MovementRow]:
    rows: Sequence[tuple[str, Number, Number, str, str]] = (
        ("Difference of neighbours at the widest spacing, tilt of the house taken off", alarm, stop, "m",
         "Bring the low one up, or let the high one down, before the next call"),
        ("The same over their distance, wherever they stand closer", allow.movement_alarm, allow.movement_stop, "-",
         "As above; the smaller of the two holds"),
        ("Tilt of the whole house", allow.tilt_alarm, allow.tilt_stop, "-", "Bring the low side up in small calls"),
        ("Rise of one call", call, call, "m", "Read every station after every call"),
        ("Gap over packing or nut", allow.packing_gap, allow.packing_gap, "m", "Close it before the next call"),
        ("Load of all jacks together", stop_house, stop_house, "kN", "Something holds it down: look for the tie"),
        ("Load of the most loaded jack; the others by their own line", stop_jack, stop_jack, "kN",
         "Lower it, look at packing, neighbours and level"),
        ("Wind in gusts", allow.stop_work_wind, allow.stop_work_wind, "m/s", "Packs tight, nuts down, people away"),
    )  # fmt: skip
    for what, first, second, unit, do in rows:
        yield MovementRow(what=Name(what), alarm=first, stop=second, unit=unit, do=do)
