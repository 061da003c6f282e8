"""`sendoff new`, `findings` and `pack`: from a build sheet to everything made for that one unit."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import typer

from sendoff.cli.given import HERE, read_day

Sheets = Annotated[list[Path], typer.Argument(metavar="SHEET...", help="Build sheets (TOML files).")]
Catalogue = Annotated[
    Path | None,
    typer.Option(
        "--catalogue",
        metavar="DIR",
        help="The yard's catalogue folder; else SENDOFF_CATALOGUE, else beside the sheet.",
    ),
]
Day = Annotated[
    str | None,
    typer.Option("--date", metavar="YYYY-MM-DD", help="The day it is made for; today if left out."),
]


def register(app: typer.Typer) -> None:
    """Give the commands to the one command line."""
    app.command("new", short_help="Write a commented build sheet to fill in.")(new)
    app.command("findings", short_help="Check every limit that applies to a unit.")(findings)
    app.command("pack", short_help="Make all papers of a unit.")(pack)


def new(
    type_: Annotated[
        str, typer.Argument(metavar="TYPE", help="The trailer type, as the catalogue names it.")
    ],
    out: Annotated[
        Path | None,
        typer.Option("-o", "--out", metavar="FILE", help="Where to write it; the screen if left out."),
    ] = None,
    catalogue: Catalogue = None,
) -> None:
    """Write a commented build sheet for a type, with its public id, ready to fill in."""
    from sendoff.asbuilt.new_sheet import commented_sheet, write_new
    from sendoff.catalogue.load import find_folder, load

    text = commented_sheet(type_, load(find_folder(catalogue, out or HERE, HERE)))
    if out is None:
        typer.echo(text.encode(), nl=False)  # a build sheet is UTF-8, whatever the screen is
        return
    write_new(out, text)
    typer.echo(f"wrote {out}")


def findings(
    sheets: Sheets,
    catalogue: Catalogue = None,
    truck: Annotated[
        Path | None,
        typer.Option("--truck", metavar="FILE", help="The truck that tows it; else the one the sheet names."),
    ] = None,
    cargo: Annotated[
        Path | None,
        typer.Option("--cargo", metavar="FILE", help="What it carries; else what the sheet names."),
    ] = None,
    date: Day = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print them as JSON.")] = False,
    working: Annotated[bool, typer.Option("--working", help="Show how each was worked out.")] = False,
) -> None:
    """Check every limit that applies to a unit, and say all that is wrong at once.

    Exit code 0: none of the limits checked is passed; 1: one is passed; 3: none is passed, but a number is missing;
    2: faulty input.
    """
    from sendoff.cli.findings import tell_all

    raise typer.Exit(
        tell_all(sheets, catalogue, truck, read_day(date), cargo=cargo, as_json=as_json, working=working)
    )


def pack(
    sheets: Sheets,
    catalogue: Catalogue = None,
    out: Annotated[
        Path,
        typer.Option("-o", "--out", metavar="DIR", help="Folder for the packs, one folder a unit in it."),
    ] = Path("packs"),
    language: Annotated[
        Literal["en", "es"] | None, typer.Option("--language", help="Instead of the reader's own.")
    ] = None,
    units: Annotated[
        Literal["us", "metric"] | None, typer.Option("--units", help="Instead of the reader's own.")
    ] = None,
    date: Day = None,
    jobs: Annotated[
        int, typer.Option("-j", "--jobs", metavar="N", min=1, max=64, help="How many packs are made at once.")
    ] = 1,
) -> None:
    """Make the whole pack of each unit: booklet, check sheet, briefing page, calendar, drawings, unit.json."""
    from sendoff.cli.progress import Bar
    from sendoff.papers.packs import make_packs

    bar = Bar()

    def say(told: str) -> None:
        bar.clear()
        typer.echo(told)

    def refuse(told: str) -> None:
        bar.clear()
        typer.echo(told, err=True)

    day = read_day(date)
    try:
        code = make_packs(
            sheets, catalogue, out, language, units, day, jobs, say=say, refuse=refuse, progress=bar.show
        )
    finally:
        bar.clear()
    raise typer.Exit(code)
