"""A stance by SciPy's DOP853 on the very same right-hand side: the standard of accuracy."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from scipy.integrate import solve_ivp

from simgait.arrays import Array
from simgait.engines import compiled
from simgait.engines.blocks import Block, W, measure_block, new_block, put
from simgait.limb import Limb, limb_columns
from simgait.physics import layout as rows

RELATIVE, ABSOLUTE = 1e-10, 1e-12
FINE = 0.25e-3  # [s] between the instants at which the reference is recorded


def reference_measures(limb: Limb, step: float = FINE) -> Array:
    """Return the measures in SI [MEASURES] of a stance integrated by DOP853 at rtol 1e-10.

    Between its steps DOP853 interpolates (order 7).  Recording, the location of toe-off and the
    reading of measures are the kernel's own; what is compared is the integration and the step.
    """
    kernel = compiled.kernel()
    columns = limb_columns(limb)
    until = 1.3 * limb.wearer.stance_time
    b = new_block(int(until / step) + 3)
    for target, values in (
        (b.parameter, columns.parameter),
        (b.sole, columns.sole),
        (b.reference, columns.reference),
        (b.state, columns.state),
    ):
        put(target, values[None])
    energy = kernel.mechanical_energy(0, b.state, 0, b.parameter)
    b.ends.reshape(-1, W)[rows.ENERGY_START, 0] = energy
    solution = integrated(b, columns.state, until)
    for n in range(int(until / step)):
        b.base[:] = b.state
        b.first[:] = b.rate
        slope(b, n * step, solution(n * step))
        if recorded_to_the_end(b, n, step):
            break
    measure_block(kernel, b, 1, step)
    return np.array(b.measures.reshape(-1, W)[:, 0])


def slope(b: Block, time: float, state: Array) -> Array:
    """Return d(state)/dt of lane 0; the block is left at that state."""
    b.state.reshape(-1, W)[:, 0] = state
    compiled.kernel().move(1, time, b.state, b.parameter, b.sole, b.reference, b.scratch, b.rate)
    return b.rate.reshape(-1, W)[:, 0].copy()


def integrated(b: Block, start: Array, until: float) -> Callable[[float], Array]:
    """Return the state through time, by DOP853."""
    return solve_ivp(
        lambda time, state: slope(b, time, state),
        (0.0, until),
        start,
        method="DOP853",
        rtol=RELATIVE,
        atol=ABSOLUTE,
        dense_output=True,
        max_step=0.005,
    ).sol


def recorded_to_the_end(b: Block, n: int, step: float) -> bool:
    """Record lane 0 as it stands and close it if it has ended; returns whether it has."""
    kernel = compiled.kernel()
    row = n * rows.CHANNELS * W
    kernel.record_forces(1, row, b.state, b.parameter, b.scratch, b.rate, b.curves)
    kernel.record_depths(1, row, b.state, b.sole, b.scratch, b.curves)
    if n == 0:
        return False
    ending = kernel.ending_of(
        0, n * step, row, row - rows.CHANNELS * W, b.state, b.parameter, b.scratch, b.curves
    )
    if ending == rows.RUNNING:
        return False
    kernel.close_run(
        0, n, 1, ending, step, b.state, b.rate, b.base, b.first, b.parameter, b.curves, b.ends
    )
    return True
