"""Slopes: ramp, wedge and screw, without friction and with it."""

from __future__ import annotations

import math

from simgait.errors import RangeError, require
from simgait.levers.limits import LARGEST_FRICTION, LARGEST_LENGTH, SMALLEST_LENGTH

FLATTEST, STEEPEST = 1.0e-6, math.pi / 2.0 - 1.0e-6  # [rad] of a slope


def ramp_advantage(length: float, height: float) -> float:
    """Return the advantage of a ramp without friction, pushed along it: L / h [1].

    OpenStax College Physics 9.5. length: along the slope [m], at least the height; height: gained
    [m]; 0.01 mm to 100 m.

    Raises:
        RangeError: a length is out of range, or the ramp is shorter than it is high.

    >>> ramp_advantage(3.0, 0.5)
    6.0
    """
    require(SMALLEST_LENGTH, height, LARGEST_LENGTH, "height [m]")
    require(height, length, LARGEST_LENGTH, "length [m]")
    return length / height


def ramp_efficiency(angle: float, friction: float) -> float:
    """Return work on the load over work put in, pushed along a ramp: tan a / (tan a + μ) [1].

    Derived: the push is W sin a + μ W cos a (OpenStax College Physics 5.1), the work on the load
    W sin a, both for each metre of ramp. angle a: above 0, below π/2 [rad]; friction μ: 0 to 2.

    Raises:
        RangeError: a value is out of range.

    >>> round(ramp_efficiency(math.radians(45.0), 0.25), 2)
    0.8
    """
    require(FLATTEST, angle, STEEPEST, "angle [rad]")
    require(0.0, friction, LARGEST_FRICTION, "friction [1]")
    return math.tan(angle) / (math.tan(angle) + friction)


def wedge_advantage(length: float, thickness: float) -> float:
    """Return the advantage of a wedge without friction: L / t [1].

    OpenStax Physics 9.3. length: of its slope [m]; thickness: of its thick end [m]; 0.01 mm to
    100 m.

    Raises:
        RangeError: a length is out of range.

    >>> wedge_advantage(0.12, 0.03)
    4.0
    """
    require(SMALLEST_LENGTH, length, LARGEST_LENGTH, "length [m]")
    require(SMALLEST_LENGTH, thickness, LARGEST_LENGTH, "thickness [m]")
    return length / thickness


def screw_advantage(arm: float, lead: float) -> float:
    """Return the advantage of a screw without friction, turned at an arm: 2π L / P [1].

    OpenStax Physics 9.3. arm L: from the axis to the hand [m]; lead P: rise in one turn [m];
    0.01 mm to 100 m.

    Raises:
        RangeError: a length is out of range.

    >>> round(screw_advantage(0.040, 0.001))
    251
    """
    require(SMALLEST_LENGTH, arm, LARGEST_LENGTH, "arm [m]")
    require(SMALLEST_LENGTH, lead, LARGEST_LENGTH, "lead [m]")
    return 2.0 * math.pi * arm / lead


def screw_efficiency(lead: float, diameter: float, friction: float) -> float:
    """Return work on the load over work put in, of a square thread: tan λ / tan(λ + φ) [1].

    Derived: a thread is a slope of tan λ = P / (π d), pushed level, and tan φ = μ. lead P, mean
    diameter d of the thread [m], 0.01 mm to 100 m; friction μ: 0 to 2.

    Raises:
        RangeError: a value is out of range, or so steep and rough that no turning moves it.

    >>> round(screw_efficiency(0.001, 0.0054, 0.15), 2)
    0.28
    """
    require(SMALLEST_LENGTH, lead, LARGEST_LENGTH, "lead [m]")
    require(SMALLEST_LENGTH, diameter, LARGEST_LENGTH, "diameter [m]")
    require(0.0, friction, LARGEST_FRICTION, "friction [1]")
    slope = lead / (math.pi * diameter)
    if slope * friction >= 1.0:
        raise RangeError("a thread as steep and as rough as this cannot be driven by turning")
    # tan(λ + φ) = (s + μ) / (1 - s μ)
    return slope * (1.0 - slope * friction) / (slope + friction)


def holds_by_itself(slope: float, friction: float) -> bool:
    """Return whether a load rests on a slope, or a screw does not run back: tan a <= μ.

    OpenStax College Physics 5.1: a body begins to slide where tan a = μ. slope tan a: rise over
    run, or lead over π times the diameter [1], 0 to 1e6; friction μ: static, 0 to 2.

    Raises:
        RangeError: a value is out of range.

    >>> holds_by_itself(0.001 / (math.pi * 0.0054), 0.15)
    True
    """
    require(0.0, slope, 1.0e6, "slope [1]")
    require(0.0, friction, LARGEST_FRICTION, "friction [1]")
    return slope <= friction
