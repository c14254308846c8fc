"""The workbook part: which sheets there are, in which order, and the names.

Covers   sheets by title, a new sheet at the end, names of the workbook and of single sheets, the order to recalculate.
Not      what stands on the sheets.
Rules    Order, numbers and tabs of the sheets that are there stay. A name of the user's stays unless it is ours by its
         note or by its meaning; a name we need that means something else is refused, never taken.
"""

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass

from lxml import etree

from addin.marks import NAME_NOTE, SHEET_MARK
from addin.refresh.package import (
    BOOK,
    OFFICE,
    STRICT,
    CannotRefresh,
    Package,
    Relation,
    Xml,
    children,
    m,
    relative,
    rels_of,
)

_ORDER = ("fileVersion", "fileSharing", "workbookPr", "workbookProtection", "bookViews", "sheets", "functionGroups",
          "externalReferences", "definedNames", "calcPr", "oleSize", "customWorkbookViews", "pivotCaches",
          "smartTagPr", "smartTagTypes", "webPublishing", "fileRecoveryPr", "webPublishObjects", "extLst")  # fmt: skip
_IN_REFERENCE = re.compile(r"'((?:[^']|'')+)'!|([^\W\d][\w.]*)!")
_TEXT = re.compile(r'"(?:[^"]|"")*"')
_NAME = m("definedName")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet of a workbook."""

    title: str
    part: str
    kind: str
    """worksheet, chartsheet ..."""
    mark: str
    """What our mark says of it; empty where it has none."""


class Book:
    """The workbook part of a package, and the part that says where its sheets are."""

    def __init__(self, package: Package) -> None:
        self.package = package
        self.xml = Xml(package.parts[BOOK])
        self.rels = Xml(package.parts[package.part(rels_of(BOOK))])
        root = self.xml.root
        if str(root.tag).startswith(f"{{{STRICT}"):
            raise CannotRefresh(
                'It is saved as "Strict Open XML"; save it as the usual kind of .xlsx and refresh that.'
            )
        if root.tag != m("workbook"):
            raise CannotRefresh("Its workbook part is not that of an .xlsx workbook.")
        settings = root.find(m("workbookPr"))
        if settings is not None and settings.get("date1904") in ("1", "true"):
            raise CannotRefresh("It counts days from 1904; turn that off in the options of the workbook, look at its "
                                "dates, and refresh again.")  # fmt: skip

    # ------------------------------------------------------------------------------------------ sheets

    @property
    def sheets(self) -> tuple[Sheet, ...]:
        """Every sheet in the order of the tabs."""
        relations = {relation.id: relation for relation in self._relations()}
        marks = {name.get("localSheetId"): name.text or "" for name in self._names()
                 if name.get("name", "").casefold() == SHEET_MARK.casefold()}  # fmt: skip
        found = []
        for place, item in enumerate(children(self.xml.root, "sheets/sheet")):
            relation = relations.get(item.get(f"{{{OFFICE}}}id", ""))
            if relation is None:
                raise CannotRefresh(f"Its sheet {item.get('name')} is missing inside the file; repair it and refresh.")
            found.append(Sheet(title=item.get("name", ""), part=self.package.part(relation.target), kind=relation.kind,
                               mark=marks.get(str(place), "")))  # fmt: skip
        return tuple(found)

    def add_sheet(self, title: str, part: str, like: "Book") -> None:
        """A new sheet behind all others, hidden or not as in `like`."""
        sheets = self.xml.root.find(m("sheets"))
        if sheets is None:
            raise CannotRefresh("It has no sheets.")
        state = next((s.get("state") for s in children(like.xml.root, "sheets/sheet") if s.get("name") == title), None)
        number = 1 + max(int(sheet.get("sheetId", "0")) for sheet in sheets)
        item = etree.SubElement(sheets, m("sheet"), nsmap={"r": OFFICE})
        item.set("name", title)
        item.set("sheetId", str(number))
        if state not in (None, "visible"):
            item.set("state", str(state))
        item.set(f"{{{OFFICE}}}id", self._relate("worksheet", part))

    def _relate(self, kind: str, part: str) -> str:
        taken = {item.get("Id") for item in self.rels.root}
        number = 1
        while f"rId{number}" in taken:
            number += 1
        item = etree.SubElement(self.rels.root, self._relation_tag)
        for name, value in (("Id", f"rId{number}"), ("Type", f"{OFFICE}/{kind}"), ("Target", relative(BOOK, part))):
            item.set(name, value)
        return f"rId{number}"

    def related(self, kind: str) -> str:
        """The part of a kind that the workbook has one of, such as its styles; empty if it has none."""
        return next((self.package.part(r.target) for r in self._relations() if r.kind == kind), "")

    def relate(self, kind: str, part: str) -> None:
        """Point at a part of the workbook's own."""
        self._relate(kind, part)

    def drop(self, kind: str) -> None:
        """Point at no part of that kind any more."""
        for item in list(self.rels.root):
            if item.get("Type", "").endswith(f"/{kind}"):
                self.rels.root.remove(item)

    @property
    def _relation_tag(self) -> str:
        return str(self.rels.root.tag).replace("Relationships", "Relationship")

    def _relations(self) -> tuple[Relation, ...]:
        return self.package.relations(BOOK)

    # ------------------------------------------------------------------------------------------ names

    def _names(self) -> list[etree._Element]:
        return list(children(self.xml.root, "definedNames/definedName"))

    @property
    def names(self) -> dict[tuple[str, str], str]:
        """(name, place of its sheet or "" for the workbook) -> what it stands for; names without regard to case."""
        return {_scope(name): name.text or "" for name in self._names()}

    def take_names(self, made: "Book", replaced: Collection[str]) -> None:
        """The names of the made workbook in place of ours: those of the workbook and of the replaced sheets.

        Raises:
            CannotRefresh: a name we need is the user's
        """
        places = {sheet.title.casefold(): str(place) for place, sheet in enumerate(self.sheets)}
        titles = [sheet.title.casefold() for sheet in made.sheets]
        ours = {places[title.casefold()] for title in replaced}
        wanted = {}
        for name in made._names():
            scope = name.get("localSheetId")
            if scope is None:
                wanted[_scope(name)] = name
            elif places.get(titles[int(scope)]) in ours:
                wanted[name.get("name", "").casefold(), places[titles[int(scope)]]] = name
        self._check_names(wanted, set(titles))
        self._place_names(wanted, ours)

    def _check_names(self, wanted: Mapping[tuple[str, str], etree._Element], titles: set[str]) -> None:
        for name in self._names():
            # The note alone proves nothing: its cell may have been changed by hand.
            if _scope(name) in wanted and not name.get("localSheetId") and not _means_ours(name.text or "", titles):
                raise CannotRefresh(f"The name {name.get('name')} is yours (it stands for {name.text}) and plinthbook "
                                    "needs it: rename yours in the name manager, then refresh.")  # fmt: skip
        tables = {title.casefold(): title for title in self._table_names()}
        for key in wanted:
            if key[0] in tables:
                raise CannotRefresh(f"Your table {tables[key[0]]} has a name that plinthbook needs: rename the table, "
                                    "then refresh.")  # fmt: skip

    def _table_names(self) -> list[str]:
        return [_table_name(data) for part, data in self.package.parts.items() if part.startswith("xl/tables/")]

    def _place_names(self, wanted: Mapping[tuple[str, str], etree._Element], ours: set[str]) -> None:
        """Each name where it stood, new ones behind, names of ours that are no longer needed taken out."""
        parent = self._section("definedNames")
        left = dict(wanted)
        for name in list(parent):
            key = _scope(name)
            if key in left:
                _write_name(name, left.pop(key), key[1])
            elif name.get("comment") == NAME_NOTE or (key[1] in ours and key[0].startswith("_xlnm.")):
                parent.remove(name)
        for key, name in left.items():
            _write_name(etree.SubElement(parent, _NAME), name, key[1])
        if not len(parent):
            self.xml.root.remove(parent)

    # ------------------------------------------------------------------------------------------ the rest

    def recalculate_when_opened(self) -> None:
        """Ask the spreadsheet program to work everything out when it opens the file."""
        self._section("calcPr").set("fullCalcOnLoad", "1")

    def _section(self, name: str) -> etree._Element:
        found = self.xml.root.find(m(name))
        if found is None:
            found = etree.SubElement(self.xml.root, m(name))
            later = {m(other) for other in _ORDER[_ORDER.index(name) + 1 :]}
            after = next((item for item in self.xml.root if item.tag in later), None)
            if after is not None:
                after.addprevious(found)
        return found

    def keep(self) -> None:
        """Put both parts back into the package."""
        self.package.parts[BOOK] = self.xml.content()
        self.package.parts[self.package.part(rels_of(BOOK))] = self.rels.content()


def titles_in(formula: str) -> set[str]:
    """Titles of the sheets a reference names, without regard to case.

    >>> sorted(titles_in("'Ground check'!$A$1+Offer!B2"))
    ['ground check', 'offer']
    """
    return {
        (quoted.replace("''", "'") or bare).casefold() for quoted, bare in _IN_REFERENCE.findall(_TEXT.sub("", formula))
    }


def _means_ours(text: str, titles: set[str]) -> bool:
    """Whether a name points at sheets of ours or of the survey only, or at what is gone."""
    named = titles_in(text)
    return "#REF!" in text or (bool(named) and named <= titles)


def _table_name(data: bytes) -> str:
    return Xml(data).root.get("displayName", "")


def _scope(name: etree._Element) -> tuple[str, str]:
    return name.get("name", "").casefold(), name.get("localSheetId", "")


def _write_name(name: etree._Element, like: etree._Element, scope: str) -> None:
    spelled = name.get("name") or like.get("name", "")
    for attribute in list(name.attrib):
        del name.attrib[attribute]
    for attribute, value in like.items():
        name.set(attribute, str({"name": spelled, "localSheetId": scope}.get(str(attribute), value)))
    name.text = like.text or ""
