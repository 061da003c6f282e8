"""Fasteners: bolts by grade and clamp, and wheel nuts by wheel, stud and nut together."""

from __future__ import annotations

from sendoff.calc.fasteners.bolts import (
    bolt_torque,
    clamp_from_torque,
    clamp_load,
    proof_load,
    proof_strength,
    thread_engagement_check,
    thread_stress_area,
)
from sendoff.calc.fasteners.wheels import (
    retorque_plan,
    torque_sequence,
    wheel_nut_bands,
    wheel_nut_torque,
    wheel_torque_check,
)

__all__ = [
    "bolt_torque",
    "clamp_from_torque",
    "clamp_load",
    "proof_load",
    "proof_strength",
    "retorque_plan",
    "thread_engagement_check",
    "thread_stress_area",
    "torque_sequence",
    "wheel_nut_bands",
    "wheel_nut_torque",
    "wheel_torque_check",
]
