"""Our sheets merged into workbooks of the user's: what changes, what does not, what is refused."""

import io
import re
import zipfile

import pytest
from lxml import etree
from openpyxl import load_workbook
from openpyxl.workbook.defined_name import DefinedName

from addin.estimating import OURS as RESULT_SHEETS
from addin.marks import NAME_NOTE, SHEET_MARK
from addin.refresh.merging import merge
from addin.refresh.package import CannotRefresh
from tests.engines import IronCalc, cached, libreoffice, libreoffice_values
from tests.issued import same_value
from tests.made_books import ALL, OURS, made_book
from tests.user_books import edited, faults_of_package, parts, plain_book, rewritten, sheet_parts, user_book

pytestmark = pytest.mark.filterwarnings("ignore:.* is not supported and will be removed")
"""What openpyxl says of parts of the user's workbook when a test looks into it."""

SHARED = {"[Content_Types].xml", "xl/_rels/workbook.xml.rels", "xl/workbook.xml", "xl/styles.xml"}
"""Parts that list what is in the workbook; ours has to stand in them too."""


def local_names(data):
    """(title of its sheet, name) -> what it stands for."""
    book = load_workbook(io.BytesIO(data))
    return {(sheet.title, name): item.attr_text for sheet in book.worksheets
            for name, item in sheet.defined_names.items()}  # fmt: skip


def names(data):
    return {name: item.attr_text for name, item in load_workbook(io.BytesIO(data)).defined_names.items()}


@pytest.fixture(scope="module")
def issued(demo_issue):
    return demo_issue.read_bytes()


@pytest.fixture(scope="module")
def merged(issued):
    """The demo house in a workbook of the user's that had no sheet of ours."""
    return merge(user_book(sheets=2), issued, sheet_parts(issued))


# ------------------------------------------------------------------------------------------ what stays


@pytest.mark.parametrize("macros", [False, True])
def test_every_part_of_theirs_keeps_its_bytes(issued, macros):
    theirs = user_book(macros=macros)
    first = merge(theirs, issued, sheet_parts(issued))
    before, after = parts(theirs), parts(first)
    assert {name for name in before if before[name] != after.get(name)} == SHARED
    again = merge(first, made_again(issued), RESULT_SHEETS)
    assert {name for name in before if before[name] != parts(again).get(name)} == SHARED


def made_again(issued):
    """The issued workbook with another figure, as after a change of an entry."""
    return edited(issued, sheet_parts(issued)["Offer"], "Offer</t>", "Offer, second</t>")


def test_only_our_sheets_change_at_the_second_refresh(merged, issued):
    again = merge(merged, made_again(issued), RESULT_SHEETS)
    before, after = parts(merged), parts(again)
    assert {name for name in after if before.get(name) != after[name]} == {sheet_parts(merged)["Offer"]}
    assert set(before) == set(after)


def test_the_package_is_whole(merged):
    assert faults_of_package(user_book(macros=True)) == []
    assert faults_of_package(merged) == []


def test_order_dates_and_remark_of_the_zip_stay(issued):
    theirs = user_book()
    stream = io.BytesIO(theirs)
    with zipfile.ZipFile(stream, "a") as file:
        file.comment = b"kept by the office"
    result = merge(stream.getvalue(), issued, sheet_parts(issued))
    with zipfile.ZipFile(io.BytesIO(theirs)) as old, zipfile.ZipFile(io.BytesIO(result)) as new:
        assert new.comment == b"kept by the office"
        assert new.namelist()[: len(old.namelist())] == old.namelist()
        assert [i.date_time for i in new.infolist()][: len(old.namelist())] == [i.date_time for i in old.infolist()]


# ------------------------------------------------------------------------------------------ what comes


