"""Stances without a walk: the kernel's own equations hold a standing pose and come to rest."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from simgait.physics import layout as rows
from simgait.stance import StanceResult
from simgait.stance.batch import Batch, batch_of
from simgait.stance.running import run_batch, stance_result
from simgait.standing import Standing

NOMINAL = 4.0  # [s] of stance; a run that never leaves the floor is stopped at 1.5 of it
NEVER = 1e12  # [s]
HIGH, TURNED = 0.030, (0.02, 0.03)  # [m] above the pose, [rad] limb and prosthesis turned from it
FIRM = 3000.0  # [N m/rad] hip and knee: firm enough that a body on one foot cannot topple
DAMPING = 1.0 / 50.0  # [s] damping over stiffness of hip and knee
TRUNK_DAMPING = 300.0  # [N s/m]


def held_still(ways: Sequence[Standing], *, firm: float = FIRM, meet: bool = True) -> Batch:
    """Return stances in which the wearer holds what `simgait.standing` says, from above the floor.

    The reference curves are level, the trunk holds no speed, the other limb carries its share of
    the weight and never leaves.  ``firm``: stiffness of hip and knee [N m/rad]; with ``meet`` the
    references lie as far beyond the pose as those springs yield under the moments of standing,
    without it they are the pose itself.
    """
    batch = batch_of([way.stance.limb for way in ways])
    for parameter, reference, state, way in zip(
        batch.parameter, batch.reference, batch.state, ways, strict=True
    ):
        pose, weight = way.pose, way.stance.limb.body_weight
        parameter[[rows.STANCE_TIME, rows.REFERENCE_TIME]] = NOMINAL
        parameter[rows.LEAVES_TIME], parameter[rows.ARRIVES_TIME] = NEVER, 0.5 * NOMINAL
        parameter[rows.OTHER_UP : rows.NEXT_FORWARD + 4] = 0.0
        parameter[rows.OTHER_UP] = (1.0 - way.share) * weight
        parameter[[rows.NEXT_STIFFNESS, rows.NEXT_DAMPING, rows.TRUNK_SPEED]] = 0.0
        parameter[rows.TRUNK_DAMPING] = TRUNK_DAMPING
        parameter[[rows.HIP_STIFFNESS, rows.KNEE_STIFFNESS]] = firm
        parameter[[rows.HIP_DAMPING, rows.KNEE_DAMPING]] = firm * DAMPING
        beyond = (pose.hip_moment / firm, -pose.knee_moment / firm) if meet else (0.0, 0.0)
        reference[rows.THIGH_CURVE : rows.KNEE_CURVE] = pose.thigh_lean + beyond[0]
        reference[rows.KNEE_CURVE :] = pose.knee_flexion + beyond[1]
        state[:] = 0.0
        state[[rows.HIP_X, rows.HIP_Y]] = np.add(pose.hip, (0.0, HIGH))
        state[rows.THIGH] = pose.thigh_lean
        state[rows.RESIDUAL] = pose.residual_lean + TURNED[0]
        state[rows.PROSTHESIS] = pose.prosthesis_lean + TURNED[1]
    return batch


def settled_stances(ways: Sequence[Standing], batch: Batch) -> tuple[StanceResult, ...]:
    """Return what the kernel makes of such a batch, as every stance is given out."""
    outcome = run_batch(batch, keep_curves=True)
    return tuple(
        stance_result(way.stance.limb, ends, measures, float(step), curves)
        for way, ends, measures, step, curves in zip(
            ways, outcome.ends, outcome.measures, outcome.steps, outcome.curves, strict=True
        )
    )


def gaps(result: StanceResult, way: Standing) -> dict[str, float]:
    """Return how far the end of a stance is from standing: [N], [N m], [mm], [mm/s] by name."""
    curves, measures, end = result.curves, way.measures, -1
    line = 1000.0 * curves.pressure_x[end]
    knee, ankle, pivot = curves.knee[end], curves.ankle[end], curves.socket_pivot[end]
    # where the floor presses on the sole, between the elements as they lie in the room
    place = 1000.0 * np.interp(
        curves.pressure_x[end], curves.sole[end, :, 0], way.stance.pieces.along
    )
    heel = 1000.0 * way.stance.limb.foot.heel_lever
    return {
        "load on the sole [N]": curves.force_up[end] - way.share * way.stance.limb.body_weight,
        "fore-aft force [N]": curves.force_forward[end],
        "knee moment [N m]": curves.knee_flexion_moment[end] - measures["knee_flexion_moment_nm"],
        "socket moment [N m]": (
            curves.socket_flexion_moment[end] - measures["socket_flexion_moment_nm"]
        ),
        "hip moment [N m]": curves.hip_flexion_moment[end] - way.pose.hip_moment,
        "line ahead of knee [mm]": line - 1000.0 * knee[0] - measures["load_line_ahead_of_knee_mm"],
        "line ahead of ankle [mm]": (
            line - 1000.0 * ankle[0] - measures["load_line_ahead_of_ankle_mm"]
        ),
        "line ahead of socket [mm]": (
            line - 1000.0 * pivot[0] - measures["load_line_ahead_of_socket_mm"]
        ),
        "place on the sole [mm]": place + heel - measures["backward_reserve_mm"],
        "knee height [mm]": 1000.0 * (knee[1] - way.pose.knee[1]),
        "hip speed [mm/s]": 1000.0 * float(np.abs(curves.hip_speed[end]).max()),
    }
