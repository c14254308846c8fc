"""The search for layouts of jacks: how hard a layout is worked, better ones beside it, the least number.

Covers   the worst use of any jack at rest, with any one lost, and with uneven lifting; descent by moving blocks of
         neighbours; perturbed and random starts; all layouts where they are few: that proves a number too small.
Not      a result to hand out: placing works every layout out again with the solver of one beam.
Units    m, kN; use of a jack is a ratio.
Sources  iterated local search; dynamic programming for the first layouts (placing_paths).
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import numpy as np

from calc.beam_batch import (
    Batch,
    Grid,
    Places,
    batch,
    grid_of,
    lost_reactions,
    reactions_of,
    tributary,
    uneven_greatest,
)
from calc.beam_loads import Floats
from calc.fields import note, quantity
from calc.placing_paths import Counts, LeastWorst, all_ways, some_ways
from calc.placing_rules import PlacingRules, WallLine, Ways, stretches, ways_of, widest_gap

Score = Callable[[Places], Floats]

FITS = 1 - 1e-7
"""Use up to which a layout counts as found: the last digits of the search are not those of the solver."""

TOUCH = 1e-9
"""A pull of less than this part of the usable load is rounding: a lost jack's own reaction is nil, not negative."""

_SHIFTS = (-4, -2, -1, 1, 2, 4)
_SMALL = 3000
"""Layouts that are rather all tried than searched."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Search:
    """Everything the search for one wall needs, worked out once."""

    rules: PlacingRules = note("what a layout must keep to")
    ways: Ways = note("where jacks may stand and follow one another")
    grid: Grid = note("what neighbouring jacks take of the load")
    counts: Counts = note("how many layouts there are")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Found:
    """What the search for the least number came to."""

    layout: Places | None = note("places of the least number of jacks found, or None")
    bound: int = note("no layout with fewer jacks than this exists; where all were tried, that is proven")
    nearest: Places = note("the layout found, or the one that came nearest")
    use: float = quantity("-", "its use, the worst of its jacks")


def search_of(line: WallLine, rules: PlacingRules) -> Search:
    """Tables of one wall for its search.

    Args:
        line: the wall
        rules: what a layout must keep to
    """
    ways = ways_of(line, rules, stretches(line, rules))
    grid = grid_of(line.load, rules.step, widest_gap(line, rules), line.stiffness, line.compliance)
    return Search(rules=rules, ways=ways, grid=grid, counts=Counts(ways))


def uses(found: Batch, rules: PlacingRules) -> Floats:
    """Use of each layout: the worst of its jacks in the worst case, over what that case allows [-].

    Args:
        found: the layouts
        rules: usable and rated load, level difference
    """
    worst = np.maximum(found.reactions.max(axis=0) / rules.usable, _pull(found.reactions.min(axis=0), rules.usable))
    worst = np.maximum(worst, uneven_greatest(found, rules.difference).max(axis=0) / rules.rated)
    if len(found.reactions) > 2:
        lost = lost_reactions(found)
        worst = np.maximum(worst, lost.max(axis=(0, 1)) / rules.rated)
        if not rules.lost_pulls:
            worst = np.maximum(worst, _pull(lost.min(axis=(0, 1)), rules.usable))
    return worst


def _pull(least: Floats, usable: float) -> Floats:
    """A pull counts as use beyond 1, the more the harder it pulls, so that a search can see its way out of it."""
    return np.where(least < -TOUCH * usable, 1 - least / usable, 0.0)


def strength(search: Search) -> Score:
    """Scores layouts by their use [-].

    Args:
        search: of the wall
    """
    return lambda layouts: uses(batch(search.grid, layouts), search.rules)


def evenness(search: Search) -> Score:
    """Scores layouts that are strong enough by how far tributary loads are from their mean, others beyond all those.

    Args:
        search: of the wall
    """

    def score(layouts: Places) -> Floats:
        use = uses(batch(search.grid, layouts), search.rules)
        return np.where(use <= FITS, spread(tributary(search.grid, layouts)), 100 + use)

    return score


def spread(drawn: Floats) -> Floats:
    """Greatest distance of any load from the mean, over the mean [-].

    Args:
        drawn: loads of the jacks, down the first axis [kN]

    >>> float(spread(np.array([9.0, 10.0, 12.0, 9.0])))
    0.2
    """
    mean = drawn.mean(axis=0)
    return np.abs(drawn / mean - 1).max(axis=0)


# ------------------------------------------------------------------------------------------ one number of jacks


def _moves(jacks: int) -> Places:
    """Every block of neighbours moved by every shift, one to a column."""
    first, last = np.triu_indices(jacks)
    order = np.arange(jacks)[:, None]
    blocks = (order >= first) & (order <= last)
    return (blocks[:, :, None] * np.array(_SHIFTS)).reshape(jacks, -1)


def keeping(ways: Ways, layouts: Places) -> Places:
    """Those layouts that keep the rules of placing.

    Args:
        ways: where jacks may stand and follow one another
        layouts: one to a column
    """
    count, width = ways.follows.shape
    gap = layouts[1:] - layouts[:-1]
    layouts = layouts[:, (layouts[0] >= 0) & (layouts[-1] < count) & (gap.min(axis=0) > 0) & (gap.max(axis=0) < width)]
    good = ways.follows[layouts[:-1], layouts[1:] - layouts[:-1]].all(axis=0)
    return layouts[:, good & ways.first[layouts[0]] & ways.last[layouts[-1]]]


def descended(search: Search, start: Places, score: Score, goal: float) -> tuple[Places, float]:
    """The layout reached by the best move of a block again and again, and its score.

    Args:
        search: of the wall
        start: one layout
        score: what is to be small
        goal: score that is good enough to stop at, in the unit of the score [-]
    """
    value, moves = float(score(start[:, None])[0]), _moves(len(start))
    while value > goal:
        beside = keeping(search.ways, start[:, None] + moves)
        if not beside.shape[1]:
            break
        scores = score(beside)
        best = int(scores.argmin())
        if scores[best] >= value - 1e-12:
            break
        start, value = beside[:, best], float(scores[best])
    return start, value


def _perturbed(search: Search, layout: Places, random: np.random.RandomState) -> Places:
    """The layout with one to three of its blocks moved by chance."""
    moves = _moves(len(layout))
    for _ in range(random.randint(1, 4)):
        some = keeping(search.ways, layout[:, None] + moves[:, random.randint(0, moves.shape[1], 8)])
        if some.shape[1]:
            layout = some[:, 0]
    return layout


def improved(
    search: Search, starts: Iterable[Places], score: Score, goal: float, random: np.random.RandomState, tries: int
) -> tuple[Places, float]:
    """The best layout of perturbed descents from some starts.

    Args:
        search: of the wall
        starts: layouts with the same number of jacks
        score: what is to be small
        goal: score that is good enough to stop at, in the unit of the score [-]
        random: where chance comes from
        tries: perturbed descents
    """
    best, value = np.zeros(0, dtype=np.intp), np.inf
    for start in starts:
        layout, reached = descended(search, start, score, goal)
        if reached < value:
            best, value = layout, reached
        if value <= goal:
            return best, value
    for _ in range(tries):
        layout, reached = descended(search, _perturbed(search, best, random), score, goal)
        if reached < value:
            best, value = layout, reached
        if value <= goal:
            break
    return best, value


# ------------------------------------------------------------------------------------------ the least number


def first_layouts(search: Search) -> tuple[LeastWorst, LeastWorst]:
    """Layouts whose greatest load is least: by the lever rule, and by the load on half spans.

    Args:
        search: of the wall
    """
    grid, ways = search.grid, search.ways
    return (
        LeastWorst(ways, grid.left, grid.right, grid.before, grid.after, lambda load: load),
        LeastWorst(ways, grid.left_half, grid.right_half, grid.before, grid.after, lambda load: load),
    )


def least_number(search: Search) -> Found:
    """The least number of jacks the search finds, and below which number none exists.

    Args:
        search: of a wall with a way along it, for the fewest jacks allowed at least
    """
    rules, counts, score = search.rules, search.counts, strength(search)
    load = float(search.grid.before[0] + search.grid.after[0])
    possible = counts.possible()
    bound = max(int(np.ceil(load / rules.usable - 1e-9)), possible[0], rules.fewest)
    random = np.random.RandomState(rules.seed)  # its numbers are promised to stay the same from version to version
    firsts, proven = first_layouts(search), True
    nearest, least_use = np.zeros(0, dtype=np.intp), np.inf
    # With room for fewer jacks than the bound, what the most of them would carry is still worth telling.
    for jacks in [number for number in possible if number >= bound] or possible[-1:]:
        layout, use, complete = _tried(search, jacks, firsts, score, random)
        if use <= FITS:
            return Found(layout=layout, bound=bound, nearest=layout, use=use)
        if use < least_use:
            nearest, least_use = layout, use
        proven = proven and complete
        bound = max(bound, jacks + 1) if proven else bound
    return Found(layout=None, bound=bound, nearest=nearest, use=float(least_use))


def _tried(
    search: Search, jacks: int, firsts: tuple[LeastWorst, LeastWorst], score: Score, random: np.random.RandomState
) -> tuple[Places, float, bool]:
    """Best layout of one number of jacks, its use, and whether all of them were tried."""
    ways = search.counts.total(jacks)
    begun = (way for first in firsts if (way := first.way(jacks)) is not None)
    layout, use = improved(search, begun, score, FITS, random, 0)
    if use <= FITS:
        return layout, use, False
    if ways > min(_SMALL, search.rules.proof):
        starts = [layout, *some_ways(search.counts, jacks, 4, random).T]
        layout, use = improved(search, starts, score, FITS, random, search.rules.tries)
    if use <= FITS or ways > search.rules.proof:
        return layout, use, False
    fitting = _any_of_all(search, jacks, score)
    return (layout, use, True) if fitting is None else (*fitting, False)


def _any_of_all(search: Search, jacks: int, score: Score) -> tuple[Places, float] | None:
    """A layout that fits and its use, found among all of that many jacks; None proves that there is none."""
    for some in all_ways(search.counts, jacks):
        # Reactions alone cost a fifth of the rest and rule out nearly all.
        level = reactions_of(search.grid, some)
        some = some[:, level.max(axis=0) <= FITS * search.rules.usable]
        if some.shape[1]:
            scores = score(some)
            order = int(scores.argmin())
            if scores[order] <= FITS:
                return some[:, order], float(scores[order])
    return None
