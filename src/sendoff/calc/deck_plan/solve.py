"""From a problem to the best arrangement: set up the numbers, run the search in slices, read the answer back."""

from __future__ import annotations

import bisect
import functools
import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final, Literal

from sendoff.calc.deck_plan import accelerate, bounds, crowding, search, variables
from sendoff.calc.deck_plan.accelerate import Record
from sendoff.calc.deck_plan.bounds import Sets
from sendoff.calc.deck_plan.crowding import CHOICES, Crowding
from sendoff.calc.deck_plan.limits import lines
from sendoff.calc.deck_plan.memory import Memory
from sendoff.calc.deck_plan.problem import FACINGS, MOST_PLACED, Placement, Problem
from sendoff.calc.deck_plan.search import Goal, Work
from sendoff.calc.deck_plan.variables import BIG, Flat, Scratch, Ways
from sendoff.errors import OutOfRange

Code = Literal["auto", "plain", "compiled"]
HOLDS: Final = -1e-9
"""A margin from here on counts as holding: a limit met exactly is met."""
FIRST_STEP: Final = 60
"""Nodes before what takes longer to set up: more bounds, and remembering starts."""
SLICE: Final = {"plain": 200, "compiled": 20_000}
"""Nodes between two looks at the time."""
REMEMBERED: Final = {"plain": 3000, "compiled": 100_000}
"""Starts that are remembered at most."""
PLAIN_NODES: Final = 2000
"""Nodes after which the plain code hands over to the compiled one: a quarter of a second or so."""


@dataclass(frozen=True, slots=True)
class Found:
    """What a search gave: the best arrangement, if any, and what is known about better ones."""

    margin: float
    """Least margin of the best arrangement, in what is called tight; -inf without one."""
    bound: float
    """No arrangement is better than this."""
    proved: bool
    placements: tuple[Placement, ...]
    """In the order from front to rear, deck by deck."""
    effort_count: int
    node_count: int


class Cut:
    """All ways of all items of a problem: what a setup of all or some of them is made from."""

    def __init__(self, problem: Problem, code: Literal["plain", "compiled"], highest: float) -> None:
        self.problem, self.code, self.highest = problem, code, highest
        self.order = variables.order_of_items(problem)
        self.flat = variables.flatten(problem, self.order, highest)
        self.items, self.decks, self.zones, self.columns = self.flat.counts
        self.ready_flat = accelerate.arrays(self.flat) if code == "compiled" else self.flat
        self.ready_ways, self.way_count = self._cut()

    def _cut(self) -> tuple[Ways, int]:
        marks = self.zones + len(self.flat.strip_front) + len(self.flat.strap_at)
        edges = 2 * 8 * marks + 2 * self.zones + 4
        most = 32 * self.items * self.decks
        starts = self.items * self.decks + 1
        while True:
            ways = accelerate.room(Ways, self.code, most, start=starts, onto=most * self.columns)
            scratch = accelerate.room(Scratch, self.code, edges, here=8)
            count = int(accelerate.kernels(self.code)["cut"](self.ready_flat, self.highest, scratch, ways))
            if count >= 0:
                return ways, count
            most *= 4

    @functools.cached_property
    def ways(self) -> Ways:
        """All ways as plain lists."""
        sizes = {"start": len(self.ready_ways.start), "onto": self.way_count * self.columns}
        return accelerate.lists(self.ready_ways, self.way_count, sizes)

    def take(self, chosen: list[int]) -> tuple[Flat, Ways]:
        """Return the numbers of some of the items (by their place in Smith's order) as if there were no others."""
        items, columns, flat, ways = self.items, self.columns, self.flat, self.ways
        rows = [deck * items + item for deck in range(self.decks) for item in chosen]
        spans = [range(ways.start[row], ways.start[row + 1]) for row in rows]
        picked = [way for span in spans for way in span]
        start = [0]
        for span in spans:
            start.append(start[-1] + len(span))
        twins, place = [], {item: number for number, item in enumerate(chosen)}
        for item in chosen:
            like = flat.twin[item]
            while like >= 0 and like not in place:
                like = flat.twin[like]
            twins.append(place.get(like, -1))
        some_flat = flat._replace(
            counts=[len(chosen), *flat.counts[1:]],
            mass=[flat.mass[item] for item in chosen],
            length=[flat.length[item] for item in chosen],
            reach=[flat.reach[item] for item in chosen],
            twin=twins,
            drop=[flat.drop[item] for item in chosen],
        )
        some_ways = Ways(
            start=start,
            low=[ways.low[way] for way in picked],
            high=[ways.high[way] for way in picked],
            center=[ways.center[way] for way in picked],
            worst=[ways.worst[way] for way in picked],
            facing=[ways.facing[way] for way in picked],
            effort=[ways.effort[way] for way in picked],
            onto=[ways.onto[way * columns + column] for way in picked for column in range(columns)],
        )
        return some_flat, some_ways


