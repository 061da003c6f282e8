"""The whole lint of a catalogue, and its last part: does the walk keep every order, whatever is fitted?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from sendoff.asbuilt import lint as combination_lint
from sendoff.asbuilt.lap import lap_of_slots
from sendoff.briefing.outline import Standing, broken_orders, outline
from sendoff.catalogue.lint import lint
from sendoff.catalogue.load import Catalogue
from sendoff.catalogue.schema import TrailerType
from sendoff.errors import Fault
from sendoff.phrases import load as load_phrases


def lint_everything(catalogue: Catalogue) -> list[Fault]:
    """Return every fault of a catalogue; faults of combinations are looked for once the simple ones are mended."""
    faults = [*lint(catalogue), *_tools(catalogue)]
    return faults or [*combination_lint.faults(catalogue), *_orders(catalogue)]


def _tools(catalogue: Catalogue) -> Iterator[Fault]:
    known = load_phrases()
    for name, card in sorted(catalogue.cards.items()):
        for check in card.checks:
            if check.tool is not None and f"tool.{check.tool}" not in known:
                tools = ", ".join(key.removeprefix("tool.") for key in known if key.startswith("tool."))
                yield Fault(
                    catalogue.files[f"card:{name}"],
                    f"check.{check.id}.tool",
                    check.tool,
                    "no such tool is known",
                    f"Use one of: {tools}.",
                )


def walk_of(
    trailer: TrailerType, fitted: Mapping[str, str], catalogue: Catalogue
) -> tuple[list[Standing], list[str]]:
    """Return the parts of a make-up as the outline needs them, and its stations in lap order."""
    stations, places = lap_of_slots(trailer, fitted, catalogue.yard.walk)
    return [Standing(slot, catalogue.cards[card], places[slot]) for slot, card in fitted.items()], stations


def _orders(catalogue: Catalogue) -> Iterator[Fault]:
    told: set[tuple[str, str]] = set()
    for name, trailer in sorted(catalogue.types.items()):
        rules = [(rule.before, rule.after) for rule in trailer.orders]
        for fitted, options in combination_lint.makeups(trailer):
            parts, stations = walk_of(trailer, fitted, catalogue)
            walk = outline([(station, trailer.stations[station].state) for station in stations], parts)
            for earlier, later in broken_orders(walk, rules):
                pair = f"{':'.join(earlier)} before {':'.join(later)}"
                if (name, pair) not in told:
                    told.add((name, pair))
                    problem = (
                        f"the walk meets them the other way round with {', '.join(options) or 'no options'}"
                    )
                    yield Fault(
                        catalogue.files[f"type:{name}"],
                        "order",
                        pair,
                        problem,
                        "Change the state of one act, its station, or the rule.",
                    )
