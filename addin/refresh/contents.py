"""What the cells of a whole workbook say.

Covers   cells of a sheet by title, contents of a range, tables, what differs from an earlier state.
Not      looks; changing anything.
Rules    A sheet is read when it is first asked for.
"""

from collections.abc import Iterator, Sequence

from addin.refresh.book import Book
from addin.refresh.cells import Rect, SheetCells, cells_of, inside, rect
from addin.refresh.engine import Cell
from addin.refresh.grafting import Content, content_of
from addin.refresh.merging import shared_texts
from addin.refresh.package import Package, m, parsed
from addin.refresh.references import Area


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
        top, left, bottom, right = area.rect
        few = (bottom - top + 1) * (right - left + 1) < len(cells)
        places = (list(cells_of(area.rect))
                  if few else [place for place in cells if inside(place, area.rect)])  # fmt: skip
        for place in places:
            content = content_of(cells.get(place), self._texts)
            if content != Content():
                # Which formula a result comes from makes no difference to those that look at it.
                yield (area.sheet, place), Content(kind=content.kind, value=content.value)

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


def whole(cell: Cell) -> Area:
    """A cell as a range."""
    corner: Rect = (*cell[1], *cell[1])
    return Area(cell[0], corner)
