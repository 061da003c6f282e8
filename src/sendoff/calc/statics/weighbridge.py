"""What a weighbridge tells: the classic three weighings, and any one to four tickets by least squares."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal, get_args

from sendoff.calc._limits import each_positive, not_negative, positive, require_same_count
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange

FAMILY: Final = "statics"

Pads = Literal[
    "truck_alone",
    "truck_front_alone",
    "truck_rear_alone",
    "truck_wheels_coupled",
    "truck_front_coupled",
    "truck_rear_coupled",
    "trailer_wheels_coupled",
    "all_wheels_coupled",
    "trailer_alone",
    "trailer_wheels_alone",
    "tongue_on_scale",
]
"""Which wheels stood on the pads; coupled means the trailer hangs on the truck with slack bars."""

Quantity = Literal[
    "truck_front_axle",
    "truck_rear_axle",
    "truck_mass",
    "coupling_load",
    "trailer_axle_load",
    "trailer_mass",
    "combination_mass",
]

# front and rear axle of the truck alone, coupling load, trailer axles: what every reading is a sum of
_SUMS: Final[dict[str, tuple[float, float, float, float]]] = {
    "truck_alone": (1, 1, 0, 0),
    "truck_front_alone": (1, 0, 0, 0),
    "truck_rear_alone": (0, 1, 0, 0),
    "truck_wheels_coupled": (1, 1, 1, 0),
    "trailer_wheels_coupled": (0, 0, 0, 1),
    "all_wheels_coupled": (1, 1, 1, 1),
    "trailer_alone": (0, 0, 1, 1),
    "trailer_wheels_alone": (0, 0, 0, 1),
    "tongue_on_scale": (0, 0, 1, 0),
}
_WANTED: Final[dict[Quantity, tuple[float, float, float, float]]] = {
    "truck_front_axle": (1, 0, 0, 0),
    "truck_rear_axle": (0, 1, 0, 0),
    "truck_mass": (1, 1, 0, 0),
    "coupling_load": (0, 0, 1, 0),
    "trailer_axle_load": (0, 0, 0, 1),
    "trailer_mass": (0, 0, 1, 1),
    "combination_mass": (1, 1, 1, 1),
}
_MAIN: Final[tuple[Quantity, ...]] = (
    "truck_mass",
    "coupling_load",
    "trailer_axle_load",
    "trailer_mass",
    "combination_mass",
)
"""What every truck check stands on; the truck's own axles are a wish beside it."""
HAIR: Final = 1e-9
"""A share of a reading that only the rounding of a computer leaves."""
_EASY_FIRST: Final[tuple[Pads, ...]] = (
    "all_wheels_coupled",
    "truck_wheels_coupled",
    "trailer_wheels_coupled",
    "truck_alone",
    "truck_front_coupled",
    "truck_rear_coupled",
    "trailer_alone",
    "tongue_on_scale",
    "truck_front_alone",
    "truck_rear_alone",
    "trailer_wheels_alone",
)


@dataclass(frozen=True, slots=True)
class ThreeWeighings:
    """What three weighings tell of a combination."""

    coupling_load_kg: float
    trailer_axle_load_kg: float
    trailer_mass_kg: float
    coupling_share_ratio: float


@dataclass(frozen=True, slots=True)
class WeighingSolution:
    """What the tickets tell, each with its uncertainty; none where they leave it undetermined."""

    truck_front_axle_kg: float | None
    truck_front_axle_uncertainty_kg: float | None
    truck_rear_axle_kg: float | None
    truck_rear_axle_uncertainty_kg: float | None
    truck_mass_kg: float | None
    truck_mass_uncertainty_kg: float | None
    coupling_load_kg: float | None
    coupling_load_uncertainty_kg: float | None
    trailer_axle_load_kg: float | None
    trailer_axle_load_uncertainty_kg: float | None
    trailer_mass_kg: float | None
    trailer_mass_uncertainty_kg: float | None
    combination_mass_kg: float | None
    combination_mass_uncertainty_kg: float | None
    coupling_share_ratio: float | None
    coupling_share_uncertainty_ratio: float | None
    undetermined: tuple[Quantity, ...]
    settled_by: tuple[Pads, ...]
    """Readings any one of which settles most of what is still open, the easiest first."""
    worst_disagreement_kg: float
    readings_agree: bool
    """False if readings that overlap differ by more than twice their uncertainty."""


