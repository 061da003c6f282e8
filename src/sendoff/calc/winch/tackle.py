"""Tackle: pull through snatch blocks, load on a block and its anchor, two legs, and the weakest part of the line."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from sendoff.calc.contract import calculation, require_between, require_not_negative, require_positive
from sendoff.errors import OutOfRange


@calculation(
    "winch",
    "P = F / (1 + e + e² + … ), one term for each part of line",
    gives="line_N",
    symbols={"load_N": "F", "line_parts": "parts", "sheave_efficiency_ratio": "e", "line_N": "P"},
)
def tackle_line_pull(load_N: float, line_parts: int, sheave_efficiency_ratio: float = 0.90) -> float:
    """Line pull at the winch for a load moved through snatch blocks.

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
    """Load on a snatch block and its anchor.

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


@calculation(
    "winch",
    "T = F / (2 sin α)",
    gives="leg_N",
    symbols={"load_N": "F", "angle_rad": "α", "leg_N": "T"},
)
def two_leg_pull(load_N: float, angle_rad: float) -> float:
    """Load in each leg of a bridle or two-leg chain.

    T = F/(2 sin α), α the angle of the legs from the line square to the load: 1 at 90°, twice at 30°.

    Parameters
    ----------
    load_N : float
        Load on both legs together [N].
    angle_rad : float
        Angle of each leg from the horizontal of a hung load, or from the line across a pulled one [rad].

    Returns
    -------
    float
        Load in each leg [N].

    Raises
    ------
    OutOfRange
        If the load is below zero or the angle outside 5 to 90°.

    Notes
    -----
    Legs of the same length. Under 30° nobody should rig.

    Examples
    --------
    >>> [round(two_leg_pull(2000.0, math.radians(angle))) for angle in (90, 60, 45, 30)]
    [1000, 1155, 1414, 2000]

    References
    ----------
    .. [1] statics, two legs
    """
    require_not_negative(load_N=load_N)
    require_between(math.radians(5), math.pi / 2, "rad", angle_rad=angle_rad)
    return load_N / (2 * math.sin(angle_rad))


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
    symbols={"rope_breaking_N": "rope breaking", "rope_factor_number": "f"},
)
def weakest_in_line(
    winch_N: float,
    rope_breaking_N: float,
    hook_limit_N: float,
    rope_factor_number: float = 2.0,
    block_limit_N: float | None = None,
    anchor_limit_N: float | None = None,
) -> WeakestInLine:
    """Line pull not to pass, and which part of the line sets it.

    The least of winch, rope over its factor, hook, and half of block and anchor, which carry both parts of line.

    Parameters
    ----------
    winch_N : float
        Pull of the winch on its layer [N].
    rope_breaking_N : float
        Breaking force of the rope, new [N].
    hook_limit_N : float
        Working load limit of the hook [N].
    rope_factor_number : float
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
    require_between(1.0, 20.0, rope_factor_number=rope_factor_number)
    rope_N = rope_breaking_N / rope_factor_number
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


@calculation(
    "winch",
    "A = n P",
    gives="anchor_N",
    symbols={"line_N": "P", "anchored_parts": "n", "anchor_N": "A"},
)
def anchor_load(line_N: float, anchored_parts: int = 2) -> float:
    """Load on an anchor that holds so many parts of line, side by side.

    A = n P: each part of line that ends at the anchor, or runs round a block on it, pulls on it in full.

    Parameters
    ----------
    line_N : float
        Pull in the line, at the winch [N].
    anchored_parts : int
        Parts of line at the anchor: 1 for a hook on it, 2 for a block on it, 3 for a block and the line's end [-].

    Returns
    -------
    float
        Load on the anchor [N].

    Raises
    ------
    OutOfRange
        If the pull is below zero or the parts outside 1 to 8.

    Notes
    -----
    Parts side by side and without the loss in the sheaves, so a little high. At an angle: `block_load`.

    Examples
    --------
    A block on the anchor doubles the load on it: strap and shackle are chosen for twice the winch.

    >>> anchor_load(40_000.0)
    80000.0

    References
    ----------
    .. [1] statics, two forces at a block
    """
    require_not_negative(line_N=line_N)
    if not 1 <= anchored_parts <= 8:
        raise OutOfRange("anchored_parts", anchored_parts, "must lie from 1 to 8")
    return line_N * anchored_parts


@calculation(
    "winch",
    "WLL = B / f",
    gives="limit_N",
    symbols={"breaking_N": "B", "factor_number": "f", "limit_N": "WLL"},
)
def winch_rope_limit(breaking_N: float, factor_number: float = 2.0) -> float:
    """Pull not to pass on a winch rope, from its breaking force.

    WLL = B/f with the factor of the rope's maker.

    Parameters
    ----------
    breaking_N : float
        Breaking force of the rope, new, at its weakest (the knot-free eye) [N].
    factor_number : float
        Factor of the rope's maker; 2 only for pulling on the level, more by his word [-].

    Returns
    -------
    float
        Pull not to pass [N].

    Raises
    ------
    OutOfRange
        If the breaking force is not above zero or the factor outside 1.5 to 12.

    Notes
    -----
    A pull, never a lift. Kinks, crushed strands and fused fibers take more off than any factor gives back: replace it.

    Examples
    --------
    >>> winch_rope_limit(64_000.0)
    32000.0

    References
    ----------
    .. [1] common_practice, factor 2 of recreational winching
    """
    require_positive(breaking_N=breaking_N)
    require_between(1.5, 12.0, factor_number=factor_number)
    return breaking_N / factor_number
