"""`sendoff catalogue`: start one, judge it, count it, give editors its schemas."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from sendoff.errors import FaultyInput

commands = typer.Typer(
    name="catalogue",
    help="Start a yard's catalogue, judge it, count it.",
    no_args_is_help=True,
    rich_markup_mode=None,
)
Folder = Annotated[
    Path | None,
    typer.Argument(metavar="[DIR]", help="Catalogue folder; else --catalogue or SENDOFF_CATALOGUE."),
]
Option = Annotated[
    Path | None, typer.Option("--catalogue", metavar="DIR", help="The yard's catalogue folder.")
]


def register(app: typer.Typer) -> None:
    """Give the commands to the one command line."""
    app.add_typer(commands)


@commands.command("new")
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

    found = find_folder(folder or catalogue)
    loaded = load(found)
    faults = lint_everything(loaded)
    if faults:
        raise FaultyInput(faults)
    variants = sum(len(card.variants) for card in loaded.cards.values())
    typer.echo(
        f"{found}: no faults in {len(loaded.types)} types, {len(loaded.cards)} kinds of part, {variants} variants"
    )


@commands.command("count")
def count(folder: Folder = None, catalogue: Option = None) -> None:
    """Count legal combinations of options, slots, kinds and texts."""
    from sendoff.asbuilt.fit import combinations
    from sendoff.catalogue.load import find_folder, load
    from sendoff.catalogue.references import candidates
    from sendoff.catalogue.walk_texts import texts_of

    loaded = load(find_folder(folder or catalogue))
    for name, trailer in sorted(loaded.types.items()):
        choices = sum(len(candidates(trailer, slot)) >= 3 for slot in trailer.slots)
        legal = sum(1 for _ in combinations(trailer))
        slots = f"{len(trailer.slots)} slots ({choices} with three or more choices)"
        typer.echo(f"{name}: {slots}, {len(trailer.options)} options, {legal:,} legal combinations")
    texts = sum(1 for card in loaded.cards.values() for _ in texts_of(card))
    variants = sum(len(card.variants) for card in loaded.cards.values())
    languages = len(next(iter(loaded.cards.values())).name)
    typer.echo(f"{len(loaded.cards)} kinds, {variants} variants, {texts:,} texts in {languages} languages")


@commands.command("schemas")
def schemas(folder: Annotated[Path, typer.Argument(metavar="DIR", help="Where to write them.")]) -> None:
    """Write the JSON Schemas of all files for an editor."""
    from sendoff.asbuilt.schemas import write_schemas

    for path in write_schemas(folder):
        typer.echo(f"wrote {path}")
