"""Making the briefing of a unit: texts of the cards and numbers of the unit, hung on the outline of its walk."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final, cast

from sendoff import display, units
from sendoff.asbuilt.unit import AsBuiltUnit, FittedPart
from sendoff.briefing import model, numbers, outline, questions, upkeep
from sendoff.briefing.filling import Filler
from sendoff.catalogue import schema
from sendoff.catalogue.fields import SIGNAL_WORDS
from sendoff.catalogue.load import Catalogue
from sendoff.display import Shown
from sendoff.phrases import say
from sendoff.units import System

LETTERS: Final = "abcdefghijklmnopqrstuvwxyz"


def standing(unit: AsBuiltUnit, cards: Mapping[str, schema.Card]) -> tuple[outline.Standing, ...]:
    """Return the parts of a unit as the outline needs them."""
    order = {station.id: position for position, station in enumerate(unit.stations)}
    found = []
    for part in unit.parts:
        places: dict[str, list[str]] = {}
        for place in sorted(part.places, key=lambda place: order[place.station]):
            places.setdefault(place.station, []).append(place.id)
        found.append(
            outline.Standing(
                part.slot, cards[part.card], {station: tuple(ids) for station, ids in places.items()}
            )
        )
    return tuple(found)


def brief(
    unit: AsBuiltUnit, catalogue: Catalogue, language: str | None = None, system: System | None = None
) -> model.Briefing:
    """Return everything said about a unit, in its reader's language and units unless others are asked for."""
    return _Maker(unit, catalogue, language or unit.reader.language, system or unit.reader.units).make()


