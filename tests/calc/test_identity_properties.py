"""What must hold of identification numbers whatever they are."""

from __future__ import annotations

import datetime as dt
import itertools

from hypothesis import given
from hypothesis import strategies as st

from sendoff import tables
from sendoff.calc import identity

numbers = st.text(alphabet=identity.VIN_SYMBOLS, min_size=17, max_size=17)
days = st.dates(dt.date(2000, 7, 2), dt.date(2099, 12, 26))


def completed(vin: str) -> str:
    """The number with its check digit put right."""
    return vin[:8] + identity.vin_check_digit(vin) + vin[9:]


def value(sign: str) -> int:
    letters = {row["letter"]: row["value"] for row in tables.load("vin_letter_values").rows}
    return int(sign) if sign.isdigit() else int(letters[sign])


@given(numbers)
def test_a_number_given_its_own_check_digit_passes(vin: str) -> None:
    done = identity.vin_check(completed(vin))
    assert done.check_digit == done.found
    assert not any("place 9" in problem for problem in done.problems)


@given(numbers, st.integers(0, 16), st.sampled_from(identity.VIN_SYMBOLS))
def test_one_character_written_wrong_is_noticed_unless_it_has_the_same_value(
    vin: str, place: int, sign: str
) -> None:
    right = completed(vin)
    wrong = right[:place] + sign + right[place + 1 :]
    noticed = sign != right[8] if place == 8 else value(sign) != value(right[place])
    assert (identity.vin_check(wrong).check_digit != wrong[8]) == noticed


@given(numbers)
def test_capitals_spaces_and_dashes_change_nothing(vin: str) -> None:
    spread = f" {vin[:3].lower()}-{vin[3:9]} {vin[9:].lower()} "
    assert identity.vin_check(spread) == identity.vin_check(vin)


@given(numbers)
def test_the_parts_make_the_whole(vin: str) -> None:
    parts = identity.vin_parts(vin)
    small = parts.maker[3:] if parts.small_maker else ""
    whole = (
        parts.maker[:3]
        + parts.attributes
        + parts.check_digit
        + parts.year_code
        + parts.plant
        + small
        + parts.serial
    )
    assert whole == vin


@given(st.integers(1980, 2039))
def test_a_year_and_its_code_lead_back_to_each_other(year: int) -> None:
    code = identity.vin_year_code(year)
    back = identity.vin_model_year(f"1T9CA202?{code}1000001".replace("?", "0"), dt.date(year, 6, 1))
    assert back.model_year == year
    assert code not in "IOQUZ0"


@given(days)
def test_a_tire_made_on_a_day_carries_the_week_that_holds_it(day: dt.date) -> None:
    week = identity.tire_week(identity.tire_date_code(day))
    assert week.first_day <= day <= week.last_day
    assert week.first_day.isoweekday() == 7
    assert week.last_day - week.first_day == dt.timedelta(days=6)
    assert week.first_day.year == week.year


@given(st.integers(2000, 2099))
def test_every_week_of_a_year_follows_the_one_before(year: int) -> None:
    weeks = [
        identity.tire_week(f"{week:02d}{year % 100:02d}") for week in range(1, identity.weeks_in(year) + 1)
    ]
    assert weeks[0].first_day.day <= 7
    for before, after in itertools.pairwise(weeks):
        assert after.first_day - before.last_day == dt.timedelta(days=1)
    assert (weeks[-1].last_day - dt.date(year, 12, 31)).days <= 6, (
        "no more than six days of the following year"
    )
