"""calc.reseating: no neighbours in one pass, no more than a share of any wall, round a whole house."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.errors import DomainError
from calc.reseating import release_passes


def names(wall, count):
    return [f"{wall}{order}" for order in range(count)]


def broken(lines, corners, passes, every):
    """What goes against the rule: neighbours in one pass, walls with too many in one."""
    beside = [*corners, *(pair for line in lines for pair in pairwise(line))]
    together = [pair for pair in beside if passes[pair[0]] == passes[pair[1]]]
    crowded = [(line, turn) for line in lines for turn in set(passes.values())
               if sum(passes[name] == turn for name in line) > -(-len(line) // every)]  # fmt: skip
    return together, crowded


def test_along_one_wall_every_fourth_is_released():
    assert list(release_passes([names("W", 9)], [], 4).values()) == [1, 2, 3, 4, 1, 2, 3, 4, 1]
    assert list(release_passes([names("W", 5)], [], 2).values()) == [1, 2, 1, 2, 1]


def test_a_wall_that_begins_at_a_corner_starts_with_another_pass():
    found = release_passes([names("A", 5), names("B", 4)], [("A4", "B0")], 4)
    assert found["A4"] == 1  # the fifth is again in the first pass
    assert found["B0"] != 1


def test_a_ring_of_walls_closes_without_neighbours_in_one_pass():
    # 5 jacks on each of 4 walls: counted through, the 1st and the 20th would not meet, but every corner does.
    lines = [names(wall, 5) for wall in "ABCD"]
    corners = [("A4", "B0"), ("B4", "C0"), ("C4", "D0"), ("D4", "A0")]
    found = release_passes(lines, corners, 4)
    assert broken(lines, corners, found, 4) == ([], [])
    assert max(found.values()) == 4


def test_a_junction_that_leaves_no_other_way_gets_a_further_pass():
    # Three neighbours round a corner cannot share two passes.
    lines = [["A"], ["B"], ["C"]]
    corners = [("A", "B"), ("B", "C"), ("C", "A")]
    assert sorted(release_passes(lines, corners, 2).values()) == [1, 2, 3]


@st.composite
def houses(draw):
    counts = draw(st.lists(st.integers(1, 12), min_size=1, max_size=8))
    lines = [names(f"W{number}.", count) for number, count in enumerate(counts)]
    everyone = [name for line in lines for name in line]
    walls = {name: number for number, line in enumerate(lines) for name in line}
    pairs = draw(st.lists(st.tuples(st.sampled_from(everyone), st.sampled_from(everyone)), max_size=12))
    return lines, [(one, other) for one, other in pairs if walls[one] != walls[other]]


@given(houses(), st.sampled_from((2, 3, 4)))
@settings(max_examples=200, deadline=None)
def test_no_neighbours_are_released_together_and_no_wall_gives_up_more_than_its_share(plan, every):
    lines, corners = plan
    found = release_passes(lines, corners, every)
    assert set(found) == {name for line in lines for name in line}
    assert min(found.values()) >= 1
    assert broken(lines, corners, found, every) == ([], [])


def test_what_makes_no_sense_is_refused():
    with pytest.raises(DomainError, match="one in so many jacks"):
        release_passes([names("A", 3)], [], 1)
    with pytest.raises(DomainError, match="names of jacks"):
        release_passes([["A0", "A1"], ["A1"]], [], 4)
    with pytest.raises(DomainError, match="lines that hold jack Z"):
        release_passes([names("A", 3)], [("A0", "Z")], 4)
