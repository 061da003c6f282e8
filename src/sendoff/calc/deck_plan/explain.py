"""Why nothing fits: a smallest set of limits that cannot hold together, and what would help, cheapest first.

A deletion filter: limits are left out, many at a time and then one by one, as long as nothing fits without them. What
remains clashes, and any one of it left out would let everything else hold. Each repair is tried by the same search.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Final, Literal

from sendoff.calc.deck_plan.choose import worthiest
from sendoff.calc.deck_plan.evaluate import evaluate
from sendoff.calc.deck_plan.gear import INFINITE
from sendoff.calc.deck_plan.limits import lines
from sendoff.calc.deck_plan.problem import (
    FACINGS,
    Deck,
    Placement,
    Problem,
    counting_only,
    with_items,
    without,
)
from sendoff.calc.deck_plan.solve import HOLDS, Cut, Found, Setup
from sendoff.calc.deck_plan.variables import barred_from, body_may_be_over, wheels_may_stand_on

MOST_CLASHES: Final = 3
"""Further sets of limits that are told."""
LONGEST_m: Final = 8.0
"""A deck is not imagined longer than by this."""

Kind = Literal["turn", "other_way", "lighten", "leave", "lengthen", "without", "raise"]
RANK: Final[dict[Kind, int]] = {
    "turn": 0, "other_way": 1, "lighten": 2, "leave": 3, "without": 4, "lengthen": 5, "raise": 6,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Repair:
    """One change that would let everything fit, all other limits as they are."""

    kind: Kind
    """Let an item face the other way; use another way to set up the decks; take mass off an item; leave an item behind;
    do without a rule; a longer deck; a higher limit."""
    names: tuple[str, ...]
    """Of the item or items, the way, the deck or the limit."""
    amount_kg: float
    """Mass taken off or left behind, or what the limit is short of; 0 where it does not apply."""
    amount_m: float
    """What the deck is short of; 0 where it does not apply."""
    placements: tuple[Placement, ...]
    """An arrangement that then holds."""


@dataclass(frozen=True, slots=True)
class Conflict:
    """Limits that clash."""

    names: tuple[str, ...]
    """Cannot hold together; without any one of them all others of these could."""
    further: tuple[tuple[str, ...], ...]
    """Other sets that clash on their own, none sharing a limit with another."""
    proved: bool
    """Whether every step of the filter was worked out to its end."""
    repairs: tuple[Repair, ...]
    """Cheapest first."""


def limit_names(problem: Problem) -> tuple[str, ...]:
    """Return every limit of a problem that can keep something out, those that are told apart most easily last."""
    zones = [zone for deck in problem.decks for zone in deck.zones]
    found = [f"straps:{deck.name}" for deck in problem.decks if deck.strap_points_m and _any_reach(problem)]
    found += [f"strip:{strip.name}" for deck in problem.decks for strip in deck.strips]
    for zone in zones:
        if not all(wheels_may_stand_on(problem, item, zone) for item in problem.items):
            found.append(f"lane:{zone.name}")
        if not all(body_may_be_over(problem, item, zone) for item in problem.items):
            found += [f"width:{zone.name}", f"height:{zone.name}"]
    found += sorted(
        {
            name
            for deck in problem.decks
            for item in problem.items
            for name in barred_from(problem, item, deck)
        }
    )
    if problem.drop_rule == "must" and len({item.drop_count for item in problem.items}) > 1:
        found.append("drop_order")
    found += [f"facing:{item.name}" for item in problem.items if len(item.facings) < len(FACINGS)]
    found += [f"zone_wheel:{zone.name}" for zone in zones if zone.wheel_limit_kg < INFINITE]
    found += [f"zone_total:{zone.name}" for zone in zones if zone.total_limit_kg < INFINITE]
    found += [line.name for line in reversed(lines(problem))]
    found += [f"room:{deck.name}" for deck in problem.decks]
    return tuple(name for name in found if name not in problem.dropped)


def _any_reach(problem: Problem) -> bool:
    return any(item.strap_reach_m is not None for item in problem.items)


class _Trier:
    """Asks whether a problem can hold, and remembers whether every answer was proved."""

    def __init__(self, code: Literal["plain", "compiled"], go_on: Callable[[], bool] | None) -> None:
        self.code, self.go_on = code, go_on
        self.proved = True
        self.cuts: dict[tuple[object, ...], Cut] = {}

    def in_time(self) -> bool:
        """Return whether there is time left."""
        return self.go_on is None or self.go_on()

    def find(self, problem: Problem) -> Found:
        """Return an arrangement that holds, if there is one."""
        setup = Setup(problem, self.code, self.cut(problem))
        found = setup.find(setup.goal(enough=HOLDS), least=HOLDS - 1e-9, go_on=self.go_on)
        self.proved = self.proved and found.proved
        return found

    def cut(self, problem: Problem) -> Cut:
        """Return all ways of the items that hold; limits that are lines in mass and moment have no part in them."""
        about_places = frozenset(
            name
            for name in problem.dropped
            if name in {"drop_order", "facing"} or (":" in name and not name.startswith("law:"))
        )
        key = (about_places, problem.items, problem.decks)
        if key not in self.cuts:
            self.cuts[key] = Cut(problem, self.code, 0.0)
        return self.cuts[key]

    def holds(self, problem: Problem) -> bool:
        """Return whether some arrangement holds."""
        return bool(self.find(problem).placements)

    def best(self, problem: Problem) -> Found:
        """Return the arrangement with the best least margin."""
        setup = Setup(problem, self.code)
        return setup.find(setup.goal(), go_on=self.go_on)


def explain(
    problem: Problem,
    *,
    code: Literal["plain", "compiled"] = "plain",
    go_on: Callable[[], bool] | None = None,
    other_ways: Mapping[str, Problem] | None = None,
    repairs: bool = True,
) -> Conflict:
    """Return limits that clash in a problem in which nothing fits, and what would help.

    Parameters
    ----------
    problem : Problem
        One that has no arrangement within all its limits.
    code : {"plain", "compiled"}
        Which code runs.
    go_on : callable, optional
        Asked now and then whether there is time left.
    other_ways : mapping of Problem, optional
        The same items with the decks set up otherwise, by name.
    repairs : bool
        Whether to look for what would help, too.

    Returns
    -------
    Conflict
        Limits that clash [-], repairs [kg, m].
    """
    trier = _Trier(code, go_on)
    clashes = [_smallest(problem, trier)]
    while trier.in_time() and len(clashes) <= MOST_CLASHES and clashes[-1]:
        rest = without(problem, [name for clash in clashes for name in clash])
        if trier.holds(rest):
            break
        clashes.append(_smallest(rest, trier))
    found = _repairs(problem, clashes[0], trier, other_ways or {}) if repairs and trier.in_time() else ()
    return Conflict(clashes[0], tuple(clashes[1:]), trier.proved, found)


def _smallest(problem: Problem, trier: _Trier) -> tuple[str, ...]:
    """Leave limits out as long as nothing fits; return those that cannot be left out."""
    names = list(limit_names(problem))
    gone: list[str] = []
    size = max(1, len(names) // 3)
    while True:
        at = 0
        while at < len(names):
            chunk = names[at : at + size]
            if trier.holds(without(problem, [*gone, *chunk])):
                at += size
            else:
                gone += chunk
                del names[at : at + size]
        if size == 1 or not names:
            return tuple(reversed(names))
        size = max(1, min(size // 2, len(names) // 2))


def _repairs(
    problem: Problem, names: tuple[str, ...], trier: _Trier, other_ways: Mapping[str, Problem]
) -> tuple[Repair, ...]:
    found: list[Repair] = []
    for way, other in other_ways.items():
        found += _if_it_holds("other_way", way, other, trier)
    for name in names:
        kind, _, of = name.partition(":")
        if kind == "facing":
            found += _if_it_holds("turn", of, without(problem, [name]), trier)
        elif kind == "room":
            found += _lengthen(problem, of, trier)
        elif kind in {"strip", "straps", "lane", "width", "height", "drop_order"} or kind.startswith("ramp_"):
            found += _if_it_holds("without", name, without(problem, [name]), trier)
        else:
            found += _raise(problem, name, trier)
    found += _leave_one(problem, trier) or _leave_some(problem, trier)
    found += _lighten_one(problem, trier)
    return tuple(
        sorted(found, key=lambda repair: (RANK[repair.kind], repair.amount_kg, repair.amount_m, repair.names))
    )


def _if_it_holds(kind: Kind, name: str, problem: Problem, trier: _Trier) -> list[Repair]:
    found = trier.find(problem)
    return [Repair(kind, (name,), 0.0, 0.0, found.placements)] if found.placements else []


def _raise(problem: Problem, name: str, trier: _Trier) -> list[Repair]:
    """Return by how much one limit is passed when all others hold and its load is as low as can be."""
    counted = counting_only(problem, name)
    best = trier.best(counted)
    if not best.placements:
        return []
    looked_at = evaluate(problem, best.placements)
    short = [share for share in looked_at.shares if share.margin < HOLDS]
    if looked_at.broken or [share.name for share in short] != [name]:
        return []
    return [Repair("raise", (name,), -short[0].left_kg, 0.0, best.placements)]


def _lengthen(problem: Problem, deck_name: str, trier: _Trier) -> list[Repair]:
    """Return by how much a deck is too short, to the centimeter above."""
    low, high = 0, round(LONGEST_m * 100)
    found = trier.find(_longer(problem, deck_name, high / 100))
    if not found.placements:
        return []
    while high - low > 1:
        middle = (low + high) // 2
        tried = trier.find(_longer(problem, deck_name, middle / 100))
        if tried.placements:
            high, found = middle, tried
        else:
            low = middle
    return [Repair("lengthen", (deck_name,), 0.0, high / 100, found.placements)]


def _longer(problem: Problem, deck_name: str, more_m: float) -> Problem:
    """Return the problem with one deck's last zone going on further to the rear."""

    def longer(deck: Deck) -> Deck:
        last = replace(deck.zones[-1], rear_m=deck.zones[-1].rear_m + more_m)
        return replace(deck, zones=(*deck.zones[:-1], last))

    return replace(
        problem, decks=tuple(longer(deck) if deck.name == deck_name else deck for deck in problem.decks)
    )


