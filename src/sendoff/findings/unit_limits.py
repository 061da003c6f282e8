"""The limits of a unit by itself: every part's rating against what the plate promises, pressures, ages, weighings.

Here a trailer meets the formulas: which part gives which input, and which limits apply to this unit. A part that is
not fitted asks for nothing; a number that is missing gives an unknown finding that says what to measure.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit, FittedPart
from sendoff.calc.contract import Step, worked
from sendoff.calc.identity import tire_identification
from sendoff.calc.ratings.capacity import cargo_capacity
from sendoff.calc.ratings.chain import axle_rating_chain, trailer_rating_chain
from sendoff.calc.ratings.pressures import pressure_rating_chain
from sendoff.calc.tires.condition import tire_age
from sendoff.findings.model import Finding, Limit, sorted_by_limit
from sendoff.findings.sources_of import references_of
from sendoff.findings.weighed import error_of, last

TIRE_YEARS: Final = 6
"""Age from which a trailer tire wants a specialist's look each year: common practice, no source."""
DAYS_A_YEAR: Final = 365.25
DAY_S: Final = 86400.0

AXLE_PARTS: Final = (
    ("tires", "each_tire", "tire"),
    ("wheels", "each_wheel", ""),
    ("wheel_nuts", "studs", ""),
    ("hubs", "each_hub", "label"),
    ("axles", "axle_beam", "label"),
    ("suspension", "springs", "label"),
)
"""Slot, name of the limit and group of its tight share, for what stands between the road and the frame."""

NOT_CHECKED: Final = (
    "truck",
    "load",
    "tie_down",
    "road_law",
    "brakes_working",
    "welds",
    "side_wind",
    "after_this_day",
)
"""What no finding of a unit by itself speaks of (phrases `not_checked.…`)."""


def findings_of(unit: AsBuiltUnit, day: datetime.date) -> tuple[Finding, ...]:
    """Return every finding of a unit by itself on a day, what limits first in front."""
    found = [
        *_axles(unit),
        *_trailer(unit),
        *_coupling(unit),
        *_pressures(unit),
        *_ages(unit, day),
        *_weighed(unit),
    ]
    return sorted_by_limit(found)


def _tires_an_axle(unit: AsBuiltUnit) -> int:
    tires = unit.part("tires")
    return len(tires.places) // len(unit.geometry.axles.x_m) if tires is not None else 2


def _tire_capacity(unit: AsBuiltUnit) -> float | None:
    tires = unit.part("tires")
    if tires is None:
        return None
    dual = tires.si("max_load_dual") if _tires_an_axle(unit) > 2 else None
    return dual if dual is not None else tires.si("max_load_single")


def rating_of(unit: AsBuiltUnit, slot: str) -> float | None:
    names = {
        "wheels": "load_rating",
        "wheel_nuts": "stud_rating",
        "hubs": "load_rating",
        "axles": "rating",
        "suspension": "rating",
    }
    if slot == "tires":
        return _tire_capacity(unit)
    part = unit.part(slot)
    return part.si(names[slot]) if part is not None else None


def share_of_axle(unit: AsBuiltUnit, slot: str) -> int:
    """Return how many of a part share the load of one axle, as its rating is given."""
    if slot in {"tires", "wheels"}:
        return _tires_an_axle(unit)
    return 1 if slot in {"axles", "suspension"} else 2


def _axles(unit: AsBuiltUnit) -> Iterator[Finding]:
    """Each part of each axle against the axle's rating on the plate; axles rated alike are said once."""
    labels = [value.si or 0.0 for value in unit.plate.gawr]
    for number, gawr in enumerate(labels, start=1):
        if gawr in labels[: number - 1]:
            continue
        same = labels.count(gawr) == len(labels)
        for slot, about, group in AXLE_PARTS:
            rating = rating_of(unit, slot)
            if unit.part(slot) is None or rating is None:
                continue
            share = share_of_axle(unit, slot)
            yield Finding(
                id=f"axle_{number}.{slot}",
                about=about if same else f"{about}_n",
                kind="mass",
                limit=Limit(most=rating),
                demand=gawr / share,
                group=group,
                demand_origin="plate",
                words={"n": str(number), "part": slot},
                steps=_chain_steps(unit, gawr),
                sources=references_of(axle_rating_chain),
            )


