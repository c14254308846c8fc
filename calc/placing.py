"""The jacks under one wall: a plan to recommend, beside it the least number that would do.

Covers   places of jacks along a wall; reaction of each, with any one lost and with uneven lifting, and which of the
         three governs; how evenly the load is shared out; the least number and whether it is proven.
Not      circuits of the whole house, the check of the carrier beam itself.
Signs    distances from the wall's left end; reactions positive upward.
Units    m, kN; use of a jack is a ratio.
Sources  rules of placing (placing_rules); continuous beam on yielding supports (beam_on_jacks).
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from calc.beam_batch import Places, tributary
from calc.beam_cases import one_lost, uneven
from calc.beam_loads import Floats, span_moments
from calc.beam_on_jacks import beam_on_jacks
from calc.errors import require
from calc.fields import note, quantity
from calc.placing_paths import LeastWorst
from calc.placing_reasons import no_way, too_few, too_heavy
from calc.placing_rules import SLIP, PlacingRules, WallLine, end_places, stretches
from calc.placing_search import TOUCH, Search, evenness, improved, least_number, search_of, spread

CASES = ("level", "one lost", "uneven")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Layout:
    """Jacks under one wall and what each of them carries; the worst of every stiffness and support asked for."""

    positions: tuple[float, ...] = note("of the jacks [m]")
    reactions: tuple[float, ...] = note("with all of them at work and level, on the first stiffness and support [kN]")
    tributary: tuple[float, ...] = note("load each draws by the lever rule [kN]")
    one_lost: tuple[float, ...] = note("greatest reaction with any other one lost [kN]")
    lost_with: tuple[int, ...] = note("which one is lost then, by its order from 0")
    uneven: tuple[float, ...] = note("greatest reaction with uneven lifting [kN]")
    uses: tuple[float, ...] = note("of each jack, in the case that governs [-]")
    governed_by: tuple[str, ...] = note("level, one lost or uneven, for each jack")
    worst_one_lost: float = quantity("kN", "greatest reaction with any jack lost")
    worst_uneven: float = quantity("kN", "greatest reaction with uneven lifting")
    use: float = quantity("-", "of the hardest worked jack; at most 1")
    spread: float = quantity("-", "greatest distance of a tributary load from the mean, over the mean")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WallPlan:
    """What to do under one wall."""

    recommended: Layout = note("the plan: strong enough, and shared out as evenly as the wall allows")
    least: Layout = note("with the least number of jacks found; for information")
    lower_bound: int = note("no layout with fewer jacks exists")
    proven: bool = note("whether the least number is the lower bound")
    by_load: int = note("jacks by load alone")
    by_places: int = note("jacks by the rules of placing alone: spacing, ends, doors, cross walls")
    even: bool = note("whether the plan's tributary loads are as even as wanted")


def place_jacks(line: WallLine, rules: PlacingRules) -> WallPlan:
    """Where the jacks of one wall go.

    The plan is the fewest jacks, from the least number on, whose tributary loads are as even as wanted; where a few
    more do not bring that about, the most even layout whose every jack more is worth it.

    Args:
        line: the wall
        rules: what a layout must keep to

    Raises:
        NoLayout: none keeps the rules; it says which rule stands in the way and what would help.

    >>> from calc.beam_loads import beam_load
    >>> line = WallLine(load=beam_load(5.0, [(0.0, 5.0, 25.0)]), stiffness=17600.0, compliance=1e-4)
    >>> plan = place_jacks(line, PlacingRules(usable=80.0, rated=200.0))
    >>> len(plan.least.positions), plan.proven, plan.recommended.use < 1
    (5, True, True)
    """
    search = search_of(line, rules)
    possible = search.counts.possible()
    if not possible:
        raise no_way(line, rules)
    if possible[-1] < rules.fewest:
        raise too_few(search)
    found = least_number(search)
    if found.layout is None:
        raise too_heavy(search, found)
    least = _checked(line, rules, search, found.layout)
    recommended = _recommended(line, rules, search, found.layout)
    return WallPlan(
        recommended=recommended, least=least, lower_bound=found.bound,
        proven=found.bound == len(found.layout), by_load=int(np.ceil(line.load.total / rules.usable - 1e-9)),
        by_places=possible[0], even=recommended.spread <= rules.even_within + TOUCH,
    )  # fmt: skip


def _recommended(line: WallLine, rules: PlacingRules, search: Search, least: Places) -> Layout:
    """The fewest jacks that are even enough; else one more only while that brings loads markedly nearer to the mean."""
    score, random = evenness(search), np.random.RandomState(rules.seed)
    best, value = least, float(score(least[:, None])[0])
    for jacks in range(len(least), len(least) + rules.extra_jacks + 1):
        evenest = _evenest(line, search, jacks)
        if value <= rules.even_within or evenest is None:
            break
        # No layout of that many jacks is more even than this one, strong enough or not: there is no use in going on.
        goal = max(rules.even_within, float(spread(tributary(search.grid, evenest[:, None]))[0]) + TOUCH)
        starts = np.stack([evenest, least] if jacks == len(least) else [evenest], axis=1)
        layout, reached = improved(search, starts, score, goal, random, rules.tries // 10)
        more = jacks - len(best)
        if reached <= rules.even_within or reached < value - rules.worth * more:
            best, value = layout, reached
    return _checked(line, rules, search, best)


def _evenest(line: WallLine, search: Search, jacks: int) -> Places | None:
    """The layout of that many jacks whose tributary loads are nearest to their mean; None where there is none."""
    mean, grid = line.load.total / jacks, search.grid
    if not search.counts.total(jacks):
        return None
    apart = LeastWorst(search.ways, grid.left, grid.right, grid.before, grid.after, lambda load: np.abs(load - mean))
    return apart.way(jacks)


def _checked(line: WallLine, rules: PlacingRules, search: Search, places: Places) -> Layout:
    """The layout worked out by the solver of one beam; the search's own figures are not handed out."""
    positions = [round(float(place) * search.ways.step, 9) for place in places]
    layout = layout_of(line, rules, positions)
    require("use of a layout found by the search", layout.use, "-", "be at most", 1.0)
    broken = broken_rules(line, rules, positions)
    require("rules broken by a layout found by the search", len(broken), "No", "be at most", 0)
    return layout


