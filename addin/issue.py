"""The issued workbook: results, survey, and what holds them together, as a file's content.

Covers   the order of sheets, the Job column that shows entries in use, opening sheet, Basis, notes of what was typed.
Not      which results stand where (sheets), the figures (calc).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from openpyxl.comments import Comment
from openpyxl.utils import get_column_letter
from openpyxl.workbook import Workbook
from openpyxl.worksheet.hyperlink import Hyperlink

from addin import tables
from addin.formulas import Spot, quote
from addin.guarding import draw_kept
from addin.kinds import Cell, Tracing
from addin.layout import FIRST_ROW, HEADER_ROW, JOB, SHEET
from addin.lift_log import LOG_SHEET, Log, worked_log
from addin.lift_log_sheet import LogSheets, draw_no_log
from addin.marks import mark
from addin.plan_sheet import draw_plan
from addin.problems import CellRef, Problem
from addin.result_book import KEPT_SHEET, STALE_FORMULA, ResultBook
from addin.sheets import CAUTIONS, LOG_STAGES_SHEET, LOG_WORKINGS_SHEET, TABS, WHAT, pages
from addin.styles import LINE_HEIGHT, Styles, lines_needed, protect, set_page
from addin.survey_book import add_survey_sheets
from addin.surveying import CALC_UNIT, Issued
from calc.allowances import Allowances
from calc.estimate import Estimate
from calc.lift_log import stage_targets
from calc.member_rules import MemberRules
from calc.number import Text, Traced, TracedText, value_of
from calc.survey import Entered, Survey

JOB_IN_USE_COLUMN = 6
FOLLOWED_SHEET = "Followed through"
LAKH_CURRENCIES = ("rupee", "taka", "rs", "inr", "npr", "bdt", "lkr")
"""Currencies whose digits are grouped in lakh and crore; matched at the start of the word."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Issue:
    """Everything an issued workbook is made from."""

    rows: Issued
    survey: Survey
    allowances: Allowances
    rules: MemberRules
    found: Estimate
    log: Log
    warnings: Sequence[Problem]
    holds: Sequence[Problem]
    issued_on: date


def issue_bytes(issue: Issue) -> bytes:
    """The issued workbook as a file's content; the same bytes for the same issue."""
    book = Workbook()
    book.remove(book.worksheets[0])
    book.properties.creator, book.properties.title = "plinthbook", "House raising estimate"
    book.create_sheet("Contents")
    results = ResultBook(book=book, styles=Styles(book))
    currency = str(issue.rows.job.get("currency") or "money")
    results.currency, results.money_format = currency, money_format(issue)
    _name_entries(results, issue)
    log = _log_sheets(results, issue)
    all_pages = (*pages(issue.found, issue.survey, _job_texts(issue)), *((log.page(),) if log else ()))
    for page in all_pages:
        results.place(page)
    if log:
        log.place()
    results.keep_inputs()
    by_title = {page.title: page for page in all_pages}
    for title in TABS:
        if title in by_title:
            results.draw(by_title[title])
        elif title == KEPT_SHEET:
            draw_kept(results, issue.rows, issue.survey)
        elif title == "Basis":
            _draw_basis(results, issue)
        elif title == "Plan":
            draw_plan(results, issue.found.view, issue.found.release.heading)
        elif title == FOLLOWED_SHEET:
            _draw_followed(results, issue)
        elif title in (LOG_SHEET, LOG_STAGES_SHEET, LOG_WORKINGS_SHEET) and log is None:
            draw_no_log(results, title, issue.found.release.jack_heading)
        elif title == LOG_SHEET and log:
            log.draw_log()
        elif title == LOG_STAGES_SHEET and log:
            log.draw_stages()
    add_survey_sheets(
        book, results.styles, job=issue.rows.job,
        rows={title: [row.values for row in rows] for title, rows in issue.rows.tables.items()},
        places={title: [row.number for row in rows] for title, rows in issue.rows.tables.items()},
    )  # fmt: skip
    _draw_job_in_use(results, issue.survey)
    _note_what_was_typed(book, issue.rows)
    _draw_contents(results, issue)
    book.active = book.sheetnames.index("Offer")
    mark(book, TABS)
    return results.content(datetime.combine(issue.issued_on, datetime.min.time()))


def _log_sheets(results: ResultBook, issue: Issue) -> LogSheets | None:
    """The lift log in traced numbers; None where there is nothing to compare."""
    if not issue.log.drawn:
        return None
    found = worked_log(issue.log, issue.survey, issue.found, issue.allowances, Tracing())
    targets = stage_targets(issue.log.stages, issue.found.levels.rise, issue.allowances)
    return LogSheets(results, issue.log, found, targets, issue.found.release.jack_heading)


