"""The state in which a stance begins: the sole just touching the floor, the limb at ease."""

from __future__ import annotations

import numpy as np

from simgait.arrays import Array, many
from simgait.engines import compiled
from simgait.limb.geometry import Limb
from simgait.limb.inertia import lean_mass_matrices, solved
from simgait.physics import layout as rows
from simgait.physics.trigonometry import cosine, sine

W = rows.W


def touch_down(limb: Limb, forward: Array, up: Array, parameter: Array, reference: Array) -> Array:
    """Return the state at touch-down [STATES], or of many runs [STATES, runs].

    forward, up: as `sole_in_prosthesis` gives them [m]; parameter, reference: columns.
    """
    wearer = limb.wearer
    lean = wearer.start_thigh + wearer.start_flexion + limb.extra_flexion
    rate = wearer.start_thigh_rate + wearer.start_flexion_rate
    state = np.zeros((rows.STATES, *parameter.shape[1:]))
    state[rows.THIGH] = wearer.start_thigh
    state[rows.RESIDUAL] = lean
    state[rows.PROSTHESIS] = lean
    state[rows.HIP_VX] = wearer.start_forward_speed
    state[rows.HIP_VY] = wearer.start_upward_speed
    state[rows.THIGH_RATE] = wearer.start_thigh_rate
    state[rows.RESIDUAL_RATE] = rate
    state[rows.PROSTHESIS_RATE] = rate
    state[rows.PROSTHESIS] += starting_strain(parameter, reference, state)
    state[rows.HIP_X], state[rows.HIP_Y] = touch_down_hip(limb, forward, up, state)
    return state


def touch_down_hip(limb: Limb, forward: Array, up: Array, state: Array) -> tuple[float, float]:
    """Return the hip's place at which the sole just touches the floor, the ankle at x = 0 [m].

    forward, up: as `sole_in_prosthesis` gives them [m]; state: with its three leans.
    """
    thigh_lean, lean, foot_lean = (
        many(state[row]) for row in (rows.THIGH, rows.RESIDUAL, rows.PROSTHESIS)
    )
    c, s = cosine(foot_lean), sine(foot_lean)
    low = many(np.min(up * c - forward * s, axis=0))
    ankle = limb.ankle
    upper, lower = limb.person.thigh_length, limb.pivot_below_knee
    x = upper * sine(thigh_lean) + lower * sine(lean) - (ankle[0] * c + ankle[1] * s)
    y = upper * cosine(thigh_lean) + lower * cosine(lean) - low
    return x, y


def starting_strain(parameter: Array, reference: Array, state: Array) -> Array:
    """Return the turn of the prosthesis on the residual limb with which swing ends [rad].

    Just before touch-down limb and prosthesis turn together: with M the mass matrix of the leans,
    the knee's and hip's torques Q give M^-1 Q, and the socket's strain is that for which
    the second and third entry are equal.  Started without strain, the light limb would ring.

    parameter, reference, state: columns; the state with all leans and rates.
    """
    hip, knee = starting_torques(parameter, reference, state)
    x, y, z = solved(lean_mass_matrices(parameter.T, state.T), (0.0, 1.0, -1.0))  # M symmetric
    gap = x * (hip - knee) + y * knee
    return np.asarray(-gap / (parameter[rows.SOCKET_STIFFNESS] * (y - z)))


def starting_torques(parameter: Array, reference: Array, state: Array) -> tuple[Array, Array]:
    """Return the torques at hip and knee at touch-down, by the physics' own law [N m].

    parameter, reference, state: columns.
    """
    kernel = compiled.kernel()
    columns = [part.reshape(len(part), -1) for part in (state, parameter, reference)]
    flat = [np.zeros(len(part) * W) for part in columns]
    scratch = np.zeros(rows.SCRATCH * W)
    runs = columns[0].shape[1]
    torques = np.empty((2, runs))
    for begin in range(0, runs, W):
        lanes = min(W, runs - begin)
        for block, part in zip(flat, columns, strict=True):
            block.reshape(-1, W)[:, :lanes] = part[:, begin : begin + lanes]
        kernel.follow_curves(lanes, 0.0, flat[1], flat[2], scratch)
        kernel.joint_torques(lanes, flat[0], flat[1], scratch)
        torques[:, begin : begin + lanes] = scratch.reshape(-1, W)[
            rows.TORQUE_HIP : rows.TORQUE_KNEE + 1, :lanes
        ]
    shape = parameter.shape[1:]
    return torques[0].reshape(shape), torques[1].reshape(shape)
