"""The add-in file: sources, package, ribbon and versions agree, and two builds give the same bytes."""

import ast
import io
import posixpath
import re
import zipfile

import pytest
from lxml import etree
from pyopenvba.integrity import check_file

import addin.macros.xlam as xlam
from addin.macros.vba_project import Kind
from addin.macros.xlwings_text import CHANGES, NotOfOneVersion, _installed, changed, check_version, xlwings_module
from tests.addin.macro_readers import committed, sources, strictly_opened

CUSTOM_UI = "{http://schemas.microsoft.com/office/2006/01/customui}"
ACTIONS = ["check_survey", "estimate_here", "owner_copy", "compare_issue", "went_wrong", "about"]


@pytest.fixture(scope="module")
def data() -> bytes:
    return xlam.xlam_bytes()


@pytest.fixture(scope="module")
def parts(data) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(data)) as package:
        assert package.testzip() is None
        return {name: package.read(name) for name in package.namelist()}


# ------------------------------------------------------------------------------------------ sources


def test_every_source_comes_back_identical(data):
    found = sources("plinthbook.xlam", data)
    built = [*xlam.own_modules(), *xlam.xlwings_modules()]
    assert {module.name: module.text for module in built}.items() <= found.items()
    assert set(found) == {"ThisWorkbook", "PlinthSheet", "PlinthCalls", "PlinthFunctions", "PlinthRibbon", "xlwings",
                          "Dictionary"}  # fmt: skip
    for name in xlam.OWN_MODULES:
        assert found[name] == committed(name).replace("\n", "\r\n")


def test_other_programs_find_nothing_odd(parts, data, tmp_path):
    assert strictly_opened(parts["xl/vbaProject.bin"]).parsing_issues == []
    path = tmp_path / "plinthbook.xlam"
    path.write_bytes(data)
    assert check_file(path).issues == ()


def test_two_builds_give_the_same_bytes(data):
    assert xlam.xlam_bytes() == data


def test_the_command_writes_the_file_or_says_why_not(data, tmp_path, capsys):
    assert xlam.main([str(tmp_path / "out.xlam")]) == 0
    assert (tmp_path / "out.xlam").read_bytes() == data
    assert xlam.main([str(tmp_path / "nowhere" / "out.xlam")]) == 2
    assert "does not exist" in capsys.readouterr().err
    assert xlam.main([]) == 2


# ------------------------------------------------------------------------------------------ package


def test_every_relationship_ends_at_a_part_and_every_part_has_its_relationship(parts):
    reached = set()
    for name in (name for name in parts if name.endswith(".rels")):
        folder = posixpath.dirname(posixpath.dirname(name))
        reached |= {posixpath.join(folder, item.get("Target")) for item in etree.fromstring(parts[name])}
    assert reached == {name for name in parts if not name.endswith(".rels") and name != "[Content_Types].xml"}


def test_every_part_has_a_content_type_and_the_file_is_an_add_in(parts):
    types = list(etree.fromstring(parts["[Content_Types].xml"]))
    defaults = {item.get("Extension"): item.get("ContentType") for item in types if item.get("Extension")}
    overrides = {item.get("PartName"): item.get("ContentType") for item in types if item.get("PartName")}
    assert {name.rpartition(".")[2] for name in parts} - {"xml"} <= set(defaults)
    assert set(overrides) <= {f"/{name}" for name in parts}
    assert overrides["/xl/workbook.xml"] == "application/vnd.ms-excel.addin.macroEnabled.main+xml"
    assert defaults["bin"] == "application/vnd.ms-office.vbaProject"


def test_the_code_names_of_workbook_and_sheet_are_those_of_their_modules(parts):
    main = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
    book, sheet = etree.fromstring(parts["xl/workbook.xml"]), etree.fromstring(parts["xl/worksheets/sheet1.xml"])
    named = [book.find(f"{main}workbookPr").get("codeName"), sheet.find(f"{main}sheetPr").get("codeName")]
    project = strictly_opened(parts["xl/vbaProject.bin"]).openstream("PROJECT").read().decode("ascii")
    assert re.findall(r"^Document=(\w+)/", project, re.MULTILINE) == named
    texts = sources("vbaProject.bin", parts["xl/vbaProject.bin"])
    assert all(f'Attribute VB_Name = "{name}"' in texts[name] for name in named)
    bases = [re.search(r"0\{(\d+)-", texts[name])[1] for name in named]
    assert bases == ["00020819", "00020820"]


# ------------------------------------------------------------------------------------------ ribbon


def callbacks() -> dict[str, str]:
    """Each Sub of the ribbon's module that takes one control, with the Python it runs."""
    found = re.findall(r'^Public Sub (\w+)\(control As IRibbonControl\)\n    RunPython "(.+)"\nEnd Sub$',
                       committed("PlinthRibbon"), re.MULTILINE)  # fmt: skip
    return dict(found)


