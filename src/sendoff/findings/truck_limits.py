"""May this truck tow this trailer: the limits of a truck with the trailer loaded as its plate allows.

The trailer is taken at its gross rating with the most its plate allows on the coupling, so that what holds here holds
for every load the plate allows. What only a look can tell (wear, rust, changes made to the truck) is not checked here.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, Literal

from sendoff.asbuilt.unit import AsBuiltUnit, Value
from sendoff.calc.contract import worked
from sendoff.calc.rules_of_the_road.brakes_required import surge_brakes_allowed
from sendoff.calc.statics.truck import truck_axle_shift
from sendoff.calc.truck_check.coupling import ball_size_match
from sendoff.calc.truck_check.electrics import Lead, controller_match, plug_match
from sendoff.calc.truck_check.ratings import combination_weight_check
from sendoff.calc.truck_check.weight_distribution import bar_pull_for_restoration, weight_distribution_effect
from sendoff.catalogue.freight import Truck
from sendoff.findings.model import Amount, Finding, Limit, Note, sorted_by_limit
from sendoff.findings.sources_of import references_of
from sendoff.findings.weighed import axle_group_x_m
from sendoff.phrases import say

Plug = Literal["flat_4", "flat_5", "blade_7", "heavy_duty_7"]
TRUCK_PLUGS: Final[dict[str, Plug]] = {
    "flat_4": "flat_4",
    "flat_5": "flat_5",
    "blade_7": "blade_7",
    "round_pin_7": "heavy_duty_7",
}
TRAILER_PLUGS: Final[dict[str, Plug]] = {
    "plug_blade_7": "blade_7",
    "plug_flat_4": "flat_4",
    "plug_flat_5": "flat_5",
    "plug_heavy_7": "heavy_duty_7",
}
"""Which standard each card's plug follows; a yard's own plug card names its standard the same way."""
BRAKES_BY_WIRE: Final[dict[str, Literal["electric", "electric_over_hydraulic"]]] = {
    "brake_electric": "electric",
    "brake_electric_over_hydraulic": "electric_over_hydraulic",
}
"""Cards of brakes that a controller in the cab works by wire, and which kind they are."""


def findings_with_truck(unit: AsBuiltUnit, truck: Truck) -> tuple[Finding, ...]:
    """Return every finding of a truck with this unit behind it, what limits first in front."""
    return sorted_by_limit([*_fits(unit, truck), *_hitch(unit, truck), *_truck(unit, truck)])


def _fits(unit: AsBuiltUnit, truck: Truck) -> Iterator[Finding]:
    coupler = unit.part("coupler")
    size = coupler.values.get("ball") if coupler is not None else None
    if size is not None:
        yield _ball(size, truck)
    plug = unit.part("plug")
    if plug is not None and plug.card in TRAILER_PLUGS:
        yield _plug(unit, TRAILER_PLUGS[plug.card], truck)
    brakes = unit.part("brakes")
    if brakes is not None and brakes.card in BRAKES_BY_WIRE:
        yield _controller(truck, BRAKES_BY_WIRE[brakes.card])
    if unit.part("actuator") is not None and unit.plate.gvwr.si is not None:
        yield _surge(truck, unit.plate.gvwr.si)


def _ball(size: Value, truck: Truck) -> Finding:
    sources, limit = references_of(ball_size_match), Limit(most=size.si)
    if truck.ball is None or size.si is None:
        return Finding(
            "truck.ball", "truck_ball", "length", limit, None, missing=("truck_ball",), sources=sources
        )
    done = worked(ball_size_match, size.si, truck.ball.si)
    return Finding(
        id="truck.ball",
        about="truck_ball",
        kind="length",
        limit=limit,
        demand=truck.ball.si,
        demand_given=truck.ball.given,
        limit_given=size.given,
        holds=done.result.fits,
        steps=done.steps,
        sources=sources,
    )


def _plug(unit: AsBuiltUnit, trailer_plug: Plug, truck: Truck) -> Finding:
    sources = references_of(plug_match)
    socket = TRUCK_PLUGS.get(truck.plug) if truck.plug is not None else None
    if socket is None:
        return Finding(
            "truck.plug",
            "truck_plug",
            "text",
            Limit(),
            None,
            missing=("truck_plug",),
            words={"lacking": ""},
            sources=sources,
        )
    needs: list[Lead] = ["ground", "tail", "left", "right"]
    brakes = unit.part("brakes")
    if unit.part("actuator") is not None:
        needs += ["reverse_lockout"]
    elif unit.part("air_supply") is None and brakes is not None:
        needs += ["brake"]
    needs += ["stop", "abs_power"] if unit.part("abs") is not None else []
    if unit.part("charge_lead") is not None and trailer_plug != "heavy_duty_7":
        needs += ["charge"]  # beside a heavy truck's plug the lead has a plug of its own
    done = worked(plug_match, socket, trailer_plug, tuple(needs))
    language = unit.reader.language
    lacking = ", ".join(say(f"plug_function.{name}", language) for name in done.result.missing)
    return Finding(
        id="truck.plug",
        about="truck_plug",
        kind="text",
        limit=Limit(),
        demand=None,
        holds=not done.result.missing,
        words={
            "lacking": lacking,
            "demand": socket.replace("_", " "),
            "limit": trailer_plug.replace("_", " "),
        },
        steps=done.steps,
        sources=sources,
    )


def _controller(truck: Truck, brakes: Literal["electric", "electric_over_hydraulic"]) -> Finding:
    sources = references_of(controller_match)
    hydraulic = brakes == "electric_over_hydraulic"
    missing = "truck_controller" if truck.brake_controller is None else ""
    if hydraulic and truck.brake_controller == "factory":  # some have that setting, some do not
        missing = "truck_controller_menu"
    if missing:
        return Finding(
            "truck.controller",
            "truck_controller",
            "text",
            Limit(),
            None,
            missing=(missing,),
            sources=sources,
        )
    kind: Literal["none", "electric_only"] = "none" if truck.brake_controller == "none" else "electric_only"
    done = worked(controller_match, brakes, kind)
    words = {"demand": truck.brake_controller or "", "limit": brakes.replace("_", " ")}
    return Finding(
        "truck.controller",
        "truck_controller",
        "text",
        Limit(),
        None,
        holds=done.result.suits,
        words=words,
        steps=done.steps,
        sources=sources,
    )


def _surge(truck: Truck, gvwr: float) -> Finding:
    """The trailer's rating over the truck's, against what the federal rule allows on surge brakes."""
    done = worked(surge_brakes_allowed, truck.gvwr.si, gvwr)
    return Finding(
        "truck.surge_ratio",
        "surge_ratio",
        "ratio",
        Limit(most=done.result.limit_number),
        done.result.ratio_number,
        "label",
        demand_origin="plate",
        steps=done.steps,
        sources=references_of(surge_brakes_allowed),
    )


def _hitch(unit: AsBuiltUnit, truck: Truck) -> Iterator[Finding]:
    gvwr, share = unit.plate.gvwr.si, unit.plate.coupling_share_most.si
    if gvwr is None or share is None:
        return
    for about, rating, demand in (
        ("truck_coupling", truck.coupling_rating, gvwr),
        ("truck_coupling_vertical", truck.coupling_vertical_rating, gvwr * share),
    ):
        if rating is None:
            yield Finding(f"truck.{about}", about, "mass", Limit(), None, missing=("truck_rating",))
        else:
            by_bars = about == "truck_coupling_vertical" and unit.part("bars") is not None
            yield Finding(
                f"truck.{about}",
                about,
                "mass",
                Limit(most=rating.si),
                demand,
                "ball",
                demand_origin="plate",
                notes=(Note("bars_raise_nothing"),) if by_bars else (),
            )


def _truck(unit: AsBuiltUnit, truck: Truck) -> Iterator[Finding]:
    gvwr, share = unit.plate.gvwr.si, unit.plate.coupling_share_most.si
    if gvwr is None or share is None:
        return
    limits = {
        "truck_front_axle": truck.gawr_front.si,
        "truck_rear_axle": truck.gawr_rear.si,
        "truck_gross": truck.gvwr.si,
    }
    if truck.weighed_front is None or truck.weighed_rear is None:
        for about, limit in limits.items():
            yield Finding(
                f"truck.{about}", about, "mass", Limit(most=limit), None, missing=("truck_weighed",)
            )
        return
    front, rear = truck.weighed_front.si, truck.weighed_rear.si
    shift = worked(truck_axle_shift, gvwr * share, truck.wheelbase.si, truck.coupling_behind_rear_axle.si)
    demands = {
        "truck_front_axle": max(front, front + shift.result.front_axle_change_kg),
        "truck_rear_axle": rear + shift.result.rear_axle_change_kg,
        "truck_gross": front + rear + gvwr * share,
    }
    sources = references_of(truck_axle_shift)
    told = tuple(_bars(unit, truck, gvwr * share, demands["truck_rear_axle"]))
    for about, demand in demands.items():
        group = "" if about == "truck_gross" else "truck_axle"
        yield Finding(
            f"truck.{about}",
            about,
            "mass",
            Limit(most=limits[about]),
            demand,
            group,
            demand_origin="weighed",
            steps=shift.steps,
            sources=sources,
            notes=told if about == "truck_rear_axle" else (),
        )
    yield _combined(front + rear, gvwr, truck)


def _bars(unit: AsBuiltUnit, truck: Truck, on_coupling: float, on_rear: float) -> Iterator[Note]:
    """Say what spring bars must pull to give back half and all of what the front axle loses."""
    bars, behind = unit.part("bars"), truck.coupling_behind_rear_axle.si
    length = bars.si("bar_length") if bars is not None else None
    if length is None or behind <= 0:
        return
    to_axles = axle_group_x_m(unit)
    half, whole = (
        bar_pull_for_restoration(share, on_coupling, length, behind, to_axles) for share in (0.5, 1.0)
    )
    moved = weight_distribution_effect(half, length, truck.wheelbase.si, behind, to_axles)
    amounts = {
        "lost": Amount("mass", on_coupling * behind / truck.wheelbase.si, "demand"),
        "half": Amount("mass", half),
        "whole": Amount("mass", whole),
        "rear": Amount("mass", on_rear + moved.rear_axle_change_kg, "demand"),
    }
    yield Note("bars_give_back", amounts)


def _combined(truck_mass: float, gvwr: float, truck: Truck) -> Finding:
    sources = references_of(combination_weight_check)
    if truck.gcwr is None:
        return Finding(
            "truck.combined",
            "truck_combined",
            "mass",
            Limit(),
            None,
            missing=("truck_gcwr",),
            sources=sources,
        )
    done = worked(combination_weight_check, truck_mass, gvwr, truck.gcwr.si)
    return Finding(
        "truck.combined",
        "truck_combined",
        "mass",
        Limit(most=truck.gcwr.si),
        done.result.demand_kg,
        demand_origin="weighed",
        steps=done.steps,
        sources=sources,
    )
