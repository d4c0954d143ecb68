"""Reading values, peaks, crossings and integrals off evenly spaced samples.

A series begins at `at` in a flat array; `last` is its last index; times are from its first sample.
"""

from simgait.arrays import Array


def value_at(series: Array, at: int, last: int, step: float, time: float) -> float:
    """Value at `time` [s]: the cubic through the four nearest samples."""
    k = int(time / step)
    k = min(max(k, 1), last - 2)
    u = time / step - k
    a = series[at + k - 1]
    b = series[at + k]
    c = series[at + k + 1]
    d = series[at + k + 2]
    return (
        -a * u * (u - 1.0) * (u - 2.0) / 6.0
        + b * (u + 1.0) * (u - 1.0) * (u - 2.0) / 2.0
        - c * (u + 1.0) * u * (u - 2.0) / 2.0
        + d * (u + 1.0) * u * (u - 1.0) / 6.0
    )


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

    The ends of the window count; a peak inside is the top of the parabola through three samples.
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
    if best > 0:
        a = sense * series[at + best - 1]
        c = sense * series[at + best + 1]
        bend = a - 2.0 * found[0] + c
        if bend < 0.0 and a <= found[0] and c <= found[0]:
            shift = 0.5 * (a - c) / bend
            found[0] -= 0.25 * (a - c) * shift
            found[1] = min(max((best + shift) * step, begin), finish)


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

    Trapezia; a change of sign within a step is placed by a straight line.
    """
    total = 0.0
    here = begin
    raw = sense * value_at(series, at, last, step, begin)
    for k in range(int(begin / step) + 1, int(finish / step) + 2):
        there = min(k * step, finish)
        next_raw = sense * value_at(series, at, last, step, there)
        width = there - here
        if raw >= 0.0 and next_raw >= 0.0:
            total += 0.5 * (raw + next_raw) * width
        elif raw > 0.0 or next_raw > 0.0:
            share = max(raw, next_raw) / (abs(raw) + abs(next_raw))
            total += 0.5 * max(raw, next_raw) * share * width
        raw = next_raw
        here = there
    return total


def positive_share(
    series: Array,
    at: int,
    last: int,
    step: float,
    begin: float,
    finish: float,
) -> float:
    """Share of the window's time in which the series is positive [1]."""
    total = 0.0
    here = begin
    y = value_at(series, at, last, step, begin)
    for k in range(int(begin / step) + 1, int(finish / step) + 2):
        there = min(k * step, finish)
        z = value_at(series, at, last, step, there)
        width = there - here
        if y > 0.0 and z > 0.0:
            total += width
        elif y > 0.0 or z > 0.0:
            total += width * max(y, z) / (abs(y) + abs(z))
        y = z
        here = there
    return total / (finish - begin)
