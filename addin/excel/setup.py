"""Puts the add-in where Excel starts it, and takes away again what was put.

Covers   the add-in, the settings of its macros, on macOS the AppleScript they call, and a record of all of it.
Not      whether it will work (doctor), what is in the add-in (macros). Excel is not started, the registry not touched,
         no rights of an administrator are asked for.
Rules    All or nothing: if one file cannot be written, those before it are put back. The record is written first, so
         that a run that was killed can still be undone. Removing puts back what stood there before.
"""

from collections.abc import Callable, Mapping
from importlib.metadata import version

from addin.excel.changes import Changes, Step, all_or_nothing, bytes_of, missing_folders
from addin.excel.places import CannotSetUp, Machine, Places, from_the_store, is_absolute, places, script_name
from addin.excel.record import ADDIN, SCRIPT, SETTINGS, Put, Record, read_record, record_bytes, sha256
from addin.excel.settings import merged, our_settings, without


def install(machine: Machine, addin: Callable[[], bytes]) -> tuple[Step, ...]:
    """Set the add-in up for this user.

    Args:
        machine: the computer
        addin: makes the bytes of the add-in

    Returns:
        What was done, in the order it was done; no step is changed when all stood there already.

    Raises:
        CannotSetUp: not on this machine; one sentence
        CannotWrite: a file is open or may not be written; everything stands as before
    """
    where = places(machine)
    _check_machine(machine, where)
    earlier = read_record(where.record)
    contents = _contents(machine, where, addin)
    record = _record(machine, where, contents, earlier)
    outdated = [put for put in earlier.puts if put.path not in {new.path for new in record.puts}] if earlier else []
    texts = {where.record: record_bytes(record), **{put.path: contents[put.what] for put in record.puts}}
    marked = {path for path in texts if path == where.addin and machine.quarantined(path)}
    with all_or_nothing() as work:
        for path, data in texts.items():
            work.write(path, data, always=path in marked)
        undone = [work.undo(put, record.settings) for put in outdated]
    return (*(_put_step(put, work, earlier) for put in record.puts), *undone)


def remove(machine: Machine) -> tuple[Step, ...]:
    """Take away what install has put, and nothing else.

    Raises:
        CannotSetUp: there is no such place on this system
        CannotWrite: a file is open or may not be written; everything stands as before
    """
    where = places(machine)
    record = read_record(where.record)
    if record is None:
        return tuple(
            Step(changed=False, text=f"{path} was not put there by this program and stays; delete it by hand.")
            for path in (where.addin,) if path.exists()
        ) or (Step(changed=False, text="Nothing is installed, so nothing was removed."),)  # fmt: skip
    with all_or_nothing() as work:
        steps = [work.undo(put, record.settings) for put in record.puts]
        work.delete(where.record)
        for folder in reversed(record.folders):
            work.remove_folder(folder)
    return (*steps, Step(changed=True, text="Removed the record of the installation."))


def _check_machine(machine: Machine, where: Places) -> None:
    if not is_absolute(machine):
        raise CannotSetUp("Python does not know where it lies itself; install plinthbook in a virtual environment.")
    if from_the_store(machine):
        raise CannotSetUp(
            "This Python comes from the Microsoft Store, and Excel does not see what it writes; "
            "install Python from python.org, then plinthbook with it, and try again."
        )
    if machine.xlwings_version != machine.pinned:
        raise CannotSetUp(
            f"xlwings {machine.xlwings_version} is installed but the add-in needs {machine.pinned}; "
            f"run: pip install xlwings=={machine.pinned}"
        )
    if not where.needed.is_dir():
        raise CannotSetUp(f"The folder {where.needed} does not exist; start Excel once, quit it, and try again.")


def _contents(machine: Machine, where: Places, addin: Callable[[], bytes]) -> dict[str, bytes]:
    """The bytes of each file to be put."""
    contents = {ADDIN: addin()}
    if where.script:
        source = machine.xlwings_folder / script_name(machine.pinned)
        try:
            contents[SCRIPT] = source.read_bytes()
        except OSError as reason:
            raise CannotSetUp(f"{source} is missing; install xlwings {machine.pinned} again.") from reason
    contents[SETTINGS] = merged(bytes_of(where.settings) or b"", our_settings(machine), machine)
    return contents


def _record(machine: Machine, where: Places, contents: Mapping[str, bytes], earlier: Record | None) -> Record:
    """What will stand there after this run, and what stood there before the first."""
    paths = {ADDIN: where.addin, SETTINGS: where.settings} | ({SCRIPT: where.script} if where.script else {})
    known = {put.path: put for put in earlier.puts} if earlier else {}
    puts = []
    for what, path in paths.items():
        present, old = bytes_of(path), known.get(path)
        if old is None and present == contents[what]:
            continue  # somebody else put just this there, and may need it after we are gone
        before = _before(old, present, earlier) if old and earlier else present
        puts.append(Put(what=what, path=path, sha256=sha256(contents[what]), before=before))
    folders = list(earlier.folders) if earlier else []
    for path in (where.record, *(put.path for put in puts)):
        folders += [folder for folder in missing_folders(path) if folder not in folders]
    return Record(
        version=version("plinthbook"), xlwings=machine.pinned, settings=our_settings(machine), puts=tuple(puts),
        folders=tuple(folders),
    )  # fmt: skip


def _before(old: Put, present: bytes | None, earlier: Record) -> bytes | None:
    """What to put back in the end: what stood there first, with what the user has since added to the settings."""
    if old.what != SETTINGS or (present is not None and sha256(present) == old.sha256):
        return old.before
    if present is None:
        return None
    rest = without(present, earlier.settings, old.before or b"")
    return rest if rest.strip() or old.before is not None else None


def _put_step(put: Put, work: Changes, earlier: Record | None) -> Step:
    changed = put.path in work.written
    was_ours = earlier is not None and put.path in {old.path for old in earlier.puts}
    if not changed:
        verb = "Already there"
    elif work.written[put.path] is None:
        verb = "Put"
    else:
        verb = "Brought up to date" if was_ours or put.what != SETTINGS else "Added to"
    return Step(changed=changed, text=f"{verb}: the {put.what}, {put.path}")
