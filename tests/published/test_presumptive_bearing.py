"""Presumed safe bearing pressures against IS 1904:1986, kN/m2, as printed in Venkatramaiah, Geotechnical Engineering.

Table 14.1, p. 544, was read for the rocks, the cohesionless soils and the first cohesive row; the other clays are
second-hand from three lists that agree with it. Black cotton soil is second-hand from the National Building Code of
India 1983. 1 kN/m2 is 1 kPa: printed figures, met exactly.
"""

import pytest

from addin.tables import soils

PRINTED = [
    ("Hard rock (granite, trap, diorite)", 3240, "read"),
    ("Laminated rock, sound", 1620, "read"),
    ("Broken bed rock or hard shale", 880, "read"),
    ("Soft rock", 440, "read"),
    ("Gravel or sand and gravel, compact", 440, "read"),
    ("Coarse sand, compact and dry", 440, "read"),
    ("Medium sand, compact and dry", 245, "read"),
    ("Fine sand or silt", 150, "read"),
    ("Loose gravel or loose coarse to medium sand, dry", 245, "read"),
    ("Fine sand, loose and dry", 100, "read"),
    ("Soft shale or hard or stiff clay, dry", 440, "read"),
    ("Medium clay, indented by a thumb nail", 245, "second hand"),
    ("Moist clay or sand and clay, indented by strong thumb pressure", 150, "second hand"),
    ("Soft clay, indented by moderate thumb pressure", 100, "second hand"),
    ("Very soft clay", 50, "second hand"),
]

# The same fifteen rows as later tables round them (second-hand).
ROUNDED = (3300, 1650, 900, 450, 450, 450, 250, 150, 250, 100, 450, 250, 150, 100, 50)


@pytest.mark.parametrize(("name", "printed", "read"), PRINTED)
def test_each_soil_has_the_printed_pressure_and_says_how_it_is_known(name, printed, read):
    soil = next(soil for soil in soils() if soil.name == name)
    assert (soil.bearing, soil.read) == (printed, read)


def test_the_list_is_the_1986_one_and_nowhere_above_the_later_rounding():
    bearing = [soil.bearing for soil in soils()][: len(ROUNDED)]
    assert sum(bearing) == sum(printed for _, printed, _ in PRINTED) == 8785
    for pressure, later in zip(bearing, ROUNDED, strict=True):
        assert 0.97 * later < pressure <= later


def test_black_cotton_soil_takes_the_lower_end_of_its_range_and_closes_the_list():
    *_, last = soils()
    assert (last.name, last.bearing) == ("Black cotton soil, dry", 130)  # printed 130-160, dry state
    assert len(soils()) == len(PRINTED) + 1


def test_pressures_step_down_from_rock_to_soft_clay_within_each_kind():
    bearing = [soil.bearing for soil in soils()]
    for start, end in ((0, 4), (4, 8), (10, 15)):
        assert bearing[start:end] == sorted(bearing[start:end], reverse=True)
