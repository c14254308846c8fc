"""The sheets Jacks, Jack checks and Carrier beams: the jack plan as a foreman sets it out and an engineer checks it.

Covers   which rows of the plan stand on which sheet, in which order and under which headings.
Not      where cells stand and how they look (result_book), any figure (calc).
Rules    the foreman's table comes first; what it rests on comes after.
"""

from collections.abc import Iterable, Sequence
from typing import Any

from addin.result_book import Listing, Page, Show, Table, show
from calc.estimate import Estimate
from calc.lift_kit import KitUse
from calc.planned import PlanRows

_NAME = Show(attr="name", title="Mark", width=10)
_SMALL = "0.00E+00"
_USES = {f"by_{what}": Show(attr=f"by_{what}", title=f"Use by {what}", format="0.00")
         for what in ("bending", "shear", "web", "deflection", "jack", "packing", "ground")}  # fmt: skip
_USE = {"use": Show(attr="use", title="Greatest use", format="0.00"),
        "verdict": Show(attr="verdict", width=27, span=3),
        "state": Show(attr="state", width=12)}  # fmt: skip


def _issued(attr: str, **more: Any) -> Show:
    return Show(attr=attr, style="pb issued", **more)


def jack_pages(found: Estimate) -> Sequence[Page]:
    """The sheets Jacks, Jack checks and Carrier beams; without a plan the counts alone.

    Args:
        found: the estimate
    """
    planned, head = found.planned, found.release.jack_heading
    house = Listing(title="The house", record=found.jack_totals, column=4, shows=show(
        "count usable spares first planned by_load stress per_section per_plan",
        count=Show(attr="count", title="Jacks in use", name="jack_count"),
        usable=Show(attr="usable", title="Usable load of one jack", name="usable_load"),
        spares=Show(attr="spares", title="Spare jacks on site"), first=Show(attr="first", title="By load and spacing"),
        planned=Show(attr="planned", title="Placed by the plan"), by_load=Show(attr="by_load", title="By load alone"),
        stress=Show(attr="stress", title="Load on the wall section"),
        per_section=Show(attr="per_section", title="By load, per area of wall section"),
        per_plan=Show(attr="per_plan", title="Per area of plan")))  # fmt: skip
    counts = (
        Table(
            title="Count by load and spacing", records=found.jacks, how=False,
            shows=show(
                "name member length lifted by_load by_spacing first extra count governed_by spacing mean peak uneven "
                "usable lines beams beam_mass base_thickness pocket_spacing thickness section",
                name=_NAME, member=Show(attr="member", title="Kind", width=12),
                governed_by=Show(attr="governed_by", width=9.3),
                first=Show(attr="first", title="By load and spacing"), extra=Show(attr="extra", title="Plan adds"),
                count=Show(attr="count", total=True, title="Jacks"), lifted=Show(attr="lifted", total=True),
            ),
            note="What the bill counts: it follows every edit; what the plan adds was worked out at issue.",
        ),
        Table(title="Jack bases", records=found.pads, how=False,
              shows=show("name kind count load allowable side thickness pressure", name=_NAME)),
        *((Table(title="Old footings, as if the bases stood on them", records=planned.old_footings, how=False,
                 shows=show("name stands_on on at_work_plan at_work worst_plan worst off side narrowest across widest "
                            "edge apart_plan spacing width half thickness spread along borne below level pressure",
                            name=_NAME, on=Show(attr="on", title="Bases on it"),
                            stands_on=Show(attr="stands_on", width=12))),) if planned else ()),
    )  # fmt: skip
    if planned is None:
        return (Page(title="Jacks", heading="Jacks", help=_HELP["Jacks"], warning=head, blocks=(house, *counts)),)
    return (
        Page(title="Jacks", heading="Jack plan", help=_HELP["Jacks"], warning=head,
             blocks=_with_rows((_every_jack(planned), house))),
        Page(title="Jack checks", heading="Jacks, wall by wall and state by state", help=_HELP["Jack checks"],
             warning=head, blocks=_with_rows((_members(planned), *counts, *_of_plan(planned)))),
        Page(title="Carrier beams", heading="Carrier beams", help=_HELP["Carrier beams"], warning=head,
             blocks=_with_rows(_carriers(planned))),
    )  # fmt: skip


