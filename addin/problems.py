"""Things wrong or doubtful in a workbook, as data: the reader collects them, command line and sheets print them.

A fault stops the result, a warning travels with it. `code` is stable and listed in DEVELOPERS.md.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class CellRef:
    """A cell, written the way a spreadsheet writes it."""

    sheet: str
    cell: str

    def __str__(self) -> str:
        sheet = self.sheet if self.sheet.isalnum() else "'" + self.sheet.replace("'", "''") + "'"
        return f"{sheet}!{self.cell}" if self.cell else sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing to mend: where, what was found, what is allowed, what to do."""

    code: str
    where: CellRef
    subject: str
    found: str
    rule: str
    fix: str

    def __str__(self) -> str:
        return f"{self.where}: {self.subject} is {self.found}, but {self.rule}. {self.fix} [{self.code}]"
