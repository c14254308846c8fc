"""plinthbook estimate --drawings: what is written, and what is left alone."""

import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from addin.drawing.writing import NAMES
from addin.estimating import work
from tests.addin.test_cli import changed, refused, run


def test_estimate_draws_the_jack_plan_into_a_folder_it_makes(tmp_path):
    survey, folder = changed(tmp_path / "mill.xlsx"), tmp_path / "for the site" / "drawings"
    done = run("estimate", survey, "--drawings", folder)
    assert done.exit_code == 0, done.output
    assert {path.name for path in folder.iterdir()} == set(NAMES)
    assert done.output.splitlines()[-1] == "Drawings:         " + ", ".join(str(folder / name) for name in NAMES)
    assert (folder / "jack-plan.pdf").read_bytes().startswith(b"%PDF-")
    assert (folder / "jack-plan.png").read_bytes().startswith(b"\x89PNG")
    text = (folder / "jack-plan.dxf").read_text("utf-8")
    assert "House at the bend" in text
    assert "NOT RELEASED FOR LIFTING" in text


def test_a_house_without_a_jack_plan_is_not_drawn_and_nothing_is_written(tmp_path, monkeypatch):
    survey = changed(tmp_path / "mill.xlsx")

    def without_plan(door):
        worked = work(door)
        return replace(worked, prepared=replace(worked.prepared, jacks=None))

    monkeypatch.setattr("addin.cli.work", without_plan)
    done = run("estimate", survey, "--drawings", tmp_path / "drawings")
    assert done.exit_code == 2
    assert done.stderr == (
        "No jack plan was worked out for this house, so there is nothing to draw. Leave out --drawings.\n"
    )
    assert [path.name for path in tmp_path.iterdir()] == ["mill.xlsx"]


def test_a_folder_for_drawings_that_cannot_be_used_is_told_before_the_work(tmp_path, monkeypatch):
    survey = changed(tmp_path / "mill.xlsx")
    (tmp_path / "file").write_bytes(b"mine")
    (tmp_path / "taken" / "jack-plan.pdf").mkdir(parents=True)
    monkeypatch.setattr("addin.cli.work", lambda _: pytest.fail("the work began"))
    for place, said in (("file", "is not a folder"), ("file/in", "is not a folder"), ("taken", "is a folder, not a")):
        assert said in refused(tmp_path, "estimate", survey, "--drawings", tmp_path / place)


def test_a_drawing_never_takes_the_place_of_a_result(tmp_path, monkeypatch):
    survey = changed(tmp_path / "mill.xlsx")
    monkeypatch.setattr("addin.cli.work", lambda _: pytest.fail("the work began"))
    words = ("estimate", survey, "--json", tmp_path / "jack-plan.pdf", "--drawings", tmp_path)
    done = run(*words)
    assert done.exit_code == 2
    assert "Give another folder with --drawings." in done.stderr


def test_a_folder_that_may_not_be_written_gives_one_line(tmp_path, monkeypatch):
    survey = changed(tmp_path / "mill.xlsx")
    closed = tmp_path / "closed"
    closed.mkdir()
    may = os.access
    # Rights do not bind an administrator, so the answer of the system is played.
    monkeypatch.setattr(os, "access", lambda path, mode: Path(path) != closed and may(path, mode))
    assert "You may not write" in refused(tmp_path, "estimate", survey, "--drawings", closed / "in")


@pytest.mark.parametrize("module", ["matplotlib", "ezdxf"])
def test_who_draws_nothing_waits_for_no_library_of_drawings(module):
    code = f"import sys, addin.cli, addin.estimating; print({module!r} in sys.modules)"
    root = Path(__file__).parents[2]
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=root)
    assert done.stdout == "False\n"
