"""Running stances: one, several, or a batch over the processor's cores."""

from __future__ import annotations

import math
import os
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from simgait.arrays import Array
from simgait.engines import compiled
from simgait.engines.blocks import Block, W, measure_block, new_block, put, run_block
from simgait.errors import require
from simgait.limb import Limb
from simgait.physics import layout as rows
from simgait.physics.stance import LATEST_END
from simgait.stance.batch import Batch, batch_of
from simgait.stance.curves import stance_curves
from simgait.stance.naming import ending_name, named_measures
from simgait.stance.result import Ledger, StanceResult
from simgait.stance.steps import stable_steps

SMALLEST_STEP, LARGEST_STEP = 1e-5, 5e-3  # [s]
STEP = 1.5e-3  # [s] see docs/reference/accuracy.md, which is generated
MARGIN = 1.25  # [1] of the step that `stable_steps` must let pass before two are taken in one
LOADING = 0.14  # [s] after touch-down: from then on a step is twice as long


@dataclass(frozen=True, kw_only=True, eq=False)
class Outcome:
    """Ends [runs, ENDS] and measures in SI [runs, MEASURES] of a batch, and curves if kept."""

    ends: Array
    measures: Array
    steps: Array  # [runs] s, the step each run took
    curves: tuple[Array, ...]  # one [n, CHANNELS] a run, or empty


def steps_needed(batch: Batch, step: float) -> int:
    """Return how many instants the longest run of a batch can take at a step [s]."""
    return math.ceil(LATEST_END * float(batch.parameter[:, rows.STANCE_TIME].max()) / step) + 3


_spare: list[Block] = []  # made by earlier batches, for later ones: no more than threads


def _block(steps: int) -> Block:
    """Return a block that nobody uses, made anew when the next one has not about the right length.

    One that is much too long would be used all the same, but its rows lie too far apart.
    """
    try:
        block = _spare.pop()
    except IndexError:
        return new_block(steps)
    return block if steps <= block.steps <= 2 * steps else new_block(steps)


def run_part(
    batch: Batch,
    chosen: NDArray[np.intp],
    step: float,
    keep_curves: bool,
    doubled: bool = False,
) -> Outcome:
    """Run the chosen runs of a batch, at most W, on this thread at one step [s].

    doubled: whether two steps are taken in one once the foot is loaded; what is recorded stays
    `step` apart.
    """
    kernel = compiled.kernel()
    part = batch.part(chosen)
    block = _block(steps_needed(part, step))
    lanes = put(block.parameter, part.parameter)
    put(block.sole, part.sole)
    put(block.reference, part.reference)
    put(block.state, part.state)
    run_block(kernel, block, lanes, step, round(LOADING / step) if doubled else None)
    measure_block(kernel, block, lanes, step)
    ends = block.ends.reshape(-1, W)[:, :lanes].T.copy()
    measures = block.measures.reshape(-1, W)[:, :lanes].T.copy()
    curves: tuple[Array, ...] = ()
    if keep_curves:
        recorded = block.curves.reshape(block.steps, rows.CHANNELS, W)
        lengths = ends[:, rows.END_STEP].astype(int) + 1
        curves = tuple(recorded[:n, :, lane].copy() for lane, n in enumerate(lengths))
    _spare.append(block)
    return Outcome(ends=ends, measures=measures, steps=np.full(lanes, step), curves=curves)


def paces(batch: Batch, step: float) -> tuple[Array, NDArray[np.bool_]]:
    """Return each run's step [s], and whether it may take two in one once the foot is loaded.

    It may where `stable_steps` would let a step pass that is a quarter longer: a decay or a swing
    is then followed at twice the step, if less closely (2.0 and 1.6 are the most that they can be
    a step, where 2.8 is stable), and loading, where most happens, is past.
    """
    doubled = stable_steps(batch, MARGIN * step) == MARGIN * step
    steps = np.full(len(batch), step)
    if not doubled.all():
        slow = np.flatnonzero(~doubled)
        steps[slow] = stable_steps(batch.part(slow), step)
    return steps, doubled


