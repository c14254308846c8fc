"""A house that has settled unevenly: how it stands now, and how each station is lifted until it is level.

Covers   stations from the level readings at grid points, neighbours along grid lines with walls, tilt of the whole
         and distortion between neighbours as the house stands, target plane, lift of every station, strokes, checks.
Not      how planes and strokes are found (tilt, levelling), cracks, loads of jacks while one corner is worked.
Signs    levels and lifts positive upward; x east, y north.
Units    m; slopes, tilts and distortions are ratios.
Sources  statics and geometry: a tilt of the whole does not crack a wall, distortion does. Limits, call, step, slope
         that may stay and the spread that counts as level are allowances: common practice, no source.

Both planes and the strokes are worked out at issue; every lift, bend and verdict follows from them live. Readings of
one course count: floor or plinth top, whichever was read at more grid points, for the two differ by the floor's finish.
"""

from collections.abc import Iterable, Sequence

from calc.allowances import Allowances
from calc.checks import CORRECT, PRACTICE, WITHIN, CheckRow, check
from calc.levelling import SettledStation, Stroke, StrokeRules, TargetPlane
from calc.levels import Levels
from calc.movement import is_weak
from calc.number import (
    Filed,
    Name,
    Number,
    at_issue,
    fixed,
    maximum,
    minimum,
    ratio,
    rounded,
    sqrt,
    text_of,
    total,
    value_of,
    where,
    within,
    word_where,
)
from calc.settlement_rows import (
    HouseNow,
    Planes,
    Settlement,
    StationLevel,
    StationLift,
    StationPair,
    StrokeCounts,
    WallDifference,
)
from calc.stations import course_of, neighbours_of, planes_of, station_readings, strokes_of
from calc.survey import GridPoint, Survey
from calc.tilt import Plane

TO_ENGINEER = f"{CORRECT}: engineer first"
"""Over the stop: the engineer looks at cracks and strokes before the first of them."""

SETTLED_WORDS, LEVEL_WORDS = "settled: level it before the common rise", "level within the spread allowed"
NOT_KNOWN_WORDS = "not known: read three stations or more that are not in one line"


# ------------------------------------------------------------------------------------------ the whole


def settlement_of(survey: Survey, levels: Levels, allow: Allowances) -> Settlement:
    """How the house stands, and how it is levelled.

    Args:
        survey: readings, grid and walls
        levels: for the rise
        allow: the allowances
    """
    read = _stations(survey)
    settled = [_settled(station) for station in read]
    solved = planes_of(settled, value_of(allow.slope_left))
    if solved is None:
        return Settlement(stations=read, lifts=(), pairs=(), walls=(), planes=(), house=(), counts=(), strokes=(),
                          why_not="", checks=(), known=0)  # fmt: skip
    planes = _planes(read, *solved, allow)
    lifts = tuple(_lifted(station, planes) for station in read)
    pairs = tuple(
        _pairs(lifts, neighbours_of([GridPoint(str(s.letter), str(s.number)) for s in read], survey), planes, allow)
    )
    walls = tuple(_differences(survey, allow))
    house = _house(course_of(survey.readings), lifts, pairs, walls, planes, levels, allow)
    counts, strokes, why_not = _strokes(settled, lifts, pairs, solved[1], house, allow)
    return Settlement(
        stations=read, lifts=lifts, pairs=pairs, walls=walls, planes=(planes,), house=(house,), counts=counts,
        strokes=strokes, why_not=why_not, checks=tuple(_checks(house, counts, allow)), known=1,
    )  # fmt: skip


def _differences(survey: Survey, allow: Allowances) -> Iterable[WallDifference]:
    for wall in survey.walls:
        if wall.storey == 1:
            weak = where(is_weak(wall.masonry, wall.mortar), 1, 0)
            yield WallDifference(name=Name(text_of(wall.name)), masonry=wall.masonry, mortar=wall.mortar, weak=weak,
                                 difference=allow.movement_difference / (1 + weak))  # fmt: skip


