"""What is written down at every step."""

from simgait.arrays import Array
from simgait.physics.layout import (
    C_PROSTHESIS,
    C_RESIDUAL,
    C_THIGH,
    CENTRE_FORWARD,
    CENTRE_UP,
    CHANNELS,
    DEEP_FOREFOOT,
    DEEP_HEEL,
    DEEP_MIDDLE,
    DEPTH,
    DEPTH_FOREFOOT,
    DEPTH_FOREFOOT_RATE,
    DEPTH_HEEL,
    DEPTH_HEEL_RATE,
    DEPTH_RATE,
    ELEMENTS,
    FORCE_FORWARD,
    FORCE_MOMENT,
    FORCE_UP,
    FOREFOOT_ELEMENTS,
    GRAVITY,
    HEEL_ELEMENTS,
    HIP_VX,
    HIP_VY,
    LENGTH_RESIDUAL,
    LENGTH_THIGH,
    MASS_PROSTHESIS,
    MOMENT_HIP,
    MOMENT_KNEE,
    MOMENT_SOCKET,
    MOST_INSTANTS,
    OTHER_FORCE_FORWARD,
    OTHER_FORCE_UP,
    PIVOT_X,
    PROSTHESIS,
    PROSTHESIS_RATE,
    PUSH_X,
    PUSH_Y,
    RESIDUAL,
    RESIDUAL_RATE,
    S_PROSTHESIS,
    S_RESIDUAL,
    S_THIGH,
    SLIDING,
    SLIP,
    SOCKET_DAMPING,
    SOCKET_SHEAR,
    SOCKET_STIFFNESS,
    SOCKET_THRUST,
    SUM_FORWARD,
    SUM_MOMENT,
    SUM_UP,
    THIGH_RATE,
    TORQUE_HIP,
    TORQUE_KNEE,
    W,
)
from simgait.physics.sole import (
    ahead_of,
    depth_of,
    sinking_of,
)


def keep_deeper(e: int, i: int, kept: int, state: Array, sole: Array, scratch: Array) -> None:
    """Put depth and sinking speed of element `e` into scratch if it is deeper than what is kept.

    kept: row of the depth; the next one is that of the speed.
    """
    depth = depth_of(e, i, sole, scratch)
    sinking = sinking_of(i, ahead_of(e, i, sole, scratch), state, scratch)
    best = scratch[kept * W + i]
    speed = scratch[(kept + 1) * W + i]
    scratch[kept * W + i] = depth if depth > best else best
    scratch[(kept + 1) * W + i] = sinking if depth > best else speed


def find_deepest(lanes: int, state: Array, sole: Array, scratch: Array) -> None:
    """Fill depth and sinking speed of the deepest element of heel, mid-sole and forefoot."""
    lanes = min(lanes, W)
    for i in range(lanes):
        scratch[DEEP_HEEL * W + i] = -1.0
        scratch[DEEP_MIDDLE * W + i] = -1.0
        scratch[DEEP_FOREFOOT * W + i] = -1.0
    for e in range(HEEL_ELEMENTS):
        for i in range(lanes):
            keep_deeper(e, i, DEEP_HEEL, state, sole, scratch)
    for e in range(HEEL_ELEMENTS, ELEMENTS - FOREFOOT_ELEMENTS):
        for i in range(lanes):
            keep_deeper(e, i, DEEP_MIDDLE, state, sole, scratch)
    for e in range(ELEMENTS - FOREFOOT_ELEMENTS, ELEMENTS):
        for i in range(lanes):
            keep_deeper(e, i, DEEP_FOREFOOT, state, sole, scratch)


def record_depths(
    lanes: int,
    row: int,
    state: Array,
    sole: Array,
    scratch: Array,
    curves: Array,
) -> None:
    """Write depth and sinking speed of the deepest element of the sole, its heel, its forefoot."""
    find_deepest(lanes, state, sole, scratch)
    lanes = min(lanes, W)
    row = min(max(row, 0), MOST_INSTANTS * CHANNELS * W)
    for i in range(lanes):
        heel = scratch[DEEP_HEEL * W + i]
        fore = scratch[DEEP_FOREFOOT * W + i]
        depth = scratch[DEEP_MIDDLE * W + i]
        heel_rate = scratch[(DEEP_HEEL + 1) * W + i]
        fore_rate = scratch[(DEEP_FOREFOOT + 1) * W + i]
        sinking = scratch[(DEEP_MIDDLE + 1) * W + i]
        sinking = heel_rate if heel > depth else sinking
        depth = heel if heel > depth else depth
        curves[row + DEPTH * W + i] = fore if fore > depth else depth
        curves[row + DEPTH_RATE * W + i] = fore_rate if fore > depth else sinking
        curves[row + DEPTH_HEEL * W + i] = heel
        curves[row + DEPTH_HEEL_RATE * W + i] = heel_rate
        curves[row + DEPTH_FOREFOOT * W + i] = fore
        curves[row + DEPTH_FOREFOOT_RATE * W + i] = fore_rate


