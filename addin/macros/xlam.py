"""The add-in file plinthbook.xlam: an empty workbook with our macros, xlwings' macros and a ribbon.

Covers   the package: parts, content types, relationships, code names; which modules go in; writing the file.
Not      where the file belongs on a user's machine; the settings file (see xlwings_text).
Rules    The same project and the same xlwings give the same bytes: parts are stored uncompressed, because compressors
         differ from one Python to the next, and carry one fixed date. Job workbooks never get macros: only this file.
Sources  ECMA-376 part 2 (packages) and part 1, 18.2 and 18.3 (workbook, sheet); [MS-CUSTOMUI] 2.2 (ribbon);
         [MS-OFFMACRO2] 2.2.1 (the part of the VBA project and its relationship).

    python -m addin.macros.xlam plinthbook.xlam
"""

import io
import re
import sys
import zipfile
from collections.abc import Iterator, Sequence
from importlib.metadata import version
from pathlib import Path
from xml.sax.saxutils import escape

from addin.files import CannotWrite, write_atomically
from addin.macros.vba_project import Kind, Module, document, from_file, vba_project
from addin.macros.xlwings_text import PROJECT, NotOfOneVersion, dictionary_class, xlwings_module

ADDIN_TYPE = "application/vnd.ms-excel.addin.macroEnabled.main+xml"
BOOK_NAME, SHEET_NAME = "ThisWorkbook", "PlinthSheet"
"""Code names: of the document modules, and in the parts of the workbook and its sheet."""

PROJECT_ID = "{890D0B9D-9F3F-4754-A344-20648103B00C}"
"""Drawn once, kept for ever."""

OWN_MODULES = ("PlinthCalls", "PlinthFunctions", "PlinthRibbon")

_HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_MICROSOFT = "http://schemas.microsoft.com/office/2006"
_SPREADSHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml"
_FIXED_DATE = (1980, 1, 1, 0, 0, 0)


def xlam_bytes() -> bytes:
    """The whole add-in file.

    Raises:
        NotOfOneVersion: the installed xlwings is not the one this project is written for
    """
    return macro_book([*own_modules(), *xlwings_modules()], ADDIN_TYPE)


def own_modules() -> list[Module]:
    """Our modules, from the committed text."""
    folder = Path(__file__).parent
    texts = {name: (folder / f"{name}.bas").read_text("ascii") for name in OWN_MODULES}
    return [from_file(name, Kind.STANDARD, text) for name, text in texts.items()]


def xlwings_modules() -> list[Module]:
    """The modules of the installed xlwings, with our settings' name and its changes.

    Raises:
        NotOfOneVersion: see xlwings_text
    """
    return [
        from_file("xlwings", Kind.STANDARD, xlwings_module()),
        from_file("Dictionary", Kind.CLASS, dictionary_class()),
    ]


def macro_book(modules: Sequence[Module], main_type: str) -> bytes:
    """A workbook with one sheet, our ribbon and these modules.

    Args:
        modules: all but those of the workbook and its sheet
        main_type: content type of the workbook part: an add-in or a workbook with macros
    """
    documents = [document(BOOK_NAME, Kind.BOOK), document(SHEET_NAME, Kind.SHEET)]
    project = vba_project("PlinthAddin", PROJECT_ID, [*documents, *modules])
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as package:
        for name, data in _parts(project, main_type):
            about = zipfile.ZipInfo(name, _FIXED_DATE)
            about.create_system = 0  # else it says which system built it
            package.writestr(about, data)
    return out.getvalue()


def _parts(project: bytes, main_type: str) -> Iterator[tuple[str, bytes]]:
    """Every part of the package with its name."""
    texts = {
        "[Content_Types].xml": _content_types(main_type),
        "_rels/.rels": _relationships(
            (f"{_OFFICE}/relationships/officeDocument", "xl/workbook.xml"),
            (f"{_PACKAGE}/relationships/metadata/core-properties", "docProps/core.xml"),
            (f"{_OFFICE}/relationships/extended-properties", "docProps/app.xml"),
            # The form of 2006, which every version with a ribbon reads.
            (f"{_MICROSOFT}/relationships/ui/extensibility", "customUI/customUI.xml"),
        ),
        "docProps/app.xml": _app(),
        "docProps/core.xml": _core(),
        "customUI/customUI.xml": (Path(__file__).parent / "ribbon.xml").read_text("utf-8"),
        "xl/workbook.xml": _workbook(),
        "xl/_rels/workbook.xml.rels": _relationships(
            (f"{_OFFICE}/relationships/worksheet", "worksheets/sheet1.xml"),
            (f"{_OFFICE}/relationships/styles", "styles.xml"),
            (f"{_MICROSOFT}/relationships/vbaProject", "vbaProject.bin"),
        ),
        "xl/worksheets/sheet1.xml": _sheet(f"{PROJECT} {version(PROJECT)}", f"xlwings {version('xlwings')}"),
        "xl/styles.xml": _STYLES,
    }
    for name, text in texts.items():
        yield name, text.encode("utf-8")
    yield "xl/vbaProject.bin", project


