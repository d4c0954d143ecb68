"""How small a step a run needs: light parts between firm dampers decay fast."""

from __future__ import annotations

import numpy as np

from simgait.arrays import Array
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
    mass = lean_mass_matrices(batch)
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


def lean_mass_matrices(batch: Batch) -> Array:
    """Return the mass matrices of the three leans at touch-down, the hip free [runs, 3, 3].

    Sum over the bodies of m J^T J + I, less the share of the hip's own motion: F^T F over the
    total mass, with F the sum of m J [kg m2].
    """
    p, q = batch.parameter, batch.state
    m1, m2, m3 = (p[:, r] for r in (rows.MASS_THIGH, rows.MASS_RESIDUAL, rows.MASS_PROSTHESIS))
    l1, l2 = p[:, rows.LENGTH_THIGH], p[:, rows.LENGTH_RESIDUAL]
    total = p[:, rows.MASS_HIP] + m1 + m2 + m3
    zero = np.zeros(len(batch))
    arms = (  # (forward, up) of each body's centre in each segment, cumulated down the chain
        ((zero, -p[:, rows.CENTRE_THIGH]), (zero, zero), (zero, zero)),
        ((zero, -l1), (zero, -p[:, rows.CENTRE_RESIDUAL]), (zero, zero)),
        ((zero, -l1), (zero, -l2), (p[:, rows.CENTRE_FORWARD], p[:, rows.CENTRE_UP])),
    )
    inertia = (rows.INERTIA_THIGH, rows.INERTIA_RESIDUAL, rows.INERTIA_PROSTHESIS)
    matrix = np.zeros((len(batch), 3, 3))
    first = np.zeros((len(batch), 2, 3))
    for body, mass in zip(arms, (m1, m2, m3), strict=True):
        jacobian = np.zeros((len(batch), 2, 3))
        for place, (forward, up) in enumerate(body):
            c, s = np.cos(q[:, rows.THIGH + place]), np.sin(q[:, rows.THIGH + place])
            jacobian[:, 0, place] = up * c - forward * s
            jacobian[:, 1, place] = -forward * c - up * s
        matrix += mass[:, None, None] * np.einsum("ria,rib->rab", jacobian, jacobian)
        first += mass[:, None, None] * jacobian
    for place, row in enumerate(inertia):
        matrix[:, place, place] += p[:, row]
    return np.asarray(matrix - np.einsum("ria,rib->rab", first, first) / total[:, None, None])
