"""The README's two commands are the ones that are run."""

import re
from pathlib import Path

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text("utf-8")
CI = (ROOT / ".ci" / "run").read_text("utf-8")


def block(name: str) -> str:
    found = re.search(rf"<!-- {name} -->\n```\n(.+?)\n```\n<!-- end -->", README, re.DOTALL)
    assert found, f"README has no block {name}"
    return found[1]


def test_the_test_command_is_taken_from_the_readme_by_ci():
    assert "sed -n '/<!-- tests -->/,/<!-- end -->/p' README.md" in CI
    assert block("tests").endswith("python -m pytest -n auto")
    assert "pip install" in block("tests")


def test_each_command_makes_its_own_environment():
    for name in ("demo", "tests"):
        command = block(name)
        assert command.startswith("python3 -m venv ")
        assert "\n" not in command


def test_the_demo_command_runs_the_main_job():
    assert block("demo").endswith("plinthbook demo")


def test_ci_runs_the_demo_command_too():
    assert "sed -n '/<!-- demo -->/,/<!-- end -->/p' README.md" in CI


def test_ci_never_skips_the_second_engine():
    exported = CI.index("\nexport CI=true")
    assert exported < CI.index("<!-- tests -->"), "tests/engines.py skips where CI is not true"


def test_the_readme_opens_with_the_job_in_one_paragraph():
    title, paragraph = README.split("\n\n")[:2]
    assert title == "# plinthbook"
    assert "raised" in paragraph
    assert "\n" not in paragraph
