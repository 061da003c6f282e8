"""Identity: vehicle identification numbers (49 CFR 565) and tire identification numbers (49 CFR 574), both ways.

Check digits use integer remainders, never the decimals of the rule's table V (which prints 0.634 for 7/11).
Tire weeks run from Sunday to Saturday and week 01 is the first full one; they are not the weeks of ISO 8601.
"""

from __future__ import annotations

import datetime as dt
import string
from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_one_of
from sendoff.errors import OutOfRange
from sendoff.tables import Table

VehicleKind = Literal["trailer", "heavy_truck", "car_or_light_truck"]
"""What the number is on; "heavy" is above 10,000 lb of gross vehicle weight rating, where the rule changes."""

VIN_SYMBOLS: Final = "ABCDEFGHJKLMNPRSTUVWXYZ0123456789"  # 565.13(g)
TIRE_SYMBOLS: Final = "ABCDEFHJKLMNPRTUVWXY1234567890"  # 574.5(f)
FIRST_FOUR_DIGIT_CODE: Final = dt.date(2000, 7, 2)  # the Sunday from which 64 FR 36807 asks for four digits


@dataclass(frozen=True, slots=True)
class VinCheck:
    """What the check digit says of a vehicle identification number, and what else is wrong with it."""

    valid: bool
    check_digit: str
    """The ninth character as it must be."""
    found: str
    """The ninth character as it is."""
    weighted_sum_count: int
    remainder_count: int
    problems: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class VinParts:
    """What each part of a vehicle identification number is for."""

    maker: str
    """Three characters, or six for a maker of fewer than 1,000 vehicles of a type a year."""
    small_maker: bool
    attributes: str
    check_digit: str
    year_code: str
    plant: str
    serial: str


@dataclass(frozen=True, slots=True)
class ModelYear:
    """The model year a tenth character stands for."""

    code: str
    model_year: int
    other_years: tuple[int, ...]
    """Years the same code stands for, thirty years apart."""
    how: str


@dataclass(frozen=True, slots=True)
class TireWeek:
    """A week in which a tire was made."""

    week: int
    year: int
    first_day: dt.date
    last_day: dt.date


@dataclass(frozen=True, slots=True)
class OldTireWeek:
    """What a date code of three digits leaves open: the week and the years that end in its last digit."""

    week: int
    years: tuple[int, ...]
    newest_last_day: dt.date


@dataclass(frozen=True, slots=True)
class TireIdentification:
    """What each part of a tire identification number is for."""

    form: Literal["new", "new, older form", "retread"]
    plant: str
    makers_code: str
    date_code: str
    week: int
    year: int
    first_day: dt.date
    last_day: dt.date


def _vin(vin: str, *, open_check: bool = False) -> str:
    """Return the number in capitals, without the spaces and dashes people put in; refuse what cannot be one."""
    plain = "".join(sign for sign in vin.strip().upper() if sign not in " -\N{NO-BREAK SPACE}")
    if len(plain) != 17:
        raise OutOfRange("vin", vin, f"must have 17 characters, this has {len(plain)}")
    for place, sign in enumerate(plain, 1):
        if place == 9 and open_check and sign in "?_.*":
            continue
        if sign not in VIN_SYMBOLS:
            hint = {"I": " (look for a 1)", "O": " (look for a 0)", "Q": " (look for a 0)"}.get(sign, "")
            raise OutOfRange(
                "vin", vin, f"must not hold '{sign}', as at place {place}; I, O and Q are never used{hint}"
            )
    return plain


