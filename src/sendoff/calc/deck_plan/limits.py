"""Every limit of pin, axles, tires, truck and law as a straight line in the payload's mass and first moment.

With the mass M aboard and its first moment S about the coupling point, each load is constant + a·M + b·S: statics of
a rigid trailer on equalized axles (all bear the same) or on torsion axles (each bears by how far the frame goes down
above it, that is by its distance from the coupling). The lines are plain numbers, so that a phone can use them alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from sendoff.calc.deck_plan.gear import INFINITE, TightAt, Trailer, Truck
from sendoff.calc.deck_plan.problem import Problem, tight_ratio


@dataclass(frozen=True, slots=True)
class Load:
    """A load as a straight line in payload mass and moment."""

    constant_kg: float = 0.0
    per_mass_ratio: float = 0.0
    per_moment_1pm: float = 0.0

    def __add__(self, other: Load) -> Load:
        return Load(
            self.constant_kg + other.constant_kg,
            self.per_mass_ratio + other.per_mass_ratio,
            self.per_moment_1pm + other.per_moment_1pm,
        )

    def times(self, factor: float) -> Load:
        """Return the load multiplied by a plain number."""
        return Load(self.constant_kg * factor, self.per_mass_ratio * factor, self.per_moment_1pm * factor)

    def at(self, mass_kg: float, moment_kgm: float) -> float:
        """Return the load in kg with so much aboard."""
        return self.constant_kg + self.per_mass_ratio * mass_kg + self.per_moment_1pm * moment_kgm


@dataclass(frozen=True, slots=True)
class Line:
    """One named limit on one load."""

    name: str
    load: Load
    limit: Load
    """Mostly a constant; a window in shares of the gross grows with the mass aboard."""
    tight_ratio: float
    """Part of the limit at which little is left."""
    least: bool = False
    """Whether the load must stay above the limit, not below."""

    def left_kg(self, mass_kg: float, moment_kgm: float) -> float:
        """Return what is left of the limit, negative when it is passed."""
        left = self.limit.at(mass_kg, moment_kgm) - self.load.at(mass_kg, moment_kgm)
        return -left if self.least else left

    def margin(self, mass_kg: float, moment_kgm: float) -> float:
        """Return what is left, counted in what is called tight."""
        return self.left_kg(mass_kg, moment_kgm) / (self.tight_ratio * self.limit.at(mass_kg, moment_kgm))

    def slope(self, mass_kg: float) -> tuple[float, float]:
        """Return margin at no moment, and margin per moment, with so much aboard."""
        scale = self.tight_ratio * self.limit.at(mass_kg, 0.0)
        sign = -1.0 if self.least else 1.0
        rest = sign * (self.limit.at(mass_kg, 0.0) - self.load.at(mass_kg, 0.0))
        return rest / scale, -sign * self.load.per_moment_1pm / scale


def axle_loads(trailer: Trailer) -> tuple[Load, ...]:
    """Return what each trailer axle bears."""
    places = trailer.axle_m
    empty_moment = trailer.empty_mass_kg * trailer.empty_center_m
    if trailer.suspension == "equalized":
        one = 1.0 / sum(places)
        return tuple(Load(empty_moment * one, 0.0, one) for _ in places)
    squares = sum(place * place for place in places)
    rest = empty_moment - trailer.axle_preload_kg * sum(places)
    return tuple(
        Load(trailer.axle_preload_kg + rest * place / squares, 0.0, place / squares) for place in places
    )


def total(loads: tuple[Load, ...]) -> Load:
    """Return the sum of some loads."""
    return sum(loads, start=Load())


def pin_load(trailer: Trailer) -> Load:
    """Return what the coupling bears."""
    return Load(trailer.empty_mass_kg, 1.0, 0.0) + total(axle_loads(trailer)).times(-1.0)


def truck_loads(truck: Truck, pin: Load) -> tuple[Load, Load]:
    """Return what the truck's front and rear axle bear."""
    onto_rear = -truck.front_axle_m / (truck.rear_axle_m - truck.front_axle_m)
    return (
        Load(truck.front_empty_kg) + pin.times(1.0 - onto_rear),
        Load(truck.rear_empty_kg) + pin.times(onto_rear),
    )


