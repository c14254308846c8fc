"""Sheets of the made workbook carried into the user's, with everything that hangs on them.

Covers   a sheet's own part, its notes, drawings, charts, pictures and tables under names that are free, numbers of
         looks, numbers of tables.
Not      which sheets (merging), the list of sheets (book).
Rules    Names are given in a fixed order after our old parts have gone: the same sheets get the same names again.
"""

import posixpath
import re
from collections.abc import Sequence

from lxml import etree

from addin.refresh.keeping import Kept
from addin.refresh.package import (
    CannotRefresh,
    Package,
    Relation,
    Xml,
    parsed,
    relations_content,
    rels_of,
)
from addin.refresh.styles import Styles

# The made sheets are openpyxl's, as in caches: no remarks, no prefixes, no ">" in an attribute of these.
_SHARED_TEXT = re.compile(rb'<c [^>]*t="s"')
_PLAIN = re.compile(rb"(?:<\?xml[^>]*\?>\s*)?<worksheet ")
_CELL = re.compile(rb'(<(?:c|row)(?: [a-zA-Z]+="[^"]*")*? s=)"([0-9]+)"')
_COLUMN = re.compile(rb'(<col(?: [a-zA-Z]+="[^"]*")*? style=)"([0-9]+)"')
_RULE = re.compile(rb'(<cfRule(?: [a-zA-Z]+="[^"]*")*? dxfId=)"([0-9]+)"')
_SELECTED = re.compile(rb"\s+tabSelected\s*=\s*[\"'](?:1|true)[\"']")


class Carrier:
    """Carries sheets from one package into another."""

    def __init__(self, made: Package, theirs: Package, styles: Styles) -> None:
        self._made, self._theirs, self._styles = made, theirs, styles
        self._carried: dict[str, str] = {}
        """Part of the made workbook -> its name in the user's; a picture on two sheets is carried once."""

    def sheet(self, part: str, target: str, *, selected: bool, kept: Kept) -> None:
        """Put a made sheet at `target`, in place of what is there.

        Args:
            part: the sheet's part in the made workbook
            target: the name it gets
            selected: whether its tab is among those shown as chosen
            kept: what the user had put onto it
        """
        data = self._made.parts[part]
        if b"<!" in data or _SHARED_TEXT.search(data) or not _PLAIN.match(data):
            raise ValueError(f"{part} of the made workbook is not as openpyxl writes it")
        head, sign, rest = data.partition(b"<sheetData")
        head = _COLUMN.sub(self._look, _SELECTED.sub(b"", head))
        if selected:
            head = head.replace(b"<sheetView ", b'<sheetView tabSelected="1" ', 1)
        rest = _RULE.sub(self._rule, _CELL.sub(self._look, rest))
        sheet, relations = kept.on(head + sign + rest, self._brought(part))
        self._theirs.add(target, sheet, self._made.content_type(part))
        self._point(part, target, relations)

    def _point(self, part: str, target: str, relations: Sequence[Relation]) -> None:
        """Write what a carried part points at; where that is what it was, as it was."""
        made = self._made.parts.get(rels_of(part), b"")
        same = part == target and tuple(relations) == self._made.relations(part)
        if relations:
            self._theirs.parts[rels_of(target)] = made if same else relations_content(target, relations)

    def _look(self, found: "re.Match[bytes]") -> bytes:
        return b'%s"%d"' % (found[1], self._styles.cell(int(found[2])))

    def _rule(self, found: "re.Match[bytes]") -> bytes:
        return b'%s"%d"' % (found[1], self._styles.rule(int(found[2])))

    def _brought(self, part: str) -> list[Relation]:
        """What a part points at, carried after it."""
        return [
            Relation(id=r.id, type=r.type, external=r.external,
                     target=r.target if r.external else self._part(self._made.part(r.target)))
            for r in self._made.relations(part)
        ]  # fmt: skip

    def _part(self, part: str) -> str:
        if part not in self._carried:
            if part not in self._made.parts:
                raise ValueError(f"the made workbook points at {part}, which it does not have")
            target = self._theirs.free_name(part)
            self._carried[part] = target
            data = self._made.parts[part]
            if posixpath.dirname(part) == "xl/tables":
                data = self._table(data)
            self._theirs.add(target, data, self._made.content_type(part))
            self._point(part, target, self._brought(part))
        return self._carried[part]

    def _table(self, data: bytes) -> bytes:
        """A table with a number no other has; its name must be free, for formulas use it."""
        xml = Xml(data)
        root = xml.root
        others = [parsed(other) for name, other in self._theirs.parts.items() if name.startswith("xl/tables/")]
        name = root.get("displayName", "")
        if any(other.get("displayName", "").casefold() == name.casefold() for other in others):
            raise CannotRefresh(f"Your table {name} has a name that plinthbook needs: rename the table, then refresh.")
        root.set("id", str(1 + max((int(other.get("id", "0")) for other in others), default=0)))
        _renumber_rules(root, self._styles)
        return xml.content()


def _renumber_rules(root: etree._Element, styles: Styles) -> None:
    for item in root.iter(etree.Element):
        for name, value in item.items():
            if str(name).endswith(("dxfId", "DxfId")):
                item.set(name, str(styles.rule(int(value))))


def is_selected(data: bytes) -> bool:
    """Whether a sheet's tab is shown as chosen."""
    return bool(_SELECTED.search(data.partition(b"sheetData")[0]))
