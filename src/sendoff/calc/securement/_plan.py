"""What the plans share: their records, the reading of points and gear, and the slots at both ends."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Literal

from sendoff.calc._limits import each_finite, each_positive, require_same_count
from sendoff.calc.securement._search import Gear, Pair, Point, Tied, first_that_satisfies
from sendoff.errors import OutOfRange


@dataclass(frozen=True, slots=True)
class PlannedTieDown:
    """One tie-down: gear, hold and deck points are numbered from 1 as they were given."""

    gear: int
    hold_point: int
    deck_point: int
    """Where it starts; over the top it ends at `other_deck_point`."""
    other_deck_point: int | None
    hold_x_m: float
    hold_y_m: float
    deck_x_m: float
    deck_y_m: float
    length_m: float
    pulls: Literal["forward", "rearward", "down"]
    side: Literal["left", "right", "middle", "across"]
    wll_kg: float
    counted_kg: float


@dataclass(frozen=True, slots=True)
class TieDownPlan:
    """A plan that satisfies the counting rules, or why there is none; what is left on board and on the deck."""

    feasible: bool
    needed_count: int
    needed_each_end: int
    aggregate_needed_kg: float
    aggregate_kg: float
    margin_kg: float
    tie_downs: tuple[PlannedTieDown, ...]
    gear_left: tuple[int, ...]
    deck_points_left: tuple[int, ...]
    why_not: tuple[str, ...]
    also: tuple[str, ...]


ALSO: Final[dict[str, tuple[str, ...]]] = {
    "car": (
        "In park or in gear, parking brake on, windows shut, antenna down.",
        "Wheel straps over the tread, or hooks only at points made for it; nothing across an electric car's battery.",
        "Cars settle on their springs: look again early, then by the rule.",
    ),
    "machine": (
        "Attachments lowered and secured, articulation locked, parking brake on.",
        "Bucket, arm and blade get a tie-down of their own on top of this plan.",
    ),
    "general": (
        "What can roll is chocked or cradled; edge protection wherever a tie-down is bent or rubbed.",
        "Nothing may leak, spill, blow off or fall (393.100): cover what is loose.",
    ),
}
ALWAYS: Final = (
    "No knots, no damaged parts; tails tied.",
    "Look again within the first 50 miles, then every 150 miles or 3 hours, whichever comes first.",
)


def points_of(
    what: str,
    x_m: tuple[float, ...],
    y_m: tuple[float, ...],
    wll_kg: tuple[float, ...] | None,
    bears: str = "wll_kg",
) -> list[Point]:
    """Read points and what each bears, one figure standing for all; where none is known none is asked of them."""
    names = (f"{what}_x_m", f"{what}_y_m", f"{what}_{bears}")
    require_same_count(**{names[0]: x_m, names[1]: y_m})
    if len(x_m) > 40:
        raise OutOfRange(names[0], len(x_m), "must not name more than 40 points")
    each_finite(**{names[0]: x_m, names[1]: y_m})
    if wll_kg is None:
        return [Point(x, y, math.inf) for x, y in zip(x_m, y_m, strict=True)]
    if len(wll_kg) == 1:
        wll_kg *= len(x_m)
    require_same_count(**{names[0]: x_m, names[2]: wll_kg})
    each_positive(**{names[2]: wll_kg})
    return [Point(x, y, limit) for x, y, limit in zip(x_m, y_m, wll_kg, strict=True)]


def gear_of(wll_kg: tuple[float, ...], length_m: tuple[float, ...], name: str = "gear_wll_kg") -> list[Gear]:
    """Read the gear on board, one length standing for all."""
    if len(length_m) == 1:
        length_m *= len(wll_kg)
    require_same_count(**{name: wll_kg, "gear_length_m": length_m})
    if len(wll_kg) > 40:
        raise OutOfRange(name, len(wll_kg), "must not name more than 40 pieces")
    each_positive(**{name: wll_kg, "gear_length_m": length_m})
    return [Gear(limit, length) for limit, length in zip(wll_kg, length_m, strict=True)]


def both_ends(pairs: list[Pair], holds: list[Point], middle: float, *, outwards: bool) -> list[Pair]:
    """Pairs that pull away from the item's middle, or all towards it."""

    def away(pair: Pair) -> bool:
        return (holds[pair.hold].x_m > middle) == (pair.along_m > 0)

    return [pair for pair in pairs if holds[pair.hold].x_m != middle and away(pair) == outwards]


def slots_of(kept: list[Pair], holds: list[Point], middle: float, each_end: int) -> list[list[Pair]]:
    """Front and rear slots: left and right where two are asked for, either side where one is."""
    ends = [[pair for pair in kept if (holds[pair.hold].x_m > middle) == rear] for rear in (False, True)]
    if each_end == 1:
        return ends
    return [
        [pair for pair in end if (holds[pair.hold].y_m >= 0 if right else holds[pair.hold].y_m <= 0)]
        for end in ends
        for right in (False, True)
    ]


def planned_of(one: Tied, holds: list[Point], deck: list[Point], numbers: list[int]) -> PlannedTieDown:
    hold, point = holds[one.pair.hold], deck[one.pair.deck]
    side: Literal["left", "right", "middle"] = "middle"
    if point.y_m:
        side = "right" if point.y_m > 0 else "left"
    return PlannedTieDown(
        gear=numbers[one.gear] + 1,
        hold_point=one.pair.hold + 1,
        deck_point=one.pair.deck + 1,
        other_deck_point=None,
        hold_x_m=hold.x_m,
        hold_y_m=hold.y_m,
        deck_x_m=point.x_m,
        deck_y_m=point.y_m,
        length_m=one.pair.length_m,
        pulls="rearward" if one.pair.along_m > 0 else "forward",
        side=side,
        wll_kg=one.wll_kg,
        counted_kg=one.wll_kg / 2,
    )


def search(
    pairs: list[Pair],
    holds: list[Point],
    deck: list[Point],
    gear: list[Gear],
    each_end: int,
    satisfies: Callable[[tuple[Tied, ...]], bool],
) -> tuple[bool, tuple[Tied, ...]]:
    """Return whether a choice satisfies, and that choice or the nearest.

    Pulling apart is tried first, then all inwards; further tie-downs may pull either way.
    """
    places = [hold.x_m for hold in holds]
    middle = (max(places) + min(places)) / 2
    nearest: tuple[Tied, ...] | None = None
    for outwards in (True, False):
        kept = both_ends(pairs, holds, middle, outwards=outwards)
        found, close = first_that_satisfies(
            slots_of(kept, holds, middle, each_end), pairs, holds, deck, gear, satisfies
        )
        if found:
            return True, found
        nearest = nearest or close
    return False, nearest or ()


def not_used(count: int, used: set[int]) -> tuple[int, ...]:
    """Return the numbers from 1 to count that are not used."""
    return tuple(number for number in range(1, count + 1) if number not in used)
