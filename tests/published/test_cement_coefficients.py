"""Cement, bricks and labour for a unit of work against published coefficients.

Cement   CPWD Delhi Schedule of Rates, coefficients for cement consumption, quintals of 100 kg (tables read).
         Concrete 1:3:6 is a value from memory; 1:4:8 and 1:5:10 are second-hand, printed in bags of 50 kg.
Labour   IS 7272 (Part 1):1974 and its Amendment 1, days of 8 hours (tables read).
Sand, aggregate, traditional bricks, plaster: CPWD Analysis of Rates, values from memory.
"""

import pytest

from addin.tables import consumption

EXACT = 1e-12
QUINTAL = 100  # kg
BAG = 50  # kg
AMOUNT = {(row.what, row.resource): row.amount for row in consumption()}


@pytest.mark.parametrize(
    ("what", "printed_quintals"),
    [
        ("cement mortar 1:1", 10.20),
        ("cement mortar 1:2", 6.80),
        ("cement mortar 1:3", 5.10),
        ("cement mortar 1:4", 3.80),
        ("cement mortar 1:5", 3.10),
        ("cement mortar 1:6", 2.50),
        ("concrete 1:1.5:3", 4.00),
        ("concrete 1:2:4", 3.20),
        ("concrete 1:3:6", 2.20),  # value from memory
    ],
)
def test_cement_is_the_printed_coefficient(what, printed_quintals):
    assert AMOUNT[what, "cement"] == pytest.approx(printed_quintals * QUINTAL, rel=EXACT)


@pytest.mark.parametrize(("what", "printed_bags"), [("concrete 1:4:8", 3.4), ("concrete 1:5:10", 2.6)])
def test_cement_of_lean_concrete_is_the_printed_number_of_bags(what, printed_bags):
    # Second-hand.
    assert AMOUNT[what, "cement"] == pytest.approx(printed_bags * BAG, rel=EXACT)


@pytest.mark.parametrize(
    ("what", "printed_bags"),
    [
        ("concrete 1:5:10", 2.58),
        ("concrete 1:4:8", 3.39),
        ("concrete 1:3:6", 4.41),
        ("concrete 1:2:4", 6.21),
        ("concrete 1:1.5:3", 8.02),
    ],
)
def test_an_independent_norm_gives_the_same_cement_within_four_in_a_hundred(what, printed_bags):
    # A consumption norm without wastage, read; its 1:2:4 is the furthest off, 310.5 against 320 kg.
    assert AMOUNT[what, "cement"] == pytest.approx(printed_bags * BAG, rel=0.04)


def test_cement_rows_have_their_count_and_sum():
    cement = [row.amount for row in consumption() if row.resource == "cement"]
    quintals = 10.20 + 6.80 + 5.10 + 3.80 + 3.10 + 2.50 + 4.00 + 3.20 + 2.20 + 1.7 + 1.3
    assert len(cement) == 11
    assert sum(cement) == pytest.approx(quintals * QUINTAL, rel=EXACT)


def test_bricks_and_mortar_of_modular_brickwork_follow_from_the_brick():
    # Two published articles, read: 1 / (0.20 x 0.10 x 0.10) = 500 bricks, the rest of the cubic metre is mortar.
    assert AMOUNT["brickwork, modular bricks", "brick"] == pytest.approx(1 / (0.20 * 0.10 * 0.10), rel=EXACT)
    assert AMOUNT["brickwork, modular bricks", "mortar"] == pytest.approx(1 - 500 * 0.19 * 0.09 * 0.09, rel=EXACT)


def test_mortar_coefficient_times_schedule_coefficient_is_the_cement_of_brickwork_1_to_6():
    # CPWD: 0.25 m3 of mortar at 2.5 quintals, 62.5 kg; the articles work out 63.06 kg for modular bricks.
    kilograms = AMOUNT["brickwork, traditional bricks", "mortar"] * AMOUNT["cement mortar 1:6", "cement"]
    assert kilograms == pytest.approx(62.5, rel=EXACT)
    assert kilograms == pytest.approx(63.06, rel=0.01)


def test_sand_and_aggregate_are_those_remembered_of_the_analysis_of_rates():
    # Values from memory, m3 for each m3.
    assert (AMOUNT["concrete 1:2:4", "sand"], AMOUNT["concrete 1:2:4", "aggregate"]) == (0.445, 0.89)
    assert (AMOUNT["concrete 1:1.5:3", "sand"], AMOUNT["concrete 1:1.5:3", "aggregate"]) == (0.425, 0.85)
    for mix in ("1:3:6", "1:4:8", "1:5:10"):
        assert (AMOUNT[f"concrete {mix}", "sand"], AMOUNT[f"concrete {mix}", "aggregate"]) == (0.47, 0.94)
    for mix in ("1:3", "1:4", "1:5", "1:6"):
        assert AMOUNT[f"cement mortar {mix}", "sand"] == 1.07
    assert AMOUNT["brickwork, traditional bricks", "brick"] == 494


