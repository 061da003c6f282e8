"""Boats: what must hold for any boat, whatever is in its tanks."""

from __future__ import annotations

import math

from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc.ratings.boats import boat_mass

masses = st.floats(50.0, 20_000.0)
volumes = st.floats(0.0, 3.0)


@given(masses, volumes, volumes, st.floats(0.0, 2000.0))
def test_what_is_poured_in_is_added_and_nothing_is_lost(
    dry: float, fuel: float, water: float, gear: float
) -> None:
    boat = boat_mass(dry, fuel, water, gear)
    assert math.isclose(boat.total_kg, dry + boat.fuel_kg + boat.water_kg + gear)
    assert boat.over_dry_ratio >= 0


@given(masses, st.floats(0.01, 3.0))
def test_water_outweighs_diesel_and_diesel_outweighs_gasoline(dry: float, volume: float) -> None:
    water = boat_mass(dry, water_m3=volume).total_kg
    diesel = boat_mass(dry, volume, fuel="diesel").total_kg
    assert water > diesel > boat_mass(dry, volume).total_kg


@given(masses)
def test_empty_tanks_leave_the_folder_right(dry: float) -> None:
    assert boat_mass(dry).total_kg == dry
