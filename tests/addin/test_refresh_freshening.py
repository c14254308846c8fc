"""Results of the user's own formulas after our sheets were made anew."""

import io
import re

import pytest
from openpyxl import load_workbook

from addin.refresh import references
from addin.refresh.cells import SheetCells
from addin.refresh.freshening import freshened
from addin.refresh.merging import merge
from addin.refresh.references import TRUSTED, Area, Outline
from tests.engines import IronCalc, XlError, alike, libreoffice, libreoffice_values
from tests.made_books import ALL, OURS, made_book
from tests.user_books import edited, parts, plain_book, rewritten, sheet_parts

pytestmark = [
    pytest.mark.filterwarnings("ignore:.* is not supported and will be removed"),
    pytest.mark.filterwarnings("ignore:Unknown worksheet reference"),  # our sheets come with the first refresh
]
RISE, NEW_RISE = 1.2, 2.5


def book_with(formulas, more=None):
    """A workbook of the user's with these formulas on the sheet Own, refreshed once for one rise."""

    def write(book):
        sheet = book.add_worksheet("Own")
        for cell, (formula, value) in formulas.items():
            sheet.write_formula(cell, formula, None, value)
        if more is not None:
            more(book, sheet)

    return merge(plain_book(write), made_book(rise=RISE), ALL)


def refreshed(theirs, grafts=None, **made):
    """The workbook, refreshed for another rise, and what could not be worked out."""
    merged = merge(theirs, made_book(**({"rise": NEW_RISE} | made)), OURS, grafts)
    return freshened(merged, OURS, grafts, before=theirs)


def own(data, title="Own"):
    return parts(data)[sheet_parts(data)[title]]


def result(data, cell, title="Own"):
    return load_workbook(io.BytesIO(data), data_only=True)[title][cell].value


# ------------------------------------------------------------------------------------------ what is brought up to date


@pytest.mark.parametrize(("formula", "old", "new"), [
    ("=Bill!B6/2", 18, 37.5),
    ("=bill_total+1", 37, 76),
    ("=SUM(Bill!B:B)", 72, 150),
    ("=SUM(Bill!$B$2:$B$4)", 36, 75),
    ("=IF(bill_total>50,\"dear\",\"cheap\")", "cheap", "dear"),
    ("=bill_total>50", False, True),
    ("=INDEX(Bill!A2:B4,2,2)", 12, 25),
    ("=VLOOKUP(\"item 3\",Bill!A2:B4,2,FALSE)", 12, 25),
    ("=ROUND(Offer!B3,1)", 2.4, 5),
    ('="costs "&ROUND(bill_total/7,1)', "costs 5.1", "costs 10.7"),
])  # fmt: skip
def test_a_formula_that_looks_at_our_sheets_shows_the_new_result(formula, old, new):
    found, unshown = refreshed(book_with({"B2": (formula, old)}))
    assert unshown == ()
    assert (result(found, "B2"), type(result(found, "B2"))) == (new, type(new))


def test_formulas_behind_other_formulas_follow():
    found, unshown = refreshed(book_with({"A1": ("=B2*2", 0), "B2": ("=C3+1", 0), "C3": ("=bill_total", 36)}))
    assert ([result(found, cell) for cell in ("A1", "B2", "C3")], unshown) == ([152, 76, 75], ())


def test_formulas_that_share_one_text_follow():
    theirs = book_with({f"B{row}": (f"=Bill!B{row}*2", 1) for row in (2, 3, 4)})
    part = sheet_parts(theirs)["Own"]
    theirs = edited(theirs, part, "<f>Bill!B2*2</f>", '<f t="shared" ref="B2:B4" si="0">Bill!B2*2</f>')
    for row in (3, 4):
        theirs = edited(theirs, part, f"<f>Bill!B{row}*2</f>", '<f t="shared" si="0"/>')
    found, unshown = refreshed(theirs)
    assert re.findall(rb"</?f[^>]*>(?:<v>([\d.]+)</v>)?", own(found))[1:] == [b"45", b"50", b"55"]
    assert unshown == ()


def test_a_table_of_theirs_is_added_up_anew():
    def more(_, sheet):
        sheet.write_row("D1", ("What", "Cost"))
        sheet.write("D2", "ours")
        sheet.write_formula("E2", "=bill_total", None, 36)
        sheet.write_row("D3", ("crane", 14))
        sheet.add_table("D1:E3", {"name": "AllCosts", "columns": [{"header": "What"}, {"header": "Cost"}]})

    found, unshown = refreshed(book_with({"A1": ("=SUM(AllCosts[Cost])", 50)}, more))
    assert (result(found, "A1"), unshown) == (89, ())


