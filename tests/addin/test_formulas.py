"""addin.formulas: a traced number written as a formula gives its value in two engines, and reads as it should."""

import io
import re
from typing import Any

import pytest
from openpyxl import Workbook

from addin import formulas
from addin.formulas import DEEPEST, LONGEST_WORD, CannotRender, Homes, Renderer, Spot, quote
from addin.kinds import Cell, Tracing
from calc.number import (
    Filed,
    Name,
    Traced,
    TracedText,
    at_issue,
    both,
    ceil,
    cosine,
    entry,
    fixed,
    literal,
    maximum,
    minimum,
    product,
    ratio,
    rounded,
    same,
    sqrt,
    total,
    where,
    word_where,
)
from tests.addin import expressions
from tests.calc.test_number import HARD
from tests.engines import IronCalc, Value, differences, libreoffice, libreoffice_values

COUNT = 3000
SHEET = "Random formulas"
# ------------------------------------------------------------------------------------------ in two engines


class Written:
    """One workbook with a random expression a row, some of its parts in cells of their own further along the row."""

    def __init__(self, seed: int, count: int) -> None:
        self.book = Workbook()
        self.results: dict[tuple[str, str], Value] = {}
        self.homes = Homes()
        self.renderer = Renderer(self.homes)
        self.operations: set[str] = set()
        self._survey()
        self.sheet = self.book.create_sheet(SHEET)
        for row, (_, node, products) in enumerate(
            expressions.steady(seed, count, expressions.entries(Tracing())), start=1
        ):
            self._row(row, node, products)
        self._hard_roundings()
        out = io.BytesIO()
        self.book.save(out)
        self.data = out.getvalue()

    def _survey(self) -> None:
        sheet = self.book.worksheets[0]
        sheet.title = expressions.SHEET
        for at, row in enumerate(expressions.cells(), start=expressions.FIRST_ROW):
            for column, value in enumerate(row, start=1):
                if value not in (None, ""):
                    sheet.cell(at, column, value)

    def _row(self, row: int, node: Any, products: list[Any]) -> None:
        """Place the dimensions of each product side by side, and every fifth part of the rest; then write all."""
        placed = [(Spot(SHEET, row, 1, 1), node)]
        column = 3
        for made in (made for made in products if isinstance(made, Traced)):
            for arg in made.args:
                if arg is not None:
                    placed.append((Spot(SHEET, row, column, 1), arg))
                column += 1
            column += 1
        for part in list(expressions.parts(node))[1::5]:
            placed.append((Spot(SHEET, row, column, 1), part))
            column += 1
        for spot, part in placed:
            self.homes.place(part, spot)
        for spot, part in placed:
            home = self.homes.of(part)[0] == spot
            write = self.renderer.formula if home else self.renderer.reference
            self.sheet.cell(row, spot.column).value = write(part, spot)
            self.results[SHEET, spot.address] = part.value
        self.operations |= {_operation(part) for part in _all_parts(node)}

    def _hard_roundings(self) -> None:
        sheet = self.book.create_sheet("Roundings")
        for row, (value, places, expected) in enumerate(HARD, start=1):
            sheet.cell(row, 1, value)
            node = rounded(entry(value, Cell("Roundings", row, 1)), places)
            sheet.cell(row, 2).value = self.renderer.formula(node, Spot("Roundings", row, 2))
            self.results["Roundings", f"B{row}"] = expected
        for row, value in enumerate(((0.1 + 0.2) * 10, 3.000000001, -0.17, -2.5, 3.0000000001), start=1):
            sheet.cell(row, 4, value)
            node = ceil(entry(value, Cell("Roundings", row, 4)))
            sheet.cell(row, 5).value = self.renderer.formula(node, Spot("Roundings", row, 5))
            self.results["Roundings", f"E{row}"] = node.value


def _all_parts(node: Any):
    yield node
    for arg in getattr(node, "args", ()):
        if isinstance(arg, (Traced, TracedText)):
            yield from _all_parts(arg)


