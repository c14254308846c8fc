"""addin.excel: set-up of the add-in, on played computers: what goes where, all or nothing, and away again.

Nothing here was seen in Excel: folders, contents and words only.
"""

import dataclasses
import errno
import json
import os
import shutil
import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner

from addin.excel import doctor, places, setup
from addin.excel.places import CannotSetUp, Machine, this_machine
from addin.excel.record import read_record
from addin.excel.settings import expanded, found_settings, merged, our_settings
from addin.excel.setup_cli import Setting, addin
from addin.files import CannotWrite

ADDIN = b"PK the add-in, this version"
BASIC = Path(places.this_machine().xlwings_folder, "xlwings_custom_addin.bas").read_text("utf-8")
VERSION = "0.37.8"


def addin_bytes() -> bytes:
    return ADDIN


def older_addin() -> bytes:
    return b"PK the add-in, an older version"


def windows(root: Path) -> Machine:
    """A Windows user who installed into a virtual environment: the libraries lie one folder above python.exe."""
    user, environment = root / "user", root / "venv"
    (user / "AppData" / "Roaming").mkdir(parents=True)
    (environment / "Scripts").mkdir(parents=True)
    (environment / "Scripts" / "python.exe").write_bytes(b"MZ")
    for bits in (32, 64):
        (environment / f"xlwings{bits}-{VERSION}.dll").write_bytes(b"MZ")
    return Machine(
        platform="win32", environment={"USERPROFILE": str(user), "APPDATA": str(user / "AppData" / "Roaming")},
        interpreter=str(environment / "Scripts" / "python.exe"), base="C:\\Python311", encoding="cp1252",
        xlwings_folder=environment / "xlwings", xlwings_version=VERSION, pinned=VERSION, quarantined=lambda _: False,
    )  # fmt: skip


def macos(root: Path) -> Machine:
    """A macOS user whose Excel has been started once."""
    home, package = root / "home", root / "venv" / "xlwings"
    (home / "Library/Containers/com.microsoft.Excel/Data").mkdir(parents=True)
    package.mkdir(parents=True)
    (root / "venv" / "bin").mkdir()
    (root / "venv" / "bin" / "python").write_bytes(b"")
    (package / f"xlwings-{VERSION}.applescript").write_bytes(b"on VbaHandler(x)")
    return Machine(
        platform="darwin", environment={"HOME": str(home)}, interpreter=str(root / "venv" / "bin" / "python"),
        base="/Library/Python", encoding="utf-8", xlwings_folder=package, xlwings_version=VERSION, pinned=VERSION,
        quarantined=lambda _: False,
    )  # fmt: skip


MACHINES = {"windows": windows, "macos": macos}


@pytest.fixture(params=sorted(MACHINES))
def machine(request, tmp_path) -> Machine:
    return MACHINES[request.param](tmp_path)


def tree(root: Path) -> dict[str, bytes | None]:
    """Every file with its content and every folder."""
    return {str(p.relative_to(root)): None if p.is_dir() else p.read_bytes() for p in sorted(root.rglob("*"))}


def changed(machine: Machine, **fields: object) -> Machine:
    return dataclasses.replace(machine, **fields)


def run(machine: Machine, *arguments: str, maker=addin_bytes):
    result = CliRunner().invoke(addin, arguments, obj=Setting(machine=machine, addin=maker))
    assert result.exception is None or isinstance(result.exception, SystemExit), result.output
    return result


# ------------------------------------------------------------------------------------------ install