def test_materials_of_1_2_4_concrete_agree_with_the_dry_volume_rule():
    # Article, read: dry factor 1.5 gives cement 0.214 m3 at 1440 kg/m3, sand 0.428, aggregate 0.856 m3.
    assert AMOUNT["concrete 1:2:4", "cement"] == pytest.approx(0.214 * 1440, rel=0.05)
    assert AMOUNT["concrete 1:2:4", "sand"] == pytest.approx(0.428, rel=0.05)
    assert AMOUNT["concrete 1:2:4", "aggregate"] == pytest.approx(0.856, rel=0.05)


@pytest.mark.parametrize(("millimetres", "printed_m3_for_10_m2"), [(6, 0.072), (12, 0.144), (15, 0.172), (20, 0.224)])
def test_plaster_takes_the_remembered_mortar_and_never_less_than_its_own_thickness(millimetres, printed_m3_for_10_m2):
    # Values from memory.
    mortar = AMOUNT[f"plaster {millimetres} mm", "mortar"]
    assert mortar == pytest.approx(printed_m3_for_10_m2 / 10, rel=EXACT)
    assert mortar >= millimetres / 1000


# Printed columns: mate, mazdoor, bhisti, mason, mixer operator, mixer, vibrator, carpenter; days.
CREW = ("mate", "mazdoor", "bhisti", "mason", "mixer operator", "mixer", "vibrator", "carpenter")
LABOUR = [
    ("digging over areas, hard or dense soil, to 1.5 m deep", "m3", (0.06, 0.62, 0, 0, 0, 0, 0, 0)),
    ("digging trenches, soft soil, to 1.5 m wide and deep", "m3", (0.05, 0.50, 0, 0, 0, 0, 0, 0)),
    ("filling and ramming in 0.20 m layers, lead 50 m", "m3", (0.02, 0.25, 0.02, 0, 0, 0, 0, 0)),
    ("filling and ramming in 0.20 m layers, lead 25 m", "m3", (0.02, 0.22, 0.02, 0, 0, 0, 0, 0)),
    ("extra lead of 25 m, to 250 m", "m3", (0.01, 0.12, 0, 0, 0, 0, 0, 0)),
    ("mixing concrete by machine", "m3", (0, 0.50, 0.10, 0, 0.07, 0, 0, 0)),
    ("cement concrete with mixer", "m3", (0, 1.63, 0.70, 0.10, 0, 0.07, 0.07, 0)),
    ("reinforced concrete in footings, without forms and steel", "m3", (0, 2.00, 0.90, 0.17, 0, 0.07, 0.07, 0)),
    ("reinforced concrete in suspended slabs, without forms and steel", "m3", (0, 2.50, 0.90, 0.24, 0, 0.07, 0.07, 0)),
    ("mixing mortar by hand", "m3", (0, 0.75, 0.07, 0, 0, 0, 0, 0)),
    ("brickwork thicker than one brick", "m3", (0, 1.80, 0.20, 0.94, 0, 0, 0, 0)),
    ("brickwork one brick thick", "m2", (0, 0.40, 0.10, 0.25, 0, 0, 0, 0)),
    ("formwork", "m2", (0, 0, 0, 0, 0, 0, 0, 0.25)),
]


@pytest.mark.parametrize(("what", "unit", "printed"), LABOUR)
def test_labour_is_the_printed_constant_and_no_other_hand_is_added(what, unit, printed):
    rows = [row for row in consumption() if row.what == what]
    assert {row.resource: row.amount for row in rows} == {
        resource: days for resource, days in zip(CREW, printed, strict=True) if days
    }
    assert {(row.unit, row.resource_unit, row.read) for row in rows} == {(unit, "day", "read")}


@pytest.mark.parametrize(
    ("what", "printed_days_for_10_m3"),
    [("demolishing cement concrete", 23), ("demolishing reinforced concrete", 33.5), ("demolishing brickwork", 19.5)],
)
def test_demolition_takes_the_quoted_days(what, printed_days_for_10_m3):
    # Second-hand, a trade forum.
    assert AMOUNT[what, "mazdoor"] == pytest.approx(printed_days_for_10_m3 / 10, rel=EXACT)


def test_plastering_takes_the_quoted_days():
    # Second-hand, a trade forum: head mason 1, mason 10, labour 14, bhisti 1 for 100 m2 of 12 mm 1:6.
    what = "plaster 12 mm, cement mortar 1:6"
    days = [AMOUNT[what, who] * 100 for who in ("head mason", "mason", "mazdoor", "bhisti")]
    assert days == pytest.approx([1, 10, 14, 1], rel=EXACT)
