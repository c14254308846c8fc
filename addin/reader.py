"""Reads a survey workbook into entries that know their cells, and lists everything that is wrong with it at once.

Covers   finding sheets by title and columns by header in any order; blank, example and hidden rows; formulas by their
         last result; names, repeated names and references across sheets; rows that must be there.
Not      one cell's meaning (entries), geometry (walls that meet nothing, openings outside a wall), units of the
         calculation: values stay in their column's unit.
Rules    A fault never stops the reading; only a file that is no workbook does. A cell that could not be read is
         flagged and None, so no result can be made of it by mistake.
"""

import re
from collections.abc import Collection, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from difflib import get_close_matches

from openpyxl.utils import get_column_letter

from addin import tables
from addin.door import HEAD_ROWS, Raw, SheetRead
from addin.entries import Entry, Known, Refused, check_name, clean, folded, is_blank, read_entry, shown
from addin.layout import EXAMPLE_MARK, HEADER_ROW, JOB, JOB_TITLES, LIVE_MARK, TABLES, Column, Sheet
from addin.problems import CellRef, Problem
from addin.survey_book import HELP_SHEET, LISTS_SHEET, START_SHEET, blank_text

_YOUR_OWN = "Nothing needs doing if it is your own."

EXAMPLE_CELLS = 5
"""Further cells an example must have before the same in all of them is no accident."""

ALIKE = 4
"""Headings a sheet shares with one of the survey's before it is taken to be meant for it."""


