"""How much of the trailer belongs on the coupling: the window by trailer and coupling, the maker's own first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc._limits import exceeds, finite, positive
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange
from sendoff.tables import Table

FAMILY: Final = "truck_check"

TrailerKind = Literal[
    "general",
    "car_hauler",
    "flatbed",
    "dump",
    "livestock",
    "boat",
    "boat_bow_heavy",
    "utility",
    "enclosed",
    "heavy_equipment",
    "caravan",
]
Coupling = Literal["ball", "gooseneck", "fifth_wheel", "pintle"]


@dataclass(frozen=True, slots=True)
class CouplingWindow:
    """The share of the trailer's weight that belongs on its coupling, and whose figure it is."""

    low_ratio: float
    high_ratio: float
    whose: Literal["maker", "table_for_this_trailer", "table_for_this_coupling"]


@dataclass(frozen=True, slots=True)
class CouplingLoadCheck:
    """A coupling load against its window; the margin is to the nearer edge, a minus is outside."""

    holds: bool
    where: Literal["below", "within", "above"]
    share_ratio: float
    margin_ratio: float
    least_load_kg: float
    most_load_kg: float
    margin_kg: float


@calculation(
    FAMILY,
    "maker's own window, else the table's row for trailer and coupling, else for the coupling",
    tables={"table": "coupling_windows"},
)
def coupling_share_window(
    trailer_kind: TrailerKind,
    coupling: Coupling,
    state: Literal["loaded", "empty"] = "loaded",
    market: Literal["US", "GB"] = "US",
    maker_low_ratio: float | None = None,
    maker_high_ratio: float | None = None,
    table: Table | None = None,
) -> CouplingWindow:
    """Share of the trailer's weight that belongs on its tongue, kingpin or gooseneck.

    The trailer maker's own figures come first; then the row for trailer and coupling; then the one for the coupling.

    Parameters
    ----------
    trailer_kind : str
        What trailer it is.
    coupling : str
        What it hooks on: ball behind the bumper, gooseneck, fifth wheel, pintle.
    state : str
        Loaded, or empty: an empty trailer shows another share.
    market : str
        Whose guides: American and British ones differ.
    maker_low_ratio : float, optional
        The maker's least share; give both or none [-].
    maker_high_ratio : float, optional
        The maker's greatest share [-].
    table : Table, optional
        Windows.

    Returns
    -------
    CouplingWindow
        Least and greatest share [-] and whose they are.

    Raises
    ------
    OutOfRange
        If one maker's figure lacks the other, they are not in order, or no row is known: ask the maker.

    Notes
    -----
    Never by coupling alone where the trailer is known: a boat wants less, livestock more.

    Examples
    --------
    >>> window = coupling_share_window("livestock", "gooseneck")
    >>> window.low_ratio, window.high_ratio
    (0.18, 0.25)

    References
    ----------
    .. [1] vehicle_maker_towing, tongue and pin weight
    .. [2] common_practice, windows by trailer
    .. [3] caravan_towing_guide, p. 11
    """
    if maker_low_ratio is not None or maker_high_ratio is not None:
        if maker_low_ratio is None:
            raise OutOfRange("maker_low_ratio", None, "is needed beside maker_high_ratio")
        if maker_high_ratio is None:
            raise OutOfRange("maker_high_ratio", None, "is needed beside maker_low_ratio")
        _require_window(maker_low_ratio, maker_high_ratio, "maker_low_ratio", "maker_high_ratio")
        return CouplingWindow(maker_low_ratio, maker_high_ratio, "maker")
    table = table or tables.load("coupling_windows")
    for kind in (trailer_kind, "any"):
        found = table.where(trailer_kind=kind, coupling=coupling, state=state, market=market)
        if found:
            row = found[0]
            whose: Literal["table_for_this_trailer", "table_for_this_coupling"] = (
                "table_for_this_coupling" if kind == "any" else "table_for_this_trailer"
            )
            return CouplingWindow(row["low_ratio"], row["high_ratio"], whose)
    raise OutOfRange(
        "state" if state == "empty" else "market",
        state if state == "empty" else market,
        f"must be one there is a window for; none is known for {trailer_kind} on {coupling}: ask the trailer maker",
    )


def _require_window(low_ratio: float, high_ratio: float, low: str, high: str) -> None:
    if not 0 <= low_ratio <= 1:
        raise OutOfRange(low, low_ratio, "must lie from 0 to 100 %")
    if not low_ratio < high_ratio <= 1:
        raise OutOfRange(high, high_ratio, f"must lie above {low} and up to 100 %")


@calculation(
    FAMILY,
    "share = T / M;  low ≤ share ≤ high",
    symbols={
        "coupling_load_kg": "T",
        "trailer_mass_kg": "M",
        "low_ratio": "low",
        "high_ratio": "high",
        "share_ratio": "share",
    },
)
def coupling_load_check(
    coupling_load_kg: float, trailer_mass_kg: float, low_ratio: float, high_ratio: float
) -> CouplingLoadCheck:
    """Hold a weighed or computed coupling load against its window.

    share = T / M between low and high; the loads of both edges are low·M and high·M.

    Parameters
    ----------
    coupling_load_kg : float
        Tongue weight, pin weight or kingpin load [kg].
    trailer_mass_kg : float
        Mass of trailer and cargo together, coupling load included [kg].
    low_ratio : float
        Least share [-].
    high_ratio : float
        Greatest share [-].

    Returns
    -------
    CouplingLoadCheck
        Verdict, share and margin in points [-], edges and margin [kg].

    Raises
    ------
    OutOfRange
        If the trailer's mass is not above zero or the window is not in order.

    Notes
    -----
    Ball, receiver, payload and rear axle are limits of their own: the window may allow what they do not.

    Examples
    --------
    Two vehicle makers: 10 to 15 % of a 5,000 lb trailer is 500 to 750 lb.

    >>> check = coupling_load_check(600.0, 5000.0, 0.10, 0.15)
    >>> check.least_load_kg, check.most_load_kg, check.where
    (500.0, 750.0, 'within')

    References
    ----------
    .. [1] vehicle_maker_towing, tongue and pin weight
    """
    finite(coupling_load_kg=coupling_load_kg)
    positive(trailer_mass_kg=trailer_mass_kg)
    _require_window(low_ratio, high_ratio, "low_ratio", "high_ratio")
    least, most = low_ratio * trailer_mass_kg, high_ratio * trailer_mass_kg
    share = coupling_load_kg / trailer_mass_kg
    where: Literal["below", "within", "above"] = "within"
    if exceeds(coupling_load_kg, most):
        where = "above"
    elif exceeds(least, coupling_load_kg):
        where = "below"
    margin = min(coupling_load_kg - least, most - coupling_load_kg)
    return CouplingLoadCheck(
        holds=where == "within",
        where=where,
        share_ratio=share,
        margin_ratio=margin / trailer_mass_kg,
        least_load_kg=least,
        most_load_kg=most,
        margin_kg=margin,
    )
