"""Where the points of an arm are, for whoever draws it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from simgait.arm.geometry import forearm_place, guide_place, lever_arm, square_foot
from simgait.arrays import Array
from simgait.parts.arm import Arm
from simgait.parts.cable import Cable


@dataclass(frozen=True, kw_only=True, eq=False)
class ArmPose:
    """Points of an arm, forward and up from the shoulder's axis, one row an instant."""

    elbow: Array  # [n, 2] m
    guide: Array  # [n, 2] m
    loop: Array  # [n, 2] m
    shell_end: Array  # [n, 2] m, end of the forearm's shell
    centre: Array  # [n, 2] m, centre of mass of forearm, device and what is held
    tip: Array  # [n, 2] m
    lever_foot: Array  # [n, 2] m, where the square from the elbow's axis meets the cable's line
    lever: Array  # [n] m, + bends the elbow


def common_centre(mass: float, along: float, held: float, held_along: float) -> float:
    """Return how far from the elbow's axis the centre of shell and device is [m]; 0 of nothing.

    mass, held: of the shell, and of device and load [kg]; along, held_along: of their centres [m].

    >>> common_centre(1.0, 0.1, 1.0, 0.3)
    0.2
    """
    both = mass + held
    return (mass * along + held * held_along) / both if both > 0.0 else 0.0


def beyond_elbow(arm: Arm) -> tuple[float, float]:
    """Return mass [kg] of what hangs on the elbow, and its centre's distance from the axis [m]."""
    held = arm.device_mass + arm.held_mass
    centre = common_centre(arm.forearm_mass, arm.forearm_centre, held, arm.device_centre)
    return arm.forearm_mass + held, centre


def arm_pose(
    arm: Arm,
    cable: Cable,
    flexion: Array | float,
    *,
    guide: float,
    loop: float,
    shoulder_flexion: Array | float | None = None,
) -> ArmPose:
    """Return where everything is at some flexions of the elbow [rad].

    guide, loop: along upper arm and forearm from the elbow's axis [m]; shoulder_flexion: of the
    upper arm from hanging [rad], the arm's own if it is not given.
    """
    turned = np.atleast_1d(np.asarray(flexion, dtype=np.float64))
    own = arm.shoulder_flexion if shoulder_flexion is None else shoulder_flexion
    raised = np.broadcast_to(np.asarray(own, dtype=np.float64), turned.shape)

    def fore(along: float, front: float = 0.0) -> Array:
        return np.stack(forearm_place(raised, turned, arm.upper_arm, along, front), axis=-1)

    elbow, at_loop = fore(0.0), fore(loop, cable.loop_offset)
    at_guide = np.stack(guide_place(raised, arm.upper_arm, guide, cable.guide_offset), axis=-1)
    foot = square_foot(*elbow.T, *at_loop.T, *at_guide.T)
    return ArmPose(
        elbow=elbow,
        guide=at_guide,
        loop=at_loop,
        shell_end=fore(arm.forearm),
        centre=fore(beyond_elbow(arm)[1]),
        tip=fore(arm.tip),
        lever_foot=np.stack(foot, axis=-1),
        lever=lever_arm(
            turned,
            guide=guide,
            guide_offset=cable.guide_offset,
            loop=loop,
            loop_offset=cable.loop_offset,
        ),
    )
