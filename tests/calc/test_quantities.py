"""Quantities of a small house that is alike in no two directions, every figure worked by hand beside its check.

4 ........... +--W3--+            letters A 0  B 4.0  C 7.0    numbers 1 -1.5  2 0  3 3.0  4 4.2
3 +----W5-----+ W4   W2           walls 0.23 thick, W6 0.35; floor 0.45 above ground, cut 0.15 below floor,
W6   Hall   | Kitchen           raised 0.90, so the trench ends 0.60 below the cut:
2 +----W1-----+-W1---+            0.75 below the floor inside, 0.75 - 0.45 = 0.30 below the ground outside
.  Verandah .
1 P1 ........ P2                  the verandah has a beam on two pillars and no wall of its own
A           B      C
"""

from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
from typing import Any

import pytest

from addin import tables, units
from calc.estimate import Estimate, estimate, prepare
from calc.number import Traced, TracedText, entry, text_of, value_of
from calc.quantities import STAGES, ItemText, MeasuredLine, work_items
from calc.survey import Crack, Entered, Rate, Survey
from tests.houses import ALLOWANCES, RULES, beam, column, entered, house, job, opening, room, wall

TEXTS = tuple(
    ItemText(code=row.code, description=row.description, stage=int(row.stage), unit=row.unit) for row in tables.items()
)
UNITS = {text.code: text.unit for text in TEXTS}
RATES = tuple(Rate(code=text.code, rate=100.0 + 7 * order) for order, text in enumerate(TEXTS))

LETTERS, NUMBERS = {"A": 0, "B": 4.0, "C": 7.0}, {"1": -1.5, "2": 0, "3": 3.0, "4": 4.2}
WALLS = {"W1": ("A2", "C2"), "W2": ("C2", "C4"), "W3": ("C4", "B4"), "W4": ("B4", "B2"), "W5": ("B3", "A3"),
         "W6": ("A3", "A2")}  # fmt: skip
OPENINGS = (
    opening("W1", "door", 1.0, 1.0, 2.1),  # from the hall onto the verandah
    opening("W1", "window", 5.0, 1.2, 1.3),
    opening("W2", "door", 1.5, 0.9, 2.1),  # outside
    opening("W5", "window", 1.0, 1.5, 1.0),
    opening("W3", "vent", 1.0, 0.4, 0.25, sill=2.2),
    opening("W4", "door", 2.0, 0.8, 2.0),  # between the rooms
)
CRACKS = (
    Crack(what="crack", where="W1 over the door", length=1.2, live="old"),
    Crack(what="tilt", where="W6", length=0.0, live="unknown"),
)


def small_house(*, walls: dict[str, dict[str, Any]] | None = None, **changes: Any) -> Survey:
    """The house above; `walls` holds changed entries by wall, `entries` changed Job entries."""
    given = {"W6": {"thickness": 0.35}, **(walls or {})}
    usual: dict[str, Any] = {"cut_level": entered(-0.15), "plinth": entered(0.45), "bearing_from": "soil name"}
    parts: dict[str, Any] = {
        "job": job(**{**usual, **changes.pop("entries", {})}),
        "rooms": (room("Hall", "A2 B3"), room("Kitchen", "B2 C4"), room("Verandah", "A1 B2", span="along numbers")),
        "walls": tuple(wall(name, *ends, **given.get(name, {})) for name, ends in WALLS.items()),
        "openings": OPENINGS, "beams": (beam("VB", "A1", "B1"),), "cracks": CRACKS, "rates": RATES,
        "columns": (column("P1", "A1", breadth=0.35, depth=0.3), column("P2", "B1", breadth=0.35, depth=0.3)),
    }  # fmt: skip
    return house(LETTERS, NUMBERS, **{**parts, **changes})


def found(survey: Survey) -> Estimate:
    prepared = prepare(survey, ALLOWANCES)
    assert not prepared.plan.troubles
    return estimate(survey, prepared, ALLOWANCES, TEXTS, RULES)


@pytest.fixture(scope="module")
def usual() -> Estimate:
    return found(small_house())


def amounts(result: Estimate) -> dict[str, float]:
    return {str(item.code): item.quantity for item in result.items}


def lines(result: Estimate, code: str) -> dict[str, MeasuredLine]:
    return {line.what: line for line in result.lines if line.code == code}


