"""What a placed cargo asks of every limit, as findings: loads of pin, axles, tires, truck, zones, and the way on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from sendoff.calc.deck_plan import Evaluation, LoadingStep, Problem, Share, unchecked
from sendoff.calc.statics.suspension import torsion_axle_loads
from sendoff.calc.statics.trailer import add_item, center_of_mass, trailer_loads
from sendoff.calc.statics.truck import truck_axle_shift
from sendoff.findings import floor_limits, tie_limits
from sendoff.findings.all_limits import CARGO_NOT_CHECKED, TRUCK_NOT_CHECKED
from sendoff.findings.deck.case import DeckCase
from sendoff.findings.deck.gear import SOURCE_OF_LAW
from sendoff.findings.model import Amount, Finding, Limit, Note, sorted_by_limit, unknown
from sendoff.findings.sources_of import all_references_of
from sendoff.findings.unit_limits import NOT_CHECKED
from sendoff.findings.way_on import LEAST_BEHIND_m, entry_of, legs_kg, lifts_at_kg
from sendoff.phrases import say

GROUPS: Final = {
    "axle": "axle", "tires": "tire", "pin_weight": "ball", "coupling": "ball", "tow": "ball",
    "truck_front": "truck_axle", "truck_rear": "truck_axle",
}  # fmt: skip
"""Tight share that applies to a limit of the planner, by the beginning of its name."""
BENDS_kg: Final = 1.0
"""Loads that a bending frame changes by less are not said to be of one."""
SHARES: Final = frozenset({"pin_share_least", "pin_share_most"})
MEASURES: Final = {
    "width_m": "item_width",
    "height_m": "item_height",
    "track_inner_m": "item_track",
    "track_outer_m": "item_track",
    "clearance_m": "item_clearance",
    "approach_rad": "item_overhangs",
    "departure_rad": "item_overhangs",
    "strap_reach_m": "item_straps",
}
"""What to measure (phrases `missing.…`) where a measure of an item is not known."""


def deck_findings(
    case: DeckCase, problem: Problem, looked_at: Evaluation, loading: Sequence[LoadingStep], language: str
) -> tuple[Finding, ...]:
    """Return every limit of an arrangement as a finding, what limits first in front."""
    found = [
        *_loads(case, problem, looked_at, language),
        *_rules(case, looked_at, language),
        *_missing(case, problem),
        *_ways_on(case, problem, loading),
        *_of_items(case, problem),
    ]
    return sorted_by_limit(found)


def _loads(case: DeckCase, problem: Problem, looked_at: Evaluation, language: str) -> Iterator[Finding]:
    """Every share of every limit, the worse of a rigid frame and one that bends; of the law's groups the tightest."""
    rigid = {share.name: share.load_kg for share in looked_at.shares}
    bent = {
        share.name: share
        for share in looked_at.shares_flexible
        if abs(share.load_kg - rigid.get(share.name, 0.0)) > BENDS_kg
    }
    shares = {share.name: min(share, bent.get(share.name, share), key=_left) for share in looked_at.shares}
    by_law = [share for share in shares.values() if share.name.startswith("law:")]
    tightest = min(by_law, key=lambda share: share.margin, default=None)
    if SHARES & set(shares):
        yield _window(case, problem, shares, looked_at)
    alike = {"axle": _alike(shares, "axle_"), "tires": _alike(shares, "tires_")}
    for share in shares.values():
        kind, _, number = share.name.partition("_")
        if alike.get(kind) and number != "1":
            continue
        is_law = share.name.startswith("law:")
        if share.name not in SHARES and (not is_law or share is tightest or share.left_kg < 0):
            found = _load(case, problem, share, language, bends=share.name in bent)
            yield replace(found, about=f"{found.about}_each") if alike.get(kind) else found


def _alike(shares: dict[str, Share], begin: str) -> bool:
    """Return whether all axles (or their tires) bear and may bear the same, so that they are said once."""
    rows = [share for name, share in shares.items() if name.startswith(begin)]
    return bool(rows) and all(
        abs(share.load_kg - rows[0].load_kg) < 1e-6 and share.limit_kg == rows[0].limit_kg for share in rows
    )


def _left(share: Share) -> float:
    return share.left_kg


