"""The clock of a film: which instants it shows, and for how long."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

import numpy as np

from simgait.pictures.inputs import FloatArray, ResultLike

__all__ = ["HELD_MS", "Clock", "clock_of"]

HELD_MS = 1600  # [ms] the last frame is shown
_LASTS = 5.6  # [s] of film, where nobody asked for a slow motion
_USUAL_SLOWS = (1.0, 10.0)  # within which that choice stays
_SHORTEST_MS, _MOST_FRAMES = 50, 120


@dataclass(frozen=True, kw_only=True)
class Clock:
    """Instants [s] from heel contact, time each is shown [ms], times slower than life."""

    times: FloatArray
    shown_ms: int
    slow: float


def clock_of(results: Sequence[ResultLike], slow: float | None) -> Clock:
    """The clock that holds the longest of these runs, so many times slower than life.

    Frames are shown for a whole number of hundredths of a second, as GIF counts.  The last
    instant is not before the end of the longest run.
    """
    ends = [float(np.nanmax(r.curves.time)) for r in results if np.isfinite(r.curves.time).any()]
    longest = max(max(ends, default=0.0), 0.01)
    if slow is None:
        slow = float(np.clip(round(_LASTS / longest), *_USUAL_SLOWS))
    lasts_ms = 1000.0 * slow * longest
    shown = max(_SHORTEST_MS, ceil(lasts_ms / (_MOST_FRAMES - 1) / 10.0) * 10)
    step = shown / 1000.0 / slow
    times: FloatArray = np.arange(ceil(longest / step - 1e-9) + 1, dtype=np.float64) * step
    return Clock(times=times, shown_ms=shown, slow=slow)