@calculation(
    "identity",
    "S = Σ value(character) · weight(place), I, O and Q not used, place 9 weighs 0",
    gives="weighted_sum_count",
    symbols={"weighted_sum_count": "S"},
    tables={"values": "vin_letter_values", "weights": "vin_weights"},
)
def vin_weighted_sum(vin: str, values: Table | None = None, weights: Table | None = None) -> int:
    """Weighted sum of a vehicle identification number, from which its check digit follows.

    Each figure counts as itself, each letter as table III says, each place as table IV says; the products are added.

    Parameters
    ----------
    vin : str
        The number; its ninth character may be left open as ? or _.
    values : Table, optional
        Value of each letter.
    weights : Table, optional
        Weight of each place.

    Returns
    -------
    int
        Sum of the products [-].

    Raises
    ------
    OutOfRange
        If the number has not 17 characters, or holds I, O, Q or any sign but letters and figures.

    Notes
    -----
    Numbers of 17 characters, in use since model year 1981.

    Examples
    --------
    The sample of table VI sums to 411; ours agrees exactly.

    >>> vin_weighted_sum("1G4AH59H?5G118341")
    411

    References
    ----------
    .. [1] 49cfr565, 565.15(c)(1)-(3), tables III, IV and VI
    .. [2] 49cfr565, 565.13(b),(g)
    """
    plain = _vin(vin, open_check=True)
    letter = {row["letter"]: row["value"] for row in (values or tables.load("vin_letter_values")).rows}
    weight = {row["place"]: row["weight"] for row in (weights or tables.load("vin_weights")).rows}
    return sum(
        weight[place] * (int(sign) if sign.isdigit() else letter[sign])
        for place, sign in enumerate(plain, 1)
        if weight[place]
    )


@calculation(
    "identity",
    "check digit = S mod 11, written X for 10",
    gives="check_digit",
)
def vin_check_digit(vin: str) -> str:
    """Check digit a vehicle identification number must carry in its ninth place.

    The whole remainder of the weighted sum divided by 11, never a decimal: table V misprints 7/11 as 0.634.

    Parameters
    ----------
    vin : str
        The number; its ninth character does not count and may be left open as ? or _.

    Returns
    -------
    str
        One figure, or X for ten [-].

    Raises
    ------
    OutOfRange
        If the number has not 17 characters, or holds I, O, Q or any sign but letters and figures.

    Notes
    -----
    Numbers of 17 characters, in use since model year 1981.

    Examples
    --------
    The sample of table VI has check digit 4, another public one X; ours agrees exactly.

    >>> vin_check_digit("1G4AH59H?5G118341"), vin_check_digit("1M8GDM9A_KP042788")
    ('4', 'X')

    References
    ----------
    .. [1] 49cfr565, 565.15(c)(3)-(5), tables V and VI
    """
    remainder = vin_weighted_sum(vin) % 11
    return "X" if remainder == 10 else str(remainder)


@calculation(
    "identity", "valid = 17 allowed characters, ninth = check digit, year code in use, figures at the end"
)
def vin_check(vin: str, vehicle: VehicleKind = "trailer") -> VinCheck:
    """Whether a vehicle identification number can be right, and what is wrong with it if not.

    Compares the ninth character with the check digit, the tenth with the year codes, and the end with the figures
    the rule asks for: the last four on a trailer or heavy truck, the last five on a car or light truck.

    Parameters
    ----------
    vin : str
        The number; capitals or not, spaces and dashes are passed over.
    vehicle : {"trailer", "heavy_truck", "car_or_light_truck"}
        What the number is on.

    Returns
    -------
    VinCheck
        Whether it is valid, the check digit as it must be and as found, and every problem in words [-].

    Raises
    ------
    OutOfRange
        If the number has not 17 characters, or holds I, O, Q or any sign but letters and figures.

    Notes
    -----
    A valid number can still belong to another vehicle: compare plate, frame, certificate and bill, letter by letter.

    Examples
    --------
    A public example with remainder 10 and sum 351; ours agrees exactly.

    >>> done = vin_check("1M8GDM9AXKP042788", "heavy_truck")
    >>> done.valid, done.check_digit, done.weighted_sum_count, done.remainder_count
    (True, 'X', 351, 10)

    References
    ----------
    .. [1] 49cfr565, 565.15(c),(d) and table VII
    .. [2] 49cfr565, 565.13(b),(c),(g)
    """
    plain = _vin(vin)
    require_one_of(("trailer", "heavy_truck", "car_or_light_truck"), vehicle=vehicle)
    total = vin_weighted_sum(plain)
    check = vin_check_digit(plain)
    problems = []
    if plain[8] != check:
        problems.append(f"place 9 is {plain[8]} and must be {check}: one character at least is wrong")
    if plain[9] in "UZ0":
        problems.append(f"place 10 is {plain[9]}, which stands for no model year")
    tail = 5 if vehicle == "car_or_light_truck" else 4
    if not plain[-tail:].isdigit():
        problems.append(f"the last {tail} characters must be figures")
    return VinCheck(not problems, check, plain[8], total, total % 11, tuple(problems))


