"""addin.locks: a workbook is changed where it stands only if nobody has it open and its author does not mind."""

import io
import os
import zipfile

import openpyxl
import pytest
from openpyxl.packaging.custom import BoolProperty
from openpyxl.workbook.protection import WorkbookProtection

from addin.files import CannotWrite
from addin.locks import check_changeable

RELATION = '<Relationship Id="rId99" Type="{}" Target="{}"/></Relationships>'
SIGNATURE = "http://schemas.openxmlformats.org/package/2006/relationships/digital-signature/origin"
REVISIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/revisionHeaders"


def book_bytes(prepare=None) -> bytes:
    book = openpyxl.Workbook()
    if prepare:
        prepare(book)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def altered(part: str, old: str, new: str, extra: tuple[str, ...] = ()) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(book_bytes())) as source, zipfile.ZipFile(out, "w") as target:
        for name in source.namelist():
            text = source.read(name)
            if name == part:
                assert old.encode() in text
                text = text.replace(old.encode(), new.encode(), 1)
            target.writestr(name, text)
        for name in extra:
            target.writestr(name, b"<a/>")
    return out.getvalue()


@pytest.fixture
def house(tmp_path):
    path = tmp_path / "house.xlsx"
    path.write_bytes(book_bytes())
    return path


def refused(path, sentence):
    before = path.read_bytes()
    with pytest.raises(CannotWrite, match=sentence) as caught:
        check_changeable(path)
    text = str(caught.value)
    assert text.startswith(str(path))
    assert text.endswith(".")
    assert "\n" not in text
    assert text.count(". ") == 0
    assert path.read_bytes() == before


def test_a_plain_workbook_may_be_changed_and_is_not_touched(house):
    before = (house.read_bytes(), house.stat().st_mtime_ns)
    check_changeable(house)
    check_changeable(str(house))
    assert (house.read_bytes(), house.stat().st_mtime_ns) == before
    assert [path.name for path in house.parent.iterdir()] == ["house.xlsx"]


@pytest.mark.parametrize("lock", ["~$house.xlsx", ".~lock.house.xlsx#"])
def test_a_workbook_open_in_a_spreadsheet_is_left_alone(house, lock):
    house.with_name(lock).write_bytes(b"")
    refused(house, "is open in a spreadsheet; close it there")


def test_the_lock_of_another_workbook_does_not_count(house):
    house.with_name("~$my house.xlsx").write_bytes(b"")
    check_changeable(house)


def test_the_lock_beside_the_file_behind_a_link_counts(house, tmp_path):
    (tmp_path / "links").mkdir()
    link = tmp_path / "links" / "link.xlsx"
    link.symlink_to(house)
    check_changeable(link)
    house.with_name("~$house.xlsx").write_bytes(b"")
    with pytest.raises(CannotWrite, match="is open in a spreadsheet"):
        check_changeable(link)


def test_a_read_only_file_is_left_alone(house):
    house.chmod(0o444)
    refused(house, "is marked read-only; take the mark off")


def test_a_read_only_folder_is_told(house, monkeypatch):
    # Asked, not tried: the tests may run as a user who may write everywhere.
    monkeypatch.setattr(os, "access", lambda path, mode: not (mode & os.W_OK and path == house.parent))
    with pytest.raises(CannotWrite, match=r"You may not write in the folder .*; choose another one"):
        check_changeable(house)


def test_a_file_another_program_does_not_let_go_is_left_alone(house, monkeypatch):
    opened = type(house).open

    def held(path, mode="r", *rest, **options):
        if "+" in mode:
            raise PermissionError(13, "The process cannot access the file")
        return opened(path, mode, *rest, **options)

    monkeypatch.setattr(type(house), "open", held)
    refused(house, "is open in another program, or it is not yours")


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        pytest.param(
            altered("_rels/.rels", "</Relationships>", RELATION.format(SIGNATURE, "_xmlsignatures/origin.sigs")),
            "is digitally signed",
            id="signed",
        ),
        pytest.param(
            altered("_rels/.rels", "<", "<", extra=("_xmlsignatures/sig1.xml",)), "is digitally signed", id="signature"
        ),
        pytest.param(
            altered(
                "xl/_rels/workbook.xml.rels",
                "</Relationships>",
                RELATION.format(REVISIONS, "revisions/revisionHeaders.xml"),
            ),
            "shared with a log of changes",
            id="shared",
        ),
        pytest.param(
            book_bytes(lambda book: setattr(book, "security", WorkbookProtection(lockRevision=True))),
            "shared with a log of changes",
            id="log locked",
        ),
        pytest.param(
            book_bytes(lambda book: setattr(book, "security", WorkbookProtection(lockStructure=True))),
            "structure of the workbook is protected",
            id="structure",
        ),
        pytest.param(
            altered("xl/workbook.xml", "<workbookPr/>", '<fileSharing readOnlyRecommended="1"/><workbookPr/>'),
            "asked that it be opened read-only",
            id="read-only recommended",
        ),
        pytest.param(
            altered("xl/workbook.xml", "<workbookPr/>", '<fileSharing reservationPassword="CC1A"/><workbookPr/>'),
            "asked that it be opened read-only",
            id="password to modify",
        ),
        pytest.param(
            book_bytes(lambda book: book.custom_doc_props.append(BoolProperty(name="_MarkAsFinal", value=True))),
            "is marked as final",
            id="final",
        ),
        pytest.param(b"Wall,From,To\n", "is not an .xlsx workbook", id="no workbook"),
    ],
)
def test_what_its_author_put_on_a_workbook_is_kept(house, data, sentence):
    house.write_bytes(data)
    refused(house, sentence)


@pytest.mark.parametrize(
    "prepare",
    [
        pytest.param(lambda book: setattr(book, "security", WorkbookProtection(lockWindows=True)), id="windows"),
        pytest.param(lambda book: setattr(book, "security", WorkbookProtection(lockStructure=False)), id="not locked"),
        pytest.param(lambda book: setattr(book.active.protection, "sheet", True), id="a protected sheet"),
        pytest.param(
            lambda book: book.custom_doc_props.append(BoolProperty(name="_MarkAsFinal", value=False)), id="not final"
        ),
    ],
)
def test_a_mark_that_does_not_speak_against_a_change_passes(house, prepare):
    house.write_bytes(book_bytes(prepare))
    check_changeable(house)


def test_a_missing_file_and_a_folder_are_told(tmp_path):
    with pytest.raises(CannotWrite, match="does not exist"):
        check_changeable(tmp_path / "no.xlsx")
    with pytest.raises(CannotWrite, match="is a folder"):
        check_changeable(tmp_path)
