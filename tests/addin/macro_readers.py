"""Readers of macro files for tests: programs that share nothing with addin/macros.

Covers   oletools (sources, decompression), olefile (strict opening), pyOpenVBA (runs VBA), the text of a procedure.
"""

import io
import re
import warnings
from collections.abc import Callable
from pathlib import Path

import olefile
from pyopenvba.apps.excel import ExcelApplication

from addin.macros.vba_project import Kind, Module, from_file
from addin.macros.xlam import macro_book, own_modules

with warnings.catch_warnings():
    # oletools still uses old names of pyparsing.
    warnings.filterwarnings("ignore", message=".*deprecated", category=DeprecationWarning)
    from oletools import olevba

BOOK_TYPE = "application/vnd.ms-excel.sheet.macroEnabled.main+xml"
FOLDER = Path(__file__).parents[2] / "addin" / "macros"


def strictly_opened(data: bytes) -> olefile.OleFileIO:
    """A compound file; whatever olefile finds odd raises."""
    return olefile.OleFileIO(io.BytesIO(data), raise_defects=olefile.DEFECT_POTENTIAL)


def decompressed(data: bytes) -> bytes:
    """What a container of compressed bytes holds. oletools refuses one without any chunk, which holds nothing."""
    return b"" if data == b"\x01" else bytes(olevba.decompress_stream(bytearray(data)))


def sources(name: str, data: bytes) -> dict[str, str]:
    """Text of every module by its name, as oletools reads a file called `name`."""
    parser = olevba.VBA_Parser(name, data=data)
    try:
        return {stream.split("/")[-1]: code for _, stream, _, code in parser.extract_macros()}
    finally:
        parser.close()


def committed(name: str) -> str:
    """The committed text of one of our modules."""
    return (FOLDER / f"{name}.bas").read_text("ascii")


def procedure(text: str, name: str) -> str:
    """The text of one procedure, first line to last."""
    found = re.search(rf"^(?:Public|Private) (Function|Sub) {name}\(.*?^End \1$", text, re.MULTILINE | re.DOTALL)
    assert found, f"there is no procedure {name}"
    return found[0]


def with_call_swapped(body: str, edit: Callable[[str], str] = str) -> list[Module]:
    """Our modules with another body of PlinthCall, which nothing but Excel can run."""
    text = committed("PlinthCalls")
    whole = procedure(text, "PlinthCall")
    first, *_, last = whole.splitlines()
    calls = edit(text.replace(whole, f"{first}\n{body}\n{last}"))
    return [from_file("PlinthCalls", Kind.STANDARD, calls), *own_modules()[1:]]


def running(folder: Path, modules: list[Module], extra: str = "") -> ExcelApplication:
    """A workbook with these modules, opened by pyOpenVBA; `extra` is VBA of the test's own."""
    path = folder / "book.xlsm"
    path.write_bytes(macro_book(modules, BOOK_TYPE))
    app = ExcelApplication.open(path)
    if extra:
        app.add_module(f'Attribute VB_Name = "Extra"\n{extra}', name="Extra")
    return app
