"""Which of many to take: the worthiest set of items that finds places within all limits, then its best arrangement."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Literal

from sendoff.calc.deck_plan import accelerate, subsets
from sendoff.calc.deck_plan.limits import lines
from sendoff.calc.deck_plan.problem import MOST_PLACED, Problem
from sendoff.calc.deck_plan.solve import HOLDS, Cut, Setup
from sendoff.calc.deck_plan.subsets import TOO_MANY, Fleet, Listed

LIST: Final = 4000
"""Sets listed at a time."""
FIRST_BAND: Final = 0.002
"""Of the most that could ride: how far down the first look goes."""
SAME_WORTH: Final = 1e-9
LOOKS: Final = 12
"""Sets tried in each narrow band of the first look."""


@dataclass(frozen=True, slots=True)
class Worthiest:
    """The worthiest set known that finds places within all limits."""

    items: tuple[str, ...]
    bound: float
    """No set within all limits is worth more."""
    proved: bool
    tried_count: int
    """Sets whose places were searched."""


def worthiest(
    problem: Problem, code: Literal["plain", "compiled"], go_on: Callable[[], bool] | None = None
) -> Worthiest:
    """Return the worthiest of all sets of items that finds places, or the best found in time with its bound."""
    looking = _Search(Cut(problem, code, HOLDS), go_on)
    if looking.count:
        looking.first_look()
    proved = looking.go_down()
    names = {looking.cut.problem.items[looking.cut.order[number]].name for number in looking.best}
    items = [item for item in problem.items if item.name in names]
    worth = sum(item.worth for item in items)
    bound = worth if proved else max(worth, looking.bound)
    return Worthiest(tuple(item.name for item in items), bound, proved, looking.tried)


def _fleet(cut: Cut) -> Fleet:
    """Return the items that find any place at all, densest in worth first."""
    flat, ways, items = cut.flat, cut.ways, [cut.problem.items[number] for number in cut.order]
    spans = [_ways_of(cut, item) for item in range(cut.items)]
    usable = [item for item in range(cut.items) if any(spans[item])]
    usable.sort(key=lambda item: (-items[item].worth / flat.reach[item], item))
    place = {item: number for number, item in enumerate(usable)}
    every = {item: [way for span in spans[item] for way in span] for item in usable}
    mass, reach = [flat.mass[item] for item in usable], [flat.reach[item] for item in usable]
    worth = [items[item].worth for item in usable]
    signed = [(line, -1.0 if line.least else 1.0) for line in lines(cut.problem)]
    fleet = Fleet(
        item=usable,
        worth=worth,
        mass=mass,
        reach=reach,
        twin=[place.get(flat.twin[item], -1) for item in usable],
        near=[
            min((ways.center[way] for way in spans[item][deck]), default=0.0)
            for deck in range(cut.decks)
            for item in usable
        ],
        far=[
            min((flat.length[item] - ways.center[way] for way in spans[item][deck]), default=0.0)
            for deck in range(cut.decks)
            for item in usable
        ],
        alone_low=[
            flat.mass[item] * min(ways.low[way] + ways.center[way] for way in every[item]) for item in usable
        ],
        alone_high=[
            flat.mass[item] * max(ways.high[way] + ways.center[way] for way in every[item]) for item in usable
        ],
        richest=[max(a / b for a, b in zip(worth[at:], mass[at:], strict=True)) for at in range(len(usable))],
        line_rest=[sign * (line.limit.constant_kg - line.load.constant_kg) for line, sign in signed],
        line_mass=[sign * (line.limit.per_mass_ratio - line.load.per_mass_ratio) for line, sign in signed],
        line_moment=[-sign * line.load.per_moment_1pm for line, sign in signed],
        mass_most=0.0,
        room_most=float(sum(last - first + cut.problem.gap_m for first, last in _ends(cut))),
        gap=float(cut.problem.gap_m),
    )
    return fleet._replace(mass_most=_mass_most(cut, fleet))


def _ways_of(cut: Cut, item: int) -> list[list[int]]:
    """Return the ways of an item that hold under its wheels, deck by deck."""
    rows = [deck * cut.items + item for deck in range(cut.decks)]
    return [
        [way for way in range(cut.ways.start[row], cut.ways.start[row + 1]) if cut.ways.worst[way] >= HOLDS]
        for row in rows
    ]


def _ends(cut: Cut) -> list[tuple[float, float]]:
    return list(zip(cut.flat.deck_first, cut.flat.deck_last, strict=True))


def _mass_most(cut: Cut, fleet: Fleet) -> float:
    """Return a mass that no set within all limits goes beyond: by plain limits, by zones, and by moment.

    However items are chosen, mass and moment lie in a convex region: no less moment than the densest items packed to
    the front give, no more than packed to the rear. Where that region and all lines have nothing in common any more,
    no set can be.
    """
    most = float(sum(fleet.mass))
    for rest, per_mass, per_moment in zip(fleet.line_rest, fleet.line_mass, fleet.line_moment, strict=True):
        if per_moment == 0 and per_mass < 0:
            most = min(most, -rest / per_mass)
    zones = [zone for deck in cut.problem.decks for zone in deck.zones]
    named = [f"zone_total:{zone.name}" for zone in zones]
    if not set(named) & cut.problem.dropped:
        most = min(most, sum(zone.total_limit_kg for zone in zones))
    most = max(0.0, most)

    def slack(mass: float) -> float:
        """How far apart the least and greatest moment are that hold everything; concave in the mass."""
        low, high = _reachable(cut, fleet, mass)
        for rest, per_mass, per_moment in zip(
            fleet.line_rest, fleet.line_mass, fleet.line_moment, strict=True
        ):
            left = rest + per_mass * mass
            if per_moment > 0:
                low = max(low, -left / per_moment)
            elif per_moment < 0:
                high = min(high, -left / per_moment)
        return high - low + 1e-6 * mass

    if most <= 0 or slack(most) >= 0:
        return most
    low, high = 0.0, most
    for _ in range(60):  # the mass with most slack
        one, two = low + (high - low) / 3, high - (high - low) / 3
        low, high = (one, high) if slack(one) < slack(two) else (low, two)
    best, beyond = (low + high) / 2, most
    if slack(best) < 0:
        return 0.0
    for _ in range(60):
        middle = (best + beyond) / 2
        best, beyond = (middle, beyond) if slack(middle) >= 0 else (best, middle)
    return beyond


def _reachable(cut: Cut, fleet: Fleet, mass: float) -> tuple[float, float]:
    """Return bounds of the moment of any items of so much mass: poured in from front or rear."""
    rows = sorted(range(len(fleet.mass)), key=lambda at: fleet.item[at])
    decks = range(cut.decks)
    early = max(fleet.reach[at] / 2 - min(fleet.near[d * len(rows) + at] for d in decks) for at in rows)
    late = max(fleet.reach[at] / 2 - min(fleet.far[d * len(rows) + at] for d in decks) for at in rows)
    pieces, left = [], mass
    for at in rows:
        part = min(1.0, left / fleet.mass[at])
        pieces.append((part * fleet.mass[at], part * fleet.reach[at]))
        left -= part * fleet.mass[at]
        if left <= 0:
            break
    low = _poured(pieces, [first for first, _ in _ends(cut)]) - mass * max(0.0, early)
    high = -_poured(pieces, [-last for _, last in _ends(cut)]) + mass * max(0.0, late)
    return low, high


def _poured(pieces: list[tuple[float, float]], fronts: list[float]) -> float:
    """Return the moment of pieces (mass, length) poured in from fronts, always where it is nearest to the coupling.

    Pieces are spread over all decks whose fronts are level: no later than on any one of them.
    """
    moment, fronts = 0.0, sorted(fronts)
    for mass, length in pieces:
        rest = length
        while rest > 1e-12:
            level = sum(front <= fronts[0] + 1e-12 for front in fronts)
            step = rest / level if level == len(fronts) else min(rest / level, fronts[level] - fronts[0])
            moment += mass * step * level / length * (fronts[0] + step / 2)
            rest -= step * level
            fronts = [front + step if number < level else front for number, front in enumerate(fronts)]
    return moment


class _Search:
    """Goes down band by band through the listed sets until one finds places."""

    def __init__(self, cut: Cut, go_on: Callable[[], bool] | None) -> None:
        self.cut, self.go_on = cut, go_on
        fleet = _fleet(cut)
        self.item, self.count = list(fleet.item), len(fleet.item)
        self.top = float(subsets.fill_up(fleet, 0, fleet.room_most, fleet.mass_most)) if self.count else 0.0
        sizes = cut.decks << subsets.MOST_BITS
        self.listed = accelerate.room(
            Listed, cut.code, self.count + 1, bits=LIST, worth=LIST, sums=3 * self.count + 3, fits=sizes, near=sizes,
            far=sizes, mass=1 << subsets.MOST_BITS, reach=1 << subsets.MOST_BITS,
        )  # fmt: skip
        ready = accelerate.arrays(fleet) if cut.code == "compiled" else fleet
        self.numbers = (ready, cut.ready_flat, cut.ready_ways)
        self.list_sets = accelerate.kernels(cut.code)["list_sets"]
        self.tried, self.left_out = 0, False
        self.best: list[int] = []
        self.worth = 0.0
        self.bound = self.top

    def time_left(self) -> bool:
        """Return whether there is time left."""
        return self.go_on is None or self.go_on()

    def band(self, low: float, high: float) -> list[tuple[float, list[int]]] | None:
        """Return the sets with a worth from low to below high, worthiest first; None where there are too many."""
        count = int(self.list_sets(*self.numbers, low, high, self.listed))
        if count == TOO_MANY:
            return None
        rows = [(float(self.listed.worth[at]), int(self.listed.bits[at])) for at in range(count)]
        rows.sort(key=lambda row: (-row[0], row[1]))
        return [
            (worth, [self.item[at] for at in range(self.count) if bits >> at & 1]) for worth, bits in rows
        ]

    def holds(self, chosen: list[int]) -> bool:
        """Return whether a set finds places within all limits."""
        if len(chosen) > MOST_PLACED:
            self.left_out = True
            return False
        self.tried += 1
        setup = Setup(self.cut.problem, self.cut.code, self.cut, sorted(chosen))
        return bool(setup.find(setup.goal(enough=HOLDS), least=HOLDS - 1e-9).placements)

    def first_look(self) -> None:
        """Find a good set soon: the first few of narrow bands, further and further down."""
        high = self.top
        while high > 0.05 * self.top and self.time_left():
            width = FIRST_BAND * high
            rows = self.band(high - width, high * (1 + 1e-12))
            while rows is None:
                width /= 4
                rows = self.band(high - width, high * (1 + 1e-12))
            for worth, chosen in rows[:LOOKS]:
                if self.holds(chosen):
                    self.best, self.worth = chosen, worth
                    return
            high *= 0.93

    def go_down(self) -> bool:
        """Search every band from the top to the best known; return whether the end was reached."""
        high, width = self.top * (1 + 1e-12) + SAME_WORTH, FIRST_BAND * self.top
        while high > self.worth + SAME_WORTH:
            if not self.time_left():
                return False
            low = max(high - width, self.worth + SAME_WORTH)
            rows = self.band(low, high)
            if rows is None:
                width /= 4
                continue
            for number, (worth, chosen) in enumerate(rows):
                self.bound = worth
                if self.holds(chosen):
                    self.best, self.worth = chosen, worth
                    return not self.left_out
                if number % 20 == 19 and not self.time_left():
                    return False
            high, width = low, width * (3 if len(rows) < LIST // 20 else 1)
            self.bound = max(low, self.worth)
        return not self.left_out
