"""Compound file and VBA project: what other programs read out is what was put in."""

import random
import struct

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from addin.macros.compound_file import MINI_CUTOFF, compound_file, name_order
from addin.macros.vba_compression import CHUNK, compress
from addin.macros.vba_project import Kind, Module, document, from_file, obfuscated, vba_project
from tests.addin.macro_readers import decompressed, sources, strictly_opened

SOME_ID = "{01234567-89AB-CDEF-0123-456789ABCDEF}"
RED, BLACK, NONE = 0, 1, 0xFFFFFFFF


def noise(size: int) -> bytes:
    return random.Random(size).randbytes(size)


# ------------------------------------------------------------------------------------------ compound file


@pytest.mark.parametrize("size", [0, 1, 63, 64, 65, 511, MINI_CUTOFF - 1, MINI_CUTOFF, MINI_CUTOFF + 1, 70_000])
def test_a_stream_of_any_size_comes_back(size):
    content = {"one": noise(size), "store": {"two": noise(size + 7), "deep": {"three": b"3"}}, "last": b"end"}
    ole = strictly_opened(compound_file(content))
    assert ole.parsing_issues == []
    assert ole.openstream("one").read() == content["one"]
    assert ole.openstream("store/two").read() == content["store"]["two"]
    assert ole.openstream("store/deep/three").read() == b"3"
    assert sorted(map(len, ole.listdir())) == [1, 1, 2, 3]


def test_a_table_of_more_than_one_sector_comes_back():
    content = {f"stream{number}": noise(40_000 + number) for number in range(12)}
    ole = strictly_opened(compound_file(content))
    assert all(ole.openstream(name).read() == data for name, data in content.items())


def test_more_than_the_header_has_room_for_is_refused():
    assert strictly_opened(compound_file({"much": bytes(7_080_000)})).get_size("much") == 7_080_000
    with pytest.raises(ValueError, match="more than the header has room for"):
        compound_file({"much": bytes(7_200_000)})


@pytest.mark.parametrize("name", ["", "x" * 32, "a/b", "a\\b", "a:b", "a!b", "\u00e4"])
def test_a_name_that_readers_stumble_over_is_refused(name):
    with pytest.raises(ValueError, match="cannot be the name"):
        compound_file({name: b""})


def test_names_that_differ_in_capitals_only_are_refused():
    with pytest.raises(ValueError, match="capitals"):
        compound_file({"dir": b"", "DIR": b""})


@pytest.mark.parametrize("count", [1, 2, 3, 4, 5, 6, 7, 8, 11, 15, 16, 30])
def test_each_storage_is_a_red_black_tree_in_the_order_of_names(count):
    names = [f"{'n' * (number % 4)}{'aBcDe'[number % 5]}{number}" for number in range(count)]
    ole = strictly_opened(compound_file(dict.fromkeys(names, b"x")))
    entries, root = ole.direntries, ole.root.sid_child
    found: list[str] = []

    def blacks_below(number: int, above: int) -> int:
        """Walk in order; gives how many black entries each way down has."""
        if number == NONE:
            return 1
        entry = ole._load_direntry(number) if entries[number] is None else entries[number]
        assert not (above == entry.color == RED), "two red entries in a row"
        left = blacks_below(entry.sid_left, entry.color)
        found.append(entry.name)
        assert left == blacks_below(entry.sid_right, entry.color), "ways down with unequal numbers of black entries"
        return left + (entry.color == BLACK)

    blacks_below(root, RED)  # as if red above: the first entry must be black
    assert found == sorted(names, key=name_order)
    assert name_order("zz") < name_order("AAA") < name_order("aab")


# ------------------------------------------------------------------------------------------ compression


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"a",
        b"Sub A()\r\nEnd Sub\r\n",
        b"a" * CHUNK,
        b"ab" * 5000,
        b"".join(b"    Line %d = %d\r\n" % (number, number * number) for number in range(2600)),
        noise(CHUNK),
        noise(2 * CHUNK + 3000),
    ],
    ids=["empty", "one", "small", "one chunk", "run", "60 KB", "raw", "raw and a piece"],
)
def test_what_is_compressed_comes_back(data):
    assert decompressed(compress(data)) == data


def test_text_gets_much_smaller():
    data = b"    PlinthDescribe one, two, three\r\n" * 400
    assert len(compress(data)) < len(data) / 10


@settings(max_examples=150, deadline=None)
@given(st.binary(max_size=3640) | st.text("ab \r\n", max_size=9000).map(str.encode))
def test_any_bytes_come_back(data):
    assert decompressed(compress(data)) == data


