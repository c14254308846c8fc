"""The record of what was put on a machine, so that all of it can be taken away again.

Covers   each file with what stood there before, the settings of ours, the folders that were made.
Not      putting or taking away (setup, changes).
"""

import base64
import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from addin.excel.places import CannotSetUp

ADDIN, SETTINGS, SCRIPT = "add-in", "settings", "AppleScript"


@dataclass(frozen=True, slots=True, kw_only=True)
class Put:
    """A file as it was put: enough to take it away and to put back what stood there."""

    what: str
    path: Path
    sha256: str
    before: bytes | None
    """What stood there; None if nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """What this program has put on the machine."""

    version: str
    xlwings: str
    settings: Mapping[str, str]
    puts: tuple[Put, ...]
    folders: tuple[Path, ...]
    """Folders that were not there before, outermost first."""


def read_record(path: Path) -> Record | None:
    """What was put by an earlier run; None if nothing.

    Raises:
        CannotSetUp: the record is damaged, so nobody knows what is whose
    """
    try:
        data: dict[str, Any] = json.loads(path.read_bytes())
        puts = tuple(
            Put(what=put["what"], path=Path(put["path"]), sha256=put["sha256"],
                before=None if put["before"] is None else base64.b64decode(put["before"]))
            for put in data["puts"]
        )  # fmt: skip
        return Record(
            version=data["version"], xlwings=data["xlwings"], settings=data["settings"], puts=puts,
            folders=tuple(Path(folder) for folder in data["folders"]),
        )  # fmt: skip
    except FileNotFoundError:
        return None
    except OSError as reason:
        raise CannotSetUp(f"{path} cannot be read: {reason.strerror or reason}.") from reason
    except (ValueError, KeyError, TypeError) as reason:
        raise CannotSetUp(f"{path} is damaged; delete it, then install again.") from reason


def sha256(data: bytes) -> str:
    """The fingerprint by which a file is known again."""
    return hashlib.sha256(data).hexdigest()


def record_bytes(record: Record) -> bytes:
    """The record as a file."""
    puts = [
        {"what": put.what, "path": str(put.path), "sha256": put.sha256,
         "before": None if put.before is None else base64.b64encode(put.before).decode()}
        for put in record.puts
    ]  # fmt: skip
    data = {"version": record.version, "xlwings": record.xlwings, "settings": dict(record.settings), "puts": puts,
            "folders": [str(folder) for folder in record.folders]}  # fmt: skip
    return (json.dumps(data, indent=1) + "\n").encode()
