"""Results of the user's own formulas that look at our sheets, brought up to date in the file.

Covers   which of them change, their new results written into the bytes of their cells, those that could not be worked
         out emptied and told; points of charts that look at such cells or at ours.
Not      formulas that do not look at ours; our own sheets, whose results come with them.
Rules    Only the result of such a cell changes, no other byte. No stale number is left: a result that could not be
         worked out is taken away, and the spreadsheet program fills it in when it opens the file.
"""

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from xml.sax.saxutils import unescape

from openpyxl.utils.cell import coordinate_to_tuple

from addin.caches import XlError, encoded
from addin.problems import CellRef
from addin.refresh.cells import CellPiece, Change, Rect, address, applied, cells_of, inside, retagged
from addin.refresh.charting import with_points
from addin.refresh.contents import Contents, whole
from addin.refresh.dependents import Dependents, Formula, formulas
from addin.refresh.engine import Cell, SmallBook, results
from addin.refresh.grafting import Content
from addin.refresh.package import Package
from addin.refresh.references import Outline, Uses

_SAME = 1e-12
"""Relative: programs write the last digits of a number differently."""
_MANY_DIGITS = re.compile(r"\d[\d.]{16}|\d[eE][+-]?\d")


def freshened(
    data: bytes,
    ours: Collection[str],
    grafts: Mapping[str, Collection[str]] | None = None,
    *,
    before: bytes | None = None,
) -> tuple[bytes, tuple[str, ...]]:
    """The workbook with the results of the user's formulas as our sheets now make them.

    Args:
        data: a workbook whose own sheets hold their results, as `merge` gives it
        ours: titles of our sheets
        grafts: title of another sheet -> cells of ours on it
        before: the workbook as its results were last worked out; formulas that look only at what is as it was then
            are left alone

    Returns:
        The whole file, and the cells whose result shows only once a spreadsheet program has worked it out.
    """
    return _Fresh(data, ours, grafts or {}, before).content()


class _Fresh:
    """One workbook whose results are brought up to date."""

    def __init__(
        self, data: bytes, ours: Collection[str], grafts: Mapping[str, Collection[str]], before: bytes | None
    ) -> None:
        self._now = Contents(Package(data))
        self._before = Contents(Package(before)) if before else None
        self._ours = {title.casefold() for title in ours}
        self._grafted = {(title.casefold(), coordinate_to_tuple(cell)) for title, cells in grafts.items()
                         for cell in cells}  # fmt: skip

    def content(self) -> tuple[bytes, tuple[str, ...]]:
        """The file, and the cells that could not be worked out."""
        package = self._now.package
        theirs = {title: self._now.cells(title) for title in self._now.concerned(self._ours, self._grafted)}
        outline = Outline(titles=tuple(self._now.titles), names=self._now.names,
                          tables={name: area for name, (area, _) in self._now.tables.items()})  # fmt: skip
        dependents = Dependents(formulas(theirs, outline), self._grafted)
        changed = dependents.changed(self._looks_at_change, self._moved)
        values, unknown = self._worked_out(dependents, changed) if changed else ({}, {})
        self._write(changed, values, unknown)
        self._write_charts(outline, changed, values)
        return package.content(), tuple(self._named(cell) for cell in sorted(unknown))

    def _moved(self, cell: Cell) -> bool:
        """Whether a cell of ours on a sheet of theirs says something else now."""
        return self._before is None or self._now.differs(self._before, whole(cell))

    def _looks_at_change(self, uses: Uses) -> bool:
        """Whether what a formula sees of our sheets has changed, or what one of its names stands for."""
        seen = [area for area in uses.areas if area.sheet in self._ours]
        if self._before is None or uses.anywhere:
            return bool(seen) or uses.anywhere
        names = self._now.names, self._before.names
        if any(names[0].get(key) != names[1].get(key) for key in {*names[0], *names[1]} if key[0] in uses.names):
            return True
        return any(self._now.differs(self._before, area) for area in seen)

    # ------------------------------------------------------------------------------------------ working out

    def _worked_out(
        self, dependents: Dependents, changed: Mapping[Cell, Formula]
    ) -> tuple[dict[Cell, object], dict[Cell, Formula]]:
        unknown = dependents.untrusted(changed, self._looking_at_nothing(changed))
        trusted = {cell: formula for cell, formula in changed.items() if cell not in unknown}
        if not trusted:
            return {}, unknown
        values = results(self._small_book(trusted), trusted)
        if values is None:
            return {}, dict(changed)
        failed = [cell for cell, value in values.items() if self._doubtful(trusted[cell], value, values)]
        unknown |= dependents.untrusted(changed, failed)
        return {cell: value for cell, value in values.items() if cell not in unknown}, unknown

    def _looking_at_nothing(self, changed: Mapping[Cell, Formula]) -> Iterator[Cell]:
        """Formulas that look at another one whose result the file does not hold."""
        for cell, formula in changed.items():
            looked_at = (at for area in formula.uses.areas for at in self._now.without_result(area))
            if any(at not in changed for at in looked_at):
                yield cell

    def _doubtful(self, formula: Formula, value: object, values: Mapping[Cell, object]) -> bool:
        """Whether a result may be the engine's own idea.

        An error that was not there before may be, and so may what is made of a number written as a text: the engine
        writes all its digits, a spreadsheet program fifteen.
        """
        if isinstance(value, XlError):
            return not _says(formula.piece, str(value))
        if not formula.uses.joins:
            return False
        if isinstance(value, str) and _MANY_DIGITS.search(value):
            return True
        if isinstance(value, str) and not formula.uses.compares:
            return False
        return any(content.kind == "n" or isinstance(values.get(cell), float)
                   for area in formula.uses.areas for cell, content in self._now.within(area))  # fmt: skip

    def _small_book(self, trusted: Mapping[Cell, Formula]) -> SmallBook:
        """What the trusted formulas look at, everything else as its result."""
        areas = dict.fromkeys(area for formula in trusted.values() for area in formula.uses.areas)
        cells = {cell: content for area in areas for cell, content in self._now.within(area) if cell not in trusted}
        cells |= {cell: Content(formula=formula.text) for cell, formula in trusted.items()}
        used = {name for formula in trusted.values() for name in formula.uses.names}
        return SmallBook(
            titles=tuple(self._now.titles.values()),
            names=[(name, scope, text) for (name, scope), text in self._now.names.items() if name in used],
            tables={area.sheet: part for name, (area, part) in self._now.tables.items() if name in used},
            cells=cells,
        )

    # ------------------------------------------------------------------------------------------ writing

    def _write(
        self, changed: Mapping[Cell, Formula], values: Mapping[Cell, object], unknown: Mapping[Cell, Formula]
    ) -> None:
        changes: dict[str, list[Change]] = {}
        for (title, place), formula in changed.items():
            sheet = changes.setdefault(title, [])
            data = self._now.cells(title).data
            if (title, place) in values:
                sheet += _filled(data, formula.piece, values[title, place], self._now.cells(title).prefix)
            elif (title, place) in unknown:
                sheet += _emptied(formula.piece, data)
                sheet += self._spilled(title, formula.fills, formula.piece)
        parts = self._now.package.parts
        for title, found in changes.items():
            part = self._now.parts[title]
            parts[part] = applied(parts[part], found)

    def _spilled(self, title: str, area: Rect | None, master: CellPiece) -> Iterator[Change]:
        """Cells a formula fills beside its own hold nothing but its results."""
        if area is None:
            return
        sheet = self._now.cells(title)
        for place, piece in sheet.cells.items():
            if piece is not master and piece.formula is None and inside(place, area):
                yield from _emptied(piece, sheet.data)

    def _write_charts(self, outline: Outline, changed: Mapping[Cell, Formula], values: Mapping[Cell, object]) -> None:
        """Points of the user's charts whose cells have changed."""

        def points(reference: str) -> list[Content] | None:
            uses = outline.uses(reference, "")
            if len(uses.areas) != 1 or not uses.trusted:
                return None
            area = uses.areas[0]
            places = list(cells_of(area.rect))
            touched = {
                cell for cell in (*changed, *self._grafted) if cell[0] == area.sheet and inside(cell[1], area.rect)
            }
            if not touched and not (area.sheet in self._ours and self._looks_at_change(uses)):
                return None
            known = dict(self._now.within(area)) | {cell: Content() for cell in touched & set(changed)}
            known |= {cell: _content(values[cell]) for cell in touched & set(values)}
            return [known.get((area.sheet, place), Content()) for place in places]

        parts = self._now.package.parts
        for part in self._charts():
            parts[part] = with_points(parts[part], points)

    def _charts(self) -> list[str]:
        """Chart parts of the user's sheets."""
        package, found = self._now.package, []
        sheets = [sheet.part for sheet in self._now.book.sheets if sheet.title.casefold() not in self._ours]
        for drawing in _related(package, sheets, "drawing"):
            found += _related(package, [drawing], "chart")
        return list(dict.fromkeys(found))

    def _named(self, cell: Cell) -> str:
        return str(CellRef(self._now.titles[cell[0]], address(cell[1])))


