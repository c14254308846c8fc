"""The way into a workbook of the user's: its survey stays where it is, our sheets are made anew around it.

Covers   reading the survey from what the file held at one moment, and putting the estimate into just that.
Not      how the two are merged (merging), how the file is replaced (in_place).
"""

import os
from collections.abc import Collection, Sequence
from datetime import datetime
from pathlib import Path

from addin.door import Made, SheetRead, sheets_in
from addin.locks import check_changeable
from addin.refresh.in_place import Refreshed, refresh_file


class InPlaceDoor:
    """A file that holds the survey and takes the estimate."""

    keeps_rows = True

    def __init__(self, path: str | os.PathLike[str], now: datetime) -> None:
        """`now` names the copy of the earlier file."""
        self.path, self._now = path, now
        self._theirs: bytes | None = None
        self.refreshed: Refreshed | None = None
        """What the refresh did, once the estimate was put."""

    def sheets(self, passed_over: Collection[str] = (), whole: Collection[str] | None = None) -> Sequence[SheetRead]:
        """Every sheet of the file, if it may be changed where it stands."""
        return sheets_in(self.path, self._content(), passed_over, whole)

    def put(self, made: Made) -> None:
        """Put the estimate into the file, as it was when the survey was read from it."""
        theirs, self._theirs = self._content(), None  # what the file holds from now on is read anew
        self.refreshed = refresh_file(
            self.path, theirs, made.data, replaced=made.replaced, grafts=made.grafts, now=self._now
        )

    def _content(self) -> bytes:
        if self._theirs is None:
            check_changeable(self.path)  # which looks at the package too
            self._theirs = Path(self.path).read_bytes()
        return self._theirs
