"""The small linear algebra of the columns against numpy's and scipy's general one."""

import numpy as np
import pytest
from scipy.interpolate import CubicSpline
from scipy.linalg import eigh

from simgait.arrays import many
from simgait.limb.inertia import solved
from simgait.physics.layout import NODES
from simgait.stance.steps import largest_ratio
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


def test_solution_is_numpys():
    matrix = positive(50)
    right = (0.3, 1.0, -1.0)
    found = np.stack(solved(matrix, right), axis=1)
    assert found == pytest.approx(np.linalg.solve(matrix, np.array(right)), rel=1e-9, abs=1e-9)


def test_largest_ratio_is_scipys():
    mass, other = positive(50), positive(50)
    expected = [eigh(b, a, eigvals_only=True)[-1] for a, b in zip(mass, other, strict=True)]
    assert largest_ratio(mass, other) == pytest.approx(expected, rel=1e-9)


def test_largest_ratio_of_equal_roots_is_found():
    assert largest_ratio(np.eye(3), 7.0 * np.eye(3)) == pytest.approx(7.0, rel=1e-5)
