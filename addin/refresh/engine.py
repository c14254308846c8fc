"""Formulas worked out by a spreadsheet engine, each from results that are known already.

Covers   a small workbook with only the cells those formulas look at, loaded into the engine, and what comes out.
Not      which formulas (dependents), whether the engine can be trusted with them (references).
Rules    Every other formula of the user's stands in the small workbook as its result: what it cannot work out, it is
         not asked to.
"""

import tempfile
import zipfile
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from xml.sax.saxutils import escape, quoteattr

from addin.caches import XlError
from addin.refresh.cells import Place, address
from addin.refresh.grafting import Content
from addin.refresh.package import MAIN, OFFICE, RELATIONS, TYPES

Cell = tuple[str, Place]
"""Title of its sheet without regard to case, place."""

_SHEET_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml"
_STYLES = (
    f'<styleSheet xmlns="{MAIN}"><fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts>'
    '<fills count="1"><fill><patternFill patternType="none"/></fill></fills><borders count="1"><border><left/><right/>'
    '<top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" '
    'borderId="0"/></cellStyleXfs><cellXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>'
    '</cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>'
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SmallBook:
    """What the engine gets to see."""

    titles: Sequence[str]
    """As they are written, in the order of the tabs."""
    names: Sequence[tuple[str, str, str]]
    """Name, place of its sheet or "", what it stands for."""
    tables: Mapping[str, bytes]
    """Table parts by the title of their sheet without regard to case, one after the other."""
    cells: Mapping[Cell, Content]


def results(book: SmallBook, wanted: Iterable[Cell]) -> dict[Cell, object] | None:
    """What the engine makes of the wanted cells; nothing where it cannot load the workbook."""
    import ironcalc  # loads only when a formula has to be worked out

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "book.xlsx"  # it loads from a path only
        _write(path, book)
        try:
            model = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
            model.evaluate()
        except (ironcalc.WorkbookError, ValueError, RuntimeError, OSError):
            return None
    places = {title.casefold(): place for place, title in enumerate(book.titles)}
    found: dict[Cell, object] = {}
    for sheet, (row, column) in wanted:
        value = model.get_cell_value(places[sheet], row, column)
        error = model.get_cell_type(places[sheet], row, column) == ironcalc.CellType.ErrorValue
        found[sheet, (row, column)] = XlError(value) if error else value
    return found


def _write(path: Path, book: SmallBook) -> None:
    by_sheet: dict[str, dict[Place, Content]] = {title.casefold(): {} for title in book.titles}
    for (sheet, place), content in book.cells.items():
        by_sheet[sheet][place] = content
    numbers = range(1, len(book.titles) + 1)
    with zipfile.ZipFile(path, "w") as file:
        file.writestr("[Content_Types].xml", _types(numbers, book))
        file.writestr("_rels/.rels", _relations([("officeDocument", "xl/workbook.xml")]))
        file.writestr("xl/workbook.xml", _workbook(book))
        sheets = [("worksheet", f"worksheets/sheet{number}.xml") for number in numbers]
        file.writestr("xl/_rels/workbook.xml.rels", _relations([*sheets, ("styles", "styles.xml")]))
        file.writestr("xl/styles.xml", _STYLES)
        for number, title in zip(numbers, book.titles, strict=True):
            table = book.tables.get(title.casefold())
            file.writestr(f"xl/worksheets/sheet{number}.xml", _sheet(by_sheet[title.casefold()], table is not None))
            if table is not None:
                file.writestr(f"xl/worksheets/_rels/sheet{number}.xml.rels",
                              _relations([("table", f"../tables/table{number}.xml")]))  # fmt: skip
                file.writestr(f"xl/tables/table{number}.xml", table)


def _types(numbers: Iterable[int], book: SmallBook) -> str:
    parts = {"/xl/workbook.xml": "sheet.main", "/xl/styles.xml": "styles"}
    parts |= {f"/xl/worksheets/sheet{number}.xml": "worksheet" for number in numbers}
    parts |= {f"/xl/tables/table{number}.xml": "table" for number, title in enumerate(book.titles, start=1)
              if title.casefold() in book.tables}  # fmt: skip
    items = "".join(f'<Override PartName="{n}" ContentType="{_SHEET_TYPE}.{t}+xml"/>' for n, t in parts.items())
    return (f'<Types xmlns="{TYPES}"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.'
            f'relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>{items}</Types>')  # fmt: skip


def _relations(targets: Sequence[tuple[str, str]]) -> str:
    items = "".join(f'<Relationship Id="rId{number}" Type="{OFFICE}/{kind}" Target="{target}"/>'
                    for number, (kind, target) in enumerate(targets, start=1))  # fmt: skip
    return f'<Relationships xmlns="{RELATIONS}">{items}</Relationships>'


def _workbook(book: SmallBook) -> str:
    sheets = "".join(f'<sheet name={quoteattr(title)} sheetId="{number}" r:id="rId{number}"/>'
                     for number, title in enumerate(book.titles, start=1))  # fmt: skip
    names = "".join(
        f"<definedName name={quoteattr(name)}{f' localSheetId={quoteattr(scope)}' if scope else ''}>{escape(text)}"
        "</definedName>"
        for name, scope, text in book.names
    )
    return (f'<workbook xmlns="{MAIN}" xmlns:r="{OFFICE}"><sheets>{sheets}</sheets>'
            f"<definedNames>{names}</definedNames></workbook>")  # fmt: skip


def _sheet(cells: Mapping[Place, Content], table: bool) -> str:
    rows: dict[int, list[str]] = {}
    for place in sorted(cells):
        content = cells[place]
        kind = f' t="{content.kind}"' if content.kind != "n" else ""
        formula = f"<f>{escape(content.formula)}</f>" if content.formula else ""
        value = f"<v>{escape(content.value)}</v>"
        rows.setdefault(place[0], []).append(f'<c r="{address(place)}"{kind}>{formula}{value}</c>')
    written = "".join(f'<row r="{row}">{"".join(items)}</row>' for row, items in rows.items())
    tables = '<tableParts count="1"><tablePart r:id="rId1"/></tableParts>' if table else ""
    return f'<worksheet xmlns="{MAIN}" xmlns:r="{OFFICE}"><sheetData>{written}</sheetData>{tables}</worksheet>'
