"""The sheets Jacks and Carrier beams: the jack plan as a foreman sets it out and an engineer checks it.

Covers   which rows of the plan stand on which sheet, in which order and under which headings.
Not      where cells stand and how they look (result_book), any figure (calc).
Rules    the foreman's table comes first; what it rests on comes after.
"""

from collections.abc import Iterable, Sequence
from typing import Any

from addin.result_book import Listing, Page, Show, Table, show
from calc.estimate import Estimate
from calc.planned import PlanRows

_NAME = Show(attr="name", title="Mark", width=10)
_SMALL = "0.00E+00"
_USES = {f"by_{what}": Show(attr=f"by_{what}", title=f"Use by {what}", format="0.00")
         for what in ("bending", "shear", "web", "deflection", "jack", "packing", "ground")}  # fmt: skip
_USE = {"use": Show(attr="use", title="Greatest use", format="0.00"), "verdict": Show(attr="verdict", width=20),
        "state": Show(attr="state", width=13)}  # fmt: skip


def _issued(attr: str, **more: Any) -> Show:
    return Show(attr=attr, style="pb issued", **more)


def jacks_page(found: Estimate) -> Page:
    """The sheet Jacks.

    Args:
        found: the estimate
    """
    planned = found.planned
    blocks: list[Any] = [
        Listing(title="The house", record=found.jack_totals, column=4, shows=show(
            "count usable spares first planned by_load stress per_section per_plan",
            usable=Show(attr="usable", name="usable_load"), count=Show(attr="count", name="jack_count"))),
        *(_of_plan(planned) if planned else ()),
        Table(
            title="Count by load and spacing", records=found.jacks, verdict="governed_by",
            shows=show(
                "name member length lifted by_load by_spacing first extra count governed_by spacing mean peak uneven "
                "usable thickness section",
                name=_NAME, member=Show(attr="member", title="Kind"), governed_by=Show(attr="governed_by", width=12),
                first=Show(attr="first", title="By load and spacing"), extra=Show(attr="extra", title="Plan adds"),
                count=Show(attr="count", total=True, title="Jacks"), lifted=Show(attr="lifted", total=True),
            ),
            note="What the bill counts: it follows every edit; what the plan adds was worked out at issue.",
        ),
        Table(title="Jack bases", records=found.pads,
              shows=show("name kind count load allowable side thickness pressure", name=_NAME)),
    ]  # fmt: skip
    return Page(title="Jacks", heading="Jack plan", help="Where every jack stands, what it carries in every state, its "
                "base and circuit", warning=found.release.jack_heading, blocks=_with_rows(blocks))  # fmt: skip


def _of_plan(planned: PlanRows) -> Iterable[Any]:
    kilo = {attr: _issued(attr, title=title, format="0.0") for attr, title in (
        ("soft", "Reaction soft"), ("stiff", "Reaction stiff"), ("tributary", "Draws"), ("one_lost", "Worst lost"),
        ("uneven", "Worst uneven"))}  # fmt: skip
    yield Table(
        title="Every jack", records=planned.jacks, how=False,
        shows=show(
            "name member at across soft stiff one_lost lost_with uneven use governed_by base_side base_thickness base "
            "circuit release",
            name=Show(attr="name", title="Jack", width=9), member=Show(attr="member", title="Wall or column", width=9),
            at=_issued("at", title="From start", format="0.00"),
            across=_issued("across", title="Beside", format="0.00"),
            lost_with=Show(attr="lost_with", title="Lost then", width=9),
            use=_issued("use", format="0.00"), governed_by=Show(attr="governed_by", width=10),
            base_side=_issued("base_side", title="Base side", format="0.00"),
            base_thickness=_issued("base_thickness", title="Base thickness", format="0.00"),
            base=Show(attr="base", width=26), circuit=Show(attr="circuit", width=8),
            release=_issued("release", title="Re-seating pass", format="0"), **kilo,
        ),
        note="From start is along the wall from its From point; Beside is off its centre line, to the left. Reactions "
             "are predicted; worst cases carry the doubt about the weight. A jack without a circuit has its own valve.",
    )  # fmt: skip
    yield Table(
        title="Each wall and column", records=planned.members, how=False,
        shows=show(
            "name kind system jacks first least bound proven spread widest section side_by_side remark", name=_NAME,
            kind=Show(attr="kind", width=8), system=Show(attr="system", width=22),
            jacks=Show(attr="jacks", total=True), first=Show(attr="first", title="By load and spacing", total=True),
            least=_issued("least", title="Least found", format="0"), bound=_issued("bound", title="Not fewer than",
                                                                                     format="0"),
            proven=Show(attr="proven", width=12), spread=_issued("spread", format="0%"),
            widest=_issued("widest", title="Widest spacing", format="0.00"),
            section=Show(attr="section", title="Carrier beam", width=14),
            side_by_side=_issued("side_by_side", title="Beams", format="0"), remark=Show(attr="remark", width=48),
        ),
        note="The least number is for information: the plan spreads the load evenly. Spread is how far the load of a "
             "jack is from the mean of its wall.",
    )  # fmt: skip
    steering = "kind circuits single load x y margin least_share" if planned.circuits else "kind single why"
    yield Listing(title="Circuits of the house", record=planned.steering, column=4, how=False, text_span=6,
                  shows=show(steering, single=Show(attr="single", title="Jacks with a valve of their own"),
                             margin=Show(attr="margin", title="Centre of load inside the circuits by")))  # fmt: skip
    yield Table(
        title="Circuits", records=planned.circuits, how=False,
        shows=show(
            "name count force tributary share pressure deviation lost jacks", name=_NAME,
            count=_issued("count", title="Jacks", format="0"), force=_issued("force", format="0.0"),
            tributary=_issued("tributary", title="Its jacks draw", format="0.0"), share=_issued("share", format="0%"),
            pressure=_issued("pressure", format="#,##0"), deviation=_issued("deviation", format="0%"),
            lost=Show(attr="lost", title="When it is lost", width=34), jacks=Show(attr="jacks", width=60),
        ),
        note="One pressure a circuit: all its jacks push alike, whatever each draws; wall and beam pass on the rest.",
    )  # fmt: skip
    yield Table(
        title="Hardest worked jack in every state", records=planned.states, verdict="verdict",
        shows=show(
            "name state jack limit by_jack packing by_packing pressure allowed by_ground use verdict", name=_NAME,
            jack=_issued("jack", title="Jack carries"), limit=Show(attr="limit", title="It may carry"), **_USES,
            **_USE),
        note="Weight doubt included. In a state that passes the rating holds for the jack, and a temporary pressure "
             "for the ground.",
    )  # fmt: skip


