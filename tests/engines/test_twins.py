"""The plain and the compiled engine are twins, and a run does not know its lane or its company."""

from types import ModuleType

import numpy as np
import pytest

from simgait.engines import compiled, plain
from simgait.engines.blocks import run_block
from simgait.physics import layout as rows
from worked_limb import Columns, W, filled, run, walking

STEP = 5e-4  # [s]


def recorded(kernel: ModuleType, runs: list[Columns], lanes: list[int], steps: int):
    """Return the curves [instants, channels, lanes] and the ends of a block run in these lanes."""
    block = filled(runs, steps, lanes)
    count = run_block(kernel, block, max(lanes) + 1, STEP)
    curves = block.curves.reshape(-1, rows.CHANNELS, W)[:count]
    return curves.copy(), block.ends.reshape(-1, W).copy(), block.state.reshape(-1, W).copy()


def company() -> list[Columns]:
    """Sixteen different runs; some fall, some walk."""
    made = []
    for i in range(W):
        limb = walking().changed(
            KNEE_STIFFNESS=360.0 + 10.0 * i, FRICTION=0.3 + 0.04 * i, MASS_HIP=50.0 + 2.0 * i
        )
        made.append(limb.at(THIGH_RATE=-7.3 + 0.05 * i))
    return made


def test_plain_and_compiled_agree_from_touch_down():
    """Thirty steps: heel contact, the steepest part of the stance."""
    runs, lanes = company()[:2], [0, 1]
    slow, slow_ends, slow_state = recorded(plain.kernel(), runs, lanes, 31)
    fast, fast_ends, fast_state = recorded(compiled.kernel(), runs, lanes, 31)
    assert slow.shape == fast.shape == (31, rows.CHANNELS, W)
    assert slow[-1, rows.FORCE_UP, 0] > 50.0
    for lane in lanes:
        scale = np.abs(slow[:, :, lane]).max(axis=0) + 1e-9
        assert (np.abs(fast - slow)[:, :, lane] / scale).max() < 1e-12
    assert fast_ends == pytest.approx(slow_ends, rel=1e-12)
    assert fast_state == pytest.approx(slow_state, rel=1e-12, abs=1e-15)


def test_plain_and_compiled_agree_to_toe_off():
    """A whole walk at twice the step: the ending, when it was, and the state then."""
    slow = run(plain.kernel(), walking(), 1.0, 2.0 * STEP)
    fast = run(compiled.kernel(), walking(), 1.0, 2.0 * STEP)
    assert slow.ends[rows.ENDING] == rows.TOE_OFF
    assert slow.curves.shape == fast.curves.shape
    assert fast.ends == pytest.approx(slow.ends, rel=1e-10, abs=1e-12)


def test_a_run_does_not_know_its_lane_or_its_company():
    """To the last bit: alone in lane 0, and in another lane among fifteen others."""
    crowd, ends_crowd, _ = recorded(compiled.kernel(), company(), list(range(W)), 1800)
    for place in (7, 2):
        alone, ends_alone, _ = recorded(compiled.kernel(), [company()[place]], [0], 1800)
        end = int(ends_alone[rows.END_STEP, 0]) + 1
        assert end > 1000
        assert np.array_equal(ends_alone[:, 0], ends_crowd[:, place])
        assert np.array_equal(alone[:end, :, 0], crowd[:end, :, place])
        others = np.delete(np.arange(W), place)
        assert not any(np.array_equal(crowd[:, :, place], crowd[:, :, other]) for other in others)
