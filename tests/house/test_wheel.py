"""The wheel, in an environment with nothing but the runtime lock and far from the checkout, carries all it needs.

No network: the environment is filled with the very files of the distributions that `requirements.lock` names, taken
from the environment that runs the tests. `make prove` does the same with pip and the real registry.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import venv
import zipfile
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PACK = {"booklet.pdf", "check-sheet.pdf", "briefing.html", "upkeep.ics", "unit.json"}


def build_wheel(checkout: Path, into: Path) -> Path:
    """Build the wheel with the hatchling that is installed, without isolation and so without a network."""
    command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(into)]
    subprocess.run(command, cwd=checkout, check=True, capture_output=True)
    (wheel,) = into.glob("sendoff-*.whl")
    return wheel


def locked_distributions() -> list[Distribution]:
    """Find what the runtime lock names, less the tools that only build."""
    lock = (ROOT / "requirements.lock").read_text(encoding="utf-8")
    names = re.findall(r"^([A-Za-z0-9._-]+)==", lock, re.MULTILINE)
    found = []
    for name in sorted(set(names)):
        try:
            found.append(distribution(name))
        except PackageNotFoundError:
            assert name in {"colorama", "editables", "hatchling", "trove-classifiers"}, (
                f"{name} is not installed"
            )
    return found


def lay_in(part: Distribution, site: Path) -> None:
    """Put the files of one installed distribution into another site-packages."""
    for file in part.files or ():
        if ".." in file.parts or "__pycache__" in file.parts:
            continue
        target = site / Path(*file.parts)
        target.parent.mkdir(parents=True, exist_ok=True)
        source = Path(str(part.locate_file(file)))
        if source.exists() and not target.exists():
            try:
                os.link(source, target)
            except OSError:
                shutil.copy(source, target)


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return build_wheel(ROOT, tmp_path_factory.mktemp("dist"))


@pytest.fixture(scope="module")
def far_away(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An environment with the wheel and the runtime lock; returns its folder of programs."""
    folder = tmp_path_factory.mktemp("far away")
    venv.create(folder / "env", with_pip=False, symlinks=os.name != "nt")
    programs = folder / "env" / ("Scripts" if os.name == "nt" else "bin")
    (site,) = (folder / "env").rglob("site-packages")
    for part in locked_distributions():
        lay_in(part, site)
    pip = [sys.executable, "-m", "pip", "--python", str(programs / "python")]
    subprocess.run([*pip, "install", "--quiet", "--no-deps", "--no-index", str(wheel)], check=True)
    return programs


def run(programs: Path, *command: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    """Run a program of that environment, with nothing of ours in its surroundings."""
    bare = {"PATH": str(programs), "HOME": str(cwd), "LANG": "C.UTF-8"}
    full = [str(programs / command[0]), *command[1:]]
    return subprocess.run(full, cwd=cwd, env=bare, capture_output=True, text=True, check=False)


def test_the_wheel_carries_every_file_of_the_package(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as box:
        carried = {name for name in box.namelist() if name.startswith("sendoff/")}
    package = ROOT / "src" / "sendoff"
    tracked = {
        str(path.relative_to(package.parent)).replace(os.sep, "/")
        for path in package.rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    assert carried == tracked
    assert "sendoff/py.typed" in carried


def test_the_wheel_brings_nothing_of_the_checkout_along(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as box:
        tops = {name.partition("/")[0] for name in box.namelist()}
    assert {top for top in tops if not top.endswith(".dist-info")} == {"sendoff"}


def test_the_same_checkout_gives_the_same_wheel(wheel: Path, tmp_path: Path) -> None:
    assert build_wheel(ROOT, tmp_path).read_bytes() == wheel.read_bytes()


def test_every_module_can_be_imported_far_from_the_checkout(far_away: Path, tmp_path: Path) -> None:
    made = run(far_away, "sendoff", "yard", "init", "yard", cwd=tmp_path)
    assert made.returncode == 0, made.stdout + made.stderr
    code = (
        "import importlib, os, pkgutil, sendoff\n"
        "os.environ.update(SENDOFF_YARD='yard', DJANGO_SETTINGS_MODULE='sendoff.web.config')\n"
        "import django; django.setup()\n"
        "for module in pkgutil.walk_packages(sendoff.__path__, 'sendoff.'):\n"
        "    if not module.name.endswith('__main__'): importlib.import_module(module.name)\n"
        "print(sendoff.__file__)"
    )
    done = run(far_away, "python", "-W", "error", "-c", code, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert Path(done.stdout.strip()).is_relative_to(far_away.parent)


def test_a_new_yard_is_made_checked_and_packed_far_from_the_checkout(far_away: Path, tmp_path: Path) -> None:
    """From the wheel alone: a starter catalogue, a sheet written for it and filled in, and the pack of that unit."""

    def sendoff(*arguments: str) -> None:
        done = run(far_away, "sendoff", *arguments, cwd=tmp_path)
        assert done.returncode == 0, done.stdout + done.stderr

    sendoff("catalogue", "new", "yard")
    sendoff("catalogue", "lint", "yard")
    sendoff("new", "small_flat", "-o", "yard/sheets/first.toml")
    sheet = tmp_path / "yard" / "sheets" / "first.toml"
    text = sheet.read_text(encoding="utf-8")
    # 49 CFR 565.15(c), the worked example of the check digit: 1M8GDM9AXKP042788 (from memory)
    for key, value in {"unit": "F-1", "vin": "1M8GDM9AXKP042788", "name": "Somebody"}.items():
        text = text.replace(f'{key} = "…"', f'{key} = "{value}"')
    sheet.write_text(text, encoding="utf-8")
    sendoff("pack", "yard/sheets/first.toml", "-o", "made")
    assert {path.name for path in (tmp_path / "made").rglob("*") if path.is_file()} >= PACK


def test_the_demo_yard_is_packed_far_from_the_checkout(far_away: Path, tmp_path: Path) -> None:
    shutil.copytree(ROOT / "examples" / "quillback", tmp_path / "quillback")
    sheet = min((tmp_path / "quillback" / "sheets").glob("*.toml"))
    done = run(
        far_away, "sendoff", "pack", str(sheet), "--catalogue", "quillback", "-o", "made", cwd=tmp_path
    )
    assert done.returncode == 0, done.stdout + done.stderr
    made = {path.name for path in (tmp_path / "made").rglob("*") if path.is_file()}
    assert made >= PACK
