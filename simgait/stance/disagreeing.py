"""Where a wearer who keeps the strategy and one who adapts would be told different things."""

from __future__ import annotations

import math
from collections.abc import Iterable

from simgait.stance.result import Comparison
from simgait.symbols import BY_NAME

# A change counts if it is more than both of these (the project's own, assumed) [1]:
SHARE_OF_SPREAD = 0.05  # of the measure's spread over all runs under both assumptions
SHARE_OF_VALUE = 0.01  # of its value at the case's own alignment


# of the wearer, not of the computation
COMPARED = tuple(name for name in BY_NAME if name != "ledger_error_percent")


def disagreements(
    keeps: Comparison, adapts: Comparison, names: Iterable[str] = COMPARED
) -> tuple[tuple[str, ...], ...]:
    """Return for each run the measures that the two assumptions move in opposite directions.

    From the case's own alignment, by more than `SHARE_OF_SPREAD` and `SHARE_OF_VALUE` each.

    keeps, adapts: of the same case; names: of the measures that are looked at.
    """
    pairs = list(zip(keeps.results, adapts.results, strict=True))
    found: list[list[str]] = [[] for _ in pairs]
    for name in names:
        base = keeps.results[keeps.baseline].measures[name]
        own = adapts.results[adapts.baseline].measures[name]
        values = [(k.measures[name], a.measures[name]) for k, a in pairs]
        least = least_change(base, [value for pair in values for value in pair])
        for run, (kept, moved) in enumerate(values):
            if opposite(kept - base, moved - own, least):
                found[run].append(name)
    return tuple(map(tuple, found))


def least_change(base: float, values: Iterable[float]) -> float:
    """Return the size above which a change counts [the values' unit].

    base: value at the own alignment; values: of all runs, NaN where there is none.

    >>> least_change(10.0, [10.0, 30.0, float("nan")])
    1.0
    """
    known = [value for value in values if math.isfinite(value)]
    spread = max(known) - min(known) if known else 0.0
    return max(SHARE_OF_SPREAD * spread, SHARE_OF_VALUE * abs(base))


def opposite(first: float, second: float, least: float) -> bool:
    """Return whether two changes are of opposite sign, and both larger than the least.

    >>> opposite(2.0, -2.0, 1.0), opposite(2.0, -0.5, 1.0), opposite(2.0, 3.0, 1.0)
    (True, False, False)
    """
    return abs(first) > least and abs(second) > least and (first > 0.0) != (second > 0.0)
