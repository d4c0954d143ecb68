"""How small a step a run needs: light parts between firm dampers decay fast."""

from __future__ import annotations

from simgait.arrays import Array
from simgait.engines import compiled
from simgait.engines.setting_up import steps_of
from simgait.stance.batch import Batch


def stable_steps(batch: Batch, step: float) -> Array:
    """Return for each run the largest of step, step/2, step/4, ... that its light parts allow [s].

    See :func:`simgait.physics.beginning.find_steps`.  step: largest [s].
    """
    return steps_of(compiled.kernel(), batch.parameter, batch.state, step)
