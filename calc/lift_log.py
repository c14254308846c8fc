"""The log of a lift: what is read at each stage, whether it stops the work, and the stage looked at station by station.

Covers   one verdict for each thing read and for each stage as a whole; bend between neighbours and tilt at every stage;
         the full movement of the house at the stage that is looked at; the hold point until somebody has signed.
Not      where stations stand (log_stations), movement itself (movement), predicted load of a single jack.
Signs    risen is positive upward; x east, y north.
Units    m, kN, m/s; slopes and shares are ratios. A state is 0 within the limits set, 1 correct it, 2 STOP, 4 not
         measured.
Sources  limits are arguments; their usual figures are common practice, no source. What is blank is not measured, and
         what is not measured stops the lift: common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from calc.allowances import Allowances
from calc.checks import CORRECT, STOP, WITHIN
from calc.errors import require
from calc.fields import note, quantity
from calc.log_stations import LogStation, Pair
from calc.movement import NOT_MEASURED, Movement, MovementLimits, is_weak, movement_of
from calc.number import (
    Name,
    Number,
    Text,
    Truth,
    at_issue,
    ceil,
    counted,
    fixed,
    maximum,
    minimum,
    picked,
    ratio,
    same,
    sqrt,
    total,
    value_of,
    weighted_total,
    where,
    within,
    word_where,
)
from calc.survey import Entered, Survey, Wall
from calc.tilt import Spread, StationReading, slopes_of, spread_of

NOT_SIGNED = "not signed: STOP"
DRY, RAIN, WATER = "none", "rain", "water in the trench"
PEOPLE_OUT = "yes"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WallStop:
    """Bend that stops the lift in one ground wall, however far apart its jacks are."""

    name: Text = note("wall")
    masonry: Text = note("its masonry")
    mortar: Text = note("its mortar")
    weak: Number = quantity("No", "1 where it takes half only, else 0")
    difference: Number = quantity("m", "bend between neighbours that stops the lift")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LogLimits:
    """How far things may go at any stage."""

    walls: tuple[WallStop, ...]
    movement: MovementLimits
    share: Number = quantity("-", "bend that is corrected over the bend that stops the lift")
    difference_alarm: Number = quantity("m", "bend that is corrected, however far apart")
    load: Number = quantity("kN", "on all jacks together, that stops the lift")
    widening: Number = quantity("m", "of a crack since before the lift, that stops it")
    wind: Number = quantity("m/s", "that stops it")
    gap: Number = quantity("m", "between packing or lock nut and what it follows, that stops it")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StageTarget:
    """How high the house stands at one stage."""

    name: Name = note("stage")
    steps: Number = quantity("No", "full steps from the ground; 0 before the first")
    last: Number = quantity("No", "1 at the last stage, else 0")
    rise: Number = quantity("m", "rise, as entries are now")
    target: Number = quantity("m", "rise for which the log was made")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StageEntries:
    """What is entered at one stage."""

    name: Name = note("stage")
    day: Truth = note("whether the day is entered")
    hour: Text = note("hour")
    load: Entered = note("on all jacks, by their gauges, kN")
    widening: Entered = note("greatest of the crack gauges, m")
    lean: Entered = note("greatest of the plumb lines, out of plumb over height")
    wind: Entered = note("m/s")
    water: Text = note("none, rain or water in the trench")
    gap: Entered = note("greatest follow-up gap, m")
    people_out: Text = note("yes or no")
    signed: Text = note("who signed")
    risen: tuple[Entered, ...] = note("each station since before the lift, m")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StationPlace:
    """One station from the middle of all."""

    name: Name = note("station")
    x: Number = quantity("m", "east")
    y: Number = quantity("m", "north")
    east: Number = quantity("m", "east of the middle")
    north: Number = quantity("m", "north of the middle")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LogSite:
    """The stations together."""

    stations: Number = quantity("No", "stations")
    without: Number = quantity("No", "walls and columns without a station")
    stages: Number = quantity("No", "stages")
    x: Number = quantity("m", "middle, east")
    y: Number = quantity("m", "middle, north")
    sum_xx: Number = quantity("m2", "sum of squares east of the middle")
    sum_xy: Number = quantity("m2", "sum of products east and north")
    sum_yy: Number = quantity("m2", "sum of squares north of the middle")
    whole: Number = quantity("m2", "sum of squares both ways")
    both_ways: Number = quantity("m4", "what the two directions are told apart by")
    spread: Number = quantity("-", "1 where stations spread alike both ways, 0 where all stand in one line")
    known: Number = quantity("No", "1 where they do not stand in one line, else 0")
    last_read: Number = quantity("No", "last stage with a reading; 1 where there is none")
    looked_at: Number = quantity("No", "stage looked at")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StageRow:
    """One stage."""

    order: Number = quantity("No", "number of the stage")
    read: Number = quantity("No", "stations that were read")
    unread: Number = quantity("No", "stations that were not, and walls and columns without one")
    reached: Number = quantity("No", "last stage up to here with a reading, else 0")
    mean: Number = quantity("m", "mean rise of those that were read")
    sum_xr: Number = quantity("m2", "sum of products east and risen")
    sum_yr: Number = quantity("m2", "sum of products north and risen")
    slope_x: Number = quantity("-", "rise for each metre east")
    slope_y: Number = quantity("-", "rise for each metre north")
    tilt: Number = quantity("-", "steepest slope")
    share: Number = quantity("-", "greatest bend between neighbours over the bend that stops there")
    load: Number = quantity("No", "state of the load on the jacks")
    widening: Number = quantity("No", "state of the cracks")
    lean: Number = quantity("No", "state of the plumb lines")
    wind: Number = quantity("No", "state of the wind")
    water: Number = quantity("No", "state of rain and trench")
    gap: Number = quantity("No", "state of the follow-up gap")
    people_out: Number = quantity("No", "state of people")
    day: Number = quantity("No", "state of the day")
    hour: Number = quantity("No", "state of the hour")
    levels: Number = quantity("No", "state of the readings: are all there")
    tilted: Number = quantity("No", "state of the tilt of the whole")
    bent: Number = quantity("No", "state of the bend between neighbours")
    worst: Number = quantity("No", "worst of them")
    verdict: Text = note("verdict")
    unsigned: Number = quantity("No", "1 where nobody has signed")
    hold: Text = note("hold point: the verdict once somebody has signed for it")


STATES = ("day", "hour", "load", "widening", "lean", "wind", "water", "gap", "people_out", "levels", "tilted", "bent")
"""What the verdict of a stage rests on, in the order of the sheet."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StateRow:
    """One thing at the stage looked at."""

    what: str = note("as in STATES")
    state: Number = quantity("No", "0 within the limits set, 1 correct it, 2 STOP, 4 not measured")
    verdict: Text = note("in words")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LiftLog:
    """The whole log."""

    limits: LogLimits
    entries: tuple[StageEntries, ...]
    site: LogSite
    places: tuple[StationPlace, ...]
    stages: tuple[StageRow, ...]
    shares: tuple[tuple[Number, ...], ...] = note(
        "a row for each pair, a column for each stage: bend over stop, signed"
    )
    movement: Movement
    states: tuple[StateRow, ...]
    worst: Number = quantity("No", "worst state of the stage looked at")
    unsigned: Number = quantity("No", "1 where nobody has signed for it")
    signed: Text = note("whether somebody has, in words")
    verdict: Text = note("of the stage looked at")
    hold: Text = note("its hold point")


