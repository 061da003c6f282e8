"""The search itself: depth first over ways, front to rear, deck by deck, with bounds on what each start can still give.

A node stands for some items placed in order, each in a way (deck, facing, cell). Packed hard to the front they give
the least moment, packed hard to the rear the greatest; everything between can be reached, so no linear program is
needed. A child is kept only while its bound beats the best arrangement found. The search can be stopped after any
number of nodes and goes on where it was; what is still open bounds what could still be found.
"""

from __future__ import annotations

from typing import Final, NamedTuple

from sendoff.calc.deck_plan.accelerate import Reals, Wholes, kernel
from sendoff.calc.deck_plan.bounds import NEVER, Sets, greatest_moment, least_moment, margin_at
from sendoff.calc.deck_plan.crowding import Crowding, least_onto
from sendoff.calc.deck_plan.memory import Memory, Start, keep, push, seen
from sendoff.calc.deck_plan.variables import BIG, NEAR, REARRANGED, Flat, Ways

BETTER: Final = 1e-12
"""An arrangement must beat the best by more than this to count as better."""
ANY_EFFORT: Final = 1 << 30
NO_DROP: Final = 1 << 30

OPEN, DONE, SHARPEN = 0, 1, 2
DEPTH, NODES, POOL_END, FOUND, SHARPEN_AT, FRESH = 0, 1, 2, 3, 4, 5
BEST, BEST_LOW, BEST_HIGH, BEST_EFFORT, WINDOW_LOW, WINDOW_HIGH, SHARPENED = 0, 1, 2, 3, 4, 5, 6
SHARPEN_EVERY: Final = 400
"""Nodes after which bounds are worked out anew with the best found, if it was bettered."""


class Goal(NamedTuple):
    """What is looked for: lines to keep the least margin of, where the moment may lie, how much effort."""

    rest: Reals
    slope: Reals
    line_count: int
    low: float
    high: float
    peak: float
    """The moment at which the least of the lines is greatest."""
    top: float
    """No margin can be better."""
    effort_most: int
    enough: float
    """Stop at the first arrangement with such a margin."""


class Work(NamedTuple):
    """Room for the search: a stack of nodes, a pool of children, the best found."""

    state: Wholes
    best: Reals
    best_way: Wholes
    used: Wholes
    deck: Wholes
    turn: Wholes
    """Where on the stack the deck now filled begins."""
    split: Wholes
    """Which item is on which deck, two bits each."""
    begin: Reals
    low: Reals
    closed_high: Reals
    worst: Reals
    effort: Wholes
    way: Wholes
    item: Wholes
    loads: Reals
    room: Reals
    """What is left of all zones from one on to the last, for the node being looked at."""
    scale: Reals
    child_first: Wholes
    child_end: Wholes
    child_way: Wholes
    child_item: Wholes
    child_bound: Reals
    child_score: Reals


class Branch(NamedTuple):
    """What all ways of one item on one deck after one node have in common."""

    item: int
    deck: int
    begin: float
    left: int
    latest: float
    low: float
    worst: float
    onto: float
    effort: int
    first: int
    """Where on the stack the items ahead on this deck begin."""
    closed_high: float


def open_search(flat: Flat, goal: Goal, work: Work, least: float) -> None:
    """Put the empty arrangement on the stack; only margins better than `least` count."""
    work.state[DEPTH], work.state[NODES], work.state[POOL_END], work.state[FOUND] = 0, 0, 0, 0
    work.state[SHARPEN_AT], work.best[SHARPENED] = SHARPEN_EVERY, least
    work.used[0], work.deck[0], work.turn[0], work.split[0], work.begin[0] = 0, 0, 1, 0, -BIG
    work.low[0], work.closed_high[0], work.worst[0], work.effort[0] = 0.0, 0.0, BIG, 0
    for column in range(flat.counts[3]):
        work.loads[column] = 0.0
    work.state[FRESH] = 1
    raise_best(goal, work, least)


@kernel
def raise_best(goal: Goal, work: Work, margin: float) -> None:
    """Keep the best margin and, from it, between which moments a better one must lie."""
    work.best[BEST] = margin
    low, high = goal.low, goal.high
    for line in range(goal.line_count):
        slope = goal.slope[line]
        if slope > 0.0:
            low = max(low, (margin - goal.rest[line]) / slope)
        elif slope < 0.0:
            high = min(high, (margin - goal.rest[line]) / slope)
    work.best[WINDOW_LOW], work.best[WINDOW_HIGH] = low, high


