"""Our sheets regenerated inside the user's workbook: the order of the steps.

Covers   which sheets are ours, what is refused, sheets replaced and added, cells grafted, names, looks, parts that
         are no longer needed.
Not      results of the user's own formulas (freshening), files (in_place).
Rules    Every part that is not ours, and is not the list of sheets, looks or parts, keeps its bytes. Doing it twice is
         doing it once. A sheet is ours only if it has our mark.
"""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from addin.refresh.book import Book, Sheet, titles_in
from addin.refresh.carrying import Carrier, is_selected
from addin.refresh.cells import SheetCells
from addin.refresh.grafting import Graft
from addin.refresh.keeping import Kept, kept_of
from addin.refresh.package import CannotRefresh, Package, Xml, m, parsed, rels_of
from addin.refresh.styles import Styles


def merge(
    theirs: bytes, made: bytes, replaced: Collection[str], grafts: Mapping[str, Collection[str]] | None = None
) -> bytes:
    """The user's workbook with our sheets as in the made one.

    Args:
        theirs: the user's .xlsx or .xlsm
        made: the complete estimate workbook, with its results
        replaced: titles of sheets that are replaced, or added at the end where they are missing
        grafts: title of another sheet -> cells whose content is taken from the made workbook

    Returns:
        The whole file; `theirs` itself where nothing is different.

    Raises:
        CannotRefresh: with one sentence; nothing has been done
    """
    target, source = Package(theirs), Package(made)
    book, new = Book(target), Book(source)
    _check_made(book, new, replaced, grafts or {})
    _check_ours(book, replaced)
    styles_part = _styles_part(book, new)
    styles_xml = Xml(target.parts[styles_part])
    styles = Styles(styles_xml.root, parsed(source.parts[new.related("styles")]))
    old = _take_out_old(book, new, replaced)
    _put_sheets(book, new, Carrier(source, target, styles), replaced, old)
    _put_grafts(book, new, styles, grafts or {})
    book.take_names(new, replaced)
    book.recalculate_when_opened()
    book.keep()
    target.parts[styles_part] = styles_xml.content()
    return target.content()


def _check_made(book: Book, new: Book, replaced: Collection[str], grafts: Mapping[str, Collection[str]]) -> None:
    """What the program, not the user, has got wrong: a sheet that would be missing in the end."""
    made = {sheet.title for sheet in new.sheets}
    there = {sheet.title.casefold() for sheet in book.sheets} | {title.casefold() for title in replaced}
    missing = [title for title in (*replaced, *grafts) if title not in made]
    missing += [title for title in made if title.casefold() not in there]
    missing += [title for text in new.names.values() for title in titles_in(text) if title not in there]
    if missing:
        raise ValueError(f"no sheet {', '.join(sorted(set(missing)))} to take or to point at")


def _check_ours(book: Book, replaced: Collection[str]) -> None:
    """Refuse to write over a sheet of the user's that has a title of ours."""
    for sheet in _found(book, replaced).values():
        if not sheet.mark or sheet.kind != "worksheet":
            raise CannotRefresh(f"The sheet {sheet.title} was not made by plinthbook and has the title of one of its "
                                "sheets: rename yours, then refresh.")  # fmt: skip


def _found(book: Book, titles: Collection[str]) -> dict[str, Sheet]:
    """Title of ours -> the sheet of the user's workbook that has it."""
    there = {sheet.title.casefold(): sheet for sheet in book.sheets}
    return {title: there[title.casefold()] for title in titles if title.casefold() in there}


def _styles_part(book: Book, new: Book) -> str:
    """The user's list of looks; a workbook without one gets ours."""
    part = book.related("styles")
    if part in book.package.parts:
        return part
    part = "xl/styles.xml" if "xl/styles.xml" not in book.package.parts else book.package.free_name("xl/styles.xml")
    ours = new.related("styles")
    book.package.add(part, new.package.parts[ours], new.package.content_type(ours))
    book.relate("styles", part)
    book.keep()
    return part


@dataclass(frozen=True, slots=True)
class _Old:
    """What stays of an old sheet of ours."""

    selected: bool
    kept: Kept


def _take_out_old(book: Book, new: Book, replaced: Collection[str]) -> dict[str, _Old]:
    """Take out what only our old sheets needed, and the order of calculation."""
    package = book.package
    before, old = package.reachable(), {}
    made = {sheet.title: new.package.relations(sheet.part) for sheet in new.sheets}
    for title, sheet in _found(book, replaced).items():
        kept_here = kept_of(package, sheet.part, sheet.mark, made[title])
        old[title] = _Old(is_selected(package.parts[sheet.part]), kept_here)
        package.parts.pop(package.part(rels_of(sheet.part)), None)
    book.drop("calcChain")
    book.keep()
    kept = [package.part(r.target) for sheet in old.values() for r in sheet.kept.relations if not r.external]
    gone = before - package.reachable(part for part in kept if part in package.parts)
    package.remove({part for part in gone if part in package.parts})
    return old


def _put_sheets(book: Book, new: Book, carrier: Carrier, replaced: Collection[str], old: Mapping[str, _Old]) -> None:
    there = _found(book, replaced)
    for sheet in new.sheets:
        if sheet.title in there:
            before = old[sheet.title]
            part = there[sheet.title].part
            carrier.sheet(sheet.part, part, selected=before.selected, kept=before.kept)
        elif sheet.title in replaced:
            part = book.package.free_name("xl/worksheets/sheet1.xml")
            carrier.sheet(sheet.part, part, selected=False, kept=Kept())
            book.add_sheet(sheet.title, part, new)
            book.keep()


def _put_grafts(book: Book, new: Book, styles: Styles, grafts: Mapping[str, Collection[str]]) -> None:
    parts = {sheet.title: sheet.part for sheet in new.sheets}
    there = _found(book, tuple(grafts))
    texts = shared_texts(book) if grafts else ()
    for title, cells in sorted(grafts.items()):
        part = there[title].part
        made = SheetCells.of(new.package.parts[parts[title]])
        looks = dict(_looks(made, cells, styles, SheetCells.of(book.package.parts[part])))
        book.package.parts[part] = Graft(title, book.package.parts[part], made, texts).content(cells, looks)


def _looks(made: SheetCells, cells: Collection[str], styles: Styles, theirs: SheetCells) -> Iterator[tuple[str, int]]:
    """Looks of cells that are new; those that are there keep theirs, and nothing is added for them."""
    have = {piece.attributes.get("r") for piece in theirs.cells.values()}
    for piece in made.cells.values():
        cell = piece.attributes.get("r", "")
        if cell in cells and cell not in have and "s" in piece.attributes:
            yield cell, styles.cell(int(piece.attributes["s"]))


def shared_texts(book: Book) -> tuple[str, ...]:
    """The texts that cells of a workbook share, without what only says how to pronounce them."""
    part = book.related("sharedStrings")
    if part not in book.package.parts:
        return ()
    return tuple(
        "".join(text.text or "" for text in item.iter(m("t")) if not _is_phonetic(text))
        for item in parsed(book.package.parts[part]).iterfind(m("si"))
    )


def _is_phonetic(text: "object") -> bool:
    parent = text.getparent()  # type: ignore[attr-defined]
    return parent is not None and parent.tag == m("rPh")
