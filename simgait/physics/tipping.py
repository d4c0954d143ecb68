"""Times of contact, the roll-over shape, and how near a fall is; all in SI."""

from math import sqrt

from simgait.arrays import Array
from simgait.physics.layout import (
    ARRIVES_TIME,
    BACKWARD_MARGIN,
    BACKWARD_MARGIN_WHEN,
    BEGIN,
    CHANNELS,
    DEPTH_FOREFOOT,
    DEPTH_FOREFOOT_RATE,
    DEPTH_HEEL,
    DEPTH_HEEL_RATE,
    DROP_OFF,
    END,
    FINISH,
    FOOT_FLAT,
    FORWARD_MARGIN,
    FORWARD_MARGIN_WHEN,
    FORWARD_THRUST,
    FORWARD_THRUST_ANGLE,
    FROM,
    HEEL_OFF,
    HIP_RISE,
    LAST,
    LEAVES_TIME,
    LEG_LENGTH,
    MOMENTS,
    MOST_INSTANTS,
    MOST_PLACES,
    NOT_A_NUMBER,
    ORIGIN_X,
    ORIGIN_Y,
    PLACE,
    ROLL_CENTRE,
    ROLL_RADIUS,
    STANCE_LENGTH,
    TO,
    VALUE,
    WHEN,
    Y_BACKWARD_MARGIN,
    Y_FORWARD_MARGIN,
    Y_HIP,
    Y_HIP_FALL,
    Y_ROLL_X,
    Y_ROLL_Y,
    Y_SHANK,
    W,
)
from simgait.physics.reading import (
    find_peaks,
    first_of,
    last_of,
    mark_window,
    set_window,
    value_at,
)
from simgait.physics.stance import (
    crossing,
)

DRIVEN_FROM = 0.1  # share of stance from which the heel, once loaded, drives the shank
DRIVEN_UNTIL = 0.3  # share of stance until which it does
GAUSS = 0.5773502691896258  # 1 / sqrt(3): the two points of Gauss' rule


def contact_times(
    lanes: int,
    step: float,
    channel: int,
    rate: int,
    sense: float,
    curves: Array,
    found: Array,
) -> None:
    """Fill when a depth channel last falls below nothing (sense -1) or first rises (+1) [s].

    Within the step, by the cubic through both depths and their rates; NaN when it never does.
    """
    lanes = min(lanes, W)
    row = CHANNELS * W
    for i in range(lanes):
        found[PLACE * W + i] = -1.0
    for n in range(last_of(lanes, LAST, found)):
        at = min(max(n * CHANNELS + channel, 0), MOST_INSTANTS * CHANNELS) * W
        for i in range(lanes):
            a = sense * curves[at + i]
            b = sense * curves[at + row + i]
            new = 1.0 if a <= 0.0 else -1.0
            new = new if b > 0.0 else -1.0
            new = new if n < found[LAST * W + i] else -1.0
            new = new if sense < 0.0 or found[PLACE * W + i] < 0.0 else -1.0
            found[PLACE * W + i] = 1.0 * n if new > 0.0 else found[PLACE * W + i]
    for i in range(lanes):
        n = int(found[PLACE * W + i])
        found[WHEN * W + i] = NOT_A_NUMBER
        if n >= 0:
            a = n * row + channel * W + i
            b = n * row + rate * W + i
            u = crossing(step, curves[a], curves[b], curves[a + row], curves[b + row])
            found[WHEN * W + i] = (n + u) * step


def add_points(
    i: int, step: float, low: float, high: float, steps: int, series: Array, found: Array
) -> None:
    """Add the roll-over shape between two times to one lane's moments, point by point [s].

    Gauss' rule of two points.
    """
    last = int(found[LAST * W + i])
    half = 0.5 * (high - low)
    for side in range(2):
        time = low + half * (1.0 + (2.0 * side - 1.0) * GAUSS)
        u = value_at(series, Y_ROLL_X * steps * W + i, last, step, time)
        v = value_at(series, Y_ROLL_Y * steps * W + i, last, step, time)
        add_moments(i, half, u - found[ORIGIN_X * W + i], v - found[ORIGIN_Y * W + i], found)


