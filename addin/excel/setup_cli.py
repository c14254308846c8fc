"""The commands that set the add-in up: plinthbook addin install, remove, doctor.

Exit status: 0 all right, 1 something is left to do, 2 it could not be done or looked at.
"""

import dataclasses
import json
import sys
from collections.abc import Callable
from dataclasses import dataclass
from typing import NoReturn

import click

from addin.excel.changes import Step
from addin.excel.doctor import NOTE, RIGHT, Check, examine, exit_status
from addin.excel.places import MACOS, CannotSetUp, Machine, this_machine
from addin.excel.setup import install as install_on
from addin.excel.setup import remove as remove_from
from addin.files import CannotWrite

DONE, LEFT_TO_DO, REFUSED = 0, 1, 2

_ON_MACOS = (
    "Quit Excel (Cmd-Q) and start it again. At the first button macOS asks whether Excel may control "
    "other programs (Automation): allow it. Buttons work here; worksheet functions exist on Windows only."
)
_ON_WINDOWS = "Close Excel and start it again: the tab of plinthbook is in the ribbon."


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """Where the commands work; a test hands another one over."""

    machine: Machine
    addin: Callable[[], bytes]


@click.group()
@click.pass_context
def addin(context: click.Context) -> None:
    """Set up the add-in for Excel on Windows or macOS, for this user only.

    The workbooks calculate without it. It adds buttons, and on Windows worksheet functions.
    """
    if context.obj is None:
        try:
            context.obj = Setting(machine=this_machine(), addin=_built)
        except CannotSetUp as reason:
            _refuse(str(reason))


@addin.command()
@click.pass_obj
def install(setting: Setting) -> None:
    """Put the add-in where Excel starts it, with the settings it needs."""
    try:
        steps = install_on(setting.machine, setting.addin)
    except (CannotSetUp, CannotWrite) as reason:
        _refuse(str(reason))
    _print_steps(steps)
    checks = examine(setting.machine, setting.addin)
    left = tuple(check for check in checks if check.state != RIGHT)
    _print_checks(left)
    if any(step.changed for step in steps):
        click.echo(_ON_MACOS if setting.machine.platform == MACOS else _ON_WINDOWS)
    else:
        click.echo("Everything was there already; nothing was changed.")
    sys.exit(DONE if all(check.state == NOTE for check in left) else LEFT_TO_DO)


@addin.command()
@click.pass_obj
def remove(setting: Setting) -> None:
    """Take away what install has put, and nothing else."""
    try:
        steps = remove_from(setting.machine)
    except (CannotSetUp, CannotWrite) as reason:
        _refuse(str(reason))
    _print_steps(steps)


@addin.command()
@click.option("--json", "as_json", is_flag=True, help="Print the checks as data.")
@click.pass_obj
def doctor(setting: Setting, as_json: bool) -> None:
    """Say what keeps the add-in from working, and what to do."""
    checks = examine(setting.machine, setting.addin)
    if as_json:
        click.echo(json.dumps({"checks": [dataclasses.asdict(check) for check in checks]}, indent=1))
    else:
        _print_checks(checks)
    sys.exit(exit_status(checks))


def _built() -> bytes:
    # Built only when asked for: most commands never need it.
    from addin.macros.xlam import xlam_bytes

    return xlam_bytes()


def _print_steps(steps: tuple[Step, ...]) -> None:
    for step in steps:
        click.echo(str(step))


def _print_checks(checks: tuple[Check, ...]) -> None:
    for check in checks:
        action = f". {check.action.removesuffix('.')}." if check.action else ""
        click.echo(f"{check.state + ':':<16}{check.name}: {check.found}{action}")


def _refuse(sentence: str) -> NoReturn:
    click.echo(sentence, err=True)
    sys.exit(REFUSED)