def test_our_sheets_say_what_the_made_workbook_says(merged, issued):
    for only_values in (False, True):
        made, found = (load_workbook(io.BytesIO(data), data_only=only_values) for data in (issued, merged))
        for sheet in made:
            expected = {cell.coordinate: cell.value for row in sheet.iter_rows() for cell in row}
            other = {cell.coordinate: cell.value for row in found[sheet.title].iter_rows() for cell in row}
            assert expected == other, sheet.title


def test_our_sheets_look_as_in_the_made_workbook(merged, issued):
    made, found = load_workbook(io.BytesIO(issued)), load_workbook(io.BytesIO(merged))
    pairs = {
        (cell.style_id, other.style_id): (cell, other)
        for sheet in made
        for row in sheet.iter_rows()
        for cell in row
        for other in [found[sheet.title][cell.coordinate]]
    }
    assert len(pairs) > 30
    strange = [
        f"{cell.parent.title}!{cell.coordinate}: {look}"
        for cell, other in pairs.values()
        for look in ("font", "fill", "border", "alignment", "protection", "number_format", "style")
        if repr(getattr(cell, look)) != repr(getattr(other, look))
    ]
    assert strange == []


def test_rules_keep_their_shade(merged, issued):
    def shades(data):
        return [(rule.formula, rule.dxf.fill.bgColor.rgb, rule.dxf.font.b if rule.dxf.font else None)
                for area in load_workbook(io.BytesIO(data))["Checks"].conditional_formatting
                for rule in area.rules]  # fmt: skip

    assert shades(merged) == shades(issued)
    assert len(shades(issued)) > 3


def test_an_engine_opens_it_and_finds_our_results(merged, issued):
    ours = {cell: value for cell, value in cached(issued).items() if cell[0] in RESULT_SHEETS}
    assert len(ours) > 1000
    found = IronCalc(merged).values(ours)
    assert [cell for cell in ours if not same_value(ours[cell], found[cell])] == []


@libreoffice
def test_the_second_engine_opens_it_and_finds_our_results_and_theirs(issued):
    result = merge(user_book(), issued, sheet_parts(issued))
    shown = libreoffice_values(result)
    ours = {cell: value for cell, value in cached(issued).items() if cell[0] in RESULT_SHEETS}
    assert [cell for cell in ours if not same_value(ours[cell], shown[cell])] == []
    assert shown["Costs", "D3"] == 7 * 120
    assert shown["Photos & notes", "A1"] == "Front, from the road"


# ------------------------------------------------------------------------------------------ twice is once


def test_a_second_merge_changes_nothing_at_all(merged, issued):
    assert merge(merged, issued, RESULT_SHEETS) is merged


def test_a_workbook_just_made_is_left_as_it_is(issued):
    assert merge(issued, issued, RESULT_SHEETS) is issued
    rich = made_book(chart=True, table=True, note=True)
    assert merge(rich, rich, OURS) is rich


def test_any_text_may_stand_in_a_made_sheet():
    def more(book):
        book["Offer"]["A9"] = 'room <c t="s" r="A1"> s="4" <sheetData dxfId="0"'

    result = merge(user_book(), made_book(more=more), ALL)
    assert load_workbook(io.BytesIO(result))["Offer"]["A9"].value == 'room <c t="s" r="A1"> s="4" <sheetData dxfId="0"'


def test_a_made_workbook_of_another_program_is_an_error_of_ours():
    with pytest.raises(ValueError, match="is not as openpyxl writes it"):  # its texts are shared
        merge(made_book(), plain_book(), ["Mine"])


def test_parts_of_ours_keep_their_places_in_every_list():
    """A chart and a note before other sheets of ours: gone and come again, they stand where they stood."""
    rich = made_book(chart=True, note=True)
    first = merge(plain_book(), rich, (*OURS, "Job"))
    assert b"drawing" in parts(first)["[Content_Types].xml"].rpartition(b"/xl/worksheets/sheet4.xml")[0]
    assert merge(first, rich, OURS) is first
    second = merge(first, made_book(rise=3, chart=True, note=True), OURS)
    assert parts(second)["[Content_Types].xml"] == parts(first)["[Content_Types].xml"]


