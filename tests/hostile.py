"""Workbooks that mean harm, or that something has happened to: built byte by byte, each for one weakness of a reader.

Every one stands on the blank survey, so that a reader which is not stopped goes to work on it.
"""

import io
import struct
import zipfile
import zlib
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

SURVEY = (Path(__file__).parents[1] / "templates" / "survey.xlsx").read_bytes()
SHEET, BOOK, RELATIONS = "xl/worksheets/sheet5.xml", "xl/workbook.xml", "xl/_rels/workbook.xml.rels"
STYLES, TYPES, STRINGS = "xl/styles.xml", "[Content_Types].xml", "xl/sharedStrings.xml"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
SPREADSHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml"
WHOLE = "A1:XFD1048576"
DEFAULT = f'<Default Extension="png" ContentType="{SPREADSHEET}.worksheet+xml"/></Types>'.encode()
LED = f'''<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
<Relationship Id="rId1" Type="{OFFICE}/%s" Target="%s"/></Relationships>'''
ODS = b"application/vnd.oasis.opendocument.spreadsheet"

Change = Callable[[bytes], bytes] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Hostile:
    """One file, and words of the sentence that refuses it."""

    build: Callable[[], bytes]
    words: str


def altered(
    changes: Mapping[str, Change], extra: Iterable[tuple[str, bytes]] = (), method: int = zipfile.ZIP_DEFLATED
) -> bytes:
    """The blank survey with parts changed, or dropped by None, and parts added."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(SURVEY)) as source, zipfile.ZipFile(out, "w", method) as package:
        for name in source.namelist():
            change = changes.get(name, lambda part: part)
            if change is not None:
                package.writestr(name, change(source.read(name)))
        for name, part in extra:
            package.writestr(name, part)
    return out.getvalue()


def swap(old: bytes, new: bytes) -> Callable[[bytes], bytes]:
    """A change of the first place where `old` stands."""

    def change(part: bytes) -> bytes:
        if old not in part:
            raise ValueError(f"{old!r} is not in the part")
        return part.replace(old, new, 1)

    return change


def into_sheet(text: str) -> bytes:
    """The survey with something added behind the cells of one sheet."""
    return altered({SHEET: swap(b"</sheetData>", b"</sheetData>" + text.encode())})


def rows(text: str) -> bytes:
    """The survey with rows added to one sheet."""
    return altered({SHEET: swap(b"</sheetData>", text.encode() + b"</sheetData>")})


def into_styles(text: str) -> bytes:
    """The survey with something at the head of its styles."""
    return altered({STYLES: lambda part: part[: part.index(b">") + 1] + text.encode() + part[part.index(b">") + 1 :]})


def into_book(text: str) -> bytes:
    """The survey with something before the end of the workbook part."""
    return altered({BOOK: swap(b"</workbook>", text.encode() + b"</workbook>")})


def strings(text: str, cells: str = "") -> bytes:
    """The survey with a table of strings, and cells that use it."""
    part = f'<sst xmlns="{MAIN}">{text}</sst>'.encode()
    kind = f'<Relationship Type="{OFFICE}/sharedStrings" Target="/{STRINGS}" Id="rId901"/></Relationships>'.encode()
    mime = f"{SPREADSHEET}.sharedStrings+xml"
    override = f'<Override PartName="/{STRINGS}" ContentType="{mime}"/></Types>'.encode()
    return altered(
        {RELATIONS: swap(b"</Relationships>", kind), TYPES: swap(b"</Types>", override),
         SHEET: swap(b"</sheetData>", cells.encode() + b"</sheetData>")},
        extra=[(STRINGS, part)],
    )  # fmt: skip


def doctype(declaration: str, use: str = "") -> Callable[[bytes], bytes]:
    """A document type before a part, and a use of its entity inside."""

    def change(part: bytes) -> bytes:
        return declaration.encode() + part.replace(b"<sheetData>", b"<sheetData>" + use.encode(), 1)

    return change


def laughs() -> bytes:
    """Ten entities, each ten of the one before."""
    entities = '<!ENTITY a0 "ha">' + "".join(f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 10))
    use = '<row r="9"><c r="A9" t="inlineStr"><is><t>&a9;</t></is></c></row>'
    return altered({SHEET: doctype(f"<!DOCTYPE w [{entities}]>", use)})


def entity(declaration: str) -> bytes:
    """One entity with a use in a cell."""
    use = '<row r="9"><c r="A9" t="inlineStr"><is><t>&x;</t></is></c></row>'
    return altered({SHEET: doctype(f"<!DOCTYPE w [{declaration}]>", use)})


def in_utf_16(change: Callable[[bytes], bytes]) -> Callable[[bytes], bytes]:
    """A part changed and written in another encoding, where no search for bytes finds anything."""
    return lambda part: b"\xff\xfe" + change(part).decode().encode("utf-16-le")


def moved_sheet(
    name: str, part: Callable[[bytes], bytes], types: Callable[[bytes], bytes] = lambda part: part
) -> bytes:
    """One sheet under another name, with its relationship led there."""
    with zipfile.ZipFile(io.BytesIO(SURVEY)) as package:
        content = part(package.read(SHEET))
    led = swap(b"/xl/worksheets/sheet5.xml", b"/" + name.encode())
    return altered({SHEET: None, RELATIONS: led, TYPES: types}, extra=[(name, content)])


def one_part_for_many_sheets() -> bytes:
    """A thousand sheets, all of them one and the same part."""
    sheets = "".join(f'<sheet name="s{n}" sheetId="{n + 100}" xmlns:r="{OFFICE}" r:id="rId7"/>' for n in range(1000))
    filled = "".join(f'<row r="{n}"><c r="A{n}"><v>1</v></c></row>' for n in range(100, 2000))
    return altered({
        BOOK: swap(b"</sheets>", sheets.encode() + b"</sheets>"), RELATIONS: swap(b"sheet7.xml", b"sheet5.xml"),
        SHEET: swap(b"</sheetData>", filled.encode() + b"</sheetData>"),
    })  # fmt: skip


def many_relations_to_one_part() -> bytes:
    """A thousand sheets with a relationship each, all to one part."""
    sheets = "".join(f'<sheet name="s{n}" sheetId="{n + 100}" xmlns:r="{OFFICE}" r:id="x{n}"/>' for n in range(1000))
    filled = "".join(f'<row r="{n}"><c r="A{n}"><v>1</v></c></row>' for n in range(100, 2000))
    led = "".join(
        f'<Relationship Type="{OFFICE}/worksheet" Target="{"./" * (n % 7)}worksheets/sheet5.xml" Id="x{n}"/>'
        for n in range(1000)
    )
    return altered({
        BOOK: swap(b"</sheets>", sheets.encode() + b"</sheets>"),
        RELATIONS: swap(b"</Relationships>", led.encode() + b"</Relationships>"),
        SHEET: swap(b"</sheetData>", filled.encode() + b"</sheetData>"),
    })  # fmt: skip


def chunk_of(element: str, times: int) -> str:
    """The same element many times over, but for a number in it where it says #."""
    if "#" not in element:
        return element * times
    return "".join(element.replace("#", f"{n * 2654435761 % 4294967296:08x}") for n in range(times))


