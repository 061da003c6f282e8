"""Help must come at once: what is heavy is imported only by the command that needs it."""

from __future__ import annotations

import subprocess
import sys

import pytest

HEAVY = {
    "django", "fontTools", "icalendar", "importlib.metadata", "jinja2", "msgspec", "numba", "numpy", "pint", "pydantic",
    "rfc8785", "rich", "segno", "sqlite3", "tomli", "typst", "zoneinfo",
}  # fmt: skip

LOOK = """
import sys
from sendoff.cli import main
sys.argv = ["sendoff", *{arguments!r}]
try:
    main()
except SystemExit as end:
    assert end.code in (0, None), end.code
print("MODULES", *sorted(sys.modules))
"""


def modules_after(*arguments: str) -> set[str]:
    """Run one command in a process of its own and name all modules it loaded."""
    done = subprocess.run(
        [sys.executable, "-c", LOOK.format(arguments=list(arguments))],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    last = done.stdout.splitlines()[-1].split()
    assert last[0] == "MODULES"
    return set(last[1:])


@pytest.mark.parametrize(
    "arguments", [("--help",), ("--version",), ("pack", "--help"), ("findings", "--help")]
)
def test_help_loads_nothing_heavy(arguments: tuple[str, ...]) -> None:
    loaded = modules_after(*arguments)
    assert "sendoff.cli" in loaded
    assert sorted(loaded & HEAVY) == []


def test_the_names_of_heavy_modules_are_real() -> None:
    """A misspelled name in HEAVY would never be found, so the test above could not fail."""
    names = sorted(HEAVY - {"django", "numba", "pydantic", "segno"})  # not in every environment
    code = f"import importlib.util\nprint([name for name in {names!r} if not importlib.util.find_spec(name)])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
