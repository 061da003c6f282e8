"""Make the pictures that README and docs show, from a pack of the demo yard: docs/pictures/*.png.

Needs pdftoppm (Debian package poppler-utils) and the tools of the dev lock. Run it when pages have changed.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from pypdf import PdfReader
from pypdf.generic import Destination

ROOT = Path(__file__).resolve().parents[1]
SHEET = ROOT / "examples" / "quillback" / "sheets" / "qb-0107.toml"
OUT = ROOT / "docs" / "pictures"
PAGES = {
    "station": "Tilt tail",
    "numbers": "Numbers of QB-0107",
    "way-in": "The way in: this trailer and its stations",
}


def entries(outline: list[Any]) -> Iterator[Destination]:
    """Yield every bookmark, those below others too."""
    for entry in outline:
        if isinstance(entry, list):
            yield from entries(entry)
        else:
            yield entry


def page_of(reader: PdfReader, title: str) -> int:
    """Return the number of the page a bookmark leads to, from 1."""
    for entry in entries(reader.outline):
        if (entry.title or "").strip() == title:
            return int(reader.get_destination_page_number(entry) or 0) + 1
    sys.exit(f"the booklet has no bookmark '{title}'")


def main() -> None:
    """Pack one unit in a temporary folder and picture its pages."""
    OUT.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run(
            [sys.executable, "-m", "sendoff", "pack", str(SHEET), "-o", folder, "--date", "2026-11-25"],
            check=True,
        )
        booklet = Path(folder) / "QB-0107" / "booklet.pdf"
        reader = PdfReader(booklet)
        for name, title in PAGES.items():
            page = str(page_of(reader, title))
            command = [
                "pdftoppm",
                "-r",
                "110",
                "-f",
                page,
                "-l",
                page,
                "-singlefile",
                "-png",
                str(booklet),
                str(OUT / name),
            ]
            subprocess.run(command, check=True)
            print(f"wrote {(OUT / name).relative_to(ROOT)}.png (page {page})")


if __name__ == "__main__":
    main()
