"""An independent look at a plan: every force and every place worked out anew from the raw records.

Nothing here is shared with the solver. Each contact is a point load on the trailer; pin and axle loads come from
solving the equations of equilibrium and of the suspension as a linear system; zones, strips and overlaps are looked at
contact by contact and body by body.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from sendoff.calc.deck_plan import Contact, Deck, Item, Placement, Problem, Ramp, Zone
from sendoff.calc.deck_plan.gear import INFINITE

EPS = 1e-6
"""Meters and kilograms that a place or load may be off by rounding."""


def reactions(problem: Problem, loads: Sequence[tuple[float, float]]) -> tuple[float, list[float]]:
    """Return pin load and axle loads under point loads (kg, m), by solving for all unknowns at once."""
    trailer = problem.trailer
    count = len(trailer.axle_m)
    loads = [*loads, (trailer.empty_mass_kg, trailer.empty_center_m)]
    # unknowns: pin, each axle, and how far the frame turns (torsion) or the common load (equalized)
    a, b = np.zeros((count + 2, count + 2)), np.zeros(count + 2)
    a[0, : count + 1] = 1.0
    b[0] = sum(kg for kg, _ in loads)
    a[1, 1 : count + 1] = trailer.axle_m
    b[1] = sum(kg * at for kg, at in loads)
    for axle, at in enumerate(trailer.axle_m):
        a[2 + axle, 1 + axle] = 1.0
        a[2 + axle, count + 1] = -(at if trailer.suspension == "torsion" else 1.0)
        b[2 + axle] = trailer.axle_preload_kg if trailer.suspension == "torsion" else 0.0
    solution = np.linalg.solve(a, b)
    return float(solution[0]), [float(value) for value in solution[1 : count + 1]]


def statics(
    problem: Problem, mass_kg: float, moment_kgm: float
) -> dict[str, tuple[float, float, float, bool]]:
    """Return load, limit, tight part of the limit and whether it is a least, by name, under a mass at its center."""
    point = [(mass_kg, moment_kgm / mass_kg)] if mass_kg else []
    return limits_under(problem, point)


def limits_under(
    problem: Problem, loads: Sequence[tuple[float, float]]
) -> dict[str, tuple[float, float, float, bool]]:
    """Return load, limit, tight part of the limit and whether it is a least, for every limit of trailer, truck, law."""
    trailer, truck, tight = problem.trailer, problem.truck, problem.tight
    pin, axles = reactions(problem, loads)
    gross = trailer.empty_mass_kg + sum(kg for kg, _ in loads)
    found: dict[str, tuple[float, float, float, bool]] = {
        "gross": (gross, trailer.gross_limit_kg, tight.other_ratio, False),
        "pin_weight": (pin, trailer.pin_limit_kg, tight.other_ratio, False),
    }
    if trailer.pin_share_least_ratio > 0:
        low = trailer.pin_share_least_ratio
        found["pin_share_least"] = (pin, low * gross, tight.pin_share_ratio / low, True)
    if trailer.pin_share_most_ratio < 1:
        high = trailer.pin_share_most_ratio
        found["pin_share_most"] = (pin, high * gross, tight.pin_share_ratio / high, False)
    each = {f"axle_{n}": load for n, load in enumerate(axles, 1)}
    for n, (load, limit) in enumerate(zip(axles, trailer.axle_limit_kg, strict=True), 1):
        found[f"axle_{n}"] = (load, limit, tight.axle_ratio, False)
    for n, limit in enumerate(trailer.tire_limit_kg, 1):
        found[f"tires_{n}"] = (axles[n - 1] / trailer.tire_count, limit, tight.axle_ratio, False)
    if truck is not None:
        # moments about the front axle give the rear, moments about the rear give the front
        base = truck.rear_axle_m - truck.front_axle_m
        rear = truck.rear_empty_kg + pin * (0.0 - truck.front_axle_m) / base
        front = truck.front_empty_kg + pin * (truck.rear_axle_m - 0.0) / base
        each |= {"truck_front": front, "truck_rear": rear}
        own = truck.front_empty_kg + truck.rear_empty_kg
        for name, load, limit in (
            ("coupling", pin, truck.coupling_limit_kg),
            ("tow", gross, truck.tow_limit_kg),
            ("truck_front", front, truck.front_limit_kg),
            ("truck_rear", rear, truck.rear_limit_kg),
            ("truck_gross", front + rear, truck.gross_limit_kg),
            ("combined", own + gross, truck.combined_limit_kg),
        ):
            found[name] = (load, limit, tight.other_ratio, False)
        if truck.front_least_kg > 0:
            found["truck_front_least"] = (front, truck.front_least_kg, tight.other_ratio, True)
    for group in problem.axle_groups:
        found[f"law:{group.name}"] = (
            sum(each[name] for name in group.axles),
            group.limit_kg,
            tight.other_ratio,
            False,
        )
    return {name: row for name, row in found.items() if row[1] < INFINITE}


def on(problem: Problem, name: str) -> bool:
    """Whether a limit was not left out."""
    return name not in problem.dropped


@dataclass(frozen=True)
class Standing:
    """One item where it stands."""

    problem: Problem
    item: Item
    deck: Deck
    placement: Placement

    @property
    def begin(self) -> float:
        return self.placement.front_m

    @property
    def end(self) -> float:
        return self.placement.front_m + self.item.length_m

    @property
    def wheels(self) -> list[tuple[Contact, float]]:
        """Each contact with its place."""
        if self.placement.facing == "forward":
            return [(contact, self.begin + contact.offset_m) for contact in self.item.contacts]
        return [(contact, self.end - contact.offset_m) for contact in self.item.contacts]

    def on(self, name: str) -> bool:
        return on(self.problem, name)

    def zones_under(self, at: float) -> list[Zone]:
        """Zones that a wheel at a place stands on: two on the very edge between them."""
        edge, first, last = self.problem.edge_m - EPS, self.deck.zones[0], self.deck.zones[-1]
        opened = not self.on(f"room:{self.deck.name}")
        return [
            zone
            for zone in self.deck.zones
            if (zone.front_m + edge <= at or (opened and zone is first))
            and (at <= zone.rear_m - edge or (opened and zone is last))
        ]

    def broken(self) -> Iterator[str]:
        """Every rule it breaks by itself."""
        name, facing = self.item.name, self.placement.facing
        if facing not in self.item.facings and self.on("facing") and self.on(f"facing:{name}"):
            yield f"{name} must not face {facing}"
        if self.on(f"room:{self.deck.name}"):
            if self.begin < self.deck.zones[0].front_m - self.deck.front_overhang_m - EPS:
                yield f"{name} sticks out ahead"
            if self.end > self.deck.zones[-1].rear_m + self.deck.rear_overhang_m + EPS:
                yield f"{name} sticks out behind"
        for zone in self.deck.zones:
            if min(self.end, zone.rear_m) - max(self.begin, zone.front_m) > EPS:
                yield from self._body_over(zone)
        for _, at in self.wheels:
            yield from self._wheel_at(at)
        if self.deck.ramp is not None and self.item.moved_by != "lifted":
            yield from self._up_the_ramp(self.deck.ramp)

    def _body_over(self, zone: Zone) -> Iterator[str]:
        width, height = self.item.width_m or 0.0, self.item.height_m or 0.0
        if width > zone.width_limit_m + EPS and self.on(f"width:{zone.name}"):
            yield f"{self.item.name} is too wide over {zone.name}"
        if height > zone.height_limit_m + EPS and self.on(f"height:{zone.name}"):
            yield f"{self.item.name} is too high over {zone.name}"

    def _wheel_at(self, at: float) -> Iterator[str]:
        name, edge = self.item.name, self.problem.edge_m
        if not self.zones_under(at):
            yield f"{name} has a wheel on no zone"
        for strip in self.deck.strips:
            inside = strip.front_m - edge + EPS < at < strip.rear_m + edge - EPS
            if inside and self.on(f"strip:{strip.name}"):
                yield f"{name} stands on {strip.name}"
        points, reach = self.deck.strap_points_m, self.item.strap_reach_m
        far = points and reach is not None and min(abs(point - at) for point in points) > reach + EPS
        if far and self.on(f"straps:{self.deck.name}"):
            yield f"{name} has no strap point within reach"

    def _up_the_ramp(self, ramp: Ramp) -> Iterator[str]:
        """Across a crest the belly comes down to a point on the circle of equal tangents."""
        item, deck = self.item, self.deck.name
        half = (item.contacts[-1].offset_m - item.contacts[0].offset_m) / 2
        bend = ramp.angle_rad if ramp.crest_rad is None else ramp.crest_rad
        drop = half * math.sin(bend) / (1 + math.cos(bend))
        if item.clearance_m is not None and item.clearance_m < drop - EPS and self.on(f"ramp_crest:{deck}"):
            yield f"{item.name} touches the crest"
        ends = [math.tan(angle) for angle in (item.approach_rad, item.departure_rad) if angle is not None]
        if ends and min(ends) < math.tan(ramp.angle_rad) - EPS and self.on(f"ramp_foot:{deck}"):
            yield f"{item.name} touches the foot"
        heaviest = max(contact.share_ratio * item.mass_kg / contact.wheel_count for contact in item.contacts)
        if heaviest > ramp.wheel_limit_kg + EPS and self.on(f"ramp_wheel:{deck}"):
            yield f"{item.name} is too heavy for the ramp"
        if item.mass_kg > ramp.item_limit_kg + EPS and self.on(f"ramp_item:{deck}"):
            yield f"{item.name} is more than the ramp is rated for"


def check(problem: Problem, placements: Sequence[Placement]) -> tuple[list[str], float]:
    """Return every rule that is broken by places, and the least margin of all loads."""
    items = {item.name: item for item in problem.items}
    decks = {deck.name: deck for deck in problem.decks}
    rows = [Standing(problem, items[row.item], decks[row.deck], row) for row in placements]
    broken = [text for row in rows for text in row.broken()]
    if sorted(placement.item for placement in placements) != sorted(items):
        broken.append("not every item stands exactly once")
    broken += _overlaps(problem, placements)
    if problem.drop_rule == "must" and on(problem, "drop_order"):
        broken += _drops(problem, placements)
    wheels = [(row.item, contact, row.zones_under(at)) for row in rows for contact, at in row.wheels]
    margins = [_zones(problem, [wheel for wheel in wheels if wheel[2]])]
    loads = [(contact.share_ratio * row.item.mass_kg, at) for row in rows for contact, at in row.wheels]
    margins += [
        (load - limit if least else limit - load) / limit / tight
        for name, (load, limit, tight, least) in limits_under(problem, loads).items()
        if on(problem, name)
    ]
    return broken, min(margins)


def _zones(problem: Problem, contacts: list[tuple[Item, Contact, list[Zone]]]) -> float:
    """Return the least margin of wheels and zones; a wheel on the edge of two zones counts where that is better."""
    choices = itertools.product(*(zones for _, _, zones in contacts))
    return max(_zones_as_chosen(problem, contacts, choice) for choice in choices)


def _zones_as_chosen(
    problem: Problem, contacts: list[tuple[Item, Contact, list[Zone]]], choice: tuple[Zone, ...]
) -> float:
    margins, tight = [math.inf], problem.tight.other_ratio
    zones = [zone for deck in problem.decks for zone in deck.zones]
    loads = dict.fromkeys((zone.name for zone in zones), 0.0)
    for (item, contact, _), zone in zip(contacts, choice, strict=True):
        kg = contact.share_ratio * item.mass_kg
        loads[zone.name] += kg
        if zone.wheel_limit_kg < INFINITE and on(problem, f"zone_wheel:{zone.name}"):
            margins.append((zone.wheel_limit_kg - kg / contact.wheel_count) / zone.wheel_limit_kg / tight)
        if on(problem, f"lane:{zone.name}"):
            too_far_in = item.track_inner_m is not None and item.track_inner_m < zone.lane_inner_m - EPS
            too_far_out = item.track_outer_m is not None and item.track_outer_m > zone.lane_outer_m + EPS
            if too_far_in or too_far_out:
                margins.append(-math.inf)
    margins += [
        (zone.total_limit_kg - loads[zone.name]) / zone.total_limit_kg / tight
        for zone in zones
        if zone.total_limit_kg < INFINITE and on(problem, f"zone_total:{zone.name}")
    ]
    return min(margins)


def _overlaps(problem: Problem, placements: Sequence[Placement]) -> list[str]:
    lengths = {item.name: item.length_m for item in problem.items}
    found = []
    for n, one in enumerate(placements):
        for other in placements[n + 1 :]:
            apart = max(
                other.front_m - one.front_m - lengths[one.item],
                one.front_m - other.front_m - lengths[other.item],
            )
            if one.deck == other.deck and apart < problem.gap_m - EPS:
                found.append(f"{one.item} and {other.item} stand {apart:.4f} m apart")
    return found


def _drops(problem: Problem, placements: Sequence[Placement]) -> list[str]:
    """Take everything off in the order of its stops: whatever stands in the way must already be gone."""
    stop = {item.name: item.drop_count or math.inf for item in problem.items}
    over = {deck.name: deck.leaves_over for deck in problem.decks}
    found = []
    for one in placements:
        for other in placements:
            behind = other.deck == one.deck and other.front_m > one.front_m
            if (behind or other.deck in over[one.deck]) and stop[other.item] > stop[one.item]:
                found.append(f"{other.item} is in the way of {one.item}")
    return found
