"""Monotone where physics is: more of one input never gives less (or more) of a result, all else as in a good call.

Each row names a calculation, an input, a field of the result (empty for a bare number) and the direction. The input is
stepped up from the worked example; steps that are refused end the row. At least one step must truly change the result.
"""

from __future__ import annotations

import itertools
from typing import Any, Final

import pytest

from sendoff.calc import calculations
from sendoff.errors import OutOfRange
from tests.calc.test_spoiled_calls import _base

RISES: Final = """
cylinder_push pressure_Pa
cylinder_push bore_m
cylinder_pull bore_m
cylinder_volume stroke_m push_m3
cylinder_time stroke_m
cylinder_time bore_m
rod_speed flow_m3ps
hydraulic_power pressure_Pa
pump_motor_current flow_m3ps
pump_flow pump_rps
shaft_torque power_W
hydraulic_press second_diameter_m second_N
relief_check working_Pa used_ratio
reservoir_check bore_m drawn_m3
oil_expansion rise_dK
trapped_oil_pressure rise_dK
telescopic_cylinder pressure_Pa least_push_N
hinged_lift cylinder_N capacity_kg
scissor_force load_N
scissor_capacity angle_rad
lock_pin_load cargo_kg each_N
lock_pin_diameter force_N diameter_m
lock_pin_diameter factor_number diameter_m
side_slope_limit track_m
grade_force grade_ratio
rolling_force mass_kg
winch_pull grade_ratio total_N
sinking_resistance sunk_m
drum_capacity layers
tackle_line_pull load_N
block_load line_N
anchor_load anchored_parts
winch_current line_N
winch_pull_charge rope_m charge_C
clamp_load proof_share_ratio
bolt_torque clamp_N
clamp_from_torque torque_Nm
bearing_grease_charge width_m
grease_strokes grease_kg
ramp_angle rise_m
least_ramp_length rise_m
approach_angle bumper_height_m
departure_angle bumper_height_m
breakover_angle belly_height_m
crest_check ramp_rad crest_m
axle_loads_on_slope center_height_m lower_N
axle_loads_on_slope ramp_rad lower_share_ratio
ramp_rating_check mass_kg demand_kg
power_line_distance line_V least_m
power_line_transit line_V keep_m
jack_force mass_kg
jack_force center_from_axles_m
jack_force_on_slope nose_down_rad jack_N
lift_to_clear_ball ball_top_m lift_m
side_lift_force axle_N
push_force slope_rad
charge_from_gravity read_gravity_number
charge_from_rest_voltage rest_V
gravity_at_80F temperature_K
rest_voltage_from_gravity gravity_number
cold_capacity temperature_K
usable_charge charge_ratio
usable_charge temperature_K
cycle_charge run_s
cycles_per_charge capacity_C usable_C
recharge_time charge_out_C bulk_s
tow_lead_charge alternator_V current_A
solar_charge panel_W
peukert_run_time capacity_C
reserve_capacity_charge reserve_time_s
charge_converter output_A input_A
resistance_at_temperature wanted_at_K
solid_wire_resistance awg
wire_drop current_A drop_V
wire_drop one_way_length_m drop_V
wire_drop temperature_K drop_V
voltage_drop current_A
least_copper_area round_trip_length_m
least_copper_area current_A
copper_resistance length_m
lamp_load marker_lamps tail_circuit_A
temperature_of_viscosity at_40C_m2ps
viscosity_index at_100C_m2ps
saybolt_viscosity saybolt_s
tape_plan trailer_length_m red_white_total_m
bulk_load depth_m mass_kg
round_bale diameter_m
square_bale length_m
floor_area_per_head animal_kg
head_count floor_m2 by_floor
add_item item_mass_kg axle_group_change_kg
place_for_tongue_share wanted_share_ratio ahead_of_axles_m
coupling_lift_off coupling_load_kg lifts_at_kg
"""
FALLS: Final = """
cylinder_pull rod_m
cylinder_time flow_m3ps
rod_speed bore_m
hydraulic_power pump_efficiency_ratio
pump_motor_current supply_V
shaft_torque shaft_rps
relief_check relief_Pa used_ratio
hinged_lift load_x_m capacity_kg
scissor_force angle_rad
lock_pin_load lock_pin_x_m each_N
lock_pin_diameter shear_strength_Pa diameter_m
side_slope_limit center_height_m
layer_pull_ratio layer
layer_pull layer
wraps_left drum_diameter_m wraps_left_count
tackle_line_pull line_parts
tackle_line_pull sheave_efficiency_ratio
block_load between_rad
winch_rope_limit factor_number
winch_check grade_ratio margin_N
clamp_from_torque nut_factor_number
ramp_angle ramp_length_m
least_ramp_length ramp_rad
approach_angle overhang_m
breakover_angle wheelbase_m
crest_check wheelbase_m clearance_m
jack_force jack_from_axles_m
lift_to_clear_ball coupler_lip_m lift_m
freezing_point_by_gravity gravity_number
freezing_point_by_charge charge_ratio
stand_gravity stood_s
sealed_stand_charge stood_s
cycles_per_charge current_A whole_count
recharge_time charger_A bulk_s
overnight_charge charge_ratio needed_s
tow_lead_charge one_way_length_m current_A
tow_lead_charge battery_V current_A
solar_recharge_time drawn_per_day_C per_day_C
peukert_run_time current_A
wire_diameter awg
wire_area awg
copper_resistance area_m2
wire_drop current_A at_load_V
least_copper_area allowed_drop_V
viscosity_at temperature_K
fill_line length_m depth_m
head_count animal_kg by_floor
crowding_check head each_m2
trailer_loads center_x_m coupling_load_kg
coupling_lift_off behind_axles_m lifts_at_kg
coupling_lift_off load_kg coupling_left_kg
"""
START: Final[dict[str, dict[str, Any]]] = {
    "anchor_load": {"anchored_parts": 1},
    "axle_loads_on_slope": {"ramp_rad": 0.2},
    "clamp_from_torque": {"nut_factor_number": 0.15},
    "clamp_load": {"proof_share_ratio": 0.6},
    "freezing_point_by_charge": {"charge_ratio": 0.5},
    "freezing_point_by_gravity": {"gravity_number": 1.1},
    "power_line_distance": {"line_V": 49_000.0},
    "power_line_transit": {"line_V": 500_000.0},
    "reservoir_check": {"double_acting": False},
    "tow_lead_charge": {"alternator_V": 14.2, "battery_V": 12.8, "one_way_length_m": 10.0, "awg": 10},
    "usable_charge": {"temperature_K": 260.0, "charge_ratio": 0.9},
}
"""Where the worked example stands on a flat piece or at an end of the range."""
STEPS: Final = (1.0, 1.005, 1.02, 1.05, 1.1, 1.2, 1.35)


