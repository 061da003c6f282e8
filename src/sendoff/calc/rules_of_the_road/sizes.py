"""Width, height, length and overhang: what is known here, and who must be asked for the rest."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc._limits import each_not_negative, exceeds, positive
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange
from sendoff.tables import Table

FAMILY: Final = "rules_of_the_road"

Measure = Literal[
    "width",
    "height",
    "length",
    "front_overhang",
    "rear_overhang",
    "width_excluded_side",
    "width_excluded_rear",
]
ASK: Final = "Not known here, ask locally."
METRIC_WIDTH_m: Final = 2.6
"""23 CFR 658.15(a): 102 in "or its approximate metric equivalent of 2.6 meters (102.36 inches)"; 102 in is stricter."""


@dataclass(frozen=True, slots=True)
class KnownSize:
    """One figure known here: whom it is for and what it means."""

    applies_to: str
    meaning: str
    limit_m: float


@dataclass(frozen=True, slots=True)
class SizeLimits:
    """What is known of a measure in a jurisdiction; unknown is not unlimited."""

    known: bool
    said: str
    figures: tuple[KnownSize, ...]


@dataclass(frozen=True, slots=True)
class WidthCheck:
    """Overall width as the rule measures it, against the limit of the road."""

    holds: bool
    counted_width_m: float
    limit_m: float
    margin_m: float
    gear_excluded: tuple[bool, ...]
    holds_metric: bool
    """Against the rule's approximate metric equivalent of 102 in, 2.6 m, which a State may not undercut either."""


@calculation(FAMILY, "rows of the table", tables={"table": "road_sizes"})
def size_limits(jurisdiction: str, measure: Measure, table: Table | None = None) -> SizeLimits:
    """What is known here of a width, height, length or overhang in a jurisdiction.

    A look-up in a table every yard extends. There is no federal height limit, and most lengths are the State's.

    Parameters
    ----------
    jurisdiction : str
        US for federal rules, or the two letters of a State.
    measure : str
        Which measure.
    table : Table, optional
        Figures; add those of the States you serve.

    Returns
    -------
    SizeLimits
        Whether anything is known, what to do, and each figure with whom it applies to [m].

    Raises
    ------
    OutOfRange
        If the jurisdiction is not two letters.

    Notes
    -----
    Figures marked state_may_not_be_below are floors under State limits for sets behind truck tractors on the national
    network; they are no right of a pickup and its trailer.

    Examples
    --------
    >>> size_limits("US", "height").said
    'Not known here, ask locally.'

    References
    ----------
    .. [1] 23cfr658, 658.13, 658.15, 658.16
    .. [2] usc49_31111
    """
    letters = jurisdiction.strip().upper()
    if len(letters) != 2 or not letters.isalpha():
        raise OutOfRange("jurisdiction", jurisdiction, "must be US or the two letters of a State")
    table = table or tables.load("road_sizes")
    rows = table.where(jurisdiction=letters, measure=measure)
    figures = tuple(KnownSize(row["applies_to"], row["meaning"], row["limit_m"]) for row in rows)
    if not figures:
        return SizeLimits(known=False, said=ASK, figures=())
    said = "Known figures; measure the loaded set and ask locally for what they do not cover."
    return SizeLimits(known=True, said=said, figures=figures)


@calculation(
    FAMILY,
    "counted = body + gear that carries load or sticks out more than 3 in a side ≤ 102 in",
    symbols={"body_width_m": "body", "gear_sticking_out_m": "gear"},
    tables={"table": "road_sizes"},
)
def width_check(
    body_width_m: float,
    gear_sticking_out_m: tuple[float, ...] = (),
    *,
    gear_carries_load: bool = False,
    jurisdiction: Literal["US", "HI"] = "US",
    table: Table | None = None,
) -> WidthCheck:
    """Hold a trailer's width against the national network's limit.

    Gear that carries no load and sticks out at most 3 in a side is left out of the measure; all else counts, twice the
    widest such piece.

    Parameters
    ----------
    body_width_m : float
        Width of deck, fenders and load [m].
    gear_sticking_out_m : tuple of float
        How far each piece of gear sticks out beyond it on its side [m].
    gear_carries_load : bool
        Whether that gear carries load, such as a deck extension.
    jurisdiction : str
        US, or HI for Hawaii's wider limit.
    table : Table, optional
        Figures.

    Returns
    -------
    WidthCheck
        Whether it holds, width counted, limit and margin [m], for each piece whether it is left out, and whether it
        holds against the metric figure, 2.6 m.

    Raises
    ------
    OutOfRange
        If the width is not above zero or a piece is below zero.

    Notes
    -----
    Commercial vehicles on the national network and its access roads; other roads and wider loads are the State's.

    Examples
    --------
    A 102 in deck with fenders 3 in out holds; 3.5 in out does not.

    >>> inch = 0.0254
    >>> width_check(102 * inch, (3 * inch,)).holds, width_check(102 * inch, (3.5 * inch,)).holds
    (True, False)

    References
    ----------
    .. [1] 23cfr658, 658.15 and 658.16(b)
    .. [2] usc49_31113
    """
    positive(body_width_m=body_width_m)
    each_not_negative(gear_sticking_out_m=gear_sticking_out_m)
    table = table or tables.load("road_sizes")
    limit = float(table.row(jurisdiction=jurisdiction, measure="width")["limit_m"])
    allowed = float(table.row(jurisdiction="US", measure="width_excluded_side")["limit_m"])
    excluded = tuple(not gear_carries_load and not exceeds(out, allowed) for out in gear_sticking_out_m)
    counting = [out for out, left_out in zip(gear_sticking_out_m, excluded, strict=True) if not left_out]
    counted = body_width_m + 2 * max(counting, default=0.0)
    metric = limit if jurisdiction != "US" else METRIC_WIDTH_m
    return WidthCheck(
        not exceeds(counted, limit), counted, limit, limit - counted, excluded, not exceeds(counted, metric)
    )


@dataclass(frozen=True, slots=True)
class SizeCheck:
    """A measured size against a limit somebody has looked up."""

    holds: bool
    margin_m: float


@calculation(FAMILY, "margin = limit − measured", symbols={"measured_m": "measured", "limit_m": "limit"})
def size_check(measured_m: float, limit_m: float) -> SizeCheck:
    """Hold a measured height or length against the limit you were told locally.

    margin = limit − measured.

    Parameters
    ----------
    measured_m : float
        Measured on the loaded set [m].
    limit_m : float
        Limit where it is to be driven [m].

    Returns
    -------
    SizeCheck
        Whether it holds, and the margin [m].

    Raises
    ------
    OutOfRange
        If a length is not above zero.

    Notes
    -----
    States commonly allow 13 ft 6 in to 14 ft 6 in of height (from memory); bridges and branches do not always.
    Measure with a stick, antennas and roof boxes included.

    Examples
    --------
    >>> round(size_check(4.0, 4.1148).margin_m, 4)
    0.1148

    References
    ----------
    .. [1] 23cfr658, 658.13 and 658.15
    """
    positive(measured_m=measured_m, limit_m=limit_m)
    return SizeCheck(not exceeds(measured_m, limit_m), limit_m - measured_m)
