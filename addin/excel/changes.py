"""Changes to several files that are made all together or not at all.

Covers   writing, deleting and undoing files, making and removing folders, taking all of it back.
Not      which files (setup); one file is written whole by addin.files.
Rules    A file that somebody changed since it was put is not thrown away.
"""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from addin.excel.record import SETTINGS, Put, sha256
from addin.excel.settings import without
from addin.files import CannotWrite, check_target, write_atomically


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing that was done, or was found done already."""

    changed: bool
    text: str

    def __str__(self) -> str:
        return self.text


class Changes:
    """Changes to files, each with what is needed to take it back."""

    def __init__(self) -> None:
        self.written: dict[Path, bytes | None] = {}
        """Files changed so far, and what stood there before."""
        self._made: list[Path] = []
        self._removed: list[Path] = []

    def write(self, path: Path, data: bytes, *, always: bool = False) -> None:
        """Put a file with its folders, unless it has that content already."""
        before = bytes_of(path)
        if before == data and not always:
            return
        for folder in missing_folders(path):
            _make_folder(folder)
            self._made.append(folder)
        check_target(path)
        self.written.setdefault(path, before)
        write_atomically(path, data)

    def delete(self, path: Path) -> None:
        """Take a file away if it is there."""
        before = bytes_of(path)
        if before is None:
            return
        check_target(path)
        self.written.setdefault(path, before)
        try:
            path.unlink()
        except OSError as reason:
            sentence = f"{path} cannot be removed while it is open elsewhere; quit Excel and try again."
            raise CannotWrite(sentence) from reason

    def undo(self, put: Put, settings: Mapping[str, str]) -> Step:
        """Take one file away, or put back what stood there; what somebody changed since is not thrown away."""
        present = bytes_of(put.path)
        if present is None:
            return Step(changed=False, text=f"Already gone: the {put.what}, {put.path}")
        if sha256(present) == put.sha256:
            after = put.before
        elif put.what == SETTINGS:
            after = without(present, settings, put.before or b"")
            after = after if after.strip() or put.before is not None else None
        elif present == put.before:
            return Step(changed=False, text=f"Already as before: the {put.what}, {put.path}")
        else:
            return Step(changed=False, text=f"Left as it is: the {put.what} is not the one put there, {put.path}")
        if after is None:
            self.delete(put.path)
            return Step(changed=True, text=f"Removed: the {put.what}, {put.path}")
        self.write(put.path, after)
        return Step(changed=True, text=f"Put back as before, without our part: the {put.what}, {put.path}")

    def remove_folder(self, folder: Path) -> None:
        """Take a folder away if nothing is left in it."""
        with suppress(OSError):  # not empty, or gone: not ours any more
            folder.rmdir()
            self._removed.append(folder)

    def take_back(self) -> list[Path]:
        """Everything as it was; the files where that failed."""
        failed = []
        for folder in reversed(self._removed):
            folder.mkdir(exist_ok=True)
        for path, before in reversed(self.written.items()):
            try:
                if before is None:
                    path.unlink(missing_ok=True)
                elif bytes_of(path) != before:
                    write_atomically(path, before)
            except OSError:
                failed.append(path)
        for folder in reversed(self._made):
            with suppress(OSError):
                folder.rmdir()
        return failed


def bytes_of(path: Path) -> bytes | None:
    """The content of a file; None if there is no file."""
    try:
        return path.read_bytes()
    except FileNotFoundError:
        return None
    except OSError as reason:
        raise CannotWrite(f"{path} cannot be read: {reason.strerror or reason}.") from reason


def missing_folders(path: Path) -> list[Path]:
    """The folders above a file that are not there yet, outermost first."""
    return [folder for folder in reversed(path.parents) if not folder.exists()]


def _make_folder(folder: Path) -> None:
    try:
        folder.mkdir(exist_ok=True)
    except OSError as reason:
        raise CannotWrite(f"The folder {folder} cannot be made: {reason.strerror or reason}.") from reason


@contextmanager
def all_or_nothing() -> Iterator[Changes]:
    """Changes that are taken back if one of them fails."""
    work = Changes()
    try:
        yield work
    except BaseException as reason:
        failed = work.take_back()
        if failed and isinstance(reason, OSError):
            names = " and ".join(str(path) for path in failed)
            raise CannotWrite(f"{str(reason).removesuffix('.')}, and {names} could not be put back.") from reason
        raise