def test_windows_gets_the_add_in_and_the_settings_the_macros_look_for(tmp_path):
    machine = windows(tmp_path)
    setup.install(machine, addin_bytes)
    user = tmp_path / "user"
    assert (user / "AppData/Roaming/Microsoft/Excel/XLSTART/plinthbook.xlam").read_bytes() == ADDIN
    assert (user / ".plinthbook/plinthbook.conf").read_bytes().decode() == (
        f'"INTERPRETER_WIN","{tmp_path}/venv/Scripts/python.exe"\r\n'
        '"ADD_WORKBOOK_TO_PYTHONPATH","false"\r\n'
        '"USE UDF SERVER","True"\r\n'
    )
    assert sorted(path.name for path in user.rglob("*") if path.is_file()) == [
        "installed.json", "plinthbook.conf", "plinthbook.xlam",
    ]  # fmt: skip


def test_macos_gets_the_add_in_the_settings_and_the_script(tmp_path):
    setup.install(macos(tmp_path), addin_bytes)
    library = tmp_path / "home" / "Library"
    startup = "Group Containers/UBF8T346G9.Office/User Content.localized/Startup.localized/Excel/plinthbook.xlam"
    assert (library / startup).read_bytes() == ADDIN
    assert (library / "Containers/com.microsoft.Excel/Data/plinthbook.conf").read_bytes().decode() == (
        f'"INTERPRETER_MAC","{tmp_path}/venv/bin/python"\n"ADD_WORKBOOK_TO_PYTHONPATH","false"\n'
    )
    script = library / f"Application Scripts/com.microsoft.Excel/xlwings-{VERSION}.applescript"
    assert script.read_bytes() == b"on VbaHandler(x)"


@pytest.mark.parametrize(
    "line",
    [
        'GetConfigFilePath = Environ("USERPROFILE") & "\\." & PROJECT_NAME & "\\" & PROJECT_NAME & ".conf"',
        'GetConfigFilePath = GetMacDir("$HOME", False) & "/" & PROJECT_NAME & ".conf"',
        "' ~/Library/Containers/com.microsoft.Excel/Data/xlwings.conf",
        'LoadLibrary(ParentFolder(PYTHON_WIN) + "\\" + XLPyDLLName)',
        'LoadLibrary(ParentFolder(ParentFolder(PYTHON_WIN)) + "\\" + XLPyDLLName)',
        'AppleScriptTask("xlwings-" & XLWINGS_VERSION & ".applescript"',
        f'Const XLPyDLLName As String = "xlwings64-{VERSION}.dll"',
        f'Const XLPyDLLName As String = "xlwings32-{VERSION}.dll"',
        f'XLWINGS_VERSION As String = "{VERSION}"',
        'GetConfig("INTERPRETER_WIN", "")',
        'GetConfig("INTERPRETER_MAC", "")',
        'GetConfig("ADD_WORKBOOK_TO_PYTHONPATH", "true")',
        'GetConfig("USE UDF SERVER", False)',
        "If LCase(sVarName) = LCase(sName) Then",
        "Input #iFileNum, sVarName, sVarValue",
    ],
)
def test_the_pinned_macros_look_where_the_set_up_puts_things(line):
    assert line in BASIC


def test_the_pinned_version_is_the_one_the_project_asks_for():
    project = tomllib.loads((Path(__file__).parents[2] / "pyproject.toml").read_text("utf-8"))
    assert f"xlwings=={this_machine().pinned}" in project["project"]["dependencies"]


def test_a_second_installation_changes_nothing_and_says_so(machine, tmp_path):
    setup.install(machine, addin_bytes)
    before = {p: (p.read_bytes(), p.stat().st_mtime_ns, p.stat().st_ino) for p in tmp_path.rglob("*") if p.is_file()}
    steps = setup.install(machine, addin_bytes)
    assert all(not step.changed and step.text.startswith("Already there: the ") for step in steps)
    assert len(steps) == (2 if machine.platform == "win32" else 3)
    assert {p: (p.read_bytes(), p.stat().st_mtime_ns, p.stat().st_ino) for p in before} == before
    assert run(machine, "install").output.endswith("Everything was there already; nothing was changed.\n")