def _operation(node: Any) -> str:
    return f"text {node.op}" if isinstance(node, TracedText) and node.op != "entry" else node.op


@pytest.fixture(scope="module")
def written() -> Written:
    return Written(seed=1, count=COUNT)


def test_random_formulas_give_their_value_in_ironcalc(written):
    assert len(written.results) > COUNT
    assert differences(written.results, IronCalc(written.data).values(written.results)) == []


@libreoffice
def test_random_formulas_give_their_value_in_libreoffice(written):
    assert differences(written.results, libreoffice_values(written.data)) == []


def test_a_wrong_value_among_the_random_formulas_would_be_found(written):
    engine = IronCalc(written.data)
    numbers = [cell for cell, value in written.results.items() if isinstance(value, float) and value > 1]
    for cell in numbers[:: len(numbers) // 20]:
        wrong = {cell: written.results[cell] * (1 + 1e-11)}
        assert len(differences(wrong, engine.values(wrong))) == 1


def test_the_random_formulas_go_through_every_operation(written):
    # A value in a cell, a text the plan has fixed, a row of cells: tested one by one below.
    frozen = {"at issue", "text literal", "picked"}
    known = set(formulas._OPERATIONS) | set(formulas._INFIX) | {"literal"}
    assert known - written.operations == frozen


def test_no_random_formula_has_a_unary_minus(written):
    minus = re.compile(r"(?:^=|[(,<>=*/^+-])-")
    cells = [cell.value for row in written.sheet.iter_rows() for cell in row if cell.value]
    assert [text for text in cells if minus.search(re.sub(r'"[^"]*"', '""', text))] == []


# ------------------------------------------------------------------------------------------ as it reads


def cell_entry(address_row: int, column: int = 2, value: float = 3.0, sheet: str = "Walls") -> Traced:
    return entry(value, Cell(sheet, address_row, column))


@pytest.fixture
def homes() -> Homes:
    return Homes()


def written_out(node: Any, homes: Homes | None = None, here: Spot | None = None) -> str:
    return Renderer(homes or Homes()).formula(node, here or Spot("Loads", 9, 9, 1))


A, B, C = (cell_entry(row) for row in (4, 5, 6))
"""Walls!B4, B5 and B6."""


@pytest.mark.parametrize(("node", "formula"), [
    (A + B + C, "=Walls!B4+Walls!B5+Walls!B6"),
    (A + (B + C), "=Walls!B4+Walls!B5+Walls!B6"),
    (A + (B - C), "=Walls!B4+Walls!B5-Walls!B6"),
    (A - (B - C), "=Walls!B4-(Walls!B5-Walls!B6)"),
    (A - (B + C), "=Walls!B4-(Walls!B5+Walls!B6)"),
    (A - B - C, "=Walls!B4-Walls!B5-Walls!B6"),
    ((A + B) * C, "=(Walls!B4+Walls!B5)*Walls!B6"),
    (A * B + C, "=Walls!B4*Walls!B5+Walls!B6"),
    (A * (B / C), "=Walls!B4*Walls!B5/Walls!B6"),
    (A / (B * C), "=Walls!B4/(Walls!B5*Walls!B6)"),
    (A / (B / C), "=Walls!B4/(Walls!B5/Walls!B6)"),
    (A / B / C, "=Walls!B4/Walls!B5/Walls!B6"),
    ((A * B) ** 2, "=(Walls!B4*Walls!B5)^2"),
    (A * B**2, "=Walls!B4*Walls!B5^2"),
    ((A**2) ** 2, "=(Walls!B4^2)^2"),
    (A ** -1, "=Walls!B4^(0-1)"),
    (-A, "=0-Walls!B4"),
    ((-A) ** 2, "=(0-Walls!B4)^2"),
    (A - (-B), "=Walls!B4-(0-Walls!B5)"),
    (A * -2, "=Walls!B4*(0-2)"),
    (A + 0.000001, "=Walls!B4+1E-06"),
    (A + 1e21, "=Walls!B4+1E+21"),
    (A + B <= C, "=Walls!B4+Walls!B5<=Walls!B6"),
    (where(A > B, A, 0), "=IF(Walls!B4>Walls!B5,Walls!B4,0)"),
    (where(True, A, 0), "=IF(TRUE,Walls!B4,0)"),
    (2 * where(A >= B, A, 1), "=2*IF(Walls!B4>=Walls!B5,Walls!B4,1)"),
    (both(A < B, B < C), "=AND(Walls!B4<Walls!B5,Walls!B5<Walls!B6)"),
    (ratio(A, B, 0), "=IF(Walls!B5=0,0,Walls!B4/Walls!B5)"),
    (ratio(A + C, B * C, 1), "=IF(Walls!B5*Walls!B6=0,1,(Walls!B4+Walls!B6)/(Walls!B5*Walls!B6))"),
    (ratio(A * C, B**2, 1), "=IF(Walls!B5^2=0,1,Walls!B4*Walls!B6/Walls!B5^2)"),
    (ceil(A / B), "=CEILING(ROUND(Walls!B4/Walls!B5,9),1)"),
    (rounded(A, 2), "=ROUND(Walls!B4,2)"),
    (maximum(A, C, 1), "=MAX(Walls!B4,Walls!B6,1)"),
    (minimum(A, B, C), "=MIN(Walls!B4:B6)"),
    (total([A, B, C]), "=SUM(Walls!B4:B6)"),
    (total([C, B, A]), "=SUM(Walls!B6,Walls!B5,Walls!B4)"),
    (total([A, B, cell_entry(6, 3)]), "=SUM(Walls!B4:B5,Walls!C6)"),
    (total([A, A * B]), "=SUM(Walls!B4,Walls!B4*Walls!B5)"),
    (sqrt(A), "=SQRT(Walls!B4)"),
    (cosine(A), "=COS(RADIANS(Walls!B4))"),
    (same(TracedText("door", "entry", (Cell("Openings", 4, 2),)), "door"), '=Openings!B4="door"'),
    (1 * same(TracedText("door", "entry", (Cell("Openings", 4, 2),)), "door"), '=1*(Openings!B4="door")'),
    (word_where(A > B, 'a 9" wall', "none"), '=IF(Walls!B4>Walls!B5,"a 9"" wall","none")'),
    (word_where(A > B, fixed("two way", A), "none"), '=IF(Walls!B4>Walls!B5,"two way","none")'),
    (Tracing().number(230, Cell("Wall list", 4, 2), "mm", "m"), "='Wall list'!B4/1000"),
    (Tracing().given(None, Cell("Walls", 4, 3)), "=ISNUMBER(Walls!C4)"),
    (Tracing().number_or(None, Cell("Walls", 4, 3), "mm", "m", A),
     '=IF(ISNUMBER(Walls!C4),Walls!C4/1000,IF(Walls!C4="",Walls!B4,NA()))'),
    (Tracing().number_or(None, Cell("Footings", 4, 5), "m", "m", A),
     '=IF(ISNUMBER(Footings!E4),Footings!E4,IF(OR(Footings!E4="",Footings!E4="unknown"),Walls!B4,NA()))'),
    (Tracing().text_or("", Cell("Walls", 4, 3), "yes"), '=IF(Walls!C4="","yes",Walls!C4)'),
    (TracedText("door", "entry", (Cell("Openings", 4, 2),)), "=Openings!B4"),
])  # fmt: skip
def test_a_formula_has_the_brackets_it_needs_and_no_more(node, formula):
    assert written_out(node) == formula


def test_a_part_is_shown_by_name_before_its_own_row_before_its_home_before_written_out(homes):
    part = A * B
    here = Spot("Loads", 9, 9, 1)
    assert written_out(part + 1, homes, here) == "=Walls!B4*Walls!B5+1"
    homes.place(part, Spot("Rates", 4, 3, 2))
    assert written_out(part + 1, homes, here) == "=Rates!C4+1"
    homes.place(part, Spot("Loads", 9, 4, 1))
    assert written_out(part + 1, homes, here) == "=D9+1"
    homes.name(part, "wall_load")
    assert written_out(part + 1, homes, here) == "=wall_load+1"


def test_a_cell_of_the_same_row_in_another_table_is_not_the_own_row(homes):
    homes.place(B, Spot("Loads", 9, 4, 2))
    assert written_out(B + 1, homes, Spot("Loads", 9, 9, 1)) == "=Walls!B5+1"
    assert written_out(B + 1, homes, Spot("Loads", 9, 9, 2)) == "=D9+1"


def test_the_first_cell_is_the_home_and_the_others_point_at_it(homes):
    node = A * B
    assert homes.place(node, Spot("Loads", 9, 4, 1))
    assert not homes.place(node, Spot("Jacks", 4, 2, 2))
    renderer = Renderer(homes)
    assert renderer.formula(node, Spot("Loads", 9, 4, 1)) == "=Walls!B4*Walls!B5"
    assert renderer.reference(node, Spot("Jacks", 4, 2, 2)) == "=Loads!D9"
    homes.name(node, "gross")
    assert renderer.reference(node, Spot("Jacks", 4, 2, 2)) == "=gross"


def test_an_entry_of_the_survey_is_its_own_home(homes):
    assert not homes.place(A, Spot("Loads", 9, 4, 1))
    assert homes.of(A)[0] == Spot("Walls", 4, 2)
    assert Renderer(homes).reference(A, Spot("Loads", 9, 4, 1)) == "=Walls!B4"


def test_whether_an_entry_is_given_is_asked_of_its_own_cell(homes):
    # A cell that refers to a blank one shows 0, and 0 is a number: found by the random formulas.
    node = Tracing().number_or(None, Cell("Walls", 4, 3), "-", "-", 1)
    leaf = node.args[0]
    homes.place(leaf, Spot("Loads", 9, 4, 1))
    assert written_out(node, homes) == '=IF(ISNUMBER(Walls!C4),D9,IF(Walls!C4="",1,NA()))'
    given = Tracing().given(None, Cell("Walls", 4, 3))
    homes.place(given.args[0], Spot("Loads", 9, 5, 1))
    assert written_out(given, homes) == "=ISNUMBER(Walls!C4)"


def test_equal_expressions_are_not_the_same_cell(homes):
    one, other = A * B, A * B
    homes.place(one, Spot("Loads", 4, 4, 1))
    assert written_out(other + 1, homes) == "=Walls!B4*Walls!B5+1"


def test_the_line_of_a_listing_is_fixed_and_a_row_of_a_table_is_relative(homes):
    homes.rows_in_block.update({1: 1, 2: 6})
    one, many = A * B, A * C
    homes.place(one, Spot("Loads", 4, 2, 1))
    homes.place(many, Spot("Loads", 9, 2, 2))
    assert written_out(one + many, homes, Spot("Loads", 20, 9, 3)) == "=$B$4+B9"
    assert written_out(one + many, homes, Spot("Jacks", 20, 9, 3)) == "=Loads!$B$4+Loads!B9"


def test_a_total_joins_neighbours_and_fixes_both_ends_in_listings(homes):
    parts = [A * B, B * C, A * C]
    homes.rows_in_block[1] = 1
    for row, part in enumerate(parts, start=4):
        homes.place(part, Spot("Loads", row, 2, 1))
    assert written_out(total(parts), homes, Spot("Jacks", 1, 1, 2)) == "=SUM(Loads!$B$4:$B$6)"
    homes.name(parts[1], "middle")
    assert written_out(total(parts), homes, Spot("Jacks", 1, 1, 2)) == "=SUM(Loads!$B$4,middle,Loads!$B$6)"


NAMES = [TracedText(name, "entry", (Cell("Walls", row, 1),)) for row, name in enumerate(("W1", "W2", "W3"), start=4)]


def test_a_look_up_goes_to_the_columns_and_the_key_to_its_cell(homes):
    filed = Filed(NAMES, [A, B, C])
    key = Name("W2")
    homes.place(key, Spot("Loads", 9, 1, 1))
    assert written_out(filed.at(key), homes) == "=INDEX(Walls!$B$4:$B$6,MATCH(A9,Walls!$A$4:$A$6,0))"
    assert written_out(filed.total(key), homes) == "=SUMIFS(Walls!$B$4:$B$6,Walls!$A$4:$A$6,A9)"
    assert written_out(filed.at("w2"), homes) == '=INDEX(Walls!$B$4:$B$6,MATCH("w2",Walls!$A$4:$A$6,0))'


def test_a_look_up_of_texts_gives_a_text(homes):
    filed = Filed([Name("W1"), Name("W2")], [NAMES[0], NAMES[1]])
    for row, name in enumerate(filed.names, start=4):
        homes.place(name, Spot("Loads", row, 7, 1))
    found = filed.at(TracedText("w2", "entry", (Cell("Openings", 4, 1),)))
    assert isinstance(found, TracedText)
    assert written_out(found, homes) == "=INDEX(Walls!$A$4:$A$5,MATCH(Openings!A4,$G$4:$G$5,0))"


def test_names_are_taken_from_the_table_their_values_stand_in(homes):
    names, values = [Name("W1"), Name("W2")], [A * B, A * C]
    for block, sheet in ((1, "Loads"), (2, "Jacks")):
        for row in (0, 1):
            homes.place(names[row], Spot(sheet, 9 + row, 1, block))
    for row in (0, 1):
        homes.place(values[row], Spot("Jacks", 9 + row, 2, 2))
    text = written_out(Filed(names, values).total("W1"), homes, Spot("Jacks", 20, 1, 3))
    assert text == '=SUMIFS($B$9:$B$10,$A$9:$A$10,"W1")'


def test_a_sum_over_an_empty_table_is_0():
    assert written_out(Filed([], []).total(NAMES[0])) == "=0"


def test_a_product_is_the_cells_of_its_line_gaps_included(homes):
    number, length, depth = literal(2), rounded(A, 2), rounded(B, 2)
    for column, node in ((3, number), (4, length), (6, depth)):
        homes.place(node, Spot("Lines", 7, column, 1))
    node = product(number, length, None, depth)
    assert written_out(rounded(node, 2), homes, Spot("Lines", 7, 7, 1)) == "=ROUND(PRODUCT(C7:F7),2)"
    assert written_out(product(None, length, None, depth), homes, Spot("Lines", 7, 7, 1)) == "=PRODUCT(C7:F7)"


def test_a_product_finds_a_dimension_that_stands_in_its_row_twice(homes):
    number, side = literal(2), rounded(A, 2)
    for column, node in ((3, number), (4, side), (5, side)):
        homes.place(node, Spot("Lines", 7, column, 1))
    assert written_out(product(number, side, side), homes, Spot("Lines", 7, 7, 1)) == "=PRODUCT(C7:E7)"


# ------------------------------------------------------------------------------------------ what is refused


def test_a_product_of_scattered_cells_is_refused(homes):
    number, length = literal(2), rounded(A, 2)
    homes.place(number, Spot("Lines", 7, 3, 1))
    homes.place(length, Spot("Lines", 7, 5, 1))
    with pytest.raises(CannotRender, match=r"Lines!G7: the dimensions of a measured line stand side by side"):
        written_out(product(number, length), homes, Spot("Lines", 7, 7, 1))


def test_a_product_whose_cells_would_reach_over_itself_or_off_the_sheet_is_refused(homes):
    number, length = literal(2), rounded(A, 2)
    homes.place(number, Spot("Lines", 7, 1, 1))
    homes.place(length, Spot("Lines", 7, 3, 1))
    with pytest.raises(CannotRender):
        written_out(product(None, number), homes, Spot("Lines", 7, 7, 1))
    with pytest.raises(CannotRender):
        written_out(product(number, None, length), homes, Spot("Lines", 7, 2, 1))


@pytest.mark.parametrize("order", [(0, 2, 1), (1, 0, 2)])
def test_a_look_up_in_a_column_out_of_order_is_refused(order):
    filed = Filed([NAMES[i] for i in order], [(A, B, C)[i] for i in range(3)])
    with pytest.raises(CannotRender, match=r"Loads!I9: a column it looks things up in stands in no table in order"):
        written_out(filed.at("W1"))


def test_a_look_up_in_values_without_cells_is_refused():
    with pytest.raises(CannotRender, match="stands in no table"):
        written_out(Filed(NAMES, [A * B, B, C]).total("W1"))


def test_a_look_up_in_plain_constants_with_a_live_key_is_refused():
    with pytest.raises(CannotRender, match="2 plain constants"):
        written_out(Filed(["W1", "W2"], [1.0, 2.0]).at(NAMES[0]))


def test_a_result_worked_out_at_issue_needs_a_cell(homes):
    node = at_issue(0.5, A, B)
    with pytest.raises(CannotRender, match=r"Loads!I9: a result worked out at issue needs a cell of its own"):
        written_out(node * A, homes)
    homes.place(node, Spot("Loads", 9, 3, 1))
    assert written_out(node * A, homes) == "=C9*Walls!B4"


def test_a_formula_nested_too_deep_is_refused_before_it_overflows(homes):
    node = A
    for _ in range(DEEPEST - 1):
        node = B - node
    assert written_out(node).count("(") == DEEPEST - 2
    with pytest.raises(CannotRender, match="nested too deep; give its parts cells"):
        written_out(B - (B - node))
    homes.place(node, Spot("Loads", 9, 3, 1))
    assert written_out(B - (B - node), homes) == "=Walls!B5-(Walls!B5-C9)"


@pytest.mark.parametrize(("node", "why"), [
    (word_where(A > B, "x" * (LONGEST_WORD + 1), ""), "256 characters"),
    (A + float("inf"), "inf is not a number"),
    (total([cell_entry(2 * row) for row in range(1, 257)]), "SUM of 256 scattered cells"),
])  # fmt: skip
def test_what_a_spreadsheet_refuses_is_refused_before_it_is_written(node, why):
    with pytest.raises(CannotRender, match=why):
        written_out(node)


def test_the_longest_word_and_the_most_cells_still_go_through():
    assert len(written_out(word_where(A > B, "x" * LONGEST_WORD, ""))) > LONGEST_WORD
    assert written_out(total([cell_entry(2 * row) for row in range(1, 256)])).count(",") == 254


# ------------------------------------------------------------------------------------------ what lints look at


def test_every_constant_a_formula_holds_is_collected():
    renderer = Renderer(Homes())
    renderer.formula(A * 2 + 0.115 - where(A > 4, True, 1), Spot("Loads", 9, 9, 1))
    assert renderer.literals == {2.0, 0.115, 4.0, 1.0}


def test_a_part_without_a_cell_that_is_written_out_twice_is_counted(homes):
    part = A * B
    renderer = Renderer(homes)
    renderer.formula(part + part, Spot("Loads", 9, 9, 1))
    assert renderer.loose[id(part)] == 2
    homes.place(part, Spot("Loads", 9, 3, 1))
    again = Renderer(homes)
    again.formula(part + part, Spot("Loads", 9, 9, 1))
    assert id(part) not in again.loose


@pytest.mark.parametrize(("sheet", "quoted"), [
    ("Walls", "Walls"), ("Jack plan", "'Jack plan'"), ("House 1's", "'House 1''s'"), ("AB12", "'AB12'"),
])  # fmt: skip
def test_a_sheet_title_is_quoted_where_a_formula_needs_it(sheet, quoted):
    assert quote(sheet) == quoted
