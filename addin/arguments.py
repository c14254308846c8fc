"""The arguments that several worksheet functions share, and the figures of tables behind their defaults.

Covers   categories, declaring a function, arguments by their usual names, defaults from Job, Allowances and the
         published tables.
Not      the functions (functions_loads, functions_jacks, functions_quantities), how they are called (worksheet).
Units    stand in the argument names, as an estimator reads them in the function wizard.
Sources  the tables name theirs; defaults are those of the blank survey.
"""

from collections.abc import Callable, Iterable
from functools import cache
from typing import Any, Literal

from addin import tables, units
from addin.entries import folded
from addin.layout import JOB
from addin.worksheet import NOT_THERE, Argument, BadArgument, Function

LOADS, JACKS, QUANTITIES, MONEY = "Plinth loads", "Plinth jacks", "Plinth quantities", "Plinth money"


def declared(
    name: str, category: str, text: str, gives: str, act: Callable[..., Any], *arguments: Argument, signed: bool = False
) -> Function:
    """A worksheet function; the fields of Function in the order they read best."""
    return Function(name=name, category=category, help=text, gives=gives, act=act, arguments=arguments, signed=signed)


def number(
    name: str,
    unit: str,
    doc: str,
    default: float | None = None,
    *,
    least: float | None = 0.0,
    most: float | None = None,
    takes: Literal["cell", "range", "column"] = "cell",
    may_be_blank: bool = False,
) -> Argument:
    """A number argument."""
    return Argument(name=name, unit=unit, doc=doc, default=default, least=least, most=most, takes=takes,
                    may_be_blank=may_be_blank)  # fmt: skip


def text(
    name: str,
    doc: str,
    default: str | None = None,
    *,
    takes: Literal["cell", "range", "column"] = "cell",
    may_be_blank: bool = False,
) -> Argument:
    """A text argument."""
    return Argument(name=name, unit="", doc=doc, default=default, text=True, takes=takes, may_be_blank=may_be_blank)


# ---------------------------------------------------------------------------------------------- figures of tables


@cache
def allowance(key: str) -> float:
    """The value of an allowance as shipped, in its own unit."""
    return next(row.value for row in tables.allowances() if row.key == key)


def in_mm(key: str) -> float:
    """The value of an allowance that is a length, in mm."""
    over, under = units.factor("mm", "m")
    return allowance(key) * under / over


def material(name: str) -> float:
    """Unit weight of a material [kN/m3]."""
    return listed({row.name: row.unit_weight for row in tables.materials()}, name, "material")


def listed(figures: dict[str, float], name: str, argument: str) -> float:
    """The figure beside a name; capitals and the number of spaces make no difference.

    Raises:
        BadArgument: no such name; a cell shows #N/A, as a look-up does
    """
    found = _folded_keys(figures).get(folded(name))
    if found is None:
        raise BadArgument(NOT_THERE, argument, f"no {argument} is listed as {name}")
    return found


def _folded_keys(figures: dict[str, float]) -> dict[str, float]:
    return {folded(name): figure for name, figure in figures.items()}


def from_job(name: str, key: str, doc: str, *, most: bool = False, least: float | None = 0.0) -> Argument:
    """An argument that is an entry of Job: its unit, its default, and its upper limit where that is a matter of safety.

    Args:
        name: of the argument
        key: of the entry
        doc: what it is
        most: whether the entry's upper limit holds
        least: its lower limit, in the entry's unit
    """
    entry = next(column for column in JOB if column.key == key)
    default = entry.default if isinstance(entry.default, (int, float)) else None
    return number(name, entry.unit, doc, default, most=entry.most if most else None, least=least)


# ---------------------------------------------------------------------------------------------- shared arguments

LENGTH = number("length_m", "m", "length")
HEIGHT = number("height_m", "m", "height, floor to soffit")
THICKNESS = number("thickness_mm", "mm", "thickness without plaster", least=50, most=1200)
AREA = number("area_m2", "m2", "area on plan")
LOAD = number("load_kN", "kN", "load")
SLAB = number("slab_mm", "mm", "thickness of the slab", in_mm("slab_thickness"))
FINISH = number("finish_kN_m2", "kN/m2", "finish on the slab", allowance("finish_weight"))
CONCRETE = number("concrete_kN_m3", "kN/m3", "unit weight of the concrete", material("Reinforced concrete"))
SLOPE = number("slope_deg", "deg", "slope of the roof", allowance("roof_slope"), most=80)
MASONRY = number("unit_weight_kN_m3", "kN/m3", "unit weight of the masonry", material("Brick masonry"))
FACES = number("plastered_faces", "No", "plastered faces, 0 to 2", allowance("plastered_faces"), most=2)
OPENINGS = number("opening_areas_m2", "m2", "areas of the openings, one cell each", takes="range")
RISE = number("rise_m", "m", "rise of the house")
RATING = from_job("rating_kN", "jack_rating", "rating of a jack")
SHARE = from_job("share_percent", "share", "share of the rating used", most=True, least=5)
WIDEST = from_job("widest_m", "widest_spacing", "widest spacing of jacks")
COIN = from_job("coin", "smallest_coin", "smallest coin")
ROAD = number("road_m", "m", "road above ground, less than 0 where it is lower", least=None, may_be_blank=True)
FLOOD = number("flood_m", "m", "highest flood mark above ground", may_be_blank=True)
LINES = (
    text("line_names", "names of all grid lines, in the order of Grid", takes="column"),
    number("line_offsets_m", "m", "their offsets; a blank follows from the clear size", least=None, takes="column"),
    number("clear_m", "m", "clear sizes from the line before", takes="column", may_be_blank=True),
    number("line_walls_mm", "mm", "walls on the lines", takes="column", may_be_blank=True),
)


def named(figures: Iterable[tuple[str, float]], argument: str) -> Callable[[str], float]:
    """A look-up of a published figure by name."""
    by_name = dict(figures)
    return lambda name: listed(by_name, name, argument)
