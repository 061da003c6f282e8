"""The order in which a yard meets the stations: one lap from the coupling round the trailer and home."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from statistics import fmean

from sendoff.asbuilt.unit import FittedPart, UnitStation
from sendoff.catalogue.fields import Side
from sendoff.catalogue.places import Spot, places_of
from sendoff.catalogue.schema import Slot, Station, TrailerType

__all__ = ["Spot", "lap_of_slots", "lap_order", "places_of", "station_at", "stations_in_order"]


def station_at(slot: Slot, side: Side) -> str:
    """Return the station at which a slot's place on this side is met."""
    return slot.station if isinstance(slot.station, str) else slot.station[side]


def stations_in_order(
    trailer: TrailerType, met: Mapping[str, Sequence[tuple[float, float]]], walk: str
) -> list[str]:
    """Return the stations met, in the order of the lap; `met` gives x and y of the places at each."""
    declared = {name: position for position, name in enumerate(trailer.stations)}

    def key(name: str) -> tuple[int, float, int]:
        station = trailer.stations[name]
        return (*_lap_key(station.side, _x(station, met[name]), walk), declared[name])

    return sorted(met, key=key)


def lap_order(trailer: TrailerType, parts: Sequence[FittedPart], walk: str) -> tuple[UnitStation, ...]:
    """Return the stations that have something fitted, in the order of the lap; all others drop out."""
    met: dict[str, list[tuple[float, float]]] = {}
    slots: dict[str, list[str]] = {}
    for part in parts:
        for place in part.places:
            met.setdefault(place.station, []).append((place.x_m, place.y_m))
            if part.slot not in slots.setdefault(place.station, []):
                slots[place.station].append(part.slot)
    return tuple(
        UnitStation(
            id=name,
            name=dict(trailer.stations[name].name),
            side=trailer.stations[name].side,
            state=trailer.stations[name].state,
            x_m=_x(trailer.stations[name], met[name]),
            y_m=fmean(y for _, y in met[name]),
            slots=tuple(slots[name]),
            twin_of=twin if (twin := trailer.stations[name].twin_of) in met else None,
        )
        for name in stations_in_order(trailer, met, walk)
    )


def lap_of_slots(
    trailer: TrailerType, slots: Iterable[str], walk: str
) -> tuple[list[str], dict[str, dict[str, tuple[str, ...]]]]:
    """Return the stations in lap order and, per slot, its places by station in that order: structure without values."""
    met: dict[str, list[tuple[float, float]]] = {}
    by_slot: dict[str, dict[str, list[str]]] = {}
    for name in slots:
        for place, side, x, y, _ in places_of(trailer, name):
            station = station_at(trailer.slots[name], side)
            met.setdefault(station, []).append((x, y))
            by_slot.setdefault(name, {}).setdefault(station, []).append(place)
    order = stations_in_order(trailer, met, walk)
    return order, {
        name: {station: tuple(found[station]) for station in order if station in found}
        for name, found in by_slot.items()
    }


def _x(station: Station, places: Sequence[tuple[float, float]]) -> float:
    return station.x.si if station.x is not None else fmean(x for x, _ in places)


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
