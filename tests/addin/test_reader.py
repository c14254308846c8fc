"""The reader: each kind of fault with its cell in plain words, what is passed over, and files that are no workbook."""

import re
import zipfile
from datetime import date, datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import Workbook, load_workbook

from addin.caches import XlError, inject
from addin.door import FileDoor
from addin.entries import Known, Raw, Refused, check_name, read_entry
from addin.files import CannotRead
from addin.layout import FIRST_ROW, HEADER_ROW, JOB, JOB_TITLES, SHEET, TABLES, column_letter
from addin.problems import CellRef
from addin.reader import read_survey
from addin.survey_book import TEMPLATE, shipped_rows, survey_bytes

WALL = {"storey": 1, "start": "A1", "end": "B1", "thickness": 230, "height": 3.0}
ROWS = {
    "Grid": [{"name": name, "offset": offset} for name, offset in (("A", 0), ("B", 4.1), (1, 0), (2, 3.3))],
    "Rooms": [{"name": "Bed room", "storey": 1, "corner": "A1", "opposite": "B2"}],
    "Walls": [{"name": "W1", **WALL}, {"name": "W2", **WALL, "start": "a 2", "end": "B2"}],
    "Openings": [{"wall": "w1", "kind": "Window", "from_start": 0.9, "width": 1.2, "height": 1.2}],
}  # fmt: skip
JOB_VALUES = {"job_name": "House at the bend", "survey_date": date(2026, 3, 1), "reason": "flooding"}
JOB_ROW = {column.key: row for row, column in enumerate(JOB, start=FIRST_ROW)}


def plain_book(rows=ROWS):
    """A survey without styles or lists, as somebody might type it: quick to make and to read."""
    book = Workbook()
    job = book.active
    job.title = "Job"
    for number, title in enumerate(JOB_TITLES, start=1):
        job.cell(HEADER_ROW, number, title)
    for column in JOB:
        job.cell(JOB_ROW[column.key], 1, column.title)
        job.cell(JOB_ROW[column.key], 2, JOB_VALUES.get(column.key))
    for sheet in TABLES:
        page = book.create_sheet(sheet.title)
        for number, column in enumerate(sheet.columns, start=1):
            page.cell(HEADER_ROW, number, column.header)
        for row, values in enumerate(rows.get(sheet.title, shipped_rows(sheet)), start=FIRST_ROW):
            for key, value in values.items():
                page[f"{column_letter(sheet, key)}{row}"] = value
    return book


@pytest.fixture
def book():
    return plain_book()


@pytest.fixture
def read(book, tmp_path):
    """Write the book after the changes given, `Walls!thickness` meaning that column's first entry, and read it."""

    def run(changes=None, **arguments):
        for place, value in (changes or {}).items():
            sheet, cell = place.split("!")
            if cell.islower():
                cell = f"B{JOB_ROW[cell]}" if sheet == "Job" else f"{column_letter(SHEET[sheet], cell)}{FIRST_ROW}"
            book[sheet][cell] = value
        book.save(tmp_path / "survey.xlsx")
        return read_survey(FileDoor(tmp_path / "survey.xlsx").sheets(), **arguments)

    return run


def only(problems):
    (problem,) = problems
    return str(problem)


def test_a_plain_survey_reads_without_fault_or_warning(read):
    reading = read()
    assert (reading.faults, reading.warnings) == ((), ())
    first, second = reading.tables["Walls"]
    assert (first.index, first.number, str(first["thickness"].where)) == (0, 4, "Walls!E4")
    assert (second["start"].value, second["thickness"].value, second["masonry"].value) == ("A2", 230.0, None)
    assert [row["name"].value for row in reading.tables["Grid"]] == ["A", "B", "1", "2"]
    opening = reading.tables["Openings"][0]
    assert (opening["wall"].value, opening["kind"].value) == ("W1", "window")
    assert reading.job["survey_date"].value == date(2026, 3, 1)


def test_the_blank_survey_has_exactly_the_missing_entries():
    reading = read_survey(FileDoor(TEMPLATE).sheets())
    assert {problem.code for problem in reading.faults} == {"MISSING-ENTRY"}
    places = [str(problem.where) for problem in reading.faults]
    jobs = [f"Job!B{JOB_ROW[key]}" for key in ("job_name", "survey_date", "reason")]
    assert places == [*jobs, "Grid!A4", "Rooms!A4", "Walls!A4"]
    assert reading.warnings == ()


