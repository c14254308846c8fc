"""The only door between what an estimator types and the numbers of the calculation.

Covers   plain numbers, numbers with a unit, feet and inches, fractions, thousands and lakh commas; column unit to
         calculation unit; quantities with their dimension for the dimension tests.
Not      choices, names and dates (reader); limits of a column (layout). Cell text never reaches pint's parser: a
         spelling is looked up in the tables below, and only the table's own words are given to pint.
Signs    a leading minus is kept; the tables hold no sign.
Units    `unit` is a column's or a field's unit as in layout and calc.fields. A kg, lb or tonne typed in a load column
         is the weight of that mass, 9.80665 m/s2. A month is a twelfth of a year of 365.25 days.
Sources  inch, foot, yard, pound: 1959 international agreement (1 in = 25.4 mm exactly); standard gravity: CGPM 1901;
         gallons: 231 in3 and 4.54609 litre; all as defined in pint. Brass = 100 cft: common practice, no source.
"""

import math
import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Any

from addin.spellings import AMBIGUOUS, ATOMS, EXAMPLE, FAMILY, OWN_UNITS, RATIOS, SPELLINGS

if TYPE_CHECKING:
    import pint

_FAST = re.compile(r"-?[0-9]{1,15}(?:\.[0-9]{0,15})?").fullmatch
_PART = r"(?P<top>[0-9]{1,3})/(?P<bottom>[0-9]{1,3})(?![0-9])"
_PLAIN = r"(?:[0-9][0-9,]*(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3}(?![0-9]))?"
_ONE = re.compile(
    rf"(?P<sign>[+-]?) ?(?:(?:(?P<whole>[0-9]{{1,6}}) )?{_PART}|(?P<plain>{_PLAIN}))"
    r" ?(?P<unit>(?:[^\W\d_]|[%°'\"/]).*)?",
).fullmatch
_FEET_INCHES = re.compile(
    rf"(?P<sign>[+-]?) ?(?P<feet>[0-9][0-9,]*) ?(?:'|ft\.?|feet|foot) ?-? ?"
    rf"(?:(?:(?P<whole>[0-9]{{1,2}})[ -])?{_PART}|(?P<plain>[0-9]{{1,2}}(?:\.[0-9]*)?)) ?(?:\"|in\.?|inch|inches)",
    re.IGNORECASE,
).fullmatch
# A group never starts with 0: 0,230 is a decimal comma and not two hundred and thirty.
_GROUPED = re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+|[1-9][0-9]?(?:,[0-9]{2})*,[0-9]{3}").fullmatch
_LONGEST = 60
"""Characters of an entry that is still read; a longer one is no measurement."""

_QUOTES = "\u2019\u2018\u201b\u2032\u00b4`\u02b9\u02bc"
_DOUBLE_QUOTES = "\u2033\u201d\u201c\u201f\u02dd\u02ba"
_DASHES = "\u2212\u2010\u2011\u2012\u2013\u2014"
_FOLD = str.maketrans(
    dict.fromkeys(_QUOTES, "'") | dict.fromkeys(_DOUBLE_QUOTES, '"') | dict.fromkeys(_DASHES, "-")
    | {"\u00ba": "\u00b0", "\u2044": "/"}
    | {c: " " + unicodedata.normalize("NFKC", c).replace("\u2044", "/") for c in "½¼¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"}
    | {chr(code): chr(code - 0xFEE0) for code in range(0xFF01, 0xFF5F)}  # full-width ! to ~
)  # fmt: skip


class NotUnderstood(ValueError):  # noqa: N818 - the trade's words; it is an answer to the estimator, not a crash
    """An entry that is not one number of the column's kind.

    `found` and `rule` are clauses and `fix` a sentence, as in addin.problems.Problem.
    """

    def __init__(self, found: str, rule: str, fix: str) -> None:
        super().__init__(found, rule, fix)
        self.found, self.rule, self.fix = found, rule, fix

    def __str__(self) -> str:
        return f"{self.found}, but {self.rule}. {self.fix}"


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedNumber:
    """A number as read: in the column's unit, with the spelling of the unit it was typed in."""

    value: float
    """In the column's unit."""
    unit_typed: str
    """"" for a plain number; "ft" for feet and inches together."""


