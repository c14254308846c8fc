"""calc.sharing: who gets how much. Statics by hand on small houses of unequal sizes."""

import pytest

from tests.houses import BRICK, CONCRETE, attached, beam, column, entered, house, opening, room, wall, worked

# 0.2 m bare brick 3 m high: 0.2 x 3 x 19 = 11.4 kN/m
LINE = 0.2 * 3.0 * BRICK
LETTERS = {"A": 0.0, "B": 1.5, "C": 5.0, "D": 7.0}
NUMBERS = {"1": 0.0, "2": 3.0, "3": 4.0}


def bare(name, start, end, **changes):
    return wall(name, start, end, **{"plastered": 0, "thickness": 0.2, **changes})


def box(**changes):
    """Walls round A1 C2, 5.0 by 3.0 m: the slab spans 3 m along numbers."""
    return [bare("S", "A1", "C1", **changes), bare("E", "C1", "C2", **changes), bare("N", "A2", "C2", **changes),
            bare("W", "A1", "A2", **changes)]  # fmt: skip


def test_an_upper_wall_is_shared_between_two_walls_by_the_lengths_on_each():
    walls = [bare("G1", "A1", "B1"), bare("G2", "B1", "D1", thickness=0.3), bare("U", "A1", "C1", storey=2)]
    found = worked(house(LETTERS, NUMBERS, walls=walls))
    assert found.passed("U") == pytest.approx({"G1": 1.5 * LINE, "G2": 3.5 * LINE})


def test_an_opening_over_the_joint_of_two_walls_takes_from_each_what_lies_over_it():
    # A vent 1.0 x 0.8 m from 1.1 to 2.1 m: 0.4 m over G1 (to 1.5 m) and 0.6 m over G2. It has no frame; its lintel is
    # 1.3 m long from 0.95 to 2.25 m, 0.15 x 0.2 m, and weighs 6 kN/m3 more than brick: 0.18 kN/m.
    walls = [bare("G1", "A1", "B1"), bare("G2", "B1", "D1"), bare("U", "A1", "C1", storey=2)]
    found = worked(house(LETTERS, NUMBERS, walls=walls, openings=[opening("U", "vent", 1.1, 1.0, 0.8)]))
    hole, lintel = 0.8 * 0.2 * BRICK, 0.15 * 0.2 * (CONCRETE - BRICK)
    assert found.passed("U") == pytest.approx({
        "G1": 1.5 * LINE - 0.4 * hole + 0.55 * lintel, "G2": 3.5 * LINE - 0.6 * hole + 0.75 * lintel,
    })  # fmt: skip
    assert found.profile("G1").total == pytest.approx(found.base("G1").dead)


def test_an_upper_wall_goes_to_the_wall_under_part_of_it_and_to_the_beam_under_the_rest():
    walls = [bare("G", "A1", "B1"), bare("H", "C1", "C2"), bare("U", "A1", "C1", storey=2)]
    survey = house(LETTERS, NUMBERS, walls=walls, beams=[beam("B", "B1", "C1", breadth=0.2, depth=0.4)])
    found = worked(survey)
    assert found.passed("U") == pytest.approx({"G": 1.5 * LINE, "B": 3.5 * LINE})
    # wall and beam weigh evenly along the beam, so each end draws one half
    half = 3.5 * (LINE + 0.2 * 0.4 * CONCRETE) / 2
    assert found.drawn("B") == pytest.approx({"G": half, "H": half})


def test_an_upper_wall_across_the_span_of_a_slab_goes_to_both_sides_by_the_lever_rule():
    # U runs along y = 1 from A to C over a slab that spans 3 m: 2/3 to the south wall, 1/3 to the north one
    numbers = {"1": 0.0, "9": 1.0, "2": 3.0}
    found = worked(house(LETTERS, numbers, walls=[*box(), bare("U", "A9", "C9", storey=2)], rooms=[room("R", "A1 C2")]))
    assert found.passed("U") == pytest.approx({"S": 5 * LINE * 2 / 3, "N": 5 * LINE / 3})


def test_an_upper_wall_along_the_span_of_a_slab_goes_to_both_sides_by_the_place_of_its_resultant():
    # U runs along B from 1 to 9 (0 to 1.2 m): its middle is 0.6 m from the south wall, of 3 m
    numbers = {"1": 0.0, "9": 1.2, "2": 3.0}
    found = worked(house(LETTERS, numbers, walls=[*box(), bare("U", "B1", "B9", storey=2)], rooms=[room("R", "A1 C2")]))
    assert found.passed("U") == pytest.approx({"S": 1.2 * LINE * 2.4 / 3, "N": 1.2 * LINE * 0.6 / 3})
    assert (1.5, pytest.approx(1.2 * LINE * 0.8)) in found.profile("S").points


def test_an_upper_wall_over_a_slab_whose_side_is_split_goes_to_the_wall_abreast_of_each_stretch():
    # south side: S1 to 1.5 m, S2 from there to 5 m; U at mid-span over both
    numbers = {"1": 0.0, "9": 1.5, "2": 3.0}
    walls = [bare("S1", "A1", "B1"), bare("S2", "B1", "C1"), *box()[1:], bare("U", "A9", "C9", storey=2)]
    found = worked(house(LETTERS, numbers, walls=walls, rooms=[room("R", "A1 C2")]))
    assert found.passed("U") == pytest.approx({"S1": 1.5 * LINE / 2, "S2": 3.5 * LINE / 2, "N": 5 * LINE / 2})
    # and no point has gathered at an end
    assert found.profile("S1").points == found.profile("S2").points == []


