"""addin.files and addin.guard: a file is written whole or not at all; a hostile one is told before it is loaded."""

import errno
import io
import os
import socket
import stat
import time
import zipfile

import openpyxl
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from openpyxl.comments import Comment
from openpyxl.worksheet.datavalidation import DataValidation

from addin import guard, guard_parts
from addin.files import MOST_FILE_BYTES, CannotRead, CannotWrite, check_is_workbook, check_target, write_atomically

OLD, NEW = b"what stood here", b"the new offer" * 1000


def folder_names(folder):
    return sorted(path.name for path in folder.iterdir())


@pytest.fixture
def target(tmp_path):
    """A file with old content in a folder of its own."""
    path = tmp_path / "offer.xlsx"
    path.write_bytes(OLD)
    return path


def test_a_new_file_is_written_alone_with_the_usual_rights(tmp_path):
    path = tmp_path / "offer.xlsx"
    write_atomically(path, NEW)
    (tmp_path / "beside").write_bytes(b"")
    assert path.read_bytes() == NEW
    assert path.stat().st_mode == (tmp_path / "beside").stat().st_mode
    assert folder_names(tmp_path) == ["beside", "offer.xlsx"]


def test_a_file_is_replaced_and_keeps_its_rights(target):
    target.chmod(0o640)
    write_atomically(str(target), NEW)
    assert target.read_bytes() == NEW
    assert stat.S_IMODE(target.stat().st_mode) == 0o640
    assert folder_names(target.parent) == ["offer.xlsx"]


def test_the_file_behind_a_link_is_replaced_and_the_link_stays(target):
    link = target.with_name("link.xlsx")
    link.symlink_to(target)
    write_atomically(link, NEW)
    assert link.is_symlink()
    assert target.read_bytes() == NEW


def test_the_new_content_is_whole_before_the_old_goes(target, monkeypatch):
    seen = []
    replace = os.replace

    def watched(source, destination):
        seen.append((source.read_bytes(), destination.read_bytes(), source.parent))
        replace(source, destination)

    monkeypatch.setattr(os, "replace", watched)
    write_atomically(target, NEW)
    assert seen == [(NEW, OLD, target.parent)]


@pytest.mark.parametrize(
    ("step", "reason", "sentence"),
    [
        ("replace", PermissionError(errno.EACCES, "Access is denied"), "cannot be replaced while it is open elsewhere"),
        ("replace", OSError(errno.EIO, "Input/output error"), "was not written: Input/output error"),
        ("fsync", OSError(errno.ENOSPC, "No space left on device"), "The disk is full"),
        ("fsync", OSError(errno.EROFS, "Read-only file system"), "You may not write in the folder"),
        ("fsync", PermissionError(errno.EACCES, "Permission denied"), "You may not write in the folder"),
    ],
)
def test_a_failure_leaves_the_old_file_and_nothing_else(target, monkeypatch, step, reason, sentence):
    def fail(*_):
        raise reason

    monkeypatch.setattr(os, step, fail)
    with pytest.raises(CannotWrite, match=sentence) as caught:
        write_atomically(target, NEW)
    assert str(caught.value).endswith(".")
    assert target.read_bytes() == OLD
    assert folder_names(target.parent) == ["offer.xlsx"]


def test_an_interruption_leaves_the_old_file_and_nothing_else(target, monkeypatch):
    def interrupt(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "replace", interrupt)
    with pytest.raises(KeyboardInterrupt):
        write_atomically(target, NEW)
    assert target.read_bytes() == OLD
    assert folder_names(target.parent) == ["offer.xlsx"]


