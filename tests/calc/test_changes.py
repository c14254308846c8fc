"""Two bills compared, with figures by hand."""

import pytest

from calc.changes import ItemThen, as_issued, changed, changes_since
from calc.number import Name, Traced, entry
from calc.prices import BillItem


def item(code: str, quantity: float, rate: float) -> BillItem:
    return BillItem(code=Name(code), description=f"work {code}", stage=1, unit="m3", quantity=quantity, rate=rate,
                    amount=quantity * rate)  # fmt: skip


THEN = as_issued([item("A1", 10.0, 50.0), item("B2", 4.0, 30.0), item("C3", 2.0, 100.0)])
NOW = [item("a1", 12.0, 50.0), item("B2", 4.0, 30.0), item("D4", 1.0, 70.0)]


def test_items_are_matched_by_code_whatever_its_capitals():
    row = changes_since(NOW, THEN)[0]
    assert (row.quantity_then, row.quantity, row.rate_then, row.rate) == (10.0, 12.0, 50.0, 50.0)
    assert row.difference == 600.0 - 500.0


def test_what_was_added_was_nothing_and_what_is_gone_is_nothing():
    rows = {str(row.code): row for row in changes_since(NOW, THEN)}
    assert list(rows) == ["a1", "B2", "D4", "C3"]
    assert (rows["D4"].amount_then, rows["D4"].amount, rows["D4"].difference) == (0.0, 70.0, 70.0)
    assert (rows["C3"].amount_then, rows["C3"].amount, rows["C3"].difference) == (200.0, 0.0, -200.0)


def test_the_differences_add_up_to_that_of_the_works():
    rows = changes_since(NOW, THEN)
    assert sum(row.difference for row in rows) == pytest.approx((600 + 120 + 70) - (500 + 120 + 200))


def test_only_items_with_another_quantity_or_rate_count_as_changed():
    assert [str(row.code) for row in changed(changes_since(NOW, THEN))] == ["a1", "D4", "C3"]


def test_a_bill_against_itself_has_no_change():
    assert changed(changes_since(NOW, as_issued(NOW))) == ()


def test_a_live_bill_keeps_the_earlier_figures_as_cells_of_their_own():
    live = entry(12.0, "D9")
    row = changes_since(
        [BillItem(code=Name("A1"), description="", stage=1, unit="m3", quantity=live, rate=live, amount=live)],
        [ItemThen(code="A1", description="", unit="m3", quantity=10.0, rate=50.0, amount=500.0)],
    )[0]
    assert isinstance(row.amount_then, Traced)
    assert (row.amount_then.op, row.amount_then.value, row.difference.value) == ("literal", 500.0, 12.0 - 500.0)
