"""addin.kinds: one survey entry handed out as a float, as a traced number and as a quantity."""

import io

import pytest
from openpyxl import Workbook

from addin import units
from addin.formulas import Homes, Renderer, Spot
from addin.kinds import Cell, Default, Floats, Quantities, Tracing
from calc.number import Traced, TracedText, literal, value_of
from tests.engines import IronCalc

CELL = Cell("Walls", 4, 5)
KINDS = {"floats": Floats(), "traced": Tracing(), "quantities": Quantities()}


def plain(number: object) -> float:
    return number.value if isinstance(number, Traced) else value_of(number)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize(("value", "unit", "calc_unit", "expected"), [
    (230.0, "mm", "m", 230 / 1000), (35.0, "%", "-", 35 / 100), (3.15, "m", "m", 3.15),
    (1500.0, "mm2", "m2", 1500 / 1e6),
    (700.0, "litre", "m3", 700 / 1000), (120.0, "kPa", "kN/m2", 120.0), (2.0, "No", "No", 2.0),
])  # fmt: skip
def test_an_entry_is_handed_out_in_the_unit_of_calc_to_the_last_bit(kind, value, unit, calc_unit, expected):
    number = KINDS[kind].number(value, CELL, unit, calc_unit)
    assert plain(number) == expected
    if kind == "quantities":
        assert units.same_dimension(number, calc_unit)


def test_floats_are_plain_floats():
    kind = Floats()
    assert type(kind.number(230.0, CELL, "mm", "m")) is float
    assert type(kind.number_or(None, CELL, "mm", "m", 0.25)) is float
    assert type(kind.given(1.0, CELL)) is bool
    assert type(kind.text("door", CELL)) is str
    assert type(kind.text_or("", CELL, "door")) is str


def test_a_traced_entry_holds_the_number_of_its_cell_and_divides_as_the_sheet_does():
    node = Tracing().number(230.0, CELL, "mm", "m")
    leaf = node.args[0]
    assert (node.op, node.args[1].value) == ("divide", 1000)
    assert (leaf.op, leaf.value, leaf.args) == ("entry", 230.0, (CELL,))
    assert Tracing().number(3.15, CELL, "m", "m").op == "entry"


@pytest.mark.parametrize("kind", KINDS)
def test_a_blank_stands_for_its_default_which_is_already_in_the_unit_of_calc(kind):
    hand = KINDS[kind]
    assert plain(hand.number_or(None, CELL, "mm", "m", 0.25)) == 0.25
    assert plain(hand.number_or(230.0, CELL, "mm", "m", 0.25)) == 0.23
    assert plain(hand.number_or(0.0, CELL, "mm", "m", 0.25)) == 0.0, "an entered 0 is no blank"


def test_a_default_keeps_its_own_unit_and_its_own_cell():
    usual = units.quantity(0.25, "m")
    assert Quantities().number_or(None, CELL, "mm", "m", usual) is usual
    default = literal(0.25)
    assert Tracing().number_or(None, CELL, "mm", "m", default).args[2] is default
    assert units.same_dimension(Quantities().number_or(None, CELL, "mm", "m", 0.25), "m")


@pytest.mark.parametrize("kind", KINDS)
def test_whether_a_number_was_given_is_known_in_every_kind(kind):
    for value, expected in ((None, False), (0.0, True), (3.0, True)):
        truth = KINDS[kind].given(value, CELL)
        assert (truth.value if isinstance(truth, Traced) else truth) is expected


@pytest.mark.parametrize("kind", KINDS)
def test_a_text_and_a_blank_text_come_out_the_same_in_every_kind(kind):
    hand = KINDS[kind]

    def text(value: object) -> str:
        return value.value if isinstance(value, TracedText) else value

    assert text(hand.text("Door", CELL)) == "Door"
    assert text(hand.text_or("Door", CELL, "window")) == "Door"
    assert text(hand.text_or("", CELL, "window")) == "window"


def test_a_traced_text_takes_a_traced_default():
    usual = TracedText("window", "entry", (Cell("Job", 4, 2),))
    node = Tracing().text_or("", CELL, usual)
    assert node.value == "window"
    assert node.args[1] is usual


def test_cells_are_told_apart_by_sheet_row_and_column_alone():
    assert Cell("Walls", 4, 5) == CELL
    assert {CELL: 1}[Cell("Walls", 4, 5)] == 1
    assert sorted([Cell("Walls", 5, 1), Cell("Walls", 4, 5), Cell("Job", 9, 9)])[0].sheet == "Job"
    assert Default(value=0.25, source=CELL).source == CELL


@pytest.fixture
def sheet_with_formulas() -> IronCalc:
    """Walls!E4 blank, with everything that asks for it on Results, column A."""
    book = Workbook()
    book.worksheets[0].title = "Walls"
    book.worksheets[0]["A1"] = 1
    results, renderer, kind = book.create_sheet("Results"), Renderer(Homes()), Tracing()
    nodes = (kind.number_or(None, CELL, "mm", "m", 0.25), kind.given(None, CELL), kind.text_or("", CELL, "window"))
    for row, node in enumerate(nodes, start=1):
        results.cell(row, 1).value = renderer.formula(node, Spot("Results", row, 1))
    out = io.BytesIO()
    book.save(out)
    return IronCalc(out.getvalue())


@pytest.mark.parametrize(("typed", "number", "given", "text"), [
    ("", 0.25, False, "window"), ("230", 0.23, True, 230.0), ("0", 0.0, True, 0.0),
    # No answer for the thickness of a wall, and the reader refuses it; where it is one, it stands for the default.
    ("unknown", "#N/A", False, "unknown"), ("9 in", "#N/A", False, "9 in"),
])  # fmt: skip
def test_a_blank_filled_in_later_is_live(sheet_with_formulas, typed, number, given, text):
    if typed:
        sheet_with_formulas.enter("Walls", "E4", typed)
    assert [sheet_with_formulas.value("Results", f"A{row}") for row in (1, 2, 3)] == [number, given, text]
