"""Formulas of the lift that the estimate does not call: each run in quantities, and with no figure of their own."""

import importlib
import inspect
import sys
from pathlib import Path

import pytest

import calc
from addin.units import same_dimension
from calc import stability, strokes
from calc.movement import movement_of, stop_difference
from calc.number import Traced, TracedText, text_of, value_of
from tests.calc.test_dimensions import RUN_ELSEWHERE
from tests.calc.test_movement import LIMITS, PAIRS, RISEN, readings
from tests.calc.test_stability import HOUSE, JACKS, RULES
from tests.calc.test_strokes import HABITS, OUTPUTS
from tests.steering import KINDS, as_quantity, as_traced, in_kind, numbers_of, wrong_dimensions

HERE = "tests/calc/test_lift_kinds"
MODULES = [module for module, path in RUN_ELSEWHERE.items() if path == HERE]
ALLOWED_LITERALS = {0, 1, 2, 4}


def all_in(num):
    """Every formula once: records, and single numbers beside their unit."""
    yield movement_of(readings(num, **RISEN), PAIRS, in_kind(LIMITS, num)), ""
    yield stop_difference(num(0.002, "m"), "Brick masonry", "lime"), "m"
    habits, jacks = in_kind(HABITS, num), num(25, "No")
    plan = strokes.stroke_plan(num(0.95, "m"), jacks, habits)
    oil = strokes.oil_plan(plan, jacks, num(0.004, "m2"), num(0.48, "m3/day"), habits)
    yield plan, ""
    yield oil, ""
    yield strokes.lift_time(plan, oil, jacks, num(27, "m3"), in_kind(OUTPUTS, num)), ""
    for step in strokes.preload_steps(num(57.3, "kN"), num(0.004, "m2"), [num(0.5, "-"), num(0.8, "-")]):
        yield step, ""
    yield strokes.release_pass(num(24, "No"), jacks, num(4, "No"), num(1, "No")), "No"
    rules, house = in_kind(RULES, num), in_kind(HOUSE, num)
    found = stability.stability_of(house, [in_kind(jack, num) for jack in JACKS], rules)
    yield found, ""
    yield from ((row, "") for row in stability.stability_checks(found, house.usable, "a code"))
    yield stability.working_wind(num(0.4, "-"), num(33, "m/day"), num(11, "m/day")), "m/day"


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


def test_each_kind_of_number_gives_the_same_values():
    one, *others = ([*all_in(num)] for num in KINDS)
    for other in others:
        for (number, unit), (like, _) in zip(other, one, strict=True):
            if unit:
                assert value_of(number) == value_of(like)
                continue
            pairs = zip(numbers_of(number), numbers_of(like), strict=True)
            assert [name for (name, value, _), (_, plain, _) in pairs if value_of(value) != value_of(plain)] == []
            if hasattr(number, "verdict"):
                assert text_of(number.verdict) == like.verdict


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
    """Constants inside formulas; one that is a field has a cell of its own and is seen already."""
    if id(node) in seen or not isinstance(node, (Traced, TracedText)):
        return
    seen[id(node)] = node
    if node.op == "literal":
        yield node.value
    for part in node.args:
        yield from literals(part, seen)


def test_no_formula_holds_a_figure_of_its_own():
    seen, found, parts = {}, set(), []
    for number, unit in all_in(as_traced):
        parts += [number] if unit else [value for _, value, _ in numbers_of(number)]
    seen |= {id(part): part for part in parts if isinstance(part, Traced) and part.op == "literal"}
    for part in parts:
        found |= {value for value in literals(part, seen) if not isinstance(value, (str, bool))}
    assert found <= ALLOWED_LITERALS
    assert len(seen) > 500
