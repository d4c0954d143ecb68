"""Indices of functions whose indices are known, and a second library's opinion."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.stats import sobol_indices as scipys_indices
from scipy.stats import uniform

from simgait.studies.sensitivity import (
    first_order_indices,
    morris_design,
    morris_screening,
    sobol_design,
    sobol_indices,
)

NAMES = ("one", "two", "three")
A, B = 7.0, 0.1


def ishigami(points: np.ndarray) -> np.ndarray:
    """sin x1 + 7 sin² x2 + 0.1 x3⁴ sin x1 over -pi to pi (Ishigami & Homma 1990)."""
    x = (2.0 * points - 1.0) * math.pi
    return np.sin(x[:, 0]) * (1.0 + B * x[:, 2] ** 4) + A * np.sin(x[:, 1]) ** 2


def ishigami_indices() -> tuple[list[float], list[float]]:
    """First-order and total indices by integration in closed form, derived here."""
    v1 = 0.5 * (1.0 + B * math.pi**4 / 5.0) ** 2
    v2 = A**2 / 8.0
    v13 = B**2 * math.pi**8 * (1.0 / 18.0 - 1.0 / 50.0)
    whole = v1 + v2 + v13
    return [v1 / whole, v2 / whole, 0.0], [(v1 + v13) / whole, v2 / whole, v13 / whole]


def g_function(points: np.ndarray, a: np.ndarray) -> np.ndarray:
    """Product of (|4x - 2| + a) / (1 + a) (Sobol's g)."""
    return np.prod((np.abs(4.0 * points - 2.0) + a) / (1.0 + a), axis=1)


def g_indices(a: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Partial variances V_i = (1/3) / (1 + a_i)²; whole = prod(1 + V_i) - 1; derived."""
    own = 1.0 / (3.0 * (1.0 + a) ** 2)
    whole = np.prod(1.0 + own) - 1.0
    rest = np.prod(1.0 + own) / (1.0 + own)
    return own / whole, own * rest / whole


def test_ishigami() -> None:
    first, total = ishigami_indices()
    found = sobol_indices(NAMES, ishigami(sobol_design(NAMES, 4096, 1)), 1)
    assert [each.first for each in found] == pytest.approx(first, abs=0.02)
    assert [each.total for each in found] == pytest.approx(total, abs=0.02)


def test_the_intervals_hold_the_truth_about_as_often_as_they_say() -> None:
    first, total = ishigami_indices()
    inside = []
    for seed in range(40):
        found = sobol_indices(NAMES, ishigami(sobol_design(NAMES, 256, seed)), seed)
        for each, own, whole in zip(found, first, total, strict=True):
            inside += [each.first_low <= own <= each.first_high]
            inside += [each.total_low <= whole <= each.total_high]
    # scrambled Sobol points err less than the bootstrap of independent ones says
    assert np.mean(inside) >= 0.90


def test_sobols_g() -> None:
    a = np.array([0.0, 1.0, 9.0])
    first, total = g_indices(a)
    found = sobol_indices(NAMES, g_function(sobol_design(NAMES, 4096, 2), a), 2)
    assert [each.first for each in found] == pytest.approx(list(first), abs=0.02)
    assert [each.total for each in found] == pytest.approx(list(total), abs=0.02)


def test_scipy_says_the_same() -> None:
    theirs = scipys_indices(
        func=lambda x: ishigami(x.T)[None, :],
        n=4096,
        dists=[uniform(0.0, 1.0)] * 3,
        rng=np.random.default_rng(1),
    )
    ours = sobol_indices(NAMES, ishigami(sobol_design(NAMES, 4096, 1)), 1)
    assert [each.first for each in ours] == pytest.approx(theirs.first_order.ravel(), abs=0.02)
    assert [each.total for each in ours] == pytest.approx(theirs.total_order.ravel(), abs=0.02)


def test_first_order_from_any_sample() -> None:
    points = np.random.default_rng(3).random((4096, 3))
    first, _ = ishigami_indices()
    found = first_order_indices(NAMES, points, ishigami(points), 3)
    assert [each.first for each in found] == pytest.approx(first, abs=0.05)
    assert all(math.isnan(each.total) for each in found)


def test_screening_of_a_sum_gives_its_slopes() -> None:
    points = morris_design(NAMES, 20, 1)
    found = morris_screening(NAMES, points, points @ np.array([1.0, -3.0, 0.0]), 1)
    assert [each.mean for each in found] == pytest.approx([1.0, -3.0, 0.0], abs=1e-9)
    assert [each.mean_size for each in found] == pytest.approx([1.0, 3.0, 0.0], abs=1e-9)
    assert max(each.spread for each in found) < 1e-9


def test_a_block_with_a_failed_run_is_left_out_as_a_whole() -> None:
    outputs = ishigami(sobol_design(NAMES, 64, 1))
    broken = outputs.copy()
    broken[7] = np.nan  # in the second block of five
    assert sobol_indices(NAMES, broken, 1) == sobol_indices(
        NAMES, np.delete(outputs, range(5, 10)), 1
    )


def test_too_little_is_not_said() -> None:
    outputs = ishigami(sobol_design(NAMES, 16, 1))
    outputs[0] = np.nan
    with pytest.raises(ValueError, match="only 15 of 16"):
        sobol_indices(NAMES, outputs, 1)
    with pytest.raises(ValueError, match="never changes"):
        sobol_indices(NAMES, np.ones(5 * 16), 1)