@calculation(
    FAMILY,
    "T = B − A,  axles = C − B,  trailer = C − A",
    symbols={
        "truck_alone_kg": "A",
        "truck_wheels_coupled_kg": "B",
        "all_wheels_coupled_kg": "C",
        "coupling_load_kg": "T",
    },
)
def three_weighings(
    truck_alone_kg: float, truck_wheels_coupled_kg: float, all_wheels_coupled_kg: float
) -> ThreeWeighings:
    """Coupling load, trailer axles and trailer mass from three weighings.

    T = B − A, trailer axles = C − B, trailer = C − A.

    Parameters
    ----------
    truck_alone_kg : float
        The truck by itself, fuel and people as for the other weighings [kg].
    truck_wheels_coupled_kg : float
        Coupled, only the truck's wheels on the scale [kg].
    all_wheels_coupled_kg : float
        Coupled, all wheels on the scale [kg].

    Returns
    -------
    ThreeWeighings
        Coupling load, trailer axle load, trailer mass [kg] and the coupling's share [-].

    Raises
    ------
    OutOfRange
        If a reading is not above zero, or the whole does not weigh more than its part.

    Notes
    -----
    Weight-distribution bars must be slack for the second weighing, else part of the coupling load hides in the
    trailer's axles.

    Examples
    --------
    Public how-to: 6,820, 7,640 and 13,960 lb give 820 lb on the ball, 11.48 % of 7,140 lb.

    >>> told = three_weighings(6820.0, 7640.0, 13960.0)
    >>> told.coupling_load_kg, told.trailer_axle_load_kg, round(told.coupling_share_ratio, 4)
    (820.0, 6320.0, 0.1148)

    References
    ----------
    .. [1] weighing_how_tos, three weighings
    """
    positive(
        truck_alone_kg=truck_alone_kg,
        truck_wheels_coupled_kg=truck_wheels_coupled_kg,
        all_wheels_coupled_kg=all_wheels_coupled_kg,
    )
    trailer = all_wheels_coupled_kg - truck_alone_kg
    if trailer <= 0:
        raise OutOfRange("all_wheels_coupled_kg", all_wheels_coupled_kg, "must be more than the truck alone")
    if truck_wheels_coupled_kg > all_wheels_coupled_kg:
        raise OutOfRange(
            "truck_wheels_coupled_kg", truck_wheels_coupled_kg, "must not be more than all wheels together"
        )
    coupling = truck_wheels_coupled_kg - truck_alone_kg
    share = coupling / trailer
    return ThreeWeighings(coupling, all_wheels_coupled_kg - truck_wheels_coupled_kg, trailer, share)


