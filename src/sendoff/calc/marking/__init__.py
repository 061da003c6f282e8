"""Marking: conspicuity tape, lamps, rear impact guard, and the wear limits of the periodic inspection."""

from __future__ import annotations

from sendoff.calc.marking.guard import (
    older_rear_check,
    rear_guard_check,
    rear_guard_required,
    special_purpose_rear,
)
from sendoff.calc.marking.inspection import (
    chain_wear_check,
    defective_brakes_check,
    inspection_check,
    inspection_limit,
    inspection_valid_until,
    section_loss_check,
    spring_check,
    wheel_fastener_check,
)
from sendoff.calc.marking.lamps import (
    driveaway_lamps,
    lamp_height_check,
    lamps_needed,
    load_projection,
    warning_devices,
)
from sendoff.calc.marking.tape import (
    conspicuity_required,
    older_trailer_tape_required,
    reflector_spacing_check,
    side_tape_check,
    tape_block_check,
    tape_plan,
    tape_width,
)

__all__ = [
    "chain_wear_check",
    "conspicuity_required",
    "defective_brakes_check",
    "driveaway_lamps",
    "inspection_check",
    "inspection_limit",
    "inspection_valid_until",
    "lamp_height_check",
    "lamps_needed",
    "load_projection",
    "older_rear_check",
    "older_trailer_tape_required",
    "rear_guard_check",
    "rear_guard_required",
    "reflector_spacing_check",
    "section_loss_check",
    "side_tape_check",
    "special_purpose_rear",
    "spring_check",
    "tape_block_check",
    "tape_plan",
    "tape_width",
    "warning_devices",
    "wheel_fastener_check",
]