def carrier_pages(found: Estimate) -> Sequence[Page]:
    """The sheet Carrier beams; none without a plan.

    Args:
        found: the estimate
    """
    planned = found.planned
    if planned is None:
        return ()
    blocks = (
        Table(title="Beams to buy or hire", records=planned.orders, shows=show(
            "name section beams run pieces splices length mass", name=_NAME, section=Show(attr="section", width=12),
            splices=Show(attr="splices", total=True), length=Show(attr="length", total=True),
            mass=Show(attr="mass", total=True))),
        Table(title="Walls in every state, all beams together", records=planned.beams, verdict="verdict", shows=show(
            "name state section beams factor span moment slenderness left plain shear shear_strength bending reaction "
            "bearing bends bends_most by_bending by_shear by_web by_deflection use verdict", name=_NAME,
            section=Show(attr="section", width=10), moment=_issued("moment", format="0.0"),
            span=_issued("span", format="0.00"), shear=_issued("shear", format="0.0"),
            reaction=_issued("reaction", format="0.0"), bends=Show(attr="bends", format="0.0000"),
            bends_most=Show(attr="bends_most", format="0.0000"), **_USES, **_USE),
            note="IS 800:2007 cl. 8.2.1.2, 8.2.2, 8.4.1, 8.7.3.1, 8.7.4, 9.2.2; deflection by common practice."),
        Table(title="Strength of one beam of each section", records=planned.sections, shows=show(
            "name mass area depth width web flange root straight ixx iyy zex zpx shear flanges web_bearing "
            "web_slenderness web_share web_buckling source", name=Show(attr="name", title="Section", width=10),
            source=Show(attr="source", width=34), area=_issued("area", format="0.00000"),
            **{attr: _issued(attr, format="0.0000")
               for attr in ("depth", "width", "web", "flange", "root", "straight")},
            **{attr: _issued(attr, format=_SMALL) for attr in ("ixx", "iyy", "zex", "zpx")},
            mass=_issued("mass", format="0.0"))),
        Table(title="Needles of twin beams", records=planned.needles, verdict="verdict", shows=show(
            "name section spacing span load moment bending shear shear_strength bearing bearing_most use verdict",
            name=_NAME, section=Show(attr="section", width=10), **_USE)),
        Table(title="Masonry cut, carried and let down", records=planned.masonry, verdict="verdict", shows=show(
            "name line_load thickness thrust arch_stress on_beam old old_bearing new_stress new closing closing_most "
            "use verdict", name=_NAME, closing=Show(attr="closing", format="0.0000"),
            closing_most=Show(attr="closing_most", format="0.0000"), **_USE)),
        Table(title="Collars of columns", records=planned.collars, verdict="verdict", shows=show(
            "name load girth height stress most use verdict", name=_NAME, **_USE)),
        Table(title="Old plinth beams on jacks", records=planned.plinth_beams, verdict="verdict", shows=show(
            "name moment modulus stress most use verdict", name=_NAME, moment=_issued("moment", format="0.0"), **_USE)),
    )  # fmt: skip
    return (Page(title="Carrier beams", heading="Carrier beams", help="Beams to buy or hire, their strength in every "
                 "state; masonry, needles and collars", warning=found.release.jack_heading,
                 blocks=_with_rows(blocks)),)  # fmt: skip


def _with_rows(blocks: Iterable[Any]) -> tuple[Any, ...]:
    """Blocks that have something to show."""
    return tuple(block for block in blocks if not isinstance(block, Table) or block.records)
