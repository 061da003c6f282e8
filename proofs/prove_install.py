"""Proof: on a machine with only Python, pip and make, `make demo` installs, makes its packs and ends.

This one needs the package registry; the test command does the same without a network (tests/house/test_wheel.py).
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

TITLE = "A fresh checkout with a bare PATH (Python, pip, make) installs from the runtime lock and makes the demo packs."
ROOT = Path(__file__).resolve().parents[1]

# as Debian's: the module venv is there, filling an environment with pip is not
WITHOUT_ENSUREPIP = """\
import venv

def refused(*arguments, **named):
    raise SystemExit("ensurepip is not available")

venv.EnvBuilder._setup_pip = refused
"""


def keys() -> list[str]:
    """Name the machines tried: one as usual, and one whose Python came without ensurepip, as on Debian."""
    return ["pip", "no_ensurepip"]


def bare_path(folder: Path) -> str:
    """Make a folder with the three programs and no others."""
    folder.mkdir()
    pip = f'#!/bin/sh\nexec "{sys.base_prefix}/bin/python3" -m pip "$@"\n'
    for name, text in {
        "python3": f'#!/bin/sh\nexec "{sys.base_prefix}/bin/python3" "$@"\n',
        "pip": pip,
        "make": f'#!/bin/sh\nexec "{shutil.which("make")}" "$@"\n',
    }.items():
        (folder / name).write_text(text, encoding="utf-8")
        (folder / name).chmod(0o755)
    return str(folder)


def step(key: str) -> dict[str, int]:
    """Run `make demo` in a fresh clone, twice: the second time nothing is installed."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        clone = folder / "clone"
        subprocess.run(["git", "clone", "-q", str(ROOT), str(clone)], check=True)
        surroundings = {**os.environ, "PATH": bare_path(folder / "bin"), "PYTHONDONTWRITEBYTECODE": "1"}
        surroundings.pop("VIRTUAL_ENV", None)
        if key == "no_ensurepip":
            (folder / "site").mkdir()
            (folder / "site" / "sitecustomize.py").write_text(WITHOUT_ENSUREPIP, encoding="utf-8")
            surroundings["PYTHONPATH"] = str(folder / "site")
        said = []
        for _ in range(2):
            done = subprocess.run(
                ["make", "demo"], cwd=clone, env=surroundings, capture_output=True, text=True, check=False
            )
            assert done.returncode == 0, done.stdout + done.stderr
            said.append(done.stdout)
        assert "setup:" in said[0]
        assert ("no ensurepip" in said[0]) == (key == "no_ensurepip"), said[0]
        assert "setup:" not in said[1]
        booklets = list((clone / "build" / "demo").rglob("booklet.pdf"))
        assert booklets, said[1]
        return {"packs": len(booklets)}
