"""Members in each kind of number: one run in floats, traced numbers and quantities with units.

The same expressions must give the same values, keep their dimensions, take no decision and hold no figure of their
own.
"""

import importlib
import inspect
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields, is_dataclass, replace
from pathlib import Path
from typing import Any

import pytest

import calc
from addin.units import quantity, same_dimension
from calc import (
    base_places,
    beam_splices,
    carrier_beams,
    carrier_sections,
    cribs,
    criteria,
    jack_bases,
    jack_types,
    packing,
)
from calc.criteria import Criterion
from calc.errors import FrozenBranch
from calc.number import Traced, entry, value_of
from tests.houses import ALLOWANCES
from tests.members import BASES, DEMAND, JACK, JACKS, PACKING, SECTION, STEEL, TIMBER

MODULES = ("base_places", "beam_splices", "carrier_beams", "carrier_sections", "cribs", "criteria", "jack_bases",
           "jack_types", "packing")  # fmt: skip
ALLOWED_LITERALS = {0, 1, 2, 4}

Num = Callable[[float, str], Any]


def as_float(value: float, _: str) -> float:
    return float(value)


def as_traced(value: float, unit: str) -> Traced:
    return entry(float(value), unit)


def as_quantity(value: float, unit: str) -> Any:
    return quantity(float(value), unit)


def in_kind(record: Any, num: Num) -> Any:
    """The record with every number in the kind of the run."""
    return replace(record, **{f.name: num(getattr(record, f.name), f.metadata["unit"])
                              for f in fields(record) if "unit" in f.metadata})  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shown:
    """A number that stands by itself, beside its unit."""

    value: Any
    unit: str


def steel_found(num: Num) -> Iterator[Any]:
    steel, section = in_kind(STEEL, num), in_kind(SECTION["MB 250"], num)
    beam = carrier_sections.carrier(section, num(2, "No"), num(0.05, "m"), num(1, "No"), num(24, "kN/m3"), steel)
    yield beam
    yield carrier_beams.carrier_check(beam, in_kind(DEMAND, num), steel.load_factor, steel)
    first = carrier_beams.even_load_demand(num(24, "kN/m"), num(1.2, "m"), num(1, "m"), num(0.15, "m"), steel)
    yield first
    high = carrier_beams.carrier_check(beam, replace(first, shear=num(250, "kN"), sides=num(1, "No")),
                                       steel.accidental_factor, steel)  # fmt: skip
    yield high
    bending = carrier_beams.bending_resistance(section, num(2.0, "m"), steel)
    resistance = carrier_beams.shear_resistance(section, steel)
    yield Shown(value=bending, unit="kN m")
    yield beam_splices.splice(num(20, "kN m"), num(50, "kN"), bending, resistance, section.depth, num(0.1, "m"),
                              num(0.006, "m"), steel)  # fmt: skip
    yield beam_splices.beam_order(2, num(37.3, "kg/m"), num(8.8, "m"), num(0.3, "m"), steel)


def packing_found(num: Num) -> Iterator[Any]:
    rules, timber = in_kind(PACKING, num), in_kind(TIMBER["Structural timber group B, inside"], num)
    area, load = num(0.04, "m2"), num(40, "kN")
    stress = packing.allowed_stress(timber, num(1, "No"), rules)
    yield packing.packing_criterion(load, area, stress, timber.source)
    yield Shown(value=packing.shortening(load, num(0.9, "m"), timber.modulus, area), unit="m")
    yield packing.point_stiffness(
        packing.column_compliance(num(0.9, "m"), timber.modulus, area),
        packing.oil_compliance(num(0.1, "m"), num(0.004, "m2"), rules), num(0, "m/kN"),
        packing.soil_compliance(num(4e4, "kN/m3"), num(0.6, "m")))  # fmt: skip
    yield Shown(value=packing.courses(num(0.95, "m"), num(0.1, "m")), unit="No")
    yield Shown(value=packing.shims(num(0.95, "m"), num(0.1, "m"), rules.packing_step), unit="m")
    yield packing.reseating(num(0.9, "m"), num(0.15, "m"), num(40, "No"), num(0.09, "m2"), rules)
    stack = cribs.crib(num(0.1, "m"), num(3, "No"), num(0.6, "m"), num(0.9, "m"), rules)
    yield stack
    yield cribs.crib_check(stack, load, num(2, "kN"), stress, num(0, "No"), rules, timber.source)
    yield cribs.crib_check(stack, num(0, "kN"), num(2, "kN"), stress, num(1, "No"), rules, timber.source)
    yield Shown(value=cribs.width_for_sway(load, num(3, "kN"), num(0.9, "m"), rules), unit="m")


def bases_found(num: Num) -> Iterator[Any]:
    rules, allow = in_kind(BASES, num), in_kind(ALLOWANCES, num)
    given = (num(80, "kN"), num(1.25, "-"), num(100, "kN/m2"), num(0.2, "m"), num(1.5, "-"), rules, allow)
    yield jack_bases.plain_base(*given)
    yield jack_bases.reinforced_base(*given)
    pressure = base_places.old_footing_pressure(
        num(40, "kN"), num(0.4, "m"), num(1.2, "m"), num(0.6, "m"), num(0.2, "m"), num(9, "kN/m"), rules)  # fmt: skip
    yield Shown(value=pressure, unit="kN/m2")
    across = base_places.borne_across(num(0.63, "m"), num(0.4, "m"), num(0.415, "m"), num(0.65, "m"))
    yield Shown(value=across, unit="m")
    yield base_places.within_footing(num(0.615, "m"), num(0.65, "m"))
    yield base_places.clear_of_dig(num(0.8, "m"), num(0.4, "m"), num(1.3, "m"))
    yield base_places.clear_of_void(num(2, "m"), num(2, "m"), rules)
    yield base_places.fits_trench(num(0.6, "m"), num(0.3, "m"), num(0.9, "m"))


