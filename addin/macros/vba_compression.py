"""Compression of VBA source and of the dir stream.

Covers   compressing bytes of any kind.
Not      decompressing; a last piece of more than 3640 bytes that does not get smaller, for which the format has no
         lossless form (text always gets smaller).
Rules    The same bytes give the same container.
Sources  [MS-OVBA] 2.4.1: container 2.4.1.1, compression 2.4.1.3, copy tokens 2.4.1.3.19, matching 2.4.1.3.19.4.
"""

import struct
from collections import defaultdict

CHUNK = 4096
"""Bytes of source in each chunk; only the last one may have fewer."""

_SIGNATURE, _CHUNK_MARK, _COMPRESSED = b"\x01", 0b011 << 12, 1 << 15
_SHORTEST = 3


def compress(data: bytes) -> bytes:
    """The container that decompresses to `data`.

    Raises:
        ValueError: the last chunk has no lossless form
    """
    pieces = (data[at : at + CHUNK] for at in range(0, len(data), CHUNK))
    return _SIGNATURE + b"".join(map(_chunk, pieces))


def _chunk(piece: bytes) -> bytes:
    """One chunk with its header: tokens, or the bytes themselves where tokens are no shorter."""
    packed, mark = _tokens(piece), _CHUNK_MARK | _COMPRESSED
    if len(packed) > CHUNK:
        if len(piece) < CHUNK:
            raise ValueError(f"the last {len(piece)} bytes cannot be made smaller, and only whole chunks are kept raw")
        packed, mark = piece, _CHUNK_MARK
    # The header says the length of the whole chunk less 3, its own two bytes included.
    return struct.pack("<H", mark | (len(packed) + 2 - 3)) + packed


def _tokens(piece: bytes) -> bytes:
    """Flag bytes, each followed by the eight tokens it tells apart: single bytes, or copies of what came before."""
    packed, group, flags, count, at = bytearray(), bytearray(), 0, 0, 0
    seen: defaultdict[bytes, list[int]] = defaultdict(list)
    while at < len(piece):
        start, length = _longest(piece, at, seen)
        if length:
            flags |= 1 << count
            group += _copy_token(at, at - start, length)
        else:
            length = 1
            group.append(piece[at])
        for place in range(at, at + length):
            seen[piece[place : place + _SHORTEST]].append(place)
        at, count = at + length, count + 1
        if count == 8 or at == len(piece):
            packed += bytes([flags]) + group
            group, flags, count = bytearray(), 0, 0
    return bytes(packed)


def _longest(piece: bytes, at: int, seen: defaultdict[bytes, list[int]]) -> tuple[int, int]:
    """Where the longest earlier match of what stands at `at` starts, nearest first, and its length; 0 for none."""
    best_start, best = 0, 0
    most = min(len(piece) - at, _longest_copy(at))
    if most < _SHORTEST:
        return 0, 0
    for start in reversed(seen.get(piece[at : at + _SHORTEST], ())):
        length = _SHORTEST
        # A match may run into what it is about to copy.
        while length < most and piece[start + length] == piece[at + length]:
            length += 1
        if length > best:
            best_start, best = start, length
        if best == most:
            break
    return best_start, best


def _offset_bits(at: int) -> int:
    """Bits of a copy token that say how far back; the other bits of sixteen say how many bytes."""
    return max((at - 1).bit_length(), 4)


def _longest_copy(at: int) -> int:
    return (0xFFFF >> _offset_bits(at)) + _SHORTEST


def _copy_token(at: int, back: int, length: int) -> bytes:
    return struct.pack("<H", (back - 1) << (16 - _offset_bits(at)) | (length - _SHORTEST))
