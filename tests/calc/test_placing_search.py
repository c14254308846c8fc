"""calc.placing_paths and placing_search: on a wall short enough to try every layout by itself."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from calc.beam_batch import Batch, reactions_of
from calc.errors import DomainError
from calc.placing_paths import Counts, LeastWorst, all_ways, some_ways
from calc.placing_rules import free_places, stretches, ways_of
from calc.placing_search import any_of_all, descended, evenness, keeps, least_number, search_of, strength, uses
from tests.calc.walls import SMALL, SMALL_RULES, every_layout, worst_use

WAYS = ways_of(SMALL, SMALL_RULES, stretches(SMALL, SMALL_RULES))
JACKS = range(2, 10)


@pytest.fixture(scope="module")
def tried():
    return {jacks: every_layout(SMALL, SMALL_RULES, jacks) for jacks in JACKS}


def test_ways_are_counted_as_they_are_found_by_trying(tried):
    counts = Counts(WAYS)
    assert [counts.total(jacks) for jacks in JACKS if jacks >= 3] == [len(tried[j]) for j in JACKS if j >= 3]
    assert counts.possible() == [jacks for jacks in JACKS if tried[jacks]]
    assert len(counts.possible()) >= 3


@pytest.mark.parametrize("chunk", [1, 7, 4000])
def test_all_ways_are_listed_once_each(tried, chunk):
    for jacks in Counts(WAYS).possible():
        pieces = list(all_ways(Counts(WAYS), jacks, chunk))
        listed = [tuple(way) for piece in pieces for way in piece.T.tolist()]
        assert sorted(listed) == sorted(tried[jacks])


def test_drawn_ways_are_ways_and_every_one_is_drawn(tried):
    jacks = min((j for j in JACKS if len(tried[j]) > 5), key=lambda j: len(tried[j]))
    drawn = some_ways(Counts(WAYS), jacks, 200 * len(tried[jacks]), np.random.RandomState(3))
    found, times = np.unique(drawn.T, axis=0, return_counts=True)
    assert {tuple(way) for way in found.tolist()} == set(tried[jacks])
    # Each is as likely as any other: 200 times on the mean, with a deviation of 14.
    assert times.min() > 130
    assert times.max() < 280


def test_no_way_is_drawn_where_there_is_none():
    with pytest.raises(DomainError, match="ways of that many jacks"):
        some_ways(Counts(WAYS), 40, 1, np.random.RandomState(3))


@pytest.mark.parametrize("cost", [lambda load: load, lambda load: np.abs(load - 30.0)], ids=["load", "distance"])
def test_the_least_worst_way_is_the_least_of_all(tried, cost):
    search = search_of(SMALL, SMALL_RULES)
    grid = search.grid
    found = LeastWorst(WAYS, grid.left, grid.right, grid.before, grid.after, cost)

    def worst(way):
        drawn = [0.0] * len(way)
        for order, (here, there) in enumerate(pairwise(way)):
            drawn[order] += grid.left[here, there - here]
            drawn[order + 1] += grid.right[here, there - here]
        drawn[0] += grid.before[way[0]]
        drawn[-1] += grid.after[way[-1]]
        return max(cost(np.array(drawn)))

    for jacks in JACKS:
        way = found.way(jacks)
        if not tried[jacks]:
            assert way is None or jacks < SMALL_RULES.fewest
            continue
        assert tuple(way) in set(tried[jacks])
        assert worst(tuple(way)) == pytest.approx(min(map(worst, tried[jacks])), rel=1e-12)


def test_the_least_number_is_that_of_trying_every_layout(tried):
    fits = {jacks: any(worst_use(SMALL, SMALL_RULES, [0.2 * p for p in way]) <= 1 for way in tried[jacks])
            for jacks in JACKS}  # fmt: skip
    least = min(jacks for jacks in JACKS if fits[jacks])
    found = least_number(search_of(SMALL, SMALL_RULES))
    assert (len(found.layout), found.bound) == (least, least)
    assert found.use <= 1
    assert least > search_of(SMALL, SMALL_RULES).counts.possible()[0]  # so that there was something to prove


def test_trying_all_layouts_finds_the_one_that_just_fits_and_none_where_none_does(tried):
    layouts, free = np.array(tried[6]).T, replace(SMALL_RULES, rated=1e4, lost_pulls=True)
    greatest = float(reactions_of(search_of(SMALL, free).grid, layouts).max(axis=0).min())
    for usable, fits in ((greatest * (1 + 1e-6), True), (greatest * (1 - 1e-6), False)):
        search = search_of(SMALL, replace(free, usable=usable))
        assert (any_of_all(search, 6, strength(search)) is not None) == fits


def test_a_spacing_over_one_door_is_widened_and_over_two_it_is_not():
    rules = replace(SMALL_RULES, widest=1.2, door_extra=0.9)
    one = ways_of(replace(SMALL, doors=((1.9, 2.5),), junctions=()), rules, ())
    two = ways_of(replace(SMALL, doors=((1.5, 1.7), (1.9, 2.5)), junctions=()), rules, ())
    # From 1.4 m to 2.8 m: 1.4 m, of which 0.6 m and 0.9 m would allow 1.5 m.
    assert one.places[[7, 14]].all()
    assert one.follows[7, 7]
    assert two.places[[7, 14]].all()
    assert not two.follows[7, 7]


def test_use_of_a_batch_is_the_use_of_each_layout_solved_afresh(tried):
    search = search_of(SMALL, SMALL_RULES)
    layouts = np.array(tried[6]).T
    scores = strength(search)(layouts)
    afresh = [worst_use(SMALL, SMALL_RULES, [0.2 * place for place in way]) for way in tried[6]]
    assert scores == pytest.approx(afresh, rel=1e-8)


def test_descent_ends_where_no_move_is_better_and_goes_no_further_than_its_goal(tried):
    search, score = search_of(SMALL, SMALL_RULES), strength(search_of(SMALL, SMALL_RULES))
    layouts = np.array(tried[6]).T
    starts = layouts[:, np.argsort(score(layouts))[[-1, len(tried[6]) // 2]]]
    ends, values = descended(search, starts, score, 0.0)
    assert (values < score(starts)).all()
    assert values == pytest.approx(score(ends), rel=1e-12)
    assert descended(search, ends, score, 0.0)[1].tolist() == values.tolist()
    assert descended(search, starts, score, float(score(starts).min()))[0].tolist() == starts.tolist()


def test_layouts_go_down_side_by_side_as_each_would_alone(tried):
    search, score = search_of(SMALL, SMALL_RULES), strength(search_of(SMALL, SMALL_RULES))
    starts = np.array(tried[6]).T[:, ::7]
    together = descended(search, starts, score, 0.0)[0]
    alone = [descended(search, starts[:, [order]], score, 0.0)[0][:, 0] for order in range(starts.shape[1])]
    assert together.T.tolist() == [way.tolist() for way in alone]


def test_the_rules_are_kept_by_those_layouts_that_were_found_by_trying(tried):
    random = np.random.RandomState(5)
    some = np.sort(random.randint(-1, 22, (6, 4000)), axis=0)
    some[:, :200] = np.array(tried[6]).T[:, random.randint(0, len(tried[6]), 200)]
    kept = keeps(WAYS, some)
    assert kept[:200].all()
    assert {tuple(way) for way in some[:, kept].T.tolist()} <= set(tried[6])


def test_a_layout_too_weak_is_never_even(tried):
    search = search_of(SMALL, SMALL_RULES)
    for jacks in (5, 6, 7):
        layouts = np.array(tried[jacks]).T
        weak = strength(search)(layouts) > 1
        assert ((evenness(search)(layouts) > 100) == weak).all()
        assert weak.any()


def test_two_jacks_are_used_without_a_loss():
    found = Batch(reactions=np.array([[40.0], [45.0]]), sensitivity=np.zeros((2, 2, 1)))
    assert uses(found, SMALL_RULES).tolist() == [45.0 / SMALL_RULES.usable]


def test_free_places_leave_out_the_door_the_cross_wall_and_the_ends():
    free = np.flatnonzero(free_places(SMALL, SMALL_RULES)) * 0.2
    assert free == pytest.approx([0.2, 0.4, 0.6, 0.8, 1.0, 1.2, 1.4, 1.6, 1.8, 2.0, 2.8, 3.0, 3.2, 3.4, 3.6])
