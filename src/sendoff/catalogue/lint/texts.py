"""Texts of cards, types and sentences: languages, placeholders, and words that are never said."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Final

from sendoff.catalogue.load import Catalogue
from sendoff.catalogue.references import candidates
from sendoff.catalogue.schema import Card
from sendoff.catalogue.walk_texts import texts_of
from sendoff.errors import Fault, shown

PLACEHOLDER: Final = re.compile(r"\{([^{}]*)\}")
BUILT_IN: Final = frozenset({"count", "unit", "telephone"})
"""Placeholders every text may use: places of this slot, the yard's number of the unit, the yard's telephone."""

_FORBIDDEN: Final = {
    "en": re.compile(r"\b(?:un)?safe(?:ly|r|st)?\b", re.IGNORECASE),
    "es": re.compile(
        r"\b(?:es|está|son|están|queda|quedan|más|muy|totalmente)\s+segur[oa]s?\b|\bsin peligro\b",
        re.IGNORECASE,
    ),
}
_PIN: Final = re.compile(r"(?:\b(?P<before>[a-z]+)[\s-]+)?\bpins?\b(?:\s+(?P<after>[a-z]+))?", re.IGNORECASE)
_PIN_BEFORE: Final = frozenset("lock breakaway latch hinge cotter clevis hitch retaining release".split())
_PIN_AFTER: Final = frozenset({"weight", "share"})


def faults(catalogue: Catalogue) -> list[Fault]:
    """Return every faulty text of the catalogue."""
    found: list[Fault] = []
    for name, card in sorted(catalogue.cards.items()):
        file = catalogue.files[f"card:{name}"]
        known = _known_placeholders(catalogue, card)
        for key, text in texts_of(card):
            found += [
                *_languages(text, file, key),
                *_words(text, file, key),
                *_placeholders(text, known, file, key),
            ]
    everywhere = _slot_values(catalogue) | BUILT_IN
    for name, trailer in sorted(catalogue.types.items()):
        file = catalogue.files[f"type:{name}"]
        for key, text in texts_of(trailer):
            found += [
                *_languages(text, file, key),
                *_words(text, file, key),
                *_placeholders(text, everywhere, file, key),
            ]
    for key, text in texts_of(catalogue.sentences):
        found += [*_languages(text, "sentences.toml", key), *_words(text, "sentences.toml", key)]
        found += _placeholders(text, everywhere, "sentences.toml", key)
    return found


def _slot_values(catalogue: Catalogue) -> set[str]:
    """Return every `slot.value` that some part filling the slot gives."""
    return {
        f"{slot}.{value}"
        for trailer in catalogue.types.values()
        for slot in trailer.slots
        for reference in candidates(trailer, slot)
        for value in catalogue.cards[reference.partition("/")[0]].sure_values
    }


def _known_placeholders(catalogue: Catalogue, card: Card) -> set[str]:
    return set(card.sure_values) | _slot_values(catalogue) | BUILT_IN


def _languages(text: Mapping[str, str], file: str, key: str) -> Iterator[Fault]:
    wanted = {language: sorted(PLACEHOLDER.findall(words)) for language, words in text.items()}
    if len({tuple(names) for names in wanted.values()}) > 1:
        told = "; ".join(f"{language}: {', '.join(names) or 'none'}" for language, names in wanted.items())
        yield Fault(
            file, key, told, "the languages do not use the same placeholders", "Use the same ones in each."
        )


def _placeholders(text: Mapping[str, str], known: set[str], file: str, key: str) -> Iterator[Fault]:
    for name in dict.fromkeys(name for words in text.values() for name in PLACEHOLDER.findall(words)):
        if name not in known:
            yield Fault(
                file,
                key,
                f"{{{name}}}",
                "no such value can be put in",
                "Use a value of this card, slot.value, {count}, {unit} or {telephone}.",
            )
    if any(
        PLACEHOLDER.sub("", words).count("{") or PLACEHOLDER.sub("", words).count("}")
        for words in text.values()
    ):
        yield Fault(
            file, key, "", "a brace stands alone", "Close the placeholder, or write the text without braces."
        )


def _words(text: Mapping[str, str], file: str, key: str) -> Iterator[Fault]:
    for language, words in text.items():
        forbidden = _FORBIDDEN.get(language)
        if forbidden and (found := forbidden.search(words)):
            yield Fault(
                file,
                f"{key}.{language}",
                found[0],
                "that is never said of a unit",
                "Say which limit holds, or what to do.",
            )
    for found in _PIN.finditer(PLACEHOLDER.sub(" ", text.get("en", ""))):
        before, after = (found["before"] or "").lower(), (found["after"] or "").lower()
        if before not in _PIN_BEFORE and after not in _PIN_AFTER:
            yield Fault(
                file,
                f"{key}.en",
                shown(found[0].strip()),
                "a bare 'pin' is read in five ways",
                "Say lock pin, breakaway pin, hinge pin, pin weight …",
            )
