"""A look into the parts of a workbook before anything loads it: the few kilobytes that hang or flood a reader.

Covers   document types, false and far cell references, cells merged or linked by the million, parts loaded a thousand
         times, pieces and texts of a length no spreadsheet has, long texts or formulas that many cells share.
Not      the list of parts (guard). What reads badly but harms nobody passes; the reader says so.
Rules    Every XML part is parsed, not searched: a search is dodged by one character reference. A part is taken for
         XML by its name or by its look. What is counted is counted over all parts.
Sources  The limits are this project's; where Excel has one (32,767 characters in a cell, 8,192 in a formula, 255 in a
         number format), there is room above it for the way letters are written in XML.
"""

import posixpath
import re
import zipfile
from collections import Counter
from pathlib import Path
from typing import NoReturn
from xml.parsers import expat

LAST_ROW = 200_000
LAST_COLUMN = 1_000
MOST_AREA = 200_000
MOST_PLACED = 1_000_000
"""Cells under all merges and links together; a reader makes each of them."""
MOST_CELLS = 500_000
"""A reader takes some 35 us for each, twice."""
MOST_STRINGS = 200_000
"""Elements in the table of strings."""
MOST_OTHERS = 100_000
"""Elements that are neither cells nor strings: styles, rules, names, drawings. A reader takes some 50 us for each."""
MOST_LOOKUPS = 10_000_000
"""Merges times links on one sheet: a reader looks up each link among all merges."""
MOST_RANGES = 10_000
LONGEST_PIECE = 1 << 20
"""Bytes of one tag or comment: a parser that has half of it starts again with each block it gets."""
LONGEST_TEXT = 400_000
LONGEST_FORMULA = 60_000
LONGEST_FORMAT = 1_000
MOST_SHARED_TEXT = 500_000_000
MOST_SHARED_FORMULA = 50_000_000
"""Bytes of all texts, and of all formulas, that cells share, each counted as often as it is used."""