@calculation(
    "identity",
    "1-3 maker (with 12-14 if place 3 is 9), 4-8 attributes, 9 check, 10 year, 11 plant, rest serial",
)
def vin_parts(vin: str) -> VinParts:
    """Parts of a vehicle identification number: maker, attributes, check digit, year, plant, serial.

    A 9 in the third place always tells a maker of fewer than 1,000 vehicles of a type a year: the maker is then
    known by places 1 to 3 with 12 to 14 together, and only the last three are the serial number.

    Parameters
    ----------
    vin : str
        The number; capitals or not, spaces and dashes are passed over.

    Returns
    -------
    VinParts
        The parts as they stand in the number [-].

    Raises
    ------
    OutOfRange
        If the number has not 17 characters, or holds I, O, Q or any sign but letters and figures.

    Notes
    -----
    The check digit is not judged here; ask `vin_check`.

    Examples
    --------
    An invented number of trailer shape, split as the rule says.

    >>> parts = vin_parts("1T9CA2022S1000001")
    >>> parts.maker, parts.small_maker, parts.year_code, parts.serial
    ('1T9000', True, 'S', '001')

    References
    ----------
    .. [1] 49cfr565, 565.15(a),(b),(d)
    .. [2] 49cfr565, 565.12(e),(h),(k)
    """
    plain = _vin(vin)
    small = plain[2] == "9"
    maker = plain[:3] + (plain[11:14] if small else "")
    return VinParts(
        maker, small, plain[3:8], plain[8], plain[9], plain[10], plain[14:] if small else plain[11:]
    )


@calculation("identity", "year code repeats every 30 years; light vehicles: letter in place 7 = 2010-2039",
             tables={"years": "vin_year_codes"})  # fmt: skip
def vin_model_year(
    vin: str, today: dt.date, vehicle: VehicleKind = "trailer", years: Table | None = None
) -> ModelYear:
    """Model year a vehicle identification number stands for.

    On cars and light trucks place 7 tells the thirty years meant. On trailers and heavy trucks it does not: the
    newest year is taken that is not beyond the year after `today`.

    Parameters
    ----------
    vin : str
        The number.
    today : date
        The day it is asked; a model year may run ahead of the calendar by one.
    vehicle : {"trailer", "heavy_truck", "car_or_light_truck"}
        What the number is on.
    years : Table, optional
        Year code of each model year.

    Returns
    -------
    ModelYear
        Code, model year, the other years of the same code, and how it was told [-].

    Raises
    ------
    OutOfRange
        If the number is none, or its tenth character stands for no year.

    Notes
    -----
    Model years 1980 to 2039. The years up to 2004 are no longer printed in the rule and are from memory.

    Examples
    --------
    Table VII prints S for 2025.

    >>> vin_model_year("1T9CA2022S1000001", dt.date(2026, 5, 4)).model_year
    2025

    References
    ----------
    .. [1] 49cfr565, 565.15(d)(1), table VII and its note
    """
    plain = _vin(vin)
    require_one_of(("trailer", "heavy_truck", "car_or_light_truck"), vehicle=vehicle)
    code = plain[9]
    rows = (years or tables.load("vin_year_codes")).where(code=code)
    found = sorted(row["model_year"] for row in rows)
    if not found:
        raise OutOfRange("vin", vin, f"must have a year code at place 10; {code} stands for no year")
    if vehicle == "car_or_light_truck":
        recent = plain[6].isalpha()
        fitting = [year for year in found if (year >= 2010) is recent]
        how = f"place 7 is a {'letter: 2010 to 2039' if recent else 'figure: 1980 to 2009'}"
    else:
        fitting = [year for year in found if year <= today.year + 1]
        how = f"the newest year of this code not beyond {today.year + 1}"
    if not fitting:
        raise OutOfRange(
            "vin", vin, f"must have a year code of {today.year + 1} or before; {code} stands for {found[0]}"
        )
    year = fitting[-1]
    return ModelYear(code, year, tuple(other for other in found if other != year), how)


