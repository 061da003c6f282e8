"""Upkeep lines of a unit, in words."""

from __future__ import annotations

from collections.abc import Iterator

from sendoff import display, units
from sendoff.asbuilt.unit import FittedPart
from sendoff.briefing.filling import Filler
from sendoff.briefing.model import UpkeepLine
from sendoff.briefing.outline import Outline
from sendoff.catalogue.schema import Card, Every
from sendoff.phrases import say


def of_part(
    part: FittedPart, card: Card, filler: Filler, station: int, walk: Outline
) -> Iterator[UpkeepLine]:
    """Yield the upkeep of a part."""
    for item in card.upkeep:
        if not walk.says(part.slot, "upkeep", item):
            continue
        every = item.every or Every()
        yield UpkeepLine(
            key=f"{part.slot}:{item.id}",
            station=station,
            part=part.name[filler.language],
            text=filler.fill(item.say, part),
            every=in_words(every, item.at_miles, filler),
            loads=every.loads,
            trips=every.trips,
            miles=every.miles,
            hours=every.hours,
            months=every.months,
            at_miles=item.at_miles,
        )


def in_words(every: Every, at_miles: tuple[int, ...], filler: Filler) -> str:
    """Return when an upkeep falls due, in words and in the reader's units."""
    language = filler.language
    pieces = []
    if at_miles:
        shown = [_distance(miles, filler) for miles in at_miles]
        numbers, unit = [number for number, _ in shown], shown[0][1]
        joined = (
            numbers[0]
            if len(numbers) == 1
            else f"{', '.join(numbers[:-1])} {say('every.and', language)} {numbers[-1]}"
        )
        pieces.append(say("every.first_miles", language, miles=f"{joined} {unit}"))
    for meter in ("loads", "trips", "hours", "months"):
        count = getattr(every, meter)
        if count is not None:
            pieces.append(say(f"every.{meter}_{1 if count == 1 else 'n'}", language, n=f"{count:,}"))
    if every.miles is not None:
        number, unit = _distance(every.miles, filler)
        key = "every.kilometers_n" if unit == "km" else "every.miles_n"
        pieces.append(say(key, language, n=number))
    if len(pieces) < 2:
        return "".join(pieces)
    return say("every.or", language, many=" · ".join(pieces))


def _distance(miles: int, filler: Filler) -> tuple[str, str]:
    meters = units.to_si(miles, "mi", "length")
    if filler.units == "us":
        return f"{miles:,}", "mi"
    kilometers = units.from_si(meters, "km", "length")
    step = 100 if kilometers >= 1000 else 10 if kilometers >= 100 else 1
    return display.figure(kilometers, step, "capacity"), "km"
