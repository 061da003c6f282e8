"""The limits of a unit's own systems, from the values of its cards: brakes, power, lift, shape, tie-down points.

What is not fitted asks for nothing. What is fitted but lacks a number says what to measure, or whom to ask.
"""

from __future__ import annotations

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.findings import brake_limits, lift_limits, power_limits, shape_limits
from sendoff.findings.model import Finding


def findings_of(unit: AsBuiltUnit) -> tuple[Finding, ...]:
    """Return every finding of a unit's own systems."""
    return (
        *brake_limits.findings_of(unit),
        *power_limits.findings_of(unit),
        *lift_limits.findings_of(unit),
        *shape_limits.findings_of(unit),
    )
