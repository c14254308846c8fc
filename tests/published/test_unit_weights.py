"""Unit weights and weights by area against IS 875 (Part 1):1987, Tables 1 and 2.

Typed in kN/m3 and kN/m2 as printed, apart from templates/data. Most single values are values from memory and the
ranges they lie in second-hand, as marked beside each list; nobody here has read the printed standard. Figures are
chosen points of the table, so they must be met exactly.
"""

import pytest

from addin.tables import coverings, materials

STANDARD_GRAVITY = 9.80665  # m/s2
HALF_A_HUNDREDTH = 0.005 + 1e-9  # kN, half the last printed digit of Table 2, and float noise

UNIT_WEIGHT = {material.name: material.unit_weight for material in materials()}
READ = {material.name: material.read for material in materials()}
WEIGHT = {covering.name: covering.weight for covering in coverings()}

# IS 875 (Part 1):1987 Table 1, single values from memory.
FROM_MEMORY = [
    ("Brick masonry", 18.85),
    ("Dressed stone masonry", 25.90),
    ("Rubble masonry", 23.55),
    ("Cement mortar", 20.40),
    ("Cement plaster", 20.40),
    ("Lime plaster", 17.25),
    ("Marble", 26.7),
    ("Teak timber", 6.25),
    ("Sal timber", 8.50),
    ("Deodar timber", 5.35),
    ("Chir timber", 5.65),
    ("Water", 9.81),
]

# Ranges the same table prints. Stone and brick second-hand, the rest from memory; concrete block and aerated block
# from IS 2185 Parts 1 and 3 (from memory); steel and granite from EN 1991-1-1 Annex A (from memory).
RANGES = [
    ("Brick masonry", 18.85, 22.00),
    ("Pressed brick masonry", 18.85, 22.00),
    ("Dressed stone masonry", 20.40, 26.50),
    ("Rubble masonry", 20.40, 26.50),
    ("Dry rubble masonry", 20.40, 26.50),
    ("Laterite masonry", 20.40, 23.55),
    ("Aerated block masonry", 6.5, 7.5),
    ("Moist earth", 15.70, 19.60),
    ("Dry earth", 13.85, 18.05),
    ("Dry sand", 15.10, 15.70),
    ("Wet sand", 17.25, 19.60),
    ("Rammed gravel", 18.85, 21.20),
    ("Structural steel", 77.0, 78.5),
    ("Granite", 27.0, 30.0),
]

# IS 875 (Part 1):1987 Table 2, kN/m2: all from memory but the tiles with battens (second-hand).
ROOFS = [
    ("Mangalore tiles with battens", 0.64),
    ("Mangalore tiles with flat tiles", 0.78),
    ("Mangalore tiles bedded in mortar over flat tiles", 1.08),
    ("Country tiles, single, with battens", 0.69),
    ("Country tiles, double, with battens", 1.18),
    ("Allahabad tiles, single", 0.83),
    ("Allahabad tiles, double", 1.67),
]


@pytest.mark.parametrize(("name", "printed"), FROM_MEMORY)
def test_single_values_are_those_remembered_of_table_1_and_say_so(name, printed):
    assert printed == UNIT_WEIGHT[name]
    assert READ[name] == "memory"


@pytest.mark.parametrize(("name", "lower", "upper"), RANGES)
def test_the_point_chosen_lies_within_the_printed_range(name, lower, upper):
    assert lower <= UNIT_WEIGHT[name] <= upper


def test_concrete_has_the_design_values_of_is_456_clause_19_2_1():
    # 25 read in every self-weight line of Shah and Kale, RCC Theory and Design; 24 from memory.
    assert (UNIT_WEIGHT["Reinforced concrete"], UNIT_WEIGHT["Plain concrete"]) == (25, 24)
    assert (READ["Reinforced concrete"], READ["Plain concrete"]) == ("read", "memory")


def test_compacted_fill_is_common_practice_and_says_so():
    # Common practice, no source.
    assert (UNIT_WEIGHT["Compacted fill"], READ["Compacted fill"]) == (18, "common practice")


