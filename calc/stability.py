"""A house on jacks against being pushed over: overturning, resultant, outer jacks, sliding, wind to work in.

Covers   one direction at a time: notional and wind force, overturning moment, where the resultant passes the jack
         heads, extra force of each jack, sliding at the jack heads, greatest wind to work in; checks of all of them.
Not      wind pressures and shape factors (the force of the wind is an argument), earthquake, guide frames and their
         ties, sway of towers, buckling of packing.
Signs    forces, moments and distances are positive; the push may come from either side.
Units    m, m2, kN, kN m; wind in m/s.
Sources  statics; jacks are taken as springs alike. 0.9 of the dead load against 1.4 of what overturns or pushes:
         IS 456:2000 cl. 20.1 and 20.2, from memory. A notional 2.5 % of the load: BS 5975 and EN 12812, from memory, as
         temporary works use it. The force of wind goes with the square of its speed: IS 875 (Part 3), from memory. The
         middle third is a sixth of the width to either side. All of these figures are arguments.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from calc.checks import WITHIN, CheckRow, check
from calc.errors import require
from calc.fields import note, quantity
from calc.number import Number, Text, fixed, maximum, minimum, ratio, sqrt, total, where


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StabilityRules:
    """What holds and what pushes, by how much."""

    holding: Number = quantity("-", "share of the dead load that is counted on")
    pushing: Number = quantity("-", "factor on what overturns or pushes")
    notional: Number = quantity("-", "horizontal force for each load, whatever the wind")
    middle: Number = quantity("-", "resultant from the middle of the jacks at most, over their width")
    friction: Number = quantity("-", "at the jack heads")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OnJacks:
    """The house on its jacks, seen in one direction."""

    direction: str = note("along letters or along numbers")
    dead: Number = quantity("kN", "dead load")
    load: Number = quantity("kN", "whole load in the lift")
    centre: Number = quantity("m", "its centre along the direction, from the same origin as the jacks")
    height: Number = quantity("m", "its centre above the jack heads")
    wind: Number = quantity("kN", "force of the wind the rules ask for during the lift")
    wind_height: Number = quantity("m", "middle of that force above the jack heads")
    guided: Number = quantity("kN", "horizontal force that guides and braces are designed for")
    usable: Number = quantity("kN", "usable load of one jack")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class JackAlong:
    """Where one jack stands along the direction."""

    name: str = note("mark")
    at: Number = quantity("m", "from any one origin")
    force: Number = quantity("kN", "in the lift, nothing pushing")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pushed:
    """What pushes, and what it comes to."""

    notional: Number = quantity("kN", "notional force, at the centre of the load")
    force: Number = quantity("kN", "wind and notional force together")
    still: Number = quantity("kN m", "moment of the notional force about the jack heads")
    windy: Number = quantity("kN m", "moment of the wind about them")
    moment: Number = quantity("kN m", "both")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class JackArm:
    """One jack from the middle of the group."""

    name: str = note("mark")
    off: Number = quantity("m", "beyond the middle, less than 0 before it")
    arm: Number = quantity("m", "either way")
    square: Number = quantity("m2", "squared")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class JackRowAlong:
    """The jacks as one group."""

    arms: tuple[JackArm, ...]
    count: Number = quantity("No", "jacks")
    middle: Number = quantity("m", "their mean place")
    low: Number = quantity("m", "outer jack on one side")
    high: Number = quantity("m", "outer jack on the other")
    sum_squares: Number = quantity("m2", "sum of squares of their distance from the middle")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class JackPush:
    """What pushing does to one jack."""

    name: str = note("mark")
    arm: Number = quantity("m", "distance from the middle of the jacks")
    still: Number = quantity("kN", "more or less of force from the notional force, by the side it comes from")
    windy: Number = quantity("kN", "more or less of force from the wind, likewise")
    extra: Number = quantity("kN", "both")
    most: Number = quantity("kN", "greatest force")
    least: Number = quantity("kN", "least force; less than 0 where the jack would have to pull")
    to_full: Number = quantity("kN", "load it still takes before it is full, nothing but the notional force pushing")
    to_loose: Number = quantity("kN", "load it still loses before it lets go, likewise")
    full: Number = quantity("-", "force of wind at which it is full, over the one of the rules")
    loose: Number = quantity("-", "force of wind at which it lets go, over the one of the rules")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stability:
    """One direction worked out."""

    direction: str = note("along letters or along numbers")
    pushed: Pushed
    group: JackRowAlong
    jacks: tuple[JackPush, ...]
    lever: Number = quantity("m", "centre of the load to the nearer outer jacks")
    righting: Number = quantity("kN m", "dead load that is counted on, about them")
    overturning: Number = quantity("kN m", "moment of the push with its factor")
    off: Number = quantity("m", "centre of the load beyond the middle of the jacks, less than 0 before it")
    offset: Number = quantity("m", "the same, either way")
    resultant: Number = quantity("m", "load and push together from the middle of the jacks, at the jack heads")
    middle: Number = quantity("m", "distance it may have")
    sliding: Number = quantity("kN", "push with its factor, less what guides and braces hold; at least 0")
    grip: Number = quantity("kN", "friction of the dead load that is counted on")
    most: Number = quantity("kN", "greatest force of a jack")
    least: Number = quantity("kN", "least force of a jack")
    wind_overturning: Number = quantity("-", "force of wind at which overturning governs, over the one of the rules")
    wind_resultant: Number = quantity("-", "the same for the resultant")
    wind_sliding: Number = quantity("-", "the same for sliding")
    wind_whole: Number = quantity("-", "least of these three")
    wind_jacks: Number = quantity("-", "the same for the jacks")
    wind_share: Number = quantity("-", "speed of the greatest wind at which all holds over that of the rules; 0: none")


def notional_force(load: Number, share: Number) -> Number:
    """Horizontal force that every load on temporary works is taken to bring [kN].

    Args:
        load: whole load in the lift [kN]
        share: horizontal for each vertical [-]

    >>> notional_force(1120.0, 0.025)
    28.0
    """
    return load * share


def pushed_of(house: OnJacks, rules: StabilityRules) -> Pushed:
    """Forces that push the house and their moments about the jack heads, without factor."""
    notional = notional_force(house.load, rules.notional)
    still, windy = notional * house.height, house.wind * house.wind_height
    return Pushed(notional=notional, force=house.wind + notional, still=still, windy=windy, moment=still + windy)


def group_of(jacks: Sequence[JackAlong]) -> JackRowAlong:
    """Middle, ends and sum of squares of the jacks along the direction.

    Raises:
        DomainError: fewer than two jacks
    """
    require("number of jacks", len(jacks), "No", "be at least", 2)
    places = [jack.at for jack in jacks]
    count = fixed(len(jacks), places[0])
    middle = total(places) / count
    arms = tuple(_arm(jack, middle) for jack in jacks)
    return JackRowAlong(arms=arms, count=count, middle=middle, low=minimum(*places), high=maximum(*places),
                        sum_squares=total([arm.square for arm in arms]))  # fmt: skip


def _arm(jack: JackAlong, middle: Number) -> JackArm:
    off = jack.at - middle
    return JackArm(name=jack.name, off=off, arm=maximum(off, 0 - off), square=off * off)


def righting_moment(dead: Number, holding: Number, lever: Number) -> Number:
    """Moment of the dead load that is counted on about the outer jacks [kN m].

    Args:
        dead: dead load [kN]
        holding: share of it that is counted on [-]
        lever: its centre to the outer jacks [m]

    >>> righting_moment(1000.0, 0.9, 3.0)
    2700.0
    """
    return dead * holding * lever


def extra_force(moment: Number, arm: Number, sum_squares: Number) -> Number:
    """Force a moment adds to one jack of a group of springs alike; 0 where all stand in one row across [kN].

    Args:
        moment: about the jack heads [kN m]
        arm: jack to the middle of the group [m]
        sum_squares: of these distances, all jacks [m2]

    >>> extra_force(60.0, 3.0, 36.0)
    5.0
    """
    return ratio(moment * arm, sum_squares, 0)


def grip(dead: Number, holding: Number, friction: Number) -> Number:
    """Friction of the dead load that is counted on [kN].

    Args:
        dead: dead load [kN]
        holding: share of it that is counted on [-]
        friction: at the jack heads [-]

    >>> grip(1000.0, 0.9, 0.15)
    135.0
    """
    return dead * holding * friction


def working_wind(share: Number, speed: Number, limit: Number) -> Number:
    """Greatest wind to work in [m/s].

    Args:
        share: speed at which everything holds, over the speed of the rules [-]
        speed: of the wind the rules ask for during the lift [m/s]
        limit: at which work stops in any case [m/s]

    >>> working_wind(0.5, 30.0, 12.0), working_wind(0.25, 30.0, 12.0)
    (12.0, 7.5)
    """
    return minimum(share * speed, limit)


def stability_of(house: OnJacks, jacks: Sequence[JackAlong], rules: StabilityRules) -> Stability:
    """One direction worked out.

    Args:
        house: the house on its jacks
        jacks: all of them
        rules: what holds and what pushes

    Raises:
        DomainError: fewer than two jacks
    """
    pushed, group = pushed_of(house, rules), group_of(jacks)
    lever = minimum(house.centre - group.low, group.high - house.centre)
    off = house.centre - group.middle
    offset, middle = maximum(off, 0 - off), (group.high - group.low) * rules.middle
    righting = righting_moment(house.dead, rules.holding, lever)
    held = grip(house.dead, rules.holding, rules.friction)
    # How many times the force of the wind may be there before each limit is reached.
    overturns = ratio(maximum(righting / rules.pushing - pushed.still, 0), pushed.windy, 0)
    leaves = ratio(maximum((middle - offset) * house.load - pushed.still, 0), pushed.windy, 0)
    slides = ratio(maximum((held + house.guided) / rules.pushing - pushed.notional, 0), house.wind, 0)
    whole = minimum(overturns, leaves, slides)
    rows = tuple(
        _jack(jack, arm.arm, group.sum_squares, pushed, house.usable, whole)
        for jack, arm in zip(jacks, group.arms, strict=True)
    )
    by_jacks = minimum(minimum(*(row.full for row in rows)), minimum(*(row.loose for row in rows)))
    return Stability(
        direction=house.direction, pushed=pushed, group=group, jacks=rows, lever=lever, righting=righting, off=off,
        overturning=pushed.moment * rules.pushing, offset=offset, resultant=offset + pushed.moment / house.load,
        middle=middle, sliding=maximum(pushed.force * rules.pushing - house.guided, 0), grip=held,
        most=maximum(*(row.most for row in rows)), least=minimum(*(row.least for row in rows)),
        wind_overturning=overturns, wind_resultant=leaves, wind_sliding=slides, wind_whole=whole, wind_jacks=by_jacks,
        wind_share=sqrt(minimum(whole, by_jacks)),
    )  # fmt: skip


def _jack(jack: JackAlong, arm: Number, squares: Number, pushed: Pushed, usable: Number, whole: Number) -> JackPush:
    still, windy = (extra_force(moment, arm, squares) for moment in (pushed.still, pushed.windy))
    extra = still + windy
    most, least = jack.force + extra, jack.force - extra
    to_full, to_loose = usable - jack.force - still, jack.force - still
    # A jack in the middle of the group feels no wind and sets no limit of its own.
    return JackPush(
        name=jack.name, arm=arm, still=still, windy=windy, extra=extra, most=most, least=least,
        to_full=to_full, to_loose=to_loose, full=_times(to_full, windy, whole), loose=_times(to_loose, windy, whole),
    )  # fmt: skip


def _times(left: Number, of_wind: Number, no_wind: Number) -> Number:
    """What is left for the wind over what the wind takes; none where nothing is left."""
    return where(left < 0, 0, ratio(left, of_wind, no_wind))


def stability_checks(found: Stability, usable: Number, rules_source: str, passes: Text = WITHIN) -> Iterable[CheckRow]:
    """Checks of one direction.

    Args:
        found: one direction worked out
        usable: usable load of one jack [kN]
        rules_source: where the rules come from
        passes: verdict where a check holds
    """
    state, pull = "on all jacks, pushed", maximum(0 - found.least, 0)
    for name, demand, capacity, unit, source in (
        ("Overturning about the outer jacks", found.overturning, found.righting, "kN m", rules_source),
        ("Resultant within the middle of the jacks", found.resultant, found.middle, "m", rules_source),
        ("Greatest force of a jack", found.most, usable, "kN", "rating and share on Job"),
        ("No jack lets go", pull, pull * 0, "kN", "statics; a jack cannot pull"),
        ("Sliding on the jack heads", found.sliding, found.grip, "kN", rules_source),
    ):
        yield check(name=f"{name}, {found.direction}", state=state, where_="house", demand=demand, capacity=capacity,
                    unit=unit, source=source, passes=passes)  # fmt: skip
