"""Sine and cosine by polynomial, so that a vector unit can take many at once."""


def half_sine(x: float) -> float:
    """sin(x / 2) for |x| <= 1.6, as its Taylor polynomial of degree 17.

    The first term left out is (x/2)^19 / 19!, below 2e-19 there.
    """
    h = 0.5 * x
    z = h * h
    p = 1.0 / 355687428096000.0
    p = p * z - 1.0 / 1307674368000.0
    p = p * z + 1.0 / 6227020800.0
    p = p * z - 1.0 / 39916800.0
    p = p * z + 1.0 / 362880.0
    p = p * z - 1.0 / 5040.0
    p = p * z + 1.0 / 120.0
    p = p * z - 1.0 / 6.0
    return h + h * z * p


def half_cosine(x: float) -> float:
    """cos(x / 2) for |x| <= 1.6, as its Taylor polynomial of degree 18."""
    z = 0.25 * x * x
    p = -1.0 / 6402373705728000.0
    p = p * z + 1.0 / 20922789888000.0
    p = p * z - 1.0 / 87178291200.0
    p = p * z + 1.0 / 479001600.0
    p = p * z - 1.0 / 3628800.0
    p = p * z + 1.0 / 40320.0
    p = p * z - 1.0 / 720.0
    p = p * z + 1.0 / 24.0
    p = p * z - 0.5
    return 1.0 + z * p


def sine(x: float) -> float:
    """sin(x) = 2 sin(x/2) cos(x/2) for |x| <= 1.6 [rad]."""
    return 2.0 * half_sine(x) * half_cosine(x)


def cosine(x: float) -> float:
    """cos(x) = 1 - 2 sin(x/2)^2 for |x| <= 1.6 [rad]."""
    h = half_sine(x)
    return 1.0 - 2.0 * h * h
