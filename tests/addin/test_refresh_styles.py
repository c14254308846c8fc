"""Our looks in lists of looks as other programs write them."""

import io
import re

import pytest
from lxml import etree
from openpyxl import load_workbook

from addin.refresh.merging import merge
from tests.made_books import ALL, OURS, made_book
from tests.user_books import edited, faults_of_package, parts, plain_book, rewritten, user_book

pytestmark = pytest.mark.filterwarnings("ignore:.* is not supported and will be removed")
STYLES = "xl/styles.xml"
MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"


def styles(data):
    return parts(data)[STYLES]


def with_styles(content):
    return rewritten(user_book(), {STYLES: content})


def counts(content):
    """Section -> records it says it has, records it has."""
    root = etree.fromstring(content)
    return {etree.QName(s).localname: (int(s.get("count")), len(s.findall("*"))) for s in root if s.get("count")}


def test_every_section_counts_its_records():
    found = counts(styles(merge(user_book(), made_book(), ALL)))
    assert {said == there for said, there in found.values()} == {True}
    assert found["cellXfs"] > counts(styles(user_book()))["cellXfs"]


def test_only_records_at_the_end_are_new():
    before, after = (etree.fromstring(styles(data)) for data in (user_book(), merge(user_book(), made_book(), ALL)))
    for section in before:
        if section.get("count"):
            old = [etree.tostring(item) for item in section]
            assert [etree.tostring(item) for item in after.find(section.tag)][: len(old)] == old


def test_three_thousand_looks_and_what_else_a_list_holds_stay():
    many = "".join(f'<xf numFmtId="{n % 11}" fontId="0" fillId="0" borderId="0" xfId="0" applyAlignment="1"><alignment '
                   f'indent="{n}"/></xf>' for n in range(3000))  # fmt: skip
    content = styles(user_book()).decode()
    content = re.sub(r'<cellXfs count="(\d+)">', lambda m: f'<cellXfs count="{int(m[1]) + 3000}">', content)
    content = content.replace("</cellXfs>", many + "</cellXfs>")
    kept = '<extLst><ext xmlns:odd="urn:odd" uri="{AB}"><odd:thing deep="1"/></ext></extLst></styleSheet>'
    content = re.sub("<extLst>.*</extLst>", "", content).replace("</styleSheet>", kept)
    result = merge(with_styles(content.encode()), made_book(), ALL)
    assert many.encode() in styles(result)
    assert styles(result).endswith(kept.encode())
    assert merge(result, made_book(), OURS) is result


def test_prefixes_marks_and_the_first_line_stay():
    content = styles(user_book()).decode()
    content = re.sub(r"<\?xml.*?\?>\s*", "", content).replace("xmlns=", "xmlns:q=", 1)
    content = re.sub(r"<(/?)(?=[a-zA-Z])(?![a-z0-9]+:)", r"<\1q:", content)
    content = content.replace('main">', 'main" xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006" '
                              'xmlns:odd="urn:odd" mc:Ignorable="odd">', 1)  # fmt: skip
    start = b"\xef\xbb\xbf<?xml version='1.0' encoding='utf-8' standalone='no' ?>\r\n"
    result = styles(merge(with_styles(start + content.encode()), made_book(), ALL))
    assert result.startswith(start + content[:200].encode())
    assert b'mc:Ignorable="odd"' in result
    assert result.count(b"xmlns") == content.count("xmlns")
    assert b"<q:cellStyle " in result


def test_a_list_in_another_encoding_stays_in_it():
    content = re.sub(r"<\?xml.*?\?>\s*", "", styles(user_book()).decode())
    other = ('<?xml version="1.0" encoding="UTF-16" standalone="yes"?>' + content).encode("utf-16")
    result = merge(with_styles(other), made_book(), ALL)
    assert styles(result).decode("utf-16").count("pb title") == 1
    assert merge(result, made_book(), OURS) is result


def test_a_named_style_that_the_user_has_changed_stays_so_and_our_cells_follow_it():
    book = merge(user_book(), made_book(title_colour="1F2A36"), ALL)
    edit = edited(book, STYLES, 'rgb="001F2A36"', 'rgb="FFC00000"')
    result = merge(edit, made_book(title_colour="1F2A36"), OURS)
    assert load_workbook(io.BytesIO(result))["Offer"]["A1"].font.color.rgb == "FFC00000"
    assert counts(styles(result)) == counts(styles(book))


def test_the_plain_style_has_its_name_in_the_users_language():
    theirs = edited(user_book(), STYLES, '<cellStyle name="Normal"', '<cellStyle name="Standard"')
    found = styles(merge(theirs, made_book(), ALL))
    assert re.findall(rb'<cellStyle name="([^"]*)"', found) == [b"Standard", b"pb title", b"pb figure"]


def test_an_opaque_colour_is_the_same_colour():
    book = merge(user_book(), made_book(), ALL)
    # Another program saves the colours we wrote in its own way.
    saved = rewritten(book, {STYLES: styles(book).replace(b'rgb="00', b'rgb="FF')})
    assert styles(merge(saved, made_book(), OURS)) == styles(saved)


def test_a_number_format_of_ours_gets_a_number_that_is_free():
    def more(book):
        sheet = book.add_worksheet("Formats")
        for number in range(5):
            sheet.write(number, 0, 1, book.add_format({"num_format": f'0.0"unit {number}"'}))

    result = merge(user_book(more=more), made_book(), ALL)
    formats = set(re.findall(rb'<numFmt numFmtId="(\d+)" formatCode="([^"]*)"', styles(result)))
    assert len(formats) > 6
    assert len({number for number, _ in formats}) == len(formats)
    assert load_workbook(io.BytesIO(result))["Bill"]["B2"].number_format == "[$-4009]#,##0.00"


@pytest.mark.parametrize("missing", ["cellStyles", "cellStyleXfs", "dxfs", "numFmts"])
def test_a_missing_section_is_made_in_its_place(missing):
    content = re.sub(rf"<{missing}[ >].*?</{missing}>|<{missing}[^>]*/>", "", styles(plain_book()).decode())
    result = merge(rewritten(plain_book(), {STYLES: content.encode()}), made_book(), ALL)
    order = [etree.QName(item).localname for item in etree.fromstring(styles(result))]
    known = ["numFmts", "fonts", "fills", "borders", "cellStyleXfs", "cellXfs", "cellStyles", "dxfs", "tableStyles"]
    assert [name for name in order if name in known] == known
    assert load_workbook(io.BytesIO(result))["Offer"]["A1"].font.sz == 14
    assert merge(result, made_book(), OURS) is result


def test_a_workbook_without_any_list_of_looks_gets_one():
    theirs = rewritten(plain_book(), {STYLES: None})
    theirs = edited(theirs, "[Content_Types].xml", re.search(rb'<Override PartName="/xl/styles.xml"[^>]*/>', parts(
        theirs)["[Content_Types].xml"])[0], "")  # fmt: skip
    rels = "xl/_rels/workbook.xml.rels"
    relation = re.search(rb'<Relationship Id="\w+" Type="[^"]*/styles"[^>]*/>', parts(theirs)[rels])
    theirs = edited(theirs, rels, relation[0], "")
    result = merge(theirs, made_book(), ALL)
    assert faults_of_package(result) == []
    assert merge(result, made_book(), OURS) is result
    assert load_workbook(io.BytesIO(result))["Offer"]["A1"].font.sz == 14
