"""Reading values, peaks, crossings and integrals off evenly spaced samples, for all lanes at once.

Sample `n` of a series' row lies at ``series[(row * steps + n) * W + lane]``; times are from the
first sample.  Loops over samples take all lanes together; only where something changes its sign is
a lane looked at by itself.
"""

from simgait.arrays import Array
from simgait.physics.layout import (
    BEGIN,
    END,
    FINISH,
    FROM,
    LAST,
    MOST_INSTANTS,
    MOST_PLACES,
    PLACE,
    TO,
    VALUE,
    WHEN,
    W,
)

GAUSS_OF_THREE = 0.7745966692414834  # sqrt(3/5): the outer points of Gauss' rule of three
LOWEST = -1e300  # below every sample


def value_at(series: Array, at: int, last: int, step: float, time: float) -> float:
    """Value at `time` [s]: the polynomial of degree 5 through the six nearest samples.

    at: entry of the lane's first sample.
    """
    k = int(time / step)
    k = min(max(k, 2), last - 3)
    u = time / step - k
    p = u + 2.0
    q = u + 1.0
    r = u - 1.0
    s = u - 2.0
    t = u - 3.0
    k = at + k * W
    return float(
        q * u * r * (p * s * series[k + 3 * W] - s * t * series[k - 2 * W]) / 120.0
        + p * u * r * t * (s * series[k - W] - q * series[k + 2 * W]) / 24.0
        + p * q * s * t * (u * series[k + W] - r * series[k]) / 12.0
    )


def zero_between(
    series: Array, at: int, last: int, step: float, level: float, low: float, high: float
) -> float:
    """Time between two times [s] at which the series is at the level, by false position.

    The series less the level must change its sign between them; the end that stays has its value
    halved (Dowell and Jarratt 1971, BIT 11:168), so that both ends close in.
    """
    y = value_at(series, at, last, step, low) - level
    z = value_at(series, at, last, step, high) - level
    middle = high
    for _ in range(8):
        if y != z:
            middle = low + (high - low) * (y / (y - z))
        x = value_at(series, at, last, step, middle) - level
        if (x > 0.0) == (z > 0.0):
            y *= 0.5
        else:
            low = high
            y = z
        high = middle
        z = x
    return middle


def set_window(lanes: int, step: float, begin: float, finish: float, found: Array) -> None:
    """Set the window of every lane to the shares `begin` and `finish` of its time [1]."""
    for i in range(lanes):
        found[BEGIN * W + i] = begin * found[END * W + i]
        found[FINISH * W + i] = finish * found[END * W + i]
    mark_window(lanes, step, found)


def mark_window(lanes: int, step: float, found: Array) -> None:
    """Fill the first and the last sample inside every lane's window."""
    for i in range(lanes):
        first = int(found[BEGIN * W + i] / step) + 1
        last = int(found[FINISH * W + i] / step)
        found[FROM * W + i] = max(first, 1)
        found[TO * W + i] = min(last, int(found[LAST * W + i]) - 1)


def first_of(lanes: int, row: int, found: Array) -> int:
    """The smallest number in a row of `found`."""
    least = int(found[row * W])
    for i in range(1, lanes):
        least = min(least, int(found[row * W + i]))
    return least


def last_of(lanes: int, row: int, found: Array) -> int:
    """The largest number in a row of `found`."""
    most = int(found[row * W])
    for i in range(1, lanes):
        most = max(most, int(found[row * W + i]))
    return most


def scan_peaks(lanes: int, row: int, steps: int, sense: float, series: Array, found: Array) -> None:
    """Fill value and place of every lane's largest sample of sense * series, if above its value."""
    lanes = min(lanes, W)
    steps = min(max(steps, 1), MOST_INSTANTS)
    for n in range(max(first_of(lanes, FROM, found), 0), last_of(lanes, TO, found) + 1):
        at = min(max(row * steps + n, 0), MOST_PLACES) * W
        for i in range(lanes):
            y = sense * series[at + i]
            y = y if n >= found[FROM * W + i] else LOWEST
            y = y if n <= found[TO * W + i] else LOWEST
            best = found[VALUE * W + i]
            found[PLACE * W + i] = 1.0 * n if y > best else found[PLACE * W + i]
            found[VALUE * W + i] = y if y > best else best


def find_peaks(
    lanes: int, row: int, steps: int, step: float, sense: float, series: Array, found: Array
) -> None:
    """Fill the largest value of sense * series in every lane's window, and its time [s].

    The ends of the window count; see `refine_peak` for one inside.
    """
    for i in range(lanes):
        at = row * steps * W + i
        last = int(found[LAST * W + i])
        begin = found[BEGIN * W + i]
        finish = found[FINISH * W + i]
        y = sense * value_at(series, at, last, step, begin)
        z = sense * value_at(series, at, last, step, finish)
        found[VALUE * W + i] = max(y, z)
        found[WHEN * W + i] = finish if z > y else begin
        found[PLACE * W + i] = -1.0
    scan_peaks(lanes, row, steps, sense, series, found)
    for i in range(lanes):
        best = int(found[PLACE * W + i])
        if best >= 0:
            found[WHEN * W + i] = best * step
        if best > 1 and best < found[LAST * W + i] - 1.0:
            refine_peak(i, series, (row * steps + best) * W + i, sense, found)
            when = (best + found[WHEN * W + i]) * step
            found[WHEN * W + i] = min(max(when, found[BEGIN * W + i]), found[FINISH * W + i])


def refine_peak(i: int, series: Array, k: int, sense: float, found: Array) -> None:
    """Fill `found` with the top near entry `k`, and its place in steps from there.

    The top of the polynomial of degree 4 through five samples, by Newton's method.
    """
    a = sense * series[k - 2 * W]
    b = sense * series[k - W]
    c = sense * series[k]
    d = sense * series[k + W]
    e = sense * series[k + 2 * W]
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
    found[VALUE * W + i] = c + u * (c1 + u * (c2 + u * (c3 + u * c4)))
    found[WHEN * W + i] = u
