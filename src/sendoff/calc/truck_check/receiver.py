"""The receiver's label has two rows: what it may carry with the weight on its ball, and what with tight bars."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from sendoff.calc._limits import Limit, limit_of, not_negative, positive
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange

FAMILY: Final = "truck_check"


@dataclass(frozen=True, slots=True)
class ReceiverCheck:
    """Trailer and tongue against the row of the receiver's label that counts."""

    row: str
    trailer: Limit
    tongue: Limit
    holds: bool


@calculation(FAMILY, "trailer ≤ trailer rating and tongue ≤ tongue rating, of the row that counts")
def receiver_check(
    trailer_mass_kg: float,
    tongue_load_kg: float,
    carrying_trailer_rating_kg: float,
    carrying_tongue_rating_kg: float,
    *,
    bars_fitted: bool = False,
    distributing_trailer_rating_kg: float | None = None,
    distributing_tongue_rating_kg: float | None = None,
) -> ReceiverCheck:
    """Hold trailer and tongue against a receiver's or bed hitch's ratings, with or without weight distribution.

    Without bars the weight-carrying row counts; with bars the weight-distributing row.

    Parameters
    ----------
    trailer_mass_kg : float
        Trailer and cargo together [kg].
    tongue_load_kg : float
        Tongue weight or pin weight [kg].
    carrying_trailer_rating_kg : float
        Trailer rating on the weight-carrying row [kg].
    carrying_tongue_rating_kg : float
        Tongue rating on the weight-carrying row [kg].
    bars_fitted : bool
        Whether weight-distributing bars are fitted and tight.
    distributing_trailer_rating_kg : float, optional
        Trailer rating on the weight-distributing row; needed with bars [kg].
    distributing_tongue_rating_kg : float, optional
        Tongue rating on the weight-distributing row; needed with bars [kg].

    Returns
    -------
    ReceiverCheck
        The row that counts, both limits [kg], and whether both hold.

    Raises
    ------
    OutOfRange
        If a load is below zero, a rating is not above zero, or a row is missing with bars.

    Notes
    -----
    The lower of receiver, ball mount, ball and the truck's own book counts. A label without a second row means that
    bars add nothing.

    Examples
    --------
    >>> receiver_check(3000.0, 300.0, 2268.0, 227.0).holds
    False
    >>> receiver_check(3000.0, 300.0, 2268.0, 227.0, bars_fitted=True,
    ...     distributing_trailer_rating_kg=5443.0, distributing_tongue_rating_kg=544.0).holds
    True

    References
    ----------
    .. [1] ball_web_table, never exceed the lowest marked part
    .. [2] sae_j2638, fifth-wheel and gooseneck attachments are tested up to 30,000 lb
    """
    not_negative(trailer_mass_kg=trailer_mass_kg, tongue_load_kg=tongue_load_kg)
    positive(
        carrying_trailer_rating_kg=carrying_trailer_rating_kg,
        carrying_tongue_rating_kg=carrying_tongue_rating_kg,
    )
    row, trailer_rating, tongue_rating = (
        "weight_carrying",
        carrying_trailer_rating_kg,
        carrying_tongue_rating_kg,
    )
    if bars_fitted:
        if distributing_trailer_rating_kg is None:
            raise OutOfRange(
                "distributing_trailer_rating_kg", None, "is needed with bars: read it on the label"
            )
        if distributing_tongue_rating_kg is None:
            raise OutOfRange(
                "distributing_tongue_rating_kg", None, "is needed with bars: read it on the label"
            )
        positive(
            distributing_trailer_rating_kg=distributing_trailer_rating_kg,
            distributing_tongue_rating_kg=distributing_tongue_rating_kg,
        )
        row = "weight_distributing"
        trailer_rating, tongue_rating = distributing_trailer_rating_kg, distributing_tongue_rating_kg
    trailer, tongue = limit_of(trailer_mass_kg, trailer_rating), limit_of(tongue_load_kg, tongue_rating)
    return ReceiverCheck(row, trailer, tongue, trailer.holds and tongue.holds)
