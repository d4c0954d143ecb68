"""Which row of the equations' output bears which name."""

from __future__ import annotations

from simgait.arrays import Array
from simgait.physics import layout as rows
from simgait.symbols import MEASURES

MEASURE_ROWS = {
    "knee_flexion_moment_peak_nm": rows.KNEE_FLEXION_PEAK,
    "knee_flexion_moment_peak_nm_kg": rows.KNEE_FLEXION_PEAK,
    "knee_flexion_moment_peak_percent": rows.KNEE_FLEXION_PEAK_WHEN,
    "knee_extension_moment_peak_nm": rows.KNEE_EXTENSION_PEAK,
    "knee_extension_moment_peak_nm_kg": rows.KNEE_EXTENSION_PEAK,
    "knee_extension_moment_peak_percent": rows.KNEE_EXTENSION_PEAK_WHEN,
    "knee_moment_midstance_nm": rows.KNEE_MIDSTANCE,
    "knee_flexion_impulse_nms": rows.KNEE_FLEXION_IMPULSE,
    "knee_extension_impulse_nms": rows.KNEE_EXTENSION_IMPULSE,
    "force_behind_knee_percent": rows.FORCE_BEHIND_KNEE,
    "knee_flexion_loading_deg": rows.LOADING_FLEXION,
    "knee_flexion_least_deg": rows.LEAST_FLEXION,
    "socket_flexion_moment_peak_nm": rows.SOCKET_FLEXION_PEAK,
    "socket_extension_moment_peak_nm": rows.SOCKET_EXTENSION_PEAK,
    "socket_couple_force_n": rows.SOCKET_COUPLE,
    "brim_force_peak_n": rows.BRIM_FORCE,
    "limb_end_force_peak_n": rows.LIMB_END_FORCE,
    "socket_moment_30_nm": rows.SOCKET_30,
    "socket_moment_45_nm": rows.SOCKET_45,
    "socket_moment_75_nm": rows.SOCKET_75,
    "heel_lever_mm": rows.HEEL_LEVER,
    "toe_lever_mm": rows.TOE_LEVER,
    "foot_flat_s": rows.FOOT_FLAT,
    "heel_off_s": rows.HEEL_OFF,
    "stance_time_s": rows.STANCE_LENGTH,
    "rollover_radius_mm": rows.ROLL_RADIUS,
    "rollover_centre_mm": rows.ROLL_CENTRE,
    "forward_margin_min_mm": rows.FORWARD_MARGIN,
    "forward_margin_min_percent": rows.FORWARD_MARGIN_WHEN,
    "backward_margin_min_mm": rows.BACKWARD_MARGIN,
    "backward_margin_min_percent": rows.BACKWARD_MARGIN_WHEN,
    "drop_off": rows.DROP_OFF,
    "forward_thrust": rows.FORWARD_THRUST,
    "forward_thrust_deg": rows.FORWARD_THRUST_ANGLE,
    "hip_rise_mm": rows.HIP_RISE,
    "force_up_peak_bw": rows.UP_PEAK,
    "force_up_first_peak_bw": rows.UP_PEAK_FIRST,
    "force_up_second_peak_bw": rows.UP_PEAK_SECOND,
    "force_up_impulse_ns": rows.UP_IMPULSE,
    "braking_peak_bw": rows.BRAKING_PEAK,
    "propulsive_peak_bw": rows.PROPULSIVE_PEAK,
    "braking_impulse_ns": rows.BRAKING_IMPULSE,
    "propulsive_impulse_ns": rows.PROPULSIVE_IMPULSE,
    "loading_rate_bw_s": rows.LOADING_RATE,
    "utilised_friction": rows.UTILISED_FRICTION,
    "slip_mm": rows.SLIP_LENGTH,
    "foot_energy_stored_j": rows.FOOT_STORED,
    "foot_energy_returned_j": rows.FOOT_RETURNED,
    "foot_energy_lost_j": rows.FOOT_LOST,
    "speed_change_m_s": rows.SPEED_CHANGE,
    "ledger_error_percent": rows.LEDGER_ERROR,
}

ENDING_NAMES = {
    rows.TOE_OFF: "toe_off",
    rows.FELL_FORWARD: "fell_forward",
    rows.FELL_BACKWARD: "fell_backward",
    rows.KNEE_COLLAPSED: "knee_collapsed",
    rows.FOOT_SLIPPED: "foot_slipped",
    rows.STEP_LIMIT: "step_limit",
    rows.NOT_FINITE: "not_finite",
    rows.ENERGY_DRIFT: "energy_drift",
}


def named_measures(values: Array, mass: float) -> dict[str, float]:
    """Return one run's measures by name, in the units that their names state.

    values: [MEASURES] in SI, as the equations give them; mass: of the body [kg].

    >>> import numpy as np
    >>> from simgait.symbols import BY_NAME
    >>> named_measures(np.full(rows.MEASURES, 40.0), 80.0)["knee_flexion_moment_peak_nm_kg"]
    0.5
    >>> sorted(MEASURE_ROWS) == sorted(BY_NAME)
    True
    """
    return {
        measure.name: measure.shown(float(values[MEASURE_ROWS[measure.name]]), mass)
        for measure in MEASURES
    }


def ending_name(code: float) -> str:
    """Return the name of an ending from its number, as the equations give it.

    >>> from simgait.symbols import ENDINGS
    >>> ending_name(rows.TOE_OFF)
    'toe_off'
    >>> sorted(ENDING_NAMES.values()) == sorted(ENDINGS)
    True
    """
    return ENDING_NAMES[int(code)]
