"""The polynomials of sine and cosine are the functions, to rounding, over the leans of a stance."""

import math

import numpy as np
import pytest

from simgait.engines import plain
from simgait.physics.resting import angle_of, arcsine

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


def test_a_thigh_that_topples_loses_few_digits():
    """Statics looks at leans up to half a turn; nobody stands there, and 1e-12 is not missed."""
    turns = np.linspace(-math.pi, math.pi, 401)
    pairs = np.array([double(x) for x in turns])
    assert np.abs(pairs[:, 0] - np.sin(turns)).max() < 1e-12
    assert np.abs(pairs[:, 1] - np.cos(turns)).max() < 1e-12


def test_angles_are_those_of_a_library():
    """Every direction but the one straight back from below, which is taken as half a turn."""
    for turn in np.linspace(-3.14, 3.14, 629):
        y, x = 0.7 * math.sin(turn), 0.7 * math.cos(turn)
        assert angle_of(y, x) == pytest.approx(math.atan2(y, x), rel=1e-14, abs=1e-15)
    assert angle_of(0.0, -2.0) == math.pi
    assert angle_of(0.0, 0.0) == 0.0
    for share in np.linspace(-1.0, 1.0, 201):
        assert arcsine(share) == pytest.approx(math.asin(share), rel=1e-14, abs=1e-15)
