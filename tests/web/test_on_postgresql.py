"""Every test of the web application that touches the books once more, with the books in PostgreSQL."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.web.postgres import postgresql

HERE = Path(__file__).parent
TESTS = (
    "test_audit",
    "test_gate",
    "test_people",
    "test_put_right",
    "test_readings",
    "test_rights",
    "test_sheets",
)


@pytest.mark.skipif("SENDOFF_TEST_DATABASE" in os.environ, reason="this is that run")
def test_everything_that_touches_the_books_holds_on_postgresql_too() -> None:
    files = [str(HERE / f"{name}.py") for name in TESTS]
    with postgresql() as address:
        done = subprocess.run(
            [sys.executable, "-m", "pytest", "-q", "-x", "-p", "no:cacheprovider", *files],
            env={**os.environ, "SENDOFF_TEST_DATABASE": address}, capture_output=True, text=True, check=False,
        )  # fmt: skip
    assert done.returncode == 0, done.stdout[-4000:]
    passed = re.search(r"(\d+) passed", done.stdout)
    assert passed is not None
    assert int(passed[1]) > 100


def test_the_settings_of_that_run_are_those_of_postgresql() -> None:
    """So that the run above cannot quietly be one on SQLite: its settings are looked at in a process of its own."""
    code = "from tests.web import config_for_tests as c; print(c.DATABASES['default']['ENGINE'])"
    for address, engine in (("", "sqlite3"), ("postgresql://x@localhost/y", "postgresql")):
        done = subprocess.run(
            [sys.executable, "-c", code], cwd=HERE.parents[1], capture_output=True, text=True, check=True,
            env={**os.environ, "SENDOFF_TEST_DATABASE": address, "PYTHONPATH": f"src{os.pathsep}."},
        )  # fmt: skip
        assert done.stdout.strip().endswith(engine)
