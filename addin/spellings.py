"""The spellings of units that an estimator may type, as tables.

Covers   each column unit's family, the spellings of each family, what they are in pint's words, what is ambiguous.
Not      how an entry is taken apart and converted (units).
Units    spellings are matched in small letters: MM and mm, KN and kN, M and m are the same unit here.
Sources  as in units. Brass = 100 cft and the short forms (sft, cum, ksc, rmt): common practice, no source.
"""

from itertools import product

ATOMS = {
    "m": "meter", "mm": "millimeter", "cm": "centimeter", "kN": "kilonewton", "N": "newton", "kPa": "kilopascal",
    "deg": "degree", "rad": "radian", "%": "percent", "No": "dimensionless", "-": "dimensionless", "": "dimensionless",
    "1": "dimensionless", "litre": "liter", "day": "day", "month": "month", "year": "year", "h": "hour", "s": "second",
    "kg": "kilogram", "money": "money",
}  # fmt: skip
"""Each word of a column or field unit, in pint's words."""

OWN_UNITS = ("money = [money]", "brass = 100 * foot ** 3", "quintal = 100 * kilogram",
             "tonne_force = 1000 * kilogram_force")  # fmt: skip
"""Definitions that pint does not bring along."""

FAMILY = {
    "mm": "length", "cm": "length", "m": "length", "mm2": "area", "m2": "area", "m3": "volume", "litre": "volume",
    "kN": "force", "kPa": "pressure", "kN/m2": "pressure", "N/mm2": "pressure", "kN/m3": "unit weight",
    "kN/m": "line load", "kN m2": "bending stiffness", "mm/kN": "compliance", "deg": "angle", "%": "ratio",
    "-": "ratio", "No": "count", "day": "time", "month": "time",
    "year": "year", "m/s": "speed", "kg": "mass", "money": "money", "": "plain number",
}  # fmt: skip
"""The kind of number a column unit stands for; money/... is built in units from RATIOS."""

EXAMPLE = {
    "mm": "230, or 9 in", "cm": "23, or 9 in", "m": "3.2, or 10' 6\"", "mm2": "450, or 4.5 cm2",
    "m2": "93, or 1000 sqft", "m3": "8.5, or 3 brass", "litre": "1000, or 1 m3", "kN": "200, or 20 t",
    "kPa": "120, or 12 t/m2", "kN/m2": "2, or 200 kg/m2", "N/mm2": "20, or 20 MPa", "kN/m": "15, or 1.5 t/m",
    "kN/m3": "18, or 1800 kg/m3", "kN m2": "10300", "mm/kN": "0.1, or 1 mm/t",
    "deg": "30", "%": "15", "-": "0.15, or 15 %", "No": "4", "day": "14, or 2 weeks", "month": "6", "year": "1998",
    "m/s": "44, or 160 km/h", "kg": "50",
}  # fmt: skip
"""What may be typed in a column of each unit, as a message shows it."""


def _spell(table: dict[str, str]) -> dict[str, str]:
    """Spelling -> pint words, from pint words -> spellings with blanks between them."""
    return {spelling: words for words, spellings in table.items() for spelling in spellings.split()}


