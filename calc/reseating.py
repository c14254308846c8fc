"""Which jacks are released together when the jacks are re-seated: a part of each wall at a time, none adjacent.

Covers   passes for jacks in lines that meet at corners and junctions.
Not      how long a pass takes (lifting); whether the neighbours carry what a released jack gave up (one lost).
Units    counts. Names and whole numbers: a solver.
Sources  every fourth released, none adjacent, or every second with a partner pack at each: common practice, no source.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

from calc.errors import DomainError, require


def release_passes(lines: Sequence[Sequence[str]], corners: Iterable[tuple[str, str]], every: int) -> dict[str, int]:
    """The pass in which each jack is released, counted from 1.

    In one pass no two neighbours are released, and of the jacks of a line no more than one in `every`, rounded up.
    More passes than `every` come out only where corners leave no other way.

    Args:
        lines: names of the jacks along each wall, in order
        corners: further pairs of neighbours, across corners and junctions
        every: one in so many is released together [No]

    Raises:
        DomainError: less than one in two, a jack in two lines, or a corner that names an unknown jack

    >>> release_passes([["J1", "J2", "J3", "J4", "J5"]], [], 4)
    {'J1': 1, 'J2': 2, 'J3': 3, 'J4': 4, 'J5': 1}
    """
    require("one in so many jacks", every, "No", "be at least", 2)
    beside = _neighbours(lines, corners)
    passes: dict[str, int] = {}
    for line in lines:
        # Start where fewest jacks of this line would fall in with a neighbour round a corner.
        shift = min((_clashes(line, start, every, beside, passes), start) for start in range(every))[1]
        _fill(line, shift, every, beside, passes)
    return passes


def _neighbours(lines: Sequence[Sequence[str]], corners: Iterable[tuple[str, str]]) -> dict[str, set[str]]:
    beside: dict[str, set[str]] = {name: set() for line in lines for name in line}
    count = sum(len(line) for line in lines)
    if len(beside) < count:
        raise DomainError("names of jacks", len(beside), "No", "be at least", count)
    for one, other in (*corners, *(pair for line in lines for pair in pairwise(line))):
        for name in (one, other):
            if name not in beside:
                raise DomainError(f"lines that hold jack {name}", 0, "No", "be at least", 1)
        beside[one].add(other)
        beside[other].add(one)
    return beside


def _clashes(
    line: Sequence[str], start: int, every: int, beside: Mapping[str, set[str]], passes: Mapping[str, int]
) -> int:
    return sum(
        passes.get(other) == (order + start) % every + 1
        for order, name in enumerate(line) for other in beside[name]
    )  # fmt: skip


def _fill(line: Sequence[str], start: int, every: int, beside: Mapping[str, set[str]], passes: dict[str, int]) -> None:
    most, taken = -(-len(line) // every), defaultdict[int, int](int)
    for order, name in enumerate(line):
        # Round a corner another pass may come first; still no two of a line less than `every` apart go together.
        barred = {
            passes[other] for other in (*beside[name], *line[max(order - every + 1, 0) : order]) if other in passes
        }
        wanted = (order + start) % every
        turns = [(wanted + turn) % every + 1 for turn in range(every)]
        free = [turn for turn in turns if turn not in barred and taken[turn] < most]
        further = every + 1
        while further in barred or taken[further] >= most:
            further += 1
        passes[name] = free[0] if free else further
        taken[passes[name]] += 1
