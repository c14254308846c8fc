"""addin.units against published definitions; the arithmetic is left visible.

Sources  inch 25.4 mm, pound 0.45359237 kg (1959 international agreement), standard gravity 9.80665 m/s2 (CGPM 1901),
         US gallon 231 in3, imperial gallon 4.54609 litre: values from memory. Brass = 100 cft: common practice, no
         source.
"""

import math
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from addin import units
from addin.layout import JOB, TABLES
from addin.spellings import EXAMPLE, FAMILY
from addin.units import (
    DECIMAL,
    NotUnderstood,
    convert,
    factor,
    in_typed_unit,
    quantity,
    read_number,
    same_dimension,
)

EXACT = 1e-14  # a factor keeps 15 digits
FOOT = 0.3048  # m
GRAVITY = 9.80665  # m/s2
POUND_FORCE = 0.45359237 * GRAVITY  # N
PSI = POUND_FORCE / 25.4**2  # N/mm2
PSF = POUND_FORCE / FOOT**2 / 1000  # kN/m2
CUBIC_FOOT = FOOT**3  # m3

COLUMN_UNITS = sorted({column.unit for sheet in TABLES for column in sheet.columns} | {entry.unit for entry in JOB})

LENGTHS = [
    ("9 in", "mm", 228.6), ('9"', "mm", 228.6), ("9''", "mm", 228.6), ("9'", "mm", 9 * 304.8), ("2' ", "m", 0.6096),
    ("10' 6\"", "m", 10.5 * FOOT), ("10'-6\"", "m", 10.5 * FOOT), ("10' - 6\"", "m", 10.5 * FOOT),
    ("10 ft 6 in", "m", 10.5 * FOOT), ("10ft6in", "m", 10.5 * FOOT), ("10 FT. 6 IN.", "m", 10.5 * FOOT),
    ("10 feet 6 inches", "m", 10.5 * FOOT), ("10\u2032 6\u2033", "m", 10.5 * FOOT),
    ("10\u2019 6\u00bd\u201d", "m", 126.5 * 0.0254), ("10' 6 1/2\"", "m", 126.5 * 0.0254),
    ("10'-6-1/2\"", "m", 126.5 * 0.0254), ("10' 0.5\"", "m", 120.5 * 0.0254), ("-2' 6\"", "m", -2.5 * FOOT),
    ("6 1/2 in", "mm", 6.5 * 25.4), ('4 1/2"', "mm", 4.5 * 25.4), ('4\u00bd"', "mm", 4.5 * 25.4),
    ("\u00bc in", "mm", 6.35), ("6 \u00be in", "mm", 6.75 * 25.4), ("-\u00bd in", "mm", -12.7),
    ("230", "mm", 230), ("230 mm", "mm", 230), ("230mm", "mm", 230), ("0.23 m", "mm", 230), ("23 cm", "mm", 230),
    ("230 MM", "mm", 230), ("230 Mm", "mm", 230), ("3.2 M", "m", 3.2), ("3.2 mtr.", "m", 3.2), ("3 metre(s)", "m", 3),
    (".5", "m", 0.5), ("5.", "m", 5), ("+5", "m", 5), ("- 0.15", "m", -0.15), ("\u22120.15", "m", -0.15),
    ("230\u00a0mm", "mm", 230), ("\uff12\uff13\uff10\uff4d\uff4d", "mm", 230), ("\u0968\u0969\u0966 mm", "mm", 230),
    ("\u200b230\ufeff", "mm", 230), ("9 ft.", "m", 9 * FOOT), ("2 yd", "m", 1.8288), ("100 rft", "m", 30.48),
    ("1e3", "mm", 1000), ("1,250", "mm", 1250),
]  # fmt: skip
LOADS = [
    ("200 kN", "kN", 200), ("200 KN", "kN", 200), ("200 kn", "kN", 200), ("20 t", "kN", 20 * GRAVITY),
    ("20 T", "kN", 20 * GRAVITY), ("20 tonnes", "kN", 20 * GRAVITY), ("20 metric tons", "kN", 20 * GRAVITY),
    ("2 tf", "kN", 2 * GRAVITY), ("20 kg", "kN", 0.02 * GRAVITY), ("20 kgf", "kN", 0.02 * GRAVITY),
    ("100 lb", "kN", 0.1 * POUND_FORCE), ("100 lbs.", "kN", 0.1 * POUND_FORCE), ("3 kip", "kN", 3 * POUND_FORCE),
    ("1 short ton", "kN", 2 * POUND_FORCE), ("1 long ton", "kN", 2.24 * POUND_FORCE), ("2 MN", "kN", 2000),
    ("500 N", "kN", 0.5),
    ("58 t/m2", "kPa", 58 * GRAVITY), ("12 tf/m\u00b2", "kPa", 12 * GRAVITY), ("12 T / sq.m", "kPa", 12 * GRAVITY),
    ("12 kPa", "kPa", 12), ("12 KPA", "kPa", 12), ("12 kN/m2", "kPa", 12), ("12 kN/m^2", "kPa", 12),
    ("12 kN per sq m", "kPa", 12), ("1.2 kg/cm2", "kPa", 120 * GRAVITY / 10), ("1.2 ksc", "kPa", 12 * GRAVITY),
    ("2 ksf", "kPa", 2000 * PSF), ("100 psf", "kN/m2", 100 * PSF), ("100 lb/sqft", "kN/m2", 100 * PSF),
    ("100 psi", "N/mm2", 100 * PSI), ("3 ksi", "N/mm2", 3000 * PSI), ("20 N/mm2", "N/mm2", 20),
    ("20 MPa", "N/mm2", 20), ("20 mpa", "N/mm2", 20), ("0.2 MPa", "kPa", 200), ("1 bar", "kPa", 100),
    ("18 kN/m3", "kN/m3", 18), ("18 kN/cum", "kN/m3", 18), ("1800 kg/m\u00b3", "kN/m3", 1.8 * GRAVITY),
    ("110 pcf", "kN/m3", 0.11 * POUND_FORCE / CUBIC_FOOT), ("110 lb/cft", "kN/m3", 0.11 * POUND_FORCE / CUBIC_FOOT),
    ("15 kN/m", "kN/m", 15), ("1.5 t/m", "kN/m", 1.5 * GRAVITY), ("500 plf", "kN/m", 0.5 * POUND_FORCE / FOOT),
    ("2 klf", "kN/m", 2 * POUND_FORCE / FOOT), ("2 kip/ft", "kN/m", 2 * POUND_FORCE / FOOT),
    ("50 kg", "kg", 50), ("0.5 t", "kg", 500), ("10 lb", "kg", 4.5359237), ("2 quintals", "kg", 200),
]  # fmt: skip
OTHERS = [
    ("1,000 sqft", "m2", 92.90304), ("1000 sq ft", "m2", 92.90304), ("1000 sq. ft.", "m2", 92.90304),
    ("1000 sft", "m2", 92.90304), ("1000 square feet", "m2", 92.90304), ("1000 ft\u00b2", "m2", 92.90304),
    ("93 sqm", "m2", 93), ("4.5 cm2", "mm2", 450), ("2 sq in", "mm2", 1290.32), ("0.001 m2", "mm2", 1000),
    ("3 brass", "m3", 300 * CUBIC_FOOT), ("40 cft", "m3", 40 * CUBIC_FOOT), ("40 cu.ft.", "m3", 40 * CUBIC_FOOT),
    ("10 cum", "m3", 10), ("10 Cu.M.", "m3", 10), ("10 m\u00b3", "m3", 10), ("10 m3", "m3", 10),
    ("1000 l", "litre", 1000), ("1000 L", "litre", 1000), ("1000 litre(s)", "litre", 1000),
    ("1000 litres", "m3", 1), ("1 m3", "litre", 1000), ("1 kl", "litre", 1000),
    ("100 us gal", "litre", 100 * 231 * 25.4**3 / 1e6), ("100 imp gal", "litre", 454.609),
    ("100 imperial gallons", "litre", 454.609),
    ("15 %", "%", 15), ("15%", "%", 15), ("15\uff05", "%", 15), ("15 per cent", "%", 15), ("15 %", "-", 0.15),
    ("30", "deg", 30), ("30\u00b0", "deg", 30), ("30 degrees", "deg", 30), ("0.5 rad", "deg", math.degrees(0.5)),
    ("4 No.", "No", 4), ("4 nos", "No", 4), ("2 weeks", "day", 14), ("14 days", "day", 14), ("1998", "year", 1998),
    ("160 km/h", "m/s", 160 / 3.6), ("160 kmph", "m/s", 160 / 3.6), ("40 m/s", "m/s", 40),
    ("100 mph", "m/s", 44.704), ("1,00,000", "money", 100_000), ("12,34,567.50", "money", 1_234_567.5),
    ("1,234,567.5", "money", 1_234_567.5), ("150 per sqft", "money/m2", 150 / FOOT**2), ("150/m2", "money/m2", 150),
    ("150 money/m2", "money/m2", 150), ("70 / week", "money/day", 10), ("2.5", "", 2.5), ("1/2", "", 0.5),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "unit", "value"), LENGTHS + LOADS + OTHERS)
