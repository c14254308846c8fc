"""Imposed loads against IS 875 (Part 2):1987, Table 1 (floors of dwellings) and Table 2 (roofs), kN/m2.

Values from memory, but the stores of hotels and hostels, which were read in a scan of Table 1. Verandahs have no row:
common practice, no source. Printed figures, so they must be met exactly.
"""

import pytest

from addin.tables import uses

IMPOSED = {use.name: use.imposed for use in uses()}

PRINTED = [
    ("Dwelling room", 2.0, "memory"),
    ("Kitchen", 2.0, "memory"),
    ("Bathroom", 2.0, "memory"),
    ("Corridor or stair", 3.0, "memory"),
    ("Balcony", 3.0, "memory"),
    ("Verandah", 3.0, "common practice"),
    ("Store", 5.0, "read"),
    ("Roof with access", 1.5, "memory"),
    ("Roof without access", 0.75, "memory"),
    ("Pitched roof", 0.75, "memory"),
    ("Nothing", 0.0, "common practice"),
]


@pytest.mark.parametrize(("name", "printed", "read"), PRINTED)
def test_each_use_brings_the_printed_load_and_says_how_it_is_known(name, printed, read):
    use = next(use for use in uses() if use.name == name)
    assert (use.imposed, use.read) == (printed, read)


def test_there_is_no_use_beyond_those_checked():
    assert [name for name, _, _ in PRINTED] == list(IMPOSED)
    assert sum(IMPOSED.values()) == 23.0


def test_dwellings_carry_no_less_than_the_neighbouring_codes_ask():
    # ASCE 7-16 Table 4.3-1, 40 psf for dwellings and roofs 20 psf; EN 1991-1-1 category A, 1.5: both from memory.
    kn_per_m2_per_psf = 4.4482216152605e-3 / 0.3048**2
    assert IMPOSED["Dwelling room"] >= 40 * kn_per_m2_per_psf
    assert IMPOSED["Roof with access"] >= 20 * kn_per_m2_per_psf
    assert IMPOSED["Dwelling room"] >= 1.5


def test_a_pitched_roof_starts_from_the_roof_without_access():
    # Table 2, from memory: 0.75 up to 10 degrees, reduced only beyond.
    assert IMPOSED["Pitched roof"] == IMPOSED["Roof without access"]