def bomb(megabytes: int) -> bytes:
    """A sheet that is small in the file and huge outside it."""
    return altered({SHEET: swap(b"</sheetData>", b"</sheetData>" + b" " * (megabytes << 20))})


def nested_bomb() -> bytes:
    """A zip in a zip, which no reader of workbooks unpacks."""
    return altered({}, extra=[("xl/media/inner.zip", zipped([("zeros", b"\0" * (20 << 20))]))])


def zipped(parts: Iterable[tuple[str, bytes]]) -> bytes:
    """A plain zip."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        for name, part in parts:
            package.writestr(name, part)
    return out.getvalue()


def raw_zip(entries: list[tuple[str, bytes, bytes, int, int]]) -> bytes:
    """A zip from local part, central name, data, size and offset as somebody wishes to state them."""
    body, central = b"", b""
    for name, packed, plain, stated, offset in entries:
        local = _local(name, packed, plain)
        at = len(body) if offset < 0 else offset
        if offset < 0:
            body += local + packed
        central += struct.pack(
            "<4s6H3L5H2L", b"PK\1\2", 20, 20, 0, 8, 0, 33, zlib.crc32(plain), len(packed), stated, len(name), 0, 0, 0,
            0, 0, at,
        ) + name.encode()  # fmt: skip
    end = struct.pack("<4s4H2LH", b"PK\5\6", 0, 0, len(entries), len(entries), len(central), len(body), 0)
    return body + central + end


def _local(name: str, packed: bytes, plain: bytes) -> bytes:
    fields = (b"PK\3\4", 20, 0, 8, 0, 33, zlib.crc32(plain), len(packed), len(plain), len(name), 0)
    return struct.pack("<4s5H3L2H", *fields) + name.encode()


def deflated(plain: bytes) -> bytes:
    """The bytes as a zip packs them."""
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    return packer.compress(plain) + packer.flush()


def _survey_entries() -> list[tuple[str, bytes, bytes, int, int]]:
    with zipfile.ZipFile(io.BytesIO(SURVEY)) as package:
        parts = [(name, package.read(name)) for name in package.namelist()]
    return [(name, deflated(plain), plain, len(plain), -1) for name, plain in parts]


def overlapping() -> bytes:
    """Two parts over the same bytes: the first quotes the head of the second and runs on into it."""
    inner = b"<a/>" * 200_000
    packed = deflated(inner)
    head = _local("xl/b.bin", packed, inner)
    quoted = b"\0" + struct.pack("<HH", len(head), len(head) ^ 0xFFFF) + head + packed
    entries = _survey_entries()
    before = sum(len(_local(name, packed_, plain)) + len(packed_) for name, packed_, plain, _, _ in entries)
    inner_at = before + len(_local("xl/a.bin", quoted, head + inner)) + 5
    entries.append(("xl/a.bin", quoted, head + inner, len(head + inner), -1))
    entries.append(("xl/b.bin", packed, inner, len(inner), inner_at))
    return raw_zip(entries)


def false_sizes(stated: int) -> bytes:
    """The list of parts says another size than a part has."""
    entries = _survey_entries()
    name, _, plain, _, _ = entries[3]
    plain += b" " * (60 << 20)
    entries[3] = (name, deflated(plain), plain, stated, -1)
    return raw_zip(entries)


def elsewhere() -> bytes:
    """The list of parts points into the middle of another part."""
    entries = _survey_entries()
    entries[-1] = (*entries[-1][:4], 77)
    return raw_zip(entries)


def with_data_descriptor() -> bytes:
    """Sizes behind each part and not before it, as a program writes that does not know them yet, and false ones."""

    class Stream(io.RawIOBase):
        """Takes bytes and cannot go back."""

        def __init__(self) -> None:
            self.data = b""

        def writable(self) -> bool:
            return True

        def write(self, data: bytes) -> int:  # type: ignore[override]
            self.data += bytes(data)
            return len(data)

    stream = Stream()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as package, zipfile.ZipFile(io.BytesIO(SURVEY)) as source:
        for name in source.namelist():
            package.writestr(name, source.read(name))
    data = bytearray(stream.data)
    at = data.find(b"PK\7\x08")
    while at >= 0:
        data[at + 8 : at + 16] = b"\xff\xff\xff\x7f" * 2
        at = data.find(b"PK\7\x08", at + 4)
    return bytes(data)


def encrypted() -> bytes:
    """Marked as protected with a password of the zip itself."""
    data = bytearray(SURVEY)
    for mark, offset in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        at = data.find(mark)
        while at >= 0:
            data[at + offset] |= 1
            at = data.find(mark, at + 4)
    return bytes(data)


def with_table(ref: str) -> bytes:
    """A table over cells, in a part of its own."""
    table = (
        f'<table xmlns="{MAIN}" id="1" name="t" displayName="t" ref="{ref}"><autoFilter ref="{ref}"/>'
        '<tableColumns count="1"><tableColumn id="1" name="a"/></tableColumns></table>'
    )
    led = LED % ("table", "/xl/tables/table1.xml")
    mime = f"{SPREADSHEET}.table+xml"
    override = f'<Override PartName="/xl/tables/table1.xml" ContentType="{mime}"/></Types>'.encode()
    part = f'<tableParts count="1"><tablePart xmlns:r="{OFFICE}" r:id="rId1"/></tableParts></worksheet>'.encode()
    return altered(
        {SHEET: swap(b"</worksheet>", part), TYPES: swap(b"</Types>", override)},
        extra=[("xl/tables/table1.xml", table.encode()), ("xl/worksheets/_rels/sheet5.xml.rels", led.encode())],
    )


def shared_formula(length: int, cells: int) -> bytes:
    """One long formula shared by many cells: each is worked out anew."""
    formula = "+".join(["B1"] * length)
    first = f'<row r="100"><c r="A100"><f t="shared" ref="A100:A{100 + cells}" si="0">{formula}</f></c></row>'
    rest = "".join(f'<row r="{n}"><c r="A{n}"><f t="shared" si="0"/></c></row>' for n in range(101, 101 + cells))
    return rows(first + rest)


def long_text_in_many_cells(length: int, cells: int) -> bytes:
    """One long text that many cells point to."""
    used = "".join(
        f'<row r="{100 + n}">' + "".join(f'<c r="{c}{100 + n}" t="s"><v>0</v></c>' for c in "ABCDE") + "</row>"
        for n in range(cells // 5)
    )
    return strings(f"<si><t>{noise(1 + (length >> 20))[:length]}</t></si>", used)


def merges(count: int, ref: str) -> str:
    """Many merges over the same cells."""
    return f'<mergeCells count="{count}">' + chunk_of(f'<mergeCell ref="{ref}"/>', count) + "</mergeCells>"


def links(count: int, ref: str) -> str:
    """Many links over the same cells."""
    return "<hyperlinks>" + chunk_of(f'<hyperlink ref="{ref}" location="A1"/>', count) + "</hyperlinks>"


def list_of_ranges(count: int) -> str:
    """Many single cells in one attribute."""
    return " ".join(f"A{n}" for n in range(1, count + 1))


def validation(sqref: str) -> str:
    """A rule for entries."""
    return f'<dataValidations count="1"><dataValidation type="whole" sqref="{sqref}"/></dataValidations>'


def colour_rule(sqref: str) -> str:
    """A rule for colours."""
    rule = '<cfRule type="cellIs" priority="1" operator="equal"><formula>1</formula></cfRule>'
    return f'<conditionalFormatting sqref="{sqref}">{rule}</conditionalFormatting>'


FAR = "is beyond the last row or column"
SWOLLEN = "unpacks to far more"
DAMAGED = "is damaged"
FLOOD = "more than"

HOSTILE: dict[str, Hostile] = {
    name: Hostile(build=cache(build), words=words)
    for name, build, words in [
        # what is no workbook
        ("empty", lambda: b"", "is empty"),
        ("text", lambda: b"Wall,From,To\nW1,A1,A2\n", "is not an .xlsx"),
        ("truncated", lambda: SURVEY[: len(SURVEY) // 2], "is not an .xlsx"),
        ("cut by a few bytes", lambda: SURVEY[:-30], "is not an .xlsx"),
        ("head gone", lambda: SURVEY[5000:], DAMAGED),
        ("old or with a password", lambda: bytes.fromhex("D0CF11E0A1B11AE1") + b"\0" * 4000, "old .xls file or has"),
        ("zip with a password", encrypted, "protected with a password"),
        ("ods", lambda: zipped([("mimetype", ODS), ("content.xml", b"<a/>")]), "another format"),
        ("xlsb", lambda: altered({BOOK: None}, [("xl/workbook.bin", b"\0" * 99)]), "another format"),
        (
            "docx",
            lambda: zipped([(TYPES, b"<Types/>"), ("word/document.xml", b"<a/>")]),
            "the workbook inside is missing",
        ),
        ("zip of nothing", lambda: zipped([]), "the workbook inside is missing"),
        ("no content types", lambda: altered({TYPES: None}), "the workbook inside is missing"),
        ("picture", lambda: b"\x89PNG\r\n\x1a\n" + b"\0" * 2000, "is not an .xlsx"),
        ("packed another way", lambda: altered({}, method=zipfile.ZIP_LZMA), "packed in a way"),
        # zips
        ("bomb", lambda: bomb(120), SWOLLEN),
        ("bomb of many parts", lambda: altered({}, [(f"xl/p{n}.bin", b"\0" * 990_000) for n in range(450)]), SWOLLEN),
        ("nested zip of zeros", lambda: altered({}, [("xl/media/inner.bin", b"\0" * (20 << 20))]), SWOLLEN),
        ("overlapping parts", overlapping, "two parts over the same bytes"),
        ("size stated too small", lambda: false_sizes(100), DAMAGED),
        ("size stated too big", lambda: false_sizes(0x7FFFFFFF), SWOLLEN),
        ("list points elsewhere", elsewhere, "two parts over the same bytes"),
        ("one part twice", lambda: doubled(SHEET), "one part twice"),
        (
            "one part twice but for its case",
            lambda: altered({}, [("XL/Worksheets/Sheet5.XML", b"<a/>")]),
            "one part twice",
        ),
        ("too many parts", lambda: altered({}, [(f"xl/{n}", b"") for n in range(4000)]), "too many parts"),
        ("absolute path", lambda: altered({}, [("/etc/evil.xml", b"<a/>")]), "outside the workbook"),
        ("path upwards", lambda: altered({}, [("xl/../../evil.xml", b"<a/>")]), "outside the workbook"),
        ("path with a drive", lambda: altered({}, [("C:/evil.xml", b"<a/>")]), "outside the workbook"),
        ("path with backslashes", lambda: altered({}, [("..\\evil.xml", b"<a/>")]), "outside the workbook"),
        # document types
        ("entity expansion", laughs, "document type"),
        ("entity from a file", lambda: entity('<!ENTITY x SYSTEM "file:///etc/hostname">'), "document type"),
        ("entity from a server", lambda: entity('<!ENTITY x SYSTEM "http://127.0.0.1:9/x">'), "document type"),
        ("outer document type", lambda: altered({SHEET: doctype('<!DOCTYPE w SYSTEM "w.dtd">')}), "document type"),
        ("document type in UTF-16", lambda: altered({SHEET: in_utf_16(doctype("<!DOCTYPE w>"))}), "document type"),
        (
            "document type behind a comment",
            lambda: altered({STYLES: lambda p: b"<!-- -->\n<!DOCTYPE w>" + p}),
            "document type",
        ),
        (
            "document type in a relationship",
            lambda: altered({RELATIONS: lambda p: b"<!DOCTYPE w>" + p}),
            "document type",
        ),
        # places
        ("far cell", lambda: rows('<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>'), FAR),
        ("far cell, veiled", lambda: rows("<row r='9'><c r='&#88;F&#68;&#x39;'><v>1</v></c></row>"), FAR),
        ("far cell in lower case", lambda: rows('<row r="9"><c r="xfd9"><v>1</v></c></row>'), FAR),
        ("far cell in UTF-16", lambda: altered({SHEET: in_utf_16(far)}), FAR),
        ("row 99999999", lambda: rows('<row r="99999999"><c><v>1</v></c></row>'), "is not a cell"),
        ("row 1e9", lambda: rows('<row r="1e9"><c><v>1</v></c></row>'), "is not a cell"),
        ("row 0", lambda: rows('<row r="0"><c r="A0"><v>1</v></c></row>'), "is not a cell"),
        ("merge of everything", lambda: into_sheet(merges(1, WHOLE)), FAR),
        (
            "merge of everything, veiled",
            lambda: into_sheet("<mergeCells><mergeCell ref\n=\n'A1:XFD104857&#54;'/></mergeCells>"),
            FAR,
        ),
        ("merge upside down", lambda: into_sheet(merges(1, "XFD1048576:A1")), FAR),
        ("many merges", lambda: into_sheet(merges(2000, "A1:ALL190")), "cells are merged or linked"),
        ("link over everything", lambda: into_sheet(links(1, WHOLE)), FAR),
        ("many links", lambda: into_sheet(links(2000, "A1:ALL190")), "cells are merged or linked"),
        ("comment far away", lambda: with_comment("XFD1048576"), FAR),
        ("sheet of another name", lambda: moved_sheet("xl/media/image1.png", far), "misleading name"),
        ("sheet in another folder", lambda: moved_sheet("xl/theme/other.xml", far), FAR),
        (
            "sheet of another type",
            lambda: moved_sheet("xl/picture.png", far, swap(b"</Types>", DEFAULT)),
            "misleading name",
        ),
        # floods
        ("one part for many sheets", one_part_for_many_sheets, "stands for several"),
        ("many relations to one part", many_relations_to_one_part, "stands for several"),
        ("ranges in a validation", lambda: into_sheet(validation(list_of_ranges(40_000))), "ranges"),
        ("ranges in a colour rule", lambda: into_sheet(colour_rule(list_of_ranges(40_000))), "ranges"),
        ("many strings", lambda: strings(chunk_of("<si><t>#</t></si>", 400_000)), FLOOD),
        ("many runs in one string", lambda: strings("<si>" + chunk_of("<r><t>#</t></r>", 400_000) + "</si>"), FLOOD),
        (
            "many styles",
            lambda: into_styles("<cellXfs>" + chunk_of('<xf numFmtId="1" a="#"/>', 200_000) + "</cellXfs>"),
            FLOOD,
        ),
        (
            "many fonts",
            lambda: into_styles("<fonts>" + chunk_of('<font><name val="#"/></font>', 100_000) + "</fonts>"),
            FLOOD,
        ),
        (
            "many rules",
            lambda: into_sheet(
                "<dataValidations>"
                + chunk_of('<dataValidation sqref="A1" prompt="#"/>', 200_000)
                + "</dataValidations>"
            ),
            FLOOD,
        ),
        (
            "many names",
            lambda: into_book(
                "<definedNames>" + chunk_of('<definedName name="n#">A</definedName>', 200_000) + "</definedNames>"
            ),
            FLOOD,
        ),
        (
            "many columns",
            lambda: into_sheet("<cols>" + chunk_of('<col min="1" max="2" a="#"/>', 200_000) + "</cols>"),
            FLOOD,
        ),
        (
            "many breaks",
            lambda: into_sheet("<rowBreaks>" + chunk_of('<brk id="1" a="#"/>', 200_000) + "</rowBreaks>"),
            FLOOD,
        ),
        (
            "many cells",
            lambda: rows('<row r="100">' + chunk_of('<c a="#"/>', 300_000) + chunk_of("<c/>", 300_000) + "</row>"),
            FLOOD,
        ),
        (
            "many relations",
            lambda: altered(
                {
                    RELATIONS: swap(
                        b"</Relationships>",
                        chunk_of('<Relationship Type="x" Target="/x" Id="z#"/>', 200_000).encode()
                        + b"</Relationships>",
                    )
                }
            ),
            FLOOD,
        ),
        ("very long attribute", lambda: into_sheet(f'<mergeCells a="{noise(4)}"/>'), "one piece"),
        ("very long comment", lambda: into_sheet(f"<!--{noise(4)}-->"), "one piece"),
        ("very long name of an element", lambda: into_sheet(f"<a{noise(4)}/>"), "one piece"),
        (
            "many attributes",
            lambda: into_sheet("<mergeCells " + " ".join(f'a{n}="1"' for n in range(500_000)) + "/>"),
            "one piece",
        ),
        ("long formula in many cells", lambda: shared_formula(30_000, 20_000), "a formula that is too long"),
        ("formula in very many cells", lambda: shared_formula(2_000, 100_000), "share a formula"),
        ("long text in many cells", lambda: long_text_in_many_cells(3_000_000, 50_000), "a text that is too long"),
        ("text in very many cells", lambda: long_text_in_many_cells(30_000, 100_000), "share a text"),
        ("brackets in a number format", lambda: altered({STYLES: brackets}), "number format"),
        ("not readable inside", lambda: altered({SHEET: lambda part: part[:-40]}), "is not readable"),
    ]
}


HARMLESS: dict[str, Callable[[], bytes]] = {
    "false dimension": lambda: altered(
        {SHEET: swap(b'<dimension ref="A1:E18"/>', b'<dimension ref="A1:XFD1048576"/>')}
    ),
    "data descriptors with false sizes": with_data_descriptor,
    "zip in a zip": nested_bomb,
    "validation over everything": lambda: into_sheet(validation(WHOLE)),
    "colours over everything": lambda: into_sheet(colour_rule(WHOLE)),
    "filter over everything": lambda: into_sheet(f'<autoFilter ref="{WHOLE}"/>'),
    "columns to the last": lambda: into_sheet('<cols><col min="1" max="16384" width="9"/></cols>'),
    "table over everything": lambda: with_table(WHOLE),
    "name over everything": lambda: altered(
        {
            BOOK: swap(
                b"</definedNames>", b"<definedName name=\"all\">'Grid'!$A$1:$XFD$1048576</definedName></definedNames>"
            )
        }
    ),
    "array formula over everything": lambda: rows(
        f'<row r="100"><c r="A100"><f t="array" ref="{WHOLE}">B1</f></c></row>'
    ),
    "shared formula over everything": lambda: rows(
        f'<row r="100"><c r="A100"><f t="shared" si="0" ref="{WHOLE}">B1</f></c></row>'
    ),
    "data table over everything": lambda: rows(
        f'<row r="100"><c r="A100"><f t="dataTable" ref="{WHOLE}" r1="A1"/></c></row>'
    ),
    "pane far away": lambda: altered({SHEET: swap(b'topLeftCell="B4"', b'topLeftCell="XFD1048576"')}),
    "infinite number": lambda: rows('<row r="100"><c r="B100"><v>1e999</v></c></row>'),
    "number of many digits": lambda: rows(f'<row r="100"><c r="B100"><v>{"9" * 5000}</v></c></row>'),
    "style that is not there": lambda: rows('<row r="100"><c r="B100" s="999999"><v>1</v></c></row>'),
    "string that is not there": lambda: rows('<row r="100"><c r="B100" t="s"><v>999999</v></c></row>'),
    "number that is none": lambda: rows('<row r="100"><c r="B100"><v>many</v></c></row>'),
    "date that is none": lambda: rows('<row r="100"><c r="B100" t="d"><v>yesterday</v></c></row>'),
    "date beyond all": lambda: altered(
        {
            STYLES: lambda p: p.replace(b'numFmtId="0"', b'numFmtId="14"'),
            SHEET: swap(b"</sheetData>", b'<row r="100"><c r="B100"><v>1e300</v></c></row></sheetData>'),
        }
    ),
    "deep nesting": lambda: into_sheet("<a>" * 50_000 + "</a>" * 50_000),
    "deep nesting in the styles": lambda: into_styles("<a>" * 5_000 + "</a>" * 5_000),
    "deep nesting in a cell": lambda: rows(
        '<row r="100"><c r="A100" t="inlineStr"><is>' + "<r>" * 5_000 + "</r>" * 5_000 + "</is></c></row>"
    ),
    "ampersands in a header": lambda: into_sheet(
        f"<headerFooter><oddHeader>{'&amp;L&amp;C' * 50_000}</oddHeader></headerFooter>"
    ),
    "ranges in a validation": lambda: into_sheet(validation(list_of_ranges(9_000))),
    "external link": lambda: into_book(
        f'<externalReferences><externalReference xmlns:r="{OFFICE}" r:id="rId1"/></externalReferences>'
    ),
}
"""What reads badly but harms nobody: it passes the guard, and whatever comes of it is said in a sentence."""


def brackets(part: bytes) -> bytes:
    """Styles that use a number format of opening brackets only: a search for the closing one starts at each."""
    part = part.replace(b'numFmtId="0"', b'numFmtId="199"')
    formats = f'<numFmts><numFmt numFmtId="199" formatCode="{"[" * 300_000}"/></numFmts>'.encode()
    if b"<numFmts" in part:
        formats = formats.replace(b"<numFmts>", b"").replace(b"</numFmts>", b"")
        return part.replace(b"</numFmts>", formats + b"</numFmts>")
    return part[: part.index(b">") + 1] + formats + part[part.index(b">") + 1 :]


def doubled(name: str) -> bytes:
    """The same name twice in the list of parts."""
    entries = _survey_entries()
    again = next(entry for entry in entries if entry[0] == name)
    return raw_zip([*entries, again])


def far(part: bytes) -> bytes:
    """A sheet with a merge over all cells there are."""
    return swap(b"</sheetData>", b"</sheetData>" + merges(1, WHOLE).encode())(part)


def noise(megabytes: int) -> str:
    """Letters that do not pack too well, so that a long token is no bomb."""
    block = "".join(f"{n * 2654435761 % 4294967296:08x}" for n in range(8192))
    return block * (megabytes << 4)


def with_comment(ref: str) -> bytes:
    """A comment beside a cell."""
    comment = (
        f'<comments xmlns="{MAIN}"><authors><author>a</author></authors><commentList>'
        f'<comment ref="{ref}" authorId="0"><text><t>x</t></text></comment></commentList></comments>'
    )
    led = LED % ("comments", "/xl/comments1.xml")
    mime = f"{SPREADSHEET}.comments+xml"
    override = f'<Override PartName="/xl/comments1.xml" ContentType="{mime}"/></Types>'.encode()
    return altered(
        {TYPES: swap(b"</Types>", override)},
        extra=[("xl/comments1.xml", comment.encode()), ("xl/worksheets/_rels/sheet5.xml.rels", led.encode())],
    )
