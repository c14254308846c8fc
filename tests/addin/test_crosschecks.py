"""Cross-checks: each kind of fault and warning in its cell and in plain words, on one small house with one change."""

import copy
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook

from addin import tables
from addin.cross_allowances import check_allowances
from addin.cross_house import Findings
from addin.crosschecks import cross_check, unknowns
from addin.demo import DEMO
from addin.door import FileDoor
from addin.entries import Entry
from addin.kinds import Floats
from addin.layout import FIRST_ROW, JOB, SHEET, column_letter
from addin.problems import CellRef
from addin.reader import Row, read_survey
from addin.survey_book import survey_bytes
from addin.surveying import build_allowances, build_survey, issued
from calc.estimate import prepare
from calc.own_loads import own_loads
from calc.take_down import take_down

JOB_VALUES = {"job_name": "House at the bend", "survey_date": date(2026, 3, 1), "reason": "flooding", "rise": 0.9}
JOB_ROW = {column.key: row for row, column in enumerate(JOB, start=FIRST_ROW)}


def _table(keys, *rows):
    return [dict(zip(keys.split(), row, strict=False)) for row in rows]


# Two rooms side by side, 4.0 x 3.0 and 3.0 x 3.0 m, a verandah 1.5 m deep on a beam and two pillars, one room upstairs.
HOUSE = {
    "Grid": _table("name offset", ("A", 0), ("B", 4.0), ("C", 7.0), ("1", 0), ("2", 1.5), ("3", 4.5)),
    "Tapes": _table("start end length", ("A2", "C3", 7.62)),
    "Rooms": _table(
        "name storey corner opposite span",
        ("Hall", 1, "A2", "B3", "auto"), ("Bed", 1, "B2", "C3", "auto"), ("Verandah", 1, "A1", "C2", "along numbers"),
        ("Loft", 2, "A2", "B3", "auto"),
    ),
    "Walls": _table(
        "name storey start end thickness height",
        ("W1", 1, "A2", "C2", 230, 3.0), ("W2", 1, "C2", "C3", 230, 3.0), ("W3", 1, "A3", "C3", 230, 3.0),
        ("W4", 1, "A2", "A3", 230, 3.0), ("W5", 1, "B2", "B3", 230, 3.0),
        ("U1", 2, "A2", "B2", 230, 2.7), ("U2", 2, "B2", "B3", 230, 2.7), ("U3", 2, "A3", "B3", 230, 2.7),
        ("U4", 2, "A2", "A3", 230, 2.7),
    ),
    "Openings": _table(
        "wall kind from_start width height sill",
        ("W1", "door", 1.0, 1.0, 2.1, 0), ("W1", "window", 5.0, 1.2, 1.2, 0.9), ("W3", "window", 1.0, 1.2, 1.2, 0.9),
    ),
    "Beams": _table("name storey start end breadth depth", ("VB", 1, "A1", "C1", 230, 300)),
    "Columns": _table(
        "name storey point breadth depth height", ("P1", 1, "A1", 230, 230, 2.4), ("P2", 1, "C1", 230, 230, 2.4)
    ),
    "Attached": _table(
        "name kind on from_start length thickness size",
        ("Parapet", "parapet", ("W2",), None, None, 115, 0.9), ("Shade", "sunshade", ("W3",), 0.8, 1.6, 75, 0.45),
    ),
    "Footings": _table(
        "members plinth_thickness plinth_height width depth thickness",
        (("W1", "W2", "W3", "W4", "W5"), 350, 1.0, 0.75, 0.9, 0.2), (("P1", "P2"), 350, 0.8, 0.75, 0.75, 0.2),
    ),
}  # fmt: skip


def cell(place, row):
    """`Walls!end` and the index of a row to the cell it has in the file."""
    title, key = place.split("!")
    if title == "Job":
        return f"Job!B{JOB_ROW[key]}"
    return f"{title}!{column_letter(SHEET[title], key)}{FIRST_ROW + row}"


def read(folder, rows=HOUSE, job=JOB_VALUES):
    path = folder / "survey.xlsx"
    path.write_bytes(survey_bytes(rows, job, examples=False))
    reading = read_survey(FileDoor(path).sheets())
    assert [str(problem) for problem in reading.faults] == []
    return reading