@kernel
def run(
    flat: Flat,
    ways: Ways,
    sets: Sets,
    crowding: Crowding,
    goal: Goal,
    work: Work,
    memory: Memory,
    node_limit: int,
) -> int:
    """Search for at most so many nodes more; return OPEN, DONE or, where better bounds would pay, SHARPEN."""
    until = work.state[NODES] + node_limit
    while work.state[DEPTH] >= 0:
        depth = work.state[DEPTH]
        if work.state[FRESH]:
            expand(flat, ways, sets, crowding, goal, work, depth)
            work.state[FRESH] = 0
            if work.best[BEST] > work.best[SHARPENED] and work.state[NODES] >= work.state[SHARPEN_AT]:
                work.best[SHARPENED], work.state[SHARPEN_AT] = (
                    work.best[BEST],
                    work.state[NODES] + SHARPEN_EVERY,
                )
                return SHARPEN
        if work.best[BEST] >= goal.enough:
            return DONE
        if work.state[NODES] >= until:
            return OPEN
        chosen = pick(work, depth)
        if chosen < 0:
            work.state[DEPTH] = depth - 1
            work.state[POOL_END] = work.child_first[depth]
            continue
        place(flat, ways, work, depth, chosen)
        work.state[NODES] += 1
        if split_bound(flat, sets, ways, goal, work, depth + 1) <= work.best[BEST] + BETTER:
            continue
        if known(flat, ways, sets, goal, work, memory, depth + 1):
            continue
        work.state[DEPTH] = depth + 1
        work.state[FRESH] = 1
    return DONE


@kernel
def pick(work: Work, depth: int) -> int:
    """Take the most promising child of a node out of the pool; -1 where none can beat the best."""
    best, score, chosen = work.best[BEST] + BETTER, -BIG, -1
    for child in range(work.child_first[depth], work.child_end[depth]):
        bound = work.child_bound[child]
        if bound > best or (chosen >= 0 and bound == best and work.child_score[child] > score):
            best, score, chosen = bound, work.child_score[child], child
    if chosen >= 0:
        work.child_bound[chosen] = -BIG
    return chosen


@kernel
def open_bound(work: Work) -> float:
    """Return what could still be found at best: the best found, or the highest bound that is still open."""
    bound = work.best[BEST]
    for depth in range(work.state[DEPTH] + 1):
        for child in range(work.child_first[depth], work.child_end[depth]):
            bound = max(bound, work.child_bound[child])
    return float(bound)


@kernel
def deck_of(flat: Flat, ways: Ways, way: int) -> int:
    """Return the deck a way is on."""
    deck = 0
    while way >= ways.start[(deck + 1) * flat.counts[0]]:
        deck += 1
    return deck


@kernel
def place(flat: Flat, ways: Ways, work: Work, depth: int, child: int) -> None:
    """Put the child's item in its way on the stack, packed to the front."""
    way, item = work.child_way[child], work.child_item[child]
    column_count = flat.counts[3]
    deck, after = deck_of(flat, ways, way), depth + 1
    same = deck == work.deck[depth]
    at = max(ways.low[way], work.begin[depth] if same else -BIG)
    work.used[after] = work.used[depth] | 1 << item
    work.deck[after] = deck
    work.turn[after] = work.turn[depth] if same else after
    work.split[after] = work.split[depth] + (deck << 2 * item)
    work.begin[after] = at + flat.reach[item]
    work.low[after] = work.low[depth] + flat.mass[item] * (at + ways.center[way])
    work.closed_high[after] = work.closed_high[depth]
    if not same:
        work.closed_high[after] += push(flat, ways, work.way, work.item, work.turn[depth], after, BIG)
    work.effort[after] = (
        work.effort[depth] + ways.effort[way] + REARRANGED * in_the_way(flat, work, depth, item, deck)
    )
    work.way[after], work.item[after] = way, item
    worst = min(work.worst[depth], ways.worst[way])
    for column in range(column_count):
        load = work.loads[depth * column_count + column] + ways.onto[way * column_count + column]
        work.loads[after * column_count + column] = load
        worst = min(worst, (flat.column_limit[column] - load) / flat.column_scale[column])
    work.worst[after] = worst


@kernel
def in_the_way(flat: Flat, work: Work, depth: int, item: int, deck: int) -> int:
    """Return how many pairs of items a new one brings where one must be moved to let the other off."""
    pairs = 0
    if flat.any_drop:
        for at in range(1, depth + 1):
            other, other_deck = work.item[at], work.deck[at]
            if (other_deck == deck and flat.drop[other] < flat.drop[item]) or (
                flat.over[deck * flat.counts[1] + other_deck] and flat.drop[other] > flat.drop[item]
            ):
                pairs += 1
    return pairs


