"""Strength and stiffness of a carrier beam between jacks.

Covers   bending with lateral buckling and high shear, shear, web bearing and web buckling at a jack, deflection, plate
         slenderness; a first answer for the demands from an even load.
Not      demands of the real layout (a solver's work: moment, shear and reaction come in), stiffeners, torsion of a
         beam loaded off its web, bending of the flange across, overturning of a single beam on its flange.
Signs    moment, shear and reaction are magnitudes at service; one load factor is applied here, once.
Units    m, kN, kN m, kN/m, kN/m2, m3, m4.
Sources  IS 800:2007 cl. 8.2.1.2, 8.2.2, 8.4, 8.7.3.1, 8.7.4, Annex E, Tables 2 and 6; how each figure was read stands
         in the member rules table.
"""

from dataclasses import dataclass

from calc.carrier_sections import Carrier, CarrierSection, bending_stiffness, flange_modulus, torsion_constant
from calc.criteria import Criterion, all_hold, criterion, governing, most_used
from calc.fields import note, quantity
from calc.member_rules import SteelRules
from calc.number import Number, Text, maximum, minimum, sqrt, where, word_where


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamDemand:
    """What a carrier beam is asked for, at service. The moments of a layout are found by the beam solver."""

    moment: Number = quantity("kN m", "greatest moment, either way")
    shear: Number = quantity("kN", "greatest shear")
    reaction: Number = quantity("kN", "greatest reaction on one jack")
    deflection_load: Number = quantity("kN m3", "greatest deflection between jacks times stiffness EI")
    span: Number = quantity("m", "distance of the jacks there")
    restraint: Number = quantity("m", "distance of the ties that hold the beam sideways")
    bearing: Number = quantity("m", "length of the plate on the jack head, along the beam")
    sides: Number = quantity("No", "sides of the jack to which the beam goes on: 2, or 1 at its end")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CarrierCheck:
    """A carrier beam against one demand."""

    carrier: Carrier = note("the beam or pair")
    demand: BeamDemand = note("at service")
    factor: Number = quantity("-", "load factor applied")
    criteria: tuple[Criterion, ...] = note("one a limit state")
    utilisation: Number = quantity("-", "of the most used; stocky plates do not count")
    holds: Number = quantity("No", "1 where every criterion holds, else 0")
    governed_by: Text = note("the most used criterion")


def even_load_demand(
    line_load: Number, spacing: Number, restraint: Number, bearing: Number, rules: SteelRules
) -> BeamDemand:
    """First answer: an even load over equal spacings, each force the worst of any number of spans.

    Args:
        line_load: at service, own weight of the beam included [kN/m]
        spacing: of the jacks [m]
        restraint: distance of ties that hold the beam sideways [m]
        bearing: length of the plate on the jack head [m]
        rules: figures of the code
    """
    span_load = line_load * spacing
    return BeamDemand(
        moment=span_load * spacing / rules.moment_span, shear=span_load * rules.shear_share,
        reaction=span_load * rules.reaction_share, deflection_load=span_load * spacing**3 / rules.deflection_load,
        span=spacing, restraint=restraint, bearing=bearing, sides=2,
    )  # fmt: skip


def buckling_share(slenderness: Number, imperfection: Number, plateau: Number) -> Number:
    """Share of the yield stress that is left when a member may buckle [-].

    Args:
        slenderness: not a ratio of lengths, but root of yield over critical stress [-]
        imperfection: of its curve [-]
        plateau: slenderness up to which the share is 1 [-]

    Source:
        IS 800:2007 cl. 7.1.2.1 and 8.2.2, form from memory.

    >>> round(buckling_share(1.0, 0.49, 0.2), 3)
    0.54
    """
    return share_left(buckling_curve(slenderness, imperfection, plateau), slenderness)


def buckling_curve(slenderness: Number, imperfection: Number, plateau: Number) -> Number:
    """The figure phi of a buckling curve [-].

    Args:
        slenderness: not a ratio of lengths, but root of yield over critical stress [-]
        imperfection: of its curve [-]
        plateau: slenderness up to which nothing buckles [-]

    >>> round(buckling_curve(1.0, 0.49, 0.2), 3)
    1.196
    """
    return (1 + imperfection * (slenderness - plateau) + slenderness**2) / 2