def test_a_name_that_means_another_cell_now_is_followed():
    from openpyxl.workbook.defined_name import DefinedName

    def more(book):
        book.defined_names["bill_total"] = DefinedName("bill_total", attr_text="Bill!$B$3")

    found, _ = refreshed(book_with({"A1": ("=bill_total", 36)}), rise=RISE, more=more)
    assert result(found, "A1") == 12


def test_formulas_that_look_at_a_grafted_cell_follow():
    theirs = book_with({"A1": ("=Job!C2*10", 12), "A2": ("=rise_in_use", 1.2), "A3": ("=Job!A1", "Job")})
    found, unshown = refreshed(theirs, {"Job": ["B2", "C2"]})
    assert ([result(found, cell) for cell in ("A1", "A2", "A3")], unshown) == ([25, 2.5, "Job"], ())


@pytest.mark.parametrize(
    "way", ["Middle!A1", "'Mid''s & son'!A1", "SUM(First:Middle!A1)", "passed_on", "SUM(Handed[On])"]
)
def test_formulas_behind_other_sheets_follow_whatever_way_they_look(way):
    def more(book, _):
        for title, formula in (("First", "=Middle!B1"), ("Middle", "=bill_total"), ("Mid's & son", "=bill_total")):
            sheet = book.add_worksheet(title)
            sheet.write_formula("A1", formula, None, 36)
            sheet.write_formula("B1", formula, None, 36)
        sheet.write("D1", "On")
        sheet.write_formula("D2", "=Middle!A1", None, 36)
        sheet.add_table("D1:D2", {"name": "Handed", "columns": [{"header": "On"}]})
        book.define_name("passed_on", "=Middle!$A$1")

    found, unshown = refreshed(book_with({"C1": (f"={way}", 36)}, more))
    over_sheets = ":" in way  # the engine does not add up over sheets
    assert result(found, "C1") == (None if over_sheets else 75)
    assert unshown == (("Own!C1",) if over_sheets else ())


# ------------------------------------------------------------------------------------------ what stays


def test_only_results_that_differ_change_a_byte():
    theirs = book_with(
        {"A1": ("=1+1", 99), "A2": ("=A1*2", 98), "A3": ("=bill_total", 36), "A4": ("=Offer!A1", "Offer")}
    )
    found, _ = refreshed(theirs)
    assert own(found) == own(theirs).replace(b"<f>bill_total</f><v>36</v>", b"<f>bill_total</f><v>75</v>")
    merged = merge(theirs, made_book(rise=NEW_RISE), OURS)
    assert {name for name, part in parts(found).items() if part != parts(merged)[name]} == {sheet_parts(theirs)["Own"]}


def test_what_looks_only_at_unchanged_cells_of_ours_is_left_alone():
    found, unshown = refreshed(book_with({"A1": ('=TEXT(Bill!A2,"@")', "item 2"), "A2": ("=Bill!A3", "wrong")}))
    assert (result(found, "A1"), result(found, "A2"), unshown) == ("item 2", "wrong", ())


def test_without_an_earlier_state_everything_that_looks_at_ours_is_worked_out():
    theirs = book_with({"A2": ("=Bill!A3", "wrong")})
    assert result(freshened(theirs, OURS)[0], "A2") == "item 3"


def test_a_result_written_with_other_last_digits_is_the_same():
    theirs = book_with({"A1": ("=Bill!B2*0.1", 1.0800000000000001)})
    assert own(freshened(theirs, OURS)[0]) == own(theirs)


def test_bringing_up_to_date_twice_is_doing_it_once():
    found, unshown = refreshed(book_with({"A1": ("=bill_total", 36), "A2": ("=AGGREGATE(9,6,Bill!B2:B4)", 36)}))
    assert freshened(found, OURS) == (found, unshown)


# ------------------------------------------------------------------------------------------ what cannot be worked out