def record_forces(
    lanes: int,
    row: int,
    state: Array,
    parameter: Array,
    scratch: Array,
    rate: Array,
    curves: Array,
) -> None:
    """Write state, ground force, joint moments and the load between socket and residual limb.

    The load on the residual limb follows from Newton's law of the prosthesis: what the ground and
    gravity give it, less its mass times the acceleration of its centre.
    """
    lanes = min(lanes, W)
    row = min(max(row, 0), MOST_INSTANTS * CHANNELS * W)
    for j in range(10):
        for i in range(lanes):
            curves[row + j * W + i] = state[j * W + i]
    for i in range(lanes):
        p = parameter
        s1 = scratch[S_THIGH * W + i]
        c1 = scratch[C_THIGH * W + i]
        s2 = scratch[S_RESIDUAL * W + i]
        c2 = scratch[C_RESIDUAL * W + i]
        s3 = scratch[S_PROSTHESIS * W + i]
        c3 = scratch[C_PROSTHESIS * W + i]
        w1 = state[THIGH_RATE * W + i]
        w2 = state[RESIDUAL_RATE * W + i]
        w3 = state[PROSTHESIS_RATE * W + i]
        e1 = rate[THIGH_RATE * W + i]
        e2 = rate[RESIDUAL_RATE * W + i]
        e3 = rate[PROSTHESIS_RATE * W + i]
        l1 = p[LENGTH_THIGH * W + i]
        l2 = p[LENGTH_RESIDUAL * W + i]
        rx = p[CENTRE_FORWARD * W + i] * c3 + p[CENTRE_UP * W + i] * s3
        ry = p[CENTRE_UP * W + i] * c3 - p[CENTRE_FORWARD * W + i] * s3
        ax = rate[HIP_VX * W + i] - l1 * (e1 * c1 - w1 * w1 * s1) - l2 * (e2 * c2 - w2 * w2 * s2)
        ay = rate[HIP_VY * W + i] + l1 * (e1 * s1 + w1 * w1 * c1) + l2 * (e2 * s2 + w2 * w2 * c2)
        ax += e3 * ry - w3 * w3 * rx
        ay -= e3 * rx + w3 * w3 * ry
        m3 = p[MASS_PROSTHESIS * W + i]
        fx = scratch[SUM_FORWARD * W + i]
        fy = scratch[SUM_UP * W + i]
        px = fx - m3 * ax
        py = fy - m3 * (ay + p[GRAVITY * W + i])
        curves[row + FORCE_UP * W + i] = fy
        curves[row + FORCE_FORWARD * W + i] = fx
        curves[row + FORCE_MOMENT * W + i] = (
            scratch[SUM_MOMENT * W + i] + fy * scratch[PIVOT_X * W + i]
        )
        curves[row + MOMENT_HIP * W + i] = scratch[TORQUE_HIP * W + i]
        curves[row + MOMENT_KNEE * W + i] = scratch[TORQUE_KNEE * W + i]
        curves[row + MOMENT_SOCKET * W + i] = p[SOCKET_STIFFNESS * W + i] * (
            state[PROSTHESIS * W + i] - state[RESIDUAL * W + i]
        ) + p[SOCKET_DAMPING * W + i] * (w3 - w2)
        curves[row + SOCKET_SHEAR * W + i] = px * c2 - py * s2
        curves[row + SOCKET_THRUST * W + i] = px * s2 + py * c2
        curves[row + OTHER_FORCE_UP * W + i] = scratch[PUSH_Y * W + i]
        curves[row + OTHER_FORCE_FORWARD * W + i] = scratch[PUSH_X * W + i]
        curves[row + SLIDING * W + i] = state[SLIP * W + i]