_CHUNK = 1 << 18
_XML_NAMES = (".xml", ".rels", ".vml")
_XML_STARTS = (b"<", b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff", b"\x00<", b"\x00\x00", b" ", b"\t", b"\r", b"\n")
_REFERENCE = re.compile(r"\$?([A-Za-z]{1,3})\$?([1-9][0-9]{0,6})").fullmatch
# Most cells by far: near the corner, so that no more needs to be worked out.
_NEAR = re.compile(r"[A-Z]{1,2}[1-9][0-9]{0,4}").fullmatch
# Those that a reader turns into cells one by one. A validation or a colour rule over whole columns stays a rule.
_PLACED = {"mergeCell": "ref", "hyperlink": "ref", "comment": "ref", "c": "r"}
_OF_A_CELL = frozenset({"v", "f", "is", "t"})
_OF_A_STRING = frozenset({"si", "r", "t", "rPr", "rPh", "phoneticPr", "rFont", "b", "i", "u", "sz", "color", "family",
                          "charset", "scheme", "vertAlign", "strike", "outline", "shadow"})  # fmt: skip
_LOADED_ONCE = frozenset({"worksheet", "chartsheet", "comments", "drawing", "table", "chart"})
_CALLS = frozenset({"sheet", "tablePart", "chart", "drawing", "legacyDrawing"})
_LENGTHS = {
    "t": LONGEST_TEXT, "v": LONGEST_TEXT, "si": LONGEST_TEXT, "f": LONGEST_FORMULA, "definedName": LONGEST_FORMULA,
    "formula": LONGEST_FORMULA, "formula1": LONGEST_FORMULA, "formula2": LONGEST_FORMULA,
}  # fmt: skip
_WORDS = {"t": "text", "v": "text", "si": "text"}


class CannotRead(OSError):  # noqa: N818 - named like CannotWrite
    """A file that cannot be read as a workbook. str() is one plain sentence."""


class PartScan:
    """One pass over the XML parts; it counts over all of them."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._cells = self._values = self._pieces = self._others = self._placed = 0
        self._tags: dict[str, str] = {}
        """Name of an element with its namespace -> without."""
        self._loaded: set[str] = set()
        self._strings: list[int] = []
        """Length of each shared string, in bytes of the file."""
        self._used: Counter[str] = Counter()
        """How often each shared string is used, by its number as written."""
        self._new_part("")

    def _new_part(self, name: str) -> None:
        self._name, self._root, self._tag, self._start = name, "", "", 0
        self._string_start = -1
        self._kind: str | None = ""
        """Type of the cell the parser is in."""
        self._called: set[tuple[str, str]] = set()
        self._here: Counter[str] = Counter()
        self._shares, self._longest_shared, self._is_shared = 0, 0, False

    def part(self, package: zipfile.ZipFile, info: zipfile.ZipInfo) -> None:
        """Parse one part, if it is XML by its name or by its look."""
        named = info.filename.lower().endswith(_XML_NAMES)
        with package.open(info) as part:
            chunk = part.read(_CHUNK)
            if not named and not chunk.startswith(_XML_STARTS):
                return
            self._new_part(info.filename)
            parser = self._parser = expat.ParserCreate(namespace_separator=" ")
            parser.buffer_text = True
            parser.StartDoctypeDeclHandler = self._doctype
            parser.StartElementHandler = self._element
            parser.CharacterDataHandler = self._text
            fed = 0
            try:
                while chunk:
                    parser.Parse(chunk, False)
                    fed += len(chunk)
                    if fed - parser.CurrentByteIndex > LONGEST_PIECE:
                        self._refuse(f"one piece of the part {info.filename} is longer than any a spreadsheet writes")
                    chunk = part.read(_CHUNK)
                parser.Parse(b"", True)
                self._check_length(fed)
                self._end_string(fed)
            except (expat.ExpatError, LookupError, ValueError) as reason:
                # Old drawings are often not well formed and some parts only look like XML; a reader of them stops
                # at the same place, and what comes before it has been looked at.
                if info.filename.lower().endswith((".xml", ".rels")):
                    raise CannotRead(f"{self._path} is damaged: the part {info.filename} is not readable.") from reason
        self._check_sheet()

    def finish(self) -> None:
        """What only all parts together show."""
        total = 0
        for number, times in self._used.items():
            if number.isdecimal() and len(number) < 9 and int(number) < len(self._strings):
                total += times * self._strings[int(number)]
        if total > MOST_SHARED_TEXT:
            self._refuse("many cells share a text that is too long")

    def _check_sheet(self) -> None:
        if self._here["mergeCell"] * self._here["hyperlink"] > MOST_LOOKUPS:
            self._refuse("it has too many merged cells and links on one sheet")
        if self._shares * self._longest_shared > MOST_SHARED_FORMULA:
            self._refuse("many cells share a formula that is too long")

    def _doctype(self, *_: object) -> None:
        self._refuse("it defines its own document type, which no workbook does")

    def _element(self, name: str, attributes: dict[str, str]) -> None:
        tag = self._tags.get(name) or self._new_tag(name)
        start = self._parser.CurrentByteIndex
        if start - self._start > LONGEST_FORMULA or self._is_shared:
            self._check_length(start)
        if tag == "c" or tag == "row":
            self._cells += 1
            self._kind = attributes.get("t")
            if "r" in attributes:
                reference = attributes["r"] if tag == "c" else f"A{attributes['r']}"
                if not _NEAR(reference):
                    self._reference(tag, reference)
            if self._cells > MOST_CELLS:
                self._refuse(f"it has more than {MOST_CELLS} cells")
        elif self._root != "sst" and tag in _OF_A_CELL:
            self._values += 1
            if tag == "f" and attributes.get("t") == "shared":
                self._is_shared = True
                self._shares += 1
            if self._values > 4 * MOST_CELLS:
                self._refuse(f"it has more than {4 * MOST_CELLS} values")
        elif self._root == "sst" and tag in _OF_A_STRING:
            self._in_strings(tag, start)
        else:
            self._other(tag, attributes)
        self._tag, self._start = tag, start

    def _new_tag(self, name: str) -> str:
        tag = self._tags[name] = name.rpartition(" ")[2]
        return tag

    def _in_strings(self, tag: str, start: int) -> None:
        self._pieces += 1
        if self._pieces > MOST_STRINGS:
            self._refuse(f"it has more than {MOST_STRINGS} pieces of text")
        if tag == "si":
            self._end_string(start)
            self._string_start = start

    def _other(self, tag: str, attributes: dict[str, str]) -> None:
        """Whatever is neither a cell nor a string."""
        self._others += 1
        self._root = self._root or tag
        if self._others > MOST_OTHERS:
            self._refuse(f"it has more than {MOST_OTHERS} styles, rules, names and the like")
        if tag in _PLACED and _PLACED[tag] in attributes:
            self._here[tag] += 1
            self._reference(tag, attributes[_PLACED[tag]])
        elif tag == "numFmt":
            if len(attributes.get("formatCode", "")) > LONGEST_FORMAT:
                self._refuse("it has a number format that is too long")
        elif tag == "Override":
            self._named_xml(attributes.get("PartName", ""), attributes.get("ContentType", ""))
        elif tag == "Default":
            self._named_xml(f"*.{attributes.get('Extension', '')}", attributes.get("ContentType", ""))
        elif tag == "Relationship":
            self._relation(attributes)
        elif tag in _CALLS:
            self._call(tag, attributes)
        if attributes.get("sqref", "").count(" ") > MOST_RANGES:
            self._refuse(f"a rule has more than {MOST_RANGES} ranges")

    def _check_length(self, here: int) -> None:
        """What the element before took, with all that stands behind its start."""
        length = here - self._start
        if length > _LENGTHS.get(self._tag, length):
            self._refuse(f"it has a {_WORDS.get(self._tag, 'formula')} that is too long")
        if self._is_shared:
            self._longest_shared = max(self._longest_shared, length)
            self._is_shared = False

    def _end_string(self, here: int) -> None:
        if self._string_start >= 0:
            self._strings.append(here - self._string_start)
            if self._strings[-1] > 2 * LONGEST_TEXT:
                self._refuse("it has a text that is too long")

    def _text(self, text: str) -> None:
        if self._kind == "s" and self._tag == "v":
            self._used[text.strip()] += 1

    def _named_xml(self, name: str, kind: str) -> None:
        # A part under a misleading name might be passed over here and loaded later.
        if kind.endswith("xml") and not name.lower().endswith(_XML_NAMES):
            self._refuse(f"the part {name} has a misleading name")

    def _relation(self, attributes: dict[str, str]) -> None:
        """A sheet is loaded once for each relationship that leads to it."""
        kind = attributes.get("Type", "").rpartition("/")[2]
        if kind not in _LOADED_ONCE or attributes.get("TargetMode") == "External":
            return
        folder = posixpath.dirname(posixpath.dirname(self._name))
        target = posixpath.normpath(posixpath.join("/", folder, attributes.get("Target", ""))).casefold()
        self._named_xml(target, "xml")
        if target in self._loaded:
            self._refuse(f"the part {target} stands for several")
        self._loaded.add(target)

    def _call(self, tag: str, attributes: dict[str, str]) -> None:
        for key, value in attributes.items():
            if key.endswith(" id"):
                if (tag, value) in self._called:
                    self._refuse(f"one part of {self._name} stands for several")
                self._called.add((tag, value))

    def _reference(self, tag: str, reference: str) -> None:
        corners = [_REFERENCE(corner) for corner in reference.split(":")]
        if len(corners) > 2 or not all(corners):
            self._refuse(f"{reference[:40]!r} is not a cell")
        places = [(_column_number(corner[1]), int(corner[2])) for corner in corners if corner]
        (left, top), (right, bottom) = places[0], places[-1]
        if max(left, right) > LAST_COLUMN or max(top, bottom) > LAST_ROW:
            self._refuse(f"{reference} ({tag}) is beyond the last row or column a survey can use")
        if tag in ("c", "row"):
            return
        area = (abs(right - left) + 1) * (abs(bottom - top) + 1)
        if area > MOST_AREA:
            self._refuse(f"{reference} ({tag}) covers too many cells")
        self._placed += area
        if self._placed > MOST_PLACED:
            self._refuse(f"more than {MOST_PLACED} cells are merged or linked")

    def _refuse(self, reason: str) -> NoReturn:
        raise CannotRead(f"{self._path} is refused: {reason}.")


def _column_number(letters: str) -> int:
    number = 0
    for letter in letters.upper():
        number = 26 * number + ord(letter) - ord("A") + 1
    return number
