"""Criteria: one demand of a member against what it can take, and how far it is used.

Covers   the record that carrier beams, packing, bases and jack types hand back; the most used and the governing one.
Not      the verdict in words and the state of the house (checks).
Signs    demand and capacity are both positive.
Units    in each row.
Sources  beside each criterion.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from calc.fields import note, quantity
from calc.number import Number, Text, maximum, minimum, ratio, where, within, word_where


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Criterion:
    """One limit state of one member."""

    name: str = note("what is checked")
    demand: Number = note("in `unit`")
    capacity: Number = note("in `unit`")
    unit: str = note("unit of both")
    utilisation: Number = quantity("-", "demand / capacity")
    holds: Number = quantity("No", "1 where the demand is no more than the capacity, else 0")
    clause: str = note("where the capacity comes from")


def criterion(name: str, demand: Number, capacity: Number, unit: str, clause: str) -> Criterion:
    """A demand against a capacity; equal is enough. Where there is nothing to hold with, it is shown as twice used.

    Args:
        name: what is checked
        demand: in `unit` [of `unit`]
        capacity: in `unit` [of `unit`]
        unit: unit of both
        clause: where the capacity comes from

    >>> criterion("bending", 30.0, 40.0, "kN m", "a code").utilisation
    0.75
    >>> criterion("bending", 30.0, 0.0, "kN m", "a code").utilisation
    2
    """
    return Criterion(
        name=name, demand=demand, capacity=capacity, unit=unit, clause=clause,
        utilisation=ratio(demand, capacity, where(demand > 0, 2, 0)),
        holds=where(within(demand, capacity), 1, 0),
    )  # fmt: skip


def most_used(criteria: Sequence[Criterion]) -> Number:
    """Greatest utilisation [-]; no criterion at all is an error, not a pass.

    >>> most_used([criterion("a", 1.0, 2.0, "kN", "x"), criterion("b", 3.0, 4.0, "m", "x")])
    0.75
    """
    return maximum(*(row.utilisation for row in criteria))


def all_hold(criteria: Sequence[Criterion]) -> Number:
    """1 where every criterion holds, else 0 [No].

    >>> all_hold([criterion("a", 1.0, 2.0, "kN", "x"), criterion("b", 5.0, 4.0, "m", "x")])
    0
    """
    return minimum(*(row.holds for row in criteria))


def governing(criteria: Sequence[Criterion]) -> Text:
    """Name of the most used criterion, the first of equals.

    >>> governing([criterion("a", 1.0, 2.0, "kN", "x"), criterion("b", 3.0, 4.0, "m", "x")])
    'b'
    """
    most = most_used(criteria)
    name: Text = criteria[-1].name
    for row in reversed(criteria):
        name = word_where(row.utilisation >= most, row.name, name)
    return name
