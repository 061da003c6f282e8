"""Where a leader points to say "this part": the visible spot of a part, from the side and from above.

Parts of a wheel share one middle; each is pointed at where a person would put a finger.
"""

from __future__ import annotations

import math
from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit, FittedPart, Place
from sendoff.drawings import shapes, shapes_ramps
from sendoff.drawings.marks import Pair

ON_WHEEL: Final[dict[str, tuple[float, float]]] = {
    "tires": (0.85, 285),
    "wheels": (0.47, 120),
    "valve_stems": (0.40, 40),
    "wheel_nuts": (0.0, 315),
    "hubs": (0.0, 0),
    "brakes": (0.30, 250),
    "axles": (0.18, 90),
    "suspension": (0.0, 90),
    "spring_brakes": (0.26, 0),
}
"""Share of the tire's radius and angle (from straight up, clockwise) at which each role of a wheel is pointed at."""


def beside(unit: AsBuiltUnit, part: FittedPart, place: Place) -> Pair:
    """Return x and z of the spot by which a part is known from the side."""
    x, z = place.x_m, place.z_m
    kind = shapes.kind_of(part)
    if part.slot in ON_WHEEL:
        return _on_wheel(unit, part, place)
    if kind in {"box", "battery", "charger", "pump", "winch"}:
        return x, z + shapes.measure(part, "height", 0.3) / 2
    if kind == "jack":
        return x, z - shapes.measure(part, "leg", 0.8) * 0.4
    if kind == "cylinder":
        for hinge in unit.geometry.hinges:
            if hinge.cylinders is not None and hinge.cylinders.slot == part.slot:
                frame, body = hinge.cylinders.frame_m, hinge.cylinders.body_m
                return frame[0] + (body[0] - frame[0]) * 0.9, frame[1] + (body[1] - frame[1]) * 0.9
    if kind == "chain" and "length" in (part.shape.measures if part.shape else {}):
        length = shapes.measure(part, "length", 0.0)
        return x + length * 0.21, z - min(length * 0.2, z * 0.5)
    if kind in shapes_ramps.LYING:
        return x, z - 0.02
    if kind == "shield":
        return x, z + shapes.measure(part, "height", 0.8) / 2
    if kind == "kingpin":
        return x, shapes.measure(part, "plate_height", z)
    return x, z


def _on_wheel(unit: AsBuiltUnit, part: FittedPart, place: Place) -> Pair:
    wheels, radius = unit.part("wheels"), _tire_radius(unit)
    share, degrees = ON_WHEEL[part.slot]
    reach = radius * share
    if part.slot == "wheel_nuts" and wheels is not None:
        reach = shapes.measure(wheels, "bolt_circle", 0.14) / 2
    if part.slot == "suspension":
        return place.x_m - radius * 0.55, radius + 0.06
    angle = math.radians(degrees)
    return place.x_m + reach * math.sin(angle), radius + reach * math.cos(angle)


_ALONG_WHEEL: Final[dict[str, float]] = {
    "tires": -0.6,
    "wheels": -0.3,
    "valve_stems": -0.1,
    "wheel_nuts": 0.15,
    "hubs": 0.4,
    "brakes": 0.65,
}
"""How far from a wheel's middle, in shares of the tire's radius, each role is pointed at from above."""


def above(unit: AsBuiltUnit, part: FittedPart, place: Place) -> Pair:
    """Return x and y of the spot by which a part is known from above."""
    x, y = place.x_m, place.y_m
    if part.slot in _ALONG_WHEEL:
        return x + _tire_radius(unit) * _ALONG_WHEEL[part.slot], y
    if part.slot in {"axles", "suspension"} and not y:
        return x, -unit.geometry.axles.track_m * (0.18 if part.slot == "axles" else 0.3)
    if shapes.kind_of(part) == "cylinder":
        for hinge in unit.geometry.hinges:
            if hinge.cylinders is not None and hinge.cylinders.slot == part.slot:
                return (hinge.cylinders.frame_m[0] + hinge.cylinders.body_m[0]) / 2, y
    return x, y


def _tire_radius(unit: AsBuiltUnit) -> float:
    tires = unit.part("tires")
    return (shapes.measure(tires, "outer_diameter", 0.7) if tires is not None else 0.7) / 2