@pytest.fixture
def checked(tmp_path):
    """Cross-check the house after changes: (sheet!key, row, value), an index past the last row adding one."""

    def run(*changes, job=None):
        rows = copy.deepcopy(HOUSE)
        for place, row, value in changes:
            title, key = place.split("!")
            table = rows.setdefault(title, [])
            if row == len(table):
                table.append({})
            table[row][key] = value
        return cross_check(read(tmp_path, rows, {**JOB_VALUES, **(job or {})}))

    return run


def new(title, row, **values):
    """Changes that add a row."""
    return [(f"{title}!{key}", row, value) for key, value in values.items()]


def told(problems, code):
    """The problems of one code."""
    return [problem for problem in problems if problem.code == code]


def test_a_sound_house_has_neither_faults_nor_warnings(checked):
    faults, warnings = checked()
    assert [str(problem) for problem in (*faults, *warnings)] == []


def test_the_demo_house_has_no_faults():
    faults, _ = cross_check(read_survey(FileDoor(DEMO).sheets()))
    assert [str(problem) for problem in faults] == []


WALL = {"thickness": 230, "height": 3.0}

FAULTS = [
    ("NAME-TWICE", [("Beams!name", 0, "w5")], "Beams!name", 0, "'w5', but Walls!A8 has it already"),
    ("NAME-TWICE", [("Rooms!floor", 0, "suspended"), ("Rooms!name", 1, "Hall floor")], "Rooms!name", 1,
     "the suspended floor of room Hall goes by it"),
    ("NAME-RESERVED", [("Walls!name", 8, "(Free)")], "Walls!name", 8, "the results use it"),
    ("NAME-RESERVED", [("Columns!name", 1, "Not surveyed"), ("Footings!members", 1, ("P1",))], "Columns!name", 1,
     "Choose another name"),
    ("GRID-SAME", [("Grid!offset", 2, 4.004)], "Grid!offset", 2, "line C is at 4.00 m, but line B is there already"),
    ("GRID-NO-OFFSET", [("Grid!offset", 4, None)], "Grid!offset", 4, "or the clear size from line 1"),
    ("ROOM-SHAPE", [("Rooms!opposite", 1, None)], "Rooms!opposite", 1, "room Bed is given by one corner"),
    ("ROOM-SHAPE", [("Rooms!corner", 1, None), ("Rooms!opposite", 1, None)], "Rooms!corner", 1,
     "without corners or outline"),
    ("ROOM-SHAPE", [("Rooms!outline", 1, ("B2", "C2", "C3"))], "Rooms!outline", 1, "only one of them can count"),
    ("ROOM-OUTLINE", [("Rooms!opposite", 1, "B3")], "Rooms!opposite", 1, "lies on one line with B2"),
    ("ROOM-OVERLAP", [("Rooms!corner", 1, "A2")], "Rooms!corner", 1, "over 12.00 m2 of room Hall"),
    ("WALL-POINT", [("Walls!end", 4, "B2")], "Walls!end", 4, "it starts there too"),
    ("BEAM-POINT", [("Beams!end", 0, "A1")], "Beams!end", 0, "so it has no length"),
    ("WALL-OVERLAP", new("Walls", 9, name="W6", storey=1, start="B2", end="C2", **WALL), "Walls!start", 9,
     "wall W6 is on wall W1 for 3.00 m, but its weight would be counted twice"),
    ("BEAM-OVERLAP", new("Beams", 1, name="VC", storey=1, start="C1", end="B1", breadth=230, depth=300),
     "Beams!start", 1,
     "beam VC is on beam VB for 3.00 m"),
    ("COLUMN-SAME", [("Columns!point", 1, "A1")], "Columns!point", 1, "column P1 of that storey stands there already"),
    ("WALL-ALONE", new("Grid", 6, name="4", offset=7.0) + new("Walls", 9, name="W6", storey=1, start="A4", end="B4",
     **WALL),
     "Walls!start", 9, "alone from A4 to B4"),
    ("OPENING-BEYOND", [("Openings!width", 1, 2.5)], "Openings!width", 1,
     "from 5.00 m to 7.50 m, but the wall ends at 7.00"),
    ("OPENING-BEYOND", [("Openings!from_start", 1, 7.5)], "Openings!from_start", 1, "from 7.50 m to 8.70 m"),
    ("OPENING-HIGH", [("Openings!sill", 1, 2.0)], "Openings!height", 1,
     "3.20 m above floor, but the wall is 3.00 m high"),
    ("OPENING-OVERLAP", [("Openings!from_start", 1, 1.8)], "Openings!from_start", 1,
     "from 1.80 m to 3.00 m, but row 4 has a door from 1.00 m to 2.00 m"),
    ("STOREY-GAP", [("Rooms!storey", 3, 3)], "Rooms!storey", 3, "neither a wall nor a column on it"),
    ("STOREY-GAP", [("Walls!storey", 8, 4)], "Walls!storey", 8, "Add the walls or columns of storey 3"),
    ("HANGS", [("Walls!start", 5, "A1"), ("Walls!end", 5, "B1"), ("Rooms!above", 2, "none"), ("Beams!start", 0, "B1")],
     "Walls!name", 5, "wall U1 is in the air: nothing under it from 0.00 to 4.00 m"),
    ("FREE-EDGE", [("Rooms!span", 2, "auto")], "Rooms!span", 2, "free from "),
    ("NO-SUPPORT", new("Grid", 6, name="4", offset=7.0) + new("Grid", 7, name="5", offset=9.0)
     + new("Rooms", 4, name="Shed", storey=1, corner="A4", opposite="B5", span="along letters"), "Rooms!span", 4,
     "without any support"),
    ("NO-BEARING", [*new("Grid", 6, name="4", offset=7.0),
                    *new("Beams", 1, name="LB", storey=1, start="A4", end="B4", breadth=230, depth=300)],
                     "Beams!name", 1,
     "beam LB is without any bearing"),
    ("ONE-BEARING", [("Columns!point", 1, "B1"), ("Beams!start", 0, "B1")], "Beams!name", 0, "on one bearing it tips"),
    ("BEARS-NOT", [("Beams!bears_on", 0, ("P1", "P2", "W3"))], "Beams!bears_on", 0, "bearing on W3, which it misses"),
    ("ATTACHED-BEYOND", [("Attached!length", 1, 8.0)], "Attached!length", 1,
     "from 0.80 m to 8.80 m along W3, but W3 ends"),
    ("ATTACHED-BEYOND", [("Attached!length", 1, None), ("Attached!from_start", 1, 60.0)], "Attached!from_start", 1,
     "from 60.00 m to 60.00 m along W3"),
    ("ATTACHED-NOT-A-ROOM", new("Attached", 2, name="Stove", kind="kitchen platform", on=("Loft",), weight=4.0),
     "Attached!on", 2, "a kitchen platform hangs on or stands against a wall"),
    ("ATTACHED-NO-WEIGHT", [("Attached!thickness", 0, None)], "Attached!weight", 0,
     "is blank, but it cannot be worked out "
     "without its thickness"),
    ("ATTACHED-NO-WEIGHT", [("Attached!size", 0, None), ("Attached!weight", 0, "unknown")], "Attached!weight", 0,
     "is unknown, but it cannot be worked out without its height or projection"),
    ("ATTACHED-NO-SLAB", [("Rooms!above", 3, "none"), *new("Attached", 2, name="Tank", kind="water tank", on=("Loft",),
                          weight=4.0)], "Attached!on", 2, "nothing is over that room"),
    ("ATTACHED-ONE", [("Attached!on", 0, ("W2", "W3"))], "Attached!on", 0, "Make a row for each of them"),
    ("FOOTING-TWICE", [("Footings!members", 1, ("P1", "P2", "W5"))], "Footings!members", 1, "the footing of W5"),
    ("FOOTING-UPPER", [("Footings!members", 1, ("P1", "P2", "U1"))], "Footings!members", 1, "U1 is on storey 2"),
    ("CUT-BELOW-FOOTING", [("Footings!plinth_height", 1, 0.1)], "Footings!plinth_height", 1,
     "the cut is 0.15 m below floor"),
    ("STAYS-CARRIES", [("Walls!at_lift", 4, "stays")], "Walls!at_lift", 4, "it carries the slab over Hall"),
    ("TAKEN-CARRIES", [("Walls!at_lift", 1, "taken down and rebuilt")], "Walls!at_lift", 1,
     "it carries the slab over Bed"),
    ("STAYS-UPPER", [("Walls!at_lift", 6, "stays")], "Walls!at_lift", 6, "goes up with the house"),
    ("WALL-SHORT", [*new("Grid", 6, name="D", offset=2.0), *new("Grid", 7, name="2a", offset=1.6),
                    *new("Walls", 9, name="W6", storey=1, start="D2", end="D2a", **WALL)], "Walls!end", 9,
     "0.10 m, but the walls it meets take up 0.12 m of it"),
]  # fmt: skip

