"""Rules, sections and demands that the tests of members share."""

from dataclasses import replace

from addin import tables
from calc.carrier_beams import BeamDemand
from calc.carrier_sections import Carrier, CarrierSection, carrier
from calc.member_rules import BaseRules, JackRules, PackingRules, SteelRules

STEEL = tables.rules(SteelRules)
PACKING = tables.rules(PackingRules)
BASES = tables.rules(BaseRules)
JACKS = tables.rules(JackRules)
SECTION: dict[str, CarrierSection] = {section.name: section for section in tables.carrier_sections()}
TIMBER = {timber.name: timber for timber in tables.timbers()}
JACK = {jack.name: jack for jack in tables.jack_types()}

DEMAND = BeamDemand(moment=30.0, shear=70.0, reaction=110.0, deflection_load=12.0, span=1.2, restraint=1.0,
                    bearing=0.15, sides=2)  # fmt: skip


def beam(name: str, count: int = 1, gap: float = 0.0, filled: int = 0) -> Carrier:
    return carrier(SECTION[name], count, gap, filled, 24.0, STEEL)


def demand(**changes: float) -> BeamDemand:
    return replace(DEMAND, **changes)
