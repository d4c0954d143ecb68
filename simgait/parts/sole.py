"""The sole as a strip of springs: solved so that a simulated bench test gives the foot's figures.

The bench test: the foot is pressed straight down on a plate, tilted 15 degrees toe up (heel
contact) or 20 degrees toe down (toe contact), the deflection going once from nothing to that under
the bench load and back in one second (1 - cos).  Stiffness is the secant: bench load over
deflection.  Loss is the share of the work of loading that does not come back.

How the stiffness is spread along the sole is a modelling choice (no published figure): the heel's
share fades out under the ankle, and the forefoot's falls towards the toe as (1 + x / toe lever)^-2,
as a keel that is held at the ankle is softer the further out it is loaded.
"""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass
from typing import Any, cast

import numpy as np

from simgait.arrays import Array
from simgait.errors import require
from simgait.parts.foot import (
    FOREFOOT_BENCH_ANGLE_DEGREES,
    HEEL_BENCH_ANGLE_DEGREES,
    Foot,
)
from simgait.physics.layout import ELEMENTS
from simgait.physics.sole import normal_force

BENCH_LOAD = 800.0  # [N] at which the secant stiffness is taken
BENCH_PERIOD = 1.0  # [s] of one loading and unloading
QUICKNESS = 30.0  # [s/m] the loss is fully developed at 0.1 m/s: assumed, no published figure
ONSET = 0.002  # [m] an element's stiffness comes up over this depth: assumed
HEEL_ROUNDING = 1.0  # [1] share of the heel lever over which the heel end is rounded: assumed
FOREFOOT_BREAK = 0.20  # [1] share of the toe lever at which the sole begins to rise: assumed
HEEL_UNTIL = 0.3  # [1] share of the heel lever behind the ankle that is all heel: assumed
FOREFOOT_FROM = 0.6  # [1] share of the toe lever ahead of which all is forefoot: assumed
CYCLE_POINTS = 201


@dataclass(frozen=True, kw_only=True, eq=False)
class Sole:
    """The elements of a sole, heel end first, in the foot's frame (ankle axis, x along it)."""

    forward: Array  # [ELEMENTS] [m]
    up: Array  # [ELEMENTS] [m] (negative: below the ankle axis)
    stiffness: Array  # [ELEMENTS] [N/m] of each element when pressed deep
    loss: Array  # [ELEMENTS] [1] share by which force differs between loading and unloading


@dataclass(frozen=True, kw_only=True, eq=False)
class BenchTest:
    """One simulated loading and unloading on the bench."""

    deflection: Array  # [n] [m]
    force: Array  # [n] [N]
    stiffness: float  # [N/m] secant at the bench load
    loss: float  # [1] share of the energy of the cycle


def sole_profile(foot: Foot) -> tuple[Array, Array]:
    """Return the unloaded sole's points, along the sole and above its flat part [m].

    Flat in the middle; behind the ankle it rises with the square of the distance to `heel_round` at
    the heel end, and from 0.2 of the toe lever on to `toe_spring` at the toe end.  The rise stands
    for the rounding of shoe and foot together.
    """
    width = foot.carrying_length / ELEMENTS
    x: Array = -foot.heel_lever + width * (np.arange(ELEMENTS, dtype=np.float64) + 0.5)
    length = HEEL_ROUNDING * foot.heel_lever
    heel = np.clip((length - foot.heel_lever - x) / length, 0.0, None) ** 2 * foot.heel_round
    bend = FOREFOOT_BREAK * foot.toe_lever
    toe = np.clip((x - bend) / (foot.toe_lever - bend), 0.0, None) ** 2 * foot.toe_spring
    return x, np.asarray(heel + toe)


def heel_share(foot: Foot, x: Array) -> Array:
    """Return how much of each element is heel: 1 behind, 0 ahead, a smooth step between [1].

    x: places along the sole from the ankle axis [m].
    """
    low, high = -HEEL_UNTIL * foot.heel_lever, FOREFOOT_FROM * foot.toe_lever
    u = np.clip((x - low) / (high - low), 0.0, 1.0)
    return np.asarray(1.0 - u * u * (3.0 - 2.0 * u))


def tilted_heights(x: Array, rise: Array, angle: float) -> Array:
    """Return the points' heights above the lowest one, with the foot tilted toe up [m].

    x, rise: as `sole_profile` gives them [m]; angle: [rad].

    >>> tilted_heights(np.array([-0.1, 0.1]), np.zeros(2), math.radians(30.0)).round(9).tolist()
    [0.0, 0.1]
    """
    height = x * math.sin(angle) + rise * math.cos(angle)
    return np.asarray(height - height.min())


def sole_force(
    heights: Array, stiffness: Array, loss: Array, deflection: float, speed: float
) -> float:
    """Return the force of a sole pressed straight down, the sum over its elements [N].

    heights: of the elements above the lowest [m]; stiffness: [N/m]; loss: [1]; deflection: of the
    lowest element [m]; speed: at which it is pressed [m/s].
    """
    depth = np.maximum(deflection - heights, 0.0)
    y = min(max(speed * QUICKNESS, -3.0), 3.0)
    law = cast(Any, normal_force)  # the same arithmetic for one element and for all at once
    return float(np.sum(law(stiffness, loss, depth, ONSET, y)))


