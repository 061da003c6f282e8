"""Units: the only place where values are converted.

Inside, every number is SI and its name carries the unit (`axle_load_kg`). People and files use the units they
chose, as strings with a unit ("110 psi", "9 ft 6 in", "2-5/16 in"). A `Quantity` keeps the text as entered beside
the SI value derived from it, so nothing a person wrote is ever rounded away.

Factors are exact where the definition is exact (international pound and foot 1959; NIST SP 811:2008, appendix B).
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

System = Literal["us", "metric"]

_LB: Final = Fraction("0.45359237")  # kg, exact: international avoirdupois pound (NIST SP 811 B.8)
_G: Final = Fraction("9.80665")  # m/s2, exact: standard acceleration of free fall (3rd CGPM 1901)
_IN: Final = Fraction("0.0254")  # m, exact: international inch
_FT: Final = 12 * _IN
_MI: Final = 5280 * _FT
_GAL: Final = 231 * _IN**3  # m3, exact: US liquid gallon
_LBF: Final = _LB * _G
_PSI: Final = _LBF / _IN**2
_CMIL: Final = (
    Fraction(math.pi) / 4 * (_IN / 1000) ** 2
)  # m2: circular mil, a circle of 1/1000 in (NIST SP 811 B.8)

STANDARD_GRAVITY_mps2: Final = 9.80665

FACTORS: Final[dict[str, dict[str, Fraction]]] = {
    "mass": {
        "kg": Fraction(1),
        "g": Fraction(1, 1000),
        "t": Fraction(1000),
        "lb": _LB,
        "oz": _LB / 16,
        "ton": 2000 * _LB,
    },
    "force": {"N": Fraction(1), "kN": Fraction(1000), "daN": Fraction(10), "lbf": _LBF},
    "length": {
        "m": Fraction(1),
        "mm": Fraction(1, 1000),
        "cm": Fraction(1, 100),
        "km": Fraction(1000),
        "in": _IN,
        "ft": _FT,
        "yd": 3 * _FT,
        "mi": _MI,
    },
    "area": {
        "m2": Fraction(1),
        "mm2": Fraction(1, 10**6),
        "cm2": Fraction(1, 10**4),
        "in2": _IN**2,
        "ft2": _FT**2,
        "cmil": _CMIL,
    },
    "volume": {
        "m3": Fraction(1),
        "L": Fraction(1, 1000),
        "mL": Fraction(1, 10**6),
        "cm3": Fraction(1, 10**6),
        "in3": _IN**3,
        "ft3": _FT**3,
        "yd3": 27 * _FT**3,
        "gal": _GAL,
        "qt": _GAL / 4,
        "pt": _GAL / 8,
        "floz": _GAL / 128,
    },
    "flow": {
        "m3/s": Fraction(1),
        "L/min": Fraction(1, 60000),
        "cm3/s": Fraction(1, 10**6),
        "gal/min": _GAL / 60,
        "gpm": _GAL / 60,
        "in3/s": _IN**3,
    },
    "pressure": {
        "Pa": Fraction(1),
        "kPa": Fraction(1000),
        "MPa": Fraction(10**6),
        "bar": Fraction(10**5),
        "psi": _PSI,
        "ksi": 1000 * _PSI,
    },
    "torque": {"N·m": Fraction(1), "Nm": Fraction(1), "lbf·ft": _LBF * _FT, "lbf·in": _LBF * _IN},
    "energy": {"J": Fraction(1), "kJ": Fraction(1000), "Wh": Fraction(3600), "kWh": Fraction(3_600_000)},
    "power": {"W": Fraction(1), "kW": Fraction(1000), "hp": 550 * _LBF * _FT},
    "duration": {
        "s": Fraction(1),
        "ms": Fraction(1, 1000),
        "min": Fraction(60),
        "h": Fraction(3600),
        "d": Fraction(86400),
        "wk": Fraction(604800),
    },
    "speed": {
        "m/s": Fraction(1),
        "km/h": Fraction(1000, 3600),
        "mph": _MI / 3600,
        "ft/s": _FT,
        "ft/min": _FT / 60,
        "in/s": _IN,
        "mm/s": Fraction(1, 1000),
    },
    "rotation": {"rev/s": Fraction(1), "rpm": Fraction(1, 60), "rad/s": 1 / (2 * Fraction(math.pi))},
    "acceleration": {"m/s2": Fraction(1), "g": _G, "ft/s2": _FT},
    "voltage": {"V": Fraction(1), "mV": Fraction(1, 1000), "kV": Fraction(1000)},
    "current": {"A": Fraction(1), "mA": Fraction(1, 1000)},
    "resistance": {"ohm": Fraction(1), "mohm": Fraction(1, 1000)},
    "resistance_per_length": {
        "ohm/m": Fraction(1),
        "ohm/km": Fraction(1, 1000),
        "ohm/kft": 1 / (1000 * _FT),
    },
    "charge": {"C": Fraction(1), "Ah": Fraction(3600)},
    "density": {
        "kg/m3": Fraction(1),
        "lb/ft3": _LB / _FT**3,
        "lb/yd3": _LB / (27 * _FT**3),
        "lb/gal": _LB / _GAL,
        "kg/L": Fraction(1000),
    },
    "viscosity": {"m2/s": Fraction(1), "cSt": Fraction(1, 10**6), "mm2/s": Fraction(1, 10**6)},
    "stiffness": {"N/m": Fraction(1), "N/mm": Fraction(1000), "lbf/in": _LBF / _IN},
    "line_load": {"kg/m": Fraction(1), "lb/ft": _LB / _FT},
    "area_load": {"kg/m2": Fraction(1), "lb/ft2": _LB / _FT**2},
    "temperature_change": {"K": Fraction(1), "delta_degC": Fraction(1), "delta_degF": Fraction(5, 9)},
    "ratio": {"": Fraction(1), "%": Fraction(1, 100)},
    "number": {"": Fraction(1)},
    "count": {"": Fraction(1)},
}
"""Factor to the SI unit for each unit of each kind of quantity; temperature and angle are handled beside it."""

SI_UNIT: Final[dict[str, str]] = {kind: next(iter(units)) for kind, units in FACTORS.items()} | {
    "temperature": "K",
    "angle": "rad",
}

TEMPERATURES: Final = ("K", "degC", "degF")
ANGLES: Final = ("rad", "deg")

ALIASES: Final[dict[str, str]] = {
    "lbs": "lb", "tons": "ton", "kgs": "kg", "inch": "in", "inches": "in", '"': "in", "feet": "ft", "foot": "ft",
    "'": "ft",
    "miles": "mi", "mile": "mi", "N*m": "N·m", "N.m": "N·m", "N-m": "N·m", "lbf*ft": "lbf·ft", "lbf.ft": "lbf·ft",
    "lbf-ft": "lbf·ft",
    "lbf ft": "lbf·ft", "lb-ft": "lbf·ft", "ft-lb": "lbf·ft", "ft-lbf": "lbf·ft", "ft·lbf": "lbf·ft",
    "lbf-in": "lbf·in",
    "lbf*in": "lbf·in", "lbf in": "lbf·in", "in-lb": "lbf·in", "in-lbf": "lbf·in", "lb-in": "lbf·in",
    "lb·ft": "lbf·ft", "lb ft": "lbf·ft", "ft·lb": "lbf·ft", "ft lb": "lbf·ft", "ft lbf": "lbf·ft",
    "ft.lb": "lbf·ft", "ft*lb": "lbf·ft",
    "foot-pounds": "lbf·ft", "foot pounds": "lbf·ft", "pound-feet": "lbf·ft", "lb·in": "lbf·in", "lb in": "lbf·in",
    "in·lb": "lbf·in",
    "in lb": "lbf·in", "in·lbf": "lbf·in", "N m": "N·m", "newton meters": "N·m",
    "pound": "lb", "pounds": "lb", "lbm": "lb", "tonne": "t", "tonnes": "t", "metric ton": "t", "metric tons": "t",
    "short ton": "ton", "short tons": "ton", "newton": "N", "newtons": "N",
    "pounds-force": "lbf", "pounds force": "lbf",
    "kilogram": "kg", "kilograms": "kg", "ounce": "oz", "ounces": "oz", "meter": "m",
    "meters": "m",
    "yard": "yd", "yards": "yd", "kilometer": "km", "kilometers": "km", "gallon": "gal", "gallons": "gal",
    "quart": "qt", "quarts": "qt",
    "fl oz": "floz", "pint": "pt", "pints": "pt", "psig": "psi", "mi/h": "mph", "km/hr": "km/h", "hrs": "h",
    "mins": "min",
    "sq ft": "ft2", "sq in": "in2", "cu ft": "ft3", "cu in": "in3", "cuyd": "yd3", "lb/cu yd": "lb/yd3",
    "lb/cu ft": "lb/ft3",
    "watt": "W", "watts": "W", "ohms": "ohm", "amp hours": "Ah", "amp-hours": "Ah", "A·h": "Ah", "W·h": "Wh",
    "l": "L", "liter": "L", "liters": "L", "ml": "mL",
    "gal/min": "gpm", "°C": "degC", "°F": "degF", "C°": "degC", "F°": "degF", "°": "deg", "degrees": "deg",
    "degree": "deg",
    "hours": "h", "hour": "h", "hr": "h", "days": "d", "day": "d", "seconds": "s", "second": "s", "sec": "s",
    "minutes": "min", "minute": "min",
    "weeks": "wk", "week": "wk", "Ω": "ohm", "mΩ": "mohm", "ohm/1000ft": "ohm/kft", "ohm/1000 ft": "ohm/kft",
    "m³": "m3", "m²": "m2", "mm²": "mm2", "cm²": "cm2", "cm³": "cm3", "in²": "in2", "in³": "in3", "ft²": "ft2",
    "ft³": "ft3", "yd³": "yd3",
    "sqft": "ft2", "cuft": "ft3", "cu yd": "yd3", "cc": "cm3", "percent": "%", "volt": "V", "volts": "V",
    "amp": "A", "amps": "A",
    "kmh": "km/h", "kph": "km/h", "lb/yd³": "lb/yd3", "lb/ft³": "lb/ft3", "lb/ft²": "lb/ft2", "psf": "lb/ft2",
    "rev/min": "rpm", "r/min": "rpm",
    "m/s²": "m/s2", "ft/s²": "ft/s2",
    "kg/m³": "kg/m3",
}  # fmt: skip

KIND_ALIASES: Final[dict[str, dict[str, str]]] = {
    "temperature": {"F": "degF", "C": "degC"},
    "temperature_change": {
        "degF": "delta_degF",
        "degC": "delta_degC",
        "F": "delta_degF",
        "C": "delta_degC",
    },
    "force": {"lb": "lbf"},
    "stiffness": {"lb/in": "lbf/in"},
}
"""What is plain only once the kind is known: C is a degree of temperature, and a coulomb of charge; a force of so many
pounds is in pounds-force."""

_PREFIXED: Final = frozenset({"mm", "mm2", "mL", "ml", "ms", "mV", "mA", "mohm", "mΩ", "MPa", "mm/s"})
"""Where a capital M is a million and a small one a thousandth."""

SUFFIX_KIND: Final[dict[str, str]] = {
    "kg": "mass", "N": "force", "m": "length", "m2": "area", "m3": "volume", "m3ps": "flow", "Pa": "pressure",
    "Nm": "torque",
    "J": "energy", "W": "power", "s": "duration", "mps": "speed", "rps": "rotation", "mps2": "acceleration",
    "V": "voltage",
    "A": "current",
    "ohm": "resistance", "ohmpm": "resistance_per_length", "C": "charge", "kgpm3": "density", "m2ps": "viscosity",
    "Npm": "stiffness", "kgpm": "line_load", "kgpm2": "area_load", "K": "temperature", "dK": "temperature_change",
    "rad": "angle",
    "ratio": "ratio", "number": "number", "count": "count",
}  # fmt: skip
"""How the last part of a name tells its kind of quantity: `axle_load_kg` is a mass, `bed_angle_rad` an angle."""


def kind_of_name(name: str) -> str | None:
    """Return the kind of quantity the name's unit suffix tells, or None for a name without one.

    >>> kind_of_name("axle_load_kg"), kind_of_name("edition")
    ('mass', None)
    """
    _, underscore, suffix = name.rpartition("_")
    return SUFFIX_KIND.get(suffix) if underscore else None


class UnitError(ValueError):
    """A text that is not a value of the wanted kind; `cure` says what would be."""

    def __init__(self, problem: str, cure: str) -> None:
        self.problem, self.cure = problem, cure
        super().__init__(f"{problem}. {cure}")


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value as somebody wrote it, and the SI number it stands for."""

    kind: str
    given: str
    si: float

    @property
    def unit(self) -> str:
        """The unit as entered (the first one of "9 ft 6 in")."""
        return unit_named(_split(self.given)[0][1], self.kind)


