"""Blocks of runs side by side: the flat arrays, filled from columns and handed to a kernel."""

from __future__ import annotations

from dataclasses import dataclass
from types import ModuleType

import numpy as np

from simgait.arrays import Array
from simgait.physics import layout as rows

W = rows.W


@dataclass(frozen=True, kw_only=True, eq=False)
class Block:
    """The flat arrays of one block of at most W runs; made once, used for many blocks."""

    state: Array
    parameter: Array
    sole: Array
    reference: Array
    scratch: Array
    rate: Array
    base: Array
    first: Array
    total: Array
    curves: Array
    ends: Array
    series: Array
    found: Array
    measures: Array
    steps: int  # rows of `curves`


PAGE = 4096  # [bytes] of memory
LARGE_PAGE = 2097152  # [bytes]
LINE = 64  # [bytes] of the processor's cache, and its widest vector
SMALL = {  # the arrays that every step goes through, in the order in which they lie in memory
    "state": rows.STATES,
    "rate": rows.STATES,
    "base": rows.STATES,
    "total": rows.STATES,
    "first": rows.STATES,
    "scratch": rows.SCRATCH,
    "parameter": rows.PARAMETERS,
    "reference": rows.REFERENCE_ROWS,
    "sole": rows.SOLE_ROWS,
    "ends": rows.ENDS,
    "found": rows.FOUND,
    "measures": rows.MEASURES,
}


def aligned(count: int) -> Array:
    """Return an array of zeros that begins on a page, so that no vector straddles two lines.

    A large one lies on large pages where the system has them to give (numpy asks for those from
    4 MiB on), so that where its parts lie in the caches is not left to chance.

    >>> aligned(3).tolist(), aligned(3).ctypes.data % LINE
    ([0.0, 0.0, 0.0], 0)
    """
    page = LARGE_PAGE if 8 * count > LARGE_PAGE // 2 else PAGE
    room = np.empty(max(count + page // 8, 2 * LARGE_PAGE // 8 if page == LARGE_PAGE else 0))
    first = -room.ctypes.data % page // 8
    room[first : first + count] = 0.0
    return room[first : first + count]


def new_block(steps: int) -> Block:
    """Return an empty block with room for `steps` recorded instants.

    Its arrays lie one behind the other: a chance placement would now and then let them drive each
    other out of the cache.

    >>> len(new_block(10).curves) == 10 * rows.CHANNELS * W
    True
    """
    sizes = SMALL | {"curves": rows.CHANNELS * steps, "series": rows.SERIES * steps}
    ends = np.cumsum(list(sizes.values())) * W
    parts = np.split(aligned(int(ends[-1])), ends[:-1])
    return Block(**dict(zip(sizes, parts, strict=True)), steps=steps)


def put(target: Array, columns: Array) -> int:
    """Write columns [runs, rows] into a flat array of rows by lanes; returns the runs written.

    >>> target = np.zeros(2 * W)
    >>> put(target, np.array([[1.0, 2.0], [3.0, 4.0]]))
    2
    >>> target[[0, 1, W, W + 1]].tolist()
    [1.0, 3.0, 2.0, 4.0]
    """
    runs, count = len(columns), columns.shape[1]
    target.reshape(-1, W)[:count, :runs] = columns.T
    return runs


def run_block(
    kernel: ModuleType, block: Block, lanes: int, step: float, fine: int | None = None
) -> int:
    """Run the first `lanes` runs of a block to their endings; returns the instants recorded.

    kernel: of the plain or the compiled engine; step: between instants [s]; fine: instant from
    which on the Runge-Kutta method takes two in one step (never, if not said).
    """
    b = block
    return int(
        kernel.run_stance(
            lanes,
            b.steps,
            b.steps if fine is None else fine,
            step,
            b.state,
            b.parameter,
            b.sole,
            b.reference,
            b.scratch,
            b.rate,
            b.base,
            b.first,
            b.total,
            b.curves,
            b.ends,
        )
    )


def measure_block(kernel: ModuleType, block: Block, lanes: int, step: float) -> None:
    """Fill the measures of a block that has run; a ledger that does not close is an ending.

    kernel, lanes, step: as it was run with.
    """
    b = block
    kernel.measure_block(
        lanes, b.steps, step, b.curves, b.parameter, b.ends, b.series, b.found, b.measures
    )