def read_number(typed: str, unit: str) -> TypedNumber:
    """The number in `typed`, in the column's `unit`.

    Args:
        typed: what stands in the cell
        unit: the column's unit, e.g. "mm", "kN/m2", "money/day", "" for a column without one

    Raises:
        NotUnderstood: not exactly one finite number of the column's kind
        ValueError: `unit` is no column unit (an error of the program, not of the estimator)

    >>> read_number('9"', "mm")
    TypedNumber(value=228.6, unit_typed='"')
    >>> read_number("1,00,000", "money").value
    100000.0
    """
    family = _family(unit)
    if _FAST(typed):
        return TypedNumber(value=float(typed), unit_typed="")
    text = _folded(typed)
    if len(text) > _LONGEST:
        raise NotUnderstood(_shown(text), "one number is shorter than that", _type(unit))
    if match := _FEET_INCHES(text):
        value = 12 * _plain(match["feet"], text, unit) + _inches(match, text, unit)
        spelling, one = "ft", _factor_typed("ft", text, unit, family) / 12
    elif match := _ONE(text):
        value, spelling = _amount(match, text, unit), _spelling(match["unit"] or "", text, unit)
        one = _factor_typed(spelling, text, unit, family) if spelling else Fraction(1)
    else:
        raise _refusal(text, unit)
    if match["sign"] == "-":
        value = -value
    return TypedNumber(value=_finite(value * one, text, unit), unit_typed=spelling)


def in_typed_unit(value: float, unit: str, unit_typed: str) -> float:
    """A number of the column restated in the unit that the estimator typed, for limits in messages.

    Args:
        value: a number [`unit`]
        unit: the column's unit
        unit_typed: as found in a TypedNumber of that column

    >>> in_typed_unit(50.8, "mm", "in")
    2.0
    """
    if not unit_typed:
        return value
    return float(Fraction(value) / _factor_typed(unit_typed, unit_typed, unit, _family(unit)))


def convert(value: float, from_unit: str, to_unit: str) -> float:
    """`value` in `from_unit`, as a number in `to_unit`; both as used in layout and calc.fields.

    Args:
        value: a number [`from_unit`]
        from_unit: unit of `value`
        to_unit: unit wanted, of the same dimension

    Raises:
        ValueError: an unknown unit, or two units of different dimension

    >>> convert(350, "mm", "m"), convert(15, "%", "-"), convert(1000, "litre", "m3")
    (0.35, 0.15, 1.0)
    """
    over, under = factor(from_unit, to_unit)
    return value * over / under


DECIMAL = {
    ("mm", "m"): (1.0, 1000.0), ("%", "-"): (1.0, 100.0), ("litre", "m3"): (1.0, 1000.0), ("kPa", "kN/m2"): (1.0, 1.0),
}  # fmt: skip
"""Factors every survey needs, so that one without typed units does not wait for the units library; a test compares."""


@cache
def factor(from_unit: str, to_unit: str) -> tuple[float, float]:
    """Multiplier and divisor from `from_unit` to `to_unit`: mm to m is (1, 1000), so that 350/1000 is 0.35 to the bit.

    Raises:
        ValueError: an unknown unit, or two units of different dimension
    """
    if (from_unit, to_unit) in DECIMAL:
        return DECIMAL[from_unit, to_unit]
    words = _words(from_unit)
    exact = Fraction(1) if from_unit == to_unit else _ratio(words, to_unit)
    return float(exact.numerator), float(exact.denominator)


def quantity(value: float, unit: str) -> "pint.Quantity[Any]":
    """`value` as a pint quantity of the one registry, for the dimension tests.

    Args:
        value: a number [`unit`]
        unit: as in calc.fields: "kN/m2", "kN m", "No", "-", "money" ...
    """
    return _registry().Quantity(value, _words(unit))


def same_dimension(number: Any, unit: str) -> bool:
    """Whether a quantity, or a bare number, has the dimension of `unit`. Angles and ratios are alike to it.

    >>> same_dimension(quantity(2.0, "kN/m2") * quantity(3.0, "m"), "kN/m")
    True
    """
    return bool(_registry().Quantity(number).dimensionality == _registry().Unit(_words(unit)).dimensionality)