@calculation(
    FAMILY,
    "T = reading·(a + b) / a",
    gives="tongue_load_kg",
    symbols={
        "scale_reading_kg": "reading",
        "support_to_jack_m": "a",
        "jack_to_scale_m": "b",
        "tongue_load_kg": "T",
    },
)
def tongue_on_beam(scale_reading_kg: float, support_to_jack_m: float, jack_to_scale_m: float) -> float:
    """Tongue load from a small scale under one end of a beam.

    The jack stands a from the fixed support and b from the scale; moments about the support give
    T = reading·(a + b) / a. The factor is three only for b = 2·a.

    Parameters
    ----------
    scale_reading_kg : float
        What the scale shows, the beam's own share taken off [kg].
    support_to_jack_m : float
        From the fixed support to the jack [m].
    jack_to_scale_m : float
        From the jack on to the scale [m].

    Returns
    -------
    float
        Tongue load [kg].

    Raises
    ------
    OutOfRange
        If the reading is below zero or a distance is not above zero.

    Notes
    -----
    Jack and scale on one level, trailer level, wheels chocked.

    Examples
    --------
    Public how-to: support, jack 1 ft on, scale 2 ft further: three times the reading.

    >>> tongue_on_beam(250.0, 1.0, 2.0)
    750.0

    References
    ----------
    .. [1] weighing_how_tos, beam and scale
    """
    not_negative(scale_reading_kg=scale_reading_kg)
    positive(support_to_jack_m=support_to_jack_m, jack_to_scale_m=jack_to_scale_m)
    return scale_reading_kg * ((support_to_jack_m + jack_to_scale_m) / support_to_jack_m)


@calculation(
    FAMILY,
    "h = r + (T₂ − T₁)·L / (M·tan θ)",
    gives="center_height_m",
    symbols={
        "tongue_load_level_kg": "T₁",
        "tongue_load_lowered_kg": "T₂",
        "coupling_to_axles_m": "L",
        "total_mass_kg": "M",
        "nose_down_rad": "θ",
        "wheel_center_height_m": "r",
        "center_height_m": "h",
    },
)
def center_height_by_tilting(
    tongue_load_level_kg: float,
    tongue_load_lowered_kg: float,
    coupling_to_axles_m: float,
    total_mass_kg: float,
    nose_down_rad: float,
    wheel_center_height_m: float,
) -> float:
    """Height of the center of mass from tongue loads level and with the nose lowered.

    h = r + (T₂ − T₁)·L / (M·tan θ).

    Parameters
    ----------
    tongue_load_level_kg : float
        Tongue load with the trailer level [kg].
    tongue_load_lowered_kg : float
        Tongue load with the nose let down by the angle [kg].
    coupling_to_axles_m : float
        From the coupling to the axle along the trailer [m].
    total_mass_kg : float
        Mass of trailer and cargo [kg].
    nose_down_rad : float
        Angle by which the nose was let down [rad].
    wheel_center_height_m : float
        Height of the wheel centers, and of the scale's support, above the ground [m].

    Returns
    -------
    float
        Height of the center of mass above the ground [m].

    Raises
    ------
    OutOfRange
        If a distance or mass is not above zero, or the angle is not between 1 and 20 degrees.

    Notes
    -----
    One axle, springs blocked, coupling held at wheel-center height when level. Small angles tell little.

    Examples
    --------
    >>> round(center_height_by_tilting(300.0, 360.0, 4.0, 2500.0, 0.1, 0.35), 2)
    1.31

    References
    ----------
    .. [1] statics, moments about the axle of a tilted trailer
    """
    not_negative(tongue_load_level_kg=tongue_load_level_kg, tongue_load_lowered_kg=tongue_load_lowered_kg)
    positive(
        coupling_to_axles_m=coupling_to_axles_m,
        total_mass_kg=total_mass_kg,
        wheel_center_height_m=wheel_center_height_m,
    )
    if not math.radians(1) <= nose_down_rad <= math.radians(20):
        raise OutOfRange("nose_down_rad", nose_down_rad, "must lie between 1 and 20 degrees")
    gained = (tongue_load_lowered_kg - tongue_load_level_kg) / total_mass_kg
    return wheel_center_height_m + gained * coupling_to_axles_m / math.tan(nose_down_rad)


