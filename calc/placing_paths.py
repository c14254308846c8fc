"""Ways along a grid of places: how many, all of them, some at random, the one whose worst jack is least.

Covers   counting, listing and drawing ways of a given number of jacks; the best way when what a jack costs depends on
         its two neighbours only.
Not      reactions of the continuous beam, which depend on all jacks (placing_search).
Units    none of its own; costs are in the unit of the tables given.
Sources  dynamic programming.
"""

from collections.abc import Callable, Iterator
from itertools import count

import numpy as np

from calc.beam_batch import Places
from calc.beam_loads import Floats
from calc.errors import require
from calc.placing_rules import Ways


class Counts:
    """How many ways of k jacks go on from each place to the end; worked out as far as they are asked for."""

    def __init__(self, ways: Ways) -> None:
        self.ways = ways
        places, width = ways.follows.shape
        self._far = np.minimum(np.arange(places)[:, None] + np.arange(width), places - 1)
        self._from = [np.zeros(places), ways.last.astype(np.float64)]

    def onward(self, jacks: int) -> Floats:
        """Ways of that many jacks, the one at each place being the first of them."""
        while len(self._from) <= jacks:
            self._from.append((self.ways.follows * self._from[-1][self._far]).sum(axis=1))
        return self._from[jacks]

    def total(self, jacks: int) -> float:
        """Ways of that many jacks from end to end; exact up to 9e15."""
        return float(self.onward(jacks)[self.ways.first].sum())

    def possible(self) -> list[int]:
        """Every number of jacks that has a way."""
        longest = next(jacks for jacks in count(1) if not self.onward(jacks).any())
        return [jacks for jacks in range(1, longest) if self.total(jacks) > 0]


def all_ways(counts: Counts, jacks: int, chunk: int = 4000) -> Iterator[Places]:
    """Every way of that many jacks, in pieces of about `chunk`; one way to a column.

    Args:
        counts: of the ways
        jacks: number of jacks
        chunk: ways in one piece
    """
    starts = np.flatnonzero(counts.ways.first & (counts.onward(jacks) > 0))
    waiting = [starts[None, ::-1]]
    while waiting:
        begun = waiting.pop()
        left = jacks - len(begun)
        if not left:
            yield begun
            continue
        ahead = counts.onward(left + 1)[begun[-1]]
        if ahead.sum() > chunk and begun.shape[1] > 1:
            half = begun.shape[1] // 2
            waiting += [begun[:, :half], begun[:, half:]]
            continue
        waiting.append(_one_further(counts, begun, left))


def _one_further(counts: Counts, begun: Places, left: int) -> Places:
    """The same beginnings with one more jack, each that can still reach the end."""
    places, width = counts.ways.follows.shape
    far = np.minimum(begun[-1][:, None] + np.arange(width), places - 1)
    good = counts.ways.follows[begun[-1]] & (counts.onward(left)[far] > 0)
    which, gap = np.nonzero(good)
    return np.vstack([begun[:, which], begun[-1, which] + gap])


def some_ways(counts: Counts, jacks: int, number: int, random: np.random.RandomState) -> Places:
    """Ways drawn at random, each as likely as any other; one to a column.

    Args:
        counts: of the ways
        jacks: number of jacks
        number: how many to draw
        random: where chance comes from
    """
    require("ways of that many jacks", counts.total(jacks), "No", "be at least", 1)
    places, width = counts.ways.follows.shape
    rows = [_drawn(np.where(counts.ways.first, counts.onward(jacks), 0.0)[None].repeat(number, axis=0), random)]
    for left in range(jacks - 1, 0, -1):
        far = np.minimum(rows[-1][:, None] + np.arange(width), places - 1)
        rows.append(rows[-1] + _drawn(counts.ways.follows[rows[-1]] * counts.onward(left)[far], random))
    return np.vstack(rows)


def _drawn(weights: Floats, random: np.random.RandomState) -> Places:
    below = np.cumsum(weights, axis=1)
    # The lot must lie strictly above what came before, so that a place without ways is never drawn.
    lot = (1 - random.random_sample(len(weights)))[:, None] * below[:, -1:]
    return (below < lot).sum(axis=1)


class LeastWorst:
    """The way whose costliest jack is cheapest, for each number of jacks.

    What a jack costs depends on what it draws from the span on either side. The state of the search is the last span;
    all numbers of jacks share one pass.
    """

    def __init__(
        self, ways: Ways, left: Floats, right: Floats, before: Floats, after: Floats, cost: Callable[[Floats], Floats]
    ) -> None:
        places, width = ways.follows.shape
        self._back = np.maximum(np.arange(places)[:, None] - np.arange(width), 0)
        self._span = np.arange(width)
        ends = np.arange(places)[:, None] >= self._span
        arrives = ways.follows[self._back, self._span] & ends
        drawn = right[self._back, self._span]
        shut = ~(arrives[:, :, None] & ways.follows[:, None, :])
        self._between = np.where(shut, np.inf, cost(drawn[:, :, None] + left[:, None, :]))
        begins = ways.follows & ways.first[:, None]
        self._levels = [np.where(begins, cost(before[:, None] + left), np.inf)]
        self._came: list[Places] = []
        self._ending = np.where(arrives & ways.last[:, None], cost(drawn + after[:, None]), np.inf)

    def way(self, jacks: int) -> Places | None:
        """Places of that many jacks, at least two; None where there is no way."""
        while len(self._levels) < jacks - 1:
            reach = np.maximum(self._arriving(self._levels[-1])[:, :, None], self._between)
            self._came.append(reach.argmin(axis=1))
            self._levels.append(reach.min(axis=1))
        ends = np.maximum(self._arriving(self._levels[jacks - 2]), self._ending)
        place, span = np.unravel_index(int(ends.argmin()), ends.shape)
        if not np.isfinite(ends[place, span]):
            return None
        found = [int(place), int(place - span)]
        for came in reversed(self._came[: jacks - 2]):
            span = came[found[-1], found[-2] - found[-1]]
            found.append(int(found[-1] - span))
        return np.array(found[::-1])

    def _arriving(self, level: Floats) -> Floats:
        """Costs by the last span's right end instead of its left one."""
        return np.where(np.arange(len(level))[:, None] >= self._span, level[self._back, self._span], np.inf)