@pytest.mark.parametrize("formula", [
    '=TEXT(bill_total,"0")',
    "=IFERROR(AGGREGATE(9,6,Bill!B2:B4),0)",
    "=SUM(Offer:Bill!B4)",
    "=INDIRECT(\"Bill!B6\")",
    "=OFFSET(Bill!B1,5,0)",
    "=bill_total+TODAY()*0",
    "=SUM(Bill!B2:INDEX(Bill!B2:B4,2))",
    "=SUM((Bill!B2,Bill!B3))",
    "=SUM(Bill!B2:B4 Bill!B3:B6)",
    "=bill_total+[1]Other!A1",
    "=twice_the_bill",
    "=1/(bill_total-75)",
    '="costs "&bill_total/7',
    '=IF(bill_total/7&""="10.7142857142857","same","other")',
    "=LEN(bill_total/7)",
])  # fmt: skip
def test_no_stale_number_is_left_where_the_engine_cannot_be_trusted(formula):
    def more(book, _):
        book.define_name("twice_the_bill", "=2*Bill!$B$6")

    theirs = book_with({"B2": (formula, 36), "C9": ("=B2+1", 37), "D1": ("=bill_total", 36)}, more)
    found, unshown = refreshed(theirs)
    assert unshown == ("Own!B2", "Own!C9")
    assert (result(found, "B2"), result(found, "C9"), result(found, "D1")) == (None, None, 75)
    stripped = re.sub(rb'(<c r="(?:B2|C9)"><f>[^<]*</f>)<v>[^<]*</v>', rb"\1", own(theirs))
    assert own(found) == stripped.replace(b"<v>36</v>", b"<v>75</v>")


def test_a_formula_that_fills_several_cells_is_emptied_with_them():
    def more(_, sheet):
        sheet.write_dynamic_array_formula("F1:F3", "=Bill!B2:B4", None, 10.8)
        sheet.write("F2", 12)
        sheet.write("F3", 13.2)

    found, unshown = refreshed(book_with({"A1": ("=F3*2", 26.4)}, more))
    assert unshown == ("Own!A1", "Own!F1")
    assert [result(found, cell) for cell in ("A1", "F1", "F2", "F3")] == [None] * 4


def test_an_error_that_stood_there_before_stays():
    theirs = book_with({"A1": ("=1/(Bill!B6-Bill!B6)", "#DIV/0!")})
    assert b't="e"' in own(theirs)
    assert refreshed(theirs) == (merge(theirs, made_book(rise=NEW_RISE), OURS), ())


def test_what_looks_at_a_formula_without_a_result_is_not_guessed():
    theirs = book_with({"A1": ("=2+3", 5), "A2": ("=A1+bill_total", 41)})
    theirs = edited(theirs, sheet_parts(theirs)["Own"], "<f>2+3</f><v>5</v>", "<f>2+3</f>")
    found, unshown = refreshed(theirs)
    assert (result(found, "A2"), unshown) == (None, ("Own!A2",))


def test_a_workbook_the_engine_cannot_load_leaves_no_stale_number(monkeypatch):
    monkeypatch.setattr("addin.refresh.freshening.results", lambda *_: None)
    found, unshown = refreshed(book_with({"A1": ("=bill_total", 36), "A2": ("=2+2", 4)}))
    assert (result(found, "A1"), result(found, "A2"), unshown) == (None, 4, ("Own!A1",))


# ------------------------------------------------------------------------------------------ charts


def chart_of(*ranges):
    def more(book, sheet):
        for place, reference in enumerate(ranges):
            chart = book.add_chart({"type": "column"})
            chart.add_series({"name": "Cost", "values": reference, "categories": "=Bill!$A$2:$A$4"})
            sheet.insert_chart(3, 8 * place, chart)

    return more


def kept_points(data, part="xl/charts/chart1.xml"):
    cache = re.search(rb"<c:numCache>.*?</c:numCache>", parts(data)[part])
    return re.findall(rb"<c:v>([^<]*)</c:v>", cache[0]) if cache else None


def test_a_chart_of_our_cells_keeps_their_new_values():
    theirs = book_with({"A1": ("=bill_total", 36)}, chart_of("=Bill!$B$2:$B$4"))
    part = parts(theirs)["xl/charts/chart1.xml"]
    cache = (b'<c:numCache><c:formatCode>General</c:formatCode><c:ptCount val="3"/><c:pt idx="0"><c:v>10.8</c:v></c:pt>'
             b'<c:pt idx="1"><c:v>12</c:v></c:pt><c:pt idx="2"><c:v>13.2</c:v></c:pt></c:numCache>')  # fmt: skip
    with_cache = re.sub(rb"(<c:val><c:numRef><c:f>[^<]*</c:f>)(<c:numCache>.*?</c:numCache>)?", rb"\g<1>" + cache, part)
    theirs = rewritten(theirs, {"xl/charts/chart1.xml": with_cache})
    found, _ = refreshed(theirs)
    assert kept_points(found) == [b"22.5", b"25", b"27.5"]
    untouched = parts(found)["xl/charts/chart1.xml"]
    for old, new in ((b"22.5", b"10.8"), (b">25<", b">12<"), (b"27.5", b"13.2")):
        untouched = untouched.replace(old, new)
    assert untouched == with_cache


