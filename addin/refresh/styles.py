"""Looks of our cells in the user's list of styles.

Covers   fonts, fills, borders, number formats, cell formats, named styles and formats of rules that made sheets use:
         where each stands in the user's list, and what is added to it.
Not      the cells that carry the numbers (carrying, grafting).
Rules    A record that is there already is used again, else the list would grow at each refresh. A named style of the
         user's wins over ours of that name. Records are only added at the end: everything else counts from the start.
"""

from collections.abc import Mapping
from functools import cache

from lxml import etree

from addin.refresh.package import MAIN, m

_ORDER = ("numFmts", "fonts", "fills", "borders", "cellStyleXfs", "cellXfs", "cellStyles", "dxfs", "tableStyles",
          "colors", "extLst")  # fmt: skip
_PARTS = {"fontId": "fonts", "fillId": "fills", "borderId": "borders"}
_FIRST_OWN_FORMAT = 164
"""Number formats below it are built in and need no record."""
_TRUE = {"true": "1", "false": "0"}

Key = tuple[object, ...]


class Styles:
    """The user's list of styles, and where our records stand in it."""

    def __init__(self, theirs: etree._Element, ours: etree._Element) -> None:
        self._theirs, self._ours = theirs, ours
        self._known: dict[str, dict[Key, int]] = {}
        self._formats = {item.get("formatCode", ""): int(item.get("numFmtId", "0"))
                         for item in theirs.iterfind(f"{m('numFmts')}/{m('numFmt')}")}  # fmt: skip
        self._our_formats = {int(item.get("numFmtId", "0")): item.get("formatCode", "")
                             for item in ours.iterfind(f"{m('numFmts')}/{m('numFmt')}")}  # fmt: skip
        self.cell = cache(self._cell)
        self.rule = cache(self._rule)
        self._named = cache(self._named_style)
        self._part = cache(self._part_record)

    # ------------------------------------------------------------------------------------------ what is asked for

    def _cell(self, number: int) -> int:
        """Where our cell format `number` stands in the user's list."""
        record = self._record("cellXfs", number)
        style = int(record.get("xfId", "0"))
        named = self._named(style)
        content, kept = list(record), {}
        theirs = _items(self._section("cellStyleXfs"))
        if named < len(theirs):
            # What the cell has from its named style, it has from the user's version of it.
            ours = self._record("cellStyleXfs", style)
            kept = {name: theirs[named].get(name, "0") for name in ("numFmtId", *_PARTS)
                    if record.get(name, "0") == ours.get(name, "0")}  # fmt: skip
            content = [_of_style(item, ours, theirs[named]) for item in content]
        values = self._mapped(record, kept)
        values["xfId"] = str(named)
        return self._placed("cellXfs", _built(self._section("cellXfs"), "xf", values, content))

    def _rule(self, number: int) -> int:
        """Where our format `number` of a conditional rule stands in the user's list."""
        record = self._record("dxfs", number)
        copied = _adopted(self._section("dxfs"), record)
        for item in copied.iter(m("numFmt")):
            item.set("numFmtId", str(self._format(item.get("formatCode", ""), int(item.get("numFmtId", "0")))))
        return self._placed("dxfs", copied)

    # ------------------------------------------------------------------------------------------ records

    def _mapped(self, record: etree._Element, kept: Mapping[str, str]) -> dict[str, str]:
        """The attributes of a cell format as the user's list counts them, some of them known already."""
        values = {str(name): str(value) for name, value in record.items()} | dict(kept)
        for name, section in _PARTS.items():
            if name not in kept:
                values[name] = str(self._part(section, int(values.get(name, "0"))))
        if "numFmtId" not in kept:
            number = int(values.get("numFmtId", "0"))
            values["numFmtId"] = str(self._format(self._our_formats.get(number, ""), number))
        return values

    def _part_record(self, section: str, number: int) -> int:
        return self._placed(section, _adopted(self._section(section), self._record(section, number)))

    def _format(self, code: str, number: int) -> int:
        """The number of a number format; built-in ones are the same everywhere."""
        if number < _FIRST_OWN_FORMAT or not code:
            return number
        if code not in self._formats:
            self._formats[code] = max([_FIRST_OWN_FORMAT - 1, *self._formats.values()]) + 1
            section = self._section("numFmts")
            _built(section, "numFmt", {"numFmtId": str(self._formats[code]), "formatCode": code}, [])
            _count(section)
        return self._formats[code]

    def _named_style(self, style: int) -> int:
        """Where the named style that our list counts as `style` stands; the user's if there is one of that name."""
        ours = next((s for s in self._ours.iterfind(f"{m('cellStyles')}/{m('cellStyle')}")
                     if int(s.get("xfId", "0")) == style), None)  # fmt: skip
        if ours is None:
            return 0
        for theirs in self._theirs.iterfind(f"{m('cellStyles')}/{m('cellStyle')}"):
            # A built-in style has another name in each language, and its number in all of them.
            built_in = ours.get("builtinId") is not None and ours.get("builtinId") == theirs.get("builtinId")
            if built_in or theirs.get("name", "").casefold() == ours.get("name", "").casefold():
                return int(theirs.get("xfId", "0"))
        if style == 0:
            return 0  # a list without named styles has the plain one all the same
        record = self._record("cellStyleXfs", style)
        section = self._section("cellStyleXfs")
        _built(section, "xf", self._mapped(record, {}), list(record))
        _count(section)
        names = self._section("cellStyles")
        values = {str(name): str(value) for name, value in ours.items()} | {"xfId": str(len(_items(section)) - 1)}
        _built(names, "cellStyle", values, [])
        _count(names)
        return len(_items(section)) - 1

    def _placed(self, section: str, record: etree._Element) -> int:
        """The place of a record that was just added at the end: an earlier one like it, or its own."""
        parent = self._section(section)
        if section not in self._known:
            known: dict[Key, int] = {}
            for place, item in enumerate(_items(parent)):
                if item is not record:
                    known.setdefault(_key(item), place)
            self._known[section] = known
        key = _key(record)
        if key in self._known[section]:
            parent.remove(record)
            return self._known[section][key]
        _count(parent)
        self._known[section][key] = len(_items(parent)) - 1
        return self._known[section][key]

    def _record(self, section: str, number: int) -> etree._Element:
        found = self._ours.find(m(section))
        items = [] if found is None else _items(found)
        if number >= len(items):
            raise ValueError(f"the made workbook has no record {number} in {section}")
        return items[number]

    def _section(self, name: str) -> etree._Element:
        """A section of the user's list, made in its place if it is missing."""
        found = self._theirs.find(m(name))
        if found is None:
            found = etree.SubElement(self._theirs, m(name))
            later = {m(other) for other in _ORDER[_ORDER.index(name) + 1 :]}
            after = next((item for item in self._theirs if item.tag in later), None)
            if after is not None:
                after.addprevious(found)
            if name in ("cellStyleXfs", "cellStyles"):
                self._plain_style(name, found)
        return found

    @staticmethod
    def _plain_style(name: str, section: etree._Element) -> None:
        """The first record of a list of named styles, which every cell without one goes by."""
        plain = {"numFmtId": "0", "fontId": "0", "fillId": "0", "borderId": "0"}
        normal = {"name": "Normal", "xfId": "0", "builtinId": "0"}
        _built(section, *(("xf", plain, []) if name == "cellStyleXfs" else ("cellStyle", normal, [])))
        _count(section)


