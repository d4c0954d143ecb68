"""The chain's inertia as seen by its three leans, the hip free to move."""

from __future__ import annotations

import numpy as np

from simgait.arrays import Array, many
from simgait.physics import layout as rows
from simgait.physics.trigonometry import cosine, sine

BODIES = (  # row of each body's mass and of its inertia, from the hip down
    (rows.MASS_THIGH, rows.INERTIA_THIGH),
    (rows.MASS_RESIDUAL, rows.INERTIA_RESIDUAL),
    (rows.MASS_PROSTHESIS, rows.INERTIA_PROSTHESIS),
)


def lean_mass_matrices(parameter: Array, state: Array) -> Array:
    """Return the mass matrices of the three leans at touch-down, the hip free [..., 3, 3].

    Sum over the bodies of m J^T J + I, less the share of the hip's own motion: F^T F over the
    total mass, with F the sum of m J [kg m2].

    parameter, state: one column, or the columns of many runs [runs, rows].
    """
    p = np.asarray(parameter)
    masses = [p[..., row] for row, _ in BODIES]
    total = p[..., rows.MASS_HIP] + masses[0] + masses[1] + masses[2]
    turning = _turning(p, np.asarray(state))
    matrix = np.empty((*total.shape, 3, 3))
    first = [
        sum(m * turning[body][place][axis] for body, m in enumerate(masses) if body >= place)
        for place in range(3)
        for axis in range(2)
    ]
    for a in range(3):
        for b in range(a + 1):
            entry = -(first[2 * a] * first[2 * b] + first[2 * a + 1] * first[2 * b + 1]) / total
            for body in range(a, 3):
                (ax, ay), (bx, by) = turning[body][a], turning[body][b]
                entry = entry + masses[body] * (ax * bx + ay * by)
            if a == b:
                entry = entry + p[..., BODIES[a][1]]
            matrix[..., a, b] = matrix[..., b, a] = entry
    return matrix


def _turning(p: Array, q: Array) -> list[list[tuple[Array, Array]]]:
    """Return how far each body's centre moves with each lean above it: x and y [m/rad]."""
    leans = [many(q[..., rows.THIGH + place]) for place in range(3)]
    cosines = [cosine(lean) for lean in leans]
    sines = [sine(lean) for lean in leans]
    zero = 0.0 * p[..., rows.LENGTH_THIGH]
    thigh, residual = (zero, -p[..., rows.LENGTH_THIGH]), (zero, -p[..., rows.LENGTH_RESIDUAL])
    arms = (  # (forward, up) in each segment, cumulated down the chain
        ((zero, -p[..., rows.CENTRE_THIGH]),),
        (thigh, (zero, -p[..., rows.CENTRE_RESIDUAL])),
        (thigh, residual, (p[..., rows.CENTRE_FORWARD], p[..., rows.CENTRE_UP])),
    )
    return [
        [
            (up * c - forward * s, -forward * c - up * s)
            for (forward, up), c, s in zip(body, cosines, sines, strict=False)
        ]
        for body in arms
    ]


def solved(matrix: Array, right: tuple[float, float, float]) -> tuple[Array, Array, Array]:
    """Return x, y, z of a symmetric positive 3 x 3 system, by elimination from the top.

    matrix: [..., 3, 3]; right: its right-hand side, the same for all.

    >>> [float(value) for value in solved(np.diag([1.0, 2.0, 4.0]), (1.0, 1.0, 1.0))]
    [1.0, 0.5, 0.25]
    """
    m = matrix
    f1 = m[..., 1, 0] / m[..., 0, 0]
    f2 = m[..., 2, 0] / m[..., 0, 0]
    b11 = m[..., 1, 1] - f1 * m[..., 0, 1]
    b12 = m[..., 1, 2] - f1 * m[..., 0, 2]
    b22 = m[..., 2, 2] - f2 * m[..., 0, 2]
    r1 = right[1] - f1 * right[0]
    r2 = right[2] - f2 * right[0]
    g = b12 / b11
    z = (r2 - g * r1) / (b22 - g * b12)
    y = (r1 - b12 * z) / b11
    x = (right[0] - m[..., 0, 1] * y - m[..., 0, 2] * z) / m[..., 0, 0]
    return x, y, z
