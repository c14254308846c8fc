"""A VBA project from the text of its modules: the streams of a vbaProject.bin.

Covers   standard, class and document modules; references to OLE Automation and Office; an open, unprotected project.
         Source only: no performance cache, so every version of the host compiles the text it is given.
Not      forms, passwords, help files, conditional constants, text beyond ASCII.
Rules    The same modules give the same bytes: nothing is random and no clock is read.
Sources  [MS-OVBA] Office VBA File Format Structure: 2.3.1 PROJECT, 2.3.3 PROJECTwm, 2.3.4.1 _VBA_PROJECT, 2.3.4.2 dir,
         2.3.4.3 module streams, 2.4.3 data encryption; 2.4.1 compression is vba_compression's.
"""

import re
import struct
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum

from addin.macros.compound_file import compound_file
from addin.macros.vba_compression import compress

CODE_PAGE = 1252
ENGLISH = 0x0409

_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_]{0,30}")
_REFERENCES = (
    ("stdole", r"*\G{00020430-0000-0000-C000-000000000046}#2.0#0#C:\Windows\System32\stdole2.tlb#OLE Automation"),
    ("Office", r"*\G{2DF8D04C-5BFA-101B-BDE5-00AA0044DE52}#2.0#0#C:\Program Files\Common Files\Microsoft Shared"
               r"\OFFICE16\MSO.DLL#Microsoft Office 16.0 Object Library"),
)  # fmt: skip
"""Found by their ids wherever they are installed; the paths are the usual ones. Office declares IRibbonControl."""

_CLASS_ID = "{FCFB3D2A-A0FA-1068-A738-08002B3371B5}"
_BOOK_ID, _SHEET_ID = "{00020819-0000-0000-C000-000000000046}", "{00020820-0000-0000-C000-000000000046}"
_NO_COOKIE = 0xFFFF
_SEED = 0x5D
"""Any byte: it only decides how the three protection values look."""


class Kind(Enum):
    """What a module belongs to; the value is its key in the PROJECT stream."""

    STANDARD = "Module"
    CLASS = "Class"
    BOOK = "Document"
    SHEET = "Document "


@dataclass(frozen=True, slots=True, kw_only=True)
class Module:
    """One module: its name, what it belongs to, and its whole text as a stream holds it, attributes first."""

    name: str
    kind: Kind
    text: str

    def __post_init__(self) -> None:
        if not _NAME.fullmatch(self.name):
            raise ValueError(f"{self.name!r} cannot be the name of a module: 31 letters, digits or _ at most")
        if f'Attribute VB_Name = "{self.name}"' not in self.text.split("\r\n")[0]:
            raise ValueError(f"the text of {self.name} does not begin with its own name")
        if not self.text.isascii() or "\n" in self.text.replace("\r\n", ""):
            raise ValueError(f"the text of {self.name} is not plain ASCII with CR LF at the ends of lines")


def from_file(name: str, kind: Kind, text: str) -> Module:
    """A module from an exported file (.bas, .cls), with its line ends and without the header of a class file."""
    lines = text.splitlines()
    if lines and lines[0].startswith("VERSION "):
        lines = lines[lines.index("END") + 1 :]
    return Module(name=name, kind=kind, text="\r\n".join(lines) + "\r\n")


def document(name: str, kind: Kind) -> Module:
    """The empty module that stands for the workbook or for a sheet."""
    base = _BOOK_ID if kind is Kind.BOOK else _SHEET_ID
    flags = {"GlobalNameSpace": False, "Creatable": False, "PredeclaredId": True, "Exposed": True,
             "TemplateDerived": False, "Customizable": True}  # fmt: skip
    lines = [f'Attribute VB_Name = "{name}"', f'Attribute VB_Base = "0{base}"']
    lines += [f"Attribute VB_{flag} = {value}" for flag, value in flags.items()]
    return Module(name=name, kind=kind, text="\r\n".join(lines) + "\r\n")


def vba_project(name: str, project_id: str, modules: Sequence[Module]) -> bytes:
    """The vbaProject.bin of a project.

    Args:
        name: of the project
        project_id: a GUID in braces, the same one for ever
        modules: in the order in which the editor lists them; that of the workbook first

    Raises:
        ValueError: two modules, or a module and the project, share a name
    """
    names = [name, *(module.name for module in modules)]
    if len({n.upper() for n in names}) < len(names):
        raise ValueError(f"the project and its modules need different names: {names}")
    streams = {module.name: compress(module.text.encode("ascii")) for module in modules}
    # Version 0xFFFF says that no cache follows, so every reader goes by the source.
    streams["_VBA_PROJECT"] = struct.pack("<HHBH", 0x61CC, 0xFFFF, 0, 0)
    streams["dir"] = compress(b"".join(_dir(name, modules)))
    about = "\r\n".join(_project(name, project_id, modules)) + "\r\n"
    return compound_file({"PROJECT": about.encode("ascii"), "PROJECTwm": _name_map(modules), "VBA": streams})