def share_left(phi: Number, slenderness: Number) -> Number:
    """Share of the yield stress that is left, from the figure of its curve [-].

    Args:
        phi: figure of the curve [-]
        slenderness: root of yield over critical stress [-]

    >>> round(share_left(1.196, 1.0), 3)
    0.54
    """
    return minimum(1, 1 / (phi + sqrt(phi**2 - slenderness**2)))


def lateral_slenderness(section: CarrierSection, restraint: Number, rules: SteelRules) -> Number:
    """Slenderness of a beam that may buckle sideways between ties [-].

    Root of Zp fy / Mcr, with Mcr of an even moment: Mcr2 = (pi2 E Iy / L2) (G It + pi2 E Iw / L2), Iw = Iy hf2 / 4.
    Written without a division by the length, so that a beam held all along has a slenderness of 0.

    Args:
        section: of the beam
        restraint: distance of the ties [m]
        rules: figures of the code

    Source:
        IS 800:2007 cl. 8.2.2.1, from memory; the same as textbook mechanics.
    """
    length, plastic = rules.top_load * restraint, section.zpx * rules.yield_stress
    sideways, twist = sideways_stiffness(section, rules), twist_stiffness(section, rules)
    return slenderness_of(length, plastic, critical_moment(length, sideways, twist, warping_part(section, sideways)))


def sideways_stiffness(section: CarrierSection, rules: SteelRules) -> Number:
    """pi2 E Iy of one beam, what bends sideways [kN m2].

    Args:
        section: of the beam
        rules: figures of the code
    """
    return rules.pi**2 * rules.elastic_modulus * section.iyy


def twist_stiffness(section: CarrierSection, rules: SteelRules) -> Number:
    """G It of one beam, what twists [kN m2].

    Args:
        section: of the beam
        rules: figures of the code
    """
    return rules.elastic_modulus / (2 * (1 + rules.poisson)) * torsion_constant(section, rules)


def warping_part(section: CarrierSection, sideways: Number) -> Number:
    """What warping adds to the twist of a short beam [kN m4].

    Args:
        section: of the beam
        sideways: pi2 E Iy [kN m2]
    """
    return sideways * (section.depth - section.flange_thickness) ** 2 / 4


def critical_moment(length: Number, sideways: Number, twist: Number, warping: Number) -> Number:
    """Critical moment times the effective length squared [kN m3].

    Args:
        length: effective, between ties [m]
        sideways: pi2 E Iy [kN m2]
        twist: G It [kN m2]
        warping: what warping adds [kN m4]
    """
    return sqrt(sideways * (twist * length**2 + warping))


def slenderness_of(length: Number, plastic: Number, critical: Number) -> Number:
    """Slenderness of a beam that may buckle sideways [-].

    Args:
        length: effective, between ties [m]
        plastic: moment of the whole section at yield [kN m]
        critical: critical moment times that length squared [kN m3]
    """
    return length * sqrt(plastic / critical)


def bending_resistance(section: CarrierSection, restraint: Number, rules: SteelRules) -> Number:
    """Design bending strength of one beam at low shear [kN m].

    The relief of cl. 8.2.2 for a slenderness below 0.4 is not used: it makes the strength jump.

    Args:
        section: of the beam
        restraint: distance of the ties that hold it sideways [m]
        rules: figures of the code

    Source:
        IS 800:2007 cl. 8.2.1.2 and 8.2.2.
    """
    share = buckling_share(lateral_slenderness(section, restraint, rules), rules.lateral_imperfection, rules.plateau)
    return bending_strength(section.zpx, section.zex, share, rules)


