"""Crib capacities and timber across the grain against rescue manuals and codes, in printed pounds, psi and N/mm2.

Cribs    Rescue Systems 1, ch. 30, California State Fire Training, 2000, read: 4 x 4 in cribs, 2 and 3 members a layer.
         6 x 6 in cribs second-hand from the same trade's articles. They round to what 500 psi (value from memory) gives
         on the dressed size of 3.5 and 5.5 in, to the nearest 1000 lb a contact or so: tolerance 3 %.
Timber   IS 883 and NDS stresses, values from memory, as typed here.
"""

import pytest

from calc.cribs import contact_area, crib_capacity
from tests.members import PACKING, TIMBER

INCH = 0.0254  # m
POUND = 0.0044482216  # kN
PSI = 6.894757  # kN/m2
DRESSED = {4: 3.5, 6: 5.5}  # in
MANUAL_STRESS = 500 * PSI


@pytest.mark.parametrize(
    ("nominal", "per_layer", "printed_pounds"),
    [
        pytest.param(4, 2, 24_000, id="4x4-two"),
        pytest.param(4, 3, 55_000, id="4x4-three"),
        pytest.param(6, 2, 60_000, id="6x6-two, second hand"),
        pytest.param(6, 3, 136_000, id="6x6-three, second hand"),
    ],
)
def test_a_crib_carries_what_the_manual_prints(nominal, per_layer, printed_pounds):
    capacity = crib_capacity(contact_area(DRESSED[nominal] * INCH, per_layer), MANUAL_STRESS)
    assert capacity == pytest.approx(printed_pounds * POUND, rel=0.03)


def test_the_height_limit_of_box_cribs_is_three_times_the_shortest_base():
    # Second-hand, an article on box cribs: 4 x 4 x 24 in cribs to 6 ft.
    assert PACKING.crib_braced * 24 * INCH == pytest.approx(72 * INCH)


def test_tails_are_as_long_as_a_member_is_wide():
    # Rescue Systems 1, ch. 30, read: tails extend approximately its dimension.
    assert PACKING.crib_tail == 1


@pytest.mark.parametrize(
    ("name", "printed_psi"),
    [("Douglas fir-larch", 625), ("Southern pine", 565), ("Hem-fir", 405), ("Spruce-pine-fir", 425)],
)
def test_american_timber_has_the_remembered_stress(name, printed_psi):
    # NDS, psi, from memory; the table holds whole kN/m2.
    assert TIMBER[name].crushing == pytest.approx(printed_psi * PSI, abs=0.5)
    assert TIMBER[name].read == "memory"


@pytest.mark.parametrize(("group", "printed"), [("A", 4.0), ("B", 2.5), ("C", 1.1)])
def test_indian_timber_has_the_remembered_stress(group, printed):
    # IS 883, N/mm2, from memory.
    assert TIMBER[f"Structural timber group {group}, inside"].crushing == pytest.approx(printed * 1000)


def test_packing_of_unknown_kind_stays_far_below_the_manuals_500_psi():
    unknown = [timber.crushing for name, timber in TIMBER.items() if "unknown kind" in name]
    assert unknown == [1000, 1500]  # common practice: 1.0 to 1.5 N/mm2 used and wet
    assert max(unknown) < MANUAL_STRESS / 2


def test_the_table_of_timbers_has_its_count_and_sum():
    assert len(TIMBER) == 9
    assert sum(timber.crushing for timber in TIMBER.values()) == 24027
