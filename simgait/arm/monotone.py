"""A smooth curve through measured points that never overshoots them.

Piecewise cubic with the slopes of Fritsch & Butland 1984 (SIAM J Sci Stat Comput 5:300; recalled):
inside, the weighted harmonic mean of the neighbouring chords, nothing where these differ in sign;
at the ends, the three-point formula, kept to the sign and three times the size of the chord.
Beyond the points the curve stays level.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np

from simgait.arrays import Array
from simgait.errors import refuse

Value = float | Array


def end_slope(first: float, second: float, chord: float, next_chord: float) -> float:
    """Return the slope at an end point [unit of the chords].

    first, second: widths of the two nearest spans; chord, next_chord: their slopes.

    >>> end_slope(1.0, 1.0, 2.0, 2.0)
    2.0
    """
    slope = ((2.0 * first + second) * chord - first * next_chord) / (first + second)
    if slope * chord <= 0.0:
        return 0.0
    if chord * next_chord < 0.0 and abs(slope) > 3.0 * abs(chord):
        return 3.0 * chord
    return slope


def inner_slope(first: float, second: float, chord: float, next_chord: float) -> float:
    """Return the slope at an inner point [unit of the chords]; as :func:`end_slope`.

    >>> inner_slope(1.0, 1.0, 2.0, -2.0)
    0.0
    """
    if chord * next_chord <= 0.0:
        return 0.0
    left, right = 2.0 * second + first, second + 2.0 * first
    return (left + right) / (left / chord + right / next_chord)


def cubic_between(
    t: Value, width: Value, low: Value, high: Value, low_slope: Value, high_slope: Value
) -> Value:
    """Return the cubic between two points with given slopes (Hermite) [unit of low and high].

    t: place between them, 0 to 1 [1]; width: of the span; low, high: values at its ends; low_slope,
    high_slope: slopes there.

    >>> cubic_between(0.5, 1.0, 0.0, 1.0, 1.0, 1.0)
    0.5
    """
    rest = 1.0 - t
    return (
        rest * rest * (1.0 + 2.0 * t) * low
        + t * t * (3.0 - 2.0 * t) * high
        + width * t * rest * (rest * low_slope - t * high_slope)
    )


def simpson(width: float, first: float, middle: float, last: float) -> float:
    """Return the integral of a cubic over a span by Simpson's rule, exact for it.

    width: of the span; first, middle, last: values at its beginning, middle and end.

    >>> simpson(6.0, 1.0, 1.0, 1.0)
    6.0
    """
    return width / 6.0 * (first + 4.0 * middle + last)


@dataclass(frozen=True, kw_only=True)
class MonotoneCurve:
    """Points and the curve through them; one point makes a constant.

    >>> curve = MonotoneCurve(places=(0.0, 1.0, 2.0), values=(3.0, 2.0, 0.0))
    >>> curve.at(np.array([-1.0, 1.0, 5.0]))
    array([3., 2., 0.])
    """

    places: tuple[float, ...]  # rising
    values: tuple[float, ...]

    def __post_init__(self) -> None:
        refuse(len(self.places) != len(self.values), "MonotoneCurve: as many places as values")
        refuse(not self.places, "MonotoneCurve: at least one point")
        steps = pairwise(self.places)
        refuse(any(b <= a for a, b in steps), "MonotoneCurve: places must rise")

    @cached_property
    def slopes(self) -> Array:
        """The slope at each point."""
        widths = np.diff(self.places)
        chords = np.diff(self.values) / widths
        count = len(chords)
        if count < 2:
            return np.full(count + 1, chords[0] if count else 0.0)
        inner: Sequence[float] = [
            inner_slope(widths[k], widths[k + 1], chords[k], chords[k + 1])
            for k in range(count - 1)
        ]
        start = end_slope(widths[0], widths[1], chords[0], chords[1])
        end = end_slope(widths[-1], widths[-2], chords[-1], chords[-2])
        return np.array([start, *inner, end])

    def at(self, where: Array) -> Array:
        """The curve's values at places of any shape [unit of the values]."""
        if len(self.places) == 1:
            return np.full(np.shape(where), self.values[0])
        places, values, slopes = np.array(self.places), np.array(self.values), self.slopes
        inside = np.clip(where, places[0], places[-1])
        k = np.clip(np.searchsorted(places, inside, side="right") - 1, 0, len(places) - 2)
        width = places[k + 1] - places[k]
        t = (inside - places[k]) / width
        ends = (values[k], values[k + 1], slopes[k], slopes[k + 1])
        return np.asarray(cubic_between(t, width, *ends))

    def integral(self, low: float, high: float) -> float:
        """The integral from `low` to `high`, exact [unit of values times unit of places].

        >>> MonotoneCurve(places=(0.0,), values=(2.0,)).integral(1.0, 4.0)
        6.0
        """
        cuts = [low, *(p for p in self.places if low < p < high), high]
        total = 0.0
        for a, b in pairwise(cuts):  # Simpson is exact for a cubic
            ends = self.at(np.array([a, 0.5 * (a + b), b]))
            total += simpson(b - a, float(ends[0]), float(ends[1]), float(ends[2]))
        return total
