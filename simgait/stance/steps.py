"""How small a step a run needs: light parts between firm dampers decay fast."""

from __future__ import annotations

import numpy as np

from simgait.arrays import Array
from simgait.limb import lean_mass_matrices
from simgait.physics import layout as rows
from simgait.stance.batch import Batch

FASTEST_DECAY = 1.25  # [1] per step that is still followed well enough


def stable_steps(batch: Batch, step: float) -> Array:
    """Return for each run the largest of step, step/2, step/4, ... that its light parts allow [s].

    A short residual limb is light, so that the dampers on both sides of it make fast decays.  With
    M, D and K the mass, damping and stiffness matrices of the three leans at touch-down (hip free
    to move), the step must not exceed 1.25 / (largest eigenvalue of M^-1 D), nor 1 / (square root
    of that of M^-1 K): well inside the method's stability (2.8), so that decays are followed too.

    step: largest [s].
    """
    mass = lean_mass_matrices(batch.parameter, batch.state)
    p = batch.parameter

    def joined(hip: int, knee: int, socket: int) -> Array:
        chain = np.zeros((len(batch), 3, 3))
        chain[:, 0, 0] = p[:, hip] + p[:, knee]
        chain[:, 1, 1] = p[:, knee] + p[:, socket]
        chain[:, 2, 2] = p[:, socket]
        chain[:, 0, 1] = chain[:, 1, 0] = -p[:, knee]
        chain[:, 1, 2] = chain[:, 2, 1] = -p[:, socket]
        return chain

    damping = joined(rows.HIP_DAMPING, rows.KNEE_DAMPING, rows.SOCKET_DAMPING)
    springs = joined(rows.HIP_STIFFNESS, rows.KNEE_STIFFNESS, rows.SOCKET_STIFFNESS)
    decay = np.linalg.eigvals(np.linalg.solve(mass, damping)).real.max(axis=1)
    swing = np.sqrt(np.linalg.eigvals(np.linalg.solve(mass, springs)).real.max(axis=1))
    halvings = np.ceil(np.log2(np.maximum(np.maximum(decay / FASTEST_DECAY, swing) * step, 1.0)))
    return np.asarray(step / 2.0**halvings)
