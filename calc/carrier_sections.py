"""Rolled sections used as carrier beams: one, or a pair side by side, bare or filled with concrete.

Covers   what a section is, its torsion constant and the plastic modulus of its flanges; stiffness, weight and mass of a
         carrier.
Not      channels and built-up beams; a filling that helps to carry: concrete between the flanges counts as weight only.
Signs    weight positive downward.
Units    m, m2, m3, m4, kg/m, kN/m, kN/m3.
Sources  dimensions come in as data; torsion of thin plates is textbook mechanics.
"""

from dataclasses import dataclass

from calc.fields import note, quantity
from calc.member_rules import SteelRules
from calc.number import Number, where


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CarrierSection:
    """One rolled I section."""

    name: str = note("designation")
    mass: Number = quantity("kg/m", "mass per length")
    area: Number = quantity("m2", "cross-section")
    depth: Number = quantity("m", "overall, h")
    width: Number = quantity("m", "of the flange, b")
    web_thickness: Number = quantity("m", "tw")
    flange_thickness: Number = quantity("m", "mean of a tapered flange, tf")
    root_radius: Number = quantity("m", "between web and flange, R")
    depth_between_fillets: Number = quantity("m", "straight part of the web, d")
    ixx: Number = quantity("m4", "second moment about the strong axis")
    iyy: Number = quantity("m4", "second moment about the weak axis")
    zex: Number = quantity("m3", "elastic modulus about the strong axis")
    zpx: Number = quantity("m3", "plastic modulus about the strong axis")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Carrier:
    """A carrier beam as it lies under a wall. A pair is tied and shares its load evenly."""

    section: CarrierSection = note("each beam of it")
    count: Number = quantity("No", "beams side by side: 1 or 2")
    gap: Number = quantity("m", "between the flanges of a pair")
    filled: Number = quantity("No", "1 where it is filled with concrete, else 0")
    weight: Number = quantity("kN/m", "weight per length, filling included")
    mass: Number = quantity("kg/m", "mass of steel per length")


def torsion_constant(section: CarrierSection, rules: SteelRules) -> Number:
    """St Venant torsion constant of three thin plates, root fillets left out [m4].

    Args:
        section: of the beam
        rules: figures of the code
    """
    flanges = 2 * section.width * section.flange_thickness * section.flange_thickness**2
    web = (section.depth - 2 * section.flange_thickness) * section.web_thickness * section.web_thickness**2
    return (flanges + web) / rules.torsion_plate


def flange_modulus(section: CarrierSection) -> Number:
    """Plastic modulus without the shear area, which is the web over the whole depth [m3].

    Args:
        section: of the beam
    """
    return section.zpx - section.web_thickness * section.depth**2 / 4


def filling_area(section: CarrierSection, count: Number, gap: Number) -> Number:
    """Cross-section of the concrete between the flanges of one beam, or between the webs of a pair [m2].

    Args:
        section: of the beam
        count: beams side by side [No]
        gap: between the flanges of a pair [m]
    """
    clear = section.depth - 2 * section.flange_thickness
    across = section.width - section.web_thickness
    return where(count > 1, clear * (across + gap) + 2 * gap * section.flange_thickness, clear * across)


def bending_stiffness(section: CarrierSection, count: Number, rules: SteelRules) -> Number:
    """Bending stiffness EI of one beam or a pair about the strong axis [kN m2].

    Args:
        section: of each beam
        count: beams side by side [No]
        rules: figures of the code
    """
    return rules.elastic_modulus * count * section.ixx


def carrier(
    section: CarrierSection, count: Number, gap: Number, filled: Number, concrete: Number, rules: SteelRules
) -> Carrier:
    """A carrier beam with its weight and mass.

    Args:
        section: of each beam
        count: beams side by side, 1 or 2 [No]
        gap: between the flanges of a pair [m]
        filled: 1 where it is filled with concrete [No]
        concrete: unit weight of the filling [kN/m3]
        rules: figures of the code
    """
    filling = filled * filling_area(section, count, gap) * concrete
    return Carrier(
        section=section, count=count, gap=gap, filled=filled,
        weight=count * section.area * rules.steel_weight + filling, mass=count * section.mass,
    )  # fmt: skip