def log_limits(survey: Survey, predicted: Number, wind: Number, allowances: Allowances) -> LogLimits:
    """Limits of the log; the weakest masonry of the ground walls sets the bend of the whole house.

    Args:
        survey: the entries
        predicted: load on all jacks together [kN]
        wind: that stops the lift [m/s]
        allowances: limits of movement, load, cracks and gap
    """
    plain = allowances.movement_difference
    walls = tuple(_wall_stop(wall, plain) for wall in survey.walls if wall.storey == 1)
    movement = MovementLimits(
        alarm=allowances.movement_alarm, stop=allowances.movement_stop,
        difference=minimum(plain, *(wall.difference for wall in walls)),
        tilt_alarm=allowances.tilt_alarm, tilt_stop=allowances.tilt_stop,
    )  # fmt: skip
    share = movement.alarm / movement.stop
    return LogLimits(
        walls=walls, movement=movement, share=share, difference_alarm=movement.difference * share,
        load=predicted * allowances.load_stop_house, widening=allowances.crack_widening, wind=wind,
        gap=allowances.packing_gap,
    )  # fmt: skip


def _wall_stop(wall: Wall, plain: Number) -> WallStop:
    weak = where(is_weak(wall.masonry, wall.mortar), 1, 0)
    return WallStop(name=wall.name, masonry=wall.masonry, mortar=wall.mortar, weak=weak,
                    difference=where(weak > 0, plain / 2, plain))  # fmt: skip


