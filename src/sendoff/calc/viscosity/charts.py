"""Charts: viscosity of an oil at a temperature, and its index."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from sendoff import tables
from sendoff.calc.contract import calculation, refused_as, require_between, require_positive
from sendoff.errors import OutOfRange
from sendoff.tables import Table

MM2PS: Final = 1e-6
AT_40_K: Final = 313.15
AT_100_K: Final = 373.15
PLAIN_INDEX: Final = 100.0
LEAST_VISCOSITY: Final = 2.0


def _double_log(viscosity_m2ps: float) -> float:
    return math.log10(math.log10(viscosity_m2ps / MM2PS + 0.7))


@dataclass(frozen=True, slots=True)
class WaltherFit:
    """Straight line of an oil on the viscosity chart."""

    a_number: float
    b_number: float


@calculation(
    "viscosity",
    "log log (ν + 0.7) = A − B log T",
    symbols={
        "first_m2ps": "ν1",
        "first_K": "T1",
        "second_m2ps": "ν2",
        "second_K": "T2",
        "a_number": "A",
        "b_number": "B",
    },
)
def walther_fit(
    first_m2ps: float, first_K: float, second_m2ps: float, second_K: float, zero_degC_K: float = 273.15
) -> WaltherFit:
    """Straight line of an oil on the standard viscosity chart from two known points.

    log log (ν + 0.7) = A − B log T, ν in mm²/s and T in kelvin.

    Parameters
    ----------
    first_m2ps : float
        Kinematic viscosity at the first temperature [m2/s].
    first_K : float
        First temperature [K].
    second_m2ps : float
        Kinematic viscosity at the second temperature [m2/s].
    second_K : float
        Second temperature [K].
    zero_degC_K : float
        What is added to °C; older sheets use 273 [K].

    Returns
    -------
    WaltherFit
        Constants A and B.

    Raises
    ------
    OutOfRange
        If a viscosity is under 2 mm²/s, temperatures or viscosities are equal, or the warmer oil is the thicker one.

    Notes
    -----
    Mineral oils above 2 mm²/s, between cloud point and boiling.

    Examples
    --------
    32 mm²/s at 40 °C and 5.4 at 100 °C, with 273: A = 9.5259, B = 3.7449.

    >>> found = walther_fit(32e-6, 313.15, 5.4e-6, 373.15, 273.0)
    >>> round(found.a_number, 4), round(found.b_number, 4)
    (9.5259, 3.7449)

    References
    ----------
    .. [1] astm_d341, worked sheet
    """
    require_between(200.0, 500.0, "K", first_K=first_K, second_K=second_K)
    require_between(272.0, 274.0, "K", zero_degC_K=zero_degC_K)
    for name, value in (("first_m2ps", first_m2ps), ("second_m2ps", second_m2ps)):
        require_positive(**{name: value})
        if value < LEAST_VISCOSITY * MM2PS:
            raise OutOfRange(name, value, "must not be under 2 mm²/s")
    if abs(first_K - second_K) < 1.0:
        raise OutOfRange("second_K", second_K, "must differ from the first temperature by at least 1 K")
    shift = zero_degC_K - 273.15
    first_log, second_log = math.log10(first_K + shift), math.log10(second_K + shift)
    slope = (_double_log(first_m2ps) - _double_log(second_m2ps)) / (second_log - first_log)
    if slope <= 0:
        raise OutOfRange("second_m2ps", second_m2ps, "must be thinner where the oil is warmer")
    return WaltherFit(_double_log(first_m2ps) + slope * first_log, slope)


@calculation(
    "viscosity",
    "ν = 10^10^(A − B log T) − 0.7",
    gives="viscosity_m2ps",
    symbols={"at_40C_m2ps": "ν40", "at_100C_m2ps": "ν100", "temperature_K": "T", "viscosity_m2ps": "ν"},
)
def viscosity_at(at_40C_m2ps: float, at_100C_m2ps: float, temperature_K: float) -> float:
    """Viscosity of an oil at a temperature from its viscosities at 40 and 100 °C.

    ν = 10^10^(A − B log T) − 0.7 on the line through both points.

    Parameters
    ----------
    at_40C_m2ps : float
        Kinematic viscosity at 40 °C [m2/s].
    at_100C_m2ps : float
        Kinematic viscosity at 100 °C [m2/s].
    temperature_K : float
        Temperature asked for [K].

    Returns
    -------
    float
        Kinematic viscosity [m2/s].

    Raises
    ------
    OutOfRange
        If the oil is not a real one, or the temperature outside -40 to 150 °C, or the oil is stiff there.

    Notes
    -----
    Down to the pour point. Winter oils bend off the line in deep cold.

    Examples
    --------
    >>> round(viscosity_at(32e-6, 5.4e-6, 353.15) * 1e6, 2)
    8.53

    References
    ----------
    .. [1] astm_d341, worked sheet
    """
    require_between(233.15, 423.15, "K", temperature_K=temperature_K)
    with refused_as(first_m2ps="at_40C_m2ps", second_m2ps="at_100C_m2ps"):
        fit = walther_fit(at_40C_m2ps, AT_40_K, at_100C_m2ps, AT_100_K)
    inner = fit.a_number - fit.b_number * math.log10(temperature_K)
    if inner > 0.9 or 10**inner < math.log10(LEAST_VISCOSITY * 0.1 + 0.7):
        raise OutOfRange("temperature_K", temperature_K, "leaves the range in which this oil's line holds")
    found = float(10 ** (10**inner) - 0.7)
    if found <= 0:
        raise OutOfRange("temperature_K", temperature_K, "leaves the range in which this oil's line holds")
    return found * MM2PS


@calculation(
    "viscosity",
    "log T = (A − log log (ν + 0.7)) / B",
    gives="temperature_K",
    symbols={"at_40C_m2ps": "ν40", "at_100C_m2ps": "ν100", "viscosity_m2ps": "ν", "temperature_K": "T"},
)
def temperature_of_viscosity(at_40C_m2ps: float, at_100C_m2ps: float, viscosity_m2ps: float) -> float:
    """Temperature at which an oil has a viscosity.

    log T = (A − log log (ν + 0.7))/B on the line through 40 and 100 °C.

    Parameters
    ----------
    at_40C_m2ps : float
        Kinematic viscosity at 40 °C [m2/s].
    at_100C_m2ps : float
        Kinematic viscosity at 100 °C [m2/s].
    viscosity_m2ps : float
        Viscosity asked for [m2/s].

    Returns
    -------
    float
        Temperature [K].

    Raises
    ------
    OutOfRange
        If the oil is not a real one, the viscosity is under 2 mm²/s, or the temperature falls outside -60 to 200 °C.

    Notes
    -----
    As `viscosity_at`.

    Examples
    --------
    An ISO VG 32 oil is 1,000 mm²/s at -12.2 °C.

    >>> round(temperature_of_viscosity(32e-6, 5.4e-6, 1000e-6) - 273.15, 1)
    -12.2

    References
    ----------
    .. [1] astm_d341, worked sheet
    """
    require_positive(viscosity_m2ps=viscosity_m2ps)
    if viscosity_m2ps < LEAST_VISCOSITY * MM2PS:
        raise OutOfRange("viscosity_m2ps", viscosity_m2ps, "must not be under 2 mm²/s")
    with refused_as(first_m2ps="at_40C_m2ps", second_m2ps="at_100C_m2ps"):
        fit = walther_fit(at_40C_m2ps, AT_40_K, at_100C_m2ps, AT_100_K)
    logarithm = (fit.a_number - _double_log(viscosity_m2ps)) / fit.b_number
    if not math.log10(213.15) <= logarithm <= math.log10(473.15):
        raise OutOfRange("viscosity_m2ps", viscosity_m2ps, "is not reached between -60 and 200 °C")
    return float(10**logarithm)


def _index(at_40C_m2ps: float, at_100C_m2ps: float, held: Table) -> float:
    require_positive(at_40C_m2ps=at_40C_m2ps, at_100C_m2ps=at_100C_m2ps)
    hot, cold = at_100C_m2ps / MM2PS, at_40C_m2ps / MM2PS
    rows = [
        one
        for one in held.rows
        if one["least_m2ps"] / MM2PS - 1e-9 <= hot <= one["largest_m2ps"] / MM2PS + 1e-9
    ]
    if not rows:
        raise OutOfRange("at_100C_m2ps", at_100C_m2ps, "must lie from 2 to 500 mm²/s")
    if cold <= hot:
        raise OutOfRange("at_40C_m2ps", at_40C_m2ps, "must be above the viscosity at 100 °C")
    row = rows[0]
    low = float(row["a_number"] * hot**2 + row["b_number"] * hot + row["c_number"])
    high = float(row["d_number"] * hot**2 + row["e_number"] * hot + row["f_number"])
    if cold >= high:
        return 100 * (low - cold) / (low - high)
    return float((10 ** (math.log10(high / cold) / math.log10(hot)) - 1) / 0.00715 + 100)


@calculation(
    "viscosity",
    "U ≥ H: VI = 100 (L − U)/(L − H); U < H: VI = (10^N − 1)/0.00715 + 100, N = log(H/U)/log Y",
    gives="index_number",
    symbols={"at_40C_m2ps": "U", "at_100C_m2ps": "Y", "index_number": "VI"},
    tables={"table": "viscosity_index_segments"},
)
def viscosity_index(at_40C_m2ps: float, at_100C_m2ps: float, table: Table | None = None) -> float:
    """Viscosity index of an oil: how little it thickens in the cold.

    Procedure A, 100 (L − U)/(L − H), up to 100; procedure B, (10^N − 1)/0.00715 + 100, above.

    Parameters
    ----------
    at_40C_m2ps : float
        Kinematic viscosity at 40 °C [m2/s].
    at_100C_m2ps : float
        Kinematic viscosity at 100 °C [m2/s].
    table : Table
        Parabolas of L and H.

    Returns
    -------
    float
        Viscosity index, not rounded [-].

    Raises
    ------
    OutOfRange
        If the viscosity at 100 °C is outside 2 to 500 mm²/s or that at 40 °C not above it.

    Notes
    -----
    Oils from 2 mm²/s at 100 °C. L and H are recalled parabolas, within 0.12 % of the standard's table.

    Examples
    --------
    73.3 and 8.86 mm²/s: 92 in the standard's example; 22.83 and 5.05: 156.

    >>> round(viscosity_index(73.3e-6, 8.86e-6)), round(viscosity_index(22.83e-6, 5.05e-6))
    (92, 156)

    References
    ----------
    .. [1] astm_d2270, 5.1.4 and 6.1.4
    """
    return _index(at_40C_m2ps, at_100C_m2ps, table or tables.load("viscosity_index_segments"))


@calculation(
    "viscosity",
    "ν100 for which VI(ν40, ν100) is the index given",
    gives="at_100C_m2ps",
    symbols={"at_40C_m2ps": "ν40", "index_number": "VI", "at_100C_m2ps": "ν100"},
)
def viscosity_at_100C(at_40C_m2ps: float, index_number: float = PLAIN_INDEX) -> float:
    """Viscosity at 100 °C of an oil known by its viscosity at 40 °C and its index.

    The index is solved for the viscosity at 100 °C by halving.

    Parameters
    ----------
    at_40C_m2ps : float
        Kinematic viscosity at 40 °C [m2/s].
    index_number : float
        Viscosity index, 100 for a plain mineral oil [-].

    Returns
    -------
    float
        Kinematic viscosity at 100 °C [m2/s].

    Raises
    ------
    OutOfRange
        If the viscosity is outside 5 to 3,000 mm²/s or the index outside 0 to 250, or no such oil exists.

    Notes
    -----
    Oils of at least 2 mm²/s at 100 °C.

    Examples
    --------
    A VG 32 oil of index 102 has 5.4 mm²/s.

    >>> round(viscosity_at_100C(32e-6, 102.2) * 1e6, 2)
    5.4

    References
    ----------
    .. [1] astm_d2270, procedures A and B
    """
    require_between(5e-6, 3000e-6, "m²/s", at_40C_m2ps=at_40C_m2ps)
    require_between(0.0, 250.0, index_number=index_number)
    low, high = LEAST_VISCOSITY * MM2PS, min(499.0 * MM2PS, at_40C_m2ps * 0.95)
    held = tables.load("viscosity_index_segments")
    if _index(at_40C_m2ps, low, held) > index_number or _index(at_40C_m2ps, high, held) < index_number:
        raise OutOfRange("index_number", index_number, "fits no oil of this viscosity")
    for _ in range(80):
        middle = (low + high) / 2
        if _index(at_40C_m2ps, middle, held) < index_number:
            low = middle
        else:
            high = middle
    found = (low + high) / 2
    viscosity_index(at_40C_m2ps, found)  # the last trial, left among the steps
    return found


@calculation(
    "viscosity",
    "ν = t / 4.6324 above 350 s at 100 °F",
    gives="viscosity_m2ps",
    symbols={"saybolt_s": "t", "viscosity_m2ps": "ν"},
)
def saybolt_viscosity(saybolt_s: float) -> float:
    """Kinematic viscosity of an oil from its Saybolt seconds.

    ν = t/4.6324 in mm²/s, for oils of 350 seconds and more at 100 °F.

    Parameters
    ----------
    saybolt_s : float
        Saybolt universal seconds at 100 °F [s].

    Returns
    -------
    float
        Kinematic viscosity [m2/s].

    Raises
    ------
    OutOfRange
        If it is under 350 or over 100,000 seconds.

    Notes
    -----
    Thick oils only, where the relation is a plain factor; from memory.

    Examples
    --------
    7,500 seconds, the usual end of cold start: 1,619 mm²/s.

    >>> round(saybolt_viscosity(7500.0) * 1e6)
    1619

    References
    ----------
    .. [1] astm_d2161, factor at 100 °F
    """
    require_between(350.0, 100_000.0, "s", saybolt_s=saybolt_s)
    return saybolt_s / 4.6324 * MM2PS