NAMES_SHOWN = 8
"""More missing rows than this are counted and not named."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Row:
    """One row of a survey sheet; `row["thickness"]` is its entry."""

    sheet: str
    index: int
    """Its place among the rows read from the sheet, from 0."""
    number: int
    """Its row number in the file."""
    entries: Mapping[str, Entry]

    def __getitem__(self, key: str) -> Entry:
        return self.entries[key]

    @property
    def faulty(self) -> bool:
        """A fault stands against a cell of the row."""
        return any(entry.faulty for entry in self.entries.values())


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reading:
    """A survey as read: every entry of Job, every row of every sheet, and what is wrong or doubtful."""

    job: Mapping[str, Entry]
    tables: Mapping[str, tuple[Row, ...]]
    """By sheet title; every sheet of the layout is there, without rows if the file has none."""
    faults: tuple[Problem, ...]
    warnings: tuple[Problem, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Page:
    """A sheet of the file with its columns found: the rows that hold anything, by row number and column key."""

    sheet: Sheet
    columns: Mapping[str, int]
    header_row: int
    rows: Mapping[int, Mapping[str, Raw]]


def read_survey(sheets: Sequence[SheetRead], ours: Collection[str] = ()) -> Reading:
    """Everything a survey workbook says, and everything that is wrong with it.

    Args:
        sheets: the workbook's sheets as its door hands them over
        ours: titles of further sheets of this project, such as those of an issued estimate, passed over in silence
    """
    return _Reader(sheets, ours).read()


class _Reader:
    """One reading: the sheets, and the problems found so far."""

    def __init__(self, sheets: Sequence[SheetRead], ours: Collection[str]) -> None:
        self._sheets = {folded(page.title): page for page in reversed(sheets)}
        self._titles = [page.title for page in sheets]
        self._ours = {folded(title) for title in (*ours, START_SHEET, HELP_SHEET, LISTS_SHEET)}
        self.faults: list[Problem] = []
        self.warnings: list[Problem] = []

    def read(self) -> Reading:
        self._check_titles()
        pages = {sheet.title: page for sheet in TABLES if (page := self._page(sheet))}
        known = Known(
            names={title: _names_on(page) for title, page in pages.items()},
            lines=_names_on(pages["Grid"]) if "Grid" in pages else {},
        )
        job = self._job(known)
        rows = {sheet.title: self._rows(pages.get(sheet.title), known) for sheet in TABLES}
        self._check_defaults(rows, known)
        self._check_allowances(pages.get("Allowances"), known)
        return Reading(job=job, tables=rows, faults=tuple(self.faults), warnings=tuple(self.warnings))

    def _fault(self, code: str, where: CellRef, subject: str, found: str, rule: str, fix: str) -> None:
        self.faults.append(Problem(code=code, where=where, subject=subject, found=found, rule=rule, fix=fix))

    def _warn(self, code: str, where: CellRef, subject: str, found: str, rule: str, fix: str) -> None:
        self.warnings.append(Problem(code=code, where=where, subject=subject, found=found, rule=rule, fix=fix))

    def _check_titles(self) -> None:
        """Sheets that look like the survey's and are not, and sheets that are missing.

        A sheet of the user's own is nobody's business: it goes unsaid unless it might have been meant for the survey.
        """
        wanted = {"job": "Job"} | {folded(sheet.title): sheet.title for sheet in TABLES}
        for title in self._titles:
            if folded(title) not in wanted and folded(title) not in self._ours:
                near = get_close_matches(folded(title), list(wanted), n=1, cutoff=0.7)
                like = wanted[near[0]] if near else _alike(self._sheets[folded(title)])
                if like:
                    self._warn("UNKNOWN-SHEET", CellRef(title, ""), "the sheet", "not one of the survey's",
                               "it is passed over", f"Call it {like}, if it is that. {_YOUR_OWN}")  # fmt: skip
        must = {"Job"} | {sheet.title for sheet in TABLES if sheet.required or sheet.shipped}
        for fold, title in wanted.items():
            if fold in self._sheets:
                continue
            fix = "Copy the sheet in from a blank survey, or give it back its title."
            if title in must:
                self._fault("MISSING-SHEET", CellRef(title, ""), "the sheet", "not in the workbook", "it must be", fix)
            else:
                self._warn("MISSING-SHEET", CellRef(title, ""), "the sheet", "not in the workbook",
                           "it is taken as empty", fix)  # fmt: skip

    def _page(self, sheet: Sheet) -> _Page | None:
        """The sheet's columns and filled rows, or None when it has no headers."""
        page = self._sheets.get(folded(sheet.title))
        if page is None:
            return None
        titles = {_squeezed(column.title): column for column in sheet.columns}
        header_row = _header_row(page, titles)
        if header_row is None:
            self._fault("MISSING-HEADER", CellRef(page.title, f"A{HEADER_ROW}"), "the row of headings", "not there",
                        f"it must be among the first {HEAD_ROWS} rows",
                        f"Write the headings again, beginning with {sheet.columns[0].header}.")  # fmt: skip
            return None
        columns = self._columns(page, sheet, header_row, titles)
        rows: dict[int, dict[str, Raw]] = {}
        keys = {number: key for key, number in columns.items()}
        for (row, number), raw in page.cells.items():
            if row > header_row and number in keys and not is_blank(raw):
                rows.setdefault(row, {})[keys[number]] = raw
        entered = {
            row: raws for row, raws in sorted(rows.items()) if not self._is_example(page, sheet, row, raws, columns)
        }
        return _Page(sheet=sheet, columns=columns, header_row=header_row, rows=entered)

    def _columns(self, page: SheetRead, sheet: Sheet, header_row: int, titles: Mapping[str, Column]) -> dict[str, int]:
        """Column key -> column number in the file; problems with the headers are noted."""
        found: dict[str, int] = {}
        for (row, number), cell in page.cells.items():
            header = clean(cell.value)
            if row != header_row or not header:
                continue
            where = CellRef(page.title, f"{get_column_letter(number)}{row}")
            title, unit = _header_parts(header)
            column = titles.get(_squeezed(header)) or titles.get(title)
            if folded(header).startswith(LIVE_MARK):
                continue
            if column is None:
                near = get_close_matches(title, list(titles), n=1, cutoff=0.75)
                fix = f"Write {titles[near[0]].header}, if it is that." if near else _YOUR_OWN
                self._warn("UNKNOWN-COLUMN", where, "the heading", shown(header),
                           "no column of this sheet is called so, and it is passed over", fix)  # fmt: skip
            elif column.key in found:
                rule = f"column {get_column_letter(found[column.key])} has it too"
                self._fault("DUPLICATE-COLUMN", where, "the heading", shown(header), rule, "Keep one of them.")
            else:
                found[column.key] = number
                if unit and column.kind == "number" and unit != _squeezed(column.unit):
                    rule = f"the column is in {column.unit or 'plain numbers'}"
                    fix = f"Write {column.header}, and type the unit with each number that is in another one."
                    self._fault("COLUMN-UNIT", where, "the heading", shown(header), rule, fix)
        self._check_columns(page, sheet, header_row, found)
        return found

    def _check_columns(self, page: SheetRead, sheet: Sheet, header_row: int, found: Mapping[str, int]) -> None:
        for column in sheet.columns:
            if column.key in found:
                continue
            where = CellRef(page.title, f"A{header_row}")
            add, named = f"Add a column headed {column.header}.", f"column {column.header}"
            if column.required:
                self._fault("MISSING-COLUMN", where, named, "not there", "it must be", add)
            else:
                self._warn("MISSING-COLUMN", where, named, "not there",
                           f"each row is read as if it were blank: {blank_text(column)}", add)  # fmt: skip

    def _is_example(
        self, page: SheetRead, sheet: Sheet, row: int, raws: Mapping[str, Raw], columns: Mapping[str, int]
    ) -> bool:
        """Whether the row's first column begins with the mark of an example; said aloud if the rest was changed."""
        first = sheet.columns[0]
        stands = {key: folded(clean(raw.value)) for key, raw in raws.items()}
        shipped = {column.key: folded(column.example) for column in sheet.columns if column.example}
        if first.key not in raws or not clean(raws[first.key].value).startswith(EXAMPLE_MARK):
            others = {key: text for key, text in shipped.items() if key != first.key and key in columns}
            if (
                len(others) >= EXAMPLE_CELLS
                and {key: text for key, text in stands.items() if key != first.key} == others
            ):
                self._warn("EXAMPLE-LEFT", CellRef(page.title, f"{get_column_letter(columns[first.key])}{row}"),
                           "the row", "the grey example with another first cell",
                           "it counts as surveyed", "Write over the rest of it too.")  # fmt: skip
            return False
        if stands != {key: text for key, text in shipped.items() if key in columns}:
            self._warn("EXAMPLE-CHANGED", CellRef(page.title, f"{get_column_letter(columns[first.key])}{row}"),
                       _subject_first(sheet), shown(clean(raws[first.key].value)),
                       f"a row that begins with {EXAMPLE_MARK} is passed over, and this one is no longer the example",
                       f"Take {EXAMPLE_MARK} away if the row counts.")  # fmt: skip
        return True

    def _job(self, known: Known) -> dict[str, Entry]:
        """Every entry of the Job sheet; all blank where the sheet is missing."""
        page = self._sheets.get("job")
        found = self._job_cells(page) if page is not None else None
        job = {}
        for column in JOB:
            if found and column.key in found:
                job[column.key] = read_entry(column, *found[column.key], known, self.faults)
                continue
            where = CellRef("Job", "")
            job[column.key] = Entry(key=column.key, where=where, faulty=column.required)
            # Without the sheet or its headings there is one fault for all of them.
            if found is not None:
                self._missing_entry(column, where)
        return job

    def _missing_entry(self, column: Column, where: CellRef) -> None:
        fix = f"Add a line with {column.title} in column A."
        if column.required:
            self._fault("MISSING-ENTRY", where, f"the line {column.title}", "not there", "it must be filled in", fix)
        else:
            self._warn("MISSING-LINE", where, f"the line {column.title}", "not there",
                       f"it is read as if it were blank: {blank_text(column)}", fix)  # fmt: skip

    def _job_cells(self, page: SheetRead) -> dict[str, tuple[Raw, CellRef]] | None:
        """Entry key -> what stands beside its title; None when there are no headings."""
        titles = {_squeezed(title): title for title in JOB_TITLES}
        header_row = _header_row(page, titles)
        places = {
            titles[squeezed]: number
            for (row, number), cell in page.cells.items()
            if row == header_row and (squeezed := _squeezed(clean(cell.value))) in titles
        }
        if "Entry" not in places or "Value" not in places:
            self._fault("MISSING-HEADER", CellRef(page.title, f"A{HEADER_ROW}"), "the row of headings", "not there",
                        f"{JOB_TITLES[0]} and {JOB_TITLES[1]} must be among the first {HEAD_ROWS} rows",
                        "Write the headings again.")  # fmt: skip
            return None
        columns = {_squeezed(column.title): column for column in JOB}
        found: dict[str, tuple[Raw, CellRef]] = {}
        for (row, number), cell in page.cells.items():
            label = clean(cell.value)
            if row <= (header_row or 0) or number != places["Entry"] or not label:
                continue
            column = columns.get(_squeezed(label)) or columns.get(_header_parts(label)[0])
            raw = page.cells.get((row, places["Value"]), Raw(value=None))
            where = CellRef(page.title, f"{get_column_letter(places['Value'])}{row}")
            if column is None:
                if not is_blank(raw):
                    self._warn("UNKNOWN-ENTRY", where, "the line", shown(label),
                               "Job has no such entry, and it is passed over", _YOUR_OWN)  # fmt: skip
            elif column.key in found:
                self._fault("DUPLICATE-ENTRY", where, f"the line {column.title}", "there twice",
                            f"it stands at {found[column.key][1].cell} already", "Keep one of them.")  # fmt: skip
            else:
                found[column.key] = (raw, where)
                self._check_job_unit(page, column, row, places.get("Unit"), label)
        return found

    def _check_job_unit(self, page: SheetRead, column: Column, row: int, unit_column: int | None, label: str) -> None:
        """A unit beside an entry, or in its title, that is not the entry's."""
        beside = page.cells.get((row, unit_column)) if unit_column else None
        for unit in (clean(beside.value) if beside is not None else "", _header_parts(label)[1]):
            if unit and column.kind == "number" and _squeezed(unit) != _squeezed(column.unit):
                self._fault("COLUMN-UNIT", CellRef(page.title, f"{get_column_letter(unit_column or 1)}{row}"),
                            f"the unit of {column.title}", shown(unit),
                            f"the entry is in {column.unit or 'plain numbers'}",
                            "Put the unit back, and type another unit with the number itself.")  # fmt: skip

    def _rows(self, page: _Page | None, known: Known) -> tuple[Row, ...]:
        """The rows of one sheet, in the order of the file."""
        if page is None:
            return ()
        title = self._sheets[folded(page.sheet.title)].title
        if page.sheet.required and not page.rows:
            first = get_column_letter(min(page.columns.values(), default=1))
            where = CellRef(title, f"{first}{page.header_row + 1}")
            rule = f"there must be a row for every {page.sheet.row_is}"
            self._fault("MISSING-ENTRY", where, "the sheet", "without any row", rule, "Fill in the rows.")
        rows = []
        seen: dict[str, CellRef] = {}
        for index, (number, raws) in enumerate(page.rows.items()):
            entries = {}
            for column in page.sheet.columns:
                cell = f"{get_column_letter(page.columns[column.key])}{number}" if column.key in page.columns else ""
                where = CellRef(title, cell)
                if cell:
                    entry = read_entry(column, raws.get(column.key, Raw(value=None)), where, known, self.faults)
                else:
                    entry = Entry(key=column.key, where=where, faulty=column.required)
                if column.kind == "name" and isinstance(entry.value, str):
                    entry = self._unrepeated(entry, entry.value, seen)
                entries[column.key] = entry
            rows.append(Row(sheet=page.sheet.title, index=index, number=number, entries=entries))
        return tuple(rows)

    def _unrepeated(self, entry: Entry, name: str, seen: dict[str, CellRef]) -> Entry:
        """The entry, or a flagged one where an earlier row has the name."""
        earlier = seen.setdefault(folded(name), entry.where)
        if earlier is entry.where:
            return entry
        rule = f"{earlier.cell} has it already (capitals make no difference)"
        self._fault("DUPLICATE-NAME", entry.where, "the name", shown(name), rule, "Give one of them another name.")
        return Entry(key=entry.key, where=entry.where, faulty=True)

    def _check_defaults(self, rows: Mapping[str, tuple[Row, ...]], known: Known) -> None:
        """A blank that stands for a name which is no longer listed; said once a column."""
        for sheet in TABLES:
            for column in sheet.columns:
                if not column.refers or not isinstance(column.default, str) or column.default.startswith("="):
                    continue
                if any(folded(column.default) in known.names.get(title, {}) for title in column.refers):
                    continue
                blank = next((row[column.key] for row in rows[sheet.title] if row[column.key].blank), None)
                if blank is not None:
                    self._fault("UNKNOWN-NAME", blank.where, column.title.lower(), "blank",
                                f"a blank stands for {column.default}, which {column.refers[0]} no longer lists",
                                f"Type another name, or add {column.default} to {column.refers[0]}.")  # fmt: skip

    def _check_allowances(self, page: _Page | None, known: Known) -> None:
        """Shipped rows that an earlier version did not have, or that were taken out, stand as shipped, and say so."""
        if page is None:
            return
        missing = [row for row in tables.figures() if folded(row.key) not in known.names["Allowances"]]
        if missing:
            named = ", ".join(f"{row.key} ({row.value:.10g} {row.unit})" for row in missing[:NAMES_SHOWN])
            more = f" and {len(missing) - NAMES_SHOWN} more" if len(missing) > NAMES_SHOWN else ""
            self._warn("MISSING-ALLOWANCE", CellRef(self._sheets["allowances"].title, ""),
                       "the list of allowances", f"without {named}{more}", "the calculation needs them",
                       "They are taken as shipped; the issued workbook lists all of them.")  # fmt: skip


