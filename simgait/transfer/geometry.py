"""Plane geometry of a chain of components: socket adapter, tilt, tube, tilt, foot adapter.

Frame of the socket: origin at the socket's end, where the chain begins, x forward, y up along the
axis of the residual limb.  A tilt turns all that hangs below it, + toe up, and so swings what
hangs there forward.  With the plates' shifts o and p, the adapters a and f, the span L between the
centres of both tilts a and b, and t = a + b, the ankle axis lies at

    x = o + L sin a + p cos t + f sin t,    y = -a_s - L cos a + p sin t - f cos t.

Derived: each part is a vector turned by the tilts above it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from simgait.errors import require


@dataclass(frozen=True, kw_only=True)
class Pose:
    """Where the foot hangs under the socket.

    >>> Pose(forward=0.01, below=0.25, turn=0.02).below
    0.25
    """

    forward: float  # [m] ankle axis ahead of the socket's axis
    below: float  # [m] ankle axis below the socket's end, along that axis
    turn: float  # [rad] foot against the socket's axis, + toe up

    def __post_init__(self) -> None:
        require(-0.3, self.forward, 0.3, "Pose.forward [m]")
        require(0.0, self.below, 0.8, "Pose.below [m]")
        require(-1.0, self.turn, 1.0, "Pose.turn [rad]")


@dataclass(frozen=True, kw_only=True)
class Chain:
    """The components between socket and foot, and how they are set."""

    socket_adapter: float  # [m] socket's end to the centre of the upper tilt, along the axis
    offset: float  # [m] shift at the socket's end, + forward
    upper_tilt: float  # [rad] + toe up
    span: float  # [m] between the centres of both tilts
    lower_tilt: float  # [rad] + toe up
    foot_shift: float  # [m] shift under the lower tilt, along the foot, + forward
    foot_adapter: float  # [m] centre of the lower tilt to the ankle axis, along the foot's own up

    def __post_init__(self) -> None:
        require(0.0, self.socket_adapter, 0.3, "Chain.socket_adapter [m]")
        require(-0.1, self.offset, 0.1, "Chain.offset [m]")
        require(-1.0, self.upper_tilt, 1.0, "Chain.upper_tilt [rad]")
        require(0.0, self.span, 0.9, "Chain.span [m]")
        require(-1.0, self.lower_tilt, 1.0, "Chain.lower_tilt [rad]")
        require(-0.1, self.foot_shift, 0.1, "Chain.foot_shift [m]")
        require(0.0, self.foot_adapter, 0.3, "Chain.foot_adapter [m]")

    @property
    def turn(self) -> float:
        """Turn of the foot against the socket: both tilts together [rad]."""
        return self.upper_tilt + self.lower_tilt

    @property
    def joints(self) -> tuple[tuple[float, float], ...]:
        """Socket's end, upper tilt, lower tilt and ankle axis in the frame of the socket [m].

        The plate of the socket's side lies at the socket's end.
        """
        upper = (self.offset, -self.socket_adapter)
        lower = (
            upper[0] + self.span * math.sin(self.upper_tilt),
            upper[1] - self.span * math.cos(self.upper_tilt),
        )
        c, s = math.cos(self.turn), math.sin(self.turn)
        ankle = (
            lower[0] + self.foot_shift * c + self.foot_adapter * s,
            lower[1] + self.foot_shift * s - self.foot_adapter * c,
        )
        return (0.0, 0.0), upper, lower, ankle

    @property
    def pose(self) -> Pose:
        """Where the chain holds the foot.

        >>> Chain(socket_adapter=0.03, offset=0.0, upper_tilt=0.0, span=0.2, lower_tilt=0.0,
        ...     foot_shift=0.01, foot_adapter=0.02).pose.below
        0.25
        """
        x, y = self.joints[-1]
        return Pose(forward=x, below=-y, turn=self.turn)


def span_and_tilt(
    pose: Pose, offset: float, socket_adapter: float, foot_adapter: float, turn: float
) -> tuple[float, float]:
    """Return the span [m] and the upper tilt [rad] that bring the ankle axis to a pose.

    The closed form: what both adapters leave is one straight tube, from the upper tilt to where
    the lower one must be; its length is the span, its lean the upper tilt.  Exact where the foot
    turns as the pose does.

    offset, socket_adapter, foot_adapter: [m], the latter two as in `Chain`; turn: of the foot
    [rad].

    >>> pose = Pose(forward=0.0, below=0.25, turn=0.0)
    >>> [round(value, 9) for value in span_and_tilt(pose, 0.0, 0.03, 0.02, 0.0)]
    [0.2, 0.0]
    """
    ahead = pose.forward - offset - foot_adapter * math.sin(turn)
    down = pose.below - socket_adapter - foot_adapter * math.cos(turn)
    return math.hypot(ahead, down), math.atan2(ahead, down)


def distance(one: Pose, other: Pose) -> float:
    """Return how far apart two poses hold the ankle axis [m]."""
    return math.hypot(one.forward - other.forward, one.below - other.below)
