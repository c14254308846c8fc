"""calc.lift_log: a log of six jacks by hand, every limit on both sides, blanks, and the same verdict two ways."""

import random
from dataclasses import fields, replace

import pytest

from calc.allowances import Allowances
from calc.errors import DomainError
from calc.lift_log import (
    DRY,
    NOT_SIGNED,
    RAIN,
    STATES,
    WATER,
    LogLimits,
    StageEntries,
    lift_log,
    log_limits,
    stage_targets,
    state_of,
    words_of,
)
from calc.log_stations import LogStation
from calc.movement import NEIGHBOUR_NOT_MEASURED, NOT_MEASURED, MovementLimits
from calc.number import Name, counted, picked, text_of, value_of, weighted_total
from calc.survey import Entered
from tests.steering import KINDS, as_float, as_quantity, in_kind, numbers_of, wrong_dimensions

WITHIN, CORRECT, STOP = "within the limits set", "correct it", "STOP"
# A house 6 x 4 m with six jacks, unlike in both directions; neighbours round its outside.
PLACES = {"S1": (0.0, 0.0), "S2": (3.0, 0.0), "S3": (6.0, 0.0), "S4": (6.0, 4.0), "S5": (3.0, 4.0), "S6": (0.0, 4.0)}
STATIONS = [LogStation(name=name, member="W1", kind="wall", across=0.0, x=x, y=y) for name, (x, y) in PLACES.items()]
PAIRS = [(0, 1), (1, 2), (2, 3), (3, 4), (4, 5), (0, 5)]
MOVES = MovementLimits(alarm=1 / 1000, stop=1 / 500, difference=0.002, tilt_alarm=1 / 500, tilt_stop=1 / 300)
LIMITS = LogLimits(walls=(), movement=MOVES, share=0.5, difference_alarm=0.001, load=1650.0, widening=0.0003, wind=8.0,
                   gap=0.010)  # fmt: skip
UNITS = {"load": "kN", "widening": "m", "lean": "-", "wind": "m/s", "gap": "m"}
GOOD = {"load": 1500.0, "widening": 0.0001, "lean": 0.0, "wind": 3.0, "gap": 0.006}


def stage(name="1 Preload", risen=0.1, num=as_float, **changed):
    """A stage at which all is well; `risen` is one rise for all, or one by station."""

    def entered(value, unit):
        return Entered(value=num(value or 0.0, unit), given=value is not None)

    each = risen if isinstance(risen, dict) else dict.fromkeys(PLACES, risen)
    told = {"day": True, "hour": "09:30", "water": DRY, "people_out": "yes", "signed": "foreman"} | {
        key: entered({**GOOD, **changed}[key], unit) for key, unit in UNITS.items()
    }
    told |= {key: value for key, value in changed.items() if key not in UNITS}
    return StageEntries(name=Name(name), risen=tuple(entered(each.get(s), "m") for s in PLACES), **told)


def log(*stages, asked=None, num=as_float):
    limits = replace(in_kind(LIMITS, num), movement=in_kind(MOVES, num))
    asked = Entered(value=num(asked or 0.0, "No"), given=asked is not None)
    return lift_log(STATIONS, PAIRS, stages, asked, limits)


def verdicts(found):
    return {str(row.name): text_of(row.verdict) for row in found.movement.verdicts}


def level(**moved):
    return {name: moved.get(name, 0.1) for name in PLACES}


# ------------------------------------------------------------------------------------------ one stage


def test_a_level_rise_with_all_entered_is_within_the_limits_set():
    found = log(stage())
    assert (found.verdict, found.hold, found.signed) == (WITHIN, WITHIN, WITHIN)
    assert {row.verdict for row in found.states} == {WITHIN}
    assert found.stages[0].mean == pytest.approx(0.1)


def test_one_jack_that_lags_stops_there_and_beside_and_nowhere_else():
    # S2 6 mm low: by hand in test_movement the plane tilts 0.5 mm a metre north, S2 lies 4 mm under it, S1 and S3 2 mm
    # over it: 6 mm between them against a stop of 2 mm.
    found = log(stage(risen=level(S2=0.094)))
    assert verdicts(found) == {"S1": STOP, "S2": STOP, "S3": STOP, "S4": CORRECT, "S5": WITHIN, "S6": CORRECT}
    assert found.stages[0].share == pytest.approx(6 / 2)
    assert (found.stages[0].bent, found.stages[0].tilted, found.verdict) == (2, 0, STOP)


