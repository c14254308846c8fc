"""addin.tables: rows come typed from the installed package, and a damaged table is refused with its file and line."""

import subprocess
import sys
import zipfile
from dataclasses import fields, replace
from pathlib import Path

import pytest

from addin import tables
from addin.layout import MASONRY, SHEET, TABLES
from calc.member_rules import BaseRules, JackRules, PackingRules, SteelRules

ROOT = Path(__file__).parents[2]
HEADER = "name,unit_weight [kN/m3],source,read\n"
ROW = "Brick masonry,18.85,a code,memory\n"

READERS = {
    "materials": tables.materials,
    "uses": tables.uses,
    "soils": tables.soils,
    "coverings": tables.coverings,
    "sections": tables.sections,
    "consumption": tables.consumption,
    "member_rules": tables.member_rules,
    "timbers": tables.timbers,
    "jack_types": tables.jack_types,
}


@pytest.mark.parametrize("name", READERS)
def test_each_table_is_read_row_for_row_and_once(name):
    records = READERS[name]()
    with (ROOT / "templates" / "data" / f"{name}.csv").open(encoding="utf-8") as file:
        lines = sum(1 for _ in file) - 1
    assert len(records) == len(tables.load(name)) == lines
    assert READERS[name]() is records


def test_figures_come_as_floats_and_words_as_text():
    row = tables.load("soils")[0]
    assert row["bearing"] == 3240.0
    assert {key: type(value) for key, value in row.items()} == {
        "name": str,
        "bearing": float,
        "source": str,
        "read": str,
    }


def test_a_figure_the_read_edition_does_not_print_is_none_and_not_nought():
    channel = next(section for section in tables.sections() if section.name == "MC 100")
    assert (channel.area, channel.zpx, channel.root_radius) == (None, None, None)


def test_every_masonry_of_the_survey_is_a_material():
    assert set(MASONRY) <= {material.name for material in tables.materials()}


def test_every_default_and_example_of_the_survey_that_names_a_table_row_is_in_that_table():
    names = {
        "Materials": {material.name for material in tables.materials()},
        "Uses": {use.name for use in tables.uses()},
        "Soils": {soil.name for soil in tables.soils()},
    }
    named = [
        (column.refers[0], word)
        for sheet in TABLES
        for column in sheet.columns
        if column.refers and column.refers[0] in names
        for word in (column.default, column.example)
        if word
    ]
    assert ("Materials", "Brick masonry") in named
    assert [(table, word) for table, word in named if word not in names[table]] == []


@pytest.mark.parametrize(
    ("title", "key", "records"),
    [
        ("Materials", "unit_weight", tables.materials),
        ("Uses", "imposed", tables.uses),
        ("Soils", "bearing", tables.soils),
    ],
)
def test_shipped_rows_pass_the_limits_of_their_survey_sheet(title, key, records):
    columns = {column.key: column for column in SHEET[title].columns}
    for record in records():
        assert columns[key].least <= getattr(record, key) <= columns[key].most, record.name


def test_channels_and_beams_stand_lightest_first():
    for shape in ("beam", "channel"):
        masses = [section.mass for section in tables.sections() if section.shape == shape]
        assert masses == sorted(masses)


@pytest.mark.parametrize(
    ("text", "line", "part"),
    [
        pytest.param("name,source,read\nWater,a code,memory\n", 1, "unit_weight is missing", id="column-missing"),
        pytest.param(HEADER.replace("read", "read,colour"), 1, "'colour' is not known", id="column-unknown"),
        pytest.param(HEADER.replace("source", "name"), 1, "'name' is not known, or is there twice", id="column-twice"),
        pytest.param(HEADER.replace("kN/m3", "kg/m3"), 1, "must be in kN/m3", id="other-unit"),
        pytest.param(HEADER.replace(" [kN/m3]", ""), 1, "must be in kN/m3", id="no-unit"),
        pytest.param(HEADER.replace("source", "source [m]"), 1, "must be in no unit", id="unit-on-words"),
        pytest.param("", 1, "unit_weight, source, read is missing", id="empty"),
        pytest.param(HEADER, 1, "no rows", id="no-rows"),
        pytest.param(HEADER + ROW + "Water,9.8l,a code,memory\n", 3, "unit_weight is '9.8l'", id="not-a-number"),
        pytest.param(HEADER + "Water,nan,a code,memory\n", 2, "unit_weight is 'nan'", id="nan"),
        pytest.param(HEADER + "Water,inf,a code,memory\n", 2, "unit_weight is 'inf'", id="infinite"),
        pytest.param(HEADER + "Water,,a code,memory\n", 2, "unit_weight is blank", id="blank-figure"),
        pytest.param(HEADER + "Water,9.81,,memory\n", 2, "source is blank", id="blank-source"),
        pytest.param(HEADER + ROW + ROW, 3, "Brick masonry stands on line 2 already", id="name-twice"),
        pytest.param(HEADER + ROW.replace("memory", "hearsay"), 2, "read is 'hearsay'", id="unknown-mark"),
        pytest.param(HEADER + "Water,9.81,a code, edition,memory\n", 2, "5 cells, but there are 4", id="bare-comma"),
        pytest.param(HEADER + ROW + "\n", 3, "0 cells, but there are 4", id="blank-line"),
        pytest.param(HEADER + 'Water,9.81,"a code,memory\n', 2, "not readable", id="open-quote"),
    ],
)
def test_a_damaged_table_is_refused_with_file_line_and_reason(text, line, part):
    with pytest.raises(tables.TableError) as caught:
        tables.parse("materials", text)
    assert (caught.value.name, caught.value.line) == ("materials", line)
    assert str(caught.value).startswith(f"templates/data/materials.csv, line {line}: ")
    assert part in caught.value.message


