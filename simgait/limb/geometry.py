"""Person, parts, alignment and wearer put together: the limb that is simulated."""

from __future__ import annotations

from dataclasses import dataclass

from simgait.alignment import Alignment
from simgait.arrays import root
from simgait.parts.foot import Foot
from simgait.parts.pylon import Pylon
from simgait.parts.shoe import heel_tilt
from simgait.parts.socket import Socket
from simgait.people import Person
from simgait.physics.bench import (
    BASE_FLEXION,
    BENCH_TILT,
    plumb_forward,
    plumb_up,
    squared,
    turned_forward,
    turned_up,
)
from simgait.wearer import GRAVITY, Wearer


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
        flexion, forward = self.alignment.socket_flexion, self.alignment.foot_forward
        x = plumb_forward(self.socket_depth, self.end_below_pivot, flexion, forward)
        knee = self.person.knee_height + self.level_lift + self.alignment.length_change
        y = plumb_up(self.foot.sole_height, knee, self.pivot_below_knee, flexion)
        return turned_forward(x, y, flexion), turned_up(x, y, flexion)

    @property
    def pylon_length(self) -> float:
        """Distance from the socket's end to the ankle axis [m]."""
        x, y = self.ankle
        return root(squared(x, y + self.end_below_pivot))

    def require_pylon(self) -> None:
        """Refuse a limb whose pylon cannot be made.

        Raises:
            RangeError: socket's end and ankle are closer than the pylon allows, or too far apart.
        """
        self.pylon.mass(self.pylon_length)
