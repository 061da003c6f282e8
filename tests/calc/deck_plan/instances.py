"""Random deck problems: the same ones for every run, from a seed. Lengths in whole millimeters, masses in kilograms.

Some have room to spare and some have none, some fit by weight and some do not; both suspensions, one or two decks,
zones, strips, strap points, width, height, wheel ways, drop orders, fixed facings, trucks and limits of the law.
"""

from __future__ import annotations

import random
from itertools import pairwise

from sendoff.calc.deck_plan import (
    AxleGroup,
    Deck,
    Item,
    Problem,
    Ramp,
    Strip,
    Trailer,
    Truck,
    Zone,
    on_bearers,
    on_tracks,
    vehicle,
)
from sendoff.calc.deck_plan.gear import INFINITE
from sendoff.calc.deck_plan.problem import Facing


def mm(value: float) -> float:
    return round(value, 3)


def random_item(chance: random.Random, name: str, *, small: bool) -> Item:
    """A car mostly, sometimes a machine on tracks or a crate."""
    scale = 0.62 if small else 1.0
    more: dict[str, object] = {
        "width_m": mm(chance.uniform(1.6, 2.1)),
        "height_m": mm(chance.uniform(1.3, 2.1)),
        "track_inner_m": mm(chance.uniform(1.15, 1.4)),
        "track_outer_m": mm(chance.uniform(1.6, 2.0)),
    }
    kind = chance.random()
    length = mm(chance.uniform(3.6, 5.8) * scale)
    mass = float(round(chance.uniform(900, 3300) * (0.7 if small else 1.0)))
    if kind < 0.8:
        front = mm(chance.uniform(0.14, 0.22) * length)
        base = mm(chance.uniform(0.52, 0.62) * length)
        return vehicle(
            name,
            mass,
            length_m=length,
            front_overhang_m=front,
            wheelbase_m=base,
            front_share_ratio=round(chance.uniform(0.4, 0.65), 2),
            facings=chance.choice([("forward", "backward")] * 4 + [("forward",), ("backward",)]),
            **more,
        )
    if kind < 0.93:
        rollers = chance.choice([2, 3, 4])
        tracks = mm(mm(0.64 * length / (rollers - 1)) * (rollers - 1))
        return on_tracks(
            name,
            mass,
            length_m=length,
            tracks_front_m=mm(0.2 * length),
            tracks_length_m=tracks,
            center_m=mm(0.2 * length + tracks * chance.uniform(0.42, 0.58)),
            roller_count=rollers,
            **more,
        )
    facings: tuple[Facing, ...] = ("forward",)
    return on_bearers(
        name,
        mass,
        length_m=length,
        bearer_m=(mm(0.1 * length), mm(0.5 * length), mm(0.9 * length)),
        facings=facings,
        **more,
    )


def random_zones(
    chance: random.Random, name: str, first: float, last: float, mass: float, *, limits: bool
) -> tuple[Zone, ...]:
    """Cut a deck into one to four zones, sometimes with a gap between two, with limits that bind or not."""
    count = chance.choice([1, 2, 3, 3, 4])
    cuts = [
        first,
        *sorted(mm(first + (last - first) * chance.uniform(0.12, 0.88)) for _ in range(count - 1)),
        last,
    ]
    zones: list[Zone] = []
    for number, (front, rear) in enumerate(pairwise(cuts), 1):
        if rear - front < 0.3:
            continue
        begin = mm(front + (0.15 if chance.random() < 0.15 and number > 1 else 0.0))
        part = (rear - begin) / (last - first)
        zones.append(
            Zone(
                f"{name}{number}",
                zones[-1].rear_m if zones and begin == front else begin,
                rear,
                total_limit_kg=float(round(mass * min(1.0, part * chance.uniform(1.0, 2.2)) + 200))
                if limits and chance.random() < 0.75
                else INFINITE,
                wheel_limit_kg=float(round(chance.uniform(500, 1300)))
                if limits and chance.random() < 0.5
                else INFINITE,
                width_limit_m=mm(chance.uniform(1.85, 2.2)) if chance.random() < 0.12 else INFINITE,
                height_limit_m=mm(chance.uniform(1.75, 2.2)) if chance.random() < 0.12 else INFINITE,
                lane_inner_m=mm(chance.uniform(0.9, 1.2)) if chance.random() < 0.1 else 0.0,
                lane_outer_m=mm(chance.uniform(1.9, 2.1)) if chance.random() < 0.1 else INFINITE,
            )
        )
    return tuple(zones)


