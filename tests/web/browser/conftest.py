"""The demo yard, served as a person serves it, and Debian's Chromium in front of it."""

from __future__ import annotations

import os
import re
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[3]
SIZES = {"phone": (360, 740), "desk": (1280, 900)}
EXAMPLE = ROOT / "examples" / "quillback"
SHEETS = ("qb-0107", "qb-0111", "qb-0203", "qb-0207")
"""The units of the demo yard that the tests open; all of them would take long to inspect part-way."""
PASSWORD = "quillback demo yard"


@dataclass(frozen=True)
class Yard:
    """A demo yard that is being served."""

    folder: Path
    address: str
    codes: list[str]
    """Recovery codes of june and sam, each for one signing in."""


def free_port() -> int:
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        return int(found.getsockname()[1])


@pytest.fixture(scope="session")
def yard(tmp_path_factory: pytest.TempPathFactory, _chromium: str) -> Iterator[Yard]:
    """Make the demo yard and serve it, until the last test is done."""
    folder = tmp_path_factory.mktemp("yard") / "yard"
    example = tmp_path_factory.mktemp("example")
    for name in ("catalogue", "trucks", "cargo", "yard.toml"):
        (example / name).symlink_to(EXAMPLE / name)
    (example / "sheets").mkdir()
    for name in SHEETS:
        (example / "sheets" / f"{name}.toml").symlink_to(EXAMPLE / "sheets" / f"{name}.toml")
    port = free_port()
    environment = {**os.environ, "SENDOFF_PORT": str(port)}
    for name in ("DJANGO_SETTINGS_MODULE", "SENDOFF_YARD"):
        environment.pop(name, None)
    words = [sys.executable, "-m", "sendoff", "yard"]
    made = subprocess.run(
        [*words, "demo", str(folder), str(example)],
        env=environment, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert made.returncode == 0, made.stderr
    codes = re.findall(r"\b[0-9a-f]{6}-[0-9a-f]{6}\b", made.stdout)
    server = subprocess.Popen([*words, "serve", str(folder)], env=environment, stdout=subprocess.DEVNULL)
    address = f"http://127.0.0.1:{port}"
    try:
        for _ in range(150):
            try:
                urllib.request.urlopen(f"{address}/sign-in/", timeout=5).close()
                break
            except OSError:
                time.sleep(0.1)
        yield Yard(folder, address, codes)
    finally:
        server.terminate()
        server.wait(timeout=20)


@pytest.fixture(scope="session")
def _chromium() -> str:
    from tests.conftest import find_tool

    return find_tool("chromium")


@pytest.fixture(scope="session")
def browser(_chromium: str) -> Iterator[Any]:
    """Give one Chromium for all tests."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=_chromium, args=["--no-sandbox"])
        yield opened
        opened.close()


@dataclass
class Window:
    """A signed-in window; what its console and its pages complain of is collected."""

    page: Any
    yard: Yard
    complaints: list[str] = field(default_factory=list)

    def go(self, path: str) -> Any:
        """Open a page of the yard."""
        self.page.goto(self.yard.address + path)
        return self.page


@pytest.fixture
def window(browser: Any, yard: Yard) -> Iterator[Callable[..., Window]]:
    """Give a function that opens a signed-in window of a size; no complaint may be left at the end."""
    contexts, windows = [], []

    def opened(login: str, size: str = "phone", **more: Any) -> Window:
        width, height = SIZES[size]
        context = browser.new_context(
            viewport={"width": width, "height": height}, has_touch=size == "phone", **more
        )
        contexts.append(context)
        page = context.new_page()
        found = Window(page, yard)
        windows.append(found)
        page.on(
            "console",
            lambda said: found.complaints.append(said.text) if said.type in {"error", "warning"} else None,
        )
        page.on("pageerror", lambda error: found.complaints.append(str(error)))
        page.goto(f"{yard.address}/sign-in/")
        page.fill("#login", login)
        page.fill("#password", PASSWORD)
        page.click("main button.act")
        if "/sign-in/code/" in page.url:
            page.fill("#code", yard.codes.pop())
            page.click("main button.act")
            page.fill("#shift_code", "2580")
            page.click("main button.act")
        return found

    yield opened
    for context in contexts:
        context.close()
    assert [one.complaints for one in windows] == [[] for _ in windows]


@pytest.fixture(scope="session")
def shots() -> Path:
    """Give the folder of screenshots (build/look/screens), made anew."""
    folder = ROOT / "build" / "look" / "screens"
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True, exist_ok=True)
    return folder
