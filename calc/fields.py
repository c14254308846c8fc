"""Field helpers for the records: the unit a number is stored in, and what it means.

Covers   the one statement of each field's unit; headings, dimension tests and documents read it.
Units    m, m2, m3, m4, 1/m, kN, kN/m, kN/m2, kN/m3, kN m, kN m2, kN m3, kN m4, m/kN, deg, m/s, kN s2/m4, day, kg,
         No, -, money (the job's currency).
"""

from dataclasses import field, fields
from typing import Any


def quantity(unit: str, doc: str, **kwargs: Any) -> Any:
    """A number field stored in `unit`; "-" is a ratio, "No" a count."""
    return field(metadata={"unit": unit, "doc": doc}, **kwargs)


def note(doc: str, **kwargs: Any) -> Any:
    """A field that is not a quantity."""
    return field(metadata={"doc": doc}, **kwargs)


def unit_of(record: Any, name: str) -> str:
    """Unit that `name` is stored in, for a record or its class."""
    unit: str = next(f.metadata["unit"] for f in fields(record) if f.name == name)
    return unit
