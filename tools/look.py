"""Contact sheets: every page of three packs in both languages, to be looked at. Writes build/look/*.png.

Needs pdftoppm (make system). Packs are made anew, so what is seen is what the code makes now. With sheets named on
the command line, those are used instead of the first three of the demo yard.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

ROOT = Path(__file__).resolve().parent.parent
YARD = ROOT / "examples" / "quillback"
INTO = ROOT / "build" / "look"
PAGE_WIDTH, GAP, LABEL = 420, 12, 26
COLUMNS, ROWS = 5, 4
DOTS_PER_INCH = 96


def pack(sheet: Path, language: str, into: Path) -> list[Path]:
    """Make one pack and return its PDF files."""
    command = [sys.executable, "-m", "sendoff", "pack", str(sheet), "--catalogue", str(YARD)]
    done = subprocess.run([*command, "--language", language, "-o", str(into)], check=False)
    if done.returncode not in (0, 1, 3):  # a finding may be over or unknown; the pack is still there
        raise SystemExit(done.returncode)
    return sorted(into.rglob("*.pdf"))


def pages(pdf: Path, scratch: Path, program: str) -> list[Path]:
    """Turn every page of a PDF into a picture."""
    stem = scratch / pdf.stem
    subprocess.run([program, "-r", str(DOTS_PER_INCH), "-png", str(pdf), str(stem)], check=True)
    return sorted(scratch.glob(f"{pdf.stem}-*.png"))


def contact_sheets(found: list[Path]) -> Iterator[Image.Image]:
    """Lay the pictures out in rows, page numbers above them."""
    font = ImageFont.load_default(16)
    for start in range(0, len(found), COLUMNS * ROWS):
        images = [Image.open(path).convert("RGB") for path in found[start : start + COLUMNS * ROWS]]
        small = [
            image.resize((PAGE_WIDTH, round(image.height * PAGE_WIDTH / image.width))) for image in images
        ]
        height = max(image.height for image in small) + LABEL + GAP
        rows = -(-len(small) // COLUMNS)
        sheet = Image.new(
            "RGB", (min(COLUMNS, len(small)) * (PAGE_WIDTH + GAP) + GAP, rows * height + GAP), "#8b8d90"
        )
        draw = ImageDraw.Draw(sheet)
        for place, image in enumerate(small):
            left, top = GAP + place % COLUMNS * (PAGE_WIDTH + GAP), GAP + place // COLUMNS * height
            draw.text((left, top), str(start + place + 1), fill="white", font=font)
            sheet.paste(image, (left, top + LABEL - 4))
        yield sheet


def main() -> int:
    """Make the packs, then the sheets."""
    program = shutil.which("pdftoppm")
    if not program:
        print("look: pdftoppm is absent. Run: make system")
        return 2
    sheets = [Path(name) for name in sys.argv[1:]] or sorted((YARD / "sheets").glob("*.toml"))[:3]
    shutil.rmtree(INTO, ignore_errors=True)
    INTO.mkdir(parents=True)
    made = 0
    for sheet in sheets:
        for language in ("en", "es"):
            with tempfile.TemporaryDirectory() as name:
                scratch = Path(name)
                for pdf in pack(sheet, language, scratch / "pack"):
                    (scratch / pdf.stem).mkdir()
                    for number, picture in enumerate(
                        contact_sheets(pages(pdf, scratch / pdf.stem, program)), 1
                    ):
                        target = INTO / f"{sheet.stem}-{language}-{pdf.stem}-{number}.png"
                        picture.save(target)
                        print(target.relative_to(ROOT))
                        made += 1
    print(f"{made} contact sheets in {INTO.relative_to(ROOT)}")
    return 0 if made else 1


if __name__ == "__main__":
    sys.exit(main())