@calculation("identity", "code = table VII", gives="year_code", tables={"years": "vin_year_codes"})
def vin_year_code(model_year: int, years: Table | None = None) -> str:
    """Character that stands for a model year in the tenth place of a vehicle identification number.

    Letters without I, O, Q, U and Z, then figures 1 to 9: thirty codes, used again every thirty years.

    Parameters
    ----------
    model_year : int
        The model year [-].
    years : Table, optional
        Year code of each model year.

    Returns
    -------
    str
        One letter or figure [-].

    Raises
    ------
    OutOfRange
        Outside 1980 to 2039.

    Notes
    -----
    Model years 1980 to 2039. The years up to 2004 are no longer printed in the rule and are from memory.

    Examples
    --------
    Table VII prints T for 2026 and 1 for 2031; ours agrees exactly.

    >>> vin_year_code(2026), vin_year_code(2031)
    ('T', '1')

    References
    ----------
    .. [1] 49cfr565, 565.15(d)(1), table VII
    """
    return str((years or tables.load("vin_year_codes")).row(model_year=model_year)["code"])


def _first_sunday(year: int) -> dt.date:
    first = dt.date(year, 1, 1)
    return first + dt.timedelta(days=(6 - first.weekday()) % 7)


def weeks_in(year: int) -> int:
    """Return how many weeks of the tire calendar begin in `year`: as many as it has Sundays."""
    return (_first_sunday(year + 1) - _first_sunday(year)).days // 7


def _date_code(date_code: str, digits: int) -> str:
    plain = date_code.strip()
    if len(plain) != digits or not all(sign in string.digits for sign in plain):
        raise OutOfRange("date_code", date_code, f"must be {digits} figures, week first")
    return plain


@calculation("identity", "first day = first Sunday of the year + 7 · (week - 1), last day six days later")
def tire_week(date_code: str) -> TireWeek:
    """Week in which a tire was made, from the four figures that end its identification number.

    The first two figures are the week, the last two the year of this century. Week 01 is the first full week from
    Sunday to Saturday, so days before the first Sunday belong to the last week of the year before.

    Parameters
    ----------
    date_code : str
        Four figures, such as 0109.

    Returns
    -------
    TireWeek
        Week, year, and the first and last day of that week [-].

    Raises
    ------
    OutOfRange
        If it is not four figures, or the year has no such week: never 00 or 54, and 53 only in a year of 53 Sundays.

    Notes
    -----
    Years 2000 to 2099. Three figures mean a tire from before July 2000: ask `old_tire_week`.

    Examples
    --------
    The rule's own example: 0109 is the week of Sunday 4 to Saturday 10 January 2009.

    >>> week = tire_week("0109")
    >>> print(week.first_day, week.last_day)
    2009-01-04 2009-01-10

    References
    ----------
    .. [1] 49cfr574, 574.5(b)(3)
    .. [2] 64fr36807, four figures instead of three
    """
    if len(date_code.strip()) == 3:
        raise OutOfRange(
            "date_code", date_code, "must be four figures; three mean a tire from before July 2000"
        )
    plain = _date_code(date_code, 4)
    week, year = int(plain[:2]), 2000 + int(plain[2:])
    if not 1 <= week <= weeks_in(year):
        raise OutOfRange("date_code", date_code, f"must name a week from 01 to {weeks_in(year)} of {year}")
    first = _first_sunday(year) + dt.timedelta(weeks=week - 1)
    return TireWeek(week, year, first, first + dt.timedelta(days=6))


