"""An xlwings engine over openpyxl: the real xlwings API and converters, on files, without a spreadsheet program.

Covers   opening, saving and closing books; sheets; the ranges, values, formulas and formats that our buttons use.
Not      recalculation (a formula's value is the one the file was saved with), and everything else of the API: the base
         classes raise NotImplementedError, so that a call we never tried fails loudly.
Hostile  with `install(hostile=True)` it hands values over as a program on Windows does at its worst: money as decimals
         of four places, errors as None unless asked for as text, a single cell as a scalar, numbers always floats.
"""

import contextlib
import datetime
from collections.abc import Iterator
from copy import copy
from decimal import Decimal
from pathlib import Path
from typing import Any

import xlwings as xw
from openpyxl import Workbook, load_workbook
from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import coordinate_to_tuple, range_boundaries
from xlwings import base_classes

ERRORS = ("#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A")
MONEY = ("$", "₹", "€", "£", "#,##0.00")


class Engine:
    """The engine xlwings is given."""

    name, type = "openpyxl", "desktop"

    def __init__(self, *, hostile: bool = False) -> None:
        self.hostile = hostile
        self.apps = Apps(self)

    @staticmethod
    def prepare_xl_data_element(x: Any, date_format: Any) -> Any:  # noqa: ARG004
        """A value on its way into a cell."""
        if isinstance(x, Decimal):
            raise TypeError("a decimal would format its cell as money and cut it to two places")
        return "" if x is None else x

    @staticmethod
    def clean_value_data(data: Any, dates: Any, empty: Any, numbers: Any, err_to_str: Any) -> Any:
        """Values on their way out of cells."""

        def clean(value: Any) -> Any:
            if value is None or value == "":
                return empty
            if isinstance(value, str) and value in ERRORS:
                return value if err_to_str else None
            if isinstance(value, datetime.datetime):
                return dates(value.year, value.month, value.day, hour=value.hour, minute=value.minute,
                             second=value.second)  # fmt: skip
            if isinstance(value, float) and numbers is not None:
                return numbers(value)
            return value

        return [[clean(value) for value in row] for row in data]


class Apps(base_classes.Apps):
    """The one program there is."""

    def __init__(self, engine: Engine) -> None:
        self.app = App(engine)
        self.impl = self

    def add(self, **_: Any) -> "Apps":
        """Start the program, which runs already."""
        return self

    def keys(self) -> list[int]:
        """Process numbers."""
        return [self.app.pid]

    def __iter__(self) -> Iterator["App"]:
        return iter([self.app])

    def __len__(self) -> int:
        return 1

    def __getitem__(self, pid: int) -> "App":
        return self.app


class App(base_classes.App):
    """The program, with its open books and what it said."""

    engine = pid = books = version = status_bar = screen_updating = api = None
    visible = display_alerts = True
    calculation = "automatic"

    def __init__(self, engine: Engine) -> None:
        self.engine, self.pid, self.version, self.api = engine, 1, "16.0", object()
        self.books = Books(self)
        self.said: list[str] = []

    def activate(self, steal_focus: bool = False) -> None:
        """Come to the front; there is only one program."""

    def alert(self, prompt: str, title: str, buttons: str, mode: str, callback: str) -> str:  # noqa: ARG002
        """A message box; what it said is kept."""
        self.said.append(prompt)
        return "ok"


class Books(base_classes.Books):
    """The open books."""

    def __init__(self, app: App) -> None:
        self.app = app
        self.open_books: list[Book] = []
        self.refused: set[str] = set()
        """Names that cannot be opened, for tests of what happens then."""

    @property
    def active(self) -> "Book":
        """The book in front."""
        return self.open_books[-1]

    def __call__(self, name_or_index: Any) -> "Book":
        if isinstance(name_or_index, int):
            return self.open_books[name_or_index - 1]
        for book in self.open_books:
            if book.name.lower() == str(name_or_index).lower():
                return book
        raise KeyError(name_or_index)

    def __len__(self) -> int:
        return len(self.open_books)

    def __iter__(self) -> Iterator["Book"]:
        return iter(self.open_books)

    def add(self) -> "Book":
        """A new book that has never been saved."""
        book = Book(self.app, "Book1", Workbook(), Workbook())
        self.open_books.append(book)
        return book

    def open(self, fullname: str, *_: Any) -> "Book":
        """Open a file."""
        if Path(fullname).name in self.refused:
            raise OSError(f"{fullname} could not be opened")
        macros = fullname.endswith((".xlsm", ".xlam"))
        values, formulas = (load_workbook(fullname, data_only=v, keep_vba=macros) for v in (True, False))
        book = Book(self.app, str(Path(fullname).resolve()), formulas, values)
        self.open_books.append(book)
        return book


