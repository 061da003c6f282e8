"""Grades: which oil is which, and whether a cold pump can start on it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_between
from sendoff.calc.viscosity.charts import (
    PLAIN_INDEX,
    temperature_of_viscosity,
    viscosity_at,
    viscosity_at_100C,
)
from sendoff.tables import Row, Table

GRADE_TOLERANCE: Final = 0.10

Verdict = Literal["ideal", "works", "slow, warm it up", "too thick to start", "too thin"]

_SAID: Final[dict[Verdict, str]] = {
    "ideal": "As the pump likes it.",
    "works": "Works.",
    "slow, warm it up": "Starts, but slow and on much current: run it unloaded until it warms, or use a thinner grade.",
    "too thick to start": "Do not start the pump: it would starve. Warm the unit, or change to VG 15 or 22.",
    "too thin": "Too thin when this hot: let it cool.",
}


@dataclass(frozen=True, slots=True)
class OilGrade:
    """Band of an ISO viscosity grade at 40 °C."""

    least_m2ps: float
    middle_m2ps: float
    largest_m2ps: float
    near_sae: str
    """About which engine oil; empty if none. ISO VG 32 is not SAE 30."""


@calculation(
    "viscosity",
    "VG ± 10 % at 40 °C",
    symbols={"iso_vg": "VG"},
    tables={"table": "oil_grades"},
)
def oil_grade(iso_vg: int, table: Table | None = None) -> OilGrade:
    """Viscosity band of an ISO oil grade at 40 °C and the engine oil it is near.

    The grade number in mm²/s, plus or minus 10 %.

    Parameters
    ----------
    iso_vg : int
        ISO viscosity grade: 15, 22, 32, 46, 68, 100, 150 [-].
    table : Table
        Grades.

    Returns
    -------
    OilGrade
        Band and neighbor.

    Raises
    ------
    OutOfRange
        If the table has no such grade.

    Notes
    -----
    "32-weight" hydraulic oil is ISO VG 32, about SAE 10W. SAE 30 engine oil is three times as thick.

    Examples
    --------
    >>> found = oil_grade(32)
    >>> round(found.least_m2ps * 1e6, 1), round(found.largest_m2ps * 1e6, 1), found.near_sae
    (28.8, 35.2, 'SAE 10W')

    References
    ----------
    .. [1] iso3448, table 1
    .. [2] sae_j300, neighbors
    """
    row = (table or tables.load("oil_grades")).row(iso_vg=iso_vg)
    middle = float(row["middle_m2ps"])
    return OilGrade(
        middle * (1 - GRADE_TOLERANCE), middle, middle * (1 + GRADE_TOLERANCE), row["near_sae"] or ""
    )


@dataclass(frozen=True, slots=True)
class ColdStart:
    """Whether a pump can start and work on its oil at a temperature."""

    viscosity_m2ps: float | None
    """None if the oil is stiff beyond the line's range."""
    verdict: Verdict
    works_from_K: float
    """Temperature above which it works without waiting."""
    starts_from_K: float
    """Temperature above which the pump may be started at all."""
    meaning: str


@calculation(
    "viscosity",
    "ν(T) against 20 to 40 ideal, 12 to 100 working, 1,619 mm²/s to start",
    symbols={"iso_vg": "VG", "temperature_K": "T", "index_number": "VI"},
    tables={"table": "viscosity_window"},
)
def cold_start(
    iso_vg: int, temperature_K: float, index_number: float = PLAIN_INDEX, table: Table | None = None
) -> ColdStart:
    """Whether a pump starts and works on the oil on board at a temperature.

    Viscosity at the temperature against the pump's window: 20 to 40 ideal, 12 to 100 working, 1,619 mm²/s to start.

    Parameters
    ----------
    iso_vg : int
        ISO viscosity grade of the oil on board [-].
    temperature_K : float
        Temperature of the oil [K].
    index_number : float
        Viscosity index, 100 for a plain oil; 150 and more for a winter one [-].
    table : Table
        Window of the pump.

    Returns
    -------
    ColdStart
        Viscosity, verdict, temperatures from which it works and starts, what to do.

    Raises
    ------
    OutOfRange
        If the grade is unknown, the temperature outside -40 to 150 °C, or the index fits no such oil.

    Notes
    -----
    Gear pumps. The pump maker's own window comes first; the starting limit is recalled.

    Examples
    --------
    VG 32 at 0 °F: too thick; VG 15 of index 150: slow.

    >>> cold_start(32, 255.37).verdict, cold_start(15, 255.37, 150.0).verdict
    ('too thick to start', 'slow, warm it up')

    References
    ----------
    .. [1] gear_pump_manual, operating window
    .. [2] astm_d341, worked sheet
    """
    at_40C = oil_grade(iso_vg).middle_m2ps
    at_100C = viscosity_at_100C(at_40C, index_number)
    window = {row["limit"]: row for row in (table or tables.load("viscosity_window")).rows}
    works_from_K = temperature_of_viscosity(at_40C, at_100C, float(window["operating"]["largest_m2ps"]))
    starts_from_K = temperature_of_viscosity(at_40C, at_100C, float(window["cold_start"]["largest_m2ps"]))
    if temperature_K < starts_from_K - 15:
        require_between(233.15, 423.15, "K", temperature_K=temperature_K)
        return ColdStart(None, "too thick to start", works_from_K, starts_from_K, _SAID["too thick to start"])
    viscosity = viscosity_at(at_40C, at_100C, temperature_K)
    verdict = _verdict(viscosity, window["ideal"], window["operating"], window["cold_start"])
    return ColdStart(viscosity, verdict, works_from_K, starts_from_K, _SAID[verdict])


def _verdict(viscosity: float, ideal: Row, operating: Row, start: Row) -> Verdict:
    if viscosity > start["largest_m2ps"]:
        return "too thick to start"
    if viscosity > operating["largest_m2ps"]:
        return "slow, warm it up"
    if viscosity < operating["least_m2ps"]:
        return "too thin"
    return "ideal" if ideal["least_m2ps"] <= viscosity <= ideal["largest_m2ps"] else "works"
