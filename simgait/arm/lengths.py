"""How long the arm is: what it weighs on the shoulder, how it swings, how far it reaches.

The arm is held straight out and level unless said otherwise.  Moments and inertias count the
prosthesis and what is held, not the limb inside the socket.  Shells are uniform tubes, device and
load are points.
"""

from __future__ import annotations

import math

from simgait.errors import require
from simgait.parts.arm import Arm
from simgait.wearer import GRAVITY


def tube_inertia(mass: float, length: float) -> float:
    """Return the inertia of a thin uniform tube about its middle, m L^2 / 12 [kg m^2].

    mass: [kg]; length: [m].

    >>> tube_inertia(1.2, 1.0)
    0.09999999999999999
    """
    return mass * length**2 / 12.0


def held_moment(
    gravity: float,
    upper_arm: float,
    upper_mass: float,
    upper_centre: float,
    mass: float,
    centre: float,
    held: float,
    held_centre: float,
    flexion: float,
) -> float:
    """Return the moment about the shoulder of an upper arm held out level [N m]; + pulls down.

    Weights times level distances.  gravity: [m/s^2]; upper_arm: shoulder's axis to the elbow's [m];
    upper_mass, mass, held: of upper arm, shell, and device with load [kg]; upper_centre: from the
    shoulder's axis [m]; centre, held_centre: from the elbow's [m]; flexion: from straight [rad].

    >>> held_moment(10.0, 0.25, 1.0, 0.125, 1.0, 0.25, 0.5, 0.5, 0.0)
    10.0
    """
    cosine = math.cos(flexion)
    shell = mass * (upper_arm + centre * cosine)
    device = held * (upper_arm + held_centre * cosine)
    return gravity * (upper_mass * upper_centre + (shell + device))


def inertia_about_shoulder(
    upper_arm: float,
    upper_mass: float,
    upper_centre: float,
    forearm: float,
    mass: float,
    centre: float,
    held: float,
    held_centre: float,
    flexion: float,
) -> float:
    """Return the inertia about the shoulder's axis [kg m^2].

    Own inertia plus mass times squared distance (parallel axes), the distance by the cosine rule.
    forearm: length of the shell [m]; the others as in :func:`held_moment`.

    >>> inertia_about_shoulder(0.25, 0.0, 0.0, 0.25, 0.0, 0.0, 1.0, 0.25, 0.0)
    0.25
    """
    cosine = math.cos(flexion)
    upper = upper_mass * upper_centre**2 + tube_inertia(upper_mass, upper_arm)
    shell = tube_inertia(mass, forearm) + mass * (
        upper_arm**2 + centre**2 + 2.0 * upper_arm * centre * cosine
    )
    device = held * (upper_arm**2 + held_centre**2 + 2.0 * upper_arm * held_centre * cosine)
    return upper + (shell + device)


def moment_of_hanging(
    gravity: float,
    upper_arm: float,
    upper_mass: float,
    upper_centre: float,
    mass: float,
    centre: float,
    held: float,
    held_centre: float,
    flexion: float,
) -> float:
    """Return weight times the distance of the arm's centre from the shoulder's axis [N m].

    As :func:`held_moment`; what a swing about the shoulder is pulled back by.

    >>> moment_of_hanging(10.0, 0.25, 0.0, 0.0, 0.0, 0.0, 1.0, 0.25, 0.0)
    5.0
    """
    cosine, sine = math.cos(flexion), math.sin(flexion)
    above = upper_mass * upper_centre + mass * (upper_arm + centre * cosine)
    down = above + held * (upper_arm + held_centre * cosine)
    ahead = mass * centre * sine + held * held_centre * sine
    return gravity * math.hypot(down, ahead)


def whole_load(gravity: float, upper_mass: float, mass: float, device: float, held: float) -> float:
    """Return the weight of the prosthesis and what is held [N].

    gravity: [m/s^2]; upper_mass, mass, device, held: of upper arm, shell, device and load [kg].

    >>> whole_load(10.0, 1.0, 0.5, 0.25, 0.25)
    20.0
    """
    return gravity * (upper_mass + mass + device + held)


def moment_moved(moment: float, load: float, place: float) -> float:
    """Return a moment about the shoulder as one about a place along the level arm [N m].

    moment: about the shoulder [N m]; load: [N]; place: from the shoulder's axis [m].

    >>> moment_moved(3.0, 10.0, 0.25)
    0.5
    """
    return moment - load * place


