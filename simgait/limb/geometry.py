"""Person, parts, alignment and wearer put together: the limb that is simulated."""

from __future__ import annotations

import math
from dataclasses import dataclass

from simgait.alignment import Alignment
from simgait.arrays import Array, beside, root, whole_power
from simgait.parts.foot import Foot
from simgait.parts.pylon import Pylon
from simgait.parts.shoe import ankle_lift, heel_tilt
from simgait.parts.socket import Socket
from simgait.parts.sole import solved_sole
from simgait.people import Person
from simgait.physics.trigonometry import cosine, sine
from simgait.wearer import GRAVITY, Wearer

BASE_FLEXION = math.radians(5.0)  # socket flexion of the bench alignment (memory, practice)
BRIM_AHEAD_OF_ANKLE = 0.0315  # [m] plumb line from mid-brim, middle of 25 to 38 mm (memory)
# [rad] the unloaded sole against a level floor, pylon upright: the foot gives by 4 to 8 degrees
# under a standing load 50 mm ahead of the ankle, so it is set toe down by as much (assumed)
BENCH_TILT = math.radians(-4.0)
HEEL_BEHIND_ANKLE = 0.25  # [1] share of the foot's length that lies behind the ankle axis (assumed)


@dataclass(frozen=True, kw_only=True)
class Bodies:
    """Mass, centre of mass from the socket pivot in the prosthesis' frame, inertia about it."""

    mass: float  # [kg]
    forward: float  # [m]
    up: float  # [m]
    inertia: float  # [kg m2]


@dataclass(frozen=True, kw_only=True)
class Limb:
    """Everything that one simulated stance needs.

    Frame of the prosthesis: origin at the socket pivot (middle of the enclosed residual limb), up
    along the residual limb's axis.
    """

    person: Person
    residual_limb_length: float  # [m]
    socket: Socket
    pylon: Pylon
    foot: Foot  # with its shoe, if any
    sound_lift: float  # [m] how far the sound side's shoe lifts its ankle
    level_lift: (
        float  # [m] the same less the prosthesis' own, in the shoes in which it was cut level
    )
    alignment: Alignment
    wearer: Wearer  # scaled to this person
    friction: float  # [1] coefficient of the sole on the floor

    @property
    def body_weight(self) -> float:
        """m g [N]."""
        return self.person.mass * GRAVITY

    @property
    def pivot_below_knee(self) -> float:
        """Knee axis to the socket pivot [m]."""
        return self.socket.pivot_below_knee(self.residual_limb_length)

    @property
    def socket_depth(self) -> float:
        """Enclosed length of the residual limb [m]."""
        return self.socket.enclosed_length(self.residual_limb_length)

    @property
    def end_below_pivot(self) -> float:
        """Socket pivot to the socket's end, where the unit is fixed [m]."""
        return self.socket.end_below_knee(self.residual_limb_length) - self.pivot_below_knee

    @property
    def leg_length(self) -> float:
        """Hip height of the sound side, standing shod [m]."""
        return self.person.hip_height + self.sound_lift

    @property
    def sole_tilt(self) -> float:
        """Turn of the sole against the foot as built, + toe up: dorsiflexion, heel rise [rad]."""
        return (
            BENCH_TILT
            + self.alignment.dorsiflexion
            + heel_tilt(self.alignment.heel_rise, self.foot.heel_rise, self.foot.length)
        )

    @property
    def sole_slope(self) -> float:
        """Turn of the sole in the prosthesis' frame, + toe up [rad]: a flexed socket leans
        forward by its flexion when the pylon is upright, so the sole turns with it."""
        return self.sole_tilt + self.alignment.socket_flexion

    @property
    def extra_flexion(self) -> float:
        """How much more the knee is bent than with the bench's socket flexion [rad]: the wearer
        keeps thigh and pylon as they are, so a socket tipped forward starts the knee bent."""
        return self.alignment.socket_flexion - BASE_FLEXION

    @property
    def ankle(self) -> tuple[float, float]:
        """Ankle axis in the prosthesis' frame [m].

        On the bench (pylon upright, bench alignment) the plumb line from the middle of the socket's
        brim falls 31.5 mm ahead of the ankle axis, near one third of the foot, and the knee is as
        high as the sound one in the shoes in which the pylon was cut; `foot_forward` and
        `length_change` add to that.  Other heels do not change the pylon.  Socket flexion turns
        the socket about its end.
        """
        flexion = self.alignment.socket_flexion
        brim = self.socket_depth / 2.0 * sine(BASE_FLEXION)
        bench = brim - BRIM_AHEAD_OF_ANKLE
        x = (
            bench
            + self.end_below_pivot * (sine(BASE_FLEXION) - sine(flexion))
            + self.alignment.foot_forward
        )
        knee = self.person.knee_height + self.level_lift + self.alignment.length_change
        y = self.foot.sole_height - knee + self.pivot_below_knee * cosine(flexion)
        return (
            x * cosine(flexion) - y * sine(flexion),
            x * sine(flexion) + y * cosine(flexion),
        )

    @property
    def pylon_length(self) -> float:
        """Distance from the socket's end to the ankle axis [m]."""
        x, y = self.ankle
        return root(whole_power(x, 2) + whole_power(y + self.end_below_pivot, 2))

    @property
    def sole(self) -> tuple[Array, Array]:
        """The unloaded sole's elements in the prosthesis' frame: forward and up [m]."""
        return sole_in_prosthesis(self)


