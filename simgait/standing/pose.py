"""The limb above a foot that has settled: joint moments and places by statics, from the floor up.

Below the knee everything is determined: the floor's force, the socket's spring, the weights. Above
it the wearer is free; a relaxed hip carries no moment, and that sets the lean of the thigh.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from simgait.standing.footing import Footing, settled
from simgait.standing.loading import Loading
from simgait.standing.pieces import Pieces

Point = tuple[float, float]
Pull = tuple[Point, Point]  # a force [N] and the point at which it acts [m]


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
        x, y = point
        return self.footing.pressure + y * self.loading.along / self.loading.normal - x


def turning(force: Point, at: Point, about: Point) -> float:
    """Return the moment of a force [N] at a point about another [m], + turns the top forward [N m].

    >>> turning((0.0, 100.0), (0.0, 0.0), (0.1, 0.5))
    10.0
    """
    return (at[1] - about[1]) * force[0] - (at[0] - about[0]) * force[1]


def within(origin: Point, place: Point, lean: float) -> Point:
    """Return where a place in a leaning segment is [m]; ``place`` forward and up from its origin.

    >>> within((1.0, 0.0), (0.0, 2.0), 0.0)
    (1.0, 2.0)
    """
    c, s = math.cos(lean), math.sin(lean)
    return origin[0] + place[0] * c + place[1] * s, origin[1] + place[1] * c - place[0] * s


def pose_at(pieces: Pieces, loading: Loading, lean: float, straightest: float) -> Pose:
    """Return the limb at rest with the prosthesis at one lean against the floor [rad].

    ``straightest``: knee flexion below which ligaments hold the knee [rad], negative past straight;
    the hip is relaxed unless that stops the knee.
    """
    footing = settled(pieces, loading.normal, lean)
    floor: Pull = ((loading.along, loading.normal), (footing.pressure, 0.0))
    pivot = (0.0, footing.height)
    centre = within(pivot, pieces.prosthesis_centre, lean)
    prosthesis: Pull = (_weight(pieces.prosthesis_mass, loading), centre)
    socket = sum(turning(force, at, pivot) for force, at in (floor, prosthesis))
    residual_lean = lean - socket / pieces.socket_stiffness
    knee = within(pivot, (0.0, pieces.pivot_below_knee), residual_lean)
    centre = within(knee, (0.0, -pieces.residual_centre), residual_lean)
    below = (floor, prosthesis, (_weight(pieces.residual_mass, loading), centre))
    knee_moment = sum(turning(force, at, knee) for force, at in below)
    relaxed = relaxed_thigh(pieces, loading, below, knee_moment)
    thigh_lean = min(relaxed, residual_lean - straightest)
    hip = within(knee, (0.0, pieces.thigh_length), thigh_lean)
    centre = within(hip, (0.0, -pieces.thigh_centre), thigh_lean)
    thigh: Pull = (_weight(pieces.thigh_mass, loading), centre)
    return Pose(
        footing=footing,
        loading=loading,
        prosthesis_lean=lean,
        residual_lean=residual_lean,
        thigh_lean=thigh_lean,
        ankle=within(pivot, pieces.ankle, lean),
        pivot=pivot,
        knee=knee,
        hip=hip,
        socket_moment=socket,
        knee_moment=knee_moment,
        hip_moment=-sum(turning(force, at, hip) for force, at in (*below, thigh)),
    )


def relaxed_thigh(
    pieces: Pieces, loading: Loading, below: tuple[Pull, ...], knee_moment: float
) -> float:
    """Return the lean of the thigh at which the hip carries no moment [rad].

    Moments about the hip of what the knee hands up (the forces ``below`` it and ``knee_moment``
    [N m]) and of the thigh's weight: -M + a cos - b sin = 0, a and b being force times arm, along
    the floor and square to it.  Where no lean does it, the nearest.
    """
    weight = _weight(pieces.thigh_mass, loading)
    along, up = (sum(force[axis] for force, _ in below) for axis in (0, 1))
    a = pieces.thigh_length * along + pieces.thigh_centre * weight[0]
    b = pieces.thigh_length * up + pieces.thigh_centre * weight[1]
    share = min(max(-knee_moment / math.hypot(a, b), -1.0), 1.0)
    return math.atan2(a, b) + math.asin(share)


def _weight(mass: float, loading: Loading) -> Point:
    return mass * loading.gravity_along, mass * loading.gravity_up