def _subject_first(sheet: Sheet) -> str:
    """What messages call the first column of a sheet."""
    return f"the {sheet.columns[0].title.lower()}"


def _names_on(page: _Page) -> dict[str, str]:
    """Folded name -> name, for every row of a sheet, faulty names included so that one fault is told once."""
    first = page.sheet.columns[0]
    if first.kind != "name":
        return {}
    names: dict[str, str] = {}
    for raws in page.rows.values():
        if first.key in raws and raws[first.key].kind == "value":
            name = " ".join(clean(raws[first.key].value).split())
            with suppress(Refused):
                name = check_name(name, page.sheet.title)
            names.setdefault(folded(name), name)
    return names


def _squeezed(text: str) -> str:
    """Text without spaces and capitals, and with plain exponents, to compare headers and units."""
    return re.sub(r"\s+", "", text).casefold().replace("\xb2", "2").replace("\xb3", "3")


def _header_parts(header: str) -> tuple[str, str]:
    """Title and unit of a header, squeezed.

    >>> _header_parts("Thickness ( mm )")
    ('thickness', 'mm')
    """
    match = re.fullmatch(r"(.*?)\(([^()]*)\)", _squeezed(header))
    return (match[1], match[2]) if match else (_squeezed(header), "")


def _alike(page: SheetRead) -> str:
    """Title of the survey sheet whose headings another sheet has, or nothing."""
    for sheet in TABLES:
        titles = {_squeezed(column.title) for column in sheet.columns}
        row = _header_row(page, titles)
        if row is not None and len(titles & _headings(page, row)) >= min(ALIKE, len(titles)):
            return sheet.title
    return ""


def _headings(page: SheetRead, row: int) -> set[str]:
    """What stands in a row, squeezed, with and without the unit."""
    texts = [_squeezed(clean(raw.value)) for (at, _), raw in page.cells.items() if at == row]
    return {part for text in texts for part in (text, _header_parts(text)[0])}


def _header_row(page: SheetRead, titles: Collection[str]) -> int | None:
    """The row that holds most of the titles, the upper one of two alike; None if no row holds any."""
    hits: dict[int, set[str]] = {}
    for (row, _), cell in page.cells.items():
        if row > HEAD_ROWS:
            break
        squeezed = _squeezed(clean(cell.value))
        hits.setdefault(row, set()).update({squeezed, _header_parts(squeezed)[0]} & set(titles))
    best = max(hits, key=lambda row: len(hits[row]), default=None)
    return best if best is not None and hits[best] else None
