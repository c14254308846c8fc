"""The choice of a carrier beam, and of the place of its splice: worked out at issue on floats.

Covers   the lightest carrier of a list that passes every criterion under every demand; the one in the store that does;
         the first answer for an even load; the place of least moment.
Not      the criteria themselves (carrier_beams) and the moments (a solver's work).
Signs    moments positive or negative, as the solver gives them.
Units    m, kN m, kg/m.
Sources  none of its own.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from calc.carrier_beams import BeamDemand, CarrierCheck, carrier_check, even_load_demand
from calc.carrier_sections import Carrier
from calc.criteria import Criterion
from calc.errors import NothingFits, require
from calc.fields import note, quantity, unit_of
from calc.member_rules import SteelRules
from calc.number import value_of


class NoCarrierFits(NothingFits):
    """No carrier of a list passes; keeps the check that comes nearest and the criterion it fails by."""

    def __init__(self, nearest: CarrierCheck, worst: Criterion) -> None:
        self.nearest, self.worst = nearest, worst
        super().__init__(
            f"carrier beam, by {worst.name.lower()},", value_of(worst.demand), value_of(worst.capacity), worst.unit
        )

    def __str__(self) -> str:
        beam = f"{value_of(self.nearest.carrier.count):g} x {self.nearest.carrier.section.name}"
        return (
            f"no carrier beam listed is enough: the least used, {beam}, fails by {self.worst.name.lower()}: needed "
            f"{self.needed:.4g} {self.unit}, there is {self.best:.4g} {self.unit}"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Stored:
    """A carrier in the contractor's store."""

    carrier: Carrier = note("beam or pair")
    length: float = quantity("m", "of the carrier, all pieces together")


def worst_check(beam: Carrier, demands: Sequence[tuple[BeamDemand, float]], rules: SteelRules) -> CarrierCheck:
    """The check of a carrier under the demand that uses it most.

    Args:
        beam: the beam or pair
        demands: each with its load factor [-]
        rules: figures of the code

    Raises:
        DomainError: no demand, or one that is negative or no number
    """
    require("number of demands", len(demands), "No", "be at least", 1)
    for demand, factor in demands:
        require("load factor", factor, "-", "be more than", 0.0)
        for name in ("moment", "shear", "reaction", "deflection_load", "restraint"):
            require(name, value_of(getattr(demand, name)), unit_of(demand, name), "be at least", 0.0)
        for name in ("span", "bearing", "sides"):
            require(name, value_of(getattr(demand, name)), unit_of(demand, name), "be more than", 0.0)
    checks = [carrier_check(beam, demand, factor, rules) for demand, factor in demands]
    return max(checks, key=lambda check: value_of(check.utilisation))


def even_load_check(
    beam: Carrier, line_load: float, spacing: float, restraint: float, bearing: float, rules: SteelRules
) -> CarrierCheck:
    """The first answer for a carrier under an even load, its own weight added; all jacks at work and level.

    Args:
        beam: the beam or pair
        line_load: at service, own weight of the beam left out [kN/m]
        spacing: of the jacks [m]
        restraint: distance of ties that hold the beam sideways [m]
        bearing: length of the plate on the jack head [m]
        rules: figures of the code

    Raises:
        DomainError: a spacing or bearing that is not above 0, a load or distance of ties below 0
    """
    demand = even_load_demand(line_load + beam.weight, spacing, restraint, bearing, rules)
    return worst_check(beam, [(demand, value_of(rules.load_factor))], rules)


def lightest_for_even_load(
    carriers: Iterable[Carrier], line_load: float, spacing: float, restraint: float, bearing: float, rules: SteelRules
) -> CarrierCheck:
    """The lightest carrier of a list that passes as the first answer for an even load; of equals the first.

    Args:
        carriers: to choose from
        line_load: at service, own weight of the beam left out [kN/m]
        spacing: of the jacks [m]
        restraint: distance of ties that hold the beam sideways [m]
        bearing: length of the plate on the jack head [m]
        rules: figures of the code

    Raises:
        NoCarrierFits: none passes; says which comes nearest and what it fails by
        DomainError: an empty list, or a figure as in even_load_check
    """
    return _lightest([even_load_check(beam, line_load, spacing, restraint, bearing, rules) for beam in carriers])


def lightest_carrier(
    carriers: Iterable[Carrier], demands: Sequence[tuple[BeamDemand, float]], rules: SteelRules
) -> CarrierCheck:
    """The lightest carrier of a list that passes every criterion under every demand; of equals the first.

    Args:
        carriers: to choose from
        demands: each with its load factor [-]
        rules: figures of the code

    Raises:
        NoCarrierFits: none passes; says which comes nearest and what it fails by
        DomainError: an empty list, or a demand that is no number
    """
    return _lightest([worst_check(beam, demands, rules) for beam in carriers])


def _lightest(checks: Sequence[CarrierCheck]) -> CarrierCheck:
    require("number of carriers", len(checks), "No", "be at least", 1)
    passing = [check for check in checks if value_of(check.holds) == 1]
    if not passing:
        raise _nothing(checks)
    return min(passing, key=lambda check: value_of(check.carrier.mass))


def stored_carrier(
    stored: Iterable[Stored], length: float, demands: Sequence[tuple[BeamDemand, float]], rules: SteelRules
) -> CarrierCheck:
    """The lightest carrier in the store that passes and is there in the length needed.

    Args:
        stored: what is in the store
        length: of carrier needed [m]
        demands: each with its load factor [-]
        rules: figures of the code

    Raises:
        NothingFits: none is long enough
        NoCarrierFits: none of those that are long enough passes
    """
    there = tuple(stored)
    require("number of carriers", len(there), "No", "be at least", 1)
    long_enough = [item.carrier for item in there if item.length >= length]
    if not long_enough:
        raise NothingFits("length of carrier beam in the store", length, max(item.length for item in there), "m")
    return lightest_carrier(long_enough, demands, rules)


def _nothing(checks: Sequence[CarrierCheck]) -> NoCarrierFits:
    best = min(checks, key=lambda check: value_of(check.utilisation))
    return NoCarrierFits(best, max(best.criteria, key=lambda row: value_of(row.utilisation)))


def splice_place(places: Sequence[float], moments: Sequence[float], start: float, end: float) -> tuple[float, float]:
    """Place of least moment in a stretch, and the moment there, sign dropped; of equals the first.

    Args:
        places: along the beam, ascending [m]
        moments: at those places, the worst of all states [kN m]
        start: of the stretch in which a splice may stand [m]
        end: of that stretch [m]

    Raises:
        DomainError: the lists differ in length, or no place lies in the stretch

    >>> splice_place([0.0, 0.5, 1.0, 1.5], [-4.0, 1.5, -0.5, 3.0], 0.2, 1.6)
    (1.0, 0.5)
    """
    require("number of moments", len(moments), "No", "be at least", len(places))
    require("number of moments", len(moments), "No", "be at most", len(places))
    inside = [(abs(moment), place) for place, moment in zip(places, moments, strict=True) if start <= place <= end]
    require("number of places in the stretch", len(inside), "No", "be at least", 1)
    least, place = min(inside)
    return place, least
