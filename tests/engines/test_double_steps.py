"""Double steps, the instants filled between them, and the elements that are left out."""

from __future__ import annotations

from types import ModuleType

import numpy as np
import pytest

from simgait.case import read_case
from simgait.engines import compiled
from simgait.engines.blocks import run_block
from simgait.engines.source import gathered_source
from simgait.library import models_folder
from simgait.limb import limbs_of
from simgait.physics import layout as rows
from simgait.stance.batch import batch_of
from simgait.stance.running import LOADING, STEP, paces, run_batch
from worked_limb import W, filled, walking

EXACT = 32  # times finer: what a double step is compared with


def everyday():
    return batch_of(limbs_of(read_case(models_folder() / "cases" / "everyday.toml")))


def recorded(step: float, fine: int | None, span: float = 0.6) -> np.ndarray:
    """Return the curves of the invented walk [instants, CHANNELS] at a step [s]."""
    block = filled(walking(), round(span / step) + 1)
    count = run_block(compiled.kernel(), block, 1, step, fine)
    return block.curves.reshape(-1, rows.CHANNELS, W)[:count, :, 0].copy()


@pytest.fixture(scope="module")
def truth() -> np.ndarray:
    return recorded(STEP / EXACT, None)[::EXACT]


def test_steps_are_single_while_the_foot_takes_the_load():
    fine = round(LOADING / STEP)
    single, doubled = recorded(STEP, None), recorded(STEP, fine)
    assert len(single) == len(doubled) > fine
    assert np.array_equal(single[: fine + 1], doubled[: fine + 1])
    assert not np.array_equal(single[fine + 2], doubled[fine + 2])


def test_instants_in_the_middle_are_as_good_as_the_ends_of_steps(truth):
    fine = round(LOADING / STEP)
    doubled = recorded(STEP, fine)
    gap = np.abs(doubled - truth[: len(doubled)]) / (np.abs(truth).max(axis=0) + 1e-9)
    ends, middles = gap[fine + 2 :: 2], gap[fine + 1 :: 2]
    for channel in range(rows.CHANNELS):
        # those of the deepest element bend, or jump, where another one becomes it
        depth = rows.DEPTH <= channel < rows.DEPTH + rows.DEPTHS
        speed = rows.DEPTH_RATE <= channel < rows.DEPTH_RATE + rows.DEPTHS
        more = 1e-2 if speed else 5e-4 if depth else 1e-4
        assert middles[:, channel].max() < 2.0 * ends[:, channel].max() + more


def test_a_measure_does_not_know_its_company():
    """To the last bit: alone, with a few others, and among all."""
    batch = everyday()
    together = run_batch(batch, jobs=1)
    assert paces(batch, STEP)[1].all()
    for chosen in ([5], [2, 6, 7], [0, 8]):
        apart = run_batch(batch.part(np.array(chosen)), jobs=1)
        assert np.array_equal(apart.measures, together.measures[chosen])
        assert np.array_equal(apart.ends, together.ends[chosen])


def test_a_quick_limb_takes_no_double_steps():
    short = batch_of(limbs_of(read_case(models_folder() / "cases" / "short-residual-limb.toml")))
    steps, doubled = paces(short, STEP)
    assert not doubled.any()
    assert steps.max() < STEP


def test_elements_out_of_reach_would_have_changed_nothing():
    """Bit for bit the run in which no element is ever left out."""
    text = gathered_source()
    assert text.count("QUICKER = 1.0") == 1
    whole = ModuleType("whole")
    exec(compile(text.replace("QUICKER = 1.0", "QUICKER = 1e9"), "<whole>", "exec"), vars(whole))
    usual = ModuleType("usual")
    exec(compile(text, "<usual>", "exec"), vars(usual))
    blocks = [filled(walking(), 41) for _ in range(2)]
    for kernel, block in zip((usual, whole), blocks, strict=True):
        run_block(kernel, block, 1, 2.0 * STEP)
    block = blocks[0]
    low = usual.first_in_reach(STEP, 1, block.state, block.sole, block.scratch)
    assert 0 < low < rows.ELEMENTS  # some are left out by now, not all
    assert np.array_equal(blocks[0].curves, blocks[1].curves)
    assert np.array_equal(blocks[0].state, blocks[1].state)
