"""Which of the things that vary matter: Sobol indices and Morris screening, through SALib."""

from __future__ import annotations

import warnings
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from simgait.arrays import Array

LEVELS = 4  # of the grid on which Morris' trajectories run
RESAMPLES = 200  # bootstrap samples behind the intervals
LEAST_BLOCKS = 16  # complete blocks of a design under which nothing is said


@dataclass(frozen=True, kw_only=True)
class Index:
    """One varied name's share of a measure's variance; intervals of 95 per cent."""

    name: str
    first: float  # [1] alone
    first_low: float
    first_high: float
    total: float  # [1] with all its interactions; NaN where the sample cannot tell
    total_low: float
    total_high: float


@dataclass(frozen=True, kw_only=True)
class Screening:
    """One varied name's elementary effects on a measure, in the measure's unit a whole span."""

    name: str
    mean: float  # of the effects, with sign
    mean_size: float  # of their sizes
    half_interval: float  # of that, 95 per cent
    spread: float  # standard deviation: large against the size = curved, or acts with others


def sobol_design(names: Sequence[str], size: int, seed: int) -> Array:
    """Return the points of a design for Sobol indices, 0 to 1 [size * (names + 2), names].

    Blocks of names + 2 rows: A, A with one column of B after the other, B (Saltelli 2002, as SALib
    arranges it). size: blocks, best a power of two.
    """
    from SALib.sample import sobol

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # a size that is no power of two
        points = sobol.sample(_problem(names), size, calc_second_order=False, seed=_small(seed))
    return np.asarray(points, dtype=np.float64)


def morris_design(names: Sequence[str], size: int, seed: int) -> Array:
    """Return the points of Morris' trajectories, 0 to 1 [size * (names + 1), names].

    size: trajectories (Morris 1991, as SALib draws them).
    """
    from SALib.sample import morris

    points = morris.sample(_problem(names), size, num_levels=LEVELS, seed=_small(seed))
    return np.asarray(points, dtype=np.float64)


def sobol_indices(names: Sequence[str], outputs: Array, seed: int) -> tuple[Index, ...]:
    """Return first-order and total indices of a measure over a `sobol_design`.

    Blocks in which a run gave no number are left out as a whole.  The intervals are bootstrapped.

    outputs: [size * (names + 2)] of the measure.

    Raises:
        ValueError: too few whole blocks are left, or the measure never changes.
    """
    from SALib.analyze import sobol

    kept = whole_blocks(outputs, len(names) + 2)
    found = sobol.analyze(
        _problem(names),
        kept,
        calc_second_order=False,
        num_resamples=RESAMPLES,
        seed=_small(seed),
    )
    columns = (found[key] for key in ("S1", "S1_conf", "ST", "ST_conf"))
    return tuple(
        _index(name, *(float(value) for value in values))
        for name, *values in zip(names, *columns, strict=True)
    )


def first_order_indices(
    names: Sequence[str], points: Array, outputs: Array, seed: int
) -> tuple[Index, ...]:
    """Return first-order indices of a measure over any sample of independent inputs.

    Random-balance designs (Tarantola, Gatelli, Mara 2006; Tissot, Prieur 2012; SALib). Totals need
    a `sobol_design` and are NaN here.

    points: [rows, names] as simulated; outputs: [rows].

    Raises:
        ValueError: too few rows with a number are left, or the measure never changes.
    """
    from SALib.analyze import rbd_fast

    good = np.isfinite(outputs)
    kept = whole_blocks(outputs[good], 1)
    found = rbd_fast.analyze(
        _problem(names), points[good], kept, num_resamples=RESAMPLES, seed=_small(seed)
    )
    return tuple(
        _index(name, float(first), float(half), float("nan"), float("nan"))
        for name, first, half in zip(names, found["S1"], found["S1_conf"], strict=True)
    )


def morris_screening(
    names: Sequence[str], points: Array, outputs: Array, seed: int
) -> tuple[Screening, ...]:
    """Return the elementary effects of a measure over a `morris_design`.

    Trajectories in which a run gave no number are left out as a whole.

    points: [size * (names + 1), names] from 0 to 1; outputs: [size * (names + 1)].

    Raises:
        ValueError: too few whole trajectories are left, or the measure never changes.
    """
    from SALib.analyze import morris

    length = len(names) + 1
    good = np.repeat(np.isfinite(outputs.reshape(-1, length)).all(axis=1), length)
    kept = whole_blocks(outputs, length)
    found = morris.analyze(
        _problem(names), points[good], kept, num_levels=LEVELS, seed=_small(seed)
    )
    columns = (found[key] for key in ("mu", "mu_star", "mu_star_conf", "sigma"))
    return tuple(
        Screening(
            name=name,
            mean=float(mean),
            mean_size=float(size),
            half_interval=float(half),
            spread=float(spread),
        )
        for name, mean, size, half, spread in zip(names, *columns, strict=True)
    )


def whole_blocks(outputs: Array, length: int) -> Array:
    """Return the outputs of the blocks of a length in which every run gave a number.

    Raises:
        ValueError: fewer than sixteen are left, or all are the same.

    >>> float(whole_blocks(np.array([*range(40), float("nan"), 1.0]), 2)[-1])
    39.0
    """
    blocks = outputs.reshape(-1, length)
    kept = blocks[np.isfinite(blocks).all(axis=1)]
    if len(kept) < LEAST_BLOCKS:
        raise ValueError(f"only {len(kept)} of {len(blocks)} blocks of runs are whole")
    if np.ptp(kept) == 0.0:
        raise ValueError("the measure never changes")
    return np.asarray(kept.reshape(-1))


def _problem(names: Sequence[str]) -> dict[str, Any]:
    return {"num_vars": len(names), "names": list(names), "bounds": [[0.0, 1.0]] * len(names)}


def _small(seed: int) -> int:
    """Return a seed as the older generators behind SALib take it."""
    return seed % 2**32


def _index(name: str, first: float, first_half: float, total: float, total_half: float) -> Index:
    return Index(
        name=name,
        first=first,
        first_low=first - first_half,
        first_high=first + first_half,
        total=total,
        total_low=total - total_half,
        total_high=total + total_half,
    )
