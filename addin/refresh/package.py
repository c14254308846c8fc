"""A workbook file as what it is: a zip of parts that point at one another.

Covers   reading and writing the zip in its own order and with its own dates, relationships, content types, which parts
         can be reached, names for new parts.
Not      what stands in a part (book, cells, styles).
Rules    A part nobody touched is written with the bytes it was read with. XML goes through lxml, which keeps the
         prefixes that other attributes of the same file name.
"""

import io
import posixpath
import re
import zipfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any
from urllib.parse import quote, unquote

from lxml import etree

from addin.files import CannotWrite

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
STRICT = "http://purl.oclc.org/ooxml/"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
RELATIONS = "http://schemas.openxmlformats.org/package/2006/relationships"
TYPES = "http://schemas.openxmlformats.org/package/2006/content-types"
BOOK = "xl/workbook.xml"
CONTENT_TYPES = "[Content_Types].xml"

_DECLARATION = re.compile(rb"(?:\xef\xbb\xbf)?(?:<\?xml[^>]*\?>)?\s*")
_NUMBERED = re.compile(r"(.*?)[0-9]*(\.[^./]*)?")


class CannotRefresh(CannotWrite):
    """A workbook whose sheets cannot be made anew; it is left as it is. str() is one plain sentence."""


def m(tag: str) -> str:
    """A tag of the spreadsheet vocabulary as lxml writes it."""
    return f"{{{MAIN}}}{tag}"


def _tostring(tree: Any, **how: Any) -> bytes:
    return bytes(etree.tostring(tree, **how))


def parsed(data: bytes) -> etree._Element:
    """A part as a tree; nothing outside the file is looked up."""
    return etree.fromstring(data, etree.XMLParser(resolve_entities=False, no_network=True, huge_tree=True))


class Xml:
    """One part as a tree; read and written back without a change, it is the bytes it was."""

    def __init__(self, data: bytes) -> None:
        self.root = parsed(data)
        self._data = data
        self._plain = (self.root.getroottree().docinfo.encoding or "UTF-8").upper() in ("UTF-8", "ASCII", "US-ASCII")
        self._first = self._written()

    def content(self) -> bytes:
        """The part as bytes."""
        written = self._written()
        return self._data if written == self._first else written

    def _written(self) -> bytes:
        tree = self.root.getroottree()
        if not self._plain:
            return _tostring(tree, encoding=tree.docinfo.encoding, xml_declaration=True, standalone=True)
        # The first line is kept as it was: byte mark, quotes, standalone.
        start = _DECLARATION.match(self._data)
        return (start[0] if start else b"") + _tostring(tree, encoding="UTF-8", xml_declaration=False)


