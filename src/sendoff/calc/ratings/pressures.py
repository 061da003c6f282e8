"""The chain of pressures: tire, wheel, valve stem."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc._limits import exceeds, positive, reaches
from sendoff.calc.contract import calculation, require_one_of
from sendoff.errors import OutOfRange
from sendoff.tables import Table

Stem = Literal["rubber_snap_in", "high_pressure_snap_in", "metal_clamp_in"]
STEMS: Final[tuple[Stem, ...]] = ("rubber_snap_in", "high_pressure_snap_in", "metal_clamp_in")


@dataclass(frozen=True, slots=True)
class PressureChain:
    """The highest cold pressure every part may hold, against the one that is set."""

    holds: bool
    highest_pressure_Pa: float
    weakest: str
    margin_Pa: float
    not_known: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ValveStem:
    """The least valve stem that holds a pressure in a wheel's hole."""

    stem: Stem
    pressure_Pa: float
    """The highest cold pressure it holds."""


@calculation(
    "ratings",
    "p_max = min(tire, wheel, valve stem); holds if p <= p_max",
    symbols={"cold_pressure_Pa": "p", "highest_pressure_Pa": "p_max", "tire_pressure_Pa": "tire",
             "wheel_pressure_Pa": "wheel", "stem_pressure_Pa": "valve stem"},
)  # fmt: skip
def pressure_rating_chain(
    cold_pressure_Pa: float,
    tire_pressure_Pa: float | None = None,
    wheel_pressure_Pa: float | None = None,
    stem_pressure_Pa: float | None = None,
) -> PressureChain:
    """Whether tire, wheel and valve stem may all hold the cold pressure that is set.

    The least of the three ratings limits. A wheel has a pressure rating as well as a load rating.

    Parameters
    ----------
    cold_pressure_Pa : float
        Cold pressure set, that of the placard [Pa].
    tire_pressure_Pa : float, optional
        Highest cold pressure marked on the tire [Pa].
    wheel_pressure_Pa : float, optional
        Highest cold pressure stamped on the wheel [Pa].
    stem_pressure_Pa : float, optional
        Highest cold pressure of the valve stem [Pa].

    Returns
    -------
    PressureChain
        Whether it holds, the highest pressure allowed and the part that says so, what is left, what is not known.

    Raises
    ------
    OutOfRange
        If no rating is given, or one is not above zero.

    Notes
    -----
    Cold pressures; the rise while running is allowed for in the ratings.

    Examples
    --------
    A snap-in stem of 80 psi limits a wheel and tire of 110 psi (valve table: 80 psi is the top in the 0.453 in hole).

    >>> done = pressure_rating_chain(110.0, 110.0, 110.0, 80.0)
    >>> done.holds, done.weakest, done.margin_Pa
    (False, 'valve_stem', -30.0)

    References
    ----------
    .. [1] house_rule, the smallest number on any part is the number
    .. [2] tra_valves, highest cold pressures
    """
    positive(cold_pressure_Pa=cold_pressure_Pa)
    given = {
        "tire_pressure_Pa": tire_pressure_Pa,
        "wheel_pressure_Pa": wheel_pressure_Pa,
        "stem_pressure_Pa": stem_pressure_Pa,
    }
    names = {"tire_pressure_Pa": "tire", "wheel_pressure_Pa": "wheel", "stem_pressure_Pa": "valve_stem"}
    known = {names[key]: value for key, value in given.items() if value is not None}
    for key, value in given.items():
        if value is not None:
            positive(**{key: value})
    if not known:
        raise OutOfRange("tire_pressure_Pa", "none", "must be given, or the wheel's or stem's: none is known")
    weakest = min(known, key=lambda name: known[name])
    highest = known[weakest]
    return PressureChain(
        not exceeds(cold_pressure_Pa, highest),
        highest,
        weakest,
        highest - cold_pressure_Pa,
        tuple(names[key] for key, value in given.items() if value is None),
    )


@calculation("ratings", "p_max = valve table", gives="pressure_Pa", symbols={"pressure_Pa": "p_max"},
             tables={"table": "valve_stems"})  # fmt: skip
def valve_stem_limit(stem: Stem, hole_m: float, table: Table | None = None) -> float:
    """Highest cold pressure a kind of valve stem holds in a wheel's hole.

    Read from the valve table.

    Parameters
    ----------
    stem : {"rubber_snap_in", "high_pressure_snap_in", "metal_clamp_in"}
        Kind of stem.
    hole_m : float
        Diameter of the hole in the wheel, 0.453 or 0.625 in [m].
    table : Table, optional
        Highest cold pressure by stem and hole.

    Returns
    -------
    float
        Highest cold pressure [Pa].

    Raises
    ------
    OutOfRange
        If the table has no such hole.

    Notes
    -----
    Common stems; the maker's own figure comes first.

    Examples
    --------
    The table prints 80 psi for a high pressure snap-in in the 0.453 in hole.

    >>> round(valve_stem_limit("high_pressure_snap_in", 0.453 * 0.0254) / 6894.757293168)
    80

    References
    ----------
    .. [1] tra_valves, highest cold pressures
    """
    require_one_of(STEMS, stem=stem)
    positive(hole_m=hole_m)
    return float((table or tables.load("valve_stems")).row(hole_m=hole_m, stem=stem)["pressure_Pa"])


@calculation("ratings", "least stem with p <= p_max", symbols={"cold_pressure_Pa": "p", "pressure_Pa": "p_max"},
             tables={"table": "valve_stems"})  # fmt: skip
def valve_stem_for(cold_pressure_Pa: float, hole_m: float, table: Table | None = None) -> ValveStem:
    """Least valve stem that holds a cold pressure in a wheel's hole.

    Rubber to 65 psi; a high pressure snap-in to 80 psi in the small hole and 100 in the large; above it a metal
    clamp-in.

    Parameters
    ----------
    cold_pressure_Pa : float
        Cold pressure to hold [Pa].
    hole_m : float
        Diameter of the hole in the wheel, 0.453 or 0.625 in [m].
    table : Table, optional
        Highest cold pressure by stem and hole.

    Returns
    -------
    ValveStem
        The stem, and the highest cold pressure it holds.

    Raises
    ------
    OutOfRange
        If the table has no such hole, or no stem holds the pressure.

    Notes
    -----
    Common stems; the maker's own figure comes first. "High pressure or metal" is not one thing: at 110 and 125 psi
    only a metal clamp-in is right.

    Examples
    --------
    By the table, 80 psi and 95 psi in the 0.453 in hole.

    >>> psi, hole = 6894.757293168, 0.453 * 0.0254
    >>> valve_stem_for(80 * psi, hole).stem, valve_stem_for(95 * psi, hole).stem
    ('high_pressure_snap_in', 'metal_clamp_in')

    References
    ----------
    .. [1] tra_valves, highest cold pressures
    """
    positive(cold_pressure_Pa=cold_pressure_Pa, hole_m=hole_m)
    published = table or tables.load("valve_stems")
    published.row_exists(hole_m=hole_m)
    limits = {stem: float(published.row(hole_m=hole_m, stem=stem)["pressure_Pa"]) for stem in STEMS}
    for stem, limit in limits.items():
        if reaches(limit, cold_pressure_Pa):
            return ValveStem(stem, limit)
    most = max(limits.values())
    raise OutOfRange(
        "cold_pressure_Pa", cold_pressure_Pa, f"must not be above {most:.0f} Pa, the most any stem holds"
    )
