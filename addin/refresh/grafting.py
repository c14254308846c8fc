"""Single cells of the made workbook put into a sheet that stays the user's.

Covers   value, formula and result of a cell, in a cell that is there or in a new one; rows that are missing; a formula
         that other cells share.
Not      which cells (the caller), looks of cells that are there: they stay as the user set them.
Rules    Every byte of the sheet that is not one of those cells stays. A cell that already says the same is left alone.
         A cell that cannot be written without breaking its neighbours is refused, with its address.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from openpyxl.formula.translate import Translator
from openpyxl.utils.cell import coordinate_to_tuple

from addin.refresh.cells import (
    CellPiece,
    Change,
    Piece,
    Place,
    SheetCells,
    address,
    applied,
    element,
    inside,
    rect,
    retagged,
    start_tag,
)
from addin.refresh.package import CannotRefresh


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """What a cell says, whatever it looks like."""

    formula: str = ""
    kind: str = "n"
    """n, b, e, or str for a text."""
    value: str = ""


class Graft:
    """One sheet of the user's that gets cells from the made sheet of the same title."""

    def __init__(self, title: str, theirs: bytes, made: SheetCells, texts: Sequence[str]) -> None:
        self._title, self._made, self._texts = title, made, texts
        self._sheet = SheetCells.of(theirs)
        self._changes: list[Change] = []
        self._new: dict[int, dict[int, bytes]] = {}

    def content(self, cells: Collection[str], looks: Mapping[str, int]) -> bytes:
        """The sheet with `cells` from the made sheet.

        Args:
            cells: their addresses
            looks: look of each of them in the user's list, for a cell that is new

        Raises:
            CannotRefresh: a cell is merged into another or filled by a formula beside it
        """
        for cell in sorted(cells, key=coordinate_to_tuple):
            place = coordinate_to_tuple(cell)
            wanted = content_of(self._made.cells.get(place), ())
            if wanted == content_of(self._sheet.cells.get(place), self._texts):
                continue
            self._check(place)
            if place in self._sheet.cells:
                self._replace(place, wanted, cells)
            else:
                attributes = {"r": cell, **({"s": str(looks[cell])} if looks.get(cell) else {})}
                self._new.setdefault(place[0], {})[place[1]] = self._written(attributes, wanted)
        self._insert()
        return applied(self._sheet.data, self._changes)

    def _check(self, place: Place) -> None:
        where = f"{self._title}!{address(place)}"
        for area in self._sheet.merged:
            if inside(place, area) and place != area[:2]:
                raise CannotRefresh(f"{where} is merged with {address(area[:2])}, and plinthbook writes there: undo "
                                    "the merging, then refresh.")  # fmt: skip
        for master, cell in self._sheet.cells.items():
            formula = cell.formula
            if formula is None or formula.attributes.get("t") not in ("array", "dataTable"):
                continue
            area = rect(formula.attributes.get("ref", address(master)))
            if inside(place, area) and area != (*place, *place):
                raise CannotRefresh(f"{where} is filled by the formula in {address(master)}, and plinthbook writes "
                                    "there: move that formula, then refresh.")  # fmt: skip

    def _replace(self, place: Place, wanted: Content, cells: Collection[str]) -> None:
        cell, data = self._sheet.cells[place], self._sheet.data
        self._hand_on(place, cell, cells)
        tag = data[cell.start : cell.inside]
        if cell.empty(data):
            tag = tag[:-2].rstrip() + b">"
        kind = {"t": _kind(wanted), "cm": None, "vm": None}
        written = retagged(tag, kind) + self._inner(wanted) + b"</%sc>" % self._sheet.prefix
        self._changes.append(Change(cell.start, cell.end, written))

    def _hand_on(self, place: Place, cell: CellPiece, cells: Collection[str]) -> None:
        """Where others share the formula that goes, each of them gets it written out for itself."""
        formula = cell.formula
        if formula is None or formula.attributes.get("t") != "shared" or not formula.text:
            return
        number = formula.attributes.get("si", "")
        for other, piece in self._sheet.cells.items():
            shared = piece.formula
            if shared is None or shared is formula or shared.attributes.get("t") != "shared" or shared.text:
                continue
            if shared.attributes.get("si", "") == number and not self._goes(other, cells):
                own = Translator(f"={formula.text}", address(place)).translate_formula(address(other))
                written = element(self._sheet.prefix, "f", own.removeprefix("="))
                self._changes.append(Change(shared.start, shared.end, written))

    def _goes(self, place: Place, cells: Collection[str]) -> bool:
        """Whether a cell is itself overwritten."""
        cell = address(place)
        wanted = content_of(self._made.cells.get(place), ())
        return cell in cells and wanted != content_of(self._sheet.cells[place], self._texts)

    def _insert(self) -> None:
        """New cells at their places in their rows, new rows at theirs."""
        sheet = self._sheet.sheet_data
        if sheet is None:
            raise CannotRefresh(f"The sheet {self._title} has no cells to write into.")
        rows = {number: b"".join(cells[column] for column in sorted(cells))
                for number, cells in sorted(self._new.items()) if number not in self._sheet.rows}  # fmt: skip
        new_rows: list[tuple[int, bytes]] = [
            (self._before_row(number), start_tag(self._sheet.prefix, "row", {"r": str(number)}) + written
             + b"</%srow>" % self._sheet.prefix)
            for number, written in rows.items()
        ]  # fmt: skip
        if new_rows and sheet.empty(self._sheet.data):
            self._fill(sheet, "sheetData", b"".join(written for _, written in new_rows))
        else:
            self._changes += [Change(at, at, written) for at, written in new_rows]
        for number, cells in self._new.items():
            if number in self._sheet.rows:
                self._insert_cells(number, cells)
        self._widen()

    def _insert_cells(self, number: int, cells: Mapping[int, bytes]) -> None:
        row, data = self._sheet.rows[number], self._sheet.data
        if row.empty(data):
            self._fill(row, "row", b"".join(cells[column] for column in sorted(cells)))
            return
        there = sorted((column, cell.start) for (r, column), cell in self._sheet.cells.items() if r == number)
        last = data.rindex(b"<", row.inside, row.end)
        for column in sorted(cells):
            at = next((start for other, start in there if other > column), last)
            self._changes.append(Change(at, at, cells[column]))
        spans = row.attributes.get("spans", "").split(":")
        if len(spans) == 2 and all(span.isdecimal() for span in spans):
            wide = f"{min(int(spans[0]), *cells)}:{max(int(spans[1]), *cells)}"
            if wide != ":".join(spans):
                tag = retagged(data[row.start : row.inside], {"spans": wide})
                self._changes.append(Change(row.start, row.inside, tag))

    def _fill(self, piece: Piece, name: str, content: bytes) -> None:
        tag = self._sheet.data[piece.start : piece.inside - 2].rstrip() + b">"
        written = tag + content + b"</%s%s>" % (self._sheet.prefix, name.encode())
        self._changes.append(Change(piece.start, piece.end, written))

    def _before_row(self, number: int) -> int:
        """Where a new row goes."""
        later = [row.start for other, row in self._sheet.rows.items() if other > number]
        sheet = self._sheet.sheet_data
        return min(later) if later or sheet is None else self._sheet.data.rindex(b"<", sheet.start, sheet.end)

    def _widen(self) -> None:
        """The area the sheet says it uses, so that the new cells lie in it; some readers believe it."""
        dimension = self._sheet.dimension
        if dimension is None or not self._new or "ref" not in dimension.attributes:
            return
        top, left, bottom, right = rect(dimension.attributes["ref"])
        rows, columns = list(self._new), [column for cells in self._new.values() for column in cells]
        corners = (min(top, *rows), min(left, *columns)), (max(bottom, *rows), max(right, *columns))
        wide = ":".join(dict.fromkeys(address(corner) for corner in corners))
        if rect(wide) != (top, left, bottom, right):
            tag = retagged(self._sheet.data[dimension.start : dimension.inside], {"ref": wide})
            self._changes.append(Change(dimension.start, dimension.inside, tag))

    def _written(self, attributes: dict[str, str], wanted: Content) -> bytes:
        kind = _kind(wanted)
        tag = start_tag(self._sheet.prefix, "c", attributes | ({"t": kind} if kind else {}))
        return tag + self._inner(wanted) + b"</%sc>" % self._sheet.prefix

    def _inner(self, wanted: Content) -> bytes:
        prefix = self._sheet.prefix
        if not wanted.formula and wanted.kind == "str":
            return start_tag(prefix, "is", {}) + element(prefix, "t", wanted.value) + b"</%sis>" % prefix
        formula = element(prefix, "f", wanted.formula) if wanted.formula else b""
        empty = not wanted.value and wanted.kind != "str"
        return formula + (b"" if empty else element(prefix, "v", wanted.value))


def content_of(cell: CellPiece | None, texts: Sequence[str]) -> Content:
    """What a cell says.

    Args:
        cell: the cell, or None where there is none
        texts: the shared texts of its workbook
    """
    if cell is None:
        return Content()
    value = cell.value.text if cell.value else ""
    kind = cell.kind
    if kind == "s":
        kind, value = "str", texts[int(value)] if value else ""
    elif kind == "inlineStr":
        kind, value = "str", cell.written or ""
    formula = ""
    if cell.formula is not None:
        plain = cell.formula.attributes.get("t", "normal") == "normal"
        # A formula of another sort is never the same as a plain one.
        formula = cell.formula.text if plain else f"{cell.formula.attributes}{cell.formula.text}"
    if not formula and not value:
        return Content()
    return Content(formula=formula, kind=kind, value=value)


def _kind(wanted: Content) -> str | None:
    if not wanted.formula and wanted.kind == "str":
        return "inlineStr"
    return None if wanted.kind == "n" else wanted.kind
