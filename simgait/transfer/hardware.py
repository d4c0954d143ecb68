"""The hardware at hand: what a tube, tilts and plates can be, and how far off the foot may be."""

from __future__ import annotations

import math
from dataclasses import dataclass

from simgait.errors import refuse, require

NEAR = 1e-9  # of a step or a limit: rounding, no setting


@dataclass(frozen=True, kw_only=True)
class Tilt:
    """What one tilt can be set to: up to `most` either way, in steps; a step of 0 is any value."""

    most: float  # [rad]
    step: float  # [rad]

    def __post_init__(self) -> None:
        require(0.0, self.most, 0.6, "Tilt.most [rad]")
        require(0.0, self.step, 0.3, "Tilt.step [rad]")

    def allows(self, angle: float) -> bool:
        """Return whether an angle [rad] is within the limits."""
        return abs(angle) <= self.most + NEAR

    def settings(self, low: float, high: float) -> tuple[float, ...]:
        """Return the settings from low to high [rad] that there are in steps."""
        low, high = max(low, -self.most), min(high, self.most)
        first = math.ceil(low / self.step - NEAR)
        last = math.floor(high / self.step + NEAR)
        return tuple(number * self.step for number in range(first, last + 1))


@dataclass(frozen=True, kw_only=True)
class Tube:
    """What lengths a tube can be cut to; a step of 0 is any length."""

    least: float  # [m]
    most: float  # [m]
    step: float  # [m]

    def __post_init__(self) -> None:
        require(0.0, self.least, 0.6, "Tube.least [m]")
        require(0.0, self.most, 0.6, "Tube.most [m]")
        require(0.0, self.step, 0.2, "Tube.step [m]")
        refuse(self.least > self.most, "the shortest tube is longer than the longest")

    def nearest(self, length: float) -> tuple[float, ...]:
        """Return the lengths there are next to a length on either side [m]; none out of reach.

        In steps they are counted from the shortest.
        """
        wanted = min(max(length, self.least), self.most)
        if self.step == 0.0:
            return (wanted,)
        steps = (wanted - self.least) / self.step
        numbers = {math.floor(steps + NEAR), math.ceil(steps - NEAR)}
        lengths = [self.least + number * self.step for number in sorted(numbers)]
        return tuple(each for each in lengths if each <= self.most + NEAR)


@dataclass(frozen=True, kw_only=True)
class Hardware:
    """All that a finished chain may be made of, and the tolerances."""

    socket_adapter: float  # [m] socket's end to the centre of the upper tilt
    foot_adapter: float  # [m] centre of the lower tilt to the ankle axis
    clamps: float  # [m] what the clamps add to the tube between the centres of both tilts
    tube: Tube
    upper: Tilt
    lower: Tilt
    offsets: tuple[float, ...]  # [m] shifts of the plates at hand; 0 is none
    tolerance: float  # [m] of the ankle axis
    turn_tolerance: float  # [rad] of the foot

    def __post_init__(self) -> None:
        require(0.0, self.socket_adapter, 0.3, "Hardware.socket_adapter [m]")
        require(0.0, self.foot_adapter, 0.3, "Hardware.foot_adapter [m]")
        require(0.0, self.clamps, 0.3, "Hardware.clamps [m]")
        require(0.0, self.tolerance, 0.1, "Hardware.tolerance [m]")
        require(0.0, self.turn_tolerance, 0.3, "Hardware.turn_tolerance [rad]")
        refuse(not self.offsets, "no offset is at hand, not even none")
