"""One root of one equation in a bracket, without the second that a large library takes to load."""

from __future__ import annotations

from collections.abc import Callable

from simgait.physics.bracket import MOST_LOOKS, narrow_bracket, open_bracket
from simgait.physics.rest_layout import BRACKET_BEST, BRACKET_DONE, BRACKET_NEXT, BRACKET_SIZE
from simgait.standing.flat import flat


def root_between(
    function: Callable[[float], float], low: float, high: float, *, within: float = 1e-12
) -> float:
    """Return where a function changes sign between ``low`` and ``high``, to ``within``.

    The steps are those of the physics, `simgait.physics.bracket`. The function may jump.

    Raises:
        ValueError: the function has the same sign at both ends.

    >>> round(root_between(lambda x: x * x - 2.0, 0.0, 2.0), 9)
    1.414213562
    """
    at_low, at_high = function(low), function(high)
    if at_low * at_high > 0.0:
        raise ValueError(f"no change of sign between {low} and {high}")
    bracket = flat(BRACKET_SIZE)
    open_bracket(0, low, at_low, high, at_high, within, bracket)
    for _ in range(MOST_LOOKS):
        narrow_bracket(0, function(bracket[BRACKET_NEXT]), bracket)
        if bracket[BRACKET_DONE]:
            break
    return float(bracket[BRACKET_BEST])
