"""Packs of the demo yard, made once a test run, and ways to look into what was made."""

from __future__ import annotations

import datetime
import html
import os
import re
import subprocess
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path
from typing import Final

import pypdf
import pytest

from sendoff.asbuilt.resolve import as_built
from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.brief import brief
from sendoff.briefing.model import Briefing
from sendoff.catalogue.load import Catalogue, find_folder, load
from sendoff.papers.packs import Order, make_pack
from sendoff.units import System
from tests.conftest import find_tool

YARD: Final = Path(__file__).parents[2] / "examples" / "quillback"
DAY: Final = datetime.date(2026, 11, 25)
POINTS_A_MM: Final = 72 / 25.4


@dataclass(frozen=True)
class Word:
    """A word on a page, with the box round it in points from the upper left."""

    text: str
    left: float
    top: float
    right: float
    bottom: float


@dataclass(frozen=True)
class Page:
    width: float
    height: float
    words: tuple[Word, ...]

    def lines(self) -> list[str]:
        """Words that stand on one height, from left to right, across all columns."""
        rows: dict[int, list[Word]] = {}
        for word in self.words:
            rows.setdefault(round(word.bottom / 3), []).append(word)
        return [
            " ".join(word.text for word in sorted(row, key=lambda word: word.left))
            for _, row in sorted(rows.items())
        ]


@dataclass(frozen=True)
class Pack:
    """A pack that was made, and what it was made from."""

    folder: Path
    unit: AsBuiltUnit
    catalogue: Catalogue
    briefing: Briefing

    def path(self, name: str) -> Path:
        return self.folder / name

    @cached_property
    def booklet(self) -> pypdf.PdfReader:
        return pypdf.PdfReader(self.folder / "booklet.pdf")

    @cached_property
    def html(self) -> str:
        return (self.folder / "briefing.html").read_text(encoding="utf-8")


@cache
def words_of(pdf: Path) -> str:
    """Return all text of a PDF in the order it was set, white space made even; needs pdftotext."""
    done = subprocess.run(
        [find_tool("pdftotext"), "-raw", str(pdf), "-"], capture_output=True, text=True, check=True
    )
    return " ".join(done.stdout.split())


@cache
def pages_of(pdf: Path) -> tuple[Page, ...]:
    """Return the pages of a PDF word by word; needs pdftotext."""
    done = subprocess.run(
        [find_tool("pdftotext"), "-bbox", str(pdf), "-"], capture_output=True, text=True, check=True
    )
    pages = []
    for page in re.finditer(r'<page width="([\d.]+)" height="([\d.]+)">(.*?)</page>', done.stdout, re.DOTALL):
        found = re.finditer(
            r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)</word>', page[3]
        )
        words = tuple(Word(html.unescape(word[5]), *(float(word[n]) for n in range(1, 5))) for word in found)
        pages.append(Page(float(page[1]), float(page[2]), words))
    return tuple(pages)


MakePack = Callable[..., Pack]


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> MakePack:
    """Give a function that makes a demo unit's pack, or finds the one a test made before (also in another worker)."""
    base = tmp_path_factory.getbasetemp()
    shared = (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "demo-packs"
    loaded: dict[Path, Catalogue] = {}

    def make(name: str, language: str, units: System = "us") -> Pack:
        sheet = YARD / "sheets" / f"{name}.toml"
        out = shared / f"{name}-{language}-{units}"
        folder = find_folder(None, sheet)
        catalogue = loaded.setdefault(folder, load(folder))
        unit = as_built(sheet, catalogue)
        target = out / unit.unit
        if not target.exists():
            make_pack(Order(sheet, None, out, language, units, DAY))
        return Pack(target, unit, catalogue, brief(unit, catalogue, language, units))

    return make


SHEETS: Final = (
    "labels.pdf",
    "drivers-sheet.pdf",
    "first-trip.pdf",
    "sun-visor.pdf",
    "storage-and-winter.pdf",
    "lent-out.pdf",
    "emergency.pdf",
)
"""The one-page papers, and the labels."""

PACKS: Final[tuple[tuple[str, str, System], ...]] = (
    ("qb-0107", "en", "us"),
    ("qb-0107", "es", "us"),
    ("qb-0111", "es", "us"),
    ("qb-0203", "es", "metric"),
    ("qb-0207", "en", "us"),
)
"""The fullest unit in both languages, the barest gooseneck, the small trailer in metric units and without its gate."""


@pytest.fixture(params=PACKS, ids="-".join)
def pack(request: pytest.FixtureRequest, made: MakePack) -> Pack:
    """Every pack in turn."""
    return made(*request.param)