@cache
def _registry() -> "pint.UnitRegistry[Any]":
    # Imported here: half a second that a survey of plain numbers does not wait for.
    import pint

    registry: pint.UnitRegistry[Any] = pint.UnitRegistry(on_redefinition="raise")
    for line in OWN_UNITS:
        registry.define(line)
    return registry


@cache
def _words(unit: str) -> str:
    """A column or field unit in pint's words: "kN m/m2" -> "kilonewton * meter / meter ** 2"."""
    parts = []
    for part in unit.split("/"):
        atoms = [re.fullmatch(r"(.*?)([2-4]?)", atom) for atom in part.split(" ")]
        if not all(atom and atom[1] in ATOMS for atom in atoms):
            raise ValueError(f"{unit!r} is not a unit of this project")
        parts.append(" * ".join(f"{ATOMS[atom[1]]} ** {atom[2] or 1}" for atom in atoms if atom))
    return f"({') / ('.join(parts)})"


@cache
def _ratio(words: str, unit: str) -> Fraction:
    """One `words` in `unit`, exact where the definition has no more than 15 digits."""
    registry = _registry()
    asked, wanted = registry.Unit(words), registry.Unit(_words(unit))
    if asked.dimensionality != wanted.dimensionality:
        raise ValueError(f"{words} cannot be given in {unit or 'a plain number'}: the dimensions differ")
    # pint multiplies floats and leaves noise in the 16th digit (1 ft2 = 0.09290303999999999); 15 digits restore
    # the published figure.
    return Fraction(f"{registry.Quantity(1.0, asked).m_as(wanted):.15g}")


@cache
def _family(unit: str) -> str:
    """The kind of number a column unit stands for: "length", "pressure", "money per area" ..."""
    money, slash, under = unit.partition("/")
    family = f"money per {FAMILY.get(under)}" if slash and money == "money" else FAMILY.get(unit, "")
    if family not in SPELLINGS and family not in RATIOS:
        raise ValueError(f"{unit!r} is not a unit that a column can have")
    return family


def _looked_up(spelling: str, family: str) -> str | None:
    """The pint words for a spelling in a family, or None."""
    if spelling in SPELLINGS.get(family, {}):
        return SPELLINGS[family][spelling]
    above, slash, below = spelling.partition("/")
    if slash and family in RATIOS:
        over, under = (SPELLINGS[name] for name in RATIOS[family])
        if above in over and below in under:
            return f"({over[above]}) / ({under[below]})"
    return None


def _factor_typed(spelling: str, text: str, unit: str, family: str) -> Fraction:
    """One of the typed unit in the column's unit, or NotUnderstood naming what the unit is."""
    words = _looked_up(spelling, family)
    if words is not None:
        return _ratio(words, unit)
    for part in spelling.split("/"):
        if part in AMBIGUOUS:
            raise NotUnderstood(_shown(text), *AMBIGUOUS[part])
    others = [name for name in SPELLINGS if _looked_up(spelling, name)]
    if others:
        raise NotUnderstood(f"{_shown(text)}, {_a(others[0])}", _column(unit), _type(unit))
    raise NotUnderstood(f"{_shown(text)}, and '{spelling}' is not a unit known here", _column(unit), _type(unit))


def _folded(typed: str) -> str:
    """`typed` in plain characters: one kind of prime, minus, blank and digit; fractions as 1/2; m² as m2."""
    text = "".join(c for c in typed if unicodedata.category(c) not in ("Cf", "Cc") or c.isspace())
    # A power only after a letter: 10² must not be read as 102.
    text = re.sub(r"(?<=[A-Za-z])[²³]", lambda power: "2" if power[0] == "²" else "3", text.translate(_FOLD))
    text = re.sub(r"\d", lambda digit: str(unicodedata.decimal(digit[0])), text)
    return " ".join(text.replace("''", '"').split())


def _spelling(unit_text: str, text: str, unit: str) -> str:
    """The typed unit as the tables spell it: small letters, no blanks, dots or ^, `per` as a stroke."""
    if re.match(r"m(?:N|Pa)(?![A-Za-z])", unit_text):
        raise NotUnderstood(_shown(text), "a small m before N or Pa is a thousandth", "Type MN or MPa, or kN or kPa.")
    plain = re.sub(r"\bper\b", "/", unit_text.lower().replace("per cent", "percent")).replace("(s)", "s")
    if re.search(r"(?<![a-z^])[0-9]", plain):
        raise _refusal(text, unit)
    return re.sub(r"[ .^]", "", plain)


