"""The order in which a yard meets the stations: one lap from the coupling round the trailer and home."""

from __future__ import annotations

from collections.abc import Sequence
from statistics import fmean

from sendoff.asbuilt.unit import FittedPart, Place, UnitStation
from sendoff.catalogue.schema import Station, TrailerType


def lap_order(trailer: TrailerType, parts: Sequence[FittedPart], walk: str) -> tuple[UnitStation, ...]:
    """Return the stations that have something fitted, in the order of the lap; all others drop out."""
    met: dict[str, list[Place]] = {}
    slots: dict[str, list[str]] = {}
    for part in parts:
        for place in part.places:
            met.setdefault(place.station, []).append(place)
            if part.slot not in slots.setdefault(place.station, []):
                slots[place.station].append(part.slot)
    declared = {name: position for position, name in enumerate(trailer.stations)}
    spots = {name: _spot(trailer.stations[name], places) for name, places in met.items()}
    order = sorted(
        met, key=lambda name: (*_lap_key(trailer.stations[name].side, spots[name][0], walk), declared[name])
    )
    return tuple(
        UnitStation(
            id=name,
            name=dict(trailer.stations[name].name),
            side=trailer.stations[name].side,
            state=trailer.stations[name].state,
            x_m=spots[name][0],
            y_m=spots[name][1],
            slots=tuple(slots[name]),
            twin_of=twin if (twin := trailer.stations[name].twin_of) in met else None,
        )
        for name in order
    )


def _spot(station: Station, places: Sequence[Place]) -> tuple[float, float]:
    x = station.x.si if station.x is not None else fmean(place.x_m for place in places)
    return x, fmean(place.y_m for place in places)


def _lap_key(side: str, x: float, walk: str) -> tuple[int, float]:
    """Return where on the lap a station is met: front, down the first side, the rear, up the other side."""
    first, second = ("left", "right") if walk == "left_side_first" else ("right", "left")
    if side == first:
        return 1, x
    if side == second:
        return 3, -x
    if side == "rear":
        return 2, 0.0
    return (0, 0.0) if side == "front" else (1, x)