@calculation("identity", "week = (day - first Sunday of its year) div 7 + 1", gives="date_code")
def tire_date_code(made: dt.date) -> str:
    """Date code a tire made on a given day carries.

    The Sunday on or before the day opens its week; that Sunday's year is the year of the code.

    Parameters
    ----------
    made : date
        The day of manufacture.

    Returns
    -------
    str
        Week and year, two figures each [-].

    Raises
    ------
    OutOfRange
        Before 2 July 2000, when four figures were first asked for, and after 2099.

    Notes
    -----
    2 July 2000 to 2099.

    Examples
    --------
    The rule's own example read backwards; the day before it still belongs to week 52 of 2008.

    >>> tire_date_code(dt.date(2009, 1, 10)), tire_date_code(dt.date(2009, 1, 3))
    ('0109', '5208')

    References
    ----------
    .. [1] 49cfr574, 574.5(b)(3)
    """
    sunday = made - dt.timedelta(days=(made.weekday() + 1) % 7)
    if made < FIRST_FOUR_DIGIT_CODE or sunday.year > 2099:
        raise OutOfRange("made", made.isoformat(), "must be a day from 2000-07-02 to 2099")
    week = (sunday - _first_sunday(sunday.year)).days // 7 + 1
    return f"{week:02d}{sunday.year % 100:02d}"


@calculation("identity", "week = first two figures; year ends in the third, and is before July 2000")
def old_tire_week(date_code: str) -> OldTireWeek:
    """What a tire date code of three figures still tells: the week, and the years it may be of.

    The third figure is only the last one of the year; four figures have been asked for since July 2000, so the tire
    is older than that, whatever the decade.

    Parameters
    ----------
    date_code : str
        Three figures, such as 409.

    Returns
    -------
    OldTireWeek
        Week, the years it may be, and the last day of the newest of those weeks [-].

    Raises
    ------
    OutOfRange
        If it is not three figures, or none of the years had such a week.

    Notes
    -----
    Tires from 1971, when identification numbers began (from memory), to July 2000.

    Examples
    --------
    409 is week 40 of 1979, 1989 or 1999: in any case a tire of before 2000.

    >>> old_tire_week("409").years
    (1979, 1989, 1999)

    References
    ----------
    .. [1] 64fr36807, four figures instead of three
    """
    plain = _date_code(date_code, 3)
    week, digit = int(plain[:2]), int(plain[2])
    years = tuple(
        year
        for year in range(1971, 2001)
        if year % 10 == digit
        and 1 <= week <= weeks_in(year)
        and _first_sunday(year) + dt.timedelta(weeks=week - 1) < FIRST_FOUR_DIGIT_CODE
    )
    if not years:
        raise OutOfRange("date_code", date_code, "must name a week from 01 to 53 that one of the years had")
    last = _first_sunday(years[-1]) + dt.timedelta(weeks=week - 1, days=6)
    return OldTireWeek(week, years, last)


@calculation(
    "identity",
    "new: plant 3 + maker's code 6 + date 4; older: plant 2 + up to 6 + date 4; retread: plant 3 + date 4",
)
def tire_identification(tire_number: str) -> TireIdentification:
    """Parts of a tire identification number: plant, maker's code, week made.

    Thirteen symbols on a new tire, seven on a retread; eight to twelve with a plant code of two symbols, which were
    allowed until 13 April 2025. The letters G, I, O, Q, S and Z are never used.

    Parameters
    ----------
    tire_number : str
        The whole number as molded on the sidewall, with or without DOT before it.

    Returns
    -------
    TireIdentification
        The parts, and the first and last day of the week the tire was made in [-].

    Raises
    ------
    OutOfRange
        If it holds a letter that is never used, has a length no number has, or ends in a week that never was.

    Notes
    -----
    Numbers with a date of four figures, that is tires made since July 2000. One sidewall may show the number without
    its date: look on the other one.

    Examples
    --------
    Built by the rule: plant, six symbols, and the rule's own date 0109.

    >>> parts = tire_identification("DOT 1AB CDEF12 0109")
    >>> parts.form, parts.plant, parts.makers_code, str(parts.first_day)
    ('new', '1AB', 'CDEF12', '2009-01-04')

    References
    ----------
    .. [1] 49cfr574, 574.5(a),(b),(f),(g)
    """
    plain = "".join(sign for sign in tire_number.upper() if sign not in " -")
    plain = plain.removeprefix("DOT")
    for place, sign in enumerate(plain, 1):
        if sign not in TIRE_SYMBOLS:
            allowed = f"must not hold '{sign}', as at place {place}; G, I, O, Q, S and Z are never used"
            raise OutOfRange("tire_number", tire_number, allowed)
    form: Literal["new", "new, older form", "retread"]
    if len(plain) == 13:
        form, plant = "new", 3
    elif len(plain) == 7:
        form, plant = "retread", 3
    elif 8 <= len(plain) <= 12:
        form, plant = "new, older form", 2
    else:
        allowed = f"must have 13 symbols (7 on a retread, 8 to 12 in the older form), this has {len(plain)}"
        raise OutOfRange("tire_number", tire_number, allowed)
    date_code = plain[-4:]
    if not date_code.isdigit():
        raise OutOfRange("tire_number", tire_number, "must end in four figures, week and year")
    try:
        made = tire_week(date_code)
    except OutOfRange as refused:
        raise OutOfRange("tire_number", tire_number, f"{refused.allowed} at its end") from None
    return TireIdentification(
        form, plain[:plant], plain[plant:-4], date_code, made.week, made.year, made.first_day, made.last_day
    )