@kernel
def split_bound(flat: Flat, sets: Sets, ways: Ways, goal: Goal, work: Work, depth: int) -> float:
    """Return the best that the moment can still give a node, however what is left is split between decks."""
    deck, deck_count = work.deck[depth], flat.counts[1]
    if deck + 1 == deck_count:
        return BIG
    size = 1 << flat.counts[0]
    left = size - 1 ^ work.used[depth]
    begin, first, bound = work.begin[depth], work.turn[depth], -BIG
    here = left
    while True:
        rest = left ^ here
        fits = sets.fits[deck * size + here]
        if begin <= fits + NEAR and sets.latest[(deck + 1) * size + rest] > -BIG:
            start = flat.deck_first[deck + 1]
            low = work.low[depth] + begin * sets.mass[here] + sets.near[deck * size + here]
            low += least_moment(flat, sets, deck + 1, rest, start)
            high = work.closed_high[depth] + push(flat, ways, work.way, work.item, first, depth + 1, fits)
            high += flat.deck_last[deck] * sets.mass[here] - sets.far[deck * size + here]
            high = max(low, high + greatest_moment(flat, sets, deck + 1, rest, start))
            if low <= goal.high and high >= goal.low:
                nearest = min(max(goal.peak, low, goal.low), high, goal.high)
                bound = max(bound, margin_at(goal.rest, goal.slope, goal.line_count, nearest))
        if here == 0:
            return bound
        here = here - 1 & left


@kernel
def stuck(flat: Flat, sets: Sets, work: Work, depth: int, item: int, deck: int, left: int) -> bool:
    """Return whether items left stay longer than one ahead of them on the deck, and so find no place any more."""
    if not flat.any_drop:
        return False
    first_off = flat.drop[item]
    if deck == work.deck[depth]:
        for at in range(work.turn[depth], depth + 1):
            first_off = min(first_off, flat.drop[work.item[at]])
    longer = 0
    for other in range(flat.counts[0]):
        if left >> other & 1 and flat.drop[other] > first_off:
            longer |= 1 << other
    if longer == 0:
        return False
    return bool(deck + 1 == flat.counts[1] or sets.latest[(deck + 1 << flat.counts[0]) + longer] <= -BIG)


@kernel
def known(flat: Flat, ways: Ways, sets: Sets, goal: Goal, work: Work, memory: Memory, depth: int) -> bool:
    """Return whether a node at least as good was followed before; remember this one if not."""
    item_count, deck_count, column_count = flat.counts[0], flat.counts[1], flat.counts[3]
    if depth < 2 or depth > item_count - 2 or len(memory.following) == 0:
        return False
    deck, used = work.deck[depth], work.used[depth]
    left = (1 << item_count) - 1 ^ used
    latest = sets.latest[(deck << item_count) + left]
    begin, first = work.begin[depth], work.turn[depth]
    high = work.closed_high[depth] + push(flat, ways, work.way, work.item, first, depth + 1, latest)
    counted = goal.effort_most < ANY_EFFORT
    ordered = flat.any_drop and flat.must_drop
    first_off, last_off = NO_DROP, 0
    if ordered:
        for at in range(1, depth + 1):
            drop = flat.drop[work.item[at]]
            if work.deck[at] == deck:
                first_off = min(first_off, drop)
            last_off = max(last_off, drop)
    start = Start(
        begin, work.low[depth], work.closed_high[depth], work.worst[depth],
        work.effort[depth] if counted else 0,
        work.low[depth] + least_moment(flat, sets, deck, left, begin),
        high + greatest_moment(flat, sets, deck, left, begin),
        work.split[depth] if flat.any_drop and (counted or (ordered and deck_count > 2)) else 0,
        first_off, last_off if deck_count > 1 else 0, latest,
    )  # fmt: skip
    key = used * deck_count + deck
    loads_at = depth * column_count
    if seen(
        flat,
        ways,
        memory,
        key,
        start,
        deck,
        goal.peak,
        goal.top,
        work.way,
        work.item,
        first,
        depth + 1,
        work.loads,
        loads_at,
    ):
        return True
    keep(
        memory,
        key,
        start,
        item_count,
        column_count,
        work.way,
        work.item,
        first,
        depth + 1,
        work.loads,
        loads_at,
    )
    return False


