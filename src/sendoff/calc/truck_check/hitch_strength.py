"""Strengths couplers, balls and hitches are tested to, up to where SAE J684 ends."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final, Literal

from sendoff import tables
from sendoff.calc._limits import exceeds, positive
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange
from sendoff.tables import Table
from sendoff.units import STANDARD_GRAVITY_mps2

FAMILY: Final = "truck_check"


@dataclass(frozen=True, slots=True)
class CouplerStrength:
    """Trailer class and the least breaking strengths of its coupler and ball."""

    trailer_class: int
    least_ball_m: float | None
    """None for class 4: the ball must match its coupler."""
    longitudinal_N: float
    transverse_N: float
    vertical_tension_N: float
    vertical_compression_N: float


@dataclass(frozen=True, slots=True)
class HitchForce:
    """One force of one step of a hitch's test."""

    step: int
    force: str
    direction: str
    size_N: float


@dataclass(frozen=True, slots=True)
class HitchTest:
    """The forces a hitch is tested with, step by step."""

    forces: tuple[HitchForce, ...]


def class_row(table: Table, gross_mass_kg: float, name: str, **keys: Any) -> Any:
    """Return the row of a table of classes that a gross mass falls in; refuse what is beyond its scope."""
    positive(**{name: gross_mass_kg})
    rows = sorted(table.where(**keys), key=lambda row: float(row["up_to_kg"]))
    for row in rows:
        if not exceeds(gross_mass_kg, row["up_to_kg"]):
            return row
    raise OutOfRange(
        name, gross_mass_kg, "must not be above 10,000 lb (4,536 kg), where SAE J684 ends: ask the makers"
    )


@calculation(
    FAMILY,
    "strength = constant + ratio × gross trailer weight, by class",
    symbols={"gross_trailer_mass_kg": "gross trailer weight"},
    tables={"table": "coupler_strengths"},
)
def coupler_least_strength(
    gross_trailer_mass_kg: float,
    enacted_by: Literal["maryland", "new_york"] = "maryland",
    table: Table | None = None,
) -> CouplerStrength:
    """Trailer class after SAE J684, its least ball, and the strengths coupler and ball must have.

    Classes 1 to 3 have fixed strengths; class 4 has multiples of the gross trailer weight.

    Parameters
    ----------
    gross_trailer_mass_kg : float
        Greatest gross weight of the trailer [kg].
    enacted_by : str
        Which State's print of the table; they differ in vertical tension, the default is the stricter.
    table : Table, optional
        Classes and strengths.

    Returns
    -------
    CouplerStrength
        Class [-], least ball [m] and strengths [N].

    Raises
    ------
    OutOfRange
        If the mass is not above zero or above 10,000 lb, where the standard ends.

    Notes
    -----
    Up to 10,000 lb gross. Beyond, nothing here applies and the makers' ratings stand alone. The 1.4 for vertical
    compression is as enacted; the standard itself is believed to say 1.3 (from memory).

    Examples
    --------
    Class 4 at 10,000 lb: 30,000 lbf lengthwise, 13,000 upwards.

    >>> strength = coupler_least_strength(4535.9237)
    >>> round(strength.longitudinal_N / 4.4482216152605), round(strength.vertical_tension_N / 4.4482216152605)
    (30000, 13000)

    References
    ----------
    .. [1] sae_j684, class table in COMAR 11.13.08.10
    .. [2] nycrr_15_57, 57.5 table 1
    """
    table = table or tables.load("coupler_strengths")
    row = class_row(table, gross_trailer_mass_kg, "gross_trailer_mass_kg", enacted_by=enacted_by)

    def strength(name: str) -> float:
        share: float = row[f"{name}_ratio"] * gross_trailer_mass_kg * STANDARD_GRAVITY_mps2
        return float(row[f"{name}_N"]) + share

    return CouplerStrength(
        row["trailer_class"],
        row["least_ball_m"],
        strength("longitudinal"),
        strength("transverse"),
        strength("vertical_tension"),
        strength("vertical_compression"),
    )


@calculation(
    FAMILY,
    "force = share·R + constant, by step",
    symbols={"rated_trailer_mass_kg": "R"},
    tables={"table": "hitch_test_forces"},
)
def hitch_test_forces(
    rated_trailer_mass_kg: float,
    hitch_kind: Literal["weight_carrying", "weight_distributing"] = "weight_carrying",
    table: Table | None = None,
) -> HitchTest:
    """Forces a hitch is tested with after SAE J684, step by step.

    force = share·R + constant, such as 0.47·R + 480 lbf down and back in step 1.

    Parameters
    ----------
    rated_trailer_mass_kg : float
        Gross trailer weight the hitch is rated for, R [kg].
    hitch_kind : str
        Weight-carrying or weight-distributing.
    table : Table, optional
        Shares and constants.

    Returns
    -------
    HitchTest
        Step, force, direction and size [N] of each force.

    Raises
    ------
    OutOfRange
        If R is not above zero or above 10,000 lb, where the standard ends.

    Notes
    -----
    Up to 10,000 lb. The moments of the weight-distributing test are not among them.

    Examples
    --------
    At R = 5,000 lb step 1 is 2,830 lbf down and 2,830 lbf back.

    >>> [round(force.size_N / 4.4482216152605) for force in hitch_test_forces(2267.96185).forces][:4]
    [2830, 2830, 2680, 750]

    References
    ----------
    .. [1] sae_j684, hitch test forces in COMAR 11.13.08.10
    """
    table = table or tables.load("hitch_test_forces")
    class_row(
        tables.load("coupler_strengths"),
        rated_trailer_mass_kg,
        "rated_trailer_mass_kg",
        enacted_by="maryland",
    )
    rated_N = rated_trailer_mass_kg * STANDARD_GRAVITY_mps2
    return HitchTest(
        tuple(
            HitchForce(
                row["step"], row["force"], row["direction"], row["share_ratio"] * rated_N + row["constant_N"]
            )
            for row in table.where(hitch_kind=hitch_kind)
        )
    )