def layout_of(line: WallLine, rules: PlacingRules, positions: Sequence[float]) -> Layout:
    """What the jacks of any layout carry, found by a search or set by hand.

    Args:
        line: the wall
        rules: usable and rated load, level difference
        positions: of the jacks in order, at least two [m]

    Raises:
        DomainError: the positions are no layout: out of order, off the wall, fewer than two.

    >>> from calc.beam_loads import beam_load
    >>> line = WallLine(load=beam_load(3.0, [(0.0, 3.0, 25.0)]), stiffness=17600.0, compliance=1e-4)
    >>> layout = layout_of(line, PlacingRules(usable=80.0, rated=200.0), [0.2, 1.0, 2.0, 2.8])
    >>> layout.governed_by, round(layout.use, 3), round(layout.spread, 3)
    (('level', 'level', 'level', 'level'), 0.243, 0.2)
    """
    pairs = ((line.stiffness, line.compliance), *line.also)
    beams = [beam_on_jacks(line.load, positions, stiffness, compliance) for stiffness, compliance in pairs]
    # On two jacks a loss is not worked out: the rules allow them only where others hold the ends.
    losses = np.stack([one_lost(beam) if len(positions) > 2 else np.diag(beam.reactions) for beam in beams])
    level, lost = np.max([beam.reactions for beam in beams], axis=0), losses.max(axis=0)
    sway = np.max([uneven(beam, rules.difference)[1] for beam in beams], axis=0)
    shares = np.stack([level / rules.usable, lost.max(axis=1) / rules.rated, sway / rules.rated])
    pulls = [min(beam.reactions.min() for beam in beams), losses.min() if not rules.lost_pulls else 0.0]
    drawn = _tributary(line, beams[0].positions)
    return Layout(
        positions=tuple(beams[0].positions.tolist()), reactions=tuple(beams[0].reactions.tolist()),
        tributary=tuple(drawn.tolist()), one_lost=tuple(lost.max(axis=1).tolist()),
        lost_with=tuple(lost.argmax(axis=1).tolist()), uneven=tuple(sway.tolist()),
        uses=tuple(shares.max(axis=0).tolist()), governed_by=tuple(CASES[case] for case in shares.argmax(axis=0)),
        worst_one_lost=float(lost.max()), worst_uneven=float(sway.max()), spread=float(spread(drawn)),
        use=max([float(shares.max()), *(1 - float(p) / rules.usable for p in pulls if p < -TOUCH * rules.usable)]),
    )  # fmt: skip


