"""How a value is shown to a person: in the units they chose, rounded the way its role asks.

Shown capacities round down and demands round up, so that no rounding ever flatters a limit; set points go to the
step of the gauge they are read on. Verdicts never use a shown value.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from sendoff import units

Role = Literal["capacity", "demand", "set_point", "fact"]
"""capacity: the most it may bear; demand: what is asked of it; set_point: what somebody sets; fact: all else."""

SIGNS: Final = {
    "degF": "°F",
    "degC": "°C",
    "m2": "m²",
    "m3": "m³",
    "in2": "in²",
    "ft2": "ft²",
    "ft3": "ft³",
    "yd3": "yd³",
    "mm2": "mm²",
    "in3": "in³",
    "cm3": "cm³",
    "in3/s": "in³/s",
    "ohm": "Ω",
    "mohm": "mΩ",
    "deg": "°",
    "kg/m2": "kg/m²",
    "lb/ft2": "lb/ft²",
    "kg/m3": "kg/m³",
    "lb/yd3": "lb/yd³",
    "m/s2": "m/s²",
    "ohm/kft": "Ω/1000 ft",
    "ohm/km": "Ω/km",
    "floz": "fl oz",
}

US_ONLY: Final = frozenset(
    "lb oz ton lbf in ft yd mi in2 ft2 in3 ft3 yd3 gal qt pt floz gpm in3/s psi ksi lbf·ft lbf·in hp mph "
    "ft/s ft/min in/s ft/s2 ohm/kft lb/ft3 lb/yd3 lb/gal lbf/in lb/ft lb/ft2 degF delta_degF".split()
)
METRIC_ONLY: Final = frozenset(
    "kg g t N kN daN m mm cm km m2 mm2 cm2 m3 L mL cm3 m3/s L/min cm3/s Pa kPa MPa bar N·m Nm m/s km/h mm/s "
    "m/s2 ohm/m ohm/km kg/m3 kg/L N/m N/mm kg/m kg/m2 K degC delta_degC".split()
)
"""Units only one system's readers use; volts, amperes, ampere-hours and the like belong to both."""

_DEFAULT: Final[dict[str, tuple[str, str]]] = {
    "mass": ("lb", "kg"),
    "force": ("lbf", "N"),
    "length": ("in", "mm"),
    "area": ("ft2", "m2"),
    "volume": ("qt", "L"),
    "flow": ("gpm", "L/min"),
    "pressure": ("psi", "kPa"),
    "torque": ("lbf·ft", "N·m"),
    "energy": ("Wh", "Wh"),
    "power": ("W", "W"),
    "duration": ("min", "min"),
    "speed": ("mph", "km/h"),
    "rotation": ("rpm", "rpm"),
    "acceleration": ("g", "g"),
    "voltage": ("V", "V"),
    "current": ("A", "A"),
    "resistance": ("ohm", "ohm"),
    "resistance_per_length": ("ohm/kft", "ohm/km"),
    "charge": ("Ah", "Ah"),
    "density": ("lb/ft3", "kg/m3"),
    "viscosity": ("cSt", "cSt"),
    "stiffness": ("lbf/in", "N/mm"),
    "line_load": ("lb/ft", "kg/m"),
    "area_load": ("lb/ft2", "kg/m2"),
    "temperature": ("degF", "degC"),
    "temperature_change": ("delta_degF", "K"),
    "angle": ("deg", "deg"),
    "ratio": ("%", "%"),
    "number": ("", ""),
    "count": ("", ""),
}

_TRUE_MINUS: Final = "\N{MINUS SIGN}"


@dataclass(frozen=True, slots=True)
class Shown:
    """A value ready for a page: the figure and its unit apart, so that each can be set in its own size."""

    number: str
    unit: str

    def __str__(self) -> str:
        return f"{self.number} {self.unit}".strip()


def unit_for(kind: str, si: float, system: units.System) -> str:
    """Return the unit a person of `system` reads a value of this kind and size in."""
    unit = _DEFAULT[kind][0 if system == "us" else 1]
    if kind == "length":
        if abs(si) >= units.to_si(1000, "m", "length"):
            return "mi" if system == "us" else "km"
        if system == "us":
            return "ft" if abs(si) >= units.to_si(4, "ft", "length") else "in"
        return "m" if abs(si) >= 1 else "mm"
    if kind == "force" and system == "metric":
        return "kN" if abs(si) >= 10_000 else "N"
    if kind == "volume" and system == "us":
        return "gal" if abs(si) >= units.to_si(4, "gal", "volume") else "qt"
    return unit


