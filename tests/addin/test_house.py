"""A whole survey handed over as ranges, against the same survey read from its file."""

from datetime import datetime
from decimal import Decimal

import pytest
from openpyxl import load_workbook

from addin.excel import udfs
from addin.functions import worksheet
from addin.house import ITEM_COLUMNS, ROWS, WALL_COLUMNS
from addin.layout import FIRST_ROW, JOB, SURVEY_TITLES
from addin.worksheet import went_wrong
from calc.number import text_of

EPOCH = datetime(1899, 12, 30)
"""Day 0 of a spreadsheet."""


def handed_over(path, **changes):
    """The survey sheets of a workbook as a cell's function gets them: plain values, dates as their day numbers."""
    book = load_workbook(path, data_only=True)
    for cell, value in changes.items():
        title, address = cell.split("_")
        book[title][address] = value
    return [[[_plain(cell) for cell in row] for row in book[title].iter_rows()] for title in SURVEY_TITLES]


def _plain(cell):
    if cell.is_date and cell.value is not None:
        return float((cell.value - EPOCH).days)
    return float(cell.value) if isinstance(cell.value, int) else cell.value


@pytest.fixture
def sheets(demo_survey):
    return handed_over(demo_survey)


def test_loads_and_jacks_of_each_wall_are_those_of_the_estimate(sheets, demo):
    rows = worksheet("PLINTH_HOUSE_WALLS", *sheets)
    assert (len(rows), {len(row) for row in rows}) == (ROWS, {len(WALL_COLUMNS)})
    jacks = {text_of(row.name): row for row in demo.found.jacks}
    walls = [base for base in demo.found.taken.bases if base.kind == "wall"]
    assert [row[0] for row in rows if row[0]] == [text_of(base.name) for base in walls]
    for row, base in zip(rows, walls, strict=False):
        assert row[1] == pytest.approx(base.lifted)
        assert row[5] == jacks[row[0]].count
        assert row[6] == pytest.approx(jacks[row[0]].spacing)


def test_quantities_and_amounts_are_those_of_the_bill(sheets, demo):
    rows = [row for row in worksheet("PLINTH_HOUSE_ITEMS", *sheets) if row[0]]
    assert {len(row) for row in rows} == {len(ITEM_COLUMNS)}
    assert [row[0] for row in rows] == [str(item.code) for item in demo.found.bill]
    assert [row[3] for row in rows] == pytest.approx([item.amount for item in demo.found.bill])


def test_the_order_of_the_sheets_makes_no_difference(sheets):
    assert worksheet("PLINTH_HOUSE_WALLS", *reversed(sheets)) == worksheet("PLINTH_HOUSE_WALLS", *sheets)


def test_money_as_decimals_and_dates_as_day_numbers_are_taken(sheets):
    rates = sheets[SURVEY_TITLES.index("Rates")]
    money = [[Decimal(repr(cell)) if isinstance(cell, float) else cell for cell in row] for row in rates]
    changed = [money if sheet is rates else sheet for sheet in sheets]
    assert worksheet("PLINTH_HOUSE_ITEMS", *changed) == worksheet("PLINTH_HOUSE_ITEMS", *sheets)


def test_a_fault_gives_an_error_and_keeps_the_fault_as_its_reason(demo_survey):
    went_wrong.clear()
    sheets = handed_over(demo_survey, Walls_E5=9.0)
    assert worksheet("PLINTH_HOUSE_WALLS", *sheets) == "#N/A"
    assert went_wrong[-1].reason.startswith("1 faults to mend, first: Walls!E5: ")
    assert worksheet("PLINTH_HOUSE_STATE", *sheets)[0][0].startswith("1 faults to mend, first: Walls!E5: ")


def test_an_error_cell_is_a_fault_and_never_a_blank(demo_survey):
    sheets = handed_over(demo_survey, Walls_F5="#REF!")
    assert "Walls!F5" in worksheet("PLINTH_HOUSE_STATE", *sheets)[0][0]


def test_a_share_that_may_have_been_typed_in_per_cent_is_refused(demo_survey):
    went_wrong.clear()
    row = next(row for row, column in enumerate(JOB, start=FIRST_ROW) if column.key == "overheads")
    assert worksheet("PLINTH_HOUSE_ITEMS", *handed_over(demo_survey, **{f"Job_B{row}": 0.12})) == "#N/A"
    assert "Overheads is 0.12" in went_wrong[-1].reason
    assert "such as 12" in went_wrong[-1].reason


def test_the_state_of_a_clean_survey_says_that_nothing_is_for_lifting(sheets):
    assert worksheet("PLINTH_HOUSE_STATE", *sheets) == [
        ["No faults, 0 doubtful entries. Budget only: nothing here is for lifting."]
    ]


@pytest.mark.parametrize("block", [5.0, [["Offer", 1.0]], [[None]]])
def test_what_is_no_survey_sheet_is_an_error(block, sheets):
    went_wrong.clear()
    assert worksheet("PLINTH_HOUSE_STATE", *sheets[:-1], block) == "#N/A"
    assert "which is no survey sheet" in went_wrong[-1].reason


def test_the_add_in_gets_rows_of_plain_values(sheets):
    rows = udfs.PLINTH_HOUSE_WALLS(*sheets)
    assert len(rows) == ROWS
    assert {type(cell) for row in rows for cell in row} == {str, float}
