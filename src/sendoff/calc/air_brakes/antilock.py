"""Antilock brakes of air-braked trailers, their lamp, and which trailers the air brake standard covers."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Final, Literal

from sendoff.calc.contract import calculation, require_not_negative, require_positive

ABS_FROM: Final = dt.date(1998, 3, 1)
SIGNAL_FROM: Final = dt.date(2001, 3, 1)
LAMP_NEAR_m: Final = 0.150
LAMP_FAR_m: Final = 0.600
POUND_kg: Final = 0.45359237
PLATFORM_m: Final = 40 * 0.0254


@dataclass(frozen=True, slots=True)
class AbsRequired:
    """What the building date asks of an air-braked trailer."""

    abs_required: bool
    signal_circuit_required: bool
    lamp_required: bool


@calculation(
    "air_brakes",
    "ABS from 1 March 1998, fault signal to the truck from 1 March 2001",
    symbols={"built": "date"},
)
def abs_required(built: dt.date) -> AbsRequired:
    """Whether an air-braked trailer built on a date needs antilock brakes, fault signal and lamp.

    Antilock brakes and an outside lamp from 1 March 1998; a fault-signal circuit to the truck from 1 March 2001.

    Parameters
    ----------
    built : date
        Day the trailer was built.

    Returns
    -------
    AbsRequired
        Antilock brakes, signal circuit, outside lamp.

    Raises
    ------
    OutOfRange
        Never for a real date.

    Notes
    -----
    Air-braked trailers under the federal standard. The lamp rule once ended for trailers built after a date: fit it.

    Examples
    --------
    >>> import datetime as dt
    >>> abs_required(dt.date(1998, 2, 28)).abs_required, abs_required(dt.date(1998, 3, 1)).abs_required
    (False, True)

    References
    ----------
    .. [1] 49cfr393, 393.55(c)(2), (d)(3), (e)
    """
    return AbsRequired(built >= ABS_FROM, built >= SIGNAL_FROM, built >= ABS_FROM)


@dataclass(frozen=True, slots=True)
class LampPlace:
    """Place of the outside antilock lamp judged."""

    passes: bool
    least_gap_m: float
    most_gap_m: float
    faults: str
    """Empty if it passes."""


@calculation(
    "air_brakes",
    "yellow, left side, 150 mm ≤ lens edge to lens edge ≤ 600 mm",
    symbols={"edge_gap_m": "d"},
)
def abs_lamp_check(
    edge_gap_m: float,
    color: Literal["yellow", "red", "white", "other"] = "yellow",
    side: Literal["left", "right"] = "left",
) -> LampPlace:
    """Whether the outside antilock lamp of a trailer sits where it should.

    Yellow, on the left, 150 to 600 mm from the red rear side marker, lens edge to lens edge.

    Parameters
    ----------
    edge_gap_m : float
        Gap from the red rear side marker, lens edge to lens edge [m].
    color : {"yellow", "red", "white", "other"}
        Color of the lamp.
    side : {"left", "right"}
        Side, seen from the rear.

    Returns
    -------
    LampPlace
        Verdict, band, and what is wrong.

    Raises
    ------
    OutOfRange
        If the gap is below zero.

    Notes
    -----
    Where that place is impossible: near the red rear side marker, or on the front face of the left rear fender.
    The lamp lights at key-on and goes out after the standing check; staying on means a present or stored fault.

    Examples
    --------
    >>> [abs_lamp_check(gap).passes for gap in (0.140, 0.150, 0.600, 0.610)]
    [False, True, True, False]

    References
    ----------
    .. [1] 49cfr571_121, S5.2.3.3(b), (c)(1)
    """
    require_not_negative(edge_gap_m=edge_gap_m)
    faults = []
    if color != "yellow":
        faults.append("must be yellow")
    if side != "left":
        faults.append("must sit on the left")
    if not LAMP_NEAR_m - 1e-9 <= edge_gap_m <= LAMP_FAR_m + 1e-9:
        faults.append("must sit 150 to 600 mm from the red rear side marker")
    return LampPlace(not faults, LAMP_NEAR_m, LAMP_FAR_m, "; ".join(faults))


@dataclass(frozen=True, slots=True)
class LetterCheck:
    """The letters ABS judged."""

    passes: bool
    least_height_m: float
    most_gap_m: float
    """How far a letter on the body may start from the lens."""


@calculation(
    "air_brakes",
    "10 mm on the lamp; 25 mm on the body, at most 150 mm from the lens",
    symbols={"height_m": "h"},
)
def abs_letters_check(
    height_m: float, where: Literal["lamp", "body"] = "lamp", gap_m: float = 0.0
) -> LetterCheck:
    """Whether the letters ABS beside the outside lamp are large and near enough.

    10 mm on lamp or housing; 25 mm on the body, starting at most 150 mm from the lens.

    Parameters
    ----------
    height_m : float
        Height of the letters [m].
    where : {"lamp", "body"}
        On the lamp or its housing, or painted or plated on the body.
    gap_m : float
        Distance of the nearest letter from the lens, for letters on the body [m].

    Returns
    -------
    LetterCheck
        Verdict and limits.

    Raises
    ------
    OutOfRange
        If height or gap is below zero.

    Notes
    -----
    Air-braked trailers.

    Examples
    --------
    >>> abs_letters_check(0.025, "body", 0.150).passes
    True

    References
    ----------
    .. [1] 49cfr571_121, S5.2.3.3(b)(3)
    """
    require_not_negative(height_m=height_m, gap_m=gap_m)
    least_m = 0.010 if where == "lamp" else 0.025
    near = where == "lamp" or gap_m <= 0.150 + 1e-9
    return LetterCheck(height_m >= least_m - 1e-9 and near, least_m, 0.150)


@dataclass(frozen=True, slots=True)
class AbsAxles:
    """Axles the antilock system must control by itself."""

    front_count: int
    rear_count: int
    said: str


@calculation("air_brakes", "semi-trailer: one rear axle; full trailer: one front and one rear axle")
def abs_axles(kind: Literal["semitrailer", "full_trailer", "dolly"]) -> AbsAxles:
    """Which axles the antilock system of a trailer must control directly.

    One rear axle of a semi-trailer or dolly; one front and one rear axle of a full trailer.

    Parameters
    ----------
    kind : {"semitrailer", "full_trailer", "dolly"}
        Kind of trailer.

    Returns
    -------
    AbsAxles
        Numbers of axles and the rule in words.

    Raises
    ------
    OutOfRange
        Never for these words.

    Notes
    -----
    Least number by the standard; other axles may follow these. Its power comes from a circuit live with the key on,
    and from the stop lamps if that fails.

    Examples
    --------
    >>> abs_axles("full_trailer").front_count
    1

    References
    ----------
    .. [1] 49cfr571_121, S5.2.3.1, S5.2.3.2
    """
    if kind == "full_trailer":
        return AbsAxles(1, 1, "One front axle and one rear axle.")
    return AbsAxles(0, 1, "One rear axle.")


@dataclass(frozen=True, slots=True)
class StandardScope:
    """Whether the air brake standard covers a trailer."""

    applies: bool
    excused_by: str
    """Empty if it applies."""


@calculation(
    "air_brakes",
    "not if an axle ≥ 29,000 lb, heavy hauler > 120,000 lb, or empty ≥ 95 % of GVWR",
    symbols={"gvwr_kg": "GVWR", "axle_rating_kg": "GAWR", "empty_kg": "empty"},
)
def air_brake_standard_applies(
    gvwr_kg: float, axle_rating_kg: float, empty_kg: float, *, is_heavy_hauler: bool = False
) -> StandardScope:
    """Whether the federal air brake standard covers an air-braked trailer.

    It does not with an axle rated 29,000 lb or more, a heavy hauler over 120,000 lb, or empty at 95 % of its GVWR.

    Parameters
    ----------
    gvwr_kg : float
        Gross vehicle weight rating [kg].
    axle_rating_kg : float
        Largest gross axle weight rating [kg].
    empty_kg : float
        Empty weight [kg].
    is_heavy_hauler : bool
        Whether it is a heavy hauler (`heavy_hauler`).

    Returns
    -------
    StandardScope
        Applies or not, and why not.

    Raises
    ------
    OutOfRange
        If a weight is not above zero.

    Notes
    -----
    The commonest exclusions of S3; very wide or slow vehicles are others.

    Examples
    --------
    >>> air_brake_standard_applies(30000.0, 29000 * 0.45359237, 5000.0).applies
    False

    References
    ----------
    .. [1] 49cfr571_121, S3(b), (e), (f)
    """
    require_positive(gvwr_kg=gvwr_kg, axle_rating_kg=axle_rating_kg, empty_kg=empty_kg)
    if axle_rating_kg >= 29_000 * POUND_kg * (1 - 1e-9):
        return StandardScope(False, "an axle is rated 29,000 lb or more")  # noqa: FBT003
    if is_heavy_hauler and gvwr_kg > 120_000 * POUND_kg * (1 + 1e-9):
        return StandardScope(False, "heavy hauler over 120,000 lb")  # noqa: FBT003
    if empty_kg >= 0.95 * gvwr_kg * (1 - 1e-9):
        return StandardScope(False, "empty it weighs 95 % of its rating or more")  # noqa: FBT003
    return StandardScope(True, "")  # noqa: FBT003


@dataclass(frozen=True, slots=True)
class HeavyHauler:
    """What the heavy hauler clause lets a trailer do without."""

    is_heavy_hauler: bool
    spring_brakes_required: bool
    chocks_required: bool
    abs_required: bool
    note: str


@calculation(
    "air_brakes", "platform only with deck ≤ 40 in up empty, or lines made for a frame that comes apart"
)
def heavy_hauler(
    deck_height_m: float, *, platform_only: bool, frame_extends_or_separates: bool = False
) -> HeavyHauler:
    """Whether an air-braked trailer is a heavy hauler, which may lack spring brakes but must carry chocks.

    A body that is only a platform with its deck 40 in up at most, empty, or brake lines made for a frame that extends
    or comes apart.

    Parameters
    ----------
    deck_height_m : float
        Height of the main cargo deck, empty [m].
    platform_only : bool
        Whether the body is only a platform (removable sides and a fixed front do not count).
    frame_extends_or_separates : bool
        Whether the brake lines are made for a frame that extends or comes apart.

    Returns
    -------
    HeavyHauler
        Whether it is one, and what then is and is not required.

    Raises
    ------
    OutOfRange
        If the height is not above zero.

    Notes
    -----
    The antilock brakes stay required. Spring brakes remain the better answer for any trailer that is parked alone.

    Examples
    --------
    >>> found = heavy_hauler(36 * 0.0254, platform_only=True)
    >>> found.spring_brakes_required, found.chocks_required, found.abs_required
    (False, True, True)

    References
    ----------
    .. [1] 49cfr571_121, S4, S5.6
    """
    require_positive(deck_height_m=deck_height_m)
    is_one = frame_extends_or_separates or (platform_only and deck_height_m <= PLATFORM_m + 1e-9)
    note = "May lack spring brakes by law and must then carry chocks." if is_one else "Needs spring brakes."
    return HeavyHauler(is_one, not is_one, is_one, True, note)  # noqa: FBT003
