"""Make .venv from a hashed lock: `python3 tools/setup.py runtime` or `... dev`.

Standard library only, because it runs before anything is installed. Uses uv when it is on the PATH, else pip. Where
Debian's python3 comes without ensurepip, a venv without pip is made and filled by the pip outside it; where that
fails too, one line says what to install. A second run with the same locks does nothing.
"""

import hashlib
import os
import pathlib
import shutil
import subprocess
import sys
from typing import NoReturn

ROOT = pathlib.Path(__file__).resolve().parent.parent
LOCKS = {"runtime": "requirements.lock", "dev": "requirements-dev.lock"}
NEEDED = (3, 11)
CURE = "Install Python's venv and pip (on Debian: apt-get install python3-venv python3-pip), or uv, and try again."


def stop(sentence: str) -> NoReturn:
    """End with one line for a person."""
    raise SystemExit(f"setup: {sentence}")


def venv_python(venv: pathlib.Path) -> pathlib.Path:
    """Return the interpreter of a venv, wherever this system keeps it."""
    return venv / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def works(*command: object) -> bool:
    """Run a command quietly and say whether it worked."""
    return subprocess.run([str(part) for part in command], capture_output=True, check=False).returncode == 0


def run(*command: object) -> None:
    """Run a command; if it fails, end with its own last words and ours."""
    shown = [str(part) for part in command]
    done = subprocess.run(shown, capture_output=True, text=True, check=False)
    if done.returncode:
        sys.stderr.write(done.stdout + done.stderr)
        stop(f"'{' '.join(shown)}' failed, see above.")


def fingerprint(name: str) -> str:
    """Digest what an environment was made from, so that it is made anew when that changes."""
    made_from = hashlib.sha256(f"{ROOT} {sys.version_info[:2]}".encode())
    made_from.update((ROOT / name).read_bytes())
    return made_from.hexdigest()


def stamp(venv: pathlib.Path, name: str) -> pathlib.Path:
    """Return the file that remembers what the environment was made from."""
    return venv / f".made-from-{name}"


def fresh(venv: pathlib.Path, name: str) -> bool:
    """Say whether the environment was made from this file as it now stands."""
    remembered = stamp(venv, name)
    return remembered.exists() and remembered.read_text() == fingerprint(name)


def make_venv(venv: pathlib.Path, uv: "str | None") -> None:
    """Make an empty venv in the first way that works here."""
    if uv:
        run(uv, "venv", "--quiet", "--clear", "--python", sys.executable, venv)
    elif works(sys.executable, "-m", "venv", "--clear", venv):
        pass
    elif works(sys.executable, "-m", "venv", "--clear", "--without-pip", venv):
        print("setup: this Python has no ensurepip; the pip outside fills the venv")
    elif not works(sys.executable, "-m", "virtualenv", "--clear", venv):
        stop(f"this Python cannot make a virtual environment. {CURE}")


def installer(python: pathlib.Path, uv: "str | None") -> "list[object]":
    """Return the command that installs into the venv."""
    if uv:
        return [uv, "pip", "install", "--quiet", "--python", python]
    if works(python, "-m", "pip", "--version"):
        return [python, "-m", "pip", "install", "--quiet"]
    if works(sys.executable, "-m", "pip", "--python", python, "--version"):
        return [sys.executable, "-m", "pip", "--python", python, "install", "--quiet"]
    stop(f"no pip 22.3 or newer was found. {CURE}")


def main() -> None:
    """Make or complete .venv."""
    kind = sys.argv[1] if len(sys.argv) > 1 else "runtime"
    if kind not in LOCKS:
        stop(f"say 'runtime' or 'dev', not '{kind}'.")
    if sys.version_info < NEEDED:
        found = ".".join(str(part) for part in sys.version_info[:3])
        stop(f"Python 3.11 or newer is needed, this one is {found}. Say which: make PYTHON=python3.11 setup")
    venv = ROOT / ".venv"
    python = venv_python(venv)
    usable = python.exists() and any(fresh(venv, lock) for lock in LOCKS.values())
    locked = usable and (fresh(venv, LOCKS[kind]) or fresh(venv, LOCKS["dev"]))
    if locked and fresh(venv, "pyproject.toml"):
        return
    uv = shutil.which("uv")
    if not locked:
        print(f"setup: .venv from {LOCKS[kind]}, with {'uv' if uv else 'pip'}", flush=True)
    if not usable:
        make_venv(venv, uv)
    install = installer(python, uv)
    if not locked:
        run(*install, "--require-hashes", "-r", ROOT / LOCKS[kind])
        stamp(venv, LOCKS[kind]).write_text(fingerprint(LOCKS[kind]))
    run(*install, "--no-deps", "--no-build-isolation", "-e", ROOT)
    stamp(venv, "pyproject.toml").write_text(fingerprint("pyproject.toml"))


if __name__ == "__main__":
    main()