def test_a_column_on_a_slab_abreast_of_a_joint_gives_half_of_its_part_to_each_wall():
    numbers = {"1": 0.0, "9": 1.0, "2": 3.0}
    walls = [bare("S1", "A1", "B1"), bare("S2", "B1", "C1"), *box()[1:]]
    found = worked(house(LETTERS, numbers, walls=walls, rooms=[room("R", "A1 C2")],
                         columns=[column("P", "B9", storey=2, breadth=0.3, depth=0.4, height=2.0)]))  # fmt: skip
    weight = 0.3 * 0.4 * 2.0 * CONCRETE
    assert found.passed("P") == pytest.approx({"S1": weight / 3, "S2": weight / 3, "N": weight / 3})


def test_an_upper_wall_on_a_slab_with_free_sides_across_its_span_goes_to_the_sides_that_are_held():
    # only the short sides are held, 5 m apart: U along B stands 1.5 m from the west wall
    walls = [box()[1], box()[3], bare("U", "B1", "B2", storey=2)]
    found = worked(house(LETTERS, NUMBERS, walls=walls, rooms=[room("R", "A1 C2", span="auto, free edges")]))
    assert found.passed("U") == pytest.approx({"W": 3 * LINE * 3.5 / 5, "E": 3 * LINE * 1.5 / 5})
    assert found.taken.house.balance == pytest.approx(0.0, abs=1e-9)


def test_a_beam_on_a_beam_loads_it_at_its_end():
    # Main A1-C1 5 m on walls at its ends; Side from B1 north to the wall 3 m off weighs 3 x 0.23 x 0.4 x 25 = 6.9 kN
    walls = [bare("W", "A1", "A2"), bare("E", "C1", "C2"), bare("N", "A2", "C2")]
    beams = [beam("Main", "A1", "C1", depth=0.4), beam("Side", "B1", "B2", depth=0.4)]
    found = worked(house(LETTERS, NUMBERS, walls=walls, beams=beams))
    assert found.drawn("Side") == pytest.approx({"Main": 3.45, "N": 3.45})
    own = 5 * 0.23 * 0.4 * CONCRETE
    assert found.drawn("Main") == pytest.approx({"W": own / 2 + 3.45 * 3.5 / 5, "E": own / 2 + 3.45 * 1.5 / 5})


def test_a_beam_on_columns_gives_each_its_half_spans_and_the_overhang_to_the_last():
    # 7 m of 0.23 x 0.3 m beam = 1.725 kN/m; columns at 1.5 and 5.0 m
    columns = [column("P", "B1"), column("Q", "C1")]
    found = worked(house(LETTERS, NUMBERS, columns=columns, beams=[beam("B", "A1", "D1")]))
    assert found.drawn("B") == pytest.approx({"P": 1.725 * (1.5 + 1.75), "Q": 1.725 * (1.75 + 2.0)})


def test_a_column_beside_the_centre_line_is_measured_along_the_beam():
    letters = {"A": 0.0, "B": 0.1, "C": 4.0}
    numbers = {"1": 0.0, "2": 0.1, "3": 4.0}
    survey = house(letters, numbers, columns=[column("P", "A2"), column("Q", "C1")], beams=[beam("B", "A1", "C1")])
    found = worked(survey)
    assert found.drawn("B") == pytest.approx({"P": 1.725 * 2, "Q": 1.725 * 2})
    assert found.sharing.column_loads["P"]["dead"] == pytest.approx(found.base("P").dead)


def test_a_thing_on_a_room_goes_to_its_sides_as_the_slab_does():
    # 5 x 3 m, two way: 45 degree lines give 2.25 m2 to each short and 5.25 m2 to each long side, of 15 m2
    tank = attached("T", "water tank", "R", weight=entered(6.0), length=entered(0.0))
    with_tank, without = (worked(house(LETTERS, NUMBERS, walls=box(), rooms=[room("R", "A1 C2")], attached=things))
                          for things in ([tank], []))  # fmt: skip
    more = {name: with_tank.base(name).dead - without.base(name).dead for name in "SENW"}
    assert more == pytest.approx({"S": 2.1, "N": 2.1, "E": 0.9, "W": 0.9})


def test_a_thing_that_reaches_past_the_end_of_an_upper_wall_is_not_lost():
    slip = attached("P", "parapet", "U", from_start=entered(4.0), length=entered(2.0), weight=entered(3.0))
    walls = [bare("G", "A1", "C1"), bare("U", "A1", "C1", storey=2)]
    found = worked(house(LETTERS, NUMBERS, walls=walls, attached=[slip]))
    assert found.profile("G").total == pytest.approx(found.base("G").dead)


def test_a_slab_just_twice_as_long_as_wide_is_shared_two_ways_by_formula_and_by_place():
    # 2.3 by 4.6 m away from the origin: the area over a side is not 4.6 to the last digit
    letters, numbers = {"A": 1.1, "B": 3.4}, {"1": 0.7, "2": 5.3}
    walls = [bare("S", "A1", "B1"), bare("E", "B1", "B2"), bare("N", "A2", "B2"), bare("W", "A1", "A2")]
    found = worked(house(letters, numbers, walls=walls, rooms=[room("R", "A1 B2")]))
    shares = {row.carrier: row.share for row in found.own.shares}
    assert shares == pytest.approx({"S": 2.3**2 / 4, "N": 2.3**2 / 4, "E": 1.15 * 3.45, "W": 1.15 * 3.45})
    for name in "SENW":
        assert found.profile(name).total == pytest.approx(found.base(name).dead, rel=1e-9)
