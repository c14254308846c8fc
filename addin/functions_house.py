"""Worksheet functions that work a whole survey through, sheet by sheet as it is typed.

Covers   the state of the survey; loads, jacks, bases and pressures by wall; quantities and amounts by item.
Not      how the sheets are read and worked through (house), what a single wall gives (functions_loads and its like).
Rules    they count and weigh, and place no jack: nothing they show is for lifting. A survey with faults gives an error
         and keeps the first fault as its reason.
"""

from collections.abc import Callable
from typing import Any

from addin.arguments import LOADS, MONEY, declared
from addin.guard import CannotRead
from addin.house import answer
from addin.layout import SURVEY_TITLES
from addin.worksheet import NOT_THERE, Argument, BadArgument

SHEETS = tuple(
    Argument(name=title.lower(), unit="", doc=f"the sheet {title}, from A1 on", takes="sheet")
    for title in SURVEY_TITLES
)
"""One argument for each survey sheet; each is known by its first cell, so their order does not matter."""


def _asked(what: str) -> Callable[..., list[list[Any]]]:
    def act(*sheets: Any) -> list[list[Any]]:
        try:
            return answer(what, [sheet for sheet in sheets if sheet is not None])
        except CannotRead as reason:
            raise BadArgument(NOT_THERE, "", str(reason)) from None

    return act


_WALLS = (
    "Each wall: load in the lift (kN), greatest (kN/m), jacks by load, by spacing and counted, their spacing (m), base "
    "side (m), pressure after (kPa). Not a jack plan"
)

HOUSE = (
    declared("PLINTH_HOUSE_STATE", LOADS, "Whether the survey in these sheets can be worked through, in words", "",
             _asked("state"), *SHEETS),
    declared("PLINTH_HOUSE_WALLS", LOADS, _WALLS, "", _asked("walls"), *SHEETS),
    declared("PLINTH_HOUSE_ITEMS", MONEY, "Each item of work: code, quantity, rate, amount", "", _asked("items"),
             *SHEETS),
)  # fmt: skip
