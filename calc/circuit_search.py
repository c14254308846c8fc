"""The search for circuits: a ring of jacks cut into runs, exactly.

Covers   the best of all ways to cut the ring of jacks round the load centre into so many runs of neighbours.
Not      groupings that skip a neighbour; forces (circuit_balance) and what they mean (circuits).
Signs    x east, y north; load downward and positive.
Units    m, m2, kN.
Sources  none; a search.

How: the cost of every run comes from running sums, so that a grouping costs a few additions. A bound on what runs still
to come cost at least leaves out most groupings unseen, and none that could be better.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate

from calc.circuit_balance import Place, edge_distances, hull, nearest_balanced
from calc.fields import note, quantity

NEGLIGIBLE = 1e-9
"""Share of the sum of squared loads below which two groupings count as equally good."""

EVEN_ENOUGH = 0.9
"""Of groupings equally good, one whose least share is so much of an even share is taken without asking for more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedJack:
    """One jack where it stands."""

    name: str = note("mark")
    x: float = quantity("m", "east")
    y: float = quantity("m", "north")
    load: float = quantity("kN", "tributary load")
    piston: float = quantity("m2", "area of its piston")


def _angle(jack: PlacedJack, centre: Place) -> float:
    return math.atan2(jack.y - centre[1], jack.x - centre[0])


def _distance(jack: PlacedJack, centre: Place) -> float:
    return math.hypot(jack.x - centre[0], jack.y - centre[1])


def _runs(starts: Sequence[int], size: int) -> Iterator[tuple[int, int]]:
    """Start and end of each run; the last one ends where the first begins, once round."""
    yield from zip(starts, (*starts[1:], starts[0] + size), strict=True)


class RingSearch:
    """Runs of a ring of jacks, their cost, and the best way to cut the ring into a number of them."""

    def __init__(
        self, jacks: Sequence[PlacedJack], count: int, centre: Place, least_share: float, margin: float
    ) -> None:
        ring = sorted(jacks, key=lambda jack: (_angle(jack, centre), _distance(jack, centre), jack.name))
        self.size, self.count, self.centre = len(ring), count, centre
        self.least_share, self.margin, self.share = least_share, margin, 0.0
        self._twice = [*ring, *ring]
        self._total = math.fsum(jack.load for jack in ring)
        self._sums = [[0.0, *accumulate(values)] for values in zip(*map(self._terms, self._twice), strict=True)]
        self._equal = NEGLIGIBLE * math.fsum(jack.load**2 for jack in ring)
        self._cost = [[self._cost_of(start, start + length) if length else math.inf
                       for length in range(self.size)] for start in range(self.size)]  # fmt: skip
        self._place = [[self._place_of(start, start + length) if length else centre for length in range(self.size)]
                       for start in range(self.size)]  # fmt: skip
        self._best: tuple[float, float, tuple[int, ...]] | None = None
        self._limit = math.inf

    def _terms(self, jack: PlacedJack) -> tuple[float, ...]:
        east, north = jack.x - self.centre[0], jack.y - self.centre[1]
        return (jack.load, jack.piston, jack.load**2, jack.load * jack.piston, jack.piston**2,
                jack.piston * east, jack.piston * north)  # fmt: skip

    def _between(self, which: int, start: int, end: int) -> float:
        return self._sums[which][end] - self._sums[which][start]

    def _cost_of(self, start: int, end: int) -> float:
        """Sum of squares of load less even share of one run, the share of a jack going with its piston."""
        load, piston, load2, both, piston2 = (self._between(which, start, end) for which in range(5))
        even = load / piston
        return max(load2 - 2 * even * both + even * even * piston2, 0.0)

    def _place_of(self, start: int, end: int) -> Place:
        """Middle of the pistons of one run, seen from the load centre."""
        piston = self._between(1, start, end)
        return self._between(5, start, end) / piston, self._between(6, start, end) / piston

    def best(self) -> list[list[PlacedJack]]:
        """The runs of the best grouping that keeps share and margin; none where no grouping does.

        `share` is then the best share of the groupings that keep the margin.
        """
        for first in range(self.size - self.count + 1):
            bounds = self._bounds(first)
            self._cut((first,), 0.0, bounds)
        runs = _runs(self._best[2], self.size) if self._best else ()
        return [self._twice[start:end] for start, end in runs]

    def _bounds(self, first: int) -> list[list[float]]:
        """Least cost from each jack on to the end of the ring, by the number of runs still to come."""
        end = first + self.size
        bounds = [[math.inf] * (self.size + 1) for _ in range(self.count)]
        for start in range(first + 1, self.size):
            bounds[1][start] = self._cost[start][end - start]
        for runs in range(2, self.count):
            for start in range(first + 1, self.size - runs + 1):
                costs, after = self._cost[start], bounds[runs - 1]
                bounds[runs][start] = min(costs[k - start] + after[k] for k in range(start + 1, self.size))
        return bounds

    def _cut(self, starts: tuple[int, ...], cost: float, bounds: list[list[float]]) -> None:
        """Try every next start that can still be as good as the best so far."""
        left = self.count - len(starts)
        if not left:
            self._judge(starts, cost)
            return
        costs, after, here = self._cost[starts[-1]], bounds[left], starts[-1]
        for start in range(here + 1, self.size - left + 1):
            least = cost + costs[start - here] + after[start]
            if least <= self._limit:
                self._cut((*starts, start), least if left == 1 else cost + costs[start - here], bounds)

    def _judge(self, starts: tuple[int, ...], cost: float) -> None:
        share, margin = self._standing(starts)
        if margin < self.margin:
            return
        self.share = max(self.share, share)
        if share < self.least_share:
            return
        if self._best is None or cost < self._best[0] - self._equal:
            self._best = (cost, share, starts)
        elif share > self._best[1]:
            self._best = (min(cost, self._best[0]), share, starts)
        enough = self._best[1] >= EVEN_ENOUGH / self.count
        self._limit = self._best[0] - self._equal if enough else self._best[0] + self._equal

    def _standing(self, starts: tuple[int, ...]) -> tuple[float, float]:
        """Least share of a circuit, and how far the load centre lies inside."""
        runs = list(_runs(starts, self.size))
        places = [self._place[start][end - start] for start, end in runs]
        if self.count == 3:
            return _standing_on_three(*places)
        margin = min(edge_distances(hull(places), (0.0, 0.0)))
        if margin <= 0.0:
            return 0.0, margin
        loads, pistons = ([self._between(which, start, end) for start, end in runs] for which in (0, 1))
        forces = nearest_balanced(places, loads, pistons, self._total, (0.0, 0.0))
        return min(forces) / self._total, margin


def _standing_on_three(a: Place, b: Place, c: Place) -> tuple[float, float]:
    """Least share and margin of three places seen from the load centre: areas of the triangle, without solving."""
    areas = (a[0] * b[1] - a[1] * b[0], b[0] * c[1] - b[1] * c[0], c[0] * a[1] - c[1] * a[0])
    least, whole = min(areas), sum(areas)
    if least <= 0.0:
        return 0.0, -1.0
    return least / whole, min(areas[0] / math.dist(a, b), areas[1] / math.dist(b, c), areas[2] / math.dist(c, a))
