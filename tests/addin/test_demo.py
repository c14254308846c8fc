"""The demo house: it reads without a fault, stands up as a plan, balances, and holds what a demo is there to show."""

import io
import math
import zipfile
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from addin import demo, tables
from addin.door import FileDoor
from addin.entries import split_point
from addin.kinds import Floats
from addin.layout import JOB, SHEET
from addin.reader import read_survey
from addin.surveying import build_allowances, build_survey, issued
from calc.estimate import estimate, prepare
from calc.levels import levels_of, reading_rows
from calc.plan import plan_of
from calc.quantities import ItemText
from tests.houses import RULES


@pytest.fixture(scope="module")
def reading(tmp_path_factory):
    path = tmp_path_factory.mktemp("demo") / "demo.xlsx"
    path.write_bytes(demo.demo_bytes())
    return read_survey(FileDoor(path).sheets())


@pytest.fixture(scope="module")
def allowances(reading):
    return build_allowances(issued(reading), Floats())


@pytest.fixture(scope="module")
def survey(reading, allowances):
    return build_survey(issued(reading), Floats(), allowances)


@pytest.fixture(scope="module")
def plan(survey):
    return plan_of(survey)


@pytest.fixture(scope="module")
def found(survey, allowances):
    texts = tuple(
        ItemText(code=i.code, description=i.description, stage=int(i.stage), unit=i.unit) for i in tables.items()
    )
    return estimate(survey, prepare(survey, allowances), allowances, texts, RULES)


@pytest.fixture(scope="module")
def taken_down(found):
    return found.taken


def canonical_parts(content):
    """Part name -> its XML in canonical form: the writer's libraries differ in spelling, never in meaning."""
    with zipfile.ZipFile(io.BytesIO(content)) as package:
        return {name: ElementTree.canonicalize(package.read(name)) for name in package.namelist()}


def test_the_committed_demo_is_what_the_code_builds():
    built, committed = canonical_parts(demo.demo_bytes()), canonical_parts(demo.DEMO.read_bytes())
    assert sorted(built) == sorted(committed)
    assert [name for name in built if built[name] != committed[name]] == [], "run python -m addin.demo"


def test_the_demo_is_the_same_bytes_every_time():
    assert demo.demo_bytes() == demo.demo_bytes()


def test_the_demo_reads_without_a_fault_or_a_warning(reading):
    assert [str(problem) for problem in (*reading.faults, *reading.warnings)] == []


def test_every_sheet_of_the_survey_that_has_no_published_rows_is_filled(reading):
    assert [title for title, sheet in SHEET.items() if not sheet.shipped and not reading.tables[title]] == []


def test_some_entries_carry_units_and_some_are_unknown_on_many_sheets(reading):
    entries = [(row.sheet, entry) for rows in reading.tables.values() for row in rows for entry in row.entries.values()]
    assert {sheet for sheet, entry in entries if entry.typed} >= {"Grid", "Walls", "Openings", "Footings", "Ground"}
    assert {sheet for sheet, entry in entries if entry.unknown} >= {"Rooms", "Walls", "Columns", "Footings", "Ground"}
    typed = [row["thickness"] for row in reading.tables["Walls"] if row["thickness"].typed]
    assert {(entry.typed, entry.value) for entry in typed} == {("9 in", 228.6)}


def test_what_holds_back_the_release_is_left_open(reading):
    unknown = {key for key, entry in reading.job.items() if entry.unknown}
    assert unknown == {"beams_known", "neighbours"}
    assert reading.job["bearing_from"].value == "soil name"
    assert [reading.job[key].blank for key in ("engineer", "licence", "release_date")] == [True] * 3
    assert {row["seen"].value for row in reading.tables["Footings"]} == {"yes", "no"}


def test_rise_and_levels_are_blank_on_job_and_the_flood_calls_for_about_a_metre(reading, survey):
    assert [reading.job[key].blank for key in ("rise", "plinth", "road", "flood")] == [True] * 4
    levels = levels_of(survey.job, reading_rows(survey.readings))
    # Floor 9.97 and ground 9.64 on average; the higher flood mark 10.66, so 1.02 above ground; 0.30 freeboard.
    assert levels.plinth == pytest.approx(0.33)
    assert levels.needed == pytest.approx(1.02 + 0.30)
    assert levels.rise == pytest.approx(1.32 - 0.33)
    assert levels.governed_by == "flood"


def test_the_plan_has_no_troubles(plan):
    assert plan.troubles == ()


def test_one_upper_wall_stands_partly_on_a_wall_and_partly_on_a_beam(plan):
    partly = {stand.upper for stand in plan.stands if not stand.full}
    assert partly == {"U1"}
    assert [(s.lower, s.lower_kind) for s in plan.stands if s.upper == "U1"] == [("W5", "wall"), ("B1", "beam")]


def test_the_house_is_small_two_rooms_deep_and_partly_of_two_storeys(survey, plan, taken_down):
    rooms = taken_down.own.rooms
    ground = sum(room.area for room in rooms if room.storey == 1)
    upper = sum(room.area for room in rooms if room.storey == 2)
    assert 75 < ground < 95
    assert 0.15 * ground < upper < 0.4 * ground
    assert [panel.name for panel in plan.panels if len(panel.outline) > 4] == ["Living"]
    assert {text for item in survey.attached for text in [item.kind]} == {
        "parapet", "balcony", "stair", "water tank", "sunshade", "kitchen platform",
    }  # fmt: skip