def _chain_steps(unit: AsBuiltUnit, gawr: float) -> tuple[Step, ...]:
    springs = rating_of(unit, "suspension")
    return worked(
        axle_rating_chain,
        tire_load_kg=rating_of(unit, "tires"),
        wheel_load_kg=rating_of(unit, "wheels"),
        stud_load_kg=rating_of(unit, "wheel_nuts"),
        hub_load_kg=rating_of(unit, "hubs"),
        axle_load_kg=rating_of(unit, "axles"),
        spring_load_kg=springs / 2 if springs is not None else None,
        tire_count=_tires_an_axle(unit),
        gawr_kg=gawr,
    ).steps


def _trailer(unit: AsBuiltUnit) -> Iterator[Finding]:
    """The gross rating against the axles and what the coupling takes."""
    gvwr, least = unit.plate.gvwr.si, unit.plate.coupling_share_least.si
    if gvwr is None or least is None:
        return
    done = worked(
        trailer_rating_chain,
        axle_capacity_kg=tuple(value.si or 0.0 for value in unit.plate.gawr),
        coupling_share_ratio=least,
    )
    yield Finding(
        id="trailer.axles",
        about="gross_by_axles",
        kind="mass",
        limit=Limit(most=done.result.axles_kg),
        demand=gvwr,
        group="label",
        demand_origin="plate",
        limit_origin="plate",
        steps=done.steps,
        sources=references_of(trailer_rating_chain),
    )


def _coupling(unit: AsBuiltUnit) -> Iterator[Finding]:
    gvwr, most = unit.plate.gvwr.si, unit.plate.coupling_share_most.si
    coupler, chains, actuator = unit.part("coupler"), unit.part("chains"), unit.part("actuator")
    if gvwr is None or most is None:
        return
    if coupler is not None:
        yield from _capacity(coupler, "gross_rating", "coupler_gross", gvwr, "ball")
        yield from _capacity(coupler, "vertical_rating", "coupler_vertical", gvwr * most, "ball")
    if actuator is not None:
        yield from _capacity(actuator, "gross_rating", "actuator_gross", gvwr, "ball")
    bars = unit.part("bars")
    if bars is not None:
        yield from _capacity(bars, "bar_tongue_rating", "bars_tongue", gvwr * most, "ball")
        yield from _capacity(bars, "bar_trailer_rating", "bars_trailer", gvwr, "ball")
    if chains is not None and (breaking := chains.si("breaking_force")) is not None:
        yield from _chains(gvwr, breaking, len(chains.places))


def _chains(gvwr: float, breaking: float, count: int) -> Iterator[Finding]:
    """Each safety chain by the stricter of the rules, and that there are two of them."""
    from sendoff.calc.truck_check.chains import safety_chain_check

    done = worked(safety_chain_check, gvwr, (breaking,) * max(count, 1))
    sources = references_of(safety_chain_check)
    yield Finding(
        id="chains.breaking_force",
        about="each_chain",
        kind="force",
        limit=Limit(most=breaking),
        demand=done.result.each_needed_N,
        group="chain",
        demand_origin="plate",
        steps=done.steps,
        sources=sources,
    )
    if not done.result.enough_chains:
        yield Finding("chains.number", "chain_count", "count", Limit(least=2), count, sources=sources)


def _capacity(part: FittedPart, value: str, about: str, demand: float, group: str) -> Iterator[Finding]:
    rating = part.si(value)
    if rating is not None:
        yield Finding(
            f"{part.slot}.{value}", about, "mass", Limit(most=rating), demand, group, demand_origin="plate"
        )


