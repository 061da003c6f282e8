"""Make what the package carries of its face: a small subset for screens, and the list of signs the face has.

Source Sans Pro (PyPI package font-source-sans-pro) is under the SIL Open Font License 1.1; 'Source' is a reserved name,
so the subset is called Sendoff Sans. Run it again only when the face or the set of signs changes.
"""

from __future__ import annotations

import sys
from pathlib import Path

from fontTools import subset
from fontTools.ttLib import TTFont

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "src"))

from sendoff.papers.typeset import fonts  # noqa: E402

OUT = ROOT / "src" / "sendoff" / "data" / "fonts"
WEIGHTS = {"Regular": 400, "Semibold": 600, "Bold": 700}
SIGNS = (
    {chr(code) for code in range(0x20, 0x7F)}
    | set("¡¿ÁÉÍÑÓÚÜáéíñóúü°±²³½¼¾·×÷–—‘’“”…−≤≥→←Ωµμ√Σ")
    | {"\N{NO-BREAK SPACE}"}
)
FAMILY = "Sendoff Sans"


def make_subset(weight: str) -> int:
    """Write the subset of one weight; return its size."""
    font = TTFont(fonts() / f"SourceSansPro-{weight}.ttf")
    options = subset.Options()
    options.layout_features = ["kern", "tnum", "zero", "lnum"]
    options.name_IDs = [0, 1, 2, 13, 14]
    options.flavor = "woff2"
    options.hinting = False
    maker = subset.Subsetter(options)
    maker.populate(text="".join(sorted(SIGNS)))
    maker.subset(font)
    for record in font["name"].names:
        if record.nameID == 1:
            record.string = FAMILY
    font.flavor = "woff2"
    path = OUT / f"sendoff-sans-{WEIGHTS[weight]}.woff2"
    font.save(path, reorderTables=None)
    return path.stat().st_size


def coverage() -> str:
    """Return the signs that every weight used on paper has, as ranges of code points."""
    faces = (TTFont(fonts() / f"SourceSansPro-{weight}.ttf") for weight in WEIGHTS)
    common = set.intersection(*(set(face.getBestCmap()) for face in faces))
    codes = sorted(common)
    ranges: list[list[int]] = []
    for code in codes:
        if ranges and code == ranges[-1][1] + 1:
            ranges[-1][1] = code
        else:
            ranges.append([code, code])
    return (
        "\n".join(f"{first:04X}-{last:04X}" if first != last else f"{first:04X}" for first, last in ranges)
        + "\n"
    )


def widths() -> str:
    """Return how far each sign of the drawings moves on, in thousandths of an em, at the three weights."""
    faces = [TTFont(fonts() / f"SourceSansPro-{weight}.ttf") for weight in WEIGHTS]
    tables = [(face.getBestCmap(), face["hmtx"]) for face in faces]
    letters = {code for code in (*range(0x20, 0x7F), *range(0xA0, 0x180)) if code in tables[0][0]}
    lines = [
        f"{code:04X} " + " ".join(str(advances[names[code]][0]) for names, advances in tables)
        for code in sorted(letters | {ord(sign) for sign in SIGNS})
    ]
    return "\n".join(lines) + "\n"


def main() -> None:
    """Write everything."""
    OUT.mkdir(parents=True, exist_ok=True)
    for weight in WEIGHTS:
        print(f"{weight}: {make_subset(weight) / 1000:.1f} kB")
    (OUT / "coverage.txt").write_text(coverage(), encoding="ascii")
    (OUT / "widths.txt").write_text(widths(), encoding="ascii")
    (OUT / "OFL.txt").write_bytes((fonts() / "LICENSE.txt").read_bytes())


if __name__ == "__main__":
    main()