def add_moments(i: int, weight: float, u: float, v: float, found: Array) -> None:
    """Add a point and its weight to one lane's sums of 1, u, v, uu, vv, uv, z, uz, vz."""
    z = u * u + v * v
    found[MOMENTS * W + i] += weight
    found[(MOMENTS + 1) * W + i] += weight * u
    found[(MOMENTS + 2) * W + i] += weight * v
    found[(MOMENTS + 3) * W + i] += weight * (u * u)
    found[(MOMENTS + 4) * W + i] += weight * (v * v)
    found[(MOMENTS + 5) * W + i] += weight * (u * v)
    found[(MOMENTS + 6) * W + i] += weight * z
    found[(MOMENTS + 7) * W + i] += weight * (u * z)
    found[(MOMENTS + 8) * W + i] += weight * (v * z)


def between_samples(series: Array, k: int, side: float) -> float:
    """Value at a point of Gauss' rule in the step from entry `k`: `value_at` with fixed weights."""
    u = 0.5 + 0.5 * GAUSS * side
    p = u + 2.0
    q = u + 1.0
    r = u - 1.0
    s = u - 2.0
    t = u - 3.0
    return float(
        q * u * r * (p * s * series[k + 3 * W] - s * t * series[k - 2 * W]) / 120.0
        + p * u * r * t * (s * series[k - W] - q * series[k + 2 * W]) / 24.0
        + p * q * s * t * (u * series[k + W] - r * series[k]) / 12.0
    )


def add_whole_steps(lanes: int, step: float, steps: int, series: Array, found: Array) -> None:
    """Add the roll-over shape in the whole steps of every window to the moments."""
    lanes = min(lanes, W)
    steps = min(max(steps, 1), MOST_INSTANTS)
    for n in range(max(first_of(lanes, FROM, found), 2), last_of(lanes, TO, found)):
        x = min(max(Y_ROLL_X * steps + n, 2), MOST_PLACES) * W
        y = min(max(Y_ROLL_Y * steps + n, 2), MOST_PLACES) * W
        for i in range(lanes):
            half = 0.5 * step if n >= found[FROM * W + i] else 0.0
            half = half if n < found[TO * W + i] else 0.0
            u0 = found[ORIGIN_X * W + i]
            v0 = found[ORIGIN_Y * W + i]
            u = between_samples(series, x + i, -1.0) - u0
            v = between_samples(series, y + i, -1.0) - v0
            add_moments(i, half, u, v, found)
            u = between_samples(series, x + i, 1.0) - u0
            v = between_samples(series, y + i, 1.0) - v0
            add_moments(i, half, u, v, found)


def fit_circles(lanes: int, found: Array, out: Array) -> None:
    """Fill radius and centre of the circle nearest to the points whose moments were added [m].

    Least squares of u^2 + v^2 - 2 a u - 2 b v - c through time (Kasa 1976).
    """
    for i in range(lanes):
        total = found[MOMENTS * W + i]
        mu = found[(MOMENTS + 1) * W + i] / total
        mv = found[(MOMENTS + 2) * W + i] / total
        mz = found[(MOMENTS + 6) * W + i] / total
        suu = found[(MOMENTS + 3) * W + i] / total - mu * mu
        svv = found[(MOMENTS + 4) * W + i] / total - mv * mv
        suv = found[(MOMENTS + 5) * W + i] / total - mu * mv
        pu = 0.5 * (found[(MOMENTS + 7) * W + i] / total - mu * mz)
        pv = 0.5 * (found[(MOMENTS + 8) * W + i] / total - mv * mz)
        below = suu * svv - suv * suv
        a = (pu * svv - pv * suv) / below
        b = (pv * suu - pu * suv) / below
        c = mz - 2.0 * (a * mu + b * mv)
        out[ROLL_RADIUS * W + i] = sqrt(a * a + b * b + c)
        out[ROLL_CENTRE * W + i] = a + found[ORIGIN_X * W + i]


