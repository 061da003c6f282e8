"""The command line. Every command says what it made; bad input gets one clear message and exit code 2."""

from __future__ import annotations

import contextlib
import sys
from typing import Annotated, NoReturn

import typer

from sendoff import __version__
from sendoff.cli import calc, catalogue, deck, sheets, streams, yard
from sendoff.errors import SendoffError, shown

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
deck.register(app)
catalogue.register(app)
calc.register(app)
yard.register(app)

FAULTY, STOPPED, ENDED = 2, 130, 143
NOTHING_LEFT = "Stopped. Nothing half-made is left."


def main() -> None:
    """Run the command line; what Sendoff refuses is said in plain words and ends with exit code 2."""
    streams.prepare()
    try:
        app()
    except SendoffError as refused:
        _end(str(refused), FAULTY)
    except OSError as error:  # a full disk under our output, a file that vanished while it was read
        where = shown(error.filename, 300) if error.filename else "The output"
        cure = "Check that it is there and may be used." if error.filename else "Send it where there is room."
        _end(f"{where}: {error.strerror or error}. {cure}", FAULTY)
    except KeyboardInterrupt:
        _end(NOTHING_LEFT, STOPPED)
    except SystemExit as end:
        if end.code in {STOPPED, ENDED}:
            _end(NOTHING_LEFT, int(end.code))
        raise


def _end(told: str, code: int) -> NoReturn:
    with contextlib.suppress(OSError):
        typer.echo(told, err=True)
    streams.nobody_reads()
    sys.exit(code)
