"""The loop's order of convergence, measured, and its distance from a method of order 8."""

from itertools import pairwise

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from simgait.engines import compiled
from simgait.physics import layout as rows
from worked_limb import MOVING, Columns, filled, hip_height, lane, run, walking

DEFAULT_STEP = 5e-4  # [s]
WALK = walking().changed(RUN_ON=1.0)
# what one unit of each coordinate and speed is worth when errors are added up
WORTH = np.array([1.0, 1.0, 1.0, 1.0, 1.0, 0.1, 0.1, 0.1, 0.1, 0.1])


def swaying() -> Columns:
    """Standing on a soft flat sole under the hip, swaying: no element touches, leaves or slides."""
    made = walking().changed(RUN_ON=1.0, HIP_STIFFNESS=1500.0, TRUNK_SPEED=0.1)
    made = made.changed(REFERENCE_TIME=0.1 * (rows.NODES - 1))
    sole = made.sole.reshape(-1, 4)
    sole[:, rows.SOLE_FORWARD] -= sole[:, rows.SOLE_FORWARD].mean()
    sole[:, rows.SOLE_UP] = -0.41
    sole[:, rows.SOLE_STIFFNESS] = 4000.0
    made.parameter[rows.OTHER_UP : rows.NEXT_FORWARD + 4] = 0.0
    made.reference[: rows.KNEE_CURVE] = 0.02 * np.sin(np.arange(rows.COEFFICIENTS))
    made.reference[rows.KNEE_CURVE :] = 0.03 * np.cos(np.arange(rows.COEFFICIENTS))
    made.state[:] = 0.0
    made = made.at(HIP_VX=0.1, HIP_VY=0.01, THIGH_RATE=-0.2, RESIDUAL_RATE=0.1)
    return made.at(HIP_Y=hip_height(made, depth=0.0107))


def after(columns: Columns, span: float, steps: int) -> np.ndarray:
    """Return coordinates and speeds after `span` [s] in so many steps."""
    return run(compiled.kernel(), columns, span, span / steps).state[:MOVING]


def distance(one: np.ndarray, other: np.ndarray) -> float:
    return float(np.max(np.abs(one - other) * WORTH))


def smooth_solution(columns: Columns, times: np.ndarray) -> np.ndarray:
    """Return coordinates and speeds at the times [s] by DOP853 on the same right-hand side."""
    kernel, block = compiled.kernel(), filled(columns, 1)
    state, rate = lane(block.state), lane(block.rate)

    def right_hand_side(time: float, now: np.ndarray) -> np.ndarray:
        state[:] = now
        kernel.move(
            1, time, block.state, block.parameter, block.sole, block.reference, block.scratch,
            block.rate,
        )  # fmt: skip
        return rate.copy()

    solved = solve_ivp(
        right_hand_side, (0.0, times[-1]), columns.state, method="DOP853", t_eval=times,
        rtol=1e-10, atol=1e-12, max_step=1e-3,
    )  # fmt: skip
    assert solved.success, solved.message
    return solved.y[:MOVING].T


def test_order_four_between_events():
    """Steps h, h/2, h/4, h/8: the differences shrink by 2^order (Richardson)."""
    limb, span = swaying(), 0.096  # ends before the references' first knot at 0.1 s
    ends = [after(limb, span, steps) for steps in (96, 192, 384, 768)]
    gaps = [distance(one, other) for one, other in pairwise(ends)]
    orders = np.log2(np.array(gaps[:-1]) / np.array(gaps[1:]))
    assert gaps[-1] > 1e-13  # still above rounding: the order is a measurement
    assert orders.min() > 3.8
    assert orders.max() < 4.5


def test_order_over_a_whole_walk():
    """From touch-down past heel-off, every element touching and leaving at its own instant.

    Each is a place where the third derivatives of the forces jump (an element's force begins as a
    cubic of depth), which a fixed step meets at a random point without losing the order of four;
    measured as the slope of the error over many steps.
    """
    span = 0.48
    truth = after(WALK, span, 30000)
    counts = np.unique(np.geomspace(576, 5760, 60).astype(int))
    errors = [distance(after(WALK, span, int(count)), truth) for count in counts]
    order = -np.polyfit(np.log(counts), np.log(errors), 1)[0]
    assert order > 3.8


TIMES = np.array([0.02, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.66])


@pytest.fixture(scope="module")
def truth() -> np.ndarray:
    return smooth_solution(WALK, TIMES)


@pytest.mark.parametrize("which", range(len(TIMES)), ids=[f"{time:.2f}s" for time in TIMES])
def test_the_default_step_is_near_the_method_of_order_eight(truth, which):
    """Within 30 micrometres, 30 microradians and ten times that a second, at every instant."""
    time = TIMES[which]
    assert distance(after(WALK, time, round(time / DEFAULT_STEP)), truth[which]) < 3e-5
    assert distance(after(WALK, time, round(time / DEFAULT_STEP) * 8), truth[which]) < 2e-7


def test_toe_off_is_located_within_the_step():
    """The time of toe-off and the state then do not depend on where the steps fall."""
    kernel = compiled.kernel()
    fine = run(kernel, walking(), 1.0, DEFAULT_STEP / 16).ends
    state = slice(rows.END_STATE, rows.END_STATE + MOVING)
    beside = []
    for step in (DEFAULT_STEP, 0.93 * DEFAULT_STEP, 0.81 * DEFAULT_STEP, 0.5 * DEFAULT_STEP):
        ends = run(kernel, walking(), 1.0, step).ends
        assert ends[rows.ENDING] == rows.TOE_OFF
        assert ends[rows.END_TIME] == pytest.approx(fine[rows.END_TIME], abs=2e-6)
        assert distance(ends[state], fine[state]) < 2e-5
        beside.append(ends[rows.END_TIME] / step % 1.0)
    assert max(beside) - min(beside) > 0.1  # the steps do fall differently
