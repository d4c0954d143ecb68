"""What a moving arm is made of: rigid links hung one below the other, a cable, stops at a joint.

Leans are from hanging, + forward; x forward, y up.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from simgait.arrays import Array
from simgait.errors import RangeError, require

Point = tuple[float, float]


@dataclass(frozen=True, kw_only=True)
class Link:
    """A rigid piece of an arm, its centre of mass and the next joint given from its upper joint.

    >>> Link(mass=1.0, inertia=0.01, centre=(0.5, 0.0), length=0.6).inertia_about_joint
    0.26
    """

    mass: float  # [kg]
    inertia: float  # [kg m2] about the centre of mass
    centre: Point  # [m] along the link, and in front of it
    length: float  # [m] to the next joint, along the link

    def __post_init__(self) -> None:
        require(1e-3, self.mass, 100.0, "Link.mass [kg]")
        require(1e-6, self.inertia, 20.0, "Link.inertia [kg m2]")
        for name, value in zip(("along", "in front"), self.centre, strict=True):
            require(-1.5, value, 1.5, f"Link.centre, {name} [m]")
        require(0.0, self.length, 1.5, "Link.length [m]")

    @property
    def inertia_about_joint(self) -> float:
        """About the upper joint, by the theorem of parallel axes [kg m2]."""
        return self.inertia + self.mass * (self.centre[0] ** 2 + self.centre[1] ** 2)


@dataclass(frozen=True, kw_only=True)
class Stop:
    """Where a joint ends, both ways: a spring that takes energy, without a jump when it is met.

    >>> stop = Stop(low=0.1, high=2.0, stiffness=100.0, loss=0.5)
    >>> round(stop.moment(2.1, 0.0), 6), round(stop.moment(2.1, 1.0), 6), stop.moment(1.0, 3.0)
    (-10.0, -15.0, 0.0)
    """

    low: float  # [rad]
    high: float  # [rad]
    stiffness: float  # [N m/rad]
    loss: float  # [s/rad] share by which the moment grows for each rad/s into the stop

    def __post_init__(self) -> None:
        require(-math.pi, self.low, math.pi, "Stop.low [rad]")
        require(self.low, self.high, 2.0 * math.pi, "Stop.high [rad]")
        require(1.0, self.stiffness, 1e5, "Stop.stiffness [N m/rad]")
        require(0.0, self.loss, 100.0, "Stop.loss [s/rad]")

    def moment(self, angle: float, rate: float) -> float:
        """Return the moment on the lower link [N m]: k d (1 + c d'), never pulling.

        d is how far the joint is beyond the stop, d' how fast it goes on: the law of Hunt and
        Crossley (1975, memory) with a power of one. angle: [rad]; rate: [rad/s].
        """
        if angle > self.high:
            return -self.stiffness * (angle - self.high) * max(1.0 + self.loss * rate, 0.0)
        if angle < self.low:
            return self.stiffness * (self.low - angle) * max(1.0 - self.loss * rate, 0.0)
        return 0.0


@dataclass(frozen=True, kw_only=True)
class LiftSetting:
    """A forearm on a fixed upper arm, lifted by a pull on a cable through guide and loop."""

    forearm: Link
    shoulder_flexion: float  # [rad] of the upper arm from hanging, + forward
    guide: Point  # [m] up the upper arm from the elbow's axis, and in front
    loop: Point  # [m] down the forearm from the elbow's axis, and in front
    through: float  # [1] pull out of the housing over pull into it
    pulley: float  # [1] cable drawn at the harness over cable drawn at the arm
    stop: Stop
    start: float  # [rad] flexion
    gravity: float  # [m/s2]
    pull: Callable[[float], float]  # [N] at the harness, of the time [s]
    assist: Callable[[float], float]  # [N m] about the elbow, of the flexion [rad]

    def __post_init__(self) -> None:
        require(0.01, self.through, 1.0, "LiftSetting.through [1]")
        require(1.0, self.pulley, 10.0, "LiftSetting.pulley [1]")
        require(self.stop.low, self.start, self.stop.high, "LiftSetting.start [rad]")
        require(0.0, self.gravity, 30.0, "LiftSetting.gravity [m/s2]")


@dataclass(frozen=True, kw_only=True, eq=False)
class LiftTrack:
    """A lift that has been played, at the recorded instants.

    Works are done on the forearm, from the beginning on; that of the harness is put into the cable.
    """

    time: Array  # [n] [s]
    flexion: Array  # [n] [rad]
    rate: Array  # [n] [rad/s]
    pull: Array  # [n] [N] at the harness
    tension: Array  # [n] [N] at the loop
    harness_work: Array  # [n] [J]
    cable_work: Array  # [n] [J]
    assist_work: Array  # [n] [J]
    stop_work: Array  # [n] [J]
    height: Array  # [n] [m] of the forearm's centre of mass, from the elbow's axis
    kinetic: Array  # [n] [J]
    joint_gap: Array  # [n] [m] by which the engine's elbow has come apart


@dataclass(frozen=True, kw_only=True, eq=False)
class SwingTrack:
    """A free swing that has been played."""

    time: Array  # [n] [s]
    lean: Array  # [n, links] [rad]
    rate: Array  # [n, links] [rad/s]
    energy: Array  # [n] [J] kinetic and of height, from the first instant on


def require_chain(links: int, leans: int, rates: int) -> None:
    """Refuse a chain without links, or with another number of leans or rates.

    Raises:
        RangeError: the numbers do not go together.

    >>> require_chain(2, 2, 2)
    """
    if not links or not links == leans == rates:
        raise RangeError(f"{links} links, {leans} leans and {rates} rates do not make an arm")
