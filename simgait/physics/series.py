"""What the measures are read from: one value a recorded instant and lane, in SI."""

from math import sqrt

from simgait.arrays import Array
from simgait.physics.layout import (
    ANKLE_FORWARD,
    ANKLE_UP,
    CENTRE_FORWARD,
    CENTRE_RESIDUAL,
    CENTRE_THIGH,
    CENTRE_UP,
    CHANNELS,
    FORCE_FORWARD,
    FORCE_MOMENT,
    FORCE_UP,
    GRAVITY,
    HEEL_END,
    HIP_VX,
    HIP_VY,
    HIP_X,
    HIP_Y,
    LEG_LENGTH,
    LENGTH_RESIDUAL,
    LENGTH_THIGH,
    MASS_HIP,
    MASS_PROSTHESIS,
    MASS_RESIDUAL,
    MASS_THIGH,
    MOMENT_KNEE,
    MOMENT_SOCKET,
    MOST_INSTANTS,
    PROSTHESIS,
    PROSTHESIS_RATE,
    RESIDUAL,
    RESIDUAL_RATE,
    SOCKET_DEPTH,
    SOCKET_SHEAR,
    SOLE_SLOPE,
    THIGH,
    THIGH_RATE,
    TOE_END,
    Y_BACKWARD_MARGIN,
    Y_BEHIND,
    Y_BRIM,
    Y_FLEXION,
    Y_FORWARD,
    Y_FORWARD_MARGIN,
    Y_HIP,
    Y_HIP_FALL,
    Y_KNEE,
    Y_LIMB_END,
    Y_ROLL_X,
    Y_ROLL_Y,
    Y_SHANK,
    Y_SOCKET,
    Y_UP,
    Y_USE,
    W,
)
from simgait.physics.trigonometry import (
    cosine,
    sine,
)

PENDULUM = 1.2  # pendulum length over hip height (Hof, Gazendam, Sinke 2005; figure from memory)


def mass_reach(
    k: int,
    i: int,
    turning_1: float,
    turning_2: float,
    turning_3: float,
    beside: float,
    curves: Array,
    parameter: Array,
) -> float:
    """Place of the extrapolated centre of mass of lane `i` [m].

    x + v sqrt(l / g), with l = 1.2 hip heights (Hof, Gazendam and Sinke 2005, J Biomech 38:1).

    turning_1 to turning_3: momentum of each segment about the hip [kg m/s]; beside: first moment of
    all segments about the hip [kg m]; k: entry of the instant's record.
    """
    p = parameter
    mass = (
        p[MASS_HIP * W + i]
        + p[MASS_THIGH * W + i]
        + p[MASS_RESIDUAL * W + i]
        + p[MASS_PROSTHESIS * W + i]
    )
    seconds = sqrt(PENDULUM * p[LEG_LENGTH * W + i] / p[GRAVITY * W + i])
    speed = curves[k + HIP_VX * W] + (turning_1 + turning_2 + turning_3) / mass
    return float(curves[k + HIP_X * W] + beside / mass + speed * seconds)


