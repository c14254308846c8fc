"""The whole estimate in quantities with units: every formula and every field has the dimension it states."""

import importlib
import inspect
import sys
from dataclasses import fields, is_dataclass
from pathlib import Path

import pytest

import calc
from addin.estimating import Worked, item_texts
from addin.kinds import Quantities
from addin.surveying import build_allowances, build_rules, build_survey
from addin.units import quantity, same_dimension
from calc.estimate import Estimate, estimate
from calc.measure import earth_volume, masonry_volume, plaster_area, spread_volume
from calc.slabs import load_on, two_way_share
from calc.walls import half_wall, line_load, line_offset, net_wall_weight, wall_load, wall_stress, wall_weight
from tests.calc.test_member_kinds import MODULES as MEMBERS

SOLVERS = {"outlines", "skeletons", "nearby", "plan", "plan_rows", "plan_slabs", "plan_bearings", "line_loads",
           "sharing", "beam_choice", "base_strips", "base_overlaps", "circuits", "circuit_search", "circuit_balance",
           "levelling", "stations", "beam_loads", "beam_on_jacks", "beam_cases", "beam_batch", "complementarity",
           "placing", "placing_paths", "placing_reasons", "placing_rules", "placing_search", "jack_lines", "jack_plan",
           "jack_plan_rows", "jack_plan_walls", "jack_walls", "jack_columns", "jack_on_bases", "jack_steering",
           "jack_sections", "jack_supports", "circuit_bands", "reseating", "lifting_stations",
           "log_stations"}  # fmt: skip
"""Modules that take floats by design: geometry, who gets how much, searches, choices out of a list."""

WORKED_OUT = (".planned.plan", ".planned.members", ".planned.jacks", ".planned.circuits", ".planned.steering")
"""Records of the jack plan: floats, worked out at issue."""

RUN_ELSEWHERE = {
    **dict.fromkeys(("movement", "tilt", "strokes", "stability"), "tests/calc/test_lift_kinds"),
    "lift_log": "tests/calc/test_lift_log",
}
"""Formulas the estimate does not call, and where they are run in quantities."""

NOT_RUN = {
    "estimate.prepare": "works on floats",
    "lift_works.plinth_beam_row": "the demo has no plinth beam; run in tests/calc/test_lift_works",
    "prices.missing_rates": "works on floats",
    "changes.changed": "works on floats",
    "changes.difference_of": "a sum of what is run",
    "slabs.two_way_share": "its parts are run; tested below",
    "quantities.measured": "measurement without its workings",
    "fields.unit_of": "reads metadata",
    "fields.quantity": "makes a field",
    "fields.note": "makes a field",
    "errors.require": "limits, on floats",
    **dict.fromkeys(
        (
            "measure.earth_volume",
            "measure.masonry_volume",
            "measure.plaster_area",
            "measure.spread_volume",
            "slabs.load_on",
            "walls.line_load",
            "walls.wall_load",
            "walls.net_wall_weight",
            "walls.wall_stress",
        ),
        "for worksheet functions; tested below",
    ),
    "walls.half_wall": "run when the survey is put together; tested below",
    "walls.line_offset": "run when the survey is put together; tested below",
    "number.literal": "makes traced numbers",
    "number.entry": "makes traced numbers",
    **dict.fromkeys(("number.counted", "number.weighted_total", "number.picked"), "of the lift log: test_lift_log"),
}


@pytest.fixture(scope="module")
def run(demo: Worked) -> tuple[Estimate, set[str]]:
    """The demo estimate in quantities, and every function of calc that ran."""
    kind, ran = Quantities(), set()
    root = str(Path(calc.__file__).parent)

    def note(frame, event, _argument):
        if event == "call" and frame.f_code.co_filename.startswith(root):
            ran.add(f"{Path(frame.f_code.co_filename).stem}.{frame.f_code.co_qualname}")

    allowances = build_allowances(demo.rows, kind)
    survey = build_survey(demo.rows, kind, allowances)
    sys.setprofile(note)
    try:
        found = estimate(survey, demo.prepared, allowances, item_texts(), build_rules(demo.rows, kind))
    finally:
        sys.setprofile(None)
    return found, ran


def numbers_of(record, path=""):
    """Every numeric field of a record and of the records in it: path, value, unit."""
    for item in fields(record):
        value, unit = getattr(record, item.name), item.metadata.get("unit")
        if unit:
            yield f"{path}.{item.name}", value, unit
        elif is_dataclass(value):
            yield from numbers_of(value, f"{path}.{item.name}")
        elif isinstance(value, tuple):
            for order, part in enumerate(value):
                if is_dataclass(part):
                    yield from numbers_of(part, f"{path}.{item.name}[{order}]")


def test_every_field_has_the_dimension_it_states(run):
    found, _ = run
    checked = [row for row in numbers_of(found) if not row[0].startswith(WORKED_OUT)]
    assert len(checked) > 5000
    wrong = [f"{path}: {value} is not in {unit}" for path, value, unit in checked if not _fits(value, unit)]
    assert wrong == []


def _fits(value, unit: str) -> bool:
    if value is None:  # a measured line without that dimension
        return True
    if hasattr(value, "m_as"):
        return same_dimension(value, unit)
    # A bare number has no dimension; a bare 0 is an empty sum and fits any.
    return value == 0 or unit in ("-", "No")


def test_every_public_formula_ran_under_units(run):
    _, ran = run
    missed = []
    for path in sorted(Path(calc.__file__).parent.glob("*.py")):
        if path.stem in SOLVERS | {"__init__", *MEMBERS, *RUN_ELSEWHERE}:
            continue
        module = importlib.import_module(f"calc.{path.stem}")
        for name, function in inspect.getmembers(module, inspect.isfunction):
            own = function.__module__ == module.__name__ and not name.startswith("_")
            if own and f"{path.stem}.{name}" not in ran | set(NOT_RUN):
                missed.append(f"{path.stem}.{name}")
    assert missed == []


def test_a_length_in_place_of_an_area_is_caught():
    with pytest.raises(Exception, match="Cannot convert"):
        _ = quantity(3.0, "m") + two_way_share(quantity(4.0, "m"), quantity(3.0, "m"))


def test_a_weight_comes_out_in_kn():
    weight = wall_weight(quantity(4, "m"), quantity(0.2, "m"), quantity(3, "m"), quantity(4.8, "kN/m2"))
    assert same_dimension(weight, "kN")
    assert not same_dimension(weight, "kN/m2")


@pytest.mark.parametrize(
    ("formula", "units", "gives"),
    [
        (earth_volume, ("m", "m", "m", "m3"), "m3"),
        (spread_volume, ("m2", "m"), "m3"),
        (load_on, ("m2", "kN/m2"), "kN"),
        (line_load, ("kN", "m"), "kN/m"),
        (half_wall, ("m",), "m"),
        (line_offset, ("m", "m", "m", "m"), "m"),
        (masonry_volume, ("m", "m", "m", "m2"), "m3"),
        (plaster_area, ("m", "m", "No", "m2"), "m2"),
        (net_wall_weight, ("m", "m", "m2", "kN/m2"), "kN"),
        (wall_stress, ("kN", "m", "m"), "kN/m2"),
    ],
)
def test_formulas_of_worksheet_functions_alone_keep_their_dimension(formula, units, gives):
    assert same_dimension(formula(*(quantity(2.0, unit) for unit in units)), gives)


def test_the_load_of_a_wall_keeps_its_dimension():
    load = wall_load(quantity(50.0, "kN"), [quantity(3.0, "m2")], [quantity(6.6, "kN/m2")])
    assert same_dimension(load, "kN")
