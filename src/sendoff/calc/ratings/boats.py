"""What a boat weighs on its trailer once fuel, water and gear are in it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_not_negative, require_positive
from sendoff.tables import Table

FAMILY: Final = "ratings"
Fuel = Literal["gasoline", "diesel"]


@dataclass(frozen=True, slots=True)
class BoatMass:
    """A boat as it is towed."""

    total_kg: float
    fuel_kg: float
    water_kg: float
    over_dry_ratio: float
    """How much more it weighs than dry."""


@calculation(
    FAMILY,
    "m = dry + V_fuel·ρ_fuel + V_water·ρ_water + gear",
    symbols={
        "dry_kg": "dry",
        "fuel_m3": "V_fuel",
        "water_m3": "V_water",
        "gear_kg": "gear",
    },
    tables={"table": "liquid_weights"},
)
def boat_mass(
    dry_kg: float,
    fuel_m3: float = 0.0,
    water_m3: float = 0.0,
    gear_kg: float = 0.0,
    fuel: Fuel = "gasoline",
    table: Table | None = None,
) -> BoatMass:
    """What a boat weighs with fuel, water and gear, against its dry weight in the maker's folder.

    m = dry + V_fuel·ρ_fuel + V_water·ρ_water + gear.

    Parameters
    ----------
    dry_kg : float
        Hull and motor by their makers, without fuel, water and gear [kg].
    fuel_m3 : float
        Fuel in its tanks [m3].
    water_m3 : float
        Water in tanks, live wells and bilge [m3].
    gear_kg : float
        Batteries, anchors, coolers, everything carried in it [kg].
    fuel : {"gasoline", "diesel"}
        What is in the tanks.
    table : Table
        Weights of liquids.

    Returns
    -------
    BoatMass
        Total, fuel and water [kg], and how much more that is than dry [-].

    Raises
    ------
    OutOfRange
        If the dry weight is not above zero or anything else is below zero.

    Notes
    -----
    Folders often leave out the motor: ask. A scale with full tanks comes before any sum. Where the tanks lie decides
    how much of it lands on the coupling.

    Examples
    --------
    50 gal of gasoline at 6.3 lb/gal are 315 lb, 20 gal of water at 8.34 lb/gal 166.8 lb.

    >>> gallon, pound = 3.785411784e-3, 0.45359237
    >>> boat = boat_mass(4000 * pound, 50 * gallon, 20 * gallon, 150 * pound)
    >>> [round(x / pound, 1) for x in (boat.fuel_kg, boat.water_kg, boat.total_kg)]
    [315.0, 166.8, 4631.8]

    References
    ----------
    .. [1] common_practice, gasoline 6.1 to 6.3 lb/gal, water 8.34
    """
    require_positive(dry_kg=dry_kg)
    require_not_negative(fuel_m3=fuel_m3, water_m3=water_m3, gear_kg=gear_kg)
    weights = table or tables.load("liquid_weights")
    in_fuel = fuel_m3 * float(weights.row(liquid=fuel)["density_kgpm3"])
    in_water = water_m3 * float(weights.row(liquid="water")["density_kgpm3"])
    total = dry_kg + in_fuel + in_water + gear_kg
    return BoatMass(total, in_fuel, in_water, total / dry_kg - 1)
