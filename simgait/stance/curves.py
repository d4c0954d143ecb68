"""From a run's recorded channels to curves in the room."""

from __future__ import annotations

import numpy as np

from simgait.arrays import Array, many
from simgait.limb import Limb, sole_in_prosthesis
from simgait.physics import layout as rows
from simgait.physics.bench import turned_forward, turned_up
from simgait.stance.result import StanceCurves

LEAST_LOAD = 0.1  # share of body weight below which a pressure point is not shown


def turned(lean: Array, forward: float, up: float) -> Array:
    """Return a vector fixed in a segment as it lies in the room, one row a lean [n, 2].

    (a cos t + b sin t, b cos t - a sin t) for the vector (a forward, b up) and the lean t, from
    -1.6 to 1.6 [rad].

    >>> turned(np.array([0.0, np.pi / 2]), 0.0, 1.0).round(9).tolist()
    [[0.0, 1.0], [1.0, 0.0]]
    """
    back = many(-lean)
    return np.stack((turned_forward(forward, up, back), turned_up(forward, up, back)), axis=-1)


def along_the_sole(pressure: Array, ankle: Array, lean: Array) -> Array:
    """Return how far the pressure point lies ahead of the ankle axis, along the foot [n] [m].

    pressure: x on the floor [n] [m]; ankle: [n, 2] [m]; lean: of the foot's own axis, + toe down
    [n] [rad].
    """
    ahead, below = many(pressure - ankle[:, 0]), many(-ankle[:, 1])
    return np.asarray(turned_forward(ahead, below, many(lean)))


def stance_curves(limb: Limb, channels: Array, step: float, end_time: float) -> StanceCurves:
    """Return the curves of one run in the room.

    channels: [n, CHANNELS], recorded every `step` [s]; end_time: of the run [s].
    """
    c = channels
    time: Array = step * np.arange(len(c), dtype=np.float64)
    thigh, residual, prosthesis = (
        c[:, row] for row in (rows.THIGH, rows.RESIDUAL, rows.PROSTHESIS)
    )
    hip = c[:, [rows.HIP_X, rows.HIP_Y]]
    knee = hip + turned(thigh, 0.0, -limb.person.thigh_length)
    pivot = knee + turned(residual, 0.0, -limb.pivot_below_knee)
    ankle = pivot + turned(prosthesis, *limb.ankle)
    forward, up = sole_in_prosthesis(limb)
    sole = np.stack([pivot + turned(prosthesis, a, b) for a, b in zip(forward, up, strict=True)], 1)
    loaded = c[:, rows.FORCE_UP] > LEAST_LOAD * limb.body_weight
    pressure = np.full(len(c), np.nan)
    pressure[loaded] = c[loaded, rows.FORCE_MOMENT] / c[loaded, rows.FORCE_UP]
    return StanceCurves(
        time=time,
        percent=100.0 * time / end_time,
        hip=hip,
        knee=knee,
        brim=pivot + turned(prosthesis, 0.0, limb.socket_depth / 2.0),
        socket_pivot=pivot,
        limb_end=pivot + turned(residual, 0.0, -limb.socket_depth / 2.0),
        socket_end=pivot + turned(prosthesis, 0.0, -limb.end_below_pivot),
        ankle=ankle,
        sole=sole,
        pressure_x=pressure,
        force_forward=c[:, rows.FORCE_FORWARD],
        force_up=c[:, rows.FORCE_UP],
        knee_flexion_moment=-c[:, rows.MOMENT_KNEE],
        socket_flexion_moment=c[:, rows.MOMENT_SOCKET],
        hip_flexion_moment=c[:, rows.MOMENT_HIP],
        pressure_ahead_of_ankle=along_the_sole(pressure, ankle, prosthesis - limb.sole_slope),
        thigh_lean=thigh,
        knee_flexion=residual - thigh,
        shank_lean=residual,
        hip_speed=c[:, [rows.HIP_VX, rows.HIP_VY]],
        other_force_up=c[:, rows.OTHER_FORCE_UP],
        other_force_forward=c[:, rows.OTHER_FORCE_FORWARD],
    )
