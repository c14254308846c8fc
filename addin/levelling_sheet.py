"""The sheet Levelling: how a settled house stands, what each station is lifted by, and in what order.

Covers   its page; strokes as lines a foreman reads out; what to enter where no stations were read.
Not      any figure (calc.settlement), where cells stand and how they look (result_book).
Units    m on the sheet, mm in the lines of the calls: what a rule at the jack shows.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any

from addin import units
from addin.result_book import Listing, Notes, Page, Show, Table, show
from calc.fields import note, quantity
from calc.levelling import Stroke
from calc.number import Text
from calc.settlement import NOT_KNOWN_WORDS
from calc.settlement_rows import Settlement

LEVELLING_SHEET = "Levelling"

WHAT_IT_SAYS = "How a settled house stands, how far each station is lifted until it is level, and in what order"

TO_ENTER = (
    "On Levels, read the plinth top or the floor at the corners and at every wall junction: Point is the grid point, "
    "such as B3, alone or as the last word of the entry, and What is plinth top or floor.",
    "Three stations or more that are not in one line give tilt, distortion and the lift of each; read one course only.",
)
WORKING = (
    "Lifts bring every station up to the target plane; nothing is lowered. In a call each station goes the same part "
    "of its own way, in the order given, and the difference between neighbours is looked at after every stroke.",
    "Where a difference, a crack or a load passes its limit, stop; the order is then worked out again from new levels.",
    "Correct it: levelling does. Engineer first: a tilt or a bend is over the stop, and the engineer looks at cracks "
    "and strokes before the first of them.",
    "Cracks are recorded and gauged before the first stroke. Why the house settled is found and put right first: what "
    "is levelled on the same ground settles again.",
    "Nobody is in the house. Jacks, bases and packing carry the house before a stroke is made. The licensed engineer "
    "approves the strokes, and local codes come first.",
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CallShown:
    """One call as it is read out."""

    call: int = quantity("No", "call, from 1")
    strokes: str = note("strokes in order, mm")
    lifted: str = note("of these stations since the start, mm")


def levelling_page(settlement: Settlement, heading: Text) -> Page:
    """The page.

    Args:
        settlement: what was found
        heading: what the sheets of the lift say at their head
    """
    blocks = tuple(_found(settlement) if settlement.known else _missing(settlement))
    return Page(title=LEVELLING_SHEET, heading="Levelling a settled house", help=WHAT_IT_SAYS, warning=heading,
                blocks=blocks)  # fmt: skip


def calls_shown(strokes: Sequence[Stroke]) -> tuple[CallShown, ...]:
    """Strokes call by call.

    Args:
        strokes: in order

    >>> calls_shown([Stroke(call=1, name="B2", stroke=0.002, lifted=0.002),
    ...              Stroke(call=1, name="B1", stroke=0.001, lifted=0.001)])[0].strokes
    'B2 2.0, B1 1.0'
    """
    found = []
    for call, together in groupby(strokes, key=lambda stroke: stroke.call):
        made = tuple(together)
        found.append(CallShown(call=call, strokes=_listed((s.name, s.stroke) for s in made),
                               lifted=_listed((s.name, s.lifted) for s in made)))  # fmt: skip
    return tuple(found)


def _listed(pairs: Iterable[tuple[str, float]]) -> str:
    return ", ".join(f"{name} {units.convert(height, 'm', 'mm'):.1f}" for name, height in pairs)


def _missing(settlement: Settlement) -> Iterable[Any]:
    yield Notes(title=f"Tilt and distortion are {NOT_KNOWN_WORDS}", lines=TO_ENTER, span=8)
    if settlement.stations:
        yield Table(title="Stations read so far", how=False, records=settlement.stations,
                    shows=show("name letter number x y level", name=_STATION))  # fmt: skip


_STATION = Show(attr="name", title="Station", width=12)
_FINE = {attr: Show(attr=attr, format="0.0000") for attr in ("difference", "off", "bend", "alarm", "stop")}
_SLOPE = {attr: Show(attr=attr, title=title, format="0.00000", width=12) for attr, title in (
    ("now_x", "Slope east now"), ("now_y", "Slope north now"), ("slope_x", "Target slope east"),
    ("slope_y", "Target slope north"), ("distortion", "Distortion"),
)}  # fmt: skip


def _found(settlement: Settlement) -> Iterable[Any]:
    house = settlement.house[0]
    yield Listing(title="In short", record=house, column=4, text_span=5, shows=(
        Show(attr="state", title="The house is"),
        Show(attr="tilt_verdict", title="Tilt of the whole"),
        Show(attr="tilt_in", title="Tilt: 1 in (0: none)", format="0"),
        Show(attr="greatest", title="Greatest lift", format="0.0000", name="levelling_greatest"),
        Show(attr="total", title="All lifts added up", format="0.0000", name="levelling_total"),
        Show(attr="rise", title="Common rise, once it is level", name="levelling_rise"),
        Show(attr="course", title="Read at the stations"),
        Show(attr="stations"), Show(attr="spread", title="Highest less lowest", format="0.0000"),
        Show(attr="settled", title="Settled: 1, level: 0"), Show(attr="tilt", format="0.00000"),
        Show(attr="tilt_alarm", title="Tilt that is corrected", format="0.00000"),
        Show(attr="tilt_stop", title="Tilt that stops a lift", format="0.00000"),
        Show(attr="tilt_over", title="Tilt is over that: 1, else 0"),
        Show(attr="distortion", title="Greatest distortion between neighbours", format="0.00000"),
        Show(attr="tilt_left", title="Tilt that stays", format="0.00000"),
        Show(attr="mean", title="Mean lift", format="0.0000"),
        Show(attr="difference", title="Neighbours may come further apart by", format="0.0000"),
        Show(attr="call", title="Greatest stroke in one call", format="0.0000"),
    ))  # fmt: skip
    yield Table(title="Lift of each station", records=settlement.lifts, shows=show(
        "name letter number x y level target lift", name=_STATION,
        lift=Show(attr="lift", format="0.0000", total=True)))  # fmt: skip
    yield Notes(title="How it is done", lines=WORKING, span=12)
    if settlement.why_not:
        yield Notes(title="STOP: no strokes were found that keep neighbours together",
                    lines=(f"{settlement.why_not}. Give a shorter call or step on Allowances.",), span=12)  # fmt: skip
    if settlement.counts:
        yield Table(title="Strokes in short", records=settlement.counts, how=False, shows=show(
            "calls strokes longest excess rise_calls rise_stroke", longest=Show(attr="longest", format="0.0000"),
            excess=Show(attr="excess", title="Neighbours further apart, at most", format="0.0000"),
            rise_calls=Show(attr="rise_calls", title="Calls of the common rise"),
            rise_stroke=Show(attr="rise_stroke", title="Stroke of each of them", format="0.0000")))  # fmt: skip
        yield Table(title="Strokes, call by call, in the order in which they are made", how=False,
                    records=calls_shown(settlement.strokes), shows=show(
                        "call strokes lifted", strokes=Show(attr="strokes", title="Stroke of each station (mm)",
                                                            width=9.3 * 5, span=5),
                        lifted=Show(attr="lifted", title="Lifted since the start (mm)", width=9.3 * 5, span=5)),
                    note="As at issue; the line under the heading says when a level has changed.")  # fmt: skip
    if settlement.pairs:
        yield Table(title="Neighbours as the house stands", records=settlement.pairs, verdict="verdict", shows=show(
            "one other line east north distance difference off bend alarm stop distortion one_in verdict", **_FINE,
            **_SLOPE, one=Show(attr="one", title="Station", width=12), other=Show(attr="other", title="Neighbour"),
            line=Show(attr="line", title="Grid line"), one_in=Show(attr="one_in", title="1 in (0: none)", format="0"),
            verdict=Show(attr="verdict", width=38)))  # fmt: skip
    yield Table(title="Planes", records=settlement.planes, shows=show(
        "now_x now_y height slope_x slope_y", height=Show(attr="height", title="Target height"), **_SLOPE),
        note="Worked out at issue: slopes of the house as it stands, and of the plane it is lifted to.")  # fmt: skip
    if settlement.walls:
        yield Table(title="What neighbours may come apart in each wall while it is lifted", records=settlement.walls,
                    how=False, note="The movement difference of Allowances; half of it in rubble, and in mud, lime or "
                    "unknown mortar.",
                    shows=show("name masonry mortar weak difference", name=Show(attr="name", title="Mark", width=12),
                               masonry=Show(attr="masonry", width=9.3 * 2, span=2), **_FINE))  # fmt: skip
