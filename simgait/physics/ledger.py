"""Mechanical energy of the limb: kinetic, in gravity, and in the socket's soft tissue."""

from simgait.arrays import Array
from simgait.physics.layout import (
    CENTRE_FORWARD,
    CENTRE_RESIDUAL,
    CENTRE_THIGH,
    CENTRE_UP,
    GRAVITY,
    HIP_VX,
    HIP_VY,
    HIP_Y,
    INERTIA_PROSTHESIS,
    INERTIA_RESIDUAL,
    INERTIA_THIGH,
    LENGTH_RESIDUAL,
    LENGTH_THIGH,
    MASS_HIP,
    MASS_PROSTHESIS,
    MASS_RESIDUAL,
    MASS_THIGH,
    PROSTHESIS,
    PROSTHESIS_RATE,
    RESIDUAL,
    RESIDUAL_RATE,
    SOCKET_STIFFNESS,
    THIGH,
    THIGH_RATE,
    W,
)
from simgait.physics.trigonometry import (
    cosine,
    sine,
)


def mechanical_energy(i: int, state: Array, first: int, parameter: Array) -> float:
    """Energy of lane `i` [J]; its state's rows begin at row `first` of `state`.

    Sum over the bodies of m v^2 / 2 + I w^2 / 2 + m g y, plus k psi^2 / 2 in the socket.
    """
    p = parameter
    q = first * W + i
    s1 = sine(state[q + THIGH * W])
    c1 = cosine(state[q + THIGH * W])
    s2 = sine(state[q + RESIDUAL * W])
    c2 = cosine(state[q + RESIDUAL * W])
    s3 = sine(state[q + PROSTHESIS * W])
    c3 = cosine(state[q + PROSTHESIS * W])
    w1 = state[q + THIGH_RATE * W]
    w2 = state[q + RESIDUAL_RATE * W]
    w3 = state[q + PROSTHESIS_RATE * W]
    g = p[GRAVITY * W + i]
    vx = state[q + HIP_VX * W]
    vy = state[q + HIP_VY * W]
    y = state[q + HIP_Y * W]
    total = p[MASS_HIP * W + i] * (0.5 * (vx * vx + vy * vy) + g * y)
    d = p[CENTRE_THIGH * W + i]
    m = p[MASS_THIGH * W + i]
    ax = vx - w1 * d * c1
    ay = vy + w1 * d * s1
    total += m * (0.5 * (ax * ax + ay * ay) + g * (y - d * c1))
    total += 0.5 * p[INERTIA_THIGH * W + i] * w1 * w1
    d = p[LENGTH_THIGH * W + i]
    vx -= w1 * d * c1
    vy += w1 * d * s1
    y -= d * c1
    d = p[CENTRE_RESIDUAL * W + i]
    m = p[MASS_RESIDUAL * W + i]
    ax = vx - w2 * d * c2
    ay = vy + w2 * d * s2
    total += m * (0.5 * (ax * ax + ay * ay) + g * (y - d * c2))
    total += 0.5 * p[INERTIA_RESIDUAL * W + i] * w2 * w2
    d = p[LENGTH_RESIDUAL * W + i]
    vx -= w2 * d * c2
    vy += w2 * d * s2
    y -= d * c2
    a = p[CENTRE_FORWARD * W + i]
    b = p[CENTRE_UP * W + i]
    m = p[MASS_PROSTHESIS * W + i]
    ax = vx + w3 * (b * c3 - a * s3)
    ay = vy - w3 * (a * c3 + b * s3)
    total += m * (0.5 * (ax * ax + ay * ay) + g * (y - a * s3 + b * c3))
    total += 0.5 * p[INERTIA_PROSTHESIS * W + i] * w3 * w3
    turn = state[q + PROSTHESIS * W] - state[q + RESIDUAL * W]
    total += 0.5 * p[SOCKET_STIFFNESS * W + i] * turn * turn
    return float(total)
