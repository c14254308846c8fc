"""The sheets of the lift: one for the foreman, the owner and the engineer who checks it, one with its workings.

Covers   which results of the lift stand where, and under which headings.
Not      the figures (calc.lifting), where cells stand and how they look (result_book).
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from addin.result_book import Block, Listing, Notes, Page, Show, Table, show
from calc.fields import note, quantity
from calc.lifting_rows import Direction, Lifting
from calc.number import Number, Text

LIFTING_SHEET = "Lifting"
"""Title of the sheet."""

WHAT_LIFTING = "How the house goes up: when to stop, holds, ties to cut, days, checks of all"

HOLD_LOADS_SHEET = "Hold loads"
"""The sheet with the load of every jack at each hold."""

WHAT_HOLD_LOADS = "Load of every jack at each hold of the preload, where it says STOP, its pass in a re-seating"
"""What that sheet is for."""

LIFT_WORKINGS_SHEET = "Lift workings"
"""Title of the sheet with what wind and stability come from."""

WHAT_LIFT_WORKINGS = "Wind, the face of the house in it, and the push on its jacks both ways, step by step"

NOT_CHECKED = (
    "One jack lost, uneven lifting, bases, soil, packing and new masonry at transfer stand on Jack checks, beams on "
    "Carrier beams. Not looked at: sway of packing and cribs, towers and guide frames, uplift of the roof, earthquake.",
    "Masonry and needles are held against the mean load of a wall: a narrow pier between doors carries more, and the "
    "engineer looks at it, and at ends of carrier beams far beyond their last jack.",
    "Neighbours are compared, so a bow along a wall adds up: keep what stands off the plane under the stop as well.",
    "Calls, days and Lift log are for a level rise. A settled house is brought level first: Levelling says how; its "
    "days are not in these.",
    "Jacks are taken as springs alike. Friction is taken for wet or greasy steel: dry timber holds more, mud less.",
    "Measure the wind in gusts at the height of the roof. Forecasts, local codes and the engineer come before any "
    "limit here; the lower one holds.",
)  # fmt: skip
"""What the sheet does not say, in words."""

_MARK = Show(attr="name", title="Jack", width=30)
_JACK = Show(attr="name", title="Jack", width=34)
_SMALL = "[=0]0;[<1]0.0000;#,##0.00"
"""Metres and ratios of a thousandth, and kilonewtons, in one column."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class InShort:
    """What each reader looks for first."""

    verdict: Text = note("of all checks of the lift")
    stops: Number = quantity("No", "checks of the lift that say STOP")
    rise: Number = quantity("m", "rise")
    days: Number = quantity("day", "from the first jack set up to the last stage of masonry")
    jacks: Number = quantity("No", "jacks in use")
    predicted: Number = quantity("kN", "predicted load of all of them")
    call: Number = quantity("m", "rise of one call")
    calls: Number = quantity("No", "calls")
    working: Number = quantity("m/s", "most wind in gusts to work in")
    wind: Text = note("what the wind is looked at for")
    sees: Text = note("levelling instrument against the stop")
    bracing: Text = note("bracing")
    temporary_works: Text = note("temporary works")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PushedHouse:
    """What is pushed, in either direction."""

    dead: Number = quantity("kN", "dead load that is counted on, before its share")
    height: Number = quantity("m", "centre of the load above the jack heads")


def lifting_page(lifting: Lifting, warning: Any) -> Page:
    """The sheet of the lift.

    Args:
        lifting: the lift worked out
        warning: what stands at its head while the house is not released
    """
    return Page(title=LIFTING_SHEET, heading="Lifting", help=WHAT_LIFTING, warning=warning,
                blocks=_with_rows([*_for_the_day(lifting), *_for_the_engineer(lifting)]))  # fmt: skip


def hold_loads_page(lifting: Lifting, warning: Any) -> Page:
    """The sheet the preload is read against.

    Args:
        lifting: the lift worked out
        warning: what stands at its head while the house is not released
    """
    return Page(title=HOLD_LOADS_SHEET, heading="Hold loads", help=WHAT_HOLD_LOADS, warning=warning, portrait=True,
                blocks=_with_rows(_each_jack(lifting)))  # fmt: skip


