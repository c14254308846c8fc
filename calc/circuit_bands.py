"""Bands of like load among the jacks of one zone: each band a circuit of its own.

Covers   the split of some jacks into bands whose loads differ least from their mean; exact.
Not      zones on plan (circuit_search), forces (circuits).
Units    kN; pistons m2.
Sources  least squares in one dimension: the best bands are runs of the sorted loads, found by dynamic programming.
"""

from collections.abc import Sequence
from itertools import accumulate, pairwise

from calc.circuit_search import PlacedJack
from calc.errors import require


def load_bands(jacks: Sequence[PlacedJack], bands: int) -> list[list[PlacedJack]]:
    """Some jacks in bands of like pressure, the lightest first; within each they keep their order.

    Args:
        jacks: of one zone
        bands: at least one, and no more than jacks [No]

    Raises:
        DomainError: no band, or more bands than jacks

    >>> zone = [PlacedJack(name=name, x=0.0, y=0.0, load=load, piston=0.004)
    ...         for name, load in (("J1", 40.0), ("J2", 11.0), ("J3", 42.0), ("J4", 10.0), ("J5", 12.0))]
    >>> [[jack.name for jack in band] for band in load_bands(zone, 2)]
    [['J2', 'J4', 'J5'], ['J1', 'J3']]
    """
    require("number of bands", bands, "No", "be at least", 1)
    require("number of jacks in a zone", len(jacks), "No", "be at least", bands)
    order = sorted(range(len(jacks)), key=lambda k: (jacks[k].load / jacks[k].piston, k))
    wanted = [jacks[k].load / jacks[k].piston for k in order]
    cuts = _cuts(wanted, bands)
    return [[jacks[k] for k in sorted(order[start:end])] for start, end in pairwise(cuts)]


def _cuts(values: Sequence[float], bands: int) -> list[int]:
    """Where the runs of sorted values begin and end, so that squares about the mean of each run are least in all."""
    count = len(values)
    sums = [0.0, *accumulate(values)]
    squares = [0.0, *accumulate(value * value for value in values)]

    def cost(start: int, end: int) -> float:
        return squares[end] - squares[start] - (sums[end] - sums[start]) ** 2 / (end - start)

    best = [[0.0 if end == 0 else cost(0, end) for end in range(count + 1)]]
    before: list[list[int]] = []
    for band in range(1, bands):
        row, origin = [float("inf")] * (count + 1), [0] * (count + 1)
        for end in range(band + 1, count + 1):
            row[end], origin[end] = min((best[-1][start] + cost(start, end), start) for start in range(band, end))
        best.append(row)
        before.append(origin)
    cuts = [count]
    for origin in reversed(before):
        cuts.append(origin[cuts[-1]])
    return [0, *reversed(cuts)]