def booked(line: MeasuredLine) -> tuple[float | None, ...]:
    sides = (line.number, line.length, line.breadth, line.depth)
    return tuple(side if side is None else round(side, 9) for side in sides)


# ------------------------------------------------------------------------------------------- every stage by hand


def test_every_stage_has_items_and_every_item_of_this_house_is_measured_except_rebuilding(usual):
    assert {item.stage for item in usual.items} == set(range(1, len(STAGES) + 1))
    assert {code for code, amount in amounts(usual).items() if amount == 0} == {"S04", "R05", "R06"}
    assert {line.code for line in usual.lines} | {"S04", "R05", "R06"} == set(UNITS)


def test_stage_1_one_survey_and_two_soil_tests_unless_the_pressure_comes_from_a_test(usual):
    assert (amounts(usual)["P01"], amounts(usual)["P02"]) == (1, 2)
    assert amounts(found(small_house(entries={"bearing_from": "inspected pits"})))["P02"] == 0


def test_stage_2_services_plaster_cut_outside_and_floor_edge_inside(usual):
    assert amounts(usual)["S01"] == 4
    # outer faces; a corner of the house adds half the other wall, an inner corner takes it off:
    # W1 3.0 + 0.115 at C2 = 3.115 -> 3.12 (the rest of W1 lies behind the verandah); W2 4.2 + 2 x 0.115 = 4.43;
    # W3 3.0 + 2 x 0.115 = 3.23; W4 1.2 + 0.115 - 0.115 = 1.20; W5 4.0 - 0.115 + 0.175 = 4.06; W6 3.0 + 0.115 -> 3.12
    assert amounts(usual)["S02"] == pytest.approx(3.12 + 4.43 + 3.23 + 1.20 + 4.06 + 3.12)
    # clear sizes: hall 4 - 0.175 - 0.115 = 3.71 by 3 - 0.23 = 2.77; kitchen 3 - 0.23 = 2.77 by 4.2 - 0.23 = 3.97;
    # verandah: only W1 goes up, 4.0
    assert amounts(usual)["S03"] == pytest.approx(2 * (3.71 + 2.77) + 2 * (2.77 + 3.97) + 4.0)


def test_stage_3_windows_are_blocked_doors_strutted_and_slabs_propped(usual):
    assert amounts(usual)["T01"] == pytest.approx(1.2 * 1.3 + 1.5 * 1.0)
    # one for each 1.5 x 1.5 m: hall 10.2767/2.25 = 4.57 -> 5; kitchen 10.9969/2.25 = 4.89 -> 5;
    # verandah 4.0 x (1.5 - 0.115)/2.25 = 2.46 -> 3
    assert {what: line.quantity for what, line in lines(usual, "T02").items()} == {
        "room Hall": 5, "room Kitchen": 5, "room Verandah": 3}  # fmt: skip
    assert amounts(usual)["T03"] == 3  # three doors; a vent stays as it is


def test_stage_4_trenches_inside_count_each_corner_once(usual):
    # hall: 12.96 m round less 4 corners of 0.9 = 9.36 m on the trench's centre line, 0.9 wide, 0.75 deep
    assert booked(lines(usual, "D01")["room Hall, along its walls"]) == (1, 9.36, 0.9, 0.75)
    # the same as the floor less its middle: 3.71 x 2.77 - (3.71 - 1.8)(2.77 - 1.8) = 8.424 m2 = 9.36 x 0.9
    assert pytest.approx(9.36 * 0.9) == 3.71 * 2.77 - (3.71 - 1.8) * (2.77 - 1.8)
    # kitchen 13.48 - 3.6 = 9.88: 6.67; verandah along W1 4.0: 2.70
    # half the pit of each pillar: 2.15 x 1.05 x 0.75 = 1.69 less 0.35 x 0.15 x 0.75 = 0.04
    assert amounts(usual)["D01"] == pytest.approx(6.32 + 6.67 + 2.70 + 2 * (1.69 - 0.04))