def _step(kind: str, unit: str, value: float) -> Fraction:
    """Return the step a shown value is rounded to."""
    size = abs(value)
    if unit in {"lb", "kg", "lbf", "N", "lb/ft", "kg/m"}:
        return Fraction(10) if size >= 1000 else Fraction(1) if size >= 20 else Fraction(1, 10)
    if unit in {
        "psi",
        "kPa",
        "lbf·ft",
        "N·m",
        "mm",
        "mph",
        "km/h",
        "degF",
        "degC",
        "W",
        "Wh",
        "deg",
        "lb/ft2",
        "kg/m2",
        "kg/m3",
        "mi",
        "km",
        "min",
    }:
        return Fraction(1) if size >= 10 or kind in {"temperature", "pressure"} else Fraction(1, 10)
    if unit == "%":
        return Fraction(1, 10)
    if unit in {"in", "A", "qt", "gal", "L", "ft2", "kN", "lb/ft3", "Ah", "cSt"}:
        return Fraction(1, 10)
    if unit in {"m", "V", "m2", "yd3", "m3", "ohm"}:
        return Fraction(1, 100)
    digits = 2 - (math.floor(math.log10(size)) if size else 0)
    return Fraction(10) ** -max(min(digits, 9), -9)


def _rounded(value: float, step: Fraction, role: Role) -> Fraction:
    exact = Fraction(value)
    whole = exact / step
    nearest = Fraction(round(whole))
    if abs(whole - nearest) < Fraction(1, 10**6):  # already on a step, but for the last bits of a float
        return nearest * step
    if role == "capacity":
        return Fraction(math.floor(whole)) * step
    if role == "demand":
        return Fraction(math.ceil(whole)) * step
    return Fraction(math.floor(whole + Fraction(1, 2))) * step


def _digits(value: Fraction, step: Fraction) -> str:
    places = 0
    while (step * 10**places).denominator != 1:
        places += 1
    text = f"{abs(float(value)):,.{places}f}"
    return f"{_TRUE_MINUS}{text}" if value < 0 and float(text.replace(",", "")) else text


def figure(value: float, step: Fraction | int, role: Role = "fact") -> str:
    """Return `value` rounded to `step` as a figure with thousands commas and a true minus.

    >>> figure(-1234.56, 10), figure(1234.56, 10, "capacity")
    ('−1,230', '1,230')
    """
    return _digits(_rounded(value, Fraction(step), role), Fraction(step))


_ENTERED: Final = re.compile(
    r"^(?P<number>[+\-−]?(?:[0-9]+[\s\-]+(?=[0-9]+/))?[0-9.,/]*[0-9](?:[eE][+\-]?[0-9]+)?)\s*(?P<unit>[^0-9].*)?$"
)
_COMPOUND: Final = re.compile(r"^(?P<number>\S+\s*(?:ft|h|lb)\s*[0-9./\- ]*[0-9])\s*(?P<unit>in|min|oz)$")


def _as_entered(given: str) -> tuple[str, str]:
    """Return number and unit as entered, thousands set with commas, the minus a true one."""
    if "'" in given:  # 9'6" is whole as it stands
        return given, ""
    found = _COMPOUND.match(given) or _ENTERED.match(given)
    number, unit = (found["number"], (found["unit"] or "").strip()) if found else (given, "")
    plain = number.replace(",", "")
    if plain.lstrip("+-−").isdigit() and unit:
        number = f"{int(plain.replace('−', '-')):,}"
    return number.replace("-", _TRUE_MINUS) if number.startswith("-") else number, unit


