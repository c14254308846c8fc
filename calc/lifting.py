"""The lift of a whole house: preload, strokes, oil, days, limits of movement, wind, stability, and the checks of all.

Covers   one lift of the whole house by jacks alike, from its jack stations, its rise and what it weighs.
Not      where jacks stand (an argument), a settled house that is levelled (levelling), readings on the day (movement),
         crushing and sway of packing and cribs (packing, cribs), jack bases, masonry that takes the load back.
Signs    rise and loads positive; x east, y north.
Units    m, m2, m3, kN, kN/m2, m/s, day.
Sources  statics; steps of the preload, load stops, outputs: common practice, no source. All are allowances.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from calc.allowances import Allowances
from calc.checks import PRACTICE, STOP, CheckRow, check, stops_of
from calc.fields import quantity
from calc.levels import Levels
from calc.lifting_limits import limits_of
from calc.lifting_push import directions_of
from calc.lifting_rows import Direction, HighLift, JackStation, Lifting, Limits, PreloadRow, StationLoad
from calc.lifting_words import PRELOAD, hold_points, ties
from calc.member_rules import PackingRules
from calc.number import (
    Name,
    Number,
    ceil,
    either,
    fixed,
    maximum,
    minimum,
    ratio,
    same,
    where,
    within,
    word_where,
)
from calc.own_rows import OwnLoads
from calc.stability import stability_checks
from calc.strokes import Outputs, StrokeHabits, StrokePlan, lift_time, oil_plan, preload_steps, stroke_plan
from calc.survey import Job, Survey
from calc.take_down_rows import HouseTotals
from calc.wind import Wind, wind_of
from calc.wind_faces import faces_of

WIND_SOURCE = "IS 875 (Part 3), IS 456 cl. 20, BS 5975: from memory, see Allowances"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ToLift:
    """What the lift is worked out from, beside the survey."""

    levels: Levels
    house: HouseTotals
    own: OwnLoads
    stations: tuple[JackStation, ...]
    usable: Number = quantity("kN", "usable load of one jack")
    masonry: Number = quantity("m3", "follow-up masonry, band included")


def lifting_of(survey: Survey, given: ToLift, allow: Allowances, packing: PackingRules) -> Lifting:
    """The lift of a whole house.

    Args:
        survey: the entries
        given: rise, weight, geometry and jack stations
        allow: the allowances
        packing: rules of packing, strokes and cribs
    """
    job, rise, stations = survey.job, given.levels.rise, given.stations
    jacks, predicted = fixed(len(stations), rise), given.house.lifted
    none = fixed(0, predicted, predicted)
    mean, most = ratio(predicted, jacks, 0), maximum(*(station.force for station in stations), none)
    stop_house, stop_jack = predicted * allow.load_stop_house, most * allow.load_stop_jack
    limits = limits_of(job, survey.walls, stop_house, stop_jack, allow)
    habits, outputs = stroke_habits(job, limits.call, allow, packing), outputs_of(allow)
    plan = stroke_plan(rise, jacks, habits)
    oil = oil_plan(plan, jacks, allow.jack_piston, allow.pump_flow, habits)
    faces = faces_of(survey.rooms, given.own, job, allow)
    wind = wind_of(job, faces.top + given.levels.raised, allow)
    high = high_lift(job, rise, allow, packing)
    directions = directions_of(given.house, stations, faces, wind, high.high, given.usable, allow, packing.sway_share)
    breakaway = minimum(allow.breakaway, rise)
    checks = (
        *_moves(job, limits, plan, packing), *_loads(job, stations, jacks, stop_jack),
        *_pushed(directions, wind, given.usable), *_high(high),
    )  # fmt: skip
    stops = stops_of(checks)
    return Lifting(
        stations=stations, loads=_station_loads(stations, allow), preload=_preload(predicted, mean, allow),
        habits=habits, plan=plan, oil=oil, outputs=outputs, time=lift_time(plan, oil, jacks, given.masonry, outputs),
        limits=limits, faces=faces, wind=wind, directions=directions, high=high,
        holds=hold_points(plan, breakaway, plan.net, allow.masonry_stage), ties=ties(), checks=checks, jacks=jacks,
        predicted=predicted, mean=mean, most=most, stop_house=stop_house, stop_jack=stop_jack, breakaway=breakaway,
        breakaway_calls=ceil(breakaway / habits.call),
        passes=maximum(*(station.release for station in stations), fixed(0, jacks)), masonry=given.masonry,
        working=minimum(allow.stop_work_wind, *(row.working for row in directions)), stops=stops,
        verdict=word_where(stops > 0, STOP, wind.passes),
    )  # fmt: skip


def stroke_habits(job: Job, call: Number, allow: Allowances, packing: PackingRules) -> StrokeHabits:
    """How the lift is carried out, from the stroke on Job and the allowances.

    Args:
        job: the Job entries
        call: most rise in one call [m]
        allow: the allowances
        packing: rules of packing and strokes
    """
    return StrokeHabits(
        stroke=job.stroke, clearance=packing.stroke_reserve, seating=packing.seating, course=allow.packing_course,
        gap=allow.packing_gap, masonry_stage=allow.masonry_stage, release_every=packing.reseat_interval, call=call,
        oil_in_hand=allow.oil_in_hand,
    )  # fmt: skip


def outputs_of(allow: Allowances) -> Outputs:
    """What gangs get done, from the allowances."""
    return Outputs(
        stations=allow.stations_a_day, reseatings=allow.reseatings_a_day, calls=allow.calls_a_day,
        masonry=allow.masonry_a_day, gangs=allow.jack_gangs, masons=allow.masons, hold=allow.stage_hold,
    )  # fmt: skip


def high_lift(job: Job, rise: Number, allow: Allowances, packing: PackingRules) -> HighLift:
    """What a high lift, or a storey or basement below, asks for.

    Args:
        job: the Job entries
        rise: of the house [m]
        allow: the allowances
        packing: rules of cribs

    Source:
        Common practice, no source.
    """
    high = where(within(rise, allow.rise_unbraced), 0, 1)
    below = where(either(same(job.reason, "new storey below"), same(job.reason, "basement below")), 1, 0)
    designed = maximum(where(within(rise, allow.rise_undesigned), 0, 1), below)
    return HighLift(
        high=high, below=below, designed=designed, height=rise / allow.crib_width,
        height_most=where(high > 0, packing.crib_braced, packing.crib_free),
        bracing=word_where(high > 0, "called for by the rise: towers braced, feet tied",
                           "not called for by the rise; see the push"),
        temporary_works=word_where(designed > 0, "TO BE DESIGNED BY AN ENGINEER",
                                   "not called for by rise or reason"),
    )  # fmt: skip


def _station_loads(stations: Sequence[JackStation], allow: Allowances) -> tuple[StationLoad, ...]:
    return tuple(
        StationLoad(
            name=station.name, member=station.member, x=station.x, y=station.y,
            first=station.force * allow.preload_first, second=station.force * allow.preload_second,
            force=station.force, stop=station.force * allow.load_stop_jack, release=station.release,
        )
        for station in stations
    )  # fmt: skip


def _preload(predicted: Number, mean: Number, allow: Allowances) -> tuple[PreloadRow, ...]:
    shares = (allow.preload_first, allow.preload_second, fixed(1, mean))
    steps = preload_steps(mean, allow.jack_piston, shares)
    return tuple(
        PreloadRow(hold=Name(hold), share=step.share, house=predicted * step.share, jack=step.load,
                   pressure=step.pressure, look=look)
        for (hold, look), step in zip(PRELOAD, steps, strict=True)
    )  # fmt: skip


def _moves(job: Job, limits: Limits, plan: StrokePlan, packing: PackingRules) -> Iterable[CheckRow]:
    for name, state, demand, capacity in (
        ("One call moves no more than the stop difference", "on all jacks, each call", plan.call, limits.difference),
        ("Levelling instrument sees the stop between neighbours", "on all jacks, each call", limits.blind, limits.stop),
        ("Stroke leaves a call after reserve and seating", "on all jacks, each stroke",
         packing.stroke_reserve + packing.seating + limits.call, job.stroke),
    ):  # fmt: skip
        yield check(name=name, state=state, where_="house", demand=demand, capacity=capacity, unit="m",
                    source=PRACTICE)  # fmt: skip


def _loads(job: Job, stations: Sequence[JackStation], jacks: Number, stop: Number) -> Iterable[CheckRow]:
    # Three points out of one line hold a body; a group in one line is found by the overturning.
    yield check(name="Jacks that can hold a house", state="on all jacks", where_="house",
                demand=fixed(3, jacks), capacity=jacks, unit="No", source="statics")  # fmt: skip
    if stations:
        yield check(name="Load at which a jack stops the lift, within its rating", state="on all jacks",
                    where_="house", demand=stop, capacity=job.jack_rating, unit="kN",
                    source="rating on Job")  # fmt: skip


def _pushed(directions: Sequence[Direction], wind: Wind, usable: Number) -> Iterable[CheckRow]:
    for row in directions:
        yield from stability_checks(row.stability, usable, WIND_SOURCE, wind.passes)
        yield check(name=f"Guides and braces take the push, {row.direction}", state="on all jacks, pushed",
                    where_="house", demand=row.bracing, capacity=row.designed, unit="kN", source=WIND_SOURCE,
                    passes=wind.passes)  # fmt: skip


def _high(high: HighLift) -> Iterable[CheckRow]:
    yield check(name="Height of packing over its width", state="on all jacks, full rise", where_="house",
                demand=high.height, capacity=high.height_most, unit="-", source=PRACTICE)  # fmt: skip
    yield check(name="No storey or basement below without designed temporary works", state="on jacks", where_="house",
                demand=high.below, capacity=fixed(0, high.below), unit="No", source=PRACTICE)  # fmt: skip