def test_stage_4_trenches_outside_are_shallower_by_the_plinth_and_turn_the_corners(usual):
    # faces of stage 2, and half of 0.9 at each corner with another trench, off at the inner corner:
    # W1 3.115 + 0.45 (no trench beside it on the verandah) -> 3.57; W2 4.43 + 0.9; W3 3.23 + 0.9; W4 1.20;
    # W5 4.06 - 0.45 + 0.45; W6 3.115 + 0.45 -> 3.57; each x 0.9 x 0.30
    expected = {"wall W1, outside Kitchen": 0.96, "wall W2, outside Kitchen": 1.44, "wall W3, outside Kitchen": 1.12,
                "wall W4, outside Kitchen": 0.32, "wall W5, outside Hall": 1.10, "wall W6, outside Hall": 0.96,
                "pillar P1": 0.68, "pillar P1 itself": -0.02, "pillar P2": 0.68, "pillar P2 itself": -0.02}  # fmt: skip
    assert {what: line.quantity for what, line in lines(usual, "D02").items()} == expected
    assert amounts(usual)["D02"] == pytest.approx(7.22)


def test_stage_4_bases_follow_the_jacks_and_earth_is_carried_loose(usual):
    for pad in usual.pads:
        what = f"{'wall' if pad.kind == 'wall' else 'pillar'} {pad.name}"
        assert booked(lines(usual, "D03")[what]) == pytest.approx((pad.count, pad.side, pad.side, pad.thickness))
    # 1.25 times: 6.318 -> 7.90, 6.669 -> 8.34, 2.7 -> 3.38, pits 2 x (2.12 - 0.05)
    assert amounts(usual)["D04"] == pytest.approx(7.90 + 8.34 + 3.38 + 2 * (2.12 - 0.05))


def test_stage_5_stations_pockets_beams_and_lifting(usual):
    counts = {str(row.name): row.count for row in usual.jacks}
    assert {what.split()[1]: line.quantity for what, line in lines(usual, "J01").items()} == counts
    assert amounts(usual)["J01"] == usual.jack_totals.count
    # net lengths 7.0, 4.2, 3.0, 4.2 - 0.115, 4.0 - 0.115, 3.0, a pocket for each 1.2 m begun: 6, 4, 3, 4, 4, 3
    assert [line.quantity for line in lines(usual, "J02").values()] == [6, 4, 3, 4, 4, 3]
    # two sections of 37.3 kg/m: 522.2, 313.32, 223.8, 4.09: 305.1, 3.89: 290.2, 223.8
    assert [line.quantity for line in lines(usual, "J03").values()] == [522, 313, 224, 305, 290, 224]
    # 0.9 m is nine lifts of 0.1 m for every jack
    assert amounts(usual)["J04"] == pytest.approx(9 * sum(counts.values()))


def test_stage_6_masonry_fills_the_rise_less_its_band_and_runs_under_doors(usual):
    # 7.0 x 0.23 x 0.75 = 1.2075; 4.2: 0.72; 3.0: 0.52; 4.09: 0.71; 3.89: 0.67; open sides 1.5, 4.0, 1.5
    # W6 is 0.35 thick and its masonry carries it over its whole thickness: 3.0 x 0.35 x 0.75 = 0.7875
    assert amounts(usual)["R01"] == pytest.approx(1.21 + 0.72 + 0.52 + 0.71 + 0.67 + 0.79 + 0.26 + 0.69 + 0.26)
    # 0.15 deep: 0.2415, 0.1449, 0.1035, 0.1411, 0.1342, W6 0.1575; open sides 0.05175, 0.138, 0.05175
    assert amounts(usual)["R02"] == pytest.approx(0.24 + 0.14 + 0.10 + 0.14 + 0.13 + 0.16 + 0.05 + 0.14 + 0.05)
    assert amounts(usual)["R03"] == pytest.approx(7.0 + 4.2 + 3.0 + 4.09 + 3.89 + 3.0)
    assert amounts(usual)["R04"] == pytest.approx(2 * 0.09)  # 0.35 x 0.3 x 0.9 = 0.0945


def test_stage_7_trenches_are_refilled_round_the_bases_and_floors_rise_by_the_rise(usual):
    assert amounts(usual)["F01"] == pytest.approx(18.99 + 7.22 - amounts(usual)["D03"])
    # 0.9 - 0.1 - 0.1 = 0.7: hall 3.71 x 2.77 x 0.7 = 7.194; kitchen 3.97 x 2.77 x 0.7 = 7.698;
    # verandah 4.0 x 1.39 x 0.7 = 3.892
    assert amounts(usual)["F02"] == pytest.approx(7.19 + 7.70 + 3.89)
    assert amounts(usual)["F03"] == amounts(usual)["F04"] == pytest.approx(1.03 + 1.10 + 0.56)
    assert amounts(usual)["F05"] == pytest.approx(10.28 + 11.00 + 5.56)


