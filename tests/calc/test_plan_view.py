"""The plan as a picture to scale, with figures by hand: 8 m by 4 m, so a sheet of 10 m."""

import pytest

from calc.plan_view import PlanView, plan_view
from tests.houses import column, house, opening, wall, worked
from tests.jack_plans import jack


@pytest.fixture(scope="module")
def view() -> PlanView:
    survey = house(
        {"A": 0, "B": 3, "C": 8}, {"1": 1, "2": 5},
        walls=[wall("W1", "A1", "C1"), wall("W2", "C1", "C2"), wall("W3", "C2", "A2"), wall("W4", "A2", "A1")],
        openings=[opening("W1", "window", 4.0, 1.5, 1.2), opening("W1", "door", 1.0, 0.9, 2.1)],
    )  # fmt: skip
    found = worked(survey)
    return plan_view(survey, found.own, found.taken.house)


def places(view: PlanView, name: str) -> list[tuple[str, tuple[float, ...]]]:
    return [(s.kind, (s.across_start, s.up_start, s.across_end, s.up_end)) for s in view.pieces if s.name == name]


def test_the_house_fills_four_fifths_of_the_sheet_and_stands_in_its_middle(view):
    assert (view.frame.side, view.frame.x, view.frame.y) == (10.0, 4.0, 3.0)
    assert places(view, "W2") == [("wall", pytest.approx((0.4, -0.2, 0.4, 0.2)))]


def test_a_wall_is_drawn_in_pieces_between_its_openings_in_order(view):
    # W1 runs from x = 0; the door from 1.0 to 1.9 is left open, the window from 4.0 to 5.5 has a stroke of its own.
    assert places(view, "W1") == [
        ("wall", pytest.approx((-0.4, -0.2, -0.3, -0.2))),
        ("wall", pytest.approx((-0.21, -0.2, 0.0, -0.2))),
        ("window", pytest.approx((0.0, -0.2, 0.15, -0.2))),
        ("wall", pytest.approx((0.15, -0.2, 0.4, -0.2))),
    ]


def test_a_wall_that_runs_west_is_drawn_west(view):
    assert places(view, "W3") == [("wall", pytest.approx((0.4, 0.2, -0.4, 0.2)))]


def test_the_scale_bar_is_whole_metres_and_as_long_as_it_says(view):
    bar = next(s for s in view.legend if s.kind == "scale bar")
    assert view.frame.bar == 3.0  # a fourth of 10 m, up
    assert (bar.across_end - bar.across_start) * view.frame.side == pytest.approx(3.0)


def test_north_points_up_and_grid_lines_are_named_along_two_edges(view):
    north = next(s for s in view.legend if s.kind == "north")
    assert north.up_end > north.up_start
    assert north.across_end == north.across_start
    marks = {str(m.name): (m.across, m.up) for m in view.marks if m.kind == "line"}
    assert marks == {"A": pytest.approx((-0.4, -0.46875)), "B": pytest.approx((-0.1, -0.46875)),
                     "C": pytest.approx((0.4, -0.46875)), "1": pytest.approx((-0.46875, -0.2)),
                     "2": pytest.approx((-0.46875, 0.2))}  # fmt: skip


def test_everything_lies_on_the_sheet(view):
    ends = [(s.across_start, s.across_end, s.up_start, s.up_end) for s in (*view.pieces, *view.legend)]
    assert all(abs(place) <= 0.5 for end in ends for place in end)
    assert all(abs(place) <= 0.5 for m in view.marks for place in (m.across, m.up))


def test_only_the_ground_storey_is_drawn_and_columns_are_marked():
    survey = house(
        {"A": 0, "B": 6}, {"1": 0, "2": 6},
        walls=[wall("G1", "A1", "B1"), wall("G2", "A2", "B2"), wall("G3", "A1", "A2"), wall("G4", "B1", "B2"),
               wall("U1", "A1", "B1", storey=2)],
        columns=[column("P1", "B2")],
    )  # fmt: skip
    found = worked(survey)
    view = plan_view(survey, found.own, found.taken.house)
    assert "U1" not in {str(s.name) for s in view.pieces}
    assert [(str(m.name), m.across, m.up) for m in view.marks if m.kind == "column"] == [
        ("P1", pytest.approx(0.4), pytest.approx(0.4))
    ]


def test_jacks_stand_where_they_are_planned_circuit_by_circuit(view):
    survey = house(
        {"A": 0, "B": 3, "C": 8}, {"1": 1, "2": 5},
        walls=[wall("W1", "A1", "C1"), wall("W2", "C1", "C2"), wall("W3", "C2", "A2"), wall("W4", "A2", "A1")],
        columns=[column("P1", "B2")],
    )  # fmt: skip
    found = worked(survey)
    jacks = [jack("W1-1", "W1", 0.5, 0.5, 1.0, circuit="C2"), jack("W2-1", "W2", 2.0, 8.0, 3.0, circuit="C1"),
             jack("P1-1", "P1", 0.0, 3.0, 5.4, circuit="C2")]  # fmt: skip
    drawn = plan_view(survey, found.own, found.taken.house, jacks).jacks
    # The sheet of 10 m has its middle at x = 4 m, y = 3 m.
    assert [(j.name, j.circuit, j.kind, j.across, j.up) for j in drawn] == [
        ("W1-1", "C2", "wall across", pytest.approx(-0.35), pytest.approx(-0.2)),
        ("P1-1", "C2", "column", pytest.approx(-0.1), pytest.approx(0.24)),
        ("W2-1", "C1", "wall up", pytest.approx(0.4), pytest.approx(0.0)),
    ]
    assert view.jacks == ()
