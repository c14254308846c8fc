"""Two states of one bill compared, item by item.

Covers   quantity, rate and amount then and now; items that were added or are gone.
Not      why they changed; overheads, profit, contingency and tax, which follow from the works.
Signs    a difference is positive where the work has become dearer.
Units    money, in the job's currency; quantities in the unit of the item.
Sources  none.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.fields import note
from calc.fields import quantity as quantity_in
from calc.number import Name, Number, fixed, text_of, total, value_of
from calc.prices import BillItem


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ItemThen:
    """An item as an earlier issue had it."""

    code: str = note("item of work")
    description: str = note("as printed")
    unit: str = note("of the quantity")
    quantity: float = note("in that unit")
    rate: float = quantity_in("money", "for one unit")
    amount: float = quantity_in("money", "as printed")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ItemChange:
    """An item then and now."""

    code: Name = note("item of work")
    description: str = note("as printed")
    unit: str = note("of the quantity")
    quantity_then: Number = note("in that unit; 0 where there was none")
    quantity: Number = note("in that unit; 0 where there is none")
    rate_then: Number = quantity_in("money", "for one unit")
    rate: Number = quantity_in("money", "for one unit")
    amount_then: Number = quantity_in("money", "as printed")
    amount: Number = quantity_in("money", "as printed")
    difference: Number = quantity_in("money", "now less then")


NOTHING = ItemThen(code="", description="", unit="", quantity=0.0, rate=0.0, amount=0.0)
"""What an item was before it was added."""


def changes_since(bill: Sequence[BillItem], then: Sequence[ItemThen]) -> tuple[ItemChange, ...]:
    """Every item of either bill, those of the bill now first, in its order.

    Args:
        bill: every item now
        then: every item of the earlier issue
    """
    before = {item.code.casefold(): item for item in then}
    rows = []
    for item in bill:
        old = before.pop(text_of(item.code).casefold(), NOTHING)
        # Each figure of the earlier issue gets a cell of its own beside the one of today.
        quantity_then = fixed(old.quantity, item.quantity, item.quantity)
        rate_then = fixed(old.rate, item.rate, item.rate)
        amount_then = fixed(old.amount, item.amount, item.amount)
        rows.append(ItemChange(
            code=item.code, description=item.description, unit=item.unit, quantity_then=quantity_then,
            quantity=item.quantity, rate_then=rate_then, rate=item.rate, amount_then=amount_then, amount=item.amount,
            difference=item.amount - amount_then,
        ))  # fmt: skip
    return (*rows, *(_gone(old) for old in before.values()))


def _gone(old: ItemThen) -> ItemChange:
    return ItemChange(
        code=Name(old.code), description=old.description, unit=old.unit, quantity_then=old.quantity, quantity=0.0,
        rate_then=old.rate, rate=0.0, amount_then=old.amount, amount=0.0, difference=0.0 - old.amount,
    )  # fmt: skip


def as_issued(bill: Sequence[BillItem]) -> tuple[ItemThen, ...]:
    """A bill as it stands, kept for a later comparison; worked out on floats.

    Args:
        bill: every item
    """
    return tuple(
        ItemThen(code=text_of(item.code), description=item.description, unit=item.unit,
                 quantity=value_of(item.quantity), rate=value_of(item.rate), amount=value_of(item.amount))
        for item in bill
    )  # fmt: skip


def changed(rows: Sequence[ItemChange]) -> tuple[ItemChange, ...]:
    """Those whose quantity or rate is another one; worked out on floats.

    Args:
        rows: every item then and now
    """
    return tuple(row for row in rows if _differ(row.quantity, row.quantity_then) or _differ(row.rate, row.rate_then))


def _differ(one: Number, other: Number) -> bool:
    """Whether two figures are different; a file keeps fifteen digits of one."""
    return not math.isclose(value_of(one), value_of(other), rel_tol=1e-12)


def difference_of(rows: Sequence[ItemChange]) -> Number:
    """By how much the works are dearer now [money].

    Args:
        rows: every item then and now
    """
    return total([row.difference for row in rows])
