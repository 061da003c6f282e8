"""Cars to ride and a hauler to carry them: numbers of 93 cars of 1993, an invented fleet of today's weights.

What the 1993 numbers do not tell is set for all alike, invented here: 45 % of what is not wheelbase lies ahead of the
front axle; the front axle bears 62 % with front drive, 53 % with rear drive, 57 % with both. Heights are not known
and so not checked. The fleet of today and the hauler are invented throughout.
"""

from __future__ import annotations

import csv
import random
from pathlib import Path
from typing import Final

from sendoff.calc.deck_plan import Deck, Item, Problem, Ramp, Strip, Trailer, Truck, Zone, vehicle

LB: Final = 0.45359237
INCH: Final = 0.0254
FRONT_SHARE: Final = {"front": 0.62, "rear": 0.53, "both": 0.57}
HERE: Final = Path(__file__).resolve().parent


def cars93() -> tuple[Item, ...]:
    """93 cars of 1993: mass, length, wheelbase, width as published, without names."""
    lines = [
        line
        for line in (HERE / "cars93.csv").read_text(encoding="utf-8").splitlines()
        if not line.startswith("#")
    ]
    found = []
    for row in csv.DictReader(lines):
        length, base = float(row["length_in"]) * INCH, float(row["wheelbase_in"]) * INCH
        mass = float(row["weight_lb"]) * LB
        found.append(
            vehicle(
                row["row"], mass, length_m=length, front_overhang_m=0.45 * (length - base), wheelbase_m=base,
                front_share_ratio=FRONT_SHARE[row["driven"]], width_m=float(row["width_in"]) * INCH,
                mass_error_kg=0.03 * mass,
            )
        )  # fmt: skip
    return tuple(found)


# name, lb, length in, wheelbase in, front overhang in, front share, width in, height in
TODAY: Final = (
    ("pickup_01", 5200, 231, 145, 37, 0.57, 80, 77), ("pickup_02", 5650, 244, 157, 37, 0.56, 80, 78),
    ("pickup_03", 6300, 250, 160, 40, 0.58, 80, 79), ("pickup_04", 7100, 250, 160, 41, 0.60, 80, 80),
    ("pickup_05", 7750, 263, 172, 41, 0.59, 81, 81), ("pickup_06", 8600, 266, 176, 41, 0.55, 96, 81),
    ("pickup_07", 4550, 212, 127, 36, 0.57, 75, 71), ("pickup_08", 4800, 217, 132, 36, 0.56, 76, 72),
    ("electric_01", 4500, 185, 114, 33, 0.48, 73, 57), ("electric_02", 4950, 196, 117, 35, 0.48, 76, 62),
    ("electric_03", 5250, 198, 118, 36, 0.49, 78, 66), ("electric_04", 5700, 201, 122, 36, 0.49, 79, 68),
    ("electric_05", 6850, 233, 146, 38, 0.50, 80, 78), ("electric_06", 7150, 217, 136, 36, 0.49, 82, 78),
    ("electric_07", 8850, 234, 142, 40, 0.50, 84, 79), ("electric_08", 9500, 223, 136, 38, 0.50, 86, 80),
    ("wagon_01", 4550, 198, 116, 38, 0.54, 78, 69), ("wagon_02", 4700, 206, 121, 38, 0.52, 79, 71),
    ("wagon_03", 5600, 211, 121, 39, 0.51, 81, 76), ("wagon_04", 6050, 226, 134, 39, 0.52, 81, 76),
)  # fmt: skip


def today() -> tuple[Item, ...]:
    """An invented fleet: pick-ups, electric cars and wagons from 4,500 to 9,500 lb."""
    return tuple(
        vehicle(
            name, mass * LB, length_m=length * INCH, front_overhang_m=front * INCH, wheelbase_m=base * INCH,
            front_share_ratio=share, width_m=width * INCH, height_m=height * INCH, mass_error_kg=0.03 * mass * LB,
        )
        for name, mass, length, base, front, share, width, height in TODAY
    )  # fmt: skip


def hauler(items: tuple[Item, ...], *, up: bool = True) -> Problem:
    """An invented three-axle hauler with a lift deck over its neck, behind an invented dual-wheel truck."""
    tail = Zone("tail", 12.6, 14.9, total_limit_kg=3200.0, wheel_limit_kg=1150.0)
    main = Zone("main", 3.9, 12.6, total_limit_kg=8600.0, wheel_limit_kg=1300.0)
    hinge = Strip("tail_hinge", 12.45, 12.75)
    ramp = Ramp(0.21, 1500.0)
    if up:
        under = Zone(
            "under_lift", 2.3, 3.9, total_limit_kg=3000.0, wheel_limit_kg=1150.0, height_limit_m=1.62
        )
        lift = Zone("lift_deck", -1.2, 4.0, total_limit_kg=2950.0, wheel_limit_kg=900.0, height_limit_m=1.72)
        decks: tuple[Deck, ...] = (
            Deck("lower", (under, main, tail), (hinge,), 0.7, 1.2, ramp=ramp),
            Deck("lift", (lift,), (), 0.9, 0.6, leaves_over=("lower",), effort_count=1),
        )
    else:
        neck = Zone("lift_deck", -1.2, 4.0, total_limit_kg=2950.0, wheel_limit_kg=900.0, height_limit_m=2.6)
        # lowered, the lift deck lies on the neck and slopes down to the main deck
        behind = Zone("main", 4.1, 12.6, total_limit_kg=8600.0, wheel_limit_kg=1300.0)
        decks = (Deck("lower", (neck, behind, tail), (hinge,), 0.9, 1.2, ramp=ramp),)
    trailer = Trailer(
        4000.0, 8.1, (9.5, 10.4, 11.3), "torsion", (3629.0,) * 3, 11748.0, pin_limit_kg=3000.0,
        pin_share_least_ratio=0.15, pin_share_most_ratio=0.25, tire_limit_kg=(1990.0,) * 3,
        frame_stiffness_Nm2=3.2e7, axle_stiffness_Npm=4.2e5,
    )  # fmt: skip
    truck = Truck(
        -4.2,
        0.1,
        2150.0,
        1560.0,
        2720.0,
        4420.0,
        6350.0,
        16800.0,
        coupling_limit_kg=3400.0,
        front_least_kg=1500.0,
    )
    return Problem(items, decks, trailer, truck, edge_m=0.08)


def subsets(items: tuple[Item, ...], size: int, count: int) -> list[tuple[Item, ...]]:
    """The same random subsets in every run."""
    chance = random.Random(f"fleet {len(items)} {size}")
    return [tuple(chance.sample(items, size)) for _ in range(count)]