def bench_test(heights: Array, stiffness: Array, loss: Array, load: float) -> BenchTest:
    """Return one simulated bench cycle to the deflection that carries the load at rest.

    heights: of the elements above the lowest [m]; stiffness: [N/m]; loss: [1]; load: [N].
    """
    from scipy.optimize import brentq  # here, so that standing need not load it

    def excess(deflection: float) -> float:
        return sole_force(heights, stiffness, loss, deflection, 0.0) - load

    deepest = float(brentq(excess, 0.0, 1.0, xtol=1e-12))
    phase = np.linspace(0.0, 2.0 * math.pi, CYCLE_POINTS)
    deflection = deepest * (1.0 - np.cos(phase)) / 2.0
    speed = deepest * np.sin(phase) * math.pi / BENCH_PERIOD
    force = np.array(
        [sole_force(heights, stiffness, loss, d, v) for d, v in zip(deflection, speed, strict=True)]
    )
    half = CYCLE_POINTS // 2 + 1
    taken = float(np.trapezoid(force[:half], deflection[:half]))
    given = -float(np.trapezoid(force[half - 1 :], deflection[half - 1 :]))
    return BenchTest(
        deflection=deflection,
        force=force,
        stiffness=load / deepest,
        loss=(taken - given) / taken,
    )


def heel_test(foot: Foot, sole: Sole) -> BenchTest:
    """Return the simulated heel test of a sole: 15 degrees toe up."""
    return _tilted_test(foot, sole, math.radians(HEEL_BENCH_ANGLE_DEGREES))


def forefoot_test(foot: Foot, sole: Sole) -> BenchTest:
    """Return the simulated forefoot test of a sole: 20 degrees toe down."""
    return _tilted_test(foot, sole, -math.radians(FOREFOOT_BENCH_ANGLE_DEGREES))


def _tilted_test(foot: Foot, sole: Sole, angle: float) -> BenchTest:
    x, rise = sole_profile(foot)
    return bench_test(tilted_heights(x, rise, angle), sole.stiffness, sole.loss, BENCH_LOAD)


@functools.lru_cache(maxsize=256)
def solved_sole(foot: Foot) -> Sole:
    """Return the elements whose simulated bench tests give the foot's stated figures.

    The force is linear in the element stiffnesses and in the losses, so that two 2 x 2 systems
    (heel and forefoot test, heel and forefoot scale) give both exactly.

    Raises:
        RangeError: no strip of springs has these figures (a stiffness or loss out of bounds).
    """
    x, rise = sole_profile(foot)
    heel = heel_share(foot, x)
    toe = (1.0 - heel) / (1.0 + np.clip(x, 0.0, None) / foot.toe_lever) ** 2
    tests = (
        (math.radians(HEEL_BENCH_ANGLE_DEGREES), foot.heel_stiffness, foot.heel_loss),
        (-math.radians(FOREFOOT_BENCH_ANGLE_DEGREES), foot.forefoot_stiffness, foot.forefoot_loss),
    )
    nothing = np.zeros(ELEMENTS)
    depths = [tilted_heights(x, rise, angle) for angle, _, _ in tests]
    loads = np.array(
        [
            [sole_force(height, share, nothing, BENCH_LOAD / stiff, 0.0) for share in (heel, toe)]
            for height, (_, stiff, _) in zip(depths, tests, strict=True)
        ]
    )
    scales = np.linalg.solve(loads, np.full(2, BENCH_LOAD))
    stiffness = scales[0] * heel + scales[1] * toe
    require(1.0, float(scales.min()), 1e9, f"stiffness of the sole of {foot.name} [N/m]")
    work = np.array(
        [
            [_loading_work(height, stiffness, share, BENCH_LOAD / stiff) for share in parts]
            for height, (_, stiff, _) in zip(depths, tests, strict=True)
            for parts in ((nothing, heel, 1.0 - heel),)
        ]
    )
    elastic, extra = work[:, 0], work[:, 1:] - work[:, :1]
    wanted = np.array([share / (2.0 - share) for _, _, share in tests]) * elastic
    shares = np.linalg.solve(extra, wanted)
    loss = shares[0] * heel + shares[1] * (1.0 - heel)
    require(0.0, float(shares.min()) + 1e-12, 1.0, f"loss of the sole of {foot.name} [1]")
    require(0.0, float(shares.max()), 0.95, f"loss of the sole of {foot.name} [1]")
    return Sole(forward=x, up=rise - foot.sole_height, stiffness=stiffness, loss=loss)


def _loading_work(heights: Array, stiffness: Array, loss: Array, deepest: float) -> float:
    """Return the work of pressing a sole down on the bench [J], by Gauss and Legendre's rule."""
    nodes, weights = np.polynomial.legendre.leggauss(60)
    phase = (nodes + 1.0) * math.pi / 2.0
    total = 0.0
    for angle, weight in zip(phase, weights, strict=True):
        deflection = deepest * (1.0 - math.cos(angle)) / 2.0
        speed = deepest * math.sin(angle) * math.pi / BENCH_PERIOD
        force = sole_force(heights, stiffness, loss, deflection, speed)
        total += weight * force * deepest * math.sin(angle) / 2.0 * math.pi / 2.0
    return total
