"""Wall lines for the tests of placing: the independent cases, and small ones that can be tried out whole."""

import itertools
import json
from pathlib import Path

import numpy as np

from calc.beam_loads import beam_load
from calc.beam_on_jacks import beam_on_jacks
from calc.placing_rules import PlacingRules, WallLine

CASES = {case["i"]: case for case in json.loads(
    Path(__file__).with_name("cases").joinpath("walls.json").read_text("utf-8"))}  # fmt: skip
"""Independent calculation: walls with their least number of jacks, proven by trying all layouts where it says so."""

ROUNDED_AWAY = 16
"""Said to leave no layout: its one place beside a jamb is 8.4 m, 0.1 m from a cross wall at 8.5 m, and 8.5 - 8.4 is
less than 0.1 in binary. The same distance is allowed where it is 5.2 - 5.1 (case 19)."""

SLIP = 1e-6


def line_of(case):
    return WallLine(
        load=beam_load(case["L"], case["segs"], case["pts"]), stiffness=case["EI"], compliance=case["c"],
        doors=tuple((a, b) for a, b in case["doors"]), junctions=tuple(case["junctions"]),
    )  # fmt: skip


def rules_of(case, **changes):
    """The rules the cases were worked out with; another jack may pull when one is lost."""
    entries = {
        "usable": case["usable"], "rated": case["rated"], "widest": case["smax"], "closest": case["smin"],
        "difference": case["d"], "end_far": 0.45, "lost_pulls": True, **changes,
    }  # fmt: skip
    return PlacingRules(**entries)


def keeps_places(line, rules, positions):
    """Whether a layout keeps the rules of placing; written again here, from the rules as they read."""
    length, x = line.load.length, list(positions)
    wanted = [(rules.end_near, rules.end_far), (length - rules.end_far, length - rules.end_near)]
    wanted += [(at - rules.junction_reach, at + rules.junction_reach) for at in line.junctions]
    for a, b in line.doors:
        wanted += [(a - rules.jamb_reach, a), (b, b + rules.jamb_reach)]
    good = [any(low - SLIP <= at <= high + SLIP for at in x) for low, high in wanted]
    good += [not a - rules.door_clear + SLIP < at < b + rules.door_clear - SLIP for at in x for a, b in line.doors]
    good += [abs(at - centre) > rules.junction_clear - SLIP for at in x for centre in line.junctions]
    good += [x[0] >= rules.end_near - SLIP, x[-1] <= length - rules.end_near + SLIP, len(x) >= rules.fewest]
    for here, there in itertools.pairwise(x):
        crossed = [(a, b) for a, b in line.doors if here < (a + b) / 2 < there]
        most = rules.widest
        if len(crossed) == 1:
            most = max(most, crossed[0][1] - crossed[0][0] + rules.door_extra)
        good.append(rules.closest - SLIP <= there - here <= most + SLIP)
    return all(good)


def worst_use(line, rules, positions):
    """Use of a layout, every case solved afresh: each jack taken away, each base moved by itself."""
    x, count = np.array(positions), len(positions)

    def reactions(places, settlement=0.0):
        return beam_on_jacks(line.load, places, line.stiffness, line.compliance, settlement).reactions

    level = reactions(x)
    shares = [level.max() / rules.usable, 0.0 if level.min() >= -SLIP else 1 - level.min() / rules.usable]
    if count > 2:
        lost = [reactions(np.delete(x, gone)) for gone in range(count)]
        shares.append(max(found.max() for found in lost) / rules.rated)
        if not rules.lost_pulls and min(found.min() for found in lost) < -SLIP:
            shares.append(1 - min(found.min() for found in lost) / rules.usable)
    moved = [np.abs(reactions(x, rules.difference / 2 * row) - level) for row in np.eye(count)]
    shares.append((level + np.sum(moved, axis=0)).max() / rules.rated)
    return max(shares)


SMALL = WallLine(
    load=beam_load(3.8, [(0.0, 2.0, 30.0), (2.0, 3.8, 51.0)], [(0.9, 14.0), (3.1, 11.0)]), stiffness=9160.0,
    compliance=1e-4, doors=((2.1, 2.6),), junctions=(1.1,),
)  # fmt: skip
"""A wall with a door and a cross wall, short enough to try every layout by itself."""

SMALL_RULES = PlacingRules(usable=44.0, rated=62.0, widest=1.3, closest=0.4, end_far=0.5, step=0.2)


def every_layout(line, rules, jacks):
    """Every layout that keeps the rules of placing, by trying all that are not too close; places of the grid."""
    most, apart = int(line.load.length / rules.step + SLIP), round(rules.closest / rules.step)
    tried = itertools.combinations(range(most + 1 - (apart - 1) * (jacks - 1)), jacks)
    spread = (tuple(place + (apart - 1) * order for order, place in enumerate(chosen)) for chosen in tried)
    return [way for way in spread if keeps_places(line, rules, [rules.step * place for place in way])]
