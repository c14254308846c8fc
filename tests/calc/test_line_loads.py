"""calc.line_loads: loads along a member, by hand."""

import pytest

from calc.line_loads import LineLoad, Ramp


def test_a_ramp_has_the_total_and_moment_of_a_trapezium():
    # from 2 kN/m at 1 m to 8 kN/m at 4 m: 3 x 5 = 15 kN; its middle 3 x (2 + 2 x 8) / (3 x (2 + 8)) = 1.8 m along
    ramp = Ramp(1.0, 4.0, 2.0, 8.0)
    assert (ramp.total, ramp.moment) == pytest.approx((15.0, 15.0 * 2.8))
    assert ramp.at(2.0) == pytest.approx(4.0)


def test_a_ramp_is_cut_to_what_lies_between_two_distances():
    cut = Ramp(1.0, 4.0, 2.0, 8.0).cut(2.0, 9.0)
    assert cut == Ramp(2.0, 4.0, 4.0, 8.0)
    assert Ramp(1.0, 4.0, 2.0, 8.0).cut(4.0, 5.0) is None


def test_a_load_spread_over_no_length_is_a_point():
    load = LineLoad()
    load.spread(7.0, 2.5, 2.5)
    assert (load.ramps, load.points) == ([], [(2.5, 7.0)])


def test_a_point_on_the_border_of_two_parts_goes_to_the_later_one_and_only_there():
    load = LineLoad(points=[(2.0, 5.0), (6.0, 3.0)])
    assert [load.part(a, b, 6.0).total for a, b in ((0.0, 2.0), (2.0, 4.5), (4.5, 6.0))] == [0.0, 5.0, 3.0]


def test_parts_of_a_member_add_up_to_the_whole():
    load = LineLoad([Ramp(0.5, 5.0, 1.0, 9.0), Ramp(0.0, 6.0, 2.0, 2.0)], [(2.0, 5.0), (0.0, 1.5), (6.0, 2.5)])
    parts = [load.part(a, b, 6.0) for a, b in ((0.0, 2.0), (2.0, 3.7), (3.7, 6.0))]
    assert sum(part.total for part in parts) == pytest.approx(load.total)
    assert sum(part.moment for part in parts) == pytest.approx(load.moment)


def test_a_load_turned_round_on_another_member_keeps_its_place():
    # 6 kN/m at 1 m falling to 0 at 3 m, on a member that runs the other way from 5 m: from 0 at 2 m to 6 at 4 m
    load, other = LineLoad(), LineLoad([Ramp(1.0, 3.0, 6.0, 0.0)], [(0.5, 4.0)])
    load.add_mapped(other, 5.0, -1.0, 7.0)
    assert load.ramps == [Ramp(2.0, 4.0, 0.0, 6.0)]
    assert load.points == [(4.5, 4.0)]


def test_what_falls_beyond_an_end_is_put_on_that_end():
    load = LineLoad()
    load.add_mapped(LineLoad([Ramp(0.0, 4.0, 3.0, 3.0)]), -0.5, 1.0, 3.0, factor=2.0)
    # 0.5 m before the start and 0.5 m beyond the end, each 0.5 x 6 = 3 kN
    assert load.ramps == [Ramp(0.0, 3.0, 6.0, 6.0)]
    assert load.points == [(0.0, 3.0), (3.0, 3.0)]


def test_the_greatest_line_load_is_where_pieces_overlap():
    load = LineLoad([Ramp(0.0, 5.0, 4.0, 4.0), Ramp(1.0, 3.0, 0.0, 6.0), Ramp(3.0, 4.0, 1.0, 1.0)], [(2.0, 99.0)])
    assert load.greatest() == pytest.approx(10.0)


def test_supports_share_a_point_by_the_lever_rule_and_an_overhang_goes_to_the_nearest():
    load = LineLoad(points=[(0.2, 2.0), (2.0, 10.0), (6.5, 3.0)])
    # supports at 1, 5 and 6 m: 10 kN stand 1 m from the first and 3 m from the second
    assert load.shares_of([1.0, 5.0, 6.0]) == pytest.approx([2.0 + 7.5, 2.5, 3.0])


def test_supports_share_a_ramp_span_by_span():
    # 0 to 12 kN/m over 6 m, supports at 0, 2 and 6: the first span carries 2 x 2 = 4 kN with its centre 4/3 m along,
    # the second (4 + 12)/2 x 4 = 32 kN with its centre at 2 + 4 x (4 + 24)/(3 x 16) = 4.3333 m
    drawn = LineLoad([Ramp(0.0, 6.0, 0.0, 12.0)]).shares_of([0.0, 2.0, 6.0])
    assert drawn == pytest.approx([4 / 3, 8 / 3 + 32 * (6 - 13 / 3) / 4, 32 * (13 / 3 - 2) / 4])
    assert sum(drawn) == pytest.approx(36.0)


def test_a_load_is_even_only_if_it_runs_over_the_whole_member_without_points():
    assert LineLoad([Ramp(0.0, 4.0, 2.0, 2.0), Ramp(0.0, 4.0, 1.0, 1.0)]).is_even(4.0)
    assert not LineLoad([Ramp(0.0, 4.0, 2.0, 2.1)]).is_even(4.0)
    assert not LineLoad([Ramp(0.0, 3.9, 2.0, 2.0)]).is_even(4.0)
    assert not LineLoad([Ramp(0.0, 4.0, 2.0, 2.0)], [(1.0, 0.5)]).is_even(4.0)


def test_load_over_an_open_door_goes_to_its_jambs_by_the_lever_rule():
    load = LineLoad()
    load.ramp(0.0, 6.0, 10.0, 10.0)
    load.point(3.0, 8.0)
    bridged = load.bridged(2.5, 4.0)
    # Over the door: 1.5 m at 10 kN/m, half to each jamb, and 8 kN a third of the way along.
    assert dict(bridged.points) == pytest.approx({2.5: 7.5 + 8 * 2 / 3, 4.0: 7.5 + 8 / 3})
    assert [(r.start, r.end) for r in bridged.ramps] == [(0.0, 2.5), (4.0, 6.0)]
    assert bridged.total == pytest.approx(load.total)
    assert bridged.moment == pytest.approx(load.moment)


def test_the_heaviest_stretch_counts_points_and_is_found_wherever_it_lies():
    load = LineLoad()
    load.ramp(0.0, 8.0, 10.0, 10.0)
    load.ramp(5.0, 5.3, 1000.0, 1000.0)  # 300 kN on 0.3 m
    load.point(6.0, 20.0)
    # 1.2 m from 4.8 to 6.0: 12 kN even, 300 kN of the ramp, 20 kN at its end.
    assert load.heaviest_stretch(1.2) == pytest.approx(12 + 300 + 20)
    assert load.heaviest_stretch(0.3) == pytest.approx(3 + 300)
