"""What a jack plan asks of masonry, needles, collars and old plinth beams, as rows.

Covers   masonry over pockets, old masonry on the carrier beam, new masonry when the load comes back, closing of the new
         masonry beside a wall that still stands on jacks; needles of twin beams; collars of columns; plinth beams.
Not      carrier beams (carrier_rows), jacks, packing and ground (jack_state_rows).
Signs    loads and stresses positive downward or in compression.
Units    m, kN, kN/m, kN/m2, kN m, day.
Sources  arch over an opening: statics; stresses as allowances with their source.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from calc.allowances import Allowances
from calc.beam_choice import worst_check
from calc.carrier_beams import BeamDemand, bending_strength, shear_resistance
from calc.carrier_sections import CarrierSection, carrier
from calc.fields import note, quantity
from calc.jack_plan_rows import MemberPlan
from calc.member_rules import SteelRules
from calc.number import Name, Number, Text, maximum, minimum, ratio, value_of, where, within, word_where

LIMIT, STOPPED = "within the limits set", "STOP"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MasonryRow:
    """The masonry of one wall while it is cut, carried and let down."""

    name: Name = note("wall")
    line_load: Number = quantity("kN/m", "in the lift, weight doubt included")
    thickness: Number = quantity("m", "of the wall")
    thrust: Number = quantity("kN", "of the arch over a pocket")
    arch_stress: Number = quantity("kN/m2", "in that arch")
    on_beam: Number = quantity("kN/m2", "old masonry on its carrier beam")
    old: Number = quantity("kN/m2", "allowed in the old masonry")
    old_bearing: Number = quantity("kN/m2", "allowed under a beam")
    new_stress: Number = quantity("kN/m2", "in the new masonry at transfer")
    new: Number = quantity("kN/m2", "allowed in it at that age")
    closing: Number = quantity("m", "new masonry and joint close by")
    closing_most: Number = quantity("m", "allowed to the next jack")
    use: Number = quantity("-", "greatest use of the masonry")
    verdict: Text = note("within the limits set, or STOP")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NeedleRow:
    """Needles of one wall on twin beams."""

    name: Name = note("wall")
    section: str = note("lightest section that holds")
    spacing: Number = quantity("m", "of the needles")
    span: Number = quantity("m", "between the twin beams")
    load: Number = quantity("kN", "of one needle, weight doubt included")
    moment: Number = quantity("kN m", "in it")
    bending: Number = quantity("kN m", "strength, factor taken off")
    shear: Number = quantity("kN", "in it")
    shear_strength: Number = quantity("kN", "strength, factor taken off")
    bearing: Number = quantity("kN/m2", "of the wall on it")
    bearing_most: Number = quantity("kN/m2", "allowed")
    use: Number = quantity("-", "greatest use")
    verdict: Text = note("within the limits set, or STOP")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CollarRow:
    """The collar or clamp of one column."""

    name: Name = note("column")
    load: Number = quantity("kN", "weight doubt included")
    girth: Number = quantity("m", "of the column")
    height: Number = quantity("m", "of the collar")
    stress: Number = quantity("kN/m2", "shear between collar and column")
    most: Number = quantity("kN/m2", "allowed")
    use: Number = quantity("-", "use")
    verdict: Text = note("within the limits set, or STOP")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlinthBeamRow:
    """An old plinth beam with jacks under it."""

    name: Name = note("wall")
    moment: Number = quantity("kN m", "greatest, either way, with its factor")
    modulus: Number = quantity("m3", "of the section")
    stress: Number = quantity("kN/m2", "bending tension")
    most: Number = quantity("kN/m2", "allowed; unknown steel counts as none")
    use: Number = quantity("-", "use; twice where nothing is allowed")
    verdict: Text = note("within the limits set, or STOP")


def arch_thrust(line_load: Number, span: Number, rise: Number) -> Number:
    """Thrust of the arch that forms in masonry over a pocket [kN].

    Args:
        line_load: over it [kN/m]
        span: clear width of the pocket [m]
        rise: of the arch [m]

    >>> round(arch_thrust(48.0, 0.3, 0.18), 6)
    3.0
    """
    return line_load * span**2 / (8 * rise)


def strength_at(age: Number, allow: Allowances) -> Number:
    """Share of its strength that new masonry has at an age; nothing before the first age that counts [-].

    Args:
        age: of the newest masonry that is loaded [day]
        allow: the allowances
    """
    grown = allow.early_share + (1 - allow.early_share) * (age - allow.early_age) / (allow.full_age - allow.early_age)
    return where(age < allow.early_age, 0, minimum(grown, 1))


def masonry_row(
    member: MemberPlan, load: Number, length: Number, thickness: Number, new_thickness: Number, rise: Number,
    widest: Number, age: Number, allow: Allowances,
) -> MasonryRow:  # fmt: skip
    """The masonry of one wall.

    Args:
        member: the wall with its plan
        load: in the lift [kN]
        length: of the wall [m]
        thickness: of the wall [m]
        new_thickness: of the new masonry under it [m]
        rise: of the house [m]
        widest: spacing of its jacks [m]
        age: of the newest masonry at transfer [day]
        allow: the allowances
    """
    line = allow.weight_doubt * load / length
    rise_of_arch = allow.arch_rise * allow.pocket_width
    thrust = arch_thrust(line, allow.pocket_width, rise_of_arch)
    arch = thrust / (thickness * rise_of_arch)
    on_beam, new_stress = line / thickness, line / new_thickness
    bearing = allow.masonry_permissible * allow.bearing_share
    new = allow.new_masonry_permissible * strength_at(age, allow)
    closing, most = allow.closing * rise + allow.joint_closing, allow.transfer_distortion * widest
    use = maximum(arch / allow.masonry_permissible, on_beam / bearing, ratio(new_stress, new, 2))
    return MasonryRow(
        name=Name(member.name), line_load=line, thickness=thickness, thrust=thrust, arch_stress=arch, on_beam=on_beam,
        old=allow.masonry_permissible, old_bearing=bearing, new_stress=new_stress, new=new, closing=closing,
        closing_most=most, use=use, verdict=word_where(within(use, 1), LIMIT, STOPPED),
    )  # fmt: skip


def needle_row(
    member: MemberPlan, load: Number, length: Number, thickness: Number, sections: Sequence[CarrierSection],
    used: Mapping[str, CarrierSection], allow: Allowances, rules: SteelRules, plain: SteelRules,
) -> NeedleRow:  # fmt: skip
    """Needles of one wall on twin beams: the lightest section that holds.

    Args:
        member: the wall with its plan
        load: in the lift [kN]
        length: of the wall [m]
        thickness: of the wall [m]
        sections: of the table, as floats
        used: sections whose figures stand in cells; the needle's is looked for here first
        allow: the allowances
        rules: figures of the code
        plain: the same as floats, for the choice
    """
    span = thickness + 2 * allow.side_distance
    point = allow.weight_doubt * load / length * allow.needle_spacing
    moment, shear = point * (2 * span - thickness) / 8, point / 2
    name = _lightest(value_of(moment), value_of(shear), value_of(span), sections, plain)
    section = used.get(name) or next(one for one in sections if one.name == name)
    bending = bending_strength(section, 1, rules) / rules.load_factor
    strength = shear_resistance(section, rules) / rules.load_factor
    bearing, most = point / (allow.needle_plate * thickness), allow.masonry_permissible * allow.bearing_share
    use = maximum(moment / bending, shear / strength, bearing / most)
    return NeedleRow(
        name=Name(member.name), section=name, spacing=allow.needle_spacing, span=span, load=point, moment=moment,
        bending=bending, shear=shear, shear_strength=strength, bearing=bearing, bearing_most=most, use=use,
        verdict=word_where(within(use, 1), LIMIT, STOPPED),
    )  # fmt: skip


def _lightest(
    moment: float, shear: float, span: float, sections: Sequence[CarrierSection], rules: SteelRules
) -> str:
    """The lightest section for a needle; the strongest where none holds."""
    demand = BeamDemand(moment=moment, shear=shear, reaction=0.0, deflection_load=0.0, span=span, restraint=0.0,
                        bearing=1.0, sides=2)  # fmt: skip
    factor = value_of(rules.load_factor)
    beams = [carrier(section, 1, 0.0, 0, 0.0, rules) for section in sections]
    holding = [beam for beam in beams if value_of(worst_check(beam, [(demand, factor)], rules).holds) == 1]
    if holding:
        return min(holding, key=lambda beam: value_of(beam.mass)).section.name
    return max(beams, key=lambda beam: value_of(beam.mass)).section.name


def collar_row(member: MemberPlan, load: Number, breadth: Number, depth: Number, allow: Allowances) -> CollarRow:
    """The collar of one column.

    Args:
        member: the column with its plan
        load: in the lift [kN]
        breadth: of the column [m]
        depth: of the column [m]
        allow: the allowances
    """
    heavy, girth = allow.weight_doubt * load, 2 * (breadth + depth)
    stress = heavy / (girth * allow.collar_height)
    use = stress / allow.collar_shear
    return CollarRow(
        name=Name(member.name), load=heavy, girth=girth, height=allow.collar_height, stress=stress,
        most=allow.collar_shear, use=use, verdict=word_where(within(use, 1), LIMIT, STOPPED),
    )  # fmt: skip


def plinth_beam_row(
    name: str, moment: Number, breadth: Number, depth: Number, allow: Allowances
) -> PlinthBeamRow:
    """An old plinth beam whose steel is not known.

    Args:
        name: of the wall
        moment: greatest, either way, with its factor [kN m]
        breadth: of the beam [m]
        depth: of the beam [m]
        allow: the allowances
    """
    modulus = breadth * depth**2 / 6
    stress = moment / modulus
    use = ratio(stress, allow.plinth_beam_tension, 2)
    return PlinthBeamRow(
        name=Name(name), moment=moment, modulus=modulus, stress=stress, most=allow.plinth_beam_tension, use=use,
        verdict=word_where(within(use, 1), LIMIT, STOPPED),
    )  # fmt: skip
