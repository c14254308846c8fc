"""Whether a workbook may be changed where it stands.

Covers   open in a spreadsheet, read-only file or folder, marked as final or read-only by its author, signed,
         structure protected, shared with a log of changes.
Not      whether its sheets are ours (refresh), writing it (files).
Rules    A message is one plain sentence that names the file and what to do. A mark that the author put on the file
         is kept: it is never taken off to get the work done.
"""

import os
import zipfile
from pathlib import Path
from xml.etree import ElementTree

from addin.files import CannotRead, CannotWrite, check_is_workbook, check_target

_TRUE = frozenset({"1", "true", "on"})
_ROOT_RELATIONS = "_rels/.rels"
_SIGNED = "digital-signature/origin"
_LOGGED = ("/revisionHeaders", "/usernames")
_WORKBOOK = "/officeDocument"


def check_changeable(path: str | os.PathLike[str]) -> None:
    """Raise unless the workbook at `path` may be replaced by a changed copy of itself. Nothing is written.

    Args:
        path: the workbook; a link is followed

    Raises:
        CannotWrite: with one sentence
    """
    target = Path(os.path.realpath(path))
    try:
        check_is_workbook(target)
    except CannotRead as reason:
        raise CannotWrite(str(reason)) from reason
    check_target(target)
    _check_not_held(target)
    with zipfile.ZipFile(target) as package:
        mark = _mark_of(package)
    if mark:
        raise CannotWrite(f"{target} is not changed where it stands: {mark}.")


def _check_not_held(target: Path) -> None:
    """A program that has the file open without a lock file beside it is noticed on Windows only."""
    try:
        with target.open("r+b"):
            pass
    except OSError as reason:
        raise CannotWrite(f"{target} cannot be changed: it is open in another program, or it is not yours.") from reason


def _mark_of(package: zipfile.ZipFile) -> str:
    """What the author put on the workbook that speaks against a change, and what to do; nothing if there is nothing."""
    names = package.namelist()
    relations = _relations(package, _ROOT_RELATIONS)
    if any(kind.endswith(_SIGNED) for kind, _ in relations) or any(n.startswith("_xmlsignatures/") for n in names):
        return "it is digitally signed, and a change would break the signature; remove the signature or use a copy"
    main = next((place for kind, place in relations if kind.endswith(_WORKBOOK)), "xl/workbook.xml")
    folder, _, name = main.rpartition("/")
    if any(kind.endswith(_LOGGED) for kind, _ in _relations(package, f"{folder}/_rels/{name}.rels")):
        return "it is shared with a log of changes; stop sharing it first"
    if main not in names:
        return "its main part is not where it says"
    return _mark_of_workbook(ElementTree.fromstring(package.read(main))) or _mark_of_final(package)


def _mark_of_workbook(book: ElementTree.Element) -> str:
    for element in book.iter():
        tag = element.tag.rpartition("}")[2]
        if tag == "workbookProtection" and element.get("lockStructure") in _TRUE:
            return "the structure of the workbook is protected; take the protection off under Review first"
        if tag == "workbookProtection" and element.get("lockRevision") in _TRUE:
            return "it is shared with a log of changes; stop sharing it first"
        if tag == "fileSharing" and (element.get("readOnlyRecommended") in _TRUE or _password(element)):
            return "its author asked that it be opened read-only; take that mark off or use a copy"
    return ""


def _password(sharing: ElementTree.Element) -> bool:
    return bool(sharing.get("reservationPassword") or sharing.get("hashValue"))


def _mark_of_final(package: zipfile.ZipFile) -> str:
    if "docProps/custom.xml" not in package.namelist():
        return ""
    for mark in ElementTree.fromstring(package.read("docProps/custom.xml")):
        if mark.get("name") == "_MarkAsFinal" and "".join(mark.itertext()).strip() in _TRUE:
            return "it is marked as final; take the mark off or use a copy"
    return ""


def _relations(package: zipfile.ZipFile, name: str) -> list[tuple[str, str]]:
    """Kind and target of every relationship in a part that may be missing; targets without the leading slash."""
    if name not in package.namelist():
        return []
    return [
        (relation.get("Type", ""), relation.get("Target", "").lstrip("/"))
        for relation in ElementTree.fromstring(package.read(name))
    ]