def test_a_chart_of_their_cells_follows_them_and_others_keep_their_bytes():
    formulas = {f"A{row}": (f"=Bill!B{row}*10", 10) for row in (2, 3, 4)}
    more = chart_of("=Own!$A$2:$A$4", "=Mine!$C$1:$C$3")
    theirs = book_with(formulas, more)
    found, _ = refreshed(theirs)
    assert kept_points(found) == [b"225", b"250", b"275"]
    assert parts(found)["xl/charts/chart2.xml"] == parts(theirs)["xl/charts/chart2.xml"]


# ------------------------------------------------------------------------------------------ reading formulas


OUTLINE = Outline(titles=("own", "offer", "ground check", "bill"),
                  names={("total", ""): "Bill!$B$6", ("loop", ""): "loop+1",
                  ("total", "0"): "Own!$A$1", ("sum_of", ""): "SUM(Bill!$B$1:$B$3)"},
                  tables={"costs": Area("own", (1, 1, 9, 2))})  # fmt: skip


@pytest.mark.parametrize(("formula", "areas", "trusted"), [
    ("A1+$B$2", [("own", (1, 1, 1, 1)), ("own", (2, 2, 2, 2))], True),
    ("'Ground check'!A1:B3", [("ground check", (1, 1, 3, 2))], True),
    ("SUM(Bill!C:D,Bill!5:6)", [("bill", (1, 3, 1048576, 4)), ("bill", (5, 1, 6, 16384))], True),
    ("total", [("own", (1, 1, 1, 1))], True),
    ("sum_of*2", [("bill", (1, 2, 3, 2))], False),
    ("loop", [], False),
    ("unknown_name", [], False),
    ("costs[Cost]", [("own", (1, 1, 9, 2))], True),
    ("costs[[#This Row],[Cost]]*2", [("own", (1, 1, 9, 2))], True),
    ("SUM(costs[#All])", [("own", (1, 1, 9, 2))], False),
    ('"Bill!A1"&"it""s A1"', [], True),
    ("SUM(Offer:Bill!A1)", [("offer", (1, 1, 1, 1)), ("ground check", (1, 1, 1, 1)), ("bill", (1, 1, 1, 1))], False),
    ("LOG10(A1)", [("own", (1, 1, 1, 1))], True),
    ("_xlfn.IFNA(A1,2)", [("own", (1, 1, 1, 1))], True),
    ("1E5+2.5e-3", [], True),
    ("IF(TRUE,1,2)", [], True),
    ("SUM({1,2;3,4})", [], False),
    ("Gone!A1", [("gone", (1, 1, 1, 1))], False),
    ("Offer!#REF!", [], False),
    ("-A1%+(A2)", [("own", (1, 1, 1, 1)), ("own", (2, 1, 2, 1))], True),
])  # fmt: skip
def test_a_formula_rests_on_what_its_text_names(formula, areas, trusted):
    uses = OUTLINE.uses(formula, "own")
    assert ([(area.sheet, area.rect) for area in uses.areas], uses.trusted) == (areas, trusted)


# ------------------------------------------------------------------------------------------ against the second engine


SAMPLES = """
ABS(-A2) AND(A1>1,A2>1) AVERAGE(A1:A6) AVERAGEIF(A1:A6,">2") AVERAGEIFS(A1:A6,B1:B6,"x",A1:A6,">1") CEILING(A1,0.5)
CHOOSE(2,A1,A3) COLUMN(C1) COLUMNS(A1:C1) CONCATENATE(B1,"-",B2) COS(A1) COUNT(A1:B6) COUNTA(A1:B6) COUNTBLANK(A1:B8)
COUNTIF(B1:B6,"x") COUNTIFS(B1:B6,"x",A1:A6,"<5") DATE(2026,2,31) DAY(46000.75) EDATE(46053,1) EOMONTH(46053,-2)
EXACT(B1,B3) EXP(A1) FALSE() FLOOR(A1,0.5) HLOOKUP("k",C1:D3,3,FALSE) IF(A1>A2,"more",A2) IFERROR(1/0,A3) IFNA(NA(),A4)
INDEX(A1:B6,3,1) INT(-A1) ISBLANK(A9) ISERROR(A1/0) ISNA(A1) ISNUMBER(B1) ISTEXT(B1) LARGE(A1:A6,2) LEFT(B4,3) LEN(B4)
LN(A2) LOG10(A2) LOOKUP(4,A1:A6) LOWER(B4) MATCH(7,A1:A6,1) MAX(A1:A6) MID(B4,2,4) MIN(A1:A6) MOD(-A2,3) MONTH(46000)
NOT(A1>A2) NPV(0.08,A1:A6) OR(A1>A2,A2>A1) PI() PMT(0.09/12,36,-A6) POWER(A1,3) PRODUCT(A1:A3) RANK(A3,A1:A6) REPT(B1,3)
RIGHT(B4,2) ROUND(2.675*A2,2) ROUNDDOWN(-A1,1) ROUNDUP(A1,1) ROW(A7) ROWS(A1:A6) SIGN(-A1) SIN(A1) SMALL(A1:A6,2)
SQRT(A2) SUBSTITUTE(B4,"Ra","ra") SUM(A1:B6) SUMIF(B1:B6,"x",A1:A6) SUMIFS(A1:A6,B1:B6,"<>x") SUMPRODUCT(A1:A6,A1:A6)
TAN(A1) TRIM(B5) TRUE() UPPER(B4) VALUE("12.5") VLOOKUP(4,A1:B6,2) WORKDAY(46053,7) YEAR(46053)
"""
NOT_LISTED = {"NA()": "an error on purpose"}