def random_deck(chance: random.Random, name: str, first: float, length: float, mass: float) -> Deck:
    """One deck, its strips, strap points and overhangs."""
    last = mm(first + length)
    zones = random_zones(chance, f"{name}_zone_", first, last, mass, limits=chance.random() < 0.8)
    strips = []
    for number in range(chance.choice([0, 0, 1, 1, 2, 3])):
        at = mm(first + length * chance.uniform(0.05, 0.95))
        strips.append(Strip(f"{name}_strip_{number}", at, mm(at + chance.uniform(0.1, 0.6))))
    points: tuple[float, ...] = ()
    if chance.random() < 0.12:
        step = chance.uniform(0.5, 1.2)
        points = tuple(mm(first + step * number) for number in range(int(length / step) + 1))
    return Deck(
        name,
        zones,
        tuple(strips),
        front_overhang_m=mm(chance.uniform(0.0, 0.9)),
        rear_overhang_m=mm(chance.uniform(0.0, 1.2)),
        strap_points_m=points,
        ramp=Ramp(chance.uniform(0.1, 0.25), float(round(chance.uniform(900, 2500))))
        if chance.random() < 0.3
        else None,
    )


def random_problem(seed: int, item_count: int) -> Problem:
    """Return the problem of a seed."""
    chance = random.Random(f"deck {seed} {item_count}")
    two = item_count >= 2 and chance.random() < 0.2
    small = item_count >= 7 or chance.random() < 0.25
    gap = chance.choice([0.05, 0.1, 0.15, 0.2])
    items = [random_item(chance, f"item_{number}", small=small) for number in range(1, item_count + 1)]
    if item_count >= 3 and chance.random() < 0.15:
        items[1] = Item(
            "item_2", items[0].mass_kg, items[0].length_m, items[0].contacts, width_m=items[0].width_m
        )
    reach = chance.random() < 0.5
    for number, item in enumerate(items):
        items[number] = with_changes(
            item,
            strap_reach_m=mm(chance.uniform(0.45, 1.0)) if reach else None,
            clearance_m=mm(chance.uniform(0.12, 0.25)),
            approach_rad=chance.uniform(0.2, 0.4),
            departure_rad=chance.uniform(0.2, 0.4),
        )
    drops = chance.random() < 0.25
    if drops:
        stops = chance.choice([1, 2, 3])
        items = [with_changes(item, drop_count=chance.randint(0, stops)) for item in items]
    mass = sum(item.mass_kg for item in items)
    need = sum(item.length_m + gap for item in items)
    room = mm(
        need * chance.choice([chance.uniform(0.9, 1.1), chance.uniform(1.05, 1.3), chance.uniform(1.15, 1.6)])
    )
    room = max(room, max(item.length_m for item in items) + 0.1)
    first = mm(chance.uniform(-1.6, 1.0))
    decks = [random_deck(chance, "main", first, mm(room * (0.7 if two else 1.0) + 0.2), mass)]
    if two:
        upper = random_deck(chance, "upper", mm(first - 0.3), mm(room * 0.45 + 0.5), mass)
        decks.append(
            Deck(
                upper.name,
                upper.zones,
                upper.strips,
                upper.front_overhang_m,
                upper.rear_overhang_m,
                leaves_over=("main",),
                effort_count=1,
            )
        )
    longest = max(deck.last_m - deck.first_m for deck in decks)
    if longest < max(item.length_m for item in items):
        return random_problem(seed + 1_000_003, item_count)
    return Problem(
        tuple(items),
        tuple(decks),
        *random_trailer_and_truck(chance, mass, first, room),
        gap_m=gap,
        edge_m=chance.choice([0.0, 0.0, 0.08]),
        drop_rule="must" if chance.random() < 0.7 else "prefer",
    )


