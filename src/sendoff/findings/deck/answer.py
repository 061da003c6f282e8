"""The questions of the deck plan, asked of one unit: where all stand, which of many, several trips, as given."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from sendoff.calc import deck_plan
from sendoff.calc.deck_plan import Chosen, Evaluation, Placement, Plan, Problem, Trips
from sendoff.errors import OutOfRange
from sendoff.findings.deck.case import DeckCase
from sendoff.findings.deck.limits import deck_findings
from sendoff.findings.model import Finding, exit_code

Asked = Literal["plan", "choose", "given"]
GoOn = Callable[[], bool] | None
Code = Literal["auto", "plain", "compiled"]
Compiling = Callable[[], None] | None
UNDECIDED, NOT_WITHIN = 3, 1


@dataclass(frozen=True, slots=True)
class OtherWay:
    """How it would be with the decks set up another way."""

    way: str
    answer: str
    margin: float


@dataclass(frozen=True, slots=True)
class DeckAnswer:
    """An answer with its arrangement: everything a command, a page or a drawing tells."""

    asked: Asked
    case: DeckCase
    way: str
    problem: Problem
    """Of what rides."""
    plan: Plan
    findings: tuple[Finding, ...]
    others: tuple[OtherWay, ...] = ()
    chosen: Chosen | None = None

    @property
    def looked_at(self) -> Evaluation | None:
        """All that can be said of the arrangement; None where there is none."""
        return self.plan.evaluation

    @property
    def exit_code(self) -> int:
        """Return 1 where a limit is passed or nothing fits, 3 where something is not known, else 0."""
        found = exit_code(self.findings)
        if self.plan.answer == "does_not_fit" or found == NOT_WITHIN:
            return NOT_WITHIN
        return UNDECIDED if self.plan.answer == "not_decided" else found


def place_all(
    case: DeckCase, language: str, *, go_on: GoOn = None, compiling: Compiling = None, code: Code = "auto"
) -> DeckAnswer:
    """Return where all items stand best, over all ways to set up the decks."""
    way, plan, others = _best_way(case.problems, go_on, compiling, code)
    return _answer("plan", case, way, case.problems[way], plan, language, others)


def _best_way(
    problems: Mapping[str, Problem], go_on: GoOn, compiling: Compiling, code: Code
) -> tuple[str, Plan, tuple[OtherWay, ...]]:
    if len(problems) == 1:
        (way, problem), *_ = problems.items()
        return way, deck_plan.plan(problem, go_on=go_on, compiling=compiling, code=code), ()
    plans = {
        way: deck_plan.plan(problem, go_on=go_on, compiling=compiling, code=code, reasons=False)
        for way, problem in problems.items()
    }
    best = max(plans, key=lambda way: _rank(plans[way]))
    others = tuple(OtherWay(way, plan.answer, plan.margin) for way, plan in plans.items() if way != best)
    if plans[best].answer == "does_not_fit":
        return best, deck_plan.plan(problems[best], go_on=go_on, compiling=compiling, code=code), others
    proved = plans[best].proved and all(
        plan.proved or plan.bound <= plans[best].margin for plan in plans.values()
    )
    bound = max(plan.bound for plan in plans.values())
    return best, replace(plans[best], proved=proved, bound=bound), others


def _rank(plan: Plan) -> tuple[bool, float, int]:
    """Return what ways to set up the decks are compared by: whether all stands, the margin, the less work."""
    effort = plan.choices[0].effort_count if plan.choices else 0
    margin = round(plan.margin, 6) if math.isfinite(plan.margin) else plan.margin
    return plan.answer == "fits", margin, -effort


def _answer(
    asked: Asked,
    case: DeckCase,
    way: str,
    problem: Problem,
    plan: Plan,
    language: str,
    others: tuple[OtherWay, ...] = (),
    chosen: Chosen | None = None,
) -> DeckAnswer:
    found: tuple[Finding, ...] = ()
    if plan.evaluation is not None:
        found = deck_findings(case, problem, plan.evaluation, plan.loading, language)
    return DeckAnswer(asked, case, way, problem, plan, found, others, chosen)


def choose_some(
    case: DeckCase, language: str, *, go_on: GoOn = None, compiling: Compiling = None, code: Code = "auto"
) -> DeckAnswer | None:
    """Return which of the items carry most together, over all ways to set up the decks; None where none fits."""
    found = {
        way: deck_plan.choose(problem, go_on=go_on, compiling=compiling, code=code)
        for way, problem in case.problems.items()
    }
    way = max(found, key=lambda name: (found[name].worth, name))
    chosen = found[way]
    if chosen.plan is None:
        return None
    bound = max(one.bound for one in found.values())
    best = chosen.plan
    chosen = replace(chosen, bound=bound, proved=chosen.proved and chosen.worth >= bound - 1e-9)
    riding = [item for item in case.problems[way].items if item.name in chosen.items]
    problem = deck_plan.with_items(case.problems[way], riding)
    return _answer("choose", case, way, problem, best, language, (), chosen)


def take_trips(
    case: DeckCase, language: str, *, go_on: GoOn = None, compiling: Compiling = None, code: Code = "auto"
) -> tuple[Trips, tuple[DeckAnswer, ...]]:
    """Return several trips that take all items, in the first of the ways to set up the decks that takes fewest."""
    asked = {
        way: deck_plan.trips(problem, go_on=go_on, compiling=compiling, code=code)
        for way, problem in case.problems.items()
    }
    way = min(asked, key=lambda name: (len(asked[name].stranded), len(asked[name].trips)))
    found = asked[way]
    answers = []
    for trip in found.trips:
        if trip.plan is not None:
            riding = [item for item in case.problems[way].items if item.name in trip.items]
            problem = deck_plan.with_items(case.problems[way], riding)
            answers.append(_answer("choose", case, way, problem, trip.plan, language, (), trip))
    return found, tuple(answers)


def as_given(case: DeckCase, way: str, placements: Sequence[Placement], language: str) -> DeckAnswer:
    """Return all that can be said of an arrangement somebody made by hand; what is not placed stays behind."""
    whole = case.problems[way]
    riding = [item for item in whole.items if item.name in {row.item for row in placements}]
    if not riding:
        raise OutOfRange("--place", "none", "must name at least one item")
    problem = deck_plan.with_items(whole, riding)
    looked_at = deck_plan.evaluate(problem, placements)
    plan = Plan(
        answer="fits" if looked_at.within else "does_not_fit",
        placements=tuple(placements),
        margin=looked_at.margin,
        bound=looked_at.margin,
        proved=False,
        evaluation=looked_at,
        choices=(),
        loading=deck_plan.loading_order(problem, placements),
        stops=deck_plan.stops(problem, placements),
        conflict=None,
        node_count=0,
    )
    return _answer("given", case, way, problem, plan, language)
