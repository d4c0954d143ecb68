"""The sections of an arm prosthesis: lengths, masses, and the range through which it bends."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from simgait.errors import refuse, require
from simgait.wearer import GRAVITY

Level = Literal["forearm", "upper_arm", "shoulder"]


def elbow_moment(
    gravity: float, forearm_mass: float, forearm_centre: float, held: float, device_centre: float
) -> float:
    """Return weight beyond the elbow times its distance from the elbow's axis [N m].

    gravity: [m/s^2]; forearm_mass: [kg] at forearm_centre [m]; held: of device and load [kg] at
    device_centre [m].

    >>> elbow_moment(10.0, 0.5, 0.125, 0.25, 0.5)
    1.875
    """
    return gravity * (forearm_mass * forearm_centre + held * device_centre)


def with_length(value: float, forearm: float, change: float) -> float:
    """Return a shell's mass or the place of its centre after a change of its length [unit given].

    In proportion to the length (assumed).  value: before [kg or m]; forearm, change: [m].

    >>> with_length(1.0, 0.25, -0.125)
    0.5
    """
    return value * ((forearm + change) / forearm)


def with_end(place: float, change: float) -> float:
    """Return a place that moves with the end of the forearm, never behind the elbow's axis [m].

    place: from the elbow's axis [m]; change: of the forearm's length [m].

    >>> with_end(0.25, -0.125), with_end(0.1, -0.2)
    (0.125, 0.0)
    """
    return max(place + change, 0.0)


@dataclass(frozen=True, kw_only=True)
class Arm:
    """An arm prosthesis, its levels named after the part through which the arm was lost.

    Lengths along the forearm count from the elbow's axis, those along the upper arm from the
    shoulder's.  What is held is held at the device's centre.

    >>> arm = Arm(level="upper_arm", forearm=0.25, upper_arm=0.30, forearm_mass=0.35,
    ...     forearm_centre=0.12, device_mass=0.2, device_centre=0.32, held_mass=0.0, tip=0.36,
    ...     shoulder_flexion=0.0, flexion_from=0.1, flexion_to=2.3)
    >>> round(arm.weight_moment(), 3)
    1.04
    """

    level: Level
    forearm: float  # [m] elbow's axis to the end of the shell
    upper_arm: float  # [m] shoulder's axis to the elbow's
    forearm_mass: float  # [kg] of shell and wrist, without the device
    forearm_centre: float  # [m] of that mass, from the elbow's axis
    device_mass: float  # [kg] of hook or hand
    device_centre: float  # [m] of that mass, from the elbow's axis
    held_mass: float  # [kg] of what is held
    tip: float  # [m] elbow's axis to the farthest point of the device
    shoulder_flexion: float  # [rad] of the upper arm while the elbow is bent, + forward
    flexion_from: float  # [rad] of the elbow, from straight
    flexion_to: float  # [rad]
    upper_arm_mass: float = 0.0  # [kg] of the prosthesis between shoulder and elbow
    upper_arm_centre: float = 0.0  # [m] of that mass, from the shoulder's axis

    def __post_init__(self) -> None:
        require(0.04, self.forearm, 0.51, "Arm.forearm [m]")
        require(0.10, self.upper_arm, 0.50, "Arm.upper_arm [m]")
        require(0.0, self.forearm_mass, 5.0, "Arm.forearm_mass [kg]")
        require(0.0, self.forearm_centre, self.forearm, "Arm.forearm_centre [m]")
        require(0.0, self.device_mass, 3.0, "Arm.device_mass [kg]")
        require(0.0, self.device_centre, 1.20, "Arm.device_centre [m]")
        require(0.0, self.held_mass, 20.0, "Arm.held_mass [kg]")
        require(self.device_centre, self.tip, 1.30, "Arm.tip [m]")
        require(-math.pi, self.shoulder_flexion, math.pi, "Arm.shoulder_flexion [rad]")
        require(0.0, self.flexion_from, math.pi, "Arm.flexion_from [rad]")
        require(0.0, self.flexion_to, math.pi, "Arm.flexion_to [rad]")
        refuse(self.flexion_to <= self.flexion_from, "Arm: the range folds the wrong way")
        require(0.0, self.upper_arm_mass, 5.0, "Arm.upper_arm_mass [kg]")
        require(0.0, self.upper_arm_centre, self.upper_arm, "Arm.upper_arm_centre [m]")

    def weight_moment(self, gravity: float = GRAVITY) -> float:
        """Weight beyond the elbow times its distance from the elbow's axis [N m].

        The moment of that weight about the elbow is this times the sine of the forearm's lean from
        hanging.  gravity: [m/s^2].
        """
        held = self.device_mass + self.held_mass
        return elbow_moment(
            gravity, self.forearm_mass, self.forearm_centre, held, self.device_centre
        )

    def with_forearm(self, change: float) -> Arm:
        """The arm with its forearm longer by a change [m], or shorter if that is below nothing.

        Mass and centre of the shell keep their proportion to its length; the device keeps its mass
        and moves with the shell's end.

        Raises:
            RangeError: no arm can be so short or so long.
        """
        return replace(
            self,
            forearm=self.forearm + change,
            forearm_mass=with_length(self.forearm_mass, self.forearm, change),
            forearm_centre=with_length(self.forearm_centre, self.forearm, change),
            device_centre=with_end(self.device_centre, change),
            tip=self.tip + change,
        )
