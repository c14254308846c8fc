"""The lift in figures: preload, strokes of the jacks, packing, follow-up masonry, re-seating, oil, calls and days.

Covers   loads and pressures of the preload, net lift of one stroke, cycles, courses and shims, stages of masonry, jacks
         released for re-seating in passes, oil and pump time, calls, days by outputs of gangs.
Not      who is next to whom on plan (an argument as the order round a wall line), cribs, price, waiting for mortar.
Signs    a rise, a stroke and a load are positive.
Units    m, m2, m3, kN, kN/m2, day; No/day, m3/day; an output is that of one gang or one man.
Sources  pressure is force over area, volume area times stroke: statics. Steps of the preload, clearance, every fourth
         jack released and none beside it, gaps, outputs: common practice, no source; every one is an argument.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from calc.errors import require
from calc.fields import quantity
from calc.number import Number, both, ceil, maximum, minimum, ratio, rounded, total, value_of, where, within


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StrokeHabits:
    """How the lift is carried out."""

    stroke: Number = quantity("m", "of a jack, from closed to open")
    clearance: Number = quantity("m", "stroke kept in hand at its end")
    seating: Number = quantity("m", "stroke that is lost until plates, packing and base have closed up")
    course: Number = quantity("m", "one course of packing")
    gap: Number = quantity("m", "greatest gap between packing or lock nut and what it follows")
    masonry_stage: Number = quantity("m", "rise that is built up before the next is lifted")
    release_every: Number = quantity("No", "one jack of so many is released at a time")
    call: Number = quantity("m", "rise in one call; no more than the difference that stops the lift")
    oil_in_hand: Number = quantity("-", "oil in the tank over oil in the jacks at full stroke")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Outputs:
    """What gangs get done."""

    stations: Number = quantity("No/day", "jack stations set up by one gang")
    reseatings: Number = quantity("No/day", "jacks released and packed again by one gang")
    calls: Number = quantity("No/day", "calls, readings and corrections between them")
    masonry: Number = quantity("m3/day", "masonry laid by one mason")
    gangs: Number = quantity("No", "gangs of jack men")
    masons: Number = quantity("No", "masons")
    hold: Number = quantity("day", "hold at each stage until it is looked at and signed")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PreloadStep:
    """One step of taking up the load before anything moves."""

    share: Number = quantity("-", "of the predicted load")
    load: Number = quantity("kN", "of the jack or circuit")
    pressure: Number = quantity("kN/m2", "of the oil")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StrokePlan:
    """The lift in counts."""

    rise: Number = quantity("m", "of the house")
    net: Number = quantity("m", "lift of one stroke that counts")
    cycles: Number = quantity("No", "strokes of each jack")
    last: Number = quantity("m", "lift of the last of them")
    courses: Number = quantity("No", "full courses of packing under each jack at full rise")
    shims: Number = quantity("m", "packing thinner than a course on top of them")
    follow_ups: Number = quantity("No", "times packing or nuts are brought up after the house")
    stages: Number = quantity("No", "stages of masonry")
    calls: Number = quantity("No", "calls for the whole rise")
    call: Number = quantity("m", "rise of each call, all alike")
    alone: Number = quantity("No", "1 where the last jack of the ring gets a pass of its own, else 0")
    passes: Number = quantity("No", "passes of one re-seating of all jacks")
    released: Number = quantity("No", "most jacks released at a time")
    reseatings: Number = quantity("No", "jacks released and packed again in the whole lift")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OilPlan:
    """Oil and pump."""

    volume: Number = quantity("m3", "pumped in the whole lift")
    filled: Number = quantity("m3", "in the jacks at full stroke")
    tank: Number = quantity("m3", "the tank holds at least")
    pumping: Number = quantity("day", "pump runs in the whole lift")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LiftTime:
    """Days of the lift; stroking and masonry never overlap in one zone, so they are added."""

    set_up: Number = quantity("day", "jack stations")
    lifting: Number = quantity("day", "calls, or the pump where it is slower")
    reseating: Number = quantity("day", "jacks released and packed again")
    masonry: Number = quantity("day", "follow-up masonry")
    holds: Number = quantity("day", "holds between stages")
    whole: Number = quantity("day", "all of it")


def preload_steps(predicted: Number, piston: Number, shares: Sequence[Number]) -> tuple[PreloadStep, ...]:
    """Load and oil pressure of each step of the preload.

    Args:
        predicted: load of a jack, or of all jacks of a circuit [kN]
        piston: area of its piston, or of all of them [m2]
        shares: of the predicted load, in order [-]

    >>> [(step.load, step.pressure) for step in preload_steps(40.0, 0.004, (0.5, 0.8, 1.0))]
    [(20.0, 5000.0), (32.0, 8000.0), (40.0, 10000.0)]
    """
    loads = [(share, predicted * share) for share in shares]
    return tuple(PreloadStep(share=share, load=load, pressure=oil_pressure(load, piston)) for share, load in loads)


def oil_pressure(load: Number, piston: Number) -> Number:
    """Pressure of the oil under a load [kN/m2].

    Args:
        load: on the jack or circuit [kN]
        piston: area of its piston, or of all of them [m2]

    >>> round(oil_pressure(100.0, 0.003848))  # 100 kN on 70 mm: 260 bar
    25988
    """
    return load / piston


def net_lift(stroke: Number, clearance: Number, seating: Number) -> Number:
    """Lift of one stroke that counts; 0 where nothing is left [m].

    Args:
        stroke: of the jack [m]
        clearance: kept in hand at the end [m]
        seating: lost until everything has closed up [m]

    >>> round(net_lift(0.150, 0.020, 0.005), 3)
    0.125
    """
    return maximum(stroke - clearance - seating, 0)


def stroke_count(rise: Number, net: Number) -> Number:
    """Strokes of each jack for a rise [No].

    Args:
        rise: of the house [m]
        net: lift of one stroke that counts [m]

    Raises:
        DomainError: clearance and seating leave nothing of a stroke

    >>> stroke_count(0.9, 0.12), stroke_count(0.96, 0.12)
    (8.0, 8.0)
    """
    require("what clearance and seating leave of a stroke", rounded(value_of(net), 9), "m", "be more than", 0.0)
    # A live stroke that seating uses up gives no strokes, and the check of the stroke says STOP.
    return ceil(ratio(rise, net, 0))


def whole_steps(way: Number, step: Number) -> Number:
    """How many full steps a way holds [No].

    Args:
        way: length [m]
        step: length of one step [m]

    >>> whole_steps(0.9, 0.1), whole_steps(0.899, 0.1)
    (9.0, 8.0)
    """
    return 0 - ceil(0 - way / step)


def last_alone(count: Number, every: Number) -> Number:
    """1 where the last jack of a ring would be released together with the first, beside it; else 0 [No].

    Such a jack gets a pass of its own. A single jack is no ring.

    Args:
        count: jacks, in a ring round the house [No]
        every: one of so many is released at a time, two or more [No]

    >>> last_alone(24, 4), last_alone(25, 4), last_alone(1, 4)
    (0, 1, 0)
    """
    return where(both(_over(count - 1, every) <= 0, count > 1), 1, 0)


def release_passes(count: Number, every: Number, alone: Number) -> Number:
    """Passes in which all jacks of a ring are released once, one of `every` at a time and none beside another [No].

    Args:
        count: jacks in the ring [No]
        every: one of so many is released at a time, two or more [No]
        alone: 1 where the last of them gets a pass of its own [No]

    >>> release_passes(24, 4, 0), release_passes(25, 4, 1), release_passes(3, 4, 0)
    (4, 5, 3)
    """
    return minimum(every + alone, count)


def released_at_once(count: Number, every: Number, alone: Number) -> Number:
    """Most jacks of the ring that are released in one pass [No].

    Args:
        count: jacks in the ring [No]
        every: one of so many is released at a time, two or more [No]
        alone: 1 where the last of them gets a pass of its own [No]

    >>> released_at_once(24, 4, 0), released_at_once(25, 4, 1), released_at_once(26, 4, 0)
    (6.0, 6.0, 7.0)
    """
    return ceil((count - alone) / every)


def release_pass(order: Number, count: Number, every: Number, alone: Number) -> Number:
    """Pass in which one jack of the ring is released, from 1 [No].

    Args:
        order: place of the jack in the ring, from 0 [No]
        count: jacks in the ring [No]
        every: one of so many is released at a time, two or more [No]
        alone: 1 where the last of them gets a pass of its own [No]

    >>> [release_pass(order, 9, 4, 1) for order in range(9)]
    [1.0, 2.0, 3.0, 4.0, 1.0, 2.0, 3.0, 4.0, 5]
    """
    is_last = within(count - 1, order)
    return where(both(is_last, alone > 0), every + 1, _over(order, every) + 1)


def _over(count: Number, every: Number) -> Number:
    """What is left of a count after whole groups of `every`."""
    return count + ceil(0 - count / every) * every


def stroke_plan(rise: Number, jacks: Number, habits: StrokeHabits) -> StrokePlan:
    """Strokes, packing, masonry and re-seating of the whole lift.

    Args:
        rise: of the house [m]
        jacks: in use, in a ring round the house [No]
        habits: how the lift is carried out

    Raises:
        DomainError: clearance and seating leave nothing of a stroke
    """
    net = net_lift(habits.stroke, habits.clearance, habits.seating)
    cycles, calls = stroke_count(rise, net), ceil(rise / habits.call)
    courses = whole_steps(rise, habits.course)
    alone = last_alone(jacks, habits.release_every)
    passes = release_passes(jacks, habits.release_every, alone)
    return StrokePlan(
        rise=rise, net=net, cycles=cycles, last=rise - maximum(cycles - 1, 0) * net, courses=courses,
        shims=maximum(rise - courses * habits.course, 0), follow_ups=ceil(rise / habits.gap),
        stages=ceil(rise / habits.masonry_stage), calls=calls, call=rise / maximum(calls, 1), passes=passes,
        released=released_at_once(jacks, habits.release_every, alone), alone=alone,
        reseatings=reseating_count(jacks, cycles),
    )  # fmt: skip


def reseating_count(jacks: Number, cycles: Number) -> Number:
    """Times a jack is released and packed again: each jack once between two strokes [No].

    Args:
        jacks: in use [No]
        cycles: strokes of each [No]

    >>> reseating_count(24, 8), reseating_count(24, 1)
    (168, 0)
    """
    return jacks * maximum(cycles - 1, 0)


def oil_plan(plan: StrokePlan, jacks: Number, piston: Number, flow: Number, habits: StrokeHabits) -> OilPlan:
    """Oil for the whole lift, and how long the pump runs.

    Args:
        plan: strokes of the lift
        jacks: in use, all alike [No]
        piston: area of the piston of one [m2]
        flow: of the pump [m3/day]
        habits: how the lift is carried out
    """
    # What is lost in seating is pumped as well, once in every stroke.
    volume = jacks * piston * (plan.rise + plan.cycles * habits.seating)
    filled = jacks * piston * habits.stroke
    return OilPlan(volume=volume, filled=filled, tank=filled * habits.oil_in_hand, pumping=volume / flow)


def lift_time(plan: StrokePlan, oil: OilPlan, jacks: Number, masonry: Number, outputs: Outputs) -> LiftTime:
    """Days of the lift, from outputs of gangs.

    Args:
        plan: strokes and re-seating
        oil: oil and pump
        jacks: stations to set up [No]
        masonry: follow-up masonry of the whole rise [m3]
        outputs: what gangs get done
    """
    set_up = jacks / (outputs.stations * outputs.gangs)
    lifting = maximum(plan.calls / outputs.calls, oil.pumping)
    reseating = plan.reseatings / (outputs.reseatings * outputs.gangs)
    laying = masonry / (outputs.masonry * outputs.masons)
    holds = plan.stages * outputs.hold
    return LiftTime(set_up=set_up, lifting=lifting, reseating=reseating, masonry=laying, holds=holds,
                    whole=total([set_up, lifting, reseating, laying, holds]))  # fmt: skip
