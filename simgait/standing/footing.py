"""The sole pressed on the floor at rest: how deep it sinks, and where it carries."""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from simgait.arrays import Array
from simgait.physics import rest_layout as rows
from simgait.physics.footing import above_turned, ahead_turned, settle
from simgait.physics.layout import ELEMENTS
from simgait.standing.flat import flat


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
    ahead, above = (part(forward, up, c, s) for part in (ahead_turned, above_turned))  # type: ignore[arg-type]
    return np.stack((ahead, above), axis=-1)


def put_strip(strip: Strip, rest: Array) -> None:
    """Write a sole's elements into the flat array of a limb at rest."""
    rest[rows.REST_ONSET] = strip.onset
    columns = (strip.forward, strip.up, strip.along, strip.stiffness)
    for row, column in enumerate(columns, start=rows.REST_SOLE):
        rest[row : rows.REST_ROWS : 4] = [float(value) for value in column]


def footing_of(rest: Array, pose: Array) -> Footing:
    """Return the settled sole of a pose."""
    lean = pose[rows.POSE_LEAN]
    sole = np.array(rest[rows.REST_SOLE : rows.REST_ROWS]).reshape(ELEMENTS, 4)
    return Footing(
        height=pose[rows.POSE_HEIGHT],
        force=np.array(pose[rows.POSE_SOLE + rows.POSE_FORCE : rows.POSE_ROWS : 3]),
        pressure=pose[rows.POSE_PRESSURE],
        place=pose[rows.POSE_PLACE],
        heel_share=pose[rows.POSE_HEEL_SHARE],
        points=turned(lean, sole[:, rows.REST_FORWARD], sole[:, rows.REST_UP]),
    )


@functools.lru_cache(maxsize=2048)
def settled(strip: Strip, normal: float, lean: float) -> Footing:
    """Return the sole at rest under a load square to the floor, `simgait.physics.footing.settle`.

    ``normal``: the load [N]; ``lean`` of the prosthesis against the floor [rad].
    """
    rest, pose = flat(rows.REST_ROWS), flat(rows.POSE_ROWS)
    put_strip(strip, rest)
    settle(normal, lean, rest, pose, flat(rows.BRACKET_ROWS))
    return footing_of(rest, pose)