class Setup:
    """The numbers of some items of a problem, ready for searches with different goals."""

    def __init__(
        self,
        problem: Problem,
        code: Literal["plain", "compiled"],
        cut: Cut | None = None,
        chosen: list[int] | None = None,
    ) -> None:
        count = len(problem.items) if chosen is None else len(chosen)
        if count > MOST_PLACED:
            raise OutOfRange(
                "items", count, f"at most {MOST_PLACED} can be placed at once; ask which of them to take"
            )
        self.code = code
        self.kernels: Any = accelerate.kernels(code)
        self.lines = lines(problem)
        picked = range(count) if chosen is None else chosen
        order = variables.order_of_items(problem) if cut is None else cut.order
        self.named = [problem.items[order[number]] for number in picked]
        self.deck_names = [deck.name for deck in problem.decks]
        self.mass_kg = sum(item.mass_kg for item in self.named)
        self.rest, self.slope = variables.slopes(self.lines, self.mass_kg)
        peak = bounds.best_moment(self.rest, self.slope, len(self.rest), -BIG, BIG)
        self.highest = float(bounds.margin_at(self.rest, self.slope, len(self.rest), peak))
        cut = cut or Cut(problem, code, self.highest)
        self.flat, self.ways, self.way_count = cut.ready_flat, cut.ready_ways, cut.way_count
        self.items, self.decks, self.zones, self.columns = cut.flat.counts
        if chosen is not None:
            flat, ways = cut.take(chosen)
            self.items, self.way_count = len(chosen), len(ways.low)
            self.flat, self.ways = self._ready(flat), self._ready(ways)
        self.ready_lines = (self.rest, self.slope)
        if code == "compiled":
            self.ready_lines = accelerate.reals(self.rest), accelerate.reals(self.slope)
        self.sets = self._sets()
        self.crowding = self._crowding()
        self.no_memory = self.memory(0)
        self.highest = min(self.highest, float(self.sets.wheels[(1 << self.items) - 1]))

    def _ready(self, record: Record) -> Record:
        return accelerate.arrays(record) if self.code == "compiled" else record

    def _sets(self) -> Sets:
        size = 1 << self.items
        splits = size * bounds.STEPS * (self.decks - 1)
        sets = accelerate.room(
            Sets, self.code, size * self.decks, mass=size, reach=size, split_low=splits, split_high=splits
        )
        self.kernels["fill_fits"](self.flat, self.ways, sets, -BIG)
        self.kernels["fill_sets"](self.flat, self.ways, sets, -BIG)
        return sets

    def _crowding(self) -> Crowding:
        """Return room for the choices on each zone; they are worked out only for a search that goes on."""
        size = self.columns * self.decks << self.items
        choices = accelerate.room(Crowding, self.code, size * CHOICES, known=1, count=size)
        choices.known[0] = 0
        return choices

    def _fill(self, least: float) -> None:
        """Work the bounds out anew, with only the ways that could still give more than a margin."""
        self.kernels["fill_fits"](self.flat, self.ways, self.sets, least)
        self.kernels["fill_sets"](self.flat, self.ways, self.sets, least)
        self.kernels["fill_crowding"](self.flat, self.ways, self.sets, self.crowding, least)

    def _lower_ceiling(self) -> None:
        """Work out what wheels and each zone alone let the margin be at best: worth it for a search that goes on."""
        if self.columns and not int(self.crowding.known[0]):
            self.kernels["fill_crowding"](self.flat, self.ways, self.sets, self.crowding, -BIG)
            full = (1 << self.items) - 1
            for column in range(self.columns):
                onto = crowding.least_onto(self.flat, self.crowding, column, 0, full, -BIG)
                spare = self.flat.column_limit[column] - onto
                self.highest = min(self.highest, float(spare / self.flat.column_scale[column]))
        self.highest = self._highest_on_wheels()

    def _highest_on_wheels(self) -> float:
        """Return a margin that no arrangement beats under its wheels, by the ways left for a better one."""
        full, sets = (1 << self.items) - 1, self.sets
        steps = sorted({float(worst) for worst in self.ways.worst[: self.way_count] if worst < self.highest})
        if not steps or float(sets.latest[full]) <= -BIG:
            return self.highest
        low, high = 0, len(steps)
        while low < high:
            middle = (low + high) // 2
            self.kernels["fill_fits"](self.flat, self.ways, sets, steps[middle])
            if float(sets.latest[full]) > -BIG:
                low = middle + 1
            else:
                high = middle
        self.kernels["fill_fits"](self.flat, self.ways, sets, -BIG)
        return self.highest if low == len(steps) else steps[low]

    @functools.cached_property
    def peak(self) -> tuple[float, float]:
        """The moment within reach at which the least of the lines is greatest, and how great it is there."""
        full, first = (1 << self.items) - 1, float(self.flat.deck_first[0])
        low = float(bounds.least_moment(self.flat, self.sets, 0, full, first))
        high = max(low, float(bounds.greatest_moment(self.flat, self.sets, 0, full, first)))
        peak = float(bounds.best_moment(self.rest, self.slope, len(self.rest), low, high))
        return peak, float(bounds.margin_at(self.rest, self.slope, len(self.rest), peak))

    def goal(self, *, effort_most: int = search.ANY_EFFORT, enough: float = BIG) -> Goal:
        """Return the goal of the best least margin, or of any margin that is enough."""
        peak, top = self.peak
        top = min(self.highest, top)
        rest, slope = self.ready_lines
        return Goal(rest, slope, len(self.rest), -BIG, BIG, peak, top, effort_most, min(top, float(enough)))

    @functools.cached_property
    def starts(self) -> list[int]:
        """Where the ways of each item on each deck begin."""
        return [int(start) for start in self.ways.start]

    @functools.cached_property
    def work(self) -> Work:
        """Room for a search; each begins in it anew."""
        depth, pool = self.items + 1, (self.items + 1) * (self.way_count + 1)
        return accelerate.room(
            Work, self.code, depth, state=6, best=7, loads=depth * self.columns, room=self.columns + 1,
            scale=self.columns + 1, child_way=pool, child_item=pool, child_bound=pool, child_score=pool,
        )  # fmt: skip

    def memory(self, most: int) -> Memory:
        """Return room for so many starts that the search remembers, none so far."""
        memory = accelerate.room(
            Memory, self.code, most, state=1, head=(1 << self.items) * self.decks, chain_way=most * self.items,
            chain_item=most * self.items, loads=most * self.columns,
        )  # fmt: skip
        memory.state[0] = 0
        for key in range(len(memory.head)):
            memory.head[key] = -1
        return memory

    def find(
        self,
        goal: Goal,
        *,
        least: float = -BIG,
        go_on: Callable[[], bool] | None = None,
        node_limit: int | None = None,
    ) -> Found:
        """Search for the best arrangement with a margin above `least`, for so many nodes and while `go_on` says so."""
        work, memory = self.work, self.no_memory
        search.open_search(self.flat, goal, work, least)
        most = 1 << 60 if node_limit is None else node_limit
        sharpened, how, step = False, search.OPEN, FIRST_STEP
        while how != search.DONE:
            left = min(most - int(work.state[search.NODES]), step)
            numbers = (self.flat, self.ways, self.sets, self.crowding, goal, work, memory)
            how = int(self.kernels["run"](*numbers, left))
            if how == search.SHARPEN:
                self._fill(float(work.best[search.BEST]) + search.BETTER)
                sharpened = True
            elif how == search.OPEN and step == FIRST_STEP:
                self._lower_ceiling()
                memory = self.memory(REMEMBERED[self.code] if self.items >= 4 else 0)
                goal = goal._replace(top=min(goal.top, self.highest), enough=min(goal.enough, self.highest))
                step = SLICE[self.code] if go_on else 1 << 60
            out_of_nodes = int(work.state[search.NODES]) >= most
            if how == search.OPEN and (out_of_nodes or (go_on is not None and not go_on())):
                break
        if sharpened:
            self._fill(-BIG)
        return self._read(goal, work, done=how == search.DONE)

    def _read(self, goal: Goal, work: Work, *, done: bool) -> Found:
        nodes = int(work.state[search.NODES])
        if not int(work.state[search.FOUND]):
            bound = -math.inf if done else min(goal.top, float(search.open_bound(work)))
            return Found(-math.inf, bound, done, (), 0, nodes)
        margin = float(work.best[search.BEST])
        bound = margin if done else max(margin, min(goal.top, float(search.open_bound(work))))
        return Found(
            margin, bound, done, self.placements(work, goal.peak), int(work.best[search.BEST_EFFORT]), nodes
        )

    def placements(self, work: Work, wanted: float) -> tuple[Placement, ...]:
        """Return where each item stands: between packed to the front and packed to the rear, at the wanted moment."""
        chain = [int(way) for way in work.best_way[: self.items]]
        spots = [self._spot(way) for way in chain]
        low, high = self._packed(spots, chain)
        centers = [float(self.ways.center[way]) for way in chain]
        masses = [self.named[item].mass_kg for _, item in spots]
        moment_low, moment_high = (
            sum(mass * (at + center) for mass, at, center in zip(masses, ends, centers, strict=True))
            for ends in (low, high)
        )
        part = 0.0 if moment_high <= moment_low else (wanted - moment_low) / (moment_high - moment_low)
        part = min(1.0, max(0.0, part))
        return tuple(
            Placement(
                self.named[item].name,
                self.deck_names[deck],
                FACINGS[int(self.ways.facing[way])],
                begin + part * (end - begin),
            )
            for (deck, item), way, begin, end in zip(spots, chain, low, high, strict=True)
        )

    def _spot(self, way: int) -> tuple[int, int]:
        """Return deck and item of a way."""
        deck, item = divmod(bisect.bisect_right(self.starts, way) - 1, self.items)
        return deck, item

    def _packed(self, spots: list[tuple[int, int]], chain: list[int]) -> tuple[list[float], list[float]]:
        low, high = [], []
        deck, begin = -1, -BIG
        for (here, item), way in zip(spots, chain, strict=True):
            begin = begin if here == deck else -BIG
            low.append(max(float(self.ways.low[way]), begin))
            deck, begin = here, low[-1] + float(self.flat.reach[item])
        deck, end = -1, BIG
        for (here, item), way in zip(reversed(spots), reversed(chain), strict=True):
            end = end if here == deck else BIG
            high.append(min(float(self.ways.high[way]), end - float(self.flat.reach[item])))
            deck, end = here, high[-1]
        return low, [max(a, b) for a, b in zip(low, reversed(high), strict=True)]


def best(
    problem: Problem,
    *,
    code: Code = "auto",
    go_on: Callable[[], bool] | None = None,
    compiling: Callable[[], None] | None = None,
) -> tuple[Found, Setup]:
    """Return the arrangement with the best least margin, or the best found in time, and the numbers used.

    "auto" begins with the plain code, which is done at once with what mostly rides. Only if that takes long and
    numba is installed does the compiled code take over; `compiling` is called before, as its first use takes seconds.
    """
    if code == "auto":
        first = Setup(problem, "compiled" if accelerate.ready() else "plain")
        later = first.code == "plain" and accelerate.available()
        found = first.find(first.goal(), go_on=go_on, node_limit=PLAIN_NODES if later else None)
        if found.proved or not later or (go_on is not None and not go_on()):
            return found, first
        if compiling is not None:
            compiling()
        code = "compiled"
    setup = Setup(problem, code)
    return setup.find(setup.goal(), go_on=go_on), setup
