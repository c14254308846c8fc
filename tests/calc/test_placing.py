"""calc.placing: against the proven least numbers of an independent calculation, and every rule by another check."""

from dataclasses import replace

import numpy as np
import pytest

from calc.beam_loads import beam_load, from_line_load
from calc.errors import DomainError, NoLayout
from calc.line_loads import LineLoad
from calc.placing import broken_rules, layout_of, place_jacks
from calc.placing_rules import PlacingRules, WallLine
from calc.placing_search import least_number, search_of
from tests.calc.walls import CASES, ROUNDED_AWAY, SMALL, SMALL_RULES, every_layout, keeps_places, line_of, rules_of
from tests.calc.walls import worst_use as solved_afresh

PRINTED = 1e-9  # of the use; theirs are printed to all digits
AFRESH = 1e-8  # updates against solutions afresh


PLAIN = WallLine(load=beam_load(5.0, [(0.0, 5.0, 30.0)]), stiffness=17600.0, compliance=1e-4)
HEAVY = replace(PLAIN, load=beam_load(3.0, [(0.0, 3.0, 45.0)]))
RULES = PlacingRules(usable=80.0, rated=200.0)


@pytest.fixture(scope="module")
def plans():
    return {number: place_jacks(line_of(case), rules_of(case)) for number, case in CASES.items()}


def refused(line, rules):
    with pytest.raises(NoLayout) as caught:
        place_jacks(line, rules)
    return caught.value


PROVEN = [number for number, case in CASES.items() if case["opt_n"] is not None]


def test_the_cases_are_those_that_were_handed_over():
    assert (len(CASES), len(PROVEN)) == (66, 60)


def test_the_least_number_is_the_proven_one_on_98_of_100_walls_and_never_more_than_one_above(plans):
    above = [len(plans[number].least.positions) - CASES[number]["opt_n"] for number in PROVEN]
    assert set(above) <= {0, 1}
    assert above.count(0) >= 0.98 * len(above)


def test_where_the_least_number_is_called_proven_it_is_the_proven_one(plans):
    ours = [number for number in PROVEN if plans[number].proven]
    assert len(ours) >= 55
    assert [n for n in ours if len(plans[n].least.positions) != CASES[n]["opt_n"]] == []


def test_a_number_is_proven_too_small_only_where_all_its_layouts_were_tried():
    case = CASES[31]  # 9 jacks; the load asks for 8, and 8 have 29 400 layouts
    for proof, proven, bound in ((10_000, False, 8), (100_000, True, 9)):
        found = place_jacks(line_of(case), rules_of(case, proof=proof))
        assert (len(found.least.positions), found.proven, found.lower_bound) == (9, proven, bound)


def test_the_lower_bound_is_never_above_the_proven_number_nor_below_the_one_handed_over(plans):
    for number in PROVEN:
        assert CASES[number]["lb"] <= plans[number].lower_bound <= CASES[number]["opt_n"]


def test_where_nothing_is_proven_no_more_jacks_are_needed_than_the_other_search_found(plans):
    open_ones = [n for n, case in CASES.items() if case["opt_n"] is None and case["ils_n"]]
    assert len(open_ones) == 5
    assert [n for n in open_ones if len(plans[n].least.positions) > CASES[n]["ils_n"]] == []


def test_the_use_of_their_layouts_is_the_one_they_found():
    for case in CASES.values():
        if case["ils_x"]:
            layout = layout_of(line_of(case), rules_of(case), case["ils_x"])
            assert layout.use == pytest.approx(case["ils_util"], rel=PRINTED)
            assert broken_rules(line_of(case), rules_of(case), case["ils_x"]) == ()


def test_a_place_at_just_the_distance_allowed_is_allowed_wherever_it_lies():
    case = CASES[ROUNDED_AWAY]
    assert place_jacks(line_of(case), rules_of(case)).least.use <= 1
    with pytest.raises(NoLayout, match=r"no jack may stand between 8\.30 and 8\.65 m, where the jamb at 8\.30 m"):
        place_jacks(line_of(case), rules_of(case, junction_clear=0.101))


@pytest.mark.parametrize("kind", ["least", "recommended"])
def test_every_layout_keeps_every_rule(plans, kind):
    for number, plan in plans.items():
        line, rules, layout = line_of(CASES[number]), rules_of(CASES[number]), getattr(plan, kind)
        assert keeps_places(line, rules, layout.positions), number
        afresh = solved_afresh(line, rules, layout.positions)
        assert afresh <= 1 + AFRESH
        assert layout.use == pytest.approx(afresh, rel=AFRESH)