@pytest.mark.parametrize("extra", [{}, {"chart": True}, {"table": True}, {"note": True},
                                   {"chart": True, "table": True, "note": True}])  # fmt: skip
def test_what_hangs_on_our_sheets_comes_and_goes_without_a_trace(extra):
    plain, rich = made_book(), made_book(**extra)
    first = merge(user_book(), plain, ALL)
    second = merge(first, rich, OURS)
    assert merge(second, rich, OURS) is second
    assert faults_of_package(second) == []
    third = merge(second, plain, OURS)
    assert parts(third) == parts(first)


def test_a_chart_of_ours_comes_under_a_name_that_is_free():
    result = merge(user_book(), made_book(chart=True, table=True, note=True), ALL)
    new = set(parts(result)) - set(parts(user_book()))
    assert {"xl/charts/chart3.xml", "xl/drawings/drawing4.xml", "xl/tables/table2.xml"} <= new
    assert b"'Bill'!$B$2:$B$4" in parts(result)["xl/charts/chart3.xml"]
    numbers = [etree.fromstring(content).get("id") for name, content in parts(result).items() if "/tables/" in name]
    assert len(set(numbers)) == len(numbers) == 2


def test_looks_do_not_pile_up_over_many_refreshes():
    book = merge(user_book(), made_book(), ALL)
    first = parts(book)["xl/styles.xml"]
    for rise in (1.3, 1.4, 1.5, 1.2):
        book = merge(book, made_book(rise=rise), OURS)
    assert parts(book)["xl/styles.xml"] == first


# ------------------------------------------------------------------------------------------ put onto our sheets


OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"


def relations(*targets):
    """The part that points at some parts, by kind and way."""
    items = "".join(f'<Relationship Id="rId{number}" Type="{OFFICE}/{kind}" Target="{way}"/>'
                    for number, (kind, way) in enumerate(targets, start=1))  # fmt: skip
    return (
        f'<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">{items}</Relationships>'
    )


def with_logo(data, title):
    """A workbook whose user has put a picture and a note onto a sheet."""
    there, source = parts(data), parts(user_book())
    assert b"blip" in source["xl/drawings/drawing2.xml"]
    part = sheet_parts(data)[title]
    drawn = f'<drawing xmlns:r="{OFFICE}" r:id="rId1"/><legacyDrawing xmlns:r="{OFFICE}" r:id="rId2"/></worksheet>'
    office = "application/vnd.openxmlformats-officedocument."
    types = "".join(f'<Override PartName="/xl/{name}" ContentType="{office}{kind}+xml"/>' for name, kind in (
        ("drawings/drawing70.xml", "drawing"), ("comments70.xml", "spreadsheetml.comments")))  # fmt: skip
    return rewritten(data, {
        part: there[part].replace(b"</worksheet>", drawn.encode()),
        f"xl/worksheets/_rels/{part.rpartition('/')[2]}.rels": relations(
            ("drawing", "../drawings/drawing70.xml"), ("vmlDrawing", "../drawings/vmlDrawing70.vml"),
            ("comments", "../comments70.xml")).encode(),
        "xl/drawings/drawing70.xml": source["xl/drawings/drawing2.xml"],
        "xl/drawings/_rels/drawing70.xml.rels": relations(("image", "../media/logo.png")).encode(),
        "xl/media/logo.png": source["xl/media/image1.png"] + b"logo",
        "xl/drawings/vmlDrawing70.vml": source["xl/drawings/vmlDrawing1.vml"],
        "xl/comments70.xml": source["xl/comments1.xml"],
        "[Content_Types].xml": there["[Content_Types].xml"].replace(b"</Types>", f"{types}</Types>".encode()),
    })  # fmt: skip


THEIRS = {"xl/drawings/drawing70.xml", "xl/drawings/_rels/drawing70.xml.rels", "xl/media/logo.png",
          "xl/drawings/vmlDrawing70.vml", "xl/comments70.xml"}  # fmt: skip