def money_format(issue: Issue) -> str:
    """Digits after the point by the smallest coin, groups by the currency."""
    coin = issue.rows.job.get("smallest_coin")
    whole = coin is None or (isinstance(coin, (int, float)) and coin >= 1)
    digits = "#,##0" if whole else "#,##0.00"
    currency = str(issue.rows.job.get("currency") or "").casefold()
    # The locale tag groups in lakh and keeps the minus sign; a format of three sections loses it.
    return f"[$-4009]{digits}" if currency.startswith(LAKH_CURRENCIES) else digits


def _name_entries(results: ResultBook, issue: Issue) -> None:
    """Names for the allowances, and the Job entries in use at home in their own column."""
    rules = issue.rules
    for record in (issue.allowances, rules.steel, rules.packing, rules.bases, rules.jacks):
        for name in type(record).__dataclass_fields__:
            node = getattr(record, name)
            cell: Cell = node.args[0]
            results.name_entry(node, name, cell.sheet, f"{get_column_letter(cell.column)}{cell.row}")
    for number, key, node in _job_nodes(issue.survey):
        results.homes.place(node, Spot("Job", number, JOB_IN_USE_COLUMN, -1))
        results.name_entry(node, key, "Job", f"{get_column_letter(JOB_IN_USE_COLUMN)}{number}")


def _job_nodes(survey: Survey) -> list[tuple[int, str, Traced | TracedText]]:
    nodes = []
    for number, column in enumerate(JOB, start=FIRST_ROW):
        value = getattr(survey.job, column.key, None)
        node = value.value if isinstance(value, Entered) else value
        if isinstance(node, (Traced, TracedText)) and column.kind != "date":
            nodes.append((number, column.key, node))
    return nodes


def in_use_cells() -> tuple[str, ...]:
    """The cells of the Job sheet that are not the survey's: the column that shows entries in use, and its units."""
    return tuple(
        f"{get_column_letter(column)}{row}"
        for row in range(HEADER_ROW, FIRST_ROW + len(JOB))
        for column in (JOB_IN_USE_COLUMN, JOB_IN_USE_COLUMN + 1)
    )


def _draw_job_in_use(results: ResultBook, survey: Survey) -> None:
    sheet = results.book["Job"]
    for column, title, width in ((6, "In use", 14), (7, "Unit in use", 12)):
        results.styles.put(sheet.cell(HEADER_ROW, column), title, "pb header")
        sheet.column_dimensions[get_column_letter(column)].width = width
    units = {column.key: CALC_UNIT.get(column.unit, column.unit) for column in JOB}
    for number, key, node in _job_nodes(survey):
        text = isinstance(node, TracedText)
        spot = Spot("Job", number, JOB_IN_USE_COLUMN, -1)
        results.write(sheet, spot, node, "pb computed text" if text else "pb computed")
        unit = results.currency if units[key] == "money" else units[key]
        results.styles.put(sheet.cell(number, 7), "" if text or unit == "-" else unit, "pb note")


def _job_texts(issue: Issue) -> dict[str, Text]:
    rows = {column.key: number for number, column in enumerate(JOB, start=FIRST_ROW)}
    return {
        key: TracedText(str(issue.rows.job.get(key) or ""), "entry", (Cell("Job", rows[key], 2),))
        for key in ("job_name", "client", "place", "reason")
    }


def _note_what_was_typed(book: Workbook, rows: Issued) -> None:
    """The original text of an entry that carried a unit, as a note on its cell."""
    for title, issued_rows in rows.tables.items():
        for row in issued_rows:
            for order, column in enumerate(SHEET[title].columns, start=1):
                typed = row.entries[column.key].typed if column.key in row.entries else ""
                if typed:
                    cell = book[title].cell(row.number, order)
                    cell.comment = Comment(f"Typed in the survey: {typed}", "plinthbook", width=160, height=40)


def _draw_contents(results: ResultBook, issue: Issue) -> None:
    sheet, put = results.book["Contents"], results.styles.put
    put(sheet["A1"], "House raising estimate", "pb title")
    put(sheet["A2"], f"Issued {issue.issued_on.isoformat()} by plinthbook. Entries are on the survey sheets; "
                     f"everything "
        "else follows from them.", "pb help")  # fmt: skip
    results.write(sheet, Spot("Contents", 3, 1), issue.found.release.heading, "pb warning")
    results.styles.give(sheet["A4"], "pb warning")
    sheet["A4"] = STALE_FORMULA
    results.values["Contents", "A4"] = ""
    for column, header in enumerate(("Sheet", "What is there"), start=1):
        put(sheet.cell(6, column), header, "pb header")
    kinds = [(title, WHAT[title]) for title in TABS if title in WHAT]
    kinds += [("Job", "Survey: entries of the whole job")]
    kinds += [(title, f"Survey: one row is one {SHEET[title].row_is}") for title in SHEET]
    for row, (title, text) in enumerate(kinds, start=7):
        cell = put(sheet.cell(row, 1), title, "pb link")
        cell.hyperlink = Hyperlink(ref=cell.coordinate, location=f"{quote(title)}!A1")
        results.styles.give(cell, "pb link")
        put(sheet.cell(row, 2), text, "pb text")
        sheet.row_dimensions[row].height = LINE_HEIGHT * lines_needed([text], [96]) + 2
    last = 8 + len(kinds)
    put(sheet.cell(last, 1), "Cells", "pb subtitle")
    for row, (style, text) in enumerate((
        ("pb entry", "Entries: change them here and every result follows"),
        ("pb computed", "Results: live formulas, protected without a password"),
        ("pb issued", "Worked out at issue: says OUT OF DATE when what it rests on has changed"),
    ), start=last + 1):  # fmt: skip
        results.styles.give(sheet.cell(row, 1), style)
        put(sheet.cell(row, 2), text, "pb text")
    sheet.column_dimensions["A"].width, sheet.column_dimensions["B"].width = 18, 96
    set_page(sheet, portrait=True)
    protect(sheet)


