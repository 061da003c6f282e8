"""Bulk: weight of loose loads and the fill line of a dump body by material, dry and wet; hay by the bale."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_positive
from sendoff.tables import Table

Material = Literal[
    "gravel",
    "sand",
    "earth",
    "soil",
    "topsoil",
    "wood_chips",
    "mulch",
    "crushed_stone",
    "clay",
    "concrete_rubble",
]
State = Literal["dry", "damp", "wet"]
_ALSO_CALLED: Final = {"soil": "earth"}
HAY_kgpm3: Final = 1100 * 0.45359237 / (math.pi / 4 * 5**3 * 0.3048**3)
"""A round bale of 5 by 5 ft and 1,100 lb, 11.2 lb/ft³."""


@calculation(
    "bulk",
    "read from the table of materials",
    gives="density_kgpm3",
    tables={"table": "bulk_materials"},
)
def bulk_density(material: Material, state: State = "wet", table: Table | None = None) -> float:
    """Loose weight of a bulk material, wet if not said otherwise.

    Read from the table; wet gravel weighs a fifth more than dry.

    Parameters
    ----------
    material : {"gravel", "sand", "earth", "soil", "wood_chips", "mulch", "crushed_stone", "clay", "concrete_rubble"}
        What is loaded.
    state : {"dry", "damp", "wet"}
        How it lies; wet stands for packed as well.
    table : Table
        Weights by material.

    Returns
    -------
    float
        Mass for each volume [kg/m3].

    Raises
    ------
    OutOfRange
        If the table has no such material in that state.

    Notes
    -----
    Loose, as loaded. Rain on the way makes it wet: a fill line is printed for the wet weight. Where no wet or damp
    weight is printed, the heaviest printed one of the material stands for it: still too light if it is soaked.

    Examples
    --------
    >>> round(bulk_density("gravel") / 0.59327642), round(bulk_density("gravel", "dry") / 0.59327642)
    (3120, 2600)

    References
    ----------
    .. [1] bulk_page, weights and additions for wetness
    .. [2] wood_chip_pages, the heavier of two
    """
    every = table or tables.load("bulk_materials")
    name = _ALSO_CALLED.get(material, material)
    rows = every.where(material=name, state=state)
    if not rows and state != "dry":  # wet is never lighter: the heaviest that is printed stands for it
        rows = every.where(material=name)
    if not rows:
        every.row(material=name, state=state)  # says what there is
    return float(max(row["density_kgpm3"] for row in rows))


@dataclass(frozen=True, slots=True)
class BulkLoad:
    """A body filled level."""

    volume_m3: float
    mass_kg: float


@calculation(
    "bulk",
    "m = ρ l w d",
    symbols={"length_m": "l", "width_m": "w", "depth_m": "d", "mass_kg": "m"},
    tables={"table": "bulk_materials"},
)
def bulk_load(
    material: Material,
    length_m: float,
    width_m: float,
    depth_m: float,
    state: State = "wet",
    table: Table | None = None,
) -> BulkLoad:
    """Volume and weight of a bulk material filled level to a depth.

    m = ρ l w d.

    Parameters
    ----------
    material : {"gravel", "sand", "earth", "soil", "wood_chips", "mulch", "crushed_stone", "clay", "concrete_rubble"}
        What is loaded.
    length_m : float
        Inside length of the body [m].
    width_m : float
        Inside width of the body [m].
    depth_m : float
        Depth, leveled [m].
    state : {"dry", "damp", "wet"}
        How it lies.
    table : Table
        Weights by material.

    Returns
    -------
    BulkLoad
        Volume and mass.

    Raises
    ------
    OutOfRange
        If a measure is not above zero or the table has no such material in that state.

    Notes
    -----
    Level. A heap over the sides adds up to a half.

    Examples
    --------
    A 7 by 14 by 2 ft body level full of dry gravel: 18,874 lb.

    >>> found = bulk_load("gravel", 14 * 0.3048, 7 * 0.3048, 2 * 0.3048, "dry")
    >>> round(found.mass_kg / 0.45359237)
    18874

    References
    ----------
    .. [1] bulk_page, weights and additions for wetness
    """
    require_positive(length_m=length_m, width_m=width_m, depth_m=depth_m)
    volume_m3 = length_m * width_m * depth_m
    return BulkLoad(volume_m3, volume_m3 * bulk_density(material, state, table))


@dataclass(frozen=True, slots=True)
class FillLine:
    """How high a body may be filled with a material."""

    depth_m: float
    """Not above the body's own depth."""
    volume_m3: float
    full_body_kg: float
    """What the body would weigh level full."""
    body_may_be_full: bool
    over_if_full_kg: float
    """Overload of a level full body; zero if it may be full."""


