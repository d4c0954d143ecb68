"""Times of contact, the roll-over shape, and how near a fall is; all in SI."""

from math import sqrt

from simgait.arrays import Array
from simgait.physics.layout import (
    ARRIVES_TIME,
    BACKWARD_MARGIN,
    BACKWARD_MARGIN_WHEN,
    CHANNELS,
    DEPTH_FOREFOOT,
    DEPTH_FOREFOOT_RATE,
    DEPTH_HEEL,
    DEPTH_HEEL_RATE,
    DROP_OFF,
    FOOT_FLAT,
    FORWARD_MARGIN,
    FORWARD_MARGIN_WHEN,
    FORWARD_THRUST,
    FORWARD_THRUST_ANGLE,
    HEEL_OFF,
    HIP_RISE,
    LEAVES_TIME,
    LEG_LENGTH,
    NOT_A_NUMBER,
    ROLL_CENTRE,
    ROLL_RADIUS,
    STANCE_LENGTH,
    Y_BACKWARD_MARGIN,
    Y_FORWARD_MARGIN,
    Y_HIP,
    Y_HIP_FALL,
    Y_POINT_X,
    Y_POINT_Y,
    Y_ROLL_X,
    Y_ROLL_Y,
    Y_SHANK,
    W,
)
from simgait.physics.reading import (
    find_peak,
    value_at,
)
from simgait.physics.stance import (
    crossing,
)

DRIVEN_FROM = 0.1  # share of stance from which the heel, once loaded, drives the shank
DRIVEN_UNTIL = 0.3  # share of stance until which it does
GAUSS = 0.5773502691896258  # 1 / sqrt(3): the two points of Gauss' rule


def contact_time(
    i: int,
    last: int,
    step: float,
    channel: int,
    rate: int,
    sense: float,
    curves: Array,
) -> float:
    """Time at which a depth channel last falls below nothing (sense -1) or first rises (+1) [s].

    Within the step, by the cubic through both depths and their rates; NaN when it never does.
    """
    when = NOT_A_NUMBER
    met = False
    for n in range(last):
        k = n * CHANNELS * W + i
        a = curves[k + channel * W]
        b = curves[k + CHANNELS * W + channel * W]
        rises = a <= 0.0 and b > 0.0
        falls = a > 0.0 and b <= 0.0
        if (sense > 0.0 and rises and not met) or (sense < 0.0 and falls):
            met = True
            u = crossing(step, a, curves[k + rate * W], b, curves[k + CHANNELS * W + rate * W])
            when = (n + u) * step
    return when


def half_width(k: int, step: float, begin: float, finish: float) -> float:
    """Half of the part of step `k` that lies between two times [s]."""
    return 0.5 * (min((k + 1) * step, finish) - max(k * step, begin))


def gauss_time(k: int, side: int, step: float, begin: float, half: float) -> float:
    """First (side 0) or second (side 1) of the two points of Gauss' rule in step `k` [s]."""
    return max(k * step, begin) + half * (1.0 + (2.0 * side - 1.0) * GAUSS)


def fit_circle(
    i: int,
    last: int,
    steps: int,
    step: float,
    begin: float,
    finish: float,
    mu: float,
    mv: float,
    total: float,
    series: Array,
    out: Array,
) -> None:
    """Fill radius and centre of the circle nearest to the pressure points about their mean.

    Least squares of u^2 + v^2 - 2 a u - 2 b v - c through time (Kasa 1976).  mu, mv: mean of the
    points [m]; total: time between `begin` and `finish` [s].
    """
    suu = 0.0
    svv = 0.0
    suv = 0.0
    pu = 0.0
    pv = 0.0
    for k in range(int(begin / step), min(int(finish / step), last - 1) + 1):
        half = half_width(k, step, begin, finish)
        weight = half / total
        for side in range(2):
            u = series[Y_POINT_X * steps + 2 * k + side] - mu
            v = series[Y_POINT_Y * steps + 2 * k + side] - mv
            suu += weight * u * u
            svv += weight * v * v
            suv += weight * u * v
            pu += 0.5 * weight * u * (u * u + v * v)
            pv += 0.5 * weight * v * (u * u + v * v)
    below = suu * svv - suv * suv
    a = (pu * svv - pv * suv) / below
    b = (pv * suu - pu * suv) / below
    out[ROLL_RADIUS * W + i] = sqrt(a * a + b * b + suu + svv)
    out[ROLL_CENTRE * W + i] = a + mu