def sole_in_prosthesis(limb: Limb) -> tuple[Array, Array]:
    """Return the unloaded sole's elements in the prosthesis' frame: forward and up [m].

    Dorsiflexion turns the sole about the ankle axis.  A heel rise other than the foot's own turns
    it about the forefoot's contact, 0.70 of the foot's length ahead of the heel's, and so lifts
    the ankle as well.

    Raises:
        RangeError: no sole has the foot's bench figures.
    """
    elements = solved_sole(limb.foot)
    foot = limb.foot
    lift = ankle_lift(limb.alignment.heel_rise, foot.heel_rise, foot.length, foot.heel_lever)
    turn = limb.sole_slope
    c, s = cosine(turn), sine(turn)
    x, y = beside(elements.forward, turn), beside(elements.up, turn)
    ankle_x, ankle_y = limb.ankle
    flexion = limb.alignment.socket_flexion
    return (
        ankle_x + x * c - y * s + lift * sine(flexion),
        ankle_y + x * s + y * c - lift * cosine(flexion),
    )


def prosthesis_bodies(limb: Limb) -> Bodies:
    """Return socket, pylon and foot as one rigid body.

    Socket and pylon as thin rods (enclosed limb with end gap; socket's end to ankle), the foot as a
    rod of its length at half its height, its middle 0.25 of its length ahead of the ankle axis.
    Inertia by Steiner's theorem: sum of m (L^2 / 12 + distance^2).

    Raises:
        RangeError: socket's end and ankle are closer than the pylon allows, or too far apart.
    """
    ankle_x, ankle_y = limb.ankle
    top, end = limb.socket_depth / 2.0, -limb.end_below_pivot
    foot = limb.foot
    turn = limb.sole_slope
    ahead = (0.5 - HEEL_BEHIND_ANKLE) * foot.length
    below = -foot.sole_height / 2.0
    length = limb.pylon_length
    parts = (
        (limb.socket.mass, 0.0, (top + end) / 2.0, top - end),
        (limb.pylon.mass(length), ankle_x / 2.0, (ankle_y + end) / 2.0, length),
        (
            foot.mass,
            ankle_x + ahead * cosine(turn) - below * sine(turn),
            ankle_y + ahead * sine(turn) + below * cosine(turn),
            foot.length,
        ),
    )
    mass = sum(part[0] for part in parts)
    forward = sum(m * x for m, x, _, _ in parts) / mass
    up = sum(m * y for m, _, y, _ in parts) / mass
    inertia = sum(
        m * (whole_power(size, 2) / 12.0 + whole_power(x - forward, 2) + whole_power(y - up, 2))
        for m, x, y, size in parts
    )
    return Bodies(mass=mass, forward=forward, up=up, inertia=inertia)
