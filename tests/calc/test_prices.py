"""The bill: amounts, stages and totals by hand."""

import math

import pytest

from addin import units
from calc.number import Name, Traced, entry, value_of
from calc.prices import MissingRate, bill_items, bill_totals, missing_rates, stage_sums, to_coin
from calc.quantities import WorkItem
from calc.survey import Rate
from tests.houses import house, job

USUAL = (("P01", 1, "No", 1.0, 2500.0), ("D01", 4, "m3", 18.99, 333.33), ("D02", 4, "m3", 7.22, 275.5),
         ("J03", 5, "kg", 1878.0, 71.25))  # fmt: skip
"""Code, stage, unit, quantity, rate."""


def items(rows=USUAL, number=lambda value, _: value):
    return tuple(WorkItem(code=Name(code), description=code, stage=stage, unit=unit, quantity=number(amount, unit))
                 for code, stage, unit, amount, _ in rows)  # fmt: skip


def survey(rows=USUAL, number=lambda value, _: value, **entries):
    usual = {"smallest_coin": 1.0, "overheads": 0.08, "profit": 0.12, "contingency": 0.05, "tax": 0.18, **entries}
    live = {key: number(value, "money" if key == "smallest_coin" else "-") for key, value in usual.items()}
    rates = tuple(Rate(code=code, rate=number(rate, "money")) for code, *_, rate in rows)
    return house({"A": 0}, {"1": 0}, rates=rates, job=job(**live))


def priced(number=lambda value, _: value, **entries):
    given = survey(number=number, **entries)
    bill = bill_items(items(number=number), given)
    return bill, stage_sums(bill, given.job), bill_totals(bill, given.job, number(54.0, "m2"))


def test_an_amount_is_quantity_times_rate_to_the_coin():
    bill, _, _ = priced()
    # 18.99 x 333.33 = 6329.9367; 7.22 x 275.5 = 1989.11; 1878 x 71.25 = 133807.5, a half, goes up
    assert [item.amount for item in bill] == [2500, 6330, 1989, 133808]
    assert [item.rate for item in bill] == [2500.0, 333.33, 275.5, 71.25]


def test_stages_without_items_are_left_out_and_the_others_add_up_to_the_works():
    _, stages, totals = priced()
    assert [(row.stage, row.name, row.amount) for row in stages] == [
        (1, "Preliminaries and tests", 2500), (4, "Digging and bases", 8319),
        (5, "Jacks, beams and lifting", 133808)]  # fmt: skip
    assert sum(row.amount for row in stages) == totals.works


def test_each_addition_stands_on_those_before_it_and_is_rounded_before_it_is_added():
    _, _, totals = priced()
    # works 144627; overheads 8 %: 11570.16; profit 12 % of 156197: 18743.64; contingency 5 % of 174941: 8747.05;
    # tax 18 % of 183688: 33063.84; total 216752; over 54 m2: 4013.93
    assert (totals.works, totals.overheads, totals.profit) == (144627, 11570, 18744)
    assert (totals.contingency, totals.tax) == (8747, 33064)
    assert totals.total == 144627 + 11570 + 18744 + 8747 + 33064 == 216752
    assert totals.per_floor_area == 4014


def test_a_coin_of_five_or_of_five_hundredths_rounds_to_itself():
    assert [to_coin(amount, 5.0) for amount in (1232.49, 1232.5, 1237.4)] == [1230, 1235, 1235]
    assert to_coin(10.024, 0.05) == pytest.approx(10.0)
    assert to_coin(10.025, 0.05) == pytest.approx(10.05)
    _, _, totals = priced(smallest_coin=10.0)
    # 2500 + 6330 + 1990 + 133810 = 144630; 8 %: 11570.4 -> 11570
    assert (totals.works, totals.overheads) == (144630, 11570)


def test_a_house_without_floor_area_has_no_price_for_one_square_metre():
    given = survey()
    assert bill_totals(bill_items(items(), given), given.job, 0.0).per_floor_area == 0


def test_a_rate_that_is_absent_or_blank_for_something_measured_is_named():
    rows = (("P01", 1, "No", 1.0, 2500.0), ("D01", 4, "m3", 2.0, 0.0), ("D02", 4, "m3", 0.0, 0.0),
            ("J03", 5, "kg", 10.0, math.nan))  # fmt: skip
    more = (*items(rows), *items((("O03", 9, "m2", 0.0, 0.0),)))
    # D02 is not measured and may wait for its rate; O03 is in no row of the rates at all
    assert missing_rates(more, survey(rows)) == ("D01", "J03", "O03")


def test_an_item_without_a_row_in_the_rates_is_refused_and_never_priced_at_nothing():
    with pytest.raises(MissingRate, match="J03"):
        bill_items(items(), survey(USUAL[:3]))


def test_codes_in_the_rates_are_found_in_small_letters_too():
    given = survey(tuple((code.lower(), *rest) for code, *rest in USUAL))
    assert missing_rates(items(), given) == ()
    assert [item.rate for item in bill_items(items(), given)] == [row[-1] for row in USUAL]


def test_a_traced_bill_gives_the_same_money_and_stays_live():
    plain, live = priced(), priced(lambda value, unit: entry(value, unit))
    assert [value_of(item.amount) for item in live[0]] == [item.amount for item in plain[0]]
    for name in ("works", "overheads", "profit", "contingency", "tax", "total", "per_floor_area"):
        node = getattr(live[2], name)
        assert isinstance(node, Traced)
        assert node.value == getattr(plain[2], name)


def test_a_bill_with_units_is_in_money_and_its_price_in_money_for_a_square_metre():
    bill, stages, totals = priced(units.quantity)
    money = units.quantity(1.0, "money").dimensionality
    assert all(item.amount.check(money) for item in bill)
    assert all(row.amount.check(money) for row in stages)
    assert totals.total.check(money)
    assert totals.total.magnitude == 216752
    assert totals.per_floor_area.check(units.quantity(1.0, "money/m2").dimensionality)
