"""The chain of bodies: hip point, thigh, residual limb, prosthesis, in the sagittal plane.

A segment of lean t carries the vector (a forward, b up) to (a cos t + b sin t, -a sin t + b cos t)
in the room; its derivative in t is (-a sin t + b cos t, -a cos t - b sin t).
"""

from simgait.arrays import Array
from simgait.physics.layout import (
    ABSORBED_SOLE,
    BODY_WEIGHT,
    C_PROSTHESIS,
    C_RESIDUAL,
    C_THIGH,
    CENTRE_FORWARD,
    CENTRE_RESIDUAL,
    CENTRE_THIGH,
    CENTRE_UP,
    EXCHANGED,
    GRAVITY,
    HIP_VX,
    HIP_VY,
    HIP_X,
    HIP_Y,
    INERTIA_PROSTHESIS,
    INERTIA_RESIDUAL,
    INERTIA_THIGH,
    LENGTH_RESIDUAL,
    LENGTH_THIGH,
    LOSS_SOCKET,
    LOSS_SOLE,
    MASS_HIP,
    MASS_PROSTHESIS,
    MASS_RESIDUAL,
    MASS_THIGH,
    PIVOT_VX,
    PIVOT_VY,
    PIVOT_X,
    PIVOT_Y,
    PROSTHESIS,
    PROSTHESIS_RATE,
    PUSH_X,
    PUSH_Y,
    RESIDUAL,
    RESIDUAL_RATE,
    S_PROSTHESIS,
    S_RESIDUAL,
    S_THIGH,
    SLIDE_SPEED,
    SLIP,
    SOCKET_DAMPING,
    SOCKET_STIFFNESS,
    SUM_FORWARD,
    SUM_LOSS,
    SUM_MOMENT,
    SUM_POWER,
    SUM_SLIP,
    SUM_UP,
    T_PROSTHESIS,
    THIGH,
    THIGH_RATE,
    TORQUE_HIP,
    TORQUE_KNEE,
    TRUNK_PUSH,
    WORK_FRICTION,
    WORK_HIP,
    WORK_KNEE,
    WORK_OTHER,
    WORK_SOLE,
    WORK_TRUNK,
    W,
)
from simgait.physics.trigonometry import (
    cosine,
    sine,
)

SLIP_LOAD = 0.2  # share of body weight below which sliding counts the less


def place_chain(lanes: int, state: Array, parameter: Array, scratch: Array) -> None:
    """Fill sines, cosines, a tangent, the pivot's place and velocity, the sole's slide speed.

    The slide speed is that of the foot, as a rigid body, where it meets the floor: with the pivot
    at height y and forward speed v, and the prosthesis turning at w, it is v - w y [m/s].
    """
    lanes = min(lanes, W)
    for i in range(lanes):
        s1 = sine(state[THIGH * W + i])
        c1 = cosine(state[THIGH * W + i])
        s2 = sine(state[RESIDUAL * W + i])
        c2 = cosine(state[RESIDUAL * W + i])
        s3 = sine(state[PROSTHESIS * W + i])
        c3 = cosine(state[PROSTHESIS * W + i])
        l1 = parameter[LENGTH_THIGH * W + i]
        l2 = parameter[LENGTH_RESIDUAL * W + i]
        w1 = state[THIGH_RATE * W + i]
        w2 = state[RESIDUAL_RATE * W + i]
        y = state[HIP_Y * W + i] - l1 * c1 - l2 * c2
        vx = state[HIP_VX * W + i] - w1 * l1 * c1 - w2 * l2 * c2
        scratch[S_THIGH * W + i] = s1
        scratch[C_THIGH * W + i] = c1
        scratch[S_RESIDUAL * W + i] = s2
        scratch[C_RESIDUAL * W + i] = c2
        scratch[S_PROSTHESIS * W + i] = s3
        scratch[C_PROSTHESIS * W + i] = c3
        scratch[T_PROSTHESIS * W + i] = s3 / c3
        scratch[PIVOT_X * W + i] = state[HIP_X * W + i] - l1 * s1 - l2 * s2
        scratch[PIVOT_Y * W + i] = y
        scratch[PIVOT_VX * W + i] = vx
        scratch[PIVOT_VY * W + i] = state[HIP_VY * W + i] + w1 * l1 * s1 + w2 * l2 * s2
        scratch[SLIDE_SPEED * W + i] = vx - state[PROSTHESIS_RATE * W + i] * y


