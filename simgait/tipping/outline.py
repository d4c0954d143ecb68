"""Where everything of a wearer is through a scene, for whoever draws it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from simgait.arrays import Array
from simgait.engines.scene import Course
from simgait.engines.setting import SceneSole
from simgait.physics.scene import BODY_ANGLE, BODY_X
from simgait.standing.pose import Point
from simgait.tipping.anatomy import (
    PROSTHESIS,
    RESIDUAL,
    SOUND_FOOT,
    SOUND_SHANK,
    SOUND_THIGH,
    THIGH,
    TRUNK,
)
from simgait.tipping.playing import Stand

SHOULDER, CROWN = 0.818, 1.0  # [1] of stature (Drillis & Contini 1966, quoted)
LEAST_LOAD = 5.0  # [N] under which a foot has no pressure point


@dataclass(frozen=True, kw_only=True, eq=False)
class Track:
    """Points [m] and forces [N] through a scene, one row an instant, in the frame of the floor."""

    time: Array  # [n] s
    ending: str
    hip: Array  # [n, 2]
    shoulder: Array  # [n, 2]
    crown: Array  # [n, 2]
    knee: Array  # [n, 2]
    brim: Array  # [n, 2]
    limb_end: Array  # [n, 2]
    socket_end: Array  # [n, 2]
    ankle: Array  # [n, 2]
    sole: Array  # [n, elements, 2] undeformed; y < 0 is pressed in
    sound_hip: Array  # [n, 2]
    sound_knee: Array  # [n, 2]
    sound_ankle: Array  # [n, 2]
    sound_sole: Array  # [n, elements, 2]
    force: Array  # [n, 2, 2] of the floor on prosthesis and sound foot, forward and up
    pressure: Array  # [n, 2] where they act along the floor, NaN where hardly loaded
    centre: Array  # [n, 2] the body's
    extrapolated: Array  # [n] where the extrapolated centre's line of gravity meets the floor


def points_of(course: Course, body: int, places: Array) -> Array:
    """Return where places in a body's frame, from its centre of mass, are through a course [m].

    places: [..., 2] forward and up; returned: [n, ..., 2].
    """
    x, y, angle = (course.body[:, body, column] for column in (0, 1, BODY_ANGLE))
    shape = (len(x),) + (1,) * (places.ndim - 1)
    c, s = np.cos(angle).reshape(shape), -np.sin(angle).reshape(shape)
    forward, up = places[..., 0], places[..., 1]
    return np.stack(
        (x.reshape(shape) + forward * c + up * s, y.reshape(shape) + up * c - forward * s), axis=-1
    )


def track_of(stand: Stand, course: Course) -> Track:
    """Return the points and forces of a wearer through a course."""
    wearer, limb = stand.wearer, stand.wearer.standing.stance.limb
    pose, leg, stature = wearer.standing.pose, wearer.leg, limb.person.stature

    def joint(body: int, at: Point) -> Array:
        return points_of(course, body, np.array(stand.setting.bodies[body].placed(at)))

    def sole(of: SceneSole) -> Array:
        return points_of(course, of.body, np.stack((of.forward, of.up), axis=-1))

    x, y = wearer.trunk_place
    own = wearer.standing.stance.pieces
    along = np.array([-own.prosthesis_centre[0], -own.prosthesis_centre[1]])
    depth, hip_height = limb.socket_depth / 2.0, pose.hip[1]
    residual = own.residual_centre - own.pivot_below_knee
    loads = course.loads
    place = np.stack([course.body[:, body, BODY_X] for body in (PROSTHESIS, SOUND_FOOT)], axis=-1)
    up = loads[:, :, 1]
    return Track(
        time=course.time,
        ending=course.ending,
        hip=points_of(course, TRUNK, np.array([-x, -y])),
        shoulder=points_of(course, TRUNK, np.array([-x, SHOULDER * stature - hip_height - y])),
        crown=points_of(course, TRUNK, np.array([-x, CROWN * stature - hip_height - y])),
        knee=joint(THIGH, pose.knee),
        brim=points_of(course, PROSTHESIS, along + np.array([0.0, depth])),
        limb_end=points_of(course, RESIDUAL, np.array([0.0, residual - depth])),
        socket_end=points_of(course, PROSTHESIS, along + np.array([0.0, -limb.end_below_pivot])),
        ankle=joint(PROSTHESIS, pose.ankle),
        sole=sole(stand.setting.soles[0]),
        sound_hip=joint(SOUND_THIGH, leg.hip),
        sound_knee=joint(SOUND_SHANK, leg.knee),
        sound_ankle=joint(SOUND_FOOT, leg.ankle),
        sound_sole=sole(stand.setting.soles[1]),
        force=loads[:, :, :2],
        pressure=np.where(up > LEAST_LOAD, place + loads[:, :, 2] / np.maximum(up, 1.0), np.nan),
        centre=course.centre[:, :2],
        extrapolated=course.centre[:, 3],
    )
