"""An independent look at a plan: every force and every place worked out anew from the raw records.

Nothing here is shared with the solver. Each contact is a point load on the trailer; pin and axle loads come from
solving the equations of equilibrium and of the suspension as a linear system; zones, strips and overlaps are looked at
contact by contact and body by body.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np

from sendoff.calc.deck_plan import Contact, Item, Placement, Problem, Zone
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


def check(problem: Problem, placements: Sequence[Placement]) -> tuple[list[str], float]:
    """Return every rule that is broken by places, and the least margin of all loads."""
    broken: list[str] = []
    items = {item.name: item for item in problem.items}
    decks = {deck.name: deck for deck in problem.decks}
    if sorted(placement.item for placement in placements) != sorted(items):
        broken.append("not every item stands exactly once")
    on = lambda name: name not in problem.dropped  # noqa: E731
    loads: list[tuple[float, float]] = []
    edges: list[tuple[Item, Contact, list[Zone]]] = []
    margins: list[float] = []
    for placement in placements:
        item, deck = items[placement.item], decks[placement.deck]
        begin, end = placement.front_m, placement.front_m + item.length_m
        if placement.facing not in item.facings and on("facing") and on(f"facing:{item.name}"):
            broken.append(f"{item.name} must not face {placement.facing}")
        if on(f"room:{deck.name}"):
            if begin < deck.zones[0].front_m - deck.front_overhang_m - EPS:
                broken.append(f"{item.name} sticks out ahead")
            if end > deck.zones[-1].rear_m + deck.rear_overhang_m + EPS:
                broken.append(f"{item.name} sticks out behind")
        for zone in deck.zones:
            if min(end, zone.rear_m) - max(begin, zone.front_m) > EPS:
                if (
                    item.width_m is not None
                    and item.width_m > zone.width_limit_m + EPS
                    and on(f"width:{zone.name}")
                ):
                    broken.append(f"{item.name} is too wide over {zone.name}")
                if (
                    item.height_m is not None
                    and item.height_m > zone.height_limit_m + EPS
                    and on(f"height:{zone.name}")
                ):
                    broken.append(f"{item.name} is too high over {zone.name}")
        for contact in item.contacts:
            at = begin + contact.offset_m if placement.facing == "forward" else end - contact.offset_m
            kg = contact.share_ratio * item.mass_kg
            loads.append((kg, at))
            first, last = deck.zones[0], deck.zones[-1]
            open_ends = not on(f"room:{deck.name}")
            standing = [
                zone
                for zone in deck.zones
                if (zone.front_m + problem.edge_m - EPS <= at or (open_ends and zone is first))
                and (at <= zone.rear_m - problem.edge_m + EPS or (open_ends and zone is last))
            ]
            if not standing:
                broken.append(f"{item.name} has a wheel on no zone")
                continue
            edges.append((item, contact, standing))
            for strip in deck.strips:
                if (
                    on(f"strip:{strip.name}")
                    and strip.front_m - problem.edge_m + EPS < at < strip.rear_m + problem.edge_m - EPS
                ):
                    broken.append(f"{item.name} stands on {strip.name}")
            if deck.strap_points_m and item.strap_reach_m is not None and on(f"straps:{deck.name}"):
                away = min(abs(point - at) for point in deck.strap_points_m)
                if away > item.strap_reach_m + EPS:
                    broken.append(f"{item.name} has no strap point within reach")
        if deck.ramp is not None and item.moved_by != "lifted":
            # a wheelbase across a crest: the belly comes down to a point on the circle of equal tangents
            half = (item.contacts[-1].offset_m - item.contacts[0].offset_m) / 2
            drop = half * math.sin(deck.ramp.angle_rad) / (1 + math.cos(deck.ramp.angle_rad))
            if (
                item.clearance_m is not None
                and item.clearance_m < drop - EPS
                and on(f"ramp_crest:{deck.name}")
            ):
                broken.append(f"{item.name} touches the crest")
            for angle in (item.approach_rad, item.departure_rad):
                if (
                    angle is not None
                    and math.tan(angle) < math.tan(deck.ramp.angle_rad) - EPS
                    and on(f"ramp_foot:{deck.name}")
                ):
                    broken.append(f"{item.name} touches the foot")
            for contact in item.contacts:
                if (
                    contact.share_ratio * item.mass_kg / contact.wheel_count > deck.ramp.wheel_limit_kg + EPS
                    and on(f"ramp_wheel:{deck.name}")
                ):
                    broken.append(f"{item.name} is too heavy for the ramp")
    broken += _overlaps(problem, placements)
    if problem.drop_rule == "must" and on("drop_order"):
        broken += _drops(problem, placements)
    margins.append(_zones(problem, edges))
    for name, (load, limit, tight, least) in limits_under(problem, loads).items():
        if on(name):
            margins.append((load - limit if least else limit - load) / limit / tight)
    return broken, min(margins, default=math.inf)


def _zones(problem: Problem, contacts: list[tuple[Item, Contact, list[Zone]]]) -> float:
    """Return the least margin of wheels and zones; a wheel on the very edge of two zones counts where that is better."""
    best = -math.inf
    on = lambda name: name not in problem.dropped  # noqa: E731
    for choice in itertools.product(*(zones for _, _, zones in contacts)):
        margins, loads = (
            [math.inf],
            dict.fromkeys((zone.name for deck in problem.decks for zone in deck.zones), 0.0),
        )
        for (item, contact, _), zone in zip(contacts, choice, strict=True):
            kg = contact.share_ratio * item.mass_kg
            loads[zone.name] += kg
            if zone.wheel_limit_kg < INFINITE and on(f"zone_wheel:{zone.name}"):
                each = kg / contact.wheel_count
                margins.append((zone.wheel_limit_kg - each) / zone.wheel_limit_kg / problem.tight.other_ratio)
            if on(f"lane:{zone.name}"):
                too_far_in = item.track_inner_m is not None and item.track_inner_m < zone.lane_inner_m - EPS
                too_far_out = item.track_outer_m is not None and item.track_outer_m > zone.lane_outer_m + EPS
                if too_far_in or too_far_out:
                    margins.append(-math.inf)
        for zone in (zone for deck in problem.decks for zone in deck.zones):
            if zone.total_limit_kg < INFINITE and on(f"zone_total:{zone.name}"):
                margins.append(
                    (zone.total_limit_kg - loads[zone.name]) / zone.total_limit_kg / problem.tight.other_ratio
                )
        best = max(best, min(margins))
    return best


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