def test_a_picture_and_a_note_that_the_user_put_onto_our_sheet_stay_when_it_is_made_anew():
    theirs = with_logo(merge(user_book(), made_book(), ALL), "Offer")
    assert faults_of_package(theirs) == []
    result = merge(theirs, made_book(rise=2.5), OURS)
    assert faults_of_package(result) == []
    assert {name: parts(result)[name] for name in THEIRS} == {name: parts(theirs)[name] for name in THEIRS}
    sheet = load_workbook(io.BytesIO(result), data_only=True)["Offer"]
    assert (sheet["C2"].comment.text, sheet["B3"].value) == ("agreed by telephone", 5)
    assert b"<drawing " in parts(result)[sheet_parts(result)["Offer"]]
    assert merge(result, made_book(rise=2.5), OURS) is result


@pytest.mark.parametrize(("extra", "goes"), [
    ({"chart": True}, {"xl/drawings/drawing70.xml", "xl/drawings/_rels/drawing70.xml.rels", "xl/media/logo.png"}),
    ({"table": True}, set()),
])  # fmt: skip
def test_what_the_made_sheet_has_of_its_own_comes_before_what_was_put_onto_it(extra, goes):
    theirs = with_logo(merge(user_book(), made_book(), ALL), "Bill")
    result = merge(theirs, made_book(**extra), OURS)
    assert faults_of_package(result) == []
    assert THEIRS - set(parts(result)) == goes
    tags = [etree.QName(item).localname for item in etree.fromstring(parts(result)[sheet_parts(result)["Bill"]])]
    assert [tag for tag in tags if tag in ("drawing", "legacyDrawing", "tableParts")] == [
        "drawing", "legacyDrawing", *(["tableParts"] if "table" in extra else [])]  # fmt: skip
    assert merge(result, made_book(**extra), OURS) is result


# ------------------------------------------------------------------------------------------ sheets


def moved(data, title, place):
    """A workbook whose user has moved one tab; names of single sheets go with their sheets."""
    book = parts(data)["xl/workbook.xml"].decode()
    sheets = re.findall(r"<sheet [^>]*/>", book)
    order = list(range(len(sheets)))
    order.insert(place, order.pop(next(i for i, sheet in enumerate(sheets) if f'name="{title}"' in sheet)))
    head, tail = book.split(sheets[0], 1)[0], book.split(sheets[-1], 1)[1]
    tail = re.sub(r'localSheetId="(\d+)"', lambda m: f'localSheetId="{order.index(int(m[1]))}"', tail)
    return rewritten(data, {"xl/workbook.xml": (head + "".join(sheets[i] for i in order) + tail).encode()})


def test_order_numbers_and_hiding_of_tabs_stay_the_users():
    book = moved(merge(user_book(), made_book(), ALL), "Bill", 0)
    book = edited(book, "xl/workbook.xml", 'name="Offer"', 'name="Offer" state="hidden"')
    listed = re.findall(rb"<sheet [^>]*/>", parts(book)["xl/workbook.xml"])
    result = merge(book, made_book(rise=2.5), OURS)
    assert re.findall(rb"<sheet [^>]*/>", parts(result)["xl/workbook.xml"]) == listed
    assert load_workbook(io.BytesIO(result), data_only=True)["Bill"]["B6"].value == 75


def test_names_of_single_sheets_follow_their_sheets():
    book = moved(merge(user_book(), made_book(), ALL), "Bill", 0)
    result = merge(book, made_book(rise=2.5), OURS)
    found = local_names(result)
    assert found["Bill", SHEET_MARK] == '"made by plinthbook"'
    assert found["Photos & notes", "Remarks"] == "'Photos & notes'!$B$9:$B$12"
    loaded = load_workbook(io.BytesIO(result))
    assert (loaded["Bill"].print_title_rows, loaded["Costs"].print_area) == ("$1:$1", "'Costs'!$A$1:$H$40")


