"""A limb that stands still, from its columns to what is found and drawn of it."""

from simgait.arrays import Array
from simgait.physics.balance import begin_trial, tip_over
from simgait.physics.footing import above_turned, ahead_turned
from simgait.physics.layout import (
    ANKLE_FORWARD,
    ANKLE_UP,
    BODY_WEIGHT,
    CENTRE_FORWARD,
    CENTRE_RESIDUAL,
    CENTRE_THIGH,
    CENTRE_UP,
    ELEMENTS,
    FRICTION,
    GRAVITY,
    HEEL_END,
    LEG_LENGTH,
    LENGTH_RESIDUAL,
    LENGTH_THIGH,
    MASS_PROSTHESIS,
    MASS_RESIDUAL,
    MASS_THIGH,
    SOCKET_DEPTH,
    SOCKET_STIFFNESS,
    SOLE_FORWARD,
    SOLE_ONSET,
    SOLE_SLOPE,
    SOLE_STIFFNESS,
    SOLE_UP,
    TOE_END,
    W,
)
from simgait.physics.posture import hip_effort, knee_effort, stand_still
from simgait.physics.rest_layout import (
    OUTLINE_ANKLE,
    OUTLINE_BRIM,
    OUTLINE_HEEL_END,
    OUTLINE_HIP,
    OUTLINE_KNEE,
    OUTLINE_LIMB_END,
    OUTLINE_PIVOT,
    OUTLINE_PRESSURE,
    OUTLINE_SOCKET_END,
    OUTLINE_SOLE,
    OUTLINE_TOE_END,
    POSE_ACROSS,
    POSE_ANKLE,
    POSE_HEEL_SHARE,
    POSE_HEIGHT,
    POSE_HIP,
    POSE_HIP_MOMENT,
    POSE_KNEE,
    POSE_KNEE_MOMENT,
    POSE_LEAN,
    POSE_PIVOT,
    POSE_PLACE,
    POSE_PRESSURE,
    POSE_RESIDUAL,
    POSE_SOCKET_MOMENT,
    POSE_SOLE,
    POSE_THIGH,
    REST_ALONG,
    REST_ANKLE_FORWARD,
    REST_ANKLE_UP,
    REST_CENTRE_ABOVE_HIP,
    REST_CENTRE_FORWARD,
    REST_CENTRE_HEIGHT,
    REST_CENTRE_RESIDUAL,
    REST_CENTRE_THIGH,
    REST_CENTRE_UP,
    REST_END_BELOW_PIVOT,
    REST_FLAT,
    REST_FORWARD,
    REST_FRICTION,
    REST_GRAVITY,
    REST_HEEL_END,
    REST_LEG_LENGTH,
    REST_LENGTH_THIGH,
    REST_MASS,
    REST_ONSET,
    REST_PIVOT_BELOW_KNEE,
    REST_SOCKET,
    REST_SOCKET_DEPTH,
    REST_SOLE,
    REST_STIFFNESS,
    REST_TOE_END,
    REST_UP,
    REST_WEIGHT,
    STANDS,
    STOOD_AT,
    STOOD_BACKWARD_RESERVE,
    STOOD_ENDING,
    STOOD_FOREFOOT_SHARE,
    STOOD_FORWARD_RESERVE,
    STOOD_HEEL_SHARE,
    STOOD_HIP_BELOW,
    STOOD_HIP_EFFORT,
    STOOD_HIP_MOMENT,
    STOOD_KNEE_EFFORT,
    STOOD_KNEE_FLEXION,
    STOOD_KNEE_MOMENT,
    STOOD_LIMITS,
    STOOD_LINE_ANKLE,
    STOOD_LINE_HIP,
    STOOD_LINE_KNEE,
    STOOD_LINE_SOCKET,
    STOOD_RATIO,
    STOOD_REASON,
    STOOD_SHANK_LEAN,
    STOOD_SHARE,
    STOOD_SOCKET_MOMENT,
    TRIAL_RATIO,
    TRIAL_SENSE,
)
from simgait.physics.resting import arcsine, line_ahead_of, load_on_slope
from simgait.physics.trigonometry import cosine, sine

LIMITS = 4  # slope forward, push forward, slope backward, push backward


