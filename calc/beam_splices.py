"""Splices of carrier beams, and what is bought.

Covers   forces a splice is made for, its flange plates, fillet welds of flanges and web, pieces and mass to buy.
Not      bolted splices, butt welds, the shape of the plates, where along the wall it stands (beam_choice).
Signs    moment and shear are magnitudes, factored.
Units    m, m2, kN, kN m, kN/m2, kg.
Sources  IS 800:2007 cl. 10.5, from memory. Flanges carry the whole moment, and the moment of the shear between the two
         halves of the web weld; the web carries the shear alone.
"""

from dataclasses import dataclass

from calc.fields import quantity
from calc.member_rules import SteelRules
from calc.number import Number, ceil, maximum, sqrt


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Splice:
    """A splice of one beam of a carrier."""

    shear: Number = quantity("kN", "factored, it is made for")
    moment: Number = quantity("kN m", "factored, it is made for, the offset of the web weld included")
    flange_force: Number = quantity("kN", "in each flange plate")
    flange_plate: Number = quantity("m2", "cross-section of each flange plate, at least")
    weld_size: Number = quantity("m", "leg of the fillet welds")
    flange_weld: Number = quantity("m", "weld of each flange plate, on each side of the joint")
    web_weld: Number = quantity("m", "weld of the web plates, both faces together, on each side of the joint")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamOrder:
    """Carrier beams of one wall, as bought."""

    run: Number = quantity("m", "length of the carrier, overhang included")
    pieces: Number = quantity("No", "pieces of each beam")
    splices: Number = quantity("No", "splices of all beams together")
    length: Number = quantity("m", "length of all beams together")
    mass: Number = quantity("kg", "mass of steel")


def weld_strength(size: Number, rules: SteelRules) -> Number:
    """Design strength of a fillet weld made on site [kN/m].

    Args:
        size: leg of the weld [m]
        rules: figures of the code

    Source:
        IS 800:2007 cl. 10.5.7.1.1: throat times fu / (root 3 gamma mw); from memory.
    """
    throat = rules.weld_throat * size
    return throat * rules.ultimate_stress / (sqrt(rules.shear_yield) * rules.weld_factor)


def weld_length(force: Number, size: Number, rules: SteelRules) -> Number:
    """Length of fillet weld to lay for a force, end runs included [m].

    Effective length, but not less than so many times its size, and one size more at either end.

    Args:
        force: factored [kN]
        size: leg of the weld [m]
        rules: figures of the code

    Source:
        IS 800:2007 cl. 10.5.4.1, from memory.
    """
    return maximum(force / weld_strength(size, rules), rules.weld_run * size) + 2 * size


def splice(
    moment: Number, shear: Number, bending: Number, resistance: Number, depth: Number, offset: Number, size: Number,
    rules: SteelRules,
) -> Splice:  # fmt: skip
    """A welded splice of one beam, made for what is there but no less than a share of its section.

    Args:
        moment: factored, at the place of the splice, on one beam [kN m]
        shear: factored, at the same place, on one beam [kN]
        bending: strength of one beam [kN m]
        resistance: shear strength of one beam [kN]
        depth: of the beam, lever of the flange plates outside of it [m]
        offset: from the joint to the middle of the web weld on one side [m]
        size: leg of the welds [m]
        rules: figures of the code
    """
    made_shear = maximum(shear, rules.splice_share * resistance)
    made_moment = maximum(moment, rules.splice_share * bending) + made_shear * offset
    return splice_made_for(made_moment, made_shear, depth, size, rules)


def splice_made_for(moment: Number, shear: Number, depth: Number, size: Number, rules: SteelRules) -> Splice:
    """Plates and welds of a splice of one beam.

    Args:
        moment: factored, the offset of the web weld included [kN m]
        shear: factored [kN]
        depth: of the beam [m]
        size: leg of the welds [m]
        rules: figures of the code
    """
    force = moment / depth
    return Splice(
        shear=shear, moment=moment, flange_force=force, weld_size=size,
        flange_plate=force * rules.yield_factor / rules.yield_stress,
        flange_weld=weld_length(force, size, rules), web_weld=weld_length(shear, size, rules),
    )  # fmt: skip


def beam_order(beams: Number, mass: Number, length: Number, overhang: Number, rules: SteelRules) -> BeamOrder:
    """Carrier beams of one wall, as bought: net length, pieces no longer than they are sold.

    Args:
        beams: side by side, or on both sides [No]
        mass: of one beam [kg/m]
        length: of the wall [m]
        overhang: of the beam past either end of the wall [m]
        rules: figures of the code
    """
    run = length + 2 * overhang
    pieces = ceil(run / rules.stock_length)
    total = beams * run
    return BeamOrder(run=run, pieces=pieces, splices=beams * (pieces - 1), length=total, mass=total * mass)
