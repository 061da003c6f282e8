"""`sendoff catalogue`: start one, judge it, count it, give editors its schemas."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Annotated, NoReturn

import typer

from sendoff.cli.given import HERE, read_day
from sendoff.errors import Fault, FaultyInput

commands = typer.Typer(
    name="catalogue",
    help="Start a yard's catalogue, judge it, count it.",
    no_args_is_help=True,
    rich_markup_mode=None,
)
Folder = Annotated[
    Path | None,
    typer.Argument(metavar="[DIR]", help="Catalogue folder; else --catalogue, SENDOFF_CATALOGUE or here."),
]
Option = Annotated[
    Path | None, typer.Option("--catalogue", metavar="DIR", help="The yard's catalogue folder.")
]


def counted(number: int, what: str) -> str:
    """Return a count with its word.

    >>> counted(1, "type"), counted(2, "type")
    ('1 type', '2 types')
    """
    return f"{number:,} {what}" + ("" if number == 1 else "s")


def register(app: typer.Typer) -> None:
    """Give the commands to the one command line."""
    app.add_typer(commands)


@commands.command("new", short_help="Write a small commented catalogue to start from.")
def new(
    folder: Annotated[
        Path, typer.Argument(metavar="DIR", help="Where to write it; must not exist yet or be empty.")
    ],
) -> None:
    """Write a small commented catalogue to start from."""
    from sendoff.catalogue.starter import write_starter

    for name in write_starter(folder):
        typer.echo(f"wrote {folder / name}")


@commands.command("lint")
def lint(folder: Folder = None, catalogue: Option = None) -> None:
    """List every fault of a catalogue: file, key, value and cure."""
    from sendoff.briefing.lint import lint_everything
    from sendoff.catalogue.load import find_folder, load

    found = find_folder(folder or catalogue, HERE)
    try:
        loaded = load(found)
    except FaultyInput as refused:
        _refuse(refused.faults, found, " Texts, orders and geometry are judged once they are mended.")
    faults = lint_everything(loaded)
    if faults:
        _refuse(faults, found)
    variants = sum(len(card.variants) for card in loaded.cards.values())
    types, kinds = counted(len(loaded.types), "type"), counted(len(loaded.cards), "kind")
    typer.echo(f"{found}: no faults in {types}, {kinds} of part, {counted(variants, 'variant')}")


def _refuse(faults: Sequence[Fault], folder: Path, more: str = "") -> NoReturn:
    told = [*map(str, faults), f"{counted(len(faults), 'fault')} in {folder}.{more}"]
    typer.echo("\n".join(told), err=True)
    raise typer.Exit(2)


@commands.command("count")
def count(folder: Folder = None, catalogue: Option = None) -> None:
    """Count legal combinations of options, slots, kinds and texts."""
    from sendoff.asbuilt.fit import combinations
    from sendoff.catalogue.load import find_folder, load
    from sendoff.catalogue.references import candidates
    from sendoff.catalogue.walk_texts import texts_of

    loaded = load(find_folder(folder or catalogue, HERE))
    for name, trailer in sorted(loaded.types.items()):
        choices = sum(len(candidates(trailer, slot)) >= 3 for slot in trailer.slots)
        legal = sum(1 for _ in combinations(trailer))
        slots = f"{counted(len(trailer.slots), 'slot')} ({choices} with three or more choices)"
        options = counted(len(trailer.options), "option")
        typer.echo(f"{name}: {slots}, {options}, {counted(legal, 'legal combination')}")
    texts = sum(1 for card in loaded.cards.values() for _ in texts_of(card))
    variants = sum(len(card.variants) for card in loaded.cards.values())
    languages = len(next(iter(loaded.cards.values())).name) if loaded.cards else 0
    typer.echo(
        f"{counted(len(loaded.cards), 'kind')}, {counted(variants, 'variant')}, "
        f"{counted(texts, 'text')} in {counted(languages, 'language')}"
    )


@commands.command("diff", short_help="Say which units would read differently, and in what.")
def diff(
    old: Annotated[Path, typer.Argument(metavar="OLD", help="Catalogue folder as it was.")],
    new: Annotated[Path, typer.Argument(metavar="NEW", help="Catalogue folder as it is now.")],
    sheets: Annotated[
        list[Path] | None,
        typer.Argument(metavar="[SHEET...]", help="Build sheets; else those in sheets/ beside NEW."),
    ] = None,
    date: Annotated[
        str | None,
        typer.Option("--date", metavar="YYYY-MM-DD", help="The day it is asked for; today if left out."),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print it as JSON.")] = False,
    only_counts: Annotated[
        bool, typer.Option("--counts", help="Only how much differs, a line a unit.")
    ] = False,
) -> None:
    """Say which units would read differently with another catalogue: parts, values, walk, texts, findings, drawing.

    Exit code 0: none; 1: at least one; 2: a catalogue or a build sheet is refused.
    """
    from sendoff.cli.catalogue_diff import tell_differences

    code = tell_differences(old, new, sheets or [], read_day(date), as_json=as_json, only_counts=only_counts)
    raise typer.Exit(code)


@commands.command("schemas")
def schemas(folder: Annotated[Path, typer.Argument(metavar="DIR", help="Where to write them.")]) -> None:
    """Write the JSON Schemas of all files for an editor."""
    from sendoff.asbuilt.schemas import write_schemas

    for path in write_schemas(folder):
        typer.echo(f"wrote {path}")
