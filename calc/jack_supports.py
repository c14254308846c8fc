"""What jacks stand on and carry, soft end and stiff end: compliance of a jacking point, stiffness of beam and wall.

Covers   packing, oil, base and soil in a row for the softest and the stiffest case; carrier beam alone and with the
         masonry over it; the tables a plan is worked out with.
Not      the beam on its jacks (beam_on_jacks).
Signs    compliance positive.
Units    m/kN, kN m2, kN/m2, m.
Sources  textbook mechanics; every figure is an allowance or a row of a table.

On rigid supports one millimetre moves more than a whole jack load, so reactions are always found on supports that
yield, and as an envelope of soft and stiff, of beam alone and of beam with wall.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from calc.allowances import Allowances
from calc.carrier_sections import Carrier, CarrierSection, carrier
from calc.fields import note, quantity
from calc.jack_types import JackType
from calc.member_rules import MemberRules, SteelRules
from calc.number import value_of
from calc.packing import Timber, column_compliance, oil_compliance, point_stiffness, soil_compliance
from calc.plan_rows import Plan
from calc.survey import Survey


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlanBasis:
    """Tables and rules a jack plan is worked out with."""

    rules: MemberRules = note("figures members are checked by")
    sections: tuple[CarrierSection, ...] = note("carrier beams to choose from")
    section_sources: Mapping[str, str] = note("table and edition of each section")
    soft_timber: Timber = note("packing at its softest")
    stiff_timber: Timber = note("packing at its stiffest")
    jack_types: tuple[JackType, ...] = note("jacks by type")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlanCase:
    """One house as a jack plan is worked out for it, on floats."""

    survey: Survey = note("the entries")
    plan: Plan = note("who carries whom")
    basis: PlanBasis = note("tables and rules")
    allow: Allowances = note("the allowances")
    rise: float = quantity("m", "of the house")
    usable: float = quantity("kN", "usable load of one jack")
    side_by_side: int = note("carrier beams side by side under a wall")


@dataclass(frozen=True, slots=True, kw_only=True)
class Yield:
    """Compliance of one jacking point."""

    soft: float = quantity("m/kN", "full packing of soft timber, jack on oil, soft soil")
    stiff: float = quantity("m/kN", "least packing of stiff timber, jack on its nut, stiff soil")


def yields(case: PlanCase, side: float) -> Yield:
    """The softest and the stiffest support under a carrier beam.

    Args:
        case: the house
        side: of the jack base [m]
    """
    allow, basis = case.allow, case.basis
    # Packed up to where towers are braced at least: a change of a low rise then leaves the plan as it is.
    rise = max(case.rise, value_of(allow.rise_unbraced))
    bearing, stroke = value_of(case.survey.job.bearing.value), value_of(case.survey.job.stroke)
    area, least = value_of(allow.packing_side) ** 2, value_of(allow.packing_least)
    soft = point_stiffness(
        column_compliance(least + rise, basis.soft_timber.modulus, area),
        oil_compliance(stroke, piston_area(allow), basis.rules.packing),
        0.0,
        soil_compliance(value_of(allow.subgrade_soft) * bearing, side),
    )
    stiff = point_stiffness(
        column_compliance(least, basis.stiff_timber.modulus, area), 0.0, 0.0,
        soil_compliance(value_of(allow.subgrade_stiff) * bearing, side),
    )  # fmt: skip
    return Yield(soft=value_of(soft.compliance), stiff=value_of(stiff.compliance))


def piston_area(allow: Allowances) -> float:
    """Area of the piston of one jack [m2].

    Args:
        allow: the allowances
    """
    return value_of(allow.jack_piston)


def wall_stiffness(thickness: float, height: float, allow: Allowances) -> float:
    """Bending stiffness of the masonry over a beam, whole and uncracked: its stiffest [kN m2].

    Args:
        thickness: of the wall [m]
        height: floor to soffit [m]
        allow: the allowances
    """
    return value_of(allow.masonry_modulus) * thickness * height**3 / 12


def beam_stiffness(beam: Carrier, rules: SteelRules) -> float:
    """Bending stiffness of all beams of a carrier together [kN m2].

    Args:
        beam: the beam or pair
        rules: figures of the code
    """
    return value_of(rules.elastic_modulus * beam.count * beam.section.ixx)


def carrier_of(section: CarrierSection, count: int, basis: PlanBasis, allow: Allowances) -> Carrier:
    """A carrier beam as it is laid, bare or filled with concrete that counts as weight only.

    Args:
        section: of each beam
        count: beams side by side
        basis: tables and rules
        allow: the allowances
    """
    gap = value_of(allow.pair_gap) if count > 1 else 0.0
    filled = value_of(allow.beams_filled)
    return carrier(section, count, gap, filled, value_of(allow.filling_weight), basis.rules.steel)
