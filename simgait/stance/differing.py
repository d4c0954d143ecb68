"""Which runs of a comparison differ most, for whoever can show only a few."""

from __future__ import annotations

import numpy as np

from simgait.stance.result import Comparison
from simgait.symbols import MAIN_MEASURES

_ENDED_BADLY = 1.0  # distance of a run without measures from one that has them


def most_different(comparison: Comparison, count: int) -> tuple[int, ...]:
    """Return the indices of at most `count` runs: the baseline, then those that differ most.

    Each next one is the run farthest from the nearest run already chosen.  The distance of two
    runs is the mean, over the main measures, of the difference as a share of that measure's span
    over all runs; a run that did not end with toe-off has no measures and stands one span from
    all that have, and nowhere from others of its kind.  Runs at no distance are left out.  The
    first of equals is taken.

    comparison: as `compare` returns it; count: of runs, 1 or more.

    >>> from simgait import read_case
    >>> from simgait.library import models_folder
    >>> from simgait.stance import compare
    >>> everyday = compare(read_case(models_folder() / "cases" / "everyday.toml"))
    >>> most_different(everyday, 3)[0] == everyday.baseline
    True
    """
    scaled = _scaled(comparison)
    chosen = [comparison.baseline]
    nearest = _distances(scaled, comparison.baseline)
    while len(chosen) < count:
        farthest = int(np.argmax(nearest))
        if nearest[farthest] <= 1e-9:
            break
        chosen.append(farthest)
        nearest = np.minimum(nearest, _distances(scaled, farthest))
    return tuple(chosen)


def _scaled(comparison: Comparison) -> np.ndarray:
    """Return the main measures [run, measure] as shares of their span; NaN for a bad ending."""
    values = np.array(
        [
            [
                run.measures.get(name, np.nan) if run.ending == "toe_off" else np.nan
                for name in MAIN_MEASURES
            ]
            for run in comparison.results
        ]
    )
    known = np.where(np.isfinite(values), values, np.nan)
    low = np.fmin.reduce(known, axis=0)
    span = np.fmax.reduce(known, axis=0) - low
    shares: np.ndarray = (known - low) / np.where(span > 0.0, span, 1.0)
    return shares


def _distances(scaled: np.ndarray, index: int) -> np.ndarray:
    """Return the distance of every run from one of them."""
    apart = np.abs(scaled - scaled[index])
    bad = np.isnan(scaled).all(axis=1)
    known = np.isfinite(apart)
    mean = np.where(known, apart, 0.0).sum(axis=1) / np.maximum(known.sum(axis=1), 1)
    far: np.ndarray = np.where(bad ^ bad[index], _ENDED_BADLY, np.where(bad, 0.0, mean))
    return far