def bending_strength(plastic: Number, elastic: Number, share: Number, rules: SteelRules) -> Number:
    """Design bending strength of one beam, once it is known what lateral buckling leaves of it [kN m].

    Args:
        plastic: plastic modulus [m3]
        elastic: elastic modulus [m3]
        share: of the yield stress that is left when it may buckle sideways [-]
        rules: figures of the code

    Source:
        IS 800:2007 cl. 8.2.1.2 and 8.2.2.
    """
    return minimum(share * plastic, rules.elastic_cap * elastic) * rules.yield_stress / rules.yield_factor


def shear_resistance(section: CarrierSection, rules: SteelRules) -> Number:
    """Design shear strength of one beam [kN].

    Args:
        section: of the beam
        rules: figures of the code

    Source:
        IS 800:2007 cl. 8.4.1: h tw fy / (root 3 gamma m0).
    """
    return section.depth * section.web_thickness * rules.yield_stress / (sqrt(rules.shear_yield) * rules.yield_factor)


def bending_beside_shear(bending: Number, flanges: Number, shear: Number, resistance: Number, low: Number) -> Number:
    """Design bending strength of one beam beside its shear [kN m].

    Args:
        bending: strength at low shear, Md [kN m]
        flanges: strength of the section without its shear area, Mfd [kN m]
        shear: factored [kN]
        resistance: to shear [kN]
        low: share of the resistance up to which nothing is taken off [-]

    Source:
        IS 800:2007 cl. 9.2.2: Md - beta (Md - Mfd), beta = (2 V / Vd - 1) squared; beta from memory.

    >>> bending_beside_shear(100.0, 60.0, 50.0, 100.0, 0.6), bending_beside_shear(100.0, 60.0, 100.0, 100.0, 0.6)
    (100.0, 60.0)
    """
    return where(shear <= low * resistance, bending, bending - shear_takes_off(bending, flanges, shear, resistance))


def shear_takes_off(bending: Number, flanges: Number, shear: Number, resistance: Number) -> Number:
    """What a high shear takes off the bending strength [kN m].

    Args:
        bending: strength at low shear [kN m]
        flanges: strength of the section without its shear area [kN m]
        shear: factored [kN]
        resistance: to shear [kN]

    >>> shear_takes_off(100.0, 60.0, 100.0, 100.0)
    40.0
    """
    # Beyond its shear strength the web has nothing more to give away: that shear fails by itself.
    return (2 * minimum(shear / resistance, 1) - 1) ** 2 * maximum(bending - flanges, 0)


def web_bearing(section: CarrierSection, bearing: Number, sides: Number, rules: SteelRules) -> Number:
    """Reaction one web bears above the jack head before it yields [kN].

    Args:
        section: of the beam
        bearing: length of the plate on the jack head [m]
        sides: of the jack to which the beam goes on [No]
        rules: figures of the code

    Source:
        IS 800:2007 cl. 8.7.4: (b1 + n2) tw fyw / gamma m0; spread from memory.
    """
    spread = sides * rules.bearing_slope * (section.flange_thickness + section.root_radius)
    return (bearing + spread) * section.web_thickness * rules.yield_stress / rules.yield_factor


def web_buckling(section: CarrierSection, bearing: Number, sides: Number, rules: SteelRules) -> Number:
    """Reaction one web bears above the jack head before it buckles, spread at 45 degrees to mid-depth [kN].

    Args:
        section: of the beam
        bearing: length of the plate on the jack head [m]
        sides: of the jack to which the beam goes on [No]
        rules: figures of the code

    Source:
        IS 800:2007 cl. 8.7.3.1: (b1 + n1) tw fcd, curve c, slenderness 2.5 d / tw; details from memory.
    """
    share = buckling_share(web_slenderness(section, rules), rules.web_imperfection, rules.plateau)
    return web_buckling_strength(section, bearing, sides, share, rules)


def web_slenderness(section: CarrierSection, rules: SteelRules) -> Number:
    """Slenderness of the web above a jack as a strut: root of yield over critical stress [-].

    Args:
        section: of the beam
        rules: figures of the code
    """
    strut = rules.web_strut * section.depth_between_fillets / section.web_thickness
    return strut / rules.pi * sqrt(rules.yield_stress / rules.elastic_modulus)


