"""An arrangement as given: every load with its limit, what rules it breaks, and how far masses may be wrong.

Works straight from the records, one contact after the other; the search has no part in it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sendoff.calc.deck_plan.beam import flexible_reactions
from sendoff.calc.deck_plan.gear import INFINITE
from sendoff.calc.deck_plan.limits import Line, Load, lines
from sendoff.calc.deck_plan.problem import Contact, Deck, Item, Placement, Problem, Zone, tight_ratio
from sendoff.calc.deck_plan.variables import (
    BACKED_ON,
    REARRANGED,
    WINCHED_BACKWARD,
    barred_from,
    body_may_be_over,
    wheels_may_stand_on,
)
from sendoff.errors import OutOfRange

EDGE_m = 1e-7
"""How far a place may be off by rounding."""


@dataclass(frozen=True, slots=True)
class Share:
    """One limit, what it bears and what is left of it."""

    name: str
    load_kg: float
    limit_kg: float
    left_kg: float
    """Negative when it is passed."""
    margin: float
    """What is left, counted in what is called tight: below 0 passed, below 1 tight."""
    least: bool
    """Whether the load must stay above the limit, not below."""
    error_ratio: float
    """All masses may be wrong by this part at once, each the worse way, before the limit is passed."""


@dataclass(frozen=True, slots=True)
class Broken:
    """A rule about places that is broken, and by which item."""

    name: str
    item: str
    other: str = ""
    """The zone, strip or item it is broken with."""


@dataclass(frozen=True, slots=True)
class Leeway:
    """How much heavier or lighter one item alone may be before a limit is passed, and which."""

    item: str
    heavier_kg: float
    heavier_limit: str
    lighter_kg: float
    lighter_limit: str


@dataclass(frozen=True, slots=True)
class Evaluation:
    """All that can be said of an arrangement."""

    shares: tuple[Share, ...]
    broken: tuple[Broken, ...]
    margin: float
    """The least of all shares, with a rigid frame; -inf where an item stands on nothing."""
    margin_flexible: float | None
    """The same with a frame that bends, where its stiffness is known."""
    shares_flexible: tuple[Share, ...]
    """Those limits that a bending frame changes."""
    mass_error_ratio: float
    """All masses may be wrong by this part at once, each the worse way, before any limit is passed."""
    holds_mass_errors: bool
    """Whether all limits hold if every item is off by its own `mass_error_kg`, each the worse way."""
    leeway: tuple[Leeway, ...]
    effort_count: int
    payload_kg: float
    moment_kgm: float

    @property
    def within(self) -> bool:
        """Whether no rule is broken and no limit passed, on a rigid frame and on one that bends."""
        least = self.margin if self.margin_flexible is None else min(self.margin, self.margin_flexible)
        return not self.broken and least >= -1e-9

    @property
    def tightest(self) -> str:
        """Name of the limit with the least margin."""
        return min(self.shares, key=lambda share: share.margin).name if self.shares else ""


@dataclass(frozen=True, slots=True)
class _Wheel:
    """One contact where it stands."""

    item: Item
    contact: Contact
    at_m: float
    deck: Deck
    zone: Zone | None

    @property
    def load_kg(self) -> float:
        return self.contact.share_ratio * self.item.mass_kg


@dataclass(frozen=True, slots=True)
class _Limit:
    """A limit as it stands, and how its load less its limit grows with each item's mass."""

    name: str
    load_kg: float
    limit_kg: float
    tight_ratio: float
    growth: dict[str, float]
    least: bool = False

    @property
    def left_kg(self) -> float:
        return self.load_kg - self.limit_kg if self.least else self.limit_kg - self.load_kg

    def share(self, masses: dict[str, float]) -> Share:
        """Return it as a share."""
        worst = sum(abs(grows) * masses[name] for name, grows in self.growth.items())
        error = math.inf if worst == 0 else max(0.0, self.left_kg) / worst
        margin = self.left_kg / (self.tight_ratio * self.limit_kg)
        return Share(self.name, self.load_kg, self.limit_kg, self.left_kg, margin, self.least, error)


