"""A PostgreSQL server of a test's own, on a free port of this machine, gone when the test is."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.conftest import NOT_RUN, STRICT


def programs() -> Path:
    """Return the folder of PostgreSQL's server programs, or end the test as not run."""
    for folder in sorted(Path("/usr/lib/postgresql").glob("*/bin"), reverse=True):
        if (folder / "initdb").exists():
            return folder
    found = shutil.which("initdb")
    if found:
        return Path(found).parent
    if STRICT:
        pytest.fail("'postgresql' is absent, and absence is a failure here. Run: make system", pytrace=False)
    pytest.skip(f"{NOT_RUN}'postgresql' is absent")


def as_postgres(*words: object) -> list[str]:
    """Return a command as it must be run: initdb and postgres refuse root."""
    told = [str(word) for word in words]
    runuser = shutil.which("runuser", path=f"{os.environ['PATH']}:/usr/sbin:/sbin") or "runuser"
    return [runuser, "-u", "postgres", "--", *told] if os.geteuid() == 0 else told


@contextmanager
def postgresql() -> Iterator[str]:
    """Yield the address of an empty database."""
    bin_ = programs()
    folder = Path(tempfile.mkdtemp(prefix="sendoff-pg-"))
    if os.geteuid() == 0:
        shutil.chown(folder, "postgres")
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        port = found.getsockname()[1]
    data = folder / "data"
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    subprocess.run(
        as_postgres(bin_ / "initdb", "-D", data, "-A", "trust", "-U", "postgres", "-E", "UTF8", "--no-sync"),
        check=True, cwd="/", **quiet,  # type: ignore[call-overload]
    )  # fmt: skip
    words = ["-D", data, "-p", port, "-k", folder, "-c", "listen_addresses=127.0.0.1", "-c", "fsync=off"]
    server = subprocess.Popen(as_postgres(bin_ / "postgres", *words), cwd="/", **quiet)  # type: ignore[call-overload]
    address = f"postgresql://postgres@127.0.0.1:{port}/postgres"
    try:
        for _ in range(100):
            ready = subprocess.run(
                [bin_ / "pg_isready", "-h", "127.0.0.1", "-p", str(port)], check=False, capture_output=True
            )
            if ready.returncode == 0:
                break
            time.sleep(0.1)
        yield address
    finally:
        subprocess.run(
            as_postgres(bin_ / "pg_ctl", "-D", data, "-m", "immediate", "stop"), check=False, cwd="/", **quiet
        )  # type: ignore[call-overload]
        server.wait(timeout=30)
        shutil.rmtree(folder, ignore_errors=True)
