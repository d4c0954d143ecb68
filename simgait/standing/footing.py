"""The sole pressed on the floor at rest: how deep it sinks, and where it carries."""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from simgait.arrays import Array
from simgait.engines import plain
from simgait.standing.roots import root_between

DEEPEST = 0.001  # [m] first guess of a depth that carries more than the load; doubled until it does


class Strip(Protocol):
    """Elements of a sole in the frame of what carries it."""

    @property
    def forward(self) -> Array:
        """Ahead of the frame's origin [elements] [m]."""

    @property
    def up(self) -> Array:
        """Above it [elements] [m]."""

    @property
    def along(self) -> Array:
        """Along the sole, ahead of the ankle axis [elements] [m]."""

    @property
    def stiffness(self) -> Array:
        """Of each element when pressed deep [elements] [N/m]."""

    @property
    def loss(self) -> Array:
        """Has no part in statics [elements] [1]."""

    @property
    def onset(self) -> float:
        """Depth over which an element's stiffness comes up [m]."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Footing:
    """A sole at rest under a load, at one lean of the prosthesis against the floor."""

    height: float  # [m] of the socket pivot above the floor
    force: Array  # [elements] [N] square to the floor
    pressure: float  # [m] pressure point ahead of the socket pivot, along the floor
    place: float  # [m] pressure point along the sole, ahead of the ankle axis
    heel_share: float  # [1] of the load, carried behind the ankle axis
    points: Array  # [elements, 2] [m] of the unloaded sole, from the pivot, in the floor's frame


def turned(lean: float, forward: Array, up: Array) -> Array:
    """Return points of a leaning body in the floor's frame [m]; lean + proximal end ahead [rad].

    Forward a and up b become a cos + b sin and -a sin + b cos.

    >>> turned(0.0, np.array([1.0]), np.array([2.0])).tolist()
    [[1.0, 2.0]]
    """
    c, s = math.cos(lean), math.sin(lean)
    return np.stack((forward * c + up * s, up * c - forward * s), axis=-1)


@functools.lru_cache(maxsize=2048)
def settled(pieces: Strip, normal: float, lean: float) -> Footing:
    """Return the sole at rest under a load square to the floor.

    The elements' law is the kernel's `normal_force` at no sinking speed; the depth is solved so
    that their forces add up to ``normal`` [N]. ``lean`` of the prosthesis against the floor [rad].
    """
    points = turned(lean, pieces.forward, pieces.up)
    law = plain.kernel().normal_force
    low = float(points[:, 1].min())

    def forces(sunk: float) -> Array:
        depth = np.maximum(sunk + low - points[:, 1], 0.0)
        return np.asarray(law(pieces.stiffness, pieces.loss, depth, pieces.onset, 0.0))

    deep = DEEPEST
    while forces(deep).sum() < normal:
        deep *= 2.0
    sunk = root_between(lambda depth: float(forces(depth).sum()) - normal, 0.0, deep)
    force = forces(sunk)
    whole = float(force.sum())
    return Footing(
        height=-(low + sunk),
        force=force,
        pressure=float(force @ points[:, 0]) / whole,
        place=float(force @ pieces.along) / whole,
        heel_share=float(force[pieces.along < 0.0].sum()) / whole,
        points=points,
    )
