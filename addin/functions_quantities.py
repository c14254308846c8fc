"""Worksheet functions for quantities and money: masonry, plaster, earth, steel, amounts, conversion, words.

Covers   volumes and areas by the rules of measurement, loose earth, weight of steel; quantity times rate, rounding to
         the smallest coin; what was typed with a unit as a number in another; an amount in words.
Not      any arithmetic: that is calc's. Lengths and areas from the grid are in functions_plan.
Rules    as in functions_loads.
"""

from collections.abc import Sequence
from typing import Any

from num2words import num2words

from addin import tables, units
from addin.arguments import (
    AREA,
    COIN,
    FACES,
    HEIGHT,
    LENGTH,
    MONEY,
    OPENINGS,
    QUANTITIES,
    THICKNESS,
    allowance,
    declared,
    named,
    number,
    text,
)
from addin.worksheet import VALUE, BadArgument
from calc.measure import (
    booked,
    brickwork_deduction,
    bulked,
    earth_volume,
    masonry_volume,
    plaster_area,
    plaster_deduction,
    spread_volume,
    steel_line,
)
from calc.number import rounded, total
from calc.prices import amount_of, to_coin


def net_masonry(length: float, thickness: float, height: float, openings: Sequence[float]) -> Any:
    """Masonry of a wall, each opening deducted by the rules; sizes in m and m2."""
    deducted = total([brickwork_deduction(area, allowance("brickwork_no_deduction")) for area in openings])
    return masonry_volume(length, thickness, height, deducted)


def net_plaster(length: float, height: float, faces: float, openings: Sequence[float]) -> Any:
    """Plaster of a wall, each opening deducted by the rules; sizes in m and m2."""
    limits = allowance("plaster_no_deduction"), allowance("plaster_one_face")
    deducted = total([plaster_deduction(area, faces, *limits) for area in openings])
    return plaster_area(length, height, faces, deducted)


def _earth(length: float, breadth: float, depth: float, deducted: Sequence[float]) -> Any:
    return earth_volume(length, breadth, depth, total(deducted))


_masses = named(((row.name, row.mass) for row in tables.sections()), "section")


def _steel(section: str, length: float, pieces: float) -> Any:
    return steel_line("", section, pieces, length, _masses(section)).quantity


def _converted(typed: str, unit: str) -> float:
    try:
        return units.read_number(typed, unit).value
    except units.NotUnderstood as reason:
        raise BadArgument(VALUE, "typed", str(reason)) from None
    except ValueError:
        raise BadArgument(VALUE, "in_unit", f"{unit} is no unit known here") from None


def _in_words(amount: float, grouping: str) -> str:
    """An amount in words, to two decimals; grouping `indian` counts in lakh and crore."""
    language = {"indian": "en_IN", "international": "en"}.get(grouping.casefold())
    if language is None:
        raise BadArgument(VALUE, "grouping", "grouping is neither indian nor international")
    shown = rounded(amount, 2)
    words: str = num2words(int(shown) if shown == int(shown) else shown, lang=language)
    return words


_DEPTH = number("depth_m", "m", "depth")
_LESS = number("deducted_m3", "m3", "volumes that are taken off, one cell each", takes="range")
_BULKING = number("bulking", "-", "loose over in the ground", allowance("bulking"), least=1)

MEASURED = (
    declared("PLINTH_MASONRY", QUANTITIES, "Masonry of a wall, openings deducted by the rules, m3", "m3", net_masonry,
             LENGTH, THICKNESS, HEIGHT, OPENINGS),
    declared("PLINTH_PLASTER", QUANTITIES, "Plaster of a wall, openings deducted by the rules, m2", "m2", net_plaster,
             LENGTH, HEIGHT, FACES, OPENINGS),
    declared("PLINTH_DIGGING", QUANTITIES, "Earth dug, as it lies in the ground, m3", "m3", _earth,
             LENGTH, number("width_m", "m", "width of the trench"), _DEPTH, _LESS),
    declared("PLINTH_LOOSE_EARTH", QUANTITIES, "Earth as it is carried off, m3", "m3", bulked,
             number("volume_m3", "m3", "as it lies in the ground"), _BULKING),
    declared("PLINTH_FILL", QUANTITIES, "Fill of a rectangular room, m3", "m3", _earth, LENGTH,
             number("breadth_m", "m", "breadth of the room"), number("depth_m", "m", "depth of fill"), _LESS),
    declared("PLINTH_FILL_OF_AREA", QUANTITIES, "Fill, gravel or concrete spread over an area, m3", "m3",
             spread_volume, AREA, number("depth_m", "m", "depth of the layer")),
    declared("PLINTH_BOOKED", QUANTITIES, "A dimension as it is booked, to the nearest 0.01 m", "m", booked, LENGTH),
    declared("PLINTH_STEEL", QUANTITIES, "Weight of rolled steel by section, to the nearest kilogram", "kg", _steel,
             text("section", "such as MB 250"), number("length_m", "m", "length of one piece"),
             number("pieces", "No", "pieces", 1)),
    declared("PLINTH_CONVERT", QUANTITIES, "What was typed with a unit, as a number in another unit", "", _converted,
             text("typed", "for example 10' 6\""), text("in_unit", "for example mm"), signed=True),
)  # fmt: skip

PRICED = (
    declared("PLINTH_AMOUNT", MONEY, "Quantity times rate, to the smallest coin", "money", amount_of,
             number("quantity", "", "quantity in the unit of the item"), number("rate", "money", "for one unit"), COIN),
    declared("PLINTH_TO_COIN", MONEY, "An amount rounded to the smallest coin", "money", to_coin,
             number("amount", "money", "the amount", least=None), COIN, signed=True),
    declared("PLINTH_IN_WORDS", MONEY, "An amount in words", "", _in_words, number("amount", "money", "the amount"),
             text("grouping", "indian (lakh, crore) or international", "indian")),
)  # fmt: skip
