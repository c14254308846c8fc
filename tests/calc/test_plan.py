"""calc.plan: who meets, carries and stands on whom. Figures by hand on small plans with unequal sizes."""

import pytest

from calc.plan import plan_of
from calc.plan_rows import Member, Plan
from calc.survey import GridPoint
from tests.houses import beam, column, house, room, wall

LETTERS = {"A": 0.0, "B": 3.0, "C": 7.0, "D": 9.0}
NUMBERS = {"1": 0.0, "2": 2.5, "3": 6.0}


def meetings(*walls):
    return [(m.wall, m.other, m.kind) for m in plan_of(house(LETTERS, NUMBERS, walls=walls)).meetings]


def codes(plan: Plan):
    return [(trouble.code, trouble.member) for trouble in plan.troubles]


def stands(plan: Plan, upper):
    return [(s.lower, s.lower_kind, s.start, s.end) for s in plan.stands if s.upper == upper]


def rests(plan: Plan, name):
    return [(r.support, r.support_kind, pytest.approx(r.at), r.whole) for r in plan.rests if r.beam == name]


# ---------------------------------------------------------------------------------------------- meetings


def test_a_wall_that_ends_on_another_loses_half_of_it_and_the_other_nothing():
    assert meetings(wall("T", "A1", "C1"), wall("S", "B1", "B3")) == [("S", "T", "tee")]


def test_two_walls_that_cross_each_lose_half_of_the_other():
    assert meetings(wall("X", "A2", "C2"), wall("Y", "B1", "B3")) == [("X", "Y", "crossing"), ("Y", "X", "crossing")]


def test_a_corner_takes_nothing_from_either_wall():
    assert meetings(wall("X", "A1", "C1"), wall("Y", "A1", "A3")) == []


def test_a_wall_that_stops_short_of_another_does_not_meet_it():
    assert meetings(wall("X", "A1", "C1"), wall("Y", "B2", "B3")) == []


def test_two_walls_in_line_are_one_through_wall_for_a_stem_that_ends_where_they_join():
    found = meetings(wall("L", "A1", "B1"), wall("R", "B1", "C1"), wall("S", "B1", "B3"))
    assert found == [("S", "L", "tee")]


def test_of_four_walls_at_one_point_the_first_pair_goes_through_and_the_others_lose_half_each():
    found = meetings(
        wall("L", "A2", "B2"), wall("R", "B2", "C2"), wall("S", "B1", "B2"), wall("N", "B2", "B3"),
    )  # fmt: skip
    assert found == [("S", "L", "tee"), ("N", "L", "tee")]


def test_a_wall_through_the_joint_of_two_walls_in_line_takes_half_from_each_of_them():
    found = meetings(wall("L", "A2", "B2"), wall("R", "B2", "C2"), wall("Y", "B1", "B3"))
    assert found == [("L", "Y", "tee"), ("R", "Y", "tee")]


def test_walls_of_different_storeys_do_not_meet():
    assert meetings(wall("T", "A1", "C1"), wall("S", "B1", "B3", storey=2)) == []


# ---------------------------------------------------------------------------------------------- slabs


def four(**more):
    return [wall("S", "A1", "B1", **more), wall("E", "B1", "B2", **more), wall("N", "A2", "B2", **more),
            wall("W", "A1", "A2", **more)]  # fmt: skip


def test_each_side_of_a_slab_is_carried_by_the_wall_along_it_and_runs_to_the_outer_face():
    (panel,) = plan_of(house(LETTERS, NUMBERS, walls=four(), rooms=[room("R", "A1 B2")])).panels
    assert [(p.carrier, p.on_line, p.outside, p.corners, p.turn) for p in panel.pieces] == [
        ("S", True, True, 2, 1), ("E", True, True, 2, 1), ("N", True, True, 2, 1), ("W", True, True, 2, 1),
    ]  # fmt: skip
    assert panel.closed == "two way"


def test_a_side_is_split_where_one_wall_ends_and_the_next_begins():
    walls = [wall("S1", "A1", "B1"), wall("S2", "B1", "C1", thickness=0.115), wall("E", "C1", "C2"),
             wall("N", "A2", "C2"), wall("W", "A1", "A2")]  # fmt: skip
    (panel,) = plan_of(house(LETTERS, NUMBERS, walls=walls, rooms=[room("R", "A1 C2")])).panels
    assert [(p.carrier, str(p.start), str(p.end), p.corners) for p in panel.pieces] == [
        ("S1", "A1", "B1", 1), ("S2", "B1", "C1", 1), ("E", "C1", "C2", 2), ("N", "C2", "A2", 2), ("W", "A2", "A1", 2),
    ]  # fmt: skip
    assert panel.closed == ""