def test_stage_8_takes_out_what_stage_3_put_in_and_plasters_the_new_plinth(usual):
    assert amounts(usual)["M01"] == amounts(usual)["T01"]
    assert amounts(usual)["M02"] == 1.2  # the crack; a tilt is not grouted
    assert amounts(usual)["M03"] == amounts(usual)["J01"]
    assert amounts(usual)["M04"] == amounts(usual)["S02"]
    # faces x 0.9: 2.81, 3.99, 2.91, 1.08, 3.65, 2.81; open sides 1.5, 4.0 and 1.5 - 0.115 -> 1.39
    assert amounts(usual)["M05"] == pytest.approx(2.81 + 3.99 + 2.91 + 1.08 + 3.65 + 2.81 + 1.35 + 3.60 + 1.25)


def test_stage_9_steps_stand_at_each_way_in_and_the_apron_goes_round_once(usual):
    assert amounts(usual)["O01"] == 4
    # 0.9/0.15 = 6 risers at the outside door and at the verandah; the hall's door leads onto the verandah
    assert {what: line.quantity for what, line in lines(usual, "O02").items() if line.quantity} == {
        "door in W2, opening 3": 6, "open side of Verandah": 6}  # fmt: skip
    # each side on the apron's centre line is its face, and 0.375 more at a corner of the house, less at an inner one:
    # W1 3.115 - 0.375 + 0.375, W2 4.43 + 0.75, W3 3.23 + 0.75, W4 1.2, W5 4.06, W6 3.115 + 0.375,
    # verandah 1.5 + 0.375, 4.0 + 0.75, 1.385 + 0.375 - 0.375; each x 0.75
    assert amounts(usual)["O03"] == pytest.approx(2.34 + 3.89 + 2.99 + 0.90 + 3.05 + 2.62 + 1.41 + 3.56 + 1.04)


# ------------------------------------------------------------------------------------------- other houses


def box(size: tuple[float, float], **changes: Any) -> Estimate:
    """One room with four walls 0.23 thick, clear size given."""
    x, y = size[0] + 0.23, size[1] + 0.23
    ends = {"W1": ("A1", "B1"), "W2": ("B1", "B2"), "W3": ("B2", "A2"), "W4": ("A2", "A1")}
    walls = {name: dict(changes.get("walls", {}).get(name, {})) for name in ends}
    survey = house(
        {"A": 0, "B": x}, {"1": 0, "2": y}, rooms=(room("Only", "A1 B2", **changes.get("room", {})),), rates=RATES,
        walls=tuple(wall(name, *at, **walls[name]) for name, at in ends.items()),
        openings=changes.get("openings", ()), job=job(plinth=entered(0.4), **changes.get("entries", {})),
    )  # fmt: skip
    return found(survey)


@pytest.mark.parametrize("size", [(4.0, 3.0), (4.0, 1.9), (4.0, 1.5), (1.7, 1.5), (1.0, 0.8), (0.9, 0.9), (7.0, 1.8)])
def test_trenches_in_a_room_of_any_size_are_its_floor_less_the_middle_left_standing(size):
    x, y = size
    row = box(size).work.rooms[0]
    assert row.trench * 0.9 == pytest.approx(x * y - max(x - 1.8, 0) * max(y - 1.8, 0))
    assert (row.length, row.breadth) == pytest.approx((max(size), min(size)), abs=1e-6)


def test_a_room_round_an_inner_corner_is_trenched_round_that_corner_too():
    # an L: 5 x 4 on centre lines without the 2 x 1.5 in its corner; walls 0.2, trench 0.9: the trench is the outline
    # moved in by 0.1 less the same moved in by 1.0
    corners = "A1 C1 C2 B2 B3 A3"
    ends = {"W1": ("A1", "C1"), "W2": ("C1", "C2"), "W3": ("C2", "B2"), "W4": ("B2", "B3"), "W5": ("B3", "A3"),
            "W6": ("A3", "A1")}  # fmt: skip
    survey = house({"A": 0, "B": 3.0, "C": 5.0}, {"1": 0, "2": 2.5, "3": 4.0}, rooms=(room("L", corners),), rates=RATES,
                   walls=tuple(wall(name, *at, thickness=0.2) for name, at in ends.items()))  # fmt: skip
    result = found(survey)
    row = result.work.rooms[0]
    clear = 4.8 * 3.8 - 2.0 * 1.5  # outline moved in by 0.1: the notch keeps its 2 x 1.5
    middle = 3.0 * 2.0 - 2.0 * 1.5  # moved in by 1.0
    assert row.clear == pytest.approx(clear)
    assert row.trench * 0.9 == pytest.approx(clear - middle)
    # outside: moved out by 1.0 less moved out by 0.1
    outer = (7.0 * 6.0 - 2.0 * 1.5) - (5.2 * 4.2 - 2.0 * 1.5)
    assert sum(edge.trench for edge in result.work.edges) * 0.9 == pytest.approx(outer)