def _window(case: DeckCase, problem: Problem, shares: dict[str, Share], looked_at: Evaluation) -> Finding:
    trailer = problem.trailer
    gross = trailer.empty_mass_kg + looked_at.payload_kg
    pins = [shares[name] for name in SHARES if name in shares]
    worst = min(pins, key=_left)
    error = case.gear.empty.error_kg / gross
    return Finding(
        "deck.pin_share",
        "deck_pin_share",
        "ratio",
        Limit(most=trailer.pin_share_most_ratio, least=trailer.pin_share_least_ratio),
        worst.load_kg / gross,
        uncertainty=error * abs(worst.load_kg) / gross,
        limit_origin="plate",
        sources=all_references_of(center_of_mass, trailer_loads),
    )


def _load(case: DeckCase, problem: Problem, share: Share, language: str, *, bends: bool) -> Finding:
    name, _, of = share.name.partition(":")
    kind = name.rstrip("0123456789").rstrip("_")
    words = {}
    if kind in {"axle", "tires"}:
        words = {"n": name.rpartition("_")[2]}
    elif name in {"zone_total", "zone_wheel"}:
        words = {"zone": zone_name(case, of, language)}
    elif name == "law":
        words = {"axles": axles_of(of, language)}
    by = case.gear.by.get(share.name)
    notes = [Note("deck_by", phrases={"by": f"ends_by.{by}"})] if by is not None else []
    if bends and kind == "axle":
        notes.append(Note("deck_bends"))
    elif case.gear.stiffened and kind in {"axle", "tires"}:
        notes.append(Note("deck_stiffened"))
    if share.name == "gross" and case.gear.empty.error_kg > 0:
        notes.append(Note("deck_gross_error", {"error": Amount("mass", case.gear.empty.error_kg, "demand")}))
    limit = Limit(least=share.limit_kg) if share.least else Limit(most=share.limit_kg)
    return Finding(
        f"deck.{share.name}",
        f"deck_{kind}",
        "mass",
        limit,
        share.load_kg,
        GROUPS.get(kind, ""),
        demand_origin="sheet",
        words=words,
        sources=_sources(problem, kind),
        notes=tuple(notes),
    )


def _sources(problem: Problem, kind: str) -> tuple[str, ...]:
    if kind == "law":
        return (SOURCE_OF_LAW,)
    if kind.startswith("zone"):
        return ()
    if kind.startswith("truck") and kind != "truck_gross":
        return all_references_of(trailer_loads, truck_axle_shift)
    if kind in {"axle", "tires"} and problem.trailer.suspension == "torsion":
        return all_references_of(center_of_mass, torsion_axle_loads)
    return all_references_of(center_of_mass, trailer_loads)


def zone_name(case: DeckCase, zone_id: str, language: str) -> str:
    """Return what people call a deck, by its id; a surface of several decks by the first of them."""
    decks = [*case.unit.geometry.decks, *(deck for way in case.unit.geometry.ways for deck in way.decks)]
    name = next((deck.name for deck in decks if deck.id == zone_id.partition("+")[0]), {})
    return name.get(language) or say("deck.the_deck", language)


def strip_name(case: DeckCase, strip_id: str, language: str) -> str:
    """Return what people call a strip where no wheel may stand."""
    decks = [*case.unit.geometry.decks, *(deck for way in case.unit.geometry.ways for deck in way.decks)]
    return next(
        (s.name.get(language, s.id) for deck in decks for s in deck.strips if s.id == strip_id), strip_id
    )


def axles_of(group: str, language: str) -> str:
    """Return the axles of a group of the law in words: truck front, truck rear, 1, 2."""
    names = group.split("+")
    return ", ".join(
        say(f"deck.{name}", language)
        if name.startswith("truck")
        else say("deck.trailer_axle", language, n=name.rpartition("_")[2])
        for name in names
    )


def _rules(case: DeckCase, looked_at: Evaluation, language: str) -> Iterator[Finding]:
    """Rules that an arrangement breaks: each once for each item."""
    seen = set()
    for broken in looked_at.broken:
        name, _, of = broken.name.partition(":")
        key = f"deck.rule.{broken.name}.{broken.item}"
        if key in seen:
            continue
        seen.add(key)
        words = {
            "item": case.item_name(broken.item),
            "of": rule_of(case, name, of, language),
            "other": case.item_name(broken.other) if name in {"overlap", "drop_order"} else "",
        }
        yield Finding(key, f"deck_rule_{name}", "text", Limit(), None, holds=False, words=words)