def lines(problem: Problem, axles: tuple[Load, ...] = (), pin: Load | None = None) -> tuple[Line, ...]:
    """Return every limit of the problem that is a line in mass and moment and was not left out.

    Parameters
    ----------
    problem : Problem
        Trailer, truck, limits of the law.
    axles : tuple of Load, optional
        What each trailer axle bears; none: as on a rigid frame.
    pin : Load, optional
        What the coupling bears; none: as on a rigid frame.

    Returns
    -------
    tuple of Line
        Named limits.
    """
    axles = axles or axle_loads(problem.trailer)
    rigid_pin = pin_load(problem.trailer)
    pin = rigid_pin if pin is None else pin
    found = [line for line in _all_lines(problem, axles, pin) if line.name not in problem.dropped]
    extra = dict(problem.extra_load_kg) if pin is rigid_pin else {}
    if extra:
        found = [replace(line, load=line.load + Load(extra.get(line.name, 0.0))) for line in found]
    if problem.counted:
        found = [
            replace(line, tight_ratio=tight_ratio(problem, line.name, line.tight_ratio)) for line in found
        ]
    return tuple(found)


def _all_lines(problem: Problem, axles: tuple[Load, ...], pin: Load) -> Iterator[Line]:
    trailer, tight = problem.trailer, problem.tight
    gross = Load(trailer.empty_mass_kg, 1.0)
    named = {f"axle_{number}": load for number, load in enumerate(axles, 1)}
    yield from _most("gross", gross, trailer.gross_limit_kg, tight.other_ratio)
    yield from _most("pin_weight", pin, trailer.pin_limit_kg, tight.other_ratio)
    yield from _pin_window(trailer, pin, gross, tight)
    for number, (load, limit_kg) in enumerate(zip(axles, trailer.axle_limit_kg, strict=True), 1):
        yield from _most(f"axle_{number}", load, limit_kg, tight.axle_ratio)
    for number, limit_kg in enumerate(trailer.tire_limit_kg, 1):
        each = named[f"axle_{number}"].times(1.0 / trailer.tire_count)
        yield from _most(f"tires_{number}", each, limit_kg, tight.axle_ratio)
    if problem.truck is not None:
        named["truck_front"], named["truck_rear"] = truck_loads(problem.truck, pin)
        yield from _truck_lines(problem.truck, named, pin, gross, tight)
    for group in problem.axle_groups:
        together = total(tuple(named[name] for name in group.axles))
        yield from _most(f"law:{group.name}", together, group.limit_kg, tight.other_ratio)


def _most(name: str, load: Load, limit_kg: float, tight_ratio: float) -> Iterator[Line]:
    if limit_kg < INFINITE:
        yield Line(name, load, Load(limit_kg), tight_ratio)


def _pin_window(trailer: Trailer, pin: Load, gross: Load, tight: TightAt) -> Iterator[Line]:
    least, most = trailer.pin_share_least_ratio, trailer.pin_share_most_ratio
    if least > 0:
        yield Line("pin_share_least", pin, gross.times(least), tight.pin_share_ratio / least, least=True)
    if most < 1:
        yield Line("pin_share_most", pin, gross.times(most), tight.pin_share_ratio / most)


def _truck_lines(
    truck: Truck, named: dict[str, Load], pin: Load, gross: Load, tight: TightAt
) -> Iterator[Line]:
    own = Load(truck.front_empty_kg + truck.rear_empty_kg)
    yield from _most("coupling", pin, truck.coupling_limit_kg, tight.other_ratio)
    yield from _most("tow", gross, truck.tow_limit_kg, tight.other_ratio)
    yield from _most("truck_front", named["truck_front"], truck.front_limit_kg, tight.other_ratio)
    yield from _most("truck_rear", named["truck_rear"], truck.rear_limit_kg, tight.other_ratio)
    yield from _most("truck_gross", own + pin, truck.gross_limit_kg, tight.other_ratio)
    yield from _most("combined", own + gross, truck.combined_limit_kg, tight.other_ratio)
    if truck.front_least_kg > 0:
        yield Line(
            "truck_front_least",
            named["truck_front"],
            Load(truck.front_least_kg),
            tight.other_ratio,
            least=True,
        )
