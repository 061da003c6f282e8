"""What could not be run is counted in the closing line, and is a failure where everything must be run."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import hypothesis
import pytest

LEFT_OUT = ("CI", "STRICT", "PYTEST_ADDOPTS", "DJANGO_SETTINGS_MODULE")
CONFTEST = Path(__file__).resolve().parents[1] / "conftest.py"
TESTS = """
import os
import pytest

def test_that_needs_nothing():
    assert not [name for name in os.environ if name.startswith("SENDOFF_")]

@pytest.mark.needs_tool("no_such_program")
def test_marked(): raise AssertionError("must not be run")

def test_asking(needs_tool):
    needs_tool("no_such_program")
    raise AssertionError("must not go on")

def test_finding(needs_tool):
    assert needs_tool("python3")
"""


def run(folder: Path, *arguments: str, **surroundings: str) -> tuple[int, list[str]]:
    """Run those four tests in a process of their own and return the exit code and the lines said."""
    shutil.copy(CONFTEST, folder / "conftest.py")
    (folder / "test_four.py").write_text(TESTS, encoding="utf-8")
    (folder / "pytest.ini").write_text(
        "[pytest]\nmarkers = needs_tool(name): wants a program\n", encoding="utf-8"
    )
    inherited = {name: value for name, value in os.environ.items() if name not in LEFT_OUT}
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", *arguments],
        cwd=folder,
        env={**inherited, **surroundings, "SENDOFF_CATALOGUE": "elsewhere"},
        capture_output=True,
        text=True,
        check=False,
    )
    return done.returncode, done.stdout.splitlines()


@pytest.mark.parametrize("arguments", [(), ("-n", "2")], ids=["one process", "two processes"])
def test_what_misses_a_program_is_counted_as_not_run_in_the_last_line(
    tmp_path: Path, arguments: tuple[str, ...]
) -> None:
    code, said = run(tmp_path, *arguments)
    assert code == 0, said
    assert re.search(r"2 passed, 2 not run in ", said[-1]), said
    assert "not run: 2 tests, 'no_such_program' is absent (make system)" in said


@pytest.mark.parametrize("name", ["CI", "STRICT"])
def test_under_ci_or_strict_absence_is_a_failure(tmp_path: Path, name: str) -> None:
    code, said = run(tmp_path, **{name: "true"})
    assert code == 1
    assert not re.search("not run in ", said[-1])
    assert re.search(r"1 failed, 2 passed, 1 error", said[-1]), said


def test_strict_said_as_no_is_not_strict(tmp_path: Path) -> None:
    assert run(tmp_path, STRICT="0", CI="false")[0] == 0


def test_hypothesis_tries_the_same_examples_in_every_run() -> None:
    settings = hypothesis.settings()
    assert settings.derandomize
    assert settings.database is None
    assert settings.deadline is None
