"""Working load limits of what is not marked with one, and of a tie-down as a whole."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc._limits import each_positive, inches, positive, require_same_count
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange
from sendoff.tables import Row, Table

FAMILY: Final = "securement"

Grade = Literal["30", "43", "70", "80", "100", "unmarked"]
RopeMaterial = Literal[
    "wire_rope",
    "manila",
    "polypropylene",
    "polyester",
    "nylon",
    "double_braided_nylon",
    "unmarked_synthetic",
]


@dataclass(frozen=True, slots=True)
class WorkingLoadLimit:
    """Working load limit as printed in pounds and, beside it, as printed in kilograms: they do not quite agree."""

    wll_kg: float
    wll_metric_kg: float | None
    """None where the maker's mark counts instead of the table."""


@dataclass(frozen=True, slots=True)
class TieDownLimit:
    """The limit of a tie-down as a whole, and the part that sets it."""

    wll_kg: float
    weakest_part: str


def _marked(marked_wll_kg: float | None) -> WorkingLoadLimit | None:
    if marked_wll_kg is None:
        return None
    positive(marked_wll_kg=marked_wll_kg)
    return WorkingLoadLimit(marked_wll_kg, None)


def _row(table: Table, inch_name: str, metric_name: str, size_m: float, argument: str, **keys: str) -> Row:
    """Return the row of a size given in inches or in millimeters; sizes between rows are refused."""
    rows = table.where(**keys)
    for name in (inch_name, metric_name):
        for row in rows:
            if math.isclose(row[name], size_m, rel_tol=1e-6):
                return row
    raise OutOfRange(
        argument,
        size_m,
        f"must be a size listed in the table {table.id}: "
        + ", ".join(f"{row[inch_name] / inches(1):.4g} in" for row in rows),
    )


@calculation(FAMILY, "marked, else the table's row", tables={"table": "wll_chain"})
def chain_wll(
    chain_size_m: float,
    grade: Grade = "unmarked",
    marked_wll_kg: float | None = None,
    table: Table | None = None,
) -> WorkingLoadLimit:
    """Working load limit of a tie-down chain by size and grade.

    The maker's mark counts; without one the table; chain without any grade mark counts as grade 30.

    Parameters
    ----------
    chain_size_m : float
        Nominal size, such as 3/8 in or 10 mm [m].
    grade : str
        Grade stamped on the links, such as 70 for 7, 70 or 700.
    marked_wll_kg : float, optional
        Working load limit marked by the maker [kg].
    table : Table, optional
        Limits by size and grade.

    Returns
    -------
    WorkingLoadLimit
        Working load limit [kg].

    Raises
    ------
    OutOfRange
        If the size is not listed, or not in this grade, or the mark is not above zero.

    Notes
    -----
    For tie-downs, undamaged. As a safety chain its breaking strength counts, which is another figure.

    Examples
    --------
    3/8 in grade 70: 6,600 lb.

    >>> round(chain_wll(0.009525, "70").wll_kg / 0.45359237)
    6600

    References
    ----------
    .. [1] 49cfr393, 393.108(b), (d) and table
    """
    positive(chain_size_m=chain_size_m)
    marked = _marked(marked_wll_kg)
    if marked:
        return marked
    table = table or tables.load("wll_chain")
    grade_kept = "30" if grade == "unmarked" else grade
    row = _row(table, "chain_size_m", "metric_size_m", chain_size_m, "chain_size_m", grade=grade_kept)
    return WorkingLoadLimit(row["wll_kg"], row["wll_metric_kg"])


@calculation(FAMILY, "marked, else the table's row", tables={"table": "wll_webbing"})
def webbing_wll(
    width_m: float, marked_wll_kg: float | None = None, table: Table | None = None
) -> WorkingLoadLimit:
    """Working load limit of synthetic webbing by width.

    The maker's mark counts; without one the table.

    Parameters
    ----------
    width_m : float
        Width, such as 2 in or 50 mm [m].
    marked_wll_kg : float, optional
        Working load limit marked by the maker [kg].
    table : Table, optional
        Limits by width.

    Returns
    -------
    WorkingLoadLimit
        Working load limit [kg].

    Raises
    ------
    OutOfRange
        If the width is not listed or the mark is not above zero.

    Notes
    -----
    Undamaged and without knots. A strap whose mark cannot be read counts as unmarked.

    Examples
    --------
    2 in: 2,000 lb.

    >>> round(webbing_wll(0.0508).wll_kg / 0.45359237)
    2000

    References
    ----------
    .. [1] 49cfr393, 393.108(b) and table
    """
    positive(width_m=width_m)
    marked = _marked(marked_wll_kg)
    if marked:
        return marked
    table = table or tables.load("wll_webbing")
    row = _row(table, "width_m", "metric_width_m", width_m, "width_m")
    return WorkingLoadLimit(row["wll_kg"], row["wll_metric_kg"])


