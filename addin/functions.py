"""The worksheet functions: each one a name, its arguments in the units of the sheet, and calc's function behind it.

Covers   load and stress of a wall, slab share, first jack answer, base side, footing pressure, masonry, plaster,
         digging and fill, amounts, unit conversion, amount in words.
Not      any arithmetic: that is calc's. How arguments are read and failures shown is addin/worksheet's.
Rules    names begin with PLINTH_ and look like no cell; units stand in the argument names.
"""

from collections.abc import Callable, Sequence
from typing import Any

from num2words import num2words

from addin import tables, units
from addin.worksheet import VALUE, Argument, BadArgument, Function, call
from calc.bases import pad_side
from calc.ground import footing_pressure
from calc.jacks import even_spacing, jack_count, jacks_by_load, jacks_by_spacing, usable_load
from calc.measure import brickwork_deduction, earth_volume, masonry_volume, plaster_area, plaster_deduction
from calc.number import total
from calc.prices import amount_of
from calc.slabs import two_way_share
from calc.walls import net_wall_weight, surface_weight, wall_stress

LOADS, JACKS, QUANTITIES, MONEY = "Plinth loads", "Plinth jacks", "Plinth quantities", "Plinth money"


def _allowance(key: str) -> float:
    return next(row.value for row in tables.allowances() if row.key == key)


def _material(name: str) -> float:
    return next(row.unit_weight for row in tables.materials() if row.name == name)


def _wall_weight(length: float, height: float, thickness: float, openings: float, weight: float, faces: float) -> Any:
    surface = surface_weight(thickness, weight, faces, _allowance("plaster_thickness"), _material("Cement plaster"))
    return net_wall_weight(length, height, openings, surface)


def _jacks(load: float, length: float, rating: float, share: float, widest: float) -> Any:
    by_spacing = jacks_by_spacing(length, _allowance("end_distance"), widest)
    by_load = jacks_by_load(load, usable_load(rating, share))
    return jack_count(load, by_load, by_spacing, _allowance("fewest_jacks"))


def _masonry(length: float, thickness: float, height: float, openings: Sequence[float]) -> Any:
    deducted = total([brickwork_deduction(area, _allowance("brickwork_no_deduction")) for area in openings])
    return masonry_volume(length, thickness, height, deducted)


def _plaster(length: float, height: float, faces: float, openings: Sequence[float]) -> Any:
    limits = _allowance("plaster_no_deduction"), _allowance("plaster_one_face")
    deducted = total([plaster_deduction(area, faces, *limits) for area in openings])
    return plaster_area(length, height, faces, deducted)


def _converted(typed: str, unit: str) -> float:
    try:
        return units.read_number(typed, unit).value
    except units.NotUnderstood as reason:
        raise BadArgument(VALUE, "typed", str(reason)) from None
    except ValueError:
        raise BadArgument(VALUE, "unit", f"{unit} is no unit known here") from None


def _in_words(amount: float, grouping: str) -> str:
    """Whole currency units in words; grouping `indian` counts in lakh and crore."""
    language = {"indian": "en_IN", "international": "en"}.get(grouping.casefold())
    if language is None:
        raise BadArgument(VALUE, "grouping", "grouping is neither indian nor international")
    words: str = num2words(round(amount), lang=language)
    return words


def _arg(name: str, unit: str, doc: str, default: float | None = None, **more: bool) -> Argument:
    return Argument(name=name, unit=unit, doc=doc, default=default, **more)


LENGTH = _arg("length_m", "m", "length")
HEIGHT = _arg("height_m", "m", "height, floor to soffit")
THICKNESS = _arg("thickness_mm", "mm", "thickness without plaster")
OPENINGS = _arg("opening_areas_m2", "m2", "areas of the openings, one cell each", whole_range=True)
FACES = _arg("plastered_faces", "No", "plastered faces, 0 to 2", 2)


def _declared(
    name: str, category: str, text: str, gives: str, act: Callable[..., Any], *arguments: Argument
) -> Function:
    return Function(name=name, category=category, help=text, arguments=arguments, gives=gives, act=act)


