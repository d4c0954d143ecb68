"""A block is used for many runs: nothing of it but the runs may show in what comes out."""

from __future__ import annotations

import numpy as np
import pytest

from simgait.case import read_case
from simgait.engines.blocks import new_block
from simgait.library import models_folder
from simgait.limb import limbs_of
from simgait.stance import running
from simgait.stance.batch import batch_of

LEFT_OVER = ("curves", "series", "found", "measures", "ends", "scratch", "rate", "base", "first")


@pytest.mark.parametrize("more", [0, 120_000])  # instants beyond what is needed
@pytest.mark.parametrize("left_over", [1e6, float("nan")])
def test_what_a_block_held_before_and_how_long_it_is_changes_nothing(
    monkeypatch: pytest.MonkeyPatch, more: int, left_over: float
) -> None:
    case = read_case(models_folder() / "cases" / "short-residual-limb.toml")
    batch = batch_of(limbs_of(case))
    clean = running.run_batch(batch, jobs=1)

    def used(steps: int) -> object:
        block = new_block(steps + more)
        for name in LEFT_OVER:
            getattr(block, name)[:] = left_over
        return block

    monkeypatch.setattr(running, "_block", used)
    dirty = running.run_batch(batch, jobs=1)
    assert np.array_equal(dirty.ends, clean.ends, equal_nan=True)
    assert np.array_equal(dirty.measures, clean.measures, equal_nan=True)
