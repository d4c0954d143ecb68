"""The chain's inertia as seen by its three leans, the hip free to move."""

from __future__ import annotations

import numpy as np

from simgait.arrays import Array
from simgait.physics import layout as rows


def lean_mass_matrices(parameter: Array, state: Array) -> Array:
    """Return the mass matrices of the three leans at touch-down, the hip free [runs, 3, 3].

    Sum over the bodies of m J^T J + I, less the share of the hip's own motion: F^T F over the
    total mass, with F the sum of m J [kg m2].
    """
    p, q = parameter, state
    m1, m2, m3 = (p[:, r] for r in (rows.MASS_THIGH, rows.MASS_RESIDUAL, rows.MASS_PROSTHESIS))
    l1, l2 = p[:, rows.LENGTH_THIGH], p[:, rows.LENGTH_RESIDUAL]
    total = p[:, rows.MASS_HIP] + m1 + m2 + m3
    zero = np.zeros(len(p))
    arms = (  # (forward, up) of each body's centre in each segment, cumulated down the chain
        ((zero, -p[:, rows.CENTRE_THIGH]), (zero, zero), (zero, zero)),
        ((zero, -l1), (zero, -p[:, rows.CENTRE_RESIDUAL]), (zero, zero)),
        ((zero, -l1), (zero, -l2), (p[:, rows.CENTRE_FORWARD], p[:, rows.CENTRE_UP])),
    )
    inertia = (rows.INERTIA_THIGH, rows.INERTIA_RESIDUAL, rows.INERTIA_PROSTHESIS)
    matrix = np.zeros((len(p), 3, 3))
    first = np.zeros((len(p), 2, 3))
    for body, mass in zip(arms, (m1, m2, m3), strict=True):
        jacobian = np.zeros((len(p), 2, 3))
        for place, (forward, up) in enumerate(body):
            c, s = np.cos(q[:, rows.THIGH + place]), np.sin(q[:, rows.THIGH + place])
            jacobian[:, 0, place] = up * c - forward * s
            jacobian[:, 1, place] = -forward * c - up * s
        matrix += mass[:, None, None] * np.einsum("ria,rib->rab", jacobian, jacobian)
        first += mass[:, None, None] * jacobian
    for place, row in enumerate(inertia):
        matrix[:, place, place] += p[:, row]
    return np.asarray(matrix - np.einsum("ria,rib->rab", first, first) / total[:, None, None])