@calculation(
    FAMILY,
    "least squares of  reading = front₀ + rear₀ + T + A  over the wheels on the pads",
    symbols={"coupling_load_kg": "T", "trailer_axle_load_kg": "A"},
)
def solve_weighings(
    pads: tuple[Pads, ...],
    reading_kg: tuple[float, ...],
    reading_uncertainty_kg: tuple[float, ...],
    wheelbase_m: float | None = None,
    coupling_behind_rear_axle_m: float | None = None,
) -> WeighingSolution:
    """What one to four weighbridge tickets tell, how surely, and which reading would settle the rest.

    Every reading is a sum of the truck's axles alone, the coupling load and the trailer's axles; all readings
    together are solved by weighted least squares, and their uncertainties carried to the results in quadrature.

    Parameters
    ----------
    pads : tuple of str
        Which wheels stood on the pads for each reading; a ticket of three pads is three readings.
    reading_kg : tuple of float
        The readings [kg].
    reading_uncertainty_kg : tuple of float
        Of each reading, or one for all: scale step, and what fuel or people changed in between [kg].
    wheelbase_m : float, optional
        Of the truck; needed for readings of single truck axles while coupled [m].
    coupling_behind_rear_axle_m : float, optional
        How far behind the truck's rear axle the coupling sits; a minus is ahead of it; needed likewise [m].

    Returns
    -------
    WeighingSolution
        Loads with their uncertainties [kg], the coupling's share [-], what stays undetermined and what settles it.

    Raises
    ------
    OutOfRange
        If the lists differ, a reading or uncertainty is not above zero, there are more than twelve readings, the
        truck's measures are missing for a reading that needs them, or wheels would pull at the ground.

    Notes
    -----
    The same people, fuel and cargo for all tickets, or a wider uncertainty. Weight-distribution bars slack: a ticket
    with tight bars is of another trailer.

    Examples
    --------
    The public how-to's three weighings, each good to 20 lb: 820 lb on the ball, give or take 28.

    >>> told = solve_weighings(
    ...     ("truck_alone", "truck_wheels_coupled", "all_wheels_coupled"), (6820.0, 7640.0, 13960.0), (20.0,)
    ... )
    >>> round(told.coupling_load_kg, 6), round(told.coupling_load_uncertainty_kg, 1)
    (820.0, 28.3)
    >>> told.undetermined
    ('truck_front_axle', 'truck_rear_axle')

    References
    ----------
    .. [1] weighing_how_tos, three weighings
    .. [2] statics, sums of wheel loads; weighted least squares
    """
    if not 1 <= len(pads) <= 12:
        raise OutOfRange("pads", len(pads), "must name 1 to 12 readings")
    require_same_count(pads=pads, reading_kg=reading_kg)
    if len(reading_uncertainty_kg) == 1:
        reading_uncertainty_kg *= len(pads)
    require_same_count(pads=pads, reading_uncertainty_kg=reading_uncertainty_kg)
    each_positive(reading_kg=reading_kg, reading_uncertainty_kg=reading_uncertainty_kg)
    if max(reading_uncertainty_kg) > 1e4 * min(reading_uncertainty_kg):
        raise OutOfRange(
            "reading_uncertainty_kg", reading_uncertainty_kg, "must not differ more than 10,000-fold"
        )
    lever = _lever(wheelbase_m, coupling_behind_rear_axle_m)
    rows = [_row(pad, lever) for pad in pads]
    return _solution(pads, rows, reading_kg, reading_uncertainty_kg, lever)


def _lever(wheelbase_m: float | None, behind_m: float | None) -> float | None:
    """Return o/wb, or None where the truck was not measured."""
    if wheelbase_m is None or behind_m is None:
        return None
    positive(wheelbase_m=wheelbase_m)
    if not -wheelbase_m <= behind_m <= 3 * wheelbase_m:
        raise OutOfRange(
            "coupling_behind_rear_axle_m",
            behind_m,
            "must lie from the front axle to three wheelbases behind the rear",
        )
    return behind_m / wheelbase_m