def test_by_the_rules_set_by_default_every_layout_keeps_every_rule_too():
    refused = []
    for number, case in list(CASES.items())[::3]:
        rules = PlacingRules(usable=case["usable"], rated=case["rated"], widest=case["smax"])
        try:
            plan = place_jacks(line_of(case), rules)
        except NoLayout:
            refused.append(number)
            continue
        for layout in (plan.least, plan.recommended):
            assert keeps_places(line_of(case), rules, layout.positions)
            assert solved_afresh(line_of(case), rules, layout.positions) <= 1 + AFRESH
    assert len(refused) <= 2


# ------------------------------------------------------------------------------------------ the plan recommended


def test_the_plan_has_no_fewer_jacks_than_the_least_and_few_more(plans):
    for plan in plans.values():
        assert 0 <= len(plan.recommended.positions) - len(plan.least.positions) <= 2


def test_the_plan_is_at_least_as_even_as_the_least_number_and_says_whether_it_is_even_enough(plans):
    for plan in plans.values():
        drawn = np.array(plan.recommended.tributary)
        spread = max(drawn.max() / drawn.mean() - 1, 1 - drawn.min() / drawn.mean())
        assert plan.recommended.spread == pytest.approx(spread, rel=1e-12)
        assert plan.recommended.spread <= plan.least.spread + 1e-9
        assert plan.even == (spread <= 0.10 + 1e-9)
    assert sum(plan.even for plan in plans.values()) > len(plans) / 2


def test_tributary_loads_follow_the_lever_rule_and_keep_the_resultant(plans):
    for number, plan in plans.items():
        line = line_of(CASES[number])
        drawn, x = np.array(plan.recommended.tributary), np.array(plan.recommended.positions)
        assert drawn.sum() == pytest.approx(line.load.total, rel=1e-12)
        wall = LineLoad()
        for start, end, load in CASES[number]["segs"]:
            wall.ramp(start, end, load, load)
        for at, load in CASES[number]["pts"]:
            wall.point(at, load)
        assert drawn == pytest.approx(wall.shares_of(list(x)), rel=1e-9)


def test_no_layout_of_as_many_jacks_is_more_even_than_the_plan():
    line, rules = SMALL, replace(SMALL_RULES, even_within=0.0, worth=0.0)
    plan = place_jacks(line, rules)
    best = {}
    for jacks in range(len(plan.least.positions), len(plan.least.positions) + 3):
        fitting = [[rules.step * p for p in places] for places in every_layout(line, rules, jacks)]
        fitting = [x for x in fitting if solved_afresh(line, rules, x) <= 1]
        best[jacks] = min((layout_of(line, rules, x).spread for x in fitting), default=np.inf)
    assert plan.recommended.spread == pytest.approx(min(best.values()), abs=0.005)


def test_a_jack_more_is_taken_only_where_it_is_worth_it():
    case = CASES[187]
    rules = PlacingRules(usable=case["usable"], rated=case["rated"], widest=case["smax"])
    cheap, dear = (place_jacks(line_of(case), replace(rules, worth=worth)) for worth in (0.0, 0.05))
    assert len(dear.recommended.positions) == len(dear.least.positions) < len(cheap.recommended.positions)
    # What the one or two more would have brought is less than 0.05 for each.
    more = len(cheap.recommended.positions) - len(dear.recommended.positions)
    assert 0 < dear.recommended.spread - cheap.recommended.spread < 0.05 * more


def test_where_any_spread_is_even_enough_no_jack_is_added():
    plan = place_jacks(PLAIN, replace(RULES, even_within=0.9))
    assert plan.even
    assert plan.recommended.positions == plan.least.positions


# ------------------------------------------------------------------------------------------ every figure of a layout


