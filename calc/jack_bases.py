"""Jack bases of plain or reinforced concrete.

Covers   side from reaction, uneven factor and allowable pressure; thickness by spread, punching, one-way shear and
         bending; bars; bearing under the plate.
Not      bases that run together (base_strips), what they stand on and near (base_places), settlement, eccentric load,
         timber or steel mats.
Signs    load and pressure positive downward.
Units    m, m2, kN, kN m, kN/m, kN/m2.
Sources  IS 456:2000 cl. 31.6, 34.1.3, 34.4 and Annex G; how each figure was read stands in the member rules
         table.

Side and plate are square. Concrete is checked with factored forces, soil with service pressure.
"""

from dataclasses import dataclass

from calc.allowances import Allowances
from calc.bases import pad_side
from calc.criteria import Criterion, all_hold, criterion, most_used
from calc.errors import require
from calc.fields import note, quantity
from calc.member_rules import BaseRules
from calc.number import Number, maximum, minimum, rounded_up_to, sqrt, value_of


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class JackBase:
    """One square jack base."""

    load: Number = quantity("kN", "service load it is made for, uneven share included")
    side: Number = quantity("m", "side")
    pressure: Number = quantity("kN/m2", "service pressure under it")
    thickness: Number = quantity("m", "thickness")
    bars: Number = quantity("m2", "bars each way, 0 in a plain base")
    criteria: tuple[Criterion, ...] = note("one a limit state")
    utilisation: Number = quantity("-", "of the most used")
    holds: Number = quantity("No", "1 where every criterion holds, else 0")


def projection(side: Number, plate: Number) -> Number:
    """How far a base stands out beyond the plate on it [m].

    Args:
        side: of the base [m]
        plate: side of the plate [m]

    >>> round(projection(0.75, 0.25), 3)
    0.25
    """
    return maximum(side - plate, 0) / 2


def spread_thickness(side: Number, plate: Number, pressure: Number, rules: BaseRules) -> Number:
    """Thickness of a plain base in which the load spreads to its edges [m].

    Args:
        side: of the base [m]
        plate: side of the plate [m]
        pressure: under the base, at service [kN/m2]
        rules: figures of the code

    Source:
        IS 456:2000 cl. 34.1.3: tan a not less than 0.9 root (100 q / fck + 1); from memory.
    """
    slope = rules.spread_slope * sqrt(rules.spread_pressure * pressure / rules.concrete_grade + 1)
    return projection(side, plate) * slope


def punching_stress(rules: BaseRules) -> Number:
    """Shear stress at which a square plate punches [kN/m2].

    Args:
        rules: figures of the code

    Source:
        IS 456:2000 cl. 31.6.3.1: 0.25 root fck in N/mm2, factor 1 for a square plate.
    """
    return rules.punching * sqrt(rules.concrete_grade * rules.stress_unit)


def punching_depth(side: Number, plate: Number, pressure: Number, rules: BaseRules) -> Number:
    """Effective depth at which the plate does not punch through the base [m].

    From q B2 - q (a + d)2 = 4 (a + d) d v, the soil inside the perimeter at d / 2 taken off.

    Args:
        side: of the base, B [m]
        plate: side of the plate, a [m]
        pressure: factored, under the base, q [kN/m2]
        rules: figures of the code
    """
    stress = punching_stress(rules)
    square, middle = 4 * stress + pressure, (4 * stress + 2 * pressure) * plate
    rest = pressure * (maximum(side, plate) ** 2 - plate**2)
    return (sqrt(middle**2 + 4 * square * rest) - middle) / (2 * square)


def shear_depth(side: Number, plate: Number, pressure: Number, rules: BaseRules) -> Number:
    """Effective depth at which one-way shear, that depth off the plate, stays within lightly reinforced concrete [m].

    Args:
        side: of the base [m]
        plate: side of the plate [m]
        pressure: factored, under the base [kN/m2]
        rules: figures of the code
    """
    return pressure * projection(side, plate) / (pressure + rules.one_way_shear)


def base_moment(side: Number, plate: Number, pressure: Number) -> Number:
    """Moment of the whole base at the face of the plate [kN m].

    Args:
        side: of the base [m]
        plate: side of the plate [m]
        pressure: factored, under the base [kN/m2]

    >>> round(base_moment(0.8, 0.2, 150.0), 4)
    5.4
    """
    return pressure * side * projection(side, plate) ** 2 / 2


def moment_depth(moment: Number, side: Number, rules: BaseRules) -> Number:
    """Effective depth at which a reinforced base takes a moment without steel in compression [m].

    Args:
        moment: factored, of the whole base [kN m]
        side: of the base [m]
        rules: figures of the code
    """
    return sqrt(moment / (rules.moment_limit * rules.concrete_grade * side))


def bar_area(moment: Number, side: Number, depth: Number, thickness: Number, rules: BaseRules) -> Number:
    """Bars each way for a moment, no less than the least [m2].

    From M = 0.87 fy A d (1 - A fy / (b d fck)).

    Args:
        moment: factored, of the whole base [kN m]
        side: of the base, b [m]
        depth: effective, d [m]
        thickness: of the base [m]
        rules: figures of the code

    Source:
        IS 456:2000 Annex G, G-1.1, and cl. 26.5.2.1; from memory.
    """
    share = moment / (rules.bar_share * rules.concrete_grade * side * depth**2)
    filled = (1 - sqrt(maximum(1 - 4 * share, 0))) / 2
    by_moment = filled * side * depth * rules.concrete_grade / rules.bar_stress
    return maximum(by_moment, rules.bars_least * side * thickness)


