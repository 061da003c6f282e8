"""One booklet, set by Sendoff and by an HTML-to-PDF library from the same words and the same drawings, in one run.

The peer is a fair one: its pages are plainer than ours (no planning of columns, no tags for reading aloud), with the
same texts, the same drawings as SVG, the same face, a contents page with page numbers, running feet. That both say the
same is measured as well: the words read back by pdftotext.
"""

from __future__ import annotations

import base64
import datetime
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

from benchmarks import Measure, clock

ROOT = Path(__file__).resolve().parents[1]
YARD = ROOT / "examples" / "quillback"
DAY = datetime.date(2026, 11, 25)
SHEET = YARD / "sheets" / "qb-0107.toml"
RUNS = 3
PARTS = """before_all way_in ten_sentences walk numbers_sheet handed_over diagrams upkeep_plan faults cautions glossary
    show_me findings""".split()
WEIGHTS = {"Regular": 400, "Semibold": 600, "Bold": 700}


def data_of(sheet: Path) -> dict[str, Any]:
    """Return the whole booklet as data, which both set."""
    from sendoff.asbuilt.resolve import as_built
    from sendoff.briefing.brief import brief
    from sendoff.catalogue.load import find_folder, load
    from sendoff.findings.all_limits import all_findings
    from sendoff.papers.booklet import data_of_booklet
    from sendoff.papers.figures import figures_of

    catalogue = load(find_folder(None, sheet))
    unit = as_built(sheet, catalogue)
    briefing = brief(unit, catalogue, "en", "us")
    found = all_findings(unit, catalogue, DAY)
    return data_of_booklet(unit, briefing, catalogue, figures_of(unit, briefing, found), found, DAY)


def ours(data: dict[str, Any]) -> bytes:
    """Set it as a pack does."""
    from sendoff.papers import typeset

    return typeset.pdf("booklet.typ", data, DAY)


def peers_page(data: dict[str, Any]) -> str:
    """Return the same words and drawings as one HTML page."""
    import jinja2

    from sendoff.papers.booklet import ORIGINS
    from sendoff.papers.typeset import fonts

    files = {weight: fonts() / f"SourceSansPro-{name}.ttf" for name, weight in WEIGHTS.items()}
    faces = "\n".join(
        f"@font-face{{font-family:Peer;font-weight:{weight};src:url({path.as_uri()})}}"
        for weight, path in files.items()
    )
    names = [(f"p{number}", data["phrases"][name]) for number, name in enumerate(PARTS)]
    names += [(f"s{station['number']}", station["name"]) for station in data["stations"]]
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(Path(__file__).parent),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
    )
    return environment.get_template("peer_booklet.html.jinja").render(
        data,
        t=data["phrases"],
        faces=faces,
        contents=names,
        letters=dict(ORIGINS),
        picture=lambda svg: "data:image/svg+xml;base64," + base64.b64encode(svg.encode()).decode(),
    )


def peers(page: str) -> bytes:
    """Set the page with the library."""
    import weasyprint

    made: bytes = weasyprint.HTML(string=page, base_url=str(ROOT)).write_pdf()
    return made


def words(pdf: bytes) -> set[str] | None:
    """Return the words of a PDF, or None where pdftotext is absent."""
    program = shutil.which("pdftotext")
    if program is None:
        return None
    with tempfile.NamedTemporaryFile(suffix=".pdf") as file:
        file.write(pdf)
        file.flush()
        done = subprocess.run([program, "-raw", file.name, "-"], capture_output=True, text=True, check=True)
    # whether figure, unit and raised letter are read as one word is a matter of gaps: both are parted alike
    parted = re.sub(r"(?<=[\w·])([PBCWD])\b", r" \1", done.stdout)
    parted = re.sub(r"(?<=\d)(?=[^\W\d])", " ", parted)
    return set(re.findall(r"\w+", parted.casefold()))


def equal_share(one: set[str], other: set[str]) -> float:
    """Return how much of all words of both is said by both."""
    return len(one & other) / len(one | other)


def side_by_side(one: Callable[[], object], other: Callable[[], object]) -> tuple[float, float]:
    """Return the processor seconds of two calls, turn about, so that neither has the quieter machine."""
    one(), other()  # warm up: faces and libraries are loaded once
    found: list[tuple[float, float]] = []
    for _ in range(RUNS):
        begun = time.process_time()
        one()
        between = time.process_time()
        other()
        found.append((between - begun, time.process_time() - between))
    return statistics.median(pair[0] for pair in found), statistics.median(pair[1] for pair in found)


def measure() -> Iterable[Measure]:
    """Time both, and hold what they say against each other."""
    data = data_of(SHEET)
    page = peers_page(data)
    our_s, peer_s = side_by_side(lambda: ours(data), lambda: peers(page))
    note = "processor time; tagged, planned pages; the compiler's memory emptied each time"
    yield Measure("the booklet", our_s, "s", note=note)
    yield Measure("the same words and drawings through an HTML-to-PDF library", peer_s, "s", note="peer")
    yield Measure("times faster", peer_s / our_s, "×", at_least=10)
    said, peer_said = words(ours(data)), words(peers(page))
    if said is not None and peer_said is not None:
        yield Measure("words said by both", 100 * equal_share(said, peer_said), "%", at_least=98)
    with tempfile.TemporaryDirectory() as into:
        command = [sys.executable, "-m", "sendoff", "pack", str(SHEET), "-o", into, "--date", DAY.isoformat()]
        pack = clock.process(command, runs=3)
    yield Measure("a whole pack as a process", pack.cpu_s, "s", note=f"{pack.wall_s:.2f} s on the clock")