def test_without_a_rise_nothing_is_negative_and_nothing_is_built_or_filled():
    result = found(small_house(entries={"rise": entered(0.0)}))
    assert all(amount >= 0 for amount in amounts(result).values())
    nothing = ("R01", "R02", "F02", "F03", "F04", "F05", "J04", "M05", "O02")
    assert {code for code in nothing if amounts(result)[code]} == set()


def test_a_rise_less_than_the_floor_beds_makes_the_beds_thinner_and_never_the_fill_negative():
    result = found(small_house(entries={"rise": entered(0.15)}))
    # bed 0.10, gravel the 0.05 that is left, no fill; the band alone fills 0.15 under the walls
    assert booked(lines(result, "F04")["room Hall"])[3] == 0.1
    assert booked(lines(result, "F03")["room Hall"])[3] == 0.05
    assert (amounts(result)["F02"], amounts(result)["R01"]) == (0, 0)


def test_a_floor_below_the_trench_outside_needs_no_digging_there():
    result = found(small_house(entries={"plinth": entered(0.9)}))
    assert amounts(result)["D02"] == 0  # 0.75 - 0.90 is not less than nothing
    assert amounts(result)["D01"] == pytest.approx(18.99)


def test_a_house_without_openings_or_cracks_has_none_of_their_lines_and_the_rest_unchanged(usual):
    result = found(small_house(openings=(), cracks=()))
    assert not [line for line in result.lines if line.code in ("T01", "T03", "M01", "M02")]
    assert list(lines(result, "O02")) == ["open side of Verandah"]
    assert amounts(result)["D01"] == amounts(usual)["D01"]


def test_a_wall_that_stays_and_carries_nothing_is_not_dug_cut_lifted_or_underpinned():
    # Y1 in the yard bounds no room; cut at the floor, so that no plinth above the cut hangs on it
    survey = small_house(entries={"cut_level": entered(0.0)})
    result = found(house(
        {"Y": 10.0, **LETTERS}, NUMBERS, rooms=survey.rooms, beams=survey.beams, columns=survey.columns, rates=RATES,
        walls=(*survey.walls, wall("Y1", "Y2", "Y4", at_lift="stays")), job=survey.job,
        openings=(opening("Y1", "window", 1.0, 1.0, 1.0),),
    ))  # fmt: skip
    of_wall = [line for line in result.lines if "Y1" in line.what]
    assert {line.code for line in of_wall} >= {"D02", "J01", "J03", "R01", "R03", "T01", "T03", "M01"}
    assert all(line.quantity == 0 for line in of_wall)


def test_a_lifted_wall_that_bounds_no_room_is_trenched_on_both_sides_outside():
    survey = small_house()
    extra = wall("Y1", "Y2", "Y4", height=1.5)
    survey = house({"Y": 10.0, **LETTERS}, NUMBERS, rooms=survey.rooms, beams=survey.beams, columns=survey.columns,
                   rates=RATES, walls=(*survey.walls, extra), job=survey.job)  # fmt: skip
    assert booked(lines(found(survey), "D02")["wall Y1, both sides"]) == (1, 8.4, 0.9, 0.3)


