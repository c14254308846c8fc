"""Carrier beams of a jack plan as rows: what each section in use can take, and each wall's beam in every state.

Covers   strength of each section; demand and capacity of bending, shear, web bearing, web buckling and deflection of
         each wall in each state; beams to buy or hire.
Not      how demands are found (jack_walls) and which section is chosen (jack_sections).
Signs    moment, shear and reaction are magnitudes.
Units    m, kN, kN m, kg.
Sources  as in carrier_beams and beam_splices.
"""

from collections.abc import Mapping, Sequence
from dataclasses import Field, dataclass, fields
from typing import Any

from calc.allowances import Allowances
from calc.beam_splices import beam_order, splice_made_for
from calc.carrier_beams import (
    buckling_curve,
    critical_moment,
    deflection_limit,
    share_left,
    shear_resistance,
    shear_takes_off,
    sideways_stiffness,
    slenderness_of,
    twist_stiffness,
    warping_part,
    web_bearing,
    web_buckling_strength,
    web_slenderness,
)
from calc.carrier_sections import CarrierSection, flange_modulus
from calc.fields import note, quantity
from calc.jack_plan_rows import MemberPlan, MemberState
from calc.jack_sections import ACCIDENTAL
from calc.member_rules import SteelRules
from calc.number import Filed, Name, Number, Text, fixed, maximum, minimum, where, within, word_where