_LENGTH = _spell(
    {
        "millimeter": "mm millimetre millimetres millimeter millimeters",
        "centimeter": "cm cms centimetre centimetres centimeter centimeters",
        "meter": "m mtr mtrs metre metres meter meters",
        "kilometer": "km",
        "inch": "in inch inches",
        "foot": "ft feet foot",
        "yard": "yd yds yard yards",
    }
)
_FORCE_ONLY = {
    "newton": "n newton newtons", "kilonewton": "kn kilonewton kilonewtons", "meganewton": "mn",
    "kilogram_force": "kgf", "tonne_force": "tf", "force_pound": "lbf", "kip": "kip kips",
}  # fmt: skip
_MASS = _spell(
    {
        "gram": "g gm gms gram grams",
        "kilogram": "kg kgs kilo kilos kilogram kilograms",
        "quintal": "quintal quintals",
        "metric_ton": "t mt tonne tonnes metricton metrictons",
        "pound": "lb lbs pound pounds",
        "short_ton": "shortton shorttons uston ustons",
        "long_ton": "longton longtons imperialton imperialtons",
    }
)
# The weight of a mass stands beside the forces: a kg in a load column is a kilogram-force.
SPELLINGS: dict[str, dict[str, str]] = {
    # The pairs below put the words of a squared or cubed length together once, so sqft, ft2 and square feet agree.
    "length": _LENGTH | {"'": "foot", '"': "inch", "rft": "foot", "rm": "meter", "rmt": "meter"},
    "area": {at.format(s): f"{w} ** 2" for (s, w), at in product(_LENGTH.items(), ("{}2", "sq{}", "square{}"))}
    | {"sft": "foot ** 2"},
    "volume": {at.format(s): f"{w} ** 3" for (s, w), at in product(_LENGTH.items(), ("{}3", "cu{}", "cubic{}"))}
    | _spell({
        "foot ** 3": "cft", "brass": "brass brasses", "centimeter ** 3": "cc", "milliliter": "ml",
        "liter": "l lt ltr ltrs litre litres liter liters", "kiloliter": "kl",
        "gallon": "usgal usgals usgallon usgallons",
        "imperial_gallon": "impgal impgals impgallon impgallons imperialgallon imperialgallons ukgal ukgallons",
    }),
    "force": {spelling: f"{words} * standard_gravity" for spelling, words in _MASS.items()} | _spell(_FORCE_ONLY),
    "mass": _MASS,
    "pressure": _spell({
        "pascal": "pa", "kilopascal": "kpa", "megapascal": "mpa", "gigapascal": "gpa", "bar": "bar",
        "kilogram_force / centimeter ** 2": "ksc", "force_pound / foot ** 2": "psf", "kip / foot ** 2": "ksf",
        "force_pound / inch ** 2": "psi", "kip / inch ** 2": "ksi",
    }),
    "unit weight": _spell({"force_pound / foot ** 3": "pcf", "kip / foot ** 3": "kcf"}),
    "line load": _spell({"force_pound / foot": "plf", "kip / foot": "klf"}),
    "bending stiffness": _spell({
        "kilonewton * meter ** 2": "knm2", "newton * millimeter ** 2": "nmm2", "tonne_force * meter ** 2": "tm2 tfm2",
    }),
    "compliance": {},
    "angle": _spell({"degree": "deg degs degree degrees °", "radian": "rad radian radians"}),
    "ratio": _spell({"percent": "% percent pct"}),
    "count": _spell({"dimensionless": "no nos number numbers pc pcs piece pieces each ea"}),
    "time": _spell({"day": "day days d", "week": "week weeks wk wks", "month": "month months",
                    "year": "year years yr yrs"}),
    "year": _spell({"year": "year ad ce"}),
    "speed": _spell({
        "meter / second": "m/s mps", "kilometer / hour": "km/h km/hr kmh kmph kph", "mile / hour": "mph mi/h",
        "foot / second": "ft/s fps", "knot": "knot knots",
    }),
    "money": {"money": "money", "": "money"},
    "plain number": {},
}  # fmt: skip
"""For each family: spelling (small letters, no blanks, dots or ^) -> pint words."""

RATIOS = {
    "pressure": ("force", "area"),
    "unit weight": ("force", "volume"),
    "line load": ("force", "length"),
    "compliance": ("length", "force"),
} | {f"money per {under}": ("money", under) for under in ("length", "area", "volume", "force", "mass", "count", "time")}
"""Families that may also be spelled as one unit over another."""

_GALLON = ("a gallon may be the US one (3.785 litre) or the imperial one (4.546 litre)",
           "Type us gal or imp gal after the number, or type litres.")  # fmt: skip
_TON = ("a ton may be metric (1000 kg), short (2000 lb) or long (2240 lb)",
        "Type t for the metric tonne, or short ton, or long ton.")  # fmt: skip
AMBIGUOUS = dict.fromkeys(("gal", "gals", "gallon", "gallons"), _GALLON) | dict.fromkeys(("ton", "tons", "tsf"), _TON)
"""Spellings with two meanings: the rule broken and what to type instead."""
