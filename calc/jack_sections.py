"""Carrier beams of a whole house: at most two sections, the lightest that hold, what is in the store preferred.

Covers   the demands of a wall in every state, the best one or two sections for the job, the section of needles.
Not      the strengths (carrier_beams) and what is bought (beam_splices).
Signs    as in carrier_beams.
Units    m, kN, kN m, kg.
Sources  load factors as rows of the member rules; two sections on a job at most: common practice, no source.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

from calc.allowances import Allowances
from calc.beam_choice import worst_check
from calc.carrier_beams import BeamDemand
from calc.carrier_sections import CarrierSection, carrier
from calc.jack_plan_rows import MemberState
from calc.lift_works import needle_forces
from calc.member_rules import SteelRules
from calc.number import Number, value_of

ACCIDENTAL = ("one lost", "uneven")
"""States that are an accident: the smaller load factor holds."""

STORE_SHARE = 0.5
"""What a kilogram in the store counts for, against one that is bought or hired."""


def load_factor(state: str, rules: SteelRules) -> Number:
    """Load factor of a state [-].

    Args:
        state: one of STATES
        rules: figures of the code
    """
    return rules.accidental_factor if state in ACCIDENTAL else rules.load_factor


def beam_demand(
    jack: Number, moment: Number, shear: Number, deflection_load: Number, span: Number, lines: Number, plate: Number
) -> BeamDemand:
    """What carrier beams are asked for in one state, all beams together; they are tied at every jack.

    Args:
        jack: greatest load of a jack [kN]
        moment: greatest, either way [kN m]
        shear: greatest [kN]
        deflection_load: deflection between jacks times stiffness [kN m3]
        span: greatest distance of jacks at work [m]
        lines: jack lines: with two, two jacks stand side by side [No]
        plate: length of the plate on the jack head [m]
    """
    return BeamDemand(moment=moment, shear=shear, reaction=jack * lines, deflection_load=deflection_load, span=span,
                      restraint=span, bearing=plate, sides=2)  # fmt: skip


def demands_of(
    states: Sequence[MemberState], lines: int, plate: float, rules: SteelRules
) -> Iterator[tuple[BeamDemand, float]]:
    """Every state of a wall as a demand with its load factor.

    Args:
        states: of the wall
        lines: jack lines
        plate: length of the plate on the jack head [m]
        rules: figures of the code
    """
    for state in states:
        asked = beam_demand(state.jack, state.moment, state.shear, state.deflection_load, state.span, lines, plate)
        yield asked, value_of(load_factor(state.state, rules))


def job_sections(
    holds: Mapping[str, Sequence[str]],
    lengths: Mapping[str, float],
    masses: Mapping[str, float],
    stored: Mapping[str, float],
) -> dict[str, str]:
    """The section for each wall: one or two on the whole job, of least mass, what is in the store counting less.

    A wall under which no section holds gets none.

    Args:
        holds: sections that hold under each wall
        lengths: of carrier beam under each wall [m]
        masses: of each section [kg/m]
        stored: length of each section in the store [m]

    >>> job_sections({"W1": ["A", "B"], "W2": ["B"]}, {"W1": 4.0, "W2": 5.0}, {"A": 20.0, "B": 30.0}, {})
    {'W1': 'A', 'W2': 'B'}
    """
    walls = [wall for wall, names in holds.items() if names]
    named = sorted({name for wall in walls for name in holds[wall]})
    best: tuple[int, float, dict[str, str]] | None = None
    for few in (*combinations(named, 1), *combinations(named, 2)):
        chosen = {wall: _lightest([n for n in few if n in holds[wall]], masses) for wall in walls}
        served = {wall: name for wall, name in chosen.items() if name}
        mass = sum(_counted(name, served, lengths, masses, stored) for name in few)
        if best is None or (-len(served), mass) < best[:2]:
            best = -len(served), mass, served
    return best[2] if best else {}


def _lightest(names: Sequence[str], masses: Mapping[str, float]) -> str:
    return min(names, key=lambda name: masses[name], default="")


def _counted(
    name: str, served: Mapping[str, str], lengths: Mapping[str, float], masses: Mapping[str, float],
    stored: Mapping[str, float],
) -> float:  # fmt: skip
    length = sum(lengths[wall] for wall, section in served.items() if section == name)
    there = min(length, stored.get(name, 0.0))
    return masses[name] * (length - there + STORE_SHARE * there)


def needle_section(
    load: Number, length: Number, thickness: Number, sections: Sequence[CarrierSection], allow: Allowances,
    rules: SteelRules,
) -> str:  # fmt: skip
    """Name of the lightest section for a needle; of the strongest where none holds.

    Args:
        load: of the wall in the lift [kN]
        length: of the wall [m]
        thickness: of the wall [m]
        sections: of the table, as floats
        allow: the allowances
        rules: figures of the code, as floats
    """
    span, _, moment, shear = (_plain(part) for part in needle_forces(load, length, thickness, allow))
    demand = BeamDemand(moment=moment, shear=shear, reaction=0.0, deflection_load=0.0, span=span, restraint=0.0,
                        bearing=1.0, sides=2)  # fmt: skip
    factor = value_of(rules.load_factor)
    beams = [carrier(section, 1, 0.0, 0, 0.0, rules) for section in sections]
    holding = [beam for beam in beams if value_of(worst_check(beam, [(demand, factor)], rules).holds) == 1]
    if holding:
        return min(holding, key=lambda beam: value_of(beam.mass)).section.name
    return max(beams, key=lambda beam: value_of(beam.mass)).section.name


def _plain(number: Number) -> float:
    """As a float in calc's unit."""
    value = value_of(number)
    return float(value.m if hasattr(value, "m") else value)
