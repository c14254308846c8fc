"""Budget or released for lifting: what is asked for, and what is missing.

Covers   the list of answers without which no house is lifted, counted live from the survey.
Not      the checks themselves (checks).
Signs    a count of open answers; 0 is answered.
Units    No.
Sources  common practice, no source: the list of this project; local codes and the licensed engineer come first.

Strength of walls and columns of the raised house and its settlement are not worked out: until they are, that line
stays open and the grade stays `budget`.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from calc.fields import note, quantity
from calc.levels import Levels
from calc.number import Number, Text, Truth, both, either, same, total, where, word_where
from calc.survey import Survey
from calc.take_down_rows import NOT_SURVEYED, BaseRow

UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WallAnswers:
    """What is still open about one wall; 1 is open."""

    wall: Text = note("wall")
    system: Number = quantity("No", "lifting system not chosen")
    stands_on: Number = quantity("No", "not known what its bases stand on")
    side: Number = quantity("No", "not known whether it is shared or touches a neighbour")
    shared: Number = quantity("No", "shared with or touching a neighbour")
    mortar: Number = quantity("No", "mortar not known")
    mud: Number = quantity("No", "built with mud: not lifted on jacks as planned here")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ColumnAnswers:
    """What is still open about one column; 1 is open."""

    column: Text = note("column")
    system: Number = quantity("No", "lifting system not chosen")
    bars: Number = quantity("No", "steel of a concrete column not known")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FootingAnswers:
    """What is still open about one footing; 1 is open."""

    footing: Text = note("footing of")
    unseen: Number = quantity("No", "not seen in a pit")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CrackAnswers:
    """One entry of the condition survey; 1 is open."""

    where: str = note("where it is")
    live: Number = quantity("No", "a crack that is live, or not known to be old")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Requirement:
    """One thing that must be answered before lifting."""

    what: str = note("what is asked for")
    missing: Number = quantity("No", "open answers")
    answer: Text = note("answered or missing")
    to_do: str = note("what to do")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Release:
    """The grade of the answer, and why."""

    walls: tuple[WallAnswers, ...]
    columns: tuple[ColumnAnswers, ...]
    footings: tuple[FootingAnswers, ...]
    cracks: tuple[CrackAnswers, ...]
    requirements: tuple[Requirement, ...]
    missing: Number = quantity("No", "answers still open")
    grade: Text = note("budget, or released")
    heading: Text = note("what the sheets say at their head")
    jack_heading: Text = note("what the sheets of the lift say at their head")


BUDGET_WORDS = "BUDGET, NOT FOR LIFTING: see what is missing"
NOT_RELEASED_WORDS = "NOT RELEASED FOR LIFTING: Checks lists what is missing"
RELEASED_WORDS = "Released for lifting by its engineer"


def release_of(
    survey: Survey,
    bases: Sequence[BaseRow],
    levels: Levels,
    stops: Number,
    unplaced: float,
    stations_known: int,
    jack_type_known: int,
) -> Release:
    """What is missing before the house may be lifted.

    Args:
        survey: the entries
        bases: ground walls and columns, with the footing each stands on
        levels: what was levelled
        stops: number of checks that say STOP [No]
        unplaced: walls and columns without a layout of jacks [No]
        stations_known: 1 where the stations of a settled house were levelled, else 0 [No]
        jack_type_known: 1 where the kit tells the type of the jacks in use, else 0 [No]
    """
    walls = tuple(
        WallAnswers(
            wall=w.name,
            system=_open(w.system),
            stands_on=_open(w.stands_on),
            side=_open(w.side),
            shared=where(either(same(w.side, "shared"), same(w.side, "touching")), 1, 0),
            mortar=_open(w.mortar),
            mud=where(either(same(w.mortar, "mud"), same(w.masonry, "Mud masonry")), 1, 0),
        )
        for w in survey.walls
        if w.storey == 1
    )
    columns = tuple(
        ColumnAnswers(column=c.name, system=_open(c.system),
                      bars=where(both(same(c.material, "Reinforced concrete"), _not(c.bars.given)), 1, 0))
        for c in survey.columns if c.storey == 1
    )  # fmt: skip
    footings = tuple(FootingAnswers(footing=f.label, unseen=where(same(f.seen, "yes"), 0, 1)) for f in survey.footings)
    cracks = tuple(
        CrackAnswers(where=c.where, live=where(both(same(c.what, "crack"), _not(same(c.live, "old"))), 1, 0))
        for c in survey.cracks
    )
    without = float(sum(base.footing == NOT_SURVEYED for base in bases))
    requirements = tuple(
        _requirements(
            survey, walls, columns, footings, cracks, without, levels, stops, unplaced, stations_known, jack_type_known
        )
    )
    missing = total([requirement.missing for requirement in requirements])
    shut = missing > 0
    return Release(
        walls=walls, columns=columns, footings=footings, cracks=cracks, requirements=requirements, missing=missing,
        grade=word_where(shut, "budget", "released"),
        heading=word_where(shut, BUDGET_WORDS, RELEASED_WORDS),
        jack_heading=word_where(shut, NOT_RELEASED_WORDS, RELEASED_WORDS),
    )  # fmt: skip


def _open(answer: Text) -> Number:
    return where(same(answer, UNKNOWN), 1, 0)


def _unsigned(text: Text) -> Number:
    return where(either(same(text, ""), same(text, UNKNOWN), same(text, "?")), 1, 0)


def _not(truth: Truth) -> Truth:
    return where(truth, 0, 1) > 0


def _requirements(
    survey: Survey,
    walls: Sequence[WallAnswers],
    columns: Sequence[ColumnAnswers],
    footings: Sequence[FootingAnswers],
    cracks: Sequence[CrackAnswers],
    without_footing: float,
    levels: Levels,
    stops: Number,
    unplaced: float,
    stations_known: int,
    jack_type_known: int,
) -> Iterable[Requirement]:
    job = survey.job
    proven = either(same(job.bearing_from, "test"), same(job.bearing_from, "inspected pits"))
    systems = total([row.system for row in walls]) + total([row.system for row in columns])
    shared, unseen = total([row.shared for row in walls]), total([row.side for row in walls])
    agreed = either(same(job.neighbours, "given"), same(job.neighbours, "not needed"))
    names = [
        (
            "Bearing pressure from a test or inspected pits",
            where(both(proven, job.bearing.given), 0, 1),
            "Open one pit outside and one at an inner wall, or test the soil",
        ),
        (
            "Footings seen in a pit",
            total([row.unseen for row in footings]) + without_footing,
            "Open a pit at each kind of footing and enter its sizes",
        ),
        ("Lifting system of each wall and column", systems, "Choose it on Walls and Columns"),
        ("What the jack bases stand on", total([row.stands_on for row in walls]), "Choose it on Walls"),
        (
            "Shared or touching walls",
            total([row.side for row in walls]),
            "Look at each side from the neighbour's ground",
        ),
        # A side nobody has looked at may touch a neighbour.
        ("Neighbours' consent", where(either(agreed, shared + unseen <= 0), 0, 1), "Get it in writing"),
        ("Mortar of each wall", total([row.mortar for row in walls]), "Scratch and test it at three places a wall"),
        ("Steel of concrete columns", total([row.bars for row in columns]), "Open up or scan each column"),
        ("Beams and bands looked for", where(same(job.beams_known, "yes"), 0, 1), "Open up at plinth and lintel level"),
        (
            "Levels that the reason calls for",
            1
            - levels.plinth_known
            + where(both(same(job.reason, "flooding"), levels.flood_known <= 0), 1, 0)
            + where(both(same(job.reason, "road higher than plinth"), levels.road_known <= 0), 1, 0),
            "Level floor and ground, and the flood mark or road the house is raised for",
        ),
        (
            "Grid points levelled where the house is to be levelled",
            where(same(job.reason, "levelling"), 1 - stations_known, 0),
            "Read floor or plinth top at three grid points or more that are not in one line",
        ),
        ("Walls built with mud", total([row.mud for row in walls]), "STOP item: not lifted; take engineering advice"),
        (
            "Cracks that are live or not known to be old",
            total([row.live for row in cracks]),
            "Put gauges on them; repair before lifting",
        ),
        (
            "Condition sound or fair",
            where(either(same(job.condition, "sound"), same(job.condition, "fair")), 0, 1),
            "Survey it; a house in poor condition is repaired first",
        ),
        (
            "No storey or basement below",
            where(either(same(job.reason, "new storey below"), same(job.reason, "basement below")), 1, 0),
            "Temporary works and underpinning are designed by an engineer",
        ),
        ("House empty of people", where(same(job.empty, "yes"), 0, 1), "Agree it with the owner in writing"),
        (
            "Wind of the place",
            where(job.wind_speed.given, 0, 1) + _open(job.terrain),
            "Enter basic wind speed and terrain; until then stability is looked at only up to the wind at which work "
            "stops",
        ),
        ("Cut level", where(job.cut_level.given, 0, 1), "Set it once the plinth has been opened"),
        (
            "Carrier beams left in or taken out",
            where(either(same(job.beams_left_in, "yes"), same(job.beams_left_in, "no")), 0, 1),
            "Decide it",
        ),
        ("Age of new masonry when the load comes back", where(job.transfer_age.given, 0, 1), "Decide it"),
        (
            "Levelling instrument",
            where(same(job.instrument, "rod and rule at every jack with optical level"), 0, 1),
            "Name it",
        ),
        (
            "Every jack placed",
            unplaced,
            "See the remarks of each wall beside its jacks: what stands in the way, what helps",
        ),
        (
            "Type of the jacks in use",
            1 - jack_type_known,
            "Enter the jacks of that rating in the kit: kind, rating, closed height, number",
        ),
        (
            "Walls, columns and settlement checked by the engineer",
            1.0,
            "Strength of walls and columns of the raised house and settlement are not worked out here",
        ),
        ("No check says STOP", stops, "See Checks"),
        (
            "Engineer's name and licence",
            _unsigned(job.engineer) + _unsigned(job.licence),
            "Entered by the licensed engineer, last of all",
        ),
        (
            "Date of the release",
            where(job.release_date.given, 0, 1),
            "Entered by the licensed engineer with the name",
        ),
    ]
    for what, missing, to_do in names:
        yield Requirement(
            what=what, missing=missing, answer=word_where(missing > 0, "missing", "answered"), to_do=to_do
        )
