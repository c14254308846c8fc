"""The worksheet functions: each one a name, its arguments in the units of the sheet, and calc's function behind it.

Covers   the list of all of them, and calling one as a cell does.
Not      what they are (functions_loads and the other families), how arguments are read and failures shown
         (worksheet), the spreadsheet program (addin/excel).
"""

from typing import Any

from addin.functions_beams import BEAMS, ON_JACKS
from addin.functions_house import HOUSE
from addin.functions_jacks import BASES, COUNTS, LEVELS
from addin.functions_lifting import CONCRETE_BASES, STROKES, TIMBER
from addin.functions_loads import FIGURES, GROUND, SLABS, WALLS
from addin.functions_plan import PLAN
from addin.functions_quantities import MEASURED, PRICED
from addin.worksheet import Function, call

FAMILIES = (WALLS, SLABS, FIGURES, GROUND, COUNTS, ON_JACKS, BEAMS, TIMBER, BASES, CONCRETE_BASES, STROKES, LEVELS,
            PLAN, MEASURED, PRICED, HOUSE)  # fmt: skip

FUNCTIONS: dict[str, Function] = {function.name: function for family in FAMILIES for function in family}
"""Every worksheet function by name."""


def worksheet(name: str, *values: Any) -> Any:
    """Call a worksheet function as a cell does.

    >>> round(worksheet("PLINTH_BASE_SIDE", 33.902, 120), 2)
    0.55
    >>> worksheet("PLINTH_BASE_SIDE", "#N/A", 120)
    '#N/A'
    """
    return call(FUNCTIONS[name], *values)
