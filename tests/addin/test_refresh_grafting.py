"""Single cells of ours in a sheet of theirs: every other byte stays."""

import io
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook
from openpyxl.utils import get_column_letter

from addin.refresh.cells import SheetCells, address
from addin.refresh.grafting import Graft, content_of
from addin.refresh.merging import merge
from addin.refresh.package import CannotRefresh
from tests.made_books import ALL, OURS, made_book
from tests.user_books import parts, plain_book, rewritten, sheet_parts

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
MADE = SheetCells.of(
    f'<worksheet xmlns="{MAIN}"><sheetData><row r="2"><c r="B2" s="4"><v>1.5</v></c><c r="D2" t="str">'
    '<f>B2&amp;"&lt;"</f><v>1.5&lt;</v></c></row><row r="4"><c r="A4" t="inlineStr"><is><t> words</t></is></c>'
    '<c r="B4" s="4"><f>B2*2</f>'
    '<v>3</v></c><c r="C4" t="b"><f>B4&gt;1</f><v>1</v></c></row></sheetData></worksheet>'.encode()
)  # fmt: skip


def sheet(rows, before="", after="", prefix=""):
    declared = f'xmlns:{prefix[:-1]}="{MAIN}"' if prefix else f'xmlns="{MAIN}"'
    text = f"<worksheet {declared}>{before}<sheetData>{rows}</sheetData>{after}</worksheet>"
    return re.sub(r"<(/?)(?=[a-zA-Z])", rf"<\1{prefix}", text).encode() if prefix else text.encode()


def grafted(theirs, cells, texts=(), looks=None):
    return Graft("Walls", theirs, MADE, texts).content(cells, looks or {})


def body(data):
    return re.search(rb"<(?:\w+:)?sheetData[ />].*(?:</(?:\w+:)?sheetData>|/>)", data, re.S)[0].decode()


# ------------------------------------------------------------------------------------------ cells that are there


def test_a_cell_keeps_its_look_and_everything_around_it_its_bytes():
    row = '<row r="2" ht="31.5"  customHeight="1"><c  s="9" r="B2"><v>7</v></c ><c r="C2"/></row>'
    theirs = sheet(row, after="<x a='1'/>")
    assert grafted(theirs, {"B2"}) == theirs.replace(b"<v>7</v></c >", b"<v>1.5</v></c>")


def test_a_formula_comes_with_its_result_and_kind():
    theirs = sheet('<row r="2"><c r="D2" s="3" t="s"><v>0</v></c></row><row r="4"><c r="C4"/></row>')
    assert body(grafted(theirs, {"D2", "C4"}, ["old"])) == (
        '<sheetData><row r="2"><c r="D2" s="3" t="str"><f>B2&amp;"&lt;"</f><v>1.5&lt;</v></c></row>'
        '<row r="4"><c r="C4" t="b"><f>B4&gt;1</f><v>1</v></c></row></sheetData>')  # fmt: skip


def test_a_text_keeps_its_blanks():
    theirs = sheet('<row r="4"><c r="A4" s="2"/></row>')
    cell = '<c r="A4" s="2" t="inlineStr"><is><t xml:space="preserve"> words</t></is></c>'
    assert cell in body(grafted(theirs, {"A4"}))


def test_a_cell_that_made_leaves_empty_is_emptied_and_keeps_its_look():
    theirs = sheet('<row r="3"><c r="B3" s="5" t="s"><v>0</v></c></row>')
    assert body(grafted(theirs, {"B3"}, ["old"])) == '<sheetData><row r="3"><c r="B3" s="5"></c></row></sheetData>'
    assert grafted(sheet('<row r="3"/>'), {"B3"}) == sheet('<row r="3"/>')


def test_a_cell_that_says_the_same_is_left_as_it_is():
    theirs = sheet('<row r="2"><c r="B2" s="1" ><v>1.5</v></c></row><row r="4"><c t="s" r="A4"><v>1</v></c><c r="B4">'
                   "<f >B2*2</f><v >3</v></c></row>")  # fmt: skip
    assert grafted(theirs, {"A4", "B2", "B4"}, ["other", " words"]) is not None
    assert grafted(theirs, {"A4", "B2", "B4"}, ["other", " words"]) == theirs


# ------------------------------------------------------------------------------------------ cells that are missing


def test_a_new_cell_stands_in_its_place_with_the_look_of_the_made_one():
    theirs = sheet('<row r="2" spans="3:3"><c r="C2"/></row>', before='<dimension ref="C2"/>')
    found = grafted(theirs, {"B2", "D2"}, looks={"B2": 17})
    assert re.findall(r'<c r="\w+"', body(found)) == ['<c r="B2"', '<c r="C2"', '<c r="D2"']
    assert '<c r="B2" s="17"><v>1.5</v></c>' in body(found)
    assert b'spans="2:4"' in found
    assert b'<dimension ref="B2:D2"/>' in found


