"""Why no layout of jacks is left under a wall, and which single change would leave one.

Covers   stretches without a free place, chains of places that break off, walls too heavy for their jacks.
Not      changes of several rules at once.
Units    m, kN.
Sources  each change with a figure is tried out: it does help. Advice without one is common practice, no source.
"""

from collections.abc import Iterator
from dataclasses import replace
from math import floor

import numpy as np

from calc.beam_batch import Batch, lost_reactions, uneven_greatest
from calc.errors import NoLayout
from calc.placing_paths import Counts
from calc.placing_rules import SLIP, PlacingRules, Stretch, WallLine, free_places, grid_places, stretches, ways_of
from calc.placing_search import FITS, Found, Search, batches, uses


def no_way(line: WallLine, rules: PlacingRules) -> NoLayout:
    """The error that says where the rules of placing leave no way along a wall.

    Args:
        line: the wall
        rules: what a layout must keep to
    """
    at, free = grid_places(line, rules), free_places(line, rules)
    for part in stretches(line, rules):
        if not free[(at >= part.start - SLIP) & (at <= part.end + SLIP)].any():
            reason = f"no jack may stand between {part.start:.2f} and {part.end:.2f} m, where {part.why} asks for one"
            return NoLayout(reason, tuple(_changes(line, rules)))
    return NoLayout(_broken_off(line, rules), tuple(_changes(line, rules)))


def _broken_off(line: WallLine, rules: PlacingRules) -> str:
    ways = ways_of(line, rules, stretches(line, rules))
    reached = ways.first.copy()
    for place in np.flatnonzero(ways.places):
        if reached[place]:
            reached[place + np.flatnonzero(ways.follows[place])] = True
    if not reached.any():
        return "no jack near the left end keeps the rules"
    furthest = int(np.flatnonzero(reached)[-1]) * rules.step
    so_far = f"jacks can be set from the left end as far as {furthest:.2f} m"
    spacings = f"spacings of {rules.closest:.2f} to {rules.widest:.2f} m, wider over a door,"
    ahead = min((part for part in stretches(line, rules) if part.start > furthest + SLIP), key=lambda part: part.end)
    beyond = grid_places(line, rules)[ways.places & (grid_places(line, rules) > furthest + rules.closest - SLIP)]
    if len(beyond) and beyond[0] <= ahead.end + SLIP:
        return f"{so_far}; the next free place is at {beyond[0]:.2f} m, and {spacings} do not lead there"
    return f"{so_far}; {ahead.why} asks for one between {ahead.start:.2f} and {ahead.end:.2f} m, and {spacings} miss it"


def _passable(line: WallLine, rules: PlacingRules, wanted: tuple[Stretch, ...]) -> bool:
    possible = Counts(ways_of(line, rules, wanted)).possible()
    return bool(possible) and possible[-1] >= rules.fewest


def _changes(line: WallLine, rules: PlacingRules) -> Iterator[str]:
    wanted = stretches(line, rules)
    steps = [round(rules.step * order, 9) for order in range(1, int(line.load.length / rules.step) + 1)]
    for widest in (step for step in steps if step > rules.widest):
        if _passable(line, replace(rules, widest=widest), wanted):
            yield f"a spacing of {widest:.2f} m (a stronger beam, if the masonry bridges it)"
            break
    for closest in (step for step in reversed(steps) if step < rules.closest):
        if _passable(line, replace(rules, closest=closest), wanted):
            yield f"jacks as close as {closest:.2f} m"
            break
    for extra in (step for step in steps if step > rules.door_extra and line.doors):
        if _passable(line, replace(rules, door_extra=extra), wanted):
            yield f"a spacing over a door of its width and {extra:.2f} m"
            break
    for part in wanted:
        if _passable(line, rules, tuple(other for other in wanted if other is not part)):
            yield f"no jack of this wall at {part.why} (others hold it there)"
    if _passable(line, replace(rules, step=rules.step / 2), wanted):
        yield f"places every {rules.step / 2:.3f} m"
    for start, end in line.doors:
        others = replace(line, doors=tuple(door for door in line.doors if door != (start, end)))
        if _passable(others, rules, stretches(others, rules)):
            yield f"the door from {start:.2f} to {end:.2f} m blocked up"


def too_few(search: Search) -> NoLayout:
    """The error for a wall with room for fewer jacks than the least number.

    Args:
        search: of the wall
    """
    most, fewest = search.counts.possible()[-1], search.rules.fewest
    reason = f"there is room for {most} jacks, and the least number is {fewest}: with one of two lost nothing is left"
    return NoLayout(reason, ("a closer spacing", "walls that hold the ends when a jack is lost (least number 2)"))


def too_heavy(search: Search, found: Found) -> NoLayout:
    """The error for a wall whose every layout asks too much of its jacks, by what the nearest one would need.

    Args:
        search: of the wall
        found: what the search came to
    """
    rules, layout = search.rules, found.nearest
    every = batches(search, layout[:, None])
    one = max(every, key=lambda found: float(uses(found, rules)[0]))
    level, sway = float(one.reactions.max()), float(uneven_greatest(one, rules.difference).max())
    lost = float(lost_reactions(one).max()) if len(layout) > 2 else 0.0
    share, text = max(
        (level / rules.usable, f"with all level one carries {level:.1f} kN of {rules.usable:.1f} usable"),
        (lost / rules.rated, f"with one lost another carries {lost:.1f} kN of {rules.rated:.1f} rated"),
        (sway / rules.rated,
         f"with {1000 * rules.difference:.1f} mm uneven one carries {sway:.1f} kN of {rules.rated:.1f} rated"),
    )  # fmt: skip
    if share <= FITS:
        text = "a jack would have to pull, or the beam tips when one is lost"
    sure = "all layouts were tried" if found.bound > search.counts.possible()[-1] else "not all layouts were tried"
    reason = f"no layout is strong enough: with the best found, of {len(layout)} jacks, {text} ({sure})"
    return NoLayout(reason, tuple(_remedies(rules, every, one)))


def _remedies(rules: PlacingRules, every: list[Batch], one: Batch) -> Iterator[str]:
    """What would do for the nearest layout; each is tried on it, on every stiffness and support."""
    level = max(float(found.reactions.max()) for found in every)
    peak = max(float(uneven_greatest(found, rules.difference).max()) for found in every)
    if len(one.reactions) > 2:
        peak = max(peak, *(float(lost_reactions(found).max()) for found in every))
    usable = rules.usable if level <= FITS * rules.usable else int(level) + 1.0
    rated = max(rules.rated if peak <= FITS * rules.rated else int(peak) + 1.0, usable)
    if _strong(every, replace(rules, usable=usable, rated=rated)):
        yield f"jacks of {usable:.0f} kN usable and {rated:.0f} kN rated load"
    room = (rules.rated - one.reactions[:, 0]) * 2 / np.abs(one.sensitivity[:, :, 0]).sum(axis=1).clip(min=1e-9)
    difference = floor(1e4 * min(max(room.min(), 0.0), rules.difference)) / 1e4
    if _strong(every, replace(rules, difference=difference)):
        yield f"a level difference of {1000 * difference:.1f} mm"
    if not rules.lost_pulls and _strong(every, replace(rules, lost_pulls=True)):
        yield "a wall that holds the beam at its ends when a jack is lost"
    yield "softer packing, where uneven lifting governs; jacks closer than the closest spacing set, or two side by side"


def _strong(every: list[Batch], rules: PlacingRules) -> bool:
    return all(uses(found, rules)[0] <= FITS for found in every)