def evaluate(problem: Problem, placements: Sequence[Placement]) -> Evaluation:
    """Return all that can be said of an arrangement, whether the search made it or a hand did.

    Parameters
    ----------
    problem : Problem
        Items, decks, trailer, truck and limits.
    placements : sequence of Placement
        Where each item stands; items that are not named stay behind.

    Returns
    -------
    Evaluation
        Loads [kg], what is left [kg, -], broken rules, and how far masses may be wrong [-].

    Raises
    ------
    OutOfRange
        If a placement names an item or deck that there is not, or an item twice, or its place is no number.
    """
    items, decks = _known(problem, placements)
    wheels = [wheel for placement in placements for wheel in _wheels(problem, placement, items, decks)]
    masses = {placement.item: items[placement.item].mass_kg for placement in placements}
    payload = sum(masses.values())
    moment = sum(wheel.load_kg * wheel.at_m for wheel in wheels)
    limits = [
        *_line_limits(lines(problem), wheels, payload, moment),
        *_zone_limits(problem, wheels),
        *_wheel_limits(problem, wheels),
    ]
    shares: dict[str, Share] = {}
    for share in (limit.share(masses) for limit in limits):
        if share.name not in shares or share.margin < shares[share.name].margin:
            shares[share.name] = share
    flexible = _flexible_shares(problem, wheels, payload, masses)
    broken = tuple(_broken(problem, placements, wheels, items, decks))
    nowhere = any(wheel.zone is None for wheel in wheels)
    errors = {name: items[name].mass_error_kg for name in masses}
    return Evaluation(
        tuple(shares.values()),
        broken,
        -math.inf if nowhere else min((share.margin for share in shares.values()), default=math.inf),
        min((share.margin for share in flexible), default=None) if flexible else None,
        flexible,
        min((share.error_ratio for share in shares.values()), default=math.inf),
        all(
            limit.left_kg + 1e-9 >= sum(abs(grows) * errors[name] for name, grows in limit.growth.items())
            for limit in limits
        ),
        tuple(_leeway(name, limits) for name in masses),
        effort(problem, placements),
        payload,
        moment,
    )


def _known(problem: Problem, placements: Sequence[Placement]) -> tuple[dict[str, Item], dict[str, Deck]]:
    items = {item.name: item for item in problem.items}
    decks = {deck.name: deck for deck in problem.decks}
    seen: set[str] = set()
    for placement in placements:
        if placement.item not in items:
            raise OutOfRange("placement: item", placement.item, f"must be one of {', '.join(items)}")
        if placement.deck not in decks:
            raise OutOfRange("placement: deck", placement.deck, f"must be one of {', '.join(decks)}")
        if placement.item in seen:
            raise OutOfRange("placement: item", placement.item, "stands twice; place each item once")
        if not math.isfinite(placement.front_m):
            raise OutOfRange(
                f"placement of {placement.item}: front_m", placement.front_m, "must be a finite number"
            )
        seen.add(placement.item)
    return items, decks


def _wheels(
    problem: Problem, placement: Placement, items: dict[str, Item], decks: dict[str, Deck]
) -> list[_Wheel]:
    item, deck = items[placement.item], decks[placement.deck]
    return [
        _Wheel(
            item,
            contact,
            placement.front_m + offset,
            deck,
            _zone_under(problem, deck, item, placement.front_m + offset),
        )
        for contact, offset in zip(item.contacts, item.offsets_m(placement.facing), strict=True)
    ]


def _zone_under(problem: Problem, deck: Deck, item: Item, at_m: float) -> Zone | None:
    """Return the zone under a place; on the very edge of two the one that lets the wheel stand, then the stronger."""
    opened = f"room:{deck.name}" in problem.dropped
    edge = problem.edge_m - EDGE_m
    standing = [
        zone
        for zone in deck.zones
        if (at_m >= zone.front_m + edge or (opened and zone is deck.zones[0]))
        and (at_m <= zone.rear_m - edge or (opened and zone is deck.zones[-1]))
    ]
    if not standing:
        return None
    return max(
        standing,
        key=lambda zone: (wheels_may_stand_on(problem, item, zone), zone.wheel_limit_kg, zone.total_limit_kg),
    )


