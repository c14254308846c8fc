"""Formulas of the lift that the estimate does not call: each run in quantities, and with no figure of their own."""

import importlib
import inspect
import sys
from pathlib import Path

import pytest

import calc
from addin.units import same_dimension
from calc.movement import movement_of, stop_difference
from calc.number import Traced, TracedText
from tests.calc.test_dimensions import RUN_ELSEWHERE
from tests.calc.test_movement import LIMITS, PAIRS, RISEN, readings
from tests.steering import as_quantity, as_traced, in_kind, numbers_of, wrong_dimensions

HERE = "tests/calc/test_movement_kinds"
MODULES = [module for module, path in RUN_ELSEWHERE.items() if path == HERE]
ALLOWED_LITERALS = {0, 1, 2, 4}


def all_in(num):
    """Every formula once: records, and single numbers beside their unit."""
    yield movement_of(readings(num, **RISEN), PAIRS, in_kind(LIMITS, num)), ""
    yield stop_difference(num(0.002, "m"), "Brick masonry", "lime"), "m"


@pytest.fixture(scope="module")
def run():
    ran = set()
    root = str(Path(calc.__file__).parent)

    def note(frame, event, _argument):
        if event == "call" and frame.f_code.co_filename.startswith(root):
            ran.add(f"{Path(frame.f_code.co_filename).stem}.{frame.f_code.co_qualname}")

    sys.setprofile(note)
    try:
        found = list(all_in(as_quantity))
    finally:
        sys.setprofile(None)
    return found, ran


def test_every_formula_keeps_its_dimension(run):
    found, _ = run
    for number, unit in found:
        assert same_dimension(number, unit) if unit else wrong_dimensions(number) == []


def test_every_public_formula_of_these_modules_ran(run):
    _, ran = run
    missed = []
    for stem in MODULES:
        module = importlib.import_module(f"calc.{stem}")
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not name.startswith("_") and f"{stem}.{name}" not in ran:
                missed.append(f"{stem}.{name}")
    assert missed == []


def literals(node, seen):
    """Constants that reach a cell from a traced number."""
    if id(node) in seen or not isinstance(node, (Traced, TracedText)):
        return
    seen[id(node)] = node
    if node.op == "literal":
        yield node.value
    for part in node.args:
        yield from literals(part, seen)


def test_no_formula_holds_a_figure_of_its_own():
    seen, found = {}, set()
    for number, unit in all_in(as_traced):
        parts = [number] if unit else [value for _, value, _ in numbers_of(number)]
        for part in parts:
            found |= {value for value in literals(part, seen) if not isinstance(value, (str, bool))}
    assert found <= ALLOWED_LITERALS
    assert len(seen) > 100