def test_a_layout_says_for_each_jack_what_governs_and_which_loss_is_worst():
    line = WallLine(load=beam_load(5.0, [(0.0, 3.0, 30.0), (3.0, 5.0, 55.0)]), stiffness=9160.0, compliance=5e-5)
    rules, x = PlacingRules(usable=70.0, rated=110.0), [0.3, 1.2, 2.3, 3.1, 3.9, 4.7]
    layout = layout_of(line, rules, x)
    for order in range(6):
        lost = {gone: layout_of(line, rules, [*x[:gone], *x[gone + 1 :]]).reactions[order - (gone < order)]
                for gone in range(6) if gone != order}  # fmt: skip
        assert layout.one_lost[order] == pytest.approx(max(lost.values()), rel=1e-9)
        assert layout.lost_with[order] == max(lost, key=lost.__getitem__)
        shares = {"level": layout.reactions[order] / 70.0, "one lost": layout.one_lost[order] / 110.0,
                  "uneven": layout.uneven[order] / 110.0}  # fmt: skip
        assert layout.governed_by[order] == max(shares, key=shares.__getitem__)
        assert layout.uses[order] == max(shares.values())
    assert layout.use == max(layout.uses)
    assert layout.worst_one_lost == max(layout.one_lost)
    assert layout.worst_uneven == max(layout.uneven)


def test_each_case_can_govern():
    line = WallLine(load=beam_load(3.0, [(0.0, 3.0, 40.0)]), stiffness=17600.0, compliance=2e-5)
    x, rules = [0.3, 1.1, 1.9, 2.7], PlacingRules(usable=60.0, rated=120.0)
    governs = {
        layout_of(line, replace(rules, rated=400.0, difference=0.0), x).governed_by[1],
        layout_of(line, replace(rules, rated=70.0, difference=0.0), x).governed_by[1],
        layout_of(line, rules, x).governed_by[1],
    }
    assert governs == {"level", "one lost", "uneven"}


def test_a_load_from_the_house_is_placed_as_any_other():
    wall = LineLoad()
    wall.ramp(0.0, 2.4, 0.0, 18.0)  # a slab's triangle
    wall.ramp(2.4, 4.8, 18.0, 0.0)
    wall.ramp(0.0, 4.8, 15.0, 15.0)
    load = from_line_load(wall.bridged(1.1, 2.0), 4.8)
    line = WallLine(load=load, stiffness=17600.0, compliance=1e-4, doors=((1.1, 2.0),))
    plan = place_jacks(line, PlacingRules(usable=80.0, rated=200.0))
    assert sum(plan.recommended.reactions) == pytest.approx(15 * 4.8 + 18 * 2.4, rel=1e-12)
    assert keeps_places(line, PlacingRules(usable=80.0, rated=200.0), plan.recommended.positions)


def test_a_plan_for_soft_and_stiff_holds_on_each_of_them():
    case = CASES[88]
    pairs = ((42000.0, 5e-5), (1e6, 5e-5), (42000.0, 3e-4))
    line, rules = replace(line_of(case), also=pairs[1:]), rules_of(case)
    plan = place_jacks(line, rules)
    each = [layout_of(replace(line, stiffness=s, compliance=c, also=()), rules, plan.least.positions) for s, c in pairs]
    assert max(layout.use for layout in each) == pytest.approx(plan.least.use, rel=1e-12)
    assert plan.least.reactions == each[0].reactions
    for name in ("one_lost", "uneven", "uses"):
        worst = np.max([getattr(layout, name) for layout in each], axis=0)
        assert getattr(plan.least, name) == pytest.approx(worst, rel=1e-12)
    # Asking for more never takes fewer jacks.
    assert len(plan.least.positions) >= len(place_jacks(line_of(case), rules).least.positions)


def test_a_wall_strong_enough_on_one_support_and_not_on_the_other_says_so():
    line, rules = replace(HEAVY, compliance=5e-4), replace(RULES, rated=140.0)
    assert place_jacks(line, rules).least.use <= 1
    found = refused(replace(line, also=((17600.0, 0.0),)), rules)
    assert "with 2.0 mm uneven one carries" in found.reason
    difference = next(float(text.split()[4]) for text in found.helps if text.startswith("a level difference"))
    stiff = replace(line, also=((17600.0, 0.0),))
    assert place_jacks(stiff, replace(rules, difference=difference / 1000)).least.use <= 1


# ------------------------------------------------------------------------------------------ the same, and alone


def figures(plan):
    return [(layout.positions, layout.reactions, layout.uneven) for layout in (plan.least, plan.recommended)]


def test_the_same_wall_gives_the_same_plan_whatever_was_placed_before():
    first, second = CASES[25], CASES[130]
    before = place_jacks(line_of(second), rules_of(second))
    place_jacks(line_of(first), rules_of(first))
    assert figures(place_jacks(line_of(second), rules_of(second))) == figures(before)


def test_another_seed_changes_no_proven_number():
    for number in (25, 52, 91, 130):
        case = CASES[number]
        found = least_number(search_of(line_of(case), rules_of(case, seed=7)))
        assert len(found.layout) <= (case["opt_n"] or case["ils_n"])