_HELP = {
    "Jacks": "Where every jack stands, what it carries, its base and its circuit",
    "Jack checks": "Each wall and column with its jacks, circuits, every state, the counts of the bill",
    "Carrier beams": "Beams to buy or hire, their strength in every state; masonry, needles and collars",
}


def _every_jack(planned: PlanRows) -> Table:
    kilo = {attr: _issued(attr, title=title, format="0.0") for attr, title in (
        ("soft", "Reaction soft"), ("stiff", "Reaction stiff"), ("one_lost", "Worst lost"),
        ("uneven", "Worst uneven"))}  # fmt: skip
    return Table(
        title="Every jack", records=planned.jacks, how=False,
        shows=show(
            "name member at across soft stiff one_lost lost_with uneven use governed_by base_side base_length "
            "base_thickness base circuit release",
            name=Show(attr="name", title="Jack", width=9), member=Show(attr="member", title="Wall or column", width=8),
            at=_issued("at", title="From start", format="0.00"),
            across=_issued("across", title="Beside", format="0.00"),
            lost_with=Show(attr="lost_with", title="Lost then", width=8),
            use=_issued("use", format="0.00", width=7), governed_by=Show(attr="governed_by", width=9.3),
            base_side=_issued("base_side", title="Base side", format="0.00"),
            base_length=_issued("base_length", title="Base along", format="0.00"),
            base_thickness=_issued("base_thickness", title="Base thick", format="0.00"),
            base=Show(attr="base", width=26), circuit=Show(attr="circuit", width=8),
            release=_issued("release", title="Re-seating pass", format="0"), **kilo,
        ),
        note="From start is along the wall from its From point; Beside is off its centre line, to the left. Reactions "
             "are predicted; worst cases carry the doubt about the weight. A jack without a circuit has its own valve.",
    )  # fmt: skip


def _members(planned: PlanRows) -> Table:
    return Table(
        title="Each wall and column", records=planned.members, how=False,
        shows=show(
            "name system jacks first least bound proven spread widest section side_by_side remark", name=_NAME,
            system=Show(attr="system", width=21, span=2), first=Show(attr="first", title="By load and spacing"),
            least=_issued("least", title="Least found", format="0"),
            bound=_issued("bound", title="Not fewer than", format="0"), proven=Show(attr="proven", width=9.3),
            spread=_issued("spread", format="0%"), widest=_issued("widest", title="Widest spacing", format="0.00"),
            section=Show(attr="section", title="Carrier beam", width=9.3),
            side_by_side=_issued("side_by_side", title="Beams", format="0"),
            remark=Show(attr="remark", width=46, span=5),
        ),
        note="The least number is for information: the plan spreads the load evenly. Spread is how far the load of a "
             "jack is from the mean of its wall.",
    )  # fmt: skip


