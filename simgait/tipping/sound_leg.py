"""The sound leg at rest beside a standing prosthesis: foot, joints, what its muscles hold."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from simgait.arrays import Array
from simgait.library.strengths import TippingHabit
from simgait.parts.sole import ONSET
from simgait.people import Person, foot_mass, shank, thigh
from simgait.physics.bench import HEEL_BEHIND_ANKLE
from simgait.physics.layout import ELEMENTS
from simgait.standing.footing import Footing, settled
from simgait.standing.pose import Point, Pose, turning, within
from simgait.standing.result import Standing
from simgait.standing.roots import root_between

STEEPEST_FOOT = math.radians(20.0)  # of the sound foot at rest, when it is looked for


@dataclass(frozen=True, kw_only=True, eq=False)
class Strip:
    """A flat sole under an ankle, its elements in the foot's frame from the ankle axis."""

    forward: Array  # [ELEMENTS] [m]
    up: Array  # [ELEMENTS] [m]
    along: Array  # [ELEMENTS] [m]
    stiffness: Array  # [ELEMENTS] [N/m]
    loss: Array  # [ELEMENTS] [1]
    onset: float  # [m]


@dataclass(frozen=True, kw_only=True, eq=False)
class SoundLeg:
    """The sound leg at rest over its foot."""

    strip: Strip
    pressure: float  # [m] where the foot carries, along the floor
    leans: tuple[float, float, float]  # [rad] of thigh, shank and foot
    hip: Point
    knee: Point
    ankle: Point
    feeds: tuple[float, float, float]  # [N m] of hip, knee and ankle muscles that hold it


def sound_strip(person: Person, lift: float, habit: TippingHabit, effective: float) -> Strip:
    """Return the sound foot's sole: flat, a quarter behind the ankle, as long as it can carry.

    lift: of the ankle by the shoe [m]; effective: share of the foot's length that carries [1].
    """
    foot = person.foot_length
    heel, toe = -HEEL_BEHIND_ANKLE * foot, (effective - HEEL_BEHIND_ANKLE) * foot
    width = (toe - heel) / ELEMENTS
    forward: Array = heel + width * (np.arange(ELEMENTS, dtype=np.float64) + 0.5)
    return Strip(
        forward=forward,
        up=np.full(ELEMENTS, -(person.ankle_height + lift)),
        along=forward,
        stiffness=np.full(ELEMENTS, habit.sound_sole_stiffness / ELEMENTS),
        loss=np.full(ELEMENTS, habit.sound_sole_loss),
        onset=ONSET,
    )


def sound_leg(
    standing: Standing, pose: Pose, habit: TippingHabit, above: float | None = None
) -> SoundLeg:
    """Return the sound leg beside a standing prosthesis: ankles side by side, hips in one place.

    The foot leans until it carries where the prosthesis does; the knee is bent by the usual little,
    and where that makes the leg longer or shorter than the other, the pelvis tilts.

    standing: whose shares of the weight and limb; pose: of the prosthesis, on whatever slope;
    above: height of this hip over the other [m] to which the knee bends, where that is given.
    """
    stance = standing.stance
    limb, person = stance.limb, stance.limb.person
    strip = sound_strip(person, limb.sound_lift, habit, stance.habit.sound_effective_length)
    ratio = (1.0 - standing.share) / standing.share
    floor = (ratio * pose.loading.along, ratio * pose.loading.normal)
    wanted = pose.footing.pressure - pose.ankle[0]
    wanted = min(max(wanted, 0.9 * float(strip.along[0])), 0.9 * float(strip.along[-1]))
    lean = root_between(
        lambda angle: settled(strip, floor[1], angle).place - wanted, -STEEPEST_FOOT, STEEPEST_FOOT
    )
    footing = settled(strip, floor[1], lean)
    ankle = (pose.ankle[0], footing.height)
    upper, lower = person.thigh_length, person.shank_length
    bend, reach = stance.habit.knee_flexion, pose.hip[0] - ankle[0]
    if above is not None:
        bend = bend_between(upper, lower, math.hypot(reach, pose.hip[1] + above - ankle[1]))
    distance = math.sqrt(upper**2 + lower**2 + 2.0 * upper * lower * math.cos(bend))
    shank_lean = math.asin(reach / distance) + math.asin(upper * math.sin(bend) / distance)
    leans = (shank_lean - bend, shank_lean, lean)
    knee = within(ankle, (0.0, lower), shank_lean)
    hip = within(knee, (0.0, upper), shank_lean - bend)
    return SoundLeg(
        strip=strip,
        pressure=ankle[0] + footing.pressure,
        leans=leans,
        hip=hip,
        knee=knee,
        ankle=ankle,
        feeds=_sound_feeds(person, floor, pose, (hip, knee, ankle), leans, footing),
    )


def bend_between(upper: float, lower: float, distance: float) -> float:
    """Return the flexion of a knee whose hip and ankle are a distance apart [rad]; 0 if too far.

    Law of cosines: d^2 = u^2 + l^2 + 2 u l cos(flexion).  All lengths [m].

    >>> round(math.degrees(bend_between(3.0, 4.0, 5.0)), 9)
    90.0
    """
    cosine = (distance**2 - upper**2 - lower**2) / (2.0 * upper * lower)
    return math.acos(min(max(cosine, -1.0), 1.0))


def _sound_feeds(
    person: Person,
    floor: Point,
    pose: Pose,
    joints: tuple[Point, Point, Point],
    leans: tuple[float, float, float],
    footing: Footing,
) -> tuple[float, float, float]:
    """Return what hip, knee and ankle must give by statics, + turns the lower body's top forward.

    floor: force of the floor on the sound foot, along and square to it [N].
    """
    hip, knee, ankle = joints
    pulls = [(floor, (ankle[0] + footing.pressure, 0.0))]
    feeds = []
    for joint, (mass, centre) in (
        (ankle, sound_foot(person, ankle, leans[2])[:2]),
        (knee, sound_segment(person, "shank", knee, leans[1])),
        (hip, sound_segment(person, "thigh", hip, leans[0])),
    ):
        weight = (mass * pose.loading.gravity_along, mass * pose.loading.gravity_up)
        pulls.append((weight, centre))
        feeds.append(-sum(turning(force, at, joint) for force, at in pulls))
    return feeds[2], feeds[1], feeds[0]


def sound_segment(person: Person, name: str, top: Point, lean: float) -> tuple[float, Point]:
    """Return mass [kg] and centre of mass of the sound "thigh" or "shank" below its top joint."""
    segment = thigh(person) if name == "thigh" else shank(person)
    return segment.mass, within(top, (0.0, -segment.centre), lean)


def sound_foot(person: Person, ankle: Point, lean: float) -> tuple[float, Point, float]:
    """Return mass [kg], centre of mass, inertia [kg m2] of the sound foot: a rod of its length.

    Half as high as the ankle axis, its middle a quarter of its length ahead of it (assumed, as for
    the prosthesis' foot).
    """
    mass = foot_mass(person)
    ahead = (0.5 - HEEL_BEHIND_ANKLE) * person.foot_length
    centre = within(ankle, (ahead, -0.5 * person.ankle_height), lean)
    return mass, centre, mass * person.foot_length**2 / 12.0
