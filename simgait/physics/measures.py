"""The outcome measures of one stance, read from its recorded curves; all in SI."""

from math import sqrt

from simgait.arrays import Array
from simgait.physics.layout import (
    ABSORBED_SOLE,
    ANKLE_FORWARD,
    ANKLE_UP,
    ARRIVES_TIME,
    BACKWARD_MARGIN,
    BACKWARD_MARGIN_WHEN,
    BODY_WEIGHT,
    BRAKING_IMPULSE,
    BRAKING_PEAK,
    BRIM_FORCE,
    CENTRE_FORWARD,
    CENTRE_RESIDUAL,
    CENTRE_THIGH,
    CENTRE_UP,
    CHANNELS,
    DEPTH_FOREFOOT,
    DEPTH_FOREFOOT_RATE,
    DEPTH_HEEL,
    DEPTH_HEEL_RATE,
    DROP_OFF,
    END_STATE,
    END_STEP,
    END_TIME,
    ENDING,
    ENERGY_DRIFT,
    ENERGY_END,
    ENERGY_START,
    EXCHANGED,
    FOOT_FLAT,
    FOOT_LOST,
    FOOT_RETURNED,
    FOOT_STORED,
    FORCE_BEHIND_KNEE,
    FORCE_FORWARD,
    FORCE_MOMENT,
    FORCE_UP,
    FORWARD_MARGIN,
    FORWARD_MARGIN_WHEN,
    FORWARD_THRUST,
    FORWARD_THRUST_ANGLE,
    GRAVITY,
    HEEL_END,
    HEEL_LEVER,
    HEEL_OFF,
    HIP_RISE,
    HIP_VX,
    HIP_VY,
    HIP_X,
    HIP_Y,
    KNEE_EXTENSION_IMPULSE,
    KNEE_EXTENSION_PEAK,
    KNEE_EXTENSION_PEAK_WHEN,
    KNEE_FLEXION_IMPULSE,
    KNEE_FLEXION_PEAK,
    KNEE_FLEXION_PEAK_WHEN,
    KNEE_MIDSTANCE,
    LEAVES_TIME,
    LEDGER_ERROR,
    LEG_LENGTH,
    LENGTH_RESIDUAL,
    LENGTH_THIGH,
    LIMB_END_FORCE,
    LOADING_FLEXION,
    LOADING_RATE,
    LOSS_SOCKET,
    LOSS_SOLE,
    MASS_HIP,
    MASS_PROSTHESIS,
    MASS_RESIDUAL,
    MASS_THIGH,
    MEASURES,
    MOMENT_KNEE,
    MOMENT_SOCKET,
    NOT_A_NUMBER,
    PROPULSIVE_IMPULSE,
    PROPULSIVE_PEAK,
    PROSTHESIS,
    PROSTHESIS_RATE,
    RESIDUAL,
    RESIDUAL_RATE,
    ROLL_CENTRE,
    ROLL_RADIUS,
    SLIP,
    SLIP_LENGTH,
    SOCKET_30,
    SOCKET_45,
    SOCKET_75,
    SOCKET_COUPLE,
    SOCKET_DEPTH,
    SOCKET_EXTENSION_PEAK,
    SOCKET_FLEXION_PEAK,
    SOCKET_SHEAR,
    SOLE_SLOPE,
    SPEED_CHANGE,
    STANCE_LENGTH,
    THIGH,
    THIGH_RATE,
    TOE_END,
    TOE_LEVER,
    TOE_OFF,
    UP_IMPULSE,
    UP_PEAK_FIRST,
    UP_PEAK_SECOND,
    UTILISED_FRICTION,
    WORK_FRICTION,
    WORK_HIP,
    WORK_KNEE,
    WORK_OTHER,
    WORK_SOLE,
    WORK_TRUNK,
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
from simgait.physics.reading import (
    crossing_time,
    find_peak,
    positive_integral,
    positive_share,
    value_at,
)
from simgait.physics.stance import (
    crossing,
)
from simgait.physics.trigonometry import (
    half_cosine,
    half_sine,
)

LOADED = 0.2  # share of body weight above which the pressure point is taken as well defined
PENDULUM = 1.2  # pendulum length over hip height (Hof, Gazendam, Sinke 2005; figure from memory)
DRIVEN_FROM = 0.1  # share of stance from which the heel, once loaded, drives the shank
DRIVEN_UNTIL = 0.3  # share of stance until which it does
MOST_LEDGER_ERROR = 0.001
GAUSS = 0.5773502691896258  # 1 / sqrt(3): the two points of Gauss' rule


def series_points(
    i: int,
    n: int,
    k: int,
    steps: int,
    curves: Array,
    parameter: Array,
    series: Array,
) -> None:
    """Fill the series that need the limb's geometry at recorded instant `n` (row `k`)."""
    p = parameter
    h = half_sine(curves[k + THIGH * W])
    s1 = 2.0 * h * half_cosine(curves[k + THIGH * W])
    c1 = 1.0 - 2.0 * h * h
    h = half_sine(curves[k + RESIDUAL * W])
    s2 = 2.0 * h * half_cosine(curves[k + RESIDUAL * W])
    c2 = 1.0 - 2.0 * h * h
    h = half_sine(curves[k + PROSTHESIS * W])
    s3 = 2.0 * h * half_cosine(curves[k + PROSTHESIS * W])
    c3 = 1.0 - 2.0 * h * h
    l1 = p[LENGTH_THIGH * W + i]
    l2 = p[LENGTH_RESIDUAL * W + i]
    knee_x = curves[k + HIP_X * W] - l1 * s1
    knee_y = curves[k + HIP_Y * W] - l1 * c1
    pivot_x = knee_x - l2 * s2
    pivot_y = knee_y - l2 * c2
    a = p[ANKLE_FORWARD * W + i]
    b = p[ANKLE_UP * W + i]
    ankle_x = pivot_x + a * c3 + b * s3
    # the sole's direction in the room: its slope in the prosthesis' frame less the lean
    slope = p[SOLE_SLOPE * W + i] - curves[k + PROSTHESIS * W]
    h = half_sine(slope)
    along_x = 1.0 - 2.0 * h * h
    up = curves[k + FORCE_UP * W]
    forward = curves[k + FORCE_FORWARD * W]
    place = curves[k + FORCE_MOMENT * W] / max(up, 1.0)
    series[Y_BEHIND * steps + n] = -(place - knee_x) * up - knee_y * forward
    series[Y_USE * steps + n] = abs(forward) / max(up, 1.0)
    series[Y_ROLL_X * steps + n] = (place - pivot_x) * c3 + pivot_y * s3
    series[Y_ROLL_Y * steps + n] = (place - pivot_x) * s3 - pivot_y * c3
    # extrapolated centre of mass
    m1 = p[MASS_THIGH * W + i]
    m2 = p[MASS_RESIDUAL * W + i]
    m3 = p[MASS_PROSTHESIS * W + i]
    mass = p[MASS_HIP * W + i] + m1 + m2 + m3
    k1 = m1 * p[CENTRE_THIGH * W + i] + (m2 + m3) * l1
    k2 = m2 * p[CENTRE_RESIDUAL * W + i] + m3 * l2
    ra = m3 * p[CENTRE_FORWARD * W + i]
    rb = m3 * p[CENTRE_UP * W + i]
    centre = curves[k + HIP_X * W] + (-k1 * s1 - k2 * s2 + ra * c3 + rb * s3) / mass
    speed = (
        curves[k + HIP_VX * W]
        + (
            -k1 * c1 * curves[k + THIGH_RATE * W]
            - k2 * c2 * curves[k + RESIDUAL_RATE * W]
            + (rb * c3 - ra * s3) * curves[k + PROSTHESIS_RATE * W]
        )
        / mass
    )
    reach = centre + speed * sqrt(PENDULUM * p[LEG_LENGTH * W + i] / p[GRAVITY * W + i])
    series[Y_FORWARD_MARGIN * steps + n] = ankle_x + p[TOE_END * W + i] * along_x - reach
    series[Y_BACKWARD_MARGIN * steps + n] = reach - ankle_x - p[HEEL_END * W + i] * along_x


def fill_series(
    i: int,
    last: int,
    steps: int,
    curves: Array,
    parameter: Array,
    series: Array,
) -> None:
    """Fill all series of lane `i` up to recorded instant `last`."""
    depth = parameter[SOCKET_DEPTH * W + i]
    for n in range(last + 1):
        k = n * CHANNELS * W + i
        moment = curves[k + MOMENT_SOCKET * W]
        shear = 0.5 * curves[k + SOCKET_SHEAR * W]
        series[Y_KNEE * steps + n] = -curves[k + MOMENT_KNEE * W]
        series[Y_SOCKET * steps + n] = moment
        series[Y_UP * steps + n] = curves[k + FORCE_UP * W]
        series[Y_FORWARD * steps + n] = curves[k + FORCE_FORWARD * W]
        series[Y_FLEXION * steps + n] = curves[k + RESIDUAL * W] - curves[k + THIGH * W]
        series[Y_SHANK * steps + n] = curves[k + RESIDUAL * W]
        series[Y_HIP * steps + n] = curves[k + HIP_Y * W]
        series[Y_HIP_FALL * steps + n] = -curves[k + HIP_VY * W]
        series[Y_BRIM * steps + n] = abs(shear + moment / depth)
        series[Y_LIMB_END * steps + n] = abs(shear - moment / depth)
        series_points(i, n, k, steps, curves, parameter, series)


def knee_and_socket(
    i: int,
    last: int,
    steps: int,
    step: float,
    end: float,
    parameter: Array,
    series: Array,
    found: Array,
    out: Array,
) -> None:
    """Fill the measures of the knee and of the socket."""
    half = 0.5 * end
    knee = Y_KNEE * steps
    find_peak(series, knee, last, step, 0.0, half, 1.0, found)
    out[KNEE_FLEXION_PEAK * W + i] = found[0]
    out[KNEE_FLEXION_PEAK_WHEN * W + i] = found[1] / end
    find_peak(series, knee, last, step, half, end, -1.0, found)
    out[KNEE_EXTENSION_PEAK * W + i] = found[0]
    out[KNEE_EXTENSION_PEAK_WHEN * W + i] = found[1] / end
    out[KNEE_MIDSTANCE * W + i] = value_at(series, knee, last, step, half)
    out[KNEE_FLEXION_IMPULSE * W + i] = positive_integral(series, knee, last, step, 0.0, end, 1.0)
    out[KNEE_EXTENSION_IMPULSE * W + i] = positive_integral(
        series, knee, last, step, 0.0, end, -1.0
    )
    find_peak(series, Y_FLEXION * steps, last, step, 0.0, half, 1.0, found)
    out[LOADING_FLEXION * W + i] = found[0]
    socket = Y_SOCKET * steps
    find_peak(series, socket, last, step, 0.0, end, 1.0, found)
    out[SOCKET_FLEXION_PEAK * W + i] = found[0]
    find_peak(series, socket, last, step, 0.0, end, -1.0, found)
    out[SOCKET_EXTENSION_PEAK * W + i] = found[0]
    largest = max(out[SOCKET_FLEXION_PEAK * W + i], out[SOCKET_EXTENSION_PEAK * W + i])
    out[SOCKET_COUPLE * W + i] = largest / parameter[SOCKET_DEPTH * W + i]
    find_peak(series, Y_BRIM * steps, last, step, 0.0, end, 1.0, found)
    out[BRIM_FORCE * W + i] = found[0]
    find_peak(series, Y_LIMB_END * steps, last, step, 0.0, end, 1.0, found)
    out[LIMB_END_FORCE * W + i] = found[0]
    out[SOCKET_30 * W + i] = value_at(series, socket, last, step, 0.30 * end)
    out[SOCKET_45 * W + i] = value_at(series, socket, last, step, 0.45 * end)
    out[SOCKET_75 * W + i] = value_at(series, socket, last, step, 0.75 * end)


def loads(
    i: int,
    last: int,
    steps: int,
    step: float,
    end: float,
    parameter: Array,
    series: Array,
    found: Array,
    out: Array,
) -> None:
    """Fill the measures of the ground force."""
    weight = parameter[BODY_WEIGHT * W + i]
    half = 0.5 * end
    up = Y_UP * steps
    find_peak(series, up, last, step, 0.0, half, 1.0, found)
    first = found[0]
    out[UP_PEAK_FIRST * W + i] = first / weight
    find_peak(series, up, last, step, half, end, 1.0, found)
    out[UP_PEAK_SECOND * W + i] = found[0] / weight
    out[UP_IMPULSE * W + i] = positive_integral(series, up, last, step, 0.0, end, 1.0)
    begin = crossing_time(series, up, last, step, 0.0, half, 0.2 * first, 1.0)
    finish = crossing_time(series, up, last, step, 0.0, half, 0.8 * first, 1.0)
    out[LOADING_RATE * W + i] = 0.6 * first / weight / max(finish - begin, step)
    forward = Y_FORWARD * steps
    find_peak(series, forward, last, step, 0.0, end, -1.0, found)
    out[BRAKING_PEAK * W + i] = found[0] / weight
    find_peak(series, forward, last, step, 0.0, end, 1.0, found)
    out[PROPULSIVE_PEAK * W + i] = found[0] / weight
    out[BRAKING_IMPULSE * W + i] = positive_integral(series, forward, last, step, 0.0, end, -1.0)
    out[PROPULSIVE_IMPULSE * W + i] = positive_integral(series, forward, last, step, 0.0, end, 1.0)
    loaded = max(crossing_time(series, up, last, step, 0.0, half, LOADED * weight, 1.0), 0.0)
    free = crossing_time(series, up, last, step, half, end, LOADED * weight, -1.0)
    free = end if free < 0.0 else free
    out[FORCE_BEHIND_KNEE * W + i] = positive_share(
        series, Y_BEHIND * steps, last, step, loaded, free
    )
    find_peak(series, Y_USE * steps, last, step, loaded, free, 1.0, found)
    out[UTILISED_FRICTION * W + i] = found[0]
    find_peak(series, Y_ROLL_X * steps, last, step, loaded, free, -1.0, found)
    out[HEEL_LEVER * W + i] = found[0]
    find_peak(series, Y_ROLL_X * steps, last, step, loaded, free, 1.0, found)
    out[TOE_LEVER * W + i] = found[0]


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

    NaN when it never does.
    """
    when = NOT_A_NUMBER
    for n in range(last):
        k = n * CHANNELS * W + i
        a = curves[k + channel * W]
        b = curves[k + CHANNELS * W + channel * W]
        rises = a <= 0.0 and b > 0.0
        falls = a > 0.0 and b <= 0.0
        if (sense > 0.0 and rises and not when == when) or (sense < 0.0 and falls):
            u = crossing(step, a, curves[k + rate * W], b, curves[k + CHANNELS * W + rate * W])
            when = (n + u) * step
    return when


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
    """Fill radius and forward place of the centre of the roll-over shape.

    The pressure points in the prosthesis' frame, from foot flat to the other limb's contact, and
    the circle that fits them through time with least squares of u^2 + v^2 - 2 a u - 2 b v - c (Kasa 1976);
    integrals by Gauss' rule of two points a step.
    """
    x = Y_ROLL_X * steps
    y = Y_ROLL_Y * steps
    low = int(begin / step)
    high = min(int(finish / step), last - 1)
    mu = 0.0
    mv = 0.0
    total = 0.0
    for k in range(low, high + 1):
        half = 0.5 * (min((k + 1) * step, finish) - max(k * step, begin))
        for side in range(2):
            time = max(k * step, begin) + half * (1.0 + (2.0 * side - 1.0) * GAUSS)
            mu += half * value_at(series, x, last, step, time)
            mv += half * value_at(series, y, last, step, time)
            total += half
    mu /= total
    mv /= total
    suu = 0.0
    svv = 0.0
    suv = 0.0
    pu = 0.0
    pv = 0.0
    for k in range(low, high + 1):
        half = 0.5 * (min((k + 1) * step, finish) - max(k * step, begin))
        weight = half / total
        for side in range(2):
            time = max(k * step, begin) + half * (1.0 + (2.0 * side - 1.0) * GAUSS)
            u = value_at(series, x, last, step, time) - mu
            v = value_at(series, y, last, step, time) - mv
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


def levers_and_tipping(
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


def accounts(i: int, ends: Array, curves: Array, out: Array) -> None:
    """Fill the measures of energy and speed, and what is left over in the ledger."""
    z = END_STATE * W + i
    out[SLIP_LENGTH * W + i] = ends[z + SLIP * W]
    out[FOOT_STORED * W + i] = ends[z + ABSORBED_SOLE * W]
    out[FOOT_RETURNED * W + i] = ends[z + ABSORBED_SOLE * W] + ends[z + WORK_SOLE * W]
    out[FOOT_LOST * W + i] = ends[z + LOSS_SOLE * W]
    out[SPEED_CHANGE * W + i] = ends[z + HIP_VX * W] - curves[HIP_VX * W + i]
    left = ends[ENERGY_END * W + i] - ends[ENERGY_START * W + i]
    left -= ends[z + WORK_HIP * W] + ends[z + WORK_KNEE * W] + ends[z + WORK_OTHER * W]
    left -= ends[z + WORK_TRUNK * W] + ends[z + WORK_SOLE * W] + ends[z + WORK_FRICTION * W]
    left += ends[z + LOSS_SOCKET * W]
    out[LEDGER_ERROR * W + i] = abs(left) / max(ends[z + EXCHANGED * W], 1e-12)


def measure_block(
    lanes: int,
    steps: int,
    step: float,
    curves: Array,
    parameter: Array,
    ends: Array,
    series: Array,
    found: Array,
    out: Array,
) -> None:
    """Fill every measure of every lane that ended with toe-off; the others get NaN.

    A run whose ledger does not close ends as ENERGY_DRIFT.
    """
    for i in range(lanes):
        for m in range(MEASURES):
            out[m * W + i] = NOT_A_NUMBER
        if ends[ENDING * W + i] == TOE_OFF:
            end = ends[END_TIME * W + i]
            last = int(ends[END_STEP * W + i]) + 1
            accounts(i, ends, curves, out)
            if out[LEDGER_ERROR * W + i] > MOST_LEDGER_ERROR:
                ends[ENDING * W + i] = ENERGY_DRIFT
                for m in range(MEASURES - 1):
                    out[m * W + i] = NOT_A_NUMBER
            else:
                fill_series(i, last, steps, curves, parameter, series)
                knee_and_socket(i, last, steps, step, end, parameter, series, found, out)
                loads(i, last, steps, step, end, parameter, series, found, out)
                levers_and_tipping(i, last, steps, step, end, curves, parameter, series, found, out)
