"""Where a series passes a level, how long it is positive, and what it adds up to while it is."""

from simgait.arrays import Array
from simgait.physics.layout import (
    BEGIN,
    FINISH,
    FROM,
    LAST,
    MOST_INSTANTS,
    MOST_PLACES,
    PLACE,
    TO,
    VALUE,
    W,
)
from simgait.physics.reading import (
    GAUSS_OF_THREE,
    first_of,
    last_of,
    value_at,
    zero_between,
)


def crossing_times(
    lanes: int,
    row: int,
    steps: int,
    step: float,
    share: float,
    unit: int,
    sense: float,
    parameter: Array,
    series: Array,
    found: Array,
) -> None:
    """Fill the first time in every window at which sense * (series - level) turns positive, or -1.

    level: `share` of the parameter in row `unit`; times [s].
    """
    lanes = min(lanes, W)
    steps = min(max(steps, 1), MOST_INSTANTS)
    for i in range(lanes):
        found[PLACE * W + i] = -1.0
    for n in range(max(first_of(lanes, FROM, found) - 1, 0), last_of(lanes, TO, found) + 1):
        at = min(max(row * steps + n, 0), MOST_PLACES) * W
        for i in range(lanes):
            level = share * parameter[unit * W + i]
            a = sense * (series[at + i] - level)
            b = sense * (series[at + W + i] - level)
            b = b if a <= 0.0 else -1.0
            b = b if n >= found[FROM * W + i] - 1.0 else -1.0
            b = b if n <= found[TO * W + i] else -1.0
            b = b if found[PLACE * W + i] < 0.0 else -1.0
            found[PLACE * W + i] = 1.0 * n if b > 0.0 else found[PLACE * W + i]
    for i in range(lanes):
        k = int(found[PLACE * W + i])
        found[VALUE * W + i] = -1.0
        if k >= 0:
            level = share * parameter[unit * W + i]
            last = int(found[LAST * W + i])
            found[VALUE * W + i] = zero_between(
                series, row * steps * W + i, last, step, level, k * step, (k + 1) * step
            )


def positive_part(
    series: Array, at: int, last: int, step: float, sense: float, low: float, high: float
) -> float:
    """Integral of the positive part of sense * series over a step or less [unit s].

    A change of sign is located; Gauss' rule of three points is exact for the polynomial beside it.
    """
    y = sense * value_at(series, at, last, step, low)
    z = sense * value_at(series, at, last, step, high)
    if y <= 0.0 and z <= 0.0:
        return 0.0
    if y < 0.0:
        low = zero_between(series, at, last, step, 0.0, low, high)
    if z < 0.0:
        high = zero_between(series, at, last, step, 0.0, low, high)
    half = 0.5 * (high - low)
    away = half * GAUSS_OF_THREE
    middle = value_at(series, at, last, step, low + half)
    beside = value_at(series, at, last, step, low + half - away)
    beside += value_at(series, at, last, step, low + half + away)
    return half * sense * (8.0 * middle + 5.0 * beside) / 9.0


def positive_integrals(
    lanes: int, row: int, steps: int, step: float, sense: float, series: Array, found: Array
) -> None:
    """Fill the integral of the positive part of sense * series over every window [unit s].

    Whole steps of one sign by the rule that is exact for cubics; a step in which the sign changes,
    and the parts of steps at both ends, by `positive_part`.
    """
    lanes = min(lanes, W)
    steps = min(max(steps, 1), MOST_INSTANTS)
    for i in range(lanes):
        at = row * steps * W + i
        last = int(found[LAST * W + i])
        begin = found[BEGIN * W + i]
        first = found[FROM * W + i] * step
        end = found[TO * W + i] * step
        ends = positive_part(series, at, last, step, sense, begin, first)
        ends += positive_part(series, at, last, step, sense, end, found[FINISH * W + i])
        found[VALUE * W + i] = ends
    for n in range(max(first_of(lanes, FROM, found), 1), last_of(lanes, TO, found)):
        at = min(max(row * steps + n, 1), MOST_PLACES) * W
        mixed = 0
        for i in range(lanes):
            b = sense * series[at + i]
            c = sense * series[at + W + i]
            beside = sense * (series[at - W + i] + series[at + 2 * W + i])
            part = step / 24.0 * (13.0 * (b + c) - beside)
            part = part if min(b, c) >= 0.0 else 0.0
            part = part if n >= found[FROM * W + i] else 0.0
            found[VALUE * W + i] += part if n < found[TO * W + i] else 0.0
            mixed += 1 if b * c < 0.0 else 0
        if mixed > 0:
            add_mixed(lanes, row, steps, n, step, sense, series, found)


def add_mixed(
    lanes: int,
    row: int,
    steps: int,
    n: int,
    step: float,
    sense: float,
    series: Array,
    found: Array,
) -> None:
    """Add the positive part of step `n` for every lane in which the series changes its sign."""
    for i in range(lanes):
        at = row * steps * W + i
        if n >= found[FROM * W + i] and n < found[TO * W + i]:
            if series[at + n * W] * series[at + (n + 1) * W] < 0.0:
                last = int(found[LAST * W + i])
                found[VALUE * W + i] += positive_part(
                    series, at, last, step, sense, n * step, (n + 1) * step
                )


def positive_time(series: Array, at: int, last: int, step: float, low: float, high: float) -> float:
    """How long within a step or less the series is positive [s]; a crossing is located."""
    y = value_at(series, at, last, step, low)
    z = value_at(series, at, last, step, high)
    if y > 0.0 and z > 0.0:
        return high - low
    if y <= 0.0 and z <= 0.0:
        return 0.0
    when = zero_between(series, at, last, step, 0.0, low, high)
    return when - low if y > 0.0 else high - when


def positive_shares(
    lanes: int, row: int, steps: int, step: float, series: Array, found: Array
) -> None:
    """Fill the share of every window's time in which the series is positive [1]."""
    lanes = min(lanes, W)
    steps = min(max(steps, 1), MOST_INSTANTS)
    for i in range(lanes):
        at = row * steps * W + i
        last = int(found[LAST * W + i])
        first = found[FROM * W + i] * step
        end = found[TO * W + i] * step
        ends = positive_time(series, at, last, step, found[BEGIN * W + i], first)
        ends += positive_time(series, at, last, step, end, found[FINISH * W + i])
        found[VALUE * W + i] = ends
    for n in range(max(first_of(lanes, FROM, found), 0), last_of(lanes, TO, found)):
        at = min(max(row * steps + n, 0), MOST_PLACES) * W
        mixed = 0
        for i in range(lanes):
            y = series[at + i]
            z = series[at + W + i]
            part = step if min(y, z) > 0.0 else 0.0
            part = part if n >= found[FROM * W + i] else 0.0
            found[VALUE * W + i] += part if n < found[TO * W + i] else 0.0
            mixed += 1 if (y > 0.0) != (z > 0.0) else 0
        if mixed > 0:
            for i in range(lanes):
                if n >= found[FROM * W + i] and n < found[TO * W + i]:
                    if (series[at + i] > 0.0) != (series[at + W + i] > 0.0):
                        found[VALUE * W + i] += positive_time(
                            series, row * steps * W + i, int(found[LAST * W + i]), step, n * step,
                            (n + 1) * step,
                        )  # fmt: skip
    for i in range(lanes):
        found[VALUE * W + i] /= found[FINISH * W + i] - found[BEGIN * W + i]
