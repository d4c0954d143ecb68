"""What the wearer does: reference curves, joint torques, support by the other limb, the trunk."""

from simgait.arrays import Array
from simgait.physics.layout import (
    ARRIVES_TIME,
    HIP_DAMPING,
    HIP_STIFFNESS,
    HIP_VX,
    HIP_VY,
    HIP_Y,
    KNEE_CURVE,
    KNEE_DAMPING,
    KNEE_STIFFNESS,
    LEAVES_TIME,
    NEXT_DAMPING,
    NEXT_FORWARD,
    NEXT_HEIGHT,
    NEXT_STIFFNESS,
    NEXT_UP,
    NODES,
    OTHER_FORWARD,
    OTHER_UP,
    PUSH_X,
    PUSH_Y,
    REFERENCE_TIME,
    RESIDUAL,
    RESIDUAL_RATE,
    STANCE_TIME,
    THIGH,
    THIGH_CURVE,
    THIGH_RATE,
    TORQUE_HIP,
    TORQUE_KNEE,
    TRUNK_DAMPING,
    TRUNK_PUSH,
    TRUNK_SPEED,
    W,
)


def joint_torques(
    lanes: int,
    time: float,
    state: Array,
    parameter: Array,
    reference: Array,
    scratch: Array,
) -> None:
    """Fill the torques at hip and knee: a spring and damper about the reference curves.

    The curves are uniform cubic splines over the reference time, straight beyond its end.
    Hip: + turns the thigh's top forward.  Knee: + flexes.  [N m]
    """
    lanes = min(lanes, W)
    for i in range(lanes):
        span = parameter[REFERENCE_TIME * W + i] / (NODES - 1)
        u = min(max(time / span, 0.0), 1.0 * (NODES - 1))
        over = max(time / span - (NODES - 1), 0.0)
        k = min(int(u), NODES - 2)
        s = u - k
        r = 1.0 - s
        w0 = r * r * r / 6.0
        w3 = s * s * s / 6.0
        w1 = 2.0 / 3.0 - s * s + 0.5 * s * s * s
        w2 = 2.0 / 3.0 - r * r + 0.5 * r * r * r
        d0 = -0.5 * r * r
        d3 = 0.5 * s * s
        d1 = -2.0 * s + 1.5 * s * s
        d2 = 2.0 * r - 1.5 * r * r
        a = (THIGH_CURVE + k) * W + i
        b = (KNEE_CURVE + k) * W + i
        thigh_slope = (
            d0 * reference[a]
            + d1 * reference[a + W]
            + d2 * reference[a + 2 * W]
            + d3 * reference[a + 3 * W]
        )
        thigh = (
            w0 * reference[a]
            + w1 * reference[a + W]
            + w2 * reference[a + 2 * W]
            + w3 * reference[a + 3 * W]
            + over * thigh_slope
        )
        knee_slope = (
            d0 * reference[b]
            + d1 * reference[b + W]
            + d2 * reference[b + 2 * W]
            + d3 * reference[b + 3 * W]
        )
        knee = (
            w0 * reference[b]
            + w1 * reference[b + W]
            + w2 * reference[b + 2 * W]
            + w3 * reference[b + 3 * W]
            + over * knee_slope
        )
        flexion = state[RESIDUAL * W + i] - state[THIGH * W + i]
        flexing = state[RESIDUAL_RATE * W + i] - state[THIGH_RATE * W + i]
        scratch[TORQUE_HIP * W + i] = parameter[HIP_STIFFNESS * W + i] * (
            thigh - state[THIGH * W + i]
        ) + parameter[HIP_DAMPING * W + i] * (thigh_slope / span - state[THIGH_RATE * W + i])
        scratch[TORQUE_KNEE * W + i] = parameter[KNEE_STIFFNESS * W + i] * (
            knee - flexion
        ) + parameter[KNEE_DAMPING * W + i] * (knee_slope / span - flexing)


def other_support(lanes: int, time: float, state: Array, parameter: Array, scratch: Array) -> None:
    """Fill the forces of the other limb and of the trunk on the hip [N].

    The limb that leaves the floor: r^3 (c0 + c1 a + c2 a^2 + c3 a^3) with a = t/t_leaves and r = 1 - a,
    nothing from t_leaves on.  The limb that arrives: f (c0 + r^3 (c1 + c2 r + c3 r^2)), where b runs from
    0 at t_arrives to 1 at the nominal end of stance, f = 10 b^3 - 15 b^4 + 6 b^5 and r = 1 - b.  The arriving limb also is
    a strut (spring and damper on the hip's height) that comes up smoothly.  The trunk: a damper
    about the speed it holds.
    """
    lanes = min(lanes, W)
    for i in range(lanes):
        p = parameter
        a = time / p[LEAVES_TIME * W + i]
        r = max(1.0 - a, 0.0)
        r = r * r * r
        b = (time - p[ARRIVES_TIME * W + i]) / (p[STANCE_TIME * W + i] - p[ARRIVES_TIME * W + i])
        b = min(max(b, 0.0), 1.0)
        firm = b * b * b * (10.0 - 15.0 * b + 6.0 * b * b)
        b = 1.0 - b
        q = firm * b * b * b
        up = r * (
            p[OTHER_UP * W + i]
            + a
            * (
                p[(OTHER_UP + 1) * W + i]
                + a * (p[(OTHER_UP + 2) * W + i] + a * p[(OTHER_UP + 3) * W + i])
            )
        )
        up += firm * p[NEXT_UP * W + i] + q * (
            p[(NEXT_UP + 1) * W + i] + b * (p[(NEXT_UP + 2) * W + i] + b * p[(NEXT_UP + 3) * W + i])
        )
        up += firm * (
            p[NEXT_STIFFNESS * W + i] * (p[NEXT_HEIGHT * W + i] - state[HIP_Y * W + i])
            - p[NEXT_DAMPING * W + i] * state[HIP_VY * W + i]
        )
        forward = r * (
            p[OTHER_FORWARD * W + i]
            + a
            * (
                p[(OTHER_FORWARD + 1) * W + i]
                + a * (p[(OTHER_FORWARD + 2) * W + i] + a * p[(OTHER_FORWARD + 3) * W + i])
            )
        )
        forward += firm * p[NEXT_FORWARD * W + i] + q * (
            p[(NEXT_FORWARD + 1) * W + i]
            + b * (p[(NEXT_FORWARD + 2) * W + i] + b * p[(NEXT_FORWARD + 3) * W + i])
        )
        scratch[PUSH_X * W + i] = forward
        scratch[PUSH_Y * W + i] = up
        scratch[TRUNK_PUSH * W + i] = p[TRUNK_DAMPING * W + i] * (
            p[TRUNK_SPEED * W + i] - state[HIP_VX * W + i]
        )
