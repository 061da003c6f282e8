"""The deck plan: where each vehicle or machine stands, which way round, and how much of every limit is left.

What goes in
------------
Positions are meters rearwards from the coupling point, lengths meters, masses kilograms, angles radians. Whatever is
not limited is left out (infinite); whatever is not known is None, is not checked, and is named by `unchecked`.

``Item``
    What is to ride: mass and how far it may be wrong, length, its contacts with the deck (for a car its two axles:
    place behind its front end, part of its mass, wheels), and what is known of width, height, tracks, clearance,
    overhang angles and reach of straps; which way it may face; at which stop it comes off; whether it drives or is
    winched or lifted. `vehicle`, `on_tracks` and `on_bearers` make one from the measures people have.
``Deck``
    One surface, with its ``Zone`` s from front to rear (total and wheel limits, width, height, wheel ways), forbidden
    ``Strip`` s, how far bodies may stick out at both ends, strap points, the ``Ramp`` up to it, and the decks that
    must be empty before it can be. A lift deck that is up is a deck of its own with its own zones; what it leaves of
    height below is `height_limit_m` of the zones below. Up and down are two problems: `compare`.
``Trailer``, ``Truck``, ``AxleGroup``
    How they stand empty, what pin, axles, tires, hitch and the law let them carry. Truck and groups may be left out.
``Problem``
    All of these together, the gap between bodies, whether the order of drops must hold or only costs effort, and what
    is called tight. Limits have names ("axle_2", "zone_total:tail", "pin_share_most"); `without` leaves some out.

What comes out
--------------
`plan`
    The best arrangement (best least margin, then least effort), whether it is proved the best, how it could be had
    with less effort, every share of every limit, how far masses may be wrong, order of loading and stops; where
    nothing fits, the limits that clash and what would help.
`choose`
    Which of up to 40 items to take. `trips`: all of them, in several trips.
`evaluate`
    All that can be said of an arrangement made by hand. `by_hand` gives a phone what it needs to do that alone.

Margins count in what is called tight: 1 stands on that line, 0 on the limit. Only what was proved is called the best;
a budget (`go_on`, asked now and then) gives the best found with a bound on what could still be found.
"""

from __future__ import annotations

from sendoff.calc.deck_plan.beam import flexible_reactions
from sendoff.calc.deck_plan.evaluate import Evaluation, Leeway, Share, evaluate
from sendoff.calc.deck_plan.explain import Conflict, Repair, explain, limit_names
from sendoff.calc.deck_plan.gear import AxleGroup, TightAt, Trailer, Truck
from sendoff.calc.deck_plan.hand import by_hand, judge
from sendoff.calc.deck_plan.makers import on_bearers, on_tracks, vehicle
from sendoff.calc.deck_plan.order import LoadingStep, Stop, loading_order, stops
from sendoff.calc.deck_plan.problem import (
    Contact,
    Deck,
    Item,
    Placement,
    Problem,
    Ramp,
    Strip,
    Zone,
    counting_only,
    unchecked,
    with_items,
    without,
)
from sendoff.calc.deck_plan.questions import (
    Choice,
    Chosen,
    Plan,
    Trips,
    choose,
    compare,
    plan,
    trips,
    with_mass,
)

__all__ = [
    "AxleGroup",
    "Choice",
    "Chosen",
    "Conflict",
    "Contact",
    "Deck",
    "Evaluation",
    "Item",
    "Leeway",
    "LoadingStep",
    "Placement",
    "Plan",
    "Problem",
    "Ramp",
    "Repair",
    "Share",
    "Stop",
    "Strip",
    "TightAt",
    "Trailer",
    "Trips",
    "Truck",
    "Zone",
    "by_hand",
    "choose",
    "compare",
    "counting_only",
    "evaluate",
    "explain",
    "flexible_reactions",
    "judge",
    "limit_names",
    "loading_order",
    "on_bearers",
    "on_tracks",
    "plan",
    "stops",
    "trips",
    "unchecked",
    "vehicle",
    "with_items",
    "with_mass",
    "without",
]
