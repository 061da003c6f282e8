"""Rope: pull by layer, layer by rope on the drum, wraps left, tackle, load on a block, weakest part."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_between, require_not_negative, require_positive
from sendoff.errors import OutOfRange
from sendoff.tables import Table


@calculation(
    "winch",
    "share = (D + d) / (D + (2 n − 1) d)",
    gives="pull_ratio",
    symbols={"layer": "n", "drum_diameter_m": "D", "rope_diameter_m": "d", "pull_ratio": "share"},
)
def layer_pull_ratio(layer: int, drum_diameter_m: float, rope_diameter_m: float) -> float:
    """Return the share of its first-layer pull a winch has on a layer.

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
    """Return what a winch pulls on a layer of rope.

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
    """Return on which layer a winch works with so much rope still on the drum.

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
    """Return whether enough wraps of rope are left on the drum to hold the pull.

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


@calculation(
    "winch",
    "P = F / (1 + e + e² + … ), one term for each part of line",
    gives="line_N",
    symbols={"load_N": "F", "line_parts": "parts", "sheave_efficiency_ratio": "e", "line_N": "P"},
)
def tackle_line_pull(load_N: float, line_parts: int, sheave_efficiency_ratio: float = 0.90) -> float:
    """Return the line pull at the winch for a load moved through snatch blocks.

    P = F/(1 + e + e² + …): each sheave passes on only a share e of the pull.

    Parameters
    ----------
    load_N : float
        Pull the load asks for [N].
    line_parts : int
        Parts of line that pull on the load: 1 straight, 2 with one block on it [-].
    sheave_efficiency_ratio : float
        What a sheave passes on, 0.90 for plain bushings if not given [-].

    Returns
    -------
    float
        Pull at the winch [N].

    Raises
    ------
    OutOfRange
        If the load is below zero, the parts outside 1 to 8, or the efficiency outside 50 to 100 %.

    Notes
    -----
    Parallel parts. The efficiency is common practice: 0.90 for a plain bushing, 0.95 and more for bearings.

    Examples
    --------
    Two parts with a tenth lost at the block: 1.9 times the line pull, not twice.

    >>> round(1000 / tackle_line_pull(1000.0, 2), 2)
    1.9

    References
    ----------
    .. [1] statics, sum over the parts of line
    .. [2] common_practice, efficiency of a sheave
    """
    require_not_negative(load_N=load_N)
    if not 1 <= line_parts <= 8:
        raise OutOfRange("line_parts", line_parts, "must lie from 1 to 8")
    require_between(0.5, 1.0, sheave_efficiency_ratio=sheave_efficiency_ratio)
    return load_N / sum(sheave_efficiency_ratio**part for part in range(line_parts))


@calculation(
    "winch",
    "R = 2 P cos(β / 2)",
    gives="block_N",
    symbols={"line_N": "P", "between_rad": "β", "block_N": "R"},
)
def block_load(line_N: float, between_rad: float = 0.0) -> float:
    """Return the load on a snatch block and its anchor.

    R = 2 P cos(β/2), β the angle between both parts of line: twice the line pull when they run back side by side.

    Parameters
    ----------
    line_N : float
        Pull in the line [N].
    between_rad : float
        Angle between the two parts of line, 0 when parallel, 180° when straight through [rad].

    Returns
    -------
    float
        Load on block, shackle, strap and anchor [N].

    Raises
    ------
    OutOfRange
        If the pull is below zero or the angle outside 0 to 180°.

    Notes
    -----
    Without the loss in the sheave, so a little high.

    Examples
    --------
    >>> import math
    >>> block_load(1000.0), round(block_load(1000.0, math.radians(90)))
    (2000.0, 1414)

    References
    ----------
    .. [1] statics, two forces at a block
    """
    require_not_negative(line_N=line_N)
    require_between(0.0, math.pi, "rad", between_rad=between_rad)
    return 2 * line_N * math.cos(between_rad / 2)


@dataclass(frozen=True, slots=True)
class WeakestInLine:
    """Which part of the line gives out first."""

    weakest: Literal["winch", "rope", "hook", "block", "anchor"]
    line_limit_N: float
    """Line pull not to pass."""
    rope_limit_N: float
    """Working load limit of the rope."""


@calculation(
    "winch",
    "limit = min(winch, rope breaking / f, hook, block / 2, anchor / 2)",
    symbols={"rope_breaking_N": "rope breaking", "rope_factor_ratio": "f"},
)
def weakest_in_line(
    winch_N: float,
    rope_breaking_N: float,
    hook_limit_N: float,
    rope_factor_ratio: float = 2.0,
    block_limit_N: float | None = None,
    anchor_limit_N: float | None = None,
) -> WeakestInLine:
    """Return the line pull not to pass, and which part of the line sets it.

    The least of winch, rope over its factor, hook, and half of block and anchor, which carry both parts of line.

    Parameters
    ----------
    winch_N : float
        Pull of the winch on its layer [N].
    rope_breaking_N : float
        Breaking force of the rope, new [N].
    hook_limit_N : float
        Working load limit of the hook [N].
    rope_factor_ratio : float
        Factor of the rope's maker against breaking; 2 only for pulling on the level, more by his word [-].
    block_limit_N : float, optional
        Working load limit of the snatch block, if one is used [N].
    anchor_limit_N : float, optional
        Working load limit of anchor, strap and shackle behind the block [N].

    Returns
    -------
    WeakestInLine
        Weakest part, line pull not to pass, rope's limit.

    Raises
    ------
    OutOfRange
        If a force is not above zero or the factor is under 1.

    Notes
    -----
    Pulling, never lifting, and never people. The winch is no tie-down. Nobody in line with the rope.

    Examples
    --------
    >>> weakest_in_line(53_000.0, 85_000.0, 40_000.0).weakest
    'hook'

    References
    ----------
    .. [1] house_rule, the weakest part decides
    .. [2] common_practice, factor of a winch rope
    """
    require_positive(winch_N=winch_N, rope_breaking_N=rope_breaking_N, hook_limit_N=hook_limit_N)
    require_between(1.0, 20.0, rope_factor_ratio=rope_factor_ratio)
    rope_N = rope_breaking_N / rope_factor_ratio
    limits: dict[Literal["winch", "rope", "hook", "block", "anchor"], float] = {
        "winch": winch_N,
        "rope": rope_N,
        "hook": hook_limit_N,
    }
    if block_limit_N is not None:
        require_positive(block_limit_N=block_limit_N)
        limits["block"] = block_limit_N / 2
    if anchor_limit_N is not None:
        require_positive(anchor_limit_N=anchor_limit_N)
        limits["anchor"] = anchor_limit_N / 2
    weakest = min(limits, key=lambda part: limits[part])
    return WeakestInLine(weakest, limits[weakest], rope_N)