def web_buckling_strength(
    section: CarrierSection, bearing: Number, sides: Number, share: Number, rules: SteelRules
) -> Number:
    """Reaction one web bears before it buckles, once it is known what buckling leaves of its stress [kN].

    Args:
        section: of the beam
        bearing: length of the plate on the jack head [m]
        sides: of the jack to which the beam goes on [No]
        share: of the yield stress that is left [-]
        rules: figures of the code
    """
    stress = share * rules.yield_stress / rules.yield_factor
    return (bearing + sides * section.depth / 2) * section.web_thickness * stress


def deflection_limit(span: Number, rules: SteelRules) -> Number:
    """Greatest deflection between jacks under masonry [m].

    Args:
        span: distance of the jacks [m]
        rules: figures of the code
    """
    return minimum(span / rules.deflection_span, rules.deflection_most)


def carrier_check(beam: Carrier, demand: BeamDemand, factor: Number, rules: SteelRules) -> CarrierCheck:
    """Every limit state of a carrier beam. Deflection is at service, all else times the load factor.

    Args:
        beam: the beam or pair
        demand: at service
        factor: load factor [-]
        rules: figures of the code
    """
    loaded = (*_strength(beam, demand, factor, rules), _deflection(beam, demand, rules))
    shape = _shape(beam.section, rules)
    criteria = (*loaded, *shape)
    # Plates stocky enough say nothing about how far the beam is used; plates too thin do.
    stocky = all_hold(shape)
    return CarrierCheck(
        carrier=beam, demand=demand, factor=factor, criteria=criteria, holds=all_hold(criteria),
        utilisation=where(stocky > 0, most_used(loaded), most_used(criteria)),
        governed_by=word_where(stocky > 0, governing(loaded), governing(criteria)),
    )  # fmt: skip


def _strength(beam: Carrier, demand: BeamDemand, factor: Number, rules: SteelRules) -> tuple[Criterion, ...]:
    """Limit states of strength, of all beams of the carrier together."""
    section, count = beam.section, beam.count
    shear, resistance = factor * demand.shear, count * shear_resistance(section, rules)
    plain = count * bending_resistance(section, demand.restraint, rules)
    flanges = count * flange_modulus(section) * rules.yield_stress / rules.yield_factor
    bending = bending_beside_shear(plain, flanges, shear, resistance, rules.low_shear)
    reaction = factor * demand.reaction
    bearing = count * web_bearing(section, demand.bearing, demand.sides, rules)
    buckling = count * web_buckling(section, demand.bearing, demand.sides, rules)
    return (
        criterion("Bending", factor * demand.moment, bending, "kN m", "IS 800:2007 cl. 8.2.1.2, 8.2.2 and 9.2.2"),
        criterion("Shear", shear, resistance, "kN", "IS 800:2007 cl. 8.4.1"),
        criterion("Web bearing on the jack", reaction, bearing, "kN", "IS 800:2007 cl. 8.7.4"),
        criterion("Web buckling above the jack", reaction, buckling, "kN", "IS 800:2007 cl. 8.7.3.1"),
    )


def _deflection(beam: Carrier, demand: BeamDemand, rules: SteelRules) -> Criterion:
    """Deflection at service."""
    deflection = demand.deflection_load / bending_stiffness(beam.section, beam.count, rules)
    return criterion("Deflection between jacks", deflection, deflection_limit(demand.span, rules), "m",
                     "common practice, no source")  # fmt: skip


def _shape(section: CarrierSection, rules: SteelRules) -> tuple[Criterion, ...]:
    """Plates stocky enough for what the strengths take for granted."""
    grade = sqrt(rules.class_stress / rules.yield_stress)
    return (
        criterion("Outstand of the flange over its thickness", section.width / 2 / section.flange_thickness,
                  rules.flange_outstand * grade, "-", "IS 800:2007 Table 2"),
        criterion("Depth of the web over its thickness", section.depth_between_fillets / section.web_thickness,
                  rules.web_depth * grade, "-", "IS 800:2007 cl. 8.4.2.1"),
    )  # fmt: skip
