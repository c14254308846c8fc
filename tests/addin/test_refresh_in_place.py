"""A workbook refreshed where it lies: never half, never lost, the earlier one beside it."""

import os
import subprocess
import sys
from datetime import datetime
from pathlib import Path

import pytest

from addin.files import CannotWrite
from addin.refresh import in_place
from addin.refresh.in_place import refresh_file
from addin.refresh.merging import merge
from addin.refresh.package import CannotRefresh
from tests.made_books import ALL, OURS, made_book
from tests.user_books import MACROS, parts, plain_book, user_book

NOW = datetime(2026, 11, 25, 14, 12)
ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def old():
    return merge(plain_book(lambda book: book.add_worksheet("Own").write_formula("A1", "=bill_total", None, 36)),
                 made_book(), ALL)  # fmt: skip


@pytest.fixture
def path(tmp_path, old):
    path = tmp_path / "House at the bend.xlsx"
    path.write_bytes(old)
    return path


def refresh(path, theirs, rise=2.5, now=NOW, grafts=None):
    return refresh_file(path, theirs, made_book(rise=rise), replaced=OURS, grafts=grafts or {}, now=now)


def others(path):
    return sorted(other.name for other in path.parent.iterdir() if other != path)


def test_the_new_file_takes_the_place_and_the_earlier_one_stands_beside_it(path, old):
    done = refresh(path, old)
    assert others(path) == ["House at the bend before 2026-11-25 1412.xlsx"]
    assert (done.changed, done.kept, done.unshown) == (True, path.with_name(others(path)[0]), ())
    assert done.kept.read_bytes() == old
    assert b"<f>bill_total</f><v>75</v>" in parts(path.read_bytes())["xl/worksheets/sheet2.xml"]


def test_where_nothing_changes_no_file_is_touched(path, old):
    os.utime(path, (1_000_000, 1_000_000))
    done = refresh(path, old, rise=1.2)
    assert (done.changed, done.kept) == (False, None)
    assert (others(path), path.stat().st_mtime, path.read_bytes()) == ([], 1_000_000, old)


def test_a_second_refresh_changes_nothing(path, old):
    refresh(path, old)
    new = path.read_bytes()
    assert not refresh(path, new).changed
    assert path.read_bytes() == new
    assert len(others(path)) == 1


def test_two_refreshes_in_one_minute_keep_both_earlier_files(path, old):
    first = refresh(path, old)
    middle = path.read_bytes()
    second = refresh(path, middle, rise=3.5)
    assert second.kept.name == "House at the bend before 2026-11-25 1412 (2).xlsx"
    assert (first.kept.read_bytes(), second.kept.read_bytes()) == (old, middle)


@pytest.mark.skipif(os.name != "posix", reason="rights and links are not so elsewhere")
def test_rights_and_links_stay(path, old, tmp_path):
    path.chmod(0o640)
    link = tmp_path / "link.xlsx"
    link.symlink_to(path)
    done = refresh(link, old)
    assert link.is_symlink()
    assert [file.stat().st_mode & 0o777 for file in (path, done.kept)] == [0o640, 0o640]
    assert done.kept.name.startswith("House at the bend before")


def test_a_workbook_with_macros_keeps_them_to_the_byte(tmp_path):
    theirs = merge(user_book(macros=True), made_book(), ALL)
    path = tmp_path / "house.xlsm"
    path.write_bytes(theirs)
    done = refresh(path, theirs)
    assert done.kept.suffix == ".xlsm"
    assert parts(path.read_bytes())["xl/vbaProject.bin"] == MACROS
    assert b"application/vnd.ms-excel.sheet.macroEnabled.main+xml" in parts(path.read_bytes())["[Content_Types].xml"]


# ------------------------------------------------------------------------------------------ refusals


def test_a_refused_workbook_is_named_and_left_alone(tmp_path):
    theirs = plain_book(lambda book: book.add_worksheet("Offer"))
    path = tmp_path / "house.xlsx"
    path.write_bytes(theirs)
    with pytest.raises(CannotRefresh) as caught:
        refresh_file(path, theirs, made_book(), replaced=ALL, grafts={}, now=NOW)
    assert str(caught.value) == (
        f"{path} is left as it is. The sheet Offer was not made by plinthbook and has the title of one of its sheets: "
        "rename yours, then refresh."
    )
    assert (others(path), path.read_bytes()) == ([], theirs)


def test_a_file_open_elsewhere_is_left_alone(path, old):
    path.with_name(f"~${path.name}").write_bytes(b"")
    with pytest.raises(CannotWrite, match="is open in a spreadsheet; close it there"):
        refresh(path, old)
    assert path.read_bytes() == old