def test_an_older_add_in_is_brought_up_to_date(machine):
    setup.install(machine, older_addin)
    steps = setup.install(machine, addin_bytes)
    assert [step.text.partition(":")[0] for step in steps if step.changed] == ["Brought up to date"]
    assert places.places(machine).addin.read_bytes() == ADDIN


def test_a_new_version_of_xlwings_brings_its_script_and_takes_the_old_one_away(tmp_path):
    machine = macos(tmp_path)
    empty = tree(tmp_path / "home")
    setup.install(machine, older_addin)
    (machine.xlwings_folder / "xlwings-0.38.0.applescript").write_bytes(b"newer")
    newer = changed(machine, pinned="0.38.0", xlwings_version="0.38.0")
    steps = setup.install(newer, addin_bytes)
    scripts = tmp_path / "home/Library/Application Scripts/com.microsoft.Excel"
    assert [path.name for path in scripts.iterdir()] == ["xlwings-0.38.0.applescript"]
    assert steps[-1].text.startswith("Removed: the AppleScript, ")
    setup.remove(newer)
    assert tree(tmp_path / "home") == empty


def test_an_add_in_that_carries_the_mark_of_a_download_is_written_anew(machine):
    setup.install(machine, addin_bytes)
    inode = places.places(machine).addin.stat().st_ino
    steps = setup.install(changed(machine, quarantined=lambda _: True), addin_bytes)
    assert places.places(machine).addin.stat().st_ino != inode
    assert [step.text.partition(",")[0] for step in steps if step.changed] == ["Brought up to date: the add-in"]


def test_every_step_is_one_plain_line(machine):
    for line in run(machine, "install").output.splitlines():
        assert "Traceback" not in line
        assert len(line) < 400
    steps = setup.remove(machine)
    assert all("\n" not in step.text for step in steps)


# ------------------------------------------------------------------------------------------ settings of others

THEIRS = b'"PYTHONPATH","C:\\tools"\r\n"add_workbook_to_pythonpath","True"\r\n"SHOW CONSOLE","True"'


def test_the_settings_of_others_stay_where_they_are(tmp_path):
    machine = windows(tmp_path)
    settings = places.places(machine).settings
    settings.parent.mkdir()
    settings.write_bytes(THEIRS)
    setup.install(machine, addin_bytes)
    assert settings.read_bytes().decode() == (
        '"PYTHONPATH","C:\\tools"\r\n"ADD_WORKBOOK_TO_PYTHONPATH","false"\r\n"SHOW CONSOLE","True"\r\n'
        f'"INTERPRETER_WIN","{machine.interpreter}"\r\n"USE UDF SERVER","True"\r\n'
    )
    setup.remove(machine)
    assert settings.read_bytes() == THEIRS


def test_what_the_user_added_since_stays_and_ours_goes(tmp_path):
    machine = windows(tmp_path)
    settings = places.places(machine).settings
    settings.parent.mkdir()
    settings.write_bytes(THEIRS)
    setup.install(machine, addin_bytes)
    settings.write_bytes(settings.read_bytes().replace(b"True", b"False") + b'"TEMP DIR","D:\\temp"\r\n')
    setup.remove(machine)
    assert settings.read_bytes() == (
        b'"PYTHONPATH","C:\\tools"\r\n"add_workbook_to_pythonpath","True"\r\n"SHOW CONSOLE","False"\r\n'
        b'"TEMP DIR","D:\\temp"\r\n'
    )


def test_what_the_user_added_between_two_installations_stays(machine):
    setup.install(machine, older_addin)
    settings = places.places(machine).settings
    settings.write_bytes(settings.read_bytes() + b'"SHOW CONSOLE","True"\n')
    setup.install(machine, addin_bytes)
    assert b'"SHOW CONSOLE","True"\n' in settings.read_bytes()
    setup.remove(machine)
    assert settings.read_bytes() == b'"SHOW CONSOLE","True"\n'