def take_columns(lane: int, parameter: Array, sole: Array, rest: Array) -> None:
    """Fill what an alignment decides of a limb at rest, from one lane of the stance's columns.

    Elements lie evenly along the carrying sole; the lean at which the sole lies flat undoes its
    turn in the prosthesis' frame.
    """
    rest[REST_ONSET] = parameter[SOLE_ONSET * W + lane]
    rest[REST_SOCKET] = parameter[SOCKET_STIFFNESS * W + lane]
    rest[REST_ANKLE_FORWARD] = parameter[ANKLE_FORWARD * W + lane]
    rest[REST_ANKLE_UP] = parameter[ANKLE_UP * W + lane]
    rest[REST_MASS] = parameter[MASS_PROSTHESIS * W + lane]
    rest[REST_MASS + 1] = parameter[MASS_RESIDUAL * W + lane]
    rest[REST_MASS + 2] = parameter[MASS_THIGH * W + lane]
    rest[REST_CENTRE_FORWARD] = parameter[CENTRE_FORWARD * W + lane]
    rest[REST_CENTRE_UP] = parameter[CENTRE_UP * W + lane]
    rest[REST_CENTRE_RESIDUAL] = parameter[CENTRE_RESIDUAL * W + lane]
    rest[REST_CENTRE_THIGH] = parameter[CENTRE_THIGH * W + lane]
    rest[REST_PIVOT_BELOW_KNEE] = parameter[LENGTH_RESIDUAL * W + lane]
    rest[REST_LENGTH_THIGH] = parameter[LENGTH_THIGH * W + lane]
    rest[REST_FLAT] = parameter[SOLE_SLOPE * W + lane]
    rest[REST_WEIGHT] = parameter[BODY_WEIGHT * W + lane]
    rest[REST_GRAVITY] = parameter[GRAVITY * W + lane]
    rest[REST_FRICTION] = parameter[FRICTION * W + lane]
    rest[REST_HEEL_END] = parameter[HEEL_END * W + lane]
    rest[REST_TOE_END] = parameter[TOE_END * W + lane]
    rest[REST_LEG_LENGTH] = parameter[LEG_LENGTH * W + lane]
    rest[REST_SOCKET_DEPTH] = parameter[SOCKET_DEPTH * W + lane]
    rest[REST_CENTRE_HEIGHT] = rest[REST_LEG_LENGTH] + rest[REST_CENTRE_ABOVE_HIP]
    width = (rest[REST_TOE_END] - rest[REST_HEEL_END]) / ELEMENTS
    for e in range(ELEMENTS):
        row = REST_SOLE + 4 * e
        rest[row + REST_FORWARD] = sole[(4 * e + SOLE_FORWARD) * W + lane]
        rest[row + REST_UP] = sole[(4 * e + SOLE_UP) * W + lane]
        rest[row + REST_ALONG] = rest[REST_HEEL_END] + width * (e + 0.5)
        rest[row + REST_STIFFNESS] = sole[(4 * e + SOLE_STIFFNESS) * W + lane]


def pelvic_tilt(mismatch: float, hip_spacing: float) -> float:
    """Tilt of the pelvis over legs of unequal length, asin(mismatch / spacing) [rad].

    Geometry, derived: both legs upright.  mismatch: by how much the prosthesis is longer [m];
    hip_spacing: between the hip axes [m].
    """
    return arcsine(mismatch / hip_spacing)


def stand_with(
    share: float, load: Array, rest: Array, pose: Array, brackets: Array, stood: Array
) -> None:
    """Fill how a share of the weight is stood on level floor [1]: pose, ending, loads, lines."""
    load_on_slope(share * rest[REST_WEIGHT], 0.0, rest[REST_GRAVITY], load)
    stood[STOOD_ENDING] = stand_still(load, rest, pose, brackets)
    stood[STOOD_SHARE] = share
    stood[STOOD_LINE_KNEE] = line_ahead_of(pose[POSE_KNEE], pose[POSE_KNEE + 1], load, pose)
    stood[STOOD_LINE_ANKLE] = line_ahead_of(pose[POSE_ANKLE], pose[POSE_ANKLE + 1], load, pose)
    stood[STOOD_LINE_HIP] = line_ahead_of(pose[POSE_HIP], pose[POSE_HIP + 1], load, pose)
    stood[STOOD_LINE_SOCKET] = line_ahead_of(pose[POSE_PIVOT], pose[POSE_PIVOT + 1], load, pose)
    stood[STOOD_KNEE_MOMENT] = pose[POSE_KNEE_MOMENT]
    stood[STOOD_SOCKET_MOMENT] = pose[POSE_SOCKET_MOMENT]
    stood[STOOD_HIP_MOMENT] = pose[POSE_HIP_MOMENT]
    stood[STOOD_FORWARD_RESERVE] = rest[REST_TOE_END] - pose[POSE_PLACE]
    stood[STOOD_BACKWARD_RESERVE] = pose[POSE_PLACE] - rest[REST_HEEL_END]
    stood[STOOD_HEEL_SHARE] = pose[POSE_HEEL_SHARE]
    stood[STOOD_FOREFOOT_SHARE] = 1.0 - pose[POSE_HEEL_SHARE]
    stood[STOOD_KNEE_EFFORT] = knee_effort(rest, pose)
    stood[STOOD_HIP_EFFORT] = hip_effort(rest, pose)
    stood[STOOD_KNEE_FLEXION] = pose[POSE_RESIDUAL] - pose[POSE_THIGH]
    stood[STOOD_SHANK_LEAN] = pose[POSE_RESIDUAL]
    stood[STOOD_HIP_BELOW] = rest[REST_LEG_LENGTH] - pose[POSE_HIP + 1]