def _stations(survey: Survey) -> tuple[StationLevel, ...]:
    xs, ys = (Filed([line.name for line in lines], [line.offset for line in lines])
              for lines in (survey.letters, survey.numbers))  # fmt: skip
    found = []
    for reading in station_readings(survey.readings):
        point = reading.point
        assert point is not None, "a station is at a grid point"
        letter, number = Name(point.letter), Name(point.number)
        found.append(StationLevel(name=Name(str(point)), letter=letter, number=number, x=xs.at(letter),
                                  y=ys.at(number), level=reading.level))  # fmt: skip
    return tuple(found)


def _settled(station: StationLevel) -> SettledStation:
    return SettledStation(name=str(station.name), x=value_of(station.x), y=value_of(station.y),
                          level=value_of(station.level))  # fmt: skip


def _planes(read: Sequence[StationLevel], fitted: Plane, target: TargetPlane, allow: Allowances) -> Planes:
    places = [*(s.level for s in read), *(s.x for s in read), *(s.y for s in read)]
    like = allow.slope_left
    return Planes(
        now_x=at_issue(value_of(fitted.slope_x), *places, like=like),
        now_y=at_issue(value_of(fitted.slope_y), *places, like=like),
        height=at_issue(target.height, *places, allow.slope_left, like=read[0].level),
        slope_x=at_issue(target.slope_x, *places, allow.slope_left, like=like),
        slope_y=at_issue(target.slope_y, *places, allow.slope_left, like=like),
    )


def _lifted(station: StationLevel, planes: Planes) -> StationLift:
    target = planes.height + planes.slope_x * station.x + planes.slope_y * station.y
    return StationLift(
        name=station.name, letter=station.letter, number=station.number, x=station.x, y=station.y, level=station.level,
        target=target, lift=target - station.level,
    )  # fmt: skip


def _pairs(
    stations: Sequence[StationLift], neighbours: Iterable[tuple[GridPoint, GridPoint, str]], planes: Planes,
    allow: Allowances,
) -> Iterable[StationPair]:  # fmt: skip
    names = [station.name for station in stations]
    xs, ys = Filed(names, [s.x for s in stations]), Filed(names, [s.y for s in stations])
    levels = Filed(names, [s.level for s in stations])
    for first, second, line in neighbours:
        one, other = Name(str(first)), Name(str(second))
        east, north = xs.at(one) - xs.at(other), ys.at(one) - ys.at(other)
        difference = levels.at(one) - levels.at(other)
        distance = sqrt(east * east + north * north)
        off = difference - planes.now_x * east - planes.now_y * north
        bend = maximum(off, 0 - off)
        distortion = bend / distance
        alarm, stop = distance * allow.movement_alarm, distance * allow.movement_stop
        over = word_where(within(bend, stop), CORRECT, TO_ENGINEER)
        yield StationPair(
            one=one, other=other, line=line, east=east, north=north, distance=distance, difference=difference,
            off=off, bend=bend, alarm=alarm, stop=stop, distortion=distortion, one_in=_one_in(distortion),
            verdict=word_where(within(bend, alarm), WITHIN, over),
        )  # fmt: skip


def _one_in(slope: Number) -> Number:
    """1 over a slope; 0 where there is none."""
    return ratio(1, rounded(slope, 9), 0)


