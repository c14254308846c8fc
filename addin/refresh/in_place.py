"""A workbook refreshed where it lies, with the earlier one kept beside it.

Covers   the order of reading, keeping and replacing; what a killed run left behind; the name of the kept file.
Not      what changes in the workbook (merging, freshening), reading the survey.
Rules    Killed at any moment, the run leaves the user's file whole, old or new. Where nothing changes, nothing is
         written.
"""

import os
import shutil
import time
from collections.abc import Collection, Mapping
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from addin.files import CannotWrite, check_target, write_atomically
from addin.refresh.freshening import freshened
from addin.refresh.merging import merge
from addin.refresh.package import CannotRefresh

YOUNG = 60
"""Age in seconds up to which a temporary file may be another run's; a refresh writes for a second or two."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Refreshed:
    """What a refresh did."""

    changed: bool
    kept: Path | None
    """Where the earlier file is; None where nothing changed."""
    unshown: tuple[str, ...]
    """Cells of the user's whose result shows only once a spreadsheet program has opened the file."""


def refresh_file(
    path: str | os.PathLike[str],
    theirs: bytes,
    made: bytes,
    *,
    replaced: Collection[str],
    grafts: Mapping[str, Collection[str]],
    now: datetime,
) -> Refreshed:
    """Put our sheets into the user's workbook, and keep the earlier file beside it.

    Args:
        path: the user's workbook; a link is followed
        theirs: its content as it was when the survey was read from it
        made: the complete estimate workbook made from that survey
        replaced: titles of our sheets, as in `merge`
        grafts: cells of ours on other sheets, as in `merge`
        now: date and time for the name of the earlier file

    Raises:
        CannotRefresh: the workbook cannot take our sheets; it is untouched
        CannotWrite: the file is in use, or may not be replaced; it is untouched
    """
    target = Path(os.path.realpath(path))
    check_target(target)
    _sweep(target)
    try:
        merged = merge(theirs, made, replaced, grafts)
        if merged == theirs:
            return Refreshed(changed=False, kept=None, unshown=())
        fresh, unshown = freshened(merged, replaced, grafts, before=theirs)
    except CannotRefresh as reason:
        raise CannotRefresh(f"{target} is left as it is. {reason}") from reason
    kept, new = _kept_name(target, theirs, now)
    if new:
        write_atomically(kept, theirs)
        shutil.copystat(target, kept)
    try:
        _check_unchanged(target, theirs)
        write_atomically(target, fresh)
    except (CannotRefresh, CannotWrite):
        # Only while the earlier file is still in its place: another run may have replaced it, and rest on this copy.
        if new and _holds(target, theirs):
            with suppress(OSError):
                kept.unlink()
        raise
    return Refreshed(changed=True, kept=kept, unshown=unshown)


def _check_unchanged(target: Path, theirs: bytes) -> None:
    """Somebody may have saved the workbook since the survey was read from it."""
    if not _holds(target, theirs):
        raise CannotRefresh(
            f"{target} was changed while it was being refreshed, and is left as it is now; refresh again."
        )


def _holds(target: Path, content: bytes) -> bool:
    try:
        return target.read_bytes() == content
    except OSError:
        return False


def _kept_name(target: Path, theirs: bytes, now: datetime) -> tuple[Path, bool]:
    """A name for the earlier file, and whether it is still to be written: a killed run may have kept it already."""
    stem = f"{target.stem} before {now:%Y-%m-%d %H%M}"
    number = 1
    while True:
        name = target.with_name(f"{stem}{f' ({number})' if number > 1 else ''}{target.suffix}")
        if not os.path.lexists(name):
            return name, True
        with suppress(OSError):
            if name.is_file() and name.read_bytes() == theirs:
                return name, False
        number += 1


def _sweep(target: Path) -> None:
    """Take away what a killed run left half written. It was never the user's file, nor a kept one.

    What is young may belong to a run that goes on at this moment.
    """
    starts = (f".{target.name}.", f".{target.stem} before ")
    for old in target.parent.iterdir():
        if old.name.startswith(starts) and old.suffix == ".tmp":
            with suppress(OSError):
                if time.time() - old.stat().st_mtime > YOUNG:
                    old.unlink()