@pytest.mark.parametrize("ours_was_chosen", [False, True])
def test_the_tab_the_user_chose_stays_chosen_and_no_other_is(ours_was_chosen):
    book = merge(user_book(), made_book(), ALL)
    part = sheet_parts(book)["Offer"]
    if ours_was_chosen:
        book = edited(book, sheet_parts(book)["Costs"], ' tabSelected="1"', "")
        book = edited(book, part, "<sheetView ", '<sheetView tabSelected="1" ')
    chosen = edited(made_book(rise=9), "xl/worksheets/sheet2.xml", "<sheetView ", '<sheetView tabSelected="1" ')
    result = merge(book, chosen, OURS)
    selected = {title for title, name in sheet_parts(result).items() if b'tabSelected="1"' in parts(result)[name]}
    assert selected - {"Hire chart"} == ({"Offer"} if ours_was_chosen else {"Costs"})


@pytest.mark.parametrize("title", ["Offer", "offer", "Bill"])
def test_a_sheet_of_theirs_with_a_title_of_ours_is_refused_by_name(title):
    theirs = user_book(more=lambda book: book.add_worksheet(title))
    with pytest.raises(CannotRefresh, match=f"The sheet {title} was not made by plinthbook .* rename yours"):
        merge(theirs, made_book(), ALL)


def test_a_chart_sheet_with_a_title_of_ours_is_refused():
    theirs = edited(user_book(), "xl/workbook.xml", 'name="Hire chart"', 'name="Offer"')
    with pytest.raises(CannotRefresh, match="The sheet Offer was not made by plinthbook"):
        merge(theirs, made_book(), ALL)


def test_a_sheet_that_would_be_missing_in_the_end_is_an_error_of_the_program():
    with pytest.raises(ValueError, match="no sheet Job"):
        merge(user_book(), made_book(), OURS)
    with pytest.raises(ValueError, match="no sheet Rise"):
        merge(user_book(), made_book(), (*ALL, "Rise"))


# ------------------------------------------------------------------------------------------ names


def test_names_of_theirs_stay_and_ours_follow_the_made_workbook():
    def renamed(book):
        book.defined_names["bill_total"] = DefinedName("bill_total", attr_text="Bill!$B$4")

    book = merge(user_book(), made_book(), ALL)
    result = merge(book, made_book(more=renamed), OURS)
    assert names(book)["bill_total"] == "Bill!$B$6"
    assert names(result) == names(book) | {"bill_total": "Bill!$B$4"}
    assert names(result)["DayRate"] == "Costs!$C$2"


def test_a_name_of_ours_that_is_no_longer_needed_goes_and_a_name_of_theirs_on_our_sheet_stays():
    def more(book):
        book.defined_names["stage_two"] = DefinedName("stage_two", attr_text="Bill!$B$3")

    book = merge(user_book(), made_book(more=more), ALL)
    book = edited(book, "xl/workbook.xml", "</definedNames>",
                  "<definedName name=\"OurShare\">Bill!$B$3</definedName></definedNames>")  # fmt: skip
    result = merge(book, made_book(), OURS)
    assert "stage_two" in names(book)
    assert "stage_two" not in names(result)
    assert names(result)["OurShare"] == "Bill!$B$3"


def test_every_name_of_ours_says_who_made_it(issued):
    made = load_workbook(io.BytesIO(issued))
    assert {item.comment for item in made.defined_names.values()} == {NAME_NOTE}
    assert {sheet.title for sheet in made if SHEET_MARK in sheet.defined_names} == set(RESULT_SHEETS)


@pytest.mark.parametrize("meaning", ["Costs!$B$2", "5", "Bill!$B$6+Costs!$B$2", "'[1]Other'!$A$1"])
def test_a_name_of_theirs_that_we_need_is_refused_by_name(meaning):
    theirs = edited(user_book(), "xl/workbook.xml", "<definedNames>",
                    f'<definedNames><definedName name="Bill_Total">{meaning}</definedName>')  # fmt: skip
    with pytest.raises(CannotRefresh, match=r"The name Bill_Total is yours .* rename yours in the name manager"):
        merge(theirs, made_book(), ALL)


