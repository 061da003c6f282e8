"""What the marks on a sidewall stand for: load index, speed symbol, load range, pressure index."""

from __future__ import annotations

from sendoff import tables
from sendoff.calc._limits import positive
from sendoff.calc.contract import calculation
from sendoff.tables import Table


@calculation("tires", "load = table of load indexes", gives="load_kg", symbols={"load_index": "LI", "load_kg": "L"},
             tables={"table": "tire_load_index"})  # fmt: skip
def load_index_mass(load_index: int, table: Table | None = None) -> float:
    """Load a tire of a load index carries, single, at its rated pressure.

    Read from the table of load indexes; a second index after a stroke is for dual wheels.

    Parameters
    ----------
    load_index : int
        The figure before the speed symbol, such as 126 [-].
    table : Table, optional
        Load of each index.

    Returns
    -------
    float
        Load per tire [kg].

    Raises
    ------
    OutOfRange
        If the table has no such index.

    Notes
    -----
    Indexes 60 to 170; below 90 and above 160 from memory.

    Examples
    --------
    Index 108 is 1,000 kg, which public charts give as 2,205 lb; ours is 2,204.6 lb.

    >>> load_index_mass(108)
    1000.0

    References
    ----------
    .. [1] un_r54, annex 4
    .. [2] iso4000, load index
    """
    return float((table or tables.load("tire_load_index")).row(load_index=load_index)["load_kg"])


@calculation("tires", "least load index whose load is not below the load", gives="load_index", symbols={"load_kg": "L"},
             tables={"table": "tire_load_index"})  # fmt: skip
def load_index_for(load_kg: float, table: Table | None = None) -> int:
    """Least load index of a tire that carries a load.

    The first of the table whose load reaches what is asked.

    Parameters
    ----------
    load_kg : float
        Load on one tire, single [kg].
    table : Table, optional
        Load of each index.

    Returns
    -------
    int
        Load index [-].

    Raises
    ------
    OutOfRange
        If the load is not above zero, or above the table's last.

    Notes
    -----
    Up to 6,000 kg. Below 250 kg the answer is 60, where the table begins.

    Examples
    --------
    1,000 kg asks for 108; one kilogram more for 109 (1,030 kg).

    >>> load_index_for(1000.0), load_index_for(1001.0)
    (108, 109)

    References
    ----------
    .. [1] un_r54, annex 4
    """
    positive(load_kg=load_kg)
    return int((table or tables.load("tire_load_index")).at_or_above("load_kg", load_kg)["load_index"])


@calculation("tires", "speed = table of speed symbols", gives="speed_mps", symbols={"speed_mps": "v"},
             tables={"table": "tire_speed_symbols"})  # fmt: skip
def tire_speed_limit(speed_symbol: str, table: Table | None = None) -> float:
    """Highest speed a tire may be driven at by its speed symbol.

    Read from the table of symbols; `none` is a special trailer tire without one.

    Parameters
    ----------
    speed_symbol : str
        The letter after the load index, such as L, or none.
    table : Table, optional
        Speed of each symbol.

    Returns
    -------
    float
        Highest speed [m/s].

    Raises
    ------
    OutOfRange
        If there is no such symbol.

    Notes
    -----
    The road's limit and the maker's own come before it. 65 mph without a symbol is the tire industry's convention,
    from memory.

    Examples
    --------
    L stands for 120 km/h, which charts give as 75 mph.

    >>> round(tire_speed_limit("L") * 3.6, 9)
    120.0

    References
    ----------
    .. [1] un_r54, category symbols
    .. [2] tra_tables, special trailer tires without a symbol
    """
    symbol = speed_symbol.strip()
    symbol = "none" if symbol.casefold() == "none" else symbol.upper()
    return float((table or tables.load("tire_speed_symbols")).row(speed_symbol=symbol)["speed_mps"])


@calculation(
    "tires", "ply rating = table of load ranges", gives="ply_rating", tables={"table": "tire_load_ranges"}
)
def ply_rating(load_range: str, table: Table | None = None) -> int:
    """Ply rating of a load range letter.

    A to N, two plies a letter, without I and K; the plies are a strength by name, not a count of layers.

    Parameters
    ----------
    load_range : str
        One letter, such as E.
    table : Table, optional
        Ply rating of each letter.

    Returns
    -------
    int
        Ply rating [-].

    Raises
    ------
    OutOfRange
        For any other letter; K, which one public list slips in, is refused.

    Notes
    -----
    A load range does not fix a pressure: C may be 35 or 55, D 50 or 65, E 65 or 80 psi. Read the sidewall.

    Examples
    --------
    E is a 10-ply rating, H 16.

    >>> ply_rating("E"), ply_rating("H")
    (10, 16)

    References
    ----------
    .. [1] tra_tables, load range letters
    """
    return int(
        (table or tables.load("tire_load_ranges")).row(load_range=load_range.strip().upper())["ply_rating"]
    )


@calculation(
    "tires", "load range = table of load ranges", gives="load_range", tables={"table": "tire_load_ranges"}
)
def load_range_of_ply(ply_rating: int, table: Table | None = None) -> str:
    """Load range letter of a ply rating.

    The table of load ranges read backwards.

    Parameters
    ----------
    ply_rating : int
        Ply rating, such as 16 [-].
    table : Table, optional
        Ply rating of each letter.

    Returns
    -------
    str
        Load range letter [-].

    Raises
    ------
    OutOfRange
        If no letter has that ply rating.

    Notes
    -----
    Even ratings from 2 to 24.

    Examples
    --------
    A 16-ply tire is load range H, an 18-ply one J.

    >>> load_range_of_ply(16), load_range_of_ply(18)
    ('H', 'J')

    References
    ----------
    .. [1] tra_tables, load range letters
    """
    return str((table or tables.load("tire_load_ranges")).row(ply_rating=ply_rating)["load_range"])


@calculation("tires", "pressure = table of pressure indexes", gives="pressure_Pa",
             tables={"table": "tire_pressure_index"})  # fmt: skip
def tire_pressure_index(pressure_index: int, table: Table | None = None) -> float:
    """Pressure a pressure index on a sidewall stands for, as the regulation rounds it.

    Read from the table; the regulation rounds to ten kilopascal, so it is not the exact conversion.

    Parameters
    ----------
    pressure_index : int
        The figure marked after PSI, such as 110 [-].
    table : Table, optional
        Pressure of each index.

    Returns
    -------
    float
        Pressure [Pa].

    Raises
    ------
    OutOfRange
        If the table has no such index.

    Notes
    -----
    Indexes 20 to 150 as printed. A test pressure of the tire, not what to set.

    Examples
    --------
    Index 110 is printed as 760 kPa.

    >>> tire_pressure_index(110)
    760000.0

    References
    ----------
    .. [1] un_r54, annex 7, appendix 2
    """
    return float(
        (table or tables.load("tire_pressure_index")).row(pressure_index=pressure_index)["pressure_Pa"]
    )
