"""DEVELOPERS.md keeps up with the code: fault codes, modules, commands."""

import re
from pathlib import Path

ROOT = Path(__file__).parents[1]
NOTES = (ROOT / "DEVELOPERS.md").read_text("utf-8")
_CODE = re.compile(r'"([A-Z]+(?:-[A-Z]+)+)"')


def test_every_fault_code_is_listed():
    used = {code for path in (ROOT / "addin").glob("*.py") for code in _CODE.findall(path.read_text("utf-8"))}
    assert len(used) > 60
    assert sorted(code for code in used if code not in NOTES) == []


def test_every_listed_code_is_still_raised():
    listed = NOTES[NOTES.index("## Faults") : NOTES.index("## Running everything")]
    source = "".join(path.read_text("utf-8") for path in (ROOT / "addin").glob("*.py"))
    codes = re.findall(r"[ ,]([A-Z]+(?:-[A-Z]+)+)", listed)
    assert [code for code in codes if f'"{code}"' not in source] == []


def test_every_module_is_on_the_map():
    modules = [path.stem for folder in ("calc", "addin") for path in (ROOT / folder).rglob("*.py")]
    known = NOTES.replace("quantities*", " ".join(m for m in modules if m.startswith("quantities")))
    known = known.replace("cross*", " ".join(m for m in modules if m.startswith("cross")))
    assert [name for name in modules if name != "__init__" and not re.search(rf"\b{name}\b", known)] == []
