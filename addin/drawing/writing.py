"""The drawing of a jack plan as three files in a folder.

Covers   jack-plan.dxf, jack-plan.pdf, jack-plan.png; the folder, made where it is missing.
Not      what is drawn (composing).
Rules    each file is put in its place whole or not at all; all three are ready before the first is written.
"""

import os
from pathlib import Path

from addin.drawing.band import Title
from addin.drawing.composing import drawing_of
from addin.files import CannotWrite, check_target, write_atomically
from calc.jack_plan_rows import JackPlan
from calc.plan_view import PlanView
from calc.survey import Survey

NAMES = ("jack-plan.dxf", "jack-plan.pdf", "jack-plan.png")


def check_directory(directory: str | os.PathLike[str]) -> None:
    """Raise unless drawings can be put into a folder, there already or not. Nothing is made.

    Args:
        directory: the folder

    Raises:
        CannotWrite: with one sentence
    """
    folder = Path(directory)
    if folder.is_dir():
        for name in NAMES:
            check_target(folder / name)
        return
    there = next((place for place in (folder, *folder.absolute().parents) if os.path.lexists(place)), folder)
    if not there.is_dir():
        raise CannotWrite(f"{there} is not a folder; choose another one for the drawings.")
    check_target(there / NAMES[0])


def _made(directory: str | os.PathLike[str]) -> Path:
    folder = Path(directory)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as reason:
        raise CannotWrite(f"The folder {folder} cannot be made: {reason.strerror or reason}.") from reason
    return folder


def write_drawings(
    plan: JackPlan, view: PlanView, survey: Survey, title: Title, directory: str | os.PathLike[str]
) -> tuple[Path, ...]:
    """Draw the jack plan and write it as DXF, PDF and PNG; gives back the files.

    Args:
        plan: where every jack stands
        view: the plan of the ground storey, worked out on floats
        survey: the entries on floats
        title: what the sheet says about the job
        directory: the folder; made where it is missing

    Raises:
        CannotWrite: a file could not be written; those that stood there before still stand
        CannotDraw: no paper takes the house
    """
    from addin.drawing.dxf import dxf_bytes
    from addin.drawing.picture import pictures

    check_directory(directory)
    drawing = drawing_of(plan, view, survey, title)
    contents = (dxf_bytes(drawing), *pictures(drawing))
    folder = _made(directory)
    paths = tuple(folder / name for name in NAMES)
    for path, content in zip(paths, contents, strict=True):
        write_atomically(path, content)
    return paths
