"""What a jack plan asks of masonry, needles, collars and old plinth beams, as rows.

Covers   masonry over pockets, old masonry on the carrier beam, new masonry when the load comes back, closing of the new
         masonry beside a wall that still stands on jacks; needles of twin beams; collars of columns; plinth beams.
Not      carrier beams (carrier_rows), jacks, packing and ground (jack_state_rows).
Signs    loads and stresses positive downward or in compression.
Units    m, kN, kN/m, kN/m2, kN m, day.
Sources  arch over an opening: statics; stresses as allowances with their source.
"""

from dataclasses import dataclass

from calc.allowances import Allowances
from calc.carrier_beams import bending_strength, shear_resistance
from calc.carrier_sections import CarrierSection
from calc.fields import note, quantity
from calc.jack_plan_rows import MemberPlan
from calc.member_rules import SteelRules
from calc.number import Name, Number, Text, maximum, minimum, ratio, where, within, word_where

LIMIT, STOPPED = "within the limits set", "STOP"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MasonryLimits:
    """What old and new masonry may take, and by how much the new one closes."""

    arch_rise: Number = quantity("m", "rise of the arch over a pocket")
    old: Number = quantity("kN/m2", "allowed in the old masonry")
    bearing: Number = quantity("kN/m2", "allowed in it under a beam or needle")
    strength: Number = quantity("-", "share of its strength the new masonry has at transfer")
    new: Number = quantity("kN/m2", "allowed in the new masonry then")
    closing: Number = quantity("m", "new masonry and joint close by")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MasonryRow:
    """The masonry of one wall while it is cut, carried and let down."""

    name: Name = note("wall")
    lifted: Number = quantity("kN", "load in the lift")
    length: Number = quantity("m", "length")
    line_load: Number = quantity("kN/m", "in the lift, weight doubt included")
    thickness: Number = quantity("m", "of the wall")
    new_thickness: Number = quantity("m", "of the new masonry under it")
    thrust: Number = quantity("kN", "of the arch over a pocket")
    arch_stress: Number = quantity("kN/m2", "in that arch")
    on_beam: Number = quantity("kN/m2", "old masonry on its carrier beam")
    new_stress: Number = quantity("kN/m2", "in the new masonry at transfer")
    widest: Number = quantity("m", "widest spacing of its jacks")
    closing_most: Number = quantity("m", "allowed to the next jack")
    use: Number = quantity("-", "greatest use of the masonry")
    verdict: Text = note("within the limits set, or STOP")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NeedleRow:
    """Needles of one wall on twin beams."""

    name: Name = note("wall")
    section: str = note("lightest section that holds")
    spacing: Number = quantity("m", "of the needles")
    lifted: Number = quantity("kN", "load of the wall in the lift")
    length: Number = quantity("m", "of the wall")
    thickness: Number = quantity("m", "of the wall")
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
    return line_load * span**2 / rise / 4 / 2


def strength_at(age: Number, allow: Allowances) -> Number:
    """Share of its strength that new masonry has at an age; nothing before the first age that counts [-].

    Args:
        age: of the newest masonry that is loaded [day]
        allow: the allowances
    """
    grown = allow.early_share + (1 - allow.early_share) * (age - allow.early_age) / (allow.full_age - allow.early_age)
    return where(age < allow.early_age, 0, minimum(grown, 1))


def masonry_limits(rise: Number, age: Number, allow: Allowances) -> MasonryLimits:
    """What masonry may take on this job.

    Args:
        rise: of the house [m]
        age: of the newest masonry at transfer [day]
        allow: the allowances
    """
    strength = strength_at(age, allow)
    return MasonryLimits(
        arch_rise=allow.arch_rise * allow.pocket_width, old=allow.masonry_permissible,
        bearing=allow.masonry_permissible * allow.bearing_share, strength=strength,
        new=allow.new_masonry_permissible * strength, closing=allow.closing * rise + allow.joint_closing,
    )  # fmt: skip


def masonry_row(
    member: MemberPlan, load: Number, length: Number, thickness: Number, widest: Number, limits: MasonryLimits,
    allow: Allowances,
) -> MasonryRow:  # fmt: skip
    """The masonry of one wall.

    Args:
        member: the wall with its plan
        load: in the lift [kN]
        length: of the wall [m]
        thickness: of the wall [m]
        widest: spacing of its jacks [m]
        limits: what masonry may take
        allow: the allowances
    """
    line, new_thickness = allow.weight_doubt * load / length, maximum(allow.new_wall_thickness, thickness)
    thrust = arch_thrust(line, allow.pocket_width, limits.arch_rise)
    arch, on_beam, new_stress = thrust / (thickness * limits.arch_rise), line / thickness, line / new_thickness
    use = maximum(arch / limits.old, on_beam / limits.bearing, ratio(new_stress, limits.new, 2))
    return MasonryRow(
        name=Name(member.name), lifted=load, length=length, line_load=line, thickness=thickness,
        new_thickness=new_thickness, thrust=thrust, arch_stress=arch, on_beam=on_beam, new_stress=new_stress,
        widest=widest, closing_most=allow.transfer_distortion * widest, use=use,
        verdict=word_where(within(use, 1), LIMIT, STOPPED),
    )  # fmt: skip


def needle_row(
    member: MemberPlan, load: Number, length: Number, thickness: Number, section: CarrierSection,
    limits: MasonryLimits, allow: Allowances, rules: SteelRules,
) -> NeedleRow:  # fmt: skip
    """Needles of one wall on twin beams.

    Args:
        member: the wall with its plan
        load: in the lift [kN]
        length: of the wall [m]
        thickness: of the wall [m]
        section: of the needles
        limits: what masonry may take
        allow: the allowances
        rules: figures of the code
    """
    span, point, moment, shear = needle_forces(load, length, thickness, allow)
    bending = bending_strength(section.zpx, section.zex, 1, rules) / rules.load_factor
    strength = shear_resistance(section, rules) / rules.load_factor
    bearing, most = point / (allow.needle_plate * thickness), limits.bearing
    use = maximum(moment / bending, shear / strength, bearing / most)
    return NeedleRow(
        name=Name(member.name), section=section.name, spacing=allow.needle_spacing, lifted=load,
        length=length, thickness=thickness, span=span, load=point,
        moment=moment, bending=bending, shear=shear, shear_strength=strength, bearing=bearing, bearing_most=most,
        use=use, verdict=word_where(within(use, 1), LIMIT, STOPPED),
    )  # fmt: skip


def needle_forces(
    load: Number, length: Number, thickness: Number, allow: Allowances
) -> tuple[Number, Number, Number, Number]:
    """Span of a needle [m], its load [kN], moment [kN m] and shear [kN]; the wall lies on its middle.

    Args:
        load: of the wall in the lift [kN]
        length: of the wall [m]
        thickness: of the wall [m]
        allow: the allowances
    """
    span = thickness + 2 * allow.side_distance
    point = allow.weight_doubt * load / length * allow.needle_spacing
    return span, point, point * (2 * span - thickness) / 4 / 2, point / 2


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


def plinth_beam_row(name: str, moment: Number, breadth: Number, depth: Number, allow: Allowances) -> PlinthBeamRow:
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