def test_a_python_that_moved_is_followed(machine, tmp_path):
    setup.install(machine, addin_bytes)
    moved = Path(shutil.copytree(tmp_path / "venv", tmp_path / "other"))
    other = str(moved / Path(machine.interpreter).relative_to(tmp_path / "venv"))
    setup.install(changed(machine, interpreter=other), addin_bytes)
    text = places.places(machine).settings.read_text()
    assert f'"{other}"' in text
    assert text.count("INTERPRETER_") == 1


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ('"A","1"\r\n"B","2"\r\n', {"A": "1", "B": "2"}),
        ('"a","1"\n"A","2"\n', {"A": "1"}),
        ('"A","1,2"\n', {"A": "1,2"}),
        ("A,1\nB,2", {"A": "1", "B": "2"}),
        ('A = 1\n"B","2"\n', {"A = 1": "B", "2": ""}),
        ("", {}),
    ],
)
def test_the_settings_are_read_as_the_macros_read_them(text, found):
    assert found_settings(text) == found


def test_a_path_basic_cannot_spell_goes_by_the_name_of_the_users_folder(tmp_path):
    machine = windows(tmp_path)
    home = "/users/Żółty"
    machine = changed(machine, environment={"USERPROFILE": home, "APPDATA": home}, interpreter=f"{home}/v/python.exe")
    assert our_settings(machine)["INTERPRETER_WIN"] == "%USERPROFILE%/v/python.exe"
    assert expanded("%UserProfile%/v/python.exe", machine) == machine.interpreter
    with pytest.raises(CannotSetUp, match="cannot read the letters"):
        our_settings(changed(machine, interpreter="/Żółty/python.exe"))
    mac = changed(machine, platform="darwin", environment={"HOME": home}, encoding="ascii")
    assert our_settings(mac)["INTERPRETER_MAC"] == "$HOME/v/python.exe"
    assert expanded("$HOME/v/python.exe", mac) == mac.interpreter


def test_a_second_line_of_one_of_our_keys_is_left_for_its_owner(tmp_path):
    data = b'"USE UDF SERVER","False"\r\n"use udf server","False"\r\n'
    data = merged(data, {"USE UDF SERVER": "True"}, windows(tmp_path))
    assert data == b'"USE UDF SERVER","True"\r\n"use udf server","False"\r\n'


# ------------------------------------------------------------------------------------------ remove


def test_removing_restores_the_tree_byte_for_byte(machine, tmp_path):
    before = tree(tmp_path)
    setup.install(machine, addin_bytes)
    assert tree(tmp_path) != before
    steps = setup.remove(machine)
    assert tree(tmp_path) == before
    assert all(step.changed for step in steps)


def test_removing_puts_back_what_stood_there(machine, tmp_path):
    where = places.places(machine)
    for path in (where.addin, where.settings, *([where.script] if where.script else [])):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(b"theirs, " + path.name.encode())
    before = tree(tmp_path)
    setup.install(machine, addin_bytes)
    setup.install(machine, addin_bytes)
    setup.remove(machine)
    assert tree(tmp_path) == before


def test_a_script_that_was_there_already_stays(tmp_path):
    machine = macos(tmp_path)
    script = places.places(machine).script
    script.parent.mkdir(parents=True)
    script.write_bytes(b"on VbaHandler(x)")
    before = tree(tmp_path)
    setup.install(machine, addin_bytes)
    setup.remove(machine)
    assert tree(tmp_path) == before


def test_a_folder_that_somebody_uses_since_stays(machine):
    setup.install(machine, addin_bytes)
    where = places.places(machine)
    other = where.addin.with_name("theirs.xlam")
    other.write_bytes(b"theirs")
    setup.remove(machine)
    assert [path.name for path in other.parent.iterdir()] == ["theirs.xlam"]