BEAM_CLAUSES = (
    "Bending: IS 800:2007 cl. 8.2.1.2, 8.2.2, 9.2.2; shear: cl. 8.4.1; web bearing: cl. 8.7.4; web buckling: "
    "cl. 8.7.3.1; deflection: common practice, no source"
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SectionRow:
    """One section in use: its figures from the table, and what one beam of it takes."""

    name: Name = note("designation")
    mass: Number = quantity("kg/m", "mass per length")
    area: Number = quantity("m2", "cross-section")
    depth: Number = quantity("m", "overall")
    width: Number = quantity("m", "of the flange")
    web: Number = quantity("m", "thickness of the web")
    flange: Number = quantity("m", "thickness of the flange")
    root: Number = quantity("m", "root radius")
    straight: Number = quantity("m", "straight depth of the web")
    ixx: Number = quantity("m4", "second moment about the strong axis")
    iyy: Number = quantity("m4", "second moment about the weak axis")
    zex: Number = quantity("m3", "elastic modulus")
    zpx: Number = quantity("m3", "plastic modulus")
    sideways: Number = quantity("kN m2", "stiffness sideways, pi2 E Iy")
    twist: Number = quantity("kN m2", "stiffness in twist, G It")
    warping: Number = quantity("kN m4", "what warping adds")
    plastic: Number = quantity("kN m", "moment of the whole section at yield")
    stress: Number = quantity("kN/m2", "yield stress over the partial factor")
    plain: Number = quantity("kN m", "plastic moment over the partial factor")
    capped: Number = quantity("kN m", "the most it may be counted with, by its elastic moment")
    bending: Number = quantity("kN m", "bending strength where it cannot buckle")
    shear: Number = quantity("kN", "shear strength")
    flanges: Number = quantity("kN m", "bending strength of the flanges alone")
    web_bearing: Number = quantity("kN", "reaction at which the web yields over the jack")
    web_slenderness: Number = quantity("-", "of the web as a strut")
    web_curve: Number = quantity("-", "figure of its buckling curve")
    web_share: Number = quantity("-", "of its stress that is left when it may buckle")
    web_buckling: Number = quantity("kN", "reaction at which the web buckles over the jack")
    over_jack: Number = quantity("kN", "reaction the web bears, the smaller of the two")
    source: str = note("table, edition")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamStateRow:
    """The carrier beams of one wall in one state, all beams together."""

    name: Name = note("wall")
    state: str = note("state")
    section: Name = note("carrier beam")
    beams: Number = quantity("No", "side by side, or on both sides")
    accident: Number = quantity("No", "1 where the state is an accident, else 0")
    factor: Number = quantity("-", "load factor")
    span: Number = quantity("m", "greatest distance of jacks at work")
    moment: Number = quantity("kN m", "greatest moment")
    bent: Number = quantity("kN m", "the same with its factor")
    tie: Number = quantity("m", "effective length between ties")
    sideways: Number = quantity("kN m2", "stiffness sideways of one beam")
    twist: Number = quantity("kN m2", "stiffness in twist of one beam")
    warping: Number = quantity("kN m4", "what warping adds to it")
    critical: Number = quantity("kN m3", "critical moment times that length squared")
    slenderness: Number = quantity("-", "of the beam between ties")
    curve: Number = quantity("-", "figure of its buckling curve")
    left: Number = quantity("-", "of its stress that is left when it may buckle sideways")
    plain: Number = quantity("kN m", "bending strength at low shear")
    shear: Number = quantity("kN", "greatest shear")
    sheared: Number = quantity("kN", "the same with its factor")
    shear_strength: Number = quantity("kN", "shear strength")
    flanges: Number = quantity("kN m", "bending strength of the flanges alone")
    taken: Number = quantity("kN m", "what shear can take off the bending strength")
    bending: Number = quantity("kN m", "bending strength beside that shear")
    reaction: Number = quantity("kN", "greatest on the jacks at one place")
    bearing: Number = quantity("kN", "the webs bear over the jack, yield or buckling")
    sag: Number = quantity("kN m3", "deflection between jacks times stiffness; 0 in an accident")
    bends: Number = quantity("m", "deflection between jacks; not held to a limit in an accident")
    bends_most: Number = quantity("m", "deflection allowed")
    by_bending: Number = quantity("-", "use by bending")
    by_shear: Number = quantity("-", "use by shear")
    by_web: Number = quantity("-", "use by the web over the jack")
    by_deflection: Number = quantity("-", "use by deflection")
    use: Number = quantity("-", "greatest use")
    verdict: Text = note("within the limits set, or STOP")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamOrderRow:
    """Carrier beams of one wall to buy or hire."""

    name: Name = note("wall")
    section: Name = note("carrier beam")
    beams: Number = quantity("No", "side by side, or on both sides")
    wall: Number = quantity("m", "length of the wall")
    run: Number = quantity("m", "length of the carrier, overhang included")
    pieces: Number = quantity("No", "pieces of each beam")
    splices: Number = quantity("No", "splices of all beams")
    length: Number = quantity("m", "of all beams together")
    mass: Number = quantity("kg", "of steel")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SpliceRow:
    """A welded splice of one beam of a section, made for a share of what the section takes."""

    name: Name = note("designation")
    shear: Number = quantity("kN", "it is made for, with its factor")
    moment: Number = quantity("kN m", "it is made for, the offset of the web weld included")
    flange_force: Number = quantity("kN", "in each flange plate")
    flange_plate: Number = quantity("m2", "cross-section of each flange plate, at least")
    weld_size: Number = quantity("m", "leg of the fillet welds")
    flange_weld: Number = quantity("m", "of each flange plate, on each side of the joint")
    web_weld: Number = quantity("m", "of the web plates together, on each side of the joint")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lender:
    """Numbers of the run that lend their unit to figures of tables and of the plan."""

    length: Number = quantity("m", "any length")
    force: Number = quantity("kN", "any force")
    mass: Number = quantity("kg/m", "any mass per length")

    def lent(self, value: float, force: int, length: int) -> Number:
        """A figure of the plan with a cell of its own: a power of force times a power of length."""
        lender = self.force**force * self.length**length
        return fixed(value, lender, lender)


def tabled_section(section: CarrierSection, like: Lender) -> CarrierSection:
    """A section whose figures stand in cells of their own.

    Args:
        section: of the table, as floats
        like: numbers of the run
    """
    powers = {"m": 1, "m2": 2, "m3": 3, "m4": 4}

    def own_cell(field: Field[Any]) -> Number:
        unit = field.metadata["unit"]
        lender = like.mass if unit == "kg/m" else like.length ** powers[unit]
        return fixed(getattr(section, field.name), lender, lender)

    return CarrierSection(
        name=section.name, **{field.name: own_cell(field) for field in fields(section) if field.name != "name"}
    )


def section_row(section: CarrierSection, plate: Number, source: str, rules: SteelRules) -> SectionRow:
    """One section with what one beam of it takes.

    Args:
        section: its figures
        plate: length of the plate on the jack head [m]
        source: of its figures
        rules: figures of the code
    """
    sideways, slenderness = sideways_stiffness(section, rules), web_slenderness(section, rules)
    curve = buckling_curve(slenderness, rules.web_imperfection, rules.plateau)
    share = share_left(curve, slenderness)
    stress = rules.yield_stress / rules.yield_factor
    plain, capped = section.zpx * stress, rules.elastic_cap * section.zex * stress
    yields, buckles = web_bearing(section, plate, 2, rules), web_buckling_strength(section, plate, 2, share, rules)
    return SectionRow(
        name=Name(section.name), mass=section.mass, area=section.area, depth=section.depth, width=section.width,
        web=section.web_thickness, flange=section.flange_thickness, root=section.root_radius,
        straight=section.depth_between_fillets, ixx=section.ixx, iyy=section.iyy, zex=section.zex, zpx=section.zpx,
        sideways=sideways, twist=twist_stiffness(section, rules), warping=warping_part(section, sideways),
        plastic=section.zpx * rules.yield_stress, stress=stress, plain=plain,
        capped=capped, bending=minimum(plain, capped),
        shear=shear_resistance(section, rules),
        flanges=flange_modulus(section) * stress,
        web_bearing=yields, web_slenderness=slenderness, web_curve=curve, web_share=share, web_buckling=buckles,
        over_jack=minimum(yields, buckles), source=source,
    )  # fmt: skip


def splice_row(row: SectionRow, rules: SteelRules, allow: Allowances) -> SpliceRow:
    """A splice of one beam; it stands where the moment is small, and is made for a share of the section none the less.

    Args:
        row: the section with what one beam of it takes
        rules: figures of the code
        allow: the allowances
    """
    shear = rules.splice_share * row.shear
    moment = rules.splice_share * row.bending + shear * allow.splice_offset
    made = splice_made_for(moment, shear, row.depth, allow.weld_size, rules)
    return SpliceRow(
        name=row.name, shear=shear, moment=moment, flange_force=made.flange_force,
        flange_plate=made.flange_plate, weld_size=made.weld_size, flange_weld=made.flange_weld, web_weld=made.web_weld,
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SectionColumns:
    """The columns of the sections in use, looked things up in by designation."""

    columns: dict[str, Filed] = note("by field of SectionRow")

    def at(self, field: str, name: Name) -> Number:
        """What one section has in one column."""
        found: Number = self.columns[field].at(name)
        return found


def section_columns(rows: Sequence[SectionRow]) -> SectionColumns:
    """Columns of the sections in use.

    Args:
        rows: one a section
    """
    names = [row.name for row in rows]
    asked = ("ixx", "plain", "capped", "mass", "sideways", "twist", "warping", "plastic", "shear", "flanges",
             "over_jack")  # fmt: skip
    return SectionColumns(columns={field: Filed(names, [getattr(row, field) for row in rows]) for field in asked})


def beam_state_row(
    member: MemberPlan, state: MemberState, sections: SectionColumns, like: Lender, rules: SteelRules
) -> BeamStateRow:
    """The carrier beams of one wall in one state.

    Args:
        member: the wall with its plan
        state: its demands, as floats
        sections: what one beam of each section takes
        like: numbers of the run
        rules: figures of the code
    """
    section = Name(member.section)
    beams, accident = fixed(member.side_by_side, like.force), fixed(int(state.state in ACCIDENTAL), like.force)
    factor = where(accident > 0, rules.accidental_factor, rules.load_factor)
    span, moment, shear = like.lent(state.span, 0, 1), like.lent(state.moment, 1, 1), like.lent(state.shear, 1, 0)
    reaction, sag = like.lent(state.jack * member.lines, 1, 0), like.lent(state.deflection_load, 1, 3)
    tie = rules.top_load * span
    sideways, twist, warping = (sections.at(field, section) for field in ("sideways", "twist", "warping"))
    critical = critical_moment(tie, sideways, twist, warping)
    slenderness = slenderness_of(tie, sections.at("plastic", section), critical)
    curve = buckling_curve(slenderness, rules.lateral_imperfection, rules.plateau)
    left = share_left(curve, slenderness)
    bent, sheared, strength = factor * moment, factor * shear, beams * sections.at("shear", section)
    one = minimum(left * sections.at("plain", section), sections.at("capped", section))
    plain, flanges = beams * one, beams * sections.at("flanges", section)
    taken = shear_takes_off(plain, flanges, sheared, strength)
    bending = where(sheared <= rules.low_shear * strength, plain, plain - taken)
    bears = beams * sections.at("over_jack", section)
    stiffness = rules.elastic_modulus * beams * sections.at("ixx", section)
    bends, most = sag / stiffness, deflection_limit(span, rules)
    uses = (bent / bending, sheared / strength, factor * reaction / bears, bends / most)
    use = maximum(*uses)
    return BeamStateRow(
        name=Name(member.name), state=state.state, section=section, beams=beams, accident=accident,
        factor=factor, span=span, moment=moment, bent=bent, tie=tie, sideways=sideways,
        twist=twist, warping=warping, critical=critical, slenderness=slenderness,
        curve=curve, left=left, plain=plain, shear=shear, sheared=sheared, shear_strength=strength, flanges=flanges,
        taken=taken, bending=bending, reaction=reaction, bearing=bears, sag=sag, bends=bends, bends_most=most,
        by_bending=uses[0], by_shear=uses[1], by_web=uses[2], by_deflection=uses[3], use=use,
        verdict=word_where(within(use, 1), "within the limits set", "STOP"),
    )  # fmt: skip


def beam_order_row(
    member: MemberPlan, length: Number, sections: SectionColumns, like: Lender, allow: Allowances, rules: SteelRules
) -> BeamOrderRow:
    """Carrier beams of one wall to buy or hire.

    Args:
        member: the wall with its plan
        length: of the wall [m]
        sections: what one beam of each section takes
        like: numbers of the run
        allow: the allowances
        rules: figures of the code
    """
    section, beams = Name(member.section), fixed(member.side_by_side, like.force)
    order = beam_order(beams, sections.at("mass", section), length, allow.beam_overhang, rules)
    return BeamOrderRow(
        name=Name(member.name), section=section, beams=beams, wall=length, run=order.run, pieces=order.pieces,
        splices=order.splices, length=order.length, mass=order.mass,
    )  # fmt: skip


def sections_in_use(
    members: Sequence[MemberPlan], needles: Sequence[str], sections: Sequence[CarrierSection], like: Lender
) -> Mapping[str, CarrierSection]:
    """The sections that stand under a wall of the plan, their figures in cells of their own.

    Args:
        members: of the plan
        needles: sections of needles
        sections: of the table
        like: numbers of the run
    """
    used = {*needles, *(member.section for member in members if member.states)}
    return {section.name: tabled_section(section, like) for section in sections if section.name in used}