def _tributary(line: WallLine, positions: Floats) -> Floats:
    parts = span_moments(line.load, np.concatenate([[0.0], positions, [line.load.length]]))
    right = parts[1, 1:-1] / np.diff(positions)
    drawn = np.zeros(len(positions))
    drawn[:-1] += parts[0, 1:-1] - right
    drawn[1:] += right
    drawn[0] += parts[0, 0]
    drawn[-1] += parts[0, -1]
    return drawn


def broken_rules(line: WallLine, rules: PlacingRules, positions: Sequence[float]) -> tuple[str, ...]:
    """Every rule of placing that a layout breaks, in words; strength apart.

    Args:
        line: the wall
        rules: what a layout must keep to
        positions: of the jacks in order [m]

    >>> from calc.beam_loads import beam_load
    >>> line = WallLine(load=beam_load(3.0, [(0.0, 3.0, 25.0)]), stiffness=17600.0, compliance=1e-4)
    >>> broken_rules(line, PlacingRules(usable=80.0, rated=200.0), [0.2, 1.6, 2.2, 2.8])
    ('1.40 m between 0.20 and 1.60 m: the widest spacing is 1.20 m',)
    """
    return (*_barred(line, rules, positions), *_spacings(line, rules, positions), *_missing(line, rules, positions))


def _barred(line: WallLine, rules: PlacingRules, positions: Sequence[float]) -> Iterable[str]:
    (left, _), (right, _) = end_places(line, rules)
    for at in positions:
        if at < left - SLIP:
            yield f"the jack at {at:.2f} m is nearer to the left end than {left:.2f} m"
        if at > line.load.length - right + SLIP:
            yield f"the jack at {at:.2f} m is nearer to the right end than {right:.2f} m"
        for start, end in line.doors:
            if start - rules.door_clear + SLIP < at < end + rules.door_clear - SLIP:
                yield f"the jack at {at:.2f} m is in the door from {start:.2f} to {end:.2f} m, or too near to it"
        for centre in line.junctions:
            if abs(at - centre) < rules.junction_clear - SLIP:
                yield f"the jack at {at:.2f} m is in the cross wall at {centre:.2f} m"


def _spacings(line: WallLine, rules: PlacingRules, positions: Sequence[float]) -> Iterable[str]:
    for here, there in pairwise(positions):
        over = [end - start for start, end in line.doors if here <= start + SLIP and there >= end - SLIP]
        limit = max(rules.widest, over[0] + rules.door_extra) if len(over) == 1 else rules.widest
        between = f"{there - here:.2f} m between {here:.2f} and {there:.2f} m"
        if there - here > limit + SLIP:
            yield f"{between}: the widest spacing is {limit:.2f} m"
        if there - here < rules.closest - SLIP:
            yield f"{between}: the closest spacing is {rules.closest:.2f} m"


def _missing(line: WallLine, rules: PlacingRules, positions: Sequence[float]) -> Iterable[str]:
    for part in stretches(line, rules):
        if not any(part.start - SLIP <= at <= part.end + SLIP for at in positions):
            yield f"no jack between {part.start:.2f} and {part.end:.2f} m for {part.why}"
    if len(positions) < rules.fewest:
        yield f"{len(positions)} jacks: the least number is {rules.fewest}"
