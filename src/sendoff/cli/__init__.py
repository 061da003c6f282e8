"""The command line. Every command says what it made; bad input gets one clear message and exit code 2."""

from __future__ import annotations

import sys
from typing import Annotated

import typer

from sendoff import __version__
from sendoff.cli import calc, catalogue, sheets
from sendoff.errors import SendoffError

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


sheets.register(app)
catalogue.register(app)
calc.register(app)

FAULTY, STOPPED = 2, 130


def main() -> None:
    """Run the command line; what Sendoff refuses is said in plain words and ends with exit code 2."""
    try:
        app()
    except SendoffError as refused:
        typer.echo(str(refused), err=True)
        sys.exit(FAULTY)
    except KeyboardInterrupt:
        typer.echo("Stopped. Nothing half-made is left.", err=True)
        sys.exit(STOPPED)
    except BrokenPipeError:  # the reader of our output went away, as `| head` does
        sys.stderr.close()
        sys.exit(0)
