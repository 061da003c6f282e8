"""deck-plan.pdf: in the pack where the sheet names cargo: answer, steps, cautions before them, nothing cut off."""

from __future__ import annotations

import re
from pathlib import Path

import pypdf
import pytest

from sendoff.asbuilt.resolve import as_built
from sendoff.catalogue.load import load
from sendoff.findings.deck.case import cargo_file
from sendoff.papers.contents import files_of_pack
from sendoff.papers.deck_plan import counted, deck_plan_paper, page_of
from sendoff.phrases import say
from sendoff.units import System
from tests.papers.conftest import DAY, YARD, MakePack, Pack, pages_of, words_of
from tests.yards import SmallYard

FORBIDDEN = re.compile(r"\b(?:un)?safe(?:ly|r|st)?\b|\bsegur[oa]s?\b", re.IGNORECASE)
PLANS: tuple[tuple[str, str, System], ...] = (
    ("qb-0107", "en", "us"), ("qb-0107", "es", "us"), ("qb-0701", "es", "metric"), ("qb-0305", "en", "us"),
)  # fmt: skip


@pytest.fixture(params=PLANS, ids="-".join)
def planned(request: pytest.FixtureRequest, made: MakePack) -> Pack:
    return made(*request.param)


@pytest.mark.needs_tool("pdftotext")
def test_what_the_plan_says_stands_on_the_page(planned: Pack) -> None:
    said = words_of(planned.path("deck-plan.pdf"))
    named = cargo_file(planned.unit, planned.catalogue)
    assert named is not None
    page = page_of(planned.unit, planned.briefing, planned.catalogue, *named)
    for text in (*page["headline"], *page["robust"], *page["repairs"], *page["choices"], page["authority"]):
        assert " ".join(text.split()) in said, text
    for step in page["steps"]:
        assert " ".join(step["text"].split()) in said
    for row in page["rows"]:
        assert row["word"] in said
    assert say("not_checked.load_as_placed", planned.briefing.language) in said
    assert not FORBIDDEN.search(said)


@pytest.mark.needs_tool("pdftotext")
def test_nothing_is_cut_off_and_it_is_three_pages_at_most(planned: Pack) -> None:
    pages = pages_of(planned.path("deck-plan.pdf"))
    assert 1 <= len(pages) <= 3
    for page in pages:
        for word in page.words:
            assert 0 < word.left < word.right < page.width, word
            assert 0 < word.top < word.bottom < page.height, word


@pytest.mark.needs_tool("pdftotext")
def test_cautions_stand_before_the_first_step(made: MakePack) -> None:
    said = words_of(made("qb-0107", "en").path("deck-plan.pdf"))
    assert (
        said.index("What is being loaded can roll")
        < said.index("Loading, step by step")
        < said.index("back it on")
    )


def test_a_load_that_does_not_fit_has_no_steps_but_what_would_help(made: MakePack) -> None:
    pack = made("qb-0305", "en")
    named = cargo_file(pack.unit, pack.catalogue)
    assert named is not None
    page = page_of(pack.unit, pack.briefing, pack.catalogue, *named)
    assert page["steps"] == []
    assert not page["is_plan"]
    assert page["conflict"]
    assert page["repairs"]
    assert page["drawing"] is not None


def test_a_pack_without_cargo_has_no_deck_plan(made: MakePack) -> None:
    assert not made("qb-0207", "en").path("deck-plan.pdf").exists()


def test_a_cargo_without_measures_is_told_what_to_measure_and_the_pack_is_made(tmp_path: Path) -> None:
    yard = SmallYard(tmp_path)
    (yard.folder / "cargo").mkdir(exist_ok=True)
    (yard.folder / "cargo" / "mower.toml").write_text(
        'schema = 1\nid = "mower"\nsources = ["invented:test"]\n'
        '[[item]]\nid = "mower"\nname = "Mower"\nmass = "600 lb"\n',
        encoding="utf-8",
    )
    yard.change("sheets/t-1.toml", 'type = "small_flat"\n', 'type = "small_flat"\ncargo = "mower"\n')
    catalogue = load(yard.catalogue)
    files = files_of_pack(as_built(yard.sheet, catalogue), catalogue, "en", "us", DAY)
    path = tmp_path / "plan.pdf"
    path.write_bytes(files["deck-plan.pdf"])
    said = " ".join(" ".join(page.extract_text() for page in pypdf.PdfReader(path).pages).split())
    assert "Not planned: measures of what is to ride are missing" in said
    assert "mower.toml: item[1] mower: length: the deck plan needs it." in said
    assert str(tmp_path) not in said


def test_the_same_plan_has_the_same_bytes(made: MakePack) -> None:
    pack = made("qb-0107", "es")
    once, again = (deck_plan_paper(pack.unit, pack.briefing, pack.catalogue, DAY) for _ in range(2))
    assert once == again
    assert once == pack.path("deck-plan.pdf").read_bytes()


def test_the_search_of_a_paper_is_ended_by_counting() -> None:
    go_on = counted(2)
    assert [go_on() for _ in range(4)] == [True, True, False, False]
    assert (YARD / "cargo").is_dir()