def test_a_file_saved_in_the_meantime_is_left_as_saved(path, old, monkeypatch):
    saved = merge(old, made_book(rise=9), OURS)

    def save(*arguments, **more):
        path.write_bytes(saved)
        return kept_name(*arguments, **more)

    kept_name = in_place._kept_name
    monkeypatch.setattr(in_place, "_kept_name", save)
    with pytest.raises(CannotRefresh, match="was changed while it was being refreshed, and is left as it is now"):
        refresh(path, old)
    # The copy stays: what it holds is no longer in its place, and another run may rest on it.
    (kept,) = others(path)
    assert (path.read_bytes(), path.with_name(kept).read_bytes()) == (saved, old)


def test_what_another_run_is_writing_at_this_moment_is_left_alone(path, old):
    beside = [path.with_name(f".{path.name}.other.tmp"), path.with_name(f".{path.name}.killed.tmp")]
    for file in beside:
        file.write_bytes(b"half")
    os.utime(beside[1], (0, 0))
    refresh(path, old)
    assert [file.exists() for file in beside] == [True, False]


def test_a_file_that_cannot_be_replaced_stays_and_nothing_is_left_beside_it(path, old, monkeypatch):
    replace = os.replace

    def held(source, target):
        if Path(target) == path:
            raise PermissionError(13, "held by another program")
        replace(source, target)

    monkeypatch.setattr(os, "replace", held)
    with pytest.raises(CannotWrite, match="cannot be replaced while it is open elsewhere"):
        refresh(path, old)
    assert (path.read_bytes(), others(path)) == (old, [])


# ------------------------------------------------------------------------------------------ killed


KILLED = """
import builtins, os, shutil, sys
from datetime import datetime
from pathlib import Path
from addin.refresh.in_place import refresh_file

path, made, moment = Path(sys.argv[1]), Path(sys.argv[2]).read_bytes(), int(sys.argv[3])
theirs, count = path.read_bytes(), 0

def step():
    global count
    count += 1
    if count == moment:
        os._exit(70)

class Slow:
    # A file whose content goes out in two halves, so that a kill may fall between them.
    def __init__(self, file):
        self.file = file
    def __enter__(self):
        return self
    def __exit__(self, *_):
        self.file.close()
    def __getattr__(self, name):
        return getattr(self.file, name)
    def write(self, data):
        step(); self.file.write(data[: len(data) // 2]); self.file.flush()
        step(); self.file.write(data[len(data) // 2 :]); self.file.flush()
        step()

def watched(act):
    def acts(*arguments, **more):
        step()
        done = act(*arguments, **more)
        step()
        return done
    return acts

opened = builtins.open
def opens(name, mode="r", *arguments, **more):
    file = opened(name, mode, *arguments, **more)
    return Slow(file) if set(mode) & set("wxa") and str(name).endswith(".tmp") else file

for module, name in ((os, "replace"), (os, "fsync"), (os, "chmod"), (os, "unlink"), (shutil, "copystat")):
    setattr(module, name, watched(getattr(module, name)))
builtins.open = opens
refresh_file(path, theirs, made, replaced=("Offer", "Bill"), grafts={}, now=datetime(2026, 11, 25, 14, 12))
print(count)
"""


def killed(path, made, moment):
    """Run a refresh in a process of its own that ends for good at one moment; its exit status and what it says."""
    command = [sys.executable, "-c", KILLED, str(path), str(made), str(moment)]
    done = subprocess.run(command, check=False, capture_output=True, text=True, cwd=ROOT, timeout=120)
    assert done.returncode in (0, 70), done.stderr
    return done.returncode, done.stdout


def test_a_run_killed_at_any_moment_leaves_the_file_whole_and_the_next_one_clears_up(path, old, tmp_path):
    made = tmp_path / "made" / "made.xlsx"
    made.parent.mkdir()
    made.write_bytes(made_book(rise=2.5))
    calm = tmp_path / "calm" / path.name
    calm.parent.mkdir()
    calm.write_bytes(old)
    status, said = killed(calm, made, 0)
    new, steps = calm.read_bytes(), int(said)
    assert (status, others(calm)) == (0, ["House at the bend before 2026-11-25 1412.xlsx"])
    assert new != old
    assert steps >= 10
    seen = set()
    for moment in range(1, steps + 1):
        folder = tmp_path / f"at {moment}"
        folder.mkdir()
        book = folder / path.name
        book.write_bytes(old)
        status, _ = killed(book, made, moment)
        found = book.read_bytes()
        assert status == 70
        assert found in (old, new), moment
        seen.add(found == new)
        # A file that is shown beside it is whole as well.
        assert all(kept.read_bytes() == old for kept in folder.glob("* before *.xlsx"))
        for left in folder.glob("*.tmp"):
            os.utime(left, (0, 0))  # long ago, when the next run comes
        for left in folder.glob(".*.tmp"):
            os.utime(left, (0, 0))
        refresh(book, found)
        assert (book.read_bytes(), others(book)) == (new, ["House at the bend before 2026-11-25 1412.xlsx"]), moment
    assert seen == {True, False}