@calculation(
    "bulk",
    "d = payload / (ρ l w), not above the body",
    symbols={
        "payload_kg": "payload",
        "length_m": "l",
        "width_m": "w",
        "body_depth_m": "body",
        "depth_m": "d",
    },
    tables={"table": "bulk_materials"},
)
def fill_line(
    payload_kg: float,
    material: Material,
    length_m: float,
    width_m: float,
    body_depth_m: float,
    state: State = "wet",
    table: Table | None = None,
) -> FillLine:
    """Fill line of a dump body for a material, from this unit's own payload.

    d = payload/(ρ l w): the line to paint, by the wet weight if not said otherwise.

    Parameters
    ----------
    payload_kg : float
        Payload of this unit, its rating less its own weighed empty weight [kg].
    material : {"gravel", "sand", "earth", "soil", "wood_chips", "mulch", "crushed_stone", "clay", "concrete_rubble"}
        What is loaded.
    length_m : float
        Inside length of the body [m].
    width_m : float
        Inside width of the body [m].
    body_depth_m : float
        Depth of the body's sides [m].
    state : {"dry", "damp", "wet"}
        How it lies; wet is the one to print.
    table : Table
        Weights by material.

    Returns
    -------
    FillLine
        Depth and volume, weight of a full body, and its overload.

    Raises
    ------
    OutOfRange
        If a value is not above zero or the table has no such material in that state.

    Notes
    -----
    Spread level. The commonest overload of all is a dump body filled to the top.

    Examples
    --------
    10,000 lb of payload, 7 by 14 by 2 ft: 10.6 in of wet gravel, 12.7 in of dry.

    >>> body = (14 * 0.3048, 7 * 0.3048, 2 * 0.3048)
    >>> round(fill_line(4535.9237, "gravel", *body).depth_m / 0.0254, 1)
    10.6
    >>> round(fill_line(4535.9237, "gravel", *body, "dry").depth_m / 0.0254, 1)
    12.7

    References
    ----------
    .. [1] bulk_page, weights and additions for wetness
    """
    require_positive(payload_kg=payload_kg, length_m=length_m, width_m=width_m, body_depth_m=body_depth_m)
    full = bulk_load(material, length_m, width_m, body_depth_m, state, table)
    depth_m = body_depth_m * min(1.0, payload_kg / full.mass_kg)
    over_kg = max(0.0, full.mass_kg - payload_kg)
    return FillLine(depth_m, depth_m * length_m * width_m, full.mass_kg, over_kg == 0.0, over_kg)


@calculation(
    "bulk",
    "m = ρ π/4 D² b",
    gives="bale_kg",
    symbols={"width_m": "b", "diameter_m": "D", "hay_kgpm3": "ρ", "bale_kg": "m"},
)
def round_bale(width_m: float, diameter_m: float, hay_kgpm3: float = HAY_kgpm3) -> float:
    """Weight of a round hay bale.

    m = ρ π/4 D² b, at the density of a 5 by 5 ft bale of 1,100 lb if none is given.

    Parameters
    ----------
    width_m : float
        Width of the bale [m].
    diameter_m : float
        Diameter [m].
    hay_kgpm3 : float
        Density of the hay [kg/m3].

    Returns
    -------
    float
        Mass of one bale [kg].

    Raises
    ------
    OutOfRange
        If a value is not above zero.

    Notes
    -----
    Dry hay. Silage bales weigh about twice as much.

    Examples
    --------
    4 by 4 ft: 563 lb.

    >>> round(round_bale(4 * 0.3048, 4 * 0.3048) / 0.45359237)
    563

    References
    ----------
    .. [1] texas_e319, table of bales
    """
    require_positive(width_m=width_m, diameter_m=diameter_m, hay_kgpm3=hay_kgpm3)
    return hay_kgpm3 * math.pi / 4 * diameter_m**2 * width_m


@calculation(
    "bulk",
    "m = ρ l w h",
    gives="bale_kg",
    symbols={"length_m": "l", "width_m": "w", "height_m": "h", "hay_kgpm3": "ρ", "bale_kg": "m"},
)
def square_bale(length_m: float, width_m: float, height_m: float, hay_kgpm3: float = HAY_kgpm3) -> float:
    """Weight of a big square hay bale.

    m = ρ l w h, at the density of a 5 by 5 ft round bale of 1,100 lb if none is given.

    Parameters
    ----------
    length_m : float
        Length [m].
    width_m : float
        Width [m].
    height_m : float
        Height [m].
    hay_kgpm3 : float
        Density of the hay [kg/m3].

    Returns
    -------
    float
        Mass of one bale [kg].

    Raises
    ------
    OutOfRange
        If a value is not above zero.

    Notes
    -----
    Dry hay. Big square bales are often pressed harder: weigh one.

    Examples
    --------
    3 by 3 by 8 ft: 807 lb.

    >>> round(square_bale(8 * 0.3048, 3 * 0.3048, 3 * 0.3048) / 0.45359237)
    807

    References
    ----------
    .. [1] texas_e319, table of bales
    """
    require_positive(length_m=length_m, width_m=width_m, height_m=height_m, hay_kgpm3=hay_kgpm3)
    return hay_kgpm3 * length_m * width_m * height_m