def accelerate(lanes: int, state: Array, parameter: Array, scratch: Array, rate: Array) -> None:
    """Fill the second derivatives of the five coordinates: M q'' = Q - c - g.

    Lagrange's equations of the chain, with the two translations eliminated first (their block of M
    is the total mass times the identity) and the three leans solved by elimination.
    """
    lanes = min(lanes, W)
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
        l1 = p[LENGTH_THIGH * W + i]
        l2 = p[LENGTH_RESIDUAL * W + i]
        m1 = p[MASS_THIGH * W + i]
        m2 = p[MASS_RESIDUAL * W + i]
        m3 = p[MASS_PROSTHESIS * W + i]
        d1 = p[CENTRE_THIGH * W + i]
        d2 = p[CENTRE_RESIDUAL * W + i]
        a3 = p[CENTRE_FORWARD * W + i]
        b3 = p[CENTRE_UP * W + i]
        g = p[GRAVITY * W + i]
        total = p[MASS_HIP * W + i] + m1 + m2 + m3
        # first moments, and their turning with each lean: (ux, uy) = d(total * centre)/d(lean)
        k1 = m1 * d1 + (m2 + m3) * l1
        k2 = m2 * d2 + m3 * l2
        rx = m3 * (a3 * c3 + b3 * s3)
        ry = m3 * (b3 * c3 - a3 * s3)
        ux1 = -k1 * c1
        uy1 = k1 * s1
        ux2 = -k2 * c2
        uy2 = k2 * s2
        ux3 = ry
        uy3 = -rx
        # forces: hip, gravity, ground, joints
        fx = scratch[SUM_FORWARD * W + i]
        fy = scratch[SUM_UP * W + i]
        socket = p[SOCKET_STIFFNESS * W + i] * (
            state[PROSTHESIS * W + i] - state[RESIDUAL * W + i]
        ) + p[SOCKET_DAMPING * W + i] * (w3 - w2)
        hip = scratch[TORQUE_HIP * W + i]
        knee = scratch[TORQUE_KNEE * W + i]
        qx = fx + scratch[PUSH_X * W + i] + scratch[TRUNK_PUSH * W + i]
        qy = fy + scratch[PUSH_Y * W + i] - total * g
        q1 = hip - knee + l1 * (fy * s1 - fx * c1) - g * uy1
        q2 = knee + socket + l2 * (fy * s2 - fx * c2) - g * uy2
        q3 = -socket - fx * scratch[PIVOT_Y * W + i] - scratch[SUM_MOMENT * W + i] - g * uy3
        # centripetal terms
        n1 = w1 * w1
        n2 = w2 * w2
        n3 = w3 * w3
        qx -= n1 * k1 * s1 + n2 * k2 * s2 - n3 * rx
        qy -= n1 * k1 * c1 + n2 * k2 * c2 - n3 * ry
        s12 = s1 * c2 - c1 * s2
        q1 -= l1 * (n2 * k2 * s12 + n3 * (c1 * rx - s1 * ry))
        q2 -= -n1 * l1 * k2 * s12 + n3 * l2 * (c2 * rx - s2 * ry)
        q3 -= ry * (n1 * l1 * s1 + n2 * l2 * s2) - rx * (n1 * l1 * c1 + n2 * l2 * c2)
        # mass matrix of the leans, after the translations are eliminated
        inverse = 1.0 / total
        m11 = p[INERTIA_THIGH * W + i] + m1 * d1 * d1 + (m2 + m3) * l1 * l1
        m22 = p[INERTIA_RESIDUAL * W + i] + m2 * d2 * d2 + m3 * l2 * l2
        m33 = p[INERTIA_PROSTHESIS * W + i] + m3 * (a3 * a3 + b3 * b3)
        m12 = l1 * k2 * (c1 * c2 + s1 * s2)
        m13 = -l1 * (c1 * ry + s1 * rx)
        m23 = -l2 * (c2 * ry + s2 * rx)
        m11 -= inverse * (ux1 * ux1 + uy1 * uy1)
        m22 -= inverse * (ux2 * ux2 + uy2 * uy2)
        m33 -= inverse * (ux3 * ux3 + uy3 * uy3)
        m12 -= inverse * (ux1 * ux2 + uy1 * uy2)
        m13 -= inverse * (ux1 * ux3 + uy1 * uy3)
        m23 -= inverse * (ux2 * ux3 + uy2 * uy3)
        q1 -= inverse * (ux1 * qx + uy1 * qy)
        q2 -= inverse * (ux2 * qx + uy2 * qy)
        q3 -= inverse * (ux3 * qx + uy3 * qy)
        # elimination from the foot upward
        i33 = 1.0 / m33
        f23 = m23 * i33
        f13 = m13 * i33
        m22 -= f23 * m23
        m12 -= f23 * m13
        m11 -= f13 * m13
        q2 -= f23 * q3
        q1 -= f13 * q3
        i22 = 1.0 / m22
        f12 = m12 * i22
        a1 = (q1 - f12 * q2) / (m11 - f12 * m12)
        a2 = (q2 - m12 * a1) * i22
        a3 = (q3 - m13 * a1 - m23 * a2) * i33
        rate[THIGH_RATE * W + i] = a1
        rate[RESIDUAL_RATE * W + i] = a2
        rate[PROSTHESIS_RATE * W + i] = a3
        rate[HIP_VX * W + i] = inverse * (qx - ux1 * a1 - ux2 * a2 - ux3 * a3)
        rate[HIP_VY * W + i] = inverse * (qy - uy1 * a1 - uy2 * a2 - uy3 * a3)
        rate[HIP_X * W + i] = state[HIP_VX * W + i]
        rate[HIP_Y * W + i] = state[HIP_VY * W + i]
        rate[THIGH * W + i] = w1
        rate[RESIDUAL * W + i] = w2
        rate[PROSTHESIS * W + i] = w3


