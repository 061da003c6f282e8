"""Which part fills which slot, for a trailer type and a set of options.

The result never depends on the order in which the options are written: where two options fit one slot differently,
the one of higher rank holds, and equal ranks are refused.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from sendoff.catalogue.schema import TrailerType
from sendoff.errors import Fault


@dataclass(frozen=True, slots=True)
class Fit:
    """What fills a slot, and which options brought it (none: it is standard)."""

    reference: str
    options: tuple[str, ...] = ()


def faults_of_options(trailer: TrailerType, options: Collection[str], file: str = "") -> list[Fault]:
    """Return everything wrong with a set of options on this type."""
    faults: list[Fault] = []
    listed = list(options)
    twice = sorted({option for option in listed if listed.count(option) > 1})
    faults += [
        Fault(file, "options", option, "the option is named twice", "Name it once.") for option in twice
    ]
    chosen = set(listed)
    choice = f"Use some of: {', '.join(sorted(trailer.options))}."
    faults += [
        Fault(file, "options", option, f"type {trailer.id} has no such option", choice)
        for option in sorted(chosen - set(trailer.options))
    ]
    known = sorted(chosen & set(trailer.options))
    groups: dict[str, list[str]] = {}
    for option in known:
        rules = trailer.options[option]
        missing = [name for name in rules.requires if name not in chosen]
        if missing:
            faults.append(
                Fault(
                    file,
                    "options",
                    option,
                    f"it needs {', '.join(missing)} as well",
                    f"Add {', '.join(missing)}, or leave {option} out.",
                )
            )
        faults += [
            Fault(file, "options", option, f"it cannot go with {other}", "Leave one of them out.")
            for other in rules.excludes
            if other in chosen
        ]
        if rules.group:
            groups.setdefault(rules.group, []).append(option)
    for group, members in sorted(groups.items()):
        if len(members) > 1:
            faults.append(
                Fault(
                    file,
                    "options",
                    ", ".join(members),
                    f"only one option of group {group} can be built",
                    "Leave the others out.",
                )
            )
    faults += [
        Fault(
            file,
            "options",
            ", ".join(clash),
            f"they fit slot {slot} differently",
            "Leave one out, or rank them in the type.",
        )
        for slot, clash in _clashes(trailer, known)
    ]
    return faults


def _claims(trailer: TrailerType, options: Collection[str]) -> dict[str, list[tuple[int, str, str]]]:
    """Return per slot who wants what there: rank, reference ("" to leave it empty), option."""
    claims: dict[str, list[tuple[int, str, str]]] = {}
    for name in options:
        option = trailer.options[name]
        for slot, reference in option.fits.items():
            claims.setdefault(slot, []).append((option.rank, reference, name))
        for slot in option.empties:
            claims.setdefault(slot, []).append((option.rank, "", name))
    return claims


def _clashes(trailer: TrailerType, options: Collection[str]) -> Iterator[tuple[str, list[str]]]:
    for slot, wanted in _claims(trailer, options).items():
        highest = max(rank for rank, _, _ in wanted)
        best = [(reference, name) for rank, reference, name in wanted if rank == highest]
        if len({reference for reference, _ in best}) > 1:
            yield slot, sorted(name for _, name in best)


def is_legal(trailer: TrailerType, options: Collection[str]) -> bool:
    """Tell whether a set of options can be built."""
    return not faults_of_options(trailer, options)


def fit(trailer: TrailerType, options: Collection[str]) -> dict[str, Fit]:
    """Return what fills each slot that is filled, in the order of the type's slots; the options must be legal."""
    claims = _claims(trailer, sorted(options))
    fitted: dict[str, Fit] = {}
    for name, slot in trailer.slots.items():
        wanted = claims.get(name)
        if wanted:
            highest = max(rank for rank, _, _ in wanted)
            reference = next(reference for rank, reference, _ in wanted if rank == highest)
            if reference:
                by = (
                    ()
                    if reference == slot.standard
                    else tuple(option for _, given, option in wanted if given == reference)
                )
                fitted[name] = Fit(reference, by)
        elif slot.standard:
            fitted[name] = Fit(slot.standard)
    return fitted


def combinations(trailer: TrailerType) -> Iterator[frozenset[str]]:
    """Yield every legal set of options of a type, always in the same order.

    Grown option by option; a set is dropped as soon as a group or an exclusion forbids it. What an option requires,
    and whether two claims on one slot settle by rank, can only be told of the whole set.
    """
    names = sorted(trailer.options)
    options = trailer.options
    apart = {
        name: {other for other in names if other != name and _never_together(trailer, name, other)}
        for name in names
    }
    required = {name: frozenset(options[name].requires) for name in names}
    contested = [
        claims
        for claims in _claims(trailer, names).values()
        if len({reference for _, reference, _ in claims}) > 1
    ]

    def settled(whole: frozenset[str]) -> bool:
        for claims in contested:
            wanted = [(rank, reference) for rank, reference, name in claims if name in whole]
            highest = max(wanted, default=(0, ""))[0]
            if len({reference for rank, reference in wanted if rank == highest}) > 1:
                return False
        return True

    def grow(position: int, chosen: tuple[str, ...]) -> Iterator[frozenset[str]]:
        if position == len(names):
            whole = frozenset(chosen)
            if all(required[name] <= whole for name in chosen) and settled(whole):
                yield whole
            return
        yield from grow(position + 1, chosen)
        name = names[position]
        if not apart[name].intersection(chosen):
            yield from grow(position + 1, (*chosen, name))

    yield from grow(0, ())


def _never_together(trailer: TrailerType, one: str, other: str) -> bool:
    first, second = trailer.options[one], trailer.options[other]
    return (
        other in first.excludes
        or one in second.excludes
        or (first.group is not None and first.group == second.group)
    )
