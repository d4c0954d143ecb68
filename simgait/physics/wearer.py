"""What the wearer does: reference curves, joint torques, support by the other limb, the trunk."""

from simgait.arrays import Array
from simgait.physics.layout import (
    ARRIVES_TIME,
    HIP_DAMPING,
    HIP_STIFFNESS,
    HIP_VX,
    HIP_VY,
    HIP_Y,
    KNEE_AIM,
    KNEE_AIM_RATE,
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
    PLAN_FIRM,
    PLAN_X,
    PLAN_Y,
    PUSH_X,
    PUSH_Y,
    REFERENCE_TIME,
    RESIDUAL,
    RESIDUAL_RATE,
    STANCE_TIME,
    THIGH,
    THIGH_AIM,
    THIGH_AIM_RATE,
    THIGH_CURVE,
    THIGH_RATE,
    TORQUE_HIP,
    TORQUE_KNEE,
    TRUNK_DAMPING,
    TRUNK_PUSH,
    TRUNK_SPEED,
    W,
)


def spline_value(at: int, s: float, reference: Array) -> float:
    """Value of a uniform cubic spline at the share `s` of a span [unit of its coefficients].

    Basis functions of the uniform cubic B-spline; `at`: entry of the span's first coefficient.
    """
    r = 1.0 - s
    return float(
        r * r * r / 6.0 * reference[at]
        + (2.0 / 3.0 - s * s + 0.5 * s * s * s) * reference[at + W]
        + (2.0 / 3.0 - r * r + 0.5 * r * r * r) * reference[at + 2 * W]
        + s * s * s / 6.0 * reference[at + 3 * W]
    )


def spline_slope(at: int, s: float, reference: Array) -> float:
    """Derivative of `spline_value` in `s` [unit of its coefficients]."""
    r = 1.0 - s
    return float(
        -0.5 * r * r * reference[at]
        + (-2.0 * s + 1.5 * s * s) * reference[at + W]
        + (2.0 * r - 1.5 * r * r) * reference[at + 2 * W]
        + 0.5 * s * s * reference[at + 3 * W]
    )


def leaving_force(a: float, at: int, parameter: Array) -> float:
    """c0 + c1 a + c2 a^2 + c3 a^3; `at`: entry of c0 [N]."""
    p = parameter
    return float(p[at] + a * (p[at + W] + a * (p[at + 2 * W] + a * p[at + 3 * W])))


def arriving_force(firm: float, r: float, at: int, parameter: Array) -> float:
    """f (c0 + r^3 (c1 + c2 r + c3 r^2)) with f = `firm`; `at`: entry of c0 [N]."""
    p = parameter
    late = firm * r * r * r
    return float(firm * p[at] + late * (p[at + W] + r * (p[at + 2 * W] + r * p[at + 3 * W])))


def follow_curves(
    lanes: int, time: float, parameter: Array, reference: Array, scratch: Array
) -> None:
    """Fill the references of thigh lean and knee flexion, and their rates, at `time` [s].

    Uniform cubic splines over the reference time, straight beyond its end.
    """
    lanes = min(lanes, W)
    for i in range(lanes):
        spans = (NODES - 1) / parameter[REFERENCE_TIME * W + i]  # [1/s]
        along = time * spans
        u = min(max(along, 0.0), 1.0 * (NODES - 1))
        over = max(along - (NODES - 1), 0.0)
        k = min(int(u), NODES - 2)
        s = u - k
        a = (THIGH_CURVE + k) * W + i
        b = (KNEE_CURVE + k) * W + i
        thigh_slope = spline_slope(a, s, reference)
        knee_slope = spline_slope(b, s, reference)
        scratch[THIGH_AIM * W + i] = spline_value(a, s, reference) + over * thigh_slope
        scratch[THIGH_AIM_RATE * W + i] = thigh_slope * spans
        scratch[KNEE_AIM * W + i] = spline_value(b, s, reference) + over * knee_slope
        scratch[KNEE_AIM_RATE * W + i] = knee_slope * spans


