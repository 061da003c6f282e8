"""Fuses: what a wire carries for good, and the fuse that protects it."""

from __future__ import annotations

from dataclasses import dataclass

from sendoff import tables
from sendoff.calc.contract import calculation, require_between, require_positive
from sendoff.errors import OutOfRange
from sendoff.tables import Table


@calculation(
    "wiring",
    "ampacity of the 60 °C column",
    gives="ampacity_A",
    symbols={"awg": "n", "ampacity_A": "I"},
    tables={"table": "wire_ampacity"},
)
def wire_ampacity(awg: int, table: Table | None = None) -> float:
    """Greatest lasting current of a copper wire.

    Read from the table; there is no formula.

    Parameters
    ----------
    awg : int
        Gauge number in the table; 1/0 to 4/0 are written 0, -1, -2, -3 [-].
    table : Table
        Lasting current by gauge.

    Returns
    -------
    float
        Greatest lasting current [A].

    Raises
    ------
    OutOfRange
        If the table has no such gauge.

    Notes
    -----
    Bundled copper wire, 30 °C around it, 60 °C insulation. The cable maker's own rating comes first.

    Examples
    --------
    >>> wire_ampacity(12)
    20.0

    References
    ----------
    .. [1] nec_310_16, table 310.16
    """
    return float((table or tables.load("wire_ampacity")).row(awg=awg)["ampacity_A"])


@dataclass(frozen=True, slots=True)
class FuseChoice:
    """The fuse for a load, held against the wire behind it."""

    least_A: float
    """125 % of the lasting load."""
    fuse_A: float
    """Next standard size."""
    ampacity_A: float
    wire_is_protected: bool
    """Whether the wire carries at least what the fuse lets through."""


@calculation(
    "wiring",
    "fuse = next size ≥ 1.25 I, and ≤ ampacity of the wire",
    symbols={"load_A": "I", "awg": "n"},
    tables={"table": "fuse_sizes"},
)
def fuse_size(load_A: float, awg: int, table: Table | None = None) -> FuseChoice:
    """Fuse for a lasting load and whether it protects the wire.

    The next standard size at or above 1.25 I; the wire must carry at least that.

    Parameters
    ----------
    load_A : float
        Lasting current of the load [A].
    awg : int
        Thinnest wire behind the fuse; 1/0 to 4/0 are written 0, -1, -2, -3 [-].
    table : Table
        Standard fuse sizes.

    Returns
    -------
    FuseChoice
        Least size, size to fit, what the wire carries, and whether that is enough.

    Raises
    ------
    OutOfRange
        If the load is not above zero or beyond the largest fuse, or the gauge is not in the table.

    Notes
    -----
    Lasting loads on 12 V. A pump or winch has its own breaker from its maker.

    Examples
    --------
    8 A needs 10 A, and 10 A is the most that 16 gauge carries.

    >>> choice = fuse_size(8.0, 16)
    >>> choice.fuse_A, choice.wire_is_protected
    (10.0, True)

    References
    ----------
    .. [1] fuse_guides, 125 percent of the lasting load
    """
    require_positive(load_A=load_A)
    least_A = 1.25 * load_A
    sizes = [float(size) for size in (table or tables.load("fuse_sizes")).column("fuse_A")]
    fitting = [size for size in sizes if size >= least_A * (1 - 1e-12)]
    if not fitting:
        raise OutOfRange("load_A", load_A, f"must not need a fuse above {max(sizes):g} A")
    ampacity_A = wire_ampacity(awg)
    return FuseChoice(least_A, min(fitting), ampacity_A, min(fitting) <= ampacity_A)


@dataclass(frozen=True, slots=True)
class FuseCurve:
    """What a blade fuse does near its rating."""

    holds_A: float
    """Carried for 100 hours."""
    opens_A: float
    """Opens, but may take `within_s`."""
    within_s: float


@calculation("wiring", "holds 1.10 In for 100 h; opens at 1.35 In within 10 min", symbols={"fuse_A": "In"})
def blade_fuse_curve(fuse_A: float) -> FuseCurve:
    """What a blade fuse carries for good and what opens it only after minutes.

    It holds 1.10 In for 100 h and may take 10 min to open at 1.35 In.

    Parameters
    ----------
    fuse_A : float
        Rating printed on the fuse [A].

    Returns
    -------
    FuseCurve
        Current held, current that opens it, longest time it may take.

    Raises
    ------
    OutOfRange
        If the rating is outside 0 to 40 A.

    Notes
    -----
    Ordinary blade fuses to 40 A at room temperature. So a fuse is no watch over a small overload.

    Examples
    --------
    >>> found = blade_fuse_curve(10.0)
    >>> round(found.holds_A, 2), round(found.opens_A, 2), found.within_s
    (11.0, 13.5, 600.0)

    References
    ----------
    .. [1] fuse_guides, primer on the blade fuse curve
    """
    require_positive(fuse_A=fuse_A)
    require_between(0.0, 40.0, "A", fuse_A=fuse_A)
    return FuseCurve(1.10 * fuse_A, 1.35 * fuse_A, 600.0)
