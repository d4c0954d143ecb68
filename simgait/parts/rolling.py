"""Rolling a foot over the floor under a steady load: its roll-over shape."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, cast

import numpy as np
from scipy.optimize import brentq

from simgait.arrays import Array
from simgait.parts.foot import Foot
from simgait.parts.sole import BENCH_LOAD, ONSET, Sole
from simgait.physics.sole import normal_force

FROM_DEGREES = -15.0  # shank behind the vertical: heel contact
TO_DEGREES = 20.0  # shank ahead of it: toe contact
POSITIONS = 71


@dataclass(frozen=True, kw_only=True, eq=False)
class RollOver:
    """A roll-over shape in the foot's frame (ankle axis, x along the sole) and its circle."""

    forward: Array  # [n] m
    up: Array  # [n] m
    radius: float  # [m]
    centre: float  # [m] ahead of the ankle axis


def fitted_circle(x: Array, y: Array) -> tuple[float, float, float]:
    """Return centre x, centre y and radius of the circle nearest to points [their unit].

    Least squares of x^2 + y^2 - 2 a x - 2 b y - c (Kasa 1976).

    >>> angle = np.linspace(3.5, 4.5, 20)
    >>> [round(float(v), 9) for v in fitted_circle(1 + 2 * np.cos(angle), 3 + 2 * np.sin(angle))]
    [1.0, 3.0, 2.0]
    """
    matrix = np.stack((2.0 * x, 2.0 * y, np.ones_like(x)), axis=1)
    a, b, c = np.linalg.lstsq(matrix, x**2 + y**2, rcond=None)[0]
    return float(a), float(b), math.sqrt(c + a**2 + b**2)


def roll_over(foot: Foot, sole: Sole, load: float = BENCH_LOAD) -> RollOver:
    """Return the roll-over shape under a steady load, the shank turned from -15 to 20 degrees.

    The pressure point in the foot's frame at each position (Hansen's definition of the roll-over
    shape, hansen-2004), at rest.

    sole: of that foot; load: [N].
    """
    points = []
    law = cast(Any, normal_force)  # the same arithmetic for one element and for all at once
    nothing = np.zeros_like(sole.stiffness)
    for angle in np.radians(np.linspace(FROM_DEGREES, TO_DEGREES, POSITIONS)):
        c, s = math.cos(angle), math.sin(angle)
        height = sole.up * c - sole.forward * s
        ahead = sole.forward * c + sole.up * s

        def forces(ankle: float, height: Array = height) -> Array:
            depth = np.maximum(-(ankle + height), 0.0)
            return np.asarray(law(sole.stiffness, nothing, depth, ONSET, 0.0))

        top = -float(height.min())
        ankle = float(brentq(lambda y: float(np.sum(forces(y))) - load, top - 0.2, top))
        force = forces(ankle)
        place = float(np.sum(force * ahead) / np.sum(force))
        points.append((place * c + ankle * s, place * s - ankle * c))
    x, y = np.array(points).T
    centre, _, radius = fitted_circle(x, y)
    return RollOver(forward=x, up=y, radius=radius, centre=centre)
