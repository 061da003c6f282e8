"""A deck plan in words: the answer, where each stands, loading in small steps, what would help, how far it holds."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from sendoff.calc.deck_plan import Conflict, LoadingStep, Placement, Repair, Share, evaluate
from sendoff.catalogue.fields import SignalWord
from sendoff.display import figure, show
from sendoff.findings.deck.answer import DeckAnswer
from sendoff.findings.deck.case import DeckCase
from sendoff.findings.deck.limits import axles_of, deck_not_checked, rule_of, zone_name
from sendoff.findings.deck.robust import robustness
from sendoff.findings.telling import Told, answer, tell
from sendoff.phrases import load, say
from sendoff.units import System

CAUTIONS: Final[tuple[tuple[str, SignalWord], ...]] = (("roll", "danger"), ("told", "warning"))
"""Cautions of every deck plan (phrases `deck.caution.…`) with their signal words, gravest first."""


EVEN_m: Final = 0.01
"""Differences less than this are none for a person with a tape."""


@dataclass(frozen=True, slots=True)
class ToldPlace:
    """Where one item stands, in words."""

    number: int
    """In the order of loading."""
    item: str
    name: str
    facing: str
    mass: str
    front: str
    """Of its end toward the truck, from the front of its deck."""
    wheels: str
    deck: str


@dataclass(frozen=True, slots=True)
class ToldDeck:
    """A deck plan ready for a screen or a page."""

    title: str
    headline: tuple[str, ...]
    """The answer first, then how sure it is."""
    is_plan: bool
    """False where what stands below is only the least bad arrangement."""
    places: tuple[ToldPlace, ...]
    findings: tuple[Told, ...]
    steps: tuple[str, ...]
    stops: tuple[str, ...]
    robust: tuple[str, ...]
    choices: tuple[str, ...]
    conflict: tuple[str, ...]
    repairs: tuple[str, ...]
    cautions: tuple[tuple[str, str, str, str], ...]
    """Signal word, hazard, consequence, what to do."""
    not_checked: tuple[str, ...]
    authority: str


class Teller:
    """Says everything of one answer in one language and one system of units."""

    def __init__(self, found: DeckAnswer, language: str, system: System) -> None:
        self.found, self.language, self.system = found, language, system
        self.case: DeckCase = found.case

    def say(self, key: str, **values: object) -> str:
        """Return a phrase of the deck plan."""
        return say(f"deck.{key}", self.language, **values)

    def mass(self, kg: float, role: str = "demand") -> str:
        """Return a mass as shown."""
        return str(show("mass", kg, self.system, role))  # type: ignore[arg-type]

    def length(self, length_m: float, role: str = "fact") -> str:
        """Return a length as shown."""
        return str(show("length", length_m, self.system, role))  # type: ignore[arg-type]

    def items(self, names: Sequence[str]) -> str:
        """Return the names of some items."""
        return ", ".join(self.case.item_name(name) for name in names)

    @property
    def not_checked(self) -> str:
        """Return how the list of what was not checked is headed."""
        return say("answer.not_checked", self.language)

    # ── the whole ───────────────────────────────────────────────────────────────────────────────────────────────────

    def told(self) -> ToldDeck:
        """Return everything in words."""
        found, plan = self.found, self.found.plan
        is_plan = plan.answer == "fits" or found.asked == "given"
        return ToldDeck(
            title=f"{self.say('title')}: {found.case.unit.unit}  {found.case.unit.type_name[self.language]}",
            headline=tuple(self._headline()),
            is_plan=is_plan,
            places=tuple(self.places()),
            findings=tuple(tell(finding, self.language, self.system) for finding in found.findings),
            steps=tuple(self._steps()) if is_plan else (),
            stops=tuple(self._stops()) if is_plan else (),
            robust=tuple(self._robust()) if is_plan else (),
            choices=tuple(self._choices()) if is_plan else (),
            conflict=tuple(self._conflict(plan.conflict)) if plan.conflict is not None else (),
            repairs=tuple(self._repairs(plan.conflict)) if plan.conflict is not None else (),
            cautions=tuple(self._cautions()),
            not_checked=tuple(
                say(f"not_checked.{name}", self.language) for name in deck_not_checked(self.case)
            ),
            authority=say("answer.authority", self.language),
        )

    def _headline(self) -> Iterator[str]:
        found, plan = self.found, self.found.plan
        if found.asked == "given":
            yield self.say("given_within" if plan.answer == "fits" else "given_over")
        else:
            yield self.say(plan.answer)
        if found.findings and (plan.answer == "fits" or found.asked == "given"):
            yield answer(found.findings, self.language)
            for finding in found.findings if plan.answer == "fits" else ():
                if finding.verdict == "over":
                    told = tell(finding, self.language, self.system)
                    yield f"{told.name}: {told.word}, {told.margin}."
        way = self.case.way(found.way)
        if way is not None:
            yield self.say("way", way=way.name[self.language])
        if found.asked != "given":
            yield from self._proof()
        for other in found.others:
            named = self.case.way(other.way)
            words = {
                "way": named.name[self.language] if named is not None else other.way,
                "answer": self.say(f"answer_{other.answer}"),
            }
            if math.isfinite(other.margin):
                yield self.say("other_way", **words, margin=margin_words(other.margin))
            else:
                yield self.say("other_way_none", **words)

    def _proof(self) -> Iterator[str]:
        plan = self.found.plan
        if plan.answer == "does_not_fit":
            yield self.say("proved_not")
        elif plan.proved:
            yield self.say("proved", margin=margin_words(plan.margin))
        elif plan.placements and math.isfinite(plan.bound):
            margins = {"margin": margin_words(plan.margin), "bound": margin_words(plan.bound, up=True)}
            yield self.say("found_and_bound", **margins)
        bent = plan.evaluation is not None and bool(plan.evaluation.shares_flexible)
        if (
            plan.answer == "fits"
            and plan.evaluation is not None
            and plan.evaluation.margin_flexible is not None
        ):
            yield self.say("bends", margin=margin_words(plan.evaluation.margin_flexible))
        if bent and not plan.proved and plan.answer == "fits":
            yield self.say("holds_on_bending")

    def _cautions(self) -> Iterator[tuple[str, str, str, str]]:
        for name, signal in CAUTIONS:
            hazard, consequence, avoid = (
                self.say(f"caution.{name}.{piece}") for piece in ("hazard", "consequence", "avoid")
            )
            yield say(f"signal.{signal}", self.language), hazard, consequence, avoid

    # ── places and steps ────────────────────────────────────────────────────────────────────────────────────────────

    def places(self) -> Iterator[ToldPlace]:
        """Yield where each item stands, in the order of loading."""
        items = {item.name: item for item in self.found.problem.items}
        for number, step in enumerate(self.found.plan.loading, start=1):
            item = items[step.item]
            yield ToldPlace(
                number,
                step.item,
                self.case.item_name(step.item),
                self._facing(step),
                self.mass(item.mass_kg),
                self.length(self.from_front(step)),
                self._wheels(step),
                zone_name(self.case, step.deck, self.language),
            )

    def _facing(self, step: LoadingStep) -> str:
        item = next(item for item in self.found.problem.items if item.name == step.item)
        if item.moved_by != "lifted":
            return self.say(step.facing)
        even = abs(item.center_m - item.length_m / 2) < EVEN_m
        return self.say("either_way" if even else f"{step.facing}_set_down")

    def _stop(self, step: LoadingStep) -> str:
        """Return where an item is to stop: its end toward the truck, its wheels, from the front of which deck."""
        deck = zone_name(self.case, step.deck, self.language)
        at = self.from_front(step)
        if abs(at) < EVEN_m:
            return f"{self.say('first_at', deck=deck)}, {self._wheels(step)}"
        if at < 0:
            return f"{self.say('ahead_of', deck=deck, at=self.length(-at))}, {self._wheels(step)}"
        end = self.say("end_at", at=self.length(at))
        return f"{end}, {self._wheels(step)}, {self.say('from_front', deck=deck)}"

    def where(self, step: LoadingStep) -> str:
        """Return how far an item's end toward the truck is from the front of its deck."""
        at, deck = self.from_front(step), zone_name(self.case, step.deck, self.language)
        if abs(at) < EVEN_m:
            return self.say("first_at", deck=deck)
        if at < 0:
            return self.say("ahead_of", deck=deck, at=self.length(-at))
        return f"{self.length(at)} {self.say('from_front', deck=deck)}"

    def from_front(self, placed: Placement | LoadingStep) -> float:
        """Return how far behind the front of its deck an item begins; a minus is ahead of it."""
        return placed.front_m - self.case.deck_front_m(placed.deck)

    def _wheels(self, step: LoadingStep) -> str:
        item = next(item for item in self.found.problem.items if item.name == step.item)
        offsets = sorted(item.offsets_m(step.facing))
        begin = self.from_front(step)
        first, last = self.length(begin + offsets[0]), self.length(begin + offsets[-1])
        if item.moved_by == "lifted":
            return self.say("lies_at", last=self.length(begin + item.length_m))
        return self.say("tracks_at" if len(offsets) > 2 else "wheels_at", first=first, last=last)

    def _steps(self) -> Iterator[str]:
        loading = self.found.plan.loading
        yield self.say("step.begin")
        for number, step in enumerate(loading, start=1):
            name = self.case.item_name(step.item)
            told = self.say(f"step.{step.how}_{step.facing}", n=number, item=name, stop=self._stop(step))
            yield told if number == len(loading) else f"{told} {self.say('step.tie')}"
        yield self.say("step.end")

    def _stops(self) -> Iterator[str]:
        if all(stop.number == 0 for stop in self.found.plan.stops):
            return
        for stop in self.found.plan.stops:
            key = "stop_n" if stop.number else "stop_last"
            told = self.say(key, **({"n": stop.number} if stop.number else {}), items=self.items(stop.off))
            moved = f" ({self.say('stop_moved', items=self.items(stop.moved))})" if stop.moved else ""
            yield told + moved

    # ── how far it holds, and other choices ─────────────────────────────────────────────────────────────────────────

    def _robust(self) -> Iterator[str]:
        looked_at = self.found.looked_at
        if looked_at is None:
            return
        far = robustness(self.found, looked_at)
        ratio = far.all_at_once_ratio
        if math.isinf(ratio):
            yield self.say("robust_any")
        elif ratio <= 0:
            yield self.say("robust_none")
        else:
            yield self.say("robust_all", percent=f"{figure(ratio * 100, Fraction(1, 10), 'capacity')} %")
        if any(item.mass_error_kg for item in self.found.problem.items):
            yield self.say("errors_hold" if far.holds_errors_given else "errors_pass")
        else:
            yield self.say("no_errors")
        for row in far.leeway:
            for key, by, limit in (
                ("heavier", row.heavier_kg, row.heavier_limit),
                ("lighter", row.lighter_kg, row.lighter_limit),
            ):
                item = next(item for item in self.found.problem.items if item.name == row.item)
                if math.isfinite(by) and (key == "heavier" or by < item.mass_kg):
                    name = self.case.item_name(row.item)
                    yield self.say(key, item=name, by=self.mass(by, "capacity"), limit=self.limit(limit))

    def _choices(self) -> Iterator[str]:
        choices = self.found.plan.choices
        if len(choices) < 2:
            return
        for number, choice in enumerate(choices):
            told = self.say("choice", effort=choice.effort_count, tightest=self.tightest(choice.placements))
            ways = ", ".join(
                f"{self.case.item_name(row.item)}: {self.say(row.facing)}, {self.length(self.from_front(row))}"
                for row in sorted(choice.placements, key=lambda row: row.front_m)
            )
            yield f"{told} ({self.say('choice_is_plan')})" if number == 0 else f"{told}; {ways}"
        yield self.say("effort_means")

    def tightest(self, placements: Sequence[Placement]) -> str:
        """Return what is tightest in an arrangement, and how much of it is left."""
        shares = evaluate(self.found.problem, placements).shares
        share = min(shares, key=lambda share: share.margin)
        return f"{self.limit(share.name)}, {self.left(share)}"

    def left(self, share: Share) -> str:
        """Return how much of a limit is left."""
        if share.left_kg < 0:
            return say("answer.too_much", self.language, margin=self.mass(-share.left_kg))
        return say("answer.left", self.language, margin=self.mass(share.left_kg, "capacity"))

    # ── why not, and what would help ────────────────────────────────────────────────────────────────────────────────

    def limit(self, name: str) -> str:
        """Return what people call a limit of the planner."""
        rule, _, of = name.partition(":")
        if f"deck.limit.{rule}" in load():
            return self.say(f"limit.{rule}", of=rule_of(self.case, rule, of, self.language))
        kind = rule.rstrip("0123456789").rstrip("_")
        words: dict[str, str] = {}
        if kind in {"axle", "tires"}:
            words = {"n": rule.rpartition("_")[2]}
        elif kind == "law":
            words = {"axles": axles_of(of, self.language)}
        elif kind in {"zone_total", "zone_wheel"}:
            words = {"zone": zone_name(self.case, of, self.language)}
        told = say(f"finding.deck_{kind}", self.language, **words)
        by = self.case.gear.by.get(name)
        return f"{told} ({say(f'ends_by.{by}', self.language)})" if by is not None else told

    def _conflict(self, conflict: Conflict) -> Iterator[str]:
        yield self.say("conflict")
        yield from (f"- {self.limit(name)}" for name in conflict.names)
        for names in conflict.further:
            yield self.say("further", names="; ".join(self.limit(name) for name in names))
        if not conflict.proved:
            yield self.say("conflict_unproved")

    def _repairs(self, conflict: Conflict) -> Iterator[str]:
        if not conflict.repairs:
            yield self.say("no_repairs")
        yield from (self.repair(repair) for repair in conflict.repairs)

    def repair(self, repair: Repair) -> str:
        """Return one change that would let everything fit."""
        amount = ""
        if repair.amount_m:
            amount = self.length(repair.amount_m, "demand")
        elif repair.amount_kg:
            amount = self.mass(repair.amount_kg)
        if repair.kind in {"turn", "lighten", "leave"}:
            item = self.items(repair.names)
        elif repair.kind == "other_way":
            way = self.case.way(repair.names[0])
            item = way.name[self.language] if way is not None else repair.names[0]
        elif repair.kind == "lengthen":
            item = zone_name(self.case, repair.names[0], self.language)
        else:
            item = "; ".join(self.limit(name) for name in repair.names)
        values = {
            "item": item,
            **({"amount": amount} if repair.kind in {"lighten", "lengthen", "raise"} else {}),
        }
        told = self.say(f"repair_{repair.kind}", **values)
        return f"{told} ({amount})" if repair.kind == "leave" and amount else told


def margin_words(margin: float, *, up: bool = False) -> str:
    """Return a least margin with two decimals, never flattered.

    >>> margin_words(0.7788), margin_words(0.7712, up=True), margin_words(-0.5)
    ('0.77', '0.78', '−0.50')
    """
    if not math.isfinite(margin):
        return "–" if margin < 0 else "∞"
    cents = math.ceil(margin * 100 - 1e-6) if up else math.floor(margin * 100 + 1e-6)
    return f"{abs(cents) / 100:.2f}" if cents >= 0 else f"−{abs(cents) / 100:.2f}"
