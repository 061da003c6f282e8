"""Plugs: what each terminal carries by standard, the traps of their colors, and the load of the lamps."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange
from sendoff.tables import Row, Table

Standard = Literal[
    "blade_7_plug_cable",
    "blade_7_trailer_harness",
    "sae_j560",
    "flat_4",
    "flat_5",
    "iso_11446",
    "iso_1724",
    "iso_3732",
]
AnyStandard = Literal[
    "blade_7_plug_cable",
    "blade_7_trailer_harness",
    "sae_j560",
    "flat_4",
    "flat_5",
    "iso_11446",
    "iso_1724",
    "iso_3732",
    "iso_12098",
]
LAMP_CIRCUIT_A: Final = 7.5
_ALSO_CALLED: Final[dict[str, tuple[str, ...]]] = {
    "left turn": ("left",), "turn left": ("left",), "right turn": ("right",), "turn right": ("right",),
    "brakes": ("brake",), "electric brakes": ("brake",), "stop lamps": ("stop",), "brake lamps": ("stop",),
    "running": ("tail",), "running lamps": ("tail",), "tail lamps": ("tail",), "marker": ("tail", "clearance"),
    "markers": ("tail", "clearance"), "battery": ("charge", "constant_supply"), "charge lead": ("charge",),
    "aux": ("auxiliary",), "abs": ("auxiliary",), "antilock": ("auxiliary",), "earth": ("ground",),
    "return": ("ground",), "reverse": ("reverse_lockout", "auxiliary"), "backup": ("reverse_lockout", "auxiliary"),
    "fog": ("rear_fog",),
}  # fmt: skip
"""Other words for a function; the first that the plug has is meant."""


@dataclass(frozen=True, slots=True)
class Terminal:
    """One terminal of a plug."""

    standard: str
    terminal: str
    function: str
    color: str
    """Empty where no color was found."""
    least_awg: int | None
    least_area_m2: float | None
    note: str


def _terminal(row: Row) -> Terminal:
    return Terminal(
        row["standard"],
        row["terminal"],
        row["function"],
        row["color"] or "",
        row["least_awg"],
        row["least_area_m2"],
        row["note"],
    )


@calculation(
    "wiring",
    "read from the table of plug terminals",
    tables={"table": "plug_terminals"},
)
def plug_terminal(standard: Standard, terminal: str, table: Table | None = None) -> Terminal:
    """What one terminal of a trailer plug carries.

    Read from the table of the standard; there is no formula.

    Parameters
    ----------
    standard : {"blade_7_plug_cable", "blade_7_trailer_harness", "sae_j560", "flat_4", "flat_5", "iso_11446", "iso_1724", "iso_3732"}
        Plug and color scheme.
    terminal : str
        Number of the terminal, or its function where the plug has no numbers ("brake", "center").
    table : Table
        Terminals by standard.

    Returns
    -------
    Terminal
        Function, usual color, least conductor.

    Raises
    ------
    OutOfRange
        If the plug has no such terminal.

    Notes
    -----
    What the standard or habit says, not what somebody has wired: test each by function with a lamp or meter.

    Examples
    --------
    >>> plug_terminal("iso_11446", "6").function
    'stop'
    >>> plug_terminal("sae_j560", "7").color
    'blue'

    References
    ----------
    .. [1] plug_wiring_references, scheme by function
    .. [2] sae_j560, circuits
    .. [3] iso11446, functions
    """  # noqa: E501
    return _terminal((table or tables.load("plug_terminals")).row(standard=standard, terminal=terminal))


@calculation(
    "wiring",
    "read from the table of plug terminals",
    tables={"table": "plug_terminals"},
)
def plug_wire(standard: Standard, function: str, table: Table | None = None) -> Terminal:
    """Terminal, color and least gauge of a function in a plug.

    Read from the table of the standard; there is no formula.

    Parameters
    ----------
    standard : {"blade_7_plug_cable", "blade_7_trailer_harness", "sae_j560", "flat_4", "flat_5", "iso_11446", "iso_1724", "iso_3732"}
        Plug and color scheme.
    function : str
        What the wire is for: left, right, tail, stop, brake, charge, ground, auxiliary, reverse_lockout …
    table : Table
        Terminals by standard.

    Returns
    -------
    Terminal
        Terminal, usual color, least conductor.

    Raises
    ------
    OutOfRange
        If the plug has no wire for that function: a heavy tractor's plug has none for brake magnets.

    Notes
    -----
    What habit says. Test by function: adaptors swap left and right, and black and blue.

    Examples
    --------
    >>> plug_wire("blade_7_trailer_harness", "brake").least_awg
    12
    >>> plug_wire("sae_j560", "brake")
    Traceback (most recent call last):
    ...
    sendoff.errors.OutOfRange: function: must be one of ground, clearance, left, stop, right, tail, auxiliary (table plug_terminals) (found brake)

    References
    ----------
    .. [1] plug_wiring_references, usual least gauge by function
    .. [2] sae_j560, circuits
    """  # noqa: E501
    every = table or tables.load("plug_terminals")
    if not every.where(standard=standard, function=function):
        said = " ".join(function.casefold().replace("_", " ").replace("-", " ").split())
        meant = (
            other for other in _ALSO_CALLED.get(said, ()) if every.where(standard=standard, function=other)
        )
        function = next(meant, function)
    return _terminal(every.row(standard=standard, function=function))


@dataclass(frozen=True, slots=True)
class PlugColor:
    """What a color carries in one scheme."""

    function: str
    terminal: str
    brake_feed: bool
    """Whether brake magnets hang on it."""
    note: str


@calculation("wiring", "read from the table of plug terminals", tables={"table": "plug_terminals"})
def plug_color(standard: Standard, color: str, table: Table | None = None) -> PlugColor:
    """What a wire of one color carries in one plug or color scheme.

    Read from the table of the standard; there is no formula.

    Parameters
    ----------
    standard : {"blade_7_plug_cable", "blade_7_trailer_harness", "sae_j560", "flat_4", "flat_5", "iso_11446", "iso_1724", "iso_3732"}
        Plug and color scheme.
    color : str
        Color of the wire.
    table : Table
        Terminals by standard.

    Returns
    -------
    PlugColor
        Function, terminal, whether it feeds brake magnets, note.

    Raises
    ------
    OutOfRange
        If the scheme has no such color.

    Notes
    -----
    What the scheme says, not what somebody has wired. Blue feeds brakes in one plug and antilock power in another.

    Examples
    --------
    Yellow is the left turn of a heavy tractor's plug, and the center of a molded seven-blade cable.

    >>> plug_color("sae_j560", "yellow").function, plug_color("blade_7_plug_cable", "yellow").function
    ('left', 'auxiliary')

    References
    ----------
    .. [1] sae_j560, circuits by color
    .. [2] plug_wiring_references, scheme by function
    .. [3] iso11446, functions
    """  # noqa: E501
    every = [row for row in (table or tables.load("plug_terminals")).rows if row["standard"] == standard]
    found = [row for row in every if row["color"] == _color(color)]
    if not found:
        colors = sorted({str(row["color"]) for row in every if row["color"]})
        raise OutOfRange(
            "color", color, f"must be one of {', '.join(colors) or 'none: no colors were found'}"
        )
    function = str(found[0]["function"])
    return PlugColor(function, found[0]["terminal"], function == "brake", found[0]["note"])


def _color(text: str) -> str:
    return text.strip().casefold().replace("grey", "gray")


@dataclass(frozen=True, slots=True)
class ColorTrap:
    """What one color means in two schemes."""

    color: str
    first: str
    """Function in the first scheme; empty if it has no such color."""
    second: str
    same: bool
    warning: str


@calculation(
    "wiring",
    "same color, function in one scheme against function in the other",
    tables={"table": "plug_terminals"},
)
def color_trap(
    color: str,
    first_standard: Standard = "blade_7_plug_cable",
    second_standard: Standard = "blade_7_trailer_harness",
    table: Table | None = None,
) -> ColorTrap:
    """What one wire color means in two schemes, and warn where they differ.

    Both schemes are read from the table and compared.

    Parameters
    ----------
    color : str
        Color of the wire.
    first_standard : {"blade_7_plug_cable", "blade_7_trailer_harness", "sae_j560", "flat_4", "flat_5", "iso_11446", "iso_1724", "iso_3732"}
        One scheme, the cable molded to the plug if not given.
    second_standard : {"blade_7_plug_cable", "blade_7_trailer_harness", "sae_j560", "flat_4", "flat_5", "iso_11446", "iso_1724", "iso_3732"}
        The other scheme, the trailer's own harness if not given.
    table : Table
        Terminals by standard.

    Returns
    -------
    ColorTrap
        Function in each, whether they agree, what to do.

    Raises
    ------
    OutOfRange
        If neither scheme has the color.

    Notes
    -----
    A wire is joined by what it does, never by its color.

    Examples
    --------
    Green is the tail lamps in plug cable and the right turn in a trailer's harness.

    >>> found = color_trap("green")
    >>> found.first, found.second, found.same
    ('tail', 'right', False)

    References
    ----------
    .. [1] plug_wiring_references, plug cable against trailer harness
    """  # noqa: E501
    every = (table or tables.load("plug_terminals")).rows
    color = _color(color)
    named = [
        next(
            (str(row["function"]) for row in every if row["standard"] == standard and row["color"] == color),
            "",
        )
        for standard in (first_standard, second_standard)
    ]
    if not any(named):
        colors = sorted(
            {row["color"] for row in every if row["standard"] in {first_standard, second_standard}} - {None}
        )
        raise OutOfRange("color", color, f"must be one of {', '.join(colors)}")
    same = named[0] == named[1]
    warning = (
        "Test by function all the same." if same else "Do not join by color. Test each wire by function."
    )
    return ColorTrap(color, named[0], named[1], same, warning)


@dataclass(frozen=True, slots=True)
class PlugStandard:
    """A plug as a whole."""

    terminal_count: int
    voltage_V: float
    brake_output: bool
    """Whether it has a terminal for brake magnets."""
    remark: str


@calculation("wiring", "read from the table of plug standards", tables={"table": "plug_standards"})
def plug_standard(standard: AnyStandard, table: Table | None = None) -> PlugStandard:
    """How many terminals a plug has, its voltage, and whether it can feed brake magnets.

    Read from the table; there is no formula.

    Parameters
    ----------
    standard : {"blade_7_plug_cable", "blade_7_trailer_harness", "sae_j560", "flat_4", "flat_5", "iso_11446", "iso_1724", "iso_3732", "iso_12098"}
        Plug.
    table : Table
        Plug standards.

    Returns
    -------
    PlugStandard
        Number of terminals, voltage, brake output, remark.

    Raises
    ------
    OutOfRange
        If the table has no such plug.

    Notes
    -----
    As the standards describe them; a truck may have fewer leads behind the socket.

    Examples
    --------
    >>> plug_standard("sae_j560").brake_output
    False
    >>> plug_standard("iso_12098").terminal_count
    15

    References
    ----------
    .. [1] sae_j2863, scope
    .. [2] sae_j560, scope
    .. [3] iso12098, scope
    """  # noqa: E501
    row = (table or tables.load("plug_standards")).row(standard=standard)
    return PlugStandard(row["terminal_count"], row["voltage_V"], row["brake_output"], row["remark"])


@dataclass(frozen=True, slots=True)
class LampLoad:
    """Current of a trailer's filament lamps by circuit."""

    tail_circuit_A: float
    """Tail and marker lamps."""
    stop_circuit_A: float
    """All stop and turn lamps lit at once."""
    within_circuit_limit: bool
    """Each circuit at or under 7.5 A, the limit of light-trailer connectors."""


