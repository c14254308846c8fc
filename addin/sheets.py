"""Which results stand on which sheet, in the order they are worked out.

Covers   pages of the issued workbook but the survey sheets, the Basis text and what is kept at issue.
Not      where cells stand and how they look (result_book).
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from typing import Any

from addin.jack_sheets import jack_pages
from addin.levelling_sheet import LEVELLING_SHEET, WHAT_IT_SAYS, levelling_page
from addin.lifting_sheet import (
    HOLD_LOADS_SHEET,
    LIFT_WORKINGS_SHEET,
    LIFTING_SHEET,
    WHAT_HOLD_LOADS,
    WHAT_LIFT_WORKINGS,
    WHAT_LIFTING,
    hold_loads_page,
    lift_workings_page,
    lifting_page,
)
from addin.result_book import Listing, Notes, Page, Show, Table, show
from calc.estimate import Estimate
from calc.fields import note, quantity
from calc.measure import MeasuredLine
from calc.number import Number, Text
from calc.own_rows import OwnLoads
from calc.survey import Survey
from calc.take_down_rows import MemberTotal, StoreyBlock

TABS = (
    "Contents", "Offer", "Bill", "Since issue", "Measurement", "Rise", "Plan", "Jacks", "Lifting", HOLD_LOADS_SHEET,
    "Lift log", "Jack checks", "Carrier beams", LEVELLING_SHEET, "Loads", "Ground check", "Checks", "Basis",
    "Followed through", "Workings", "Own loads", "Geometry", "Centre", LIFT_WORKINGS_SHEET, "Plan data", "Log stages",
    "Log workings", "At issue",
)  # fmt: skip
"""Result sheets in the order of their tabs."""

PLAN_DATA_SHEET = "Plan data"
"""The result sheet whose cells the plan is drawn from."""

LOG_STAGES_SHEET, LOG_WORKINGS_SHEET = "Log stages", "Log workings"
"""The result sheets behind the lift log."""

LAST_ISSUE_SHEET = "Since issue"
"""The result sheet that keeps the bill as it was issued."""

FINDINGS_SHEET = "Findings"
"""The sheet on which buttons of the add-in show their answers; never part of an issue."""

WHAT = {
    "Offer": "What will be done, for how much, and what is still missing: for the owner",
    "Bill": "Every item of work with quantity, rate and amount, by stage",
    "Since issue": "Quantity, rate and amount of every item when this workbook was issued and now",
    "Measurement": "Where each quantity comes from, line by line",
    "Rise": "How far to raise, and what governs",
    "Plan": "The ground storey to scale: walls, openings, columns, jacks, centre of load",
    "Jacks": "Where every jack stands, what it carries, its base and its circuit",
    "Jack checks": "Each wall and column with its jacks, circuits, every state, the counts of the bill",
    "Carrier beams": "Beams to buy or hire, their strength in every state; masonry, needles and collars",
    LIFTING_SHEET: WHAT_LIFTING,
    HOLD_LOADS_SHEET: WHAT_HOLD_LOADS,
    LEVELLING_SHEET: WHAT_IT_SAYS,
    "Lift log": "For the day of the lift: type what is read at each stage, see deviation, tilt and a verdict at once",
    "Loads": "What each wall and column carries, storey by storey; the house total; what stays",
    "Ground check": "Pressure under each wall before, trenched, on jacks and after",
    "Checks": "Every check with demand, capacity and verdict; what is missing before the house may be lifted",
    "Basis": "Assumptions, sources, doubtful entries, cautions",
    "Followed through": "The heaviest wall from its own weight to the ground, each step in words and in figures",
    "Workings": "Lengths, areas and counts that the measured lines are made from",
    "Own loads": "Weight of every part: walls, openings, slabs, beams, columns, attached things",
    "Geometry": "Grid, walls, sides of rooms",
    "Centre": "Centre of what is lifted, part by part",
    LIFT_WORKINGS_SHEET: WHAT_LIFT_WORKINGS,
    "Plan data": "Where every stroke and mark of the plan stands",
    "Log stages": "Lift log stage by stage: plane, tilt, bend, state of what is entered (0 within the limits "
    "set, 1 correct it, 2 STOP, 4 not measured)",
    "Log workings": "Lift log at the stage looked at: plane, each station off it, bend of neighbours, verdicts",
    "At issue": "What was worked out when this workbook was issued, and whether it still holds",
}

_NAME = Show(attr="name", title="Mark", width=10)
_TOTAL = {attr: Show(attr=attr, total=True) for attr in ("gross", "dead", "lifted", "imposed", "service", "stays")}


CAUTIONS = (
    "The figures prepare a decision and do not replace one. They rest on the survey and on the conventions shown on "
    "Basis and Allowances.",
    "Ground, footings, masonry, mortar and steel are confirmed on site before any lifting. What is found otherwise "
    "changes the price at the rates of the bill.",
    "No one stays in the house from the first cut until the load is back on masonry. Nobody is under a load "
    "that stands "
    "on jacks alone.",
    "Approval rests with the licensed engineer and the local authority; local codes come before this estimate.",
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OfferFigures:
    """What the owner reads first."""

    job_name: Text = note("job")
    client: Text = note("for")
    place: Text = note("place")
    reason: Text = note("reason")
    rise: Number = quantity("m", "rise")
    raised: Number = quantity("m", "floor above ground afterwards")
    floor_area: Number = quantity("m2", "floor area, all storeys")
    lifted: Number = quantity("kN", "weight on the jacks")
    jacks: Number = quantity("No", "jacks in use")
    works: Number = quantity("money", "works")
    overheads: Number = quantity("money", "overheads")
    profit: Number = quantity("money", "profit")
    contingency: Number = quantity("money", "contingency")
    tax: Number = quantity("money", "tax")
    total: Number = quantity("money", "price")
    per_floor_area: Number = quantity("money/m2", "price per m2 of floor")
    missing: Number = quantity("No", "answers still open before lifting")
    stops: Number = quantity("No", "checks that say STOP")


def pages(found: Estimate, survey: Survey, job_texts: dict[str, Text]) -> tuple[Page, ...]:
    """Every result page, in the order in which cells are placed: what is worked out first comes first."""
    own = found.taken.own
    return (
        _geometry(survey, own),
        _own_loads(own),
        _loads(found),
        _centre(found),
        _rise(found),
        *jack_pages(found),
        levelling_page(found.settlement, found.release.jack_heading),
        _ground(found),
        _workings(found),
        _measurement(found),
        _bill(found),
        _since(found),
        _plan_data(found),
        lift_workings_page(found.lifting, found.release.jack_heading),
        lifting_page(found.lifting, found.release.jack_heading),
        hold_loads_page(found.lifting, found.release.jack_heading),
        _checks(found),
        _offer(found, job_texts),
    )


def _heading(found: Estimate) -> Any:
    return found.release.heading


def _geometry(survey: Survey, own: OwnLoads) -> Page:
    line = show("name from_letter from_number to_letter to_number x_start y_start x_end y_end dx dy length", name=_NAME)
    grid = show("name wall half clear offset", name=Show(attr="name", title="Line", width=10))
    sides = show(
        "panel from_letter from_number to_letter to_number x_start y_start x_end y_end length wall next_wall turn half "
        "lost corner cross cross_x cross_y"
    )
    weights = ("concrete", "plain_concrete", "plaster", "brick", "water", "fill")
    blocks: tuple[Any, ...] = (
        Listing(title="Unit weights used by name", record=own.weights, column=4,
                shows=tuple(Show(attr=item, name=f"{item}_weight") for item in weights)),
        Table(title="Letter lines", records=survey.letters, shows=grid),
        Table(title="Number lines", records=survey.numbers, shows=grid),
        Table(title="Walls as entered, blanks filled in", how=False, records=survey.walls, shows=show(
            "name level thickness height masonry mortar plastered at_lift side system stands_on", name=_NAME,
            level=Show(attr="level", title="Storey"), masonry=Show(attr="masonry", width=16),
            system=Show(attr="system", width=18), stands_on=Show(attr="stands_on", width=14))),
        Table(title="Rooms as entered, blanks filled in", how=False, records=survey.rooms, shows=show(
            "name slab_thickness finish slope soffit use carries", name=Show(attr="name", title="Room", width=14),
            use=Show(attr="use", width=16), carries=Show(attr="carries", title="On the slab", width=18))),
        Table(title="Walls", records=own.wall_lines, shows=line),
        Table(title="Beams", records=own.beam_lines, shows=line),
        Table(title="Members", records=own.members, shows=show(
            "name kind storey x_start y_start dx dy length across unit_weight goes_up ceiling slab", name=_NAME),
            note="Where every wall, beam, column and slab is."),
        Table(title="Sides of rooms", records=own.sides, shows=sides,
              note="Each side of each room, cut where its wall or beam changes; area and centroid by cross sums."),
        Table(title="Floors", records=own.rooms, shows=show(
            "room panel storey floor area clear", area=Show(attr="area", total=True),
            clear=Show(attr="clear", total=True))),
    )  # fmt: skip
    return Page(title="Geometry", heading="Geometry", help=WHAT["Geometry"], blocks=_with_rows(blocks))


def _with_rows(blocks: Iterable[Any]) -> tuple[Any, ...]:
    """Blocks that have something to show: a table without rows says nothing to its reader."""
    return tuple(block for block in blocks if not isinstance(block, Table) or block.records)


def _own_loads(own: OwnLoads) -> Page:
    item = Show(attr="name", title="Item", width=14)
    blocks: tuple[Any, ...] = (
        Listing(title="In the lift", record=own.lift, column=4, shows=(
            Show(attr="imposed_share", name="imposed_share"), Show(attr="balcony", name="balcony_imposed"),
            Show(attr="stair", name="stair_imposed"))),
        Table(title="Storeys", records=own.storeys, shows=show("name base wall_height ceiling slab")),
        Table(title="Walls that meet", records=own.meetings, shows=show("wall other kind other_thickness deducted")),
        Table(title="Walls", records=own.walls, shows=show(
            "name level thickness height masonry unit_weight plastered surface length deducted gross openings dead "
            "openings_lift at_lift goes_up rebuilt lifted base x y z", name=_NAME,
            masonry=Show(attr="masonry", width=16),
            level=Show(attr="level", title="Storey"), **_only(_TOTAL, "gross dead lifted"))),
        Table(title="Openings", records=own.openings, shows=show(
            "wall kind from_start width height sill told area surface thickness unit_weight frame lintel_length lintel "
            "change storey goes_up blocked block_up frame_out change_lift", told=Show(attr="told", title="Block up"))),
        Table(title="Openings: where they are", records=own.openings, shows=show(
            "wall wall_length along x_wall y_wall dx dy base x y z z_lintel")),
        Table(title="Slabs, roofs and suspended floors", records=own.panels, shows=show(
            "panel room kind level area thickness finish slope dead use flat imposed lifted x y base ceiling "
            "own_soffit soffit z",
            level=Show(attr="level", title="Storey"), use=Show(attr="use", width=18))),
        Table(title="What each side of a slab carries", records=own.shares, shows=show(
            "panel carrier how length area other fraction by_45 one_way slender two_way share outside "
            "breadth corners strip loaded dead imposed lifted",
            **_only(_TOTAL, "dead imposed lifted"))),
        Table(title="Beams", records=own.beams, shows=show(
            "name storey length breadth depth dead x y soffit z", name=_NAME)),
        Table(title="Columns and pillars", records=own.columns, shows=show(
            "name level letter number breadth depth height material unit_weight dead x y base z", name=_NAME,
            level=Show(attr="level", title="Storey"), material=Show(attr="material", width=16))),
        Table(title="Attached things", records=own.attached, shows=show(
            "name kind on material from_start member_length length thickness size unit_weight plaster dead "
            "volume water "
            "walked_on people imposed lifted", name=item, **_only(_TOTAL, "dead imposed lifted"))),
        Table(title="Attached things: where they are", records=own.attached, shows=show(
            "name along x_start y_start dx dy ceiling slab x y z", name=item)),
    )  # fmt: skip
    return Page(title="Own loads", heading="Own loads of every part", help=WHAT["Own loads"], blocks=_with_rows(blocks))


def _only(shows: dict[str, Show], attrs: str) -> dict[str, Show]:
    return {attr: shows[attr] for attr in attrs.split()}


def _loads(found: Estimate) -> Page:
    taken = found.taken
    blocks: list[Any] = [
        Listing(title="The house", record=taken.house, column=4, shows=show(
            "dead imposed service lifted stays went_in balance lifted_parts centre_balance x y z floor_area",
            dead=Show(attr="dead", name="house_dead"), imposed=Show(attr="imposed", name="house_imposed"),
            service=Show(attr="service", name="house_service"), lifted=Show(attr="lifted", name="house_lifted"),
            lifted_parts=Show(attr="lifted_parts", name="house_lifted_parts"),
            stays=Show(attr="stays", name="house_stays"), went_in=Show(attr="went_in", name="house_went_in"),
            floor_area=Show(attr="floor_area", name="floor_area"))),
        Table(title="Attached things, who carries them", records=taken.parts,
              shows=show("item carrier fraction dead imposed lifted", item=Show(attr="item", width=14))),
    ]  # fmt: skip
    for block in taken.blocks:
        blocks += _storey_blocks(block)
    blocks += [
        Table(
            title="Footings",
            records=taken.footings,
            shows=show(
                "label plinth_thickness plinth_height width depth thickness material unit_weight",
                label=Show(attr="label", title="For", width=12),
                material=Show(attr="material", width=12),
            ),
        ),
        Table(
            title="Ground walls and columns at the cut level",
            records=taken.bases,
            shows=show(
                "name member footing length masonry footing_plinth plinth_thickness plinth_height plinth_left "
                "cut_band goes_up dead "
                "imposed service lifted line_service line_lifted",
                name=_NAME,
                member=Show(attr="member", title="Kind"),
                footing=Show(attr="footing", width=12),
                **_only(_TOTAL, "dead imposed service lifted"),
            ),
        ),
        Table(
            title="What stays below the cut",
            records=taken.bases,
            shows=show(
                "name width footing_thickness footing_unit_weight plinth footing_weight stays",
                name=_NAME,
                **_only(_TOTAL, "stays"),
            ),
        ),
        Table(
            title="Greatest load along each wall",
            records=found.greatest,
            shows=show("name greatest stretch", name=_NAME),
            note="Worked out at issue, along the wall and not on the mean.",
        ),
        Table(
            title="Loads filed by name, added up from both ends",
            records=taken.filed_sums,
            shows=show("what filed found gap", what=Show(attr="what", width=24)),
        ),
    ]
    return Page(title="Loads", heading="Load take-down", help=WHAT["Loads"], blocks=_with_rows(blocks),
                warning=_heading(found))  # fmt: skip


def _storey_blocks(block: StoreyBlock) -> list[Any]:
    down = show(
        "name own slabs attached beams above dead slabs_imposed attached_imposed beams_imposed above_imposed imposed "
        "service", name=_NAME, **_only(_TOTAL, "dead imposed service"))  # fmt: skip
    up = show("name own_lifted slabs_lifted attached_lifted beams_lifted above_lifted lifted", name=_NAME,
              **_only(_TOTAL, "lifted"))  # fmt: skip

    def both(title: str, rows: Sequence[MemberTotal], note: str = "") -> list[Any]:
        return [Table(title=title, records=rows, shows=down, note=note),
                Table(title=f"{title}: in the lift", records=rows, shows=up)]  # fmt: skip

    stand = show("beam support letter number x_beam y_beam dx dy x y at start end beam_length",
                 at=Show(attr="at", title="Stands at"))  # fmt: skip
    draw = show("beam support beam_dead beam_imposed beam_lifted fraction_dead fraction_imposed fraction_lifted dead "
                "imposed lifted")  # fmt: skip
    blocks: list[Any] = []
    for order, (beams, rests) in enumerate(zip(block.beams, block.drawn, strict=True), start=1):
        label = f"Storey {block.storey}, beams {order}"
        blocks += [
            *both(label, beams, "A beam that is carried by another comes before it."),
            Table(title=f"{label}: where their supports stand", records=rests, shows=stand),
            Table(title=f"{label}: what their supports draw", records=rests, shows=draw),
        ]
    groups: tuple[tuple[str, Sequence[MemberTotal]], ...] = (("walls", block.walls), ("columns", block.columns))
    for kind, rows in groups:
        blocks += both(f"Storey {block.storey}, {kind}", rows)
    if block.passed:
        blocks.append(Table(title=f"Storey {block.storey}: what it stands on", records=block.passed, shows=show(
            "upper lower through upper_dead upper_imposed upper_lifted fraction_dead fraction_imposed "
            "fraction_lifted dead imposed lifted")))  # fmt: skip
    return blocks


def _centre(found: Estimate) -> Page:
    return Page(
        title="Centre", heading="Centre of what is lifted", help=WHAT["Centre"],
        blocks=(
            Table(title="What went in", records=found.taken.went_in, shows=show(
                "what load", what=Show(attr="what", width=34))),
            Table(title="Parts", records=found.taken.centre, shows=show(
                "what lifted x y z moment_x moment_y moment_z", what=Show(attr="what", width=34),
                **{a: Show(attr=a, total=True) for a in ("lifted", "moment_x", "moment_y", "moment_z")})),
        ),
    )  # fmt: skip


def _rise(found: Estimate) -> Page:
    named = {attr: Show(attr=attr, name=attr + "_in_use") for attr in ("plinth", "road", "flood", "rise")}
    return Page(
        title="Rise",
        heading="How far to raise",
        help=WHAT["Rise"],
        blocks=(
            Listing(
                title="Rise",
                record=found.levels,
                shows=show(
                    "plinth road flood plinth_known road_known flood_known by_road by_flood by_rule needed "
                    "least_rise rise raised by_road_counts by_flood_counts by_levels governed_by",
                    by_road=Show(attr="by_road", name="needed_by_road"),
                    by_flood=Show(attr="by_flood", name="needed_by_flood"),
                    needed=Show(attr="needed", name="needed_plinth"),
                    least_rise=Show(attr="least_rise", name="least_rise"),
                    raised=Show(attr="raised", name="raised_plinth"),
                    governed_by=Show(attr="governed_by", name="governed_by"),
                    **named,
                ),
            ),
            Listing(
                title="From the readings",
                record=found.levels.means,
                shows=show(
                    "lowest grounds ground floors floor roads road floods flood",
                    **{
                        a: Show(attr=a, name=f"read_{a}")
                        for a in ("lowest", "grounds", "ground", "floors", "floor", "roads", "road", "floods", "flood")
                    },
                ),
            ),
            Table(
                title="Level readings",
                records=found.readings,
                shows=show(
                    "what level plinth floor_level ground road flood road_level flood_level",
                    what=Show(attr="what", width=34),
                ),
            ),
        ),
    )


def _ground(found: Estimate) -> Page:
    return Page(
        title="Ground check",
        heading="Pressure under each wall",
        help=WHAT["Ground check"],
        warning=_heading(found),
        blocks=(
            Table(
                title="Strip footings, gross service pressure",
                records=found.pressures,
                shows=show(
                    "name width line_service line_lifted line_below sides masonry new_thickness new_wall plinth "
                    "fill before trenched during after allowable underside",
                    name=_NAME,
                ),
                note="Backfill over the old footing is left out. During: under the jack bases.",
            ),
            *_with_rows(
                [
                    Table(
                        title="Footings of columns, square",
                        records=found.column_pressures,
                        shows=show(
                            "name width service lifted below breadth depth unit_weight new_shaft before "
                            "trenched after allowable "
                            "underside",
                            name=_NAME,
                        ),
                    ),
                ]
            ),
        ),
    )


def _workings(found: Estimate) -> Page:
    work = found.work
    groups: tuple[tuple[str, Sequence[Any]], ...] = (
        ("Ground walls", work.walls), ("Sides of ground rooms, seen from inside", work.sides),
        ("Ground rooms", work.rooms), ("The outside, stretch by stretch", work.edges),
        ("Wall length that bounds no room", work.loose), ("Ground columns and pillars", work.columns),
        ("Openings", work.openings), ("Walls taken down and rebuilt", work.rebuilt),
    )  # fmt: skip
    tables = tuple(Table(title=title, records=rows, shows=_every_field(rows)) for title, rows in groups if rows)
    figures = tuple(Show(attr=item.name, name=f"work_{item.name}") for item in fields(work.figures))
    return Page(
        title="Workings", heading="Workings of the measurement", help=WHAT["Workings"],
        blocks=(
            Listing(title="Depths and heights", record=work.figures, column=4, shows=figures), *tables,
            Listing(title="Not measured", record=work, column=4, shows=(Show(attr="unmeasured", name="unmeasured"),)),
        ),
    )  # fmt: skip


def _every_field(records: Sequence[Any]) -> tuple[Show, ...]:
    """All fields of the records as columns, the first wide enough for a name."""
    names = [item.name for item in fields(records[0])]
    return (Show(attr=names[0], width=14), *(Show(attr=name) for name in names[1:]))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LineShown(MeasuredLine):
    """A measured line with the unit that its item gives its quantity."""

    unit: str = note("unit")


def _measurement(found: Estimate) -> Page:
    units = {str(item.code): item.unit for item in found.items}
    lines = [LineShown(**{item.name: getattr(line, item.name) for item in fields(line)}, unit=units[str(line.code)])
             for line in found.lines]  # fmt: skip
    figures = {attr: Show(attr=attr, style="pb computed", format="0.00", width=10)
               for attr in ("number", "length", "breadth", "depth", "quantity")}  # fmt: skip
    return Page(
        title="Measurement", heading="Measurement", help=WHAT["Measurement"],
        blocks=(Table(title="Measured lines", how=False, records=lines, shows=show(
            "code what number length breadth depth quantity unit", code=Show(attr="code", width=8),
            what=Show(attr="what", width=44), unit=Show(attr="unit", width=8), **figures)),),
    )  # fmt: skip


def _bill(found: Estimate) -> Page:
    names = ("works", "overheads", "profit", "contingency", "tax", "total", "per_floor_area")
    return Page(
        title="Bill", heading="Bill of quantities", help=WHAT["Bill"], portrait=True,
        blocks=(
            Table(title="Items", how=False, records=found.bill, shows=show(
                "code description stage unit quantity rate amount", code=Show(attr="code", width=7),
                description=Show(attr="description", width=46), stage=Show(attr="stage", width=7),
                unit=Show(attr="unit", width=8), quantity=Show(attr="quantity", format="#,##0.00"),
                amount=Show(attr="amount", total=True, width=14))),
            Table(title="By stage", how=False, records=found.stages, shows=show(
                "stage name amount", stage=Show(attr="stage", width=7), name=Show(attr="name", width=70, span=5),
                amount=Show(attr="amount", total=True, width=14))),
            Listing(title="Price", record=found.totals, column=7, how=False, shows=tuple(
                Show(attr=attr, name=f"bill_{attr}" if attr != "per_floor_area" else "price_per_floor_area")
                for attr in names)),
        ),
    )  # fmt: skip


def _plan_data(found: Estimate) -> Page:
    view, name = found.view, Show(attr="name", title="Mark", width=16)
    ends = "across_start across_end up_start up_end"
    return Page(
        title=PLAN_DATA_SHEET, heading="Plan data", help=WHAT[PLAN_DATA_SHEET],
        blocks=_with_rows((
            Listing(title="Sheet", record=view.frame, column=4, shows=show(
                "west east south north x y size side margin far_margin north_start bar bar_end")),
            Table(title="Openings", records=view.openings, shows=show("wall kind near width far")),
            Table(title="Pieces of walls", records=view.pieces, shows=show(
                f"name kind length x_wall y_wall dx dy begins ends start_share end_share {ends}", name=_NAME)),
            Table(title="Scale and north", records=view.legend, how=False, shows=show(f"name kind {ends}", name=name)),
            Table(title="Marks", records=view.marks, shows=show("name kind across up", name=name)),
            *((Table(title="Jacks, as planned at issue", records=view.jacks, shows=show(
                "name circuit member kind x y across up", name=name)),) if view.jacks else ()),
        )),
    )  # fmt: skip


def _since(found: Estimate) -> Page:
    money = {attr: Show(attr=attr, width=12, total=True) for attr in ("amount_then", "amount", "difference")}
    measured = {attr: Show(attr=attr, format="#,##0.00") for attr in ("quantity_then", "quantity")}
    return Page(
        title="Since issue", heading="The bill when this workbook was issued, and now", help=WHAT["Since issue"],
        warning=_heading(found),
        blocks=(
            Table(title="Items then and now", how=False, records=found.since, shows=show(
                "code description unit quantity_then quantity rate_then rate amount_then amount difference",
                code=Show(attr="code", width=7), description=Show(attr="description", width=46), **measured, **money)),
        ),
    )  # fmt: skip


def _checks(found: Estimate) -> Page:
    release = found.release
    return Page(
        title="Checks",
        heading="Checks",
        help=WHAT["Checks"],
        warning=_heading(found),
        blocks=(
            Listing(
                title="In short",
                record=release,
                text_span=5,
                shows=(
                    Show(attr="grade", name="grade"),
                    Show(attr="missing", title="Answers still open", name="open_answers"),
                    Show(attr="heading", title="Heading", name="budget_heading"),
                    Show(attr="jack_heading", title="Heading of the lift", name="lift_heading"),
                ),
            ),
            Listing(
                title="Where a pressure holds",
                record=found.rules,
                how=False,
                text_span=5,
                shows=(
                    Show(attr="pressure_proven", name="pressure_proven"),
                    Show(attr="pressure_holds", title="Verdict", name="pressure_holds"),
                ),
            ),
            Table(
                title="What is asked for before the house may be lifted",
                how=False,
                records=release.requirements,
                verdict="answer",
                shows=show(
                    "what answer missing to_do",
                    what=Show(attr="what", width=44),
                    answer=Show(attr="answer", width=14),
                    to_do=Show(attr="to_do", width=70, span=6),
                ),
            ),
            Table(
                title="Checks",
                how=False,
                records=found.checks,
                verdict="verdict",
                shows=show(
                    "name state where demand capacity unit utilisation holds verdict source stops",
                    name=Show(attr="name", width=44),
                    state=Show(attr="state", width=14),
                    where=Show(attr="where", width=10),
                    demand=Show(attr="demand", format="0.00"),
                    capacity=Show(attr="capacity", format="0.00"),
                    unit=Show(attr="unit", width=10),
                    verdict=Show(attr="verdict", width=38),
                    utilisation=Show(attr="utilisation", format="0.00"),
                    source=Show(attr="source", width=30),
                ),
            ),
            Table(
                title="Open answers by wall",
                how=False,
                records=release.walls,
                shows=show("wall system stands_on side shared mortar mud", wall=Show(attr="wall", width=14)),
            ),
            Table(
                title="Open answers by column",
                how=False,
                records=release.columns,
                shows=show("column system bars", column=Show(attr="column", width=14)),
            ),
            Table(
                title="Open answers by footing",
                how=False,
                records=release.footings,
                shows=show("footing unseen", footing=Show(attr="footing", width=24)),
            ),
            Table(
                title="Open answers by crack",
                how=False,
                records=release.cracks,
                shows=show("where live", where=Show(attr="where", width=24)),
            ),
        ),
    )


def _offer(found: Estimate, texts: dict[str, Text]) -> Page:
    house, totals = found.taken.house, found.totals
    figures = OfferFigures(
        job_name=texts["job_name"], client=texts["client"], place=texts["place"], reason=texts["reason"],
        rise=found.levels.rise, raised=found.levels.raised, floor_area=house.floor_area, lifted=house.lifted,
        jacks=found.jack_totals.count, works=totals.works, overheads=totals.overheads, profit=totals.profit,
        contingency=totals.contingency, tax=totals.tax, total=totals.total, per_floor_area=totals.per_floor_area,
        missing=found.release.missing, stops=found.stops,
    )  # fmt: skip
    return Page(
        title="Offer",
        heading="Offer",
        help=WHAT["Offer"],
        portrait=True,
        one_page=True,
        warning=found.release.heading,
        blocks=(
            Listing(
                title="The job",
                record=figures,
                how=False,
                text_span=2,
                shows=show(
                    "job_name client place reason rise raised floor_area lifted jacks works "
                    "overheads profit contingency tax total per_floor_area "
                    "missing stops",
                    client=Show(attr="client", title="For"),
                    jacks=Show(attr="jacks", title="Jacks in use"),
                    raised=Show(attr="raised", title="Floor above ground afterwards"),
                    lifted=Show(attr="lifted", title="Weight on the jacks"),
                    total=Show(attr="total", title="Price", style="pb total"),
                    per_floor_area=Show(attr="per_floor_area", title="Price per floor area"),
                    missing=Show(attr="missing", title="Answers open before lifting"),
                    stops=Show(attr="stops", title="Checks that say STOP"),
                ),
            ),
            Table(
                title="By stage of work, before overheads",
                how=False,
                records=found.stages,
                shows=show(
                    "name amount",
                    name=Show(attr="name", title="Stage", width=46),
                    amount=Show(attr="amount", total=True, width=18),
                ),
            ),
            Table(
                title="What must be answered before the house may be lifted",
                how=False,
                verdict="answer",
                records=found.release.requirements,
                shows=show("what answer", what=Show(attr="what", width=46)),
            ),
            Notes(title="Cautions", lines=CAUTIONS, span=3),
        ),
    )
