"""What the user has put onto one of our sheets stays when the sheet is made anew: a logo, a chart, notes.

Covers   drawings and notes of a sheet of ours that did not come from us.
Not      what was typed, coloured or widened on our sheets: that goes with the old sheet.
Rules    Where the made sheet has a drawing or notes of its own, those stand. A note stays at its cell, whatever
         the cell says now. The parts keep their names and bytes.
"""

import re
from collections.abc import Collection
from dataclasses import dataclass

from addin.marks import DRAWING, NOTES
from addin.refresh.package import OFFICE, Package, Relation, m, parsed

_KINDS = {DRAWING: ("drawing",), NOTES: ("vmlDrawing", "comments", "threadedComment")}
"""What a mark says of a sheet -> relationships that carry it."""
_ELEMENTS = {"drawing": "drawing", "vmlDrawing": "legacyDrawing"}
_LATER = ("legacyDrawing", "legacyDrawingHF", "picture", "oleObjects", "controls", "webPublishItems", "tableParts",
          "extLst")  # fmt: skip


@dataclass(frozen=True, slots=True)
class Kept:
    """What the user has put onto one sheet."""

    relations: tuple[Relation, ...] = ()

    def on(self, sheet: bytes, relations: Collection[Relation]) -> tuple[bytes, tuple[Relation, ...]]:
        """The made sheet with what was put onto it, and its relationships: the made ones first.

        Args:
            sheet: the made sheet
            relations: what it points at
        """
        taken = {relation.id for relation in relations}
        placed = []
        for order, relation in enumerate(self.relations, start=1):
            name = next(f"theirs{number}" for number in range(order, 9999) if f"theirs{number}" not in taken)
            placed.append(Relation(id=name, type=relation.type, target=relation.target, external=relation.external))
            taken.add(name)
            if relation.kind in _ELEMENTS:
                sheet = _inserted(sheet, _ELEMENTS[relation.kind], name)
        return sheet, (*relations, *placed)


def kept_of(package: Package, part: str, mark: str, made: Collection[Relation]) -> Kept:
    """What the user has put onto a sheet of ours.

    Args:
        package: the user's workbook
        part: the sheet
        mark: what its mark says it had when it was made
        made: what the made sheet points at
    """
    brought = {relation.kind for relation in made}
    kinds = {kind for word, kinds in _KINDS.items() if word not in mark and not brought & set(kinds) for kind in kinds}
    relations = [relation for relation in package.relations(part) if relation.kind in kinds]
    if not relations:
        return Kept()
    # A picture in the header is a drawing of the same kind, and belongs to the header.
    elements = {item.get(f"{{{OFFICE}}}id") for tag in _ELEMENTS.values()
                for item in parsed(package.parts[part]).iterfind(m(tag))}  # fmt: skip
    return Kept(tuple(r for r in relations if r.kind not in _ELEMENTS or r.id in elements))


def _inserted(sheet: bytes, tag: str, name: str) -> bytes:
    """A made sheet with one more element that points at a part, in its place among the others."""
    start = sheet.rindex(b"sheetData")
    later = "|".join(_LATER[_LATER.index(tag) + 1 :] if tag in _LATER else _LATER)
    found = re.compile(rf"<(?:{later})[ />]|</worksheet>".encode()).search(sheet, start)
    if found is None:
        raise ValueError("the made sheet has no end")
    written = f'<{tag} xmlns:r="{OFFICE}" r:id="{name}"/>'.encode()
    return sheet[: found.start()] + written + sheet[found.start() :]
