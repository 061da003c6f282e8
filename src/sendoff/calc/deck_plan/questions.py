"""The questions, in the order people ask them: will it stand these, which first, which way round; and what if."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Final, Literal

from sendoff.calc.deck_plan import accelerate
from sendoff.calc.deck_plan.choose import worthiest
from sendoff.calc.deck_plan.evaluate import Evaluation, evaluate
from sendoff.calc.deck_plan.explain import Conflict, explain
from sendoff.calc.deck_plan.order import LoadingStep, Stop, loading_order, stops
from sendoff.calc.deck_plan.problem import Placement, Problem, with_items
from sendoff.calc.deck_plan.solve import HOLDS, Code, Found, Setup, best
from sendoff.errors import OutOfRange

PLAIN_MANY: Final = 16
"""Items up to which the plain code chooses: done sooner than the compiled code is there."""
BENDINGS: Final = 4
"""Times that the difference a bending frame makes is put on the search again."""
Answer = Literal["fits", "does_not_fit", "not_decided"]


@dataclass(frozen=True, slots=True)
class Choice:
    """One arrangement worth a thought: no other has both a better margin and less effort."""

    effort_count: int
    margin: float
    proved: bool
    """Whether no arrangement of so little effort has a better margin."""
    placements: tuple[Placement, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """The answer to: where does each stand, and how much is left."""

    answer: Answer
    placements: tuple[Placement, ...]
    """The best arrangement, or the one that passes the limits least; empty where there is no room at all."""
    margin: float
    bound: float
    """No arrangement has a better margin than this."""
    proved: bool
    """Whether the arrangement may be called the best."""
    evaluation: Evaluation | None
    choices: tuple[Choice, ...]
    """From the best margin to the least effort; the first is the plan."""
    loading: tuple[LoadingStep, ...]
    stops: tuple[Stop, ...]
    conflict: Conflict | None
    node_count: int


def plan(
    problem: Problem,
    *,
    go_on: Callable[[], bool] | None = None,
    code: Code = "auto",
    compiling: Callable[[], None] | None = None,
    other_ways: Mapping[str, Problem] | None = None,
    reasons: bool = True,
) -> Plan:
    """Return the arrangement with the best least margin and, among those, the least effort.

    Parameters
    ----------
    problem : Problem
        Items, decks, trailer, truck and limits.
    go_on : callable, optional
        Asked now and then whether there is time left; none: to the end.
    code : {"auto", "plain", "compiled"}
        Which code runs; "auto" takes the compiled one for what takes long, where numba is installed.
    compiling : callable, optional
        Called before the compiled code is called for, since its first use takes some seconds.
    other_ways : mapping of Problem, optional
        The same items with the decks set up otherwise, by name, to be tried where nothing fits.
    reasons : bool
        Whether to look for the limits that clash where nothing fits.

    Returns
    -------
    Plan
        Places [m], margins [-], shares of limits, order of loading.

    Raises
    ------
    OutOfRange
        If there are more items than can be placed at once.
    """
    found, setup = best(problem, go_on=go_on, code=code, compiling=compiling)
    in_time = go_on is None or go_on()
    nothing_holds = found.proved and found.margin < HOLDS
    clash = None
    if nothing_holds and reasons and in_time:
        clash = explain(problem, code=setup.code, go_on=go_on, other_ways=other_ways)
    if not found.placements:
        answer: Answer = "does_not_fit" if found.proved else "not_decided"
        return Plan(
            answer, (), found.margin, found.bound, found.proved, None, (), (), (), clash, found.node_count
        )
    choices = trade(setup, found, go_on) if found.margin >= HOLDS else (_choice(found),)
    first, proved = choices[0], found.proved
    looked_at = evaluate(problem, first.placements)
    if not looked_at.within and not looked_at.broken and found.margin >= HOLDS:
        other = _as_it_bends(problem, looked_at, setup.code, go_on)
        if other is not None:
            first, looked_at = other
            choices, proved = (first, *choices), False
    answer = "fits" if looked_at.within else "does_not_fit" if nothing_holds else "not_decided"
    return Plan(
        answer, first.placements, first.margin, found.bound, proved, looked_at, choices,
        loading_order(problem, first.placements), stops(problem, first.placements), clash, found.node_count,
    )  # fmt: skip


def _as_it_bends(
    problem: Problem,
    looked_at: Evaluation,
    code: Literal["plain", "compiled"],
    go_on: Callable[[], bool] | None,
) -> tuple[Choice, Evaluation] | None:
    """Return an arrangement that holds on a frame that bends, where the best on a rigid frame does not.

    What bending brings on to each load in one arrangement is put on the loads of the next search, a few times over.
    Nothing is proved of it but that it holds.
    """
    rigid = {share.name: share.load_kg for share in looked_at.shares}
    for _ in range(BENDINGS):
        extra = tuple((share.name, share.load_kg - rigid[share.name]) for share in looked_at.shares_flexible)
        found, _ = best(replace(problem, extra_load_kg=extra), code=code, go_on=go_on)
        if not found.placements:
            return None
        looked_at = evaluate(problem, found.placements)
        if looked_at.within:
            return Choice(
                found.effort_count, looked_at.margin, proved=False, placements=found.placements
            ), looked_at
        rigid = {share.name: share.load_kg for share in looked_at.shares}
    return None


def trade(setup: Setup, found: Found, go_on: Callable[[], bool] | None = None) -> tuple[Choice, ...]:
    """Return the arrangements between the best margin and the least effort, from a best one on.

    Each is the best with less effort than the one before, as long as all limits hold; with the same margin the one of
    less effort takes the other's place.
    """
    choices = [_choice(found)]
    while choices[-1].effort_count > 0 and (go_on is None or go_on()):
        goal = setup.goal(effort_most=choices[-1].effort_count - 1)
        cheaper = setup.find(goal, least=HOLDS - 1e-9, go_on=go_on)
        if not cheaper.placements:
            break
        if cheaper.margin >= choices[-1].margin - 1e-9:
            choices.pop()
        choices.append(_choice(cheaper))
    return tuple(choices)


def _choice(found: Found) -> Choice:
    return Choice(found.effort_count, found.margin, found.proved, found.placements)


def compare(
    ways: Mapping[str, Problem], *, go_on: Callable[[], bool] | None = None, code: Code = "auto"
) -> dict[str, Plan]:
    """Return the plan for each way to set up the decks (lift deck up or down, infills in or out), the best first.

    Parameters
    ----------
    ways : mapping of Problem
        The same items on decks set up differently, by name.
    go_on : callable, optional
        Asked now and then whether there is time left.
    code : {"auto", "plain", "compiled"}
        Which code runs.

    Returns
    -------
    dict of Plan
        Plans by name, from the best margin [-] to the least.
    """
    plans = {name: plan(problem, go_on=go_on, code=code, reasons=False) for name, problem in ways.items()}
    return dict(sorted(plans.items(), key=lambda row: (-row[1].margin, row[0])))


def with_mass(problem: Problem, item_name: str, mass_kg: float) -> Problem:
    """Return the problem with one item of another mass: what if the pick-up is heavier."""
    items = [replace(item, mass_kg=mass_kg) if item.name == item_name else item for item in problem.items]
    if all(item.name != item_name for item in items):
        raise OutOfRange("item", item_name, f"must be one of {', '.join(item.name for item in items)}")
    return with_items(problem, items)


@dataclass(frozen=True, slots=True)
class Chosen:
    """Which of many to take."""

    items: tuple[str, ...]
    worth: float
    """Sum of what they count; their mass in kg where nothing else was said."""
    bound: float
    """No set within all limits is worth more."""
    proved: bool
    plan: Plan | None
    """How they stand best; None if none of them fits."""
    tried_count: int
    """Sets whose places were searched."""


def choose(
    problem: Problem,
    *,
    code: Code = "auto",
    go_on: Callable[[], bool] | None = None,
    compiling: Callable[[], None] | None = None,
) -> Chosen:
    """Return the worthiest of all sets of items that finds places within all limits.

    Parameters
    ----------
    problem : Problem
        Up to 40 items; of each, `worth_ratio` or its mass counts.
    code : {"auto", "plain", "compiled"}
        Which code runs; "auto" takes the compiled one for more than 16 items where numba is installed.
    go_on : callable, optional
        Asked now and then whether there is time left.
    compiling : callable, optional
        Called before the compiled code is called for, since its first use takes some seconds.

    Returns
    -------
    Chosen
        The items, their worth, and how they stand.

    Raises
    ------
    OutOfRange
        As `Problem` does.
    """
    which = _code(problem, code, compiling)
    found = worthiest(problem, which, go_on)
    items = [item for item in problem.items if item.name in found.items]
    placed = plan(with_items(problem, items), code=which, go_on=go_on) if items else None
    worth = sum(item.worth for item in items)
    return Chosen(found.items, worth, found.bound, found.proved, placed, found.tried_count)


@dataclass(frozen=True, slots=True)
class Trips:
    """All of many items in several trips, as much as can be on each."""

    trips: tuple[Chosen, ...]
    stranded: tuple[str, ...]
    """Items that fit on no trip, even alone."""
    count_bound: int
    """No way takes fewer trips."""
    proved: bool
    """Whether so few trips are known to be the fewest."""


def trips(
    problem: Problem,
    *,
    code: Code = "auto",
    go_on: Callable[[], bool] | None = None,
    compiling: Callable[[], None] | None = None,
) -> Trips:
    """Return several trips that take all items: the worthiest load first, then the worthiest of the rest, and so on.

    Parameters
    ----------
    problem : Problem
        Up to 40 items.
    code : {"auto", "plain", "compiled"}
        Which code runs.
    go_on : callable, optional
        Asked now and then whether there is time left.
    compiling : callable, optional
        Called before the compiled code is called for.

    Returns
    -------
    Trips
        The trips, what rides on none, and how few there could be.
    """
    which = _code(problem, code, compiling)
    left, found = list(problem.items), []
    while left and (go_on is None or go_on()):
        trip = choose(with_items(problem, left), code=which, go_on=go_on)
        if not trip.items:
            break
        found.append(trip)
        left = [item for item in left if item.name not in trip.items]
    stranded = tuple(item.name for item in left)
    carried = sum(trip.worth for trip in found)
    least = math.ceil(carried / found[0].bound - 1e-9) if found else 0
    whole = all(trip.proved for trip in found) and (go_on is None or go_on())
    return Trips(tuple(found), stranded, least, whole and least == len(found))


def _code(problem: Problem, code: Code, compiling: Callable[[], None] | None) -> Literal["plain", "compiled"]:
    if code != "auto":
        return code
    if not accelerate.available() or (len(problem.items) <= PLAIN_MANY and not accelerate.ready()):
        return "plain"
    if compiling is not None and not accelerate.ready():
        compiling()
    return "compiled"
