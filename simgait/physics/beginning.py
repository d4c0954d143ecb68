"""The state in which a stance begins, and how small a step its light parts need."""

from math import sqrt

from simgait.arrays import Array
from simgait.physics.bench import BASE_FLEXION
from simgait.physics.bench_rows import (
    LEAN_DAMPING,
    LEAN_MASS,
    LEAN_STIFFNESS,
    SET_SOCKET_FLEXION,
    START_FLEXION,
    START_FLEXION_RATE,
    START_FORWARD_SPEED,
    START_THIGH,
    START_THIGH_RATE,
    START_UPWARD_SPEED,
)
from simgait.physics.layout import (
    ANKLE_FORWARD,
    ANKLE_UP,
    CENTRE_FORWARD,
    CENTRE_RESIDUAL,
    CENTRE_THIGH,
    CENTRE_UP,
    ELEMENTS,
    HIP_DAMPING,
    HIP_STIFFNESS,
    HIP_VX,
    HIP_VY,
    HIP_X,
    HIP_Y,
    INERTIA_PROSTHESIS,
    INERTIA_RESIDUAL,
    INERTIA_THIGH,
    KNEE_DAMPING,
    KNEE_STIFFNESS,
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
    SOCKET_DAMPING,
    SOCKET_STIFFNESS,
    SOLE_FORWARD,
    SOLE_UP,
    STATES,
    THIGH,
    THIGH_RATE,
    TORQUE_HIP,
    TORQUE_KNEE,
    W,
)
from simgait.physics.trigonometry import cosine, sine
from simgait.physics.wearer import follow_curves, joint_torques

FASTEST_DECAY = 1.25  # [1] per step that is still followed well enough
MOST_HALVINGS = 12  # of the step
ENOUGH = 1e-13  # [1] of a root: a smaller change is none
NEWTON_STEPS = 40  # enough for equal roots, of which each step leaves two thirds of the distance


def weigh_leans(lanes: int, state: Array, parameter: Array, leans: Array) -> None:
    """Fill the mass matrix of the three leans, the hip free to move.

    Sum over the bodies of m J^T J + I, less the share of the hip's own motion: F^T F over the
    total mass, with F the sum of m J.  J of a body: how its centre moves with each lean above it.
    """
    for i in range(lanes):
        m1 = parameter[MASS_THIGH * W + i]
        m2 = parameter[MASS_RESIDUAL * W + i]
        m3 = parameter[MASS_PROSTHESIS * W + i]
        total = parameter[MASS_HIP * W + i] + m1 + m2 + m3
        c1 = cosine(state[THIGH * W + i])
        s1 = sine(state[THIGH * W + i])
        c2 = cosine(state[RESIDUAL * W + i])
        s2 = sine(state[RESIDUAL * W + i])
        c3 = cosine(state[PROSTHESIS * W + i])
        s3 = sine(state[PROSTHESIS * W + i])
        # a segment of length l below its upper joint moves what hangs on it by -l (cos, -sin)
        thigh = parameter[LENGTH_THIGH * W + i]
        limb = parameter[LENGTH_RESIDUAL * W + i]
        own1 = parameter[CENTRE_THIGH * W + i]
        own2 = parameter[CENTRE_RESIDUAL * W + i]
        a = parameter[CENTRE_FORWARD * W + i]
        b = parameter[CENTRE_UP * W + i]
        x3 = b * c3 - a * s3
        y3 = -a * c3 - b * s3
        sum1 = m1 * own1 + (m2 + m3) * thigh
        sum2 = m2 * own2 + m3 * limb
        inner1 = m1 * own1 * own1 + (m2 + m3) * thigh * thigh
        inner2 = m2 * own2 * own2 + m3 * limb * limb
        leans[LEAN_MASS * W + i] = inner1 + parameter[INERTIA_THIGH * W + i] - sum1 * sum1 / total
        leans[(LEAN_MASS + 1) * W + i] = (
            inner2 + parameter[INERTIA_RESIDUAL * W + i] - sum2 * sum2 / total
        )
        square = x3 * x3 + y3 * y3
        leans[(LEAN_MASS + 2) * W + i] = (
            m3 * square + parameter[INERTIA_PROSTHESIS * W + i] - m3 * m3 * square / total
        )
        along = c1 * c2 + s1 * s2
        leans[(LEAN_MASS + 3) * W + i] = (thigh * sum2 - sum1 * sum2 / total) * along
        turn1 = s1 * y3 - c1 * x3
        turn2 = s2 * y3 - c2 * x3
        leans[(LEAN_MASS + 4) * W + i] = (thigh * m3 - sum1 * m3 / total) * turn1
        leans[(LEAN_MASS + 5) * W + i] = (limb * m3 - sum2 * m3 / total) * turn2


