"""Points that a chart of the user's keeps of the cells it draws.

Covers   the kept numbers and texts of one chart part, where the cells behind them have changed.
Not      labels on several levels, charts of the newer kind, ranges in several pieces: they are drawn from the cells
         when the file is opened.
Rules    A chart whose cells say what they said keeps its bytes; of any other only the points change.
"""

import re
from collections.abc import Callable, Sequence
from xml.parsers import expat
from xml.sax.saxutils import escape

from addin.refresh.cells import Change, applied
from addin.refresh.grafting import Content

_CHART = "http://schemas.openxmlformats.org/drawingml/2006/chart"
_TAG = re.compile(rb"<(?:[^\"'>]|\"[^\"]*\"|'[^']*')*>")
_PREFIX = re.compile(rb"<((?:[^\s:/>]+:)?)")
_SAME = 1e-12

Points = Callable[[str], Sequence[Content] | None]
"""Reference -> what its cells say now, one after the other; None where they say what they said."""


def with_points(data: bytes, points: Points) -> bytes:
    """A chart part with the points its cells now have."""
    reader = _Reader(data, points)
    reader.read()
    return applied(data, reader.changes)


class _Reader:
    """One pass over a chart part."""

    def __init__(self, data: bytes, points: Points) -> None:
        self.changes: list[Change] = []
        self._data, self._points = data, points
        self._parser = expat.ParserCreate(namespace_separator=" ")
        self._parser.buffer_text = True
        self._parser.StartElementHandler = self._start
        self._parser.EndElementHandler = self._end
        self._parser.CharacterDataHandler = self._characters
        self._text: list[str] = []
        self._formula = ""
        self._first: int | None = None
        self._old: list[tuple[int, str]] = []
        self._at = 0

    def read(self) -> None:
        """Collect the changes."""
        self._parser.Parse(self._data, True)

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        self._text = []
        space, _, tag = name.rpartition(" ")
        if space != _CHART:
            return
        if tag in ("numRef", "strRef"):
            self._formula, self._first, self._old = "", None, []
        elif tag == "ptCount":
            self._first = self._parser.CurrentByteIndex
        elif tag == "pt":
            self._at = int(attributes.get("idx", "0"))

    def _end(self, name: str) -> None:
        space, _, tag = name.rpartition(" ")
        if space != _CHART:
            return
        if tag == "f":
            self._formula = "".join(self._text).strip()
        elif tag == "v":
            self._old.append((self._at, "".join(self._text)))
        elif tag in ("numCache", "strCache") and self._first is not None:
            self._replace(self._first, self._parser.CurrentByteIndex, numbers=tag == "numCache")
            self._first = None

    def _characters(self, text: str) -> None:
        self._text.append(text)

    def _replace(self, start: int, end: int, *, numbers: bool) -> None:
        contents = self._points(self._formula)
        if contents is None:
            return
        new = [(at, content.value) for at, content in enumerate(contents)
               if content.value and (not numbers or content.kind in ("n", "b", "e"))]  # fmt: skip
        if len(new) == len(self._old) and all(map(_alike, new, self._old)):
            return
        found = _PREFIX.match(self._data, start)
        c = found[1].decode() if found else ""
        written = f'<{c}ptCount val="{len(contents)}"/>'
        written += "".join(f'<{c}pt idx="{at}"><{c}v>{escape(value)}</{c}v></{c}pt>' for at, value in new)
        tail = _after_points(self._data[start:end])
        self.changes.append(Change(start, end - len(tail), written.encode()))


def _after_points(data: bytes) -> bytes:
    """What stands behind the last point: blanks, extensions."""
    end = 0
    for tag in _TAG.finditer(data):
        if re.match(rb"</(?:[^\s:>]+:)?pt\s*>|<(?:[^\s:>]+:)?ptCount[\s/]|</(?:[^\s:>]+:)?ptCount\s*>", tag[0]):
            end = tag.end()
    return data[end:]


def _alike(new: tuple[int, str], old: tuple[int, str]) -> bool:
    if new == old:
        return True
    try:
        one, other = float(new[1]), float(old[1])
    except ValueError:
        return False
    return new[0] == old[0] and abs(one - other) <= _SAME * max(abs(one), abs(other))