@pytest.mark.parametrize(("rows", "order"), [
    ("", ["2", "4"]),
    ('<row r="3"/>', ["2", "3", "4"]),
    ('<row r="1"><c r="A1"/></row><row r="9"></row>', ["1", "2", "4", "9"]),
    ('<row r="2"/><row r="5"/>', ["2", "4", "5"]),
])  # fmt: skip
def test_a_missing_row_is_made_in_its_place(rows, order):
    found = body(grafted(sheet(rows), {"B2", "B4", "C4"}))
    assert re.findall(r'<row r="(\d+)"', found) == order
    assert '<c r="B4"><f>B2*2</f><v>3</v></c><c r="C4" t="b">' in found


def test_a_sheet_without_any_row_and_with_a_prefix_takes_them():
    theirs = sheet("", prefix="q:").replace(b"<q:sheetData></q:sheetData>", b"<q:sheetData />")
    row = '<q:row r="2"><q:c r="B2"><q:v>1.5</q:v></q:c></q:row>'
    assert body(grafted(theirs, {"B2"})) == f"<q:sheetData>{row}</q:sheetData>"
    assert body(grafted(grafted(theirs, {"B2"}), {"A4"})).endswith(
        '<q:row r="4"><q:c r="A4" t="inlineStr"><q:is><q:t xml:space="preserve"> words</q:t></q:is></q:c></q:row>'
        "</q:sheetData>"
    )


def test_cells_and_rows_without_addresses_are_found_by_their_order():
    theirs = sheet("<row><c><v>1</v></c></row><row><c><v>2</v></c><c s='8'><v>3</v></c><c><v>4</v></c></row>")
    assert grafted(theirs, {"B2"}) == theirs.replace(b"<v>3</v>", b"<v>1.5</v>")


def test_remarks_and_other_encodings_of_signs_do_not_deceive():
    theirs = sheet('<!-- <row r="2"><c r="B2"/></row> --><row r="2"><c r="A2" t="str"><f>"&lt;c r=&quot;B2&quot;'
                   '&gt;"</f><v><![CDATA[<c r="B2">]]></v></c><c r="&#66;2" s="3"><v>7</v></c></row>')  # fmt: skip
    assert grafted(theirs, {"B2"}) == theirs.replace(b"<v>7</v>", b"<v>1.5</v>")


# ------------------------------------------------------------------------------------------ neighbours


def test_cells_that_shared_a_formula_keep_theirs_written_out():
    theirs = sheet(
        '<row r="4"><c r="B4"><f t="shared" ref="B4:B6" si="0">A4*$C$1</f><v>1</v></c></row>'
        '<row r="5"><c r="B5"><f t="shared" si="0"/><v>2</v></c></row>'
        '<row r="6"><c r="B6"><f t="shared" si="0"/><v>3</v></c><c r="C6"><f t="shared" si="1"/></c></row>'
    )
    assert body(grafted(theirs, {"B4"})) == (
        '<sheetData><row r="4"><c r="B4"><f>B2*2</f><v>3</v></c></row>'
        '<row r="5"><c r="B5"><f>A5*$C$1</f><v>2</v></c></row>'
        '<row r="6"><c r="B6"><f>A6*$C$1</f><v>3</v></c><c r="C6"><f t="shared" si="1"/></c></row></sheetData>'
    )


def test_a_cell_that_only_takes_part_in_a_shared_formula_leaves_the_others_alone():
    theirs = sheet('<row r="3"><c r="B3"><f t="shared" ref="B3:B4" si="0">A3</f><v>1</v></c></row>'
                   '<row r="4"><c r="B4" s="2"><f t="shared" si="0"/><v>2</v></c></row>')  # fmt: skip
    assert grafted(theirs, {"B4"}) == theirs.replace(b'<f t="shared" si="0"/><v>2</v>', b"<f>B2*2</f><v>3</v>")


def test_both_ends_of_a_shared_formula_may_go_at_once():
    theirs = sheet('<row r="2"><c r="B2"><f t="shared" ref="B2:B4" si="0">A2</f></c></row>'
                   '<row r="4"><c r="B4"><f t="shared" si="0"/></c></row>')  # fmt: skip
    assert "shared" not in body(grafted(theirs, {"B2", "B4"}))