def test_the_take_down_balances(taken_down):
    house = taken_down.house
    assert house.balance == pytest.approx(0, abs=1e-9 * house.service)
    assert house.centre_balance == pytest.approx(0, abs=1e-9 * house.lifted)
    # A masonry house with concrete slabs weighs 10 to 20 kN for each m2 of floor; common practice, no source.
    assert 10 < house.service / house.floor_area < 20


def test_openings_lie_inside_their_walls_apart_from_each_other_and_from_walls_that_meet_there(survey, plan):
    lengths = {name: member.length for name, member in plan.members.items()}
    places = {name: [] for name in lengths}
    for opening in survey.openings:
        places[opening.wall].append((opening.from_start, opening.from_start + opening.width))
    for meeting in plan.meetings:
        wall, other = plan.members[meeting.other], plan.members[meeting.wall]
        for end in (other.start, other.end):
            along = wall.along(end)
            if wall.off(end) < 0.01 and 0.01 < along < wall.length - 0.01:
                places[wall.name].append((along - other.half, along + other.half))
    for name, taken in places.items():
        ordered = sorted(taken)
        assert all(end <= start for (_, end), (start, _) in pairwise(ordered)), name
        assert all(start >= 0.1 and end <= lengths[name] - 0.1 for start, end in ordered), name


def test_openings_end_below_the_slab_with_room_for_a_lintel(survey, allowances):
    heights = {wall.name: wall.height for wall in survey.walls}
    for opening in survey.openings:
        assert opening.sill + opening.height + allowances.lintel_depth <= heights[opening.wall]


def test_the_tapes_close_within_fifty_millimetres_and_one_per_cent(reading, survey):
    xs = {line.name: line.offset for line in survey.letters}
    ys = {line.name: line.offset for line in survey.numbers}
    for row in reading.tables["Tapes"]:
        (x1, y1), (x2, y2) = (
            (xs[letter], ys[number]) for letter, number in (split_point(row[key].value) for key in ("start", "end"))
        )
        drawn = math.hypot(x2 - x1, y2 - y1)
        assert row["length"].value == pytest.approx(drawn, abs=min(0.05, 0.01 * drawn)), row.number


def test_every_item_of_work_has_a_rate_labelled_as_invented(reading):
    rates = {row["name"].value: row for row in reading.tables["Rates"]}
    assert sorted(rates) == sorted(item.code for item in tables.items())
    assert [code for code, row in rates.items() if not row["rate"].value] == []
    assert {row["note"].value for row in rates.values()} == {"invented for the demo"}


RAISING_STAGES = range(1, 6)
"""Preliminaries to lifting: the raising alone, without new masonry, floors and making good."""


def test_the_price_is_believable_for_the_raising_alone_and_in_the_usual_band_as_a_whole(survey, allowances, found):
    job, area = survey.job, found.taken.house.floor_area
    additions = found.totals.total / found.totals.works
    alone = sum(stage.amount for stage in found.stages if stage.stage in RAISING_STAGES)
    # 250 to 350 rupees per square foot, 10.76 square feet in a square metre; common practice, no source.
    assert 250 * 10.76 < alone * additions / area < 350 * 10.76
    assert allowances.cheap_per_area < found.totals.per_floor_area < allowances.dear_per_area
    assert found.totals.total < 0.5 * job.rebuild_rate.value * area


def test_the_answer_is_a_budget_and_no_check_stops_the_job(found):
    assert found.release.grade == "budget"
    assert found.stops == 0
    missing = {requirement.what for requirement in found.release.requirements if requirement.missing}
    assert missing >= {"Footings seen in a pit", "Mortar of each wall", "Steel of concrete columns"}
    assert missing < {requirement.what for requirement in found.release.requirements}


def test_an_item_of_work_without_a_rate_is_named(monkeypatch):
    strange = tables.Item(code="Z98", description="d", stage="s", unit="No")
    monkeypatch.setattr(tables, "items", lambda: (strange,))
    with pytest.raises(ValueError, match=r"no rate for Z98; add it to RATES"):
        demo.demo_rows()


def test_a_rate_without_an_item_of_work_is_named(monkeypatch):
    monkeypatch.setitem(demo.RATES, "Z97", 1.0)
    with pytest.raises(ValueError, match="a rate for Z97, which is no item"):
        demo.demo_rows()


def test_every_key_of_the_demo_is_one_of_the_layout():
    assert set(demo.demo_job()) <= {column.key for column in JOB}
    for title, rows in demo.demo_rows().items():
        assert {key for row in rows for key in row} <= {column.key for column in SHEET[title].columns}, title


def test_changing_what_the_demo_hands_out_does_not_change_the_demo():
    demo.demo_job()["job_name"] = "another"
    demo.demo_rows()["Rooms"].clear()
    assert demo.demo_job()["job_name"] == "House at the bend"
    assert demo.demo_rows()["Rooms"]