@calculation(FAMILY, "marked, else the table's row", tables={"table": "wll_rope"})
def rope_wll(
    diameter_m: float,
    material: RopeMaterial = "unmarked_synthetic",
    marked_wll_kg: float | None = None,
    table: Table | None = None,
) -> WorkingLoadLimit:
    """Working load limit of rope by material and diameter.

    The maker's mark counts; without one the table; synthetic rope of unknown stuff counts as polypropylene.

    Parameters
    ----------
    diameter_m : float
        Diameter, such as 1/2 in or 13 mm [m].
    material : str
        What it is made of.
    marked_wll_kg : float, optional
        Working load limit marked by the maker [kg].
    table : Table, optional
        Limits by material and diameter.

    Returns
    -------
    WorkingLoadLimit
        Working load limit [kg].

    Raises
    ------
    OutOfRange
        If the diameter is not listed for the material, or the mark is not above zero.

    Notes
    -----
    Undamaged and without knots. Wire rope by the row of 6 x 37 with fiber core.

    Examples
    --------
    >>> round(rope_wll(0.0127).wll_kg / 0.45359237)
    625

    References
    ----------
    .. [1] 49cfr393, 393.108(c), (e), (f) and tables
    """
    positive(diameter_m=diameter_m)
    marked = _marked(marked_wll_kg)
    if marked:
        return marked
    table = table or tables.load("wll_rope")
    kept = "polypropylene" if material == "unmarked_synthetic" else material
    row = _row(table, "diameter_m", "metric_diameter_m", diameter_m, "diameter_m", material=kept)
    return WorkingLoadLimit(row["wll_kg"], row["wll_metric_kg"])


@calculation(FAMILY, "marked, else the table's row", tables={"table": "wll_strapping"})
def strapping_wll(
    width_m: float,
    thickness_m: float,
    marked_wll_kg: float | None = None,
    table: Table | None = None,
) -> WorkingLoadLimit:
    """Working load limit of steel strapping by width and thickness.

    The maker's mark counts; without one the table.

    Parameters
    ----------
    width_m : float
        Width [m].
    thickness_m : float
        Thickness [m].
    marked_wll_kg : float, optional
        Working load limit marked by the maker [kg].
    table : Table, optional
        Limits by width and thickness.

    Returns
    -------
    WorkingLoadLimit
        Working load limit [kg].

    Raises
    ------
    OutOfRange
        If width and thickness are not listed, or the mark is not above zero.

    Notes
    -----
    Strapping of an inch or wider needs two pairs of crimps in each seal.

    Examples
    --------
    >>> round(strapping_wll(0.0508, 0.00127).wll_kg / 0.45359237)
    2650

    References
    ----------
    .. [1] 49cfr393, 393.108 table; 393.104(e)
    """
    positive(width_m=width_m, thickness_m=thickness_m)
    marked = _marked(marked_wll_kg)
    if marked:
        return marked
    table = table or tables.load("wll_strapping")
    row = table.row(width_m=width_m, thickness_m=thickness_m)
    return WorkingLoadLimit(row["wll_kg"], row["wll_metric_kg"])


@calculation(
    FAMILY,
    "lowest of strap or chain, tensioner, hooks and anchor points",
    symbols={"part_wll_kg": "parts", "wll_kg": "WLL"},
)
def tie_down_wll(part: tuple[str, ...], part_wll_kg: tuple[float, ...]) -> TieDownLimit:
    """Working load limit of a whole tie-down: its weakest part or anchor point.

    The lowest of strap or chain, tensioner, hooks and the anchor points at both ends.

    Parameters
    ----------
    part : tuple of str
        Names of the parts, such as chain, binder, hook, anchor.
    part_wll_kg : tuple of float
        Working load limit of each [kg].

    Returns
    -------
    TieDownLimit
        Limit of the whole [kg] and the weakest part.

    Raises
    ------
    OutOfRange
        If the lists differ in length or a limit is not above zero.

    Notes
    -----
    An anchor point without a rating is unknown: ask the trailer maker. A ring sold by its breaking strength works at
    a third or less of it.

    Examples
    --------
    Chain 6,600 lb, binder 5,400, anchor 4,700: the anchor sets the limit.

    >>> tie_down_wll(("chain", "binder", "anchor"), (6600.0, 5400.0, 4700.0)).weakest_part
    'anchor'

    References
    ----------
    .. [1] 49cfr393, 393.108(a)
    """
    require_same_count(part=part, part_wll_kg=part_wll_kg)
    each_positive(part_wll_kg=part_wll_kg)
    lowest = min(part_wll_kg)
    return TieDownLimit(lowest, part[part_wll_kg.index(lowest)])


@calculation(
    FAMILY,
    "pull = load / (n·sin α)",
    gives="pull_in_each_leg_kg",
    symbols={
        "load_kg": "load",
        "leg_count": "n",
        "angle_to_deck_rad": "α",
        "pull_in_each_leg_kg": "pull",
    },
)
def pull_in_leg(load_kg: float, leg_count: int, angle_to_deck_rad: float) -> float:
    """Pull in each leg of a sloping pair or bridle.

    pull = load / (n·sin α): at 30 degrees twice what it would be upright.

    Parameters
    ----------
    load_kg : float
        Load held or lifted by all legs together [kg].
    leg_count : int
        Legs that share it evenly [-].
    angle_to_deck_rad : float
        Angle of the legs from the horizontal [rad].

    Returns
    -------
    float
        Pull in each leg [kg].

    Raises
    ------
    OutOfRange
        If the load is not above zero, the legs are not 1 to 8, or the angle is not from 5 to 90 degrees.

    Notes
    -----
    Even legs. With more than two legs a stiff load may hang in two of them.

    Examples
    --------
    >>> import math
    >>> round(pull_in_leg(2000.0, 2, math.radians(30)), 6)
    2000.0

    References
    ----------
    .. [1] statics, balance of vertical forces
    """
    positive(load_kg=load_kg)
    if not 1 <= leg_count <= 8:
        raise OutOfRange("leg_count", leg_count, "must lie from 1 to 8")
    if not math.radians(5) - 1e-12 <= angle_to_deck_rad <= math.pi / 2 + 1e-9:
        raise OutOfRange("angle_to_deck_rad", angle_to_deck_rad, "must lie from 5 to 90 degrees")
    return load_kg / (leg_count * math.sin(angle_to_deck_rad))