def test_what_is_written_is_read_back(tmp_path):
    rows = {
        "Grid": [{"name": "A", "offset": 0.0}, {"name": "B'", "offset": 4.1}, {"name": "1"}, {"name": "2a"}],
        "Rooms": [{"name": "Bed room", "storey": 1.0, "outline": ("A1", "B'1", "B'2a"), "use": "Kitchen"}],
        "Walls": [{"name": "W1", "storey": 1.0, "start": "A1", "end": "B'2a", "thickness": 241.3, "height": 3.0}],
        "Attached": [{"name": "P1", "kind": "parapet", "on": ("Bed room", "W1")}],
        "Condition": [{"what": "crack", "date": date(2026, 2, 3), "where": "=SUM(A1) over _x000D_ the door"}],
    }  # fmt: skip
    (tmp_path / "s.xlsx").write_bytes(survey_bytes(rows=rows, job=JOB_VALUES))
    reading = read_survey(FileDoor(tmp_path / "s.xlsx").sheets())
    assert [str(problem) for problem in reading.faults] == []
    got = {title: [{k: e.value for k, e in row.entries.items() if not e.blank} for row in reading.tables[title]]
           for title in rows}  # fmt: skip
    assert got == rows
    assert {key: entry.value for key, entry in reading.job.items() if not entry.blank} == JOB_VALUES


@pytest.mark.parametrize(
    ("place", "typed", "value"),
    [
        ("Walls!thickness", "9 in", 228.6),
        ("Walls!height", "10' 6\"", 3.2004),
        ("Attached!weight", "2 t", 19.6133),
        ("Rooms!finish", "150 kg/m2", 1.4709975),
        ("Job!bearing", "12 t/m2", 117.6798),
    ],
)
def test_a_number_may_carry_its_unit(read, place, typed, value):
    sheet, key = place.split("!")
    extra = {"Attached!name": "P1", "Attached!kind": "parapet", "Attached!on": "W1"} if sheet == "Attached" else {}
    reading = read({**extra, place: typed})
    assert reading.faults == ()
    entry = reading.job[key] if sheet == "Job" else reading.tables[sheet][0][key]
    assert entry.value == pytest.approx(value, rel=1e-12)
    assert entry.typed == typed


@pytest.mark.parametrize(
    ("place", "typed", "code", "said"),
    [
        ("Walls!thickness", None, "MISSING-ENTRY", "is blank, but it must be filled in. Type it, for example 230."),
        ("Walls!thickness", "thick", "NOT-A-NUMBER", "thickness is 'thick', but a number is needed"),
        ("Walls!thickness", True, "NOT-A-NUMBER", "'TRUE'"),
        ("Walls!height", datetime(2026, 1, 2), "NOT-A-NUMBER", "so type 0.5"),
        ("Walls!thickness", "9 kg", "UNIT", "the column is a length in mm"),
        ("Walls!height", 30, "OUT-OF-RANGE", "30 m is higher than any accepted (0.3 to 8 m)"),
        ("Walls!thickness", "9 ft", "OUT-OF-RANGE", "that is 2743.2 mm, thicker than any accepted"),
        ("Openings!from_start", -0.9, "NEGATIVE", "nothing below 0. Type 0.9."),
        ("Walls!storey", 1.5, "NOT-WHOLE", "counted in whole numbers"),
        ("Walls!mortar", "cement 1:5", "NOT-A-CHOICE", "Type cement 1:6, if that is meant."),
        ("Walls!thickness", "unknown", "UNKNOWN-NOT-ALLOWED", "this has to be known"),
        ("Walls!thickness", "#N/A", "CELL-ERROR", "never read as a blank"),
        ("Walls!thickness", "=115*2", "FORMULA-WITHOUT-VALUE", "never worked out"),
        ("Walls!A5", "w1", "DUPLICATE-NAME", "A4 has it already"),
        ("Openings!wall", "W9", "UNKNOWN-NAME", "Walls has no such name"),
        ("Walls!masonry", "Brik masonry", "UNKNOWN-NAME", "Type Brick masonry, if that is meant."),
        ("Walls!start", "1A", "BAD-POINT", "Type one like B3."),
        ("Walls!start", "C1", "UNKNOWN-POINT", "Grid has no line C. Correct the point, or add line C to Grid."),
        ("Rooms!outline", "A1 B1", "BAD-POINT", "three points or more"),
        ("Job!survey_date", "1 March", "BAD-DATE", "Type it as 2026-01-31"),
        ("Job!survey_date", "2026-02-30", "BAD-DATE", "a date is needed"),
        ("Job!survey_date", "1826-02-03", "BAD-DATE", "the year must be 1950 to 2100"),
        ("Job!share", 65, "OUT-OF-RANGE", "the column is in %: 65 % is more than any accepted (5 to 60 %)"),
    ],
)  # fmt: skip
def test_a_faulty_entry_is_told_with_its_cell_and_flagged(read, place, typed, code, said):
    reading = read({place: typed})
    message = only(reading.faults)
    assert message.endswith(f"[{code}]")
    assert said in message
    sheet, key = place.split("!")
    assert message.startswith(f"{sheet}!")
    if key.islower():
        entry = reading.job[key] if sheet == "Job" else reading.tables[sheet][0][key]
        assert entry.faulty
        assert entry.value is None