def test_a_wall_seen_from_the_other_end_needs_as_many_jacks():
    for number in (10, 61, 124):
        case = CASES[number]
        length = case["L"]
        turned = {
            **case, "segs": [(length - b, length - a, q) for a, b, q in case["segs"]],
            "pts": [(length - a, p) for a, p in case["pts"]],
            "doors": [(length - b, length - a) for a, b in case["doors"]],
            "junctions": [length - at for at in case["junctions"]],
        }  # fmt: skip
        found = [len(place_jacks(line_of(c), rules_of(c)).least.positions) for c in (case, turned)]
        assert found[0] == found[1]


# ------------------------------------------------------------------------------------------ limits, both sides


def test_the_usable_load_is_held_to_the_digit():
    line = WallLine(load=beam_load(3.0, [(0.0, 3.0, 40.0)]), stiffness=17600.0, compliance=1e-4)
    rules = PlacingRules(usable=40.0, rated=400.0)
    jacks = len(place_jacks(line, rules).least.positions)
    greatest = min(layout_of(line, rules, [0.1 * p for p in x]).use for x in every_layout(line, rules, jacks)) * 40.0
    assert len(place_jacks(line, replace(rules, usable=greatest * (1 + 1e-6))).least.positions) == jacks
    assert len(place_jacks(line, replace(rules, usable=greatest * (1 - 1e-6))).least.positions) == jacks + 1


@pytest.mark.parametrize(("change", "kept", "broken", "says"), [
    ({"widest": 1.1}, [0.2, 1.3, 2.4, 2.9, 3.8], [0.2, 1.3, 2.41, 2.9, 3.8], "the widest spacing is 1.10 m"),
    ({"closest": 0.5}, [0.2, 1.3, 2.4, 2.9, 3.8], [0.2, 1.3, 2.4, 2.89, 3.8], "the closest spacing is 0.50 m"),
    ({"end_near": 0.2}, [0.2, 1.3, 2.4, 2.9, 3.8], [0.19, 1.3, 2.4, 2.9, 3.8], "nearer to the left end than 0.20 m"),
    ({"end_far": 0.2}, [0.2, 1.3, 2.4, 2.9, 3.8], [0.21, 1.3, 2.4, 2.9, 3.8], "for the left end"),
    ({"end_far": 0.2}, [0.2, 1.3, 2.4, 2.9, 3.8], [0.2, 1.3, 2.4, 2.9, 3.79], "for the right end"),
    ({"junction_clear": 0.1}, [0.2, 1.3, 2.4, 2.9, 3.8], [0.2, 1.3, 2.41, 2.92, 3.8], "in the cross wall at 2.50 m"),
    ({"junction_reach": 0.1}, [0.2, 1.3, 2.4, 2.9, 3.8], [0.2, 1.3, 2.39, 2.9, 3.8], "for the cross wall at 2.50 m"),
    ({"fewest": 5}, [0.2, 1.3, 2.4, 2.9, 3.8], [0.2, 1.3, 2.4, 3.8], "the least number is 5"),
])  # fmt: skip
def test_each_rule_of_placing_holds_up_to_its_limit(change, kept, broken, says):
    line = WallLine(load=beam_load(4.0, [(0.0, 4.0, 20.0)]), stiffness=1e4, compliance=1e-4, junctions=(2.5,))
    rules = PlacingRules(**{"usable": 80.0, "rated": 200.0, "widest": 1.4, "closest": 0.4, **change})
    assert broken_rules(line, rules, kept) == ()
    assert says in "; ".join(broken_rules(line, rules, broken))


@pytest.mark.parametrize(("kept", "broken", "says"), [
    ([0.2, 1.4, 2.6, 3.8], [0.2, 1.41, 2.6, 3.8], "in the door from 1.50 to 2.50 m, or too near to it"),
    ([0.2, 1.2, 2.6, 3.8], [0.2, 1.14, 2.6, 3.8], "for the jamb at 1.50 m of the door"),
    ([0.2, 1.2, 2.85, 3.8], [0.2, 1.2, 2.86, 3.8], "for the jamb at 2.50 m of the door"),
    ([0.2, 1.15, 2.85, 3.8], [0.2, 1.15, 2.86, 3.8], "the widest spacing is 1.70 m"),
])  # fmt: skip
def test_doors_bar_their_gap_ask_for_jambs_and_widen_one_spacing(kept, broken, says):
    line = WallLine(load=beam_load(4.0, [(0.0, 4.0, 20.0)]), stiffness=1e4, compliance=1e-4, doors=((1.5, 2.5),))
    rules = PlacingRules(usable=80.0, rated=200.0)
    assert broken_rules(line, rules, kept) == ()
    assert says in "; ".join(broken_rules(line, rules, broken))