def _pressures(unit: AsBuiltUnit) -> Iterator[Finding]:
    tires = unit.part("tires")
    cold = tires.si("cold_pressure") if tires is not None else None
    if tires is None or cold is None:
        return
    wheels, stems = unit.part("wheels"), unit.part("valve_stems")
    ratings = {
        "tire_pressure_Pa": ("tire_pressure", tires.si("sidewall_pressure")),
        "wheel_pressure_Pa": ("wheel_pressure", wheels.si("pressure_rating") if wheels is not None else None),
        "stem_pressure_Pa": ("stem_pressure", stems.si("pressure_rating") if stems is not None else None),
    }
    for argument, (about, rating) in ratings.items():
        if rating is not None:
            done = worked(pressure_rating_chain, cold, **{argument: rating})
            yield Finding(
                id=f"pressure.{about}",
                about=about,
                kind="pressure",
                limit=Limit(most=rating),
                demand=cold,
                group="set_point",
                steps=done.steps,
                sources=references_of(pressure_rating_chain),
            )


def _ages(unit: AsBuiltUnit, day: datetime.date) -> Iterator[Finding]:
    """The oldest tire by its number; unknown where a tire's number was not noted."""
    tires = unit.part("tires")
    if tires is None:
        return
    numbers = [place.marks.tin for place in tires.places]
    noted = [tire_identification(number) for number in numbers if number is not None]
    limit = Limit(most=TIRE_YEARS * DAYS_A_YEAR * DAY_S)
    sources = references_of(tire_age)
    if len(noted) < len(numbers):
        yield Finding(
            "tires.age", "tire_age", "duration", limit, None, missing=("tire_numbers",), sources=sources
        )
        return
    oldest = min(noted, key=lambda parts: parts.first_day)
    done = worked(tire_age, oldest.date_code, max(day, oldest.first_day))
    yield Finding(
        "tires.age",
        "tire_age",
        "duration",
        limit,
        done.result.days * DAY_S,
        demand_origin="sheet",
        steps=done.steps,
        sources=sources,
    )


def _weighed(unit: AsBuiltUnit) -> Iterator[Finding]:
    """The empty weight from a scale, and the share on the coupling of a loaded weighing."""
    gvwr = unit.plate.gvwr.si
    if gvwr is None:
        return
    empty = last(unit.weighings, "whole", "empty")
    if empty is None:
        yield Finding(
            "weighed.empty",
            "empty_weighed",
            "mass",
            Limit(most=gvwr),
            None,
            missing=("weigh_empty",),
            limit_origin="plate",
        )
    else:
        mass, error = empty.mass.si or 0.0, error_of(empty)
        steps = worked(cargo_capacity, gvwr, mass, error).steps if mass + error <= gvwr else ()
        yield Finding(
            id="weighed.empty",
            about="empty_weighed",
            kind="mass",
            limit=Limit(most=gvwr),
            demand=mass,
            uncertainty=error,
            demand_origin="weighed",
            limit_origin="plate",
            steps=steps,
            sources=references_of(cargo_capacity),
        )
    yield from _share(unit)


def _share(unit: AsBuiltUnit) -> Iterator[Finding]:
    whole, coupling = last(unit.weighings, "whole", "loaded"), last(unit.weighings, "coupling", "loaded")
    least, most = unit.plate.coupling_share_least.si, unit.plate.coupling_share_most.si
    if whole is None or coupling is None or not whole.mass.si or coupling.mass.si is None:
        return
    error = error_of(whole) + error_of(coupling)
    yield Finding(
        id="weighed.coupling_share",
        about="coupling_share",
        kind="ratio",
        limit=Limit(least=least, most=most),
        demand=coupling.mass.si / whole.mass.si,
        uncertainty=error / whole.mass.si,
        demand_origin="weighed",
        limit_origin="plate",
    )
