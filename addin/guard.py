"""A look at a workbook file before anything loads it.

Covers   what is no workbook at all, and what the list of its parts gives away: zip bombs, parts twice, parts over the
         same bytes, parts outside the package, a password.
Not      what stands in the parts (guard_parts, called from here), whether the sheets are the survey's (reader).
         No guard list is complete.
Sources  The limits are this project's: some ten times the largest honest survey.
"""

import errno
import re
import struct
import zipfile
import zlib
from pathlib import Path

from addin.guard_parts import CannotRead, PartScan

__all__ = ["CannotRead", "check_package"]

MOST_PARTS = 3_000
MOST_PART_BYTES = 150_000_000
MOST_BYTES = 400_000_000
MOST_RATIO = 200
"""Unpacked to packed; honest parts have 10 to 16. Parts under a megabyte are let pass."""

_SMALL = 1_000_000
_HEAD = 30
"""Bytes before the name of a part in the file, at least."""
_OUTSIDE = re.compile(r"/|[A-Za-z]:|.*\\|(?:.*/)?\.\.(?:/|$)").match


def check_package(path: Path) -> None:
    """Raise unless the zip at `path` is a workbook that can be loaded safely.

    Raises:
        CannotRead: with one sentence that names the file and what is wrong
    """
    damaged = f"{path} is damaged or is not an .xlsx workbook."
    try:
        with zipfile.ZipFile(path) as package:
            _check_parts(path, package)
            scan = PartScan(path)
            for info in package.infolist():
                scan.part(package, info)
            scan.finish()
    except (zipfile.BadZipFile, zlib.error, struct.error, EOFError, NotImplementedError, ValueError) as reason:
        raise CannotRead(damaged) from reason
    except OSError as reason:
        # A list of parts that points to before the start of the file comes out as a place that cannot be gone to.
        if reason.errno == errno.EINVAL:
            raise CannotRead(damaged) from reason
        raise


def _check_parts(path: Path, package: zipfile.ZipFile) -> None:
    """The list of parts, before any is unpacked."""
    parts = package.infolist()
    names = {part.filename for part in parts}
    if "xl/workbook.bin" in names or "mimetype" in names:
        raise CannotRead(f"{path} is a spreadsheet of another format; save it as .xlsx and use that.")
    if not names >= {"[Content_Types].xml", "xl/workbook.xml"}:
        raise CannotRead(f"{path} is not an .xlsx workbook: the workbook inside is missing.")
    if len(parts) > MOST_PARTS or len({name.casefold() for name in names}) < len(parts):
        raise CannotRead(f"{path} is refused: it has too many parts, or one part twice.")
    if any(_OUTSIDE(name) for name in names):
        raise CannotRead(f"{path} is refused: a part lies outside the workbook.")
    if any(part.flag_bits & 1 for part in parts):
        raise CannotRead(f"{path} is protected with a password; save it without one and use that.")
    if any(part.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED) for part in parts):
        raise CannotRead(f"{path} is refused: it is packed in a way that no spreadsheet packs.")
    if sum(part.file_size for part in parts) > MOST_BYTES or any(_swollen(part) for part in parts):
        raise CannotRead(f"{path} is refused: it unpacks to far more than a survey can hold.")
    if _overlap(parts, package.start_dir):
        raise CannotRead(f"{path} is refused: it has two parts over the same bytes.")


def _swollen(part: zipfile.ZipInfo) -> bool:
    swollen = part.file_size > _SMALL and part.file_size > MOST_RATIO * part.compress_size
    return swollen or part.file_size > MOST_PART_BYTES


def _overlap(parts: list[zipfile.ZipInfo], end: int) -> bool:
    """Whether a part begins before the one in front of it has ended, or runs into the list of parts."""
    placed = sorted(parts, key=lambda part: part.header_offset)
    ends = [part.header_offset + _HEAD + len(part.orig_filename) + part.compress_size for part in placed]
    starts = [part.header_offset for part in placed[1:]] + [end]
    return any(ended > start for ended, start in zip(ends, starts, strict=True))