def lift_workings_page(lifting: Lifting, warning: Any) -> Page:
    """The sheet with what wind and stability come from.

    Args:
        lifting: the lift worked out
        warning: what stands at its head while the house is not released
    """
    return Page(title=LIFT_WORKINGS_SHEET, heading="Workings of the lift", help=WHAT_LIFT_WORKINGS, warning=warning,
                blocks=_with_rows([*_wind(lifting), *_pushes(lifting)]))  # fmt: skip


def _with_rows(blocks: Iterable[Block]) -> tuple[Block, ...]:
    return tuple(block for block in blocks if not isinstance(block, Table) or block.records)


def _for_the_day(lifting: Lifting) -> Iterable[Block]:
    """What owner and foreman look for."""
    plan, high = lifting.plan, lifting.high
    short = InShort(
        verdict=lifting.verdict, stops=lifting.stops, rise=plan.rise, days=lifting.time.whole, jacks=lifting.jacks,
        predicted=lifting.predicted, call=plan.call, calls=plan.calls, working=lifting.working,
        wind=lifting.wind.told, sees=lifting.limits.sees, bracing=high.bracing, temporary_works=high.temporary_works,
    )  # fmt: skip
    yield Listing(title="In short", record=short, how=False, text_span=7, shows=(
        Show(attr="verdict", title="Checks of the lift", name="lift_verdict"),
        Show(attr="stops", title="Checks of the lift that say STOP", name="lift_stops"),
        *show("rise days jacks predicted call calls",
              days=Show(attr="days", title="Working days of the lift", format="0", name="lift_days"),
              jacks=Show(attr="jacks", title="Jacks in use"),
              predicted=Show(attr="predicted", title="Predicted load of all jacks"),
              call=Show(attr="call", title="Rise of one call", format="0.0000"),
              calls=Show(attr="calls", title="Calls, every station read after each")),
        Show(attr="working", title="Most wind to work in, gusts", format="0.0", name="lift_wind"),
        Show(attr="wind", title="The house is looked at for"),
        Show(attr="sees", title="Levelling instrument and the stop"),
        Show(attr="bracing", title="Bracing"),
        Show(attr="temporary_works", title="Temporary works"),
    ))  # fmt: skip
    yield Table(title="Correct it, stop it", how=False, records=lifting.limits.table, shows=(
        Show(attr="what", title="What is measured", width=44),
        Show(attr="alarm", title="Correct beyond", format=_SMALL, label=False),
        Show(attr="stop", title="STOP beyond", format=_SMALL, label=False), Show(attr="unit"),
        Show(attr="do", title="What to do", span=6, width=62)),
        note="A reading that is missing is no reading of 0: not measured is STOP.")  # fmt: skip
    yield Table(title="Preload: the house is loaded onto its jacks before it moves", how=False,
                records=lifting.preload, shows=(
        Show(attr="hold", width=44), Show(attr="share", format="0.00"),
        Show(attr="house", title="All jacks"), Show(attr="jack", title="Mean jack"),
        Show(attr="pressure", title="Oil, mean jack", format="#,##0"),
        Show(attr="look", title="Looked at before the next", span=6, width=62)))  # fmt: skip
    yield Table(title="Hold points", how=False, records=lifting.holds, shows=(
        Show(attr="point", title="Hold", width=44), Show(attr="every", title="At or each", label=False),
        Show(attr="times", label=False), Show(attr="look", title="What is looked at", span=5, width=46),
        Show(attr="leave", title="Signed by", span=4, width=40)))  # fmt: skip
    yield Table(title="Ties to cut before breakaway", how=False, records=lifting.ties, shows=(
        Show(attr="what", title="What may hold the house down", width=44),
        Show(attr="how", title="How it is freed", span=7, width=72),
        Show(attr="signed", title="Cut, signed", span=2, width=20)))  # fmt: skip


