"""The survey workbook: the committed file is what the code builds, nothing typed becomes a formula, checks work."""

import io
import zipfile
from datetime import date
from xml.etree import ElementTree

import ironcalc
import pytest
from openpyxl import Workbook, load_workbook

from addin import tables
from addin.layout import FIRST_ROW, HEADER_ROW, JOB, JOB_TITLES, SHEET, SURVEY_TITLES, TABLES, column_letter
from addin.styles import Styles, put_number, put_text
from addin.survey_book import HELP_SHEET, LISTS_SHEET, START_SHEET, TEMPLATE, survey_bytes

HOSTILE = ("=1+1", "+1", "-1", "@SUM(A1)", '=HYPERLINK("x")', "#N/A", "#REF!", "\t=1", "'=1", "a\x00b", "x" * 40_000)


def loaded(**arguments):
    return load_workbook(io.BytesIO(survey_bytes(**arguments)))


@pytest.fixture(scope="module")
def blank():
    return loaded()


def canonical_parts(content):
    """Part name -> its XML in canonical form: the writer's libraries differ in spelling, never in meaning."""
    with zipfile.ZipFile(io.BytesIO(content)) as package:
        return {name: ElementTree.canonicalize(package.read(name)) for name in package.namelist()}


def test_the_committed_survey_is_what_the_code_builds():
    built, committed = canonical_parts(survey_bytes()), canonical_parts(TEMPLATE.read_bytes())
    assert sorted(built) == sorted(committed)
    assert [name for name in built if built[name] != committed[name]] == [], "run python -m addin.survey_book"


def test_the_same_survey_gives_the_same_bytes():
    assert survey_bytes(job={"job_name": "A"}) == survey_bytes(job={"job_name": "A"})


def test_the_sheets_stand_in_filling_order_with_the_lists_hidden_at_the_end(blank):
    assert blank.sheetnames == [START_SHEET, *SURVEY_TITLES, HELP_SHEET, LISTS_SHEET]
    assert [page.title for page in blank if page.sheet_state != "visible"] == [LISTS_SHEET]


def test_the_opening_sheet_names_every_sheet_and_which_must_be_filled(blank):
    page = blank[START_SHEET]
    rows = {page.cell(row, 1).value: page.cell(row, 2).value for row in range(FIRST_ROW, FIRST_ROW + 22)}
    assert list(rows) == [*SURVEY_TITLES, HELP_SHEET]
    assert [title for title, fill in rows.items() if fill == "must be filled in"] == ["Job", "Grid", "Rooms", "Walls"]


@pytest.mark.parametrize("sheet", TABLES, ids=lambda sheet: sheet.title)
def test_every_heading_states_its_unit_and_is_locked_while_entries_are_open(blank, sheet):
    page = blank[sheet.title]
    assert [cell.value for cell in page[HEADER_ROW]] == [column.header for column in sheet.columns]
    for column in sheet.columns:
        letter = column_letter(sheet, column.key)
        assert page[f"{letter}{HEADER_ROW}"].protection.locked
        assert not page[f"{letter}{FIRST_ROW}"].protection.locked
        assert not page.column_dimensions[letter].protection.locked, "rows past the ruled ones must take entries"
    assert page.protection.sheet
    assert page.protection.password is None
    assert page.freeze_panes == "B4"


def test_every_job_entry_shows_what_a_blank_stands_for(blank):
    page = blank["Job"]
    assert tuple(cell.value for cell in page[HEADER_ROW]) == JOB_TITLES
    shown = {page.cell(row, 1).value: page.cell(row, 4).value for row in range(FIRST_ROW, FIRST_ROW + len(JOB))}
    assert list(shown) == [column.title for column in JOB]
    assert None not in shown.values()
    assert shown["Jack rating"] == 200, "a number, so that a formula may stand on it"
    assert shown["Reason"] == "must be filled in"
    assert shown["Rise"] == "the least rise that the levels below call for"


def test_pages_are_a4_landscape_as_wide_as_the_page_with_repeated_headings(blank):
    for title in SURVEY_TITLES:
        page = blank[title]
        assert (page.page_setup.paperSize, page.page_setup.orientation) == (9, "landscape")
        assert (page.page_setup.fitToWidth, page.page_setup.fitToHeight) == (1, 0)
        assert page.sheet_properties.pageSetUpPr.fitToPage
        assert page.print_title_rows == f"$1:${HEADER_ROW}"
        assert page.oddFooter.right.text == "Page &P of &N"


def test_shipped_sheets_carry_the_published_rows_and_rates_without_a_rate(blank):
    names = [row[0] for row in blank["Materials"].iter_rows(min_row=FIRST_ROW, values_only=True) if row[0]]
    assert names == [material.name for material in tables.materials()]
    rates = [row for row in blank["Rates"].iter_rows(min_row=FIRST_ROW, values_only=True) if row[0]]
    assert [row[0] for row in rates] == [item.code for item in tables.items()]
    assert {row[3] for row in rates} == {None}


def test_a_given_row_changes_the_shipped_row_of_its_name_or_is_added():
    first = tables.items()[0].code
    page = loaded(rows={"Rates": [{"name": first, "rate": 12.5}, {"name": "X1", "unit": "No", "rate": 3}]})["Rates"]
    rows = {row[0]: row for row in page.iter_rows(min_row=FIRST_ROW, values_only=True) if row[0]}
    assert rows[first][1:4] == (tables.items()[0].description, tables.items()[0].unit, 12.5)
    assert rows["X1"][2:4] == ("No", 3)
    assert len(rows) == len(tables.items()) + 1