class _Maker:
    """Holds what every part of the briefing needs while it is made."""

    def __init__(self, unit: AsBuiltUnit, catalogue: Catalogue, language: str, system: System) -> None:
        self.unit, self.catalogue, self.cards = unit, catalogue, catalogue.cards
        self.filler = Filler.of(unit, str(catalogue.yard.telephone), language, system)
        self.fitted = {part.slot: part.card for part in unit.parts}
        self.standing = {part.slot: part for part in standing(unit, self.cards)}
        self.walk = outline.outline(
            [(station.id, station.state) for station in unit.stations], tuple(self.standing.values())
        )
        self.number_of = {station.id: position for position, station in enumerate(unit.stations, start=1)}
        self.home = {slot: self.number_of[part.home] for slot, part in self.standing.items()}

    def make(self) -> model.Briefing:
        """Return the briefing."""
        stations = tuple(self._station(station.id) for station in self.unit.stations)
        return model.Briefing(
            unit=self.unit.unit,
            language=self.filler.language,
            units=self.filler.units,
            stations=stations,
            legs=tuple(self._leg(leg) for leg in self.walk.legs),
            numbers=numbers.sheet(self.unit, self.cards, self.filler),
            sentences=self._sentences(),
            questions=questions.of_unit(self.unit.parts, self.cards, self.filler, self.home, self.walk),
            upkeep=tuple(line for station in stations for line in station.upkeep),
            loose_items=tuple(self._loose_items()),
            lines=tuple(sorted(self._lines(), key=lambda line: (line.rank, line.station))),
        )

    def _station(self, station_id: str) -> model.Station:
        station = self.unit.station(station_id)
        parts = [cast("FittedPart", self.unit.part(slot)) for slot in station.slots]
        at_home = [part for part in parts if self.home[part.slot] == self.number_of[station_id]]
        acts = [
            act
            for leg in self.walk.legs
            for visit in leg.visits
            if visit.station == station_id
            for act in visit.acts
        ]
        cautions = [caution for part in at_home for caution in self._cautions(part)]
        return model.Station(
            number=self.number_of[station_id],
            id=station_id,
            name=station.name[self.filler.language],
            state=station.state,
            hands=max((act.hands for act in acts), default=1),
            twin=self.number_of[station.twin_of] if station.twin_of is not None and not at_home else None,
            parts=tuple(
                self._part(part, LETTERS[position], station_id) for position, part in enumerate(parts)
            ),
            cautions=tuple(sorted(cautions, key=lambda caution: SIGNAL_WORDS.index(caution.signal))),
            steps=tuple(self._step(act, station.state) for act in acts if act.what == "step"),
            checks=tuple(self._check(act) for act in acts if act.what == "check"),
            numbers=tuple(self._numbers(parts, at_home, station_id)),
            upkeep=tuple(
                line
                for part in at_home
                for line in upkeep.of_part(
                    part, self.cards[part.card], self.filler, self.number_of[station_id], self.walk
                )
            ),
            troubles=tuple(trouble for part in at_home for trouble in self._troubles(part)),
        )

    def _part(self, part: FittedPart, letter: str, station_id: str) -> model.PartSaid:
        language = self.filler.language
        card = self.cards[part.card]
        names = ", ".join(
            option.name[language] for option in self.unit.options if option.id in part.why.options
        )
        return model.PartSaid(
            slot=part.slot,
            letter=letter,
            name=part.name[language],
            variant=part.variant_name[language],
            what=self.filler.fill(card.what, part),
            why=say("why.option", language, names=names) if names else say("why.standard", language),
            passive=self.filler.fill(card.passive, part) if card.passive is not None else None,
            places=tuple(
                numbers.place_name(place.id, language) for place in part.places if place.station == station_id
            ),
        )

    def _cautions(self, part: FittedPart) -> Iterator[model.Caution]:
        language = self.filler.language
        for caution in self.cards[part.card].cautions:
            if self.walk.says(part.slot, "cautions", caution):
                words = caution.say
                told = {
                    field: self.filler.fill(
                        {code: str(getattr(text, field)) for code, text in words.items()}, part
                    )
                    for field in schema.CautionText.__struct_fields__
                }
                yield model.Caution(
                    f"{part.slot}:{caution.id}",
                    caution.signal,
                    say(f"signal.{caution.signal}", language),
                    **told,
                )

    def _step(self, act: outline.Act, station_state: str) -> model.Step:
        part = self.filler.by_slot[act.slot]
        step = next(step for step in self.cards[act.card].steps if step.id == act.id)
        return model.Step(
            f"{act.slot}:{act.id}",
            self.filler.fill(step.say, part),
            act.state,
            act.hands,
            act.state != station_state,
        )

    def _check(self, act: outline.Act) -> model.Check:
        part = self.filler.by_slot[act.slot]
        check = next(check for check in self.cards[act.card].checks if check.id == act.id)
        language = self.filler.language
        return model.Check(
            key=f"{act.slot}:{act.id}",
            text=self.filler.fill(check.say, part),
            part=part.name[language],
            how=check.how,
            state=act.state,
            hands=act.hands,
            target=self._target(check, part),
            minus=self._tolerance(check.minus, check),
            plus=self._tolerance(check.plus, check),
            tool=say(f"tool.{check.tool}", language) if check.tool is not None else None,
            safety=check.safety,
            stale_after_s=check.stale_after.si if check.stale_after is not None else None,
            places=tuple(numbers.place_name(place, language) for place in act.places),
        )

    def _target(self, check: schema.Check, part: FittedPart) -> Shown | None:
        if check.target is None:
            return None
        slot, dot, name = check.target.rpartition(".")
        holder = self.filler.by_slot.get(slot) if dot else part
        return self.filler.show(holder.values[name]) if holder is not None else None

    def _tolerance(self, given: str | None, check: schema.Check) -> Shown | None:
        if given is None or check.quantity is None:
            return None
        kind = "temperature_change" if check.quantity == "temperature" else check.quantity
        quantity = units.parse(given, kind)
        return display.show(kind, quantity.si, self.filler.units, "fact", quantity.given)

    def _numbers(
        self, parts: list[FittedPart], at_home: list[FittedPart], station_id: str
    ) -> Iterator[model.Number]:
        for part in at_home:
            yield from numbers.of_part(part, self.cards[part.card], self.filler)
        for part in parts:
            yield from numbers.marks_of_part(part, station_id, self.filler)

    def _troubles(self, part: FittedPart) -> Iterator[model.Trouble]:
        for trouble in self.cards[part.card].troubles:
            if self.walk.says(part.slot, "troubles", trouble):
                yield model.Trouble(
                    f"{part.slot}:{trouble.id}",
                    self.filler.fill(trouble.say, part),
                    self.filler.fill(trouble.look, part),
                )

    def _leg(self, leg: outline.Leg) -> model.Leg:
        visits = []
        for visit in leg.visits:
            station = self.unit.station(visit.station)
            visits.append(
                model.Visit(
                    station=self.number_of[visit.station],
                    name=station.name[self.filler.language],
                    steps=tuple(self._step(act, leg.state) for act in visit.acts if act.what == "step"),
                    checks=tuple(self._check(act) for act in visit.acts if act.what == "check"),
                )
            )
        return model.Leg(leg.state, say(f"state.{leg.state}", self.filler.language), tuple(visits))

    def _sentences(self) -> tuple[str, ...]:
        told: dict[str, str] = {}
        for sentence in self.catalogue.sentences.sentences:
            if sentence.id not in told and outline.applies(sentence, self.fitted):
                told[sentence.id] = self.filler.fill(sentence.say)
        return tuple(told.values())

    def _loose_items(self) -> Iterator[model.LooseItem]:
        for item in self.catalogue.types[self.unit.type].handed_over:
            if outline.applies(item, self.fitted):
                yield model.LooseItem(item.id, self.filler.fill(item.say), item.count)
        for part in self.unit.parts:
            for item in self.cards[part.card].handed_over:
                if self.walk.says(part.slot, "handed_over", item):
                    count = item.count * (len(part.places) if item.each == "place" else 1)
                    yield model.LooseItem(f"{part.slot}:{item.id}", self.filler.fill(item.say, part), count)

    def _lines(self) -> Iterator[model.PaperLine]:
        language = self.filler.language
        for part in self.unit.parts:
            for line in self.cards[part.card].lines:
                if self.walk.says(part.slot, "lines", line):
                    yield model.PaperLine(
                        f"{part.slot}:{line.id}",
                        line.paper,
                        line.rank,
                        self.home[part.slot],
                        part.name[language],
                        self.filler.fill(line.say, part),
                    )
