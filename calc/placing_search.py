"""The search for layouts of jacks: how hard a layout is worked, better ones beside it, the least number.

Covers   the worst use of any jack at rest, with any one lost, and with uneven lifting; descent by moving blocks of
         neighbours; perturbed and random starts; all layouts where they are few: that proves a number too small.
Not      a result to hand out: placing works every layout out again with the solver of one beam.
Units    m, kN; use of a jack is a ratio.
Sources  iterated local search; dynamic programming for the first layouts (placing_paths).
"""

from collections.abc import Callable
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
from calc.placing_rules import Flags, PlacingRules, WallLine, Ways, stretches, ways_of, widest_gap

Score = Callable[[Places], Floats]

FITS = 1 - 1e-7
"""Use up to which a layout counts as found: the last digits of the search are not those of the solver."""

TOUCH = 1e-9
"""A pull of less than this part of the usable load is rounding: a lost jack's own reaction is nil, not negative."""

_SHIFTS = (-4, -2, -1, 1, 2, 4)
_SMALL = 3000
"""Layouts that are rather all tried than searched."""
_TOGETHER = 6
"""Perturbed layouts that go down side by side: each costs a third of what it would alone."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Search:
    """Everything the search for one wall needs, worked out once."""

    rules: PlacingRules = note("what a layout must keep to")
    ways: Ways = note("where jacks may stand and follow one another")
    grid: Grid = note("what neighbouring jacks take of the load")
    also: tuple[Grid, ...] = note("the same on other stiffness and other supports")
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
    grid, *also = (
        grid_of(line.load, rules.step, widest_gap(line, rules), stiffness, compliance)
        for stiffness, compliance in ((line.stiffness, line.compliance), *line.also)
    )
    return Search(rules=rules, ways=ways, grid=grid, also=tuple(also), counts=Counts(ways))


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
    return lambda layouts: np.max([uses(found, search.rules) for found in batches(search, layouts)], axis=0)


def batches(search: Search, layouts: Places) -> list[Batch]:
    """The layouts on every stiffness and support asked for.

    Args:
        search: of the wall
        layouts: one to a column
    """
    return [batch(grid, layouts) for grid in (search.grid, *search.also)]


def evenness(search: Search) -> Score:
    """Scores layouts that are strong enough by how far tributary loads are from their mean, others beyond all those.

    Args:
        search: of the wall
    """
    strong = strength(search)

    def score(layouts: Places) -> Floats:
        use = strong(layouts)
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


def keeps(ways: Ways, layouts: Places) -> Flags:
    """Whether each layout keeps the rules of placing.

    Args:
        ways: where jacks may stand and follow one another
        layouts: one to a column
    """
    places, width = ways.follows.shape
    gap = layouts[1:] - layouts[:-1]
    good = (layouts[0] >= 0) & (layouts[-1] < places) & (gap.min(axis=0) > 0) & (gap.max(axis=0) < width)
    inside = layouts[:, good]
    good[good] = ways.follows[inside[:-1], gap[:, good]].all(axis=0) & ways.first[inside[0]] & ways.last[inside[-1]]
    return good


def descended(search: Search, starts: Places, score: Score, goal: float) -> tuple[Places, Floats]:
    """The layouts reached from some others by the best move of a block again and again, and their scores.

    All of them go down side by side, and all stop as soon as one of them is good enough.

    Args:
        search: of the wall
        starts: layouts with the same number of jacks, one to a column
        score: what is to be small
        goal: score that is good enough to stop at, in the unit of the score [-]
    """
    layouts, values, moves = starts.copy(), score(starts), _moves(len(starts))
    going = np.arange(starts.shape[1])
    while len(going) and values.min() > goal:
        beside = (layouts[:, going, None] + moves[:, None]).reshape(len(layouts), -1)
        good = keeps(search.ways, beside)
        scores = np.full(len(good), np.inf)
        if good.any():
            scores[good] = score(beside[:, good])
        each = scores.reshape(len(going), -1)
        best = each.argmin(axis=1)
        reached = each[np.arange(len(going)), best]
        better = reached < values[going] - 1e-12
        going, best = going[better], best[better]
        layouts[:, going] += moves[:, best]
        values[going] = reached[better]
    return layouts, values


def _perturbed(search: Search, layout: Places, random: np.random.RandomState) -> Places:
    """The layout with one to three of its blocks moved by chance."""
    moves = _moves(len(layout))
    for _ in range(random.randint(1, 4)):
        some: Places = layout[:, None] + moves[:, random.randint(0, moves.shape[1], 8)]
        good = np.flatnonzero(keeps(search.ways, some))
        if len(good):
            layout = some[:, good[0]]
    return layout


def improved(
    search: Search, starts: Places, score: Score, goal: float, random: np.random.RandomState, tries: int
) -> tuple[Places, float]:
    """The best layout of perturbed descents from some starts.

    Args:
        search: of the wall
        starts: layouts with the same number of jacks, one to a column
        score: what is to be small
        goal: score that is good enough to stop at, in the unit of the score [-]
        random: where chance comes from
        tries: perturbed descents
    """
    layouts, values = descended(search, starts, score, goal)
    best, value = layouts[:, values.argmin()], float(values.min())
    for _ in range(0, tries, _TOGETHER):
        if value <= goal:
            break
        perturbed = np.stack([_perturbed(search, best, random) for _ in range(_TOGETHER)], axis=1)
        layouts, values = descended(search, perturbed, score, goal)
        if values.min() < value:
            best, value = layouts[:, values.argmin()], float(values.min())
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
    begun: list[tuple[Places, float]] = []
    for way in (way for first in firsts if (way := first.way(jacks)) is not None):
        begun.append(improved(search, way[:, None], score, FITS, random, 0))
        if begun[-1][1] <= FITS:
            return *begun[-1], False
    layout, use = min(begun, key=lambda pair: pair[1])
    if ways > min(_SMALL, search.rules.proof):
        starts = np.hstack([layout[:, None], some_ways(search.counts, jacks, 4, random)])
        layout, use = improved(search, starts, score, FITS, random, search.rules.tries)
    if use <= FITS or ways > search.rules.proof:
        return layout, use, False
    fitting = any_of_all(search, jacks, score)
    return (layout, use, True) if fitting is None else (*fitting, False)


def any_of_all(search: Search, jacks: int, score: Score) -> tuple[Places, float] | None:
    """A layout that fits and its use, found among all of that many jacks; None proves that there is none.

    Args:
        search: of the wall
        jacks: number of jacks
        score: use of layouts
    """
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
