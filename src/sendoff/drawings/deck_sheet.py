"""Where everything of a deck plan lies on paper: the items as they stand on slopes and raised decks, and the scale."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from sendoff.calc.deck_plan import Item, LoadingStep
from sendoff.drawings import cargo_shapes
from sendoff.drawings.cargo_shapes import HEIGHT_M, Looks, Riding
from sendoff.drawings.deck_truck import truck_of
from sendoff.drawings.marks import SMALL, Mark, Pair
from sendoff.drawings.sheets import SCALES
from sendoff.drawings.svg import Pen
from sendoff.drawings.views import ON_SHEET, Style, Views
from sendoff.findings.deck.answer import DeckAnswer
from sendoff.findings.deck.telling import Teller
from sendoff.units import System

WIDTH_MM: Final = 184.0
SIDE_MM: Final = 3.0
TALL_MM: Final = 95.0
"""What side view and plan may take of the paper's height together."""
STYLE: Final = Style(
    SMALL,
    {
        "outline": 0.4,
        "edge": 0.25,
        "thin": 0.15,
        "hidden": 0.15,
        "ghost": 0.15,
        "detail": 0.13,
        "center": 0.13,
    },
    ON_SHEET.ground,
)
DISC_MM: Final = 2.4
LEAST_DIMENSION_M: Final = 0.1
KEY_MM: Final = 5.0
KEY_STEP_MM: Final = 4.0
LABEL_MM: Final = 4.0
LONGEST_MM: Final = 16.0
"""The longest arrow."""
STEPS: Final = (25, 50, 75, 100, 150, 200, 250, 300, 400, 500, 600, 750, 1000, 1500, 2000)
"""What one millimeter of an arrow may stand for, in the reader's unit of weight."""
STRAP: Final = Pen(0.45)
REACH_M: Final = 1.5
"""How far a strap is drawn where nobody told its reach."""
DASHED: Final = Pen(0.18, (1.6, 0.8))


@dataclass(frozen=True, slots=True)
class Standing:
    """An item where it is drawn."""

    number: int
    item: Item
    step: LoadingStep
    riding: Riding
    front: Pair
    """Its forward-most end on the deck: x and z."""
    slope_rad: float
    center_x_m: float
    width_m: float | None

    @property
    def marks(self) -> list[Mark]:
        """Return it as painted."""
        backward = self.step.facing == "backward"
        return [
            cargo_shapes.stood(mark, self.front, self.slope_rad, self.item.length_m, backward=backward)
            for mark in cargo_shapes.marks_of(self.riding)
        ]

    @property
    def rear_m(self) -> float:
        """Where it ends."""
        return self.step.front_m + self.item.length_m

    def wheels(self) -> list[Pair]:
        """Return where it bears on the deck."""
        sine, cosine = math.sin(self.slope_rad), math.cos(self.slope_rad)
        return [
            (self.front[0] + along * cosine, self.front[1] - along * sine)
            for along in sorted(self.item.offsets_m(self.step.facing))
        ]


def standing_of(found: DeckAnswer) -> list[Standing]:
    """Return all items where they stand, in the order of loading."""
    items = {item.name: item for item in found.problem.items}
    rows = []
    for number, step in enumerate(found.plan.loading, start=1):
        item = items[step.item]
        offsets = item.offsets_m(step.facing)
        first, last = step.front_m + min(offsets), step.front_m + max(offsets)
        low, high = height_of(found, step.deck, first), height_of(found, step.deck, last)
        slope = math.atan2(low - high, last - first) if last > first else 0.0
        rows.append(
            Standing(
                number,
                item,
                step,
                _riding(found, item),
                (step.front_m, low + (first - step.front_m) * math.tan(slope)),
                slope,
                step.front_m + sum(c.share_ratio * o for c, o in zip(item.contacts, offsets, strict=True)),
                item.width_m,
            )
        )
    return rows


def _riding(found: DeckAnswer, item: Item) -> Riding:
    told = next(row for row in found.case.cargo.items if row.id == item.name)
    tracks = told.tracks_length is not None
    looks: Looks = told.drawn_as or ("cargo" if told.set_down else "machine" if tracks else "car")
    wheels = tuple(contact.offset_m for contact in item.contacts)
    return Riding(looks, item.length_m, item.height_m or HEIGHT_M[looks], wheels, tracks)


def height_of(found: DeckAnswer, surface: str, x_m: float) -> float:
    """Return how high a surface stands at a place; beyond its ends, as at its ends."""
    geometry = found.case.unit.geometry
    way = found.case.way(found.way)
    decks = [*geometry.decks, *(way.decks if way is not None else ())]
    row = [deck for deck in decks if deck.id in surface.split("+")]
    deck = min(row, key=lambda deck: max(deck.x0_m - x_m, x_m - deck.x1_m, 0.0))
    share = min(max((x_m - deck.x0_m) / (deck.x1_m - deck.x0_m), 0.0), 1.0)
    return deck.height_m + (deck.height_rear_m - deck.height_m) * share


class Sheet:
    """Where everything of one drawing lies on paper."""

    def __init__(self, found: DeckAnswer, language: str, system: System) -> None:
        self.found, self.language, self.system = found, language, system
        self.views = Views(found.case.unit)
        self.teller = Teller(found, language, system)
        self.rows = standing_of(found)
        self.truck = truck_of(found.case)
        fronts = [row.step.front_m for row in self.rows]
        if self.truck is not None:
            fronts.append(self.truck.front_m)
        low = min([self.views.geometry.front_x_m, *fronts])
        high = max([self.views.rear_m, *(row.rear_m for row in self.rows)])
        tops = [mark.spread()[3] for row in self.rows for mark in row.marks]
        self.top_m = max(
            [self.views.highest_m, *tops, *([self.truck.top_m] if self.truck is not None else [])]
        )
        self.half_m = (
            max([self.views.geometry.overall_width_m, *(row.width_m or 0.0 for row in self.rows)]) / 2
        )
        scales = [
            scale
            for scale in SCALES[system]
            if (high - low) * 1000 / scale <= WIDTH_MM - 2 * SIDE_MM
            and (self.top_m + 2 * self.half_m) * 1000 / scale <= TALL_MM
        ]
        self.scale = scales[0] if scales else SCALES[system][-1]
        self.mm = 1000 / self.scale
        self.zero_x = (WIDTH_MM - (high - low) * self.mm) / 2 - low * self.mm
        self.ends = (self.zero_x + low * self.mm, self.zero_x + high * self.mm)

    def x(self, at_m: float) -> float:
        """Return where a place along the trailer lies on paper."""
        return self.zero_x + at_m * self.mm