def point_series(
    lanes: int, n: int, steps: int, curves: Array, parameter: Array, series: Array
) -> None:
    """Fill the series of the ground force, the pressure point and the margins at instant `n`.

    The moment of the ground force about the knee [N m], friction used [1], the pressure point in
    the prosthesis' frame [m]; and the margins of stability [m]: the toe end of the sole less the
    extrapolated centre of mass (`mass_reach`), and that less the heel end.
    """
    lanes = min(lanes, W)
    n = min(max(n, 0), MOST_INSTANTS)
    steps = min(max(steps, 1), MOST_INSTANTS)
    for i in range(lanes):
        p = parameter
        k = n * CHANNELS * W + i
        s1 = sine(curves[k + THIGH * W])
        c1 = cosine(curves[k + THIGH * W])
        s2 = sine(curves[k + RESIDUAL * W])
        c2 = cosine(curves[k + RESIDUAL * W])
        s3 = sine(curves[k + PROSTHESIS * W])
        c3 = cosine(curves[k + PROSTHESIS * W])
        l1 = p[LENGTH_THIGH * W + i]
        l2 = p[LENGTH_RESIDUAL * W + i]
        knee_x = curves[k + HIP_X * W] - l1 * s1
        knee_y = curves[k + HIP_Y * W] - l1 * c1
        pivot_x = knee_x - l2 * s2
        pivot_y = knee_y - l2 * c2
        up = curves[k + FORCE_UP * W]
        forward = curves[k + FORCE_FORWARD * W]
        load = max(up, 1.0)
        place = curves[k + FORCE_MOMENT * W] / load
        series[(Y_BEHIND * steps + n) * W + i] = -(place - knee_x) * up - knee_y * forward
        series[(Y_USE * steps + n) * W + i] = abs(forward) / load
        series[(Y_ROLL_X * steps + n) * W + i] = (place - pivot_x) * c3 + pivot_y * s3
        series[(Y_ROLL_Y * steps + n) * W + i] = (place - pivot_x) * s3 - pivot_y * c3
        m2 = p[MASS_RESIDUAL * W + i]
        m3 = p[MASS_PROSTHESIS * W + i]
        k1 = p[MASS_THIGH * W + i] * p[CENTRE_THIGH * W + i] + (m2 + m3) * l1
        k2 = m2 * p[CENTRE_RESIDUAL * W + i] + m3 * l2
        ra = m3 * p[CENTRE_FORWARD * W + i]
        rb = m3 * p[CENTRE_UP * W + i]
        w1 = -k1 * c1 * curves[k + THIGH_RATE * W]
        w2 = -k2 * c2 * curves[k + RESIDUAL_RATE * W]
        w3 = (rb * c3 - ra * s3) * curves[k + PROSTHESIS_RATE * W]
        beside = ra * c3 + rb * s3 - k1 * s1 - k2 * s2
        reach = mass_reach(k, i, w1, w2, w3, beside, curves, p)
        ankle = pivot_x + p[ANKLE_FORWARD * W + i] * c3 + p[ANKLE_UP * W + i] * s3
        # the sole's direction in the room: its slope in the prosthesis' frame less the lean
        along = cosine(p[SOLE_SLOPE * W + i] - curves[k + PROSTHESIS * W])
        forward_margin = ankle + p[TOE_END * W + i] * along - reach
        series[(Y_FORWARD_MARGIN * steps + n) * W + i] = forward_margin
        backward_margin = reach - ankle - p[HEEL_END * W + i] * along
        series[(Y_BACKWARD_MARGIN * steps + n) * W + i] = backward_margin


def load_series(
    lanes: int, n: int, steps: int, curves: Array, parameter: Array, series: Array
) -> None:
    """Fill the series of forces, moments, leans and the hip at instant `n`."""
    lanes = min(lanes, W)
    n = min(max(n, 0), MOST_INSTANTS)
    steps = min(max(steps, 1), MOST_INSTANTS)
    for i in range(lanes):
        k = n * CHANNELS * W + i
        moment = curves[k + MOMENT_SOCKET * W]
        couple = moment / parameter[SOCKET_DEPTH * W + i]
        shear = 0.5 * curves[k + SOCKET_SHEAR * W]
        bent = curves[k + RESIDUAL * W] - curves[k + THIGH * W]
        series[(Y_KNEE * steps + n) * W + i] = -curves[k + MOMENT_KNEE * W]
        series[(Y_SOCKET * steps + n) * W + i] = moment
        series[(Y_UP * steps + n) * W + i] = curves[k + FORCE_UP * W]
        series[(Y_FORWARD * steps + n) * W + i] = curves[k + FORCE_FORWARD * W]
        series[(Y_FLEXION * steps + n) * W + i] = bent
        series[(Y_SHANK * steps + n) * W + i] = curves[k + RESIDUAL * W]
        series[(Y_HIP * steps + n) * W + i] = curves[k + HIP_Y * W]
        series[(Y_HIP_FALL * steps + n) * W + i] = -curves[k + HIP_VY * W]
        series[(Y_BRIM * steps + n) * W + i] = abs(shear + couple)
        series[(Y_LIMB_END * steps + n) * W + i] = abs(shear - couple)


def fill_series(
    lanes: int, last: int, steps: int, curves: Array, parameter: Array, series: Array
) -> None:
    """Fill all series up to recorded instant `last`."""
    for n in range(last + 1):
        load_series(lanes, n, steps, curves, parameter, series)
        point_series(lanes, n, steps, curves, parameter, series)