def test_an_add_in_that_somebody_changed_since_is_not_thrown_away(machine):
    setup.install(machine, addin_bytes)
    path = places.places(machine).addin
    path.write_bytes(b"their own work")
    steps = setup.remove(machine)
    assert path.read_bytes() == b"their own work"
    assert "Left as it is: the add-in is not the one put there" in "".join(step.text for step in steps)


def test_without_a_record_nothing_is_removed(machine):
    assert run(machine, "remove").output == "Nothing is installed, so nothing was removed.\n"
    path = places.places(machine).addin
    path.parent.mkdir(parents=True)
    path.write_bytes(ADDIN)
    assert "was not put there by this program and stays" in run(machine, "remove").output
    assert path.read_bytes() == ADDIN


def test_a_run_that_was_killed_can_be_undone_at_any_point(machine, tmp_path):
    before = tree(tmp_path)
    setup.install(machine, addin_bytes)
    where = places.places(machine)
    put = [where.record, where.addin, where.settings]
    for missing in range(1, 3):
        for path in put[1 + missing :]:
            path.unlink()
        setup.remove(machine)
        assert tree(tmp_path) == before
        setup.install(machine, addin_bytes)


def test_a_damaged_record_is_told_and_nothing_is_touched(machine, tmp_path):
    setup.install(machine, addin_bytes)
    places.places(machine).record.write_bytes(b'{"puts": [')
    before = tree(tmp_path)
    for command in ("install", "remove"):
        result = run(machine, command)
        assert result.exit_code == 2
        assert "installed.json is damaged; delete it, then install again." in result.output
    assert tree(tmp_path) == before


# ------------------------------------------------------------------------------------------ all or nothing


@pytest.mark.parametrize("command", ["install", "remove"])
@pytest.mark.parametrize("lock", ["~$plinthbook.xlam", ".~lock.plinthbook.xlam#"])
def test_an_add_in_that_is_open_is_left_alone_and_nothing_is_half_done(machine, tmp_path, command, lock):
    setup.install(machine, older_addin)
    settings = places.places(machine).settings
    settings.write_bytes(settings.read_bytes() + b'"SHOW CONSOLE","True"\n')
    places.places(machine).addin.with_name(lock).write_bytes(b"")
    before = tree(tmp_path)
    result = run(machine, command)
    assert result.exit_code == 2
    assert result.output.count("\n") == 1
    assert "plinthbook.xlam is open in a spreadsheet; close it there" in result.output
    assert tree(tmp_path) == before


@pytest.mark.parametrize(
    "held", ["plinthbook.xlam", "plinthbook.conf", "installed.json", f"xlwings-{VERSION}.applescript"]
)
@pytest.mark.parametrize("earlier", [False, True], ids=["first time", "upgrade"])
def test_whatever_file_cannot_be_replaced_the_others_are_put_back(machine, tmp_path, monkeypatch, held, earlier):
    where = places.places(machine)
    if earlier:
        setup.install(machine, older_addin)
        where.settings.write_bytes(b'"SHOW CONSOLE","True"\n')
        if where.script:
            where.script.write_bytes(b"an older script")
    before, replace = tree(tmp_path), os.replace

    def refuse(source, destination):
        if Path(destination).name == held:
            raise PermissionError(errno.EACCES, "Access is denied")
        replace(source, destination)

    monkeypatch.setattr(os, "replace", refuse)
    if held.endswith(".applescript") and machine.platform == "win32":
        setup.install(machine, addin_bytes)  # there is no such file there
        return
    with pytest.raises(CannotWrite, match=r"cannot be replaced while it is open elsewhere"):
        setup.install(machine, addin_bytes)
    assert tree(tmp_path) == before