def _leave_one(problem: Problem, trier: _Trier) -> list[Repair]:
    found = []
    for item in problem.items if len(problem.items) > 1 else ():
        rest = trier.find(with_items(problem, [other for other in problem.items if other is not item]))
        if rest.placements:
            found.append(Repair("leave", (item.name,), item.mass_kg, 0.0, rest.placements))
    return found


def _leave_some(problem: Problem, trier: _Trier) -> list[Repair]:
    """Return what to leave behind so that as much as can be rides, where leaving one is not enough."""
    best = worthiest(problem, trier.code, trier.go_on)
    staying = [item for item in problem.items if item.name not in best.items]
    riding = (
        with_items(problem, [item for item in problem.items if item.name in best.items])
        if best.items
        else None
    )
    if riding is None:
        return []
    names = tuple(item.name for item in staying)
    return [Repair("leave", names, sum(item.mass_kg for item in staying), 0.0, trier.find(riding).placements)]


def _lighten_one(problem: Problem, trier: _Trier) -> list[Repair]:
    """Return which item made lighter, standing where the least bad arrangement has it, would do, and by how much."""
    best = trier.best(problem)
    if not best.placements:
        return []
    found = []
    for item in problem.items:
        needed = _too_heavy_by(problem, best.placements, item.name)
        if needed is not None and needed < 0.5 * item.mass_kg:
            found.append(Repair("lighten", (item.name,), needed, 0.0, best.placements))
    return sorted(found, key=lambda repair: repair.amount_kg)[:2]


def _too_heavy_by(problem: Problem, placements: tuple[Placement, ...], name: str) -> float | None:
    """Return how much lighter one item must be for an arrangement to hold; None where that would not do."""

    def least_left(mass_kg: float) -> tuple[float, float]:
        items = [
            replace(item, mass_kg=mass_kg, mass_error_kg=0.0) if item.name == name else item
            for item in problem.items
        ]
        shares = evaluate(with_items(problem, items), placements).shares
        worst = min(shares, key=lambda share: share.left_kg)
        return worst.left_kg, worst.margin

    whole = next(item.mass_kg for item in problem.items if item.name == name)
    low, high = 0.0, 0.5 * whole
    if least_left(whole - high)[0] < HOLDS:
        return None
    while high - low > 1e-3:
        middle = (low + high) / 2
        if least_left(whole - middle)[0] < 0:
            low = middle
        else:
            high = middle
    return high
