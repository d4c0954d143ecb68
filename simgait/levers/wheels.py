"""Things that turn: wheel and axle, a pair of gears, a train of gears."""

from __future__ import annotations

import math
from collections.abc import Sequence

from simgait.errors import RangeError, require
from simgait.levers.limits import LARGEST_LENGTH, SMALLEST_LENGTH

MOST_TEETH = 100_000


def wheel_advantage(wheel_radius: float, axle_radius: float) -> float:
    """Return the advantage of a wheel turned at its rim, the load on its axle: R / r [1].

    OpenStax Physics 9.3. wheel_radius R, axle_radius r: [m], 0.01 mm to 100 m. Below 1 where the
    wheel is the smaller one.

    Raises:
        RangeError: a radius is out of range.

    >>> wheel_advantage(0.25, 0.05)
    5.0
    """
    require(SMALLEST_LENGTH, wheel_radius, LARGEST_LENGTH, "wheel_radius [m]")
    require(SMALLEST_LENGTH, axle_radius, LARGEST_LENGTH, "axle_radius [m]")
    return wheel_radius / axle_radius


def gear_ratio(driving_teeth: int, driven_teeth: int) -> float:
    """Return turns of the driving gear for each turn of the driven one: N_driven / N_driving [1].

    It is the ratio of the moments too, without losses. Derived: meshing teeth pass one by one and
    push each other with equal forces. Teeth: 1 to 100,000 (a worm has as many as it has threads).

    Raises:
        RangeError: not a whole number, or out of range.

    >>> gear_ratio(12, 36)
    3.0
    """
    for name, teeth in (("driving_teeth", driving_teeth), ("driven_teeth", driven_teeth)):
        require(1, teeth, MOST_TEETH, f"{name} [1]")
        if teeth != int(teeth):
            raise RangeError(f"{name} [1] is {teeth}; allowed: a whole number")
    return driven_teeth / driving_teeth


def train_ratio(pairs: Sequence[tuple[int, int]]) -> float:
    """Return the ratio of a train of gears: the product of the ratios of its pairs [1].

    OpenStax College Physics 9.5: advantages of a compound machine multiply. pairs: teeth of the
    driving and of the driven gear, from the effort to the load; at least one pair.

    Raises:
        RangeError: no pair, or a number of teeth out of range.

    >>> train_ratio([(12, 36), (10, 40)])
    12.0
    """
    if not pairs:
        raise RangeError("a train of gears has at least one pair")
    return math.prod(gear_ratio(driving, driven) for driving, driven in pairs)