class Book(base_classes.Book):
    """An open book: its formulas, and beside them the values the file was saved with."""

    app = fullname = sheets = None

    def __init__(self, app: App, fullname: str, formulas: Workbook, values: Workbook) -> None:
        self.app, self.fullname = app, fullname
        self.formulas, self.values = formulas, values
        self.sheets = Sheets(self)
        self.api = object()

    api = None

    @property
    def name(self) -> str:
        """The file's name."""
        return Path(self.fullname).name

    def save(self, path: Any = None, password: Any = None) -> None:  # noqa: ARG002
        """Save; a formula's cached value is lost, as openpyxl loses it."""
        if path is not None:
            self.fullname = str(Path(path).resolve())
        self.formulas.save(self.fullname)

    def close(self) -> None:
        """Close without saving."""
        self.app.books.open_books.remove(self)

    def activate(self) -> None:
        """Bring to the front."""
        books = self.app.books.open_books
        books.append(books.pop(books.index(self)))


class Sheets(base_classes.Sheets):
    """The sheets of a book."""

    def __init__(self, book: Book) -> None:
        self.book = book

    @property
    def active(self) -> "Sheet":
        """The sheet in front."""
        return Sheet(self.book, self.book.formulas.active.title)

    def __call__(self, name_or_index: Any) -> "Sheet":
        titles = [page.title for page in self.book.formulas.worksheets]
        if isinstance(name_or_index, int):
            return Sheet(self.book, titles[name_or_index - 1])
        return Sheet(self.book, next(title for title in titles if title.lower() == str(name_or_index).lower()))

    def __len__(self) -> int:
        return len(self.book.formulas.worksheets)

    def __iter__(self) -> Iterator["Sheet"]:
        return (Sheet(self.book, page.title) for page in self.book.formulas.worksheets)

    def add(self, before: Any = None, after: Any = None, name: str | None = None) -> "Sheet":
        """A new sheet."""
        titles = self.book.formulas.sheetnames
        at = titles.index(before.name) if before else titles.index(after.name) + 1 if after else 0
        made = self.book.formulas.create_sheet(name, at)
        self.book.values.create_sheet(made.title, at)
        return Sheet(self.book, made.title)


class Sheet(base_classes.Sheet):
    """One sheet."""

    book = name = api = None

    def __init__(self, book: Book, title: str) -> None:
        self.book, self.name, self.api = book, title, object()
        self.page, self.twin = book.formulas[title], book.values[title]

    @property
    def index(self) -> int:
        """Place among the sheets, from 1."""
        return self.book.formulas.sheetnames.index(self.name) + 1

    @property
    def visible(self) -> bool:
        """Whether it is shown."""
        return self.page.sheet_state == "visible"

    def activate(self) -> None:
        """Bring to the front."""
        self.book.formulas.active = self.index - 1

    def delete(self) -> None:
        """Take the sheet away."""
        self.book.formulas.remove(self.page)
        self.book.values.remove(self.twin)

    def clear(self) -> None:
        """Empty every cell, formats too."""
        if self.page.protection.sheet:
            raise PermissionError(f"the sheet {self.name} is protected")
        for page in (self.page, self.twin):
            page._cells.clear()

    @property
    def used_range(self) -> "Range":
        """From the first used cell to the last."""
        places = [place for place, cell in self.page._cells.items() if cell.value is not None or cell.has_style]
        rows, columns = [row for row, _ in places] or [1], [column for _, column in places] or [1]
        return Range(self, (min(rows), min(columns)), (max(rows), max(columns)))

    @property
    def cells(self) -> "Range":
        """Every cell."""
        return Range(self, (1, 1), (1_048_576, 16_384))

    def range(self, one: Any, other: Any = None) -> "Range":
        """Cells by address or by their two corners."""
        if isinstance(one, str) and other is None and ":" in one:
            left, top, right, bottom = range_boundaries(one)
            return Range(self, (top, left), (bottom, right))
        if isinstance(one, tuple) and len(one) == 4:
            top, left, rows, columns = one
            return Range(self, (top, left), (top + rows - 1, left + columns - 1))
        first = self._place(one)
        return Range(self, first, self._place(other, last=True) if other is not None else first)

    @staticmethod
    def _place(at: Any, *, last: bool = False) -> tuple[int, int]:
        if isinstance(at, str):
            return coordinate_to_tuple(at)
        if isinstance(at, tuple):
            return at
        return at.last if last else at.first


class Font(base_classes.Font):
    """The font of some cells."""

    def __init__(self, cells: Any) -> None:
        self.made = cells

    @property
    def bold(self) -> Any:
        """Whether the first cell is bold."""
        return self.made[0].font.bold

    @bold.setter
    def bold(self, value: bool) -> None:
        for cell in self.made:
            changed(cell, "font", bold=value)


def changed(cell: Any, style: str, **parts: Any) -> None:
    """Give a cell another style that differs in some parts."""
    made = copy(getattr(cell, style))
    for part, value in parts.items():
        setattr(made, part, value)
    setattr(cell, style, made)