def test_the_message_says_what_may_have_been_meant(read):
    assert only(read({"Walls!thickness": 9}).faults) == (
        "Walls!E4: thickness is '9', but the column is in mm: 9 mm is thinner than any accepted (50 to 1200 mm). "
        "Type 230, or 9 in. [OUT-OF-RANGE]"
    )


@pytest.mark.parametrize(
    "name", ["W*", "W?1", "~W", "=W", "<W", ">W", "W" * 41, "1", "01", "1-2", "1E5", "50%", "TRUE", "W,1"]
)
def test_a_name_that_a_spreadsheet_would_take_for_something_else_is_refused(read, book, name):
    book["Walls"]["A5"].value = name
    book["Walls"]["A5"].data_type = "s"
    assert "Walls!A5: wall is" in (message := only(read().faults))
    assert message.endswith("[BAD-NAME]")


INVISIBLE = ["\u200b", "\u200c", "\u200d", "\u202e", "\u2066", "\u2062", "\u00ad", "\ufeff"]


@pytest.mark.parametrize("sign", INVISIBLE)
@pytest.mark.parametrize("name", ["{}W1", "W{}1", "W1{}"])
def test_a_name_with_a_character_that_cannot_be_seen_is_refused(name, sign):
    with pytest.raises(Refused) as caught:
        check_name(name.format(sign), "Walls")
    assert caught.value.code == "BAD-NAME"
    assert f"U+{ord(sign):04X}" in caught.value.rule


def test_in_a_cell_such_a_name_is_a_fault_or_read_without_the_character(read, book):
    for row, name in ((4, "W\u00ad1"), (5, "W\u20661"), (6, "W\u200b1")):
        book["Walls"][f"A{row}"] = name
        for column in "BCDEF":
            book["Walls"][f"{column}{row}"] = book["Walls"][f"{column}4"].value
    reading = read({"Openings!wall": "W1"})
    assert [(str(p.where), p.code) for p in reading.faults] == [("Walls!A4", "BAD-NAME"), ("Walls!A5", "BAD-NAME")]
    assert reading.tables["Walls"][2]["name"].value == "W1"


@pytest.mark.parametrize("name", ["\u0995\u09cd\u200d\u09b7", "\u0645\u06cc\u200c\u062e"])
def test_a_joiner_stays_in_a_script_that_needs_it(name):
    assert check_name(name, "Rooms") == name


def test_all_faults_of_the_workbook_come_at_once(read):
    reading = read({"Walls!thickness": 9, "Openings!width": "wide", "Job!reason": None, "Walls!A5": "W1"})
    codes = [problem.code for problem in reading.faults]
    assert codes == ["MISSING-ENTRY", "OUT-OF-RANGE", "DUPLICATE-NAME", "NOT-A-NUMBER"]


def test_a_number_beyond_all_numbers_is_refused(read, tmp_path):
    read()
    with zipfile.ZipFile(tmp_path / "survey.xlsx") as source, zipfile.ZipFile(tmp_path / "inf.xlsx", "w") as target:
        for name in source.namelist():
            target.writestr(name, source.read(name).replace(b"<v>230</v>", b"<v>1e999</v>", 1))
    faults = read_survey(FileDoor(tmp_path / "inf.xlsx").sheets()).faults
    assert [problem.code for problem in faults] == ["NOT-FINITE"]


