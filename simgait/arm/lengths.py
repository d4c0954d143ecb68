"""How long the arm is: what it weighs on the shoulder, how it swings, how far it reaches.

The arm is held straight out and level unless said otherwise.  Moments and inertias count the
prosthesis and what is held, not the limb inside the socket.  Shells are uniform tubes, device and
load are points.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from simgait.errors import require
from simgait.parts.arm import Arm
from simgait.wearer import GRAVITY


@dataclass(frozen=True, kw_only=True)
class Piece:
    """A part of the arm on its line: mass [kg], distance [m] from the axis it hangs on, and own
    inertia about its centre [kg m^2]."""

    mass: float
    along: float
    own_inertia: float


def tube_inertia(mass: float, length: float) -> float:
    """Return the inertia of a thin uniform tube about its middle, m L^2 / 12 [kg m^2].

    mass: [kg]; length: [m].

    >>> tube_inertia(1.2, 1.0)
    0.09999999999999999
    """
    return mass * length**2 / 12.0


def forearm_pieces(arm: Arm) -> tuple[Piece, Piece]:
    """Return what hangs on the elbow: shell, and device with what it holds."""
    shell = Piece(
        mass=arm.forearm_mass,
        along=arm.forearm_centre,
        own_inertia=tube_inertia(arm.forearm_mass, arm.forearm),
    )
    held = Piece(mass=arm.device_mass + arm.held_mass, along=arm.device_centre, own_inertia=0.0)
    return shell, held


def level_moment(arm: Arm, flexion: float = 0.0, gravity: float = GRAVITY) -> float:
    """Return the moment about the shoulder with the upper arm held out level [N m]; + pulls down.

    Weights times level distances; the forearm is bent upwards.  flexion: of the elbow, from
    straight [rad]; gravity: [m/s^2].

    >>> from simgait.arm.lengths import level_moment
    """
    upper = arm.upper_arm_mass * arm.upper_arm_centre
    fore = sum(
        piece.mass * (arm.upper_arm + piece.along * math.cos(flexion))
        for piece in forearm_pieces(arm)
    )
    return gravity * (upper + fore)


def shoulder_inertia(arm: Arm, flexion: float = 0.0) -> float:
    """Return the inertia about the shoulder's axis [kg m^2].

    Own inertia plus mass times squared distance (parallel axes), the distance by the cosine rule.
    flexion: of the elbow, from straight [rad].
    """
    upper = arm.upper_arm_mass * arm.upper_arm_centre**2 + tube_inertia(
        arm.upper_arm_mass, arm.upper_arm
    )
    cosine = math.cos(flexion)
    fore = sum(
        piece.own_inertia
        + piece.mass
        * (arm.upper_arm**2 + piece.along**2 + 2.0 * arm.upper_arm * piece.along * cosine)
        for piece in forearm_pieces(arm)
    )
    return upper + fore


def hanging_moment(arm: Arm, flexion: float = 0.0, gravity: float = GRAVITY) -> float:
    """Return mass times gravity times the distance of the arm's centre from the shoulder [N m].

    flexion: of the elbow, held [rad]; gravity: [m/s^2].
    """
    down = arm.upper_arm_mass * arm.upper_arm_centre
    ahead = 0.0
    for piece in forearm_pieces(arm):
        down += piece.mass * (arm.upper_arm + piece.along * math.cos(flexion))
        ahead += piece.mass * piece.along * math.sin(flexion)
    return gravity * math.hypot(down, ahead)


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
    load = gravity * (arm.upper_arm_mass + arm.forearm_mass + arm.device_mass + arm.held_mass)
    return level_moment(arm, gravity=gravity) - load * place, load


def reach_between(upper_arm: float, tip: float, flexion: float) -> float:
    """Return the distance from shoulder's axis to tip at a flexion, by the cosine rule [m].

    upper_arm, tip: from the elbow's axis [m]; flexion: from straight [rad].

    >>> reach_between(0.3, 0.4, 0.0)
    0.7
    """
    return math.sqrt(upper_arm**2 + tip**2 + 2.0 * upper_arm * tip * math.cos(flexion))