@pytest.mark.parametrize("text", HOSTILE)
def test_text_from_the_survey_is_never_a_formula_or_an_error(text):
    book = loaded(rows={"Walls": [{"name": text}]}, job={"job_name": text}, examples=False)
    for cell in (book["Walls"].cell(FIRST_ROW, 1), book["Job"].cell(FIRST_ROW, 2)):
        assert cell.data_type == "s"
        assert cell.value == text.replace("\x00", "")[:32_767]
        assert cell.quotePrefix == (text[0] in "=+-@\t'")


def test_no_cell_of_the_survey_holds_a_formula(blank):
    cells = [cell for page in blank for row in page for cell in row]
    assert [f"{cell.parent.title}!{cell.coordinate}" for cell in cells if cell.data_type == "f"] == []


def test_examples_begin_with_the_mark_and_can_be_left_out(blank):
    assert blank["Walls"]["A4"].value == "e.g. W1"
    assert loaded(examples=False)["Walls"]["A4"].value is None


def test_values_are_written_as_they_are_given():
    row = {"members": ("W1", "W2"), "plinth_thickness": "14 in", "width": 0.75}
    page = loaded(rows={"Footings": [row], "Ground": [{"where": "pit", "soil": "unknown"}]}, examples=False)["Footings"]
    assert [page["A4"].value, page["B4"].value, page["E4"].value] == ["W1 W2", "14 in", 0.75]
    book = loaded(rows={"Attached": [{"name": "P1", "on": ("Bed room", "W1")}]}, job={"survey_date": date(2026, 3, 1)})
    assert book["Attached"]["C5"].value == "Bed room, W1"
    assert book["Job"]["B7"].number_format == "yyyy-mm-dd"


@pytest.mark.parametrize(
    ("arguments", "error"),
    [
        ({"rows": {"Wall": []}}, KeyError),
        ({"rows": {"Walls": [{"tickness": 1.0}]}}, KeyError),
        ({"job": {"jobname": "A"}}, KeyError),
        ({"rows": {"Walls": [{"thickness": float("nan")}]}}, ValueError),
        ({"job": {"rise": float("inf")}}, ValueError),
    ],
)
def test_what_is_not_in_the_layout_or_not_finite_is_refused(arguments, error):
    with pytest.raises(error):
        survey_bytes(**arguments)


def test_every_list_points_at_a_name_and_every_message_fits(blank):
    for title in SURVEY_TITLES:
        for check in blank[title].data_validations.dataValidation:
            assert len(check.prompt) <= 255, check.prompt
            assert len(check.error) <= 225
            assert len(check.promptTitle) <= 32
            if check.type == "list":
                assert check.formula1.lstrip("=") in blank.defined_names


def choices_behind(book, title, cell):
    check = next(check for check in book[title].data_validations.dataValidation if cell in check.sqref)
    name = check.formula1.lstrip("=")
    ((sheet, area),) = book.defined_names[name].destinations
    return [row[0].value for row in book[sheet][area]]


def test_a_drop_down_offers_unknown_where_that_is_an_answer(blank):
    assert choices_behind(blank, "Walls", "H4") == list(SHEET["Walls"].columns[7].choices)
    assert choices_behind(blank, "Job", f"B{FIRST_ROW + [c.key for c in JOB].index('condition')}")[-1] == "unknown"
    assert choices_behind(blank, "Beams", "G4") == ["yes", "no"]


@pytest.mark.parametrize(("typed", "passes"), [(230, True), (49.9, False), (1200, True), (1201, False), ("9 in", True)])
def test_the_input_check_holds_numbers_to_the_limits_and_lets_text_with_a_unit_pass(blank, tmp_path, typed, passes):
    check = next(check for check in blank["Walls"].data_validations.dataValidation if "E4" in check.sqref)
    book = Workbook()
    book.active["E4"], book.active["A1"] = typed, "=" + check.formula1.lstrip("=")
    book.save(tmp_path / "check.xlsx")
    model = ironcalc.load_from_xlsx(str(tmp_path / "check.xlsx"), "en", "UTC", "en")
    model.evaluate()
    assert model.get_formatted_cell_value(0, 1, 1) == str(passes).upper()


def test_a_cell_writer_refuses_what_a_sheet_cannot_hold():
    book = Workbook()
    styles, cell = Styles(book), book.active["A1"]
    with pytest.raises(ValueError, match="not a finite number"):
        put_number(cell, float("nan"))
    with pytest.raises(TypeError, match="yes or no"):
        styles.put(cell, True, "pb entry")
    with pytest.raises(TypeError, match="cannot write tuple"):
        styles.put(cell, ("a",), "pb entry")
    assert put_text(cell, "a_x000D_b").value == "a_x005F_x000D_b"


def test_a_style_with_another_number_format_keeps_the_rest():
    book = Workbook()
    styles = Styles(book)
    cell = styles.put(book.active["B2"], 2.5, "pb entry", "0.00")
    assert (cell.number_format, cell.protection.locked, cell.border.left.style) == ("0.00", False, "thin")
    assert styles.put(book.active["B3"], 2.5, "pb entry").number_format == "General"
