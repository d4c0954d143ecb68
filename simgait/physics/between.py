"""The recorded instants that lie in the middle of a double step: filled from those around them.

Double steps begin at instant `fine`; from there every second instant is a step's end.  Before it
every instant is one, so that a polynomial through every second instant reaches back over it.
"""

from simgait.arrays import Array
from simgait.physics.layout import (
    CHANNELS,
    DEPTH,
    DEPTH_RATE,
    DEPTHS,
    END_INSTANT,
    MOST_INSTANTS,
    W,
)


def middle_depths(lanes: int, n: int, step: float, curves: Array) -> None:
    """Fill depths and their rates at instant `n`: the middle of the cubic through both sides.

    step: between instants [s].
    """
    lanes = min(lanes, W)
    n = min(max(n, 1), MOST_INSTANTS)
    row = CHANNELS * W
    for c in range(DEPTHS):
        depth = n * row + (DEPTH + c) * W
        speed = n * row + (DEPTH_RATE + c) * W
        for i in range(lanes):
            y0 = curves[depth - row + i]
            y1 = curves[depth + row + i]
            d0 = curves[speed - row + i]
            d1 = curves[speed + row + i]
            curves[depth + i] = 0.5 * (y0 + y1) + 0.25 * step * (d0 - d1)
            curves[speed + i] = 0.75 * (y1 - y0) / step - 0.25 * (d0 + d1)


def middle_inside(lanes: int, n: int, curves: Array) -> None:
    """Fill every channel at instant `n`: the polynomial through three steps' ends on each side."""
    lanes = min(lanes, W)
    n = min(max(n, 5), MOST_INSTANTS)
    row = CHANNELS * W
    at = n * row
    for c in range(CHANNELS):
        for i in range(lanes):
            k = at + c * W + i
            curves[k] = (
                150.0 * (curves[k - row] + curves[k + row])
                - 25.0 * (curves[k - 3 * row] + curves[k + 3 * row])
                + 3.0 * (curves[k - 5 * row] + curves[k + 5 * row])
            ) / 256.0


def middles_at_the_end(i: int, last: int, fine: int, curves: Array) -> None:
    """Fill the last two middles of a lane: the polynomial through the six last steps' ends.

    What lies beyond the step in which a run ends is not looked at, so that a run does not depend
    on how long the others beside it went on.
    """
    row = CHANNELS * W
    for c in range(CHANNELS):
        k = last * row + c * W + i
        y0 = curves[k - 10 * row]
        y1 = curves[k - 8 * row]
        y2 = curves[k - 6 * row]
        y3 = curves[k - 4 * row]
        y4 = curves[k - 2 * row]
        y5 = curves[k]
        if last - 3 > fine:
            y = 105.0 * y4 + 210.0 * y3 - 70.0 * y2 + 21.0 * y1 - 7.0 * y5 - 3.0 * y0
            curves[k - 3 * row] = y / 256.0
        y = 315.0 * y4 - 210.0 * y3 + 126.0 * y2 - 45.0 * y1 + 63.0 * y5 + 7.0 * y0
        curves[k - row] = y / 256.0


def fill_between(
    lanes: int, fine: int, count: int, step: float, curves: Array, ends: Array
) -> None:
    """Fill the middle of every double step of every lane.

    fine: instant at which double steps begin, at least `LEAST_FINE`; count: instants recorded.
    """
    for pair in range(int(0.5 * (count - fine - 5))):
        middle_inside(lanes, fine + 2 * pair + 1, curves)
    for i in range(lanes):
        pairs = int(0.5 * (ends[END_INSTANT * W + i] - fine))
        if pairs > 0:
            middles_at_the_end(i, fine + 2 * pairs, fine, curves)
    for pair in range(int(0.5 * (count - 1 - fine))):
        middle_depths(lanes, fine + 2 * pair + 1, step, curves)
