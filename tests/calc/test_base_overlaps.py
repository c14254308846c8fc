"""calc.base_overlaps: bases of different jack lines that claim the same ground, by hand."""

import pytest

from calc.base_overlaps import bases_on_ground, merged_bases
from tests.jack_plans import jack


def test_two_bases_at_a_corner_are_one_with_the_ground_they_share_counted_once():
    # 0.6 m square bases 0.4 m apart both ways share 0.2 x 0.2 m2; 36.8 kN each, uneven 1.25; one lost 61 kN.
    jacks = [jack("W1.1", "W1", 0.4, 0.4, 0.0), jack("W2.1", "W2", 0.4, 0.0, 0.4)]
    (base,) = merged_bases(jacks, {"W1": (1.0, 0.0), "W2": (0.0, 1.0)}, 1.25)
    assert base.jacks == ("W1.1", "W2.1")
    assert (base.overlap, base.area) == pytest.approx((0.04, 0.68))
    assert base.pressure == pytest.approx(2 * 36.8 * 1.25 / 0.68)
    assert base.passing == pytest.approx((2 * 36.8 + 61.0 - 36.8) / 0.68)


def test_bases_that_only_touch_stay_apart():
    jacks = [jack("W1.1", "W1", 0.6, 0.6, 0.0), jack("W2.1", "W2", 0.0, 0.0, 0.0)]
    assert merged_bases(jacks, {"W1": (1.0, 0.0), "W2": (0.0, 1.0)}, 1.25) == ()


def test_a_strip_is_one_base_that_turns_with_its_wall():
    strip = {"base": "strip under W1.1 to W1.2", "base_length": 1.4, "base_side": 0.5}
    jacks = [jack("W1.1", "W1", 0.0, 0.0, 0.0, **strip), jack("W1.2", "W1", 0.8, 0.0, 0.8, **strip)]
    (base,) = bases_on_ground(jacks, {"W1": (0.0, 1.0)})
    xs, ys = zip(*base.outline, strict=True)
    assert (min(xs), max(xs), min(ys), max(ys)) == pytest.approx((-0.25, 0.25, -0.3, 1.1))


def test_bases_of_both_lines_of_a_wall_and_of_a_column_count_too():
    near = [jack("W1.1", "W1", 1.0, 1.0, 0.25, across=0.25), jack("W1.2", "W1", 1.0, 1.0, -0.25, across=-0.25)]
    assert [base.jacks for base in merged_bases(near, {"W1": (1.0, 0.0)}, 1.2)] == [("W1.1", "W1.2")]
    column = [jack("P1.1", "P1", 0.0, 3.0, 3.0, kind="column"), jack("P1.2", "P1", 0.0, 3.5, 3.0, kind="column")]
    assert [base.jacks for base in merged_bases(column, {}, 1.2)] == [("P1.1", "P1.2")]


def test_three_bases_in_a_row_are_one():
    jacks = [jack(f"W{k}.1", f"W{k}", 0.0, 0.5 * k, 0.0) for k in (1, 2, 3)]
    (base,) = merged_bases(jacks, {}, 1.0)
    assert base.area == pytest.approx(3 * 0.36 - 2 * 0.1 * 0.6)