_NUMBER: Final = r"[+\-−]?(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]+)?(?:\.[0-9]+)?(?:[eE][+\-]?[0-9]{1,2})?"
_FRACTION: Final = r"(?:[0-9]+(?:-|\s+))?[0-9]+/[0-9]+"
_MIXED: Final = re.compile(
    r"^(?P<sign>[+\-−]?)(?:(?P<whole>[0-9]+)(?:-|\s+))?(?P<top>[0-9]+)/(?P<bottom>[0-9]+)$"
)
_TERM: Final = re.compile(
    rf"\s*(?P<number>[+\-−]?{_FRACTION}|{_NUMBER})\s*(?P<unit>[^\d\s,+\-−][^,]*?)?\s*(?=$|(?<=\S)\s+[0-9])"
)
_FEET_INCHES: Final = re.compile(
    rf"""^(?P<feet>[+\-−]?[0-9]+)\s*(?:ft|feet|foot|')(?:\s+|-)?(?P<inches>{_FRACTION}|[0-9]+(?:\.[0-9]+)?)\s*(?:inches|inch|in|")$"""
)
"""Feet and inches without the spaces: 9'6", 9ft6in, 9'-6"."""
_COMPOUND: Final[dict[str, tuple[str, str, int]]] = {
    "length": ("ft", "in", 12),
    "duration": ("h", "min", 60),
    "mass": ("lb", "oz", 16),
}
LONGEST_TEXT: Final = 60