def test_a_file_that_cannot_be_removed_keeps_the_others(machine, tmp_path, monkeypatch):
    setup.install(machine, addin_bytes)
    before, unlink = tree(tmp_path), Path.unlink

    def refuse(path, missing_ok=False):
        if path.name == "plinthbook.conf":
            raise PermissionError(errno.EACCES, "Access is denied")
        unlink(path, missing_ok=missing_ok)

    monkeypatch.setattr(Path, "unlink", refuse)
    with pytest.raises(CannotWrite, match=r"plinthbook.conf cannot be removed while it is open elsewhere; quit Excel"):
        setup.remove(machine)
    assert tree(tmp_path) == before


def test_an_interruption_leaves_nothing_half_done(machine, tmp_path, monkeypatch):
    before, replace = tree(tmp_path), os.replace

    def interrupt(source, destination):
        if Path(destination).name == "plinthbook.conf":
            raise KeyboardInterrupt
        replace(source, destination)

    monkeypatch.setattr(os, "replace", interrupt)
    with pytest.raises(KeyboardInterrupt):
        setup.install(machine, addin_bytes)
    assert tree(tmp_path) == before


# ------------------------------------------------------------------------------------------ where it cannot be


@pytest.mark.parametrize("command", ["install", "remove", "doctor"])
def test_linux_says_what_works_instead(command, tmp_path):
    result = run(changed(windows(tmp_path), platform="linux"), command)
    assert result.exit_code == 2
    assert "use the command line on .xlsx files (plinthbook check, plinthbook estimate)" in result.output
    assert "they calculate by themselves" in result.output


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"interpreter": ""}, "does not know where it lies"),
        ({"interpreter": "python"}, "does not know where it lies"),
        ({"base": r"C:\Program Files\WindowsApps\PythonSoftwareFoundation.Python.3.11"}, "Microsoft Store"),
        ({"interpreter": r"C:\Users\a\AppData\Local\Microsoft\WindowsApps\python.exe"}, "Microsoft Store"),
        ({"xlwings_version": "0.33.1"}, "run: pip install xlwings==0.37.8"),
        ({"environment": {}}, "does not say in USERPROFILE"),
        ({"environment": {"USERPROFILE": "/u"}}, "does not say in APPDATA"),
        ({"environment": {"USERPROFILE": "/u", "APPDATA": "/not/there"}}, "start Excel once"),
    ],
)
def test_a_machine_on_which_it_would_not_work_is_refused(tmp_path, fields, sentence):
    machine = windows(tmp_path)
    before = tree(tmp_path)
    result = run(changed(machine, **fields), "install")
    assert result.exit_code == 2
    assert sentence in result.output
    assert result.output.count("\n") == 1
    assert tree(tmp_path) == before


def test_the_commands_run_on_the_machine_they_are_on():
    result = CliRunner().invoke(addin, ["doctor"])
    assert result.exit_code == 2 if this_machine().platform == "linux" else result.exit_code in (0, 1, 2)
    assert CliRunner().invoke(addin, ["--help"]).exit_code == 0


# ------------------------------------------------------------------------------------------ doctor


def looked(machine: Machine) -> dict[str, doctor.Check]:
    return {check.name: check for check in doctor.examine(machine, addin_bytes)}


def test_nothing_is_found_wrong_after_an_installation(machine, tmp_path):
    setup.install(machine, addin_bytes)
    before = tree(tmp_path)
    result = run(machine, "doctor")
    assert result.exit_code == 0
    assert all(check.state == doctor.RIGHT and check.action == "" for check in looked(machine).values())
    assert tree(tmp_path) == before
    data = json.loads(run(machine, "doctor", "--json").output)["checks"]
    assert {row["name"] for row in data} == set(looked(machine))
    assert all(set(row) == {"name", "state", "found", "action"} for row in data)


def test_before_an_installation_it_says_what_to_run(machine):
    result = run(machine, "doctor")
    assert result.exit_code == 1
    assert "not installed" in result.output
    assert "plinthbook addin install" in result.output


def delete(pick):
    def act(machine):
        pick(machine, places.places(machine)).unlink()
        return machine

    return act