def _line_limits(
    limit_lines: Iterable[Line], wheels: list[_Wheel], payload: float, moment: float
) -> Iterable[_Limit]:
    center: dict[str, float] = {}
    for wheel in wheels:
        center[wheel.item.name] = center.get(wheel.item.name, 0.0) + wheel.contact.share_ratio * wheel.at_m
    for line in limit_lines:
        growth = {
            name: line.load.per_mass_ratio + line.load.per_moment_1pm * at - line.limit.per_mass_ratio
            for name, at in center.items()
        }
        if line.least:
            growth = {name: -grows for name, grows in growth.items()}
        yield _Limit(
            line.name,
            line.load.at(payload, moment),
            line.limit.at(payload, moment),
            line.tight_ratio,
            growth,
            line.least,
        )


def _zone_limits(problem: Problem, wheels: list[_Wheel]) -> Iterable[_Limit]:
    for zone in (zone for deck in problem.decks for zone in deck.zones):
        name = f"zone_total:{zone.name}"
        if zone.total_limit_kg < INFINITE and name not in problem.dropped:
            growth: dict[str, float] = {}
            for wheel in wheels:
                if wheel.zone is zone:
                    growth[wheel.item.name] = growth.get(wheel.item.name, 0.0) + wheel.contact.share_ratio
            load = sum(wheel.load_kg for wheel in wheels if wheel.zone is zone)
            yield _Limit(
                name,
                load,
                zone.total_limit_kg,
                tight_ratio(problem, name, problem.tight.other_ratio),
                growth,
            )


def _wheel_limits(problem: Problem, wheels: list[_Wheel]) -> Iterable[_Limit]:
    """Return the limit under each wheel, zone by zone."""
    for zone in (zone for deck in problem.decks for zone in deck.zones):
        name = f"zone_wheel:{zone.name}"
        if zone.wheel_limit_kg < INFINITE and name not in problem.dropped:
            tight = tight_ratio(problem, name, problem.tight.other_ratio)
            for wheel in wheels:
                if wheel.zone is zone:
                    part = wheel.contact.share_ratio / wheel.contact.wheel_count
                    load = wheel.item.mass_kg * part
                    yield _Limit(name, load, zone.wheel_limit_kg, tight, {wheel.item.name: part})


def _flexible_shares(
    problem: Problem, wheels: list[_Wheel], payload: float, masses: dict[str, float]
) -> tuple[Share, ...]:
    """Return every limit that a bending frame changes, as it then stands."""
    trailer = problem.trailer
    if (
        trailer.suspension != "torsion"
        or trailer.frame_stiffness_Nm2 is None
        or trailer.axle_stiffness_Npm is None
    ):
        return ()
    loads = [(wheel.load_kg, wheel.at_m) for wheel in wheels]
    ends = [end for deck in problem.decks for end in (deck.zones[0].front_m, deck.zones[-1].rear_m)]
    places = [at for _, at in loads]
    bent = flexible_reactions(
        trailer, loads, min([0.0, *ends, *places]), max([*ends, *places, *trailer.axle_m])
    )
    as_bent = lines(problem, tuple(Load(axle) for axle in bent.axle_kg), Load(bent.pin_kg))
    return tuple(limit.share(masses) for limit in _line_limits(as_bent, [], payload, 0.0))


def _leeway(item: str, limits: list[_Limit]) -> Leeway:
    heavier, lighter = (math.inf, ""), (math.inf, "")
    for limit in limits:
        grows = limit.growth.get(item, 0.0)
        if grows > 1e-12:
            heavier = min(heavier, (max(0.0, limit.left_kg) / grows, limit.name))
        elif grows < -1e-12:
            lighter = min(lighter, (max(0.0, limit.left_kg) / -grows, limit.name))
    return Leeway(item, *heavier, *lighter)