@kernel
def expand(
    flat: Flat, ways: Ways, sets: Sets, crowding: Crowding, goal: Goal, work: Work, depth: int
) -> None:
    """Put all children of the node on top of the stack in the pool that could beat the best."""
    item_count, deck_count = flat.counts[0], flat.counts[1]
    work.child_first[depth] = work.state[POOL_END]
    used = work.used[depth]
    add_up_zones(flat, work, depth)
    for deck in range(work.deck[depth], deck_count):
        begin, first, closed_high = work.begin[depth], work.turn[depth], work.closed_high[depth]
        if deck != work.deck[depth]:
            closed_high += push(flat, ways, work.way, work.item, first, depth + 1, BIG)
            begin, first = -BIG, depth + 1
        for item in range(item_count):
            twin = flat.twin[item]
            if used >> item & 1 or (twin >= 0 and not used >> twin & 1):
                continue
            pairs = in_the_way(flat, work, depth, item, deck)
            effort = work.effort[depth] + REARRANGED * pairs
            left = (1 << item_count) - 1 ^ (used | 1 << item)
            at = (deck << item_count) + left
            worst = min(work.worst[depth], sets.wheels[at])
            latest = sets.latest[at]
            if flat.must_drop and (pairs or stuck(flat, sets, work, depth, item, deck, left)):
                continue
            if worst <= work.best[BEST] + BETTER or begin + flat.reach[item] > latest + NEAR:
                continue
            branch = Branch(
                item,
                deck,
                begin,
                left,
                latest,
                work.low[depth],
                worst,
                sets.onto[at],
                effort,
                first,
                closed_high,
            )
            for way in range(ways.start[deck * item_count + item], ways.start[deck * item_count + item + 1]):
                if ways.high[way] >= begin - NEAR and ways.worst[way] > work.best[BEST] + BETTER:
                    consider(flat, ways, sets, crowding, goal, work, branch, depth, way)
    work.child_end[depth] = work.state[POOL_END]


@kernel
def add_up_zones(flat: Flat, work: Work, depth: int) -> None:
    """Add up what is left of the zones' totals from the last to the first."""
    column_count = flat.counts[3]
    work.room[column_count], work.scale[column_count] = 0.0, 0.0
    for column in range(column_count - 1, -1, -1):
        spare = flat.column_limit[column] - work.loads[depth * column_count + column]
        work.room[column] = work.room[column + 1] + spare
        work.scale[column] = work.scale[column + 1] + flat.column_scale[column]


@kernel
def consider(
    flat: Flat,
    ways: Ways,
    sets: Sets,
    crowding: Crowding,
    goal: Goal,
    work: Work,
    branch: Branch,
    depth: int,
    way: int,
) -> None:
    """Bound one child; keep it if it could beat the best, or keep it as the best if it is complete."""
    item, deck, left = branch.item, branch.deck, branch.left
    at = max(ways.low[way], branch.begin)
    after = at + flat.reach[item]
    effort = branch.effort + ways.effort[way]
    if after > branch.latest + NEAR or effort > goal.effort_most:
        return
    mass, center = flat.mass[item], ways.center[way]
    low = branch.low + mass * (at + center)
    if left:
        low += least_moment(flat, sets, deck, left, after)
    if low > work.best[WINDOW_HIGH]:
        return
    limit = min(ways.high[way], branch.latest - flat.reach[item])
    high = branch.closed_high + mass * (limit + center)
    if left:
        high += greatest_moment(flat, sets, deck, left, after)
    high += push(flat, ways, work.way, work.item, branch.first, depth + 1, limit)
    high = max(low, high)
    if high < work.best[WINDOW_LOW]:
        return
    worst = worst_of_zones(flat, ways, crowding, work, branch, depth, way, after)
    if worst <= work.best[BEST] + BETTER:
        return
    nearest = min(max(goal.peak, low, goal.low), high, goal.high)
    bound = min(worst, margin_at(goal.rest, goal.slope, goal.line_count, nearest))
    if bound <= work.best[BEST] + BETTER:
        return
    if left:
        child = work.state[POOL_END]
        work.child_way[child], work.child_item[child] = way, item
        work.child_bound[child] = bound
        work.child_score[child] = -abs(0.5 * (low + high) - goal.peak)
        work.state[POOL_END] = child + 1
        return
    raise_best(goal, work, bound)
    work.best[BEST_LOW], work.best[BEST_HIGH], work.best[BEST_EFFORT] = low, high, effort
    work.state[FOUND] = 1
    for placed in range(1, depth + 1):
        work.best_way[placed - 1] = work.way[placed]
    work.best_way[depth] = way


@kernel
def worst_of_zones(
    flat: Flat, ways: Ways, crowding: Crowding, work: Work, branch: Branch, depth: int, way: int, after: float
) -> float:
    """Return the best that wheels and zones can still give: as it stands, and if the rest spread over what is open."""
    column_count = flat.counts[3]
    worst = min(branch.worst, ways.worst[way])
    opened, onto = 0, 0.0
    for column in range(column_count):
        here = ways.onto[way * column_count + column]
        spare = flat.column_limit[column] - work.loads[depth * column_count + column] - here
        spare -= least_onto(flat, crowding, column, branch.deck, branch.left, after)
        worst = min(worst, spare / flat.column_scale[column])
        if flat.column_deck[column] < branch.deck or (
            flat.column_deck[column] == branch.deck and flat.column_rear[column] < after - NEAR
        ):
            opened = column + 1
        else:
            onto += here
    if branch.onto > 0.0:
        if opened == column_count:
            return NEVER
        worst = min(worst, (work.room[opened] - onto - branch.onto) / work.scale[opened])
    return float(worst)
