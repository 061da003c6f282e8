"""The order of rooms is checked by import-linter in `make test`; here we see that the check can fail."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


def lint(folder: Path) -> tuple[int, str]:
    """Run import-linter over a copy of the package."""
    done = subprocess.run(
        [
            sys.executable,
            "-c",
            "from importlinter.cli import lint_imports_command as run; run()",
            "--no-cache",
        ],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(folder / "src"), "COLUMNS": "200"},
        capture_output=True,
        text=True,
        check=False,
    )
    return done.returncode, done.stdout + done.stderr


@pytest.fixture
def copy_of_the_house(tmp_path: Path) -> Path:
    shutil.copytree(
        ROOT / "src" / "sendoff", tmp_path / "src" / "sendoff", ignore=shutil.ignore_patterns("data")
    )
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    return tmp_path


def test_the_house_as_it_stands_keeps_all_contracts(copy_of_the_house: Path) -> None:
    code, said = lint(copy_of_the_house)
    assert code == 0, said
    assert "0 broken" in said


@pytest.mark.parametrize(
    ("module", "line", "contract"),
    [
        ("units.py", "import sendoff.cli", "the order of rooms"),
        ("calc/__init__.py", "import sendoff.catalogue", "the order of rooms"),
        ("findings/__init__.py", "import sendoff.papers", "the order of rooms"),
        ("calc/__init__.py", "import random", "calculations touch no disk"),
        ("units.py", "import pint", "what results are held against"),
        ("findings/__init__.py", "import typst", "each outside program in one room"),
    ],
)
def test_a_forbidden_import_breaks_its_contract(
    copy_of_the_house: Path, module: str, line: str, contract: str
) -> None:
    broken = copy_of_the_house / "src" / "sendoff" / module
    broken.write_text(broken.read_text(encoding="utf-8") + f"\n{line}\n", encoding="utf-8")
    code, said = lint(copy_of_the_house)
    assert code == 1, said
    verdicts = [row for row in said.splitlines() if row.startswith(contract)]
    assert [row for row in verdicts if row.endswith("BROKEN")], said


def test_a_room_without_a_place_in_the_order_is_refused(copy_of_the_house: Path) -> None:
    (copy_of_the_house / "src" / "sendoff" / "shed.py").write_text(
        '"""A room nobody placed."""\n', encoding="utf-8"
    )
    code, said = lint(copy_of_the_house)
    assert code == 1, said
    assert "sendoff.shed" in said