def _number(text: str) -> Fraction:
    mixed = _MIXED.match(text)
    if mixed:
        if int(mixed["bottom"]) == 0:
            raise UnitError(f"'{text}' divides by nothing", "Write a fraction with a number below the line.")
        value = Fraction(int(mixed["whole"] or 0)) + Fraction(int(mixed["top"]), int(mixed["bottom"]))
        return -value if mixed["sign"] in {"-", "−"} else value
    try:
        return Fraction(text.replace(",", "").replace("−", "-"))
    except ValueError:
        raise UnitError(
            f"'{text}' is not a number", 'Write a number and its unit, such as "110 psi".'
        ) from None


def _split(text: str) -> list[tuple[Fraction, str]]:
    """Split "9 ft 6 in" into its terms; one term for everything else."""
    if len(text) > LONGEST_TEXT:
        raise UnitError(
            "the value is too long to be a measure", 'Write a number and its unit, such as "110 psi".'
        )
    close = _FEET_INCHES.match(text)
    if close:
        text = f"{close['feet']} ft {close['inches']} in"
    terms, at = [], 0
    while at < len(text):
        found = _TERM.match(text, at)
        if not found or not found["number"] or found.end() == at:
            raise UnitError(
                f"'{text}' is not a number with a unit", 'Write a number and its unit, such as "110 psi".'
            )
        unit = (found["unit"] or "").strip()
        terms.append((_number(found["number"].strip()), ALIASES.get(unit, unit)))
        at = found.end()
    if not terms:
        raise UnitError("no value is given", 'Write a number and its unit, such as "110 psi".')
    return terms


