"""What `sendoff deck` asks and prints: one unit, one cargo, one question."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final, Literal

from sendoff import units as unit_system
from sendoff.asbuilt.resolve import as_built
from sendoff.calc.deck_plan import Placement, Trips
from sendoff.catalogue.load import find_folder, load
from sendoff.errors import THE_SHEET, CannotWrite, Fault, FaultyInput
from sendoff.findings.all_limits import truck_of
from sendoff.findings.deck import case as cases
from sendoff.findings.deck.answer import UNDECIDED, DeckAnswer, as_given, choose_some, place_all, take_trips
from sendoff.findings.deck.case import DeckCase
from sendoff.findings.deck.record import record_of
from sendoff.findings.deck.telling import Teller, ToldDeck
from sendoff.findings.telling import Told
from sendoff.phrases import say
from sendoff.units import System

WIDEST: Final = 60
NOTHING_FITS: Final = 1


@dataclass(frozen=True, slots=True)
class Wanted:
    """Everything that was said on the command line."""

    sheet: Path
    cargo: Path | None
    truck: Path | None
    catalogue: Path | None
    heavier: tuple[str, ...]
    drops: str | None
    way: str | None
    place: tuple[str, ...]
    height: str | None
    law: Literal["us", "none"]
    language: str | None
    units: System | None
    choose: bool = field(kw_only=True)
    trips: bool = field(kw_only=True)
    code: Literal["auto", "plain"] = field(kw_only=True)


@dataclass(frozen=True, slots=True)
class Said:
    """The answers, ready to be printed, written as JSON or drawn."""

    answers: tuple[DeckAnswer, ...]
    """One; several for several trips; none where nothing fits, even alone."""
    case: DeckCase
    language: str
    system: System
    heading: tuple[str, ...] = ()
    trips: Trips | None = None
    undecided: bool = False
    """Whether time ran out before there was an answer to tell."""

    @property
    def exit_code(self) -> int:
        """The gravest of all answers; 1 where something rides on no trip."""
        codes = {found.exit_code for found in self.answers}
        if self.undecided:
            codes.add(UNDECIDED)
        elif not self.answers or (self.trips is not None and self.trips.stranded):
            codes.add(NOTHING_FITS)
        return next((code for code in (1, 3) if code in codes), 0)

    def lines(self) -> list[str]:
        """Return what is printed."""
        lines = list(self.heading)
        for number, found in enumerate(self.answers, start=1):
            teller = Teller(found, self.language, self.system)
            if self.trips is not None:
                lines += [
                    "",
                    teller.say("trip", n=number, items=teller.items(self.trips.trips[number - 1].items)),
                ]
            lines += list(lines_of(teller.told(), teller))
        return lines

    def data(self) -> dict[str, Any]:
        """Return it as plain JSON."""
        told = [record_of(found, Teller(found, self.language, self.system)) for found in self.answers]
        if self.trips is None:
            answer = "not_decided" if self.undecided else "does_not_fit"
            return told[0] if told else {"version": 1, "unit": self.case.unit.unit, "answer": answer}
        return {
            "version": 1,
            "unit": self.case.unit.unit,
            "trips": told,
            "stranded": list(self.trips.stranded),
            "trips_at_least": self.trips.count_bound,
            "proved": self.trips.proved,
        }

    def draw(self, path: Path) -> bool:
        """Write the drawing of the (first) answer; return whether there was anything to draw."""
        from sendoff.drawings.deck_plan import deck_drawing

        if not self.answers or not self.answers[0].plan.placements:
            return False
        svg = deck_drawing(self.answers[0], self.language, self.system).svg
        try:
            path.write_text(svg, encoding="utf-8")
        except OSError as error:
            raise CannotWrite(
                f"{path}: cannot be written ({error.strerror}). Name a file you may write."
            ) from None
        return True


def tell(wanted: Wanted, go_on: Callable[[], bool], compiling: Callable[[], None]) -> Said:
    """Answer what was asked."""
    loaded = load(find_folder(wanted.catalogue, wanted.sheet))
    unit = as_built(wanted.sheet, loaded)
    language, system = wanted.language or unit.reader.language, wanted.units or unit.reader.units
    found = cases.cargo_file(unit, loaded, wanted.cargo)
    if found is None:
        raise FaultyInput(Fault(THE_SHEET, "cargo", "", "no cargo is named", "Name one with --cargo FILE."))
    cargo, file = found
    if wanted.drops is not None:
        first_off = tuple(name.strip() for name in wanted.drops.split(",") if name.strip())
        cargo = cases.order_of_drops(cargo, first_off)
    many = wanted.choose or wanted.trips
    case = cases.case_of(
        unit,
        cargo,
        truck_of(unit, loaded, wanted.truck),
        file=file,
        law=wanted.law,
        highest_m=_measure("--height", wanted.height, "length") if wanted.height is not None else None,
        choosing=many,
    )
    if wanted.way is not None:
        case = case.only(wanted.way)
    case, heading = _what_ifs(case, wanted.heavier, language, system)
    if wanted.trips:
        return _trips(case, language, system, heading, go_on, compiling, wanted.code)
    if wanted.place:
        way, placements = _placements(case, wanted.place)
        return Said((as_given(case, way, placements, language),), case, language, system, heading)
    if wanted.choose:
        chosen = choose_some(case, language, go_on=go_on, compiling=compiling, code=wanted.code)
        if chosen is None:
            late = not go_on()
            told = say("deck.not_decided" if late else "deck.none_fits", language)
            return Said((), case, language, system, (*heading, told), undecided=late)
        return Said((chosen,), case, language, system, heading)
    answer = place_all(case, language, go_on=go_on, compiling=compiling, code=wanted.code)
    return Said((answer,), case, language, system, heading)


def _measure(option: str, text: str, kind: str) -> float:
    try:
        return unit_system.parse(text, kind).si
    except unit_system.UnitError as error:
        raise FaultyInput(Fault(option, "", text, error.problem, error.cure)) from None


def _what_ifs(
    case: DeckCase, asked: Sequence[str], language: str, system: System
) -> tuple[DeckCase, tuple[str, ...]]:
    from sendoff.display import show

    heading = []
    for text in asked:
        item, equals, mass = text.partition("=")
        if not equals:
            raise FaultyInput(
                Fault(
                    "--heavier", "", text, "an item and a mass are expected", 'Write it as "pickup=400 lb".'
                )
            )
        by_kg = _measure("--heavier", mass, "mass")
        case = cases.heavier(case, item.strip(), by_kg)
        key = "deck.what_if" if by_kg >= 0 else "deck.what_if_lighter"
        heading.append(
            say(key, language, item=case.item_name(item.strip()), by=show("mass", abs(by_kg), system))
        )
    return case, tuple(heading)


def _trips(
    case: DeckCase,
    language: str,
    system: System,
    heading: tuple[str, ...],
    go_on: Callable[[], bool],
    compiling: Callable[[], None],
    code: Literal["auto", "plain"],
) -> Said:
    found, answers = take_trips(case, language, go_on=go_on, compiling=compiling, code=code)
    lines = [*heading, say("deck.trips", language, n=len(found.trips))]
    lines.append(
        say("deck.trips_proved", language)
        if found.proved
        else say("deck.trips_bound", language, n=found.count_bound)
    )
    late = not go_on()
    if found.stranded:
        names = ", ".join(case.item_name(name) for name in found.stranded)
        lines.append(say("deck.not_placed" if late else "deck.stranded", language, items=names))
    undecided = late and bool(found.stranded)
    return Said(answers, case, language, system, tuple(lines), found, undecided=undecided)


def _placements(case: DeckCase, asked: Sequence[str]) -> tuple[str, list[Placement]]:
    """Read places as given; measured from the front of a deck to an item's end toward the truck."""
    way = case.first_way
    problem = case.problems[way]
    surfaces = {zone.name: deck for deck in problem.decks for zone in deck.zones}
    hindmost = max(problem.decks, key=lambda deck: deck.last_m)
    ids = [item.name for item in problem.items]
    found = []
    for text in asked:
        item, equals, rest = text.partition("=")
        at, *more = [piece.strip() for piece in rest.split(",")]
        if not equals or item.strip() not in ids:
            cure = (
                f'Write it as "{ids[0]}=3 ft 2 in" or "{ids[0]}=3 ft 2 in,backward"; items: {", ".join(ids)}.'
            )
            raise FaultyInput(Fault("--place", "", text, "an item and its place are expected", cure))
        deck, facing = hindmost, "forward"
        for word in more:
            if word in {"forward", "backward"}:
                facing = word
            elif word in surfaces:
                deck = surfaces[word]
            else:
                cure = f"After the place comes forward, backward or a deck: {', '.join(surfaces)}."
                raise FaultyInput(Fault("--place", "", word, "that is no deck and no way round", cure))
        front = case.deck_front_m(deck.name) + _measure("--place", at, "length")
        found.append(
            Placement(item.strip(), deck.name, "backward" if facing == "backward" else "forward", front)
        )
    return way, found


