"""Results as sheets: tables and listings of records, placed, rendered, drawn and cached.

Covers   the two shapes every result takes (a table with one record a row, a listing with one field a row), where each
         node gets its cell, the formulas, the cached values, and what is kept of results worked out at issue.
Not      which results stand on which sheet (sheets), the survey sheets (survey_book).
Rules    everything is placed first and rendered after: a node may be shown before the sheet it belongs to is drawn.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, fields
from datetime import datetime
from io import BytesIO
from typing import Any

from openpyxl.formatting.rule import FormulaRule
from openpyxl.styles import Font, PatternFill
from openpyxl.utils import get_column_letter
from openpyxl.workbook import Workbook
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.worksheet import Worksheet

from addin.caches import inject
from addin.formulas import Homes, Renderer, Spot, quote
from addin.styles import BOLD, FAIL, LINE_HEIGHT, PASS, WARN, Styles, lines_needed, protect, set_page
from addin.wording import Labels, figures, words
from calc.number import Traced, TracedText, text_of

FORMATS = {
    "m": "0.000", "m2": "0.00", "m3": "0.00", "kN": "#,##0.00", "kN/m": "0.00", "kN/m2": "0.00", "kN/m3": "0.00",
    "kN m": "#,##0.0", "No": "0", "-": "0.000", "deg": "0.0", "No/m2": "0.00", "kN/m2/deg": "0.000", "kg": "#,##0",
    "day": "0.0", "m/s": "0.0",
}  # fmt: skip
"""How numbers of each unit are shown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Show:
    """One field of a record as a column of a table or a line of a listing."""

    attr: str
    title: str = ""
    width: float = 9.3
    total: bool = False
    name: str = ""
    """Defined name of its cell; listings only."""
    style: str = ""
    format: str = ""
    span: int = 1
    """Columns of the sheet it takes up."""
    label: bool = True
    """Whether its title names what it shows where a formula is told in words."""


def show(attrs: str, **changes: Show) -> tuple[Show, ...]:
    """Several fields by name, with those that differ from the usual given in full.

    >>> [s.attr for s in show("name length lifted")]
    ['name', 'length', 'lifted']
    """
    return tuple(changes.get(attr, Show(attr=attr)) for attr in attrs.split())


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Records of one kind, one a row."""

    title: str
    records: Sequence[Any]
    shows: tuple[Show, ...]
    note: str = ""
    how: bool = True
    """Whether the line that says how each column comes about is shown."""
    verdict: str = ""
    """Field whose words are told apart by shade."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing:
    """Fields of one record, one a line: label, value, unit, how it comes about."""

    title: str
    record: Any
    shows: tuple[Show, ...]
    note: str = ""
    column: int = 2
    """Column of the values; the labels reach up to it."""
    how: bool = True
    """Whether the line that says how a value comes about is shown beside it, after its unit."""
    text_span: int = 1
    """Columns a value that is a text takes up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Notes:
    """Plain sentences, one a line."""

    title: str
    lines: Sequence[Any]
    span: int = 4
    """Columns each line reaches over."""


Block = Table | Listing | Notes


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One result sheet."""

    title: str
    heading: str
    help: str
    blocks: tuple[Block, ...]
    portrait: bool = False
    one_page: bool = False
    warning: Any = None
    """A text, live or not, that stands under the heading in bold."""


@dataclass(slots=True)
class Placed:
    """Where one block stands on its sheet."""

    block: Block
    number: int
    sheet: str
    top: int

    @property
    def first_row(self) -> int:
        """Row of its first record or field."""
        if isinstance(self.block, Notes):
            return self.top + 1
        extra = 0 if isinstance(self.block, Listing) else 1 + bool(self.block.how)
        return self.top + 1 + bool(self.block.note) + extra

    @property
    def rows(self) -> int:
        """Records or fields it has."""
        if isinstance(self.block, Notes):
            return len(self.block.lines)
        return len(self.block.shows) if isinstance(self.block, Listing) else len(self.block.records)

    @property
    def end(self) -> int:
        """Row after its last, totals included."""
        total = isinstance(self.block, Table) and any(s.total for s in self.block.shows)
        return self.first_row + self.rows + total


@dataclass(slots=True)
class Kept:
    """One input of a result worked out at issue."""

    sheet: str
    row: int
    what: str
    node: Traced