def units_of(kind: str) -> tuple[str, ...]:
    """Return the units a kind of quantity may be written in."""
    if kind == "temperature":
        return TEMPERATURES
    if kind == "angle":
        return ANGLES
    return tuple(FACTORS[kind])


def unit_named(text: str, kind: str) -> str:
    """Return the unit of this kind that a person means, or the text itself where none is meant.

    Capitals are passed over ("PSI", "Lb") unless they would turn a thousandth into a million ("MV").

    >>> unit_named("PSI", "pressure"), unit_named("F", "temperature"), unit_named("MV", "voltage")
    ('psi', 'degF', 'MV')
    """
    allowed = units_of(kind)
    if text in allowed:
        return text
    own = KIND_ALIASES.get(kind, {})
    unit = own.get(text) or ALIASES.get(text, text)
    unit = own.get(unit, unit)
    if unit in allowed:
        return unit
    near = [other for other in (*allowed, *ALIASES) if other.casefold() == unit.casefold()]
    found = {
        own.get(other, ALIASES.get(other, other))
        for other in near
        if other not in _PREFIXED or other[0] == unit[0]
    }
    meant = [other for other in found if other in allowed]
    return meant[0] if len(meant) == 1 else unit


def to_si(value: float | Fraction, unit: str, kind: str) -> float:
    """Return `value` in `unit` as the SI number of its kind.

    >>> round(to_si(110, "psi", "pressure"))
    758423
    """
    unit = unit_named(unit, kind)
    if unit not in units_of(kind):
        allowed = ", ".join(name or "no unit" for name in units_of(kind))
        raise UnitError(
            f"'{unit}' is not a unit of {kind.replace('_', ' ')}" if unit else "the unit is missing",
            f"Use one of: {allowed}.",
        )
    exact = Fraction(value)
    if kind == "temperature":
        absolute = {
            "K": exact,
            "degC": exact + Fraction("273.15"),
            "degF": (exact + Fraction("459.67")) * Fraction(5, 9),
        }[unit]
        if absolute < 0:
            raise UnitError("that is colder than absolute zero", "Check the sign and the unit.")
        return float(absolute)
    if kind == "angle":
        return float(exact) if unit == "rad" else math.radians(float(exact))
    try:
        return float(exact * FACTORS[kind][unit])
    except OverflowError:
        raise UnitError("the value is beyond any measure", "Check the number and its exponent.") from None


