"""The jack plan on its sheets and as data: the same figures, out of date after an edit, plain where there is none."""

import json
from itertools import pairwise

import pytest

from addin.demo import demo_job, demo_rows
from addin.door import FileDoor
from addin.estimating import work
from addin.layout import FIRST_ROW, SHEET, column_letter
from addin.result_json import result
from addin.survey_book import survey_bytes
from tests.issued import Engine

HEAD = ("Offer", "Jacks", "Plan")


def rows_of_table(book, sheet, title):
    """Rows of one table of a sheet as cached, by the headings of the table."""
    page = book.cached[sheet]
    top = next(row for row in range(1, page.max_row) if page.cell(row, 1).value == title)
    header = next(row for row in range(top, page.max_row) if page.cell(row, 1).style == "pb header")
    names = [cell.value for cell in page[header]]
    found = []
    for row in page.iter_rows(min_row=header + 1, values_only=True):
        if row[0] in (None, "Total"):
            break
        found.append(dict(zip(names, row, strict=True)))
    return found


def test_every_jack_stands_on_the_sheet_with_its_figures(demo, demo_book):
    shown = {row["Jack"]: row for row in rows_of_table(demo_book, "Jacks", "Every jack")}
    planned = demo.prepared.jacks.jacks
    assert list(shown) == [jack.name for jack in planned]
    for jack in planned:
        row = shown[jack.name]
        assert row["Wall or column"] == jack.member
        assert row["From start (m)"] == pytest.approx(jack.at)
        assert row["Reaction soft (kN)"] == pytest.approx(jack.soft)
        assert row["Worst lost (kN)"] == pytest.approx(jack.one_lost)
        assert (row["Circuit"] or "") == jack.circuit


def test_the_bill_counts_the_jacks_of_the_plan(demo, demo_book):
    count = len(demo.prepared.jacks.jacks)
    assert demo_book.cache(demo_book.named("jack_count")) == count
    stations = next(item for item in demo.found.items if item.code == "J01")
    assert stations.quantity == count


def test_data_and_sheet_say_the_same_of_a_wall(demo):
    data = json.loads(json.dumps(result(demo)))["jacks"]
    for name, wall in data["walls"].items():
        its = demo.prepared.jacks.jacks_of(name)
        assert wall["count"] == len(wall["positions_m"]) == len(its)
        assert wall["reactions_kN"] == [jack.soft for jack in its]
        assert wall["worst_one_lost_kN"] >= max(wall["reactions_kN"])
        assert 0 < wall["beam_utilisation"] <= 1
    assert data["count"] == sum(wall["count"] for kind in ("walls", "columns") for wall in data[kind].values())
    marks = [mark for circuit in data["circuits"] for mark in circuit["jacks"]] + data["single_jacks"]
    assert sorted(marks) == sorted(jack.name for jack in demo.prepared.jacks.jacks)


@pytest.mark.parametrize(("sheet", "key", "value"), [
    ("Walls", "thickness", 345), ("Walls", "height", 3.4), ("Walls", "mortar", "lime"),
    ("Walls", "system", "twin beams and needles"), ("Openings", "from_start", 0.6), ("Openings", "kind", "door"),
    ("Kit", "type", "screw jack"),
])  # fmt: skip
def test_an_edit_that_touches_the_jack_plan_is_said_at_the_head_of_its_sheets(demo_book, sheet, key, value):
    engine = Engine(demo_book)
    assert {engine.value(title, "A4") for title in HEAD} == {""}
    engine.change((sheet, f"{column_letter(SHEET[sheet], key)}{FIRST_ROW}"), value)
    for title in HEAD:
        assert engine.value(title, "A4").startswith("OUT OF DATE"), title


def test_a_stop_shows_when_a_live_limit_falls_below_what_the_plan_asks(demo_book):
    engine = Engine(demo_book)
    rows = rows_of_table(demo_book, "Jack checks", "Hardest worked jack in every state")
    assert {row["Verdict"] for row in rows} == {"within the limits set"}
    page = demo_book.cached["Allowances"]
    packing = next(row for row in range(1, page.max_row) if page.cell(row, 1).value == "packing_side")
    # 1.0 N/mm2 on 0.2 m x 0.2 m bears 40 kN, half of what a jack may be given.
    engine.change(("Allowances", f"C{packing}"), 0.2)
    page = demo_book.cached["Jack checks"]
    header = next(row for row in range(1, page.max_row)
                  if page.cell(row, 1).value == "Mark" and page.cell(row, 4).value == "Jack carries (kN)")  # fmt: skip
    column = next(cell.column_letter for cell in page[header] if cell.value == "Verdict")
    assert "STOP" in {engine.value("Jack checks", f"{column}{row}") for row in range(header + 1, header + 20)}


def changed(**walls):
    """The demo with entries of some walls changed, worked through."""
    rows = {title: [dict(row) for row in its] for title, its in demo_rows().items()}
    for row in rows["Walls"]:
        row.update(walls.get(str(row["name"]), {}))
    return rows


def worked(rows, folder):
    path = folder / "survey.xlsx"
    path.write_bytes(survey_bytes(rows, demo_job(), examples=False))
    return work(FileDoor(path))


def test_a_wall_without_a_layout_is_counted_by_load_and_spacing_and_stops(tmp_path):
    rows = changed()
    # Two doors with a pier of 0.15 m between them leave no place for a jack.
    rows["Openings"] += [
        {"wall": "W3", "kind": "door", "from_start": 3.2, "width": 1.2, "height": 2.1, "sill": 0},
        {"wall": "W3", "kind": "door", "from_start": 4.55, "width": 1.2, "height": 2.1, "sill": 0},
    ]  # fmt: skip
    rows["Openings"] = [row for row in rows["Openings"] if not (row["wall"] == "W3" and row["kind"] == "vent")]
    found = worked(rows, tmp_path)
    wall = json.loads(json.dumps(result(found)))["jacks"]["walls"]["W3"]
    assert wall["positions_m"] == []
    assert "jamb" in wall["no_layout"]
    assert wall["count"] == wall["by_load_and_spacing"] > 0
    stops = [row for row in found.found.checks if row.name == "Without a layout of jacks" and row.stops]
    assert [str(row.where) for row in stops] == ["W3"]
    missing = {row.what for row in found.found.release.requirements if row.answer == "missing"}
    assert "Every jack placed" in missing


def test_jacks_stand_no_further_apart_than_weak_mortar_bridges(tmp_path):
    found = worked(changed(W2={"mortar": "lime"}), tmp_path)
    at = [jack.at for jack in found.prepared.jacks.jacks_of("W2")]
    assert max(there - here for here, there in pairwise(at)) <= 0.9 + 1e-9


def test_spares_follow_the_jacks_of_the_plan(demo):
    # One in ten, and at least four.
    assert demo.found.jack_totals.spares == max(-(-len(demo.prepared.jacks.jacks) // 10), 4)


def test_no_jack_is_predicted_over_its_usable_load_with_the_doubt_about_the_weight(demo):
    usable = demo.found.jack_totals.usable
    assert [jack.name for jack in demo.prepared.jacks.jacks if 1.1 * max(jack.soft, jack.stiff) > usable] == []
