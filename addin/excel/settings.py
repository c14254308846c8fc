"""The settings file that the add-in's macros read: one `"KEY","value"` a line.

Covers   reading it as the macros do; putting our keys into a file that may hold others; taking them out again.
Not      where it lies (places), when it is written (setup).
Rules    Lines of others are kept byte for byte, line ends too. Keys are compared without regard to case, and the
         first one counts, as the macros have it.
Sources  GetConfigFromFile and ExpandEnvironmentStrings in xlwings_custom_addin.bas of the pinned xlwings.
"""

import re
from collections.abc import Mapping

from addin.excel.places import MACOS, WINDOWS, CannotSetUp, Machine

_KEY = re.compile(rb'\s*"?([^",]*?)"?\s*,')
_FIELD = re.compile(r'\s*(?:"([^"]*)"[^,\r\n]*|([^,\r\n]*))(?:,|\r\n|\r|\n|$)')
INTERPRETER = {WINDOWS: "INTERPRETER_WIN", MACOS: "INTERPRETER_MAC"}


def our_settings(machine: Machine) -> dict[str, str]:
    """What the macros must find on this machine, by key."""
    ours = {INTERPRETER[machine.platform]: _written_path(machine), "ADD_WORKBOOK_TO_PYTHONPATH": "false"}
    if machine.platform == WINDOWS:
        # One Python stays open behind the buttons and functions in place of one start a click.
        ours["USE UDF SERVER"] = "True"
    return ours


def found_settings(text: str) -> dict[str, str]:
    r"""What the macros read from the file: pairs of fields, not lines; one comma too few shifts all that follow.

    >>> found_settings('"A","1"\r\nb,2')
    {'A': '1', 'B': '2'}
    >>> found_settings('A=1\nB,2\n')
    {'A=1': 'B', '2': ''}
    """
    fields: list[str] = []
    at = 0
    while at < len(text):
        found = _FIELD.match(text, at)
        if found is None or found.end() == at:
            break
        fields.append(found[1] if found[1] is not None else found[2].strip())
        at = found.end()
    found_pairs: dict[str, str] = {}
    for key, value in zip(fields[::2], [*fields[1::2], ""], strict=False):
        found_pairs.setdefault(key.upper(), value)
    return found_pairs


def expanded(value: str, machine: Machine) -> str:
    """A value as the macros use it, with %NAME% or a leading $HOME filled in."""
    if machine.platform == MACOS:
        home, slash, rest = value.partition("/")
        return f"{machine.environment.get('HOME', '')}{slash}{rest}" if home == "$HOME" else value
    known = {name.upper(): text for name, text in machine.environment.items()}
    return re.sub("%([^%]+)%", lambda name: known.get(name[1].upper(), name[0]), value)


def read_text(data: bytes, machine: Machine) -> str:
    """The file as the macros see it; a byte that is no letter to them is none here."""
    return data.decode(machine.encoding, "replace")


def merged(data: bytes, ours: Mapping[str, str], machine: Machine) -> bytes:
    """The settings with ours in them, each in the place of the first line of that key or at the end."""
    end = b"\r\n" if machine.platform == WINDOWS else b"\n"
    missing, lines = dict(ours), []
    for line in _lines(data):
        key = _key_of(line)
        if key in missing:
            line = _line(key, missing.pop(key), machine) + (_line_end(line) or end)
        lines.append(line)
    if missing and lines and not _line_end(lines[-1]):
        lines[-1] += end
    return b"".join(lines + [_line(key, value, machine) + end for key, value in missing.items()])


def without(data: bytes, ours: Mapping[str, str], before: bytes) -> bytes:
    """The settings without our keys, and with the lines that stood in their place `before`."""
    old = {_key_of(line): line for line in reversed(_lines(before))}
    remaining, lines = set(ours), []
    for line in _lines(data):
        key = _key_of(line)
        if key in remaining:
            remaining.remove(key)
            line = old.get(key, b"")
        lines.append(line)
    return b"".join(lines)


def _written_path(machine: Machine) -> str:
    """The path of the Python; by the name of the user's folder where Basic could not read the letters of it."""
    path = machine.interpreter
    if not path.isascii():
        name, short = ("USERPROFILE", "%USERPROFILE%") if machine.platform == WINDOWS else ("HOME", "$HOME")
        home = machine.environment.get(name, "")
        if home and path.startswith(home):
            path = short + path.removeprefix(home)
    try:
        path.encode(machine.encoding)
    except UnicodeError as reason:
        raise CannotSetUp(
            f"Excel's macros cannot read the letters of the path {path}; put Python elsewhere."
        ) from reason
    if '"' in path or "\n" in path:
        raise CannotSetUp(f"The path {path} has a quotation mark or a line break in it; put Python elsewhere.")
    return path


def _lines(data: bytes) -> list[bytes]:
    return re.findall(rb"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+", data)


def _key_of(line: bytes) -> str:
    found = _KEY.match(line)
    return found[1].decode("latin-1").upper() if found else ""


def _line(key: str, value: str, machine: Machine) -> bytes:
    return f'"{key}","{value}"'.encode(machine.encoding)


def _line_end(line: bytes) -> bytes:
    return line[len(line.rstrip(b"\r\n")) :]