def tie_leans(
    lanes: int, at: int, hip: int, knee: int, socket: int, parameter: Array, leans: Array
) -> None:
    """Fill the matrix of springs, or dampers, between the three leans, from three parameters."""
    for i in range(lanes):
        h = parameter[hip * W + i]
        k = parameter[knee * W + i]
        s = parameter[socket * W + i]
        leans[at * W + i] = h + k
        leans[(at + 1) * W + i] = k + s
        leans[(at + 2) * W + i] = s
        leans[(at + 3) * W + i] = -k
        leans[(at + 4) * W + i] = 0.0
        leans[(at + 5) * W + i] = -s


def paired_diagonal(j: int, k: int, m: Array) -> float:
    """Part 11 m'11 of the trace of cofactors times matrix, for the matrices at `j` and `k`."""
    a = m[j + W] * m[j + 2 * W] - m[j + 5 * W] * m[j + 5 * W]
    b = m[j] * m[j + 2 * W] - m[j + 4 * W] * m[j + 4 * W]
    c = m[j] * m[j + W] - m[j + 3 * W] * m[j + 3 * W]
    return float(a * m[k] + b * m[k + W] + c * m[k + 2 * W])


def paired(j: int, k: int, m: Array) -> float:
    """Trace of the product of the cofactors of the matrix at entry `j` and that at entry `k`."""
    d = m[j + 4 * W] * m[j + 5 * W] - m[j + 3 * W] * m[j + 2 * W]
    e = m[j + 3 * W] * m[j + 5 * W] - m[j + 4 * W] * m[j + W]
    f = m[j + 3 * W] * m[j + 4 * W] - m[j] * m[j + 5 * W]
    across = d * m[k + 3 * W] + e * m[k + 4 * W] + f * m[k + 5 * W]
    return paired_diagonal(j, k, m) + 2.0 * float(across)


def largest_ratio(own: int, other: int, m: Array) -> float:
    """Largest eigenvalue of mass^-1 other, symmetric matrices at entries `own` and `other`.

    The largest root of det(x mass - other), by Newton's method from the sum of all roots: none is
    negative, so that the sum lies above the largest, and from there the method falls to it.
    """
    whole = paired(own, own, m) / 3.0  # the determinant
    second = paired(own, other, m) / whole
    first = paired(other, own, m) / whole
    last = paired(other, other, m) / 3.0 / whole
    x = second
    for _ in range(NEWTON_STEPS):
        value = ((x - second) * x + first) * x - last
        slope = (3.0 * x - 2.0 * second) * x + first
        change = value / slope if slope > 0.0 else 0.0
        x = x - change if abs(change) > ENOUGH * x else x
    return x


def find_steps(
    lanes: int, step: float, state: Array, parameter: Array, leans: Array, steps: Array
) -> None:
    """Fill the largest of step, step/2, step/4, ... that each run's light parts allow [s].

    A short residual limb is light, so that the dampers on both sides of it make fast decays.  With
    M, D and K the mass, damping and stiffness matrices of the three leans at touch-down (hip free
    to move), the step must not exceed 1.25 / (largest eigenvalue of M^-1 D), nor 1 / (square root
    of that of M^-1 K): well inside the method's stability (2.8), so that decays are followed too.
    """
    p = parameter
    weigh_leans(lanes, state, p, leans)
    tie_leans(lanes, LEAN_DAMPING, HIP_DAMPING, KNEE_DAMPING, SOCKET_DAMPING, p, leans)
    tie_leans(lanes, LEAN_STIFFNESS, HIP_STIFFNESS, KNEE_STIFFNESS, SOCKET_STIFFNESS, p, leans)
    for i in range(lanes):
        decay = largest_ratio(LEAN_MASS * W + i, LEAN_DAMPING * W + i, leans) / FASTEST_DECAY
        swing = sqrt(largest_ratio(LEAN_MASS * W + i, LEAN_STIFFNESS * W + i, leans))
        fastest = max(decay, swing)
        taken = step
        for _ in range(MOST_HALVINGS):
            taken = taken / 2.0 if fastest * taken > 1.0 else taken
        steps[i] = taken


