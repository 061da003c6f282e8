"""Running the command line as a person does: in this process, or in one of its own."""

from __future__ import annotations

import contextlib
import io
import os
import signal
import subprocess
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from sendoff import cli

SENDOFF = [sys.executable, "-m", "sendoff"]


@dataclass(frozen=True)
class Done:
    """How a command ended and what it said."""

    code: int
    out: str
    err: str


def run(*words: str | Path) -> Done:
    """Run `sendoff WORDS` within this process, through the same door as from outside."""
    out, err = io.StringIO(), io.StringIO()
    before, handler = sys.argv, signal.getsignal(signal.SIGTERM)
    sys.argv = ["sendoff", *map(str, words)]
    code: object = 0
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            cli.main()
    except SystemExit as end:
        code = end.code
    finally:
        sys.argv = before
        signal.signal(signal.SIGTERM, handler)
    assert isinstance(code, int) or code is None, code
    return Done(code or 0, out.getvalue(), err.getvalue())


def apart(
    *words: str | Path, settings: Mapping[str, str] | None = None, cwd: Path | None = None
) -> subprocess.CompletedProcess[bytes]:
    """Run `sendoff WORDS` in a process of its own, with settings of its own."""
    environment = {**os.environ, **(settings or {})}
    command: Sequence[str] = [*SENDOFF, *map(str, words)]
    return subprocess.run(command, capture_output=True, check=False, env=environment, cwd=cwd, timeout=120)


def files_in(folder: Path) -> list[str]:
    """Name everything in a folder, at any depth, hidden things too."""
    return (
        sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*")) if folder.exists() else []
    )