def test_every_button_of_the_ribbon_has_its_callback_and_every_callback_its_button(parts):
    buttons = list(etree.fromstring(parts["customUI/customUI.xml"]).iter(f"{CUSTOM_UI}button"))
    actions = [button.get("onAction") for button in buttons]
    assert sorted(actions) == sorted(f"PlinthRibbon.{name}" for name in callbacks())
    assert len(set(actions)) == len(actions) == 6
    for button in buttons:
        assert all(button.get(text) for text in ("id", "label", "screentip", "supertip"))
        assert len(button.get("supertip")) <= 1024
        assert button.get("id").casefold() == button.get("onAction").removeprefix("PlinthRibbon.").casefold()


def test_ids_of_the_ribbon_are_there_once(parts):
    ids = [item.get("id") for item in etree.fromstring(parts["customUI/customUI.xml"]).iter() if item.get("id")]
    assert len(ids) == len(set(ids))


def test_each_callback_runs_its_own_action():
    for line, action in zip(callbacks().values(), ACTIONS, strict=True):
        assert line == f"import addin.excel.buttons as b; b.{action}()"
        ast.parse(line)
        assert not set(line) & set("'\"|%&"), "it passes through a command line"


# ------------------------------------------------------------------------------------------ what only Excel runs


def code_lines(text: str) -> list[str]:
    lines = [line.strip() for line in text.splitlines()]
    return [line for line in lines if line and not line.startswith(("'", "Attribute ", "Option "))]


def only_in_excel() -> list[str]:
    call = re.search(r"Public Function PlinthCall\(.*?End Function", committed("PlinthCalls"), re.DOTALL)
    return code_lines(committed("PlinthRibbon")) + code_lines(call[0])


def test_fewer_than_30_lines_written_by_hand_can_be_run_by_nothing_here():
    assert 0 < len(only_in_excel()) < 30


def test_no_other_line_written_by_hand_reaches_the_program_or_xlwings():
    others = [line for line in code_lines(committed("PlinthCalls")) if line not in only_in_excel()]
    assert [line for line in others if re.search(r"XLPy|RunPython|Application|Workbook", line)] == []


# ------------------------------------------------------------------------------------------ xlwings


def test_the_macros_of_xlwings_say_the_version_of_the_package():
    text = _installed("xlwings_custom_addin.bas")
    with pytest.raises(NotOfOneVersion, match=r"say version [0-9.]+, its Python package says 0\.0\.1"):
        check_version(text, "0.0.1")
    with pytest.raises(NotOfOneVersion, match="say version nothing"):
        check_version("", "0.0.1")
    mixed = text.replace("xlwings64-", "xlwings64-9.", 1)
    with pytest.raises(NotOfOneVersion, match=r"say version 0\.37\.8, 9\.0\.37\.8"):
        check_version(mixed, "0.37.8")


def test_the_licences_of_others_stay_in_their_modules(data):
    found = sources("plinthbook.xlam", data)
    assert "BSD 3-clause" in found["xlwings"]
    assert "Redistributions in binary form must reproduce the above copyright notice" in found["xlwings"]
    assert "License: MIT" in found["Dictionary"]
    assert [module.kind for module in xlam.xlwings_modules()] == [Kind.STANDARD, Kind.CLASS]


def test_settings_come_from_the_users_own_file_only():
    text = xlwings_module()
    assert 'PROJECT_NAME As String = "plinthbook"' in text
    assert r'Environ("USERPROFILE") & "\." & PROJECT_NAME & "\" & PROJECT_NAME & ".conf"' in text
    assert 'GetMacDir("$HOME", False) & "/" & PROJECT_NAME & ".conf"' in text
    assert "SheetExists(ActiveWorkbook, PROJECT_NAME" not in text
    lookup = re.search(r"Function GetConfig\(.*?^End Function", text, re.DOTALL | re.MULTILINE)[0]
    beside = lookup.index("GetDirectoryConfigFilePath()")
    assert "If False Then" in lookup[lookup.index("' Directory Config") : beside]
    assert '"ADD_WORKBOOK_TO_PYTHONPATH", "true"' not in text


def test_a_formula_finds_only_two_functions_of_xlwings_and_cannot_run_python():
    text = xlwings_module()
    assert re.findall(r"^(?:Public )?Function (\w+)", text, re.MULTILINE) == ["RunPython", "XLPy"]
    assert text.splitlines()[2] == "Option Private Module"
    guard = 'If TypeName(Application.Caller) = "Range" Then Err.Raise 70'
    for name in ("RunPython", "ExecuteWindows", "SaveConfigToFile"):
        head = re.search(rf"Function {name}\((?:.* _\n)*.*\n(.*)", text)
        assert guard in head[1]


def test_a_change_that_finds_too_few_lines_or_too_many_stops_the_build():
    text = _installed("xlwings_custom_addin.bas")
    with pytest.raises(NotOfOneVersion, match="0 times and not 1"):
        changed(text.replace('"myaddin"', '"other"'))
    with pytest.raises(NotOfOneVersion, match="34 times and not 33"):
        changed(text + "\nFunction More()\nEnd Function\n")
    assert all(change.why for change in CHANGES)