def test_every_spelling_is_read_in_the_unit_of_its_column(typed, unit, value):
    assert read_number(typed, unit).value == pytest.approx(value, rel=EXACT)


@pytest.mark.parametrize(
    ("typed", "unit", "value"),
    [("1 in", "mm", 25.4), ("9 in", "mm", 228.6), ("1 ft2", "m2", 0.09290304), ("1 tf", "kN", 9.80665),
     ("1 in", "m", 0.0254), ("100 mph", "m/s", 44.704)],
)  # fmt: skip
def test_short_definitions_come_out_to_the_last_bit(typed, unit, value):
    assert read_number(typed, unit).value == value


@pytest.mark.parametrize(
    ("typed", "unit", "found", "rule", "fix"),
    [
        ("3,15", "m", "comma", "decimal mark is a point", "Type 3.15."),
        ("0,23", "m", "comma", "decimal mark is a point", "Type 0.23."),
        ("0,230", "m", "comma", "decimal mark is a point", "Type 0.230."),
        ("-3,5 m", "m", "comma", "decimal mark is a point", "Type -3.5 m."),
        ("1.000,5", "m", "comma", "decimal mark is a point", "Type 1000.5."),
        ("1,00,00", "money", "comma", "1,00,000", "Type 1500."),
        ("10,00.5,0", "money", "comma", "1,00,000", "Type 1500."),
        ("2-3", "m", "a range", "one number", "Type one of them"),
        ("2 \u2013 3 m", "m", "a range", "one number", "Type one of them"),
        ("2 to 3", "m", "a range", "one number", "Type one of them"),
        ("2 m to 3 m", "m", "a range", "one number", "Type one of them"),
        ("2+3", "m", "a sum", "one number", "Work it out"),
        ("2*3", "m", "a sum", "one number", "Work it out"),
        ("2**3", "m", "a sum", "one number", "Work it out"),
        ("=2", "m", "a sum", "one number", "Work it out"),
        ("(2)", "m", "a sum", "one number", "Work it out"),
        ("1000/2000", "m", "a sum", "one number", "Work it out"),
        ("1_000", "mm", "a sum", "one number", "Work it out"),
        ("2 3", "m", "more than one number", "one number", "Type 3.2"),
        ("1 000 mm", "mm", "more than one number", "one number", "Type 230"),
        ("1 m 20 cm", "m", "more than one number", "one number", "Type 3.2"),
        ("10' 6", "m", "more than one number", "one number", "10' 6\""),
        ("3 m 2", "m2", "more than one number", "one number", "Type 93"),
        ("1.2.3", "m", "1.2.3", "only one number and its unit", "Type 3.2"),
        ("10\u00b2", "mm", "not a unit", "the column is a length in mm", "Type 230"),
        ("5/2", "m", "5/2", "a fraction must be less than one", "Type 3.2"),
        ("1/0", "m", "1/0", "a fraction must be less than one", "Type 3.2"),
        ("10' 14\"", "m", "10' 14\"", "less than 12", "Type 10' 6\""),
        ("__import__('os')", "m", "__import__", "a number is needed", "Type 3.2"),
        ("nan", "m", "nan", "a number is needed", "Type 3.2"),
        ("inf", "m", "inf", "a number is needed", "Type 3.2"),
        ("-Infinity", "m", "inf", "a number is needed", "Type 3.2"),
        ("", "m", "blank", "a number is needed", "Type 3.2"),
        (" \u00a0 ", "m", "blank", "a number is needed", "Type 3.2"),
        ("about two", "m", "about two", "a number is needed", "Type 3.2"),
        ("mm", "mm", "mm", "a number is needed", "Type 230"),
        ("1e309", "m", "1e309", "beyond anything", "Type 3.2"),
        ("-1e309", "m", "1e309", "beyond anything", "Type 3.2"),
        ("1e-400", "m", "1e-400", "beyond anything", "Type 3.2"),
        ("1e9999", "m", "1e9999", "", "Type 3.2"),
        ("9" * 500, "m", "...", "one number is shorter", "Type 3.2"),
        ("20 kN", "mm", "'20 kN', a force", "the column is a length in mm", "Type 230, or 9 in."),
        ("20 mm", "kN", "a length", "the column is a force in kN", "Type 200, or 20 t."),
        ("9'", "m2", "a length", "the column is an area in m2", "sqft"),
        ("10' 6\"", "kN", "a length", "the column is a force in kN", "Type 200"),
        ("5 kN/m", "kN", "a line load", "the column is a force in kN", "Type 200"),
        ("5 kg/m3", "kN/m2", "a unit weight", "the column is a pressure in kN/m2", "Type 2"),
        ("5 m", "money/m2", "a length", "the column is money per area in money/m2", "Type 1500"),
        ("20 kN", "kg", "a force", "the column is a mass in kg", "Type 50"),
        ("15 %", "deg", "a ratio", "the column is an angle in deg", "Type 30"),
        ("2 mm", "", "2 mm", "a number without a unit", "Type 2.5"),
        ("2 furlongs", "m", "'furlongs' is not a unit", "the column is a length in m", "Type 3.2"),
        ("2 furlongs", "", "'furlongs' is not a unit", "a number without a unit", "Type 2.5"),
        ("5 gallon", "litre", "5 gallon", "US one (3.785 litre)", "Type us gal or imp gal"),
        ("5 gal.", "m3", "5 gal.", "US one (3.785 litre)", "Type us gal or imp gal"),
        ("5 ton", "kN", "5 ton", "short (2000 lb)", "Type t for the metric tonne"),
        ("5 ton/sqft", "kPa", "5 ton/sqft", "short (2000 lb)", "Type t for the metric tonne"),
        ("25 mPa", "N/mm2", "25 mPa", "a thousandth", "Type MN or MPa"),
        ("25 mN", "kN", "25 mN", "a thousandth", "Type MN or MPa"),
        ("Rs 250", "money", "Rs 250", "only one number and its unit", "Type 1500"),
    ],
)
def test_what_is_not_one_number_is_refused_with_what_to_type(typed, unit, found, rule, fix):
    with pytest.raises(NotUnderstood) as caught:
        read_number(typed, unit)
    assert found.lower() in caught.value.found.lower()
    assert rule in caught.value.rule
    assert fix in caught.value.fix
    assert str(caught.value) == f"{caught.value.found}, but {caught.value.rule}. {caught.value.fix}"


