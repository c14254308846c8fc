"""The sheet that a button shows its answer on.

Covers   one sheet of ours in the open workbook: a line that says what it is, headings, and a block of rows.
Not      what the rows say (buttons).
Rules    one block is written, never cell by cell; a text of the survey stays a text; a sheet of the user's with the
         same title is never touched.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import xlwings as xw

from addin.files import CannotWrite
from addin.sheets import FINDINGS_SHEET
from addin.styles import OPENS_FORMULA

_HEAD = "Findings of plinthbook"
"""Text of A1, by which the sheet is known as ours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Findings:
    """What a button has found."""

    heading: str
    columns: tuple[tuple[str, float], ...]
    """Heading and width of each."""
    rows: Sequence[Sequence[Any]]


def show(book: xw.Book, found: Findings) -> None:
    """Write the findings and bring their sheet to the front.

    Raises:
        CannotWrite: a sheet of the user's has that title; nothing was changed
    """
    sheet = next((sheet for sheet in book.sheets if sheet.name == FINDINGS_SHEET), None)
    if sheet is not None and not str(sheet["A1"].value).startswith(_HEAD):
        raise CannotWrite(f"The sheet {FINDINGS_SHEET} is not plinthbook's. Give it another name, and try again.")
    if sheet is None:
        sheet = book.sheets.add(FINDINGS_SHEET, after=book.sheets[-1])
    width = len(found.columns)
    lines = [[f"{_HEAD}: {found.heading}"], [], [title for title, _ in found.columns], *found.rows]
    block = [[*map(_plain, line), *[None] * (width - len(line))] for line in lines]
    sheet.clear()
    sheet["A1"].value = block
    for at, (_, characters) in enumerate(found.columns):
        sheet.range((1, at + 1), (len(block), at + 1)).column_width = characters
    sheet.range((3, 1), (len(block), width)).wrap_text = True
    sheet["A1"].font.bold = True
    sheet.range((3, 1), (3, width)).font.bold = True
    sheet.activate()


def _plain(value: Any) -> Any:
    """A value as the program takes it; what it would take for a formula gets the sign that keeps it a text."""
    if isinstance(value, str) and value.startswith(OPENS_FORMULA):
        return f"'{value}"
    return float(value) if isinstance(value, (int, float)) and not isinstance(value, bool) else value
