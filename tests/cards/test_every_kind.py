"""Every kind of part in the demo yard is there for good: used, shown, taught, checked, kept up, and easy to read."""

from __future__ import annotations

import functools
import itertools
import re
from pathlib import Path

import pytest

from sendoff.asbuilt.resolve import as_built
from sendoff.catalogue.load import Catalogue, load
from sendoff.catalogue.references import candidates
from sendoff.catalogue.schema import Card
from sendoff.catalogue.walk_texts import texts_of
from tests.cards.reading_ease import Counts, counts, flesch_kincaid_grade, syllables_of, szigriszt

QUILLBACK = Path(__file__).parents[2] / "examples" / "quillback"
GRADE_MOST = 8.0
FAIRLY_EASY = 65.0
"""Edge of "fairly easy" on the INFLESZ scale (Barrio-Cantalejo 2008)."""
SHARED_MOST = 0.6
GRAVE = {"danger", "warning"}


@functools.cache
def catalogue() -> Catalogue:
    return load(QUILLBACK / "catalogue")


@functools.cache
def shown() -> frozenset[str]:
    """Kinds fitted on the unit of some demo sheet."""
    found = catalogue()
    sheets = sorted((QUILLBACK / "sheets").glob("*.toml"))
    return frozenset(part.card for sheet in sheets for part in as_built(sheet, found).parts)


KINDS = sorted(path.stem for path in (QUILLBACK / "catalogue" / "cards").glob("*/*.toml"))
every_kind = pytest.mark.parametrize("kind", KINDS)


def texts(card: Card, language: str) -> list[str]:
    return [text[language] for _, text in texts_of(card)]


def sentences(card: Card, language: str) -> set[str]:
    """Whole sentences of a card, without case, signs and numbers; one word alone says nothing of its own."""
    found = {
        re.sub(r"[^\w ]+", "", sentence).strip().lower()
        for text in texts(card, language)
        for sentence in re.split(r"[.!?:;]+(?:\s|$)", text)
    }
    return {sentence for sentence in found if " " in sentence}


@every_kind
def test_a_kind_is_used_by_a_type(kind: str) -> None:
    used = {
        reference.partition("/")[0]
        for trailer in catalogue().types.values()
        for slot in trailer.slots
        for reference in candidates(trailer, slot)
    }
    assert kind in used


@every_kind
def test_a_kind_is_on_the_unit_of_a_demo_sheet(kind: str) -> None:
    assert kind in shown()


@every_kind
def test_a_kind_is_taught_checked_kept_up_and_put_right(kind: str) -> None:
    card = catalogue().cards[kind]
    assert len(card.steps) >= 3 or card.passive is not None
    assert card.checks
    assert card.upkeep
    assert card.troubles


@every_kind
def test_what_can_hurt_has_its_caution(kind: str) -> None:
    """Where a wrong answer can hurt badly, or a check is one of safety, the card warns of something."""
    card = catalogue().cards[kind]
    hurts = any(question.hurts in GRAVE for question in card.show_me) or any(c.safety for c in card.checks)
    assert card.cautions or not hurts


@every_kind
def test_english_is_read_at_grade_eight_or_below(kind: str) -> None:
    assert flesch_kincaid_grade(texts(catalogue().cards[kind], "en")) <= GRADE_MOST


@every_kind
def test_spanish_is_fairly_easy_or_easier(kind: str) -> None:
    assert szigriszt(texts(catalogue().cards[kind], "es")) >= FAIRLY_EASY


@pytest.mark.parametrize("language", ["en", "es"])
def test_no_two_kinds_share_more_than_three_fifths_of_their_sentences(language: str) -> None:
    said = {kind: sentences(catalogue().cards[kind], language) for kind in KINDS}
    for one, other in itertools.combinations(KINDS, 2):
        shared = len(said[one] & said[other]) / min(len(said[one]), len(said[other]))
        assert shared <= SHARED_MOST, (one, other, shared)


# ── the formulas themselves ─────────────────────────────────────────────────────────────────────────────────────────


def test_the_spanish_formula_gives_its_worked_value(monkeypatch: pytest.MonkeyPatch) -> None:
    """100 words, 5 sentences, 200 syllables: 206.835 - 62.3 * 2 - 20 = 62.235 (Szigriszt-Pazos 1993)."""
    monkeypatch.setattr("tests.cards.reading_ease.counts", lambda _texts, _language: Counts(5, 100, 200))
    assert szigriszt([]) == pytest.approx(62.235)


def test_the_english_formula_gives_the_grade_that_goes_with_a_reading_ease(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """16 words a sentence at a reading ease of 59.5 is grade 8.94; 18.7 at 47.6 is 11.27: both formulas solved for
    syllables, posted statistics of a word processor as inputs (Flesch 1948; Kincaid and others 1975)."""
    for words, ease, grade in ((16.0, 59.5, 8.94), (18.7, 47.6, 11.27)):
        syllables = (206.835 - 1.015 * words - ease) / 84.6  # per word, from Flesch's reading ease
        made = Counts(10, round(words * 10), syllables * round(words * 10))  # type: ignore[arg-type]
        monkeypatch.setattr("tests.cards.reading_ease.counts", lambda _t, _l, made=made: made)
        assert flesch_kincaid_grade([]) == pytest.approx(grade, abs=0.01)


@pytest.mark.parametrize(
    ("word", "syllables"),
    [
        ("brake", 1), ("trailer", 2), ("hydraulic", 3), ("battery", 3), ("breakaway", 3), ("loaded", 2), ("pulled", 1),
        ("edges", 2), ("table", 2), ("axle", 2), ("measure", 2), ("area", 3), ("people", 2), ("straighten", 2),
        ("stored", 1), ("nobody", 3), ("holes", 1), ("station", 2),
    ],
)  # fmt: skip
def test_english_syllables_as_a_dictionary_parts_them(word: str, syllables: int) -> None:
    assert syllables_of(word, "en") == syllables


@pytest.mark.parametrize(
    ("word", "syllables"),
    [
        ("remolque", 3), ("camioneta", 4), ("batería", 4), ("guía", 2), ("caído", 3), ("quinta", 2), ("aceite", 3),
        ("maíz", 2), ("siguiente", 3), ("agua", 2), ("cigüeñal", 3), ("rey", 1), ("muy", 1), ("ahí", 2), ("lee", 2),
        ("presión", 2), ("zanahoria", 4), ("peor", 2),
    ],
)  # fmt: skip
def test_spanish_syllables_as_its_spelling_rules_part_them(word: str, syllables: int) -> None:
    assert syllables_of(word, "es") == syllables


def test_placeholders_and_numbers_count_as_one_short_word() -> None:
    assert counts(["Turn to {torque}, 3 times."], "en") == Counts(1, 5, 5)