def _row(pad: Pads, lever: float | None) -> tuple[float, float, float, float]:
    if pad in _SUMS:
        return _SUMS[pad]
    if pad not in get_args(Pads):
        raise OutOfRange("pads", pad, f"must be one of {', '.join(get_args(Pads))}")
    if lever is None:
        raise OutOfRange("wheelbase_m", None, f"is needed with coupling_behind_rear_axle_m for {pad}")
    return (1, 0, -lever, 0) if pad == "truck_front_coupled" else (0, 1, 1 + lever, 0)


def _solution(
    pads: tuple[Pads, ...],
    rows: list[tuple[float, float, float, float]],
    readings: tuple[float, ...],
    spreads: tuple[float, ...],
    lever: float | None,
) -> WeighingSolution:
    import numpy as np

    weights = 1 / np.array(spreads)
    system = np.array(rows, dtype=float) * weights[:, None]
    inverse = np.linalg.pinv(system, rcond=1e-9)
    loads = inverse @ (np.array(readings) * weights)
    covariance = inverse @ inverse.T
    misses = np.abs(np.array(rows) @ loads - np.array(readings))
    misses[misses <= HAIR * max(readings)] = 0.0

    found: dict[str, tuple[float, float] | None] = {}
    for name, row in _WANTED.items():
        wish = np.array(row, dtype=float)
        if _told(rows, row):
            load, spread = float(wish @ loads), math.sqrt(max(float(wish @ covariance @ wish), 0.0))
            if name != "coupling_load" and load < -2 * spread:
                said = f"must not make the {name.replace('_', ' ')} less than nothing: look whether two are swapped"
                raise OutOfRange("reading_kg", readings, said)
            found[name] = (load, spread)
        else:
            found[name] = None
    share = share_spread = None
    coupling, trailer = found["coupling_load"], found["trailer_mass"]
    if coupling is not None and trailer is not None and trailer[0] > 0:
        share = coupling[0] / trailer[0]
        slope = np.array([0.0, 0.0, (1 - share) / trailer[0], -share / trailer[0]])
        share_spread = math.sqrt(max(float(slope @ covariance @ slope), 0.0))
    open_ones: tuple[Quantity, ...] = tuple(name for name in _WANTED if found[name] is None)
    values: dict[str, float | None] = {}
    for wanted, pair in found.items():
        values[f"{wanted}_kg"], values[f"{wanted}_uncertainty_kg"] = pair or (None, None)
    return WeighingSolution(
        **values,
        coupling_share_ratio=share,
        coupling_share_uncertainty_ratio=share_spread,
        undetermined=open_ones,
        settled_by=_settlers(pads, rows, open_ones, lever),
        worst_disagreement_kg=float(np.max(misses)),
        readings_agree=bool(np.all(misses <= 2 * (1 + HAIR) * np.array(spreads))),
    )


def _told(rows: list[tuple[float, float, float, float]], wish: tuple[float, float, float, float]) -> bool:
    """Return whether the readings determine a wish: it lies in what their rows span."""
    import numpy as np

    held = np.array(rows, dtype=float)
    more = np.vstack([held, np.array(wish, dtype=float)])
    return bool(np.linalg.matrix_rank(held, tol=1e-9) == np.linalg.matrix_rank(more, tol=1e-9))


def _settlers(
    pads: tuple[Pads, ...],
    rows: list[tuple[float, float, float, float]],
    open_ones: tuple[Quantity, ...],
    lever: float | None,
) -> tuple[Pads, ...]:
    """Return the further readings that settle most; what every truck check needs goes before the truck's axles."""
    goal = [name for name in open_ones if name in _MAIN] or list(open_ones)
    gains: dict[Pads, int] = {}
    for pad in _EASY_FIRST:
        if pad in pads or (pad not in _SUMS and lever is None):
            continue
        more = [*rows, _row(pad, lever)]
        gains[pad] = sum(_told(more, _WANTED[name]) for name in goal)
    best = max(gains.values(), default=0)
    return tuple(pad for pad, gain in gains.items() if gain == best and best > 0)