def test_a_resource_may_repeat_for_other_work_but_not_for_the_same():
    header = "what,unit,resource,amount,resource_unit,source,read\n"
    rows = "concrete,m3,cement,320,kg,a schedule,read\nmortar,m3,cement,250,kg,a schedule,read\n"
    assert [row["amount"] for row in tables.parse("consumption", header + rows)] == [320.0, 250.0]
    with pytest.raises(tables.TableError, match="concrete, m3, cement stands on line 2 already"):
        tables.parse("consumption", header + rows + "concrete,m3,cement,300,kg,another,read\n")


def test_allowances_and_items_are_read_by_their_own_headers():
    allowance = "key,description,value,unit,least,most,source\ncut_depth,Cut below floor,-0.15,m,-2,0,common practice\n"
    (row,) = tables.parse("allowances", allowance)
    assert (row["value"], row["least"], row["most"]) == (-0.15, -2.0, 0.0)
    item = 'code,description,stage,unit,gang_note\nB01,"Digging, by hand",Digging,m3,\n'
    assert tables.parse("items", item)[0] == {
        "code": "B01",
        "description": "Digging, by hand",
        "stage": "Digging",
        "unit": "m3",
        "gang_note": "",
    }


def test_allowances_cover_every_default_the_survey_takes_from_them():
    keys = {allowance.key for allowance in tables.allowances()}
    wanted = {
        column.default.removeprefix("=")
        for sheet in TABLES
        for column in sheet.columns
        if isinstance(column.default, str) and column.default.startswith("=")
    }
    assert wanted - keys == set()


def test_every_allowance_lies_within_its_own_limits():
    assert [a.key for a in tables.allowances() if not a.least <= a.value <= a.most or not a.least < a.most] == []


RULES = (SteelRules, PackingRules, BaseRules, JackRules)


def test_every_member_rule_is_asked_for_by_just_one_record_and_lies_within_its_own_limits():
    asked = [field.name for record in RULES for field in fields(record)]
    assert sorted(asked) == sorted(rule.key for rule in tables.member_rules())
    assert [rule.key for rule in tables.member_rules() if not rule.least <= rule.value <= rule.most] == []


def test_rules_are_filled_from_the_table_in_the_unit_of_their_field():
    values = {rule.key: (rule.value, rule.unit) for rule in tables.member_rules()}
    for record in RULES:
        filled = tables.rules(record)
        for field in fields(record):
            assert (getattr(filled, field.name), field.metadata["unit"]) == values[field.name]


@pytest.mark.parametrize("change", [{"unit": "N/mm2"}, {"key": "something_else"}], ids=["other unit", "row missing"])
def test_a_member_rule_that_is_missing_or_in_another_unit_is_refused(change, monkeypatch):
    rows = tuple(replace(rule, **change) if rule.key == "yield_stress" else rule for rule in tables.member_rules())
    monkeypatch.setattr(tables, "member_rules", lambda: rows)
    with pytest.raises(tables.TableError, match="yield_stress is missing, or not in kN/m2"):
        tables.rules(SteelRules)


def test_beams_become_carriers_in_the_units_of_calc_and_channels_do_not():
    carriers = {section.name: section for section in tables.carrier_sections()}
    assert set(carriers) == {section.name for section in tables.sections() if section.shape == "beam"}
    found = carriers["MB 250"]  # printed 250 x 125 mm, 47.55 cm2, 5131.6 cm4, 465.71 cm3, 37.3 kg/m
    figures = (found.depth, found.width, found.area, found.ixx, found.zpx, found.mass)
    assert figures == pytest.approx((0.25, 0.125, 47.55e-4, 5131.6e-8, 465.71e-6, 37.3), rel=1e-14)


def test_a_beam_without_a_figure_that_a_carrier_needs_is_refused(monkeypatch):
    rows = tuple(replace(row, zpx=None) if row.name == "MB 300" else row for row in tables.sections())
    monkeypatch.setattr(tables, "sections", lambda: rows)
    with pytest.raises(tables.TableError, match="MB 300 has no zpx"):
        tables.carrier_sections.__wrapped__()


def test_item_codes_are_unique_and_every_item_has_a_unit():
    items = tables.items()
    assert len({item.code for item in items}) == len(items) == len(tables.load("items"))
    assert all(item.unit for item in items)


def test_a_missing_file_and_an_unknown_table_are_told_apart(monkeypatch, tmp_path):
    with pytest.raises(KeyError, match="no table is called 'prices'"):
        tables.load("prices")
    monkeypatch.setattr(tables, "files", lambda package: tmp_path / package)
    with pytest.raises(tables.TableError, match=r"materials\.csv, line 0: the file is missing"):
        tables.load("materials")


def test_tables_are_found_in_a_package_that_is_no_folder(tmp_path):
    archive = tmp_path / "plinthbook.zip"
    with zipfile.ZipFile(archive, "w") as packed:
        for package in ("addin", "calc", "templates"):
            packed.writestr(f"{package}/", "")
            for path in (*(ROOT / package).glob("*.py"), *(ROOT / package).glob("data/*.csv")):
                packed.write(path, path.relative_to(ROOT).as_posix())
    script = (
        f"import sys; sys.path.insert(0, {str(archive)!r}); from addin import tables; "
        "print(tables.__file__); print(len(tables.sections()))"
    )
    run = subprocess.run([sys.executable, "-P", "-c", script], cwd=tmp_path, capture_output=True, text=True, check=True)
    where, count = run.stdout.split()
    assert where.startswith(str(archive))
    assert int(count) == len(tables.sections())
