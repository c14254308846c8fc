"""Beams for the tests of the beam solvers: the independent cases, and generated ones."""

import json
from pathlib import Path

import numpy as np
from hypothesis import strategies as st

from calc.beam_loads import beam_load
from calc.beam_on_jacks import beam_on_jacks

CASES = json.loads(Path(__file__).with_name("cases").joinpath("beams.json").read_text("utf-8"))
"""Independent calculation: beams on jacks worked out by other hands and another program."""


def loaded(case):
    return beam_load(case["L"], case["segs"], case["pts"])


def yields(case):
    return 0.0 if case["k"] is None else 1 / np.array(case["k"])


def solved(case):
    return beam_on_jacks(loaded(case), case["x"], case["EI"], yields(case), case["settle"])


def load_beside_a_jack(case):
    """Whether a load stands within 5 mm of a jack, where a stiffness method loses digits."""
    return any(abs(at - x) <= 0.005 for at, _ in case["pts"] for x in case["x"])


def numbers(low, high):
    return st.floats(low, high, allow_nan=False).map(lambda value: round(value, 4))


@st.composite
def beams(draw, least=2, most=9):
    """A beam on jacks with overhangs, pieces, points, yielding or rigid supports, bases that have moved."""
    count = draw(st.integers(least, most))
    spans = draw(st.lists(numbers(0.4, 1.9), min_size=count - 1, max_size=count - 1))
    start, beyond = draw(numbers(0.0, 0.6)), draw(numbers(0.0, 0.6))
    positions = start + np.concatenate([[0.0], np.cumsum(spans)])
    length = float(positions[-1]) + beyond
    shares = draw(st.lists(st.tuples(numbers(0.0, 1.0), numbers(0.0, 1.0), numbers(1.0, 60.0)), max_size=3))
    pieces = [(min(a, b) * length, max(a, b) * length, load) for a, b, load in shares]
    points = [(a * length, p) for a, p in draw(st.lists(st.tuples(numbers(0.0, 1.0), numbers(0.5, 80.0)), max_size=3))]
    load = beam_load(length, [(0.0, length, draw(numbers(1.0, 40.0))), *pieces], points)
    compliance = draw(st.sampled_from([0.0, 2e-5, 1e-4])) * (1 + 0.3 * np.arange(count) / count)
    settlement = draw(st.lists(numbers(-0.002, 0.002), min_size=count, max_size=count))
    return beam_on_jacks(load, positions, draw(st.sampled_from([4600.0, 17600.0, 1e6])), compliance, settlement)