@pytest.mark.parametrize("unit", sorted(set(COLUMN_UNITS) | set(FAMILY)))
def test_every_column_unit_is_known_and_its_own_example_is_read(unit):
    assert read_number("2", unit).value == 2.0
    for example in EXAMPLE.get(unit, "2.5").split(", or "):
        assert math.isfinite(read_number(example, unit).value)


@pytest.mark.parametrize("unit", [unit for unit in COLUMN_UNITS if unit])
def test_a_number_with_the_unit_of_the_column_is_that_number(unit):
    assert read_number(f"12.5 {unit}", unit).value == 12.5


def test_fifty_digits_are_a_number_that_only_the_limits_of_a_column_refuse():
    assert read_number("9" * 50, "m").value == pytest.approx(1e50)


def test_a_column_unit_nobody_defined_is_an_error_of_the_program():
    with pytest.raises(ValueError, match="furlong") as caught:
        read_number("2", "furlong")
    assert not isinstance(caught.value, NotUnderstood)


def outcome(typed, unit):
    """The number read, or the refusal; any other exception is a failure of the test."""
    try:
        return read_number(typed, unit)
    except NotUnderstood as refusal:
        return refusal


@given(typed=st.text(max_size=80), unit=st.sampled_from(COLUMN_UNITS))
def test_any_text_is_a_finite_number_or_is_refused_in_full_sentences(typed, unit):
    found = outcome(typed, unit)
    if isinstance(found, NotUnderstood):
        assert found.found
        assert found.rule
        assert found.fix.endswith(".")
    else:
        assert math.isfinite(found.value)


