"""Limbs set up at their alignments, and the state in which they touch down."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from types import ModuleType

import numpy as np

from simgait.arrays import Array
from simgait.physics import bench_rows
from simgait.physics import layout as rows

W = rows.W


@dataclass(frozen=True, kw_only=True, eq=False)
class BenchColumns:
    """What is known of a limb before it is set up at its alignment: one column of numbers each.

    Of a limb that stands for many runs: a column each, side by side, [rows, runs].
    """

    bench: Array  # [BENCH]
    setting: Array  # [SETTING] the alignment
    built: Array  # [SOLE_ROWS] the sole as the foot was built, from its ankle axis
    parameter: Array  # [PARAMETERS] what no alignment changes
    reference: Array  # [REFERENCE_ROWS] the wearer's curves on the bench


def set_up_columns(kernel: ModuleType, before: BenchColumns) -> tuple[Array, Array, Array]:
    """Return parameters, sole and references of limbs set up at their alignments.

    kernel: of the plain or the compiled engine; before: one column [rows], or a column for each of
    many runs [rows, runs]; see :mod:`simgait.physics.bench`.
    """
    given = (before.bench, before.setting, before.built, before.parameter, before.reference)
    filled = (before.parameter, before.built, before.reference)

    def set_up(lanes: int, given: list[Array], filled: list[Array]) -> None:
        kernel.set_up(lanes, *given[:3], *filled)

    parameter, sole, reference = in_lanes(set_up, given[:3], filled)
    return parameter, sole, reference


def beginning(
    kernel: ModuleType, before: BenchColumns, parameter: Array, sole: Array, reference: Array
) -> Array:
    """Return the state at touch-down of limbs set up at their alignments, columns as theirs.

    See :mod:`simgait.physics.beginning`.
    """
    scratch, leans = np.zeros(rows.SCRATCH * W), np.zeros(bench_rows.LEANS * W)

    def begin(lanes: int, given: list[Array], filled: list[Array]) -> None:
        kernel.begin(lanes, *given[:4], scratch, leans, *filled)
        kernel.touch_down(lanes, given[2], given[4], *filled)

    given = (before.bench, before.setting, parameter, reference, sole)
    (state,) = in_lanes(begin, given, (np.zeros((rows.STATES, *parameter.shape[1:])),))
    return state


def steps_of(kernel: ModuleType, parameter: Array, state: Array, step: float) -> Array:
    """Return the largest of step, step/2, step/4, ... that each run's light parts allow [s].

    parameter, state: at touch-down, one row a run [runs, rows]; see
    :func:`simgait.physics.beginning.find_steps`.
    """
    leans = np.zeros(bench_rows.LEANS * W)

    def find(lanes: int, given: list[Array], filled: list[Array]) -> None:
        kernel.find_steps(lanes, step, *given, leans, *filled)

    (steps,) = in_lanes(find, (state.T, parameter.T), (np.zeros((1, len(parameter))),))
    return steps.reshape(-1)


Lanes = Callable[[int, list[Array], list[Array]], None]


def in_lanes(work: Lanes, given: Sequence[Array], filled: Sequence[Array]) -> list[Array]:
    """Return the columns `filled` as some work on blocks of W lanes leaves them.

    work: takes how many lanes count, and the blocks of `given` and of `filled`; both are one column
    [rows], or a column for each of many runs [rows, runs].
    """
    shape = given[0].shape[1:]
    read = [part.reshape(len(part), -1) for part in given]
    found = [np.array(part.reshape(len(part), -1)) for part in filled]
    runs = read[0].shape[1]
    blocks = [np.zeros((len(part), W)) for part in (*read, *found)]
    flat = [block.reshape(-1) for block in blocks]
    for begin in range(0, runs, W):
        lanes = min(W, runs - begin)
        for block, part in zip(blocks, (*read, *found), strict=True):
            block[:, :lanes] = part[:, begin : begin + lanes]
        work(lanes, flat[: len(read)], flat[len(read) :])
        for block, part in zip(blocks[len(read) :], found, strict=True):
            part[:, begin : begin + lanes] = block[:, :lanes]
    return [part.reshape(len(part), *shape) for part in found]
