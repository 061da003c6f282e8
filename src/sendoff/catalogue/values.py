"""Values of part cards: each one declared, given by every variant unless optional, with its unit and a source."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from sendoff import sources, units
from sendoff.catalogue import sensible
from sendoff.catalogue.fields import CURE_MARK, LANGUAGES, Text, plain_text
from sendoff.catalogue.schema import Card, Check, Every, Variant
from sendoff.display import Role
from sendoff.errors import Fault, shown

INVENTED = "invented:"


def faults(cards: Mapping[str, Card], files: Mapping[str, str]) -> list[Fault]:
    """Return every faulty value of every card."""
    return [fault for name, card in sorted(cards.items()) for fault in _of_card(card, files[f"card:{name}"])]


def _of_card(card: Card, file: str) -> Iterator[Fault]:
    yield from _sources(card.sources, "sources", file)
    for name, variant in card.variants.items():
        yield from _of_variant(card, name, variant, file)
    for measure, value in (card.shape.measures if card.shape else {}).items():
        if value not in card.sure_values:
            yield Fault(
                file,
                f"shape.measures.{measure}",
                value,
                "the card has no such value",
                f"Use one of: {', '.join(card.sure_values)}.",
            )
    for check in card.checks:
        yield from _of_check(card, check, file)
    for number, caution in enumerate(card.cautions, start=1):
        for language in LANGUAGES:
            if language not in caution.say:
                cure = f"Add say.{language}.hazard, say.{language}.consequence and say.{language}.avoid."
                problem = f"the caution in '{language}' is missing"
                yield Fault(file, f"caution[{number}].say", "", problem, cure)
    for upkeep in card.upkeep:
        if not upkeep.at_miles and (upkeep.every is None or upkeep.every == Every()):
            cure = "Give it every = { months = … } (loads, trips, miles, hours, months), or at_miles = […]."
            yield Fault(file, f"upkeep.{upkeep.id}", "", "it never falls due", cure)
    for question in card.show_me:
        yield from _of_question(card, question.id, question.ask, question.order, file)


def _sources(names: tuple[str, ...], key: str, file: str) -> Iterator[Fault]:
    for name in names:
        if not name.startswith(INVENTED) and name not in sources.load():
            cure = f'Use a key of sources.toml, or "{INVENTED}yard" for a number of the demo yard.'
            yield Fault(file, key, name, "no such source is known", cure)


def _of_variant(card: Card, name: str, variant: Variant, file: str) -> Iterator[Fault]:
    key = f"variants.{name}.values"
    for missing in sorted(set(card.sure_values) - set(variant.values)):
        yield Fault(
            file, f"{key}.{missing}", "", "this variant does not give the value", f"Add a line {missing} = …"
        )
    for extra in sorted(set(variant.sources) - set(variant.values)):
        yield Fault(
            file,
            f"variants.{name}.sources.{extra}",
            "",
            "a source for a value that is not given",
            "Delete the line.",
        )
    yield from _sources(tuple(variant.sources.values()), f"variants.{name}.sources", file)
    for value_name, raw in variant.values.items():
        meaning = card.values.get(value_name)
        if meaning is None:
            yield Fault(
                file,
                f"{key}.{value_name}",
                "",
                "the value is not declared",
                f"Add [values.{value_name}] with its quantity and names.",
            )
        elif meaning.quantity == "text":
            yield from _words(raw, f"{key}.{value_name}", file)
        elif meaning.quantity == "count":
            if not isinstance(raw, int) or isinstance(raw, bool):
                yield Fault(
                    file,
                    f"{key}.{value_name}",
                    shown(raw),
                    "a whole count is expected",
                    "Write a whole number without quotation marks.",
                )
            elif absurd := sensible.problem_of_value("count", raw, meaning.role):
                yield Fault(file, f"{key}.{value_name}", shown(raw), absurd, sensible.CURE)
        elif not isinstance(raw, str):
            yield Fault(
                file,
                f"{key}.{value_name}",
                shown(raw),
                "a value needs its unit",
                'Write it as text, such as "110 psi".',
            )
        else:
            yield from _measure(raw, meaning.quantity, f"{key}.{value_name}", file, meaning.role)


def _words(raw: object, key: str, file: str) -> Iterator[Fault]:
    """A text value is one name for all languages ("ISO VG 46") or words in each of them."""
    try:
        Text.read(raw) if isinstance(raw, dict) else plain_text(raw)
    except ValueError as error:
        problem, _, cure = str(error).partition(CURE_MARK)
        yield Fault(file, key, shown(raw), problem, cure)


def _measure(raw: str, kind: str, key: str, file: str, role: Role = "demand") -> Iterator[Fault]:
    try:
        si = units.parse(raw, kind).si
    except units.UnitError as error:
        yield Fault(file, key, shown(raw), error.problem, error.cure)
        return
    if absurd := sensible.problem_of_value(kind, si, role):
        yield Fault(file, key, shown(raw), absurd, sensible.CURE)


def _of_check(card: Card, check: Check, file: str) -> Iterator[Fault]:
    key = f"check.{check.id}"
    if check.how == "measured" and check.quantity is None:
        yield Fault(
            file, key, "", "a measured check needs its quantity", 'Add a line such as quantity = "pressure".'
        )
    if check.how != "measured" and (check.quantity or check.target or check.minus or check.plus):
        yield Fault(
            file,
            key,
            "",
            "only a measured check has quantity, target and tolerance",
            'Set how = "measured", or delete them.',
        )
    if check.target and "." not in check.target:
        meaning = card.sure_values.get(check.target)
        if meaning is None:
            yield Fault(
                file,
                f"{key}.target",
                check.target,
                "the card has no such value",
                f"Use one of: {', '.join(card.sure_values)}.",
            )
        elif check.quantity and meaning.quantity != check.quantity:
            yield Fault(
                file,
                f"{key}.quantity",
                check.quantity,
                f"its target is a {meaning.quantity}",
                f'Write quantity = "{meaning.quantity}".',
            )
    for name in ("minus", "plus"):
        tolerance = getattr(check, name)
        if tolerance is not None and check.quantity:
            kind = "temperature_change" if check.quantity == "temperature" else check.quantity
            yield from _measure(tolerance, kind, f"{key}.{name}", file)


def _of_question(
    card: Card, name: str, ask: str | None, order: tuple[str, ...], file: str
) -> Iterator[Fault]:
    key = f"show_me.{name}"
    if (ask is None) == (not order):
        yield Fault(
            file,
            key,
            "",
            "a question asks for a value or for an order of steps",
            "Give ask = … or order = […], one of them.",
        )
    if ask is not None and ask not in card.sure_values:
        told = ", ".join(card.sure_values)
        yield Fault(file, f"{key}.ask", ask, "the card has no such value", f"Use one of: {told}.")
    steps = {step.id for step in card.steps}
    for step in order:
        if step not in steps:
            yield Fault(
                file,
                f"{key}.order",
                step,
                "the card has no such step",
                f"Use some of: {', '.join(sorted(steps))}.",
            )
    if order and len(order) < 3:
        yield Fault(
            file,
            f"{key}.order",
            str(len(order)),
            "an order needs at least three steps",
            "Name three or more.",
        )
