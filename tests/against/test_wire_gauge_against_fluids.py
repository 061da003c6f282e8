"""American wire gauge against the table of the package fluids."""

from __future__ import annotations

import math

import pytest
from fluids.piping import t_from_gauge

from sendoff.calc import wiring


@pytest.mark.parametrize("awg", range(1, 37))
def test_the_diameter_is_the_other_programs(awg: int) -> None:
    theirs_m = float(t_from_gauge(awg, schedule="AWG"))  # printed to a tenth of a mil
    assert math.isclose(wiring.wire_diameter(awg), theirs_m, rel_tol=1e-3, abs_tol=2e-6)
