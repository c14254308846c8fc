"""Prices: the bill of quantities, its stages and its totals.

Covers   rate by item, amount, sums by stage, overheads, profit, contingency, tax, price per floor area.
Not      how a rate is built up from resources, payments, escalation.
Signs    money positive for what the owner pays.
Units    money, in the job's currency; m2.
Sources  order of the additions: common practice, no source.

Order of the additions: overheads on the works; profit on works and overheads; contingency on works, overheads and
profit; tax on all of these. Every amount is rounded to the smallest coin before it is added on, so that the bill as
printed adds up.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from calc.errors import CalcError
from calc.fields import note
from calc.fields import quantity as quantity_in  # a bill item has a field of that name
from calc.number import Filed, Name, Number, ratio, rounded, text_of, total, value_of
from calc.quantities import STAGES, WorkItem
from calc.survey import Job, Survey


class MissingRate(CalcError, LookupError):  # noqa: N818 - named as its neighbours in errors are
    """Items of work without a row in the rates: their price would be taken for nothing."""

    def __init__(self, codes: Sequence[str]) -> None:
        super().__init__(codes)
        self.codes = tuple(codes)

    def __str__(self) -> str:
        return f"no rate for {', '.join(self.codes)}"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BillItem:
    """One line of the bill."""

    code: Name = note("item of work")
    description: str = note("as printed")
    stage: int = note("1 to 9")
    unit: str = note("of the quantity")
    quantity: Number = note("in that unit")
    rate: Number = quantity_in("money", "for one unit")
    amount: Number = quantity_in("money", "quantity x rate, to the smallest coin")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StageSum:
    """The works of one stage."""

    stage: int = note("1 to 9")
    name: str = note("stage of work")
    amount: Number = quantity_in("money", "sum of its items")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BillTotals:
    """The price and what it is made of."""

    works: Number = quantity_in("money", "sum of all items")
    overheads: Number = quantity_in("money", "on the works")
    profit: Number = quantity_in("money", "on works and overheads")
    contingency: Number = quantity_in("money", "on works, overheads and profit")
    tax: Number = quantity_in("money", "on all of these")
    total: Number = quantity_in("money", "all of these together")
    per_floor_area: Number = quantity_in("money/m2", "total over the floor area")


def to_coin(amount: Number, coin: Number) -> Number:
    """An amount rounded to the smallest coin [money].

    Args:
        amount: any amount [money]
        coin: the job's smallest coin [money]

    >>> to_coin(1234.56, 5.0), to_coin(1234.56, 0.05)
    (1235.0, 1234.55)
    """
    result: Number = rounded(amount / coin, 0) * coin
    return result


def amount_of(quantity: Number, rate: Number, coin: Number) -> Number:
    """Quantity times rate, to the smallest coin [money].

    Args:
        quantity: in the unit of the item [-]
        rate: for one unit [money]
        coin: the job's smallest coin [money]

    >>> amount_of(12.67, 560.0, 1.0)
    7095.0
    """
    return to_coin(quantity * rate, coin)


def missing_rates(items: Sequence[WorkItem], survey: Survey) -> tuple[str, ...]:
    """Codes of items that have no row in the rates, or are measured and have no rate; worked out on floats.

    Args:
        items: the items of work
        survey: the entries
    """
    rates = {text_of(row.code).casefold(): value_of(row.rate) for row in survey.rates}
    missing = []
    for item in items:
        rate = rates.get(item.code.casefold())
        # Not more than nothing also finds NaN, which a blank may arrive as.
        if rate is None or (value_of(item.quantity) != 0 and not rate > 0):
            missing.append(str(item.code))
    return tuple(missing)


def bill_items(items: Sequence[WorkItem], survey: Survey) -> tuple[BillItem, ...]:
    """Every item with its rate and amount.

    Args:
        items: the items of work
        survey: the entries

    Raises:
        MissingRate: an item has no row in the rates
    """
    known = {text_of(row.code).casefold() for row in survey.rates}
    if missing := [str(item.code) for item in items if item.code.casefold() not in known]:
        raise MissingRate(missing)
    rates = Filed([row.code for row in survey.rates], [row.rate for row in survey.rates])
    rows = []
    for item in items:
        code = item.code
        rate = rates.at(code)
        rows.append(BillItem(
            code=code, description=item.description, stage=item.stage, unit=item.unit, quantity=item.quantity,
            rate=rate, amount=amount_of(_units_of(item.quantity), rate, survey.job.smallest_coin),
        ))  # fmt: skip
    return tuple(rows)


def _units_of(measured: Any) -> Any:
    """A rate is money for one unit of the item, so under a dimension check a quantity counts its units."""
    return measured.__class__(measured.magnitude, "") if hasattr(measured, "m_as") else measured


def stage_sums(bill: Sequence[BillItem], job: Job) -> tuple[StageSum, ...]:
    """The works of each stage that has items.

    Args:
        bill: every item
        job: the Job entries
    """
    rows = []
    for stage, name in enumerate(STAGES, start=1):
        amounts = [item.amount for item in bill if item.stage == stage]
        if amounts:
            rows.append(StageSum(stage=stage, name=name, amount=to_coin(total(amounts), job.smallest_coin)))
    return tuple(rows)


def bill_totals(bill: Sequence[BillItem], job: Job, floor_area: Number) -> BillTotals:
    """The price and what it is made of.

    Args:
        bill: every item
        job: the Job entries
        floor_area: of all storeys [m2]
    """
    coin = job.smallest_coin
    works = to_coin(total([item.amount for item in bill]), coin)
    overheads = to_coin(works * job.overheads, coin)
    profit = to_coin((works + overheads) * job.profit, coin)
    contingency = to_coin((works + overheads + profit) * job.contingency, coin)
    tax = to_coin((works + overheads + profit + contingency) * job.tax, coin)
    # A sum of whole coins; rounded again because a sum of decimal fractions may end a hair beside one.
    price = to_coin(works + overheads + profit + contingency + tax, coin)
    return BillTotals(
        works=works, overheads=overheads, profit=profit, contingency=contingency, tax=tax, total=price,
        per_floor_area=to_coin(ratio(price, floor_area, 0), coin),
    )  # fmt: skip
