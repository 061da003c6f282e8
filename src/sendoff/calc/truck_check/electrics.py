"""The lead between truck and trailer: plug kinds, what each carries, and whether the controller suits the brakes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange
from sendoff.tables import Table

FAMILY: Final = "truck_check"

Plug = Literal["flat_4", "flat_5", "blade_7", "heavy_duty_7", "iso_7", "iso_13"]
Lead = Literal[
    "ground", "tail", "left", "right", "stop", "brake", "charge", "reverse", "reverse_lockout", "abs_power"
]
TrailerBrakes = Literal["none", "electric", "electric_over_hydraulic", "surge", "air"]
Controller = Literal["none", "electric_only", "electric_and_hydraulic", "air"]

_STANDARD: Final[dict[str, str]] = {
    "flat_4": "flat_4",
    "flat_5": "flat_5",
    "blade_7": "blade_7_plug_cable",
    "heavy_duty_7": "sae_j560",
    "iso_7": "iso_1724",
    "iso_13": "iso_11446",
}
_KNOWN_AS: Final[dict[str, frozenset[str]]] = {
    "ground": frozenset({"ground", "return_1_to_8"}),
    "tail": frozenset({"tail", "left_tail", "clearance"}),
    "charge": frozenset({"charge", "constant_supply"}),
    "abs_power": frozenset({"abs_power"}),
}
"""What the table of terminals calls a function, where it is not the function's own name."""


@dataclass(frozen=True, slots=True)
class PlugMatch:
    """Whether truck and trailer plug into each other, and what the trailer needs that the truck does not give."""

    same_plug: bool
    missing: tuple[Lead, ...]
    to_be_tested: tuple[Lead, ...]
    """Functions that ride on the auxiliary terminal, which is wired on some trucks and dead on others."""
    all_functions: bool
    electric_brakes_possible: bool
    remark: str


@dataclass(frozen=True, slots=True)
class ControllerMatch:
    """Whether the truck's brake controller suits the trailer's brakes."""

    suits: bool
    remark: str


@calculation(
    FAMILY,
    "missing = what the trailer needs − what the truck's plug carries",
    tables={"table": "plug_terminals"},
)
def plug_match(
    truck_plug: Plug, trailer_plug: Plug, trailer_needs: tuple[Lead, ...], table: Table | None = None
) -> PlugMatch:
    """Whether the truck's plug gives the trailer every function it needs.

    missing = what the trailer needs − what the truck's plug carries. An adapter changes the shape, never what is
    missing.

    Parameters
    ----------
    truck_plug : str
        Socket on the truck.
    trailer_plug : str
        Plug on the trailer.
    trailer_needs : tuple of str
        Functions this trailer uses.
    table : Table, optional
        Plugs and what their terminals carry.

    Returns
    -------
    PlugMatch
        Same plug or not, functions missing or to be tested, and whether electric brakes can be fed.

    Raises
    ------
    OutOfRange
        If no function is named or one is named twice.

    Notes
    -----
    Test by function, never by color. The blade plug's center is reverse on some trucks and dead on others, and many
    trucks ship without fuse or relay of the charge lead: measure at the plug with the engine running. The fifth wire
    of a flat-five is needed to back up surge brakes.

    Examples
    --------
    A heavy tractor's plug has no brake-magnet output.

    >>> plug_match("heavy_duty_7", "blade_7", ("ground", "tail", "left", "right", "brake")).missing
    ('brake',)

    References
    ----------
    .. [1] plug_wiring_references
    .. [2] sae_j560
    .. [3] sae_j1239
    """
    if not trailer_needs:
        raise OutOfRange("trailer_needs", (), "must name at least one function")
    if len(set(trailer_needs)) != len(trailer_needs):
        raise OutOfRange("trailer_needs", trailer_needs, "must name each function once")
    table = table or tables.load("plug_terminals")
    carries = {row["function"] for row in table.where(standard=_STANDARD[truck_plug])}
    if "stop" not in carries and {"left", "right"} <= carries:
        carries.add("stop")  # these plugs carry stop and turn on one lead each side
    auxiliary = "auxiliary" in carries
    if truck_plug == "heavy_duty_7" and auxiliary:
        carries.add("abs_power")
        auxiliary = False
    lacking = tuple(need for need in trailer_needs if not _KNOWN_AS.get(need, {need}) & carries)
    maybe = tuple(need for need in lacking if auxiliary and need in {"reverse", "reverse_lockout"})
    missing = tuple(need for need in lacking if need not in maybe)
    same = truck_plug == trailer_plug
    if "brake" in missing:
        remark = "This socket has no brake output: it cannot pull a trailer with electric brakes, with any adapter."
    elif missing:
        remark = "The trailer needs what this socket does not carry; no adapter makes it."
    elif same:
        remark = "Same plug. Test every function with a helper; colors prove nothing."
    else:
        remark = "An adapter is needed. Test every function through it; adapters swap left and right."
    return PlugMatch(same, missing, maybe, not missing, "brake" in carries, remark)


@calculation(FAMILY, "controller kind against brake kind")
def controller_match(trailer_brakes: TrailerBrakes, controller: Controller) -> ControllerMatch:
    """Whether the truck's brake controller suits the kind of brakes on the trailer.

    Electric magnets take any electric controller; electric-over-hydraulic only one made or set for it; surge brakes
    none; air brakes the tractor's air system.

    Parameters
    ----------
    trailer_brakes : str
        Brakes of the trailer.
    controller : str
        What the truck has.

    Returns
    -------
    ControllerMatch
        Whether it suits, and why or what to set.

    Raises
    ------
    OutOfRange
        If the two are words not listed.

    Notes
    -----
    Kind only: current is a check of its own. A truck's own controller often has a menu for electric or
    electric-over-hydraulic, light or heavy; a wrong setting shows as "trailer disconnected" or locked wheels.

    Examples
    --------
    >>> controller_match("electric_over_hydraulic", "electric_only").suits
    False

    References
    ----------
    .. [1] common_practice, controller kinds
    """
    answers: dict[tuple[str, str], tuple[bool, str]] = {
        ("electric", "electric_only"): (
            True,
            "Set the gain by the maker's trial stops; save it with the load.",
        ),
        ("electric", "electric_and_hydraulic"): (True, "Choose electric in its menu, then set the gain."),
        ("electric_over_hydraulic", "electric_and_hydraulic"): (
            True,
            "Choose electric-over-hydraulic in its menu, then set the gain.",
        ),
        ("electric_over_hydraulic", "electric_only"): (
            False,
            "A controller made for magnets alone may not wake or may burn out the actuator: ask both makers.",
        ),
        ("air", "air"): (True, "Air lines and antilock power are checks of their own."),
    }
    if trailer_brakes not in {"none", "electric", "electric_over_hydraulic", "surge", "air"}:
        raise OutOfRange("trailer_brakes", trailer_brakes, "must be a kind of brakes that is listed")
    if controller not in {"none", "electric_only", "electric_and_hydraulic", "air"}:
        raise OutOfRange("controller", controller, "must be a kind of controller that is listed")
    if trailer_brakes in {"none", "surge"}:
        what = "no brakes" if trailer_brakes == "none" else "surge brakes"
        return ControllerMatch(suits=True, remark=f"A trailer with {what} needs no controller.")
    found = answers.get((trailer_brakes, controller))
    if found is None:
        return ControllerMatch(suits=False, remark="The truck cannot work this trailer's brakes.")
    return ControllerMatch(*found)
