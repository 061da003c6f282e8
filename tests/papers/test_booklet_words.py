"""What the pages say, read back by pdftotext: all that is fitted, nothing else, never the forbidden word."""

from __future__ import annotations

import html
import itertools
import re
from pathlib import Path

import pytest

from sendoff.findings.all_limits import all_findings
from sendoff.findings.telling import tell
from sendoff.phrases import say
from tests.papers.conftest import DAY, Pack, pages_of, words_of

pytestmark = pytest.mark.needs_tool("pdftotext")

FORBIDDEN = {
    # written out here once more, apart from the catalogue's own lint
    "en": re.compile(r"\b(?:un)?safe(?:ly|r|st)?\b", re.IGNORECASE),
    "es": re.compile(
        r"\b(?:es|está|son|están|queda|quedan|más|muy)\s+segur[oa]s?\b|\bsin peligro\b", re.IGNORECASE
    ),
}
PRESSURE = re.compile(r"\d\s?(?:psi|kPa|bar)\b")
TORQUE = re.compile(r"\d\s?(?:lbf·ft|lbf·in|N·m)")


def even(text: str) -> str:
    return " ".join(text.split())


def test_every_fitted_part_is_named_with_its_variant(pack: Pack) -> None:
    said = words_of(pack.path("booklet.pdf"))
    for part in pack.unit.parts:
        assert even(part.name[pack.briefing.language]) in said, part.slot


def test_no_part_that_is_not_fitted_is_named(pack: Pack) -> None:
    language = pack.briefing.language
    said = words_of(pack.path("booklet.pdf"))
    fitted = {part.card for part in pack.unit.parts}
    fitted_names = " | ".join(part.name[language] for part in pack.unit.parts).casefold()
    others = [card.name[language] for card in pack.catalogue.cards.values() if card.id not in fitted]
    assert others
    for name in others:
        if name.casefold() not in fitted_names:
            assert name not in said


def test_no_variant_that_is_not_fitted_is_named(pack: Pack) -> None:
    language = pack.briefing.language
    said = words_of(pack.path("booklet.pdf"))
    fitted = " | ".join(part.variant_name[language] for part in pack.unit.parts)
    for part in pack.unit.parts:
        for variant, described in pack.catalogue.cards[part.card].variants.items():
            name = even(described.name[language])
            if variant != part.variant and name not in fitted and len(name.split()) > 1:
                assert name not in said, (part.slot, variant)