def test_a_wall_taken_down_and_rebuilt_is_measured_net_of_its_openings_by_the_rules():
    holes = (opening("W3", "window", 0.6, 1.0, 1.2), opening("W3", "vent", 2.0, 0.4, 0.25, sill=2.2),
             opening("W3", "door", 2.5, 1.8, 2.1))  # fmt: skip
    result = box((5.0, 3.5), walls={"W3": {"at_lift": "taken down and rebuilt"}}, openings=holes)
    # brickwork: 1.2 + 3.78 = 4.98 m2 off, the vent of 0.1 m2 stays in; over 3.0 m high that is 1.66 m of wall
    assert booked(lines(result, "S04")["wall W3"]) == (1, 5.23, 0.23, 3.0)
    assert booked(lines(result, "S04")["wall W3, its openings"]) == (-1, 1.66, 0.23, 3.0)
    assert amounts(result)["S04"] == amounts(result)["R05"] == pytest.approx(3.61 - 1.15)
    # plaster: 2 x 5.23 x 3 = 31.38; off 1.2 (one face) and 7.56 (both): 8.76/3 = 2.92 m; reveals (1.8 + 4.2) x 0.23
    assert amounts(result)["R06"] == pytest.approx(31.38 - 8.76 + 1.38)
    assert amounts(result)["T01"] == 0  # its window is not blocked
    assert lines(result, "R01")["wall W3"].number == 1  # and it stands on new masonry all the same
    assert result.work.unmeasured == 0


@pytest.mark.parametrize("side", ["shared", "touching", "joint"])
def test_a_neighbour_against_a_wall_leaves_no_digging_plaster_or_apron_on_that_side(side):
    free, result = box((5.0, 3.5)), box((5.0, 3.5), walls={"W2": {"side": side}})
    for code in ("D02", "S02", "M04", "M05", "O03"):
        assert [line.quantity for what, line in lines(result, code).items() if "W2" in what] == [0]
    # W1 and W3 lose half of the corner they shared with W2's trench: 5.23 + 0.23 + 0.9 becomes 5.91
    assert booked(lines(free, "D02")["wall W1, outside Only"])[1] == 6.36
    assert booked(lines(result, "D02")["wall W1, outside Only"])[1] == 5.91


def test_a_suspended_floor_goes_up_with_its_walls_and_is_not_filled():
    result = box((4.0, 3.0), room={"floor": "suspended"})
    assert [amounts(result)[code] for code in ("S03", "F02", "F03", "F04", "F05")] == [0] * 5
    # under it the ground lies as outside: 0.6 - 0.4 = 0.2 deep
    assert booked(lines(result, "D01")["room Only, along its walls"])[3] == 0.2


def test_a_room_drawn_along_the_face_of_a_wall_joins_the_house_there():
    # the verandah drawn to the outer faces, 0.115 beyond the walls on three sides
    survey = house(
        {"a": -0.115, "A": 0, "B": 4.0, "b": 4.115}, {"0": -1.6, "9": -0.115, "1": 0, "2": 3.0}, rates=RATES,
        rooms=(room("Hall", "A1 B2"), room("Verandah", "a0 b9", span="along numbers")),
        walls=(wall("W1", "A1", "B1"), wall("W2", "B1", "B2"), wall("W3", "B2", "A2"), wall("W4", "A2", "A1")),
        beams=(beam("VB", "a0", "b0"),), columns=(column("P1", "a0"), column("P2", "b0")),
    )  # fmt: skip
    result = found(survey)
    assert not [edge for edge in result.work.edges if edge.wall == "W1"]
    # once round 4.23 by 1.6 + 3.0 + 0.115 = 4.715: 2 x (4.23 + 4.715) and four corners of 0.75
    assert sum(edge.apron for edge in result.work.edges) == pytest.approx(2 * (4.23 + 4.715) + 3.0)


def test_upper_rooms_and_walls_bring_no_fill_props_or_digging(usual):
    survey = small_house()
    upper = tuple(wall(f"U{name}", *ends, storey=2) for name, ends in WALLS.items() if name != "W5" and name != "W6")
    survey = replace(survey, walls=(*survey.walls, *upper), rooms=(*survey.rooms, room("Up", "B2 C4", storey=2)))
    result = found(survey)
    for code in ("D01", "D02", "F02", "F05", "T02", "O03", "R01"):
        assert amounts(result)[code] == pytest.approx(amounts(usual)[code])


def test_a_line_whose_code_is_in_no_row_of_the_table_is_refused(usual):
    with pytest.raises(LookupError, match="J04"):
        work_items(usual.lines, [text for text in TEXTS if text.code != "J04"])


# ------------------------------------------------------------------------------------------- three kinds of number

