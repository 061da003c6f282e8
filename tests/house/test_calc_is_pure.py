"""What the import contracts cannot see: a calculation that opens a file or asks the clock."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

CALC = Path(__file__).resolve().parents[2] / "src" / "sendoff" / "calc"
FORBIDDEN_CALLS = {
    "open",
    "input",
    "print",
    "exec",
    "eval",
    "now",
    "today",
    "utcnow",
    "perf_counter",
    "monotonic",
}


def impure_calls(source: str) -> list[str]:
    """List calls by which code would reach outside its arguments."""
    found = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Call):
            function = node.func
            name = function.id if isinstance(function, ast.Name) else getattr(function, "attr", "")
            if name in FORBIDDEN_CALLS:
                found.append(f"line {node.lineno}: {name}()")
        if isinstance(node, ast.Global):
            found.append(f"line {node.lineno}: global {', '.join(node.names)}")
    return found


@pytest.mark.parametrize("module", sorted(CALC.rglob("*.py")), ids=lambda path: str(path.relative_to(CALC)))
def test_a_calculation_reaches_for_nothing_but_its_arguments(module: Path) -> None:
    assert impure_calls(module.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    "line", ["open('x')", "datetime.date.today()", "time.monotonic()", "def f():\n global a"]
)
def test_the_search_finds_what_it_looks_for(line: str) -> None:
    assert impure_calls(line)
