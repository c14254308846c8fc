"""Worksheet functions that read the survey's own ranges: lengths, areas and openings from grid lines and names.

Covers   length between two grid points, area of a room from its corners or outline, openings of one wall, masonry and
         plaster net of them.
Not      any arithmetic: that is calc's. What cuts a length short where walls meet is left to the estimate.
Rules    a grid line without offset follows from the line before, as in the survey; a bad size on Grid or Openings
         spoils the walls and rooms that rest on it and no others. Only a bad name spoils all: it might be any of them.
"""

import re
from collections.abc import Sequence
from typing import Any

from addin.arguments import FACES, HEIGHT, LENGTH, LINES, QUANTITIES, THICKNESS, declared, number, text
from addin.entries import Refused, check_name, folded, split_point
from addin.functions_quantities import net_masonry, net_plaster
from addin.worksheet import NOT_THERE, VALUE, BadArgument, taken
from calc.outlines import Point, check_outline, polygon_area
from calc.walls import half_wall, line_length, line_offset, opening_area


class _Grid:
    """Grid lines as a survey gives them, each looked at only when it is needed."""

    def __init__(self, names: Sequence[Any], *columns: Sequence[Any]) -> None:
        self.names = [_line_name(name) for name in names]
        # A column that was left out arrives as one blank.
        full = [[None] * len(names) if list(column) == [None] else list(column) for column in columns]
        if any(len(column) != len(names) for column in full):
            raise BadArgument(VALUE, "line_offsets_m", "the ranges of the grid lines are of different length")
        self.offsets, self.clears, self.walls = full

    def place(self, point: str) -> Point:
        """Where a grid point lies."""
        try:
            letter, number_ = split_point(point)
        except ValueError:
            reason = f"{point} is no grid point, such as B3"
            raise BadArgument(VALUE, "", reason) from None
        return self._offset_of(letter), self._offset_of(number_)

    def _offset_of(self, name: str) -> float:
        if folded(name) not in self.names:
            raise BadArgument(NOT_THERE, "line_names", f"there is no grid line {name}")
        return self._offset(self.names.index(folded(name)))

    def _offset(self, at: int) -> float:
        own = taken(self.offsets[at])
        if own is not None:
            return float(own)
        lettered = self.names[at][0].isalpha()
        before = [i for i in range(at) if self.names[i] and self.names[i][0].isalpha() == lettered]
        if not before:
            return 0.0
        clear = taken(self.clears[at])
        if clear is None:
            reason = f"grid line {self.names[at].upper()} has neither an offset nor a clear size"
            raise BadArgument(VALUE, "line_offsets_m", reason)
        offset: Any = line_offset(self._offset(before[-1]), self._half(before[-1]), clear, self._half(at))
        return float(offset)

    def _half(self, at: int) -> Any:
        return half_wall(taken(self.walls[at]) or 0.0)


def _line_name(cell: Any) -> str:
    """A line's name as it is compared; empty where the row holds no line, as the grey examples do."""
    try:
        return folded(check_name(str(taken(cell)), "Grid")) if cell is not None else ""
    except Refused:
        return ""


def _wall_length(start: str, end: str, *lines: Sequence[Any]) -> Any:
    grid = _Grid(*lines)
    return line_length(*grid.place(start), *grid.place(end))


def _room_area(corner: str | None, opposite: str | None, outline: str | None, *lines: Sequence[Any]) -> Any:
    grid = _Grid(*lines)
    if outline:
        places = [grid.place(part) for part in re.split(r"[\s,;-]+", outline) if part]
    elif corner and opposite:
        (x, y), (far_x, far_y) = grid.place(corner), grid.place(opposite)
        places = [(x, y), (far_x, y), (far_x, far_y), (x, far_y)]
    else:
        raise BadArgument(VALUE, "corner", "a room needs two corners or an outline")
    check_outline(places)
    return polygon_area(places)


def _openings(wall: str, walls: Sequence[Any], widths: Sequence[Any], heights: Sequence[Any]) -> tuple[Any, ...]:
    """Areas of the openings of one wall, one of 0 where it has none, so that the result can stand in any formula."""
    if not len(walls) == len(widths) == len(heights):
        raise BadArgument(VALUE, "widths_m", "the ranges of the openings are of different length")
    own = [at for at, name in enumerate(walls) if name is not None and folded(taken(name)) == folded(wall)]
    blank = BadArgument(VALUE, "widths_m", f"an opening of {wall} has no width or no height")
    sizes = [(taken(widths[at]), taken(heights[at])) for at in own]
    if any(None in size for size in sizes):
        raise blank
    return tuple(opening_area(*size) for size in sizes) or (0.0,)


def _wall_masonry(length: float, thickness: float, height: float, *openings: Any) -> Any:
    return net_masonry(length, thickness, height, _openings(*openings))


def _wall_plaster(length: float, height: float, faces: float, *openings: Any) -> Any:
    return net_plaster(length, height, faces, _openings(*openings))


# A function that gives a row may be cut to its first cell inside another one, so these take the ranges themselves.
_OF_WALL = (
    text("wall", "name of the wall"),
    text("opening_walls", "walls of all openings", takes="column"),
    number("widths_m", "m", "their clear widths", takes="column"),
    number("heights_m", "m", "their clear heights", takes="column"),
)

PLAN = (
    declared("PLINTH_WALL_LENGTH", QUANTITIES, "Length between two grid points on centre lines, m", "m", _wall_length,
             text("from_point", "grid point where the wall begins, such as A1"),
             text("to_point", "grid point where it ends, such as C1"), *LINES),
    declared("PLINTH_ROOM_AREA", QUANTITIES, "Area of a room on centre lines, from two corners or its outline, m2",
             "m2", _room_area, text("corner", "grid point; blank where an outline is given", may_be_blank=True),
             text("opposite_corner", "grid point; blank where an outline is given", may_be_blank=True),
             text("outline", "grid points in order, such as A1 B1 B2 A2", may_be_blank=True), *LINES),
    declared("PLINTH_OPENINGS", QUANTITIES, "Areas of the openings of one wall, side by side, m2", "m2", _openings,
             *_OF_WALL),
    declared("PLINTH_WALL_MASONRY", QUANTITIES, "Masonry of a named wall, its openings deducted by the rules, m3", "m3",
             _wall_masonry, LENGTH, THICKNESS, HEIGHT, *_OF_WALL),
    declared("PLINTH_WALL_PLASTER", QUANTITIES, "Plaster of a named wall, its openings deducted by the rules, m2", "m2",
             _wall_plaster, LENGTH, HEIGHT, FACES, *_OF_WALL),
)  # fmt: skip