def starting_gap(i: int, hip: float, knee: float, m: Array) -> float:
    """Turn of the prosthesis on the residual limb times the socket's stiffness [N m]; `begin`.

    With M the mass matrix in lane `i` of `m`, x, y, z = M^-1 (0, 1, -1) by elimination; the
    torques give the residual limb and the prosthesis accelerations that differ by
    x (hip - knee) + y knee, and one unit of strain ones that differ by y - z.
    """
    f1 = m[(LEAN_MASS + 3) * W + i] / m[LEAN_MASS * W + i]
    f2 = m[(LEAN_MASS + 4) * W + i] / m[LEAN_MASS * W + i]
    b11 = m[(LEAN_MASS + 1) * W + i] - f1 * m[(LEAN_MASS + 3) * W + i]
    b12 = m[(LEAN_MASS + 5) * W + i] - f1 * m[(LEAN_MASS + 4) * W + i]
    b22 = m[(LEAN_MASS + 2) * W + i] - f2 * m[(LEAN_MASS + 4) * W + i]
    g = b12 / b11
    z = (-1.0 - g) / (b22 - g * b12)
    y = (1.0 - b12 * z) / b11
    x = (-m[(LEAN_MASS + 3) * W + i] * y - m[(LEAN_MASS + 4) * W + i] * z) / m[LEAN_MASS * W + i]
    return float(-(x * (hip - knee) + y * knee) / (y - z))


def begin(
    lanes: int,
    bench: Array,
    setting: Array,
    parameter: Array,
    reference: Array,
    scratch: Array,
    leans: Array,
    state: Array,
) -> None:
    """Fill leans, speeds and the socket's strain at touch-down; everything else is nothing.

    Just before touch-down limb and prosthesis turn together: the socket's strain is that for which
    their accelerations are equal.  Started without strain, the light limb would ring.
    """
    for j in range(STATES * W):
        state[j] = 0.0
    for i in range(lanes):
        thigh = bench[START_THIGH * W + i]
        extra = setting[SET_SOCKET_FLEXION * W + i] - BASE_FLEXION
        lean = thigh + bench[START_FLEXION * W + i] + extra
        rate = bench[START_THIGH_RATE * W + i] + bench[START_FLEXION_RATE * W + i]
        state[THIGH * W + i] = thigh
        state[RESIDUAL * W + i] = lean
        state[PROSTHESIS * W + i] = lean
        state[HIP_VX * W + i] = bench[START_FORWARD_SPEED * W + i]
        state[HIP_VY * W + i] = bench[START_UPWARD_SPEED * W + i]
        state[THIGH_RATE * W + i] = bench[START_THIGH_RATE * W + i]
        state[RESIDUAL_RATE * W + i] = rate
        state[PROSTHESIS_RATE * W + i] = rate
    follow_curves(lanes, 0.0, parameter, reference, scratch)
    joint_torques(lanes, state, parameter, scratch)
    weigh_leans(lanes, state, parameter, leans)
    for i in range(lanes):
        gap = starting_gap(i, scratch[TORQUE_HIP * W + i], scratch[TORQUE_KNEE * W + i], leans)
        state[PROSTHESIS * W + i] += gap / parameter[SOCKET_STIFFNESS * W + i]


def touch_down(lanes: int, parameter: Array, sole: Array, state: Array) -> None:
    """Fill the hip's place at which the sole just touches the floor, the ankle at x = 0."""
    for i in range(lanes):
        c = cosine(state[PROSTHESIS * W + i])
        s = sine(state[PROSTHESIS * W + i])
        low = sole[SOLE_UP * W + i] * c - sole[SOLE_FORWARD * W + i] * s
        for e in range(1, ELEMENTS):
            up = sole[(4 * e + SOLE_UP) * W + i]
            forward = sole[(4 * e + SOLE_FORWARD) * W + i]
            low = min(low, up * c - forward * s)
        ankle = parameter[ANKLE_FORWARD * W + i] * c + parameter[ANKLE_UP * W + i] * s
        thigh = state[THIGH * W + i]
        lean = state[RESIDUAL * W + i]
        upper = parameter[LENGTH_THIGH * W + i]
        lower = parameter[LENGTH_RESIDUAL * W + i]
        state[HIP_X * W + i] = upper * sine(thigh) + lower * sine(lean) - ankle
        state[HIP_Y * W + i] = upper * cosine(thigh) + lower * cosine(lean) - low
