"""Workbooks as an estimator's office might have them: made by XlsxWriter, with everything openpyxl would lose.

Covers   a workbook with charts, shapes, pictures, notes, buttons, rules, tables, names, rich text, macros; what a
         package must hold to whatever is in it.
Not      our own sheets.
"""

import io
import posixpath
import re
import struct
import zipfile
import zlib
from collections.abc import Callable, Mapping
from datetime import datetime
from typing import Any
from urllib.parse import unquote

import xlsxwriter
from lxml import etree

RELATION = "{http://schemas.openxmlformats.org/package/2006/relationships}Relationship"
TYPES = "{http://schemas.openxmlformats.org/package/2006/content-types}"
MACROS = bytes.fromhex("d0cf11e0a1b11ae1") + b"not a real project, but nobody may touch it" * 40


def picture(red: int) -> bytes:
    """A small PNG of one colour."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    rows = b"".join(b"\x00" + bytes((red, 120, 60)) * 8 for _ in range(8))
    head = struct.pack(">IIBBBBB", 8, 8, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")


def user_book(*, macros: bool = False, sheets: int = 0, more: Callable[[Any], None] | None = None) -> bytes:
    """A workbook of the user's.

    Args:
        macros: whether it is an .xlsm
        sheets: plain sheets besides
        more: adds whatever a test needs
    """
    stream = io.BytesIO()
    book = xlsxwriter.Workbook(stream, {"in_memory": True})
    book.set_properties({"title": "Costs of the office", "manager": "Ilva Torm", "company": "Torm and Daughters"})
    book.set_custom_property("Checked on", datetime(2026, 1, 12))
    book.set_calc_mode("auto")
    bold, money = book.add_format({"bold": True}), book.add_format({"num_format": '#,##0.00 "per day"'})
    costs, notes = book.add_worksheet("Costs"), book.add_worksheet("Photos & notes")
    for row, (what, days, rate) in enumerate((("Crane", 3, 410.5), ("Lorry", 7, 120), ("Barrier", 21, 9.75)), start=1):
        costs.write_row(row, 0, (what, days, rate))
        costs.write_formula(row, 3, f"=B{row + 1}*C{row + 1}", money, days * rate)
    costs.add_table("A1:D5", {"name": "HireCosts", "total_row": True, "columns": [
        {"header": "What", "total_string": "Total"}, {"header": "Days"}, {"header": "Rate"},
        {"header": "Cost", "total_function": "sum", "total_value": 2276.25, "format": money}]})  # fmt: skip
    costs.write_rich_string("A8", "only ", bold, "half", " of it is ours")
    costs.write_dynamic_array_formula("F2:F4", "=SORT(B2:B4)", None, 3)
    costs.write("G3", 7)
    costs.write("G4", 21)
    costs.write_array_formula("H2:H2", "{=SUM(B2:B4*C2:C4)}", None, 2276.25)
    costs.conditional_format("B2:B4", {"type": "data_bar", "data_bar_2010": True, "bar_solid": True})
    costs.conditional_format("C2:C4", {"type": "cell", "criteria": ">", "value": 100, "format": bold})
    costs.conditional_format("D2:D4", {"type": "icon_set", "icon_style": "3_traffic_lights"})
    costs.data_validation("B2:B4", {"validate": "integer", "criteria": "between", "minimum": 1, "maximum": 60})
    costs.add_sparkline("E2", {"range": "Costs!B2:B4", "markers": True})
    costs.write_comment("C2", "agreed by telephone", {"x_scale": 2.1})
    costs.insert_button("K2", {"caption": "Print all", "macro": "print_all"})
    costs.insert_checkbox("J9", True)
    costs.insert_textbox("K6", "Ask for the winter rate", {"fill": {"color": "#FFF0CC"}})
    costs.ignore_errors({"number_stored_as_text": "A1:A9"})
    costs.set_header("&L&G&RHire", {"image_left": "left.png", "image_data_left": io.BytesIO(picture(200))})
    costs.freeze_panes(1, 0)
    costs.autofilter("J1:K9")
    costs.print_area("A1:H40")
    notes.write("A1", "Front, from the road")
    notes.insert_image("B2", "front.png", {"image_data": io.BytesIO(picture(90)), "description": "front of the house"})
    notes.set_background(io.BytesIO(picture(240)))
    notes.protect("", {"format_cells": True})
    notes.unprotect_range("B9:B12", "Remarks")
    chart: Any = book.add_chart({"type": "column"})
    chart.add_series({"categories": "=Costs!$A$2:$A$4", "values": "=Costs!$D$2:$D$4", "trendline": {"type": "linear"},
                      "data_labels": {"value": True, "custom": [{"value": "=Costs!$A$8"}]},
                      "gradient": {"colors": ["#DDEEFF", "#224466"]}})  # fmt: skip
    costs.insert_chart("A12", chart)
    sheet: Any = book.add_chartsheet("Hire chart")
    other: Any = book.add_chart({"type": "pie"})
    other.add_series({"categories": "=Costs!$A$2:$A$4", "values": "=Costs!$B$2:$B$4"})
    sheet.set_chart(other)
    book.define_name("DayRate", "=Costs!$C$2")
    book.define_name("'Photos & notes'!Remarks", "='Photos & notes'!$B$9:$B$12")
    for number in range(sheets):
        plain = book.add_worksheet(f"Job {number + 1}")
        for row in range(120):
            plain.write_row(row, 0, (row + 1, f"line {row % 17}", 1.5 * row))
            plain.write_formula(row, 3, f"=A{row + 1}*C{row + 1}", None, (row + 1) * 1.5 * row)
    if more is not None:
        more(book)
    if macros:
        book.add_vba_project(io.BytesIO(MACROS), is_stream=True)
    book.close()
    return stream.getvalue()


def parts(data: bytes) -> dict[str, bytes]:
    """Every part of a package."""
    with zipfile.ZipFile(io.BytesIO(data)) as file:
        return {name: file.read(name) for name in file.namelist()}


def rewritten(data: bytes, changes: Mapping[str, bytes | None]) -> bytes:
    """A copy with some parts changed, added, or (None) left out."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as file:
        for name, content in (parts(data) | dict(changes)).items():
            if content is not None:
                file.writestr(name, content)
    return out.getvalue()


