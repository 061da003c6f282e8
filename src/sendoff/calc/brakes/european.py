"""European braking rules a yard meets when a trailer goes abroad: classes, brake force, parking."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_positive
from sendoff.errors import OutOfRange
from sendoff.tables import Table

SEMITRAILER_SHARE: Final = 0.45
OVERRUN_SHARE: Final = 0.50


@dataclass(frozen=True, slots=True)
class EuropeanClass:
    """Class of a trailer and what it asks of the brakes."""

    trailer_class: str
    overrun_brake_allowed: bool
    braking_rule: str


@calculation(
    "brakes",
    "O1 to 0.75 t, O2 to 3.5 t, O3 to 10 t, O4 above",
    symbols={"largest_mass_kg": "m"},
    tables={"table": "european_trailer_classes"},
)
def european_trailer_class(largest_mass_kg: float, table: Table | None = None) -> EuropeanClass:
    """European class of a trailer from its greatest mass.

    O1 to 0.75 t, O2 to 3.5 t, O3 to 10 t, O4 above.

    Parameters
    ----------
    largest_mass_kg : float
        Technically permissible greatest laden mass [kg].
    table : Table
        Classes by mass.

    Returns
    -------
    EuropeanClass
        Class, whether an overrun brake may be used, what is asked.

    Raises
    ------
    OutOfRange
        If the mass is not above zero or beyond 100 t.

    Notes
    -----
    Type approval in the European Union; national rules come on top.

    Examples
    --------
    >>> [european_trailer_class(mass).trailer_class for mass in (750.0, 751.0, 3500.0, 3501.0, 10000.0, 10001.0)]
    ['O1', 'O2', 'O2', 'O3', 'O3', 'O4']

    References
    ----------
    .. [1] eu_2018_858, annex I
    """
    require_positive(largest_mass_kg=largest_mass_kg)
    held = table or tables.load("european_trailer_classes")
    if largest_mass_kg > max(held.column("up_to_kg")):
        raise OutOfRange("largest_mass_kg", largest_mass_kg, "must not be above 100 t")
    row = held.at_or_above("up_to_kg", largest_mass_kg)
    return EuropeanClass(row["trailer_class"], row["overrun_brake_allowed"], row["braking_rule"])


@calculation(
    "brakes",
    "F ≥ z P",
    gives="brake_force_N",
    symbols={"wheel_load_N": "P", "brake_force_N": "F"},
)
def european_brake_force(
    wheel_load_N: float, kind: Literal["semitrailer", "overrun"] = "semitrailer"
) -> float:
    """Least service brake force a European trailer must reach.

    F = z P with z = 45 % of the static wheel load of a semi-trailer, 50 % with overrun brakes.

    Parameters
    ----------
    wheel_load_N : float
        Static load on all wheels of the trailer [N].
    kind : {"semitrailer", "overrun"}
        Semi-trailer with brakes worked from the towing vehicle, or trailer with overrun brakes.

    Returns
    -------
    float
        Least brake force at the rim of the wheels [N].

    Raises
    ------
    OutOfRange
        If the load is not above zero.

    Notes
    -----
    Service brake, laden. The semi-trailer share may come from an act beside the regulation; annex 4 agrees.

    Examples
    --------
    >>> european_brake_force(100_000.0)
    45000.0

    References
    ----------
    .. [1] un_r13, annex 4, and overrun annex
    """
    require_positive(wheel_load_N=wheel_load_N)
    return (SEMITRAILER_SHARE if kind == "semitrailer" else OVERRUN_SHARE) * wheel_load_N


@calculation("brakes", "a ≤ 5.9 m/s² (one axle), 5.6 m/s² (more)", gives="deceleration_mps2")
def european_overrun_deceleration(axle_count: int) -> float:
    """Deceleration of the combination up to which overrun brakes must reach half the wheel load.

    5.9 m/s² for one axle, 5.6 m/s² for more.

    Parameters
    ----------
    axle_count : int
        Axles of the trailer [-].

    Returns
    -------
    float
        Greatest deceleration of the combination [m/s2].

    Raises
    ------
    OutOfRange
        If the number is outside 1 to 6.

    Notes
    -----
    Trailers with overrun brakes, to 3.5 t.

    Examples
    --------
    >>> european_overrun_deceleration(1), european_overrun_deceleration(2)
    (5.9, 5.6)

    References
    ----------
    .. [1] un_r13, overrun annex
    """
    if not 1 <= axle_count <= 6:
        raise OutOfRange("axle_count", axle_count, "must lie from 1 to 6")
    return 5.9 if axle_count == 1 else 5.6


@calculation("brakes", "18 % alone and laden, 12 % for the combination", gives="grade_ratio")
def european_parking_grade(parked: Literal["alone", "combination"]) -> float:
    """Grade a European parking brake must hold.

    18 % for the laden trailer alone, 12 % for the combination on the towing vehicle's brake.

    Parameters
    ----------
    parked : {"alone", "combination"}
        Trailer alone on its own brake, or combination on the towing vehicle's brake only.

    Returns
    -------
    float
        Grade to be held [-].

    Raises
    ------
    OutOfRange
        If the word is another one.

    Notes
    -----
    Read in a French order; the paragraph of UN R13 itself is recalled. An older light-trailer rule says 16 %.

    Examples
    --------
    >>> european_parking_grade("alone")
    0.18

    References
    ----------
    .. [1] un_r13, annex 4, 2.3
    """
    if parked not in {"alone", "combination"}:
        raise OutOfRange("parked", parked, "must be alone or combination")
    return 0.18 if parked == "alone" else 0.12