def find_limits(
    load: Array,
    rest: Array,
    pose: Array,
    brackets: Array,
    trial: Array,
    disturbed: Array,
    stood: Array,
) -> None:
    """Fill where a stand ends on slopes and under pushes, if it stands.

    pose, load: of the stand, `stand_with`; disturbed: room for the poses that are tried.
    """
    if stood[STOOD_ENDING] > STANDS:
        return
    ahead = stood[STOOD_LINE_ANKLE]
    for k in range(LIMITS):
        sense = 1.0 if k < 2 else -1.0
        pushed = 1.0 if k == 1 or k == 3 else 0.0
        begin_trial(sense, pushed, stood[STOOD_SHARE], ahead, rest, pose, trial)
        row = STOOD_LIMITS + 3 * k
        stood[row + STOOD_REASON] = tip_over(trial, load, rest, disturbed, brackets)
        stood[row + STOOD_RATIO] = max(trial[TRIAL_SENSE] * trial[TRIAL_RATIO], 0.0)
        stood[row + STOOD_AT] = disturbed[POSE_PLACE]


def put_outline(
    row: int, forward: float, up: float, lean: float, pose: Array, outline: Array
) -> None:
    """Put a point of a segment that leans about the socket pivot [m]; x from the ankle axis."""
    c, s = cosine(lean), sine(lean)
    outline[row] = pose[POSE_PIVOT] - pose[POSE_ANKLE] + ahead_turned(forward, up, c, s)
    outline[row + 1] = pose[POSE_PIVOT + 1] + above_turned(forward, up, c, s)


def outline_limb(rest: Array, pose: Array, outline: Array) -> None:
    """Fill the points of a limb at rest that are drawn; x from below the ankle axis."""
    shift = pose[POSE_ANKLE]
    half = rest[REST_SOCKET_DEPTH] / 2.0
    lean, height = pose[POSE_LEAN], pose[POSE_HEIGHT]
    c, s = cosine(lean), sine(lean)
    outline[OUTLINE_HIP] = pose[POSE_HIP] - shift
    outline[OUTLINE_HIP + 1] = pose[POSE_HIP + 1]
    outline[OUTLINE_KNEE] = pose[POSE_KNEE] - shift
    outline[OUTLINE_KNEE + 1] = pose[POSE_KNEE + 1]
    outline[OUTLINE_ANKLE] = 0.0
    outline[OUTLINE_ANKLE + 1] = pose[POSE_ANKLE + 1]
    put_outline(OUTLINE_PIVOT, 0.0, 0.0, lean, pose, outline)
    put_outline(OUTLINE_BRIM, 0.0, half, lean, pose, outline)
    put_outline(OUTLINE_LIMB_END, 0.0, -half, pose[POSE_RESIDUAL], pose, outline)
    put_outline(OUTLINE_SOCKET_END, 0.0, -rest[REST_END_BELOW_PIVOT], lean, pose, outline)
    pressure = pose[POSE_PRESSURE] - shift
    outline[OUTLINE_PRESSURE] = pressure
    outline[OUTLINE_HEEL_END] = pressure - pose[POSE_PLACE] + rest[REST_HEEL_END]
    outline[OUTLINE_TOE_END] = pressure - pose[POSE_PLACE] + rest[REST_TOE_END]
    for e in range(ELEMENTS):
        up = rest[REST_SOLE + 4 * e + REST_UP]
        forward = rest[REST_SOLE + 4 * e + REST_FORWARD]
        outline[OUTLINE_SOLE + 2 * e] = pose[POSE_SOLE + 3 * e + POSE_ACROSS] - shift
        outline[OUTLINE_SOLE + 2 * e + 1] = height + above_turned(forward, up, c, s)
