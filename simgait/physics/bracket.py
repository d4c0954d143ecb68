"""One root of one equation in a bracket, taken a value at a time.

Nothing of the physics is given a function: whoever looks for a root opens a bracket, computes the
value where the bracket says, and narrows it.  Brackets of several levels lie behind one another, so
that an equation may hold a root of its own.
"""

from simgait.arrays import Array
from simgait.physics.rest_layout import (
    BRACKET_A,
    BRACKET_AT_A,
    BRACKET_AT_B,
    BRACKET_AT_C,
    BRACKET_B,
    BRACKET_BEST,
    BRACKET_C,
    BRACKET_DONE,
    BRACKET_NEXT,
    BRACKET_SIZE,
    BRACKET_WITHIN,
)

MOST_LOOKS = 200  # values taken for one root; halving alone needs some fifty


def open_bracket(
    level: int,
    low: float,
    at_low: float,
    high: float,
    at_high: float,
    within: float,
    brackets: Array,
) -> None:
    """Begin to look between two places at which a function has values of different sign.

    level: of the bracket; within: how near the root must be, in the unit of the places.
    """
    base = level * BRACKET_SIZE
    brackets[base + BRACKET_A] = low
    brackets[base + BRACKET_AT_A] = at_low
    brackets[base + BRACKET_B] = high
    brackets[base + BRACKET_AT_B] = at_high
    brackets[base + BRACKET_C] = low
    brackets[base + BRACKET_AT_C] = at_low
    brackets[base + BRACKET_NEXT] = low + 0.5 * (high - low)
    brackets[base + BRACKET_BEST] = low
    brackets[base + BRACKET_WITHIN] = within
    brackets[base + BRACKET_DONE] = 0.0


def narrow_bracket(level: int, value: float, brackets: Array) -> None:
    """Take the function's value at BRACKET_NEXT; say where to look next, or that it is done.

    Bisection that takes an inverse quadratic step wherever the three last points allow it
    (Chandrupatla 1997, Adv Eng Softw 28:145-149; from memory, and held against
    scipy.optimize.brentq in the tests).  The function may jump.
    """
    base = level * BRACKET_SIZE
    place = brackets[base + BRACKET_NEXT]
    a, at_a = brackets[base + BRACKET_A], brackets[base + BRACKET_AT_A]
    b, at_b = brackets[base + BRACKET_B], brackets[base + BRACKET_AT_B]
    same = value > 0.0 if at_a > 0.0 else value <= 0.0
    brackets[base + BRACKET_C] = a if same else b
    brackets[base + BRACKET_AT_C] = at_a if same else at_b
    b = b if same else a
    at_b = at_b if same else at_a
    brackets[base + BRACKET_A] = place
    brackets[base + BRACKET_AT_A] = value
    brackets[base + BRACKET_B] = b
    brackets[base + BRACKET_AT_B] = at_b
    best = place if abs(value) < abs(at_b) else b
    brackets[base + BRACKET_BEST] = best
    within = brackets[base + BRACKET_WITHIN]
    least = (within + 4e-16 * abs(best)) / max(abs(b - place), 1e-300)
    exact = min(abs(value), abs(at_b)) == 0.0
    brackets[base + BRACKET_DONE] = 1.0 if exact or least > 1.0 else 0.0
    share = min(max(next_share(base, brackets), least / 2.0), 1.0 - least / 2.0)
    brackets[base + BRACKET_NEXT] = place + share * (b - place)


def next_share(base: int, brackets: Array) -> float:
    """Share of the way from the newest end to the other at which to look next [1]."""
    a, at_a = brackets[base + BRACKET_A], brackets[base + BRACKET_AT_A]
    b, at_b = brackets[base + BRACKET_B], brackets[base + BRACKET_AT_B]
    c, at_c = brackets[base + BRACKET_C], brackets[base + BRACKET_AT_C]
    if at_b == at_c or b == c:
        return 0.5
    place = (a - b) / (c - b)
    rise = (at_a - at_b) / (at_c - at_b)
    if rise * rise >= place or (1.0 - rise) * (1.0 - rise) >= 1.0 - place:
        return 0.5
    first = at_a / (at_b - at_a) * at_c / (at_b - at_c)
    second = (c - a) / (b - a) * at_a / (at_c - at_a) * at_b / (at_c - at_b)
    return float(first + second)
