"""How near an engine comes to both peaks of the knee moment of one stance.

The standard is the package's own run at a step of 50 microseconds.
"""

import functools
from collections.abc import Callable
from pathlib import Path

import numpy as np
from scipy.interpolate import CubicSpline
from stance_jobs import ROOT

ALLOWED = 0.001  # of each of the two peaks of the knee moment
STANDARD_STEP = 5e-5  # [s]
EVERY = 1e-3  # [s] at least so often is the knee moment looked at
Curve = tuple[np.ndarray, np.ndarray]  # instants [s] and knee moment [N m]


@functools.cache
def baseline():
    """Return the columns of the one stance that all engines run."""
    from simgait.case import read_case
    from simgait.limb import limbs_of
    from simgait.stance.batch import batch_of

    everyday = limbs_of(read_case(Path(ROOT / "models" / "cases" / "everyday.toml")))
    return batch_of([everyday[4]])


def filled_block(instants: int):
    """Return a block with the baseline in lane 0."""
    from simgait.engines.blocks import new_block, put

    block = new_block(instants)
    for name in ("parameter", "sole", "reference", "state"):
        put(getattr(block, name), getattr(baseline(), name))
    return block


@functools.cache
def standard() -> tuple[float, float, float]:
    """Return the end of stance [s] and both knee peaks [N m]: flexion early, extension late."""
    from simgait.physics import layout as rows
    from simgait.stance.running import run_batch

    run = run_batch(baseline(), step=STANDARD_STEP, jobs=1, forced=True)
    measures = run.measures[0]
    return (
        float(run.ends[0, rows.END_TIME]),
        float(measures[rows.KNEE_FLEXION_PEAK]),
        float(measures[rows.KNEE_EXTENSION_PEAK]),
    )


def error_of(curve: Curve) -> float:
    """Return the larger relative error of the two peaks of a knee moment through time [1]."""
    end, flexion, extension = standard()
    time, moment = curve
    if not np.isfinite(moment).all() or time[-1] < 0.95 * end:
        return float("inf")
    spline = CubicSpline(time, moment)
    early = np.linspace(0.0, 0.5 * end, 5001)
    late = np.linspace(0.5 * end, min(end, time[-1]), 5001)
    return float(
        max(
            abs(spline(early).max() - flexion) / flexion,
            abs(-spline(late).min() - extension) / extension,
        )
    )


def largest(steps: tuple[float, ...], curve_at: Callable[[float], Curve]) -> tuple[float, float]:
    """Return the largest of some steps (or tolerances) that reaches what is allowed, and its error.

    steps: from large to small.
    """
    for step in steps:
        error = error_of(curve_at(step))
        if error <= ALLOWED:
            return step, error
    raise RuntimeError(f"no step down to {steps[-1]:g} reaches {ALLOWED:g}")
