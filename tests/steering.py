"""What the tests of the lift share: numbers in each kind, and records handed over in it."""

from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass, replace
from typing import Any

from addin.units import quantity, same_dimension
from calc.number import Traced, entry

Num = Callable[[float, str], Any]


def as_float(value: float, _: str) -> float:
    return float(value)


def as_traced(value: float, unit: str) -> Traced:
    return entry(float(value), unit)


def as_quantity(value: float, unit: str) -> Any:
    return quantity(float(value), unit)


KINDS = (as_float, as_traced, as_quantity)


def in_kind(record: Any, num: Num) -> Any:
    """The record with every number in the kind of the run."""
    return replace(record, **{f.name: num(getattr(record, f.name), f.metadata["unit"])
                              for f in fields(record) if "unit" in f.metadata})  # fmt: skip


def numbers_of(record: Any) -> Iterator[tuple[str, Any, str]]:
    """Every number of a record and of the records in it: name, value, unit."""
    for f in fields(record):
        value, unit = getattr(record, f.name), f.metadata.get("unit")
        if unit:
            yield f"{type(record).__name__}.{f.name}", value, unit
        for part in value if isinstance(value, tuple) else (value,):
            if is_dataclass(part):
                yield from numbers_of(part)


def wrong_dimensions(record: Any) -> list[str]:
    """Numbers of a record worked out in quantities that are not in the unit they state."""
    wrong = []
    for name, value, unit in numbers_of(record):
        bare = not hasattr(value, "m_as")
        fits = (value == 0 or unit in ("-", "No")) if bare else same_dimension(value, unit)
        if not fits:
            wrong.append(f"{name}: {value} is not in {unit}")
    return wrong
