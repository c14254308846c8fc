"""Files in and out, so that nobody finds half a workbook.

Covers   writing a file whole or not at all; telling what is wrong with a file before it is loaded.
Not      what the bytes mean (reader, survey_book, book, caches).
Rules    A message is one plain sentence that names the file and what to do.
"""

import errno
import os
import secrets
import stat
import time
from contextlib import suppress
from pathlib import Path

from addin.guard import CannotRead, check_package

__all__ = ["MOST_FILE_BYTES", "CannotRead", "CannotWrite", "check_is_workbook", "check_target", "write_atomically"]

MOST_FILE_BYTES = 30_000_000
"""Largest workbook that is read; an honest survey has a few hundred thousand."""

_OLD_OR_LOCKED = bytes.fromhex("D0CF11E0")
"""First bytes of an .xls, and also of an .xlsx with a password."""

_STALE = 3600
"""Age in seconds after which a temporary file was left behind by a run that was killed."""


class CannotWrite(OSError):  # noqa: N818 - named like CannotRead
    """A file that could not be written; what stood there before still stands. str() is one plain sentence."""


def check_target(path: str | os.PathLike[str]) -> None:
    """Raise unless a file can be put at `path`, so that a long work is not done for nothing. Nothing is written.

    Args:
        path: the file to write or to replace; a link is followed

    Raises:
        CannotWrite: with one sentence
    """
    target = Path(os.path.realpath(path))
    try:
        _check_target(target)
        with suppress(FileNotFoundError):
            _temporary(target).lstat()  # its name is longer than the file's own
    except CannotWrite:
        raise
    except OSError as reason:
        raise CannotWrite(_sentence(target, reason)) from reason
    if not os.access(target.parent, os.W_OK | os.X_OK):
        raise CannotWrite(_sentence(target, PermissionError()))


def write_atomically(path: str | os.PathLike[str], data: bytes) -> None:
    """Put `data` at `path`, whole or not at all.

    Args:
        path: the file to write or to replace; a link is followed
        data: its whole content

    Raises:
        CannotWrite: with one sentence; the old file, if there was one, is untouched
    """
    target = Path(os.path.realpath(path))
    temporary = _temporary(target)
    try:
        _check_target(target)
        _remove_stale(target)
        with open(temporary, "xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            temporary.chmod(stat.S_IMODE(target.stat().st_mode))
        _replace(temporary, target)
    except CannotWrite:
        raise
    except OSError as reason:
        raise CannotWrite(_sentence(target, reason)) from reason
    finally:
        # After a replacement it is gone; after a failure, or Ctrl-C, it must not stay.
        with suppress(OSError):
            temporary.unlink(missing_ok=True)


def check_is_workbook(path: str | os.PathLike[str]) -> None:
    """Raise unless `path` is an .xlsx workbook that can be loaded safely.

    Args:
        path: the file

    Raises:
        CannotRead: with one sentence
    """
    path = Path(path)
    try:
        if path.is_dir():
            raise CannotRead(f"{path} is a folder, not a workbook.")
        about = path.stat()
        # Opening a pipe would wait until somebody writes into it.
        if not stat.S_ISREG(about.st_mode):
            raise CannotRead(f"{path} is not a regular file, so it is no workbook.")
        size = about.st_size
        with path.open("rb") as file:
            start = file.read(4)
        if not size:
            raise CannotRead(f"{path} is empty.")
        if size > MOST_FILE_BYTES:
            raise CannotRead(f"{path} is larger than {MOST_FILE_BYTES // 1_000_000} MB, which no survey is.")
        if start == _OLD_OR_LOCKED:
            raise CannotRead(f"{path} is an old .xls file or has a password; save it as .xlsx without a password.")
        check_package(path)
    except CannotRead:
        raise
    except FileNotFoundError as reason:
        raise CannotRead(f"{path} does not exist.") from reason
    except PermissionError as reason:
        raise CannotRead(f"{path} may not be read: it is open in another program, or it is not yours.") from reason
    except OSError as reason:
        raise CannotRead(f"{path} cannot be read: {reason.strerror or reason}.") from reason


def _temporary(target: Path) -> Path:
    return target.parent / f".{target.name}.{secrets.token_hex(4)}.tmp"


class _InUseError(OSError):
    """The target is open elsewhere."""


def _check_target(target: Path) -> None:
    """What would go wrong only after the work, or not at all but against the user's wish."""
    if target.is_dir():
        raise CannotWrite(f"{target} is a folder, not a file.")
    if not target.parent.is_dir():
        raise CannotWrite(f"The folder {target.parent} does not exist.")
    # A pipe or a device would be replaced by a file, and whoever waits at its other end would wait for ever.
    if target.exists() and not target.is_file():
        raise CannotWrite(f"{target} is not a regular file; choose another name.")
    # A replacement needs no right on the file itself, so the mark "read-only" must be asked for.
    if target.exists() and not target.stat().st_mode & stat.S_IWUSR:
        raise CannotWrite(f"{target} is marked read-only; take the mark off or choose another name.")
    # Where an open file can be replaced, the program that has it open would write the old one back.
    for lock in (f"~${target.name}", f".~lock.{target.name}#"):
        if target.with_name(lock).exists():
            raise CannotWrite(f"{target} is open in a spreadsheet; close it there (if it is not, delete {lock}).")


def _remove_stale(target: Path) -> None:
    for old in target.parent.iterdir():
        if old.name.startswith(f".{target.name}.") and old.suffix == ".tmp":
            with suppress(OSError):
                if time.time() - old.stat().st_mtime > _STALE:
                    old.unlink()


def _replace(temporary: Path, target: Path) -> None:
    try:
        os.replace(temporary, target)
    except PermissionError as reason:
        # The folder just took the temporary file, so it is the target that does not let go.
        raise _InUseError from reason


def _sentence(target: Path, reason: OSError) -> str:
    if isinstance(reason, _InUseError):
        return f"{target} cannot be replaced while it is open elsewhere; close it and try again."
    if reason.errno in (errno.ENOSPC, errno.EDQUOT):
        return f"The disk is full: {target} was not written."
    if reason.errno == errno.ENAMETOOLONG:
        return f"The name of {target} is too long."
    if reason.errno == errno.EROFS or isinstance(reason, PermissionError):
        return f"You may not write in the folder {target.parent}; choose another one."
    return f"{target} was not written: {reason.strerror or reason}."
