"""What the cells of a whole workbook say.

Covers   cells of a sheet by title, contents of a range, tables, what differs from an earlier state.
Not      looks; changing anything.
Rules    A sheet is read when it is first asked for.
"""

import re
from collections.abc import Collection, Iterator, Sequence

from addin.refresh.book import Book
from addin.refresh.cells import Place, Rect, SheetCells, cells_of, inside, rect
from addin.refresh.engine import Cell
from addin.refresh.grafting import Content, content_of
from addin.refresh.merging import shared_texts
from addin.refresh.package import Package, m, parsed
from addin.refresh.references import Area

_FORMULA = re.compile(rb"<(?:\w+:)?f[\s>/]")
_ANYWHERE = re.compile(r"indirect|offset|:[^<>!(),]*!|&#")
"""Formulas that may look at a sheet without its title: addresses worked out, ranges over sheets, signs in disguise."""
_PLAIN_TITLE = re.compile(r"[\w .-]+")


class Contents:
    """One workbook's cells, by the titles of its sheets without regard to case."""

    def __init__(self, package: Package) -> None:
        self.package = package
        self.book = Book(package)
        self.names = self.book.names
        self.titles = {sheet.title.casefold(): sheet.title for sheet in self.book.sheets}
        self.parts = {sheet.title.casefold(): sheet.part for sheet in self.book.sheets if sheet.kind == "worksheet"}
        self.tables = dict(self._read_tables())
        """Name of a table without regard to case -> where it stands, its part."""
        self._read: dict[str, SheetCells] = {}
        self._texts: Sequence[str] | None = None

    def cells(self, title: str) -> SheetCells:
        """Every cell of a sheet."""
        if title not in self._read:
            self._read[title] = SheetCells.of(self.package.parts[self.parts[title]])
        return self._read[title]

    def within(self, area: Area) -> Iterator[tuple[Cell, Content]]:
        """What the cells of a range say; empty ones are passed over."""
        if area.sheet not in self.parts:
            return
        if self._texts is None:
            self._texts = shared_texts(self.book)
        cells = self.cells(area.sheet).cells
        for place in self._places(area):
            content = content_of(cells.get(place), self._texts)
            if content != Content():
                # Which formula a result comes from makes no difference to those that look at it.
                yield (area.sheet, place), Content(kind=content.kind, value=content.value)

    def without_result(self, area: Area) -> Iterator[Cell]:
        """Formulas in a range whose results the file does not hold."""
        if area.sheet in self.parts:
            for place in self._places(area):
                piece = self.cells(area.sheet).cells.get(place)
                if piece and piece.formula and piece.kind != "str" and not (piece.value and piece.value.text):
                    yield area.sheet, place

    def concerned(self, ours: Collection[str], grafted: Collection[Cell]) -> list[str]:
        """Sheets of theirs whose formulas may look at ours, directly or by way of other sheets.

        Found by what their bytes mention, for there may be many and most do not.
        """
        texts = {title: _casefolded(self.package.parts[part]) for title, part in self.parts.items()
                 if title not in ours and _FORMULA.search(self.package.parts[part])}  # fmt: skip
        waiting = list(dict.fromkeys([*ours, *(cell[0] for cell in grafted)]))
        # A formula of the user's on a grafted sheet may look at a cell of ours there without naming the sheet.
        found = [title for title in waiting if title in texts]
        found += [title for title, text in texts.items() if title not in found and _ANYWHERE.search(text)]
        waiting += [title for title in found if title not in waiting]
        while waiting:
            words = self._words(waiting.pop())
            new = [title for title, text in texts.items()
                   if title not in found and any(word in text for word in words)]  # fmt: skip
            found += new
            waiting += new
        return found

    def _words(self, title: str) -> list[str]:
        """What a formula has to mention to look at a sheet: its title, a name or a table on it."""
        if not _PLAIN_TITLE.fullmatch(title):
            return [""]  # written in several ways
        words = [name for (name, _), meaning in self.names.items() if title in meaning.casefold()]
        return [title, *words, *(name for name, (area, _) in self.tables.items() if area.sheet == title)]

    def _places(self, area: Area) -> Collection[Place]:
        """Cells of a range that may say something."""
        cells = self.cells(area.sheet).cells
        top, left, bottom, right = area.rect
        few = (bottom - top + 1) * (right - left + 1) < len(cells)
        return list(cells_of(area.rect)) if few else [place for place in cells if inside(place, area.rect)]

    def differs(self, other: "Contents", area: Area) -> bool:
        """Whether a range says something else than in another state of the workbook."""
        return dict(self.within(area)) != dict(other.within(area))

    def _read_tables(self) -> Iterator[tuple[str, tuple[Area, bytes]]]:
        for title, part in self.parts.items():
            for relation in self.package.relations(part):
                if relation.kind == "table":
                    data = self.package.parts[self.package.part(relation.target)]
                    root = parsed(data)
                    if root.tag == m("table"):
                        yield root.get("displayName", "").casefold(), (Area(title, rect(root.get("ref", "A1"))), data)


def _casefolded(data: bytes) -> str:
    return data.decode(errors="replace").casefold()


def whole(cell: Cell) -> Area:
    """A cell as a range."""
    corner: Rect = (*cell[1], *cell[1])
    return Area(cell[0], corner)