def _related(package: Package, parts: Iterable[str], kind: str) -> list[str]:
    return [package.part(relation.target) for part in parts for relation in package.relations(part)
            if relation.kind == kind and package.part(relation.target) in package.parts]  # fmt: skip


def _content(value: object) -> Content:
    """What a cell with this result says."""
    kind, text = encoded("" if value is None else value)  # type: ignore[arg-type]
    return Content(kind=kind or "n", value=unescape(text))


def _says(piece: CellPiece, text: str) -> bool:
    return piece.value is not None and piece.value.text == text


def _filled(data: bytes, piece: CellPiece, value: object, prefix: bytes) -> Iterator[Change]:
    """The changes that give a cell its result; none if it has it already."""
    kind, text = encoded("" if value is None else value)  # type: ignore[arg-type]
    old = piece.value
    if old is not None and kind == ("" if piece.kind == "n" else piece.kind) and _alike(kind, old.text, value):
        return
    yield from _kind(data, piece, kind or None)
    written = b"<%sv>%s</%sv>" % (prefix, text.encode(), prefix)
    if old is not None:
        yield Change(old.start, old.end, written)
    elif piece.formula is not None:
        yield Change(piece.formula.end, piece.formula.end, written)


def _alike(kind: str, old: str, value: object) -> bool:
    if kind == "" and isinstance(value, (int, float)):
        try:
            before = float(old)
        except ValueError:
            return False
        return abs(before - value) <= _SAME * max(abs(before), abs(value))
    return old == (str(int(value)) if isinstance(value, bool) else str(value or ""))


def _emptied(piece: CellPiece, data: bytes) -> Iterator[Change]:
    if piece.value is not None:
        yield from _kind(data, piece, None)
        yield Change(piece.value.start, piece.value.end, b"")


def _kind(data: bytes, piece: CellPiece, kind: str | None) -> Iterator[Change]:
    tag = data[piece.start : piece.inside]
    changed = retagged(tag, {"t": kind})
    if changed != tag:
        yield Change(piece.start, piece.inside, changed)