def test_a_tilted_plane_is_told_as_tilt_and_bends_nothing():
    found = log(stage(risen={name: 0.1 + 0.004 * x for name, (x, _) in PLACES.items()}))
    assert set(verdicts(found).values()) == {WITHIN}
    assert found.stages[0].share == pytest.approx(0.0, abs=1e-9)
    assert found.stages[0].tilt == pytest.approx(0.004)
    assert (found.stages[0].tilted, found.stages[0].bent, found.verdict) == (2, 0, STOP)


def test_an_empty_reading_is_not_measured_and_stops():
    found = log(stage(risen=level(S4=None)))
    assert verdicts(found)["S4"] == NOT_MEASURED
    assert {verdicts(found)[name] for name in ("S3", "S5")} == {NEIGHBOUR_NOT_MEASURED}
    assert (found.stages[0].read, found.stages[0].unread, found.verdict) == (5, 1, NOT_MEASURED)
    assert found.stages[0].mean == pytest.approx(0.1)


def test_a_reading_of_nought_is_a_reading():
    assert log(stage(risen=0.0)).verdict == WITHIN


@pytest.mark.parametrize("what", [*UNITS, "day", "hour", "water", "people_out"])
def test_whatever_is_blank_is_not_measured_and_stops(what):
    blank = {**dict.fromkeys(UNITS), "day": False}.get(what, "")
    found = log(stage(**{what: blank}))
    assert {row.what for row in found.states if row.verdict == NOT_MEASURED} == {what}
    assert (found.verdict, found.hold) == (NOT_MEASURED, NOT_MEASURED)


@pytest.mark.parametrize(
    ("what", "value", "words"),
    [
        ("load", 1650.0, WITHIN), ("load", 1650.1, STOP), ("widening", 0.0003, WITHIN), ("widening", 0.00031, STOP),
        ("wind", 8.0, WITHIN), ("wind", 8.1, STOP), ("gap", 0.010, WITHIN), ("gap", 0.0101, STOP),
        ("lean", 0.002, WITHIN), ("lean", 0.0021, CORRECT), ("lean", 1 / 300, CORRECT), ("lean", 0.0034, STOP),
        ("water", RAIN, CORRECT), ("water", WATER, STOP), ("water", "a flood", STOP),
        ("people_out", "YES", WITHIN), ("people_out", "no", STOP), ("people_out", "one", STOP),
    ],
)  # fmt: skip
def test_every_limit_on_either_side(what, value, words):
    found = log(stage(**{what: value}))
    assert next(row.verdict for row in found.states if row.what == what) == words
    assert found.verdict == words


def test_a_stage_is_held_until_somebody_has_signed():
    found = log(stage(signed=""))
    assert (found.verdict, found.hold, found.signed) == (WITHIN, NOT_SIGNED, NOT_SIGNED)


def test_a_signature_releases_nothing_that_stops():
    assert log(stage(wind=12.0)).hold == STOP


def test_jacks_in_one_line_leave_the_tilt_unknown():
    line = [replace(station, y=0.0, x=float(at)) for at, station in enumerate(STATIONS)]
    found = lift_log(line, PAIRS, [stage()], Entered(value=0.0, given=False), LIMITS)
    assert (found.site.known, found.stages[0].tilted, found.verdict) == (0, 4, NOT_MEASURED)


def test_a_wall_without_jacks_in_the_plan_is_never_measured():
    found = lift_log(STATIONS, PAIRS, [stage()], Entered(value=0.0, given=False), LIMITS, 1)
    assert (found.stages[0].unread, found.verdict) == (1, NOT_MEASURED)


# ------------------------------------------------------------------------------------------ several stages


THREE = (stage("1", 0.0), stage("2", level(S5=0.1035)), stage("3", level(S1=None)), stage("4", dict.fromkeys(PLACES)))


def test_the_last_stage_with_a_reading_is_looked_at():
    assert [row.reached for row in log(*THREE).stages] == [1, 2, 3, 3]
    assert log(*THREE).site.looked_at == 3


@pytest.mark.parametrize(("asked", "stage_seen"), [(1, 1), (2, 2), (4, 4), (9, 4), (0.4, 1), (-3, 1)])
def test_another_stage_can_be_asked_for(asked, stage_seen):
    found = log(*THREE, asked=asked)
    assert found.site.looked_at == stage_seen
    assert found.verdict == found.stages[stage_seen - 1].verdict