class Range(base_classes.Range):
    """A rectangle of cells."""

    sheet = row = column = shape = api = options = None

    def __init__(self, sheet: Sheet, first: tuple[int, int], last: tuple[int, int]) -> None:
        self.sheet, self.first, self.last, self.api, self.options = sheet, first, last, object(), {}
        (self.row, self.column), (bottom, right) = first, last
        self.shape = (bottom - self.row + 1, right - self.column + 1)

    def __len__(self) -> int:
        return self.shape[0] * self.shape[1]

    def __call__(self, *at: int) -> "Range":
        row, column = at if len(at) == 2 else divmod(at[0] - 1, self.shape[1])
        if len(at) == 1:
            row, column = row + 1, column + 1
        place = (self.row + row - 1, self.column + column - 1)
        return Range(self.sheet, place, place)

    @property
    def address(self) -> str:
        """With dollar signs."""
        corners = [f"${get_column_letter(column)}${row}" for row, column in (self.first, self.last)]
        return corners[0] if self.first == self.last else ":".join(corners)

    def _rows(self) -> Iterator[list[tuple[int, int]]]:
        for row in range(self.first[0], self.last[0] + 1):
            yield [(row, column) for column in range(self.first[1], self.last[1] + 1)]

    def _made(self) -> list[Any]:
        if self.sheet.page.protection.sheet:
            locked = [p for row in self._rows() for p in row if self.sheet.page.cell(*p).protection.locked]
            if locked:
                raise PermissionError(f"the sheet {self.sheet.name} is protected")
        return [self.sheet.page.cell(*place) for row in self._rows() for place in row]

    def _handed_over(self, place: tuple[int, int]) -> Any:
        cell = self.sheet.twin._cells.get(place)
        value = None if cell is None else cell.value
        if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
            value = datetime.datetime(value.year, value.month, value.day)
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            return value
        money = self.sheet.book.app.engine.hostile and any(sign in cell.number_format for sign in MONEY)
        return Decimal(repr(value)).quantize(Decimal("0.0001")) if money else float(value)

    @property
    def raw_value(self) -> Any:
        """Values as the program hands them over."""
        return [[self._handed_over(place) for place in row] for row in self._rows()]

    @raw_value.setter
    def raw_value(self, rows: Any) -> None:
        single = not isinstance(rows, (list, tuple))
        for at, cell in enumerate(self._made()):
            value = rows if single else rows[at // self.shape[1]][at % self.shape[1]]
            value = None if value == "" else value
            text = isinstance(value, str) and value.startswith("'")
            cell.value = value = value[1:] if text else value
            if isinstance(value, str) and (text or not value.startswith("=")):
                cell.data_type, cell.quotePrefix = "s", text
            self.sheet.twin.cell(cell.row, cell.column).value = None if cell.data_type == "f" else value

    @property
    def formula(self) -> Any:
        """Formulas, and for a constant its text."""

        def text(place: tuple[int, int]) -> str:
            cell = self.sheet.page._cells.get(place)
            value = None if cell is None else cell.value
            return "" if value is None else repr(value) if isinstance(value, float) else str(value)

        rows = tuple(tuple(text(place) for place in row) for row in self._rows())
        return rows[0][0] if self.shape == (1, 1) else rows

    @property
    def number_format(self) -> str | None:
        """The one format of all the cells, or None."""
        there = self.sheet.twin._cells
        formats = {there[p].number_format if p in there else "General" for row in self._rows() for p in row}
        return formats.pop() if len(formats) == 1 else None

    @number_format.setter
    def number_format(self, value: str) -> None:
        for cell in self._made():
            cell.number_format = value

    @property
    def font(self) -> Font:
        """The font."""
        return Font(self._made())

    @property
    def column_width(self) -> Any:
        """Of the first column."""
        return self.sheet.page.column_dimensions[get_column_letter(self.column)].width

    @column_width.setter
    def column_width(self, value: float) -> None:
        for column in range(self.first[1], self.last[1] + 1):
            self.sheet.page.column_dimensions[get_column_letter(column)].width = value

    @property
    def wrap_text(self) -> Any:
        """Of the first cell."""
        return self._made()[0].alignment.wrap_text

    @wrap_text.setter
    def wrap_text(self, value: bool) -> None:
        for cell in self._made():
            changed(cell, "alignment", wrap_text=value)


@contextlib.contextmanager
def installed(*, hostile: bool = False) -> Iterator[App]:
    """The engine as xlwings' only one, for the length of a block."""
    engine, before = Engine(hostile=hostile), (xw.engines.engines[:], xw.engines.active)
    names = dict(xw.engines.engines_by_name)
    xw.engines.add(xw.Engine(impl=engine))
    xw.engines.active = xw.engines["openpyxl"]
    try:
        yield engine.apps.app
    finally:
        xw.engines.engines[:], xw.engines.active = before
        xw.engines.engines_by_name.clear()
        xw.engines.engines_by_name.update(names)
        if hasattr(xw.Book, "_mock_caller"):
            del xw.Book._mock_caller