def test_a_side_is_outside_only_where_no_other_slab_lies_beyond_it():
    walls = [wall("S", "A1", "C1"), wall("E", "C1", "C2"), wall("N", "A2", "C2"), wall("W", "A1", "A3"),
             wall("N2", "A3", "B3"), wall("E2", "B2", "B3")]  # fmt: skip
    rooms = [room("Low", "A1 C2"), room("High", "A2 B3")]
    low, high = plan_of(house(LETTERS, NUMBERS, walls=walls, rooms=rooms)).panels
    # the north wall carries Low on two stretches: under High inside, from B to C outside with one outer corner at C
    # and one inner corner at B
    assert [(p.carrier, p.outside, p.corners) for p in low.pieces] == [
        ("S", True, 2), ("E", True, 2), ("N", True, 0), ("N", False, 0), ("W", True, 1),
    ]  # fmt: skip
    assert [(p.carrier, p.outside, p.corners) for p in high.pieces] == [
        ("N", False, 0), ("E2", True, 0), ("N2", True, 2), ("W", True, 1),
    ]  # fmt: skip


def test_an_inner_corner_of_one_l_shaped_slab_turns_inward():
    walls = [wall("S", "A1", "C1"), wall("E", "C1", "C2"), wall("M", "B2", "C2"), wall("I", "B2", "B3"),
             wall("N", "A3", "B3"), wall("W", "A1", "A3")]  # fmt: skip
    plan = plan_of(house(LETTERS, NUMBERS, walls=walls, rooms=[room("L", "A1 C1 C2 B2 B3 A3")]))
    (panel,) = plan.panels
    assert [(p.carrier, p.corners, p.turn) for p in panel.pieces] == [
        ("S", 2, 1), ("E", 2, 1), ("M", 0, -1), ("I", 0, 1), ("N", 2, 1), ("W", 2, 1),
    ]  # fmt: skip
    assert plan.troubles == ()


def test_a_beam_takes_the_slab_before_the_wall_below_it():
    survey = house(LETTERS, NUMBERS, walls=four(), rooms=[room("R", "A1 B2")], beams=[beam("B", "A1", "B1")])
    plan = plan_of(survey)
    assert plan.panels[0].pieces[0].carrier == "B"
    assert rests(plan, "B") == [("S", "wall", 0.0, True)]


def test_a_side_without_wall_or_beam_is_a_trouble_unless_the_slab_is_said_to_have_free_edges():
    walls = four()[:3]
    plan = plan_of(house(LETTERS, NUMBERS, walls=walls, rooms=[room("R", "A1 B2")]))
    assert codes(plan) == [("FREE-EDGE", "R")]
    free = room("R", "A1 B2", span="auto, free edges")
    assert codes(plan_of(house(LETTERS, NUMBERS, walls=walls, rooms=[free]))) == []


def test_a_slab_with_nothing_under_any_side_is_a_trouble():
    plan = plan_of(house(LETTERS, NUMBERS, walls=four(), rooms=[room("R", "C2 D3", span="along letters")]))
    assert codes(plan) == [("NO-SUPPORT", "R")]


def test_a_suspended_ground_floor_is_a_panel_of_its_own_that_walls_and_plinth_beams_carry():
    survey = house(LETTERS, NUMBERS, walls=four()[:3], rooms=[room("R", "A1 B2", floor="suspended", above="none")],
                   beams=[beam("P", "A1", "A2", plinth_beam="yes")])  # fmt: skip
    roof, floor = plan_of(survey).panels
    assert (roof.kind, floor.kind, floor.name) == ("none", "floor", "R floor")
    assert [p.carrier for p in floor.pieces] == ["S", "E", "N", "P"]


# ---------------------------------------------------------------------------------------------- what stands on what


def test_an_upper_wall_stands_on_the_wall_under_it():
    survey = house(LETTERS, NUMBERS, walls=[wall("G", "A1", "C1"), wall("U", "B1", "C1", storey=2)])
    assert stands(plan_of(survey), "U") == [("G", "wall", 0.0, 4.0)]


def test_an_upper_wall_is_split_between_two_walls_in_line_of_different_thickness():
    walls = [wall("G1", "A1", "B1"), wall("G2", "B1", "D1", thickness=0.35), wall("U", "A1", "C1", storey=2)]
    assert stands(plan_of(house(LETTERS, NUMBERS, walls=walls)), "U") == [
        ("G1", "wall", 0.0, 3.0), ("G2", "wall", 3.0, 7.0),
    ]  # fmt: skip


