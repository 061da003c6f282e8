"""Dragging by hand: everything a phone needs to judge an arrangement alone, as plain JSON, and how it judges by it.

The limits are lines in mass and moment, the zones are sums, and where an item may stand is a list of intervals for
each deck and facing. `judge` reads nothing but that record; a page does the same in its own language.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final

from sendoff.calc.deck_plan.gear import INFINITE
from sendoff.calc.deck_plan.limits import Load, lines
from sendoff.calc.deck_plan.problem import FACINGS, Problem
from sendoff.calc.deck_plan.solve import Cut
from sendoff.calc.deck_plan.variables import BIG

VERSION: Final = 1
NEAR_m: Final = 1e-6


def by_hand(problem: Problem) -> dict[str, Any]:
    """Return what a phone needs to judge any arrangement of the items alone.

    Parameters
    ----------
    problem : Problem
        Items, decks, trailer, truck and limits.

    Returns
    -------
    dict
        JSON without infinite numbers: `lines` (load and limit as [constant kg, per kg, per kg·m]), `zones`, `items`
        (contacts as [m, kg, wheels]; `may` by deck and facing: intervals of the forward-most end [m]), `gap_m`.
    """
    cut = Cut(problem, "plain", -BIG)
    place = {number: at for at, number in enumerate(cut.order)}
    return {
        "version": VERSION,
        "gap_m": problem.gap_m,
        "edge_m": problem.edge_m,
        "drop_rule": "" if "drop_order" in problem.dropped else problem.drop_rule,
        "tight_ratio": problem.tight.other_ratio,
        "lines": [
            {
                "name": line.name,
                "load": _three(line.load),
                "limit": _three(line.limit),
                "tight_ratio": line.tight_ratio,
                "least": line.least,
            }
            for line in lines(problem)
        ],
        "decks": [{"name": deck.name, "leaves_over": list(deck.leaves_over)} for deck in problem.decks],
        "zones": [
            {
                "name": zone.name,
                "deck": deck.name,
                "front_m": zone.front_m,
                "rear_m": zone.rear_m,
                "total_limit_kg": _limit(problem, f"zone_total:{zone.name}", zone.total_limit_kg),
                "wheel_limit_kg": _limit(problem, f"zone_wheel:{zone.name}", zone.wheel_limit_kg),
            }
            for deck in problem.decks
            for zone in deck.zones
        ],
        "items": [
            {
                "name": item.name,
                "mass_kg": item.mass_kg,
                "length_m": item.length_m,
                "drop_count": item.drop_count,
                "contacts": [
                    [c.offset_m, c.share_ratio * item.mass_kg, c.wheel_count] for c in item.contacts
                ],
                "may": {
                    deck.name: {
                        facing: _intervals(cut, place[number], at, way) for way, facing in enumerate(FACINGS)
                    }
                    for at, deck in enumerate(problem.decks)
                },
            }
            for number, item in enumerate(problem.items)
        ],
    }


def _three(load: Load) -> list[float]:
    return [load.constant_kg, load.per_mass_ratio, load.per_moment_1pm]


def _limit(problem: Problem, name: str, limit_kg: float) -> float | None:
    return None if limit_kg == INFINITE or name in problem.dropped else limit_kg


def _intervals(cut: Cut, item: int, deck: int, facing: int) -> list[list[float]]:
    """Return where an item facing one way may stand, neighboring cells joined."""
    row = deck * cut.items + item
    found: list[list[float]] = []
    for way in range(cut.ways.start[row], cut.ways.start[row + 1]):
        if cut.ways.facing[way] == facing:
            low, high = cut.ways.low[way], cut.ways.high[way]
            if found and low <= found[-1][1] + NEAR_m:
                found[-1][1] = max(found[-1][1], high)
            else:
                found.append([low, high])
    return found


def judge(record: Mapping[str, Any], placed: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """Return loads, margins and broken rules of an arrangement, from the record of `by_hand` alone.

    Parameters
    ----------
    record : mapping
        As `by_hand` gives it, perhaps through a JSON file.
    placed : sequence of mapping
        `item`, `deck`, `facing` and `front_m` of each item that rides.

    Returns
    -------
    dict
        `shares` (name, load_kg, left_kg, margin), `margin` (the least), `broken` (names of rules with their items).
    """
    items = {item["name"]: item for item in record["items"]}
    wheels = [wheel for row in placed for wheel in _wheels(record, items[row["item"]], row)]
    mass = sum(items[row["item"]]["mass_kg"] for row in placed)
    moment = sum(kg * at for kg, at, _, _ in wheels)
    shares = [_line_share(line, mass, moment) for line in record["lines"]]
    for zone in record["zones"]:
        here = [(kg, kg / count) for kg, _, count, under in wheels if under == zone["name"]]
        loads = {"total": sum(kg for kg, _ in here), "wheel": max((each for _, each in here), default=None)}
        for kind, load in loads.items():
            limit = zone[f"{kind}_limit_kg"]
            if limit is not None and load is not None:
                left = limit - load
                margin = left / (record["tight_ratio"] * limit)
                shares.append(
                    {
                        "name": f"zone_{kind}:{zone['name']}",
                        "load_kg": load,
                        "left_kg": left,
                        "margin": margin,
                    }
                )
    return {
        "shares": shares,
        "margin": min((share["margin"] for share in shares), default=None),
        "broken": _broken(record, items, placed),
    }


def _wheels(
    record: Mapping[str, Any], item: Mapping[str, Any], row: Mapping[str, Any]
) -> list[tuple[float, float, int, str]]:
    """Return load, place, wheels and zone of each contact."""
    found = []
    for offset, kg, count in item["contacts"]:
        at = row["front_m"] + (offset if row["facing"] == "forward" else item["length_m"] - offset)
        edge = record["edge_m"] - NEAR_m
        zones = [
            zone
            for zone in record["zones"]
            if zone["deck"] == row["deck"] and zone["front_m"] + edge <= at <= zone["rear_m"] - edge
        ]
        zones.sort(key=lambda zone: -(zone["wheel_limit_kg"] or INFINITE))
        found.append((kg, at, count, zones[0]["name"] if zones else ""))
    return found


def _line_share(line: Mapping[str, Any], mass: float, moment: float) -> dict[str, Any]:
    load, limit = (row[0] + row[1] * mass + row[2] * moment for row in (line["load"], line["limit"]))
    left = load - limit if line["least"] else limit - load
    return {
        "name": line["name"],
        "load_kg": load,
        "left_kg": left,
        "margin": left / (line["tight_ratio"] * limit),
    }


def _broken(
    record: Mapping[str, Any], items: Mapping[str, Any], placed: Sequence[Mapping[str, Any]]
) -> list[dict[str, str]]:
    broken = []
    for row in placed:
        spans = items[row["item"]]["may"][row["deck"]][row["facing"]]
        if not any(low - NEAR_m <= row["front_m"] <= high + NEAR_m for low, high in spans):
            broken.append({"name": "place", "item": row["item"]})
    over = {deck["name"]: deck["leaves_over"] for deck in record["decks"]}
    stop = {name: item["drop_count"] or INFINITE for name, item in items.items()}
    for one in placed:
        for other in placed:
            behind = other["deck"] == one["deck"] and other["front_m"] > one["front_m"]
            if (
                behind
                and other["front_m"]
                < one["front_m"] + items[one["item"]]["length_m"] + record["gap_m"] - NEAR_m
            ):
                broken.append({"name": "overlap", "item": one["item"], "other": other["item"]})
            in_the_way = behind or other["deck"] in over[one["deck"]]
            if record["drop_rule"] == "must" and in_the_way and stop[one["item"]] < stop[other["item"]]:
                broken.append({"name": "drop_order", "item": one["item"], "other": other["item"]})
    return broken
