"""The command line.

Exit status: 0 done, 1 a check says STOP, 2 the survey has faults or a file cannot be read or written.
"""

import json
import os
import sys
from collections.abc import Iterator, Sequence
from contextlib import suppress
from datetime import date, datetime
from importlib.metadata import version
from pathlib import Path
from typing import Any, NoReturn

import click

from addin.door import Door, FileDoor
from addin.estimating import Faulty, Worked, issue_of, made_of, read_faults, work
from addin.excel.setup_cli import addin
from addin.files import CannotWrite, check_target, write_atomically
from addin.guard import CannotRead
from addin.keeping import formulas_moved
from addin.last_issue import Changes, changes_of
from addin.lift_log import check_not_lost
from addin.problems import Problem
from addin.refresh.door import InPlaceDoor
from addin.refresh.in_place import Refreshed
from addin.result_json import changes_data, problems, result
from calc.checks import STOP
from calc.number import text_of, value_of

DONE, CHECK_FAILS, FAULTS = 0, 1, 2


_HELP = """Estimate the raising of a house, from its survey workbook to a priced offer.

\b
plinthbook demo                          a worked example, in this folder
plinthbook survey my-house.xlsx          a blank survey workbook to fill in
plinthbook check my-house.xlsx           what is wrong or doubtful in it
plinthbook estimate my-house.xlsx        the estimate workbook
plinthbook refresh my-house.xlsx         the estimate inside the survey's own workbook
plinthbook addin install                 buttons and functions in Excel

Exit status: 0 done, 1 a check says STOP, 2 the survey has faults or a file cannot be read or written.
"""


@click.group(context_settings={"help_option_names": ["-h", "--help"]}, help=_HELP)
@click.version_option(version("plinthbook"), prog_name="plinthbook")
def main() -> None:
    """Run the command line."""


@main.command()
@click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path),
    default=Path("plinthbook-demo.xlsx"),
    show_default=True,
    help="Where the estimate goes.",
)
@click.option("--json", "json_path", type=click.Path(path_type=Path), help="Write the result as data as well.")
def demo(output: Path, json_path: Path | None) -> None:
    """Estimate the demo house: writes its survey and its estimate."""
    from addin.demo import demo_bytes

    survey = _beside(output, f"{output.stem}-survey.xlsx")
    _check_places(survey, output, json_path)
    data = demo_bytes()
    if not os.path.lexists(survey):
        _write(survey, data)
    elif not _holds(survey, data):
        _refuse(f"{survey} exists already and is not the survey of the demo house. Give another name with -o.")
    click.echo(f"Survey of the demo house: {survey}")
    _estimate(survey, output, json_path)


@main.command()
@click.argument("output", type=click.Path(path_type=Path), default=Path("survey.xlsx"))
@click.option("--live", is_flag=True, help="With columns that the add-in fills while entries are typed (Windows).")
def survey(output: Path, live: bool) -> None:
    """Write a blank survey workbook to OUTPUT; an existing file is left alone."""
    from addin.survey_book import survey_bytes
    from addin.survey_live import live_bytes

    if output.exists():
        _refuse(f"{output} exists already and is left as it is. Give another name.")
    _write(output, live_bytes() if live else survey_bytes())
    click.echo(f"Blank survey: {output}\nFill in Job, Grid, Rooms and Walls at least, then: plinthbook check {output}")


