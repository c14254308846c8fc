"""calc.own_loads and calc.take_down on small houses: weights by hand, all sizes unequal."""

import pytest

from calc.take_down_rows import NOT_SURVEYED
from tests.houses import (
    ALLOWANCES,
    BRICK,
    CONCRETE,
    PLAIN_CONCRETE,
    attached,
    beam,
    column,
    entered,
    footing,
    house,
    job,
    room,
    wall,
    worked,
)

LETTERS = {"A": 0.0, "B": 3.0, "C": 7.0}
NUMBERS = {"1": 0.0, "2": 2.5, "3": 6.0}


def bare(name, start, end, **changes):
    return wall(name, start, end, **{"plastered": 0, "thickness": 0.2, "height": 3.0, **changes})


def box():
    """Walls round A1 C2: 7.0 by 2.5 m."""
    return [bare("S", "A1", "C1"), bare("E", "C1", "C2"), bare("N", "A2", "C2"), bare("W", "A1", "A2")]


def test_a_stem_loses_half_the_through_wall_and_a_crossing_one_square_in_all():
    tee = worked(house(LETTERS, NUMBERS, walls=[bare("T", "A1", "C1", thickness=0.3), bare("S", "B1", "B3")]))
    assert tee.base("S").dead == pytest.approx((6.0 - 0.15) * 0.2 * 3 * BRICK)
    assert tee.base("T").dead == pytest.approx(7.0 * 0.3 * 3 * BRICK)
    cross = worked(house(LETTERS, NUMBERS, walls=[bare("X", "A2", "C2", thickness=0.3), bare("Y", "B1", "B3")]))
    area = sum((row.length - row.deducted) * row.thickness for row in cross.own.walls)
    assert area == pytest.approx(7.0 * 0.3 + 6.0 * 0.2 - 0.3 * 0.2)


def test_plaster_adds_to_a_walls_surface_for_each_face():
    found = worked(house(LETTERS, NUMBERS, walls=[bare("W", "A1", "B1", plastered=1)]))
    assert found.base("W").dead == pytest.approx(3.0 * 3.0 * (0.2 * BRICK + 0.012 * 20.4))


def test_a_wall_that_stays_or_is_taken_down_is_dead_load_but_not_lifted_and_its_cut_band_stays_too():
    deep = job(cut_level=entered(-0.15))
    walls = [bare("L", "A1", "B1"), bare("S", "A2", "B2", at_lift="stays"),
             bare("D", "A3", "B3", at_lift="taken down and rebuilt")]  # fmt: skip
    found = worked(house(LETTERS, NUMBERS, walls=walls, job=deep))
    own, band = 3.0 * 0.2 * 3 * BRICK, 3.0 * 0.35 * 0.15 * BRICK
    assert {n: found.base(n).dead for n in "LSD"} == pytest.approx(dict.fromkeys("LSD", own + band))
    assert {n: found.base(n).lifted for n in "LSD"} == pytest.approx({"L": own + band, "S": 0.0, "D": 0.0})
    assert found.taken.house.centre_balance == pytest.approx(0.0, abs=1e-9)


def test_a_slab_and_its_edge_load_the_walls_round_it():
    found = worked(house(LETTERS, NUMBERS, walls=box(), rooms=[room("R", "A1 C2", slab_thickness=0.12, finish=1.0)]))
    # 7.0 by 2.5 m is more than twice as long as wide: each long side takes 7 x 1.25 m2. Strips to the outer faces:
    # 0.1 x (7.0 + 0.1) and 0.1 x (2.5 + 0.1) m2. Dead 0.12 x 25 + 1.0 = 4, imposed 1.5 kN/m2
    assert found.total("S").slabs == pytest.approx((8.75 + 0.71) * 4.0)
    assert found.total("E").slabs == pytest.approx(0.26 * 4.0)
    assert found.total("S").imposed == pytest.approx((8.75 + 0.71) * 1.5)
    assert found.total("S").slabs_lifted == pytest.approx((8.75 + 0.71) * (4.0 + 0.25 * 1.5))


def test_a_house_lived_in_is_lifted_with_all_its_imposed_load():
    found = worked(house(LETTERS, NUMBERS, walls=box(), rooms=[room("R", "A1 C2")], job=job(empty="unknown")))
    assert found.taken.house.lifted == pytest.approx(found.taken.house.service)


def test_a_suspended_ground_floor_loads_the_ground_walls_with_its_own_use():
    rooms = [room("R", "A1 C2", above="none", floor="suspended", use="Store")]
    found = worked(house(LETTERS, NUMBERS, walls=box(), rooms=rooms))
    # slab 0.125 m and finish 1.0 by allowance; use Store 5 kN/m2
    assert found.total("N").slabs == pytest.approx((8.75 + 0.71) * (0.125 * CONCRETE + 1.0))
    assert found.total("N").imposed == pytest.approx((8.75 + 0.71) * 5.0)
    (panel,) = found.own.panels
    assert panel.z == pytest.approx(-0.125 / 2)


