"""Running stances: one, several, or a batch over the processor's cores."""

from __future__ import annotations

import math
import os
import threading
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import numpy as np

from simgait.arrays import Array
from simgait.engines import compiled
from simgait.engines.blocks import W, Block, measure_block, new_block, put, run_block
from simgait.limb import Limb, limb_columns
from simgait.physics import layout as rows
from simgait.stance.curves import stance_curves
from simgait.stance.result import Ledger, StanceResult
from simgait.symbols import ENDINGS, MEASURES

STEP = 1.0e-3  # [s] see docs/reference/accuracy.md, which is generated
LONGEST = 1.5  # nominal stance times after which a run is stopped


@dataclass(frozen=True, kw_only=True, eq=False)
class Batch:
    """The columns of many runs [runs, rows]."""

    parameter: Array
    sole: Array
    reference: Array
    state: Array

    def __len__(self) -> int:
        return len(self.parameter)


@dataclass(frozen=True, kw_only=True, eq=False)
class Outcome:
    """Ends [runs, ENDS] and measures in SI [runs, MEASURES] of a batch, and curves if kept."""

    ends: Array
    measures: Array
    curves: tuple[Array, ...]  # one [n, CHANNELS] a run, or empty


def batch_of(limbs: Sequence[Limb]) -> Batch:
    """Return the columns of several limbs, one row a limb."""
    columns = [limb_columns(limb) for limb in limbs]
    return Batch(
        parameter=np.array([c.parameter for c in columns]),
        sole=np.array([c.sole for c in columns]),
        reference=np.array([c.reference for c in columns]),
        state=np.array([c.state for c in columns]),
    )


def steps_needed(batch: Batch, step: float) -> int:
    """Return how many instants the longest run of a batch can take."""
    return math.ceil(LONGEST * float(batch.parameter[:, rows.STANCE_TIME].max()) / step) + 3


_local = threading.local()


def _block(steps: int) -> Block:
    """Return this thread's block, made anew only when it must grow."""
    block = getattr(_local, "block", None)
    if block is None or block.steps < steps:
        block = _local.block = new_block(steps)
    return block  # type: ignore[no-any-return]


def run_part(batch: Batch, begin: int, step: float, keep_curves: bool) -> Outcome:
    """Run up to W runs of a batch from index `begin` on this thread."""
    kernel = compiled.kernel()
    block = _block(steps_needed(batch, step))
    chosen = slice(begin, begin + W)
    lanes = put(block.parameter, batch.parameter[chosen])
    put(block.sole, batch.sole[chosen])
    put(block.reference, batch.reference[chosen])
    put(block.state, batch.state[chosen])
    run_block(kernel, block, lanes, step)
    measure_block(kernel, block, lanes, step)
    ends = block.ends.reshape(-1, W)[:, :lanes].T.copy()
    measures = block.measures.reshape(-1, W)[:, :lanes].T.copy()
    curves: tuple[Array, ...] = ()
    if keep_curves:
        recorded = block.curves.reshape(block.steps, rows.CHANNELS, W)
        lengths = ends[:, rows.END_STEP].astype(int) + 1
        curves = tuple(recorded[:n, :, lane].copy() for lane, n in enumerate(lengths))
    return Outcome(ends=ends, measures=measures, curves=curves)


def run_batch(
    batch: Batch, *, step: float = STEP, jobs: int | None = None, keep_curves: bool = False
) -> Outcome:
    """Run every stance of a batch; blocks of W are spread over `jobs` threads (all cores).

    The result of a run does not depend on the others beside it.
    """
    begins = range(0, len(batch), W)
    workers = min(jobs or os.cpu_count() or 1, len(begins))
    if workers <= 1:
        parts = [run_part(batch, begin, step, keep_curves) for begin in begins]
    else:
        with ThreadPoolExecutor(workers) as pool:
            parts = list(pool.map(lambda b: run_part(batch, b, step, keep_curves), begins))
    return Outcome(
        ends=np.concatenate([part.ends for part in parts]),
        measures=np.concatenate([part.measures for part in parts]),
        curves=tuple(curve for part in parts for curve in part.curves),
    )


def named_measures(values: Array, mass: float) -> dict[str, float]:
    """Return one run's measures by name, in the units that their names state."""
    return {
        measure.name: float(values[measure.row])
        * measure.scale
        / (mass if measure.per_mass else 1.0)
        for measure in MEASURES
    }


def ledger_of(ends: Array) -> Ledger:
    """Return one run's ledger from its ends [ENDS]."""
    state = ends[rows.END_STATE :]
    return Ledger(
        gained=float(ends[rows.ENERGY_END] - ends[rows.ENERGY_START]),
        hip=float(state[rows.WORK_HIP]),
        knee=float(state[rows.WORK_KNEE]),
        other_limb=float(state[rows.WORK_OTHER]),
        trunk=float(state[rows.WORK_TRUNK]),
        sole=float(state[rows.WORK_SOLE]),
        friction=float(state[rows.WORK_FRICTION]),
        lost_in_socket=float(state[rows.LOSS_SOCKET]),
        lost_in_sole=float(state[rows.LOSS_SOLE]),
        exchanged=float(state[rows.EXCHANGED]),
    )


def simulate_stances(limbs: Sequence[Limb], *, step: float = STEP) -> tuple[StanceResult, ...]:
    """Return the stance of each limb, from touch-down to its ending.

    limbs: any number; step: of the Runge-Kutta method [s].

    Raises:
        RangeError: a limb cannot be built.
    """
    outcome = run_batch(batch_of(limbs), step=step, keep_curves=True)
    return tuple(
        StanceResult(
            limb=limb,
            ending=ENDINGS[int(ends[rows.ENDING])],
            end_time=float(ends[rows.END_TIME]),
            measures=named_measures(measures, limb.person.mass),
            ledger=ledger_of(ends),
            curves=stance_curves(limb, curves, step, float(ends[rows.END_TIME])),
        )
        for limb, ends, measures, curves in zip(
            limbs, outcome.ends, outcome.measures, outcome.curves, strict=True
        )
    )


def simulate_stance(limb: Limb, *, step: float = STEP) -> StanceResult:
    """Return the stance of one limb, from touch-down to its ending.

    Raises:
        RangeError: the limb cannot be built.
    """
    return simulate_stances((limb,), step=step)[0]