def roll_over(lanes: int, steps: int, step: float, series: Array, found: Array, out: Array) -> None:
    """Fill radius and forward place of the centre of the roll-over shape [m].

    The circle that fits the pressure points in the prosthesis' frame in every window; integrals by
    Gauss' rule of two points a step, the parts of steps at both ends by themselves.
    """
    for i in range(lanes):
        last = int(found[LAST * W + i])
        begin = found[BEGIN * W + i]
        finish = found[FINISH * W + i]
        found[ORIGIN_X * W + i] = value_at(series, Y_ROLL_X * steps * W + i, last, step, begin)
        found[ORIGIN_Y * W + i] = value_at(series, Y_ROLL_Y * steps * W + i, last, step, begin)
        for m in range(9):
            found[(MOMENTS + m) * W + i] = 0.0
        # steps near both ends of the record, whose polynomial is not centred, and parts of steps
        first = min(max(int(found[FROM * W + i]), 2), last - 2)
        final = max(min(int(found[TO * W + i]), last - 2), first)
        for n in range(first + 1):
            low = max(n * step, begin)
            high = min(min((n + 1) * step, first * step), finish)
            if low < high:
                add_points(i, step, low, high, steps, series, found)
        for n in range(final, last):
            low = max(n * step, begin)
            high = min((n + 1) * step, finish)
            if low < high:
                add_points(i, step, low, high, steps, series, found)
        found[FROM * W + i] = first
        found[TO * W + i] = final
    add_whole_steps(lanes, step, steps, series, found)
    fit_circles(lanes, found, out)


def contacts(
    lanes: int, step: float, curves: Array, parameter: Array, found: Array, out: Array
) -> None:
    """Fill the times of contact; set the windows to foot flat until the other limb arrives."""
    contact_times(lanes, step, DEPTH_HEEL, DEPTH_HEEL_RATE, -1.0, curves, found)
    for i in range(lanes):
        out[HEEL_OFF * W + i] = found[WHEN * W + i]
        out[STANCE_LENGTH * W + i] = found[END * W + i]
    contact_times(lanes, step, DEPTH_FOREFOOT, DEPTH_FOREFOOT_RATE, 1.0, curves, found)
    for i in range(lanes):
        end = found[END * W + i]
        flat = found[WHEN * W + i]
        out[FOOT_FLAT * W + i] = flat
        found[BEGIN * W + i] = flat if flat < 0.5 * end else 0.5 * parameter[LEAVES_TIME * W + i]
        found[FINISH * W + i] = min(parameter[ARRIVES_TIME * W + i], end)
    mark_window(lanes, step, found)


def driven(lanes: int, steps: int, step: float, series: Array, found: Array, out: Array) -> None:
    """Fill how fast and how far the shank is driven forward, and how fast the hip falls late."""
    for i in range(lanes):
        last = int(found[LAST * W + i])
        end = found[END * W + i]
        shank = Y_SHANK * steps * W + i
        lean = value_at(series, shank, last, step, DRIVEN_UNTIL * end)
        early = value_at(series, shank, last, step, DRIVEN_FROM * end)
        out[FORWARD_THRUST * W + i] = (lean - early) / ((DRIVEN_UNTIL - DRIVEN_FROM) * end)
        out[FORWARD_THRUST_ANGLE * W + i] = lean - series[shank]
        out[DROP_OFF * W + i] = value_at(
            series, Y_HIP_FALL * steps * W + i, last, step, found[FINISH * W + i]
        )


def contact_and_tipping(
    lanes: int,
    steps: int,
    step: float,
    curves: Array,
    parameter: Array,
    series: Array,
    found: Array,
    out: Array,
) -> None:
    """Fill the times of contact, the roll-over shape and the measures of tipping."""
    contacts(lanes, step, curves, parameter, found, out)
    driven(lanes, steps, step, series, found, out)
    roll_over(lanes, steps, step, series, found, out)
    for i in range(lanes):
        found[BEGIN * W + i] = parameter[LEAVES_TIME * W + i]
    mark_window(lanes, step, found)
    find_peaks(lanes, Y_FORWARD_MARGIN, steps, step, -1.0, series, found)
    for i in range(lanes):
        out[FORWARD_MARGIN * W + i] = -found[VALUE * W + i]
        out[FORWARD_MARGIN_WHEN * W + i] = found[WHEN * W + i] / found[END * W + i]
    find_peaks(lanes, Y_BACKWARD_MARGIN, steps, step, -1.0, series, found)
    for i in range(lanes):
        out[BACKWARD_MARGIN * W + i] = -found[VALUE * W + i]
        out[BACKWARD_MARGIN_WHEN * W + i] = found[WHEN * W + i] / found[END * W + i]
    set_window(lanes, step, 0.0, 1.0, found)
    find_peaks(lanes, Y_HIP, steps, step, 1.0, series, found)
    for i in range(lanes):
        out[HIP_RISE * W + i] = found[VALUE * W + i] - parameter[LEG_LENGTH * W + i]
