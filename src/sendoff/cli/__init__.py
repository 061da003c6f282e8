"""The command line. Every command says what it made; bad input gets one clear message and exit code 2."""

from __future__ import annotations

from typing import Annotated

import typer

from sendoff import __version__
from sendoff.cli import calc

app = typer.Typer(
    name="sendoff",
    help="From one build sheet, everything a trailer yard hands over.",
    add_completion=False,
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"sendoff {__version__}")
        raise typer.Exit


@app.callback()
def _top(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Say the version and end.")
    ] = False,
) -> None:
    """From one build sheet, everything a trailer yard hands over."""


calc.register(app)


def main() -> None:
    """Run the command line."""
    app()