def test_an_upper_wall_stands_partly_on_a_wall_and_partly_on_the_beam_that_goes_on_in_its_line():
    walls = [wall("G", "A1", "B1"), wall("H", "C1", "C2"), wall("U", "A1", "C1", storey=2)]
    plan = plan_of(house(LETTERS, NUMBERS, walls=walls, beams=[beam("B", "B1", "C1")]))
    assert stands(plan, "U") == [("G", "wall", 0.0, 3.0), ("B", "beam", 3.0, 7.0)]
    # the beam bridges from the end of the wall in its line to the wall across its other end
    assert rests(plan, "B") == [("G", "wall", 0.0, False), ("H", "wall", 4.0, False)]
    assert codes(plan) == []


def test_an_upper_wall_over_two_rooms_stands_on_the_slab_of_each():
    walls = [wall("S", "A1", "C1"), wall("M", "A2", "C2"), wall("N", "A3", "C3"), wall("W", "A1", "A3"),
             wall("E", "C1", "C3"), wall("U", "B1", "B3", storey=2)]  # fmt: skip
    rooms = [room("Front", "A1 C2"), room("Back", "A2 C3")]
    plan = plan_of(house(LETTERS, NUMBERS, walls=walls, rooms=rooms))
    assert stands(plan, "U") == [("Front", "slab", 0.0, 2.5), ("Back", "slab", 2.5, 6.0)]


def test_an_upper_wall_does_not_stand_on_a_plinth_beam_a_storey_below_its_slab():
    plan = plan_of(house(LETTERS, NUMBERS, walls=[wall("G", "A2", "C2"), wall("U", "A1", "C1", storey=2)],
                         beams=[beam("P", "A1", "C1", plinth_beam="yes")]))  # fmt: skip
    assert stands(plan, "U") == []
    assert ("HANGS", "U") in codes(plan)


def test_no_part_of_an_upper_wall_is_lost_where_two_lower_walls_leave_a_gap_within_the_survey_tolerance():
    letters = {"A": 0.0, "B": 2.998, "C": 3.001, "D": 7.0}
    walls = [wall("G1", "A1", "B1"), wall("G2", "C1", "D1"), wall("U", "A1", "D1", storey=2)]
    first, second = stands(plan_of(house(letters, NUMBERS, walls=walls)), "U")
    assert (first[2], second[3]) == (0.0, 7.0)
    assert first[3] == second[2]


def test_an_upper_wall_with_nothing_under_part_of_it_is_a_trouble_that_names_the_part():
    plan = plan_of(house(LETTERS, NUMBERS, walls=[wall("G", "A1", "B1"), wall("U", "A1", "D1", storey=2)]))
    (trouble,) = plan.troubles
    assert (trouble.code, trouble.member, trouble.found) == ("HANGS", "U", "nothing under it from 3.00 to 9.00 m")


def test_an_upper_column_stands_on_the_column_below_else_the_wall_else_the_beam_else_the_slab():
    columns = [column("C1", "A1"), column("U1", "A1", storey=2), column("U2", "C1", storey=2),
               column("U3", "B3", storey=2), column("U4", "B2", storey=2), column("U5", "D3", storey=2)]  # fmt: skip
    walls = [wall("S", "A1", "C1"), wall("E", "C1", "C3"), wall("W", "A1", "A3")]
    survey = house(LETTERS, NUMBERS, walls=walls, columns=columns, beams=[beam("B", "A3", "C3")],
                   rooms=[room("R", "A1 C3")])  # fmt: skip
    plan = plan_of(survey)
    assert [(s.upper, s.lower, s.lower_kind) for s in plan.stands] == [
        ("U1", "C1", "column"), ("U2", "S", "wall"), ("U3", "B", "beam"), ("U4", "R", "slab"),
    ]  # fmt: skip
    assert codes(plan) == [("HANGS", "U5")]


# ---------------------------------------------------------------------------------------------- supports of beams


def test_a_beam_rests_on_the_columns_under_it_and_on_the_walls_it_crosses():
    survey = house(LETTERS, NUMBERS, walls=[wall("W", "A1", "A3"), wall("M", "C1", "C3")], columns=[column("C", "D2")],
                   beams=[beam("B", "A2", "D2")])  # fmt: skip
    assert rests(plan_of(survey), "B") == [
        ("W", "wall", 0.0, False), ("M", "wall", 7.0, False), ("C", "column", 9.0, False),
    ]  # fmt: skip


