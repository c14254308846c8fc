"""Deduction rules of IS 1200 at their limits, and one wall worked through by them.

The rules: IS 1200 (Part 13):1994 cl. 3.1 and 3.2 were read in a scan of the page; Part 3 second hand, and the same in
the text of the CPWD masonry specification. Dimensions and rounding: text of IS 1200 (Part 4). The wall is our own.
"""

import pytest

from addin import tables
from calc.measure import booked, brickwork_deduction, line, plaster_deduction, reveal_run

EXACT = 1e-12  # the rules are arithmetic

SHIPPED = {row.key: row.value for row in tables.allowances()}


def plaster_off(area, faces=2):
    return plaster_deduction(area, faces, SHIPPED["plaster_no_deduction"], SHIPPED["plaster_one_face"])


def test_an_opening_of_exactly_half_a_square_metre_takes_nothing_off_the_plaster():
    assert plaster_off(0.5) == 0
    assert plaster_off(0.51) == 0.51


def test_an_opening_of_exactly_three_square_metres_takes_one_face_off_and_adds_no_reveal():
    assert plaster_off(3.0) == 3.0
    assert plaster_off(3.01) == pytest.approx(6.02, rel=EXACT)
    assert reveal_run(3.0, 7.0, SHIPPED["plaster_one_face"]) == 0
    assert reveal_run(3.01, 7.0, SHIPPED["plaster_one_face"]) == 7.0


def test_an_opening_of_exactly_a_tenth_of_a_square_metre_takes_nothing_off_the_brickwork():
    assert brickwork_deduction(0.1, SHIPPED["brickwork_no_deduction"]) == 0
    assert brickwork_deduction(0.11, SHIPPED["brickwork_no_deduction"]) == 0.11


def test_a_wall_of_5_by_3_m_with_three_openings_keeps_22_44_m2_of_plaster():
    # both faces 2 x 5 x 3 = 30.00; A 0.6 x 0.8 = 0.48: nothing; B 1.0 x 1.2 = 1.20: one face;
    # C, a door, 1.8 x 2.1 = 3.78: both faces 7.56, and jambs and soffit (2.1 + 2.1 + 1.8) x 0.20 = 1.20 added
    gross = line("R06", "wall", 2, 5.0, None, 3.0).quantity
    openings = [0.6 * 0.8, 1.0 * 1.2, 1.8 * 2.1]
    off = [plaster_off(area) for area in openings]
    assert off == pytest.approx([0.0, 1.2, 7.56], rel=EXACT)
    added = reveal_run(openings[2], 2.1 + 2.1 + 1.8, SHIPPED["plaster_one_face"]) * 0.20
    assert gross - sum(off) + added == pytest.approx(22.44, rel=EXACT)


def test_dimensions_go_to_a_centimetre_and_only_a_half_parts_from_the_standard():
    # IS 1200 rounds by IS 2:1960, a half to the even digit: 2.345 -> 2.34. A spreadsheet, and this project, say 2.35.
    assert booked(2.344) == 2.34
    assert booked(2.346) == 2.35
    assert booked(2.355) == 2.36  # both agree: the even digit is the upper one
    assert booked(2.345) == 2.35