def joint_torques(lanes: int, state: Array, parameter: Array, scratch: Array) -> None:
    """Fill the torques at hip and knee: a spring and damper about the references in `scratch`.

    Hip: + turns the thigh's top forward.  Knee: + flexes.  [N m]
    """
    lanes = min(lanes, W)
    for i in range(lanes):
        lean = state[THIGH * W + i]
        leaning = state[THIGH_RATE * W + i]
        flexion = state[RESIDUAL * W + i] - lean
        flexing = state[RESIDUAL_RATE * W + i] - leaning
        scratch[TORQUE_HIP * W + i] = parameter[HIP_STIFFNESS * W + i] * (
            scratch[THIGH_AIM * W + i] - lean
        ) + parameter[HIP_DAMPING * W + i] * (scratch[THIGH_AIM_RATE * W + i] - leaning)
        scratch[TORQUE_KNEE * W + i] = parameter[KNEE_STIFFNESS * W + i] * (
            scratch[KNEE_AIM * W + i] - flexion
        ) + parameter[KNEE_DAMPING * W + i] * (scratch[KNEE_AIM_RATE * W + i] - flexing)


def plan_support(lanes: int, time: float, parameter: Array, scratch: Array) -> None:
    """Fill the forces of the other limb on the hip that depend on `time` [s] alone [N].

    The limb that leaves the floor: r^3 (c0 + c1 a + c2 a^2 + c3 a^3) with a = t/t_leaves and
    r = 1 - a, nothing from t_leaves on.  The limb that arrives: f (c0 + r^3 (c1 + c2 r + c3 r^2)),
    where b runs from 0 at t_arrives to 1 at the nominal end of stance, r = 1 - b and
    f = 10 b^3 - 15 b^4 + 6 b^5.
    """
    lanes = min(lanes, W)
    for i in range(lanes):
        p = parameter
        a = time / p[LEAVES_TIME * W + i]
        fading = max(1.0 - a, 0.0)
        fading = fading * fading * fading
        b = (time - p[ARRIVES_TIME * W + i]) / (p[STANCE_TIME * W + i] - p[ARRIVES_TIME * W + i])
        b = min(max(b, 0.0), 1.0)
        firm = b * b * b * (10.0 - 15.0 * b + 6.0 * b * b)
        r = 1.0 - b
        up = fading * leaving_force(a, OTHER_UP * W + i, p)
        forward = fading * leaving_force(a, OTHER_FORWARD * W + i, p)
        scratch[PLAN_X * W + i] = forward + arriving_force(firm, r, NEXT_FORWARD * W + i, p)
        scratch[PLAN_Y * W + i] = up + arriving_force(firm, r, NEXT_UP * W + i, p)
        scratch[PLAN_FIRM * W + i] = firm


def other_support(lanes: int, state: Array, parameter: Array, scratch: Array) -> None:
    """Fill the forces of the other limb and of the trunk on the hip [N].

    The other limb: as planned, see `plan_support`; the arriving limb also is a strut (spring and
    damper on the hip's height) that comes up with f.  The trunk: a damper about the speed it holds.
    """
    lanes = min(lanes, W)
    for i in range(lanes):
        p = parameter
        scratch[PUSH_X * W + i] = scratch[PLAN_X * W + i]
        scratch[PUSH_Y * W + i] = scratch[PLAN_Y * W + i] + scratch[PLAN_FIRM * W + i] * (
            p[NEXT_STIFFNESS * W + i] * (p[NEXT_HEIGHT * W + i] - state[HIP_Y * W + i])
            - p[NEXT_DAMPING * W + i] * state[HIP_VY * W + i]
        )
        scratch[TRUNK_PUSH * W + i] = p[TRUNK_DAMPING * W + i] * (
            p[TRUNK_SPEED * W + i] - state[HIP_VX * W + i]
        )