def roll_over(
    i: int,
    last: int,
    steps: int,
    step: float,
    begin: float,
    finish: float,
    series: Array,
    out: Array,
) -> None:
    """Fill radius and forward place of the centre of the roll-over shape [m].

    The circle that fits the pressure points in the prosthesis' frame between two times [s];
    integrals by Gauss' rule of two points a step.
    """
    mu = 0.0
    mv = 0.0
    total = 0.0
    for k in range(int(begin / step), min(int(finish / step), last - 1) + 1):
        half = half_width(k, step, begin, finish)
        for side in range(2):
            time = gauss_time(k, side, step, begin, half)
            u = value_at(series, Y_ROLL_X * steps, last, step, time)
            v = value_at(series, Y_ROLL_Y * steps, last, step, time)
            series[Y_POINT_X * steps + 2 * k + side] = u
            series[Y_POINT_Y * steps + 2 * k + side] = v
            mu += half * u
            mv += half * v
            total += half
    mu /= total
    mv /= total
    fit_circle(i, last, steps, step, begin, finish, mu, mv, total, series, out)


def contact_and_tipping(
    i: int,
    last: int,
    steps: int,
    step: float,
    end: float,
    curves: Array,
    parameter: Array,
    series: Array,
    found: Array,
    out: Array,
) -> None:
    """Fill the times of contact, the roll-over shape and the measures of tipping."""
    flat = contact_time(i, last, step, DEPTH_FOREFOOT, DEPTH_FOREFOOT_RATE, 1.0, curves)
    out[FOOT_FLAT * W + i] = flat
    out[HEEL_OFF * W + i] = contact_time(i, last, step, DEPTH_HEEL, DEPTH_HEEL_RATE, -1.0, curves)
    out[STANCE_LENGTH * W + i] = end
    leaves = parameter[LEAVES_TIME * W + i]
    arrives = min(parameter[ARRIVES_TIME * W + i], end)
    begin = flat if flat < 0.5 * end else 0.5 * leaves
    roll_over(i, last, steps, step, begin, arrives, series, out)
    find_peak(series, Y_FORWARD_MARGIN * steps, last, step, leaves, arrives, -1.0, found)
    out[FORWARD_MARGIN * W + i] = -found[0]
    out[FORWARD_MARGIN_WHEN * W + i] = found[1] / end
    find_peak(series, Y_BACKWARD_MARGIN * steps, last, step, leaves, arrives, -1.0, found)
    out[BACKWARD_MARGIN * W + i] = -found[0]
    out[BACKWARD_MARGIN_WHEN * W + i] = found[1] / end
    out[DROP_OFF * W + i] = value_at(series, Y_HIP_FALL * steps, last, step, arrives)
    lean = value_at(series, Y_SHANK * steps, last, step, DRIVEN_UNTIL * end)
    early = value_at(series, Y_SHANK * steps, last, step, DRIVEN_FROM * end)
    out[FORWARD_THRUST * W + i] = (lean - early) / ((DRIVEN_UNTIL - DRIVEN_FROM) * end)
    out[FORWARD_THRUST_ANGLE * W + i] = lean - series[Y_SHANK * steps]
    find_peak(series, Y_HIP * steps, last, step, 0.0, end, 1.0, found)
    out[HIP_RISE * W + i] = found[0] - parameter[LEG_LENGTH * W + i]