def acceleration_from(moment: float, inertia: float) -> float:
    """Return the angular acceleration that a moment gives, M / I [rad/s^2].

    moment: [N m]; inertia: [kg m^2].

    >>> acceleration_from(3.0, 0.5)
    6.0
    """
    return moment / inertia


def beyond_shoulder(arm: Arm) -> tuple[float, float, float, float, float, float]:
    """Return mass and centre of upper arm, of shell, and of device with load [kg, m, ...]."""
    held = arm.device_mass + arm.held_mass
    upper = arm.upper_arm_mass, arm.upper_arm_centre
    return (*upper, arm.forearm_mass, arm.forearm_centre, held, arm.device_centre)


def level_moment(arm: Arm, flexion: float = 0.0, gravity: float = GRAVITY) -> float:
    """Return the moment about the shoulder with the upper arm held out level [N m]; + pulls down.

    :func:`held_moment` of an arm; the forearm is bent upwards.  flexion: of the elbow, from
    straight [rad]; gravity: [m/s^2].
    """
    return held_moment(gravity, arm.upper_arm, *beyond_shoulder(arm), flexion)


def shoulder_inertia(arm: Arm, flexion: float = 0.0) -> float:
    """Return the inertia about the shoulder's axis [kg m^2].

    :func:`inertia_about_shoulder` of an arm.  flexion: of the elbow, from straight [rad].
    """
    upper_mass, upper_centre, mass, centre, held, held_centre = beyond_shoulder(arm)
    return inertia_about_shoulder(
        arm.upper_arm,
        upper_mass,
        upper_centre,
        arm.forearm,
        mass,
        centre,
        held,
        held_centre,
        flexion,
    )


def hanging_moment(arm: Arm, flexion: float = 0.0, gravity: float = GRAVITY) -> float:
    """Return mass times gravity times the distance of the arm's centre from the shoulder [N m].

    flexion: of the elbow, held [rad]; gravity: [m/s^2].
    """
    return moment_of_hanging(gravity, arm.upper_arm, *beyond_shoulder(arm), flexion)


def swing_period(inertia: float, hanging: float) -> float:
    """Return the period of a small free swing, 2 pi sqrt(I / (m g c)) [s].

    inertia: about the axis [kg m^2]; hanging: mass times gravity times the distance of the centre
    from the axis [N m].

    >>> round(swing_period(1.0, 9.81), 3)  # a metre of thread
    2.006
    """
    return 2.0 * math.pi * math.sqrt(inertia / hanging)


def socket_couple(moment: float, load: float, depth: float) -> tuple[float, float]:
    """Return the forces at brim and end of a socket that carry a moment and a load [N].

    Statics: about the end, brim force x depth = moment; the end carries brim force and load.

    moment: about the end of the limb in the socket [N m]; load: across the limb [N]; depth: from
    brim to end [m].

    Raises:
        RangeError: the depth is no socket's.

    >>> socket_couple(3.0, 8.0, 0.1)
    (30.0, 38.0)
    """
    require(0.01, depth, 0.50, "depth of the socket [m]")
    brim = moment / depth
    return brim, brim + load


def moment_about(arm: Arm, place: float, gravity: float = GRAVITY) -> tuple[float, float]:
    """Return moment [N m] about a place along the straight level arm, and the whole load [N].

    place: from the shoulder's axis [m]; gravity: [m/s^2].
    """
    load = whole_load(gravity, arm.upper_arm_mass, arm.forearm_mass, arm.device_mass, arm.held_mass)
    return moment_moved(level_moment(arm, gravity=gravity), load, place), load


def reach_between(upper_arm: float, tip: float, flexion: float) -> float:
    """Return the distance from shoulder's axis to tip at a flexion, by the cosine rule [m].

    upper_arm, tip: from the elbow's axis [m]; flexion: from straight [rad].

    >>> reach_between(0.3, 0.4, 0.0)
    0.7
    """
    return math.sqrt(upper_arm**2 + tip**2 + 2.0 * upper_arm * tip * math.cos(flexion))


def comes_as_near_and_far(distance: float, upper_arm: float, tip: float, flexion_to: float) -> bool:
    """Return whether the tip comes as near and as far as a distance from the shoulder.

    The elbow bends from straight to the end of its range; a shoulder that turns freely points the
    arm.  distance, upper_arm, tip: [m]; flexion_to: [rad].

    >>> comes_as_near_and_far(0.4, 0.3, 0.4, 2.3), comes_as_near_and_far(0.8, 0.3, 0.4, 2.3)
    (True, False)
    """
    near = reach_between(upper_arm, tip, flexion_to)
    return near <= distance and distance <= upper_arm + tip
