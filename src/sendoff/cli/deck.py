"""`sendoff deck`: where each of what is to ride stands on a unit, how much of every limit is left, and why not."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path
from typing import Annotated, Literal

import typer

from sendoff.cli import streams
from sendoff.errors import Fault, FaultyInput, SendoffError, of_sheet

SHORTEST_s, LONGEST_s = 0.01, 3600.0
WORTH_COMPILING_s = 20.0
"""With less time than this the search is not compiled first: that alone would take it."""
NOTHING_TO_DRAW = "No drawing was written: there is no arrangement to draw."
COMPILING = "compiling the search, once: some twenty seconds the first time, then kept on disk"


Sheet = Annotated[Path, typer.Argument(metavar="SHEET", help="Build sheet (TOML file).")]
CargoFile = Annotated[
    Path | None,
    typer.Option("--cargo", metavar="FILE", help="What is to ride; else what the sheet names."),
]
TruckFile = Annotated[
    Path | None,
    typer.Option("--truck", metavar="FILE", help="The truck that tows it; else the one the sheet names."),
]
Catalogue = Annotated[
    Path | None,
    typer.Option("--catalogue", metavar="DIR", help="The yard's catalogue folder; else beside the sheet."),
]
Budget = Annotated[
    str,
    typer.Option(
        "--budget",
        metavar="TIME",
        help="Longest the search may take, such as 2s or 1 min; from 20s on compiled where numba is.",
    ),
]
Heavier = Annotated[
    list[str] | None,
    typer.Option("--heavier", metavar="ITEM=MASS", help='What if: "pickup=400 lb", or "pickup=-200 lb".'),
]
Drops = Annotated[
    str | None,
    typer.Option("--drops", metavar="A,B,…", help="The order in which items come off, first off first."),
]
WayOfDecks = Annotated[
    str | None,
    typer.Option("--way", metavar="WAY", help="Only with the decks set up so, such as lift_up."),
]
Choose = Annotated[
    bool, typer.Option("--choose", help="Which of the items carry most together, of up to 40.")
]
Several = Annotated[bool, typer.Option("--trips", help="All of up to 40 items in several trips.")]
Placed = Annotated[
    list[str] | None,
    typer.Option(
        "--place",
        metavar="ITEM=AT[,backward][,DECK]",
        help="Judge an arrangement as given: how far each item's end toward the truck is from the deck's front.",
    ),
]
Height = Annotated[
    str | None,
    typer.Option("--height", metavar="LENGTH", help='How high a load may reach, such as "13 ft 6 in".'),
]
WhoseLaw = Annotated[
    Literal["us", "none"], typer.Option("--law", help="Whose axle and bridge law: us (federal) or none.")
]
Language = Annotated[
    Literal["en", "es"] | None, typer.Option("--language", help="Instead of the reader's own.")
]
Units = Annotated[
    Literal["us", "metric"] | None, typer.Option("--units", help="Instead of the reader's own.")
]
DrawingFile = Annotated[
    Path | None,
    typer.Option("--drawing", metavar="FILE", help="Write the plan, drawn to scale, as an SVG file."),
]
AsJson = Annotated[
    bool, typer.Option("--json", help="Print it as JSON, with what a phone needs to judge alone.")
]


def register(app: typer.Typer) -> None:
    """Give the command to the one command line."""
    app.command("deck", short_help="Plan where each vehicle or machine stands on a unit.")(deck)


def deck(
    sheet: Sheet,
    cargo: CargoFile = None,
    truck: TruckFile = None,
    catalogue: Catalogue = None,
    budget: Budget = "10s",
    heavier: Heavier = None,
    drops: Drops = None,
    way: WayOfDecks = None,
    choose: Choose = False,
    trips: Several = False,
    place: Placed = None,
    height: Height = None,
    law: WhoseLaw = "us",
    language: Language = None,
    units: Units = None,
    drawing: DrawingFile = None,
    as_json: AsJson = False,
) -> None:
    """Plan where each vehicle or machine stands, which way round, in which order, and how much of every limit is left.

    Exit code 0: none of the limits checked is passed; 1: nothing fits, or a limit is passed; 3: not decided in time, or
    a measure is missing; 2: faulty input. It approves nothing: it says which limits were checked.
    """
    from sendoff.cli.deck_asking import Wanted, tell

    seconds = read_budget(budget)
    wanted = Wanted(
        sheet, cargo, truck, catalogue, tuple(heavier or ()), drops, way, tuple(place or ()), height, law,
        language, units, choose=choose, trips=trips,
        code="auto" if seconds >= WORTH_COMPILING_s else "plain",
    )  # fmt: skip
    try:
        told = tell(wanted, clock(seconds), _compiling)
    except SendoffError as refused:
        raise of_sheet(refused, str(sheet)) from None
    if drawing is not None:
        drawn = told.draw(drawing)
        typer.echo(f"wrote {drawing}" if drawn else NOTHING_TO_DRAW, err=True)
    typer.echo(streams.as_json(told.data(), indent=1) if as_json else "\n".join(told.lines()))
    raise typer.Exit(told.exit_code)


def _compiling() -> None:
    typer.echo(COMPILING, err=True)


def read_budget(text: str) -> float:
    """Return a time in seconds.

    >>> read_budget("2s"), read_budget("1 min")
    (2.0, 60.0)
    """
    from sendoff import units

    try:
        seconds = units.parse(text, "duration").si
    except units.UnitError as error:
        raise FaultyInput(Fault("--budget", "", text, error.problem, "Write it as 2s or 1 min.")) from None
    if not SHORTEST_s <= seconds <= LONGEST_s:
        raise FaultyInput(Fault("--budget", "", text, "no such time can be given", "Give 0.01 s to 1 h."))
    return seconds


def clock(seconds: float) -> Callable[[], bool]:
    """Return a question whether there is time left; it begins to run when it is first asked."""
    end: list[float] = []

    def go_on() -> bool:
        if not end:
            end.append(time.monotonic() + seconds)
        return time.monotonic() < end[0]

    return go_on
