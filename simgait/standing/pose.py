"""The limb above a foot that has settled, as the equations of `simgait.physics.resting` give it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from simgait.arrays import Array
from simgait.physics import rest_layout as rows
from simgait.physics.footing import above_turned, ahead_turned
from simgait.physics.resting import line_ahead_of, turning_moment
from simgait.standing.footing import Footing, footing_of
from simgait.standing.loading import Loading

Point = tuple[float, float]


@dataclass(frozen=True, kw_only=True, eq=False)
class Pose:
    """A limb at rest, in the frame of the floor; points [m] from the socket pivot's foot point.

    Moments [N m] are external: what floor and weights do to the joint; + bends it (knee, hip), or
    turns the socket in the sense that bends the knee.
    """

    footing: Footing
    loading: Loading
    prosthesis_lean: float  # [rad] against the floor's normal, + proximal end ahead
    residual_lean: float  # [rad]
    thigh_lean: float  # [rad]
    ankle: Point
    pivot: Point
    knee: Point
    hip: Point
    socket_moment: float
    knee_moment: float
    hip_moment: float
    numbers: Array  # the same as the equations filled them in, `simgait.physics.rest_layout`

    @property
    def knee_flexion(self) -> float:
        """Lean of the residual limb less lean of the thigh [rad]."""
        return self.residual_lean - self.thigh_lean

    @property
    def place(self) -> float:
        """Pressure point along the sole, ahead of the ankle axis [m]."""
        return self.footing.place

    def line_ahead_of(self, point: Point) -> float:
        """Return how far the load line passes ahead of a point [m].

        The line runs through the pressure point along the floor's force; measured along the floor.
        """
        return line_ahead_of(*point, self.loading.numbers, self.numbers)


def turning(force: Point, at: Point, about: Point) -> float:
    """Return the moment of a force [N] at a point about another [m], + turns the top forward [N m].

    >>> turning((0.0, 100.0), (0.0, 0.0), (0.1, 0.5))
    10.0
    """
    return turning_moment(*force, *at, *about)


def within(origin: Point, place: Point, lean: float) -> Point:
    """Return where a place in a leaning segment is [m]; ``place`` forward and up from its origin.

    >>> within((1.0, 0.0), (0.0, 2.0), 0.0)
    (1.0, 2.0)
    """
    c, s = math.cos(lean), math.sin(lean)
    return origin[0] + ahead_turned(*place, c, s), origin[1] + above_turned(*place, c, s)


def pose_of(loading: Loading, rest: Array, pose: Array) -> Pose:
    """Return what the equations filled in of a limb at rest.

    rest, pose: their flat arrays, `simgait.physics.rest_layout`.
    """

    def point(row: int) -> Point:
        return pose[row], pose[row + 1]

    return Pose(
        footing=footing_of(rest, pose),
        loading=loading,
        prosthesis_lean=pose[rows.POSE_LEAN],
        residual_lean=pose[rows.POSE_RESIDUAL],
        thigh_lean=pose[rows.POSE_THIGH],
        ankle=point(rows.POSE_ANKLE),
        pivot=point(rows.POSE_PIVOT),
        knee=point(rows.POSE_KNEE),
        hip=point(rows.POSE_HIP),
        socket_moment=pose[rows.POSE_SOCKET_MOMENT],
        knee_moment=pose[rows.POSE_KNEE_MOMENT],
        hip_moment=pose[rows.POSE_HIP_MOMENT],
        numbers=pose,
    )
