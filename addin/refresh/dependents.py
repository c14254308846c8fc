"""Which formulas of the user's change when our cells do.

Covers   formulas that look at our sheets or at single cells of ours, directly, by name, or through other formulas.
Not      what their results become (freshening).
Rules    Formulas of the user's that do not look at ours are never touched, whatever an engine would make of them.
"""

from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass

from openpyxl.formula.translate import Translator

from addin.refresh.cells import CellPiece, Place, Rect, SheetCells, address, cells_of, inside, rect
from addin.refresh.engine import Cell
from addin.refresh.references import Outline, Uses

_FEW = 64
"""Cells of a range that are noted one by one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Formula:
    """One formula of the user's."""

    text: str
    piece: CellPiece
    uses: Uses
    fills: Rect | None
    """The range it fills, if it is one for several cells."""


def formulas(sheets: Mapping[str, SheetCells], outline: Outline) -> dict[Cell, Formula]:
    """Every formula of the given sheets, those that share one written out."""
    found = {}
    for title, sheet in sheets.items():
        shared: dict[str, tuple[str, Place]] = {}
        for place, piece in sheet.cells.items():
            if piece.formula is None:
                continue
            text, kind = piece.formula.text, piece.formula.attributes.get("t", "normal")
            number = piece.formula.attributes.get("si", "")
            if kind == "shared" and text:
                shared[number] = text, place
            elif kind == "shared" and number in shared:
                first, origin = shared[number]
                moved = Translator(f"={first}", address(origin)).translate_formula(address(place))
                text = moved.removeprefix("=")
            fills = None
            if kind in ("array", "dataTable"):
                fills = rect(piece.formula.attributes.get("ref", address(place)))
            found[title, place] = Formula(text=text, piece=piece, uses=outline.uses(text, title), fills=fills)
    return found


class Dependents:
    """Who looks at whom."""

    def __init__(self, found: Mapping[Cell, Formula], grafted: Collection[Cell]) -> None:
        self._formulas, self._grafted = found, frozenset(grafted)
        self._by_cell: dict[Cell, list[Cell]] = defaultdict(list)
        self._by_area: dict[str, list[tuple[Rect, Cell]]] = defaultdict(list)
        for cell, formula in found.items():
            for area in formula.uses.areas:
                top, left, bottom, right = area.rect
                if (bottom - top + 1) * (right - left + 1) > _FEW:
                    self._by_area[area.sheet].append((area.rect, cell))
                    continue
                for place in cells_of(area.rect):
                    self._by_cell[area.sheet, place].append(cell)

    def changed(self, sees_change: Callable[[Uses], bool], moved: Callable[[Cell], bool]) -> dict[Cell, Formula]:
        """Every formula whose result may be another one now.

        Args:
            sees_change: whether a formula looks at something of ours that has changed
            moved: whether a cell of ours on a sheet of theirs has changed
        """
        first = [cell for cell, formula in self._formulas.items()
                 if cell not in self._grafted and sees_change(formula.uses)]  # fmt: skip
        for cell in self._grafted:
            if moved(cell):
                first += self._looking_at(cell)
        return self._spread(first)

    def untrusted(self, changed: Mapping[Cell, Formula], also: Iterable[Cell]) -> dict[Cell, Formula]:
        """Those of the changed formulas that the engine cannot work out, `also`, and all that look at such a one."""
        first = [cell for cell, formula in changed.items()
                 if formula.fills or formula.uses.anywhere or not formula.uses.trusted]  # fmt: skip
        return self._spread([*first, *also])

    def _spread(self, first: Iterable[Cell]) -> dict[Cell, Formula]:
        found: dict[Cell, Formula] = {}
        waiting = list(first)
        while waiting:
            cell = waiting.pop()
            if cell in found or cell in self._grafted:
                continue
            formula = found[cell] = self._formulas[cell]
            waiting += self._looking_at(cell)
            for place in cells_of(formula.fills) if formula.fills else ():
                waiting += self._looking_at((cell[0], place))
        return found

    def _looking_at(self, cell: Cell) -> list[Cell]:
        sheet, place = cell
        return [*self._by_cell.get(cell, ()), *(by for area, by in self._by_area.get(sheet, ()) if inside(place, area))]
