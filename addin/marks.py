"""How a workbook tells which of its sheets and names plinthbook made.

Covers   a hidden name of its own on each result sheet; a note on each name of the workbook.
Not      finding the marks again in a file (refresh).
Rules    A mark goes with the sheet when it is moved, coloured or hidden. A sheet of somebody else never has one, so it
         is never written over.
"""

from collections.abc import Collection

from openpyxl.workbook import Workbook
from openpyxl.workbook.defined_name import DefinedName

SHEET_MARK = "plinthbook_sheet"
"""Name that only the sheets made by plinthbook have for themselves."""

DRAWING, NOTES = "with drawing", "with notes"
"""What a mark says of a sheet that has them from us; others on it are the user's."""

NAME_NOTE = "Made by plinthbook; made anew at each refresh"
"""Note beside each of our names in the name manager; a name with it that is no longer needed goes."""


def mark(book: Workbook, ours: Collection[str]) -> None:
    """Mark the sheets of `ours` that are in the book, and all names of the book.

    Args:
        book: a workbook in the making, with every sheet and name
        ours: titles of the sheets that a refresh may replace
    """
    for sheet in book.worksheets:
        if sheet.title in ours:
            # A text, not a cell: a name that points at a cell would be moved and broken by edits.
            drawn = bool(getattr(sheet, "_charts", ()) or getattr(sheet, "_images", ()))
            noted = any(cell.comment for row in sheet.iter_rows() for cell in row)
            words = ["made by plinthbook", *([DRAWING] if drawn else []), *([NOTES] if noted else [])]
            text = f'"{", ".join(words)}"'
            sheet.defined_names[SHEET_MARK] = DefinedName(SHEET_MARK, attr_text=text, hidden=True)
    for name in book.defined_names.values():
        name.comment = NAME_NOTE