def _of_style(item: etree._Element, ours: etree._Element, theirs: etree._Element) -> etree._Element:
    """Alignment or protection of a cell: from the user's version of its style, if it is the style's in ours."""
    style, other = ours.find(item.tag), theirs.find(item.tag)
    same = style is not None and other is not None and _key(style) == _key(item)
    return other if same and other is not None else item


def _built(
    parent: etree._Element, tag: str, values: Mapping[str, str], content: list[etree._Element]
) -> etree._Element:
    """A record at the end of a section, with the prefix the file uses."""
    element = etree.SubElement(parent, m(tag), dict(values))
    for item in content:
        _adopted(element, item)
    return element


def _adopted(parent: etree._Element, element: etree._Element) -> etree._Element:
    """A copy of an element at the end of `parent`, with the prefixes of its new file."""
    copied = etree.SubElement(parent, element.tag, {str(name): str(value) for name, value in element.items()})
    copied.text = element.text
    for item in element:
        if isinstance(item.tag, str):
            _adopted(copied, item)
    return copied


def _count(section: etree._Element) -> None:
    section.set("count", str(len(_items(section))))


def _items(section: etree._Element) -> list[etree._Element]:
    """The records of a section, without remarks between them: numbers count records."""
    return [item for item in section if isinstance(item.tag, str)]


def _key(element: etree._Element) -> Key:
    """What two records share that look alike, however each program writes them."""
    if not isinstance(element.tag, str):
        return ()
    values = sorted(_plain(str(name), str(value)) for name, value in element.items())
    content = sorted((_key(item) for item in element), key=repr)
    tag = element.tag.removeprefix(f"{{{MAIN}}}")
    kept = tuple(value for value in values if value[1] != "0" or not value[0].startswith(("apply", "pivot", "quote")))
    if tag in ("b", "i") and kept == (("val", "1"),):
        kept = ()  # written or not, it is the default
    return tag, kept, tuple(content)


def _plain(name: str, value: str) -> tuple[str, str]:
    if name == "rgb" and len(value) == 8:
        # Whether a colour is said to be opaque makes no difference in a cell.
        return name, value[2:].upper()
    return name, _TRUE.get(value, value)