def test_a_broken_name_of_ours_is_mended():
    book = merge(user_book(), made_book(), ALL)
    broken = edited(book, "xl/workbook.xml", ">Bill!$B$6<", ">#REF!<")
    assert names(merge(broken, made_book(), OURS)) == names(book)


def test_a_table_of_theirs_with_a_name_we_need_is_refused():
    def more(book):
        book.add_worksheet("More").add_table("A1:B3", {"name": "Bill_total"})

    with pytest.raises(CannotRefresh, match="Your table Bill_total has a name that plinthbook needs"):
        merge(user_book(more=more), made_book(), ALL)
    clash = user_book(more=lambda book: book.add_worksheet("More").add_table("A1:B3", {"name": "stages"}))
    with pytest.raises(CannotRefresh, match="Your table Stages has a name that plinthbook needs"):
        merge(clash, made_book(table=True), ALL)


# ------------------------------------------------------------------------------------------ calculation


def test_the_order_of_calculation_goes_and_everything_is_worked_out_when_opened():
    theirs = user_book()
    theirs = edited(theirs, "[Content_Types].xml", "</Types>",
                    '<Override PartName="/xl/calcChain.xml" ContentType="application/vnd.'
                    'openxmlformats-officedocument.spreadsheetml.calcChain+xml"/></Types>')  # fmt: skip
    theirs = edited(theirs, "xl/_rels/workbook.xml.rels", "</Relationships>",
                    '<Relationship Id="rId77" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/'
                    'calcChain" Target="calcChain.xml"/></Relationships>')  # fmt: skip
    theirs = rewritten(theirs, {"xl/calcChain.xml": b'<calcChain xmlns="urn:none"><c r="A1" i="1"/></calcChain>'})
    theirs = edited(theirs, "xl/workbook.xml", ' fullCalcOnLoad="1"', ' calcMode="manual"')
    result = merge(theirs, made_book(), ALL)
    assert "xl/calcChain.xml" not in parts(result)
    assert faults_of_package(result) == []
    settings = etree.fromstring(parts(result)["xl/workbook.xml"]).find("{*}calcPr")
    assert (settings.get("fullCalcOnLoad"), settings.get("calcMode")) == ("1", "manual")


def test_a_workbook_that_says_nothing_of_calculation_or_names_gets_both_in_their_places():
    book = parts(user_book())["xl/workbook.xml"].decode()
    book = re.sub(r"<definedNames>.*</definedNames>|<calcPr[^>]*/>", "", book)
    book = book.replace("</workbook>", '<extLst><ext uri="{1}"/></extLst></workbook>')
    result = merge(rewritten(user_book(), {"xl/workbook.xml": book.encode()}), made_book(), ALL)
    tags = [etree.QName(item).localname for item in etree.fromstring(parts(result)["xl/workbook.xml"])]
    assert tags[-4:] == ["sheets", "definedNames", "calcPr", "extLst"]


# ------------------------------------------------------------------------------------------ refused files


def test_days_counted_from_1904_are_refused():
    theirs = edited(user_book(), "xl/workbook.xml", "<workbookPr ", '<workbookPr date1904="1" ')
    with pytest.raises(CannotRefresh, match="It counts days from 1904; turn that off"):
        merge(theirs, made_book(), ALL)


def test_the_strict_kind_of_file_is_refused():
    theirs = edited(user_book(), "xl/workbook.xml", "http://schemas.openxmlformats.org/spreadsheetml/2006/main",
                    "http://purl.oclc.org/ooxml/spreadsheetml/main")  # fmt: skip
    with pytest.raises(CannotRefresh, match='saved as "Strict Open XML"; save it as the usual kind'):
        merge(theirs, made_book(), ALL)
