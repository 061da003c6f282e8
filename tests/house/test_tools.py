"""The small tools behind make, tried on folders of their own."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def run(tool: Path, *arguments: str, **surroundings: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, str(tool), *arguments],
        env={**os.environ, **surroundings},
        capture_output=True,
        text=True,
        check=False,
    )


def test_setup_names_the_two_kinds_when_asked_for_a_third() -> None:
    done = run(ROOT / "tools" / "setup.py", "everything")
    assert done.returncode == 1
    assert done.stderr == "setup: say 'runtime' or 'dev', not 'everything'.\n"


def test_setup_says_in_one_line_what_to_install_where_no_venv_can_be_made(tmp_path: Path) -> None:
    """A Python without venv, ensurepip and virtualenv, and no uv on the PATH."""
    checkout = tmp_path / "checkout"
    (checkout / "tools").mkdir(parents=True)
    for name in ("tools/setup.py", "requirements.lock", "pyproject.toml"):
        shutil.copy(ROOT / name, checkout / name)
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "sitecustomize.py").write_text(
        "import sys\nsys.modules.update(dict.fromkeys(['venv', 'ensurepip', 'virtualenv']))\n",
        encoding="utf-8",
    )
    done = run(
        checkout / "tools" / "setup.py", "runtime", PATH=str(tmp_path), PYTHONPATH=str(tmp_path / "site")
    )
    assert done.returncode == 1
    assert len(done.stderr.splitlines()) == 1
    assert "apt-get install python3-venv python3-pip" in done.stderr
    assert "Traceback" not in done.stderr
    assert not (checkout / ".venv").exists()


def test_setup_with_an_environment_of_the_same_locks_does_nothing(tmp_path: Path) -> None:
    """Told by the stamps: had it tried anything, it would have been stopped."""
    checkout = tmp_path / "checkout"
    (checkout / "tools").mkdir(parents=True)
    for name in ("tools/setup.py", "requirements.lock", "requirements-dev.lock", "pyproject.toml"):
        shutil.copy(ROOT / name, checkout / name)
    code = (
        f"import sys; sys.path.insert(0, {str(checkout / 'tools')!r}); import setup\n"
        "venv = setup.ROOT / '.venv'; python = setup.venv_python(venv)\n"
        "python.parent.mkdir(parents=True); python.touch()\n"
        "for name in ('requirements.lock', 'pyproject.toml'):\n"
        "    setup.stamp(venv, name).write_text(setup.fingerprint(name))\n"
        "setup.run = setup.stop; sys.argv = ['setup', 'runtime']; setup.main(); print('did nothing')\n"
        "(setup.ROOT / 'requirements.lock').write_text('changed')\n"
        "assert not setup.fresh(venv, 'requirements.lock')\n"
        "assert setup.fresh(venv, 'pyproject.toml')"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout) == (0, "did nothing\n"), done.stderr


def test_what_was_made_is_listed_and_an_empty_folder_is_a_failure(tmp_path: Path) -> None:
    assert run(ROOT / "tools" / "made.py", str(tmp_path)).returncode == 1
    pack = tmp_path / "made" / "QB"
    (pack / "drawings").mkdir(parents=True)
    for name in ("unit.json", "booklet.pdf", "drawings/plan.svg"):
        (pack / name).write_bytes(b"x" * 2048)
    done = run(ROOT / "tools" / "made.py", str(tmp_path / "made"))
    assert done.returncode == 0
    assert "booklet.pdf" in done.stdout
    assert "1 drawings" in done.stdout
    assert "1 packs in" in done.stdout
