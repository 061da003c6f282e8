"""Every text of every variant of every card, in both languages and systems of units, on a unit that has it fitted."""

from __future__ import annotations

import datetime
import functools
import itertools
import re
from collections.abc import Iterator

from proofs.prove_combinations import opened
from sendoff.asbuilt.fit import combinations, fit, is_legal
from sendoff.asbuilt.resolve import resolve
from sendoff.asbuilt.sheet import BuildSheet, Collects, Owner
from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.brief import brief
from sendoff.briefing.model import Briefing
from sendoff.catalogue.fields import PlainText
from sendoff.catalogue.references import candidates
from sendoff.catalogue.schema import TrailerType

TITLE = "the texts of every variant fill on a unit that has it, in both languages and systems of units"
BRACES = re.compile(r"[{}]")
SENTENCES = 10
MOST_QUESTIONS = 12


@functools.cache
def first_fitting() -> dict[str, tuple[str, frozenset[str]]]:
    """Return for each `type slot=card/variant` a small legal set of options that fits it."""
    catalogue, _ = opened()
    found: dict[str, tuple[str, frozenset[str]]] = {}
    for name, trailer in sorted(catalogue.types.items()):
        wanted = {
            f"{name} {slot}={reference}" for slot in trailer.slots for reference in candidates(trailer, slot)
        }
        small = [frozenset[str](), *(_with_needs(trailer, option) for option in sorted(trailer.options))]
        legal = (options for options in small if is_legal(trailer, options))
        for options in itertools.chain(legal, combinations(trailer)):
            for slot, part in fit(trailer, options).items():
                found.setdefault(f"{name} {slot}={part.reference}", (name, options))
            if wanted <= found.keys():
                break
    return found


def _with_needs(trailer: TrailerType, option: str) -> frozenset[str]:
    """Return an option with all that it requires."""
    taken, left = set[str](), [option]
    while left:
        one = left.pop()
        if one not in taken:
            taken.add(one)
            left += trailer.options[one].requires
    return frozenset(taken)


def keys() -> list[str]:
    """Name a step for each variant in each slot of each type."""
    return sorted(first_fitting())


def unit_with(name: str, options: frozenset[str]) -> AsBuiltUnit:
    """Return a unit of a type with a set of options, owned by nobody."""
    catalogue, _ = opened()
    day = datetime.date(2026, 11, 25)
    sheet = BuildSheet(
        schema_version=1,
        unit=PlainText("PROOF-1"),
        public_id="23456789AB",
        type=name,
        options=tuple(sorted(options)),
        vin=PlainText("1X9SF081XTYKB4019"),
        built=day,
        owner=Owner(name=PlainText("Nobody")),
        collects=Collects(who="owner", on=day),
    )
    return resolve(sheet, {"options": sorted(options)}, catalogue, "proof")


def step(key: str) -> dict[str, int | float | str]:
    """Brief the unit in every language and system; hold what is said of the slot against its card."""
    catalogue, _ = opened()
    name, options = first_fitting()[key]
    slot, _, reference = key.partition(" ")[2].partition("=")
    unit = unit_with(name, options)
    card_id, _, variant = reference.partition("/")
    given = catalogue.cards[card_id].variants[variant].values
    said = 0
    for language in ("en", "es"):
        for system in ("us", "metric"):
            briefing = brief(unit, catalogue, language, system)
            texts = list(_texts(briefing))
            said += len(texts)
            assert not [text for text in texts if BRACES.search(text)], (
                f"{key}: a placeholder is left in {language}"
            )
            assert len(briefing.sentences) == SENTENCES, f"{key}: {len(briefing.sentences)} sentences"
            assert len(briefing.questions) <= MOST_QUESTIONS, f"{key}: {len(briefing.questions)} questions"
            numbers = {number.key for station in briefing.stations for number in station.numbers}
            missing = {f"{slot}.{value}" for value in given} - numbers
            assert not missing, f"{key}: these values are nowhere shown: {sorted(missing)}"
    return {"texts read": said}


def _texts(briefing: Briefing) -> Iterator[str]:
    for station in briefing.stations:
        for part in station.parts:
            yield from (part.name, part.what)
        yield from (step.text for step in station.steps)
        yield from (check.text for check in station.checks)
        for caution in station.cautions:
            yield from (caution.hazard, caution.consequence, caution.avoid)
        for trouble in station.troubles:
            yield from (trouble.see, trouble.look)
        yield from (line.text for line in station.upkeep)
        yield from (number.label for number in station.numbers)
    for question in briefing.questions:
        yield from (question.text, *question.answers)
    yield from briefing.sentences
    yield from (item.text for item in briefing.loose_items)


def conclude(figures: dict[str, dict[str, int | float | str]]) -> str:
    """Say how much was read."""
    texts = sum(int(figure["texts read"]) for figure in figures.values())
    return f"{len(figures)} variants in their slots, {texts:,} texts"
