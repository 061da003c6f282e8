"""The load card's page: one page, the numbers of its record, its order of authority, the same bytes."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pypdf
import pytest

from sendoff.asbuilt.resolve import as_built
from sendoff.catalogue.load import load
from sendoff.findings.all_limits import truck_of
from sendoff.findings.load_card import load_card, tell_card
from sendoff.papers.contents import files_of_pack
from sendoff.papers.load_card import data_of_card, load_card_paper
from sendoff.phrases import say
from tests.papers.conftest import DAY, Pack, words_of
from tests.yards import SmallYard

FORBIDDEN = re.compile(r"\b(?:un)?safe(?:ly|r|st)?\b|\bsegur[oa]s?\b", re.IGNORECASE)


def test_it_is_one_page_in_every_language(pack: Pack) -> None:
    assert len(pypdf.PdfReader(pack.path("load-card.pdf")).pages) == 1


@pytest.mark.needs_tool("pdftotext")
def test_what_the_record_says_stands_on_the_page(pack: Pack) -> None:
    card = load_card(pack.unit, truck_of(pack.unit, pack.catalogue))
    assert card is not None
    told = tell_card(card, pack.briefing.language, pack.briefing.units)
    said = words_of(pack.path("load-card.pdf"))
    page = data_of_card(card, pack.unit, pack.briefing, pack.catalogue, DAY)["card"]
    drawn = page["drawing"]["svg"].replace("\u200c", "")  # letters of drawings are set as outlines
    for allowed in told.allowed:
        assert allowed.most in said
        for band in allowed.bands:
            assert all(text in drawn for text in band), band
    for text in (*told.remarks, *told.not_checked, told.authority):
        assert text in said, text
    assert not FORBIDDEN.search(said)


def test_its_cautions_stand_gravest_first(pack: Pack) -> None:
    card = load_card(pack.unit)
    assert card is not None
    page = data_of_card(card, pack.unit, pack.briefing, pack.catalogue, DAY)["card"]
    assert [group["signal"] for group in page["cautions"]] == ["danger", "warning"]
    assert page["cautions"][0]["word"] == say("signal.danger", pack.briefing.language)


def test_it_says_of_itself_what_it_is(pack: Pack) -> None:
    reader = pypdf.PdfReader(pack.path("load-card.pdf"))
    assert reader.metadata is not None
    assert say("load_card.title", pack.briefing.language) in str(reader.metadata.title)
    root: Any = reader.trailer["/Root"]
    assert root["/Lang"]
    assert root["/MarkInfo"]["/Marked"]


def test_the_same_unit_and_day_give_the_same_bytes(pack: Pack) -> None:
    made = [load_card_paper(pack.unit, pack.briefing, pack.catalogue, DAY) for _ in range(2)]
    assert made[0] == made[1] == pack.path("load-card.pdf").read_bytes()


@pytest.mark.needs_tool("pdftotext")
def test_a_trailer_whose_coupling_was_never_weighed_is_told_to_weigh_it(tmp_path: Path) -> None:
    yard = SmallYard(tmp_path)
    catalogue = load(yard.catalogue)
    files = files_of_pack(as_built(yard.sheet, catalogue), catalogue, "en", "us", DAY)
    path = tmp_path / "load-card.pdf"
    path.write_bytes(files["load-card.pdf"])
    assert "weigh it empty, then the coupling alone" in words_of(path)