@pytest.mark.parametrize(
    ("thickness_mm", "printed_kg_per_m2", "printed_kn_per_m2"), [(100, 192, 1.88), (200, 384, 3.77), (300, 576, 5.65)]
)
def test_brick_masonry_agrees_with_the_brick_walls_of_table_2(thickness_mm, printed_kg_per_m2, printed_kn_per_m2):
    # Second-hand: 192 kg/m2 for each 100 mm, that is 1920 kg/m3 or 18.83 kN/m3.
    by_mass = printed_kg_per_m2 / (thickness_mm / 1000) * STANDARD_GRAVITY / 1000
    assert by_mass == pytest.approx(18.83, abs=HALF_A_HUNDREDTH)
    assert UNIT_WEIGHT["Brick masonry"] == pytest.approx(by_mass, rel=0.002)
    assert UNIT_WEIGHT["Brick masonry"] * thickness_mm / 1000 == pytest.approx(printed_kn_per_m2, abs=HALF_A_HUNDREDTH)


def test_dry_rubble_is_the_printed_2080_kg_per_m3():
    # Second-hand.
    assert UNIT_WEIGHT["Dry rubble masonry"] == pytest.approx(2080 * STANDARD_GRAVITY / 1000, abs=HALF_A_HUNDREDTH)


def test_block_masonry_is_no_lighter_than_its_blocks():
    # IS 2185 Part 1 solid block 1800 kg/m3, Part 3 grade 551-650 kg/m3, from memory: joints only add.
    assert UNIT_WEIGHT["Concrete block masonry"] >= 1800 * STANDARD_GRAVITY / 1000
    assert UNIT_WEIGHT["Aerated block masonry"] >= 650 * STANDARD_GRAVITY / 1000


def test_steel_is_7850_kg_per_m3_within_the_rounding_of_gravity_to_10():
    # 7849 kg/m3 second-hand (a weight-of-materials sheet); EN 1991-1-1 takes 7850 x 10.
    assert UNIT_WEIGHT["Structural steel"] == pytest.approx(7849 * STANDARD_GRAVITY / 1000, rel=0.02)


@pytest.mark.parametrize(("name", "printed"), ROOFS)
def test_tiled_roofs_weigh_what_is_remembered_of_table_2(name, printed):
    assert printed == WEIGHT[name]


@pytest.mark.parametrize(
    ("name", "printed_kg_per_m2"),
    [
        ("Mangalore tiles with battens", 65),
        ("Asbestos cement sheets, corrugated", 15.6),
        ("Galvanised iron sheets, 0.56 mm", 5),
        ("Galvanised iron sheets, 1.63 mm", 13),
    ],
)
def test_roofs_printed_in_kg_per_m2_agree(name, printed_kg_per_m2):
    # Second-hand; the standard rounds to 0.01 kN/m2.
    assert WEIGHT[name] == pytest.approx(printed_kg_per_m2 * STANDARD_GRAVITY / 1000, abs=HALF_A_HUNDREDTH)


@pytest.mark.parametrize(
    ("name", "printed"),
    [
        # From memory but the mastic asphalt (second-hand); the upper end where a range is printed.
        ("Clay floor tiles, 12.5 to 25 mm", 0.20),
        ("Cement screed, 10 mm", 0.21),
        ("Terrazzo, 10 mm", 0.24),
        ("Plaster on concrete or tile, 13 mm", 0.25),
        ("Mastic asphalt, 10 mm", 0.215),
    ],
)
def test_finishes_weigh_what_is_remembered_of_table_1(name, printed):
    assert printed == WEIGHT[name]


@pytest.mark.parametrize("material", ["Cement screed", "Terrazzo"])
def test_a_finish_by_area_is_its_material_by_volume(material):
    assert WEIGHT[f"{material}, 10 mm"] == pytest.approx(UNIT_WEIGHT[material] * 0.010, rel=1e-12)


def test_the_tables_have_their_full_count_and_sum():
    assert (len(UNIT_WEIGHT), len(WEIGHT)) == (30, 15)
    assert sum(printed for name, printed in ROOFS) == pytest.approx(6.87, abs=1e-9)
    roofs = [covering.weight for covering in coverings() if covering.part == "roof"]
    assert sum(roofs) == pytest.approx(6.87 + 0.156 + 0.05 + 0.13, abs=1e-9)
