"""The geometry of a trailer type, held against itself: nothing may be said to be where it cannot be.

Every part that a slot can hold, standard or by an option, is put in its places with its own measures: wheels must
touch the ground and keep clear of deck, body and each other, tie-down points must lie on a deck, a cylinder must be
able to reach both ends of its way, and all of it must lie inside the length and the width the type gives itself.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from typing import Final

from sendoff.catalogue import reach
from sendoff.catalogue.bodies import GUARD_DEEP_M, INCH_M, SLACK_M, Body, bodies_in
from sendoff.catalogue.decks import Deck
from sendoff.catalogue.load import Catalogue
from sendoff.catalogue.outlines import outline
from sendoff.catalogue.references import candidates
from sendoff.catalogue.schema import Member, TrailerType
from sendoff.display import show
from sendoff.errors import Fault

Pair = tuple[float, float]

GROUND_M: Final = 1.5 * INCH_M
"""A tire under load sits a little lower than its free radius: so much may its middle differ (common practice)."""
DECK_M: Final = 2 * INCH_M
END_M: Final = 6 * INCH_M
"""How far the length over all may reach beyond what is drawn, for what has no outline (plugs, bumpers)."""
COUPLING_M: Final = {
    "ball": (0.25, 0.75),
    "gooseneck": (0.65, 1.3),
    "pintle": (0.35, 1.1),
    "fifth_wheel": (0.9, 1.4),
}
"""Heights at which trucks carry each kind of coupling (common practice, no source)."""


def faults(catalogue: Catalogue) -> list[Fault]:
    """Return everything that cannot be where the types of a catalogue say it is."""
    return [
        fault
        for _, trailer in sorted(catalogue.types.items())
        for fault in _Type(trailer, catalogue).faults()
    ]


def _said(meters: float) -> str:
    return str(show("length", meters, "us", unit="in"))


class _Type:
    """One type being judged."""

    def __init__(self, trailer: TrailerType, catalogue: Catalogue) -> None:
        self.trailer, self.frame = trailer, trailer.frame
        self.file = catalogue.files[f"type:{trailer.id}"]
        self.front = self.frame.front_x.si
        self.rear = self.front + self.frame.overall_length.si
        self.half = self.frame.overall_width.si / 2
        self.bodies = [
            body
            for slot in trailer.slots
            for reference in sorted(candidates(trailer, slot))
            for body in bodies_in(trailer, slot, reference, catalogue)
        ]

    def fault(self, key: str, found: str, problem: str, cure: str) -> Fault:
        return Fault(self.file, key, found, problem, cure)

    def faults(self) -> Iterator[Fault]:
        """Yield all faults, each once."""
        seen = set()
        for fault in itertools.chain(
            self._decks(), self._axles(), self._members(), self._ends(), self._hinges(), self._parts()
        ):
            if fault not in seen:
                seen.add(fault)
                yield fault

    # ── the frame ───────────────────────────────────────────────────────────────────────────────────────────────────

    def _decks(self) -> Iterator[Fault]:
        for number, deck in enumerate(self.frame.decks, start=1):
            key = f"frame.deck[{number}]"
            if deck.x0.si >= deck.x1.si:
                yield self.fault(
                    f"{key}.x1", deck.x1.given, "the deck ends before it begins", "Swap x0 and x1."
                )
            elif deck.x0.si < self.front - SLACK_M or deck.x1.si > self.rear + SLACK_M:
                yield self.fault(
                    key,
                    f"{deck.x0.given} to {deck.x1.given}",
                    "the deck reaches out of the length over all",
                    f"The trailer runs from {_said(self.front)} to {_said(self.rear)}.",
                )
            if deck.width.si > 2 * self.half + SLACK_M:
                yield self.fault(
                    f"{key}.width",
                    deck.width.given,
                    "the deck is wider than the trailer",
                    "Correct it, or overall_width.",
                )
        low, high = COUPLING_M[self.trailer.coupling]
        height = self.frame.coupling_height
        if not low <= height.si <= high:
            yield self.fault(
                "frame.coupling_height",
                height.given,
                f"no truck carries a {self.trailer.coupling} coupling at that height",
                f"It lies between {_said(low)} and {_said(high)}.",
            )

    def _axles(self) -> Iterator[Fault]:
        axles = self.frame.axles
        if len(axles.braked) != len(axles.x):
            yield self.fault(
                "frame.axles.braked",
                str(len(axles.braked)),
                f"there are {len(axles.x)} axles",
                "Say true or false once for each.",
            )
        for x in axles.x:
            if not self.front < x.si < self.rear:
                yield self.fault(
                    "frame.axles.x", x.given, "the axle does not stand under the trailer", "Correct its x."
                )
        for one, other in itertools.pairwise(axles.x):
            if other.si <= one.si:
                yield self.fault(
                    "frame.axles.x", other.given, "axles must be named front to rear", "Put them in order."
                )
        tires = [body for body in self.bodies if body.kind == "tire"]
        for reference, across in sorted({(tire.reference, tire.get("outer_diameter")) for tire in tires}):
            for one, other in itertools.pairwise(axles.x):
                if 0 < other.si - one.si < across:
                    yield self.fault(
                        "frame.axles.x",
                        f"{one.given}, {other.given}",
                        f"tires {reference} ({_said(across)} across) would touch each other",
                        "Put the axles farther apart.",
                    )

    def _members(self) -> Iterator[Fault]:
        for number, member in enumerate(self.frame.members, start=1):
            key = f"frame.member[{number}]"
            for view in ("side", "plan"):
                text = getattr(member, view)
                if text is not None:
                    yield from self._outline(f"{key}.{view}", member, outline(text), view)
            if member.side is None and member.plan is None:
                yield self.fault(key, member.id, "the member has no outline", "Give it a side or a plan.")

    def _outline(self, key: str, member: Member, points: Sequence[Pair], view: str) -> Iterator[Fault]:
        xs = [x for x, _ in points]
        if min(xs) < self.front - SLACK_M or max(xs) > self.rear + SLACK_M:
            yield self.fault(
                key,
                f"{_said(min(xs))} to {_said(max(xs))}",
                f"'{member.id}' reaches out of the length over all",
                f"The trailer runs from {_said(self.front)} to {_said(self.rear)}.",
            )
        across = [y for _, y in points]
        if view == "plan" and max(map(abs, across)) > self.half + SLACK_M:
            yield self.fault(
                key,
                _said(max(across, key=abs)),
                f"'{member.id}' reaches out of the width over all",
                f"Half of it is {_said(self.half)}.",
            )
        if view == "side" and min(across) < 0:
            yield self.fault(
                key,
                _said(min(across)),
                f"'{member.id}' reaches into the ground",
                "z runs up from the ground.",
            )
        if member.fill != "none" and len(points) > 2:
            if _crosses_itself(points):
                yield self.fault(
                    key,
                    member.id,
                    "the outline crosses itself",
                    "Give its corners in the order one walks them.",
                )
            elif abs(_area(points)) < 1e-5:
                yield self.fault(
                    key,
                    member.id,
                    "the outline encloses nothing",
                    'Give its corners in turn, or fill = "none".',
                )

    def _ends(self) -> Iterator[Fault]:
        """Judge whether the length over all is the length of what is drawn."""
        xs = [
            x
            for member in self.frame.members
            for text in (member.side, member.plan)
            if text
            for x, _ in outline(text)
        ]
        xs += [edge for body in self.bodies for edge in body.space[:2]]
        for key, end, reached in (
            ("front_x", self.front, min(xs) - self.front),
            ("overall_length", self.rear, self.rear - max(xs)),
        ):
            if reached > END_M:
                yield self.fault(
                    f"frame.{key}",
                    _said(end),
                    f"nothing is drawn within {_said(reached)} of that end",
                    "Correct it, or draw what reaches there.",
                )

    # ── what turns ──────────────────────────────────────────────────────────────────────────────────────────────────

    def _hinges(self) -> Iterator[Fault]:
        members = {member.id: member for member in self.frame.members}
        for number, hinge in enumerate(self.frame.hinges, start=1):
            key = f"frame.hinge[{number}]"
            for name in hinge.members:
                if name not in members:
                    yield self.fault(
                        f"{key}.members", name, "there is no such member", "Name one of the frame's members."
                    )
            points = [
                point
                for name in hinge.members
                if name in members and members[name].side
                for point in outline(members[name].side or "")
            ]
            if points:
                lowest = min(z for _, z in reach.lowered(points, hinge))
                if lowest < -INCH_M:
                    yield self.fault(
                        f"{key}.lowered",
                        hinge.lowered.given,
                        f"'{hinge.id}' would reach {_said(-lowest)} into the ground",
                        "Turn it less, or draw it shorter.",
                    )
        yield from reach.faults(self.trailer, self.bodies, self.fault)

    # ── the parts in their places ───────────────────────────────────────────────────────────────────────────────────

    def _in(self, slot: str) -> list[Body]:
        return [body for body in self.bodies if body.slot == slot]

    def _parts(self) -> Iterator[Fault]:
        for body in self.bodies:
            yield from self._inside(body)
            if body.kind == "tire":
                yield from self._tire(body)
            elif body.kind == "tie_down_point":
                yield from self._tie_down(body)
            elif body.kind in {"box", "winch", "spare", "air_tank"}:
                yield from self._solid(body)
            elif body.kind == "jack":
                yield from self._jack(body)
            elif body.kind == "guard":
                yield from self._guard(body)
            elif body.kind in {"ball_coupler", "gooseneck_coupler", "ring_eye"}:
                yield from self._coupler(body)
        yield from self._duals()
        yield from self._label()

    def _at(self, body: Body) -> str:
        return f"slots.{body.slot}.places.{body.place}"

    def _inside(self, body: Body) -> Iterator[Fault]:
        x0, x1, y0, y1, z0, _ = body.space
        if x0 < self.front - SLACK_M or x1 > self.rear + SLACK_M:
            yield self.fault(
                self._at(body),
                _said(body.x),
                f"{body.reference} reaches out of the length over all",
                f"The trailer runs from {_said(self.front)} to {_said(self.rear)}.",
            )
        if max(-y0, y1) > self.half + SLACK_M:
            yield self.fault(
                self._at(body),
                _said(body.y),
                f"{body.reference} reaches out of the width over all",
                f"Half of it is {_said(self.half)}.",
            )
        if z0 < -SLACK_M:
            yield self.fault(
                self._at(body),
                _said(body.z),
                f"{body.reference} would be in the ground",
                "z runs up from the ground.",
            )

    def _tire(self, body: Body) -> Iterator[Fault]:
        radius = body.get("outer_diameter") / 2
        if abs(body.z - radius) > GROUND_M:
            yield self.fault(
                f"slots.{body.slot}.places.z",
                _said(body.z),
                f"{body.reference} does not stand on the ground: its radius is {_said(radius)}",
                "Give the height of the middle of the wheels.",
            )
        x0, x1, y0, y1, _, top = body.space
        for deck in self._over(x0, x1, y0, y1):
            if top > _height(deck, body.x) - SLACK_M:
                yield self.fault(
                    self._at(body),
                    f"{_said(top)} high",
                    f"{body.reference} would run into deck '{deck.id}'",
                    "Raise the deck, or put the wheels beside it.",
                )

    def _over(self, x0: float, x1: float, y0: float, y1: float) -> Iterator[Deck]:
        """Yield the decks that lie over or under a rectangle of the plan."""
        for deck in self.frame.decks:
            half = deck.width.si / 2
            if x1 > deck.x0.si and x0 < deck.x1.si and y1 > -half + SLACK_M and y0 < half - SLACK_M:
                yield deck

    def _duals(self) -> Iterator[Fault]:
        spacing = self.frame.axles.dual_spacing
        for reference, width in sorted(
            {(body.reference, body.get("section_width")) for body in self.bodies if body.kind == "tire"}
        ):
            dual = any(body.place.endswith("_in") for body in self.bodies if body.reference == reference)
            if dual and spacing is not None and spacing.si < width:
                yield self.fault(
                    "frame.axles.dual_spacing",
                    spacing.given,
                    f"the two tires of a pair of {reference} ({_said(width)} wide) would rub",
                    "Put them farther apart.",
                )

    def _tie_down(self, body: Body) -> Iterator[Fault]:
        for deck in self.frame.decks:
            on_it = deck.x0.si <= body.x <= deck.x1.si and abs(body.y) <= deck.width.si / 2 + SLACK_M
            if on_it and abs(body.z - _height(deck, body.x)) <= DECK_M:
                return
        yield self.fault(
            self._at(body),
            f"x {_said(body.x)}, y {_said(body.y)}, z {_said(body.z)}",
            "the tie-down point lies on no deck",
            "Put it on the deck, at the deck's height.",
        )

    def _solid(self, body: Body) -> Iterator[Fault]:
        x0, x1, y0, y1, z0, z1 = body.space
        for deck in self._over(x0, x1, y0, y1):
            level = _height(deck, body.x)
            if z0 < level - SLACK_M < z1 - DECK_M:
                yield self.fault(
                    self._at(body),
                    f"z {_said(z0)} to {_said(z1)}",
                    f"{body.reference} would stick through deck '{deck.id}' at {_said(level)}",
                    "Put it wholly on or under the deck.",
                )
        for tire in self.bodies:
            if tire.kind == "tire" and _overlap(body.space, tire.space):
                yield self.fault(
                    self._at(body),
                    f"x {_said(x0)} to {_said(x1)}",
                    f"{body.reference} would stand where tire {tire.place} runs",
                    "Move it clear of the wheels.",
                )

    def _jack(self, body: Body) -> Iterator[Fault]:
        low, reach = body.z - body.get("leg"), body.get("lift") + body.get("drop")
        if low < 0 or low > reach + SLACK_M:
            yield self.fault(
                self._at(body),
                _said(body.z),
                f"{body.reference} ends {_said(abs(low))} {'under' if low < 0 else 'above'} the ground drawn in, "
                f"and reaches {_said(reach)} farther",
                "Give the height of its top so that its foot can reach the ground.",
            )

    def _guard(self, body: Body) -> Iterator[Fault]:
        """Judge a rear impact guard: it hangs where its card says, above the ground and from the rear end."""
        low, ahead = body.z - body.get("height") / 2, self.rear - body.x - GUARD_DEEP_M / 2
        for drawn, told, where in (
            (low, "ground", "above the ground"),
            (ahead, "set_in", "from the rear end"),
        ):
            if abs(drawn - body.get(told, drawn)) > SLACK_M:
                yield self.fault(
                    self._at(body),
                    _said(drawn),
                    f"{body.reference} says {_said(body.get(told))} {where}",
                    "Give the middle of its bar, or correct the card.",
                )

    def _coupler(self, body: Body) -> Iterator[Fault]:
        height = self.frame.coupling_height.si
        if abs(body.z - height) > INCH_M or abs(body.x) > INCH_M or abs(body.y) > INCH_M:
            yield self.fault(
                self._at(body),
                f"x {_said(body.x)}, y {_said(body.y)}, z {_said(body.z)}",
                "the coupler is not at the coupling point",
                f"x and y are 0 there, z is the coupling_height, {_said(height)}.",
            )

    def _label(self) -> Iterator[Fault]:
        """Judge the certification label: forward half of the left side (49 CFR 567.4(d))."""
        middle = (self.front + self.rear) / 2
        for body in self.bodies:
            if body.slot == "data_plate" and (body.x > middle or body.y > 0):
                yield self.fault(
                    self._at(body),
                    f"x {_said(body.x)}, y {_said(body.y)}",
                    "the certification label of a trailer belongs on the forward half of its left side",
                    "Move it there (49 CFR 567.4(d)).",
                )


def _height(deck: Deck, x: float) -> float:
    """Return how high a deck stands at an x."""
    rear = (deck.height_rear or deck.height).si
    share = (x - deck.x0.si) / (deck.x1.si - deck.x0.si)
    return deck.height.si + (rear - deck.height.si) * min(max(share, 0.0), 1.0)


def _overlap(one: Sequence[float], other: Sequence[float]) -> bool:
    return all(
        one[2 * axis] < other[2 * axis + 1] - SLACK_M and other[2 * axis] < one[2 * axis + 1] - SLACK_M
        for axis in range(3)
    )


def _area(points: Sequence[Pair]) -> float:
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in itertools.pairwise((*points, points[0]))) / 2


def _crosses_itself(points: Sequence[Pair]) -> bool:
    """Tell whether two sides of an outline cross; sides that only meet in a corner do not."""
    sides = list(itertools.pairwise((*points, points[0])))

    def turn(p: Pair, q: Pair, r: Pair) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return any(
        turn(a, b, c) * turn(a, b, d) < -1e-12 and turn(c, d, a) * turn(c, d, b) < -1e-12
        for (a, b), (c, d) in itertools.combinations(sides, 2)
    )