@dataclass(slots=True)
class ResultBook:
    """A workbook in the making."""

    book: Workbook
    styles: Styles
    homes: Homes = field(default_factory=Homes)
    labels: dict[int, str] = field(default_factory=dict)
    values: dict[tuple[str, str], Any] = field(default_factory=dict)
    placed: list[Placed] = field(default_factory=list)
    kept: list[Kept] = field(default_factory=list)
    currency: str = "money"
    money_format: str = "#,##0.00"
    renderer: Renderer = field(init=False)

    def __post_init__(self) -> None:
        self.renderer = Renderer(self.homes)

    # ------------------------------------------------------------------------------------------ placing

    def place(self, page: Page) -> None:
        """Give every node of a page its cell."""
        row = FIRST_BLOCK_ROW
        for block in page.blocks:
            placed = Placed(block=block, number=len(self.placed) + 1, sheet=page.title, top=row)
            self.placed.append(placed)
            self.homes.rows_in_block[placed.number] = placed.rows if isinstance(block, Table) else 1
            for spot, node, shown, _ in _cells(placed):
                if isinstance(node, (Traced, TracedText)) or (isinstance(node, str) and type(node) is not str):
                    self.homes.place(node, spot)
                    named = isinstance(block, Listing) or not isinstance(node, Traced) or node.op != "entry"
                    if shown.label and named:
                        self.labels.setdefault(id(node), _title(shown).lower())
                elif isinstance(node, (int, float)):
                    self.homes.constants[spot.sheet, spot.row, spot.column] = node
                if shown.name and isinstance(block, Listing):
                    self._define(node, shown.name, spot)
            row = placed.end + 1 + (0 if placed.rows else 1)

    def _define(self, node: Any, name: str, spot: Spot) -> None:
        if isinstance(node, (Traced, TracedText)):
            self.homes.name(node, name)
        reference = f"{quote(spot.sheet)}!${get_column_letter(spot.column)}${spot.row}"
        self.book.defined_names[name] = DefinedName(name, attr_text=reference)

    def name_entry(self, node: Any, name: str, sheet: str, address: str) -> None:
        """Name a cell of a survey sheet that holds this node."""
        self.homes.name(node, name)
        column, row = address.rstrip("0123456789"), address.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
        self.labels.setdefault(id(node), name.replace("_", " "))
        self.book.defined_names[name] = DefinedName(name, attr_text=f"{quote(sheet)}!${column}${row}")

    # ------------------------------------------------------------------------------------------ drawing

    def draw(self, page: Page) -> Worksheet:
        """Draw a page whose nodes have been placed."""
        sheet = self.book.create_sheet(page.title)
        self.styles.put(sheet["A1"], page.heading, "pb title")
        self.styles.put(sheet["A2"], page.help, "pb help")
        if page.warning is not None:
            self.write(sheet, Spot(page.title, 3, 1), page.warning, "pb warning")
            self.styles.give(sheet["A4"], "pb warning")
            sheet["A4"] = STALE_FORMULA
            self.values[page.title, "A4"] = ""
        widths: dict[int, float] = {}
        for placed in (p for p in self.placed if p.sheet == page.title):
            if isinstance(placed.block, Listing):
                self._draw_listing(sheet, placed, placed.block, widths)
            elif isinstance(placed.block, Notes):
                self._draw_notes(sheet, placed, placed.block)
            else:
                self._draw_table(sheet, placed, placed.block, widths)
        for column, width in widths.items():
            sheet.column_dimensions[get_column_letter(column)].width = width
        sheet.freeze_panes = "A5" if page.warning is not None else "A3"
        set_page(sheet, repeat_rows=self._repeated(page), portrait=page.portrait, one_page=page.one_page)
        protect(sheet)
        return sheet

    def _repeated(self, page: Page) -> str:
        """Rows at the head of each printed page: of a sheet with one long table, its headings too."""
        if page.one_page:
            return ""
        first = next(p for p in self.placed if p.sheet == page.title)
        single = isinstance(first.block, Table) and not any(isinstance(block, Table) for block in page.blocks[1:])
        return f"1:{first.first_row - 1}" if single else "1:3"

    def _draw_listing(self, sheet: Worksheet, placed: Placed, block: Listing, widths: dict[int, float]) -> None:
        self.styles.put(sheet.cell(placed.top, 1), block.title, "pb subtitle")
        if block.note:
            self.styles.put(sheet.cell(placed.top + 1, 1), block.note, "pb help")
        if block.column == 2:
            for column, width in ((1, 34), (2, 16)):
                widths[column] = max(widths.get(column, 0), width)
        for spot, node, shown, unit in _cells(placed):
            self.styles.put(sheet.cell(spot.row, 1), _title(shown), "pb label")
            _merge(sheet, spot.row, 1, block.column - 1)
            text = not _is_number(node)
            self.write(sheet, spot, node, shown.style or ("pb computed text" if text else "pb computed"),
                       shown.format or self._format(unit))  # fmt: skip
            if text and block.text_span > 1:
                _merge(sheet, spot.row, block.column, block.text_span)
                continue
            shown_unit = "" if unit == "-" else self._unit(unit)
            self.styles.put(sheet.cell(spot.row, block.column + 1), shown_unit, "pb unit")
            if block.how:
                self.styles.put(sheet.cell(spot.row, block.column + 2), self._how(node, spot), "pb help")

    def _draw_table(self, sheet: Worksheet, placed: Placed, block: Table, widths: dict[int, float]) -> None:
        self.styles.put(sheet.cell(placed.top, 1), block.title, "pb subtitle")
        if block.note:
            self.styles.put(sheet.cell(placed.top + 1, 1), block.note, "pb help")
        if not block.records:
            self.styles.put(sheet.cell(placed.first_row, 1), "none surveyed; add rows to the survey, then refresh",
                            "pb help")  # fmt: skip
            return
        self._draw_headers(sheet, placed, block, widths)
        for spot, node, shown, unit in _cells(placed):
            style = shown.style or ("pb computed" if _is_number(node) else "pb computed text")
            self.write(sheet, spot, node, style, shown.format or self._format(unit))
            _merge(sheet, spot.row, spot.column, shown.span)
        self._fit_rows(sheet, placed, block, widths)
        if block.verdict:
            self._shade(sheet, placed, block)
        if self._flagged(block):
            self._draw_flags(sheet, placed, block)
        self._draw_totals(sheet, placed, block)

    def _draw_notes(self, sheet: Worksheet, placed: Placed, block: Notes) -> None:
        self.styles.put(sheet.cell(placed.top, 1), block.title, "pb subtitle")
        for row, line in enumerate(block.lines, start=placed.first_row):
            self.write(sheet, Spot(placed.sheet, row, 1, placed.number), line, "pb text")
            _merge(sheet, row, 1, block.span)
            plain = line if isinstance(line, str) else ""
            lines = lines_needed([plain], [NOTES_WIDTH])
            if lines > 1:
                sheet.row_dimensions[row].height = LINE_HEIGHT * lines + 3

    def _fit_rows(self, sheet: Worksheet, placed: Placed, block: Table, widths: Mapping[int, float]) -> None:
        """Rows as high as their longest text needs."""
        texts: dict[int, int] = {}
        for spot, node, shown, _ in _cells(placed):
            text = node.value if isinstance(node, TracedText) else node
            if isinstance(text, str):
                width = shown.width if shown.span > 1 else widths[spot.column]
                width /= BOLD if shown.attr == block.verdict else 1
                texts[spot.row] = max(texts.get(spot.row, 1), lines_needed([text], [width]))
        for row, lines in texts.items():
            if lines > 1:
                sheet.row_dimensions[row].height = LINE_HEIGHT * lines + 3

    def _shade(self, sheet: Worksheet, placed: Placed, block: Table) -> None:
        """Verdicts told apart by shade and weight, live; the words are the source."""
        column = next(column for column, shown in _columns(block) if shown.attr == block.verdict)
        letter, first = get_column_letter(column), placed.first_row
        area = f"{letter}{first}:{letter}{first + placed.rows - 1}"
        for words_shaded, colour, bold in VERDICTS:
            tests = ",".join(f'LEFT(${letter}{first},{len(word)})="{word}"' for word in words_shaded)
            rule = FormulaRule(formula=[f"OR({tests})"], fill=PatternFill(bgColor=colour, fill_type="solid"),
                               font=Font(bold=bold), stopIfTrue=True)  # type: ignore[no-untyped-call]  # fmt: skip
            sheet.conditional_formatting.add(area, rule)

    def _unit(self, unit: str) -> str:
        return unit.replace("money", self.currency)

    def _draw_headers(self, sheet: Worksheet, placed: Placed, block: Table, widths: dict[int, float]) -> None:
        units = _units(block.records[0])
        header = placed.first_row - 1 - bool(block.how)
        titles = []
        for column, shown in _columns(block):
            unit = units.get(shown.attr, "")
            title = f"{_title(shown)} ({self._unit(unit)})" if unit and unit != "-" else _title(shown)
            titles.append(title)
            if shown.span == 1:
                widths[column] = max(widths.get(column, 0), shown.width)
            self.styles.put(sheet.cell(header, column), title, "pb header")
            _merge(sheet, header, column, shown.span)
        own = [shown.width for shown in block.shows]
        sheet.row_dimensions[header].height = 6 + LINE_HEIGHT * lines_needed(titles, own)
        if block.how:
            texts = []
            for spot, node, _, _ in _cells(placed):
                if spot.row > placed.first_row:
                    break
                texts.append(self._how(node, spot))
                self.styles.put(sheet.cell(header + 1, spot.column), texts[-1], "pb how")
            # At 7 point a column holds a third more characters than its width says.
            lines = max(
                (lines_needed([text], [1.33 * width]) for text, width in zip(texts, own, strict=True)), default=1
            )
            sheet.row_dimensions[header + 1].height = 4 + 9 * lines

    def _how(self, node: Any, spot: Spot) -> str:
        """How a cell comes about, in words; nothing for an entry or a constant."""
        if not isinstance(node, Traced) or node.op in ("literal", "entry"):
            return "from the survey" if isinstance(node, Traced) and node.op == "entry" else ""
        spots = self.homes.of(node)
        if spots and spots[0] != spot:
            return f"from {spots[0].sheet}"
        return words(node, Labels(self.labels))

    def _draw_totals(self, sheet: Worksheet, placed: Placed, block: Table) -> None:
        if not any(shown.total for shown in block.shows):
            return
        row, units = placed.first_row + placed.rows, _units(block.records[0])
        self.styles.put(sheet.cell(row, 1), "Total", "pb total text")
        for column, shown in _columns(block):
            if not shown.total:
                if column > 1:
                    self.styles.give(sheet.cell(row, column), "pb total text")
                continue
            letter = get_column_letter(column)
            cell = sheet.cell(row, column)
            self.styles.give(cell, "pb total", shown.format or self._format(units.get(shown.attr, "")))
            cell.value = f"=SUM({letter}{placed.first_row}:{letter}{row - 1})"
            values = [getattr(record, shown.attr) for record in block.records]
            self.values[sheet.title, cell.coordinate] = sum(v.value if isinstance(v, Traced) else v for v in values)

    def _format(self, unit: str) -> str:
        return self.money_format if unit.startswith("money") else FORMATS.get(unit, "General")

    def write(self, sheet: Worksheet, spot: Spot, node: Any, style: str, number_format: str = "") -> None:
        """Write a node: its formula in its home, a reference elsewhere, a constant where it is one."""
        cell: Any = sheet.cell(spot.row, spot.column)
        if isinstance(node, (Traced, TracedText)) and node.op == "literal":
            node = node.value
        if isinstance(node, bool):
            node = "yes" if node else "no"
        if not isinstance(node, (Traced, TracedText)):
            self.styles.put(cell, node, style, number_format)
            return
        homes = self.homes.of(node)
        home = not homes or homes[0] == spot
        if isinstance(node, Traced) and node.op == "at issue" and home:
            self.styles.put(cell, node.value, "pb issued", number_format)
            return
        self.styles.give(cell, style, number_format)
        formula = self.renderer.formula(node, spot) if home else self.renderer.reference(node, spot)
        if isinstance(node, TracedText) and node.op == "entry":
            formula += '&""'  # an empty text cell must not show as 0
        cell.value = formula
        self.values[sheet.title, cell.coordinate] = node.value

    def followed(self, name: str) -> Iterable[tuple[str, str, str, str]]:
        """Every worked step of what is filed under one name: table, column with its unit, words, figures."""
        labels = Labels(self.labels)
        for placed in self.placed:
            if not isinstance(placed.block, Table):
                continue
            units = _units(placed.block.records[0]) if placed.block.records else {}
            rows = {spot.row for spot, node, _, _ in _cells(placed)
                    if spot.column == 1 and isinstance(node, (str, TracedText)) and text_of(node) == name}  # fmt: skip
            for spot, node, shown, _ in _cells(placed):
                worked = isinstance(node, Traced) and node.op not in ("literal", "entry", "given or", "at issue")
                if spot.row in rows and worked and self.homes.of(node)[0] == spot:
                    unit = self._unit(units.get(shown.attr, ""))
                    title = f"{_title(shown)} ({unit})" if unit and unit != "-" else _title(shown)
                    yield placed.block.title, title, words(node, labels), figures(node, labels)

    # ------------------------------------------------------------------------------------------ worked out at issue

    @staticmethod
    def _flagged(block: Table) -> bool:
        return any(
            isinstance(getattr(record, shown.attr), Traced) and getattr(record, shown.attr).op == "at issue"
            for record in block.records
            for shown in block.shows
        )

    def keep_inputs(self) -> None:
        """Note every input of every result worked out at issue, row by row. Call after placing, before drawing."""
        for placed in self.placed:
            seen: set[tuple[int, int]] = set()
            for spot, node, shown, _ in _cells(placed):
                if not isinstance(node, Traced) or node.op != "at issue" or self.homes.of(node)[0] != spot:
                    continue
                for part in node.args:
                    if (spot.row, id(part)) not in seen:
                        seen.add((spot.row, id(part)))
                        what = f"{_title(shown)}: {self.labels.get(id(part), 'input')}"
                        self.kept.append(Kept(placed.sheet, spot.row, what, part))

    def _draw_flags(self, sheet: Worksheet, placed: Placed, block: Table) -> None:
        column = sum(shown.span for shown in block.shows) + 1
        header = placed.first_row - 1 - bool(block.how)
        self.styles.put(sheet.cell(header, column), "Still holds", "pb header")
        last = KEPT_FIRST_ROW + len(self.kept) - 1
        ranges = [f"{quote(KEPT_SHEET)}!${c}${KEPT_FIRST_ROW}:${c}${last}" for c in "FAB"]
        for row in range(placed.first_row, placed.first_row + placed.rows):
            cell: Any = sheet.cell(row, column)
            self.styles.give(cell, "pb computed text")
            cell.value = f'=IF(SUMIFS({ranges[0]},{ranges[1]},"{sheet.title}",{ranges[2]},ROW())=0,"yes","OUT OF DATE")'
            self.values[sheet.title, cell.coordinate] = "yes"

    # ------------------------------------------------------------------------------------------ finishing

    def content(self, modified: datetime) -> bytes:
        """The finished workbook as a file's content, every formula with its result."""
        stream = BytesIO()
        self.book.save(stream)
        return inject(stream.getvalue(), self.values, modified=modified)