# ── lines ───────────────────────────────────────────────────────────────────────────────────────────────────────────


def lines_of(told: ToldDeck, teller: Teller) -> Iterator[str]:
    """Yield an answer line by line: what it is, where all stands, the limits, steps, how far it holds, cautions."""
    yield told.title
    yield from told.headline
    yield from _chosen(teller)
    if told.conflict:
        yield from ("", *told.conflict)
    if told.repairs:
        yield from ("", f"{teller.say('repairs')}:", *(f"  {line}" for line in told.repairs))
    if told.places:
        yield from ("", teller.say("places") if told.is_plan else teller.say("least_bad"))
        yield from _places(told, teller)
    if told.findings:
        yield from ("", teller.say("limits"), *_findings(told.findings))
    for key, lines in (
        ("steps", told.steps),
        ("stops", told.stops),
        ("robust", told.robust),
        ("choices", told.choices),
    ):
        if lines:
            yield from ("", teller.say(key), *(f"  {line}" for line in lines))
    yield ""
    for signal, hazard, consequence, avoid in told.cautions:
        yield f"{signal}: {hazard} {consequence} {avoid}"
    yield f"{teller.not_checked}: {'; '.join(told.not_checked)}."
    yield told.authority
    yield ""


def _chosen(teller: Teller) -> Iterator[str]:
    chosen = teller.found.chosen
    if chosen is None:
        return
    mass = teller.mass(sum(item.mass_kg for item in teller.found.problem.items))
    yield teller.say("chosen", items=teller.items(chosen.items), mass=mass)
    stays = [item.id for item in teller.case.cargo.items if item.id not in chosen.items]
    if stays:
        yield teller.say("stays", items=teller.items(stays))
    if chosen.proved:
        yield teller.say("chosen_proved")
    else:
        yield teller.say("chosen_bound", worth=f"{chosen.worth:.0f}", bound=f"{chosen.bound:.0f}")


def _places(told: ToldDeck, teller: Teller) -> Iterator[str]:
    width = min(max(len(place.name) for place in told.places), WIDEST)
    ways = max(len(place.facing) for place in told.places)
    for place in told.places:
        step = teller.found.plan.loading[place.number - 1]
        yield (
            f"  {place.number}  {place.name:<{width}}  {place.mass:>10}  {place.facing:<{ways}}  "
            f"{teller.where(step)}; {place.wheels}"
        )


def _findings(found: Sequence[Told]) -> Iterator[str]:
    width = min(max(len(line.name) for line in found), WIDEST)
    for line in found:
        demand = str(line.demand) if line.demand is not None else "?"
        yield f"  {line.name:<{width}}  {demand:>12}  / {line.limit!s:<16}  {line.word}, {line.margin}"
        yield from (f"      {note}" for note in line.notes)
