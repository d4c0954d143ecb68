"""Reading values, peaks, crossings and integrals off evenly spaced samples.

A series begins at `at` in a flat array; `last` is its last index; times are from its first sample.
"""

from simgait.arrays import Array

GAUSS_OF_THREE = 0.7745966692414834  # sqrt(3/5): the outer points of Gauss' rule of three


def value_at(series: Array, at: int, last: int, step: float, time: float) -> float:
    """Value at `time` [s]: the polynomial of degree 5 through the six nearest samples."""
    k = int(time / step)
    k = min(max(k, 2), last - 3)
    u = time / step - k
    p = u + 2.0
    q = u + 1.0
    r = u - 1.0
    s = u - 2.0
    t = u - 3.0
    return float(
        -q * u * r * s * t / 120.0 * series[at + k - 2]
        + p * u * r * s * t / 24.0 * series[at + k - 1]
        - p * q * r * s * t / 12.0 * series[at + k]
        + p * q * u * s * t / 12.0 * series[at + k + 1]
        - p * q * u * r * t / 24.0 * series[at + k + 2]
        + p * q * u * r * s / 120.0 * series[at + k + 3]
    )


def sample_at(series: Array, at: int, last: int, step: float, k: int, finish: float) -> float:
    """Value of sample `k`, or that at `finish` [s] if the sample lies beyond it."""
    if k * step < finish:
        return float(series[at + k])
    return value_at(series, at, last, step, finish)


def find_peak(
    series: Array,
    at: int,
    last: int,
    step: float,
    begin: float,
    finish: float,
    sense: float,
    found: Array,
) -> None:
    """Fill `found` with the largest value of sense * series between two times, and its time.

    The ends of the window count; see `refine_peak` for one inside.
    """
    found[0] = sense * value_at(series, at, last, step, begin)
    found[1] = begin
    y = sense * value_at(series, at, last, step, finish)
    if y > found[0]:
        found[0] = y
        found[1] = finish
    first = max(int(begin / step) + 1, 1)
    best = -1
    for k in range(first, min(int(finish / step), last - 1) + 1):
        y = sense * series[at + k]
        if y > found[0]:
            found[0] = y
            found[1] = k * step
            best = k
    if best > 1 and best < last - 1:
        refine_peak(series, at + best, sense, found)
        found[1] = min(max((best + found[1]) * step, begin), finish)


def refine_peak(series: Array, k: int, sense: float, found: Array) -> None:
    """Fill `found` with the top near sample `k`, and its place in steps from there.

    The top of the polynomial of degree 4 through five samples, by Newton's method.
    """
    a = sense * series[k - 2]
    b = sense * series[k - 1]
    c = sense * series[k]
    d = sense * series[k + 1]
    e = sense * series[k + 2]
    c1 = (a - 8.0 * b + 8.0 * d - e) / 12.0
    c2 = (-a + 16.0 * b - 30.0 * c + 16.0 * d - e) / 24.0
    c3 = (-a + 2.0 * b - 2.0 * d + e) / 12.0
    c4 = (a - 4.0 * b + 6.0 * c - 4.0 * d + e) / 24.0
    u = 0.0
    for _ in range(4):
        slope = c1 + u * (2.0 * c2 + u * (3.0 * c3 + u * 4.0 * c4))
        bend = 2.0 * c2 + u * (6.0 * c3 + u * 12.0 * c4)
        if bend < 0.0:
            u = min(max(u - slope / bend, -1.0), 1.0)
    found[0] = c + u * (c1 + u * (c2 + u * (c3 + u * c4)))
    found[1] = u


def crossing_time(
    series: Array,
    at: int,
    last: int,
    step: float,
    begin: float,
    finish: float,
    level: float,
    sense: float,
) -> float:
    """First time in the window at which sense * (series - level) turns positive, or -1 [s]."""
    for k in range(int(begin / step), min(int(finish / step) + 1, last)):
        a = sense * (series[at + k] - level)
        b = sense * (series[at + k + 1] - level)
        if a <= 0.0 and b > 0.0:
            low = 0.0
            high = 1.0
            for _ in range(40):
                middle = 0.5 * (low + high)
                if sense * (value_at(series, at, last, step, (k + middle) * step) - level) > 0.0:
                    high = middle
                else:
                    low = middle
            return (k + high) * step
    return -1.0


def positive_integral(
    series: Array,
    at: int,
    last: int,
    step: float,
    begin: float,
    finish: float,
    sense: float,
) -> float:
    """Integral of the positive part of sense * series between two times [unit s].

    Whole steps of one sign by the rule that is exact for cubics; a step in which the sign changes,
    and the parts of steps at both ends, by `positive_pieces`.
    """
    total = 0.0
    first = int(begin / step) + 1
    final = int(finish / step)
    for k in range(first - 1, final + 1):
        low = max(k * step, begin)
        high = min((k + 1) * step, finish)
        inside = k >= first and k < final and k >= 1 and k + 2 <= last
        b = sense * series[at + k]
        c = sense * series[at + min(k + 1, last)]
        if inside and b >= 0.0 and c >= 0.0:
            a = sense * series[at + k - 1]
            d = sense * series[at + k + 2]
            total += step * (13.0 * (b + c) - a - d) / 24.0
        elif not inside or b > 0.0 or c > 0.0:
            total += positive_pieces(series, at, last, step, low, high, sense)
    return total


def positive_pieces(
    series: Array,
    at: int,
    last: int,
    step: float,
    low: float,
    high: float,
    sense: float,
) -> float:
    """Integral of the positive part of sense * series over a step or less [unit s].

    Gauss' rule of three points in each of eight pieces.
    """
    total = 0.0
    half = (high - low) / 16.0
    for piece in range(8):
        middle = low + half * (2.0 * piece + 1.0)
        for side in range(3):
            weight = 8.0 / 9.0 if side == 1 else 5.0 / 9.0
            time = middle + half * (side - 1.0) * GAUSS_OF_THREE
            total += weight * max(sense * value_at(series, at, last, step, time), 0.0)
    return total * half


def positive_share(
    series: Array,
    at: int,
    last: int,
    step: float,
    begin: float,
    finish: float,
) -> float:
    """Share of the window's time in which the series is positive [1]; crossings are located."""
    total = 0.0
    here = begin
    y = value_at(series, at, last, step, begin)
    for k in range(int(begin / step) + 1, int(finish / step) + 2):
        there = min(k * step, finish)
        z = sample_at(series, at, last, step, k, finish)
        if y > 0.0 and z > 0.0:
            total += there - here
        elif y > 0.0 or z > 0.0:
            low = here
            high = there
            for _ in range(40):
                middle = 0.5 * (low + high)
                if (value_at(series, at, last, step, middle) > 0.0) == (y > 0.0):
                    low = middle
                else:
                    high = middle
            total += low - here if y > 0.0 else there - low
        y = z
        here = there
    return total / (finish - begin)