NUMBER_COLUMNS = [
    (title, column)
    for title, columns in (("Job", JOB), *((sheet.title, sheet.columns) for sheet in TABLES))
    for column in columns
    if column.kind == "number"
]


@settings(deadline=None)
@given(
    place=st.sampled_from(NUMBER_COLUMNS),
    number=st.floats(-1.7e308, 1.7e308) | st.sampled_from([1e308, -1e308, 1.7e308, 5e-324, 10**400]),
    percent=st.booleans(),
    as_text=st.booleans(),
)
def test_any_number_in_a_number_column_is_an_entry_or_a_fault_in_its_cell(place, number, percent, as_text):
    title, column = place
    raw = Raw(value=repr(number) if as_text else number, percent=percent and not as_text)
    where, faults = CellRef(title, "C7"), []
    entry = read_entry(column, raw, where, Known(names={}), faults)
    if faults:
        assert ([problem.where for problem in faults], entry.faulty) == ([where], True)
        assert len(str(faults[0])) < 400
    else:
        assert column.least <= entry.value <= column.most


@pytest.mark.parametrize("number", [1e308, "1e308"])
@pytest.mark.parametrize(("title", "column"), NUMBER_COLUMNS, ids=lambda part: getattr(part, "key", part))
def test_the_greatest_numbers_are_a_fault_in_every_number_column(title, column, number):
    faults = []
    assert read_entry(column, Raw(value=number), CellRef(title, "C7"), Known(names={}), faults).faulty
    assert [problem.where.cell for problem in faults] == ["C7"]


def test_unknown_and_a_question_mark_are_answers_where_the_column_allows_them(read):
    reading = read({"Rooms!slab": "?", "Walls!mortar": "UNKNOWN", "Job!flood": "Unknown"})
    assert reading.faults == ()
    slab, mortar = reading.tables["Rooms"][0]["slab"], reading.tables["Walls"][0]["mortar"]
    assert (slab.value, slab.unknown, mortar.value, mortar.unknown) == (None, True, "unknown", True)
    assert reading.job["flood"].unknown


def test_a_cell_shown_as_a_percentage_is_read_as_it_is_seen(read, book):
    book["Job"][f"B{JOB_ROW['profit']}"].number_format = "0%"
    assert read({"Job!profit": 0.07}).job["profit"].value == 7.0
    book["Walls"]["F4"].number_format = "0%"
    assert only(read({"Walls!height": 3}).faults).endswith("[UNIT]")


def test_formulas_are_read_by_their_last_result(book, tmp_path):
    book["Walls"]["E4"], book["Walls"]["G4"], book["Walls"]["E5"] = "=115*2", '=""', "=NA()"
    book.save(tmp_path / "s.xlsx")
    results = {("Walls", "E4"): 230, ("Walls", "G4"): "", ("Walls", "E5"): XlError("#N/A")}
    content = inject((tmp_path / "s.xlsx").read_bytes(), results, modified=datetime(2026, 1, 1))
    (tmp_path / "s.xlsx").write_bytes(content)
    reading = read_survey(FileDoor(tmp_path / "s.xlsx").sheets())
    first = reading.tables["Walls"][0]
    assert (first["thickness"].value, first["masonry"].blank) == (230.0, True)
    assert "Walls!E5: thickness is the error #N/A" in only(reading.faults)


def test_a_name_listed_on_two_sheets_is_ambiguous_where_it_is_used(read, book):
    for key, value in {"name": "W1", "storey": 1, "start": "A1", "end": "B1", "breadth": 230, "depth": 300}.items():
        book["Beams"][f"{column_letter(SHEET['Beams'], key)}4"] = value
    reading = read({"Attached!name": "P1", "Attached!kind": "parapet", "Attached!on": "W1"})
    assert "Walls and Beams both list it. Give one of them another name. [AMBIGUOUS-NAME]" in only(reading.faults)


def test_a_blank_that_stands_for_a_name_no_longer_listed_is_told_once(read, book):
    book["Materials"]["A4"] = "Handmade brick"
    assert "a blank stands for Brick masonry, which Materials no longer lists" in only(read().faults)


