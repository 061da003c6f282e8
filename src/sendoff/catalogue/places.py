"""The spots where the parts of a slot stand: as a type writes them, or taken from its axles."""

from __future__ import annotations

from collections.abc import Iterator

from sendoff.catalogue.fields import Side
from sendoff.catalogue.schema import FromAxles, TrailerType

Spot = tuple[str, Side, float, float, float]
"""A place: its id, side, x, y and z in meters."""


def places_of(trailer: TrailerType, slot_name: str) -> Iterator[Spot]:
    """Yield id, side, x, y and z of each place of a slot."""
    slot = trailer.slots[slot_name]
    frame = trailer.frame
    if not isinstance(slot.places, FromAxles):
        for place in slot.places:
            edge = {"left": -frame.overall_width.si / 2, "right": frame.overall_width.si / 2}.get(
                place.side, 0.0
            )
            yield place.id, place.side, place.x.si, place.y.si if place.y is not None else edge, place.z.si
        return
    apart = (
        frame.axles.dual_spacing.si / 2 if slot.places.dual and frame.axles.dual_spacing is not None else 0.0
    )
    for number, x in enumerate(frame.axles.x, start=1):
        for side in slot.places.sides:
            outward = -1.0 if side == "left" else 1.0
            middle = frame.axles.track.si / 2
            for suffix, shift in (("_out", apart), ("_in", -apart)) if slot.places.dual else (("", 0.0),):
                yield f"{side}_{number}{suffix}", side, x.si, outward * (middle + shift), slot.places.z.si
