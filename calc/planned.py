"""A jack plan as rows a sheet shows: what was worked out at issue beside what stays live.

Covers   members, states of jacks and beams, orders, masonry, needles, collars, circuits.
Not      how the plan is found (jack_plan), its checks (plan_checks).
Signs    as in the rows.
Units    as in the rows.
Sources  as in the modules it calls.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from calc.allowances import Allowances
from calc.base_checks import OldFootingRow, old_footing_rows
from calc.bases import PadRow
from calc.carrier_rows import (
    BeamOrderRow,
    BeamStateRow,
    Lender,
    SectionRow,
    SpliceRow,
    beam_order_row,
    beam_state_row,
    section_columns,
    section_row,
    sections_in_use,
    splice_row,
)
from calc.fields import note, quantity
from calc.jack_lines import COLLAR, PLINTH_BEAM, TWIN, plinth_beam_along
from calc.jack_plan_rows import JackPlan, MemberPlan, PlannedJack
from calc.jack_sections import load_factor, needle_section
from calc.jack_state_rows import JackLimits, JackStateRow, jack_limits, jack_state_row
from calc.jack_supports import PlanBasis
from calc.jacks import JackRow, JackTotals
from calc.lift_kit import KitUse, kit_use, type_in_cells
from calc.lift_works import (
    CollarRow,
    MasonryLimits,
    MasonryRow,
    NeedleRow,
    PlinthBeamRow,
    collar_row,
    masonry_limits,
    masonry_row,
    needle_row,
    plinth_beam_row,
)
from calc.member_rules import MemberRules
from calc.number import Filed, Name, Number, maximum, text_of, value_of
from calc.plan_rows import Plan
from calc.survey import Survey
from calc.take_down_rows import BaseRow


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MemberPlanRow:
    """One wall or column of the plan."""

    name: Name = note("mark")
    kind: str = note("wall or column")
    system: str = note("lifting system")
    jacks: Number = quantity("No", "jacks of the plan")
    first: Number = quantity("No", "jacks by load and spacing")
    least: int = note("least number found; for information")
    bound: int = note("no layout with fewer exists")
    proven: str = note("whether the least number is proven")
    spread: float = quantity("-", "greatest distance of a tributary load from the mean, over the mean")
    widest: float = quantity("m", "widest spacing")
    section: str = note("carrier beam")
    side_by_side: int = note("beams side by side, or on both sides")
    remark: str = note("what is to be known")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CircuitRow:
    """One circuit."""

    name: Name = note("mark")
    count: int = note("jacks")
    force: float = quantity("kN", "it carries")
    tributary: float = quantity("kN", "its jacks draw")
    share: float = quantity("-", "of what is on circuits")
    pressure: float = quantity("kN/m2", "of its oil")
    deviation: float = quantity("-", "greatest difference of a jack's force from what it draws, over that")
    lost: str = note("what happens when it lets go")
    jacks: str = note("marks of its jacks")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SteeringRow:
    """Circuits of the house together."""

    kind: str = note("type of jack")
    circuits: int = note("circuits")
    single: int = note("jacks with a valve of their own")
    load: float = quantity("kN", "on circuits")
    x: float = quantity("m", "centre of that load, east")
    y: float = quantity("m", "centre of that load, north")
    margin: float = quantity("m", "from that centre to the nearest edge between circuits")
    least_share: float = quantity("-", "least share of that load on one circuit")
    why: str = note("why there are none")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlanRows:
    """Everything a jack plan shows."""

    plan: JackPlan
    members: tuple[MemberPlanRow, ...]
    jacks: tuple[PlannedJack, ...]
    limits: JackLimits
    states: tuple[JackStateRow, ...]
    sections: tuple[SectionRow, ...]
    beams: tuple[BeamStateRow, ...]
    orders: tuple[BeamOrderRow, ...]
    splices: tuple[SpliceRow, ...]
    kit: KitUse | None
    old_footings: tuple[OldFootingRow, ...]
    masonry_limits: MasonryLimits
    masonry: tuple[MasonryRow, ...]
    needles: tuple[NeedleRow, ...]
    collars: tuple[CollarRow, ...]
    plinth_beams: tuple[PlinthBeamRow, ...]
    steering: SteeringRow
    circuits: tuple[CircuitRow, ...]


def plan_rows(
    found: JackPlan, survey: Survey, plan: Plan, bases: Sequence[BaseRow], jacks: Sequence[JackRow],
    pads: Sequence[PadRow], rise: Number, totals: JackTotals, basis: PlanBasis, rules: MemberRules, allow: Allowances,
) -> PlanRows:  # fmt: skip
    """The rows of a jack plan, in the kind of number of the survey.

    Args:
        found: the plan, on floats
        survey: the entries
        plan: who carries whom
        bases: ground walls and columns at the cut level
        jacks: counts of jacks, the plan's included
        pads: jack bases
        rise: of the house [m]
        totals: jacks of the house
        basis: tables the plan was worked out with
        rules: figures of the codes, in the kind of number of the survey
        allow: the allowances
    """
    return _Rows(found, survey, plan, bases, jacks, pads, rise, totals, basis, rules, allow).build()


class _Rows:
    """Columns that every row looks things up in are built once here."""

    def __init__(
        self, found: JackPlan, survey: Survey, plan: Plan, bases: Sequence[BaseRow],
        jacks: Sequence[JackRow], pads: Sequence[PadRow], rise: Number, totals: JackTotals, basis: PlanBasis,
        rules: MemberRules,
        allow: Allowances,
    ) -> None:  # fmt: skip
        self.found, self.survey, self.plan, self.rise = found, survey, plan, rise
        self.basis, self.rules, self.allow, self.job = basis, rules, allow, survey.job
        self.base_rows, self.jack_rows, self.pad_rows, self.totals = bases, jacks, pads, totals
        self.planned = [member for member in found.members if member.states]
        self.bases = {text_of(base.name): base for base in bases}
        self.counts = {text_of(row.name): row for row in jacks}
        self.walls = {text_of(wall.name): wall for wall in survey.walls}
        self.columns = {text_of(column.name): column for column in survey.columns}
        self.like = Lender(length=allow.jack_plate, force=survey.job.jack_rating, mass=allow.carrier_beam_mass)
        self.limits = jack_limits(totals.usable, survey.job, basis.soft_timber, pads, allow)
        self.masonry_limits = masonry_limits(maximum(rise, 0), survey.job.transfer_age.value, allow)
        twins = [member for member in self.planned if member.system == TWIN]
        self.needles = {member.name: self._needle_section(member) for member in twins}
        self.sections = sections_in_use(found.members, tuple(self.needles.values()), basis.sections, self.like)
        self.section_rows = {
            name: section_row(section, allow.jack_plate, basis.section_sources.get(name, ""), rules.steel)
            for name, section in self.sections.items()
        }

    def build(self) -> PlanRows:
        walls = [member for member in self.planned if member.kind == "wall"]
        on_steel = [member for member in walls if member.section in self.sections]
        columns = section_columns(tuple(self.section_rows.values()))
        sides = Filed([pad.name for pad in self.pad_rows], [pad.side for pad in self.pad_rows])
        states = tuple(
            jack_state_row(member, state, sides, self.limits)
            for member in self.planned for state in member.states
        )  # fmt: skip
        beams = tuple(
            beam_state_row(member, state, columns, self.like, self.rules.steel)
            for member in on_steel for state in member.states
        )  # fmt: skip
        orders = tuple(
            beam_order_row(member, self.bases[member.name].length, columns, self.like, self.allow, self.rules.steel)
            for member in on_steel
        )  # fmt: skip
        splices = tuple(
            splice_row(row, self.rules.steel, self.allow)
            for name, row in self.section_rows.items() if name in {order.section for order in orders}
        )  # fmt: skip
        masonry = tuple(map(self._masonry, walls))
        needles = tuple(self._needle(member) for member in walls if member.system == TWIN)
        collars = tuple(self._collar(member) for member in self.planned if member.system == COLLAR)
        old = tuple(row for member in walls if member.system == PLINTH_BEAM for row in self._plinth_beam(member))
        return PlanRows(
            plan=self.found, members=tuple(map(self._member, self.found.members)), jacks=self.found.jacks,
            kit=self._kit(), limits=self.limits, states=states, sections=tuple(self.section_rows.values()),
            beams=beams, orders=orders, splices=splices, masonry_limits=self.masonry_limits, masonry=masonry,
            needles=needles, collars=collars, plinth_beams=old, steering=self._steering(),
            circuits=tuple(self._circuits()),
            old_footings=old_footing_rows(self.survey, self.base_rows, self.jack_rows, self.pad_rows, self.found,
                                          self.like, self.rules.bases),
        )  # fmt: skip

    def _kit(self) -> KitUse | None:
        """Jacks and packing of the lift; none where the type of jack is not known."""
        kind = type_in_cells(self.basis.jack_types, self.found.kind, self.like.length, self.like.force)
        if kind is None:
            return None
        depths = [section.depth for section in self.sections.values()]
        deepest = maximum(*depths) if depths else 0 * self.like.length
        return kit_use(self.survey, kind, self.totals.count, self.totals.spares, self.rise, deepest, self.limits.area,
                       self.rules, self.allow)  # fmt: skip

    def _member(self, member: MemberPlan) -> MemberPlanRow:
        count = self.counts[member.name]
        remarks = (member.why_not, *member.helps) if member.why_not else member.helps
        return MemberPlanRow(
            name=Name(member.name), kind=member.kind, system=member.system, jacks=count.count, first=count.first,
            least=member.least, bound=member.lower_bound, proven="" if member.why_not else
            "proven" if member.proven else "not proven", spread=member.spread, widest=member.widest,
            section=member.section, side_by_side=member.side_by_side, remark="; ".join(remarks),
        )  # fmt: skip

    def _masonry(self, member: MemberPlan) -> MasonryRow:
        base, wall = self.bases[member.name], self.walls[member.name]
        return masonry_row(member, base.lifted, base.length, wall.thickness, self.like.lent(member.widest, 0, 1),
                           self.masonry_limits, self.allow)  # fmt: skip

    def _needle(self, member: MemberPlan) -> NeedleRow:
        base, wall = self.bases[member.name], self.walls[member.name]
        section = self.sections[self.needles[member.name]]
        return needle_row(member, base.lifted, base.length, wall.thickness, section, self.masonry_limits, self.allow,
                          self.rules.steel)  # fmt: skip

    def _needle_section(self, member: MemberPlan) -> str:
        base, wall = self.bases[member.name], self.walls[member.name]
        return needle_section(base.lifted, base.length, wall.thickness, self.basis.sections, self.allow,
                              self.basis.rules.steel)  # fmt: skip

    def _collar(self, member: MemberPlan) -> CollarRow:
        column = self.columns[member.name]
        return collar_row(member, self.bases[member.name].lifted, column.breadth, column.depth, self.allow)

    def _plinth_beam(self, member: MemberPlan) -> Iterable[PlinthBeamRow]:
        beam = plinth_beam_along(self.survey, self.plan, member.name)
        if beam:
            worst = max(value_of(load_factor(s.state, self.basis.rules.steel)) * s.moment for s in member.states)
            moment = self.like.lent(worst, 1, 1)
            yield plinth_beam_row(member.name, moment, beam.breadth, beam.depth, self.allow)

    # -------------------------------------------------------------------------------------- circuits

    def _steering(self) -> SteeringRow:
        steering = self.found.steering
        single = sum(not jack.circuit for jack in self.found.jacks)
        if steering is None:
            return SteeringRow(kind=self.found.kind or "not known", circuits=0, single=single, load=0.0, x=0.0, y=0.0,
                               margin=0.0, least_share=0.0, why=self.found.steering_why)  # fmt: skip
        return SteeringRow(
            kind=self.found.kind, circuits=len(steering.circuits), single=single, load=steering.load, x=steering.x,
            y=steering.y, margin=steering.margin, least_share=steering.least_share, why="",
        )  # fmt: skip

    def _circuits(self) -> Iterable[CircuitRow]:
        steering = self.found.steering
        for circuit, lost in zip(steering.circuits, steering.lost, strict=True) if steering else ():
            if lost.stands:
                text = f"the others hold the house, {lost.margin:.2f} m inside them"
            else:
                text = f"its packing or lock nuts take {lost.on_one_jack:.1f} kN at a jack at once"
                text += f": keep them tight under {', '.join(lost.bare)}" if lost.bare else ""
            yield CircuitRow(
                name=Name(circuit.name), count=len(circuit.jacks), force=circuit.force, tributary=circuit.tributary,
                share=circuit.share, pressure=circuit.pressure, deviation=circuit.deviation, lost=text,
                jacks=" ".join(circuit.jacks),
            )  # fmt: skip
