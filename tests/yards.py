"""A small yard in a temporary folder, to be changed by a test: a copy of the starter, and a sheet that resolves."""

from __future__ import annotations

import shutil
from pathlib import Path

from sendoff.catalogue.starter import STARTER

SHEET = """\
schema = 1
unit = "T-1"
public_id = "23456789AB"
type = "small_flat"
options = ["stronger_tires"]
vin = "1X9SF081XTYKB4019"
built = 2026-10-14
owner = { name = "A. Person", use = { miles = 800, loads = 8 } }
collects = { who = "owner", on = 2026-11-20 }
[parts.tires]
left_1 = { tin = "DOT 1AB CDEF12 2026" }
right_1 = { tin = "DOT 1AB CDEF12 2026" }
"""


class SmallYard:
    """A yard a test may spoil."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder / "yard"
        shutil.copytree(STARTER, self.folder)
        self.catalogue = self.folder / "catalogue"
        self.sheet = self.folder / "sheets" / "t-1.toml"
        self.sheet.parent.mkdir(exist_ok=True)
        self.sheet.write_text(SHEET, encoding="utf-8")

    def change(self, name: str, old: str, new: str) -> None:
        """Replace the one place where `old` stands in a file."""
        path = self.folder / name
        text = path.read_text(encoding="utf-8")
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {name}"
        path.write_text(text.replace(old, new), encoding="utf-8")
