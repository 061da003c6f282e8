"""The yard under load: 20 clients on 10,000 units and 1,000,000 readings, beside a bare one-query Django view.

YARD_UNITS and YARD_READINGS make it smaller on a machine without room.
"""

from __future__ import annotations

import http.client
import os
import re
import socket
import sqlite3
import subprocess
import sys
import tempfile
import threading
import time
import urllib.parse
import uuid
from collections.abc import Iterable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from benchmarks import Measure

ROOT = Path(__file__).resolve().parents[1]
EXAMPLE = ROOT / "examples" / "quillback"
UNITS, READINGS = int(os.environ.get("YARD_UNITS", "10000")), int(os.environ.get("YARD_READINGS", "1000000"))
CLIENTS, SECONDS, OPENED = 20, 20.0, 60
SIGNS = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
PEER = (
    "import waitress, django; django.setup(); from django.core.wsgi import get_wsgi_application;"
    "waitress.serve(get_wsgi_application(), host='127.0.0.1', port={port}, threads=8, ident='', _quiet=True)"
)


def public_id(number: int) -> str:
    """Return a public id for a copy."""
    text = ""
    for _ in range(10):
        number, sign = divmod(number, len(SIGNS))
        text += SIGNS[sign]
    return text


def fill(books: Path) -> list[str]:
    """Copy the one unit of the books many times, with its readings; return the public ids that clients open."""
    with closing(sqlite3.connect(books)) as connection:
        connection.execute("pragma synchronous = off")
        names = [row[1] for row in connection.execute("pragma table_info(yard_unit)") if row[1] != "id"]
        row = dict(
            zip(
                names, connection.execute(f"select {', '.join(names)} from yard_unit").fetchone(), strict=True
            )
        )
        marks = ", ".join("?" * len(names))
        ids = [public_id(7_000_000 + number) for number in range(UNITS)]

        def copies() -> Iterator[list[object]]:
            for number, one in enumerate(ids):
                copy = row | {"public_id": one, "number": f"C-{number:05}", "vin": f"COPY{number:013}"}
                copy["found_by"] = f"c-{number:05}\n{one.lower()}\n{row['found_by'][:900]}"
                yield [copy[name] for name in names]

        connection.executemany(f"insert into yard_unit ({', '.join(names)}) values ({marks})", copies())
        first = connection.execute("select min(id) from yard_unit where number like 'C-%'").fetchone()[0]
        names = [row[1] for row in connection.execute("pragma table_info(yard_reading)")]
        olds = [
            dict(zip(names, old, strict=True))
            for old in connection.execute(f"select {', '.join(names)} from yard_reading")
        ]
        marks = ", ".join("?" * len(names))

        def readings() -> Iterator[list[object]]:
            for number in range(READINGS):
                copy = olds[number % len(olds)] | {
                    "act": uuid.uuid4().hex,
                    "unit_id": first + number // len(olds) % UNITS,
                }
                yield [copy[name] for name in names]

        connection.executemany(f"insert into yard_reading ({', '.join(names)}) values ({marks})", readings())
        connection.execute("analyze")
        connection.commit()
    return ids[:OPENED]


@contextmanager
def served(command: list[str], environment: dict[str, str], port: int) -> Iterator[None]:
    """Serve until the block ends."""
    server = subprocess.Popen(command, env=environment, cwd=ROOT, stdout=subprocess.DEVNULL)
    try:
        for _ in range(300):
            with socket.socket() as found:
                if found.connect_ex(("127.0.0.1", port)) == 0:
                    break
            time.sleep(0.1)
        yield
    finally:
        server.terminate()
        server.wait(timeout=30)


