"""What a free scene is made of: bodies, pivots, muscles, soles, and an ankle that balances."""

from __future__ import annotations

import math
from dataclasses import dataclass

from simgait.arrays import Array

Point = tuple[float, float]


@dataclass(frozen=True, kw_only=True)
class SceneBody:
    """A rigid body at rest: centre of mass in the room, lean of its own frame."""

    mass: float  # [kg]
    inertia: float  # [kg m2] about the centre of mass
    centre: Point  # [m]
    lean: float  # [rad] + top forward

    def placed(self, point: Point) -> Point:
        """Return a point of the room in the body's frame [m].

        >>> SceneBody(mass=1.0, inertia=1.0, centre=(1.0, 2.0), lean=0.0).placed((1.5, 2.0))
        (0.5, 0.0)
        """
        x, y = point[0] - self.centre[0], point[1] - self.centre[1]
        c, s = math.cos(self.lean), math.sin(self.lean)
        return x * c - y * s, x * s + y * c


@dataclass(frozen=True, kw_only=True)
class Pivot:
    """Two bodies joined at a point of the room, where they are when the scene begins."""

    upper: int
    lower: int
    at: Point  # [m]


@dataclass(frozen=True, kw_only=True)
class Muscle:
    """What turns a lower body on an upper one: see `simgait.physics.scene.pull_muscles`."""

    upper: int
    lower: int
    aim: float  # [rad] lean of the lower body less that of the upper
    feed: float  # [N m] at the aim, + turns the lower body's top forward
    stiffness: float  # [N m/rad]
    damping: float  # [N m s/rad]
    least: float = -math.inf  # [N m]
    greatest: float = math.inf  # [N m]
    stop_low: float = -math.inf  # [rad]
    stop_high: float = math.inf  # [rad]
    stop_stiffness: float = 0.0  # [N m/rad]


@dataclass(frozen=True, kw_only=True, eq=False)
class SceneSole:
    """A sole under one body, its elements given from the body's centre of mass in its frame."""

    body: int
    forward: Array  # [ELEMENTS] [m]
    up: Array  # [ELEMENTS] [m]
    stiffness: Array  # [ELEMENTS] [N/m]
    loss: Array  # [ELEMENTS] [1]
    onset: float  # [m]
    quickness: float  # [s/m]
    friction: float  # [1]
    sharpness: float  # [1/m]
    shear_damping: float  # [s/m]


@dataclass(frozen=True, kw_only=True)
class Balance:
    """The ankle that moves the pressure: see `simgait.physics.scene.balance_ankle`."""

    muscle: int  # its number
    axis: Point  # [m] in its foot's frame, from the foot's centre of mass
    reach_back: float  # [m] from the axis (negative)
    reach_ahead: float  # [m]
    stood: float  # [m] where the line of gravity through the body's centre is to meet the floor
    eagerness: float  # [1]
    rise_time: float  # [s]
    least_load: float  # [N] the load on the foot is reckoned with between these two
    most_load: float  # [N]
    flat_lean: float  # [rad] of the foot at rest
    flat_span: float  # [rad] to either side, within which it still lies on the floor
    flat_stiffness: float  # [N m/rad] with which the ankle gives way beyond


@dataclass(frozen=True, kw_only=True)
class Setting:
    """A whole scene at rest; bodies are named by their number in the list."""

    bodies: tuple[SceneBody, ...]
    pivots: tuple[Pivot, ...]
    muscles: tuple[Muscle, ...]
    soles: tuple[SceneSole, ...]  # the last one is the balancing ankle's, if there is one
    balance: Balance | None
    gravity: float  # [m/s2]
