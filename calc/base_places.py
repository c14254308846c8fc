"""Where a jack base may stand: on an old footing, beside a later dig, near voids, in the width dug.

Covers   pressure under an old footing that a base stands on, and the base within it; distance from a later dig and
         from voids; room in the trench.
Not      strength of the old footing itself, soil under its edge once a side is dug.
Signs    load and pressure positive downward; depths below one datum, downward.
Units    m, kN, kN/m, kN/m2.
Sources  IS 1905:1987, foreword, for the spread in masonry; distances are common practice, no source.
"""

from calc.criteria import Criterion, criterion
from calc.member_rules import BaseRules
from calc.number import Number, maximum, minimum, where


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
    spread = footing_spread(side, thickness, rules)
    return spread_pressure(reaction, minimum(spacing, spread), minimum(width, spread), below, width)


def footing_spread(side: Number, thickness: Number, rules: BaseRules) -> Number:
    """How far a base spreads through the footing under it, either way [m].

    Args:
        side: of the base [m]
        thickness: of the footing [m]
        rules: figures of the code
    """
    return side + 2 * rules.masonry_spread * thickness


def borne_across(spread: Number, side: Number, off: Number, half: Number) -> Number:
    """Width of an old footing across the wall that a base brings its load to, even under both its sides [m].

    A base beside the wall presses no further than the edge of the footing, nor than the wall's centre line, beyond
    which the other jack line presses. A base over the edge is on its own: the check of its edge says STOP.

    Args:
        spread: of the base through the footing [m]
        side: of the base [m]
        off: centre of the base off the wall's centre line; 0 under the wall [m]
        half: of the footing's width [m]

    >>> round(borne_across(0.63, 0.4, 0.0, 0.3), 2), round(borne_across(0.63, 0.4, 0.4, 0.65), 2)
    (0.6, 0.5)
    """
    return 2 * minimum(spread / 2, maximum(half - off, side / 2), where(off > 0, off, half))


def spread_pressure(reaction: Number, along: Number, across: Number, below: Number, width: Number) -> Number:
    """Pressure under an old footing, once it is known on what length and width of it a base presses [kN/m2].

    Args:
        reaction: on the base [kN]
        along: length of the footing it presses on [m]
        across: width of the footing it presses on [m]
        below: what stays on the footing and the footing itself [kN/m]
        width: of the footing across the wall [m]
    """
    return reaction / (along * across) + below / width


def within_footing(edge: Number, half: Number) -> Criterion:
    """A base that stands on an old footing with all of its width.

    Args:
        edge: outer edge of the base off the wall's centre line [m]
        half: of the footing's width [m]
    """
    return criterion(
        "Base within the old footing", edge, half, "m", "geometry: the footing lies centred under the wall"
    )


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