KEPT_SHEET = "At issue"
KEPT_FIRST_ROW = 8
FIRST_BLOCK_ROW = 6
NOTES_WIDTH = 96
"""Characters a line of notes holds before it wraps."""

STALE = "OUT OF DATE: entries have changed that the plan or a worked-out result rests on; issue the estimate again"
STALE_FORMULA = f'=IF(plan_changed+results_changed=0,"","{STALE}")'

VERDICTS = (
    (("STOP", "missing"), FAIL, True),
    (("correct", "within the limits set if"), WARN, True),
    (("within", "answered"), PASS, False),
)
"""Words a verdict begins with, the shade of its cell, and whether it stands in bold; the first that fits holds."""


def _cells(placed: Placed) -> Iterable[tuple[Spot, Any, Show, str]]:
    """Every cell of a block: where, what, how it is shown, unit."""
    block = placed.block
    if isinstance(block, Listing):
        units, first = _units(block.record), placed.first_row
        for order, shown in enumerate(block.shows):
            spot = Spot(placed.sheet, first + order, block.column, placed.number)
            yield spot, getattr(block.record, shown.attr), shown, units.get(shown.attr, "")
        return
    if isinstance(block, Notes):
        return
    units, first = (_units(block.records[0]) if block.records else {}), placed.first_row
    for order, record in enumerate(block.records):
        for column, shown in _columns(block):
            spot = Spot(placed.sheet, first + order, column, placed.number)
            yield spot, getattr(record, shown.attr), shown, units.get(shown.attr, "")


def _columns(block: Table) -> Iterable[tuple[int, Show]]:
    column = 1
    for shown in block.shows:
        yield column, shown
        column += shown.span


def _merge(sheet: Worksheet, row: int, column: int, span: int) -> None:
    if span > 1:
        sheet.merge_cells(start_row=row, end_row=row, start_column=column, end_column=column + span - 1)


def _units(record: Any) -> Mapping[str, str]:
    return {item.name: item.metadata.get("unit", "") for item in fields(record)}


def _title(shown: Show) -> str:
    return shown.title or shown.attr.replace("_", " ").capitalize()


def _is_number(node: Any) -> bool:
    return isinstance(node, (int, float, Traced)) and not isinstance(node, bool)
