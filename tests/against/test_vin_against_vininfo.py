"""Check digits and year codes against an independent implementation, the package vininfo."""

from __future__ import annotations

import datetime as dt

from hypothesis import given
from hypothesis import strategies as st
from vininfo import Vin  # type: ignore[import-untyped]

from sendoff.calc import identity

# vininfo leaves out makers known to use no check digit: keep to a made-up one
numbers = st.text(alphabet=identity.VIN_SYMBOLS, min_size=14, max_size=14).map("1T9".__add__)


@given(numbers, st.booleans())
def test_the_verdict_on_the_check_digit_is_the_same(vin: str, complete: bool) -> None:
    if complete:
        vin = vin[:8] + identity.vin_check_digit(vin) + vin[9:]
    done = identity.vin_check(vin)
    assert Vin(vin).verify_checksum(check_year=False) == (done.check_digit == done.found)


@given(numbers, st.sampled_from("ABCDEFGHJKLMNPRSTVWXY123456789"))
def test_the_years_of_a_code_are_the_same(vin: str, code: str) -> None:
    vin = vin[:9] + code + vin[10:]
    done = identity.vin_model_year(vin, dt.date(2039, 1, 1))
    ours = {done.model_year, *done.other_years}
    assert set(Vin(vin).years) <= ours, "vininfo leaves out years still to come"
    assert min(ours) in Vin(vin).years