def test_a_spacing_over_two_doors_is_not_widened():
    line = WallLine(load=beam_load(4.0, [(0.0, 4.0, 20.0)]), stiffness=1e4, compliance=1e-4,
                    doors=((1.0, 1.6), (1.9, 2.5)))  # fmt: skip
    rules = PlacingRules(usable=80.0, rated=200.0, jamb_reach=1.0)
    assert "the widest spacing is 1.20 m" in "; ".join(broken_rules(line, rules, [0.2, 0.9, 2.6, 3.8]))


@pytest.mark.parametrize(("change", "quantity"), [
    ({"usable": 0.0}, "usable"), ({"rated": 79.9}, "rated load"), ({"widest": 0.4}, "widest spacing"),
    ({"end_far": 0.1}, "end_far"), ({"difference": -0.001}, "difference"), ({"step": 0.0}, "step"),
    ({"fewest": 1}, "fewest jacks"), ({"proof": -1}, "number of tries"), ({"widest": float("nan")}, "widest"),
])  # fmt: skip
def test_rules_that_say_nothing_sensible_are_refused(change, quantity):
    with pytest.raises(DomainError) as caught:
        PlacingRules(**{"usable": 80.0, "rated": 80.0, **change})
    assert caught.value.quantity == quantity


@pytest.mark.parametrize(("change", "quantity"), [
    ({"load": beam_load(4.0)}, "load of the wall"), ({"stiffness": 0.0}, "bending stiffness"),
    ({"compliance": -1e-9}, "compliance of a support"), ({"doors": ((2.0, 2.0),)}, "end of a door"),
    ({"doors": ((-0.1, 2.0),)}, "start of a door"), ({"doors": ((3.0, 4.1),)}, "end of a door"),
    ({"doors": ((2.0, 3.0), (1.0, 2.1))}, "start of the next door"), ({"junctions": (4.1,)}, "cross wall"),
])  # fmt: skip
def test_a_wall_that_cannot_be_is_refused(change, quantity):
    entries = {"load": beam_load(4.0, [(0.0, 4.0, 9.0)]), "stiffness": 1e4, "compliance": 1e-4}
    with pytest.raises(DomainError) as caught:
        WallLine(**{**entries, **change})
    assert caught.value.quantity == quantity


# ------------------------------------------------------------------------------------------ no layout, and why


def test_a_door_too_near_to_the_corner_is_named():
    line = replace(PLAIN, doors=((0.2, 1.1),))
    found = refused(line, RULES)
    assert found.reason == "no jack may stand between 0.15 and 0.30 m, where the left end asks for one"
    assert "the door from 0.20 to 1.10 m blocked up" in found.helps
    assert place_jacks(replace(line, doors=()), RULES).least.use <= 1


def test_a_pier_too_narrow_for_a_jack_is_named():
    found = refused(replace(PLAIN, doors=((1.0, 1.9), (2.05, 2.95))), RULES)
    assert "where the jamb at 1.90 m of the door asks for one" in found.reason


def test_a_door_too_wide_says_how_wide_a_spacing_it_wants():
    line = replace(PLAIN, doors=((1.0, 3.0),))
    found = refused(line, replace(RULES, door_extra=0.1))
    assert found.reason.startswith(
        "jacks can be set from the left end as far as 0.90 m; the next free place is at 3.10 m"
    )
    assert "a spacing of 2.20 m (a stronger beam, if the masonry bridges it)" in found.helps
    assert "a spacing over a door of its width and 0.20 m" in found.helps
    assert place_jacks(line, replace(RULES, door_extra=0.2, usable=200.0)).least.use <= 1
    assert isinstance(refused(line, replace(RULES, door_extra=0.19)), NoLayout)


def test_two_stretches_too_near_to_each_other_say_how_close_jacks_would_have_to_stand():
    line = replace(PLAIN, doors=((3.5, 4.3),))
    found = refused(line, RULES)
    assert "the right end asks for one between 4.70 and 4.85 m" in found.reason
    assert "jacks as close as 0.40 m" in found.helps
    assert place_jacks(line, replace(RULES, closest=0.4)).least.use <= 1
    assert "no jack of this wall at the right end (others hold it there)" in found.helps