_ENTERED = {"rise": "m", "cut_level": "m", "plinth": "m", "road": "m", "flood": "m", "bearing": "kN/m2",
            "wind_speed": "m/s", "transfer_age": "day", "release_date": "day", "rebuild_rate": "money/m2",
            "soffit": "m", "bars": "m2", "from_start": "m", "length": "m", "weight": "kN"}  # fmt: skip
_LIVE_TEXTS = {"kind", "at_lift", "block_up", "side", "empty", "what", "bearing_from"}


def as_kind(record: Any, number: Callable[[float, str], Any], text: Callable[[str], Any]) -> Any:
    """A record, and all records in it, with every number handed out in another kind."""
    changes: dict[str, Any] = {}
    for field in fields(record):
        value, unit = getattr(record, field.name), field.metadata.get("unit")
        if isinstance(value, Entered):
            changes[field.name] = Entered(value=number(value.value, _ENTERED[field.name]), given=value.given)
        elif unit is not None:
            changes[field.name] = number(float(value), unit)
        elif isinstance(value, tuple):
            changes[field.name] = tuple(as_kind(v, number, text) if _holds_numbers(v) else v for v in value)
        elif _holds_numbers(value):
            changes[field.name] = as_kind(value, number, text)
        elif field.name in _LIVE_TEXTS:
            changes[field.name] = text(value)
    return replace(record, **changes)


def _holds_numbers(value: Any) -> bool:
    return is_dataclass(value) and any(field.metadata for field in fields(value))


def estimated(number: Callable[[float, str], Any], text: Callable[[str], Any]) -> Estimate:
    survey = small_house(walls={"W3": {"at_lift": "taken down and rebuilt"}})
    allowances = as_kind(ALLOWANCES, number, text)
    return estimate(as_kind(survey, number, text), prepare(survey, ALLOWANCES), allowances, TEXTS,
                    as_kind(RULES, number, text))  # fmt: skip


@pytest.fixture(scope="module")
def plain() -> Estimate:
    return estimated(lambda value, _: value, lambda text: text)


def test_a_traced_run_gives_the_same_lines_as_floats_and_every_quantity_stays_live(plain):
    live = estimated(lambda value, unit: entry(value, unit), lambda text: TracedText(text, "entry", ("cell",)))
    for one, other in zip(plain.lines, live.lines, strict=True):
        assert (one.code, one.what) == (other.code, other.what)
        for name in ("number", "length", "breadth", "depth", "quantity"):
            a, b = getattr(one, name), getattr(other, name)
            assert (a is None) == (b is None)
            assert a is None or value_of(b) == a
        assert isinstance(other.quantity, Traced) or other.code == "P01"
    assert [value_of(item.quantity) for item in live.items] == [item.quantity for item in plain.items]


def test_no_dimension_of_a_line_is_the_very_node_of_another_so_that_each_has_a_cell(plain):
    live = estimated(lambda value, unit: entry(value, unit), lambda text: TracedText(text, "entry", ("cell",)))
    for line in live.lines:
        sides = [side for side in (line.number, line.length, line.breadth, line.depth) if isinstance(side, Traced)]
        assert len({id(side) for side in sides}) == len(sides)
    assert len(live.lines) == len(plain.lines)


def test_a_run_with_units_gives_every_line_and_working_its_dimension(plain):
    measured = estimated(units.quantity, lambda text: text)
    for one, other in zip(plain.lines, measured.lines, strict=True):
        assert value_of(other.quantity) == pytest.approx(one.quantity)
        unit = UNITS[text_of(one.code)]
        if hasattr(other.quantity, "m_as"):
            assert other.quantity.check(units.quantity(1.0, unit).dimensionality), other.what
        else:
            assert unit == "No", other.what
        for name in ("length", "breadth", "depth"):
            side = getattr(other, name)
            assert side is None or side.check("[length]")
    work = measured.work
    for record in (work.figures, *work.walls, *work.sides, *work.rooms, *work.edges, *work.loose, *work.columns,
                   *work.openings, *work.rebuilt):  # fmt: skip
        for field in fields(record):
            value, unit = getattr(record, field.name), field.metadata.get("unit")
            if unit and hasattr(value, "m_as"):
                assert value.check(units.quantity(1.0, unit).dimensionality), (type(record).__name__, field.name)
            elif unit:
                assert unit == "No" or value == 0, (type(record).__name__, field.name)
