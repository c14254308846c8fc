"""A compound file: storages and streams in one file, written from names and bytes.

Covers   version 3 files of up to 109 table sectors (some 7 MB): header, sector table, directory, mini stream; each
         storage's names in a red-black tree, as readers search them.
Not      reading one; class ids, times and state bits, which stay 0; names of more than 31 characters.
Rules    The same names and bytes give the same file.
Sources  [MS-CFB] Compound File Binary File Format, sections 2.2 to 2.6. Names are put in upper case by Python's rule,
         which is that of 2.6.4 for ASCII; other names are refused.
"""

import struct
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from math import ceil
from typing import TypeAlias

Content: TypeAlias = "bytes | Mapping[str, Content]"
"""A stream is bytes; a storage maps names to what it holds."""

SECTOR = 512
MINI_SECTOR = 64
MINI_CUTOFF = 4096
"""Streams below this lie in the mini stream."""

_FREE, _END, _TABLE, _NOTHING = 0xFFFFFFFF, 0xFFFFFFFE, 0xFFFFFFFD, 0xFFFFFFFF
_ROOT, _STREAM, _STORAGE = 5, 2, 1
_RED, _BLACK = 0, 1
_HEADER_TABLES = 109
_ENTRY = struct.Struct("<64sHBBIII16sIQQIQ")
_HEADER = struct.Struct("<8s16sHHHHH6s9I")


@dataclass(slots=True)
class _Entry:
    """One directory entry; the links are entry numbers."""

    name: str
    kind: int
    data: bytes = b""
    colour: int = _BLACK
    left: int = _NOTHING
    right: int = _NOTHING
    child: int = _NOTHING
    start: int = _END
    size: int = 0


@dataclass(slots=True)
class _Chains:
    """Sectors of one size, filled stream by stream, with the table that chains them."""

    size: int
    table: list[int] = field(default_factory=list)
    data: bytearray = field(default_factory=bytearray)

    def add(self, stream: bytes) -> int:
        """Put a stream at the end; gives its first sector."""
        if not stream:
            return _END
        first, count = len(self.table), ceil(len(stream) / self.size)
        self.table += [*range(first + 1, first + count), _END]
        self.data += stream.ljust(count * self.size, b"\0")
        return first


def compound_file(content: Mapping[str, Content]) -> bytes:
    """A whole compound file with `content` in its root storage.

    Raises:
        ValueError: a name cannot be stored, or there is more than the header has room for
    """
    entries = [_Entry("Root Entry", _ROOT)]
    entries[0].child = _storage(entries, content)
    large, mini = _Chains(SECTOR), _Chains(MINI_SECTOR)
    for entry in entries:
        if entry.kind == _STREAM:
            entry.size = len(entry.data)
            entry.start = (mini if entry.size < MINI_CUTOFF else large).add(entry.data)
    entries[0].size, entries[0].start = len(mini.data), large.add(bytes(mini.data))
    mini_start = large.add(_numbers(mini.table))
    directory_start = large.add(b"".join(_directory(entries)))
    tables = _table_sectors(large)
    header = _header(directory_start, mini_start, ceil(len(mini.table) * 4 / SECTOR), tables)
    return header + bytes(large.data)


def name_order(name: str) -> tuple[int, str]:
    """What the names of a storage are ordered by: the shorter first, then by capital letters."""
    return len(name), name.upper()


def _storage(entries: list[_Entry], content: Mapping[str, Content]) -> int:
    """Append a storage's entries; gives the number of the one its tree starts at."""
    names = sorted(content, key=name_order)
    if len({name.upper() for name in names}) < len(names):
        raise ValueError(f"names of a storage differ in capitals only: {names}")
    numbers = range(len(entries), len(entries) + len(names))
    for name in names:
        inside = content[name]
        kind, data = (_STREAM, inside) if isinstance(inside, bytes) else (_STORAGE, b"")
        entries.append(_Entry(_checked(name), kind, data))
    for number, name in zip(numbers, names, strict=True):
        inside = content[name]
        if not isinstance(inside, bytes):
            entries[number].child = _storage(entries, inside)
    return _tree(entries, numbers, depth=0, deepest=len(names).bit_length() - 1)


def _checked(name: str) -> str:
    if not name.isascii() or not 0 < len(name) <= 31 or set(name) & set("/\\:!"):
        raise ValueError(f"{name!r} cannot be the name of a stream")
    return name


def _tree(entries: list[_Entry], numbers: range, depth: int, deepest: int) -> int:
    """Link sorted entries as a balanced tree, halving; gives the number of its root.

    Halving fills every level but the deepest. With that one red and the rest black, each way down has equally many
    black entries and no red one follows another, which is all that a red-black tree asks.
    """
    if not numbers:
        return _NOTHING
    middle = len(numbers) // 2
    entry = entries[numbers[middle]]
    entry.colour = _RED if 0 < depth == deepest else _BLACK
    entry.left = _tree(entries, numbers[:middle], depth + 1, deepest)
    entry.right = _tree(entries, numbers[middle + 1 :], depth + 1, deepest)
    return numbers[middle]


def _directory(entries: list[_Entry]) -> Iterator[bytes]:
    """Each entry's 128 bytes, then unused ones to the end of the sector."""
    for entry in entries:
        name = entry.name.encode("utf-16-le")
        start = 0 if entry.kind == _STORAGE else entry.start
        links = entry.left, entry.right, entry.child
        yield _ENTRY.pack(name, len(name) + 2, entry.kind, entry.colour, *links, bytes(16), 0, 0, 0, start, entry.size)
    unused = _ENTRY.pack(b"", 0, 0, 0, _NOTHING, _NOTHING, _NOTHING, bytes(16), 0, 0, 0, 0, 0)
    yield unused * (-len(entries) % (SECTOR // _ENTRY.size))


def _table_sectors(large: _Chains) -> range:
    """Append the sector table itself, which also lists its own sectors; gives their numbers."""
    first, count = len(large.table), 1
    while count * SECTOR // 4 < first + count:
        count += 1
    if count > _HEADER_TABLES:
        raise ValueError(f"{first} sectors are more than the header has room for")
    large.table += [_TABLE] * count
    large.data += _numbers(large.table)
    return range(first, first + count)


def _numbers(table: list[int]) -> bytes:
    """Sector numbers as whole sectors, filled up with free ones."""
    filled = table + [_FREE] * (-len(table) % (SECTOR // 4))
    return struct.pack(f"<{len(filled)}I", *filled)


def _header(directory: int, mini: int, mini_sectors: int, tables: range) -> bytes:
    signature = bytes.fromhex("D0CF11E0A1B11AE1")
    fixed = _HEADER.pack(signature, bytes(16), 0x3E, 3, 0xFFFE, 9, 6, bytes(6), 0, len(tables), directory, 0,
                         MINI_CUTOFF, mini, mini_sectors, _END, 0)  # fmt: skip
    return fixed + struct.pack("<109I", *tables, *[_FREE] * (_HEADER_TABLES - len(tables)))