def test_every_step_caution_check_and_fault_of_the_briefing_is_on_paper(pack: Pack) -> None:
    said = words_of(pack.path("booklet.pdf"))
    told = [
        text
        for station in pack.briefing.stations
        for text in (
            *(step.text for step in station.steps),
            *(check.text for check in station.checks),
            *(caution.hazard for caution in station.cautions),
            *(caution.avoid for caution in station.cautions),
            *(trouble.look for trouble in station.troubles),
            *(line.text for line in station.upkeep),
        )
    ]
    loose = _letters(said)
    missing = [text for text in told if _letters(text) not in loose]
    # a text that a page break parts is found in two pieces
    assert [text for text in missing if _letters(text[: len(text) // 2]) not in loose] == []
    assert len(missing) <= len(told) / 50


def test_what_is_said_beside_each_limit_is_in_booklet_and_page(pack: Pack) -> None:
    """What was counted, what a meter should read, what to ask: a margin alone does not tell it."""
    told = [
        tell(found, pack.briefing.language, pack.briefing.units)
        for found in all_findings(pack.unit, pack.catalogue, DAY)
    ]
    notes = [note for line in told for note in line.notes]
    assert notes
    booklet, page = _letters(words_of(pack.path("booklet.pdf"))), _letters(html.unescape(pack.html))
    for note in notes:
        assert _letters(note) in booklet, note
        assert _letters(note) in page, note


def _letters(text: str) -> str:
    """Only what is read: line breaks and the letter of the column beside it do not count."""
    return re.sub(r"[\W_]+", "", text).casefold()


def test_every_check_is_on_the_check_sheet(pack: Pack) -> None:
    said = _letters(words_of(pack.path("check-sheet.pdf")))
    for leg in pack.briefing.legs:
        for visit in leg.visits:
            for check in visit.checks:
                assert _letters(check.text) in said


def test_the_forbidden_word_is_never_said(pack: Pack) -> None:
    forbidden = FORBIDDEN[pack.briefing.language]
    for name in ("booklet.pdf", "check-sheet.pdf"):
        found = forbidden.search(words_of(pack.path(name)))
        assert found is None, (name, found)
    visible = html.unescape(
        re.sub(r"<style>.*?</style>|<script>.*?</script>|<[^>]+>", " ", pack.html, flags=re.DOTALL)
    )
    assert forbidden.search(visible) is None
    calendar = pack.path("upkeep.ics").read_text(encoding="utf-8").replace("\r\n ", "")
    assert forbidden.search(calendar) is None


def test_pressure_and_torque_never_share_a_line_of_the_numbers_sheet(pack: Pack) -> None:
    sheet = _numbers_sheet(pack)
    lines = sheet
    assert any(PRESSURE.search(line) for line in lines)
    assert any(TORQUE.search(line) for line in lines)
    for line in lines:
        assert not (PRESSURE.search(line) and TORQUE.search(line)), line


def test_pressure_and_torque_are_never_neighbors_on_the_numbers_sheet(pack: Pack) -> None:
    kinds = [
        "pressure" if PRESSURE.search(line) else "torque" if TORQUE.search(line) else "other"
        for line in _numbers_sheet(pack)
    ]
    for one, other in itertools.pairwise(kinds):
        assert {one, other} != {"pressure", "torque"}


def test_no_text_of_the_pack_holds_a_pressure_and_a_torque(pack: Pack) -> None:
    for station in pack.briefing.stations:
        for text in (
            *(step.text for step in station.steps),
            *(check.text for check in station.checks),
            *(line.text for line in station.upkeep),
            *(f"{caution.hazard} {caution.consequence} {caution.avoid}" for caution in station.cautions),
        ):
            assert not (PRESSURE.search(text) and TORQUE.search(text)), text


def _numbers_sheet(pack: Pack) -> list[str]:
    """The lines of the one page that calls itself the numbers sheet."""
    title = {"en": "Numbers sheet, one side", "es": "Hoja de números, un lado"}[pack.briefing.language]
    pages = [page for page in pages_of(pack.path("booklet.pdf")) if title in " ".join(page.lines())]
    assert len(pages) == 1, "the numbers sheet has one side"
    return pages[0].lines()


def test_a_small_letter_behind_every_number_of_the_sheet_is_explained_at_its_foot(pack: Pack) -> None:
    sheet = " ".join(_numbers_sheet(pack))
    origins = {number.origin for number in pack.briefing.numbers}
    for origin in origins - {"weighed"}:
        assert say(f"origin.{origin}", pack.briefing.language) in sheet


def test_what_is_typed_in_is_shown_as_it_was_stamped(pack: Pack) -> None:
    said = words_of(pack.path("booklet.pdf"))
    marks = [place.marks for part in pack.unit.parts for place in part.places]
    for mark in {text for marks_ in marks for text in (marks_.serial, marks_.lot, marks_.tin) if text}:
        assert even(mark) in said


def test_the_order_of_authority_opens_the_booklet(pack: Pack) -> None:
    first = " ".join(pages_of(pack.path("booklet.pdf"))[1].lines())
    places = [
        first.index(even(say(f"authority.{name}", pack.briefing.language)).split(",")[0].split(".")[0])
        for name in ("plate", "law", "technician")
    ]
    assert places == sorted(places)


def test_answers_do_not_stand_on_a_page_with_questions(pack: Pack) -> None:
    pages = [" ".join(page.lines()) for page in pages_of(pack.path("booklet.pdf"))]
    answers = say("paper.answers", pack.briefing.language)
    holding = [n for n, text in enumerate(pages) if re.search(rf"\b{answers} 1 [A-D]\b", text)]
    assert len(holding) == 1
    for question in pack.briefing.questions:
        assert question.text.split("?")[0][:30] not in pages[holding[0]]


def test_paths_of_this_machine_are_in_no_file(pack: Pack) -> None:
    for path in pack.folder.rglob("*"):
        if path.is_file():
            data = path.read_bytes()
            assert str(Path(__file__).parents[2]).encode() not in data
            assert b"/tmp/" not in data