def edited(data: bytes, part: str, old: bytes | str, new: bytes | str) -> bytes:
    """A copy with one text of a part replaced; it must be there."""
    old, new = (text.encode() if isinstance(text, str) else text for text in (old, new))
    content = parts(data)[part]
    assert old in content, f"{part} has no {old!r}"
    return rewritten(data, {part: content.replace(old, new, 1)})


def sheet_parts(data: bytes) -> dict[str, str]:
    """Title of each sheet -> its part."""
    there = parts(data)
    book = etree.fromstring(there["xl/workbook.xml"])
    ways = {r.get("Id"): way for r, way in _targets("xl/workbook.xml", there["xl/_rels/workbook.xml.rels"])}
    office = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"
    return {sheet.get("name", ""): ways[sheet.get(office)] for sheet in book.iter("{*}sheet")}


def faults_of_package(data: bytes) -> list[str]:
    """What is wrong with a package whatever it holds: loose ends, parts nobody needs, parts nobody describes."""
    there, found = parts(data), []
    pointed = {"[Content_Types].xml"}
    for name, content in there.items():
        if not name.endswith(".rels"):
            continue
        owner = re.sub(r"(?:^|(?<=/))_rels/([^/]*)\.rels$", r"\1", name)
        if owner and owner not in there:
            found.append(f"{name} belongs to a part that is not there")
        pointed.add(name)
        ids = [r.get("Id") for r, _ in _targets(owner, content)]
        if len(set(ids)) < len(ids):
            found.append(f"{name} gives one number twice")
        for _, way in _targets(owner, content):
            pointed.add(way)
            if way not in there:
                found.append(f"{name} points at {way}, which is not there")
    found += [f"nobody points at {name}" for name in there if name not in pointed]
    types = etree.fromstring(there["[Content_Types].xml"])
    endings = {item.get("Extension", "").lower() for item in types.iter(f"{TYPES}Default")}
    described = [unquote(item.get("PartName", "")).lstrip("/") for item in types.iter(f"{TYPES}Override")]
    found += [f"{name} is described and not there" for name in described if name not in there]
    found += [f"{name} is described twice" for name in set(described) if described.count(name) > 1]
    found += [f"nobody describes {name}" for name in there
              if name not in described and name.rpartition(".")[2].lower() not in endings]  # fmt: skip
    return found


def _targets(owner: str, content: bytes) -> list[tuple[Any, str]]:
    found = []
    for relation in etree.fromstring(content).iter(RELATION):
        target = relation.get("Target", "")
        if relation.get("TargetMode") == "External" or target.startswith("#"):
            continue
        way = posixpath.normpath(posixpath.join("/", posixpath.dirname(owner), unquote(target))).lstrip("/")
        found.append((relation, way))
    return found


def plain_book(more: Callable[[Any], None] | None = None) -> bytes:
    """A workbook with one sheet, two texts and a number, and nothing that needs a look of its own."""
    stream = io.BytesIO()
    book = xlsxwriter.Workbook(stream, {"in_memory": True})
    book.add_worksheet("Mine").write_row(0, 0, ("plain", "text", 12))
    if more is not None:
        more(book)
    book.close()
    return stream.getvalue()