def _house(
    course: str, stations: Sequence[StationLift], pairs: Sequence[StationPair], walls: Sequence[WallDifference],
    planes: Planes, levels: Levels, allow: Allowances,
) -> HouseNow:  # fmt: skip
    count = fixed(len(stations), levels.rise)
    heights, lifts = [s.level for s in stations], [s.lift for s in stations]
    spread = maximum(*heights) - minimum(*heights)
    settled = where(within(spread, allow.level_spread), 0, 1)
    tilt = sqrt(planes.now_x * planes.now_x + planes.now_y * planes.now_y)
    lifted = total(lifts)
    mean = lifted / count
    difference = minimum(allow.movement_difference, *(wall.difference for wall in walls))
    tilt_over = where(within(tilt, allow.tilt_stop), 0, 1)
    over = word_where(tilt_over > 0, TO_ENGINEER, CORRECT)
    return HouseNow(
        course=course, stations=count, spread=spread, settled=settled,
        state=word_where(settled > 0, SETTLED_WORDS, LEVEL_WORDS), tilt=tilt, tilt_in=_one_in(tilt),
        tilt_alarm=allow.tilt_alarm, tilt_stop=allow.tilt_stop, tilt_over=tilt_over,
        tilt_verdict=word_where(within(tilt, allow.tilt_alarm), WITHIN, over),
        distortion=maximum(0, *(pair.distortion for pair in pairs)), total=lifted, mean=mean,
        greatest=maximum(*lifts), tilt_left=sqrt(planes.slope_x * planes.slope_x + planes.slope_y * planes.slope_y),
        # The rise is that of the mean floor: what levelling raises it by is not raised again.
        rise=where(settled > 0, maximum(levels.rise - mean, 0), levels.rise), difference=difference,
        call=minimum(allow.call_rise, difference),
    )  # fmt: skip


# ------------------------------------------------------------------------------------------ strokes and checks


def _strokes(
    settled: Sequence[SettledStation], lifts: Sequence[StationLift], pairs: Sequence[StationPair], target: TargetPlane,
    house: HouseNow, allow: Allowances,
) -> tuple[tuple[StrokeCounts, ...], tuple[Stroke, ...], str]:  # fmt: skip
    """The strokes in short and in order; none, and why, where no strokes keep neighbours together."""
    if value_of(house.settled) == 0:
        return (), (), ""
    rules = StrokeRules(call=value_of(house.call), step=value_of(minimum(allow.level_step, house.call)),
                        stop_difference=value_of(house.difference))  # fmt: skip
    neighbours = [(str(pair.one), str(pair.other)) for pair in pairs]
    work = strokes_of(settled, target, neighbours, rules, value_of(house.rise), value_of(allow.level_most))
    if isinstance(work, str):
        return (), (), work
    inputs = (*(row.lift for row in lifts), house.call, allow.level_step, house.difference, house.rise)

    def found(value: float, like: Number = 1.0) -> Number:
        return at_issue(value, *inputs, like=like)

    counts = StrokeCounts(
        calls=found(work.calls), strokes=found(len(work.strokes)), longest=found(work.longest, house.call),
        excess=found(work.excess, house.call), rise_calls=found(work.rise_calls),
        rise_stroke=found(work.rise_stroke, house.call),
    )  # fmt: skip
    return (counts,), work.strokes, ""


def _checks(house: HouseNow, counts: Sequence[StrokeCounts], allow: Allowances) -> Iterable[CheckRow]:
    """What levelling mends is to be corrected; only strokes that bend the house are a stop."""
    for name, demand, capacity, state in (
        ("Tilt of the house, alarm", house.tilt, allow.tilt_alarm, "as it stands"),
        ("Tilt of the house, stop", house.tilt, allow.tilt_stop, "as it stands"),
        ("Distortion between neighbours, alarm", house.distortion, allow.movement_alarm, "as it stands"),
        ("Distortion between neighbours, stop", house.distortion, allow.movement_stop, "as it stands"),
        ("Tilt that stays", house.tilt_left, allow.tilt_alarm, "levelled"),
    ):
        yield check(name=name, state=state, where_="house", demand=demand, capacity=capacity, unit="-", fails=CORRECT,
                    source=PRACTICE)  # fmt: skip
    for row in counts:
        yield check(name="Neighbours apart on the way, stroke by stroke", state="levelling", where_="house",
                    demand=row.excess, capacity=house.difference, unit="m", source=PRACTICE)  # fmt: skip
    if len(counts) == 0:
        # Of a house that is settled, strokes that nobody has found are strokes that do not hold.
        yield check(name="Strokes found that keep neighbours together", state="levelling", where_="house",
                    demand=house.settled, capacity=fixed(0.0, house.settled), unit="No", source=PRACTICE)  # fmt: skip