def rewrite(pick, change):
    def act(machine):
        path = pick(machine, places.places(machine))
        path.write_bytes(change(path.read_bytes()))
        return machine

    return act


def fields(**new):
    return lambda machine: changed(machine, **new)


def rename_library(machine):
    library = Path(machine.interpreter).parents[1] / f"xlwings64-{VERSION}.dll"
    library.rename(library.with_name("xlwings64-0.33.1.dll"))
    return machine


BREAKS = {
    "no python": ("both", delete(lambda m, _: Path(m.interpreter)), {"Python"}, "does not exist"),
    "another xlwings": ("both", fields(xlwings_version="0.33.1"), {"xlwings"}, "0.33.1, but the add-in is made for"),
    "add-in gone": ("both", delete(lambda _, w: w.addin), {"Add-in"}, "is gone; a virus scanner"),
    "add-in changed": ("both", rewrite(lambda _, w: w.addin, lambda data: data + b"x"), {"Add-in"}, "changed since"),
    "download": ("both", fields(quarantined=lambda _: True), {"Mark of a download"}, "its macros are blocked"),
    "settings gone": ("both", delete(lambda _, w: w.settings), {"Settings"}, "not there"),
    "record damaged": ("both", rewrite(lambda _, w: w.record, lambda _: b"{"), {"Add-in"}, "is damaged"),
    "workbook folder": (
        "both", rewrite(lambda _, w: w.settings, lambda data: data.replace(b"false", b"true")),
        {"Setting ADD_WORKBOOK_TO_PYTHONPATH"}, "true; it must be false",
    ),
    "server": (
        "windows", rewrite(lambda _, w: w.settings, lambda data: data.replace(b'"True"', b'"False"')),
        {"Setting USE UDF SERVER"}, "False; it must be True",
    ),
    "other python in settings": (
        "windows", rewrite(lambda _, w: w.settings, lambda data: data.replace(b"Scripts", b"Skripts")),
        {"Setting INTERPRETER_WIN"}, "it must be",
    ),
    "comma missing": (
        "macos", rewrite(lambda _, w: w.settings, lambda data: b"SHOW CONSOLE=True\n" + data),
        {"Setting INTERPRETER_MAC", "Setting ADD_WORKBOOK_TO_PYTHONPATH"}, "a line above it is broken",
    ),
    "store": ("windows", fields(base=r"C:\Program Files\WindowsApps\Python"), {"Origin of Python"}, "Microsoft Store"),
    "library gone": (
        "windows", delete(lambda m, _: Path(m.interpreter).parents[1] / f"xlwings32-{VERSION}.dll"),
        {"Library for 32-bit Excel"}, f"no xlwings32-{VERSION}.dll",
    ),
    "library of another version": (
        "windows", rename_library, {"Library for 64-bit Excel"}, "only xlwings64-0.33.1.dll, but the macros ask for",
    ),
    "script gone": ("macos", delete(lambda _, w: w.script), {"AppleScript"}, f"no xlwings-{VERSION}.applescript"),
    "script changed": ("macos", rewrite(lambda _, w: w.script, lambda data: data + b"x"), {"AppleScript"}, "changed"),
}  # fmt: skip


@pytest.mark.parametrize(
    ("system", "name"),
    [(system, name) for name, row in BREAKS.items() for system in MACHINES if row[0] in (system, "both")],
)
def test_each_thing_that_is_broken_is_found_and_nothing_else(tmp_path, system, name):
    machine = MACHINES[system](tmp_path)
    setup.install(machine, addin_bytes)
    _, break_it, wrong, words = BREAKS[name]
    machine = break_it(machine)
    found = {check.name: check for check in looked(machine).values() if check.state != doctor.RIGHT}
    assert set(found) == wrong
    assert all(check.state == doctor.TO_DO and check.action for check in found.values())
    assert any(words in check.found for check in found.values())
    result = run(machine, "doctor")
    assert result.exit_code == 1
    assert words in result.output


