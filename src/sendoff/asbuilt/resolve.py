"""From build sheet to as-built unit: every part, where it sits, its values, and why it is there."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path
from typing import Any

from sendoff import units
from sendoff.asbuilt import decks
from sendoff.asbuilt import unit as made
from sendoff.asbuilt.blanks import blanks, faults_of_tables, no_such_type
from sendoff.asbuilt.fit import Fit, faults_of_options, fit
from sendoff.asbuilt.lap import Spot, lap_order, places_of, station_at
from sendoff.asbuilt.marks import faults_of_marks
from sendoff.asbuilt.sheet import BuildSheet, PartMarks, Ticket
from sendoff.canonical import digest_of_tables
from sendoff.catalogue.fields import Measure
from sendoff.catalogue.load import Catalogue
from sendoff.catalogue.loading import read_record, read_toml
from sendoff.catalogue.moving import CylinderEyes, PropEnds
from sendoff.catalogue.outlines import outline
from sendoff.catalogue.schema import Card, Frame, TrailerType, Variant
from sendoff.errors import FaultyInput


def read_sheet(path: Path) -> tuple[BuildSheet, Mapping[str, Any]]:
    """Read a build sheet: its record, and its tables as written."""
    raw = read_toml(path, str(path))
    return read_record(raw, BuildSheet, str(path)), raw


def as_built(path: Path, catalogue: Catalogue) -> made.AsBuiltUnit:
    """Read a build sheet and resolve it; refuse it with everything wrong at once."""
    file = str(path)
    raw = read_toml(path, file)
    faults = blanks(raw, file)
    try:
        unit = resolve(read_record(raw, BuildSheet, file), raw, catalogue, file)
    except FaultyInput as refused:
        for more in (refused.faults, tuple(faults_of_tables(raw, catalogue, file))):
            told = [fault.key for fault in faults]
            faults += [fault for fault in more if not any(_same_place(fault.key, key) for key in told)]
    else:
        if not faults:
            return unit
    raise FaultyInput(faults)


def _same_place(key: str, other: str) -> bool:
    """Tell whether two keys are one, or one stands in the other."""
    small, large = sorted((key, other), key=len)
    return large == small or large.startswith((f"{small}.", f"{small}["))


def resolve(sheet: BuildSheet, raw: Mapping[str, Any], catalogue: Catalogue, file: str) -> made.AsBuiltUnit:
    """Resolve a build sheet against the catalogue."""
    trailer = catalogue.types.get(sheet.type)
    if trailer is None:
        raise FaultyInput([no_such_type(sheet.type, catalogue, file), *faults_of_marks(sheet, None, file)])
    faults = faults_of_options(trailer, sheet.options, file)
    if faults:
        raise FaultyInput([*faults, *faults_of_marks(sheet, None, file)])
    fits = fit(trailer, sheet.options)
    places = {slot: tuple(places_of(trailer, slot)) for slot in fits}
    faults = faults_of_marks(
        sheet, {slot: [place[0] for place in spots] for slot, spots in places.items()}, file
    )
    if faults:
        raise FaultyInput(faults)
    parts = tuple(
        _part(slot, fits[slot], places[slot], trailer, catalogue, sheet.parts.get(slot, {})) for slot in fits
    )
    return made.AsBuiltUnit(
        unit=str(sheet.unit),
        public_id=sheet.public_id,
        yard=str(catalogue.yard.name),
        type=trailer.id,
        type_name=dict(trailer.name),
        coupling=trailer.coupling,
        vin=str(sheet.vin),
        built=sheet.built.isoformat(),
        options=tuple(
            made.OptionTaken(id=name, name=dict(trailer.options[name].name)) for name in sorted(sheet.options)
        ),
        reader=sheet.reader,
        owner=sheet.owner,
        collects=sheet.collects,
        plate=_plate(trailer),
        geometry=geometry(trailer.frame, {slot: found.reference for slot, found in fits.items()}),
        stations=lap_order(trailer, parts, catalogue.yard.walk),
        parts=parts,
        weighings=tuple(_weighing(ticket) for ticket in sheet.tickets),
        truck=sheet.truck,
        cargo=sheet.cargo,
        digests=made.Digests(catalogue=catalogue.digest, sheet=digest_of_tables(raw)),
    )


def _part(
    slot: str,
    fitted: Fit,
    places: tuple[Spot, ...],
    trailer: TrailerType,
    catalogue: Catalogue,
    marks: Mapping[str, PartMarks],
) -> made.FittedPart:
    card_id, variant_id = fitted.reference.split("/")
    card = catalogue.cards[card_id]
    variant = card.variants[variant_id]
    values = {name: _value(card, variant, name) for name in card.values if name in variant.values}
    return made.FittedPart(
        slot=slot,
        card=card_id,
        variant=variant_id,
        system=card.system,
        name=dict(card.name),
        variant_name=dict(variant.name),
        why=made.Why(by="option" if fitted.options else "standard", options=fitted.options),
        places=tuple(
            made.Place(
                id=id_,
                side=side,
                x_m=x,
                y_m=y,
                z_m=z,
                station=station_at(trailer.slots[slot], side),
                marks=_marks(marks.get(id_)),
            )
            for id_, side, x, y, z in places
        ),
        values=values,
        shape=_shape(card, values),
    )


def _marks(row: PartMarks | None) -> made.Marks:
    if row is None:
        return made.Marks()
    return made.Marks(
        **{key: str(text) for key in ("serial", "lot", "tin") if (text := getattr(row, key)) is not None}
    )


def _value(card: Card, variant: Variant, name: str) -> made.Value:
    meaning, raw = card.values[name], variant.values[name]
    source = variant.sources.get(name, card.sources[0])
    if isinstance(raw, dict):
        return made.Value(given=raw["en"], quantity="text", words=raw, role=meaning.role, source=source)
    if meaning.quantity == "text":
        return made.Value(given=str(raw), quantity="text", role=meaning.role, source=source)
    if isinstance(raw, int):
        return made.Value(
            given=str(raw), quantity=meaning.quantity, si=float(raw), role=meaning.role, source=source
        )
    quantity = units.parse(raw, meaning.quantity)
    return made.Value(
        given=quantity.given, quantity=quantity.kind, si=quantity.si, role=meaning.role, source=source
    )


def _shape(card: Card, values: Mapping[str, made.Value]) -> made.Shape | None:
    if card.shape is None:
        return None
    measures = {
        measure: si
        for measure, name in card.shape.measures.items()
        if name in values and (si := values[name].si) is not None
    }
    return made.Shape(kind=card.shape.kind, measures=measures)


def _plate(trailer: TrailerType) -> made.Plate:
    labels, source = trailer.labels, trailer.sources[0]

    def value(quantity: Measure, role: Any = "capacity") -> made.Value:
        return made.Value(
            given=quantity.given,
            quantity=quantity.kind,
            si=quantity.si,
            role=role,
            origin="plate",
            source=source,
        )

    empty_share = labels.empty_coupling_share
    return made.Plate(
        gvwr=value(labels.gvwr),
        gawr=tuple(value(axle) for axle in labels.gawr),
        empty_mass=value(labels.empty_mass, "fact"),
        coupling_share_least=value(labels.coupling_share[0], "fact"),
        coupling_share_most=value(labels.coupling_share[1]),
        empty_coupling_share=value(empty_share, "fact") if empty_share is not None else None,
    )


def geometry(frame: Frame, fitted: Mapping[str, str]) -> made.Geometry:
    """Return a type's geometry table in meters, without the members of what is not fitted; `fitted` by slot."""
    filled = frozenset(
        name for slot, part in fitted.items() for name in (slot, f"{slot}={part.partition('/')[0]}")
    )
    members = [member for member in frame.members if member.slot is None or member.slot in filled]
    drawn = frozenset(member.id for member in members)
    return made.Geometry(
        coupling_height_m=frame.coupling_height.si,
        overall_length_m=frame.overall_length.si,
        overall_width_m=frame.overall_width.si,
        front_x_m=frame.front_x.si,
        axles=made.Axles(
            x_m=tuple(x.si for x in frame.axles.x),
            track_m=frame.axles.track.si,
            dual_spacing_m=frame.axles.dual_spacing.si if frame.axles.dual_spacing is not None else None,
            suspension=frame.axles.suspension,
            braked=frame.axles.braked,
        ),
        decks=decks.decks_of(frame.decks, filled),
        members=tuple(
            made.Member(
                id=member.id,
                side=outline(member.side) if member.side else (),
                plan=outline(member.plan) if member.plan else (),
                mirror=member.mirror,
                line=member.line,
                fill=member.fill,
                least_detail=member.least_detail,
                layer=member.layer,
                slot=(member.slot or "").partition("=")[0],
            )
            for member in members
        ),
        hinges=tuple(
            made.Hinge(
                id=hinge.id,
                name=dict(hinge.name),
                x_m=hinge.x.si,
                z_m=hinge.z.si,
                members=tuple(member for member in hinge.members if member in drawn),
                lowered_rad=hinge.lowered.si,
                cylinders=next((_eyes(eyes) for eyes in hinge.eyes if _is_for(eyes, filled)), None),
                prop=_prop(hinge.prop) if hinge.prop is not None and hinge.prop.slot in filled else None,
            )
            for hinge in frame.hinges
            if drawn.intersection(hinge.members)
        ),
        ways=decks.ways_of(frame.ways, filled),
        frame_stiffness_Nm2=decks.frame_stiffness_Nm2(frame.rails) if frame.rails is not None else None,
        axle_stiffness_Npm=frame.axles.stiffness.si if frame.axles.stiffness is not None else None,
    )


