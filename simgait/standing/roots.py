"""One root of one equation in a bracket, without the second that a large library takes to load."""

from __future__ import annotations

from collections.abc import Callable

MOST = 200  # evaluations; halving alone needs some fifty


def root_between(
    function: Callable[[float], float], low: float, high: float, *, within: float = 1e-12
) -> float:
    """Return where a function changes sign between ``low`` and ``high``, to ``within``.

    Bisection that takes an inverse quadratic step wherever the three last points allow it
    (Chandrupatla 1997, Adv Eng Softw 28:145-149; from memory, and held against
    scipy.optimize.brentq in the tests). The function may jump.

    Raises:
        ValueError: the function has the same sign at both ends.

    >>> round(root_between(lambda x: x * x - 2.0, 0.0, 2.0), 9)
    1.414213562
    """
    a, b = low, high
    at_a, at_b = function(a), function(b)
    if at_a * at_b > 0.0:
        raise ValueError(f"no change of sign between {low} and {high}")
    step, best = 0.5, a
    for _ in range(MOST):
        x = a + step * (b - a)
        at_x = function(x)
        if (at_x > 0.0) == (at_a > 0.0):
            c, at_c = a, at_a
        else:
            c, at_c, b, at_b = b, at_b, a, at_a
        a, at_a = x, at_x
        best, at_best = (a, at_a) if abs(at_a) < abs(at_b) else (b, at_b)
        least = (within + 4e-16 * abs(best)) / max(abs(b - a), 1e-300)
        if at_best == 0.0 or least > 1.0:
            return best
        step = _next_step((a, at_a), (b, at_b), (c, at_c))
        step = min(max(step, least / 2.0), 1.0 - least / 2.0)
    return best


def _next_step(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    """Return the share of the way from a to b at which to look next."""
    (x_a, f_a), (x_b, f_b), (x_c, f_c) = a, b, c
    if f_b == f_c or x_b == x_c:
        return 0.5
    place, rise = (x_a - x_b) / (x_c - x_b), (f_a - f_b) / (f_c - f_b)
    if not (rise**2 < place and (1.0 - rise) ** 2 < 1.0 - place):
        return 0.5
    return f_a / (f_b - f_a) * f_c / (f_b - f_c) + (x_c - x_a) / (x_b - x_a) * f_a / (
        f_c - f_a
    ) * f_b / (f_c - f_b)