def _broken(
    problem: Problem,
    placements: Sequence[Placement],
    wheels: list[_Wheel],
    items: dict[str, Item],
    decks: dict[str, Deck],
) -> Iterable[Broken]:
    for placement in placements:
        item, deck = items[placement.item], decks[placement.deck]
        begin, end = placement.front_m, placement.front_m + item.length_m
        if placement.facing not in item.facings and not {"facing", f"facing:{item.name}"} & problem.dropped:
            yield Broken(f"facing:{item.name}", item.name)
        outside = begin < deck.first_m - EDGE_m or end > deck.last_m + EDGE_m
        if outside and f"room:{deck.name}" not in problem.dropped:
            yield Broken(f"room:{deck.name}", item.name)
        for zone in deck.zones:
            over = begin < zone.rear_m - EDGE_m and end > zone.front_m + EDGE_m
            if over and not body_may_be_over(problem, item, zone):
                wide = item.width_m is not None and item.width_m > zone.width_limit_m
                yield Broken(f"{'width' if wide else 'height'}:{zone.name}", item.name, zone.name)
        for name in barred_from(problem, item, deck):
            yield Broken(name, item.name, deck.name)
    for wheel in wheels:
        yield from _broken_by(problem, wheel)
    yield from _overlaps(problem, placements, items)
    for first, other in blocking_pairs(problem, placements) if problem.drop_rule == "must" else ():
        yield Broken("drop_order", first, other)


def _broken_by(problem: Problem, wheel: _Wheel) -> Iterable[Broken]:
    name, deck = wheel.item.name, wheel.deck
    if wheel.zone is None:
        yield Broken(f"room:{deck.name}", name)
    elif not wheels_may_stand_on(problem, wheel.item, wheel.zone):
        yield Broken(f"lane:{wheel.zone.name}", name, wheel.zone.name)
    for strip in deck.strips:
        inside = strip.front_m - problem.edge_m + EDGE_m < wheel.at_m < strip.rear_m + problem.edge_m - EDGE_m
        if inside and f"strip:{strip.name}" not in problem.dropped:
            yield Broken(f"strip:{strip.name}", name, strip.name)
    reach = wheel.item.strap_reach_m
    if deck.strap_points_m and reach is not None and f"straps:{deck.name}" not in problem.dropped:
        away = min(abs(point - wheel.at_m) for point in deck.strap_points_m)
        if away > reach + EDGE_m:
            yield Broken(f"straps:{deck.name}", name, deck.name)


def _overlaps(problem: Problem, placements: Sequence[Placement], items: dict[str, Item]) -> Iterable[Broken]:
    rows = sorted(placements, key=lambda placement: (placement.deck, placement.front_m))
    for number, ahead in enumerate(rows):
        for behind in rows[number + 1 :]:
            if (
                ahead.deck == behind.deck
                and behind.front_m < ahead.front_m + items[ahead.item].length_m + problem.gap_m - EDGE_m
            ):
                yield Broken("overlap", ahead.item, behind.item)


def blocking_pairs(problem: Problem, placements: Sequence[Placement]) -> list[tuple[str, str]]:
    """Return the pairs (comes off first, stands in its way) of an arrangement."""
    if "drop_order" in problem.dropped:
        return []
    stop = {item.name: item.drop_count or math.inf for item in problem.items}
    over = {deck.name: deck.leaves_over for deck in problem.decks}
    return [
        (one.item, other.item)
        for one in placements
        for other in placements
        if stop[one.item] < stop[other.item]
        and ((one.deck == other.deck and other.front_m > one.front_m) or other.deck in over[one.deck])
    ]


def effort(problem: Problem, placements: Sequence[Placement]) -> int:
    """Return how much effort an arrangement asks: backing on, lifting, rearranging on the road."""
    items = {item.name: item for item in problem.items}
    lifts = {deck.name: deck.effort_count for deck in problem.decks}
    turned = {"driven": BACKED_ON, "winched": WINCHED_BACKWARD, "lifted": 0}
    backward = sum(
        turned[items[placement.item].moved_by] for placement in placements if placement.facing == "backward"
    )
    return (
        backward
        + sum(lifts[placement.deck] for placement in placements)
        + REARRANGED * len(blocking_pairs(problem, placements))
    )
