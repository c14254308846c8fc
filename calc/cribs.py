"""Cribs: crossed layers of timber that carry the house beside the jacks or under them.

Covers   capacity by the contacts of crossing members, layers for a height, timber, height against width, sway and
         out of plumb, the load's resultant in the middle third.
Not      wind and earthquake (a force comes in), ties between cribs, sloping ground, soil under the crib (bases).
Signs    load positive downward, sideways force a magnitude.
Units    m, m2, m3, kN, kN m, kN/m2.
Sources  statics; height against width is a rule of thumb and is called so.
"""

from dataclasses import dataclass

from calc.criteria import Criterion, all_hold, criterion, most_used
from calc.errors import require
from calc.fields import note, quantity
from calc.member_rules import PackingRules
from calc.number import Number, ceil, ratio, value_of, where


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Crib:
    """A square crib of square members."""

    member: Number = quantity("m", "side of a member")
    per_layer: Number = quantity("No", "members in a layer")
    width: Number = quantity("m", "between the outer faces of the outer members")
    height: Number = quantity("m", "needed")
    layers: Number = quantity("No", "layers")
    contact: Number = quantity("m2", "contact of two layers")
    member_length: Number = quantity("m", "length of a member, tails included")
    timber: Number = quantity("m3", "timber in it")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CribCheck:
    """A crib under its load."""

    crib: Crib = note("the crib")
    load: Number = quantity("kN", "at service")
    sway: Number = quantity("kN", "sideways force at its head")
    moment: Number = quantity("kN m", "of sway, lean and offset about its foot")
    offset: Number = quantity("m", "of the resultant from the middle of the foot")
    criteria: tuple[Criterion, ...] = note("one a limit state")
    utilisation: Number = quantity("-", "of the most used")
    holds: Number = quantity("No", "1 where every criterion holds, else 0")


def contact_area(member: Number, per_layer: Number) -> Number:
    """Contact of two crossing layers: only crossings in line with the load count [m2].

    Args:
        member: side of a member [m]
        per_layer: members in a layer [No]

    >>> round(contact_area(0.1, 3), 6)
    0.09
    """
    return (per_layer * member) ** 2


def crib_capacity(contact: Number, stress: Number) -> Number:
    """Load a crib carries across the grain [kN].

    Args:
        contact: of two layers [m2]
        stress: allowed across the grain [kN/m2]

    >>> round(crib_capacity(0.09, 1500.0), 6)
    135.0
    """
    return contact * stress


def height_over_width(height: Number, width: Number) -> Number:
    """Height of a crib over its width: what leans and tips is slender [-].

    Args:
        height: of the crib [m]
        width: between the outer faces of the outer members [m]

    >>> height_over_width(1.5, 0.75)
    2.0
    """
    return height / width


def crib(member: Number, per_layer: Number, width: Number, height: Number, rules: PackingRules) -> Crib:
    """A crib of a height.

    Args:
        member: side of a member [m]
        per_layer: members in a layer [No]
        width: between the outer faces of the outer members [m]
        height: needed [m]
        rules: figures of the rules
    """
    layers = ceil(height / member)
    length = width + 2 * rules.crib_tail * member
    return Crib(
        member=member, per_layer=per_layer, width=width, height=height, layers=layers, member_length=length,
        contact=contact_area(member, per_layer), timber=layers * per_layer * member**2 * length,
    )  # fmt: skip


def sway_moment(load: Number, sway: Number, height: Number, rules: PackingRules) -> Number:
    """Moment about the foot of a crib or tower: sideways force, load off centre and out of plumb [kN m].

    Args:
        load: on it [kN]
        sway: sideways force at its head [kN]
        height: of the head [m]
        rules: figures of the rules
    """
    return sway * height + load * (rules.head_offset + height / rules.lean)


def crib_check(
    stack: Crib, load: Number, wind: Number, stress: Number, braced: Number, rules: PackingRules, source: str
) -> CribCheck:
    """A crib under its load: crushing, height against width, resultant in the middle third.

    Args:
        stack: the crib
        load: at service [kN]
        wind: sideways force of the wind at its head, beside the notional one [kN]
        stress: allowed across the grain [kN/m2]
        braced: 1 where it is braced, else 0 [No]
        rules: figures of the rules
        source: of the allowed stress

    Raises:
        DomainError: a width that is not above 0, a load below 0, or one that is no number
    """
    require("width of the crib", value_of(stack.width), "m", "be more than", 0.0)
    require("load", value_of(load), "kN", "be at least", 0.0)
    sway = rules.sway_share * load + wind
    moment = sway_moment(load, sway, stack.height, rules)
    # A crib that carries nothing has no resultant; half its width stands for one at its edge where wind alone blows.
    offset = ratio(moment, load, where(moment > 0, stack.width / 2, 0))
    slender = where(braced > 0, rules.crib_braced, rules.crib_free)
    criteria = (
        criterion("Crib across the grain", load, crib_capacity(stack.contact, stress), "kN", source),
        criterion("Members side by side within the width", stack.per_layer * stack.member, stack.width, "m",
                  "geometry"),
        criterion("Height of the crib over its width", height_over_width(stack.height, stack.width), slender, "-",
                  "rule of thumb, no source"),
        criterion("Resultant in the middle third", offset, stack.width / rules.kern, "m", "statics"),
    )  # fmt: skip
    return CribCheck(
        crib=stack, load=load, sway=sway, moment=moment, offset=offset, criteria=criteria,
        utilisation=most_used(criteria), holds=all_hold(criteria),
    )  # fmt: skip


def width_for_sway(load: Number, sway: Number, height: Number, rules: PackingRules) -> Number:
    """Least width of a crib that keeps the resultant in its middle third [m].

    Args:
        load: on it [kN]
        sway: sideways force at its head [kN]
        height: of the head [m]
        rules: figures of the rules
    """
    return rules.kern * ratio(sway_moment(load, sway, height, rules), load, 0)
