"""What the European functions share: scope, coefficients and the guards of their inputs."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc._limits import exceeds, positive
from sendoff.errors import OutOfRange
from sendoff.tables import Table

SCOPE_kg: Final = 3500.0
"""EN 12195-1 does not apply to vehicles of a total mass up to this."""
EN_GRAVITY_mps2: Final = 9.81
"""As the standard computes."""

Direction = Literal["forward", "rearward", "sideways"]


@dataclass(frozen=True, slots=True)
class MassHeld:
    """Mass held against sliding; none where friction alone holds any mass."""

    held_kg: float | None
    friction_alone: bool


def require_scope(vehicle_total_mass_kg: float | None) -> None:
    if vehicle_total_mass_kg is None:
        return
    positive(vehicle_total_mass_kg=vehicle_total_mass_kg)
    if not exceeds(vehicle_total_mass_kg, SCOPE_kg):
        raise OutOfRange(
            "vehicle_total_mass_kg", vehicle_total_mass_kg, "must be above 3,500 kg, where EN 12195-1 begins"
        )


def require_angle(name: str, angle_rad: float, low_deg: float) -> None:
    if not math.radians(low_deg) - 1e-9 <= angle_rad <= math.pi / 2 + 1e-9:
        raise OutOfRange(name, angle_rad, f"must lie from {low_deg:g} to 90 degrees")


def require_friction(friction_ratio: float) -> None:
    if not 0.01 <= friction_ratio <= 1:
        raise OutOfRange("friction_ratio", friction_ratio, "must lie from 0.01 to 1")


def coefficient(direction: Direction, column: str, table: Table | None) -> float:
    return float((table or tables.load("en_accelerations")).row(direction=direction)[column])


def whole(name: str, value: float, exact: float) -> int:
    if exact > 1000:
        raise OutOfRange(name, value, "must not need more than 1,000 lashings")
    return max(math.ceil(exact - 1e-9), 0)