def random_choice(seed: int, item_count: int, fitting: int) -> Problem:
    """Return a problem of many items of which about so many fit, by length or by mass."""
    chance = random.Random(f"choice {seed} {item_count} {fitting}")
    items = [random_item(chance, f"item_{number}", small=False) for number in range(1, item_count + 1)]
    gap = chance.choice([0.05, 0.1, 0.15])
    mass = sum(item.mass_kg for item in items) / item_count * fitting
    room = mm(sum(item.length_m + gap for item in items) / item_count * (fitting + chance.uniform(0.1, 0.8)))
    first = mm(chance.uniform(-1.6, 1.0))
    two = chance.random() < 0.2
    decks = [random_deck(chance, "main", first, mm(room * (0.72 if two else 1.0)), mass)]
    if two:
        upper = random_deck(chance, "upper", mm(first - 0.3), mm(room * 0.45), mass)
        decks.append(
            Deck(upper.name, upper.zones, upper.strips, upper.front_overhang_m, upper.rear_overhang_m)
        )
    longest = max(deck.last_m - deck.first_m for deck in decks)
    items = [item for item in items if item.length_m <= longest]
    return Problem(
        tuple(items), tuple(decks), *random_trailer_and_truck(chance, mass, first, room), gap_m=gap
    )


def with_changes(item: Item, **changes: object) -> Item:
    fields = {name: getattr(item, name) for name in item.__slots__}
    return Item(**(fields | changes))


def random_trailer_and_truck(
    chance: random.Random, mass: float, first: float, room: float
) -> tuple[Trailer, Truck | None, tuple[AxleGroup, ...]]:
    """Return running gear whose limits are near what the load asks, above or below."""
    count = chance.choice([1, 2, 2, 3, 3])
    share = chance.uniform(0.10, 0.25)
    # where a load spread evenly would put about that share on the pin
    middle = max(1.5 + 0.5 * count, (first + room / 2) / (1 - share) * chance.uniform(0.93, 1.07))
    axles = tuple(mm(middle + 0.9 * (number - (count - 1) / 2)) for number in range(count))
    empty = float(round(0.45 * mass + 400))
    empty_center = mm(middle * (1 - chance.uniform(0.12, 0.22)))
    gross = empty + mass
    fit = chance.choice([chance.uniform(0.88, 1.0), chance.uniform(1.05, 1.2), chance.uniform(1.1, 1.5)])
    axle = float(round(gross * (1 - share) / count * fit))
    trailer = Trailer(
        empty,
        empty_center,
        axles,
        chance.choice(["equalized", "torsion"]),
        (axle,) * count,
        float(round(gross * max(fit, 0.96))),
        pin_limit_kg=float(round(gross * share * chance.uniform(1.05, 1.7))),
        pin_share_least_ratio=round(max(0.05, share - chance.uniform(0.02, 0.08)), 3)
        if chance.random() < 0.8
        else 0.0,
        pin_share_most_ratio=round(share + chance.uniform(0.02, 0.08), 3) if chance.random() < 0.8 else 1.0,
        tire_limit_kg=tuple(float(round(axle / 2 * chance.uniform(0.95, 1.2))) for _ in axles)
        if chance.random() < 0.6
        else (),
        axle_preload_kg=float(round(chance.uniform(0, 0.2) * axle)) if chance.random() < 0.4 else 0.0,
    )
    if chance.random() < 0.4:
        return trailer, None, ()
    pin = gross * share
    truck = Truck(
        mm(chance.uniform(-4.5, -3.4)),
        mm(chance.uniform(0.05, 0.2) if chance.random() < 0.6 else chance.uniform(-1.6, -0.9)),
        float(round(chance.uniform(1700, 2200))),
        float(round(chance.uniform(1200, 1700))),
        front_limit_kg=2800.0,
        rear_limit_kg=float(round(1700 + pin * chance.uniform(0.9, 1.5))),
        gross_limit_kg=float(round(3700 + pin * chance.uniform(0.95, 1.4))),
        combined_limit_kg=float(round((gross + 3700) * chance.uniform(0.98, 1.2))),
        front_least_kg=900.0,
    )
    groups = []
    if chance.random() < 0.4:
        names = tuple(f"axle_{number}" for number in range(1, count + 1))
        groups.append(
            AxleGroup("trailer_axles", names, float(round(gross * (1 - share) * chance.uniform(0.98, 1.2))))
        )
        groups.append(
            AxleGroup(
                "inner_bridge",
                ("truck_rear", *names),
                float(round((gross + 1500) * chance.uniform(0.98, 1.2))),
            )
        )
    return trailer, truck, tuple(groups)
