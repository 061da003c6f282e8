"""What a cargo asks of the floor and of the deck's width: weight on one wheel, on a square foot, and how wide it is."""

from __future__ import annotations

import math
from collections.abc import Iterator

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.catalogue.freight import Cargo
from sendoff.findings.model import Amount, Finding, Limit, Note, unknown


def findings_of(unit: AsBuiltUnit, cargo: Cargo) -> Iterator[Finding]:
    """Yield what the worst item asks of the floor, and the widest of the deck."""
    yield from _wheel(unit, cargo)
    yield from _area(unit, cargo)
    yield from _width(unit, cargo)
    yield from _height_raised(unit, cargo)


def _wheel(unit: AsBuiltUnit, cargo: Cargo) -> Iterator[Finding]:
    """The heaviest wheel or foot: as given; an item lighter than the rating needs no weighing."""
    floor, rolls = unit.part("floor"), [item for item in cargo.items if not item.set_down]
    rating = floor.si("wheel_load") if floor is not None else None
    if rating is None or not rolls:
        return
    limit = Limit(most=rating)
    not_told = [item for item in rolls if item.heaviest_wheel is None and item.mass.si > rating]
    if not_told:
        words = {"item": str(max(not_told, key=lambda item: item.mass.si).name)}
        yield unknown("cargo.wheel_load", "cargo_wheel", "mass", "heaviest_wheel", limit=limit, words=words)
        return
    told = [(item.heaviest_wheel or item.mass, item) for item in rolls]
    most, worst = max(told, key=lambda one: one[0].si)
    given = worst.heaviest_wheel is not None
    yield Finding(
        "cargo.wheel_load",
        "cargo_wheel" if given else "cargo_whole_on_wheel",
        "mass",
        limit,
        most.si,
        demand_given=most.given,
        demand_origin="sheet",
        words={"item": str(worst.name)},
    )


def _area(unit: AsBuiltUnit, cargo: Cargo) -> Iterator[Finding]:
    """The item that presses hardest on the ground it covers."""
    floor = unit.part("floor")
    rating = floor.si("area_load") if floor is not None else None
    pressed = [
        (item.mass.si / (item.length.si * item.width.si), str(item.name))
        for item in cargo.items
        if item.length is not None and item.width is not None
    ]
    if rating is None or not pressed:
        return
    most, name = max(pressed)
    yield Finding(
        "cargo.area_load",
        "cargo_area",
        "area_load",
        Limit(most=rating),
        most,
        demand_origin="sheet",
        words={"item": name},
    )


def _width(unit: AsBuiltUnit, cargo: Cargo) -> Iterator[Finding]:
    """The widest item against the narrowest deck; with it, how high the highest stands."""
    from sendoff.calc.rules_of_the_road.sizes import width_check

    wide = [(item.width.si, str(item.name)) for item in cargo.items if item.width is not None]
    if not wide:
        return
    widest, name = max(wide)
    decks = unit.geometry.decks
    overhangs = unit.part("floor") is None  # a hull stands wider than what carries it: the road is its limit
    most = width_check(widest).limit_m if overhangs else min(deck.width_m for deck in decks)
    high = max((item.height.si for item in cargo.items if item.height is not None), default=None)
    top = max(max(deck.height_m, deck.height_rear_m) for deck in decks)
    notes = (Note("height_loaded", {"height": Amount("length", top + high, "demand")}),) if high else ()
    yield Finding(
        "cargo.width",
        "cargo_width_over" if overhangs else "cargo_width",
        "length",
        Limit(most=most),
        widest,
        "label",
        demand_origin="sheet",
        words={"item": name},
        notes=notes,
    )


def _height_raised(unit: AsBuiltUnit, cargo: Cargo) -> Iterator[Finding]:
    """The highest item the lift deck may bear, over the raised end of that deck, against the height its card allows.

    That is a little more than the item reaches while it stands on the slope, so what holds here holds anywhere on it.
    """
    deck = unit.part("lift_deck")
    limit = deck.si("clear_height") if deck is not None else None
    hinge = next((one for one in unit.geometry.hinges if one.id == "lift_deck"), None)
    level = next((one for one in unit.geometry.decks if one.id == "lift_deck"), None)
    if deck is None or limit is None or hinge is None or level is None or hinge.lowered_rad >= 0:
        return
    rating = deck.si("load_rating") or math.inf
    fit = [item for item in cargo.items if item.height is not None and item.mass.si <= rating]
    if not fit:
        return
    highest = max(fit, key=lambda item: item.height.si if item.height is not None else 0.0)
    x, z = level.x1_m - hinge.x_m, level.height_rear_m - hinge.z_m
    turn = -hinge.lowered_rad
    end = hinge.z_m + x * math.sin(turn) + z * math.cos(turn)
    yield Finding(
        "cargo.height_deck_up",
        "height_deck_up",
        "length",
        Limit(most=limit),
        end + (highest.height.si if highest.height is not None else 0.0),
        "label",
        demand_origin="drawing",
        words={"item": str(highest.name)},
    )