def _rows(text: str, sign: int) -> list[tuple[str, str, str, int]]:
    rows = []
    for line in text.strip().splitlines():
        name, argument, *field = line.split()
        rows.append((name, argument, field[0] if field else "", sign))
    return rows


ROWS: Final = [*_rows(RISES, 1), *_rows(FALLS, -1)]


def _stepped(value: Any, step: float, place: int) -> Any:
    if isinstance(value, int):
        return value + place
    return (value or 0.01) * step if value >= 0 else value / step


@pytest.mark.parametrize(("name", "argument", "field", "sign"), ROWS)
def test_more_of_it_never_turns_the_result_the_other_way(
    name: str, argument: str, field: str, sign: int
) -> None:
    base = {**_base(name), **START.get(name, {})}
    if argument not in base:
        pytest.fail(f"no worked example of {name} names {argument}")
    found: list[float] = []
    for place, step in enumerate(STEPS):
        inputs = {**base, argument: _stepped(base[argument], step, place)}
        try:
            result = calculations()[name].function(**inputs)
        except OutOfRange:
            break
        found.append(float(getattr(result, field) if field else result))
    assert len(found) >= 2, "no second step was answered"
    hair = 1e-9 * max(abs(value) for value in found)
    for before, after in itertools.pairwise(found):
        assert sign * (after - before) >= -hair, found
    assert sign * (found[-1] - found[0]) > hair, f"nothing changes: {found}"