@main.command()
@click.argument("survey_path", metavar="SURVEY", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print faults and warnings as data.")
def check(survey_path: Path, as_json: bool) -> None:
    """List everything wrong or doubtful in SURVEY, each with its cell and what to do."""
    try:
        _, faults, warnings = read_faults(FileDoor(survey_path))
        if not faults:
            work(FileDoor(survey_path))
    except (CannotRead, CannotWrite) as reason:
        _refuse(str(reason))
    except Faulty as faulty:
        faults, warnings = faulty.faults, faulty.warnings
    if as_json:
        click.echo(json.dumps({"faults": problems(faults), "warnings": problems(warnings)}, indent=1))
    else:
        _print_problems(faults, warnings)
    sys.exit(FAULTS if faults else DONE)


@main.command()
@click.argument("survey_path", metavar="SURVEY", type=click.Path(path_type=Path))
@click.option(
    "-o", "--output", type=click.Path(path_type=Path), help="Where the estimate goes.  [SURVEY estimate.xlsx]"
)
@click.option("--json", "json_path", type=click.Path(path_type=Path), help="Write the result as data as well.")
@click.option("--drawings", type=click.Path(path_type=Path), help="Draw the jack plan into this folder: DXF, PDF, PNG.")
def estimate(survey_path: Path, output: Path | None, json_path: Path | None, drawings: Path | None) -> None:
    """Work SURVEY through and write the estimate workbook."""
    _estimate(survey_path, output or _beside(survey_path, f"{survey_path.stem} estimate.xlsx"), json_path, drawings)


@main.command()
@click.argument("book", type=click.Path(path_type=Path))
@click.option("--json", "json_path", type=click.Path(path_type=Path), help="Write the result as data as well.")
def refresh(book: Path, json_path: Path | None) -> None:
    """Make the estimate anew inside BOOK, which holds the survey.

    Sheets, charts, notes, names and formats of your own stay as they are, and so do your entries; one with a unit of
    its own becomes the number it stands for, and is listed. The earlier file is kept beside it. Where nothing has
    changed, nothing is written.
    """
    if json_path and os.path.exists(book):
        _check_json_place(json_path, book)
    door = InPlaceDoor(book, datetime.now())
    worked = _worked(door, json_path)
    try:
        made = made_of(worked, _today())
        door.put(made)
    except CannotWrite as reason:
        _refuse(str(reason))
    data = result(worked)
    done, changes = door.refreshed, changes_of(worked)
    assert done is not None
    moved = formulas_moved(worked.sheets, door)
    data["refresh"] = {
        "changed": done.changed, "kept": str(done.kept or ""), "rewritten": list(made.rewritten),
        "entries_moved": list(moved), "shown_when_opened": list(done.unshown),
        "since_last_issue": None if changes is None else changes_data(changes),
    }  # fmt: skip
    if json_path:
        _write_json(json_path, data)
    _print_result(worked, data, book)
    for label, text in _refreshed(done, made.rewritten, moved, changes, data["bill"]["currency"]):
        click.echo(f"{label + ':':<18}{text}")
    sys.exit(CHECK_FAILS if _stops(data) else DONE)


def _refreshed(
    done: Refreshed, rewritten: tuple[str, ...], moved: tuple[str, ...], changes: Changes | None, money: str
) -> Iterator[tuple[str, str]]:
    """What a refresh did, line by line."""
    if not done.changed:
        yield "Refresh", "nothing had changed, and nothing was written"
        return
    yield "Earlier file", str(done.kept)
    if rewritten:
        yield "Rewritten", f"{len(rewritten)} entries, as the plain values they stand for: {_first(rewritten)}"
    if moved:
        yield "Refresh again", f"{len(moved)} entries look at results and have followed them: {_first(moved)}"
    if changes is not None:
        yield "Since last issue", f"{len(changes.items)} items changed, works {changes.difference:+,.2f} {money}"
    if done.unshown:
        unshown = f"{len(done.unshown)} formulas of yours show when the workbook is opened"
        yield "Not worked out", f"{unshown}: {_first(done.unshown)}"


def _first(entries: Sequence[str]) -> str:
    return "; ".join(entries[:5]) + ("; and others, all with --json" if len(entries) > 5 else "")


def _estimate(survey_path: Path, output: Path, json_path: Path | None, drawings: Path | None = None) -> None:
    if os.path.exists(survey_path):  # what is not there is told by work
        _check_places(survey_path, output, json_path)
    if drawings:
        _check_drawings(drawings, survey_path, output, json_path)
    worked = _worked(FileDoor(survey_path), json_path)
    drawn = _draw(worked, drawings) if drawings else ()
    _write(output, issue_of(worked, _today()))
    data = result(worked)
    if json_path:
        _write_json(json_path, data)
    _print_result(worked, data, output)
    if drawn:
        click.echo(f"{'Drawings:':<18}{', '.join(str(path) for path in drawn)}")
    sys.exit(CHECK_FAILS if _stops(data) else DONE)


def _check_drawings(drawings: Path, *files: Path | None) -> None:
    from addin.drawing.writing import NAMES, check_directory

    for name in NAMES:
        if any(file and _same(drawings / name, file) for file in files):
            _refuse(f"{drawings / name} is the survey or a result itself. Give another folder with --drawings.")
    try:
        check_directory(drawings)
    except CannotWrite as reason:
        _refuse(str(reason))


def _draw(worked: Worked, drawings: Path) -> tuple[Path, ...]:
    """The jack plan drawn, before anything else is written: where it cannot be, nothing is."""
    from addin.drawing.band import Title
    from addin.drawing.composing import CannotDraw
    from addin.drawing.writing import write_drawings

    plan = worked.prepared.jacks
    if plan is None or not plan.jacks:
        _refuse("No jack plan was worked out for this house, so there is nothing to draw. Leave out --drawings.")
    job, entries, release = worked.survey.job, worked.rows.job, worked.found.release
    title = Title(
        job=str(entries.get("job_name") or ""), place=str(entries.get("place") or ""), issued_on=_today(),
        released=text_of(release.grade) == "released", open_answers=round(value_of(release.missing)),
        engineer=text_of(job.engineer), licence=text_of(job.licence),
    )  # fmt: skip
    try:
        return write_drawings(plan, worked.found.view, worked.survey, title, drawings)
    except (CannotDraw, CannotWrite) as reason:
        _refuse(str(reason))


def _worked(door: Door, json_path: Path | None) -> Worked:
    """The survey behind a door worked through; faults are printed, and end the run."""
    try:
        return work(door)
    except (CannotRead, CannotWrite) as reason:
        _refuse(str(reason))
    except Faulty as faulty:
        if json_path:
            _write_json(json_path, {"faults": problems(faulty.faults), "warnings": problems(faulty.warnings)})
        _print_problems(faulty.faults, faulty.warnings)
        sys.exit(FAULTS)


def _holds(path: Path, data: bytes) -> bool:
    """Whether a file has this content; one that may not be read is taken to have another."""
    with suppress(OSError):
        return path.is_file() and path.read_bytes() == data
    return False


def _beside(path: Path, name: str) -> Path:
    if not path.name:
        _refuse(f"{path} is a folder, not a file.")
    return path.with_name(name)


def _check_places(survey: Path, output: Path, json_path: Path | None) -> None:
    """Refuse what would be written over something, or nowhere, before any work."""
    if _same(output, survey):
        _refuse(f"{output} is the survey itself. Give another name with -o.")
    if json_path:
        _check_json_place(json_path, survey)
    if json_path and _same(json_path, output):
        _refuse(f"{json_path} is the estimate itself. Give another name with --json.")
    try:
        check_target(output)
        check_not_lost(output)
    except CannotWrite as reason:
        _refuse(str(reason))


def _check_json_place(json_path: Path, survey: Path) -> None:
    if _same(json_path, survey):
        _refuse(f"{json_path} is the survey itself. Give another name with --json.")
    try:
        check_target(json_path)
    except CannotWrite as reason:
        _refuse(str(reason))


def _same(one: Path, other: Path) -> bool:
    """Whether two names are one file, there already or not; a second name of the same file counts."""
    names = {os.path.normcase(os.path.realpath(path)) for path in (one, other)}
    return len(names) == 1 or (os.path.exists(one) and os.path.exists(other) and os.path.samefile(one, other))


def _today() -> date:
    return date.today()


def _stops(data: dict[str, Any]) -> list[dict[str, Any]]:
    return [c for c in data["checks"] if c["verdict"] == STOP]


def _print_result(worked: Worked, data: dict[str, Any], output: Path) -> None:
    levels, loads, jacks, bill = data["levels"], data["loads"], data["jacks"], data["bill"]
    wall, line = max(((w, row["greatest_kN_per_m"]) for w, row in loads["walls"].items()), key=lambda pair: pair[1])
    stops, missing = _stops(data), data["release"]["missing"]
    money = bill["currency"]
    lines = (
        ("Rise", f"{levels['rise_m']:.2f} m, governed by {levels['governed_by']}"),
        ("Weight", f"{loads['lifted_kN']:,.0f} kN on the jacks, {loads['stays_kN']:,.0f} kN stays"),
        ("Greatest load", f"{line:.1f} kN/m, wall {wall}"),
        (
            "Jacks",
            f"{jacks['count']} of {jacks['rating_kN']:.0f} kN at {jacks['share']:.0%}, and {jacks['spares']} spare",
        ),
        ("Price", f"{bill['total']:,.0f} {money}"),
        ("Per floor area", f"{bill['per_m2_floor']:,.0f} {money}/m2 of {data['job']['floor_area_m2']:.1f} m2"),
        ("Doubtful entries", f"{len(worked.warnings)}" + (f", first: {worked.warnings[0]}" if worked.warnings else "")),
        ("Checks", f"{len(stops)} say STOP" + _first_stops(stops)),
        ("Grade", _grade(data["release"]["grade"], missing)),
        ("Workbook", str(output)),
    )
    for label, text in lines:
        click.echo(f"{label + ':':<18}{text}")


def _first_stops(stops: list[dict[str, Any]]) -> str:
    if not stops:
        return ""
    names = {f"{c['name'].lower()} {c['state']}, {c['where']} ({c['demand']:.4g} > {c['capacity']:.4g} {c['unit']})": 0
             for c in stops}  # fmt: skip
    first = list(names)[:3]
    return ": " + "; ".join(first) + (f" and {len(names) - 3} more" if len(names) > 3 else "")


def _grade(grade: str, missing: list[str]) -> str:
    if grade == "released":
        return "released for lifting"
    return f"budget, not for lifting; missing: {'; '.join(missing)}"


def _print_problems(faults: tuple[Problem, ...], warnings: tuple[Problem, ...]) -> None:
    for problem in faults:
        click.echo(f"Fault     {problem}")
    for problem in warnings:
        click.echo(f"Doubtful  {problem}")
    if faults:
        click.echo(f"{len(faults)} faults to mend, {len(warnings)} doubtful entries. Nothing was written.")
    else:
        click.echo(f"No faults, {len(warnings)} doubtful entries.")


def _write(path: Path, data: bytes) -> None:
    try:
        write_atomically(path, data)
    except CannotWrite as reason:
        _refuse(str(reason))


def _write_json(path: Path, data: dict[str, Any]) -> None:
    _write(path, (json.dumps(data, indent=1, ensure_ascii=False, default=float) + "\n").encode())


def _refuse(sentence: str) -> NoReturn:
    click.echo(sentence, err=True)
    sys.exit(FAULTS)


main.add_command(addin)


if __name__ == "__main__":
    main()