def engine_sheet(formulas):
    def more(book):
        sheet = book.add_worksheet("Own")
        for row, value in enumerate((1.25, 2, 4, 7, 9.5, 1200)):
            sheet.write(row, 0, value)
        for row, value in enumerate(("x", "y", "X", "Raising", "  two  words ", "x")):
            sheet.write(row, 1, value)
        for row, pair in enumerate((("j", "k"), (1, 2), (3, 4))):
            sheet.write_row(row, 2, pair)
        for row, formula in enumerate(formulas):
            sheet.write_formula(row, 9, f"={formula}", None, 0)

    return plain_book(more)


@pytest.fixture(scope="module")
def samples():
    found = re.findall(r'\S(?:[^\s"]|"[^"]*")*', SAMPLES)
    assert {re.match(r"[A-Z0-9]+", sample)[0] for sample in found} == TRUSTED
    return found


@libreoffice
def test_every_trusted_function_is_worked_out_as_the_second_engine_does(samples):
    data = engine_sheet([re.sub(r"\bIFNA\(", "_xlfn.IFNA(", sample) for sample in samples])
    second, first = libreoffice_values(data), IronCalc(data)
    strange = {}
    for row, sample in enumerate(samples, start=1):
        one, other = first.value("Own", f"J{row}"), second["Own", f"J{row}"]
        serial = getattr(other, "toordinal", None)
        other = serial() - 693594 if serial else other
        if not alike(one, other, 1e-12):
            strange[sample] = one, other
    assert strange == {}


def test_a_text_of_a_half_is_why_text_is_not_trusted():
    # A spreadsheet program shows 13. Once the engine does so too, TEXT may be trusted.
    data = engine_sheet(['TEXT(12.5,"0")'])
    assert IronCalc(data).value("Own", "J1") == "12"
    assert "TEXT" not in references.TRUSTED


@libreoffice
def test_fresh_results_are_those_of_an_independent_recalculation(demo_issue):
    """The demo house in an office's workbook with formulas on its figures, stale before."""
    made = demo_issue.read_bytes()
    formulas = {
        "A1": "=floor_area*2", "A2": "=SUM(Bill!A1:H80)", "A3": "=ROUND(A1/3,2)",
        "A4": "=IF(rise_in_use>0.5,\"high\",\"low\")", "A5": "=COUNTA(Checks!A1:A200)",
        "A6": "=ROUND(VLOOKUP(\"Rise\",Offer!A6:B20,2,FALSE),3)&\" m\"", "A7": "=SUMIF(Checks!A:A,\"W*\",Checks!E:E)",
        "A8": "=A1>A2", "A9": "=MAX(Loads!B8:G60)", "A10": "=INDEX(Rise!B6:B30,2)", "A11": "=Offer!B7",
        "A12": "=A2*1.18",
    }  # fmt: skip

    def more(book):
        sheet = book.add_worksheet("Own")
        for cell, formula in formulas.items():
            sheet.write_formula(cell, formula, None, -1)

    merged = merge(plain_book(more), made, sheet_parts(made))
    found, unshown = freshened(merged, list(sheet_parts(made)))
    second = libreoffice_values(found)
    fresh = load_workbook(io.BytesIO(found), data_only=True)["Own"]
    assert unshown == ()
    assert [cell for cell in formulas if not alike(fresh[cell].value, second["Own", cell], 1e-9)] == []
    assert not [cell for cell in formulas if isinstance(fresh[cell].value, XlError)]
    assert len(SheetCells.of(own(found)).cells) == len(formulas)
