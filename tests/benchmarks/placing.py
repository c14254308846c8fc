"""Measures beams on jacks and placing, and prints one table. Only ratios of one run mean anything.

Run: OPENBLAS_NUM_THREADS=1 python -m tests.benchmarks.placing
(on a busy machine several threads wait for each other longer than they work)
"""

import time
from collections.abc import Callable, Iterator
from statistics import median, quantiles

import numpy as np

from calc.beam_batch import batch, grid_of, lost_reactions
from calc.beam_cases import one_lost
from calc.beam_loads import beam_load
from calc.beam_on_jacks import beam_on_jacks
from calc.placing import place_jacks
from calc.placing_search import least_number, search_of
from tests.calc.walls import CASES, line_of, rules_of
from tests.pynite_beams import pynite_reactions

LOAD, STIFFNESS, COMPLIANCE = 40.0, 17600.0, 1e-4  # kN/m, kN m2, m/kN


def seconds(action: Callable[[], object], runs: int) -> float:
    """Median seconds of several runs."""
    taken = []
    for _ in range(runs):
        start = time.perf_counter()
        action()
        taken.append(time.perf_counter() - start)
    return median(taken)


def beams() -> Iterator[tuple[str, str]]:
    """One beam of many supports, built and solved, ours against a general frame program; what they differ by."""
    for count in (10, 50, 200):
        places = [round(0.3 + order + 0.1 * (order % 3), 9) for order in range(count)]
        length = places[-1] + 0.4
        pieces, points = [(0.0, length, LOAD)], [(4.7, 20.0)]
        common = ([COMPLIANCE] * count, [0.0] * count)

        def ours(n: float = length, x: list[float] = places) -> np.ndarray:
            return beam_on_jacks(beam_load(n, [(0.0, n, LOAD)], [(4.7, 20.0)]), x, STIFFNESS, COMPLIANCE).reactions

        theirs = pynite_reactions(length, pieces, points, places, STIFFNESS, *common)
        apart = float(np.abs(ours() - theirs).max() / np.abs(theirs).max())
        slow = seconds(lambda a=(length, pieces, points, places, STIFFNESS, *common): pynite_reactions(*a), 3)
        fast = seconds(ours, 30)
        yield (f"beam on {count} jacks, built and solved", f"PyNite {slow * 1e3:.1f} ms, ours with all sensitivities "
               f"{fast * 1e3:.3f} ms: {slow / fast:.0f} times; apart by {apart:.0e}")  # fmt: skip


def lost_jacks() -> Iterator[tuple[str, str]]:
    """Every one of ten jacks lost: ten solutions of a general program, ours at once, ours in a batch."""
    count, layouts = 10, 1000
    places = [round(0.3 + order, 9) for order in range(count)]
    load = beam_load(10.0, [(0.0, 10.0, LOAD)])

    def theirs() -> None:
        for gone in range(count):
            left = places[:gone] + places[gone + 1 :]
            pynite_reactions(10.0, [(0.0, 10.0, LOAD)], [], left, STIFFNESS, [COMPLIANCE] * 9, [0.0] * 9)

    slow = seconds(theirs, 3)
    single = seconds(lambda: one_lost(beam_on_jacks(load, places, STIFFNESS, COMPLIANCE)), 30)
    grid = grid_of(load, 0.1, 20, STIFFNESS, COMPLIANCE)
    random = np.random.RandomState(1)
    many = np.sort(random.randint(0, 3, (count, layouts)) + 10 * np.arange(count)[:, None], axis=0)
    each = seconds(lambda: lost_reactions(batch(grid, many)), 9) / layouts
    yield (
        "ten jacks, each lost in turn",
        f"PyNite {slow * 1e3:.0f} ms, ours {single * 1e3:.3f} ms: {slow / single:.0f} times",
    )
    yield f"the same for {layouts} layouts at once", f"{each * 1e6:.2f} us a layout: {slow / each:.0f} times PyNite"


def walls() -> Iterator[tuple[str, str]]:
    """The independent cases, one by one: time, and how often the least number is the proven one."""
    searched, planned, exact, above, proven, even = [], [], 0, 0, 0, 0
    for case in CASES.values():
        line, rules = line_of(case), rules_of(case)
        start = time.perf_counter()
        found = least_number(search_of(line, rules))
        searched.append(time.perf_counter() - start)
        start = time.perf_counter()
        plan = place_jacks(line, rules)
        planned.append(time.perf_counter() - start)
        proven, even = proven + plan.proven, even + plan.even
        if case["opt_n"] is not None:
            exact += len(found.layout) == case["opt_n"]
            above += len(found.layout) > case["opt_n"] + 1
    known = sum(case["opt_n"] is not None for case in CASES.values())
    for name, taken in (("least number, a wall", searched), ("whole plan, a wall", planned)):
        yield name, f"median {median(taken) * 1e3:.1f} ms, 95th percentile {quantiles(taken, n=20)[-1] * 1e3:.0f} ms"
    yield "a house of 15 such walls", f"{sum(planned) / len(planned) * 15:.2f} s on the mean"
    yield (
        "least number equal to the proven one",
        f"{100 * exact / known:.1f} % of {known}; more than one above: {above}",
    )
    yield "least number proven by us", f"{proven} of {len(CASES)}"
    yield "tributary loads within 10 %", f"{even} of {len(CASES)} plans"


if __name__ == "__main__":
    for part in (beams, lost_jacks, walls):
        for label, figure in part():
            print(f"{label:<40}{figure}", flush=True)