@pytest.mark.parametrize("more", [3700, CHUNK + 4095])
def test_an_end_that_has_no_lossless_form_is_refused(more):
    with pytest.raises(ValueError, match="cannot be made smaller"):
        compress(noise(more))


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        (b"abcdefghijklmnopqrstuv.",
         "01 19 B0 00 61 62 63 64 65 66 67 68 00 69 6A 6B 6C 6D 6E 6F 70 00 71 72 73 74 75 76 2E"),
        (b"a" * 73, "01 03 B0 02 61 45 00"),
    ],
    ids=["3.2.1", "3.2.3"],
)  # fmt: skip
def test_the_examples_of_the_specification_come_out_as_printed(text, printed):
    assert compress(text) == bytes.fromhex(printed)


# ------------------------------------------------------------------------------------------ project


def revealed(hidden: str) -> bytes:
    """What [MS-OVBA] 2.4.3.3 reads out of an obfuscated value."""
    seed, version, key, *rest = bytes.fromhex(hidden)
    assert version ^ seed == 2
    one, two, plain = key, version, key ^ seed
    data = bytearray()
    for byte in rest:
        plain = byte ^ ((two + plain) & 0xFF)
        one, two = byte, one
        data.append(plain)
    fillers = (seed & 6) // 2
    (size,) = struct.unpack_from("<I", data, fillers)
    assert len(data) == fillers + 4 + size
    return bytes(data[fillers + 4 :])


@pytest.mark.parametrize("seed", [0x00, 0x5D, 0x36, 0xA7, 0xFF])
def test_hidden_values_are_read_out_again(seed):
    assert revealed(obfuscated(b"\x00\xff\x80", project_key=0xDF, seed=seed)) == b"\x00\xff\x80"


def modules() -> list[Module]:
    long = "".join(f"' remark {number * number}\r\n" for number in range(900))
    class_text = 'VERSION 1.0 CLASS\nBEGIN\n  MultiUse = -1\nEND\nAttribute VB_Name = "Thing"\nPublic A As Long\n'
    return [
        document("ThisWorkbook", Kind.BOOK),
        document("FirstSheet", Kind.SHEET),
        Module(name="Longest", kind=Kind.STANDARD, text=f'Attribute VB_Name = "Longest"\r\n{long}'),
        from_file("Thing", Kind.CLASS, class_text),
    ]


def test_the_sources_of_a_project_come_back_identical():
    data = vba_project("Some", SOME_ID, modules())
    assert strictly_opened(data).parsing_issues == []
    assert sources("vbaProject.bin", data) == {module.name: module.text for module in modules()}


def test_a_class_file_loses_its_header_and_nothing_else():
    assert modules()[-1].text == 'Attribute VB_Name = "Thing"\r\nPublic A As Long\r\n'


def test_the_project_is_open_and_lists_its_modules_by_what_they_belong_to():
    ole = strictly_opened(vba_project("Some", SOME_ID, modules()))
    lines = ole.openstream("PROJECT").read().decode("ascii").split("\r\n")
    assert lines[:6] == [f'ID="{SOME_ID}"', "Document=ThisWorkbook/&H00000000", "Document=FirstSheet/&H00000000",
                         "Module=Longest", "Class=Thing", 'Name="Some"']  # fmt: skip
    hidden = {line[: line.index("=")]: line.split('"')[1] for line in lines if line[:3] in ("CMG", "DPB", "GC=")}
    assert {key: revealed(value) for key, value in hidden.items()} == {"CMG": bytes(4), "DPB": b"\0", "GC": b"\xff"}
    assert ole.openstream("PROJECTwm").read().startswith(b"ThisWorkbook\0" + "ThisWorkbook\0".encode("utf-16-le"))
    assert ole.openstream("VBA/_VBA_PROJECT").read() == bytes.fromhex("CC61FFFF000000")


def test_the_references_name_no_user_and_no_folder_of_one():
    records = decompressed(strictly_opened(vba_project("Some", SOME_ID, modules())).openstream("VBA/dir").read())
    assert records.count(b"*\\G{") == 2
    assert b"{2DF8D04C-5BFA-101B-BDE5-00AA0044DE52}" in records
    assert b"sers" not in records


@pytest.mark.parametrize(
    ("name", "text", "fault"),
    [
        ("X" * 32, "", "cannot be the name"),
        ("1st", "", "cannot be the name"),
        ("Other", 'Attribute VB_Name = "Another"\n', "does not begin with its own name"),
        ("Other", 'Attribute VB_Name = "Other"\n\' \u20b9\n', "not plain ASCII"),
    ],
)
def test_a_module_that_would_not_load_is_refused(name, text, fault):
    with pytest.raises(ValueError, match=fault):
        from_file(name, Kind.STANDARD, text)


def test_a_module_may_not_be_called_like_the_project():
    with pytest.raises(ValueError, match="different names"):
        vba_project("LONGEST", SOME_ID, modules())