WARNINGS = [
    ("TAPE", [("Tapes!length", 0, 7.69)], "Tapes!length", 0, "7.69 m, but the grid makes it 7.62 m"),
    ("GRID-CLEAR", [("Grid!clear", 1, 3.7), ("Grid!wall", 0, 230), ("Grid!wall", 1, 230)], "Grid!clear", 1,
     "the offsets leave 3.77 m between the walls"),
    ("ROOM-OVER-NOTHING", [("Rooms!above", 0, "none")], "Rooms!corner", 3, "over nothing for 12.00 m2"),
    ("FREE-END", new("Grid", 6, name="D", offset=5.5)
     + new("Walls", 9, name="W6", storey=1, start="D2", end="D1", thickness=115, height=2.0)
     + [("Beams!start", 0, "A1"), ("Beams!end", 0, "B1"), ("Columns!point", 1, "B1")], "Walls!end", 9,
     "the end of wall W6 at D1 is free"),
    ("OPENING-AT-JUNCTION", [("Openings!from_start", 0, 3.2)], "Openings!from_start", 0,
     "wall W5 meets the wall there"),
    ("WINDOW-OPEN", [("Openings!block_up", 1, "no")], "Openings!block_up", 1, "left open for the lift"),
    ("PLINTH-THIN", [("Footings!plinth_thickness", 0, 200)], "Footings!plinth_thickness", 0, "wall W1 on it is 230 mm"),
    ("FOOTING-NARROW", [("Footings!width", 0, 0.3)], "Footings!width", 0, "0.30 m wide"),
    ("ON-SLAB", [("Walls!start", 6, "B2"), *new("Grid", 6, name="D", offset=2.5),
                 *new("Walls", 9, name="U5", storey=2, start="D2", end="D3", thickness=115, height=2.7)],
                  "Walls!name", 9,
     "wall U5 is on the slab over Hall"),
    ("ATTACHED-EDGE", [("Attached!on", 0, ("Bed",)), ("Attached!length", 0, 3.0)], "Attached!on", 0,
     "parapet Parapet is on"),
    ("WALL-CLOSE", new("Grid", 6, name="D", offset=4.15)
     + new("Walls", 9, name="W6", storey=1, start="D2", end="D3", **WALL), "Walls!start", 9, "0.15 m beside wall W5"),
    ("LEVEL-FAR", [*new("Levels", 0, point="A1", what="ground", level=9.6), *new("Levels", 1, point="C1", what="ground",
                   level=10.7)], "Levels!level", 1, "another ground reads 9.600 m"),
    ("LEVELS-NO-GROUND", new("Levels", 0, point="Gate", what="road", level=10.2), "Levels!what", 0,
     "without one of the ground"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("code", "changes", "place", "row", "said"), FAULTS, ids=lambda v: v if isinstance(v, str) else ""
)
def test_a_fault_is_told_in_its_cell(checked, code, changes, place, row, said):
    faults, _ = checked(*changes)
    found = [p for p in told(faults, code) if str(p.where) == cell(place, row)]
    assert found, [str(problem) for problem in faults]
    assert said in str(found[0])


@pytest.mark.parametrize(
    ("code", "changes", "place", "row", "said"), WARNINGS, ids=lambda v: v if isinstance(v, str) else ""
)
def test_a_doubt_is_told_in_its_cell_and_is_no_fault(checked, code, changes, place, row, said):
    faults, warnings = checked(*changes)
    found = [p for p in told(warnings, code) if str(p.where) == cell(place, row)]
    assert found, [str(problem) for problem in (*faults, *warnings)]
    assert said in str(found[0])
    assert told(faults, code) == []


@pytest.mark.parametrize(
    ("outline", "said"),
    [
        (("A2", "B3", "A3", "C2"), "cross or touch"),
        (("A2", "B3", "A3", "B2"), "out of order"),
        (("A2", "B2", "B2", "B3"), "are the same place"),
        (("A1", "A2", "A3"), "encloses no area"),
        (("A1", "C1", "B2", "C3", "A3"), "cannot be shared out"),
    ],
)
def test_an_outline_without_a_clear_area_is_a_fault(checked, outline, said):
    faults, _ = checked(("Rooms!corner", 0, None), ("Rooms!opposite", 0, None), ("Rooms!outline", 0, outline))
    (problem,) = told(faults, "ROOM-OUTLINE")
    assert str(problem.where) == cell("Rooms!outline", 0)
    assert said in str(problem)


def test_a_house_of_which_nothing_goes_up_is_a_fault(tmp_path):
    rows = {title: copy.deepcopy(HOUSE[title]) for title in ("Grid", "Rooms", "Walls")}
    rows["Rooms"] = [row for row in rows["Rooms"] if row["name"] in ("Hall", "Bed")]
    rows["Walls"] = [{**row, "at_lift": "taken down and rebuilt"} for row in rows["Walls"] if row["storey"] == 1]
    faults, _ = cross_check(read(tmp_path, rows, JOB_VALUES))
    (problem,) = told(faults, "NOTHING-LIFTED")
    assert str(problem.where) == cell("Walls!at_lift", 0)


def test_a_span_between_two_free_sides_is_a_fault(checked):
    rooms = [("Rooms!span", 2, "along letters")]
    faults, _ = checked(*rooms)
    assert [(p.code, str(p.where)) for p in faults] == [("ROOM-SPAN", cell("Rooms!span", 2))]
    assert "along letters" in str(faults[0])


def test_two_beams_that_carry_each_other_are_a_fault(checked):
    ring = [
        *new("Grid", 6, name="4", offset=7.0), *new("Grid", 7, name="5", offset=9.0),
        *new("Beams", 1, name="R1", storey=1, start="A4", end="B4", breadth=230, depth=300),
        *new("Beams", 2, name="R2", storey=1, start="B4", end="B5", breadth=230, depth=300),
        *new("Columns", 2, name="P3", storey=1, point="A4", breadth=230, depth=230, height=2.4),
        *new("Columns", 3, name="P4", storey=1, point="B5", breadth=230, depth=230, height=2.4),
    ]  # fmt: skip
    faults, _ = checked(*ring)
    (problem,) = told(faults, "BEAM-RING")
    assert problem.where.sheet == "Beams"
    assert "one of them must bear on something else" in str(problem)


def test_one_line_each_way_is_no_grid(tmp_path):
    rows = {**HOUSE, "Grid": HOUSE["Grid"][:4], "Tapes": [], "Beams": [], "Columns": [], "Openings": [], "Attached": [],
            "Footings": [], "Rooms": _table("name storey corner opposite", ("Hall", 1, "A1", "B1")),
            "Walls": _table("name storey start end thickness height", ("W1", 1, "A1", "B1", 230, 3.0))}  # fmt: skip
    faults, _ = cross_check(read(tmp_path, rows))
    (problem,) = told(faults, "GRID-TOO-FEW")
    assert (str(problem.where), "the number of number lines is 1" in str(problem)) == (cell("Grid!name", 3), True)


def test_grid_lines_that_turn_back_are_doubtful(checked):
    _, warnings = checked(("Grid!offset", 1, 8.0))
    (problem,) = told(warnings, "GRID-ORDER")
    assert str(problem.where) == cell("Grid!offset", 2)
    assert "line B is at 8.00 m, so the lines turn back" in str(problem)


@pytest.mark.parametrize("share", [1.0, 1.0099])
def test_a_tape_within_one_in_a_hundred_is_not_doubted(checked, share):
    _, warnings = checked(("Tapes!end", 0, "B2"), ("Tapes!length", 0, 4.0 * share))
    assert told(warnings, "TAPE") == []


def test_a_rise_short_of_what_the_levels_call_for_is_doubtful(checked):
    _, warnings = checked(job={"rise": 0.5, "plinth": 0.3, "flood": 1.2})
    (problem,) = told(warnings, "RISE-SHORT")
    assert str(problem.where) == f"Job!B{JOB_ROW['rise']}"
    assert "the levels call for 1.2" in str(problem)


def test_without_rise_and_levels_there_is_nothing_to_raise_to(checked):
    faults, _ = checked(job={"rise": None})
    (problem,) = told(faults, "LEVELS-MISSING")
    assert str(problem.where) == cell("Job!rise", 0)
    assert "Give a Rise, or the levels it follows from" in str(problem)


@pytest.mark.parametrize(
    ("job", "code", "key", "said"),
    [
        ({"rise": None, "flood": 1.2}, "LEVELS-NO-PLINTH", "plinth", "as if the floor lay level with the ground"),
        ({"rise": 0}, "RISE-ZERO", "rise", "then nothing is raised"),
        ({"rise": None, "flood": 0.2, "plinth": 0.6}, "RISE-ZERO", "rise", "0.50 m is needed"),
        ({"flood": 0.2, "plinth": 0.6}, "FLOOD-LOW", "flood", "the floor lies higher, at 0.60 m"),
        (
            {"reason": "road higher than plinth", "road": 0.2, "plinth": 0.6},
            "ROAD-LOW",
            "road",
            "the floor lies higher",
        ),
    ],
)
def test_levels_that_contradict_one_another_are_doubtful(checked, job, code, key, said):
    faults, warnings = checked(job=job)
    (problem,) = told(warnings, code)
    assert (faults, str(problem.where)) == ([], cell(f"Job!{key}", 0))
    assert said in str(problem)


def test_a_flood_mark_read_below_the_ground_is_doubtful(checked):
    readings = [*new("Levels", 0, point="A1", what="ground", level=9.6),
                *new("Levels", 1, point="Gate", what="flood mark", level=9.4)]  # fmt: skip
    _, warnings = checked(*readings)
    (problem,) = told(warnings, "LEVEL-BELOW-GROUND")
    assert (str(problem.where), "0.20 m below ground" in str(problem)) == (cell("Job!flood", 0), True)


def test_plinth_and_footing_that_do_not_add_up_are_doubtful(checked):
    _, warnings = checked(job={"plinth": 0.6})  # 0.6 + 0.9 - 0.2 = 1.30 m, entered as 1.0; the pillars 1.15 and 0.8
    found = told(warnings, "FOOTING-LEVELS")
    assert [str(p.where) for p in found] == [cell("Footings!plinth_height", row) for row in (0, 1)]
    assert "make it 1.30 m" in str(found[0])


def test_a_cut_below_an_assumed_footing_is_told_at_the_cut(checked):
    faults, _ = checked(("Footings!members", 0, ("W1", "W2", "W3", "W4")), job={"cut_level": -0.9})
    # W5 has no footing, and the assumed plinth is 0.6 m high; that of the pillars 0.8 m.
    found = told(faults, "CUT-BELOW-FOOTING")
    assert [str(p.where) for p in found] == [cell("Job!cut_level", 0), cell("Footings!plinth_height", 1)]


def test_a_ground_storey_without_rooms_is_doubtful(checked):
    _, warnings = checked(*[("Rooms!storey", row, 2) for row in (1, 2)], ("Rooms!storey", 0, 2), ("Rooms!corner", 3,
     "B2"),
                          ("Rooms!opposite", 3, "C3"))  # fmt: skip
    (problem,) = told(warnings, "STOREY-NO-ROOM")
    assert str(problem.where) == cell("Rooms!storey", 0)


def test_many_faults_are_told_at_once_in_the_order_of_the_workbook(checked):
    faults, _ = checked(("Footings!members", 1, ("P1", "P2", "U1")), ("Openings!sill", 1, 2.0), ("Walls!end", 4, "B2"))
    assert [problem.code for problem in faults] == ["WALL-POINT", "OPENING-HIGH", "FOOTING-UPPER"]


def test_a_partition_that_carries_nothing_may_stay(checked):
    partition = new("Walls", 9, name="W6", storey=1, start="D2", end="D3", thickness=115, height=2.9, at_lift="stays")
    faults, _ = checked(*new("Grid", 6, name="D", offset=5.5), *partition)
    assert [str(problem) for problem in faults] == []


def test_a_column_missing_from_the_file_still_gives_a_cell(tmp_path):
    path = tmp_path / "survey.xlsx"
    rows = copy.deepcopy(HOUSE)
    rows["Rooms"][2]["span"] = "auto"
    path.write_bytes(survey_bytes(rows, JOB_VALUES, examples=False))
    book = load_workbook(path)
    page, letter = book["Rooms"], column_letter(SHEET["Rooms"], "span")
    for number in range(1, 20):
        page[f"{letter}{number}"] = None
    book.save(path)
    reading = read_survey(FileDoor(path).sheets())
    assert reading.faults == ()
    faults, _ = cross_check(reading)
    assert {str(problem.where) for problem in told(faults, "FREE-EDGE")} == {"Rooms!A6"}


ALLOWANCE_CELL = column_letter(SHEET["Allowances"], "value")


@pytest.mark.parametrize("allowance", tables.allowances(), ids=lambda a: a.key)
def test_an_allowance_is_taken_up_to_its_limits_and_beyond_them_is_a_fault_in_its_cell(sound, allowance):
    ((index, row),) = [(i, r) for i, r in enumerate(sound.tables["Allowances"]) if r["name"].value == allowance.key]
    step = (allowance.most - allowance.least) / 1000

    def told_of(value):
        found = Findings()
        check_allowances(changed(sound, [(("Allowances", "value"), index, value)]), found)
        return [(p.code, str(p.where), p.rule) for p in found.faults]

    assert told_of(allowance.least) == told_of(allowance.most) == told_of(allowance.value) == []
    for value in (allowance.least - step, allowance.most + step, 1e308, -1e308):
        ((code, where, rule),) = told_of(value)
        assert (code, where) == ("ALLOWANCE-RANGE", f"Allowances!{ALLOWANCE_CELL}{row.number}")
        assert f"{allowance.least:.10g} to {allowance.most:.10g}" in rule


def test_an_allowance_out_of_range_is_told_alone_before_any_geometry(sound):
    index = next(i for i, row in enumerate(sound.tables["Allowances"]) if row["name"].value == "base_step")
    broken = changed(sound, [(("Allowances", "value"), index, 0.0), (("Walls", "end"), 4, "B2")])
    faults, warnings = cross_check(broken)
    assert warnings == []
    assert [str(problem) for problem in faults] == [
        f"Allowances!{ALLOWANCE_CELL}{FIRST_ROW + index}: the allowance base_step is 0 m, but it must be 0.01 to 1 m. "
        "Type a value between them; as shipped it is 0.05 m. [ALLOWANCE-RANGE]"
    ]


def test_an_allowance_of_the_users_own_has_no_limits(sound):
    own = changed(sound, [(("Allowances", "name"), 0, "my_own"), (("Allowances", "value"), 0, 1e6)])
    found = Findings()
    check_allowances(own, found)
    assert found.faults == []


def test_an_allowance_in_other_capitals_is_a_fault_and_no_exception(sound):
    capitals = changed(sound, [(("Allowances", "name"), 0, "FRAME_WEIGHT")])
    assert [str(problem) for problem in cross_check(capitals)[0]] == [
        "Allowances!A4: the name is 'FRAME_WEIGHT', but the calculation asks for it in its own spelling. "
        "Type frame_weight. [NAME-SPELLING]"
    ]


# ---------------------------------------------------------------------------------------------- unknowns


def test_what_is_unknown_or_left_open_is_held(tmp_path):
    rows = copy.deepcopy(HOUSE)
    rows["Walls"][0]["system"] = "beam through wall"
    rows["Rooms"][1]["slab"] = "unknown"
    rows["Footings"] = rows["Footings"][:1]
    holds = {str(p.where): p for p in unknowns(read(tmp_path, rows))}
    assert {p.code for p in holds.values()} == {"HOLD"}
    assert holds["Walls!L5"].subject == "lifting system of W2, W3, W4, W5", "upper walls are not asked"
    assert holds["Rooms!H5"].found == "unknown"
    assert "priced with slab_thickness on Allowances" in holds["Rooms!H5"].rule
    assert holds["Footings"].subject == "footing of P1, P2"
    assert holds[cell("Job!bearing", 0)].rule == "it must be answered before lifting"
    assert cell("Job!neighbours", 0) not in holds, "no wall is shared or touches a neighbour"


def test_consent_is_asked_for_once_a_wall_is_shared(tmp_path):
    rows = copy.deepcopy(HOUSE)
    rows["Walls"][0]["side"] = "shared"
    assert cell("Job!neighbours", 0) in {str(p.where) for p in unknowns(read(tmp_path, rows))}


def test_what_was_answered_is_not_held(tmp_path):
    job = {**JOB_VALUES, "bearing": 150, "bearing_from": "test", "cut_level": -0.2}
    held = {str(p.where) for p in unknowns(read(tmp_path, job=job))}
    assert not held & {cell(f"Job!{key}", 0) for key in ("bearing", "bearing_from", "cut_level")}


# ---------------------------------------------------------------------------------------------- never an exception

_POINTS = st.sampled_from([f"{letter}{number}" for letter in "ABC" for number in "123"])
_VALUES = {
    ("Grid", "offset"): st.sampled_from([None, 0.0, 0.003, 1.5, 4.0, 7.0, -3.0]),
    ("Rooms", "storey"): st.sampled_from([1.0, 2.0, 3.0]),
    ("Walls", "storey"): st.sampled_from([1.0, 2.0, 3.0]),
    ("Columns", "storey"): st.sampled_from([1.0, 2.0]),
    ("Beams", "storey"): st.sampled_from([1.0, 2.0]),
    ("Rooms", "corner"): st.none() | _POINTS,
    ("Rooms", "opposite"): st.none() | _POINTS,
    ("Rooms", "outline"): st.none() | st.lists(_POINTS, min_size=3, max_size=6).map(tuple),
    ("Rooms", "span"): st.sampled_from(["auto", "along letters", "along numbers", "auto, free edges"]),
    ("Rooms", "above"): st.sampled_from(["slab", "pitched roof", "none"]),
    ("Rooms", "floor"): st.sampled_from(["on soil", "suspended"]),
    ("Walls", "start"): _POINTS,
    ("Walls", "end"): _POINTS,
    ("Walls", "thickness"): st.sampled_from([50.0, 230.0, 1200.0]),
    ("Walls", "at_lift"): st.sampled_from(["stays", "taken down and rebuilt"]),
    ("Beams", "start"): _POINTS,
    ("Beams", "end"): _POINTS,
    ("Beams", "plinth_beam"): st.sampled_from(["yes", "no"]),
    ("Beams", "bears_on"): st.sampled_from([("P1",), ("W3", "P2"), ("VB",)]),
    ("Columns", "point"): _POINTS,
    ("Openings", "wall"): st.sampled_from(["W2", "U4"]),
    ("Openings", "from_start"): st.sampled_from([0.0, 3.9, 50.0]),
    ("Openings", "height"): st.sampled_from([0.1, 5.0]),
    ("Attached", "on"): st.sampled_from([("VB",), ("P1",), ("W1", "W2"), ("Bed",)]),
    ("Attached", "weight"): st.sampled_from([None, 3.0]),
    ("Attached", "length"): st.sampled_from([None, 0.0, 90.0]),
    ("Footings", "members"): st.sampled_from([("U1",), ("W1",), ("P2", "W5")]),
    ("Footings", "plinth_height"): st.sampled_from([None, 0.0]),
    ("Tapes", "start"): _POINTS,
}
_CHANGE = st.sampled_from(sorted(_VALUES)).flatmap(
    lambda where: st.tuples(st.just(where), st.integers(0, len(HOUSE[where[0]]) - 1), _VALUES[where])
)


@pytest.fixture(scope="module")
def sound(tmp_path_factory):
    return read(tmp_path_factory.mktemp("sound"))


def changed(reading, changes):
    """The reading as it would be with other entries, without writing and reading a file each time."""
    tables = {title: list(rows) for title, rows in reading.tables.items()}
    for (title, key), index, value in changes:
        row = tables[title][index]
        entries = {**row.entries, key: Entry(key=key, where=row[key].where, value=value)}
        tables[title][index] = Row(sheet=row.sheet, index=row.index, number=row.number, entries=entries)
    return replace(reading, tables={title: tuple(rows) for title, rows in tables.items()})


@settings(max_examples=150, deadline=None)
@given(changes=st.lists(_CHANGE, min_size=1, max_size=4))
def test_no_change_of_a_readable_house_raises_and_what_passes_can_be_worked_out(sound, changes):
    reading = changed(sound, changes)
    faults, warnings = cross_check(reading)
    for problem in (*faults, *warnings, *unknowns(reading)):
        assert problem.where.sheet in ("Job", *SHEET)
        assert all((problem.code, problem.subject, problem.found, problem.rule, problem.fix))
    if not faults:
        rows = issued(reading)
        allowances = build_allowances(rows, Floats())
        survey = build_survey(rows, Floats(), allowances)
        prepared = prepare(survey, allowances)
        taken = take_down(survey, prepared.plan, own_loads(survey, prepared.plan, prepared.fractions, allowances),
                          prepared.sharing, allowances)  # fmt: skip
        assert taken.house.balance == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize(("stroke", "faulty"), [(31.0, False), (30.0, True), (25.0, True)])
def test_a_stroke_that_reserve_and_seating_use_up_is_a_fault_in_its_cell(sound, stroke, faulty):
    entry = replace(sound.job["stroke"], value=stroke, where=CellRef("Job", f"B{JOB_ROW['stroke']}"))
    faults, _ = cross_check(replace(sound, job={**sound.job, "stroke": entry}))
    told = [str(problem) for problem in faults if problem.code == "STROKE-SHORT"]
    assert len(told) == faulty
    if faulty:
        assert told[0].startswith(f"Job!B{JOB_ROW['stroke']}: the jack stroke is {stroke:.10g} mm, but reserve and")
        assert "30 mm of it" in told[0]
