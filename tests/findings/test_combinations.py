"""Findings over many ways to order a unit: always an answer, each limit once, nothing of what is not fitted."""

from __future__ import annotations

import random

import msgspec
import pytest

from sendoff.asbuilt.fit import combinations
from sendoff.asbuilt.resolve import resolve
from sendoff.asbuilt.sheet import BuildSheet
from sendoff.catalogue.freight import Cargo, Truck
from sendoff.catalogue.load import load, read_file
from sendoff.findings import load_limits, system_limits, truck_limits, unit_limits
from sendoff.findings.load_card import load_card, tell_card
from sendoff.findings.model import VERDICTS
from sendoff.findings.telling import tell
from tests.findings.demo import DAY, QUILLBACK, by_id

SLICE = 60
OF_SLOT = {
    "brakes.feed": "brakes",
    "breakaway.hold": "breakaway",
    "charge_lead.wire": "charge_lead",
    "charge_lead.load": "charge_lead",
    "pump.fuse": "pump",
    "winch.fuse": "winch",
    "winch.rope": "winch",
    "battery.day": "battery",
    "charger.night": "charger",
    "tail.lift": "tail",
    "jacks.loaded": "jacks",
    "wheel_nuts.torque": "wheel_nuts",
    "tie_downs.points": "tie_downs",
    "tie_downs.gear": "tie_down_gear",
    "cargo.tie_down_points": "tie_downs",
    "cargo.wheel_load": "floor",
}
TRUCKS = {
    "tilt_gooseneck": "three_quarter_ton",
    "utility_single": "small_crossover",
    "dump_bumper": "receiver_three_quarter",
    "livestock_gooseneck": "three_quarter_ton",
}
LOADS = {
    "tilt_gooseneck": "fence_job",
    "utility_single": "garden_soil_and_quad",
    "dump_bumper": "gravel_to_the_line",
    "livestock_gooseneck": "seven_steers",
}


@pytest.mark.parametrize(
    ("name", "sheet"),
    [
        ("tilt_gooseneck", "qb-0107"),
        ("utility_single", "qb-0203"),
        ("dump_bumper", "qb-0309"),
        ("livestock_gooseneck", "qb-0408"),
    ],
)
def test_every_way_to_order_it_gets_its_answer(name: str, sheet: str) -> None:

    catalogue = load(QUILLBACK / "catalogue")
    built = read_file(QUILLBACK / "sheets" / f"{sheet}.toml", BuildSheet)
    truck = read_file(QUILLBACK / "trucks" / f"{TRUCKS[name]}.toml", Truck)
    cargo = read_file(QUILLBACK / "cargo" / f"{LOADS[name]}.toml", Cargo)
    ways = sorted(combinations(catalogue.types[name]), key=sorted)
    seen: set[str] = set()
    for options in random.Random(SLICE).sample(ways, min(SLICE, len(ways))):  # the same ones each time
        ordered = msgspec.structs.replace(built, options=tuple(sorted(options)), parts={})
        unit = resolve(ordered, {}, catalogue, "sheet.toml")
        found = by_id(
            [
                *unit_limits.findings_of(unit, DAY),
                *system_limits.findings_of(unit),
                *truck_limits.findings_with_truck(unit, truck),
                *load_limits.findings_of(unit, cargo, truck),
            ]
        )
        fitted = {part.slot for part in unit.parts}
        for one, slot in OF_SLOT.items():
            assert one not in found or slot in fitted, (one, options)
        for finding in found.values():
            assert finding.verdict in VERDICTS
            assert tell(finding, "es", "metric").margin
        card = load_card(unit, truck)
        assert card is not None
        assert tell_card(card, "es", "us").allowed
        seen |= set(found)
    if name == "tilt_gooseneck":
        assert set(OF_SLOT) <= seen, set(OF_SLOT) - seen