def test_what_a_killed_run_left_is_swept_and_what_a_running_one_writes_is_not(target):
    killed, running, other = (target.with_name(name) for name in (".offer.xlsx.01.tmp", ".offer.xlsx.02.tmp", "my.tmp"))
    for path in (killed, running, other):
        path.write_bytes(b"half")
    os.utime(killed, (time.time() - 7200,) * 2)
    os.utime(other, (time.time() - 7200,) * 2)
    write_atomically(target, NEW)
    assert folder_names(target.parent) == [".offer.xlsx.02.tmp", "my.tmp", "offer.xlsx"]


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        ("missing/offer.xlsx", "The folder .*missing does not exist"),
        ("file/offer.xlsx", "The folder .*file does not exist"),
        ("folder", "is a folder, not a file"),
        ("pipe", "is not a regular file"),
        ("link to pipe", "pipe is not a regular file"),
        ("socket", "is not a regular file"),
        ("n" * 250 + ".xlsx", "is too long"),
        ("n" * 245 + ".xlsx", "is too long"),
    ],
)
@pytest.mark.parametrize("attempt", [check_target, lambda path: write_atomically(path, NEW)], ids=["check", "write"])
def test_a_place_that_cannot_hold_the_file_is_named(tmp_path, monkeypatch, name, sentence, attempt):
    (tmp_path / "folder").mkdir()
    (tmp_path / "file").write_bytes(b"")
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "link to pipe").symlink_to(tmp_path / "pipe")
    monkeypatch.chdir(tmp_path)  # the address of a socket must be short
    with socket.socket(socket.AF_UNIX) as open_socket:
        open_socket.bind("socket")
    before = {path.name: path.lstat().st_mode for path in tmp_path.iterdir()}
    with pytest.raises(CannotWrite, match=sentence) as caught:
        attempt(tmp_path / name)
    assert str(caught.value).endswith(".")
    assert {path.name: path.lstat().st_mode for path in tmp_path.iterdir()} == before


def test_a_place_that_can_hold_the_file_passes_and_nothing_is_written(target):
    check_target(target)
    check_target(target.with_name("new.xlsx"))
    assert target.read_bytes() == OLD
    assert folder_names(target.parent) == ["offer.xlsx"]


def test_a_folder_one_may_not_write_in_is_told_before_the_work(target, monkeypatch):
    monkeypatch.setattr(os, "access", lambda path, mode: not (mode & os.W_OK and path == target.parent))
    with pytest.raises(CannotWrite, match="You may not write in the folder"):
        check_target(target)


def test_a_pipe_is_no_workbook_and_is_not_waited_for(tmp_path):
    pipe, link = tmp_path / "pipe.xlsx", tmp_path / "link.xlsx"
    os.mkfifo(pipe)
    link.symlink_to(pipe)
    for path in (pipe, link):
        with pytest.raises(CannotRead, match="is not a regular file"):
            check_is_workbook(path)


@pytest.mark.parametrize("lock", ["~$offer.xlsx", ".~lock.offer.xlsx#"])
def test_a_file_open_in_a_spreadsheet_is_not_replaced(target, lock):
    target.with_name(lock).write_bytes(b"")
    with pytest.raises(CannotWrite, match="is open in a spreadsheet"):
        write_atomically(target, NEW)
    assert target.read_bytes() == OLD


def test_a_file_marked_read_only_is_not_replaced(target):
    target.chmod(0o444)
    with pytest.raises(CannotWrite, match="marked read-only"):
        write_atomically(target, NEW)
    assert target.read_bytes() == OLD


def survey_bytes() -> bytes:
    """An honest survey: a merge, a link, a comment, a list over a whole column."""
    book = openpyxl.Workbook()
    sheet = book.active
    for row in range(1, 40):
        sheet.append(["W1", row, 0.23])
    sheet.merge_cells("A1:C1")
    sheet["A5"].hyperlink = "#Sheet!A1"
    sheet["A6"].comment = Comment("seen", "survey")
    rule = DataValidation(type="list", formula1='"yes,no"')
    rule.add("D1:D1048576")
    sheet.add_data_validation(rule)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


SURVEY = survey_bytes()
SHEET = "xl/worksheets/sheet1.xml"


