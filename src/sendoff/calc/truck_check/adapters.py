"""Extensions and adapters between truck and trailer: what they leave of a rating, and what must be asked."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc._limits import not_negative, positive
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange
from sendoff.tables import Table

FAMILY: Final = "truck_check"

Adapter = Literal[
    "receiver_extension",
    "receiver_extension_maker_two_thirds",
    "reducer_sleeve",
    "ball_hole_bushing",
    "kingpin_to_gooseneck_ball",
    "gooseneck_to_kingpin",
    "gooseneck_offset_extension",
    "pintle_to_ball_mount",
]


@dataclass(frozen=True, slots=True)
class AdapterRating:
    """What an adapter leaves of a rating; none where only the makers can say."""

    rating_kg: float | None
    kept_ratio: float | None
    ask_frame_maker: bool
    remark: str


@calculation(
    FAMILY,
    "left = rating × kept share",
    symbols={"rating_kg": "rating", "kept_ratio": "kept share"},
    tables={"table": "hitch_adapters"},
)
def rating_through_adapter(
    rating_kg: float,
    adapter: Adapter,
    maker_kept_ratio: float | None = None,
    table: Table | None = None,
) -> AdapterRating:
    """What an extension or adapter leaves of a rating, and what must be asked.

    left = rating × kept share; the maker's own share comes before the table's.

    Parameters
    ----------
    rating_kg : float
        Rating without the adapter, of trailer or tongue [kg].
    adapter : str
        Which adapter.
    maker_kept_ratio : float, optional
        What this adapter's maker says is left, such as 50 % [-].
    table : Table, optional
        Shares kept and questions.

    Returns
    -------
    AdapterRating
        What is left [kg], the share kept [-], whether to ask the trailer's frame maker, and why.

    Raises
    ------
    OutOfRange
        If the rating is not above zero or the maker's share is not above 0 and up to 100 %.

    Notes
    -----
    Without a share from maker or table nothing is left that could be counted on: the result is none, ask the makers.

    Examples
    --------
    >>> rating_through_adapter(3000.0, "receiver_extension").rating_kg
    1500.0

    References
    ----------
    .. [1] hitch_dealer_answers, receiver extensions
    .. [2] common_practice, adapters between kingpin and gooseneck
    """
    table = table or tables.load("hitch_adapters")
    positive(rating_kg=rating_kg)
    row = table.row(adapter=adapter)
    kept = row["kept_ratio"]
    if maker_kept_ratio is not None:
        positive(maker_kept_ratio=maker_kept_ratio)
        if maker_kept_ratio > 1:
            raise OutOfRange("maker_kept_ratio", maker_kept_ratio, "must not be above 100 %")
        kept = maker_kept_ratio
    left = None if kept is None else rating_kg * kept
    return AdapterRating(left, kept, row["ask_frame_maker"], row["remark"])


@calculation(
    FAMILY,
    "left = rating·a / (a + e)",
    gives="tongue_rating_left_kg",
    symbols={"tongue_rating_kg": "rating", "rated_reach_m": "a", "extension_m": "e"},
)
def tongue_rating_by_leverage(tongue_rating_kg: float, rated_reach_m: float, extension_m: float) -> float:
    """What leverage alone leaves of a receiver's tongue rating when the ball moves further out.

    left = rating·a / (a + e): the same moment at the receiver.

    Parameters
    ----------
    tongue_rating_kg : float
        Tongue rating of the receiver [kg].
    rated_reach_m : float
        From the receiver's hitch-pin hole to the ball it was rated with [m].
    extension_m : float
        How much further out the ball sits now [m].

    Returns
    -------
    float
        Tongue load of the same moment [kg].

    Raises
    ------
    OutOfRange
        If the rating or the reach is not above zero or the extension is below zero.

    Notes
    -----
    An upper bound by statics: play and knocks are not in it. Use the lower of this and the maker's or table's share.

    Examples
    --------
    >>> round(tongue_rating_by_leverage(300.0, 0.25, 0.25), 6)
    150.0

    References
    ----------
    .. [1] statics, moments about the receiver's hitch-pin hole
    """
    positive(tongue_rating_kg=tongue_rating_kg, rated_reach_m=rated_reach_m)
    not_negative(extension_m=extension_m)
    return tongue_rating_kg * (rated_reach_m / (rated_reach_m + extension_m))
