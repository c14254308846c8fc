"""Fixtures that several test files share: the demo house, worked through and issued once a run."""

from datetime import date
from pathlib import Path

import pytest

from addin.demo import demo_bytes
from addin.door import FileDoor
from addin.estimating import Worked, issue_of, work
from tests.issued import IssuedBook

DAY = date(2026, 1, 31)


@pytest.fixture(scope="session")
def demo_survey(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The survey workbook of the demo house."""
    path = tmp_path_factory.mktemp("demo") / "demo.xlsx"
    path.write_bytes(demo_bytes())
    return path


@pytest.fixture(scope="session")
def demo(demo_survey: Path) -> Worked:
    """The demo house, worked through in floats."""
    return work(FileDoor(demo_survey))


@pytest.fixture(scope="session")
def demo_issue(demo: Worked, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The issued workbook of the demo house."""
    path = tmp_path_factory.mktemp("issue") / "demo estimate.xlsx"
    path.write_bytes(issue_of(demo, DAY))
    return path


@pytest.fixture(scope="session")
def demo_book(demo_issue: Path) -> IssuedBook:
    """The issued workbook, opened for reading formulas and cached results; not to be changed."""
    return IssuedBook(demo_issue)
