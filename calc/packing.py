"""Timber packing under a carrier beam: crushing, shortening, stiffness of one jacking point, courses and re-seating.

Covers   crushing across the grain, shortening, compliance of packing, jack, nut and soil in series, courses for a rise,
         strokes and re-seatings, partner packs that hold the load while a jack is re-seated.
Not      cribs (cribs), bedding-in of joints, creep, swelling, packing that is not square to the load.
Signs    load and shortening positive in compression.
Units    m, m2, m3, kN, kN/m, kN/m2, kN/m3, m/kN.
Sources  textbook mechanics; strengths and moduli come in as data (timbers, member rules).
"""

from dataclasses import dataclass

from calc.criteria import Criterion, criterion
from calc.errors import require
from calc.fields import note, quantity
from calc.member_rules import PackingRules
from calc.number import Number, ceil, maximum, value_of, where, within


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Timber:
    """Timber pressed across the grain."""

    name: str = note("kind of timber")
    crushing: Number = quantity("kN/m2", "allowed stress across the grain, dry")
    modulus: Number = quantity("kN/m2", "modulus of elasticity across the grain")
    wet: Number = quantity("No", "1 where the stress is printed for dry timber and falls when it is wet, else 0")
    source: str = note("code or book, edition, table or clause")
    read: str = note("how it was read")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PointStiffness:
    """What one jacking point gives way under load: four springs in series."""

    packing: Number = quantity("m/kN", "of the timber")
    jack: Number = quantity("m/kN", "of the jack: oil column, or screw and nut")
    base: Number = quantity("m/kN", "of what is packed under the jack")
    soil: Number = quantity("m/kN", "of the ground")
    compliance: Number = quantity("m/kN", "all together")
    stiffness: Number = quantity("kN/m", "load over shortening")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reseating:
    """How one wall is lifted in strokes, and the packs that hold it meanwhile."""

    net_stroke: Number = quantity("m", "rise in one stroke")
    strokes: Number = quantity("No", "strokes for the whole rise")
    reseatings: Number = quantity("No", "times each jack is released and packed up")
    partner_packs: Number = quantity("No", "packs that hold the load beside a released jack")
    volume: Number = quantity("m3", "timber of the partner packs at full height")


def allowed_stress(timber: Timber, is_wet: Number, rules: PackingRules) -> Number:
    """Stress across the grain allowed on packing [kN/m2].

    Args:
        timber: of the packing
        is_wet: 1 where it lies in rain or in a wet trench [No]
        rules: figures of the rules
    """
    return timber.crushing * where(is_wet * timber.wet > 0, rules.wet_share, 1)


def packing_criterion(load: Number, area: Number, stress: Number, source: str) -> Criterion:
    """Crushing of packing at its smallest contact.

    Args:
        load: at service, uneven share included [kN]
        area: of the smallest contact [m2]
        stress: allowed across the grain [kN/m2]
        source: of that stress
    """
    return criterion("Packing across the grain", load, stress * area, "kN", source)


def shortening(load: Number, height: Number, modulus: Number, area: Number) -> Number:
    """Shortening of a stack under load [m].

    Args:
        load: on it [kN]
        height: of the timber [m]
        modulus: across the grain [kN/m2]
        area: of the contact [m2]

    >>> round(shortening(40.0, 1.0, 300000.0, 0.04), 5)
    0.00333
    """
    return load * column_compliance(height, modulus, area)


def column_compliance(height: Number, modulus: Number, area: Number) -> Number:
    """Shortening of a column for each kN: a stack, a screw, a nut on its cylinder [m/kN].

    Args:
        height: [m]
        modulus: of elasticity [kN/m2]
        area: [m2]

    >>> column_compliance(0.5, 250000.0, 0.04)
    5e-05
    """
    return height / (modulus * area)


def oil_compliance(stroke_out: Number, piston: Number, rules: PackingRules) -> Number:
    """Shortening of a jack that stands on oil, valve closed, for each kN [m/kN].

    Args:
        stroke_out: height of the oil column [m]
        piston: area of the piston [m2]
        rules: figures of the rules
    """
    return column_compliance(stroke_out, rules.oil_modulus, piston)


def soil_compliance(subgrade: Number, side: Number) -> Number:
    """Settlement of a square base for each kN [m/kN].

    Args:
        subgrade: modulus of subgrade reaction, for a base of that size [kN/m3]
        side: of the base [m]

    >>> soil_compliance(40000.0, 0.5)
    0.0001
    """
    return 1 / (subgrade * side**2)


def point_stiffness(packing: Number, jack: Number, base: Number, soil: Number) -> PointStiffness:
    """One jacking point: packing, jack, what is under the jack, and soil, one on the other.

    Args:
        packing: of the timber [m/kN]
        jack: of the jack [m/kN]
        base: of what is packed under the jack, 0 where there is nothing [m/kN]
        soil: of the ground [m/kN]
    """
    compliance = packing + jack + base + soil
    return PointStiffness(
        packing=packing, jack=jack, base=base, soil=soil, compliance=compliance, stiffness=1 / compliance
    )


def courses(height: Number, course: Number) -> Number:
    """Whole courses of planks below a height [No]; what is left is shims.

    Args:
        height: to be packed [m]
        course: thickness of a plank [m]

    >>> courses(0.9, 0.075), courses(0.3, 0.1), courses(0.95, 0.1)
    (12.0, 3.0, 9.0)
    """
    reaching = ceil(height / course)
    return where(within(reaching * course, height), reaching, reaching - 1)


def shims(height: Number, course: Number, step: Number) -> Number:
    """Height of shims above the whole courses, in steps [m].

    Args:
        height: to be packed [m]
        course: thickness of a plank [m]
        step: of the shims [m]

    >>> round(shims(0.953, 0.1, 0.01), 3)
    0.06
    """
    return ceil((height - courses(height, course) * course) / step) * step


def partner_packs(jacks: Number, rules: PackingRules) -> Number:
    """Packs that hold the load beside the jacks released at a time [No].

    Where one in four or fewer are released the packs move on with the crew; with more, one stands at each jack.

    Args:
        jacks: under the wall or house [No]
        rules: figures of the rules
    """
    return where(rules.reseat_interval >= rules.reseat_alone, ceil(jacks / rules.reseat_interval), jacks)


def reseating(rise: Number, stroke: Number, jacks: Number, area: Number, rules: PackingRules) -> Reseating:
    """Strokes, re-seatings and partner packs for a rise.

    Args:
        rise: of the house [m]
        stroke: of the jack [m]
        jacks: under the wall or house [No]
        area: cross-section of a partner pack [m2]
        rules: figures of the rules

    Raises:
        DomainError: a stroke that reserve and seating use up
    """
    net = stroke - rules.stroke_reserve - rules.seating
    require("stroke less reserve and seating", value_of(net), "m", "be more than", 0.0)
    strokes = ceil(rise / net)
    packs = partner_packs(jacks, rules)
    return Reseating(
        net_stroke=net, strokes=strokes, reseatings=maximum(strokes - 1, 0), partner_packs=packs,
        volume=packs * area * rise,
    )  # fmt: skip
