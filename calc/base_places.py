"""Where a jack base may stand: on an old footing, beside a later dig, near voids, in the width dug.

Covers   pressure under an old footing that a base stands on; distance from a later dig and from voids; room
         in the trench.
Not      strength of the old footing itself, soil under its edge once a side is dug.
Signs    load and pressure positive downward; depths below one datum, downward.
Units    m, kN, kN/m, kN/m2.
Sources  IS 1905:1987, foreword, for the spread in masonry; distances are common practice, no source.
"""

from calc.criteria import Criterion, criterion
from calc.member_rules import BaseRules
from calc.number import Number, maximum, minimum


def old_footing_pressure(
    reaction: Number, side: Number, spacing: Number, width: Number, thickness: Number, below: Number, rules: BaseRules
) -> Number:
    """Pressure under an old footing that a jack base stands on [kN/m2].

    The reaction spreads through the footing along the wall, no further than to the next jack, and across it.

    Args:
        reaction: on the base [kN]
        side: of the base [m]
        spacing: of the jacks along the footing [m]
        width: of the footing across the wall [m]
        thickness: of the footing [m]
        below: what stays on the footing and the footing itself [kN/m]
        rules: figures of the code
    """
    return spread_pressure(reaction, footing_spread(side, thickness, rules), spacing, width, below)


def footing_spread(side: Number, thickness: Number, rules: BaseRules) -> Number:
    """How far a base spreads through the footing under it, either way [m].

    Args:
        side: of the base [m]
        thickness: of the footing [m]
        rules: figures of the code
    """
    return side + 2 * rules.masonry_spread * thickness


def spread_pressure(reaction: Number, spread: Number, spacing: Number, width: Number, below: Number) -> Number:
    """Pressure under an old footing, once it is known how far a base spreads in it [kN/m2].

    Args:
        reaction: on the base [kN]
        spread: of the base through the footing [m]
        spacing: of the jacks along the footing [m]
        width: of the footing across the wall [m]
        below: what stays on the footing and the footing itself [kN/m]
    """
    return reaction / (minimum(spacing, spread) * minimum(width, spread)) + below / width


def clear_of_dig(underside: Number, distance: Number, dig: Number) -> Criterion:
    """A base outside a 45 degree line from the foot of a later dig.

    Args:
        underside: of the base, depth [m]
        distance: from the edge of the base to the edge of the dig [m]
        dig: depth of the dig [m]
    """
    return criterion("Base clear of a 45 degree line from the dig", maximum(dig - underside, 0), distance, "m",
                     "common practice, no source")  # fmt: skip


def clear_of_void(distance: Number, depth: Number, rules: BaseRules) -> Criterion:
    """A base away from a tank, well or sump that is not filled or bridged first.

    Args:
        distance: from the edge of the base [m]
        depth: of the void [m]
        rules: figures of the rules
    """
    return criterion("Base clear of a tank, well or sump", rules.void_distance * depth, distance, "m",
                     "common practice, no source")  # fmt: skip


def fits_trench(side: Number, pack: Number, width: Number) -> Criterion:
    """A base and a partner pack beside it within the width dug.

    Args:
        side: of the base [m]
        pack: side of the partner pack [m]
        width: dug [m]
    """
    return criterion("Base and partner pack within the width dug", side + pack, width, "m", "geometry")
