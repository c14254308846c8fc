"""Checks and the release gate: what they say where a careless answer would be unsafe."""

from dataclasses import replace

import pytest

from addin.estimating import Worked, item_texts
from addin.kinds import Floats
from addin.surveying import build_allowances
from calc.checks import CORRECT, STOP, check
from calc.estimate import estimate, prepare
from calc.survey import Attached, Entered, Footing
from tests.houses import RULES


@pytest.fixture
def again(demo: Worked):
    """Run the demo again with parts of its survey replaced."""

    def run(job=None, **parts):
        allowances = build_allowances(demo.rows, Floats())
        survey = replace(demo.survey, **parts)
        if job:
            survey = replace(survey, job=replace(survey.job, **job))
        return estimate(survey, prepare(survey, allowances), allowances, item_texts(), RULES)

    return run


def told(found, name, where=None):
    return [row.verdict for row in found.checks if row.name.startswith(name) and where in (None, row.where)]


def missing(found):
    return {row.what for row in found.release.requirements if row.answer == "missing"}


def test_a_demand_equal_to_its_capacity_passes_and_a_hair_more_does_not():
    def one(demand):
        return check(name="n", state="s", where_="w", demand=demand, capacity=0.3, unit="m", source="x")

    assert one(0.1 + 0.2).verdict == "within the limits set"
    assert (one(0.3001).verdict, one(0.3001).stops) == (STOP, 1)


def test_a_trench_below_the_footing_is_a_stop(again, demo):
    shallow = tuple(replace(f, depth=0.2) for f in demo.survey.footings)
    assert isinstance(shallow[0], Footing)
    assert STOP in told(again(footings=shallow), "Trench no deeper")
    assert STOP not in told(demo.found, "Trench no deeper")


def test_a_heavy_thing_on_a_short_length_is_a_stop_though_the_mean_is_within_limits(again, demo):
    heavy = Attached(
        name="Safe", kind="other", on="W1", from_start=Entered(value=1.0, given=True),
        length=Entered(value=0.3, given=True), thickness=0.1, size=0.1, weight=Entered(value=300.0, given=True),
        water=0.0, material="Reinforced concrete", support="none",
    )  # fmt: skip
    found = again(attached=(*demo.survey.attached, heavy))
    assert told(found, "Heaviest stretch", "W1") == [STOP]
    assert told(found, "Mean load of one jack", "W1") == ["within the limits set"]


def test_the_footing_of_a_pillar_is_checked_in_each_state(again):
    found = again(job={"bearing": Entered(value=20.0, given=True)})
    assert told(found, "Pressure under the footing", "P2") == [STOP] * 3


def test_jacks_closer_than_the_closest_spacing_are_a_stop(again):
    assert STOP in told(again(job={"jack_rating": 20.0, "closest_spacing": 1.0}), "Room between")


def test_bases_wider_than_the_spacing_are_to_be_corrected(again):
    assert CORRECT in told(again(job={"bearing": Entered(value=20.0, given=True)}), "Jack bases side by side")


def test_new_masonry_is_no_thinner_than_the_wall_on_it(again, demo):
    thick = tuple(replace(w, thickness=0.45) for w in demo.survey.walls)
    rows = {row.name: row for row in again(walls=thick).pressures}
    assert rows["W1"].new_thickness == 0.45


@pytest.mark.parametrize(
    ("job", "what"),
    [
        ({"engineer": "unknown"}, "Engineer's name and licence"),
        ({"licence": "?"}, "Engineer's name and licence"),
        ({"instrument": "water tube"}, "Levelling instrument"),
        ({"condition": "poor"}, "Condition sound or fair"),
        ({"reason": "basement below"}, "No storey or basement below"),
    ],
)
def test_an_answer_that_is_none_holds_the_release(again, job, what):
    assert what in missing(again(job=job))


def test_flooding_without_a_flood_mark_holds_the_release(again, demo):
    dry = tuple(r for r in demo.survey.readings if r.what != "flood mark")
    assert "Levels that the reason calls for" in missing(again(readings=dry))
    assert "Levels that the reason calls for" not in missing(demo.found)


def test_mud_and_live_cracks_hold_the_release(again, demo):
    muddy = (replace(demo.survey.walls[0], mortar="mud"), *demo.survey.walls[1:])
    assert "Walls built with mud" in missing(again(walls=muddy))
    quiet = tuple(replace(c, live="old") for c in demo.survey.cracks)
    assert "Cracks that are live or not known to be old" not in missing(again(cracks=quiet))
    assert "Cracks that are live or not known to be old" in missing(demo.found)


def test_nothing_is_ever_released_by_this_estimate(again, demo):
    answered = {
        "bearing": Entered(value=300.0, given=True), "bearing_from": "test", "empty": "yes", "beams_known": "yes",
        "beams_left_in": "no", "engineer": "A", "licence": "B", "release_date": Entered(value=1.0, given=True),
        "neighbours": "given", "instrument": "rod and rule at every jack with optical level", "condition": "sound",
        "transfer_age": Entered(value=14.0, given=True), "cut_level": Entered(value=-0.15, given=True),
    }  # fmt: skip
    walls = tuple(replace(w, system="beam through wall", stands_on="new pad", side="free", mortar="cement 1:6")
                  for w in demo.survey.walls)  # fmt: skip
    found = again(job=answered, walls=walls, cracks=())
    assert found.release.grade == "budget"
    assert "Walls, columns and settlement checked by the engineer" in missing(found)