def _amount(match: re.Match[str], text: str, unit: str) -> Fraction:
    """The number of a match: plain, or a whole number and a proper fraction."""
    if match["plain"]:
        return _plain(match["plain"], text, unit)
    top, bottom = int(match["top"]), int(match["bottom"])
    if not 0 < top < bottom:
        raise NotUnderstood(_shown(text), "a fraction must be less than one, like 1/2", _type(unit))
    return int(match["whole"] or 0) + Fraction(top, bottom)


def _inches(match: re.Match[str], text: str, unit: str) -> Fraction:
    inches = _amount(match, text, unit)
    if inches >= 12:
        raise NotUnderstood(_shown(text), "the inches beside feet must be less than 12", "Type 10' 6\", or 126 in.")
    return inches


def _plain(number: str, text: str, unit: str) -> Fraction:
    """A number whose commas, if any, part thousands (1,000) or lakhs (1,00,000)."""
    if "," in number and not _GROUPED(re.split(r"[.eE]", number)[0]):
        raise _decimal_comma(text, unit)
    return Fraction(number.replace(",", ""))


def _finite(value: Fraction, text: str, unit: str) -> float:
    try:
        result = float(value)
    except OverflowError:
        result = math.inf
    # A figure too small for a float would be read as 0, which is an answer.
    if math.isinf(result) or (result == 0) != (value == 0):
        raise NotUnderstood(_shown(text), "the number is beyond anything that can be measured", _type(unit))
    return result


def _refusal(text: str, unit: str) -> NotUnderstood:
    """What is wrong with a text that is not one number and perhaps a unit."""
    digits = re.findall(r"[0-9][0-9.,]*", text)
    if not text:
        return NotUnderstood("blank", "a number is needed", _type(unit))
    if not digits:
        return NotUnderstood(_shown(text), "a number is needed", _type(unit))
    if re.search(r"[0-9]\.[0-9]*,[0-9]|(?:^|[^0-9]),[0-9]", text):
        return _decimal_comma(text, unit)
    if re.search(r"[=*()_^&<>]|[0-9] ?\+|/.*[0-9]", text):
        return NotUnderstood(f"{_shown(text)}, a sum to work out", "one number is needed",
                             f"Work it out and type the result, {_type(unit, 'e.g. ')}")  # fmt: skip
    if re.search(r"[0-9][^0-9]*(?:-|~|\bto\b)[^0-9]*[0-9]", text):
        return NotUnderstood(f"{_shown(text)}, a range", "one number is needed", f"Type one of them. {_type(unit)}")
    if len(digits) > 1:
        return NotUnderstood(f"{_shown(text)}, more than one number", "one number is needed", _type(unit))
    return NotUnderstood(_shown(text), "only one number and its unit are understood", _type(unit))


def _decimal_comma(text: str, unit: str) -> NotUnderstood:
    found = f"{_shown(text)}, with a comma that does not part thousands"
    rule = "the decimal mark is a point, and commas stand as in 1,000 or 1,00,000"
    meant = re.fullmatch(r"([+-]?)([0-9.]*),([0-9]+)(.*)", text)
    if meant and "," not in meant[4]:
        return NotUnderstood(found, rule, f"Type {meant[1]}{meant[2].replace('.', '') or '0'}.{meant[3]}{meant[4]}.")
    return NotUnderstood(found, rule, _type(unit))


def _shown(text: str) -> str:
    """The entry in quotes, cut to what a message can carry."""
    return f"'{text}'" if len(text) <= 40 else f"'{text[:37]}...'"


def _column(unit: str) -> str:
    return f"the column is {_a(_family(unit))} in {unit}" if unit else "the column takes a number without a unit"


def _a(family: str) -> str:
    """The family with its article: an area, a unit weight, money per area."""
    return family if family.startswith("money") else f"{'an' if family[0] in 'aeio' else 'a'} {family}"


def _type(unit: str, lead: str = "Type ") -> str:
    return f"{lead}{EXAMPLE.get(unit, '1500' if unit.startswith('money') else '2.5')}."