def _is_for(eyes: CylinderEyes, filled: Collection[str]) -> bool:
    return (eyes.slot if eyes.card is None else f"{eyes.slot}={eyes.card}") in filled


def _eyes(eyes: CylinderEyes) -> made.CylinderEyes:
    arms = eyes.arms
    return made.CylinderEyes(
        slot=eyes.slot,
        frame_m=(eyes.frame_x.si, eyes.frame_z.si),
        body_m=(eyes.body_x.si, eyes.body_z.si),
        arms_m=(arms.lower.si, arms.upper.si, arms.rod.si) if arms is not None else None,
    )


def _prop(prop: PropEnds) -> made.PropEnds:
    return made.PropEnds(
        slot=prop.slot,
        frame_m=(prop.frame_x.si, prop.frame_z.si),
        body_m=(prop.body_x.si, prop.body_z.si),
    )


def _weighing(ticket: Ticket) -> made.Weighing:
    def value(quantity: Measure) -> made.Value:
        return made.Value(
            given=quantity.given, quantity=quantity.kind, si=quantity.si, origin="weighed", source="ticket"
        )

    return made.Weighing(
        on=ticket.on.isoformat(),
        what=ticket.what,
        coupled=ticket.coupled,
        state=ticket.state,
        mass=value(ticket.mass),
        error=value(ticket.error) if ticket.error is not None else None,
        scale=str(ticket.scale) if ticket.scale is not None else None,
    )