@calculation(
    "wiring",
    "I = Σ count · current of the lamp",
    symbols={"tail_circuit_A": "It", "stop_circuit_A": "Is"},
    tables={"table": "lamp_currents"},
)
def lamp_load(
    tail_lamps: int, marker_lamps: int, stop_turn_lamps: int = 2, table: Table | None = None
) -> LampLoad:
    """Current of a filament-lamped trailer and whether light connectors carry it.

    Sum of lamp counts times planning current; the limit of SAE J1239 is 7.5 A a circuit.

    Parameters
    ----------
    tail_lamps : int
        Tail lamps [-].
    marker_lamps : int
        Side markers, clearance and identification lamps together [-].
    stop_turn_lamps : int
        Stop and turn lamps [-].
    table : Table
        Planning current by lamp.

    Returns
    -------
    LampLoad
        Current of the tail circuit, of the stop lamps, and whether both keep the limit.

    Raises
    ------
    OutOfRange
        If a count is below zero or above 100.

    Notes
    -----
    Filament lamps, rounded for planning. LED lamps draw far less: ask their maker.

    Examples
    --------
    Two tail lamps and nine markers.

    >>> lamp_load(2, 9)
    LampLoad(tail_circuit_A=6.5, stop_circuit_A=4.0, within_circuit_limit=True)

    References
    ----------
    .. [1] lamp_planning, currents
    .. [2] sae_j1239, limit of a lighting circuit
    """
    for name, count in (
        ("tail_lamps", tail_lamps),
        ("marker_lamps", marker_lamps),
        ("stop_turn_lamps", stop_turn_lamps),
    ):
        if not 0 <= count <= 100:
            raise OutOfRange(name, count, "must lie from 0 to 100")
    rows = table or tables.load("lamp_currents")
    each = {lamp: float(rows.row(lamp=lamp)["current_A"]) for lamp in ("stop_turn", "tail", "marker")}
    tail_A = tail_lamps * each["tail"] + marker_lamps * each["marker"]
    stop_A = stop_turn_lamps * each["stop_turn"]
    return LampLoad(tail_A, stop_A, max(tail_A, stop_A) <= LAMP_CIRCUIT_A)
