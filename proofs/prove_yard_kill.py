"""Kill -9 of the yard's server, again and again, while readings are being written to it."""

from __future__ import annotations

import http.cookiejar
import os
import re
import signal
import socket
import sqlite3
import subprocess
import sys
import tempfile
import threading
import time
import urllib.error
import urllib.parse
import urllib.request
import uuid
from contextlib import closing
from pathlib import Path

TITLE = "A server killed with signal 9 while readings are written loses no acknowledged one, and every chain holds."
ROOT = Path(__file__).resolve().parents[1]
EXAMPLE = ROOT / "examples" / "quillback"
ROUNDS, KILLS = 20, 5
PASSWORD = "quillback demo yard"
PATH = "/unit/4WUF7KZ9TC/check/tires/walls/left_1/"


def keys() -> list[str]:
    """Name the steps: each kills a server of its own a few times."""
    return [f"round {number:02d}" for number in range(1, ROUNDS + 1)]


def step(key: str, kills: int = KILLS) -> dict[str, int | float | str]:
    """Serve a small yard, write from three clients, kill, serve again; then hold the books against the answers."""
    with tempfile.TemporaryDirectory() as folder:
        yard = _Yard(Path(folder) / "yard")
        acknowledged: set[str] = set()
        for number in range(kills):
            acknowledged |= yard.write_and_kill(0.5 + 0.13 * ((number + len(key)) % 7))
        stored = yard.stored()
        lost = acknowledged - stored
        assert not lost, f"{key}: {len(lost)} acknowledged readings are not in the books"
        assert acknowledged, f"{key}: nothing was acknowledged, so nothing was proved"
        said = subprocess.run(
            [*yard.words, "audit", yard.folder],
            capture_output=True,
            text=True,
            check=False,
            env=yard.environment,
        )
        assert said.returncode == 0, f"{key}: {said.stdout}"
    return {"kills": kills, "acknowledged": len(acknowledged), "stored": len(stored)}


def conclude(figures: dict[str, dict[str, int | float | str]]) -> str:
    """Return what all rounds add up to."""
    kills = sum(int(found["kills"]) for found in figures.values())
    kept = sum(int(found["acknowledged"]) for found in figures.values())
    return f"{kills} kills; {kept:,} acknowledged readings, 0 lost; every chain whole."


class _Yard:
    def __init__(self, folder: Path) -> None:
        with socket.socket() as found:
            found.bind(("127.0.0.1", 0))
            self.port = found.getsockname()[1]
        self.folder = folder
        kept = {
            name: value for name, value in os.environ.items() if not name.startswith(("SENDOFF_", "DJANGO_"))
        }
        self.environment = {**kept, "SENDOFF_PORT": str(self.port), "PYTHONPATH": str(ROOT / "src")}
        self.words = [sys.executable, "-m", "sendoff", "yard"]
        example = folder.parent / "example"
        (example / "sheets").mkdir(parents=True)
        for name in ("catalogue", "trucks", "cargo", "yard.toml", "sheets/qb-0207.toml"):
            (example / name).symlink_to(EXAMPLE / name)
        subprocess.run(
            [*self.words, "demo", folder, example], env=self.environment, check=True,
            stdout=subprocess.DEVNULL,
        )  # fmt: skip

    def write_and_kill(self, seconds: float) -> set[str]:
        """Serve, write from three clients for a while, kill; return what was acknowledged."""
        server = subprocess.Popen(
            [*self.words, "serve", self.folder], env=self.environment, stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL, start_new_session=True,
        )  # fmt: skip
        acknowledged: set[str] = set()
        clients = [_Client(f"http://127.0.0.1:{self.port}") for _ in range(3)]
        for client in clients:
            client.sign_in()
        writers = [threading.Thread(target=client.write, args=(acknowledged,)) for client in clients]
        for writer in writers:
            writer.start()
        time.sleep(seconds)
        os.killpg(server.pid, signal.SIGKILL)
        server.wait()
        for client in clients:
            client.ended = True
        for writer in writers:
            writer.join()
        return acknowledged

    def stored(self) -> set[str]:
        """Return the acts in the books."""
        with closing(sqlite3.connect(self.folder / "books" / "yard.sqlite3")) as books:
            return {str(uuid.UUID(row[0])) for row in books.execute("select act from yard_reading")}


class _Client:
    def __init__(self, address: str) -> None:
        self.address, self.ended = address, False
        jar = urllib.request.HTTPCookieProcessor(http.cookiejar.CookieJar())
        self.opener = urllib.request.build_opener(jar)

    def _token(self, path: str) -> str:
        page = self.opener.open(self.address + path, timeout=20).read().decode()
        found = re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', page)
        assert found is not None
        return found[1]

    def sign_in(self) -> None:
        """Sign in, once the server answers."""
        for _ in range(200):
            try:
                token = self._token("/sign-in/")
                break
            except OSError:
                time.sleep(0.1)
        else:
            raise AssertionError("the server does not answer")
        told = {"csrfmiddlewaretoken": token, "login": "del", "password": PASSWORD}
        self.opener.open(
            f"{self.address}/sign-in/", urllib.parse.urlencode(told).encode(), timeout=20
        ).close()
        self.token = self._token(PATH)

    def write(self, acknowledged: set[str]) -> None:
        """Write readings until the server is gone; an answer is an acknowledgment."""
        while not self.ended:
            act = str(uuid.uuid4())
            told = {"csrfmiddlewaretoken": self.token, "act": act, "do": "in_order"}
            try:
                with self.opener.open(
                    self.address + PATH, urllib.parse.urlencode(told).encode(), timeout=20
                ) as answer:
                    if answer.status == 200:  # after the redirect that says it is kept
                        acknowledged.add(act)
            except urllib.error.HTTPError:
                continue
            except (OSError, ValueError):
                return
            except Exception as error:  # a connection cut in the middle of an answer
                if type(error).__module__ == "http.client":
                    return
                raise
