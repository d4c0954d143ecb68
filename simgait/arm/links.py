"""The sections of an arm as rigid links: what hangs on the elbow, on the shoulder, and both as one.

Shells are uniform tubes, device and load are points, as in the lengths.
"""

from __future__ import annotations

import math

from simgait.arm.lengths import tube_inertia
from simgait.arm.pose import beyond_elbow
from simgait.engines.arm_setting import Link
from simgait.errors import RangeError
from simgait.parts.arm import Arm


def forearm_link(arm: Arm) -> Link:
    """Return forearm, device and load as one link, hung on the elbow's axis.

    Parallel axes: own inertia of the shell, and every mass times its squared distance from the
    common centre.

    Raises:
        RangeError: nothing hangs on the elbow.
    """
    mass, centre = beyond_elbow(arm)
    held = arm.device_mass + arm.held_mass
    inertia = (
        tube_inertia(arm.forearm_mass, arm.forearm)
        + arm.forearm_mass * (arm.forearm_centre - centre) ** 2
        + held * (arm.device_centre - centre) ** 2
    )
    return Link(mass=mass, inertia=inertia, centre=(centre, 0.0), length=arm.tip)


def upper_arm_link(arm: Arm) -> Link:
    """Return the prosthesis between shoulder and elbow as a link, hung on the shoulder's axis.

    Raises:
        RangeError: it has no mass.
    """
    if arm.upper_arm_mass == 0.0:
        raise RangeError("Arm.upper_arm_mass [kg] is 0.0: without it a free elbow cannot swing")
    inertia = tube_inertia(arm.upper_arm_mass, arm.upper_arm)
    return Link(
        mass=arm.upper_arm_mass,
        inertia=inertia,
        centre=(arm.upper_arm_centre, 0.0),
        length=arm.upper_arm,
    )


def bent_arm(arm: Arm, flexion: float) -> tuple[Link, float]:
    """Return the whole arm with its elbow locked as one link, and the lean at which it rests.

    The link's line is the upper arm's; it rests [rad from hanging] where its centre hangs under
    the shoulder. flexion: of the elbow, from straight [rad].
    """
    fore = forearm_link(arm)
    down = arm.upper_arm + fore.centre[0] * math.cos(flexion)
    ahead = fore.centre[0] * math.sin(flexion)
    mass = arm.upper_arm_mass + fore.mass
    along = (arm.upper_arm_mass * arm.upper_arm_centre + fore.mass * down) / mass
    front = fore.mass * ahead / mass
    inertia = (
        tube_inertia(arm.upper_arm_mass, arm.upper_arm)
        + arm.upper_arm_mass * ((arm.upper_arm_centre - along) ** 2 + front**2)
        + fore.inertia
        + fore.mass * ((down - along) ** 2 + (ahead - front) ** 2)
    )
    whole = Link(mass=mass, inertia=inertia, centre=(along, front), length=arm.upper_arm)
    return whole, -math.atan2(front, along)
