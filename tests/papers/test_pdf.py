"""The PDF files themselves: bookmarks, tags, alternative texts, embedded fonts, what they say of themselves."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pypdf
import pytest
from pypdf.generic import ArrayObject, DictionaryObject, IndirectObject

from sendoff.phrases import say
from tests.papers.conftest import SHEETS, Pack

FILES = ("booklet.pdf", "check-sheet.pdf", *SHEETS)


def titles(outline: list[Any]) -> Iterator[tuple[int, str]]:
    """Every bookmark with its depth."""

    def walk(items: list[Any], depth: int) -> Iterator[tuple[int, str]]:
        for item in items:
            if isinstance(item, list):
                yield from walk(item, depth + 1)
            else:
                yield depth, str(item.title)

    return walk(outline, 0)


def root_of(reader: pypdf.PdfReader) -> Any:
    """The catalog of the file; untyped, for what may stand in it is up to the file."""
    return reader.trailer["/Root"]


def structure(reader: pypdf.PdfReader) -> Iterator[Any]:
    """Every element of the structure tree."""
    root = root_of(reader)["/StructTreeRoot"]
    waiting: list[Any] = [root]
    seen: set[int] = set()
    while waiting:
        item = waiting.pop()
        if isinstance(item, IndirectObject):
            if item.idnum in seen:
                continue
            seen.add(item.idnum)
            item = item.get_object()
        if isinstance(item, ArrayObject):
            waiting.extend(item)
        elif isinstance(item, DictionaryObject):
            if "/S" in item:
                yield item
            if "/K" in item:
                waiting.append(item.raw_get("/K"))


def fonts(reader: pypdf.PdfReader) -> Iterator[Any]:
    for page in reader.pages:
        resources: Any = page["/Resources"]
        for font in resources.get("/Font", {}).values():
            yield font.get_object()


def test_every_station_and_every_part_of_the_booklet_has_its_bookmark(pack: Pack) -> None:
    found = list(titles(pack.booklet.outline))
    top = [title for depth, title in found if depth == 0]
    below = [title for depth, title in found if depth == 1]
    for name in (
        "before_all",
        "ten_sentences",
        "walk",
        "upkeep_plan",
        "faults",
        "cautions",
        "findings",
        "glossary",
    ):
        assert say(f"paper.{name}", pack.briefing.language) in top
    for station in pack.briefing.stations:
        assert station.name in below


def test_bookmarks_lead_to_pages_in_their_order(pack: Pack) -> None:
    numbers: list[Any] = [
        pack.booklet.get_destination_page_number(item) for item in _flat(pack.booklet.outline)
    ]
    assert all(number is not None for number in numbers)
    assert numbers == sorted(numbers)


def _flat(outline: list[Any]) -> Iterator[Any]:
    for item in outline:
        if isinstance(item, list):
            yield from _flat(item)
        else:
            yield item


@pytest.mark.parametrize("name", FILES)
def test_the_file_is_tagged_and_says_its_language(pack: Pack, name: str) -> None:
    root = root_of(pypdf.PdfReader(pack.path(name)))
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"].startswith(pack.briefing.language)
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]


@pytest.mark.parametrize("name", FILES)
def test_every_picture_has_words_for_whoever_cannot_see_it(pack: Pack, name: str) -> None:
    figures = [
        element for element in structure(pypdf.PdfReader(pack.path(name))) if element["/S"] == "/Figure"
    ]
    assert figures
    for figure in figures:
        assert str(figure["/Alt"]).strip()


def test_tables_have_head_cells_and_lists_have_items(pack: Pack) -> None:
    kinds = [str(element["/S"]) for element in structure(pack.booklet)]
    for kind in ("/Table", "/TH", "/TD", "/L", "/LI", "/H1", "/H2", "/TOC", "/TOCI"):
        assert kind in kinds, kind
    assert kinds.count("/H2") >= len(pack.briefing.stations)


@pytest.mark.parametrize("name", FILES)
def test_every_font_is_embedded_and_of_the_one_face(pack: Pack, name: str) -> None:
    found = list(fonts(pypdf.PdfReader(pack.path(name))))
    assert found
    for font in found:
        assert "SourceSansPro" in str(font["/BaseFont"])
        for kind in font.get("/DescendantFonts", [font]):
            descriptor = kind.get_object()["/FontDescriptor"]
            assert any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3"))


@pytest.mark.parametrize("name", FILES)
def test_the_file_calls_itself_an_archive_file_that_can_be_read_aloud(pack: Pack, name: str) -> None:
    # ISO 19005-2 (PDF/A-2, level a) and ISO 14289-1 (PDF/UA-1) as the compiler declares them; no full validator is
    # run here, so this holds the declaration, not conformance
    xmp = root_of(pypdf.PdfReader(pack.path(name)))["/Metadata"].get_data().decode()
    assert re.search(r"pdfaid:part[^0-9]*2", xmp)
    assert re.search(r"pdfaid:conformance[^A-Z]*A", xmp)
    assert re.search(r"pdfuaid:part[^0-9]*1", xmp)


@pytest.mark.parametrize("name", FILES)
def test_the_file_says_whose_it_is_and_of_which_day(pack: Pack, name: str) -> None:
    about = pypdf.PdfReader(pack.path(name)).metadata
    assert about is not None
    assert pack.unit.unit in str(about.title)
    assert about.author == pack.catalogue.yard.name
    assert pack.unit.vin in str(about.keywords)
    assert about.creation_date is not None
    assert about.creation_date.date().isoformat() == "2026-11-25"


def test_the_drawings_stand_in_the_booklet_as_lines_not_as_dots(pack: Pack) -> None:
    assert not any(page.images for page in pack.booklet.pages)