def from_si(si: float, unit: str, kind: str) -> float:
    """Return the SI number `si` of `kind` in `unit`.

    >>> from_si(0.3048, "in", "length")
    12.0
    """
    unit = unit_named(unit, kind)
    if unit not in units_of(kind):
        raise UnitError(
            f"'{unit}' is not a unit of {kind.replace('_', ' ')}", f"Use one of: {', '.join(units_of(kind))}."
        )
    if kind == "temperature":
        return {"K": si, "degC": si - 273.15, "degF": si * 9 / 5 - 459.67}[unit]
    if kind == "angle":
        return si if unit == "rad" else math.degrees(si)
    return float(Fraction(si) / FACTORS[kind][unit])


def parse(text: str, kind: str) -> Quantity:
    """Read a value with its unit, of the wanted kind.

    Raises
    ------
    UnitError
        If the text is no number, has no unit where one is needed, or its unit is of another kind.

    Examples
    --------
    >>> parse("2-5/16 in", "length").si
    0.0587375
    >>> parse("9 ft 6 in", "length").si
    2.8956
    >>> parse("110 lb", "pressure")
    Traceback (most recent call last):
    ...
    sendoff.units.UnitError: 'lb' is not a unit of pressure. Use one of: Pa, kPa, MPa, bar, psi, ksi.
    """
    plain = " ".join(text.split())
    terms = _split(plain)
    if len(terms) > 1:
        large, small, most = _COMPOUND.get(kind, ("", "", 0))
        if len(terms) > 2 or [unit for _, unit in terms] != [large, small] or not 0 <= terms[1][0] < most:
            raise UnitError(
                f"'{plain}' has more than one value",
                'Write one number and one unit (feet and inches: "9 ft 6 in").',
            )
        factors = FACTORS[kind]
        size = abs(terms[0][0]) * factors[large] + terms[1][0] * factors[small]
        return Quantity(kind, plain, float(-size if plain[0] in "-−" else size))
    value, unit = terms[0]
    si = to_si(value, unit, kind)
    if not math.isfinite(si):
        raise UnitError(f"'{plain}' is beyond any measure", "Check the number and its exponent.")
    return Quantity(kind, plain, si)
