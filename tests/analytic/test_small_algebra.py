"""The small linear algebra of the columns against numpy's and scipy's general one."""

import numpy as np
import pytest
from scipy.interpolate import CubicSpline
from scipy.linalg import eigh

from simgait.arrays import many
from simgait.engines import plain
from simgait.physics import bench_rows, layout
from simgait.physics.layout import NODES, W
from simgait.wearer import spline_coefficients

RNG = np.random.default_rng(5)


def positive(count):
    half = RNG.normal(size=(count, 3, 3))
    return half @ half.transpose(0, 2, 1) + 0.1 * np.eye(3)


def test_spline_is_scipys_natural_one():
    values = RNG.normal(size=NODES)
    c = spline_coefficients(values.tolist())
    spline = CubicSpline(np.arange(NODES), values, bc_type="natural")
    half = (c[:-3] + 23.0 * c[1:-2] + 23.0 * c[2:-1] + c[3:]) / 48.0  # midway between knots
    assert (c[:-2] + 4.0 * c[1:-1] + c[2:]) / 6.0 == pytest.approx(values, abs=1e-13)
    assert half == pytest.approx(spline(np.arange(NODES - 1) + 0.5), abs=1e-13)


def test_spline_of_many_has_the_digits_of_each():
    columns = RNG.normal(size=(NODES, 7))
    together = spline_coefficients([many(row) for row in columns])
    alone = np.stack([spline_coefficients(column.tolist()) for column in columns.T], axis=1)
    assert np.array_equal(together, alone)


def stored(matrix):
    """Symmetric matrices as the leans' rows of one lane: 11, 22, 33, 12, 13, 23."""
    places = ((0, 0), (1, 1), (2, 2), (0, 1), (0, 2), (1, 2))
    return [matrix[row, column] for row, column in places]


def leans_of(*matrices):
    flat = np.zeros((bench_rows.LEANS, layout.W))
    flat[: 6 * len(matrices), 0] = [value for matrix in matrices for value in stored(matrix)]
    return flat.reshape(-1)


def test_starting_gap_is_numpys():
    for matrix in positive(50):
        for hip, knee in ((3.0, -20.0), (0.0, 5.0)):
            rates = np.linalg.solve(matrix, np.array([hip - knee, knee, 0.0]))
            unit = np.linalg.solve(matrix, np.array([0.0, 1.0, -1.0]))  # torques of one N m
            expected = (rates[2] - rates[1]) / (unit[1] - unit[2])
            found = plain.kernel().starting_gap(0, hip, knee, leans_of(matrix))
            assert found == pytest.approx(expected, rel=1e-8, abs=1e-9)


def ratio(mass, other):
    leans = leans_of(mass, other)
    return plain.kernel().largest_ratio(
        bench_rows.LEAN_MASS * W, bench_rows.LEAN_DAMPING * W, leans
    )


def test_largest_ratio_is_scipys():
    for mass, other in zip(positive(50), positive(50), strict=True):
        expected = eigh(other, mass, eigvals_only=True)[-1]
        assert ratio(mass, other) == pytest.approx(expected, rel=1e-9)


def test_largest_ratio_of_equal_roots_is_found():
    assert ratio(np.eye(3), 7.0 * np.eye(3)) == pytest.approx(7.0, rel=1e-5)
