"""Rope: pull by layer, layer by rope on the drum, what the drum holds, wraps left."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_not_negative, require_positive
from sendoff.errors import OutOfRange
from sendoff.tables import Table


@calculation(
    "winch",
    "share = (D + d) / (D + (2 n − 1) d)",
    gives="pull_ratio",
    symbols={"layer": "n", "drum_diameter_m": "D", "rope_diameter_m": "d", "pull_ratio": "share"},
)
def layer_pull_ratio(layer: int, drum_diameter_m: float, rope_diameter_m: float) -> float:
    """Share of its first-layer pull a winch has on a layer.

    (D + d)/(D + (2 n − 1) d): the rope sits farther out on each layer.

    Parameters
    ----------
    layer : int
        Layer, the one next to the drum is 1 [-].
    drum_diameter_m : float
        Bare drum [m].
    rope_diameter_m : float
        Rope [m].

    Returns
    -------
    float
        Pull over that of the first layer [-].

    Raises
    ------
    OutOfRange
        If the layer is outside 1 to 20 or a diameter not above zero.

    Notes
    -----
    Ratings count for the first layer only. Crossed rope and rope that beds in lose more. The often heard 10 to 15 %
    a layer is only a bound.

    Examples
    --------
    A 2.5 in drum with 3/8 in rope.

    >>> [round(layer_pull_ratio(n, 2.5, 0.375), 3) for n in (1, 2, 3, 4, 5)]
    [1.0, 0.793, 0.657, 0.561, 0.489]

    References
    ----------
    .. [1] geometry, radius of the layer
    .. [2] sae_j706, rating on the first layer
    """
    if not 1 <= layer <= 20:
        raise OutOfRange("layer", layer, "must lie from 1 to 20")
    require_positive(drum_diameter_m=drum_diameter_m, rope_diameter_m=rope_diameter_m)
    return (drum_diameter_m + rope_diameter_m) / (drum_diameter_m + (2 * layer - 1) * rope_diameter_m)


@calculation(
    "winch",
    "P = P1 (D + d) / (D + (2 n − 1) d)",
    gives="pull_N",
    symbols={"rated_N": "P1", "layer": "n", "drum_diameter_m": "D", "rope_diameter_m": "d", "pull_N": "P"},
)
def layer_pull(rated_N: float, layer: int, drum_diameter_m: float, rope_diameter_m: float) -> float:
    """What a winch pulls on a layer of rope.

    Rated first-layer pull times the share of the layer.

    Parameters
    ----------
    rated_N : float
        Rated pull, first layer [N].
    layer : int
        Layer being wound [-].
    drum_diameter_m : float
        Bare drum [m].
    rope_diameter_m : float
        Rope [m].

    Returns
    -------
    float
        Pull on that layer [N].

    Raises
    ------
    OutOfRange
        If the rating or a diameter is not above zero or the layer outside 1 to 20.

    Notes
    -----
    Battery full and motor cold; a long pull gets weaker.

    Examples
    --------
    >>> round(layer_pull(12000.0, 3, 2.5, 0.375))
    7886

    References
    ----------
    .. [1] geometry, radius of the layer
    """
    require_positive(rated_N=rated_N)
    return rated_N * layer_pull_ratio(layer, drum_diameter_m, rope_diameter_m)


@dataclass(frozen=True, slots=True)
class DrumLayer:
    """Where the rope stands on its drum."""

    layer: int
    """Layer the next turn would come off."""
    wraps_on_layer_count: float
    wraps_total_count: float
    wraps_per_layer: int


def _layer_length(layer: int, wraps: int, drum_diameter_m: float, rope_diameter_m: float) -> float:
    return wraps * math.pi * (drum_diameter_m + (2 * layer - 1) * rope_diameter_m)


@calculation(
    "winch",
    "length of layer n = wraps π (D + (2 n − 1) d), wraps = floor(B / d)",
    symbols={
        "rope_on_drum_m": "L",
        "drum_diameter_m": "D",
        "drum_width_m": "B",
        "rope_diameter_m": "d",
        "layer": "n",
    },
)
def drum_layer(
    rope_on_drum_m: float, drum_diameter_m: float, drum_width_m: float, rope_diameter_m: float
) -> DrumLayer:
    """On which layer a winch works with so much rope still on the drum.

    Layer after layer holds floor(B/d) wraps of π (D + (2 n − 1) d).

    Parameters
    ----------
    rope_on_drum_m : float
        Rope still on the drum [m].
    drum_diameter_m : float
        Bare drum [m].
    drum_width_m : float
        Drum between its flanges [m].
    rope_diameter_m : float
        Rope [m].

    Returns
    -------
    DrumLayer
        Layer, wraps on it, wraps in all, wraps a layer holds.

    Raises
    ------
    OutOfRange
        If a measure is not above zero, the drum narrower than the rope, or the rope needs more than 20 layers.

    Notes
    -----
    Rope wound side by side under tension. Loose or crossed rope stands higher and pulls less.

    Examples
    --------
    A 2.5 in drum, 9 in wide, 3/8 in rope, 80 ft on it.

    >>> drum_layer(80 * 0.3048, 0.0635, 0.2286, 0.009525).layer
    4

    References
    ----------
    .. [1] geometry, turns on a drum
    """
    require_positive(
        rope_on_drum_m=rope_on_drum_m,
        drum_diameter_m=drum_diameter_m,
        drum_width_m=drum_width_m,
        rope_diameter_m=rope_diameter_m,
    )
    wraps = math.floor(drum_width_m / rope_diameter_m + 1e-9)
    if wraps < 1:
        raise OutOfRange("drum_width_m", drum_width_m, "must be at least as wide as the rope")
    left_m, total = rope_on_drum_m, 0.0
    for layer in range(1, 21):
        full_m = _layer_length(layer, wraps, drum_diameter_m, rope_diameter_m)
        if left_m <= full_m * (1 + 1e-12):
            here = left_m / full_m * wraps
            return DrumLayer(layer, here, total + here, wraps)
        left_m -= full_m
        total += wraps
    raise OutOfRange("rope_on_drum_m", rope_on_drum_m, "needs more than 20 layers on this drum")


@calculation(
    "winch",
    "L = Σ wraps π (D + (2 n − 1) d)",
    gives="rope_m",
    symbols={
        "drum_diameter_m": "D",
        "drum_width_m": "B",
        "rope_diameter_m": "d",
        "layers": "n",
        "rope_m": "L",
    },
)
def drum_capacity(drum_diameter_m: float, drum_width_m: float, rope_diameter_m: float, layers: int) -> float:
    """How much rope a drum holds in so many layers.

    L is the sum over the layers of floor(B/d) wraps of π (D + (2 n − 1) d).

    Parameters
    ----------
    drum_diameter_m : float
        Bare drum [m].
    drum_width_m : float
        Drum between its flanges [m].
    rope_diameter_m : float
        Rope [m].
    layers : int
        Full layers [-].

    Returns
    -------
    float
        Length of rope [m].

    Raises
    ------
    OutOfRange
        If a measure is not above zero, the drum narrower than the rope, or the layers outside 1 to 20.

    Notes
    -----
    Wound side by side under tension, rope on rope without bedding in.

    Examples
    --------
    One layer on a 2.5 in drum, 9 in wide, 3/8 in rope: 18 ft.

    >>> round(drum_capacity(0.0635, 0.2286, 0.009525, 1) / 0.3048, 2)
    18.06

    References
    ----------
    .. [1] geometry, turns on a drum
    """
    require_positive(
        drum_diameter_m=drum_diameter_m, drum_width_m=drum_width_m, rope_diameter_m=rope_diameter_m
    )
    if not 1 <= layers <= 20:
        raise OutOfRange("layers", layers, "must lie from 1 to 20")
    wraps = math.floor(drum_width_m / rope_diameter_m + 1e-9)
    if wraps < 1:
        raise OutOfRange("drum_width_m", drum_width_m, "must be at least as wide as the rope")
    return sum(
        _layer_length(layer, wraps, drum_diameter_m, rope_diameter_m) for layer in range(1, layers + 1)
    )


@dataclass(frozen=True, slots=True)
class WrapsLeft:
    """Wraps still on the drum held against the least number."""

    wraps_left_count: float
    least_count: int
    enough: bool
    most_rope_out_m: float | None
    """How far the rope may be paid out; none if the whole length is not given."""


@calculation(
    "winch",
    "wraps = L / (π (D + d)) ≥ 5 wire, 10 synthetic",
    symbols={"rope_on_drum_m": "L", "drum_diameter_m": "D", "rope_diameter_m": "d"},
    tables={"table": "winch_wraps"},
)
def wraps_left(
    rope_on_drum_m: float,
    drum_diameter_m: float,
    rope_diameter_m: float,
    rope: Literal["wire", "synthetic"],
    rope_length_m: float | None = None,
    table: Table | None = None,
) -> WrapsLeft:
    """Whether enough wraps of rope are left on the drum to hold the pull.

    At least five wraps of wire or ten of synthetic rope stay on: the end fitting alone does not hold.

    Parameters
    ----------
    rope_on_drum_m : float
        Rope still on the drum [m].
    drum_diameter_m : float
        Bare drum [m].
    rope_diameter_m : float
        Rope [m].
    rope : {"wire", "synthetic"}
        Kind of rope.
    rope_length_m : float, optional
        Whole length of the rope [m].
    table : Table
        Least wraps by rope.

    Returns
    -------
    WrapsLeft
        Wraps, least number, enough or not, and how far it may be paid out.

    Raises
    ------
    OutOfRange
        If a measure is not above zero, rope on the drum is below zero, or more is on it than the whole length.

    Notes
    -----
    Counted on the first layer.

    Examples
    --------
    >>> wraps_left(1.0, 0.0635, 0.009525, "wire").enough, wraps_left(1.5, 0.0635, 0.009525, "wire").enough
    (False, True)

    References
    ----------
    .. [1] winch_guide, wraps left
    """
    require_not_negative(rope_on_drum_m=rope_on_drum_m)
    require_positive(drum_diameter_m=drum_diameter_m, rope_diameter_m=rope_diameter_m)
    least = int((table or tables.load("winch_wraps")).row(rope=rope)["least_count"])
    turn_m = math.pi * (drum_diameter_m + rope_diameter_m)
    out_m = None
    if rope_length_m is not None:
        require_positive(rope_length_m=rope_length_m)
        if rope_on_drum_m > rope_length_m:
            raise OutOfRange("rope_on_drum_m", rope_on_drum_m, "must not be more than the whole rope")
        out_m = max(0.0, rope_length_m - least * turn_m)
    wraps = rope_on_drum_m / turn_m
    return WrapsLeft(wraps, least, wraps >= least - 1e-9, out_m)
