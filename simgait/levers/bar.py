"""The bar on a pivot: its class, its advantage, the effort that holds it, the pivot's force."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from enum import IntEnum

from simgait.errors import RangeError, require
from simgait.levers.limits import LARGEST_FORCE, LARGEST_LENGTH, SMALLEST_LENGTH


class LeverClass(IntEnum):
    """Which of pivot, load and effort stands between the other two."""

    FIRST = 1  # the pivot: a seesaw, a pair of pliers
    SECOND = 2  # the load: a wheelbarrow
    THIRD = 3  # the effort: a forearm lifted by its muscle, or by a cable in front of the elbow


@dataclass(frozen=True, kw_only=True)
class Weight:
    """A force across a bar, and where it acts.

    >>> Weight(force=39.2, arm=0.38).moment
    14.896
    """

    force: float  # [N] + down
    arm: float  # [m] from the pivot, square to the force; + on the side called ahead

    def __post_init__(self) -> None:
        require(-LARGEST_FORCE, self.force, LARGEST_FORCE, "Weight.force [N]")
        require(-LARGEST_LENGTH, self.arm, LARGEST_LENGTH, "Weight.arm [m]")

    @property
    def moment(self) -> float:
        """Force times arm [N m], + turns the side ahead down (OpenStax College Physics 9.2)."""
        return self.force * self.arm


def lever_class(pivot: float, load: float, effort: float) -> LeverClass:
    """Return the class of a lever: which of the three points stands in the middle.

    After OpenStax College Physics 9.5. pivot, load, effort: places along the bar [m].

    Raises:
        RangeError: a place is not finite or beyond 100 m, or two places are the same.

    >>> lever_class(0.0, 0.38, 0.04).name
    'THIRD'
    """
    for name, place in (("pivot", pivot), ("load", load), ("effort", effort)):
        require(-LARGEST_LENGTH, place, LARGEST_LENGTH, f"{name} [m]")
    if len({pivot, load, effort}) < 3:
        raise RangeError("pivot, load and effort must stand at three different places of the bar")
    middle = sorted((pivot, load, effort))[1]
    return LeverClass((pivot, load, effort).index(middle) + 1)


def lever_advantage(effort_arm: float, load_arm: float) -> float:
    """Return newtons of load for each newton of effort: L_e / L_r [1].

    OpenStax College Physics 9.5. effort_arm, load_arm: distances from the pivot, square to the
    forces [m], 0.01 mm to 100 m.

    Raises:
        RangeError: an arm is out of range.

    >>> round(lever_advantage(1.02, 0.075), 1)
    13.6
    """
    require(SMALLEST_LENGTH, effort_arm, LARGEST_LENGTH, "effort_arm [m]")
    require(SMALLEST_LENGTH, load_arm, LARGEST_LENGTH, "load_arm [m]")
    return effort_arm / load_arm


def effort_to_hold(weights: Iterable[Weight], effort_arm: float) -> float:
    """Return the force at an arm that balances weights on a bar [N]: sum of moments / arm.

    OpenStax College Physics 9.2, second condition of equilibrium. weights: [N] and [m];
    effort_arm: from the pivot, in the sense of the weights' arms [m]. Positive is against the
    weights' sense (up), negative is down.

    Raises:
        RangeError: the arm is shorter than 0.01 mm or longer than 100 m.

    >>> arm_and_book = [Weight(force=2.5 * 9.8, arm=0.16), Weight(force=4.0 * 9.8, arm=0.38)]
    >>> round(effort_to_hold(arm_and_book, 0.04), 1)
    470.4
    """
    require(SMALLEST_LENGTH, abs(effort_arm), LARGEST_LENGTH, "effort_arm [m], either way")
    return math.fsum(weight.moment for weight in weights) / effort_arm


def pivot_force(weights: Iterable[Weight], effort: float) -> float:
    """Return the force of the pivot on the bar [N], + up: sum of weights - effort.

    OpenStax College Physics 9.1, first condition of equilibrium. weights: [N], + down;
    effort: on the bar, + up [N], up to 1 MN.

    Raises:
        RangeError: the effort is out of range.

    >>> arm_and_book = [Weight(force=2.5 * 9.8, arm=0.16), Weight(force=4.0 * 9.8, arm=0.38)]
    >>> round(pivot_force(arm_and_book, 470.4), 1)  # the elbow is pressed down
    -406.7
    """
    require(-LARGEST_FORCE, effort, LARGEST_FORCE, "effort [N]")
    return math.fsum(weight.force for weight in weights) - effort