def show(
    kind: str,
    si: float,
    system: units.System,
    role: Role = "fact",
    given: str | None = None,
    unit: str | None = None,
) -> Shown:
    """Return a value as a person of `system` reads it.

    A value entered in that person's own units is shown as it was entered, never converted there and back.

    >>> [str(show("pressure", 758423.3, system, given="110 psi")) for system in ("us", "metric")]
    ['110 psi', '758 kPa']
    >>> str(show("mass", 3175.147, "metric", "capacity")), str(show("mass", 3175.147, "metric", "demand"))
    ('3,170 kg', '3,180 kg')
    """
    if not math.isfinite(si):
        raise ValueError("only a finite value can be shown")
    foreign = METRIC_ONLY if system == "us" else US_ONLY
    if given is not None and unit is None:
        try:
            entered_unit = units.Quantity(kind, given, si).unit
        except units.UnitError:
            entered_unit = ""
        if entered_unit not in foreign or kind == "acceleration":  # g is a gram, but also a share of gravity
            number, shown_unit = _as_entered(given)
            shown_unit = units.unit_named(shown_unit, kind)
            return Shown(number, _sign(shown_unit))
    if kind == "count":
        return Shown(figure(si, 1, role), "")
    if kind == "number":
        return fine(kind, si, system, role)
    unit = unit or unit_for(kind, si, system)
    if unit == "ft":
        return _feet_and_inches(si, role)
    value = units.from_si(si, unit, kind)
    step = _step(kind, unit, value)
    return Shown(_digits(_rounded(value, step, role), step), _sign(unit))


def _sign(unit: str) -> str:
    return {"delta_degF": "°F", "delta_degC": "°C"}.get(unit, SIGNS.get(unit, unit))


def fine(kind: str, si: float, system: units.System, role: Role = "fact") -> Shown:
    """Return a value to five figures, for a working that somebody redoes by hand.

    >>> str(fine("mass", 1700.0, "us")), str(fine("mass", 1700.0, "metric")), str(fine("length", 4.1148, "us"))
    ('3,747.9 lb', '1,700 kg', '13.5 ft')
    >>> str(fine("mass", 4.5e-13, "us"))
    '0 lb'
    """
    if not math.isfinite(si):
        raise ValueError("only a finite value can be shown")
    si = 0.0 if abs(si) < NOTHING else si
    unit = "" if kind == "count" else _fine_unit(kind, si, system)
    value = units.from_si(si, unit, kind)
    places = min(max(4 - math.floor(math.log10(abs(value))), 0), 9) if value else 0
    text = figure(value, Fraction(1, 10**places), role)
    return Shown(text.rstrip("0").rstrip(".") if "." in text else text, _sign(unit))


NOTHING: Final = 1e-11
"""In SI units: what only the rounding of a computer leaves of a difference that is none."""
_LARGE: Final[dict[str, tuple[tuple[float, str, str], ...]]] = {
    "duration": ((3 * 86400.0, "d", "d"), (2 * 3600.0, "h", "h"), (120.0, "min", "min"), (0.0, "s", "s")),
    "volume": ((1.0, "yd3", "m3"),),
}
_SMALL: Final[dict[str, tuple[float, str, str]]] = {
    "area": (0.01, "in2", "mm2"),
    "mass": (0.1, "oz", "g"),
    "speed": (0.3, "in/s", "mm/s"),
    "volume": (0.0003, "in3", "cm3"),
    "resistance": (0.1, "mohm", "mohm"),
}
"""Units of a working from this SI value up, or below it."""


def _fine_unit(kind: str, si: float, system: units.System) -> str:
    """Return the unit in which a value of this size keeps its figures."""
    pick = 1 if system == "us" else 2
    for least, *names in _LARGE.get(kind, ()):
        if abs(si) >= least:
            return names[pick - 1]
    if kind in _SMALL and 0 < abs(si) < _SMALL[kind][0]:
        return str(_SMALL[kind][pick])
    return unit_for(kind, si, system)


def _feet_and_inches(si: float, role: Role) -> Shown:
    halves = _rounded(units.from_si(si, "in", "length"), Fraction(1, 2), role)
    feet, inches = divmod(abs(halves), 12)
    half = "½" if inches.denominator == 2 else ""
    whole = int(inches)
    shown_inches = half if half and whole == 0 else f"{whole}{half}"
    return Shown(f"{_TRUE_MINUS if si < 0 else ''}{int(feet)} ft {shown_inches}", "in")