def test_a_pitched_roof_bears_on_its_long_sides_heavier_by_its_slope():
    roof = room("R", "B1 C2", above="pitched roof", finish=0.6, slope=60.0, carries="Pitched roof")
    walls = [bare("S", "B1", "C1"), bare("E", "C1", "C2"), bare("N", "B2", "C2"), bare("W", "B1", "B2")]
    found = worked(house(LETTERS, NUMBERS, walls=walls, rooms=[roof]))
    # 4.0 by 2.5 m: 5.0 m2 to each long side and 0.1 x 4.1 m2 of eaves; 0.6 / cos 60 = 1.2; imposed least 0.4 kN/m2
    assert found.total("S").slabs == pytest.approx((5.0 + 0.41) * 1.2)
    assert found.total("S").imposed == pytest.approx((5.0 + 0.41) * 0.4)
    assert found.total("E").slabs == pytest.approx(0.1 * 2.6 * 1.2)


def test_a_frame_passes_slab_to_beam_to_column():
    names = ("P", "A1"), ("Q", "C1"), ("R", "C2"), ("T", "A2")
    beams = [beam("S", "A1", "C1"), beam("E", "C1", "C2"), beam("N", "A2", "C2"), beam("W", "A1", "A2")]
    found = worked(house(LETTERS, NUMBERS, columns=[column(*item) for item in names], beams=beams,
                         rooms=[room("Room", "A1 C2")]))  # fmt: skip
    # each column: a quarter of everything, by symmetry
    slab = (7.23 * 2.73) * (0.12 * CONCRETE + 1.0)
    bars = 19.0 * 0.23 * 0.3 * CONCRETE
    own = 0.3 * 0.25 * 2.7 * CONCRETE
    assert found.base("Q").dead == pytest.approx((slab + bars) / 4 + own)


def test_an_unsurveyed_footing_takes_the_allowances_and_says_so():
    seen = footing("K", width=0.9, thickness=0.25, plinth_thickness=0.4, plinth_height=0.7)
    found = worked(house(LETTERS, NUMBERS, walls=[bare("K", "A1", "B1"), bare("U", "A2", "B2")], footings=[seen]))
    known, assumed = found.base("K"), found.base("U")
    assert known.stays == pytest.approx(3.0 * (0.4 * 0.7 * BRICK + 0.9 * 0.25 * PLAIN_CONCRETE))
    assert assumed.footing == NOT_SURVEYED
    assert assumed.stays == pytest.approx(3.0 * (0.35 * 0.6 * BRICK + 0.6 * 0.2 * PLAIN_CONCRETE))


def test_a_pillar_goes_down_with_its_own_section_to_a_square_footing():
    pillar = column("P", "A3", breadth=0.3, depth=0.25, height=2.4, material="Brick masonry")
    found = worked(house(LETTERS, NUMBERS, walls=[bare("W", "A1", "B1")], columns=[pillar],
                         footings=[footing("P", width=0.8)], job=job(cut_level=entered(-0.2))))  # fmt: skip
    base = found.base("P")
    assert base.dead == pytest.approx(0.3 * 0.25 * (2.4 + 0.2) * BRICK)
    assert base.stays == pytest.approx(0.3 * 0.25 * (0.6 - 0.2) * BRICK + 0.8 * 0.8 * 0.2 * PLAIN_CONCRETE)


def test_a_tank_is_full_in_service_and_drained_for_the_lift():
    tank = attached("T", "water tank", "W", weight=entered(2.5), water=0.75, length=entered(0.0))
    found = worked(house(LETTERS, NUMBERS, walls=[bare("W", "A1", "B1")], attached=[tank]))
    row = found.total("W")
    assert (row.attached, row.attached_imposed, row.attached_lifted) == pytest.approx((2.5, 0.75 * 9.81, 2.5))


def test_a_thing_taken_off_for_the_lift_weighs_in_service_only():
    stair = attached("T", "stair", "W", weight=entered(2.5), length=entered(1.0), size=1.2, support="taken off")
    row = worked(house(LETTERS, NUMBERS, walls=[bare("W", "A1", "B1")], attached=[stair])).total("W")
    assert (row.attached, row.attached_imposed, row.attached_lifted) == pytest.approx((2.5, 1.2 * 3.0, 0.0))


def test_a_parapet_is_masonry_and_plaster_on_both_faces_along_the_whole_wall():
    parapet = attached("P", "parapet", "W", thickness=0.115, size=0.8)
    row = worked(house(LETTERS, NUMBERS, walls=[bare("W", "A1", "B1")], attached=[parapet])).total("W")
    assert row.attached == pytest.approx(3.0 * 0.8 * (0.115 * BRICK + 2 * ALLOWANCES.plaster_thickness * 20.4))


def test_three_storeys_come_down_one_on_the_other():
    walls = [bare("G", "A1", "C1"), bare("U", "A1", "C1", storey=2, thickness=0.15),
             bare("T", "A1", "B1", storey=3, thickness=0.1)]  # fmt: skip
    found = worked(house(LETTERS, NUMBERS, walls=walls))
    assert found.base("G").dead == pytest.approx(3 * BRICK * (7 * 0.2 + 7 * 0.15 + 3 * 0.1))
    assert found.passed("T") == pytest.approx({"U": 3 * BRICK * 0.3})