def test_an_allowance_that_was_deleted_is_missed_and_stands_as_shipped(read, book):
    key = book["Allowances"]["A4"].value
    book["Allowances"].delete_rows(4)
    reading = read()
    assert reading.faults == ()
    assert f"the list of allowances is without {key}" in only(reading.warnings)


def test_columns_are_found_in_any_order_and_spelling_and_sheets_by_title(read, book):
    page = book["Walls"]
    page["E3"], page["F3"] = " HEIGHT", "thickness ( MM )"
    for row in (4, 5):
        page[f"E{row}"], page[f"F{row}"] = 3.0, 230
    page.insert_rows(1, 2)
    page.title = "set aside"
    page.title = "WALLS"
    reading = read()
    assert (reading.faults, reading.warnings) == ((), ())
    assert [row["thickness"].value for row in reading.tables["Walls"]] == [230.0, 230.0]
    assert str(reading.tables["Walls"][0]["thickness"].where) == "WALLS!F6"


@pytest.mark.parametrize(
    ("cell", "header", "code", "said"),
    [
        ("E3", None, "MISSING-COLUMN", "column Thickness (mm) is not there, but it must be"),
        ("F3", "Thickness (mm)", "DUPLICATE-COLUMN", "column E has it too"),
        ("E3", "Thickness (in)", "COLUMN-UNIT", "the column is in mm"),
    ],
)
def test_a_heading_that_changes_what_is_read_is_a_fault(read, cell, header, code, said):
    faults = [str(problem) for problem in read({f"Walls!{cell}": header}).faults]
    assert [message for message in faults if code in message and said in message]


def test_headings_that_are_gone_are_one_fault(read, book):
    book["Walls"].delete_rows(HEADER_ROW)
    assert any(p.code == "MISSING-HEADER" and p.where.sheet == "Walls" for p in read().faults)
    book["Job"].delete_rows(HEADER_ROW)
    assert sum(p.where.sheet == "Job" for p in read().faults) == 1


def test_an_example_with_only_its_first_cell_written_over_is_asked_about(tmp_path):
    path = tmp_path / "s.xlsx"
    path.write_bytes(survey_bytes())
    book = load_workbook(path)
    book["Footings"]["A4"] = "W1"
    book.save(path)
    codes = [problem.code for problem in read_survey(FileDoor(path).sheets()).warnings]
    assert "EXAMPLE-LEFT" in codes


def test_no_example_answers_what_holds_back_the_release():
    answers = {(sheet.title, c.key): c.example for sheet in TABLES for c in sheet.columns}
    for place in (("Footings", "seen"), ("Walls", "mortar"), ("Walls", "side"), ("Walls", "system"),
                  ("Walls", "stands_on"), ("Openings", "block_up"), ("Columns", "system")):  # fmt: skip
        assert answers[place] == "unknown", place


def test_a_sheet_of_the_users_own_goes_unsaid(read, book):
    notes = book.create_sheet("Neighbours told")
    notes["A1"], notes["A3"], notes["B3"] = "Wall", "Thickness (mm)", "who was told"
    assert [problem.code for problem in read().warnings] == []


def test_a_sheet_with_the_headings_of_the_survey_is_asked_about(read, book):
    strange = book.create_sheet("Ground floor")
    for column, heading in enumerate(("Wall", "From", "To", "Thickness (mm)"), start=1):
        strange.cell(5, column).value = heading
    warnings = read().warnings
    assert [problem.code for problem in warnings] == ["UNKNOWN-SHEET"]
    assert "Call it Walls, if it is that." in str(warnings[0])


def test_strange_columns_sheets_and_lines_are_warnings(read, book):
    book.create_sheet("Footing")
    book["Walls"]["N3"], book["Walls"]["H3"] = "Colour", "Mortr"
    book["Job"]["A60"], book["Job"]["B60"] = "Dog", "yes"
    reading = read()
    assert reading.faults == ()
    said = [str(problem) for problem in reading.warnings]
    assert [problem.code for problem in reading.warnings] == [
        "UNKNOWN-SHEET", "UNKNOWN-COLUMN", "UNKNOWN-COLUMN", "MISSING-COLUMN", "UNKNOWN-ENTRY",
    ]  # fmt: skip
    assert "Call it Footings, if it is that." in said[0]
    assert "Write Mortar, if it is that." in said[1]
    assert "read as if it were blank: unknown" in said[3]


