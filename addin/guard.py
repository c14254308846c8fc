"""A look at a workbook file before anything loads it.

Covers   what is no workbook at all, and the few kilobytes that would hang or flood a reader: false cell references,
         zip bombs, document types, parts outside the package.
Not      whether the sheets are the survey's (reader). No guard list is complete.
Rules    Every XML part is parsed, not searched: a search is dodged by one character reference.
Sources  The limits are this project's: some ten times the largest honest survey.
"""

import re
import struct
import zipfile
import zlib
from pathlib import Path
from typing import NoReturn
from xml.parsers import expat

MOST_PARTS = 3_000
MOST_PART_BYTES = 150_000_000
MOST_BYTES = 400_000_000
MOST_RATIO = 200
"""Unpacked to packed; honest parts have 10 to 16. Parts under a megabyte are let pass."""
LAST_ROW = 200_000
LAST_COLUMN = 1_000
MOST_AREA = 200_000
MOST_CELLS = 1_500_000

_SMALL = 1_000_000
_CHUNK = 1 << 20
_XML_NAMES = (".xml", ".rels", ".vml")
_XML_STARTS = (b"<", b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff", b"\x00<", b"\x00\x00", b" ", b"\t", b"\r", b"\n")
_REFERENCE = re.compile(r"\$?([A-Za-z]{1,3})\$?([0-9]{1,7})").fullmatch
# Those that a reader turns into cells one by one. A validation or a colour rule over whole columns stays a rule.
_PLACED = {"mergeCell": "ref", "hyperlink": "ref", "comment": "ref", "c": "r"}


class CannotRead(OSError):  # noqa: N818 - named like CannotWrite
    """A file that cannot be read as a workbook. str() is one plain sentence."""


def check_package(path: Path) -> None:
    """Raise unless the zip at `path` is a workbook that can be loaded safely.

    Raises:
        CannotRead: with one sentence that names the file and what is wrong
    """
    try:
        with zipfile.ZipFile(path) as package:
            _check_parts(path, package)
            scan = _Scan(path)
            for info in package.infolist():
                scan.part(package, info)
    except (zipfile.BadZipFile, zlib.error, struct.error, EOFError, NotImplementedError, ValueError) as reason:
        raise CannotRead(f"{path} is damaged or is not an .xlsx workbook.") from reason


def _check_parts(path: Path, package: zipfile.ZipFile) -> None:
    """The list of parts, before any is unpacked."""
    parts = package.infolist()
    names = {part.filename for part in parts}
    if "xl/workbook.bin" in names or "mimetype" in names:
        raise CannotRead(f"{path} is a spreadsheet of another format; save it as .xlsx and use that.")
    if not names >= {"[Content_Types].xml", "xl/workbook.xml"}:
        raise CannotRead(f"{path} is not an .xlsx workbook: the workbook inside is missing.")
    if len(parts) > MOST_PARTS or len(names) < len(parts):
        raise CannotRead(f"{path} is refused: it has too many parts, or one part twice.")
    if any(name.startswith("/") or "\\" in name or ".." in name.split("/") for name in names):
        raise CannotRead(f"{path} is refused: a part lies outside the workbook.")
    if any(part.flag_bits & 1 for part in parts):
        raise CannotRead(f"{path} is protected with a password; save it without one and use that.")
    if sum(part.file_size for part in parts) > MOST_BYTES or any(_swollen(part) for part in parts):
        raise CannotRead(f"{path} is refused: it unpacks to far more than a survey can hold.")


def _swollen(part: zipfile.ZipInfo) -> bool:
    swollen = part.file_size > _SMALL and part.file_size > MOST_RATIO * part.compress_size
    return swollen or part.file_size > MOST_PART_BYTES


class _Scan:
    """One pass over the XML parts; it counts cells over all of them."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._cells = 0

    def part(self, package: zipfile.ZipFile, info: zipfile.ZipInfo) -> None:
        """Parse one part, if it is XML by its name or by its look."""
        named = info.filename.lower().endswith(_XML_NAMES)
        with package.open(info) as part:
            chunk = part.read(_CHUNK)
            if not named and not chunk.startswith(_XML_STARTS):
                return
            parser = expat.ParserCreate(namespace_separator=" ")
            parser.StartDoctypeDeclHandler = self._doctype
            parser.StartElementHandler = self._element
            try:
                while chunk:
                    parser.Parse(chunk, False)
                    chunk = part.read(_CHUNK)
                parser.Parse(b"", True)
            except (expat.ExpatError, LookupError, ValueError) as reason:
                # Old drawings are often not well formed and some parts only look like XML; a reader of them stops
                # at the same place, and what comes before it has been looked at.
                if info.filename.lower().endswith((".xml", ".rels")):
                    raise CannotRead(f"{self._path} is damaged: the part {info.filename} is not readable.") from reason

    def _doctype(self, *_: object) -> None:
        self._refuse("it defines its own document type, which no workbook does")

    def _element(self, name: str, attributes: dict[str, str]) -> None:
        tag = name.rpartition(" ")[2]
        if tag in ("c", "row"):
            self._cells += 1
            if self._cells > MOST_CELLS:
                self._refuse(f"it has more than {MOST_CELLS} cells")
        if tag in _PLACED and _PLACED[tag] in attributes:
            self._reference(tag, attributes[_PLACED[tag]])
        elif tag == "row" and "r" in attributes:
            self._reference(tag, f"A{attributes['r']}")
        elif tag == "Override":
            self._named_xml(attributes.get("PartName", ""), attributes.get("ContentType", "").endswith("xml"))

    def _named_xml(self, name: str, is_xml: bool) -> None:
        # A part under a misleading name might be passed over here and loaded later.
        if is_xml and not name.lower().endswith(_XML_NAMES):
            self._refuse(f"the part {name} has a misleading name")

    def _reference(self, tag: str, reference: str) -> None:
        corners = [_REFERENCE(corner) for corner in reference.split(":")]
        if len(corners) > 2 or not all(corners):
            self._refuse(f"{reference!r} is not a cell")
        places = [(_column_number(corner[1]), int(corner[2])) for corner in corners if corner]
        (left, top), (right, bottom) = places[0], places[-1]
        if max(left, right) > LAST_COLUMN or max(top, bottom) > LAST_ROW:
            self._refuse(f"{reference} ({tag}) is beyond the last row or column a survey can use")
        if (abs(right - left) + 1) * (abs(bottom - top) + 1) > MOST_AREA:
            self._refuse(f"{reference} ({tag}) covers too many cells")

    def _refuse(self, reason: str) -> NoReturn:
        raise CannotRead(f"{self._path} is refused: {reason}.")


def _column_number(letters: str) -> int:
    number = 0
    for letter in letters.upper():
        number = 26 * number + ord(letter) - ord("A") + 1
    return number