def rule_of(case: DeckCase, name: str, of: str, language: str) -> str:
    """Return what a rule is about: an item, a strip, or a deck."""
    if name == "facing":
        return case.item_name(of) if of else ""
    return strip_name(case, of, language) if name == "strip" else zone_name(case, of, language)


def _missing(case: DeckCase, problem: Problem) -> Iterator[Finding]:
    """One finding for each item of which a measure is not known that some limit needs."""
    wanted: dict[str, list[str]] = {}
    lifted = {item.name for item in problem.items if item.moved_by == "lifted"}
    for told in unchecked(problem):
        item, _, measure = told.partition(": ")
        if measure in MEASURES and not (item in lifted and measure == "strap_reach_m"):
            wanted.setdefault(item, []).append(MEASURES[measure])
    for item, missing in wanted.items():
        words = {"item": case.item_name(item)}
        yield unknown(
            f"deck.measures.{item}", "deck_measures", "length", *dict.fromkeys(missing), words=words
        )
    if case.gear.truck_unweighed:
        yield unknown("deck.truck", "deck_truck", "mass", "truck_weighed")


def _ways_on(case: DeckCase, problem: Problem, loading: Sequence[LoadingStep]) -> Iterator[Finding]:
    """What each item that comes on over the rear does to the coupling, with what stands on the deck by then."""
    entry, trailer = entry_of(case.unit), problem.trailer
    axles = case.gear.limits.axles_x_m
    if entry.x_m - axles <= LEAST_BEHIND_m or legs_kg(case.unit, entry) is not None:
        return  # legs under the rear end keep the coupling down
    items = {item.name: item for item in problem.items}
    coupling = trailer.empty_mass_kg * (1 - trailer.empty_center_m / axles)
    for step in loading:
        item = items[step.item]
        most = lifts_at_kg(coupling, axles, entry.x_m)
        if step.how != "lifted" and most is not None:
            left = coupling + item.mass_kg * (1 - entry.x_m / axles)
            note = (
                Note("coupling_left", {"left": Amount("mass", left)})
                if left >= 0
                else Note("coupling_lifts", {"lift": Amount("mass", -left)})
            )
            yield Finding(
                f"deck.way_on.{item.name}",
                "deck_way_on",
                "mass",
                Limit(most=most),
                item.mass_kg,
                demand_origin="sheet",
                words={"item": case.item_name(item.name)},
                sources=all_references_of(add_item),
                notes=(note,),
            )
        offsets = zip(item.contacts, item.offsets_m(step.facing), strict=True)
        center = sum(contact.share_ratio * (step.front_m + offset) for contact, offset in offsets)
        coupling += item.mass_kg * (1 - center / axles)


def _of_items(case: DeckCase, problem: Problem) -> Iterator[Finding]:
    """What does not depend on where an item stands: heaviest wheel, area, tie-downs; only of what rides."""
    import msgspec

    riding = {item.name for item in problem.items}
    items = tuple(item for item in case.cargo.items if item.id in riding)
    cargo = msgspec.structs.replace(case.cargo, items=items)
    skipped = {"cargo.width"} | ({"cargo.wheel_load"} if not _told_wheels(items) else set())
    for finding in (*floor_limits.findings_of(case.unit, cargo), *tie_limits.findings_of(case.unit, cargo)):
        if finding.id not in skipped:
            yield finding


def _told_wheels(items: Sequence[object]) -> bool:
    return any(getattr(item, "heaviest_wheel", None) is not None for item in items)


def deck_not_checked(case: DeckCase) -> tuple[str, ...]:
    """Return what no finding of a deck plan speaks of (phrases `not_checked.…`)."""
    names = ["deck_abreast", "deck_way_round"]
    names += TRUCK_NOT_CHECKED if case.truck is not None else ["truck"]
    names += ["deck_law"] if case.law == "none" or not case.gear.groups else []
    names += CARGO_NOT_CHECKED
    return tuple(
        dict.fromkeys([*names, *(one for one in NOT_CHECKED if one not in {"truck", "load", "tie_down"})])
    )
