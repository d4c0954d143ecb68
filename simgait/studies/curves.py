"""Curves of a stance as columns, one line a recorded instant, units in the names."""

from __future__ import annotations

import numpy as np

from simgait.arrays import Array
from simgait.stance import StanceCurves
from simgait.units import DEGREES_PER_RADIAN


def curve_columns(row: int, curves: StanceCurves) -> dict[str, Array]:
    """Return one run's curves by name, beside the number of its row in the study.

    Moments are external; forces are of the ground on the foot; see the guide on reading results.
    """
    c = curves
    in_mm = {
        "hip_x_mm": c.hip[:, 0],
        "hip_y_mm": c.hip[:, 1],
        "pressure_ahead_of_ankle_mm": c.pressure_ahead_of_ankle,
    }
    in_degrees = {
        "thigh_lean_deg": c.thigh_lean,
        "knee_flexion_deg": c.knee_flexion,
        "shank_lean_deg": c.shank_lean,
    }
    return {
        "row": np.full(len(c.time), row),
        "time_s": c.time,
        "stance_percent": c.percent,
        "force_up_n": c.force_up,
        "force_forward_n": c.force_forward,
        "knee_flexion_moment_nm": c.knee_flexion_moment,
        "socket_flexion_moment_nm": c.socket_flexion_moment,
        "hip_flexion_moment_nm": c.hip_flexion_moment,
        **{name: values * DEGREES_PER_RADIAN for name, values in in_degrees.items()},
        **{name: values * 1000.0 for name, values in in_mm.items()},
        "other_force_up_n": c.other_force_up,
        "other_force_forward_n": c.other_force_forward,
    }