def _of_plan(planned: PlanRows) -> Iterable[Any]:
    steering = "kind circuits single load x y margin least_share" if planned.circuits else "kind single why"
    yield Listing(title="Circuits of the house", record=planned.steering, column=4, how=False, text_span=6,
                  shows=show(steering, kind=Show(attr="kind", title="Type of jack"),
                             single=Show(attr="single", title="Jacks with their own valve"),
                             x=Show(attr="x", title="Centre of that load, east"),
                             y=Show(attr="y", title="Centre of that load, north"),
                             margin=Show(attr="margin", title="Centre inside circuits by")))  # fmt: skip
    yield Table(
        title="Circuits", records=planned.circuits, how=False,
        shows=show(
            "name count force tributary share pressure deviation lost jacks", name=_NAME,
            count=_issued("count", title="Jacks", format="0", width=12), force=_issued("force", format="0.0"),
            tributary=_issued("tributary", title="Its jacks draw", format="0.0"), share=_issued("share", format="0%"),
            pressure=_issued("pressure", format="#,##0"), deviation=_issued("deviation", format="0%"),
            lost=Show(attr="lost", title="When it is lost", width=36, span=4),
            jacks=Show(attr="jacks", width=55, span=6),
        ),
        note="One pressure a circuit: all its jacks push alike, whatever each draws; wall and beam pass on the rest.",
    )  # fmt: skip
    yield Table(
        title="Bases that run into one another: poured as one", records=planned.plan.merged, how=False,
        shows=show("label overlap area level pressure passing",
                   label=Show(attr="label", title="Bases under", width=30, span=3),
                   overlap=_issued("overlap", format="0.000"), area=_issued("area", format="0.00"),
                   level=_issued("level", title="All at work", format="0.0"),
                   pressure=_issued("pressure", title="Mean pressure, uneven", format="0.0"),
                   passing=_issued("passing", title="Mean pressure, one lost", format="0.0")),
        note="Their concrete is one; the engineer looks at its edges and its bending.",
    )  # fmt: skip
    if planned.kit:
        yield from _kit(planned.kit)
    yield Listing(title="What a jack, its packing and its ground may take", record=planned.limits, column=4,
                  how=False, text_span=6,
                  shows=show("usable rated timber crushing area packing pressure passing widest_base"))  # fmt: skip
    yield Table(
        title="Hardest worked jack in every state", records=planned.states, verdict="verdict", how=False,
        shows=show(
            "name state passes jack limit by_jack by_packing side pressure allowed by_ground use verdict", name=_NAME,
            passes=_issued("passes", format="0"),
            jack=_issued("jack", title="Jack carries"), limit=Show(attr="limit", title="It may carry"), **_USES,
            **_USE),
        note="Weight doubt included. In a state that passes the rating holds for the jack, and a temporary pressure "
             "for the ground.",
    )  # fmt: skip


def _kit(kit: KitUse) -> Iterable[Any]:
    yield Table(title="Jacks of that type in the kit", records=kit.rows, how=False, shows=show(
        "name rating closed number counts", name=Show(attr="name", title="Entry", width=10),
        counts=Show(attr="counts", title="Reach the rating")))  # fmt: skip
    titles = {
        "name": "Type of jack", "each": "Jacks one man serves", "holds": "Holds by itself (1: yes)",
        "usual": "Usual share of its rating", "needed": "Jacks in use and spares", "there": "In the store and on hire",
        "people": "People at the jacks", "holding": "Packs kept tight beside them", "closed": "Closed height",
        "stack": "Jack, plates, least packing", "room": "Room under the deepest beam",
        "deeper": "To be dug deeper by", "high": "Packing at full rise", "partners": "Partner packs",
        "packing": "Timber of packing", "partner_packing": "Timber of partner packs",
    }  # fmt: skip
    yield Listing(title="Jacks and packing of the lift", record=kit, column=4, how=False, text_span=6,
                  shows=tuple(Show(attr=attr, title=title) for attr, title in titles.items()))  # fmt: skip