# ------------------------------------------------------------------------------------------ parts


def _content_types(main_type: str) -> str:
    kinds = {
        "/xl/workbook.xml": main_type,
        "/xl/worksheets/sheet1.xml": f"{_SPREADSHEET}.worksheet+xml",
        "/xl/styles.xml": f"{_SPREADSHEET}.styles+xml",
        "/docProps/app.xml": "application/vnd.openxmlformats-officedocument.extended-properties+xml",
        "/docProps/core.xml": "application/vnd.openxmlformats-package.core-properties+xml",
    }
    defaults = {
        "rels": "application/vnd.openxmlformats-package.relationships+xml",
        "xml": "application/xml",
        "bin": "application/vnd.ms-office.vbaProject",
    }
    lines = [f'<Default Extension="{end}" ContentType="{kind}"/>' for end, kind in defaults.items()]
    lines += [f'<Override PartName="{part}" ContentType="{kind}"/>' for part, kind in kinds.items()]
    return f'{_HEAD}<Types xmlns="{_PACKAGE}/content-types">{"".join(lines)}</Types>'


def _relationships(*targets: tuple[str, str]) -> str:
    lines = [
        f'<Relationship Id="rId{number}" Type="{kind}" Target="{target}"/>'
        for number, (kind, target) in enumerate(targets, start=1)
    ]
    return f'{_HEAD}<Relationships xmlns="{_PACKAGE}/relationships">{"".join(lines)}</Relationships>'


def _workbook() -> str:
    return (
        f'{_HEAD}<workbook xmlns="{_MAIN}" xmlns:r="{_OFFICE}/relationships"><workbookPr codeName="{BOOK_NAME}"/>'
        f'<sheets><sheet name="{PROJECT}" sheetId="1" r:id="rId1"/></sheets></workbook>'
    )


def _sheet(*lines: str) -> str:
    """The one sheet, which nobody sees while the file is an add-in: versions, one a row."""
    rows = [
        f'<row r="{row}"><c r="A{row}" t="inlineStr"><is><t>{escape(line)}</t></is></c></row>'
        for row, line in enumerate(lines, start=1)
    ]
    return (
        f'{_HEAD}<worksheet xmlns="{_MAIN}"><sheetPr codeName="{SHEET_NAME}"/>'
        f"<sheetData>{''.join(rows)}</sheetData></worksheet>"
    )


def _app() -> str:
    # The format wants two numbers, at most two and exactly four digits.
    major, minor, patch = (int(number) for number in re.findall(r"[0-9]+", version(PROJECT))[:3])
    return (
        f'{_HEAD}<Properties xmlns="{_OFFICE}/extended-properties"><Application>{PROJECT}</Application>'
        f"<AppVersion>{major}.{minor:02}{patch:02}</AppVersion></Properties>"
    )


def _core() -> str:
    return (
        f'{_HEAD}<cp:coreProperties xmlns:cp="{_PACKAGE}/metadata/core-properties" '
        f'xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:title>{PROJECT} {version(PROJECT)}</dc:title>'
        f"</cp:coreProperties>"
    )


_STYLES = (
    f'{_HEAD}<styleSheet xmlns="{_MAIN}"><fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts>'
    '<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill>'
    '</fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>'
    '<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>'
    '<cellXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/></cellXfs>'
    '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>'
)


def main(arguments: Sequence[str]) -> int:
    """Write the add-in to the one path given; the exit status is 0 or 2."""
    if len(arguments) != 1:
        print("usage: python -m addin.macros.xlam OUT.xlam", file=sys.stderr)
        return 2
    try:
        write_atomically(arguments[0], xlam_bytes())
    except (CannotWrite, NotOfOneVersion) as reason:
        print(reason, file=sys.stderr)
        return 2
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