def test_named_supports_are_the_only_ones_and_one_that_is_missed_is_a_trouble():
    walls = [wall("W", "A1", "A3"), wall("M", "B1", "B3"), wall("E", "C1", "C3"), wall("X", "D1", "D3")]
    plan = plan_of(house(LETTERS, NUMBERS, walls=walls, beams=[beam("B", "A2", "C2", bears_on=("W", "E", "X"))]))
    assert rests(plan, "B") == [("W", "wall", 0.0, False), ("E", "wall", 7.0, False)]
    assert codes(plan) == [("BEARS-NOT", "B")]


def test_a_beam_ends_on_a_beam_and_is_worked_out_before_it():
    survey = house(LETTERS, NUMBERS, walls=[wall("W", "A1", "A3"), wall("E", "C1", "C3"), wall("N", "A3", "C3")],
                   beams=[beam("Main", "A2", "C2"), beam("Side", "B2", "B3")])  # fmt: skip
    plan = plan_of(survey)
    assert rests(plan, "Side") == [("Main", "beam", 0.0, False), ("N", "wall", 3.5, False)]
    assert plan.beam_ranks == {"Main": 1, "Side": 0}


def test_a_beam_at_the_ceiling_does_not_rest_on_a_plinth_beam():
    survey = house(LETTERS, NUMBERS, walls=[wall("N", "A3", "C3")],
                   beams=[beam("P", "A1", "C1", plinth_beam="yes"), beam("B", "B1", "B3")])  # fmt: skip
    plan = plan_of(survey)
    assert rests(plan, "B") == [("N", "wall", 6.0, False)]
    assert ("ONE-BEARING", "B") in codes(plan)


def test_a_beam_between_two_walls_in_its_line_rests_on_their_ends():
    walls = [wall("L", "A1", "B1"), wall("R", "C1", "D1")]
    survey = house(LETTERS, NUMBERS, walls=walls, beams=[beam("B", "B1", "C1")])
    plan = plan_of(survey)
    assert rests(plan, "B") == [("L", "wall", 0.0, False), ("R", "wall", 4.0, False)]
    assert codes(plan) == []


def test_a_beam_that_runs_over_part_of_a_wall_in_its_line_rests_on_both_ends_of_that_part():
    walls = [wall("L", "A1", "B1"), wall("E", "C1", "C3")]
    survey = house(LETTERS, NUMBERS, walls=walls, beams=[beam("B", "A1", "C1")])
    assert rests(plan_of(survey), "B") == [
        ("L", "wall", 0.0, False), ("L", "wall", 3.0, False), ("E", "wall", 7.0, False),
    ]  # fmt: skip


def test_beams_that_carry_each_other_in_a_ring_are_a_trouble():
    beams = [beam("X", "A1", "B1"), beam("Y", "B1", "B2"), beam("Z", "A2", "B2"), beam("V", "A1", "A2")]
    plan = plan_of(house(LETTERS, NUMBERS, walls=[wall("far", "D1", "D3")], beams=beams))
    assert "BEAM-RING" in {trouble.code for trouble in plan.troubles}


def test_beams_with_no_bearing_or_only_one_are_troubles():
    beams = [beam("B", "A2", "C2"), beam("F", "B3", "C3")]
    survey = house(LETTERS, NUMBERS, walls=[wall("W", "A1", "A3")], beams=beams)
    assert codes(plan_of(survey)) == [("ONE-BEARING", "B"), ("NO-BEARING", "F")]


@pytest.mark.parametrize(
    ("start", "end", "place"),
    [
        ((1.0, -2.0), (3.0, 2.0), 2.0),  # crosses the middle of its own run
        ((1.5, 3.0), (1.5, 0.1), 1.5),  # stops at the face, 0.115 off the centre line
        ((1.5, 3.0), (1.5, 0.2), None),  # stops short of the face
        ((4.1, -1.0), (4.1, 1.0), 4.1),  # past the end by less than half its own thickness
        ((4.2, -1.0), (4.2, 1.0), None),
        ((0.0, 0.0), (4.0, 0.0), None),  # the same way
    ],
)
def test_a_wall_meets_another_where_their_lines_cross_or_one_stops_at_the_face(start, end, place):
    points = {"from_point": GridPoint("A", "1"), "to_point": GridPoint("B", "2")}
    wall = Member(name="W1", kind="wall", storey=1, start=(0.0, 0.0), end=(4.0, 0.0), half=0.115, **points)
    other = Member(name="W2", kind="wall", storey=1, start=start, end=end, half=0.115, **points)
    found = wall.crossing(other)
    assert found == (None if place is None else pytest.approx(place))