def run_batch(
    batch: Batch,
    *,
    step: float = STEP,
    jobs: int | None = None,
    keep_curves: bool = False,
    forced: bool = False,
) -> Outcome:
    """Run every stance of a batch; blocks of W are spread over `jobs` threads (all cores).

    step: until the foot is loaded, and between recorded instants [s]; after `LOADING` twice as
    much is taken in one where `paces` allows.  Runs that need a smaller step (see `stable_steps`)
    are put in blocks of their own.  forced: exactly `step`, throughout, for all.  The result of a
    run does not depend on the others beside it.
    """
    require(SMALLEST_STEP, step, LARGEST_STEP, "step of the integration [s]")
    steps, doubled = (
        (np.full(len(batch), step), np.zeros(len(batch), bool)) if forced else paces(batch, step)
    )
    order = np.argsort(-steps - doubled, kind="stable")
    tasks = [
        (group[begin : begin + W], float(size), twice)
        for size in np.unique(steps)[::-1]
        for twice in (True, False)
        for group in (order[(steps[order] == size) & (doubled[order] == twice)],)
        for begin in range(0, len(group), W)
    ]

    ends = np.empty((len(batch), rows.ENDS))
    measures = np.empty((len(batch), rows.MEASURES))
    curves: list[Array] = [ends] * len(batch) if keep_curves else []

    def run_task(task: tuple[NDArray[np.intp], float, bool]) -> None:
        chosen, size, twice = task
        part = run_part(batch, chosen, size, keep_curves, twice)
        ends[chosen], measures[chosen] = part.ends, part.measures
        for which, curve in zip(chosen, part.curves, strict=False):
            curves[which] = curve

    workers = min(jobs or os.cpu_count() or 1, len(tasks))
    if workers <= 1:
        for task in tasks:
            run_task(task)
    else:
        with ThreadPoolExecutor(workers) as pool:
            list(pool.map(run_task, tasks))
    return Outcome(ends=ends, measures=measures, steps=steps, curves=tuple(curves))


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

    limbs: any number; step: largest of the Runge-Kutta method [s].

    Raises:
        RangeError: a limb cannot be built.
    """
    if not all(isinstance(limb, Limb) for limb in limbs):
        raise TypeError("a stance is simulated of a Limb: see simgait.limb_of(case, alignment)")
    outcome = run_batch(batch_of(limbs), step=step, keep_curves=True)
    return tuple(
        stance_result(limb, ends, measures, float(taken), curves)
        for limb, ends, measures, taken, curves in zip(
            limbs, outcome.ends, outcome.measures, outcome.steps, outcome.curves, strict=True
        )
    )


def stance_result(
    limb: Limb, ends: Array, measures: Array, step: float, curves: Array
) -> StanceResult:
    """Return one run's result from its ends, its measures in SI and its recorded channels.

    step: between the recorded instants [s].
    """
    end_time = float(ends[rows.END_TIME])
    return StanceResult(
        limb=limb,
        ending=ending_name(ends[rows.ENDING]),
        end_time=end_time,
        measures=MappingProxyType(named_measures(measures, limb.person.mass)),
        ledger=ledger_of(ends),
        curves=stance_curves(limb, curves, step, end_time),
    )


def simulate_stance_in_bodies(limb: Limb) -> StanceResult:
    """Return the stance of one limb with its chain moved by pymunk: a second opinion.

    Raises:
        RangeError: the limb cannot be built.
    """
    from simgait.engines import bodies

    batch = batch_of((limb,))
    block = new_block(steps_needed(batch, bodies.STEP * bodies.RECORD_EVERY))
    put(block.parameter, batch.parameter)
    put(block.sole, batch.sole)
    put(block.reference, batch.reference)
    put(block.state, batch.state)
    step = bodies.run_bodies(block)
    measure_block(compiled.kernel(), block, 1, step)
    ends = block.ends.reshape(-1, W)[:, 0]
    last = int(ends[rows.END_STEP]) + 1
    curves = block.curves.reshape(block.steps, rows.CHANNELS, W)[:last, :, 0]
    return stance_result(limb, ends, block.measures.reshape(-1, W)[:, 0], step, curves.copy())


def simulate_stance(limb: Limb, *, step: float = STEP) -> StanceResult:
    """Return the stance of one limb, from touch-down to its ending.

    Raises:
        RangeError: the limb cannot be built.
    """
    return simulate_stances((limb,), step=step)[0]
