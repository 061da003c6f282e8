"""Show-me questions: from this unit's own numbers and sequences, what can hurt most first, at most twelve.

Wrong answers are named mistakes that people really make, computed from the unit and its cards, never typed numbers.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from typing import Final

from sendoff import display, units
from sendoff.asbuilt.unit import FittedPart, Value
from sendoff.briefing.filling import Filler
from sendoff.briefing.model import Question
from sendoff.briefing.outline import Outline
from sendoff.calc.tires.pressure import tire_pressure_at_temperature
from sendoff.catalogue.fields import SIGNAL_WORDS
from sendoff.catalogue.schema import Card, ShowMe
from sendoff.phrases import say

MOST: Final = 12
MOST_A_CARD: Final = 2
MOST_ANSWERS: Final = 4
COLD_K: Final = 288.15
HOT_K: Final = 318.15
"""A tire set at 15 °C and read 30 K warmer after a run: the mistake is to take that reading for the cold one."""
KPA_IN_PSI: Final = float(units.FACTORS["pressure"]["psi"] / units.FACTORS["pressure"]["kPa"])


def of_unit(
    parts: tuple[FittedPart, ...],
    cards: Mapping[str, Card],
    filler: Filler,
    station_of: Mapping[str, int],
    walk: Outline,
) -> tuple[Question, ...]:
    """Return the questions of a unit, those first whose wrong answer can hurt most."""
    found = []
    for part in parts:
        card = cards[part.card]
        made = [
            question
            for seed in card.show_me
            if walk.says(part.slot, "show_me", seed)
            and (question := _question(seed, part, card, filler, station_of[part.slot])) is not None
        ]
        made.sort(key=lambda question: SIGNAL_WORDS.index(question.hurts))
        found += made[:MOST_A_CARD]
    found.sort(key=lambda question: (SIGNAL_WORDS.index(question.hurts), question.station))
    return tuple(found[:MOST])


def _question(seed: ShowMe, part: FittedPart, card: Card, filler: Filler, station: int) -> Question | None:
    right, wrong = _values(seed, part, card, filler) if seed.ask else _orders(seed, part, card, filler)
    answers = {right: ""}
    for answer, mistake in wrong:
        if len(answers) < MOST_ANSWERS:
            answers.setdefault(answer, mistake)
    if len(answers) < 2:
        return None
    key = f"{part.slot}:{seed.id}"
    order = sorted(
        answers,
        key=lambda answer: hashlib.sha256(f"{filler.unit.public_id} {key} {answer}".encode()).digest(),
    )
    mistakes = tuple(
        say(f"mistake.{answers[answer]}", filler.language) if answers[answer] else "" for answer in order
    )
    return Question(
        key, station, seed.hurts, filler.fill(seed.say, part), tuple(order), order.index(right), mistakes
    )


def _values(seed: ShowMe, part: FittedPart, card: Card, filler: Filler) -> tuple[str, list[tuple[str, str]]]:
    """Return the right value and the wrong ones with their mistakes."""
    value = part.values[str(seed.ask)]
    right = str(filler.show(value))
    wrong: list[tuple[str, str]] = []
    for mistake in seed.wrong:
        wrong += [
            (answer, mistake)
            for answer in _mistaken(mistake, value, str(seed.ask), part, card, filler)
            if answer != right
        ]
    return right, wrong


def _mistaken(
    mistake: str, value: Value, name: str, part: FittedPart, card: Card, filler: Filler
) -> Iterator[str]:
    if mistake == "other_variants":
        for other, variant in card.variants.items():
            raw = variant.values.get(name)
            if other != part.variant and raw is not None:
                yield _raw(raw, value, filler)
    elif value.si is None:
        return
    elif mistake == "read_hot" and value.quantity == "pressure":
        yield _shown(value, tire_pressure_at_temperature(value.si, COLD_K, HOT_K), filler)
    elif mistake == "metric_taken_for_us" and value.quantity == "pressure":
        yield _shown(value, value.si * (1 / KPA_IN_PSI if filler.units == "metric" else KPA_IN_PSI), filler)
    elif mistake == "half":
        yield _shown(value, value.si / 2, filler)
    elif mistake == "double":
        yield _shown(value, value.si * 2, filler)


def _raw(raw: object, value: Value, filler: Filler) -> str:
    if isinstance(raw, dict):
        return str(raw[filler.language])
    if isinstance(raw, str) and value.quantity not in {"text", "count"}:
        quantity = units.parse(raw, value.quantity)
        return str(display.show(value.quantity, quantity.si, filler.units, value.role, quantity.given))
    return str(raw)


def _shown(value: Value, si: float, filler: Filler) -> str:
    """Return a mistaken figure in the unit the right one is shown in."""
    unit = filler.show(value).unit
    for sign, name in (("°F", "degF"), ("°C", "degC")):
        unit = name if unit == sign else unit
    known = unit in units.units_of(value.quantity)
    return str(display.show(value.quantity, si, filler.units, value.role, unit=unit if known else None))


def _orders(seed: ShowMe, part: FittedPart, card: Card, filler: Filler) -> tuple[str, list[tuple[str, str]]]:
    """Return the right order of steps and wrong ones, each as numbered lines."""
    said = {step.id: filler.fill(step.say, part) for step in card.steps}
    right = [said[step] for step in seed.order]
    orders = {
        "next_step_first": [right[1], right[0], *right[2:]],
        "steps_swapped": [*right[:-2], right[-1], right[-2]],
        "last_step_first": [right[-1], *right[:-1]],
    }
    wrong: list[tuple[str, str]] = [
        (_lines(orders[mistake]), mistake)
        for mistake in seed.wrong or ("next_step_first", "last_step_first")
        if mistake in orders
    ]
    return _lines(right), wrong


def _lines(steps: list[str]) -> str:
    return "\n".join(f"{number}. {step}" for number, step in enumerate(steps, start=1))