def plain_base(
    reaction: Number, uneven: Number, allowable: Number, plate: Number, factor: Number, rules: BaseRules,
    allow: Allowances,
) -> JackBase:  # fmt: skip
    """A base of plain concrete.

    Args:
        reaction: mean or worked out, at service [kN]
        uneven: greatest over that reaction, 1 where the unevenness is in it already [-]
        allowable: pressure on the soil [kN/m2]
        plate: side of the plate under the jack [m]
        factor: load factor on concrete [-]
        rules: figures of the code
        allow: steps and least thickness

    Raises:
        DomainError: a plate or allowable pressure that is not above 0, a load below 0, or one that is no number
    """
    load = reaction * uneven
    side = _side(load, allowable, plate, allow)
    pressure = load / side**2
    by_punching = punching_depth(side, plate, factor * pressure, rules) + rules.cover_plain
    by_spread = spread_thickness(side, plate, pressure, rules)
    thickness = rounded_up_to(maximum(by_spread, by_punching, allow.base_thickness_least), allow.base_thickness_step)
    criteria = (
        *_common(load, side, allowable, plate, thickness, factor, rules),
        criterion("Spread in plain concrete", by_spread, thickness, "m", "IS 456:2000 cl. 34.1.3"),
        criterion("Punching of the base", by_punching, thickness, "m", "IS 456:2000 cl. 31.6"),
    )
    return JackBase(load=load, side=side, pressure=pressure, thickness=thickness, bars=0, criteria=criteria,
                    utilisation=most_used(criteria), holds=all_hold(criteria))  # fmt: skip


def reinforced_base(
    reaction: Number, uneven: Number, allowable: Number, plate: Number, factor: Number, rules: BaseRules,
    allow: Allowances,
) -> JackBase:  # fmt: skip
    """A base with bars both ways at its foot.

    Args:
        reaction: mean or worked out, at service [kN]
        uneven: greatest over that reaction, 1 where the unevenness is in it already [-]
        allowable: pressure on the soil [kN/m2]
        plate: side of the plate under the jack [m]
        factor: load factor on concrete [-]
        rules: figures of the code
        allow: steps and least thickness

    Raises:
        DomainError: a plate or allowable pressure that is not above 0, a load below 0, or one that is no number
    """
    load = reaction * uneven
    side = _side(load, allowable, plate, allow)
    pressure = load / side**2
    factored = factor * pressure
    moment = base_moment(side, plate, factored)
    by_punching = punching_depth(side, plate, factored, rules)
    by_shear = shear_depth(side, plate, factored, rules)
    by_moment = moment_depth(moment, side, rules)
    needed = maximum(by_punching, by_shear, by_moment) + rules.cover_bars
    thickness = rounded_up_to(maximum(needed, allow.base_thickness_least), allow.base_thickness_step)
    depth = thickness - rules.cover_bars
    criteria = (
        *_common(load, side, allowable, plate, thickness, factor, rules),
        criterion("Punching of the base", by_punching, depth, "m", "IS 456:2000 cl. 31.6"),
        criterion("One-way shear of the base", by_shear, depth, "m", "IS 456:2000 cl. 34.2.4 and Table 19"),
        criterion("Bending of the base", by_moment, depth, "m", "IS 456:2000 Annex G"),
    )
    return JackBase(load=load, side=side, pressure=pressure, thickness=thickness, criteria=criteria,
                    bars=bar_area(moment, side, depth, thickness, rules), utilisation=most_used(criteria),
                    holds=all_hold(criteria))  # fmt: skip


def _side(load: Number, allowable: Number, plate: Number, allow: Allowances) -> Number:
    """Side of a base [m], no less than one step, so that a base without load divides by nothing less."""
    require("allowable pressure", value_of(allowable), "kN/m2", "be more than", 0.0)
    require("side of the plate", value_of(plate), "m", "be more than", 0.0)
    require("load", value_of(load), "kN", "be at least", 0.0)
    return maximum(pad_side(load, allowable, allow.base_step), allow.base_step)


def _common(
    load: Number, side: Number, allowable: Number, plate: Number, thickness: Number, factor: Number, rules: BaseRules
) -> tuple[Criterion, ...]:
    """Soil under the base and concrete under the plate."""
    under_plate = bearing_capacity(side, plate, thickness, rules)
    return (
        criterion("Pressure under a jack base", load / side**2, allowable, "kN/m2", "bearing pressure on Job"),
        criterion("Concrete under the plate", factor * load, under_plate, "kN", "IS 456:2000 cl. 34.4"),
    )


def bearing_capacity(side: Number, plate: Number, thickness: Number, rules: BaseRules) -> Number:
    """Load concrete bears under the plate [kN].

    Args:
        side: of the base [m]
        plate: side of the plate [m]
        thickness: of the base [m]
        rules: figures of the code

    Source:
        IS 456:2000 cl. 34.4: 0.45 fck root (A1 / A2), the root at most 2, A1 spread 1 down in 2 along; from memory.
    """
    enlarged = minimum(maximum(side, plate), plate + 4 * thickness)
    return rules.bearing * rules.concrete_grade * minimum(enlarged / plate, 2) * plate**2
