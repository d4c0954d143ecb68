"""How small a step a run needs: light parts between firm dampers decay fast."""

from __future__ import annotations

import numpy as np

from simgait.arrays import Array
from simgait.limb import lean_mass_matrices
from simgait.physics import layout as rows
from simgait.stance.batch import Batch

FASTEST_DECAY = 1.25  # [1] per step that is still followed well enough
MOST_HALVINGS = 12  # of the step
ENOUGH = 1e-13  # [1] of a root: a smaller change is none
NEWTON_STEPS = 40  # enough for equal roots, of which each step leaves two thirds of the distance


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
    damping = _joined(p[:, rows.HIP_DAMPING], p[:, rows.KNEE_DAMPING], p[:, rows.SOCKET_DAMPING])
    springs = _joined(
        p[:, rows.HIP_STIFFNESS], p[:, rows.KNEE_STIFFNESS], p[:, rows.SOCKET_STIFFNESS]
    )
    decay = largest_ratio(mass, damping) / FASTEST_DECAY
    fastest = np.maximum(decay, np.sqrt(largest_ratio(mass, springs)))
    steps = np.full(len(batch), step)
    for _ in range(MOST_HALVINGS):
        steps = np.where(fastest * steps > 1.0, steps / 2.0, steps)
    return steps


def _joined(hip: Array, knee: Array, socket: Array) -> Array:
    """Return the matrices of springs, or dampers, between the three leans [runs, 3, 3]."""
    chain = np.zeros((len(hip), 3, 3))
    chain[:, 0, 0] = hip + knee
    chain[:, 1, 1] = knee + socket
    chain[:, 2, 2] = socket
    chain[:, 0, 1] = chain[:, 1, 0] = -knee
    chain[:, 1, 2] = chain[:, 2, 1] = -socket
    return chain


def cofactors(matrix: Array) -> tuple[Array, ...]:
    """Return the cofactors 11, 22, 33, 12, 13, 23 of symmetric matrices [..., 3, 3]."""
    a, b, c = matrix[..., 0, 0], matrix[..., 1, 1], matrix[..., 2, 2]
    d, e, f = matrix[..., 0, 1], matrix[..., 0, 2], matrix[..., 1, 2]
    return (
        b * c - f * f,
        a * c - e * e,
        a * b - d * d,
        e * f - d * c,
        d * f - e * b,
        d * e - a * f,
    )


def paired(first: tuple[Array, ...], matrix: Array) -> Array:
    """Return the trace of the product of two symmetric matrices, the first given as `cofactors`."""
    a, b, c, d, e, f = first
    own = a * matrix[..., 0, 0] + b * matrix[..., 1, 1] + c * matrix[..., 2, 2]
    across = d * matrix[..., 0, 1] + e * matrix[..., 0, 2] + f * matrix[..., 1, 2]
    return np.asarray(own + 2.0 * across)


def largest_ratio(mass: Array, other: Array) -> Array:
    """Return the largest eigenvalue of mass^-1 other, of symmetric matrices [..., 3, 3].

    The largest root of det(x mass - other), by Newton's method from the sum of all roots: none is
    negative, so that the sum lies above the largest, and from there the method falls to it.
    Arithmetic entry by entry, so that a run's step does not depend on the runs beside it.

    mass: positive; other: not negative.

    >>> matrix = np.array([[2.0, 1.0, 0.0], [1.0, 2.0, 0.0], [0.0, 0.0, 1.0]])
    >>> round(float(largest_ratio(np.eye(3), matrix)), 12)
    3.0
    """
    own, other_own = cofactors(mass), cofactors(other)
    whole = paired(own, mass) / 3.0  # the determinant
    second = paired(own, other) / whole
    first = paired(other_own, mass) / whole
    last = paired(other_own, other) / 3.0 / whole
    x = second
    for _ in range(NEWTON_STEPS):
        value = ((x - second) * x + first) * x - last
        slope = (3.0 * x - 2.0 * second) * x + first
        change = np.where(slope > 0.0, value / np.where(slope > 0.0, slope, 1.0), 0.0)
        moving = np.abs(change) > ENOUGH * x
        if not moving.any():
            break
        x = np.where(moving, x - change, x)
    return np.asarray(x)
