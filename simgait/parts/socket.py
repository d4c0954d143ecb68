"""A socket, and how the residual limb sits in it."""

from __future__ import annotations

from dataclasses import dataclass

from simgait.errors import require

SHORTEST_ENCLOSED = 0.03  # [m] less than this holds no limb


@dataclass(frozen=True, kw_only=True)
class Socket:
    """A transtibial socket; all depths run down the residual limb from the knee axis.

    The stiffness and damping are those of soft tissue, liner and wall together, for the residual
    limb turning in the sagittal plane against the socket.

    >>> socket = Socket(name="example", brim_below_knee=0.02, end_gap=0.015,
    ...     rotational_stiffness=860.0, rotational_damping=10.0, mass=0.6)
    >>> round(socket.enclosed_length(0.15), 3), round(socket.pivot_below_knee(0.15), 3)
    (0.13, 0.085)
    """

    name: str
    brim_below_knee: float  # [m] knee axis to the level where the wall begins to carry
    end_gap: float  # [m] end of the residual limb to the outside of the socket's end
    rotational_stiffness: float  # [N m/rad]
    rotational_damping: float  # [N m s/rad]
    mass: float  # [kg] socket and liner

    def __post_init__(self) -> None:
        require(-0.03, self.brim_below_knee, 0.10, "Socket.brim_below_knee [m]")
        require(0.0, self.end_gap, 0.10, "Socket.end_gap [m]")
        require(50.0, self.rotational_stiffness, 5e4, "Socket.rotational_stiffness [N m/rad]")
        require(0.0, self.rotational_damping, 500.0, "Socket.rotational_damping [N m s/rad]")
        require(0.05, self.mass, 4.0, "Socket.mass [kg]")

    def enclosed_length(self, residual_limb: float) -> float:
        """Length of limb inside the socket, from the brim to the limb's end [m].

        ``residual_limb``: knee axis to the limb's end [m].

        Raises:
            RangeError: less than 30 mm of limb would be inside.
        """
        enclosed = residual_limb - self.brim_below_knee
        require(SHORTEST_ENCLOSED, enclosed, 0.60, "length of limb inside the socket [m]")
        return enclosed

    def pivot_below_knee(self, residual_limb: float) -> float:
        """Depth of the middle of the enclosed limb, about which it turns in the socket [m].

        ``residual_limb``: knee axis to the limb's end [m].

        Raises:
            RangeError: less than 30 mm of limb would be inside.
        """
        return self.brim_below_knee + self.enclosed_length(residual_limb) / 2.0

    def end_below_knee(self, residual_limb: float) -> float:
        """Depth of the outside of the socket's end, where the unit is fixed [m].

        ``residual_limb``: knee axis to the limb's end [m].
        """
        return residual_limb + self.end_gap
