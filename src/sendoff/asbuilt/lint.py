"""Faults that show only for some legal combination of options: texts and orders that lean on a part left out there.

Combinations that fill all slots with the same cards are judged once.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from sendoff.asbuilt.fit import combinations, fit
from sendoff.catalogue.fields import Entry
from sendoff.catalogue.lint.texts import PLACEHOLDER
from sendoff.catalogue.load import Catalogue
from sendoff.catalogue.references import acts_of
from sendoff.catalogue.schema import Card, TrailerType
from sendoff.catalogue.walk_texts import texts_of
from sendoff.errors import Fault

SENTENCES = 10


@dataclass(frozen=True, slots=True)
class Need:
    """Something one entry of a card leans on: a value or an act of another slot, or the slot being filled at all."""

    key: str
    slot: str
    value: str | None
    act: str | None
    if_fitted: tuple[str, ...]
    unless_fitted: tuple[str, ...]


def faults(catalogue: Catalogue) -> list[Fault]:
    """Return every reference that some legal combination leaves dangling, and units without ten sentences."""
    found: dict[tuple[str, str, str], Fault] = {}
    needs = {name: tuple(_needs(card)) for name, card in catalogue.cards.items()}
    for name, trailer in sorted(catalogue.types.items()):
        for fitted, options in makeups(trailer):
            for fault in (
                *_dangling(fitted, needs, catalogue, options),
                *_sentences(fitted, catalogue, name, options),
            ):
                found.setdefault((fault.file, fault.key, fault.problem), fault)
    return list(found.values())


def makeups(trailer: TrailerType) -> Iterator[tuple[dict[str, str], Sequence[str]]]:
    """Yield each different filling of the slots by cards, with the first options that give it."""
    seen: set[tuple[tuple[str, str], ...]] = set()
    for options in combinations(trailer):
        fitted = {slot: part.reference.partition("/")[0] for slot, part in fit(trailer, options).items()}
        key = tuple(fitted.items())
        if key not in seen:
            seen.add(key)
            yield fitted, sorted(options)


def holds(conditions: Sequence[str], fitted: Mapping[str, str]) -> list[bool]:
    """Tell of each condition ("slot" or "slot=card") whether it holds."""
    split = [condition.partition("=") for condition in conditions]
    return [slot in fitted and (not equals or fitted[slot] == card) for slot, equals, card in split]


def _needs(card: Card) -> Iterator[Need]:
    for slot in card.needs:
        yield Need("needs", slot, None, None, (), ())
    for name in ("steps", "cautions", "checks", "upkeep", "troubles", "show_me", "handed_over", "lines"):
        for item in getattr(card, name):
            yield from _needs_of(item, f"{name}.{item.id}")
    for key, text in texts_of(card):
        if not key.startswith(
            ("steps.", "cautions.", "checks.", "upkeep.", "troubles.", "show_me.", "handed_over.", "lines.")
        ):
            yield from (_value_need(placeholder, key, (), ()) for placeholder in _outside(text["en"]))
    for check in card.checks:
        if check.target and "." in check.target:
            yield _value_need(check.target, f"checks.{check.id}.target", check.if_fitted, check.unless_fitted)


def _needs_of(item: Entry, key: str) -> Iterator[Need]:
    texts = [text["en"] for _, text in texts_of(item)]
    for text in texts:
        yield from (_value_need(name, key, item.if_fitted, item.unless_fitted) for name in _outside(text))
    for reference in (*getattr(item, "needs_before", ()), *getattr(item, "first", ())):
        slot, colon, act = reference.rpartition(":")
        if colon and not reference.endswith("?"):
            yield Need(key, slot, None, act, item.if_fitted, item.unless_fitted)


def _outside(text: str) -> list[str]:
    return [name for name in PLACEHOLDER.findall(text) if "." in name]


def _value_need(name: str, key: str, if_fitted: tuple[str, ...], unless_fitted: tuple[str, ...]) -> Need:
    slot, _, value = name.partition(".")
    return Need(key, slot, value, None, if_fitted, unless_fitted)


def _dangling(
    fitted: Mapping[str, str],
    needs: Mapping[str, tuple[Need, ...]],
    catalogue: Catalogue,
    options: Sequence[str],
) -> Iterator[Fault]:
    told = ", ".join(options) or "no options"
    for name in sorted(set(fitted.values())):
        file = catalogue.files[f"card:{name}"]
        for need in needs[name]:
            if not all(holds(need.if_fitted, fitted)) or any(holds(need.unless_fitted, fitted)):
                continue
            filler = fitted.get(need.slot)
            cure = f'Add if_fitted = ["{need.slot}"], or a ? to the reference, or fill the slot.'
            if filler is None:
                yield Fault(
                    file,
                    need.key,
                    need.slot,
                    f"it leans on slot {need.slot}, which is empty with {told}",
                    cure,
                )
            elif need.value is not None and need.value not in catalogue.cards[filler].sure_values:
                yield Fault(
                    file,
                    need.key,
                    f"{need.slot}.{need.value}",
                    f"{filler}, fitted there with {told}, has no such value",
                    cure,
                )
            elif need.act is not None and need.act not in acts_of(catalogue.cards[filler]):
                yield Fault(
                    file,
                    need.key,
                    f"{need.slot}:{need.act}",
                    f"{filler}, fitted there with {told}, has no such act",
                    cure,
                )


def _sentences(
    fitted: Mapping[str, str], catalogue: Catalogue, name: str, options: Sequence[str]
) -> Iterator[Fault]:
    told: dict[str, str] = {}
    for sentence in catalogue.sentences.sentences:
        if (
            sentence.id not in told
            and all(holds(sentence.if_fitted, fitted))
            and not any(holds(sentence.unless_fitted, fitted))
        ):
            told[sentence.id] = sentence.say["en"]
            for placeholder in _outside(sentence.say["en"]):
                slot, _, value = placeholder.partition(".")
                if slot not in fitted or value not in catalogue.cards[fitted[slot]].sure_values:
                    yield Fault(
                        "sentences.toml",
                        sentence.id,
                        placeholder,
                        f"{name} has no such value with {', '.join(options) or 'no options'}",
                        f'Add if_fitted = ["{slot}"].',
                    )
    if len(told) != SENTENCES:
        yield Fault(
            "sentences.toml",
            "",
            str(len(told)),
            f"{name} with {', '.join(options) or 'no options'} does not get ten sentences",
            "Add or merge sentences.",
        )
