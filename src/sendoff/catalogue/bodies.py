"""Parts put in their places with their own measures: which, where, and the space each takes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from sendoff import units
from sendoff.catalogue.load import Catalogue
from sendoff.catalogue.places import Spot, places_of
from sendoff.catalogue.schema import Card, TrailerType

INCH_M: Final = 0.0254
SLACK_M: Final = 0.5 * INCH_M
"""What a drawing may be off without anybody seeing it."""
GUARD_DEEP_M: Final = 4 * INCH_M
"""How deep a rear impact guard's bar is drawn, front to back."""
STANDING: Final = frozenset({"box", "battery", "charger", "pump", "winch", "shield"})
"""Kinds whose place gives their underside."""
ROUND: Final = frozenset({"air_chamber", "air_tank"})
"""Kinds that lie along the trailer, their place the middle of them."""


@dataclass(frozen=True, slots=True)
class Body:
    """One part in one place: which, and the space it takes."""

    slot: str
    reference: str
    kind: str
    place: str
    x: float
    y: float
    z: float
    measures: dict[str, float]

    def get(self, name: str, default: float = 0.0) -> float:
        """Return one of its measures."""
        return self.measures.get(name, default)

    @property
    def space(self) -> tuple[float, float, float, float, float, float]:
        """Least and most of x, y and z."""
        long, wide, low, high = 0.0, 0.0, self.z, self.z
        if self.kind in STANDING:
            long, wide, high = self.get("length"), self.get("width"), self.z + self.get("height")
            if self.kind == "winch":
                long, wide = wide, long
        elif self.kind in ROUND:
            long, wide = self.get("length"), self.get("diameter")
            low, high = self.z - wide / 2, self.z + wide / 2
        elif self.kind in {"ramp", "infill"}:
            long, wide = self.get("length"), self.get("width")
        elif self.kind == "tire":
            long, wide = self.get("outer_diameter"), self.get("section_width")
            low, high = 0.0, long
        elif self.kind == "spare":
            across, thick = self.get("outer_diameter"), self.get("section_width")
            upright = abs(self.y) > SLACK_M
            long, wide = across, thick if upright else across
            tall = across if upright else thick
            low, high = self.z - tall / 2, self.z + tall / 2
        return (self.x - long / 2, self.x + long / 2, self.y - wide / 2, self.y + wide / 2, low, high)


def bodies_in(trailer: TrailerType, slot: str, reference: str, catalogue: Catalogue) -> Iterator[Body]:
    """Yield a part, `card/variant`, in each place of a slot; nothing for a part without a shape."""
    card_id, _, variant = reference.partition("/")
    card = catalogue.cards.get(card_id)
    if card is None or card.shape is None or variant not in card.variants:
        return
    measures = _measures(card, variant)
    for place in places_of(trailer, slot):
        yield _body(slot, reference, card.shape.kind, place, measures)


def _body(slot: str, reference: str, kind: str, spot: Spot, measures: dict[str, float]) -> Body:
    place, _, x, y, z = spot
    return Body(slot, reference, kind, place, x, y, z, measures)


def _measures(card: Card, variant: str) -> dict[str, float]:
    """Return the measures of a variant's shape, and the drop of a jack's leg where the card tells it."""
    values = card.variants[variant].values
    named = dict(card.shape.measures) if card.shape is not None else {}
    if card.shape is not None and card.shape.kind == "jack" and "drop" in card.values:
        named["drop"] = "drop"
    found = {}
    for measure, name in named.items():
        raw = values.get(name)
        if isinstance(raw, str) and name in card.values:
            found[measure] = units.parse(raw, card.values[name].quantity).si
    return found
