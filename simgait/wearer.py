"""The wearer as a controller: a few named physical parameters, calibrated, scaled to a person.

The wearer keeps the strategy: whatever the alignment, the same reference curves, stiffnesses and
support by the other limb apply.  Real wearers adapt.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from simgait.arrays import Array, each, root
from simgait.errors import require
from simgait.physics.layout import NODES

GRAVITY = 9.81  # [m/s2]
REFERENCE_SPAN = 1.10  # the reference curves run to this share of the nominal stance time
STEP_EXPONENT = 0.42  # step length grows as speed^0.42 (Grieve & Gear 1966; from memory)


@dataclass(frozen=True, kw_only=True)
class Wearer:
    """A calibrated wearer, in SI and radians, for the body and speed that it was calibrated on.

    Curves are given at `NODES` evenly spaced instants from 0 to 1.10 of the stance time.
    Forces of the other limb are in body weights: see `simgait.physics.wearer.other_support`.
    """

    name: str
    mass: float  # [kg] of the body it was calibrated on
    leg_length: float  # [m] of that body: hip height, standing
    speed: float  # [m/s] walking speed
    stance_time: float  # [s] nominal
    leaves: float  # [1] share of stance at which the other limb has left the floor
    arrives: float  # [1] share of stance at which the other limb touches down
    thigh: tuple[float, ...]  # [rad] reference of thigh lean (hip ahead of knee is +)
    knee: tuple[float, ...]  # [rad] reference of knee flexion
    hip_stiffness: float  # [N m/rad]
    hip_damping: float  # [N m s/rad]
    knee_stiffness: float  # [N m/rad]
    knee_damping: float  # [N m s/rad]
    trunk_damping: float  # [N s/m]
    trunk_speed: float  # [m/s]
    start_thigh: float  # [rad] at touch-down
    start_flexion: float  # [rad]
    start_thigh_rate: float  # [rad/s]
    start_flexion_rate: float  # [rad/s]
    start_forward_speed: float  # [m/s] of the hip
    start_upward_speed: float  # [m/s]
    leaving_up: tuple[float, ...]  # 4 coefficients [body weights]
    leaving_forward: tuple[float, ...]
    arriving_up: tuple[float, ...]
    arriving_forward: tuple[float, ...]
    arriving_stiffness: float  # [N/m] of the arriving limb as a strut
    arriving_damping: float  # [N s/m]
    arriving_height: float  # [m] hip height at which the strut carries nothing

    def __post_init__(self) -> None:
        require(20.0, self.mass, 250.0, "Wearer.mass [kg]")
        require(0.4, self.leg_length, 1.4, "Wearer.leg_length [m]")
        require(0.2, self.speed, 2.5, "Wearer.speed [m/s]")
        require(0.2, self.stance_time, 2.5, "Wearer.stance_time [s]")
        require(0.02, self.leaves, 0.5, "Wearer.leaves [1]")
        require(0.5, self.arrives, 0.98, "Wearer.arrives [1]")
        for name, curve, count in (
            ("thigh", self.thigh, NODES),
            ("knee", self.knee, NODES),
            ("leaving_up", self.leaving_up, 4),
            ("leaving_forward", self.leaving_forward, 4),
            ("arriving_up", self.arriving_up, 4),
            ("arriving_forward", self.arriving_forward, 4),
        ):
            require(count, len(curve), count, f"entries of Wearer.{name}")
            for value in curve:
                require(-50.0, value, 50.0, f"Wearer.{name}")
        for name in ("hip_stiffness", "knee_stiffness"):
            require(0.0, getattr(self, name), 5000.0, f"Wearer.{name} [N m/rad]")
        for name in ("hip_damping", "knee_damping"):
            require(0.0, getattr(self, name), 500.0, f"Wearer.{name} [N m s/rad]")
        require(0.0, self.trunk_damping, 5000.0, "Wearer.trunk_damping [N s/m]")


def dimensionless_speed(speed: float, leg_length: float) -> float:
    """Return v / sqrt(g l) [1] (Hof 1996, Gait & Posture 4:222; from memory). [m/s], [m].

    >>> round(dimensionless_speed(1.3, 0.91), 3)
    0.435
    """
    return speed / root(GRAVITY * leg_length)


def _step_growth(quick: float) -> float:
    """Return how much longer steps are at a speed `quick` times as high [1]."""
    return math.pow(quick, STEP_EXPONENT)


def scaled(wearer: Wearer, *, mass: float, leg_length: float, speed: float | None = None) -> Wearer:
    """Return the wearer carried over to another body and, if given, another speed.

    Body: dimensionless quantities are kept (Hof 1996, from memory): times and speeds grow as
    the square root of leg length, moments and rotational stiffness as mass x leg length, forces as
    mass.  Speed: at a dimensionless speed r times the calibrated one, steps lengthen as r^0.42
    (Grieve & Gear 1966, from memory), so times shrink as r^-0.58, and the swing of the thigh
    about its mean, which makes the step, grows as r^0.42.  Knee flexion is kept.

    mass [kg], leg_length [m], speed [m/s].

    Raises:
        RangeError: the result is no possible wearer.
    """
    size = leg_length / wearer.leg_length
    own = dimensionless_speed(wearer.speed, wearer.leg_length)
    wanted = own if speed is None else dimensionless_speed(speed, leg_length)
    quick = wanted / own
    steps = each(_step_growth, quick)
    time = root(size) * steps / quick
    pace = root(size) * quick
    moment = mass / wearer.mass * size
    middle = sum(wearer.thigh) / len(wearer.thigh)
    return replace(
        wearer,
        mass=mass,
        leg_length=leg_length,
        speed=wearer.speed * pace,
        stance_time=wearer.stance_time * time,
        thigh=tuple(middle + steps * (lean - middle) for lean in wearer.thigh),
        hip_stiffness=wearer.hip_stiffness * moment,
        hip_damping=wearer.hip_damping * moment * time,
        knee_stiffness=wearer.knee_stiffness * moment,
        knee_damping=wearer.knee_damping * moment * time,
        trunk_damping=wearer.trunk_damping * mass / wearer.mass / time,
        trunk_speed=wearer.trunk_speed * pace,
        arriving_stiffness=wearer.arriving_stiffness * mass / wearer.mass / size,
        arriving_damping=wearer.arriving_damping * mass / wearer.mass / size * root(size),
        arriving_height=wearer.arriving_height * size,
        start_thigh=middle + steps * (wearer.start_thigh - middle),
        start_thigh_rate=wearer.start_thigh_rate * steps / time,
        start_flexion_rate=wearer.start_flexion_rate / time,
        start_forward_speed=wearer.start_forward_speed * pace,
        start_upward_speed=wearer.start_upward_speed * pace,
    )


def spline_coefficients(values: Sequence[float]) -> Array:
    """Return the uniform cubic B-spline coefficients [COEFFICIENTS] of the natural spline through
    evenly spaced values (its second derivative is zero at both ends).

    Derived: its value at a knot is (c[k-1] + 4 c[k] + c[k+1]) / 6 and its second derivative
    c[k-1] - 2 c[k] + c[k+1], so that the ends are the values themselves and the others follow
    from a tridiagonal system, solved by elimination.

    values: at least 3 numbers, or many [any unit].

    >>> spline_coefficients([0.0, 1.0, 2.0, 3.0]).round(12).tolist()
    [-1.0, 0.0, 1.0, 2.0, 3.0, 4.0]
    """
    knots = list(values)
    last = len(knots) - 1
    pivot, rest = [0.0] * last, [0.0] * last
    pivot[1], rest[1] = 4.0, 6.0 * knots[1] - knots[0]
    for k in range(2, last):
        pivot[k] = 4.0 - 1.0 / pivot[k - 1]
        rest[k] = 6.0 * knots[k] - rest[k - 1] / pivot[k - 1]
    following = knots[last]
    for k in range(last - 1, 0, -1):
        knots[k] = following = (rest[k] - following) / pivot[k]
    return np.array([2 * knots[0] - knots[1], *knots, 2 * knots[-1] - knots[-2]])