MEDLEY = [*"0123456789.,-+/'\"½² eE%°()*^", "ft", "in", "mm", "m", "kN", "t", "per", "sq", "gal", "1/2"]


@given(typed=st.lists(st.sampled_from(MEDLEY), max_size=9).map("".join), unit=st.sampled_from(COLUMN_UNITS))
def test_any_medley_of_digits_marks_and_units_is_a_finite_number_or_is_refused(typed, unit):
    found = outcome(typed, unit)
    if isinstance(found, NotUnderstood):
        assert found.fix.endswith(".")
    else:
        assert math.isfinite(found.value)
        # The spelling found is one that is read again, so that a limit can be restated in it.
        assert read_number(f"1 {found.unit_typed}", unit).unit_typed == found.unit_typed


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_a_plain_number_comes_back_to_the_last_bit(value):
    assert read_number(repr(value), "mm").value == value


@given(st.floats(min_value=1e-3, max_value=1e6), st.sampled_from(["in", "ft", "cm", "m", "yd"]))
def test_a_number_restated_in_the_unit_typed_is_the_number_typed(value, spelling):
    number = read_number(f"{value!r} {spelling}", "mm")
    assert number.unit_typed == spelling
    assert in_typed_unit(number.value, "mm", spelling) == pytest.approx(value, rel=EXACT)