# ------------------------------------------------------------------------------------------ dir


def _dir(name: str, modules: Sequence[Module]) -> Iterator[bytes]:
    """The records of the dir stream, in the order that 2.3.4.2 fixes."""
    yield _record(0x01, struct.pack("<I", 1))  # the system it was made for: 32 bit; it decides nothing
    yield _record(0x02, struct.pack("<I", ENGLISH)) + _record(0x14, struct.pack("<I", ENGLISH))
    yield _record(0x03, struct.pack("<H", CODE_PAGE))
    yield _record(0x04, name.encode("ascii"))
    yield _twice(0x05, "", 0x40)  # description
    yield _record(0x06, b"") + _record(0x3D, b"")  # help files
    yield _record(0x07, bytes(4)) + _record(0x08, bytes(4))  # help context, flags
    yield struct.pack("<HIIH", 0x09, 4, 1, 0)  # version; this record's size leaves the last part out
    yield _twice(0x0C, "", 0x3C)  # constants
    for reference, library in _REFERENCES:
        text = library.encode("ascii")
        yield _twice(0x16, reference, 0x3E) + _record(0x0D, struct.pack("<I", len(text)) + text + bytes(6))
    yield _record(0x0F, struct.pack("<H", len(modules))) + _record(0x13, struct.pack("<H", _NO_COOKIE))
    for module in modules:
        yield from _module_records(module)
    yield _record(0x10, b"")


def _module_records(module: Module) -> Iterator[bytes]:
    yield _twice(0x19, module.name, 0x47) + _twice(0x1A, module.name, 0x32)  # module, stream
    yield _twice(0x1C, "", 0x48)  # description
    yield _record(0x31, bytes(4))  # the source starts at once: there is no cache before it
    yield _record(0x1E, bytes(4)) + _record(0x2C, struct.pack("<H", _NO_COOKIE))
    yield _record(0x21 if module.kind is Kind.STANDARD else 0x22, b"") + _record(0x2B, b"")


def _record(key: int, data: bytes) -> bytes:
    return struct.pack("<HI", key, len(data)) + data


def _twice(key: int, text: str, wide_key: int) -> bytes:
    """A text in the code page, and again in UTF-16."""
    return _record(key, text.encode("ascii")) + _record(wide_key, text.encode("utf-16-le"))


# ------------------------------------------------------------------------------------------ PROJECT


def _project(name: str, project_id: str, modules: Sequence[Module]) -> Iterator[str]:
    """The lines of the PROJECT stream."""
    yield f'ID="{project_id}"'
    for module in modules:
        suffix = "/&H00000000" if module.kind in (Kind.BOOK, Kind.SHEET) else ""
        yield f"{module.kind.value.strip()}={module.name}{suffix}"
    yield f'Name="{name}"'
    yield 'HelpContextID="0"'
    yield 'VersionCompatible32="393222000"'
    key = sum(project_id.encode("ascii")) & 0xFF
    yield f'CMG="{obfuscated(bytes(4), key)}"'  # no protection
    yield f'DPB="{obfuscated(bytes(1), key)}"'  # no password
    yield f'GC="{obfuscated(bytes([0xFF]), key)}"'  # visible
    yield from ("", "[Host Extender Info]", "&H00000001={3832D640-CF90-11CF-8E43-00A0C911005A};VBE;&H00000000")
    yield from ("", "[Workspace]", *(f"{module.name}=0, 0, 0, 0, C" for module in modules))


def obfuscated(data: bytes, project_key: int, seed: int = _SEED) -> str:
    """Bytes as 2.4.3.2 hides them, in hexadecimal.

    Args:
        data: what is hidden
        project_key: sum of the bytes of the project's id, lowest byte
        seed: any byte
    """
    hidden = [seed, seed ^ 2, seed ^ project_key]
    plain = project_key
    # The fillers may be any byte, and a reader skips as many as the seed says.
    for byte in bytes((seed & 6) // 2) + struct.pack("<I", len(data)) + data:
        hidden.append(byte ^ ((hidden[-2] + plain) & 0xFF))
        plain = byte
    return bytes(hidden).hex().upper()


def _name_map(modules: Sequence[Module]) -> bytes:
    """The PROJECTwm stream: each module's name in the code page and in UTF-16."""
    pairs = (m.name.encode("ascii") + b"\0" + m.name.encode("utf-16-le") + b"\0\0" for m in modules)
    return b"".join(pairs) + b"\0\0"