def _carriers(planned: PlanRows) -> Iterable[Any]:
    yield Table(title="Beams to buy or hire", records=planned.orders, how=False, shows=show(
        "name section beams wall run pieces splices length mass", name=_NAME, section=Show(attr="section", width=12),
        splices=Show(attr="splices", total=True), length=Show(attr="length", total=True),
        mass=Show(attr="mass", total=True)))  # fmt: skip
    by_state = {"name": _NAME, "moment": _issued("moment", format="0.0"), "span": _issued("span", format="0.00"),
                "shear": _issued("shear", format="0.0"), "reaction": _issued("reaction", format="0.0"), **_USES,
                **_USE}  # fmt: skip
    yield Table(
        title="Walls in every state, all beams together", records=planned.beams, verdict="verdict", how=False,
        shows=show(
            "name state section moment shear span reaction by_bending by_shear by_web by_deflection use verdict",
            section=Show(attr="section", width=9.3), **by_state),
        note="IS 800:2007 cl. 8.2.1.2, 8.2.2, 8.4.1, 8.7.3.1, 8.7.4, 9.2.2; deflection by common practice, no source.",
    )  # fmt: skip
    yield Table(
        title="Workings of these", records=planned.beams, how=False, shows=show(
            "name state section beams accident factor bent tie sideways twist warping critical slenderness curve left "
            "plain sheared shear_strength flanges taken bending bearing sag bends bends_most", name=_NAME,
            state=_USE["state"],
            beams=_issued("beams", format="0"), accident=_issued("accident", format="0"),
            critical=Show(attr="critical", format="#,##0"), sag=_issued("sag", format="0.000"),
            bends=Show(attr="bends", format="0.0000"),
            bends_most=Show(attr="bends_most", format="0.0000")))  # fmt: skip
    figures = {attr: _issued(attr, format="0.0000") for attr in ("depth", "width", "web", "flange", "root", "straight")}
    moduli = {attr: _issued(attr, format=_SMALL) for attr in ("ixx", "iyy", "zex", "zpx")}
    yield Table(
        title="Sections, from their table",
        records=planned.sections,
        how=False,
        shows=show(
            "name mass area depth width web flange root straight ixx iyy zex zpx source",
            name=Show(attr="name", title="Section", width=10),
            mass=_issued("mass", format="0.0", width=12),
            area=_issued("area", format="0.00000"),
            source=Show(attr="source", width=36, span=4),
            **figures,
            **moduli,
        ),
    )
    yield Table(title="Strength of one beam of each section", records=planned.sections, how=False, shows=show(
        "name sideways twist warping plastic stress plain capped bending shear flanges web_bearing web_slenderness "
        "web_curve web_share web_buckling over_jack", name=Show(attr="name", title="Section", width=10),
        sideways=Show(attr="sideways", width=12)))  # fmt: skip
    yield Table(title="A splice of one beam, where a piece is not long enough", records=planned.splices, how=False,
                shows=show("name shear moment flange_force flange_plate weld_size flange_weld web_weld",
                           name=Show(attr="name", title="Section", width=10), shear=Show(attr="shear", width=12),
                           flange_plate=Show(attr="flange_plate", format="0.00000")),
                note="Made for half of what the section takes at least; it stands where the moment is least, never "
                     "over a jack or in the middle of a span.")  # fmt: skip
    yield Table(title="Needles of twin beams", records=planned.needles, verdict="verdict", how=False, shows=show(
        "name section spacing lifted length thickness span load moment bending shear shear_strength bearing "
        "bearing_most use verdict", name=_NAME, section=Show(attr="section", width=12), **_USE))  # fmt: skip
    yield Listing(title="What masonry may take", record=planned.masonry_limits, column=4, how=False,
                  shows=show("arch_rise old bearing strength new closing",
                             closing=Show(attr="closing", format="0.0000")))  # fmt: skip
    yield Table(
        title="Masonry cut, carried and let down", records=planned.masonry, verdict="verdict", how=False, shows=show(
            "name lifted length line_load thickness new_thickness thrust arch_stress on_beam new_stress widest "
            "closing_most use verdict", name=_NAME, lifted=Show(attr="lifted", width=12),
            widest=_issued("widest", format="0.00"), closing_most=Show(attr="closing_most", format="0.0000"),
            **_USE))  # fmt: skip
    yield Table(title="Collars of columns", records=planned.collars, verdict="verdict", how=False, shows=show(
        "name load girth height stress most use verdict", name=_NAME, **_USE))  # fmt: skip
    yield Table(
        title="Old plinth beams on jacks", records=planned.plinth_beams, verdict="verdict", how=False, shows=show(
            "name moment modulus stress most use verdict", name=_NAME, moment=_issued("moment", format="0.0"),
            **_USE))  # fmt: skip


def _with_rows(blocks: Iterable[Any]) -> tuple[Any, ...]:
    """Blocks that have something to show."""
    return tuple(block for block in blocks if not isinstance(block, Table) or block.records)
