"""`sendoff yard`: make a yard's books, serve them, judge them, keep and restore them."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import typer

commands = typer.Typer(
    name="yard",
    help="The yard's books: make them, serve them, judge them, keep them.",
    no_args_is_help=True,
    rich_markup_mode=None,
)
Folder = Annotated[Path, typer.Argument(metavar="DIR", help="The yard's folder.")]


def register(app: typer.Typer) -> None:
    """Give the commands to the one command line."""
    app.add_typer(commands)


@commands.command("init", short_help="Make a yard: settings, secret, starter catalogue, first person.")
def init(
    folder: Folder,
    name: Annotated[
        str, typer.Option("--name", help="Who is let in first, to let in the others.")
    ] = "The office",
    login: Annotated[str, typer.Option("--login", help="The name that person signs in with.")] = "office",
) -> None:
    """Make a yard in a folder; an existing catalogue is kept."""
    from sendoff.web import yards

    yards.init(folder, name, login, typer.echo)


@commands.command("serve", short_help="Serve the yard's pages.")
def serve(folder: Folder) -> None:
    """Serve the yard's pages until stopped."""
    from sendoff.web import yards

    yards.serve(folder, typer.echo)


@commands.command("add", short_help="Take units in by their build sheets.")
def add(
    folder: Folder,
    sheets: Annotated[list[Path], typer.Argument(metavar="SHEET...", help="Build sheets (TOML files).")],
    site: Annotated[str | None, typer.Option("--site", help="Which site; else the first.")] = None,
) -> None:
    """Take units in by their build sheets; each is accepted, or refused with its reason."""
    from sendoff.web import yards

    raise typer.Exit(yards.add(folder, sheets, site, typer.echo))


@commands.command("audit", short_help="Say whether the books hold; name the first broken link.")
def audit(
    folder: Folder,
    language: Annotated[Literal["en", "es"], typer.Option("--language", help="In which language.")] = "en",
) -> None:
    """Walk every chain link by link, and hold every row against its link.

    Exit code 0: everything holds; 1: something does not.
    """
    from sendoff.web import yards

    raise typer.Exit(yards.audit(folder, language, typer.echo))


@commands.command("backup", short_help="Write the whole yard into one file.")
def backup(
    folder: Folder,
    out: Annotated[Path, typer.Argument(metavar="FILE", help="Such as yard-2026-11-25.tar.gz.")],
) -> None:
    """Write books, media, catalogue and settings into one file, while the yard is served."""
    from sendoff.web import yards

    yards.backup(folder, out, typer.echo)


@commands.command("restore", short_help="Set up a yard from a backup.")
def restore(
    archive: Annotated[Path, typer.Argument(metavar="FILE", help="A backup.")], folder: Folder
) -> None:
    """Set up a yard in an empty folder from a backup."""
    from sendoff.web import yards

    yards.restore(archive, folder, typer.echo)


@commands.command("demo", short_help="Make the demo yard with its units part-way.")
def demo(
    folder: Folder,
    example: Annotated[
        Path, typer.Argument(metavar="EXAMPLE", help="The example yard (examples/quillback).")
    ],
) -> None:
    """Make a yard from an example, with people, tools and units part-way; what it says is how to sign in."""
    from sendoff.web import demo as made

    made.make(folder, example, typer.echo)