def new_content(root: etree._Element) -> bytes:
    """A part of ours as bytes."""
    return _tostring(root, encoding="UTF-8", xml_declaration=True, standalone=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Relation:
    """One arrow from a part."""

    id: str
    type: str
    target: str
    """Name of the part, or the address outside."""
    external: bool

    @property
    def kind(self) -> str:
        """Last word of its type: worksheet, drawing, comments ..."""
        return self.type.rpartition("/")[2]


class Package:
    """The parts of one workbook."""

    def __init__(self, data: bytes) -> None:
        with zipfile.ZipFile(io.BytesIO(data)) as file:
            self.infos = {info.filename: info for info in file.infolist()}
            self.parts = {name: file.read(name) for name in self.infos}
            self.comment = file.comment
        self._data = data
        self._read = dict(self.parts)
        self._removed: set[str] = set()

    def content(self) -> bytes:
        """The file: the bytes that were read, if no part has changed."""
        self._forget_removed()
        if self.parts == self._read:
            return self._data
        out = io.BytesIO()
        with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as file:
            file.comment = self.comment
            places = {name: place for place, name in enumerate(self.infos)}
            for name in sorted(self.parts, key=lambda name: places.get(name, len(places))):
                file.writestr(self.infos.get(name) or _info(name), self.parts[name])
        return out.getvalue()

    def part(self, name: str) -> str:
        """The name as the zip spells it; the case of letters makes no difference in a package."""
        if name in self.parts:
            return name
        return next((part for part in self.parts if part.casefold() == name.casefold()), name)

    def relations(self, part: str) -> tuple[Relation, ...]:
        """Where a part points; "" for the package itself. Places inside the same file are passed over."""
        data = self.parts.get(self.part(rels_of(part)))
        if data is None:
            return ()
        return _relations(part, data)

    def reachable(self, also: Iterable[str] = ()) -> set[str]:
        """Every part the package needs, and what `also` needs, with the parts that hold their relationships."""
        found = set(also)
        waiting = ["", *found]
        while waiting:
            part = waiting.pop()
            rels = self.part(rels_of(part))
            if rels in self.parts:
                found.add(rels)
            for relation in self.relations(part):
                target = self.part(relation.target)
                if not relation.external and target in self.parts and target not in found:
                    found.add(target)
                    waiting.append(target)
        return found

    def remove(self, names: set[str]) -> None:
        """Take parts out. A new part may get the name of one of them, and its place in the list of content types."""
        for name in names:
            del self.parts[name]
        self._removed |= names

    def _forget_removed(self) -> None:
        """Take out of the list of content types what has not come back."""
        gone = {name.casefold() for name in self._removed - set(self.parts)}
        types = Xml(self.parts[CONTENT_TYPES])
        for item in list(types.root.iter(f"{{{TYPES}}}Override")):
            if _described(item) in gone:
                types.root.remove(item)
        self.parts[CONTENT_TYPES] = types.content()

    def content_type(self, part: str) -> str:
        """What a part is said to be."""
        root = parsed(self.parts[CONTENT_TYPES])
        for item in root.iter(f"{{{TYPES}}}Override"):
            if _described(item) == part.casefold():
                return item.get("ContentType", "")
        ending = part.rpartition(".")[2].casefold()
        defaults = (i for i in root.iter(f"{{{TYPES}}}Default") if i.get("Extension", "").casefold() == ending)
        return next((item.get("ContentType", "") for item in defaults), "")

    def add(self, part: str, data: bytes, content_type: str) -> None:
        """Put a new part in, or another content into one that is there."""
        self.parts[part] = data
        if self.content_type(part) == content_type:
            return
        types = Xml(self.parts[CONTENT_TYPES])
        described = (item for item in types.root.iter(f"{{{TYPES}}}Override") if _described(item) == part.casefold())
        item = next(described, None)
        if item is None:
            item = etree.SubElement(types.root, f"{{{TYPES}}}Override")
            item.set("PartName", "/" + quote(part))
        item.set("ContentType", content_type)
        self.parts[CONTENT_TYPES] = types.content()

    def free_name(self, like: str) -> str:
        """The first name of the pattern of `like` that no part has: drawing1.xml, drawing2.xml ..."""
        taken = {name.casefold() for name in self.parts}
        found = _NUMBERED.fullmatch(like)
        stem, ending = (found[1], found[2] or "") if found else (like, "")
        number = 1
        while f"{stem}{number}{ending}".casefold() in taken:
            number += 1
        return f"{stem}{number}{ending}"


def _described(item: etree._Element) -> str:
    """The part a line of the list of content types is about, without regard to case."""
    return unquote(item.get("PartName", "")).lstrip("/").casefold()


def rels_of(part: str) -> str:
    """Name of the part that holds the relationships of `part`.

    >>> rels_of("xl/worksheets/sheet1.xml"), rels_of("")
    ('xl/worksheets/_rels/sheet1.xml.rels', '_rels/.rels')
    """
    folder, name = posixpath.split(part)
    return posixpath.join(folder, "_rels", f"{name}.rels")


def relations_content(part: str, relations: Iterable[Relation]) -> bytes:
    """The part that holds the relationships of `part`."""
    root = etree.fromstring(f'<Relationships xmlns="{RELATIONS}"/>')
    for relation in relations:
        item = etree.SubElement(root, f"{{{RELATIONS}}}Relationship")
        item.set("Id", relation.id)
        item.set("Type", relation.type)
        item.set("Target", relation.target if relation.external else relative(part, relation.target))
        if relation.external:
            item.set("TargetMode", "External")
    return new_content(root)


def relative(part: str, target: str) -> str:
    """How `part` writes the way to `target`; some readers do not find a way from the root.

    >>> relative("xl/worksheets/sheet1.xml", "xl/drawings/drawing2.xml")
    '../drawings/drawing2.xml'
    """
    return quote(posixpath.relpath(target, posixpath.dirname(part) or "."))


@lru_cache(maxsize=4096)
def _relations(part: str, data: bytes) -> tuple[Relation, ...]:
    return tuple(_relation(part, item) for item in parsed(data).iter(f"{{{RELATIONS}}}Relationship")
                 if not item.get("Target", "").startswith("#"))  # fmt: skip


def _relation(part: str, item: etree._Element) -> Relation:
    external = item.get("TargetMode") == "External"
    target = item.get("Target", "")
    if not external:
        way = unquote(target.partition("#")[0])
        target = posixpath.normpath(posixpath.join("/", posixpath.dirname(part), way)).lstrip("/")
    return Relation(id=item.get("Id", ""), type=item.get("Type", ""), target=target, external=external)


def _info(name: str) -> zipfile.ZipInfo:
    """The zip entry of a new part, with nothing in it that depends on the machine or the hour."""
    info = zipfile.ZipInfo(name)
    info.compress_type, info.create_system, info.external_attr = zipfile.ZIP_DEFLATED, 0, 0
    return info


def children(root: etree._Element, path: str) -> Iterator[etree._Element]:
    """Elements at a path of spreadsheet tags, such as "sheets/sheet"."""
    return iter(root.findall("/".join(m(tag) for tag in path.split("/"))))