def test_a_plain_number_is_restated_as_it_is():
    assert in_typed_unit(50.0, "mm", "") == 50.0


@pytest.mark.parametrize(
    ("value", "from_unit", "to_unit", "expected"),
    [
        (350, "mm", "m", 0.35), (230, "mm", "m", 0.23), (0.35, "m", "mm", 350), (15, "%", "-", 0.15),
        (450, "mm2", "m2", 0.00045), (1500, "litre", "m3", 1.5), (20, "N/mm2", "N/mm2", 20),
        (20, "N/mm2", "kN/m2", 20_000), (120, "kPa", "kN/m2", 120), (12, "No", "-", 12), (30, "deg", "deg", 30),
        (1000, "money/day", "money/day", 1000), (5, "kN m", "kN m", 5),
    ],
)  # fmt: skip
def test_column_units_become_calculation_units_to_the_last_bit(value, from_unit, to_unit, expected):
    assert convert(value, from_unit, to_unit) == expected


def test_a_month_is_a_twelfth_of_a_year():
    assert convert(365.25 / 12, "day", "month") == pytest.approx(1, rel=EXACT)
    assert convert(1, "month", "day") == 365.25 / 12


@given(st.floats(min_value=-1e6, max_value=1e6), st.sampled_from([("mm", "m"), ("litre", "m3"), ("N/mm2", "kN/m2")]))
def test_there_and_back_is_the_same_number(value, units):
    assert convert(convert(value, *units), *reversed(units)) == pytest.approx(value, rel=EXACT, abs=1e-300)


def test_a_factor_is_a_multiplier_and_a_divisor_for_live_formulas():
    assert factor("mm", "m") == (1.0, 1000.0)
    assert factor("N/mm2", "kN/m2") == (1000.0, 1.0)


@pytest.mark.parametrize(("from_unit", "to_unit"), [("mm", "kN"), ("kg", "kN"), ("money", "-"), ("kPa", "kN/m")])
def test_units_of_two_dimensions_are_not_converted(from_unit, to_unit):
    with pytest.raises(ValueError, match="dimensions differ"):
        convert(1.0, from_unit, to_unit)


@pytest.mark.parametrize("to_unit", ["m", "cubit"])
def test_a_unit_outside_the_project_is_not_converted(to_unit):
    with pytest.raises(ValueError, match="not a unit of this project"):
        convert(1.0, "cubit", to_unit)


@pytest.mark.parametrize(
    ("product", "unit", "other"),
    [
        (lambda: quantity(2.0, "kN/m2") * quantity(3.0, "m"), "kN/m", "kN"),
        (lambda: quantity(2.0, "kN") * quantity(3.0, "m"), "kN m", "kN"),
        (lambda: quantity(2.0, "kN/m3") * quantity(3.0, "m3"), "kN", "kg"),
        (lambda: quantity(2.0, "money/m2") * quantity(3.0, "m2"), "money", "-"),
        (lambda: quantity(2.0, "No") / quantity(3.0, "day"), "No/day", "day"),
        (lambda: quantity(20.0, "mm") / quantity(3.0, "m"), "-", "m"),
        (lambda: quantity(2.0, "m4") / quantity(3.0, "m"), "m3", "m2"),
        (lambda: 2.0, "No", "m"),
    ],
)
def test_dimensions_of_quantities_are_compared_with_a_field_unit(product, unit, other):
    assert same_dimension(product(), unit)
    assert not same_dimension(product(), other)


def test_plain_numbers_do_not_load_pint():
    program = "import sys; from addin.units import read_number; read_number('230', 'mm'); print('pint' in sys.modules)"
    root = Path(__file__).parents[2]
    run = subprocess.run([sys.executable, "-c", program], cwd=root, capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "False"


@pytest.mark.parametrize(("pair", "known"), DECIMAL.items())
def test_the_factors_kept_by_hand_are_those_of_the_units_library(pair, known):
    one, other = (units.quantity(1.0, unit) for unit in pair)
    assert float(one.to(other.units).magnitude) == pytest.approx(known[0] / known[1], rel=1e-15)
