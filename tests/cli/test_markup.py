"""Markup in anybody's texts comes out of every paper as the signs that were typed: no page obeys them."""

from __future__ import annotations

import json
import re
import unicodedata
from html.parser import HTMLParser
from pathlib import Path

import pytest
from pypdf import PdfReader

from tests.cli.running import run
from tests.tomling import as_toml
from tests.yards import SmallYard

HOSTILE = [
    "<script>alert(1)</script>",
    "</script><img src=x onerror=alert(2)>",
    "&lt;b&gt; &amp; <!-- note -->",
    "#panic() #set page(width: 1pt)",
    "*bold* _slanted_ `code`",
    "$x^2$ [link](there) @label <label>",
    r"back\slash \n \u41 C:\new",
    "\"double\" 'single' ''' \"\"\"",
    "= Heading - item + item / term: 1. one",
    "// comment /* comment */ ~ -- --- ...",
    "https://example.org/?a=1&b=2#c",
    "BEGIN:VEVENT;X=1:a,b",
]
"""Signs that mean something to a browser, to the typesetter, to TOML, JSON and iCalendar."""

PLACES = {
    "catalogue/cards/running_gear/my_tire.toml": [
        'what.en = "Air carries the load, not rubber. A soft tire runs hot and bursts."',
        'name = { en = "Trailer tire"',
        'name = { en = "Load range D"',
        'say.en = "Read each tire with a gauge."',
        'say.en.hazard = "A hot tire reads high."',
        'say.en = "Cold pressure"',
        'say.en = "Look over tread and sidewalls."',
        'say.en = "One tire loses air"',
        'look.en = "Valve cap and stem with soapy water. Then the tread for a nail."',
        'say.en = "What is the cold pressure of these tires?"',
    ],
    "catalogue/cards/coupling/my_coupler.toml": ['say.en = "Wipe the inside clean and grease it."'],
    "catalogue/trailers/small_flat.toml": ['name = { en = "Deck"', 'name = { en = "Load range D tires"'],
    "catalogue/sentences.toml": ['say.en = "Nothing rides that is not tied down."'],
    "yard.toml": ['name = "My Trailer Yard"', '"1 Yard Road"'],
    "sheets/t-1.toml": ['name = "A. Person"'],
}


def bare(text: str) -> str:
    """Return the signs of a text without spaces and marks of the line, by which two texts are compared."""
    return "".join(sign for sign in unicodedata.normalize("NFKC", text) if not sign.isspace())


class Reader(HTMLParser):
    """What a browser would show and obey."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.shown: list[str] = []
        self.tags: dict[str, int] = {}
        self.handlers: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags[tag] = self.tags.get(tag, 0) + 1
        self.handlers += [name for name, _ in attrs if name.startswith("on")]
        self.shown += [value for _, value in attrs if value]

    def handle_data(self, data: str) -> None:
        self.shown.append(data)


def read(page: str) -> Reader:
    reader = Reader()
    reader.feed(page)
    reader.close()
    return reader


def pack_of(yard: SmallYard) -> Path:
    done = run("pack", yard.sheet, "-o", yard.folder / "out", "--date", "2026-11-25")
    assert done.code == 0, done.err
    return yard.folder / "out" / "T-1"


def words_of(pdf: Path) -> str:
    return bare("".join(page.extract_text() for page in PdfReader(pdf).pages))


def spoil(yard: SmallYard, mark: str) -> int:
    """Put a mark into every text; return how many."""
    count = 0
    for name, lines in PLACES.items():
        for line in lines:
            key, _, text = line.rpartition('"')[0].rpartition('"')
            yard.change(name, line, f"{key}{json.dumps(f'{text} {mark}')}" + line.rpartition('"')[2])
            count += 1
    return count


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return pack_of(SmallYard(tmp_path_factory.mktemp("plain")))


@pytest.mark.parametrize("group", [HOSTILE[:4], HOSTILE[4:8], HOSTILE[8:]], ids=["page", "type", "lines"])
def test_markup_comes_out_as_it_was_typed(tmp_path: Path, plain: Path, group: list[str]) -> None:
    yard = SmallYard(tmp_path)
    mark = " ".join(group)
    assert spoil(yard, mark) == 17
    pack = pack_of(yard)

    booklet, sheet = words_of(pack / "booklet.pdf"), words_of(pack / "check-sheet.pdf")
    page, plain_page = ((folder / "briefing.html").read_text("utf-8") for folder in (pack, plain))
    shown = bare(" ".join(read(page).shown))
    assert booklet.count(bare(mark)) >= 12
    assert sheet.count(bare(mark)) >= 3
    assert shown.count(bare(mark)) >= 10
    assert len(PdfReader(pack / "booklet.pdf").pages) <= len(PdfReader(plain / "booklet.pdf").pages) + 6

    assert read(page).tags["script"] == read(plain_page).tags["script"]
    assert read(page).tags.get("img", 0) == read(plain_page).tags.get("img", 0)
    assert read(page).handlers == read(plain_page).handlers
    assert read(page).tags.keys() == read(plain_page).tags.keys()

    for drawing in (pack / "drawings").glob("*.svg"):
        text = drawing.read_text("utf-8")
        assert "<script" not in text
        assert "<img" not in text

    calendar = (pack / "upkeep.ics").read_text("utf-8").replace("\r\n ", "").replace("\n ", "")
    begun, plain_begun = (
        len(re.findall(r"^BEGIN:VEVENT", (folder / "upkeep.ics").read_text("utf-8"), re.MULTILINE))
        for folder in (pack, plain)
    )
    assert begun == plain_begun
    assert bare(mark.replace("\\", "\\\\").replace(",", "\\,").replace(";", "\\;")) in bare(calendar)

    assert json.loads((pack / "unit.json").read_bytes())["owner"]["name"] == f"A. Person {mark}"


def test_markup_in_marks_of_parts_comes_out_as_it_was_typed(tmp_path: Path) -> None:
    yard = SmallYard(tmp_path)
    serial = "#1 *<b>*$_`\\"
    text = (
        yard.sheet.read_text("utf-8")
        + "\n[parts.coupler]\ncoupler = "
        + as_toml({"serial": serial}).join("{}")
    )
    yard.sheet.write_text(text.replace("\n}", " }"), encoding="utf-8")
    unit = json.loads((pack_of(yard) / "unit.json").read_bytes())
    coupler = next(part for part in unit["parts"] if part["slot"] == "coupler")
    assert coupler["places"][0]["marks"]["serial"] == serial


def test_braces_are_placeholders_and_nothing_else(tmp_path: Path) -> None:
    yard = SmallYard(tmp_path)
    yard.change("sheets/t-1.toml", '"A. Person"', '"A. {unit} {{x}} Person"')
    assert "{unit}{{x}}" in words_of(pack_of(yard) / "booklet.pdf")
    tire = "catalogue/cards/running_gear/my_tire.toml"
    yard.change(tire, 'say.en = "One tire loses air"', 'say.en = "One {tire} loses air"')
    done = run("catalogue", "lint", yard.folder)
    assert done.code == 2
    assert "no such value can be put in (found {tire})" in done.err
