"""Imposed load of sloping roofs against IS 875 (Part 2):1987 Table 2: value from memory, nobody here has the page.

The row: without access, over 10 degrees, 0.75 kN/m2 less 0.02 for each degree over 10, not less than 0.40 kN/m2.
"""

import pytest

from addin import tables
from calc.slabs import roof_imposed

ROW = {row.key: row.value for row in tables.allowances() if row.key.startswith("roof_")}
FLAT = next(row.imposed for row in tables.uses() if row.name == "Pitched roof")


@pytest.mark.parametrize(
    ("slope", "imposed"),
    [
        (10.0, 0.75),
        (15.0, 0.65),  # 0.75 - 0.02 x 5
        (20.0, 0.55),  # 0.75 - 0.02 x 10
        (27.5, 0.40),  # 0.75 - 0.02 x 17.5 is the least itself
        (30.0, 0.40),  # 0.75 - 0.02 x 20 = 0.35 is below the least
        (0.0, 0.75),
    ],
)
def test_a_sloping_roof_loses_0_02_kn_per_m2_a_degree_down_to_0_40(slope, imposed):
    found = roof_imposed(FLAT, slope, ROW["roof_slope_free"], ROW["roof_slope_fall"], ROW["roof_imposed_least"])
    assert found == pytest.approx(imposed, abs=1e-12)