def jacks_found(num: Num) -> Iterator[Any]:
    jack, rules = in_kind(JACK["screw"], num), in_kind(PACKING, num)
    yield jack_types.jack_fit(jack, num(0.2, "m"), num(0.05, "m"), num(0.05, "m"), num(0.6, "m"))
    yield Shown(value=jack_types.operators(num(14, "No"), jack), unit="No")
    yield from jack_types.share_criteria(num(0.5, "-"), jack, in_kind(JACKS, num))
    yield jack_types.stroke_criterion(num(0.15, "m"), jack, rules)
    yield Shown(value=jack_types.packs_while_holding(num(14, "No"), jack), unit="No")
    idle = criteria.criterion("nothing to hold with", num(1, "kN"), num(0, "kN"), "kN", "none")
    yield idle
    yield Shown(value=criteria.most_used([idle]), unit="-")


def found(num: Num) -> list[Any]:
    return [*steel_found(num), *packing_found(num), *bases_found(num), *jacks_found(num)]


def numbers(record: Any) -> Iterator[tuple[str, Any, str]]:
    """Every number of a record and of the records in it: its name, value and unit."""
    if isinstance(record, Shown):
        yield "value", record.value, record.unit
        return
    for f in fields(record):
        value, unit = getattr(record, f.name), f.metadata.get("unit")
        if isinstance(record, Criterion) and f.name in ("demand", "capacity"):
            unit = record.unit
        if unit:
            yield f"{type(record).__name__}.{f.name}", value, unit
        for part in value if isinstance(value, tuple) else (value,):
            if is_dataclass(part):
                yield from numbers(part)


def all_numbers(num: Num) -> list[tuple[str, Any, str]]:
    return [each for record in found(num) for each in numbers(record)]


def test_traced_numbers_have_the_values_of_floats_and_are_live():
    floats, traced = all_numbers(as_float), all_numbers(as_traced)
    assert len(floats) > 250
    assert [name for name, *_ in floats] == [name for name, *_ in traced]
    assert [value_of(value) for _, value, _ in traced] == pytest.approx([value for _, value, _ in floats])
    # What hangs on no entry is a fixed figure: the two sides of a first answer, and no bars in a plain base.
    assert {name for name, value, _ in traced if not isinstance(value, Traced)} == {"BeamDemand.sides", "JackBase.bars"}


def test_a_float_run_ends_in_plain_floats():
    assert {type(value) for _, value, _ in all_numbers(as_float)} <= {float, int}


def fits(value: Any, unit: str) -> bool:
    """A bare number has no dimension; a bare 0 fits any."""
    return same_dimension(value, unit) if hasattr(value, "m_as") else value == 0 or unit in ("-", "No")


def test_every_number_keeps_the_dimension_it_states():
    wrong = [f"{name}: {value} is not in {unit}" for name, value, unit in all_numbers(as_quantity)
             if not fits(value, unit)]  # fmt: skip
    assert wrong == []


def test_quantities_have_the_values_of_floats():
    for (name, value, unit), (_, plain, _) in zip(all_numbers(as_quantity), all_numbers(as_float), strict=True):
        same = value.m_as(quantity(1, unit).units) if hasattr(value, "m_as") else value
        assert same == pytest.approx(plain), name


def literals(node: Any, seen: set[int]) -> Iterator[float]:
    """Constants in the graph under a node, exponents left out."""
    if not isinstance(node, Traced) or id(node) in seen:
        return
    seen.add(id(node))
    if node.op == "literal":
        yield node.value
    for part in node.args[:1] if node.op in ("power", "rounded") else node.args:
        yield from literals(part, seen)


def test_no_formula_holds_a_figure_of_its_own():
    seen: set[int] = set()
    used = {literal for _, value, _ in all_numbers(as_traced) for literal in literals(value, seen)}
    assert used <= ALLOWED_LITERALS
    assert {1, 2, 4} <= used  # the search finds them


def test_every_public_formula_ran():
    ran: set[str] = set()
    root = str(Path(calc.__file__).parent)

    def note(frame, event, _argument):
        if event == "call" and frame.f_code.co_filename.startswith(root):
            ran.add(f"{Path(frame.f_code.co_filename).stem}.{frame.f_code.co_qualname}")

    sys.setprofile(note)
    try:
        found(as_quantity)
    finally:
        sys.setprofile(None)
    missed = [
        f"{name}.{function}"
        for name in MODULES
        for function, item in inspect.getmembers(importlib.import_module(f"calc.{name}"), inspect.isfunction)
        if item.__module__ == f"calc.{name}" and not function.startswith("_") and f"{name}.{function}" not in ran
    ]
    assert missed == []


def test_a_length_in_place_of_an_area_is_caught():
    rules = in_kind(PACKING, as_quantity)
    with pytest.raises(Exception, match="Cannot convert"):
        packing.point_stiffness(
            packing.column_compliance(quantity(0.9, "m"), quantity(3e5, "kN/m2"), quantity(0.2, "m")),
            packing.oil_compliance(quantity(0.1, "m"), quantity(0.004, "m2"), rules),
            quantity(0, "m/kN"), quantity(1e-4, "m/kN"))  # fmt: skip


def test_a_decision_on_a_live_member_is_refused():
    check = next(iter(steel_found(as_traced)))
    with pytest.raises(FrozenBranch):
        bool(check.weight > 1)