def sign_in(port: int) -> str:
    """Return the cookie of a session."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
    connection.request("GET", "/sign-in/")
    answer = connection.getresponse()
    page = answer.read().decode()
    cookie = str(answer.getheader("Set-Cookie")).partition(";")[0]
    token = re.search(r'csrfmiddlewaretoken" value="([^"]+)', page)
    assert token is not None
    told = urllib.parse.urlencode(
        {"csrfmiddlewaretoken": token[1], "login": "del", "password": "quillback demo yard"}
    )
    headers = {"Cookie": cookie, "Content-Type": "application/x-www-form-urlencoded"}
    connection.request("POST", "/sign-in/", told, headers)
    answer = connection.getresponse()
    answer.read()
    cookies = [value.partition(";")[0] for name, value in answer.getheaders() if name == "Set-Cookie"]
    return "; ".join(cookies)


def load(port: int, paths: list[str], cookie: str) -> tuple[list[float], float]:
    """Let 20 clients open pages one after the other; return every waiting time, and pages a second."""
    waited: list[float] = []
    end = time.perf_counter() + SECONDS

    def client(number: int) -> None:
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
        turn = number
        while time.perf_counter() < end:
            begun = time.perf_counter()
            connection.request("GET", paths[turn % len(paths)], headers={"Cookie": cookie})
            answer = connection.getresponse()
            answer.read()
            assert answer.status == 200, (answer.status, paths[turn % len(paths)])
            waited.append(time.perf_counter() - begun)
            turn += 7

    clients = [threading.Thread(target=client, args=(number,)) for number in range(CLIENTS)]
    begun = time.perf_counter()
    for one in clients:
        one.start()
    for one in clients:
        one.join()
    return sorted(waited), len(waited) / (time.perf_counter() - begun)


def measure() -> Iterable[Measure]:
    """Fill the books, serve them, load them; then the peer the same way."""
    with tempfile.TemporaryDirectory() as name:
        folder, example = Path(name) / "yard", Path(name) / "example"
        (example / "sheets").mkdir(parents=True)
        for one in ("catalogue", "trucks", "cargo", "yard.toml", "sheets/qb-0207.toml"):
            (example / one).symlink_to(EXAMPLE / one)
        with socket.socket() as found:
            found.bind(("127.0.0.1", 0))
            port = found.getsockname()[1]
        environment = {
            **os.environ,
            "SENDOFF_PORT": str(port),
            "PYTHONPATH": f"{ROOT / 'src'}{os.pathsep}{ROOT}",
        }
        sendoff = [sys.executable, "-m", "sendoff", "yard"]
        subprocess.run(
            [*sendoff, "demo", folder, example], env=environment, check=True, stdout=subprocess.DEVNULL
        )
        ids = fill(folder / "books" / "yard.sqlite3")
        paths = ["/", "/?page=40", "/?find=c-00777", *(f"/unit/{one}/" for one in ids)]
        paths += [
            f"/unit/{one}/{page}/"
            for one in ids[:20]
            for page in ("inspection", "gate-pass", "history", "put-right")
        ]
        with served([*sendoff, "serve", str(folder)], environment, port):
            cookie = sign_in(port)
            load_before = os.getloadavg()[0]
            waited, rate = load(port, paths, cookie)
        peer = environment | {"SENDOFF_YARD": str(folder), "DJANGO_SETTINGS_MODULE": "benchmarks.bare_view"}
        with served([sys.executable, "-c", PEER.format(port=port)], peer, port):
            _, bare = load(port, ["/"], "")
    note = f"{CLIENTS} clients, {UNITS:,} units, {READINGS:,} readings, {len(waited):,} pages; load {load_before:.1f}"
    yield Measure("half of the pages within", waited[len(waited) // 2] * 1000, "ms", note=note)
    yield Measure(
        "95 of 100 pages within", waited[len(waited) * 95 // 100] * 1000, "ms", at_most=150, note=note
    )
    yield Measure("pages a second", rate, "1/s", note=note)
    yield Measure("bare one-query Django view", bare, "1/s", note="peer, same books, same server")
    yield Measure("throughput against the bare view", rate / bare, "times", at_least=0.35, note=note)