def test_with_nothing_read_the_first_stage_is_looked_at_and_stops():
    found = log(stage("1", dict.fromkeys(PLACES)), stage("2", dict.fromkeys(PLACES)))
    assert (found.site.looked_at, found.verdict) == (1, NOT_MEASURED)


@pytest.mark.parametrize("seed", range(40))
def test_the_row_of_a_stage_says_what_the_movement_of_the_house_says(seed):
    """Two ways to one verdict: sums of products over all stations, and station by station with those not read out."""
    rng = random.Random(seed)
    size = rng.choice((0.0005, 0.001, 0.003))
    tilt = rng.choice((0.0, 0.001, 0.003))
    rises = {name: 0.2 + tilt * x + rng.uniform(-size, size) for name, (x, _) in PLACES.items()}
    found = log(stage(risen=rises))
    row, moved = found.stages[0], found.movement
    assert row.tilt == pytest.approx(moved.plane.tilt)
    assert row.share == pytest.approx(max(pair.share for pair in moved.pairs))
    assert words_of(max(row.bent, row.tilted)) == moved.verdict


def test_a_log_without_neighbours_or_stages_is_refused():
    with pytest.raises(DomainError, match="number of stations"):
        lift_log(STATIONS[:1], [], [stage()], Entered(value=0.0, given=False), LIMITS)
    with pytest.raises(DomainError, match="number of stages"):
        log()


# ------------------------------------------------------------------------------------------ limits, targets, kinds


def allowances(num=as_float, **values):
    usual = {"movement_difference": 0.002, "movement_alarm": 0.001, "movement_stop": 0.002, "lift_stage": 0.1,
             "load_stop_house": 1.1, "breakaway": 0.005} | values  # fmt: skip
    return Allowances(**{f.name: num(usual.get(f.name, 1.0), f.metadata["unit"]) for f in fields(Allowances)})


def test_the_weakest_wall_sets_the_bend_and_the_prediction_the_load(demo):
    walls = [replace(wall, masonry="Brick masonry", mortar="cement 1:6") for wall in demo.survey.walls]
    strong = log_limits(replace(demo.survey, walls=tuple(walls)), 1500.0, 8.0, allowances())
    assert (strong.movement.difference, strong.load) == pytest.approx((0.002, 1650.0))
    walls[0] = replace(walls[0], mortar="lime")
    weak = log_limits(replace(demo.survey, walls=tuple(walls)), 1500.0, 8.0, allowances())
    assert (weak.movement.difference, weak.difference_alarm) == pytest.approx((0.001, 0.0005))


def test_stages_go_from_preload_to_the_whole_rise():
    rows = stage_targets(("1 Preload", "2 Breakaway", "3: 100 mm", "4: 200 mm", "5: 250 mm"), 0.25, allowances())
    assert [row.target for row in rows] == pytest.approx([0.0, 0.005, 0.1, 0.2, 0.25])
    assert [row.last for row in rows] == [0, 0, 0, 0, 1]


def test_every_figure_has_the_dimension_it_states(demo):
    stages = [stage("1", 0.1, as_quantity), stage("2", level(S2=0.098, S4=None), as_quantity)]
    found = log(*stages, num=as_quantity)
    assert wrong_dimensions(found) == []
    assert len(list(numbers_of(found))) > 300
    limits = log_limits(demo.survey, as_quantity(1500.0, "kN"), as_quantity(8.0, "m/s"), allowances(as_quantity))
    assert wrong_dimensions(limits) == []
    assert [w for row in stage_targets(("1", "2", "3"), as_quantity(0.1, "m"), allowances(as_quantity))
            for w in wrong_dimensions(row)] == []  # fmt: skip
    assert state_of(Entered(value=as_quantity(3.0, "m"), given=True), as_quantity(1, "m"), as_quantity(2, "m")) == 2


@pytest.mark.parametrize("num", KINDS[:2], ids=("floats", "traced"))
def test_the_verbs_of_the_log_give_plain_values_in_each_kind(num):
    numbers = [num(value, "m") for value in (0.5, 0.25, 4.0)]
    assert value_of(weighted_total(numbers, numbers)) == 0.25 + 0.0625 + 16
    assert value_of(picked(numbers, num(2, "No"))) == 0.25
    assert value_of(counted([num(1, "No") > 0, num(0, "No") > 0])) == 1


def test_the_states_are_those_of_the_records():
    assert set(STATES) <= {f.name for f in fields(log(stage()).stages[0])}