def stage_targets(names: Sequence[str], rise: Number, allowances: Allowances) -> tuple[StageTarget, ...]:
    """Rise of every stage, fixed with the stages it was made for: preload, breakaway, then step by step.

    Args:
        names: of all stages
        rise: of the house [m]
        allowances: rise at breakaway, and of one step
    """
    preload, breakaway, *rest = names
    none = fixed(0.0, rise, rise)
    rows = [
        _target(preload, 0, 0, none, rise),
        _target(breakaway, 0, 0, minimum(allowances.breakaway, rise), rise),
    ]
    for order, name in enumerate(rest, start=1):
        steps, last = fixed(order, rise), fixed(order // len(rest), rise)
        now = where(last > 0, rise, minimum(steps * allowances.lift_stage, rise))
        rows.append(_target(name, steps, last, now, rise))
    return tuple(rows)


def _target(name: str, steps: Number, last: Number, now: Number, like: Number) -> StageTarget:
    return StageTarget(name=Name(name), steps=steps, last=last, rise=now,
                       target=at_issue(value_of(now), now, like=like))  # fmt: skip


def lift_log(
    stations: Sequence[LogStation],
    pairs: Sequence[Pair],
    stages: Sequence[StageEntries],
    asked: Entered,
    limits: LogLimits,
    without: int = 0,
) -> LiftLog:
    """Every verdict of the log.

    Args:
        stations: places at which the rise is read; two or more
        pairs: neighbours among them
        stages: what was entered, stage by stage
        asked: the stage to look at; the last one with a reading where not given
        limits: how far things may go
        without: walls and columns that have no station, and so are never measured [No]

    Raises:
        DomainError: fewer than two stations or no stage is given; a station compared with nothing would pass
    """
    require("number of stations", len(stations), "No", "be at least", 2)
    require("number of stages", len(stages), "No", "be at least", 1)
    like = limits.load
    total_stations, count = fixed(len(stations), like), fixed(len(stages), like)
    places, spread, middle = _places(stations, total_stations, limits)
    orders = [fixed(order, like) for order in range(1, len(stages) + 1)]
    reads = [counted([entry.given for entry in stage.risen]) for stage in stages]
    reached: list[Number] = [where(reads[0] > 0, orders[0], 0)]
    for read, order in zip(reads[1:], orders[1:], strict=True):
        reached.append(where(read > 0, order, reached[-1]))
    last_read = maximum(1, reached[-1])
    typed = minimum(maximum(ceil(asked.value), 1), count)
    site = LogSite(
        stations=total_stations, without=fixed(without, like), stages=count, x=middle[0], y=middle[1],
        sum_xx=spread.sum_xx, sum_xy=spread.sum_xy, sum_yy=spread.sum_yy, whole=spread.whole,
        both_ways=spread.both_ways, spread=spread.spread, known=spread.known, last_read=last_read,
        looked_at=where(asked.given, typed, last_read),
    )  # fmt: skip
    movement = _movement(places, pairs, stages, site.looked_at, limits.movement)
    shares, rows = _stage_rows(places, pairs, stages, movement, limits, site, spread, orders, reads, reached)
    states = tuple(_state_row(what, rows, site.looked_at) for what in STATES)
    worst = picked([row.worst for row in rows], site.looked_at)
    unsigned = picked([row.unsigned for row in rows], site.looked_at)
    verdict = words_of(worst)
    return LiftLog(
        limits=limits, entries=tuple(stages), site=site, places=places, stages=rows, shares=shares,
        movement=movement, states=states,
        worst=worst, unsigned=unsigned,
        signed=word_where(unsigned > 0, NOT_SIGNED, WITHIN), verdict=verdict, hold=_hold(verdict, worst, unsigned),
    )  # fmt: skip


def words_of(state: Number) -> Text:
    """A state in words.

    Args:
        state: 0, 1, 2 or 4 [No]

    >>> words_of(0), words_of(4)
    ('within the limits set', 'not measured: STOP')
    """
    stopped = word_where(state > 2, NOT_MEASURED, STOP)
    return word_where(state > 1, stopped, word_where(state > 0, CORRECT, WITHIN))


def state_of(entered: Entered, alarm: Number, stop: Number) -> Number:
    """State of something measured [No].

    Args:
        entered: as measured, in the unit of the limits
        alarm: what is to be corrected over this [-]
        stop: what stops the lift over this, in the same unit [-]

    >>> [state_of(Entered(value=v, given=True), 1.0, 2.0) for v in (1.0, 1.5, 2.5)]
    [0, 1, 2]
    """
    over = where(within(entered.value, stop), where(within(entered.value, alarm), 0, 1), 2)
    return where(entered.given, over, 4)


def _limit(entered: Entered, stop: Number) -> Number:
    """State of something that has one limit."""
    return where(entered.given, where(within(entered.value, stop), 0, 2), 4)


def _water(water: Text) -> Number:
    wet = where(same(water, DRY), 0, where(same(water, RAIN), 1, 2))
    return where(same(water, ""), 4, wet)


def _hold(verdict: Text, worst: Number, unsigned: Number) -> Text:
    signed = word_where(unsigned > 0, NOT_SIGNED, verdict)
    return word_where(worst > 1, verdict, signed)


def _places(
    stations: Sequence[LogStation], count: Number, limits: LogLimits
) -> tuple[tuple[StationPlace, ...], Spread, tuple[Number, Number]]:
    names = [Name(station.name) for station in stations]
    # Where stations stand is fixed with the plan, as an object each: a workbook gives it a cell.
    xs = [fixed(station.x, limits.load, limits.gap) for station in stations]
    ys = [fixed(station.y, limits.load, limits.gap) for station in stations]
    x, y = total(xs) / count, total(ys) / count
    places = tuple(StationPlace(name=n, x=a, y=b, east=a - x, north=b - y)
                   for n, a, b in zip(names, xs, ys, strict=True))  # fmt: skip
    easts, norths = [place.east for place in places], [place.north for place in places]
    spread = spread_of(weighted_total(easts, easts), weighted_total(easts, norths), weighted_total(norths, norths))
    return places, spread, (x, y)


def _movement(
    places: Sequence[StationPlace], pairs: Sequence[Pair], stages: Sequence[StageEntries], looked_at: Number,
    limits: MovementLimits,
) -> Movement:  # fmt: skip
    """Everything about the movement at the stage looked at."""
    readings = []
    for at, place in enumerate(places):
        entries = [stage.risen[at] for stage in stages]
        risen = Entered(value=picked([entry.value for entry in entries], looked_at),
                        given=picked([entry.given for entry in entries], looked_at))  # fmt: skip
        readings.append(StationReading(name=place.name, x=place.x, y=place.y, risen=risen))
    return movement_of(readings, [(places[a].name, places[b].name) for a, b in pairs], limits)


def _stage_rows(
    places: Sequence[StationPlace], pairs: Sequence[Pair], stages: Sequence[StageEntries], movement: Movement,
    limits: LogLimits, site: LogSite, spread: Spread, orders: Sequence[Number], reads: Sequence[Number],
    reached: Sequence[Number],
) -> tuple[tuple[tuple[Number, ...], ...], tuple[StageRow, ...]]:  # fmt: skip
    easts, norths = [place.east for place in places], [place.north for place in places]
    columns, rows = [], []
    for at, stage in enumerate(stages):
        risen = [entry.value for entry in stage.risen]
        sum_xr, sum_yr = weighted_total(easts, risen), weighted_total(norths, risen)
        slope_x, slope_y = slopes_of(spread, sum_xr, sum_yr)
        column = [
            (risen[a] - risen[b] - slope_x * pair.east - slope_y * pair.north) / pair.stop
            for (a, b), pair in zip(pairs, movement.pairs, strict=True)
        ]
        columns.append(column)
        rows.append(_stage_row(stage, column, limits, site, orders[at], reads[at], reached[at],
                               ratio(total(risen), reads[at], 0), (sum_xr, sum_yr, slope_x, slope_y)))  # fmt: skip
    return tuple(zip(*columns, strict=True)), tuple(rows)


def _stage_row(
    stage: StageEntries, column: Sequence[Number], limits: LogLimits, site: LogSite, order: Number, read: Number,
    reached: Number, mean: Number, plane: tuple[Number, Number, Number, Number],
) -> StageRow:  # fmt: skip
    sum_xr, sum_yr, slope_x, slope_y = plane
    tilt = sqrt(slope_x * slope_x + slope_y * slope_y)
    unread = site.stations + site.without - read
    share = maximum(maximum(*column), 0 - minimum(*column))
    moves, complete = limits.movement, unread <= 0
    known = where(complete, site.known, 0)
    states = {
        "day": where(stage.day, 0, 4), "hour": where(same(stage.hour, ""), 4, 0),
        "load": _limit(stage.load, limits.load), "widening": _limit(stage.widening, limits.widening),
        "lean": state_of(stage.lean, moves.tilt_alarm, moves.tilt_stop), "wind": _limit(stage.wind, limits.wind),
        "water": _water(stage.water), "gap": _limit(stage.gap, limits.gap),
        "people_out": where(same(stage.people_out, ""), 4, where(same(stage.people_out, PEOPLE_OUT), 0, 2)),
        "levels": where(complete, 0, 4),
        "tilted": state_of(Entered(value=tilt, given=known > 0), moves.tilt_alarm, moves.tilt_stop),
        "bent": state_of(Entered(value=share, given=complete), limits.share, 1),
    }  # fmt: skip
    worst, unsigned = maximum(*(states[what] for what in STATES)), where(same(stage.signed, ""), 1, 0)
    verdict = words_of(worst)
    return StageRow(
        order=order, read=read, unread=unread, reached=reached, mean=mean, sum_xr=sum_xr, sum_yr=sum_yr,
        slope_x=slope_x, slope_y=slope_y, tilt=tilt, share=share, worst=worst, verdict=verdict, unsigned=unsigned,
        hold=_hold(verdict, worst, unsigned), **states,
    )  # fmt: skip


def _state_row(what: str, rows: Sequence[StageRow], looked_at: Number) -> StateRow:
    state = picked([getattr(row, what) for row in rows], looked_at)
    return StateRow(what=what, state=state, verdict=words_of(state))