def test_a_cell_merged_into_another_is_refused_and_the_first_of_them_is_not():
    merges = '<mergeCells count="1"><mergeCell ref="B2:C4"/></mergeCells>'
    with pytest.raises(CannotRefresh, match="Walls!B4 is merged with B2, and plinthbook writes there: undo"):
        grafted(sheet("", after=merges), {"B4"})
    assert "<v>1.5</v>" in body(grafted(sheet("", after=merges), {"B2"}))


@pytest.mark.parametrize("kind", ["array", "dataTable"])
def test_a_cell_filled_by_a_formula_beside_it_is_refused(kind):
    theirs = sheet(f'<row r="2"><c r="A2"><f t="{kind}" ref="A2:B4">X1:Y3</f></c><c r="B2"><v>2</v></c></row>')
    with pytest.raises(CannotRefresh, match="Walls!B2 is filled by the formula in A2, and plinthbook writes there"):
        grafted(theirs, {"B2"})


def test_a_formula_that_fills_only_its_own_cell_makes_room():
    theirs = sheet('<row r="2"><c r="B2" cm="1"><f t="array" ref="B2">SUM(A1)</f><v>2</v></c></row>')
    assert '<c r="B2"><v>1.5</v></c>' in body(grafted(theirs, {"B2"}))


def test_a_sheet_in_an_unusual_encoding_is_refused():
    theirs = ('<?xml version="1.0" encoding="UTF-16"?>' + sheet("").decode()).encode("utf-16")
    with pytest.raises(CannotRefresh, match="written in an unusual encoding"):
        grafted(theirs, {"B2"})


# ------------------------------------------------------------------------------------------ any sheet


places = st.tuples(st.integers(1, 6), st.integers(1, 5))


@settings(max_examples=200, deadline=None)
@given(there=st.dictionaries(places, st.integers(0, 99)), cells=st.sets(places), closed=st.booleans())
def test_whatever_is_there_only_the_named_cells_change(there, cells, closed):
    by_row = {}
    for (row, column), value in sorted(there.items()):
        by_row.setdefault(row, []).append(f'<c r="{get_column_letter(column)}{row}" s="{column}"><v>{value}</v></c>')
    rows = "".join(f'<row r="{row}">{"".join(items)}</row>' for row, items in by_row.items())
    theirs = sheet(rows + ("" if closed else "\n "))
    found = SheetCells.of(grafted(theirs, {address(place) for place in cells}))
    written = [place for place, piece in found.cells.items() if content_of(piece, ()).value or piece.formula]
    kept = {place for place, value in there.items() if place not in cells}
    assert set(written) == kept | (cells & set(MADE.cells))
    assert list(found.cells) == sorted(found.cells)
    assert list(found.rows) == sorted(found.rows)
    assert all(content_of(found.cells[place], ()).value == str(there[place]) for place in kept)
    assert all(content_of(found.cells[p], ()) == content_of(MADE.cells[p], ()) for p in cells & set(MADE.cells))
    assert all(found.cells[place].attributes["s"] == str(place[1]) for place in there)


# ------------------------------------------------------------------------------------------ in a whole workbook


def test_a_grafted_sheet_keeps_its_other_cells_and_a_sheet_without_grafts_its_bytes():
    theirs = merge(plain_book(), made_book(), ALL)
    made = made_book(rise=2.5)
    result = merge(theirs, made, OURS, {"Job": ["B2", "C2"]})
    job = load_workbook(io.BytesIO(result), data_only=True)["Job"]
    assert (job["B2"].value, job["C2"].value, job["C2"].number_format) == (2.5, 2.5, "0.000")
    ungrafted = merge(theirs, made, OURS, {})
    assert parts(ungrafted)[sheet_parts(ungrafted)["Job"]] == parts(theirs)[sheet_parts(theirs)["Job"]]
    assert merge(result, made, OURS, {"Job": ["B2", "C2"]}) is result


def test_the_look_of_a_new_cell_is_the_made_one_in_the_users_list():
    theirs = merge(plain_book(), made_book(), ALL)
    part = sheet_parts(theirs)["Job"]
    bare = rewritten(theirs, {part: re.sub(rb'<c r="C2".*?</c>', b"", parts(theirs)[part])})
    result = merge(bare, made_book(), OURS, {"Job": ["C2"]})
    cell = load_workbook(io.BytesIO(result))["Job"]["C2"]
    assert (cell.value, cell.style, cell.number_format, cell.border.top.style) == ("=B2", "pb figure", "0.000", "thin")


def test_cells_of_a_sheet_that_was_not_made_are_an_error_of_the_program():
    theirs = merge(plain_book(), made_book(), ALL)
    with pytest.raises(ValueError, match="no sheet Rooms"):
        merge(theirs, made_book(), OURS, {"Rooms": ["A1"]})