def test_sheets_of_an_issued_estimate_are_passed_over_in_silence(read, book):
    book.create_sheet("Bill")
    assert read(ours={"Bill"}).warnings == ()


@pytest.mark.parametrize(("title", "is_fault"), [("Walls", True), ("Materials", True), ("Job", True), ("Kit", False)])
def test_a_missing_sheet_is_a_fault_where_it_is_needed(read, book, title, is_fault):
    book.remove(book[title])
    reading = read()
    found = [p for p in (reading.faults if is_fault else reading.warnings) if p.code == "MISSING-SHEET"]
    assert f"{title}: the sheet is not in the workbook" in only(found)
    assert set(reading.tables) == set(SHEET)


def test_lines_of_the_job_sheet_that_are_gone_or_there_twice_are_told(read, book):
    job = book["Job"]
    job[f"A{JOB_ROW['reason']}"], job[f"A{JOB_ROW['rise']}"], job[f"A{JOB_ROW['tax']}"] = None, None, "Profit"
    reading = read()
    assert {problem.code for problem in reading.faults} == {"MISSING-ENTRY", "DUPLICATE-ENTRY"}
    assert "MISSING-LINE" in {problem.code for problem in reading.warnings}
    assert reading.job["reason"].faulty
    job[f"C{JOB_ROW['stroke']}"] = "in"
    assert "COLUMN-UNIT" in {problem.code for problem in read().faults}


def test_examples_are_passed_over_and_a_changed_one_is_told(tmp_path):
    (tmp_path / "s.xlsx").write_bytes(survey_bytes(rows=ROWS | {"Grid": [{"name": n} for n in "AB12"]}, job=JOB_VALUES))
    reading = read_survey(FileDoor(tmp_path / "s.xlsx").sheets())
    assert (reading.faults, reading.warnings) == ((), ())
    assert [row["name"].value for row in reading.tables["Walls"]] == ["W1", "W2"]
    book = load_workbook(tmp_path / "s.xlsx")
    book["Walls"]["E4"] = 345
    book.save(tmp_path / "s.xlsx")
    assert only(read_survey(FileDoor(tmp_path / "s.xlsx").sheets()).warnings).startswith(
        "Walls!A4: the wall is 'e.g. W1'"
    )


def test_merged_cells_hidden_rows_gaps_and_far_formats_do_no_harm(read, book):
    page = book["Walls"]
    page.merge_cells("A20:C22")
    page.row_dimensions[5].hidden = True
    page["A150000"].number_format = "0.00"
    page.move_range("A5:M5", rows=30)
    reading = read()
    assert reading.faults == ()
    assert [row.number for row in reading.tables["Walls"]] == [4, 35]


@pytest.mark.parametrize("part", ["xl/worksheets/sheet7.xml", "xl/styles.xml", "xl/workbook.xml"])
@pytest.mark.parametrize("damage", [b"", b"<worksheet", b"\xff\xfe\x00"])
def test_a_damaged_workbook_is_one_plain_sentence(read, tmp_path, part, damage):
    read()
    with zipfile.ZipFile(tmp_path / "survey.xlsx") as source, zipfile.ZipFile(tmp_path / "bad.xlsx", "w") as target:
        for name in source.namelist():
            target.writestr(name, damage if name == part else source.read(name))
    with pytest.raises(CannotRead) as caught:
        read_survey(FileDoor(tmp_path / "bad.xlsx").sheets())
    assert re.fullmatch(r"[^\n]*bad\.xlsx[^\n]*\.", str(caught.value))


def test_a_style_that_does_not_exist_is_a_damaged_workbook(read, tmp_path):
    read()
    with zipfile.ZipFile(tmp_path / "survey.xlsx") as source, zipfile.ZipFile(tmp_path / "bad.xlsx", "w") as target:
        for name in source.namelist():
            target.writestr(name, source.read(name).replace(b'<c r="E4"', b'<c r="E4" s="9999"'))
    with pytest.raises(CannotRead, match="damaged"):
        read_survey(FileDoor(tmp_path / "bad.xlsx").sheets())