@calculation("identity", "place 9 = S mod 11, X for 10", gives="vin_whole")
def vin_with_check_digit(vin: str) -> str:
    """Whole vehicle identification number, its check digit put into the ninth place.

    The weighted sum of the other sixteen characters, divided by 11, leaves the check digit; 10 is written X.

    Parameters
    ----------
    vin : str
        The number with its ninth character left open as ? or _; one that stands there is written over.

    Returns
    -------
    str
        The number with its right check digit.

    Raises
    ------
    OutOfRange
        If the number has not 17 characters, or holds I, O, Q or any sign but letters and figures.

    Notes
    -----
    For a maker's own new numbers. Never to mend a number that does not check: then one of the others is wrong.

    Examples
    --------
    The sample of table VI.

    >>> vin_with_check_digit("1G4AH59H?5G118341")
    '1G4AH59H45G118341'

    References
    ----------
    .. [1] 49cfr565, 565.15(c), tables III, IV and VI
    """
    plain = _vin(vin, open_check=True)
    return f"{plain[:8]}{vin_check_digit(plain)}{plain[9:]}"


@calculation(
    "identity", "plant 3 (2 before April 2025) + maker's code 6 + week and year", gives="tire_number"
)
def tire_number_of(plant: str, makers_code: str, made: dt.date, *, retread: bool = False) -> str:
    """Tire identification number from plant, maker's code and the day the tire was made.

    Plant of three symbols, maker's code of six, week and year of `tire_date_code`; a retread has no maker's code.

    Parameters
    ----------
    plant : str
        Plant code: three symbols, or two of the older form.
    makers_code : str
        Maker's code: six symbols, up to six in the older form, empty on a retread.
    made : date
        Day of manufacture.
    retread : bool
        Whether it is a retread.

    Returns
    -------
    str
        The number, without DOT before it.

    Raises
    ------
    OutOfRange
        If a symbol is never used, a code has another length, or the day is before July 2000.

    Notes
    -----
    Numbers with a date of four figures. It answers the question "which number would that tire carry", never the tire.

    Examples
    --------
    The rule's own date 0109 on a number built by the rule.

    >>> tire_number_of("1AB", "CDEF12", dt.date(2009, 1, 7))
    '1ABCDEF120109'

    References
    ----------
    .. [1] 49cfr574, 574.5(a),(b),(f),(g)
    """
    parts = {"plant": plant.strip().upper(), "makers_code": makers_code.strip().upper()}
    for name, text in parts.items():
        if set(text) - set(TIRE_SYMBOLS):
            raise OutOfRange(name, text, "must hold figures and letters but G, I, O, Q, S and Z")
    if len(parts["plant"]) not in ({3} if retread else {2, 3}):
        raise OutOfRange("plant", plant, "must have three symbols, two in the older form")
    if retread and parts["makers_code"]:
        raise OutOfRange("makers_code", makers_code, "must be empty on a retread")
    if not retread and not (
        len(parts["makers_code"]) == 6 or (len(parts["plant"]) == 2 and 2 <= len(makers_code) < 6)
    ):
        raise OutOfRange("makers_code", makers_code, "must have six symbols, two to six in the older form")
    return f"{parts['plant']}{parts['makers_code']}{tire_date_code(made)}"