@pytest.mark.parametrize("name", ["add-in gone", "download", "settings gone", "workbook folder", "script gone"])
@pytest.mark.parametrize("system", sorted(MACHINES))
def test_what_it_says_to_do_mends_it(tmp_path, system, name):
    if BREAKS[name][0] not in (system, "both"):
        return
    machine = MACHINES[system](tmp_path)
    setup.install(machine, addin_bytes)
    broken = BREAKS[name][1](machine)
    assert all("plinthbook addin install" in c.action for c in looked(broken).values() if c.state != doctor.RIGHT)
    setup.install(broken, addin_bytes)
    assert [check for check in looked(machine).values() if check.state != doctor.RIGHT] == []


def test_an_add_in_of_an_older_version_is_told_with_its_version(machine):
    setup.install(machine, older_addin)
    check = looked(machine)["Add-in"]
    assert check.state == doctor.TO_DO
    assert f"macros of xlwings {VERSION}" in check.found
    assert read_record(places.places(machine).record).xlwings == VERSION


def test_a_python_without_a_full_path_is_found(machine):
    setup.install(machine, addin_bytes)
    assert "no full path" in looked(changed(machine, interpreter="python"))["Python"].found


def test_a_space_in_the_path_matters_on_macos_only(tmp_path):
    for name, make in MACHINES.items():
        (tmp_path / name).mkdir()
        machine = make(tmp_path / name / "with space")
        setup.install(machine, addin_bytes)
        wrong = [check.name for check in looked(machine).values() if check.state != doctor.RIGHT]
        assert wrong == (["Spaces in the path"] if name == "macos" else [])


def test_a_synced_folder_is_a_note_and_no_fault(tmp_path):
    machine = windows(tmp_path / "OneDrive - Office")
    setup.install(machine, addin_bytes)
    check = looked(machine)["OneDrive"]
    assert check.state == doctor.NOTE
    assert "is not synced" in check.action
    assert run(machine, "doctor").exit_code == 0
    assert run(machine, "install").exit_code == 0


def test_an_add_in_held_by_excel_is_a_note(machine, monkeypatch):
    setup.install(machine, addin_bytes)
    opened = Path.open

    def held(path, mode="r", *rest, **options):
        if mode == "r+b":
            raise PermissionError(errno.EACCES, "in use")
        return opened(path, mode, *rest, **options)

    monkeypatch.setattr(Path, "open", held)
    check = looked(machine)["Add-in in use"]
    assert (check.state, check.found) == (doctor.NOTE, "held by another program or not yours")


def test_what_cannot_be_looked_at_is_never_all_right(machine):
    setup.install(machine, addin_bytes)
    blind = changed(machine, quarantined=lambda _: None)
    assert looked(blind)["Mark of a download"].state == doctor.UNSEEN
    assert run(blind, "doctor").exit_code == 2
    places.places(machine).settings.unlink()
    places.places(machine).settings.mkdir()
    assert looked(machine)["Settings"].state == doctor.UNSEEN


@pytest.mark.parametrize(("text", "marked"), [
    (b"[ZoneTransfer]\r\nZoneId=3\r\n", True), (b"[ZoneTransfer]\r\nZoneId=0\r\n", False), (None, False),
])  # fmt: skip
def test_the_mark_of_a_download_is_read_from_the_stream_beside_the_file(tmp_path, text, marked):
    # On this file system the stream is a file of that very name.
    path = tmp_path / "plinthbook.xlam"
    path.write_bytes(ADDIN)
    if text is not None:
        Path(f"{path}:Zone.Identifier").write_bytes(text)
    assert places._has_stream(path) is marked


def test_the_mark_of_macos_is_not_guessed_where_it_cannot_be_asked_for(tmp_path):
    if this_machine().platform != "darwin" and not Path("/usr/bin/xattr").exists():
        assert places._has_attribute(tmp_path) is None