def altered(changes, *, extra=()) -> bytes:
    """The honest survey with parts changed by a function, or dropped by None, and parts added."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(SURVEY)) as source, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        for name in source.namelist():
            change = changes.get(name, lambda part: part)
            if change is not None:
                package.writestr(name, change(source.read(name)))
        for name, part in extra:
            package.writestr(name, part)
    return out.getvalue()


def swap(old, new):
    def change(part):
        assert old in part
        return part.replace(old, new, 1)

    return change


def check(tmp_path, data):
    path = tmp_path / "survey.xlsx"
    path.write_bytes(data)
    check_is_workbook(path)


def test_an_honest_survey_passes(tmp_path):
    check(tmp_path, SURVEY)
    check(tmp_path, altered({}))


def other_format() -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as package:
        package.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
    return out.getvalue()


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        pytest.param(b"", "is empty", id="empty"),
        pytest.param(bytes.fromhex("D0CF11E0A1B11AE1") + b"\0" * 600, "old .xls file or has a password", id="old"),
        pytest.param(b"Wall,From,To\n", "damaged or is not an .xlsx", id="text"),
        pytest.param(SURVEY[: len(SURVEY) // 2], "damaged or is not an .xlsx", id="cut short"),
        pytest.param(other_format(), "another format", id="other format"),
        pytest.param(altered({"[Content_Types].xml": None}), "not an .xlsx workbook", id="no content types"),
        pytest.param(altered({"xl/workbook.xml": None}), "not an .xlsx workbook", id="no workbook"),
        pytest.param(altered({SHEET: lambda part: part[:-9]}), "sheet1.xml is not readable", id="part cut"),
        pytest.param(altered({}, extra=[("../evil.txt", b"")]), "lies outside", id="part outside"),
        pytest.param(altered({}, extra=[("xl/bomb.xml", b"<a>" + b" " * 30_000_000)]), "unpacks to far", id="bomb"),
        pytest.param(
            altered({}, extra=[(f"xl/{n}.txt", b"") for n in range(guard.MOST_PARTS)]), "too many parts", id="parts"
        ),
        pytest.param(altered({SHEET: lambda part: b"<!DOCTYPE x>" + part}), "own document type", id="document type"),
        pytest.param(
            altered({}, extra=[("docProps/a.dat", b"<!DOCTYPE x [<!ENTITY a 'b'>]><x>&a;</x>")]),
            "own document type", id="document type in a part of another name",
        ),
        pytest.param(
            altered({SHEET: lambda part: b"\xff\xfe" + ("<!DOCTYPE x>" + part.decode()).encode("utf-16-le")}),
            "own document type", id="document type in another encoding",
        ),
        pytest.param(altered({SHEET: swap(b'r="B2"', b'r="XFD1048576"')}), "XFD1048576", id="far cell"),
        pytest.param(altered({SHEET: swap(b'r="B2"', b'r="ALM2"')}), "beyond the last", id="column 1001"),
        pytest.param(altered({SHEET: swap(b'row r="2"', b'row r="99999999"')}), "not a cell", id="row 99999999"),
        pytest.param(altered({SHEET: swap(b'row r="2"', b'row r="200001"')}), "beyond the last", id="row 200001"),
        pytest.param(altered({SHEET: swap(b"A1:C1", b"A1:XFD1048576")}), "beyond the last", id="merge"),
        pytest.param(altered({SHEET: swap(b'"A1:C1"', b"\n'A1:XFD104857&#54;'")}), "beyond", id="merge, veiled"),
        pytest.param(altered({SHEET: swap(b"A1:C1", b"A1:ALL201")}), "too many cells", id="merge of 201 000 cells"),
        pytest.param(altered({SHEET: swap(b'ref="A5"', b'ref="A1:ALL201"')}), "too many cells", id="link"),
        pytest.param(altered({SHEET: swap(b'ref="A5"', b'ref="A:A"')}), "not a cell", id="link of a column"),
        pytest.param(
            altered({"xl/comments/comment1.xml": swap(b'ref="A6"', b'ref="XFD6"')}), "beyond the last", id="comment"
        ),
        pytest.param(
            altered({"[Content_Types].xml": swap(b"/xl/worksheets/sheet1.xml", b"/xl/worksheets/sheet1.png")}),
            "misleading name", id="sheet under the name of a picture",
        ),
    ],
)  # fmt: skip
def test_what_is_no_safe_workbook_is_refused_in_one_sentence(tmp_path, data, sentence):
    began = time.perf_counter()
    with pytest.raises(CannotRead, match=sentence) as caught:
        check(tmp_path, data)
    assert time.perf_counter() - began < 1
    assert str(caught.value).startswith(str(tmp_path / "survey.xlsx"))
    assert str(caught.value).endswith(".")


@pytest.mark.parametrize(
    "change",
    [
        pytest.param({SHEET: swap(b'r="B2"', b'r="ALL2"')}, id="column 1000"),
        pytest.param({SHEET: swap(b'row r="39"', b'row r="200000"')}, id="row 200000"),
        pytest.param({SHEET: swap(b"A1:C1", b"A1:ALL200")}, id="merge of 200 000 cells"),
        pytest.param({"xl/drawings/commentsDrawing1.vml": lambda part: part + b"<br>"}, id="ill-formed drawing"),
    ],
)
def test_what_stands_at_a_limit_passes(tmp_path, change):
    check(tmp_path, altered(change))


def test_a_password_on_the_zip_is_told(tmp_path):
    data = bytearray(SURVEY)
    for mark, offset in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        at = data.find(mark)
        while at >= 0:
            data[at + offset] |= 1
            at = data.find(mark, at + 4)
    with pytest.raises(CannotRead, match="protected with a password"):
        check(tmp_path, bytes(data))


def test_cells_are_counted_over_all_sheets(tmp_path, monkeypatch):
    monkeypatch.setattr(guard_parts, "MOST_CELLS", 50)
    with pytest.raises(CannotRead, match="more than 50 cells"):
        check(tmp_path, SURVEY)


def test_a_missing_file_a_folder_and_a_huge_file_are_told_apart(tmp_path):
    huge = tmp_path / "huge.xlsx"
    with huge.open("wb") as file:
        file.write(b"PK")
        file.truncate(MOST_FILE_BYTES + 1)
    with pytest.raises(CannotRead, match="does not exist"):
        check_is_workbook(tmp_path / "no.xlsx")
    with pytest.raises(CannotRead, match="is a folder"):
        check_is_workbook(tmp_path)
    with pytest.raises(CannotRead, match="larger than 30 MB"):
        check_is_workbook(huge)


@pytest.mark.parametrize(
    ("reason", "sentence"),
    [
        (PermissionError(errno.EACCES, "denied"), "may not be read"),
        (OSError(errno.EIO, "broken"), "cannot be read: broken"),
    ],
)
def test_a_file_that_does_not_open_is_told(target, monkeypatch, reason, sentence):
    def fail(*_, **__):
        raise reason

    monkeypatch.setattr("pathlib.Path.open", fail)
    with pytest.raises(CannotRead, match=sentence):
        check_is_workbook(target)


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(changes=st.lists(st.tuples(st.integers(0, len(SURVEY) - 1), st.integers(0, 255)), min_size=1, max_size=8))
def test_damage_anywhere_is_refused_or_harmless_but_never_another_error(tmp_path, changes):
    data = bytearray(SURVEY)
    for at, byte in changes:
        data[at] = byte
    path = tmp_path / "damaged.xlsx"
    path.write_bytes(bytes(data))
    try:
        check_is_workbook(path)
    except CannotRead as refusal:
        sentence = str(refusal)
    else:
        sentence = "passed."
    assert sentence.endswith(".")
