"""The polynomials of sine and cosine are the functions, to rounding, over the leans of a stance."""

import math

import numpy as np
import pytest

from simgait.engines import plain

LEANS = np.linspace(-1.6, 1.6, 6401)
ROUNDING = 2.3e-16  # [1] one unit in the last place of a number near 1


def double(lean: float) -> tuple[float, float]:
    """Sine and cosine of a lean [rad] as the chain makes them from those of its half."""
    half = plain.kernel().half_sine(lean)
    return 2.0 * half * plain.kernel().half_cosine(lean), 1.0 - 2.0 * half * half


def test_halves_to_rounding():
    kernel = plain.kernel()
    sines = [kernel.half_sine(x) - math.sin(0.5 * x) for x in LEANS]
    cosines = [kernel.half_cosine(x) - math.cos(0.5 * x) for x in LEANS]
    assert np.abs(sines).max() <= ROUNDING
    assert np.abs(cosines).max() <= ROUNDING


def test_leans_to_rounding():
    pairs = np.array([double(x) for x in LEANS])
    assert np.abs(pairs[:, 0] - np.sin(LEANS)).max() <= 2 * ROUNDING
    assert np.abs(pairs[:, 1] - np.cos(LEANS)).max() <= 2 * ROUNDING


@pytest.mark.parametrize("lean", [0.0, 1e-300, 1e-9, 0.3, 1.6])
def test_odd_and_even_to_the_last_bit(lean):
    sine, cosine = double(lean)
    assert double(-lean) == (-sine, cosine)


def test_a_missing_term_would_be_seen():
    """The last terms of the polynomials are larger at 1.6 rad than the rounding allowed above."""
    assert 0.8**17 / math.factorial(17) < ROUNDING  # room to spare: this one is not needed
    assert 0.8**15 / math.factorial(15) > ROUNDING * 0.1
    assert 0.8**13 / math.factorial(13) > ROUNDING * 10