def count_flows(lanes: int, state: Array, parameter: Array, scratch: Array, rate: Array) -> None:
    """Fill the rates of the ledger: the power of every source and sink [W], and the slide speed."""
    lanes = min(lanes, W)
    for i in range(lanes):
        w1 = state[THIGH_RATE * W + i]
        hip = scratch[TORQUE_HIP * W + i] * w1
        knee = scratch[TORQUE_KNEE * W + i] * (state[RESIDUAL_RATE * W + i] - w1)
        vx = state[HIP_VX * W + i]
        other = scratch[PUSH_X * W + i] * vx + scratch[PUSH_Y * W + i] * state[HIP_VY * W + i]
        trunk = scratch[TRUNK_PUSH * W + i] * vx
        sole = scratch[SUM_POWER * W + i]
        friction = scratch[SUM_FORWARD * W + i] * scratch[SLIDE_SPEED * W + i]
        turning = state[PROSTHESIS_RATE * W + i] - state[RESIDUAL_RATE * W + i]
        liner = parameter[SOCKET_DAMPING * W + i] * turning * turning
        rate[WORK_HIP * W + i] = hip
        rate[WORK_KNEE * W + i] = knee
        rate[WORK_OTHER * W + i] = other
        rate[WORK_TRUNK * W + i] = trunk
        rate[WORK_SOLE * W + i] = -sole
        rate[WORK_FRICTION * W + i] = friction
        rate[LOSS_SOCKET * W + i] = liner
        rate[LOSS_SOLE * W + i] = scratch[SUM_LOSS * W + i]
        rate[EXCHANGED * W + i] = (
            abs(hip) + abs(knee) + abs(other) + abs(trunk) + abs(sole) + abs(friction) + liner
        )
        rate[ABSORBED_SOLE * W + i] = max(sole, 0.0)
        load = max(scratch[SUM_UP * W + i], SLIP_LOAD * parameter[BODY_WEIGHT * W + i])
        rate[SLIP * W + i] = scratch[SUM_SLIP * W + i] / (load + 1e-9)