FUNCTIONS: dict[str, Function] = {
    function.name: function
    for function in (
        _declared("PLINTH_WALL_WEIGHT", LOADS, "Weight of a plastered wall net of its openings, kN", "kN", _wall_weight,
                  LENGTH, HEIGHT, THICKNESS, _arg("openings_m2", "m2", "area of all openings", 0),
                  _arg("unit_weight_kN_m3", "kN/m3", "unit weight of the masonry", _material("Brick masonry")), FACES),
        _declared("PLINTH_SLAB_SHARE", LOADS, "Area of a rectangular slab that one side carries, m2", "m2",
                  two_way_share, _arg("side_m", "m", "length of that side"),
                  _arg("other_m", "m", "length of the sides at right angles to it")),
        _declared("PLINTH_WALL_STRESS", LOADS, "Stress on a wall section, kPa", "kPa", wall_stress,
                  _arg("load_kN", "kN", "load on the wall"), LENGTH, THICKNESS),
        _declared("PLINTH_FOOTING_PRESSURE", LOADS, "Pressure under a strip footing, kPa", "kPa", footing_pressure,
                  _arg("line_load_kN_m", "kN/m", "all load along the wall, footing included"),
                  _arg("width_m", "m", "width of the footing")),
        _declared("PLINTH_JACKS", JACKS, "Jacks under a wall by load and spacing: a count, not a plan", "No", _jacks,
                  _arg("load_kN", "kN", "load in the lift"), LENGTH, _arg("rating_kN", "kN", "rating of a jack", 200),
                  _arg("share_percent", "%", "share of the rating used", 40),
                  _arg("widest_m", "m", "widest spacing", 1.2)),
        _declared("PLINTH_JACK_SPACING", JACKS, "Spacing of that many jacks, evenly set, m", "m",
                  lambda length, count: even_spacing(length, _allowance("end_distance"), count), LENGTH,
                  _arg("count", "No", "number of jacks")),
        _declared("PLINTH_BASE_SIDE", JACKS, "Side of a square jack base, m", "m",
                  lambda load, allowable: pad_side(load, allowable, _allowance("base_step")),
                  _arg("load_kN", "kN", "load the base is made for"),
                  _arg("allowable_kPa", "kPa", "safe bearing pressure")),
        _declared("PLINTH_MASONRY", QUANTITIES, "Masonry of a wall, openings deducted by the rules, m3", "m3", _masonry,
                  LENGTH, THICKNESS, HEIGHT, OPENINGS),
        _declared("PLINTH_PLASTER", QUANTITIES, "Plaster of a wall, openings deducted by the rules, m2", "m2", _plaster,
                  LENGTH, HEIGHT, FACES, OPENINGS),
        _declared("PLINTH_DIGGING", QUANTITIES, "Earth dug, as it lies in the ground, m3", "m3", earth_volume,
                  LENGTH, _arg("width_m", "m", "width of the trench"), _arg("depth_m", "m", "depth")),
        _declared("PLINTH_FILL", QUANTITIES, "Fill of a room, m3", "m3", earth_volume, LENGTH,
                  _arg("breadth_m", "m", "breadth of the room"), _arg("depth_m", "m", "depth of fill")),
        _declared("PLINTH_AMOUNT", MONEY, "Quantity times rate, to the smallest coin", "money", amount_of,
                  _arg("quantity", "", "quantity in the unit of the item"), _arg("rate", "money", "for one unit"),
                  _arg("coin", "money", "smallest coin", 1)),
        _declared("PLINTH_CONVERT", QUANTITIES, "What was typed with a unit, as a number in another unit", "",
                  _converted, _arg("typed", "", "for example 10' 6\"", text=True),
                  _arg("unit", "", "for example mm", text=True)),
        _declared("PLINTH_IN_WORDS", MONEY, "An amount in words, whole units", "", _in_words,
                  _arg("amount", "money", "the amount"),
                  _arg("grouping", "", "indian or international", text=True)),
    )
}  # fmt: skip
"""Every worksheet function by name."""


def worksheet(name: str, *values: Any) -> Any:
    """Call a worksheet function as a cell does.

    >>> round(worksheet("PLINTH_BASE_SIDE", 33.902, 120), 2)
    0.55
    >>> worksheet("PLINTH_BASE_SIDE", "#N/A", 120)
    '#N/A'
    """
    return call(FUNCTIONS[name], *values)