def _draw_followed(results: ResultBook, issue: Issue) -> None:
    """One wall step by step; the sentences are as at issue, the sheets they point at are live."""
    walls = [base for base in issue.found.taken.bases if base.kind == "wall"]
    heaviest = max(walls or issue.found.taken.bases, key=lambda base: value_of(base.lifted))
    sheet, put = results.book.create_sheet(FOLLOWED_SHEET), results.styles.put
    put(sheet["A1"], f"{heaviest.kind.capitalize()} {heaviest.name} followed through", "pb title")
    help_text = (
        "Every step for the heaviest wall, as at issue. Each table named here shows the same step live for every wall."
    )
    put(sheet["A2"], help_text, "pb help")
    results.write(sheet, Spot(FOLLOWED_SHEET, 3, 1), issue.found.release.heading, "pb warning")
    results.styles.give(sheet["A4"], "pb warning")
    sheet["A4"] = STALE_FORMULA
    results.values[FOLLOWED_SHEET, "A4"] = ""
    widths = (30, 26, 52, 62)
    for column, (title, width) in enumerate(zip(("Table", "Column", "In words", "In figures"), widths, strict=True), 1):
        put(sheet.cell(5, column), title, "pb header")
        sheet.column_dimensions[get_column_letter(column)].width = width
    for row, texts in enumerate(results.followed(str(heaviest.name)), start=6):
        for column, text in enumerate(texts, start=1):
            put(sheet.cell(row, column), text, "pb computed text")
        sheet.row_dimensions[row].height = LINE_HEIGHT * lines_needed(texts, widths) + 3
    sheet.freeze_panes = "A6"
    set_page(sheet, repeat_rows="1:5")
    protect(sheet)


def _issued_places(rows: Issued) -> dict[CellRef, CellRef]:
    """Cell of the survey -> cell of the issued workbook: rows move up where an example or an empty row stood."""
    return {
        row.entries[column.key].where: CellRef(title, f"{get_column_letter(order)}{row.number}")
        for title, issued_rows in rows.tables.items()
        for row in issued_rows
        for order, column in enumerate(SHEET[title].columns, start=1)
        if column.key in row.entries and row.entries[column.key].where.cell
    }


def _place(problem: Problem, places: Mapping[CellRef, CellRef]) -> str:
    """Where a problem stands in this workbook; what is only in the survey, such as a row passed over, says so."""
    where = problem.where
    if where in places:
        return str(places[where])
    return f"{where} of the survey" if where.sheet in SHEET and where.cell else str(where)


def _draw_basis(results: ResultBook, issue: Issue) -> None:
    sheet, put = results.book.create_sheet("Basis"), results.styles.put
    put(sheet["A1"], "Basis", "pb title")
    put(sheet["A2"], WHAT["Basis"], "pb help")
    row = 4
    places = _issued_places(issue.rows)
    doubts = [(_place(p, places), f"{p.subject} is {p.found}, but {p.rule}. {p.fix}") for p in issue.warnings]
    holds = [(_place(p, places), f"{p.subject}: {p.found}. {p.fix}") for p in issue.holds]
    statements = [(a.topic, f"{a.statement} [{a.source}]") for a in tables.assumptions()]
    cautions = [("", text) for text in CAUTIONS]
    for title, lines in (
        ("Cautions", cautions),
        ("Doubtful entries", doubts),
        ("Not known when this was issued", holds),
        ("Assumptions and conventions", statements),
    ):
        put(sheet.cell(row, 1), title, "pb subtitle")
        for label, text in lines or [("", "none")]:
            row += 1
            put(sheet.cell(row, 1), label, "pb text")
            put(sheet.cell(row, 2), text, "pb text")
            sheet.row_dimensions[row].height = LINE_HEIGHT * lines_needed([label, text], [18, 110]) + 3
        row += 2
    put(sheet.cell(row, 1), "Sources of figures stand beside them on Materials, Uses, Soils and Allowances.", "pb help")
    sheet.column_dimensions["A"].width, sheet.column_dimensions["B"].width = 18, 110
    set_page(sheet)
    protect(sheet)
