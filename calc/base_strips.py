"""Jack bases that run into one another become a strip: worked out at issue on floats.

Covers   which neighbours along a wall overlap or come too close, and the strip that takes their place: length, width,
         offset of its load, greatest pressure.
Not      bases of different walls, bending of the strip along the wall, bulbs of pressure that overlap below (a flag).
Signs    load and pressure positive downward.
Units    m, kN, kN/m2.
Sources  statics of a rigid base.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from calc.errors import require
from calc.fields import note, quantity
from calc.number import rounded, rounded_up_to


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidBase:
    """A base as laid: alone, or a strip under several jacks."""

    first: int = note("first jack on it, counted from 0")
    last: int = note("last jack on it")
    length: float = quantity("m", "along the wall")
    width: float = quantity("m", "across the wall")
    load: float = quantity("kN", "of its jacks together")
    offset: float = quantity("m", "of the load from the middle of the base, along the wall")
    pressure: float = quantity("kN/m2", "greatest under it")


def runs(sides: Sequence[float], spacings: Sequence[float], clear: float) -> tuple[tuple[int, int], ...]:
    """First and last jack of each run of bases that leave less than a clear gap to one another.

    Args:
        sides: of the bases in order along the wall, shape (n,) [m]
        spacings: between neighbouring jacks, shape (n-1,) [m]
        clear: gap between two bases below which they are laid as one [m]

    Raises:
        DomainError: no base, a number of spacings that does not fit, a side or spacing that is not above 0

    >>> runs([0.6, 0.6, 0.6, 0.9], [1.0, 0.6, 0.7], 0.1)
    ((0, 0), (1, 3))
    """
    require("number of bases", len(sides), "No", "be at least", 1)
    require("number of spacings", len(spacings), "No", "be at least", len(sides) - 1)
    require("number of spacings", len(spacings), "No", "be at most", len(sides) - 1)
    require("clear gap", clear, "m", "be at least", 0.0)
    for side in sides:
        require("side", side, "m", "be more than", 0.0)
    for spacing in spacings:
        require("spacing", spacing, "m", "be more than", 0.0)
    found: list[tuple[int, int, float, float]] = []
    for order, (place, side) in enumerate(zip((0.0, *accumulate(spacings)), sides, strict=True)):
        first, start, end = order, place - side / 2, place + side / 2
        # A big base may reach back past a small neighbour to the one before.
        while found and rounded(start - found[-1][3] - clear, 9) < 0:
            first, _, start_before, end_before = found.pop()
            start, end = min(start, start_before), max(end, end_before)
        found.append((first, order, start, end))
    return tuple((first, last) for first, last, _, _ in found)


def edge_pressure(load: float, length: float, width: float, offset: float) -> float:
    """Greatest pressure under a rigid base that cannot pull on the soil [kN/m2].

    Args:
        load: on it [kN]
        length: along which the load is off the middle [m]
        width: across [m]
        offset: of the load from the middle [m]

    Raises:
        DomainError: the load lies off the base

    >>> edge_pressure(120.0, 2.0, 0.5, 0.0), edge_pressure(120.0, 2.0, 0.5, 0.1)
    (120.0, 156.0)
    """
    off = abs(offset)
    require("offset of the load", off, "m", "be less than", length / 2)
    if off <= length / 6:
        return load / (length * width) * (1 + 6 * off / length)
    return 2 * load / (3 * width * (length / 2 - off))


def laid_bases(
    sides: Sequence[float], spacings: Sequence[float], loads: Sequence[float], allowable: float, clear: float,
    step: float,
) -> tuple[LaidBase, ...]:  # fmt: skip
    """The bases along a wall as laid; every jack stands on just one of them.

    A strip is as long as the bases it takes the place of, and as wide as its greatest pressure asks.

    Args:
        sides: of the bases in order along the wall, shape (n,) [m]
        spacings: between neighbouring jacks, shape (n-1,) [m]
        loads: of the jacks at service, shape (n,) [kN]
        allowable: pressure [kN/m2]
        clear: gap between two bases below which they are laid as one [m]
        step: widths are multiples of this [m]

    Raises:
        DomainError: as for runs; loads that do not fit, a load below 0, a pressure or step that is not above 0
    """
    require("number of loads", len(loads), "No", "be at least", len(sides))
    require("number of loads", len(loads), "No", "be at most", len(sides))
    require("allowable pressure", allowable, "kN/m2", "be more than", 0.0)
    require("step", step, "m", "be more than", 0.0)
    for load in loads:
        require("load", load, "kN", "be at least", 0.0)
    places = (0.0, *accumulate(spacings))
    return tuple(
        _laid(first, last, sides, places, loads, allowable, step) for first, last in runs(sides, spacings, clear)
    )


def _laid(
    first: int, last: int, sides: Sequence[float], places: Sequence[float], loads: Sequence[float], allowable: float,
    step: float,
) -> LaidBase:  # fmt: skip
    """One base of a run; a big base may reach past its smaller neighbour."""
    run = range(first, last + 1)
    start = min(places[order] - sides[order] / 2 for order in run)
    end = max(places[order] + sides[order] / 2 for order in run)
    load, length = sum(loads[order] for order in run), end - start
    # Without any load there is no place of it; the middle of the base does as well as another.
    at = sum(loads[order] * places[order] for order in run) / load if load > 0 else (start + end) / 2
    offset = at - (start + end) / 2
    width = sides[first]
    if last > first:
        width = max(step, rounded_up_to(edge_pressure(load, length, 1.0, offset) / allowable, step))
    return LaidBase(
        first=first, last=last, length=length, width=width, load=load, offset=offset,
        pressure=edge_pressure(load, length, width, offset),
    )  # fmt: skip


def bulbs_overlap(side: float, spacing: float) -> bool:
    """Whether the ground below two bases is pressed by both: centres closer than twice their side.

    Args:
        side: of the bases [m]
        spacing: of their centres [m]

    >>> bulbs_overlap(0.6, 1.1), bulbs_overlap(0.6, 1.2)
    (True, False)
    """
    return spacing < 2 * side