def _titled(titles: Mapping[str, str], number_format: str = "") -> tuple[Show, ...]:
    """Fields by name, each with the words it is shown under."""
    return tuple(Show(attr=attr, title=title, format=number_format) for attr, title in titles.items())


def _for_the_engineer(lifting: Lifting) -> Iterable[Block]:
    yield Table(title="Checks of the lift", how=False, records=lifting.checks, verdict="verdict", shows=(
        Show(attr="name", title="Check", width=44), Show(attr="demand", format=_SMALL, label=False),
        Show(attr="capacity", format=_SMALL, label=False), Show(attr="unit"), Show(attr="utilisation", format="0.00"),
        Show(attr="verdict", span=2, width=20), Show(attr="state", span=2, width=20),
        Show(attr="source", span=3, width=24)))  # fmt: skip
    yield Notes(title="Read before the figures below", lines=NOT_CHECKED, span=11)
    yield Listing(title="Strokes and packing", record=lifting.plan, shows=_titled({
        "net": "Lift of one stroke", "cycles": "Strokes of each jack", "last": "Lift of the last one",
        "courses": "Courses of packing under each jack", "shims": "Shims on top of them",
        "follow_ups": "Times packing follows up", "stages": "Stages of masonry",
        "reseatings": "Jacks released and packed again"}))  # fmt: skip
    yield Listing(title="Days; masonry and strokes never overlap in one zone", record=lifting.time, shows=_titled({
        "set_up": "Jacks set up", "lifting": "Calls", "reseating": "Re-seating", "masonry": "Follow-up masonry",
        "holds": "Holds", "whole": "All of it"}))  # fmt: skip
    yield Listing(title="Oil of hydraulic jacks; screw jacks have none", record=lifting.oil, shows=_titled({
        "volume": "Pumped in the whole lift", "filled": "In the jacks at full stroke", "tank": "Tank holds at least",
        "pumping": "Pump runs"}, "0.0000"))  # fmt: skip
    yield from _limits(lifting)


def _each_jack(lifting: Lifting) -> Iterable[Block]:
    yield Table(title="Each jack", records=lifting.loads, shows=(
        _MARK, Show(attr="member", title="Under"), *_titled({
            "x": "X", "y": "Y", "first": "First hold", "second": "Second hold", "force": "Third hold: predicted",
            "stop": "STOP beyond", "release": "Re-seating pass"})),
        note="Places as at issue. No neighbours are released in one pass, round corners neither.")  # fmt: skip
    yield Listing(title="The jacks together", record=lifting, shows=_titled({
        "mean": "Mean load of a jack", "most": "Most loaded jack", "stop_house": "All jacks: STOP beyond",
        "stop_jack": "Most loaded jack: STOP beyond", "breakaway": "First movement, then a hold",
        "breakaway_calls": "Calls it takes", "passes": "Passes of one re-seating",
        "masonry": "Follow-up masonry, band included"}))  # fmt: skip


def _limits(lifting: Lifting) -> Iterable[Block]:
    yield Listing(title="Movement", record=lifting.limits, shows=_titled({
        "difference": "Weakest lifted wall: stop difference", "spacing": "Widest spacing", "stop": "Stop there",
        "alarm": "Alarm there", "closest": "Stop at the closest spacing", "call": "Most rise in one call",
        "other": "Reading without a rod at every jack",
        "error": "Instrument, one reading, either way", "blind": "What two readings can hide"}, "0.0000"))  # fmt: skip
    yield Table(title="Difference each wall bears", records=lifting.limits.walls, shows=show(
        "wall masonry mortar weak difference", wall=Show(attr="wall", width=44),
        masonry=Show(attr="masonry", width=16), mortar=Show(attr="mortar", width=13),
        difference=Show(attr="difference", format="0.0000")))  # fmt: skip
    yield Listing(title="A high lift, or a storey below", record=lifting.high, shows=_titled({
        "high": "Higher than without bracing", "below": "Storey or basement below",
        "designed": "Engineer designs temporary works", "height": "Packing, height over width",
        "height_most": "Most of it"}))  # fmt: skip