def test_a_cross_wall_wider_than_the_spacing_is_named_by_the_next_free_place():
    line = replace(PLAIN, junctions=(2.5,))
    found = refused(line, replace(RULES, junction_clear=0.7, junction_reach=0.9, widest=1.3, usable=200.0))
    assert found.reason.startswith(
        "jacks can be set from the left end as far as 1.80 m; the next free place is at 3.20 m"
    )
    assert found.helps[0].startswith("a spacing of 1.40 m")


def test_a_grid_too_coarse_is_told_apart_from_a_wall_too_tight():
    line = replace(PLAIN, doors=((1.0, 1.9),), junctions=())
    found = refused(line, replace(RULES, step=0.35))
    assert "places every 0.175 m" in found.helps


def test_a_wall_too_short_for_three_jacks_asks_who_holds_its_ends():
    stub = replace(PLAIN, load=beam_load(1.2, [(0.0, 1.2, 30.0)]))
    found = refused(stub, RULES)
    assert found.reason.startswith("there is room for 2 jacks, and the least number is 3")
    plan = place_jacks(stub, replace(RULES, fewest=2))
    assert len(plan.recommended.positions) == 2
    assert plan.recommended.worst_one_lost == max(plan.recommended.reactions)


@pytest.mark.parametrize(("change", "says", "helps"), [
    ({"usable": 14.0}, "with all level one carries", "jacks of 23 kN usable and 200 kN rated load"),
    ({"rated": 80.0, "closest": 1.0}, "with one lost another carries 135.0 kN of 80.0 rated", "two side by side"),
    ({"rated": 100.0, "difference": 0.02}, "with 20.0 mm uneven one carries", "a level difference of"),
])  # fmt: skip
def test_a_wall_too_heavy_says_in_which_case_and_by_how_much(change, says, helps):
    found = refused(HEAVY, replace(RULES, **change))
    assert says in found.reason
    assert "all layouts were tried" in found.reason
    assert any(helps in text for text in found.helps)


@pytest.mark.parametrize("change", [
    {"usable": 14.0}, {"usable": 20.0, "rated": 40.0}, {"rated": 100.0, "difference": 0.02},
    {"usable": 50.0, "rated": 90.0, "difference": 0.01},
])  # fmt: skip
def test_what_is_said_to_help_a_wall_too_heavy_does_help(change):
    rules = replace(RULES, **change)
    found = refused(HEAVY, rules)
    usable, rated = (float(word) for word in found.helps[0].split() if word.isdigit())
    assert place_jacks(HEAVY, replace(rules, usable=usable, rated=rated)).least.use <= 1
    for text in found.helps:
        if text.startswith("a level difference"):
            difference = float(text.split()[4]) / 1000
            assert place_jacks(HEAVY, replace(rules, difference=difference)).least.use <= 1


def test_a_wall_that_would_tip_with_one_of_three_lost_gets_a_fourth_jack():
    line = replace(PLAIN, load=beam_load(2.4, [(0.0, 1.2, 25.0), (1.2, 2.4, 40.0)]))
    rules = PlacingRules(usable=150.0, rated=300.0, end_far=0.4)
    least = {pulls: place_jacks(line, replace(rules, lost_pulls=pulls)).least for pulls in (True, False)}
    assert (len(least[True].positions), len(least[False].positions)) == (3, 4)
    assert layout_of(line, rules, least[True].positions).use > 1


def test_a_wall_that_tips_whatever_stands_under_it_asks_for_a_wall_to_hold_it():
    line = replace(PLAIN, load=beam_load(2.4, [(0.0, 1.2, 15.0), (1.2, 2.4, 50.0)]))
    rules = PlacingRules(usable=150.0, rated=300.0, end_far=0.4)
    found = refused(line, rules)
    assert "a jack would have to pull, or the beam tips when one is lost (all layouts were tried)" in found.reason
    assert found.helps[0] == "a wall that holds the beam at its ends when a jack is lost"
    assert place_jacks(line, replace(rules, lost_pulls=True)).least.use <= 1


def test_the_error_tells_the_reason_and_then_what_would_help():
    text = str(NoLayout("it is full", ("a", "b")))
    assert text == "it is full. What would help: a; b"
    assert str(NoLayout("it is full", ())).endswith("What would help: nothing tried here")