def _wind(lifting: Lifting) -> Iterable[Block]:
    wind, faces = lifting.wind, lifting.faces
    yield Listing(title="Wind", record=wind, text_span=4, shows=_titled({
        "known": "Basic wind speed known", "basic": "Basic wind speed", "risk": "k1, short time",
        "top": "Top of the raised house", "first": "First to second height", "second": "Second to third height",
        "terrain": "Terrain", "terrain_factor": "k2, terrain and height", "design": "Design wind speed",
        "checked": "Looked at for", "pressure": "Design pressure", "passes": "A check that holds says"}))  # fmt: skip
    yield Table(title="k2 at the top of the house", records=wind.terrains, shows=show(
        "terrain low middle high factor", terrain=Show(attr="terrain", width=34)))  # fmt: skip
    yield Table(title="k1 between its rows", records=wind.steps, shows=show("low high share change"))
    yield Listing(title="Face in the wind", record=faces, shows=_titled({
        "heads": "Jack heads above the floor", "parapet": "Highest parapet", "top": "Top above the floor",
        "area_x": "Face, wind along letters", "area_y": "Face, wind along numbers",
        "middle_x": "Its middle above the heads, letters", "middle_y": "Its middle above the heads, numbers",
    }))  # fmt: skip
    yield Table(title="Face of each storey", records=faces.storeys, shows=show(
        "level along_x along_y bottom top middle area_x area_y moment_x moment_y",
        level=Show(attr="level", title="Storey", width=34)))  # fmt: skip
    yield Table(title="Outer extent of each room", records=faces.rooms, shows=show(
        "room level half west east south north ridge", room=Show(attr="room", width=34)))  # fmt: skip
    yield Table(title="What stands up from the roof", records=faces.upstands, shows=show(
        "item height", item=Show(attr="item", width=34)))  # fmt: skip


def _pushes(lifting: Lifting) -> Iterable[Block]:
    if lifting.directions:
        house = lifting.directions[0].house
        yield Listing(title="What is pushed", record=PushedHouse(dead=house.dead, height=house.height), shows=_titled({
            "dead": "Dead load counted on", "height": "Centre above the jack heads"}))  # fmt: skip
    for row in lifting.directions:
        yield from _push(row, f"Pushed {row.direction}")


def _push(row: Direction, title: str) -> Sequence[Block]:
    found, group = row.stability, row.stability.group
    return (
        Listing(title=f"{title}: bracing and wind to work in", record=row, shows=_titled({
            "wind": "Force of the wind", "push": "Push with its factor", "bracing": "Guides and braces must take",
            "designed": "They are designed for", "working": "Most wind to work in"})),
        Listing(title=f"{title}: forces", record=found.pushed, shows=_titled({
            "notional": "Notional force", "force": "Wind and notional, no factor", "still": "Notional moment",
            "windy": "Moment of the wind", "moment": "Both moments"})),
        Listing(title=f"{title}: the jacks as a group", record=group, shows=_titled({
            "count": "Jacks", "middle": "Their middle", "low": "Outer jack, low side", "high": "Outer jack, high side",
            "sum_squares": "Sum of squares"})),
        Listing(title=f"{title}: what holds", record=found, shows=_titled({
            "lever": "Load to the nearer outer jacks", "righting": "Righting moment",
            "overturning": "Overturning, with factor", "off": "Load beyond the middle",
            "offset": "Load off the middle, either way",
            "resultant": "Resultant off the middle", "middle": "Resultant at most",
            "sliding": "To be held by friction", "grip": "Friction counted on", "most": "Greatest jack",
            "least": "Least jack", "wind_overturning": "Times this wind: overturning",
            "wind_resultant": "Times this wind: resultant", "wind_sliding": "Times this wind: sliding",
            "wind_whole": "Least of these three",
            "wind_jacks": "Times this wind: jacks", "wind_share": "Times its speed: all of them"})),
        Table(title=f"{title}: jacks from the middle", records=group.arms,
              shows=show("name off arm square", name=_JACK)),
        Table(title=f"{title}: each jack", records=found.jacks, shows=show(
            "name arm still windy extra most least to_full to_loose full loose", name=_JACK)),
    )  # fmt: skip
